"""The host's half of the conversation: tokens, answers, versions.

Section 7 of `hardware/PROTOCOL.md`. Time comes in as a number; there is no
clock here.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from biofeedback.errors import NOTHING
from biofeedback.phrase import Phrase, phrase
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import (
    PROTOCOL_MAJOR,
    PROTOCOL_MINOR,
    FrameType,
    Gain,
    Identify,
    Rate,
    Start,
    Stop,
)

if TYPE_CHECKING:
    from biofeedback.wire.frames import HostFrame, Identity, Reply

HANDSHAKE_S = 3.0
"""A board that resets when its port is opened may take up to 2 s to hear us."""
REPEAT_S = 0.25
"""Much longer than a full send buffer takes to drain, short for a person."""
GONE_S = 2.5
"""Two `status` frames, due at 1 Hz, have not come."""
TOKENS = 256

_TYPES: dict[type[HostFrame], FrameType] = {
    Identify: FrameType.IDENTIFY,
    Start: FrameType.START,
    Stop: FrameType.STOP,
    Rate: FrameType.RATE,
    Gain: FrameType.GAIN,
}


@dataclass(frozen=True, slots=True)
class Pending:
    """A command that has been sent and not answered yet."""

    command: HostFrame
    sent_s: float


class Commands:
    """Numbers the commands and matches the answers.

    Attributes:
        pending: what waits for an answer, by token, oldest first; at most one
            of each kind, start and stop being of one kind.
    """

    def __init__(self) -> None:
        self.pending: dict[int, Pending] = {}
        self._next_token = 0

    def ask(self, command: HostFrame, *, now_s: float) -> bytes:
        """What to send. An earlier question of the same kind is given up.

        Args:
            command: its token is replaced by the next one; an overdue command
                is asked again by passing it in again.
            now_s: the caller's clock.
        """
        numbered = replace(command, token=self._next_token)
        self._next_token = (self._next_token + 1) % TOKENS
        kind = _kind(command)
        self.pending = {
            token: pending
            for token, pending in self.pending.items()
            if _kind(pending.command) != kind
        }
        self.pending[numbered.token] = Pending(numbered, now_s)
        return encode(numbered)

    def answer(self, reply: Reply) -> HostFrame | None:
        """The command that `reply` answers, now settled; None where it is not ours."""
        pending = self.pending.get(reply.token)
        if pending is None or _TYPES[type(pending.command)] is not reply.command:
            return None
        del self.pending[reply.token]
        return pending.command

    def overdue(self, *, now_s: float) -> list[HostFrame]:
        """Commands to ask again: sent `REPEAT_S` ago or longer, no answer."""
        return [
            pending.command
            for pending in self.pending.values()
            if now_s - pending.sent_s >= REPEAT_S
        ]


def _kind(command: HostFrame) -> FrameType:
    """The type, where start and stop count as one: the last word holds."""
    kind = _TYPES[type(command)]
    return FrameType.START if kind is FrameType.STOP else kind


def version_problem(identity: Identity) -> Phrase:
    """Why this board cannot be talked to, in plain words; empty where it can."""
    major, minor = identity.protocol
    if major == PROTOCOL_MAJOR:
        return NOTHING
    update = (
        phrase("Update the firmware.")
        if major < PROTOCOL_MAJOR
        else phrase("Update this program.")
    )
    return phrase(
        "The board speaks version {board} of the wire, this program {own}. {update}",
        board=f"{major}.{minor}",
        own=f"{PROTOCOL_MAJOR}.{PROTOCOL_MINOR}",
        update=update,
    )
