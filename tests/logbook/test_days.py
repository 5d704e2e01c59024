"""Reports of days and the decisions on them, on a real SQLite file."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FieldError
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.days import NewChoice
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.rows import NewSet
from biofeedback.training.day import DayReport
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

MONDAY = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
WEDNESDAY = MONDAY + timedelta(days=2)
FRIDAY = MONDAY + timedelta(days=4)
PLAN, KEY, TASK = new_key(), new_key(), new_key()
REP = {"number": 1, "outcome": "complete", "start_s": 1.0, "end_s": 7.0, "lapses": 0}


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


class Visit:
    """One athlete's report, with what is decided and done on it."""

    def __init__(self, book: Logbook, athlete_id: str, at_utc: datetime) -> None:
        self.book, self.athlete_id, self.at_utc = book, athlete_id, at_utc
        self.report_id = book.days.report(athlete_id, DayReport(1), at_utc=at_utc)

    def decide(
        self, place: float, *, sides: Sides = Sides.LEFT, planned: bool = True
    ) -> None:
        self.book.days.choose(
            NewChoice(
                self.report_id,
                sides,
                {"place": 0.0},
                {"place": place},
                plan_id=PLAN if planned else "",
                planned_key=KEY if planned else "",
                task_id=TASK,
            ),
            at_utc=self.at_utc + timedelta(minutes=5),
        )

    def train(
        self,
        *,
        sides: Sides = Sides.LEFT,
        task_id: str = TASK,
        plan: bool = True,
        rep: bool = True,
        after: timedelta = timedelta(minutes=10),
    ) -> None:
        set_id = self.book.begin_set(
            NewSet(
                session_id=self.book.begin_session(self.athlete_id),
                prescription={
                    "task": {"name": "hold", "key": task_id, "sides": sides.value}
                },
                profile={},
                recording=f"{new_key()}.force",
                started_utc=self.at_utc + after,
                plan={"id": PLAN, "stage": 0, "key": KEY} if plan else {},
            )
        )
        if rep:
            self.book.add_rep(set_id, REP)


@pytest.fixture
def athlete_id(book: Logbook) -> str:
    return book.add_athlete("A-1")


@pytest.fixture
def monday(book: Logbook, athlete_id: str) -> Visit:
    return Visit(book, athlete_id, MONDAY)


def last_place(
    book: Logbook,
    athlete_id: str,
    sides: Sides = Sides.LEFT,
    *,
    before: datetime = FRIDAY,
    planned: bool = True,
) -> object:
    found = book.days.last_time(
        athlete_id,
        sides,
        before=before,
        plan_id=PLAN if planned else "",
        planned_key=KEY if planned else "",
        task_id=TASK,
    )
    return found and found.accepted["place"]


def test_a_report_survives_closing(tmp_path: Path) -> None:
    whole = DayReport(2, 3, 1, 7.5, 4)
    with Logbook.open(tmp_path / "logbook.db") as book:
        athlete_id = book.add_athlete("A-1")
        session_id = book.begin_session(athlete_id)
        book.days.report(athlete_id, whole, session_id=session_id, at_utc=MONDAY)
        book.days.report(athlete_id, DayReport(0), at_utc=WEDNESDAY)
    with Logbook.open(tmp_path / "logbook.db") as book:
        latest, first = book.days.reports(athlete_id)
        assert latest.report == DayReport(0)
        assert latest.session_id is None
        assert first.report == whole
        assert (first.session_id, first.reported_utc) == (session_id, MONDAY)
        assert len(book.days.reports(athlete_id, limit=1)) == 1
        assert book.days.reports(book.add_athlete("A-2")) == ()


def test_those_of_a_visit_are_found_however_many_came_after(
    monday: Visit, book: Logbook, athlete_id: str
) -> None:
    days = book.days
    visit = book.begin_session(athlete_id)
    of_visit = days.report(athlete_id, DayReport(2), session_id=visit, at_utc=MONDAY)
    first = days.choose(NewChoice(of_visit, Sides.LEFT, {}, {}), at_utc=MONDAY)
    for _ in range(101):
        monday.decide(0.5)
        days.report(athlete_id, DayReport(0), at_utc=WEDNESDAY)
    assert [one.id for one in days.reports(athlete_id, session_id=visit)] == [of_visit]
    assert [one.id for one in days.choices(athlete_id, session_id=visit)] == [first]
    other = book.add_athlete("A-2")
    assert days.reports(other, session_id=visit) == ()
    assert days.choices(other, session_id=visit) == ()


