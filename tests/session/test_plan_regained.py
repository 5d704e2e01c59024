"""A force regained, from tests kept in a real logbook: met, not met, cannot tell."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, Any

import pytest

from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.session.planning import Planning
from biofeedback.training.athlete import AthleteDetails
from biofeedback.training.criteria import Against, Judged, Met, Regained
from biofeedback.training.plan import Plan, Stage
from biofeedback.training.reference import PAINFUL_FROM, Definition, Origin
from biofeedback.training.task import Sides, Task

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

CALF = Task("Seated calf")
NOW = datetime(2026, 2, 10, 9, 0, tzinfo=UTC)
LEFT, RIGHT = Sides.LEFT, Sides.RIGHT
OTHER, BEFORE = Against.OTHER_SIDE, Against.BEFORE_INJURY


class Course:
    """An invented athlete whose left side is injured."""

    def __init__(self, book: Logbook) -> None:
        self.book = book
        self.athlete_id = book.people.add(AthleteDetails("INV-1", injured=LEFT))
        self.planning = Planning(book, clock=lambda: NOW)

    def test(self, side: Sides, mean_n: float, days: int = 3, **more: Any) -> None:
        chosen = more.pop("chosen", Definition.BEST_1_S_MEAN)
        values = {"one_s_n": mean_n, "peak_n": 1.5 * mean_n, **more}
        self.book.maxima.add(
            NewMaximalTest(
                self.athlete_id,
                CALF.on_side(side),
                NOW - timedelta(days=days),
                chosen,
                values["peak_n"] if chosen is Definition.PEAK else mean_n,
                3,
                **values,
            )
        )

    def judged(self, against: Against) -> Judged:
        criterion = Regained(90, against, CALF.name, "r")
        plan = Plan("Mine", (Stage("First", criteria=(criterion,)),))
        stored = self.planning.plan(self.planning.save("", self.athlete_id, plan))
        assert stored is not None
        (judged,) = self.planning.judged(stored, 0)
        return judged


@pytest.fixture
def course(tmp_path: Path) -> Iterator[Course]:
    with Logbook.open(tmp_path / "logbook.db") as book:
        yield Course(book)


@pytest.mark.parametrize("against", [OTHER, BEFORE], ids=lambda one: one.name)
@pytest.mark.parametrize(
    ("own_n", "met", "pct"), [(179.9, Met.NOT_MET, 89.9), (180.0, Met.MET, 90)]
)
def test_90_percent_of_200_n_are_180_n(
    course: Course, against: Against, own_n: float, met: Met, pct: float
) -> None:
    if against is OTHER:
        course.test(RIGHT, 200.0)
    else:
        course.book.maxima.add_stated(
            course.athlete_id,
            CALF.on_side(LEFT),
            200.0,
            origin=Origin.BEFORE_INJURY,
            on_date="2025-11-02",
        )
    course.test(LEFT, own_n)
    found = course.judged(against)
    assert found.met is met
    assert f", {pct} %." in found.why


@pytest.mark.parametrize("kept", [Definition.PEAK, Definition.BEST_1_S_MEAN])
def test_a_mean_is_never_held_against_a_peak(course: Course, kept: Definition) -> None:
    """Means 180 N of 240 N, peaks 270 N of 360 N: 75 % by either."""
    course.test(RIGHT, 240.0, chosen=kept)
    course.test(LEFT, 180.0)
    found = course.judged(OTHER)
    assert found.met is Met.NOT_MET
    assert found.why.endswith(", 75 %.")


@pytest.mark.parametrize("why", [{"practice": True}, {"pain": PAINFUL_FROM}])
def test_a_weak_test_of_the_other_side_makes_nothing_met(
    course: Course, why: dict[str, Any]
) -> None:
    """180 N are 90 % of the 200 N that practice or pain left, and 75 % of 240 N."""
    course.test(RIGHT, 200.0, days=2, **why)
    course.test(LEFT, 180.0)
    assert course.judged(OTHER).met is Met.UNKNOWN
    course.test(RIGHT, 240.0, days=9)
    assert course.judged(OTHER).why.endswith(", 75 %.")


def test_where_the_latest_of_the_injured_side_hurt_nothing_can_be_told(
    course: Course,
) -> None:
    course.test(RIGHT, 200.0)
    course.test(LEFT, 190.0, days=9)
    assert course.judged(OTHER).met is Met.MET
    course.test(LEFT, 195.0, days=1, pain=PAINFUL_FROM)
    assert course.judged(OTHER).met is Met.UNKNOWN
    course.test(LEFT, 185.0, days=0, pain=PAINFUL_FROM - 1)
    assert course.judged(OTHER).met is Met.MET


def test_practice_of_the_injured_side_is_passed_over(course: Course) -> None:
    course.test(RIGHT, 200.0)
    course.test(LEFT, 150.0, days=9)
    course.test(LEFT, 199.0, days=1, practice=True)
    assert course.judged(OTHER).why.endswith(", 75 %.")
