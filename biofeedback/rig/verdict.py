"""A verdict: what was found, how it stands, and what to do."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Mapping


class State(Enum):
    """What a verdict is."""

    GOOD = phrase("good")
    LOOK = phrase("look at it")
    NOT_JUDGED = phrase("not judged")


@dataclass(frozen=True, slots=True)
class Verdict:
    """One verdict.

    Attributes:
        name: what was looked at.
        found: what was found, with its numbers.
        advice: what to do; empty where nothing need be done.
        numbers: the same numbers for a script, units in their names.
    """

    name: str
    state: State
    found: str
    advice: str = ""
    numbers: Mapping[str, object] = field(default_factory=dict)

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "name": self.name,
            "state": self.state.value,
            "found": self.found,
            "advice": self.advice,
            **self.numbers,
        }


def signed(value: float, digits: int) -> str:
    """A number with its sign, the minus as it is printed."""
    return f"{value:+.{digits}f}".replace("-", "−")


def verdict(
    name: str, *, good: bool, found: str, advice: str, numbers: Mapping[str, object]
) -> Verdict:
    """Good, or to be looked at with advice."""
    state = State.GOOD if good else State.LOOK
    return Verdict(name, state, found, "" if good else advice, numbers)
