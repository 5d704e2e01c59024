"""Makes the demo recordings in `recordings/`: run it from the clone as

    .venv/bin/python tests/demo_recordings.py

The simulated rig and invented athletes, stepped by hand through the real session,
so nothing waits for real time. Only the time of day and the keys differ from one
run to the next. A recording that is there is not made again: each format version
keeps the files it was released with.
"""

from __future__ import annotations

import sys
import tempfile
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.logbook.database import Logbook
from biofeedback.rig.effort import Traits
from biofeedback.rig.simulated_athlete import SimulatedAthlete
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.rig.simulated_source import SimulatedSource
from biofeedback.session import Session, SetEnded, demo
from biofeedback.training.band import Band
from biofeedback.training.task import Sides, Task

if TYPE_CHECKING:
    from biofeedback.training.prescription import Prescription

FOLDER = Path(__file__).resolve().parent.parent / "recordings"
STEP_US = 10_000
STEPS_MAX = 60_000
NOTE = "Invented: the simulated rig and an athlete who does not exist."


@dataclass(frozen=True, slots=True)
class Take:
    """One recording to make.

    Attributes:
        nudge_at_s: when the band is moved by `nudge_n`, in sample time.
    """

    name: str
    seed: int
    channels: int
    asked: Prescription
    traits: Traits | None = None
    nudge_at_s: float | None = None
    nudge_n: float = 0.0


SHORT = replace(demo.PRESCRIPTION, hold_s=5.0, reps=2, rest_s=3.0)
TAKES = (
    Take(
        "one-side",
        seed=3,
        channels=1,
        asked=replace(
            SHORT,
            task=Task(
                "Standing outward rotation of the arm (invented)", sides=Sides.LEFT
            ),
            band=Band.from_percent_of_centre(70, 10, reference_n=120.0),
            reference=replace(demo.REFERENCE, force_n=120.0),
            balance_tolerance_points=None,
        ),
    ),
    Take("both-sides", seed=7, channels=2, asked=SHORT),
    Take(
        "nudge-and-lapse",
        seed=6,
        channels=2,
        asked=replace(SHORT, hold_s=6.0),
        traits=Traits(lapses_per_min=7.0),
        nudge_at_s=5.0,
        nudge_n=8.0,
    ),
)


def make(take: Take, out: Path) -> None:
    """Runs the session of one take and keeps its recording as `out`."""
    athlete = SimulatedAthlete(take.seed, take.traits)
    settings = RigSettings(channels=take.channels)
    rig = SimulatedRig(settings, seed=take.seed, force=athlete)
    source = SimulatedSource(rig, athlete=athlete, step_us=STEP_US)
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "recordings"
        with Logbook.open(Path(place) / "logbook.db") as logbook:
            session = Session(
                source,
                logbook=logbook,
                recordings=folder,
                athlete_code=f"DEMO-{take.seed}",
            )
            _run(session, take)
            session.close()
        (path,) = folder.iterdir()
        out.write_bytes(path.read_bytes())


def _run(session: Session, take: Take) -> None:
    session.begin_set(take.asked)
    session.note(NOTE)
    nudged = take.nudge_at_s is None
    for _ in range(STEPS_MAX):
        session.step()
        update = session.take()
        state = update.state
        if not nudged and state is not None and state.time_s >= (take.nudge_at_s or 0):
            session.change_band(state.band.moved(take.nudge_n), "stronger today")
            nudged = True
        if any(isinstance(event, SetEnded) for event in update.events):
            return
    raise RuntimeError("the set did not end")


def main() -> int:
    """Makes those that are not there."""
    for take in TAKES:
        out = FOLDER / f"{take.name}-v1.0.force"
        if not out.exists():
            make(take, out)
            sys.stdout.write(f"{out}: {out.stat().st_size} bytes\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
