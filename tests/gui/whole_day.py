"""A whole visit as it is used: the real window on the simulated rig, by keys.

The rig is served on a pseudo-terminal and opened as a port, so that its cable can be
pulled and put back. Rig, session and window share one clock and are stepped; nothing
is waited for. What pulls on the rig is a script: the force is known at each moment.
Run as a program it is the first part of the visit, up to the middle of a set; whoever
started it then kills it. Athlete, tasks and forces are invented.
"""

from __future__ import annotations

import json
import os
import sys
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

if __name__ == "__main__":
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")  # before Qt is imported

import numpy as np
from PySide6.QtCore import QCoreApplication, QPoint, Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest

from biofeedback.gui.app import application
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.logbook.recorder import FLUSH_S
from biofeedback.rig.serial_source import SerialSource
from biofeedback.rig.serve import RigServer, TerminalLine
from biofeedback.rig.simulated_rig import SimulatedRig
from biofeedback.session import Session
from biofeedback.session.office import Office
from biofeedback.session.recovery import recover
from biofeedback.session.second_start import SEEN_S
from biofeedback.training.athlete import AthleteDetails
from biofeedback.training.feedback import Cue
from biofeedback.training.intensity import Intensity, ToleranceOf
from biofeedback.training.plan import Plan, Stage
from biofeedback.training.planned import PlannedPrescription, SideOrder
from biofeedback.training.prescription import ClockRule
from biofeedback.training.reference import Definition
from biofeedback.training.task import Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    import numpy.typing as npt
    from PySide6.QtWidgets import QWidget

CODE = "INV-7"
STEP_US = 25_000
"""Two samples at 80 Hz for each frame."""
WAIT_MOST_S = 40.0
FACTS = "facts.json"
MID_REP = "in the middle of a rep"
HOLD_S, REST_S = 2.0, 2.5
OUTWARD = Task("Outward hold (invented)", TaskKind.HOLD, Sides.LEFT)
CALF = Task("Seated calf hold (invented)", TaskKind.HOLD, Sides.BOTH)
LOWERING = Task("Slow lowering (invented)", TaskKind.LOWERING, Sides.LEFT)
REFERENCES_N = {
    (OUTWARD.name, Sides.LEFT): 100.0,
    (OUTWARD.name, Sides.RIGHT): 120.0,
    (CALF.name, Sides.BOTH): 240.0,
    (LOWERING.name, Sides.LEFT): 160.0,
    (LOWERING.name, Sides.RIGHT): 180.0,
}
PLANNED = (
    PlannedPrescription(
        OUTWARD,
        Intensity.around(50, 20, ToleranceOf.CENTRE),
        hold_s=HOLD_S,
        reps=2,
        rest_s=REST_S,
        side_order=SideOrder.LEFT_FIRST,
        key="outward",
    ),
    PlannedPrescription(
        CALF,
        Intensity.around(40, 20, ToleranceOf.CENTRE),
        hold_s=HOLD_S,
        reps=3,
        rest_s=REST_S,
        key="calf",
    ),
    PlannedPrescription(
        LOWERING,
        Intensity.at_least(50),
        hold_s=HOLD_S,
        reps=2,
        rest_s=REST_S,
        side_order=SideOrder.LEFT_FIRST,
        clock=ClockRule.RUNNING,
        key="lowering",
    ),
)


