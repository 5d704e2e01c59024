"""Reading recordings: whole, cut anywhere, damaged anywhere, and of others."""

from __future__ import annotations

import os
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from logbook.numbered import header, numbers, rep_end, sample_bytes

from biofeedback.errors import FileError
from biofeedback.logbook import recording_format, recordings
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.keeper import Begin, Keeper, Put
from biofeedback.logbook.recorder import FileRecorder
from biofeedback.logbook.recovery import unfinished
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import Close, Damage, Event, Header, Samples

if TYPE_CHECKING:
    from pathlib import Path

STARTED = datetime(2026, 3, 1, 12, 0, tzinfo=UTC)
FRAMES = 5


def whole_header(**more: object) -> dict[str, object]:
    return recording_format.completed(
        header(**more),
        set_id="0191f000-0000-7000-8000-0000000000ab",
        started_utc=STARTED,
    )


def pieces() -> list[bytes]:
    """A small recording, frame by frame."""
    made = [encode(Header(whole_header()))]
    for frame in range(FRAMES):
        made.append(sample_bytes(8 * frame, 8))
        if frame == 2:
            made.append(encode(Event(rep_end(1), 8 * (frame + 1))))
    made.append(encode(Close({"samples": 8 * FRAMES}, 8 * FRAMES)))
    return made


PIECES = pieces()
WHOLE = b"".join(PIECES)


