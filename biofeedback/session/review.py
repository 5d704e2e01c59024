"""The library: saved reps and their force, for looking at them again.

Reps are read from their recordings by the replay, so that what is drawn is what was
judged. What is changed by hand, a marker or a void, is kept in the logbook in rows of
its own; the recording and the rep stay as they are.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.errors import FieldError, FileError
from biofeedback.logbook.listing import RepKind, RepsWanted
from biofeedback.logbook.maxima import SET_ID
from biofeedback.logbook.rep_changes import placed
from biofeedback.logbook.rows import REPS_MAX
from biofeedback.logbook.session_notes import taken_back_in
from biofeedback.measures.by_hand import Markers, moved
from biofeedback.measures.cells import Cells
from biofeedback.measures.rep import measure
from biofeedback.measures.trace import Trace
from biofeedback.phrase import phrase
from biofeedback.session.lowering import EccentricChecks
from biofeedback.session.rep_extras import extras, per_body
from biofeedback.session.replay import Replayed, SavedMark, replay, slipped
from biofeedback.training.conductor import judged_by
from biofeedback.training.events import Lapse, Outcome, RepRecord
from biofeedback.training.task_names import task_words
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime
    from pathlib import Path

    import numpy.typing as npt

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.rep_changes import MarkerMove
    from biofeedback.logbook.rows import RepRow
    from biofeedback.measures.eccentric_check import CheckSettings
    from biofeedback.session.lowering import Paired
    from biofeedback.training.band import Band
    from biofeedback.training.crossings import Judged
    from biofeedback.training.prescription import Prescription

__all__ = ["DayChecks", "Library", "RepKind", "RepTrace", "RepsWanted"]
"""What is listed is told in the words of the logbook's own list."""

ONSET, ENTRY, HOLD_END = "onset", "entry", "hold end"
MARKERS = (ONSET, ENTRY, HOLD_END)
_NAMES = {ONSET: "onset", ENTRY: "entry", HOLD_END: "hold_end"}
PAGE = 200
SETS_KEPT = 3
"""Opening another rep of a set that was just open costs nothing."""
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
        automatic: the times that the rules found.
        by_hand: names of the markers that were moved.
        trace: the same force with what is known of each sample.
        judged: which channels the band applied to.
        record: the rep as the rules saw it.
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
    automatic: Markers
    trace: Trace
    judged: Judged
    record: RepRecord
    marks: tuple[SavedMark, ...] = ()
    by_hand: tuple[str, ...] = ()

    @property
    def markers(self) -> Markers:
        """The times as they stand."""
        return Markers(self.start_s, self.entry_s, self.hold_end_s)


