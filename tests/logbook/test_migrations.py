"""Logbooks of earlier programs, opened by this one: nothing is lost on the way.

`logbook-0002.db.gz` was written by the program whose last tables were those of
calibrations, in a session on the simulated rig. The person is invented.
`logbook-0003.db.gz` is the demo's logbook as the last program before changes by hand
filled it, with one rep void; `logbook-0004.db.gz` likewise, with a moved marker and a
void that was taken back, by the last program before the audit told who. All of it is
invented.
"""

from __future__ import annotations

import gzip
import json
import sqlite3
import stat
import threading
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
import sqlalchemy as sa
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from logbook.test_calibrations import as_wide, everything
from logbook.test_database import _same_type

from biofeedback.errors import FileError
from biofeedback.logbook.audit import Action, system_user
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.schema import SCHEMA_REVISION, metadata
from biofeedback.session.review import Library
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.task import Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Callable

KEPT = Path(__file__).parents[2] / "recordings"
OLD = [KEPT / f"logbook-{revision}.db.gz" for revision in ("0001", "0002")]
BEFORE_BY_HAND = KEPT / "logbook-0003.db.gz"
BEFORE_AUDIT = KEPT / "logbook-0004.db.gz"


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return unpacked(OLD[1], tmp_path)


def unpacked(old: Path, folder: Path) -> Path:
    place = folder / "old.db"
    place.write_bytes(gzip.decompress(old.read_bytes()))
    return place


def test_the_logbook_of_calibrations_keeps_every_row_and_value(place: Path) -> None:
    before = everything(place)
    assert before.pop("alembic_version") == [("0002",)]
    filled = {name: len(rows) for name, rows in before.items()}
    assert filled == {
        "athletes": 1,
        "sessions": 1,
        "sets": 1,
        "reps": 2,
        "voids": 1,
        "notes": 2,
        "tasks": 1,
        "audit": 1,
        "calibrations": 1,
        "calibration_points": filled["calibration_points"],
    }
    assert filled["calibration_points"] > 10
    Logbook.open(place).close()
    after = everything(place)
    assert after.pop("alembic_version") == [(SCHEMA_REVISION,)]
    assert {name: as_wide(after[name], before[name]) for name in before} == before
    raw = sqlite3.connect(place)
    assert raw.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert raw.execute("PRAGMA foreign_key_check").fetchall() == []
    raw.close()


def test_what_the_old_logbook_holds_is_read_by_the_program_of_today(
    place: Path, tmp_path: Path
) -> None:
    with Logbook.open(place) as book:
        (person,) = book.people.search()
        assert person.details == AthleteDetails("DEMO-1", person.details.name)
        assert person.details.name
        assert (person.mass, person.archived_utc) == (None, None)
        (visit,) = book.sessions()
        assert person.last_visit_utc == visit.started_utc
        second, first = Library(book, tmp_path).reps(athlete_code="DEMO-1")
        assert (first.number, first.outcome, first.void_reason) == (
            1,
            "complete",
            None,
        )
        assert first.peak_n == 81.82832971215248
        assert (second.number, second.void_reason) == (2, "cable touched")
        (task,) = book.tasks.search()
        assert task.task == Task(
            "Seated calf push (invented)", TaskKind.HOLD, Sides.BOTH, key=task.task.key
        )
        (kept,) = book.calibrations.list("SIM-1")
        assert (kept.label, kept.date, kept.gain) == ("May", "2026-05-04", 128)
        assert len(book.calibrations.readings(kept.id)) == len(
            everything(place)["calibration_points"]
        )


def test_the_old_logbook_takes_all_that_is_new(place: Path) -> None:
    with Logbook.open(place) as book:
        (person,) = book.people.search()
        details = AthleteDetails("DEMO-1", "Another Invented", 1998, injured=Sides.LEFT)
        book.people.change(person.id, details, BodyMass(72.5, "2026-05-04"))
        book.tasks.start()  # it has a task: the starter list is not pushed in
        assert len(book.tasks.search()) == 1
        task = book.tasks.search()[0].task
        book.tasks.archive(task.key)
    with Logbook.open(place) as book:
        again = book.people.by_code("DEMO-1")
        assert again is not None
        assert (again.details, again.mass) == (details, BodyMass(72.5, "2026-05-04"))
        assert book.tasks.search() == ()
        assert len(book.reps(athlete_code="DEMO-1")) == 2


