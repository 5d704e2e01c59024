"""How long after a crossing the tone is in the buffer that goes to the device.

The crossing is that of the shown force, out of the band or over the ceiling, in sample
time. Samples come at 80 Hz or 1 kHz, frames at 60 Hz in random phase, buffers of the
size the device asks for. All of it runs on one reckoned clock, so the figures do not
depend on the machine. The filter's delay comes before it, and after it what the device
keeps by itself, for which `player.LATENCY_S` is asked. The last columns are measured
here: how long the device's thread takes for one buffer, while all sounds at once.

With `--device` the real player plays in real time through a virtual sound device, and
what the device gives out is recorded: from the crossing to the first sample there. It
says nothing of converters and loudspeakers, and more of the machine than the rest.

    python tests/bench/sound_latency.py [--json] [--device [--crossings N]]
"""

from __future__ import annotations

import argparse
import json
import random
import statistics
import sys
import time
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bench.virtual_device import RATE_HZ, Ear, VirtualDevice
from training.scripted import ONE_CELL, Script, asked, rig

from biofeedback.sound.choice import Choice
from biofeedback.sound.player import LATENCY_S, Player
from biofeedback.sound.speaker import BufferSpeaker
from biofeedback.sound.tones import Once, Steady, Synth
from biofeedback.training.conductor import Conductor
from biofeedback.training.feedback import cue

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy.typing as npt

FRAME_S = 1 / 60
HEARD = 0.002
"""What is louder is a tone; a resampler gives less before one begins."""
CROSSINGS = 600
"""A third each to below, above and over the ceiling."""
RATES_HZ = (80.0, 1000.0)
BUFFERS = (128, 512, 1024)
INSIDE_N = 30.0
OUT_AND_EDGE_N = ((10.0, 20.0), (50.0, 40.0), (70.0, 60.0))
ASKED = replace(asked(20.0, 40.0, 30.0), ceiling_n=60.0)


def latencies_ms(rate_hz: float, buffer: int, seed: int) -> list[float]:
    """From each crossing to the first sample that is not silent; one run for each."""
    chance = random.Random(seed)  # noqa: S311  no secret
    found = []
    for turn in range(CROSSINGS):
        leaves_s = 1.0 + chance.random()
        time_s = np.arange(round(3.0 * rate_hz)) / rate_hz
        out_n, edge_n = OUT_AND_EDGE_N[turn % len(OUT_AND_EDGE_N)]
        force_n = np.where(time_s < leaves_s, INSIDE_N, out_n)
        force_n[time_s < 0.2] = 0.0
        # The straight line between the samples passes the edge somewhere on the way.
        before = int(np.searchsorted(time_s, leaves_s)) - 1
        share = (edge_n - INSIDE_N) / (out_n - INSIDE_N)
        crossed_s = float(time_s[before]) + share / rate_hz
        found.append(_one(Script.of(time_s, force_n), crossed_s, buffer, chance))
    return found


def _one(script: Script, crossed_s: float, buffer: int, chance: random.Random) -> float:
    """In ms; by the order in which frames and buffers fall."""
    conductor = Conductor(ASKED, rig(ONE_CELL))
    speaker = BufferSpeaker()
    player, choice = Player(speaker), Choice()
    player.open()
    frame_s = chance.random() * FRAME_S
    buffer_s = chance.random() * buffer / speaker.rate_hz
    taken = 0
    while True:
        if frame_s <= buffer_s:
            end = int(np.searchsorted(script.time_s, frame_s, side="right"))
            events = conductor.push(script.block(taken, end)) if end > taken else []
            taken = end
            state = conductor.state
            player.hear(choice.push(cue(state, live=True), state, events))
            frame_s += FRAME_S
        else:
            sounding = np.flatnonzero(speaker.play(buffer))
            # Well after the call to go, and the tones on the way into the band.
            if buffer_s > crossed_s and len(sounding):
                heard_s = buffer_s + int(sounding[0]) / speaker.rate_hz
                return 1000 * (heard_s - crossed_s)
            buffer_s += buffer / speaker.rate_hz


