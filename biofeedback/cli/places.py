"""Options that several commands share: where the logbook and recordings are."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.logbook import folders

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def add_arguments(parser: ArgumentParser) -> None:
    """`--logbook` and `--recordings`."""
    parser.add_argument(
        "--logbook",
        metavar="PLACE",
        help="file or database URL (default: in your data folder)",
    )
    parser.add_argument(
        "--recordings",
        type=Path,
        metavar="FOLDER",
        help="folder of the recordings (default: in your data folder)",
    )


def recordings_folder(options: Namespace, *, base: Path) -> Path:
    """Where the recordings go, made where it is missing.

    Raises:
        FileError: it cannot be made.
    """
    chosen: Path | None = options.recordings
    return folders.make_private(chosen or folders.default_recordings(base))
