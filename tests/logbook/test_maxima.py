"""Maximal tests and stated forces on real SQLite files. All people are invented."""

from __future__ import annotations

import time
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, Any

import pytest

from biofeedback.errors import FieldError
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima import SET_ID, NewMaximalTest
from biofeedback.logbook.rows import NewSet
from biofeedback.training.maximal import MaximalPlan
from biofeedback.training.reference import Definition, Origin
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

FIRST_DAY = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
SETUP = Setup(Joint.HIP, "abduction", angle_deg=0.0, site="5 cm above the ankle")
HIP = Task("Hip abduction", TaskKind.MAXIMAL, Sides.LEFT, SETUP, key="task-hip")


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def athlete(book: Logbook) -> str:
    return book.add_athlete("INV-1")


def a_score(
    athlete_id: str,
    force_n: float,
    *,
    day: int = 0,
    task: Task = HIP,
    set_id: str = "",
    **more: Any,
) -> NewMaximalTest:
    usual = NewMaximalTest(
        athlete_id=athlete_id,
        task=task,
        tested_utc=FIRST_DAY + timedelta(days=day),
        definition=Definition.BEST_1_S_MEAN,
        force_n=force_n,
        trials=3,
        differ_pct=2.0,
        pain=1,
        zero_kind="limb resting",
        content={SET_ID: set_id, "trials": [{"number": 1}]},
    )
    return replace(usual, **more)


def test_a_test_comes_back_as_it_was_kept(book: Logbook, athlete: str) -> None:
    key = book.maxima.add(a_score(athlete, 251.0, peak_n=260.0))
    (row,) = book.maxima.tests(athlete, HIP, Sides.LEFT)
    assert row == book.maxima.test(key)
    assert (row.force_n, row.peak_n, row.half_s_n) == (251.0, 260.0, None)
    assert row.sides is Sides.LEFT
    assert row.tested_utc == FIRST_DAY
    assert row.content["trials"] == [{"number": 1}]
    reference = row.reference()
    assert (reference.force_n, reference.origin) == (251.0, Origin.OWN_SIDE)
    assert (reference.date, reference.pain) == ("2026-03-02", 1)
    assert reference.setup == SETUP
    assert reference.source == key
    assert row.force_by(Definition.PEAK) == 260.0
    assert row.force_by(Definition.BEST_HALF_S_MEAN) is None


def test_tests_are_listed_newest_first_by_task_side_and_time(
    book: Logbook, athlete: str
) -> None:
    other = book.add_athlete("INV-2")
    knee = Task("Knee", TaskKind.MAXIMAL, Sides.LEFT, key="task-knee")
    for force_n, day, task in (
        (200.0, 0, HIP),
        (210.0, 7, HIP),
        (300.0, 8, HIP.on_side(Sides.RIGHT)),
        (400.0, 9, knee),
    ):
        book.maxima.add(a_score(athlete, force_n, day=day, task=task))
    book.maxima.add(a_score(other, 999.0))

    def forces(
        task: Task | str, sides: Sides | None = None, since: datetime | None = None
    ) -> list[float]:
        rows = book.maxima.tests(athlete, task, sides, since=since)
        return [row.force_n for row in rows]

    assert forces(HIP, Sides.LEFT) == [210.0, 200.0]
    assert forces(HIP) == [300.0, 210.0, 200.0]
    assert forces(HIP, Sides.LEFT, FIRST_DAY + timedelta(days=1)) == [210.0]
    assert forces("task-knee") == forces("Knee") == [400.0]


def test_a_task_that_has_a_key_now_finds_its_tests_from_before(
    book: Logbook, athlete: str
) -> None:
    nameless = Task(HIP.name, TaskKind.MAXIMAL, Sides.LEFT)
    book.maxima.add(a_score(athlete, 200.0, task=nameless))
    assert len(book.maxima.tests(athlete, HIP)) == 1
    # A task of the same name with another key is another task.
    twin = Task(HIP.name, TaskKind.MAXIMAL, Sides.LEFT, key="task-twin")
    book.maxima.add(a_score(athlete, 150.0, day=1, task=twin))
    assert [row.force_n for row in book.maxima.tests(athlete, HIP)] == [200.0]


