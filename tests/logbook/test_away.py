"""A recording that goes on in a second folder, and how it comes home; on real files."""

from __future__ import annotations

import time
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import numpy as np
import pytest
from logbook.numbered import header, numbers, sample_bytes

from biofeedback.errors import FileError
from biofeedback.logbook import (
    away,
    folders,
    recording_file,
    recording_format,
    recordings,
)
from biofeedback.logbook.away import Away
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.keeper import Begin, End, Enter, Keeper, Put
from biofeedback.logbook.recorder import FileRecorder
from biofeedback.logbook.recording_file import RecordingFile
from biofeedback.logbook.sealed import keyring
from biofeedback.logbook.sealed.container import Sealer
from biofeedback.logbook.sealed.master_key import MasterKey
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import Close, Header

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from biofeedback.phrase import Phrase

NAME = "20260301T120000Z_A-1_x.force"
SET = "0191f000-0000-7000-8000-000000000001"


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def home(tmp_path: Path) -> Path:
    return tmp_path / "recordings"


@pytest.fixture
def second(tmp_path: Path) -> Path:
    folder = tmp_path / "second"
    folder.mkdir()
    return folder


def only(folder: Path) -> Path:
    (path,) = folder.glob("*.force")
    return path


def head() -> bytes:
    content = recording_format.completed(
        header(set_id=SET), set_id=SET, started_utc=datetime(2026, 3, 1, tzinfo=UTC)
    )
    return encode(Header(content))


def begin(home: Path) -> Begin:
    return Begin(home / NAME, head())


def put(first: int) -> Put:
    return Put(sample_bytes(first, 8), own=False)


def close() -> Put:
    return Put(encode(Close({"samples": 16}, 16)), own=True)


def counts(path: Path) -> np.ndarray:
    return recordings.counts(path)[0].counts


def wait(recorder: FileRecorder, folder: Path) -> None:
    """Until the recorder's own thread has made a file there."""
    until_s = time.monotonic() + 10.0
    while not list(folder.glob("*.force")):
        assert time.monotonic() < until_s, str(recorder.take_failure())
        time.sleep(0.01)


def sent_to(
    folder: Path, book: Logbook, home: Path, tell: Callable[[Phrase], None]
) -> Keeper:
    """A keeper whose recording goes on in a folder after its first frame."""
    keeper = Keeper(book, tell)
    keeper.work([begin(home), put(0)])
    keeper.use_folder(folder)
    return keeper


def is_home(home: Path, samples: int) -> None:
    """The one recording is at home under its name, whole."""
    assert only(home).name == NAME
    np.testing.assert_array_equal(counts(only(home)), numbers(0, samples))


def needs_folder(recorder: FileRecorder) -> bool:
    return recorder.needs_folder


def test_what_cannot_be_begun_goes_whole_to_a_second_folder_and_comes_home(
    book: Logbook, home: Path, second: Path
) -> None:
    home.write_text("a file stands in the folder's way")
    recorder = FileRecorder(home, book)
    recorder.begin(header(set_id=SET))
    recorder.put(sample_bytes(0, 8))
    until_s = time.monotonic() + 10.0
    while not needs_folder(recorder):
        assert time.monotonic() < until_s
        time.sleep(0.01)
    recorder.record_in(second)
    wait(recorder, second)
    home.unlink()  # the ordinary folder works again
    recorder.put(sample_bytes(8, 8))
    recorder.finish({"samples": 16}, sequence=16)
    assert recorder.stop()

    assert not needs_folder(recorder)
    assert list(second.iterdir()) == []
    assert not away.note_of(home).exists()
    np.testing.assert_array_equal(counts(only(home)), numbers(0, 16))
    row = book.set_by_id(SET)
    assert row is not None
    assert row.closed_utc is not None
    told = str(recorder.take_failure())
    assert "cannot be written" in told
    assert f"goes on in {second}" in told
    assert "back in its folder" in told


def test_what_was_begun_at_home_is_whole_in_the_second_folder_and_then_at_home(
    book: Logbook, home: Path, second: Path
) -> None:
    told: list[Phrase] = []
    keeper = Keeper(book, told.append)
    keeper.work([begin(home), Enter(lambda *_: None), put(0)])
    part = only(home).read_bytes()
    keeper.use_folder(second)
    keeper.work([put(8)])
    assert only(second).read_bytes().startswith(part)
    assert [one.name for one in away.listed(home)] == [NAME]
    keeper.work([close(), End()])

    assert list(second.iterdir()) == []
    is_home(home, 16)


