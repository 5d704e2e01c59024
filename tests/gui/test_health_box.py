"""What the desk says of a signal that is not as it should be."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from gui.staged_session import BOTH, StagedSession

from biofeedback.gui.health_box import HealthBox
from biofeedback.session import Link

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot


def test_newtons_of_an_uncalibrated_rig_are_said_to_be_nominal(qtbot: QtBot) -> None:
    box = HealthBox()
    qtbot.addWidget(box)
    box.show()
    session = StagedSession(lambda _: 0.0)
    unheard = session.take().health
    session.advance(0.1)
    heard = session.take().health
    known = replace(
        BOTH,
        channels=tuple(
            replace(one, calibration=replace(one.calibration, label="7"))
            for one in BOTH.channels
        ),
    )
    half = replace(BOTH, channels=(known.channels[0], BOTH.channels[1]))
    told = []
    for health, profile in (
        (heard, BOTH),
        (heard, half),
        (heard, known),
        (unheard, BOTH),
        (heard, None),
    ):
        box.show_health(health, profile, drawn_age_s=None, dropped_blocks=0)
        told.append(box.nominal.isVisible())
    assert told == [True, True, False, False, False]
    assert box.nominal.text() == "Not calibrated: the newtons are nominal."


def test_each_fault_of_the_signal_is_named(qtbot: QtBot) -> None:
    box = HealthBox()
    qtbot.addWidget(box)
    good = StagedSession(lambda _: 0.0).take().health
    bad = replace(
        good, found="board 3", rate_hz=0.0, lost=12, damaged=3, saturated=True
    )
    box.show_health(bad, BOTH, drawn_age_s=None, dropped_blocks=7)
    assert box.source.text() == "simulated rig (board 3): no fresh sample"
    for words in ("– Hz", "12 lost", "3 damaged frames", "7 blocks not drawn"):
        assert words in box.rate.text()
    assert "at the end of its range" in box.rate.text()
    assert "gap" not in box.rate.text()
    pulled = replace(good, lost=13, unknown_gaps=1)
    box.show_health(pulled, BOTH, drawn_age_s=None, dropped_blocks=0)
    assert "12 lost, 1 gap of unknown length" in box.rate.text()
    assert box.age.text() == "No sample is drawn as live, filter 22 ms"
    lost = replace(good, link=Link.LOST)
    box.show_health(lost, None, drawn_age_s=0.0142, dropped_blocks=0)
    assert box.source.text() == "simulated rig: lost"
    assert box.age.text() == "Drawn sample 14 ms old, filter 22 ms: 36 ms"
    assert box.zero.text() == "Zero: not taken yet"
