"""The picture of a filter search: age of the shown value against noise.

Each candidate is a small ring; those on the front are dots on a line, the recommended
one is in a square, and the limit of the rule is dashed. Numbers stand in discs beside
their dots, where there is room, and are told in a list. Noise is on a scale of powers
of ten.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPen

from biofeedback.report.ink import PRINT, font
from biofeedback.report.writing import painting
from biofeedback.tuning.choice import front

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.tuning.choice import Rule, Score

WIDTH, HEIGHT = 1280, 720
PLOT = QRectF(90, 60, 690, 570)
LIST_X = 820
TYPE = 16
LEAST_N = 1e-4
"""A noise below it is drawn there: zero has no place on a scale of powers."""

DISC = 9.0
"""Radius of a disc with a number."""
APART = 2 * DISC + 2.0
CLEAR = DISC + 6.0
"""Between a disc and a dot or a ring."""
FAR = 22.0
STEPS = range(1, 9)
TURNS = (-45, -20, -70, 0, -90, -135, 45, 90, 160, 180)
"""Degrees at which room for a disc is looked for: the front falls to the right, so
above and to the right of it first."""


def number_places(
    dots: Sequence[tuple[float, float]], rings: Sequence[tuple[float, float]]
) -> list[tuple[float, float]]:
    """Middles of the discs, one beside each dot: no two of them overlap.

    Where there is room no disc covers a dot or a ring either.

    Args:
        dots: in pixels, y downwards.
        rings: likewise.
    """
    found: list[tuple[float, float]] = []
    for dot in dots:
        free = [
            place
            for place in _around(dot)
            if PLOT.contains(*place) and _off(place, found) >= APART
        ]
        quiet = [place for place in free if _off(place, rings) >= CLEAR]
        clear = [place for place in free if _off(place, dots) >= CLEAR]
        found.append((quiet or clear or free or [dot])[0])
    return found


def _around(dot: tuple[float, float]) -> list[tuple[float, float]]:
    """Places to try, the nearest first."""
    x, y = dot
    return [
        (
            x + FAR * step * math.cos(math.radians(turn)),
            y + FAR * step * math.sin(math.radians(turn)),
        )
        for step in STEPS
        for turn in TURNS
    ]


def _off(place: tuple[float, float], others: Sequence[tuple[float, float]]) -> float:
    return min((math.dist(place, other) for other in others), default=math.inf)


def lag_noise_picture(
    scores: Sequence[Score], chosen: Score | None, rule: Rule
) -> QImage:
    """Draws it, on white.

    Args:
        scores: at least one.
        chosen: the recommended one, or None.
        rule: whose limit is drawn.
    """
    _app = painting()
    image = QImage(WIDTH, HEIGHT, QImage.Format.Format_RGB32)
    image.fill(QColor(PRINT.paper))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    _Picture(painter, scores).draw(chosen, rule)
    painter.end()
    return image


class _Picture:
    def __init__(self, painter: QPainter, scores: Sequence[Score]) -> None:
        self._painter = painter
        self._scores = scores
        oldest_s = max(each.age_s for each in front(scores))
        self._age_most_ms = 20 * math.ceil(1000 * oldest_s / 20 + 0.2)
        powers = [math.log10(max(LEAST_N, each.noise_n)) for each in scores]
        self._low = math.floor(min(powers))
        self._high = max(math.ceil(max(powers)), self._low + 1)

    def draw(self, chosen: Score | None, rule: Rule) -> None:
        painter, ink = self._painter, QColor(PRINT.ink)
        painter.setFont(font(TYPE))
        self._axes()
        self._limit(rule)
        painter.setPen(QPen(QColor(PRINT.quiet), 1.5))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for each in self._scores:
            if 1000 * each.age_s <= self._age_most_ms:
                painter.drawEllipse(self._at(each), 3.5, 3.5)
        best = front(self._scores)
        painter.setPen(QPen(QColor(PRINT.edge), 2))
        painter.drawPolyline([self._at(each) for each in best])
        dots = [self._at(each) for each in best]
        places = number_places(
            [(dot.x(), dot.y()) for dot in dots],
            [(at.x(), at.y()) for at in map(self._at, self._scores)],
        )
        for number, (each, dot, (x, y)) in enumerate(
            zip(best, dots, places, strict=True), start=1
        ):
            painter.setPen(QPen(ink, 1))
            painter.drawLine(dot, QPointF(x, y))
            painter.setBrush(ink)
            painter.drawEllipse(dot, 4, 4)
            if chosen is not None and each.choice == chosen.choice:
                painter.setPen(QPen(ink, 2))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.drawRect(QRectF(dot.x() - 8, dot.y() - 8, 16, 16))
                painter.setBrush(ink)
            painter.drawEllipse(QPointF(x, y), DISC, DISC)
            painter.setPen(QColor(PRINT.paper))
            painter.setFont(font(10, bold=True))
            box = QRectF(x - 12, y - 12, 24, 24)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(number))
        self._list(best, chosen)

    def _at(self, score: Score) -> QPointF:
        power = math.log10(max(LEAST_N, score.noise_n))
        return QPointF(self._x(1000 * score.age_s), self._y(power))

    def _x(self, age_ms: float) -> float:
        return PLOT.left() + PLOT.width() * age_ms / self._age_most_ms

    def _y(self, power: float) -> float:
        share = (power - self._low) / (self._high - self._low)
        return PLOT.bottom() - PLOT.height() * share

    def _axes(self) -> None:
        painter = self._painter
        painter.setPen(QPen(QColor(PRINT.quiet), 1))
        painter.drawRect(PLOT)
        step_ms = 20 * max(1, math.ceil(self._age_most_ms / 200))
        for age_ms in range(0, self._age_most_ms + 1, step_ms):
            x = self._x(age_ms)
            painter.drawLine(QPointF(x, PLOT.bottom()), QPointF(x, PLOT.bottom() + 6))
            box = QRectF(x - 40, PLOT.bottom() + 8, 80, 22)
            painter.drawText(box, Qt.AlignmentFlag.AlignCenter, str(age_ms))
        for power in range(self._low, self._high + 1):
            y = self._y(power)
            painter.drawLine(QPointF(PLOT.left() - 6, y), QPointF(PLOT.left(), y))
            box = QRectF(0, y - 12, PLOT.left() - 10, 24)
            middle = Qt.AlignmentFlag.AlignVCenter
            painter.drawText(
                box, Qt.AlignmentFlag.AlignRight | middle, f"{10.0**power:g}"
            )
        painter.setPen(QColor(PRINT.ink))
        painter.drawText(QPointF(20, 40), "Noise left in holds, N rms")
        box = QRectF(PLOT.left(), PLOT.bottom() + 36, PLOT.width(), 24)
        words = "Age of the shown value, ms"
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)

    def _limit(self, rule: Rule) -> None:
        limit_ms = 1000 * rule.age_most_s
        if limit_ms > self._age_most_ms:
            return
        x = self._x(limit_ms)
        painter = self._painter
        painter.setPen(QPen(QColor(PRINT.edge), 1.5, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(x, PLOT.top()), QPointF(x, PLOT.bottom()))
        painter.drawText(QPointF(x + 8, PLOT.top() + 22), f"limit {limit_ms:g} ms")

    def _list(self, best: Sequence[Score], chosen: Score | None) -> None:
        painter = self._painter
        painter.setPen(QColor(PRINT.ink))
        painter.setFont(font(TYPE, bold=True))
        painter.drawText(QPointF(LIST_X, 40), "On the front; rings are all others")
        line_px = min(28.0, (HEIGHT - 70) / max(1, len(best)))
        for number, each in enumerate(best, start=1):
            mine = chosen is not None and each.choice == chosen.choice
            painter.setFont(font(min(15.0, line_px * 0.6), bold=mine))
            y = 50 + number * line_px
            name = f"{each.name} (recommended)" if mine else each.name
            painter.drawText(QPointF(LIST_X, y), f"{number}")
            painter.drawText(QPointF(LIST_X + 30, y), name)
        beyond = sum(1000 * each.age_s > self._age_most_ms for each in self._scores)
        if beyond:
            painter.setFont(font(min(15.0, line_px * 0.6)))
            y = 50 + (len(best) + 1.5) * line_px
            painter.drawText(
                QPointF(LIST_X, y),
                f"Older than {self._age_most_ms} ms and not drawn: {beyond}",
            )
