"""The introduction: who is at the other end of a port that was just opened.

Bytes in, frames out; no port, and the time is handed in. Opening a port resets
many boards, so a board is asked who it is again and again for 3 s. Until it is
known what speaks there, nothing is passed on and nothing thrown away. A board
that speaks the protocol is then passed on as it is; what a plain board prints is
turned into frames.
"""

from __future__ import annotations

from dataclasses import replace
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import RigError
from biofeedback.phrase import phrase
from biofeedback.wire.codec import encode
from biofeedback.wire.commands import HANDSHAKE_S, REPEAT_S
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Damage, Identify, Identity
from biofeedback.wire.text_lines import TextLines

if TYPE_CHECKING:
    from biofeedback.wire.frames import Frame, Samples

HELD_MAX = 500_000
"""Bytes kept while asking: more than 3 s at 1 Mbaud."""
PRINTABLE_SHARE = 0.9
"""Text from a plain board is printable but for a damaged byte here and there; of
the bytes that a wrong baud rate makes, two thirds are not."""


class Speaks(Enum):
    """What is at the other end."""

    UNKNOWN = "unknown"
    FRAMES = "frames"
    LINES = "lines"


class Introduction:
    """Finds out who speaks, and lets it speak from then on.

    Args:
        port: its name, for people.
        baud: its speed, for people.
        ask_s: how long to go on asking who the board is.
        now_s: when the port was opened.

    Attributes:
        speaks: what is at the other end, as far as it is known.
    """

    def __init__(
        self, port: str, *, baud: int, ask_s: float = HANDSHAKE_S, now_s: float
    ) -> None:
        self.speaks = Speaks.UNKNOWN
        self._port = port
        self._baud = baud
        self._ask_s = ask_s
        self._opened_s = now_s
        self._asked_s = -REPEAT_S
        self._token = 0
        self._decoder = Decoder()
        self._held = bytearray()
        self._framed = False
        self._lines = TextLines()
        self._early: list[Samples] = []  # read from lines before it was sure they are
        self._introduced = False
        self._found = ""

    @property
    def found(self) -> str:
        """Which board, or how a plain board's lines are laid out."""
        if self.speaks is Speaks.LINES:
            return phrase("plain board: {found}", found=self._lines.found)
        return self._found

    def hear(self, data: bytes, *, now_s: float) -> bytes:
        """What came; gives frames, and nothing while it is not known who is there.

        Raises:
            RigError: the time is over, and nobody there can be understood.
        """
        if self.speaks is Speaks.FRAMES:
            return data
        if self.speaks is Speaks.LINES:
            return self._frames(self._lines.push(data, now_s))
        self._held += data
        del self._held[:-HELD_MAX]
        # Read as lines at once, since lines without a time of their own get the
        # moment at which they came.
        self._early += self._lines.push(data, now_s)
        for frame in self._decoder.push(data):
            self._framed = self._framed or not isinstance(frame, Damage)
            if isinstance(frame, Identity):
                return self._meet(frame)
        return self._judge() if now_s - self._opened_s >= self._ask_s else b""

    def question(self, *, now_s: float) -> bytes:
        """What is to be sent now: who is there? Empty where it is not due."""
        if self.speaks is not Speaks.UNKNOWN or now_s - self._asked_s < REPEAT_S:
            return b""
        self._asked_s = now_s
        self._token = (self._token + 1) % 256
        return b"\0" + encode(Identify(token=self._token))

    def _meet(self, identity: Identity) -> bytes:
        version = ".".join(map(str, identity.firmware))
        self._found = (
            phrase(
                "{adc} board {serial_number}, firmware {version}",
                adc=identity.adc,
                serial_number=identity.serial_number,
                version=version,
            )
            if identity.gain is None
            else phrase(
                "{adc} board {serial_number}, firmware {version}, gain {gain}",
                adc=identity.adc,
                serial_number=identity.serial_number,
                version=version,
                gain=identity.gain,
            )
        )
        return self._pass_on(Speaks.FRAMES)

    def _pass_on(self, speaks: Speaks) -> bytes:
        self.speaks = speaks
        held = bytes(self._held)
        self._held.clear()
        self._early.clear()
        return held

    def _judge(self) -> bytes:
        """The time is over and nobody has said who he is."""
        if self._framed:
            self._found = phrase("a board that does not say who it is")
            return self._pass_on(Speaks.FRAMES)
        if _is_text(self._held):
            early = self._frames(self._early)
            self._pass_on(Speaks.LINES)
            return early
        if self._held:
            raise RigError(
                phrase(
                    "What comes from {port} cannot be understood at {baud} baud.",
                    port=self._port,
                    baud=self._baud,
                ),
                phrase("Set the baud rate that the board is programmed for."),
            )
        raise RigError(
            phrase("No board answers on {port}.", port=self._port),
            phrase("See that this is the right port and that the board has power."),
        )

    def _frames(self, samples: list[Samples]) -> bytes:
        """What was read from lines as frames, an identity before the first."""
        frames: list[Frame] = [*samples]
        if samples and not self._introduced:
            self._introduced = True
            # The name carries what one count is worth into the recording.
            adc = f"text lines, 1/{self._lines.scale}"
            first = samples[0].sequence
            frames.insert(0, replace(self._lines.identity(), sequence=first, adc=adc))
        return b"".join(map(encode, frames))


def _is_text(held: bytes | bytearray) -> bool:
    printable = sum(32 <= byte < 127 or byte in b"\t\r\n" for byte in held)
    return b"\n" in held and printable >= PRINTABLE_SHARE * len(held)
