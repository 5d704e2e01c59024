"""Recovery: recordings that were cut off are judged again and entered.

The recording is the truth for what happened; the rows of the logbook are derived
from it and can be made again at any time.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import BiofeedbackError
from biofeedback.logbook import away
from biofeedback.logbook.recovery import unfinished
from biofeedback.session.replay import replay

if TYPE_CHECKING:
    from pathlib import Path

    from biofeedback.logbook.database import Logbook


@dataclass(frozen=True, slots=True)
class Recovered:
    """What became of one recording.

    Attributes:
        reps: how many reps of it are in the logbook now.
        problem: plain words where nothing could be done; else empty.
    """

    path: Path
    reps: int
    problem: str = ""


def recover(folder: Path, logbook: Logbook) -> list[Recovered]:
    """Enters the reps of all recordings that were cut off.

    Those that had to be written elsewhere are brought home before. A recording that
    cannot be used is told and left as it is.

    Raises:
        FileError: folder or logbook cannot be used.
    """
    results = [
        Recovered(one.path, 0, error.words)
        for one, error in away.bring_all_home(folder)
    ]
    for found in unfinished(folder, logbook):
        if found.recording is None:
            results.append(Recovered(found.path, 0, found.problem))
            continue
        if not found.recording.header.get("prescription"):
            continue  # an imported table, or one recorded for tuning: no set
        try:
            replayed = replay(found.path)
            set_id = logbook.enter_recording(replayed.header, found.path.name)
            for rep in replayed.reps:
                logbook.add_rep(set_id, rep)
            logbook.close_set(set_id, {"reps": len(replayed.reps)}, recovered=True)
        except BiofeedbackError as error:
            results.append(Recovered(found.path, 0, error.words))
        else:
            results.append(Recovered(found.path, len(replayed.reps)))
    return results
