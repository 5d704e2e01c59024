"""Discretion: what of a text may leave the logbook.

Names of athletes stand in one table, but people type them elsewhere too: into the name
of a task or the label of a calibration. Unless names are asked for, each name that the
logbook knows is taken out of every text of an export, and how often is counted. Notes,
reasons and other free text are left out altogether unless they are asked for, for no
list of names can make them safe.
"""

from __future__ import annotations

import re
import unicodedata
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

LEFT_OUT = "(name left out)"
LEAST = 3
"""Letters of a part of a name that is looked for; shorter ones are parts of words."""


class Discretion:
    """Takes names out of texts.

    Args:
        names: of all athletes there are; none where names may be written.

    Attributes:
        taken_out: how many were found so far.
    """

    def __init__(self, names: Iterable[str] = ()) -> None:
        self.taken_out = 0
        words: set[str] = set()
        for name in names:
            whole = _plain(" ".join(name.split()))
            words |= {whole, *re.split(r"[\s,.\-'’]+", whole)}
        kept = sorted((w for w in words if len(w) >= LEAST), key=len, reverse=True)
        each = "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in kept)
        # Whole words: an athlete called Max must not turn each maximal test into one.
        word = rf"(?<!\w)(?:{each})(?:['’]?s)?(?!\w)"
        several = rf"{word}(?:\s+{word})*"
        self._found = re.compile(several, re.IGNORECASE) if each else None

    def text(self, text: str) -> str:
        """The text without names."""
        if self._found is None:
            return text
        told, count = self._found.subn(LEFT_OUT, _plain(text))
        self.taken_out += count
        return told if count else text


def _plain(text: str) -> str:
    return unicodedata.normalize("NFC", text)
