"""The filter that was chosen for a board: in use when it is met, and only on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from rig.identities import identity

from biofeedback.conditioning.filter_facts import facts
from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.errors import FileError
from biofeedback.phrase import phrase
from biofeedback.rig.acquisition import Acquisition
from biofeedback.rig.commands import UseBoard
from biofeedback.rig.handoff import Warned
from biofeedback.rig.health import Watch
from biofeedback.rig.nominal import NO_BOARD
from biofeedback.rig.profile_choice import KnownBoards
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.rig.simulated_source import SimulatedSource
from biofeedback.rig.worker import Worker

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.wire.frames import Identity

SLOW = FilterChoice(FilterKind.MOVING_AVERAGE, samples=12)


def board(serial_number: str, rate_hz: float = 80.0) -> Identity:
    return identity(serial_number=serial_number, rates_hz=(rate_hz,))


def acquisition(
    filter_for: Callable[[str, float], FilterChoice | None] | None,
) -> Acquisition:
    return Acquisition(
        NO_BOARD,
        recorder=None,
        watch=Watch("test", now_ns=0, paced=True),
        audience=None,
        utc=lambda: "2026-11-30T10:00:00.000+00:00",
        known=KnownBoards(filter_for=filter_for),
    )


def of_a1(serial_number: str, rate_hz: float) -> FilterChoice | None:
    return SLOW if (serial_number, rate_hz) == ("A1", 80.0) else None


def test_it_is_in_use_from_the_first_sample_on() -> None:
    worker = Worker(
        SimulatedSource(SimulatedRig(RigSettings()), step_us=20_000),
        known=KnownBoards(filter_for=lambda number, _: SLOW if number else None),
    )
    for _ in range(60):
        worker.step()
    update = worker.handoff.take()
    worker.stop()
    assert update.profile.filter == SLOW
    assert update.health.filter_delay_s == pytest.approx(5.5 / 80)


def test_another_board_or_rate_does_not_inherit_it() -> None:
    met = acquisition(of_a1)
    seen = []
    for one in (board("A1"), board("B2"), board("A1"), board("A1", 320.0)):
        met.frame(one, b"")
        if met.other is not None:
            met.carry_out(UseBoard(met.other))
        seen.append(met.chain.profile.filter)
    assert seen == [SLOW, FilterChoice(), SLOW, FilterChoice()]
    delay_s = facts(FilterChoice(), 320.0).delay_s
    assert met.chain.filter_delay_s == pytest.approx(delay_s)


def test_a_choice_that_the_rate_does_not_allow_gives_way_to_none() -> None:
    fast = FilterChoice(cutoff_hz=100.0)
    met = acquisition(lambda _serial_number, _rate_hz: fast)
    met.frame(board("A1"), b"")
    assert met.chain.profile.filter.kind is FilterKind.NONE


def test_a_history_that_cannot_be_read_is_told_and_the_usual_filter_is_used() -> None:
    def broken(_serial_number: str, _rate_hz: float) -> FilterChoice | None:
        raise FileError("filters.jsonl", phrase("is far too long."))

    met = acquisition(broken)
    met.frame(board("A1"), b"")
    assert met.chain.profile.filter == FilterChoice()
    told = [one.message for one in met.events if isinstance(one, Warned)]
    assert any("filters.jsonl" in words for words in told)
