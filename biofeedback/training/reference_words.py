"""References in words: what a force is, and what speaks against it today.

All words about references stand here, so that desk, page and report say the same.
They are said before a set starts and keep nobody from starting.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.training.counting import counted
from biofeedback.training.reference import (
    PAIN_MOST,
    STALE_AFTER_DAYS,
    Caution,
    Definition,
    Origin,
    Reference,
    cautions,
)

if TYPE_CHECKING:
    import datetime as dt

    from biofeedback.training.prescription import Prescription
    from biofeedback.training.reference_facts import Candidate
    from biofeedback.training.task import Setup, Task

WORDS = {
    Caution.STALE: "The reference is {age}; after {stale} a new test is better.",
    Caution.PRACTICE: (
        "The reference is of the very first test: practice alone will raise it."
    ),
    Caution.PAINFUL: (
        "The reference was measured with pain {pain} of {most}: it may be too low."
    ),
    Caution.OTHER_POSITION: (
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
    return WORDS[caution].format(
        age=age_words(reference.age_days(today)),
        stale=counted(stale_after_days, "day"),
        pain=reference.pain,
        most=PAIN_MOST,
        differences=_differences(reference.setup, task.setup),
    )


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
    origin = reference.origin.value + (f" ({note})" if note else "")
    parts = [f"{reference.force_n:.4g} N", origin]
    if reference.definition is not Definition.STATED:
        parts.append(reference.definition.value)
    elif reference.origin is not Origin.BODY_MASS:
        parts.append("definition not stated")
    age_days = reference.age_days(today)
    if age_days is not None:
        parts.append(reference.date[:10])
    return ", ".join([*parts, age_words(age_days)])


def candidate_words(candidate: Candidate, *, today: dt.date) -> str:
    """A candidate in one line, with its cautions as short marks."""
    marks = [caution.value for caution in candidate.cautions]
    words = described(candidate.reference, today=today, note=candidate.note)
    return f"{words} ▲ {', '.join(marks)}" if marks else words


def age_words(age_days: int | None) -> str:
    """How old something is."""
    if age_days is None:
        return "without a date"
    if age_days < 0:
        return f"dated {counted(-age_days, 'day')} ahead"
    if age_days == 0:
        return "of today"
    return f"{counted(age_days, 'day')} old"


_PARTS = (
    ("joint", "joint"),
    ("movement", "movement"),
    ("angle_deg", "angle"),
    ("site", "pad or strap"),
    ("lever_arm_m", "lever arm"),
    ("posture", "posture"),
)
_UNITS = {"angle_deg": "°", "lever_arm_m": " m"}


def _differences(then: Setup | None, now: Setup | None) -> str:
    """What of the position differs, as then and as now."""
    if then is None or now is None:
        return ""
    return "; ".join(
        f"{words} {_value(then, name)}, now {_value(now, name)}"
        for name, words in _PARTS
        if getattr(then, name) != getattr(now, name)
    )


def _value(setup: Setup, name: str) -> str:
    value = getattr(setup, name)
    if value is None or value == "":
        return "not written down"
    if name == "joint":
        return str(value.value)
    if isinstance(value, float | int):
        return f"{value:g}{_UNITS[name]}"
    return f"“{value}”"
