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


@contextlib.contextmanager
def closes(window: Closes) -> Iterator[None]:
    """While this is in force, SIGINT and SIGTERM close `window`."""
    before = {number: signal.getsignal(number) for number in SIGNALS}
    for number in SIGNALS:
        signal.signal(number, lambda *_: QTimer.singleShot(0, window.close_at_once))
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
