"""The order box at the desk, on a real visit on the simulated rig. All is invented."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontInfo, QFontMetrics
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QVBoxLayout, QWidget
from session.visit_on_rig import OnRig, record

from biofeedback.gui import keys as window_keys
from biofeedback.gui.breathing_line import BreathingLine
from biofeedback.gui.cue import clock
from biofeedback.gui.desk import Desk
from biofeedback.gui.order_box import KEYS, MOST_PX, REASON_KEYS, Act
from biofeedback.gui.order_control import ASK_AGAIN_S, OrderControl
from biofeedback.gui.order_words import leg_line, stand_icon
from biofeedback.gui.style import style_sheet
from biofeedback.gui.theme import DAY, NIGHT, Theme
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.session_notes import CHANGE
from biofeedback.session import demo
from biofeedback.session.second_start import SEEN_S
from biofeedback.training.running_order import Doing, Stand

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot


class AtDesk:
    """A visit, its box, and a clock that goes with the samples."""

    def __init__(self, rig: OnRig) -> None:
        self.rig = rig
        self.control = OrderControl()
        self.box = self.control.box
        self.box.bind_keys()
        self.window = QWidget()
        QVBoxLayout(self.window).addWidget(self.box)
        self.said: list[str] = []
        self.control.said.connect(self.said.append)
        self.control.take_up(rig.visit)

    def step(self) -> None:
        self.rig.session.step()
        self.rig.update = self.rig.session.take()
        self.rig.now_s += 0.05
        self.control.follow(self.rig.update, self.rig.now_s)

    def run(self, seconds: float) -> None:
        for _ in range(round(seconds / 0.05)):
            self.step()

    def until(self, reached: Callable[[], bool]) -> None:
        for _ in range(2400):
            self.step()
            if reached():
                return
        pytest.fail("what was waited for did not come")

    def press(self, act: Act) -> None:
        self.box.buttons[act].click()

    def can(self) -> set[Act]:
        return {act for act, button in self.box.buttons.items() if button.isEnabled()}

    def told(self) -> list[str]:
        role = Qt.ItemDataRole.AccessibleTextRole
        rows = self.box.list
        return [rows.item(at).data(role) for at in range(rows.count())]


@pytest.fixture
def desk(tmp_path: Path, qtbot: QtBot) -> Iterator[AtDesk]:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        rig = OnRig(logbook, tmp_path / "recordings", record(warm_up=True, sets=4))
        made = AtDesk(rig)
        qtbot.addWidget(made.window)
        made.window.show()
        made.run(1.0)
        yield made
        rig.session.close()


def begin(desk: AtDesk) -> None:
    desk.press(Act.NEXT_SET)
    desk.until(lambda: desk.rig.visit.changes.asked is not None)


STEPS = {
    Act.SHORTER_HOLD, Act.LONGER_HOLD, Act.FEWER_REPS, Act.MORE_REPS,
    Act.SHORTER_REST, Act.LONGER_REST,
}  # fmt: skip


def test_it_follows_the_visit_from_set_to_rest_to_stop(desk: AtDesk) -> None:
    box = desk.box
    assert box.heading.text() == "Set 1 of 4"
    assert box.doing.text() == "Ready"
    assert desk.told()[0] == (
        "Left, warm-up · 1 × 2 s · Invented calf push, to come, next"
    )
    assert desk.told()[2].startswith("Left 1 of 2 · 2 × 2 s")
    assert desk.can() == STEPS | {
        Act.NEXT_SET, Act.SKIP, Act.PAUSE, Act.END, Act.SIDE,
    }  # fmt: skip
    begin(desk)
    assert box.doing.text() == "Set under way"
    assert desk.told()[0].endswith("under way")
    assert desk.can() == STEPS | {
        Act.PAUSE, Act.CUT_SHORT, Act.END, Act.SKIP_REP, Act.REPEAT_REP,
    }  # fmt: skip
    desk.until(lambda: not desk.rig.visit.in_set)
    assert box.heading.text() == "Set 2 of 4"
    assert box.doing.text() == "Get ready 0:03"
    assert desk.told()[0].endswith("done")
    desk.until(lambda: desk.rig.visit.changes.asked is not None)
    desk.rig.visit.stop()
    desk.until(lambda: not desk.rig.visit.in_set)
    assert box.doing.text() == "Stopped"
    assert desk.told()[1].endswith("stopped")
    assert desk.can() == {Act.REPEAT, Act.SKIP, Act.PAUSE, Act.END}
    desk.press(Act.SKIP)
    desk.press(Act.SKIP)
    assert desk.told()[2].endswith("skipped")


def test_each_press_is_one_change_and_the_reason_is_asked_for(desk: AtDesk) -> None:
    begin(desk)
    box = desk.box
    assert not box.reasons[0].isEnabled()
    for act in (Act.LONGER_HOLD, Act.LONGER_REST, Act.MORE_REPS, Act.FEWER_REPS):
        desk.press(act)
    assert [label.text() for label in box.values.values()] == [
        "Hold 3 s", "Reps 1", "Rest 8 s",
    ]  # fmt: skip
    desk.run(0.2)
    assert box.reasons[1].isEnabled()
    box.reasons[1].click()
    assert desk.said == ["Noted: weaker today."]
    assert not box.reasons[1].isEnabled()
    for _ in range(4):
        desk.press(Act.UNDO)
    assert Act.UNDO not in desk.can()
    assert box.values["hold"].text() == "Hold 2 s"
    desk.run(0.5)
    kinds = Counter(note.content["reason"] for note in desk.rig.notes(CHANGE))
    assert kinds == {"": 4, "weaker today": 1, "undone": 4}


def test_what_cannot_be_done_is_said(desk: AtDesk) -> None:
    desk.control.act(Act.CUT_SHORT)
    desk.control.act(Act.UNDO)
    desk.press(Act.FEWER_REPS)  # the warm-up has one only
    assert desk.said[0] == "No set is under way."
    assert desk.said[1] == "There is no change to take back."
    assert "reps" in desk.said[2]


def test_pause_and_go_on(desk: AtDesk) -> None:
    desk.press(Act.PAUSE)
    assert (desk.box.doing.text(), desk.box.buttons[Act.PAUSE].text()) == (
        "Paused",
        "Go on",
    )
    desk.press(Act.PAUSE)
    assert desk.box.buttons[Act.PAUSE].text() == "Pause"


def test_the_visit_is_ended_by_a_second_press(desk: AtDesk, qtbot: QtBot) -> None:
    desk.press(Act.END)
    assert desk.said == ["Sets still to come: 4. Once more ends the visit."]
    assert desk.rig.visit.order.doing is Doing.READY
    desk.run(ASK_AGAIN_S + 0.1)
    desk.press(Act.END)  # asked anew: the first press is long ago
    assert len(desk.said) == 2
    desk.press(Act.END)
    assert len(desk.said) == 3, "a double click is no second press"
    desk.run(SEEN_S + 0.1)
    with qtbot.waitSignal(desk.control.over):
        desk.press(Act.END)
        desk.step()
    assert desk.box.doing.text() == "Visit ended"
    assert desk.can() == {Act.REPEAT}


def test_a_row_that_is_activated_comes_next(desk: AtDesk) -> None:
    rows = desk.box.list
    rows.itemActivated.emit(rows.item(3))
    assert desk.rig.visit.order.legs[0].sides.value == "right"
    assert desk.told()[0].endswith("to come, next")


def test_the_athlete_is_told_of_the_rest_and_to_breathe(
    desk: AtDesk, qtbot: QtBot
) -> None:
    line = BreathingLine()
    qtbot.addWidget(line)

    def told() -> str:
        visit, update = desk.rig.visit, desk.rig.update
        assert visit.asked is not None
        assert update is not None
        desk.control.tell_athlete(
            line, update.state, visit.asked, live=True, start_key="F5"
        )
        return line.accessibleDescription()

    assert told() == "Left"
    desk.press(Act.LONGER_REST)
    for _ in range(5):
        desk.press(Act.LONGER_HOLD)  # 7 s at half of 50 %: not hard, not long
    begin(desk)
    desk.rig.rep_done()
    desk.until(lambda: not desk.rig.visit.in_set)
    assert told() == "Right next in 0:08"
    desk.press(Act.PAUSE)
    assert told() == "Right next, F5 starts", "nothing begins by itself"
    desk.press(Act.PAUSE)
    desk.run(3.2)
    assert told() == "Right: get ready 0:05"
    desk.box.auto.click()
    assert told() == "Right next, F5 starts"
    desk.box.auto.click()
    desk.until(lambda: desk.rig.visit.changes.asked is not None)
    assert told() == "Right"


def test_a_long_name_loses_its_middle_and_is_told_whole(
    qtbot: QtBot,
) -> None:
    name = "Shoulder external rotation with the arm at the side, standing"
    made = record(sets=2)
    legs = made.order.legs
    rows = OrderControl().box
    qtbot.addWidget(rows)
    long = tuple(
        replace(leg, asked=replace(leg.asked, task=replace(leg.asked.task, name=name)))
        for leg in legs
    )
    for width, size in ((330, 1.0), (500, 1.5)):
        rows.setStyleSheet(style_sheet(DAY, size=size))
        rows.set_size(size)
        rows.resize(width, 600)
        rows.show()
        rows._show_legs(long, 0)
        for at in range(rows.list.count()):
            item = rows.list.item(at)
            text = item.text()
            # The next one has a line for the name; others are told in one.
            assert ("× 2 s\nShou" if at == 0 else "× 2 s · Shou") in text
            assert text.endswith("anding")
            assert "…" in text
            assert QFontInfo(item.font()).pixelSize() == round(13 * size)
            letters = QFontMetrics(item.font())
            wide = max(map(letters.horizontalAdvance, text.split("\n")))
            assert wide <= rows.list.viewport().width() - rows.list.iconSize().width()
            assert name in item.toolTip()
            assert name in item.data(Qt.ItemDataRole.AccessibleTextRole)


def test_auto_is_switched(desk: AtDesk) -> None:
    desk.box.auto.click()
    assert desk.rig.visit.auto is False
    desk.box.auto.click()
    assert desk.rig.visit.auto is True


def test_keys_work_while_the_box_is_seen(desk: AtDesk, qtbot: QtBot) -> None:
    qtbot.waitExposed(desk.window)
    desk.window.activateWindow()
    asked = desk.rig.visit.asked
    assert asked is not None
    alt = Qt.KeyboardModifier.AltModifier
    QTest.keyClick(desk.window, Qt.Key.Key_H, alt)
    desk.step()
    assert desk.box.values["hold"].text() == "Hold 3 s"
    QTest.keyClick(desk.window, Qt.Key.Key_F3, Qt.KeyboardModifier.ShiftModifier)
    assert desk.said == ["Noted: pain."]
    desk.control.take_up(None)
    assert desk.box.isHidden()
    QTest.keyClick(desk.window, Qt.Key.Key_H, alt)
    assert desk.rig.visit.asked is not None
    assert desk.rig.visit.asked.hold_s == 3.0


def test_no_key_is_used_twice(qtbot: QtBot) -> None:
    mine = [*KEYS.values(), *REASON_KEYS]
    at_desk = Desk(demo.PRESCRIPTION)
    qtbot.addWidget(at_desk)
    theirs = [key for _, key, _ in at_desk.actions_and_keys()]
    theirs += [key for key, _ in window_keys.sheet_rows(at_desk)]
    assert len(set(mine)) == len(mine)
    assert not set(mine) & set(theirs)


def test_everything_has_a_name_and_a_tip_with_its_key(desk: AtDesk) -> None:
    for button, key, tip in desk.box.actions_and_keys():
        assert button.accessibleName()
        assert tip in button.toolTip()
        assert key in button.toolTip()
        assert button.focusPolicy() is not Qt.FocusPolicy.NoFocus


@pytest.mark.parametrize("theme", [DAY, NIGHT])
@pytest.mark.parametrize("size", [1.0, 1.5])
def test_it_is_narrow_and_nothing_is_cut(
    desk: AtDesk, theme: Theme, size: float
) -> None:
    desk.window.setStyleSheet(style_sheet(theme, size=size))
    desk.box.set_theme(theme)
    desk.box.set_size(size)
    desk.window.adjustSize()
    assert desk.box.minimumSizeHint().width() <= MOST_PX * size
    for button in (*desk.box.buttons.values(), *desk.box.reasons):
        wide = button.fontMetrics().horizontalAdvance(button.text())
        assert wide <= button.width()


def test_each_stand_has_a_shape_of_its_own() -> None:
    pictures = {
        stand: stand_icon(stand, DAY, 16).pixmap(32, 16).toImage() for stand in Stand
    }
    for one in Stand:
        for other in Stand:
            if one is not other:
                assert pictures[one] != pictures[other]


def test_times_and_lines() -> None:
    assert [clock(s) for s in (0.0, 0.2, 59.1, 60.0, 125.0)] == [
        "0:00", "0:01", "1:00", "1:00", "2:05",
    ]  # fmt: skip
    leg = record().order.legs[1]
    assert leg_line(leg) == "Right 1 of 2 · 2 × 2 s · Invented calf push"
