"""Ctrl-C and a polite kill close the window as its owner would, and ask nothing.

Python runs a signal's handler only between two steps of Python code; the frame
timer makes one sixty times a second, so nothing more is needed.
"""

from __future__ import annotations

import contextlib
import signal
from typing import TYPE_CHECKING, Protocol

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
        signal.signal(number, lambda *_: window.close_at_once())
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
