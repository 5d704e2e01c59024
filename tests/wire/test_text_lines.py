"""Plain boards: many layouts, all invented here, none of a real board."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from biofeedback.errors import RigError
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import COUNTS_MAX, COUNTS_MIN, Samples
from biofeedback.wire.text_clock import NOMINAL_US, RESTART_US
from biofeedback.wire.text_layout import LINES_KEPT, LINES_NEEDED
from biofeedback.wire.text_lines import LINE_MAX, TextLines
from biofeedback.wire.timeline import Timeline

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

LINES = 200


def noise(seed: int, size: int = LINES) -> list[int]:
    """Counts that look like a resting cell: no trend, no pattern."""
    return [int(n) for n in np.random.default_rng(seed).normal(84_000, 40, size)]


LEFT = noise(1)
RIGHT = noise(2)


def text(lines: Iterable[str], end: str = "\n") -> bytes:
    """The lines after half a line, as a port that is opened late gives them."""
    return end.join(["4213", *lines, ""]).encode()


def read(
    data: bytes, *, time_column: bool | None = None
) -> tuple[TextLines, list[Samples]]:
    reader = TextLines(time_column=time_column)
    return reader, reader.push(data, 0.0)


def counts(frames: Iterable[Samples]) -> list[list[int]]:
    return [row for frame in frames for row in frame.counts.tolist()]


def times_us(frames: Iterable[Samples]) -> list[int]:
    """Times from the first sample, unwrapped."""
    timeline = Timeline()
    return [
        round(time_s * 1e6) for one in frames for time_s in timeline.place(one).time_s
    ]


STAMPS: dict[str, tuple[Callable[[int], str], str, float]] = {
    "s at 80 Hz": (lambda i: f"{12 + i * 0.0125:.4f}", "s", 12_500),
    "s at 1 kHz": (lambda i: f"{i * 0.001:.3f}", "s", 1_000),
    "ms at 80 Hz": (lambda i: f"{100 + i * 12.5:.0f}", "ms", 12_500),
    "ms at 80 Hz with decimals": (lambda i: f"{i * 12.5:.1f}", "ms", 12_500),
    "ms at 10 Hz": (lambda i: f"{7 + i * 100}", "ms", 100_000),
    "ms at 1 kHz": (lambda i: f"{i}", "ms", 1_000),
    "ms at 2 kHz": (lambda i: f"{i // 2}", "ms", 500),
    "ms at 300 Hz": (lambda i: f"{i * 1000 // 300}", "ms", 3_333.3),
    "µs at 80 Hz": (lambda i: f"{i * 12_500}", "µs", 12_500),
    "µs at 2 kHz": (lambda i: f"{99 + i * 500}", "µs", 500),
}


@pytest.mark.parametrize("separator", [",", ";", "\t", " ", ", ", "; "])
@pytest.mark.parametrize("stamp", STAMPS)
@pytest.mark.parametrize("channels", [1, 2])
def test_time_and_forces_are_found(separator: str, stamp: str, channels: int) -> None:
    write, unit, period_us = STAMPS[stamp]
    rows = list(zip(LEFT, RIGHT, strict=True))
    data = text(
        separator.join([write(i), *(str(n) for n in rows[i][:channels])])
        for i in range(LINES)
    )
    reader, frames = read(data)
    assert counts(frames) == [list(row[:channels]) for row in rows]
    assert f"the first looks like time in {unit}" in reader.found
    assert reader.scale == 1
    assert reader.unparsed == 0
    expected = np.arange(LINES) * period_us
    resolution_us = 1000 if unit == "ms" and "decimals" not in stamp else 1
    assert np.all(np.abs(np.array(times_us(frames)) - expected) <= resolution_us)
    rate_hz = reader.identity().rate_hz
    assert rate_hz == pytest.approx(1e6 / period_us, rel=0.1)


@pytest.mark.parametrize("separator", [",", ";", "\t", " ", "   "])
@pytest.mark.parametrize("last", ["", "sep"])
def test_two_forces_without_time(separator: str, last: str) -> None:
    rows = [[n, m] for n, m in zip(LEFT, RIGHT, strict=True)]
    end = separator.strip(" ") if last else ""  # some boards end each number so
    reader, frames = read(text(f"{n}{separator}{m}{end}" for n, m in rows))
    assert counts(frames) == rows
    assert reader.identity().stream_channels == (2,)
    assert reader.found.startswith("2 columns separated by ")
    assert "2 forces in whole counts; timed by arrival" in reader.found


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r", "\n\r", " \r\n"])
def test_one_force_with_any_line_end(end: str) -> None:
    reader, frames = read(text(map(str, LEFT), end))
    assert counts(frames) == [[n] for n in LEFT]
    assert reader.found == "1 column; 1 force in whole counts; timed by arrival"


def test_the_half_line_at_the_start_is_never_a_number() -> None:
    """Half of ``84213`` would be a believable 4213."""
    _, frames = read(b"4213\n" + b"".join(b"%d\n" % n for n in LEFT))
    assert [4213] not in counts(frames)
    assert counts(frames) == [[n] for n in LEFT]


def test_half_a_line_at_the_end_waits() -> None:
    reader, frames = read(text(map(str, LEFT)) + b"842")
    assert counts(frames) == [[n] for n in LEFT]
    assert counts(reader.push(b"13\n", 0.1)) == [[84213]]


@pytest.mark.parametrize(
    ("line", "scale", "expected"),
    [
        ("{:.1f}", 10, 1235),
        ("{:.2f}", 100, 12346),
        ("{:.4f}", 10_000, 1234567),
        ("{:.9f}", 10_000, 1234567),  # room for four times as much as was seen
        ("{:.3e}", 10, 1235),
    ],
)
def test_decimals_are_scaled_by_a_power_of_ten(
    line: str, scale: int, expected: int
) -> None:
    reader, frames = read(text(line.format(123.4567) for _ in range(40)))
    assert reader.scale == scale
    assert counts(frames) == [[expected]] * 40
    assert f"in steps of {1 / scale:g}, up to ±" in reader.found


def test_small_decimals_keep_their_digits() -> None:
    reader, frames = read(text(f"{n * 1e-6:.6f}" for n in LEFT))
    assert reader.scale == 1_000_000
    assert counts(frames) == [[n] for n in LEFT]


@pytest.mark.parametrize("separator", [";", "\t", " "])
def test_a_decimal_comma_is_read_where_it_cannot_be_a_separator(separator: str) -> None:
    reader, frames = read(
        text(
            f"{n / 100:.2f}{separator}{m / 100:.2f}".replace(".", ",")
            for n, m in zip(LEFT, RIGHT, strict=True)
        )
    )
    assert counts(frames) == [[n, m] for n, m in zip(LEFT, RIGHT, strict=True)]
    assert "decimal comma" in reader.found


def test_one_comma_alone_is_a_separator_and_the_doubt_is_told() -> None:
    reader, frames = read(text(f"{n % 90},{n % 7}" for n in LEFT))
    assert counts(frames) == [[n % 90, n % 7] for n in LEFT]
    assert "one number with a decimal comma would look the same" in reader.found


@pytest.mark.parametrize(
    "lines",
    [
        ["1.2.3"],
        ["1,2,3,4"],
        ["12 kg"],
        ["nan", "inf", "0x12"],
        ["L:12 R:13"],
        ["١٢٣"],
        ["84 000;12"],
        ["-"],
        [""],
        ["--12"],
        ["1e999"],
    ],
)
def test_what_is_no_number_never_becomes_one(lines: list[str]) -> None:
    reader = TextLines()
    data = "\n".join(["", *itertools.islice(itertools.cycle(lines), 300), ""])
    assert reader.push(data.encode(), 0.0) == []
    assert not reader.ready
    with pytest.raises(RigError, match="enough lines of numbers"):
        reader.identity()


def test_found_says_what_is_awaited() -> None:
    reader = TextLines()
    assert reader.found == "no lines yet"
    reader.push(b"\nhello\nworld\n", 0.0)
    assert reader.found == (
        "no columns of numbers yet in the last 2 lines; 2 lines not understood"
    )


BOOT = [
    "ets Jan  8 2013,rst cause:2",
    "*** calibration 1.0 ***",
    "ready",
    "115200",
    "#",
]


def test_boot_messages_are_passed_over() -> None:
    lines = [*BOOT, *(f"{i * 12},{n}" for i, n in enumerate(LEFT)), "bye"]
    reader, frames = read(text(lines))
    assert counts(frames) == [[n] for n in LEFT]
    assert reader.unparsed == len(BOOT) + 1
    assert f"{len(BOOT) + 1} lines not understood" in reader.found


@pytest.mark.parametrize("before", [7, 10, 15])
def test_a_restart_of_the_board_while_the_layout_is_sought(before: int) -> None:
    """The old run's stamps, then boot text, then stamps from 0: still a time."""
    old = [f"{90_000 + 12 * i},{n}" for i, n in enumerate(LEFT[:before])]
    new = [f"{12 * i},{n}" for i, n in enumerate(LEFT)]
    reader, frames = read(text([*old, *BOOT, *new]))
    assert "time in ms" in reader.found
    assert counts(frames) == [[n] for n in LEFT[:before] + LEFT]
    steps = np.diff(times_us(frames))
    assert steps[before - 1] == RESTART_US
    assert set(steps.tolist()) == {12_000, RESTART_US}


