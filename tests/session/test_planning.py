"""Planning on a real logbook: criteria by what was tested, tasks found by name."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from typing import TYPE_CHECKING, Any

import pytest

from biofeedback.errors import FileError
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.session.order_record import OrderRecord
from biofeedback.session.planning import Planning
from biofeedback.session.today import Today
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.criteria import Against, Criterion, Judged, Met, Regained
from biofeedback.training.example_plans import SHOULDER
from biofeedback.training.intensity import Intensity, ToleranceOf
from biofeedback.training.plan import Plan, Stage
from biofeedback.training.planned import (
    PlannedPrescription,
    ReferenceRule,
    SideOrder,
)
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.running_order import RunningOrder, legs_of
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


NOW = datetime(2026, 2, 10, 9, 0, tzinfo=UTC)


def plan_of(planned: PlannedPrescription, *criteria: Criterion, note: str = "") -> Plan:
    planned = planned if planned.key else replace(planned, key="p")
    return Plan("Mine", (Stage("First", 0, 4, (planned,), criteria),), note=note)


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


def test_a_task_that_was_renamed_or_archived_since_keeps_its_key(
    book: Logbook, athlete_id: str
) -> None:
    planning = Planning(book)
    key = planning.save("", athlete_id, SHOULDER)
    before = planning.plan(key)
    assert before is not None
    task = before.plan.stages[0].prescriptions[0].task
    book.tasks.change(replace(task, name="Another name"))
    other = book.tasks.add(replace(task, key=""))  # under the name that is free now
    assert other.key != task.key
    planning.save(key, athlete_id, before.plan)
    after = planning.plan(key)
    assert after is not None
    assert after.plan.stages[0].prescriptions[0].task == task
    book.tasks.archive(task.key)
    planning.save(key, athlete_id, after.plan)
    again = planning.plan(key)
    assert again is not None
    assert again.plan.stages[0].prescriptions[0].task.key == task.key


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
    planning.say(key, 0, "early-surgeon", met=True)
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


def test_a_warm_up_says_so_in_its_recording() -> None:
    """And is counted as none of what the plan asks for; see the logbook's plans."""
    planned = replace(asked(side_order=SideOrder.LEFT), key="p")
    reference = Reference(180.0, Origin.OWN_SIDE, Definition.PEAK, "2026-01-12")
    legs = legs_of(planned, [planned.on(Sides.LEFT, reference)], warm_up=True)
    context = {"plan": {"id": "plan", "stage": 0, "key": "p"}}
    record = OrderRecord("order", RunningOrder(legs), {"p": context})
    first, second = (record.context(leg)["plan"] for leg in legs)
    assert first == {"id": "plan", "stage": 0, "key": "p", "warm_up": True}
    assert second == {"id": "plan", "stage": 0, "key": "p"}


# Newtons: the force that a set would have today, by the rule of the day.


def asked(rule: ReferenceRule | None = None, **more: Any) -> PlannedPrescription:
    values = {"side_order": SideOrder.LEFT_FIRST, **more}
    return PlannedPrescription(
        Task(OUTWARD),
        Intensity.around(70, 5, ToleranceOf.CENTRE),
        hold_s=10.0,
        reference=rule or ReferenceRule(),
        **values,
    )


def measure(
    book: Logbook, athlete_id: str, side: Sides, one_s_n: float, **more: Any
) -> None:
    values = {"tested_utc": NOW - timedelta(days=3), **more}
    values |= {"definition": values.get("definition", Definition.BEST_1_S_MEAN)}
    book.maxima.add(
        NewMaximalTest(
            athlete_id=athlete_id,
            task=Task(OUTWARD, sides=side),
            force_n=one_s_n,
            trials=3,
            one_s_n=one_s_n,
            peak_n=values.pop("peak_n", 1.1 * one_s_n),
            **values,
        )
    )


def newtons(planning: Planning, athlete_id: str, of: PlannedPrescription) -> list[Any]:
    return [
        (one.side, one.reference.force_n if one.reference else None)
        for one in planning.references(athlete_id, of)
    ]


@pytest.fixture
def planning(book: Logbook) -> Planning:
    return Planning(book, clock=lambda: NOW)


