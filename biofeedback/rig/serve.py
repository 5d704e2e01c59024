"""Serves the simulated rig on a line, so that the program can open it as a port.

On POSIX a pseudo-terminal, anywhere a local socket. What `biofeedback simulate`
runs; the serial path is so used and tested without a board.

Rules: real time follows the monotonic clock by absolute deadlines, so nothing
drifts. Where nobody reads, a real board's line does not wait, and neither does
this one: what does not fit is dropped and counted. Lossless, it is the other way
round: time waits for the reader, and goes as fast as it reads.
"""

from __future__ import annotations

import contextlib
import os
import select
import socket
import time
from typing import TYPE_CHECKING, Protocol

from biofeedback.errors import FileError, RigError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    import threading
    from collections.abc import Callable
    from pathlib import Path

    from biofeedback.rig.effort import Effort
    from biofeedback.rig.simulated_athlete import SimulatedAthlete
    from biofeedback.rig.simulated_rig import SimulatedRig

WAIT_S = 0.02
"""So long at most until a stop is seen."""
AHEAD_US = 20_000
"""What is due sooner is made ready now."""
PENDING_MAX = 4096
"""Bytes kept for a slow reader in real time; a small board keeps less."""
READ_MAX = 4096
LOSSLESS_US = 10_000
"""Device time that goes by at once where time waits for the reader."""


class Line(Protocol):
    """One end of a line; the other is opened as a port."""

    @property
    def name(self) -> str:
        """What to open at the other end."""

    def fileno(self) -> int:
        """Of what to wait for."""

    def receive(self) -> bytes:
        """What has come, without waiting."""

    def send(self, data: bytes) -> int:
        """Sends without waiting; how many bytes went."""

    def close(self) -> None:
        """Takes the line away."""


class TerminalLine:
    """A pseudo-terminal.

    Args:
        link: a symbolic link to make to it, so that its name is known.

    Attributes:
        taken_from: the terminal to which the link led, where that is still there; it
            may be another rig's, or have got its name since. None for none.

    Raises:
        RigError: this system has none.
        FileError: the link cannot be made.
    """

    def __init__(self, *, link: Path | None = None) -> None:
        if not hasattr(os, "openpty"):
            raise RigError(
                phrase("This system has no pseudo-terminals."),
                phrase("Serve on a socket instead."),
            )
        import tty  # noqa: PLC0415  not there on Windows

        # The other end is kept open too: without, the line would break each time
        # its reader goes.
        self._fd, self._other = os.openpty()
        tty.setraw(self._other)
        os.set_blocking(self._fd, False)
        self._name = os.ttyname(self._other)
        self._link: Path | None = None
        self.taken_from: Path | None = None
        if link is not None:
            self._make(link)

    def _make(self, link: Path) -> None:
        try:
            if link.is_symlink():
                before = link.readlink()
                if before.exists() and str(before) != self._name:
                    self.taken_from = before
                link.unlink()
            link.symlink_to(self._name)
        except OSError as error:
            self.close()
            raise FileError(
                link, phrase("cannot be made: {strerror}.", strerror=error.strerror)
            ) from error
        self._link = link

    @property
    def name(self) -> str:
        """Path of the terminal."""
        return self._name

    def fileno(self) -> int:
        """Of this end."""
        return self._fd

    def receive(self) -> bytes:
        """What has come."""
        with contextlib.suppress(BlockingIOError):
            return os.read(self._fd, READ_MAX)
        return b""

    def send(self, data: bytes) -> int:
        """Sends what fits."""
        with contextlib.suppress(BlockingIOError):
            return os.write(self._fd, data)
        return 0

    def close(self) -> None:
        """Closes both ends and removes the link; safe to call twice."""
        if self._link is not None:
            if self._link.is_symlink() and str(self._link.readlink()) == self._name:
                self._link.unlink()  # else it is another rig's by now
            self._link = None
        for fd in (self._fd, self._other):
            if fd >= 0:
                os.close(fd)
        self._fd = self._other = -1