def test_a_damaged_line_takes_a_number_and_a_remark_does_not() -> None:
    lines = [f"{12 * i},{n}" for i, n in enumerate(LEFT)]
    lines[100] = "12x0,84000"
    lines[150:150] = ["# still here"]
    reader, frames = read(text(lines))
    assert counts(frames) == [[n] for i, n in enumerate(LEFT) if i != 100]
    timeline = Timeline()
    placed = [timeline.place(frame) for frame in frames]
    assert timeline.lost == 1
    assert sum(one.gap for one in placed) == 1
    assert times_us(frames) == [12_000 * i for i in range(LINES) if i != 100]
    assert reader.unparsed == 2


def test_lines_that_are_missing_are_counted_from_the_stamps() -> None:
    lines = [f"{12 * i},{n}" for i, n in enumerate(LEFT) if not 100 <= i < 110]
    _, frames = read(text(lines))
    timeline = Timeline()
    for frame in frames:
        timeline.place(frame)
    assert timeline.lost == 10
    assert timeline.restarts == 0


def test_stamps_that_wrap_go_on() -> None:
    """A µs counter turns after 71.6 min."""
    lines = [
        f"{(2**32 - 1_000_000 + 12_500 * i) % 2**32},{n}" for i, n in enumerate(LEFT)
    ]
    reader, frames = read(text(lines))
    assert "time in µs" in reader.found
    assert times_us(frames) == [12_500 * i for i in range(LINES)]


