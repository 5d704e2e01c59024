"""What becomes of frames and commands: chain, zero, set and recording.

Belongs to the acquisition thread; `Worker` feeds it. It has no thread, no port
and no clock: the time of day is handed in.

Rules:

* A set begins with a fresh chain; its time 0 is its first sample. Its recording
  holds whole frames only, those that came after it began.
* What is written of a command or of an event stands after the frame that was
  judged last before it; frames that came at once are judged at once.
* What comes of another board than the one in use is neither judged nor recorded
  (`rig/board_in_use.py`); a set under way waits, as it does without a signal.
* A recording that fails is told and the set goes on. It is fed all the same: what
  cannot be written now may be written later.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, assert_never

from biofeedback.conditioning.profile import Zero, ZeroKind
from biofeedback.conditioning.zeroing import ZeroRefused, ZeroTaker
from biofeedback.errors import FieldError, RigError
from biofeedback.phrase import phrase
from biofeedback.rig import journal
from biofeedback.rig.board_in_use import BoardInUse
from biofeedback.rig.calibration_watch import zero_warnings
from biofeedback.rig.chain import Chain
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
from biofeedback.rig.handoff import Refused, SetBegun, SetEnded, Warned, ZeroTaken
from biofeedback.rig.limb_zero import NOT_OF_THIS_LIMB, LimbZero, ended_words
from biofeedback.rig.nominal import fitted
from biofeedback.rig.profile_choice import NOTHING_KNOWN, KnownBoards, ProfileChoice
from biofeedback.rig.set_record import SetRecord
from biofeedback.rig.simulated_source import Listens
from biofeedback.wire.frames import Identity
from biofeedback.wire.run import Run

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.rig.commands import Command
    from biofeedback.rig.handoff import OtherBoard, SessionEvent
    from biofeedback.rig.health import Watch
    from biofeedback.rig.source import Recorder
    from biofeedback.training.prescription import Prescription
    from biofeedback.wire.frames import Frame, Samples

NEVER_LET_GO = "the force was never let go"
NO_SAMPLES = phrase("No samples are coming from the rig. See that it is connected.")
NO_SET = phrase("No set is under way.")
NO_OTHER = phrase("No other board is on the port any more.")
NOT_IN_A_SET = phrase(
    "A set is under way, and no other board can take part in it. Put the first board "
    "back, or stop the set and then use this one."
)
SET_OPEN = phrase("A set is under way. End it first.")


class Acquisition:
    """Carries out commands and judges frames, one at a time.

    Args:
        profile: of the rig; replaced by what fits the board once it is known.
        recorder: keeps the sets, or None.
        watch: is told of each block.
        audience: told the prescription where it can listen.
        utc: gives the time of day as ISO text.
        known: what is kept of boards.
    """

    def __init__(
        self,
        profile: RigProfile,
        *,
        recorder: Recorder | None,
        watch: Watch,
        audience: object,
        utc: Callable[[], str],
        known: KnownBoards = NOTHING_KNOWN,
    ) -> None:
        self.chain = Chain(profile)
        self.blocks: list[Block] = []
        self.events: list[SessionEvent] = []
        self._record = SetRecord(recorder, watch)
        self._watch = watch
        self._listener = audience if isinstance(audience, Listens) else None
        self._utc = utc
        self._known = known
        self._choice = ProfileChoice(
            profile,
            warn=self._warn,
            utc=utc,
            known=known,
        )
        self._board = BoardInUse()
        self._refused = False  # another board was met since the one in use was there
        self._prescription: Prescription | None = None  # of the set under way
        self._sending = False
        self._taker: ZeroTaker | None = None
        self._limb = LimbZero()
        self._warned: set[str] = set()

    @property
    def set_open(self) -> bool:
        """Whether a set is under way."""
        return self._prescription is not None

    @property
    def recording(self) -> bool:
        """Whether a recording is being written, and the disk takes it."""
        return self._record.reaches_disk

    @property
    def sending(self) -> bool:
        """Whether samples have come since the port was opened."""
        return self._sending

    def take(self) -> tuple[list[Block], list[SessionEvent]]:
        """All blocks and events since the last time."""
        if words := self._record.take_failure():
            self.events.append(Warned(words))
        taken = self.blocks, self.events
        self.blocks, self.events = [], []
        return taken

    # The stream.

    @property
    def nameless(self) -> bool:
        """Whether the board must be asked who it is."""
        return self._board.nameless

    @property
    def other(self) -> OtherBoard | None:
        """Another board than the one in use, while it is on the port."""
        return self._board.other

    def link_lost(self) -> None:
        """The port is gone; a set under way waits for it to come back."""
        self._sending = False
        self._board.gone()
        self.signal_lost()

    def signal_lost(self) -> None:
        """No samples come at present: zero cannot be taken."""
        if self._taker is not None:
            self._refuse_zero(self._taker.finish())

    def frame(self, frame: Frame, data: bytes) -> None:
        """A good frame of the board that holds no samples, and its bytes."""
        if isinstance(frame, Identity):
            self._hear(frame, data)
        elif self._is_own((), data):
            self._record.put(data)

    def samples(self, frames: Iterable[Samples | Run], data: bytes) -> None:
        """Frames of samples that follow each other, and the bytes of all of them.

        Outside a set they are judged one by one: the check of a rig measures them.
        """
        frames = tuple(frames)
        if self._is_own(frames, data):
            self._take_in(frames, data)

    def _take_in(self, frames: Iterable[Samples | Run], data: bytes) -> None:
        self._record.put(data)
        fitting = [one for one in frames if self._fits(one)]
        if self.set_open and fitting:
            self._judge(fitting)
        else:
            for one in fitting:
                for frame in one.frames() if isinstance(one, Run) else (one,):
                    self._judge([frame])

    def damage(self, data: bytes) -> None:
        """Bytes that held no good frame are recorded as they came."""
        if self._is_own((), data):
            self._record.put(data)

    # The board.

    def _is_own(self, frames: tuple[Samples | Run, ...], data: bytes) -> bool:
        """Whether it is of the board in use; held until that is known."""
        if self._board.trusted:
            return True
        if self._board.hold(frames, data):
            self._refuse_board(serial_number="")
        return False

    def _hear(self, identity: Identity, data: bytes) -> None:
        """A board says who it is."""
        before, was_refused = self._board.other, self._refused
        if not self._board.meets(identity, in_set=self.set_open):
            if self._board.other != before:  # told once
                self._refuse_board(serial_number=identity.serial_number)
            return
        self._refused = False
        if was_refused:
            self._write_board(identity.serial_number, used=True)
        self._choice.found(identity)
        if not self.set_open:  # within a set all stays as it was begun
            self._meet(identity)
        for frames, piece in self._board.held():  # came before it
            self._take_in(frames, piece)
        self._record.put(data)

    def _refuse_board(self, *, serial_number: str) -> None:
        """Another board was noticed: no more comes, as without a signal."""
        self._sending, self._refused = False, True
        self.signal_lost()
        self._write_board(serial_number, used=False)

    def _write_board(self, serial_number: str, *, used: bool) -> None:
        self._record.event(
            {
                "kind": journal.BOARD,
                "time_s": self.chain.now_s,
                "serial_number": serial_number,
                "used": used,
            }
        )

    def _use_board(self, asked: OtherBoard) -> str:
        """The other board becomes the board in use, with what is its own."""
        if self.set_open:
            return NOT_IN_A_SET
        if self._board.other != asked:  # nobody confirmed the one that is here now
            return NO_OTHER
        identity, self._refused = self._board.change(), False
        self._use(self._choice.to_begin_with(identity))
        if identity is not None:
            self._meet(identity)
        self.events.append(
            Warned(
                phrase(
                    "In use now: {board}, with its own calibration and filter. "
                    "Take zero anew.",
                    board=asked.here,
                )
            )
        )
        return ""

    def _fits(self, samples: Samples | Run) -> bool:
        """Whether they are of this rig; they are passed over where they are not."""
        try:
            self.chain.check(samples)
        except RigError as error:
            self._warn(error.words)
            return False
        return True

    def _judge(self, frames: Sequence[Samples | Run]) -> None:
        step = self.chain.push_all(frames)
        self._sending = True
        self._record.follow(frames)
        self.blocks += step.blocks
        for block in step.blocks:
            self._watch.block(block)
        if self.set_open:
            for event in step.events:
                self._tell(event)
            if not self.chain.set_open:
                self._end(self._own_end(), asked=False)
        else:
            self.events += [one for one in step.events if isinstance(one, Warned)]
        for block in step.blocks:
            self._take_zero(block)

    def _meet(self, identity: Identity) -> None:
        """Makes the profile fit the board."""
        profile = self._choice.fitted(self.chain.profile, identity)
        if profile != self.chain.profile:
            self._use(profile)
        self._choice.warn_of_calibration(profile, identity)

    def _use(self, profile: RigProfile) -> None:
        """From the next sample on.

        Raises:
            FieldError: the filter does not fit the sample rate.
        """
        self.chain = Chain(profile)
        self._watch.begin_stream()
        self.signal_lost()

    # Commands.

    def carry_out(self, command: Command) -> None:
        """Does what was asked, or says why not."""
        match command:
            case BeginSet():
                problem = self._begin(command)
            case EndSet():
                problem = "" if self.set_open else NO_SET
                self._end(command.reason, asked=True)
            case ChangeBand() | ChangeTerms() | MoveGate() | Mark():
                problem = self._within_set(command)
            case TakeZero():
                problem = self._begin_zero(command)
            case EndLimbZero():
                problem = self._end_limb_zero()
            case ChangeProfile():
                problem = self._change_profile(command.profile)
            case UseBoard():
                problem = self._use_board(command.board)
            case _:
                assert_never(command)
        if problem:
            self.events.append(Refused(WORDS[type(command)], problem))

    def _begin(self, command: BeginSet) -> str:
        if self.set_open:
            return SET_OPEN
        if problem := self._no_samples():
            return problem
        prescription = command.prescription
        chain = Chain(self.chain.profile)
        try:
            chain.begin(prescription)
        except FieldError as error:
            return error.words
        self.chain = chain
        self._watch.begin_stream()
        self._prescription = prescription
        self._record.begin(
            {
                **command.context,
                "profile": chain.profile.to_json(),
                "prescription": prescription.to_json(),
            },
            self._board.identity,
        )
        self.events.append(SetBegun(prescription, chain.profile))
        self._prescribe(prescription)
        return ""

    def _no_samples(self) -> str:
        """Why there is nothing to begin with; empty where samples come."""
        if self._board.other is not None:
            return self._board.other.words(in_set=self.set_open)
        return "" if self._sending else NO_SAMPLES

    def _own_end(self) -> str:
        """Why a set ended by itself."""
        state = self.chain.state
        all_done = state is None or len(state.outcomes) >= state.reps
        return "complete" if all_done else NEVER_LET_GO

    def end_set(self, reason: str) -> None:
        """Ends the set under way, if there is one."""
        self._end(reason, asked=True)

    def _end(self, reason: str, *, asked: bool) -> None:
        """Ends the set; `asked` from outside, or by itself with its last rep."""
        if self._prescription is None:
            return
        ended = SetEnded(reason)
        if asked:
            # Written before what follows from it, as a replay will find it.
            self._record.event(journal.to_json(ended))
            for event in self.chain.stop():
                self._tell(event)
        state = self.chain.state
        self._record.finish(
            reason,
            samples=self.chain.next_index,
            reps=len(state.outcomes) if state else 0,
        )
        self._prescription = None
        self.events.append(ended)
        self._prescribe(None)

    def _within_set(self, command: ChangeBand | ChangeTerms | MoveGate | Mark) -> str:
        """What can only be done while a set is under way."""
        asked = self._prescription
        if asked is None:
            return NO_SET
        told: list[SessionEvent] = []
        try:
            match command:
                case ChangeBand(band, reason):
                    asked = asked.with_band(band)
                    told = self.chain.change_band(band, reason)
                case ChangeTerms(terms, reason):
                    asked = terms.applied_to(asked)
                    told = self.chain.change_terms(terms, reason)
                case MoveGate(opened, reason):
                    told = self.chain.move_gate(opened=opened, reason=reason)
                case Mark():
                    now_s = self.chain.now_s
                    self._record.event(journal.mark_to_json(command, time_s=now_s))
        except FieldError as error:  # above the ceiling, or no band at all
            return error.words
        for event in told:
            self._tell(event)
        if asked is not self._prescription:
            self._prescription = asked
            self._prescribe(asked)
        return ""

    def _change_profile(self, profile: RigProfile) -> str:
        if self.set_open:
            return SET_OPEN
        if self._board.identity is not None:
            if len(profile.channels) != self._board.identity.channels:
                return phrase(
                    "The profile “{profile_name}” has {channels} "
                    "channels and the board {sent}.",
                    profile_name=profile.name,
                    channels=len(profile.channels),
                    sent=self._board.identity.channels,
                )
            profile = fitted(profile, self._board.identity)
        try:
            self._use(profile)
        except FieldError as error:
            return error.words
        if self._board.identity is not None:
            self._choice.warn_of_calibration(profile, self._board.identity)
        return ""

    # Zero.

    def _begin_zero(self, command: TakeZero) -> str:
        if self._taker is not None:
            return phrase("Zero is being taken already.")
        if problem := self._no_samples():
            return problem
        profile = self.chain.profile
        self._taker = ZeroTaker(
            command.kind, profile, rate_hz=profile.rate_hz, taken_utc=self._utc()
        )
        return ""

    def _take_zero(self, block: Block) -> None:
        outcome = self._taker.push(block) if self._taker is not None else None
        if isinstance(outcome, Zero):
            self._taker = None
            for words in zero_warnings(
                self.chain.profile, outcome, limits=self._known.limits
            ):
                self.events.append(Warned(words))
            self._limb.taken(self.chain.profile)
            self.chain.set_zero(outcome)
            self._tell(ZeroTaken(outcome))
        elif isinstance(outcome, ZeroRefused):
            self._refuse_zero(outcome)

    def _end_limb_zero(self) -> str:
        if self.set_open:
            return SET_OPEN
        if self._taker is not None and self._taker.kind is ZeroKind.LIMB_RESTING:
            self._refuse_zero(ZeroRefused(NOT_OF_THIS_LIMB))
        if self.chain.profile.zero.kind is ZeroKind.LIMB_RESTING:
            zero = self._limb.ended(self.chain.profile)
            self.chain.set_zero(zero)
            self.events.append(Warned(ended_words(zero)))
        return ""

    def _refuse_zero(self, refused: ZeroRefused) -> None:
        self._taker = None
        self.events.append(Refused(WORDS[TakeZero], refused.message))

    # Telling and writing.

    def _tell(self, event: SessionEvent) -> None:
        self.events.append(event)
        self._record.event(journal.to_json(event))

    def _warn(self, message: str) -> None:
        """Says a thing once."""
        if message not in self._warned:
            self._warned.add(message)
            self.events.append(Warned(message))

    def _prescribe(self, prescription: Prescription | None) -> None:
        if self._listener is not None:
            self._listener.prescribe(prescription)
