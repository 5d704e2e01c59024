"""The set-up of a maximal test: task, side and how it is to go."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QComboBox, QGridLayout, QLabel, QVBoxLayout, QWidget

from biofeedback.errors import FieldError
from biofeedback.gui.field import Field
from biofeedback.gui.language import shown
from biofeedback.gui.task_titles import task_name, task_titles
from biofeedback.phrase import phrase
from biofeedback.training.maximal import MaximalPlan
from biofeedback.training.task import Sides, Task, TaskKind, is_pair, same_task
from biofeedback.training.trial import DEFINITIONS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.session.maximal_tests import Outlook

NUMBER_PX = 62
UNIT_PX = 16
_WHOLE = ("practice", "trials", "most")


class MaximalSetup(QWidget):
    """Fields for task and plan.

    Signals:
        task_changed: another task or side; what is known of it is to be shown.
    """

    task_changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self._tasks: tuple[Task, ...] = ()
        self.task = QComboBox()
        self.task.setEditable(True)
        self.task.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        # A long name of a task must not widen the column.
        policy = QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        self.task.setSizeAdjustPolicy(policy)
        self.task.setMinimumContentsLength(12)
        self.task.setAccessibleName(tr("Task"))
        self.task.setToolTip(tr("Choose one, or type the name of a new one."))
        self.sides = QComboBox()
        self.sides.setAccessibleName(tr("Side"))
        for side in (Sides.LEFT, Sides.RIGHT, Sides.BOTH):
            self.sides.addItem(shown(side.value), userData=side)
        self.definition = QComboBox()
        self.definition.setAccessibleName(tr("What is the 100 %"))
        self.definition.setToolTip(
            tr(
                "For holds a sustained number is the better 100 %: with a peak, holds "
                "above about 65 % settle below their target."
            )
        )
        for definition in DEFINITIONS:
            self.definition.addItem(shown(definition.value), userData=definition)
        self.fields = {
            "practice": _number(tr("Practice ramps")),
            "practice_rest_s": _number(tr("Rest after a ramp"), "s"),
            "trials": _number(tr("Trials, at least")),
            "rest_s": _number(tr("Rest after a trial"), "s"),
            "most": _number(tr("Trials, at most")),
            "trial_s": _number(tr("A trial lasts"), "s"),
            "agree_within_pct": _number(
                tr("Two best within"),
                "%",
                tr("Another trial is asked for while the two best differ by more."),
            ),
            "ceiling_n": _number(
                tr("Ceiling"), "N", tr("Must not be passed. Empty for none.")
            ),
        }
        self.problem = QLabel()
        self.problem.setObjectName("error")
        self.problem.setWordWrap(True)
        self.problem.hide()
        self._lay_out()
        self.show_plan(MaximalPlan())
        self.sides.currentIndexChanged.connect(self.task_changed)
        self.task.currentTextChanged.connect(self.task_changed)

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(5)
        head = QGridLayout()
        head.setHorizontalSpacing(8)
        for row, (name, box) in enumerate(
            (
                (self.tr("Task"), self.task),
                (self.tr("Side"), self.sides),
                (self.tr("100 % is the"), self.definition),
            )
        ):
            label = QLabel(name)
            label.setBuddy(box)
            head.addWidget(label, row, 0)
            head.addWidget(box, row, 1)
        head.setColumnStretch(1, 1)
        layout.addLayout(head)
        grid = QGridLayout()
        grid.setHorizontalSpacing(14)
        grid.setVerticalSpacing(4)
        for at, field in enumerate(self.fields.values()):
            grid.addWidget(field, at // 2, at % 2)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)
        layout.addLayout(grid)
        layout.addWidget(self.problem)

    # What it is given.

    def offer(self, tasks: Sequence[Task]) -> None:
        """Tasks to choose from; what is typed or chosen stays."""
        tasks = tuple(task for task in tasks if task.kind is not TaskKind.LOWERING)
        if tasks == self._tasks:
            return
        self._tasks = tasks
        before = self.task.currentText()
        blocked = self.task.blockSignals(True)
        self.task.clear()
        self.task.addItems(task_titles(task.name for task in tasks))
        if before:
            self.task.setCurrentText(before)
        self.task.blockSignals(blocked)
        self.task_changed.emit()

    def begin_with(self, *wanted: Task | None) -> None:
        """The first of these that is known, with its sides; else the first of the list.

        Of a lowering it is the task that it is held against.
        """
        for asked in filter(None, wanted):
            for task in self._tasks:
                sided = task.on_side(asked.sides)
                if same_task(task, asked) or is_pair(sided, asked):
                    self.choose(sided)
                    return
        if self._tasks:
            self.choose(self._tasks[0].on_side(Sides.LEFT))

    def choose(self, task: Task) -> None:
        """A task with its sides."""
        self.task.setCurrentText(shown(task.name))
        self.sides.setCurrentIndex(self.sides.findData(task.sides))

    def show_plan(self, plan: MaximalPlan) -> None:
        """How a test is to go."""
        self.definition.setCurrentIndex(self.definition.findData(plan.definition))
        for name, field in self.fields.items():
            field.set_number(getattr(plan, name))

    def show_outlook(self, outlook: Outlook | None) -> None:
        """In a first test more trials are allowed, unless another number is typed."""
        usual, first = MaximalPlan(), MaximalPlan().for_first_test()
        numbers = {str(usual.most), str(first.most)}
        if outlook is not None and self.fields["most"].text in numbers:
            wanted = first if outlook.first_ever else usual
            self.fields["most"].set_number(wanted.most)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        for field in self.fields.values():
            field.line.setFixedWidth(round(NUMBER_PX * size))
            field.unit.setFixedWidth(round(UNIT_PX * size))

    def lock(self, *, locked: bool) -> None:
        """Nothing can be changed while a test is under way."""
        self.setEnabled(not locked)

    # What it gives.

    def chosen_task(self) -> Task | None:
        """The task with the chosen side; None without a name."""
        name = task_name(self.task.currentText())
        if not name:
            return None
        sides = self.sides.currentData()
        for task in self._tasks:
            if same_task(task, Task(name)):
                return task.on_side(sides)
        return Task(name, TaskKind.MAXIMAL, sides)

    def read(self) -> tuple[Task, MaximalPlan] | None:
        """Task and plan as they were typed; None after a complaint."""
        task = self.chosen_task()
        if task is None:
            self._complain("", self.tr("The task needs a name."))
            return None
        try:
            plan = self._plan()
        except FieldError as error:
            self._complain(error.field.removeprefix("maximal."), error.problem)
            return None
        self._complain("", "")
        return task, plan

    def _plan(self) -> MaximalPlan:
        """Raises: FieldError names the field that does not fit."""
        values: dict[str, float | int | None] = {}
        for name, field in self.fields.items():
            number = field.number(empty=float("nan") if name == "ceiling_n" else None)
            if name in _WHOLE and number is not None and number % 1 == 0:
                number = int(number)
            if number is not None and number != number:  # noqa: PLR0124  not a number
                raise FieldError(name, phrase("is not a number."))
            if name in _WHOLE and not isinstance(number, int):
                raise FieldError(name, phrase("must be a whole number."))
            values[name] = number
        plan = replace(MaximalPlan(), definition=self.definition.currentData())
        return replace(plan, **values)  # type: ignore[arg-type]  # the names stand beside the values

    def _complain(self, name: str, problem: str) -> None:
        words = problem
        for own, field in self.fields.items():
            field.complain(problem if own == name else "")
            if own == name:
                words = f"{field.label.text()}: {problem}"
        self.problem.setText(shown(words))
        self.problem.setVisible(bool(words))


def _number(label: str, unit: str = " ", tip: str = "") -> Field:
    """A field whose number stands in line with those above and below it."""
    field = Field(label, unit=unit, tip=tip, error_below=False)
    field.line.setAlignment(Qt.AlignmentFlag.AlignRight)
    field.line.setFixedWidth(NUMBER_PX)
    field.unit.setFixedWidth(UNIT_PX)
    layout = field.layout()
    if isinstance(layout, QGridLayout):
        layout.setColumnStretch(0, 1)
        layout.setColumnStretch(1, 0)
    return field
