"""The looks of the plan page: lists, fields and keys, without what they do."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import FieldError
from biofeedback.gui.criteria_box import CriteriaBox
from biofeedback.gui.field import Field
from biofeedback.gui.planned_form import PlannedForm
from biofeedback.gui.text_box import TextBox
from biofeedback.training.criteria import Judged, Met
from biofeedback.training.intensity_words import in_words, range_in_words
from biofeedback.training.plan import CAUTION, Plan, Stage

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from biofeedback.session.planning import SideForces
    from biofeedback.training.task import Task

LEFT_PX = 320
NOW, OTHER = "▶", "  "


class PlanView(QWidget):
    """Everything that is seen of a plan.

    Args:
        forces: what is known of each side in a task.

    Attributes:
        filling: whether the fields are being filled, and nobody types.
    """

    def __init__(
        self, forces: Callable[[Task], SideForces], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        tr = self.tr
        self.filling = False
        self._put_back: Callable[[], None] | None = None
        self.setAccessibleName(tr("Plan"))
        self.title = QLabel(tr("Plan"))
        self.title.setObjectName("who")
        self.live = QPushButton(tr("Back to live"))
        self.plans, self.stages = _list(tr("Plans")), _list(tr("Stages"))
        self.prescriptions = _list(tr("What this stage asks for"))
        self.beginning = QComboBox()
        self.beginning.setAccessibleName(tr("Begin from"))
        self.copy_to = QComboBox()
        self.copy_to.setAccessibleName(tr("Copy to athlete"))
        for box in (self.beginning, self.copy_to):
            policy = QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
            box.setSizeAdjustPolicy(policy)
            box.setMinimumContentsLength(8)
        self.begin = QPushButton(tr("New plan"))
        self.copy = QPushButton(tr("Copy to"))
        self.from_file = QPushButton(tr("Open file"))
        self.to_file = QPushButton(tr("Save as file"))
        self.print = QPushButton(tr("Print"))
        self.archive = QPushButton(tr("Archive"))
        self.add_stage = QPushButton(tr("Add stage"))
        self.remove_stage = QPushButton(tr("Take stage out"))
        self.add_prescription = QPushButton(tr("Add"))
        self.remove_prescription = QPushButton(tr("Take out"))
        self.onward = QPushButton(tr("Move to the next stage"))
        self.back = QPushButton(tr("Move back"))
        self.undo, self.save = QPushButton(tr("Undo")), QPushButton(tr("Save the plan"))
        self.save.setObjectName("take")
        self.revert = QPushButton(tr("Take back all"))
        self.put_back = QPushButton(tr("Put it back"))
        self.put_back.hide()
        self.name, self.note = Field(tr("Name")), TextBox(tr("Note"), lines=2)
        self.stage_name = Field(tr("Stage"))
        self.from_week, self.to_week = Field(tr("from week")), Field(tr("to week"))
        self.stage_note = TextBox(tr("Note on the stage"), lines=2)
        self.reason = Field(tr("Reason"), tip=tr("Kept with the move; may be empty."))
        self.form = PlannedForm(forces)
        self.criteria = CriteriaBox()
        self.message = QLabel()
        self.message.setObjectName("message")
        self.message.setAccessibleName(tr("Messages"))
        self.caution = QLabel(tr(CAUTION))
        self.caution.setObjectName("summary")
        for label in (self.message, self.caution):
            label.setWordWrap(True)
        self._lay_out()
        self.put_back.clicked.connect(self._bring_back)

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self.live)
        head.addWidget(self.title, 1)
        body = QHBoxLayout()
        body.setSpacing(16)
        self._left = QWidget()
        self._left.setLayout(self._left_column())
        self._left.setMaximumWidth(LEFT_PX)
        body.addWidget(self._left, 2)
        right = QVBoxLayout()
        self._scroll = QScrollArea()
        self._scroll.setWidget(self._right_column())
        self._scroll.setWidgetResizable(True)
        self._scroll.setAccessibleName(self.tr("The plan"))
        right.addWidget(self._scroll, 1)
        told = QHBoxLayout()
        told.addWidget(self.message, 1)
        told.addWidget(self.put_back)
        right.addLayout(told)
        keys = QHBoxLayout()
        keys.addWidget(self.save, 3)
        keys.addWidget(self.undo, 1)
        keys.addWidget(self.revert, 1)
        right.addLayout(keys)
        body.addLayout(right, 5)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(12, 10, 12, 12)
        whole.addLayout(head)
        whole.addLayout(body, 1)

    def _left_column(self) -> QVBoxLayout:
        column = QVBoxLayout()
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(5)
        column.addWidget(self.plans, 2)
        grid = QGridLayout()
        grid.setSpacing(5)
        grid.addWidget(self.begin, 0, 0)
        grid.addWidget(self.beginning, 0, 1)
        grid.addWidget(self.copy, 1, 0)
        grid.addWidget(self.copy_to, 1, 1)
        grid.addWidget(self.from_file, 2, 0)
        grid.addWidget(self.to_file, 2, 1)
        grid.addWidget(self.print, 3, 0)
        grid.addWidget(self.archive, 3, 1)
        grid.setColumnStretch(1, 1)
        column.addLayout(grid)
        column.addWidget(QLabel(self.tr("Stages")))
        column.addWidget(self.stages, 2)
        row = QHBoxLayout()
        row.addWidget(self.add_stage)
        row.addWidget(self.remove_stage)
        column.addLayout(row)
        column.addWidget(self.reason)
        moves = QHBoxLayout()
        moves.addWidget(self.back)
        moves.addWidget(self.onward, 1)
        column.addLayout(moves)
        column.addWidget(self.caution)
        return column

    def _right_column(self) -> QWidget:
        inner = QWidget()
        self._inner = inner
        column = QVBoxLayout(inner)
        column.setContentsMargins(0, 0, 8, 0)
        column.setSpacing(6)
        column.addWidget(self.name)
        column.addWidget(self.note)
        weeks = QHBoxLayout()
        weeks.addWidget(self.stage_name, 3)
        weeks.addWidget(self.from_week, 1)
        weeks.addWidget(self.to_week, 1)
        column.addLayout(weeks)
        column.addWidget(self.stage_note)
        row = QHBoxLayout()
        row.addWidget(self.prescriptions, 1)
        keys = QVBoxLayout()
        keys.addWidget(self.add_prescription)
        keys.addWidget(self.remove_prescription)
        keys.addStretch(1)
        row.addLayout(keys)
        column.addWidget(QLabel(self.tr("What this stage asks for")))
        column.addLayout(row)
        self.prescriptions.setFixedHeight(72)
        column.addWidget(self.form)
        column.addWidget(QLabel(self.tr("To move on")))
        column.addWidget(self.criteria)
        column.addStretch(1)
        return inner

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self._left.setMaximumWidth(round(LEFT_PX * size))
        self.prescriptions.setFixedHeight(round(72 * size))

    def say(self, words: str) -> None:
        """A message at its one place."""
        self.message.setText(words)
        self.put_back.hide()

    def offer_back(self, words: str, act: Callable[[], None]) -> None:
        """A message with a key that takes back what it tells."""
        self.say(words)
        self._put_back = act
        self.put_back.show()

    def _bring_back(self) -> None:
        act, self._put_back = self._put_back, None
        self.put_back.hide()
        if act is not None:
            act()

    # Filling.

    def offer_beginnings(self, examples: Sequence[str]) -> None:
        """What a new plan can begin from."""
        _fill(
            self.beginning, [(self.tr("empty"), ""), *((one, one) for one in examples)]
        )

    def offer_athletes(self, athletes: Sequence[tuple[str, str]]) -> None:
        """Whom a plan can be copied to."""
        _fill(self.copy_to, athletes)

    def list_plans(self, plans: Sequence[tuple[str, str]], choose: str) -> None:
        """Key and text of each plan."""
        self.filling = True
        self.plans.clear()
        for key, text in plans:
            item = QListWidgetItem(text)
            item.setData(Qt.ItemDataRole.UserRole, key)
            item.setToolTip(text)
            self.plans.addItem(item)
        self.filling = False
        self.choose_plan(choose or (plans[0][0] if plans else ""))

    def choose_plan(self, key: str) -> None:
        """Marks a plan in the list."""
        self.filling = True
        rows = [row for row in range(self.plans.count()) if self.plan_key(row) == key]
        self.plans.setCurrentRow(rows[0] if rows else -1)
        self.filling = False

    def mark(self, shown: QListWidget, row: int) -> None:
        """Marks a row of a list without choosing it anew."""
        self.filling = True
        shown.setCurrentRow(row)
        self.filling = False

    def plan_key(self, row: int) -> str:
        """Key of the plan in a row of the list; empty where there is none."""
        item = self.plans.item(row) if row >= 0 else None
        return str(item.data(Qt.ItemDataRole.UserRole)) if item is not None else ""

    def set_open(self, shown: bool) -> None:
        """Whether there is a plan to be seen."""
        self._inner.setVisible(shown)
        for button in (self.add_stage, self.remove_stage, self.to_file, self.print):
            button.setEnabled(shown)
        if not shown:
            self.filling = True
            self.stages.clear()
            self.filling = False

    def show_plan(self, plan: Plan, *, now: int, chosen: int) -> None:
        """Name, note and stages; the stage under way has a mark."""
        self.filling = True
        self.name.set_text(plan.name)
        self.note.set_text(plan.note)
        self.stages.clear()
        for index, stage in enumerate(plan.stages):
            weeks = self.tr("weeks {first}–{last}").format(
                first=stage.from_week, last=stage.to_week
            )
            mark = NOW if index == now else OTHER
            words = self.tr(" (now)") if index == now else ""
            self.stages.addItem(
                f"{mark} {index + 1}. {stage.name}{words}\n     {weeks}"
            )
        self.stages.setCurrentRow(chosen)
        self.filling = False

    def show_stage(self, stage: Stage) -> None:
        """The fields of a stage."""
        self.filling = True
        self.stage_name.set_text(stage.name)
        self.from_week.set_number(stage.from_week)
        self.to_week.set_number(stage.to_week)
        self.stage_note.set_text(stage.note)
        self.filling = False

    def list_prescriptions(self, stage: Stage, chosen: int) -> None:
        """What a stage asks for, one line each."""
        self.filling = True
        self.prescriptions.clear()
        for one in stage.prescriptions:
            within = range_in_words(one.intensity)
            hard = (
                self.tr("within {range}").format(range=within)
                if within
                else in_words(one.intensity)
            )
            self.prescriptions.addItem(
                f"{one.task.name}: {hard}, {one.sets} × {one.reps} × {one.hold_s:g} s"
            )
        self.prescriptions.setCurrentRow(chosen if stage.prescriptions else -1)
        self.remove_prescription.setEnabled(bool(stage.prescriptions))
        self.filling = False

    def unjudged(self, stage: Stage) -> tuple[Judged, ...]:
        """The criteria of a draft, which nothing can be said of yet."""
        why = self.tr("Told when the plan is saved.")
        return tuple(Judged(one, Met.UNKNOWN, why) for one in stage.criteria)

    # Reading.

    def read_plan(self, plan: Plan) -> Plan:
        """The plan with name and note as they were typed.

        Raises:
            FieldError: names the field that does not fit.
        """
        self.name.complain("")
        self.note.complain("")
        return replace(plan, name=self.name.text, note=self.note.text)

    def read_stage(self, stage: Stage) -> Stage:
        """The stage with its fields as they were typed.

        Raises:
            FieldError: names the field that does not fit.
        """
        for field in (self.stage_name, self.from_week, self.to_week):
            field.complain("")
        return replace(
            stage,
            name=self.stage_name.text,
            from_week=_whole(self.from_week, "stage.from_week"),
            to_week=_whole(self.to_week, "stage.to_week"),
            note=self.stage_note.text,
        )

    def complain(self, error: FieldError) -> bool:
        """Says what is wrong beside its field; False where it belongs to none."""
        own: dict[str, Field | TextBox] = {
            "plan.name": self.name,
            "plan.note": self.note,
            "stage.name": self.stage_name,
            "stage.from_week": self.from_week,
            "stage.to_week": self.to_week,
            "stage.note": self.stage_note,
        }
        field = own.get(error.field)
        if field is None:
            return False
        field.complain(f"{error.problem} {error.next_step}".strip())
        return True


def _list(name: str) -> QListWidget:
    made = QListWidget()
    made.setAccessibleName(name)
    made.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    return made


def _fill(box: QComboBox, items: Sequence[tuple[str, str]]) -> None:
    chosen = box.currentText()
    box.clear()
    for text, data in items:
        box.addItem(text, userData=data)
    box.setCurrentIndex(max(0, box.findText(chosen)))


def _whole(field: Field, name: str) -> int:
    value = field.number()
    if value is None or value % 1 or not abs(value) < 1e6:
        raise FieldError(name, "must be a whole number.")
    return int(value)
