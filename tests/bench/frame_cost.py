"""What one frame of the athlete's screen costs, beside other ways to draw a force.

All of the screen is measured: path, band to come, hold timer, balance bar, row of
reps and cue, with what came in one frame. The peers draw the two lines only, with the
libraries that one would reach for first, each as its documents tell. All of them show
the same span at 1280×720, in a window of their own on the same display.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QSize
from PySide6.QtGui import QPainter, QPaintEvent, QPixmap
from PySide6.QtWidgets import QApplication, QWidget

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bench.ratios import Row, in_turns
from gui.staged_session import ASKED, StagedSession, profile_of, steady_pull

from biofeedback.conditioning.profile import Side
from biofeedback.gui import path, path_content
from biofeedback.gui.app import application
from biofeedback.gui.athlete_screen import AthleteScreen

SIZE = QSize(1280, 720)
FRAME_S = 1 / 60
PART = "frame"


def _shown(widget: QWidget) -> QWidget:
    widget.setGeometry(0, 0, SIZE.width(), SIZE.height())
    widget.show()
    QApplication.processEvents()
    return widget


class Ours:
    """The athlete's screen in the middle of a set.

    Args:
        span_s: of the past that is shown; what the program ships is 10.
    """

    def __init__(self, rate_hz: float, *, sides: int = 2, span_s: float = 10.0) -> None:
        self._span_s = span_s
        self._of_span()
        profile = profile_of(
            *((Side.LEFT, Side.RIGHT) if sides == 2 else (Side.SINGLE,)),
            rate_hz=rate_hz,
        )
        force = steady_pull if sides == 2 else lambda at_s: sum(steady_pull(at_s))
        self.session = StagedSession(force, profile=profile)
        self.screen = AthleteScreen(ASKED)
        self.screen.plan(profile, ASKED)
        _shown(self.screen)
        self.session.begin_set(ASKED)
        while self.session.now_ns < 1e9 * (span_s + 3):
            self.session.advance(0.5)
            self._take()
        self.next()
        self.draw()

    def _of_span(self) -> None:
        # One constant of the path, which two of its modules have by name.
        of_path: tuple[Any, ...] = (path, path_content)
        for module in of_path:
            module.PAST_S = self._span_s

    def _take(self) -> None:
        self.screen.take(self.session.take(), live=True)

    def next(self) -> None:
        """A frame's samples come; not part of what is measured."""
        self.session.advance(FRAME_S)

    def draw(self) -> None:
        """Takes them and paints."""
        self._of_span()
        self._take()
        QApplication.processEvents()


class Blit(QWidget):
    """A pixmap as large as the window, drawn once a frame: the least there can be."""

    def __init__(self) -> None:
        super().__init__()
        self._pixmap = QPixmap(SIZE)
        self._pixmap.fill("white")
        _shown(self)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002
        painter = QPainter(self)
        painter.drawPixmap(0, 0, self._pixmap)
        painter.end()

    def draw(self) -> None:
        self.update()
        QApplication.processEvents()


class Samples:
    """Two forces, the newest of which move on by a frame."""

    def __init__(self, rate_hz: float, span_s: float = 10.0) -> None:
        self.step = max(1, round(rate_hz * FRAME_S))
        count = round(rate_hz * span_s)
        self.time_s = np.arange(count) / rate_hz
        rows = [steady_pull(float(at_s)) for at_s in self.time_s]
        self.force_n = np.array(rows).T.copy()

    def next(self) -> None:
        self.force_n = np.roll(self.force_n, -self.step, axis=1)


class Plot:
    """pyqtgraph, all samples handed over each frame."""

    def __init__(
        self, samples: Samples, *, pen_px: int, smooth: bool, peaks: bool = False
    ) -> None:
        self._samples = samples
        self._widget = pg.PlotWidget(background="w")
        self._widget.setYRange(0, 120)
        self._widget.setXRange(0, float(samples.time_s[-1]), padding=0)
        self._curves = []
        for _ in range(2):
            curve = self._widget.plot(pen=pg.mkPen("k", width=pen_px), antialias=smooth)
            if peaks:
                curve.setDownsampling(auto=True, method="peak")
                curve.setClipToView(True)
            self._curves.append(curve)
        _shown(self._widget)
        self.draw()

    def draw(self) -> None:
        for curve, force_n in zip(self._curves, self._samples.force_n, strict=True):
            curve.setData(self._samples.time_s, force_n)
        QApplication.processEvents()


