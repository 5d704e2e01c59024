"""Work that a window waits for without standing still: one function in one thread.

The thread owns what it works on; what it gives back is immutable. Nobody is called:
whoever started it looks, on a timer of its own, whether it is done. It is asked to
stop, waited for and checked, and what it raises is kept for whoever looks.
"""

from __future__ import annotations

import logging
import threading
from typing import TYPE_CHECKING, Generic, TypeVar

from biofeedback.errors import BiofeedbackError
from biofeedback.phrase import marked

if TYPE_CHECKING:
    from collections.abc import Callable

T = TypeVar("T")
STOP_S = 60.0
"""A recording under way is finished first; a longer one is a fault of the program."""
FAULT_WORDS = marked(
    "The program has met a fault of its own, and the work was given up. "
    "The log tells more."
)

log = logging.getLogger(__name__)


class Stopped(Exception):  # noqa: N818  nothing is wrong
    """Somebody asked for the work to be given up."""


class Errand(Generic[T]):
    """Runs a function in a thread of its own.

    Args:
        work: is given a function to tell how far it is, which raises `Stopped` where
            it is to be given up.
        name: of the thread, for the log.

    Attributes:
        failure: what went wrong where that was foreseen; None where nothing did.
        faulty: whether the program met a fault of its own; the log has it.
    """

    def __init__(
        self,
        work: Callable[[Callable[[int, int], None]], T],
        *,
        name: str = "filter bench",
    ) -> None:
        self._work = work
        self._progress = (0, 0)
        self._stopping = threading.Event()
        self._result: T | None = None
        self.failure: BiofeedbackError | None = None
        self.faulty = False
        self._thread = threading.Thread(target=self._run, name=name)

    def start(self) -> None:
        """Begins."""
        self._thread.start()

    @property
    def progress(self) -> tuple[int, int]:
        """How many of how many are done; (0, 0) before that is known."""
        return self._progress

    @property
    def stopping(self) -> bool:
        """Whether it was asked to be given up."""
        return self._stopping.is_set()

    @property
    def done(self) -> bool:
        """Whether the thread has ended."""
        return not self._thread.is_alive()

    @property
    def result(self) -> T | None:
        """What came of it; None where it was given up, or failed, or goes on."""
        return self._result if self.done else None

    def ask_to_stop(self) -> None:
        """Gives it up as soon as that can be; returns at once."""
        self._stopping.set()

    def stop(self) -> None:
        """The same, and waits.

        Raises:
            RuntimeError: the thread hangs, which is a fault of the program.
        """
        self._stopping.set()
        self._thread.join(STOP_S)
        if self._thread.is_alive():
            raise RuntimeError(f"the thread {self._thread.name} does not end")

    def _tell(self, done: int, total: int) -> None:
        self._progress = (done, total)
        if self._stopping.is_set():
            raise Stopped

    def _run(self) -> None:
        try:
            self._result = self._work(self._tell)
        except Stopped:
            pass
        except BiofeedbackError as error:
            self.failure = error
        except Exception:
            log.exception("%s met a fault of the program", self._thread.name)
            self.faulty = True
