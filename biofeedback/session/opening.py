"""What the desk starts with: what the athlete trained last, or a plain prescription.

A maximal test is a set with room for many trials and a band without an upper edge,
and a warm-up is half of the set that follows: nobody is to train by either.

Nothing is made up for an athlete: without an earlier set there is no reference, and
so no percentage, before the practitioner has typed one.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.logbook.listing import RepsWanted
from biofeedback.logbook.session_notes import ORDER
from biofeedback.session.visit_sets import orders_of
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


REPS_LOOKED_AT = 50
"""More than warm-ups alone ever are."""


def last_prescription(logbook: Logbook, athlete_code: str) -> Prescription:
    """As in the last training set of which a rep was saved; `PLAIN` without one.

    Raises:
        FileError: the logbook cannot be read.
    """
    trained = RepsWanted(but_tests=True)
    for row in logbook.reps(
        athlete_code=athlete_code, wanted=trained, limit=REPS_LOOKED_AT
    ):
        if row.set_id in _warm_ups(logbook, row.session_id):
            continue
        found = logbook.set_by_id(row.set_id)
        if found is not None:
            try:
                return Prescription.from_json(Fields(found.prescription))
            except FieldError:
                break  # of another version, or no prescription at all
    return PLAIN


def _warm_ups(logbook: Logbook, session_id: str) -> frozenset[str]:
    """Keys of the sets of a visit that were a warm-up."""
    notes = logbook.session_notes.list(session_id, kind=ORDER)
    orders = orders_of(notes, session_id)
    return frozenset(key for order in orders for key in order.warm_ups)