class SocketLine:
    """A socket of this computer, for one reader at a time.

    Args:
        port: number; 0 for any that is free.

    Raises:
        RigError: the number is taken.
    """

    def __init__(self, *, port: int = 0) -> None:
        self._client: socket.socket | None = None
        self._listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        try:
            if os.name == "posix":
                self._listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            self._listener.bind(("127.0.0.1", port))  # never beyond this computer
            self._listener.listen(1)
        except OSError as error:
            self._listener.close()
            raise RigError(
                phrase(
                    "Socket {port} cannot be served: {strerror}.",
                    port=port,
                    strerror=error.strerror,
                ),
                phrase("Choose another number."),
            ) from error
        self._listener.setblocking(False)
        self._port: int = self._listener.getsockname()[1]

    @property
    def name(self) -> str:
        """URL of the socket."""
        return f"socket://127.0.0.1:{self._port}"

    def fileno(self) -> int:
        """Of the reader, or of the door while there is none."""
        return (self._client or self._listener).fileno()

    def receive(self) -> bytes:
        """What has come; lets a reader in where there is none."""
        try:
            if self._client is None:
                self._client, _ = self._listener.accept()
                self._client.setblocking(False)
                self._client.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
                return b""
            data = self._client.recv(READ_MAX)
        except BlockingIOError:
            return b""
        except OSError:
            data = b""
        if not data:
            self._let_go()
        return data

    def send(self, data: bytes) -> int:
        """Sends what fits; into the void where nobody reads."""
        if self._client is None:
            return len(data)
        try:
            return self._client.send(data)
        except BlockingIOError:
            return 0
        except OSError:
            self._let_go()
            return len(data)

    def close(self) -> None:
        """Closes reader and door; safe to call twice."""
        self._let_go()
        self._listener.close()

    def _let_go(self) -> None:
        if self._client is not None:
            self._client.close()
            self._client = None


class RigServer:
    """Lets the simulated rig live on a line.

    Args:
        rig: the board.
        line: what it sends on.
        athlete: who pulls, and with `effort` what they do once the board is
            started: over a line nobody can tell them anything.
        lead_in_s: from then until they get ready, time to take zero.
        lossless: time waits for the reader instead of bytes being dropped.
        clock: monotonic nanoseconds.

    Attributes:
        dropped_bytes: what nobody took in time.
    """

    def __init__(
        self,
        rig: SimulatedRig,
        line: Line,
        *,
        athlete: SimulatedAthlete | None = None,
        effort: Effort | None = None,
        lead_in_s: float = 5.0,
        lossless: bool = False,
        clock: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        self._rig = rig
        self._line = line
        self._athlete = athlete
        self._effort = effort
        self._lead_in_us = round(lead_in_s * 1e6)
        self._lossless = lossless
        self._clock = clock
        self._pending = bytearray()
        self._made = bytearray()  # ahead of the clock, by no more than a frame
        self.dropped_bytes = 0
        self._in_step()

    def run(self, stop: threading.Event) -> None:
        """Serves until `stop` is set, then takes the line away."""
        try:
            while not stop.is_set():
                self.step()
        finally:
            self._line.close()

    def step(self) -> None:
        """One turn: wait for what is due, listen, let time pass, send."""
        racing = self._lossless and self._rig.streaming
        if self._pending:
            wait_s = WAIT_S
        elif racing:
            wait_s = 0.0
        else:
            self._make_ahead()
            due_us = 0 if self._made else self._rig.due_us - self._rig.now_us
            wait_s = min(max(0.0, (due_us - self._behind_us()) / 1e6), WAIT_S)
        writing = [self._line] if self._pending else []
        readable, _, _ = select.select([self._line], writing, [], wait_s)
        if readable:
            self._listen(self._line.receive())
        if not racing:
            self._made += self._rig.advance(max(0, self._behind_us()))
            if self._behind_us() >= 0:
                self._send(bytes(self._made))
                self._made.clear()
        elif not self._pending:
            self._send(self._rig.advance(LOSSLESS_US))
            self._in_step()
        if self._pending:
            del self._pending[: self._line.send(bytes(self._pending))]

    def _make_ahead(self) -> None:
        """Makes what is due soon before it is, and holds it until then.

        A board sends a frame when its last sample is there; this computer takes up to
        a millisecond for what the board's converter does meanwhile.
        """
        if not self._made and self._rig.streaming:
            to_come_us = self._rig.due_us - self._rig.now_us
            if to_come_us - self._behind_us() <= AHEAD_US:
                self._made += self._rig.advance(to_come_us)

    def _listen(self, data: bytes) -> None:
        was_streaming = self._rig.streaming
        self._rig.receive(data)
        started = self._rig.streaming and not was_streaming
        if started and self._athlete is not None and self._effort is not None:
            begin_us = self._rig.now_us + self._lead_in_us
            self._athlete.begin(self._effort, now_us=begin_us)

    def _send(self, data: bytes) -> None:
        if not self._lossless and len(self._pending) > PENDING_MAX:
            self.dropped_bytes += len(data)
        else:
            self._pending += data

    def _in_step(self) -> None:
        """From here on device time and real time go together."""
        self._origin_ns = self._clock() - 1000 * self._rig.now_us

    def _behind_us(self) -> int:
        return (self._clock() - self._origin_ns) // 1000 - self._rig.now_us
