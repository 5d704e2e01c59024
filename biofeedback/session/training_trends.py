"""Training over the sessions: what was asked, what was held, and how steadily.

Only like stands in one trend: the same task, sides, position and feedback, in holds,
and the same 100 %: a share of a peak is none of a best mean, nor is one of the other
side's best, of another task's or of a typed number one of the own best.
A rep that was unseen never stands beside one that was seen. Void reps are out, and so
is the warm-up. Each point is one visit; a day without one is no zero, it has no point.

The share that was held is of the reference that was in force on that day; the reference
itself is in each point, so that a change of it is seen as such.
"""

from __future__ import annotations

import statistics
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

from biofeedback.measures.critical_force import (
    CriticalForce,
    HoldToFailure,
    critical_force,
)
from biofeedback.measures.visit_noise import VisitNoise, visit_noise
from biofeedback.session.visit_sets import asked_of
from biofeedback.session.whose_reference import whose_reference
from biofeedback.training.events import Outcome
from biofeedback.training.prescription import BandOn
from biofeedback.training.task import Setup, Sides, TaskKind

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence
    from datetime import date, datetime

    from biofeedback.logbook.done_reps import DoneRep
    from biofeedback.logbook.history import Source
    from biofeedback.logbook.rows import SetRow
    from biofeedback.session.task_keys import TaskKeys
    from biofeedback.session.whose_reference import Whose
    from biofeedback.training.prescription import Prescription
    from biofeedback.training.reference import Definition, Origin

_COMPLETE, _SHORT = Outcome.COMPLETE.value, Outcome.SHORT.value
FAILURE_LEAST_S = 60.0
"""A shorter hold that was let go early need not have been held until it failed."""
OPEN_ENDED_LEAST_S = 300.0
"""Who asks for a hold of five minutes or more means “as long as you can”; a shorter
one that was let go may have ended for any reason. A choice of ours."""
FAILURE_WITHIN_DAYS = 14
"""Holds further apart are of an athlete who may have changed. A choice of ours."""


@dataclass(frozen=True, slots=True)
class Kind:
    """What must be the same in one trend.

    Attributes:
        key: of the task; its name where it has none.
        definition: which number of a test is the 100 %; None without a reference.
        origin: where the 100 % is from; None without a reference.
        whose: a foreign 100 %; None where it is the set's own.
        task: its newest name, which tells nothing apart.
    """

    key: str
    sides: Sides
    setup: Setup | None
    feedback: str
    definition: Definition | None
    origin: Origin | None = None
    whose: Whose | None = None
    task: str = field(default="", compare=False)


@dataclass(frozen=True, slots=True)
class TrainingPoint:
    """One visit. None where a number cannot be had, such as without a reference.

    Attributes:
        reps: that count.
        complete: of these.
        reference_n: of the last set of the visit.
        asked_pct: mean centre of the band, as it stood at the end of each rep.
        width_pct: mean width of the band: time in a wider one says less.
        held_pct: mean of the reps' mean force.
        in_band_pct: time in the band, of the time below, in and above it; out of
            balance, where balance was asked, is not in it.
        cv_pct: median of the reps' CV, with the slow drift taken out.
        slope_pct_s: mean slope within the holds, % of the reference a second.
        fall_pct: how much less the last rep of a set held than its first, mean over
            the visit's sets; above zero is a fall. A set whose band was moved between
            them tells of none: less was held because less was asked.
        dose_pct_s, dose_ns: sums.
        nudges: changes of the band.
    """

    day: date
    session_id: str
    reps: int
    complete: int
    reference_n: float | None
    asked_pct: float | None
    width_pct: float | None
    held_pct: float | None
    in_band_pct: float | None
    cv_pct: float | None
    slope_pct_s: float | None
    fall_pct: float | None
    dose_pct_s: float | None
    dose_ns: float
    nudges: int


@dataclass(frozen=True, slots=True)
class FailedHold:
    """An open-ended hold that was let go.

    Attributes:
        number: of the rep in its set.
        time_s: from the begin of the rep to its end.
    """

    day: date
    number: int
    time_s: float
    impulse_ns: float


@dataclass(frozen=True, slots=True)
class TrainingTrend:
    """One kind of work over the visits, oldest first.

    Attributes:
        noise: by the name of the attribute of `TrainingPoint`; what is not in it
            cannot be told yet. Of what was held it is that of its distance from what
            was asked, since the band itself is moved from visit to visit.
        failure: from `failed`; None where these are too few or too alike.
        failed: the holds to failure that may stand on one line.
    """

    kind: Kind
    points: tuple[TrainingPoint, ...]
    noise: Mapping[str, VisitNoise]
    failure: CriticalForce | None = None
    failed: tuple[FailedHold, ...] = ()


