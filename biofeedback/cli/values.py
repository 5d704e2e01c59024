"""What a word on the command line stands for: numbers, within their limits.

Each takes the word and gives the value, or says in words what is wanted.
"""

from __future__ import annotations

import datetime as dt
import math
from argparse import ArgumentTypeError

from biofeedback.training.band import FORCE_MAX_N

SECONDS_MAX = 3600.0
PORT_MAX = 65_535
SEED_MAX = 2**32 - 1


def seconds(text: str) -> float:
    """A length of time in seconds."""
    return _number(text, most=SECONDS_MAX, words="seconds")


def newtons(text: str) -> float:
    """A force that is not negative."""
    return _number(text, most=FORCE_MAX_N, words="newtons")


def seed(text: str) -> int:
    """Where chance begins: the same number, the same athlete."""
    return _whole(text, most=SEED_MAX)


def reps(text: str) -> int:
    """How many reps."""
    return _whole(text, most=1000)


def socket_port(text: str) -> int:
    """The number of a network port; 0 stands for any free one."""
    return _whole(text, most=PORT_MAX)


def day(text: str) -> dt.date:
    """A day."""
    try:
        found = dt.date.fromisoformat(text)
    except ValueError:
        found = None
    if found is None or found.isoformat() != text:
        raise ArgumentTypeError(f"“{text}” must be a day such as 2026-11-30")
    return found


def _number(text: str, *, most: float, words: str) -> float:
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not 0 <= value <= most:
        raise ArgumentTypeError(f"“{text}” must be {words}, 0 to {most:g}")
    return value


def _whole(text: str, *, most: int) -> int:
    if not (text.isascii() and text.isdecimal()) or int(text) > most:
        raise ArgumentTypeError(f"“{text}” must be a whole number, 0 to {most}")
    return int(text)