def test_stamps_that_go_back_are_a_restart_after_one_lost_sample() -> None:
    lines = [f"{5000 + 12 * (i % 100)},{n}" for i, n in enumerate(LEFT)]
    _, frames = read(text(lines))
    timeline = Timeline()
    placed = [timeline.place(frame) for frame in frames]
    assert timeline.lost == 1
    assert sum(one.gap for one in placed) == 1
    assert np.diff(times_us(frames))[99] == RESTART_US
    assert counts(frames) == [[n] for n in LEFT]


def test_stamps_that_stand_still_still_grow_and_never_pass_the_next() -> None:
    stamps = [0, 12, 24, 36] + [48] * 30 + [60 + 12 * i for i in range(100)]
    lines = [f"{12 * i},1" for i in range(-40, 0)]
    lines += [f"{stamp},{i}" for i, stamp in enumerate(stamps)]
    _, frames = read(text(lines), time_column=True)
    measured = np.array(times_us(frames))[40:]
    assert np.all(np.diff(measured) > 0)
    ahead_us = measured - 480_000 - np.array(stamps) * 1000
    assert np.all(ahead_us < 1000 + 30)  # within the millisecond, then 1 µs each


def test_a_counter_is_told_from_a_time_by_the_arrival() -> None:
    reader = TextLines()
    frames = list(reader.push(b"\n", 0.0))
    for i, n in enumerate(LEFT):
        frames += reader.push(b"%d,%d\n" % (i, n), i / 80)
    assert "the first counts lines and is not used" in reader.found
    assert counts(frames) == [[n] for n in LEFT]
    assert reader.identity().rate_hz == pytest.approx(80, rel=0.02)


