"""Markers moved by hand and voids taken back: nothing that was written ever goes."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
import sqlalchemy as sa

from biofeedback.errors import FieldError
from biofeedback.logbook import rows, schema
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.history import Period
from biofeedback.logbook.rep_changes import placed
from biofeedback.session import demo

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

START = datetime(2026, 5, 4, 9, 0, tzinfo=UTC)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def rep_id(book: Logbook) -> str:
    session_id = book.begin_session(book.add_athlete("INV-1"))
    set_id = book.begin_set(
        rows.NewSet(
            session_id=session_id,
            prescription=demo.PRESCRIPTION.to_json(),
            profile={},
            recording="a.force",
            started_utc=START,
        )
    )
    return book.add_rep(
        set_id, {"number": 1, "outcome": "complete", "start_s": 1.0, "end_s": 9.0}
    )


def count(book: Logbook, table: sa.Table) -> int:
    with book._read() as connection:
        query = sa.select(sa.func.count()).select_from(table)
        return int(connection.scalar(query) or 0)


def move(book: Logbook, rep_id: str, marker: str, before_s: float, to_s: float) -> None:
    book.rep_changes.move(
        rep_id, marker, automatic_s=1.0, before_s=before_s, to_s=to_s, by="KL"
    )


def test_a_move_stands_with_who_when_and_where_it_was(
    book: Logbook, rep_id: str
) -> None:
    move(book, rep_id, "onset", 1.0, 1.25)
    (kept,) = book.rep_changes.moves(rep_id)
    assert (kept.marker, kept.automatic_s, kept.before_s, kept.to_s) == (
        "onset",
        1.0,
        1.0,
        1.25,
    )
    assert kept.moved_by == "KL"
    assert kept.moved_utc.tzinfo is UTC
    assert placed((kept,)) == {"onset": 1.25}


def test_undo_takes_back_one_move_after_the_other_and_keeps_them_all(
    book: Logbook, rep_id: str
) -> None:
    changes = book.rep_changes
    move(book, rep_id, "onset", 1.0, 1.25)
    move(book, rep_id, "entry", 2.0, 2.5)
    move(book, rep_id, "onset", 1.25, 1.5)
    stands = []
    for _ in range(4):
        stands.append(dict(placed(changes.moves(rep_id))))
        changes.undo(rep_id, by="KL")
    assert stands == [
        {"onset": 1.5, "entry": 2.5},
        {"onset": 1.25, "entry": 2.5},
        {"onset": 1.25},
        {},
    ]
    assert changes.undo(rep_id) is None
    assert count(book, schema.marker_moves) == 6
    move(book, rep_id, "onset", 1.0, 1.75)
    assert placed(changes.moves(rep_id)) == {"onset": 1.75}


def test_back_to_automatic_is_a_move_that_can_be_undone(
    book: Logbook, rep_id: str
) -> None:
    changes = book.rep_changes
    move(book, rep_id, "onset", 1.0, 1.25)
    changes.move(rep_id, "onset", automatic_s=1.0, before_s=1.25, to_s=None)
    assert placed(changes.moves(rep_id)) == {}
    changes.undo(rep_id)
    assert placed(changes.moves(rep_id)) == {"onset": 1.25}


def test_a_void_can_be_taken_back_and_said_again(book: Logbook, rep_id: str) -> None:
    changes = book.rep_changes
    with pytest.raises(FieldError, match="not void"):
        changes.withdraw_void(rep_id, "a slip")
    changes.void(rep_id, "strap slipped", by="KL")
    changes.void(rep_id, "said again")
    assert book.reps()[0].void_reason == "strap slipped"
    with pytest.raises(FieldError, match="say why"):
        changes.withdraw_void(rep_id, " ")
    changes.withdraw_void(rep_id, "the wrong rep", by="KL")
    assert book.reps()[0].void_reason is None
    changes.void(rep_id, "this one after all")
    assert book.reps()[0].void_reason == "this one after all"
    assert count(book, schema.voids) == 3
    assert count(book, schema.void_withdrawals) == 2


def test_there_must_be_such_a_rep(book: Logbook) -> None:
    with pytest.raises(FieldError):
        move(book, "nowhere", "onset", 1.0, 2.0)


def test_the_list_tells_the_kind_and_the_most_pain_of_the_set(
    book: Logbook, rep_id: str
) -> None:
    row = book.reps()[0]
    assert (row.id, row.kind, row.sides, row.pain) == (rep_id, "hold", "both", None)
    for level in (2, 10, 3):
        book.session_notes.add(
            row.session_id, "pain", {"level": level}, set_id=row.set_id
        )
    book.session_notes.add(row.session_id, "effort", {"level": 11}, set_id=row.set_id)
    assert book.reps()[0].pain == 10


def test_what_counts_again_counts_in_the_history_too(
    book: Logbook, rep_id: str
) -> None:
    person = book.athlete_by_code("INV-1")
    assert person is not None
    period = Period(START - timedelta(days=1), START + timedelta(days=1))

    def void() -> list[bool]:
        return [rep.void for rep in book.history.reps(person.id, period)]

    assert void() == [False]
    book.rep_changes.void(rep_id, "strap slipped")
    assert void() == [True]
    book.rep_changes.withdraw_void(rep_id, "the wrong rep")
    assert void() == [False]
