"""Replay: the very numbers of the live run, whatever rules it is judged by next."""

from __future__ import annotations

import json
from dataclasses import fields, replace
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np
import pytest

from biofeedback import cli
from biofeedback.errors import FileError
from biofeedback.logbook import recording_format, recordings, sample_stream
from biofeedback.logbook.database import Logbook
from biofeedback.measures.trace import Trace
from biofeedback.rig import journal
from biofeedback.session.recovery import recover
from biofeedback.session.replay import OtherRules, ReplayRun, replay
from biofeedback.session.review import Library
from biofeedback.training.band import Band
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import Event, Samples

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from biofeedback.wire.frames import Frame

KEPT = Path(__file__).parents[2] / "recordings"
ALL = sorted(KEPT.glob("*.force"))
NUDGED = KEPT / "nudge-and-lapse-v1.0.force"
BOTH = KEPT / "both-sides-v1.0.force"


def rewritten(path: Path, out: Path, change: Callable[[Frame], list[Frame]]) -> Path:
    """A copy in which each frame was replaced by what `change` makes of it."""
    with out.open("wb") as file:
        for frame in recordings.read(path).frames():
            assert not hasattr(frame, "reason"), "a kept recording is damaged"
            for new in change(frame):
                file.write(encode(new))
    return out


def split(frame: Frame, size: int) -> Iterator[Frame]:
    """The same samples in frames of `size`."""
    if not isinstance(frame, Samples):
        yield frame
        return
    for start in range(0, len(frame.counts), size):
        rows = slice(start, start + size)
        yield Samples(
            sequence=(frame.sequence + start) % 2**32,
            stream=frame.stream,
            time_us=(frame.time_us + start * frame.step_us) % 2**32,
            step_us=frame.step_us if len(frame.counts[rows]) > 1 else 0,
            counts=frame.counts[rows],
            saturated=frame.saturated[rows],
            settling=frame.settling[rows],
        )


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_a_kept_recording_gives_its_stored_numbers(path: Path) -> None:
    replayed = replay(path)
    assert len(replayed.stored) == 2
    # What has been measured since was not stored then.
    for stored, rep in zip(replayed.stored, replayed.reps, strict=True):
        assert stored.keys() <= rep.keys()
    assert replayed.agrees is True
    assert not replayed.recovered
    assert "invented" in replayed.prescription.task.name


def test_three_recordings_are_kept() -> None:
    assert [path.stem for path in ALL] == [
        "both-sides-v1.0",
        "nudge-and-lapse-v1.0",
        "one-side-v1.0",
    ]


def test_rig_and_logbook_call_the_events_by_the_same_names() -> None:
    # Neither knows the other, and a replay needs both.
    assert sample_stream.ZERO == journal.ZERO
    assert recording_format.REP_END == journal.REP_END


def test_the_nudge_is_applied_where_it_stood() -> None:
    replayed = replay(NUDGED)
    (_, first), (time_s, second) = replayed.bands
    assert (first, second) == (Band(60.0, 96.0), Band(68.0, 104.0))
    assert time_s == pytest.approx(5.0, abs=0.1)
    assert replayed.reps[0]["lapses"] == 1
    assert replayed.reps[0]["band_lower_n"] == 68.0


def test_without_its_nudge_the_numbers_would_be_others(tmp_path: Path) -> None:
    def drop(frame: Frame) -> list[Frame]:
        nudge = isinstance(frame, Event) and frame.content.get("kind") == "band"
        return [] if nudge else [frame]

    replayed = replay(rewritten(NUDGED, tmp_path / "other.force", drop))
    assert replayed.agrees is False


