"""Saved reps of the simulated rig, looked at again: times, voids and lists."""

from __future__ import annotations

from dataclasses import fields, replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import numpy as np
import pytest

from biofeedback.errors import FieldError
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.listing import RepKind, RepsWanted
from biofeedback.measures.by_hand import Markers, moved
from biofeedback.measures.rep import measure
from biofeedback.session import Session, demo
from biofeedback.session.review import ENTRY, HOLD_END, ONSET, Library
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.band import Band
from biofeedback.training.prescription import BandOn, ClockRule, FeedbackMode

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from biofeedback.session.review import RepTrace
    from biofeedback.training.prescription import Prescription

ASKED = replace(
    demo.PRESCRIPTION, hold_s=6.0, reps=2, rest_s=2.0, clock=ClockRule.RUNNING
)
EACH = replace(ASKED, band_on=BandOn.EACH_SIDE, band=Band(30, 48))
STRICT = replace(ASKED, balance_required=True, balance_tolerance_points=2.0)


def done(folder: Path, logbook: Logbook, asked: Prescription) -> None:
    """Two reps, with a nudge in the first."""
    session = Session(
        demo.source(seed=5, step_us=50_000),
        logbook=logbook,
        recordings=folder,
        athlete_code="INV-1",
    )
    session.step()
    session.begin_set(asked)
    nudged = False
    for _ in range(3000):
        session.step()
        state = session.take().state
        if state is not None and state.clock_s > 2.0 and not nudged:
            low, high = state.band.lower_n, state.band.upper_n
            session.change_band(Band(0.6 * low, 0.6 * high))  # he lapses
            nudged = True
        if state is not None and len(state.outcomes) == 2:
            break
    session.close()


@pytest.fixture(params=[ASKED, EACH, STRICT], ids=["total", "each side", "balance"])
def library(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Library]:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        done(tmp_path, logbook, request.param)
        yield Library(logbook, tmp_path)


@pytest.fixture
def plain(tmp_path: Path) -> Iterator[Library]:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        done(tmp_path, logbook, ASKED)
        yield Library(logbook, tmp_path)


def again(trace: RepTrace, markers: Markers) -> dict[str, object]:
    record = moved(trace.record, markers, trace.trace, trace.judged, trace.prescription)
    return measure(record, trace.trace, trace.judged, trace.prescription).to_json()


def test_with_the_times_of_the_rules_the_rules_own_numbers_come_out(
    library: Library,
) -> None:
    rows = library.reps()
    assert [row.number for row in rows] == [2, 1]
    lapsed = False
    for row in rows:
        trace = library.trace(row)
        found = again(trace, trace.automatic)
        lapsed = lapsed or bool(trace.lapses)
        for name in (
            *("below_s", "inside_s", "above_s", "unbalanced_s", "paused_s", "peak_n"),
            *("mean_n", "cv_pct", "rmse_n", "ce_n", "impulse_ns", "left_share_pct"),
            *("overshoot_n", "time_to_enter_s", "dose_pct_s", "slope_n_per_s"),
        ):
            assert found[name] == pytest.approx(row.measures[name], rel=1e-9, abs=1e-9)
        assert found["lapses"] == row.lapses
        assert np.allclose(
            np.array(found["lapse_times_s"]), np.array(row.measures["lapse_times_s"])
        )
    assert lapsed


def test_a_marker_is_moved_kept_and_taken_back(plain: Library) -> None:
    row = plain.reps()[0]
    before = plain.trace(row)
    assert before.by_hand == ()
    entry_s = before.entry_s
    assert entry_s is not None
    after = plain.move(row, before, ENTRY, entry_s + 1.0, by="KL")
    assert (after.entry_s, after.by_hand) == (entry_s + 1.0, (ENTRY,))
    assert after.automatic == before.automatic
    assert after.measures["time_to_enter_s"] == pytest.approx(
        float(str(before.measures["time_to_enter_s"])) + 1.0
    )
    # The mean of the plateau, by hand from the samples.
    plateau = (before.trace.time_s >= entry_s + 1.0) & (
        before.trace.time_s <= before.hold_end_s
    )
    own = before.judged.effort(before.trace.force_n[plateau]).mean()
    assert after.measures["mean_n"] == pytest.approx(own)
    assert after.measures["impulse_ns"] == before.measures["impulse_ns"]
    (kept,) = plain.moves(row)
    assert (kept.automatic_s, kept.to_s) == (entry_s, entry_s + 1.0)
    assert kept.moved_by == "KL"
    stored = plain.reps()[0].measures
    assert stored == row.measures, "what the rules found stays as it was"
    assert plain.undo(row)
    assert not plain.undo(row)
    last = plain.trace(row)
    assert (last.by_hand, last.measures) == ((), before.measures)
    assert len(plain.moves(row)) == 2


