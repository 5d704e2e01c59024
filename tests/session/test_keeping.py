"""The door of the page of data: what is known of backups, on real folders."""

from __future__ import annotations

import shutil
import sqlite3
import time
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from logbook.sealed.place import sealed
from session.kept_logbook import NAMES, fill

from biofeedback.errors import UserError
from biofeedback.logbook.audit import Action
from biofeedback.logbook.copy_manifest import FILE
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.logbook.restore import restore
from biofeedback.logbook.sealed import key_file, keyring
from biofeedback.logbook.traces import Traces
from biofeedback.session import Session, demo
from biofeedback.session.keeping import FOLDER, Keeping
from biofeedback.session.keeping_words import made_words
from biofeedback.tuning.errand import Stopped

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path


class Desk:
    """A logbook with the demo recordings, and somebody without any at the desk."""

    def __init__(self, folder: Path) -> None:
        self.now = datetime.now(tz=UTC)
        place, self.recordings = fill(folder)
        self.book = Logbook.open(place)
        self.session = Session(
            demo.source(seed=3, step_us=50_000),
            logbook=self.book,
            recordings=self.recordings,
            athlete_code="INV-9",
        )
        self.door = Keeping(
            self.book, self.recordings, self.session, clock=lambda: self.now
        )
        self.place = KeptPlace(place, self.recordings)
        self.told: list[tuple[int, int]] = []

    def tell(self, done: int, total: int) -> None:
        self.told.append((done, total))


def unheard(_done: int, _total: int) -> None:
    """Nobody is told how far it is."""


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    (tmp_path / "here").mkdir()
    made = Desk(tmp_path / "here")
    yield made
    made.session.close()
    made.book.close()


@pytest.fixture
def disk(tmp_path: Path) -> Path:
    (tmp_path / "disk").mkdir()
    (tmp_path / "disk" / "letter.txt").write_text("a disk holds other things too")
    return tmp_path / "disk"


def test_a_whole_disk_may_be_picked_and_what_is_made_can_be_put_back(
    desk: Desk, disk: Path, tmp_path: Path
) -> None:
    made = desk.door.back_up(disk, desk.tell)
    assert made.folder == disk / FOLDER
    assert made.recordings == len(list(desk.recordings.glob("*.force"))) > 0
    files = [path for path in made.folder.rglob("*") if path.is_file()]
    bytes_there = sum(path.stat().st_size for path in files if path.name != FILE)
    assert made.size_bytes == bytes_there
    assert made.same_disk
    assert made.clear
    words = " ".join(made_words(made))
    assert f"{made.recordings} recordings, {bytes_there / 1e6:.1f} MB." in words
    # It is told how far it is, never backwards, up to the end.
    shares = [done / total for done, total in desk.told]
    assert shares == sorted(shares)
    assert shares[-1] == 1.0
    # And again, by picking the disk or the backup itself.
    assert desk.door.back_up(made.folder, desk.tell).folder == made.folder
    there = KeptPlace(tmp_path / "new" / "logbook.db", tmp_path / "new" / "recordings")
    restore(made.folder, there)
    with Logbook.open(there.logbook) as book:
        assert book.athletes() == desk.book.athletes()


