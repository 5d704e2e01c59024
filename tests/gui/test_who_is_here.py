"""Who is here: seen in the list, and what does not outlive a change of athlete."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from gui.hands import bring_up
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from biofeedback.conditioning.profile import ZeroKind
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.session import Session, demo
from biofeedback.session.office import Office

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from PySide6.QtWidgets import QWidget
    from pytestqt.qtbot import QtBot

    from biofeedback.conditioning.profile import Zero
    from biofeedback.gui.roster import RosterPage
    from biofeedback.gui.short_label import ShortLabel

STEP_US = 50_000


class Room:
    """The real window on the simulated rig, and two invented athletes."""

    def __init__(self, qtbot: QtBot, logbook: Logbook, recordings: Path) -> None:
        self.now_ns = 1_000_000_000
        self.logbook = logbook
        for code in ("A7", "B2"):
            logbook.add_athlete(code, f"Invented {code}")
        self.session = Session(
            demo.source(seed=11, step_us=STEP_US),
            logbook=logbook,
            recordings=recordings,
            athlete_code="A7",
            clock=lambda: self.now_ns,
        )
        office = Office.of(logbook, recordings, self.session)
        self.window = Window(
            self.session,
            office,
            prescription=office.last_prescription("A7"),
            clock=lambda: self.now_ns,
        )
        bring_up(qtbot, self.window)
        self.run(1.0)

    def run(self, seconds: float) -> None:
        for _ in range(round(seconds * 1e6 / STEP_US)):
            self.now_ns += STEP_US * 1000
            self.session.step()
            self.window.frame()

    def press(self, *keys: str) -> None:
        for key in keys:
            focus: QWidget | None = self.window.focusWidget()
            QTest.keySequence(focus or self.window, QKeySequence(key))

    def in_set(self) -> bool:
        return self.window.desk.in_set

    @property
    def athletes(self) -> RosterPage:
        page = self.window.mounted.roster
        assert page is not None
        return page

    def find(self, code: str) -> None:
        """On the page of the athletes; it is shown there and not chosen."""
        self.athletes.words.set_text(code)
        self.press("Return")
        assert self.athletes.code.text == code

    def choose(self, code: str) -> None:
        self.press("Alt+A")
        self.find(code)
        self.press("Ctrl+Return")
        assert self.window.desk.who.text() == code

    def zero(self, key: str) -> None:
        self.press(key)
        self.run(1.5)
        assert self.told.startswith("Zero taken")

    @property
    def zero_in_force(self) -> Zero:
        return self.session.take().profile.zero

    def lines(self) -> list[str]:
        entries = self.athletes.list
        return [entries.item(row).text() for row in range(entries.count())]

    @property
    def told(self) -> str:
        return self.window.desk.messages.message.text()


def high(label: ShortLabel) -> int:
    """How high what is drawn would be in the label's width."""
    words, wrap = label.drawn, Qt.TextFlag.TextWordWrap.value
    metrics = label.fontMetrics()
    return metrics.boundingRect(label.contentsRect(), wrap, words).height()


@pytest.fixture
def room(qtbot: QtBot, tmp_path: Path) -> Iterator[Room]:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        made = Room(qtbot, logbook, tmp_path / "recordings")
        yield made
        made.window.close()


# The page of the athletes.


def test_the_start_key_starts_nothing_where_another_athlete_may_be_shown(
    room: Room,
) -> None:
    room.press("Alt+A")
    room.find("B2")
    room.press("F5")
    room.run(0.5)
    assert not room.in_set()
    assert room.window.pages.shown is room.athletes
    said = room.athletes.message
    assert said.isVisible()
    assert said.text() == "A7 is here now. Ctrl+Return chooses B2 for this visit."
    room.press("Ctrl+Return")
    assert room.window.desk.who.text() == "B2"
    room.press("F5")
    room.run(0.5)
    assert room.in_set()


