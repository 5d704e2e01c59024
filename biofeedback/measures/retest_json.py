"""The figures of a table of repeated scores as JSON: one form for command and page."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.measures.agreement import Agreement
    from biofeedback.measures.reliability import Variation
    from biofeedback.measures.retest import Retest
    from biofeedback.measures.trial_error import TypicalError


def as_json(
    found: Retest, *, trials: Sequence[str], unit: str, notes: Sequence[str]
) -> dict[str, Any]:
    """All figures.

    Args:
        trials: names of the columns.
        unit: of the scores.
        notes: how the table was read, and what was left out.
    """
    error, repeat = found.error, found.repeatability
    return {
        "unit": unit,
        "people": found.people,
        "complete": found.complete,
        "trials": list(trials),
        "mean": found.mean,
        "variation": None if found.variation is None else _variation(found.variation),
        "icc": {
            each.form.value: {"value": each.value, "ci95": [each.lower, each.upper]}
            for each in found.iccs
        },
        "error": None if error is None else _error(error),
        "agreement": None if found.agreement is None else limits(found.agreement),
        "repeatability": None
        if repeat is None
        else {
            "within_sd": repeat.within_sd,
            "coefficient": repeat.coefficient,
            "degrees_of_freedom": repeat.degrees_of_freedom,
        },
        "notes": list(notes),
        "cautions": list(found.cautions),
    }


def _variation(found: Variation) -> dict[str, Any]:
    return {
        "trial_means": found.trial_means,
        "ms_people": found.ms_people,
        "ms_trials": found.ms_trials,
        "ms_error": found.ms_error,
        "ms_within": found.ms_within,
        "trials_f": found.trials_f,
        "trials_p": found.trials_p,
    }


def _error(error: TypicalError) -> dict[str, Any]:
    return {
        "sem": error.sem,
        "sem_ci95": error.interval,
        "cv_pct": error.cv_pct,
        "cv_ci95_pct": error.cv_interval_pct,
        "mdc95": error.mdc95,
        "mdc90": error.mdc90,
        "degrees_of_freedom": error.degrees_of_freedom,
        "people": error.people,
        "scores": error.scores,
    }


def limits(found: Agreement) -> dict[str, Any]:
    """Bias and limits of agreement."""
    return {
        "people": found.people,
        "bias": found.bias,
        "bias_ci95": found.bias_interval,
        "sd": found.sd,
        "limits": found.limits,
        "limits_ci95_exact": found.exact_intervals,
        "limits_ci95_1986": found.simple_intervals,
        "limits_ci95_1999": found.finer_intervals,
    }
