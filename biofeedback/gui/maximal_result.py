"""The result of a maximal test: its trials, its spread, and what it means."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.field import Field
from biofeedback.gui.language import plain_number, shown
from biofeedback.gui.maximal_words import (
    meaning_words,
    result_title,
    shares_words,
    sides_words,
    spread_words,
    trial_rows,
)
from biofeedback.gui.plain_table import plain_table
from biofeedback.gui.review_rows import Table
from biofeedback.training.reference import PAIN_MOST, PAINFUL_FROM
from biofeedback.training.trial import DEFINITIONS

if TYPE_CHECKING:
    from biofeedback.session.maximal_test import MaximalTest
    from biofeedback.session.test_meaning import Meaning
    from biofeedback.training.athlete import BodyMass
    from biofeedback.training.maximal import MaximalResult
    from biofeedback.training.reference import Definition
    from biofeedback.training.trial import Trial


class ResultPanel(QWidget):
    """Shows one test that is over.

    Signals:
        definition_chosen: another `Definition` is to be the 100 %.
        let_count: whether the trial is to count in which the set was stopped.
        keep_wanted: the result is to be the 100 %.
        undo_wanted: the result is to be no 100 % any more.
        pain_corrected: number of a rep, and its pain; None where it was not asked.
        leave_wanted: the test is left aside, with the reason.
    """

    definition_chosen = Signal(object)
    let_count = Signal(bool)
    keep_wanted = Signal()
    undo_wanted = Signal()
    pain_corrected = Signal(int, object)
    leave_wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.title = QLabel()
        self.title.setObjectName("prompt")
        self.title.setWordWrap(True)
        self.shares = _words()
        self.spread = _words()
        self.sides = _words()
        self.meaning = _words()
        self.cautions = QLabel()
        self.cautions.setObjectName("look")
        self.cautions.setWordWrap(True)
        self._told = (
            self.shares,
            self.spread,
            self.sides,
            self.meaning,
            self.cautions,
        )
        self.definition = QComboBox()
        self.definition.setAccessibleName(tr("Which number is the 100 %"))
        for definition in DEFINITIONS:
            self.definition.addItem(shown(definition.value), userData=definition)
        self.keep = QPushButton(tr("Use as 100 %"))
        self.keep.setObjectName("start")
        self.undo = QPushButton(tr("Take it back"))
        self.undo.setToolTip(
            tr("It is no 100 % any more; can be kept again (until you leave this page)")
        )
        self.undo.hide()
        self.may_undo = False
        self._trials: tuple[Trial, ...] = ()
        self._open = False
        self.pain = QComboBox()
        self.pain.setAccessibleName(tr("Pain in the chosen effort"))
        self.pain.addItem(tr("not asked"), userData=None)
        for level in range(PAIN_MOST + 1):
            self.pain.addItem(tr("{level} of 10").format(level=level), userData=level)
        self.stopped = QCheckBox(tr("Let the stopped trial count"))
        self.stopped.setToolTip(
            tr("The set was stopped within it: it counts only where you say so.")
        )
        self.stopped.clicked.connect(self.let_count)
        self.reason = Field(
            tr("Not this one, because"),
            tip=tr("Why the test does not count; it stays on record."),
            error_below=False,
        )
        self.leave = QPushButton(tr("Leave it aside"))
        self.rows = Table(
            (
                tr("effort"),
                tr("peak, N"),
                tr("best 0.5 s, N"),
                tr("best 1 s, N"),
                tr("left / right, N"),
                tr("lasted, s"),
                tr("remark"),
            )
        )
        self.table = plain_table(self.rows, tr("Trials"), stretch=6)
        self._lay_out()
        self.definition.activated.connect(self._choose)
        self.undo.clicked.connect(self.undo_wanted)
        self.pain.activated.connect(self._correct_pain)
        self.table.selectionModel().currentRowChanged.connect(self._show_pain)
        self.keep.clicked.connect(self.keep_wanted)
        self.leave.clicked.connect(self._leave)

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addWidget(self.title)
        for words in self._told:
            layout.addWidget(words)
        choice = QGridLayout()
        label = QLabel(self.tr("100 % is the"))
        label.setBuddy(self.definition)
        choice.addWidget(label, 0, 0)
        choice.addWidget(self.definition, 0, 1)
        choice.addWidget(self.keep, 0, 2)
        choice.addWidget(self.undo, 0, 3)
        choice.setColumnStretch(1, 1)
        choice.setColumnStretch(2, 1)
        layout.addWidget(self.stopped)
        layout.addLayout(choice)
        aside = QHBoxLayout()
        aside.addWidget(self.reason, 1)
        aside.addWidget(self.leave)
        layout.addLayout(aside)
        pain = QHBoxLayout()
        pain_label = QLabel(self.tr("Pain in the chosen effort"))
        pain_label.setBuddy(self.pain)
        pain.addWidget(pain_label)
        pain.addWidget(self.pain)
        pain.addStretch(1)
        layout.addLayout(pain)
        layout.addWidget(self.table, 1)

    def show_test(
        self,
        test: MaximalTest,
        meaning: Meaning | None,
        *,
        practice_score: bool,
        mass: BodyMass | None = None,
    ) -> None:
        """A test that is over.

        Args:
            practice_score: whether it is of the first session with this task.
            mass: of the body, the newest one.
        """
        found = test.result
        chosen = max(0, self.table.currentIndex().row())
        self._trials = test.trials
        self._open = test.kept is None
        self.rows.set_rows(_rows(test))
        self.table.selectRow(min(chosen, len(test.trials) - 1))
        self._show_pain()
        self.undo.setVisible(not self._open and self.may_undo)
        self.definition.setCurrentIndex(self.definition.findData(test.plan.definition))
        open_ = test.kept is None
        stopped = test.may_count
        self.stopped.setVisible(stopped is not None)
        self.stopped.setEnabled(open_)
        self.stopped.setChecked(stopped is not None and stopped.let_count)
        for widget in (self.keep, self.definition, self.reason.line, self.leave):
            widget.setEnabled(open_ and found is not None)
        self.keep.setText(self.tr("Use as 100 %") if open_ else self.tr("Kept"))
        self.reason.complain("")
        if found is None:
            self.title.setText(self.tr("No trial counts: there is no result."))
            for words in self._told:
                words.setText("")
                words.hide()
            return
        self.title.setText(result_title(found))
        told = (
            shares_words(found.force.total_n, test.task, mass),
            spread_words(found, test.plan),
            sides_words(found),
            meaning_words(meaning, found.force.total_n),
            self._cautions(found, practice_score=practice_score),
        )
        for label, text in zip(self._told, told, strict=True):
            label.setText(text)
            label.setVisible(bool(text))

    def _cautions(self, found: MaximalResult, *, practice_score: bool) -> str:
        words = []
        if practice_score:
            words.append(
                self.tr(
                    "Practice score: of a first session, before the task is learnt. "
                    "Do not build on it alone."
                )
            )
        if found.pain is not None and found.pain >= PAINFUL_FROM:
            words.append(
                self.tr(
                    "Measured with pain {level} of 10: it may show the pain more than "
                    "the strength."
                ).format(level=found.pain)
            )
        if found.pain is None:
            words.append(self.tr("Pain was not asked for."))
        return "\n".join(words)

    def _choose(self) -> None:
        self.definition_chosen.emit(self.definition.currentData())

    @property
    def _chosen(self) -> Trial | None:
        row = self.table.currentIndex().row()
        trial = self._trials[row] if 0 <= row < len(self._trials) else None
        return None if trial is None or trial.touch else trial

    def _show_pain(self) -> None:
        """The pain of the effort that is chosen in the table."""
        trial = self._chosen
        self.pain.setEnabled(self._open and trial is not None)
        pain = trial.pain if trial else None
        self.pain.setCurrentIndex(0 if pain is None else pain + 1)

    def _correct_pain(self) -> None:
        trial, level = self._chosen, self.pain.currentData()
        if trial is not None and level != trial.pain:
            self.pain_corrected.emit(trial.number, level)

    def _leave(self) -> None:
        if self.reason.text:
            self.leave_wanted.emit(self.reason.text)
        else:
            self.reason.complain(self.tr("Say why the test does not count."))


def _rows(test: MaximalTest) -> tuple[tuple[str, ...], ...]:
    definition = test.plan.definition
    rows = []
    for trial, (name, peak, one_s, remark) in zip(
        test.trials, trial_rows(test), strict=True
    ):
        half_s = trial.half_s
        rows.append(
            (
                name,
                peak,
                "–" if half_s is None else plain_number(half_s.total_n),
                one_s,
                _sides(trial, definition),
                plain_number(trial.seconds),
                remark,
            )
        )
    return tuple(rows)


def _sides(trial: Trial, definition: Definition) -> str:
    force = trial.force(definition)
    if force is None or force.left_n is None or force.right_n is None:
        return "–"
    return f"{plain_number(force.left_n)} / {plain_number(force.right_n)}"


def _words() -> QLabel:
    label = QLabel()
    label.setWordWrap(True)
    return label