def test_the_start_key_beside_the_one_who_is_here_says_where_it_starts(
    room: Room,
) -> None:
    room.press("Alt+A")
    room.find("A7")
    for key in ("F5", "Ctrl+N"):  # and with an empty form
        room.press(key, "F5")
        room.run(0.5)
        assert not room.in_set()
        assert room.athletes.message.text() == (
            "A7 is here now. Go back to live to start."
        )


def test_who_is_here_is_marked_in_the_list_by_a_word(room: Room) -> None:
    room.press("Alt+A")
    assert room.lines() == ["A7 · here now · Invented A7", "B2 · Invented B2"]
    room.find("B2")
    room.press("Ctrl+Return", "Alt+A")
    room.athletes.words.set_text("")
    assert room.lines() == ["A7 · Invented A7", "B2 · here now · Invented B2"]


# Zero.


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("F7", "Taking zero for one second: nothing should pull."),
        (
            "F8",
            "Taking zero for one second: the limb rests in place and stays still.",
        ),
    ],
)
def test_what_has_to_be_still_is_said_of_each_zero(
    room: Room, key: str, words: str
) -> None:
    room.press(key)
    assert room.told == words


def test_a_zero_with_the_limb_resting_does_not_outlive_its_athlete(room: Room) -> None:
    room.zero("F7")
    empty = room.zero_in_force
    room.zero("F8")
    assert room.zero_in_force.kind is ZeroKind.LIMB_RESTING
    room.choose("B2")
    room.run(0.2)
    assert room.zero_in_force == empty
    assert room.told == (
        "The zero of the empty rig holds again: the one with the limb resting was of "
        "the athlete before."
    )
    assert not room.window.desk.messages.shortened


def test_without_an_empty_zero_before_none_is_left_and_that_is_said(
    room: Room,
) -> None:
    room.zero("F8")
    room.zero("F8")
    room.choose("B2")
    room.run(1.0)
    assert room.zero_in_force.kind is ZeroKind.NONE
    assert room.told == (
        "Take zero anew: the one with the limb resting was of the athlete before."
    )
    assert not room.window.desk.messages.shortened
    assert room.window.desk.health.zero.text() == "Zero: not taken yet"


def test_a_zero_with_the_limb_resting_that_is_being_taken_is_given_up(
    room: Room,
) -> None:
    room.press("F8")
    room.run(0.5)
    room.choose("B2")
    room.run(1.5)
    assert room.zero_in_force.kind is ZeroKind.NONE
    assert room.told == "Another athlete is here: take zero with this limb resting."


def test_a_zero_of_the_empty_rig_stays_with_the_rig(room: Room) -> None:
    room.zero("F7")
    empty = room.zero_in_force
    room.choose("B2")
    room.run(0.2)
    assert room.zero_in_force == empty
    assert room.told == "B2 is here now."


def test_a_zero_stays_with_an_athlete_whose_code_is_changed(room: Room) -> None:
    room.zero("F8")
    room.press("Alt+A")
    room.find("A7")
    room.athletes.code.set_text("A9")
    room.press("Ctrl+S")
    room.run(0.2)
    assert room.window.desk.who.text() == "A9"
    assert room.zero_in_force.kind is ZeroKind.LIMB_RESTING


# What was said.


def test_what_was_said_of_the_one_before_does_not_stand_beside_the_next(
    room: Room,
) -> None:
    desk = room.window.desk
    room.press("Ctrl+7")
    room.press("F5")
    assert "Pain 7 of 10 is above" in room.told
    room.choose("B2")
    room.run(0.2)
    assert room.told == "B2 is here now."
    assert desk.messages.earlier.text() == ""
    room.choose("A7")
    room.press("Alt+Y")
    _, *told = (one.text() for one in desk.above.said.findChildren(QLabel))
    assert told[:2] == ["A7 is here now.", "While B2 was here: B2 is here now."]
    pain = [one for one in told if "Pain 7" in one]
    assert len(pain) == 2  # all of it can still be read
    assert all(one.startswith("While A7 was here: Pain 7") for one in pain)


