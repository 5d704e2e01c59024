"""Letters as one types them in a hurry: without capitals, accents and strokes."""

from __future__ import annotations

import unicodedata

_PLAIN = str.maketrans(
    {
        # Letters that Unicode does not take apart into a letter and a mark.
        "ł": "l",
        "ø": "o",
        "đ": "d",
        "ð": "d",
        "ħ": "h",
        "ŧ": "t",
        "ı": "i",
        "ŋ": "n",
        "þ": "th",
        "æ": "ae",
        "œ": "oe",
        # Marks of typesetters for those of keyboards.
        "‘": "'",
        "’": "'",
        "‐": "-",
        "–": "-",
    }
)


def folded(text: str) -> str:
    """Without capitals, accents, strokes and needless blanks, for comparing."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    bare = "".join(mark for mark in apart if not unicodedata.combining(mark))
    return " ".join(bare.translate(_PLAIN).split())
