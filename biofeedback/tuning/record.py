"""What is kept of a choice: figures as plain JSON values, and what it rests on.

A recording is told by the key of its set, which says nothing of whom it is; the name of
its file would hold the athlete's code, and outlive an erasure.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.errors import BiofeedbackError
from biofeedback.logbook import recordings

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from biofeedback.tuning.choice import Score

UNKNOWN = "a recording without a key"


def figures_of(score: Score) -> dict[str, object]:
    """A score as plain JSON values, with units in the names."""
    return {
        "recordings": score.recordings,
        "age_s": score.age_s,
        "delay_dc_s": score.delay_s,
        "lag_ramp_s": score.lag_ramp_s,
        "lag_hold_s": score.lag_hold_s,
        "noise_rms_n": score.noise_n,
        "noise_pct_of_band": score.noise_pct,
        "error_rms_n": score.error_n,
        "overshoot_n": score.overshoot_n,
        "spikes_passed": score.spikes_passed,
        "spikes": score.spikes,
        "false_exits_per_min": score.false_exits_per_min,
        "missed_exits_per_min": score.missed_exits_per_min,
        "inside_change_s": score.inside_change_s,
        "completed_change": score.completed_change,
    }


def keys_of(paths: Iterable[Path]) -> tuple[str, ...]:
    """Keys of the sets that some recordings are of."""
    keys = []
    for path in paths:
        try:
            key = recordings.read(path).header.get("set_id")
        except BiofeedbackError:
            key = None  # it went away since
        keys.append(key if isinstance(key, str) and key else UNKNOWN)
    return tuple(keys)
