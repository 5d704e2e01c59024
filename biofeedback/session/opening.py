"""What the desk starts with: the athlete's last prescription, or a plain one.

Nothing is made up for an athlete: without an earlier set there is no reference, and
so no percentage, before the practitioner has typed one.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.training.band import Band
from biofeedback.training.prescription import Prescription
from biofeedback.training.task import Task
from biofeedback.training.task_names import HOLD
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from biofeedback.logbook.database import Logbook

PLAIN = Prescription(
    task=Task(HOLD), band=Band(40.0, 60.0), hold_s=10.0, reps=3, rest_s=30.0
)
"""A low band and a short hold, for a first effort of anybody."""


def last_prescription(logbook: Logbook, athlete_code: str) -> Prescription:
    """As in the last set of which a rep was saved; `PLAIN` where there is none.

    Raises:
        FileError: the logbook cannot be read.
    """
    for row in logbook.reps(athlete_code=athlete_code, limit=1):
        found = logbook.set_by_id(row.set_id)
        if found is not None:
            try:
                return Prescription.from_json(Fields(found.prescription))
            except FieldError:
                break  # of another version, or no prescription at all
    return PLAIN
