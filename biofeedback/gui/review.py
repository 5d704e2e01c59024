"""The review page: saved reps, and one of them with its band and times."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Protocol

from PySide6.QtCore import QModelIndex, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui.eccentric_box import EccentricBox
from biofeedback.gui.fitting_table import FittingTable
from biofeedback.gui.keys import bind, show_key
from biofeedback.gui.language import error_words, filled, shown
from biofeedback.gui.marker_bar import MarkerBar
from biofeedback.gui.measure_table import MeasureTable
from biofeedback.gui.plain_table import plain_table
from biofeedback.gui.rep_plot import RepPlot
from biofeedback.gui.review_filters import ReviewFilters
from biofeedback.gui.review_rows import (
    SavedRep,
    Table,
    error_rows,
    mark_rows,
    measure_rows,
    reference_rows,
    rep_row,
)
from biofeedback.gui.words import tip_of
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.phrase import numbered

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import datetime

    from PySide6.QtGui import QResizeEvent

    from biofeedback.gui.marker_bar import SavedMove
    from biofeedback.gui.review_rows import SavedTrace
    from biofeedback.gui.theme import Theme
    from biofeedback.measures.eccentric_check import CheckSettings
    from biofeedback.session.lowering import Paired
    from biofeedback.session.review import RepsWanted


SETTINGS_PX = 460
MEASURES_PX = 430
MEASURES_MOST = 0.45
"""Of the page, in larger type: the figure has the rest."""
MEANING_PX = 52
PAGE = 200
"""Reps that are read at once; the next ones follow when the list is scrolled."""


class SavedReps(Protocol):
    """The part of `biofeedback.session.review.Library` that the page uses."""

    def reps(
        self,
        *,
        athlete_code: str | None = None,
        wanted: RepsWanted | None = None,
        limit: int = PAGE,
        older_than: Any = None,
    ) -> Sequence[SavedRep]:
        """A page of saved reps, newest first."""

    def tasks(self, *, athlete_code: str | None = None) -> Sequence[str]:
        """Names of the tasks that were done."""

    def trace(self, row: Any) -> SavedTrace:
        """The force of a rep, read again from its recording."""

    def numbers(self, row: Any, trace: Any) -> Mapping[str, object]:
        """What is worked out of it only when it is looked at."""

    def moves(self, row: Any) -> Sequence[SavedMove]:
        """All moves of its markers, oldest first."""

    def move(
        self, row: Any, trace: Any, marker: str, to_s: float | None, *, by: str = ""
    ) -> SavedTrace:
        """Puts a marker somewhere else."""

    def undo(self, row: Any, *, by: str = "") -> bool:
        """Takes back the newest move."""

    def void(self, row: Any, reason: str, *, by: str = "") -> None:
        """Says that a rep does not count."""

    def withdraw_void(self, row: Any, reason: str, *, by: str = "") -> None:
        """Says that it counts after all."""

    def of_kept_test(self, row: Any) -> str:
        """What voiding this rep leaves as it is: a kept maximal test; else empty."""


class DayChecks(Protocol):
    """The part of `biofeedback.session.review.DayChecks` that the page uses."""

    def of(self, athlete_code: str, at_utc: datetime) -> tuple[Paired, ...]:
        """The paired results of that athlete's day."""

    def settings(self) -> CheckSettings:
        """What is set."""

    def set(self, settings: CheckSettings) -> None:
        """Keeps what was set."""


