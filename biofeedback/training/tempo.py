"""The tempo guide: the way down that a lowering rep is to follow, as data to draw.

Two things that must not be taken for each other: the *floor* is a force to stay above,
for the whole tempo; the *way down* is where the body should be, from the start (0) to
the lowest place (1), evenly. The way down is no force and has no newtons.

Times are seconds from now, like those of `biofeedback.training.feedback.Stretch`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.training.feedback import ahead

if TYPE_CHECKING:
    from biofeedback.training.events import SetState
    from biofeedback.training.feedback import Stretch

ROUNDING_S = 1e-9


@dataclass(frozen=True, slots=True)
class Beat:
    """A whole second of the tempo.

    Attributes:
        at_s: when it is.
        number: of seconds gone; the last beat is the end of the tempo, whole or not.
    """

    at_s: float
    number: int


@dataclass(frozen=True, slots=True)
class TempoGuide:
    """One lowering that is under way or to come.

    Attributes:
        way_in: (time, force) from rest to the floor; empty once the floor was passed.
        floor: (time, force) of the floor, from now or the entry to the end.
        way_down: (time, share of the way), a straight line that ends at 1.
        beats: the seconds of the tempo that are still to come.
    """

    way_in: tuple[tuple[float, float], ...]
    floor: tuple[tuple[float, float], tuple[float, float]]
    way_down: tuple[tuple[float, float], tuple[float, float]]
    beats: tuple[Beat, ...]


def tempo_guide(
    stretch: Stretch, *, floor_n: float, tempo_s: float, ramp_s: float
) -> TempoGuide:
    """The guide of one stretch.

    Args:
        stretch: as `feedback.ahead` gives it; of a rep under way it is what is left.
            One without an end is a whole tempo.
        ramp_s: how long the drawn way in is.
    """
    start_s, end_s = stretch.start_s, stretch.end_s
    if math.isinf(end_s):
        end_s = start_s + tempo_s
    begun_s = end_s - tempo_s  # when this tempo began, or begins
    share = (start_s - begun_s) / tempo_s
    way_in = ((start_s - ramp_s, 0.0), (start_s, floor_n)) if stretch.entry else ()
    beats = [
        Beat(begun_s + number, number)
        for number in range(1, math.ceil(tempo_s - ROUNDING_S))
        if begun_s + number > start_s + ROUNDING_S
    ]
    if end_s > start_s:
        beats.append(Beat(end_s, math.ceil(tempo_s - ROUNDING_S)))
    return TempoGuide(
        way_in=way_in,
        floor=((start_s, floor_n), (end_s, floor_n)),
        way_down=((start_s, min(1.0, max(0.0, share))), (end_s, 1.0)),
        beats=tuple(beats),
    )


def guides(
    state: SetState | None, *, rest_s: float, span_s: float, ramp_s: float
) -> tuple[TempoGuide, ...]:
    """The guides of all lowerings within the next `span_s`, soonest first.

    A rep under way whose floor was not reached yet has its whole tempo before it.
    """
    if state is None:
        return ()
    return tuple(
        tempo_guide(
            stretch,
            floor_n=state.band.lower_n,
            tempo_s=state.hold_s,
            ramp_s=ramp_s,
        )
        for stretch in ahead(state, rest_s=rest_s, span_s=span_s)
    )