def test_rising_forces_can_be_named_by_the_user() -> None:
    lines = [f"{i * 10},{1000 + i}" for i in range(LINES)]
    assert "time in ms" in read(text(lines))[0].found
    reader, frames = read(text(lines), time_column=False)
    assert counts(frames) == [[i * 10, 1000 + i] for i in range(LINES)]
    assert "2 forces" in reader.found


def test_beyond_24_bits_is_saturated_and_held_at_the_end() -> None:
    wild = [COUNTS_MAX - 1, COUNTS_MAX, COUNTS_MAX + 1, 10**30, COUNTS_MIN, -(10**30)]
    _, frames = read(text(map(str, LEFT + wild)))
    assert counts(frames)[LINES:] == [
        [COUNTS_MAX - 1],
        [COUNTS_MAX],
        [COUNTS_MAX],
        [COUNTS_MAX],
        [COUNTS_MIN],
        [COUNTS_MIN],
    ]
    saturated = [bool(flag) for frame in frames for flag in frame.saturated[:, 0]]
    assert saturated == [False] * (LINES + 1) + [True] * 5


@pytest.mark.parametrize("chunk", [1, 50, 5000])
def test_a_line_without_end_is_thrown_away(chunk: int) -> None:
    reader, frames = read(text(map(str, LEFT)))
    long = b"1" * 5000 + b"\n"
    for start in range(0, len(long), chunk):
        frames += reader.push(long[start : start + chunk], 1.0)
        assert len(reader._held) <= LINE_MAX
    frames += reader.push(b"77\n", 1.0)
    assert reader.overlong == 1
    assert counts(frames) == [[n] for n in [*LEFT, 77]]
    timeline = Timeline()
    for frame in frames:
        timeline.place(frame)
    assert timeline.lost == 1


def test_arrival_is_smoothed() -> None:
    """Read every 20 ms with jitter, 80 Hz: the steps come out near 12.5 ms."""
    rng = np.random.default_rng(5)
    reader = TextLines()
    frames = list(reader.push(b"\n", 10.0))
    sent = 0
    for read_s in np.arange(10.0, 40.0, 0.02) + rng.uniform(0, 0.004, 1500):
        due = int((read_s - 10.0) * 80)
        data = b"".join(b"%d\n" % (i % 7) for i in range(sent, due))
        sent = due
        frames += reader.push(data, float(read_s))
    measured = np.array(times_us(frames))
    assert len(measured) == sent
    steps = np.diff(measured)
    assert steps.min() > 0
    late = steps[800:]  # 10 s on
    assert abs(late.mean() - 12_500) < 25
    assert np.percentile(np.abs(late - 12_500), 95) < 2_500
    assert abs((measured[-1] - measured[0]) / 1e6 - (sent - 1) / 80) < 0.05


def test_a_late_beginning_is_made_up_for() -> None:
    """The first lines wait 0.2 s in a buffer, the others come at once."""
    reader = TextLines()
    frames = list(reader.push(b"\n", 0.0))
    for i in range(800):
        arrived_s = max(0.2, i / 80)
        frames += reader.push(b"%d\n" % (i % 7), arrived_s)
    # The lines of the buffer end at its arrival: what is behind them counts.
    buffered = sum(i / 80 <= 0.2 for i in range(800))
    since_us = times_us(frames)[-1] - times_us(frames)[buffered - 1]
    assert since_us == pytest.approx((799 / 80 - 0.2) * 1e6, abs=20_000)