def test_a_warning_of_the_rig_stays_for_the_next(room: Room) -> None:
    messages = room.window.desk.messages
    messages.warn("The invented cell is loose.")
    room.choose("B2")
    assert room.told == "B2 is here now."
    assert messages.earlier.text() == "The invented cell is loose."
    room.choose("A7")
    messages.ease("The signal is there.")
    assert room.told == "The signal is there."


@pytest.mark.parametrize("text_pct", [100, 200])
def test_that_stopping_is_advised_is_never_what_is_left_out(
    room: Room, text_pct: int
) -> None:
    comfort, messages = room.window.comfort, room.window.desk.messages
    comfort.preferences = replace(comfort.preferences, text_pct=text_pct)
    comfort.type_changed.emit()
    room.press("F5")
    room.run(0.5)
    assert room.in_set()
    room.press("Ctrl+7")
    for key in ("", "Esc", "Esc"):  # the set is over, and it holds all the same
        room.press(*filter(None, (key,)))
        room.run(0.5)
        QApplication.processEvents()
        assert messages.earlier.text().startswith("Pain 7 of 10 is noted.")
        assert messages.earlier.drawn.endswith("Stopping is advised; you decide.")
        assert high(messages.earlier) <= messages.earlier.height()
    assert not room.in_set()
    room.press("F5")  # this takes its place, and then it has been passed over
    assert "Pain 7 of 10 is above the agreed cut" in room.told


# The page of today.


def test_today_knows_of_pain_that_was_told_after_its_answers(room: Room) -> None:
    room.press("Alt+D")
    page = room.window.mounted.today
    page.now.buttons[2].click()
    assert not page.told.isVisible()
    assert not page.cards[0].shown.advise_stop
    room.press("Alt+D", "F5")
    room.run(0.5)
    assert room.in_set()
    room.press("Ctrl+7", "Esc")
    room.run(0.5)
    room.press("Alt+D")
    assert page.told.isVisible()
    assert page.told.text().startswith(
        "Pain told since: 7 of 10, above the agreed cut of 5."
    )
    assert "Pain 7 of 10" in page.advice.text()
    assert page.advice.isVisible()
    used: list[object] = []
    page.prescribed.connect(lambda *what: used.append(what))
    page.cards[0].use.click()
    assert used == []
    QApplication.processEvents()
    assert page.cards[0].go_on.isVisible()
    page.sleep.line.setText("8")
    page.sleep.committed.emit()  # another answer is none about pain now
    assert page.told.isVisible()
    for _ in range(2):  # taken back, and answered anew
        page.now.buttons[2].click()
    assert not page.told.isVisible()
    assert not page.advice.isVisible()
    page.cards[0].use.click()
    assert len(used) == 1


def test_pain_that_was_a_slip_is_not_told_on_the_page_of_today(room: Room) -> None:
    room.press("Alt+D")
    page = room.window.mounted.today
    page.now.buttons[2].click()
    room.press("Alt+D", "Ctrl+4", "Alt+D")
    assert page.told.text().startswith(
        "Pain told since: 4 of 10, not above the agreed cut of 5."
    )
    assert not page.advice.isVisible()
    room.press("Alt+D")
    room.window.desk.pain.back.click()
    room.press("Alt+D")
    assert not page.told.isVisible()


def test_pain_told_before_any_answer_stands_on_the_page_of_today(room: Room) -> None:
    room.press("Ctrl+7", "Alt+D")
    page = room.window.mounted.today
    assert page.told.text().startswith(
        "Pain told today: 7 of 10, above the agreed cut of 5."
    )
    room.press("Alt+D")
    room.choose("B2")
    room.press("Alt+D")
    assert not page.told.isVisible()
