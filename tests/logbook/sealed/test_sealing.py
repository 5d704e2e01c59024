"""A whole place sealed and opened again: nothing readable left, and nothing lost."""

from __future__ import annotations

import json
import re
import shutil
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
import sqlalchemy as sa
from logbook.sealed import by_hand
from logbook.sealed.place import (
    CODE,
    PASSPHRASE,
    ROWS,
    YEAR,
    mark,
    marked_place,
    sealed,
    sealed_columns,
)
from session.kept_logbook import NAMES

from biofeedback.errors import FileError, UserError
from biofeedback.logbook import away, recordings, schema, sealing
from biofeedback.logbook.backup import back_up
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.erasable import look_for
from biofeedback.logbook.erasure import erase
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.logbook.recorder import FileRecorder
from biofeedback.logbook.recovery import unfinished
from biofeedback.logbook.restore import restore
from biofeedback.logbook.sealed import columns, key_file, keyring, reading
from biofeedback.logbook.sealed.master_key import MasterKey
from biofeedback.phrase import phrase
from biofeedback.session.rebuild import rebuild
from biofeedback.session.replay import replay
from biofeedback.session.unlocking import unlocking
from biofeedback.training.athlete import AthleteDetails
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import Samples

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

WORDS = re.compile(rb"Inv(\xc3\xa9|\\u00e9)nted|Beispielfrau|Musterstr")


@pytest.fixture
def place(tmp_path: Path) -> KeptPlace:
    (tmp_path / "here").mkdir(mode=0o700)
    return marked_place(tmp_path / "here")


def rows(logbook: Path) -> list[str]:
    """All that is in a logbook; the audit, and that it is sealed, left out."""
    with closing(sqlite3.connect(f"{logbook.as_uri()}?mode=ro", uri=True)) as raw:
        lines = [line for line in raw.iterdump() if 'INTO "audit"' not in line]
    return [line for line in lines if "'sealed by'" not in line]


def readable(place: KeptPlace) -> dict[str, object]:
    """What the program reads: each sealed column, and the bytes of each recording."""
    found: dict[str, object] = {}
    with Logbook.open(place.logbook) as book, book._read() as connection:
        for column in sealed_columns():
            query = sa.select(column).order_by(column.table.c.id)
            found[str(column)] = list(connection.scalars(query))
    for path in place.recording_files():
        with path.open("rb") as file:
            found[path.name] = b"".join(reading.pieces(file, path, 65_536))
    return found


def folder_bytes(folder: Path) -> Iterator[tuple[Path, bytes]]:
    for path in sorted(folder.rglob("*")):
        if path.is_file():
            yield path, path.read_bytes()


WINDOW = 12


def windows(raw: bytes) -> set[bytes]:
    """Pieces of a recording that could not stand anywhere by chance."""
    found = {raw[at : at + WINDOW] for at in range(0, len(raw) - WINDOW, WINDOW)}
    return {piece for piece in found if len(set(piece)) > 4}


# ---------------------------------------------------------------- nothing readable


def test_each_column_with_words_was_decided_on() -> None:
    """What is new in the tables is to be sealed, or to be named here and in README."""
    in_the_clear = {
        "audit": {"action", "code", "by_user", "practitioner", "place"},
        "athletes": {"code"},
        "body_masses": {"date"},
        "calibrations": {
            "serial_number", "label", "date", "adc", "coefficients", "report",
        },
        "calibration_points": {"direction", "content"},
        "day_choices": {"sides", "proposed", "accepted"},
        "marker_moves": {"marker", "moved_by"},
        "maximal_tests": {
            "task", "sides", "definition", "zero_kind", "setup", "content",
        },
        "notes": {"kind"},
        "plan_words": {"criterion"},
        "reps": {"outcome", "feedback", "measures"},
        "sets": {"task", "prescription", "profile", "recording", "totals", "sides"},
        "settings": {"key", "content"},
        "stated_forces": {"task", "sides", "origin", "definition", "date"},
        "tasks": {"name", "kind", "sides", "content"},
        "void_withdrawals": {"withdrawn_by"},
        "voids": {"voided_by"},
    }  # fmt: skip
    found: dict[str, set[str]] = {}
    for table in schema.metadata.sorted_tables:
        for column in table.columns:
            key = column.name == "id" or column.name.endswith(("_id", "_key", "_from"))
            words = isinstance(column.type, sa.String | sa.JSON)
            if words and not key:
                found.setdefault(table.name, set()).add(column.name)
    assert found == in_the_clear


