"""Imports without the collector of cyclic rubbish, which finds none in them.

The more modules there are, the more it looks through each time again: a fifth of the
start of the window.
"""

from __future__ import annotations

import contextlib
import gc
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator


@contextlib.contextmanager
def uncollected() -> Iterator[None]:
    """Nothing is collected within; afterwards as before."""
    collects = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collects:
            gc.enable()