def test_the_logbook_before_changes_by_hand_keeps_all_and_takes_them(
    tmp_path: Path,
) -> None:
    place = unpacked(BEFORE_BY_HAND, tmp_path)
    before = everything(place)
    assert before.pop("alembic_version") == [("0003",)]
    counts = {name: len(before[name]) for name in ("reps", "voids", "maximal_tests")}
    assert counts == {"reps": 6, "voids": 1, "maximal_tests": 14}
    Logbook.open(place).close()
    after = everything(place)
    assert after.pop("alembic_version") == [(SCHEMA_REVISION,)]
    assert {name: as_wide(after[name], before[name]) for name in before} == before
    with Logbook.open(place) as book:
        (void,) = (rep for rep in book.reps() if rep.void_reason is not None)
        assert void.void_reason == "cable touched"
        book.rep_changes.withdraw_void(void.id, "It was another cable.", by="INV")
        book.rep_changes.move(
            void.id, "onset", automatic_s=1.0, before_s=1.0, to_s=1.5, by="INV"
        )
    with Logbook.open(place) as book:
        assert all(rep.void_reason is None for rep in book.reps())
        assert [move.to_s for move in book.rep_changes.moves(void.id)] == [1.5]
    wrong = "SELECT count(*) FROM pragma_foreign_key_check"
    assert asked(place, wrong) == (0,)


def test_the_logbook_before_the_audit_keeps_every_row(tmp_path: Path) -> None:
    place = unpacked(BEFORE_AUDIT, tmp_path)
    before = everything(place)
    assert before.pop("alembic_version") == [("0004",)]
    counts = {name: len(before[name]) for name in ("marker_moves", "void_withdrawals")}
    assert counts == {"marker_moves": 1, "void_withdrawals": 1}
    with Logbook.open(place) as book:
        book.audit.add(Action.OPENED, code="DEMO-3")
        (row,) = book.audit.list()
    assert (row.action, row.code, row.by_user) == ("opened", "DEMO-3", system_user())
    after = everything(place)
    assert after.pop("alembic_version") == [(SCHEMA_REVISION,)]
    assert len(after.pop("audit")) == len(before.pop("audit")) + 1
    assert {name: as_wide(after[name], before[name]) for name in before} == before


@pytest.mark.parametrize(
    "old", [*OLD, BEFORE_BY_HAND, BEFORE_AUDIT], ids=lambda old: old.name
)
def test_an_old_logbook_gets_exactly_the_tables_of_a_new_one(
    old: Path, tmp_path: Path
) -> None:
    place = unpacked(old, tmp_path)
    Logbook.open(place).close()
    engine = sa.create_engine(f"sqlite:///{place}")
    with engine.connect() as connection:
        context = MigrationContext.configure(
            connection, opts={"compare_type": _same_type}
        )
        assert compare_metadata(context, metadata) == []
    engine.dispose()


# ------------------------------------------------- a migration that cannot be done


def in_the_way(place: Path, sql: str) -> Callable[[], None]:
    """Puts something into an old logbook that a late step runs into."""
    raw = sqlite3.connect(place)
    raw.execute(sql)
    raw.commit()
    raw.close()

    def away() -> None:
        raw = sqlite3.connect(place)
        raw.execute("DROP TABLE settings")
        raw.commit()
        raw.close()

    return away


@pytest.mark.parametrize("mode", ["DELETE", "WAL"])
@pytest.mark.parametrize("old", OLD, ids=lambda old: old.name)
def test_a_migration_that_fails_half_way_leaves_the_logbook_as_it_was(
    old: Path, mode: str, tmp_path: Path
) -> None:
    place = unpacked(old, tmp_path)
    # The last table of all: by then columns and tables have been added already.
    away = in_the_way(place, "CREATE TABLE settings (mine TEXT)")
    assert asked(place, f"PRAGMA journal_mode = {mode}") == (mode.lower(),)
    before = place.read_bytes()
    with pytest.raises(FileError, match="settings already exists") as caught:
        Logbook.open(place)
    assert str(place) in str(caught.value)
    assert place.read_bytes() == before
    assert [path.name for path in tmp_path.iterdir()] == [place.name]
    away()
    with Logbook.open(place) as book:  # what was in the way is gone: it opens
        assert len(book.reps()) == 2


