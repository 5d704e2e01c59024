"""Boards that stand still by themselves: zero can be taken, and nothing is withheld."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest

from biofeedback.conditioning.block import Block
from biofeedback.conditioning.profile import ZeroKind
from biofeedback.rig.commands import TakeZero
from biofeedback.rig.handoff import Link, Refused, ZeroTaken
from biofeedback.rig.introduction import Introduction
from biofeedback.rig.weigh import Hung, Weigh
from biofeedback.rig.worker import Worker

if TYPE_CHECKING:
    from collections.abc import Callable

RATE_HZ = 80


class PlainBoard:
    """Lines of numbers as a board prints them, on a clock that steps along."""

    def __init__(self, line: Callable[[float], bytes]) -> None:
        self.now_ns = 0
        self._line = line
        self._talk = Introduction("plain", baud=1, now_s=0.0)

    name, paced = "plain", True

    @property
    def found(self) -> str:
        return self._talk.found

    def open(self) -> None: ...

    def close(self) -> None: ...

    def cancel(self) -> None: ...

    def write(self, data: bytes) -> None: ...

    def read(self) -> bytes:
        self.now_ns += 1_000_000_000 // RATE_HZ
        now_s = self.now_ns / 1e9
        frames = self._talk.hear(self._line(now_s), now_s=now_s)
        self._talk.question(now_s=now_s)
        return frames


class Bench:
    def __init__(self, line: Callable[[float], bytes]) -> None:
        self.board = PlainBoard(line)
        self.worker = Worker(self.board, clock=lambda: self.board.now_ns)
        self.links: list[Link] = []

    def until(self, end_s: float) -> list[object]:
        told: list[object] = []
        while self.board.now_ns < end_s * 1e9:
            self.worker.step()
            update = self.worker.handoff.take()
            self.links.append(update.health.link)
            told += update.events
        return told

    def zero(self, end_s: float) -> list[type]:
        self.worker.send(TakeZero(ZeroKind.EMPTY_RIG))
        told = self.until(end_s)
        return [type(one) for one in told if isinstance(one, ZeroTaken | Refused)]


@pytest.mark.parametrize("at_s", [5.0, 50.0])
def test_zero_is_taken_of_an_empty_rig_on_a_board_that_rounds(at_s: float) -> None:
    bench = Bench(lambda _: b"0.3\n")
    bench.until(at_s)
    assert bench.zero(at_s + 3) == [ZeroTaken]
    bench.worker.stop()


def test_a_column_that_is_not_fitted_withholds_nothing_of_the_other() -> None:
    draw = np.random.default_rng(3)
    bench = Bench(lambda _: b"%.3f\t0.000\n" % (20 + draw.normal(0, 0.05)))
    bench.until(20)
    assert set(bench.links[-RATE_HZ * 10 :]) == {Link.LIVE}
    assert bench.zero(23) == [ZeroTaken]
    bench.worker.stop()


def test_both_columns_that_stand_from_the_first_sample_on_are_stale() -> None:
    bench = Bench(lambda _: b"20.5\t20.5\n")
    bench.until(9)  # a board that rounds is given five seconds under load
    assert bench.links[-1] is Link.STALE
    bench.worker.stop()


def test_what_a_press_has_left_is_not_taken_for_the_mass() -> None:
    draw = np.random.default_rng(0)
    weigh = Weigh(0, 10.0, rest_n=np.zeros(2), noise_n=np.full(2, 0.01))

    def block(first: int, left_n: float) -> Block:
        shown_n = draw.normal(0, 0.01, (120, 2))
        shown_n[:, 0] += left_n
        none = np.zeros(shown_n.shape, bool)
        time_s = (first + np.arange(120)) / 80
        counts = np.zeros(shown_n.shape, np.int32)
        return Block(first, 0, time_s, counts, shown_n, shown_n, ~none[:, 0], none)

    assert weigh.push(block(0, 0.35)) is None
    assert weigh.push(block(120, 0.35)) is None
    found = weigh.push(block(240, 98.0665 + 0.35))
    assert found is not None
    assert found.answer is Hung.RIGHT
    assert found.ratio == pytest.approx(1.0, abs=0.001)
