"""The filter bench: how long 60 candidates take over many recordings, and memory.

    python tests/bench/filter_bench.py [--recordings 100] [--times 3] [--memory]
        [--json]

Makes recordings of 60 s at 1 kHz from two cells in a temporary folder: five efforts
with tremor, noise, mains and some spikes, all invented. Ten are different; the rest
are copies, since what is in them does not matter to the time.

The ratio is to a plain loop over `scipy.signal`: one process, and for each candidate
reference, filter, noise, lag, exits, spikes and overshoot, with nothing kept between
two of them. Both are run in turns on a few recordings, by processor time. What the
bench does beyond that (reps by the rules of the live run, exits that have no partner,
gaps, bands that move) is in its own time only.

`--memory` tells the largest resident memory of the bench's processes for 10, 30 and
100 recordings; each number is a run of its own.
"""

from __future__ import annotations

import argparse
import json
import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from scipy import signal

from biofeedback.conditioning.filters import design, linear_sections
from biofeedback.conditioning.profile import FilterKind
from biofeedback.logbook import recordings
from biofeedback.tuning import bench
from biofeedback.tuning.candidates import candidates
from biofeedback.tuning.shown import REFERENCE_HZ
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import Close, Header, Identity, Samples

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.conditioning.profile import FilterChoice

    Floats = npt.NDArray[np.float64]

MODEL = Path(__file__).parents[2] / "recordings" / "both-sides-v1.0.force"
RATE_HZ = 1000.0
LENGTH_S = 60.0
CANDIDATES = 60
DIFFERENT = 10
FRAME_SAMPLES = 20
AT_A_TIME = 2
"""Recordings in one turn of the comparison."""
LIMIT_S = 60.0
MEMORY_FOR = (10, 30, 100)


def force_n(seed: int) -> Floats:
    """Force of both cells, shape (n, 2): five efforts of 8 s, invented."""
    draw = np.random.default_rng(seed)
    at = np.arange(0.0, LENGTH_S, 1.0 / RATE_HZ)
    within = at % 12.0
    level_n = np.interp(within, [1.5, 2.5, 10.0, 11.0], [0.0, 39.0, 39.0, 0.0])
    wander_n = np.cumsum(draw.normal(0.0, 1.0, len(at)))
    wander_n = signal.sosfilt(
        signal.butter(2, (0.1, 2.0), "bandpass", fs=RATE_HZ, output="sos"), wander_n
    )
    tremor_n = 1.2 * np.sin(2 * np.pi * 9.0 * at + draw.uniform(0, 6))
    held = level_n / 39.0
    mains_n = 0.3 * np.sin(2 * np.pi * 50.0 * at)
    both = []
    for share in (0.95, 1.05):
        noise_n = draw.normal(0.0, 0.5, len(at))
        spikes_n = np.where(draw.uniform(size=len(at)) < 1e-4, 30.0, 0.0)
        wander = held * (3.0 * wander_n / wander_n.std() + tremor_n)
        both.append(level_n * share + wander + noise_n + mains_n + spikes_n)
    return np.stack(both, axis=1)


def write(path: Path, seed: int, *, minutes: int = 1) -> None:
    """One recording of invented force: the same minute over and over."""
    header = dict(recordings.read(MODEL).header)
    profile: Any = dict(header["profile"])  # type: ignore[call-overload]
    prescription: Any = dict(header["prescription"])  # type: ignore[call-overload]
    profile["rate_hz"] = RATE_HZ
    prescription.update(hold_s=6.0, reps=5 * minutes, rest_s=0.0)
    header.update(profile=profile, prescription=prescription)
    per_count = [each["calibration"]["coefficients"] for each in profile["channels"]]
    counts = np.stack(
        [
            np.round((force - offset) / slope)
            for force, (offset, slope) in zip(force_n(seed).T, per_count, strict=True)
        ],
        axis=1,
    ).astype(np.int32)
    counts = np.tile(counts, (minutes, 1))
    identity = next(
        each for each in recordings.read(MODEL).frames() if isinstance(each, Identity)
    )
    with path.open("wb") as file:
        file.write(encode(Header(header)))
        file.write(encode(identity))
        for first in range(0, len(counts), FRAME_SAMPLES):
            some = counts[first : first + FRAME_SAMPLES]
            frame = Samples(
                first,
                0,
                round(1e6 * first / RATE_HZ),
                round(1e6 / RATE_HZ),
                some,
                np.zeros(some.shape, dtype=np.bool_),
                np.zeros(len(some), dtype=np.bool_),
            )
            file.write(encode(frame))
        file.write(encode(Close({})))


