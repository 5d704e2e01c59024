"""Counters of 32 bits that turn over within a hold: no number may tell of it.

The same board, athlete and faults run twice: once from 0, once so that device time
(2**32 µs, 71.6 min) or the number of the samples turns over in the middle of a hold.
"""

from __future__ import annotations

import csv
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest

from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.exports.chosen_sets import Filters
from biofeedback.rig.faults import Fault, FaultKind
from biofeedback.rig.handoff import Link, Measured
from biofeedback.rig.simulated_athlete import SimulatedAthlete
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.rig.simulated_source import SimulatedSource
from biofeedback.session import Session, demo
from biofeedback.session.export import export_logbook
from biofeedback.session.export_asked import Wanted
from biofeedback.session.replay import replay
from biofeedback.wire.frames import Samples
from biofeedback.wire.text_lines import TextLines

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

TURN = 2**32
RATE_HZ = 80.0
STEP_US = 50_000
ASKED = replace(demo.PRESCRIPTION, hold_s=4.0, reps=2, rest_s=2.0)
IN_HOLD_S = 4.0
"""Since power-up: the first hold is under way."""
GAP = Fault(FaultKind.DROP, at_s=IN_HOLD_S - 0.05, duration_s=0.1)
OF_THE_RUN = {"session_id", "started_utc", "samples_file"}
SET_ID = "01890000-0000-7000-8000-000000000001"


class Run:
    """What came of one set."""

    def __init__(
        self, folder: Path, settings: RigSettings, *, faults: tuple[Fault, ...] = ()
    ) -> None:
        athlete = SimulatedAthlete(7)
        rig = SimulatedRig(settings, seed=7, force=athlete, faults=faults)
        source = SimulatedSource(rig, athlete=athlete, step_us=STEP_US)
        self.book, self.files = folder / "logbook.db", folder / "recordings"
        self.told: list[object] = []
        self.blocks: list[np.ndarray] = []
        self.links: set[Link] = set()
        with Logbook.open(self.book) as logbook:
            session = Session(
                source,
                logbook=logbook,
                recordings=self.files,
                athlete_code="INV-1",
                clock=lambda: 1_000_000_000 + 1000 * rig.now_us,
            )
            session.begin_set(ASKED, {"set_id": SET_ID})
            for _ in range(round(30 / (STEP_US / 1e6))):
                session.step()
                update = session.take()
                self.told += update.events
                self.blocks += [
                    np.column_stack((one.time_s, one.force_n)) for one in update.blocks
                ]
                if update.health.arrived_ns is not None:
                    self.links.add(update.health.link)
            session.close()

    @property
    def recording(self) -> Path:
        (path,) = self.files.glob("*.force")
        return path

    @property
    def reps(self) -> list[Mapping[str, object]]:
        return [one.rep for one in self.told if isinstance(one, Measured)]

    def exported(self, folder: Path) -> dict[str, list[dict[str, str]]]:
        """All tables of numbers."""
        with Logbook.open(self.book) as logbook:
            export_logbook(logbook, self.files, folder, Filters(), Wanted(("csv",)))
        return {
            "samples.csv" if path.stem.startswith("2") else path.name: _numbers(path)
            for path in folder.rglob("*.csv")
        }


def _numbers(path: Path) -> list[dict[str, str]]:
    """All columns but those that tell when and in which visit it was."""
    with path.open(encoding="utf-8", newline="") as file:
        return [
            {name: cell for name, cell in row.items() if name not in OF_THE_RUN}
            for row in csv.DictReader(file)
        ]


TURNS = {
    "time": RigSettings(clock_us=TURN - round(IN_HOLD_S * 1e6)),
    "number": RigSettings(first_sequence=TURN - round(IN_HOLD_S * RATE_HZ)),
    "both": RigSettings(
        clock_us=TURN - round(IN_HOLD_S * 1e6),
        first_sequence=TURN - round(IN_HOLD_S * RATE_HZ),
    ),
}


@pytest.mark.parametrize("faults", [(), (GAP,)], ids=["whole", "with a gap"])
@pytest.mark.parametrize("which", TURNS)
def test_a_turn_in_a_hold_changes_no_number(
    tmp_path: Path, which: str, faults: tuple[Fault, ...]
) -> None:
    plain = Run(tmp_path / "plain", RigSettings(), faults=faults)
    turned = Run(tmp_path / "turned", TURNS[which], faults=faults)
    frames = [
        one
        for one in recordings.read(turned.recording).frames()
        if isinstance(one, Samples)
    ]
    if which != "number":  # it turned over, and in the recording
        assert frames[0].time_us > TURN // 2 > frames[-1].time_us
        turned_s = (TURN - frames[0].time_us) / 1e6
        rep = turned.reps[0]
        assert float(str(rep["entry_s"])) < turned_s < float(str(rep["hold_end_s"]))
    if which != "time":
        assert frames[0].sequence > TURN // 2 > frames[-1].sequence
    assert len(plain.reps) == 2
    assert turned.reps == plain.reps
    assert bool(plain.reps[0]["gaps"]) is bool(faults)
    assert turned.told == plain.told
    assert np.array_equal(
        np.vstack(turned.blocks), np.vstack(plain.blocks), equal_nan=True
    )
    assert turned.links == {Link.LIVE}
    again = replay(turned.recording)
    assert again.agrees is True
    assert again.reps == replay(plain.recording).reps
    exported = turned.exported(tmp_path / "one")
    assert exported.keys() == {"samples.csv", "sets.csv", "reps.csv", "events.csv"}
    assert exported == plain.exported(tmp_path / "two")


@pytest.mark.parametrize("unit_us", [1, 1000], ids=["µs", "ms"])
@pytest.mark.parametrize("lost", [0, 7])
def test_a_printed_time_that_turns_over_goes_on(unit_us: int, lost: int) -> None:
    """A plain board prints `micros()` or `millis()`, which turn over likewise."""
    found = []
    for start in (5_000, TURN - 2_000_000 // unit_us):
        lines = TextLines(time_column=True)
        numbers = [n for n in range(400) if not 155 <= n < 155 + lost]
        text = "".join(
            f"{(start + n * 12_500 // unit_us) % TURN},{1000 + n}\r\n" for n in numbers
        )
        frames = lines.push(b"\n" + text.encode(), 0.0)
        found.append(
            [
                (one.sequence, one.time_us, one.step_us, one.counts.tolist())
                for one in frames
            ]
        )
    assert found[0] == found[1]
    last = found[0][-1]
    assert last[0] + len(last[3]) == 400
    assert last[1] + last[2] * (len(last[3]) - 1) == 399 * 12_500 // unit_us * unit_us
