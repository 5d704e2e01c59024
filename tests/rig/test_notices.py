"""What is told of the cells during a set: once each, and stored with the rep."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from rig.test_worker import ASKED, Bench
from session.test_replay import rewritten, split

from biofeedback.conditioning.pipeline import Pipeline
from biofeedback.conditioning.profile import (
    Calibration,
    Channel,
    RigProfile,
    Side,
    Zero,
    ZeroKind,
)
from biofeedback.measures.stillness import Stillness
from biofeedback.rig.commands import BeginSet, ChangeProfile, EndSet, TakeZero
from biofeedback.rig.force_input import ForceProfile
from biofeedback.rig.handoff import Measured, SessionEvent, Warned
from biofeedback.rig.notices import Notices
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.session.replay import Replayed, replay
from biofeedback.training.task import TaskKind
from biofeedback.wire.frames import Samples

if TYPE_CHECKING:
    from pathlib import Path

    import numpy.typing as npt

    from biofeedback.training.prescription import Prescription

REPS = 6
PERIOD_S = 5.0
SOME = replace(ASKED, reps=2, hold_s=1.0)


def pushes(*, drift_n_per_s: float = 0.0, step_n: float = 0.0) -> ForceProfile:
    """A push of 60 N every 5 s; the left cell drifts, or jumps with the first."""
    points = [(0.0, 0.0, 0.0), (4.0, 0.0, 0.0)]
    for rep in range(REPS):
        start_s = 4.0 + PERIOD_S * rep
        for at_s, force_n in ((1.0, 30.0), (2.5, 30.0), (2.8, 0.0), (5.0, 0.0)):
            now_s = start_s + at_s
            walked_n = drift_n_per_s * (now_s - 4.0) + step_n * (now_s > 6.6)
            points.append((now_s, force_n + walked_n, force_n))
    return ForceProfile(tuple(points))


def run(
    force: ForceProfile,
    rig: SimulatedRig | None = None,
    *,
    reps: int = 2,
    asked: Prescription = SOME,
    **changes: object,
) -> Bench:
    """Zero is taken at 1 s, the set begins at 2.5 s."""
    bench = Bench(rig or SimulatedRig(RigSettings(), seed=3, force=force))
    bench.run(1)
    bench.worker.send(
        ChangeProfile(replace(bench.update.profile, **changes))  # type: ignore[arg-type]  # fields by name
    )
    bench.worker.send(TakeZero(ZeroKind.EMPTY_RIG))
    bench.run(1.5)
    bench.worker.send(BeginSet(replace(asked, reps=reps)))
    bench.run(2.5 + PERIOD_S * reps)
    bench.worker.stop()
    return bench


def warnings(events: list[SessionEvent]) -> list[str]:
    return [event.message for event in events if isinstance(event, Warned)]


def measured(events: list[SessionEvent]) -> list[dict[str, object]]:
    return [dict(event.rep) for event in events if isinstance(event, Measured)]


def replayed(bench: Bench, tmp_path: Path) -> Replayed:
    path = tmp_path / "set.force"
    path.write_bytes(bench.recorder.files[-1])
    return replay(path)


def test_a_quiet_rig_has_nothing_to_tell(tmp_path: Path) -> None:
    bench = run(pushes())
    assert warnings(bench.events) == []
    reps = measured(bench.events)
    assert len(reps) == 2
    for rep in reps:
        assert rep["near_rated"] == rep["stuck"] == []
        assert rep["rated_peak_pct"] == pytest.approx(3.0, abs=0.05)
        assert rep["zero_drift_n"] == pytest.approx(0.0, abs=0.05)
        assert rep["rest_before_n"] == pytest.approx([0.0, 0.0], abs=0.03)
    assert replayed(bench, tmp_path).reps == reps


def test_live_and_replay_agree_however_the_samples_are_framed(tmp_path: Path) -> None:
    """At 1 kHz the board sends 8 in a frame; here each goes alone, then 3 by 3."""
    force = pushes(step_n=2.0)
    settings = RigSettings(rate_hz=1000.0)
    bench = run(force, FrozenRig(settings, seed=3, force=force), uncertainty_n=1.0)
    reps = measured(bench.events)
    assert reps[1]["stuck"] == ["left"]
    assert reps[0]["rest_before_n"] is not None
    path = replayed(bench, tmp_path).path
    alone = rewritten(path, tmp_path / "1.force", lambda frame: [*split(frame, 1)])
    in_threes = rewritten(path, tmp_path / "3.force", lambda frame: [*split(frame, 3)])
    assert replay(alone).reps == replay(in_threes).reps == reps


def test_a_zero_that_has_jumped_is_told_once(tmp_path: Path) -> None:
    bench = run(pushes(step_n=2.0))
    (told,) = warnings(bench.events)
    assert told == (
        "The left cell showed +2.0 N at rest before this rep. If nothing rested on "
        "it, its zero has walked: take zero before the next set."
    )
    reps = measured(bench.events)
    assert reps[0]["zero_drift_n"] == pytest.approx(2.0, abs=0.05)
    assert reps[1]["rest_before_n"] == pytest.approx([2.0, 0.0], abs=0.03)
    assert replayed(bench, tmp_path).reps == reps


def test_a_zero_so_far_off_that_a_rep_cannot_end_is_told_meanwhile() -> None:
    """Over half the onset level, 2.5 N, the force never is let go."""
    bench = run(pushes(step_n=3.0))
    (told,) = warnings(bench.events)
    assert told == (
        "The force has not come back to zero, so the rep cannot end: the left cell "
        "shows +3.0 N. If nothing rests on it, stop the set and take zero."
    )


@pytest.mark.parametrize(
    ("step_n", "words"),
    [
        (
            2.0,
            "at rest before this trial. If nothing rested on it, its zero has walked",
        ),
        (3.0, "so the trial cannot end: the left cell shows +3.0 N."),
    ],
)
def test_in_a_maximal_test_it_is_told_of_trials(step_n: float, words: str) -> None:
    asked = replace(SOME, task=replace(SOME.task, kind=TaskKind.MAXIMAL))
    (told,) = warnings(run(pushes(step_n=step_n), asked=asked).events)
    assert words in told
    assert "rep " not in told
    assert "set" not in told


def test_a_steady_drift_is_told_as_warming_up() -> None:
    """0.07 N/s are 1.4 N over the four periods from the first to the fifth rest.

    That is the first time that it is over 2.5 % of 50 N.
    """
    bench = run(pushes(drift_n_per_s=0.07), reps=REPS)
    (told,) = warnings(bench.events)
    assert told.startswith("The left cell drifts: its rest force has walked the same")
    assert "over 5 reps, as cells and boards do while they warm up" in told


def test_a_cell_near_its_rated_load_is_told_at_once_and_stored(tmp_path: Path) -> None:
    force = pushes()
    bench = Bench(SimulatedRig(RigSettings(), seed=3, force=force))
    bench.run(1)
    left, right = bench.update.profile.channels
    calibration = replace(right.calibration, label="bench", date="2026-01-12")
    small = (left, replace(right, rated_n=32.0, calibration=calibration))
    bench.worker.send(ChangeProfile(replace(bench.update.profile, channels=small)))
    bench.worker.send(BeginSet(SOME))
    bench.run(4.5)
    assert len(warnings(bench.events)) == 1  # before the rep is over
    bench.run(10)
    (told,) = warnings(bench.events)
    assert told.startswith(
        "The right cell is at 90 % of its rated load of 32 N or more."
    )
    reps = measured(bench.events)
    assert [rep["near_rated"] for rep in reps] == [["right"], ["right"]]
    assert replayed(bench, tmp_path).reps == reps
    bench.worker.stop()


class FrozenRig(SimulatedRig):
    """A converter whose first channel gives one number from a moment on: 0 N."""

    frozen_us = 8_500_000

    def _counts(
        self, times_us: npt.NDArray[np.int64], sequences: npt.NDArray[np.int64]
    ) -> tuple[npt.NDArray[np.int64], npt.NDArray[np.bool_]]:
        counts, saturated = super()._counts(times_us, sequences)
        counts[times_us >= self.frozen_us, 0] = 12_000
        return counts, saturated


def test_a_stuck_channel_is_told_once_and_stored(tmp_path: Path) -> None:
    force = pushes()
    bench = run(force, FrozenRig(RigSettings(), seed=3, force=force))
    (told,) = warnings(bench.events)
    assert told.startswith("The left cell gives one and the same number")
    reps = measured(bench.events)
    assert reps[0]["stuck"] == []
    assert reps[1]["stuck"] == ["left"]
    assert replayed(bench, tmp_path).reps == reps


@pytest.mark.parametrize("gap_at", [None, 1.31])  # among blocks that wait
def test_the_numbers_of_a_rep_know_of_all_that_is_stuck_by_then(
    gap_at: float | None,
) -> None:
    """Told as soon as by looking at each block, though blocks are put together."""
    channels = tuple(
        Channel(side.value, side, Calibration((0.0, 1e-3)), rated_n=1000.0)
        for side in (Side.LEFT, Side.RIGHT)
    )
    profile = RigProfile("invented rig", channels, 1000.0, Zero.none(2))
    notices, still = Notices(profile), Stillness(2)
    pipeline = Pipeline(profile)
    draw = np.random.default_rng(4)
    for number in range(330):
        counts = draw.normal(0.0, 40.0, (5, 2)).astype(np.int32)
        if number >= 200:
            counts[:, 0] = 1234
        time_us = 5000 * number
        shift = 0 if gap_at is None or time_us < 1e6 * gap_at else 7
        sequence, at_us = 5 * number + shift, time_us + 1000 * shift
        no = np.zeros((5, 2), np.bool_)
        frame = Samples(sequence, 0, at_us, 1000, counts, no, no[:, 0])
        for block in pipeline.push(frame):
            notices.block(block)
            still.push(block.time_s, block.counts, after_gap=block.gap)
        if number % 7 == 0:
            assert notices.stuck()[0] == tuple(still.found)
    assert [one.channel for one in still.found] == ([0] if gap_at is None else [])


def test_between_sets_a_stuck_channel_is_told_too() -> None:
    bench = Bench(FrozenRig(RigSettings(), seed=3))
    bench.run(12)
    assert len(warnings(bench.events)) == 1
    bench.worker.send(BeginSet(SOME))
    bench.run(1)
    bench.worker.send(EndSet())
    bench.worker.stop()


def test_uncertainty_of_the_profile_gives_the_time_surely_inside(
    tmp_path: Path,
) -> None:
    bench = run(pushes(), uncertainty_n=2.0)
    reps = measured(bench.events)
    for rep in reps:
        inside_s, sure_s = rep["inside_s"], rep["surely_inside_s"]
        assert isinstance(inside_s, float)
        assert isinstance(sure_s, float)
        # 50 to 54 N at 60 N/s is 67 ms.
        assert sure_s == pytest.approx(inside_s - 4 / 60, abs=0.01)
    assert replayed(bench, tmp_path).reps == reps
