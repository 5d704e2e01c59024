"""How long after a crossing the tone is in the buffer that goes to the device.

The crossing is that of the shown force, out of the band or over the ceiling, in sample
time. Samples come at 80 Hz or 1 kHz, frames at 60 Hz in random phase, buffers of the
size the device asks for. All of it runs on one reckoned clock, so the figures do not
depend on the machine. The filter's delay comes before it, and after it what the device
keeps by itself, for which `player.LATENCY_S` is asked. The last columns are measured
here: how long the device's thread takes for one buffer, while all sounds at once.

    python tests/bench/sound_latency.py [--json]
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

from training.scripted import ONE_CELL, Script, asked, rig

from biofeedback.sound.choice import Choice
from biofeedback.sound.player import LATENCY_S, Player
from biofeedback.sound.speaker import BufferSpeaker
from biofeedback.sound.tones import Once, Steady, Synth
from biofeedback.training.conductor import Conductor
from biofeedback.training.feedback import cue

if TYPE_CHECKING:
    from collections.abc import Sequence

FRAME_S = 1 / 60
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
    options = parser.parse_args()
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


if __name__ == "__main__":
    main()
