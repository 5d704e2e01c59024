"""The worker, stepped by hand and in its thread, on sources of the product."""

from __future__ import annotations

import os
import threading
import time
from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import numpy as np
import pytest

from biofeedback.conditioning.profile import Zero, ZeroKind
from biofeedback.errors import FileError, RigError
from biofeedback.logbook import recording_format
from biofeedback.phrase import phrase
from biofeedback.rig.commands import (
    BeginSet,
    ChangeBand,
    ChangeProfile,
    ChangeTerms,
    EndSet,
    Mark,
    MoveGate,
    TakeZero,
)
from biofeedback.rig.faults import Fault, FaultKind
from biofeedback.rig.force_input import ForceProfile
from biofeedback.rig.handoff import (
    BandChanged,
    Link,
    Measured,
    Refused,
    SessionEvent,
    SetBegun,
    SetEnded,
    Warned,
    ZeroTaken,
)
from biofeedback.rig.nominal import NO_BOARD, nominal_profile
from biofeedback.rig.serial_source import SerialSource
from biofeedback.rig.serve import RigServer, TerminalLine
from biofeedback.rig.simulated_athlete import SimulatedAthlete
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.rig.simulated_source import SimulatedSource
from biofeedback.rig.source import SourceEnded
from biofeedback.rig.worker import Worker
from biofeedback.session.replay import replay
from biofeedback.training import hold
from biofeedback.training.band import Band
from biofeedback.training.changes import Terms
from biofeedback.training.events import Outcome, RepCompleted, RepEnded, RepStarted
from biofeedback.training.prescription import BandOn, Prescription
from biofeedback.training.task import Task
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import (
    Close,
    Damage,
    Event,
    Frame,
    Header,
    Identity,
    Samples,
    Status,
)

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from biofeedback.conditioning.block import Block

STEP_US = 20_000
NS = 1_000_000_000
DEADLINE_S = 20.0
ASKED = Prescription(task=Task("push"), band=Band(50, 70), hold_s=3.0, reps=1, rest_s=2)
# 0 N for 1.5 s, up to 60 N, there for 4 s, down again; again after 10 s.
PUSH = ForceProfile(
    (
        (0.0, 0.0, 0.0),
        (2.0, 0.0, 0.0),
        (3.0, 30.0, 30.0),
        (8.0, 30.0, 30.0),
        (8.5, 0.0, 0.0),
    )
)


class MemoryRecorder:
    """Keeps recordings as bytes, as they would stand in files."""

    def __init__(self) -> None:
        self.files: list[bytearray] = []
        self.failing = False
        self.failure = ""

    def begin(self, header: dict[str, object]) -> None:
        content = recording_format.completed(
            header, set_id="set", started_utc=datetime(2026, 1, 12, tzinfo=UTC)
        )
        self.files.append(bytearray(encode(Header(content))))

    def put(self, data: bytes) -> None:
        self.files[-1] += data

    def event(self, content: dict[str, object], *, sequence: int) -> None:
        self.files[-1] += encode(Event(content, sequence))

    def finish(self, totals: dict[str, object], *, sequence: int) -> None:
        self.files[-1] += encode(Close(totals, sequence))

    def take_failure(self) -> str:
        failure, self.failure = self.failure, ""
        return failure

    def frames(self, number: int = -1) -> list[Frame | Damage]:
        return Decoder().push(bytes(self.files[number]))


class Bench:
    """A worker on a stepped simulated rig, with a clock that steps along."""

    def __init__(self, rig: SimulatedRig, **options: object) -> None:
        self.now_ns = NS
        self.recorder = MemoryRecorder()
        self.source = SimulatedSource(rig, step_us=STEP_US, **options)  # type: ignore[arg-type]  # options by name
        self.worker = Worker(
            self.source, recorder=self.recorder, clock=lambda: self.now_ns
        )
        self.events: list[SessionEvent] = []
        self.blocks: list[Block] = []

    def run(self, duration_s: float) -> list[SessionEvent]:
        """Lets time pass; gives the events of that time."""
        new: list[SessionEvent] = []
        for _ in range(round(duration_s * 1e6 / STEP_US)):
            self.now_ns += 1000 * STEP_US
            self.worker.step()
            update = self.worker.handoff.take()
            new += update.events
            self.blocks += update.blocks
            self.update = update
        self.events += new
        return new

    def link(self) -> Link:
        return self.update.health.link

    def saturated(self) -> bool:
        return self.update.health.saturated

    def recording(self) -> bool:
        return self.update.health.recording

    def numbers(self) -> list[int]:
        return [int(n) for block in self.blocks for n in block.counts[:, 0]]


