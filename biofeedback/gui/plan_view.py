"""The looks of the plan page: lists, fields and keys, without what they do."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.criteria_box import MARKS, CriteriaBox
from biofeedback.gui.field import Field
from biofeedback.gui.language import shown
from biofeedback.gui.plain_label import plain_label
from biofeedback.gui.plan_lists import PlanLists, quiet_list
from biofeedback.gui.planned_form import PlannedForm
from biofeedback.gui.stage_form import StageForm
from biofeedback.gui.tall_area import SideArea
from biofeedback.training.criteria import Judged, Met
from biofeedback.training.planned_words import short

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from biofeedback.session.planning import SideReference
    from biofeedback.training.plan import Plan, Stage
    from biofeedback.training.planned import PlannedPrescription

ASKED_PX = 70


class PlanView(QWidget):
    """Everything that is seen of a plan.

    Args:
        references: what is 100 % for each side of a prescription.
    """

    def __init__(
        self,
        references: Callable[[PlannedPrescription], Sequence[SideReference]],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        tr = self.tr
        self._put_back: Callable[[], object] | None = None
        self.setAccessibleName(tr("Plan"))
        self.title = QLabel(tr("Plan"))
        self.title.setObjectName("who")
        self.live = QPushButton(tr("Back to live"))
        self.lists = PlanLists()
        self.stage_form = StageForm()
        self.prescriptions = quiet_list(tr("What this stage asks for"))
        self.add_prescription = QPushButton(tr("Add"))
        self.remove_prescription = QPushButton(tr("Take out"))
        self.form = PlannedForm(references)
        self.criteria = CriteriaBox()
        self.undo, self.save = QPushButton(tr("Undo")), QPushButton(tr("Save the plan"))
        self.save.setObjectName("take")
        self.revert = QPushButton(tr("Take back all"))
        self.put_back = QPushButton(tr("Put it back"))
        self.put_back.hide()
        self.nothing = QLabel(
            tr(
                "No plan yet. New plan begins one, empty or from an example; Open file "
                "takes one from a file."
            )
        )
        self.nothing.setObjectName("summary")
        self.nothing.setWordWrap(True)
        self.nothing.hide()
        self.message = plain_label(look="message", name=tr("Messages"))
        self.message.hide()
        self._lay_out()
        for before, after in pairwise(self.in_order):
            self.setTabOrder(before, after)
        self.put_back.clicked.connect(self._bring_back)

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self.live)
        head.addWidget(self.title, 1)
        body = QHBoxLayout()
        body.setSpacing(16)
        # Or its height would be that of the page, and the page's foot out of sight.
        beside = SideArea(self.lists)
        beside.setAccessibleName(self.tr("Plans of this athlete"))
        beside.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        body.addWidget(beside, 2)
        right = QVBoxLayout()
        self._scroll = QScrollArea()
        self._scroll.setWidget(self._right_column())
        self._scroll.setWidgetResizable(True)
        self._scroll.setAccessibleName(self.tr("The plan"))
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # its fields have it
        right.addWidget(self.nothing)
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

    def _right_column(self) -> QWidget:
        self._inner = QWidget()
        column = QVBoxLayout(self._inner)
        column.setContentsMargins(0, 0, 8, 0)
        column.setSpacing(6)
        column.addWidget(self.stage_form)
        column.addWidget(QLabel(self.tr("What this stage asks for")))
        row, keys = QHBoxLayout(), QVBoxLayout()
        row.addWidget(self.prescriptions, 1)
        keys.addWidget(self.add_prescription)
        keys.addWidget(self.remove_prescription)
        keys.addStretch(1)
        row.addLayout(keys)
        column.addLayout(row)
        self.prescriptions.setFixedHeight(ASKED_PX)
        column.addWidget(self.form)
        column.addWidget(QLabel(self.tr("To move on")))
        column.addWidget(self.criteria)
        column.addStretch(1)
        return self._inner

    @property
    def in_order(self) -> tuple[QWidget, ...]:
        """All that is chosen, typed in or pressed, as one reads."""
        asked = self.prescriptions, self.add_prescription, self.remove_prescription
        return (
            *(self.live, *self.lists.in_order, *self.stage_form.in_order, *asked),
            *(*self.form.in_order, *self.criteria.in_order),
            *(self.put_back, self.save, self.undo, self.revert),
        )

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self.lists.set_size(size)
        self.stage_form.set_size(size)
        self.prescriptions.setFixedHeight(round(ASKED_PX * size))

    def say(self, words: str) -> None:
        """A message at its one place."""
        self.message.setText(shown(words))
        self.message.setVisible(bool(words))
        self.put_back.hide()

    def offer_back(self, words: str, act: Callable[[], object]) -> None:
        """A message with a key that takes back what it tells."""
        self.say(words)
        self._put_back = act
        self.put_back.show()

    def _bring_back(self) -> None:
        act, self._put_back = self._put_back, None
        self.put_back.hide()
        if act is not None:
            act()

    def show_first_wrong(self) -> None:
        """Brings the first field that does not fit into view, to type in it."""
        for label in self._inner.findChildren(QLabel, "error"):
            if label.text() and not label.isHidden():
                self._scroll.ensureWidgetVisible(label)
                field = label.parentWidget()
                if isinstance(field, Field):
                    field.line.setFocus()
                return

    # Filling.

    def show_nothing(self) -> None:
        """No plan is open."""
        self._inner.hide()
        self.nothing.show()
        self.lists.list_stages(None, now=None, chosen=-1)
        self.lists.since.setText("")
        self.lists.standing.setText("")

    def show_plan(
        self, plan: Plan, *, now: int | None, stage: int, chosen: int
    ) -> None:
        """A plan, one of its stages, and one prescription of that.

        Args:
            now: index of the stage under way, None where the plan is not begun.
        """
        self._inner.show()
        self.nothing.hide()
        at = plan.stages[stage]
        self.lists.list_stages(plan, now=now, chosen=stage)
        self.stage_form.show_plan(plan, at)
        asked = at.prescriptions
        self.lists.filling = True
        self.prescriptions.clear()
        for one in asked:
            self.prescriptions.addItem(shown(short(one)))
        self.prescriptions.setCurrentRow(chosen if asked else -1)
        self.lists.filling = False
        self.remove_prescription.setEnabled(bool(asked))
        self.form.setVisible(bool(asked))
        if asked:
            self.form.show_planned(asked[chosen])

    def show_judged(self, judged: Sequence[Judged], *, under_way: bool) -> None:
        """How each criterion stands, and how many are met.

        Args:
            under_way: whether the stage is, and the plan is saved.
        """
        self.criteria.show_judged(judged, editable=under_way)
        if not under_way or not judged:
            self.lists.standing.setText("")
            return
        counts = [
            self.tr("{mark} {count} {state}").format(
                mark=MARKS[met], count=count, state=shown(met.value)
            )
            for met in Met
            if (count := sum(one.met is met for one in judged))
        ]
        words = self.tr("To move on: {counts}").format(counts=", ".join(counts))
        self.lists.standing.setText(words)

    def unjudged(self, stage: Stage) -> tuple[Judged, ...]:
        """The criteria of a draft, which nothing can be said of yet."""
        why = self.tr("Told when the plan is saved.")
        return tuple(Judged(one, Met.UNKNOWN, why) for one in stage.criteria)

    # Reading.

    def read(self, plan: Plan, *, stage: int, chosen: int) -> Plan | None:
        """The plan as it stands in the fields; None after complaints in them."""
        at = plan.stages[stage]
        asked = [*at.prescriptions]
        typed = self.form.read() if asked else None
        stage_typed = self.stage_form.read_stage(at)
        plan_typed = self.stage_form.read_plan(plan)
        if stage_typed is None or plan_typed is None:
            return None
        if asked:
            if typed is None:
                return None
            asked[chosen] = typed
        changed = replace(stage_typed, prescriptions=tuple(asked))
        return plan_typed.with_stage(stage, changed)
