"""What is said moves nothing of the desk; advice at pain is whole, on the small screen.

On the simulated rig, without an order, in both languages. Athlete, tasks and forces are
invented; session and window are stepped by hand.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from gui.demo_window import speaking
from gui.hands import bring_up
from gui.stepped import STEP_US, Stepped
from PySide6.QtCore import QCoreApplication, QPoint
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from biofeedback.gui.messages import Messages
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.session import Session, demo
from biofeedback.session.office import Office
from biofeedback.session.opening import PLAIN
from biofeedback.session.preferences import Language
from biofeedback.session.second_start import SEEN_S
from biofeedback.training.band import Band
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from PySide6.QtWidgets import QApplication
    from pytestqt.qtbot import QtBot

    from biofeedback.training.prescription import Prescription

LOWERING = replace(
    PLAIN,
    task=Task("Slow lowering (invented)", TaskKind.LOWERING, Sides.BOTH),
    band=Band.at_least(40.0),
    hold_s=3.0,
    reference=Reference(
        200.0,
        Origin.OTHER_TASK,
        Definition.PEAK,
        "2026-01-05",
        task=Task("Calf hold (invented)"),
    ),
)


class Room(Stepped):
    """A desk of 1280 × 720."""

    def __init__(self, qtbot: QtBot, logbook: Logbook, folder: Path) -> None:
        session = Session(
            demo.source(seed=11, step_us=STEP_US),
            logbook=logbook,
            recordings=folder,
            athlete_code="INV-1",
            athlete_name="Invented athlete",
        )
        office = Office.of(logbook, folder, session)
        window = Window(session, office, prescription=PLAIN, clock=lambda: self.now_ns)
        super().__init__(session, window)
        window.resize(1280, 720)
        bring_up(qtbot, window)
        self.run(1.0)

    def press(self, key: str) -> None:
        focus: QWidget | None = self.window.focusWidget()
        QTest.keySequence(focus or self.window, QKeySequence(key))

    def settle(self) -> None:
        for _ in range(6):  # layouts follow, and what they change in turn
            self.run(0.1)
            QCoreApplication.processEvents()

    def places(self) -> dict[QWidget, tuple[QPoint, int, int]]:
        """Where all parts of the desk are, the messages themselves apart."""
        desk = self.desk
        return {
            part: (part.mapTo(desk, QPoint()), part.width(), part.height())
            for part in desk.findChildren(QWidget)
            if part.isVisible() and not isinstance(part.parentWidget(), Messages)
        }

    def begin(self, asked: Prescription) -> None:
        self.desk.form.fill(asked)
        self.press("F5")
        if not self.desk.in_set:  # what speaks against it was said
            self.run(SEEN_S)
            self.press("F5")
        self.until(lambda: self.desk.in_set)
        self.settle()


@pytest.fixture(params=[Language.ENGLISH, Language.SPANISH], ids=lambda one: one.value)
def room(
    request: pytest.FixtureRequest, qapp: QApplication, qtbot: QtBot, tmp_path: Path
) -> Iterator[Room]:
    with (
        speaking(qapp, request.param),
        Logbook.open(tmp_path / "logbook.db") as logbook,
    ):
        made = Room(qtbot, logbook, tmp_path / "recordings")
        yield made
        made.window.close_at_once()


def test_what_speaks_against_a_start_moves_nothing_of_the_desk(room: Room) -> None:
    room.press("Ctrl+8")
    room.settle()
    before = room.places()
    room.press("F5")
    room.settle()
    assert not room.desk.in_set
    message = room.desk.messages.message
    assert "8" in message.text()
    assert message.drawn == message.text(), "all of it is seen"
    assert room.places() == before
    assert room.desk.above.area.verticalScrollBar().maximum() == 0


@pytest.mark.parametrize(
    "asked", [PLAIN, LOWERING], ids=lambda one: one.task.kind.value
)
def test_the_advice_at_pain_in_a_set_is_whole(room: Room, asked: Prescription) -> None:
    room.begin(asked)
    before = room.places()
    room.press("Ctrl+7")
    room.settle()
    advice = room.desk.messages.earlier
    assert advice.property("advice")
    assert "7" in advice.text()
    assert advice.drawn == advice.text()
    assert room.places().keys() == before.keys()
    rows = (room.desk.start, room.desk.form, *room.desk.pain.buttons)
    assert all(room.places()[row][0].y() == before[row][0].y() for row in rows)
    room.press("Esc")
    room.until(lambda: not room.desk.in_set)
    room.settle()
    assert advice.property("advice"), "it stands after the stop that it advised"
    assert advice.drawn == advice.text()