def test_a_voided_test_is_kept_and_counts_for_nothing(
    book: Logbook, athlete: str
) -> None:
    maxima = book.maxima
    weak = maxima.add(a_score(athlete, 200.0))
    strong = maxima.add(a_score(athlete, 290.0, day=1))
    for reason in ("", "  "):
        with pytest.raises(FieldError, match="must say why"):
            maxima.void(strong, reason)
    maxima.void(strong, "strap on the wrong place")
    maxima.void(strong, "another reason")
    assert [row.id for row in maxima.tests(athlete, HIP, Sides.LEFT)] == [weak]
    rows = maxima.tests(athlete, HIP, with_void=True)
    assert [row.void_reason for row in rows] == ["strap on the wrong place", None]
    with pytest.raises(FieldError, match="there is no entry"):
        maxima.void("nobody", "because")


def test_the_first_session_with_a_task_is_practice(book: Logbook, athlete: str) -> None:
    first, second = (book.begin_session(athlete) for _ in range(2))
    ever = book.maxima.first_ever
    assert ever(athlete, HIP, Sides.LEFT, session_id=first)
    book.maxima.add(a_score(athlete, 200.0, session_id=first))
    # Again on the same visit: still nobody who has slept on it.
    assert ever(athlete, HIP, Sides.LEFT, session_id=first)
    assert not ever(athlete, HIP, Sides.LEFT, session_id=second)
    assert not ever(athlete, HIP, Sides.LEFT)
    assert ever(athlete, HIP, Sides.RIGHT, session_id=second)


def test_compared_is_the_best_of_each_visit_by_one_definition(
    book: Logbook, athlete: str
) -> None:
    maxima = book.maxima
    visits = [book.begin_session(athlete) for _ in range(4)]
    for force_n, visit, extra in (
        (180.0, 0, {"practice": True}),
        (200.0, 1, {}),
        (207.0, 1, {}),
        (203.0, 1, {}),  # later in the visit, and less
        (204.0, 2, {"peak_n": 215.0}),
        (212.0, 3, {}),
    ):
        maxima.add(
            a_score(athlete, force_n, day=visit, session_id=visits[visit], **extra)
        )
    voided = maxima.add(a_score(athlete, 300.0, day=2, session_id=visits[2]))
    maxima.void(voided, "rig moved")
    moved = Setup(Joint.HIP, "abduction", angle_deg=20.0)
    elsewhere = Task(HIP.name, HIP.kind, HIP.sides, moved, HIP.key)
    maxima.add(a_score(athlete, 260.0, day=9, task=elsewhere))

    def results(**more: Any) -> tuple[float, ...]:
        return maxima.results(
            athlete,
            HIP,
            Sides.LEFT,
            Definition.BEST_1_S_MEAN,
            setup=SETUP,
            **more,
        )

    assert results() == (207.0, 204.0, 212.0)
    assert results(without=visits[3]) == (207.0, 204.0)
    assert maxima.results(athlete, HIP, Sides.LEFT, Definition.PEAK) == (215.0,)
    # Without a set-up of one's own nothing is known to be from another position.
    anywhere = maxima.results(athlete, HIP, Sides.LEFT, Definition.BEST_1_S_MEAN)
    assert anywhere == (207.0, 204.0, 212.0, 260.0)


def test_the_club_is_everybody_by_athlete(book: Logbook, athlete: str) -> None:
    other, third = (book.add_athlete(code) for code in ("INV-2", "INV-3"))
    for who, force_n, day in (
        (athlete, 200.0, 0),
        (athlete, 205.0, 7),
        (other, 310.0, 0),
        (other, 300.0, 9),
    ):
        book.maxima.add(a_score(who, force_n, day=day))
    book.maxima.add(a_score(third, 100.0, practice=True))
    found = book.maxima.club(HIP, Sides.LEFT, Definition.BEST_1_S_MEAN)
    assert found == {athlete: (200.0, 205.0), other: (310.0, 300.0)}


