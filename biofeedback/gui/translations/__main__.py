"""Brings the catalogues up to date with the code."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import PySide6

from biofeedback.gui.translations import catalogue
from biofeedback.gui.translations.collected import collect

HERE = Path(__file__).parent
COMPILER = shutil.which("lrelease", path=Path(PySide6.__file__).parent) or "lrelease"


def main() -> int:
    """Collects, merges, compiles and tells what is to be done.

    Returns:
        0 when each text has its translation.
    """
    collected = collect()
    for fault in collected.faults:
        print(fault)  # noqa: T201  a command prints its answer
    missing = 0
    for path in sorted(HERE.glob("*.ts")):
        merged = catalogue.merged(collected.places, catalogue.read(path))
        catalogue.write(path, path.stem.rpartition("_")[2], merged)
        subprocess.run(  # noqa: S603  Qt's own tool, our own file
            [COMPILER, "-silent", path, "-qm", path.with_suffix(".qm")], check=True
        )
        for text in (text for text, words in merged.items() if not words):
            missing += 1
            print(f"{path.name}: no translation: {text.source!r}")  # noqa: T201
    print(f"{len(collected.places)} texts, {missing} without translation")  # noqa: T201
    return 1 if missing or collected.faults else 0


if __name__ == "__main__":
    sys.exit(main())
