"""The ring of columns: a pixmap used as a ring, so that only what is new is drawn.

A frame costs two blits and a few new columns, whatever the sample rate and the
time shown. A column is drawn by the same code whether it is new or all is drawn
anew, so both give the same picture.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtGui import QPainter, QPixmap

if TYPE_CHECKING:
    from biofeedback.gui.path_picture import PathPicture


class ColumnRing:
    """The drawn columns, kept in a pixmap: column c lies at c modulo the width."""

    def __init__(self) -> None:
        self._pixmap = QPixmap()
        self._end: int | None = None
        self._dirty_from: int | None = None
        self.drawn_columns = 0
        """How many columns have been drawn so far, for tests and measurements."""

    @property
    def width(self) -> int:
        """How many columns are kept."""
        return self._pixmap.width()

    @property
    def height(self) -> int:
        """How high each column is."""
        return self._pixmap.height()

    def resize(self, width: int, height: int) -> None:
        """Another size; everything is drawn anew."""
        self._pixmap = QPixmap(max(1, width), max(1, height))
        self._end = None

    def invalidate(self) -> None:
        """Everything is drawn anew with the next refresh."""
        self._end = None

    def invalidate_from(self, column: int) -> None:
        """The columns from here on are drawn anew with the next refresh."""
        if self._dirty_from is None or column < self._dirty_from:
            self._dirty_from = column

    def refresh(self, picture: PathPicture, end: int, *, newer: bool = True) -> None:
        """Draws what is missing up to, not including, column `end`.

        Args:
            newer: whether samples came since the last time, if only in a column
                that has been drawn already.
        """
        oldest = end - self.width
        if self._end is None or end < self._end:
            first = oldest
        else:
            # The newest columns again: the line goes on from where it ended.
            first = min(self._end, end) - picture.reach
            if self._dirty_from is not None:
                first = min(first, self._dirty_from - picture.margin)
            if self._end == end and self._dirty_from is None and not newer:
                return
        first = max(first, oldest)
        self._end, self._dirty_from = end, None
        self.drawn_columns += end - first
        painter = QPainter(self._pixmap)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        while first < end:
            lap = first // self.width * self.width
            stop = min(end, lap + self.width)
            painter.resetTransform()
            painter.translate(-lap, 0)
            picture.paint(painter, first, stop)
            first = stop
        painter.end()

    def blit(self, painter: QPainter, left: int, top: int) -> None:
        """Copies the ring so that its oldest column stands at `left`."""
        if self._end is None:
            return
        height = self._pixmap.height()
        split = self._end % self.width
        older = self.width - split
        painter.drawPixmap(left, top, self._pixmap, split, 0, older, height)
        if split:
            painter.drawPixmap(left + older, top, self._pixmap, 0, 0, split, height)
