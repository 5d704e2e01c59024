"""Where the sets of an export come from: the logbook, or recordings as files.

The logbook is the way for people and their plans; files are for recordings that no
logbook knows, such as tables that were imported. Either way a set comes with what is
known of it and its reps, one at a time.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import TYPE_CHECKING, TypeAlias

from biofeedback.conditioning.profile import told_simulated
from biofeedback.errors import FieldError, FileError
from biofeedback.logbook import recording_format, recordings
from biofeedback.logbook.entries import NOBODY
from biofeedback.logbook.rep_changes import placed
from biofeedback.logbook.rows import read_time
from biofeedback.logbook.session_notes import taken_back_in
from biofeedback.session.replay import replay
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.exports.chosen_sets import ChosenSet
    from biofeedback.training.athlete import BodyMass


@dataclass(frozen=True, slots=True)
class SavedRep:
    """A rep with all its measures.

    Attributes:
        void_reason: why it does not count; None where it does.
        moved: where a hand put each marker that was moved, seconds in the set.
    """

    measures: Mapping[str, object]
    void_reason: str | None = None
    moved: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class SetSource:
    """One set to be exported.

    Attributes:
        name: of the athlete; empty where there is none.
        prescription, profile: JSON objects; empty where the set has none.
        path: the recording.
        pain_taken_back: whether each mark of pain in the set was taken back, in or
            after it; empty where only the recording can tell.
    """

    code: str
    name: str
    session_id: str
    session_utc: datetime
    set_id: str
    task: str
    prescription: Mapping[str, object]
    profile: Mapping[str, object]
    started_utc: datetime
    recovered: bool
    path: Path
    reps: tuple[SavedRep, ...]
    mass_kg: float | None = None
    pain_taken_back: tuple[bool, ...] = ()

    @property
    def simulated(self) -> bool | None:
        """Whether it was the simulated rig; None where no profile tells."""
        return told_simulated(self.profile) if self.profile else None

    @property
    def stem(self) -> str:
        """What its files are called: time, code and key, whoever named the file."""
        name = recording_format.file_name(
            started_utc=self.started_utc, athlete_code=self.code, set_id=self.set_id
        )
        return name.removesuffix(recording_format.SUFFIX)


@dataclass(frozen=True, slots=True)
class Unreadable:
    """A set of which nothing can be had.

    Attributes:
        number: which of those asked for, from 1: the name of a file may be a person's.
    """

    number: int
    path: Path
    error: FileError


Source: TypeAlias = SetSource | Unreadable


def from_logbook(
    logbook: Logbook, chosen: Sequence[ChosenSet], *, folder: Path
) -> Iterator[Source]:
    """Sets of the logbook, in the order given.

    Args:
        folder: of the recordings.

    Raises:
        FileError: the logbook cannot be read.
    """
    masses = _Masses(logbook)
    names = {each.code: each.name for each in logbook.athletes()}
    for each in chosen:
        row = logbook.set_by_id(each.set_id)
        if row is None:
            continue  # erased meanwhile
        yield SetSource(
            code=row.athlete_code,
            name=names.get(row.athlete_code, ""),
            session_id=row.session_id,
            session_utc=each.session_utc,
            set_id=row.id,
            task=row.task,
            prescription=row.prescription,
            profile=row.profile,
            started_utc=row.started_utc,
            recovered=row.recovered,
            path=folder / row.recording,
            reps=tuple(
                SavedRep(
                    rep.measures,
                    rep.void_reason,
                    placed(logbook.rep_changes.moves(rep.id)),
                )
                for rep in reversed(logbook.all_reps(set_id=row.id))
            ),
            mass_kg=masses.of(row.athlete_code, row.started_utc),
            pain_taken_back=taken_back_in(
                logbook.session_notes.pain(row.session_id), row.id
            ),
        )


class _Masses:
    """Body masses of athletes, asked for once each."""

    def __init__(self, logbook: Logbook) -> None:
        self._logbook = logbook
        self._known: dict[str, tuple[BodyMass, ...]] = {}

    def of(self, code: str, at: datetime) -> float | None:
        """As weighed last up to a day, kg; None where it never was."""
        if code not in self._known:
            person = self._logbook.people.by_code(code)
            found = self._logbook.people.masses(person.id) if person else ()
            self._known[code] = found
        day = at.astimezone().date().isoformat()
        return next((one.mass_kg for one in self._known[code] if one.date <= day), None)


def from_files(paths: Sequence[Path]) -> Iterator[Source]:
    """Recordings as they are; what cannot be read is told and passed over."""
    for number, path in enumerate(paths, start=1):
        try:
            yield _from_file(path)
        except FileError as error:
            yield Unreadable(number, path, error)


def _from_file(path: Path) -> SetSource:
    recording = recordings.read(path)
    header = recording.header
    fields = Fields(header, "header")
    try:
        started_utc = read_time(fields, "started_utc")
        set_id = fields.text("set_id") if fields.has("set_id") else ""
        code = fields.text("athlete_code") if fields.has("athlete_code") else ""
        visit = fields.text("session_id") if fields.has("session_id") else ""
    except FieldError as error:
        raise FileError(path, error.words) from error
    prescription = inner(header, "prescription")
    replayed = replay(path) if prescription else None
    task = inner(prescription, "task").get("name", "")
    return SetSource(
        code=code or NOBODY,
        name="",
        session_id=visit or set_id,
        session_utc=started_utc,
        set_id=set_id,
        task=task if isinstance(task, str) else "",
        prescription=prescription,
        profile=inner(header, "profile"),
        started_utc=started_utc.astimezone(UTC),
        recovered=bool(replayed and replayed.recovered),
        path=path,
        reps=tuple(SavedRep(rep) for rep in replayed.reps) if replayed else (),
    )


def inner(values: Mapping[str, object], key: str) -> Mapping[str, object]:
    """The object under a key; an empty one where there is none."""
    value = values.get(key)
    return value if isinstance(value, Mapping) else {}
