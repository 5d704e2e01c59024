"""The live session: rig, recorder and logbook put together.

The main thread owns it and pulls with `take`; commands go the other way and are
carried out by the acquisition thread between two blocks. Nothing here waits,
but for `close`.
"""

from __future__ import annotations

import contextlib
import logging
import time
from dataclasses import replace
from typing import TYPE_CHECKING

from biofeedback import __version__
from biofeedback.errors import NOTHING, FieldError, FileError, RigError, UserError
from biofeedback.logbook.audit import Action
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.moments import now_utc
from biofeedback.logbook.recorder import FileRecorder
from biofeedback.logbook.rows import check_code
from biofeedback.phrase import phrase
from biofeedback.rig import journal
from biofeedback.rig.calibration_watch import CalibrationLimits
from biofeedback.rig.commands import (
    WORDS,
    BeginSet,
    ChangeBand,
    ChangeProfile,
    ChangeTerms,
    EndLimbZero,
    EndSet,
    Mark,
    MoveGate,
    TakeZero,
    UseBoard,
)
from biofeedback.rig.handoff import Refused, SetBegun, SetEnded, Warned
from biofeedback.rig.profile_choice import KnownBoards
from biofeedback.rig.worker import Worker
from biofeedback.session.clock_words import SetBack
from biofeedback.training.reference import PAIN_MOST

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from biofeedback.conditioning.profile import Calibration, RigProfile, ZeroKind
    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.filter_log import FilterLog
    from biofeedback.rig.calibration_watch import CalibrationsFor
    from biofeedback.rig.check import HealthReport
    from biofeedback.rig.handoff import OtherBoard, Update
    from biofeedback.rig.source import Source
    from biofeedback.training.band import Band
    from biofeedback.training.changes import Terms
    from biofeedback.training.prescription import Prescription


LOOK_UP_S = 0.2
"""The acquisition thread waits no longer for the logbook to tell a calibration."""
NOT_KEPT = phrase("The end of the recording could not be kept.")

_log = logging.getLogger(__name__)


def _records(logbook: Logbook) -> CalibrationsFor:
    """The newest calibration of a board's channel, from the logbook."""
    calibrations = logbook.hurried(LOOK_UP_S).calibrations

    def calibrations_for(
        serial_number: str, channel: int, gain: int | None, /
    ) -> Calibration | None:
        found = calibrations.fitting(serial_number, channel, gain)
        return found.calibration if found else None

    return calibrations_for


