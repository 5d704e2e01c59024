"""The health page on a staged session: steps, prompts, verdicts and keys."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from gui.hands import bring_up
from gui.staged_session import ASKED, StagedSession
from gui.stepped_window import Stepped
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from biofeedback.gui.window import Window
from biofeedback.session.rig_check import CheckState

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from biofeedback.gui.health import HealthPage


class Bench(Stepped):
    """A window on a quiet rig that can be pressed."""

    def __init__(self, qtbot: QtBot) -> None:
        self.pressed = (0.0, 0.0)
        self.noise = np.random.default_rng(4)
        self.session = StagedSession(self._force)
        self.window = Window(
            self.session,
            prescription=ASKED,
            clock=lambda: self.session.now_ns,
        )
        self.window.health.seconds = 3.0
        bring_up(qtbot, self.window)
        self.run(0.1)

    def _force(self, _time_s: float) -> tuple[float, float]:
        left, right = self.noise.normal(0, 0.03, 2)
        return self.pressed[0] + left, self.pressed[1] + right

    @property
    def page(self) -> HealthPage:
        return self.window.health

    @property
    def prompt(self) -> str:
        return self.page.prompt.text()

    @property
    def checking(self) -> bool:
        """Whether the page is shown."""
        return self.window.pages.shown is self.page

    def key(self, key: Qt.Key) -> None:
        QTest.keyClick(self.window, key)

    def shown(self) -> list[str]:
        QCoreApplication.processEvents()  # new parts are shown a moment later
        return [
            label.text()
            for label in self.page.findChildren(QLabel)
            if label.isVisible()
        ]


@pytest.fixture
def bench(qtbot: QtBot) -> Bench:
    return Bench(qtbot)


def test_a_check_from_key_to_verdict(bench: Bench) -> None:
    bench.key(Qt.Key.Key_F12)
    assert bench.checking
    assert bench.prompt.startswith("Take everything off the rig")
    bench.key(Qt.Key.Key_F9)
    bench.run(1.5)
    assert bench.prompt.startswith("Leave the rig alone: ")
    assert 0 < bench.page.bar.value() < 300
    bench.run(2.5)
    assert bench.prompt.startswith("Press the left cell firmly")
    assert "Noise" in bench.shown()  # what is known is shown at once
    for pressed, after in (((55.0, 1.0), "Press the right"), ((0.0, -40.0), "Look at")):
        bench.pressed = pressed
        bench.run(1.5)
        assert bench.prompt == "Let go."
        bench.pressed = (0.0, 0.0)
        bench.run(1)
        assert bench.prompt.startswith(after)
    assert bench.prompt == "Look at: press: right."
    assert not bench.page.checking
    shown = bench.shown()
    assert "It rose by 55 N, and it alone." in shown
    assert "It fell by 40 N: its polarity is reversed." in shown
    assert "▲ look at it" in shown
    assert "● good" in shown
    assert "Swap its two signal wires, or calibrate it again." in shown
    assert bench.page.bar.value() == 1000
    bench.key(Qt.Key.Key_F12)
    assert not bench.checking


def test_presses_may_be_left_out_one_by_one(bench: Bench) -> None:
    bench.key(Qt.Key.Key_F12)
    bench.key(Qt.Key.Key_F10)  # nothing to leave out yet
    bench.key(Qt.Key.Key_F9)
    bench.run(4)
    assert bench.page.skip.isEnabled()
    for _ in range(4):  # each press, and each letting go
        bench.key(Qt.Key.Key_F10)
    assert bench.prompt == "The rig is well."
    report = bench.page.report
    assert report is not None
    assert [one.state for one in report.verdicts[-2:]] == [CheckState.NOT_JUDGED] * 2
    assert "– not judged" in bench.shown()


def test_presses_may_be_left_out_from_the_start(bench: Bench) -> None:
    bench.key(Qt.Key.Key_F12)
    bench.page.presses.click()
    bench.key(Qt.Key.Key_F9)
    bench.run(4)
    assert bench.prompt == "The rig is well."
    # The band that is planned at the desk is looked at.
    assert any("In the prescription's band" in text for text in bench.shown())


def test_a_known_mass_names_the_unit_and_the_sets_carry_the_result(
    bench: Bench,
) -> None:
    bench.key(Qt.Key.Key_F12)
    bench.page.presses.click()
    bench.page.mass.line.setText("nothing")
    bench.key(Qt.Key.Key_F9)
    assert not bench.page.checking
    assert "number" in bench.page.mass.error.text()
    bench.page.mass.line.setText("900")
    bench.key(Qt.Key.Key_F9)
    assert not bench.page.checking
    assert "0.2 to 500 kg" in bench.page.mass.error.text()
    bench.page.mass.line.setText("10")
    assert bench.window.desk.foot.health.state.words.startswith("Signal live: ")
    bench.key(Qt.Key.Key_F9)
    bench.run(4)
    assert bench.prompt == "Hang 10 kg on the left cell alone, and let it come to rest."
    bench.pressed = (10.0, 0.0)  # kilograms, as newtons
    bench.run(2)
    assert bench.prompt == "Take the mass off."
    bench.pressed = (0.0, 0.0)
    bench.run(1)
    bench.pressed = (0.0, 98.1)
    bench.run(2)
    bench.pressed = (0.0, 0.0)
    assert not any(one[0] == "keep_check" for one in bench.session.done)
    bench.run(1)
    assert bench.prompt == "Look at: mass: left."
    assert any("kilograms that are taken for newtons" in one for one in bench.shown())
    assert bench.session.done[-1] == ("keep_check", False)


def test_the_foot_tells_a_rig_that_was_not_checked(bench: Bench) -> None:
    bench.session.found = "board 7"
    bench.run(0.5)
    foot = bench.window.desk.foot.health
    assert "rig not checked" in foot.state.words
    bench.key(Qt.Key.Key_F12)
    bench.page.presses.click()
    bench.key(Qt.Key.Key_F9)
    bench.run(4)
    assert "rig not checked" not in foot.state.words
    bench.session.found = "board 8"  # another one was plugged in
    bench.run(0.5)
    assert "rig not checked" in foot.state.words


def test_the_same_key_ends_a_check_and_begins_another(bench: Bench) -> None:
    bench.key(Qt.Key.Key_F12)
    bench.key(Qt.Key.Key_F9)
    bench.run(2)
    assert bench.page.begin.text() == "End the check"
    bench.key(Qt.Key.Key_F9)
    assert not bench.page.checking
    assert any("Ended by hand after" in text for text in bench.shown())
    bench.key(Qt.Key.Key_F9)
    assert bench.page.begin.text() == "End the check"
    assert not any("Ended by hand" in text for text in bench.shown())


def test_leaving_the_page_ends_the_check(bench: Bench) -> None:
    bench.key(Qt.Key.Key_F12)
    bench.key(Qt.Key.Key_F9)
    bench.run(1)
    bench.key(Qt.Key.Key_F12)
    assert not bench.page.checking
    bench.key(Qt.Key.Key_F9)  # the page's key is dead while it is hidden
    assert not bench.page.checking


def test_in_a_set_there_is_no_check(bench: Bench) -> None:
    bench.key(Qt.Key.Key_F12)
    bench.key(Qt.Key.Key_F9)
    bench.run(1)
    bench.key(Qt.Key.Key_F5)
    bench.run(0.1)
    assert not bench.checking  # the set is seen
    assert not bench.page.checking
    assert not bench.window.desk.health.check.isEnabled()
    bench.key(Qt.Key.Key_F12)
    assert not bench.checking
    bench.key(Qt.Key.Key_Escape)
    bench.run(0.1)
    assert bench.window.desk.health.check.isEnabled()


def test_a_signal_that_is_lost_is_told(bench: Bench) -> None:
    bench.key(Qt.Key.Key_F12)
    bench.key(Qt.Key.Key_F9)
    bench.run(2)
    bench.session.silent = True
    bench.run(4)
    assert bench.prompt.startswith("Look at: signal")
    assert "The signal broke off." in bench.shown()