def test_a_report_is_of_somebody(book: Logbook, athlete_id: str) -> None:
    with pytest.raises(FieldError, match="athlete"):
        book.days.report("nobody", DayReport(0))
    with pytest.raises(FieldError, match="session"):
        book.days.report(athlete_id, DayReport(0), session_id="never")
    with pytest.raises(FieldError, match="report"):
        book.days.choose(NewChoice("none", Sides.LEFT, {}, {}))


def test_a_choice_keeps_what_was_proposed_beside_what_was_accepted(
    monday: Visit, book: Logbook, athlete_id: str
) -> None:
    monday.decide(0.75)
    (kept,) = book.days.choices(athlete_id)
    assert (kept.proposed, kept.accepted) == ({"place": 0.0}, {"place": 0.75})
    assert (kept.plan_id, kept.planned_key, kept.task_id) == (PLAN, KEY, TASK)
    assert kept.sides is Sides.LEFT
    assert kept.report.id == monday.report_id
    assert kept.report.report == DayReport(1)
    assert kept.id != kept.report.id


def test_last_time_is_the_latest_that_was_carried_out(
    monday: Visit, book: Logbook, athlete_id: str
) -> None:
    assert last_place(book, athlete_id) is None
    monday.decide(0.25)
    assert last_place(book, athlete_id) is None  # decided, and nothing done
    monday.train()
    assert last_place(book, athlete_id) == 0.25
    wednesday = Visit(book, athlete_id, WEDNESDAY)
    wednesday.decide(0.5)
    assert last_place(book, athlete_id) == 0.25
    wednesday.train(rep=False)  # begun, and no rep
    assert last_place(book, athlete_id) == 0.25
    wednesday.train()
    assert last_place(book, athlete_id) == 0.5
    assert last_place(book, athlete_id, before=WEDNESDAY) == 0.25  # before today
    assert last_place(book, athlete_id, before=MONDAY) is None


def test_a_set_of_another_visit_does_not_carry_a_choice_out(
    monday: Visit, book: Logbook, athlete_id: str
) -> None:
    monday.decide(0.25)
    monday.train(after=timedelta(hours=13))
    monday.train(after=timedelta(minutes=-30))
    assert last_place(book, athlete_id) is None
    monday.train(after=timedelta(hours=11))
    assert last_place(book, athlete_id) == 0.25


def test_the_sides_have_their_own_last_time(
    monday: Visit, book: Logbook, athlete_id: str
) -> None:
    monday.decide(0.25, sides=Sides.LEFT)
    monday.decide(0.75, sides=Sides.RIGHT)
    monday.train(sides=Sides.RIGHT)
    assert last_place(book, athlete_id, Sides.RIGHT) == 0.75
    assert last_place(book, athlete_id, Sides.LEFT) is None
    assert last_place(book, athlete_id, Sides.BOTH) is None


def test_other_tasks_and_other_people_are_nothing_to_go_by(
    monday: Visit, book: Logbook, athlete_id: str
) -> None:
    monday.decide(0.25)
    monday.train(task_id=new_key(), plan=False)
    monday.train(task_id="", plan=False)  # a set of which no task is known
    assert last_place(book, athlete_id) is None
    other = Visit(book, book.add_athlete("A-2"), MONDAY)
    other.train()
    assert last_place(book, athlete_id) is None
    monday.train(plan=False)  # the same task, started without the plan
    assert last_place(book, athlete_id) == 0.25


def test_a_free_prescription_is_known_by_its_task(
    monday: Visit, book: Logbook, athlete_id: str
) -> None:
    monday.decide(0.5, planned=False)
    monday.train(plan=False)
    assert last_place(book, athlete_id, planned=False) == 0.5
    assert last_place(book, athlete_id) is None  # that of the plan is another one
    unknown = book.days.last_time(athlete_id, Sides.LEFT, before=FRIDAY)
    assert unknown is None


def test_the_last_visit_is_one_with_a_rep(
    monday: Visit, book: Logbook, athlete_id: str
) -> None:
    assert book.days.last_visit(athlete_id, before=FRIDAY) is None
    monday.train(rep=False)
    assert book.days.last_visit(athlete_id, before=FRIDAY) is None
    monday.train()
    Visit(book, athlete_id, WEDNESDAY).train()
    minutes = timedelta(minutes=10)
    assert book.days.last_visit(athlete_id, before=FRIDAY) == WEDNESDAY + minutes
    assert book.days.last_visit(athlete_id, before=WEDNESDAY) == MONDAY + minutes
    assert book.days.last_visit(book.add_athlete("A-2"), before=FRIDAY) is None
