"""Day and night: the colours and the type of the whole program.

Ink on paper by day, paper on ink by night, and one slate for the band. Nothing
is told by colour alone and there is no red and no green. Text reaches a contrast
of 4.5:1 and lines that carry meaning 3:1 (WCAG 2.2, success criteria 1.4.3 and
1.4.11) against every ground they stand on; `contrast` is that formula.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from PySide6.QtGui import QColor, QPalette

from biofeedback.report.ink import FAMILIES, font

__all__ = ["DAY", "FAMILIES", "NIGHT", "Theme", "contrast", "font", "luminance"]


@dataclass(frozen=True, slots=True)
class Theme:
    """One set of colours, as #RRGGBB.

    Attributes:
        paper: the ground.
        ink: text, the force line, everything that must be seen first.
        quiet: text and lines of the second rank.
        wash: the band while nothing is known about the force in it.
        dense: the band where the force was inside.
        edge: the band's drawn edges and other lines on paper.
        hatch: the strokes in the band where the force was outside.
        field: ground of an input field.
    """

    name: str
    paper: str
    ink: str
    quiet: str
    wash: str
    dense: str
    edge: str
    hatch: str
    field: str

    def colour(self, role: str) -> QColor:
        """The colour of a role, for example ``colour("ink")``."""
        return _colour(getattr(self, role))

    def qt_palette(self) -> QPalette:
        """The same colours for Qt's own widgets."""
        palette = QPalette()
        roles = QPalette.ColorRole
        for role, colour in (
            (roles.Window, self.paper),
            (roles.WindowText, self.ink),
            (roles.Base, self.field),
            (roles.AlternateBase, self.wash),
            (roles.Text, self.ink),
            (roles.Button, self.wash),
            (roles.ButtonText, self.ink),
            (roles.Highlight, self.edge),
            (roles.HighlightedText, self.paper),
            (roles.ToolTipBase, self.field),
            (roles.ToolTipText, self.ink),
            (roles.PlaceholderText, self.quiet),
        ):
            palette.setColor(role, QColor(colour))
        for role in (roles.WindowText, roles.Text, roles.ButtonText):
            palette.setColor(QPalette.ColorGroup.Disabled, role, QColor(self.quiet))
        return palette


DAY = Theme(
    name="day",
    paper="#F7F4EC",
    ink="#14202B",
    quiet="#4D5B67",
    wash="#D5DDE3",
    dense="#A3B6C5",
    edge="#3E566A",
    hatch="#64798A",
    field="#FFFDF8",
)
NIGHT = Theme(
    name="night",
    paper="#0F161D",
    ink="#F1ECDF",
    quiet="#B3BFC9",
    wash="#22303C",
    dense="#3F5466",
    edge="#A9BFD0",
    hatch="#8298A9",
    field="#18222B",
)


@cache
def _colour(written: str) -> QColor:
    """Read once: a frame asks for some twenty. Nobody changes what is given out."""
    return QColor(written)


def luminance(colour: str) -> float:
    """Relative luminance of #RRGGBB (WCAG 2.2, definition of the term)."""
    channels = []
    for start in (1, 3, 5):
        level = int(colour[start : start + 2], 16) / 255
        channels.append(
            level / 12.92 if level <= 0.04045 else ((level + 0.055) / 1.055) ** 2.4
        )
    red, green, blue = channels
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(first: str, second: str) -> float:
    """Contrast ratio of two colours, 1 to 21 (WCAG 2.2)."""
    dark, light = sorted((luminance(first), luminance(second)))
    return (light + 0.05) / (dark + 0.05)
