"""Imports without the collector of cyclic rubbish, which finds none in them.

The more modules there are, the more it looks through each time again: a fifth of the
start of the window. It would do so once more as soon as it was let go, so what was
loaded is put where it never looks.
"""

from __future__ import annotations

import contextlib
import gc
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator


@contextlib.contextmanager
def uncollected() -> Iterator[None]:
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
