"""A trial: one effort of a maximal test, and what it reached."""

from __future__ import annotations

from dataclasses import dataclass

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.reference import PAIN_MOST, Definition

TOUCH_S = 1.0
"""Shorter than this is no trial: a strap put right, a look whether it holds."""
DEFINITIONS = (
    Definition.PEAK,
    Definition.BEST_HALF_S_MEAN,
    Definition.BEST_1_S_MEAN,
)
"""Those that a trial can be measured by."""


@dataclass(frozen=True, slots=True)
class Force:
    """One force of a trial by one definition, with the sides it is made of.

    Attributes:
        left_n, right_n: they add up to it; None where one side worked alone.
    """

    total_n: float
    left_n: float | None = None
    right_n: float | None = None

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "total_n": self.total_n,
            "left_n": self.left_n,
            "right_n": self.right_n,
        }


@dataclass(frozen=True, slots=True)
class Trial:
    """One effort of a test.

    Attributes:
        number: of the rep in its set, from 1.
        asked_pct: about how much of one's best was asked for in a practice ramp; None
            in a trial, where all was.
        seconds: from onset to end.
        short: whether it was let go before the clock was full.
        peak, half_s, one_s: what it reached; None where it has no such number.
        pain: 0 to 10; None where it was not asked.
        void_reason: why it does not count; empty where it does.
        stopped: whether the set was stopped within it; it then counts only where the
            practitioner lets it.
        let_count: whether that was done.

    Raises:
        FieldError: pain that is not from 0 to 10.
    """

    number: int
    asked_pct: int | None
    seconds: float
    short: bool = False
    peak: Force | None = None
    half_s: Force | None = None
    one_s: Force | None = None
    pain: int | None = None
    void_reason: str = ""
    stopped: bool = False
    let_count: bool = False

    def __post_init__(self) -> None:
        if self.pain is not None and not 0 <= self.pain <= PAIN_MOST:
            raise FieldError(
                "pain",
                phrase(
                    "is {pain}; it must be 0 to {pain_most}.",
                    pain=self.pain,
                    pain_most=PAIN_MOST,
                ),
            )

    @property
    def practice(self) -> bool:
        """Whether it was a practice ramp."""
        return self.asked_pct is not None

    @property
    def touch(self) -> bool:
        """Whether it was too short to be an effort."""
        return self.seconds < TOUCH_S

    @property
    def void(self) -> bool:
        """Whether it was taken out by hand."""
        return bool(self.void_reason)

    def force(self, definition: Definition) -> Force | None:
        """What it reached by a definition."""
        return {
            Definition.PEAK: self.peak,
            Definition.BEST_HALF_S_MEAN: self.half_s,
            Definition.BEST_1_S_MEAN: self.one_s,
        }.get(definition)

    def counts(self, definition: Definition) -> bool:
        """Whether it is a trial with a number by this definition."""
        left_out = self.void or (self.stopped and not self.let_count)
        real = not (self.practice or self.touch or left_out)
        return real and self.force(definition) is not None

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        forces = {
            name: None if force is None else force.to_json()
            for name, force in (
                ("peak", self.peak),
                ("half_s", self.half_s),
                ("one_s", self.one_s),
            )
        }
        return {
            "number": self.number,
            "asked_pct": self.asked_pct,
            "seconds": self.seconds,
            "short": self.short,
            **forces,
            "pain": self.pain,
            "void_reason": self.void_reason,
            "stopped": self.stopped,
            "let_count": self.let_count,
        }
