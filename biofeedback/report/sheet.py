"""A document as a value: what stands on it, in its order, before it is laid out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from biofeedback.report.chart import Chart


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading; it never stands alone at the foot of a page."""

    text: str
    large: bool = False


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A text over the whole width.

    Attributes:
        quiet: of the second rank.
    """

    text: str
    quiet: bool = False


@dataclass(frozen=True, slots=True)
class Bullets:
    """Short texts, each with a dot before it."""

    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """A table; numbers stand to the right of their column.

    Attributes:
        widths: of the columns, in shares of the whole.
        texts: how many columns, from the first on, hold words.
    """

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...]
    texts: int = 1


@dataclass(frozen=True, slots=True)
class Charts:
    """Charts side by side, one or two."""

    charts: tuple[Chart, ...]


Part = Heading | Paragraph | Bullets | Grid | Charts


@dataclass(frozen=True, slots=True)
class Sheet:
    """A document.

    Attributes:
        title: of the file.
        foot: stands at the foot of each page, beside its number.
        parts: in their order.
    """

    title: str
    foot: str
    parts: tuple[Part, ...]
