"""Pictures of pairs on a page: side by side where they fit, else in one column."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QSize
from PySide6.QtGui import QPainter

from biofeedback.gui.language import shown
from biofeedback.gui.point_sheet import PointSheet
from biofeedback.gui.theme import DAY
from biofeedback.report.pair_picture import PairPicture, point_words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from PySide6.QtGui import QPaintEvent, QResizeEvent
    from PySide6.QtWidgets import QWidget

    from biofeedback.gui.theme import Theme
    from biofeedback.report.pair_picture import PairChart

TYPE_PX = 13.0
COLUMN_LEAST = 26.0
"""Width of a picture at least, in heights of type."""
GAP = 1.5
NEAR = 1.2


class PairSheet(PointSheet):
    """Draws pictures; it has the height that they need at its width."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._charts: tuple[PairChart, ...] = ()
        self._pictures: list[PairPicture] = []
        self._theme: Theme = DAY
        self._type_px = TYPE_PX

    def show_charts(self, charts: Sequence[PairChart]) -> None:
        """Other pictures."""
        self._charts, self._at = tuple(charts), -1
        self.setAccessibleDescription(
            "\n".join(shown(chart.spoken) for chart in self._charts)
        )
        self._place()

    def set_theme(self, theme: Theme) -> None:
        """Day or night."""
        self._theme = theme
        self.update()

    def set_size(self, size: float) -> None:
        """Larger type, 1 for a window 720 pixels high."""
        self._type_px = TYPE_PX * size
        self._place()

    def heightForWidth(self, width: int) -> int:  # noqa: N802  # Qt's name
        """As high as the pictures."""
        return round(max((one.bottom for one in self._laid(width)), default=0.0)) + 2

    def sizeHint(self) -> QSize:
        """Two columns."""
        width = round(2.1 * COLUMN_LEAST * self._type_px)
        return QSize(width, self.heightForWidth(width))

    def minimumSizeHint(self) -> QSize:
        """One column."""
        width = round(COLUMN_LEAST * self._type_px)
        return QSize(width, self.heightForWidth(max(width, self.width())))

    def _laid(self, width: float) -> list[PairPicture]:
        gap = GAP * self._type_px
        each = (width - gap) / 2
        beside = each >= COLUMN_LEAST * self._type_px
        found: list[PairPicture] = []
        for number, chart in enumerate(self._charts):
            below = found[-1].bottom + gap if found and not beside else 0.0
            place = QPointF(number * (each + gap) if beside else 0.0, below)
            picture = PairPicture(
                chart,
                place,
                each if beside else width,
                type_px=self._type_px,
                shown=shown,
            )
            found.append(picture)
        return found

    def _place(self) -> None:
        self._pictures = self._laid(float(self.width()))
        self.updateGeometry()
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The pictures follow the width."""
        self._place()

    def paintEvent(self, event: QPaintEvent) -> None:
        """All pictures."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._theme.colour("paper"))
        for picture in self._pictures:
            picture.paint(painter, self._theme)
        painter.end()

    def told_at(self, place: QPointF) -> str:
        """The athlete near a place in words; empty where there is none."""
        for picture in self._pictures:
            point = picture.nearest(place, within_px=NEAR * self._type_px)
            if point is not None:
                return shown(point_words(picture.chart, point))
        return ""

    def walk(self) -> Sequence[tuple[QPointF, str]]:
        """Each athlete of each picture."""
        return [
            (one.at(point.x, point.y), shown(point_words(one.chart, point)))
            for one in self._pictures
            for point in one.chart.points
        ]
