"""Copies in the clear: folders put aside and backups in which something is not sealed.

Each copy is asked itself. A key file in it says little: it stays after `unseal` too.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.errors import FileError
from biofeedback.logbook.audit import Action
from biofeedback.logbook.copy_manifest import LOGBOOK, RECORDINGS
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.logbook.sealed import key_file, lock, reading

if TYPE_CHECKING:
    from collections.abc import Iterator


def clear_copies(place: KeptPlace) -> Iterator[Path]:
    """The folders of the copies of a place that are in the clear, as far as known."""
    with Logbook.open(place.logbook, shut=True) as logbook:
        kept = (Action.BACKED_UP, Action.RESTORED)
        rows = logbook.audit.list(actions=kept, limit=100_000)
    known = [Path(each) for each in sorted({row.place for row in rows if row.place})]
    names = place.logbook.name, place.recordings.name
    copies = [
        *(
            KeptPlace(each / names[0], each / names[1])
            for each in place.aside_folders()
        ),
        *(KeptPlace(each / LOGBOOK, each / RECORDINGS) for each in known),
    ]
    yield from (copy.base for copy in copies if in_the_clear(copy))


def in_the_clear(copy: KeptPlace) -> bool:
    """Whether something in a copy is not sealed, or cannot be asked whether it is."""
    try:
        # Where something damaged had to stay sealed, a logbook that was opened again
        # goes on naming its key; the key file says that it was opened.
        keys = key_file.read(copy.keys) if copy.keys.exists() else None
        plain = not lock.says_sealed(copy.logbook) or (keys and not keys.sealing)
        if copy.logbook.exists() and plain:
            return True
        return not all(map(reading.is_sealed, copy.recording_files()))
    except (FileError, OSError):
        return True
