"""A comparison as plain JSON values: for scripts and for the page, the same."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from biofeedback.measures.retest_json import limits

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.measures.comparison import Comparison, LevelView


def as_json(
    found: Comparison, *, seed: int, notes: Sequence[str] = ()
) -> dict[str, Any]:
    """All figures; no athlete stands in them.

    Args:
        seed: of the bootstrap.
        notes: what is to be known of where the pairs came from.
    """
    forces, together = found.forces, found.correlation
    return {
        "unit": "N",
        "athletes": len(forces.isometric_n),
        "averaged": forces.averaged,
        "left_out": forces.left_out,
        "isometric_mean_n": float(forces.isometric_n.mean()),
        "eccentric_mean_n": float(forces.eccentric_n.mean()),
        "correlation": None
        if together is None
        else {
            "r": together.r,
            "ci95_fisher": together.interval,
            "p": together.p_value,
        },
        "eccentric_less_isometric": limits(found.agreement),
        "along": {view.line.level.value: _view(view) for view in found.views},
        "seed": seed,
        "notes": list(notes),
        "cautions": list(found.cautions),
    }


def _view(view: LevelView) -> dict[str, Any]:
    line, drawn = view.line, view.bootstrap
    return {
        "slope": line.slope,
        "slope_ci95": line.slope_interval,
        "slope_p": line.slope_p,
        "intercept_n": line.intercept_n,
        "levels_n": line.levels_n,
        "crossing_n": line.crossing_n,
        "crossing_within_levels": line.crosses_within,
        "crossing_ci95_fieller_n": line.crossing_interval_n,
        "crossing_ci95_bootstrap_n": drawn.crossing_interval_n,
        "resamples": drawn.resamples,
        "other_slopes": drawn.other_slopes,
        "r_ci95_bootstrap": drawn.r_interval,
    }
