"""The path: time runs left to right, and *now* stands at two thirds.

Left of *now* is the force that was, right of it the band that is to come: the
way in, the hold and its end. *Now* is the newest sample and nothing else: with
no fresh sample the picture stands, its marker is gone, and no old value is ever
shown as if it were live.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import (
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QPolygonF,
    QResizeEvent,
)

from biofeedback.conditioning.profile import RigProfile, Side
from biofeedback.errors import FieldError
from biofeedback.gui.band_history import BandHistory, Step
from biofeedback.gui.marks import Fill, disc, ring, triangle
from biofeedback.gui.panel import Panel
from biofeedback.gui.path_picture import BandLook, ColumnRing, PathPicture
from biofeedback.gui.path_scale import ScaleMargins
from biofeedback.gui.scale import Scale
from biofeedback.gui.trace_store import TraceStore
from biofeedback.session import BandChanged, SessionEvent, SetBegun, SetEnded
from biofeedback.training.crossings import Judged
from biofeedback.training.events import (
    Outcome,
    Phase,
    Position,
    RepCompleted,
    RepEnded,
    RepStarted,
)
from biofeedback.training.feedback import Cue, ahead, position_of
from biofeedback.training.prescription import FeedbackMode

if TYPE_CHECKING:
    from collections.abc import Iterable

    from PySide6.QtWidgets import QWidget

    from biofeedback.conditioning.block import Block
    from biofeedback.gui.theme import Theme
    from biofeedback.training.band import Band
    from biofeedback.training.events import SetState
    from biofeedback.training.feedback import Stretch
    from biofeedback.training.prescription import Prescription

PAST_S = 10.0
AHEAD_S = PAST_S / 2
"""*Now* at two thirds of the width."""
ENTRY_RAMP_S = 0.7
"""How long before a hold its drawn way in begins. A picture, not a rule."""

_LOOK_BY_CUE = {
    Cue.STAY: BandLook.INSIDE,
    Cue.EVEN: BandLook.INSIDE,
    Cue.MORE: BandLook.OUTSIDE,
    Cue.LESS: BandLook.OUTSIDE,
    Cue.TOO_MUCH: BandLook.OUTSIDE,
}


class Path(Panel):
    """Draws the path; the past comes from a ring of columns."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Path", parent)
        self.setAccessibleName(self.tr("Path"))
        self._profile: RigProfile | None = None
        self._prescription: Prescription | None = None
        self._judged: Judged | None = None
        self._state: SetState | None = None
        self._live = False
        self._cue = Cue.NO_SIGNAL
        self._newest_n: tuple[float, ...] = ()
        self._scale = Scale(100.0, -5.0)
        self._picture = PathPicture(TraceStore(lines=1, capacity=16), BandHistory())
        self.ring = ColumnRing()
        self._margins = ScaleMargins()
        self._margin_pixmap: QPixmap | None = None
        self.lay_out()

    # What it is given.

    def set_theme(self, theme: Theme) -> None:
        """Another set of colours; the past is drawn anew."""
        super().set_theme(theme)
        self.lay_out()

    def set_up(self, profile: RigProfile | None, prescription: Prescription) -> None:
        """A rig and what is asked for; the path begins anew, its scale is fixed."""
        self._profile = profile
        self._prescription = prescription
        self._judged = _judged(profile, prescription)
        reference = prescription.reference
        self._scale = Scale.for_band(
            prescription.band,
            ceiling_n=prescription.ceiling_n,
            reference_n=reference.force_n if reference else None,
        )
        lines = 1
        if profile is not None and self._judged is not None:
            none = np.zeros((0, len(profile.channels)))
            lines = len(self._judged.forces(none))
        rate_hz = profile.rate_hz if profile else 100.0
        capacity = int(rate_hz * PAST_S * 1.5) + 64
        store = TraceStore(lines=lines, capacity=capacity)
        self._picture = PathPicture(store, BandHistory())
        self._newest_n = ()
        self._state = None
        self.lay_out()

    @property
    def side_by_side(self) -> bool:
        """Whether left and right are drawn as two lines."""
        return self._picture.store.lines == 2

    @property
    def scale(self) -> Scale:
        """The vertical scale in force."""
        return self._scale

    @property
    def picture(self) -> PathPicture:
        """The past, as it would be drawn slowly."""
        return self._picture

    @property
    def marker(self) -> str:
        """What stands at *now*: disc, up, down, ring or nothing; for two lines two."""
        return " ".join(shape for shape, _ in self._markers()) or "nothing"

    def take(
        self,
        blocks: Iterable[Block],
        events: Iterable[SessionEvent],
        state: SetState | None,
        *,
        live: bool,
        cue: Cue,
    ) -> None:
        """What is new in this frame."""
        self._state, self._live, self._cue = state, live, cue
        for block in blocks:
            self._take_block(block)
        for event in events:
            self._take_event(event)
        self._follow_band()
        now = self.tr("marker {marker}").format(marker=self.marker)
        self.describe(now if live else self.tr("no signal"))
        self.update()

    def _take_block(self, block: Block) -> None:
        if self._judged is None or not len(block):
            return
        store = self._picture.store
        if store.newest_s is not None and block.time_s[0] <= store.newest_s:
            # A set or a new board starts its time at 0: a new page.
            store.clear()
            self._picture.history.clear()
            self.ring.invalidate()
        forces = self._judged.forces(block.shown_n)
        store.push(block.time_s, np.column_stack(forces), after_gap=block.lost != 0)
        self._newest_n = tuple(float(force[-1]) for force in forces)

    def _take_event(self, event: SessionEvent) -> None:
        history = self._picture.history
        match event:
            case SetBegun(prescription, profile):
                self.set_up(profile, prescription)
            case RepStarted(time_s, _):
                self._begin_hold(time_s)
            case BandChanged(time_s, _, new, _) if history.newest.band is not None:
                self._step(Step(time_s, new, judged=history.newest.judged))
            case RepCompleted(time_s, _):
                self._step(Step(time_s, None, judged=False))
            case RepEnded(_, rep):
                if rep.outcome is not Outcome.COMPLETE:
                    self._step(Step(rep.hold_end_s, None, judged=False))
                self._show_withheld()
            case SetEnded():
                self._show_withheld()
            case _:
                pass

    def _begin_hold(self, time_s: float) -> None:
        if self._band is not None:
            self._step(Step(time_s, self._band, judged=True))
        if self._unseen:
            self._picture.withheld_from_s = time_s
            self._draw_again_from(time_s)

    @property
    def _band(self) -> Band | None:
        if self._state is not None:
            return self._state.band
        return self._prescription.band if self._prescription else None

    @property
    def _unseen(self) -> bool:
        asked = self._prescription
        return asked is not None and asked.feedback is FeedbackMode.UNSEEN

    def _show_withheld(self) -> None:
        if self._picture.withheld_from_s is not None:
            self._picture.withheld_from_s = None
            self.ring.invalidate()

    def _step(self, step: Step) -> None:
        if self._picture.history.change(step):
            self._draw_again_from(step.time_s)

    def _draw_again_from(self, time_s: float) -> None:
        self.ring.invalidate_from(math.floor(time_s * self._columns_per_s))

    def _follow_band(self) -> None:
        """A band nudged out of view takes the scale with it."""
        band = self._band
        asked = self._prescription
        if band is None or asked is None or self._scale.holds(band):
            return
        self._scale = Scale.for_band(
            band, ceiling_n=asked.ceiling_n, reference_n=self._scale.reference_n
        )
        self.lay_out()

    # How it is laid out.

    def lay_out(self) -> None:
        """Sizes and what depends on them; the past is drawn anew."""
        ratio = self.devicePixelRatio()
        self._ratio = ratio
        side = round(self.height() * 0.29 * ratio)
        self._left = side
        # Without a reference the right margin holds no figures.
        right = side if self._scale.reference_n else round(self.height() * 0.04)
        width = max(30, round(self.width() * ratio) - side - right)
        self._width = width
        self._height = max(20, round(self.height() * ratio))
        self._now_x = width * 2 // 3
        self._columns_per_s = self._now_x / PAST_S
        self._picture.prepare(
            theme=self.theme,
            scale=self._scale,
            height=self._height,
            columns_per_s=self._columns_per_s,
            rate_hz=self._profile.rate_hz if self._profile else 100.0,
        )
        self.ring.resize(self._now_x, self._height)
        self._margin_pixmap = None
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another size: everything is laid out and drawn anew."""
        self.lay_out()

    # How it is painted, in physical pixels.

    def paintEvent(self, event: QPaintEvent) -> None:
        """Two blits of the past, then what is to come and the marker."""
        if self._ratio != self.devicePixelRatio():
            self.lay_out()
        newest_s = self._picture.store.newest_s
        end = 0
        if newest_s is not None:
            end = math.floor(newest_s * self._columns_per_s) + 1
        self._picture.history.forget_before((newest_s or 0.0) - 2 * PAST_S)
        self.ring.refresh(self._picture, end)
        painter = self.begin()
        painter.scale(1 / self._ratio, 1 / self._ratio)
        self._paint_margins(painter)
        painter.translate(self._left, 0)
        self.ring.blit(painter, 0, 0)
        painter.setClipRect(0, 0, self._width, self._height)
        rest = round(self._scale.y(0.0, self._height))
        painter.fillRect(self._now_x, rest, self._width, 2, self.theme.colour("edge"))
        self._paint_ahead(painter, end)
        self._paint_ceiling(painter)
        self._paint_now(painter)
        painter.end()

    def _paint_margins(self, painter: QPainter) -> None:
        band = self._band
        ceiling_n = self._prescription.ceiling_n if self._prescription else None
        key = (band, ceiling_n)
        if self._margin_pixmap is None or self._margins.key != key:
            pixmap = QPixmap(
                self._left + self._width + round(self.height() * self._ratio * 0.29),
                self._height,
            )
            pixmap.fill(self.theme.colour("paper"))
            inner = QPainter(pixmap)
            inner.setRenderHint(QPainter.RenderHint.Antialiasing)
            self._margins.key = key
            self._margins.paint(
                self,
                inner,
                scale=self._scale,
                left=self._left,
                width=self._width,
                height=self._height,
            )
            inner.end()
            self._margin_pixmap = pixmap
        painter.drawPixmap(0, 0, self._margin_pixmap)

    def _paint_ahead(self, painter: QPainter, end: int) -> None:
        """The band to come, in the columns right of *now*."""
        asked, band = self._prescription, self._band
        if asked is None or band is None:
            return
        state = self._state
        if state is None or not self._live:
            # Nothing runs: the band that is planned, or that was last asked for.
            stretches: tuple[Stretch, ...] = ()
            if state is None:
                self._paint_planned(painter, band)
        else:
            stretches = ahead(state, rest_s=asked.rest_s, span_s=AHEAD_S)
        painter.save()
        shift = end - self._now_x
        painter.translate(-shift, 0)
        painter.setClipRect(end, 0, self._width - self._now_x, self._height)
        for stretch in stretches:
            self._paint_hold(painter, stretch, band, end)
        painter.restore()

    def _paint_planned(self, painter: QPainter, band: Band) -> None:
        """The band before any set, right of *now*."""
        painter.save()
        painter.setClipRect(self._now_x, 0, self._width - self._now_x, self._height)
        ramp = round(ENTRY_RAMP_S * self._columns_per_s)
        first = self._now_x + ramp + round(0.1 * self._columns_per_s)
        self._paint_stretch(painter, band, first, 2 * self._width, BandLook.QUIET, ramp)
        painter.restore()

    def _paint_hold(
        self, painter: QPainter, stretch: Stretch, band: Band, end: int
    ) -> None:
        """One hold to come: way in, band and end, in world columns."""
        base_s = self._state.time_s if self._state else 0.0
        first = math.floor((base_s + stretch.start_s) * self._columns_per_s)
        last = math.floor((base_s + stretch.end_s) * self._columns_per_s)
        if not stretch.entry:
            first = end
        look = BandLook.QUIET
        if not stretch.entry and not self._unseen:
            look = _LOOK_BY_CUE.get(self._cue, BandLook.QUIET)
        ramp = round(ENTRY_RAMP_S * self._columns_per_s) if stretch.entry else 0
        self._paint_stretch(painter, band, first, last, look, ramp)

    def _paint_stretch(
        self,
        painter: QPainter,
        band: Band,
        first: int,
        last: int,
        look: BandLook,
        ramp: int,
    ) -> None:
        top, foot = self._picture.rows(band)
        brush, pens = self._picture.brush, self._picture.pens
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        edge = self.theme.colour("edge")
        width = brush.edge_width(look)
        if ramp:
            rest = self._scale.y(0.0, self._height)
            way_in = QPolygonF(
                [QPointF(first - ramp, rest), QPointF(first, top), QPointF(first, foot)]
            )
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(brush.fill(look))
            painter.drawPolygon(way_in)
            painter.setPen(QPen(edge, width))
            half = width / 2
            for row in (foot + half,) if band.open_above else (top - half, foot + half):
                painter.drawLine(QLineF(first - ramp, rest, first, row))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=False)
        if last <= first:
            return
        # Far ends lie off the picture; the clip does the rest.
        last = min(last, first + 20 * self._width)
        brush.paint(
            painter, (first, last), (top, foot), look, open_above=band.open_above
        )
        post = max(pens.edge_inside, width)
        painter.fillRect(last, top - width, post, foot - top + 2 * width, edge)

    def _paint_ceiling(self, painter: QPainter) -> None:
        """A line with teeth that point down: not to be passed."""
        asked = self._prescription
        if asked is None or asked.ceiling_n is None:
            return
        y = self._scale.y(asked.ceiling_n, self._height)
        width = self._picture.pens.edge
        ink = self.theme.colour("ink")
        painter.setPen(QPen(ink, width))
        painter.drawLine(QLineF(0, y, self._width, y))
        tooth = width * 4
        for x in range(tooth, self._width, tooth * 6):
            painter.drawLine(QLineF(x, y, x + tooth, y + tooth))
        size = self._height * 0.06
        words = QRectF(0, y - 1.5 * size, self._width - size / 2, 1.4 * size)
        self.write(
            painter,
            words,
            self.tr("ceiling"),
            size_px=size,
            align=Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter,
        )

    def _markers(self) -> list[tuple[str, float]]:
        """Shape and force of each marker, left before right."""
        band, state = self._band, self._state
        withheld = self._picture.withheld_from_s is not None
        if not self._live or withheld or band is None:
            return []
        asking = state is not None and state.phase in {Phase.WAITING, Phase.REP}
        shapes = {Position.BELOW: "up", Position.INSIDE: "disc", Position.ABOVE: "down"}
        markers = []
        for force_n in self._newest_n:
            position = position_of(force_n, band)
            if position is not None:
                markers.append((shapes[position] if asking else "ring", force_n))
        return markers

    def _paint_now(self, painter: QPainter) -> None:
        """The line of *now*, and on it where the force is."""
        pens = self._picture.pens
        line = QPen(self.theme.colour("edge"), pens.edge)
        if not self._live:
            line.setDashPattern([3, 3])
        painter.setPen(line)
        painter.drawLine(QLineF(self._now_x, 0, self._now_x, self._height))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        ink, paper = self.theme.colour("ink"), self.theme.colour("paper")
        radius = self._height / 24
        markers = self._markers()
        for i, (shape, force_n) in enumerate(markers):
            fill, x = Fill.SOLID, float(self._now_x)
            if len(markers) == 2:
                fill = Fill.HOLLOW if i == 0 else Fill.SOLID
                x += (-1.3 if i == 0 else 1.3) * radius
            y = self._scale.y(force_n, self._height)
            centre = QPointF(x, min(self._height - radius, max(radius, y)))
            if shape == "disc":
                disc(painter, centre, radius, ink=ink, paper=paper, fill=fill)
            elif shape == "ring":
                ring(painter, centre, radius, ink=ink, paper=paper)
            else:
                up = shape == "up"
                triangle(
                    painter, centre, radius, up=up, ink=ink, paper=paper, fill=fill
                )

    def plot_box(self) -> QRectF:
        """Where the plot is, in the widget's own pixels."""
        return QRectF(
            self._left / self._ratio, 0, self._width / self._ratio, self.height()
        )


def _judged(profile: RigProfile | None, prescription: Prescription) -> Judged | None:
    """What is drawn, or None where this rig has no such side."""
    if profile is None:
        return None
    try:
        return Judged(
            prescription.band_on,
            left=profile.index_of(Side.LEFT),
            right=profile.index_of(Side.RIGHT),
            channels=len(profile.channels),
        )
    except FieldError:
        return None
