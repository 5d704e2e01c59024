"""Planning on a real logbook: criteria by what was tested, tasks found by name."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from biofeedback.logbook.database import Logbook
from biofeedback.session.planning import Planning, SideForces
from biofeedback.session.today import Today
from biofeedback.training.athlete import AthleteDetails
from biofeedback.training.criteria import Met
from biofeedback.training.example_plans import SHOULDER
from biofeedback.training.planned import ReferenceRule
from biofeedback.training.reference import Origin
from biofeedback.training.task import Sides, Task

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

OUTWARD = "Shoulder external rotation at the side"


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def athlete_id(book: Logbook) -> str:
    return book.people.add(AthleteDetails("INV-1", injured=Sides.LEFT))


def state(book: Logbook, athlete_id: str, side: Sides, force_n: float) -> None:
    book.maxima.add_stated(
        athlete_id,
        Task(OUTWARD, sides=side),
        force_n,
        origin=Origin.BEFORE_INJURY,
        on_date="2025-11-02",
    )


def test_a_task_the_list_knows_gets_its_key(book: Logbook, athlete_id: str) -> None:
    planning = Planning(book)
    key = planning.save("", athlete_id, SHOULDER)
    stored = planning.plan(key)
    assert stored is not None
    outward = stored.plan.stages[0].prescriptions[0].task
    assert book.tasks.get(outward.key) == outward  # with its position
    inward = stored.plan.stages[1].prescriptions[1].task
    assert inward.key == ""  # not in the list


def test_a_file_has_no_key_of_this_logbook(
    book: Logbook, athlete_id: str, tmp_path: Path
) -> None:
    planning = Planning(book)
    stored = planning.plan(planning.save("", athlete_id, SHOULDER))
    assert stored is not None
    path = tmp_path / "plan.json"
    planning.save_file(stored.plan, path)
    key = stored.plan.stages[0].prescriptions[0].task.key
    text = path.read_text(encoding="utf-8")
    assert key not in text
    assert "INV-1" not in text
    assert planning.load_file(path) == stored.plan


def test_criteria_stand_by_what_is_known(book: Logbook, athlete_id: str) -> None:
    planning = Planning(book)
    key = planning.save("", athlete_id, SHOULDER)
    stored = planning.plan(key)
    assert stored is not None
    assert {one.met for one in planning.judged(stored, 0)} == {Met.UNKNOWN}
    planning.say(key, 0, "surgeon", met=True)
    *_, word = planning.judged(stored, 0)
    assert word.met is Met.MET


def test_today_asks_for_what_the_stage_asks(book: Logbook, athlete_id: str) -> None:
    planning = Planning(book)
    key = planning.save("", athlete_id, SHOULDER)
    view = Today(book).for_athlete("INV-1")
    assert view.plan is not None
    assert (view.plan.id, view.plan.stage) == (key, 0)
    assert len(view.sets) == 1
    planning.move(key, 1, "as agreed")
    view = Today(book).for_athlete("INV-1")
    assert view.plan is not None
    assert view.plan.stage == 1
    assert len(view.sets) == 2
    planning.archive(key)
    assert Today(book).for_athlete("INV-1").plan is None


def test_forces_of_each_side_where_they_were_tested(
    book: Logbook, athlete_id: str
) -> None:
    forces = Planning(book).forces(athlete_id, Task(OUTWARD))
    assert (forces.left_n, forces.right_n, forces.both_n) == (None, None, None)
    assert forces.of(Sides.LEFT) is None


def test_a_value_from_before_the_injury_alone_is_not_enough(
    book: Logbook, athlete_id: str
) -> None:
    planning = Planning(book)
    state(book, athlete_id, Sides.LEFT, 200.0)
    stored = planning.plan(
        planning.save("", athlete_id, replace(SHOULDER, name="Mine", example=False))
    )
    assert stored is not None
    _, regained = planning.judged(stored, 1)
    assert regained.met is Met.UNKNOWN


@pytest.mark.parametrize(
    ("rule", "left_n", "right_n"),
    [
        (ReferenceRule(Origin.OWN_SIDE), 180.0, 240.0),
        (ReferenceRule(Origin.OTHER_SIDE), 240.0, 180.0),
        (ReferenceRule(Origin.TYPED, typed_n=99.0), 99.0, 99.0),
        (ReferenceRule(Origin.BODY_MASS, body_mass_factor=0.5), 343.2, 343.2),
        (ReferenceRule(Origin.BEFORE_INJURY), None, None),
    ],
)
def test_newtons_of_each_side_by_the_rule(
    rule: ReferenceRule, left_n: float | None, right_n: float | None
) -> None:
    """Half of the weight of 70 kg is 0.5 · 70 · 9.80665 = 343.2 N."""
    forces = SideForces(180.0, 240.0, weight_n=70 * 9.80665)
    for side, wanted in ((Sides.LEFT, left_n), (Sides.RIGHT, right_n)):
        found = forces.reference_n(rule, side)
        if wanted is None:
            assert found is None
        else:
            assert found == pytest.approx(wanted, abs=0.05)
