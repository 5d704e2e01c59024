"""The rule by which the 100 % of a planned prescription is looked for on the day."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.band import FORCE_MAX_N
from biofeedback.training.reference import REFERENCE_LEAST_N, Definition, Origin
from biofeedback.training.task import NAME_MAX

if TYPE_CHECKING:
    from biofeedback.wire.fields import Fields

WITHIN_WEEKS = 4
"""How far back a best is looked for, unless the plan says otherwise."""
FACTOR_LEAST, FACTOR_MOST = 0.05, 10.0
"""Of the body's weight; more than the upper one is a percentage typed by mistake."""


@dataclass(frozen=True, slots=True)
class ReferenceRule:
    """Where the 100 % is to be looked for on the day.

    Attributes:
        within_weeks: for a best, how far back.
        other_task: name of the other task, for a best of another task.
        body_mass_factor: for a multiple of body mass; 1 is the body's weight.
        typed_n: for a typed number.
        typed_on: ISO date of a typed number.
    """

    origin: Origin = Origin.OWN_SIDE
    definition: Definition = Definition.BEST_1_S_MEAN
    within_weeks: int = WITHIN_WEEKS
    other_task: str = ""
    body_mass_factor: float | None = None
    typed_n: float | None = None
    typed_on: str = ""

    def __post_init__(self) -> None:
        if not 1 <= self.within_weeks <= 520:
            raise FieldError(
                "reference.within_weeks", phrase("must be 1 to 520 weeks.")
            )
        self._check_factor()
        if self.origin is Origin.OTHER_TASK and not self.other_task.strip():
            raise FieldError(
                "reference.other_task", phrase("is missing."), phrase("Name the task.")
            )
        typed_n = self.typed_n
        if typed_n is not None and not REFERENCE_LEAST_N <= typed_n <= FORCE_MAX_N:
            raise FieldError(
                "reference.typed_n",
                phrase(
                    "is {typed_n:g} N; it must be {reference_least_n:g} N to "
                    "{force_max_n:g} N.",
                    typed_n=typed_n,
                    reference_least_n=REFERENCE_LEAST_N,
                    force_max_n=FORCE_MAX_N,
                ),
            )

    def _check_factor(self) -> None:
        factor, name = self.body_mass_factor, "reference.body_mass_factor"
        if factor is None:
            if self.origin is Origin.BODY_MASS:
                raise FieldError(
                    name, phrase("is missing."), phrase("Type 1 for the whole weight.")
                )
            return
        if FACTOR_MOST < factor <= 100 * FACTOR_MOST:
            raise FieldError(
                name,
                phrase("is {factor:g} times the weight of the body.", factor=factor),
                phrase(
                    "Type {factor:g} for {factor_2:g} % of it.",
                    factor=factor / 100,
                    factor_2=factor,
                ),
            )
        if not FACTOR_LEAST <= factor <= FACTOR_MOST:
            raise FieldError(
                name,
                phrase(
                    "must be {factor_least:g} to {factor_most:g}.",
                    factor_least=FACTOR_LEAST,
                    factor_most=FACTOR_MOST,
                ),
            )

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "origin": self.origin.value,
            "definition": self.definition.value,
            "within_weeks": self.within_weeks,
            "other_task": self.other_task,
            "body_mass_factor": self.body_mass_factor,
            "typed_n": self.typed_n,
            "typed_on": self.typed_on,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> ReferenceRule:
        """Checks and reads what `to_json` wrote."""
        return cls(
            fields.choice("origin", Origin),
            fields.choice("definition", Definition),
            fields.whole("within_weeks", least=1, most=520),
            fields.text("other_task", longest=NAME_MAX),
            fields.number_or_none("body_mass_factor"),
            fields.number_or_none("typed_n"),
            fields.text("typed_on", longest=40),
        )
