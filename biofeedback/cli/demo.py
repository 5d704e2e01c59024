"""`biofeedback demo`: the window with the simulated rig and an invented athlete.

Nobody's data: it keeps a logbook and recordings of its own, beside the real ones.
"""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

from biofeedback.cli import places, window
from biofeedback.cli.values import seed
from biofeedback.logbook import folders
from biofeedback.session import demo, demo_content

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from pathlib import Path

    from biofeedback.logbook.database import Logbook
    from biofeedback.training.prescription import Prescription


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument(
        "--seed", type=seed, default=7, help="another athlete for each (default: 7)"
    )
    parser.add_argument(
        "--channels", type=int, choices=(1, 2), default=2, help="load cells"
    )
    parser.add_argument(
        "--rate", type=float, default=80.0, metavar="HZ", help="samples per second"
    )
    window.add_view_arguments(parser)
    places.add_arguments(parser)


def run(options: Namespace) -> int:
    """Opens the demo."""
    window.require_screen(options)
    source = demo.source(
        seed=options.seed, channels=options.channels, rate_hz=options.rate
    )
    return window.open_window(
        source,
        options,
        athlete_code=demo.ATHLETE_CODE,
        athlete_name=demo.ATHLETE_NAME,
        base=folders.data_folder() / "demo",
        prepare=_prepare,
    )


def _prepare(logbook: Logbook, recordings: Path) -> Prescription:
    """Fills an empty logbook with invented content; its plan says what is asked."""
    demo_content.fill(logbook, recordings, now=datetime.now(tz=UTC))
    return demo_content.prescription(logbook)
