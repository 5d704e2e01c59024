"""Whether a backup is whole: each checksum is right, and its logbook is in order.

All of it is read. Nothing is written beside it, so that it may be read-only.
"""

from __future__ import annotations

import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

from biofeedback.errors import FileError
from biofeedback.logbook import copy_manifest, folders, snapshot
from biofeedback.logbook import engine as engines
from biofeedback.logbook.copy_manifest import LOGBOOK
from biofeedback.logbook.schema import SCHEMA_REVISION
from biofeedback.phrase import Phrase, phrase

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from biofeedback.logbook.copy_manifest import CopyManifest

NAMED = 5
"""Files that are named where more are wrong."""
ANOTHER = phrase("Nothing was changed. Take another backup.")


def verify(
    folder: Path,
    found: CopyManifest,
    *,
    checked: Callable[[], None],
    next_step: Phrase = ANOTHER,
) -> None:
    """Goes on where a backup is whole.

    Args:
        found: its manifest.
        checked: is called after each file.
        next_step: what to do where it is not.

    Raises:
        FileError: it is not, or its logbook is of a newer version.
    """
    if LOGBOOK not in found.files:
        raise FileError(folder, phrase("this backup holds no logbook."))
    wrong = []
    for name, one in sorted(found.files.items()):
        try:
            told = copy_manifest.checksum(found.path(folder, name))
        except OSError as error:
            wrong.append(f"{name} ({folders.reason(error)})")
        else:
            if told != (one.size_bytes, one.sha256):
                wrong.append(f"{name} (another checksum)")
        checked()
    if wrong:
        more = (
            phrase(" and {number} more", number=len(wrong) - NAMED)
            if len(wrong) > NAMED
            else ""
        )
        raise FileError(
            folder,
            phrase(
                "this backup is not whole: {listed}{more}.",
                listed=", ".join(wrong[:NAMED]),
                more=more,
            ),
            next_step=next_step,
        )
    _check_logbook(found.path(folder, LOGBOOK))


def _check_logbook(path: Path) -> None:
    with (
        engines.faults_in_words(str(path)),
        # Nothing is written beside it, not even a lock: a backup may be read-only.
        closing(
            sqlite3.connect(f"{path.as_uri()}?mode=ro&immutable=1", uri=True)
        ) as raw,
    ):
        snapshot.check_whole(raw, path)
        (revision,) = raw.execute("SELECT version_num FROM alembic_version").fetchone()
    if revision > SCHEMA_REVISION:
        raise FileError(
            path,
            phrase("this logbook was written by a newer version of the program."),
            next_step=phrase("Install the newer version; nothing was changed."),
        )
