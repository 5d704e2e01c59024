"""Colours and type of what is drawn for page, paper and picture."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from PySide6.QtGui import QFont

FAMILIES = ("DejaVu Sans", "Noto Sans", "Segoe UI", "Helvetica Neue", "sans-serif")


class Ink(Protocol):
    """One set of colours, as #RRGGBB; a theme of the window is one."""

    @property
    def paper(self) -> str:
        """The ground."""

    @property
    def ink(self) -> str:
        """Text, marks, what must be seen first."""

    @property
    def quiet(self) -> str:
        """Text and lines of the second rank."""

    @property
    def wash(self) -> str:
        """The ground of a band."""

    @property
    def edge(self) -> str:
        """A band's drawn edges and other lines."""

    @property
    def hatch(self) -> str:
        """The strokes in a band."""


@dataclass(frozen=True, slots=True)
class Colours:
    """An ink of its own; the attributes are those of `Ink`."""

    paper: str
    ink: str
    quiet: str
    wash: str
    edge: str
    hatch: str


PRINT = Colours(
    paper="#FFFFFF",
    ink="#14202B",
    quiet="#4D5B67",
    wash="#E6EBEF",
    edge="#3E566A",
    hatch="#8C9DAB",
)
"""On white paper. Contrasts with it: ink 16.6, quiet 7.0, edge 7.6; the hatch only
fills what drawn edges bound."""


def font(size_px: float, *, bold: bool = False) -> QFont:
    """The program's type at a size in pixels."""
    made = QFont(list(FAMILIES))
    made.setPixelSize(max(8, round(size_px)))
    made.setBold(bold)
    # Joined letters would be found in a PDF by nobody who looks for the word.
    made.setFeature(QFont.Tag("liga"), 0)
    return made
