"""What is said of a few samples without arrays is what is said with them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.training.band import Band
from biofeedback.training.crossings import Judged
from biofeedback.training.levels import LevelTable
from biofeedback.training.prescription import BandOn, Prescription
from biofeedback.training.task import Sides, Task

# Levels themselves, their neighbours among the floats, and what adds up to them.
CLOSE = [0.0, 2.5, 5.0, 25.0, 30.0, 50.0, 60.0, 70.0, 80.0, 100.0]
FORCES = st.one_of(
    st.sampled_from(CLOSE),
    st.sampled_from(CLOSE).map(lambda force_n: float(np.nextafter(force_n, 1e9))),
    st.sampled_from(CLOSE).map(lambda force_n: float(np.nextafter(force_n, -1e9))),
    st.floats(-200, 200),
)


@st.composite
def tables(draw: st.DrawFn) -> LevelTable:
    band_on = draw(st.sampled_from(list(BandOn)))
    band = draw(st.sampled_from([Band(50, 70), Band(50, np.inf)]))
    asked = Prescription(
        task=Task("press", sides=Sides.BOTH), band=band, hold_s=5, reps=1, rest_s=1
    )
    asked = replace(
        asked,
        band_on=band_on,
        ceiling_n=draw(st.sampled_from([None, 100.0])),
        balance_tolerance_points=draw(st.sampled_from([None, 5.0, 50 / 3])),
    )
    return LevelTable(asked, Judged(band_on, left=0, right=1, channels=2))


@given(tables(), st.lists(st.tuples(FORCES, FORCES), min_size=1, max_size=6))
def test_a_few_samples_stay_where_arrays_say_so(
    table: LevelTable, rows: list[tuple[float, float]]
) -> None:
    force_n = np.array(rows)
    raised = table.heights(force_n) > 0
    for column in range(len(rows)):
        before = raised[:, column]
        stays = bool((raised == before[:, None]).all())
        assert table.stays(force_n, before.tolist()) == stays
