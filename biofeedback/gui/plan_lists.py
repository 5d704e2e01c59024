"""The plans of an athlete, the stages of one, and the keys to move between them.

The plan that is followed and the stage under way have a mark and a word of their own.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.enum_box import narrow
from biofeedback.gui.field import Field
from biofeedback.gui.language import shown
from biofeedback.gui.plain_label import plain_label
from biofeedback.gui.plan_titles import plan_title
from biofeedback.training.plan import CAUTION

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.training.plan import Plan

LEFT_PX = 340
NOW, OTHER = "▶", "   "


class PlanLists(QWidget):
    """The left column of the page.

    Attributes:
        filling: whether the lists are being filled, and nobody chooses.
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.filling = False
        self.plans, self.stages = quiet_list(tr("Plans")), quiet_list(tr("Stages"))
        self.plans.setToolTip(
            tr("The newest plan that is not archived is the one that is followed.")
        )
        self.archived = QCheckBox(tr("Archived too"))
        self.archived.setToolTip(tr("Show what was archived, to put it back."))
        self.beginning, self.copy_to = QComboBox(), QComboBox()
        self.beginning.setAccessibleName(tr("Begin from"))
        self.copy_to.setAccessibleName(tr("Copy to athlete"))
        for box in (self.beginning, self.copy_to):
            narrow(box)
        self.begin = QPushButton(tr("New plan"))
        self.copy = QPushButton(tr("Copy to"))
        self.from_file = QPushButton(tr("Open file"))
        self.to_file = QPushButton(tr("Save as file"))
        self.print = QPushButton(tr("Print to PDF"))
        self.archive = QPushButton(tr("Archive"))
        self.add_stage = QPushButton(tr("Add stage"))
        self.remove_stage = QPushButton(tr("Take stage out"))
        self.since = plain_label(look="summary", name=tr("Since when"))
        self.standing = plain_label(look="summary", name=tr("Criteria to move on"))
        self.standing.setObjectName("look")
        self.reason = Field(tr("Reason"), tip=tr("Kept with the move; may be empty."))
        self.onward = QPushButton(tr("Move to the next stage"))
        self.back = QPushButton(tr("Move back"))
        self.caution = plain_label(look="summary", name="")
        self.caution.setText(shown(CAUTION))
        self._lay_out()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(5)
        self.setMaximumWidth(LEFT_PX)
        head = QHBoxLayout()
        head.addWidget(QLabel(self.tr("Plans")), 1)
        head.addWidget(self.archived)
        column.addLayout(head)
        column.addWidget(self.plans, 2)
        grid = QGridLayout()
        grid.setSpacing(5)
        for row, pair in enumerate(
            (
                (self.begin, self.beginning),
                (self.copy, self.copy_to),
                (self.from_file, self.to_file),
                (self.archive, self.print),
            )
        ):
            for at, widget in enumerate(pair):
                grid.addWidget(widget, row, at)
        grid.setColumnStretch(1, 1)
        column.addLayout(grid)
        column.addWidget(QLabel(self.tr("Stages")))
        column.addWidget(self.stages, 3)
        changes = QHBoxLayout()
        changes.addWidget(self.add_stage)
        changes.addWidget(self.remove_stage)
        column.addLayout(changes)
        for label in (self.since, self.standing):
            column.addWidget(label)
        column.addWidget(self.reason)
        moves = QHBoxLayout()
        moves.addWidget(self.back)
        moves.addWidget(self.onward, 1)
        column.addLayout(moves)
        column.addWidget(self.caution)

    @property
    def in_order(self) -> tuple[QWidget, ...]:
        """All that is chosen or pressed, as one reads."""
        return (
            *(self.archived, self.plans, self.begin, self.beginning),
            *(self.copy, self.copy_to, self.from_file, self.to_file),
            *(self.archive, self.print, self.stages, self.add_stage),
            *(self.remove_stage, self.reason.line, self.back, self.onward),
        )

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self.setMaximumWidth(round(LEFT_PX * size))

    # Filling.

    def offer_beginnings(self, examples: Sequence[str]) -> None:
        """What a new plan can begin from."""
        empty = (self.tr("empty"), "")
        _fill(self.beginning, [empty, *((one, one) for one in examples)])

    def offer_athletes(self, athletes: Sequence[tuple[str, str]]) -> None:
        """Code and key of those whom a plan can be copied to."""
        _fill(self.copy_to, athletes)

    def list_plans(self, plans: Sequence[tuple[str, str]], choose: str) -> None:
        """Key and text of each plan."""
        self.filling = True
        self.plans.clear()
        for key, text in plans:
            item = QListWidgetItem(text)
            item.setData(Qt.ItemDataRole.UserRole, key)
            self.plans.addItem(item)
        self.filling = False
        self.mark_plan(choose)

    def mark_plan(self, key: str) -> None:
        """Marks a plan in the list without choosing it anew."""
        rows = [row for row in range(self.plans.count()) if self.plan_key(row) == key]
        self.mark(self.plans, rows[0] if rows else -1)

    def mark(self, shown: QListWidget, row: int) -> None:
        """Marks a row of a list without choosing it anew."""
        self.filling = True
        shown.setCurrentRow(row)
        self.filling = False

    def plan_key(self, row: int) -> str:
        """Key of the plan in a row of the list; empty where there is none."""
        item = self.plans.item(row) if row >= 0 else None
        return str(item.data(Qt.ItemDataRole.UserRole)) if item is not None else ""

    def list_stages(self, plan: Plan | None, *, now: int | None, chosen: int) -> None:
        """The stages of a plan.

        Args:
            now: index of the one under way, None where the plan is not begun.
        """
        self.filling = True
        self.stages.clear()
        for index, stage in enumerate(plan.stages if plan else ()):
            under_way = index == now
            text = self.tr("{mark} {number}. {name}{now}\n      weeks {first}–{last}")
            self.stages.addItem(
                text.format(
                    mark=NOW if under_way else OTHER,
                    number=index + 1,
                    name=plan_title(stage.name),
                    now=self.tr(" (now)") if under_way else "",
                    first=stage.from_week,
                    last=stage.to_week,
                )
            )
        self.stages.setCurrentRow(chosen if plan else -1)
        self.filling = False


def quiet_list(name: str) -> QListWidget:
    """A list that never scrolls sideways."""
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
