"""Makes the pictures in this folder: the real window on the simulated rig.

    python tests/screenshots/make.py [FOLDER]

The athlete is invented and the same each time. The session is stepped, not
waited for, so a minute of holds takes a few seconds. No screen is needed.
"""

from __future__ import annotations

import os
import sys
import tempfile
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

if __name__ == "__main__":
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")  # before Qt is imported

from PySide6.QtCore import QCoreApplication, QEvent

from biofeedback.gui.app import application
from biofeedback.gui.theme import DAY, NIGHT, Theme
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.session import Session, demo
from biofeedback.session.office import Office
from biofeedback.training.band import Band
from biofeedback.training.feedback import Cue
from biofeedback.training.prescription import BandOn, ClockRule

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from biofeedback.training.prescription import Prescription

STEP_US = 12_500
"""One sample at 80 Hz for each frame."""
WAIT_MOST_S = 120.0
SMALL, LARGE = (1280, 720), (1920, 1080)
ASKED = replace(demo.PRESCRIPTION, hold_s=8.0, reps=4, rest_s=4.0, ceiling_n=130.0)


class Scene:
    """A window on a stepped session."""

    def __init__(self, folder: Path, logbook: Logbook, asked: Prescription) -> None:
        self.device_ns = 0
        self._channels = 1 if asked.band_on is BandOn.TOTAL and asked is ONE else 2
        self.session = Session(
            demo.source(seed=11, channels=self._channels, step_us=STEP_US),
            logbook=logbook,
            recordings=folder,
            athlete_code=demo.ATHLETE_CODE,
            athlete_name=demo.ATHLETE_NAME,
        )
        self.window = Window(
            self.session,
            Office.of(logbook, folder, self.session),
            prescription=asked,
        )
        self.silent = False

    def frame(self) -> None:
        if not self.silent:
            self.session.step()
        self.window.frame()
        QCoreApplication.processEvents()

    def until(self, reached: Callable[[], bool]) -> None:
        for _ in range(round(WAIT_MOST_S * 1e6 / STEP_US)):
            self.frame()
            if reached():
                return
        message = "the scene that was waited for did not come"
        raise RuntimeError(message)

    def run(self, seconds: float) -> None:
        for _ in range(round(seconds * 1e6 / STEP_US)):
            self.frame()

    def cue(self, cue: Cue) -> None:
        self.until(lambda: self.window.screen_part.shown_cue is cue)

    def save(
        self,
        path: Path,
        size: tuple[int, int] = SMALL,
        theme: Theme = DAY,
        *,
        frames: int = 20,  # the desk's figures are renewed each 15 frames
    ) -> None:
        self.window.resize(*size)
        self.window.set_theme(theme)
        for _ in range(frames):
            self.frame()
        self.window.grab().save(str(path))
        sys.stdout.write(f"{path}\n")


ONE = replace(ASKED, reference=None, clock=ClockRule.RUNNING, ceiling_n=None)
"""For a rig with a single channel, and without percentages."""


@contextmanager
def scene(asked: Prescription) -> Iterator[Scene]:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        with Logbook.open(folder / "logbook.db") as logbook:
            made = Scene(folder / "recordings", logbook, asked)
            made.window.show()
            made.until(lambda: made.window.drawn_age_s is not None)
            try:
                yield made
            finally:
                made.window.close()
                made.window.deleteLater()
                QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def make(folder: Path) -> None:
    """Saves all pictures into `folder`."""
    with scene(ASKED) as both:
        both.run(0.5)
        both.save(folder / "before.png")
        both.window.desk.start.click()
        both.cue(Cue.STAY)
        both.run(4.5)
        both.save(folder / "hold.png")
        both.save(folder / "hold-night.png", LARGE, NIGHT)
        both.cue(Cue.REST)
        both.run(1.2)
        both.save(folder / "rest.png")
        both.cue(Cue.STAY)
        both.run(2.5)
        both.window.desk.form.band.set_band(
            Band(45, 70), reference_n=demo.REFERENCE.force_n
        )
        both.window.desk.form.band.changed.emit()
        both.cue(Cue.LESS)
        both.save(folder / "nudged.png", frames=2)
        both.window.desk.stop.click()
        both.run(0.5)
        both.window.desk.pages.review.click()
        both.save(folder / "review.png")
        both.window.desk.pages.review.click()
        both.window.desk.health.check.click()
        both.window.health.presses.setChecked(False)
        both.window.health.begin.click()
        both.until(lambda: not both.window.health.checking)
        both.save(folder / "health.png")
    with scene(replace(ASKED, band_on=BandOn.EACH_SIDE, band=Band(30, 48))) as sides:
        sides.window.desk.start.click()
        sides.cue(Cue.STAY)
        sides.run(4.0)
        sides.save(folder / "each-side.png", SMALL, NIGHT)
    with scene(ONE) as one:
        one.window.desk.start.click()
        one.cue(Cue.STAY)
        one.run(4.0)
        one.save(folder / "one-channel.png")
        one.silent = True
        one.cue(Cue.NO_SIGNAL)
        one.save(folder / "no-signal.png")


if __name__ == "__main__":
    application()
    make(Path(sys.argv[1] if len(sys.argv) > 1 else Path(__file__).parent))
