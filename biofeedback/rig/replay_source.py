"""A recording as a source: the board's frames again, at the board's own pace.

What the program wrote into the recording (header, events, close) is left out:
a replay as a source is a board that does again what a board once did. To work out
a recording's own reps again, with its zero and its nudges, read it with the chain
instead.
"""

from __future__ import annotations

import threading
import time
from typing import TYPE_CHECKING, BinaryIO

from biofeedback.errors import FileError
from biofeedback.phrase import phrase
from biofeedback.rig.source import SourceEnded
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Close, Event, Header, Identity, Samples
from biofeedback.wire.splitter import Splitter
from biofeedback.wire.timeline import Timeline

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path
    from typing import TypeAlias

    from biofeedback.wire.frames import Damage, Frame

    Pieces: TypeAlias = Callable[[BinaryIO, Path, int], Iterator[bytes]]

READ_WAIT_S = 0.02
CHUNK_BYTES = 8192
"""Read from the file at a time: some seconds of an 80 Hz board."""
FRAMES_PER_READ = 64
"""As fast as asked, a read still gives no more than this."""


class ReplaySource:
    """Gives a recording's device frames.

    Args:
        path: the recording.
        speed: 1 for the pace at which it was recorded, 2 for twice that; None
            for as fast as it is read.
        clock: monotonic nanoseconds.
        pieces: gives the bytes of an open file of about this size at once; None
            for a file as it is. A sealed recording is opened by it.
    """

    def __init__(
        self,
        path: Path,
        *,
        speed: float | None = 1.0,
        clock: Callable[[], int] = time.monotonic_ns,
        pieces: Pieces | None = None,
    ) -> None:
        self._path = path
        self._pieces = pieces or _plain
        self._bytes: Iterator[bytes] = iter(())
        self._speed = speed
        self._clock = clock
        self._file: BinaryIO | None = None
        self._cancelled = threading.Event()
        self._reset()

    def _reset(self) -> None:
        self._splitter = Splitter()
        self._decoder = Decoder()
        self._timeline = Timeline()
        self._queue: list[tuple[float, bytes]] = []  # due at, frame
        self._due_s = 0.0
        self._started_ns: int | None = None
        self._found = ""

    @property
    def name(self) -> str:
        """The file's name."""
        return self._path.name

    @property
    def found(self) -> str:
        """Which board was recorded."""
        return self._found

    @property
    def paced(self) -> bool:
        """A recording is never the force of now."""
        return False

    def open(self) -> None:
        """Opens the recording at its beginning.

        Raises:
            FileError: it cannot be read or is no recording.
        """
        self.close()
        self._reset()
        self._cancelled.clear()
        try:
            self._file = self._path.open("rb")
            self._bytes = self._pieces(self._file, self._path, CHUNK_BYTES)
            first = next(self._bytes, b"")
        except OSError as error:
            self.close()
            raise FileError(
                self._path,
                phrase("cannot be read: {strerror}.", strerror=error.strerror),
            ) from error
        if not first:
            self.close()
            raise FileError(self._path, phrase("is empty."))
        self._take(first)

    def read(self) -> bytes:
        """The frames that are due.

        Raises:
            SourceEnded: after the last frame.
            FileError: the file cannot be read any more.
        """
        while not self._queue:
            self._refill()
        if self._speed is None:
            due, self._queue = (
                self._queue[:FRAMES_PER_READ],
                self._queue[FRAMES_PER_READ:],
            )
            return b"".join(frame for _, frame in due)
        wait_s = self._queue[0][0] - self._elapsed_s(self._speed)
        if wait_s > 0:
            self._cancelled.wait(min(wait_s / self._speed, READ_WAIT_S))
            self._cancelled.clear()
        return self._due(self._elapsed_s(self._speed))

    def write(self, data: bytes) -> None:
        """A recording cannot be told anything."""

    def cancel(self) -> None:
        """Ends a waiting read at once; safe from another thread."""
        self._cancelled.set()

    def close(self) -> None:
        """Closes the file."""
        if self._file is not None:
            self._file.close()
            self._file = None

    def _elapsed_s(self, speed: float) -> float:
        """Device time that has gone by since the first read."""
        if self._started_ns is None:
            self._started_ns = self._clock()
        return (self._clock() - self._started_ns) / 1e9 * speed

    def _due(self, elapsed_s: float) -> bytes:
        count = 0
        while count < len(self._queue) and self._queue[count][0] <= elapsed_s:
            count += 1
        due, self._queue = self._queue[:count], self._queue[count:]
        return b"".join(frame for _, frame in due)

    def _refill(self) -> None:
        try:
            data = next(self._bytes, b"") if self._file is not None else b""
        except OSError as error:
            raise FileError(
                self._path,
                phrase("cannot be read: {strerror}.", strerror=error.strerror),
            ) from error
        if not data:
            raise SourceEnded
        self._take(data)

    def _take(self, data: bytes) -> None:
        """Puts whole frames into the queue, each with the time it is due."""
        for piece in self._splitter.push(data).split(b"\0")[:-1]:
            for frame in self._decoder.push(piece + b"\0"):
                if not isinstance(frame, Header | Event | Close):
                    self._note(frame)
                    self._queue.append((self._due_s, piece + b"\0"))

    def _note(self, frame: Frame | Damage) -> None:
        """Learns from a frame when it and those after it are due."""
        if isinstance(frame, Samples):
            times_s = self._timeline.place(frame).time_s
            if len(times_s):
                # A board sends a frame when its last sample is there.
                self._due_s = max(self._due_s, float(times_s[-1]))
        elif isinstance(frame, Identity):
            self._found = phrase(
                "recorded from {adc} board {serial_number}",
                adc=frame.adc,
                serial_number=frame.serial_number,
            )


def _plain(file: BinaryIO, _path: Path, size: int) -> Iterator[bytes]:
    while data := file.read(size):
        yield data
