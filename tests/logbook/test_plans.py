"""Plans on a real SQLite file, and what is gathered for their criteria."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FieldError
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.rows import NewSet
from biofeedback.training.criteria import SessionFacts
from biofeedback.training.day import DayReport
from biofeedback.training.example_plans import DAILY, SHOULDER, TENDON

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

NOON = datetime(2026, 3, 1, 12, 0, tzinfo=UTC)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def athlete_id(book: Logbook) -> str:
    return book.add_athlete("INV-1", "Invented One")


def test_what_is_added_comes_back_at_its_first_stage(
    book: Logbook, athlete_id: str
) -> None:
    key = book.plans.add(athlete_id, SHOULDER)
    (stored,) = book.plans.of_athlete(athlete_id)
    assert (stored.id, stored.plan, stored.stage) == (key, SHOULDER, 0)
    (begun,) = book.plans.moves(key)
    assert (begun.from_stage, begun.to_stage) == (None, 0)
    assert stored.stage_since_utc == begun.at_utc
    assert book.plans.followed(athlete_id) == stored


def test_the_newest_that_is_not_archived_is_followed(
    book: Logbook, athlete_id: str
) -> None:
    first = book.plans.add(athlete_id, SHOULDER)
    second = book.plans.add(athlete_id, TENDON)
    assert [stored.id for stored in book.plans.of_athlete(athlete_id)] == [
        second,
        first,
    ]
    book.plans.archive(second)
    followed = book.plans.followed(athlete_id)
    assert followed is not None
    assert followed.id == first
    (gone,) = book.plans.of_athlete(athlete_id, archived=True)
    assert gone.id == second
    book.plans.restore(second)
    assert len(book.plans.of_athlete(athlete_id)) == 2


def test_a_plan_is_changed_as_a_whole_and_the_stage_stays(
    book: Logbook, athlete_id: str
) -> None:
    key = book.plans.add(athlete_id, TENDON)
    book.plans.move(key, 2, "all is well")
    renamed = replace(TENDON, name="Mine", example=False)
    book.plans.change(key, renamed)
    stored = book.plans.get(key)
    assert stored is not None
    assert (stored.plan, stored.stage) == (renamed, 2)
    book.plans.change(key, replace(renamed, stages=renamed.stages[:1]))
    stored = book.plans.get(key)
    assert stored is not None
    assert stored.stage == 0
    assert [(one.from_stage, one.to_stage) for one in book.plans.moves(key)] == [
        (None, 0), (0, 2), (2, 0),
    ]  # fmt: skip


def test_a_copy_begins_anew_for_another_athlete(book: Logbook, athlete_id: str) -> None:
    other = book.add_athlete("INV-2")
    key = book.plans.add(athlete_id, TENDON)
    book.plans.move(key, 1)
    copy = book.plans.get(book.plans.copy(key, other))
    assert copy is not None
    assert (copy.plan, copy.stage, copy.copied_from) == (TENDON, 0, key)
    assert book.plans.of_athlete(other) == (copy,)


def test_what_is_not_there_is_told(book: Logbook, athlete_id: str) -> None:
    key = book.plans.add(athlete_id, DAILY)
    for act in (
        lambda: book.plans.add("nobody", DAILY),
        lambda: book.plans.change("none", DAILY),
        lambda: book.plans.copy("none", athlete_id),
        lambda: book.plans.move("none", 0),
        lambda: book.plans.move(key, 1),  # it has one stage
        lambda: book.plans.say("none", 0, "x", met=True),
    ):
        with pytest.raises(FieldError, match="there is no"):
            act()


def test_the_newest_word_counts(book: Logbook, athlete_id: str) -> None:
    key = book.plans.add(athlete_id, SHOULDER)
    assert book.plans.said(key, 0) == ()
    book.plans.say(key, 0, "surgeon", met=True)
    book.plans.say(key, 0, "surgeon", met=False)
    book.plans.say(key, 1, "surgeon", met=True)
    assert book.plans.said(key, 0) == (("surgeon", False),)


# What was done in a stage.


def session(
    book: Logbook,
    athlete_id: str,
    plan_id: str,
    *,
    stage: int = 0,
    outcomes: str = "cc",
    pain: tuple[int, ...] = (),
) -> str:
    """A session with one set of the stage; c is a complete rep, s a short one."""
    session_id = book.begin_session(athlete_id)
    started = book.sessions()[0].started_utc
    set_id = book.begin_set(
        NewSet(
            session_id,
            {},
            {},
            f"{session_id}.force",
            started,
            plan={"id": plan_id, "stage": stage, "key": "outward"},
        )
    )
    for number, outcome in enumerate(outcomes, 1):
        book.add_rep(
            set_id,
            {
                "number": number,
                "outcome": "complete" if outcome == "c" else "short",
                "start_s": float(number),
                "end_s": number + 0.5,
            },
        )
    for level in pain:
        book.session_notes.add(session_id, "pain", {"level": level})
    return session_id


def test_reps_of_the_stage_by_session_newest_first(
    book: Logbook, athlete_id: str
) -> None:
    key = book.plans.add(athlete_id, SHOULDER)
    session(book, athlete_id, key, outcomes="ccs", pain=(1, 3))
    session(book, athlete_id, key, stage=1, outcomes="ss")
    session(book, athlete_id, key, outcomes="c")
    assert book.plans.sessions(key, 0) == (
        SessionFacts(None, 1, 1),
        SessionFacts(3, 3, 2),
    )
    assert book.plans.sessions(key, 1) == (SessionFacts(None, 2, 0),)
    assert book.plans.sessions("none", 0) == ()


def test_a_void_rep_does_not_count(book: Logbook, athlete_id: str) -> None:
    key = book.plans.add(athlete_id, SHOULDER)
    session(book, athlete_id, key, outcomes="cs")
    short = next(rep for rep in book.reps() if rep.outcome == "short")
    book.void_rep(short.id, "the strap slipped")
    assert book.plans.sessions(key, 0) == (SessionFacts(None, 1, 1),)


def test_the_night_and_the_morning_after_belong_to_the_session_before(
    book: Logbook, athlete_id: str
) -> None:
    key = book.plans.add(athlete_id, SHOULDER)
    first = session(book, athlete_id, key, pain=(2,))
    book.days.report(athlete_id, DayReport(1), session_id=first)
    second = book.begin_session(athlete_id)
    later = book.sessions()[0].started_utc + timedelta(days=2)
    book.days.report(
        athlete_id,
        DayReport(0, pain_night=1, pain_morning=6),
        session_id=second,
        at_utc=later,
    )
    (facts,) = book.plans.sessions(key, 0)
    assert facts.worst_pain == 6
