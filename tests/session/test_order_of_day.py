"""A running order made of today's sets."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from session.test_today import PLACE, PLANNED, Clinic

from biofeedback.errors import UserError
from biofeedback.logbook.database import Logbook
from biofeedback.session.order_of_day import order_of_day
from biofeedback.training.day import DayReport
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@pytest.fixture
def clinic(tmp_path: Path) -> Iterator[Clinic]:
    with Logbook.open(tmp_path / "logbook.db") as book:
        yield Clinic(book)


def test_sides_take_turns_and_decisions_are_kept(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    clinic.test(200, Sides.RIGHT)
    view = clinic.view()
    left, right = view.sets
    record = order_of_day(clinic.today, view, [left.at(0.5), right], warm_up=True)
    legs = record.order.legs
    assert [(leg.sides.value, leg.warm_up) for leg in legs] == [
        ("left", True), ("right", True), ("left", False), ("right", False),
    ]  # fmt: skip
    assert legs[2].asked == left.at(0.5).asked()
    plan = {"id": PLACE.id, "stage": PLACE.stage, "key": PLANNED.key}
    assert record.contexts == {PLANNED.key: {"plan": plan}}
    kept = clinic.book.days.choices(clinic.athlete_id)
    assert {(one.sides, one.accepted["place"]) for one in kept} == {
        (Sides.LEFT, 0.5),
        (Sides.RIGHT, 0.0),
    }


def test_what_cannot_be_done_is_left_out(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    view = clinic.view()
    record = order_of_day(clinic.today, view, view.sets)
    assert [leg.sides for leg in record.order.legs] == [Sides.LEFT]
    with pytest.raises(UserError, match="None of today's sets"):
        order_of_day(clinic.today, view, view.sets[1:])


def test_against_advice_it_must_be_wanted(clinic: Clinic) -> None:
    clinic.test(240, Sides.LEFT)
    view = clinic.view(DayReport(8))
    with pytest.raises(UserError, match="better stop"):
        order_of_day(clinic.today, view, view.sets)
    order_of_day(clinic.today, view, view.sets, against_advice=True)
    (kept,) = clinic.book.days.choices(clinic.athlete_id)
    assert kept.accepted["against_advice"] is True
