"""Modules are loaded without the collector of cyclic rubbish, and without Ctrl-C.

The collector finds nothing in them. The more modules there are, the more it looks
through each time again: a fifth of the start of the window. It would do so once more as
soon as it was let go, so what was loaded is put where it never looks.

Ctrl-C waits until all is loaded. Modules in C take it for a fault of their own when it
comes while they are half there: Qt's ended the program with a dump.
"""

from __future__ import annotations

import contextlib
import gc
import signal
import sys
import threading
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator


@contextlib.contextmanager
def loading() -> Iterator[None]:
    """Modules are loaded within.

    Raises:
        KeyboardInterrupt: Ctrl-C came meanwhile.
    """
    with _interrupts_wait(), _uncollected():
        yield


@contextlib.contextmanager
def _uncollected() -> Iterator[None]:
    """Nothing is collected within; afterwards as before, but for what was loaded."""
    collects, modules = gc.isenabled(), len(sys.modules)
    gc.disable()
    try:
        yield
    finally:
        if len(sys.modules) > modules:
            gc.freeze()
        if collects:
            gc.enable()


@contextlib.contextmanager
def _interrupts_wait() -> Iterator[None]:
    elsewhere = threading.current_thread() is not threading.main_thread()
    if elsewhere or signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
        yield  # Ctrl-C is for the main thread, or for nobody
        return
    came: list[int] = []
    before = signal.signal(signal.SIGINT, lambda number, _frame: came.append(number))
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
    if came:
        raise KeyboardInterrupt
