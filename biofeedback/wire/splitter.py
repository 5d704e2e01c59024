"""The splitter: passes on whole frames and holds back the rest.

A recording is the board's bytes with the host's own frames between them. Those
may go in at frame borders only, so what is written must always end at one. Feed
the decoder and the recording with what comes out of here, and the replay sees
exactly the bytes that the live run saw.
"""

from __future__ import annotations

import re

from biofeedback.wire.limits import ENCODED_MAX, RECORDING_TYPES_FROM

# The byte after the first COBS code is the type, unless the code is 01 (type 0).
_RECORDING_TYPE = re.compile(
    rb"(?:\A|\0)[\x02-\xff][%c-\xff]" % RECORDING_TYPES_FROM, re.DOTALL
)


class Splitter:
    """Bytes in, whole frames out, as bytes with their delimiters.

    What it gives in all does not depend on how the bytes are cut. It always ends
    with a delimiter, and nothing is changed but this:

    * A run of more than `ENCODED_MAX` bytes without a delimiter can be no frame.
      Its first `ENCODED_MAX` + 1 bytes are passed on, ended by a delimiter of
      the splitter's own, so that the decoder reports it as too long; the rest
      up to the next delimiter is thrown away and counted.
    * With `from_board`, pieces that claim to be recording frames are left out
      and counted: a board may not write into a recording.

    Attributes:
        dropped_bytes: thrown away because they came after too long a run.
        refused: recording frames, sound or not, that came from a board.
    """

    def __init__(self, *, from_board: bool = False) -> None:
        self.dropped_bytes = 0
        self.refused = 0
        self._from_board = from_board
        self._held = bytearray()
        self._dropping = False

    @property
    def held_bytes(self) -> int:
        """How many bytes wait for their delimiter."""
        return len(self._held)

    def push(self, data: bytes) -> bytes:
        """Takes what came and gives all frames that are complete by now."""
        passed = bytearray()
        end = data.rfind(b"\0") + 1
        if end:
            self._held += data[:end]
            if not self._dropping and len(self._held) <= ENCODED_MAX + 1:
                passed += self._held  # the usual case: no run in it can be too long
            else:
                for piece in bytes(self._held[:-1]).split(b"\0"):
                    passed += self._end_run(piece)
            self._held.clear()
        self._held += data[end:]
        passed += self._bound()
        return self._without_recording_frames(bytes(passed))

    def _end_run(self, piece: bytes) -> bytes:
        """What is passed on of the bytes up to a delimiter."""
        if self._dropping:
            self._dropping = False
            self.dropped_bytes += len(piece) + 1
            return b""
        if len(piece) > ENCODED_MAX:
            self.dropped_bytes += len(piece) - ENCODED_MAX
            return piece[: ENCODED_MAX + 1] + b"\0"
        return piece + b"\0"

    def _bound(self) -> bytes:
        """Keeps the beginning of a run short; what is passed on of a long one."""
        passed = b""
        if not self._dropping and len(self._held) > ENCODED_MAX:
            self._dropping = True
            passed = bytes(self._held[: ENCODED_MAX + 1]) + b"\0"
            del self._held[: ENCODED_MAX + 1]
        if self._dropping:
            self.dropped_bytes += len(self._held)
            self._held.clear()
        return passed

    def _without_recording_frames(self, passed: bytes) -> bytes:
        if not self._from_board or not _RECORDING_TYPE.search(passed):
            return passed
        kept = bytearray()
        for piece in passed[:-1].split(b"\0"):
            if _RECORDING_TYPE.match(piece):
                self.refused += 1
            else:
                kept += piece + b"\0"
        return bytes(kept)
