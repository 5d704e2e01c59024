"""Reliability: how well people keep their place, and their score, from trial to trial.

* A table of scores has a row a person and a column a trial, in one unit. Its
  variation is parted into people, trials and error (two-way), or into people and
  within people (one-way).
* Intraclass correlations are named as in Shrout and Fleiss, Psychol Bull 86 (1979)
  420-428. McGraw and Wong, Psychol Methods 1 (1996) 30-46, call (2,1) A,1 and (3,1)
  C,1; the arithmetic is the same. A value or a limit below zero is one that is
  possible, and is not cut off.
* An intraclass correlation grows with the spread of the group and says nothing of
  another group; the error of measurement (`trial_error`) does.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.f_test import f_tail
from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Variation:
    """Analysis of variance of a full table of scores.

    Attributes:
        people: rows, n.
        trials: columns, k.
        mean: of all scores.
        trial_means: of each column.
        ms_people: mean square between people, n − 1 degrees of freedom.
        ms_trials: between trials, k − 1.
        ms_error: of what is left of both, (n − 1)(k − 1).
        ms_within: within people, n (k − 1), trials and error together.
    """

    people: int
    trials: int
    mean: float
    trial_means: tuple[float, ...]
    ms_people: float
    ms_trials: float
    ms_error: float
    ms_within: float

    @property
    def error_df(self) -> int:
        """Degrees of freedom of the error."""
        return (self.people - 1) * (self.trials - 1)

    @property
    def trials_f(self) -> float | None:
        """F of a change common to all; for two trials the square of paired t."""
        return self.ms_trials / self.ms_error if self.ms_error else None

    @property
    def trials_p(self) -> float | None:
        """How often chance alone would give as large an F."""
        f = self.trials_f
        if f is None:
            return None
        return f_tail(f, df=self.trials - 1, residual_df=self.error_df)


def variation(scores: npt.ArrayLike) -> Variation:
    """The analysis of variance.

    Args:
        scores: shape (people, trials), at least 2 each, without NaN.

    Raises:
        FieldError: another shape, or a score that is not a number.
    """
    table = np.asarray(scores, dtype=np.float64)
    if table.ndim != 2 or min(table.shape) < 2:
        raise FieldError(
            "scores", phrase("must be of at least two people and two trials.")
        )
    if not np.isfinite(table).all():
        raise FieldError("scores", phrase("hold something that is not a number."))
    n, k = table.shape
    mean = table.mean()
    person = table.mean(axis=1, keepdims=True) - mean
    trial = table.mean(axis=0, keepdims=True) - mean
    size = float(np.abs(table).max())
    error_ss = squares(table - mean - person - trial, size)
    people_ss, trials_ss = squares(person, size) * k, squares(trial, size) * n
    return Variation(
        people=n,
        trials=k,
        mean=float(mean),
        trial_means=tuple(table.mean(axis=0).tolist()),
        ms_people=people_ss / (n - 1),
        ms_trials=trials_ss / (k - 1),
        ms_error=error_ss / ((n - 1) * (k - 1)),
        ms_within=(trials_ss + error_ss) / (n * (k - 1)),
    )


def squares(deviations: Floats, size: float) -> float:
    """Sum of squares; 0 where only the rounding of scores of this size is left."""
    rounding = 8 * np.finfo(np.float64).eps * size
    if np.abs(deviations).max(initial=0.0) <= rounding:
        return 0.0
    return float(np.sum(deviations**2))


class IccForm(Enum):
    """The six forms: model, and whether one score or the mean of all k is meant."""

    ONE_WAY = "ICC(1,1)"
    AGREEMENT = "ICC(2,1)"
    CONSISTENCY = "ICC(3,1)"
    ONE_WAY_MEAN = "ICC(1,k)"
    AGREEMENT_MEAN = "ICC(2,k)"
    CONSISTENCY_MEAN = "ICC(3,k)"


@dataclass(frozen=True, slots=True)
class Icc:
    """An intraclass correlation with its interval.

    Attributes:
        value: at most 1; may be below 0; None where people do not differ at all, so
            that there is nothing to divide by.
        lower: of the interval; None where it has no end on this side, or where the
            approximation behind the interval of (2,1) fails.
        upper: likewise.
    """

    form: IccForm
    value: float | None
    lower: float | None
    upper: float | None


def icc(found: Variation, form: IccForm, *, level: float = 0.95) -> Icc:
    """One form, with its interval by F.

    Shrout and Fleiss 1979 give values and intervals of (1,1), (2,1) and (3,1); those
    of the means follow by Spearman and Brown. The degrees of freedom of (2,1) are
    approximate (Satterthwaite); with few people and a value near or below zero they
    can fall so low that the limits miss the value, and are then not given.
    """
    if form in (IccForm.AGREEMENT, IccForm.AGREEMENT_MEAN):
        value, lower, upper = _agreement(found, level)
    else:
        one_way = form in (IccForm.ONE_WAY, IccForm.ONE_WAY_MEAN)
        rest = found.ms_within if one_way else found.ms_error
        df = found.people * (found.trials - 1) if one_way else found.error_df
        value, lower, upper = _ratio(found, rest, df, level)
    if form in (
        IccForm.ONE_WAY_MEAN,
        IccForm.AGREEMENT_MEAN,
        IccForm.CONSISTENCY_MEAN,
    ):
        value, lower, upper = (
            _of_the_mean(each, found.trials) for each in (value, lower, upper)
        )
    return Icc(form, value, lower, upper)


def _ratio(
    found: Variation, rest: float, df: int, level: float
) -> tuple[float | None, float | None, float | None]:
    """(MS people − rest)/(MS people + (k − 1) rest), and its interval by F."""
    from scipy import special  # noqa: PLC0415  no start of the window needs it

    k, ms_people = found.trials, found.ms_people
    tail = (1 - level) / 2
    # fdtri(a, b, p): the value below which F lies with probability p.
    down = float(special.fdtri(found.people - 1, df, 1 - tail))
    up = 1 / float(special.fdtri(df, found.people - 1, 1 - tail))
    value, lower, upper = (
        _divide(ms_people - f * rest, ms_people + (k - 1) * f * rest)
        for f in (1.0, down, up)
    )
    return value, lower, upper


def _agreement(
    found: Variation, level: float
) -> tuple[float | None, float | None, float | None]:
    from scipy import special  # noqa: PLC0415  no start of the window needs it

    n, k = found.people, found.trials
    ms_people, ms_trials, ms_error = found.ms_people, found.ms_trials, found.ms_error
    others = k * ms_trials + (k * n - k - n) * ms_error
    value = _divide(n * (ms_people - ms_error), n * ms_people + others)
    if value is None:
        return None, None, None
    of_trials = k * value * ms_trials
    of_error = (n * (1 + (k - 1) * value) - k * value) * ms_error
    df = _divide(
        (k - 1) * (n - 1) * (of_trials + of_error) ** 2,
        (n - 1) * of_trials**2 + of_error**2,
    )
    if df is None:
        exact = value if ms_trials == ms_error == 0 else None  # all scores repeat
        return value, exact, exact
    tail = (1 - level) / 2
    down = float(special.fdtri(n - 1, df, 1 - tail))
    up = float(special.fdtri(df, n - 1, 1 - tail))
    lower = _divide(n * (ms_people - down * ms_error), down * others + n * ms_people)
    upper = _divide(n * (up * ms_people - ms_error), others + n * up * ms_people)
    if lower is None or upper is None or not lower <= value <= upper:
        return value, None, None
    return value, lower, upper


def _of_the_mean(single: float | None, k: int) -> float | None:
    """Spearman and Brown: from one score to the mean of k."""
    if single is None or 1 + (k - 1) * single <= 0:
        return None
    return _divide(k * single, 1 + (k - 1) * single)


def _divide(above: float, below: float) -> float | None:
    return above / below if below else None
