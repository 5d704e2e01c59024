"""The page of reliability: what repeated scores say of the noise of a test.

The scores are a table somebody has, or the club's own tests. The page shows figures
with their intervals and how many people are behind them, and the differences of two
trials. It changes nothing: the program goes on with the noise that it has.
"""

from __future__ import annotations

import json
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFileDialog,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import BiofeedbackError
from biofeedback.gui.chart_sheet import ChartSheet
from biofeedback.gui.choice_row import ChoiceRow
from biofeedback.gui.field import Field
from biofeedback.gui.file_place import PLACE
from biofeedback.gui.language import error_words, filled, shown, tr
from biofeedback.gui.plain_label import plain_label
from biofeedback.gui.tall_area import TallArea
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.measures.retest_json import as_json
from biofeedback.report.agreement_chart import agreement_chart, picture
from biofeedback.report.retest_words import sections
from biofeedback.session.planning import write_whole

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from biofeedback.gui.theme import Theme
    from biofeedback.report.chart import Chart
    from biofeedback.session.reliability import Reliability, Repeated, TestKind

WORDS_PX = 470
SOURCE_PX = 465
"""At least, for a task, its side and how it is measured."""
UNIT_MAX = 12
PLOT_MORE = 20.0
"""The only chart of the page, in heights of type."""


