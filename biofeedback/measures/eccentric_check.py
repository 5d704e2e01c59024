"""Eccentric peak against isometric peak of paired tasks: the numbers, and no decision.

* The peak of a slow lowering should be above the isometric peak of its partner task.
  By how much is not asked: ratios of 1.2 to 1.5 are textbook figures of machines that
  force the movement, and where gravity is the load the body's own mass is the limit.
  Where a lowering stays below, that has more than one reading, and they are listed.
  Which one holds is for the practitioner to say.
* Difference = eccentric − isometric in N, and 100 · difference / isometric in %.
* Left and right are of the moment of each peak, so they add up to it.
* Both results have noise. The difference of two single results is beyond it where it
  is more than 1.96 · √(TE₁² + TE₂²), with the typical errors of both tests (see
  `change`; for equal errors this is the minimal detectable change).
* The lines at which body mass is said to suffice no longer are common practice with no
  published source. They can be set, and are shown as what they are.
* Newtons alone do not compare people: newtons per kilogram stand beside them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.measures.change import Z95
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Mapping

    from biofeedback.measures.change import Noise
    from biofeedback.training.athlete import BodyMass
    from biofeedback.wire.fields import Fields

WITHIN_DAYS = 0
"""Both on the same day; more can be set."""
WITHIN_DAYS_MOST = 60
COMMON_PRACTICE = "common practice, no published source"
NAME_MAX = 40
LINES_MOST = 6


class Part(Enum):
    """What of a result is held against the other."""

    TOTAL = phrase("total")
    LEFT = phrase("left")
    RIGHT = phrase("right")


class Reading(Enum):
    """What an eccentric peak that is not above the isometric one may mean."""

    NOT_AS_MEANT = phrase("rep not done as meant, or weak effort")
    STRENGTH = phrase("eccentric strength is lacking")
    BODY_MASS = phrase("limited by body mass; outside load may be due")


class LineOn(Enum):
    """Which peak a line is drawn for."""

    EACH_SIDE = phrase("each side")
    TOTAL = phrase("total")


@dataclass(frozen=True, slots=True)
class MassLine:
    """An isometric peak from which on body mass is said to suffice no longer.

    Attributes:
        name: whom it is for.
        source: where it comes from, in plain words.

    Raises:
        FieldError: it is no force, or has no name.
    """

    name: str
    force_n: float
    source: str = COMMON_PRACTICE

    def __post_init__(self) -> None:
        if not 1 <= len(self.name.strip()) <= NAME_MAX:
            raise FieldError(
                "line.name",
                phrase("must have 1 to {name_max} characters.", name_max=NAME_MAX),
            )
        if not 1 <= self.force_n <= 10_000:
            raise FieldError("line.force_n", phrase("must be 1 N to 10 000 N."))

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {"name": self.name, "force_n": self.force_n, "source": self.source}

    @classmethod
    def from_json(cls, fields: Fields) -> MassLine:
        """Checks and reads what `to_json` wrote."""
        return cls(
            fields.text("name", longest=NAME_MAX),
            fields.number("force_n"),
            fields.text("source", longest=200),
        )


STARTING_LINES = (MassLine("men", 530.0), MassLine("women", 420.0))


@dataclass(frozen=True, slots=True)
class CheckSettings:
    """What can be set of the check.

    Attributes:
        within_days: how far apart the two results may be; 0 for the same day.
        line_on: which isometric peak the lines are for. That it is one side's is our
            reading of common practice, which does not say.

    Raises:
        FieldError: a value does not fit.
    """

    within_days: int = WITHIN_DAYS
    lines: tuple[MassLine, ...] = STARTING_LINES
    line_on: LineOn = LineOn.EACH_SIDE

    def __post_init__(self) -> None:
        if not 0 <= self.within_days <= WITHIN_DAYS_MOST:
            raise FieldError(
                "within_days",
                phrase(
                    "must be 0 to {within_days_most} days.",
                    within_days_most=WITHIN_DAYS_MOST,
                ),
            )
        if len(self.lines) > LINES_MOST:
            raise FieldError(
                "lines", phrase("must be at most {lines_most}.", lines_most=LINES_MOST)
            )

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "within_days": self.within_days,
            "lines": [line.to_json() for line in self.lines],
            "line_on": self.line_on.value,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> CheckSettings:
        """Checks and reads what `to_json` wrote."""
        return cls(
            fields.whole("within_days", least=0, most=WITHIN_DAYS_MOST),
            tuple(
                MassLine.from_json(line)
                for line in fields.items("lines", most=LINES_MOST)
            ),
            fields.choice("line_on", LineOn),
        )


@dataclass(frozen=True, slots=True)
class Peaks:
    """A peak with the sides it is made of.

    Attributes:
        total_n: both sides together, or the one that worked.
        left_n, right_n: at the moment of the peak; None where they are not known.
        one_side: whether one side worked alone.

    Raises:
        FieldError: the peak is no force above 0 N.
    """

    total_n: float
    left_n: float | None = None
    right_n: float | None = None
    one_side: bool = False

    def __post_init__(self) -> None:
        if not 0 < self.total_n < math.inf:
            raise FieldError(
                "peak_n",
                phrase("{total_n:g} N is not above 0 N.", total_n=self.total_n),
            )

    def of(self, part: Part) -> float | None:
        """The peak, or a side of it."""
        by = {Part.LEFT: self.left_n, Part.RIGHT: self.right_n}
        return by.get(part, self.total_n)


@dataclass(frozen=True, slots=True)
class PartCheck:
    """One part of both results.

    Attributes:
        difference_n: eccentric less isometric; `difference_pct` in % of isometric.
        noise_n: how far two such results may differ by noise alone; None where it
            is not known.
        isometric_n_per_kg, eccentric_n_per_kg: None without a body mass.
    """

    part: Part
    isometric_n: float
    eccentric_n: float
    difference_n: float
    difference_pct: float
    noise_n: float | None
    isometric_n_per_kg: float | None
    eccentric_n_per_kg: float | None

    @property
    def above(self) -> bool:
        """Whether the eccentric peak is above the isometric one."""
        return self.difference_n > 0

    @property
    def within_noise(self) -> bool | None:
        """Whether noise alone may explain the difference; None if not known."""
        return None if self.noise_n is None else abs(self.difference_n) <= self.noise_n


@dataclass(frozen=True, slots=True)
class LineFound:
    """An isometric peak against a line.

    Attributes:
        reached: whether the peak is at the line or above it.
    """

    line: MassLine
    part: Part
    isometric_n: float

    @property
    def reached(self) -> bool:
        """Whether the peak is at the line or above it."""
        return self.isometric_n >= self.line.force_n


@dataclass(frozen=True, slots=True)
class EccentricCheck:
    """What the numbers of two paired results are. It decides nothing.

    Attributes:
        parts: total first, then left and right where both results have them.
        days_apart: 0 for the same day.
        too_far_apart: whether that is more than was set; nothing is read into it then.
        readings: all that the numbers may mean, where a part is not above; else empty.
        lines: every line against the peaks it is for; empty where these are unknown.
        mass: body mass with its date, or None.
    """

    parts: tuple[PartCheck, ...]
    days_apart: int
    too_far_apart: bool
    readings: tuple[Reading, ...]
    lines: tuple[LineFound, ...]
    settings: CheckSettings = field(default_factory=CheckSettings)
    mass: BodyMass | None = None

    @property
    def not_above(self) -> tuple[Part, ...]:
        """The parts whose eccentric peak is not above the isometric one."""
        return tuple(check.part for check in self.parts if not check.above)


def eccentric_check(
    isometric: Peaks,
    eccentric: Peaks,
    *,
    days_apart: int,
    settings: CheckSettings | None = None,
    noise_n: Mapping[Part, float] | None = None,
    mass: BodyMass | None = None,
) -> EccentricCheck:
    """Holds an eccentric peak against the isometric peak of the paired task.

    Args:
        days_apart: whole days between the two, whichever was first.
        noise_n: for each part, see `difference_noise_n`; missing where not known.
        mass: body mass with its date.

    Raises:
        FieldError: one side alone is held against both, or a value does not fit.
    """
    settings = settings or CheckSettings()
    if isometric.one_side is not eccentric.one_side:
        raise FieldError("sides", phrase("of the two results are not the same."))
    parts: list[PartCheck] = []
    for part in Part:
        isometric_n, eccentric_n = isometric.of(part), eccentric.of(part)
        if isometric_n is None or eccentric_n is None or isometric_n <= 0:
            continue
        difference_n = eccentric_n - isometric_n
        parts.append(
            PartCheck(
                part=part,
                isometric_n=isometric_n,
                eccentric_n=eccentric_n,
                difference_n=difference_n,
                difference_pct=100 * difference_n / isometric_n,
                noise_n=(noise_n or {}).get(part),
                isometric_n_per_kg=isometric_n / mass.mass_kg if mass else None,
                eccentric_n_per_kg=eccentric_n / mass.mass_kg if mass else None,
            )
        )
    apart = days_apart > settings.within_days
    all_above = all(check.above for check in parts)
    return EccentricCheck(
        parts=tuple(parts),
        days_apart=days_apart,
        too_far_apart=apart,
        readings=() if apart or all_above else tuple(Reading),
        lines=_lines(isometric, settings),
        settings=settings,
        mass=mass,
    )


def difference_noise_n(
    isometric: Noise | None, eccentric: Noise | None
) -> float | None:
    """1.96 · √(TE₁² + TE₂²); None unless both typical errors are known."""
    if isometric is None or eccentric is None:
        return None
    return Z95 * math.hypot(isometric.typical_error_n, eccentric.typical_error_n)


def _lines(isometric: Peaks, settings: CheckSettings) -> tuple[LineFound, ...]:
    parts = [Part.TOTAL]
    if settings.line_on is LineOn.EACH_SIDE and not isometric.one_side:
        parts = [Part.LEFT, Part.RIGHT]
    elif settings.line_on is LineOn.TOTAL and isometric.one_side:
        parts = []  # a line for both sides together says nothing of one
    found = []
    for line in settings.lines:
        for part in parts:
            peak_n = isometric.of(part)
            if peak_n is not None:
                found.append(LineFound(line, part, peak_n))
    return tuple(found)
