"""How long frames wait to be read; the newest is as old as it is told to be."""

from __future__ import annotations

import math

import pytest

from biofeedback.rig.pace import FRAME_NS, Pace

MS = 1_000_000
NS = 1_000_000_000


class Reader:
    """A reader of a line, in a set, and a window that looks at each instant of a grid.

    Args:
        piece_ns: time from frame to frame.
        burst_ns: frames reach this computer together, each time that so much has
            passed; 1 for each by itself.
    """

    def __init__(self, *, piece_ns: int, burst_ns: int = 1) -> None:
        self.pace = Pace()
        self.now_ns = 0
        self._piece_ns, self._burst_ns = piece_ns, burst_ns
        self._read = 0  # frames

    def come_ns(self, frame: int) -> int:
        """When a frame has reached this computer."""
        return math.ceil((frame + 1) * self._piece_ns / self._burst_ns) * self._burst_ns

    def read(self) -> int:
        """Waits until something has come and takes all of it."""
        self.now_ns, before = max(self.now_ns, self.come_ns(self._read)), self._read
        while self.come_ns(self._read) <= self.now_ns:
            self._read += 1
        return self._read - before

    def turn(self) -> int:
        """One turn, as that of the worker; by how much the newest looks too young."""
        look_ns = (self.now_ns // FRAME_NS + 1) * FRAME_NS
        self.now_ns += self.pace.rest_ns(
            in_set=True, look_ns=look_ns, now_ns=self.now_ns
        )
        frames = self.read()
        self.pace.read_ns = self.now_ns
        if self.pace.rests:
            frames += self.read()
            self.pace.read_on(now_ns=self.now_ns, came=True)
        self.pace.judged(frames)
        return self.pace.read_ns - self.come_ns(self._read - 1)


@pytest.mark.parametrize("piece_ms", [0.7, 2, 3, 3.9, 4.1, 5, 5.9, 12.5, 200])
@pytest.mark.parametrize("burst_ms", [0, 4, 8, 16])
def test_the_newest_is_as_old_as_it_is_told_to_be(
    piece_ms: float, burst_ms: int
) -> None:
    reader = Reader(piece_ns=round(piece_ms * MS), burst_ns=max(1, burst_ms * MS))
    for _ in range(2000):
        assert reader.turn() == 0


@pytest.mark.parametrize("piece_ms", [0.7, 1, 2, 3])
def test_of_a_quick_board_there_is_one_turn_a_picture(piece_ms: float) -> None:
    reader = Reader(piece_ns=round(piece_ms * MS))
    for _ in range(200):  # how quick it is has to be learned
        reader.turn()
    begun_ns = reader.now_ns
    for _ in range(200):
        reader.turn()
    assert (reader.now_ns - begun_ns) / 200 == pytest.approx(FRAME_NS, rel=0.02)


def test_on_a_line_that_sends_in_bursts_each_is_read_as_it_comes() -> None:
    """Else each would wait for the next one; that is tried seldom."""
    reader = Reader(piece_ns=3 * MS, burst_ns=16 * MS)
    for _ in range(200):
        reader.turn()
    rested = []
    for _ in range(2000):
        reader.turn()
        rested.append(reader.pace.rests)
    assert 0 < sum(rested) < len(rested) / 20  # else nothing was tried


@pytest.mark.parametrize("read_ms", [-0.9, 0.0, 8.0])
def test_no_rest_is_longer_than_a_frame(read_ms: float) -> None:
    """Also where there is already what the next look will find."""
    pace = Pace()
    look_ns = NS
    for number in range(200):
        pace.read_ns = look_ns + round(read_ms * MS) - (199 - number) * 3 * MS
        pace.judged(1)
    rest_ns = pace.rest_ns(in_set=True, look_ns=look_ns, now_ns=pace.read_ns)
    assert 0 <= rest_ns <= FRAME_NS
    assert pace.rests is (rest_ns > 0)


def test_outside_a_set_and_where_the_window_is_late_nothing_waits() -> None:
    reader = Reader(piece_ns=3 * MS)
    for _ in range(200):
        reader.turn()
    now_ns = reader.now_ns
    look_ns = now_ns + 10 * MS
    assert reader.pace.rest_ns(in_set=True, look_ns=look_ns, now_ns=now_ns)
    assert not reader.pace.rest_ns(in_set=False, look_ns=look_ns, now_ns=now_ns)
    assert not reader.pace.rest_ns(in_set=True, look_ns=0, now_ns=now_ns)
    assert not reader.pace.rests