def test_a_stall_in_arrival_is_a_gap_in_time() -> None:
    reader = TextLines()
    frames = list(reader.push(b"\n", 0.0))
    for i in range(160):
        pause_s = 3.0 if i >= 80 else 0.0
        frames += reader.push(b"%d\n" % (i % 5), i / 80 + pause_s)
    timeline = Timeline()
    gaps = [placed.gap for frame in frames for placed in [timeline.place(frame)]]
    assert sum(gaps) == 1
    assert times_us(frames)[-1] == pytest.approx(5e6, abs=0.05e6)


def test_without_arrival_the_nominal_period_is_used() -> None:
    _, frames = read(text(map(str, LEFT)))
    assert set(np.diff(times_us(frames)).tolist()) == {NOMINAL_US}


def test_lines_are_held_only_until_the_layout_is_known() -> None:
    reader = TextLines()
    reader.push(b"\n", 0.0)
    for n in LEFT[: LINES_NEEDED - 1]:
        assert reader.push(b"%d\n" % n, 0.0) == []
    assert counts(reader.push(b"%d\n" % LEFT[LINES_NEEDED - 1], 0.0)) == [
        [n] for n in LEFT[:LINES_NEEDED]
    ]
    for _ in range(1000):
        reader.push(b"junk\n", 0.0)
    assert len(reader._early) <= LINES_KEPT


SYNTHETIC = {
    "ms and two": text(
        [*BOOT]
        + [
            f"{12 * i},{n},{m}"
            for i, (n, m) in enumerate(zip(LEFT, RIGHT, strict=True))
        ]
        + ["oops", "12,34", "9x,8,7", "1" * 300],
        "\r\n",
    ),
    "one": text([*map(str, LEFT), "x", *map(str, RIGHT)]),
    "decimal comma": text(f"{i};{n},5" for i, n in enumerate(LEFT)),
    "repeated stamps": text(f"{i // 3}\t{n}" for i, n in enumerate(LEFT)),
}


@pytest.mark.parametrize("name", SYNTHETIC)
@settings(max_examples=20)
@given(places=st.lists(st.integers(0, 4000), max_size=15))
def test_any_cuts_give_the_same_samples(name: str, places: list[int]) -> None:
    data = SYNTHETIC[name]
    whole, expected = read(data)
    edges = [0, *sorted(min(place, len(data)) for place in places), len(data)]
    reader = TextLines()
    frames = [
        frame
        for start, end in itertools.pairwise(edges)
        for frame in reader.push(data[start:end], 0.0)
    ]
    assert counts(frames) == counts(expected)
    assert times_us(frames) == times_us(expected)
    assert reader.found == whole.found
    assert (reader.unparsed, reader.overlong) == (whole.unparsed, whole.overlong)
    assert reader.identity() == whole.identity()


@settings(max_examples=50)
@given(
    st.lists(
        st.tuples(
            st.one_of(
                st.binary(max_size=60),
                st.text("0123456789,.;-+eE \t\r\n", max_size=200).map(str.encode),
                st.just(b"12,34\n" * 20),
                st.just(b"1e99 9e99 5\n0 1 2\n" * 20),
            ),
            st.floats(0, 1e6),
        ),
        max_size=12,
    )
)
def test_garbage_never_raises_and_what_comes_out_can_be_sent(
    pieces: list[tuple[bytes, float]],
) -> None:
    reader = TextLines()
    timeline = Timeline()
    decoder = Decoder()
    last_s = -1e18
    for data, arrived_s in pieces:
        for frame in reader.push(data, arrived_s):
            (decoded,) = decoder.push(encode(frame))
            assert isinstance(decoded, Samples)
            assert np.array_equal(decoded.counts, frame.counts)
            assert np.array_equal(decoded.saturated, frame.saturated)
            time_s = timeline.place(frame).time_s
            assert len(time_s) == len(frame.counts)
            assert time_s[0] > last_s
            assert np.all(np.diff(time_s) > 0)
            last_s = time_s[-1]
        assert len(reader._held) <= LINE_MAX
    if reader.ready:
        assert decoder.push(encode(reader.identity()))
