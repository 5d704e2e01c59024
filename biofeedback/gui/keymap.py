"""The keymap: which key does what, where it was changed from the usual.

An action is known by its usual key, so that the sheet of keys and a changed key speak
of the same thing. Two actions never share a key: a key that is in use changes places
with the one that is given up. The stop key can be moved but never taken away. Keys
that always do the same, and those by which one moves among the controls, are not given.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtGui import QKeySequence

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

STOP = "Esc"
START = "F5"
OTHER_FOLDER = "Ctrl+Shift+F"
OTHER_BOARD = "Ctrl+F12"
PAIN_BACK = "Ctrl+Shift+Backspace"
PRESENTER = {START: "PgDown", STOP: "PgUp"}
"""A presenter or foot switch with two buttons sends these: one begins the next set, the
other stops. The band then moves by the keys that are given up."""

CONTROLS = ("Tab", "Shift+Tab", "Backtab", "Space", "Return", "Enter", "Up", "Down",
            "Left", "Right")  # fmt: skip
"""Without these the window cannot be used without a mouse."""


def plain(key: str) -> str:
    """A key as it is written in files, whatever the system calls it.

    Raises:
        FieldError: there is no such key.
    """
    sequence = QKeySequence(key)
    written = sequence.toString(QKeySequence.SequenceFormat.PortableText)
    if sequence.count() != 1 or not written:
        raise FieldError("key", phrase("“{key}” is no key.", key=key))
    return written


class Keymap:
    """Keys in use.

    Args:
        usual: the usual key of each action.
        changed: the key in use in its place, by usual key; entries that do not fit
            are left out.
        fixed: keys that always do the same, and what.
    """

    def __init__(
        self,
        usual: Iterable[str],
        changed: Mapping[str, str] | None = None,
        *,
        fixed: Mapping[str, str] | None = None,
    ) -> None:
        self._usual = tuple(plain(key) for key in usual)
        self._fixed = {plain(key): what for key, what in (fixed or {}).items()}
        self._in_use = {key: key for key in self._usual}
        for own, new in (changed or {}).items():
            try:
                self._give(plain(own), plain(new))
            except FieldError:
                continue  # of another version, or typed into the file by hand

    def key(self, usual: str) -> str:
        """The key in use for an action."""
        own = plain(usual)
        return self._in_use.get(own, own)

    @property
    def changed(self) -> dict[str, str]:
        """What differs from the usual, to be kept."""
        return {own: key for own, key in self._in_use.items() if key != own}

    def holder(self, key: str) -> str | None:
        """The usual key of the action that a key is in use for; None for none."""
        wanted = plain(key)
        return next((own for own, new in self._in_use.items() if new == wanted), None)

    def with_key(self, usual: str, new: str) -> Keymap:
        """Another key for an action; who had that key gets the one given up.

        Raises:
            FieldError: there is no such key, or no such action, or the key is not
                given.
        """
        own, new = plain(usual), plain(new)
        keymap = Keymap(self._usual, self.changed, fixed=self._fixed)
        keymap._give(own, new)
        return keymap

    @property
    def as_usual(self) -> Keymap:
        """Nothing changed."""
        return Keymap(self._usual, fixed=self._fixed)

    def with_all(self, keys: Mapping[str, str]) -> Keymap:
        """Several at once, such as `PRESENTER`."""
        keymap = self
        for own, new in keys.items():
            keymap = keymap.with_key(own, new)
        return keymap

    def _give(self, own: str, new: str) -> None:
        if own not in self._in_use:
            raise FieldError("key", phrase("nothing is done by “{own}”.", own=own))
        if new in CONTROLS:
            words = phrase("“{key}” is for moving among the controls.", key=new)
            raise FieldError("key", words)
        if new in self._fixed:
            does = self._fixed[new]
            words = phrase("“{key}” is taken: {does}.", key=new, does=does)
            raise FieldError("key", words)
        before = self._in_use[own]
        for other, key in self._in_use.items():
            if key == new and other != own:
                self._in_use[other] = before
        self._in_use[own] = new
