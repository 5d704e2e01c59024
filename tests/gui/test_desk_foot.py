"""What stays in sight at the desk: cautions to read in a set, and how the signal is."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from gui.staged_session import BOTH
from gui.stepped_window import Stage
from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QWidget

from biofeedback.gui.health_line import Mark, signal_state
from biofeedback.session import Link
from biofeedback.training.cautions import CAUTIONS, LEAD

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

CALIBRATED = replace(
    BOTH,
    channels=tuple(
        replace(one, calibration=replace(one.calibration, label="K-1"))
        for one in BOTH.channels
    ),
)


@pytest.fixture
def stage(qtbot: QtBot) -> Stage:
    return Stage(qtbot)


def in_a_set(stage: Stage, seconds: float = 3.0) -> Stage:
    stage.run(0.2)
    stage.press("F5")
    stage.run(seconds)
    assert stage.in_set()
    return stage


def seen(widget: QWidget) -> bool:
    """Whether a click in its middle would meet it."""
    window = widget.window()
    middle = widget.mapTo(window, widget.rect().center())
    found = window.childAt(middle)
    return found is widget or (found is not None and widget.isAncestorOf(found))


def test_a_simulated_rig_is_never_taken_for_a_real_one(stage: Stage) -> None:
    """Calibrated or not, in a set and between sets."""
    stage.session.profile = replace(CALIBRATED, adc="simulated")
    stage.run(0.5)
    words = "Signal live: simulated rig, rig not checked, 0 lost, 80.0 Hz"
    assert line(stage) == (Mark.LOOK, words)
    box, screen = stage.window.desk.health, stage.window.screen_part
    assert box.simulated.isVisibleTo(box)
    assert screen.uncalibrated.text() == "simulated rig"
    in_a_set(stage, 0.5)
    assert line(stage)[1].startswith("Signal live: simulated rig, recorded")
    assert screen.uncalibrated.isVisible()
    stage.session.profile = CALIBRATED
    stage.run(0.5)
    assert line(stage)[0] is Mark.GOOD
    assert not box.simulated.isVisibleTo(box)
    assert not screen.uncalibrated.isVisible()


# Cautions.


@pytest.mark.parametrize("by", ["key", "button"])
def test_in_a_set_the_cautions_are_read_beside_the_live_picture(
    stage: Stage, by: str
) -> None:
    in_a_set(stage)
    desk, screen = stage.window.desk, stage.window.screen_part
    picture = screen.geometry()
    care = desk.above.care

    def ask() -> None:
        if by == "key":
            stage.press("Alt+W")
        else:
            QTest.mouseClick(desk.cautions, Qt.MouseButton.LeftButton)

    ask()
    QApplication.processEvents()
    assert stage.live()
    assert stage.in_set()
    assert screen.geometry() == picture
    words = {label.text().removeprefix("•  ") for label in care.findChildren(QLabel)}
    assert {LEAD, *(line for part in CAUTIONS for line in part.lines)} <= words
    for part in (care.body, care.live, desk.stop, desk.start, desk.foot.health):
        assert seen(part)
    assert not seen(desk.pages)
    assert care.body.horizontalScrollBar().maximum() == 0
    before = stage.window.drawn_age_s
    stage.run(1.0)
    assert before is not None
    assert stage.window.drawn_age_s is not None, "the picture goes on"
    ask()
    QApplication.processEvents()
    assert seen(desk.pages.today)
    assert not seen(care.body)
    assert stage.window.focusWidget() is screen


def test_keys_work_while_the_cautions_are_read(stage: Stage) -> None:
    in_a_set(stage)
    stage.press("Alt+W")
    bar = stage.window.desk.above.care.body.verticalScrollBar()
    assert bar.maximum() > 0
    stage.press("Down")
    assert bar.value() > 0, "the arrow keys move the text"
    before = len(stage.session.done)
    for key in ("PgUp", "Ctrl+2", "Ctrl+PgDown"):
        stage.press(key)
    assert [what for what, *_ in stage.session.done[before:]] == [
        "change_band",
        "mark_pain",
        "change_band",
    ]
    assert "Pain 2 of 10" in stage.told
    stage.press("Space")
    stage.press("Esc")
    assert stage.session.done[-1] == ("end_set", "stop"), "stop goes before closing"
    stage.run(0.1)
    above = stage.window.desk.above
    assert seen(above.care), "why it was stopped may still be read"
    stage.press("Esc")
    assert not seen(above.care)
    assert [what for what, *_ in stage.session.done].count("end_set") == 1


def test_tab_leads_to_nothing_that_the_cautions_cover(stage: Stage) -> None:
    in_a_set(stage)
    desk = stage.window.desk
    policies = {one: one.focusPolicy() for one in desk.above.area.findChildren(QWidget)}
    stage.press("Alt+W")
    met = set()
    for _ in range(24):
        stage.press("Tab")
        focus = QApplication.focusWidget()
        assert focus is not None
        assert not desk.above.area.isAncestorOf(focus)
        met.add(focus)
    assert {desk.above.care.live, desk.stop, desk.cautions} <= met
    stage.press("Alt+W")
    assert all(one.focusPolicy() == policy for one, policy in policies.items())


def test_a_note_is_written_from_the_cautions(stage: Stage) -> None:
    in_a_set(stage)
    stage.press("Alt+W")
    stage.press("F4")
    desk = stage.window.desk
    assert not desk.above.covered
    assert stage.window.focusWidget() is desk.note.line


def test_a_folded_desk_comes_back_for_the_cautions(stage: Stage) -> None:
    in_a_set(stage)
    stage.press("Ctrl+F")
    assert stage.window.desk.isHidden()
    stage.press("Alt+W")
    assert seen(stage.window.desk.above.care.body)


def test_between_sets_the_cautions_have_their_page(stage: Stage) -> None:
    stage.run(0.1)
    stage.press("Alt+W")
    assert stage.window.pages.shown is stage.window.mounted.cautions
    assert not stage.window.desk.above.covered
    stage.press("Alt+W")
    assert stage.live()


# The signal.


def line(stage: Stage) -> tuple[Mark, str]:
    state = stage.window.desk.foot.health.state
    return state.mark, state.words


def test_the_signal_in_one_line(stage: Stage) -> None:
    stage.run(0.5)
    assert line(stage) == (
        Mark.LOOK,
        "Signal live: not calibrated, rig not checked, 0 lost, 80.0 Hz",
    )
    stage.session.profile = CALIBRATED
    stage.run(0.5)
    assert line(stage) == (Mark.GOOD, "Signal live: rig not checked, 0 lost, 80.0 Hz")
    in_a_set(stage, 0.5)
    assert line(stage) == (Mark.GOOD, "Signal live: recorded, 0 lost, 80.0 Hz")
    health = replace(stage.session.take().health, recording=False)
    unkept = signal_state(health, CALIBRATED, drawn_age_s=0.01, in_set=True)
    assert unkept.mark is Mark.LOOK
    assert unkept.words.startswith("Signal live: not recorded")
    told = stage.window.desk.foot.health
    assert told.accessibleName() == line(stage)[1]
    assert told.text().startswith("●  Signal live: recorded")
    stage.session.force_n = lambda _: float("nan")  # at the end of its range
    stage.run(0.5)
    assert line(stage)[0] is Mark.LOOK
    assert line(stage)[1].startswith("Signal live: at the end of its range")
    stage.session.silent = True
    stage.run(1.0)
    assert line(stage) == (Mark.NONE, "Signal: no fresh sample")
    stage.session.link = Link.LOST
    stage.run(0.5)
    assert line(stage) == (Mark.NONE, "Signal: lost")


def test_all_of_the_signal_by_key(stage: Stage) -> None:
    """The column is moved to where it stands, and nothing covers it."""
    stage.window.resize(1280, 560)
    in_a_set(stage)
    desk = stage.window.desk
    QApplication.processEvents()
    desk.above.area.verticalScrollBar().setValue(0)
    assert not seen(desk.health.zero_empty)
    stage.press("Alt+W")
    stage.press("Alt+I")
    QApplication.processEvents()
    assert seen(desk.health.zero_empty)
    assert seen(desk.health.source)


# Nothing is pressed by a move of the layout.


def top_px(widget: QWidget) -> int:
    return widget.mapTo(widget.window(), widget.rect().topLeft()).y()


def test_the_rows_stay_where_they_are_when_a_set_begins_and_ends(stage: Stage) -> None:
    foot = stage.window.desk.foot
    stage.run(0.2)
    QApplication.processEvents()
    before = top_px(foot.pain), top_px(foot.more)
    stage.press("F5")
    stage.run(1.0)
    QApplication.processEvents()
    assert not foot.effort.isVisible()
    assert (top_px(foot.pain), top_px(foot.more)) == before
    stage.press("Esc")
    stage.run(0.2)
    QApplication.processEvents()
    assert foot.effort.isVisible()
    assert (top_px(foot.pain), top_px(foot.more)) == before


def test_a_press_on_a_row_that_has_just_moved_is_not_taken(stage: Stage) -> None:
    """The hand was on its way to what stood there; keys know no place."""
    stage.run(2.0)
    desk, session = stage.window.desk, stage.session
    before = top_px(desk.pain)
    desk.foot.elsewhere.show()  # as where the disk is full
    QApplication.processEvents()
    assert top_px(desk.pain) < before
    stage.run(0.5)
    eight = desk.pain.buttons[8]
    QTest.mouseClick(eight, Qt.MouseButton.LeftButton)
    assert session.told == []
    assert desk.pain.level is None
    assert "Not noted" in stage.told
    QTest.keySequence(stage.window, "Ctrl+3")
    assert [told["level"] for _, told in session.told] == [3]
    QApplication.processEvents()
    stage.run(1.1)
    QTest.mouseClick(eight, Qt.MouseButton.LeftButton)
    assert [told["level"] for _, told in session.told] == [3, 8]


@pytest.mark.parametrize("which", ["more", "cautions", "health"])
def test_a_press_right_after_a_move_opens_nothing_either(
    stage: Stage, which: str
) -> None:
    stage.run(2.0)
    foot, above = stage.window.desk.foot, stage.window.desk.above
    button = getattr(foot, which)
    before = top_px(foot.more)
    foot.elsewhere.show()
    QApplication.processEvents()
    assert top_px(foot.more) < before
    live = stage.live()
    opened = []
    button.clicked.connect(lambda: opened.append(which))
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    assert opened == []
    assert (stage.live(), above.care.isVisible()) == (live, False)
    assert stage.told == "Not opened: the row had just moved. Please press again."
    QApplication.processEvents()
    stage.run(1.1)
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    assert opened == [which]


class Layouts(QObject):
    """Counts how often a widget is asked to lay itself out anew."""

    def __init__(self, watched: QWidget) -> None:
        super().__init__(watched)
        self.count = 0
        watched.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        self.count += event.type() is QEvent.Type.LayoutRequest
        return super().eventFilter(watched, event)


def test_a_message_that_is_shortened_lets_the_desk_come_to_rest(stage: Stage) -> None:
    stage.run(0.2)
    stage.window.desk.say("An invented message of many words. " * 20)
    for _ in range(20):
        QApplication.processEvents()
    assert stage.window.desk.messages.shortened
    layouts = Layouts(stage.window.desk)
    for _ in range(20):
        QApplication.processEvents()
    assert layouts.count == 0
