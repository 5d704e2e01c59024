"""The two pictures of a group: eccentric on isometric force, and their difference."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.measures.level_difference import Level
from biofeedback.phrase import joined, phrase
from biofeedback.report.pair_picture import PairChart, PairPoint, Slant, Upright

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.measures.comparison import Comparison, LevelView
    from biofeedback.measures.eccentric_check import MassLine
    from biofeedback.phrase import Phrase


def group_charts(
    found: Comparison,
    *,
    level: Level = Level.ISOMETRIC,
    lines: Sequence[MassLine] = (),
) -> tuple[PairChart, PairChart]:
    """Both pictures.

    Args:
        level: what the difference is held against.
        lines: drawn where the level is the isometric force.
    """
    uprights = tuple(Upright(line.force_n, _line_words(line)) for line in lines)
    return _scatter(found, uprights), _difference(
        found, level, uprights if level is Level.ISOMETRIC else ()
    )


def correlation_words(found: Comparison) -> Phrase:
    """The correlation with its intervals."""
    together = found.correlation
    if together is None:
        return phrase("Correlation: none, one of the forces does not vary.")
    told = phrase("Correlation: r = {r:.2f}", r=together.r)
    if together.interval is not None:
        lower, upper = together.interval
        told = joined(
            ", ",
            (
                told,
                phrase(
                    "{lower:.2f} to {upper:.2f} (95 %, Fisher)",
                    lower=lower,
                    upper=upper,
                ),
            ),
        )
    if found.views and found.views[0].bootstrap.r_interval is not None:
        lower, upper = found.views[0].bootstrap.r_interval
        told = joined(
            ", ",
            (
                told,
                phrase(
                    "bootstrap {lower:.2f} to {upper:.2f}", lower=lower, upper=upper
                ),
            ),
        )
    return told


def slope_words(view: LevelView) -> Phrase:
    """The slope of the difference on a level."""
    lower, upper = view.line.slope_interval
    return phrase(
        "Line of the difference: {slope:.2f} N per N, {lower:.2f} to {upper:.2f} "
        "(95 %)",
        slope=view.line.slope,
        lower=lower,
        upper=upper,
    )


def crossing_words(view: LevelView) -> Phrase:
    """Where the line crosses zero, by Fieller and by drawing again."""
    line, drawn = view.line, view.bootstrap
    if line.crossing_n is None:
        return phrase("It crosses zero nowhere: the line has no slope.")
    return phrase(
        "It crosses zero at {crossing_n:.0f} N: {fieller} (95 %, Fieller); "
        "bootstrap {bootstrap}",
        crossing_n=line.crossing_n,
        fieller=_newtons(line.crossing_interval_n),
        bootstrap=_newtons(drawn.crossing_interval_n),
    )


def _newtons(limits_n: tuple[float, float] | None) -> Phrase:
    if limits_n is None:
        return phrase("no finite interval")
    return phrase(
        "{lower_n:.0f} to {upper_n:.0f} N", lower_n=limits_n[0], upper_n=limits_n[1]
    )


def _line_words(line: MassLine) -> Phrase:
    return phrase(
        "{name} {force_n:.0f} N: {source}",
        name=phrase_of(line.name),
        force_n=line.force_n,
        source=phrase_of(line.source),
    )


def phrase_of(text: str) -> Phrase:
    """A text of the settings, which may be one of ours and then has a translation."""
    known = {
        "men": phrase("men"),
        "women": phrase("women"),
        "common practice, no published source": phrase(
            "common practice, no published source"
        ),
        "set here": phrase("set here"),
    }
    return known.get(text, phrase("{text}", text=text))


def _points(
    found: Comparison, x: Sequence[float], y: Sequence[float]
) -> tuple[PairPoint, ...]:
    forces = found.forces
    return tuple(
        PairPoint(float(a), float(b), code, repeated)
        for a, b, code, repeated in zip(
            x, y, forces.codes, forces.repeated, strict=True
        )
    )


def _scatter(found: Comparison, uprights: tuple[Upright, ...]) -> PairChart:
    forces = found.forces
    low = float(min(forces.isometric_n.min(), forces.eccentric_n.min()))
    high = float(max(forces.isometric_n.max(), forces.eccentric_n.max()))
    return PairChart(
        title=phrase("Eccentric and isometric peak"),
        x_words=phrase("isometric, N"),
        y_words=phrase("eccentric, N"),
        points=_points(found, forces.isometric_n.tolist(), forces.eccentric_n.tolist()),
        slants=(Slant(low, low, high, high, phrase("both alike")),),
        uprights=uprights,
        words=(correlation_words(found),),
    )


def _difference(
    found: Comparison, level: Level, uprights: tuple[Upright, ...]
) -> PairChart:
    forces = found.forces
    levels_n = forces.level_n(level)
    low, high = float(levels_n.min()), float(levels_n.max())
    slants = [Slant(low, 0.0, high, 0.0, phrase("no difference"))]
    words, span = [], None
    view = next((one for one in found.views if one.line.level is level), None)
    if view is not None:
        line = view.line
        at = (line.intercept_n + line.slope * x for x in (low, high))
        slants.append(Slant(low, next(at), high, next(at), phrase("line"), bold=True))
        words = [slope_words(view), crossing_words(view)]
        span = line.crossing_interval_n
    return PairChart(
        title=phrase("Eccentric less isometric peak"),
        x_words=phrase("{level}, N", level=level.value),
        y_words=phrase("difference, N"),
        points=_points(found, levels_n.tolist(), forces.difference_n.tolist()),
        slants=tuple(slants),
        uprights=uprights,
        words=tuple(words),
        span=span,
        crossing=view.line.crossing_n if view is not None else None,
    )
