"""Mutated and monstrous files: an error that names the file, or what is sound of it.

    python tests/trials/bad_files.py [--each 300] [--seed 1]

Recordings, plans, tables of calibration points, force and scores, and preferences are
mutated byte by byte and piece by piece and read as the program reads them. Whatever is
raised must be an error in words that names the file and the place in it, if it has one.

Then one line of 4 GB (a sparse file, which takes no room), a deep nest and plain noise:
refused early, without the memory for it. Nothing that is read from outside is
compressed, so there is no bomb.
"""

from __future__ import annotations

import argparse
import random
import re
import resource
import sys
import tempfile
import time
import traceback
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from biofeedback.conditioning.gravity import Gravity
from biofeedback.errors import BiofeedbackError, FileError
from biofeedback.logbook import calibration_table, people_tables, plan_file, recordings
from biofeedback.logbook.filter_log import FilterLog
from biofeedback.logbook.table_import import import_table
from biofeedback.logbook.table_source import Choice
from biofeedback.session.preferences import FILE_NAME, PreferenceFile
from biofeedback.session.replay import replay

if TYPE_CHECKING:
    from collections.abc import Callable

KEPT = Path(__file__).resolve().parents[2] / "recordings"
HUGE_BYTES = 4 * 2**30
READ_MOST_S = 5.0
"""A recording with 4 GB of zeros behind it is read as far as there may be more."""
SLOW_S = 2.0
WHOLE = (
    "is empty",
    "not a recording",
    "far too long",
    "nested too deeply",
    "and no rows",
    "and no points",
    "there is one row",
    "fewer than two rows",
)
"""Words for a file as a whole, or for what is not in it: there is no place."""
RECORDING_MOST = 40_000
"""So much of a demo recording is mutated; the rest would only take time."""

POINTS = "mass_kg,counts\n0,12\n5,120512\n10,241010\n20,482013\n10,241019\n0,15\n"
FORCES = "time_s,left_N,right_N\n" + "".join(
    f"{n / 80:.4f},{n % 50},{n % 40}\n" for n in range(200)
)
SCORES = "code,first,second\nINV-1,400,410\nINV-2,380,371\nINV-3,455,460\n"
PREFERENCES = (
    '{"format": "biofeedback preferences", "version": 1, "text_pct": 110, '
    '"keys": {"F5": "F2"}, "night": true}'
)


@dataclass(slots=True)
class Tally:
    """Per kind of file: read, refused; and what went wrong."""

    read: dict[str, int] = field(default_factory=dict)
    refused: dict[str, int] = field(default_factory=dict)
    slowest_s: float = 0.0
    grown_mb: float = 0.0
    faults: list[str] = field(default_factory=list)


def kinds(folder: Path) -> dict[str, tuple[str, bytes, Callable[[Path], object]]]:
    """Name of the file, sound content, and how it is read."""
    recording = (KEPT / "both-sides-v1.0.force").read_bytes()[:RECORDING_MOST]
    out = folder / "out.force"

    def take_over(path: Path) -> None:
        out.unlink(missing_ok=True)
        import_table(path, out, Choice(("left_N", "right_N")))

    def survey(path: Path) -> None:
        recordings.read(path).survey()
        replay(path)

    def preferences(path: Path) -> None:
        _, words = PreferenceFile(path.parent).read()
        _told(path, [words] if words else [])

    def filters(path: Path) -> None:
        _told(path, FilterLog(path).read()[1])

    return {
        "recording": ("a.force", recording, survey),
        "plan": ("plan.json", (KEPT / "plan-v1.json").read_bytes(), plan_file.load),
        "points": (
            "points.csv",
            POINTS.encode(),
            lambda path: calibration_table.read_points(
                path, gravity=Gravity.standard()
            ),
        ),
        "forces": ("forces.csv", FORCES.encode(), take_over),
        "scores": ("scores.csv", SCORES.encode(), people_tables.read_scores),
        "preferences": (
            FILE_NAME,
            PREFERENCES.encode(),
            preferences,
        ),
        "filters": ("filters.jsonl", b"{}\n", filters),
    }


