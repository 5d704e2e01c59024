"""A plan while it is changed: what is done to it can be taken back, step by step.

Rules that hold here:

* Taking back undoes one step and nothing else: what was typed since stays.
* The stage under way keeps its place when stages are put in or taken out before it,
  and cannot be taken out itself.
* Nothing is kept here; whoever has the draft saves it as a whole.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from biofeedback.errors import UserError
from biofeedback.logbook.keys import new_key
from biofeedback.phrase import phrase
from biofeedback.training.plan import Plan, Stage

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.training.criteria import Criterion
    from biofeedback.training.planned import PlannedPrescription

STEPS_MOST = 100
"""More than anyone takes back; the oldest are forgotten."""
STAGE_WEEKS = 4


@dataclass(frozen=True, slots=True)
class _Step:
    """How to take one step back, and where one stood before it."""

    back: Callable[[Plan], Plan]
    now: int
    stage: int
    chosen: int


class PlanDraft:
    """A plan that is changed.

    Args:
        now: index of the stage under way.
        kept: whether the logbook has the plan, so that a stage is under way.

    Attributes:
        plan: as it stands.
        now: index of the stage under way.
        stage: index of the stage that is looked at.
        chosen: index of the prescription in it that is looked at.
    """

    def __init__(self, plan: Plan, *, now: int = 0, kept: bool = True) -> None:
        self.plan = plan
        self.now = now
        self.stage = now
        self.chosen = 0
        self._kept = kept
        self._steps: list[_Step] = []

    @property
    def shown(self) -> Stage:
        """The stage that is looked at."""
        return self.plan.stages[self.stage]

    @property
    def planned(self) -> PlannedPrescription | None:
        """The prescription that is looked at, or None."""
        found = self.shown.prescriptions
        return found[self.chosen] if found else None

    @property
    def can_undo(self) -> bool:
        """Whether there is a step to take back."""
        return bool(self._steps)

    def look_at(self, stage: int, chosen: int = 0) -> None:
        """Another stage, or another of its prescriptions."""
        self.stage, self.chosen = stage, chosen

    # Steps.

    def add_stage(self, name: str) -> None:
        """A stage after the one that is looked at.

        Raises:
            FieldError: there are as many as a plan may have.
        """
        at = self.stage + 1
        before = self.shown
        weeks = before.to_week, before.to_week + STAGE_WEEKS
        new = Stage(name, *weeks, key=new_key())
        self._do(
            lambda plan: _with_stages(plan, at, at, (new,)),
            lambda plan: _with_stages(plan, at, at + 1, ()),
        )
        self.now += 1 if at <= self.now else 0
        self.look_at(at)

    def remove_stage(self) -> None:
        """Takes out the stage that is looked at.

        Raises:
            UserError: it is the only one, or the one under way.
        """
        at, stage = self.stage, self.shown
        if len(self.plan.stages) == 1:
            raise UserError(phrase("A plan has at least one stage."))
        if at == self.now and self._kept:
            raise UserError(
                phrase("This is the stage under way."),
                phrase("Move to another one first, and save."),
            )
        self._do(
            lambda plan: _with_stages(plan, at, at + 1, ()),
            lambda plan: _with_stages(plan, at, at, (stage,)),
        )
        self.now -= 1 if at < self.now else 0
        self.look_at(max(0, at - 1))

    def add_prescription(self, new: PlannedPrescription) -> None:
        """Something more to ask for in the stage that is looked at.

        Raises:
            FieldError: there are as many as a stage may have.
        """
        at, place = self.stage, len(self.shown.prescriptions)
        self._do(
            lambda plan: _with_prescriptions(plan, at, place, place, (new,)),
            lambda plan: _with_prescriptions(plan, at, place, place + 1, ()),
        )
        self.look_at(at, place)

    def remove_prescription(self) -> None:
        """Takes out the prescription that is looked at."""
        at, place, gone = self.stage, self.chosen, self.planned
        if gone is None:
            return
        self._do(
            lambda plan: _with_prescriptions(plan, at, place, place + 1, ()),
            lambda plan: _with_prescriptions(plan, at, place, place, (gone,)),
        )
        self.look_at(at, max(0, place - 1))

    def add_criterion(self, new: Criterion) -> None:
        """One more criterion to move on from the stage that is looked at.

        Raises:
            FieldError: there are as many as a stage may have.
        """
        at, place = self.stage, len(self.shown.criteria)
        self._do(
            lambda plan: _with_criteria(plan, at, place, place, (new,)),
            lambda plan: _with_criteria(plan, at, place, place + 1, ()),
        )

    def remove_criterion(self, key: str) -> None:
        """Takes a criterion out of the stage that is looked at."""
        at = self.stage
        for place, gone in enumerate(self.shown.criteria):
            if gone.key == key:
                self._take_criterion(at, place, gone)
                return

    def _take_criterion(self, at: int, place: int, gone: Criterion) -> None:
        self._do(
            lambda plan: _with_criteria(plan, at, place, place + 1, ()),
            lambda plan: _with_criteria(plan, at, place, place, (gone,)),
        )

    def undo(self) -> None:
        """Takes the last step back."""
        if not self._steps:
            return
        step = self._steps.pop()
        self.plan = step.back(self.plan)
        self.now = step.now
        self.look_at(step.stage, step.chosen)

    def _do(self, step: Callable[[Plan], Plan], back: Callable[[Plan], Plan]) -> None:
        changed = step(self.plan)  # before anything is remembered: it may be refused
        self._steps.append(_Step(back, self.now, self.stage, self.chosen))
        del self._steps[:-STEPS_MOST]
        self.plan = changed


def _with_stages(plan: Plan, start: int, end: int, new: tuple[Stage, ...]) -> Plan:
    return replace(plan, stages=(*plan.stages[:start], *new, *plan.stages[end:]))


def _with_prescriptions(
    plan: Plan, at: int, start: int, end: int, new: tuple[PlannedPrescription, ...]
) -> Plan:
    there = plan.stages[at].prescriptions
    changed = (*there[:start], *new, *there[end:])
    return plan.with_stage(at, replace(plan.stages[at], prescriptions=changed))


def _with_criteria(
    plan: Plan, at: int, start: int, end: int, new: tuple[Criterion, ...]
) -> Plan:
    there = plan.stages[at].criteria
    changed = (*there[:start], *new, *there[end:])
    return plan.with_stage(at, replace(plan.stages[at], criteria=changed))
