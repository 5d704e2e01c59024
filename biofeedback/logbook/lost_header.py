"""Whether a file that SQLite does not take for a database was a logbook before.

A disk that fails, or a copy that was cut off, may take the first bytes of a logbook. To
its owner that is a damaged logbook and not "a file of another kind".
"""

from __future__ import annotations

import contextlib
from pathlib import Path

from biofeedback.logbook import folders

_MAGIC = b"SQLite format 3\x00"
"""How each SQLite 3 file begins: https://www.sqlite.org/fileformat2.html, 1.3."""
_LIKE = 6
"""As many of these bytes in a row tell where it began so once."""
_SCHEMA = b"alembic_version"
"""A table of each logbook; its name stands in the clear within the first pages."""
_LOOKED_AT = 256 * 1024


def was_logbook(place: str) -> bool:
    """Whether the file at a place looks like what is left of a logbook.

    Args:
        place: path of the file; anything else is none.
    """
    path = Path(place)
    with contextlib.suppress(OSError, RuntimeError, ValueError):
        if path.resolve() == folders.default_logbook().resolve():
            return path.exists()
        with path.open("rb") as opened:
            first = opened.read(_LOOKED_AT)
        beside = path.with_name(f"{path.name}-wal")
        return (
            first.startswith(_MAGIC[:_LIKE])
            or _MAGIC[_LIKE:] in first[: len(_MAGIC)]
            or _SCHEMA in first
            or beside.exists()
        )
    return False
