"""Pain for a criterion: the morning after counts, and is waited for."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest

from biofeedback.logbook.database import Logbook
from biofeedback.logbook.rows import NewSet
from biofeedback.training.criteria import Met, PainAtMost, StageFacts, judge
from biofeedback.training.day import DayReport
from biofeedback.training.example_plans import SHOULDER

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

DAY = timedelta(days=1)


class Course:
    """Sessions and reports of one athlete in one stage, told by days from now."""

    def __init__(self, book: Logbook, path: Path) -> None:
        self.book = book
        self.path = path
        self.athlete_id = book.add_athlete("INV-1")
        self.now = datetime.now(tz=UTC)
        self.key = book.plans.add(
            self.athlete_id, SHOULDER, at_utc=self.now - timedelta(days=1)
        )

    def session(self, day: float, *pain: int, of_stage: bool = True) -> str:
        at = self.now + day * DAY
        key = self.book.begin_session(self.athlete_id)
        with closing(sqlite3.connect(self.path)) as file, file:
            when = at.strftime("%Y-%m-%d %H:%M:%S.%f")
            file.execute("UPDATE sessions SET started_utc=? WHERE id=?", (when, key))
        plan = {"id": self.key, "stage": 0, "key": "early-outward"}
        if of_stage:
            self.book.begin_set(NewSet(key, {}, {}, f"{key}.force", at, plan=plan))
        for level in pain:
            self.book.session_notes.add(key, "pain", {"level": level})
        return key

    def report(
        self, day: float, *, session: str = "", night: int | None = None,
        morning: int | None = None, now: int = 0,
    ) -> None:  # fmt: skip
        self.book.days.report(
            self.athlete_id,
            DayReport(now, pain_night=night, pain_morning=morning),
            session_id=session,
            at_utc=self.now + day * DAY,
        )

    @property
    def facts(self) -> StageFacts:
        stored = self.book.plans.get(self.key)
        assert stored is not None
        return self.book.plans.facts(stored, 0)

    def met(self, sessions: int = 1, most: int = 2) -> Met:
        return judge(PainAtMost(most, sessions), self.facts).met


@pytest.fixture
def course(tmp_path: Path) -> Iterator[Course]:
    path = tmp_path / "logbook.db"
    with Logbook.open(path) as book:
        yield Course(book, path)


def test_it_cannot_be_told_before_the_morning(course: Course) -> None:
    key = course.session(0, 1)
    course.report(-0.01, session=key, now=1, morning=0)  # of the morning before
    assert course.met() is Met.UNKNOWN
    why = judge(PainAtMost(2, 1), course.facts).why
    assert why == "Pain was told in 0 of 1 session so far, the morning after included."
    course.report(1, morning=1)
    assert course.met() is Met.MET


def test_what_is_too_much_already_is_told_at_once(course: Course) -> None:
    course.session(0, 5)
    assert course.met() is Met.NOT_MET


def test_a_mark_that_was_taken_back_is_not_too_much(course: Course) -> None:
    key = course.session(0, 1, 5)
    assert course.met() is Met.NOT_MET
    course.book.session_notes.add(key, "pain taken back", {"level": 5})
    course.report(1, morning=1)
    assert course.met() is Met.MET


def test_a_worse_morning_in_a_second_report_counts(course: Course) -> None:
    """The first report of the next visit told nothing of night and morning."""
    course.session(0, 1)
    second = course.session(1, of_stage=False)
    course.report(1.0, session=second)
    assert course.met() is Met.UNKNOWN
    course.report(1.01, session=second, night=1, morning=6)
    assert course.met() is Met.NOT_MET


@pytest.mark.parametrize("which", [0, 1, 2])
def test_each_report_before_the_next_session_counts(course: Course, which: int) -> None:
    course.session(0, 1)
    for at in range(3):
        course.report(1 + at / 10, morning=6 if at == which else 0)
    assert course.met() is Met.NOT_MET


def test_the_report_that_opens_the_next_session_tells_of_the_one_before(
    course: Course,
) -> None:
    course.session(0, 1)
    second = course.session(2, 1)
    course.report(2, session=second, morning=1)
    assert course.met(2) is Met.UNKNOWN  # of the newest one
    course.report(3, morning=7)
    newest, before = course.facts.sessions
    assert (newest.worst_pain, before.worst_pain) == (7, 1)
    assert course.met(2) is Met.NOT_MET


def test_a_morning_nobody_told_is_looked_for_later(course: Course) -> None:
    course.session(0, 1)
    second = course.session(2, 1)
    course.report(2, session=second)
    assert course.met(2) is Met.UNKNOWN
    course.report(3, morning=4)
    newest, before = course.facts.sessions
    assert (newest.worst_pain, before.worst_pain) == (4, 4)


def test_what_is_told_in_the_next_session_is_of_the_one_before(course: Course) -> None:
    """Told again once that session had begun, and worse."""
    course.session(0, 1)
    second = course.session(2, 1)
    course.report(1.99, morning=1)
    course.report(2.01, session=second, morning=7)
    newest, before = course.facts.sessions
    assert (newest.worst_pain, newest.morning_known) == (1, False)
    assert (before.worst_pain, before.morning_known) == (7, True)


def test_a_session_does_not_tell_of_its_own_morning_after(course: Course) -> None:
    key = course.session(0, 1)
    course.report(0.01, session=key, now=1, morning=0)
    assert course.met() is Met.UNKNOWN
