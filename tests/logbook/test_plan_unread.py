"""A plan in the logbook that cannot be read: it is named, and the others are there."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FieldError
from biofeedback.logbook.database import Logbook
from biofeedback.session.today import Today
from biofeedback.training.athlete import AthleteDetails
from biofeedback.training.example_plans import DAILY, SHOULDER
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from pathlib import Path

CONTENT = "UPDATE plans SET content=? WHERE id=?"
STAGE = "UPDATE plans SET stage=? WHERE id=?"
WORDS = f"The plan “{DAILY.name}” cannot be read: "


@pytest.mark.parametrize(
    ("change", "value", "problem"),
    [
        (CONTENT, json.dumps({"name": "x"}), "plan.stages: is missing."),
        (CONTENT, json.dumps([1]), "plan: must be an object."),
        (CONTENT, json.dumps(None), "plan: must be an object."),
        (STAGE, 7, "plan.stage: is none of its stages."),
    ],
)
def test_it_is_named_and_the_day_goes_on(
    tmp_path: Path, change: str, value: object, problem: str
) -> None:
    path = tmp_path / "logbook.db"
    with Logbook.open(path) as book:
        athlete_id = book.people.add(AthleteDetails("INV-1", injured=Sides.LEFT))
        older = book.plans.add(athlete_id, SHOULDER)
        newer = book.plans.add(athlete_id, DAILY)
        with closing(sqlite3.connect(path)) as file, file:
            file.execute(change, (value, newer))
        assert [one.id for one in book.plans.of_athlete(athlete_id)] == [older]
        assert [one.words for one in book.plans.unread(athlete_id)] == [WORDS + problem]
        day = Today(book).for_athlete("INV-1")
        assert day.problems == (WORDS + problem,)
        # Nor is the older plan followed without a word.
        assert (day.plan, day.sets) == (None, ())
        with pytest.raises(FieldError, match="cannot be read"):
            book.plans.get(newer)
        book.plans.archive(newer)
        assert Today(book).for_athlete("INV-1").plan is not None
