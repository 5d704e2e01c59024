"""The day: what the athlete reports, and where in a range it proposes to start.

The pain rule is ours, a rule of thumb after the pain-monitoring model. It proposes;
the practitioner accepts or changes.

* Three answers count: pain now, last night, and the morning after the last session.
  Sleep and soreness are kept and not judged: no rule for them has a source.
* Above the high cut: advice to stop and ask the treating clinician, and no proposal.
* Above the low cut, up to the high one: the low end of the range.
* Up to the low cut: where it was last time, one step up if that was tolerated, one
  step down after a rise of two points or more. A change of one point is not a
  finding, in either direction.
* The first time: the low end. Starting low costs a session, starting high may cost a
  flare. Without an answer about the morning nothing is known of how it was tolerated:
  the same place as last time, never a step up.
* More pain never proposes a higher place.

Sources: the model is that of Thomeé (Phys. Ther. 77 (1997) 1690) and Silbernagel et
al. (Am. J. Sports Med. 35 (2007) 897): up to 5 of 10 during the work, and after it
where it has gone by the next morning. The second was read at second hand. Cuts
differ between sources (0–2 or 0–3 counts as little), so they can be changed. On one
point: the smallest change that patients called better was about 1 point in 825
people (Salaffi 2004, the abstract) and 2.2 in 136 with shoulder pain (Michener 2011,
the abstract); it takes about 2 to tell a change of one person from noise (from
memory). The steps have no source: they are opinion.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.feedback import PAIN_CUT
from biofeedback.training.reference import PAIN_MOST

if TYPE_CHECKING:
    from biofeedback.wire.fields import Fields

LOW_CUT = 2
RISE_POINTS = 2
"""A change of fewer points is not a finding."""
STEP = 0.25
"""A quarter of the range: opinion."""
STEP_LEAST = 0.05
SLEEP_MOST_H = 24.0

SOURCES = phrase(
    "Cuts after the pain-monitoring model: Thomeé 1997; Silbernagel et al. 2007. "
    "Sources differ on them, so they can be changed. Steps in the range are this "
    "program's rule of thumb. A change of one point is not a finding (see Salaffi "
    "2004 and Michener 2011)."
)


class When(Enum):
    """What an answer about pain is of."""

    NOW = phrase("now")
    NIGHT = phrase("last night")
    MORNING = phrase("the morning after the last session")


@dataclass(frozen=True, slots=True)
class DayReport:
    """What the athlete says before the first set of a day.

    Attributes:
        pain_now, pain_night, pain_morning: 0 to 10; now, last night, and the morning
            after the last session. None where it was not asked.
        sleep_h: hours of sleep last night.
        soreness: of the muscles, 0 to 10.

    Raises:
        FieldError: names the answer that does not fit.
    """

    pain_now: int
    pain_night: int | None = None
    pain_morning: int | None = None
    sleep_h: float | None = None
    soreness: int | None = None

    def __post_init__(self) -> None:
        for name in ("pain_now", "pain_night", "pain_morning", "soreness"):
            value = getattr(self, name)
            if value is None and name != "pain_now":
                continue
            whole = isinstance(value, int) and not isinstance(value, bool)
            if not whole or not 0 <= value <= PAIN_MOST:
                raise FieldError(
                    f"day.{name}",
                    phrase(
                        "must be a whole number, 0 to {pain_most}.", pain_most=PAIN_MOST
                    ),
                )
        if self.sleep_h is not None and not 0 <= self.sleep_h <= SLEEP_MOST_H:
            raise FieldError(
                "day.sleep_h",
                phrase("must be 0 h to {sleep_most_h:g} h.", sleep_most_h=SLEEP_MOST_H),
            )

    @property
    def pains(self) -> tuple[tuple[When, int], ...]:
        """The answers about pain that were given."""
        answers = (
            (When.NOW, self.pain_now),
            (When.NIGHT, self.pain_night),
            (When.MORNING, self.pain_morning),
        )
        return tuple((when, pain) for when, pain in answers if pain is not None)

    @property
    def worst(self) -> tuple[When, int]:
        """The highest of them, the first named of equals."""
        return max(self.pains, key=lambda answer: answer[1])


@dataclass(frozen=True, slots=True)
class PainRule:
    """Where the rule changes what it proposes.

    Attributes:
        low: up to this much pain counts as little.
        high: above it stopping is advised.
        step: part of the range that one step is.

    Raises:
        FieldError: names the number that does not fit.
    """

    low: int = LOW_CUT
    high: int = PAIN_CUT
    step: float = STEP

    def __post_init__(self) -> None:
        if not 0 <= self.low < PAIN_MOST:
            raise FieldError(
                "pain_rule.low",
                phrase("must be 0 to {pain_most}.", pain_most=PAIN_MOST - 1),
            )
        if not self.low < self.high < PAIN_MOST:
            raise FieldError(
                "pain_rule.high",
                phrase(
                    "must be above the low cut, {low}, and below {pain_most}: "
                    "at {pain_most} nothing would ever advise to stop.",
                    low=self.low,
                    pain_most=PAIN_MOST,
                ),
            )
        if not STEP_LEAST <= self.step <= 1:
            raise FieldError(
                "pain_rule.step",
                phrase(
                    "must be {step_least:g} % to 100 % of the range.",
                    step_least=100 * STEP_LEAST,
                ),
            )

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {"low": self.low, "high": self.high, "step": self.step}

    @classmethod
    def from_json(cls, fields: Fields) -> PainRule:
        """Checks and reads what `to_json` wrote."""
        return cls(
            fields.whole("low", least=0, most=PAIN_MOST),
            fields.whole("high", least=0, most=PAIN_MOST),
            fields.number("step"),
        )


class Why(Enum):
    """The reason of a proposal."""

    STOP = "pain above the high cut"
    SOME_PAIN = "pain above the low cut"
    FIRST_TIME = "first time"
    TOLERATED = "tolerated last time"
    RISEN = "pain has risen"
    NO_MORNING = "the morning after was not asked"


@dataclass(frozen=True, slots=True)
class LastTime:
    """The last visit on which this was done.

    Attributes:
        place: in the range, 0 to 1, as it was accepted.
        pain_now: as it was reported before it.
    """

    place: float
    pain_now: int


@dataclass(frozen=True, slots=True)
class Proposal:
    """What the rule proposes, and the values that decided.

    Attributes:
        place: in the range, from 0 (low end) to 1; None where it proposes nothing.
        when, pain: the answer that decided.
        last: where and with how much pain it was last time, or None.
    """

    place: float | None
    why: Why
    when: When
    pain: int
    last: LastTime | None = None

    @property
    def advise_stop(self) -> bool:
        """Whether to stop and ask the treating clinician."""
        return self.why is Why.STOP

    def to_json(self) -> dict[str, object]:
        """Plain JSON values, for the record."""
        last = self.last
        return {
            "place": self.place,
            "why": self.why.value,
            "when": self.when.value,
            "pain": self.pain,
            "last": {"place": last.place, "pain_now": last.pain_now} if last else None,
        }


def propose(
    report: DayReport, rule: PainRule, *, last: LastTime | None = None
) -> Proposal:
    """Where to start today; see the rules at the head of this module."""
    when, pain = report.worst
    if pain > rule.high:
        return Proposal(None, Why.STOP, when, pain, last)
    if pain > rule.low:
        return Proposal(0.0, Why.SOME_PAIN, when, pain, last)
    if last is None:
        return Proposal(0.0, Why.FIRST_TIME, when, pain)
    if pain - last.pain_now >= RISE_POINTS:
        place, why = last.place - rule.step, Why.RISEN
    elif report.pain_morning is None:
        place, why = last.place, Why.NO_MORNING
    else:
        place, why = last.place + rule.step, Why.TOLERATED
    return Proposal(min(1.0, max(0.0, place)), why, when, pain, last)
