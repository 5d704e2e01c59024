"""A bar on the terminal for work that takes a while."""

from __future__ import annotations

import sys

BAR = 30
"""Width in characters."""


class Bar:
    """Progress on standard error, where that is a screen."""

    def __init__(self, things: str) -> None:
        self._things = things
        self._on_screen = sys.stderr.isatty()

    def __enter__(self) -> Bar:
        return self

    def __exit__(self, *_: object) -> None:
        if self._on_screen:
            print("\r\x1b[K", end="", file=sys.stderr, flush=True)

    def tell(self, done: int, total: int) -> None:
        """So many of so many are done."""
        if self._on_screen:
            filled = "#" * (BAR * done // total)
            words = f"[{filled:<{BAR}}] {done} of {total} {self._things}"
            print(f"\r\x1b[K{words}", end="", file=sys.stderr, flush=True)
