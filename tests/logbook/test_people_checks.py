"""Codes that differ in capitals only, and all that is wrong with an athlete at once."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FieldError
from biofeedback.logbook.database import Logbook
from biofeedback.training.athlete import AthleteDetails, BodyMass

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

ONE = AthleteDetails("INV-1", "Invented One")


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


def fields(found: tuple[FieldError, ...]) -> list[str]:
    return sorted(error.field for error in found)


def test_a_code_is_one_persons_whatever_its_capitals(book: Logbook) -> None:
    book.people.add(ONE)
    other = book.people.add(AthleteDetails("INV-2"))
    with pytest.raises(FieldError, match="inv-1 is in use already, as INV-1"):
        book.people.add(AthleteDetails("inv-1"))
    with pytest.raises(FieldError, match="Inv-1 is in use already, as INV-1"):
        book.people.change(other, AthleteDetails("Inv-1"))
    with pytest.raises(FieldError, match="inv-2 is in use already, as INV-2"):
        book.add_athlete("inv-2")
    assert len(book.people.search()) == 2


def test_an_athletes_own_code_can_change_its_capitals(book: Logbook) -> None:
    key = book.people.add(ONE)
    book.people.change(key, replace(ONE, code="Inv-1"))
    person = book.people.get(key)
    assert person is not None
    assert person.details.code == "Inv-1"


def test_one_who_came_with_a_recording_can_be_edited(book: Logbook) -> None:
    """A recording is never refused, so two codes may be alike; each stays editable."""
    book.people.add(ONE)
    header = {
        "set_id": "set-1",
        "started_utc": datetime(2026, 1, 31, tzinfo=UTC).isoformat(),
        "athlete_code": "inv-1",
    }
    book.enter_recording(header, "one.force")
    person = book.people.by_code("inv-1")
    assert person is not None
    book.people.change(person.id, replace(person.details, name="Invented Two"))
    assert len(book.people.search("invented")) == 2


def test_an_archived_athlete_of_a_code_so_alike_is_named(book: Logbook) -> None:
    book.people.archive(book.people.add(ONE))
    with pytest.raises(FieldError, match="as INV-1, by an athlete who is archived"):
        book.people.add(AthleteDetails("inv-1"))


def test_all_that_is_wrong_is_found_at_once_and_nothing_is_kept(book: Logbook) -> None:
    book.people.add(ONE)
    wrong = AthleteDetails("inv-1", "x" * 201, birth_year=2099)
    found = book.people.wrong_with("", wrong, mass_date="1.2.26")
    assert fields(found) == [
        "athlete.birth_year",
        "athlete.code",
        "athlete.mass_date",
        "athlete.name",
    ]
    assert fields(book.people.wrong_with("", AthleteDetails("a b"))) == ["athlete.code"]
    assert book.people.wrong_with("", AthleteDetails("INV-2"), mass_date=None) == ()
    assert len(book.people.search()) == 1


@pytest.mark.parametrize(
    ("details", "mass"),
    [
        (AthleteDetails("INV-1"), None),
        (AthleteDetails("a b"), None),
        (AthleteDetails("INV-3", birth_year=2099), None),
        (AthleteDetails("INV-3", "x" * 201), None),
        (AthleteDetails("INV-3"), BodyMass(70, "1.2.26")),
        (AthleteDetails("INV-3"), BodyMass(70, "2026-01-31")),
    ],
)
def test_what_is_found_wrong_is_what_saving_refuses(
    book: Logbook, details: AthleteDetails, mass: BodyMass | None
) -> None:
    book.people.add(ONE)
    date = mass.date if mass else None
    found = book.people.wrong_with("", details, mass_date=date)
    refused = []
    try:
        book.people.add(details, mass)
    except FieldError as error:
        refused = [str(error)]
    assert [str(one) for one in found] == refused


@pytest.mark.parametrize(
    ("year", "words"),
    [
        (1899, "is 1899; it must be 1900 or later"),
        (2150, "2150 is still to come"),
        (10**20, "is still to come"),
    ],
)
def test_a_year_in_which_nobody_was_born_is_told(year: int, words: str) -> None:
    with pytest.raises(FieldError, match=words):
        AthleteDetails("INV-1", birth_year=year)


def test_who_is_gone_is_neither_archived_nor_put_back(book: Logbook) -> None:
    key = book.people.add(ONE)
    with book._write() as connection:
        connection.exec_driver_sql("DELETE FROM athletes")
    for act in (book.people.archive, book.people.restore):
        with pytest.raises(FieldError, match="not in the logbook any more"):
            act(key)