def bench(**settings: object) -> Bench:
    """A rig on which somebody pushes once."""
    return Bench(SimulatedRig(RigSettings(**settings), force=PUSH))  # type: ignore[arg-type]  # settings by name


def kinds(events: list[SessionEvent]) -> list[type]:
    return [type(event) for event in events]


# Opening and the stream.


def test_starts_the_board_and_shows_its_force() -> None:
    rig = bench()
    rig.run(1)
    health = rig.update.health
    assert health.link is Link.LIVE
    assert health.message == ""
    assert health.rate_hz == pytest.approx(80, rel=1e-3)
    assert health.lost == health.damaged == 0
    assert rig.update.profile.rate_hz == 80
    assert [channel.name for channel in rig.update.profile.channels] == [
        "left",
        "right",
    ]
    force_n = np.concatenate([block.force_n for block in rig.blocks])
    assert np.nanmean(force_n) == pytest.approx(0, abs=0.02)
    assert rig.update.state is None
    rig.worker.stop()


@pytest.mark.parametrize("rate_hz", [10.0, 80.0, 1000.0, 2000.0])
def test_no_sample_is_lost_doubled_or_moved(rate_hz: float) -> None:
    rig = bench(numbered=True, rate_hz=rate_hz)
    rig.run(5)
    rig.worker.stop()
    assert rig.numbers() == list(range(len(rig.numbers())))
    assert len(rig.numbers()) == pytest.approx(5 * rate_hz, abs=0.05 * rate_hz + 10)
    both = np.concatenate([block.counts for block in rig.blocks])
    np.testing.assert_array_equal(both[:, 1], -both[:, 0] - 1)
    index = np.concatenate(
        [block.first_index + np.arange(len(block)) for block in rig.blocks]
    )
    np.testing.assert_array_equal(index, both[:, 0])


def test_one_cell_gets_a_profile_of_one() -> None:
    rig = bench(channels=1)
    rig.run(1)
    assert len(rig.update.profile.channels) == 1
    assert rig.link() is Link.LIVE
    rig.worker.stop()


def test_calibrated_profile_is_kept_at_the_boards_rate() -> None:
    board = SimulatedRig(RigSettings(rate_hz=320))
    (identity,) = Decoder().push(board.advance(0))
    assert isinstance(identity, Identity)
    nominal = nominal_profile(identity)
    mine = replace(
        nominal,
        name="mine",
        rate_hz=80.0,
        channels=tuple(
            replace(channel, calibration=replace(channel.calibration, label="0042"))
            for channel in nominal.channels
        ),
    )
    worker = Worker(SimulatedSource(board, step_us=STEP_US), mine)
    for _ in range(5):
        worker.step()
    update = worker.handoff.take()
    worker.stop()
    assert update.profile == replace(mine, rate_hz=320.0)
    assert not update.events


def test_nominal_calibration_of_a_real_board_is_announced() -> None:
    class Other(SimulatedSource):
        """The same rig under another name."""

        def read(self) -> bytes:
            frames = Decoder().push(super().read())
            return b"".join(
                encode(replace(f, adc="HX711") if isinstance(f, Identity) else f)
                for f in frames
                if not isinstance(f, Damage)
            )

    worker = Worker(Other(SimulatedRig(), step_us=STEP_US))
    for _ in range(20):
        worker.step()
    (event,) = worker.handoff.take().events
    worker.stop()
    assert isinstance(event, Warned)
    assert event.message.startswith("Nominal calibration for HX711 SIM-0001")


# A set.


def test_a_set_is_judged_recorded_and_replays_to_the_same_numbers(
    tmp_path: Path,
) -> None:
    rig = bench()
    rig.run(1)
    rig.worker.send(BeginSet(ASKED, {"athlete_code": "A-1"}))
    events = rig.run(9)
    assert kinds(events) == [
        SetBegun,
        RepStarted,
        RepCompleted,
        RepEnded,
        Measured,
        SetEnded,
    ]
    ended, measured = events[3], events[4]
    assert isinstance(ended, RepEnded)
    assert ended.rep.outcome is Outcome.COMPLETE
    assert isinstance(measured, Measured)
    assert events[5] == SetEnded("complete")
    assert rig.update.state is not None
    assert rig.update.state.outcomes == (Outcome.COMPLETE,)
    assert not rig.recording()

    header, identity, *rest = rig.recorder.frames()
    assert isinstance(header, Header)
    assert header.content["athlete_code"] == "A-1"
    assert isinstance(identity, Identity)
    assert isinstance(rest[-1], Close)
    assert rest[-1].content["reason"] == "complete"
    assert not any(isinstance(frame, Damage) for frame in rest)

    path = tmp_path / "set.bin"
    path.write_bytes(rig.recorder.files[0])
    replayed = replay(path)
    assert replayed.reps == [measured.rep]
    assert replayed.agrees
    rig.worker.stop()


