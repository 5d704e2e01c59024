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
from biofeedback.wire.frames import Damage
from biofeedback.wire.limits import ENCODED_MAX

if TYPE_CHECKING:
    from biofeedback.wire.frames import Frame


class Decoder:
    """Bytes in, frames out.

    Attributes:
        unknown: sound frames of a type that this version does not know; they
            are passed over, as the protocol asks.
    """

    def __init__(self) -> None:
        self.unknown = 0
        self._held = bytearray()  # the beginning of a frame, ENCODED_MAX at most
        self._overflowed = 0  # bytes of a frame that is too long, thrown away

    @property
    def held_bytes(self) -> int:
        """How many bytes wait for their delimiter."""
        return len(self._held)

    def push(self, data: bytes) -> list[Frame | Damage]:
        """Takes what came and gives the frames that it completes, in order."""
        pieces = data.split(b"\0")
        rest = pieces.pop()
        found: list[Frame | Damage] = []
        for piece in pieces:
            outcome = self._end_piece(piece)
            if outcome is not None:
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
