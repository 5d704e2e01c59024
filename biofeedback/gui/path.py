"""The path: time runs left to right, and *now* stands at two thirds.

Left of *now* is the force that was, right of it the band that is to come: the
way in, the hold and its end. *Now* is the newest sample and nothing else: with
no fresh sample the picture stands, its marker is gone, and no old value is ever
shown as if it were live. With reduced motion nothing flows: see `path_place`.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, QRectF

from biofeedback.gui.band_brush import BandLook
from biofeedback.gui.column_ring import ColumnRing
from biofeedback.gui.language import shown
from biofeedback.gui.panel import Panel
from biofeedback.gui.path_ahead import ENTRY_RAMP_S, Ahead, PathAhead, look_of
from biofeedback.gui.path_content import PAST_S, PathContent
from biofeedback.gui.path_overlay import PathOverlay
from biofeedback.gui.path_picture import PathPicture
from biofeedback.gui.path_place import PathPlace
from biofeedback.gui.path_scale import FIGURE_SHARE, Margins
from biofeedback.gui.tempo_marks import TempoMarks
from biofeedback.phrase import phrase
from biofeedback.session import SetBegun
from biofeedback.training.events import Phase
from biofeedback.training.feedback import ENTRY_ROOM_S, Cue, Stretch, ahead
from biofeedback.training.task import TaskKind
from biofeedback.training.tempo import tempo_guide

if TYPE_CHECKING:
    from collections.abc import Iterable

    from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
    from PySide6.QtWidgets import QWidget

    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.gui.theme import Theme
    from biofeedback.session import SessionEvent
    from biofeedback.training.events import SetState
    from biofeedback.training.prescription import Prescription

MARGIN_SHARE = 0.29
"""Width of a margin with figures, as a share of the height."""
MARGIN_SIZES = 4.8
"""The same in heights of a figure, where their size is told."""

_MARKER_WORDS = {
    "disc": phrase("disc"),
    "up": phrase("triangle that points up"),
    "down": phrase("triangle that points down"),
    "ring": phrase("ring"),
    "nothing": phrase("nothing"),
}
"""For a screen reader."""


class Path(Panel):
    """Draws the path; the past comes from a ring of columns.

    Attributes:
        content: what is shown.
        ring: the drawn columns of the past.
    """

    def __init__(self, asked: Prescription, parent: QWidget | None = None) -> None:
        super().__init__("Path", parent)
        self.setAccessibleName(self.tr("Path"))
        self.content = PathContent(None, asked)
        self.ring = ColumnRing()
        self._live = self._paged = False
        self._cue = Cue.NO_SIGNAL
        self._markers: list[tuple[str, float]] = []
        self._words_key: object = None
        self._lowered: tuple[tuple[Stretch, ...], float] | None = None
        self._figure_px = self._drawn_s = 0.0
        self.lay_out()

    # What it is given.

    def set_theme(self, theme: Theme) -> None:
        """Another set of colours; the past is drawn anew."""
        super().set_theme(theme)
        self.lay_out()

    def set_paged(self, *, paged: bool) -> None:
        """Page by page in place of a path that flows, and back."""
        self._paged = paged
        self.lay_out()

    def set_up(self, profile: RigProfile | None, asked: Prescription) -> None:
        """A rig and what is asked for; the path begins anew, its scale is fixed."""
        self.content = PathContent(profile, asked)
        self.lay_out()

    def take(
        self,
        blocks: Iterable[Block],
        events: Iterable[SessionEvent],
        state: SetState | None,
        *,
        live: bool,
        cue: Cue,
        expected_n: float | None = None,
    ) -> None:
        """What is new in this frame.

        Args:
            expected_n: what the next maximal trial may reach, where there is one.
        """
        for event in events:
            if isinstance(event, SetBegun):
                self.set_up(event.profile, event.prescription)
        content = self.content
        before = (content.state, self._live, self._cue, content.expected_n)
        new = before != (state, live, cue, expected_n)
        content.state, self._live, self._cue = state, live, cue
        content.expected_n = expected_n
        for block in blocks:
            content.take_block(block)
            new = True
        for event in events:
            content.take_event(event)
            new = True
        content.follow_showing()
        if content.follow_band():
            self.lay_out()
        self._markers = content.markers() if live else []
        self._tell(live=live)
        if new:  # without a signal the picture stands, and costs nothing
            self._renew()

    def _tell(self, *, live: bool) -> None:
        key = (live, self.marker)
        if key == self._words_key:
            return  # as in most frames; putting words together takes its time
        self._words_key = key
        told = [shown(_MARKER_WORDS[one]) for one in self.marker.split()]
        words = self.tr("marker {marker}").format(marker=" ".join(told))
        self.describe(words if live else self.tr("no signal"))

    def _renew(self) -> None:
        """Paints the plot anew, and the figures beside it where they are others.

        Right of *now* most stands still, and what does so is left as it is.
        """
        end = self._end()
        now_x = self._place.now_x(end)
        changed = max(self._follow_ahead(end, now_x), self._overlay.reach)
        if self._plot.isEmpty() or self._margins.stale:
            self.update()
        else:
            width = min(self._width, now_x + changed)
            self.update(self._left, 0, width, self._height)

    def show_fault(self) -> None:
        """No frame follows: the marker goes, and with it all that looks live."""
        self._live, self._markers = False, []
        self._followed = False
        self._tell(live=False)
        self.update()

    @property
    def marker(self) -> str:
        """What stands at *now*: disc, up, down, ring or nothing; for two lines two."""
        return " ".join([shape for shape, _ in self._markers]) or "nothing"

    @property
    def picture(self) -> PathPicture:
        """The past, drawn slowly; the ring must always look the same."""
        return self._picture

    def plot_box(self) -> QRectF:
        """Where the plot is, in the widget's own pixels."""
        left, width = self._left / self._ratio, self._width / self._ratio
        return QRectF(left, 0, width, self.height())

    def set_figures(self, size_px: float) -> None:
        """How large figures are; by the height of the path where this is not told."""
        self._figure_px = size_px

    # How it is laid out, in physical pixels.

    def lay_out(self) -> None:
        """Sizes and what depends on them; the past is drawn anew."""
        self._ratio = ratio = self.devicePixelRatio()
        self._height = max(20, round(self.height() * ratio))
        if self._figure_px:
            self._figure = self._figure_px * ratio
            self._left = round(self._figure * MARGIN_SIZES)
        else:
            self._figure = FIGURE_SHARE * self._height
            self._left = round(MARGIN_SHARE * self._height)
        # Without a reference the right margin holds no figures.
        percent = self.content.scale.reference_n is not None
        right = self._left if percent else round(self._height * 0.04)
        self._width = max(30, round(self.width() * ratio) - self._left - right)
        self._place = PathPlace(self._width, paged=self._paged)
        # Where it has no whole pixels to itself, all of the widget is painted.
        plot = QRect(self._left, 0, self._width, self._height)
        whole = ratio == 1 and self._height == self.height()
        self._plot = plot if whole else QRect()
        self._margins = Margins(self, self.content, plot=plot, size=self._figure)
        self._columns_per_s = self._place.past / PAST_S
        self._picture = PathPicture(
            self.content,
            theme=self.theme,
            height=self._height,
            columns_per_s=self._columns_per_s,
        )
        self._ahead = PathAhead(
            self._picture,
            self.content,
            theme=self.theme,
            height=self._height,
            columns_per_s=self._columns_per_s,
        )
        self._overlay = PathOverlay(
            self,
            width=self._width,
            height=self._height,
            size=self._figure,
            edge=self._picture.pens.edge,
        )
        self.ring.resize(self._place.kept, self._height)
        self._followed = False
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another size: everything is laid out and drawn anew."""
        self.lay_out()

    # How it is painted.

    def paintEvent(self, event: QPaintEvent) -> None:
        """Two blits of the past, then what is to come and the marker."""
        ratio = self.devicePixelRatio()
        if self._ratio != ratio:
            self.lay_out()
        end = self._refresh_ring()
        now_x = self._place.now_x(end)
        painter = self.begin_kept()
        if ratio != 1:
            painter.scale(1 / ratio, 1 / ratio)
        if not self._plot.contains(event.rect()):
            self._margins.paint(painter)
            painter.setClipRect(self._left, 0, self._width, self._height)
        painter.translate(self._left, 0)
        self.ring.blit(painter, now_x - self.ring.width, 0)
        self._paint_ahead(painter, end, now_x)
        content, overlay = self.content, self._overlay
        overlay.paint_ceiling(painter, content.scale, content.asked.ceiling_n)
        overlay.paint_now(
            painter,
            now_x,
            live=self._live,
            markers=self._markers,
            scale=content.scale,
        )
        painter.end()

    def _end(self) -> int:
        """The column after that of the newest sample."""
        newest_s = self.content.store.newest_s or 0.0
        return math.floor(newest_s * self._columns_per_s) + 1

    def _refresh_ring(self) -> int:
        """Draws what is new of the past.

        Returns:
            The column after that of the newest sample.
        """
        content = self.content
        newest_s = content.store.newest_s or 0.0
        content.history.forget_before(newest_s - 2 * PAST_S)
        if content.all_changed:
            self.ring.invalidate()
        if content.changed_from_s is not None:
            first = math.floor(content.changed_from_s * self._columns_per_s)
            self.ring.invalidate_from(first)
        content.all_changed, content.changed_from_s = False, None
        end = self._end()
        self.ring.refresh(self._picture, end, newer=newest_s != self._drawn_s)
        self._drawn_s = newest_s
        return end

    def _follow_ahead(self, end: int, now_x: int) -> int:
        """What is to come; how many columns right of *now* are others than before."""
        content, place = self.content, self._place
        state, room = content.state, self._width - now_x
        stretches: tuple[Stretch, ...] = ()
        base_s, steps = content.store.newest_s or 0.0, True
        if content.maximal:
            pass
        elif state is None:
            # Before a set: the hold that is planned, as if it could begin now.
            stretches = (Stretch(ENTRY_ROOM_S, math.inf, entry=True),)
        elif self._live:
            span_s = room / self._columns_per_s
            stretches = ahead(state, rest_s=content.asked.rest_s, span_s=span_s)
            base_s, steps = state.time_s, state.phase is Phase.WAITING
        if steps:
            base_s = place.base_s(base_s)
        flows = not (steps and place.paged)
        look = BandLook.QUIET if content.unseen else look_of(self._cue)
        what = Ahead(stretches, base_s, flows, look, content.band, room, end)
        self._followed, self._lowered = True, None
        changed = self._ahead.follow(what)
        if stretches and content.asked.task.kind is TaskKind.LOWERING:
            self._lowered = stretches, base_s
            return room
        return changed

    def _paint_ahead(self, painter: QPainter, end: int, now_x: int) -> None:
        """The band to come, in the columns right of *now*."""
        if not self._followed:
            self._follow_ahead(end, now_x)
        room = self._width - now_x
        self._ahead.paint(painter, now_x, room)
        if self._lowered is not None:
            painter.save()
            painter.translate(now_x - end, 0)
            painter.setClipRect(end, 0, room, self._height)
            self._paint_tempo(painter, *self._lowered)
            painter.restore()

    def _paint_tempo(
        self, painter: QPainter, stretches: tuple[Stretch, ...], base_s: float
    ) -> None:
        """The way down of each lowering to come, at the foot of the path."""
        content = self.content
        marks = TempoMarks(
            theme=self.theme, height=self._height, columns_per_s=self._columns_per_s
        )
        for stretch in stretches:
            guide = tempo_guide(
                stretch,
                floor_n=content.band.lower_n,
                tempo_s=content.asked.hold_s,
                ramp_s=ENTRY_RAMP_S,
            )
            marks.paint(painter, guide, scale=content.scale, base_s=base_s)
