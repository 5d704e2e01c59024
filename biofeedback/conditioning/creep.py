"""Creep and zero return of a cell, judged in the manner of OIML R 60-1 (2021).

Readings are set against v, the verification interval: rated load over the number
of intervals that the class allows. This is no type approval; it tells whether a
cell behaves as well as its class says, at the temperature of the day.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

P_LC_DEFAULT = 0.7
"""Share of the instrument's error that the cell may use, R 60-1, 5.3.2."""
CREEP_SHARE = 0.7
LATE_CREEP_SHARE = 0.15
"""R 60-1, 5.5.1: whole creep within 30 min, and from minute 20 to 30."""
ZERO_RETURN_V = 0.5
"""R 60-1, 5.5.2."""


class CellClass(Enum):
    """Accuracy classes of load cells, R 60-1 Table 1."""

    A = "A"
    B = "B"
    C = "C"
    D = "D"


# R 60-1 Table 4: load in v up to which ±0.5, ±1.0 and ±1.5 times p_LC·v hold;
# R 60-1 Table 1: numbers of intervals that the class allows.
_STEPS_V: dict[CellClass, tuple[float, float, float]] = {
    CellClass.A: (50_000, 200_000, float("inf")),
    CellClass.B: (5_000, 20_000, 100_000),
    CellClass.C: (500, 2_000, 10_000),
    CellClass.D: (50, 200, 1_000),
}
_INTERVALS: dict[CellClass, tuple[float, float]] = {
    CellClass.A: (50_000, float("inf")),
    CellClass.B: (5_000, 100_000),
    CellClass.C: (500, 10_000),
    CellClass.D: (100, 1_000),
}


def permitted_error_v(
    load_v: float, cell_class: CellClass, *, p_lc: float = P_LC_DEFAULT
) -> float:
    """± maximum permissible error at a load, both in intervals v (Table 4).

    Raises:
        FieldError: a load outside the class.
    """
    if load_v >= 0:
        for upto_v, factor in zip(_STEPS_V[cell_class], (0.5, 1.0, 1.5), strict=True):
            if load_v <= upto_v:
                return factor * p_lc
    raise FieldError(
        "load",
        phrase(
            "{load_v:g} v lies outside class {cell_class}.",
            load_v=load_v,
            cell_class=cell_class.value,
        ),
    )


@dataclass(frozen=True, slots=True)
class CreepReadings:
    """Readings of one creep test, in any unit of indication.

    Attributes:
        rated_output: reading at rated load less reading at no load.
        zero_before: empty, before the load.
        first: right after loading with 90 to 100 % of rated load.
        after_20_min: under the same load.
        after_30_min: under the same load.
        zero_after: empty again, right after.
    """

    rated_output: float
    zero_before: float
    first: float
    after_20_min: float
    after_30_min: float
    zero_after: float


@dataclass(frozen=True, slots=True)
class Judgement:
    """One figure against its limit, in intervals v.

    Attributes:
        pct: the figure in % of rated output.
        v: the figure in intervals.
        limit_v: largest allowed.
    """

    name: str
    pct: float
    v: float
    limit_v: float

    @property
    def passed(self) -> bool:
        """Whether the limit is kept; the limit itself is allowed."""
        return abs(self.v) <= self.limit_v * (1 + 1e-9)  # 0.15 v may print as more


@dataclass(frozen=True, slots=True)
class CreepVerdict:
    """Creep within 30 min, from minute 20 to 30, and return to zero."""

    creep: Judgement
    late_creep: Judgement
    zero_return: Judgement

    @property
    def passed(self) -> bool:
        """Whether all three keep their limits."""
        return self.creep.passed and self.late_creep.passed and self.zero_return.passed


def judge_creep(
    test: CreepReadings, *, cell_class: CellClass, intervals: int
) -> CreepVerdict:
    """The verdict of R 60-1, 5.5, at rated load; p_LC is 0.7 here always.

    Args:
        intervals: number of intervals n_LC, 3000 for a cell of class C3.

    Raises:
        FieldError: the class does not have as many or as few intervals.
    """
    least, most = _INTERVALS[cell_class]
    if not least <= intervals <= most:
        raise FieldError(
            "intervals",
            phrase(
                "{intervals} do not fit class {cell_class} ({least:g} to {most:g}).",
                intervals=intervals,
                cell_class=cell_class.value,
                least=least,
                most=most,
            ),
        )
    if test.rated_output == 0:
        raise FieldError("rated_output", phrase("must not be 0."))
    permitted_v = permitted_error_v(intervals, cell_class)

    def judged(name: str, change: float, limit_v: float) -> Judgement:
        share = change / test.rated_output
        return Judgement(name, 100 * share, share * intervals, limit_v)

    moved = (test.after_20_min - test.first, test.after_30_min - test.first)
    return CreepVerdict(
        creep=judged("creep", max(moved, key=abs), CREEP_SHARE * permitted_v),
        late_creep=judged(
            phrase("creep, minute 20 to 30"),
            test.after_30_min - test.after_20_min,
            LATE_CREEP_SHARE * permitted_v,
        ),
        zero_return=judged(
            phrase("zero return"), test.zero_after - test.zero_before, ZERO_RETURN_V
        ),
    )
