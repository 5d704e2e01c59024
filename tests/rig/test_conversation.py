"""The host's side of the talk, against section 7 of hardware/PROTOCOL.md."""

from __future__ import annotations

from dataclasses import replace

import pytest

from biofeedback.errors import RigError
from biofeedback.rig.conversation import Conversation
from biofeedback.rig.simulated_rig import SimulatedRig
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import (
    Damage,
    Frame,
    Identify,
    Identity,
    Samples,
    Start,
    Status,
    Stop,
)


def heard(data: bytes) -> list[Frame]:
    return [frame for frame in Decoder().push(data) if not isinstance(frame, Damage)]


def identity() -> Identity:
    (frame,) = heard(SimulatedRig().advance(0))
    assert isinstance(frame, Identity)
    return frame


def test_delimiter_then_identify_again_every_quarter_second() -> None:
    talk = Conversation()
    sent = talk.open(now_s=0.0)
    assert sent.startswith(b"\0")
    assert [type(frame) for frame in heard(sent)] == [Identify]
    assert talk.due(now_s=0.24) == b""
    (again,) = heard(talk.due(now_s=0.25))
    (first,) = heard(sent)
    assert isinstance(first, Identify)
    assert isinstance(again, Identify)
    assert again.token != first.token
    assert talk.due(now_s=0.49) == b""


def test_starts_the_board_it_has_met_and_a_board_that_has_stopped() -> None:
    rig, talk = SimulatedRig(), Conversation()
    rig.advance(0)
    stopped = Status(
        0, 0, 0, 0, 0, streaming=False, silent=(False,), next_sequences=(0,)
    )
    assert talk.hear(stopped, now_s=0.0) == b""  # nobody has been met yet
    rig.receive(talk.open(now_s=0.0))
    for frame in heard(rig.advance(1000)):
        rig.receive(talk.hear(frame, now_s=0.01))
    answered = heard(rig.advance(100_000))
    assert rig.streaming
    assert any(isinstance(frame, Samples) for frame in answered)
    for frame in answered:
        assert talk.hear(frame, now_s=0.1) == b""
    assert talk.due(now_s=9.0) == b""  # all has been answered
    # It may be another one by now: first it says who it is.
    (who,) = heard(talk.hear(stopped, now_s=9.0))
    assert isinstance(who, Identify)
    rig.receive(encode(Stop(token=0)) + encode(who))
    started = [talk.hear(frame, now_s=9.1) for frame in heard(rig.advance(1000))]
    (start,) = heard(b"".join(started))
    assert isinstance(start, Start)
    assert [type(frame) for frame in heard(talk.close())] == [Stop]


def test_another_major_version_is_not_talked_to() -> None:
    talk = Conversation()
    with pytest.raises(RigError, match=r"speaks version 2\.0"):
        talk.hear(replace(identity(), protocol=(2, 0)), now_s=0.0)
    assert talk.identity is None
