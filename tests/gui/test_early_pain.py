"""Pain that is told before the logbook has the set: it is of that set all the same."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gui.hands import bring_up
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest

from biofeedback.gui.keymap import PAIN_BACK
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.session_notes import PAIN
from biofeedback.session import Session, demo
from biofeedback.session.office import Office
from biofeedback.session.second_start import SEEN_S

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from PySide6.QtWidgets import QWidget
    from pytestqt.qtbot import QtBot

STEP_US = 50_000
STEPS_MOST = 4000
ACROSS = Qt.Orientation.Horizontal
EARLY, LATE = "Ctrl+4", "Ctrl+2"


class Rig:
    """The real window on the simulated rig, whose disk takes nothing at first."""

    def __init__(self, qtbot: QtBot, logbook: Logbook, recordings: Path) -> None:
        self.qtbot, self.now_ns = qtbot, 1_000_000_000
        recordings.write_text("a file where the folder is to be")
        self.session = Session(
            demo.source(seed=11, step_us=STEP_US),
            logbook=logbook,
            recordings=recordings,
            athlete_code="INV-1",
            clock=lambda: self.now_ns,
        )
        self.window = Window(
            self.session,
            Office.of(logbook, recordings, self.session),
            prescription=demo.PRESCRIPTION,
            clock=lambda: self.now_ns,
        )
        bring_up(qtbot, self.window)

    def press(self, key: str) -> None:
        focus: QWidget | None = self.window.focusWidget()
        QTest.keySequence(focus or self.window, QKeySequence(key))

    def run(self, done: Callable[[], bool]) -> None:
        for _ in range(STEPS_MOST):
            if done():
                return
            self.now_ns += STEP_US * 1000
            self.session.step()
            self.window.frame()
        raise AssertionError("it never came")

    def pain_in_review(self) -> str:
        review = self.window.review
        review.reload()
        heads = range(review.reps.columnCount())
        (at,) = (
            one for one in heads if "pain" in str(review.reps.headerData(one, ACROSS))
        )
        (row,) = {row[at] for row in review.reps.rows}
        return row

    def wait(self, seconds: float) -> None:
        until_ns = self.now_ns + round(seconds * 1e9)
        self.run(lambda: self.now_ns >= until_ns)


def test_the_review_has_pain_that_was_told_before_the_set_was_in_the_logbook(
    qtbot: QtBot, tmp_path: Path
) -> None:
    recordings = tmp_path / "recordings"
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        rig = Rig(qtbot, logbook, recordings)
        rig.wait(1.0)
        rig.press("F5")
        rig.wait(SEEN_S)
        rig.press("F5")  # its reference is old by now
        rig.run(lambda: rig.window.desk.in_set)
        rig.press(EARLY)
        (visit,) = logbook.sessions()
        (mark,) = logbook.session_notes.list(visit.id, kind=PAIN)
        assert mark.set_id is None
        assert not logbook.sets(visit.id)

        recordings.unlink()  # the disk takes it now
        qtbot.waitUntil(lambda: bool(logbook.sets(visit.id)), timeout=10_000)
        rig.press(LATE)
        rig.run(lambda: bool(logbook.reps()))
        rig.press("Esc")
        rig.run(lambda: not rig.window.desk.in_set)
        assert rig.pain_in_review() == "4"
        rig.press(PAIN_BACK)
        assert rig.pain_in_review() == "4", "that was the one of 2"
        (row,) = logbook.sets(visit.id)
        marks = logbook.session_notes.pain(visit.id)
        assert [(one.level, one.set_id, one.taken_back) for one in marks] == [
            (4, row.id, False),
            (2, row.id, True),
        ]
        rig.press(PAIN_BACK)
        assert rig.pain_in_review() == "–"
        rig.window.close()
