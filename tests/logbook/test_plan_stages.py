"""The stage under way when its plan is changed: it is known by its key."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.logbook.database import Logbook
from biofeedback.training.example_plans import EXAMPLE_PLANS, TENDON
from biofeedback.training.plan import Plan, Stage
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from biofeedback.logbook.plans import StoredPlan

FIRST, SECOND, THIRD = TENDON.stages


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def key(book: Logbook) -> str:
    """A plan of three stages, in its second."""
    key = book.plans.add(book.add_athlete("INV-1"), TENDON)
    book.plans.move(key, 1, "quiet")
    return key


def stored(book: Logbook, key: str) -> StoredPlan:
    found = book.plans.get(key)
    assert found is not None
    return found


def under_way(book: Logbook, key: str) -> str:
    found = stored(book, key)
    return found.plan.stages[found.stage].name


@pytest.mark.parametrize(
    "stages",
    [
        (SECOND, THIRD),  # the first one is over and taken out
        (SECOND,),
        (Stage("Before", 0, 1), FIRST, SECOND, THIRD),
        (THIRD, SECOND, FIRST),
        (FIRST, replace(SECOND, name="Another name", to_week=50)),
    ],
)
def test_nobody_is_moved_by_a_change_elsewhere(
    book: Logbook, key: str, stages: tuple[Stage, ...]
) -> None:
    before = stored(book, key)
    book.plans.say(key, 1, "w", met=True)
    book.plans.change(key, replace(TENDON, stages=stages))
    after = stored(book, key)
    assert after.plan.stages[after.stage].key == SECOND.key
    assert after.stage_since_utc == before.stage_since_utc
    assert len(book.plans.moves(key)) == 2
    assert book.plans.facts(after, after.stage).said == (("w", True),)


@pytest.mark.parametrize(
    ("stages", "then"),
    [
        ((FIRST, THIRD), FIRST),  # never onward to more load without a word
        ((THIRD,), THIRD),  # nothing else is left
        ((THIRD, FIRST), FIRST),
    ],
)
def test_where_the_stage_under_way_is_taken_out_a_move_says_so(
    book: Logbook, key: str, stages: tuple[Stage, ...], then: Stage
) -> None:
    book.plans.say(key, 1, "w", met=True)
    book.plans.change(key, replace(TENDON, stages=stages))
    assert under_way(book, key) == then.name
    move = book.plans.moves(key)[-1]
    assert move.reason == f"The stage “{SECOND.name}” was taken out of the plan."
    after = stored(book, key)
    assert after.stage_since_utc == move.at_utc
    assert book.plans.facts(after, after.stage).said == ()


def test_a_stage_back_at_the_same_place_is_entered_anew(
    book: Logbook, key: str
) -> None:
    """Stages that only share a number share neither words nor sessions."""
    book.plans.move(key, 0)
    book.plans.say(key, 0, "w", met=True)
    new = Stage("New", 0, 1)
    book.plans.change(key, replace(TENDON, stages=(new, FIRST, SECOND)))
    after = stored(book, key)
    assert under_way(book, key) == FIRST.name
    assert book.plans.facts(after, 0).said == ()
    assert book.plans.facts(after, 1).said == (("w", True),)


@pytest.mark.parametrize("plan", EXAMPLE_PLANS, ids=lambda plan: plan.name)
def test_a_plan_without_keys_of_stages_gets_the_same_ones_each_time(plan: Plan) -> None:
    content = json.loads(json.dumps(plan.to_json()))
    for stage in content["stages"]:
        del stage["key"]
    read = [Plan.from_json(Fields(content)) for _ in range(2)]
    assert read[0] == read[1]
    keys = [stage.key for stage in read[0].stages]
    assert all(keys)
    assert len(set(keys)) == len(keys)


@given(st.permutations([0, 0, 1, 1, 2]))
def test_stages_that_are_the_same_get_keys_of_their_own(order: list[int]) -> None:
    plan = replace(TENDON, stages=tuple(TENDON.stages[at] for at in order))
    keys = [stage.key for stage in plan.with_own_keys().stages]
    assert len(set(keys)) == 5
    assert keys[0] == TENDON.stages[order[0]].key


def test_a_move_keeps_the_name_of_its_stage(book: Logbook, key: str) -> None:
    """Its number then is another stage's now."""
    book.plans.change(key, replace(TENDON, stages=(SECOND, THIRD)))
    plan = stored(book, key).plan
    began, moved = book.plans.moves(key)
    assert plan.place_of(began.stage_key) is None  # taken out since
    assert moved.to_stage == 1
    assert plan.place_of(moved.stage_key) == 0
