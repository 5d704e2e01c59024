"""The breathing reminder on the athlete's screen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from training.test_breathing import asked, state

from biofeedback.gui.breathing_line import BreathingLine
from biofeedback.gui.theme import NIGHT

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot


def inked(line: BreathingLine) -> int:
    """How many pixels are not paper."""
    image = line.grab().toImage()
    paper = line.theme.colour("paper").rgb()
    return sum(
        image.pixel(x, y) != paper
        for x in range(0, image.width(), 2)
        for y in range(0, image.height(), 2)
    )


def test_it_is_written_and_taken_away_again(qtbot: QtBot) -> None:
    line = BreathingLine()
    qtbot.addWidget(line)
    line.resize(600, 50)
    line.set_theme(NIGHT)
    hold = asked(70, 45)
    line.show_state(state(21.0), hold, live=True)
    assert line.accessibleDescription() == ""
    assert inked(line) == 0
    line.show_state(state(24.0), hold, live=True)
    assert line.accessibleDescription() == "Keep breathing"
    assert inked(line) > 100
    line.show_state(state(24.0), hold, live=False)  # nothing may look live
    assert inked(line) == 0
    line.show_state(state(24.0), asked(10, 5), live=True)
    assert line.accessibleDescription() == ""
