"""The end of the window: what keeps it open, and in which order all is let go.

Between sets, text that was typed and not saved is named first, once: closing again
closes. In a set the window closes at once, and so it does where nobody is there to
close again.
"""

from __future__ import annotations

import logging
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QMessageBox

from biofeedback.gui.language import said
from biofeedback.phrase import marked

if TYPE_CHECKING:
    from biofeedback.gui.live_session import LiveSession
    from biofeedback.gui.window import Window

NO_END_WORDS = marked(
    "The program could not let go of the rig. What was recorded so far is on disk; "
    "pull the cable before the window is opened again. The log tells more."
)

_log = logging.getLogger(__name__)


class Closing(QObject):
    """Ends the set, closes the session and waits until all is on disk.

    Args:
        window: is closed.
        session: is closed with it.

    Attributes:
        asks: whether somebody is there to close again, or to answer.
    """

    def __init__(self, window: Window, session: LiveSession) -> None:
        super().__init__(window)
        self.asks = True
        self._window = window
        self._session = session
        self._closed = False

    def keeps_open(self) -> bool:
        """Whether text that is not saved keeps the window open; that is said."""
        window = self._window
        if self._closed or not self.asks or window.desk.in_set:
            return False
        if window.mounted.erasing:
            return True  # it ends by itself, and the page tells how far it is
        where = window.mounted.unsaved.untold()
        if where:
            window.pages.show_live()  # messages are seen there, beside the way back
            window.comfort.unfold()
            words = self.tr(
                "Not saved yet: {where}. Save it first, or close again without it."
            )
            window.desk.say(words.format(where=where))
        return bool(where)

    def close(self) -> None:
        """Lets all go; what could not be kept is said."""
        window = self._window
        window.frames.stop()
        if self._closed:
            return
        self._closed = True
        # On a slow disk this takes its time, and nothing moves meanwhile.
        window.desk.say(self.tr("Closing: what is left is being written."))
        window.desk.foot.repaint()
        window.comfort.close()
        window.visit.ask(lambda: self._session.end_set("window closed"))
        order = window.order.let_go()
        words = self._close_session() or self._session.not_kept or order
        self._close_pages()  # a disk that does not answer holds up no set
        if words and not self.asks:
            _log.warning("%s", words)  # nobody is there to answer
        elif words:
            # From an icon there is no terminal that would tell it.
            QMessageBox.warning(window, self.tr("Not all is on disk"), words)

    def _close_pages(self) -> None:
        """Nothing works on behind the window; what hangs is left to the log."""
        try:
            self._window.mounted.close_down()
        except RuntimeError:
            _log.exception("what a page had begun does not end")

    def _close_session(self) -> str:
        """What went wrong in words; empty where nothing did."""
        try:
            self._window.visit.ask(self._session.close)
        except RuntimeError:
            _log.exception("the session could not be closed")
            return f"{said(NO_END_WORDS)} {self._session.not_kept}".rstrip()
        return ""
