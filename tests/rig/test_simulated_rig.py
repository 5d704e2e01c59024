"""The simulated rig speaks the protocol, and goes wrong as asked."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from biofeedback.rig.effort import Effort
from biofeedback.rig.faults import Fault, FaultKind
from biofeedback.rig.force_input import ForceProfile
from biofeedback.rig.simulated_adc import calibration
from biofeedback.rig.simulated_athlete import SimulatedAthlete
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import (
    COUNTS_MAX,
    Damage,
    Frame,
    FrameType,
    Gain,
    Identify,
    Identity,
    Rate,
    Reply,
    Result,
    Samples,
    Start,
    Status,
    Stop,
)

SECOND_US = 1_000_000


def frames_of(data: bytes) -> list[Frame | Damage]:
    return Decoder().push(data)


def samples_of(data: bytes) -> list[Samples]:
    return [frame for frame in frames_of(data) if isinstance(frame, Samples)]


def started(rig: SimulatedRig) -> SimulatedRig:
    rig.receive(encode(Start(token=1)))
    return rig


def numbered(**changes: object) -> SimulatedRig:
    return started(SimulatedRig(RigSettings(numbered=True, **changes)))  # type: ignore[arg-type]  # settings by name


def numbers_in(frames: list[Samples]) -> list[int]:
    return [int(n) for frame in frames for n in frame.counts[:, 0]]


def test_says_who_it_is_after_power_up_and_when_asked() -> None:
    rig = SimulatedRig(RigSettings(channels=1, rate_hz=320))
    first = rig.advance(0)
    assert first.startswith(b"\0")
    (unasked,) = frames_of(first)
    rig.receive(encode(Identify(token=77)))
    reply, identity = frames_of(rig.advance(1))
    assert identity == unasked
    assert reply == Reply(0, 77, FrameType.IDENTIFY, Result.DONE)
    assert isinstance(identity, Identity)
    assert identity.stream_channels == (1,)
    assert identity.rate_hz == 320
    assert identity.protocol == (1, 0)


def test_sends_nothing_but_status_before_it_is_started_and_after_a_stop() -> None:
    rig = SimulatedRig()
    rig.advance(0)
    told = frames_of(rig.advance(3 * SECOND_US))
    assert [type(frame) for frame in told] == [Status] * 3
    started(rig).advance(SECOND_US)
    rig.receive(encode(Stop(token=3)))
    reply, status = frames_of(rig.advance(SECOND_US))
    assert reply == Reply(80, 3, FrameType.STOP, Result.DONE)
    assert isinstance(status, Status)
    assert not status.streaming


@pytest.mark.parametrize("rate_hz", [10.0, 80.0, 320.0, 1000.0, 2000.0])
@pytest.mark.parametrize("channels", [1, 2])
def test_samples_come_at_their_rate_in_order(rate_hz: float, channels: int) -> None:
    rig = numbered(rate_hz=rate_hz, channels=channels)
    rig.advance(0)
    frames = samples_of(rig.advance(4 * SECOND_US))
    assert numbers_in(frames) == list(range(int(4 * rate_hz)))
    times_us = [
        frame.time_us + k * frame.step_us
        for frame in frames
        for k in range(len(frame.counts))
    ]
    assert set(np.diff(times_us)) == {round(1e6 / rate_hz)}
    for frame in frames:
        assert frame.counts.shape[1] == channels
        assert frame.sequence == frame.counts[0, 0]
        # Each sample went out within 20 ms, as the protocol asks.
        assert (len(frame.counts) - 1) * frame.step_us <= 20_000
        if channels == 2:
            np.testing.assert_array_equal(frame.counts[:, 1], -frame.counts[:, 0] - 1)


def test_counts_are_the_force_that_was_pulled() -> None:
    profile = ForceProfile(((0.0, 0.0, 0.0), (10.0, 100.0, 50.0)))
    rig = started(SimulatedRig(RigSettings(noise_n=0.0), force=profile))
    frames = samples_of(rig.advance(10 * SECOND_US))
    counts = np.concatenate([frame.counts for frame in frames])
    at_s = np.array([frame.time_us for frame in frames]) / 1e6
    for channel, top_n in enumerate((100.0, 50.0)):
        c0, c1 = calibration(channel, gain=128).coefficients
        pulled_n = top_n * at_s / 10
        # Half a count is 0.00012 N.
        np.testing.assert_allclose(c0 + c1 * counts[:, channel], pulled_n, atol=2e-4)


def test_one_cell_carries_both_sides() -> None:
    profile = ForceProfile(((0.0, 30.0, 12.0),))
    rig = started(SimulatedRig(RigSettings(channels=1, noise_n=0.0), force=profile))
    (c0, c1) = calibration(0, gain=128).coefficients
    (frame, *_) = samples_of(rig.advance(SECOND_US))
    assert c0 + c1 * frame.counts[0, 0] == pytest.approx(42.0, abs=2e-4)


def test_first_samples_after_a_start_are_settling() -> None:
    frames = samples_of(numbered().advance(SECOND_US))
    settling = np.concatenate([frame.settling for frame in frames])
    assert settling.tolist() == [True] * 4 + [False] * 76


def test_changes_rate_and_gain_and_says_so() -> None:
    rig = numbered(rate_hz=80.0)
    rig.advance(SECOND_US)
    rig.receive(encode(Rate(token=5, rate_hz=1000.0)))
    rig.receive(encode(Gain(token=6, gain=64)))
    reply, fast, gained, identity, *rest = frames_of(rig.advance(SECOND_US))
    assert reply == Reply(80, 5, FrameType.RATE, Result.DONE)
    assert isinstance(fast, Identity)
    assert fast.rate_hz == 1000
    assert gained == Reply(80, 6, FrameType.GAIN, Result.DONE)
    assert isinstance(identity, Identity)
    assert identity.gains[identity.gain_index] == 64
    frames = [frame for frame in rest if isinstance(frame, Samples)]
    # The numbers go on where they were.
    assert numbers_in(frames) == list(range(80, 1080))


def test_refuses_what_is_not_on_offer() -> None:
    rig = SimulatedRig()
    rig.advance(0)
    rig.receive(encode(Rate(token=5, rate_hz=81.0)) + encode(Gain(token=6, gain=1)))
    assert frames_of(rig.advance(1)) == [
        Reply(0, 5, FrameType.RATE, Result.BAD_VALUE),
        Reply(0, 6, FrameType.GAIN, Result.BAD_VALUE),
    ]


def test_answers_do_not_overtake_samples() -> None:
    rig = numbered(rate_hz=1000.0)
    rig.advance(0)
    told = frames_of(rig.advance(3_000))
    rig.receive(encode(Identify(token=2)))
    told += frames_of(rig.advance(2_000_000))
    upto = 0
    for frame in told:
        assert not isinstance(frame, Damage)
        # What is numbered below the answer's sequence has gone out before it.
        assert frame.sequence == upto
        upto += len(frame.counts) if isinstance(frame, Samples) else 0


def test_gain_scales_the_counts() -> None:
    profile = ForceProfile(((0.0, 100.0, 100.0),))
    rig = started(SimulatedRig(RigSettings(noise_n=0.0), force=profile))
    rig.receive(encode(Gain(token=6, gain=64)))
    (frame, *_) = samples_of(rig.advance(SECOND_US))
    for channel in range(2):
        c0, c1 = calibration(channel, gain=64).coefficients
        assert c0 + c1 * frame.counts[0, channel] == pytest.approx(100, abs=1e-3)


def test_counts_damaged_commands() -> None:
    rig = SimulatedRig()
    damaged = bytearray(encode(Start(token=1)))
    damaged[3] ^= 4
    rig.receive(bytes(damaged))
    *_, status = frames_of(rig.advance(SECOND_US))
    assert isinstance(status, Status)
    assert status.crc_errors == 1
    assert not status.streaming


def test_clock_and_sequence_wrap() -> None:
    rig = numbered(rate_hz=1000.0, clock_us=2**32 - 500_000, first_sequence=2**32 - 250)
    frames = samples_of(rig.advance(SECOND_US))
    sequences = [frame.sequence for frame in frames]
    times_us = [frame.time_us for frame in frames]
    assert sequences[0] == 2**32 - 250
    assert sequences[-1] < 1000
    assert min(times_us) < 500_000
    for before, after in pairwise(frames):
        n = len(before.counts)
        assert after.sequence == (before.sequence + n) % 2**32
        assert after.time_us == (before.time_us + 1000 * n) % 2**32
    assert max(times_us) < 2**32


# Faults.


def test_dropped_samples_leave_a_hole_and_are_counted() -> None:
    rig = numbered(rate_hz=1000.0)
    rig.ask(Fault(FaultKind.DROP, at_s=0.5, duration_s=0.1))
    told = frames_of(rig.advance(2 * SECOND_US))
    frames = [frame for frame in told if isinstance(frame, Samples)]
    expected = [n for n in range(2000) if not 500_000 <= 1000 * (n + 1) < 600_000]
    assert numbers_in(frames) == expected
    drops = [frame.transmit_drops for frame in told if isinstance(frame, Status)]
    assert drops == [100, 100]
    # A frame never spans a lost sample, and the lost ones keep their numbers.
    for frame in frames:
        assert frame.sequence == frame.counts[0, 0]
        assert np.all(np.diff(frame.counts[:, 0]) == 1)


def test_flipped_bits_cost_frames_and_invent_nothing() -> None:
    rig = numbered(rate_hz=1000.0)
    rig.ask(Fault(FaultKind.FLIP, at_s=0.2, duration_s=0.4))
    told = frames_of(rig.advance(SECOND_US))
    got = numbers_in([frame for frame in told if isinstance(frame, Samples)])
    assert got == sorted(set(got))
    assert set(range(180)) | set(range(620, 1000)) <= set(got)
    assert sum(isinstance(frame, Damage) for frame in told) >= 40


def test_saturated_channel_is_at_its_stop_and_says_so() -> None:
    rig = started(SimulatedRig())
    rig.ask(Fault(FaultKind.SATURATE, at_s=0.5, duration_s=0.25, channel=1))
    frames = samples_of(rig.advance(SECOND_US))
    at_stop = np.concatenate([frame.saturated for frame in frames])
    counts = np.concatenate([frame.counts for frame in frames])
    assert not at_stop[:, 0].any()
    assert at_stop[:, 1].sum() == 20
    assert np.all(counts[at_stop[:, 1], 1] == COUNTS_MAX)


def test_too_much_force_saturates_by_itself() -> None:
    # Full scale at gain 128 is half of 2^24 counts: 1000/(2*0.256) = 1953 N.
    rig = started(SimulatedRig(force=ForceProfile(((0.0, 3000.0, 0.0),))))
    (frame, *_) = samples_of(rig.advance(SECOND_US))
    assert frame.saturated[0].tolist() == [True, False]


def test_silent_chip_and_dead_line_do_not_look_alike() -> None:
    rig = numbered()
    rig.ask(Fault(FaultKind.SILENT, at_s=2.0, duration_s=2.0))
    rig.ask(Fault(FaultKind.VANISH, at_s=5.5, duration_s=1.0))
    told = frames_of(rig.advance(7 * SECOND_US))
    silent = [frame.silent for frame in told if isinstance(frame, Status)]
    # At 2 s it is not yet known, at 4 s it is just over, at 6 s nothing is heard.
    assert silent == [(False,), (False,), (True,), (False,), (False,), (False,)]
    frames = [frame for frame in told if isinstance(frame, Samples)]
    got = numbers_in(frames)
    # 159 samples before 2 s, then from 4 s to 5.5 s the next 120 numbers: nothing
    # was converted meanwhile. The 80 after those were sent into the void.
    assert got == [*range(159 + 120), *range(159 + 200, 159 + 241)]
    times_us = np.array([frame.time_us for frame in frames])
    assert not np.any((times_us >= 2_000_000) & (times_us < 4_000_000))
    rig.ask(Fault(FaultKind.VANISH, at_s=7.0))
    rig.receive(encode(Identify(token=9)))
    assert rig.advance(2 * SECOND_US) == b""


# However the time is cut.


@settings(max_examples=20)
@given(
    cuts_us=st.lists(st.integers(0, 400_000), min_size=1, max_size=12),
    rate_hz=st.sampled_from([10.0, 80.0, 320.0, 1000.0]),
)
def test_bytes_do_not_depend_on_how_time_is_cut(
    cuts_us: list[int], rate_hz: float
) -> None:
    def run(steps_us: list[int]) -> bytes:
        athlete = SimulatedAthlete(7)
        athlete.begin(Effort(60, 6, hold_s=1, rest_s=1), now_us=0)
        faults = (
            Fault(FaultKind.DROP, at_s=1.0, duration_s=0.3),
            Fault(FaultKind.FLIP, at_s=1.5, duration_s=0.2),
            Fault(FaultKind.SILENT, at_s=2.0, duration_s=0.5),
        )
        rig = started(
            SimulatedRig(
                RigSettings(rate_hz=rate_hz), seed=3, force=athlete, faults=faults
            )
        )
        return b"".join(rig.advance(step_us) for step_us in steps_us)

    assert run(cuts_us) == run([sum(cuts_us)])


@pytest.mark.parametrize("rate_hz", [10.0, 80.0, 320.0, 1000.0, 2000.0])
def test_something_is_sent_when_it_said_it_would_be(rate_hz: float) -> None:
    rig = numbered(rate_hz=rate_hz)
    rig.advance(0)
    for _ in range(100):
        wait_us = rig.due_us - rig.now_us
        assert wait_us > 0
        assert rig.advance(wait_us - 1) == b""
        assert rig.advance(1) != b""


def test_seed_repeats_and_another_seed_differs() -> None:
    def run(seed: int) -> bytes:
        return started(SimulatedRig(seed=seed)).advance(SECOND_US)

    assert run(1) == run(1)
    assert run(1) != run(2)