def test_it_stays_noted_while_home_does_not_take_it_and_the_next_start_brings_it(
    book: Logbook, home: Path, second: Path
) -> None:
    home.write_text("in the way")
    told: list[Phrase] = []
    keeper = sent_to(second, book, home, told.append)
    keeper.work([put(8), close(), End()])
    (one,) = away.listed(home)
    assert one.path == only(second)
    assert not keeper.give_up()  # so that it is told when the window closes
    assert "the next start brings it home" in str(told[-1])

    assert [left for left, _ in away.bring_all_home(home)] == [one]
    home.unlink()
    assert away.bring_all_home(home) == []
    np.testing.assert_array_equal(counts(only(home)), numbers(0, 16))
    assert away.listed(home) == []


def test_the_sets_after_it_begin_in_the_second_folder_while_home_is_lost(
    book: Logbook, home: Path, second: Path
) -> None:
    home.write_text("in the way")
    keeper = sent_to(second, book, home, lambda _: None)
    assert keeper.work([close(), End()])
    assert keeper.work([begin(home), put(8)])  # on disk at once, nobody asked again
    assert len(list(second.glob("*.force"))) == 2
    keeper.work([End()])
    home.unlink()
    assert keeper.work([begin(home), put(16)])
    assert len(list(home.glob("*.force"))) == 3
    keeper.let_go()


def test_a_second_folder_that_fails_too_is_told_and_a_third_takes_all(
    book: Logbook, home: Path, second: Path, tmp_path: Path
) -> None:
    home.write_text("in the way")
    wrong = tmp_path / "wrong"
    wrong.write_text("no folder either")
    told: list[Phrase] = []
    keeper = sent_to(wrong, book, home, told.append)
    assert not keeper.work([put(8)])
    assert str(wrong) in str(told[-1])
    keeper.use_folder(second)
    assert keeper.work([])
    np.testing.assert_array_equal(counts(only(second)), numbers(0, 16))
    assert [one.path for one in away.listed(home)] == [only(second)]
    keeper.let_go()


