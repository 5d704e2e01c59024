"""Numbers of things, in words."""

from __future__ import annotations


def counted(number: int, what: str) -> str:
    """``1 gap``, ``2 gaps``."""
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