def test_after_sealing_no_name_and_no_sample_stands_in_any_byte(
    place: KeptPlace, tmp_path: Path
) -> None:
    samples = {
        window
        for path in place.recording_files()
        for frame in recordings.read(path).frames()
        if isinstance(frame, Samples)
        for window in windows(encode(frame))
    }
    plain = {w for path in place.recording_files() for w in windows(path.read_bytes())}
    assert len(samples) > 3000
    with closing(sqlite3.connect(place.logbook, isolation_level=None)) as book:
        book.execute("PRAGMA secure_delete = OFF")
        book.execute("CREATE TABLE scraps (words)")
        book.execute(
            "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n "
            "WHERE i < 2000) INSERT INTO scraps SELECT 'Invénted scraps' FROM n"
        )
        book.execute("DROP TABLE scraps")
    before = b"".join(raw for _, raw in folder_bytes(place.base))
    assert "Invénted scraps".encode() in before
    for column in sealed_columns():
        if not isinstance(column.type, columns.SealedWhole):
            assert mark(column)[:10].encode() in before
    sealed(place)
    for path, raw in folder_bytes(tmp_path):
        assert WORDS.search(raw) is None, path
        # The logbook keeps what was asked for, and the recording begins with that.
        searched = plain if path.suffix == ".force" else samples
        there = {raw[at : at + WINDOW] for at in range(len(raw))}
        assert not searched & there, path


def test_each_value_is_text_of_the_sealed_kind(place: KeptPlace) -> None:
    key = sealed(place)
    with closing(sqlite3.connect(place.logbook)) as raw:
        for column in sealed_columns():
            query = f'SELECT "{column.name}" FROM {column.table.name}'  # noqa: S608
            cells = [cell for (cell,) in raw.execute(query) if cell is not None]
            assert len(cells) >= ROWS
            for cell in cells:
                if isinstance(column.type, columns.SealedJson):
                    told = json.loads(cell)
                    expected = {"sealed", "level"} & {"sealed", *column.type.seen}
                    assert set(told) == expected
                    cell = told["sealed"]  # noqa: PLW2901
                plain = by_hand.text(cell, str(column), key.key_id, key.secret)
                assert plain in (str(YEAR), *NAMES.values()) or "Invént" in plain


def test_recordings_open_by_the_second_reader(place: KeptPlace) -> None:
    before = {path.name: path.read_bytes() for path in place.recording_files()}
    sealed(place)
    _, secret = by_hand.master_key(place.keys, PASSPHRASE)
    for path in place.recording_files():
        assert by_hand.recording(path.read_bytes(), secret) == before[path.name]


# ---------------------------------------------------------------- nothing lost


def test_what_the_program_reads_is_the_same(place: KeptPlace) -> None:
    before = readable(place)
    numbers = [replay(path).reps for path in place.recording_files()]
    sealed(place)
    assert readable(place) == before
    assert [replay(path).reps for path in place.recording_files()] == numbers


def test_sealed_and_opened_again_it_is_what_it_was(place: KeptPlace) -> None:
    before = rows(place.logbook)
    files = {path.name: path.read_bytes() for path in place.recording_files()}
    key = sealed(place)
    assert rows(place.logbook) != before
    done = sealing.unseal(place, key_file.read(place.keys), key)
    assert done.problems == ()
    assert rows(place.logbook) == before
    assert {p.name: p.read_bytes() for p in place.recording_files()} == files
    keyring.forget()  # nobody is asked any more
    with Logbook.open(place.logbook) as book:
        assert not book.sealed
        assert {each.name for each in book.athletes()} >= {NAMES["DEMO-3"]}


def test_doing_it_twice_changes_nothing(place: KeptPlace) -> None:
    key = sealed(place)
    before = dict(folder_bytes(place.base))
    done = sealing.seal(place, key_file.read(place.keys), key)
    assert (done.values, done.recordings, done.before) == (0, 0, 3)
    after = dict(folder_bytes(place.base))
    assert {p for p in before if p.suffix == ".force"} == {
        p for p in after if p.suffix == ".force" and after[p] == before[p]
    }