def test_newtons_are_those_that_today_will_have(
    book: Logbook, athlete_id: str, planning: Planning
) -> None:
    """The best of four weeks, not the newest; and never a peak for a mean."""
    measure(book, athlete_id, Sides.LEFT, 180.0)
    measure(book, athlete_id, Sides.LEFT, 150.0, tested_utc=NOW - timedelta(days=1))
    measure(book, athlete_id, Sides.LEFT, 300.0, tested_utc=NOW - timedelta(days=60))
    measure(book, athlete_id, Sides.RIGHT, 240.0, peak_n=275.0)
    own, other = ReferenceRule(), ReferenceRule(Origin.OTHER_SIDE)
    peak = ReferenceRule(Origin.OWN_SIDE, Definition.PEAK)
    left, right = Sides.LEFT, Sides.RIGHT
    assert newtons(planning, athlete_id, asked(own)) == [(left, 180.0), (right, 240.0)]
    assert newtons(planning, athlete_id, asked(other)) == [(left, 240.0), (right, 180)]
    assert newtons(planning, athlete_id, asked(peak))[1] == (right, 275.0)
    of_injured = asked(other, side_order=SideOrder.INJURED)
    assert newtons(planning, athlete_id, of_injured) == [(left, 240.0)]
    planning.save("", athlete_id, plan_of(of_injured))
    (today,) = Today(book, clock=lambda: NOW).for_athlete("INV-1").sets
    assert today.reference is not None
    assert today.reference.reference.force_n == 240.0


def test_a_typed_number_and_the_weight_of_the_body(
    book: Logbook, athlete_id: str, planning: Planning
) -> None:
    """Half of the weight of 70 kg is 0.5 · 70 · 9.80665 = 343.2 N."""
    book.people.add_mass(athlete_id, BodyMass(70.0, "2026-01-12"))
    weight = ReferenceRule(Origin.BODY_MASS, body_mass_factor=0.5)
    typed = ReferenceRule(Origin.TYPED, typed_n=99.0)
    assert newtons(planning, athlete_id, asked(weight))[0][1] == pytest.approx(
        343.2, abs=0.05
    )
    assert newtons(planning, athlete_id, asked(typed))[0][1] == 99.0


def test_a_band_for_each_side_goes_by_the_weaker_one(
    book: Logbook, athlete_id: str, planning: Planning
) -> None:
    """Of a test with both sides, 190 N and 210 N: the total would be twice as much."""
    book.maxima.add(
        NewMaximalTest(
            athlete_id=athlete_id,
            task=Task(OUTWARD, sides=Sides.BOTH),
            tested_utc=NOW - timedelta(days=3),
            definition=Definition.BEST_1_S_MEAN,
            force_n=400.0,
            one_s_n=400.0,
            left_n=190.0,
            right_n=210.0,
            trials=3,
        )
    )
    together = asked(side_order=SideOrder.TOGETHER)
    assert newtons(planning, athlete_id, together) == [(Sides.BOTH, 400.0)]
    each = replace(together, each_side=True)
    assert newtons(planning, athlete_id, each) == [(Sides.BOTH, 190.0)]


def test_where_there_are_no_newtons_it_says_why(
    book: Logbook, athlete_id: str, planning: Planning
) -> None:
    (left, _) = planning.references(athlete_id, asked())
    assert left.reference is None
    assert left.missing == "No test of the left side is known."
    healthy = book.people.add(AthleteDetails("INV-3"))
    unknown = planning.references(healthy, asked(side_order=SideOrder.INJURED))
    assert [(one.side, one.reference) for one in unknown] == [(None, None)]
    assert "which side is injured" in unknown[0].missing


# A force regained.


def regained(planning: Planning, athlete_id: str, criterion: Regained) -> Judged:
    plan = plan_of(asked(), criterion)
    stored = planning.plan(planning.save("", athlete_id, plan))
    assert stored is not None
    (judged,) = planning.judged(stored, 0)
    return judged


AGAINST_OTHER = Regained(90, Against.OTHER_SIDE, OUTWARD, "r")
AGAINST_BEFORE = Regained(90, Against.BEFORE_INJURY, OUTWARD, "r")


