"""Rate of force development: how fast the force rises from its onset.

Windows 0 to 50, 0 to 100 and 0 to 200 ms from the onset, each as (F(t) − F(0))/t, and
the steepest 20 ms within the first 250 ms, as in Maffiuletti et al., Eur J Appl Physiol
116 (2016) 1091. Force is calibrated, zeroed and not filtered.

* The onset is looked for in the signal before and after the time at which the rules
  began the rep, which is a level of force and comes late. Baseline: half a second that
  ends 0.1 s before that time. Threshold: its mean plus the larger of 5 N and 5 standard
  deviations (5 SD: Dos'Santos et al. 2017). From the crossing of that back to where the
  force last was at the baseline's mean: `ONSET_METHOD`.
* A baseline must be quiet, flat and near zero (`baseline_problem`): who already pulls,
  steadily or more and more, has no onset but by hand. A steady pull shortens the rise
  and raises the early rates (pre-tension; Maffiuletti et al. 2016).
* Below 500 Hz 50 ms hold less than 25 samples, and nothing is told.
* It is much less repeatable than peak force: its minimal detectable change is a quarter
  to a half of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.measures.impulse import impulse_ns
from biofeedback.measures.noise import line
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.phrase import Phrase

    Floats = npt.NDArray[np.float64]

RATE_LEAST_HZ = 500.0
WINDOWS_S = (0.05, 0.1, 0.2)
STEEPEST_S = 0.02
STEEPEST_WITHIN_S = 0.25
BASELINE_S = 0.5
CLEAR_S = 0.1
THRESHOLD_LEAST_N = 5.0
THRESHOLD_SDS = 5.0
SPREAD_MOST_N = 2.0
"""About its own line; a baseline that spreads more is no rest. Common practice, no
source."""
DRIFT_MOST_N = 2.0
"""From begin to end of a baseline, beyond what its noise gives by chance. Ours."""
BASELINE_MOST_N = 10.0
"""Away from zero; more is a pull, or a limb that was not zeroed. Ours."""
BASELINE_SAMPLES_MIN = 50

ONSET_METHOD = phrase(
    "baseline mean + the larger of 5 N and 5 SD, traced back to the mean"
)
ONSET_BY_HAND = phrase("set by hand")


@dataclass(frozen=True, slots=True)
class RateOfForce:
    """How fast a force rose.

    Attributes:
        rise_onset_s: from where, on the clock of the trace.
        rfd_0_50_n_per_s, rfd_0_100_n_per_s, rfd_0_200_n_per_s: None where the force
            was let go, or a sample is missing, before.
        rfd_steepest_n_per_s: over the steepest 20 ms of the first 250 ms.
        impulse_0_100_ns, impulse_0_200_ns: over the force at the onset.
        onset_method: in words.
    """

    rise_onset_s: float
    rfd_0_50_n_per_s: float | None
    rfd_0_100_n_per_s: float | None
    rfd_0_200_n_per_s: float | None
    rfd_steepest_n_per_s: float | None
    impulse_0_100_ns: float | None
    impulse_0_200_ns: float | None
    onset_method: str


def rate_allows(time_s: Floats) -> bool:
    """Whether the sample rate is 500 Hz or more."""
    if len(time_s) < 2:
        return False
    return 1 / float(np.median(np.diff(time_s))) >= RATE_LEAST_HZ * (1 - 1e-3)


def baseline_problem(
    time_s: Floats, force_n: Floats, *, near_s: float
) -> Phrase | None:
    """Why the force before a rise is no baseline; None where it is one.

    Args:
        time_s: shape (n,), increasing.
        force_n: shape (n,); NaN where there is none.
        near_s: when the rules began the rep.
    """
    rest = (time_s >= near_s - CLEAR_S - BASELINE_S) & (time_s <= near_s - CLEAR_S)
    rest_n, rest_s = force_n[rest], time_s[rest]
    if len(rest_n) < BASELINE_SAMPLES_MIN or np.isnan(rest_n).any():
        return phrase("no onset: half a second without a gap is missing before it")
    through = line(rest_s, rest_n)
    width_s = float(rest_s[-1] - rest_s[0])
    drift_n = abs(through.slope_per_s) * width_s
    by_chance_n = 3 * through.slope_sd * width_s
    mean_n = float(rest_n.mean())
    if abs(mean_n) > BASELINE_MOST_N:
        return phrase("no onset: already pulling {mean_n:.0f} N", mean_n=mean_n)
    if drift_n > max(DRIFT_MOST_N, by_chance_n):
        return phrase(
            "no onset: already pulling, {drift_n:.0f} N more in half a second",
            drift_n=drift_n,
        )
    if through.rms > SPREAD_MOST_N:
        return phrase(
            "no onset: not at rest before the rise, spread {spread_n:.1f} N",
            spread_n=through.rms,
        )
    return None


def onset(time_s: Floats, force_n: Floats, *, near_s: float) -> float | None:
    """The onset by `ONSET_METHOD`; None without a quiet baseline or a rise.

    Args:
        time_s: shape (n,), increasing.
        force_n: shape (n,); NaN where there is none.
        near_s: when the rules began the rep.
    """
    rest = (time_s >= near_s - CLEAR_S - BASELINE_S) & (time_s <= near_s - CLEAR_S)
    rest_n = force_n[rest]
    if baseline_problem(time_s, force_n, near_s=near_s) is not None:
        return None
    mean_n, sd_n = float(rest_n.mean()), float(rest_n.std(ddof=1))
    level_n = mean_n + max(THRESHOLD_LEAST_N, THRESHOLD_SDS * sd_n)
    first = int(np.flatnonzero(rest)[-1])
    over = np.flatnonzero(force_n[first:] > level_n)
    if not len(over):
        return None
    crossed = first + int(over[0])
    if np.isnan(force_n[first : crossed + 1]).any():
        return None
    at_rest = np.flatnonzero(force_n[:crossed] <= mean_n)
    if not len(at_rest):
        return None
    last = int(at_rest[-1])
    # The line from there to the next sample, where it leaves the mean.
    share = (mean_n - force_n[last]) / (force_n[last + 1] - force_n[last])
    return float(time_s[last] + share * (time_s[last + 1] - time_s[last]))


def rate_of_force(
    time_s: Floats,
    force_n: Floats,
    *,
    onset_s: float,
    end_s: float,
    method: str = ONSET_METHOD,
) -> RateOfForce | None:
    """How fast the force rose from `onset_s`; None below 500 Hz.

    Args:
        time_s: shape (n,), increasing.
        force_n: shape (n,), not filtered; NaN where there is none.
        end_s: when the force was let go: no window reaches past it.
        method: how the onset was found.
    """
    if not rate_allows(time_s):
        return None
    gap_s = 1.5 * float(np.median(np.diff(time_s)))

    def whole(from_s: float, to_s: float) -> bool:
        """Whether the force is known all the way."""
        first = int(np.searchsorted(time_s, from_s, side="right")) - 1
        last = int(np.searchsorted(time_s, to_s, side="left"))
        if first < 0 or last >= len(time_s) or to_s > end_s:
            return False
        piece = slice(first, last + 1)
        steps_s = np.diff(time_s[piece])
        return not np.isnan(force_n[piece]).any() and bool((steps_s <= gap_s).all())

    def force_at(at_s: float | Floats) -> Floats:
        return np.asarray(np.interp(at_s, time_s, force_n))

    rates: list[float | None] = []
    impulses: list[float | None] = []
    for width_s in WINDOWS_S:
        until_s = onset_s + width_s
        if not whole(onset_s, until_s):
            rates.append(None)
            impulses.append(None)
            continue
        start_n = float(force_at(onset_s))
        rates.append((float(force_at(until_s)) - start_n) / width_s)
        joined = np.ones(len(time_s) - 1, dtype=np.bool_)
        area_ns = impulse_ns(time_s, force_n, joined, start_s=onset_s, end_s=until_s)
        impulses.append(area_ns - start_n * width_s)
    steepest = None
    if whole(onset_s, onset_s + STEEPEST_WITHIN_S):
        latest_s = onset_s + STEEPEST_WITHIN_S - STEEPEST_S
        inside = time_s[(time_s > onset_s) & (time_s < latest_s)]
        heads_s = np.concatenate(((onset_s,), inside, (latest_s,)))
        rises = force_at(heads_s + STEEPEST_S) - force_at(heads_s)
        steepest = float(rises.max()) / STEEPEST_S
    return RateOfForce(
        rise_onset_s=onset_s,
        rfd_0_50_n_per_s=rates[0],
        rfd_0_100_n_per_s=rates[1],
        rfd_0_200_n_per_s=rates[2],
        rfd_steepest_n_per_s=steepest,
        impulse_0_100_ns=impulses[1],
        impulse_0_200_ns=impulses[2],
        onset_method=method,
    )
