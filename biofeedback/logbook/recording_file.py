"""The open file of a recording: what was added is written by `flush`, or kept.

Rules that hold here:

* A byte leaves memory only when the system has taken it. After a failed `flush`
  the next one goes on at that very byte: nothing is doubled, nothing is left out.
* Recording frames stand between frames of the board, never inside one: a 00 is
  put before them where the last byte was none.
* A file that is there is never written over.
* What was added stays in memory too, up to `HELD_MAX_BYTES`, so that the recording can
  be written whole in another folder, also where the first disk is gone.
* Where it is sealed, a flush makes one chunk of what waits; nothing that was sealed is
  ever sealed anew, also where the disk has refused it.
"""

from __future__ import annotations

import contextlib
import os
from typing import TYPE_CHECKING

from biofeedback.logbook import claims, folders

if TYPE_CHECKING:
    from pathlib import Path

    from biofeedback.logbook.sealed.container import Sealer

HELD_MAX_BYTES = 64 * 2**20
"""Over 110 min of two channels at 1 kHz (9.9 kB/s); a set takes some minutes. Of a
longer one the oldest part is not held: it stands on the first disk alone."""
TRIMMED_BYTES = 2**20
"""Let go at once beyond that, so that not each block moves all that is held."""

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
        self._head = b""  # the header frame, held whatever is let go
        self._held = bytearray()  # all after it
        self._whole = True  # nothing of it was let go
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
        part = b"\0" + data if own and self._last != 0 else data
        if part:
            into += part
            self._hold(part)
            self._last = part[-1]
            self._on_disk = False

    def _hold(self, part: bytes) -> None:
        if not self._head:
            self._head = part
            return
        self._held += part
        if len(self._held) > HELD_MAX_BYTES + TRIMMED_BYTES:
            cut = self._held.find(b"\0", len(self._held) - HELD_MAX_BYTES)
            del self._held[: cut + 1]  # what is left begins with a whole frame
            self._whole = False

    @property
    def begun(self) -> bool:
        """Whether there is a file on a disk."""
        return self._descriptor is not None

    @property
    def whole(self) -> bool:
        """Whether all of it from its beginning is held."""
        return self._whole

    def in_folder(self, folder: Path, sealer: Sealer | None = None) -> RecordingFile:
        """A new file in another folder, of all that is held; its flush writes it.

        This one stays as it is; only one of the two may be gone on with.

        Args:
            sealer: a new one where the recording is sealed.
        """
        other = RecordingFile(folder / self._wanted.name, sealer)
        other._head, other._held = self._head, self._held
        other._whole, other._last = self._whole, self._last
        into = other._waiting if sealer is None else other._added
        into += self._head + self._held
        return other

    def discard(self) -> None:
        """Takes the file away again, as far as it was made."""
        if self._descriptor is not None:
            with contextlib.suppress(OSError):
                self.close()
            self._descriptor = None
            with contextlib.suppress(OSError):
                self._path.unlink()

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