def test_only_numbers_that_were_stored_are_compared(tmp_path: Path) -> None:
    def changed(out: str, **values: object) -> bool | None:
        """`None` takes a number out of what was stored."""

        def change(frame: Frame) -> list[Frame]:
            if not isinstance(frame, Event) or frame.content.get("kind") != "rep end":
                return [frame]
            rep = frame.content["rep"]
            assert isinstance(rep, dict)
            new = {**rep, **values}
            kept = {key: value for key, value in new.items() if value is not None}
            return [replace(frame, content={**frame.content, "rep": kept})]

        return replay(rewritten(BOTH, tmp_path / out, change)).agrees

    assert changed("as-it-is.force") is True
    assert changed("before-it-was-measured.force", peak_n=None) is True
    assert changed("another-number.force", peak_n=1.0) is False
    assert changed("not-measured-any-more.force", phase_of_moon=1.0) is False


@pytest.mark.parametrize(("by", "agrees"), [(1e-12, True), (1e-7, False)])
def test_only_rounding_may_differ(by: float, agrees: bool, tmp_path: Path) -> None:
    def scale(frame: Frame) -> list[Frame]:
        if not isinstance(frame, Event) or frame.content.get("kind") != "rep end":
            return [frame]
        rep = frame.content["rep"]
        assert isinstance(rep, dict)
        scaled = {**rep, "peak_n": rep["peak_n"] * (1 + by)}
        return [replace(frame, content={**frame.content, "rep": scaled})]

    replayed = replay(rewritten(BOTH, tmp_path / "scaled.force", scale))
    assert replayed.agrees is agrees


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_how_the_samples_are_framed_does_not_matter(path: Path, tmp_path: Path) -> None:
    out = tmp_path / "split.force"
    assert replay(rewritten(path, out, lambda frame: [*split(frame, 1)])).agrees is True


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_how_many_frames_are_judged_at_once_does_not_matter(
    path: Path, tmp_path: Path
) -> None:
    """One by one as live, 7, or all between two things that were done from outside.

    With the third frame of each hundred lost, so that gaps are among them.
    """
    seen = 0

    def thinned(frame: Frame) -> list[Frame]:
        nonlocal seen
        seen += isinstance(frame, Samples)
        return [] if isinstance(frame, Samples) and seen % 100 == 3 else [frame]

    holed = rewritten(path, tmp_path / "holed.force", thinned)
    found = []
    for together in (1, 7, 1_000_000):
        run = ReplayRun(holed, OtherRules(), keep_blocks=True, together=together)
        found.append(run.run())
    longest = [max(map(len, one.blocks)) for one in found]
    assert sorted(set(longest)) == longest  # they were cut as they should be
    one, *others = found
    assert one.lost > 5
    assert one.reps
    whole = Trace.of(one.blocks)
    for other in others:
        assert other.reps == one.reps
        assert other.bands == one.bands
        assert (other.samples, other.lost, other.duration_s) == (
            one.samples, one.lost, one.duration_s,
        )  # fmt: skip
        again = Trace.of(other.blocks)
        for part in fields(Trace):
            assert (
                getattr(again, part.name).tobytes()
                == getattr(whole, part.name).tobytes()
            ), part.name


