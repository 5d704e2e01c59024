"""The host's side of the talk with a board, from opening the port on.

Identify until an identity comes, then start; start again where the board says it
has stopped, for instance after a reset. Pure: time comes in as a number and what
to send comes out as bytes. Section 7 of `hardware/PROTOCOL.md` is the norm.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.errors import RigError
from biofeedback.wire.codec import encode
from biofeedback.wire.commands import REPEAT_S, Commands, version_problem
from biofeedback.wire.frames import Identify, Identity, Reply, Start, Status, Stop

if TYPE_CHECKING:
    from biofeedback.wire.frames import Frame


class Conversation:
    """One talk; make a new one each time the port is opened.

    Attributes:
        identity: who the board is; None before it has said so.
    """

    def __init__(self) -> None:
        self.identity: Identity | None = None
        self._commands = Commands()
        self._asked_s = -REPEAT_S

    def open(self, *, now_s: float) -> bytes:
        """What to send first; a delimiter ends what half a frame began."""
        return b"\0" + self._commands.ask(Identify(token=0), now_s=now_s)

    def hear(self, frame: Frame, *, now_s: float) -> bytes:
        """What to answer to a frame, mostly nothing.

        Raises:
            RigError: the board speaks another version of the protocol.
        """
        match frame:
            case Identity():
                if problem := version_problem(frame):
                    raise RigError(problem)
                self.identity = frame
                return self._commands.ask(Start(token=0), now_s=now_s)
            case Status(streaming=False) if self.identity is not None:
                # It was reset, or is another one on the same line: it says which.
                return self._commands.ask(Identify(token=0), now_s=now_s)
            case Reply():
                self._commands.answer(frame)
            case _:
                pass
        return b""

    def ask_who(self, *, now_s: float) -> bytes:
        """Asks once more who the board is, at the pace at which questions repeat."""
        if now_s - self._asked_s < REPEAT_S:
            return b""
        self._asked_s = now_s
        return self._commands.ask(Identify(token=0), now_s=now_s)

    def due(self, *, now_s: float) -> bytes:
        """What to ask again because no answer came."""
        return b"".join(
            self._commands.ask(command, now_s=now_s)
            for command in self._commands.overdue(now_s=now_s)
        )

    def close(self) -> bytes:
        """What to send last."""
        return encode(Stop(token=0))
