"""`biofeedback window` with a hand at the start key; run by `killed`.

    python tests/trials/driven_window.py PORT FOLDER

The real program on a real port. Whenever no set is under way the next one is begun, as
the start key does it, until the program is killed.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer

from biofeedback import cli
from biofeedback.gui.app import application
from biofeedback.gui.window import Window
from biofeedback.session.opening import PLAIN

if TYPE_CHECKING:
    from collections.abc import Callable

ASKED = replace(PLAIN, hold_s=0.8, reps=3, rest_s=0.0)
CODE = "INV-9"
LOOK_MS = 50


def drive(
    port: str, folder: Path, *, at_each_look: Callable[[], None] = lambda: None
) -> int:
    """Opens the window and keeps it at work."""
    app = application()

    def look() -> None:
        at_each_look()
        for window in app.topLevelWidgets():
            if not isinstance(window, Window) or window.drawn_age_s is None:
                continue
            if not window.desk.in_set:
                window.desk.start_wanted.emit(ASKED)

    timer = QTimer()
    timer.timeout.connect(look)
    timer.start(LOOK_MS)
    places = ("--logbook", folder / "logbook.db", "--recordings", folder / "recordings")
    return cli.main(["window", "--port", port, "--athlete", CODE, *map(str, places)])


def main() -> int:
    """As it is called."""
    return drive(sys.argv[1], Path(sys.argv[2]))


if __name__ == "__main__":
    sys.exit(main())
