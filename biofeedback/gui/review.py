"""The review page: saved reps, and one of them with its band and times."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Protocol

from PySide6.QtCore import QModelIndex, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QPushButton,
    QScrollArea,
    QStackedWidget,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import BiofeedbackError
from biofeedback.gui.eccentric_box import EccentricBox
from biofeedback.gui.keys import bind, show_key
from biofeedback.gui.language import error_words
from biofeedback.gui.rep_plot import RepPlot
from biofeedback.gui.review_rows import (
    SavedRep,
    Table,
    mark_rows,
    measure_rows,
    reference_rows,
    rep_row,
)
from biofeedback.gui.words import tip_of

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import datetime

    from PySide6.QtCore import QAbstractItemModel

    from biofeedback.gui.review_rows import SavedTrace
    from biofeedback.gui.theme import Theme
    from biofeedback.measures.eccentric_check import CheckSettings
    from biofeedback.session.lowering import Paired


SETTINGS_PX = 460


class SavedReps(Protocol):
    """The part of `biofeedback.session.review.Library` that the page uses."""

    def reps(self, *, athlete_code: str | None = None) -> Sequence[SavedRep]:
        """The latest saved reps, of one athlete or of all, newest first."""

    def trace(self, row: Any) -> SavedTrace:
        """The force of a rep, read again from its recording."""


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
                tr("rep"),
                tr("outcome"),
                tr("mean, N"),
                tr("inside, s"),
                tr("CV, %"),
            ),
            self,
            tips=tip_of,
        )
        self.measures = Table(
            (tr("measure"), tr("value"), tr("unit")), self, tips=tip_of
        )
        self.table = plain_table(self.reps, tr("Saved reps"), stretch=2)
        self.measure_table = plain_table(self.measures, tr("Measures"), stretch=0)
        self.all_athletes = QCheckBox(tr("All athletes"))
        self.all_athletes.setToolTip(tr("Also reps of others than who is here now."))
        self.all_athletes.setVisible(bool(athlete_code))
        self.all_athletes.toggled.connect(self.reload)
        self.check_day = QPushButton(tr("Isometric against eccentric"))
        self.check_day.setCheckable(True)
        self.check_day.setVisible(checks is not None)
        self.check_day.toggled.connect(self._switch_check)
        show_key(self.check_day, "F9", tr("Check the lowering reps of that day"))
        bind(self, "F9", self.check_day.click)  # dead while the page is hidden
        self.eccentric = EccentricBox()
        self.eccentric.settings.setMaximumWidth(SETTINGS_PX)
        self.eccentric.settings_wanted.connect(self._set_check)
        self.plot = RepPlot()
        self.table.selectionModel().currentRowChanged.connect(self._chosen)
        self._lay_out()

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self.live)
        head.addWidget(self.heading, 1)
        head.addWidget(self.check_day)
        head.addWidget(self.all_athletes)
        rep = QWidget()
        row = QHBoxLayout(rep)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.plot, 3)
        row.addWidget(self.measure_table, 1)
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
        layout.addWidget(self.table, 2)
        layout.addWidget(self._foot, 3)

    def set_theme(self, theme: Theme) -> None:
        """Another set of colours."""
        self.plot.set_theme(theme)

    def reload(self) -> None:
        """Reads the list again and chooses the newest rep."""
        self.problem.hide()
        try:
            self._reps = self._wanted_reps()
        except BiofeedbackError as error:
            self._reps = ()
            self._tell(error)
        self.reps.set_rows([rep_row(rep) for rep in self._reps])
        count = len(self._reps)
        self.heading.setText(
            self.tr("{n} saved reps{of_whom}").format(n=count, of_whom=self._whose())
            if count
            else self.tr("No reps{of_whom} are saved yet").format(of_whom=self._whose())
        )
        if count:
            self.table.selectRow(0)
        else:
            self._show(None)

    def show_athlete(self, code: str) -> None:
        """Somebody else is here; their reps are listed from the next `reload` on."""
        self._athlete_code = code
        self.all_athletes.setVisible(bool(code))

    def _wanted_reps(self) -> tuple[SavedRep, ...]:
        if self._library is None:
            return ()
        all_of_them = self.all_athletes.isChecked()
        code = None if all_of_them else self._athlete_code or None
        return tuple(self._library.reps(athlete_code=code))

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
        self.plot.show_trace(trace)
        rows = measure_rows(rep.measures) if rep else ()
        if trace is not None:
            rows = (*mark_rows(trace), *reference_rows(trace), *rows)
        self.measures.set_rows(rows)

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
        row = self.table.currentIndex().row()
        rep = self._reps[row] if 0 <= row < len(self._reps) else None
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
        self.problem.setText(error_words(error))
        self.problem.show()


def plain_table(model: QAbstractItemModel, name: str, *, stretch: int) -> QTableView:
    """A table to read from.

    Args:
        stretch: the column that takes up the room that is left.
    """
    view = QTableView()
    view.setAccessibleName(name)
    view.setModel(model)
    view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    view.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    view.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    view.setAlternatingRowColors(True)
    view.setShowGrid(False)
    view.verticalHeader().hide()
    rows = view.verticalHeader()
    rows.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    header = view.horizontalHeader()
    header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    header.setSectionResizeMode(stretch, QHeaderView.ResizeMode.Stretch)
    return view
