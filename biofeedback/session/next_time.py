"""What the pain rule would propose next time, answer by answer.

What the athlete will report is not known yet, so nothing is decided: the same rule that
will propose then (`biofeedback.training.day`) is asked for each sort of answer.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.phrase import phrase
from biofeedback.training import intensity_words
from biofeedback.training.day import RISE_POINTS, DayReport, LastTime, propose
from biofeedback.training.reference import PAIN_MOST

if TYPE_CHECKING:
    from biofeedback.training.day import PainRule
    from biofeedback.training.intensity import Intensity
    from biofeedback.training.task import Sides

REST_DAYS = 2
"""The next date that is offered: a day between (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class NextTime:
    """One set of this visit, the next time it is done.

    Attributes:
        words: what is proposed for which answer, one line each.
    """

    task: str
    sides: Sides
    words: tuple[str, ...]

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "task": self.task,
            "sides": self.sides.value,
            "words": list(self.words),
        }


def next_time(
    task: str, sides: Sides, intensity: Intensity, last: LastTime, rule: PainRule
) -> NextTime:
    """The proposals of the rule after today.

    Args:
        last: the place that was accepted today, and the pain reported before.
    """
    if not intensity.leaves_room:
        here = intensity_words.in_words(intensity, last.place)
        words: list[str] = [
            phrase(
                "Pain 0 to {high}: {here}, as today; the band is fixed.",
                high=rule.high,
                here=here,
            )
        ]
    else:
        words = _places(intensity, last, rule)
    words.append(
        phrase(
            "Pain above {high} of {pain_most}: better stop, and ask the "
            "treating clinician.",
            high=rule.high,
            pain_most=PAIN_MOST,
        )
    )
    return NextTime(task, sides, tuple(words))


def _places(intensity: Intensity, last: LastTime, rule: PainRule) -> list[str]:
    words: list[str] = []
    risen = last.pain_now + RISE_POINTS
    most = min(rule.low, risen - 1)
    little = _place(DayReport(0, pain_morning=most), last, rule)
    moved = (
        phrase("one step up") if little > last.place else phrase("still the high end")
    )
    words.append(
        phrase(
            "Pain {span}, also the morning after: {moved}, {in_words}.",
            span=_span(0, most),
            moved=moved,
            in_words=intensity_words.in_words(intensity, little),
        )
    )
    if risen <= rule.low:
        down = _place(DayReport(risen), last, rule)
        moved = (
            phrase("one step down")
            if down < last.place
            else phrase("still the low end")
        )
        words.append(
            phrase(
                "Pain {span}, a rise: {moved}, {in_words}.",
                span=_span(risen, rule.low),
                moved=moved,
                in_words=intensity_words.in_words(intensity, down),
            )
        )
    some = _place(DayReport(rule.low + 1), last, rule)
    words.append(
        phrase(
            "Pain {span}: low end, {in_words}.",
            span=_span(rule.low + 1, rule.high),
            in_words=intensity_words.in_words(intensity, some),
        )
    )
    return words


def _span(least: int, most: int) -> str:
    return (
        phrase("{least}", least=least)
        if least == most
        else phrase("{least} to {most}", least=least, most=most)
    )


def _place(report: DayReport, last: LastTime, rule: PainRule) -> float:
    place = propose(report, rule, last=last).place
    return last.place if place is None else place
