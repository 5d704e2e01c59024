"""Plans and stages: their checks, their keys, and what goes to others with them."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import pytest

from biofeedback.errors import FieldError
from biofeedback.training.criteria import Against as Held
from biofeedback.training.criteria import (
    HoldsComplete,
    Met,
    PainAtMost,
    Regained,
    SessionFacts,
    StageFacts,
    Word,
)
from biofeedback.training.example_plans import EXAMPLE_PLANS
from biofeedback.training.intensity import Intensity, ToleranceOf, Unit
from biofeedback.training.plan import Plan, Stage
from biofeedback.training.planned import PlannedPrescription, ReferenceRule
from biofeedback.training.reference import Origin
from biofeedback.training.task import Task, TaskKind
from biofeedback.wire.fields import Fields

CALF = PlannedPrescription(
    Task("Seated calf"), Intensity.around(70, 5, ToleranceOf.CENTRE), 10.0, key="calf"
)
FIRST = Stage("First", 0, 4, (CALF,), (PainAtMost(2, 3, "pain"),), "A note.")
PLAN = Plan("Mine", (FIRST, replace(FIRST, name="Second", from_week=4, to_week=6)))


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"name": " "}, "name", "1 to 200 characters"),
        ({"name": "x" * 201}, "name", "1 to 200 characters"),
        ({"from_week": -1}, "from_week", "0 to 520"),
        ({"to_week": 0}, "to_week", "is 0; it must be after week 0"),
        ({"to_week": 521}, "to_week", "at most 520"),
        ({"prescriptions": (CALF, CALF)}, "prescriptions", "a key of its own"),
        ({"prescriptions": (replace(CALF, key=""),)}, "prescriptions", "a key"),
        ({"prescriptions": 51 * (CALF,)}, "prescriptions", "not be more than 50"),
        ({"criteria": 21 * (Word("x", "w"),)}, "criteria", "not be more than 20"),
        ({"note": "x" * 2001}, "note", "longer than 2000"),
        (
            {
                "prescriptions": (
                    CALF,
                    replace(CALF, key="l", task=Task("Slow", TaskKind.LOWERING)),
                )
            },
            "prescriptions[1].intensity.upper",
            "a floor and no upper edge",
        ),
    ],
)
def test_stages_that_do_not_fit(
    changes: dict[str, Any], field: str, words: str
) -> None:
    with pytest.raises(FieldError, match=words) as caught:
        replace(FIRST, **changes)
    assert caught.value.field == f"stage.{field}"


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"name": ""}, "name", "1 to 200 characters"),
        ({"stages": ()}, "stages", "1 to 50 stages"),
        ({"stages": 51 * (FIRST,)}, "stages", "1 to 50 stages"),
        ({"note": "x" * 2001}, "note", "longer than 2000"),
    ],
)
def test_plans_that_do_not_fit(changes: dict[str, Any], field: str, words: str) -> None:
    with pytest.raises(FieldError, match=words) as caught:
        replace(PLAN, **changes)
    assert caught.value.field == f"plan.{field}"


@pytest.mark.parametrize(
    ("make", "field", "words"),
    [
        (lambda: PainAtMost(11, 3), "most", "is 11; it must be 0 to 10"),
        (lambda: PainAtMost(2, 0), "sessions", "is 0; it must be 1 to 100"),
        (lambda: HoldsComplete(0.9, 3), "least_pct", "Type 90 for 90 %"),
        (lambda: HoldsComplete(101, 3), "least_pct", "1 % to 100 %"),
        (lambda: Regained(201, Held.OTHER_SIDE, "x"), "least_pct", "1 % to 200 %"),
        (lambda: Regained(90, Held.OTHER_SIDE, " "), "task", "must name a task"),
        (lambda: Word(" "), "text", "1 to 200 characters"),
    ],
)
def test_criteria_that_do_not_fit(make: Any, field: str, words: str) -> None:
    with pytest.raises(FieldError, match=words) as caught:
        make()
    assert caught.value.field == f"criterion.{field}"


def test_each_criterion_of_a_stage_is_judged() -> None:
    stage = replace(FIRST, criteria=(*FIRST.criteria, Word("The surgeon agrees.", "w")))
    facts = StageFacts(
        tuple(SessionFacts(1, 2, 2, morning_known=True) for _ in range(3))
    )
    assert [one.met for one in stage.judged(facts)] == [Met.MET, Met.UNKNOWN]


def test_keys_are_made_to_be_there_once() -> None:
    """What is done carries the key alone, and must tell its stage."""
    made = PLAN.with_own_keys()
    keys = [
        one.key
        for stage in made.stages
        for one in (*stage.prescriptions, *stage.criteria)
    ]
    assert keys == ["calf", "pain", "calf-2", "pain-2"]
    assert made.with_own_keys() == made
    long = replace(FIRST, prescriptions=(replace(CALF, key="k" * 36),))
    twice = Plan("Long", (long, long)).with_own_keys()
    second = twice.stages[1].prescriptions[0].key
    assert second == "k" * 34 + "-2"  # no longer than a key may be


def with_changed(**changes: Any) -> Plan:
    """The plan with something else in its second stage."""
    asked = replace(CALF, **changes)
    return PLAN.with_stage(1, replace(PLAN.stages[1], prescriptions=(asked,)))


def test_newtons_that_go_along_are_told() -> None:
    fixed = Intensity.at_least(80, unit=Unit.NEWTONS)
    for plan in (with_changed(ceiling_n=200.0), with_changed(intensity=fixed)):
        assert plan.in_newtons == ("Second, Seated calf",)
        assert plan.without_typed_references() == plan
    assert all(plan.in_newtons == () for plan in (PLAN, *EXAMPLE_PLANS))


def test_a_typed_100_percent_stays_with_whom_it_was_typed_for() -> None:
    typed = ReferenceRule(Origin.TYPED, typed_n=240.0, typed_on="2026-01-12")
    plan = with_changed(reference=typed)
    assert plan.typed_references == ("Second, Seated calf",)
    gone = plan.without_typed_references()
    assert gone == with_changed(reference=ReferenceRule(Origin.TYPED))
    assert gone.typed_references == ()


def test_all_that_was_typed_freely_is_among_the_texts() -> None:
    noted = replace(CALF, note="note of what is asked")
    plan = Plan("name of the plan", (replace(FIRST, prescriptions=(noted,)),), "of it")
    for text in ("name of the plan", "of it", "First", "A note.", "Seated calf",
                 "note of what is asked"):  # fmt: skip
        assert text in plan.texts


def test_what_is_written_is_read() -> None:
    for plan in (PLAN, replace(PLAN, example=True, note="x"), *EXAMPLE_PLANS):
        kept = json.loads(json.dumps(plan.to_json()))
        assert Plan.from_json(Fields(kept, "plan")) == plan


def test_what_a_part_refuses_is_named_by_its_place() -> None:
    kept = json.loads(json.dumps(PLAN.to_json()))
    kept["stages"][1]["criteria"][0]["sessions"] = 101
    with pytest.raises(FieldError) as caught:
        Plan.from_json(Fields(kept, "plan"))
    assert caught.value.field == "plan.stages[1].criteria[0].sessions"
    kept = json.loads(json.dumps(PLAN.to_json()))
    kept["stages"][1]["prescriptions"][0]["ceiling_pct"] = 60
    with pytest.raises(FieldError) as caught:
        Plan.from_json(Fields(kept, "plan"))
    assert caught.value.field == "plan.stages[1].prescriptions[0].ceiling_pct"
