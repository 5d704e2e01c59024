"""The live program on a rig in a process of its own, for benches and trials.

A simulated rig writes to a pseudo-terminal, as a board does to its port, and takes none
of the program's time. It tells when its time 0 was on the clock that both processes
share, so that of each sample it is known when it was true.
"""

from __future__ import annotations

import contextlib
import multiprocessing
import subprocess
import sys
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QEventLoop, QTimer

from biofeedback.gui.window import Window
from biofeedback.logbook import recordings
from biofeedback.rig.serial_source import SerialSource
from biofeedback.session import Session
from biofeedback.session.office import Office
from biofeedback.wire.frames import Samples

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from biofeedback.logbook.database import Logbook
    from biofeedback.training.prescription import Prescription

WindowT = TypeVar("WindowT", bound=Window)

SETTLED_S = 2.0
"""Then the path has its scale, and all is laid out."""
_SERVER = """
import sys, threading
from biofeedback.rig.serve import RigServer, TerminalLine
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
values = [float(one) for one in sys.argv[1:]]
settings = RigSettings(channels=2, rate_hz=values[0])
options = {}
%s
line = TerminalLine()
server = RigServer(SimulatedRig(settings, seed=7, force=force), line, **options)
print(line.name, server._origin_ns, flush=True)
server.run(threading.Event())
"""
ATHLETE = """
from biofeedback.rig.effort import Effort
from biofeedback.rig.simulated_athlete import SimulatedAthlete
force = SimulatedAthlete(7)
effort = Effort(centre_n=60.0, half_width_n=6.0, hold_s=10.0, rest_s=5.0, reps=100)
options = {"athlete": force, "effort": effort, "lead_in_s": 1.0}
"""
"""Who pulls on the rig: an invented athlete, without end."""


@contextlib.contextmanager
def served(pulls: str, rate_hz: float, *values: float) -> Iterator[tuple[str, int]]:
    """A rig on a pseudo-terminal: its name, and when its time 0 was, in ns.

    Args:
        pulls: lines of Python that set `force`, as `ATHLETE` does; the rate and
            `values` are in `values`.
    """
    numbers = [f"{one:g}" for one in (rate_hz, *values)]
    with subprocess.Popen(
        [sys.executable, "-c", _SERVER % pulls, *numbers],
        stdout=subprocess.PIPE,
        text=True,
    ) as server:
        assert server.stdout is not None
        name, origin = server.stdout.readline().split()
        try:
            yield name, int(origin)
        finally:
            server.kill()


@contextlib.contextmanager
def busy() -> Iterator[None]:
    """All other cores have something to do."""
    cores = max(1, (multiprocessing.cpu_count() or 2) - 1)
    burning = [
        subprocess.Popen([sys.executable, "-c", "while True: pass"])
        for _ in range(cores)
    ]
    try:
        yield
    finally:
        for one in burning:
            one.kill()
            one.wait()


def run(seconds: float) -> None:
    """The program goes on."""
    loop = QEventLoop()
    QTimer.singleShot(round(1000 * seconds), loop.quit)
    loop.exec()


def opened(
    kind: type[WindowT],
    port: str,
    asked: Prescription,
    *,
    logbook: Logbook,
    records: Path,
) -> tuple[Session, WindowT]:
    """The window on a port, not shown yet."""
    session = Session(
        SerialSource(port), logbook=logbook, recordings=records, athlete_code="A7"
    )
    office = Office.of(logbook, records, session)
    return session, kind(session, office, prescription=asked)


def show(session: Session, window: Window) -> None:
    """The rig is read and the window takes and paints."""
    window.show()
    session.start()
    window.frames.start()


def begin_set(session: Session, window: Window, asked: Prescription) -> None:
    """Shows it, and begins a set once the board is met."""
    show(session, window)
    while window.drawn_age_s is None:
        run(0.05)
    session.begin_set(asked)
    run(SETTLED_S)


def first_us(records: Path) -> int:
    """Device time at which the samples of the only recording begin."""
    found = recordings.read(next(records.rglob("*.force"))).frames()
    return next(frame.time_us for frame in found if isinstance(frame, Samples))
