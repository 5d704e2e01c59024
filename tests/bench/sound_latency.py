"""How long after a crossing the tone is in the buffer that goes to the device.

Sample time is the simulated clock: samples come at 80 Hz or 1 kHz, frames at 60 Hz in
random phase, buffers of the size the device asks for. What a device adds by itself
(its output latency) is told by the library where there is one, and is not in here.

    python tests/bench/sound_latency.py [--json]
"""

from __future__ import annotations

import argparse
import json
import random
import statistics
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from training.scripted import ONE_CELL, Script, asked, rig

from biofeedback.sound.choice import Choice
from biofeedback.sound.player import RATE_HZ, Player
from biofeedback.training.conductor import Conductor
from biofeedback.training.feedback import cue

FRAME_S = 1 / 60
CROSSINGS = 200


class Device:
    """An open device; the bench takes its samples."""

    def start(self) -> None:
        """Nothing to do."""

    stop = close = start


def latencies_ms(rate_hz: float, buffer: int, seed: int) -> list[float]:
    """From the crossing out of the band to the first sample that is not silent."""
    chance = random.Random(seed)  # noqa: S311  no secret
    found = []
    for _ in range(CROSSINGS):
        leaves_s = 2.0 + chance.random()
        time_s = [n / rate_hz for n in range(round(4.0 * rate_hz))]
        force_n = [0.0 if t < 0.5 else (30.0 if t < leaves_s else 55.0) for t in time_s]
        found.append(_one(Script.of(time_s, force_n), leaves_s, buffer, chance))
    return found


def _one(script: Script, leaves_s: float, buffer: int, chance: random.Random) -> float:
    conductor = Conductor(asked(20, 40, 30.0), rig(ONE_CELL))
    player, choice = Player(), Choice()
    player._stream = Device()
    frame_s = chance.random() * FRAME_S
    buffer_s = chance.random() * buffer / RATE_HZ
    taken = 0
    while True:
        now_s = min(frame_s, buffer_s)
        if frame_s <= buffer_s:
            end = sum(1 for t in script.time_s if t <= now_s)
            events = conductor.push(script.block(taken, end)) if end > taken else []
            taken = end
            state = conductor.state
            player.hear(choice.push(cue(state, live=True), state, events))
            frame_s += FRAME_S
        else:
            sounding = player.render(buffer)
            if now_s > leaves_s and sounding.any():
                first = int((sounding != 0).argmax())
                return 1000 * (now_s + first / RATE_HZ - leaves_s)
            buffer_s += buffer / RATE_HZ


def main() -> None:
    """Prints the table, or JSON."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    rows = []
    for rate_hz in (80.0, 1000.0):
        for buffer in (128, 512, 1024):
            values = sorted(latencies_ms(rate_hz, buffer, seed=1))
            rows.append(
                {
                    "rate_hz": rate_hz,
                    "buffer": buffer,
                    "median_ms": round(statistics.median(values), 2),
                    "p99_ms": round(values[int(0.99 * (len(values) - 1))], 2),
                    "crossings": len(values),
                }
            )
    if options.json:
        print(json.dumps(rows))
        return
    print("  rate Hz  buffer  median ms  p99 ms")
    for row in rows:
        print(
            f"{row['rate_hz']:9g}{row['buffer']:8d}{row['median_ms']:11.1f}"
            f"{row['p99_ms']:8.1f}"
        )


if __name__ == "__main__":
    main()