def test_frames_that_do_not_fit_the_rig_are_passed_over_and_counted(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def with_misfits(frame: Frame) -> list[Frame]:
        if not isinstance(frame, Samples) or frame.sequence % 100:
            return [frame]
        one = replace(
            frame, counts=frame.counts[:, :1], saturated=frame.saturated[:, :1]
        )
        return [replace(frame, stream=1), one, frame]

    out = rewritten(BOTH, tmp_path / "misfits.force", with_misfits)
    replayed = replay(out)
    assert replayed.misfits > 10
    assert replayed.agrees is True
    assert replayed.samples == replay(BOTH).samples
    assert cli.main(["replay", str(out)]) == 0
    assert f"{replayed.misfits} that do not fit the rig" in capsys.readouterr().out


def test_other_rules_are_told_from_the_stored_ones(
    capsys: pytest.CaptureFixture[str],
) -> None:
    words = ["replay", str(BOTH), "--band", "60:96", "--hold", "1", "--json"]
    assert cli.main([*words, "--clock", "banked"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["same_as_stored"] is None
    assert all(rep["inside_s"] == pytest.approx(1.0) for rep in told["reps"])


def test_raw_judges_the_force_without_the_filter() -> None:
    shown, raw = replay(BOTH), replay(BOTH, OtherRules(raw=True))
    delay_s = 0.0213  # order 2, 10 Hz, at 80 SPS; an upward ramp is crossed later
    late_s = [
        float(a["start_s"]) - float(b["start_s"])  # type: ignore[arg-type]  # numbers
        for a, b in zip(shown.reps, raw.reps, strict=True)
    ]
    assert late_s == pytest.approx([delay_s] * 2, abs=0.02)


def test_cut_off_inside_a_rep_keeps_what_was_done(tmp_path: Path) -> None:
    whole = replay(BOTH)
    second = whole.reps[1]
    kept: list[Frame] = []
    for frame in recordings.read(BOTH).frames():
        assert not hasattr(frame, "reason")
        kept.append(frame)
    cut = tmp_path / "cut.force"
    data = b"".join(encode(frame) for frame in kept)
    share = (float(second["start_s"]) + 1.0) / whole.duration_s  # type: ignore[arg-type]
    cut.write_bytes(data[: int(len(data) * share)])
    replayed = replay(cut)
    assert replayed.recovered
    assert [rep["outcome"] for rep in replayed.reps] == ["complete", "stopped"]
    assert replayed.reps[0] == whole.reps[0]


def test_recovery_enters_a_cut_recording_once(tmp_path: Path) -> None:
    folder = tmp_path / "recordings"
    folder.mkdir()
    data = NUDGED.read_bytes()
    (folder / "cut.force").write_bytes(data[: len(data) * 2 // 3])
    (folder / "junk.force").write_bytes(b"\x01\x02\x00")
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        found = {each.path.name: each for each in recover(folder, logbook)}
        assert found["cut.force"].reps == len(logbook.reps()) > 0
        assert "not a recording" in found["junk.force"].problem
        assert (folder / "junk.force").exists()
        again = recover(folder, logbook)
        assert [each.path.name for each in again] == ["junk.force"]
        assert len(logbook.reps()) == found["cut.force"].reps


def test_the_library_draws_a_rep_with_its_band(tmp_path: Path) -> None:
    folder = tmp_path / "recordings"
    folder.mkdir()
    data = NUDGED.read_bytes()
    (folder / "cut.force").write_bytes(data[:-200])
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        recover(folder, logbook)
        library = Library(logbook, folder)
        rows = {row.number: row for row in library.reps()}
        trace = library.trace(rows[1])
    assert trace.time_s[0] >= trace.start_s - 2.0
    assert trace.time_s[-1] <= trace.end_s + 2.0
    np.testing.assert_array_equal(trace.effort_n, trace.force_n.sum(axis=1))
    held = (trace.time_s >= trace.start_s) & (trace.time_s <= trace.hold_end_s)
    assert trace.effort_n[held].max() == trace.measures["peak_n"]
    assert [band for _, band in trace.bands] == [Band(60, 96), Band(68, 104)]


def test_a_recording_that_is_gone_is_named(tmp_path: Path) -> None:
    with pytest.raises(FileError, match=r"gone\.force"):
        replay(tmp_path / "gone.force")


def test_a_damaged_rep_end_does_not_shift_the_others(tmp_path: Path) -> None:
    ends = 0

    def first_end_is_lost(frame: Frame) -> list[Frame]:
        nonlocal ends
        if isinstance(frame, Event) and frame.content.get("kind") == "rep end":
            ends += 1
            return [] if ends == 1 else [frame]
        return [frame]

    out = rewritten(BOTH, tmp_path / "one-end.force", first_end_is_lost)
    assert replay(out).agrees is False  # whole, and yet a stored rep is missing
    out.write_bytes(out.read_bytes().replace(b"\0", b"\0\x05\x01\0", 1))
    assert replay(out).agrees is True  # damaged: what is stored came out again
