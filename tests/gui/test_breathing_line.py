"""The breathing reminder on the athlete's screen."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from training.test_breathing import asked, state

from biofeedback.gui.breathing_line import BreathingLine
from biofeedback.gui.theme import NIGHT
from biofeedback.training.task import Sides

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


def test_where_one_side_works_it_is_named_and_both_are_not(qtbot: QtBot) -> None:
    """In the words of a maximal test; the reminder stands there for its seconds."""
    line = BreathingLine()
    qtbot.addWidget(line)
    hold = asked(70, 45)
    one = replace(hold, task=replace(hold.task, sides=Sides.RIGHT))
    told = []
    for prescription, time_s in ((one, None), (one, 21.0), (one, 24.0), (hold, None)):
        now = None if time_s is None else state(time_s)
        line.show_state(now, prescription, live=True)
        told.append(line.accessibleDescription())
    assert told == ["Right", "Right", "Keep breathing", ""]
    line.show_sides(Sides.RIGHT)
    assert line.accessibleDescription() == told[0]


@pytest.mark.parametrize(
    ("sides", "rest", "ready", "key"),
    [
        (Sides.BOTH, "Next set in 0:08", "Get ready 0:08", "Rest 0:08, then F5 starts"),
        (
            Sides.LEFT,
            "Left next in 0:08",
            "Left: get ready 0:08",
            "Left next, F5 starts",
        ),
    ],
)
def test_a_rest_names_the_side_that_is_next(
    qtbot: QtBot, sides: Sides, rest: str, ready: str, key: str
) -> None:
    line = BreathingLine()
    qtbot.addWidget(line)
    for near, begins, words in (
        (False, "", rest),
        (True, "", ready),
        (True, "F5", key),
    ):
        line.show_rest(8.0, ready=near, key=begins, sides=sides)
        assert line.accessibleDescription() == words
