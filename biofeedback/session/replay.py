"""Replay: a recording judged again by the very rules of the live run.

The frames go through the same chain in the order in which they stand, and what
was done from outside (band, zero, stop) is applied at its place. So a replay of
an untouched recording gives the numbers that the live run stored, to the last
bit on the same kind of processor. With other rules it shows what would have been.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from itertools import islice
from typing import TYPE_CHECKING

from biofeedback.conditioning.profile import RigProfile, Zero
from biofeedback.conditioning.recalibration import recalibrated, rezeroed
from biofeedback.errors import FieldError, FileError, RigError
from biofeedback.logbook import recordings
from biofeedback.phrase import phrase
from biofeedback.rig import journal
from biofeedback.rig.calibration_watch import unfitting_words
from biofeedback.rig.chain import Chain
from biofeedback.rig.handoff import BandChanged, Measured, SessionEvent
from biofeedback.training.band import Band
from biofeedback.training.changes import Terms
from biofeedback.training.prescription import BandOn, ClockRule, Prescription
from biofeedback.training.slips import slips
from biofeedback.training.task import Task
from biofeedback.wire.fields import Fields
from biofeedback.wire.frames import Close, Damage, Event, Identity, Samples
from biofeedback.wire.run import Run

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import FilterChoice
    from biofeedback.measures.trace import Trace
    from biofeedback.rig.calibration_watch import CalibrationsFor
    from biofeedback.wire.frames import Frame

TOGETHER = 512
"""Frames of samples that are judged at once, where nothing was done between them: a
board sends a frame for each sample or two, and each block has its price."""
IDENTITY_WITHIN = 10
"""Frames of a recording among which the board says who it is, from the first."""
_DONE_FROM_OUTSIDE = {
    journal.BAND, journal.TERMS, journal.GATE, journal.ZERO, journal.STOP,
}  # fmt: skip
ALL_REPS = 1000
"""With rules of one's own every effort in the recording is a rep."""


@dataclass(frozen=True, slots=True)
class OtherRules:
    """What to judge by in place of what the recording holds; None keeps that.

    Attributes:
        filter: another live filter than the recorded one.
        calibrations_for: other calibrations for the board of the recording; a
            channel for which there is none keeps the one it was recorded with.
    """

    band: Band | None = None
    hold_s: float | None = None
    clock: ClockRule | None = None
    grace_s: float | None = None
    band_on: BandOn | None = None
    raw: bool = False
    filter: FilterChoice | None = None
    calibrations_for: CalibrationsFor | None = None

    @property
    def changed(self) -> bool:
        """Whether the numbers may differ from the stored ones on purpose."""
        return self != OtherRules()


ROUNDING = 1e-9
"""Two numbers this close are the same, relative or in their unit. Vector units of
processors differ in the last digits of a sum (seen: 2e-16 of a slope); a thousandth
of a count of any rig is more."""


@dataclass(frozen=True, slots=True)
class SavedMark:
    """A pain mark or a note.

    Attributes:
        time_s: since the start of the set.
        kind: ``pain`` or ``note``.
        text: in words, such as "pain 3 of 10".
        level: of a pain mark; else None.
        taken_back: of a pain mark, whether it was said later that it was a slip.
    """

    time_s: float
    kind: str
    text: str
    level: int | None = None
    taken_back: bool = False


def saved_mark(event: Fields) -> SavedMark | None:
    """The mark that an event of a recording is, or None where it is none."""
    kind = event.text("kind") if event.has("kind") else ""
    level = None
    text: str
    if kind == journal.PAIN:
        level = event.whole("level", least=0, most=10)
        text = phrase("pain {level} of 10", level=level)
    elif kind == journal.NOTE:
        text = event.text("text")
    else:
        return None
    return SavedMark(event.number("time_s"), kind, text, level)


def slipped(mark: SavedMark) -> SavedMark:
    """A pain mark that was taken back, which it says."""
    text = phrase("pain {level} of 10, taken back", level=mark.level)
    return replace(mark, text=text, taken_back=True)