@dataclass(frozen=True, slots=True)
class _Set:
    row: SetRow
    asked: Prescription
    reps: list[DoneRep]
    nudges: int = 0


def training_trends(
    sets: Iterable[SetRow],
    reps: Iterable[DoneRep],
    *,
    nudged: Mapping[str, Sequence[float | None]],
    warm_ups: frozenset[str],
    painful: frozenset[str] = frozenset(),
    tasks: TaskKeys,
    sources: Mapping[str, Source] = MappingProxyType({}),
    day_of: Callable[[datetime], date],
) -> tuple[TrainingTrend, ...]:
    """One trend for each kind of work, that of most visits first.

    Args:
        sets: oldest first.
        reps: in the order of their sets.
        nudged: when the band of a set was changed, by the key of the set.
        warm_ups: keys of sets that were a warm-up.
        painful: keys of sets in which pain above the agreed cut was told: a hold that
            was let go in one says nothing of failure.
        tasks: tells which sets are of one task.
        sources: tests and stated forces that a 100 % was taken from, by their key.
        day_of: the day of a moment, where the athlete is.
    """
    by_set: dict[str, list[DoneRep]] = {}
    for rep in reps:
        if not rep.void:
            by_set.setdefault(rep.set_id, []).append(rep)
    visits: dict[Kind, dict[str, list[_Set]]] = {}
    for row in sets:
        done = by_set.get(row.id)
        if not done or row.id in warm_ups:
            continue
        asked = asked_of(row)
        if asked is None or asked.task.kind is not TaskKind.HOLD:
            continue
        for feedback in dict.fromkeys(rep.feedback for rep in done):
            kind = _kind(asked, feedback, tasks, sources)
            same = [rep for rep in done if rep.feedback == feedback]
            own = visits.setdefault(kind, {}).setdefault(row.session_id, [])
            nudges = _nudges(nudged.get(row.id, ()), done, feedback)
            own.append(_Set(row, asked, same, nudges))
    found = [
        _trend(
            kind,
            [
                _point(session_id, held, day_of(held[0].row.started_utc))
                for session_id, held in by_visit.items()
            ],
            [
                one
                for held in by_visit.values()
                for one in held
                if one.row.id not in painful
            ],
            day_of,
        )
        for kind, by_visit in visits.items()
    ]
    return tuple(sorted(found, key=lambda one: -len(one.points)))


def _kind(
    asked: Prescription, feedback: str, tasks: TaskKeys, sources: Mapping[str, Source]
) -> Kind:
    task, reference = asked.task, asked.reference
    key = tasks.key(task.key, task.name)
    return Kind(
        key,
        task.sides,
        task.setup,
        feedback,
        definition=reference.definition if reference else None,
        origin=reference.origin if reference else None,
        whose=whose_reference(reference, task, tasks, sources),
        task=tasks.name(key),
    )


def _nudges(
    times_s: Sequence[float | None], done: Sequence[DoneRep], feedback: str
) -> int:
    """How many changes of the band belong to the reps of one kind of feedback.

    A change belongs to the rep in which it was made, else to the next one, which it is
    the band of; after the last rep, or without a time, to the last one.
    """
    count = 0
    for time_s in times_s:
        after = (rep for rep in done if time_s is not None and rep.end_s >= time_s)
        count += next(after, done[-1]).feedback == feedback
    return count


def _point(session_id: str, sets: Sequence[_Set], day: date) -> TrainingPoint:
    reps = [rep for one in sets for rep in one.reps]
    inside_s = sum(rep.inside_s or 0.0 for rep in reps)
    told_s = inside_s + sum(
        (rep.below_s or 0.0) + (rep.above_s or 0.0) + (rep.unbalanced_s or 0.0)
        for rep in reps
    )
    reference = sets[-1].asked.reference
    edges_pct = list(_edges_pct(sets))
    doses = [rep.dose_pct_s for rep in reps]
    known = [dose for dose in doses if dose is not None]
    return TrainingPoint(
        day=day,
        session_id=session_id,
        reps=len(reps),
        complete=sum(rep.outcome == _COMPLETE for rep in reps),
        reference_n=reference.force_n if reference else None,
        asked_pct=_mean((lower + upper) / 2 for lower, upper in edges_pct),
        width_pct=_mean(upper - lower for lower, upper in edges_pct),
        held_pct=_mean(_shares(sets, lambda rep: rep.mean_n)),
        in_band_pct=100 * inside_s / told_s if told_s > 0 else None,
        cv_pct=_median(rep.cv_detrended_pct for rep in reps),
        slope_pct_s=_mean(_shares(sets, lambda rep: rep.slope_n_per_s)),
        fall_pct=_mean(map(_fall_pct, sets)),
        dose_pct_s=sum(known) if len(known) == len(doses) else None,
        dose_ns=sum(rep.impulse_ns or 0.0 for rep in reps),
        nudges=sum(one.nudges for one in sets),
    )


