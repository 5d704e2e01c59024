"""The page of the tasks: the set-ups in which forces are compared."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QGridLayout, QLabel, QVBoxLayout, QWidget

from biofeedback.errors import FieldError
from biofeedback.gui.field import Field, plain_number
from biofeedback.gui.list_page import ListPage
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Sequence
    from enum import Enum

    from biofeedback.session.roster import Roster

    Chosen = TypeVar("Chosen", bound=Enum)

EXAMPLE_N = 100.0


class TaskPage(ListPage):
    """Tasks: search, add, edit, archive."""

    def __init__(self, roster: Roster, parent: QWidget | None = None) -> None:
        self._roster = roster
        self._task: Task | None = None
        super().__init__("", new="", parent=parent)
        tr = self.tr
        self.title.setText(tr("Tasks"))
        self.setAccessibleName(tr("Tasks"))
        self.list.setAccessibleName(tr("Tasks"))
        self.new.setText(tr("New task"))
        self.name = Field(tr("Name"))
        self.kind = _choices(TaskKind, tr("Kind"))
        self.sides = QComboBox()
        self.sides.setAccessibleName(tr("Sides"))
        self.sides.addItem(tr("both sides together"), userData=Sides.BOTH)
        self.sides.addItem(tr("one side at a time"), userData=Sides.LEFT)
        self.joint = _choices(Joint, tr("Joint"))
        self.movement = Field(tr("Movement"), tip=tr("Such as external rotation."))
        self.angle = Field(tr("Joint angle"), unit="°")
        self.site = Field(
            tr("Pad or strap"), tip=tr("Such as 5 cm above the outer ankle.")
        )
        self.arm = Field(
            tr("Lever arm"),
            unit="m",
            tip=tr("From the centre of the joint to the middle of pad or strap."),
        )
        self.torque = QLabel()
        self.torque.setObjectName("summary")
        self.posture = Field(tr("Posture"))
        self.pair = QComboBox()
        self.pair.setEditable(True)
        self.pair.setAccessibleName(tr("Held against"))
        self.pair.setToolTip(
            tr("The isometric task whose peak is the least for this lowering.")
        )
        self.pair_label = QLabel(tr("Held against"))
        self.pair_label.setBuddy(self.pair)
        self.about = QLabel(
            tr(
                "Forces are compared only in the same position. Sets that are saved "
                "keep the position they were done in."
            )
        )
        self.about.setObjectName("summary")
        self.about.setWordWrap(True)
        self._fill_form()
        self._by_name: dict[str, Field] = {
            "task.name": self.name,
            "setup.movement": self.movement,
            "setup.angle_deg": self.angle,
            "setup.site": self.site,
            "setup.lever_arm_m": self.arm,
            "setup.posture": self.posture,
        }
        self.arm.line.textChanged.connect(self._show_torque)
        self.kind.currentIndexChanged.connect(self._show_pair)
        self.show_entry("")

    def _fill_form(self) -> None:
        tr = self.tr
        grid = QGridLayout()
        grid.setHorizontalSpacing(16)
        grid.setVerticalSpacing(6)
        top = Qt.AlignmentFlag.AlignTop
        grid.addWidget(self.name, 0, 0, 1, 2)
        grid.addLayout(_row(tr("Kind"), self.kind), 1, 0)
        grid.addLayout(_row(tr("Sides"), self.sides), 1, 1)
        grid.addLayout(_row(tr("Joint"), self.joint), 2, 0)
        grid.addWidget(self.movement, 2, 1, top)
        grid.addWidget(self.angle, 3, 0, top)
        arm = QVBoxLayout()
        arm.setSpacing(1)
        arm.addWidget(self.arm)
        arm.addWidget(self.torque)
        grid.addLayout(arm, 3, 1, top)
        grid.addWidget(self.site, 4, 0, 1, 2)
        grid.addWidget(self.posture, 5, 0, 1, 2)
        grid.addWidget(self.pair_label, 6, 0)
        grid.addWidget(self.pair, 6, 1)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)
        self.form.addLayout(grid)
        self.form.addWidget(self.about)

    # The list.

    def entries(self, words: str, *, archived: bool) -> Sequence[tuple[str, str]]:
        """Name and joint of each task."""
        return [
            (stored.task.key, self._line(stored.task))
            for stored in self._roster.tasks(words, archived=archived)
        ]

    def _line(self, task: Task) -> str:
        parts = [task.name]
        if task.kind is not TaskKind.HOLD:
            parts.append(self.tr(task.kind.value))
        if task.setup is not None and task.setup.joint is not Joint.OTHER:
            parts.append(self.tr(task.setup.joint.value))
        return " · ".join(parts)

    # The form.

    def fill(self, key: str) -> None:
        """Puts a task into the form."""
        tasks = self._tried(
            lambda: self._roster.tasks(archived=self.archived.isChecked())
        )
        found = [one.task for one in tasks or () if key and one.task.key == key]
        self._task = found[0] if found else None
        task = self._task or Task("")
        setup = task.setup or Setup()
        self.name.set_text(task.name)
        _choose(self.kind, task.kind)
        both = task.sides is Sides.BOTH
        self.sides.setCurrentIndex(0 if both else 1)
        _choose(self.joint, setup.joint)
        self.movement.set_text(setup.movement)
        self.angle.set_number(setup.angle_deg)
        self.site.set_text(setup.site)
        self.arm.set_number(setup.lever_arm_m, digits=3)
        self.posture.set_text(setup.posture)
        self.pair.clear()
        self.pair.addItems(self._tried(lambda: self._pairs(task)) or [])
        self.pair.setCurrentText(task.pair)
        self._show_pair()
        self._show_torque()

    def _pairs(self, task: Task) -> list[str]:
        return ["", *self._roster.pair_names(but=task.name)]

    def _show_pair(self) -> None:
        lowering = self.kind.currentData() is TaskKind.LOWERING
        self.pair.setVisible(lowering)
        self.pair_label.setVisible(lowering)

    def _show_torque(self) -> None:
        """What the lever arm makes of a force, as it is typed."""
        words = ""
        try:
            arm_m = float(self.arm.text.replace(",", "."))
            torque_nm = Setup(lever_arm_m=arm_m).torque_nm(EXAMPLE_N)
        except (ValueError, FieldError):
            torque_nm = None
        if torque_nm is not None:
            words = self.tr("{force} N at right angles are {torque} N·m").format(
                force=plain_number(EXAMPLE_N), torque=plain_number(torque_nm)
            )
        self.torque.setText(words)

    def typed(self) -> tuple[object, ...]:
        """What stands in the form."""
        return (
            *(field.text for field in self._by_name.values()),
            *(box.currentData() for box in (self.kind, self.sides, self.joint)),
            self.pair.currentText().strip(),
        )

    def store(self, key: str) -> str:
        """Saves the task."""
        for field in self._by_name.values():
            field.complain("")
        before = self._task or Task("")
        kind = self.kind.currentData()
        sides = self.sides.currentData()
        if sides is not Sides.BOTH and before.sides is not Sides.BOTH and self._task:
            sides = before.sides
        setup = Setup(
            joint=self.joint.currentData(),
            movement=self.movement.text,
            angle_deg=self._number(self.angle, "setup.angle_deg"),
            site=self.site.text,
            lever_arm_m=self._number(self.arm, "setup.lever_arm_m"),
            posture=self.posture.text,
        )
        task = replace(
            before,
            name=self.name.text,
            kind=kind,
            sides=sides,
            setup=None if setup == Setup() else setup,
            key=key,
            pair=self.pair.currentText().strip() if kind is TaskKind.LOWERING else "",
        )
        return self._roster.save_task(task).key

    def _number(self, field: Field, name: str) -> float | None:
        value = field.number(empty=math.nan)
        if value is not None and math.isnan(value):
            raise FieldError(name, field.error.text())
        return value

    def complain(self, error: FieldError) -> bool:
        """Says what is wrong beside its field."""
        field = self._by_name.get(error.field)
        if field is None:
            return False
        field.complain(f"{error.problem} {error.next_step}".strip())
        return True

    def put_away(self, key: str, *, archived: bool) -> None:
        """Archives a task, or puts one back."""
        if self._task is not None and self._task.key == key:
            roster = self._roster
            act = roster.restore_task if archived else roster.archive_task
            act(self._task)

    def undo_last(self) -> str:
        """Puts back what was archived last."""
        return self._roster.undo()

    @property
    def undoable(self) -> str:
        """What undo would put back."""
        return self._roster.undoable


def _row(label: str, box: QComboBox) -> QGridLayout:
    row = QGridLayout()
    row.setHorizontalSpacing(5)
    words = QLabel(label)
    words.setBuddy(box)
    row.addWidget(words, 0, 0)
    row.addWidget(box, 0, 1)
    row.setColumnStretch(1, 1)
    return row


def _choices(kind: type[Chosen], name: str) -> QComboBox:
    box = QComboBox()
    box.setAccessibleName(name)
    for choice in kind:
        box.addItem(box.tr(str(choice.value)), userData=choice)
    return box


def _choose(box: QComboBox, choice: Enum) -> None:
    for index in range(box.count()):
        if box.itemData(index) is choice:
            box.setCurrentIndex(index)