class AtOnce(SimulatedSource):
    """Gives in a set what it has only at every 30th read, as a reader that was late."""

    def __init__(self, rig: SimulatedRig) -> None:
        super().__init__(rig, step_us=STEP_US)
        self.held: list[bytes] = []
        self.late = False

    def read(self) -> bytes:
        self.held.append(super().read())
        if self.late and len(self.held) < 30:
            return b""
        came = b"".join(self.held)
        self.held.clear()
        return came


def order_of(rig: Bench) -> list[tuple[type, int]]:
    """What the board sent, as it was recorded."""
    return [
        (type(one), one.sequence)
        for one in rig.recorder.frames()
        if isinstance(one, Samples | Status)
    ]


@pytest.mark.parametrize("rate_hz", [80.0, 1000.0])
def test_frames_that_come_at_once_give_what_they_give_one_by_one(
    rate_hz: float, tmp_path: Path
) -> None:
    def done(*, late: bool) -> tuple[Bench, list[SessionEvent]]:
        rig = bench(rate_hz=rate_hz)
        rig.source = AtOnce(SimulatedRig(RigSettings(rate_hz=rate_hz), force=PUSH))
        rig.worker = Worker(rig.source, recorder=rig.recorder, clock=lambda: rig.now_ns)
        rig.run(1)
        rig.source.late = late
        rig.worker.send(BeginSet(ASKED, {"athlete_code": "A-1"}))
        events = rig.run(9)
        rig.worker.stop()
        return rig, events

    one_by_one, told = done(late=False)
    at_once, told_late = done(late=True)
    assert told_late == told
    assert Measured in kinds(told)
    numbers = one_by_one.numbers()
    assert at_once.numbers() == numbers[: len(at_once.numbers())]
    path = tmp_path / "set.bin"
    path.write_bytes(at_once.recorder.files[0])
    assert replay(path).agrees
    # As on the line, whatever lies between samples.
    order = order_of(one_by_one)
    assert order_of(at_once)[: len(order)] == order
    kept = [one for one in at_once.recorder.frames() if isinstance(one, Samples)]
    close = at_once.recorder.frames()[-1]
    assert isinstance(close, Close)
    assert close.content["samples"] == sum(len(one.counts) for one in kept)


class Torn(SimulatedSource):
    """A port that goes after some more reads."""

    reads_left: int | None = None

    def read(self) -> bytes:
        if self.reads_left is not None:
            self.reads_left -= 1
            if self.reads_left < 0:
                raise RigError(phrase("The port is gone."))
        return super().read()


@pytest.mark.parametrize("reads_left", [2, 1])
def test_after_a_rest_what_has_waited_is_judged_with_what_follows(
    reads_left: int,
) -> None:
    rig = bench(rate_hz=1000.0)
    source = Torn(
        SimulatedRig(RigSettings(rate_hz=1000.0), force=PUSH), step_us=STEP_US
    )
    rig.worker = Worker(source, recorder=rig.recorder, clock=lambda: rig.now_ns)
    rig.run(2)
    rig.worker.send(BeginSet(ASKED, {}))
    rig.run(1.5)  # no status is due then, which would come between
    rig.blocks.clear()
    rig.worker.handoff.look_at(rig.now_ns + 5_000_000)
    source.reads_left = reads_left
    rig.worker._rest()
    rig.run(STEP_US / 1e6)
    assert source.reads_left == min(0, reads_left - 2)
    (block,) = rig.blocks
    # A frame may lie across the end of a step.
    assert len(block) == pytest.approx(reads_left * STEP_US / 1000, abs=8)
    assert rig.link() is (Link.LIVE if reads_left == 2 else Link.LOST)
    # Who says when it looks is told of what is brought then.
    brought = rig.worker.handoff.look_at(rig.now_ns + 5_000_000, lambda: None)
    assert brought is (reads_left == 2)
    rig.run(STEP_US / 1e6)  # with a read of its own, which meets a port that is gone
    assert rig.link() is Link.LOST
    rig.worker.stop()
    kept = [one for one in rig.recorder.frames() if isinstance(one, Samples)]
    assert kept[-1].counts[-1, 0] == rig.numbers()[-1]


