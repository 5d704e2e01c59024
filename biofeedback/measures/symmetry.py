"""Symmetry: shares of two sides, never without the name of the formula.

Efforts of both sides at once are parts of one total and use (R − L)/(R + L).
Efforts done one side at a time use 100 (max − min)/max with the side named. The
two are never mixed in one trend.
"""

from __future__ import annotations

SIMULTANEOUS_FORMULA = "100 (R − L)/(R + L)"


def share_pct(part: float, other: float) -> float | None:
    """100 · part / (part + other); None where the total is not positive."""
    total = part + other
    return 100 * part / total if total > 0 else None


def simultaneous_index_pct(left: float, right: float) -> float | None:
    """100 (R − L)/(R + L) of both sides working at once; + is right heavier."""
    total = left + right
    return 100 * (right - left) / total if total > 0 else None