def test_of_a_very_long_set_head_and_end_go_on(
    home: Path, second: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(recording_file, "HELD_MAX_BYTES", 2_000)
    monkeypatch.setattr(recording_file, "TRIMMED_BYTES", 200)
    file = RecordingFile(home / NAME)
    file.add(head(), own=True)
    for first in range(0, 8000, 8):
        file.add(sample_bytes(first, 8), own=False)
    file.flush()
    other = file.in_folder(second)
    assert not other.whole
    other.flush()
    other.close()
    file.close()
    survey = recordings.read(only(second)).survey()
    assert survey.damaged == 0
    assert counts(only(second))[-1, 0] == numbers(0, 8000)[-1, 0]
    assert only(second).stat().st_size < 4_000


def test_what_is_at_home_is_never_written_over(home: Path, second: Path) -> None:
    home.mkdir()
    (home / NAME).write_bytes(b"another")
    (second / NAME).write_bytes(b"this one, longer")
    now = away.bring_home(home, Away(second / NAME, NAME, begun_at_home=False))
    assert now != home / NAME
    assert (home / NAME).read_bytes() == b"another"
    assert now.read_bytes() == b"this one, longer"


def test_a_note_that_is_none_is_told(home: Path) -> None:
    for text in ("{", "[1]", '[{"name": "../x", "path": "y", "begun_at_home": true}]'):
        away.note_of(home).write_text(text)
        with pytest.raises(FileError, match="elsewhere"):
            away.listed(home)


def test_where_the_second_folder_fails_a_healthy_home_takes_the_recording(
    book: Logbook, home: Path, second: Path
) -> None:
    wrong = second / "wrong"
    wrong.write_text("no folder")
    told: list[Phrase] = []
    keeper = sent_to(wrong, book, home, told.append)
    assert keeper.work([put(8)])
    assert str(wrong) in str(told[-1])
    assert f"written in {home} as before" in str(told[-1])
    assert not away.note_of(home).exists()  # nothing was ever written there
    assert keeper.work([close(), End()])
    np.testing.assert_array_equal(counts(only(home)), numbers(0, 16))
    assert not keeper.trouble


def test_home_can_be_picked_again_while_neither_folder_takes_it(
    book: Logbook, home: Path, second: Path
) -> None:
    home.write_text("in the way")
    wrong = second / "wrong"
    wrong.write_text("no folder")
    told: list[Phrase] = []
    keeper = sent_to(wrong, book, home, told.append)
    assert not keeper.work([put(8)])
    keeper.use_folder(home)
    home.unlink()
    assert keeper.work([close(), End()])
    assert "written again" in str(told[-1])
    is_home(home, 16)
    assert not away.note_of(home).exists()


def test_from_the_second_folder_it_can_go_back_home_within_the_set(
    book: Logbook, home: Path, second: Path
) -> None:
    names: list[str] = []
    keeper = sent_to(second, book, home, lambda _: None)
    assert keeper.work([put(8)])
    keeper.use_folder(home)
    assert keeper.work([put(16)])
    whole = max(home.glob("*.force"), key=lambda path: path.stat().st_size)
    np.testing.assert_array_equal(counts(whole), numbers(0, 24))
    keeper.work([Enter(lambda _, name: names.append(name)), close(), End()])

    assert names == [NAME]
    assert list(second.iterdir()) == []
    is_home(home, 24)
    assert away.listed(home) == []


def test_where_a_second_folder_fails_later_the_recording_goes_home(
    book: Logbook, home: Path, second: Path
) -> None:
    home.write_text("in the way")
    keeper = sent_to(second, book, home, lambda _: None)
    assert keeper.work([put(8)])
    only(second).unlink()  # the stick is pulled
    second.rmdir()
    second.write_text("no folder any more")
    home.unlink()
    assert keeper.work([put(16)])
    assert keeper.work([close(), End()])
    is_home(home, 24)


def test_a_move_is_told_once_and_in_one_sentence(
    book: Logbook, home: Path, second: Path
) -> None:
    home.write_text("in the way")
    told: list[Phrase] = []
    keeper = sent_to(second, book, home, told.append)
    keeper.work([put(8)])
    keeper.work([put(16)])
    assert len(told) == 2
    assert "goes on in" in str(told[-1])
    keeper.let_go()


def sealed_bytes(key: MasterKey, *pieces: bytes) -> bytes:
    sealer = Sealer(key)
    return sealer.beginning + b"".join(sealer.sealed(piece) for piece in pieces)


def test_a_sealed_beginning_in_many_small_parts_is_replaced_by_the_whole(
    home: Path, second: Path
) -> None:
    key = MasterKey.new()
    keyring.hold([key])
    parts = [head(), *(sample_bytes(first, 8) for first in range(0, 800, 8))]
    home.mkdir()
    (home / NAME).write_bytes(sealed_bytes(key, *parts))
    whole = b"".join(parts) + sample_bytes(800, 8)
    (second / NAME).write_bytes(sealed_bytes(key, whole))
    assert (home / NAME).stat().st_size > (second / NAME).stat().st_size
    away.bring_home(home, Away(second / NAME, NAME, begun_at_home=True))
    assert list(second.iterdir()) == []
    is_home(home, 808)
    keyring.forget()


def test_what_is_no_beginning_of_it_is_never_replaced(home: Path, second: Path) -> None:
    home.mkdir()
    (home / NAME).write_bytes(head() + sample_bytes(8, 8))
    (second / NAME).write_bytes(head() + sample_bytes(0, 8) + sample_bytes(8, 8))
    now = away.bring_home(home, Away(second / NAME, NAME, begun_at_home=True))
    assert now != home / NAME
    assert (home / NAME).read_bytes() == head() + sample_bytes(8, 8)
    np.testing.assert_array_equal(counts(now), numbers(0, 16))


@pytest.mark.parametrize("step", ["replace", "unlink"])
def test_a_kill_while_it_comes_home_leaves_one_file_and_no_note(
    home: Path, second: Path, step: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """After the name was taken, and after the file elsewhere was removed."""
    home.mkdir()
    (home / NAME).write_bytes(head() + sample_bytes(0, 8))
    (second / NAME).write_bytes(head() + sample_bytes(0, 8) + sample_bytes(8, 8))
    one = Away(second / NAME, NAME, begun_at_home=True)
    away.note(home, one)
    with monkeypatch.context() as killed:

        def kill(*_: object) -> None:
            raise KeyboardInterrupt

        if step == "replace":
            killed.setattr(folders, "sync", kill)
        else:
            killed.setattr(away, "forget", kill)
        with pytest.raises(KeyboardInterrupt):
            away.bring_home(home, one)
    assert (second / NAME).exists() == (step == "replace")
    assert away.listed(home)
    assert away.bring_all_home(home) == []
    assert away.listed(home) == []
    assert list(second.iterdir()) == []
    is_home(home, 16)


def test_a_note_stays_while_the_disk_of_its_recording_is_not_there(
    home: Path, second: Path
) -> None:
    """What stands at home is only the beginning."""
    home.mkdir()
    (home / NAME).write_bytes(head() + sample_bytes(0, 8))
    for gone in (second / "not plugged in" / NAME, second / NAME):
        away.note(home, Away(gone, NAME, begun_at_home=True))
    assert len(away.bring_all_home(home)) == 2
    assert len(away.listed(home)) == 2


def test_a_note_of_a_whole_recording_that_is_home_is_forgotten(
    home: Path, second: Path
) -> None:
    home.mkdir()
    (home / NAME).write_bytes(head() + sample_bytes(0, 16) + close().data)
    away.note(home, Away(second / NAME, NAME, begun_at_home=True))
    assert away.bring_all_home(home) == []
    assert away.listed(home) == []


def test_where_it_cannot_be_noted_at_home_the_data_folder_tells_the_next_start(
    book: Logbook, tmp_path: Path, second: Path
) -> None:
    disk = tmp_path / "disk"
    disk.write_text("no disk")  # nor can a note be written beside the recordings
    told: list[Phrase] = []
    keeper = Keeper(book, told.append)
    keeper.work([begin(disk / "recordings"), put(0)])
    keeper.use_folder(second)
    keeper.work([put(8), close(), End()])
    keeper.give_up()
    assert not any("by hand" in str(words) for words in told)

    disk.unlink()
    assert away.bring_all_home(disk / "recordings") == []
    np.testing.assert_array_equal(counts(only(disk / "recordings")), numbers(0, 16))
    assert away.listed(disk / "recordings") == []
    assert away.listed(tmp_path / "others") == []


def test_what_can_be_noted_nowhere_is_told_at_once(
    book: Logbook, tmp_path: Path, second: Path, fresh_user_folders: Path
) -> None:
    disk, data = tmp_path / "disk", folders.data_folder()
    disk.write_text("no disk")
    data.parent.mkdir(parents=True, exist_ok=True)
    data.write_text("no folder")
    assert data.is_relative_to(fresh_user_folders)
    told: list[Phrase] = []
    keeper = Keeper(book, told.append)
    keeper.work([begin(disk / "recordings"), put(0)])
    keeper.use_folder(second)
    keeper.work([put(8)])
    words = [str(one) for one in told if "cannot be noted" in str(one)]
    assert len(words) == 1
    assert str(only(second)) in words[0]
    keeper.let_go()


def test_a_note_is_for_the_recordings_of_one_folder(tmp_path: Path) -> None:
    (here, there) = tmp_path / "a" / "recordings", tmp_path / "b" / "recordings"
    away.note(here, Away(tmp_path / NAME, NAME, begun_at_home=False))
    assert [one.name for one in away.listed(here)] == [NAME]
    assert away.listed(there) == []
    assert len(away.notes_of(folders.default_recordings())) == 1


def test_home_takes_it_again_where_the_second_folder_fails_and_that_is_told_once(
    book: Logbook, home: Path, second: Path
) -> None:
    home.write_text("in the way")
    wrong = second / "wrong"
    wrong.write_text("no folder")
    told: list[Phrase] = []
    keeper = sent_to(wrong, book, home, told.append)
    home.unlink()
    assert keeper.work([put(8)])
    assert keeper.work([put(16)])
    assert len(told) == 2
    assert f"written in {home} as before" in str(told[-1])
    np.testing.assert_array_equal(counts(only(home)), numbers(0, 24))
    keeper.let_go()
