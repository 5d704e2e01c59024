"""The visit: second start, pages of the day, another athlete, what is told, the end."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from gui.cut_text import cut_texts
from gui.hands import bring_up, turn
from gui.staged_session import (
    ASKED,
    REFERENCE,
    StagedSession,
    steady_pull,
)
from gui.stepped_window import Stepped
from PySide6.QtCore import QEvent, Qt, QTimer
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QMessageBox

from biofeedback.errors import FileError
from biofeedback.gui.keymap import PAIN_BACK
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.phrase import phrase
from biofeedback.session import SetEnded
from biofeedback.session.maximal_tests import MaximalTests
from biofeedback.session.office import Office
from biofeedback.session.planning import Planning
from biofeedback.session.review import Library
from biofeedback.session.roster import Roster
from biofeedback.session.second_start import SEEN_S
from biofeedback.session.today import Today
from biofeedback.training.day import DayReport
from biofeedback.training.task import Joint, Setup, Sides, Task

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from biofeedback.training.prescription import Prescription

NOW = dt.datetime(2026, 11, 26, 12, 0, tzinfo=dt.UTC)
OLD = "The reference is 24 days old; after 14 days a new test is better."
FRESH = replace(ASKED, reference=replace(REFERENCE, date="2026-11-20"))
NO_KEY = Qt.KeyboardModifier.NoModifier
PAGES = {
    "Alt+A": "Athletes",
    "Alt+D": "Today",
    "Alt+M": "Maximal test",
    "Alt+P": "Plan",
    "Alt+T": "Tasks",
}


class House(Stepped):
    """A window with a logbook in which three invented athletes stand."""

    def __init__(self, qtbot: QtBot, folder: Path, asked: Prescription = ASKED) -> None:
        self.logbook = Logbook.open(folder / "logbook.db")
        for code in ("A7", "B2", "C3"):
            self.logbook.add_athlete(code, f"Invented {code}")
        self.session = StagedSession(steady_pull)
        self.office = Office(
            logbook=self.logbook,
            saved_reps=lambda: Library(self.logbook, folder),
            roster=Roster(self.logbook),
            today=Today(self.logbook, clock=lambda: NOW),
            planning=lambda: Planning(self.logbook),
            tests=MaximalTests(self.session, self.logbook, folder),
        )
        self.window = Window(
            self.session,
            self.office,
            prescription=asked,
            clock=lambda: self.session.now_ns,
        )
        bring_up(qtbot, self.window)
        self.run(0.2)

    @property
    def begun(self) -> int:
        return [what for what, *_ in self.session.done].count("begin_set")

    @property
    def shown(self) -> str:
        page = self.window.pages.shown
        return page.accessibleName() if page is not None else ""

    def choose(self, code: str) -> None:
        page = self.window.mounted.roster
        assert page is not None
        page.chosen.emit(code)


@pytest.fixture
def house(qtbot: QtBot, tmp_path: Path) -> Iterator[House]:
    made = House(qtbot, tmp_path)
    yield made
    made.logbook.close()


# A start that something speaks against.


def test_what_speaks_against_a_start_is_said_once_and_a_second_start_goes_on(
    house: House,
) -> None:
    house.press("F5")
    assert house.told == f"{OLD} F5 again starts."
    assert house.begun == 0
    house.press_again()
    assert house.begun == 1
    assert house.session.context == {"went_on": [OLD]}


@pytest.mark.parametrize("by", ["key", "held key", "click", "space"])
def test_a_double_press_passes_nothing_that_was_just_said(
    house: House, by: str
) -> None:
    start = house.window.desk.start

    def press() -> None:
        if by == "key":
            house.press("F5")
        elif by == "held key":
            again = QKeyEvent(QEvent.Type.KeyPress, Qt.Key.Key_F5, NO_KEY, autorep=True)
            QApplication.sendEvent(house.window, again)
        elif by == "click":
            QTest.mouseDClick(start, Qt.MouseButton.LeftButton)
        else:
            QTest.keyClick(start, Qt.Key.Key_Space)

    house.press("F5")
    for _ in range(30):  # more than a second in all, and never a pause of one
        house.run(SEEN_S / 10)
        press()
    assert house.begun == 0
    assert house.told == f"{OLD} F5 again starts."
    house.press_again()
    assert house.begun == 1


def test_what_speaks_against_a_start_leaves_the_band_to_be_corrected(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The words grow at the foot; fields, nudge and start are seen and in reach."""
    desk = house.window.desk
    house.window.resize(1280, 720)
    long = tuple(f"Invented objection {n} with several words." for n in range(6))
    monkeypatch.setattr(Office, "against_start", lambda *_: long)
    for _ in range(3):
        QApplication.processEvents()
    start = desk.start.mapTo(desk, desk.start.rect().topLeft())
    desk.above.area.verticalScrollBar().setValue(1000)
    house.press("F5")
    for _ in range(3):
        QApplication.processEvents()
    assert desk.messages.message.drawn == house.told
    assert all(one in desk.messages.message.drawn for one in long)
    assert not desk.above.covered
    band = desk.form.band
    for field in (band.centre, band.tolerance):
        middle = field.line.mapTo(desk, field.line.rect().center())
        assert desk.childAt(middle) is field.line
    assert desk.start.mapTo(desk, desk.start.rect().topLeft()) == start
    house.press_again()
    house.run(0.1)
    assert house.begun == 1
    for _ in range(3):
        QApplication.processEvents()
    assert desk.messages.message.height() < 60  # as low as before
    assert list(cut_texts(desk)) == []


