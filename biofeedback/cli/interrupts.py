"""Ctrl-C that waits for a good moment.

Python raises it between any two steps of the main thread. What it meets there may lose
it (a callback of a weak reference, a module in C that is half loaded) or be left half
done (a process that is being started).
"""

from __future__ import annotations

import contextlib
import signal
import threading
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator


class Held:
    """What came while it was held.

    Attributes:
        came: whether somebody pressed Ctrl-C.
    """

    def __init__(self) -> None:
        self.came = False

    def note(self, _number: int, _frame: object) -> None:
        """By Python, between two steps of the program."""
        self.came = True

    def let_go(self) -> None:
        """A good moment.

        Raises:
            KeyboardInterrupt: Ctrl-C came.
        """
        if self.came:
            raise KeyboardInterrupt


@contextlib.contextmanager
def held() -> Iterator[Held]:
    """Ctrl-C waits within for `let_go`, or for the end.

    Outside the main thread, and where nobody heeds Ctrl-C, all stays as it is.

    Raises:
        KeyboardInterrupt: it came, and was not let go.
    """
    found = Held()
    elsewhere = threading.current_thread() is not threading.main_thread()
    if elsewhere or signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
        yield found
        return
    before = signal.signal(signal.SIGINT, found.note)
    try:
        yield found
    finally:
        signal.signal(signal.SIGINT, before)
    found.let_go()