def test_regained_by_the_latest_tests_of_one_definition(
    book: Logbook, athlete_id: str, planning: Planning
) -> None:
    """216 N of 240 N are 90 %; the peaks, 300 N of 250 N, do not matter."""
    measure(book, athlete_id, Sides.RIGHT, 240.0, peak_n=250.0)
    measure(book, athlete_id, Sides.LEFT, 300.0, tested_utc=NOW - timedelta(days=9))
    measure(book, athlete_id, Sides.LEFT, 216.0, peak_n=300.0)
    found = regained(planning, athlete_id, AGAINST_OTHER)
    assert found.met is Met.MET
    assert found.why == "216 N (2026-02-07) of 240 N (2026-02-07), 90 %."


def test_a_test_by_another_definition_is_no_partner(
    book: Logbook, athlete_id: str, planning: Planning
) -> None:
    measure(book, athlete_id, Sides.RIGHT, 240.0)
    book.maxima.add(
        NewMaximalTest(
            athlete_id=athlete_id,
            task=Task(OUTWARD, sides=Sides.LEFT),
            tested_utc=NOW,
            definition=Definition.BEST_HALF_S_MEAN,
            force_n=230.0,
            half_s_n=230.0,
            trials=3,
        )
    )
    assert regained(planning, athlete_id, AGAINST_OTHER).met is Met.UNKNOWN


def test_regained_against_before_the_injury(
    book: Logbook, athlete_id: str, planning: Planning
) -> None:
    state(book, athlete_id, Sides.LEFT, 200.0)
    assert regained(planning, athlete_id, AGAINST_BEFORE).met is Met.UNKNOWN
    measure(book, athlete_id, Sides.LEFT, 179.0)
    found = regained(planning, athlete_id, AGAINST_BEFORE)
    assert found.met is Met.NOT_MET
    assert found.why == "179 N (2026-02-07) of 200 N (2025-11-02), 89.5 %."


# What goes to another person.


def test_a_name_in_a_note_is_found(book: Logbook, planning: Planning) -> None:
    book.people.add(AthleteDetails("INV-7", "Ada Invented"))
    plan = plan_of(asked(), note="As agreed with Ada.")
    assert planning.names_athlete(plan, "INV-7") == "As agreed with Ada."
    assert planning.names_athlete(replace(plan, note="INV-7"), "INV-7") == "INV-7"
    for text in ("Adapted.", "INV-70", "invented"):
        assert planning.names_athlete(replace(plan, note=text), "INV-7") == ""


def test_keys_are_there_once_in_a_plan(planning: Planning, athlete_id: str) -> None:
    twice = plan_of(replace(asked(), key="same"))
    plan = replace(twice, stages=(*twice.stages, *twice.stages))
    stored = planning.plan(planning.save("", athlete_id, plan))
    assert stored is not None
    keys = [stage.prescriptions[0].key for stage in stored.plan.stages]
    assert keys == ["same", "same-2"]


def test_a_file_whose_task_is_a_lowering_here(
    planning: Planning, tmp_path: Path
) -> None:
    """A hold by the name of a task that is a lowering in this logbook."""
    name = "Slow kneeling lowering for the hamstrings"
    path = tmp_path / "plan.json"
    planning.save_file(plan_of(replace(asked(), task=Task(name))), path)
    with pytest.raises(FileError, match="floor and no upper edge") as caught:
        planning.load_file(path)
    assert str(path) in str(caught.value)
    assert caught.value.place.endswith("prescriptions[0].intensity.upper")


def test_weeks_are_counted_by_days_here(book: Logbook) -> None:
    zone = timezone(timedelta(hours=11))
    now = datetime(2026, 2, 15, 1, 0, tzinfo=zone)  # the 14th in UTC
    planning = Planning(book, clock=lambda: now)
    assert planning.day_of(datetime(2026, 1, 31, 14, 0, tzinfo=UTC)) == "2026-02-01"
    assert planning.weeks_since(datetime(2026, 1, 31, 14, 0, tzinfo=UTC)) == 2
    assert planning.weeks_since(datetime(2026, 2, 1, 14, 0, tzinfo=UTC)) == 1