class Spoilt(SimulatedSource):
    """A recording that cannot be read any more, and is then at its end."""

    def __init__(self, rig: SimulatedRig) -> None:
        super().__init__(rig, step_us=STEP_US)
        self.whole = True
        self.reads = 0

    def read(self) -> bytes:
        self.reads += not self.whole
        if self.reads == 2:
            raise FileError("x.bin", phrase("cannot be read."))
        if self.reads > 2:
            raise SourceEnded
        return super().read()


def test_what_goes_wrong_in_the_read_after_a_rest_is_told() -> None:
    rig = bench(rate_hz=1000.0)
    source = Spoilt(SimulatedRig(RigSettings(rate_hz=1000.0), force=PUSH))
    rig.worker = Worker(source, recorder=rig.recorder, clock=lambda: rig.now_ns)
    rig.run(2)
    rig.worker.send(BeginSet(ASKED, {}))
    rig.run(1.5)
    rig.blocks.clear()
    rig.worker.handoff.look_at(rig.now_ns + 5_000_000)
    source.whole = False
    rig.worker._rest()
    rig.run(2 * STEP_US / 1e6)
    assert rig.update.health.message == "x.bin: cannot be read."
    assert rig.link() is Link.LOST
    assert rig.blocks  # what had come before it
    rig.worker.stop()