def test_names_are_found_by_pieces_of_them_as_before(place: KeptPlace) -> None:
    sealed(place)
    with Logbook.open(place.logbook) as book:
        found = [p.details.name for p in book.people.search("anne BEISPIEL")]
        assert found == [NAMES["DEMO-3"]]
        assert book.people.of_name("olek musterstrom")[0].details.code == "DEMO-6"


def test_what_is_added_to_a_sealed_logbook_is_sealed(
    place: KeptPlace, tmp_path: Path
) -> None:
    sealed(place)
    with Logbook.open(place.logbook) as book:
        key = book.people.add(AthleteDetails("NEW-1", "Invénted Newcomer", 2001))
        session = book.begin_session(key)
        book.session_notes.add(session, "note", {"text": "Invénted words"})
        recorder = FileRecorder(place.recordings, book)
        recorder.begin({"athlete_code": "NEW-1", "note": "Invénted"})
        recorder.put(b"")
        assert recorder.stop()
        found = book.people.get(key)
        assert found is not None
        assert (found.details.name, found.details.birth_year) == (
            "Invénted Newcomer",
            2001,
        )
    for path, raw in folder_bytes(tmp_path):
        assert WORDS.search(raw) is None, path
    (new,) = (p for p in place.recording_files() if "NEW-1" in p.name)
    assert recordings.read(new).header["athlete_code"] == "NEW-1"


def test_the_recording_under_way_is_sealed_from_its_first_byte(
    place: KeptPlace,
) -> None:
    sealed(place)
    with Logbook.open(place.logbook) as book:
        recorder = FileRecorder(place.recordings, book)
        recorder.begin({"athlete_code": "UNDER-WAY", "note": "Invénted"})
        found: list[Path] = []
        while not (found and found[0].stat().st_size):
            found = [p for p in place.recording_files() if "UNDER-WAY" in p.name]
        (path,) = found
        under_way = path.read_bytes()
        assert recorder.stop()
    assert under_way[:112] == path.read_bytes()[:112]
    assert reading.is_sealed(path)
    assert WORDS.search(under_way) is None
    assert WORDS.search(path.read_bytes()) is None


# -------------------------------------------------------------- keys that are missing


def test_without_the_passphrase_nothing_opens(place: KeptPlace) -> None:
    sealed(place)
    keyring.forget()
    with pytest.raises(FileError, match="was not given"):
        Logbook.open(place.logbook)
    with pytest.raises(FileError, match="was not given"):
        recordings.read(place.recording_files()[0])


def test_a_key_file_that_is_gone_is_told(place: KeptPlace) -> None:
    sealed(place)
    keyring.forget()
    place.keys.unlink()
    with pytest.raises(FileError, match="this file with its key is not here"):
        Logbook.open(place.logbook)
    with pytest.raises(FileError, match="the file with its key"):
        recordings.read(place.recording_files()[0])


def another_key(place: KeptPlace) -> MasterKey:
    """Puts the key file of another logbook in the place of the right one."""
    key = MasterKey.new()
    key_file.made(place.keys, key, passphrase=PASSPHRASE, code=CODE).write()
    keyring.hold([key])
    return key


@pytest.mark.parametrize("sealing_too", [True, False])
def test_a_key_file_of_another_logbook_is_told_and_seals_nothing(
    place: KeptPlace, sealing_too: bool
) -> None:
    key = sealed(place)
    right = place.keys.read_bytes()
    before = readable(place)
    other = another_key(place)
    found = replace(key_file.read(place.keys), sealing=sealing_too)
    found.write()
    raw = place.logbook.read_bytes()
    with pytest.raises(FileError, match=f"another logbook.*{key.key_id.hex()}"):
        Logbook.open(place.logbook)
    stopped = unlocking(place.logbook)
    assert (stopped is not None and "another" in stopped.problem) == sealing_too
    for change in (sealing.seal, sealing.unseal):
        with pytest.raises(FileError, match="another logbook") as fault:
            change(place, found, other)
        assert str(place.keys) in str(fault.value)
        assert "from a backup" in fault.value.next_step
    assert place.logbook.read_bytes() == raw
    place.keys.write_bytes(right)
    assert readable(place) == before


