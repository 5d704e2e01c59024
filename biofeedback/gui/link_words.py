"""What is wrong with the signal, in words, told once each time it changes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.gui.language import filled, said, shown, tr
from biofeedback.phrase import marked
from biofeedback.session import Link

if TYPE_CHECKING:
    from biofeedback.session import Health

UNREAD = "not understood"
"""Stands in what a board of plain lines says of itself while it cannot be read."""
UNREAD_AFTER_S = 2.0
"""The first lines of a good board are not understood either."""
UNREAD_WORDS = marked(
    "The board sends something that cannot be read. Let it print one or two numbers "
    "a line, and look at its baud rate."
)


def no_force_words(health: Health | None) -> str:
    """Why no set can begin on what comes from the rig; empty where one can.

    A signal that stands still is no reason: an empty rig may stand so.

    Args:
        health: as it was seen last; None before the first frame.
    """
    if health is None or health.link in (Link.LIVE, Link.STALE):
        return ""
    if health.other is not None:
        return tr("Not started: another board is on the port, and no force is read.")
    why = shown(health.message)
    return filled(tr("Not started: no force comes. {why}"), why=why).rstrip()


class LinkWords:
    """Follows the signal's health and tells each change once."""

    def __init__(self) -> None:
        self._told = ""
        self._unread_ns: int | None = None

    @property
    def good(self) -> bool:
        """Whether nothing is wrong, as it was told last."""
        return not self._told

    def news(self, health: Health, *, now_ns: int) -> str:
        """What is to be said now; empty where nothing is new.

        Args:
            now_ns: monotonic time.
        """
        words = self._words(health, now_ns)
        if words == self._told:
            return ""
        self._told = words
        return words or tr("The signal is there.")

    def _words(self, health: Health, now_ns: int) -> str:
        """What is wrong; empty where nothing is.

        Which board is there, and which was, stands in the question at the foot.
        """
        if health.other is not None:
            return tr("Another board is on the port: no force is read.")
        if health.link is not Link.OPENING or UNREAD not in health.found:
            self._unread_ns = None
            return shown(health.message)
        self._unread_ns = since_ns = self._unread_ns or now_ns
        if now_ns - since_ns < UNREAD_AFTER_S * 1e9:
            return shown(health.message)
        # Not what was found in so many words: the count of lines in it goes on.
        return said(UNREAD_WORDS)
