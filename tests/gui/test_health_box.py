"""What the desk says of a signal that is not as it should be."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from gui.staged_session import BOTH, StagedSession

from biofeedback.gui.health_box import HealthBox
from biofeedback.session import Link

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot


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
    assert box.age.text() == "No sample is drawn as live, filter 22 ms"
    lost = replace(good, link=Link.LOST)
    box.show_health(lost, None, drawn_age_s=0.0142, dropped_blocks=0)
    assert box.source.text() == "simulated rig: lost"
    assert box.age.text() == "Drawn sample 14 ms old, filter 22 ms"
    assert box.zero.text() == "Zero: not taken yet"