def make(folder: Path, number: int) -> list[Path]:
    """So many recordings."""
    paths = [folder / f"{at:03d}.force" for at in range(number)]
    for at, path in enumerate(paths):
        if at < DIFFERENT:
            write(path, at)
        else:
            shutil.copy(paths[at % DIFFERENT], path)
    return paths


def chosen() -> tuple[FilterChoice, ...]:
    """Sixty of the grid, evenly taken."""
    grid = candidates(rate_hz=RATE_HZ, mains_hz=50.0)
    return tuple(grid[at * len(grid) // CANDIDATES] for at in range(CANDIDATES))


def plain_loop(paths: list[Path], choices: tuple[FilterChoice, ...]) -> None:
    """What a script over `scipy.signal` does, one candidate after another."""
    for path in paths:
        counts = recordings.counts(path)[0].counts
        raw_n: Floats = counts * np.float64(0.00023283064365386963)
        for choice in choices:
            once = signal.butter(2, REFERENCE_HZ, fs=RATE_HZ, output="sos")
            despiked_n = [signal.medfilt(each, 3) for each in raw_n.T]
            clean_n = np.array(despiked_n, dtype=np.float64).T
            zero_phase_n = signal.sosfiltfilt(once, clean_n, axis=0)
            reference_n = np.asarray(zero_phase_n, dtype=np.float64)
            source_n = clean_n if choice.despike else raw_n
            shown_n = _plain(source_n, choice).sum(axis=1)
            quiet_n = _plain(reference_n, choice).sum(axis=1)
            spikeless_n = _plain(clean_n, choice).sum(axis=1)
            _measured_plainly(shown_n, quiet_n, spikeless_n, reference_n.sum(axis=1))


def _measured_plainly(
    shown_n: Floats, quiet_n: Floats, spikeless_n: Floats, true_n: Floats
) -> None:
    """Noise, spikes, overshoot, exits, and the lag in ramps and in holds."""
    noise_n, spiked_n = shown_n - quiet_n, np.abs(shown_n - spikeless_n)
    np.sqrt(np.mean(noise_n**2)), np.flatnonzero(spiked_n > 5.0)
    inside = (shown_n >= 60.0) & (shown_n <= 96.0)
    np.flatnonzero(inside[:-1] & ~inside[1:])
    for first in range(int(1.5 * RATE_HZ), len(shown_n), int(12 * RATE_HZ)):
        corners = first + (RATE_HZ * np.array([0.0, 1.0, 8.5, 9.5])).astype(int)
        for start, stop in pairwise(corners.tolist()):
            some_n, some_true_n = shown_n[start:stop], true_n[start:stop]
            np.argmax(signal.correlate(some_n, some_true_n, method="fft"))
            np.max(some_n, initial=0.0) - np.max(some_true_n, initial=0.0)


def _plain(source_n: Floats, choice: FilterChoice) -> Floats:
    sections = linear_sections(choice, rate_hz=RATE_HZ)
    if choice.kind is FilterKind.MOVING_AVERAGE:
        taps = np.full(choice.samples, 1.0 / choice.samples)
        return np.stack([signal.lfilter(taps, [1.0], each) for each in source_n.T], 1)
    if choice.kind is FilterKind.ONE_EURO:
        running = design(choice, rate_hz=RATE_HZ, channels=2)
        return running.push(source_n)
    if not len(sections):
        return source_n
    return np.asarray(signal.sosfilt(sections, source_n, axis=0))


def sweep(paths: list[Path], choices: tuple[FilterChoice, ...]) -> float:
    """Seconds for all; what was left out is a fault here."""
    begun_s = time.perf_counter()
    done = bench.sweep(paths, bench.Asked(choices, RATE_HZ))
    taken_s = time.perf_counter() - begun_s
    for each in done:
        if each.why or each.refused:
            raise SystemExit(f"{each.path}: {each.why} {each.refused}")
    return taken_s


def cpu_s() -> float:
    """Processor time of this process and of its children that have ended."""
    return sum(
        used.ru_utime + used.ru_stime
        for used in map(
            resource.getrusage, (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
        )
    )


def compared(paths: list[Path], times: int) -> dict[str, object]:
    """Both ways in turns, on the same recordings and on one core."""
    choices = chosen()
    bench.measured(paths[0], bench.Asked(choices, RATE_HZ))  # what is kept is kept
    ours_s, plain_s = [], []
    for _ in range(times):
        begun_s = time.process_time()
        for path in paths:
            bench.measured(path, bench.Asked(choices, RATE_HZ))
        ours_s.append(time.process_time() - begun_s)
        begun_s = time.process_time()
        plain_loop(paths, choices)
        plain_s.append(time.process_time() - begun_s)
    ratios = [ours / plain for ours, plain in zip(ours_s, plain_s, strict=True)]
    return {
        "recordings": len(paths),
        "bench_cpu_s_per_recording": statistics.median(ours_s) / len(paths),
        "plain_loop_cpu_s_per_recording": statistics.median(plain_s) / len(paths),
        "ratio": statistics.median(ratios),
        "ratio_least": min(ratios),
        "ratio_most": max(ratios),
    }


def memory_of(number: int) -> dict[str, object]:
    """Largest resident memory in MB, from a run in a process of its own."""
    told = subprocess.run(
        [sys.executable, __file__, "--peak-of", str(number)],
        check=True,
        capture_output=True,
        text=True,
    )
    found: dict[str, object] = json.loads(told.stdout)
    return found


def peak_of(number: int) -> dict[str, object]:
    """Runs a sweep, and tells the peak of this process and of its largest child."""
    with tempfile.TemporaryDirectory() as folder:
        paths = make(Path(folder), number)
        sweep(paths, chosen())
    kb_to_mb = 1.0 / 1024.0
    own = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    child = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    return {
        "recordings": number,
        "parent_mb": own * kb_to_mb,
        "largest_child_mb": child * kb_to_mb,
    }


def main() -> int:
    """Measures and tells."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--recordings", type=int, default=100)
    parser.add_argument("--times", type=int, default=3)
    parser.add_argument("--memory", action="store_true")
    parser.add_argument("--peak-of", type=int, help=argparse.SUPPRESS)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    if options.peak_of:
        print(json.dumps(peak_of(options.peak_of)))
        return 0
    with tempfile.TemporaryDirectory() as folder:
        paths = make(Path(folder), max(options.recordings, AT_A_TIME))
        told = compared(paths[:AT_A_TIME], options.times)
        used_s = cpu_s()
        told["load_1_min_before"] = os.getloadavg()[0]
        told["sweep_s"] = sweep(paths, chosen())
        told["sweep_cpu_s"] = cpu_s() - used_s
        told["sweep_recordings"] = len(paths)
    told["cores"] = os.cpu_count()
    told["memory"] = [memory_of(each) for each in MEMORY_FOR] if options.memory else []
    print(json.dumps(told, indent=2) if options.json else _table(told))
    return 0


def _table(told: dict[str, Any]) -> str:
    lines = [
        f"{CANDIDATES} candidates, recordings of {LENGTH_S:g} s at {RATE_HZ:g} Hz × 2",
        "",
        f"{'one recording, one core':<34} {'CPU s':>8}",
        f"{'the bench, all measures':<34} {told['bench_cpu_s_per_recording']:8.2f}",
        f"{'a plain loop over scipy.signal':<34} "
        f"{told['plain_loop_cpu_s_per_recording']:8.2f}",
        f"{'ratio, median (least to most)':<34} {told['ratio']:8.2f} "
        f"({told['ratio_least']:.2f} to {told['ratio_most']:.2f})",
        "",
        f"{told['sweep_recordings']} recordings on {told['cores']} cores: "
        f"{told['sweep_s']:.1f} s, {told['sweep_cpu_s']:.1f} s of processor time "
        f"(load before: {told['load_1_min_before']:.1f}; wanted: under {LIMIT_S:g} s "
        "for 100)",
    ]
    if told["memory"]:
        lines += ["", f"{'recordings':>10} {'parent MB':>10} {'a child MB':>11}"]
    lines += [
        f"{each['recordings']:10d} {each['parent_mb']:10.0f} "
        f"{each['largest_child_mb']:11.0f}"
        for each in told["memory"]
    ]
    return "\n".join(lines)


if __name__ == "__main__":
    sys.exit(main())
