"""Residuals of a calibration: how far each reading lies off the curve.

Rising readings are filled discs, falling ones hollow triangles, told by shape.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPaintEvent, QPen, QPolygonF

from biofeedback.conditioning.calibration_points import Direction
from biofeedback.gui.language import filled
from biofeedback.gui.panel import Panel
from biofeedback.phrase import numbered

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from biofeedback.conditioning.calibration_fit import CalibrationFit

TEXT_PX = 12
MARK_PX = 4.5


class ResidualPlot(Panel):
    """Force to the right, residual in newtons up."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Residuals", parent)
        self.setAccessibleName(self.tr("Residuals"))
        self._size = 1.0
        self.set_size(1.0)
        self._marks: list[tuple[float, float, Direction]] = []
        self._to_n = 0.0
        self._most_n = 0.0
        self.show_fit(None)

    def set_size(self, size: float) -> None:
        """Larger type, 1 for a window 720 pixels high."""
        self._size = size
        self.setMinimumHeight(round(120 * size))
        self.update()

    def show_fit(self, fit: CalibrationFit | None) -> None:
        """Another fit, or none."""
        self._marks = []
        if fit is None:
            self.describe(self.tr("No fit yet: take points under three loads."))
            self.update()
            return
        per_n = float(fit.slope(fit.to_n))
        self._marks = [
            (point.force_n, residual / per_n, point.direction)
            for point, residual in zip(
                fit.fitted_points, fit.residuals_counts, strict=True
            )
        ]
        self._to_n = max(fit.to_n, 1e-9)
        self._most_n = max(abs(at) for _, at, _ in self._marks) or 1e-9
        self.describe(
            filled(
                self.tr(
                    "{residuals}, the largest {most:.3g} N, loads up to {to:.4g} N"
                ),
                residuals=numbered(len(self._marks), "1 residual", "{count} residuals"),
                most=self._most_n,
                to=self._to_n,
            )
        )
        self.update()

    @property
    def marks(self) -> int:
        """How many residuals are drawn."""
        return len(self._marks)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draws frame, zero line and marks."""
        painter = self.begin()
        area = QRectF(self.rect()).adjusted(
            76 * self._size, 22 * self._size, -12, -24 * self._size
        )
        painter.setPen(QPen(self.theme.colour("edge"), 1))
        painter.drawRect(area)
        title = QRectF(area.left(), 2, area.width(), 18 * self._size)
        words = self.tr("Residuals: ● rising, ▽ falling")
        left = Qt.AlignmentFlag.AlignLeft
        if not self._marks:
            words = self.accessibleDescription()
        self.write(painter, title, words, size_px=TEXT_PX * self._size, align=left)
        if self._marks:
            self._scales(painter, area)
            for force_n, residual_n, direction in self._marks:
                self._mark(painter, self._place(area, force_n, residual_n), direction)
        painter.end()

    def _place(self, area: QRectF, force_n: float, residual_n: float) -> QPointF:
        inner = area.adjusted(10, 8, -10, -8)
        return QPointF(
            inner.left() + inner.width() * force_n / self._to_n,
            inner.center().y() - inner.height() / 2 * residual_n / self._most_n,
        )

    def _scales(self, painter: QPainter, area: QRectF) -> None:
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        for share, text in (
            (1, f"+{self._most_n:.3g} N"),
            (0, "0"),
            (-1, f"−{self._most_n:.3g} N"),
        ):
            y = self._place(area, 0.0, share * self._most_n).y()
            box = QRectF(0, y - 9, area.left() - 6, 18)
            self.write(painter, box, text, size_px=TEXT_PX * self._size, align=right)
        zero = self._place(area, 0.0, 0.0).y()
        painter.setPen(QPen(self.theme.colour("edge"), 1, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(area.left(), zero), QPointF(area.right(), zero))
        below = QRectF(area.left(), area.bottom() + 4, area.width(), 18 * self._size)
        left = Qt.AlignmentFlag.AlignLeft
        self.write(painter, below, "0 N", size_px=TEXT_PX * self._size, align=left)
        self.write(
            painter,
            below,
            f"{self._to_n:.4g} N",
            size_px=TEXT_PX * self._size,
            align=Qt.AlignmentFlag.AlignRight,
        )

    def _mark(self, painter: QPainter, at: QPointF, direction: Direction) -> None:
        painter.setPen(QPen(self.theme.colour("ink"), 1.5))
        if direction is Direction.UP:
            painter.setBrush(QBrush(self.theme.colour("ink")))
            painter.drawEllipse(at, MARK_PX, MARK_PX)
            return
        painter.setBrush(Qt.BrushStyle.NoBrush)
        size = MARK_PX * 1.3
        painter.drawPolygon(
            QPolygonF(
                [
                    QPointF(at.x() - size, at.y() - size * 0.7),
                    QPointF(at.x() + size, at.y() - size * 0.7),
                    QPointF(at.x(), at.y() + size),
                ]
            )
        )
