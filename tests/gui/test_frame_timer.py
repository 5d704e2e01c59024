from __future__ import annotations

import threading
import time
from typing import TYPE_CHECKING

import pytest
import shiboken6
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QCoreApplication

from biofeedback.gui.frame_timer import FRAME_NS, REST_FRAMES, FrameTimer, next_instant

if TYPE_CHECKING:
    from collections.abc import Callable

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
    assert len(ticks) == 1  # nobody waits for the first one
    qtbot.waitUntil(lambda: len(ticks) >= 31, timeout=10_000)
    timer.stop()
    # Frames and missed instants together make up the time that has passed: an
    # interval timer that starts after 6 ms of work would be a third too slow.
    instants = (ticks[30] - start_ns) / FRAME_NS
    assert abs(30 + timer.missed - instants) <= 1 + timer.missed
    if timer.missed == 0:  # a busy machine may be late, but never early
        assert ticks[30] - start_ns >= 29 * FRAME_NS


def test_no_tick_after_stop(qtbot: QtBot) -> None:
    ticks: list[int] = []
    timer = FrameTimer(lambda: ticks.append(1))
    timer.start()
    qtbot.waitUntil(lambda: bool(ticks), timeout=5000)
    timer.stop()
    count = len(ticks)
    qtbot.wait(60)  # three frames and more
    assert len(ticks) == count


@pytest.mark.parametrize("last", [1, 3])
def test_a_frame_may_be_the_last_one(qtbot: QtBot, last: int) -> None:
    """As that in which what is played comes to its end."""
    ticks: list[int] = []

    def frame() -> None:
        ticks.append(1)
        if len(ticks) == last:
            timer.stop()

    timer = FrameTimer(frame)
    timer.start()
    qtbot.waitUntil(lambda: len(ticks) >= last, timeout=5000)
    qtbot.wait(60)  # three frames and more
    assert len(ticks) == last


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


class Line:
    """Samples that are due soon, or not; a thread brings them."""

    def __init__(self, *, due: bool, for_looks: bool = False) -> None:
        self.due = due
        self.for_looks = for_looks
        self.looks: list[int] = []
        self.asked = 0
        self.told: Callable[[], None] | None = None

    def look_at(self, look_ns: int, told: Callable[[], None] | None = None) -> bool:
        self.looks.append(look_ns)
        if told is None or not self.for_looks:
            return False
        self.told = told
        return True

    def await_blocks(self, told: Callable[[], None], *, within_ns: int) -> bool:
        assert 0 < within_ns < FRAME_NS
        self.asked += 1
        self.told = told
        return self.due

    def bring(self) -> None:
        """Tells that they have come, from a thread of its own."""
        assert self.told is not None
        thread = threading.Thread(target=self.told)
        thread.start()
        thread.join()


def test_a_frame_waits_for_samples_that_are_about_to_come(qtbot: QtBot) -> None:
    line, frames, drawn_ns = Line(due=True), list[int](), list[int]()

    def frame() -> None:
        frames.append(line.asked)
        drawn_ns.append(time.monotonic_ns())

    timer = FrameTimer(frame, pieces=line)
    timer._tick()  # an instant of the grid
    assert line.asked == 1
    assert frames == []
    assert line.looks == [FRAME_NS]  # the one after it is announced before it is drawn
    line.bring()
    assert frames == []  # by the thread that draws, in its own time
    qtbot.waitUntil(lambda: bool(frames), timeout=5000)
    timer.stop()
    assert frames[0] == 1  # others may have followed by now
    assert line.looks[-1] >= drawn_ns[0]  # the next is announced


def test_a_frame_does_without_samples_that_stay_away(qtbot: QtBot) -> None:
    line, frames = Line(due=True), list[int]()
    timer = FrameTimer(lambda: frames.append(line.asked), pieces=line)
    timer.start()
    qtbot.waitUntil(lambda: len(frames) >= 4, timeout=5000)
    timer.stop()
    # One wait for each frame, no more; the first waits for nothing.
    assert frames[:4] == [0, 1, 2, 3]


def test_samples_that_come_too_late_make_no_frame_of_their_own(qtbot: QtBot) -> None:
    line, frames = Line(due=True), list[int]()
    timer = FrameTimer(lambda: frames.append(line.asked), pieces=line)
    timer.start()
    qtbot.waitUntil(lambda: len(frames) == 2, timeout=5000)
    line.due = False
    timer.stop()
    line.bring()
    qtbot.wait(60)  # three frames and more
    assert frames == [0, 1]


def test_who_brings_samples_goes_on_where_the_window_is_gone(qtbot: QtBot) -> None:
    del qtbot
    line = Line(due=True)
    timer = FrameTimer(lambda: None, pieces=line)
    timer._tick()
    assert line.told is not None
    timer.stop()
    shiboken6.delete(timer)
    line.told()


def test_nothing_is_waited_for_that_is_not_due(qtbot: QtBot) -> None:
    del qtbot
    line, frames = Line(due=False), list[int]()
    timer = FrameTimer(lambda: frames.append(line.asked), pieces=line)
    timer._tick()
    timer.stop()
    assert frames == [1]


def test_samples_that_are_brought_for_a_frame_set_it_off(qtbot: QtBot) -> None:
    del qtbot
    line, frames = Line(due=True, for_looks=True), list[int]()
    timer = FrameTimer(lambda: frames.append(len(line.looks)), pieces=line)
    timer.start()
    assert frames == [0]
    line.bring()
    QCoreApplication.sendPostedEvents()  # and no timer
    assert len(frames) == 2
    timer.stop()
    assert line.asked == 0  # nobody had to ask, nor to wait for an instant of the grid
    first_ns, after_ns = line.looks[:2]
    assert after_ns - first_ns == FRAME_NS


def test_a_frame_comes_where_none_are_brought(qtbot: QtBot) -> None:
    line, frames = Line(due=True, for_looks=True), list[int]()
    timer = FrameTimer(lambda: frames.append(line.asked), pieces=line)
    timer.start()
    qtbot.waitUntil(lambda: len(frames) >= 4, timeout=5000)
    timer.stop()
    assert frames[:4] == [0, 0, 0, 0]  # it had waited already


def test_what_was_brought_for_one_frame_does_not_set_off_the_next(qtbot: QtBot) -> None:
    """Late samples come while the frame that did without them is drawn."""
    del qtbot
    line, frames = Line(due=True, for_looks=True), list[int]()

    def frame() -> None:
        frames.append(1)
        if len(frames) == 2:
            line.bring()

    timer = FrameTimer(frame, pieces=line)
    timer.start()
    timer._tick()  # the end of the wait
    assert len(frames) == 2
    QCoreApplication.sendPostedEvents()
    assert len(frames) == 2
    line.bring()  # what the next one waits for
    QCoreApplication.sendPostedEvents()
    assert len(frames) == 3
    timer.stop()


def test_at_rest_no_samples_are_brought_for_a_frame(qtbot: QtBot) -> None:
    """They would set it off ten times too early, and the grid would run away."""
    del qtbot
    line = Line(due=True, for_looks=True)
    timer = FrameTimer(lambda: None, pieces=line)
    timer.resting = True
    timer.start()
    timer.stop()
    assert line.looks
    assert line.told is None
