"""All figures of speed in one command, each beside what it is compared with.

    python tests/bench/side_by_side.py [--part frame ...] [--json FILE]

Each part runs in a process of its own: `read` without a display, `frame` off screen
and on a virtual X display, the others on that display (Debian: `xvfb`; without it off
screen). Let the machine do nothing else meanwhile; what other work does to a figure
is seen in its spread and in the A/A rows. Under three minutes.
"""

from __future__ import annotations

import argparse
import json
import os
import shutil
import subprocess
import sys
from dataclasses import asdict
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bench.ratios import Row

PARTS = {
    "read": ("reading_cost", ("offscreen",)),
    "frame": ("frame_cost", ("offscreen", "xcb")),
    "live": ("sample_age", ("xcb",)),
    "start": ("start_time", ("xcb",)),
    "memory": ("memory_held", ("offscreen",)),
}
SCREEN = "1920x1080x24"
FAILED = "failed"
_CHILD = (
    "import sys, json, importlib, dataclasses\n"
    "sys.path[:0] = sys.argv[2:]\n"
    "rows = importlib.import_module(f'bench.{sys.argv[1]}').rows()\n"
    "print(json.dumps([dataclasses.asdict(row) for row in rows]))\n"
)


def measured(module: str, platform: str) -> list[Row]:
    """One part on one platform; a part that fails is one row that says so."""
    here = Path(__file__).resolve()
    command = [sys.executable, "-c", _CHILD, module, *map(str, here.parents[1:3])]
    if platform == "xcb":
        xvfb = shutil.which("xvfb-run")
        if xvfb:
            command = [xvfb, "-a", "-s", f"-screen 0 {SCREEN}", *command]
        elif not os.environ.get("DISPLAY"):
            platform = "offscreen"
    done = subprocess.run(
        command,
        # As the program itself has it.
        env={**os.environ, "QT_QPA_PLATFORM": platform, "OPENBLAS_NUM_THREADS": "1"},
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode:
        words = done.stderr.strip().splitlines() or ["no reason was given"]
        name = next(part for part, (one, _) in PARTS.items() if one == module)
        return [Row(name, f"{platform}: {FAILED}", float("nan"), "", note=words[-1])]
    return [_row(one) for one in json.loads(done.stdout.splitlines()[-1])]


def _row(read: dict[str, object]) -> Row:
    spread = read.pop("spread")
    pair = tuple(spread) if isinstance(spread, list) else None
    return Row(spread=pair, **read)  # type: ignore[arg-type]


def line(row: Row) -> str:
    """One row of the table."""
    spread = "" if row.spread is None else f"{row.spread[0]:.3g} to {row.spread[1]:.3g}"
    wanted = ""
    if row.most is not None:
        wanted = f"≤ {row.most:g}"
    elif row.least is not None:
        wanted = f"≥ {row.least:g}"
    reached = {True: "yes", False: "no", None: ""}[row.reached]
    return (
        f"{row.part:7}{row.what:52}{row.value:>10.3g} {row.unit:4}{spread:>16}"
        f"{wanted:>9} {reached:4}{row.note}"
    ).rstrip()


def main() -> None:
    """Prints the table as it grows."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument(
        "--part",
        action="append",
        choices=PARTS,
        metavar="PART",
        help=f"one of {', '.join(PARTS)}, more than once if need be; all where none",
    )
    parser.add_argument(
        "--json", type=Path, metavar="FILE", help="the same for scripts"
    )
    options = parser.parse_args()
    print(f"{'part':7}{'what':52}{'value':>10}     {'half lie in':>16}{'wanted':>9}")
    rows: list[Row] = []
    for part in options.part or PARTS:
        module, platforms = PARTS[part]
        for platform in platforms:
            found = measured(module, platform)
            rows += found
            print("\n".join(line(row) for row in found), flush=True)
    failed = [row for row in rows if row.what.endswith(FAILED)]
    missed = [row for row in rows if row.reached is False]
    figures = len(rows) - len(failed)
    print(f"{figures} figures, {len(missed)} of them not where they are wanted.")
    if options.json:
        told = [{**asdict(row), "reached": row.reached} for row in rows]
        options.json.write_text(json.dumps(told, indent=1), "utf-8")
    if failed:
        sys.exit(
            f"{len(failed)} parts could not be measured. What the bench needs comes "
            "with `python3 -m biofeedback.bootstrap prepare`."
        )


if __name__ == "__main__":
    main()
