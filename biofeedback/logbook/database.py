"""The logbook: athletes, sessions, sets and reps, in SQLite or behind a URL.

One `Logbook` serves every thread of the program; each call is one transaction
and takes a connection of its own. Several programs may have the same logbook
open. Entering the same session, set or rep twice changes nothing, so that
recovery and a program that was cut off half way can never double anything.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import sqlalchemy as sa

from biofeedback.logbook import engine as engines
from biofeedback.logbook import entries, folders, listing, rows
from biofeedback.logbook.audit import Audit
from biofeedback.logbook.calibrations import Calibrations
from biofeedback.logbook.club_tests import ClubTestDoor
from biofeedback.logbook.days import Days
from biofeedback.logbook.exports import chosen_sets
from biofeedback.logbook.history import History
from biofeedback.logbook.lending import Lending
from biofeedback.logbook.lowerings import Lowerings
from biofeedback.logbook.maxima import Maxima
from biofeedback.logbook.moments import now_utc
from biofeedback.logbook.people import People
from biofeedback.logbook.plans import Plans
from biofeedback.logbook.rep_changes import RepChanges
from biofeedback.logbook.schema import athletes, sets
from biofeedback.logbook.sealed.container import Sealer
from biofeedback.logbook.sealed.lock import SETTING, key_of_logbook
from biofeedback.logbook.session_notes import SessionNotes
from biofeedback.logbook.settings import Settings
from biofeedback.logbook.task_list import TaskList
from biofeedback.training.athlete import AthleteDetails

if TYPE_CHECKING:
    import contextlib
    from collections.abc import Mapping
    from datetime import datetime
    from pathlib import Path

    from biofeedback.logbook.exports.chosen_sets import ChosenSet, Filters
    from biofeedback.logbook.listing import RepsWanted
    from biofeedback.logbook.rows import Athlete, NewSet, RepRow, SessionRow, SetRow
    from biofeedback.logbook.sealed.master_key import MasterKey
    from biofeedback.training.task import Task

REPS_PAGE = 500
"""Reps that are read at once where all are wanted."""


class Logbook:
    """What is kept, and the only way to it.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked. One may go on and try again.

    Attributes:
        place: the file or URL, for people; without a password.
    """

    def __init__(
        self,
        engine: sa.Engine,
        place: str,
        *,
        busy_s: float,
        key: MasterKey | None = None,
        lending: Lending | None = None,
    ) -> None:
        self.place = place
        self._engine = engine
        self._key = key
        self._lending = lending or Lending(place)
        self._reading = engine.execution_options(busy_s=busy_s)
        self._writing = engine.execution_options(busy_s=busy_s, writes=True)

    @classmethod
    def open(cls, place: str | Path | None = None, *, shut: bool = False) -> Logbook:
        """Opens a logbook; makes it, or brings it up to date, where need be.

        Args:
            place: a path, a database URL, or None for the user's data folder.
            shut: names and notes are not wanted, so that a sealed logbook asks for no
                passphrase; whoever asks for one all the same gets a `FileError`.

        Raises:
            FileError: the place cannot be used, holds something else, or is of a
                newer version of the program; or it is sealed and its key file is not
                here.
            UserError: it is sealed and the passphrase was not given.
        """
        url = engines.url_of(place or folders.default_logbook())
        shown = url.render_as_string(hide_password=True)
        if url.get_backend_name() == "sqlite":
            shown = str(url.database)
        engine = engines.connect(url)
        try:
            engines.bring_up_to_date(engine, shown)
            key = key_of_logbook(engine, shut=shut)
        except BaseException:
            engine.dispose()
            raise
        return cls(engine, shown, busy_s=engines.BUSY_S, key=key)

    def hurried(self, busy_s: float) -> Logbook:
        """The same logbook, waiting for other programs no longer than `busy_s`."""
        return Logbook(
            self._engine,
            self.place,
            busy_s=busy_s,
            key=self._key,
            lending=self._lending,
        )

    def lent(self) -> contextlib.AbstractContextManager[None]:
        """Lets go of the file; who asks for something meanwhile gets a `FileError`.

        Raises:
            UserError: it is in use and does not get free.
        """
        return self._lending.lent(self._engine)

    @property
    def sealed(self) -> bool:
        """Whether names and recordings are sealed from now on."""
        return self._key is not None

    def say_sealed(self) -> None:
        """Has the logbook itself say by which key it is sealed, if it is."""
        if self._key is not None:
            self.settings.put(SETTING, self._key.key_id.hex())

    def sealer(self) -> Sealer | None:
        """What seals one new recording; None where the logbook is not sealed."""
        return None if self._key is None else Sealer(self._key)

    def close(self) -> None:
        """Lets go of the file; safe to call twice."""
        self._engine.dispose()

    def __enter__(self) -> Logbook:
        return self

    def __exit__(self, *_fault: object) -> None:
        self.close()

    # Athletes -----------------------------------------------------------------

    def add_athlete(self, code: str, name: str = "") -> str:
        """Enters an athlete and returns the key.

        Raises:
            FieldError: the code is in use, whatever its capitals, or could not stand
                in a file name.
        """
        return self.people.add(AthleteDetails(code, name))

    def athlete_by_code(self, code: str) -> Athlete | None:
        """The athlete with this code, or None."""
        with self._read() as connection:
            return listing.athlete_by_code(connection, code)

    def athletes(self) -> list[Athlete]:
        """All athletes, by code."""
        with self._read() as connection:
            return listing.athletes_by_code(connection)

    # Sessions and sets --------------------------------------------------------

    def begin_session(self, athlete_id: str, *, session_id: str = "") -> str:
        """Enters one visit of an athlete and returns the key."""
        with self._write() as connection:
            return entries.session(connection, athlete_id, session_id, _now())

    def begin_set(self, new: NewSet) -> str:
        """Enters a set that begins and returns the key.

        Raises:
            FieldError: its session is unknown.
        """
        with self._write() as connection:
            return entries.new_set(connection, new)

    def enter_recording(self, header: Mapping[str, object], recording: str) -> str:
        """Enters the set a recording is of, with session and athlete if need be.

        Serves the recorder, and recovery of a recording the logbook never knew.

        Returns:
            The key of the set.

        Raises:
            FieldError: the header names no set, or not when it began.
        """
        with self._write() as connection:
            return entries.recording(connection, header, recording)

    def close_set(
        self,
        set_id: str,
        totals: Mapping[str, object] | None = None,
        *,
        recovered: bool = False,
    ) -> None:
        """Enters the end of a set; a set that is closed stays as it is.

        Args:
            recovered: the end was found out afterwards; the recording was cut off.
        """
        change = (
            sa.update(sets)
            .where(sets.c.id == set_id, sets.c.closed_utc.is_(None))
            .values(
                closed_utc=_now(),
                recovered=recovered,
                totals=sa.null() if totals is None else rows.plain(totals),
            )
        )
        with self._write() as connection:
            connection.execute(change)

    def sets_not_closed(self) -> list[SetRow]:
        """Sets under way or cut off, oldest first."""
        with self._read() as connection:
            return listing.sets_oldest_first(connection, sets.c.closed_utc.is_(None))

    def sets(self, session_id: str) -> list[SetRow]:
        """The sets of a session, oldest first."""
        with self._read() as connection:
            return listing.sets_oldest_first(
                connection, sets.c.session_id == session_id
            )

    def chosen_sets(self, filters: Filters) -> list[ChosenSet]:
        """The sets of an export, oldest first.

        Raises:
            FieldError: a code or a task is not in the logbook.
        """
        with self._read() as connection:
            return chosen_sets.choose(connection, filters)

    def set_by_id(self, set_id: str) -> SetRow | None:
        """The set with this key, or None."""
        with self._read() as connection:
            found = listing.sets_oldest_first(connection, sets.c.id == set_id)
        return found[0] if found else None

    def sessions(
        self, *, athlete_code: str = "", session_id: str = "", limit: int = 100
    ) -> list[SessionRow]:
        """The latest sessions, newest first.

        Args:
            athlete_code: only those of this athlete.
            session_id: only the one of this key.
        """
        with self._read() as connection:
            return listing.sessions_newest_first(
                connection, limit, athlete_code=athlete_code, session_id=session_id
            )

    def fading_sessions(
        self, athlete_code: str, task: Task, *, but_session: str = ""
    ) -> int:
        """In how many sessions of a task the feedback was fading so far.

        With all of its sides, and whatever it was called at the time.

        Args:
            but_session: is not counted: the one that is under way.
        """
        with self._read() as connection:
            return listing.fading_sessions(connection, athlete_code, task, but_session)

    def recording_of(self, set_id: str) -> str | None:
        """The recording's file name, relative to its folder; None if unknown."""
        found = self.set_by_id(set_id)
        return found.recording if found else None

    def recordings(self) -> dict[str, bool]:
        """Each recording the logbook knows, and whether its set is closed."""
        with self._read() as connection:
            return listing.recordings(connection)

    # Reps ---------------------------------------------------------------------

    def add_rep(
        self, set_id: str, rep: Mapping[str, object], *, put_right: bool = False
    ) -> str:
        """Enters a rep and returns its key.

        A rep of this set and number that is there already stays as it is.

        Args:
            rep: the JSON object of its ``rep end`` event.
            put_right: a rep that is there gets these numbers; only where a logbook
                was broken and the recording knows better.

        Raises:
            FieldError: the set is unknown, or a value does not fit.
        """
        with self._write() as connection:
            return entries.rep(connection, set_id, rep, put_right=put_right)

    def void_rep(self, rep_id: str, reason: str) -> None:
        """Says that a rep does not count; the rep itself stays.

        Raises:
            FieldError: the rep is unknown, or no reason is given.
        """
        self.rep_changes.void(rep_id, reason)

    def reps(
        self,
        *,
        athlete_code: str | None = None,
        session_id: str | None = None,
        set_id: str | None = None,
        wanted: RepsWanted | None = None,
        limit: int = 50,
        older_than: RepRow | None = None,
    ) -> list[RepRow]:
        """Saved reps, newest first.

        Args:
            wanted: which of them; None for all.
            limit: length of a page.
            older_than: the last row of the page before; None for the first page.
                Pages do not shift when reps are added meanwhile.
        """
        of_sets: list[sa.ColumnElement[bool]] = []
        if athlete_code is not None:
            of_sets.append(athletes.c.code == athlete_code)
        if session_id is not None:
            of_sets.append(sets.c.session_id == session_id)
        if set_id is not None:
            of_sets.append(sets.c.id == set_id)
        with self._read() as connection:
            return listing.reps_newest_first(
                connection, of_sets, limit, older_than, wanted
            )

    def tasks_done(self, *, athlete_code: str | None = None) -> tuple[str, ...]:
        """Names of the tasks that sets were done of, in their order."""
        with self._read() as connection:
            return listing.tasks_done(connection, athlete_code)

    def all_reps(
        self, *, session_id: str | None = None, set_id: str | None = None
    ) -> list[RepRow]:
        """All reps of a session or of a set, newest first, read page by page."""
        found: list[RepRow] = []
        last = None
        while True:
            page = self.reps(
                session_id=session_id, set_id=set_id, limit=REPS_PAGE, older_than=last
            )
            found += page
            if len(page) < REPS_PAGE:
                return found
            last = page[-1]

    @property
    def rep_changes(self) -> RepChanges:
        """Markers that were moved by hand, and voids."""
        return RepChanges(self._read, self._write)

    # People and tasks ---------------------------------------------------------

    @property
    def people(self) -> People:
        """The athletes and their body masses."""
        return People(self._read, self._write)

    @property
    def plans(self) -> Plans:
        """The plans of the athletes."""
        return Plans(self._read, self._write)

    @property
    def session_notes(self) -> SessionNotes:
        """What was told in sessions: pain, effort, notes, changes."""
        return SessionNotes(self._read, self._write)

    @property
    def tasks(self) -> TaskList:
        """The tasks there are."""
        return TaskList(self._read, self._write)

    # Calibrations -------------------------------------------------------------

    @property
    def calibrations(self) -> Calibrations:
        """The calibrations of the rigs."""
        return Calibrations(self._read, self._write)

    # Maximal tests ------------------------------------------------------------

    @property
    def maxima(self) -> Maxima:
        """Maximal tests and stated forces."""
        return Maxima(self._read, self._write)

    @property
    def club_tests(self) -> ClubTestDoor:
        """Maximal tests of all, side by side."""
        return ClubTestDoor(self._read, self._write)

    @property
    def lowerings(self) -> Lowerings:
        """Saved lowering reps."""
        return Lowerings(self._read)

    # Days and settings --------------------------------------------------------

    @property
    def days(self) -> Days:
        """What athletes reported before a set, and what was decided on it."""
        return Days(self._read, self._write)

    @property
    def history(self) -> History:
        """All that was done and told in a period."""
        return History(self._read, self._write)

    @property
    def settings(self) -> Settings:
        """Settings that belong to this logbook."""
        return Settings(self._read, self._write)

    @property
    def audit(self) -> Audit:
        """Who opened, gave out, kept a copy of, put back and erased what, and when."""
        return Audit(self._read, self._write)

    # Transactions -------------------------------------------------------------

    def _read(self) -> contextlib.AbstractContextManager[sa.Connection]:
        return self._lending.transaction(self._reading)

    def _write(self) -> contextlib.AbstractContextManager[sa.Connection]:
        return self._lending.transaction(self._writing)


def _now() -> datetime:
    return now_utc()