def test_a_strap_left_under_tension_is_no_complete_set(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(hold, "LONGER_BY_S", 2.0)  # half an hour is long to step
    force = ForceProfile(((0.0, 0.0, 0.0), (2.0, 0.0, 0.0), (3.0, 30.0, 30.0)))
    rig = Bench(SimulatedRig(force=force))
    rig.run(1)
    rig.worker.send(BeginSet(replace(ASKED, reps=3)))
    events = rig.run(8)
    (rep,) = [event.rep for event in events if isinstance(event, RepEnded)]
    assert rep.outcome is Outcome.COMPLETE  # the hold itself was reached
    assert SetEnded("the force was never let go") in events
    close = rig.recorder.frames()[-1]
    assert isinstance(close, Close)
    assert close.content["reason"] == "the force was never let go"
    rig.worker.stop()


def test_a_worker_that_has_ended_takes_no_command_in_silence() -> None:
    rig = bench()
    rig.run(1)
    rig.worker.stop()
    with pytest.raises(RigError, match="no longer read"):
        rig.worker.send(BeginSet(ASKED))


def test_recording_holds_all_frames_since_it_began_and_none_before() -> None:
    rig = bench(numbered=True, rate_hz=1000.0)
    rig.run(1)
    seen = len(rig.numbers())
    rig.worker.send(BeginSet(ASKED))
    rig.run(1)
    rig.worker.send(EndSet())
    rig.run(0.5)
    recorded = [
        int(n)
        for frame in rig.recorder.frames()
        if isinstance(frame, Samples)
        for n in frame.counts[:, 0]
    ]
    assert recorded[0] == seen
    assert recorded == list(range(seen, seen + len(recorded)))
    assert len(recorded) == pytest.approx(1000, abs=10)
    rig.worker.stop()
    # A fresh chain: the first sample of the set is at 0 s and has number 0.
    begun = next(b for b in rig.blocks if b.counts[0, 0] == seen)
    assert begun.first_index == 0
    assert begun.time_s[0] == 0


def test_nudge_zero_and_notes_stand_where_they_took_effect(tmp_path: Path) -> None:
    force = ForceProfile(((0.0, 2.0, 1.0), (4.0, 2.0, 1.0), (5.0, 32.0, 31.0)))
    rig = Bench(SimulatedRig(force=force))
    rig.run(1)
    rig.worker.send(BeginSet(ASKED))
    rig.run(0.5)
    rig.worker.send(TakeZero(ZeroKind.LIMB_RESTING))
    rig.run(2)
    rig.worker.send(ChangeBand(Band(55, 75), "too easy"))
    rig.worker.send(Mark("pain", {"level": 3}))
    rig.run(4.8)
    rig.worker.send(ChangeBand(Band(45, 65), "pain"))
    rig.run(0.5)
    rig.worker.send(EndSet("pain"))
    rig.run(0.1)
    rig.worker.stop()
    (zero,) = [event.zero for event in rig.events if isinstance(event, ZeroTaken)]
    assert zero.offsets_n == pytest.approx((2.0, 1.0), abs=0.02)
    assert rig.update.profile.zero == zero
    nudges = [event for event in rig.events if isinstance(event, BandChanged)]
    assert [(nudge.old, nudge.new) for nudge in nudges] == [
        (Band(50, 70), Band(55, 75)),
        (Band(55, 75), Band(45, 65)),
    ]
    written = [f for f in rig.recorder.frames() if isinstance(f, Event)]
    assert [frame.content["kind"] for frame in written] == [
        "zero",
        "band",
        "pain",
        "rep start",
        "complete",
        "band",
        "stop",
        "rep end",
    ]
    # The sequence says which sample comes next.
    following: list[int] = []
    frames = rig.recorder.frames()
    for place, frame in enumerate(frames):
        if isinstance(frame, Event):
            after = [f for f in frames[place:] if isinstance(f, Samples)]
            following.append(after[0].sequence if after else frame.sequence)
    assert [frame.sequence for frame in written] == following
    path = tmp_path / "set.bin"
    path.write_bytes(rig.recorder.files[0])
    replayed = replay(path)
    (measured,) = [event for event in rig.events if isinstance(event, Measured)]
    assert replayed.reps == [measured.rep]
    assert replayed.bands[1:] == [(nudge.time_s, nudge.new) for nudge in nudges]


def test_changed_terms_and_a_moved_gate_replay_to_the_same_numbers(
    tmp_path: Path,
) -> None:
    # Two efforts: the first while reps are held back, the second for the rep.
    force = ForceProfile(
        (
            (0.0, 0.0, 0.0),
            (3.0, 30.0, 30.0),
            (4.0, 30.0, 30.0),
            (4.5, 0.0, 0.0),
            (6.0, 0.0, 0.0),
            (6.5, 30.0, 30.0),
            (30.0, 30.0, 30.0),
        )
    )
    rig = Bench(SimulatedRig(force=force))
    rig.run(1)
    rig.worker.send(BeginSet(ASKED))
    rig.worker.send(MoveGate(open=False, reason="pause"))
    rig.run(4)
    rig.worker.send(MoveGate(open=True, reason="resume"))
    rig.run(3)
    rig.worker.send(ChangeTerms(Terms(hold_s=1.0), "weaker today"))
    rig.run(1)
    rig.worker.send(ChangeTerms(Terms(reps=0), "no more"))
    rig.worker.send(EndSet())
    rig.run(0.2)
    rig.worker.stop()
    (rep,) = [event.rep for event in rig.events if isinstance(event, RepEnded)]
    assert rep.start_s > 4
    assert rep.hold_s == 1.0 < ASKED.hold_s
    assert [
        frame.content for frame in rig.recorder.frames() if isinstance(frame, Event)
    ][:2] == [
        {"kind": "gate", "time_s": 0.0, "open": False, "reason": "pause"},
        {
            "kind": "gate",
            "time_s": pytest.approx(4, abs=0.1),
            "open": True,
            "reason": "resume",
        },
    ]
    (change,) = [
        frame.content
        for frame in rig.recorder.frames()
        if isinstance(frame, Event) and frame.content["kind"] == "terms"
    ]
    assert (change["old"], change["new"], change["reason"]) == (
        {"hold_s": ASKED.hold_s},
        {"hold_s": 1.0},
        "weaker today",
    )
    (refused,) = [event for event in rig.events if isinstance(event, Refused)]
    assert "reps" in refused.message
    path = tmp_path / "set.bin"
    path.write_bytes(rig.recorder.files[0])
    replayed = replay(path)
    (measured,) = [event for event in rig.events if isinstance(event, Measured)]
    assert replayed.reps == [measured.rep]


def test_stopped_rep_is_never_lost() -> None:
    rig = bench()
    rig.run(1)
    rig.worker.send(BeginSet(ASKED))
    rig.run(3)
    assert rig.recording()
    rig.worker.stop()
    events = rig.worker.handoff.take().events
    assert kinds(list(events)) == [RepEnded, Measured, SetEnded]
    assert isinstance(events[0], RepEnded)
    assert events[0].rep.outcome is Outcome.STOPPED
    *_, stop, rep, close = rig.recorder.frames()
    assert isinstance(stop, Event)
    assert stop.content == {"kind": "stop", "reason": "closed"}
    assert isinstance(rep, Event)
    assert rep.content["kind"] == "rep end"
    assert isinstance(close, Close)
    assert rig.worker.handoff.take().health.link is Link.ENDED


def test_two_sets_give_two_recordings() -> None:
    rig = bench()
    rig.run(1)
    for reason in ("first", "second"):
        rig.worker.send(BeginSet(ASKED))
        rig.run(0.5)
        rig.worker.send(EndSet(reason))
        rig.run(0.5)
    rig.worker.stop()
    closes = [rig.recorder.frames(number)[-1] for number in (0, 1)]
    assert [c.content["reason"] for c in closes if isinstance(c, Close)] == [
        "first",
        "second",
    ]
    assert len(rig.recorder.files) == 2


# Commands that cannot be carried out.


def test_refuses_in_words() -> None:
    rig = bench(channels=1)
    rig.run(1)
    profile = rig.update.profile
    for command in (
        EndSet(),
        ChangeBand(Band(1, 2)),
        Mark("note", {"text": "x"}),
        BeginSet(replace(ASKED, band_on=BandOn.EACH_SIDE)),
        ChangeProfile(NO_BOARD),
        BeginSet(ASKED),
        BeginSet(ASKED),
        ChangeProfile(profile),
        TakeZero(ZeroKind.EMPTY_RIG),
        TakeZero(ZeroKind.EMPTY_RIG),
    ):
        rig.worker.send(command)
    refused = [event for event in rig.run(0.1) if isinstance(event, Refused)]
    assert [event.command for event in refused] == [
        "end set",
        "change band",
        "mark",
        "begin set",
        "change profile",
        "begin set",
        "change profile",
        "take zero",
    ]
    assert all(event.message.endswith(".") for event in refused)
    rig.worker.stop()


def test_zero_is_refused_where_something_pulls() -> None:
    rig = Bench(SimulatedRig(force=ForceProfile(((0.0, 0.0, 900.0),))))
    rig.run(1)
    rig.worker.send(TakeZero(ZeroKind.EMPTY_RIG))
    (event,) = rig.run(2)
    assert isinstance(event, Refused)
    assert "right cell" in event.message
    assert rig.update.profile.zero == Zero.none(2)
    rig.worker.stop()


def test_zero_is_given_up_when_samples_stop() -> None:
    rig = bench()
    rig.run(1)
    rig.worker.send(TakeZero(ZeroKind.EMPTY_RIG))
    rig_fault(rig, Fault(FaultKind.VANISH, at_s=1.3))
    (event,) = rig.run(2)
    assert isinstance(event, Refused)
    assert "Only" in event.message
    rig.worker.stop()


def rig_fault(rig: Bench, fault: Fault) -> None:
    rig.source._rig.ask(fault)


def test_profile_changes_between_sets() -> None:
    rig = bench()
    rig.run(1)
    mine = replace(
        rig.update.profile, filter=replace(rig.update.profile.filter, cutoff_hz=5.0)
    )
    rig.worker.send(ChangeProfile(mine))
    rig.run(0.2)
    assert rig.update.profile == mine
    # Order 2 at 5 Hz and 80 Hz delays 44.4358 ms at DC.
    assert rig.update.health.filter_delay_s == pytest.approx(0.0444358, abs=1e-6)
    rig.worker.stop()


def test_failing_recording_is_told_and_the_set_goes_on() -> None:
    rig = bench()
    rig.run(1)
    rig.worker.send(BeginSet(ASKED))
    rig.run(0.5)
    assert rig.recording()
    rig.recorder.failing, rig.recorder.failure = True, "The disk is full."
    assert rig.run(0.1) == [Warned("The disk is full.")]
    assert not rig.recording()
    rig.recorder.failing, rig.recorder.failure = False, "It is written again."
    assert rig.run(0.1) == [Warned("It is written again.")]
    assert rig.recording()
    rig.recorder.failure = "The logbook is busy."
    assert rig.run(0.1) == [Warned("The logbook is busy.")]
    assert rig.recording()
    assert RepCompleted in kinds(rig.run(9))
    rig.worker.stop()


# The athlete is told.


def test_athlete_hears_the_prescription_and_the_nudge() -> None:
    athlete = SimulatedAthlete(4)
    rig = Bench(SimulatedRig(force=athlete, seed=4), athlete=athlete)
    rig.run(1)
    rig.worker.send(BeginSet(replace(ASKED, hold_s=20)))
    rig.run(6)
    assert 50 < total_n(rig) < 70
    rig.worker.send(ChangeBand(Band(80, 100)))
    rig.run(0.1)
    assert 50 < total_n(rig) < 70  # nobody reacts within 0.1 s
    rig.run(2)
    assert 78 < total_n(rig) < 102
    rig.worker.send(EndSet())
    rig.run(2)
    assert total_n(rig) < 3
    rig.worker.stop()


def total_n(rig: Bench) -> float:
    return float(rig.blocks[-1].shown_n[-1].sum())


# What goes wrong on the way.


def test_lost_samples_are_counted_and_leave_a_gap() -> None:
    rig = bench(numbered=True, rate_hz=1000.0)
    rig_fault(rig, Fault(FaultKind.DROP, at_s=1.0, duration_s=0.05))
    rig.run(2)
    assert rig.update.health.lost == 50
    (after,) = [block for block in rig.blocks if block.lost]
    assert after.lost == 50
    index = [block.first_index for block in rig.blocks]
    counted = [int(block.counts[0, 0]) for block in rig.blocks]
    assert index == counted
    rig.worker.stop()


def test_damaged_frames_are_counted_and_recorded_as_they_came(tmp_path: Path) -> None:
    rig = bench(rate_hz=1000.0)
    rig.run(1)
    rig.worker.send(BeginSet(ASKED))
    rig_fault(rig, Fault(FaultKind.FLIP, at_s=2.5, duration_s=0.2))
    rig.run(9)
    rig.worker.stop()
    assert rig.update.health.damaged >= 20
    path = tmp_path / "set.bin"
    path.write_bytes(rig.recorder.files[0])
    replayed = replay(path)
    assert replayed.damaged == rig.update.health.damaged
    assert replayed.lost == rig.update.health.lost > 0
    measured = [event.rep for event in rig.events if isinstance(event, Measured)]
    assert replayed.reps == measured
    assert len(measured) == 1


def test_silent_chip_dead_line_and_saturation_are_told_apart() -> None:
    rig = bench()
    rig_fault(rig, Fault(FaultKind.SATURATE, at_s=1.0, duration_s=1.0, channel=1))
    rig_fault(rig, Fault(FaultKind.SILENT, at_s=3.0, duration_s=4.0))
    rig_fault(rig, Fault(FaultKind.VANISH, at_s=9.0, duration_s=3.0))
    rig.run(1.5)
    assert rig.saturated()
    assert rig.update.health.message.startswith("The right cell is at the end")
    rig.run(1.0)
    assert rig.link() is Link.LIVE
    assert not rig.saturated()
    rig.run(3.0)  # at 5.5 s
    assert rig.link() is Link.SILENT
    assert "its converter gives no data" in rig.update.health.message
    rig.run(3.0)  # at 8.5 s
    assert rig.link() is Link.LIVE
    rig.run(1.0)  # at 9.5 s
    assert rig.link() is Link.LIVE
    rig.run(0.1)
    assert rig.link() is Link.LOST
    assert rig.update.health.rate_hz == 0
    assert "Nothing comes from simulated rig" in rig.update.health.message
    rig.run(3.0)
    assert rig.link() is Link.LIVE
    rig.worker.stop()


def test_set_goes_on_over_a_gap(tmp_path: Path) -> None:
    rig = bench()
    rig.run(1)
    rig.worker.send(BeginSet(ASKED))
    rig_fault(rig, Fault(FaultKind.VANISH, at_s=4.0, duration_s=0.8))
    rig.run(9)
    ended = [event.rep for event in rig.events if isinstance(event, RepEnded)]
    assert [rep.outcome for rep in ended] == [Outcome.COMPLETE]
    assert ended[0].gaps == 1
    assert rig.update.health.lost == 64
    rig.worker.stop()
    path = tmp_path / "set.bin"
    path.write_bytes(rig.recorder.files[0])
    assert replay(path).agrees


class BrokenSource(SimulatedSource):
    """Does what a test says at its next open and read."""

    opening: Exception | None = None
    reading: Exception | None = None
    opened = 0
    closed = 0

    def open(self) -> None:
        self.opened += 1
        if self.opening is not None:
            raise self.opening
        super().open()

    def read(self) -> bytes:
        if self.reading is not None:
            raise self.reading
        return super().read()

    def close(self) -> None:
        self.closed += 1
        super().close()


def stepping(
    source: BrokenSource, events: list[SessionEvent] | None = None
) -> tuple[Worker, Callable[[float], Link]]:
    now_ns = NS

    def clock() -> int:
        return now_ns

    worker = Worker(source, clock=clock)

    def run(duration_s: float) -> Link:
        nonlocal now_ns
        for _ in range(round(duration_s * 1e6 / STEP_US)):
            now_ns += 1000 * STEP_US
            worker._stopping.set()  # so that waiting turns do not wait
            worker.step()
        update = worker.handoff.take()
        if events is not None:
            events.extend(update.events)
        return update.health.link

    return worker, run


def test_lost_port_is_opened_again_every_half_second() -> None:
    source = BrokenSource(SimulatedRig(), step_us=STEP_US)
    worker, run = stepping(source)
    assert run(0.5) is Link.LIVE
    source.reading = source.opening = RigError(
        phrase("The port is gone."), phrase("Look.")
    )
    assert run(0.1) is Link.LOST
    assert run(2.0) is Link.LOST
    assert 4 <= source.opened <= 6
    message = worker.handoff.take().health.message
    assert message == "The port is gone. Look."
    source.reading = source.opening = None
    assert run(0.6) is Link.LIVE
    worker.stop()


def test_commands_wait_for_a_rig_that_is_being_opened_but_not_for_ever() -> None:
    source = BrokenSource(SimulatedRig(), step_us=STEP_US)
    source.opening = RigError(phrase("There is no port."))
    events: list[SessionEvent] = []
    worker, run = stepping(source, events)
    worker.send(TakeZero(ZeroKind.EMPTY_RIG))
    assert run(3.0) is Link.LOST
    assert events == []
    run(2.0)
    (event,) = events
    assert isinstance(event, Refused)
    assert "No samples are coming" in event.message
    worker.stop()

    source.opening = None
    events.clear()
    worker, run = stepping(source, events)
    worker.send(BeginSet(ASKED))  # before the rig was even opened
    run(0.5)
    assert kinds(events) == [SetBegun]
    worker.stop()


def test_end_of_a_replay_ends_the_set() -> None:
    source = BrokenSource(SimulatedRig(), step_us=STEP_US)
    events: list[SessionEvent] = []
    worker, run = stepping(source, events)
    run(0.5)
    worker.send(BeginSet(ASKED))
    run(0.5)
    source.reading = SourceEnded()
    assert run(0.02) is Link.ENDED
    assert events[-1] == SetEnded("end of recording")
    run(1.0)
    assert source.opened == 1
    worker.stop()


def test_file_that_cannot_be_read_is_told_and_not_tried_again() -> None:
    source = BrokenSource(SimulatedRig(), step_us=STEP_US)
    source.opening = FileError("x.bin", phrase("is empty."))
    worker, run = stepping(source)
    assert run(2.0) is Link.LOST
    assert worker.handoff.take().health.message == "x.bin: is empty."
    assert source.opened == 1
    worker.stop()


# The thread.


def wait_for(worker: Worker, wanted: Callable[[], bool]) -> None:
    """Polls the handoff, as the window does, until it is so."""
    end_s = time.monotonic() + DEADLINE_S
    ticker = threading.Event()
    while not wanted():
        assert time.monotonic() < end_s, worker.handoff.take().health
        ticker.wait(0.01)


def test_thread_runs_in_real_time_and_leaves_nothing_behind() -> None:
    before = set(threading.enumerate())
    rig = SimulatedRig(RigSettings(numbered=True, rate_hz=1000.0))
    worker = Worker(SimulatedSource(rig))
    worker.start()
    numbers: list[int] = []

    def enough() -> bool:
        for block in worker.handoff.take().blocks:
            numbers.extend(block.counts[:, 0].tolist())
        return len(numbers) >= 500

    begin_s = time.monotonic()
    wait_for(worker, enough)
    assert time.monotonic() - begin_s > 0.4
    worker.stop()
    assert numbers == list(range(len(numbers)))
    assert set(threading.enumerate()) == before
    with pytest.raises(RuntimeError, match="started before"):
        worker.start()


@pytest.mark.expects_log("met a fault of the program")
def test_thread_never_dies_silently() -> None:
    source = BrokenSource(SimulatedRig())
    source.reading = ZeroDivisionError("a bug")
    worker = Worker(source)
    worker.start()
    link = Link.OPENING

    def lost() -> bool:
        nonlocal link
        link = worker.handoff.take().health.link
        return link is Link.LOST

    wait_for(worker, lost)
    worker.stop()
    assert source.closed
    assert "fault of its own" in worker.handoff.take().health.message


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="no pseudo-terminals here")
def test_unplugged_board_is_found_again(tmp_path: Path) -> None:
    link = tmp_path / "rig"
    stop, server = serve_at(link)
    worker = Worker(SerialSource(str(link)))
    worker.start()
    health = worker.handoff.take().health

    def is_now(wanted: Link) -> bool:
        nonlocal health
        health = worker.handoff.take().health
        return health.link is wanted

    try:
        wait_for(worker, lambda: is_now(Link.LIVE))
        stop.set()
        server.join()
        wait_for(worker, lambda: is_now(Link.LOST))
        assert health.message
        stop, server = serve_at(link)
        begin_s = time.monotonic()
        wait_for(worker, lambda: is_now(Link.LIVE))
        # Within 1 s of the port coming back; twice that for a busy machine.
        assert time.monotonic() - begin_s < 2.0
        assert health.found == "simulated board SIM-0001, firmware 1.0.0, gain 128"
    finally:
        worker.stop()
        stop.set()
        server.join()


def serve_at(link: Path) -> tuple[threading.Event, threading.Thread]:
    stop = threading.Event()
    served = RigServer(SimulatedRig(), TerminalLine(link=link))
    thread = threading.Thread(target=served.run, args=(stop,))
    thread.start()
    return stop, thread
