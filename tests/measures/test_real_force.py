"""Rules and measures on pushes of people, next to a plain numpy computation.

Data: F. Tessari, maximum voluntary force study, MIT licence, 50 Hz; not part of
the project. Used are the pushes that begin at rest; the force of the first sample
is their zero.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import pytest
from training.scripted import ONE_CELL, Script, asked, reps, rig

from biofeedback.measures.rep import measure
from biofeedback.measures.trace import Trace
from biofeedback.training.conductor import Conductor
from biofeedback.training.prescription import ClockRule, Prescription

if TYPE_CHECKING:
    from pathlib import Path

    import numpy.typing as npt

    from biofeedback.measures.rep import RepMeasures

    Floats = npt.NDArray[np.float64]

STEP_S = 2e-5
LEAST_PUSHES = 24


@dataclass(frozen=True)
class Push:
    name: str
    time_s: Floats
    force_n: Floats


def pushes(folder: Path) -> list[Push]:
    found = []
    for file in sorted((folder / "gimbal_push_mvf").glob("*.csv"))[::3]:
        table = np.loadtxt(file, delimiter=",", skiprows=1, usecols=(0, 1))
        rest_n = table[0, 1]
        push = Push(file.stem, table[:, 0], table[:, 1] - rest_n)
        # Half a newton a sample at the start is an effort that began before.
        if rest_n < 20 and abs(push.force_n[1]) < 0.5 and push.force_n[-1] > 30:
            found.append(push)
    return found


def prescribed(push: Push, **changes: object) -> Prescription:
    """A band of ±10 % about the median of the last three seconds."""
    centre_n = float(np.median(push.force_n[push.time_s > push.time_s[-1] - 3]))
    plain = asked(0.9 * centre_n, 1.1 * centre_n, 3600.0)
    return Prescription(
        **{"task": plain.task, "band": plain.band, "hold_s": plain.hold_s} | changes  # type: ignore[arg-type]
    )


def measured(push: Push, prescription: Prescription) -> RepMeasures:
    script = Script.of(push.time_s, push.force_n)
    conductor = Conductor(prescription, rig(ONE_CELL), raw=True)
    blocks = script.blocks(range(0, len(push.time_s), 7))
    events = [event for block in blocks for event in conductor.push(block)]
    found = reps(events + conductor.stop())
    return measure(found[0], Trace.of(blocks), conductor.judged, prescription)


@dataclass(frozen=True)
class Plain:
    """The push resampled so densely that times can be counted."""

    time_s: Floats
    force_n: Floats
    inside: npt.NDArray[np.bool_]

    @classmethod
    def of(cls, push: Push, prescription: Prescription) -> Plain:
        time_s = np.arange(push.time_s[0], push.time_s[-1], STEP_S)
        force_n = np.interp(time_s, push.time_s, push.force_n)
        band = prescription.band
        onset_n = max(5.0, 0.1 * band.lower_n)
        first = int(np.argmax(force_n > onset_n))
        force_n, time_s = force_n[first:], time_s[first:]
        return cls(
            time_s, force_n, (force_n >= band.lower_n) & (force_n <= band.upper_n)
        )


def plain_impulse_ns(push: Push, start_s: float, end_s: float) -> float:
    """Trapezoids between the samples, with both ends put in between."""
    own = (push.time_s > start_s) & (push.time_s < end_s)
    time_s = np.concatenate(([start_s], push.time_s[own], [end_s]))
    force_n = np.interp(time_s, push.time_s, push.force_n)
    return float(np.trapezoid(force_n, time_s))


@pytest.fixture(scope="module")
def human(real_force_data: Path) -> list[Push]:
    found = pushes(real_force_data)
    assert len(found) >= LEAST_PUSHES
    return found


def test_onset_peak_impulse_and_times_are_those_of_a_plain_computation(
    human: list[Push],
) -> None:
    for push in human:
        prescription = prescribed(push)
        plain = Plain.of(push, prescription)
        found = measured(push, prescription)
        within = pytest.approx
        assert found.times.start_s == within(plain.time_s[0], abs=2 * STEP_S), push.name
        start_s, end_s = found.times.start_s, float(push.time_s[-1])
        assert found.times.hold_end_s == end_s
        # Each crossing is known to one step.
        slack_s = STEP_S * (3 + int(np.abs(np.diff(plain.inside.astype(int))).sum()))
        for name, counted in (
            ("inside_s", plain.inside),
            ("below_s", plain.force_n < prescription.band.lower_n),
            ("above_s", plain.force_n > prescription.band.upper_n),
        ):
            time_s = STEP_S * np.count_nonzero(counted)
            assert getattr(found.times, name) == within(time_s, abs=slack_s), push.name
        held = push.time_s >= start_s
        assert found.work.peak_n == push.force_n[held].max()
        impulse_ns = plain_impulse_ns(push, start_s, end_s)
        assert found.work.impulse_ns == within(impulse_ns, rel=1e-9)
        entry_s = plain.time_s[int(np.argmax(plain.inside))]
        assert found.times.entry_s == within(entry_s, abs=2 * STEP_S)
        assert found.steadiness is not None
        plateau_n = push.force_n[push.time_s >= entry_s - STEP_S]
        assert found.steadiness.mean_n == within(plateau_n.mean(), rel=1e-12)


def test_a_banked_hold_is_complete_when_a_plain_sum_says_so(human: list[Push]) -> None:
    complete = 0
    for push in human:
        prescription = prescribed(push, hold_s=1.5, clock=ClockRule.BANKED)
        plain = Plain.of(push, prescription)
        found = measured(push, prescription)
        held_s = np.cumsum(plain.inside) * STEP_S
        assert (found.outcome == "complete") == (held_s[-1] >= 1.5), push.name
        if found.outcome != "complete":
            continue
        complete += 1
        at = int(np.argmax(held_s >= 1.5))
        slack_s = STEP_S * (3 + int(np.abs(np.diff(plain.inside.astype(int))).sum()))
        assert abs(found.times.hold_end_s - plain.time_s[at]) <= slack_s, push.name
        assert found.work.impulse_ns == pytest.approx(
            plain_impulse_ns(push, found.times.start_s, found.times.hold_end_s),
            rel=1e-9,
        )
    assert complete >= LEAST_PUSHES // 2


def test_lapses_are_the_long_excursions_of_a_plain_count(human: list[Push]) -> None:
    lapses = 0
    for push in human:
        prescription = prescribed(push)
        plain = Plain.of(push, prescription)
        entry = int(np.argmax(plain.inside))
        edges = np.flatnonzero(np.diff(plain.inside[entry:].astype(int)))
        bounds = [*edges, len(plain.inside) - entry - 1]
        lengths_s = [
            (b - a) * STEP_S for a, b in zip(bounds[::2], bounds[1::2], strict=False)
        ]
        assert not any(abs(length_s - 0.3) < 3 * STEP_S for length_s in lengths_s)
        found = measured(push, prescription)
        assert found.times.lapses == sum(length_s > 0.3 for length_s in lengths_s)
        lapses += found.times.lapses
    assert lapses > 10
