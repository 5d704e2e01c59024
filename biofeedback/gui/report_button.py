"""The button that saves a report: for how long, where to, and that it is there.

It stands on each page that tells of one athlete. The report has the code alone; the
name goes into it where that is chosen, and never into the name of the file.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QMenu, QPushButton, QWidget

from biofeedback.errors import BiofeedbackError
from biofeedback.gui.file_place import PLACE
from biofeedback.gui.keys import show_key
from biofeedback.gui.language import error_words, filled, shown
from biofeedback.report import writing

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from biofeedback.session.report_facts import ReportFacts
    from biofeedback.session.reports import Reports

KEY = "Ctrl+E"
SUFFIXES = {"PDF (*.pdf)": "pdf", "PNG (*.png)": "png"}
"""Kinds of files, as the dialog names them."""


class ReportButton(QPushButton):
    """Saves a report on whoever the page is of.

    Args:
        reports: gathers it; without them the button is not shown.
        who: gives the code of the athlete; empty where the page is of nobody.

    Signals:
        said: where the report is, or why there is none.
    """

    said = Signal(str)

    def __init__(
        self,
        reports: Reports | None,
        who: Callable[[], str],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        tr = self.tr
        self.setText(tr("Report…"))
        self._reports = reports
        self._who = who
        self.periods = QMenu(self)
        for text, days in (
            (tr("All there is"), 0),
            (tr("Last 12 months"), 365),
            (tr("Last 3 months"), 91),
            (tr("Last 4 weeks"), 27),
        ):
            action = self.periods.addAction(text)
            action.triggered.connect(lambda _=False, days=days: self.save(days))
        self.periods.addSeparator()
        self.with_name = self.periods.addAction(tr("The name beside the code"))
        self.with_name.setCheckable(True)
        self.setMenu(self.periods)
        if reports is None:
            self.hide()  # and not shown here: it has no parent yet
        show_key(self, KEY, tr("Save a report for athlete and clinician"))
        self.setAccessibleName(tr("Save a report"))

    def open(self) -> None:
        """Opens the choice of periods, as its key does."""
        if self._reports is not None:
            self.showMenu()

    def save(self, days: int) -> None:
        """Saves a report where the practitioner says.

        Args:
            days: back from today; all where it is 0.
        """
        reports, code = self._reports, self._who()
        if reports is None or not code:
            self.said.emit(self.tr("There is nobody to report on yet."))
            return
        since = reports.today - timedelta(days=days) if days else None
        try:
            facts = reports.of(code, since=since, name=self.with_name.isChecked())
            path = self._ask_where(facts)
            if path is None:
                return
            writing.write(facts, path, shown=shown)
            reports.written(code, path)
        except BiofeedbackError as error:
            self.said.emit(error_words(error))
            return
        self.said.emit(filled(self.tr("The report is in {path}."), path=str(path)))

    def _ask_where(self, facts: ReportFacts) -> Path | None:
        dialog = QFileDialog(self.window(), self.tr("Save the report"))
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setNameFilters(list(SUFFIXES))
        # Put on by the dialog, which then asks before a file is written over.
        dialog.filterSelected.connect(
            lambda chosen: dialog.setDefaultSuffix(SUFFIXES.get(chosen, "pdf"))
        )
        dialog.setDefaultSuffix("pdf")
        dialog.selectFile(writing.file_name(facts, suffix=""))
        return PLACE.ask(dialog)
