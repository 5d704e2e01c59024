"""Crossings of lines that begin or end just on a level, counted by hand."""

from __future__ import annotations

import numpy as np
import pytest

from biofeedback.training.band import Band
from biofeedback.training.crossings import Change, Crossings, Judged
from biofeedback.training.events import Position
from biofeedback.training.prescription import BandOn, Prescription
from biofeedback.training.task import Task

TIMES_S = np.array([0.0, 1.0, 2.0])


def changes(
    forces_n: list[list[float]], band_on: BandOn, *, points: float | None, cut: int
) -> list[Change]:
    asked = Prescription(
        task=Task("crossings"),
        band=Band(20.0, 30.0),
        hold_s=5.0,
        band_on=band_on,
        balance_tolerance_points=points,
    )
    judged = Judged(band_on, left=0, right=1, channels=2)
    crossings, good = Crossings(asked, judged), np.ones(3, dtype=np.bool_)
    told = []
    for part in (slice(0, cut), slice(cut, 3)):
        if part.start < part.stop:
            force_n = np.array(forces_n)[part]
            told += crossings.push(TIMES_S[part], force_n, good[part], after_gap=False)
    assert all(isinstance(each, Change) for each in told)
    return [each for each in told if isinstance(each, Change)]


@pytest.mark.parametrize("cut", [1, 2, 3])
def test_from_one_side_just_to_the_edge_of_the_other_and_beyond(cut: int) -> None:
    """10 points of 50 N are 10 N of difference; the edge is met at 1 s.

    From +40 N to −10 N the difference passes +10 N at 0.6 s.
    """
    forces_n = [[45.0, 5.0], [20.0, 30.0], [10.0, 40.0]]
    told = changes(forces_n, BandOn.TOTAL, points=10.0, cut=cut)
    assert [(each.time_s, each.levels.balanced) for each in told] == [
        (0.0, False),
        (0.6, True),
        (1.0, False),
    ]


@pytest.mark.parametrize("cut", [1, 2, 3])
def test_one_side_enters_while_the_other_just_leaves(cut: int) -> None:
    """Left enters at 0.75 s; right is on its lower edge at 1 s and goes below."""
    forces_n = [[5.0, 25.0], [25.0, 20.0], [25.0, 10.0]]
    told = changes(forces_n, BandOn.EACH_SIDE, points=None, cut=cut)
    assert [(each.time_s, each.levels.position) for each in told] == [
        (0.0, Position.BELOW),
        (0.75, Position.INSIDE),
        (1.0, Position.BELOW),
    ]
