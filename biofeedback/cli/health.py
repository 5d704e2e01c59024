"""`biofeedback health`: how good the rig is, and what to do where it is not.

Answers go to standard output, prompts and progress to standard error. The exit
code is 0 only where all verdicts are good.
"""

from __future__ import annotations

import json
import sys
import textwrap
import time
from argparse import ArgumentTypeError
from contextlib import ExitStack
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.cli import window
from biofeedback.cli.replay import band
from biofeedback.errors import FieldError
from biofeedback.logbook import folders
from biofeedback.logbook.database import Logbook
from biofeedback.phrase import phrase
from biofeedback.rig.check import SECONDS, Check, HealthReport
from biofeedback.rig.profile_choice import KnownBoards
from biofeedback.rig.serial_source import BAUD, SerialSource
from biofeedback.rig.weigh import known_mass_kg
from biofeedback.rig.worker import Worker
from biofeedback.training.prescription import Prescription
from biofeedback.training.task import Task

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from biofeedback.conditioning.profile import Calibration
    from biofeedback.rig.calibration_watch import CalibrationsFor

NAME_WIDTH = 13
BY_PLACE = phrase("after the command, as in “biofeedback health /dev/ttyUSB0”")


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument(
        "port",
        nargs="?",
        metavar="PORT",
        help="name of the port, or a URL such as socket://host:port "
        "(default: the only USB port there is)",
    )
    parser.add_argument(
        "--baud", type=int, default=BAUD, help=f"bits per second (default: {BAUD})"
    )
    parser.add_argument(
        "--seconds",
        type=run_seconds,
        default=SECONDS,
        metavar="S",
        help=f"length of the run at rest, 2 to 600 (default: {SECONDS:g})",
    )
    parser.add_argument(
        "--no-press", action="store_true", help="do not ask for a press on each cell"
    )
    parser.add_argument(
        "--mass",
        type=mass,
        metavar="KG",
        help="ask for a known mass on each cell: it tells wrong units, signs and sides",
    )
    parser.add_argument(
        "--band",
        type=band,
        metavar="LO:HI",
        help="hold the noise against this band in newtons too",
    )
    parser.add_argument(
        "--logbook",
        metavar="PLACE",
        help="file or database URL with the calibrations (default: in your data "
        "folder, where there is one)",
    )
    parser.add_argument("--json", action="store_true", help="a JSON object")


def run(options: Namespace) -> int:
    """Checks the rig."""
    source = SerialSource(options.port or window.only_port(BY_PLACE), baud=options.baud)
    check = Check(
        seconds=options.seconds,
        presses=not options.no_press,
        prescription=Prescription(Task("health check"), options.band, hold_s=10.0)
        if options.band
        else None,
        mass_kg=options.mass,
    )
    with ExitStack() as stack:
        known = KnownBoards(_calibrations(options.logbook, stack))
        worker = Worker(source, known=known)
        # Turn by turn, without a thread: each read is seen when it was made.
        stack.callback(worker.stop)
        teller = _Teller()
        while not check.done:
            worker.step()
            check.push(worker.handoff.take(), now_ns=time.monotonic_ns())
            teller.tell(check)
        teller.end()
    report = check.report()
    if options.json:
        print(json.dumps(report.to_json(), allow_nan=False))
    else:
        print(as_text(report))
    return 0 if report.good else 1


def as_text(report: HealthReport) -> str:
    """A line or two for each verdict, for people."""
    lines = [f"{report.source}: {report.found or 'nothing found'}"]
    if not report.found:
        lines += _indented("→ `biofeedback ports` lists the ports that are there.")
    for one in report.verdicts:
        lines.append(f"{one.name:<{NAME_WIDTH}} {one.state.value}")
        lines += _indented(one.found)
        if one.advice:
            lines += _indented(f"→ {one.advice}")
    return "\n".join([*lines, report.summary()])


def _indented(text: str) -> list[str]:
    return textwrap.wrap(text, 76, initial_indent="    ", subsequent_indent="    ")


def run_seconds(text: str) -> float:
    """The length of a run."""
    try:
        seconds = float(text)
    except ValueError:
        seconds = 0.0
    if not 2 <= seconds <= 600:
        raise ArgumentTypeError(f"“{text}” must be seconds, 2 to 600")
    return seconds


def mass(text: str) -> float:
    """A known mass in kg."""
    try:
        return known_mass_kg(float(text))
    except ValueError:
        raise ArgumentTypeError(f"“{text}” must be a mass in kg") from None
    except FieldError as error:
        raise ArgumentTypeError(str(error)) from None


def _calibrations(place: str | None, stack: ExitStack) -> CalibrationsFor | None:
    """The newest calibrations of a logbook; none is made where there is none."""
    path = place or folders.default_logbook()
    if isinstance(path, Path) and not path.exists():
        return None
    calibrations = stack.enter_context(Logbook.open(path, shut=True)).calibrations

    def calibrations_for(
        serial_number: str, channel: int, gain: int | None, /
    ) -> Calibration | None:
        found = calibrations.fitting(serial_number, channel, gain)
        return found.calibration if found else None

    return calibrations_for


class _Teller:
    """Prompts and progress on standard error: a line that changes on a screen."""

    def __init__(self) -> None:
        self._told = ""
        self._on_screen = sys.stderr.isatty()

    def tell(self, check: Check) -> None:
        """What is to be done now, where that is new."""
        if check.done:
            return
        words = check.prompt
        if self._on_screen:
            words = f"[{100 * check.progress:3.0f} %] {words}"
            if words != self._told:
                print(f"\r\x1b[K{words}", end="", file=sys.stderr, flush=True)
        else:
            words = words.partition(":")[0]
            if words != self._told:
                print(words, file=sys.stderr, flush=True)
        self._told = words

    def end(self) -> None:
        """Leaves the line."""
        if self._on_screen:
            print("\r\x1b[K", end="", file=sys.stderr, flush=True)