def test_the_hold_cut_in_half_holds_half_of_it(plain: Library) -> None:
    row = plain.reps()[0]
    trace = plain.trace(row)
    half_s = (trace.start_s + trace.hold_end_s) / 2
    first = plain.move(row, trace, HOLD_END, half_s)
    parts = ("below_s", "inside_s", "above_s", "unbalanced_s", "paused_s")
    total = sum(float(str(first.measures[name])) for name in parts)
    assert total == pytest.approx(half_s - trace.start_s)
    rest = again(trace, Markers(half_s, half_s, trace.hold_end_s))
    for name in (*parts, "impulse_ns"):
        both = float(str(first.measures[name])) + float(str(rest[name]))
        assert both == pytest.approx(trace.measures[name], abs=1e-9)


def test_markers_stay_in_order_and_on_the_signal(plain: Library) -> None:
    row = plain.reps()[0]
    trace = plain.trace(row)
    with pytest.raises(FieldError, match="in order"):
        plain.move(row, trace, ENTRY, trace.start_s - 0.5)
    with pytest.raises(FieldError, match="in order"):
        plain.move(row, trace, ONSET, trace.hold_end_s + 0.1)
    with pytest.raises(FieldError, match="within"):
        plain.move(row, trace, HOLD_END, trace.end_s + 60)
    assert plain.moves(row) == ()
    back = plain.move(row, trace, ONSET, trace.start_s + 0.1)
    assert plain.move(row, back, ONSET, None).by_hand == ()


def test_the_force_that_is_drawn_is_all_of_the_rep_and_some_around(
    plain: Library,
) -> None:
    trace = plain.trace(plain.reps()[0])
    assert trace.time_s[0] <= trace.start_s - 1.9
    assert trace.time_s[-1] >= trace.end_s
    assert len(trace.bands) == 2
    for part in fields(trace.trace):
        assert len(getattr(trace.trace, part.name)) == len(trace.trace.time_s)


def test_the_list_is_narrowed_over_the_whole_logbook(tmp_path: Path) -> None:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        done(tmp_path, logbook, ASKED)
        done(tmp_path, logbook, replace(ASKED, feedback=FeedbackMode.UNSEEN))
        other = replace(ASKED, task=replace(ASKED.task, name="Another (invented)"))
        done(tmp_path, logbook, other)
        library = Library(logbook, tmp_path)
        rows = library.reps()
        assert len(rows) == 6
        assert library.tasks() == ("Another (invented)", ASKED.task.name)
        assert library.tasks(athlete_code="NOBODY") == ()

        def numbers(wanted: RepsWanted) -> list[int]:
            return [rows.index(row) for row in library.reps(wanted=wanted)]

        assert numbers(RepsWanted(task="Another (invented)")) == [0, 1]
        assert numbers(RepsWanted(kind=RepKind.UNSEEN)) == [2, 3]
        assert numbers(RepsWanted(kind=RepKind.TRIAL)) == []
        library.void(rows[2], "strap slipped", by="KL")
        void = library.reps(wanted=RepsWanted(kind=RepKind.VOID))
        assert [row.void_reason for row in void] == ["strap slipped"]
        rows = library.reps()
        assert numbers(RepsWanted(kind=RepKind.UNSEEN)) == [3]
        assert numbers(RepsWanted(kind=RepKind.TRAINING)) == [0, 1, 3, 4, 5]
        library.withdraw_void(rows[2], "it was another one")
        assert library.reps(wanted=RepsWanted(kind=RepKind.VOID)) == ()
        rows = library.reps()
        since = RepsWanted(since_utc=rows[1].started_utc)
        until = RepsWanted(before_utc=rows[1].started_utc)
        assert (numbers(since), numbers(until)) == ([0, 1], [2, 3, 4, 5])
        page = library.reps(limit=3)
        assert page + library.reps(limit=9, older_than=page[-1]) == rows


def test_the_body_mass_is_that_of_the_day(plain: Library) -> None:
    row = plain.reps()[0]
    assert plain.mass_kg(row) is None
    people = plain._logbook.people
    person = people.by_code("INV-1")
    assert person is not None
    details = AthleteDetails("INV-1")
    people.change(person.id, details, BodyMass(72.5, "2020-05-04"))
    assert plain.mass_kg(row) == 72.5
    early = replace(row, started_utc=datetime(2019, 5, 4, tzinfo=UTC))
    assert plain.mass_kg(early) is None
