"""The end of a visit: planned and done side by side, from the logbook alone."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from session.test_today import Clinic
from session.visit_on_rig import (
    CODE,
    LEFT_N,
    NOW,
    PLANNED,
    RIGHT_N,
    OnRig,
    both_sides,
    record,
)

from biofeedback.errors import FieldError
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.days import NewChoice
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.logbook.rows import NewSet
from biofeedback.logbook.session_notes import NOTE, PAIN, SUMMARY
from biofeedback.session.next_time import next_time
from biofeedback.session.replay import replay
from biofeedback.session.reports import Reports
from biofeedback.session.visit_facts import Amount
from biofeedback.session.visit_sets import planned_amount
from biofeedback.session.visit_summary import VisitSummaries
from biofeedback.training.band import Band
from biofeedback.training.changes import Reason
from biofeedback.training.day import DayReport, LastTime, PainRule
from biofeedback.training.intensity import Intensity, ToleranceOf
from biofeedback.training.prescription import BandOn, FeedbackMode
from biofeedback.training.reference import Definition
from biofeedback.training.running_order import Doing
from biofeedback.training.task import Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from biofeedback.logbook.rows import SessionRow
    from biofeedback.session.visit_facts import TaskLine, VisitSummary
    from biofeedback.training.prescription import Prescription


@pytest.fixture
def logbook(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def rig(logbook: Logbook, tmp_path: Path) -> Iterator[OnRig]:
    made = OnRig(logbook, tmp_path / "recordings", record(warm_up=True, sets=5))
    yield made
    made.session.close()


def summary(rig: OnRig) -> VisitSummary:
    found = VisitSummaries(rig.logbook, clock=lambda: NOW).latest(CODE)
    assert found is not None
    return found


def about(amount: Amount, expected: tuple[float, ...]) -> bool:
    """Whether sets, reps, seconds and dose are these."""
    found = (amount.sets, amount.reps, amount.inside_s, amount.dose_pct_s)
    return found == pytest.approx(expected)


def test_planned_beside_done_for_each_task_and_side_with_warm_up_apart(
    rig: OnRig,
) -> None:
    rig.begin()
    rig.until(
        lambda: rig.visit.order.place == 2 and rig.visit.changes.asked is not None
    )
    asked = rig.visit.asked
    assert asked is not None
    rig.visit.changes.change_band(asked.band.moved(-4.0))
    rig.run(0.3)
    rig.visit.changes.give_reason(Reason.WEAKER)
    rig.visit.changes.more_reps(1)
    rig.set_over()
    rig.visit.mark_effort(7)
    rig.visit.mark_pain(3)
    rig.session.tell(NOTE, {"text": "Strap one hole tighter."})
    rig.until(
        lambda: rig.visit.order.place == 3 and rig.visit.changes.asked is not None
    )
    rig.rep_done()
    rig.visit.stop()
    rig.set_over()
    rig.visit.end()
    rig.close()
    found = summary(rig)
    assert [(one.sides, one.warm_up) for one in found.lines] == [
        (Sides.LEFT, True), (Sides.RIGHT, True),
        (Sides.LEFT, False), (Sides.RIGHT, False),
    ]  # fmt: skip
    warm, _, left, right = found.lines
    # As planned: two reps of 2 s at 50 % are 4 s and 200 %·s each set, at a warm-up
    # one rep at a half of that. What was changed on the way changes nothing here.
    assert about(warm.planned, (1, 1, 2.0, 50.0))
    assert about(left.planned, (2, 4, 8.0, 400.0))
    assert about(right.planned, (1, 2, 4.0, 200.0))
    (row,) = rig.logbook.sessions()
    rows = rig.logbook.sets(row.id)
    for line, set_row, reps in ((left, rows[2], 3), (right, rows[3], 1)):
        # The recording says the same, and the dose is force times time over 100 %.
        numbers = replay(rig.folder / set_row.recording).reps
        force_n = LEFT_N if line is left else RIGHT_N
        impulse_ns = sum(float(str(one["impulse_ns"])) for one in numbers)
        inside_s = sum(float(str(one["inside_s"])) for one in numbers)
        complete = sum(one["outcome"] == "complete" for one in numbers)
        assert line.done.sets == 1
        assert len(numbers) == reps
        assert line.done.reps == complete
        assert line.not_complete == reps - complete
        assert line.done.inside_s == pytest.approx(inside_s)
        assert line.done.dose_pct_s == pytest.approx(100 * impulse_ns / force_n)
    band, more = found.changes
    assert (band.what, band.reason) == ("band", "weaker today")
    assert (band.set_name, band.reference_n) == (
        "set 1: Invented calf push, left",
        LEFT_N,
    )
    assert (more.what, more.old, more.new, more.reason) == ("reps", 2, 3, "")
    assert [(one.level, one.when) for one in found.pain] == [(3, "after")]
    assert [(one.level, one.set_name) for one in found.effort] == [
        (7, "set 1: Invented calf push, left")
    ]
    assert found.notes == ("Strap one hole tighter.",)
    assert found.signal.reps == 6
    assert (found.signal.gaps, found.signal.lost, found.signal.saturated) == (0, 0, 0)
    assert not found.talk_first
    week_of_report(rig, left, right)


def week_of_report(rig: OnRig, left: TaskLine, right: TaskLine) -> None:
    """The week of a report is that of the visit, without the warm-up."""
    facts = Reports(rig.logbook, clock=lambda: NOW + timedelta(minutes=30)).of(CODE)
    (week,) = facts.weeks
    assert week.planned == left.planned + right.planned
    assert week.done.inside_s == pytest.approx(left.done.inside_s + right.done.inside_s)
    assert (week.done.sets, week.done.reps) == (2, left.done.reps + right.done.reps)


def test_a_void_rep_counts_nowhere_and_a_repeated_set_was_not_planned(
    rig: OnRig,
) -> None:
    rig.visit.skip()
    rig.visit.skip()
    rig.begin()
    rig.set_over()
    rig.visit.repeat()
    rig.visit.begin_next()
    rig.until(lambda: rig.visit.changes.asked is not None)
    rig.set_over()
    rig.close()
    before = summary(rig).lines[2]
    assert about(before.planned, (2, 4, 8.0, 400.0))
    assert (before.done.sets, before.done.reps) == (2, 4)
    rep = rig.logbook.reps(session_id=rig.logbook.sessions()[0].id)[0]
    rig.logbook.void_rep(rep.id, "strap slipped")
    after = summary(rig).lines[2]
    assert (after.done.reps, after.void) == (3, 1)
    assert (before.part_sets, after.part_sets) == (0, 1)
    assert before.done.dose_pct_s is not None
    dose = rep.measures["dose_pct_s"]
    assert isinstance(dose, float)
    assert after.done.dose_pct_s == pytest.approx(before.done.dose_pct_s - dose)
    assert rep.inside_s is not None
    assert after.done.inside_s == pytest.approx(before.done.inside_s - rep.inside_s)


def test_a_set_of_the_desk_was_planned_as_it_began(rig: OnRig) -> None:
    rig.run(1.0)
    leg = rig.visit.order.legs[2].asked
    free = replace(leg, task=replace(leg.task, name="By hand"), reference=None, reps=1)
    rig.session.begin_set(free)
    rig.until(lambda: rig.visit.in_set)
    rig.set_over()
    test = replace(leg, task=replace(leg.task, kind=TaskKind.MAXIMAL), reps=1)
    rig.session.begin_set(test)
    rig.until(lambda: rig.visit.in_set)
    rig.session.end_set()
    rig.set_over()
    rig.close()
    found = summary(rig)
    by_hand = found.lines[-1]
    assert by_hand.task == "By hand"
    assert by_hand.planned == Amount(1, 1, 2.0, None)  # without 100 % no dose
    assert (by_hand.done.reps, by_hand.done.dose_pct_s) == (1, None)
    assert found.tests == ("Invented calf push, left",)


def test_the_planned_dose_in_closed_form() -> None:
    """5 × 45 s at 70 % are 225 s and 15 750 %·s; on each of two sides twice that."""
    planned = replace(
        PLANNED,
        intensity=Intensity.around(70, 5, ToleranceOf.CENTRE),
        hold_s=45.0,
        reps=5,
    )
    asked = replace(
        record(planned).order.legs[0].asked,
        band=Band.from_percent(65, 75, reference_n=100),
    )
    assert about(planned_amount(asked), (1, 5, 225.0, 15750.0))
    both = replace(asked, band_on=BandOn.EACH_SIDE)
    assert planned_amount(both).dose_pct_s == pytest.approx(31500.0)


def test_sums_with_an_unknown_dose_are_unknown() -> None:
    assert Amount(1, 2, 3.0, None) + Amount(1, 1, 1.0, 5.0) == Amount(2, 3, 4.0, None)
    assert Amount() + Amount(1, 1, 1.0, 5.0) == Amount(1, 1, 1.0, 5.0)


# -------------------------------------------------------------------- next time

RANGE = Intensity.in_range(60, 80, tolerance=5, tolerance_of=ToleranceOf.CENTRE)


def test_next_time_is_the_rule_of_the_day_answer_by_answer() -> None:
    """Centres run from 60/0.95 to 80/1.05 %; one step is a quarter of that."""
    found = next_time("Hold", Sides.LEFT, RANGE, LastTime(0.5, 1), PainRule())
    low, high = 60 / 0.95, 80 / 1.05
    up = low + 0.75 * (high - low)
    assert found.words[0].startswith("Pain 0 to 2, also the morning after: one step up")
    assert f"{up:.1f} %" in found.words[0]
    assert found.words[1].startswith("Pain 3 to 5: low end, 63.2 %")
    assert found.words[2] == (
        "Pain above 5 of 10: better stop, and ask the treating clinician."
    )


def test_a_rise_within_little_pain_is_a_step_down() -> None:
    found = next_time("Hold", Sides.LEFT, RANGE, LastTime(0.5, 0), PainRule())
    assert found.words[0].startswith("Pain 0 to 1,")
    assert found.words[1].startswith("Pain 2, a rise: one step down")


def test_at_the_high_end_it_stays_and_a_fixed_band_is_fixed() -> None:
    found = next_time("Hold", Sides.LEFT, RANGE, LastTime(1.0, 2), PainRule())
    assert "still the high end" in found.words[0]
    fixed = Intensity.around(70, 5, ToleranceOf.CENTRE)
    found = next_time("Hold", Sides.LEFT, fixed, LastTime(0.0, 2), PainRule())
    assert "the band is fixed" in found.words[0]
    assert len(found.words) == 2


def test_what_was_decided_today_is_the_start_of_next_time(tmp_path: Path) -> None:
    with Logbook.open(tmp_path / "logbook.db") as book:
        clinic = Clinic(book)
        clinic.now = datetime.now(tz=UTC).astimezone()
        clinic.test(240, Sides.LEFT)
        visit = book.begin_session(clinic.athlete_id)
        view = clinic.view(DayReport(1, 1, 1))
        chosen = view.sets[0].at(0.5)
        clinic.today.use(view, chosen, session_id=visit)
        summaries = VisitSummaries(book)
        assert summaries.of(visit).next_time == ()  # not done: nothing to go on from
        begun = NewSet(
            visit,
            chosen.asked().to_json(),
            {},
            "one.force",
            clinic.now.astimezone(UTC),
            plan=chosen.context.get("plan", {}),  # type: ignore[arg-type]  # an object
        )
        book.add_rep(
            book.begin_set(begun),
            {"number": 1, "outcome": "complete", "start_s": 1.0, "end_s": 9.0},
        )
        found = summaries.of(visit)
        (one,) = found.next_time
        assert (one.task, one.sides) == ("Knee extension", Sides.LEFT)
        assert "one step up" in one.words[0]
        assert [(told.level, told.when) for told in found.pain] == [(1, "before")]
        # A second prescription of the same task and side has a proposal of its own.
        (choice,) = book.days.choices(clinic.athlete_id, session_id=visit)
        second = NewChoice(
            choice.report.id,
            choice.sides,
            choice.proposed,
            choice.accepted,
            choice.plan_id,
            "another",
            choice.task_id,
        )
        book.days.choose(second)
        book.begin_set(replace(begun, recording="two.force", plan={"key": "another"}))
        assert [one.sides for one in summaries.of(visit).next_time] == [Sides.LEFT] * 2


def test_the_page_is_kept_with_date_and_proposal(rig: OnRig) -> None:
    rig.begin()
    rig.set_over()
    rig.visit.mark_pain(7)
    rig.close()
    summaries = VisitSummaries(rig.logbook, clock=lambda: NOW)
    found = summary(rig)
    assert found.talk_first
    with pytest.raises(FieldError, match="to come"):
        summaries.keep(found, next_date=NOW.date())
    with pytest.raises(FieldError, match="longer"):
        summaries.keep(found, next_date=None, note="x" * 2001)
    day = NOW.date() + timedelta(days=2)
    summaries.keep(found, next_date=day, note=" Rest well. ")
    (note,) = rig.notes(SUMMARY)
    assert note.content["next_date"] == day.isoformat()
    assert note.content["note"] == "Rest well."
    assert note.content["highest_pain"] == 7
    lines = note.content["lines"]
    assert isinstance(lines, list)
    assert lines[0]["done"]["reps"] == 1
    assert summary(rig).kept == note.content
    summaries.keep(found, next_date=None)
    kept = summary(rig).kept
    assert kept is not None
    assert kept["next_date"] is None


def test_a_task_is_one_row_with_and_without_its_key_and_two_of_one_name_are_two(
    logbook: Logbook,
) -> None:
    visit = logbook.begin_session(logbook.add_athlete(CODE))
    asked = both_sides()[0]

    def done(key: str, kind: TaskKind = TaskKind.HOLD) -> None:
        """A set with one whole rep."""
        number = len(logbook.sets(visit))
        task = replace(asked.task, key=key, kind=kind)
        begun = replace(asked, task=task).to_json()
        new = NewSet(visit, begun, {}, f"{number}.force", datetime.now(tz=UTC))
        rep = {"number": 1, "outcome": "complete", "start_s": 1.0, "end_s": 9.0}
        logbook.add_rep(logbook.begin_set(new), rep)

    done("")
    done("one")
    (line,) = VisitSummaries(logbook).of(visit).lines
    assert (line.task_key, line.done.sets) == ("one", 2)
    done("two")
    lines = VisitSummaries(logbook).of(visit).lines
    # Now the name alone tells no more which of the two the first set was of.
    assert sorted((one.task_key, one.done.sets) for one in lines) == [
        ("", 1), ("one", 1), ("two", 1),
    ]  # fmt: skip
    for _ in range(2):
        done("one", TaskKind.MAXIMAL)
    name = f"{asked.task.name}, {asked.task.sides.value}"
    assert VisitSummaries(logbook).of(visit).tests == (f"{name} (1)", f"{name} (2)")


def desk_set(logbook: Logbook, visit: str, asked: Prescription, *outcomes: str) -> str:
    """A set of the desk with these reps, each 8 s in the band and 250 %·s."""
    number = len(logbook.sets(visit))
    new = NewSet(
        visit, asked.to_json(), {}, f"{number}.force",
        NOW.astimezone(UTC) + timedelta(minutes=number),
    )  # fmt: skip
    set_id = logbook.begin_set(new)
    for at, outcome in enumerate(outcomes, start=1):
        rep = {
            "number": at, "outcome": outcome,
            "start_s": 9.0 * at, "end_s": 9.0 * at + 8,
            "inside_s": 8.0, "dose_pct_s": 250.0,
        }  # fmt: skip
        logbook.add_rep(set_id, rep)
    return set_id


def test_a_set_that_was_broken_off_and_begun_anew_is_asked_for_once(
    logbook: Logbook,
) -> None:
    """4 × 8 s, stopped early three times and then done: 4 reps were asked for, not 16.

    What was done in all runs counts, and nothing is said to have been planned.
    """
    visit = logbook.begin_session(logbook.add_athlete(CODE))
    asked = replace(both_sides()[0], hold_s=8.0, reps=4)
    runs = [
        desk_set(logbook, visit, asked, *outcomes)
        for outcomes in (
            ("complete", "stopped"), ("complete", "stopped"), (), ("complete",) * 4,
        )
    ]  # fmt: skip
    logbook.session_notes.add(
        visit, PAIN, {"level": 4, "when": "during"}, set_id=runs[1]
    )
    found = VisitSummaries(logbook).of(visit)
    (line,) = found.lines
    assert not found.by_order
    assert about(line.planned, (1, 4, 32.0, 4 * 8 * 50.0))
    assert about(line.done, (1, 6, 64.0, 2000.0))
    assert (line.not_complete, line.part_sets, line.begun_anew) == (2, 0, 3)
    # Pain is told of the set as the table counts it.
    assert [(one.level, one.set_name) for one in found.pain] == [(4, "set 1")]
    facts = Reports(logbook, clock=lambda: NOW + timedelta(hours=1)).of(CODE)
    assert not facts.by_order
    assert facts.lines == found.lines
    assert [(one.planned, one.done) for one in facts.weeks] == [
        (line.planned, line.done)
    ]
    # The same once more after a whole set is another set, and so is another band.
    desk_set(logbook, visit, asked, "complete", "short", "complete", "complete")
    desk_set(logbook, visit, asked, "complete", "stopped")
    other = desk_set(logbook, visit, replace(asked, reps=3), *("complete",) * 3)
    (line,) = VisitSummaries(logbook).of(visit).lines
    assert (line.planned.sets, line.planned.reps) == (4, 4 + 4 + 4 + 3)
    assert (line.done.sets, line.part_sets, line.begun_anew) == (4, 2, 3)
    logbook.session_notes.add(visit, PAIN, {"level": 1, "when": "after"}, set_id=other)
    assert VisitSummaries(logbook).of(visit).pain[-1].set_name == "set 4"


def test_sets_of_two_lines_are_named_with_their_task(logbook: Logbook) -> None:
    """A test is no set of the table, so it takes no number there."""
    visit = logbook.begin_session(logbook.add_athlete(CODE))
    left, right = both_sides()
    test = replace(left, task=replace(left.task, kind=TaskKind.MAXIMAL))
    desk_set(logbook, visit, test, "complete")
    for asked in (left, right, left):
        set_id = desk_set(logbook, visit, asked, "complete", "complete")
        content = {"level": 2, "when": "after"}
        logbook.session_notes.add(visit, PAIN, content, set_id=set_id)
    assert [one.set_name for one in VisitSummaries(logbook).of(visit).pain] == [
        "set 1: Invented calf push, left",
        "set 1: Invented calf push, right",
        "set 2: Invented calf push, left",
    ]


def test_what_is_not_there_is_said(logbook: Logbook) -> None:
    summaries = VisitSummaries(logbook)
    assert summaries.latest("NOBODY") is None
    with pytest.raises(FieldError, match="no visit"):
        summaries.of("nothing")
    assert isinstance(summaries.today, date)


def test_it_ends_with_a_whole_order(rig: OnRig) -> None:
    rig.begin()
    rig.until(lambda: rig.visit.order.doing is Doing.DONE)
    rig.close()
    for line in summary(rig).lines:
        assert (line.done.sets, line.done.reps + line.not_complete) == (
            line.planned.sets,
            line.planned.reps,
        )
        assert line.done.inside_s >= 2.0 * line.done.reps - 0.3


def test_errors_of_unseen_reps_come_from_their_recordings(
    logbook: Logbook, tmp_path: Path
) -> None:
    """Every second rep unseen: four reps a set, so two of each are."""
    planned = replace(PLANNED, reps=4, sets=1, feedback=FeedbackMode.ALTERNATE)
    rig = OnRig(logbook, tmp_path / "recordings", record(planned, sets=1))
    rig.begin()
    rig.set_over()
    rig.close()
    (line,) = summary(rig).lines
    (row,) = logbook.sessions()
    (set_row,) = logbook.sets(row.id)
    reps = replay(rig.folder / set_row.recording).reps
    unseen = [one for one in reps if one["feedback"] == "unseen"]
    assert len(unseen) == 2
    centre_n = 0.5 * LEFT_N
    errors_n = [float(str(one["median_n"])) - centre_n for one in unseen]
    assert line.sense is not None
    assert line.sense.efforts == 2
    mean_n = sum(errors_n) / 2
    assert line.sense.error.ce_n == pytest.approx(mean_n)
    assert line.sense.error.ve_n == pytest.approx(abs(errors_n[0] - errors_n[1]) / 2)
    assert line.sense.ce_pct == pytest.approx(100 * mean_n / centre_n)
    # A void rep counts nowhere.
    voided = next(one for one in logbook.all_reps() if one.number == 2)
    logbook.void_rep(voided.id, "slipped")
    (line,) = summary(rig).lines
    assert line.sense is not None
    assert line.sense.efforts == 1


@pytest.mark.parametrize(
    "feedback", [FeedbackMode.FULL, FeedbackMode.OUTSIDE, FeedbackMode.UNSEEN]
)
def test_only_unseen_reps_tell_of_force_sense(
    logbook: Logbook, tmp_path: Path, feedback: FeedbackMode
) -> None:
    planned = replace(PLANNED, sets=1, feedback=feedback)
    rig = OnRig(logbook, tmp_path / "recordings", record(planned, sets=1))
    rig.begin()
    rig.set_over()
    rig.close()
    (line,) = summary(rig).lines
    efforts = line.sense.efforts if line.sense else 0
    assert efforts == (2 if feedback is FeedbackMode.UNSEEN else 0)


def heel_press(visit: SessionRow) -> NewMaximalTest:
    """A maximal test five minutes into a visit."""
    return NewMaximalTest(
        athlete_id=visit.athlete_id,
        task=Task("Invented heel press", sides=Sides.LEFT),
        tested_utc=visit.started_utc + timedelta(minutes=5),
        definition=Definition.PEAK,
        force_n=300.0,
        trials=3,
        session_id=visit.id,
    )


def test_pain_in_a_maximal_test_is_pain_of_the_visit(rig: OnRig) -> None:
    rig.begin()
    rig.visit.stop()
    rig.close()
    (row,) = rig.logbook.sessions()
    assert not summary(rig).talk_first
    rig.logbook.maxima.add(replace(heel_press(row), pain=8))
    found = summary(rig)
    assert [(one.level, one.when, one.set_name) for one in found.pain] == [
        (8, "during", "Invented heel press")
    ]
    assert found.highest_pain == 8
    assert found.talk_first
    assert found.next_time == ()


def test_pain_is_told_of_each_effort_of_a_maximal_test(rig: OnRig) -> None:
    """A practice ramp, a touch, a void trial and three that count, as in the test."""
    rig.begin()
    rig.visit.stop()
    rig.close()
    (row,) = rig.logbook.sessions()

    def effort(number: int, **more: object) -> dict[str, object]:
        return {
            "number": number, "asked_pct": None, "seconds": 4.0, "pain": None,
            "void_reason": "", **more,
        }  # fmt: skip

    efforts = [
        effort(1, asked_pct=50, pain=0),
        effort(2, seconds=0.1),
        effort(3, pain=2),
        effort(4, pain=3, void_reason="strap slipped"),
        effort(5),
        effort(6, pain=1),
    ]
    test = replace(heel_press(row), pain=2, content={"trials": efforts})
    rig.logbook.maxima.add(test)
    told = [
        (0, "practice of 50 %"),
        (2, "trial 1 of the test"),
        (3, "trial 2 of the test"),
        (1, "trial 3 of the test"),
    ]
    assert [(one.level, one.set_name) for one in summary(rig).pain] == told
    rig.logbook.maxima.add(replace(test, content={}))
    assert [(one.level, one.set_name) for one in summary(rig).pain] == [
        *((level, f"{name}: Invented heel press") for level, name in told),
        (2, "Invented heel press"),
    ]
