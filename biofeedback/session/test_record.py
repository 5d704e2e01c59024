"""How a maximal test is written down: in the recording, and in the logbook.

The header of the recording holds the plan under `TEST`. Pain is a pain mark; what was
taken out, and that practice was ended early, are notes. With these and the numbers of
the reps a test can be put together again that nobody came to keep.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError, FileError
from biofeedback.logbook import recordings
from biofeedback.logbook.maxima import SET_ID, NewMaximalTest
from biofeedback.phrase import joined, phrase
from biofeedback.session.replay import saved_mark
from biofeedback.training.events import Outcome
from biofeedback.training.maximal import MaximalPlan, MaximalResult, next_step, result
from biofeedback.training.reference import PAIN_MOST
from biofeedback.training.task_names import task_words
from biofeedback.training.trial import DEFINITIONS, TOUCH_S, Force, Trial
from biofeedback.wire.fields import Fields
from biofeedback.wire.frames import Event

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from biofeedback.logbook.maxima import MaximalTestRow
    from biofeedback.logbook.rows import RepRow, SetRow
    from biofeedback.phrase import Phrase
    from biofeedback.session.replay import SavedMark
    from biofeedback.training.task import Task

TEST = "test"
"""Names, in the header of a recording, the plan of the test it is of."""
VOID_NOTE = "Trial void, rep "
PRACTICE_NOTE = "Practice is over."
PAIN_NOTE = "Pain corrected, rep "
NOT_ASKED = "not asked"
"""How notes in the recording begin that a test can be put together from."""


def trial_of(rep: Mapping[str, object], asked_pct: int | None) -> Trial:
    """An effort from the numbers of its rep.

    Args:
        rep: as its ``rep end`` event has it.
        asked_pct: see `Trial`.

    Raises:
        FieldError: it is no rep of a maximal set.
    """
    fields = Fields(rep, "rep")
    outcome = fields.choice("outcome", Outcome)
    return Trial(
        number=fields.whole("number", least=1, most=100_000),
        asked_pct=asked_pct,
        seconds=fields.number("trial_s"),
        short=outcome is not Outcome.COMPLETE,
        stopped=outcome is Outcome.STOPPED,
        peak=_force(fields, "trial_peak_n", "at_peak_n"),
        half_s=_force(fields, "best_half_s_n", "in_half_s_n"),
        one_s=_force(fields, "best_1_s_n", "in_1_s_n"),
    )


def _force(fields: Fields, name: str, of_side: str) -> Force | None:
    if not fields.has(name):
        return None
    left_n, right_n = (
        fields.number(f"{side}_{of_side}") if fields.has(f"{side}_{of_side}") else None
        for side in ("left", "right")
    )
    return Force(fields.number(name), left_n, right_n)


def without_more_practice(plan: MaximalPlan, trials: Sequence[Trial]) -> MaximalPlan:
    """The plan with as many practice ramps as there were."""
    done = sum(
        trial.practice and not trial.touch and not trial.void for trial in trials
    )
    return replace(plan, practice=min(done, plan.practice))


def new_test(
    found: MaximalResult,
    plan: MaximalPlan,
    trials: Sequence[Trial],
    *,
    row: SetRow,
    athlete_id: str,
    task: Task,
    practice: bool,
    zero_kind: str,
) -> NewMaximalTest:
    """The row of a test.

    Args:
        row: of its set.
        practice: whether it is of the first session with this task.
    """
    by = {definition: result(plan, trials, definition) for definition in DEFINITIONS}
    peak, half_s, one_s = (by[definition] for definition in DEFINITIONS)
    return NewMaximalTest(
        athlete_id=athlete_id,
        session_id=row.session_id,
        task=task,
        tested_utc=row.started_utc,
        definition=found.definition,
        force_n=found.force.total_n,
        peak_n=peak.force.total_n if peak else None,
        half_s_n=half_s.force.total_n if half_s else None,
        one_s_n=one_s.force.total_n if one_s else None,
        left_n=found.force.left_n,
        right_n=found.force.right_n,
        trials=found.trials,
        differ_pct=found.differ_pct,
        practice=practice,
        pain=found.pain,
        zero_kind=zero_kind,
        content={
            SET_ID: row.id,
            "plan": plan.to_json(),
            "trials": [trial.to_json() for trial in trials],
        },
    )


def pain_in_test(
    test: MaximalTestRow, *, of_several: bool
) -> tuple[tuple[int, Phrase | str], ...]:
    """Pain as it was told in each effort of a test, with the name of the effort.

    The highest of the whole test where it is not known effort by effort.

    Args:
        of_several: whether the effort is named with its task.
    """
    efforts, task = test.content.get("trials"), task_words(test.task)
    found: list[tuple[int, Phrase | str]] = []
    number = 0
    for effort in efforts if isinstance(efforts, list) else ():
        if not isinstance(effort, dict):
            continue
        level, share = effort.get("pain"), effort.get("asked_pct")
        seconds, void = effort.get("seconds"), bool(effort.get("void_reason"))
        touch = isinstance(seconds, int | float) and seconds < TOUCH_S
        number += share is None and not touch and not void
        if not isinstance(level, int):
            continue
        if share is not None:
            name = phrase("practice of {share} %", share=share)
        else:
            name = phrase("trial {number} of the test", number=number + void)
        found.append((level, joined(": ", (name, task)) if of_several else name))
    if not found and test.pain is not None:
        found.append((test.pain, task))
    return tuple(found)


def read_plan(path: Path) -> tuple[MaximalPlan, tuple[SavedMark, ...]]:
    """Plan and marks of the recording of a test.

    Raises:
        FileError: the recording cannot be read, or is of no test.
    """
    recording = recordings.read(path)
    try:
        header = Fields(recording.header, "header")
        plan = MaximalPlan.from_json(header.inner(TEST).inner("plan"))
        events = [
            saved_mark(Fields(frame.content, "event"))
            for frame in recording.frames()
            if isinstance(frame, Event)
        ]
    except FieldError as error:
        raise FileError(path, error.words) from error
    return plan, tuple(mark for mark in events if mark is not None)


def put_together(
    plan: MaximalPlan, reps: Sequence[RepRow], marks: Sequence[SavedMark]
) -> tuple[MaximalPlan, list[Trial]]:
    """The efforts of a saved test, and its plan as it was at the end.

    Args:
        reps: of the set, in order.
        marks: pain marks and notes of the set, in order of time.

    Raises:
        FieldError: a rep is none of a maximal set.
    """
    taken_out = {rep.number: rep.void_reason or "" for rep in reps}
    taken_out.update(_taken_out(marks))
    ended_s = [mark.time_s for mark in marks if mark.text == PRACTICE_NOTE]
    trials: list[Trial] = []
    for rep in reps:
        if ended_s and rep.end_s > ended_s[0]:
            plan, ended_s = without_more_practice(plan, trials), []
        trial = trial_of(rep.measures, next_step(plan, trials).share_pct)
        trials.append(replace(trial, void_reason=taken_out[trial.number]))
    ends_s = [rep.end_s for rep in reps]
    for mark in marks:
        at = _effort_before(mark.time_s, ends_s, trials)
        if mark.level is not None and at is not None:
            trials[at] = replace(trials[at], pain=mark.level)
        corrected = _corrected(mark.text)
        if corrected is not None:
            trials = with_pain(trials, *corrected)
    return plan, trials


def with_pain(trials: Sequence[Trial], number: int, pain: int | None) -> list[Trial]:
    """The efforts with another pain in one of them; None where it was not asked."""
    return [replace(one, pain=pain) if one.number == number else one for one in trials]


def pain_note(number: int, pain: int | None) -> str:
    """The note in a recording that corrects the pain of an effort."""
    return f"{PAIN_NOTE}{number}: {NOT_ASKED if pain is None else pain}"


def _corrected(text: str) -> tuple[int, int | None] | None:
    """Number and pain of a note that corrects; None for another text."""
    if not text.startswith(PAIN_NOTE):
        return None
    number, _, pain = text.removeprefix(PAIN_NOTE).partition(": ")
    level = int(pain) if pain.isdecimal() else None
    known = pain == NOT_ASKED or (level is not None and level <= PAIN_MOST)
    return (int(number), level) if number.isdecimal() and known else None


def _taken_out(marks: Sequence[SavedMark]) -> dict[int, str]:
    """Number and reason of what notes say was taken out."""
    found: dict[int, str] = {}
    for mark in marks:
        number, colon, reason = mark.text.removeprefix(VOID_NOTE).partition(": ")
        if mark.text.startswith(VOID_NOTE) and colon and number.isdecimal():
            found.setdefault(int(number), reason)
    return found


def _effort_before(
    time_s: float, ends_s: Sequence[float], trials: Sequence[Trial]
) -> int | None:
    """The last effort that was over at a time, touches left out."""
    for at in reversed(range(len(trials))):
        if ends_s[at] <= time_s and not trials[at].touch:
            return at
    return None
