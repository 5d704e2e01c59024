from __future__ import annotations

import time
from typing import TYPE_CHECKING

from hypothesis import given
from hypothesis import strategies as st

from biofeedback.gui.frame_timer import FRAME_NS, REST_FRAMES, FrameTimer, next_instant

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot


@given(st.integers(0, 10**15), st.integers(-5_000_000, 10**10))
def test_it_aims_at_the_grid_and_makes_nothing_up(last_ns: int, passed_ns: int) -> None:
    now_ns = last_ns + passed_ns
    target_ns, missed = next_instant(last_ns, now_ns=now_ns)
    assert (target_ns - last_ns) % FRAME_NS == 0
    assert target_ns > last_ns
    assert target_ns >= now_ns
    assert target_ns - now_ns <= FRAME_NS + max(0, -passed_ns)
    assert missed == (target_ns - last_ns) // FRAME_NS - 1


def test_work_in_the_frame_does_not_slow_the_grid(qtbot: QtBot) -> None:
    ticks: list[int] = []

    def frame() -> None:
        ticks.append(time.monotonic_ns())
        until_ns = ticks[-1] + 6_000_000
        while time.monotonic_ns() < until_ns:
            pass

    timer = FrameTimer(frame)
    start_ns = time.monotonic_ns()
    timer.start()
    qtbot.waitUntil(lambda: len(ticks) >= 30, timeout=10_000)
    timer.stop()
    # Frames and missed instants together make up the time that has passed: an
    # interval timer that starts after 6 ms of work would be a third too slow.
    instants = (ticks[29] - start_ns) / FRAME_NS
    assert abs(30 + timer.missed - instants) <= 1 + timer.missed
    if timer.missed == 0:  # a busy machine may be late, but never early
        assert ticks[29] - start_ns >= 29 * FRAME_NS


def test_no_tick_after_stop(qtbot: QtBot) -> None:
    ticks: list[int] = []
    timer = FrameTimer(lambda: ticks.append(1))
    timer.start()
    qtbot.waitUntil(lambda: bool(ticks), timeout=5000)
    timer.stop()
    count = len(ticks)
    qtbot.wait(60)  # three frames and more
    assert len(ticks) == count


def test_at_rest_the_next_tick_is_aimed_at_a_tenth_of_a_second_later(
    qtbot: QtBot,
) -> None:
    del qtbot
    timer = FrameTimer(lambda: None)
    timer.resting = True
    begun_ns = time.monotonic_ns()
    timer.start()
    assert timer._target_ns - begun_ns >= REST_FRAMES * FRAME_NS
    assert timer.missed == 0
    timer.resting = False
    timer.start()
    assert timer._target_ns - time.monotonic_ns() <= FRAME_NS
    timer.stop()
