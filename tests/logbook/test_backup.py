"""Backups of a place in use, and their way back."""

from __future__ import annotations

import json
import os
import shutil
import sqlite3
import stat
import subprocess
import sys
import threading
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest
from logbook.killed_backup import killed_at
from session.kept_logbook import fill
from session.visit_on_rig import OnRig

from biofeedback.errors import FileError, UserError
from biofeedback.logbook import away, folders, recordings
from biofeedback.logbook.audit import Action
from biofeedback.logbook.backup import back_up
from biofeedback.logbook.copy_manifest import checksum
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.erasable import look_for
from biofeedback.logbook.erasure import erase
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.logbook.restore import restore
from biofeedback.logbook.rows import NewSet
from biofeedback.logbook.schema import SCHEMA_REVISION
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

ERASED = "DEMO-6"


@pytest.fixture
def place(tmp_path: Path) -> KeptPlace:
    (tmp_path / "here").mkdir(mode=0o700)
    logbook, held = fill(tmp_path / "here")
    return KeptPlace(logbook, held)


@pytest.fixture
def target(tmp_path: Path) -> Path:
    return tmp_path / "disk" / "backup"


def contents(folder: Path) -> dict[str, bytes]:
    """Every file below a folder."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def rows(logbook: Path) -> list[str]:
    """All that is in a logbook, the audit left out."""
    raw = sqlite3.connect(f"{logbook.as_uri()}?mode=ro", uri=True)
    try:
        return [line for line in raw.iterdump() if 'INTO "audit"' not in line]
    finally:
        raw.close()


# ------------------------------------------------------------------ making one


def test_a_backup_holds_all_and_the_next_one_copies_only_what_changed(
    place: KeptPlace, target: Path
) -> None:
    first = back_up(place, target)
    held = sorted(path.name for path in place.recordings.iterdir())
    assert first.copied == 1 + len(held)
    assert first.same == 0
    assert rows(target / "logbook.db") == rows(place.logbook)
    for name in held:
        copy = target / "recordings" / name
        assert copy.read_bytes() == (place.recordings / name).read_bytes()
    before = contents(target)
    again = back_up(place, target)
    assert (again.copied, again.copied_bytes) == (0, 0)
    assert again.same == 1 + len(held)
    assert contents(target) == before

    shutil.copy(place.recordings / held[0], place.recordings / "another.force")
    with Logbook.open(place.logbook) as book:
        book.add_athlete("NEW-1")
    changed = back_up(place, target)
    assert (changed.copied, changed.same) == (2, len(held))
    assert rows(target / "logbook.db") == rows(place.logbook)


def test_a_backup_is_for_its_owner_alone_whatever_the_umask(
    place: KeptPlace, target: Path
) -> None:
    before = os.umask(0)
    try:
        back_up(place, target)
    finally:
        os.umask(before)
    for path in [target, *target.rglob("*")]:
        wanted = 0o700 if path.is_dir() else 0o600
        assert stat.S_IMODE(path.stat().st_mode) == wanted, path


def test_a_backup_while_others_write_is_of_one_moment(
    place: KeptPlace, target: Path
) -> None:
    """Each writer adds an athlete and the visit of it in one transaction."""
    stop = threading.Event()
    written: list[str] = []

    def writer(name: str) -> None:
        with Logbook.open(place.logbook) as book:
            while not stop.is_set():
                key = book.add_athlete(f"{name}-{len(written)}")
                book.begin_session(key)
                written.append(key)

    writers = [threading.Thread(target=writer, args=(name,)) for name in "AB"]
    for each in writers:
        each.start()
    try:
        for number in range(5):
            back_up(place, target / str(number))
    finally:
        stop.set()
        for each in writers:
            each.join()
    assert written
    for number in range(5):
        raw = sqlite3.connect(target / str(number) / "logbook.db")
        assert raw.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert raw.execute("PRAGMA foreign_key_check").fetchall() == []
        raw.close()


def test_what_a_running_program_has_just_entered_is_in_the_backup(
    place: KeptPlace, target: Path
) -> None:
    with Logbook.open(place.logbook) as book:  # its rows are not in the file itself yet
        for number in range(3):
            book.add_athlete(f"JUST-{number}")
            back_up(place, target)
            assert rows(target / "logbook.db") == rows(place.logbook)


def test_a_recording_in_progress_is_copied_to_its_last_whole_frame(
    tmp_path: Path, target: Path
) -> None:
    place = KeptPlace(tmp_path / "here" / "logbook.db", tmp_path / "here" / "rec")
    with Logbook.open(place.logbook) as book:
        rig = OnRig(book, place.recordings)
        rig.begin()
        rig.run(3.0)
        rig.session._recorder.stop()  # type: ignore[union-attr]  # all so far is on disk
        (path,) = place.recording_files()
        # The disk has taken half of a frame, and the program is still writing.
        whole = path.stat().st_size
        with path.open("ab") as file:
            file.write(b"\x05half")
        with _held(path):
            done = back_up(place, target)
        rig.session.close()
    assert done.copied == 2
    copy = target / "recordings" / path.name
    assert copy.stat().st_size == whole
    survey = recordings.read(copy).survey()
    assert (survey.damaged, survey.cut_bytes, survey.totals) == (0, 0, None)
    assert survey.samples > 0


class _held:  # noqa: N801  used as a function is
    """Another process is writing the recording."""

    def __init__(self, path: Path) -> None:
        code = (
            "import os, sys\n"
            "from biofeedback.logbook import claims\n"
            "assert claims.claim(os.open(sys.argv[1], os.O_RDWR))\n"
            "print('held', flush=True)\n"
            "sys.stdin.read()\n"
        )
        self._child = subprocess.Popen(  # noqa: S603  our own words
            [sys.executable, "-c", code, str(path)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
        )

    def __enter__(self) -> None:
        assert self._child.stdout is not None
        assert self._child.stdout.readline() == b"held\n"

    def __exit__(self, *_fault: object) -> None:
        self._child.communicate()


def test_a_folder_with_something_else_in_it_is_refused(
    place: KeptPlace, target: Path
) -> None:
    target.mkdir(parents=True)
    (target / "letter.txt").write_text("Dear colleague")
    with pytest.raises(FileError, match="something else"):
        back_up(place, target)
    assert contents(target) == {"letter.txt": b"Dear colleague"}


def test_a_backup_does_not_become_poorer_unseen(place: KeptPlace, target: Path) -> None:
    back_up(place, target)
    before = contents(target)
    for path in [*place.logbook_files(), *place.recording_files()]:
        path.unlink()
    Logbook.open(place.logbook).close()  # a new and empty one
    with pytest.raises(UserError, match=r"holds 3 sets, this logbook only 0"):
        back_up(place, target)
    assert contents(target) == before


def test_what_a_restore_took_away_is_no_erasure_for_a_newer_backup(
    place: KeptPlace, target: Path, tmp_path: Path
) -> None:
    """The audit is carried over, with an erasure that the newer backup went through."""
    back_up(place, tmp_path / "older")
    later = place.recordings / "later.force"
    shutil.copy(place.recording_files()[0], later)
    with Logbook.open(place.logbook) as book:
        session = book.begin_session(book.add_athlete("INV-7"))
        began = datetime(2026, 1, 12, tzinfo=UTC)
        book.begin_set(NewSet(session, {}, {}, later.name, began))
    back_up(place, target)
    erase(place, look_for(place, "DEMO-3"))
    restore(tmp_path / "older", place)
    before = contents(target)
    with pytest.raises(UserError, match=r"holds 3 sets, this logbook only 2"):
        back_up(place, target)
    assert contents(target) == before


def test_the_backup_of_another_logbook_is_not_written_over(
    place: KeptPlace, target: Path, tmp_path: Path
) -> None:
    """Two computers and one disk: the other one has more sets."""
    began = datetime(2026, 1, 12, tzinfo=UTC)
    with Logbook.open(tmp_path / "other" / "logbook.db") as book:
        session = book.begin_session(book.add_athlete("INV-1"))
        for number in range(9):
            book.begin_set(NewSet(session, {}, {}, f"{number}.force", began))
    other = KeptPlace(tmp_path / "other" / "logbook.db", tmp_path / "other" / "r")
    back_up(place, target)
    before = contents(target)
    with pytest.raises(UserError, match="holds the backup of another logbook"):
        back_up(other, target)
    assert contents(target) == before


def test_a_first_backup_that_was_cut_off_goes_on(
    place: KeptPlace, target: Path
) -> None:
    def pull(done: int, _total: int) -> None:
        if done == 2:
            raise OSError(19, "No such device")

    with pytest.raises(FileError, match="cannot be written"):
        back_up(place, target, progress=pull)
    with pytest.raises(FileError, match="holds no logbook"):
        restore(target, place)
    back_up(place, target)
    there = KeptPlace(target.parent / "new" / "logbook.db", target.parent / "new" / "r")
    restore(target, there)
    assert rows(there.logbook) == rows(place.logbook)


def test_a_recording_that_is_only_gone_stays_in_the_backup(
    place: KeptPlace, target: Path
) -> None:
    back_up(place, target)
    lost = place.recording_files()[0]
    lost.unlink()
    assert back_up(place, target).gone == 1
    assert (target / "recordings" / lost.name).exists()
    restore(target, place)
    assert lost.exists()


# ------------------------------------------------------------------ and killed


def _put_back(target: Path, folder: Path) -> tuple[list[str], dict[str, bytes]]:
    """What a restore of the backup gives: rows, recordings and preferences."""
    there = KeptPlace(folder / "logbook.db", folder / "recordings")
    restore(target, there)
    files = contents(there.recordings)
    files["preferences"] = there.preferences.read_bytes()
    return rows(there.logbook), files


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "fork"), reason="the child is a fork")
@pytest.mark.parametrize("erased", [False, True])
def test_a_backup_that_is_killed_at_any_step_is_the_earlier_or_the_new_one(
    place: KeptPlace, target: Path, tmp_path: Path, *, erased: bool
) -> None:
    place.preferences.write_text("{}")
    back_up(place, target)
    old = _put_back(target, tmp_path / "old")
    if erased:  # while the disk is away
        target.rename(tmp_path / "away")
        erase(place, look_for(place, ERASED))
        (tmp_path / "away").rename(target)
    held = place.recording_files()
    shutil.copy(held[0], place.recordings / "another.force")
    held[-1].write_bytes(held[-1].read_bytes() + held[0].read_bytes())
    place.preferences.write_text('{"night": true}')
    with Logbook.open(place.logbook) as book:
        book.add_athlete("LATER-1")
    shutil.copytree(target, tmp_path / "before")
    seen, step = set[str](), 0
    while True:
        step += 1
        shutil.rmtree(target)
        shutil.copytree(tmp_path / "before", target)
        killed = killed_at(step, place, target)
        found = _put_back(target, tmp_path / f"{step}")
        now = (
            rows(place.logbook),
            {
                **contents(place.recordings),
                "preferences": place.preferences.read_bytes(),
            },
        )
        assert found in (old, now), f"killed at step {step}"
        seen.add("old" if found == old else "new")
        back_up(place, target)
        assert _put_back(target, tmp_path / f"{step} again") == now
        listed = json.loads((target / "manifest.json").read_text())["files"]
        assert contents(target).keys() == {"manifest.json", *listed}, step
        if not killed:
            break
    assert step > 10
    assert seen == {"old", "new"}


# ------------------------------------------------------------------ and back


def test_what_comes_back_is_what_was_and_what_was_there_is_kept(
    place: KeptPlace, target: Path
) -> None:
    back_up(place, target)
    then, held = rows(place.logbook), contents(place.recordings)
    with Logbook.open(place.logbook) as book:
        book.add_athlete("LATER-1", "Later Invented")
        book.audit.add(Action.REPORTED, code="LATER-1", place="/later.pdf")
        before = book.audit.list()
    later, name = rows(place.logbook), "later.force"
    shutil.copy(place.recording_files()[0], place.recordings / name)
    done = restore(target, place)
    assert rows(place.logbook) == then
    assert contents(place.recordings) == held
    assert (done.files, done.not_in_backup) == (1 + len(held), 1)
    (aside,) = done.aside
    assert rows(aside / "logbook.db") == later
    assert contents(aside / "recordings").keys() == {*held, name}
    with Logbook.open(place.logbook) as book:
        assert [row.action for row in book.audit.list(limit=2)] == [
            "restored",
            "reported",
        ]
        assert book.audit.list()[1:] == before
    for path in [*place.recordings.rglob("*"), place.logbook]:
        assert stat.S_IMODE(path.stat().st_mode) == 0o600


@pytest.mark.parametrize("harm", ["flip", "cut", "missing", "logbook", "manifest"])
def test_a_backup_that_is_not_whole_is_refused_before_anything_is_touched(
    place: KeptPlace, target: Path, harm: str
) -> None:
    back_up(place, target)
    (one, *_) = sorted((target / "recordings").iterdir())
    if harm == "flip":
        content = bytearray(one.read_bytes())
        content[len(content) // 2] ^= 1
        one.write_bytes(content)
    elif harm == "cut":
        os.truncate(one, one.stat().st_size - 1)
    elif harm == "missing":
        one.unlink()
    elif harm == "logbook":
        content = bytearray((target / "logbook.db").read_bytes())
        content[5000] ^= 255
        (target / "logbook.db").write_bytes(content)
    else:
        told = json.loads((target / "manifest.json").read_text())
        told["files"]["recordings/../../x"] = told["files"]["logbook.db"]
        (target / "manifest.json").write_text(json.dumps(told))
    before = contents(place.base)
    with pytest.raises(FileError) as caught:
        restore(target, place)
    assert str(target) in str(caught.value)
    assert contents(place.base) == before


def test_a_backup_of_a_newer_program_is_refused(place: KeptPlace, target: Path) -> None:
    back_up(place, target)
    newer = f"{int(SCHEMA_REVISION) + 1:04}"
    raw = sqlite3.connect(target / "logbook.db")
    raw.execute("UPDATE alembic_version SET version_num = ?", [newer])
    raw.commit()
    raw.close()
    told = json.loads((target / "manifest.json").read_text())
    size, sha256 = checksum(target / "logbook.db")
    told["files"]["logbook.db"] |= {"size_bytes": size, "sha256": sha256}
    (target / "manifest.json").write_text(json.dumps(told))
    before = contents(place.base)
    with pytest.raises(FileError, match="newer version"):
        restore(target, place)
    assert contents(place.base) == before


@pytest.fixture
def running(place: KeptPlace) -> Iterator[subprocess.Popen[bytes]]:
    """Another program that has read the logbook and idles."""
    code = (
        "import sys\n"
        "from biofeedback.logbook.database import Logbook\n"
        "book = Logbook.open(sys.argv[1])\n"
        "book.athletes()\n"
        "print('open', flush=True)\n"
        "sys.stdin.read()\n"
    )
    child = subprocess.Popen(  # noqa: S603  our own words
        [sys.executable, "-c", code, str(place.logbook)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    )
    assert child.stdout is not None
    assert child.stdout.readline() == b"open\n"
    yield child
    child.communicate()


def test_nothing_is_restored_under_a_program_that_is_running(
    place: KeptPlace, target: Path, running: subprocess.Popen[bytes]
) -> None:
    back_up(place, target)
    before = contents(place.recordings), rows(place.logbook)
    with pytest.raises(UserError, match="in use by a program"):
        restore(target, place)
    assert (contents(place.recordings), rows(place.logbook)) == before
    running.communicate()
    restore(target, place)


def test_a_recording_that_is_being_written_stops_a_restore(
    place: KeptPlace, target: Path
) -> None:
    back_up(place, target)
    with _held(place.recording_files()[0]), pytest.raises(UserError, match="in use"):
        restore(target, place)


def test_a_restore_that_fails_half_way_puts_back_what_was_there(
    place: KeptPlace, target: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    back_up(place, target)
    with Logbook.open(place.logbook) as book:
        book.add_athlete("LATER-1")
    before = contents(place.base)

    def no(*_: object, **_how: object) -> Logbook:
        raise FileError(place.logbook, phrase("the disk is full."))

    monkeypatch.setattr(Logbook, "open", no)
    with pytest.raises(FileError, match="the disk is full"):
        restore(target, place)
    monkeypatch.undo()
    assert contents(place.base) == before
    assert not place.aside_folders()


def test_a_restore_onto_a_bare_machine(place: KeptPlace, target: Path) -> None:
    back_up(place, target)
    there = KeptPlace(target.parent / "new" / "logbook.db", target.parent / "new" / "r")
    restore(target, there)
    assert rows(there.logbook) == rows(place.logbook)
    assert stat.S_IMODE(there.base.stat().st_mode) == folders.OWNER_ONLY_FOLDER


def test_a_recording_in_another_folder_is_brought_home_before(
    place: KeptPlace, target: Path, tmp_path: Path
) -> None:
    here = place.recording_files()[0]
    there = tmp_path / here.name
    shutil.move(here, there)
    away.note(place.recordings, away.Away(there, here.name, begun_at_home=False))
    lost = tmp_path / "not plugged in" / "x.force"
    away.note(place.recordings, away.Away(lost, "x.force", begun_at_home=False))
    done = back_up(place, target)
    assert (target / "recordings" / here.name).read_bytes() == here.read_bytes()
    assert not there.exists()
    assert len(done.problems) == 1
    assert str(lost) in done.problems[0]


def test_a_damaged_note_of_other_folders_holds_up_no_backup(
    place: KeptPlace, target: Path
) -> None:
    away.note_of(place.recordings).write_text("{")
    done = back_up(place, target)
    assert done.copied > 1
    assert "elsewhere" in done.problems[0]