class Hand:
    """What pulls on both cells: straight lines between points that are put in."""

    def __init__(self) -> None:
        self.points: list[tuple[float, float, float]] = [(0.0, 0.0, 0.0)]

    def to(self, left_n: float, right_n: float, *, now_s: float, over_s: float) -> None:
        """From wherever it is now to these forces."""
        left, right = self.at(np.array([now_s]))[0]
        self.points = [one for one in self.points if one[0] < now_s]
        self.points += [
            (now_s, float(left), float(right)),
            (now_s + over_s, left_n, right_n),
        ]

    def at(self, times_s: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        """Left and right at these moments, shape (n, 2)."""
        knots_s, left_n, right_n = np.array(self.points).T
        return np.column_stack(
            (np.interp(times_s, knots_s, left_n), np.interp(times_s, knots_s, right_n))
        )

    def forces_n(self, times_us: npt.NDArray[np.int64]) -> npt.NDArray[np.float64]:
        """What the simulated rig asks for."""
        return self.at(times_us / 1e6)


def prepare(
    folder: Path,
    plan: Sequence[PlannedPrescription] = PLANNED,
    references_n: Mapping[tuple[str, Sides], float] = REFERENCES_N,
) -> None:
    """A logbook with an athlete, the tests of yesterday and a plan.

    Args:
        references_n: what the tests found, by task and sides.
    """
    yesterday = datetime.now(tz=UTC) - timedelta(days=1)
    with Logbook.open(folder / "logbook.db") as book:
        athlete_id = book.people.add(AthleteDetails(code=CODE, name="Invented"))
        for planned in plan:
            for sides in planned.side_order.sides(None):
                force_n = references_n[planned.task.name, sides]
                book.maxima.add(
                    NewMaximalTest(
                        athlete_id,
                        planned.task.on_side(sides),
                        yesterday,
                        Definition.BEST_1_S_MEAN,
                        force_n,
                        3,
                        peak_n=1.05 * force_n,
                        one_s_n=force_n,
                    )
                )
        stage = Stage("Invented stage", prescriptions=tuple(plan))
        book.plans.add(athlete_id, Plan("Invented plan", (stage,)))


class WholeDay:
    """The window on the rig, put together as the program does it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.link = folder / "rig"
        self.hand = Hand()
        self.rig = SimulatedRig(seed=5, force=self.hand)
        self.now_ns = 1_000_000_000
        self.server: RigServer | None = None
        self.pressed: list[tuple[float, str]] = []
        self.begun_s: list[float] = []  # by the board, in the order of the sets
        self.plug_in()
        self.book = Logbook.open(folder / "logbook.db")
        recordings = folder / "recordings"
        self.recovered = recover(recordings, self.book)
        reps = sum(found.reps for found in self.recovered)
        self.session = Session(
            SerialSource(str(self.link), clock=self.clock),
            logbook=self.book,
            recordings=recordings,
            athlete_code=CODE,
            clock=self.clock,
        )
        office = Office.of(self.book, recordings, self.session)
        self.window = Window(
            self.session,
            office,
            prescription=office.last_prescription(CODE),
            notice=f"Reps of a set that was cut off: {reps}." if reps else "",
            clock=self.clock,
        )
        self.window.show()
        self.window.activateWindow()
        assert QTest.qWaitForWindowActive(self.window)
        self.until(lambda: self.window.drawn_age_s is not None)

    def clock(self) -> int:
        """Of rig, session and window."""
        return self.now_ns

    # The cable.

    def plug_in(self) -> None:
        """The rig is there under its name."""
        self.line = TerminalLine(link=self.link)
        self.server = RigServer(self.rig, self.line, clock=self.clock)

    def pull_cable(self) -> None:
        """The port is gone; the board goes on by itself."""
        self.server = None
        self.line.close()

    # Time.

    def frame(self) -> None:
        """One step of everything."""
        self.now_ns += 1000 * STEP_US
        if self.server is None:
            self.rig.advance(STEP_US)  # sent to nobody
        else:
            self.server.step()
        self.session.step()
        was_in_set = self.window.desk.in_set
        self.window.frame()
        if self.window.desk.in_set and not was_in_set:
            self.begun_s.append(self.device_s)
        QCoreApplication.processEvents()

    def run(self, seconds: float) -> None:
        """Lets time pass."""
        for _ in range(round(seconds * 1e6 / STEP_US)):
            self.frame()

    def until(self, reached: Callable[[], bool]) -> None:
        """Lets time pass until something is so."""
        for _ in range(round(WAIT_MOST_S * 1e6 / STEP_US)):
            self.frame()
            if reached():
                return
        message = f"it did not come; cue: {self.cue}, desk: {self.told}"
        raise AssertionError(message)

    def see(self, *cues: Cue) -> None:
        """Waits for one of these cues on the athlete's screen."""
        self.until(lambda: self.cue in cues)

    # What a practitioner sees and does.

    @property
    def cue(self) -> Cue:
        """On the athlete's screen."""
        return self.window.screen_part.shown_cue

    @property
    def told(self) -> str:
        """At the foot of the desk, and in the order box."""
        messages, words = self.window.desk.messages, self.window.order.box.words
        seen = (messages.earlier, messages.message, words)
        return " ".join(label.text() for label in seen if label.isVisible())

    @property
    def device_s(self) -> float:
        """Time of the board."""
        return self.rig.now_us / 1e6

    def press(self, key: str) -> None:
        """One key, wherever the focus is; it is acted on by the next frame."""
        self.pressed.append((self.device_s, key))
        focus: QWidget | None = self.window.focusWidget()
        QTest.keySequence(focus or self.window, QKeySequence(key))
        self.run(0.1)

    def click(self, widget: QWidget) -> None:
        """One click."""
        assert widget.isVisible()
        assert widget.isEnabled()
        at = QPoint(widget.height() // 2, widget.height() // 2)  # a tick is at the left
        QTest.mouseClick(widget, Qt.MouseButton.LeftButton, pos=at)
        self.run(0.1)

    # What an athlete does.

    def pull(self, left_n: float, right_n: float, *, over_s: float = 0.5) -> None:
        """Moves both forces there and arrives."""
        self.hand.to(left_n, right_n, now_s=self.device_s, over_s=over_s)
        self.run(over_s)

    def let_go(self) -> None:
        """When told to."""
        self.see(Cue.LET_GO)
        self.pull(0.0, 0.0, over_s=0.3)

    def rep(self, left_n: float, right_n: float) -> None:
        """One rep without anything special."""
        self.see(Cue.READY)
        self.pull(left_n, right_n)
        self.let_go()

    def close(self) -> None:
        """As a practitioner closes the program."""
        self.window.close()
        self.book.close()
        self.line.close()

    def tell(self, place: Path) -> None:
        """Writes down what was done, for whoever checks it."""
        content = {
            "points": self.hand.points,
            "pressed": self.pressed,
            "begun_s": self.begun_s,
        }
        place.write_text(json.dumps(content))


def outward(day: WholeDay) -> None:
    """Left with nudges, an undo and a rep more; right stopped for pain."""
    day.see(Cue.READY)
    day.pull(50, 0)
    day.run(0.6)
    day.press("PgUp")
    day.press("Shift+F1")  # stronger
    day.let_go()
    day.see(Cue.READY)
    day.pull(50, 0)
    day.run(0.4)
    day.press("Ctrl+PgUp")
    day.press("Shift+F4")  # the set-up was changed
    day.press("Alt+Z")
    day.press("Alt+O")
    day.let_go()
    day.rep(52, 0)
    day.until(lambda: not day.window.desk.in_set)
    day.press("Alt+6")
    day.see(Cue.REST)
    day.until(lambda: day.window.desk.in_set)  # the next begins by itself
    day.see(Cue.READY)
    day.pull(0, 60)
    day.run(0.8)
    day.press("Ctrl+7")
    assert "agreed cut of 5" in day.told
    day.press("Esc")
    day.until(lambda: not day.window.desk.in_set)
    day.pull(0, 0, over_s=0.3)
    day.see(Cue.WAIT)
    day.press("Alt+8")
    day.press("Alt+K")


def calf(day: WholeDay) -> None:
    """A lapse and a nudge, a cable that is pulled and put back, and a rep skipped."""
    day.press("F5")
    assert "second start goes on" in day.told  # after the pain
    day.run(SEEN_S)
    day.press("F5")
    day.until(lambda: day.window.desk.in_set)
    day.see(Cue.READY)
    day.pull(50, 46)
    day.run(0.5)
    day.press("PgDown")
    day.press("Shift+F2")  # weaker
    day.pull(30, 28, over_s=0.2)
    day.run(0.7)
    assert day.cue is Cue.MORE
    day.pull(50, 46, over_s=0.2)
    day.let_go()
    day.see(Cue.READY)
    day.pull(49, 45)
    day.run(0.6)
    day.pull_cable()
    day.see(Cue.NO_SIGNAL)
    day.run(0.8)
    day.plug_in()
    day.see(Cue.STAY)
    day.press("Alt+J")
    day.let_go()
    day.until(lambda: not day.window.desk.in_set)
    day.press("Alt+5")


def morning(day: WholeDay) -> None:
    """Up to the middle of the second lowering."""
    day.run(1.0)
    day.press("F7")
    day.run(1.3)
    assert "Zero taken: empty rig" in day.told
    day.press("Alt+D")
    day.click(day.window.mounted.today.now.buttons[1])
    day.press("Ctrl+T")
    day.click(day.window.order.box.auto)
    day.press("F5")
    day.until(lambda: day.window.desk.in_set)
    outward(day)
    calf(day)
    day.until(lambda: day.window.desk.in_set)
    day.rep(110, 0)
    day.see(Cue.READY)
    day.pull(105, 0)
    day.run(0.8)


def afternoon(day: WholeDay) -> None:
    """The program is started again: the visit goes on, and comes to its end."""
    assert "cut off: 2." in day.told
    assert "taken up again" in day.told
    day.press("Alt+R")
    day.press("Alt+Shift+X")
    day.press("F5")
    day.until(lambda: day.window.desk.in_set)
    day.rep(112, 0)
    day.until(lambda: not day.window.desk.in_set)
    day.press("Alt+4")
    day.until(lambda: day.window.desk.in_set)
    day.rep(0, 120)
    day.rep(0, 125)
    day.until(lambda: not day.window.order.on)
    day.press("Alt+5")
    day.press("Alt+V")
    day.click(day.window.mounted.end.days[1])
    day.press("Ctrl+S")


def wait_for_disk(recordings: Path) -> None:
    """Until all that was heard is on the disk; at most its last 0.25 s may be lost.

    The day is stepped faster than its clock, so what a program at its own pace would
    have written long ago may still be in memory.
    """
    sizes: list[int] = []
    since_ns = time.monotonic_ns()
    while time.monotonic_ns() - since_ns < 3 * FLUSH_S * 1e9:
        QCoreApplication.processEvents()
        found = [file.stat().st_size for file in sorted(recordings.iterdir())]
        if found != sizes:
            sizes, since_ns = found, time.monotonic_ns()


if __name__ == "__main__":
    application()
    place = Path(sys.argv[1])
    prepare(place)
    whole = WholeDay(place)
    morning(whole)
    whole.tell(place / FACTS)
    wait_for_disk(place / "recordings")
    sys.stdout.write(f"{MID_REP}\n")
    sys.stdout.flush()
    while True:
        whole.frame()