def test_a_full_disk_leaves_the_logbook_as_it_was(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = place.read_bytes()
    (pages,) = asked(place, "PRAGMA page_count")
    connect = sqlite3.connect

    def on_a_small_disk(*given: object, **named: object) -> sqlite3.Connection:
        connection = connect(*given, **named)  # type: ignore[call-overload]  # as it was given
        connection.execute(f"PRAGMA max_page_count = {pages + 2}")
        return connection  # type: ignore[no-any-return]  # see above

    with monkeypatch.context() as patched:
        patched.setattr("sqlite3.dbapi2.connect", on_a_small_disk)
        patched.setattr("sqlite3.connect", on_a_small_disk)
        with pytest.raises(FileError, match="the disk is full"):
            Logbook.open(place)
    assert place.read_bytes() == before
    Logbook.open(place).close()


def test_two_programs_that_open_an_old_logbook_at_once_migrate_it_once(
    place: Path,
) -> None:
    begin = threading.Barrier(4)
    found: list[int] = []

    def program() -> None:
        begin.wait()
        with Logbook.open(place) as book:
            found.append(len(book.reps()))

    programs = [threading.Thread(target=program) for _ in range(4)]
    for each in programs:
        each.start()
    for each in programs:
        each.join()
    assert found == [2] * 4
    assert everything(place)["alembic_version"] == [(SCHEMA_REVISION,)]


def asked(place: Path, query: str) -> tuple[Any, ...]:
    """The first row of what the file answers."""
    raw = sqlite3.connect(place)
    try:
        return tuple(raw.execute(query).fetchone())
    finally:
        raw.close()


def contents(place: Path) -> tuple[str, ...]:
    """Tables, indices and rows, in words."""
    raw = sqlite3.connect(place)
    try:
        return tuple(raw.iterdump())
    finally:
        raw.close()


def test_the_times_of_the_old_logbook_are_in_utc(place: Path) -> None:
    content, at = asked(place, "SELECT content, at_utc FROM notes WHERE kind = 'pain'")
    assert json.loads(content) == {"level": 2, "when": "before"}
    with Logbook.open(place) as book, book._read() as connection:
        notes = metadata.tables["notes"]
        query = sa.select(notes.c.at_utc).where(notes.c.kind == "pain")
        assert connection.scalar(query) == datetime(2026, 5, 4, 12, tzinfo=UTC)
    assert at.startswith("2026-05-04 12:00:00")


# ------------------------------------------------- each released format, kept for ever


@pytest.mark.parametrize(
    "revision", [f"{n:04}" for n in range(1, int(SCHEMA_REVISION))]
)
def test_a_logbook_of_each_earlier_version_is_kept_and_opens(
    revision: str, tmp_path: Path
) -> None:
    place = unpacked(KEPT / f"logbook-{revision}.db.gz", tmp_path)
    before = place.read_bytes()
    assert asked(place, "SELECT version_num FROM alembic_version") == (revision,)
    with Logbook.open(place) as book:
        assert book.athletes()
        assert book.reps()
    # The old one is beside it as it was, for its owner alone, and still opens.
    (folder,) = tmp_path.glob("before-tables-*")
    (copy,) = folder.iterdir()
    assert (stat.S_IMODE(folder.stat().st_mode), stat.S_IMODE(copy.stat().st_mode)) == (
        0o700,
        0o600,
    )
    as_it_was = tmp_path / "as-it-was.db"
    as_it_was.write_bytes(before)
    assert contents(copy) == contents(as_it_was)
    with Logbook.open(copy) as book:
        assert book.reps()
    with Logbook.open(place) as book:  # nothing more to do: no second copy
        assert book.reps()
    assert len(list(tmp_path.glob("before-tables-*"))) == 1


def test_a_newer_logbook_keeps_each_byte(tmp_path: Path) -> None:
    place = unpacked(BEFORE_AUDIT, tmp_path)
    raw = sqlite3.connect(place)
    raw.execute("UPDATE alembic_version SET version_num = '9999'")
    raw.commit()
    raw.close()
    before = place.read_bytes()
    with pytest.raises(FileError, match="newer version of the program"):
        Logbook.open(place)
    assert place.read_bytes() == before
    assert [path.name for path in tmp_path.iterdir()] == [place.name]
