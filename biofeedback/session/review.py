"""The library: saved reps and their force, for looking at them again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.errors import FileError
from biofeedback.measures.trace import Trace
from biofeedback.session.lowering import EccentricChecks
from biofeedback.session.replay import Replayed, SavedMark, replay
from biofeedback.training.conductor import judged_by

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime
    from pathlib import Path

    import numpy.typing as npt

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.rows import RepRow
    from biofeedback.measures.eccentric_check import CheckSettings
    from biofeedback.session.lowering import Paired
    from biofeedback.training.band import Band
    from biofeedback.training.prescription import Prescription

AROUND_S = 2.0
"""How much force is shown before the onset and after the end of a rep."""


@dataclass(frozen=True, slots=True, eq=False)
class RepTrace:
    """The force of one rep and some seconds around it, not filtered.

    Attributes:
        time_s: shape (n,), since the start of the set.
        force_n: shape (n, channels); NaN where there is no usable signal.
        effort_n: shape (n,), the total, or the working side: what was judged.
        bands: (from when, band) for each band in force.
        lapses: (left, back) of each.
        measures: all numbers of the rep.
        marks: pain marks and notes of the whole set.
    """

    time_s: npt.NDArray[np.float64]
    force_n: npt.NDArray[np.float64]
    effort_n: npt.NDArray[np.float64]
    bands: tuple[tuple[float, Band], ...]
    start_s: float
    entry_s: float | None
    hold_end_s: float
    end_s: float
    lapses: tuple[tuple[float, float], ...]
    measures: Mapping[str, object]
    profile: RigProfile
    prescription: Prescription
    marks: tuple[SavedMark, ...] = ()


class Library:
    """What the review page reads.

    Args:
        recordings: folder of the recordings.
    """

    def __init__(self, logbook: Logbook, recordings: Path) -> None:
        self._logbook = logbook
        self._recordings = recordings
        self._last: Replayed | None = None

    def reps(
        self, *, athlete_code: str | None = None, limit: int = 200
    ) -> tuple[RepRow, ...]:
        """The latest saved reps, of one athlete or of all, newest first."""
        return tuple(self._logbook.reps(athlete_code=athlete_code, limit=limit))

    def trace(self, row: RepRow) -> RepTrace:
        """The force of a rep, read again from its recording.

        Raises:
            FileError: the recording is gone, or the rep is not in it.
        """
        path = self._recordings / row.recording
        if self._last is None or self._last.path != path:
            self._last = replay(path, keep_blocks=True)
        for rep in self._last.reps:
            if rep["number"] == row.number:
                return _cut_out(self._last, rep)
        raise FileError(path, f"rep {row.number} is not in this recording.")


class DayChecks:
    """Isometric against eccentric, for the day that a saved rep is of.

    Raises (every method): `FileError` where the logbook cannot be used.
    """

    def __init__(self, logbook: Logbook) -> None:
        self._logbook = logbook
        self._checks = EccentricChecks(logbook)

    def of(self, athlete_code: str, at_utc: datetime) -> tuple[Paired, ...]:
        """The paired results of that athlete's day, by the clock here."""
        athlete = self._logbook.athlete_by_code(athlete_code)
        if athlete is None:
            return ()
        here = at_utc.astimezone()
        return self._checks.of_day(athlete.id, here.date(), now=here)

    def settings(self) -> CheckSettings:
        """What is set."""
        return self._checks.settings()

    def set(self, settings: CheckSettings) -> None:
        """Keeps what was set."""
        self._checks.set(settings)


def _cut_out(replayed: Replayed, rep: Mapping[str, object]) -> RepTrace:
    """One rep out of a whole set."""
    start_s, end_s = _seconds(rep, "start_s"), _seconds(rep, "end_s")
    trace = Trace.of(replayed.blocks)
    window = (trace.time_s >= start_s - AROUND_S) & (trace.time_s <= end_s + AROUND_S)
    time_s, force_n = _with_breaks(trace, window)
    lapses = rep["lapse_times_s"]
    entry_s = rep["entry_s"]
    return RepTrace(
        time_s=time_s,
        force_n=force_n,
        effort_n=judged_by(replayed.prescription, replayed.profile).effort(force_n),
        bands=tuple(replayed.bands),
        start_s=start_s,
        entry_s=None if entry_s is None else _seconds(rep, "entry_s"),
        hold_end_s=_seconds(rep, "hold_end_s"),
        end_s=end_s,
        lapses=tuple((left, back) for left, back in lapses),  # type: ignore[attr-defined]  # measures.rep wrote pairs
        measures=rep,
        profile=replayed.profile,
        prescription=replayed.prescription,
        marks=replayed.marks,
    )


def _seconds(rep: Mapping[str, object], key: str) -> float:
    value = rep[key]
    assert isinstance(value, float)  # noqa: S101  measures.rep wrote it
    return value


def _with_breaks(
    trace: Trace, window: npt.NDArray[np.bool_]
) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]:
    """The samples in `window`, with a NaN in each gap so that no line is drawn."""
    time_s, force_n = trace.time_s[window], trace.force_n[window]
    after_gap = np.flatnonzero(trace.gap[window])
    after_gap = after_gap[after_gap > 0]
    middle_s = (time_s[after_gap - 1] + time_s[after_gap]) / 2
    return (
        np.insert(time_s, after_gap, middle_s),
        np.insert(force_n, after_gap, np.nan, axis=0),
    )
