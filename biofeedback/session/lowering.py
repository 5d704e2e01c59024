"""Lowering reps of one athlete: the default floor, the line after a rep, the check.

* The floor starts at the isometric peak of the paired task: the best of today's tests,
  else the latest test. Where there is none it is said what is missing, and a floor can
  still be typed.
* The check holds the highest lowering peak of a day against the isometric test that is
  nearest in days, with the same sides. One side alone is never held against both.
* Days are those of the clock on the wall: of the time zone of `now`.
* What can be set is kept with the logbook.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.measures.change import Whose, typical_error
from biofeedback.measures.eccentric_check import (
    CheckSettings,
    Part,
    Peaks,
    difference_noise_n,
    eccentric_check,
)
from biofeedback.measures.symmetry import share_pct
from biofeedback.phrase import phrase
from biofeedback.session.local_time import day_of, midnight_of
from biofeedback.training.events import Outcome
from biofeedback.training.lowering import LoweringRep, rep_line
from biofeedback.training.prescription import BandOn
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Sides
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from datetime import date

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.lowerings import LoweringRow
    from biofeedback.logbook.maxima import MaximalTestRow
    from biofeedback.measures.eccentric_check import EccentricCheck
    from biofeedback.training.athlete import BodyMass
    from biofeedback.training.lowering import RepLine, SignLimits
    from biofeedback.training.prescription import Prescription
    from biofeedback.training.task import Task

FLOOR_PCT = 100.0
"""The floor starts at the isometric peak itself; lower where that is too much."""
SETTING = "eccentric check"


# The floor -----------------------------------------------------------------------


class PairMissing(Enum):
    """Why there is no isometric peak of the partner."""

    NO_PAIR = phrase("the task names no isometric partner")
    NOT_TESTED = phrase("the partner was not tested with these sides")


@dataclass(frozen=True, slots=True)
class Floor:
    """A floor from the isometric peak of the paired task.

    Attributes:
        reference: the isometric peak, dated.
        pct: of it.
        task: name of the task that was tested.
        same_day: whether it is of today; `age_days` is 0 then.
    """

    reference: Reference
    pct: float
    task: str
    same_day: bool
    age_days: int

    def force_n(self, band_on: BandOn) -> float:
        """The floor; for each of two sides half of that for both together."""
        whole_n = self.reference.force_n * self.pct / 100
        return whole_n / 2 if band_on is BandOn.EACH_SIDE else whole_n


def default_floor(
    logbook: Logbook,
    athlete_id: str,
    task: Task,
    *,
    now: datetime,
    pct: float = FLOOR_PCT,
) -> Floor | PairMissing:
    """The floor that a lowering task starts with.

    Args:
        task: with the sides that work.
        now: with its time zone.
        pct: of the isometric peak.

    Raises:
        FieldError: the percentage is none.
        FileError: the logbook cannot be read.
    """
    if not 1 <= pct <= 300:
        raise FieldError(
            "floor_pct", phrase("is {pct:g}; it must be 1 % to 300 %.", pct=pct)
        )
    if not task.pair:
        return PairMissing.NO_PAIR
    tests = with_peak(logbook.maxima.tests(athlete_id, task.pair, task.sides))
    if not tests:
        return PairMissing.NOT_TESTED
    today = now.date()
    of_today = [test for test in tests if _day(test, now) == today]
    test = max(of_today, key=_peak_n) if of_today else tests[0]
    reference = Reference(
        _peak_n(test),
        Origin.OTHER_TASK,
        Definition.PEAK,
        _day(test, now).isoformat(),
        practice=test.practice,
        pain=test.pain,
        setup=test.setup,
        source=test.id,
        task=task,
    )
    age_days = (today - _day(test, now)).days
    return Floor(reference, pct, test.task, bool(of_today), age_days)


# The line after a rep --------------------------------------------------------------


def line_after(
    rep: Mapping[str, object],
    prescription: Prescription,
    limits: SignLimits | None = None,
) -> RepLine | None:
    """What is said of a rep that has been measured; None for another kind of task.

    Args:
        rep: its numbers, as the event or the logbook has them.

    Raises:
        FieldError: the numbers are none of a rep.
    """
    if "above_floor_s" not in rep:
        return None
    fields = Fields(rep, "rep")

    def optional(name: str) -> float | None:
        return fields.number(name) if fields.has(name) else None

    left_n, right_n = optional("left_at_peak_n"), optional("right_at_peak_n")
    sides = left_n is not None and right_n is not None
    tempo_s = optional("asked_hold_s") or prescription.hold_s
    return rep_line(
        LoweringRep(
            floor_n=fields.number("band_lower_n"),
            tempo_s=tempo_s,
            peak_n=optional("lowering_peak_n"),
            peak_after_s=optional("lowering_peak_after_s"),
            above_s=fields.number("above_floor_s"),
            above_ns=fields.number("above_floor_ns"),
            entry_after_s=optional("time_to_enter_s"),
            break_after_s=optional("break_after_s"),
            break_force_n=optional("break_force_n"),
            fall_n_per_s=optional("fall_n_per_s"),
            stopped=fields.choice("outcome", Outcome) is Outcome.STOPPED,
            gaps=fields.whole("gaps", least=0, most=10**9),
            left_share_pct=share_pct(left_n or 0.0, right_n or 0.0) if sides else None,
            floor_each=prescription.band_on is BandOn.EACH_SIDE,
        ),
        limits,
    )


# The check ---------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Paired:
    """The best lowering rep of a day and the isometric test nearest to it.

    Attributes:
        isometric: None where `missing` says why.
        check: the numbers; None likewise.
        day, isometric_day: of the two, by the clock on the wall.
        line: what is said of the lowering rep itself.
    """

    eccentric: LoweringRow
    day: date
    line: RepLine | None
    isometric: MaximalTestRow | None
    check: EccentricCheck | None
    missing: PairMissing | None = None
    isometric_day: date | None = None


class EccentricChecks:
    """The checks of an athlete's days.

    Raises (every method): `FileError` where the logbook cannot be read or written.

    Args:
        logbook: where reps, tests and settings are.
    """

    def __init__(self, logbook: Logbook) -> None:
        self._logbook = logbook

    def settings(self) -> CheckSettings:
        """What is set; the starting values where nothing was or it cannot be read."""
        kept = self._logbook.settings.get(SETTING)
        if not isinstance(kept, dict):
            return CheckSettings()
        try:
            return CheckSettings.from_json(Fields(kept, SETTING))
        except FieldError:  # of another version: the starting values are safe
            return CheckSettings()

    def set(self, settings: CheckSettings) -> None:
        """Keeps what was set."""
        self._logbook.settings.put(SETTING, settings.to_json())

    def of_day(
        self, athlete_id: str, day: date, *, now: datetime
    ) -> tuple[Paired, ...]:
        """One for each lowering task and side that was done that day, newest first.

        Args:
            now: gives the time zone of the day.
        """
        settings = self.settings()
        begins = midnight_of(day, now)
        rows = self._logbook.lowerings.reps(
            athlete_id, since=begins, until=midnight_of(day + timedelta(days=1), now)
        )
        mass = self._logbook.people.mass(athlete_id, on=day.isoformat())
        best: dict[tuple[str, Sides], LoweringRow] = {}
        for row in rows:
            known = (row.task.key or row.task.name, row.task.sides)
            if known not in best or row.peak_n > best[known].peak_n:
                best[known] = row
        return tuple(
            self._paired(row, day, now, settings, mass) for row in best.values()
        )

    def _paired(
        self,
        row: LoweringRow,
        day: date,
        now: datetime,
        settings: CheckSettings,
        mass: BodyMass | None,
    ) -> Paired:
        task = row.task
        line = line_after(row.measures, row.asked)
        if not task.pair:
            return Paired(row, day, line, None, None, PairMissing.NO_PAIR)
        maxima = self._logbook.maxima
        tests = with_peak(maxima.tests(row.athlete_id, task.pair, task.sides))
        if not tests:
            return Paired(row, day, line, None, None, PairMissing.NOT_TESTED)

        test, apart = nearest_test(tests, day, now)
        isometric, eccentric = peaks_of(test, row)
        check = eccentric_check(
            isometric,
            eccentric,
            days_apart=apart,
            settings=settings,
            noise_n=self._noise_n(row, test),
            mass=mass,
        )
        return Paired(row, day, line, test, check, isometric_day=_day(test, now))

    def _noise_n(self, row: LoweringRow, test: MaximalTestRow) -> dict[Part, float]:
        """Of the totals, from the athlete's own earlier visits."""
        isometric_n = self._logbook.maxima.results(
            row.athlete_id,
            row.task.pair,
            row.task.sides,
            Definition.PEAK,
            setup=test.setup,
        )
        eccentric_n = self._logbook.lowerings.results(
            row.task, athlete_id=row.athlete_id
        )
        isometric, eccentric = (
            typical_error([results_n], whose=Whose.OWN)
            for results_n in (isometric_n, eccentric_n)
        )
        found = difference_noise_n(isometric, eccentric)
        return {} if found is None else {Part.TOTAL: found}


