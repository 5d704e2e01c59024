"""Numbers of things, in words."""

from __future__ import annotations

from biofeedback.phrase import Phrase, marked

_NAMES = {
    "damaged frame": (
        marked("{number} damaged frame"),
        marked("{number} damaged frames"),
    ),
    "day": (marked("{number} day"), marked("{number} days")),
    "gap": (marked("{number} gap"), marked("{number} gaps")),
    "gap of unknown length": (
        marked("{number} gap of unknown length"),
        marked("{number} gaps of unknown length"),
    ),
    "lost sample": (
        marked("{number} lost sample"),
        marked("{number} lost samples"),
    ),
    "rep": (marked("{number} rep"), marked("{number} reps")),
    "sample": (marked("{number} sample"), marked("{number} samples")),
    "saturated sample": (
        marked("{number} saturated sample"),
        marked("{number} saturated samples"),
    ),
    "session": (marked("{number} session"), marked("{number} sessions")),
    "set": (marked("{number} set"), marked("{number} sets")),
    "week": (marked("{number} week"), marked("{number} weeks")),
}


def counted(number: int, what: str) -> Phrase:
    """``1 gap``, ``2 gaps``; the things that are counted stand in a table."""
    one, many = _NAMES[what]
    return Phrase(one if number == 1 else many, {"number": number})
