"""The roster on a real logbook: saved whole or not at all, and put back."""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FieldError, FileError
from biofeedback.logbook.database import Logbook
from biofeedback.session.roster import Roster
from biofeedback.training.athlete import AthleteDetails, BodyMass

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

NEW = AthleteDetails("INV-1", "Invented One")


@pytest.fixture
def roster(tmp_path: Path) -> Iterator[Roster]:
    with Logbook.open(tmp_path / "logbook.db") as book:
        yield Roster(book)


def test_an_athlete_is_saved_with_the_mass_that_was_typed(roster: Roster) -> None:
    person = roster.save_athlete("", NEW, BodyMass(70.5, "2026-01-31"))
    assert person.mass == BodyMass(70.5, "2026-01-31")
    again = roster.save_athlete(person.id, replace(NEW, notes="x"), person.mass)
    assert again.details.notes == "x"
    assert roster.by_code("INV-1") == again
    assert len(roster._logbook.people.masses(person.id)) == 1  # entered once


def test_a_mass_with_a_bad_date_keeps_the_athlete_from_being_saved_half(
    roster: Roster,
) -> None:
    with pytest.raises(FieldError, match="mass_date"):
        roster.save_athlete("", NEW, BodyMass(70, "yesterday"))
    assert roster.athletes() == ()


def test_another_of_the_same_name_is_told(roster: Roster) -> None:
    first = roster.save_athlete("", NEW, None)
    other = AthleteDetails("INV-2", "invented ONE")
    assert roster.same_name(other, but="") == (first,)
    assert roster.same_name(NEW, but=first.id) == ()


def test_what_was_archived_last_is_put_back_first_and_each_page_has_its_own(
    roster: Roster,
) -> None:
    one = roster.save_athlete("", NEW, None)
    two = roster.save_athlete("", AthleteDetails("INV-2"), None)
    task = roster.tasks()[0].task
    roster.archive_athlete(one)
    roster.archive_athlete(two)
    roster.archive_task(task)
    assert len(roster.tasks()) == 4
    athletes, tasks = roster.athletes_put_away, roster.tasks_put_away
    assert (athletes.last, tasks.last) == ("INV-2", task.name)
    assert [athletes.undo(), athletes.undo(), athletes.undo()] == ["INV-2", "INV-1", ""]
    assert [p.details.code for p in roster.athletes()] == ["INV-1", "INV-2"]
    assert len(roster.tasks()) == 4
    assert (tasks.undo(), tasks.last) == (task.name, "")
    assert len(roster.tasks()) == 5


def test_a_name_that_was_taken_meanwhile_is_told_on_undo(roster: Roster) -> None:
    first, second, *_ = [stored.task for stored in roster.tasks()]
    roster.archive_task(first)
    roster.archive_task(second)
    roster.save_task(replace(second, key=""))
    with pytest.raises(FieldError, match="is in the list already"):
        roster.tasks_put_away.undo()
    # It stays archived, and does not stand in the way of the one before it.
    assert roster.tasks_put_away.undo() == first.name


def test_what_could_not_be_put_back_can_be_tried_again(
    roster: Roster, tmp_path: Path
) -> None:
    person = roster.save_athlete("", NEW, None)
    roster.archive_athlete(person)
    hurried = Roster(roster._logbook.hurried(0.01))
    put_away = hurried.athletes_put_away
    put_away.add("INV-1", lambda: hurried.restore_athlete(person))
    with sqlite3.connect(tmp_path / "logbook.db", isolation_level=None) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(FileError, match="busy"):
            put_away.undo()
        other.execute("ROLLBACK")
    assert put_away.undo() == "INV-1"
    assert roster.athletes() == (person,)


def test_a_lowering_is_offered_the_other_tasks(roster: Roster) -> None:
    names = roster.pair_names(but="PRONE knee flexion")
    assert len(names) == 3  # neither itself nor another lowering
    assert "Prone knee flexion" not in names