def test_a_key_file_of_another_logbook_does_not_reach_the_backup(
    place: KeptPlace, tmp_path: Path
) -> None:
    sealed(place)
    back_up(place, tmp_path / "backup")
    before = dict(folder_bytes(tmp_path / "backup"))
    another_key(place)
    with pytest.raises(FileError, match="another logbook"):
        back_up(place, tmp_path / "backup")
    assert dict(folder_bytes(tmp_path / "backup")) == before


def test_a_shut_logbook_gives_no_name_and_takes_none(place: KeptPlace) -> None:
    sealed(place)
    keyring.forget()
    with Logbook.open(place.logbook, shut=True) as book:
        assert book.recordings()
        assert book.audit.list()
        with pytest.raises(FileError, match="not opened"):
            book.athletes()
        with pytest.raises(FileError, match="not opened"):
            book.add_athlete("NEW-2", "Invénted")
    place.keys.unlink()
    with (
        Logbook.open(place.logbook, shut=True) as book,
        pytest.raises(FileError, match="not opened"),
    ):
        book.add_athlete("NEW-2", "Invénted")


@pytest.mark.expects_log("sealed value of athletes.name is damaged")
def test_one_damaged_name_keeps_no_other_from_being_read(place: KeptPlace) -> None:
    sealed(place)
    with closing(sqlite3.connect(place.logbook)) as raw:
        # The sealed text of another column, which it must not be taken for.
        raw.execute("UPDATE athletes SET name = notes WHERE code = 'x-1'")
        raw.commit()
    with Logbook.open(place.logbook) as book:
        names = {each.code: each.name for each in book.athletes()}
    assert names["x-1"] == columns.DAMAGED
    assert names["DEMO-3"] == NAMES["DEMO-3"]


def test_sealing_waits_for_programs_that_run(place: KeptPlace) -> None:
    with Logbook.open(place.logbook) as book:
        assert book.athletes()
        with pytest.raises(UserError, match="in use"):
            sealed(place)
    assert not place.keys.exists()


def test_a_stray_recording_of_another_passphrase_keeps_nothing_from_opening(
    place: KeptPlace, tmp_path: Path
) -> None:
    (tmp_path / "other").mkdir()
    other = marked_place(tmp_path / "other")
    sealed(other)
    shutil.copy(other.recording_files()[0], place.recordings / "stray.force")
    shutil.copy(other.keys, place.base / "other.keys.json")
    keyring.forget()

    def nobody(_found: key_file.KeyFile) -> MasterKey:
        raise UserError(phrase("There is nobody to ask."))

    keyring.ask_by(nobody)
    with Logbook.open(place.logbook) as book:
        found = {each.path.name: each for each in unfinished(place.recordings, book)}
    assert "nobody to ask" in found["stray.force"].problem


def test_a_recording_that_cannot_be_opened_stays_and_is_told(place: KeptPlace) -> None:
    key = sealed(place)
    path = place.recording_files()[0]
    with path.open("r+b") as file:
        file.write(bytes(112))
        file.seek(0)
        file.write(b"\0sealed\x1a")
    before = path.read_bytes()
    done = sealing.unseal(place, key_file.read(place.keys), key)
    assert len(done.problems) == 1
    assert path.name in done.problems[0]
    assert path.read_bytes() == before
    assert done.recordings == 2


def said(logbook: Path) -> list[tuple[str]]:
    """Which key a logbook says it is sealed by."""
    with closing(sqlite3.connect(logbook)) as raw:
        query = "SELECT content FROM settings WHERE key = 'sealed by'"
        return raw.execute(query).fetchall()


