"""What an export tells of reps beyond the stored measures, worked out a second time.

A rise of force whose every rate is a closed form goes through a recording of 1 kHz; the
spectrum is that of scipy on the samples of the same export.
"""

from __future__ import annotations

import shutil
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from scipy import signal
from session.kept_logbook import KEPT, enter, manifest, rows

from biofeedback.conditioning.profile import (
    Calibration,
    Channel,
    RigProfile,
    Side,
    Zero,
)
from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.exports.chosen_sets import Filters
from biofeedback.logbook.keys import new_key
from biofeedback.session.export import export_logbook
from biofeedback.session.export_asked import Wanted
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.band import Band
from biofeedback.training.prescription import Prescription
from biofeedback.training.task import Joint, Setup, Sides, Task
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import Close, Header, Samples

if TYPE_CHECKING:
    from pathlib import Path

CODE = "INV-5"
PER_N = 5000
"""Counts for a newton."""
BEGUN = datetime(2026, 5, 4, 9, tzinfo=UTC)
PRESS = Task(
    "Invented press",
    sides=Sides.LEFT,
    setup=Setup(Joint.KNEE, "extension", 60.0, "shin", 0.35, "sitting"),
)
ONE_SIDE = KEPT / "one-side-v1.0.force"


def force_n(time_s: np.ndarray) -> np.ndarray:
    """1000 (1 − exp(−t/0.1)) N from 2 s on, let go in 0.2 s after 9 s."""
    rise_n = 1000 * (1 - np.exp(-np.maximum(time_s - 2, 0) / 0.1))
    shown_n: np.ndarray = rise_n * np.clip((9.2 - time_s) / 0.2, 0, 1)
    return shown_n


def record(path: Path, *, before_n: float = 0.0) -> None:
    """One rep, 1000 samples a second, in frames of 25."""
    time_s = np.arange(11_000) / 1000
    pulled_n = np.maximum(force_n(time_s), before_n * (time_s < 9))
    counts = np.rint(pulled_n * PER_N).astype(np.int32)[:, None]
    profile = RigProfile(
        "Invented rig",
        (Channel("left cell", Side.LEFT, Calibration((0.0, 1 / PER_N)), 1600.0),),
        1000.0,
        Zero.none(1),
    )
    asked = Prescription(task=PRESS, band=Band(900.0, 1100.0), hold_s=5.0, reps=1)
    content = {
        "format": recordings.read(ONE_SIDE).header["format"],
        "set_id": new_key(),
        "session_id": new_key(),
        "athlete_code": CODE,
        "started_utc": BEGUN.isoformat(timespec="milliseconds"),
        "profile": profile.to_json(),
        "prescription": asked.to_json(),
    }
    with path.open("wb") as file:
        file.write(encode(Header(content)))
        for first in range(0, len(counts), 25):
            piece = counts[first : first + 25]
            frame = Samples(
                first, 0, 1000 * first, 1000, piece,
                np.zeros(piece.shape, np.bool_), np.zeros(len(piece), np.bool_),
            )  # fmt: skip
            file.write(encode(frame))
        file.write(encode(Close({})))


@pytest.fixture
def kept(tmp_path: Path) -> tuple[Path, Path]:
    """A logbook, whose athlete was weighed twice, and the folder of recordings."""
    held = tmp_path / "recordings"
    held.mkdir()
    place = tmp_path / "logbook.db"
    with Logbook.open(place) as logbook:
        key = logbook.people.add(AthleteDetails(CODE), BodyMass(80.0, "2026-05-01"))
        logbook.people.add_mass(key, BodyMass(90.0, "2026-05-20"))
    return place, held


def reps_of(kept: tuple[Path, Path], **wanted: Any) -> list[dict[str, str]]:
    place, held = kept
    out = place.parent / f"out{len(list(place.parent.iterdir()))}"
    with Logbook.open(place) as logbook:
        export_logbook(logbook, held, out, Filters(), Wanted(**wanted))
    return rows(out / "csv" / "reps.csv")


def test_rate_of_force_is_that_of_the_formula(kept: tuple[Path, Path]) -> None:
    place, held = kept
    record(held / "rise.force")
    with Logbook.open(place) as logbook:
        enter(logbook, held / "rise.force")
    (rep,) = reps_of(kept)
    assert float(rep["rise_onset_s"]) == pytest.approx(2.0, abs=1e-3)
    for name, by_formula in (
        ("rfd_0_50_n_per_s", 7869.387),
        ("rfd_0_100_n_per_s", 6321.206),
        ("rfd_0_200_n_per_s", 4323.324),
        ("rfd_steepest_n_per_s", 9063.462),
    ):
        assert float(rep[name]) == pytest.approx(by_formula, rel=1e-3)
    assert float(rep["impulse_0_100_ns"]) == pytest.approx(36.787944, rel=1e-3)
    assert rep["rate_of_force_why"] == ""
    assert rep["onset_method"].startswith("baseline mean")