def kept(path: Path, data: bytes) -> Path:
    path.write_bytes(data)
    return path


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
def test_a_pipe_is_refused_because_it_can_be_read_only_once(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.force")
    with pytest.raises(FileError, match="Save it in a file first"):
        recordings.read(tmp_path / "pipe.force")


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("recordings") / "a.force"


# ---------------------------------------------------------------- cut anywhere


def test_cut_anywhere_and_all_frames_before_the_cut_are_good(place: Path) -> None:
    ends = np.cumsum([len(piece) for piece in PIECES])
    for cut in range(len(PIECES[0]), len(WHOLE)):
        recording = recordings.read(kept(place, WHOLE[:cut]))
        frames = list(recording.frames())
        good = int(np.searchsorted(ends, cut, side="right"))
        assert [encode(frame) for frame in frames if not isinstance(frame, Damage)] == (
            PIECES[:good]
        )
        assert len(frames) == good  # the cut frame is no damage, only not there
        survey = recording.survey()
        assert survey.recovered
        assert survey.cut_bytes == cut - ends[good - 1]
        assert survey.losses().startswith("the recording was cut off")


def test_cut_within_the_header_nothing_can_be_read(place: Path) -> None:
    for cut in range(len(PIECES[0])):
        with pytest.raises(FileError, match="not a recording"):
            recordings.read(kept(place, WHOLE[:cut]))


def test_whole_it_lacks_nothing(place: Path) -> None:
    recording = recordings.read(kept(place, WHOLE))
    survey = recording.survey()
    assert survey.losses() == ""
    assert not survey.recovered
    assert survey.totals == {"samples": 40}
    assert (survey.frames, survey.samples) == (len(PIECES), 40)


# ------------------------------------------------------------ damaged anywhere


@settings(max_examples=80, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.integers(len(PIECES[0]), len(WHOLE) - 1), st.integers(0, 7))
def test_a_flipped_bit_costs_one_frame_and_is_told(
    place: Path, byte: int, bit: int
) -> None:
    data = bytearray(WHOLE)
    data[byte] ^= 1 << bit
    frames = list(recordings.read(kept(place, bytes(data))).frames())
    good = [encode(frame) for frame in frames if not isinstance(frame, Damage)]
    damage = [frame for frame in frames if isinstance(frame, Damage)]
    # A delimiter that is lost joins two frames; one that appears splits one.
    lost = 2 if WHOLE[byte] == 0 else 1
    if byte == len(WHOLE) - 1:
        assert good == PIECES[:-1]
        return
    assert len(good) == len(PIECES) - lost
    assert [piece for piece in PIECES if piece in good] == good
    assert damage
    survey = recordings.read(place).survey()
    assert survey.damaged == len(damage)
    assert "could not be read" in survey.losses()
    found = recordings.counts(place)[0]
    # The index of the first sample that is there is 0, whichever it was.
    np.testing.assert_array_equal(found.counts[:, 0] - found.counts[0, 0], found.index)


def test_lost_samples_leave_a_gap_in_index_and_time(place: Path) -> None:
    without = [piece for number, piece in enumerate(PIECES) if number != 3]
    kept(place, b"".join(without))
    found = recordings.counts(place)[0]
    expected = np.r_[0:16, 24:40]
    np.testing.assert_array_equal(found.index, expected)
    np.testing.assert_array_equal(found.counts[:, 0], expected)
    np.testing.assert_allclose(found.time_s, expected * 0.0125, atol=1e-9)
    assert recordings.read(place).survey().losses() == "8 samples missing in between"


def test_one_missing_sample_is_one_sample() -> None:
    survey = recordings.Survey(
        frames=3,
        samples=2,
        lost=1,
        restarts=0,
        damaged=1,
        damaged_bytes=9,
        unknown=0,
        cut_bytes=0,
        totals={},
    )
    assert survey.losses() == (
        "1 damaged frame (9 bytes) could not be read; 1 sample missing in between"
    )


def test_large_recordings_are_read_in_pieces(place: Path) -> None:
    frames = 25_000
    data = PIECES[0] + b"".join(sample_bytes(8 * n, 8) for n in range(frames))
    assert len(data) > 2 * recordings.CHUNK_BYTES
    kept(place, data)
    found = recordings.counts(place)[0]
    np.testing.assert_array_equal(found.counts, numbers(0, 8 * frames))
    np.testing.assert_allclose(found.time_s, np.arange(8 * frames) * 0.0125, atol=1e-9)


# ---------------------------------------------------------------- barren ends


def test_good_frames_after_a_zeroed_stretch_of_a_disk_are_all_given(
    place: Path,
) -> None:
    data = b"".join(PIECES[:4]) + bytes(8 * 2**20) + b"".join(PIECES[4:])
    recording = recordings.read(kept(place, data))
    given = [encode(one) for one in recording.frames() if not isinstance(one, Damage)]
    assert given == PIECES
    survey = recording.survey()
    assert (survey.unread_bytes, survey.losses()) == (0, "")


def test_a_barren_end_is_left_unread_and_told_with_its_place(place: Path) -> None:
    kept(place, WHOLE)
    huge_bytes = 4 * 2**30
    with place.open("r+b") as file:
        file.truncate(huge_bytes)  # sparse: it takes no room
    recording = recordings.read(place)
    *found, last = recording.frames()
    assert [encode(one) for one in found if not isinstance(one, Damage)] == PIECES
    assert isinstance(last, Damage)
    assert last.reason == recordings.UNREAD
    survey = recording.survey()
    read_bytes = huge_bytes - survey.unread_bytes
    assert read_bytes >= recordings.BARREN_MOST_BYTES
    assert read_bytes <= recordings.BARREN_MOST_BYTES + 2 * recordings.CHUNK_BYTES
    assert survey.unread_from <= len(WHOLE) + recordings.CHUNK_BYTES
    assert (survey.frames, survey.damaged) == (len(PIECES), 0)
    assert f"the last {survey.unread_bytes} bytes were not read" in survey.losses()


def test_passed_over_samples_are_no_barren_stretch(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(recordings, "BARREN_MOST_BYTES", 2 * recordings.CHUNK_BYTES)
    samples = b"".join(sample_bytes(8 * n, 8) for n in range(64_000))
    assert len(samples) > 6 * recordings.CHUNK_BYTES
    close = encode(Close({"samples": 512_000}, 512_000))
    told = list(recordings.read(kept(place, PIECES[0] + samples + close)).told())
    assert isinstance(told[-1], Close)


# ------------------------------------------------------------------- refusals


def test_a_damaged_header_is_refused_with_its_reason(place: Path) -> None:
    data = bytearray(WHOLE)
    data[40] ^= 1
    with pytest.raises(FileError, match="header is damaged") as caught:
        recordings.read(kept(place, bytes(data)))
    assert caught.value.path == str(place)
    assert caught.value.place == "byte 0"


@pytest.mark.parametrize(
    ("form", "words"),
    [
        ({"name": "biofeedback recording", "major": 2, "minor": 7}, "2.7.*newer"),
        ({"name": "biofeedback plan", "major": 1, "minor": 0}, "biofeedback plan"),
        ({"name": "biofeedback recording", "major": "1", "minor": 0}, "format.major"),
        ("1.0", "format"),
    ],
)
def test_other_formats_are_refused_in_words(
    place: Path, form: object, words: str
) -> None:
    data = encode(Header({**whole_header(), "format": form}))
    with pytest.raises(FileError, match=words):
        recordings.read(kept(place, data))


def test_a_newer_minor_version_is_read(place: Path) -> None:
    form = {"name": "biofeedback recording", "major": 1, "minor": 9}
    data = encode(Header({**whole_header(), "format": form, "new": [1]}))
    assert recordings.read(kept(place, data)).header["new"] == [1]


@pytest.mark.parametrize(
    "data", [b"", b"\0\0\0", b"time,force\n0,1\n" * 5000, PIECES[1], b"\xff" * 200_000]
)
def test_other_files_are_refused_in_words(place: Path, data: bytes) -> None:
    with pytest.raises(FileError, match="not a recording"):
        recordings.read(kept(place, data))


def test_a_long_file_without_header_is_not_read_to_its_end(place: Path) -> None:
    kept(place, bytes(recordings.HEADER_WITHIN_BYTES) + WHOLE)
    with pytest.raises(FileError, match="not a recording"):
        recordings.read(place)
    assert recordings.read(kept(place, bytes(1000) + WHOLE)).header


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="no such file"):
        recordings.read(tmp_path / "none.force")
    with pytest.raises(FileError, match="is a directory"):
        recordings.read(tmp_path)


def test_a_stream_that_changes_its_channels_is_refused(place: Path) -> None:
    two = Samples(
        8, 0, 1, 0, np.zeros((1, 1), np.int32), np.zeros((1, 1), np.bool_),
        np.zeros(1, np.bool_),
    )  # fmt: skip
    kept(place, PIECES[0] + sample_bytes(0, 8) + encode(two))
    with pytest.raises(FileError, match="number of channels"):
        recordings.counts(place)


# ------------------------------------------------------------------- recovery


def test_recordings_the_logbook_lacks_are_found(tmp_path: Path) -> None:
    folder = tmp_path / "recordings"
    with Logbook.open(tmp_path / "logbook.db") as book:
        assert unfinished(folder, book) == []
        recorder = FileRecorder(folder, book)
        recorder.begin(header())
        recorder.put(sample_bytes(0, 8))
        recorder.finish({}, sequence=8)  # this one is all right
        recorder.begin(header())
        recorder.put(sample_bytes(0, 8))
        recorder.stop()  # this one was cut off
        (cut_off,) = [row.recording for row in book.sets_not_closed()]
        (folder / "elsewhere.force").write_bytes(WHOLE)  # comes from another place
        (folder / "broken.force").write_bytes(b"\x07" * 100)
        (folder / "notes.txt").write_text("no recording")
        # One is being written at this moment.
        keeping = Keeper(book, pytest.fail)
        keeping.work([Begin(folder / "now.force", PIECES[0]), Put(b"", own=False)])

        found = {item.path.name: item for item in unfinished(folder, book)}
        assert set(found) == {cut_off, "elsewhere.force", "broken.force"}
        assert found[cut_off].known
        assert not found["elsewhere.force"].known
        assert found["broken.force"].recording is None
        assert "not a recording" in found["broken.force"].problem
        assert "broken.force" in found["broken.force"].problem

        # What the session does then.
        for item in found.values():
            if item.recording is not None:
                set_id = book.enter_recording(item.recording.header, item.path.name)
                book.add_rep(set_id, rep_end(1)["rep"])  # type: ignore[arg-type]  # is a dict
                book.close_set(set_id, recovered=True)
        keeping.give_up()
        (folder / "now.force").unlink()
        left = unfinished(folder, book)
        assert [item.path.name for item in left] == ["broken.force"]
        # A copy of a set that is closed is not offered again.
        (folder / "copy.force").write_bytes(WHOLE)
        assert len(unfinished(folder, book)) == 1
        assert len(book.reps()) == 2
        assert all(row.recovered for row in map(book.set_by_id, _ids(book)) if row)


def _ids(book: Logbook) -> list[str]:
    return [row.set_id for row in book.reps()]


def test_a_folder_that_is_a_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with (
        Logbook.open(tmp_path / "logbook.db") as book,
        pytest.raises(FileError, match="cannot be read"),
    ):
        unfinished(tmp_path / "file", book)
