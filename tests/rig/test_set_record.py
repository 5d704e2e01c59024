"""Where events stand in a recording that is fed with several frames at once."""

from __future__ import annotations

import pytest
from rig.test_worker import MemoryRecorder
from wire.frame_examples import samples

from biofeedback.rig.health import Watch
from biofeedback.rig.set_record import SetRecord
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Event, Samples
from biofeedback.wire.run import Run


@pytest.mark.parametrize("first", [0, 2**32 - 8])
def test_an_event_stands_after_the_last_frame_of_the_first_stream(first: int) -> None:
    """Also where those before it look different, and the second stream is ahead."""
    sizes = (1, 3, 3, 3, 1)
    sent = [
        samples([[1, 2]] * size, sequence=(first + sum(sizes[:at])) % 2**32)
        for at, size in enumerate(sizes)
    ]
    sent.append(samples([[1]], stream=1, sequence=77))
    found = Decoder().push_runs(b"".join(map(encode, sent)))
    frames = [one for one in found if isinstance(one, Samples | Run)]
    recorder = MemoryRecorder()
    record = SetRecord(recorder, Watch("a rig", now_ns=0, paced=False))
    record.begin({}, None)
    record.follow(frames)
    record.event({"kind": "note", "text": "here"})
    told = recorder.frames()[-1]
    assert isinstance(told, Event)
    assert told.sequence == (first + sum(sizes)) % 2**32
