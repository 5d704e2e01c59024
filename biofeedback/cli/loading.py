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
import sys
from typing import TYPE_CHECKING

from biofeedback.cli import interrupts

if TYPE_CHECKING:
    from collections.abc import Iterator


@contextlib.contextmanager
def loading() -> Iterator[None]:
    """Modules are loaded within.

    Raises:
        KeyboardInterrupt: Ctrl-C came meanwhile.
    """
    with interrupts.held(), _uncollected():
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
