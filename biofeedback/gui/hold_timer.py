"""The hold timer: a bar that fills to its end, and the seconds that are left."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPixmap, QResizeEvent

from biofeedback.gui.language import filled
from biofeedback.gui.panel import Panel
from biofeedback.phrase import numbered
from biofeedback.training.events import Phase

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from biofeedback.training.events import SetState


class HoldTimer(Panel):
    """A bar the width of the path; a lapse leaves a notch where the clock stood.

    It stands still in outline while no hold is under way. In an unseen rep it
    shows the hold only, since a filling bar would tell where the force is. With
    reduced motion it fills by whole seconds, together with the figure.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Hold timer", parent)
        self.setAccessibleName(self.tr("Hold timer"))
        self._stepped = False
        self._share = 0.0
        self._notches: tuple[float, ...] = ()
        self._figure = ""
        self._told: tuple[int | None, int, tuple[float, ...]] | None = None
        self._fill_px = -1
        self._kept_bars = QPixmap(), QPixmap()
        self._bars_key: object = None

    def set_stepped(self, *, stepped: bool) -> None:
        """Whole seconds at a time in place of a fill that grows, and back."""
        self._stepped = stepped

    def show_state(
        self, state: SetState | None, *, hold_s: float, live: bool, seen: bool = True
    ) -> None:
        """Shows the clock of the hold under way.

        Args:
            hold_s: the hold that is asked for, shown while nothing is under way.
        """
        clock_s, asked_s = 0.0, hold_s
        notches: tuple[float, ...] = ()
        if state is not None:
            asked_s = state.hold_s
            if state.phase in {Phase.REP, Phase.RELEASE}:
                clock_s = min(state.clock_s, asked_s) if seen else 0.0
                notches = state.lapse_clock_s if seen else ()
        self._notches = tuple(min(1.0, at_s / asked_s) for at_s in notches)
        left_s = math.ceil(asked_s - clock_s - 1e-9)
        filled_s = max(0.0, asked_s - left_s) if self._stepped else clock_s
        self._share = filled_s / asked_s if asked_s > 0 else 0.0
        self._tell(left_s if live else None, int(100 * self._share + 1e-9))
        self._fill()

    def _tell(self, left_s: int | None, percent: int) -> None:
        told = (left_s, percent, self._notches)
        if told == self._told:
            return  # as in most frames; putting words together takes its time
        before, self._told = self._told, told
        if before is None or (before[0], before[2]) != (left_s, self._notches):
            self._figure = "–"
            if left_s is not None:
                self._figure = self.tr("{seconds} s").format(seconds=left_s)
            self.update()
        lapses = numbered(len(self._notches), "1 lapse", "{count} lapses")
        self.tell(
            filled(
                self.tr("{figure} left, {percent} % done, {lapses}"),
                figure=self._figure,
                percent=percent,
                lapses=lapses,
            )
        )

    def _fill(self) -> None:
        fill_px = self._edge_px()
        if fill_px != self._fill_px:
            first, last = sorted((fill_px, self._fill_px))
            self._fill_px = fill_px
            # Only what the edge of the fill went over, and a notch that it reached.
            near = 4 + self.height() // 8
            self.update(first - near, 0, last - first + 2 * near, self.height())

    def _bar(self) -> QRectF:
        """The middle of its outline."""
        half = self._line_width() / 2
        return QRectF(half, half, self.width() - 2 * half, self.height() - 2 * half)

    def _line_width(self) -> float:
        return max(2.0, self.height() / 26)

    def _edge_px(self) -> int:
        """How far it is filled, in whole pixels: nearer is not painted anew."""
        line = self._line_width()
        return round(line / 2 + self._share * (self.width() - line))

    @property
    def notches(self) -> tuple[float, ...]:
        """Where the lapses stand, as shares of the bar."""
        return self._notches

    def resizeEvent(self, event: QResizeEvent) -> None:
        """All is painted anew, filled to where this size has it."""
        self._fill_px = self._edge_px()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draws bar, notches and figure."""
        empty, full = self._bars()
        bar, edge_px = self._bar(), self._edge_px()
        painter = self.begin_kept()
        painter.drawPixmap(0, 0, empty)
        ratio = empty.devicePixelRatio()
        painter.drawPixmap(0, 0, full, 0, 0, round(edge_px * ratio), full.height())
        if self._notches:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for share in self._notches:
            self._notch(painter, bar, bar.left() + share * bar.width(), edge_px)
        self._write_figure(painter, bar, edge_px, event.rect().right())
        painter.end()

    def _bars(self) -> tuple[QPixmap, QPixmap]:
        """The bar empty and full, drawn once and kept: a frame copies of both."""
        key = (self.size(), self.devicePixelRatio(), self.theme)
        if key != self._bars_key:
            self._bars_key = key
            self._kept_bars = self._drawn_bar("wash"), self._drawn_bar("ink")
        return self._kept_bars

    def _drawn_bar(self, role: str) -> QPixmap:
        ratio = self.devicePixelRatio()
        pixmap = QPixmap(self.size() * ratio)
        pixmap.setDevicePixelRatio(ratio)
        pixmap.fill(self.theme.colour("paper"))
        painter = QPainter(pixmap)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self._bar(), self.theme.colour(role))
        painter.setPen(QPen(self.theme.colour("edge"), self._line_width()))
        painter.drawRect(self._bar())
        painter.end()
        return pixmap

    def _notch(self, painter: QPainter, bar: QRectF, x: float, done_to: float) -> None:
        """A cut through the bar, with a tooth at its head and foot."""
        width = max(3.0, bar.height() / 12)
        on_ink = x < done_to
        colour: QColor = self.theme.colour("paper" if on_ink else "ink")
        painter.fillRect(QRectF(x - width / 2, bar.top(), width, bar.height()), colour)
        tooth = width * 2.2
        for y in (bar.top(), bar.bottom() - width):
            painter.fillRect(QRectF(x - tooth / 2, y, tooth, width), colour)

    def _write_figure(
        self, painter: QPainter, bar: QRectF, edge_px: int, seen_to: int
    ) -> None:
        """The figure stands at the end of the bar and turns with its ground.

        Args:
            seen_to: what is right of this pixel is not painted anew.
        """
        size = bar.height() * 0.72
        box = bar.adjusted(0, 0, -bar.height() * 0.3, 0)
        if seen_to < box.right() - 1.1 * self.wide(self._figure, size, bold=True):
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        right = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        done, rest = QRectF(bar), QRectF(bar)
        done.setRight(edge_px)
        rest.setLeft(edge_px)
        for clip, role in ((rest, "ink"), (done, "paper")):
            painter.setClipRect(clip)
            self.write(
                painter,
                box,
                self._figure,
                size_px=size,
                align=right,
                bold=True,
                role=role,
            )
