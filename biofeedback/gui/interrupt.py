"""Ctrl-C and a polite kill close the window as its owner would, and ask nothing.

Python runs a signal's handler only between two steps of Python code; the frame
timer makes one sixty times a second, so nothing more is needed. But that may be any
step, also one within a lock for which another thread waits. So nothing is closed there:
the event loop is asked to, and does it once the step under way is over.
"""

from __future__ import annotations

import contextlib
import signal
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QTimer

if TYPE_CHECKING:
    from collections.abc import Iterator

SIGNALS = (signal.SIGINT, signal.SIGTERM)


class Closes(Protocol):
    """A window that can be told to close."""

    def close_at_once(self) -> object:
        """Closes it and asks nothing."""


class Closing:
    """What a signal does: it closes the window, or the window that comes.

    Attributes:
        came: whether there was one.
    """

    def __init__(self) -> None:
        self._window: Closes | None = None
        self.came = False

    def of(self, window: Closes) -> None:
        """Closes this one from now on; at once where a signal has come already."""
        self._window = window
        if self.came:
            QTimer.singleShot(0, window.close_at_once)

    def signalled(self, _number: int, _frame: object) -> None:
        """By Python, between two steps of the program."""
        self.came = True
        if self._window is not None:
            QTimer.singleShot(0, self._window.close_at_once)


@contextlib.contextmanager
def closes() -> Iterator[Closing]:
    """While this is in force, SIGINT and SIGTERM close the window that is named.

    One that the program was told not to heed is not heeded here either.

    What comes while that window is made waits until it is there: a window is not left
    half made, and a slot of Qt loses what is raised in it.
    """
    closing = Closing()
    found = {number: signal.getsignal(number) for number in SIGNALS}
    # As a shell has it with Ctrl-C for what runs in the background of a script.
    before = {one: how for one, how in found.items() if how is not signal.SIG_IGN}
    for number in before:
        signal.signal(number, closing.signalled)
    try:
        yield closing
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
