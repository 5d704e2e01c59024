"""The command line: which command, and what its faults look like.

A module a command; only the one that is asked for is imported, so that the
window and the database are paid for by those who use them. Exit codes: 0 done,
1 something for the person or the rig to put right, 2 the call itself was wrong,
130 stopped by Ctrl-C.
"""

from __future__ import annotations

import argparse
import errno
import importlib
import os
import sys
from typing import TYPE_CHECKING, NamedTuple, Protocol

from biofeedback import __version__
from biofeedback.cli import passphrase
from biofeedback.cli.loading import loading
from biofeedback.errors import BiofeedbackError

if TYPE_CHECKING:
    from collections.abc import Sequence


class Command(NamedTuple):
    """A command: its module, one line of help, an example.

    Attributes:
        opens: whether it may have to open what is sealed.
    """

    module: str
    help: str
    example: str
    opens: bool = False


class CommandModule(Protocol):
    """What each command's module has."""

    def add_arguments(self, parser: argparse.ArgumentParser) -> None:
        """Says what the command takes."""

    def run(self, options: argparse.Namespace) -> int:
        """Does it and returns the exit code."""


WINDOW = "window"
COMMANDS = {
    WINDOW: Command(
        "window",
        "open the window on a rig (this is also what no command does)",
        "biofeedback window --port /dev/ttyUSB0 --athlete A017",
        opens=True,
    ),
    "demo": Command(
        "demo",
        "open the window with the simulated rig and an invented athlete",
        "biofeedback demo --snapshot demo.png",
        opens=True,
    ),
    "ports": Command(
        "ports", "list the serial ports of this machine", "biofeedback ports --json"
    ),
    "simulate": Command(
        "simulate",
        "serve a simulated rig on a pseudo-terminal or a socket",
        "biofeedback simulate --channels 2 --rate 80 --link /tmp/rig",
    ),
    "replay": Command(
        "replay",
        "judge recordings again, by their own rules or by others",
        "biofeedback replay A017_set.force --band 60:96 --hold 10 --json",
        opens=True,
    ),
    "calibrate": Command(
        "calibrate",
        "work out a calibration from known masses or forces, and keep it",
        "biofeedback calibrate points.csv --latitude 52.5 --altitude 40 --save May "
        "--rig SN-17",
    ),
    "health": Command(
        "health",
        "check how good the rig is, and say what to do",
        "biofeedback health /dev/ttyUSB0 --seconds 20",
    ),
    "import": Command(
        "import_table",
        "make a recording of a table of forces",
        "biofeedback import old.csv --rate 100 --unit N --columns 2,3 -o old.force",
    ),
    "tune": Command(
        "tune",
        "replay recordings through candidate filters, and recommend one",
        "biofeedback tune recordings/ --band 60:96 --json",
        opens=True,
    ),
    "export": Command(
        "export",
        "write reps and samples as CSV, Parquet, EDF+ or BIDS",
        "biofeedback export season --format csv,edf --athlete A017 --from 2026-09-01",
        opens=True,
    ),
    "report": Command(
        "report",
        "write a report on an athlete for athlete and clinician, as PDF or PNG",
        "biofeedback report A017 --since 2026-09-01 --output A017.pdf",
        opens=True,
    ),
    "backup": Command(
        "backup",
        "copy all that is kept to a folder; the next time only what changed",
        "biofeedback backup /media/disk/biofeedback",
    ),
    "restore": Command(
        "restore",
        "put a backup back, once its checksums are found right",
        "biofeedback restore /media/disk/biofeedback",
    ),
    "rebuild": Command(
        "rebuild",
        "make a new logbook from the recordings, where the old one is broken",
        "biofeedback rebuild",
        opens=True,
    ),
    "erase": Command(
        "erase",
        "erase all of one athlete, here and in the backups that are known",
        "biofeedback erase A017",
        opens=True,
    ),
    "audit": Command(
        "audit",
        "tell who opened, gave out, restored and erased what, and when",
        "biofeedback audit --code A017",
    ),
    "seal": Command(
        "seal",
        "encrypt names and recordings by a passphrase; change that passphrase",
        "biofeedback seal",
        opens=True,
    ),
    "unseal": Command(
        "unseal",
        "encrypt names and recordings no more",
        "biofeedback unseal",
        opens=True,
    ),
    "licences": Command(
        "licences",
        "list the packages the program is built on, with their licences",
        "biofeedback licences --json",
    ),
    "agree": Command(
        "agree",
        "tell how well repeated scores of people agree, and what change is noise",
        "biofeedback agree scores.csv --unit N",
    ),
    "compare": Command(
        "compare",
        "hold isometric against eccentric force in a group of athletes",
        "biofeedback compare pairs.csv --json",
    ),
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs one command and returns the exit code."""
    try:
        code = _main(arguments)
        sys.stdout.flush()  # what cannot be written is to be known here
    except BrokenPipeError:
        # Whoever read the answer has seen enough, as with `| head`.
        _answer_no_more()
        return 0
    except OSError as error:
        if error.errno != errno.ENOSPC:
            raise
        _answer_no_more()
        print("biofeedback: the disk is full.", file=sys.stderr)
        return 1
    return code


def _answer_no_more() -> None:
    """What is still to be written would fail again when the program ends."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _main(arguments: Sequence[str] | None) -> int:
    words = list(sys.argv[1:] if arguments is None else arguments)
    if words[:1] in (["-h"], ["--help"]):
        print(_overview())
        return 0
    if words[:1] == ["--version"]:
        print(f"biofeedback {__version__}")
        return 0
    if not words or words[0].startswith("-"):
        words.insert(0, WINDOW)
    if words[0] not in COMMANDS:
        print(f"biofeedback: there is no command “{words[0]}”.", file=sys.stderr)
        print(_overview(), file=sys.stderr)
        return 2
    return _run_told(words[0], words[1:])


def _run_told(name: str, rest: list[str]) -> int:
    """Runs a command; faults that can be foreseen are told in words."""
    try:
        return _run(name, rest)
    except BiofeedbackError as error:
        print(f"biofeedback {name}: {_printable(str(error))}", file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        return 130


def _printable(words: str) -> str:
    """Words that may quote a file, without any orders to the terminal."""
    return "".join(one if one.isprintable() or one == "\n" else "�" for one in words)


def _run(name: str, rest: list[str]) -> int:
    command = COMMANDS[name]
    with loading():
        module: CommandModule = importlib.import_module(
            f"biofeedback.cli.{command.module}"
        )
    parser = argparse.ArgumentParser(
        prog=f"biofeedback {name}",
        description=command.help[0].upper() + command.help[1:] + ".",
        epilog=f"example: {command.example}",
    )
    module.add_arguments(parser)
    if not command.opens:
        return module.run(parser.parse_args(rest))
    passphrase.add_arguments(parser)
    options = parser.parse_args(rest)
    with passphrase.asked_by(options):
        return module.run(options)


def _overview() -> str:
    lines = [
        "usage: biofeedback [COMMAND] [OPTIONS]",
        "",
        "Live feedback for a load-cell rig. Without a command it opens the window.",
        "",
        *(f"  {name:<10} {command.help}" for name, command in COMMANDS.items()),
        "",
        "biofeedback COMMAND --help tells what a command takes, with an example.",
    ]
    return "\n".join(lines)