class Blitting:
    """matplotlib: the background kept, the two lines drawn over it."""

    def __init__(self, samples: Samples, *, pen_px: float) -> None:
        os.environ["QT_API"] = "pyside6"
        from matplotlib.backends.backend_qtagg import FigureCanvasQTAgg  # noqa: PLC0415
        from matplotlib.figure import Figure  # noqa: PLC0415

        self._samples = samples
        figure = Figure(figsize=(SIZE.width() / 100, SIZE.height() / 100), dpi=100)
        self._canvas = _untyped(FigureCanvasQTAgg)(figure)
        self._axes = figure.add_subplot()
        self._axes.set(xlim=(0, samples.time_s[-1]), ylim=(0, 120))
        self._lines = [
            self._axes.plot([], [], "k", lw=0.72 * pen_px, animated=True)[0]
            for _ in range(2)
        ]
        _shown(self._canvas)
        self._canvas.draw()
        self._ground = self._canvas.copy_from_bbox(figure.bbox)
        self.draw()

    def draw(self) -> None:
        self._canvas.restore_region(self._ground)
        for line, force_n in zip(self._lines, self._samples.force_n, strict=True):
            line.set_data(self._samples.time_s, force_n)
            self._axes.draw_artist(line)
        self._canvas.blit(self._canvas.figure.bbox)
        QApplication.processEvents()


def _untyped(thing: Any) -> Any:
    """matplotlib's canvases carry no types."""
    return thing


def _growth(name: str, first: Ours, second: Ours, turns: int, most: float) -> Row:
    """How much dearer the second is."""

    def data() -> None:
        first.next()
        second.next()

    found = in_turns({"second": second.draw, "first": first.draw}, turns, before=data)
    ratio, spread = found.ratio("second", "first")
    return Row(PART, name, ratio, "×", spread, most=most)


def rows(*, turns: int = 60) -> list[Row]:
    """The whole part; needs a display, or Qt's off-screen one."""
    application()
    where = os.environ.get("QT_QPA_PLATFORM", "xcb")
    rate_hz = 1000.0
    samples = Samples(rate_hz)
    ours, again, blit = Ours(rate_hz), Ours(rate_hz), Blit()
    thick = Plot(samples, pen_px=3, smooth=True)
    peaks = Plot(samples, pen_px=3, smooth=True, peaks=True)
    quick = {
        "ours": ours.draw,
        "blit": blit.draw,
        "ours again": again.draw,
        "pyqtgraph 1 px": Plot(samples, pen_px=1, smooth=False).draw,
    }
    dear = {
        "pyqtgraph 3 px smooth": thick.draw,
        "ours": ours.draw,
        "pyqtgraph peaks 3 px smooth": peaks.draw,
        "matplotlib blitting 3 px": Blitting(samples, pen_px=3).draw,
    }

    def data() -> None:
        for one in (samples, ours, again):
            one.next()

    found = in_turns(quick, 3 * turns, before=data)
    slow = in_turns(dear, max(8, turns // 6), before=data)
    ratio, spread = found.ratio("ours again", "ours")
    told = [Row(PART, f"{where}: ours / ours (A/A)", ratio, "×", spread)]
    told += [Row(PART, f"{where}: {n}", found.ms(n), "ms") for n in ("ours", "blit")]
    ratio, spread = found.ratio("ours", "blit")
    told.append(Row(PART, f"{where}: ours / blit", ratio, "×", spread, most=2.5))
    ratio, spread = found.ratio("pyqtgraph 1 px", "ours")
    told.append(Row(PART, f"{where}: pyqtgraph 1 px / ours", ratio, "×", spread))
    for name in dear:
        if name != "ours":
            ratio, spread = slow.ratio(name, "ours")
            least = 15.0 if name == "pyqtgraph 3 px smooth" else None
            what = f"{where}: {name} / ours"
            told.append(Row(PART, what, ratio, "×", spread, least=least))
    pairs = [
        ("10 kHz / 80 Hz", Ours(80.0), Ours(10_000.0), 1.2),
        ("60 s / 10 s shown", Ours(1000.0), Ours(1000.0, span_s=60.0), 1.2),
        ("2 cells / 1 cell", Ours(1000.0, sides=1), Ours(1000.0), 1.3),
    ]
    told += [
        _growth(f"{where}: {name}", first, second, 2 * turns, most)
        for name, first, second, most in pairs
    ]
    return told