def nearest_test(
    tests: Iterable[MaximalTestRow], day: date, now: datetime
) -> tuple[MaximalTestRow, int]:
    """The test of the nearest day, before rather than after, with the highest peak.

    Args:
        tests: one at least, each with a peak; see `with_peak`.
        now: gives the time zone of the days.

    Returns:
        The test, and how many days apart.
    """

    def order(test: MaximalTestRow) -> tuple[int, bool, float]:
        apart = (_day(test, now) - day).days
        return abs(apart), apart > 0, -_peak_n(test)

    test = min(tests, key=order)
    return test, order(test)[0]


def peaks_of(test: MaximalTestRow, row: LoweringRow) -> tuple[Peaks, Peaks]:
    """Isometric and eccentric peak with their sides."""
    one_side = row.task.sides is not Sides.BOTH
    left_n, right_n = _sides_at_peak(test)
    return (
        Peaks(_peak_n(test), left_n, right_n, one_side),
        Peaks(row.peak_n, row.left_n, row.right_n, one_side),
    )


def with_peak(tests: Iterable[MaximalTestRow]) -> list[MaximalTestRow]:
    """Those of which the peak is known."""
    return [test for test in tests if test.force_by(Definition.PEAK) is not None]


def _peak_n(test: MaximalTestRow) -> float:
    peak_n = test.force_by(Definition.PEAK)
    assert peak_n is not None  # noqa: S101  see _with_peak
    return peak_n


def _day(test: MaximalTestRow, now: datetime) -> date:
    return day_of(test.tested_utc, now)


def _sides_at_peak(test: MaximalTestRow) -> tuple[float | None, float | None]:
    """Left and right at the peak, from the trial that had it."""
    if test.definition is Definition.PEAK:
        return test.left_n, test.right_n
    trials = test.content.get("trials")
    for trial in trials if isinstance(trials, list) else ():
        peak = trial.get("peak") if isinstance(trial, dict) else None
        if not isinstance(peak, dict) or peak.get("total_n") != test.peak_n:
            continue
        left_n, right_n = peak.get("left_n"), peak.get("right_n")
        if isinstance(left_n, float) and isinstance(right_n, float):
            return left_n, right_n
    return None, None
