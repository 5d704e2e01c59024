"""A visit that is under way until it is killed; run by `test_killed_visit`."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from gui.test_day_order import Day
from PySide6.QtWidgets import QApplication, QWidget
from session.visit_on_rig import LEFT_N, RIGHT_N

from biofeedback.logbook.database import Logbook
from biofeedback.logbook.sealed import keyring
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Callable


class Hand:
    """What `Day` wants of pytest-qt."""

    def addWidget(self, widget: QWidget) -> None:  # noqa: N802  as pytest-qt has it
        """Nothing is cleared up: it is killed."""

    def waitUntil(self, reached: Callable[[], bool]) -> None:  # noqa: N802  as above
        """Until it is."""
        while not reached():
            QApplication.processEvents()


def main(folder: Path, passphrase: str = "") -> None:
    """One set is done, then another is under way, and goes on for ever."""
    keyring.ask_by(lambda found: found.opened(passphrase))
    _app = QApplication([])
    book = Logbook.open(folder / "logbook.db")
    day = Day(Hand(), book, folder)  # type: ignore[arg-type]  # as much as it needs
    day.test(LEFT_N, Sides.LEFT)
    day.test(RIGHT_N, Sides.RIGHT)
    day.take()
    day.begin()
    day.until(lambda: not day.window.desk.in_set)
    day.begin()
    day.press("Ctrl+3")
    day.run(2.0)
    sys.stdout.write("in the second set\n")
    sys.stdout.flush()
    while True:
        sys.stdin.read(1)


if __name__ == "__main__":
    main(Path(sys.argv[1]), *sys.argv[2:])
