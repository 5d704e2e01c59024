"""A whole visit on the simulated rig: sets, sides, rests, changes, a crash between.

The athlete is invented. The session is stepped by hand.
"""

from __future__ import annotations

import sqlite3
import threading
from dataclasses import replace
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from session.visit_on_rig import (
    CODE,
    LEFT_N,
    NOW,
    PLANNED,
    RIGHT_N,
    OnRig,
    record,
    reference,
)

from biofeedback.errors import FieldError, UserError
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima_rows import NewMaximalTest
from biofeedback.logbook.session_notes import CHANGE, EFFORT, ORDER, PAIN
from biofeedback.session.order_record import left_over, new_record
from biofeedback.session.pain_told import WENT_ON, PainTold
from biofeedback.session.recovery import recover
from biofeedback.session.replay import replay
from biofeedback.session.second_start import SEEN_S
from biofeedback.session.set_changes import REASON_S, REST_TAKEN
from biofeedback.session.visit import ASLEEP_S, Visit
from biofeedback.session.visit_changes import stepped
from biofeedback.session.visit_notes import BUSY_S, RETRY_S
from biofeedback.session.visit_summary import VisitSummaries
from biofeedback.training.changes import Reason, Terms
from biofeedback.training.events import Phase
from biofeedback.training.planned import SideOrder
from biofeedback.training.prescription import StartBy
from biofeedback.training.reference import Definition
from biofeedback.training.running_order import Doing, RunningOrder, Stand, legs_of
from biofeedback.training.task import Sides, Task

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@pytest.fixture
def logbook(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def rig(logbook: Logbook, tmp_path: Path) -> Iterator[OnRig]:
    made = OnRig(logbook, tmp_path / "recordings")
    yield made
    made.session.close()


def stands(visit: Visit) -> list[Stand]:
    return [leg.stand for leg in visit.order.legs]


def begun_sets(rig: OnRig) -> list[object]:
    """Keys of the sets that the newest record names."""
    begun = rig.notes(ORDER)[-1].content["begun"]
    assert isinstance(begun, list)
    return [one["set_id"] for one in begun]


def changes(rig: OnRig) -> list[dict[str, object]]:
    return [dict(note.content) for note in rig.notes(CHANGE)]


# ---------------------------------------------------------------- the whole of it


def test_three_sets_of_two_sides_go_through_by_themselves(rig: OnRig) -> None:
    rig.run(5.0)
    assert not rig.visit.in_set  # the first set begins by hand
    assert rig.visit.begin_next()
    rig.until(lambda: rig.visit.order.doing is Doing.DONE)
    rig.close()
    assert stands(rig.visit) == [Stand.DONE] * 3
    (row,) = rig.logbook.sessions()
    sets = rig.logbook.sets(row.id)
    assert [one.sides for one in sets] == ["left", "right", "left"]
    assert {(one.plan_id, one.planned_key) for one in sets} == {("plan-1", "a")}
    for one, force_n in zip(sets, (LEFT_N, RIGHT_N, LEFT_N), strict=True):
        band = one.prescription["band"]
        assert isinstance(band, dict)
        # 50 % of the side's own 100 %, and 30 % of that either way.
        assert band["lower_n"] == pytest.approx(0.35 * force_n)
        assert band["upper_n"] == pytest.approx(0.65 * force_n)
        assert len(rig.logbook.reps(set_id=one.id)) == 2
    assert begun_sets(rig) == [one.id for one in sets]


def test_the_next_set_begins_exactly_when_the_rest_is_over(rig: OnRig) -> None:
    rig.begin()
    rig.set_over()
    ended_s = rig.now_s
    assert rig.visit.rest_left_s == pytest.approx(3.0)
    assert not rig.visit.get_ready or rig.visit.rest_left_s <= 5.0
    rig.run(2.9)
    assert not rig.visit.in_set
    rig.until(lambda: rig.visit.in_set)
    assert rig.now_s - ended_s == pytest.approx(3.0, abs=0.051)


def test_without_auto_the_next_set_waits_for_a_hand(rig: OnRig) -> None:
    rig.begin()
    rig.visit.auto = False
    rig.set_over()
    rig.run(10.0)
    assert not rig.visit.in_set
    assert rig.visit.order.due(rig.now_s)
    assert rig.visit.begin_next()


def test_a_set_may_begin_before_its_rest_is_over(rig: OnRig) -> None:
    rig.begin()
    rig.set_over()
    assert rig.visit.rest_left_s > 2.0
    assert rig.visit.begin_next()
    rig.run(0.1)
    assert rig.visit.order.doing is Doing.SET
    with pytest.raises(UserError, match="A set is under way"):
        rig.visit.begin_next()
    assert rig.visit.rest_cut is not None
    assert rig.visit.rest_cut.asked_s == pytest.approx(3.0)
    assert rig.visit.rest_cut.taken_s < 1.0
    summary = VisitSummaries(rig.logbook).latest(CODE)
    assert summary is not None
    (line,) = summary.changes
    assert (line.what, line.old, line.time_s) == (REST_TAKEN, 3.0, None)
    assert line.new == pytest.approx(rig.visit.rest_cut.taken_s, abs=0.051)


# ------------------------------------------------------------------------ changes


def test_changes_in_a_set_are_kept_with_time_old_new_and_reason(rig: OnRig) -> None:
    rig.begin()
    asked = rig.visit.asked
    assert asked is not None
    rig.visit.changes.change_band(asked.band.moved(3.0), Reason.STRONGER)
    rig.run(0.2)
    rig.visit.changes.longer_hold(1)
    rig.run(0.2)
    rig.visit.changes.longer_rest(-1)
    rig.rep_done()
    rig.visit.changes.more_reps(-1)
    rig.set_over()
    rig.close()
    band, hold, rest, reps = changes(rig)
    assert (band["what"], band["reason"]) == ("band", "stronger today")
    assert band["old"] == asked.band.to_json()
    assert band["new"] == asked.band.moved(3.0).to_json()
    assert (hold["what"], hold["old"], hold["new"]) == ("hold_s", 2.0, 3.0)
    assert (rest["what"], rest["old"], rest["new"]) == ("rest_s", 3.0, 0.0)
    assert (reps["what"], reps["old"], reps["new"]) == ("reps", 2, 1)
    (row,) = rig.logbook.sessions()
    first = rig.logbook.sets(row.id)[0]
    assert {one["set_id"] for one in (band, hold, rest, reps)} == {first.id}
    # The very same stands in the recording, with the same sample times.
    replayed = replay(rig.folder / first.recording)
    told = [one for one in replayed.events if one.get("kind") in {"band", "terms"}]
    assert [one["time_s"] for one in told] == [
        one["time_s"] for one in (band, hold, rest, reps)
    ]
    assert replayed.agrees
    # And it holds for the later set of this side, not for the other side.
    _, right, left = rig.visit.order.legs
    assert (left.asked.hold_s, left.asked.reps, left.asked.rest_s) == (3.0, 1, 0.0)
    assert left.asked.band == asked.band.moved(3.0)
    assert (right.asked.hold_s, right.asked.reps) == (2.0, 2)


def test_undo_goes_back_step_by_step_and_is_kept(rig: OnRig) -> None:
    rig.begin()
    asked = rig.visit.asked
    assert asked is not None
    act = rig.visit.changes
    assert not act.can_undo
    act.change_band(asked.band.moved(3.0))
    act.longer_hold(2)
    act.change_band(asked.band.moved(6.0))
    # Three steps back before the acquisition has answered at all.
    for _ in range(3):
        act.undo()
    assert rig.visit.asked == asked
    assert not act.can_undo
    with pytest.raises(UserError, match="Nothing was changed"):
        act.undo()
    rig.run(0.3)
    rig.rep_done()
    rig.close()
    told = changes(rig)
    assert [(one["what"], one["reason"]) for one in told] == [
        ("band", ""), ("hold_s", ""), ("band", ""),
        ("band", "undone"), ("hold_s", "undone"), ("band", "undone"),
    ]  # fmt: skip
    assert told[3]["new"] == asked.band.moved(3.0).to_json()
    assert told[5]["new"] == asked.band.to_json()


def test_a_change_asked_for_elsewhere_can_be_undone_too(rig: OnRig) -> None:
    rig.begin()
    asked = rig.visit.asked
    assert asked is not None
    rig.session.change_band(asked.band.moved(4.0), "nudge at the desk")
    rig.run(0.2)
    assert rig.visit.asked == asked.with_band(asked.band.moved(4.0))
    rig.visit.changes.undo()
    rig.run(0.2)
    assert rig.visit.asked == asked
    assert rig.update is not None
    assert rig.update.state is not None
    assert rig.update.state.band == asked.band


def test_a_reason_may_come_after_and_names_the_changes_it_is_of(rig: OnRig) -> None:
    rig.begin()
    asked = rig.visit.asked
    assert asked is not None
    act = rig.visit.changes
    act.change_band(asked.band.moved(-2.0))
    rig.run(0.5)
    act.change_band(asked.band.moved(-4.0))
    rig.run(0.5)
    assert act.reason_open
    assert act.give_reason(Reason.WEAKER)
    assert not act.give_reason(Reason.PAIN)  # once
    act.longer_hold(1)
    rig.run(0.2)
    rig.now_s += REASON_S
    rig.step()
    assert not rig.visit.changes.reason_open
    rig.close()
    first, second, reason, _ = changes(rig)
    assert reason["of"] == [first["id"], second["id"]]
    assert reason["reason"] == "weaker today"


def test_a_skipped_or_repeated_rep_concerns_this_set_only(rig: OnRig) -> None:
    rig.begin()
    rig.visit.changes.repeat_rep()
    rig.visit.changes.repeat_rep()
    rig.rep_done(2)
    assert rig.visit.in_set
    rig.until(lambda: rig.update is not None and rig.update.state is not None
              and rig.update.state.phase is Phase.REST)  # fmt: skip
    rig.visit.skip_rep()
    rig.set_over()
    assert rig.visit.order.legs[0].stand is Stand.DONE
    assert rig.visit.order.legs[2].asked.reps == 2
    rig.close()
    assert [one["reason"] for one in changes(rig)] == [
        "rep repeated", "rep repeated", "rep skipped",
    ]  # fmt: skip
    (row,) = rig.logbook.sessions()
    first = rig.logbook.sets(row.id)[0]
    assert len(rig.logbook.reps(set_id=first.id)) == 3


def test_the_last_rep_under_way_cannot_be_skipped(rig: OnRig) -> None:
    rig.begin()
    rig.rep_done(1)
    rig.until(lambda: rig.update is not None and rig.update.state is not None
              and rig.update.state.phase is Phase.REP)  # fmt: skip
    with pytest.raises(UserError, match="No rep is left"):
        rig.visit.skip_rep()


def test_between_sets_the_next_one_and_the_rest_under_way_change(rig: OnRig) -> None:
    rig.begin()
    rig.visit.auto = False
    rig.set_over()
    left_s = rig.visit.rest_left_s
    act = rig.visit.changes
    act.longer_rest(2)
    assert rig.visit.rest_left_s == pytest.approx(left_s + 10.0)
    act.longer_hold(1)
    assert rig.visit.asked is not None
    assert (rig.visit.asked.rest_s, rig.visit.asked.hold_s) == (13.0, 3.0)
    act.undo()
    act.undo()
    assert (rig.visit.asked.rest_s, rig.visit.asked.hold_s) == (3.0, 2.0)
    assert rig.visit.rest_left_s == pytest.approx(left_s)
    with pytest.raises(UserError, match="no change"):
        act.undo()
    with pytest.raises(FieldError, match="reps"):
        act.more_reps(-2)
    rig.close()
    assert [one["time_s"] for one in changes(rig)] == [None] * 4


def test_the_other_side_comes_first(rig: OnRig) -> None:
    rig.visit.changes.change_side()
    assert [leg.sides for leg in rig.visit.order.legs] == [
        Sides.RIGHT, Sides.LEFT, Sides.LEFT,
    ]  # fmt: skip
    rig.begin()
    with pytest.raises(UserError, match="under way"):
        rig.visit.changes.change_side()
    rig.set_over()
    rig.close()
    (change,) = changes(rig)
    assert (change["what"], change["old"], change["new"]) == ("side", "left", "right")
    # Of a side whose newtons are not known nothing is made up.
    rig.visit.skip()
    with pytest.raises(UserError, match="not known here"):
        rig.visit.changes.change_side()


def test_another_reference_moves_what_is_to_come(rig: OnRig) -> None:
    task, new = PLANNED.task, reference(2 * LEFT_N)
    assert rig.visit.changes.change_reference(new, task.on_side(Sides.LEFT)) == 2
    assert rig.visit.changes.change_reference(new, task.on_side(Sides.BOTH)) == 0
    assert [leg.asked.band.centre_n for leg in rig.visit.order.legs] == pytest.approx(
        [LEFT_N, RIGHT_N / 2, LEFT_N]
    )
    rig.close()
    (change,) = changes(rig)
    assert change["old"] == reference(LEFT_N).to_json()
    assert change["new"] == new.to_json()


@pytest.mark.parametrize(
    ("value_s", "steps", "expected_s"),
    [(8, 1, 9), (10, 1, 15), (10, -1, 9), (15, -1, 10), (30, 2, 40), (9, 2, 15)],
)
def test_steps_are_small_for_short_times(
    value_s: float, steps: int, expected_s: float
) -> None:
    assert stepped(value_s, steps, large=5.0, small=1.0) == expected_s


# -------------------------------------------------------------- stops and pauses


def test_a_stopped_set_waits_and_is_repeated(rig: OnRig) -> None:
    rig.begin()
    rig.rep_done()
    rig.visit.stop()
    rig.set_over()
    rig.run(10.0)
    assert rig.visit.order.doing is Doing.STOPPED
    with pytest.raises(UserError, match="Repeat it, or skip it"):
        rig.visit.begin_next()
    rig.visit.repeat()
    assert stands(rig.visit)[:2] == [Stand.STOPPED, Stand.TO_COME]
    rig.until(lambda: rig.visit.in_set)  # its rest is long over
    assert rig.visit.order.place == 1


def test_a_set_cut_short_is_left_at_that_and_the_order_goes_on(rig: OnRig) -> None:
    rig.begin()
    rig.rep_done()
    rig.visit.cut_short()
    rig.set_over()
    assert stands(rig.visit) == [Stand.STOPPED, Stand.TO_COME, Stand.TO_COME]
    assert rig.visit.order.doing is Doing.REST
    rig.until(lambda: rig.visit.in_set)
    assert rig.visit.order.place == 1


def test_paused_nothing_starts(rig: OnRig) -> None:
    rig.begin()
    rig.rep_done()
    rig.visit.pause()
    rig.run(8.0)
    assert rig.update is not None
    assert rig.update.state is not None
    assert rig.update.state.phase is Phase.HELD_BACK
    rig.visit.resume()
    rig.set_over()
    rig.visit.pause()
    rig.run(8.0)
    assert not rig.visit.in_set
    rig.visit.resume()
    rig.until(lambda: rig.visit.in_set)


def test_reps_start_by_key_where_that_is_asked_for(
    logbook: Logbook, tmp_path: Path
) -> None:
    planned = replace(PLANNED, start=StartBy.KEY)
    rig = OnRig(logbook, tmp_path / "recordings", record(planned))
    rig.begin()
    rig.run(4.0)
    assert rig.visit.waits_for_key
    rig.visit.let_rep_start()
    rig.rep_done()
    rig.run(5.0)
    assert rig.visit.waits_for_key
    rig.visit.pause()
    rig.visit.resume()  # is not the key
    rig.run(3.0)
    assert rig.visit.waits_for_key
    rig.visit.let_rep_start()
    rig.set_over()
    rig.close()


def test_the_end_ends_the_set_too_and_leaves_the_rest_undone(rig: OnRig) -> None:
    rig.begin()
    rig.rep_done()
    rig.visit.end()
    rig.set_over()
    assert rig.visit.order.doing is Doing.ENDED
    assert stands(rig.visit) == [Stand.STOPPED, Stand.TO_COME, Stand.TO_COME]
    rig.run(8.0)
    assert not rig.visit.in_set
    with pytest.raises(UserError, match="All sets"):
        rig.visit.begin_next()
    rig.close()
    assert left_over(rig.logbook, CODE, NOW) is None


def test_pain_above_the_cut_advises_and_nothing_begins_by_itself(rig: OnRig) -> None:
    assert rig.visit.mark_pain(2) == ""
    rig.begin()
    rig.rep_done()
    advice = rig.visit.stop_for_pain(6)
    assert "above the agreed cut of 5" in advice
    assert "treating clinician" in advice
    # And not the set under way, which is told of.
    told = rig.visit.words
    assert told.startswith(advice)
    assert "Next in the order: Invented calf push, right, set 1 of 2." in told
    rig.set_over()
    rig.visit.skip()
    rig.visit.mark_pain(7)
    rig.visit.mark_effort(8)
    rig.run(8.0)
    assert not rig.visit.in_set
    assert not rig.visit.begin_next()
    rig.run(SEEN_S + 0.1)
    assert rig.visit.begin_next()  # the practitioner decides
    rig.run(0.2)
    rig.close()
    assert [(one.content["when"], one.content["level"]) for one in rig.notes(PAIN)] == [
        ("before", 2), ("during", 6), ("after", 7),
    ]  # fmt: skip
    (row,) = rig.logbook.sessions()
    first, second = rig.logbook.sets(row.id)
    (effort,) = rig.notes(EFFORT)
    assert (effort.content["level"], effort.set_id) == (8, first.id)
    replayed = replay(rig.folder / first.recording)
    (mark,) = (one for one in replayed.events if one.get("kind") == "pain")
    assert mark["level"] == 6
    went_on = replay(rig.folder / second.recording).header[WENT_ON]
    assert isinstance(went_on, list)
    assert "Pain 7 of 10" in went_on[0]


def test_pain_told_in_a_set_speaks_against_the_next_start_once(rig: OnRig) -> None:
    for level in (7, 7):  # the same again is told again
        rig.run(SEEN_S + 0.1)
        rig.visit.begin_next()
        rig.until(lambda: rig.visit.changes.asked is not None)
        rig.visit.mark_pain(level)
        rig.visit.resume()
        rig.set_over()
        rig.run(8.0)  # longer than its rest
        assert not rig.visit.in_set
        assert not rig.visit.begin_next()
        assert "Pain 7 of 10 is above the agreed cut of 5" in rig.visit.words
        assert rig.visit.words.endswith("A second start goes on.")
    rig.run(SEEN_S + 0.1)
    assert rig.visit.begin_next()
    rig.set_over()
    rig.close()
    (row,) = rig.logbook.sessions()
    first, *later = (
        replay(rig.folder / one.recording).header.get(WENT_ON)
        for one in rig.logbook.sets(row.id)
    )
    assert first is None
    assert ["Pain 7 of 10" in str(head) for head in later] == [True, True]


def test_after_pain_in_a_set_no_rep_begins_by_itself(rig: OnRig) -> None:
    rig.begin()
    rig.rep_done()
    rig.visit.mark_pain(7)
    rig.run(8.0)  # the athlete would push again after 3 s of rest
    assert rig.visit.paused
    assert rig.update is not None
    assert rig.update.state is not None
    assert rig.update.state.phase is Phase.HELD_BACK
    rig.visit.resume()
    rig.set_over()
    rig.close()
    (row,) = rig.logbook.sessions()
    (first,) = rig.logbook.sets(row.id)
    assert len(replay(rig.folder / first.recording).reps) == 2


def test_pain_up_to_the_cut_speaks_against_nothing(rig: OnRig) -> None:
    rig.begin()
    rig.visit.mark_pain(5)
    rig.set_over()
    rig.until(lambda: rig.visit.in_set)
    rig.close()


def test_pain_told_before_a_crash_speaks_after_it(rig: OnRig, tmp_path: Path) -> None:
    rig.begin()
    rig.visit.mark_pain(3)
    rig.set_over()
    rig.visit.auto = False
    rig.close()
    (row,) = rig.logbook.sessions()  # by this computer's clock, as sets are
    rig.logbook.session_notes.add(row.id, PAIN, {"level": 8})
    found = left_over(rig.logbook, CODE, NOW)
    assert found is not None
    told = PainTold()
    told.recall(rig.logbook, CODE, NOW)
    again = OnRig(rig.logbook, tmp_path / "recordings", found, pain=told)
    again.run(1.0)
    assert not again.visit.begin_next()
    assert "Pain 8 of 10" in again.visit.words
    again.run(SEEN_S + 0.1)
    assert again.visit.begin_next()
    again.close()


def test_pain_told_before_the_last_set_began_is_not_recalled(rig: OnRig) -> None:
    rig.begin()
    rig.set_over()
    rig.close()
    (row,) = rig.logbook.sessions()
    (done,) = rig.logbook.sets(row.id)
    told = PainTold()
    for before_s, expected in ((1.0, 0), (-1.0, 1)):
        at_utc = done.started_utc - timedelta(seconds=before_s)
        rig.logbook.session_notes.add(row.id, PAIN, {"level": 8}, at_utc=at_utc)
        told.recall(rig.logbook, CODE, NOW)
        assert len(told.against()) == expected


def test_pain_of_a_kept_test_is_recalled_unless_a_set_began_since(rig: OnRig) -> None:
    rig.begin()
    rig.set_over()
    rig.close()
    (row,) = rig.logbook.sessions()
    (done,) = rig.logbook.sets(row.id)
    athlete = rig.logbook.athlete_by_code(CODE)
    assert athlete is not None
    told = PainTold()
    for after_s, expected in ((-1.0, 0), (1.0, 1)):
        rig.logbook.maxima.add(
            NewMaximalTest(
                athlete.id,
                Task("Pull (invented)"),
                done.started_utc + timedelta(seconds=after_s),
                Definition.PEAK,
                200.0,
                3,
                pain=8,
            )
        )
        told.recall(rig.logbook, CODE, done.started_utc + timedelta(minutes=1))
        assert len(told.against()) == expected


def test_effort_is_told_after_a_set_and_levels_are_checked(rig: OnRig) -> None:
    with pytest.raises(UserError, match="after a set"):
        rig.visit.mark_effort(3)
    with pytest.raises(FieldError, match="pain"):
        rig.visit.mark_pain(11)
    with pytest.raises(FieldError, match="effort"):
        rig.visit.mark_effort(-1)


def test_what_speaks_against_a_start_is_said_once(
    logbook: Logbook, tmp_path: Path
) -> None:
    rig = OnRig(
        logbook, tmp_path / "recordings", against=lambda _: ("The 100 % is old.",)
    )
    rig.run(1.0)
    assert not rig.visit.begin_next()
    assert "old" in rig.visit.words
    rig.run(SEEN_S / 2)
    assert not rig.visit.begin_next(), "too soon: the second begins anew"
    rig.run(SEEN_S / 2)
    assert not rig.visit.begin_next()
    rig.run(SEEN_S + 0.1)
    assert rig.visit.begin_next()
    rig.until(lambda: rig.visit.order.doing is Doing.DONE)  # and not again
    rig.close()
    (row,) = logbook.sessions()
    first = logbook.sets(row.id)[0]
    header = replay(rig.folder / first.recording).header
    assert header[WENT_ON] == ["The 100 % is old."]


def test_after_a_closed_lid_nothing_begins_by_itself(rig: OnRig) -> None:
    rig.begin()
    rig.set_over()
    rig.now_s += ASLEEP_S
    rig.run(6.0)
    assert not rig.visit.in_set
    assert "stood still" in rig.visit.words
    assert rig.visit.begin_next()


def test_a_refused_start_is_said_and_not_tried_again_and_again(
    logbook: Logbook, tmp_path: Path
) -> None:
    """A rig with one cell has no left one."""
    rig = OnRig(logbook, tmp_path / "recordings", channels=1)
    rig.run(1.0)
    assert rig.visit.begin_next()
    rig.run(0.2)
    assert "Not begun" in rig.visit.words
    assert not rig.visit.in_set
    assert rig.visit.order.doing is Doing.READY
    rig.visit.skip()
    rig.run(8.0)
    assert not rig.visit.in_set
    rig.close()


def test_a_set_of_the_desk_is_none_of_the_order(rig: OnRig) -> None:
    rig.run(1.0)
    asked = replace(rig.visit.order.legs[1].asked, reps=1)
    rig.session.begin_set(asked)
    rig.until(lambda: rig.visit.in_set)
    with pytest.raises(UserError, match="under way"):
        rig.visit.begin_next()
    rig.visit.changes.longer_hold(1)
    rig.set_over()
    assert stands(rig.visit) == [Stand.TO_COME] * 3
    rig.close()
    (change,) = changes(rig)
    assert change["what"] == "hold_s"


# --------------------------------------------------------- crashes, busy logbooks


def test_after_a_crash_the_visit_goes_on_where_it_was(
    logbook: Logbook, tmp_path: Path
) -> None:
    folder = tmp_path / "recordings"
    rig = OnRig(logbook, folder)
    rig.begin()
    rig.visit.changes.longer_hold(1)
    rig.set_over()
    rig.until(lambda: rig.visit.in_set)
    rig.rep_done()
    rig.visit.changes.longer_hold(2)
    rig.run(0.3)
    # The power goes: nothing is ended. What is in the files now is all there is.
    rig.session._recorder.stop()  # type: ignore[union-attr]  # has one here
    found = left_over(logbook, CODE, NOW + timedelta(minutes=1))
    assert found is not None
    assert found.session_id == logbook.sessions()[0].id
    assert found.order.doing is Doing.STOPPED
    assert [leg.stand for leg in found.order.legs] == [
        Stand.DONE, Stand.STOPPED, Stand.TO_COME,
    ]  # fmt: skip
    # What was changed before the crash holds on: of the first set, and of the second.
    assert found.order.legs[2].asked.hold_s == 3.0
    stopped = found.order.legs[1].done_as
    assert stopped is not None
    assert stopped.hold_s == 4.0
    recover(folder, logbook)
    again = OnRig(logbook, folder, found)
    again.run(1.0)
    assert not again.visit.in_set
    again.visit.repeat()
    assert again.visit.begin_next()
    again.until(lambda: again.visit.order.doing is Doing.DONE)
    again.close()
    (row,) = logbook.sessions()  # one visit, before and after
    sets = logbook.sets(row.id)
    assert [one.sides for one in sets] == ["left", "right", "right", "left"]
    assert [len(logbook.reps(set_id=one.id)) for one in sets] == [2, 1, 2, 2]
    assert sets[2].prescription["hold_s"] == 4.0
    assert begun_sets(again) == [one.id for one in sets]
    assert left_over(logbook, CODE, NOW) is None


def test_a_visit_is_not_taken_up_in_a_set(rig: OnRig) -> None:
    rig.begin()
    with pytest.raises(UserError, match="the visit stays"):
        rig.session.take_up_visit("another")


def test_only_what_is_left_of_today_is_offered(rig: OnRig) -> None:
    rig.begin()
    rig.set_over()
    rig.close()
    assert left_over(rig.logbook, CODE, NOW) is not None
    assert left_over(rig.logbook, "INV-2", NOW) is None
    assert left_over(rig.logbook, CODE, NOW + timedelta(days=1)) is None
    # A newer order takes its place, also where it is over.
    legs = legs_of(PLANNED, [leg.asked for leg in rig.visit.order.legs[:1]])[:1]
    newer = OnRig(rig.logbook, rig.folder, new_record(RunningOrder(legs)))
    newer.now_s += 60
    newer.visit.end()
    newer.close()
    assert left_over(rig.logbook, CODE, NOW) is None


def test_a_busy_logbook_is_waited_for_and_said_and_loses_nothing(
    rig: OnRig, tmp_path: Path
) -> None:
    rig.run(0.2)
    other = sqlite3.connect(tmp_path / "logbook.db", isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    rig.visit.mark_pain(3)
    rig.run(0.2)
    assert rig.visit.not_kept.startswith("1 note is not in the logbook yet")
    other.execute("COMMIT")
    other.close()
    rig.run(RETRY_S + 0.1)
    assert rig.visit.not_kept == ""
    (pain,) = rig.notes(PAIN)
    assert pain.content["level"] == 3
    # The time is that of the pain, and not that of the second try.
    assert (pain.at_utc - NOW).total_seconds() == pytest.approx(0.2, abs=0.06)


def test_the_last_try_waits_for_a_logbook_that_is_busy(
    rig: OnRig, tmp_path: Path
) -> None:
    """As with the end of a set, which is written when a window closes."""
    rig.run(0.2)
    other = sqlite3.connect(
        tmp_path / "logbook.db", isolation_level=None, check_same_thread=False
    )
    other.execute("BEGIN IMMEDIATE")
    done = threading.Timer(5 * BUSY_S, other.execute, ["COMMIT"])
    done.start()
    rig.visit.mark_pain(3)
    assert rig.visit.close() == ""
    done.join()
    other.close()
    assert [one.content["level"] for one in rig.notes(PAIN)] == [3]


@pytest.mark.expects_log("cannot be used")
def test_an_order_that_does_not_fit_is_not_offered(rig: OnRig) -> None:
    key = rig.session.visit_id()
    rig.logbook.session_notes.add(key, ORDER, {"order": {"legs": []}})
    assert left_over(rig.logbook, CODE, NOW) is None


def test_both_sides_together_have_no_other_side(
    logbook: Logbook, tmp_path: Path
) -> None:
    planned = replace(PLANNED, side_order=SideOrder.TOGETHER)
    asked = planned.on(Sides.BOTH, reference(200.0))
    order = new_record(RunningOrder(legs_of(planned, [asked])))
    rig = OnRig(logbook, tmp_path / "recordings", order)
    with pytest.raises(UserError, match="Both sides"):
        rig.visit.changes.change_side()
    rig.visit.changes.change_terms(Terms(reps=1))
    assert {leg.asked.reps for leg in rig.visit.order.legs} == {1}
    rig.close()


def test_pain_told_after_the_start_key_is_of_the_set_that_begins() -> None:
    told = PainTold()
    told.tell(7)
    told.ask_start()
    told.tell(8)
    told.begin()
    assert "8 of 10" in told.against()[0]
    told.begin()  # one that nobody asked for, such as the next of an order
    assert told.against() == ()
    told.tell(7)
    told.ask_start()
    told.take_back(7)
    told.tell(9)
    told.begin()
    assert "9 of 10" in told.against()[0]