@dataclass(slots=True)
class Replayed:
    """What a replay found.

    Attributes:
        reps: the numbers of each rep, worked out again.
        stored: the numbers that the live run stored, as they stand in the file.
        bands: (time, band) from the start on, as judged.
        blocks: all conditioned samples, where they were asked for.
        joined: the same in one piece, once somebody put them together.
        lost: samples lost.
        damaged: frames that could not be read.
        misfits: frames of samples that do not fit the profile: of another stream,
            or of another number of channels.
        recovered: whether the close frame is missing.
        recorded_profile: as it stands in the recording; `profile` is the one that
            was judged by, and differs where another calibration was asked for.
    """

    path: Path
    header: Mapping[str, object]
    profile: RigProfile
    prescription: Prescription
    recorded_profile: RigProfile
    reps: list[Mapping[str, object]] = field(default_factory=list)
    stored: list[Mapping[str, object]] = field(default_factory=list)
    bands: list[tuple[float, Band]] = field(default_factory=list)
    events: list[Mapping[str, object]] = field(default_factory=list)
    blocks: list[Block] = field(default_factory=list)
    joined: Trace | None = None
    samples: int = 0
    lost: int = 0
    damaged: int = 0
    misfits: int = 0
    duration_s: float = 0.0
    recovered: bool = True

    def let_go(self) -> None:
        """Forgets the force; all else stays."""
        self.blocks, self.joined = [], None

    @property
    def marks(self) -> tuple[SavedMark, ...]:
        """Pain marks and notes, in order of time."""
        found = [
            (saved_mark(Fields(event, "event")), event.get("kind"))
            for event in self.events
        ]
        steps = [
            mark is not None
            for mark, kind in found
            if kind == journal.PAIN_BACK
            or (mark is not None and mark.level is not None)
        ]
        back = iter(slips(steps))
        return tuple(
            slipped(mark) if mark.level is not None and next(back) else mark
            for mark, _ in found
            if mark is not None
        )

    @property
    def agrees(self) -> bool | None:
        """Whether the stored reps came out again; None where none are stored.

        Numbers that were not measured yet when the recording was made are left
        out. A number that is not measured any more does not come out again.
        Another processor may add up in another order: see `ROUNDING`.
        """
        if not self.stored:
            return None
        whole = not self.recovered and not self.damaged
        if whole and len(self.reps) != len(self.stored):
            return False
        again = {rep["number"]: rep for rep in self.reps}
        return all(
            _same(stored, again.get(stored.get("number"), {})) for stored in self.stored
        )


def _same(stored: object, again: object) -> bool:
    """Whether what is stored came out again; `again` may know more numbers."""
    if isinstance(stored, Mapping) and isinstance(again, Mapping):
        return all(
            key in again and _same(value, again[key]) for key, value in stored.items()
        )
    if isinstance(stored, list) and isinstance(again, list):
        return len(stored) == len(again) and all(map(_same, stored, again))
    if isinstance(stored, float) and isinstance(again, float):
        return math.isclose(stored, again, rel_tol=ROUNDING, abs_tol=ROUNDING)
    return stored == again


def replay(
    path: Path, rules: OtherRules | None = None, *, keep_blocks: bool = False
) -> Replayed:
    """Judges a recording again.

    Args:
        path: the recording.
        rules: what to judge by in place of what the recording holds.
        keep_blocks: keep all samples, for drawing.

    Raises:
        FileError: the file cannot be read, or holds no prescription and none is
            given.
    """
    return ReplayRun(path, rules or OtherRules(), keep_blocks=keep_blocks).run()