class Library:
    """What the review page reads.

    Args:
        recordings: folder of the recordings.
    """

    def __init__(self, logbook: Logbook, recordings: Path) -> None:
        self._logbook = logbook
        self._recordings = recordings
        self._latest: deque[Replayed] = deque(maxlen=SETS_KEPT)

    def reps(
        self,
        *,
        athlete_code: str | None = None,
        wanted: RepsWanted | None = None,
        limit: int = PAGE,
        older_than: RepRow | None = None,
    ) -> tuple[RepRow, ...]:
        """A page of saved reps, newest first.

        Args:
            athlete_code: of whom; None for all.
            wanted: which of them; None for all.
            older_than: the last row of the page before.
        """
        return tuple(
            self._logbook.reps(
                athlete_code=athlete_code,
                wanted=wanted,
                limit=limit,
                older_than=older_than,
            )
        )

    def tasks(self, *, athlete_code: str | None = None) -> tuple[str, ...]:
        """Names of the tasks that sets were done of."""
        return self._logbook.tasks_done(athlete_code=athlete_code)

    def trace(self, row: RepRow) -> RepTrace:
        """The force of a rep, read again from its recording.

        Its times and measures are those that stand: of the rules, or by hand.

        Raises:
            FileError: the recording is gone, or the rep is not in it.
        """
        path = self._recordings / row.recording
        replayed = next((one for one in self._latest if one.path == path), None)
        if replayed is None:
            replayed = replay(path, keep_blocks=True)
            self._latest.append(replayed)
        for rep in replayed.reps:
            if rep["number"] == row.number:
                trace = self._placed(row, rep_trace(replayed, rep))
                return replace(trace, marks=self._marks(row, trace.marks))
        raise FileError(
            path, phrase("rep {number} is not in this recording.", number=row.number)
        )

    def _marks(
        self, row: RepRow, marks: tuple[SavedMark, ...]
    ) -> tuple[SavedMark, ...]:
        """With what was said after the set, which no recording of it can hold."""
        told = self._logbook.session_notes.pain(row.session_id)
        back = taken_back_in(told, row.set_id)
        if len(back) != sum(mark.level is not None for mark in marks):
            return marks  # a note did not come into the logbook, or not yet
        slips = iter(back)
        return tuple(
            slipped(mark) if mark.level is not None and next(slips) else mark
            for mark in marks
        )

    def moves(self, row: RepRow) -> tuple[MarkerMove, ...]:
        """Each move of a marker of a rep, also those taken back, oldest first."""
        return self._logbook.rep_changes.moves(row.id)

    def move(
        self,
        row: RepRow,
        trace: RepTrace,
        marker: str,
        to_s: float | None,
        *,
        by: str = "",
    ) -> RepTrace:
        """Puts a marker somewhere else, and gives the rep with what follows from it.

        Args:
            trace: the rep as it stands.
            to_s: since the start of the set; None: where the rules found it.
            by: who moves it.

        Raises:
            FieldError: markers would not be in their order, or off the signal.
        """
        automatic_s = getattr(trace.automatic, f"{_NAMES[marker]}_s")
        goal_s = automatic_s if to_s is None else to_s
        if to_s is not None and not trace.time_s[0] <= to_s <= trace.time_s[-1]:
            raise FieldError("marker", phrase("must stay within what is drawn."))
        replace(trace.markers, **{f"{_NAMES[marker]}_s": goal_s})  # checks the order
        self._logbook.rep_changes.move(
            row.id,
            marker,
            automatic_s=automatic_s,
            before_s=getattr(trace.markers, f"{_NAMES[marker]}_s"),
            to_s=to_s,
            by=by,
        )
        return self.trace(row)

    def undo(self, row: RepRow, *, by: str = "") -> bool:
        """Takes back the newest move of a marker; False where there is none."""
        return self._logbook.rep_changes.undo(row.id, by=by) is not None

    def void(self, row: RepRow, reason: str, *, by: str = "") -> None:
        """Says that a rep does not count.

        Raises:
            FieldError: no reason is given.
        """
        self._logbook.rep_changes.void(row.id, reason, by=by)

    def withdraw_void(self, row: RepRow, reason: str, *, by: str = "") -> None:
        """Says that a void rep counts after all.

        Raises:
            FieldError: it is not void, or no reason is given.
        """
        self._logbook.rep_changes.withdraw_void(row.id, reason, by=by)

    def of_kept_test(self, row: RepRow) -> str:
        """That a kept maximal test stays as it is when one of its trials is voided.

        Returns:
            The name of the test and what to do; empty for a rep of no kept test.
        """
        athlete = self._logbook.athlete_by_code(row.athlete_code)
        tests = self._logbook.maxima.tests(athlete.id, row.task) if athlete else ()
        for test in tests:
            if test.content.get(SET_ID) == row.set_id:
                return phrase(
                    "The kept maximal test “{task}” ({sides}) of {date} stays as it "
                    "is, {force_n:.1f} N: test again where this trial made it.",
                    task=task_words(test.task),
                    sides=test.sides.value,
                    date=test.tested_utc.astimezone().date().isoformat(),
                    force_n=test.force_n,
                )
        return ""

    def numbers(self, row: RepRow, trace: RepTrace) -> dict[str, object]:
        """What is worked out of a rep only when it is looked at."""
        return {**extras(trace), **per_body(trace, self.mass_kg(row))}

    def mass_kg(self, row: RepRow) -> float | None:
        """Body mass of the athlete as weighed last up to the day of a rep."""
        person = self._logbook.people.by_code(row.athlete_code)
        if person is None:
            return None
        day = row.started_utc.astimezone().date().isoformat()
        mass = self._logbook.people.mass(person.id, on=day)
        return None if mass is None else mass.mass_kg

    def _placed(self, row: RepRow, trace: RepTrace) -> RepTrace:
        """With its markers where a hand put them."""
        put = placed(self._logbook.rep_changes.moves(row.id))
        try:
            return with_markers(trace, put)
        except FieldError:
            return trace  # the rules of today find other times than those of then


