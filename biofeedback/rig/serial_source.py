"""The serial port as a source: the only module that opens ports.

By port name (``/dev/ttyUSB0``, ``COM3``) or by URL (``socket://host:port``,
``loop://``). What a board that speaks the protocol sends is passed on as it is;
what a plain board prints is turned into frames.

Rules:

* Nothing is assumed of modem lines: pseudo-terminals and some adapters have none.
* A read takes what is waiting, or else waits 20 ms at most.
* Who is at the other end is found out by `Introduction`.
"""

from __future__ import annotations

import contextlib
import errno
import os
import select
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

import serial
from serial.tools import list_ports

from biofeedback.errors import NOTHING, FieldError, RigError
from biofeedback.phrase import Phrase, phrase
from biofeedback.rig.introduction import Introduction, Speaks
from biofeedback.wire.commands import HANDSHAKE_S

if TYPE_CHECKING:
    from collections.abc import Callable

if os.name == "posix":
    import termios

    # pyserial lets this one through where a port goes while it is set up.
    PORT_ERRORS: tuple[type[Exception], ...] = (OSError, termios.error)
else:
    PORT_ERRORS = (OSError,)  # SerialException is one

BAUD = 500_000
READ_S = 0.02
WRITE_S = 0.2
"""A command is a dozen bytes; a port that does not take them is as good as gone."""
READ_MAX = 4096


class SerialSource:
    """A board on a port.

    Args:
        port: name or URL.
        baud: speed; without effect where there is no real line.
        ask_s: how long to go on asking who the board is.
        clock: monotonic nanoseconds.
    """

    def __init__(
        self,
        port: str,
        *,
        baud: int = BAUD,
        ask_s: float = HANDSHAKE_S,
        clock: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        self._name = port
        self._baud = baud
        self._ask_s = ask_s
        self._clock = clock
        self._port: serial.Serial | None = None
        self._descriptor: int | None = None
        self._talk = self._introduction()

    def _introduction(self) -> Introduction:
        return Introduction(
            self._name, baud=self._baud, ask_s=self._ask_s, now_s=self._now_s()
        )

    @property
    def name(self) -> str:
        """The port."""
        return self._name

    @property
    def found(self) -> str:
        """Which board, or how a plain board's lines are laid out."""
        return self._talk.found

    @property
    def paced(self) -> bool:
        """A board measures now."""
        return True

    def open(self) -> None:
        """Opens the port; the board is asked who it is by the reads that follow.

        Raises:
            RigError: it cannot be opened.
            FieldError: it is neither a port name nor a known kind of URL.
        """
        self.close()
        try:
            self._port = serial.serial_for_url(
                self._name,
                baudrate=self._baud,
                timeout=READ_S,
                write_timeout=WRITE_S,
                # Two programs that read one port each get half of the bytes.
                exclusive=True if os.name == "posix" else None,
            )
        except ValueError as error:
            raise FieldError(
                "port",
                phrase(
                    "“{name}” cannot be opened: {error}.", name=self._name, error=error
                ),
            ) from error
        except PORT_ERRORS as error:
            raise RigError(*_opening_words(self._name, error)) from error
        # A port of the system, in whose place a URL has none.
        own = os.name == "posix" and "://" not in self._name
        self._descriptor = self._port.fileno() if own else None
        self._talk = self._introduction()

    def read(self) -> bytes:
        """Frames that have come; nothing while it is not known who is there.

        Raises:
            RigError: the port is gone, or nobody there can be understood.
        """
        now_s = self._now_s
        frames = self._talk.hear(self._take(), now_s=now_s())
        question = self._talk.question(now_s=now_s())
        if question:
            self.write(question)
        return frames

    def write(self, data: bytes) -> None:
        """Sends host frames; a plain board is told nothing.

        Raises:
            RigError: the port is gone.
        """
        if self._talk.speaks is Speaks.LINES:
            return
        port = self._opened()
        try:
            port.write(data)
        except PORT_ERRORS as error:
            raise self._gone() from error

    def cancel(self) -> None:
        """A waiting read is over before it could be told of it."""

    def close(self) -> None:
        """Closes the port."""
        port, self._port, self._descriptor = self._port, None, None
        if port is not None:
            with contextlib.suppress(*PORT_ERRORS):
                port.close()

    def _take(self) -> bytes:
        """What is waiting, or what comes within 20 ms."""
        port = self._opened()
        if self._descriptor is not None:
            return self._take_at_once(self._descriptor)
        try:
            first: bytes = port.read(1)
            if not first:
                return b""
            if "://" not in self._name:
                waiting = port.in_waiting
                return first + port.read(min(waiting, READ_MAX)) if waiting else first
            # Behind a URL the number waiting is not told, or only as some.
            port.timeout = 0
            rest: bytes = port.read(READ_MAX)
            port.timeout = READ_S
        except PORT_ERRORS as error:
            raise self._gone() from error
        return first + rest

    def _take_at_once(self, descriptor: int) -> bytes:
        """The same by two calls of the system, where the library needs five."""
        try:
            if not select.select([descriptor], [], [], READ_S)[0]:
                return b""
            came = os.read(descriptor, READ_MAX)
        except BlockingIOError:  # another reader was quicker: nothing is there
            return b""
        except PORT_ERRORS as error:
            raise self._gone() from error
        if not came:  # readable, and nothing to be read: the other end is gone
            raise self._gone()
        return came

    def _opened(self) -> serial.Serial:
        if self._port is None:
            raise RigError(phrase("The port {name} is not open.", name=self._name))
        return self._port

    def _gone(self) -> RigError:
        return RigError(
            phrase("The port {name} is gone.", name=self._name),
            phrase("See that the board is plugged in and has power."),
        )

    def _now_s(self) -> float:
        return self._clock() / 1e9


def _opening_words(port: str, error: Exception) -> tuple[Phrase, Phrase]:
    """What is wrong with a port that does not open, and what to do."""
    number = getattr(error, "errno", None)
    if number in {errno.EACCES, errno.EPERM} or "PermissionError" in str(error):
        return (
            phrase("The port {port} may not be opened.", port=port),
            phrase(
                "Another program may have it; on Linux you may have to be in the "
                "group “dialout”."
            ),
        )
    if number in {errno.EBUSY, errno.EAGAIN}:
        return (
            phrase("The port {port} is in use by another program.", port=port),
            phrase("Close that program, then the rig is found by itself."),
        )
    if number in {errno.ENOENT, errno.ENXIO, errno.ENODEV} or "FileNotFound" in str(
        error
    ):
        return (
            phrase("There is no port {port}.", port=port),
            phrase("Plug the board in; it is then found by itself."),
        )
    return (
        phrase("The port {port} cannot be opened: {error}.", port=port, error=error),
        NOTHING,
    )


@dataclass(frozen=True, slots=True)
class PortFound:
    """A port of this computer.

    Attributes:
        device: the name to open it by.
        description: what the system says of it; may be empty.
        hint: what it may be, for people.
    """

    device: str
    description: str
    hint: str


def ports() -> list[PortFound]:
    """The serial ports of this computer, USB ones first.

    Pseudo-terminals and sockets are not among them; give those by name.
    """
    found = sorted(
        list_ports.comports(), key=lambda port: (port.vid is None, port.device)
    )
    return [
        PortFound(
            device=port.device,
            description="" if port.description in {None, "n/a"} else port.description,
            hint=(
                "built in, seldom a board"
                if port.vid is None
                else "USB, likely a board"
            ),
        )
        for port in found
    ]
