"""Isometric against eccentric peaks of everybody, out of the logbook.

The highest lowering peak of each day is paired with the isometric test of the partner
task that is nearest, with the same sides, within the days that are set for the check of
one athlete. An athlete with several days has several pairs, which are averaged later.
Codes alone go on, never names.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from biofeedback.logbook.people_tables import read_pairs
from biofeedback.session.local_time import day_of
from biofeedback.session.lowering import (
    EccentricChecks,
    nearest_test,
    peaks_of,
    with_peak,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping
    from datetime import date
    from pathlib import Path

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.lowerings import LoweringRow
    from biofeedback.logbook.people_tables import Pairs
    from biofeedback.measures.eccentric_check import CheckSettings, Part
    from biofeedback.training.task import Task


@dataclass(frozen=True, slots=True)
class GroupForces:
    """What the logbook has of a task.

    Attributes:
        results_n: by code, isometric and eccentric peaks, one of each for a pair.
        too_far: days with a lowering and no test of the partner within the days set.
    """

    results_n: Mapping[str, tuple[list[float], list[float]]]
    too_far: int


class GroupPairs:
    """The pairs of everybody.

    Raises (every method): `FileError` where the logbook cannot be read or written.

    Args:
        clock: gives now, with its time zone.
    """

    def __init__(
        self,
        logbook: Logbook,
        *,
        clock: Callable[[], datetime] = lambda: datetime.now().astimezone(),
    ) -> None:
        self._logbook = logbook
        self._clock = clock
        self._checks = EccentricChecks(logbook)

    def tasks(self) -> tuple[Task, ...]:
        """Lowering tasks that were done and name a partner, with their sides."""
        return tuple(task for task in self._logbook.lowerings.tasks() if task.pair)

    def settings(self) -> CheckSettings:
        """Days apart and lines, as they are set for the check of one athlete."""
        return self._checks.settings()

    def set(self, settings: CheckSettings) -> None:
        """Keeps what was set; the check of one athlete has it too."""
        self._checks.set(settings)

    def forces(self, task: Task, part: Part) -> GroupForces:
        """The pairs of a task.

        Args:
            task: one of `tasks`.
            part: of the peaks.
        """
        now = self._clock()
        codes = {one.id: one.code for one in self._logbook.athletes()}
        within = self.settings().within_days
        results: dict[str, tuple[list[float], list[float]]] = {}
        too_far = 0
        for athlete_id, days in _best_of_days(
            self._logbook.lowerings.of_everyone(task), now
        ).items():
            found = self._logbook.maxima.tests(athlete_id, task.pair, task.sides)
            tests = with_peak(found)
            for day, row in days.items():
                if not tests:
                    too_far += 1
                    continue
                test, apart = nearest_test(tests, day, now)
                if apart > within:
                    too_far += 1
                    continue
                isometric_n, eccentric_n = (
                    peaks.of(part) for peaks in peaks_of(test, row)
                )
                if isometric_n and eccentric_n and min(isometric_n, eccentric_n) > 0:
                    kinds = results.setdefault(codes[athlete_id], ([], []))
                    kinds[0].append(isometric_n)
                    kinds[1].append(eccentric_n)
        return GroupForces(results, too_far)


def table_of(path: Path) -> Pairs:
    """The pairs of a table, as the command reads it.

    Raises:
        FileError: names line and column of what does not fit.
    """
    return read_pairs(path)


def _best_of_days(
    rows: Iterable[LoweringRow], now: datetime
) -> dict[str, dict[date, LoweringRow]]:
    """By athlete and day, the rep with the highest peak."""
    best: dict[str, dict[date, LoweringRow]] = {}
    for row in rows:
        days = best.setdefault(row.athlete_id, {})
        day = day_of(row.started_utc, now)
        if day not in days or row.peak_n > days[day].peak_n:
            days[day] = row
    return best
