"""A logbook with the demo recordings in it, and readers for what an export holds."""

from __future__ import annotations

import csv
import gzip
import json
import shutil
from pathlib import Path
from typing import Any

import pyarrow.parquet as pq

from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.session.replay import replay

KEPT = Path(__file__).parents[2] / "recordings"
NAMES = {"DEMO-3": "Änne Beispielfrau", "DEMO-6": "Olek Musterström", "DEMO-7": ""}
"""Invented."""


def fill(folder: Path) -> tuple[Path, Path]:
    """A logbook and its folder of recordings; all athletes but one have a name."""
    held = folder / "recordings"
    held.mkdir()
    place = folder / "logbook.db"
    with Logbook.open(place) as logbook:
        for code, name in NAMES.items():
            logbook.add_athlete(code, name)
        for path in sorted(KEPT.glob("*.force")):
            enter(logbook, Path(shutil.copy(path, held)))
    return place, held


def enter(logbook: Logbook, path: Path) -> str:
    """Enters a recording and its reps; returns the key of the set."""
    set_id = logbook.enter_recording(recordings.read(path).header, path.name)
    for rep in replay(path).reps:
        logbook.add_rep(set_id, rep)
    logbook.close_set(set_id, {})
    return set_id


def manifest(out: Path) -> dict[str, Any]:
    found = json.loads((out / "manifest.json").read_text(encoding="utf-8"))
    assert isinstance(found, dict)
    return found


def rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file, strict=True))


def told(out: Path) -> str:
    """All that an export says, compressed or not, and the names of its files."""
    texts = []
    for path in sorted(out.rglob("*")):
        texts.append(str(path.relative_to(out)))
        if not path.is_file():
            continue
        content = path.read_bytes()
        texts.append(content.decode("utf-8", "replace"))
        texts.append(content.decode("latin-1"))
        if path.suffix == ".gz":
            texts.append(gzip.decompress(content).decode())
        if path.suffix == ".parquet":
            table = pq.read_table(path)
            texts.append(str(table.to_pylist()))
            texts.append(str(table.schema.to_string(show_schema_metadata=True)))
            texts.append((table.schema.metadata[b"biofeedback"]).decode())
    return "\n".join(texts)
