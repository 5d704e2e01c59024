"""The logbook on real SQLite files."""

from __future__ import annotations

import sqlite3
import stat
import subprocess
import sys
import threading
import uuid
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from typing import TYPE_CHECKING

import pytest
import sqlalchemy as sa
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory

from biofeedback.errors import FieldError, FileError
from biofeedback.logbook import database, folders
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.rows import NewSet
from biofeedback.logbook.schema import SCHEMA_REVISION, UtcTime, metadata
from biofeedback.training.band import Band
from biofeedback.training.prescription import FeedbackMode, Prescription
from biofeedback.training.task import Task

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

NOON = datetime(2026, 3, 1, 12, 0, tzinfo=UTC)


def rep(number: int, **more: object) -> dict[str, object]:
    return {
        "number": number,
        "outcome": "complete",
        "start_s": 10.0 * number,
        "end_s": 10.0 * number + 6,
        "peak_n": 100.0 + number,
        **more,
    }


def begin_set(book: Logbook, session_id: str, *, minute: int = 0) -> str:
    return book.begin_set(
        NewSet(
            session_id=session_id,
            prescription={"task": {"name": "Leg press"}, "feedback": "unseen"},
            profile={"name": "bench"},
            recording=f"{minute}.force",
            started_utc=NOON + timedelta(minutes=minute),
        )
    )


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def session_id(book: Logbook) -> str:
    return book.begin_session(book.add_athlete("A-1", "Somebody Invented"))


# ---------------------------------------------------------------- the file


def test_a_new_logbook_is_for_its_owner_alone(tmp_path: Path) -> None:
    place = tmp_path / "data" / "deep" / "logbook.db"
    with Logbook.open(place) as book:
        book.add_athlete("A-1")
        files = sorted(place.parent.iterdir())
        assert [file.name for file in files] == [
            "logbook.db",
            "logbook.db-shm",
            "logbook.db-wal",
        ]
        for file in files:
            assert stat.S_IMODE(file.stat().st_mode) == 0o600, file
    assert stat.S_IMODE((tmp_path / "data").stat().st_mode) == 0o700
    assert stat.S_IMODE(place.parent.stat().st_mode) == 0o700


def test_default_place_is_the_users_data_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("platformdirs.user_data_path", lambda *_, **__: tmp_path / "x")
    with Logbook.open() as book:
        assert book.place == str(tmp_path / "x" / "logbook.db")
    assert folders.default_recordings() == tmp_path / "x" / "recordings"


def test_the_migrations_make_exactly_the_tables_of_the_schema(tmp_path: Path) -> None:
    place = tmp_path / "logbook.db"
    Logbook.open(place).close()
    engine = sa.create_engine(f"sqlite:///{place}")
    with engine.connect() as connection:
        context = MigrationContext.configure(
            connection, opts={"compare_type": _same_type}
        )
        assert compare_metadata(context, metadata) == []
    engine.dispose()


def _same_type(
    _context: object, _inspected: object, _column: object, found: object, want: object
) -> bool | None:
    # The decorator is stored as the plain type it wraps.
    return (
        False if isinstance(want, UtcTime) and isinstance(found, sa.DateTime) else None
    )


def test_the_schema_named_in_the_code_is_the_last_migration() -> None:
    config = Config()
    config.set_main_option("script_location", "biofeedback.logbook:migrations")
    assert ScriptDirectory.from_config(config).get_heads() == [SCHEMA_REVISION]


def test_a_used_logbook_passes_sqlites_own_checks(
    book: Logbook, session_id: str, tmp_path: Path
) -> None:
    set_id = begin_set(book, session_id)
    for number in range(1, 200):
        book.add_rep(set_id, rep(number))
    book.close_set(set_id, {"samples": 10})
    raw = sqlite3.connect(tmp_path / "logbook.db")
    assert raw.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert raw.execute("PRAGMA foreign_key_check").fetchall() == []
    assert raw.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    raw.close()


