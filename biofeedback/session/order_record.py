"""The running order of a visit as the logbook keeps it, and how it is found again.

It is written after each step. A set that was under way when the program went away
counts as stopped: its recording holds what was done, and the practitioner repeats it
or goes on. What was changed in it up to then holds for later sets.
"""

from __future__ import annotations

import logging
from dataclasses import dataclass, field, replace
from datetime import timedelta
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.session_notes import ORDER
from biofeedback.phrase import joined, phrase
from biofeedback.session.day_facts import midnight
from biofeedback.training.prescription import Prescription
from biofeedback.training.running_order import LEGS_MAX, Doing, RunningOrder, Stand
from biofeedback.training.task import Sides
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime

    from biofeedback.logbook.database import Logbook
    from biofeedback.training.running_order import Leg

KEY_MAX = 36

_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Begun:
    """A set that was begun for a leg.

    Attributes:
        key: of the planned prescription, or empty.
    """

    set_id: str
    key: str
    warm_up: bool
    number: int

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "set_id": self.set_id,
            "key": self.key,
            "warm_up": self.warm_up,
            "number": self.number,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Begun:
        """Checks and reads what `to_json` wrote."""
        return cls(
            fields.text("set_id", longest=KEY_MAX),
            fields.text("key", longest=KEY_MAX),
            fields.flag("warm_up"),
            fields.whole("number", least=1, most=LEGS_MAX),
        )


@dataclass(frozen=True, slots=True)
class OrderRecord:
    """A running order, and what else is needed to go on with it.

    Attributes:
        key: the same for all records of one order.
        contexts: by the key of a planned prescription, what the head of a recording
            says of its plan.
        begun: the sets that were begun, in order.
        asked_now: what the set under way asks for now; None between sets.
        auto: whether the next set begins by itself.
        session_id, at_utc: of the visit, and when it was kept; None before.
    """

    key: str
    order: RunningOrder
    contexts: Mapping[str, Mapping[str, object]] = field(default_factory=dict)
    begun: tuple[Begun, ...] = ()
    asked_now: Prescription | None = None
    auto: bool = True
    session_id: str = ""
    at_utc: datetime | None = None

    def context(self, leg: Leg) -> dict[str, object]:
        """What the head of a leg's recording says of its plan, warm-up and all."""
        found = dict(self.contexts.get(leg.key, {}))
        plan = found.get("plan")
        if leg.warm_up and isinstance(plan, dict):
            found["plan"] = {**plan, "warm_up": True}
        return found

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "key": self.key,
            "order": self.order.to_json(),
            "contexts": {key: dict(value) for key, value in self.contexts.items()},
            "begun": [one.to_json() for one in self.begun],
            "asked_now": self.asked_now.to_json() if self.asked_now else None,
            "auto": self.auto,
        }

    @classmethod
    def from_json(
        cls, fields: Fields, *, session_id: str = "", at_utc: datetime | None = None
    ) -> OrderRecord:
        """Checks and reads what `to_json` wrote; see the head of this module.

        Raises:
            FieldError: names the field that does not fit.
        """
        order = RunningOrder.from_json(fields.inner("order"))
        asked_now = None
        if fields.has("asked_now"):
            asked_now = Prescription.from_json(fields.inner("asked_now"))
            order = _stopped(fields.inner("order"), order, asked_now)
        contexts = fields.inner("contexts")
        return cls(
            key=fields.text("key", longest=KEY_MAX),
            order=order,
            contexts={key: contexts.inner(key).values for key in contexts.values},
            begun=tuple(
                Begun.from_json(one)
                for one in fields.items("begun", most=10 * LEGS_MAX)
            ),
            asked_now=asked_now,
            auto=fields.flag("auto"),
            session_id=session_id,
            at_utc=at_utc,
        )


def new_record(
    order: RunningOrder,
    contexts: Mapping[str, Mapping[str, object]] | None = None,
    *,
    auto: bool = True,
) -> OrderRecord:
    """A running order that begins.

    Args:
        contexts: by the key of a planned prescription, what the head of a recording
            says of its plan.
    """
    return OrderRecord(new_key(), order, contexts or {}, auto=auto)


def leg_words(leg: Leg) -> str:
    """A leg in a few words."""
    task = leg.asked.task
    sides = phrase("both sides") if task.sides is Sides.BOTH else task.sides.value
    which = (
        phrase("warm-up")
        if leg.warm_up
        else phrase("set {number} of {of}", number=leg.number, of=leg.of)
    )
    return joined(", ", (task.name, sides, which))


def _stopped(
    kept: Fields, order: RunningOrder, asked_now: Prescription
) -> RunningOrder:
    """The order as if its set had been stopped with what was asked for then."""
    if order.doing is not Doing.STOPPED:
        return order
    legs: list[Leg] = list(order.legs)
    place = kept.whole("current", least=0, most=len(legs) - 1)
    legs[place] = replace(legs[place], stand=Stand.TO_COME, done_as=None)
    again = RunningOrder(legs, current=place)
    again.begin()
    again.set_ended(-asked_now.rest_s, asked_now, complete=False)
    return again


def left_over(logbook: Logbook, athlete_code: str, now: datetime) -> OrderRecord | None:
    """The newest running order of today, where it was not worked through or ended.

    Args:
        now: the time here, with its zone.

    Raises:
        FileError: the logbook cannot be read.
    """
    today = midnight(now)
    newest = None
    for row in logbook.sessions(athlete_code=athlete_code):
        if row.started_utc < today - timedelta(1):  # it may have begun before midnight
            break
        for note in logbook.session_notes.list(row.id, kind=ORDER)[-1:]:
            if note.at_utc >= today and (newest is None or note.at_utc > newest[1]):
                newest = row.id, note.at_utc, note.content
    if newest is None:
        return None
    session_id, at_utc, content = newest
    try:
        record = OrderRecord.from_json(
            Fields(content, "order"), session_id=session_id, at_utc=at_utc
        )
    except FieldError as error:
        _log.warning("a running order that was kept cannot be used: %s", error)
        return None
    return None if record.order.over else record