class ReliabilityPage(QWidget):
    """Where scores come from, what they say, and the differences of two trials.

    Args:
        reliability: the door to tables and tests.

    Signals:
        live_wanted: back to the live page.
    """

    live_wanted = Signal()

    def __init__(self, reliability: Reliability, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Reliability"))
        self._door = reliability
        self._told: Repeated | None = None
        self._chart: Chart | None = None
        self._pairs: list[tuple[int, int]] = []
        self._kinds: tuple[TestKind, ...] = ()
        self.live = QPushButton(tr("Back to live"))
        self.live.clicked.connect(self.live_wanted)
        self.heading = plain_label(tr("Reliability"), look="who")
        self.source = ChoiceRow(tr("Tests of the club"))
        self.source.box.activated.connect(self._take_club)
        self.unit = Field(tr("Unit of the file"))
        self.unit.line.setMaxLength(UNIT_MAX)
        self.unit.set_text("N")
        self.file = QPushButton(tr("Scores from a file…"))
        self.file.setToolTip(
            tr("A table: one row a person, one column a trial, names in the first row")
        )
        self.file.clicked.connect(self._ask_file)
        self.pair = ChoiceRow(tr("Differences"))
        self.pair.box.currentIndexChanged.connect(self._draw)
        self.save_picture = QPushButton(tr("Save the picture…"))
        self.save_picture.clicked.connect(self._save_picture)
        self.save_figures = QPushButton(tr("Save the figures…"))
        self.save_figures.clicked.connect(self._save_figures)
        self.problem = plain_label(look="message")
        self.problem.hide()
        self.words = plain_label()
        self.words.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.chart = ChartSheet(plot_more=PLOT_MORE)
        self._lay_out()
        self.set_size(1.0)
        self._show(None)

    def _lay_out(self) -> None:
        head = WrappedRow()
        head.add(self.live)
        head.add(self.heading, 1)
        head.add(self.save_picture)
        head.add(self.save_figures)
        sources = WrappedRow(spacing_px=12)
        sources.add(self.source, 2)
        sources.add(self.file)
        sources.add(self.unit)
        sources.add(self.pair, 1)
        self.body = TallArea(self.words)
        self.body.setAccessibleName(tr("Figures"))
        drawn = TallArea(self.chart)
        drawn.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # the sheet itself has it
        row = WrappedRow(spacing_px=18, fills=True)
        row.add(self.body, scrolls=True)
        row.add(drawn, 1, scrolls=True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 10, 12, 12)
        layout.addLayout(head)
        layout.addLayout(sources)
        layout.addWidget(self.problem)
        layout.addLayout(row, 1)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self.body.setMinimumWidth(round(WORDS_PX * size))
        self.source.setMinimumWidth(round(SOURCE_PX * size))
        self.chart.set_size(size)

    def set_theme(self, theme: Theme) -> None:
        """Day or night."""
        self.chart.set_theme(theme)

    # Where the scores come from.

    def enter(self) -> None:
        """The page is shown: the tests that are there now are offered."""
        self._say("")
        try:
            self._kinds = self._door.kinds()
        except BiofeedbackError as error:
            self._kinds = ()
            self._say(error_words(error))
        box = self.source.box
        before = box.currentText()
        box.clear()
        for kind in self._kinds:
            box.addItem(
                filled(
                    tr("{task}, {sides}, {definition}: {people} people"),
                    task=kind.task.name,
                    sides=kind.task.sides.value,
                    definition=kind.definition.value,
                    people=kind.people,
                )
            )
        box.setEnabled(bool(self._kinds))
        if not self._kinds:
            box.addItem(tr("no test of two people yet"))
        box.setCurrentIndex(max(0, box.findText(before)))
        if (self._told is None and self._kinds) or (
            self._told is not None and self._told.club
        ):
            self._take_club(box.currentIndex())
        self.file.setFocus()

    def _take_club(self, index: int) -> None:
        if 0 <= index < len(self._kinds):
            self._take(lambda: self._door.of_club(self._kinds[index]))

    def _ask_file(self) -> None:
        dialog = QFileDialog(self.window(), tr("Scores from a file"))
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        dialog.setNameFilters([tr("Tables (*.csv *.tsv *.txt)"), tr("All files (*)")])
        path = PLACE.ask(dialog)
        if path is not None:
            self.take_file(path)

    def take_file(self, path: Path) -> None:
        """Shows what the scores of a table say."""
        unit = self.unit.text.strip() or "N"
        self._take(lambda: self._door.of_file(path, unit=unit))

    def _take(self, read: Callable[[], Repeated]) -> None:
        try:
            told = read()
        except BiofeedbackError as error:
            self._show(None)
            self._say(error_words(error))
            return
        self._say("")
        self._show(told)

    # What they say.

    def _show(self, told: Repeated | None) -> None:
        self._told = told
        columns = 0 if told is None else len(told.trials)
        self._pairs = list(pairwise(range(columns)))
        if columns > 2:
            self._pairs.append((0, columns - 1))
        box = self.pair.box
        box.blockSignals(True)
        box.clear()
        for first, second in self._pairs:
            assert told is not None  # noqa: S101  there are pairs with a table only
            box.addItem(
                filled(
                    tr("{second} less {first}"),
                    first=told.trials[first],
                    second=told.trials[second],
                )
            )
        box.blockSignals(False)
        box.setEnabled(len(self._pairs) > 1)
        for button in (self.save_picture, self.save_figures):
            button.setEnabled(told is not None)
        if told is None:
            self.heading.setText(tr("Reliability"))
            self.words.setText(
                tr("How far may a test be trusted, and which change is more than "
                   "noise? Choose tests of the club, or a table of your own: one row "
                   "a person, one column a trial.")
            )  # fmt: skip
        else:
            self.heading.setText(
                filled(tr("Reliability: {title}"), title=shown(told.title))
            )
            self.words.setText(_words(told))
        self.body.verticalScrollBar().setValue(0)
        self._draw()

    def _draw(self) -> None:
        told, index = self._told, self.pair.box.currentIndex()
        self._chart = None
        if told is not None and 0 <= index < len(self._pairs):
            self._chart = agreement_chart(
                told.values, told.trials, told.unit, pair=self._pairs[index]
            )
        self.chart.show_charts(() if self._chart is None else (self._chart,))

    # Saving.

    def _save_picture(self) -> None:
        if self._chart is not None:
            self._save("png", tr("Save the picture"), picture(self._chart, shown=shown))

    def _save_figures(self) -> None:
        told = self._told
        if told is None:
            return
        content = as_json(
            told.found, trials=told.trials, unit=told.unit, notes=told.notes
        )
        text = json.dumps(content, allow_nan=False, indent=2, ensure_ascii=False)
        self._save("json", tr("Save the figures"), f"{text}\n".encode())

    def _save(self, suffix: str, title: str, content: bytes) -> None:
        path = PLACE.ask_to_save(
            self.window(),
            title,
            kind=f"{suffix.upper()} (*.{suffix})",
            suffix=suffix,
            name=f"reliability.{suffix}",
        )
        if path is not None:
            self.write(path, content)

    def write(self, path: Path, content: bytes) -> None:
        """Writes a file and says where it is, or why it is not."""
        try:
            write_whole(path, content)
        except BiofeedbackError as error:
            self._say(error_words(error))
        else:
            self._say(filled(tr("Saved: {path}."), path=str(path)))

    def _say(self, words: str) -> None:
        self.problem.setText(words)
        self.problem.setVisible(bool(words))


def _words(told: Repeated) -> str:
    return "\n\n".join(
        "\n".join((shown(title).upper(), *map(shown, lines)))
        for title, lines in sections(told)
    )
