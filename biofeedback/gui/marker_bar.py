"""Under the figure: zoom, filter, markers moved by keys, and whether the rep counts."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QGridLayout,
    QLabel,
    QPushButton,
    QWidget,
)

from biofeedback.gui.enum_box import labelled
from biofeedback.gui.field import Field
from biofeedback.gui.keys import bind, show_key
from biofeedback.gui.language import localised
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.session.local_time import day_and_time

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import datetime
    from typing import Protocol

    from biofeedback.gui.rep_plot import RepPlot
    from biofeedback.gui.review_rows import SavedTrace

    class SavedMove(Protocol):
        """One move of a marker, as it is kept."""

        @property
        def marker(self) -> str:
            """Its name."""

        @property
        def moved_by(self) -> str:
            """Who."""

        @property
        def moved_utc(self) -> datetime:
            """When."""


MARKERS = ("onset", "entry", "hold end")
STEP_S, WIDE_S = 0.01, 0.1
ZOOM = 1.6
SHIFT = 0.25
BY_PX = 80
TOLD_PX = 160
"""Less, and words that wrap would make a tower."""


class MarkerBar(QWidget):
    """What is done to the rep that is looked at.

    Signals:
        move_wanted: name of a marker and seconds by which to move it.
        automatic_wanted: name of a marker to put back where the rules found it.
        undo_wanted: the newest move is to be taken back.
        void_wanted: the reason; the rep is to be void, or to count again.
    """

    move_wanted = Signal(str, float)
    automatic_wanted = Signal(str)
    undo_wanted = Signal()
    void_wanted = Signal(str)

    def __init__(self, plot: RepPlot, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self._plot = plot
        self.smooth = QCheckBox(tr("Zero phase"))
        self.smooth.setToolTip(
            tr("Smoothed without delay, for looking. Measures stay as they are.")
        )
        self.smooth.toggled.connect(plot.set_smooth)
        self.marker = QComboBox()
        self.marker.setAccessibleName(tr("Marker"))
        for name, words in zip(
            MARKERS, (tr("start"), tr("entry"), tr("hold end")), strict=True
        ):
            self.marker.addItem(words, userData=name)
        self.marker.currentIndexChanged.connect(lambda _: plot.select(self.chosen))
        self.closer, self.wider = QPushButton(tr("Closer")), QPushButton(tr("Wider"))
        self.whole = QPushButton(tr("Whole rep"))
        self.back, self.on = QPushButton(tr("Earlier")), QPushButton(tr("Later"))
        self.earlier, self.later = QPushButton("−10 ms"), QPushButton("+10 ms")
        self.automatic = QPushButton(tr("Automatic"))
        self.undo = QPushButton(tr("Undo move"))
        self.by = Field(tr("By"), tip=tr("Who changes it: initials are enough."))
        self.reason = Field(tr("Reason"), error_below=False)
        self.void = QPushButton(tr("Does not count"))
        self.told = QLabel()
        self.told.setObjectName("summary")
        self.told.setWordWrap(True)
        self._connect()
        self._lay_out()
        self.set_size(1.0)

    def _connect(self) -> None:
        tr, plot = self.tr, self._plot
        keys = (
            (self.closer, "Ctrl++", tr("Zoom in"), lambda: plot.zoom(ZOOM)),
            (self.wider, "Ctrl+-", tr("Zoom out"), lambda: plot.zoom(1 / ZOOM)),
            (self.whole, "Ctrl+Home", tr("All of the rep"), plot.see_all),
            (self.back, "Alt+Left", tr("What was before"), lambda: plot.shift(-SHIFT)),
            (self.on, "Alt+Right", tr("What came after"), lambda: plot.shift(SHIFT)),
            (
                self.earlier,
                "Ctrl+Left",
                tr("Move the marker earlier; with Shift by 100 ms"),
                lambda: self.move_wanted.emit(self.chosen, -STEP_S),
            ),
            (
                self.later,
                "Ctrl+Right",
                tr("Move the marker later; with Shift by 100 ms"),
                lambda: self.move_wanted.emit(self.chosen, STEP_S),
            ),
            (
                self.automatic,
                "Ctrl+Backspace",
                tr("The marker back to where the rules found it"),
                lambda: self.automatic_wanted.emit(self.chosen),
            ),
            (
                self.undo,
                "Ctrl+Z",
                tr("Take back the last move"),
                self.undo_wanted.emit,
            ),
        )
        for button, key, tip, act in keys:
            show_key(button, key, tip)
            button.clicked.connect(act)
            bind(self, key, button.click)
        for key, by_s in (("Ctrl+Shift+Left", -WIDE_S), ("Ctrl+Shift+Right", WIDE_S)):
            bind(self, key, partial(self._ask_move, by_s))
        bind(self, "Ctrl+Space", self._next_marker)
        self.marker.setToolTip(tr("The marker that keys move; Ctrl+Space: the next."))
        self.void.clicked.connect(lambda: self.void_wanted.emit(self.reason.text))

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self.by.line.setMaximumWidth(round(BY_PX * size))

    def _lay_out(self) -> None:
        look, move, count = WrappedRow(), WrappedRow(), WrappedRow()
        look.add(self.smooth)
        for button in (self.closer, self.wider, self.whole, self.back, self.on):
            look.add(button)
        count.add(self.by)
        count.add(self.reason, 1)
        count.add(self.void)
        move.add(labelled(self.tr("Marker"), self.marker))
        for button in (self.earlier, self.later, self.automatic, self.undo):
            move.add(button)
        self.told.setMinimumWidth(TOLD_PX)
        move.add(self.told, 1)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 4, 0, 0)
        grid.setVerticalSpacing(4)
        grid.addLayout(look, 0, 0)
        grid.addLayout(move, 1, 0)
        grid.addLayout(count, 2, 0)

    @property
    def chosen(self) -> str:
        """The marker that keys move."""
        return str(self.marker.currentData())

    def _ask_move(self, by_s: float) -> None:
        self.move_wanted.emit(self.chosen, by_s)

    def _next_marker(self) -> None:
        self.marker.setCurrentIndex(
            (self.marker.currentIndex() + 1) % self.marker.count()
        )

    def show_rep(
        self,
        trace: SavedTrace | None,
        moves: Sequence[SavedMove],
        *,
        void: bool,
        known: bool,
    ) -> None:
        """What stands of a rep.

        Args:
            moves: all moves of its markers, oldest first.
            void: whether it does not count.
            known: whether there is a rep at all.
        """
        for part in (self.earlier, self.later, self.automatic):
            part.setEnabled(trace is not None)
        self.undo.setEnabled(trace is not None and bool(trace.by_hand or moves))
        self.void.setEnabled(known)
        self.void.setText(
            self.tr("Counts after all") if void else self.tr("Does not count")
        )
        self.told.setText("" if trace is None else self._words(trace, moves))

    def _words(self, trace: SavedTrace, moves: Sequence[SavedMove]) -> str:
        """Which times were moved by hand, from where, by whom and when."""
        if not trace.by_hand:
            return self.tr("All times as the rules found them.")
        told = []
        for name in trace.by_hand:
            automatic_s = getattr(trace.automatic, f"{name.replace(' ', '_')}_s")
            last = [move for move in moves if move.marker == name][-1:]
            who = last[0].moved_by if last else ""
            when = day_and_time(last[0].moved_utc) if last else ""
            words = self.marker.itemText(MARKERS.index(name))
            told.append(
                self.tr("{marker} moved by hand ({who}, {when}); rules: {at} s").format(
                    marker=words,
                    who=who or "–",
                    when=when,
                    at="–" if automatic_s is None else localised(f"{automatic_s:.3f}"),
                )
            )
        return " · ".join(told)
