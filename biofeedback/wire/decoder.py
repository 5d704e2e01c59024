"""The decoder: bytes as they come, frames as they are complete.

Rules that hold here:

* It never raises, whatever comes, and holds at most one frame's worth of bytes.
* What it gives does not depend on how the bytes are cut.
* After damage it goes on at the next delimiter. Nothing is guessed or mended.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.wire import cobs
from biofeedback.wire.codec import decode
from biofeedback.wire.frames import Damage, Samples
from biofeedback.wire.limits import ENCODED_MAX
from biofeedback.wire.side_by_side import LEAST, SAMPLES_BEGIN, decode_many

if TYPE_CHECKING:
    from biofeedback.wire.frames import Frame

MANY = 2 * LEAST
"""A live line brings fewer frames at once; they are decoded one by one."""


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
        if data == bytes(len(data)):
            data = data[:1]  # a zeroed end of a file: one delimiter says as much
        pieces = data.split(b"\0")
        rest = pieces.pop()
        if not self._samples:
            # Not the first, which may go on with what is held.
            wanted = [one for one in pieces[1:] if one[1:2] != SAMPLES_BEGIN]
            self.passed_over += max(0, len(pieces) - 1) - len(wanted)
            pieces[1:] = wanted
        found: list[Frame | Damage] = []
        # The first may go on with what is held; the others stand for themselves.
        known = decode_many(pieces[1:]) if len(pieces) > MANY else {}
        for index, piece in enumerate(pieces, start=-1):
            outcome = known.get(index) or self._end_piece(piece)
            if outcome is not None and (
                self._samples or not isinstance(outcome, Samples)
            ):
                found.append(outcome)
        self._hold(rest)
        return found

    def _hold(self, rest: bytes) -> None:
        """Keeps the beginning of a frame, or only its length if it is too long."""
        if self._overflowed or len(self._held) + len(rest) > ENCODED_MAX:
            self._overflowed += len(self._held) + len(rest)
            self._held.clear()
        elif rest:
            self._held += rest

    def _end_piece(self, piece: bytes) -> Frame | Damage | None:
        """What the bytes up to a delimiter are; None where there is nothing."""
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
        outcome = decode(inner)
        if outcome is None:
            self.unknown += 1
        elif isinstance(outcome, Damage):
            return Damage(len(piece), outcome.reason)
        return outcome
