"""Plans on a real SQLite file, and what is gathered for their criteria."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FieldError, UserError
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.rows import NewSet
from biofeedback.training.criteria import SessionFacts, StageFacts
from biofeedback.training.day import DayReport
from biofeedback.training.example_plans import DAILY, SHOULDER, TENDON
from biofeedback.training.plan import Stage

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


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
        lambda: book.plans.move(key, 0),  # and is in it
        lambda: book.plans.say("none", 0, "x", met=True),
    ):
        with pytest.raises(FieldError, match="there is no"):
            act()


def test_a_stage_put_in_before_moves_nobody(book: Logbook, athlete_id: str) -> None:
    """The stage under way has another number then; that is no move."""
    key = book.plans.add(athlete_id, TENDON)
    book.plans.move(key, 1)
    moved = book.plans.get(key)
    assert moved is not None
    longer = replace(TENDON, stages=(Stage("Before", 0, 1), *TENDON.stages))
    book.plans.change(key, longer, stage=2, read=moved)
    stored = book.plans.get(key)
    assert stored is not None
    assert stored.plan.stages[stored.stage].name == TENDON.stages[1].name
    assert stored.stage_since_utc == moved.stage_since_utc
    assert len(book.plans.moves(key)) == 2


@pytest.mark.parametrize("elsewhere", ["changed", "moved", "archived"])
def test_what_was_changed_elsewhere_is_not_written_over(
    book: Logbook, athlete_id: str, elsewhere: str
) -> None:
    key = book.plans.add(athlete_id, TENDON)
    read = book.plans.get(key)
    assert read is not None
    theirs = replace(TENDON, name="Theirs")
    if elsewhere == "changed":
        book.plans.change(key, theirs, read=read)
    elif elsewhere == "moved":
        book.plans.move(key, 1)
    else:
        book.plans.archive(key)
    there = book.plans.get(key)
    with pytest.raises(UserError, match="changed elsewhere"):
        book.plans.change(key, replace(TENDON, name="Mine"), read=read)
    assert book.plans.get(key) == there


# What was done and said in a stage.


def facts(book: Logbook, key: str, stage: int = 0) -> StageFacts:
    stored = book.plans.get(key)
    assert stored is not None
    return book.plans.facts(stored, stage)


def test_the_newest_word_counts(book: Logbook, athlete_id: str) -> None:
    key = book.plans.add(athlete_id, SHOULDER)
    assert facts(book, key).said == ()
    book.plans.say(key, 0, "early-surgeon", met=True)
    book.plans.say(key, 0, "early-surgeon", met=False)
    assert facts(book, key).said == (("early-surgeon", False),)


def session(
    book: Logbook,
    athlete_id: str,
    plan_id: str,
    *,
    planned: str = "early-outward",
    outcomes: str = "cc",
    pain: tuple[int, ...] = (),
    warm_up: bool = False,
) -> str:
    """A session with one set of the stage; c is complete, s short, v void."""
    session_id = book.begin_session(athlete_id)
    started = book.sessions()[0].started_utc
    set_id = book.begin_set(
        NewSet(
            session_id,
            {},
            {},
            f"{session_id}.force",
            started,
            plan={"id": plan_id, "stage": 0, "key": planned, "warm_up": warm_up},
        )
    )
    for number, outcome in enumerate(outcomes, 1):
        book.add_rep(
            set_id,
            {
                "number": number,
                "outcome": {"c": "complete", "s": "short", "v": "void"}[outcome],
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
    session(book, athlete_id, key, planned="later-outward", outcomes="ss")
    session(book, athlete_id, "another plan", outcomes="ss")
    session(book, athlete_id, key, outcomes="c")
    assert facts(book, key).sessions == (
        SessionFacts(None, 1, 1),
        SessionFacts(3, 3, 2),
    )
    assert facts(book, key, 1) == StageFacts()  # it has not been under way


def test_what_was_done_before_a_step_back_says_nothing(
    book: Logbook, athlete_id: str
) -> None:
    """Three quiet sessions, on, a flare, back: the three are no reason to go on."""
    key = book.plans.add(athlete_id, SHOULDER)
    for _ in range(3):
        session(book, athlete_id, key, pain=(1,))
    book.plans.say(key, 0, "early-surgeon", met=True)
    assert [one.worst_pain for one in facts(book, key).sessions] == [1, 1, 1]
    book.plans.move(key, 1)
    session(book, athlete_id, key, planned="later-outward", pain=(7,))
    assert len(facts(book, key).sessions) == 3  # of the stay that is over
    book.plans.move(key, 0, "a flare")
    assert facts(book, key) == StageFacts()
    session(book, athlete_id, key, pain=(2,))
    assert [one.worst_pain for one in facts(book, key).sessions] == [2]
    assert [one.worst_pain for one in facts(book, key, 1).sessions] == [7]


def test_a_stage_keeps_what_was_done_when_one_is_taken_out_before_it(
    book: Logbook, athlete_id: str
) -> None:
    key = book.plans.add(athlete_id, SHOULDER)
    book.plans.move(key, 1)
    session(book, athlete_id, key, planned="later-inward", outcomes="cs")
    book.plans.change(key, replace(SHOULDER, stages=SHOULDER.stages[1:]), stage=0)
    stored = book.plans.get(key)
    assert stored is not None
    assert stored.stage == 0
    assert book.plans.facts(stored, 0).sessions == (SessionFacts(None, 2, 1),)


def test_a_void_rep_does_not_count(book: Logbook, athlete_id: str) -> None:
    key = book.plans.add(athlete_id, SHOULDER)
    session(book, athlete_id, key, outcomes="csv")
    short = next(rep for rep in book.reps() if rep.outcome == "short")
    assert facts(book, key).sessions == (SessionFacts(None, 2, 1),)
    book.void_rep(short.id, "the strap slipped")
    assert facts(book, key).sessions == (SessionFacts(None, 1, 1),)


def test_the_night_and_the_morning_after_belong_to_the_session_before(
    book: Logbook, athlete_id: str
) -> None:
    key = book.plans.add(athlete_id, SHOULDER)
    first = session(book, athlete_id, key, pain=(2,))
    early = book.sessions()[0].started_utc - timedelta(minutes=5)  # before its set
    book.days.report(athlete_id, DayReport(3), session_id=first, at_utc=early)
    assert facts(book, key).sessions[0].worst_pain == 3
    second = book.begin_session(athlete_id)
    later = book.sessions()[0].started_utc + timedelta(days=2)
    book.days.report(
        athlete_id,
        DayReport(0, pain_night=1, pain_morning=6),
        session_id=second,
        at_utc=later,
    )
    assert facts(book, key).sessions[0].worst_pain == 6


def test_a_plan_can_have_begun_earlier(book: Logbook, athlete_id: str) -> None:
    began = datetime(2026, 1, 12, 9, 0, tzinfo=UTC)
    key = book.plans.add(athlete_id, TENDON, at_utc=began)
    book.plans.move(key, 1, at_utc=began + timedelta(weeks=2))
    stored = book.plans.get(key)
    assert stored is not None
    assert stored.begun_utc == began
    assert stored.stage_since_utc == began + timedelta(weeks=2)


def test_a_warm_up_is_none_of_what_is_asked_for(book: Logbook, athlete_id: str) -> None:
    key = book.plans.add(athlete_id, SHOULDER)
    session(book, athlete_id, key, outcomes="ss")
    session(book, athlete_id, key, outcomes="cc", warm_up=True)
    assert facts(book, key).sessions == (SessionFacts(None, 2, 0),)