def test_what_speaks_against_a_start_is_read_as_a_whole(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where there is no room for it at the foot it stands over the column."""
    desk = house.window.desk
    long = tuple(f"Invented objection {n} with several words." for n in range(24))
    monkeypatch.setattr(Office, "against_start", lambda *_: long)
    house.press("F5")
    QApplication.processEvents()
    assert desk.messages.message.drawn.endswith("F5 again starts.")
    assert desk.above.read is desk.above.said
    (whole,) = (
        one for one in desk.above.said.findChildren(QLabel) if one.text() == house.told
    )
    body = desk.above.said.body
    assert body.verticalScrollBar().maximum() == 0
    assert whole.height() >= whole.heightForWidth(whole.width())
    house.press("Esc")
    assert not desk.above.covered
    assert house.session.done == []
    house.press_again()
    house.run(0.1)
    assert house.begun == 1
    assert not desk.above.covered


def test_a_start_before_the_board_is_met_is_asked_about_once(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    visit = house.window.visit
    monkeypatch.setattr(visit, "_single_cell", None)  # none was met yet
    offers: list[object] = []
    monkeypatch.setattr(Office, "offer", lambda *_, **__: offers.append(1))
    house.press("F5")
    visit.meet_rig(single_cell=False)
    assert offers == []
    house.press_again()
    assert house.begun == 1


def test_a_reference_that_nothing_speaks_against_starts_at_once(house: House) -> None:
    house.window.desk.form.fill(FRESH)
    house.press("F5")
    assert house.begun == 1
    assert house.session.context == {}


def test_any_change_of_the_prescription_asks_again(house: House) -> None:
    house.press("F5")
    hold = house.window.desk.form.hold
    for text in ("11", "10"):  # and back: it was changed all the same
        hold.line.setText(text)
        hold.committed.emit()
    house.press("F5")
    assert house.begun == 0
    assert house.told.endswith("F5 again starts.")
    house.window.desk.form.band.up.click()
    house.press("F5")
    assert house.begun == 0
    house.press_again()
    assert house.begun == 1


def test_the_next_set_of_the_same_does_not_ask_again(house: House) -> None:
    house.press("F5")
    house.press_again()
    house.run(0.2)
    house.press("Esc")
    house.run(0.2)
    house.press_again()
    assert house.begun == 2
    assert house.session.context == {"went_on": [OLD]}


def test_pain_that_advises_to_stop_is_said_before_each_reference(house: House) -> None:
    athlete = house.logbook.athlete_by_code("A7")
    assert athlete is not None
    house.logbook.days.report(athlete.id, DayReport(7), at_utc=NOW)
    house.window.desk.form.fill(FRESH)
    house.press("F5")
    assert house.begun == 0
    assert "7" in house.told
    house.press_again()
    assert house.begun == 1
    assert "7" in str(house.session.context["went_on"])


def test_a_logbook_that_cannot_be_read_is_told_and_keeps_from_nothing_else(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    def gone(_self: Today, _code: str) -> str:
        raise FileError("logbook.db", phrase("the logbook is damaged."))

    monkeypatch.setattr(Today, "advice", gone)
    house.press("F5")
    assert house.begun == 0
    assert house.told == "logbook.db: the logbook is damaged."


# Pages.


@pytest.mark.parametrize("key", list(PAGES))
def test_each_page_has_a_key_and_esc_leaves_it(house: House, key: str) -> None:
    house.press(key)
    assert house.shown == PAGES[key]
    house.press(key)
    assert house.window.pages.live_shown
    house.press(key)
    house.press("Esc")
    assert house.window.pages.live_shown
    assert house.session.done == []


@pytest.mark.parametrize("key", list(PAGES))
def test_no_page_of_the_day_is_shown_in_a_set(house: House, key: str) -> None:
    house.window.desk.form.fill(FRESH)
    house.press("F5")
    house.run(0.2)
    house.press(key)
    assert house.window.pages.live_shown
    assert house.told == "A set is under way. Stop it first."
    house.press("Esc")
    house.run(0.1)
    house.press(key)
    assert house.shown == PAGES[key]


# Somebody else.


def test_another_athlete_is_at_the_desk_and_in_every_page(house: House) -> None:
    house.press("F5")
    house.choose("B2")
    desk = house.window.desk
    assert (desk.who.text(), desk.name.text()) == ("B2", "Invented B2")
    asked = desk.prescription()
    assert asked is not None
    assert asked.reference is None, "nothing of one athlete stands there for another"
    assert house.told == "B2 is here now."
    house.press("F2")
    assert "of B2" in house.window.review.heading.text()
    house.press("Alt+M")
    assert "B2" in house.window.mounted.test.heading.text()
    house.press("Alt+D")
    assert "B2" in house.window.mounted.today.heading.text()
    house.press("F5")
    assert house.begun == 1, "what was said of the one is not said of the other"


def test_the_name_is_not_on_the_athletes_screen(house: House) -> None:
    told = [part.accessibleDescription() for part in house.window.screen_part._parts]
    assert house.window.desk.name.text() == "Invented athlete"
    assert not any("Invented" in words for words in told)


def test_a_plan_that_is_not_saved_keeps_its_athlete(house: House) -> None:
    house.press("Alt+P")
    plan = house.window.mounted.plan
    assert plan is not None
    plan.lists.begin.click()
    house.press("Esc")
    house.choose("B2")
    assert house.window.desk.who.text() == "A7"
    assert house.told == "The plan of A7 is not saved. Save it, or take it back."
    house.press("Alt+P")
    assert plan.dirty, "and what was typed is still there"
    plan.save.click()
    house.press("Esc")
    house.choose("B2")
    assert house.window.desk.who.text() == "B2"


def test_a_code_that_is_changed_is_the_code_of_who_is_here(house: House) -> None:
    house.press("Alt+A")
    page = house.window.mounted.roster
    assert page is not None
    person = house.logbook.athlete_by_code("A7")
    assert person is not None
    page.show_entry(person.id)
    page.code.set_text("A8")
    page.save.click()
    assert house.window.desk.who.text() == "A8"
    assert house.window.visit.code == "A8"
    house.press("Esc")
    page.show_entry(person.id)
    page.name.set_text("Invented other name")
    page.save.click()
    assert house.window.desk.who.text() == "A8"


def test_in_a_set_the_athlete_stays(house: House) -> None:
    house.window.desk.form.fill(FRESH)
    house.press("F5")
    house.run(0.2)
    house.choose("B2")
    assert house.window.desk.who.text() == "A7"
    assert house.told == "A set is under way: the athlete stays."
    assert house.window.desk.prescription() == FRESH


# A set of the plan.


def test_a_set_of_today_fills_the_desk_and_its_plan_goes_along(house: House) -> None:
    setup = Setup(Joint.KNEE, angle_deg=60.0)
    asked = replace(FRESH, task=replace(ASKED.task, setup=setup, key="k"), sets=3)
    plan: Mapping[str, object] = {"plan": {"id": "p", "stage": 1, "key": "q"}}
    house.window.mounted.today.prescribed.emit(asked, plan, None)
    assert house.window.desk.prescription() == asked
    house.press("F5")
    assert house.session.done[-1] == ("begin_set", asked)
    assert house.session.context == plan


def test_another_task_at_the_desk_is_not_of_the_plan(house: House) -> None:
    house.window.mounted.today.prescribed.emit(FRESH, {"plan": {"id": "p"}}, None)
    house.window.desk.form.task.line.setText("Another task")
    house.window.desk.form.task.committed.emit()
    house.press("F5")
    assert "This 100 % is that of" in house.told
    house.press_again()
    assert house.begun == 1
    assert "plan" not in house.session.context


def test_a_plan_stays_with_its_athlete(house: House) -> None:
    house.window.mounted.today.prescribed.emit(FRESH, {"plan": {"id": "p"}}, None)
    house.choose("B2")
    house.window.desk.form.fill(FRESH)  # the very same task
    house.press("F5")
    assert house.begun == 1
    assert house.session.context == {}


def test_a_kept_test_is_the_100_pct_of_its_own_task_only(house: House) -> None:
    new = replace(REFERENCE, force_n=300.0, date="2026-11-26")
    house.window.desk.form.fill(FRESH)
    house.window.visit.reference.take(new, Task("Another task", sides=Sides.BOTH))
    assert house.window.desk.prescription() == FRESH
    house.window.visit.reference.take(new, FRESH.task.on_side(Sides.LEFT))
    assert house.window.desk.prescription() == FRESH
    house.window.desk.form.ceiling.set_text("")
    house.window.visit.reference.take(new, FRESH.task)
    asked = house.window.desk.prescription()
    assert asked is not None
    assert asked.reference == new


def test_a_kept_100_pct_is_there_when_its_task_is_typed_later(house: House) -> None:
    plain = replace(FRESH, reference=None, ceiling_n=None)
    house.window.desk.form.fill(FRESH)
    calf = Task("Seated calf (invented)", sides=plain.task.sides)
    new = replace(REFERENCE, force_n=62.4, date="2026-11-26", task=calf)
    house.window.visit.reference.take(new, calf)
    form = house.window.desk.form
    form.fill(plain)
    form.task.line.setText("Seated calf (invented)")
    form.task.committed.emit()
    asked = house.window.desk.prescription()
    assert asked is not None
    assert asked.reference == new
    assert "62.4 N" in house.told
    # Taken out by hand it stays out, and it is another athlete's never.
    form.reference.set_text("")
    form.reference.committed.emit()
    asked = house.window.desk.prescription()
    assert asked is not None
    assert asked.reference is None


def test_in_a_set_the_desk_stays_as_it_is(house: House) -> None:
    house.window.desk.form.fill(FRESH)
    house.press("F5")
    house.run(0.2)
    house.window.mounted.today.prescribed.emit(replace(FRESH, reps=9), {}, None)
    assert house.window.desk.prescription() == FRESH
    assert house.told == "A set is under way: the desk stays as it is."


# What is told.


def test_pain_effort_and_notes_are_kept_before_in_and_after_a_set(house: House) -> None:
    desk = house.window.desk
    desk.form.fill(FRESH)
    house.press("Ctrl+2")
    assert house.told == "Pain 2 of 10 is noted."
    house.press("Alt+5")
    assert house.told == "Not noted: effort is told after a set."
    assert not desk.effort.isVisible()
    house.press("F5")
    house.run(0.2)
    house.press("Ctrl+3")
    house.press("F4")
    QTest.keyClicks(desk.note.line, "calm")
    house.press("Return")
    house.press("Alt+6")
    assert house.told == "Not noted: effort is told after a set."
    house.session.happen(SetEnded("complete"))
    house.run(0.1)
    assert desk.effort.isVisible()
    house.press("Alt+Shift+0")
    assert house.told == "Effort 10 of 10 is noted, of the last set."
    house.press("Ctrl+1")
    assert house.session.told == [
        ("pain", {"level": 2, "when": "before"}),
        ("pain", {"level": 3, "when": "during"}),
        ("note", {"text": "calm"}),
        ("effort", {"level": 10}),
        ("pain", {"level": 1, "when": "after"}),
    ]
    recorded = [entry for entry in house.session.done if entry[0] != "begin_set"]
    assert recorded == [("mark_pain", 3), ("note", "calm")]


def test_a_note_that_cannot_be_kept_stays_in_its_line(house: House) -> None:
    def full(_kind: str, _content: Mapping[str, object]) -> None:
        raise FileError("logbook.db", phrase("the disk is full."))

    house.session.tell = full  # type: ignore[method-assign,assignment]  # full
    line = house.window.desk.note.line
    line.setText("strap moved")
    line.returnPressed.emit()
    assert line.text() == "strap moved"
    assert house.told == "logbook.db: the disk is full."
    house.press("Ctrl+7")
    assert house.told == "logbook.db: the disk is full."


def test_pain_above_the_cut_advises_until_something_is_done(house: House) -> None:
    desk = house.window.desk
    desk.pain.buttons[8].click()
    advice = (
        "Pain 8 of 10 is noted. That is above 5 of 10. Stopping is advised; you decide."
    )
    assert house.told == advice
    desk.say("The signal is there.")
    assert desk.messages.earlier.text() == advice
    desk.stop.click()
    desk.say("The set is over: stopped at the desk.")
    assert desk.messages.earlier.text() == advice, "a stop is what it advised"
    desk.messages.act()
    desk.say("The signal is there.")
    assert desk.messages.earlier.text() == "The set is over: stopped at the desk."


def test_a_mark_before_that_of_a_test_is_not_taken_back_in_its_place(
    house: House,
) -> None:
    house.press("Ctrl+3")
    before = list(house.session.told)
    house.window.visit.hands_pain(lambda level: level == 7)
    house.press("Ctrl+7")
    assert house.session.told == before  # the test has it
    house.press(PAIN_BACK)
    assert house.session.told == before


def test_the_last_mark_of_pain_is_taken_back_and_speaks_no_more(house: House) -> None:
    desk, back = house.window.desk, house.window.desk.pain.back
    desk.form.fill(FRESH)
    assert not back.isEnabled()
    house.press(PAIN_BACK)
    assert house.session.told == []
    house.press("F5")
    house.run(0.2)
    house.press("Ctrl+3")
    house.press("Ctrl+8")
    assert back.isEnabled()
    back.click()
    assert house.told == "Pain 8 of 10 is taken back; it counts nowhere."
    assert desk.pain.level is None
    house.session.happen(SetEnded("complete"))
    house.run(0.1)
    house.press("Ctrl+7")
    house.press("F5")
    assert house.begun == 1, "7 speaks against a start"
    house.press(PAIN_BACK)
    assert "Stopping is advised" not in desk.messages.earlier.text()
    house.press("F5")
    assert house.begun == 2
    house.run(0.2)
    house.press(PAIN_BACK)  # of the set before: no event of this recording
    assert not back.isEnabled()
    assert house.session.told == [
        ("pain", {"level": 3, "when": "during"}),
        ("pain", {"level": 8, "when": "during"}),
        ("pain taken back", {"level": 8}),
        ("pain", {"level": 7, "when": "after"}),
        ("pain taken back", {"level": 7}),
        ("pain taken back", {"level": 3}),
    ]
    recorded = [entry for entry in house.session.done if "pain" in str(entry[0])]
    assert recorded == [("mark_pain", 3), ("mark_pain", 8), ("take_back_pain", 8)]
    house.press("Esc")
    house.run(0.2)
    house.press("Ctrl+1")
    house.choose("B2")
    assert house.told == "B2 is here now."
    assert not back.isEnabled(), "of somebody else"


# The maximal test at the desk.


def test_a_test_has_its_box_in_place_of_the_form(house: House) -> None:
    house.press("Alt+M")
    test = house.window.mounted.test
    test.setup.task.setCurrentText("Invented pull")
    test.begin.click()
    house.run(0.3)
    desk = house.window.desk
    assert house.window.pages.live_shown
    assert test.box.isVisible()
    assert not desk.form.isVisible()
    assert not desk.pain.isVisible()
    assert desk.stop.isVisible()
    house.press("Esc")
    house.run(0.2)
    assert not test.box.isVisible()
    assert desk.form.isVisible()
    assert desk.pain.isVisible()
    assert not desk.effort.isVisible(), "all there is was asked for anyway"


# The end.


@pytest.mark.expects_log("the session could not be closed")
def test_a_rig_that_is_not_let_go_is_told_and_the_window_closes(house: House) -> None:
    def hang() -> None:
        raise RuntimeError("the acquisition thread does not end")

    house.session.close = hang  # type: ignore[method-assign]  # a thread that hangs
    told: list[str] = []

    def read_and_accept() -> None:
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        told.append(box.text())
        box.accept()

    QTimer.singleShot(0, read_and_accept)
    house.window.close()
    assert "could not let go of the rig" in told[0]
    assert not house.window.isVisible()


def test_an_athlete_is_written_down_and_chosen_by_key_alone(house: House) -> None:
    house.press("Alt+A")
    page = house.window.mounted.roster
    assert page is not None
    house.press("Ctrl+N")
    page.code.line.setFocus()
    QTest.keyClicks(page.code.line, "D4")
    house.press("Ctrl+Return")
    assert house.window.desk.who.text() == "A7", "what is not saved is not chosen"
    house.press("Ctrl+S")
    house.press("Ctrl+Return")
    assert house.window.desk.who.text() == "D4"
    assert house.window.pages.live_shown
    house.press("Ctrl+D")  # dead while its page is hidden
    assert house.logbook.people.by_code("D4") is not None
    assert len(house.logbook.people.search()) == 4


# What could mislead.


def test_pain_that_was_answered_speaks_against_the_start_key(house: House) -> None:
    house.window.desk.form.fill(FRESH)
    house.press("Alt+D")
    house.window.mounted.today.now.buttons[6].click()
    house.press("F5")
    assert house.begun == 0
    assert "stop" in house.told
    assert "again starts" in house.told
    house.press_again()
    assert house.begun == 1
    assert house.session.context["went_on"]


def test_pain_told_in_a_set_speaks_against_the_next_start_key(house: House) -> None:
    house.window.desk.form.fill(FRESH)
    house.press("F5")
    for begun in (1, 2):  # the same pain again is told again
        house.run(0.2)
        house.press("Ctrl+7")
        house.press("Esc")
        house.run(0.2)
        house.press("F5")
        assert house.begun == begun
        assert "Pain 7 of 10 is above the agreed cut of 5" in house.told
        house.press_again()
        assert house.begun == begun + 1
        assert "Pain 7 of 10" in str(house.session.context["went_on"])


def test_pain_told_of_one_athlete_speaks_against_nothing_of_another(
    house: House,
) -> None:
    house.press("Ctrl+9")
    house.choose("B2")
    house.window.desk.form.fill(FRESH)
    house.press("F5")
    assert house.begun == 1


def test_answers_of_another_athlete_speak_against_nothing(house: House) -> None:
    house.press("Alt+D")
    house.window.mounted.today.now.buttons[6].click()
    house.choose("B2")
    house.window.desk.form.fill(FRESH)
    house.press("F5")
    assert house.begun == 1


def test_a_band_that_is_not_seen_is_not_nudged(house: House) -> None:
    band = house.window.desk.form.band
    before = band.band
    house.press("F1")
    house.press("PgDown")
    house.press("Ctrl+PgUp")
    assert band.band == before
    house.press("F1")
    house.press("PgDown")
    assert band.band.centre_n < before.centre_n


def test_on_the_page_of_the_test_the_start_key_starts_no_other_set(
    house: House,
) -> None:
    house.window.desk.form.fill(FRESH)
    house.press("Alt+M")
    house.press("F5")
    assert ("begin_set", FRESH) not in house.session.done


def test_the_wheel_changes_only_what_has_the_focus(house: House) -> None:
    box = house.window.desk.form.clock
    house.window.screen_part.setFocus()
    before = box.currentIndex()
    turn(box)
    assert box.currentIndex() == before
    box.setFocus()
    turn(box)
    assert box.currentIndex() != before
