"""The demo's logbook: filled once, invented, and never in the place of real data."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
import sqlalchemy as sa

from biofeedback.logbook import schema
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.history import Period
from biofeedback.logbook.plan_rows import StoredPlan
from biofeedback.session import demo, demo_content
from biofeedback.session.office import Office
from biofeedback.session.recovery import recover
from biofeedback.session.review import Library
from biofeedback.session.today import Today
from biofeedback.training.day import PainRule
from biofeedback.training.reference_words import before_start

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

NOW = datetime(2026, 11, 26, 12, 0, tzinfo=UTC)


@pytest.fixture
def logbook(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


def counts(logbook: Logbook) -> dict[str, int]:
    """How many rows each table has."""
    with logbook._read() as connection:
        return {
            table.name: connection.scalar(sa.select(sa.func.count()).select_from(table))
            or 0
            for table in schema.metadata.sorted_tables
        }


def test_filling_twice_is_filling_once(logbook: Logbook, tmp_path: Path) -> None:
    assert demo_content.fill(logbook, tmp_path / "recordings", now=NOW)
    once = counts(logbook)
    assert not demo_content.fill(logbook, tmp_path / "recordings", now=NOW)
    assert counts(logbook) == once
    for name in (
        "athletes",
        "body_masses",
        "tasks",
        "maximal_tests",
        "day_reports",
        "plans",
    ):
        assert once[name] > 1, name
    assert once["reps"] > 1


def test_an_older_filling_is_completed_and_doubles_nothing(
    logbook: Logbook, tmp_path: Path
) -> None:
    demo_content.fill(logbook, tmp_path / "recordings", now=NOW)
    once = counts(logbook)
    logbook.settings.put(demo_content.SETTING, 0)  # also: cut off half way
    assert demo_content.fill(logbook, tmp_path / "recordings", now=NOW)
    assert counts(logbook) == once


def test_a_logbook_with_anybody_in_it_is_left_alone(
    logbook: Logbook, tmp_path: Path
) -> None:
    logbook.add_athlete("A-1")
    before = counts(logbook)
    assert not demo_content.fill(logbook, tmp_path / "recordings", now=NOW)
    assert counts(logbook) == before
    assert not (tmp_path / "recordings").exists()


def test_everybody_is_marked_as_invented(logbook: Logbook, tmp_path: Path) -> None:
    demo_content.fill(logbook, tmp_path, now=NOW)
    for person in logbook.people.search():
        assert person.details.code.startswith("DEMO-")
        assert "nvented" in person.details.name
        assert "Invented" in person.details.notes


def test_no_page_of_the_demo_is_empty(logbook: Logbook, tmp_path: Path) -> None:
    demo_content.fill(logbook, tmp_path, now=NOW)
    asked = demo_content.prescription(logbook)
    assert asked.reference is not None
    assert before_start(asked, today=NOW.date()) == ()
    today = Today(logbook, clock=lambda: NOW)
    for code in ("DEMO-1", "DEMO-3", "DEMO-6"):
        day = today.for_athlete(code)
        assert day.plan is not None
        assert [one.problem for one in day.sets] == [""]
        assert [one.cautions for one in day.sets] == [()]
    athlete = logbook.athlete_by_code("DEMO-3")
    assert athlete is not None
    assert len(logbook.maxima.stated(athlete.id, demo_content.SHOULDER.name)) == 1
    library = Library(logbook, tmp_path)
    for rep in library.reps():
        assert library.trace(rep).force_n.size > 0


@pytest.mark.parametrize("single_cell", [False, True])
def test_the_first_set_is_of_the_plan_and_nothing_speaks_against_it(
    logbook: Logbook, tmp_path: Path, *, single_cell: bool
) -> None:
    demo_content.fill(logbook, tmp_path, now=NOW)
    office = Office(logbook=logbook, today=Today(logbook, clock=lambda: NOW))
    offer = office.offer(demo.ATHLETE_CODE, single_cell=single_cell)
    assert offer is not None
    asked = offer.asked
    assert offer.chosen is not None
    assert offer.pain_asked, "today's questions are answered"
    if not single_cell:
        assert asked == demo_content.prescription(logbook), "what it always asked for"
    office.recall_pain(demo.ATHLETE_CODE, NOW, whole_day=True)
    assert office.pain.against() == ()
    assert office.against_start(demo.ATHLETE_CODE, asked) == ()
    against = office.against_plan(demo.ATHLETE_CODE, asked, single_cell=single_cell)
    assert against == ()


def test_a_day_with_pain_above_the_cut_lies_before_the_plan(
    logbook: Logbook, tmp_path: Path
) -> None:
    demo_content.fill(logbook, tmp_path, now=NOW)
    athlete = logbook.athlete_by_code(demo.ATHLETE_CODE)
    assert athlete is not None
    months = Period(NOW - timedelta(days=200), NOW + timedelta(days=1))
    told = logbook.history.pain(athlete.id, months)
    cut = PainRule().high
    bad = [one.reported_utc for one in told if (one.now or 0) > cut]
    plan = logbook.plans.followed(athlete.id)
    assert isinstance(plan, StoredPlan)
    assert bad
    assert max(bad) < plan.begun_utc


def test_the_library_gives_the_reps_of_one_athlete(
    logbook: Logbook, tmp_path: Path
) -> None:
    demo_content.fill(logbook, tmp_path, now=NOW)
    library = Library(logbook, tmp_path)
    everybody = {rep.athlete_code for rep in library.reps()}
    assert len(everybody) > 1
    for code in everybody:
        # The page asks for few: those of others must not take their places.
        found = library.reps(athlete_code=code, limit=1)
        assert [rep.athlete_code for rep in found] == [code]


def test_the_recordings_of_the_demo_were_not_cut_off(
    logbook: Logbook, tmp_path: Path
) -> None:
    demo_content.fill(logbook, tmp_path, now=NOW)
    assert recover(tmp_path, logbook) == []


def test_without_content_the_demo_asks_for_what_it_always_did(
    logbook: Logbook,
) -> None:
    assert demo_content.prescription(logbook) is demo.PRESCRIPTION


def test_tests_lie_in_the_past(logbook: Logbook, tmp_path: Path) -> None:
    demo_content.fill(logbook, tmp_path, now=NOW)
    for person in logbook.people.search():
        for task in logbook.tasks.search():
            for test in logbook.maxima.tests(person.id, task.task):
                assert date(2026, 4, 1) <= test.tested_utc.date() < NOW.date()