def test_a_backup_that_the_disk_has_changed_is_not_called_made(
    desk: Desk, disk: Path
) -> None:
    """Each file that is there already has the right length."""
    made = desk.door.back_up(disk, desk.tell)
    one = next((made.folder / "recordings").iterdir())
    raw = bytearray(one.read_bytes())
    raw[len(raw) // 2] ^= 1
    one.write_bytes(raw)
    with pytest.raises(UserError, match=r"not whole: recordings/.*another folder"):
        desk.door.back_up(disk, desk.tell)


def test_a_disk_that_is_not_here_is_told_and_no_folder_made(
    desk: Desk, tmp_path: Path
) -> None:
    away = tmp_path / "stick"
    with pytest.raises(UserError, match=r"is not here now\. Plug its disk in"):
        desk.door.back_up(away, desk.tell)
    assert not away.exists()
    assert desk.door.outlook(str(away)).target is None


def test_the_last_backup_is_told_and_how_old_it_is(desk: Desk, disk: Path) -> None:
    assert desk.door.outlook("").last is None
    before = datetime.now(tz=UTC)
    desk.door.back_up(disk, desk.tell)
    outlook = desk.door.outlook("")
    assert outlook.last is not None
    assert before <= outlook.last.made_utc <= datetime.now(tz=UTC)
    assert (outlook.last.place, outlook.last.here) == (disk / FOLDER, True)
    assert outlook.target == disk / FOLDER  # nothing was picked: there again
    desk.now += timedelta(days=31, hours=1)
    assert desk.door.days_since(outlook.last) == 31
    shutil.rmtree(disk)  # unplugged
    last = desk.door.outlook("").last
    assert last is not None
    assert not last.here
    assert last.made_utc == pytest.approx(
        outlook.last.made_utc, abs=timedelta(seconds=10)
    )


def test_a_backup_that_failed_is_no_last_backup(desk: Desk, disk: Path) -> None:
    def pull(_done: int, _total: int) -> None:
        raise OSError(19, "No such device")

    with pytest.raises(UserError):
        desk.door.back_up(disk, pull)
    (row,) = desk.book.audit.list(actions=(Action.BACKED_UP,))
    assert row.place == str(disk / FOLDER)  # the audit has it, before it was whole
    assert desk.door.outlook("").last is None


def test_a_backup_that_is_stopped_leaves_the_earlier_one_to_be_put_back(
    desk: Desk, disk: Path, tmp_path: Path
) -> None:
    first = desk.door.back_up(disk, desk.tell)
    before = desk.door.outlook("").last
    desk.book.audit.add(Action.EXPORTED, place=tmp_path)  # the logbook is another one
    desk.place.preferences.write_text("{}", encoding="utf-8")
    grown = min(desk.recordings.glob("*.force"))
    was = grown.read_bytes()
    with grown.open("ab") as file:
        file.write(b"\0")

    def stop(_done: int, _total: int) -> None:
        raise Stopped

    with pytest.raises(Stopped):
        desk.door.back_up(disk, stop)
    assert (first.folder / "recordings" / grown.name).read_bytes() == was
    there = KeptPlace(tmp_path / "new" / "logbook.db", tmp_path / "new" / "recordings")
    restore(first.folder, there)
    assert desk.door.outlook("").last == before  # the one that was made, and no other
    desk.door.back_up(disk, desk.tell)  # and the next one goes on


def test_a_backup_made_after_it_was_shown_what_would_go_is_cleared_too(
    desk: Desk, disk: Path
) -> None:
    found = desk.door.look_for("DEMO-3")
    made = desk.door.back_up(disk, desk.tell)
    done = desk.door.erase(found, desk.tell)
    assert (done.backups, done.left) == (1, [])
    traces = Traces("DEMO-3", [NAMES["DEMO-3"]])
    there = [path for path in made.folder.rglob("*") if path.is_file()]
    assert there
    assert [words for path in there for words in traces.in_file(path)] == []


def test_what_waits_for_the_logbook_is_in_the_way(desk: Desk) -> None:
    """Rows that are entered later would bring somebody back who was erased."""
    session, door = desk.session, desk.door
    session.begin_set(replace(demo.PRESCRIPTION, reference=None))

    def until(seen: Callable[[], bool]) -> None:
        end_s = time.monotonic() + 20.0
        while not seen():
            session.step()
            session.take()
            assert time.monotonic() < end_s

    until(lambda: session._set_under_way)
    assert door.in_the_way("DEMO-3").startswith("A set is under way")
    with closing(sqlite3.connect(desk.place.logbook)) as other:
        other.isolation_level = None
        other.execute("BEGIN IMMEDIATE")  # it writes, and goes on writing
        session.end_set()
        until(lambda: not session._set_under_way)
        assert door.in_the_way("DEMO-3") == (
            "A set is under way, or is still being written. Try again after it."
        )
        other.execute("ROLLBACK")
    until(lambda: door.in_the_way("DEMO-3") == "")
    assert desk.book.sets_not_closed() == []


def test_a_logbook_on_a_server_is_told(desk: Desk) -> None:
    desk.book.place = "postgresql://somewhere/club"
    assert desk.door.on_server.startswith("This logbook is on a database server.")


def test_in_a_sealed_logbook_the_same_is_done(
    tmp_path: Path, disk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The thread opens names by the key that the window holds."""
    monkeypatch.setattr(key_file, "SCRYPT_N", 2**14)
    keyring.forget()
    (tmp_path / "here").mkdir()
    place = KeptPlace(*fill(tmp_path / "here"))
    sealed(place)
    with Logbook.open(place.logbook) as book:
        session = Session(
            demo.source(seed=3, step_us=50_000),
            logbook=book,
            recordings=place.recordings,
            athlete_code="INV-9",
        )
        door = Keeping(book, place.recordings, session)
        assert door.sealed
        made = door.back_up(disk, unheard)
        assert not made.clear
        assert "Names and recordings in it are sealed" in " ".join(made_words(made))
        found = door.look_for("demo-3")
        assert found.found.names == (NAMES["DEMO-3"],)
        assert found.recordings == 1
        done = door.erase(found, unheard)
        assert done.left == []
        assert done.backups == 1
        assert book.athlete_by_code("DEMO-3") is None
        assert book.athlete_by_code("DEMO-6") is not None
        session.close()
    keyring.forget()
