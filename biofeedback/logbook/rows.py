"""Rows as they leave the logbook, and the checks on what goes in."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime

from biofeedback.errors import FieldError
from biofeedback.logbook.schema import CODE_LENGTH
from biofeedback.phrase import phrase
from biofeedback.training.events import Outcome
from biofeedback.wire.fields import Fields

REPS_MAX = 100_000
"""More reps in a set than anyone does; a number above it is a fault."""

MEASURE_COLUMNS = (
    "below_s",
    "inside_s",
    "above_s",
    "peak_n",
    "mean_n",
    "cv_pct",
    "rmse_n",
    "impulse_ns",
    "left_share_pct",
)
"""Measures of a rep that have a column of their own, of the same name."""

# Codes stand in file names on all systems, and two parts of those are split by
# an underscore.
_CODE = re.compile(r"[A-Za-z0-9][A-Za-z0-9-]*")


@dataclass(frozen=True, slots=True)
class Athlete:
    """One athlete. Only `code` may go into files, logs and exports."""

    id: str
    code: str
    name: str
    added_utc: datetime


@dataclass(frozen=True, slots=True)
class SessionRow:
    """One visit of one athlete."""

    id: str
    athlete_id: str
    athlete_code: str
    started_utc: datetime


@dataclass(frozen=True, slots=True)
class NewSet:
    """A set that begins.

    Attributes:
        prescription, profile: JSON objects, as they stand in the recording.
        recording: file name, relative to the folder of recordings.
        set_id: its key where one was given already; else a new one is made.
        plan: `id`, `stage` and `key` of the planned prescription, or empty.
    """

    session_id: str
    prescription: Mapping[str, object]
    profile: Mapping[str, object]
    recording: str
    started_utc: datetime
    set_id: str = ""
    plan: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SetRow:
    """One set, and the file of its raw signal.

    Attributes:
        recording: file name, relative to the folder of recordings.
        closed_utc: None while the set is under way, or was cut off.
        recovered: whether its end was found out afterwards.
        task_id: as the recording names it, or None.
        plan_id, stage, planned_key: the planned prescription, or None.
    """

    id: str
    session_id: str
    athlete_code: str
    task: str
    prescription: Mapping[str, object]
    profile: Mapping[str, object]
    recording: str
    started_utc: datetime
    closed_utc: datetime | None
    recovered: bool
    task_id: str | None
    sides: str | None
    plan_id: str | None
    stage: int | None
    planned_key: str | None


@dataclass(frozen=True, slots=True)
class RepRow:
    """One saved rep with what the review lists of it.

    Attributes:
        outcome: as the rules judged it; a rep that was voided later keeps it.
        void_reason: why the rep does not count, or None where it counts.
        started_utc: start of its set; `start_s` and `end_s` count from there.
        lapses: how many.
        measures: all measures, as they stand in the recording.
        kind: of the task: hold, lowering or maximal.
        sides: which sides worked; None where an old recording does not tell.
        pain: the most that was told in the set or right after it, 0 to 10; None
            where none was told.
    """

    id: str
    set_id: str
    session_id: str
    athlete_code: str
    task: str
    recording: str
    started_utc: datetime
    number: int
    outcome: str
    feedback: str
    start_s: float
    end_s: float
    below_s: float | None
    inside_s: float | None
    above_s: float | None
    lapses: int | None
    peak_n: float | None
    mean_n: float | None
    cv_pct: float | None
    rmse_n: float | None
    impulse_ns: float | None
    left_share_pct: float | None
    measures: Mapping[str, object]
    void_reason: str | None
    kind: str | None = None
    sides: str | None = None
    pain: int | None = None


def check_code(code: str) -> str:
    """The code without blanks around it.

    Raises:
        FieldError: it could not stand in a file name.
    """
    code = code.strip()
    if not _CODE.fullmatch(code) or len(code) > CODE_LENGTH:
        raise FieldError(
            "athlete.code",
            phrase(
                "must be 1 to {code_length} letters, digits and hyphens.",
                code_length=CODE_LENGTH,
            ),
            phrase("Use a code that tells nobody who the athlete is."),
        )
    return code


def rep_values(rep: Mapping[str, object], *, feedback: str) -> dict[str, object]:
    """The columns of a rep from its JSON object.

    Args:
        rep: as the ``rep end`` event of a recording has it.
        feedback: the feedback mode of the set, where the rep names none.

    Raises:
        FieldError: a value that every rep has is missing or does not fit.
    """
    fields = Fields(rep, "rep")
    values: dict[str, object] = {
        "number": fields.whole("number", least=1, most=REPS_MAX),
        "outcome": fields.choice("outcome", Outcome).value,
        "feedback": fields.text("feedback") if fields.has("feedback") else feedback,
        "start_s": fields.number("start_s"),
        "end_s": fields.number("end_s"),
        "lapses": _how_many(rep.get("lapses")),
        "measures": plain(rep),
    }
    for name in MEASURE_COLUMNS:
        values[name] = number_or_none(rep.get(name))
    return values


def _how_many(value: object) -> int | None:
    """A count, or the length of a list of things that are counted."""
    if isinstance(value, Sequence) and not isinstance(value, str):
        return len(value)
    return value if isinstance(value, int) and not isinstance(value, bool) else None


def number_or_none(value: object) -> float | None:
    """A finite number out of a JSON value, or None."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return float(value) if math.isfinite(value) else None


def plain(value: object) -> object:
    """The same value in what JSON knows: a number that is none becomes null."""
    if isinstance(value, Mapping):
        return {str(key): plain(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [plain(inner) for inner in value]
    if isinstance(value, float) and not math.isfinite(value):
        return None
    return value


def read_time(fields: Fields, key: str) -> datetime:
    """An ISO 8601 time with its zone, as UTC.

    Raises:
        FieldError: it is no such time.
    """
    text = fields.text(key, longest=40)
    try:
        time = datetime.fromisoformat(text)
    except ValueError:
        time = None
    if time is None or time.tzinfo is None:
        raise FieldError(fields.path(key), phrase("must be an ISO time with its zone."))
    return time.astimezone(UTC)
