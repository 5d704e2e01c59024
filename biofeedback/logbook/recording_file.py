"""The open file of a recording: what was added is written by `flush`, or kept.

Rules that hold here:

* A byte leaves memory only when the system has taken it. After a failed `flush`
  the next one goes on at that very byte: nothing is doubled, nothing is left out.
* Recording frames stand between frames of the board, never inside one: a 00 is
  put before them where the last byte was none.
* A file that is there is never written over.
* Where it is sealed, a flush makes one chunk of what waits; nothing that was sealed is
  ever sealed anew, also where the disk has refused it.
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from biofeedback.logbook import claims, folders

if TYPE_CHECKING:
    from pathlib import Path

    from biofeedback.logbook.sealed.container import Sealer

NAMES_TRIED = 100
"""Two recordings of one set in one second are a fault of a clock at most."""


class RecordingFile:
    """One recording being written. Belongs to the recorder's thread.

    Args:
        path: where it is to be; a number is added where a file is there already.
        sealer: seals it; None for a plain recording.
    """

    def __init__(self, path: Path, sealer: Sealer | None = None) -> None:
        self._wanted = path
        self._path = path
        self._descriptor: int | None = None
        self._sealer = sealer
        self._added = bytearray()  # not yet sealed
        self._waiting = bytearray(sealer.beginning if sealer else b"")
        self._on_disk = False  # there is no file yet
        self._last = 0  # as if a delimiter had come before

    @property
    def path(self) -> Path:
        """Where the file is; final once a `flush` has been done."""
        return self._path

    @property
    def name(self) -> str:
        """The file's name; final once a `flush` has been done."""
        return self._path.name

    def add(self, data: bytes, *, own: bool) -> None:
        """Takes bytes to be written.

        Args:
            own: they are a recording frame and not the board's.
        """
        into = self._waiting if self._sealer is None else self._added
        if own and self._last != 0:
            into += b"\0"
        if data:
            into += data
            self._last = data[-1]
            self._on_disk = False

    def flush(self) -> None:
        """Writes what waits and has it put on the disk itself.

        Raises:
            OSError: the disk does not take it. One may try again.
            FileError: the folder cannot be made. One may try again.
        """
        if self._on_disk:
            return
        descriptor = self._open()
        if self._sealer is not None:
            self._waiting += self._sealer.sealed(bytes(self._added))
            self._added.clear()
        while self._waiting:
            with memoryview(self._waiting) as view:
                written = os.write(descriptor, view)
            del self._waiting[:written]
        os.fsync(descriptor)
        self._on_disk = True

    def close(self) -> None:
        """Lets go of the file, whatever waits."""
        if self._descriptor is not None:
            os.close(self._descriptor)
            self._descriptor = None

    def _open(self) -> int:
        """The open file; made, or made again where somebody has removed it."""
        if self._descriptor is None:
            self._descriptor = self._create()
        elif os.fstat(self._descriptor).st_nlink == 0:
            # Removed under our hands. What was written can still be read here
            # until the descriptor is closed, so nothing is lost.
            old, new = self._descriptor, self._create()
            try:
                _copy(old, new)
            except OSError:
                os.close(new)
                self._path.unlink(missing_ok=True)
                raise
            self._descriptor = new
            os.close(old)
        return self._descriptor

    def _create(self) -> int:
        folder = folders.make_private(self._wanted.parent)
        for number in range(1, NAMES_TRIED):
            name = self._wanted.name
            if number > 1:
                name = f"{self._wanted.stem}-{number}{self._wanted.suffix}"
            try:
                descriptor = folders.create_file(folder / name, readable=True)
            except FileExistsError:
                continue
            self._path = folder / name
            claims.claim(descriptor)
            folders.sync(folder)
            return descriptor
        raise FileExistsError(17, "A file of this name is there already")


def _copy(old: int, new: int) -> None:
    os.lseek(old, 0, os.SEEK_SET)
    while part := os.read(old, 65_536):
        while part:
            part = part[os.write(new, part) :]
