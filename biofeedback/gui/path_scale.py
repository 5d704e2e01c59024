"""The figures beside the path: newtons on the left, % of the reference right.

Those that matter now, the edges of the band and the ceiling, are bold and always
there; round forces fill the room that is left.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QPixmap

from biofeedback.gui.language import plain_number

if TYPE_CHECKING:
    from biofeedback.gui.panel import Panel
    from biofeedback.gui.path_content import PathContent
    from biofeedback.gui.scale import Scale
    from biofeedback.training.band import Band

FIGURE_SHARE = 0.068
"""Height of a figure as a share of the path's height, where nothing else is told."""
ROOM = 1.12
"""Least distance between two figures, in heights of a figure."""


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure at its height.

    Attributes:
        y: row at which it belongs.
        written_y: row at which it is written, where two came too close.
    """

    force_n: float
    y: float
    written_y: float
    bold: bool


def figures_of(
    scale: Scale,
    *,
    band: Band | None,
    ceiling_n: float | None,
    height: float,
    size: float,
) -> tuple[Figure, ...]:
    """Which figures stand beside the path, and where; none covers another."""
    wanted: list[float] = []
    if band is not None:
        wanted.append(band.lower_n)
        if not band.open_above:
            wanted.append(band.upper_n)
    if ceiling_n is not None:
        wanted.append(ceiling_n)
    figures: list[Figure] = []
    least = size * ROOM
    for force_n in sorted(wanted):
        y = scale.y(force_n, height)
        written = y
        if figures and figures[-1].written_y - written < least:
            # Two edges close together: both make room, the lower one first.
            below = figures[-1]
            middle = (below.written_y + written) / 2
            first = len(figures) == 1
            low = middle + least / 2 if first else below.written_y
            figures[-1] = Figure(below.force_n, below.y, low, bold=True)
            written = low - least
        figures.append(Figure(force_n, y, written, bold=True))
    for force_n in scale.ticks():
        y = scale.y(force_n, height)
        free = all(abs(y - figure.written_y) >= least for figure in figures)
        if free and size / 2 <= y <= height - size / 2:
            figures.append(Figure(force_n, y, y, bold=False))
    return tuple(figures)


def figure_words(figure: Figure, percent: float | None) -> tuple[str, str]:
    """What is written left and right of the path."""
    newtons = f"{plain_number(figure.force_n)} N"
    if percent is None:
        return newtons, ""
    # Round newtons need no exact share beside them; an edge does.
    share = plain_number(percent, digits=1 if figure.bold else 0)
    return newtons, f"{share} %"


def paint_margins(
    panel: Panel,
    painter: QPainter,
    content: PathContent,
    *,
    plot: QRectF,
    size: float,
) -> None:
    """Draws the figures and their ticks on both sides of the plot.

    Args:
        size: of a figure, in pixels.
    """
    scale = content.scale
    figures = figures_of(
        scale,
        band=None if content.maximal else content.band,
        ceiling_n=content.asked.ceiling_n,
        height=plot.height(),
        size=size,
    )
    tick = size * 0.5
    left, right = plot.left(), plot.right()
    painter.setPen(QPen(panel.theme.colour("edge"), max(2.0, size / 10)))
    for figure in figures:
        there, here = figure.written_y, figure.y
        painter.drawLine(QLineF(left - tick, there, left - 2, here))
        if scale.reference_n:
            painter.drawLine(QLineF(right + 2, here, right + tick, there))
    for figure in figures:
        words = QRectF(0, figure.written_y - size, left - 1.5 * tick, 2 * size)
        flags = Qt.AlignmentFlag
        newtons, percent = figure_words(figure, scale.percent(figure.force_n))
        _write(panel, painter, words, newtons, figure, size, flags.AlignRight)
        if percent:
            words.moveLeft(right + 1.5 * tick)
            _write(panel, painter, words, percent, figure, size, flags.AlignLeft)


def _write(
    panel: Panel,
    painter: QPainter,
    box: QRectF,
    text: str,
    figure: Figure,
    size: float,
    side: Qt.AlignmentFlag,
) -> None:
    panel.write(
        painter,
        box,
        text,
        size_px=size,
        bold=figure.bold,
        align=side | Qt.AlignmentFlag.AlignVCenter,
        role="ink" if figure.bold else "quiet",
    )


class Margins:
    """The figures on both sides of the plot, drawn once and kept.

    Args:
        panel: gives colours and letters.
        plot: between them, in physical pixels from the left edge of the widget.
        size: of a figure.
    """

    def __init__(
        self, panel: Panel, content: PathContent, *, plot: QRect, size: float
    ) -> None:
        self._panel = panel
        self._content = content
        self._plot = plot
        self._size = size
        self._kept = QPixmap()
        self._drawn: object = None

    @property
    def stale(self) -> bool:
        """Whether other figures are to stand there."""
        return self._drawn != self._key

    @property
    def _key(self) -> object:
        """What they are made of."""
        return self._content.band, self._content.scale

    def paint(self, painter: QPainter) -> None:
        """Both; the plot fills its own ground."""
        if self.stale:
            self._draw()
        left, right = self._plot.left(), self._plot.right() + 1
        for x, width in ((0, left), (right, self._kept.width() - right)):
            painter.drawPixmap(x, 0, self._kept, x, 0, width, self._plot.height())

    def _draw(self) -> None:
        self._drawn = self._key
        plot = self._plot
        self._kept = QPixmap(2 * plot.left() + plot.width(), plot.height())
        self._kept.fill(self._panel.theme.colour("paper"))
        inner = QPainter(self._kept)
        inner.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_margins(
            self._panel, inner, self._content, plot=QRectF(plot), size=self._size
        )
        inner.end()
