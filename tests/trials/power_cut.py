"""The end of a recording cut off, and zeroed, at every byte of its last 64 KiB.

    python tests/trials/power_cut.py [--step 1]

A disk that loses power leaves a file short, or as long as it was with zeros at its end.
Each time the file is written anew and read as the program reads it. All whole frames
before the place must be given as they were sent, and nothing else but, of zeros, the
one frame that they damaged.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

import numpy as np
from logbook.numbered import header, sample_bytes

from biofeedback.logbook import recording_format, recordings
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import Damage, Header, Samples

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.wire.frames import Frame

BEGUN = datetime(2024, 1, 1, tzinfo=UTC)
TAIL_BYTES = 65_536
SAMPLES = 8
"""In a frame, as a board at 80 Hz with two cells sends them ten times a second."""


@dataclass(frozen=True, slots=True)
class Found:
    """How many places were tried, and what was wrong; none where all is well."""

    places: int
    faults: list[str]


def pieces() -> list[bytes]:
    """The frames of a recording somewhat longer than its last 64 KiB."""
    content = recording_format.completed(header(), set_id="invented", started_utc=BEGUN)
    made = [encode(Header(content))]
    size = 0
    while size < TAIL_BYTES + 100:
        made.append(sample_bytes(SAMPLES * (len(made) - 1), SAMPLES))
        size += len(made[-1])
    return made


def run(folder: Path, *, step: int) -> Found:
    """Tries every `step`-th place, cut and zeroed."""
    sent = pieces()
    whole = b"".join(sent)
    ends = np.cumsum([len(piece) for piece in sent])
    path = folder / "cut.force"
    faults: list[str] = []
    places = range(len(whole) - TAIL_BYTES, len(whole), step)
    for place in places:
        # Zeros stand for the delimiter that ended a frame.
        for zeros, good in (
            (0, int(np.searchsorted(ends, place, side="right"))),
            (len(whole) - place, int(np.searchsorted(ends - 1, place, side="right"))),
        ):
            path.write_bytes(whole[:place] + bytes(zeros))
            told = list(recordings.read(path).frames())
            frames = [one for one in told if not isinstance(one, Damage)]
            damage = len(told) - len(frames)
            inside = place not in ends and place + 1 not in ends
            if len(frames) != good or damage != bool(zeros and inside):
                faults.append(f"byte {place}, {zeros} zeros: {len(frames)} of {good}")
            elif not _as_sent(frames, sent, good):
                faults.append(f"byte {place}, {zeros} zeros: other frames than sent")
    return Found(2 * len(places), faults)


def _as_sent(frames: Sequence[Frame], sent: list[bytes], good: int) -> bool:
    # All of them are encoded again only now and then: that takes most of the time.
    numbers = [one.sequence for one in frames if isinstance(one, Samples)]
    if len(numbers) != good - 1:
        return False
    steps = np.mod(np.diff(np.array(numbers, dtype=np.int64)), 2**32)
    last = frames[-1]
    return bool((steps == SAMPLES).all()) and encode(last) == sent[good - 1]


def main() -> int:
    """Runs it and prints the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--step", type=int, default=1)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        found = run(Path(folder), step=options.step)
    print(f"{found.places} cuts and zeroed ends; faults: {len(found.faults)}")
    for fault in found.faults[:20]:
        print(fault)
    return 1 if found.faults else 0


if __name__ == "__main__":
    sys.exit(main())