def test_stated_forces_carry_their_own_date(book: Logbook, athlete: str) -> None:
    maxima = book.maxima
    old = maxima.add_stated(
        athlete,
        HIP,
        310.0,
        origin=Origin.BEFORE_INJURY,
        on_date="2025-08-01",
        definition=Definition.PEAK,
        note=" pre-season test ",
    )
    new = maxima.add_stated(
        athlete, HIP, 280.0, origin=Origin.TYPED, on_date="2026-01-05"
    )
    rows = maxima.stated(athlete, HIP, Sides.LEFT)
    assert [row.id for row in rows] == [new, old]
    (before,) = maxima.stated(athlete, HIP, origin=Origin.BEFORE_INJURY)
    assert before.note == "pre-season test"
    reference = before.reference()
    assert reference.origin is Origin.BEFORE_INJURY
    assert (reference.date, reference.source) == ("2025-08-01", old)
    maxima.void_stated(old, "another rig")
    assert [row.id for row in maxima.stated(athlete, HIP)] == [new]
    assert maxima.stated(athlete, HIP, with_void=True)[1].void_reason == "another rig"
    assert maxima.stated(athlete, HIP, Sides.RIGHT) == ()


@pytest.mark.parametrize(
    ("force_n", "on_date", "field"),
    [
        (0.0, "2026-01-05", "stated.force_n"),
        (float("nan"), "2026-01-05", "stated.force_n"),
        (200.0, "5 January", "stated.date"),
    ],
)
def test_what_does_not_fit_is_refused(
    book: Logbook, athlete: str, force_n: float, on_date: str, field: str
) -> None:
    with pytest.raises(FieldError, match=field):
        book.maxima.add_stated(
            athlete, HIP, force_n, origin=Origin.TYPED, on_date=on_date
        )
    with pytest.raises(FieldError, match="there is no athlete"):
        book.maxima.add(a_score("nobody", 200.0))


def test_sets_without_a_test_are_found_until_one_is_kept(
    book: Logbook, athlete: str
) -> None:
    session = book.begin_session(athlete)
    asked = MaximalPlan().prescription(HIP).to_json()
    plain = {**asked, "task": Task("Hold").to_json()}

    def a_set(prescription: dict[str, object], *, closed: bool, reps: int) -> str:
        key = book.begin_set(NewSet(session, prescription, {}, "a.force", FIRST_DAY))
        for number in range(1, reps + 1):
            rep = {"number": number, "outcome": "complete", "start_s": 0, "end_s": 4}
            book.add_rep(key, rep)
        if closed:
            book.close_set(key)
        return key

    lost = a_set(asked, closed=True, reps=2)
    a_set(plain, closed=True, reps=2)
    a_set(asked, closed=False, reps=2)  # under way
    a_set(asked, closed=True, reps=0)

    def found(since: datetime = FIRST_DAY) -> tuple[str, ...]:
        return book.maxima.sets_not_kept(athlete, since=since)

    assert found() == (lost,)
    assert found(FIRST_DAY + timedelta(seconds=1)) == ()
    book.maxima.add(a_score(athlete, 200.0, set_id=lost))
    assert found() == ()


def test_a_test_late_in_the_evening_is_of_that_day(
    book: Logbook, athlete: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """At 23:30 on the 3rd in a zone two hours behind UTC it is the 4th there."""
    monkeypatch.setenv("TZ", "XYZ+2")  # POSIX: local time is UTC − 2 h
    time.tzset()
    try:
        late = datetime(2026, 3, 4, 1, 30, tzinfo=UTC)
        key = book.maxima.add(a_score(athlete, 400.0, tested_utc=late))
        row = book.maxima.test(key)
        assert row is not None
        assert row.reference().date == "2026-03-03"
    finally:
        monkeypatch.undo()
        time.tzset()
