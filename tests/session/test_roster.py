"""The roster on a real logbook: saved whole or not at all, and put back."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FieldError
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


def test_undo_puts_back_what_was_archived_last(roster: Roster) -> None:
    person = roster.save_athlete("", NEW, None)
    task = roster.tasks()[0].task
    roster.archive_athlete(person)
    roster.archive_task(task)
    assert len(roster.tasks()) == 4
    assert roster.undoable == task.name
    assert roster.undo() == task.name
    assert roster.undo() == "INV-1"
    assert (roster.undo(), roster.undoable) == ("", "")
    assert len(roster.tasks()) == 5
    assert [p.id for p in roster.athletes()] == [person.id]


def test_a_name_that_was_taken_meanwhile_is_told_on_undo(roster: Roster) -> None:
    task = roster.tasks()[0].task
    roster.archive_task(task)
    roster.save_task(replace(task, key=""))
    with pytest.raises(FieldError, match="is in the list already"):
        roster.undo()


def test_a_lowering_is_offered_the_other_tasks(roster: Roster) -> None:
    names = roster.pair_names(but="PRONE knee flexion")
    assert len(names) == 4
    assert "Prone knee flexion" not in names
