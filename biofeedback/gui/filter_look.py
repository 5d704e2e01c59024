"""One recording under the loupe: forces over the band, residual, noise by frequency.

Above one another, on one time: A with the raw and the reference force, B likewise, and
what both are off the reference. A slider and the keys of the slider move what is seen;
+ and − change how much of it. A is drawn solid, B dashed, the reference dotted.
pyqtgraph has no types; hence `Any`.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Any

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QSignalBlocker, Qt, QTimer, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QGraphicsRectItem,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSlider,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.enum_box import narrow
from biofeedback.gui.filter_chart import bare_plot, colour_axes, size_axes
from biofeedback.gui.keys import bind, show_key
from biofeedback.gui.language import error_words, filled, said, shown, tr
from biofeedback.gui.theme import DAY, Theme
from biofeedback.gui.thinned_line import thinned_line
from biofeedback.tuning.candidates import name_of
from biofeedback.tuning.errand import FAULT_WORDS, Errand
from biofeedback.tuning.look import Look, look_at, mains_lines

if TYPE_CHECKING:
    from pathlib import Path

    import numpy.typing as npt

    from biofeedback.conditioning.profile import FilterChoice
    from biofeedback.tuning.look import Seen, Spectrum
    from biofeedback.tuning.search import Found

    Floats = npt.NDArray[np.float64]

LOOK_MS = 50
SPANS_S = (1.0, 2.0, 5.0, 10.0, 20.0, 60.0)
"""Widths of what is seen; the slider moves by a tenth of it."""
FIRST_SPAN = 3
STEPS_PER_S = 20
EDGE_LEAST_N = 0.5
AXIS_PX = 58


class FilterLook(QWidget):
    """Draws two candidates on one recording.

    Signals:
        said: words; empty takes them away.
        moved: another recording or another time is looked at.
    """

    said = Signal(str)
    moved = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme: Theme = DAY
        self._found: Found | None = None
        self._a: FilterChoice | None = None
        self._b: FilterChoice | None = None
        self._look: Look | None = None
        self._errand: Errand[Look] | None = None
        self._again = False
        self._span = FIRST_SPAN
        self.recording = QComboBox()
        self.recording.setAccessibleName(tr("Recording"))
        narrow(self.recording)
        self.closer = QPushButton("+")
        self.closer.setAccessibleName(tr("See less, closer"))
        self.wider = QPushButton("−")
        self.wider.setAccessibleName(tr("See more"))
        self.slider = QSlider(Qt.Orientation.Horizontal)
        self.slider.setAccessibleName(tr("Time in the recording"))
        self.where = QLabel()
        self._force_a = bare_plot("", tr("A (N)"))
        self._force_b = bare_plot("", tr("B (N)"))
        self._residual = bare_plot(
            tr("time since the set began (s)"), tr("off reference (N)")
        )
        self._noise = bare_plot(tr("frequency (Hz)"), tr("noise in holds (N/√Hz)"))
        self._noise.setLogMode(x=False, y=True)
        self.mains = QLabel()
        self.mains.setWordWrap(True)
        self._plots = (self._force_a, self._force_b, self._residual, self._noise)
        for plot, name in zip(
            self._plots,
            (
                tr("Force with A"),
                tr("Force with B"),
                tr("Residuals of A and B"),
                tr("Spectrum of the noise"),
            ),
            strict=True,
        ):
            plot.setAccessibleName(name)
            plot.addLegend(offset=(-4, 2), colCount=3)
        for plot in self._plots[:3]:
            plot.getAxis("left").setWidth(AXIS_PX)
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_MS)
        self._timer.timeout.connect(self.look)
        self._lay_out()
        self._connect()
        self.set_theme(DAY)

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        words = QLabel(tr("Recording"))
        words.setBuddy(self.recording)
        row.addWidget(words)
        row.addWidget(self.recording, 1)
        row.addWidget(self.where)
        row.addWidget(self.wider)
        row.addWidget(self.closer)
        forces = QVBoxLayout()
        forces.setSpacing(2)
        for plot, share in zip(self._plots, (4, 4, 3), strict=False):
            forces.addWidget(plot, share)
        forces.addWidget(self.slider)
        pair = QHBoxLayout()
        pair.addLayout(forces, 5)
        noise = QVBoxLayout()
        noise.addWidget(self._noise, 1)
        noise.addWidget(self.mains)
        pair.addLayout(noise, 3)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addLayout(row)
        whole.addLayout(pair, 1)

    def _connect(self) -> None:
        self.recording.currentIndexChanged.connect(self._load)
        self.slider.valueChanged.connect(self._moved)
        for button, by, key, tip in (
            (self.closer, -1, "Ctrl++", tr("See less, closer")),
            (self.wider, 1, "Ctrl+-", tr("See more")),
        ):
            show_key(button, key, tip)
            button.clicked.connect(lambda _=False, by=by: self.widen(by))
            bind(self, key, button.click)

    def set_theme(self, theme: Theme) -> None:
        """Day or night."""
        self._theme = theme
        for plot in self._plots:
            colour_axes(plot, theme)
        self._draw()

    def set_size(self, size: float) -> None:
        """Larger type, 1 for a window 720 pixels high."""
        for plot in self._plots:
            size_axes(plot, size)
        for plot in self._plots[:3]:
            plot.getAxis("left").setWidth(round(AXIS_PX * size))
        self._draw()

    # What is looked at.

    def show_found(
        self, found: Found | None, a: FilterChoice | None, b: FilterChoice | None
    ) -> None:
        """Another search, or other choices."""
        if found is not self._found:
            self._found = found
            with QSignalBlocker(self.recording):
                self.recording.clear()
                for each in found.used if found else ():
                    self.recording.addItem(each.path.name)
        if (a, b) != (self._a, self._b) or self._look is None:
            self._a, self._b = a, b
            self._load()

    @property
    def path(self) -> Path | None:
        """The recording that is looked at."""
        index = self.recording.currentIndex()
        return self._found.used[index].path if self._found and index >= 0 else None

    @property
    def now_s(self) -> float:
        """The middle of what is seen."""
        first_s, last_s = self.seen_s
        return (first_s + last_s) / 2

    @property
    def seen_s(self) -> tuple[float, float]:
        """From when to when is seen."""
        first_s = self.slider.value() / STEPS_PER_S
        return first_s, first_s + SPANS_S[self._span]

    @property
    def loading(self) -> bool:
        """Whether a recording is being read."""
        return self._errand is not None

    def widen(self, by: int) -> None:
        """More is seen, or less, around the same middle."""
        middle_s = self.now_s
        self._span = min(max(self._span + by, 0), len(SPANS_S) - 1)
        self._fit_slider()
        self.slider.setValue(round((middle_s - SPANS_S[self._span] / 2) * STEPS_PER_S))
        self._draw()

    def close_down(self) -> None:
        """Ends the thread, and waits for it."""
        self._timer.stop()
        if self._errand is not None:
            self._errand.stop()
            self._errand = None

    def _load(self) -> None:
        path, choices = self.path, [one for one in (self._a, self._b) if one]
        if path is None or not choices:
            self._look = None
            self._draw()
            return
        if self._errand is not None:
            self._again = True  # what is being read is of no use any more
            return
        wanted = self._found.wanted if self._found else None
        band = wanted.band if wanted else None
        self._errand = Errand(lambda _tell: look_at(path, choices, band=band))
        self._errand.start()
        self._timer.start()

    def look(self) -> None:
        """Whether the recording has been read."""
        errand = self._errand
        if errand is None or not errand.done:
            return
        self._timer.stop()
        self._errand = None
        if self._again:
            self._again = False
            self._load()
            return
        if errand.failure is not None:
            self.said.emit(error_words(errand.failure))
        elif errand.faulty:
            self.said.emit(said(FAULT_WORDS))
        before, self._look = self._look, errand.result
        self._fit_slider()
        if self._look and (before is None or before.path != self._look.path):
            self._go_to_hold()
        self._draw()
        self.moved.emit()

    def _fit_slider(self) -> None:
        look, span_s = self._look, SPANS_S[self._span]
        last_s = float(look.time_s[-1]) if look else 0.0
        with QSignalBlocker(self.slider):
            self.slider.setRange(0, max(0, round((last_s - span_s) * STEPS_PER_S)))
            self.slider.setSingleStep(max(1, round(span_s * STEPS_PER_S / 10)))
            self.slider.setPageStep(max(1, round(span_s * STEPS_PER_S)))

    def _go_to_hold(self) -> None:
        """The first hold, with what leads to it."""
        look = self._look
        if look is not None and look.holds:
            start_s = float(look.time_s[look.holds[0].start])
            with QSignalBlocker(self.slider):
                self.slider.setValue(round((start_s - 2.0) * STEPS_PER_S))

    def _moved(self) -> None:
        self._draw()
        self.moved.emit()

    # Drawing.

    def _draw(self) -> None:
        for plot in self._plots:
            plot.clear()
        look = self._look
        first_s, last_s = self.seen_s
        self.mains.setText("")
        if look is None:
            self.where.setText("")
            self.setAccessibleDescription(tr("nothing chosen"))
            return
        words = tr("{first:.2f} s to {last:.2f} s")
        self.where.setText(filled(words, first=first_s, last=last_s))
        for plot, choice, dashed in (
            (self._force_a, self._a, False),
            (self._force_b, self._b, True),
        ):
            seen = look.seen.get(choice) if choice else None
            if seen is not None:
                self._draw_force(plot, look, seen, dashed=dashed)
        self._draw_residuals(look)
        self._draw_noise(look)
        for plot in self._plots[:3]:
            plot.setXRange(first_s, last_s, padding=0)
        self._scale(look)
        names = [name_of(one) for one in (self._a, self._b) if one]
        self.setAccessibleDescription(", ".join(map(shown, names)))

    def _scale(self, look: Look) -> None:
        """One scale for A and B, or the eye compares nothing."""
        first_s, last_s = self.seen_s
        seen = (look.time_s >= first_s) & (look.time_s <= last_s)
        forces = [look.raw_n[seen], look.reference_n[seen]]
        forces += [each.shown_n[seen] for each in look.seen.values()]
        low_n = min(float(np.nanmin(each, initial=0.0)) for each in forces)
        high_n = max(float(np.nanmax(each, initial=1.0)) for each in forces)
        room = 0.04 * (high_n - low_n)
        for plot in (self._force_a, self._force_b):
            plot.setYRange(low_n - room, high_n + 5 * room, padding=0)
        off_n = [np.abs(each.residual_n[seen]) for each in look.seen.values()]
        most_n = max(
            (float(np.nanmax(each, initial=EDGE_LEAST_N)) for each in off_n),
            default=EDGE_LEAST_N,
        )
        self._residual.setYRange(-most_n, 1.5 * most_n, padding=0.02)

    def _pen(self, *, dashed: bool) -> Any:
        pen = pg.mkPen(self._theme.ink, width=2)
        if dashed:
            pen.setDashPattern([5, 3])
        return pen

    def _draw_force(self, plot: Any, look: Look, seen: Seen, *, dashed: bool) -> None:
        theme, seen_s = self._theme, self.seen_s
        edge = pg.mkPen(theme.edge, width=1.5)
        self._draw_wash(plot, look)
        # Where the band is open above there is no upper edge to draw.
        edges = [
            look.lower_n,
            np.where(np.isfinite(look.upper_n), look.upper_n, np.nan),
        ]
        for level_n in edges:
            plot.addItem(thinned_line(look.time_s, level_n, seen_s=seen_s, pen=edge))
        raw = pg.mkPen(theme.hatch, width=1)
        dots = pg.mkPen(theme.edge, width=1.5, style=Qt.PenStyle.DotLine)
        for force_n, pen, name in (
            (look.raw_n, raw, tr("raw, thin")),
            (look.reference_n, dots, tr("reference, dotted")),
            (
                seen.shown_n,
                self._pen(dashed=dashed),
                tr("shown, dashed") if dashed else tr("shown, solid"),
            ),
        ):
            line = thinned_line(look.time_s, force_n, seen_s=seen_s, pen=pen, name=name)
            plot.addItem(line)

    def _draw_wash(self, plot: Any, look: Look) -> None:
        """The ground of the band, as far as it is seen and bounded."""
        first_s, last_s = self.seen_s
        moved = np.flatnonzero(np.diff(look.lower_n) + np.diff(look.upper_n)) + 1
        cuts = [0, *moved.tolist(), len(look.time_s)]
        for begin, end in pairwise(cuts):
            from_s, to_s = look.time_s[begin], look.time_s[end - 1]
            low_n, high_n = look.lower_n[begin], look.upper_n[begin]
            if to_s > first_s and from_s < last_s and np.isfinite(high_n):
                ground = QGraphicsRectItem(from_s, low_n, to_s - from_s, high_n - low_n)
                ground.setPen(pg.mkPen(None))
                ground.setBrush(pg.mkBrush(self._theme.wash))
                plot.addItem(ground, ignoreBounds=True)

    def _draw_residuals(self, look: Look) -> None:
        zero = pg.mkPen(self._theme.edge, width=1)
        self._residual.addItem(pg.InfiniteLine(pos=0, angle=0, pen=zero))
        for choice, name, dashed in (
            (self._a, tr("A, solid"), False),
            (self._b, tr("B, dashed"), True),
        ):
            seen = look.seen.get(choice) if choice else None
            if seen is not None:
                line = thinned_line(
                    look.time_s,
                    seen.residual_n,
                    seen_s=self.seen_s,
                    pen=self._pen(dashed=dashed),
                    name=name,
                )
                self._residual.addItem(line)

    def _draw_noise(self, look: Look) -> None:
        theme = self._theme
        spectra: list[tuple[Spectrum | None, Any, str]] = [
            (look.raw_noise, pg.mkPen(theme.hatch, width=1), tr("raw, thin"))
        ]
        for choice, name, dashed in (
            (self._a, tr("A, solid"), False),
            (self._b, tr("B, dashed"), True),
        ):
            seen = look.seen.get(choice) if choice else None
            pen = self._pen(dashed=dashed)
            spectra.append((seen.noise if seen else None, pen, name))
        drawn = [each for each, _, _ in spectra if each is not None]
        if not drawn:
            self._noise.setAccessibleDescription(tr("no hold is long enough"))
            return
        most = max(float(each.density_n[1:].max()) for each in drawn)
        floor = most * 1e-4
        for spectrum, pen, name in spectra:
            if spectrum is not None:
                level = np.log10(np.maximum(spectrum.density_n[1:], floor))
                item = pg.PlotCurveItem(
                    spectrum.at_hz[1:], level, pen=pen, name=name, antialias=True
                )
                self._noise.addItem(item)
        top = float(np.log10(most))
        self._noise.setXRange(0, look.rate_hz / 2, padding=0.01)
        self._noise.setYRange(top - 4, top + 1.0, padding=0)
        self._draw_mains(look, top=top)

    def _draw_mains(self, look: Look, *, top: float) -> None:
        mains_hz = self._found.wanted.mains_hz if self._found else 50.0
        told = []
        pen = pg.mkPen(self._theme.edge, width=1.5, style=Qt.PenStyle.DashLine)
        for true_hz, seen_hz in mains_lines(mains_hz, rate_hz=look.rate_hz):
            name = filled(tr("{hz:g} Hz"), hz=true_hz)
            if abs(true_hz - seen_hz) > 1e-9:
                words = tr("{hz:g} Hz, seen at {seen:g} Hz")
                told.append(filled(words, hz=true_hz, seen=seen_hz))
            else:
                told.append(name)
            self._noise.addItem(pg.InfiniteLine(pos=seen_hz, angle=90, pen=pen))
            text = pg.TextItem(
                name,
                color=self._theme.ink,
                anchor=(0.5, 0),
                fill=pg.mkBrush(self._theme.paper),
            )
            text.setPos(seen_hz, top + 0.5)
            self._noise.addItem(text)
        words = tr("Dashed: mains and its multiples, {lines}.")
        self.mains.setText(filled(words, lines="; ".join(told)))
        self._noise.setAccessibleDescription(self.mains.text())
