"""The band to come, right of *now*: the way in, the hold and its end.

In columns of the picture, like the past: a hold under way goes on without a seam.
From frame to frame it stands still, in time or beside *now*; so it is kept as a pixmap
and drawn anew only where it does neither.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QLineF, QPointF, Qt
from PySide6.QtGui import QPainter, QPen, QPixmap, QPolygonF

from biofeedback.gui.band_brush import BandLook
from biofeedback.training.feedback import Cue

if TYPE_CHECKING:
    from biofeedback.gui.path_content import PathContent
    from biofeedback.gui.path_picture import PathPicture
    from biofeedback.gui.theme import Theme
    from biofeedback.training.band import Band
    from biofeedback.training.feedback import Stretch

ENTRY_RAMP_S = 0.7
"""How long before a hold its drawn way in begins. A picture, not a rule."""
SPARE_COLUMNS = 64
"""So far the kept picture reaches further than is seen: *now* goes along it."""

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


class Hold(NamedTuple):
    """A hold that is to come, in columns.

    Attributes:
        first: where it begins; None for a hold under way, which goes on from *now*.
        last: the column after its end; None where it is not in sight.
    """

    first: int | None
    last: int | None

    def moved(self, columns: int) -> Hold:
        """The same further left."""
        first, last = self
        return Hold(
            None if first is None else first - columns,
            None if last is None else last - columns,
        )


class Ahead(NamedTuple):
    """All that the picture right of *now* is made of.

    Attributes:
        stretches: the holds that are to come.
        base_s: the moment from which they are counted.
        flows: whether that moment goes along with *now*.
        look: of a hold under way; one that is to come is quiet.
        room: columns right of *now*.
        end: the column of *now*.
    """

    stretches: tuple[Stretch, ...]
    base_s: float
    flows: bool
    look: BandLook
    band: Band
    room: int
    end: int


class _Seen(NamedTuple):
    """What stands on the screen; holds in columns from *now* on."""

    look: BandLook
    band: Band
    room: int
    holds: tuple[Hold, ...]


class PathAhead:
    """Draws the holds that are to come.

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
        self._height = height
        self._columns_per_s = columns_per_s
        self._paper, self._edge = theme.colour("paper"), theme.colour("edge")
        self._pixmap = QPixmap()
        self._drawn: Ahead | None = None
        self._holds: tuple[Hold, ...] = ()
        self._skipped = 0
        self._seen: _Seen | None = None

    def follow(self, ahead: Ahead) -> int:
        """What is to come now.

        Returns:
            How many columns right of *now* look different from the last time.
        """
        holds = self._columns(ahead)
        skipped = self._stands(ahead, holds)
        if skipped is None:
            self._drawn, self._holds, skipped = ahead, holds, 0
            self._draw(ahead, holds)
        self._skipped = skipped
        now = (self._drawn or ahead).end + skipped
        shown = tuple([one.moved(now) for one in self._holds])
        seen = _Seen(ahead.look, ahead.band, ahead.room, shown)
        before, self._seen = self._seen, seen
        return ahead.room if before is None else self._changed(before, seen)

    def _changed(self, before: _Seen, seen: _Seen) -> int:
        """Up to which column two pictures differ."""
        outside = seen.look is BandLook.OUTSIDE
        hatched = outside and any(one.first is None for one in seen.holds)
        others = before[:3] != seen[:3] or len(before.holds) != len(seen.holds)
        if others or hatched:  # a hatching moves as a whole
            return seen.room
        post = self._picture.pens.edge_inside
        changed = 0
        for one, other in zip(before.holds, seen.holds, strict=True):
            if one.last is None or other.last is None:
                changed = seen.room if one != other else changed
            elif one != other:
                changed = max(changed, one.last + post, other.last + post)
        return min(seen.room, changed)

    def paint(self, painter: QPainter, left: int, room: int) -> None:
        """Ground and holds.

        Args:
            left: where *now* stands.
            room: columns right of it.
        """
        at, height = self._skipped, self._height
        painter.drawPixmap(left, 0, self._pixmap, at, 0, room, height)

    def _columns(self, ahead: Ahead) -> tuple[Hold, ...]:
        per_s, base_s = self._columns_per_s, ahead.base_s
        sight = ahead.end + ahead.room + SPARE_COLUMNS
        holds = []
        for one in ahead.stretches:
            first = math.floor((base_s + one.start_s) * per_s) if one.entry else None
            last = (base_s + one.end_s) * per_s
            holds.append(Hold(first, math.floor(last) if last < sight else None))
        return tuple(holds)

    def _stands(self, ahead: Ahead, holds: tuple[Hold, ...]) -> int | None:
        """From which column on the kept picture shows this; None where it does not."""
        drawn, room = self._drawn, ahead.room
        if drawn is None or drawn.look is not ahead.look or drawn.band != ahead.band:
            return None
        # A hatching stands still in time, and never beside *now*.
        beside = ahead.flows and drawn.flows and ahead.look is not BandLook.OUTSIDE
        if beside and room <= drawn.room and ahead.stretches == drawn.stretches:
            return 0
        gone = ahead.end - drawn.end
        if holds == self._holds and 0 <= gone <= self._pixmap.width() - room:
            return gone
        return None

    def _draw(self, ahead: Ahead, holds: tuple[Hold, ...]) -> None:
        height = self._height
        wide = max(self._pixmap.width(), ahead.room + SPARE_COLUMNS)
        if self._pixmap.width() < wide:
            self._pixmap = QPixmap(wide, height)
        painter = QPainter(self._pixmap)
        rest = round(self._content.scale.y(0.0, height))
        painter.fillRect(0, 0, wide, height, self._paper)
        painter.fillRect(0, rest, wide, 2, self._edge)
        painter.translate(-ahead.end, 0)
        for hold in holds:
            self._draw_hold(painter, hold, ahead)
        painter.end()

    def _draw_hold(self, painter: QPainter, hold: Hold, ahead: Ahead) -> None:
        """Way in, band and end."""
        band, brush = ahead.band, self._picture.brush
        rows = self._picture.rows(band)
        first, look = ahead.end, ahead.look
        if hold.first is not None:
            first, look = hold.first, BandLook.QUIET
            self._draw_way_in(painter, first, band)
        last = hold.last
        if last is None:
            last = ahead.end + self._pixmap.width()
        if last > first:
            columns = (first, last)
            brush.paint(painter, columns, rows, look, open_above=band.open_above)
            brush.paint_post(painter, last, rows)

    def _draw_way_in(self, painter: QPainter, first: int, band: Band) -> None:
        """From rest into the band, ending at column `first`."""
        brush = self._picture.brush
        top, foot = self._picture.rows(band)
        start = first - round(ENTRY_RAMP_S * self._columns_per_s)
        rest = self._content.scale.y(0.0, self._height)
        width = brush.edge_width(BandLook.QUIET)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(brush.fill(BandLook.QUIET))
        corners = ((start, rest), (first, top), (first, foot))
        painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in corners]))
        painter.setPen(QPen(self._edge, width))
        edges = [foot + width / 2] if band.open_above else [top - 1, foot + width / 2]
        for row in edges:
            painter.drawLine(QLineF(start, rest, first, row))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