def test_foreign_keys_are_in_force(book: Logbook) -> None:
    with pytest.raises(sa.exc.IntegrityError), book._write() as connection:
        connection.execute(
            sa.insert(metadata.tables["sessions"]).values(
                id=new_key(), athlete_id="nobody", started_utc=NOON
            )
        )


def test_a_newer_logbook_is_refused_and_left_alone(tmp_path: Path) -> None:
    place = tmp_path / "logbook.db"
    Logbook.open(place).close()
    newer = f"{int(SCHEMA_REVISION) + 1:04}"
    raw = sqlite3.connect(place)
    raw.execute("UPDATE alembic_version SET version_num = ?", [newer])
    raw.commit()
    raw.close()
    before = place.read_bytes()
    with pytest.raises(
        FileError, match=rf"newer version .*{newer}.*{SCHEMA_REVISION}"
    ) as caught:
        Logbook.open(place)
    assert str(place) in str(caught.value)
    assert place.read_bytes() == before


def test_a_file_of_another_kind_is_refused(tmp_path: Path) -> None:
    place = tmp_path / "letter.txt"
    place.write_text("Dear colleague, " * 100)
    with pytest.raises(FileError, match="not a logbook"):
        Logbook.open(place)
    assert place.read_text() == "Dear colleague, " * 100


@pytest.mark.parametrize("version", [None, "ae1027a6acf2"])
def test_the_database_of_another_program_is_refused(
    tmp_path: Path, version: str | None
) -> None:
    place = tmp_path / "other.db"
    raw = sqlite3.connect(place)
    raw.execute("CREATE TABLE recipes (id INTEGER)")
    if version:
        raw.execute("CREATE TABLE alembic_version (version_num TEXT)")
        raw.execute("INSERT INTO alembic_version VALUES (?)", (version,))
    raw.commit()
    raw.close()
    with pytest.raises(FileError, match="another program"):
        Logbook.open(place)


def test_a_damaged_logbook_is_told_in_words(tmp_path: Path) -> None:
    place = tmp_path / "logbook.db"
    Logbook.open(place).close()
    data = bytearray(place.read_bytes())
    data[200:] = b"\xa5" * (len(data) - 200)
    place.write_bytes(data)
    with pytest.raises(FileError, match="damaged"):
        Logbook.open(place)


@pytest.mark.parametrize(
    ("at", "wrong"),
    [
        (0, b"\x00" * 16),  # a block that the disk lost
        (6, b"#" * 20),  # it began like one
        (0, b"\x00" * 100),  # the whole header
    ],
)
def test_a_logbook_that_lost_its_first_bytes_is_not_called_a_file_of_another_kind(
    tmp_path: Path, at: int, wrong: bytes
) -> None:
    path = tmp_path / "logbook.db"
    Logbook.open(path).close()
    with path.open("r+b") as file:
        file.seek(at)
        file.write(wrong)
    before = path.read_bytes()
    with pytest.raises(FileError) as caught:
        Logbook.open(path)
    told = str(caught.value)
    assert "another kind" not in told
    assert "biofeedback rebuild" in told
    assert "biofeedback restore" in told
    assert path.read_bytes() == before


