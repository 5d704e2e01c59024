"""Athletes and body masses on a real SQLite file. All people are invented."""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FieldError
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.rows import NewSet
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

ANNA = AthleteDetails(
    "AB-7",
    "Ánna Bergström",
    birth_year=1998,
    dominant=Sides.RIGHT,
    injured=Sides.LEFT,
    notes="prefers mornings",
    consent="signed, invented",
)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


def test_what_is_entered_comes_back(book: Logbook) -> None:
    key = book.people.add(ANNA)
    person = book.people.get(key)
    assert person is not None
    assert person.details == ANNA
    assert (person.mass, person.last_visit_utc, person.archived_utc) == (None,) * 3
    assert book.people.by_code("AB-7") == person
    assert book.people.by_code("AB-8") is None


@pytest.mark.parametrize("code", ["", "  ", "A_1", "Ä1", "-1", "a" * 33, "a/b"])
def test_a_code_that_cannot_stand_in_a_file_name_is_refused(
    book: Logbook, code: str
) -> None:
    with pytest.raises(FieldError, match=r"^athlete\.code"):
        book.people.add(AthleteDetails(code))
    assert book.people.search() == ()


def test_two_of_one_code_are_refused_and_two_of_one_name_are_told(
    book: Logbook,
) -> None:
    book.people.add(ANNA)
    with pytest.raises(FieldError, match="AB-7 is in use already"):
        book.people.add(replace(ANNA, name="Another"))
    other = book.people.add(AthleteDetails("AB-8", "anna BERGSTROM"))
    assert {
        person.details.code for person in book.people.of_name("Anna Bergström")
    } == {
        "AB-7",
        "AB-8",
    }
    assert book.people.of_name("  ") == ()
    with pytest.raises(FieldError, match="AB-7 is in use already"):
        book.people.change(other, replace(ANNA, name="x"))
    person = book.people.get(other)
    assert person is not None
    assert person.details.name == "anna BERGSTROM"  # nothing was changed half


@pytest.mark.parametrize(
    ("words", "codes"),
    [
        ("", ["AB-7", "CD-1", "CD-2"]),
        ("ann", ["AB-7", "CD-1"]),
        ("BERG anna", ["AB-7"]),
        ("cd", ["CD-1", "CD-2"]),
        ("ann cd", ["CD-1"]),
        ("zz", []),
    ],
)
def test_search_by_words_of_code_or_name(
    book: Logbook, words: str, codes: list[str]
) -> None:
    book.people.add(AthleteDetails("CD-2", "Ölaf Invented"))
    book.people.add(AthleteDetails("CD-1", "Joanne"))
    book.people.add(ANNA)
    assert [person.details.code for person in book.people.search(words)] == codes


def test_the_list_can_be_cut_short(book: Logbook) -> None:
    for number in range(5):
        book.people.add(AthleteDetails(f"N-{number}"))
    assert len(book.people.search(limit=3)) == 3


def test_who_is_archived_is_found_there_and_comes_back(book: Logbook) -> None:
    key = book.people.add(ANNA)
    book.people.archive(key)
    assert book.people.search("anna") == ()
    (gone,) = book.people.search("anna", archived=True)
    assert gone.details == ANNA
    assert book.people.of_name(ANNA.name) == (gone,)
    book.people.restore(key)
    assert [person.id for person in book.people.search("anna")] == [key]


def test_the_last_visit_is_of_the_newest_session(book: Logbook) -> None:
    key = book.people.add(ANNA)
    book.begin_session(key)
    session_id = book.begin_session(key)
    newest = next(one for one in book.sessions() if one.id == session_id)
    (person,) = book.people.search()
    assert person.last_visit_utc == newest.started_utc
    assert person.last_visit_utc is not None
    assert person.last_visit_utc.tzinfo is not None


def test_a_code_stays_once_recordings_stand_under_it(book: Logbook) -> None:
    key = book.people.add(ANNA)
    book.people.change(key, replace(ANNA, code="AB-9"))  # not yet
    session_id = book.begin_session(key)
    started = book.sessions()[0].started_utc
    book.begin_set(NewSet(session_id, {}, {}, "one.force", started))
    with pytest.raises(FieldError, match="must stay AB-9: recordings were made"):
        book.people.change(key, ANNA)
    book.people.change(key, replace(ANNA, code="AB-9", name="New Name"))
    person = book.people.get(key)
    assert person is not None
    assert person.details.name == "New Name"


def test_an_athlete_who_is_not_there_cannot_be_changed(book: Logbook) -> None:
    with pytest.raises(FieldError, match="there is no athlete"):
        book.people.change("nobody", ANNA)
    with pytest.raises(FieldError, match="there is no athlete"):
        book.people.add_mass("nobody", BodyMass(70, "2026-01-31"))


def test_body_masses_are_kept_with_their_days(book: Logbook) -> None:
    key = book.people.add(ANNA)
    for mass in (
        BodyMass(62.5, "2026-01-10"),
        BodyMass(61.0, "2025-11-02"),
        BodyMass(63.2, "2026-02-01"),
        BodyMass(63.4, "2026-02-01"),  # weighed again: the later one counts
    ):
        book.people.add_mass(key, mass)
    (person,) = book.people.search()
    assert person.mass == BodyMass(63.4, "2026-02-01")
    assert book.people.mass(key, on="2026-01-31") == BodyMass(62.5, "2026-01-10")
    assert book.people.mass(key, on="2025-01-01") is None
    assert len(book.people.masses(key)) == 4
    with pytest.raises(FieldError, match=r"mass_date.*no date"):
        book.people.add_mass(key, BodyMass(60, "31.1.2026"))


@pytest.mark.parametrize("mass_kg", [0, 9.9, 351, float("nan")])
def test_nobody_weighs_that(mass_kg: float) -> None:
    with pytest.raises(FieldError, match="mass_kg"):
        BodyMass(mass_kg, "2026-01-31")


@pytest.mark.parametrize("change", [{"birth_year": 98}, {"notes": "x" * 2001}])
def test_details_that_do_not_fit_are_refused(change: dict[str, object]) -> None:
    with pytest.raises(FieldError, match=next(iter(change))):
        replace(ANNA, **change)  # type: ignore[arg-type]  # by name


def test_names_stand_in_one_table(book: Logbook) -> None:
    key = book.people.add(ANNA)
    session_id = book.begin_session(key)
    book.begin_set(
        NewSet(session_id, {}, {}, "one.force", book.sessions()[0].started_utc)
    )
    raw = sqlite3.connect(book.place)
    names = [name for (name,) in raw.execute("SELECT name FROM sqlite_master")]
    found = {
        table
        for table in names
        if not table.startswith(("ix_", "uq_", "sqlite_", "pk_"))
        and any(
            "Bergström" in str(row)
            for row in raw.execute(f"SELECT * FROM {table}")  # noqa: S608  our tables
        )
    }
    raw.close()
    assert found == {"athletes"}
