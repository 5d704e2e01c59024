"""The band to come, right of *now*: the way in, the hold and its end.

In columns of the picture, like the past: a hold under way goes on without a seam.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, Qt
from PySide6.QtGui import QPainter, QPen, QPolygonF

from biofeedback.gui.band_brush import BandLook
from biofeedback.gui.path_content import PAST_S
from biofeedback.training.feedback import Cue

if TYPE_CHECKING:
    from biofeedback.gui.path_content import PathContent
    from biofeedback.gui.path_picture import PathPicture
    from biofeedback.gui.theme import Theme
    from biofeedback.training.feedback import Stretch

AHEAD_S = PAST_S / 2
"""*Now* at two thirds of the width."""
ENTRY_RAMP_S = 0.7
"""How long before a hold its drawn way in begins. A picture, not a rule."""

_LOOK_BY_CUE = {
    Cue.STAY: BandLook.INSIDE,
    Cue.EVEN: BandLook.INSIDE,
    Cue.MORE: BandLook.OUTSIDE,
    Cue.LESS: BandLook.OUTSIDE,
    Cue.MUCH_LESS: BandLook.OUTSIDE,
    Cue.TOO_MUCH: BandLook.OUTSIDE,
}


def look_of(cue: Cue) -> BandLook:
    """How the rest of a hold under way looks while a cue is given."""
    return _LOOK_BY_CUE.get(cue, BandLook.QUIET)


class PathAhead:
    """Draws one hold that is to come.

    Args:
        picture: its brush and its rows.
        content: gives band and scale.
        height: of the plot, in pixels.
        columns_per_s: of the picture.
    """

    def __init__(
        self,
        picture: PathPicture,
        content: PathContent,
        *,
        theme: Theme,
        height: int,
        columns_per_s: float,
    ) -> None:
        self._picture = picture
        self._content = content
        self._theme = theme
        self._height = height
        self._columns_per_s = columns_per_s

    def paint(
        self,
        painter: QPainter,
        stretch: Stretch,
        *,
        base_s: float,
        first: int,
        look: BandLook,
    ) -> None:
        """Way in, band and end.

        Args:
            base_s: the moment from which the stretch is counted.
            first: column at which a hold under way goes on.
            look: of a hold under way; one that is to come is quiet.
        """
        # Far ends lie off the picture; the clip does the rest.
        end_s = min(stretch.end_s, 4 * AHEAD_S)
        last = math.floor((base_s + end_s) * self._columns_per_s)
        if stretch.entry:
            look = BandLook.QUIET
            first = math.floor((base_s + stretch.start_s) * self._columns_per_s)
            self._paint_way_in(painter, first)
        if last <= first:
            return
        band, brush = self._content.band, self._picture.brush
        top, foot = self._picture.rows(band)
        brush.paint(
            painter, (first, last), (top, foot), look, open_above=band.open_above
        )
        brush.paint_post(painter, last, (top, foot))

    def _paint_way_in(self, painter: QPainter, first: int) -> None:
        """From rest into the band, ending at column `first`."""
        band, brush = self._content.band, self._picture.brush
        top, foot = self._picture.rows(band)
        start = first - round(ENTRY_RAMP_S * self._columns_per_s)
        rest = self._content.scale.y(0.0, self._height)
        width = brush.edge_width(BandLook.QUIET)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(brush.fill(BandLook.QUIET))
        corners = ((start, rest), (first, top), (first, foot))
        painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in corners]))
        painter.setPen(QPen(self._theme.colour("edge"), width))
        edges = [foot + width / 2] if band.open_above else [top - 1, foot + width / 2]
        for row in edges:
            painter.drawLine(QLineF(start, rest, first, row))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