class ReviewPage(QWidget):
    """Lists saved reps and draws the chosen one, or checks the day it is of.

    Args:
        athlete_code: whose reps are listed at first; empty for those of all.
        checks: isometric against eccentric; None where there is no logbook.

    Signals:
        live_wanted: back to the live page.
    """

    live_wanted = Signal()

    def __init__(
        self,
        library: SavedReps | None,
        parent: QWidget | None = None,
        *,
        athlete_code: str = "",
        checks: DayChecks | None = None,
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("Review"))
        self._library = library
        self._checks = checks
        self._athlete_code = athlete_code
        self._reps: tuple[SavedRep, ...] = ()
        tr = self.tr
        self.live = QPushButton(tr("Back to live"))
        self.live.clicked.connect(self.live_wanted)
        self.heading = QLabel()
        self.heading.setObjectName("who")
        self.problem = QLabel()
        self.problem.setObjectName("message")
        self.problem.setWordWrap(True)
        self.problem.hide()
        self.reps = Table(
            (
                tr("athlete"),
                tr("set begun"),
                tr("task"),
                tr("kind"),
                tr("rep"),
                tr("outcome"),
                tr("pain in or after the set, of 10"),
                tr("mean, N"),
                tr("peak, N"),
                tr("inside, s"),
                tr("CV, %"),
            ),
            self,
            tips=tip_of,
        )
        self.measures = Table(
            (tr("measure"), tr("value"), tr("unit"), tr("signal")), self, tips=tip_of
        )
        self.table = plain_table(
            self.reps,
            tr("Saved reps"),
            stretch=2,
            # All of them stand in the measures of the chosen rep too.
            view=FittingTable(spare=(7, 8, 9, 10), wraps=(1, 3, 5), stretch=2),
        )
        self.measure_table = plain_table(
            self.measures, tr("Measures"), stretch=0, view=MeasureTable()
        )
        self.all_athletes = QCheckBox(tr("All athletes"))
        self.all_athletes.setToolTip(tr("Also reps of others than who is here now."))
        self.all_athletes.toggled.connect(self.reload)
        self.check_day = QPushButton(tr("Isometric against eccentric"))
        self.check_day.setCheckable(True)
        self.check_day.toggled.connect(self._switch_check)
        show_key(self.check_day, "F9", tr("Check the lowering reps of that day"))
        bind(self, "F9", self.check_day.click)  # dead while the page is hidden
        self.eccentric = EccentricBox()
        self.eccentric.settings.setMaximumWidth(SETTINGS_PX)
        self.eccentric.settings_wanted.connect(self._set_check)
        self.plot = RepPlot()
        self.bar = MarkerBar(self.plot)
        self.filters = ReviewFilters()
        self.meaning = QLabel()
        self.meaning.setObjectName("summary")
        self.meaning.setWordWrap(True)
        self.meaning.setAccessibleName(tr("What the measure means"))
        self._size = 1.0
        self._trace: SavedTrace | None = None
        self._whole = True  # whether the list holds all that is wanted
        self._connect()
        self._lay_out()
        # Only now: before it has a place, each would be a window of its own.
        self.all_athletes.setVisible(bool(athlete_code))
        self.check_day.setVisible(checks is not None)

    def _connect(self) -> None:
        self.filters.changed.connect(self.reload)
        self.bar.move_wanted.connect(self._move_by)
        self.bar.automatic_wanted.connect(lambda name: self._move(name, None))
        self.bar.undo_wanted.connect(self._undo)
        self.bar.void_wanted.connect(self._void)
        self.plot.marker_dropped.connect(self._move)
        self.plot.select(self.bar.chosen)
        self.table.verticalScrollBar().valueChanged.connect(self._more)
        self.measure_table.selectionModel().currentRowChanged.connect(
            lambda at, _: self._explain(at.row())
        )
        self.table.selectionModel().currentRowChanged.connect(self._chosen)

    def _lay_out(self) -> None:
        head = WrappedRow()
        head.add(self.live)
        head.add(self.heading, 1)
        head.add(self.check_day)
        head.add(self.all_athletes)
        rep = QWidget()
        row = QHBoxLayout(rep)
        row.setContentsMargins(0, 0, 0, 0)
        figure, side = QVBoxLayout(), QVBoxLayout()
        figure.addWidget(self.plot, 1)
        figure.addWidget(self.bar)
        side.addWidget(self.measure_table, 1)
        side.addWidget(self.meaning)
        self.meaning.setMinimumHeight(MEANING_PX)
        row.addLayout(figure, 5)
        row.addLayout(side, 2)
        self.measure_table.setMinimumWidth(MEASURES_PX)
        scroll = QScrollArea()
        scroll.setWidget(self.eccentric)
        scroll.setWidgetResizable(True)
        scroll.setAccessibleName(self.tr("Isometric against eccentric"))
        self._foot = QStackedWidget()
        self._foot.addWidget(rep)
        self._foot.addWidget(scroll)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 10, 12, 12)
        layout.addLayout(head)
        layout.addWidget(self.problem)
        layout.addWidget(self.filters)
        layout.addWidget(self.table, 2)
        layout.addWidget(self._foot, 6)

    def set_theme(self, theme: Theme) -> None:
        """Another set of colours."""
        self.plot.set_theme(theme)

    def set_size(self, size: float) -> None:
        """Larger type, 1 for a window 720 pixels high."""
        self.plot.set_size(size)
        self.bar.set_size(size)
        self._size = size
        self._share_width()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width."""
        super().resizeEvent(event)
        self._share_width()

    def _share_width(self) -> None:
        wide = min(MEASURES_PX * self._size, MEASURES_MOST * self.width())
        self.measure_table.setMinimumWidth(round(max(MEASURES_PX, wide)))

    def reload(self) -> None:
        """Reads the list again and chooses the newest rep."""
        self.problem.hide()
        try:
            if self._library is not None:
                self.filters.offer(self._library.tasks(athlete_code=self._code))
            self._reps = self._page()
        except BiofeedbackError as error:
            self._reps = ()
            self._tell(error)
        self._whole = len(self._reps) < PAGE
        self.reps.set_rows([rep_row(rep) for rep in self._reps])
        self._head()
        if self._reps:
            self.table.selectRow(0)
        else:
            self._show(None)

    def _head(self) -> None:
        count = len(self._reps)
        if not count:
            words = (
                self.tr("No reps{of_whom} are as chosen")
                if self.filters.narrowed
                else self.tr("No reps{of_whom} are saved yet")
            )
        elif self._whole:
            words = "{reps}{of_whom}"
        else:
            words = self.tr("The latest {n} saved reps{of_whom}; scroll for more")
        reps = numbered(count, "1 saved rep", "{count} saved reps")
        self.heading.setText(filled(words, n=count, reps=reps, of_whom=self._whose()))

    def _more(self, at: int) -> None:
        """The end of the list is seen: the next page follows."""
        if self._whole or at < self.table.verticalScrollBar().maximum():
            return
        try:
            page = self._page(older_than=self._reps[-1])
        except BiofeedbackError as error:
            self._tell(error)
            return
        self._whole = len(page) < PAGE
        self._reps += page
        self.reps.add_rows([rep_row(rep) for rep in page])
        self._head()

    def show_athlete(self, code: str) -> None:
        """Somebody else is here; their reps are listed from the next `reload` on."""
        self._athlete_code = code
        self.all_athletes.setVisible(bool(code))

    @property
    def _code(self) -> str | None:
        """Whose reps are listed; None for all."""
        return None if self.all_athletes.isChecked() else self._athlete_code or None

    def _page(self, older_than: SavedRep | None = None) -> tuple[SavedRep, ...]:
        if self._library is None:
            return ()
        return tuple(
            self._library.reps(
                athlete_code=self._code,
                wanted=self.filters.wanted,
                limit=PAGE,
                older_than=older_than,
            )
        )

    def _whose(self) -> str:
        if self._athlete_code and not self.all_athletes.isChecked():
            return self.tr(" of {who}").format(who=self._athlete_code)
        return ""

    def _chosen(self, current: QModelIndex, previous: QModelIndex) -> None:
        self._show(self._reps[current.row()] if current.isValid() else None)
        self._show_check()

    def _show(self, rep: SavedRep | None) -> None:
        trace = None
        if rep is not None and self._library is not None:
            self.problem.hide()
            try:
                trace = self._library.trace(rep)
            except BiofeedbackError as error:
                self._tell(error)
        self._put(rep, trace)

    def _put(
        self, rep: SavedRep | None, trace: SavedTrace | None, *, again: bool = False
    ) -> None:
        """Draws a rep and writes its numbers.

        Args:
            again: it is the same one with other times.
        """
        self._trace = trace
        self.plot.show_trace(trace, keep_view=again)
        rows: tuple[tuple[str, ...], ...] = ()
        if rep is not None:
            rows = measure_rows(rep.measures)
        moves: Sequence[SavedMove] = ()
        if rep is not None and trace is not None and self._library is not None:
            numbers = self._library.numbers(rep, trace)
            moves = self._library.moves(rep)
            rows = (
                *mark_rows(trace),
                *reference_rows(trace),
                *error_rows(trace.measures),
                *measure_rows({**trace.measures, **numbers}),
            )
            if trace.by_hand:
                moved = self.tr("moved by hand")
                rows = ((self.tr("times"), moved, "", ""), *rows)
        at = self.measure_table.currentIndex().row() if again else -1
        self.measures.set_rows(rows)
        if at >= 0:
            self.measure_table.selectRow(at)
        self._explain(at)
        self.bar.show_rep(
            trace,
            moves,
            void=rep is not None and rep.void_reason is not None,
            known=rep is not None,
        )

    def _explain(self, at: int) -> None:
        """What the chosen measure means, and which signal it is of."""
        if not 0 <= at < len(self.measures.rows):
            self.meaning.setText(
                self.tr("Choose a measure to read what it means and is taken from.")
            )
            return
        name, *_, signal = self.measures.rows[at]
        parts = [shown(tip_of(name)) or name]
        if signal:
            parts.append(self.tr("Signal: {signal}.").format(signal=shown(signal)))
        self.meaning.setText(" ".join(parts))

    # What is changed by hand.

    @property
    def _rep(self) -> SavedRep | None:
        """The rep that is chosen."""
        row = self.table.currentIndex().row()
        return self._reps[row] if 0 <= row < len(self._reps) else None

    def _move_by(self, marker: str, by_s: float) -> None:
        trace = self._trace
        if trace is None:
            return
        at_s = {
            "onset": trace.start_s,
            "entry": trace.entry_s,
            "hold end": trace.hold_end_s,
        }[marker]
        if at_s is None:
            self._say(self.tr("The band was never entered: there is no entry."))
            return
        self._move(marker, at_s + by_s)

    def _move(self, marker: str, to_s: float | None) -> None:
        rep, trace = self._rep, self._trace
        if rep is None or trace is None or self._library is None:
            return
        self.problem.hide()
        try:
            trace = self._library.move(rep, trace, marker, to_s, by=self.bar.by.text)
        except BiofeedbackError as error:
            self._tell(error)  # and the line goes back to where it stands
        self._put(rep, trace, again=True)

    def _undo(self) -> None:
        rep = self._rep
        if rep is None or self._library is None:
            return
        self.problem.hide()
        try:
            if not self._library.undo(rep, by=self.bar.by.text):
                self._say(self.tr("There is no move to take back."))
            self._put(rep, self._library.trace(rep), again=True)
        except BiofeedbackError as error:
            self._tell(error)

    def _void(self, reason: str) -> None:
        rep, row = self._rep, self.table.currentIndex().row()
        if rep is None or self._library is None:
            return
        void = rep.void_reason is not None
        change = self._library.withdraw_void if void else self._library.void
        self.problem.hide()
        self.bar.reason.complain("")
        try:
            change(rep, reason, by=self.bar.by.text)
        except FieldError as error:
            self.bar.reason.complain(shown(error.problem))
            self._say(filled(self.tr("Reason: {problem}"), problem=error.problem))
            return
        except BiofeedbackError as error:
            self._tell(error)
            return
        self.bar.reason.line.clear()
        self.reload()
        self.table.selectRow(min(row, len(self._reps) - 1))
        try:
            words = "" if void else self._library.of_kept_test(rep)
        except BiofeedbackError as error:
            self._tell(error)
            return
        if words:
            self._say(shown(words))

    # Isometric against eccentric.

    def _switch_check(self, shown: bool) -> None:
        self._foot.setCurrentIndex(int(shown))
        self.check_day.setText(
            self.tr("Back to the rep")
            if shown
            else self.tr("Isometric against eccentric")
        )
        self._show_check()

    def _set_check(self, settings: CheckSettings) -> None:
        if self._checks is not None:
            try:
                self._checks.set(settings)
            except BiofeedbackError as error:
                self._tell(error)
            self._show_check()

    def _show_check(self) -> None:
        """Of the day that the chosen rep is of."""
        rep = self._rep
        if self._checks is None or not self.check_day.isChecked():
            return
        try:
            settings = self._checks.settings()
            found = self._checks.of(rep.athlete_code, rep.started_utc) if rep else ()
        except BiofeedbackError as error:
            self._tell(error)
            return
        self.eccentric.show_paired(found, settings)

    def _tell(self, error: BiofeedbackError) -> None:
        self._say(error_words(error))

    def _say(self, words: str) -> None:
        self.problem.setText(words)
        self.problem.show()
