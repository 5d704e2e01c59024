"""What it costs that a logbook is sealed.

    python tests/bench/sealing_cost.py [--recordings 1000] [--athletes 500]

The same questions to a plain logbook and to the same one sealed, in processor time,
so that a busy machine says the same. All people are invented; the recordings are
copies of a demo recording of a minute.
"""

from __future__ import annotations

import argparse
import shutil
import statistics
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.logbook import recordings, sealing
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.logbook.sealed import key_file, keyring, recovery_code, texts
from biofeedback.logbook.sealed.container import Opener, Sealer
from biofeedback.logbook.sealed.master_key import MasterKey
from biofeedback.training.athlete import AthleteDetails

if TYPE_CHECKING:
    from collections.abc import Callable

SOURCE = Path(__file__).parents[2] / "recordings" / "both-sides-v1.0.force"
PASSPHRASE = "four words of no sense"  # noqa: S105  of this bench alone
CHUNK = bytes(range(256)) * 6
CHUNKS = 10_000


def cost_ms(does: Callable[[], object], times: int) -> float:
    """Median of the processor time."""
    found = []
    for _ in range(times):
        begun = time.process_time()
        does()
        found.append(1000 * (time.process_time() - begun))
    return statistics.median(found)


def fill(place: KeptPlace, athletes: int, files: int) -> None:
    place.recordings.mkdir()
    for number in range(files):
        shutil.copy(SOURCE, place.recordings / f"{number:05}.force")
    with Logbook.open(place.logbook) as book:
        for number in range(athletes):
            name = f"Invénted Náme {number} Family{number % 37}"
            book.people.add(
                AthleteDetails(f"A-{number}", name, 1990, notes="word " * 9)
            )


def ask(place: KeptPlace, called: str) -> None:
    paths = place.recording_files()
    with Logbook.open(place.logbook) as book:

        def first() -> None:
            texts.forget()
            book.people.search("family3")

        def again() -> None:
            book.people.search("family3")

        def headers() -> None:
            for path in paths:
                recordings.read(path)

        def surveys() -> None:
            for path in paths[:50]:
                recordings.read(path).survey()

        print(f"{called}: search, the first {cost_ms(first, 9):.1f} ms", end=", ")
        print(f"another {cost_ms(again, 9):.1f} ms", end="; ")
        print(f"a header {cost_ms(headers, 3) / len(paths):.2f} ms", end="; ")
        print(f"a whole recording {cost_ms(surveys, 3) / len(paths[:50]):.1f} ms")


def chunks(key: MasterKey) -> None:
    sealer = Sealer(key)
    made: list[bytes] = []
    seals = cost_ms(lambda: made.extend(sealer.sealed(CHUNK) for _ in range(CHUNKS)), 1)
    opener = Opener(key, sealer.beginning[20:52])
    opens = cost_ms(lambda: [list(opener.push(one)) for one in made], 1)
    told = f"a chunk of {len(CHUNK)} bytes: sealed in {1000 * seals / CHUNKS:.0f} µs"
    print(f"{told}, opened in {1000 * opens / CHUNKS:.0f} µs")


def main() -> None:
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--recordings", type=int, default=1000)
    parser.add_argument("--athletes", type=int, default=500)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        place = KeptPlace(Path(name) / "logbook.db", Path(name) / "recordings")
        fill(place, options.athletes, options.recordings)
        ask(place, "plain")
        key, code = MasterKey.new(), recovery_code.new()
        found = key_file.made(place.keys, key, passphrase=PASSPHRASE, code=code)
        keyring.hold([key])
        sizes = sum(path.stat().st_size for path in place.recording_files())
        spent = cost_ms(lambda: sealing.seal(place, found, key), 1)
        larger = sum(path.stat().st_size for path in place.recording_files()) / sizes
        print(f"sealing all: {spent / 1000:.1f} s, {100 * larger - 100:.1f} % larger")
        ask(place, "sealed")
        typed = cost_ms(lambda: found.opened(PASSPHRASE), 3)
        print(f"the passphrase: {typed:.0f} ms")
        chunks(key)


if __name__ == "__main__":
    main()
