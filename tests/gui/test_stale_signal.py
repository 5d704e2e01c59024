"""A stream that goes on and is not the force of now: what athlete and desk see."""

from __future__ import annotations

import os
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from rig.faulty_board import FaultyBoard, Goes
from rig.test_serve import Serving

from biofeedback.gui.health_line import Mark
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.rig.force_input import ForceProfile
from biofeedback.rig.serial_source import SerialSource
from biofeedback.rig.serve import TerminalLine
from biofeedback.session import Session
from biofeedback.session.office import Office
from biofeedback.session.opening import PLAIN
from biofeedback.training.feedback import Cue

if TYPE_CHECKING:
    from pathlib import Path

    from pytestqt.qtbot import QtBot

FAULT_S = 6.0
PULL = ForceProfile(((0.0, 0.0, 0.0), (3.0, 0.0, 0.0), (3.5, 30.0, 30.0)))


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="no pseudo-terminals here")
@pytest.mark.parametrize("goes", [Goes.SAME_COUNTS, Goes.SAME_FRAME, Goes.SAME_TIME])
def test_within_a_second_nothing_looks_live_and_words_say_why(
    qtbot: QtBot, tmp_path: Path, goes: Goes
) -> None:
    line = TerminalLine()
    asked = replace(PLAIN, hold_s=30.0, reps=1)
    with (
        Serving(FaultyBoard(goes, at_s=FAULT_S, force=PULL), line) as server,
        Logbook.open(tmp_path / "logbook.db") as logbook,
    ):
        folder = tmp_path / "recordings"
        session = Session(
            SerialSource(line.name),
            logbook=logbook,
            recordings=folder,
            athlete_code="A7",
        )
        window = Window(
            session, Office.of(logbook, folder, session), prescription=asked
        )
        qtbot.addWidget(window)
        window.show()
        session.start()
        window.frames.start()
        qtbot.waitUntil(lambda: window.drawn_age_s is not None, timeout=10_000)
        session.begin_set(asked)
        screen = window.screen_part
        qtbot.waitUntil(lambda: screen.path.marker == "disc", timeout=10_000)
        # With a time that stands each frame is a gap, and the cue goes at once.
        qtbot.waitUntil(lambda: screen.path.marker == "nothing", timeout=10_000)
        took_s = window._clock() / 1e9 - server._origin_ns / 1e9 - FAULT_S
        assert 0.0 < took_s < 1.0
        # Not by a colour: no marker, no seconds, no bubble, and words.
        assert screen.shown_cue is Cue.NO_SIGNAL
        assert screen.path.accessibleDescription() == "no signal"
        assert window.drawn_age_s is None
        message = window.desk.messages.message.text()
        assert "no force is shown" in message
        qtbot.waitUntil(
            lambda: window.desk.foot.health.state.mark is Mark.NONE, timeout=2_000
        )
        assert window.desk.foot.health.state.words == "Signal: stale"
        window.close_at_once()
