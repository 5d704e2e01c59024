from __future__ import annotations

from dataclasses import replace

import pytest
from wire.frame_examples import IDENTITY

from biofeedback.wire.commands import REPEAT_S, Commands, version_problem
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import (
    FrameType,
    Gain,
    HostFrame,
    Identify,
    Rate,
    Reply,
    Result,
    Start,
    Stop,
)


def sent(wire: bytes) -> HostFrame:
    (frame,) = Decoder().push(wire)
    assert isinstance(frame, Identify | Start | Stop | Rate | Gain)
    return frame


@pytest.mark.parametrize(
    ("command", "kind"),
    [
        (Identify(0), FrameType.IDENTIFY),
        (Start(0), FrameType.START),
        (Stop(0), FrameType.STOP),
        (Rate(0, 80.0), FrameType.RATE),
        (Gain(0, 64), FrameType.GAIN),
    ],
)
def test_an_answer_finds_its_command_once(command: HostFrame, kind: FrameType) -> None:
    commands = Commands()
    commands.ask(Gain(0, 1) if kind is not FrameType.GAIN else Stop(0), now_s=0.0)
    frame = sent(commands.ask(command, now_s=0.0))
    assert frame.token == 1
    other = FrameType.RATE if kind is not FrameType.RATE else FrameType.GAIN
    assert commands.answer(Reply(0, 1, other, Result.DONE)) is None
    assert commands.answer(Reply(0, 2, kind, Result.DONE)) is None
    assert commands.answer(Reply(0, 1, kind, Result.BUSY)) == frame
    assert commands.answer(Reply(0, 1, kind, Result.DONE)) is None


def test_a_command_without_answer_is_asked_again_with_a_new_token() -> None:
    commands = Commands()
    first = sent(commands.ask(Rate(0, 10.0), now_s=5.0))
    assert commands.overdue(now_s=5.0 + REPEAT_S - 0.01) == []
    (late,) = commands.overdue(now_s=5.0 + REPEAT_S)
    second = sent(commands.ask(late, now_s=5.25))
    assert second == replace(first, token=1)
    assert commands.overdue(now_s=5.25) == []
    assert commands.answer(Reply(0, 0, FrameType.RATE, Result.DONE)) is None


def test_the_last_of_start_and_stop_holds() -> None:
    commands = Commands()
    commands.ask(Start(0), now_s=0.0)
    commands.ask(Stop(0), now_s=0.0)
    assert commands.overdue(now_s=9.0) == [Stop(1)]


def test_tokens_go_round() -> None:
    commands = Commands()
    tokens = [sent(commands.ask(Identify(0), now_s=0.0)).token for _ in range(257)]
    assert tokens == [*range(256), 0]
    assert len(commands.pending) == 1


def test_versions_are_compared_by_their_major_number() -> None:
    assert version_problem(IDENTITY) == ""
    assert version_problem(replace(IDENTITY, protocol=(1, 255))) == ""
    assert version_problem(replace(IDENTITY, protocol=(2, 0))) == (
        "The board speaks version 2.0 of the wire, this program 1.0. "
        "Update this program."
    )
    assert version_problem(replace(IDENTITY, protocol=(0, 9))).endswith(
        "Update the firmware."
    )
