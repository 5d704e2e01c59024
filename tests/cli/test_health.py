"""`biofeedback health` on a simulated rig behind a real pseudo-terminal."""

from __future__ import annotations

import json
import os
import threading
from typing import TYPE_CHECKING

import pytest

from biofeedback import cli
from biofeedback.rig.faults import Fault, FaultKind
from biofeedback.rig.serve import RigServer, TerminalLine
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    Serve = Callable[[SimulatedRig], str]

    Captured = pytest.CaptureFixture[str]

pytestmark = pytest.mark.skipif(
    not hasattr(os, "openpty"), reason="this system has no pseudo-terminals"
)


@pytest.fixture
def serve() -> Iterator[Serve]:
    """Serves rigs, and ends them with the test."""
    stop = threading.Event()
    threads: list[threading.Thread] = []

    def start(rig: SimulatedRig) -> str:
        line = TerminalLine()
        server = RigServer(rig, line)
        threads.append(threading.Thread(target=server.run, args=(stop,)))
        threads[-1].start()
        return line.name

    yield start
    stop.set()
    for thread in threads:
        thread.join(10)


def test_a_rig_that_is_well(serve: Serve, capsys: Captured) -> None:
    port = serve(SimulatedRig(seed=5))
    code = cli.main(["health", port, "--seconds", "2", "--no-press", "--json"])
    told = capsys.readouterr()
    report = json.loads(told.out)
    states = {one["name"]: one["state"] for one in report["verdicts"]}
    # A busy machine may let the line wait; all else is the simulated rig's.
    states.pop("waits")
    assert states.pop("zero") == "not judged"  # none was taken
    assert set(states.values()) == {"good"}, report
    assert code == (0 if report["good"] else 1)
    assert report["source"] == port
    assert "SIM-0001" in report["found"]
    rate = next(one for one in report["verdicts"] if one["name"] == "rate")
    assert rate["rate_hz"] == pytest.approx(80, rel=1e-3)
    assert told.err.splitlines() == ["Waiting for the board.", "Leave the rig alone"]


def test_a_rig_that_is_not_well_says_what_to_do(serve: Serve, capsys: Captured) -> None:
    faults = (Fault(FaultKind.SATURATE, at_s=0.0, channel=1),)
    port = serve(SimulatedRig(RigSettings(), seed=5, faults=faults))
    words = ["health", port, "--seconds", "2", "--no-press", "--band", "36:44"]
    assert cli.main(words) == 1
    told = capsys.readouterr().out
    assert "At the end of the converter's range: right." in told
    assert "→ Take all load off." in told
    assert told.splitlines()[-1].startswith("Look at: ")
    assert all(len(line) <= 80 for line in told.splitlines())


def test_a_port_that_is_not_there_is_told(capsys: Captured) -> None:
    assert cli.main(["health", "/dev/no-such-port", "--seconds", "2"]) == 1
    told = capsys.readouterr().out
    assert "No samples came." in told
    assert "`biofeedback ports` lists the ports" in told
    assert "/dev/no-such-port" in told


@pytest.mark.parametrize("mass", ["0", "many", "nan", "501"])
def test_a_mass_that_cannot_be_used_is_refused(mass: str, capsys: Captured) -> None:
    with pytest.raises(SystemExit) as left:
        cli.main(["health", "/dev/x", "--mass", mass])
    assert left.value.code == 2
    assert "kg" in capsys.readouterr().err


@pytest.mark.parametrize("seconds", ["1", "long", "nan", "601"])
def test_a_length_that_makes_no_sense_is_refused(
    seconds: str, capsys: Captured
) -> None:
    with pytest.raises(SystemExit) as left:
        cli.main(["health", "/dev/x", "--seconds", seconds])
    assert left.value.code == 2
    assert "2 to 600" in capsys.readouterr().err