def test_who_already_pulls_has_no_rate_and_the_reason_is_there(
    kept: tuple[Path, Path],
) -> None:
    place, held = kept
    record(held / "pulled.force", before_n=40.0)
    with Logbook.open(place) as logbook:
        enter(logbook, held / "pulled.force")
    (rep,) = reps_of(kept)
    assert rep["rfd_0_50_n_per_s"] == ""
    assert "already pulling 40 N" in rep["rate_of_force_why"]


def test_torque_and_force_per_body_mass_are_of_that_day(
    kept: tuple[Path, Path],
) -> None:
    """0.35 m; 80 kg on the first of May, 90 kg only later."""
    place, held = kept
    record(held / "rise.force")
    with Logbook.open(place) as logbook:
        enter(logbook, held / "rise.force")
    (whole,), (alone,) = reps_of(kept), reps_of(kept, samples=False)
    for rep in (whole, alone):
        for name in ("mean", "peak"):
            force = float(rep[f"{name}_n"])
            assert float(rep[f"{name}_nm"]) == pytest.approx(0.35 * force)
            assert float(rep[f"{name}_n_per_kg"]) == pytest.approx(force / 80)
        assert (float(rep["mass_kg"]), float(rep["lever_arm_m"])) == (80.0, 0.35)
    assert alone["rfd_0_50_n_per_s"] == alone["rate_of_force_why"] == ""


def test_a_time_moved_by_hand_stands_beside_that_of_the_rules(
    kept: tuple[Path, Path],
) -> None:
    place, held = kept
    record(held / "rise.force")
    with Logbook.open(place) as logbook:
        enter(logbook, held / "rise.force")
        (row,) = logbook.reps()
        before = row.start_s
        logbook.rep_changes.move(
            row.id, "onset", automatic_s=before, before_s=before, to_s=2.01
        )
    (rep,) = reps_of(kept)
    assert float(rep["start_s"]) == before
    assert float(rep["moved_start_s"]) == 2.01
    assert rep["moved_entry_s"] == rep["moved_hold_end_s"] == ""
    assert rep["onset_method"] == "set by hand"
    # From 10 ms on: 1000 (e^−0.1 − e^−0.6) N in 50 ms.
    expected = 1000 * (np.exp(-0.1) - np.exp(-0.6)) / 0.05
    assert float(rep["rfd_0_50_n_per_s"]) == pytest.approx(expected, rel=1e-3)
    with Logbook.open(place) as logbook:
        logbook.rep_changes.undo(row.id)
    (rep,) = reps_of(kept)
    assert rep["moved_start_s"] == ""


def test_shares_of_the_spectrum_are_those_of_scipy(
    kept: tuple[Path, Path], tmp_path: Path
) -> None:
    place, held = kept
    with Logbook.open(place) as logbook:
        enter(logbook, held / shutil.copy(ONE_SIDE, held))
        out = tmp_path / "spectrum"
        export_logbook(logbook, held, out, Filters(), Wanted())
    (told,) = manifest(out)["recordings"]
    samples = rows(out / str(told["files"]["csv"]))
    time_s = np.array([float(one["time_s"]) for one in samples])
    found = rows(out / "csv" / "reps.csv")
    assert found
    (side,) = (name for name in samples[0] if name.startswith("force_"))
    all_n = np.array([float(one[side] or "nan") for one in samples])
    for rep in found:
        assert "500 Hz" in rep["rate_of_force_why"]
        from_s, to_s = float(rep["entry_s"]), float(rep["hold_end_s"])
        held_n = all_n[(time_s >= from_s) & (time_s <= to_s)]
        left_n = signal.detrend(held_n, type="linear")
        at_hz, power = signal.periodogram(left_n, fs=80.0, detrend=False)
        assert float(rep["power_n2"]) == pytest.approx(np.var(left_n), rel=1e-6)
        for low in (0, 4, 8):
            inside = (at_hz > low - 1e-6) & (at_hz < low + 4 - 1e-6)
            share = 100 * power[inside].sum() / power.sum()
            assert float(rep[f"share_{low}_{low + 4}_pct"]) == pytest.approx(
                share, rel=1e-3
            )
