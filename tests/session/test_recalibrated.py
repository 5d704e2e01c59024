"""Recordings carry their calibration, and are re-read with another on purpose."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from biofeedback import cli
from biofeedback.conditioning.calibration_points import Direction
from biofeedback.conditioning.known_load import KnownLoad, Reading
from biofeedback.conditioning.profile import Zero, ZeroKind
from biofeedback.errors import FileError
from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.measures.calibration_report import report
from biofeedback.rig import journal
from biofeedback.session import Measured, Session, ZeroTaken, demo
from biofeedback.session.replay import OtherRules, replay
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import Damage, Event, Samples

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from biofeedback.conditioning.profile import Calibration
    from biofeedback.measures.calibration_report import CalibrationReport

KEPT = Path(__file__).parents[2] / "recordings" / "both-sides-v1.0.force"
SCALE = 1.25


def line(c0: float, c1: float, *, tolerance: float = 0.0) -> CalibrationReport:
    """A calibration that comes out as this line; tolerance in parts of a load."""
    return report(
        [
            Reading(
                KnownLoad(force_n, tolerance * force_n), (force_n - c0) / c1, direction
            )
            for direction in Direction
            for force_n in (0.0, 50.0, 100.0, 150.0, 200.0, 250.0)
        ]
    )


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


def recorded() -> tuple[str, list[Calibration]]:
    profile = replay(KEPT).recorded_profile
    return profile.serial_number, [c.calibration for c in profile.channels]


def scaled(
    book: Logbook,
    *,
    shift_n: float = 0.0,
    label: str = "newer",
    gain: int | None = 128,
) -> None:
    """Records by which each cell of the kept recording shows 1.25 times as much."""
    serial, used = recorded()
    for channel, calibration in enumerate(used):
        c0, c1 = calibration.coefficients
        book.calibrations.add(
            line(SCALE * c0 + shift_n, SCALE * c1),
            serial_number=serial,
            channel=channel,
            label=label,
            on_date="2026-11-01",
            gain=gain,
        )


def test_another_calibration_gives_other_numbers_and_says_so(
    book: Logbook, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    scaled(book)
    words = ["replay", str(KEPT), "--json"]
    assert cli.main(words) == 0
    plain = json.loads(capsys.readouterr().out)
    assert plain["same_as_stored"] is True
    assert not any(each["replaced"] for each in plain["calibrations"])
    for label in ("newer", "latest"):
        again = [
            *words,
            "--calibration",
            label,
            "--logbook",
            str(tmp_path / "logbook.db"),
        ]
        assert cli.main(again) == 0
        told = json.loads(capsys.readouterr().out)
        assert told["same_as_stored"] is None
        for each in told["calibrations"]:
            assert each["replaced"]
            assert each["used"]["label"] == "newer"
            assert each["used"]["date"] == "2026-11-01"
            assert each["recorded"]["label"] == "simulated rig"
        ratio = told["reps"][0]["peak_n"] / plain["reps"][0]["peak_n"]
        assert ratio == pytest.approx(SCALE, rel=1e-6)
    place = str(tmp_path / "logbook.db")
    words = ["replay", str(KEPT), "--calibration", "newer", "--logbook", place]
    assert cli.main(words) == 0
    text = capsys.readouterr().out
    assert "read with calibration newer of 2026-11-01, recorded with simul" in text


@pytest.mark.parametrize("gain", [64, None])
def test_a_calibration_made_at_another_gain_is_refused(
    book: Logbook, tmp_path: Path, capsys: pytest.CaptureFixture[str], gain: int | None
) -> None:
    scaled(book, gain=gain)
    place = str(tmp_path / "logbook.db")
    words = ["replay", str(KEPT), "--calibration", "newer", "--logbook", place]
    assert cli.main(words) == 1
    told = capsys.readouterr().err
    assert "The calibration of the left cell (newer) is not used: it was made" in told
    assert "gain 128 of a simulated rig" in told


def with_zero(out: Path) -> Path:
    """The kept recording, with a zero taken after its tenth frame of samples."""
    zero = Zero(ZeroKind.EMPTY_RIG, (4.0, -3.0), (0.1, 0.1))
    content = journal.to_json(ZeroTaken(zero))
    assert content is not None
    seen = 0
    with out.open("wb") as file:
        for frame in recordings.read(KEPT).frames():
            assert not isinstance(frame, Damage)
            file.write(encode(frame))
            if isinstance(frame, Samples):
                seen += 1
                if seen == 10:
                    file.write(encode(Event(content, frame.sequence)))
    return out


def test_zero_is_that_of_the_same_reading(book: Logbook, tmp_path: Path) -> None:
    # A line moved by 40 N moves the zero along: after zero nothing is different.
    scaled(book, shift_n=40.0)

    def newest(
        serial_number: str, channel: int, gain: int | None, /
    ) -> Calibration | None:
        row = book.calibrations.fitting(serial_number, channel, gain)
        return row.calibration if row else None

    path = with_zero(tmp_path / "zeroed.force")
    kept = replay(path, keep_blocks=True)
    moved = replay(path, OtherRules(calibrations_for=newest), keep_blocks=True)
    pairs = [
        (before.force_n * SCALE, after.force_n)
        for before, after in zip(kept.blocks, moved.blocks, strict=True)
    ]
    first, last = pairs[0], pairs[-1]
    assert first[1] == pytest.approx(first[0] + 40.0, abs=1e-6, nan_ok=True)
    assert last[1] == pytest.approx(last[0], abs=1e-6, nan_ok=True)


def test_a_label_that_nobody_kept_is_told(
    book: Logbook, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    scaled(book)
    place = str(tmp_path / "logbook.db")
    words = ["replay", str(KEPT), "--logbook", place, "--calibration", "May"]
    assert cli.main(words) == 1
    error = capsys.readouterr().err
    assert "no such calibration of" in error
    assert KEPT.name in error


def test_a_recording_of_no_board_is_refused(tmp_path: Path) -> None:
    table, out = tmp_path / "t.csv", tmp_path / "t.force"
    table.write_text("f\n" + "1\n80\n80\n" * 50)
    words = ["import", str(table), "-o", str(out), "--rate", "80", "--columns", "f"]
    assert cli.main(words) == 0
    rules = OtherRules(band=None, calibrations_for=lambda *_: None)
    with pytest.raises(FileError, match="no such calibration of imported"):
        replay(out, rules)


def test_a_session_uses_and_records_the_newest_calibration(
    book: Logbook, tmp_path: Path
) -> None:
    source = demo.source(seed=3, step_us=20_000)
    session = Session(
        source, logbook=book, recordings=tmp_path / "r", athlete_code="INV-1"
    )
    try:
        for _ in range(60):
            session.step()
        serial = session.take().profile.serial_number
    finally:
        session.close()
    for label, c1 in (("first", 0.001), ("second", 0.002)):
        book.calibrations.add(
            line(0.0, c1), serial_number=serial, channel=0, label=label, gain=128
        )
    session = Session(
        demo.source(seed=3, step_us=20_000),
        logbook=book,
        recordings=tmp_path / "r",
        athlete_code="INV-1",
    )
    try:
        for _ in range(60):
            session.step()
        session.begin_set(demo.PRESCRIPTION)
        for _ in range(60):
            session.step()
        used = session.take().profile.channels[0].calibration
    finally:
        session.close()
    assert used.label == "second"
    assert used.coefficients == pytest.approx((0.0, 0.002))
    (file,) = (tmp_path / "r").glob("*.force")
    profile = recordings.read(file).header["profile"]
    assert isinstance(profile, dict)
    assert profile["channels"][0]["calibration"]["label"] == "second"
    assert profile["channels"][1]["calibration"]["label"] == "simulated rig"


def test_the_guard_of_a_band_comes_from_the_record_and_replays(
    book: Logbook, tmp_path: Path
) -> None:
    """Nobody typed an uncertainty: the recording's profile carries the record's."""
    for channel, known in enumerate(recorded()[1]):
        c0, c1 = known.coefficients
        book.calibrations.add(
            line(c0, c1, tolerance=0.02),
            serial_number="SIM-0001",
            channel=channel,
            gain=128,
        )
    session = Session(
        demo.source(seed=3, step_us=20_000),
        logbook=book,
        recordings=tmp_path / "r",
        athlete_code="INV-1",
    )
    reps: list[Mapping[str, Any]] = []
    try:
        for turn in range(3000):
            session.step()
            if turn == 60:
                session.begin_set(demo.PRESCRIPTION)
            events = session.take().events
            reps += [event.rep for event in events if isinstance(event, Measured)]
            if reps:
                break
    finally:
        session.close()
    times = reps[0]["surely_inside_s"], reps[0]["inside_s"]
    assert 0 < times[0] < times[1]
    (file,) = (tmp_path / "r").glob("*.force")
    again = replay(file)
    assert again.profile.uncertainty_n is None
    assert all(each.calibration.uncertainty for each in again.profile.channels)
    assert again.agrees
