"""How commands write figures, intervals and paragraphs for people."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    Interval = tuple[float | None, float | None]

WIDTH = 80


def figure(value: float | None) -> str:
    """Four digits, without an exponent where it can be helped."""
    if value is None:
        return "none"
    return f"{value:.0f}" if 1e4 <= abs(value) < 1e9 else f"{value:.4g}"


def interval(limits: Interval | None) -> str:
    """“1.2 to 3.4”, or that it has no finite ends."""
    if limits is None or None in limits:
        return "no finite interval"
    return f"{figure(limits[0])} to {figure(limits[1])}"


def p_value(p: float) -> str:
    """A probability by chance alone."""
    return "p < 0.001" if p < 0.001 else f"p = {p:.3f}"


def paragraph(title: str, lines: Iterable[tuple[str, str]]) -> list[str]:
    """A title, and below it names with what stands behind them, in a column."""
    rows = list(lines)
    width = max((len(name) for name, _ in rows), default=0)
    told = [title]
    for name, text in rows:
        told += textwrap.wrap(
            text,
            WIDTH,
            initial_indent=f"    {name:<{width}}  ",
            subsequent_indent=" " * (width + 6),
        )
    return told


def notes(sentences: Sequence[str]) -> list[str]:
    """A mark before each."""
    return [
        line
        for sentence in sentences
        for line in textwrap.wrap(
            sentence, WIDTH, initial_indent="- ", subsequent_indent="  "
        )
    ]
