"""What may change within a set, and why it was changed.

A change is made by the practitioner, takes effect at the next sample and is kept
with its time, the old and the new value and the reason.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.phrase import phrase
from biofeedback.training.prescription import HOLD_LEAST_S

if TYPE_CHECKING:
    from biofeedback.training.prescription import Prescription
    from biofeedback.wire.fields import Fields

MAY_CHANGE = ("band", "hold_s", "rest_s", "reps")
"""What of a prescription may change within a set."""


class Reason(Enum):
    """Why something was changed; none need be given."""

    NONE = ""
    STRONGER = phrase("stronger today")
    WEAKER = phrase("weaker today")
    PAIN = phrase("pain")
    SETUP = phrase("set-up changed")
    OTHER = phrase("other")
    UNDONE = phrase("undone")  # the change before was taken back
    SKIPPED = phrase("rep skipped")
    REPEATED = phrase("rep repeated")


CHOICES = (Reason.STRONGER, Reason.WEAKER, Reason.PAIN, Reason.SETUP, Reason.OTHER)
"""What the practitioner is offered."""


@dataclass(frozen=True, slots=True)
class Terms:
    """Hold, rest and reps of a set; None stands for what is not changed."""

    hold_s: float | None = None
    rest_s: float | None = None
    reps: int | None = None

    @classmethod
    def of(cls, asked: Prescription) -> Terms:
        """As they stand in a prescription."""
        return cls(asked.hold_s, asked.rest_s, asked.reps)

    def applied_to(self, asked: Prescription) -> Prescription:
        """The prescription with these terms.

        Raises:
            FieldError: a value does not fit.
        """
        changed: dict[str, float] = dict(self.to_json())
        return replace(asked, **changed)  # type: ignore[arg-type]  # fields of both

    def only(self, other: Terms) -> Terms:
        """Those of these terms that `other` changes."""
        return Terms(**{name: getattr(self, name) for name in other.to_json()})

    def to_json(self) -> dict[str, float]:
        """Plain JSON values of what is changed."""
        every = {own.name: getattr(self, own.name) for own in fields(self)}
        return {name: value for name, value in every.items() if value is not None}

    @classmethod
    def from_json(cls, values: Fields) -> Terms:
        """Checks and reads what `to_json` wrote."""
        return cls(
            values.number_or_none("hold_s", least=HOLD_LEAST_S, most=3600),
            values.number_or_none("rest_s", least=0, most=3600),
            values.whole("reps", least=0, most=1000) if values.has("reps") else None,
        )
