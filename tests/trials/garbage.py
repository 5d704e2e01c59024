"""Random and mutated bytes through the decoder: nothing false, nothing raised.

    python tests/trials/garbage.py [--mb 100] [--seed 1]

Frames of numbered samples are flipped, cut, doubled, spliced and drowned in noise, and
pushed in pieces of any size, so that frames are decoded one by one and many at once. A
frame of samples that is given must be one of those that were made. What is held and
what the process needs at most is told.
"""

from __future__ import annotations

import argparse
import random
import resource
import sys
import time
from dataclasses import dataclass
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from logbook.numbered import sample_bytes
from wire.frame_examples import EXAMPLES

from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Damage, Samples
from biofeedback.wire.limits import ENCODED_MAX

MADE = 400
"""Frames that are mutated, of 1 to 20 samples."""
BATCH = 2000
PIECE_MOST = 100_000


@dataclass(slots=True)
class Tally:
    """What came of it."""

    bytes: int = 0
    sound: int = 0
    damaged: int = 0
    false: int = 0
    held_most: int = 0
    grown_mb: float = 0.0
    mb_per_s: float = 0.0


def run(mb: float, *, seed: int) -> Tally:
    """Pushes so many megabytes."""
    chance = random.Random(seed)  # noqa: S311  no secret
    made = [sample_bytes(20 * n, 1 + n % 20) for n in range(MADE)]
    made += [encode(frame) for frame in EXAMPLES.values()]
    true = {_key(f) for piece in made for f in Decoder().push(piece)}
    tally, decoder = Tally(), Decoder()
    before_kb = 0
    spent_s = 0.0
    while tally.bytes < mb * 1e6:
        data = b"".join(_mutated(chance, made) for _ in range(BATCH))
        at = 0
        while at < len(data):
            piece = data[at : at + chance.choice((1, 30, 4096, PIECE_MOST))]
            at += len(piece)
            begun_s = time.perf_counter()
            found = decoder.push(piece)
            spent_s += time.perf_counter() - begun_s
            tally.held_most = max(tally.held_most, decoder.held_bytes)
            for one in found:
                if isinstance(one, Damage):
                    tally.damaged += 1
                else:
                    tally.sound += 1
                    tally.false += _key(one) not in true
        tally.bytes += len(data)
        used_kb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        before_kb = before_kb or used_kb
        tally.grown_mb = (used_kb - before_kb) / 1024
    tally.mb_per_s = tally.bytes / 1e6 / spent_s
    return tally


def _key(frame: object) -> object:
    if isinstance(frame, Samples):
        return (frame.sequence, frame.time_us, frame.counts.tobytes())
    return repr(frame)


def _mutated(chance: random.Random, made: list[bytes]) -> bytes:  # noqa: C901  a list
    one = bytearray(chance.choice(made))
    at = chance.randrange(len(one))
    match chance.randrange(9):
        case 0:
            one[at] ^= 1 << chance.randrange(8)
        case 1:
            del one[at : at + chance.randrange(1, 9)]
        case 2:
            one[at:at] = chance.randbytes(chance.randrange(1, 9))
        case 3:
            one *= 2  # comes again
        case 4:
            other = chance.choice(made)
            one[at:] = other[chance.randrange(len(other)) :]
        case 5:
            one = bytearray(chance.randbytes(chance.randrange(1, 300)))
        case 6:
            for _ in range(chance.randrange(2, 12)):
                one[chance.randrange(len(one))] = chance.randrange(256)
        case 7:
            if chance.random() < 0.01:  # a line that has no end
                one = bytearray(chance.randbytes(3 * ENCODED_MAX).replace(b"\0", b"\1"))
        case _:
            pass  # sound
    return bytes(one)


def main() -> int:
    """Runs it and prints the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--mb", type=float, default=100.0)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    tally = run(options.mb, seed=options.seed)
    print(
        f"{tally.bytes / 1e6:.0f} MB, {tally.mb_per_s:.1f} MB/s: {tally.sound} frames "
        f"sound, {tally.damaged} damaged, {tally.false} false; at most "
        f"{tally.held_most} bytes held; memory grew by {tally.grown_mb:.1f} MB"
    )
    return 1 if tally.false else 0


if __name__ == "__main__":
    sys.exit(main())
