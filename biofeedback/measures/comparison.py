"""Comparison: all figures of isometric against eccentric force in a group, once.

Nothing here judges an athlete. How eccentric and isometric force relate depends on
the rig, the position and, where the body's own weight is lowered, on that weight.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.measures.agreement import Agreement, agreement
from biofeedback.measures.correlation import Correlation, correlation
from biofeedback.measures.level_difference import (
    LEAST_PEOPLE,
    Bootstrap,
    Forces,
    Level,
    LevelLine,
    bootstrap,
    by_athlete,
    level_line,
)
from biofeedback.phrase import Phrase, phrase

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    import numpy as np

FEW_PEOPLE = 20
"""Below it percentiles of a bootstrap are too narrow. Common practice, no source."""
SIGNIFICANCE = 0.05
RESAMPLES = 10_000
SEED = 1
"""Of the bootstrap, where none is given: the same one, the same answer."""


@dataclass(frozen=True, slots=True)
class LevelView:
    """The difference along one level: the line, and what drawing again makes of it."""

    line: LevelLine
    bootstrap: Bootstrap


@dataclass(frozen=True, slots=True)
class Comparison:
    """What the pairs of a group say.

    Attributes:
        forces: one pair for each athlete.
        correlation: None where one of the two does not vary.
        agreement: of eccentric less isometric force.
        views: on the isometric force, and on the mean of both; one is missing where
            that level does not vary.
        cautions: what is to be read with the figures, in plain sentences.
    """

    forces: Forces
    correlation: Correlation | None
    agreement: Agreement
    views: tuple[LevelView, ...]
    cautions: tuple[Phrase, ...]


def compare(
    results_n: Mapping[str, tuple[Sequence[float], Sequence[float]]],
    generator: np.random.Generator,
    *,
    resamples: int = RESAMPLES,
) -> Comparison:
    """Works it all out.

    Args:
        results_n: by athlete, isometric and eccentric results.
        generator: for the bootstrap; the same one gives the same answer.

    Raises:
        FieldError: fewer than three athletes with both, or a result that is no force.
    """
    forces = by_athlete(results_n)
    people = len(forces.isometric_n)
    if people < LEAST_PEOPLE:
        raise FieldError(
            "results_n",
            phrase(
                "athletes with both forces: {people}; at least "
                "{least_people} are needed.",
                people=people,
                least_people=LEAST_PEOPLE,
            ),
        )
    views = []
    for level in Level:
        line = level_line(forces.level_n(level), forces.difference_n, level=level)
        drawn = bootstrap(forces, generator, level=level, resamples=resamples)
        if line is not None and drawn is not None:
            views.append(LevelView(line, drawn))
    return Comparison(
        forces=forces,
        correlation=correlation(forces.isometric_n, forces.eccentric_n),
        agreement=agreement(forces.difference_n),
        views=tuple(views),
        cautions=tuple(_cautions(forces, views)),
    )


def _cautions(forces: Forces, views: Sequence[LevelView]) -> Iterator[Phrase]:
    people = len(forces.isometric_n)
    if forces.averaged:
        yield phrase(
            "Several rows of one athlete were averaged, because they are not more "
            "people: {averaged} of {people} athletes.",
            averaged=forces.averaged,
            people=people,
        )
    if forces.left_out:
        yield phrase(
            "Left out for want of one of the forces: {count} athletes.",
            count=forces.left_out,
        )
    if people < FEW_PEOPLE:
        yield phrase(
            "{people} athletes are few: the intervals of a bootstrap are too narrow.",
            people=people,
        )
    sure = {view.line.level: view.line.slope_p < SIGNIFICANCE for view in views}
    if Level.ISOMETRIC in sure:
        yield phrase(
            "Noise of the isometric test tilts the line on the isometric force down: "
            "who tested high by chance seems to lose (regression to the mean)."
        )
        if sure[Level.ISOMETRIC] and not sure.get(Level.MEAN):
            yield phrase(
                "On the mean of both the slope is not sure, so it may be that alone."
            )
        else:
            yield phrase(
                "The line on the mean of both is free of that where both forces are "
                "equally noisy."
            )
    for view in views:
        if view.line.crossing_n is not None and not view.line.crosses_within:
            yield phrase(
                "The line on the {level} crosses zero beyond the levels that were "
                "seen; there it is a guess.",
                level=view.line.level.value,
            )
    yield phrase(
        "What is true of a group need not be true of one athlete; the limits of "
        "agreement show how far athletes differ."
    )
