"""The bench shows and judges what the live run would have, and looks ahead rightly."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from conditioning.examples import EACH_KIND, joined, name_of
from scipy import signal

from biofeedback import cli
from biofeedback.conditioning.filters import design
from biofeedback.conditioning.profile import (
    FilterChoice,
    FilterKind,
    RigProfile,
    Zero,
    ZeroKind,
)
from biofeedback.errors import FileError
from biofeedback.logbook import recordings
from biofeedback.rig.chain import Chain
from biofeedback.session.replay import OtherRules, replay
from biofeedback.training.band import Band
from biofeedback.tuning import material
from biofeedback.tuning.shown import (
    filtered,
    reference_force,
    shown_force,
    spikes_in,
)
from biofeedback.wire.codec import encode
from biofeedback.wire.fields import Fields
from biofeedback.wire.frames import Damage, Event, Header, Samples

FOLDER = Path(__file__).resolve().parents[2] / "recordings"
RECORDINGS = sorted(FOLDER.glob("*.force"))


@pytest.mark.parametrize("choice", EACH_KIND, ids=name_of)
def test_filtering_for_speed_is_the_live_filter(choice: FilterChoice) -> None:
    force_n = 100 + np.random.default_rng(5).normal(0, 20, (3000, 2)).cumsum(axis=0)
    live = design(choice, rate_hz=80.0, channels=2).push(force_n)
    assert filtered(force_n, choice, rate_hz=80.0) == pytest.approx(live, abs=1e-9)
    one = filtered(force_n[:1], choice, rate_hz=80.0)
    assert one == pytest.approx(force_n[:1], abs=1e-9)


@pytest.mark.parametrize("path", RECORDINGS, ids=lambda path: path.stem)
@pytest.mark.parametrize("choice", EACH_KIND[::3], ids=name_of)
@pytest.mark.parametrize("despike", [False, True])
def test_a_recording_is_shown_as_the_live_chain_would(
    path: Path, choice: FilterChoice, *, despike: bool
) -> None:
    choice = replace(choice, despike=despike)
    found = material.read(path)
    chain = Chain(replace(found.profile, filter=choice))
    blocks = []
    for frame in recordings.read(path).frames():
        if isinstance(frame, Samples):
            blocks += chain.push_all([frame]).blocks
        assert not (isinstance(frame, Event) and frame.content["kind"] == "zero")
    live_n = joined(blocks, "shown_n")
    assert shown_force(found, choice) == pytest.approx(live_n, abs=1e-9, nan_ok=True)
    assert found.time_s == pytest.approx(joined(blocks, "time_s"), abs=0)


@pytest.mark.parametrize("path", RECORDINGS, ids=lambda path: path.stem)
@pytest.mark.parametrize("band", [None, Band(20.0, 60.0)], ids=["own", "given"])
def test_reps_are_those_of_a_replay(path: Path, band: Band | None) -> None:
    found = material.read(path, band)
    expected = replay(path, OtherRules(band=band)).reps
    reps = found.reps(shown_force(found, found.profile.filter))
    assert len(reps) == len(expected) > 0
    for rep, told in zip(reps, expected, strict=True):
        for name in ("start_s", "end_s", "hold_end_s", "inside_s"):
            assert getattr(rep, name) == pytest.approx(told[name], abs=1e-9)
        assert rep.outcome.value == told["outcome"]


def test_zero_is_taken_away_after_the_filter_where_it_was_taken(tmp_path: Path) -> None:
    frames = list(recordings.read(FOLDER / "both-sides-v1.0.force").frames())
    path = tmp_path / "zeroed.force"
    with path.open("wb") as file:
        for at, frame in enumerate(frames):
            assert not isinstance(frame, Damage)
            if isinstance(frame, Header):
                profile = RigProfile.from_json(Fields(frame.content).inner("profile"))
                first = Zero(ZeroKind.EMPTY_RIG, (3.0, -2.0), (0.1, 0.1))
                content = {"profile": profile.with_zero(first).to_json()}
                frame = Header({**frame.content, **content})  # noqa: PLW2901
            if at == len(frames) // 2:
                second = Zero(ZeroKind.LIMB_RESTING, (5.5, 1.25), (0.1, 0.1))
                done = {"kind": "zero", "time_s": 0.0, "zero": second.to_json()}
                file.write(encode(Event(done)))
            file.write(encode(frame))
    found = material.read(path)
    live_n = joined(replay(path, keep_blocks=True).blocks, "shown_n")
    shown_n = shown_force(found, found.profile.filter)
    assert shown_n == pytest.approx(live_n, abs=1e-9, nan_ok=True)
    assert np.unique(found.zero_n[:, 0]).tolist() == [3.0, 5.5]


def test_the_reference_is_scipys_zero_phase_filter() -> None:
    found = material.read(FOLDER / "one-side-v1.0.force")
    (run,) = found.runs
    none = np.zeros(found.calibrated_n.shape, dtype=bool)
    ours = reference_force(found, spikes=none, cutoff_hz=8.0)
    b, a = signal.butter(2, 8.0, fs=found.rate_hz)
    theirs = signal.filtfilt(b, a, found.calibrated_n[run], axis=0) - found.zero_n[run]
    # How the ends are padded dies away within a second.
    assert ours[run][80:-80] == pytest.approx(theirs[80:-80], abs=1e-6)


def test_a_spike_is_found_and_kept_out_of_the_reference() -> None:
    found = material.read(FOLDER / "one-side-v1.0.force")
    none = np.zeros(found.calibrated_n.shape, dtype=bool)
    assert not spikes_in(found, least_n=1.0).any()
    spiked_n = found.calibrated_n.copy()
    spiked_n[[200, 500]] += 60.0
    spiked = replace(found, calibrated_n=spiked_n)
    spikes = spikes_in(spiked, least_n=1.0)
    assert np.flatnonzero(spikes[:, 0]).tolist() == [200, 500]
    clean = reference_force(found, spikes=none, cutoff_hz=8.0)
    assert reference_force(spiked, spikes=spikes, cutoff_hz=8.0) == pytest.approx(
        clean, abs=0.5, nan_ok=True
    )
    blind = reference_force(spiked, spikes=none, cutoff_hz=8.0)
    assert np.nanmax(np.abs(blind - clean)) > 5


def test_a_gap_primes_the_filter_afresh() -> None:
    found = material.read(FOLDER / "one-side-v1.0.force")
    half = len(found.time_s) // 2
    cut = replace(found, runs=(slice(0, half), slice(half, len(found.time_s))))
    shown_n = shown_force(cut, FilterChoice(FilterKind.BUTTERWORTH, cutoff_hz=3.0))
    assert shown_n[half] == pytest.approx(found.calibrated_n[half] - found.zero_n[half])


def test_a_recording_without_a_band_says_what_to_give(tmp_path: Path) -> None:
    table, out = tmp_path / "t.csv", tmp_path / "t.force"
    table.write_text("force_N\n" + "\n".join(["50.0"] * 200), encoding="ascii")
    words = ["import", str(table), "--rate", "80", "--columns", "force_N"]
    assert cli.main([*words, "-o", str(out)]) == 0
    with pytest.raises(FileError, match=r"--band 60:96"):
        material.read(out)
    assert len(material.read(out, Band(40.0, 60.0)).time_s) == 200