@pytest.mark.parametrize(
    "cut",
    [
        pytest.param(
            False, marks=pytest.mark.expects_log("sealed value of .* damaged")
        ),
        True,
    ],
)
def test_values_that_are_damaged_stay_sealed_and_are_told(
    place: KeptPlace, cut: bool
) -> None:
    key = sealed(place)
    whole = place.logbook.read_bytes()
    with closing(sqlite3.connect(place.logbook)) as raw:
        name = "substr(name, 1, 60)" if cut else "notes"
        raw.execute(f"UPDATE athletes SET name = {name} WHERE code = 'x-1'")  # noqa: S608
        content = (
            "json_object('sealed', (SELECT name FROM athletes WHERE code = 'x-1'))"
        )
        raw.execute(f"UPDATE notes SET content = {content}")  # noqa: S608
        notes = raw.execute("SELECT count(*) FROM notes").fetchone()[0]
        before = raw.execute("SELECT name FROM athletes WHERE code = 'x-1'").fetchall()
        raw.commit()
    done = sealing.unseal(place, key_file.read(place.keys), key)
    assert len(done.problems) == 2
    assert f"{place.logbook}: 1 sealed values of athletes.name" in done.problems[0]
    assert f"{notes} sealed values of notes.content" in done.problems[1]
    with closing(sqlite3.connect(place.logbook)) as raw:
        query = "SELECT name FROM athletes WHERE code = 'x-1'"
        assert raw.execute(query).fetchall() == before
    assert said(place.logbook) == [(json.dumps(key.key_id.hex()),)]
    place.logbook.write_bytes(whole)  # mended from a backup, and done again
    done = sealing.unseal(place, key_file.read(place.keys), key)
    assert done.problems == ()
    assert said(place.logbook) == []


