"""The page of a group: isometric against eccentric peaks of many athletes.

The pairs come from a table or from the logbook; figures and pictures are those of
`biofeedback compare`. Codes stand here and never names. The page decides nothing.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import numpy as np
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFileDialog,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import BiofeedbackError
from biofeedback.gui.choice_row import ChoiceRow
from biofeedback.gui.eccentric_settings import EccentricSettings
from biofeedback.gui.file_place import PLACE
from biofeedback.gui.language import error_words, filled, shown, tr
from biofeedback.gui.pair_sheet import PairSheet
from biofeedback.gui.tall_area import TallArea
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.measures.comparison import SEED, compare
from biofeedback.measures.comparison_json import as_json
from biofeedback.measures.eccentric_check import CheckSettings, LineOn, Part
from biofeedback.measures.level_difference import Level
from biofeedback.phrase import numbered, phrase
from biofeedback.report.group_charts import group_charts
from biofeedback.report.pair_picture import save_picture
from biofeedback.session.group_pairs import table_of
from biofeedback.session.planning import write_whole
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from biofeedback.gui.theme import Theme
    from biofeedback.measures.comparison import Comparison
    from biofeedback.measures.eccentric_check import MassLine
    from biofeedback.phrase import Phrase
    from biofeedback.report.pair_picture import PairChart
    from biofeedback.session.group_pairs import GroupPairs
    from biofeedback.training.task import Task

SIDE_PX = 330
PARTS = tuple(Part)
LEVELS = tuple(Level)


class GroupPage(QWidget):
    """Where the pairs come from on the left, the pictures on the right.

    Args:
        group: the door to the logbook; None where there is none.

    Signals:
        live_wanted: back to the live page.
    """

    live_wanted = Signal()

    def __init__(self, group: GroupPairs | None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        title = tr("Isometric and eccentric in a group")
        self.setAccessibleName(title)
        self._group = group
        self._table: Path | None = None
        self._tasks: tuple[Task, ...] = ()
        self._found: Comparison | None = None
        self._notes: tuple[str, ...] = ()
        self._settings = CheckSettings()
        self.live = QPushButton(tr("Back to live"))
        self.live.clicked.connect(self.live_wanted)
        self.heading = QLabel(title)
        self.heading.setObjectName("who")
        self.open_table = QPushButton(tr("Open a table…"))
        self.open_table.setToolTip(
            tr("CSV: the athlete's code, isometric and eccentric force in newtons")
        )
        self.open_table.clicked.connect(self._ask_table)
        self.save_picture = QPushButton(tr("Save the picture…"))
        self.save_picture.clicked.connect(self._ask_picture)
        self.save_figures = QPushButton(tr("Save the figures…"))
        self.save_figures.clicked.connect(self._ask_figures)
        self.source = ChoiceRow(tr("Pairs of"))
        self.part = ChoiceRow(tr("Force of"))
        self.part.box.addItems([shown(part.value) for part in PARTS])
        self.level = ChoiceRow(tr("Difference on"))
        self.level.box.addItems([shown(level.value) for level in LEVELS])
        self.source.box.activated.connect(self._choose)
        self.part.box.activated.connect(self._work_out)
        self.level.box.activated.connect(self._show)
        self.settings = EccentricSettings()
        self.settings.changed.connect(self._set)
        self.problem = QLabel()
        self.problem.setObjectName("message")
        self.words = QLabel()
        self.advice = QLabel(
            tr("A group says nothing sure of one athlete. Newtons alone do not compare "
               "people: mass, lever and angle matter. What it means, you and the "
               "treating clinician decide.")
        )  # fmt: skip
        self.advice.setObjectName("summary")
        for label in (self.problem, self.words, self.advice):
            label.setWordWrap(True)
        self.charts = PairSheet()
        self._lay_out()
        self.set_size(1.0)

    def _lay_out(self) -> None:
        head = WrappedRow()
        head.add(self.live)
        head.add(self.heading, 1)
        for button in (self.open_table, self.save_picture, self.save_figures):
            head.add(button)
        self._side = QWidget()
        side = QVBoxLayout(self._side)
        side.setContentsMargins(0, 0, 8, 0)
        for widget in (
            self.source,
            self.part,
            self.level,
            self.settings,
            self.words,
            self.advice,
        ):
            side.addWidget(widget)
        side.addStretch(1)
        self._left, self._right = _scrolled(self._side), _scrolled(self.charts)
        row = WrappedRow(spacing_px=18, fills=True)
        row.add(self._left, scrolls=True)
        row.add(self._right, 1, scrolls=True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 10, 12, 12)
        layout.addLayout(head)
        layout.addWidget(self.problem)
        layout.addLayout(row, 1)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self._left.setMinimumWidth(round(SIDE_PX * size))
        self.charts.set_size(size)

    def set_theme(self, theme: Theme) -> None:
        """Day or night."""
        self.charts.set_theme(theme)

    # Where the pairs come from.

    def enter(self) -> None:
        """The page is shown."""
        self._say("")
        self._offer()
        self._work_out()
        self.source.box.setFocus()

    def _offer(self) -> None:
        """The tasks of the logbook, and the table once one was opened."""
        at = self.source.box.currentText()
        try:
            if self._group is not None:
                self._tasks = self._group.tasks()
                self._settings = self._group.settings()
        except BiofeedbackError as error:
            self._say(error_words(error))
        self.settings.show_settings(self._settings)
        box = self.source.box
        box.clear()
        for task in self._tasks:
            box.addItem(f"{shown(task.name)}, {shown(task.sides.value)}")
        if self._table is not None:
            box.addItem(self._table.name)
        box.setCurrentIndex(max(0, box.findText(at)))

    @property
    def _task(self) -> Task | None:
        """The chosen one; None where the table is."""
        at = self.source.box.currentIndex()
        return self._tasks[at] if 0 <= at < len(self._tasks) else None

    def _choose(self) -> None:
        self._work_out()

    def _set(self, settings: CheckSettings) -> None:
        self._settings = settings
        try:
            if self._group is not None:
                self._group.set(settings)
        except BiofeedbackError as error:
            self._say(error_words(error))
        self._work_out()

    def _ask_table(self) -> None:
        dialog = QFileDialog(self.window(), tr("Open a table of pairs"))
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        dialog.setNameFilters([tr("Tables (*.csv *.tsv *.txt)")])
        path = PLACE.ask(dialog)
        if path is not None:
            self.open(path)

    def open(self, path: Path) -> None:
        """Shows the pairs of a table."""
        self._table = path
        self._offer()
        self.source.box.setCurrentIndex(self.source.box.count() - 1)
        self._work_out()

    # What they say.

    def _pairs(self) -> Mapping[str, tuple[Sequence[float], Sequence[float]]]:
        task = self._task
        if task is None and self._table is not None:
            table = table_of(self._table)
            self._notes = table.notes
            return table.results_n
        self._notes = ()
        if task is None or self._group is None:
            return {}
        part = PARTS[self.part.box.currentIndex()]
        one_side = task.sides is not Sides.BOTH
        forces = self._group.forces(task, Part.TOTAL if one_side else part)
        if forces.too_far:
            self._notes = (
                numbered(
                    forces.too_far,
                    "Left out: 1 day without an isometric test near enough.",
                    "Left out: {count} days without an isometric test near enough.",
                ),
            )
        return forces.results_n

    def _work_out(self) -> None:
        task = self._task
        self._found = None
        self.part.setVisible(task is not None and task.sides is Sides.BOTH)
        self.settings.days.setVisible(task is not None)
        self._say("")
        if task is None and self._table is None:
            self._say(
                tr("No paired tasks were done yet. A table of pairs can be opened.")
            )
        else:
            try:
                generator = np.random.default_rng(SEED)
                self._found = compare(self._pairs(), generator)
            except BiofeedbackError as error:
                self._say(error_words(error))
        self._show()

    def _lines(self) -> tuple[MassLine, ...]:
        """Those that are for the force that is shown; all of them for a table."""
        task, settings = self._task, self._settings
        if task is None:
            return settings.lines
        part = PARTS[self.part.box.currentIndex()]
        side = task.sides is not Sides.BOTH or part is not Part.TOTAL
        return settings.lines if side is (settings.line_on is LineOn.EACH_SIDE) else ()

    def _charts(self) -> tuple[PairChart, ...]:
        if self._found is None:
            return ()
        level = LEVELS[self.level.box.currentIndex()]
        return group_charts(self._found, level=level, lines=self._lines())

    def _show(self) -> None:
        found = self._found
        self.charts.show_charts(self._charts())
        for button in (self.save_picture, self.save_figures):
            button.setEnabled(found is not None)
        told: list[str] = [shown(note) for note in self._notes]
        if found is not None:
            told = [shown(_people(found)), *told]
            if not self._lines():
                told.append(tr("The lines are for another force and are not drawn."))
            elif self._task is None:
                told.append(
                    tr("The table does not say whether it is of one side; the lines "
                       "may be for another force.")
                )  # fmt: skip
            told += [shown(caution) for caution in found.cautions]
        self.words.setText("\n\n".join(told))

    def _say(self, words: str) -> None:
        self.problem.setText(words)
        self.problem.setVisible(bool(words))

    # What leaves the page.

    def _ask_picture(self) -> None:
        path = PLACE.ask_to_save(
            self.window(),
            tr("Save the picture"),
            kind="PNG (*.png)",
            suffix="png",
            name="group",
        )
        if path is None or self._found is None:
            return
        try:
            save_picture(self._charts(), path, shown=shown)
        except BiofeedbackError as error:
            self._say(error_words(error))
            return
        self._say(filled(tr("The picture is in {path}."), path=str(path)))

    def _ask_figures(self) -> None:
        path = PLACE.ask_to_save(
            self.window(),
            tr("Save the figures"),
            kind="JSON (*.json)",
            suffix="json",
            name="group",
        )
        if path is None or self._found is None:
            return
        told = as_json(self._found, seed=SEED, notes=self._notes)
        try:
            write_whole(path, json.dumps(told, indent=2, allow_nan=False).encode())
        except BiofeedbackError as error:
            self._say(error_words(error))
            return
        self._say(filled(tr("The figures are in {path}."), path=str(path)))


def _people(found: Comparison) -> Phrase:
    agreement = found.agreement
    return phrase(
        "{people} athletes. Eccentric less isometric: {bias_n:.0f} N on average, "
        "limits of agreement {lower_n:.0f} to {upper_n:.0f} N. Bootstrap by athlete, "
        "seed {seed}.",
        people=len(found.forces.codes),
        bias_n=agreement.bias,
        lower_n=agreement.limits[0],
        upper_n=agreement.limits[1],
        seed=SEED,
    )


def _scrolled(widget: QWidget) -> TallArea:
    area = TallArea(widget)
    area.setFrameShape(QScrollArea.Shape.NoFrame)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # what is in it has it
    return area
