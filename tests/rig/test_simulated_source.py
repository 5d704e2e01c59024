"""The simulated source: in step with the clock, or stepped by hand."""

from __future__ import annotations

import threading
import time

import pytest

from biofeedback.rig.simulated_athlete import Doing, SimulatedAthlete
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.rig.simulated_source import Listens, SimulatedSource
from biofeedback.training.band import Band
from biofeedback.training.prescription import Prescription
from biofeedback.training.task import Task
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Samples, Start

ASKED = Prescription(task=Task("push"), band=Band(50, 70), hold_s=3.0)


def test_stepped_never_waits() -> None:
    rig = SimulatedRig()
    source = SimulatedSource(rig, step_us=1_000_000, clock=lambda: 0)
    source.open()
    for _ in range(60):
        source.read()
    assert rig.now_us == 60_000_000
    source.close()


@pytest.mark.parametrize("rate_hz", [80.0, 1000.0])
def test_real_time_gives_each_frame_as_soon_as_it_is_due(rate_hz: float) -> None:
    rig = SimulatedRig(RigSettings(rate_hz=rate_hz))
    source = SimulatedSource(rig)
    source.open()
    source.write(encode(Start(token=1)))
    begin_s = time.monotonic()
    late_s = []
    decoder = Decoder()
    while time.monotonic() - begin_s < 0.5:
        for frame in decoder.push(source.read()):
            if isinstance(frame, Samples):
                made_s = (frame.time_us + (len(frame.counts) - 1) * frame.step_us) / 1e6
                late_s.append(time.monotonic() - begin_s - made_s)
    assert len(late_s) > 20
    # The middle one, since a busy machine delays some.
    assert sorted(late_s)[len(late_s) // 2] < 0.05
    source.close()


def test_stall_is_made_up_for_in_bounded_steps() -> None:
    now_ns = 0
    rig = SimulatedRig()
    source = SimulatedSource(rig, clock=lambda: now_ns)
    source.open()
    now_ns = 2_500_000_000
    source.read()
    assert rig.now_us == 1_000_000
    source.read()
    source.read()
    assert rig.now_us == 2_500_000


def test_closed_and_opened_again_goes_on_where_it_was() -> None:
    now_ns = 0
    rig = SimulatedRig()
    source = SimulatedSource(rig, clock=lambda: now_ns)
    source.open()
    now_ns = 500_000_000
    source.read()
    source.close()
    now_ns = 90_000_000_000
    source.open()
    source.read()
    assert rig.now_us == 500_000


def test_waiting_read_can_be_cancelled() -> None:
    source = SimulatedSource(SimulatedRig())
    source.open()
    source.cancel()
    began_s = time.monotonic()
    thread = threading.Thread(target=source.read)
    thread.start()
    thread.join(5)
    assert time.monotonic() - began_s < 5
    source.close()


def test_prescription_reaches_the_athlete() -> None:
    athlete = SimulatedAthlete(2)
    source = SimulatedSource(
        SimulatedRig(force=athlete), athlete=athlete, step_us=20_000
    )
    assert isinstance(source, Listens)
    source.open()
    source.write(encode(Start(token=1)))

    def run(duration_s: float) -> Doing:
        for _ in range(round(duration_s / 0.02)):
            source.read()
        return athlete.doing

    source.prescribe(None)
    assert run(1) is Doing.IDLE
    source.prescribe(ASKED)
    assert run(4) is Doing.PULLING
    source.prescribe(ASKED.with_band(Band(60, 80)))
    assert run(1) is Doing.PULLING
    source.prescribe(None)
    assert run(1) is Doing.IDLE
    source.prescribe(ASKED)
    assert run(0.1) is Doing.READY


def test_scripted_force_cannot_be_told_anything() -> None:
    source = SimulatedSource(SimulatedRig())
    source.prescribe(ASKED)
    assert source.found == "80 Hz, a scripted force"