def test_a_recording_that_is_damaged_stays_sealed_and_is_told(place: KeptPlace) -> None:
    key = sealed(place)
    path = place.recording_files()[0]
    whole = path.read_bytes()
    damaged = bytearray(whole)
    damaged[len(damaged) // 2] ^= 1
    path.write_bytes(damaged)
    done = sealing.unseal(place, key_file.read(place.keys), key)
    (words,) = done.problems
    assert path.name in words
    assert "damaged" in words
    assert done.recordings == 2
    assert path.read_bytes() == damaged
    assert said(place.logbook) == [(json.dumps(key.key_id.hex()),)]
    path.write_bytes(whole[:-5])  # cut is not damaged: what is whole opens
    done = sealing.unseal(place, key_file.read(place.keys), key)
    assert (done.recordings, done.problems) == (1, ())
    assert said(place.logbook) == []


def test_a_value_that_is_no_json_is_named_by_table_and_row(place: KeptPlace) -> None:
    with closing(sqlite3.connect(place.logbook)) as raw:
        (row,) = raw.execute("SELECT id FROM notes LIMIT 1").fetchone()
        wrong = '{"level": 4, "x": NaN}'
        raw.execute("UPDATE notes SET content = ? WHERE id = ?", (wrong, row))
        raw.commit()
    before = rows(place.logbook)
    with pytest.raises(FileError, match=f"table notes, row {row}: .* content") as fault:
        sealed(place)
    assert str(place.logbook) in str(fault.value)
    assert rows(place.logbook) == before


# ---------------------------------------------------------------- copies


def test_a_backup_brings_its_key_and_a_restore_puts_it_back(
    place: KeptPlace, tmp_path: Path
) -> None:
    sealed(place)
    before = readable(place)
    target = tmp_path / "backup"
    back_up(place, target)
    assert WORDS.search(b"".join(raw for _, raw in folder_bytes(target))) is None
    elsewhere = KeptPlace(tmp_path / "new" / "logbook.db", tmp_path / "new" / "held")
    keyring.forget()
    assert restore(target, elsewhere).sealed
    assert elsewhere.keys.read_bytes() == place.keys.read_bytes()
    keyring.ask_by(lambda found: found.opened(PASSPHRASE))
    assert readable(elsewhere) == before


def test_a_backup_made_before_is_sealed_by_the_next_one(
    place: KeptPlace, tmp_path: Path
) -> None:
    target = tmp_path / "backup"
    back_up(place, target)
    key = sealed(place)
    done = sealing.seal(place, key_file.read(place.keys), key)
    assert done.clear == (target,)
    back_up(place, target)
    assert WORDS.search(b"".join(raw for _, raw in folder_bytes(target))) is None
    assert sealing.seal(place, key_file.read(place.keys), key).clear == ()


def test_a_backup_without_the_key_here_keeps_the_one_that_is_in_it(
    place: KeptPlace, tmp_path: Path
) -> None:
    sealed(place)
    target = tmp_path / "backup"
    back_up(place, target)
    before = readable(place)
    place.keys.unlink()
    place.recording_files()[0].touch()
    back_up(place, target)
    assert restore(target, place).sealed
    assert readable(place) == before


def test_a_restore_asks_the_logbook_and_not_the_key_file_whether_it_is_sealed(
    place: KeptPlace, tmp_path: Path
) -> None:
    key = sealed(place)
    sealing.unseal(place, key_file.read(place.keys), key)
    back_up(place, tmp_path / "backup")
    assert (tmp_path / "backup" / "logbook.keys.json").exists()
    done = restore(tmp_path / "backup", place)
    assert (done.sealed, done.was_sealed) == (False, False)


def test_a_backup_made_between_unsealing_and_sealing_again_is_told(
    place: KeptPlace, tmp_path: Path
) -> None:
    key = sealed(place)
    sealing.unseal(place, key_file.read(place.keys), key)
    target = tmp_path / "backup"
    back_up(place, target)
    assert (target / "logbook.keys.json").exists()
    assert sealing.seal(place, key_file.read(place.keys), key).clear == (target,)
    back_up(place, target)
    assert sealing.seal(place, key_file.read(place.keys), key).clear == ()
    rebuild(place)  # the sealed logbook is put aside, without a key file beside it
    (aside,) = place.aside_folders()
    before = dict(folder_bytes(aside))
    assert sealing.seal(place, key_file.read(place.keys), key).clear == ()
    assert dict(folder_bytes(aside)) == before  # looking leaves nothing there


def test_an_old_backup_in_the_clear_is_restored_with_its_state(
    place: KeptPlace, tmp_path: Path
) -> None:
    target = tmp_path / "backup"
    back_up(place, target)
    before = rows(place.logbook)
    sealed(place)
    keys = place.keys.read_bytes()
    done = restore(target, place)
    assert (done.sealed, done.was_sealed) == (False, True)
    assert not place.keys.exists()
    assert rows(place.logbook) == before
    assert (done.aside[0] / place.keys.name).read_bytes() == keys


def test_a_growing_recording_is_copied_up_to_its_last_whole_chunk(
    place: KeptPlace, tmp_path: Path
) -> None:
    sealed(place)
    with Logbook.open(place.logbook) as book:
        recorder = FileRecorder(place.recordings, book)
        recorder.begin({"athlete_code": "UNDER-WAY"})
        while not any("UNDER-WAY" in p.name for p in place.recording_files()):
            pass
        back_up(place, tmp_path / "backup")
        assert recorder.stop()
    found = list((tmp_path / "backup" / "recordings").iterdir())
    (copy,) = (p for p in found if "UNDER-WAY" in p.name)
    assert recordings.read(copy).header["athlete_code"] == "UNDER-WAY"


def test_a_rebuilt_logbook_is_sealed_as_the_old_one(place: KeptPlace) -> None:
    sealed(place)
    before = readable(place)
    done = rebuild(place)
    assert done.problems == ()
    after = readable(place)
    told = after.pop("notes.content"), before.pop("notes.content")
    assert all(isinstance(notes, list) for notes in told)
    assert after == before
    assert WORDS.search(b"".join(raw for _, raw in folder_bytes(place.base))) is None
    place.keys.unlink()
    with pytest.raises(FileError, match="its key is not here"):
        Logbook.open(place.logbook)


def test_rebuilt_from_recordings_alone_it_is_sealed_and_says_so(
    place: KeptPlace,
) -> None:
    sealed(place)
    for path in place.logbook_files():
        path.unlink()
    assert rebuild(place).sets == 3
    assert WORDS.search(b"".join(raw for _, raw in folder_bytes(place.base))) is None
    place.keys.unlink()
    with pytest.raises(FileError, match="its key is not here"):
        Logbook.open(place.logbook)


def test_erasing_reaches_what_is_sealed(place: KeptPlace, tmp_path: Path) -> None:
    sealed(place)
    with Logbook.open(place.logbook) as book:
        (other,) = (p for p in book.people.search() if p.details.code == "DEMO-6")
        session = book.begin_session(other.id)
        words = {"text": f"asked for {NAMES['DEMO-3']}"}
        book.session_notes.add(session, "note", words)
    back_up(place, tmp_path / "backup")
    found = look_for(place, "DEMO-3")
    assert found.names == (NAMES["DEMO-3"],)
    done = erase(place, found)
    assert done.recordings == 2
    # The name in a note of somebody else, here and in the backup: only opened texts
    # tell of it.
    assert len(done.left) == 2
    assert all("notes.content" in words for words in done.left)


@pytest.mark.expects_log("sealed value of athletes.name is damaged")
def test_erasing_tells_of_names_that_it_could_not_search_for(
    place: KeptPlace, tmp_path: Path
) -> None:
    (tmp_path / "other").mkdir()
    other = marked_place(tmp_path / "other")
    sealed(other)
    sealed(place)
    back_up(place, tmp_path / "backup")
    aside = place.base / "before-restore-x"
    aside.mkdir()
    shutil.copy(other.logbook, aside / place.logbook.name)  # its key is not here
    keyring._held.pop(key_file.read(other.keys).key_id)
    for logbook in (place.logbook, tmp_path / "backup" / "logbook.db"):
        with closing(sqlite3.connect(logbook)) as raw:
            query = "UPDATE athletes SET name = (SELECT notes FROM athletes WHERE code"
            raw.execute(f"{query} = 'x-1') WHERE code = 'DEMO-6'")
            raw.commit()
    found = look_for(place, "DEMO-6")
    assert found.names == ()
    done = erase(place, found)
    told = [words for words in done.left if "not searched for" in words]
    assert len(told) == 3
    assert str(place.logbook) in told[0]
    assert "damaged" in told[0]
    assert str(tmp_path / "backup") in told[1]
    assert str(aside) in told[2]
    assert "its key" in told[2]


def test_erasing_does_not_take_what_it_cannot_open_for_clean(
    place: KeptPlace, tmp_path: Path
) -> None:
    sealed(place)
    aside = place.base / "before-restore-x"
    shutil.copytree(place.recordings, aside / place.recordings.name)
    strange = aside / place.recordings.name / "strange.force"
    keys = tmp_path / "other"
    keys.mkdir()
    other = marked_place(keys)
    sealed(other)
    shutil.copy(other.recording_files()[0], strange)
    other_id = key_file.read(other.keys).key_id
    keyring._held.pop(other_id)
    done = erase(place, look_for(place, "DEMO-6"))
    assert any("strange.force" in words for words in done.left)


# ---------------------------------------------------------------- killed

COPYING = """
import os, signal, sys
from pathlib import Path
from biofeedback.logbook.backup import back_up
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.logbook.restore import restore
left = int(sys.argv[4])
def count(event, arguments):
    global left
    if event == "os.rename":
        left -= 1
        if left == 0:
            os.kill(os.getpid(), signal.SIGKILL)
sys.addaudithook(count)
place, copy = KeptPlace(Path(sys.argv[1]), Path(sys.argv[2])), Path(sys.argv[3])
if sys.argv[5] == "backup":
    back_up(place, copy)
else:
    restore(copy, place)
"""


def copying(place: KeptPlace, copy: Path, left: int, does: str) -> int:
    names = [place.logbook, place.recordings, copy, left, does]
    return subprocess.run(  # noqa: S603  our own program
        [sys.executable, "-c", COPYING, *map(str, names)], check=False
    ).returncode


def test_a_backup_that_is_killed_holds_nothing_sealed_without_its_key(
    place: KeptPlace, tmp_path: Path
) -> None:
    plain = tmp_path / "plain"
    back_up(place, plain)
    sealed(place)
    sealed_seen = 0
    for left in range(1, 20):
        target = tmp_path / f"backup-{left}"
        shutil.copytree(plain, target)
        code = copying(place, target, left, "backup")
        held = (target / "recordings").glob("*.force")
        if b"sealed:1:" in (target / "logbook.db").read_bytes() or any(
            map(reading.is_sealed, held)
        ):
            sealed_seen += 1
            found = target / "logbook.keys.json"
            assert found.exists(), f"killed at {left}"
            assert found.read_bytes() == place.keys.read_bytes()
        if code == 0:
            break
        assert code == -signal.SIGKILL
    assert sealed_seen > 2


def test_a_restore_that_is_killed_leaves_nothing_sealed_without_its_key(
    place: KeptPlace, tmp_path: Path
) -> None:
    sealed(place)
    target = tmp_path / "backup"
    back_up(place, target)
    whole = 0
    for left in range(1, 20):
        base = tmp_path / f"new-{left}"
        here = KeptPlace(base / "logbook.db", base / "recordings")
        code = copying(here, target, left, "restore")
        if here.logbook.exists():
            whole += 1
            assert here.keys.exists(), f"killed at {left}"
        if code == 0:
            break
        assert code == -signal.SIGKILL
    assert whole > 1


CHILD = """
import os, signal, sys
from pathlib import Path
from biofeedback.logbook import sealing
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.logbook.sealed import key_file, keyring
place = KeptPlace(Path(sys.argv[1]), Path(sys.argv[2]))
found = key_file.read(Path(sys.argv[3]))
key = found.opened(sys.argv[4])
keyring.hold([key])
left = int(sys.argv[5])
def count(event, arguments):
    global left
    if event in ("open", "os.rename", "os.remove", "os.truncate", "sqlite3.connect"):
        left -= 1
        if left == 0:
            os.kill(os.getpid(), signal.SIGKILL)
sys.addaudithook(count)
if sys.argv[6] == "seal":
    from dataclasses import replace
    sealing.seal(place, replace(found, path=place.keys), key)
else:
    sealing.unseal(place, found, key)
"""


def child(place: KeptPlace, keys: Path, left: int, does: str) -> int:
    names = [place.logbook, place.recordings, keys, PASSPHRASE, left, does]
    return subprocess.run(  # noqa: S603  our own program
        [sys.executable, "-c", CHILD, *map(str, names)], check=False
    ).returncode


@pytest.mark.slow
@pytest.mark.timeout(300)
@pytest.mark.parametrize("does", ["seal", "unseal"])
def test_killed_at_any_file_it_touches_nothing_is_lost_and_it_goes_on(
    place: KeptPlace, tmp_path: Path, does: str
) -> None:
    before = readable(place)
    loose = tmp_path / "loose.keys.json"
    key = MasterKey.new()
    if does == "unseal":
        key = sealed(place)
        shutil.copy(place.keys, loose)
    else:
        key_file.made(loose, key, passphrase=PASSPHRASE, code=CODE).write()
    keyring.hold([key])
    kills = 0
    for left in range(1, 400, 5):
        work = tmp_path / "work"
        shutil.rmtree(work, ignore_errors=True)
        shutil.copytree(place.base, work)
        here = KeptPlace(work / "logbook.db", work / "recordings")
        code = child(here, here.keys if does == "unseal" else loose, left, does)
        if code == 0:
            break
        assert code == -signal.SIGKILL
        kills += 1
        assert readable(here) == before, f"after a kill at {left}"
        keys = here.keys if here.keys.exists() else loose
        found = replace(key_file.read(keys), path=here.keys)
        change = sealing.unseal if does == "unseal" else sealing.seal
        assert change(here, found, key).problems == ()
        assert readable(here) == before
        assert not any(p.name.startswith(".") for p in here.recordings.iterdir())
        raw = b"".join(raw for _, raw in folder_bytes(work))
        assert (WORDS.search(raw) is None) == (does == "seal"), f"after {left}"
    else:
        pytest.fail("it never came to its end")
    assert kills > 5


def test_a_recording_in_another_folder_is_brought_home_and_sealed(
    place: KeptPlace, tmp_path: Path
) -> None:
    here = place.recording_files()[0]
    there = tmp_path / here.name
    shutil.move(here, there)
    away.note(place.recordings, away.Away(there, here.name, begun_at_home=False))
    key = sealed(place)
    assert reading.is_sealed(here)
    assert not there.exists()

    lost = tmp_path / "not plugged in" / "x.force"
    away.note(place.recordings, away.Away(lost, "x.force", begun_at_home=False))
    shutil.move(here, there)
    away.note(place.recordings, away.Away(there, here.name, begun_at_home=False))
    done = sealing.unseal(place, key_file.read(place.keys), key)
    assert not reading.is_sealed(here)
    assert [str(lost) in words for words in done.problems] == [True]
