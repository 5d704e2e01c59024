"""Error of measurement: what one test is off by, from a table of trials.

* The standard error of measurement is the root of the error mean square (Weir, J
  Strength Cond Res 19 (2005) 231-240): SD √(1 − ICC) depends on which SD and which
  ICC are meant, and this does not. It is the typical error of Hopkins, Sports Med 30
  (2000) 1-15, for any number of trials.
* A change that is common to all from trial to trial is taken out; `change` keeps it.
* Scores may be missing: whoever has two takes part.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.measures.change import Z95, sd_interval
from biofeedback.measures.reliability import squares

if TYPE_CHECKING:
    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

Z90 = 1.645
"""As printed wherever a minimal detectable change at 90 % is."""
LOG_MOST = 20.0
"""A factor of half a billion between two scores of one person: no per cent."""


@dataclass(frozen=True, slots=True)
class TypicalError:
    """What one test is off by, when the change common to all is taken out.

    Attributes:
        sem: standard error of measurement, which is the typical error; in the unit
            of the scores.
        interval: 95 % interval of it, by chi-square.
        cv_pct: 100 (exp(s) − 1), s the same of the logarithms; None where a score
            is not above 0, or so near it that nothing can be said in per cent.
        cv_interval_pct: of it.
        degrees_of_freedom: of both.
        people: with at least two scores.
        scores: of these people.
    """

    sem: float
    interval: tuple[float, float]
    cv_pct: float | None
    cv_interval_pct: tuple[float, float] | None
    degrees_of_freedom: int
    people: int
    scores: int

    @property
    def mdc95(self) -> float:
        """1.96 √2 · SEM: smallest change between two tests that is more than noise."""
        return Z95 * math.sqrt(2) * self.sem

    @property
    def mdc90(self) -> float:
        """1.645 √2 · SEM."""
        return Z90 * math.sqrt(2) * self.sem


def typical_error_of_trials(scores: npt.ArrayLike) -> TypicalError | None:
    """The error of measurement of a table in which scores may be missing.

    Scores are fitted as person + trial by least squares; what is left over gives the
    error. On a full table it is the root of the error mean square.

    Args:
        scores: shape (people, trials), NaN where a score is missing. People with
            fewer than two scores are passed over.

    Returns:
        None where no degree of freedom is left.
    """
    table = np.asarray(scores, dtype=np.float64)
    table = table[np.isfinite(table).sum(axis=1) > 1]
    left = _left_over(table)
    if left is None:
        return None
    sem, df = left
    of_logs = _left_over(np.log(table)) if np.nanmin(table) > 0 else None
    logs = None if of_logs is None else (of_logs[0], *sd_interval(of_logs[0], df=df))
    if logs is None or logs[-1] > LOG_MOST:
        cv_pct = cv_interval_pct = None
    else:
        cv_pct, *limits = (100 * math.expm1(each) for each in logs)
        cv_interval_pct = (limits[0], limits[1])
    return TypicalError(
        sem=sem,
        interval=sd_interval(sem, df=df),
        cv_pct=cv_pct,
        cv_interval_pct=cv_interval_pct,
        degrees_of_freedom=df,
        people=len(table),
        scores=int(np.isfinite(table).sum()),
    )


def _left_over(table: Floats) -> tuple[float, int] | None:
    """Root mean square of what person + trial leave over, and its df.

    People are taken out first, by their mean; that leaves a small system in the
    trials alone. Its rank says how many differences of trials the table can tell.
    """
    there = np.isfinite(table)
    count = there.sum(axis=1, keepdims=True)
    weight = there / np.maximum(count, 1)
    scores = np.where(there, table, 0.0)
    centred = np.where(there, scores - (scores * weight).sum(axis=1, keepdims=True), 0)
    system = np.diag(there.sum(axis=0).astype(np.float64)) - weight.T @ there
    rank = int(np.linalg.matrix_rank(system, hermitian=True))
    df = int(there.sum()) - len(table) - rank
    if df < 1:
        return None
    trial = np.linalg.pinv(system, hermitian=True) @ centred.sum(axis=0)
    fitted = np.where(there, trial - weight @ trial[:, None], 0.0)
    size = float(np.abs(scores).max())
    return math.sqrt(squares(centred - fitted, size) / df), df
