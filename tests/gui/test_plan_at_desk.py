"""A plan at the desk: what is offered of it, and what is said before a start."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from gui.hands import bring_up
from gui.staged_session import ONE, StagedSession, steady_pull
from gui.stepped_window import Stepped

from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.logbook.rows import NewSet
from biofeedback.logbook.session_notes import CHANGE, PAIN
from biofeedback.session.office import Office
from biofeedback.session.roster import Roster
from biofeedback.session.set_changes import OUTSIDE as OUTSIDE_PRESCRIBED
from biofeedback.session.today import Today
from biofeedback.training.band import Band
from biofeedback.training.day import DayReport
from biofeedback.training.feedback import Cue
from biofeedback.training.intensity import Intensity, ToleranceOf
from biofeedback.training.plan import Plan, Stage
from biofeedback.training.planned import PlannedPrescription, SideOrder
from biofeedback.training.prescription import BandOn, Prescription
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Sides, Task

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

_UTC_NOW = dt.datetime.now(tz=dt.UTC)
# Where it is about noon now: visits are entered with the real time.
NOW = _UTC_NOW.astimezone(dt.timezone(dt.timedelta(hours=12 - _UTC_NOW.hour)))
TASK = Task("Invented heel press", sides=Sides.LEFT)
PLANNED = PlannedPrescription(
    TASK,
    Intensity.in_range(40, 60, tolerance=10, tolerance_of=ToleranceOf.CENTRE),
    5.0,
    reps=3,
    side_order=SideOrder.LEFT,
    ceiling_pct=70,
    key="k-1",
)
PLAN = Plan("Invented plan", (Stage("Invented stage", 0, 4, (PLANNED,)),))
BEST_N = 300.0
LOW = Band(120.0, 2 * 133.33333333333334 - 120.0)
"""40 % of 300 N is the lower edge of the low end; its centre is 40/0.9 %."""
TYPED = Reference(
    BEST_N,
    Origin.OWN_SIDE,
    Definition.BEST_1_S_MEAN,
    (NOW.date() - dt.timedelta(days=3)).isoformat(),
)
LAST = Prescription(
    task=TASK,
    band=Band(240.0, 270.0),
    hold_s=5.0,
    band_on=BandOn.LEFT,
    reference=TYPED,
)
UNASKED = "Today's questions about pain are not answered yet."


class Clinic(Stepped):
    """A window, and an athlete whose last set was far above the plan of today."""

    def __init__(
        self,
        qtbot: QtBot,
        folder: Path,
        *,
        tested: bool = True,
        code: str = "A7",
        planned: PlannedPrescription = PLANNED,
    ) -> None:
        self.logbook = Logbook.open(folder / "logbook.db")
        self.athlete_id = self.logbook.add_athlete("A7", "Invented A7")
        self.logbook.add_athlete("B2", "Invented B2")
        stage = replace(PLAN.stages[0], prescriptions=(planned,))
        plan = replace(PLAN, stages=(stage,))
        self.plan_id = self.logbook.plans.add(
            self.athlete_id, plan, at_utc=_UTC_NOW - dt.timedelta(days=5)
        )
        if tested:
            self.test(BEST_N, days_ago=3)
        self.session = StagedSession(steady_pull)
        self.session.athlete_code = code
        office = Office(
            logbook=self.logbook,
            roster=Roster(self.logbook),
            today=Today(self.logbook, clock=lambda: NOW),
        )
        self.train(LAST, _UTC_NOW - dt.timedelta(days=2))
        self.window = Window(
            self.session,
            office,
            prescription=office.last_prescription(code),
            clock=lambda: self.session.now_ns,
        )
        bring_up(qtbot, self.window)

    def test(self, force_n: float, *, days_ago: int) -> None:
        self.logbook.maxima.add(
            NewMaximalTest(
                self.athlete_id,
                TASK,
                _UTC_NOW - dt.timedelta(days=days_ago),
                Definition.BEST_1_S_MEAN,
                force_n,
                3,
                peak_n=1.05 * force_n,
                one_s_n=force_n,
            )
        )

    def train(self, asked: Prescription, at_utc: dt.datetime) -> None:
        session_id = self.logbook.begin_session(self.athlete_id)
        set_id = self.logbook.begin_set(
            NewSet(
                session_id=session_id,
                prescription=asked.to_json(),
                profile={},
                recording=f"{at_utc:%Y%m%d%H%M}.force",
                started_utc=at_utc,
            )
        )
        rep = {"number": 1, "outcome": "complete", "start_s": 1.0, "end_s": 6.0}
        self.logbook.add_rep(set_id, {**rep, "lapses": 0})

    def choose(self, code: str) -> None:
        page = self.window.mounted.roster
        assert page is not None
        page.chosen.emit(code)

    def cue(self) -> Cue | None:
        return self.window.screen_part.shown_cue

    @property
    def begun(self) -> int:
        return [what for what, *_ in self.session.done].count("begin_set")

    @property
    def asked(self) -> Prescription:
        asked = self.window.desk.prescription()
        assert asked is not None
        return asked


@pytest.fixture
def clinic(qtbot: QtBot, tmp_path: Path) -> Iterator[Clinic]:
    made = Clinic(qtbot, tmp_path)
    made.run()
    yield made
    made.logbook.close()


def near(band: Band) -> object:
    return pytest.approx((band.lower_n, band.upper_n))


# What is offered.


def test_the_set_of_the_plan_stands_at_the_desk_and_not_the_last_one(
    clinic: Clinic,
) -> None:
    assert (clinic.asked.band.lower_n, clinic.asked.band.upper_n) == near(LOW)
    assert clinic.asked.ceiling_n == pytest.approx(0.7 * BEST_N)
    assert clinic.told == (
        "Of the plan, low end: Invented heel press, left, 120 to 146.7 N. "
        "Today (Alt+D) asks of pain."
    )


def test_so_it_does_for_an_athlete_who_is_chosen(qtbot: QtBot, tmp_path: Path) -> None:
    clinic = Clinic(qtbot, tmp_path, code="B2")
    clinic.run()
    clinic.choose("A7")
    assert (clinic.asked.band.lower_n, clinic.asked.band.upper_n) == near(LOW)
    assert clinic.told.startswith("Of the plan, low end:")
    clinic.choose("B2")
    assert clinic.asked.task.name == "Hold", "nothing of a plan stands for another"
    assert clinic.told == "B2 is here now."
    clinic.logbook.close()


def test_its_recording_tells_of_the_plan_and_that_pain_was_not_asked(
    clinic: Clinic,
) -> None:
    clinic.press("F5")
    assert clinic.begun == 0
    assert clinic.told == f"{UNASKED} F5 again starts."
    clinic.press_again()
    assert clinic.begun == 1
    assert clinic.session.context == {
        "plan": {"id": clinic.plan_id, "stage": 0, "key": "k-1"},
        "went_on": [UNASKED],
    }


def test_answers_of_today_put_it_where_they_say(qtbot: QtBot, tmp_path: Path) -> None:
    clinic = Clinic(qtbot, tmp_path)
    clinic.logbook.days.report(clinic.athlete_id, DayReport(1), at_utc=_UTC_NOW)
    clinic.run()
    assert clinic.told.startswith("Of the plan: Invented heel press, left,")
    clinic.press("F5")
    assert clinic.begun == 1
    assert "went_on" not in clinic.session.context
    (kept,) = clinic.logbook.days.choices(clinic.athlete_id)
    assert kept.accepted["place"] == kept.proposed["place"]
    clinic.logbook.close()


@pytest.mark.parametrize("changed", [False, True])
def test_the_offer_is_made_anew_when_pain_was_answered_after_it(
    clinic: Clinic, changed: bool
) -> None:
    low = clinic.asked
    assert "low end" in clinic.told
    if changed:
        clinic.press("PgUp")
    before = clinic.asked
    clinic.press("Alt+D")
    clinic.press("Alt+D")
    assert clinic.asked == before, "nothing was answered"
    clinic.press("Alt+D")
    clinic.window.mounted.today.now.buttons[0].click()
    clinic.window.mounted.today.morning.buttons[0].click()
    clinic.press("Alt+D")
    if changed:
        assert clinic.asked == before, "what was changed at the desk stays"
        return
    assert clinic.told.startswith("Of the plan: Invented heel press, left,")
    assert clinic.asked.task == low.task
    clinic.press("F5")
    assert clinic.begun == 1
    assert "went_on" not in clinic.session.context


def test_of_an_offer_that_was_changed_no_decision_is_kept(
    qtbot: QtBot, tmp_path: Path
) -> None:
    clinic = Clinic(qtbot, tmp_path)
    clinic.logbook.days.report(clinic.athlete_id, DayReport(1), at_utc=_UTC_NOW)
    clinic.run()
    clinic.press("PgUp")
    clinic.press("F5")
    assert clinic.begun == 1
    assert clinic.logbook.days.choices(clinic.athlete_id) == ()
    clinic.logbook.close()


def test_an_offer_goes_with_its_athlete(qtbot: QtBot, tmp_path: Path) -> None:
    """Somebody else in the same task and band decides on no set of that plan."""
    clinic = Clinic(qtbot, tmp_path)
    clinic.logbook.days.report(clinic.athlete_id, DayReport(1), at_utc=_UTC_NOW)
    other = clinic.logbook.athlete_by_code("B2")
    assert other is not None
    clinic.logbook.days.report(other.id, DayReport(1), at_utc=_UTC_NOW)
    clinic.run()
    offered = clinic.asked
    clinic.choose("B2")
    clinic.window.desk.form.fill(offered)
    clinic.press("F5")
    assert clinic.begun == 1
    assert clinic.logbook.days.choices(other.id) == ()
    clinic.logbook.close()


def test_an_offer_that_today_put_there_anew_is_kept_once(
    qtbot: QtBot, tmp_path: Path
) -> None:
    clinic = Clinic(qtbot, tmp_path)
    clinic.logbook.days.report(clinic.athlete_id, DayReport(1), at_utc=_UTC_NOW)
    clinic.run()
    today = Today(clinic.logbook, clock=lambda: NOW)
    view = today.for_athlete("A7")
    asked, context = today.use(view, view.sets[0])
    clinic.window.visit.prescribe(asked, context, view.sets[0])
    clinic.press("F5")
    assert clinic.begun == 1
    assert len(clinic.logbook.days.choices(clinic.athlete_id)) == 1
    clinic.logbook.close()


def test_without_a_test_the_plan_waits_and_what_stands_there_is_said(
    qtbot: QtBot, tmp_path: Path
) -> None:
    clinic = Clinic(qtbot, tmp_path, tested=False)
    clinic.run()
    assert clinic.asked.task.name == "Hold"
    assert clinic.told.startswith("The plan's set waits on Today (Alt+D):")
    clinic.press("F5")
    assert clinic.begun == 0
    assert "“Hold” is not in the stage that the plan is at." in clinic.told
    clinic.logbook.close()


def test_the_set_that_waited_for_a_test_comes_when_it_is_kept(
    qtbot: QtBot, tmp_path: Path
) -> None:
    clinic = Clinic(qtbot, tmp_path, tested=False)
    clinic.run()
    before = clinic.asked
    clinic.test(BEST_N, days_ago=0)
    new = Reference(
        BEST_N, Origin.OWN_SIDE, Definition.BEST_1_S_MEAN, NOW.date().isoformat()
    )
    tested = TASK.on_side(Sides.LEFT)
    clinic.window.visit.reference.take(new, tested)
    assert clinic.asked.task.name == TASK.name
    assert clinic.asked.reference is not None
    assert clinic.asked.reference.force_n == BEST_N
    assert clinic.told.startswith(f"{BEST_N:g} N is the 100 % of {TASK.name}, ")
    assert clinic.told.endswith("from now on.")
    assert "Of the plan, low end" in clinic.window.desk.messages.earlier.text()
    clinic.window.visit.reference.give_back(tested)
    assert clinic.asked == before
    clinic.logbook.close()


def test_one_cell_has_the_band_on_the_total(qtbot: QtBot, tmp_path: Path) -> None:
    each = replace(PLANNED, side_order=SideOrder.LEFT)
    clinic = Clinic(qtbot, tmp_path, planned=each)
    clinic.session.profile = ONE
    clinic.run()
    assert clinic.asked.band_on is BandOn.TOTAL
    clinic.press("F5")
    assert clinic.told == f"{UNASKED} F5 again starts."
    clinic.logbook.close()


# What goes beyond the plan.


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        (
            LAST,
            "The band, 240 to 270 N, is outside what the plan prescribes, "
            "120 to 180 N. The band reaches above the plan's ceiling of 210 N.",
        ),
        (
            replace(LAST, band=Band(90.0, 130.0), ceiling_n=210.0),
            "The band, 90 to 130 N, is outside what the plan prescribes, 120 to 180 N.",
        ),
        (
            replace(LAST, band=Band(130.0, 150.0)),
            "The plan's ceiling of 210 N is not set at the desk.",
        ),
        (
            replace(LAST, band=Band(130.0, 150.0), ceiling_n=211.0),
            "The plan's ceiling of 210 N is not set at the desk.",
        ),
        (
            replace(LAST, task=replace(TASK, name="Invented toe press")),
            "“Invented toe press” is not in the stage that the plan is at.",
        ),
        (
            replace(LAST, task=TASK.on_side(Sides.RIGHT), band_on=BandOn.RIGHT),
            "The plan does not ask for “Invented heel press” with these sides (right).",
        ),
        (
            replace(LAST, band=Band(130.0, 150.0), ceiling_n=210.0, hold_s=5.5),
            "The hold of 5.5 s is longer than the plan's 5 s.",
        ),
        (
            replace(LAST, band=Band(130.0, 150.0), ceiling_n=210.0, reps=4, sets=2),
            "Reps at the desk: 4; in the plan: 3. Sets at the desk: 2; in the plan: 1.",
        ),
        (
            # A number typed at the desk moves no limit.
            replace(
                LAST,
                reference=Reference(
                    900.0, Origin.TYPED, Definition.PEAK, NOW.date().isoformat()
                ),
                ceiling_n=630.0,
            ),
            "The band, 240 to 270 N, is outside what the plan prescribes, "
            "120 to 180 N. The band reaches above the plan's ceiling of 210 N.",
        ),
    ],
)
def test_what_goes_beyond_the_plan_is_said_and_a_second_start_goes_on(
    clinic: Clinic, asked: Prescription, words: str
) -> None:
    clinic.window.desk.form.fill(asked)
    clinic.press("F5")
    assert clinic.begun == 0
    assert clinic.told == f"{UNASKED} {words} F5 again starts."
    clinic.press_again()
    assert clinic.begun == 1
    told = clinic.session.context["went_on"]
    assert isinstance(told, list)
    assert " ".join(told) == f"{UNASKED} {words}"


def test_a_100_pct_that_the_rule_does_not_pick_moves_no_limit(clinic: Clinic) -> None:
    task, stated_n = TASK, 450.0
    day = NOW.date().isoformat()
    clinic.logbook.maxima.add_stated(
        clinic.athlete_id, task, stated_n, origin=Origin.BEFORE_INJURY, on_date=day
    )
    before = Reference(stated_n, Origin.BEFORE_INJURY, Definition.STATED, day)
    band = Band(190.0, 200.0)  # 42 to 44 % of it, and above 60 % of 300 N
    asked = replace(LAST, band=band, reference=before, ceiling_n=205.0)
    clinic.window.desk.form.fill(asked)
    clinic.press("F5")
    assert "is outside what the plan prescribes, 120 to 180 N." in clinic.told


@pytest.mark.parametrize("ceiling_n", [210.0, 190.0])
def test_a_band_within_the_range_goes(clinic: Clinic, ceiling_n: float) -> None:
    clinic.train(LAST, _UTC_NOW)
    fits = replace(LAST, band=Band(120.0, 180.0), ceiling_n=ceiling_n)
    clinic.window.desk.form.fill(fits)
    clinic.press("F5")
    assert clinic.begun == 1
    assert "went_on" not in clinic.session.context


def test_a_task_with_another_name_is_the_planned_one_by_its_key(
    qtbot: QtBot, tmp_path: Path
) -> None:
    task = replace(TASK, key="task-1")
    clinic = Clinic(qtbot, tmp_path, planned=replace(PLANNED, task=task))
    clinic.train(LAST, _UTC_NOW)
    fits = replace(LAST, band=Band(120.0, 180.0), ceiling_n=210.0)
    renamed = replace(task, name="Invented name of today")
    clinic.window.desk.form.fill(replace(fits, task=renamed))
    clinic.press("F5")
    assert clinic.begun == 1
    assert "went_on" not in clinic.session.context
    clinic.logbook.close()


def test_an_open_band_is_outside_a_range_with_an_upper_edge(clinic: Clinic) -> None:
    clinic.window.desk.form.fill(
        replace(LAST, band=Band.at_least(130.0), ceiling_n=210.0)
    )
    clinic.press("F5")
    assert "The band, at least 130 N, is outside" in clinic.told


def test_without_a_plan_nothing_of_one_is_said(qtbot: QtBot, tmp_path: Path) -> None:
    clinic = Clinic(qtbot, tmp_path, code="B2")
    clinic.run()
    clinic.press("F5")
    assert clinic.begun == 1
    assert clinic.session.context == {}
    clinic.logbook.close()


def test_a_plan_that_nobody_can_read_is_said(clinic: Clinic) -> None:
    with clinic.logbook._write() as connection:
        connection.exec_driver_sql("UPDATE plans SET content = '{}'")
    clinic.choose("B2")
    clinic.choose("A7")
    assert clinic.told.startswith("The plan's set waits on Today (Alt+D):")
    clinic.press("F5")
    assert clinic.begun == 0
    assert "F5 again starts." in clinic.told


# A nudge beyond what is prescribed, and pain above the cut, without an order.


def nudged_out(clinic: Clinic) -> None:
    for _ in range(40):
        clinic.press("PgDown")
        clinic.run(0.05)
        if clinic.asked.band.lower_n < 120.0:
            return
    pytest.fail("the band stayed in the range")


OUTSIDE = "Outside the prescribed 120.0 to 180.0 N: allowed, and noted so."


def test_a_nudge_out_of_the_range_is_said_once_and_noted(clinic: Clinic) -> None:
    clinic.press("F5")
    clinic.press_again()
    clinic.run()
    clinic.press("PgUp")
    clinic.run()
    assert OUTSIDE not in clinic.window.desk.messages.message.toolTip()
    nudged_out(clinic)
    assert clinic.told == OUTSIDE
    nudged_out(clinic)
    told = clinic.window.desk.messages.message.toolTip()
    assert told.count(OUTSIDE) == 1
    notes = [content for kind, content in clinic.session.told if kind == CHANGE]
    assert notes[0][OUTSIDE_PRESCRIBED] is False
    assert notes[-1][OUTSIDE_PRESCRIBED] is True
    assert {note["what"] for note in notes} == {"band"}


def test_so_is_one_of_a_set_that_today_put_there(clinic: Clinic) -> None:
    clinic.press("Alt+D")
    page = clinic.window.mounted.today
    page.now.buttons[1].click()
    page.cards[0].use.click()
    clinic.press("Alt+D")
    nudged_out(clinic)
    assert clinic.told == OUTSIDE
    clinic.press("F5")
    assert clinic.begun == 0
    assert "is outside what the plan prescribes" in clinic.told


def test_another_set_at_the_desk_has_no_range(clinic: Clinic) -> None:
    other = replace(LAST, task=replace(TASK, name="Invented toe press"))
    clinic.window.desk.form.fill(other)
    clinic.press("PgDown")
    assert OUTSIDE not in clinic.window.desk.messages.message.toolTip()


def test_pain_above_the_cut_holds_reps_back_until_the_start_key(
    clinic: Clinic,
) -> None:
    clinic.press("F5")
    clinic.press_again()
    clinic.run()
    start = clinic.window.desk.start
    clinic.press("Ctrl+4")
    assert ("move_gate", False, "paused") not in clinic.session.done
    clinic.press("Ctrl+7")
    assert clinic.session.done[-2:] == [
        ("mark_pain", 7),
        ("move_gate", False, "paused"),
    ]
    assert clinic.told == "No next rep starts; F5 lets it start."
    advice = clinic.window.desk.messages.earlier.text()
    assert advice.startswith("Pain 7 of 10 is noted.")
    assert (start.isEnabled(), start.text()) == (True, "Go on")
    clinic.run(30.0)  # the pull of this athlete comes again and again
    assert clinic.cue() is Cue.WAIT
    clinic.press("F5")
    assert clinic.session.done[-1:] == [("move_gate", True, "resumed")]
    assert clinic.begun == 1
    assert (start.isEnabled(), start.text()) == (False, "Start")
    clinic.run(12.0)
    assert clinic.cue() is not Cue.WAIT
    clinic.press("Esc")
    clinic.run()
    clinic.press("F5")
    assert "Pain 7 of 10 is above the agreed cut" in clinic.told


def test_a_set_that_is_stopped_while_held_back_frees_the_key(clinic: Clinic) -> None:
    clinic.press("F5")
    clinic.press_again()
    clinic.run()
    clinic.press("Ctrl+7")
    clinic.press("Esc")
    clinic.run()
    start = clinic.window.desk.start
    assert (start.isEnabled(), start.text()) == (True, "Start")
    clinic.press("F5")
    assert ("move_gate", True, "resumed") not in clinic.session.done


# Which pain was told.


def marked(clinic: Clinic) -> list[str]:
    return [one.text() for one in clinic.window.desk.pain.buttons if one.isChecked()]


def test_the_pain_that_was_told_is_marked_until_the_next_set(clinic: Clinic) -> None:
    clinic.press("Ctrl+4")
    assert marked(clinic) == ["4"]
    clinic.press("Ctrl+4")
    assert marked(clinic) == ["4"], "the same again is told again and stays marked"
    clinic.press("Ctrl+2")
    assert marked(clinic) == ["2"]
    clinic.choose("B2")
    assert marked(clinic) == []
    clinic.press("Ctrl+3")
    clinic.press("F5")
    clinic.run()
    assert marked(clinic) == []
    clinic.press("Ctrl+5")
    clinic.press("Esc")
    clinic.run()
    assert marked(clinic) == ["5"]


def test_what_is_said_of_pain_stands_there_once(clinic: Clinic) -> None:
    clinic.press("Ctrl+8")
    clinic.press("F5")
    messages = clinic.window.desk.messages
    assert "Pain 8 of 10" in messages.message.text()
    assert messages.earlier.text() == ""


# Pain that nobody asked about.


def test_it_is_said_before_the_first_set_of_the_day_alone(clinic: Clinic) -> None:
    clinic.train(LAST, _UTC_NOW - dt.timedelta(hours=30))
    clinic.press("F5")
    assert UNASKED in clinic.told
    clinic.train(LAST, _UTC_NOW - dt.timedelta(hours=1))
    clinic.press("F5")
    assert clinic.begun == 1
    assert clinic.session.context.get("went_on") is None


def test_pain_that_was_told_at_the_desk_is_an_answer(clinic: Clinic) -> None:
    session_id = clinic.logbook.begin_session(clinic.athlete_id)
    notes = clinic.logbook.session_notes
    notes.add(session_id, PAIN, {"level": 1}, at_utc=_UTC_NOW)
    clinic.press("F5")
    assert clinic.begun == 1
