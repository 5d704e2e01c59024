"""Options that several commands share: where the logbook and recordings are."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.errors import FileError
from biofeedback.logbook import folders
from biofeedback.logbook.kept_place import kept_place
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from biofeedback.logbook.kept_place import KeptPlace


def add_logbook(parser: ArgumentParser) -> None:
    """`--logbook`."""
    parser.add_argument(
        "--logbook",
        metavar="PLACE",
        help="file or database URL (default: in your data folder)",
    )


def add_arguments(parser: ArgumentParser) -> None:
    """`--logbook` and `--recordings`."""
    add_logbook(parser)
    parser.add_argument(
        "--recordings",
        type=Path,
        metavar="FOLDER",
        help="folder of the recordings (default: in your data folder)",
    )


def known_logbook(place: str | None) -> str | Path:
    """Where the logbook is: none is made where there is none.

    Raises:
        FileError: there is none.
    """
    path = place or folders.default_logbook()
    missing = not ("://" in str(path) or Path(path).expanduser().exists())
    if missing:
        raise FileError(
            path,
            phrase("there is no logbook."),
            next_step=phrase("Name it with --logbook."),
        )
    return path


def kept(options: Namespace) -> KeptPlace:
    """Logbook and recordings, neither of which need be there.

    Raises:
        UserError: the logbook is on a server.
    """
    return kept_place(
        options.logbook or folders.default_logbook(),
        options.recordings or folders.default_recordings(),
    )


def recordings_folder(options: Namespace, *, base: Path) -> Path:
    """Where the recordings go, made where it is missing.

    Raises:
        FileError: it cannot be made.
    """
    chosen: Path | None = options.recordings
    return folders.make_private(chosen or folders.default_recordings(base))
