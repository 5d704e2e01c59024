"""Each state of a day as it is seen, at both sizes: the real window, a scripted force.

The pictures are named `day-…-720.png` and `day-…-1080.png`. The day is that of
`gui.whole_day` with a plan of its own, in which each state has its place. All is
invented.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from gui.whole_day import WholeDay, prepare
from PySide6.QtCore import QCoreApplication, QEvent

from biofeedback.rig.faults import Fault, FaultKind
from biofeedback.session.second_start import SEEN_S
from biofeedback.training.feedback import Cue
from biofeedback.training.intensity import Intensity, ToleranceOf
from biofeedback.training.planned import PlannedPrescription, SideOrder
from biofeedback.training.prescription import ClockRule, FeedbackMode
from biofeedback.training.task import Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Iterator

SIZES = ((1280, 720), (1920, 1080))
PASSES = 5
"""Layouts follow a new size, and what they change in turn."""
OUTWARD = Task("Shoulder external rotation at the side", TaskKind.HOLD, Sides.LEFT)
CALF = Task("Seated calf", TaskKind.HOLD, Sides.BOTH)
LOWERING = Task("Slow calf lowering", TaskKind.LOWERING, Sides.BOTH)
PLAN = (
    PlannedPrescription(
        OUTWARD,
        Intensity.around(45, 15, ToleranceOf.CENTRE),
        hold_s=8.0,
        reps=4,
        rest_s=8.0,
        side_order=SideOrder.LEFT_FIRST,
        ceiling_pct=65.0,
        key="outward",
    ),
    PlannedPrescription(
        CALF,
        Intensity.around(40, 12, ToleranceOf.CENTRE),
        hold_s=6.0,
        reps=3,
        rest_s=6.0,
        feedback=FeedbackMode.ALTERNATE,
        balance_tolerance_points=5.0,
        key="calf",
    ),
    PlannedPrescription(
        LOWERING,
        Intensity.at_least(55),
        hold_s=4.0,
        reps=3,
        rest_s=6.0,
        clock=ClockRule.RUNNING,
        key="lowering",
    ),
)
TESTED_N = {
    (OUTWARD.name, Sides.LEFT): 110.0,
    (OUTWARD.name, Sides.RIGHT): 128.0,
    (CALF.name, Sides.BOTH): 780.0,
    (LOWERING.name, Sides.BOTH): 780.0,
}


class Camera:
    """Takes a picture of the window at both sizes, all within three frames."""

    def __init__(self, day: WholeDay, folder: Path) -> None:
        self.day, self.folder = day, folder

    def take(self, name: str) -> None:
        """The state as it is."""
        window = self.day.window
        for width, height in SIZES[::-1]:  # and so the window ends small
            window.resize(width, height)
            for _ in range(PASSES):
                QCoreApplication.processEvents()
            self.day.frame()
            for _ in range(PASSES):
                QCoreApplication.processEvents()
            path = self.folder / f"day-{name}-{height}.png"
            window.grab().save(str(path))
            sys.stdout.write(f"{path}\n")


@contextmanager
def day_in(folder: Path, pictures: Path) -> Iterator[Camera]:
    """A window on a folder with a logbook."""
    day = WholeDay(folder)
    try:
        yield Camera(day, pictures)
    finally:
        day.close()
        day.window.deleteLater()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def make_states(pictures: Path) -> None:
    """Saves all of them into a folder."""
    with tempfile.TemporaryDirectory() as name:
        folder, left = Path(name) / "day", Path(name) / "cut-off"
        folder.mkdir()
        prepare(folder, PLAN, TESTED_N)
        with day_in(folder, pictures) as camera:
            _to_the_desk(camera)
            _hold(camera)
            _trouble(camera)
            _unseen(camera, left)
            _lowering(camera)
        with day_in(left, pictures) as camera:
            camera.day.run(0.4)
            camera.take("recovered")


def _to_the_desk(camera: Camera) -> None:
    day = camera.day
    day.run(1.0)
    day.press("F7")
    day.run(1.3)
    day.press("Alt+D")
    day.click(day.window.mounted.today.now.buttons[2])
    day.press("Ctrl+T")
    day.run(0.5)
    camera.take("before")
    day.press("F5")
    day.see(Cue.READY)
    day.run(1.0)
    camera.take("entry")


def _hold(camera: Camera) -> None:
    """One rep with all that can happen in it, and the rest after it."""
    day = camera.day
    day.pull(30, 0)
    day.see(Cue.MORE)
    day.run(0.3)
    camera.take("below")
    day.pull(49, 0)
    day.see(Cue.STAY)
    day.run(3.0)
    camera.take("inside")
    day.press("Alt+W")
    camera.take("cautions")
    day.press("Alt+W")
    day.pull(62, 0)
    day.see(Cue.LESS)
    day.run(0.1)
    camera.take("above")
    day.run(0.4)
    day.pull(49, 0)
    day.see(Cue.STAY)
    day.run(1.0)
    camera.take("lapse")
    day.pull(76, 0)
    day.see(Cue.TOO_MUCH)
    camera.take("ceiling")
    day.pull(50, 0)
    day.see(Cue.LET_GO)
    camera.take("let-go")
    day.pull(0, 0, over_s=0.3)
    day.see(Cue.REST)
    day.run(1.5)
    camera.take("rest")


def _trouble(camera: Camera) -> None:
    """A nudge, a cell at its stop, a pulled cable, and a stop for pain."""
    day = camera.day
    day.see(Cue.READY)
    day.pull(50, 0)
    day.see(Cue.STAY)
    day.run(1.0)
    day.press("PgUp")
    day.press("PgUp")
    day.press("Shift+F1")
    day.run(0.5)
    camera.take("nudged")
    day.rig.ask(Fault(FaultKind.SATURATE, day.device_s, 1.2))
    day.run(0.6)
    camera.take("cell-at-its-limit")
    day.see(Cue.STAY)
    day.pull_cable()
    day.see(Cue.NO_SIGNAL)
    day.run(0.5)
    camera.take("pulled-cable")
    day.plug_in()
    day.see(Cue.STAY)
    day.run(1.0)
    camera.take("cable-back")
    day.press("Ctrl+7")
    camera.take("pain")
    day.press("Esc")
    day.until(lambda: not day.window.desk.in_set)
    day.pull(0, 0, over_s=0.3)
    camera.take("pain-stop")
    day.press("Alt+7")
    day.press("Alt+K")
    day.press("Alt+K")
    day.run(1.0)
    camera.take("order")


def _unseen(camera: Camera, left: Path) -> None:
    """A rep that is seen, one that is not, and its trace after it."""
    day = camera.day
    for _ in range(2):  # the pain speaks against the first
        day.press("F5")
        day.run(SEEN_S)
    day.see(Cue.READY)
    day.pull(165, 150)
    day.run(2.0)
    camera.take("both-sides")
    day.let_go()
    day.see(Cue.READY)
    day.pull(170, 140)
    day.run(1.0)
    day.pull(176, 168)
    day.run(2.0)
    camera.take("unseen")
    day.let_go()
    day.see(Cue.REST)
    day.run(0.5)
    camera.take("unseen-after")
    day.see(Cue.READY)
    day.pull(160, 150)
    day.run(2.0)
    # As a program that is killed here would leave it.
    shutil.copytree(day.folder, left, ignore=shutil.ignore_patterns("rig"))
    day.let_go()
    day.until(lambda: not day.window.desk.in_set)
    day.run(0.5)
    camera.take("between-sets")
    day.press("Alt+4")


def _lowering(camera: Camera) -> None:
    day = camera.day
    day.press("F5")
    day.see(Cue.READY)
    day.run(0.8)
    camera.take("lowering-entry")
    day.pull(250, 238)
    day.pull(282, 270, over_s=1.5)
    camera.take("lowering")
    day.let_go()
    day.see(Cue.REST)
    day.run(0.8)
    camera.take("lowering-rest")
    day.press("Alt+C")
    day.until(lambda: not day.window.desk.in_set)
    day.press("Alt+5")
    day.press("Alt+V")
    day.click(day.window.mounted.end.days[2])
    day.press("Ctrl+S")
    camera.take("end")