def device_ms(rate_hz: float, crossings: int, seed: int) -> tuple[list[float], int]:
    """In real time on the virtual device; also how many crossings do not count.

    Of these another sound, such as a tick, was not over yet.
    """
    chance = random.Random(seed)  # noqa: S311  no secret
    force_n, crossed_s = [np.zeros(round(0.3 * rate_hz))], []
    samples = len(force_n[0])
    for turn in range(crossings):
        inside = np.full(round((1.0 + 0.3 * chance.random()) * rate_hz), INSIDE_N)
        out_n, edge_n = OUT_AND_EDGE_N[turn % len(OUT_AND_EDGE_N)]
        out = np.full(round(0.3 * rate_hz), out_n)
        samples += len(inside)
        share = (edge_n - INSIDE_N) / (out_n - INSIDE_N)
        crossed_s.append((samples - 1 + share) / rate_hz)
        samples += len(out)
        force_n += [inside, out]
    whole = np.concatenate(force_n)
    script = Script.of(np.arange(len(whole)) / rate_hz, whole)
    begun_s, arrived_s, wave = _played(script)
    silence = round(0.05 * RATE_HZ)
    found: list[float] = []
    for crossing_s in crossed_s:
        first = int(np.searchsorted(arrived_s, begun_s + crossing_s))
        if np.abs(wave[first - silence : first]).max(initial=0.0) > HEARD:
            continue  # something before it still sounds
        loud = np.flatnonzero(np.abs(wave[first : first + RATE_HZ // 2]) > HEARD)
        if len(loud):
            heard_s = float(arrived_s[first + int(loud[0])])
            found.append(1000 * (heard_s - begun_s - crossing_s))
    return found, crossings - len(found)


def _played(
    script: Script,
) -> tuple[float, npt.NDArray[np.float64], npt.NDArray[np.float32]]:
    """When time 0 of the script was; when each sample had arrived; the samples."""
    conductor, choice, player = Conductor(ASKED, rig(ONE_CELL)), Choice(), Player()
    ear = Ear()
    player.open()
    time.sleep(1.0)  # the device has begun, and asks for buffers evenly
    begun_s, taken, frames = time.perf_counter(), 0, 0
    while taken < len(script.time_s):
        frames += 1
        time.sleep(max(0.0, begun_s + frames * FRAME_S - time.perf_counter()))
        now_s = time.perf_counter() - begun_s
        end = int(np.searchsorted(script.time_s, now_s, side="right"))
        events = conductor.push(script.block(taken, end)) if end > taken else []
        taken = end
        state = conductor.state
        player.hear(choice.push(cue(state, live=True), state, events))
    player.close()
    time.sleep(0.2)
    return begun_s, *ear.heard()


def device_rows(crossings: int) -> list[dict[str, float]]:
    """One for each sample rate."""
    rows = []
    with VirtualDevice():
        for rate_hz in RATES_HZ:
            values, missed = device_ms(rate_hz, crossings, seed=2)
            rows.append(
                {
                    "rate_hz": rate_hz,
                    "crossings": len(values),
                    "not_counted": missed,
                    "median_ms": round(statistics.median(values), 1),
                    "p99_ms": round(_p99(values), 1),
                    "most_ms": round(max(values), 1),
                }
            )
    return rows


def render_ms(buffer: int) -> list[float]:
    """How long one buffer takes while as much sounds as ever does."""
    synth = Synth(48_000.0)
    took = []
    for turn in range(2000):
        if turn % 50 == 0:
            synth.keep((Steady.BELOW, Steady.ABOVE)[turn % 100 // 50])
            for once in Once:
                synth.strike(once)
        begun = time.perf_counter()
        synth.render(buffer)
        took.append(1000 * (time.perf_counter() - begun))
    return took


def _p99(values: Sequence[float]) -> float:
    return sorted(values)[int(0.99 * (len(values) - 1))]


def main() -> None:
    """Prints the table, or JSON."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--device", action="store_true", help="on a virtual device")
    parser.add_argument("--crossings", type=int, default=150, metavar="N")
    options = parser.parse_args()
    if options.device:
        _tell_device(device_rows(options.crossings), as_json=options.json)
        return
    rows = []
    for rate_hz in RATES_HZ:
        for buffer in BUFFERS:
            values = latencies_ms(rate_hz, buffer, seed=1)
            took = render_ms(buffer)
            rows.append(
                {
                    "rate_hz": rate_hz,
                    "buffer": buffer,
                    "crossings": len(values),
                    "median_ms": round(statistics.median(values), 2),
                    "p99_ms": round(_p99(values), 2),
                    "most_ms": round(max(values), 2),
                    "buffer_ms": round(buffer / 48, 2),
                    "render_median_ms": round(statistics.median(took), 3),
                    "render_p99_ms": round(_p99(took), 3),
                }
            )
    if options.json:
        print(json.dumps({"asked_of_device_ms": 1000 * LATENCY_S, "rows": rows}))
        return
    print("rate Hz  buffer  median ms  p99 ms  most ms  |  buffer ms  made in ms (p99)")
    for row in rows:
        print(
            f"{row['rate_hz']:7g}{row['buffer']:8d}{row['median_ms']:11.1f}"
            f"{row['p99_ms']:8.1f}{row['most_ms']:9.1f}  |{row['buffer_ms']:11.1f}"
            f"{row['render_median_ms']:12.3f} ({row['render_p99_ms']:.3f})"
        )


def _tell_device(rows: list[dict[str, float]], *, as_json: bool) -> None:
    if as_json:
        print(json.dumps({"device": "virtual", "rows": rows}))
        return
    print("On a virtual device (a null sink): no converter, no loudspeaker.")
    print("rate Hz  crossings  not counted  median ms  p99 ms  most ms")
    for row in rows:
        print(
            f"{row['rate_hz']:7g}{row['crossings']:11g}{row['not_counted']:13g}"
            f"{row['median_ms']:11.1f}{row['p99_ms']:8.1f}{row['most_ms']:9.1f}"
        )


if __name__ == "__main__":
    main()
