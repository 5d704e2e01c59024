"""Stillness: how much the counts spread against what is allowed for a point."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QPaintEvent, QPen

from biofeedback.gui.panel import Panel

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from biofeedback.conditioning.calibration_guide import Stillness

LIMIT_AT = 0.5
"""Where the limit stands in the bar: as much room above it as below."""


class StillBar(Panel):
    """A bar that is short while the cell is still, with a mark at the limit."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Stillness", parent)
        self.setAccessibleName(self.tr("Stillness"))
        self._share = 0.0
        self._still = False
        self.words = ""
        self.show_stillness(None)

    def show_stillness(self, now: Stillness | None) -> None:
        """What is known of the last second; None while nothing is measured."""
        tr = self.tr
        self._share, self._still = 0.0, False
        if now is None:
            self.words = tr("Nothing is measured yet.")
        elif now.problem:
            self.words = now.problem
        elif now.share < 1 or math.isnan(now.spread_counts):
            self.words = tr("Listening for one second …")
        else:
            self._still = now.still
            self._share = min(1.0, LIMIT_AT * now.spread_counts / now.limit_counts)
            words = tr("Still") if now.still else tr("Moving")
            self.words = tr(
                "{words}: {counts} counts, spread {spread}, {limit} allowed"
            ).format(
                words=words,
                counts=f"{now.counts:,.0f}".replace(",", " "),
                spread=f"{now.spread_counts:.0f}",
                limit=f"{now.limit_counts:.0f}",
            )
        self.describe(self.words)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draws words, bar and limit."""
        painter = self.begin()
        height = self.height()
        box = QRectF(0, 0, self.width(), height * 0.55)
        left = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        self.write(
            painter,
            box,
            self.words,
            size_px=height * 0.32,
            align=left,
            bold=self._still,
        )
        bar = QRectF(1, height * 0.62, self.width() - 2, height * 0.3)
        painter.fillRect(bar, self.theme.colour("wash"))
        filled = QRectF(bar)
        filled.setWidth(bar.width() * self._share)
        painter.fillRect(filled, self.theme.colour("ink" if self._still else "hatch"))
        painter.setPen(QPen(self.theme.colour("edge"), 2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(bar)
        at = bar.left() + LIMIT_AT * bar.width()
        painter.setPen(QPen(self.theme.colour("ink"), 3))
        painter.drawLine(
            round(at), round(bar.top() - 4), round(at), round(bar.bottom())
        )
        painter.end()
