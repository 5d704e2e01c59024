"""Rebuild: a new logbook from the recordings, in the place of one that is broken.

Rules that hold here:

* The recording is the truth for what happened: sets, reps with the numbers that were
  stored, pain and notes told within a set, and the references that sets were asked for
  by come from it. A recording that was cut off is judged again.
* What no recording knows (names, plans, tasks, tests that were kept, days, what was
  done by hand) is taken over row by row from the old file, as far as it can be read,
  and counted; see `logbook/salvage.py`.
* The old logbook is put aside, whole, and never deleted. Nothing is rebuilt under a
  program that is running.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from typing import TYPE_CHECKING

from biofeedback.errors import BiofeedbackError
from biofeedback.logbook import folders, recordings
from biofeedback.logbook.audit import Action
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.put_aside import PutAside
from biofeedback.logbook.recording_format import REP_END
from biofeedback.logbook.salvage import Salvaged, salvage
from biofeedback.logbook.session_notes import NOTE, PAIN, PAIN_BACK
from biofeedback.rig import journal
from biofeedback.session.recovery import recover
from biofeedback.wire.frames import Close, Event

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from biofeedback.logbook.kept_place import KeptPlace

_MARKS = {
    journal.PAIN: PAIN,
    journal.PAIN_BACK: PAIN_BACK,
    journal.NOTE: NOTE,
}


@dataclass(frozen=True, slots=True)
class Rebuilt:
    """What a rebuild did.

    Attributes:
        sets, reps: how many are in the new logbook from recordings.
        salvaged: what was taken over from the old file.
        problems: recordings that could not be used, in words.
        aside: where the old logbook is now; None where there was none.
    """

    sets: int
    reps: int
    salvaged: Salvaged
    problems: tuple[str, ...]
    aside: Path | None


def rebuild(
    place: KeptPlace, *, progress: Callable[[int, int], None] | None = None
) -> Rebuilt:
    """Makes a new logbook in the place of the old one.

    Args:
        progress: is told (recordings done, recordings in all) after each.

    Raises:
        UserError: a program is running on it.
        FileError: the new one cannot be written; the old one is where it was.
    """
    place.refuse_while_in_use()
    folders.make_private(place.base)
    with PutAside("rebuild") as aside:
        aside.take(place.logbook_files())
        old = aside.folders[0] / place.logbook.name if aside.folders else None
        try:
            with Logbook.open(place.logbook) as logbook:
                saved = salvage(old, place.logbook) if old else Salvaged({}, ())
                rebuilt = _enter_all(logbook, place, saved, old, progress)
                logbook.say_sealed()
                logbook.audit.add(Action.REBUILT, count=rebuilt.sets)
        except BaseException:
            for path in place.logbook_files():
                path.unlink()
            raise
    return rebuilt


def _enter_all(
    logbook: Logbook,
    place: KeptPlace,
    saved: Salvaged,
    old: Path | None,
    progress: Callable[[int, int], None] | None,
) -> Rebuilt:
    sets = reps = 0
    problems = []
    paths = place.recording_files()
    for done, path in enumerate(paths, start=1):
        try:
            found = _enter(logbook, path)
        except BiofeedbackError as error:
            problems.append(str(error))
        else:
            sets += found is not None
            reps += found or 0
        if progress is not None:
            progress(done, len(paths))
    for cut in recover(place.recordings, logbook):  # those without an end
        if cut.problem and cut.problem not in problems:
            problems.append(cut.problem)
        elif not cut.problem:
            sets += 1
            reps += cut.reps
    return Rebuilt(sets, reps, saved, tuple(problems), old.parent if old else None)


def _enter(logbook: Logbook, path: Path) -> int | None:
    """Enters a recording with an end; its reps, or None where it is no such set."""
    recording = recordings.read(path)
    if not recording.header.get("prescription"):
        return None  # an imported table, or one recorded for tuning
    events: list[Mapping[str, object]] = []
    totals: Mapping[str, object] | None = None
    for frame in recording.frames():
        if isinstance(frame, Event):
            events.append(frame.content)
        elif isinstance(frame, Close):
            totals = frame.content
    if totals is None:
        return None
    set_id = logbook.enter_recording(recording.header, path.name)
    stored = [event["rep"] for event in events if event.get("kind") == REP_END]
    for rep in stored:
        if isinstance(rep, dict):
            logbook.add_rep(set_id, rep, put_right=True)
    _enter_marks(logbook, set_id, events)
    logbook.close_set(set_id, totals)
    return len(stored)


def _enter_marks(
    logbook: Logbook, set_id: str, events: list[Mapping[str, object]]
) -> None:
    """Pain and notes within a set, unless they were taken over."""
    row = logbook.set_by_id(set_id)
    if row is None:
        return
    notes = logbook.session_notes
    there = {note.kind for note in notes.list(row.session_id) if note.set_id == set_id}
    for event in events:
        kind = _MARKS.get(str(event.get("kind")))
        time_s = event.get("time_s")
        if kind is None or kind in there or not isinstance(time_s, int | float):
            continue
        said = {name: event[name] for name in ("level", "text") if name in event}
        when = {"when": "during"} if kind in {PAIN, PAIN_BACK} else {}
        at_utc = row.started_utc + timedelta(seconds=float(time_s))
        notes.add(row.session_id, kind, {**said, **when}, set_id=set_id, at_utc=at_utc)
