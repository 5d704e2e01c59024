"""A set in the real window whose second monitor is unplugged in the middle of a rep.

    python tests/gui/unplugged.py HOW FOLDER

HOW is `never`, `signal` (Qt is told that the monitor has gone) or `xrandr` (the display
server takes it away). The rig is simulated and stepped, and the same each time, so the
numbers of the reps must not depend on HOW. Prints them, and what was seen, as JSON.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.gui.app import application
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.session import Session, demo
from biofeedback.session.office import Office
from biofeedback.session.review import Library
from biofeedback.session.second_start import SEEN_S
from biofeedback.training.events import Phase

if TYPE_CHECKING:
    from collections.abc import Callable

STEP_US = 25_000
WAIT_S = 10.0
WALL = ("--setmonitor", "wall", "1920/508x1080/285+1280+0", "none")
GONE = ("--delmonitor", "wall")
ASKED = replace(demo.PRESCRIPTION, hold_s=4.0, reps=2, rest_s=3.0)


def _xrandr(*arguments: str) -> None:
    """Asks the display server."""
    program = shutil.which("xrandr") or ""
    subprocess.run([program, *arguments], check=True, capture_output=True)  # noqa: S603


class Scene:
    """The window on a stepped session."""

    def __init__(self, how: str, folder: Path, logbook: Logbook) -> None:
        self.how = how
        self.app = application()
        self.session = Session(
            demo.source(seed=7, step_us=STEP_US),
            logbook=logbook,
            recordings=folder,
            athlete_code=demo.ATHLETE_CODE,
        )
        office = Office.of(logbook, folder, self.session)
        self.window = Window(self.session, office, prescription=ASKED)
        self.window.setGeometry(0, 0, 1280, 720)
        self.window.show()
        self.second = self.window.comfort.second
        self.seen: list[str] = []

    def run(self, reached: Callable[[], bool]) -> None:
        for _ in range(10_000):
            self.session.step()
            self.window.frame()
            self.app.processEvents()
            if reached():
                return
        raise SystemExit(f"not reached; told: {self.told}")

    def wait(self, what: str, reached: Callable[[], bool]) -> None:
        """For the display server; no sample is taken meanwhile."""
        until = time.monotonic() + WAIT_S
        while not reached():
            if time.monotonic() > until:
                raise SystemExit(f"not seen: {what}")
            self.app.processEvents()
            time.sleep(0.01)
        self.seen.append(what)

    @property
    def told(self) -> str:
        return self.window.desk.messages.message.text()

    def phase(self) -> Phase | None:
        state = self.window.screen_part.path.content.state
        return state.phase if state else None

    def same_set(self) -> None:
        """Both sides follow one session, wherever the athlete's screen is."""
        part, state = (
            self.window.screen_part,
            self.window.screen_part.path.content.state,
        )
        assert state is not None
        assert self.window.desk.in_set
        assert part.isVisible()
        assert part.timer.accessibleDescription()
        assert part.reps.accessibleDescription()

    def plug_in(self) -> None:
        if self.how == "xrandr":
            _xrandr(*WALL)
            self.wait("a second monitor", lambda: len(self.app.screens()) == 2)
        if self.how != "never":
            self.second.switch()
            self.wait("out", lambda: self.second.out)

    def unplug(self) -> None:
        if self.how == "xrandr":
            _xrandr(*GONE)
        elif self.how == "signal":
            self.app.screenRemoved.emit(self.app.screens()[1])
        self.wait("home", lambda: not self.second.out)

    def back(self) -> None:
        if self.how == "xrandr":
            _xrandr(*WALL)
        elif self.how == "signal":
            self.app.screenAdded.emit(self.app.screens()[1])
        if self.how != "never":
            self.wait("out again", lambda: self.second.out)


def main() -> None:
    """Runs the set, and tells of it."""
    how, folder = sys.argv[1], Path(sys.argv[2])
    with Logbook.open(folder / "logbook.db") as logbook:
        scene = Scene(how, folder, logbook)
        scene.run(lambda: scene.window.drawn_age_s is not None)
        scene.plug_in()
        scene.window.desk.start.click()
        if scene.window.visit.asks_again:  # its reference is old by now
            # Real time, in which no sample is taken: how many would not be the same.
            seen_s = time.monotonic() + SEEN_S
            while time.monotonic() <= seen_s:
                scene.app.processEvents()
                time.sleep(0.01)
            scene.window.desk.start.click()
        scene.run(lambda: scene.phase() is Phase.REP)
        for _ in range(40):  # a second into the rep
            scene.run(lambda: True)
        scene.same_set()
        scene.unplug()
        scene.same_set()
        assert scene.phase() is Phase.REP
        assert scene.window.screen_part.window() is scene.window
        scene.run(lambda: scene.phase() is Phase.REST)
        scene.back()
        scene.same_set()
        library = Library(logbook, folder)
        scene.run(lambda: len(library.reps()) == ASKED.reps)
        reps = [dict(rep.measures) for rep in library.reps()]
        dropped = scene.window._dropped
        scene.window.close()
    told = {"seen": scene.seen, "dropped": dropped, "reps": reps}
    sys.stdout.write(json.dumps(told))


if __name__ == "__main__":
    main()
