"""The folder of the last file that was saved or opened, kept across starts.

It belongs to this computer, beside the preferences. Nothing depends on it: what cannot
be read or written is left at that.
"""

from __future__ import annotations

import logging
from pathlib import Path

from biofeedback.logbook import folders

FILE_NAME = "last-folder"
PATH_MAX = 4096
"""Longest path that systems take in common; more is no name of a folder."""

_log = logging.getLogger(__name__)


def read() -> Path | None:
    """What was kept; None where nothing was, or it is no folder's name."""
    try:
        with (folders.data_folder() / FILE_NAME).open(encoding="utf-8") as file:
            words = file.read(PATH_MAX).strip()
        found = Path(words)  # a name that is too long raises when it is looked for
        return found if found.is_absolute() and found.is_dir() else None
    except (OSError, ValueError):
        return None


def keep(folder: Path) -> None:
    """Keeps it for the next start."""
    try:
        path = folders.data_folder() / FILE_NAME
        path.parent.mkdir(parents=True, exist_ok=True)
        folders.write_whole(path, f"{folder.absolute()}\n".encode())
    except (OSError, ValueError):
        _log.info("the folder of the last file was not kept")
