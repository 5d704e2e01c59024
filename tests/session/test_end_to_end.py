"""From the board on a line to the saved rep and back: the real program throughout.

The rig is the real `simulate` command in a process of its own on a
pseudo-terminal; the port, the files, the database and the window are real too.
"""

from __future__ import annotations

import json
import select
import subprocess
import sys
from typing import TYPE_CHECKING

import numpy as np
import pytest
from live_window import set_held

from biofeedback import cli
from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.rig.serial_source import SerialSource
from biofeedback.session import Measured, Session, SetEnded
from biofeedback.session.replay import replay
from biofeedback.training.band import Band
from biofeedback.training.prescription import ClockRule, Prescription
from biofeedback.training.task import Task

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

pytestmark = pytest.mark.skipif(
    sys.platform == "win32", reason="Windows has no pseudo-terminals"
)

ASKED = Prescription(
    task=Task("Isometric hip hold (invented)"),
    band=Band(60.0, 96.0),
    hold_s=1.5,
    clock=ClockRule.BANKED,
    reps=3,
    rest_s=1.0,
    balance_tolerance_points=5.0,
)


@pytest.fixture
def rig_options() -> list[str]:
    aim = ["--centre", "78", "--width", "36"]  # the middle of the band asked for
    return [*aim, "--hold", "2", "--rest", "1", "--reps", "3", "--rate", "320"]


@pytest.fixture
def port(tmp_path: Path, rig_options: list[str]) -> Iterator[Path]:
    link = tmp_path / "rig"
    command = [sys.executable, "-m", "biofeedback", "simulate", "--link", str(link)]
    with subprocess.Popen(  # noqa: S603  our own command
        [*command, *rig_options], stdout=subprocess.PIPE, text=True
    ) as rig:
        assert rig.stdout is not None
        ready, _, _ = select.select([rig.stdout], [], [], 20)
        assert ready, "the simulated rig did not start"
        assert rig.stdout.readline().strip() == str(link)
        yield link
        rig.terminate()
        assert rig.wait(10) == 0


@pytest.mark.slow
@pytest.mark.timeout(90)
def test_three_reps_are_held_saved_and_replayed_with_the_same_numbers(
    qtbot: QtBot, tmp_path: Path, port: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "recordings"
    with set_held(
        qtbot, port, folder, ASKED, athlete_code="INV-3", within_s=60
    ) as library:
        rows = library.reps()
        assert [row.number for row in rows] == [3, 2, 1]
        assert {row.outcome for row in rows} == {"complete"}
        trace = library.trace(rows[0])
        assert trace.measures == rows[0].measures

    (path,) = folder.iterdir()
    replayed = replay(path)
    assert replayed.lost == 0
    assert replayed.damaged == 0
    assert not replayed.recovered
    assert [dict(rep) for rep in replayed.reps] == [
        dict(row.measures) for row in reversed(rows)
    ]
    assert cli.main(["replay", str(path), "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["same_as_stored"] is True
    assert told["reps"] == [dict(rep) for rep in replayed.reps]


@pytest.mark.slow
@pytest.mark.timeout(60)
@pytest.mark.parametrize("rig_options", [["--numbered", "--rate", "1000"]])
def test_no_sample_is_lost_doubled_or_reordered(
    qtbot: QtBot, tmp_path: Path, port: Path
) -> None:
    folder = tmp_path / "recordings"
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        session = Session(
            SerialSource(str(port)),
            logbook=logbook,
            recordings=folder,
            athlete_code="INV-3",
        )
        session.start()
        seen = 0
        ended = False
        session.begin_set(ASKED)

        def pull() -> bool:
            nonlocal seen, ended
            update = session.take()
            seen += sum(len(block) for block in update.blocks)
            ended |= any(isinstance(event, SetEnded) for event in update.events)
            return seen > 4000

        qtbot.waitUntil(pull, timeout=20_000)
        session.close()
        assert not any(isinstance(event, Measured) for event in session.take().events)
    (path,) = folder.iterdir()
    (stream,) = recordings.counts(path).values()
    first = stream.counts[0, 0]
    expected = first + np.arange(len(stream.counts))
    assert len(expected) > 3000
    np.testing.assert_array_equal(stream.counts[:, 0], expected)
    np.testing.assert_array_equal(stream.counts[:, 1], -expected - 1)
    np.testing.assert_array_equal(stream.index, np.arange(len(expected)))