def test_whatever_stands_in_the_usual_place_was_the_logbook(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(folders, "data_folder", lambda: tmp_path)
    (tmp_path / "logbook.db").write_bytes(b"\xff" * 5000)
    with pytest.raises(FileError, match="biofeedback rebuild"):
        Logbook.open(folders.default_logbook())


def test_a_place_that_cannot_be_a_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with pytest.raises(FileError, match="cannot be made"):
        Logbook.open(tmp_path / "file" / "logbook.db")


@pytest.mark.parametrize(
    "url",
    [
        "nonsense://x",
        "sqlite://",
        "::://",
        "sqlite+aiosqlite:///x.db",
        "postgresql://host:port/db",
        "~nobody-of-this-name/logbook.db",
    ],
)
def test_a_url_that_leads_nowhere_is_refused(url: str) -> None:
    with pytest.raises(FileError):
        Logbook.open(url)


@pytest.mark.parametrize("rest", ["host/db", "host:port/db"])
def test_a_password_in_a_url_is_never_shown(rest: str) -> None:
    with pytest.raises(FileError) as caught:
        Logbook.open(f"nonsense://me:hu:sh@{rest}")
    assert "sh@" not in str(caught.value)


@pytest.mark.parametrize("name", ["x" * 300, "loop/logbook.db"])
def test_a_place_that_the_system_refuses_is_told(tmp_path: Path, name: str) -> None:
    if sys.platform == "win32":
        pytest.skip("links need a privilege there")
    (tmp_path / "loop").symlink_to("loop")
    with pytest.raises(FileError):
        Logbook.open(tmp_path / name)
    with pytest.raises(FileError):
        folders.make_private(tmp_path / name)


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no such modes")
def test_a_logbook_behind_a_link_is_private_too(tmp_path: Path) -> None:
    link, place = tmp_path / "link.db", tmp_path / "far" / "logbook.db"
    link.symlink_to(place)
    Logbook.open(link).close()
    assert stat.S_IMODE(place.stat().st_mode) == 0o600
    assert stat.S_IMODE(place.parent.stat().st_mode) == 0o700


# ---------------------------------------------------------------- athletes


def test_codes_are_unique_and_names_stay_in_one_table(
    book: Logbook, session_id: str, tmp_path: Path
) -> None:
    set_id = begin_set(book, session_id)
    book.add_rep(set_id, rep(1))
    with pytest.raises(FieldError, match="in use"):
        book.add_athlete("A-1")
    with pytest.raises(FieldError) as caught:
        book.add_athlete("A-1", "Somebody Else")
    # A traceback in a log shows the cause too, with what was to be entered.
    assert "Somebody" not in f"{caught.value}{caught.value.__cause__}"
    athlete = book.athlete_by_code("A-1")
    assert athlete is not None
    assert athlete.name == "Somebody Invented"
    assert book.athlete_by_code("A-2") is None
    raw = sqlite3.connect(tmp_path / "logbook.db")
    holders = [
        table
        for (table,) in raw.execute("SELECT name FROM sqlite_master WHERE type='table'")
        if "Somebody" in str(raw.execute(f'SELECT * FROM "{table}"').fetchall())  # noqa: S608  names of our own tables
    ]
    raw.close()
    assert holders == ["athletes"]


@pytest.mark.parametrize(
    "code", ["", "../x", "a/b", "a b", "a_b", "-a", "x" * 33, "ä", "a\n"]
)
def test_a_code_that_cannot_stand_in_a_file_name_is_refused(
    book: Logbook, code: str
) -> None:
    if code == "a\n":  # blanks around a code are not part of it
        book.add_athlete(code)
        assert book.athlete_by_code("a")
        return
    with pytest.raises(FieldError, match=r"athlete\.code"):
        book.add_athlete(code)


def test_keys_are_uuid_7_and_sort_by_time() -> None:
    keys = [new_key() for _ in range(1000)]
    assert {uuid.UUID(key).version for key in keys} == {7}
    assert len(set(keys)) == 1000
    assert keys == sorted(keys)


# ----------------------------------------------------------- sets and reps


def test_a_set_is_open_until_it_is_closed(book: Logbook, session_id: str) -> None:
    set_id = begin_set(book, session_id)
    (row,) = book.sets_not_closed()
    assert (row.id, row.task, row.athlete_code) == (set_id, "Leg press", "A-1")
    assert row.started_utc == NOON
    assert book.recording_of(set_id) == "0.force"
    assert book.recordings() == {"0.force": False}
    book.close_set(set_id, {"samples": 4})
    assert book.sets_not_closed() == []
    assert book.recordings() == {"0.force": True}
    closed = book.set_by_id(set_id)
    assert closed is not None
    assert closed.closed_utc is not None
    assert not closed.recovered
    # An end that is known stays as it was.
    book.close_set(set_id, recovered=True)
    assert book.set_by_id(set_id) == closed


def test_times_come_back_in_utc(book: Logbook, session_id: str) -> None:
    plus_two = timezone(timedelta(hours=2))
    set_id = book.begin_set(
        NewSet(session_id, {}, {}, "x.force", NOON.astimezone(plus_two))
    )
    row = book.set_by_id(set_id)
    assert row is not None
    assert row.started_utc == NOON
    assert row.started_utc.utcoffset() == timedelta(0)


def test_a_rep_entered_twice_is_there_once(book: Logbook, session_id: str) -> None:
    set_id = begin_set(book, session_id)
    first = book.add_rep(set_id, rep(1, lapses=[{"start_s": 1}, {"start_s": 2}]))
    assert book.add_rep(set_id, rep(1, peak_n=999.0)) == first
    (row,) = book.reps()
    assert row.peak_n == 101.0
    assert row.lapses == 2
    assert row.feedback == "unseen"
    assert row.measures["start_s"] == 10.0


def test_numbers_that_are_none_become_nothing(book: Logbook, session_id: str) -> None:
    set_id = begin_set(book, session_id)
    book.add_rep(set_id, rep(1, cv_pct=float("nan"), inner=[float("inf"), 1.0]))
    (row,) = book.reps()
    assert row.cv_pct is None
    assert row.measures["inner"] == [None, 1.0]


@pytest.mark.parametrize(
    "bad",
    [
        {"number": 0},
        {"number": "1"},
        {"outcome": "splendid"},
        {"start_s": float("nan")},
        {"end_s": None},
    ],
)
def test_a_rep_that_does_not_fit_is_refused(
    book: Logbook, session_id: str, bad: dict[str, object]
) -> None:
    set_id = begin_set(book, session_id)
    with pytest.raises(FieldError, match=f"rep.{next(iter(bad))}"):
        book.add_rep(set_id, {**rep(1), **bad})
    assert book.reps() == []


def test_reps_of_an_unknown_set_and_sets_of_unknown_sessions_are_refused(
    book: Logbook,
) -> None:
    with pytest.raises(FieldError, match="no set"):
        book.add_rep("nowhere", rep(1))
    with pytest.raises(FieldError, match="no session"):
        begin_set(book, "nowhere")
    with pytest.raises(FieldError, match="no athlete"):
        book.begin_session("nowhere")


def test_pages_go_from_new_to_old_and_do_not_shift(
    book: Logbook, session_id: str
) -> None:
    for minute in range(3):
        set_id = begin_set(book, session_id, minute=minute)
        for number in range(1, 5):
            book.add_rep(set_id, rep(number))
    other = book.begin_session(book.add_athlete("B-2"))
    other_set = begin_set(book, other, minute=-10)
    book.add_rep(other_set, rep(1))
    expected = [(m, n) for m in (2, 1, 0) for n in (4, 3, 2, 1)] + [(-10, 1)]
    seen = []
    page = book.reps(limit=5)
    while page:
        seen += [
            (round((row.started_utc - NOON).total_seconds() / 60), row.number)
            for row in page
        ]
        newest = begin_set(book, session_id, minute=100 + len(seen))
        book.add_rep(newest, rep(1))
        page = book.reps(limit=5, older_than=page[-1])
    assert seen == expected
    assert [row.athlete_code for row in book.reps(athlete_code="B-2")] == ["B-2"]
    assert [row.set_id for row in book.reps(set_id=other_set)] == [other_set]
    assert len(book.reps(session_id=other)) == 1
    assert len(book.sets(session_id)) == len(book.reps(session_id=session_id)) - 9
    assert {row.athlete_code for row in book.sessions()} == {"A-1", "B-2"}


@pytest.mark.parametrize("limit", [1, 2, 3, 7, 100])
def test_pages_of_any_length_come_to_every_rep_once(
    book: Logbook, session_id: str, limit: int
) -> None:
    """Also past sets without a rep, and of sets that began at the same moment."""
    expected = 0
    for place, reps in enumerate((2, 0, 0, 0, 1, 1, 0, 3, 0, 0, 4, 1, 0)):
        set_id = begin_set(book, session_id, minute=place // 2)
        for number in range(1, reps + 1):
            book.add_rep(set_id, rep(number))
        expected += reps
    seen = []
    page = book.reps(athlete_code="A-1", limit=limit)
    while page:
        seen += page
        page = book.reps(athlete_code="A-1", limit=limit, older_than=page[-1])
    places = [(row.started_utc, row.set_id, row.number) for row in seen]
    assert len(places) == expected
    assert places == sorted(set(places), reverse=True)


@pytest.mark.parametrize("page", [1, 3, 6, 100])
def test_all_reps_of_a_visit_and_of_a_set_whatever_the_page(
    book: Logbook, session_id: str, page: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(database, "REPS_PAGE", page)
    first, second = (begin_set(book, session_id, minute=minute) for minute in (0, 1))
    for number in range(1, 4):
        book.add_rep(first, rep(number))
        book.add_rep(second, rep(number))
    whole = [(one.set_id, one.number) for one in book.all_reps(session_id=session_id)]
    assert whole == [(key, n) for key in (second, first) for n in (3, 2, 1)]
    assert [one.number for one in book.all_reps(set_id=first)] == [3, 2, 1]


def test_a_void_rep_stays_with_its_reason(book: Logbook, session_id: str) -> None:
    set_id = begin_set(book, session_id)
    rep_id = book.add_rep(set_id, rep(1))
    with pytest.raises(FieldError, match="must say why"):
        book.void_rep(rep_id, "  ")
    with pytest.raises(FieldError, match="no rep"):
        book.void_rep("nowhere", "slip")
    book.void_rep(rep_id, "Strap came loose")
    book.void_rep(rep_id, "said again")
    (row,) = book.reps()
    assert row.void_reason == "Strap came loose"
    assert row.outcome == "complete"


def test_a_recording_brings_its_session_and_athlete_with_it(book: Logbook) -> None:
    header: dict[str, object] = {
        "set_id": new_key(),
        "session_id": new_key(),
        "athlete_code": "C-3",
        "started_utc": "2026-03-01T13:00:00+01:00",
        "prescription": {"task": {"name": "Hold"}},
    }
    set_id = book.enter_recording(header, "c.force")
    assert book.enter_recording(header, "c.force") == set_id == header["set_id"]
    (row,) = book.sets_not_closed()
    assert (row.athlete_code, row.session_id) == ("C-3", header["session_id"])
    assert row.started_utc == NOON
    nobody = {"set_id": new_key(), "started_utc": "2026-03-01T12:00:00Z"}
    book.enter_recording(nobody, "n.force")
    assert [row.athlete_code for row in book.sets_not_closed()] == ["C-3", "guest"]
    with pytest.raises(FieldError, match="started_utc"):
        book.enter_recording({**nobody, "started_utc": "noon"}, "n.force")
    with pytest.raises(FieldError, match="zone"):
        book.enter_recording({**nobody, "started_utc": "2026-03-01T12:00:00"}, "n")


# -------------------------------------------------------- several at once


def test_threads_share_one_logbook(book: Logbook, session_id: str) -> None:
    set_id = begin_set(book, session_id)
    faults: list[BaseException] = []

    def write(first: int) -> None:
        try:
            for number in range(first, first + 20):
                book.add_rep(set_id, rep(number))
                book.reps(limit=3)
        except BaseException as fault:  # noqa: BLE001  told to the test below
            faults.append(fault)

    threads = [threading.Thread(target=write, args=(n,)) for n in (1, 11, 21, 31)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert faults == []
    assert [row.number for row in book.reps()] == list(range(50, 0, -1))


PROGRAM = """
import sys
from datetime import datetime, UTC
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.rows import NewSet
place, code = sys.argv[1:]
print("ready", flush=True)
sys.stdin.readline()
with Logbook.open(place) as book:
    session = book.begin_session(book.add_athlete(code))
    held = book.begin_set(NewSet(session, {}, {}, code, datetime.now(tz=UTC)))
    for number in range(1, 21):
        book.add_rep(
            held, {"number": number, "outcome": "short", "start_s": 1, "end_s": 2}
        )
"""


def test_programs_that_open_one_new_logbook_at_once_all_succeed(
    tmp_path: Path,
) -> None:
    place = tmp_path / "logbook.db"
    programs = [
        subprocess.Popen(  # noqa: S603  our own interpreter and text
            [sys.executable, "-c", PROGRAM, str(place), f"P-{n}"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        for n in range(3)
    ]
    for program in programs:
        assert program.stdout is not None
        assert program.stdout.readline() == "ready\n"
    for program in programs:
        assert program.stdin is not None
        program.stdin.write("go\n")
        program.stdin.flush()
    for program in programs:
        program.communicate()
    assert [program.returncode for program in programs] == [0, 0, 0]
    with Logbook.open(place) as book:
        assert len(book.reps()) == 50
        assert len(book.reps(limit=1000)) == 60
        assert [row.code for row in book.athletes()] == ["P-0", "P-1", "P-2"]


def test_a_logbook_kept_busy_is_told_in_words(book: Logbook, tmp_path: Path) -> None:
    raw = sqlite3.connect(tmp_path / "logbook.db", isolation_level=None)
    raw.execute("BEGIN IMMEDIATE")
    with pytest.raises(FileError, match="busy"):
        book.hurried(0.01).add_athlete("A-9")
    assert book.athletes() == []  # reading goes on meanwhile
    raw.execute("ROLLBACK")
    raw.close()
    book.hurried(0.01).add_athlete("A-9")
    assert len(book.athletes()) == 1


def test_sessions_in_which_feedback_was_fading_are_counted(book: Logbook) -> None:
    athlete_id = book.add_athlete("A-1")
    other_id = book.add_athlete("A-2")
    session = ""
    for athlete, mode, sets_done in (
        (athlete_id, "fading over the sessions", 2),
        (athlete_id, "full", 1),
        (athlete_id, "fading over the sessions", 1),
        (other_id, "fading over the sessions", 1),
    ):
        session = book.begin_session(athlete)
        for _ in range(sets_done):
            asked = {"task": {"name": "Leg press"}, "feedback": mode}
            book.begin_set(NewSet(session, asked, {}, f"{new_key()}.force", NOON))
    assert book.fading_sessions("A-1", Task("Leg press")) == 2
    assert book.fading_sessions("A-1", Task("Another")) == 0
    assert book.fading_sessions("A-2", Task("Leg press")) == 1
    assert book.fading_sessions("A-2", Task("Leg press"), but_session=session) == 0


def test_fading_goes_on_where_the_task_has_another_name_by_now(book: Logbook) -> None:
    session = book.begin_session(book.add_athlete("A-1"))
    task = Task("Leg press", key="task-1")
    asked = Prescription(
        task, Band(40.0, 60.0), 5.0, feedback=FeedbackMode.FADING
    ).to_json()
    book.begin_set(NewSet(session, asked, {}, f"{new_key()}.force", NOON))
    renamed = replace(task, name="Press of the leg")
    assert book.fading_sessions("A-1", renamed) == 1
    assert book.fading_sessions("A-1", replace(task, key="task-2")) == 0
