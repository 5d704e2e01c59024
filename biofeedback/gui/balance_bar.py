"""The balance bar: a spirit level for left and right.

The bubble goes to the heavier side. Left is hollow and dashed, right is filled
and solid; within the tolerance the bubble is half of each.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPixmap, QResizeEvent

from biofeedback.gui.marks import Fill, Stamps, disc
from biofeedback.gui.panel import Panel

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from biofeedback.gui.theme import Theme

FULL_POINTS = 25.0
"""The end of the beam: one side carries 75 % of the total."""
LEAST_N = 5.0
"""Below this total a share says nothing; it is the least onset level of a rep."""
FIGURES_EVERY_S = 0.25
"""Figures that change faster cannot be read; the bubble moves with each frame, unless
motion is to be reduced."""
TOLERANCE_PLAIN_POINTS = 5.0
"""Drawn where the prescription names no tolerance; it judges nothing."""


class BalanceBar(Panel):
    """Shows how the total is shared between left and right."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Balance", parent)
        self.setAccessibleName(self.tr("Balance"))
        self._tolerance_points = TOLERANCE_PLAIN_POINTS
        self._stepped = False
        self._right_pct: float | None = None
        self._figures: tuple[str, str] = ("–", "–")
        self._told: tuple[str, str] | None = None
        self._figures_at_s = -math.inf
        self._bubble_px, self._bubble_fill = 0, Fill.HALVED
        self._beam_kept = QPixmap()
        self._beam_key: object = None
        self._ground_kept = QPixmap()
        self._ground_key: object = None
        self._stamps = Stamps(self._draw_bubble)

    def set_tolerance(self, points: float | None) -> None:
        """How far a share may be from 50 % of the total, in points."""
        self._tolerance_points = TOLERANCE_PLAIN_POINTS if points is None else points
        self.update()

    def set_stepped(self, *, stepped: bool) -> None:
        """The bubble moves with the figures only, and not with each frame, and back."""
        self._stepped = stepped

    def show_forces(self, time_s: float, left_n: float, right_n: float) -> None:
        """The newest forces; NaN where one is not to be used."""
        total_n = left_n + right_n
        if not total_n >= LEAST_N:  # also when it is NaN
            self.show_nothing()
            return
        share_pct = min(100.0, max(0.0, 100.0 * right_n / total_n))
        since_s = time_s - self._figures_at_s
        due = self._figures[0] == "–" or not 0 <= since_s < FIGURES_EVERY_S
        if due or not self._stepped:
            self._right_pct = share_pct
        if due:
            self._figures_at_s = time_s
            right = round(share_pct)
            self._figures = (f"{100 - right} %", f"{right} %")
        self._tell()

    def show_nothing(self) -> None:
        """No force worth comparing, or no signal: no bubble, no figures."""
        self._right_pct = None
        self._figures = ("–", "–")
        self._tell()

    @property
    def bubble_points(self) -> float | None:
        """Where the bubble stands: points to the right of the middle, or None."""
        return None if self._right_pct is None else self._right_pct - 50.0

    def _tell(self) -> None:
        if self._figures != self._told:
            self._told = left, right = self._figures
            self.describe(
                self.tr("Left {left}, right {right}").format(left=left, right=right)
            )
        at_px, fill = self._bubble_at(), self._fill()
        if (at_px, fill) != (self._bubble_px, self._bubble_fill):
            first, last = sorted((at_px, self._bubble_px))
            self._bubble_px, self._bubble_fill = at_px, fill
            # Only where the bubble was and where it is now.
            near = 4 + self.height() // 2
            self.update(first - near, 0, last - first + 2 * near, self.height())

    def _fill(self) -> Fill:
        """How the bubble is drawn: by its side, or as both within the tolerance."""
        points = self.bubble_points or 0.0
        if abs(points) <= self._tolerance_points:
            return Fill.HALVED
        return Fill.HOLLOW if points < 0 else Fill.SOLID

    def set_theme(self, theme: Theme) -> None:
        """Another set of colours."""
        super().set_theme(theme)
        self._stamps.clear()

    def _beam(self) -> QRectF:
        side = self.height() * 2.6
        return QRectF(self.rect()).adjusted(side, 0, -side, 0)

    def _x(self, points: float) -> float:
        height, width = self.height(), self.width()
        share = max(-1.0, min(1.0, points / FULL_POINTS))
        # The bubble, 0.3 of the height, stays within the beam.
        return width / 2 + share * (width / 2 - height * (2.6 + 0.3 * 1.6))

    def _bubble_x(self, points: float) -> int:
        """A whole pixel: nearer than that it is not painted anew."""
        return round(self._x(points))

    def _bubble_at(self) -> int:
        """The same of the bubble that is shown; left of all where there is none."""
        points = self.bubble_points
        return -1 if points is None else self._bubble_x(points)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """All is painted anew, with the bubble where this size has it."""
        self._bubble_px = self._bubble_at()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draws beam, tolerance, bubble and figures."""
        painter = self.begin_kept()
        painter.drawPixmap(0, 0, self._ground())
        points = self.bubble_points
        if points is not None:
            height = self.height()
            self._stamps.put(
                painter,
                "bubble",
                (self._bubble_x(points), height / 2),
                height * 0.27,
                self._fill(),
                ratio=self.devicePixelRatio(),
            )
        painter.end()

    def _draw_bubble(
        self, painter: QPainter, _: str, centre: QPointF, radius: float, fill: Fill
    ) -> None:
        ink, paper = self.theme.colour("ink"), self.theme.colour("paper")
        disc(painter, centre, radius, ink=ink, paper=paper, fill=fill)

    def _ground(self) -> QPixmap:
        """Paper, beam and figures, which stay as they are while the bubble moves."""
        ratio = self.devicePixelRatio()
        key = (self.size(), ratio, self.theme, self._tolerance_points)
        if self._beam_key != key:
            self._beam_key = key
            self._beam_kept = QPixmap(self.size() * ratio)
            self._beam_kept.setDevicePixelRatio(ratio)
            self._beam_kept.fill(self.theme.colour("paper"))
            inner = QPainter(self._beam_kept)
            inner.setRenderHint(QPainter.RenderHint.Antialiasing)
            self._paint_beam(inner)
            inner.end()
        if self._ground_key != (key, self._figures):
            self._ground_key = (key, self._figures)
            self._ground_kept = self._beam_kept.copy()
            inner = QPainter(self._ground_kept)
            inner.setRenderHint(QPainter.RenderHint.Antialiasing)
            self._write_shares(inner)
            inner.end()
        return self._ground_kept

    def _paint_beam(self, painter: QPainter) -> None:
        """A tube, its left half dashed and its right half solid, and its marks."""
        beam, height = self._beam(), self.height()
        middle = beam.center().x()
        tube = QRectF(beam.left(), height * 0.14, beam.width(), height * 0.72)
        radius = tube.height() / 2
        allowed = QRectF(tube)
        allowed.setLeft(self._x(-self._tolerance_points))
        allowed.setRight(self._x(self._tolerance_points))
        painter.fillRect(allowed, self.theme.colour("wash"))
        line = max(2.0, height / 30)
        edge = self.theme.colour("edge")
        solid = QPen(edge, line)
        solid.setCapStyle(Qt.PenCapStyle.FlatCap)
        dashed = QPen(solid)
        dashed.setDashPattern([3.0, 2.0])
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for pen, clip_left, clip_right in (
            (dashed, 0.0, middle),
            (solid, middle, float(self.width())),
        ):
            painter.setClipRect(QRectF(clip_left, 0, clip_right - clip_left, height))
            painter.setPen(pen)
            painter.drawRoundedRect(tube, radius, radius)
        painter.setClipping(False)
        painter.setPen(solid)
        for x in (allowed.left(), allowed.right()):
            painter.drawLine(QLineF(x, tube.top(), x, tube.bottom()))
        painter.setPen(QPen(self.theme.colour("ink"), line * 1.3))
        painter.drawLine(QLineF(middle, 0, middle, height * 0.26))
        painter.drawLine(QLineF(middle, height * 0.74, middle, height))

    def _write_shares(self, painter: QPainter) -> None:
        """Each side's share at its own end, with its sign before it."""
        height, width = self.height(), self.width()
        ink, paper = self.theme.colour("ink"), self.theme.colour("paper")
        sign = height * 0.13
        for x, fill in (
            (sign * 1.6, Fill.HOLLOW),
            (width - sign * 1.6, Fill.SOLID),
        ):
            disc(painter, QPointF(x, height / 2), sign, ink=ink, paper=paper, fill=fill)
        size = height * 0.44
        gap = sign * 3.6
        words = height * 2.5 - gap
        middle = Qt.AlignmentFlag.AlignVCenter
        self.write(
            painter,
            QRectF(gap, 0, words, height),
            self._figures[0],
            size_px=size,
            bold=True,
            align=Qt.AlignmentFlag.AlignLeft | middle,
        )
        self.write(
            painter,
            QRectF(width - gap - words, 0, words, height),
            self._figures[1],
            size_px=size,
            bold=True,
            align=Qt.AlignmentFlag.AlignRight | middle,
        )
