"""From the command to the first live frame, and what is imported on the way.

A rig on a pseudo-terminal sends already when the program is started, as one does that
is plugged in. The files are warm: one start before is not counted.
"""

from __future__ import annotations

import os
import re
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bench import live_rig
from bench.ratios import Row, middle

PART = "start"
SHOWN = 12
"""Of the imports, the dearest."""
_LINE = re.compile(r"import time:\s+(\d+) \|\s+(\d+) \|( +)(\S+)")


def once(port: str, folder: str) -> float:
    """Seconds until the first live frame has been painted."""
    command = [
        sys.executable,
        str(Path(__file__).with_name("first_frame.py")),
        *("window", "--port", port, "--logbook", f"{folder}/logbook.db"),
        *("--recordings", f"{folder}/recordings"),
    ]
    begun_ns = time.monotonic_ns()
    done = subprocess.run(
        command, env=_at_home(folder), capture_output=True, text=True, check=True
    )
    return (int(done.stdout.split()[-1]) - begun_ns) / 1e9


def _at_home(folder: str) -> dict[str, str]:
    """The user's folders are fresh; what is compiled is kept, as users have it."""
    kept = {"HOME": folder, "XDG_DATA_HOME": folder, "PYTHONPYCACHEPREFIX": folder}
    inherited = {
        name: value
        for name, value in os.environ.items()
        if name != "PYTHONDONTWRITEBYTECODE"
    }
    return {**inherited, **kept}


def imports(folder: str) -> list[tuple[float, str]]:
    """Own cost of the dearest packages on the way to the window, in ms."""
    imported = "import gc; gc.disable(); import biofeedback.gui.app"
    done = subprocess.run(
        [sys.executable, "-X", "importtime", "-c", imported],
        env=_at_home(folder),
        capture_output=True,
        text=True,
        check=True,
    )
    by_package: dict[str, float] = {}
    for line in done.stderr.splitlines():
        found = _LINE.match(line)
        if found:
            package = found[4].split(".")[0]
            by_package[package] = by_package.get(package, 0.0) + int(found[1]) / 1000
    ordered = sorted(((ms, name) for name, ms in by_package.items()), reverse=True)
    return ordered[:SHOWN]


def rows(*, starts: int = 5) -> list[Row]:
    """The whole part."""
    where = os.environ.get("QT_QPA_PLATFORM", "xcb")
    with (
        tempfile.TemporaryDirectory() as folder,
        live_rig.served(live_rig.ATHLETE, 1000.0) as (port, _),
    ):
        once(port, folder)
        took = [once(port, folder) for _ in range(starts)]
        loaded = imports(folder)
    _, spread = middle(took)
    told = [
        Row(
            PART,
            f"{where}: command to first live frame",
            statistics.median(took),
            "s",
            spread,
            most=1.2,
        )
    ]
    told += [Row(PART, f"of it, importing {name}", ms, "ms") for ms, name in loaded]
    return told
