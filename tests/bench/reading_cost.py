"""What it costs to read: frames off the line, blocks through the rules, recordings.

Peers do the same piece of work in the plain way: frame by frame with the `cobs`
package (whose decoder is written in C), filters by a call of `scipy.signal` for each
sample, recordings as a `csv` of the same samples. All of it by processor time, for
nothing here waits.
"""

from __future__ import annotations

import csv
import gc
import struct
import sys
import tempfile
import time
import zlib
from pathlib import Path

import numpy as np
from cobs import cobs
from scipy import signal

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bench.filter_bench import write as write_recording
from bench.ratios import Row, in_turns
from gui.staged_session import ASKED, profile_of, steady_pull

from biofeedback.conditioning.profile import Side
from biofeedback.logbook import recordings
from biofeedback.rig.chain import Chain
from biofeedback.session.replay import replay
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Event, Samples

PART = "read"
RATE_HZ = 1000.0
FRAMES = 2000
_HEAD = struct.Struct("<BBIBBBII")


LONG_MIN = 10
"""Long enough that what a replay costs once counts as it does in an hour."""


def frames(count: int, *, per_frame: int, rate_hz: float) -> list[Samples]:
    """Two cells, as they come from a board: with the noise that any converter has."""
    draw = np.random.default_rng(1)
    found = []
    for first in range(0, count * per_frame, per_frame):
        times = (first + np.arange(per_frame)) / rate_hz
        force = np.array([steady_pull(float(at_s)) for at_s in times])
        found.append(
            Samples(
                first,
                0,
                round(1e6 * first / rate_hz) % 2**32,
                round(1e6 / rate_hz),
                (1000 * force + draw.normal(0.0, 40.0, force.shape)).astype(np.int32),
                np.zeros((per_frame, 2), bool),
                np.zeros(per_frame, bool),
            )
        )
    return found


def frame_by_frame(data: bytes) -> tuple[list[int], list[list[int]]]:
    """Times and counts, with the `cobs` package and nothing but Python."""
    times: list[int] = []
    counts: list[list[int]] = []
    for piece in data.split(b"\0"):
        if not piece:
            continue
        raw = cobs.decode(piece)
        if zlib.crc32(raw[:-4]) != int.from_bytes(raw[-4:], "little"):
            continue
        *_, channels, number, time_us, step_us = _HEAD.unpack_from(raw)
        at = _HEAD.size
        for index in range(number):
            times.append(time_us + index * step_us)
            at += 1
            row = []
            for _ in range(channels):
                row.append(int.from_bytes(raw[at : at + 3], "little", signed=True))
                at += 3
            counts.append(row)
    return times, counts


def decoding() -> list[Row]:
    """2 kHz from two cells: a recording as it is read, and a live line."""
    gc.collect()
    gc.disable()  # or the peer, with a list for each sample, would pay for it most
    try:
        return _decoding()
    finally:
        gc.enable()


def _decoding() -> list[Row]:
    size = len(encode(frames(1, per_frame=8, rate_hz=2000.0)[0]))
    count = recordings.CHUNK_BYTES // size
    sent = [encode(one) for one in frames(count, per_frame=8, rate_hz=2000.0)]
    data = b"".join(sent)

    def live() -> None:
        decoder = Decoder()
        for one in sent:
            decoder.push(one)

    found = in_turns(
        {
            "peer": lambda: frame_by_frame(data),
            "at once": lambda: Decoder().push_runs(data),
            "live": live,
        },
        9,
        clock=time.process_time,
    )
    ratio, spread = found.ratio("peer", "at once")
    share = 100 * found.ms("live") / 1000 / (count * 8 / 2000.0)
    return [
        Row(PART, "frame by frame with cobs / ours", ratio, "×", spread, least=20.0),
        Row(PART, "2 kHz × 2 live, of one core", share, "%", most=2.0),
    ]


def rules() -> list[Row]:
    """Conditioning and hold rules, blocks of 8 samples as they come."""
    profile = profile_of(Side.LEFT, Side.RIGHT, rate_hz=RATE_HZ)
    blocks = frames(FRAMES, per_frame=8, rate_hz=RATE_HZ)
    sections = signal.butter(2, 10.0, fs=RATE_HZ, output="sos")

    def ours() -> None:
        chain = Chain(profile)
        chain.begin(ASKED)
        for one in blocks:
            chain.push_all([one])

    def sample_by_sample() -> None:
        state = np.zeros((len(sections), 2, 2))
        for one in blocks[:100]:
            for row in one.counts:
                _, state = signal.sosfilt(
                    sections, row[:, None].astype(float), zi=state
                )

    found = in_turns(
        {"ours": ours, "peer": sample_by_sample}, 7, clock=time.process_time
    )
    peer_us = 1000 * found.ms("peer") / 100
    ours_us = 1000 * found.ms("ours") / FRAMES
    return [
        Row(PART, "conditioning and rules, block of 8 × 2", ours_us, "µs", most=60.0),
        Row(PART, "its filter alone, sosfilt by the sample", peer_us, "µs"),
    ]


def _write_csv(path: Path, from_recording: Path) -> None:
    (counts,) = recordings.counts(from_recording).values()
    with path.open("w", newline="") as file:
        rows = csv.writer(file)
        rows.writerow(("time_s", "left", "right"))
        rows.writerows(
            (f"{at:.6f}", *row)
            for at, row in zip(counts.time_s, counts.counts.tolist(), strict=True)
        )


def _csv(path: Path) -> list[tuple[float, ...]]:
    with path.open(newline="") as file:
        rows = csv.reader(file)
        next(rows)
        return [tuple(map(float, row)) for row in rows]


def opening(folder: Path) -> list[Row]:
    """Recordings of 60 s at 1 kHz from two cells; figures are for 30 s of them."""
    path, table = folder / "one.force", folder / "one.csv"
    write_recording(path, seed=1)
    _write_csv(table, path)

    def told() -> list[Event]:
        found = recordings.read(path).told()
        return [one for one in found if isinstance(one, Event)]

    found = in_turns(
        {
            "reps": told,
            "all counts": lambda: recordings.counts(path),
            "csv": lambda: _csv(table),
        },
        7,
        clock=time.process_time,
    )
    for_1000_s = 1000 * found.ms("reps") / 1000 / 2
    ratio, spread = found.ratio("csv", "reps")
    whole, whole_spread = found.ratio("csv", "all counts")
    long = folder / "long.force"
    write_recording(long, seed=1, minutes=LONG_MIN)
    begun_s = time.process_time()
    replay(long)
    hour_s = 60 / LONG_MIN * (time.process_time() - begun_s)
    return [
        Row(PART, "1,000 recordings of 30 s, their events", for_1000_s, "s", most=20.0),
        Row(PART, "csv of the same samples / events", ratio, "×", spread, least=5.0),
        Row(PART, "csv of the same samples / all counts", whole, "×", whole_spread),
        Row(PART, "1 h of 1 kHz × 2 replayed", hour_s, "s", most=6.0),
    ]


def rows() -> list[Row]:
    """The whole part; no display is needed."""
    with tempfile.TemporaryDirectory() as folder:
        return [*decoding(), *rules(), *opening(Path(folder))]
