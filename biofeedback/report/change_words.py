"""Changes within sets in words, for paper."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from biofeedback.phrase import Phrase
    from biofeedback.session.visit_facts import ChangeLine

DASH = "–"
WHAT = {
    "band": phrase("band"),
    "hold_s": phrase("hold"),
    "rest_s": phrase("rest"),
    "reps": phrase("reps"),
    "side": phrase("side"),
    "reference": phrase("reference"),
}


def change_words(line: ChangeLine) -> Phrase:
    """When, of which task, what, from what to what, and why."""
    task = line.set_title
    return phrase(
        "{day}{task}: {what} {old} → {new}; {reason}",
        day=line.at_utc.astimezone().date().isoformat(),
        task=phrase(", {task}", task=task) if task else "",
        what=WHAT.get(line.what, line.what),
        old=_value(line, line.old),
        new=_of_whole(line, _value(line, line.new)),
        reason=line.reason or phrase("no reason given"),
    )


def _value(line: ChangeLine, value: object) -> str:
    if line.what == "band" and isinstance(value, Mapping):
        return _band(value, line.reference_n)
    if line.what == "reference" and isinstance(value, Mapping):
        value = value.get("force_n")
        return DASH if not _number(value) else phrase("{n:.0f} N", n=float(str(value)))
    if not _number(value):
        return DASH if value is None else str(value)
    unit = "s" if line.what in {"hold_s", "rest_s"} else ""
    return phrase("{number:g} {unit}", number=value, unit=unit) if unit else f"{value}"


def _of_whole(line: ChangeLine, value: str) -> str:
    """A share says what it is of."""
    if line.what != "band" or not line.reference_n or value == DASH:
        return value
    return phrase("{value} of {n:.1f} N", value=value, n=line.reference_n)


def _band(band: Mapping[str, object], reference_n: float | None) -> str:
    """In % where there is a reference."""
    lower, upper = band.get("lower_n"), band.get("upper_n")
    unit, by = ("N", 1.0) if not reference_n else ("%", 100 / reference_n)
    if not isinstance(lower, int | float):
        return DASH
    if not isinstance(upper, int | float):
        return phrase("at least {low:.0f} {unit}", low=lower * by, unit=unit)
    return phrase(
        "{low:.0f} to {high:.0f} {unit}", low=lower * by, high=upper * by, unit=unit
    )


def _number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)
