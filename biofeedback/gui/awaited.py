"""Work that a page waits for: one errand at a time, looked at on a timer.

The window draws on meanwhile. What comes of it, or why nothing did, is handed on in the
main thread once the errand's thread has ended.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, QTimer, Signal

from biofeedback.gui.language import error_words, said, tr
from biofeedback.tuning.errand import FAULT_WORDS, Errand

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import TypeVar

    T = TypeVar("T")

LOOK_MS = 100


class Awaited(QObject):
    """Runs errands of a page.

    Signals:
        moved: something began or ended, or is further on.
    """

    moved = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._errand: Errand[Any] | None = None
        self._done: Callable[[Any], None] = _nothing
        self._failed: Callable[[str], None] = _nothing
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_MS)
        self._timer.timeout.connect(self.look)

    @property
    def busy(self) -> bool:
        """Whether an errand is under way."""
        return self._errand is not None

    @property
    def progress(self) -> tuple[int, int]:
        """How many steps of how many are done; (0, 0) where that is not known."""
        return self._errand.progress if self._errand else (0, 0)

    @property
    def stopping(self) -> bool:
        """Whether the errand was asked to be given up."""
        return self._errand is not None and self._errand.stopping

    def start(
        self,
        name: str,
        work: Callable[[Callable[[int, int], None]], T],
        *,
        done: Callable[[T], None],
        failed: Callable[[str], None],
    ) -> None:
        """Begins; not while another errand is under way.

        Args:
            name: of the thread.
            done: is given what came of it.
            failed: is given words, where nothing did.
        """
        if self.busy:
            return
        self._done, self._failed = done, failed
        self._errand = Errand(work, name=name)
        self._errand.start()
        self._timer.start()
        self.moved.emit()

    def ask_to_stop(self) -> None:
        """Gives it up as soon as that can be."""
        if self._errand is not None:
            self._errand.ask_to_stop()
            self.moved.emit()

    def look(self) -> None:
        """How far it is; once it has ended, what came of it is handed on."""
        errand = self._errand
        if errand is not None and errand.done:
            self._timer.stop()
            self._errand = None
            self._hand_on(errand)
        self.moved.emit()

    def _hand_on(self, errand: Errand[Any]) -> None:
        if errand.failure is not None:
            self._failed(error_words(errand.failure))
        elif errand.faulty:
            self._failed(said(FAULT_WORDS))
        elif errand.result is None:
            self._failed(tr("It was stopped before its end."))
        else:
            self._done(errand.result)

    def close_down(self) -> None:
        """Ends the thread, and waits for it."""
        self._timer.stop()
        if self._errand is not None:
            self._errand.stop()
            self._errand = None


def _nothing(_what: object) -> None:
    """Nobody waits."""
