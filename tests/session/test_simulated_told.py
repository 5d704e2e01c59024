"""Newtons of the simulated rig say so wherever they go."""

from __future__ import annotations

import csv
import json
from typing import TYPE_CHECKING

import edfio
import pytest
from session.kept_logbook import manifest
from session.visit_on_rig import CODE, OnRig

from biofeedback.conditioning.profile import RigProfile
from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.report.document import sheet
from biofeedback.report.sheet import Paragraph
from biofeedback.session.export import export_files
from biofeedback.session.export_asked import FORMATS, Wanted
from biofeedback.session.reports import Reports
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@pytest.fixture
def rig(tmp_path: Path) -> Iterator[OnRig]:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        made = OnRig(logbook, tmp_path / "recordings")
        made.begin()
        made.set_over()
        made.close()
        yield made


def recorded(rig: OnRig) -> Path:
    (visit,) = rig.logbook.sessions()
    return rig.folder / rig.logbook.sets(visit.id)[0].recording


def test_the_recording_names_it_whatever_its_calibration_is_called(rig: OnRig) -> None:
    content = recordings.read(recorded(rig)).header["profile"]
    assert isinstance(content, dict)
    assert RigProfile.from_json(Fields(content, "profile")).simulated
    for channel in content["channels"]:
        channel["calibration"]["label"] = "by masses"
    assert RigProfile.from_json(Fields(content, "profile")).simulated
    content["adc"] = "HX711"
    assert not RigProfile.from_json(Fields(content, "profile")).simulated
    content["channels"][0]["calibration"]["label"] = "simulated rig"  # as of old
    assert RigProfile.from_json(Fields(content, "profile")).simulated


def test_the_report_says_it_first(rig: OnRig) -> None:
    facts = Reports(rig.logbook).of(CODE)
    assert facts.simulated == facts.sets > 0
    texts = [part.text for part in sheet(facts).parts if isinstance(part, Paragraph)]
    assert texts[1].startswith(f"Simulated rig: sets of this period {facts.sets}")


def test_each_format_of_an_export_says_it(rig: OnRig, tmp_path: Path) -> None:
    out = tmp_path / "out"
    export_files([recorded(rig)], out, Wanted(FORMATS))
    for table in ("sets", "reps"):
        with (out / "csv" / f"{table}.csv").open(newline="") as file:
            assert {row["simulated"] for row in csv.DictReader(file)} == {"1"}
    (told,) = manifest(out)["recordings"]
    assert told["simulated"] is True
    texts = [one.text for one in edfio.read_edf(out / told["files"]["edf"]).annotations]
    assert "Simulated rig: the newtons are made up" in texts
    (sidecar,) = (out / "bids").rglob("*_physio.json")
    assert json.loads(sidecar.read_text())["Simulated"] is True