def _edges_pct(sets: Iterable[_Set]) -> Iterable[tuple[float, float]]:
    """Edges of the band of each rep in % of the reference of its set."""
    for one in sets:
        # The force that is measured is the total, also with a band on each side.
        both = 2 if one.asked.band_on is BandOn.EACH_SIDE else 1
        for rep in one.reps:
            lower_n, upper_n = rep.band_lower_n, rep.band_upper_n
            reference = one.asked.reference
            if reference and lower_n is not None and upper_n is not None:
                scale = 100 * both / reference.force_n
                yield scale * lower_n, scale * upper_n


def _shares(
    sets: Iterable[_Set], of: Callable[[DoneRep], float | None]
) -> Iterable[float]:
    """A force of each rep in % of the reference of its set."""
    for one in sets:
        reference = one.asked.reference
        for rep in one.reps:
            force_n = of(rep)
            if reference is not None and force_n is not None:
                yield 100 * force_n / reference.force_n


def _fall_pct(one: _Set) -> float | None:
    """How much less the last rep held than the first, in % of the reference."""
    held = [rep for rep in one.reps if rep.mean_n is not None]
    if one.asked.reference is None or len(held) < 2:
        return None
    first, last = held[0], held[-1]
    edges_n = {(rep.band_lower_n, rep.band_upper_n) for rep in (first, last)}
    if first.mean_n is None or last.mean_n is None or len(edges_n) > 1:
        return None
    return 100 * (first.mean_n - last.mean_n) / one.asked.reference.force_n


def _trend(
    kind: Kind,
    points: list[TrainingPoint],
    sets: Iterable[_Set],
    day_of: Callable[[datetime], date],
) -> TrainingTrend:
    noise = {
        name: found
        for name in ("in_band_pct", "cv_pct", "slope_pct_s", "fall_pct")
        if (found := visit_noise(_known(getattr(one, name) for one in points)))
    }
    apart = visit_noise(
        [
            one.held_pct - one.asked_pct
            for one in points
            if one.held_pct is not None and one.asked_pct is not None
        ]
    )
    if apart is not None:
        noise["held_pct"] = apart
    failed = _of_one_span(_to_failure(sets, day_of))
    holds = [HoldToFailure(one.time_s, one.impulse_ns) for one in failed]
    return TrainingTrend(kind, tuple(points), noise, critical_force(holds), failed)


def _to_failure(
    sets: Iterable[_Set], day_of: Callable[[datetime], date]
) -> Iterable[FailedHold]:
    """Long open-ended holds that were let go: what the program can take for failure."""
    for one in sets:
        if one.asked.hold_s < OPEN_ENDED_LEAST_S:
            continue
        for rep in one.reps:
            time_s = rep.end_s - rep.start_s
            short = rep.outcome == _SHORT and time_s >= FAILURE_LEAST_S
            if short and rep.impulse_ns is not None and rep.impulse_ns > 0:
                day = day_of(one.row.started_utc)
                yield FailedHold(day, rep.number, time_s, rep.impulse_ns)


def _of_one_span(holds: Iterable[FailedHold]) -> tuple[FailedHold, ...]:
    """Those of the newest day and the days shortly before it."""
    found = tuple(holds)
    if not found:
        return ()
    newest = max(one.day for one in found)
    return tuple(one for one in found if (newest - one.day).days < FAILURE_WITHIN_DAYS)


def _known(values: Iterable[float | None]) -> list[float]:
    return [value for value in values if value is not None]


def _mean(values: Iterable[float | None]) -> float | None:
    known = _known(values)
    return statistics.fmean(known) if known else None


def _median(values: Iterable[float | None]) -> float | None:
    known = _known(values)
    return statistics.median(known) if known else None
