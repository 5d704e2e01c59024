"""JSON objects in recording frames: bounded, finite, and objects only.

What this module writes it can read again: writing checks its own bytes with the
reader, so a recording never holds a frame that its replay refuses.
"""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING, NoReturn

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Mapping

DEPTH_MAX = 32
"""Deepest nesting: a plan inside a header needs about eight."""
_WHOLE_MAX = 2**63 - 1  # what any other reader of the files can hold
_DIGITS_MAX = 19  # of the number above


def write(content: Mapping[str, object], *, most_bytes: int) -> bytes:
    """The object as compact UTF-8 JSON.

    Raises:
        FieldError: it is longer than `most_bytes`, or holds what JSON or the
            reader cannot take (a number that is not finite, another type).
    """
    try:
        text = json.dumps(
            dict(content), allow_nan=False, ensure_ascii=False, separators=(",", ":")
        )
        written = text.encode()
    except (TypeError, ValueError, RecursionError) as error:
        raise FieldError(
            "content", phrase("cannot be written as JSON: {error}.", error=error)
        ) from error
    if len(written) > most_bytes:
        raise FieldError(
            "content",
            phrase(
                "is {written} bytes as JSON; {most_bytes} fit into one frame.",
                written=len(written),
                most_bytes=most_bytes,
            ),
            phrase("Shorten the notes or texts in it."),
        )
    if read(written) is None:
        raise FieldError(
            "content",
            phrase(
                "is nested deeper than {depth_max}, or a number is too large.",
                depth_max=DEPTH_MAX,
            ),
        )
    return written


def read(written: bytes) -> dict[str, object] | None:
    """The object in `written`, or None where it is not one that is allowed."""
    try:
        value = json.loads(
            written.decode(),
            parse_constant=_refuse,
            parse_float=_finite,
            parse_int=_whole,
        )
        if b"\\u" in written:  # an escape may hide half a surrogate pair
            json.dumps(value, ensure_ascii=False).encode()
    except (ValueError, RecursionError):  # UnicodeError is a ValueError
        return None
    return value if isinstance(value, dict) and _is_shallow(value) else None


def _refuse(constant: str) -> NoReturn:
    raise ValueError(constant)


def _finite(text: str) -> float:
    value = float(text)
    if not math.isfinite(value):  # 1e999
        raise ValueError(text)
    return value


def _whole(text: str) -> int:
    if len(text.lstrip("-")) > _DIGITS_MAX or abs(int(text)) > _WHOLE_MAX:
        raise ValueError(text)
    return int(text)


def _is_shallow(value: object) -> bool:
    """Whether `value` is nested no deeper than `DEPTH_MAX`, without recursion."""
    level = [value]
    for _ in range(DEPTH_MAX):
        deeper: list[object] = []
        for item in level:
            if isinstance(item, dict):
                deeper.extend(item.values())
            elif isinstance(item, list):
                deeper.extend(item)
        if not deeper:
            return True
        level = deeper
    return not any(isinstance(item, dict | list) for item in level)