def with_markers(trace: RepTrace, put: Mapping[str, float]) -> RepTrace:
    """A rep with markers where a hand put them, and the measures that follow.

    Args:
        put: time of each marker that was moved.

    Raises:
        FieldError: they are not in their order.
    """
    if not put:
        return trace
    times = {f"{_NAMES[marker]}_s": at_s for marker, at_s in put.items()}
    markers = replace(trace.automatic, **times)
    record = moved(trace.record, markers, trace.trace, trace.judged, trace.prescription)
    found = measure(record, trace.trace, trace.judged, trace.prescription)
    again = found.to_json()
    kept = {part.name for part in fields(Cells)} | {"surely_inside_s"}
    return replace(
        trace,
        start_s=record.start_s,
        entry_s=record.entry_s,
        hold_end_s=record.hold_end_s,
        lapses=tuple((lapse.start_s, lapse.end_s) for lapse in record.lapses),
        measures={
            key: trace.measures.get(key) if key in kept else value
            for key, value in again.items()
        },
        by_hand=tuple(sorted(put)),
    )


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


def rep_trace(replayed: Replayed, rep: Mapping[str, object]) -> RepTrace:
    """One rep out of a whole set, by the times that the rules found.

    Args:
        replayed: with its blocks.
        rep: one of its reps.
    """
    start_s, end_s = _seconds(rep, "start_s"), _seconds(rep, "end_s")
    whole = _whole(replayed)
    window = slice(
        int(np.searchsorted(whole.time_s, start_s - AROUND_S)),
        int(np.searchsorted(whole.time_s, end_s + AROUND_S, side="right")),
    )
    trace = Trace(*(getattr(whole, part.name)[window] for part in fields(Trace)))
    time_s, force_n = _with_breaks(trace)
    judged = judged_by(replayed.prescription, replayed.profile)
    record = _record(replayed, rep, whole)
    return RepTrace(
        time_s=time_s,
        force_n=force_n,
        effort_n=judged.effort(force_n),
        bands=tuple(replayed.bands),
        start_s=start_s,
        entry_s=record.entry_s,
        hold_end_s=record.hold_end_s,
        end_s=end_s,
        lapses=tuple((lapse.start_s, lapse.end_s) for lapse in record.lapses),
        measures=rep,
        profile=replayed.profile,
        prescription=replayed.prescription,
        automatic=Markers(start_s, record.entry_s, record.hold_end_s),
        trace=trace,
        judged=judged,
        record=record,
        marks=replayed.marks,
    )


def _whole(replayed: Replayed) -> Trace:
    """All of a set in one piece; put together once."""
    if len(replayed.blocks) > 1 or replayed.joined is None:
        replayed.joined = Trace.of(replayed.blocks)
        replayed.blocks = replayed.blocks[:1]
    return replayed.joined


def _record(replayed: Replayed, rep: Mapping[str, object], whole: Trace) -> RepRecord:
    """The rep as the rules saw it, from its numbers."""
    told = Fields(rep, "rep")
    start_s, hold_end_s = told.number("start_s"), told.number("hold_end_s")
    # A band is in force from the sample on that follows the nudge.
    bands = []
    for from_s, band in replayed.bands:
        at = int(np.searchsorted(whole.time_s, from_s, side="right")) if from_s else 0
        if at < len(whole.time_s):
            bands.append((float(whole.time_s[at]), band))
    before = [pair for pair in bands if pair[0] <= start_s][-1:] or bands[:1]
    within = [pair for pair in bands if start_s < pair[0] <= hold_end_s]
    lapses = rep["lapse_times_s"]
    assert isinstance(lapses, list)  # noqa: S101  measures.rep wrote it
    return RepRecord(
        number=told.whole("number", least=1, most=REPS_MAX),
        outcome=told.choice("outcome", Outcome),
        start_s=start_s,
        entry_s=told.number_or_none("entry_s"),
        hold_end_s=hold_end_s,
        end_s=told.number("end_s"),
        below_s=told.number("below_s"),
        inside_s=told.number("inside_s"),
        above_s=told.number("above_s"),
        paused_s=told.number("paused_s"),
        lapses=tuple(Lapse(left_s, back_s) for left_s, back_s in lapses),
        bands=(*before, *within),
        gaps=told.whole("gaps", least=0, most=2**31),
        unbalanced_s=told.number("unbalanced_s"),
        hold_s=told.number("asked_hold_s"),
    )


def _seconds(rep: Mapping[str, object], key: str) -> float:
    value = rep[key]
    assert isinstance(value, float)  # noqa: S101  measures.rep wrote it
    return value


def _with_breaks(
    trace: Trace,
) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]:
    """The samples, with a NaN in each gap so that no line is drawn."""
    time_s, force_n = trace.time_s, trace.force_n
    after_gap = np.flatnonzero(trace.gap)
    after_gap = after_gap[after_gap > 0]
    middle_s = (time_s[after_gap - 1] + time_s[after_gap]) / 2
    return (
        np.insert(time_s, after_gap, middle_s),
        np.insert(force_n, after_gap, np.nan, axis=0),
    )