class ReplayRun:
    """One run over one file: whole by `run`, or frame by frame by `take`.

    Args:
        heard: is given all events as they come; None where only numbers are wanted.
        together: frames of samples that are judged at once; 1 for each as it comes.

    Raises: as `replay`.
    """

    def __init__(
        self,
        path: Path,
        rules: OtherRules,
        *,
        keep_blocks: bool,
        heard: Callable[[list[SessionEvent]], None] | None = None,
        together: int = TOGETHER,
    ) -> None:
        self._rules = rules
        self._heard = heard
        self._together = together
        self._keep_blocks = keep_blocks
        self._recording = recordings.read(path)
        header = Fields(self._recording.header, "header")
        try:
            self._recorded = RigProfile.from_json(header.inner("profile"))
            self._profile = _profile(self._recorded, rules, self._board)
            if rules.filter is not None:
                self._profile = replace(self._profile, filter=rules.filter)
            self._prescription = _prescription(header, rules)
            self._chain = Chain(self._profile, raw=rules.raw)
            self._chain.begin(self._prescription)
        except FieldError as error:
            raise FileError(path, error.words) from error
        self._found = Replayed(
            path,
            self._recording.header,
            self._profile,
            self._prescription,
            self._recorded,
        )
        self._found.bands.append((0.0, self._prescription.band))
        self._waiting: list[Samples | Run] = []
        self._waiting_frames = 0

    def _board(self) -> Identity | None:
        """Who the board said it is: right after the header."""
        first = islice(self._recording.frames(), IDENTITY_WITHIN)
        return next((frame for frame in first if isinstance(frame, Identity)), None)

    @property
    def chain(self) -> Chain:
        """Through which the frames go."""
        return self._chain

    @property
    def found(self) -> Replayed:
        """What was found so far."""
        return self._found

    def frames(self) -> Iterator[Frame | Damage]:
        """All frames of the file, each for `take`."""
        return self._recording.frames()

    def run(self) -> Replayed:
        """Goes through the frames once."""
        try:
            for found in self._recording.pieces():
                self.take(found)
            self._judge()
        except FieldError as error:
            raise FileError(
                self._found.path,
                error.words,
                place=phrase("near {now_s:.3f} s", now_s=self._chain.now_s),
            ) from error
        self.finish()
        return self._found

    def finish(self) -> None:
        """After the last frame: a rep under way is kept as stopped."""
        self._judge()
        if self._chain.set_open:
            self._tell(self._chain.stop())
        self._found.duration_s = self._chain.now_s

    def take(self, frame: Frame | Damage | Run) -> None:
        """One frame, or some that were decoded together, judged or applied.

        Raises:
            FieldError: what it holds does not fit.
        """
        if isinstance(frame, Samples):
            self._wait(frame, frames=1)
        elif isinstance(frame, Run):
            for begin in range(0, len(frame), self._together):
                part = frame.part(begin, min(len(frame), begin + self._together))
                self._wait(part, frames=len(part))
        elif isinstance(frame, Event):
            self._apply(Fields(frame.content, "event"))
        elif isinstance(frame, Damage):
            self._found.damaged += 1
        elif isinstance(frame, Close):
            self._found.recovered = False

    def _wait(self, samples: Samples | Run, *, frames: int) -> None:
        try:
            self._chain.check(samples)
        except RigError:
            self._found.misfits += frames  # passed over here as in the live run
            return
        self._waiting.append(samples)
        self._waiting_frames += frames
        if self._waiting_frames >= self._together:
            self._judge()

    def _judge(self) -> None:
        """What waits goes through the chain."""
        step = self._chain.push_all(self._waiting)
        self._waiting, self._waiting_frames = [], 0
        for block in step.blocks:
            self._found.samples += len(block)
            self._found.lost += block.lost
        if self._keep_blocks:
            self._found.blocks += step.blocks
        self._tell(step.events)

    def _apply(self, event: Fields) -> None:
        """What was done from outside is done again; what followed is not."""
        kind = event.text("kind") if event.has("kind") else ""
        self._found.events.append(event.values)
        if kind in _DONE_FROM_OUTSIDE:
            self._judge()  # it took effect after all samples before it
        if kind == journal.BAND and self._rules.band is None:
            band = Band.from_json(event.inner("new"))
            self._tell(self._chain.change_band(band, ""))
        elif kind == journal.TERMS and self._rules.band is None:
            terms = Terms.from_json(event.inner("new"))
            if self._rules.hold_s is not None:
                terms = replace(terms, hold_s=None)
            self._tell(self._chain.change_terms(terms, ""))
        elif kind == journal.GATE and self._rules.band is None:
            self._tell(self._chain.move_gate(opened=event.flag("open"), reason=""))
        elif kind == journal.ZERO:
            zero = Zero.from_json(event.inner("zero"))
            self._chain.set_zero(
                rezeroed(zero, self._recorded.channels, self._profile.channels)
            )
        elif kind == journal.STOP:
            self._tell(self._chain.stop())
        elif kind == journal.REP_END:
            self._found.stored.append(event.inner("rep").values)

    def _tell(self, events: list[SessionEvent]) -> None:
        if self._heard is not None:
            self._heard(events)
        for event in events:
            if isinstance(event, Measured):
                self._found.reps.append(event.rep)
            elif isinstance(event, BandChanged):
                self._found.bands.append((event.time_s, event.new))


def _profile(
    recorded: RigProfile, rules: OtherRules, board_of: Callable[[], Identity | None]
) -> RigProfile:
    """What the recording was made with, with other calibrations in their place."""
    if rules.calibrations_for is None:
        return recorded
    if not recorded.serial_number:
        raise FieldError(
            "header.profile.serial_number",
            phrase(
                "names no board, so no other calibration can be told to be its own."
            ),
        )
    told = recorded
    board = board_of()
    if board is not None:  # the profiles of the first recordings do not tell it
        told = replace(recorded, adc=board.adc, gain=board.gain)
    found = [
        rules.calibrations_for(recorded.serial_number, index, told.gain)
        for index in range(len(recorded.channels))
    ]
    if not any(found):
        raise FieldError(
            "calibration",
            phrase(
                "no such calibration of {serial_number} is in the logbook.",
                serial_number=recorded.serial_number,
            ),
            phrase("Look at the label, or name the logbook with --logbook."),
        )
    for index, record in enumerate(found):
        if record is not None and not record.fits(told.adc, told.gain):
            raise FieldError("calibration", unfitting_words(record, told, index))
    return recalibrated(recorded, found)


def _prescription(header: Fields, rules: OtherRules) -> Prescription:
    """What the recording was made with, with other rules put in its place."""
    if header.has("prescription"):
        asked = Prescription.from_json(header.inner("prescription"))
        if rules.band is not None:
            asked = replace(asked, band=rules.band, reps=ALL_REPS, ceiling_n=None)
    elif rules.band is None:
        raise FieldError(
            "header.prescription",
            phrase("this recording was made without one."),
            phrase("Give a band to judge it by, for example --band 60:96 --hold 10."),
        )
    else:
        asked = Prescription(
            task=Task("replay"), band=rules.band, hold_s=10.0, reps=ALL_REPS
        )
    return replace(
        asked,
        hold_s=asked.hold_s if rules.hold_s is None else rules.hold_s,
        clock=asked.clock if rules.clock is None else rules.clock,
        grace_s=asked.grace_s if rules.grace_s is None else rules.grace_s,
        band_on=asked.band_on if rules.band_on is None else rules.band_on,
    )
