"""Inside and surely inside, against JCGM 106:2012."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from training.scripted import ONE_CELL, asked, rig

from biofeedback.errors import FieldError
from biofeedback.measures.guard_band import (
    Decision,
    GuardBand,
    capability_index,
    conformance_probability,
)
from biofeedback.measures.sure_time import surely_inside_s
from biofeedback.measures.trace import Trace
from biofeedback.training.band import Band
from biofeedback.training.conductor import judged_by
from biofeedback.training.events import Outcome, RepRecord

if TYPE_CHECKING:
    import numpy.typing as npt

BAND = Band(190.0, 210.0)
U_N = 1.5


class TimeInside(NamedTuple):
    inside_s: float
    surely_inside_s: float


def time_inside(
    time_s: npt.NDArray[np.float64],
    force_n: npt.NDArray[np.float64],
    joined: npt.NDArray[np.bool_],
    guard: GuardBand,
) -> TimeInside:
    """What a rep tells of a stretch that is all hold, without and with its guard."""
    count, (start_s, end_s) = len(time_s), (float(time_s[0]), float(time_s[-1]))
    force = force_n.reshape(-1, 1)
    trace = Trace(
        time_s=time_s,
        force_n=force,
        shown_n=force,
        good=np.isfinite(force_n),
        gap=np.concatenate(([False], ~joined)),
        lost=np.zeros(count, np.int64),
        saturated=np.zeros(count, bool),
    )
    rep = RepRecord(
        number=1,
        outcome=Outcome.STOPPED,
        start_s=start_s,
        entry_s=start_s,
        hold_end_s=end_s,
        end_s=end_s,
        below_s=0.0,
        inside_s=0.0,
        above_s=0.0,
        paused_s=0.0,
        lapses=(),
        bands=((start_s, guard.band),),
        gaps=0,
    )
    wanted = asked(guard.band.lower_n, guard.band.upper_n, 1.0)
    judged = judged_by(wanted, rig(ONE_CELL))
    return TimeInside(
        surely_inside_s(rep, trace, judged, wanted, u_n=0.0),
        surely_inside_s(rep, trace, judged, wanted, u_n=guard.guard_n / 2),
    )


# Band 200 N ± 5 %, u = 1.5 N, w = 2u: measured force, conformance probability
# (JCGM 106 eq. 11), simple acceptance, guarded acceptance, guarded rejection.
TABLE = (
    (186, 0.003830, False, False, False),
    (188, 0.091211, False, False, True),
    (190, 0.500000, True, False, True),
    (191, 0.747507, True, False, True),
    (193, 0.977250, True, True, True),
    (195, 0.999571, True, True, True),
    (200, 1.000000, True, True, True),
    (205, 0.999571, True, True, True),
    (207, 0.977250, True, True, True),
    (208, 0.908789, True, False, True),
    (209, 0.747507, True, False, True),
    (210, 0.500000, True, False, True),
    (211, 0.252493, False, False, True),
    (212, 0.091211, False, False, True),
    (213, 0.022750, False, False, True),
    (214, 0.003830, False, False, False),
)


@pytest.mark.parametrize(("force", "p", "simple", "guarded", "not_rejected"), TABLE)
def test_the_table_of_200_newtons(
    force: float, p: float, simple: bool, guarded: bool, not_rejected: bool
) -> None:
    found = float(conformance_probability(force, BAND, u_n=U_N))
    assert found == pytest.approx(p, abs=6e-7)
    decision = GuardBand.of(BAND, u_n=U_N).decide(force)
    assert (decision in {Decision.INSIDE, Decision.SURELY_INSIDE}) is simple
    assert (decision is Decision.SURELY_INSIDE) is guarded
    assert (decision is not Decision.SURELY_OUTSIDE) is not_rejected


def test_guarded_edges_and_capability() -> None:
    guard = GuardBand.of(BAND, u_n=U_N)
    assert guard.guarded == Band(193.0, 207.0)
    assert capability_index(BAND, u_n=U_N) == pytest.approx(3.3333, abs=6e-5)
    assert "193 N to 207 N" in guard.words()


# JCGM 106:2012, examples: one edge, two edges, and C_m = 1.
def test_published_conformance_probabilities() -> None:
    oil = Band(12.5, 16.3)
    assert float(conformance_probability(13.6, oil, u_n=1.8)) == pytest.approx(
        0.662630, abs=6e-7
    )
    unit = Band(0.0, 1.0)
    assert capability_index(unit, u_n=0.25) == 1
    found = conformance_probability([0.449053, 0.5, 0.550947], unit, u_n=0.25)
    assert found == pytest.approx([0.95, 0.9544997, 0.95], abs=6e-7)
    # Container: one-sided, z = 2.290698.
    assert float(
        conformance_probability(100 + 2.290698, Band.at_least(100.0), u_n=1.0)
    ) == pytest.approx(0.989010, abs=6e-7)
    # Zener: one-sided, z = 1.4.
    assert float(
        conformance_probability(101.4, Band.at_least(100.0), u_n=1.0)
    ) == pytest.approx(0.919243, abs=6e-7)


def test_a_guard_of_two_u_lets_by_2_3_percent_at_most() -> None:
    guarded = GuardBand.of(BAND, u_n=U_N).guarded
    assert guarded is not None
    p = conformance_probability([guarded.lower_n, guarded.upper_n], BAND, u_n=U_N)
    assert 1 - p == pytest.approx([0.0227501, 0.0227501], abs=6e-7)


@given(st.floats(0, 30), st.floats(0.01, 20))
def test_probability_is_symmetric_and_a_probability(d: float, u_n: float) -> None:
    left, right = conformance_probability([200 - d, 200 + d], BAND, u_n=u_n)
    assert left == pytest.approx(right, abs=1e-12)
    assert 0 <= left <= 1


def test_an_uncertainty_must_be_more_than_nothing() -> None:
    for wrong in (0.0, -1.0, math.nan, math.inf):
        with pytest.raises(FieldError):
            conformance_probability(200.0, BAND, u_n=wrong)
    with pytest.raises(FieldError):
        GuardBand(BAND, -1.0)


def test_a_band_narrower_than_its_guards_is_never_surely_kept() -> None:
    guard = GuardBand.of(Band(199.0, 201.0), u_n=U_N)
    assert guard.guarded is None
    assert guard.decide(200.0) is Decision.INSIDE
    assert "too narrow" in guard.words()
    time = np.array([0.0, 1.0])
    force = np.array([200.0, 200.0])
    found = time_inside(time, force, np.array([True]), guard)
    assert (found.inside_s, found.surely_inside_s) == (1.0, 0.0)


def test_an_open_band_is_guarded_below_only() -> None:
    guard = GuardBand.of(Band.at_least(100.0), u_n=2.0)
    assert guard.guarded == Band.at_least(104.0)
    assert guard.decide(1e4) is Decision.SURELY_INSIDE
    assert guard.decide(103.9) is Decision.INSIDE
    assert guard.words().startswith("Surely inside: from 104 N (")
    assert math.isinf(capability_index(guard.band, u_n=2.0))


def test_time_on_a_ramp_by_hand() -> None:
    """180 → 220 N in 4 s, 10 N/s: 2 s in 190–210 N, 1.4 s in 193–207 N."""
    guard = GuardBand.of(BAND, u_n=U_N)
    found = time_inside(
        np.array([0.0, 4.0]), np.array([180.0, 220.0]), np.array([True]), guard
    )
    assert found.inside_s == pytest.approx(2.0)
    assert found.surely_inside_s == pytest.approx(1.4)


def test_edges_are_inclusive_for_a_level_force() -> None:
    guard = GuardBand.of(BAND, u_n=U_N)
    time, joined = np.array([0.0, 1.0, 2.0]), np.array([True, True])
    for force, inside, surely in (
        (190.0, 2.0, 0.0),
        (193.0, 2.0, 2.0),
        (207.0, 2.0, 2.0),
        (210.0, 2.0, 0.0),
        (210.1, 0.0, 0.0),
    ):
        found = time_inside(time, np.full(3, force), joined, guard)
        assert (found.inside_s, found.surely_inside_s) == (inside, surely)


def test_nothing_is_counted_across_a_gap() -> None:
    guard = GuardBand.of(BAND, u_n=U_N)
    time = np.array([0.0, 1.0, 5.0, 6.0])
    force = np.array([200.0, np.nan, 200.0, 200.0])
    found = time_inside(time, force, np.array([False, False, True]), guard)
    assert (found.inside_s, found.surely_inside_s) == (1.0, 1.0)


@given(
    st.lists(st.floats(170, 230), min_size=2, max_size=12),
    st.floats(0, 6),
)
def test_time_is_what_dense_sampling_finds(forces: list[float], u_n: float) -> None:
    guard = GuardBand.of(BAND, u_n=u_n)
    time = np.arange(len(forces), dtype=np.float64)
    joined = np.ones(len(forces) - 1, dtype=bool)
    found = time_inside(time, np.array(forces), joined, guard)
    dense = (np.arange(20_000) + 0.5) / 20_000 * time[-1]
    force = np.interp(dense, time, forces)
    step = time[-1] / 20_000
    inside = float(np.sum((force >= 190) & (force <= 210))) * step
    assert found.inside_s == pytest.approx(inside, abs=3 * len(forces) * step)
    if guard.guarded is not None:
        low, high = guard.guarded.lower_n, guard.guarded.upper_n
        surely = float(np.sum((force >= low) & (force <= high))) * step
        assert found.surely_inside_s == pytest.approx(
            surely, abs=3 * len(forces) * step
        )
    assert found.surely_inside_s <= found.inside_s + 1e-12


@given(st.lists(st.floats(170, 230), min_size=3, max_size=12), st.data())
def test_time_adds_up_however_a_stretch_is_cut(
    forces: list[float], data: st.DataObject
) -> None:
    guard = GuardBand.of(BAND, u_n=U_N)
    cut = data.draw(st.integers(1, len(forces) - 2))
    time, force = np.arange(0.0, len(forces)), np.array(forces)
    joined = np.ones(len(forces) - 1, dtype=bool)
    whole = time_inside(time, force, joined, guard)
    parts = [
        time_inside(time[part], force[part], joined[: len(force[part]) - 1], guard)
        for part in (slice(0, cut + 1), slice(cut, None))
    ]
    assert whole.inside_s == pytest.approx(sum(part.inside_s for part in parts))
    assert whole.surely_inside_s == pytest.approx(
        sum(part.surely_inside_s for part in parts)
    )