def run(folder: Path, each: int, *, seed: int, huge_bytes: int = HUGE_BYTES) -> Tally:
    """So many mutations of each kind, and the monsters."""
    chance = random.Random(seed)  # noqa: S311  no secret
    tally = Tally()
    before_kb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    for kind, (name, sound, read) in kinds(folder).items():
        path = folder / name
        path.write_bytes(sound)
        _read(tally, kind, path, read)
        for _ in range(each):
            path.write_bytes(_mutated(chance, sound))
            _read(tally, kind, path, read)
        for monster in (b"", b"[" * 100_000, b"x" * 200_000, b"\xff\xfe" * 5000):
            path.write_bytes(monster)
            _read(tally, kind, path, read)
        with path.open("wb") as file:
            file.truncate(huge_bytes)  # one line of zeros
        _read(tally, f"{kind}, 4 GB", path, read)
        with path.open("wb") as file:
            file.write(sound.split(b"\n")[0] + b"\n" + b"7" * 5000)
            file.truncate(huge_bytes)
        _read(tally, f"{kind}, 4 GB", path, read)
        path.unlink(missing_ok=True)
    used_kb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    tally.grown_mb = (used_kb - before_kb) / 1024
    return tally


def _read(tally: Tally, kind: str, path: Path, read: Callable[[Path], object]) -> None:
    begun_s = time.perf_counter()
    try:
        read(path)
        tally.read[kind] = tally.read.get(kind, 0) + 1
    except BiofeedbackError as error:
        tally.refused[kind] = tally.refused.get(kind, 0) + 1
        if path.name not in str(error):
            tally.faults.append(f"{kind}: does not name the file: {error}")
        elif not _placed(error):
            tally.faults.append(f"{kind}: does not name the place: {error}")
    except Exception:  # noqa: BLE001  that is what is looked for
        tally.faults.append(f"{kind}: {traceback.format_exc(limit=-3)}")
    took_s = time.perf_counter() - begun_s
    tally.slowest_s = max(tally.slowest_s, took_s)
    if took_s > (READ_MOST_S if "GB" in kind else SLOW_S):
        tally.faults.append(f"{kind}: took {took_s:.1f} s")


def _told(path: Path, words: list[str]) -> None:
    """What is read on past, and told: each names the file and where it is."""
    for one in words:
        if path.name not in one or len(one) <= len(str(path)) + 3:
            raise AssertionError(f"names no file: {one}")
        if not re.search(r"line \d|position \d|[a-z_.]+: |far too long|nested", one):
            raise AssertionError(f"names no place: {one}")


def _placed(error: BiofeedbackError) -> bool:
    """Whether it says where in the file, or that all of it is meant."""
    words = str(error)
    placed = isinstance(error, FileError) and bool(error.place)
    return placed or any(one in words for one in WHOLE)


def _mutated(chance: random.Random, sound: bytes) -> bytes:
    one = bytearray(sound)
    for _ in range(chance.choice((1, 1, 1, 3, 10))):
        at = chance.randrange(len(one)) if one else 0
        match chance.randrange(7):
            case 0 if one:
                one[at] ^= 1 << chance.randrange(8)
            case 1:
                del one[at : at + chance.randrange(1, 40)]
            case 2:
                one[at:at] = chance.randbytes(chance.randrange(1, 9))
            case 3:
                one[at:at] = one[at : at + chance.randrange(1, 60)]
            case 4:
                del one[at:]
            case 5:
                one[at:at] = chance.choice(
                    (b"NaN", b"Infinity", b"1e999", b"-1", b"null", b"true", b'"',
                     b",,", b";", b"\n", b"{", b"[", b"9" * 400, "١".encode(), b"\0")
                )  # fmt: skip
            case _:
                one[at : at + 1] = chance.randbytes(1)
    return bytes(one)


def main() -> int:
    """Runs it and prints the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--each", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        tally = run(Path(folder), options.each, seed=options.seed)
    for kind in sorted({*tally.read, *tally.refused}):
        print(
            f"{kind}: {tally.read.get(kind, 0)} read, "
            f"{tally.refused.get(kind, 0)} refused"
        )
    print(
        f"slowest {tally.slowest_s:.2f} s; memory grew by {tally.grown_mb:.1f} MB; "
        f"faults: {len(tally.faults)}"
    )
    for fault in sorted(set(tally.faults))[:40]:
        print(fault)
    return 1 if tally.faults else 0


if __name__ == "__main__":
    sys.exit(main())
