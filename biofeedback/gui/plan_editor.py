"""The plan that is open on the plan page: its draft, and the steps that change it.

It knows no athlete and keeps nothing; the page that is made of it does.
"""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui.field import as_sentence
from biofeedback.gui.plan_view import PlanView
from biofeedback.gui.plan_words import since
from biofeedback.phrase import sentences
from biofeedback.session.plan_draft import PlanDraft
from biofeedback.session.planning import fresh_key
from biofeedback.training.intensity import Intensity, ToleranceOf
from biofeedback.training.planned import PlannedPrescription
from biofeedback.training.task import Task
from biofeedback.training.task_names import HOLD

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtWidgets import QWidget

    from biofeedback.session.planning import Planning, SideReference, StoredPlan
    from biofeedback.training.criteria import Criterion


class PlanEditor(PlanView):
    """Shows a draft, takes in what is typed, and does the steps.

    Args:
        today: what is 100 % for each side of a prescription, if it were today.
    """

    def __init__(
        self,
        planning: Planning,
        today: Callable[[PlannedPrescription], Sequence[SideReference]],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(today, parent)
        self._planning = planning
        self._stored: StoredPlan | None = None
        self._draft: PlanDraft | None = None
        self._dirty = False
        self.lists.stages.currentRowChanged.connect(self._choose_stage)
        self.prescriptions.currentRowChanged.connect(self._choose_prescription)
        for form in (self.form, self.stage_form):
            form.edited.connect(self._touched)
        self.criteria.added.connect(self._add_criterion)
        self.criteria.removed.connect(self._remove_criterion)
        for button, act in (
            (self.lists.add_stage, self._add_stage),
            (self.lists.remove_stage, self._remove_stage),
            (self.add_prescription, self._add_prescription),
            (self.remove_prescription, self._remove_prescription),
            (self.undo, self._take_back_one),
        ):
            button.clicked.connect(partial(self._tried, act))

    @property
    def dirty(self) -> bool:
        """Whether there is a draft that is not saved."""
        return self._dirty

    # Showing.

    def _show_draft(self) -> None:
        draft, stored = self._draft, self._stored
        if draft is None:
            self.show_nothing()
        else:
            now = draft.now if stored is not None else None
            self.show_plan(draft.plan, now=now, stage=draft.stage, chosen=draft.chosen)
            words, moves = since(stored, self._planning)
            self.lists.since.setText(words)
            self.lists.since.setToolTip(moves)
            self._show_criteria(draft)
        self._show_keys()

    def _show_criteria(self, draft: PlanDraft) -> None:
        stored = self._stored
        if stored is not None and not self._dirty:
            judged = self._planning.judged(stored, draft.stage)
            self.show_judged(judged, under_way=draft.stage == draft.now)
        else:
            self.show_judged(self.unjudged(draft.shown), under_way=False)

    def _show_keys(self) -> None:
        """What can be pressed with the plan that is open."""
        draft = self._draft
        self.undo.setEnabled(draft is not None and draft.can_undo)
        self.save.setEnabled(draft is not None and self._dirty)
        self.revert.setEnabled(self._dirty)
        lists = self.lists
        for button in (lists.add_stage, lists.remove_stage, lists.to_file, lists.print):
            button.setEnabled(draft is not None)

    # Choosing. The draft takes in what stands in the fields first.

    def _choose_stage(self, row: int) -> None:
        draft = self._draft
        if self.lists.filling or draft is None or row < 0 or row == draft.stage:
            return
        if not self._take_in():  # all stays as it was typed
            self.lists.mark(self.lists.stages, draft.stage)
            return
        draft.look_at(row)
        self._tried(self._show_draft)

    def _choose_prescription(self, row: int) -> None:
        draft = self._draft
        if self.lists.filling or draft is None or row < 0 or row == draft.chosen:
            return
        if not self._take_in():
            self.lists.mark(self.prescriptions, draft.chosen)
            return
        draft.look_at(draft.stage, row)
        self._tried(self._show_draft)

    def _keeps(self) -> bool:
        """Whether what is not saved keeps the page where it is; that is said."""
        if self._dirty:
            self.say(self.tr("Save the plan, or take the change back, first."))
        return self._dirty

    def _touched(self) -> None:
        if self._draft is not None and not self._dirty:
            self._dirty = True
            self._tried(partial(self._show_criteria, self._draft))
            self._show_keys()

    def _take_in(self) -> bool:
        """The fields into the draft; False after a complaint, and all stays typed."""
        draft = self._draft
        if draft is None or not self._dirty:
            return draft is not None
        try:
            typed = self.read(draft.plan, stage=draft.stage, chosen=draft.chosen)
        except FieldError as error:
            self.say(sentence_of(error))
            return False
        if typed is None:
            self.say(self.tr("Not taken over: a field needs another value."))
            self.show_first_wrong()
            return False
        draft.plan = typed
        return True

    # Steps, each with undo.

    def _step(self, act: Callable[[PlanDraft], None], words: str) -> bool:
        draft = self._draft
        if draft is None or not self._take_in():
            return False
        act(draft)
        self._dirty = True
        self._show_draft()
        self.say(words)
        return True

    def _add_stage(self) -> None:
        name = self.tr("New stage")
        self._step(lambda draft: draft.add_stage(name), "")

    def _remove_stage(self) -> None:
        words = self.tr("The stage is taken out. Undo brings it back.")
        self._step(PlanDraft.remove_stage, words)

    def _add_prescription(self) -> None:
        self._step(lambda draft: draft.add_prescription(usual_prescription()), "")

    def _remove_prescription(self) -> None:
        planned = self._draft.planned if self._draft is not None else None
        if planned is not None and self._dirty and self.form.read() is None:
            # A field of what goes need not fit; as it last did it comes back by undo.
            self.form.show_planned(planned)
        words = self.tr("Taken out. Undo brings it back.")
        self._step(PlanDraft.remove_prescription, words)

    def _add_criterion(self, criterion: Criterion) -> None:
        new = replace(criterion, key=fresh_key())
        if self._tried(lambda: self._step(lambda draft: draft.add_criterion(new), "")):
            self.criteria.clear_new()

    def _remove_criterion(self, key: str) -> None:
        words = self.tr("Taken out. Undo brings it back.")
        self._tried(
            lambda: self._step(lambda draft: draft.remove_criterion(key), words)
        )

    def _take_back_one(self) -> None:
        self._step(PlanDraft.undo, self.tr("Taken back. What you typed stays."))

    def _tried(self, act: Callable[[], object], *_: object) -> object:
        """Does it; what cannot be done is said."""
        try:
            return act()
        except FieldError as error:
            self.say(sentence_of(error))
        except BiofeedbackError as error:
            self.say(str(error))
        return None


def sentence_of(error: FieldError) -> str:
    """What does not fit, without the name of the field."""
    return as_sentence(sentences(error.problem, error.next_step))


def usual_prescription() -> PlannedPrescription:
    """What a new prescription begins with."""
    return PlannedPrescription(
        Task(HOLD),
        Intensity.around(50, 5, ToleranceOf.CENTRE),
        hold_s=10.0,
        reps=5,
        key=fresh_key(),
    )
