"""The page of the tasks: the set-ups in which forces are compared."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QComboBox, QLabel, QVBoxLayout, QWidget

from biofeedback.errors import FieldError, UserError
from biofeedback.gui.choice_row import ChoiceRow
from biofeedback.gui.enum_box import choose
from biofeedback.gui.field import Field
from biofeedback.gui.folded_grid import FoldedGrid
from biofeedback.gui.language import as_said, plain_number, shown, typed_number
from biofeedback.gui.list_page import ListPage
from biofeedback.gui.task_titles import task_name, task_title, task_titles
from biofeedback.phrase import phrase
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Sequence
    from enum import Enum

    from biofeedback.gui.text_box import TextBox
    from biofeedback.session.roster import Roster

    Chosen = TypeVar("Chosen", bound=Enum)

EXAMPLE_N = 100.0
SIDES_CHARACTERS = 14
"""Of the widest letter: room for all of its words."""
DIGITS = 6
"""More than anyone measures: what is shown is what is saved."""


class TaskPage(ListPage):
    """Tasks: search, add, edit, archive."""

    def __init__(self, roster: Roster, parent: QWidget | None = None) -> None:
        self._roster = roster
        self._task: Task | None = None
        self._pair_shown = ""
        super().__init__(
            QCoreApplication.translate("TaskPage", "Tasks"),
            new=QCoreApplication.translate("TaskPage", "New task"),
            put_away=roster.tasks_put_away,
            parent=parent,
        )
        tr = self.tr
        self.name = Field(tr("Name"))
        self._rows = {
            "kind": ChoiceRow(tr("Kind")),
            "sides": ChoiceRow(tr("Sides")),
            "joint": ChoiceRow(tr("Joint")),
            "pair": ChoiceRow(
                tr("Held against"),
                tip=tr("The isometric task whose peak is the least for this lowering."),
            ),
        }
        self.kind, self.sides, self.joint, self.pair = (
            row.box for row in self._rows.values()
        )
        _offer(self.kind, TaskKind)
        self.sides.setMinimumContentsLength(SIDES_CHARACTERS)
        self.sides.addItem(tr("both sides together"), userData=Sides.BOTH)
        self.sides.addItem(tr("one side at a time"), userData=Sides.LEFT)
        _offer(self.joint, Joint)
        self.pair.setEditable(True)
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
        self.about = QLabel(
            tr(
                "Forces are compared only in the same position. Sets that are saved "
                "keep the position they were done in."
            )
        )
        self.about.setObjectName("summary")
        self.about.setWordWrap(True)
        self._fill_form()
        self.arm.line.textChanged.connect(self._show_torque)
        self.kind.currentIndexChanged.connect(self._show_pair)
        self.show_entry("")

    @property
    def fields(self) -> dict[str, Field | TextBox]:
        """Those that may hold something wrong, by their dotted names."""
        return {
            "task.name": self.name,
            "setup.movement": self.movement,
            "setup.angle_deg": self.angle,
            "setup.lever_arm_m": self.arm,
            "setup.site": self.site,
            "setup.posture": self.posture,
        }

    @property
    def columns(self) -> Sequence[Sequence[QLabel]]:
        """Labels that stand above one another."""
        rows = self._rows
        return (
            (
                self.name.label,
                rows["kind"].label,
                rows["joint"].label,
                self.angle.label,
                self.site.label,
                self.posture.label,
                rows["pair"].label,
            ),
            (rows["sides"].label, self.movement.label, self.arm.label),
        )

    def _fill_form(self) -> None:
        grid = FoldedGrid(stretches=(1, 1), across_px=16)
        grid.add(self.name, 0, 0, span=2)
        grid.add(self._rows["kind"], 1, 0)
        grid.add(self._rows["sides"], 1, 1)
        grid.add(self._rows["joint"], 2, 0)
        grid.add(self.movement, 2, 1)
        grid.add(self.angle, 3, 0)
        arm = QVBoxLayout()
        arm.setSpacing(1)
        arm.addWidget(self.arm)
        arm.addWidget(self.torque)
        grid.add(arm, 3, 1)
        grid.add(self.site, 4, 0, span=2)
        grid.add(self.posture, 5, 0, span=2)
        grid.add(self._rows["pair"], 6, 0, span=2)
        self.form.addLayout(grid)
        self.form.addWidget(self.about)
        self.order(
            (
                *(self.name.line, self.kind, self.sides, self.joint),
                *(self.movement.line, self.angle.line, self.arm.line),
                *(self.site.line, self.posture.line, self.pair),
            ),
            (self.save, self.revert),
        )

    # The list.

    def entries(self, words: str, *, archived: bool) -> Sequence[tuple[str, str]]:
        """Name and joint of each task."""
        return [
            (stored.task.key, self._line(stored.task))
            for stored in self._roster.tasks(
                words, archived=archived, shown_as=self._line
            )
        ]

    def _line(self, task: Task) -> str:
        parts = [shown(task.name)]
        if task.kind is not TaskKind.HOLD:
            parts.append(shown(task.kind.value))
        if task.setup is not None and task.setup.joint is not Joint.OTHER:
            parts.append(shown(task.setup.joint.value))
        return " · ".join(parts)

    # The form.

    def fill(self, key: str) -> None:
        """Puts a task into the form."""
        found = self._roster.task(key) if key else None
        if key and found is None:
            raise UserError(phrase("This task is not in the logbook any more."))
        wanted = found or Task("")
        pair = task_title(self._roster.pair_name(wanted.pair))
        pairs = self._pairs(wanted)
        self._task = found
        task = self._task or Task("")
        setup = task.setup or Setup()
        self.name.set_text(shown(task.name))
        choose(self.kind, task.kind)
        both = task.sides is Sides.BOTH
        self.sides.setCurrentIndex(0 if both else 1)
        choose(self.joint, setup.joint)
        self.movement.set_text(shown(setup.movement))
        self.angle.set_number(setup.angle_deg, digits=DIGITS)
        self.site.set_text(shown(setup.site))
        self.arm.set_number(setup.lever_arm_m, digits=DIGITS)
        self.posture.set_text(shown(setup.posture))
        self.pair.clear()
        self.pair.addItems(pairs)
        self.pair.setCurrentText(pair)
        self._pair_shown = pair
        self._show_pair()
        self._show_torque()

    def _pairs(self, task: Task) -> list[str]:
        return ["", *task_titles(self._roster.pair_names(but=task.name))]

    def _show_pair(self) -> None:
        lowering = self.kind.currentData() is TaskKind.LOWERING
        self._rows["pair"].setVisible(lowering)

    def _show_torque(self) -> None:
        """What the lever arm makes of a force, as it is typed."""
        words = ""
        try:
            arm_m = typed_number(self.arm.text)
            torque_nm = Setup(lever_arm_m=arm_m).torque_nm(EXAMPLE_N)
        except (ValueError, FieldError):
            torque_nm = None
        if torque_nm is not None:
            words = self.tr("{force} N at right angles are {torque} N·m").format(
                force=plain_number(EXAMPLE_N), torque=plain_number(torque_nm)
            )
        self.torque.setText(words)
        self.torque.setVisible(bool(words))

    def typed(self) -> tuple[object, ...]:
        """What stands in the form."""
        return (
            *(field.text for field in self.fields.values()),
            *(box.currentData() for box in (self.kind, self.sides, self.joint)),
            self.pair.currentText().strip(),
        )

    def store(self, key: str) -> str:
        """Saves the task."""
        before = self._task or Task("")
        kind, sides = self.kind.currentData(), self.sides.currentData()
        if sides is not Sides.BOTH and before.sides is not Sides.BOTH and self._task:
            sides = before.sides
        angle = self.read(lambda: self._number(self.angle, "setup.angle_deg"))
        arm = self.read(lambda: self._number(self.arm, "setup.lever_arm_m"))
        setup = Setup(
            joint=self.joint.currentData(),
            movement=task_name(self.movement.text),
            site=task_name(self.site.text),
            posture=task_name(self.posture.text),
        )
        # Each by itself, so that what is wrong with either is said.
        setup = self.read(lambda: replace(setup, angle_deg=angle)) or setup
        setup = self.read(lambda: replace(setup, lever_arm_m=arm)) or setup
        task = replace(
            before,
            name=task_name(self.name.text),
            kind=kind,
            sides=sides,
            setup=None if setup == Setup() else setup,
            key=key,
            pair=self._pair() if kind is TaskKind.LOWERING else "",
        )
        self.note(self._roster.wrong_with_task(task))
        if self.wrong:
            return ""
        return self._roster.save_task(task).key

    def _pair(self) -> str:
        """A pair that was not touched stays what it is, by its key or its name."""
        here = self.pair.currentText().strip()
        unchanged = self._task is not None and here == self._pair_shown
        return self._task.pair if unchanged and self._task else task_name(here)

    def _number(self, field: Field, name: str) -> float | None:
        value = field.number(empty=math.nan)
        if value is not None and math.isnan(value):
            raise FieldError(name, as_said(field.error.text()))
        return value

    def put_away(self, key: str, *, archived: bool) -> None:
        """Archives a task, or puts one back."""
        if self._task is not None and self._task.key == key:
            roster = self._roster
            act = roster.restore_task if archived else roster.archive_task
            act(self._task)


def _offer(box: QComboBox, kind: type[Chosen]) -> None:
    for choice in kind:
        box.addItem(shown(choice.value), userData=choice)
