"""The decoder: bytes as they come, frames as they are complete.

Rules that hold here:

* It never raises, whatever comes, and holds at most one frame's worth of bytes.
* What it gives does not depend on how the bytes are cut.
* After damage it goes on at the next delimiter. Nothing is guessed or mended.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from biofeedback.wire import cobs
from biofeedback.wire.codec import decode_packed
from biofeedback.wire.frames import Damage, FrameType
from biofeedback.wire.limits import ENCODED_MAX
from biofeedback.wire.run import Run, find_runs, together
from biofeedback.wire.samples_payload import Packed

if TYPE_CHECKING:
    from biofeedback.wire.frames import Frame

MANY_BYTES = 2048
"""A live line brings less at once, in a few frames that are looked at one by one."""
SAMPLES_BEGIN = bytes((FrameType.SAMPLES,))
"""Second byte of an encoded frame: the type, which is never 00, after COBS' code."""


class Decoder:
    """Bytes in, frames out.

    Args:
        samples: whether frames of samples are wanted; else they are passed over
            unread, and whether they are sound is not looked at.

    Attributes:
        unknown: sound frames of a type that this version does not know; they
            are passed over, as the protocol asks.
        passed_over: frames of samples that were not wanted.
    """

    def __init__(self, *, samples: bool = True) -> None:
        self.unknown = 0
        self.passed_over = 0
        self._samples = samples
        self._held = bytearray()  # the beginning of a frame, ENCODED_MAX at most
        self._overflowed = 0  # bytes of a frame that is too long, thrown away

    @property
    def held_bytes(self) -> int:
        """How many bytes wait for their delimiter."""
        return len(self._held)

    def push(self, data: bytes) -> list[Frame | Damage]:
        """Takes what came and gives the frames that it completes, in order."""
        found: list[Frame | Damage] = []
        for one in self.push_runs(data):
            if isinstance(one, Run):
                found.extend(one.frames())
            else:
                found.append(one)
        return found

    def push_runs(self, data: bytes) -> list[Frame | Damage | Run]:
        """The same, and frames of samples that look alike together, and quicker."""
        if self._samples and len(data) > MANY_BYTES:
            return self._push_many(data)
        if data == bytes(len(data)):
            data = data[:1]  # a zeroed end of a file: one delimiter says as much
        pieces = data.split(b"\0")
        rest = pieces.pop()
        if not self._samples:
            # Not the first, which may go on with what is held.
            wanted = [one for one in pieces[1:] if one[1:2] != SAMPLES_BEGIN]
            self.passed_over += max(0, len(pieces) - 1) - len(wanted)
            pieces[1:] = wanted
        found = self._few(pieces)
        self._hold(rest)
        return found

    def _few(self, pieces: list[bytes]) -> list[Frame | Damage | Run]:
        """Frames one by one; the samples of those that look alike are read at once."""
        found: list[Frame | Damage | Run] = []
        alike: list[Packed] = []
        for piece in pieces:
            outcome = self.end_piece(piece)
            if isinstance(outcome, Packed):
                if self._samples:
                    alike.append(outcome)
            elif outcome is not None:
                found += together(alike)
                alike.clear()
                found.append(outcome)
        found += together(alike)
        return found

    def _push_many(self, data: bytes) -> list[Frame | Damage | Run]:
        """So many frames that those of samples are worth to be looked at at once."""
        whole = np.frombuffer(data, np.uint8)
        ends = np.flatnonzero(whole == 0)
        if not len(ends):
            self._hold(data)
            return []
        if len(ends) == len(data):
            data, ends = data[:1], ends[:1]
        # The first may go on with what is held; the others stand for themselves.
        starts, sizes = ends[:-1] + 1, np.diff(ends) - 1
        runs = find_runs(whole, starts, sizes)
        found = self._few([data[: ends[0]]])
        number = 0
        places = ends.tolist()
        while number < len(starts):
            one = runs.get(number)
            if one is None:
                found += self._few([data[places[number] + 1 : places[number + 1]]])
            else:
                found.append(one)
            number += len(one) if isinstance(one, Run) else 1
        self._hold(data[places[-1] + 1 :])
        return found

    def _hold(self, rest: bytes) -> None:
        """Keeps the beginning of a frame, or only its length if it is too long."""
        if self._overflowed or len(self._held) + len(rest) > ENCODED_MAX:
            self._overflowed += len(self._held) + len(rest)
            self._held.clear()
        elif rest:
            self._held += rest

    def end_piece(self, piece: bytes) -> Frame | Packed | Damage | None:
        """What the bytes up to a delimiter are; the samples of a frame are not read.

        Args:
            piece: without the delimiter.

        Returns:
            None where there is nothing, or a frame of a type that is not known.
        """
        if self._overflowed or len(self._held) + len(piece) > ENCODED_MAX:
            size = self._overflowed + len(self._held) + len(piece)
            self._overflowed = 0
            self._held.clear()
            return Damage(size, "too long")
        if self._held:
            piece = bytes(self._held) + piece
            self._held.clear()
        if not piece:
            return None
        inner = cobs.decode(piece)
        if inner is None:
            return Damage(len(piece), "framing")
        outcome = decode_packed(inner)
        if outcome is None:
            self.unknown += 1
        elif isinstance(outcome, Damage):
            return Damage(len(piece), outcome.reason)
        return outcome