class Session:
    """One visit of one athlete at one rig.

    Args:
        source: where the samples come from; opened by the acquisition thread.
        profile: of the rig; None for the nominal one of whatever board is found.
        logbook: where sets and reps are entered; None keeps nothing.
        recordings: folder of the recordings.
        athlete_code: who is here; the athlete is added where the code is new.
        calibration_limits: when to warn of a calibration.
        filters: which filter a rig was given; None where that is not kept.
        clock: monotonic nanoseconds; the same clock as the window's.

    Attributes:
        not_kept: after `close`, what of the recording could not be kept, in plain
            words; empty where all of it is on disk.
        calibrations: where the calibrations of the rigs are kept, or None.
        filters: as handed in.

    Raises:
        FileError: logbook or folder cannot be used.
        FieldError: the code could not stand in a file name.
    """

    def __init__(  # noqa: PLR0913  parts of one visit, each with its name
        self,
        source: Source,
        *,
        logbook: Logbook | None,
        recordings: Path,
        athlete_code: str,
        athlete_name: str = "",
        profile: RigProfile | None = None,
        calibration_limits: CalibrationLimits | None = None,
        filters: FilterLog | None = None,
        clock: Callable[[], int] = time.monotonic_ns,
    ) -> None:
        self.not_kept = NOTHING
        self.calibrations = None if logbook is None else logbook.calibrations
        self.filters = filters
        self._logbook = logbook
        self._recorder: FileRecorder | None = None
        self._check: HealthReport | None = None
        self._checked_utc = self._board = ""
        self._set_id = ""
        self._set_asked = self._set_under_way = False
        self.athlete_code = check_code(athlete_code)
        self.athlete_name = athlete_name
        self._session_id = new_key()
        self._athlete_id = ""
        self._set_back = SetBack()
        if logbook is not None:
            athlete = logbook.athlete_by_code(self.athlete_code)
            if athlete is None:
                self._athlete_id = logbook.add_athlete(self.athlete_code, athlete_name)
            else:
                self._athlete_id = athlete.id
                self.athlete_name = athlete_name or athlete.name
            self._note_opened()
            self._recorder = FileRecorder(recordings, logbook)
        self._worker = Worker(
            source,
            profile,
            recorder=self._recorder,
            clock=clock,
            known=KnownBoards(
                None if logbook is None else _records(logbook),
                calibration_limits or CalibrationLimits(),
                None if filters is None else filters.filter_for,
            ),
        )

    def start(self) -> None:
        """Starts the acquisition thread."""
        self._worker.start()

    def step(self) -> None:
        """One turn of the acquisition without its thread, for snapshots and tests."""
        self._worker.step()

    def look_at(self, look_ns: int, told: Callable[[], None] | None = None) -> bool:
        """When `take` is called next, as a monotonic time.

        Returns:
            Whether `told` is called by another thread once what is to be taken then
            has come, at most a millisecond before.
        """
        return self._worker.handoff.look_at(look_ns, told)

    def await_blocks(self, told: Callable[[], None], *, within_ns: int) -> bool:
        """Has `told` called once, by another thread, by blocks that are about to come.

        Returns:
            Whether they are due within that time; else nothing will be told.
        """
        return self._worker.handoff.await_blocks(told, within_ns=within_ns)

    def take(self) -> Update:
        """All that is new since the last time, and how things stand now."""
        update = self._worker.handoff.take()
        if words := self._set_back.news():
            update = replace(update, events=(*update.events, Warned(words)))
        self._board = update.health.found
        for event in update.events:
            if isinstance(event, SetBegun):
                self._set_asked, self._set_under_way = False, True
            elif isinstance(event, SetEnded):
                self._set_under_way = False
            elif isinstance(event, Refused) and event.command == WORDS[BeginSet]:
                self._set_asked = False
        return update

    # Who is here.

    def change_athlete(self, code: str) -> None:
        """Another athlete from the next set on; a visit of its own.

        A zero with the limb resting is not of another athlete; it ends.

        Raises:
            UserError: a set is under way, or was asked for.
            FieldError: the logbook has no athlete of this code.
        """
        self._check_between_sets("the athlete")
        code = check_code(code)
        athlete = self._logbook.athlete_by_code(code) if self._logbook else None
        if athlete is None:
            raise FieldError(
                "athlete.code", phrase("there is no athlete {code}.", code=code)
            )
        if code != self.athlete_code:
            self.athlete_code, self.athlete_name = code, athlete.name
            self._session_id, self._set_id = new_key(), ""
            self._note_opened()
        if athlete.id != self._athlete_id:  # else another code of the same one
            self._athlete_id = athlete.id
            with contextlib.suppress(RigError):  # nobody reads the rig any more
                self._worker.send(EndLimbZero())

    def _note_opened(self) -> None:
        """The audit must not keep anybody from a session."""
        if self._logbook is None:
            return
        try:
            audit = self._logbook.hurried(LOOK_UP_S).audit
            audit.add(Action.OPENED, code=self.athlete_code)
        except FileError as error:
            _log.warning("it is not in the audit who was opened: %s", error)

    @property
    def set_id(self) -> str:
        """Key of the set that was asked for last; empty before the first."""
        return self._set_id

    def take_up_visit(self, session_id: str) -> None:
        """Goes on with a visit of this athlete that was cut off: it stays one visit.

        Raises:
            UserError: a set is under way, or was asked for.
        """
        self._check_between_sets("the visit")
        self._session_id, self._set_id = session_id, ""

    def _check_between_sets(self, what: str) -> None:
        if self._set_under_way or self._set_asked:
            raise UserError(
                phrase("A set is under way: {what} stays.", what=what),
                phrase("Stop it first."),
            )

    def visit_id(self) -> str:
        """Key of this visit, entered into the logbook if it is not there yet.

        A visit is entered with its first set or with the first thing told, so that
        looking at an athlete leaves no empty visit behind.
        """
        if self._logbook is not None:
            athlete = self._logbook.athlete_by_code(self.athlete_code)
            if athlete is not None:
                self._logbook.hurried(LOOK_UP_S).begin_session(
                    athlete.id, session_id=self._session_id
                )
        return self._session_id

    def tell(self, kind: str, content: Mapping[str, object]) -> None:
        """Keeps something told, in a set or between sets.

        Raises:
            FileError: the logbook cannot be written.
        """
        if self._logbook is not None:
            notes = self._logbook.hurried(LOOK_UP_S).session_notes
            notes.add(self.visit_id(), kind, content, set_id=self._set_id or None)

    def keep_check(self, report: HealthReport) -> None:
        """The recordings that follow on this board carry what its check has found."""
        self._check = report
        self._checked_utc = now_utc().isoformat(timespec="seconds")

    # What is asked of the rig.

    def begin_set(
        self,
        prescription: Prescription,
        context: Mapping[str, object] | None = None,
    ) -> None:
        """Begins a set and its recording with the next sample.

        Args:
            context: more for the header of the recording, such as the plan or the
                test that the set belongs to; a `set_id` of its own goes before one
                made here.
        """
        header: dict[str, object] = {
            "software": f"biofeedback {__version__}",
            "athlete_code": self.athlete_code,
            "session_id": self._session_id,
            "set_id": new_key(),
            **self._rig_check(),
            **(context or {}),
        }
        self._set_id = str(header["set_id"])
        self._set_asked = True
        self._worker.send(BeginSet(prescription, header))

    def _rig_check(self) -> dict[str, object]:
        """The start check of the board that is on, in short."""
        report = self._check
        if report is None or report.found != self._board:
            return {}
        states = {str(one.name): str(one.state.value) for one in report.verdicts}
        return {
            "rig_check": {
                "at_utc": self._checked_utc,
                "good": report.good,
                "states": states,
            }
        }

    def end_set(self, reason: str = "stop") -> None:
        """Ends the set; a rep under way becomes stopped, never lost."""
        self._worker.send(EndSet(reason))

    def change_band(self, band: Band, reason: str = "") -> None:
        """A nudge, from the next sample on."""
        self._worker.send(ChangeBand(band, reason))

    def change_terms(self, terms: Terms, reason: str = "") -> None:
        """Another hold, rest or number of reps, from the next sample on."""
        self._worker.send(ChangeTerms(terms, reason))

    def move_gate(self, *, opened: bool, reason: str = "") -> None:
        """Lets reps start from the next sample on, or holds them back."""
        self._worker.send(MoveGate(opened, reason))

    def change_profile(self, profile: RigProfile) -> None:
        """Another profile; refused while a set is under way."""
        self._worker.send(ChangeProfile(profile))

    def use_board(self, other: OtherBoard) -> None:
        """The other board that is on the port, in place of the one before.

        Refused while a set is under way, and where yet another one is there by then.
        """
        self._worker.send(UseBoard(other))

    def take_zero(self, kind: ZeroKind) -> None:
        """Measures zero over the next second."""
        self._worker.send(TakeZero(kind))

    def note(self, text: str) -> None:
        """Writes a note into the recording at this moment."""
        self._worker.send(Mark(journal.NOTE, {"text": text}))

    def mark_pain(self, level: int) -> None:
        """Writes a pain mark into the recording at this moment.

        Raises:
            FieldError: it is not from 0 to 10.
        """
        if not 0 <= level <= PAIN_MOST:
            raise FieldError(
                "pain",
                phrase(
                    "is {level}; it must be 0 to {pain_most}.",
                    level=level,
                    pain_most=PAIN_MOST,
                ),
            )
        self._worker.send(Mark(journal.PAIN, {"level": level}))

    def take_back_pain(self, level: int) -> None:
        """Writes that the last pain mark of this set was a slip; the mark stays.

        Args:
            level: of the mark.
        """
        self._worker.send(Mark(journal.PAIN_BACK, {"level": level}))

    @property
    def settled(self) -> bool:
        """Whether no set is under way or asked for, and all that was done is kept."""
        kept = self._recorder is None or self._recorder.settled
        return kept and not (self._set_under_way or self._set_asked)

    @property
    def needs_folder(self) -> bool:
        """Whether the recording cannot be written, and another folder may be picked."""
        return self._recorder is not None and self._recorder.needs_folder

    def record_in(self, folder: Path) -> None:
        """The recording goes on in another folder; what comes of it is told."""
        if self._recorder is not None:
            self._recorder.record_in(folder)

    def close(self) -> None:
        """Ends the set, stops the threads and waits until all is on disk."""
        try:
            self._worker.stop()
        finally:
            # Nobody pulls events any more: what the recorder could not do is left
            # for whoever closed the session.
            if self._recorder is not None and not self._recorder.stop():
                words = self._recorder.take_failure()
                self.not_kept = words or self.not_kept or NOT_KEPT
