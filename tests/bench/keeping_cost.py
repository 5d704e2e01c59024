"""What it costs to back up, put back, make anew and erase, beside copying the files.

    python tests/bench/keeping_cost.py [--athletes 100] [--reps 40000] [--json]

Builds a place in a temporary folder, all of it invented, and gives each time as a
multiple of one plain copy of the same files that is put on disk, in the same run.
"""

from __future__ import annotations

import argparse
import json
import os
import shutil
import sys
import tempfile
import time
from pathlib import Path
from typing import TYPE_CHECKING

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bench.large_logbook import RECORDED, Club

from biofeedback.logbook.backup import back_up
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.erasable import look_for
from biofeedback.logbook.erasure import erase
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.logbook.restore import restore
from biofeedback.session.rebuild import rebuild

if TYPE_CHECKING:
    from collections.abc import Callable


def build(place: KeptPlace, options: argparse.Namespace) -> None:
    """A club's logbook, and as many recordings."""
    place.recordings.mkdir(parents=True)
    with Logbook.open(place.logbook) as book:
        Club(options.athletes, options.reps).fill(book)
    for number in range(options.recordings):
        shutil.copyfile(RECORDED, place.recordings / f"{number:05}.force")


def plain_copy(place: KeptPlace, target: Path) -> None:
    """What anybody would do by hand, with the window closed."""
    target.mkdir()
    for path in [*place.logbook_files(), *place.recording_files()]:
        copy = target / path.name
        shutil.copyfile(path, copy)
        with copy.open("rb+") as file:
            os.fsync(file.fileno())


def run(options: argparse.Namespace, folder: Path) -> dict[str, object]:
    """Builds and measures."""
    place = KeptPlace(folder / "here" / "logbook.db", folder / "here" / "recordings")
    build(place, options)
    size = sum(
        p.stat().st_size for p in [*place.logbook_files(), *place.recording_files()]
    )
    with Logbook.open(place.logbook) as book:
        code = book.athletes()[0].code
    works: dict[str, Callable[[], object]] = {
        "plain copy": lambda: plain_copy(place, folder / "plain"),
        "first backup": lambda: back_up(place, folder / "disk"),
        "backup, nothing changed": lambda: back_up(place, folder / "disk"),
        "restore": lambda: restore(folder / "disk", place),
        "rebuild": lambda: rebuild(place),
        "erase, with one backup": lambda: erase(place, look_for(place, code)),
    }
    taken_s = {}
    for name, work in works.items():
        begun = time.perf_counter()
        work()
        taken_s[name] = time.perf_counter() - begun
    plain_s = taken_s["plain copy"]
    return {
        "size_mb": round(size / 1e6, 1),
        "plain_copy_s": round(plain_s, 2),
        "times_a_plain_copy": {n: round(s / plain_s, 2) for n, s in taken_s.items()},
    }


def main() -> None:
    """Prints the table, or JSON."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--athletes", type=int, default=100)
    parser.add_argument("--reps", type=int, default=40_000)
    parser.add_argument("--recordings", type=int, default=300)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        found = run(options, Path(name))
    if options.json:
        sys.stdout.write(json.dumps(found) + "\n")
        return
    ratios = found["times_a_plain_copy"]
    assert isinstance(ratios, dict)  # narrows the type
    lines = [f"{found['size_mb']} MB, plain copy {found['plain_copy_s']} s"]
    lines += [f"{name:26s}{ratio:8.2f} ×" for name, ratio in ratios.items()]
    sys.stdout.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
