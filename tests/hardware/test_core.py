"""The firmware's core against the program's own encoder and decoder.

Run with address and undefined-behaviour sanitizers by `make -C hardware test`.
"""

from __future__ import annotations

import zlib
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from biofeedback.wire import cobs
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import (
    COUNTS_MAX,
    COUNTS_MIN,
    Damage,
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
from hardware.core import Core, load

if TYPE_CHECKING:
    import ctypes
    from collections.abc import Iterator
    from pathlib import Path

BATCH_MAX = 8
AGE_MAX_US = 20_000


@pytest.fixture(scope="module")
def library(built: Path) -> ctypes.CDLL:
    return load(built)


@pytest.fixture
def core(library: ctypes.CDLL) -> Iterator[Core]:
    device = Core(library)
    yield device
    device.close()


# What it says of itself.


def test_after_a_reset_it_says_who_it_is(library: ctypes.CDLL) -> None:
    device = Core(library, streams=2, channels=1, rate_index=1, settling=4)
    assert device.bytes[0] == 0
    [identity] = device.frames
    assert identity == Identity(
        sequence=0,
        protocol=(1, 0),
        firmware=(1, 0, 0),
        stream_channels=(1, 1),
        rates_hz=(10.0, 80.0, 1000.0),
        rate_index=1,
        gains=(128, 64),
        gain_index=0,
        adc_bits=24,
        adc="bench",
        serial_number="B 7",
    )
    assert device.bytes == b"\0" + encode(identity)
    device.close()


def test_status_comes_at_1_hz_and_counts(core: Core) -> None:
    core.hear(b"\x05damage\0")
    frames = core.wait(3.5)
    statuses = [frame for frame in frames if isinstance(frame, Status)]
    assert [frame.uptime_ms for frame in statuses] == [1000, 2000, 3000]
    assert not any(frame.streaming for frame in statuses)
    assert [frame.crc_errors for frame in statuses] == [1, 1, 1]
    assert encode(statuses[0]) in core.bytes


def test_nothing_is_sent_before_it_is_told_to(core: Core) -> None:
    for index in range(20):
        core.convert([index, index])
        core.wait(0.001)
    assert core.samples == []
    core.start()
    core.convert([7, -7], time_us=core.now_us + 10)
    core.wait(0.03)
    [frame] = core.samples
    assert (frame.sequence, frame.counts.tolist()) == (0, [[7, -7]])


# Samples.


class Expected:
    """What must arrive: each conversion, numbered, with its time."""

    def __init__(self) -> None:
        self.rows: list[tuple[int, tuple[int, list[int]]]] = []
        self.number = 0

    def add(self, time_us: int, counts: list[int], lost: int) -> None:
        self.number += lost
        self.rows.append((self.number, (time_us, counts)))
        self.number += 1


def check_frames(frames: list[Samples], expected: Expected) -> None:
    """Exact in number and counts; spaced as the protocol asks."""
    by_number = dict(expected.rows)
    seen: list[int] = []
    for frame in frames:
        count = len(frame.counts)
        assert count <= BATCH_MAX
        times_us: list[int] = []
        for index in range(count):
            time_us, counts = by_number[frame.sequence + index]
            assert frame.counts[index].tolist() == counts
            times_us.append(time_us)
            seen.append(frame.sequence + index)
        assert frame.time_us == times_us[0] % 2**32
        allowed_us = max(2.0, 0.02 * frame.step_us) + 0.5  # the step is rounded
        spacings = np.diff(times_us)
        assert (np.abs(spacings - frame.step_us) <= allowed_us).all()
        assert abs(times_us[-1] - times_us[0] - frame.step_us * (count - 1)) <= count
    assert seen == sorted(seen)
    assert len(seen) == len(set(seen))
    assert set(seen) <= set(by_number)


spacing_us = st.one_of(
    st.integers(980, 1020), st.just(1000), st.sampled_from([1, 250, 12_500, 700_000])
)
conversion = st.tuples(
    spacing_us,
    st.lists(st.integers(COUNTS_MIN, COUNTS_MAX), min_size=2, max_size=2),
    st.one_of(st.just(0), st.just(0), st.integers(0, 255)),
)


@settings(max_examples=60, deadline=None)
@given(
    conversions=st.lists(conversion, min_size=1, max_size=60),
    origin_us=st.sampled_from([0, 2**32 - 30_000, 2**31 - 9_000]),
)
def test_what_is_converted_arrives(
    library: ctypes.CDLL,
    conversions: list[tuple[int, list[int], int]],
    origin_us: int,
) -> None:
    core = Core(library)
    core.now_us = origin_us
    core.poll()
    core.start()
    expected = Expected()
    for after_us, counts, lost in conversions:
        core.now_us += after_us
        core.convert(counts, lost=lost)
        expected.add(core.now_us, counts, lost)
        core.poll()
    core.wait(0.03)
    check_frames(core.samples, expected)
    assert sum(len(frame.counts) for frame in core.samples) == len(conversions)
    assert not any(isinstance(frame, Damage) for frame in core.frames)
    for frame in core.samples:
        at_stop = (frame.counts == COUNTS_MAX) | (frame.counts == COUNTS_MIN)
        np.testing.assert_array_equal(frame.saturated, at_stop)
        assert encode(frame) in core.bytes
    assert core.status().adc_lost == sum(lost for _, _, lost in conversions)
    core.close()


@pytest.mark.parametrize(
    ("rate_hz", "in_frame"), [(500.0, 1), (1000.0, 3), (2000.0, 6), (4000.0, 8)]
)
def test_even_samples_fill_a_frame_for_3_ms(
    library: ctypes.CDLL, rate_hz: float, in_frame: int
) -> None:
    """As section 7 of the protocol tells of the boards built here."""
    core = Core(library, rates_hz=(10.0, 80.0, rate_hz))
    core.start()
    step_us = round(1e6 / rate_hz)
    for index in range(10 * in_frame):
        core.now_us += step_us
        core.convert([index, -index])
        core.poll()
    assert [len(frame.counts) for frame in core.samples] == [in_frame] * 10
    steps = {frame.step_us for frame in core.samples}
    assert steps == ({step_us} if in_frame > 1 else {0})
    core.close()


def test_slow_samples_go_at_once(library: ctypes.CDLL) -> None:
    core = Core(library, rate_index=1)
    core.start()
    for index in range(5):
        core.now_us += 12_500
        core.convert([index, index])
        assert [type(frame) for frame in core.poll()] == [Samples]
    core.close()


def test_no_sample_waits_longer_than_20_ms(core: Core) -> None:
    """Two samples come, and then the ADC falls silent."""
    core.start()
    first_us = core.now_us
    core.convert([1, 1])
    core.wait(0.001)
    core.convert([2, 2])
    while not core.samples:
        core.now_us += 500
        core.poll()
    assert core.now_us - first_us <= AGE_MAX_US
    assert core.samples[0].counts.tolist() == [[1, 1], [2, 2]]


def test_streams_keep_their_own_numbers(library: ctypes.CDLL) -> None:
    core = Core(library, streams=2, channels=1, rate_index=1)
    core.start()
    for index in range(30):
        core.now_us += 12_500
        core.convert([index], stream=0)
        if index % 3:
            core.convert([1000 + index], stream=1, time_us=core.now_us + 17)
        core.poll()
    for stream, count in ((0, 30), (1, 20)):
        frames = [frame for frame in core.samples if frame.stream == stream]
        assert [frame.sequence for frame in frames] == list(range(count))
    assert core.status().next_sequences == (30, 20)
    core.close()


def test_a_full_line_costs_samples_and_says_how_many(core: Core) -> None:
    core.start()
    expected = Expected()
    for index in range(400):
        core.now_us += 1000
        core.convert([index, index])
        expected.add(core.now_us, [index, index], 0)
        core.poll(room=0 if 100 <= index < 200 else 4096)
    core.wait(0.03)
    check_frames(core.samples, expected)
    received = sum(len(frame.counts) for frame in core.samples)
    status = core.status()
    assert 95 <= status.transmit_drops <= 105
    assert received + status.transmit_drops == 400
    assert status.next_sequences == (400,)


def test_room_for_an_answer_is_never_given_to_samples(library: ctypes.CDLL) -> None:
    core = Core(library, rates_hz=(10.0, 80.0, 4000.0))  # eight samples a frame
    core.start()
    identity = next(frame for frame in core.frames if isinstance(frame, Identity))
    answers = len(encode(identity)) + len(
        encode(Reply(0, 1, FrameType.RATE, Result(0)))
    )
    longest = 6 + 11 + BATCH_MAX * 7 + 4 + 2
    assert core.room_min >= answers + longest
    for room, sent in ((answers + longest - 1, False), (answers + longest, True)):
        before = len(core.samples)
        for index in range(BATCH_MAX):
            core.now_us += 250
            core.convert([index + 1, 1])
            core.poll(room=room)
        assert (len(core.samples) > before) is sent
    core.close()


def test_a_command_waits_for_room_to_be_answered(core: Core) -> None:
    core.start()
    core.hear(encode(Identify(token=9)))
    core.poll(room=20)
    assert core.replies[-1].token == 1
    assert core.unheard > 0
    core.poll()
    assert core.replies[-1].token == 9


# Commands.

sound = st.one_of(
    st.builds(Identify, token=st.integers(0, 255)),
    st.builds(Start, token=st.integers(0, 255)),
    st.builds(Stop, token=st.integers(0, 255)),
    st.builds(
        Rate,
        token=st.integers(0, 255),
        rate_hz=st.sampled_from([10.0, 80.0, 1000.0, 7.0, 4e6]),
    ),
    st.builds(Gain, token=st.integers(0, 255), gain=st.sampled_from([128, 64, 32, 0])),
).map(encode)


def framed(kind: int, payload: bytes) -> bytes:
    """A frame with a right CRC, whatever it says."""
    inner = bytes([kind, 0xA5, 1, 2, 3, 4]) + payload
    crc = zlib.crc32(inner).to_bytes(4, "little")
    return cobs.encode(inner + crc) + b"\0"


odd = st.one_of(
    st.builds(framed, st.integers(0x01, 0x7F), st.binary(max_size=20)),
    st.builds(framed, st.integers(0x41, 0x45), st.binary(min_size=230, max_size=250)),
    st.binary(max_size=30).map(lambda data: data + b"\0"),
    st.binary(min_size=260, max_size=300).map(lambda data: data + b"\0"),
)


@settings(max_examples=80, deadline=None)
@given(pieces=st.lists(st.one_of(sound, odd), max_size=12), cut=st.integers(1, 40))
def test_each_sound_command_is_answered_once(
    library: ctypes.CDLL, pieces: list[bytes], cut: int
) -> None:
    """The program's decoder says what is sound and what is damaged."""
    data = b"".join(pieces)
    asked: list[tuple[int, int]] = []
    damaged = 0
    for piece in data.split(b"\0")[:-1]:
        if not piece:
            continue
        inner = cobs.decode(piece)
        judged = next(iter(Decoder().push(piece + b"\0")), None)
        if isinstance(judged, Damage):
            damaged += not _concerns_others(inner, judged)
        elif inner is not None and 0x41 <= inner[0] <= 0x7F:
            if len(inner) > 10:
                asked.append((inner[6], inner[0]))
            else:
                damaged += 1  # an unknown command without a token
    core = Core(library)
    for start in range(0, len(data), cut):
        core.hear(data[start : start + cut])
        core.poll()
    known = [(token, kind) for token, kind in asked if kind <= 0x45]
    assert [(reply.token, reply.command) for reply in core.replies] == known
    # A reply to an unknown command cannot be read by this version of the program.
    unread = sum(isinstance(frame, Damage) for frame in core.frames)
    assert unread == len(asked) - len(known)
    assert core.status().crc_errors == damaged
    core.close()


def _concerns_others(inner: bytes | None, judged: Damage) -> bool:
    """A board does not judge what a frame of another kind of sender says."""
    return (
        judged.reason == "content"
        and inner is not None
        and not 0x41 <= inner[0] <= 0x7F
    )


def test_unknown_command_is_answered_so(core: Core) -> None:
    core.hear(framed(0x5A, b"\x77"))
    core.poll()
    inner = cobs.decode(core.bytes.split(b"\0")[-2])
    assert inner is not None
    assert inner[:1] + inner[6:9] == bytes([FrameType.REPLY, 0x77, 0x5A, 1])


def test_rate_is_set_flagged_and_told(core: Core) -> None:
    core.start()
    core.convert([1, 1])
    core.hear(encode(Rate(token=5, rate_hz=80.0)))
    frames = core.poll()
    assert [type(frame) for frame in frames] == [Samples, Reply, Identity]
    assert core.rate_set == 1
    assert core.replies[-1] == Reply(1, 5, FrameType.RATE, Result.DONE)
    identity = frames[-1]
    assert isinstance(identity, Identity)
    assert identity.rate_hz == 80.0
    for index in range(8):
        core.now_us += 12_500
        core.convert([index, index])
        core.poll()
    flags = [bool(frame.settling[0]) for frame in core.samples[1:]]
    assert flags == [True] * 4 + [False] * 4
    assert not core.samples[0].settling[0]


def test_rate_that_is_not_on_offer_changes_nothing(core: Core) -> None:
    core.hear(encode(Rate(token=5, rate_hz=81.0)))
    [reply] = core.poll()
    assert reply == Reply(0, 5, FrameType.RATE, Result.BAD_VALUE)
    assert core.rate_set == -1


def test_rate_in_force_is_not_set_again(core: Core) -> None:
    core.start()
    core.hear(encode(Rate(token=5, rate_hz=1000.0)))
    core.poll()
    core.convert([1, 1])
    core.wait(0.02)
    assert core.rate_set == -1
    assert not core.samples[0].settling.any()


def test_gain_is_set_and_flagged(core: Core) -> None:
    core.start()
    core.hear(encode(Gain(token=6, gain=64)))
    frames = core.poll()
    assert core.gain_set == 1
    assert isinstance(frames[-1], Identity)
    assert frames[-1].gain_index == 1
    for index in range(15):
        core.now_us += 1000
        core.convert([index, index])
        core.poll()
    flags = np.concatenate([frame.settling for frame in core.samples])
    assert flags.tolist() == [True] * 5 + [False] * 10


def test_a_later_change_does_not_end_the_wait_of_an_earlier_one(core: Core) -> None:
    """A gain takes five conversions to settle, and a rate after it but four."""
    core.start()
    core.hear(encode(Gain(token=5, gain=64)))
    core.hear(encode(Rate(token=6, rate_hz=80.0)))
    core.poll()
    assert (core.gain_set, core.rate_set) == (1, 1)
    for index in range(10):
        core.now_us += 12_500
        core.convert([index, index])
        core.poll()
    flags = np.concatenate([frame.settling for frame in core.samples])
    assert flags.tolist() == [True] * 5 + [False] * 5


def test_stop_ends_it_and_numbers_go_on(core: Core) -> None:
    core.start()
    for index in range(2):  # a frame that is not full yet
        core.now_us += 1000
        core.convert([index, index])
    core.poll()
    core.hear(encode(Stop(token=2)))
    frames = core.poll()
    assert [type(frame) for frame in frames] == [Samples, Reply]
    for index in range(50):
        core.now_us += 1000
        core.convert([index, index])
        core.poll()
    core.start()
    core.now_us += 1000
    core.convert([9, 9])
    core.wait(0.03)
    assert core.samples[-1].sequence == 2


# Silence.


def test_an_adc_without_data_is_called_silent_and_settles_again(
    library: ctypes.CDLL,
) -> None:
    core = Core(library, streams=2, channels=1, rate_index=1, settling=4)
    core.start()
    silent = []
    for index in range(200):
        core.now_us += 12_500
        core.convert([index], stream=0)
        if index < 20 or index >= 120:
            core.convert([index], stream=1)
        silent += [f.silent for f in core.poll() if isinstance(f, Status)]
    assert silent == [(False, True), (False, False)]
    second = [frame for frame in core.samples if frame.stream == 1]
    flags = [bool(frame.settling[0]) for frame in second]
    assert flags == [True] * 4 + [False] * 16 + [True] * 4 + [False] * 76
    core.close()


def test_power_up_is_flagged_whether_or_not_it_streams(library: ctypes.CDLL) -> None:
    core = Core(library, rate_index=1, settling=4)
    core.convert([1, 1])
    core.convert([2, 2])
    core.poll()
    core.start()
    for index in range(4):
        core.now_us += 12_500
        core.convert([index, index])
        core.poll()
    assert [frame.settling[0] for frame in core.samples] == [True, True, False, False]
    core.close()


# Bytes from nowhere.


@settings(max_examples=40, deadline=None)
@given(data=st.binary(max_size=2000))
def test_any_bytes_are_borne(library: ctypes.CDLL, data: bytes) -> None:
    core = Core(library)
    core.hear(data + b"\0")
    core.poll()
    core.hear(encode(Identify(token=3)))
    frames = core.poll()
    assert [type(frame) for frame in frames] == [Reply, Identity]
    core.close()
