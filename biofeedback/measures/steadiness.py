"""Steadiness: how well a force stays where it should.

Errors against a target follow Schmidt and Lee, *Motor Control and Learning*, and
Henry, J Mot Behav 6 (1974) 149: with the denominator n, E² = CE² + VE² exactly.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    import numpy.typing as npt


@dataclass(frozen=True, slots=True)
class Steadiness:
    """Spread and drift of a force over some time.

    Attributes:
        cv_pct: 100 · SD / mean, SD with n − 1; None where the mean is not positive.
        cv_detrended_pct: the same after the least-squares line is taken out.
        slope_n_per_s: of that line.
    """

    mean_n: float
    median_n: float
    cv_pct: float | None
    cv_detrended_pct: float | None
    slope_n_per_s: float


@dataclass(frozen=True, slots=True)
class TargetError:
    """Error of a force against its target, in newtons.

    Attributes:
        ce_n: constant error, the mean error.
        ve_n: variable error, SD of the error about its own mean, with n.
        ae_n: absolute error, the mean of the error without its sign.
        rmse_n: root of the mean squared error, also called E.
    """

    ce_n: float
    ve_n: float
    ae_n: float
    rmse_n: float


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line through a force: its mean, reached at `mean_s`, and its slope."""

    mean_s: float
    mean_n: float
    slope_n_per_s: float

    def taken_out(
        self, time_s: npt.NDArray[np.float64], force_n: npt.NDArray[np.float64]
    ) -> npt.NDArray[np.float64]:
        """What of a force is not the line."""
        left_n: npt.NDArray[np.float64] = (
            force_n - self.mean_n - self.slope_n_per_s * (time_s - self.mean_s)
        )
        return left_n


def line_of(time_s: npt.NDArray[np.float64], force_n: npt.NDArray[np.float64]) -> Line:
    """The least-squares line; for two samples and more."""
    mean_s, mean_n = float(np.mean(time_s)), float(np.mean(force_n))
    centred_s = time_s - mean_s
    slope = float(centred_s @ (force_n - mean_n) / (centred_s @ centred_s))
    return Line(mean_s, mean_n, slope)


def steadiness(
    time_s: npt.NDArray[np.float64], force_n: npt.NDArray[np.float64]
) -> Steadiness | None:
    """Spread and drift of `force_n`; None for fewer than three samples.

    Args:
        time_s: shape (n,).
        force_n: shape (n,), without NaN.
    """
    if len(force_n) < 3:
        return None
    line = line_of(time_s, force_n)
    mean_n = line.mean_n
    residual_n = line.taken_out(time_s, force_n)
    return Steadiness(
        mean_n=mean_n,
        median_n=float(np.median(force_n)),
        cv_pct=_cv_pct(force_n, mean_n),
        cv_detrended_pct=_cv_pct(residual_n, mean_n),
        slope_n_per_s=line.slope_n_per_s,
    )


def _cv_pct(values_n: npt.NDArray[np.float64], mean_n: float) -> float | None:
    if mean_n <= 0:
        return None
    return float(100 * np.std(values_n, ddof=1) / mean_n)


def target_error(
    force_n: npt.NDArray[np.float64], target_n: npt.NDArray[np.float64] | float
) -> TargetError | None:
    """Error of `force_n` against `target_n`; None without a sample.

    Args:
        force_n: shape (n,), without NaN.
        target_n: one value, or shape (n,) where the target changed.
    """
    if not len(force_n):
        return None
    error_n = force_n - target_n
    return TargetError(
        ce_n=float(np.mean(error_n)),
        ve_n=float(np.std(error_n)),
        ae_n=float(np.mean(np.abs(error_n))),
        rmse_n=float(np.sqrt(np.mean(error_n**2))),
    )
