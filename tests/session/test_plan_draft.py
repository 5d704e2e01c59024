"""A plan while it is changed: steps and the way back, where one stands, what stays."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.errors import FieldError, UserError
from biofeedback.session.plan_draft import PlanDraft
from biofeedback.training.criteria import Word
from biofeedback.training.example_plans import SHOULDER, TENDON
from biofeedback.training.intensity import Intensity
from biofeedback.training.plan import CRITERIA_MAX, Plan
from biofeedback.training.planned import PlannedPrescription
from biofeedback.training.task import Task

NEW = PlannedPrescription(Task("New"), Intensity.at_least(50), hold_s=5.0, key="new")


def names(draft: PlanDraft) -> list[str]:
    return [stage.name for stage in draft.plan.stages]


def under_way(draft: PlanDraft) -> str:
    return draft.plan.stages[draft.now].name


def test_the_stage_under_way_stays_it_whatever_comes_before_it() -> None:
    draft = PlanDraft(TENDON, now=1)
    held = under_way(draft)
    draft.look_at(0)
    draft.add_stage("Put in")
    assert names(draft)[1] == "Put in"
    assert (draft.now, under_way(draft)) == (2, held)
    draft.look_at(0)
    draft.remove_stage()
    assert (draft.now, under_way(draft)) == (1, held)
    draft.look_at(2)
    draft.remove_stage()  # one that comes later
    assert (draft.now, under_way(draft)) == (1, held)
    while draft.can_undo:
        draft.undo()
    assert draft.plan == TENDON
    assert (draft.now, draft.stage) == (1, 0)


def test_neither_the_stage_under_way_nor_the_last_one_is_taken_out() -> None:
    draft = PlanDraft(TENDON, now=1)
    with pytest.raises(UserError, match="stage under way"):
        draft.remove_stage()
    only = PlanDraft(replace(TENDON, stages=TENDON.stages[:1]), kept=False)
    with pytest.raises(UserError, match="at least one stage"):
        only.remove_stage()
    assert not draft.can_undo
    begun = PlanDraft(TENDON, kept=False)  # nobody is in it yet
    begun.remove_stage()
    assert len(begun.plan.stages) == 2


def test_a_new_stage_begins_where_the_one_before_ends() -> None:
    draft = PlanDraft(SHOULDER)
    draft.add_stage("Put in")
    assert (draft.shown.from_week, draft.shown.to_week) == (4, 8)


def test_what_was_typed_since_stays_when_a_step_is_taken_back() -> None:
    draft = PlanDraft(SHOULDER)
    draft.remove_criterion("early-holds")
    draft.plan = replace(draft.plan, name="Typed since")
    draft.undo()
    assert draft.plan == replace(SHOULDER, name="Typed since")


def test_where_one_looks_follows_what_is_put_in_and_taken_out() -> None:
    draft = PlanDraft(SHOULDER, now=1)
    assert draft.planned == SHOULDER.stages[1].prescriptions[0]
    draft.add_prescription(NEW)
    assert (draft.chosen, draft.planned) == (2, NEW)
    draft.remove_prescription()
    assert draft.chosen == 1
    draft.undo()
    assert (draft.chosen, draft.planned) == (2, NEW)
    draft.look_at(0)
    draft.remove_prescription()
    assert draft.shown.prescriptions == ()
    draft.remove_prescription()  # of nothing there is nothing to take out
    draft.remove_criterion("none")
    draft.undo()
    assert draft.planned == SHOULDER.stages[0].prescriptions[0]


def test_what_is_refused_is_no_step() -> None:
    draft = PlanDraft(SHOULDER)
    for number in range(CRITERIA_MAX - len(draft.shown.criteria)):
        draft.add_criterion(Word("x", f"w{number}"))
    full = draft.plan
    with pytest.raises(FieldError, match="not be more than"):
        draft.add_criterion(Word("x", "more"))
    assert draft.plan == full
    draft.undo()
    assert len(draft.shown.criteria) == CRITERIA_MAX - 1


STEPS = st.lists(
    st.tuples(
        st.sampled_from(["stage+", "stage-", "asked+", "asked-", "word+", "word-"]),
        st.integers(0, 5),
        st.integers(0, 5),
    ),
    max_size=25,
)


def _step(draft: PlanDraft, what: str, at: int, number: int) -> None:
    draft.look_at(at % len(draft.plan.stages))
    asked = draft.shown.prescriptions
    draft.look_at(draft.stage, number % len(asked) if asked else 0)
    key = f"{what} {at} {number} {len(draft.shown.criteria)} {len(asked)}"
    match what:
        case "stage+":
            draft.add_stage("New")
        case "stage-":
            draft.remove_stage()
        case "asked+":
            draft.add_prescription(replace(NEW, key=key))
        case "asked-":
            draft.remove_prescription()
        case "word+":
            draft.add_criterion(Word("x", key))
        case "word-" if draft.shown.criteria:
            criteria = draft.shown.criteria
            draft.remove_criterion(criteria[number % len(criteria)].key)


@given(STEPS, st.sampled_from([SHOULDER, TENDON]), st.integers(0, 1))
def test_all_steps_back_lead_to_where_one_began(
    steps: list[tuple[str, int, int]], plan: Plan, now: int
) -> None:
    draft = PlanDraft(plan, now=now)
    held = under_way(draft)
    for what, at, number in steps:
        try:
            _step(draft, what, at, number)
        except UserError:
            continue
        assert under_way(draft) == held
    while draft.can_undo:
        draft.undo()
        assert under_way(draft) == held
    assert draft.plan == plan
    assert draft.now == now
