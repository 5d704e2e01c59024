"""The sets of one visit beside what its running orders planned."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.logbook.session_notes import ORDER
from biofeedback.measures.force_sense import Matched, force_sense
from biofeedback.phrase import joined, phrase
from biofeedback.session.order_record import OrderRecord
from biofeedback.session.same_names import told_apart
from biofeedback.session.task_keys import TaskKeys
from biofeedback.session.visit_facts import Amount, TaskLine
from biofeedback.training.events import Outcome
from biofeedback.training.prescription import BandOn, Prescription
from biofeedback.training.showing import Showing
from biofeedback.training.task import Sides, TaskKind
from biofeedback.training.task_names import task_words
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from biofeedback.logbook.done_reps import DoneRep
    from biofeedback.logbook.rows import SetRow
    from biofeedback.logbook.session_notes import SessionNote
    from biofeedback.phrase import Phrase
    from biofeedback.training.task import Task


# Looked up once: a report on years compares them thousands of times.
_COMPLETE, _UNSEEN = Outcome.COMPLETE.value, Showing.UNSEEN.value
_STOPPED = Outcome.STOPPED.value


LineKey = tuple[str, Sides, bool]
"""What tells the line of a set from others: task, sides, and whether it warms up."""


@dataclass(frozen=True, slots=True)
class _Begun:
    """A set that was begun.

    Attributes:
        in_order: whether it was begun for a running order.
        runs: its rows; more than one where it was begun anew.
    """

    asked: Prescription
    key: LineKey
    in_order: bool
    runs: list[SetRow]


class VisitSets:
    """The sets of a visit, and the legs they were begun for.

    A set of the desk that was broken off and begun anew with the same prescription is
    one set, asked for once; what was done in each of its runs counts.
    """

    def __init__(
        self,
        rows: Sequence[SetRow],
        orders: Sequence[PlannedOrder],
        reps: Iterable[DoneRep] = (),
    ) -> None:
        self.rows = rows
        self._reps: dict[str, list[DoneRep]] = {}
        for rep in reps:
            self._reps.setdefault(rep.set_id, []).append(rep)
        self._orders = orders
        self._asked = {row.id: asked_of(row) for row in rows}
        asked = [one for one in self._asked.values() if one is not None]
        self._tasks = TaskKeys(
            (one.task.key, one.task.name)
            for one in (*(leg for order in orders for leg, _ in order.planned), *asked)
        )
        self._warm = {one for order in orders for one in order.warm_ups}
        self._in_order = {one for order in orders for one in order.set_ids}
        self._titles = {row.id: _title(self._asked[row.id], row) for row in rows}
        self._begun = self._in_runs()
        self._names = self._numbered()

    @property
    def tests(self) -> tuple[str, ...]:
        """Maximal tests, by name."""
        return told_apart(
            self._titles[row.id]
            for row in self.rows
            if (asked := self._asked[row.id]) and asked.task.kind is TaskKind.MAXIMAL
        )

    def name(self, set_id: object) -> str:
        """A set for people: its number in its line, and which where there are more.

        Empty where it is not known.
        """
        return self._names.get(str(set_id), "")

    def title(self, set_id: object) -> str:
        """Task and sides of a set; empty where it is not known."""
        return self._titles.get(str(set_id), "")

    def reference_n(self, set_id: object) -> float | None:
        """The 100 % of a set."""
        asked = self._asked.get(str(set_id))
        return asked.reference.force_n if asked and asked.reference else None

    def task_of(self, planned_key: str, task_id: str, sides: Sides) -> str | None:
        """Name of the task of a decision, where a set of it was done."""
        for row in self.rows:
            same = planned_key == row.planned_key if planned_key else False
            if (same or (task_id and task_id == row.task_id)) and row.sides == (
                sides.value
            ):
                return row.task
        return None

    def _in_runs(self) -> list[_Begun]:
        """Each set with its runs."""
        found: list[_Begun] = []
        last: dict[LineKey, list[SetRow]] = {}
        for row in self.rows:
            asked = self._asked[row.id]
            if asked is None or asked.task.kind is TaskKind.MAXIMAL:
                continue
            key = self._line_key(asked.task, warm_up=row.id in self._warm)
            in_order = row.id in self._in_order
            before = None if in_order else last.get(key)
            if before and self._begun_anew(before[-1], asked):
                before.append(row)
                continue
            found.append(_Begun(asked, key, in_order, [row]))
            if not in_order:
                last[key] = found[-1].runs
        return found

    def _begun_anew(self, before: SetRow, asked: Prescription) -> bool:
        """Whether a set before was broken off and asked for the same."""
        done = self._reps.get(before.id, [])
        stopped = bool(done) and done[-1].outcome == _STOPPED
        return self._asked[before.id] == asked and (stopped or len(done) < asked.reps)

    def _numbered(self) -> dict[str, str]:
        """Sets by the number that they have in the line of their task."""
        counts: Counter[LineKey] = Counter()
        several = len({begun.key for begun in self._begun}) > 1
        names: dict[str, str] = {}
        for begun in self._begun:
            counts[begun.key] += 1
            _, _, warm_up = begun.key
            words = _set_words(counts[begun.key], warm_up=warm_up)
            for row in begun.runs:
                title = self._titles[row.id]
                names[row.id] = joined(": ", (words, title)) if several else words
        return names

    @property
    def lines(self) -> tuple[TaskLine, ...]:
        """Planned beside done."""
        found: dict[LineKey, TaskLine] = {}
        unseen: dict[LineKey, list[Matched]] = {}

        def add(asked: Prescription, key: LineKey, **more: Amount | int) -> None:
            task_key, sides, warm_up = key
            known = task_key != asked.task.name
            line = found.get(key) or TaskLine(
                self._tasks.name(task_key) if known else asked.task.name,
                sides,
                warm_up,
                task_key=task_key if known else "",
            )
            sums = {name: getattr(line, name) + value for name, value in more.items()}
            found[key] = replace(line, **sums)

        for order in self._orders:
            for asked, warm_up in order.planned:
                key = self._line_key(asked.task, warm_up=warm_up)
                add(asked, key, planned=planned_amount(asked))
        for begun in self._begun:
            asked, key = begun.asked, begun.key
            if not begun.in_order:
                add(asked, key, planned=planned_amount(asked))
            done = [self._reps.get(row.id, []) for row in begun.runs]
            add(asked, key, **_done(done, asked))
            for run in done:
                unseen.setdefault(key, []).extend(_unseen(run, asked))
        return tuple(
            replace(line, sense=force_sense(unseen.get(key, ())))
            for key, line in found.items()
        )

    def _line_key(self, task: Task, *, warm_up: bool) -> LineKey:
        return self._tasks.key(task.key, task.name), task.sides, warm_up


@dataclass(frozen=True, slots=True)
class PlannedOrder:
    """What a running order planned, and the sets begun for it."""

    planned: tuple[tuple[Prescription, bool], ...]
    set_ids: tuple[str, ...]
    warm_ups: tuple[str, ...]


def orders_of(notes: Iterable[SessionNote], session_id: str) -> list[PlannedOrder]:
    """Each running order of the visit: its first record planned, its last one begun."""
    first: dict[str, OrderRecord] = {}
    last: dict[str, OrderRecord] = {}
    for note in notes:
        if note.kind != ORDER:
            continue
        try:
            record = OrderRecord.from_json(
                Fields(note.content, "order"), session_id=session_id
            )
        except FieldError:
            continue  # of another version; its sets count as sets of the desk
        first.setdefault(record.key, record)
        last[record.key] = record
    return [
        PlannedOrder(
            planned=tuple((leg.asked, leg.warm_up) for leg in record.order.legs),
            set_ids=tuple(one.set_id for one in last[key].begun),
            warm_ups=tuple(one.set_id for one in last[key].begun if one.warm_up),
        )
        for key, record in first.items()
    ]


def planned_amount(asked: Prescription) -> Amount:
    """One set as it is asked for; see the head of this module."""
    inside_s = asked.reps * asked.hold_s
    dose = None
    if asked.reference is not None:
        # With a band on each side, the dose that is measured is that of both.
        both = 2 if asked.band_on is BandOn.EACH_SIDE else 1
        pct = 100 * asked.band.centre_n / asked.reference.force_n
        dose = both * pct * inside_s
    return Amount(1, asked.reps, inside_s, dose)


def _done(
    runs: Sequence[Sequence[DoneRep]], asked: Prescription
) -> dict[str, Amount | int]:
    """What was done in one set, over its runs; it is whole where one of them is."""
    reps = [rep for run in runs for rep in run]
    counting = [rep for rep in reps if not rep.void]
    by_run = [sum(r.outcome == _COMPLETE and not r.void for r in run) for run in runs]
    complete = sum(by_run)
    doses = [rep.dose_pct_s for rep in counting]
    known = [dose for dose in doses if dose is not None]
    whole = asked.reference is not None and len(known) == len(doses)
    done = Amount(
        1 if counting else 0,
        complete,
        sum(rep.inside_s or 0.0 for rep in counting),
        sum(known) if whole or not counting else None,
    )
    return {
        "done": done,
        "not_complete": len(counting) - complete,
        "void": len(reps) - len(counting),
        "part_sets": int(bool(counting) and max(by_run) < asked.reps),
        "begun_anew": len(runs) - 1,
    }


def _unseen(reps: Sequence[DoneRep], asked: Prescription) -> Iterator[Matched]:
    """The unseen reps of a set that count, where the band has one centre."""
    if asked.band_on is BandOn.EACH_SIDE:
        return  # the median is of the total, the band of a side
    for rep in reps:
        lower_n, upper_n, matched_n = rep.band_lower_n, rep.band_upper_n, rep.median_n
        if lower_n is None or upper_n is None or matched_n is None:
            continue
        if rep.feedback == _UNSEEN and not rep.void:
            yield Matched(matched_n, (lower_n + upper_n) / 2)


def asked_of(row: SetRow) -> Prescription | None:
    """What a set asked for at its begin; None where that cannot be read."""
    return _read(json.dumps(row.prescription))


@lru_cache(maxsize=512)
def _read(content: str) -> Prescription | None:
    """Over years hundreds of sets ask for the same, and reading takes its time."""
    try:
        return Prescription.from_json(Fields(json.loads(content), "prescription"))
    except FieldError:
        return None


def _set_words(number: int, *, warm_up: bool) -> Phrase:
    if warm_up:
        return phrase("warm-up set {number}", number=number)
    return phrase("set {number}", number=number)


def _title(asked: Prescription | None, row: SetRow) -> str:
    if asked is None or asked.task.sides is Sides.BOTH:
        task = task_words(row.task)
        return phrase("{task}, both sides", task=task) if asked else task
    return joined(", ", (task_words(row.task), asked.task.sides.value))
