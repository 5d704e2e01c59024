"""References in words: what a force is, and what speaks against it today.

All words about references stand here, so that desk, page and report say the same.
They are said before a set starts and keep nobody from starting.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.phrase import Phrase, joined, marked, phrase
from biofeedback.training.counting import counted
from biofeedback.training.reference import (
    PAIN_MOST,
    STALE_AFTER_DAYS,
    Caution,
    Definition,
    Origin,
    Reference,
    cautions,
    is_for,
)
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    import datetime as dt

    from biofeedback.training.prescription import Prescription
    from biofeedback.training.reference_facts import Candidate
    from biofeedback.training.task import Setup, Task

WORDS = {
    Caution.NOT_ITS_TASK: marked("This 100 % is that of “{task}”, {sides}."),
    Caution.STALE: marked(
        "The reference is {age}; after {stale} a new test is better."
    ),
    Caution.PRACTICE: marked(
        "The reference is of the very first test: practice alone will raise it."
    ),
    Caution.PAINFUL: marked(
        "The reference was measured with pain {pain} of {most}: it may be too low."
    ),
    Caution.OTHER_POSITION: marked(
        "The reference was measured in another position: {differences}."
    ),
}
"""Each caution as a sentence; the names in braces are filled in by `in_words`."""


def in_words(
    caution: Caution,
    reference: Reference,
    task: Task,
    *,
    today: dt.date,
    stale_after_days: int = STALE_AFTER_DAYS,
) -> str:
    """One caution as a sentence."""
    return Phrase(
        WORDS[caution],
        {
            "age": age_words(reference.age_days(today)),
            "stale": counted(stale_after_days, "day"),
            "pain": reference.pain,
            "most": PAIN_MOST,
            **_whose(reference),
            "differences": _differences(reference.setup, task.setup),
        },
    )


def _whose(reference: Reference) -> dict[str, str]:
    """The task and the sides whose 100 % it is, for a template."""
    whose = reference.task
    if whose is None:
        return {"task": "", "sides": ""}
    both = whose.sides is Sides.BOTH
    sides = phrase("both sides") if both else whose.sides.value
    return {"task": whose.name, "sides": sides}


def origin_words(reference: Reference, task: Task) -> str:
    """Where it comes from, and of which task where that is another one."""
    origin = reference.origin.value
    if is_for(reference, task):
        return origin
    return phrase("{origin}, for “{task}”, {sides}", origin=origin, **_whose(reference))


def before_start(
    asked: Prescription,
    *,
    today: dt.date,
    stale_after_days: int = STALE_AFTER_DAYS,
) -> tuple[str, ...]:
    """What is to be said before a set starts; empty where nothing is.

    Args:
        today: where the athlete is.
    """
    reference = asked.reference
    if reference is None:
        return ()
    found = cautions(
        reference, asked.task, today=today, stale_after_days=stale_after_days
    )
    return tuple(
        in_words(
            caution,
            reference,
            asked.task,
            today=today,
            stale_after_days=stale_after_days,
        )
        for caution in found
    )


def described(reference: Reference, *, today: dt.date, note: str = "") -> str:
    """Force, origin, definition, date and age in one line."""
    origin = reference.origin.value + (phrase(" ({note})", note=note) if note else "")
    parts: list[str] = [phrase("{force_n:.4g} N", force_n=reference.force_n), origin]
    if reference.definition is not Definition.STATED:
        parts.append(reference.definition.value)
    elif reference.origin is not Origin.BODY_MASS:
        parts.append(phrase("definition not stated"))
    age_days = reference.age_days(today)
    if age_days is not None:
        parts.append(reference.date[:10])
    return joined(", ", [*parts, age_words(age_days)])


def candidate_words(candidate: Candidate, *, today: dt.date) -> str:
    """A candidate in one line, with its cautions as short marks."""
    marks = [caution.value for caution in candidate.cautions]
    words = described(candidate.reference, today=today, note=candidate.note)
    return (
        phrase("{words} ▲ {marks}", words=words, marks=joined(", ", marks))
        if marks
        else words
    )


def age_words(age_days: int | None) -> str:
    """How old something is."""
    if age_days is None:
        return phrase("without a date")
    if age_days < 0:
        return phrase("dated {age_days} ahead", age_days=counted(-age_days, "day"))
    if age_days == 0:
        return phrase("of today")
    return phrase("{age_days} old", age_days=counted(age_days, "day"))


_PARTS = (
    ("joint", phrase("joint")),
    ("movement", phrase("movement")),
    ("angle_deg", phrase("angle")),
    ("site", phrase("pad or strap")),
    ("lever_arm_m", phrase("lever arm")),
    ("posture", phrase("posture")),
)
_UNITS = {"angle_deg": "°", "lever_arm_m": " m"}


def _differences(then: Setup | None, now: Setup | None) -> str:
    """What of the position differs, as then and as now."""
    if then is None or now is None:
        return ""
    return joined(
        "; ",
        (
            phrase(
                "{words} {old}, now {new}",
                words=words,
                old=_value(then, name),
                new=_value(now, name),
            )
            for name, words in _PARTS
            if getattr(then, name) != getattr(now, name)
        ),
    )


def _value(setup: Setup, name: str) -> str:
    value = getattr(setup, name)
    if value is None or value == "":
        return phrase("not written down")
    if name == "joint":
        return value.value  # type: ignore[no-any-return]  # of `Joint`
    if isinstance(value, float | int):
        return phrase("{value:g}{units}", value=value, units=_UNITS[name])
    return phrase("“{value}”", value=value)
