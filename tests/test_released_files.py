"""A file of each format that was ever handed out lies in `recordings/` and opens.

What a newer or a broken file is told is tested beside each reader.
"""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from biofeedback.logbook import plan_file, recording_format, recordings
from biofeedback.logbook.schema import SCHEMA_REVISION
from biofeedback.logbook.sealed import container, key_file, keyring
from biofeedback.session.replay import replay
from biofeedback.training.plan import PLAN_VERSION

if TYPE_CHECKING:
    from collections.abc import Iterable

KEPT = Path(__file__).resolve().parent.parent / "recordings"
RELEASED_MINORS = {1: 0}
"""The last minor version of each major version of recordings."""


def names() -> set[str]:
    return {path.name for path in KEPT.iterdir()}


def missing(wanted: Iterable[str]) -> set[str]:
    return set(wanted) - names()


def test_no_format_was_handed_out_without_a_file_being_kept() -> None:
    now = recording_format.MAJOR, recording_format.MINOR
    assert (max(RELEASED_MINORS), RELEASED_MINORS[max(RELEASED_MINORS)]) == now
    for major, last in RELEASED_MINORS.items():
        for minor in range(last + 1):
            assert list(KEPT.glob(f"*-v{major}.{minor}.force")), (major, minor)
    assert not missing(f"plan-v{n}.json" for n in range(1, PLAN_VERSION + 1))
    before = range(1, int(SCHEMA_REVISION))
    assert not missing(f"logbook-{n:04}.db.gz" for n in before)


@pytest.mark.parametrize("kept", sorted(KEPT.glob("*.force")), ids=lambda p: p.name)
def test_a_kept_recording_gives_its_stored_numbers_and_is_only_read(
    kept: Path, tmp_path: Path
) -> None:
    path = Path(shutil.copy(kept, tmp_path))
    before = path.read_bytes()
    assert replay(path).agrees is True
    assert recordings.read(path).survey().losses() == ""
    assert path.read_bytes() == before
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize(
    "kept", sorted(KEPT.glob("plan-v*.json")), ids=lambda p: p.name
)
def test_a_kept_plan_opens_and_is_only_read(kept: Path, tmp_path: Path) -> None:
    path = Path(shutil.copy(kept, tmp_path))
    before = path.read_bytes()
    assert plan_file.load(path).stages
    assert path.read_bytes() == before


def test_a_kept_sealed_recording_opens_both_ways(tmp_path: Path) -> None:
    folder = KEPT / f"sealed-v{container.VERSION}"
    shutil.copytree(folder, tmp_path / "kept")
    path = tmp_path / "kept" / "one-side-v1.0.force"
    found = key_file.read(tmp_path / "kept" / "logbook.keys.json")
    for key in (
        found.opened("four invented words here"),
        found.recovered("0123-4567-89AB-CDEF-GHJK-MNPQ-RSNP"),
    ):
        keyring.hold([key])
        assert replay(path).agrees is True
        assert recordings.read(path).survey().losses() == ""
        keyring.forget()
