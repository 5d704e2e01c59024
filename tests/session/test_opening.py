"""The desk starts with what this athlete was asked last, and makes nothing up."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.logbook.database import Logbook
from biofeedback.session.opening import PLAIN, last_prescription
from biofeedback.session.recovery import recover

if TYPE_CHECKING:
    import pytest

KEPT = Path(__file__).parents[2] / "recordings"


def test_a_new_athlete_has_no_reference(tmp_path: Path) -> None:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        assert last_prescription(logbook, "A017") is PLAIN
    assert PLAIN.reference is None
    assert "invented" not in PLAIN.task.name


def test_an_athlete_who_was_here_finds_the_last_prescription(tmp_path: Path) -> None:
    folder = tmp_path / "recordings"
    folder.mkdir()
    cut = (KEPT / "one-side-v1.0.force").read_bytes()[:-100]
    (folder / "cut.force").write_bytes(cut)
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        recover(folder, logbook)
        asked = last_prescription(logbook, "DEMO-3")
        assert last_prescription(logbook, "DEMO-4") is PLAIN
    assert asked.reference is not None
    assert asked.reference.force_n == 120.0
    assert (asked.hold_s, asked.reps) == (5.0, 2)
    assert asked != replace(asked, hold_s=6.0)


def test_pain_and_notes_are_told_by_replay_and_export(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    from biofeedback import cli  # noqa: PLC0415  only this test needs it

    path = KEPT / "nudge-and-lapse-v1.0.force"
    assert cli.main(["replay", str(path)]) == 0
    assert "at 0.0 s: Invented: the simulated rig" in capsys.readouterr().out
    out = tmp_path / "out"
    assert cli.main(["export", str(out), "--notes", "--files", str(path)]) == 0
    events = (out / "csv" / "events.csv").read_text().splitlines()
    assert any(",band," in line and ",68.0,104.0," in line for line in events)
    assert any(",note," in line and "Invented" in line for line in events)
