"""One door for the bytes of a recording, plain or sealed.

Whoever reads a recording gets its ordinary bytes here and need not know which it was.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.errors import FileError, UserError
from biofeedback.logbook.sealed import container, keyring, library
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path
    from typing import BinaryIO

BARREN_MOST_BYTES = 64 * 2**20
"""So much without one sound chunk, and it is read no further, as a plain recording."""


def pieces(
    file: BinaryIO, path: Path, size: int, *, whole: bool = False
) -> Iterator[bytes]:
    """The bytes of a recording from the beginning of an open file, in pieces.

    Args:
        size: about so many are read, and given, at once.
        whole: a sealed one that is damaged is refused at its end, where stand-ins for
            what was lost are not wanted.

    Raises:
        FileError: it is sealed, and by a newer program, or its head is damaged, or
            another part (`whole`), or the file with its key is not here, or the
            passphrase is not known, or the library that opens it is not installed.
        OSError: the file cannot be read.
    """
    first = file.read(max(size, container.HEADS_BYTES))
    if not container.is_sealed(first):
        while first:
            yield first
            first = file.read(size)
        return
    opener = _opener(first, path)
    yield from _opened(file, opener, first, size)
    if whole and opener.damaged:
        raise FileError(
            path,
            phrase("this sealed recording is damaged; a part of it does not open."),
            next_step=phrase("It stays as it is. Put it back from a backup."),
        )


def _opened(
    file: BinaryIO, opener: container.Opener, first: bytes, size: int
) -> Iterator[bytes]:
    data = first[container.HEADS_BYTES :] or file.read(size)
    gathered = bytearray()
    barren_bytes = 0
    while data and barren_bytes < BARREN_MOST_BYTES:
        barren_bytes += len(data)
        for piece in opener.push(data):
            barren_bytes = 0
            gathered += piece
            if len(gathered) >= size:
                yield bytes(gathered)
                gathered.clear()
        data = file.read(size)
    gathered += opener.leave(len(data)) if data else opener.end()
    if gathered:
        yield bytes(gathered)


def is_sealed(path: Path) -> bool:
    """Whether a file is a sealed recording.

    Raises:
        OSError: it cannot be read.
    """
    with path.open("rb") as file:
        return container.is_sealed(file.read(container.HEADS_BYTES))


def _opener(first: bytes, path: Path) -> container.Opener:
    head = container.head_of(first)
    if head is None:
        raise FileError(
            path,
            phrase(
                "this is a sealed recording whose beginning is cut off or damaged; "
                "without it nothing in it can be opened."
            ),
        )
    if head.version > container.VERSION:
        raise FileError(
            path,
            phrase("this recording was sealed by a newer version of the program."),
            next_step=phrase("Install the newer version."),
        )
    try:
        library.require()
    except UserError as error:
        raise FileError(path, error.message, next_step=error.next_step) from error
    return container.Opener(keyring.key_for(head.key_id, path), head.salt)
