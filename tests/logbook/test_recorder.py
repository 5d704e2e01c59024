"""The recorder on real files: what it keeps, and what it does when it cannot."""

from __future__ import annotations

import json
import shutil
import signal
import sqlite3
import stat
import subprocess
import sys
import threading
import time
from typing import TYPE_CHECKING

import numpy as np
import pytest
from logbook.numbered import header, numbers, rep_end, sample_bytes

from biofeedback.logbook import claims, keeper, recordings
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.engine import BUSY_S
from biofeedback.logbook.keeper import Begin, End, Enter, Item, Keeper, Put
from biofeedback.logbook.recorder import FileRecorder
from biofeedback.wire.frames import Close, Event, Header, Samples

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from biofeedback.rig.source import Recorder


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "kept" / "recordings"


def record(
    recorder: FileRecorder, *, frames: int = 30, close: bool = True, **more: object
) -> None:
    recorder.begin(header(**more))
    for frame in range(frames):
        recorder.put(sample_bytes(8 * frame, 8))
        if frame % 10 == 9:
            recorder.event(rep_end(frame // 10 + 1), sequence=8 * (frame + 1))
    if close:
        recorder.finish({"samples": 8 * frames}, sequence=8 * frames)


def only_file(folder: Path) -> Path:
    (path,) = folder.iterdir()
    return path


# ------------------------------------------------------------ when all is well


def test_it_is_what_the_acquisition_thread_expects(book: Logbook, folder: Path) -> None:
    recorder: Recorder = FileRecorder(folder, book)
    assert recorder.take_failure() == ""


def test_a_set_is_kept_whole(book: Logbook, folder: Path) -> None:
    recorder = FileRecorder(folder, book)
    record(recorder)
    assert recorder.stop()
    assert recorder.take_failure() == ""

    path = only_file(folder)
    recording = recordings.read(path)
    frames = list(recording.frames())
    assert isinstance(frames[0], Header)
    assert isinstance(frames[-1], Close)
    assert recording.header["format"] == {
        "name": "biofeedback recording",
        "major": 1,
        "minor": 0,
    }
    assert str(recording.header["software"]).startswith("biofeedback ")
    # Each event stands right behind the samples that it followed.
    for place, frame in enumerate(frames):
        if isinstance(frame, Event):
            before = frames[place - 1]
            assert isinstance(before, Samples)
            assert int(before.counts[-1, 0]) + 1 == frame.sequence
    np.testing.assert_array_equal(recordings.counts(path)[0].counts, numbers(0, 240))
    survey = recording.survey()
    assert (survey.samples, survey.lost, survey.damaged) == (240, 0, 0)
    assert survey.totals == {"samples": 240}
    assert survey.losses() == ""

    assert [row.number for row in book.reps()] == [3, 2, 1]
    (newest, *_) = book.reps()
    assert (newest.recording, newest.athlete_code) == (path.name, "A-1")
    assert newest.task == "Leg press"
    assert book.sets_not_closed() == []


def test_files_carry_codes_only_and_are_for_their_owner(
    book: Logbook, folder: Path
) -> None:
    recorder = FileRecorder(folder, book)
    record(recorder, athlete_code="../../Ünsafe name")
    recorder.stop()
    path = only_file(folder)
    stamp, code, rest = path.name.split("_")
    assert len(stamp) == len("20260301T120000Z")
    assert code == "-nsafe-name"
    assert rest.endswith(".force")
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(folder.stat().st_mode) == 0o700
    # The logbook refuses such a code; the recording is there all the same.
    assert "athlete.code" in recorder.take_failure()


def test_two_sets_of_one_key_never_write_over_each_other(
    book: Logbook, folder: Path
) -> None:
    recorder = FileRecorder(folder, book)
    key = "0191f000-0000-7000-8000-000000000001"
    for frames in (3, 4, 5):
        record(recorder, frames=frames, set_id=key)
        assert recorder.stop()
    sizes = [
        recordings.read(path).survey().samples for path in sorted(folder.iterdir())
    ]
    assert sorted(sizes) == [24, 32, 40]


def test_a_recording_frame_never_stands_inside_other_bytes(
    book: Logbook, folder: Path
) -> None:
    recorder = FileRecorder(folder, book)
    recorder.begin(header())
    recorder.put(sample_bytes(0, 8))
    recorder.put(sample_bytes(8, 8)[:20])  # a source that was cut in mid-frame
    recorder.event({"kind": "note", "text": "cut"}, sequence=16)
    recorder.put(sample_bytes(16, 8))
    recorder.finish({}, sequence=24)
    recorder.stop()
    survey = recordings.read(only_file(folder)).survey()
    assert (survey.damaged, survey.lost, survey.frames) == (1, 8, 5)


def test_a_set_begun_before_the_last_was_finished_leaves_that_one_to_recovery(
    book: Logbook, folder: Path
) -> None:
    recorder = FileRecorder(folder, book)
    record(recorder, frames=3, close=False)
    record(recorder, frames=4)
    recorder.stop()
    surveys = [recordings.read(path).survey() for path in folder.iterdir()]
    assert sorted((s.samples, s.recovered) for s in surveys) == [
        (24, True),
        (32, False),
    ]
    assert len(book.sets_not_closed()) == 1


def test_what_is_said_outside_a_set_is_not_kept(book: Logbook, folder: Path) -> None:
    recorder = FileRecorder(folder, book)
    recorder.put(sample_bytes(0, 8))
    recorder.event({"kind": "note"}, sequence=0)
    recorder.finish({}, sequence=0)
    assert recorder.stop()
    assert not folder.exists()


def test_the_thread_lives_only_while_there_is_something_to_keep(
    book: Logbook, folder: Path
) -> None:
    recorder = FileRecorder(folder, book)
    record(recorder)
    (thread,) = [t for t in threading.enumerate() if t.name == "recorder"]
    thread.join(10)
    assert not thread.is_alive()
    assert recordings.read(only_file(folder)).survey().samples == 240


def test_content_that_is_no_json_is_told_and_not_raised(
    book: Logbook, folder: Path
) -> None:
    recorder = FileRecorder(folder, book)
    recorder.begin(header(oops=object()))
    assert "header could not be kept" in recorder.take_failure()
    assert recorder.failing  # nothing of this set is kept
    recorder.put(sample_bytes(0, 8))  # of a set that has no recording
    recorder.begin(header())
    recorder.event({"kind": "note", "value": float("nan")}, sequence=0)
    assert "event could not be kept" in recorder.take_failure()
    recorder.put(sample_bytes(0, 8))
    recorder.finish({"bad": {1, 2}}, sequence=8)
    recorder.stop()
    assert "close could not be kept" in recorder.take_failure()
    survey = recordings.read(only_file(folder)).survey()
    assert (survey.samples, survey.recovered) == (8, True)


# ------------------------------------------------------------ when it is not


def test_a_folder_that_cannot_be_made_is_told_and_tried_again(
    book: Logbook, tmp_path: Path
) -> None:
    (tmp_path / "kept").write_text("a file stands where the folder should be")
    folder = tmp_path / "kept" / "recordings"
    told: list[str] = []
    keeping = Keeper(book, told.append)
    path = folder / "a.force"
    entered: list[str] = []
    items: list[Item] = [
        Begin(path, b"HEAD\0"),
        Enter(lambda _book, name: entered.append(name)),
        Put(b"one\0", own=False),
    ]
    assert not keeping.work(items)
    assert not keeping.work([Put(b"two\0", own=False)])
    assert len(told) == 1  # the same words once
    assert str(folder) in told[0]
    assert entered == []
    (tmp_path / "kept").unlink()
    assert keeping.work([Put(b"three\0", own=False), End()])
    assert keeping.idle
    assert path.read_bytes() == b"HEAD\0one\0two\0three\0"
    assert entered == ["a.force"]
    assert told[1:] == ["The recording is being written again."]


def test_what_never_reaches_the_disk_is_told_at_the_end(
    book: Logbook, tmp_path: Path
) -> None:
    (tmp_path / "kept").write_text("in the way")
    recorder = FileRecorder(tmp_path / "kept" / "recordings", book)
    record(recorder)
    assert not recorder.stop()
    told = recorder.take_failure()
    assert "cannot be written" in told
    assert "lost" in told
    # The numbers of the reps are known and are not lost with the signal.
    assert [row.number for row in book.reps()] == [3, 2, 1]
    assert recorder.take_failure() == ""


def wait_until(recorder: FileRecorder, *, failing: bool) -> None:
    """Until the recorder's thread has found out; it tries every half second."""
    end_s = time.monotonic() + 10
    ticker = threading.Event()
    while recorder.failing is not failing:
        assert time.monotonic() < end_s, recorder.take_failure()
        ticker.wait(0.01)


def test_a_short_trouble_of_the_disk_is_over_when_it_is_over(
    book: Logbook, tmp_path: Path
) -> None:
    (tmp_path / "kept").write_text("in the way")
    recorder = FileRecorder(tmp_path / "kept" / "recordings", book)
    assert not recorder.failing
    record(recorder, close=False)
    wait_until(recorder, failing=True)
    assert "cannot be written" in recorder.take_failure()
    (tmp_path / "kept").unlink()
    wait_until(recorder, failing=False)
    assert recorder.take_failure() == "The recording is being written again."
    recorder.finish({}, sequence=240)
    assert recorder.stop()


def test_a_busy_logbook_is_no_failure_of_the_recording(
    book: Logbook, folder: Path, tmp_path: Path
) -> None:
    other = sqlite3.connect(tmp_path / "logbook.db", isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    recorder = FileRecorder(folder, book)
    record(recorder, close=False)
    end_s = time.monotonic() + 10
    ticker = threading.Event()
    told = ""
    while "busy" not in told:
        assert time.monotonic() < end_s
        ticker.wait(0.01)
        told += recorder.take_failure()
        assert not recorder.failing
    other.execute("ROLLBACK")
    other.close()
    recorder.finish({}, sequence=240)
    assert recorder.stop()


def test_memory_for_what_cannot_be_written_is_bounded(
    book: Logbook, tmp_path: Path
) -> None:
    (tmp_path / "kept").write_text("in the way")
    folder = tmp_path / "kept" / "recordings"
    recorder = FileRecorder(folder, book, kept_max_bytes=4000)
    recorder.begin(header())  # 1 kB or so
    for frame in range(100):
        recorder.put(sample_bytes(8 * frame, 8))
    recorder.event(rep_end(1), sequence=800)  # events are never dropped
    assert recorder.failing
    told = recorder.take_failure()
    assert told.count("no memory left") == 1
    (tmp_path / "kept").unlink()
    recorder.finish({}, sequence=800)
    assert recorder.stop()
    recording = recordings.read(only_file(folder))
    survey = recording.survey()
    assert 20 < survey.samples // 8 < 60
    np.testing.assert_array_equal(
        recordings.counts(recording.path)[0].counts, numbers(0, survey.samples)
    )
    assert sum(isinstance(frame, Event) for frame in recording.frames()) == 1
    assert len(book.reps()) == 1


def test_a_folder_removed_while_recording_loses_nothing(
    book: Logbook, folder: Path
) -> None:
    keeping = Keeper(book, pytest.fail)
    assert keeping.work([Begin(folder / "a.force", b"HEAD\0"), Put(b"1\0", own=False)])
    shutil.rmtree(folder)
    assert keeping.work([Put(b"2\0", own=False), End()])
    assert (folder / "a.force").read_bytes() == b"HEAD\0001\0002\0"


def test_a_busy_logbook_does_not_hold_up_the_recording(
    book: Logbook, folder: Path, tmp_path: Path
) -> None:
    other = sqlite3.connect(tmp_path / "logbook.db", isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    told: list[str] = []
    keeping = Keeper(book, told.append)
    rows: list[str] = []

    def row(logbook: Logbook, name: str) -> None:
        logbook.add_athlete("A-1")
        rows.append(name)

    path = folder / "a.force"
    before_s = time.monotonic()
    assert keeping.work([Begin(path, b"H\0"), Enter(row), Put(b"x\0", own=False)])
    assert time.monotonic() - before_s < BUSY_S  # what others wait for a busy one
    assert path.read_bytes() == b"H\0x\0"
    assert rows == []
    assert "busy" in told[0]
    other.execute("ROLLBACK")
    other.close()
    assert keeping.disk_trouble == ""
    assert keeping.work([End()])
    assert rows == ["a.force"]
    assert keeping.idle
    # The recording was never in trouble, so nothing is said of it.
    assert told[1:] == ["The logbook is being written again."]


@pytest.mark.expects_log("a row could not be entered")
def test_a_fault_at_the_logbook_does_not_stop_the_recording(
    book: Logbook, folder: Path
) -> None:
    told: list[str] = []
    keeping = Keeper(book, told.append)

    def row(_logbook: Logbook, _name: str) -> None:
        raise RuntimeError("a bug")

    path = folder / "a.force"
    assert keeping.work([Begin(path, b"H\0"), Enter(row), Put(b"x\0", own=False)])
    keeping.work([End()])
    assert path.read_bytes() == b"H\0x\0"
    assert "fault in this program" in told[0]


@pytest.mark.expects_log("the recorder has stopped")
def test_a_fault_in_the_recorder_is_told_and_the_next_set_is_kept(
    book: Logbook, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    recorder = FileRecorder(folder, book)

    def broken(*_: object) -> bool:
        raise RuntimeError("a bug")

    with monkeypatch.context() as patch:
        patch.setattr(keeper.Keeper, "_write", broken)
        recorder.begin(header())
        assert not recorder.stop()
    assert "fault in this program" in recorder.take_failure()
    recorder.put(sample_bytes(0, 8))  # of the set that was given up
    assert recorder.failing
    record(recorder)
    assert recorder.stop()
    wait_until(recorder, failing=False)
    assert recordings.read(only_file(folder)).survey().samples == 240


FULL_DISK = """
import json, resource, signal, sys
from pathlib import Path
sys.path.insert(0, sys.argv[2])
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.engine import BUSY_S
from biofeedback.logbook.keeper import Begin, End, Keeper, Put
from logbook.numbered import header, sample_bytes
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import Close, Header
from biofeedback.logbook import recording_format
from datetime import datetime, UTC

folder = Path(sys.argv[1])
told = []
with Logbook.open(folder / "logbook.db") as book:
    keeping = Keeper(book, told.append)
    content = recording_format.completed(
        header(), set_id="x", started_utc=datetime.now(tz=UTC)
    )
    keeping.work([Begin(folder / "a.force", encode(Header(content)))])
    # No file may grow beyond this: a write is cut short, the next one refused.
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    unlimited = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (3001, unlimited[1]))
    well = [
        keeping.work([Put(sample_bytes(8 * frame, 8), own=False)])
        for frame in range(100)
    ]
    cut = (folder / "a.force").stat().st_size
    resource.setrlimit(resource.RLIMIT_FSIZE, unlimited)
    end = [Put(encode(Close({}, 800)), own=True), End()]
    print(json.dumps([well.count(False), cut, keeping.work(end), told]))
"""


def test_a_full_disk_that_gets_room_again_loses_nothing(tmp_path: Path) -> None:
    run = subprocess.run(  # noqa: S603  our own interpreter and text
        [sys.executable, "-c", FULL_DISK, str(tmp_path), "tests"],
        capture_output=True,
        text=True,
        check=True,
    )
    failed, cut, well_in_the_end, told = json.loads(run.stdout)
    assert failed > 50
    assert cut == 3001  # in the middle of a frame
    assert well_in_the_end
    assert "too large" in told[0]
    assert told[1:] == ["The recording is being written again."]
    path = tmp_path / "a.force"
    np.testing.assert_array_equal(recordings.counts(path)[0].counts, numbers(0, 800))
    survey = recordings.read(path).survey()
    assert (survey.damaged, survey.recovered) == (0, False)


# ------------------------------------------------------- killed while recording


KILLED = """
import itertools, sys, time
from pathlib import Path
sys.path.insert(0, sys.argv[2])
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.recorder import FileRecorder
from logbook.numbered import header, rep_end, sample_bytes

folder = Path(sys.argv[1])
book = Logbook.open(folder / "logbook.db")
recorder = FileRecorder(folder / "recordings", book)
recorder.begin(header())
for frame in itertools.count():  # as fast as they are taken from the other end
    recorder.put(sample_bytes(8 * frame, 8))
    if frame == 50:
        recorder.event(rep_end(1), sequence=8 * 51)
    print(8 * (frame + 1), time.monotonic(), flush=True)
"""


def test_a_killed_program_loses_a_quarter_of_a_second_at_most(tmp_path: Path) -> None:
    program = subprocess.Popen(  # noqa: S603  our own interpreter and text
        [sys.executable, "-c", KILLED, str(tmp_path), "tests"],
        stdout=subprocess.PIPE,
        text=True,
    )
    assert program.stdout is not None
    progress: list[tuple[int, float]] = []
    for line in program.stdout:
        if not line.endswith("\n"):
            break  # the kill came in the middle of it
        put, moment = line.split()
        progress.append((int(put), float(moment)))
        if progress[-1][1] > progress[0][1] + 0.7:
            program.send_signal(signal.SIGKILL)
    program.wait()
    program.stdout.close()
    assert program.returncode == -signal.SIGKILL
    path = only_file(tmp_path / "recordings")
    recording = recordings.read(path)
    survey = recording.survey()
    assert survey.recovered
    assert survey.damaged == 0
    kept = survey.samples
    np.testing.assert_array_equal(recordings.counts(path)[0].counts, numbers(0, kept))
    # Everything that was put more than 0.25 s before the end is there.
    last = progress[-1][1]
    sure = max(put for put, moment in progress if moment <= last - 0.25)
    assert kept >= sure
    # The rep was complete, so it is in the logbook; and the claim is gone.
    with Logbook.open(tmp_path / "logbook.db") as book:
        assert [row.number for row in book.reps()] == [1]
        assert [row.recording for row in book.sets_not_closed()] == [path.name]
    assert not claims.is_claimed(path)


FORGOTTEN = """
import sys
from pathlib import Path
sys.path.insert(0, sys.argv[2])
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.recorder import FileRecorder
from logbook.numbered import header, sample_bytes

folder = Path(sys.argv[1])
recorder = FileRecorder(folder / "recordings", Logbook.open(folder / "logbook.db"))
recorder.begin(header())
recorder.put(sample_bytes(0, 8))
raise SystemExit("the program fell over")
"""


def test_a_program_that_falls_over_keeps_the_set_and_ends(tmp_path: Path) -> None:
    run = subprocess.run(  # noqa: S603  our own interpreter and text
        [sys.executable, "-c", FORGOTTEN, str(tmp_path), "tests"],
        capture_output=True,
        text=True,
        check=False,
        timeout=20,
    )
    assert run.stderr.strip() == "the program fell over"
    path = only_file(tmp_path / "recordings")
    assert recordings.read(path).survey().samples == 8


def test_a_recording_under_way_is_claimed(book: Logbook, folder: Path) -> None:
    keeping = Keeper(book, pytest.fail)
    path = folder / "a.force"
    keeping.work([Begin(path, b"H\0")])
    assert claims.is_claimed(path)
    keeping.work([End()])
    assert not claims.is_claimed(path)
