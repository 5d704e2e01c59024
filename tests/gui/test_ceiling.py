"""The ceiling: the frame that takes the crossing shows the warning, to all of them.

How long that takes on the clock is measured by `trials/ceiling.py`; here it is the
order of things that is held: nothing waits for a later frame, and nothing is dropped.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from gui.staged_session import ASKED, FRAME_S, RATE_HZ, StagedSession
from PySide6.QtCore import QEvent, QObject

from biofeedback.gui.window import Window
from biofeedback.rig.handoff import BLOCKS_MAX, Handoff, Warned
from biofeedback.sound.player import Player
from biofeedback.sound.speaker import BufferSpeaker
from biofeedback.training.events import CeilingCrossed
from biofeedback.training.feedback import WARNED_LEAST_S, Cue

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot

    from biofeedback.session import Update

INSIDE_N, OVER_N = 120.0, 200.0
SAMPLE_S = 1 / RATE_HZ


class Painted(QObject):
    """What stood on a widget at each of its paints."""

    def __init__(self, window: Window) -> None:
        super().__init__()
        self.cues: list[Cue] = []
        self.desks: list[str] = []
        self._window = window
        for widget in (window.screen_part.cue, window.desk.messages.message):
            widget.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.Paint:
            if watched is self._window.screen_part.cue:
                self.cues.append(self._window.screen_part.shown_cue)
            else:
                self.desks.append(self._window.desk.messages.message.text())
        return False


class Stage:
    """A set in the band, under a ceiling of 190 N, with sound on."""

    def __init__(self, qtbot: QtBot, session: StagedSession | None = None) -> None:
        self.force_n = INSIDE_N
        self.speaker = BufferSpeaker()
        self.session = session or StagedSession(lambda _: self.force_n)
        self.session.force_n = lambda _: self.force_n
        self.window = Window(
            self.session, prescription=ASKED, clock=lambda: self.session.now_ns
        )
        qtbot.addWidget(self.window)
        self.window.comfort.sound._player = Player(self.speaker)
        self.window.comfort.sound.on.setChecked(True)
        self.window.show()
        qtbot.waitExposed(self.window)
        self.session.begin_set(ASKED)
        for _ in range(round(2 / FRAME_S)):
            self.frame(FRAME_S)
        assert not self.speaker.play(4800).any()
        qtbot.wait(1)
        self.painted = Painted(self.window)

    def frame(self, seconds: float) -> None:
        self.session.advance(seconds)
        self.window.frame()
        self.speaker.play(round(seconds * 48_000))

    def cue(self) -> Cue:
        return self.window.screen_part.shown_cue

    @property
    def message(self) -> str:
        return self.window.desk.messages.message.text()


@pytest.fixture
def stage(qtbot: QtBot) -> Iterator[Stage]:
    made = Stage(qtbot)
    yield made
    made.window.close_at_once()


def test_the_frame_that_takes_the_crossing_paints_the_warning(
    stage: Stage, qtbot: QtBot
) -> None:
    stage.force_n = OVER_N
    stage.session.advance(SAMPLE_S)
    assert stage.cue() is Cue.STAY
    stage.window.frame()
    # The picture and the words of this very frame, and no other frame since.
    assert stage.cue() is Cue.TOO_MUCH
    assert stage.window.screen_part.path.marker.split() == ["down"]
    assert "ceiling of 190 N" in stage.message
    qtbot.waitUntil(lambda: bool(stage.painted.cues and stage.painted.desks))
    assert stage.painted.cues[0] is Cue.TOO_MUCH
    assert "ceiling of 190 N" in stage.painted.desks[0]
    # The next buffer that the device asks for begins the warning.
    assert np.abs(stage.speaker.play(256)).max() > 0


def test_a_crossing_that_is_over_before_the_frame_is_shown_all_the_same(
    stage: Stage,
) -> None:
    stage.force_n = OVER_N
    stage.session.advance(SAMPLE_S)  # one sample over
    stage.force_n = INSIDE_N
    stage.frame(SAMPLE_S)  # and back, both in one frame
    assert stage.cue() is Cue.TOO_MUCH
    assert "ceiling" in stage.message
    assert np.abs(stage.speaker.play(256)).max() > 0
    frames = 0
    while stage.cue() is Cue.TOO_MUCH:
        stage.frame(FRAME_S)
        frames += 1
    assert frames * FRAME_S == pytest.approx(WARNED_LEAST_S, abs=0.05)
    assert stage.cue() is Cue.STAY


def test_other_messages_of_the_frame_do_not_hide_it(stage: Stage) -> None:
    stage.force_n = OVER_N
    stage.session.advance(SAMPLE_S)
    stage.session.happen(Warned("The disk is nearly full."))
    stage.window.frame()
    assert "ceiling of 190 N" in stage.message
    assert "disk" in stage.window.desk.messages.earlier.text()


def test_a_desk_that_is_folded_away_comes_back_for_it(stage: Stage) -> None:
    stage.window.comfort.fold()
    stage.frame(FRAME_S)
    assert stage.window.desk.isHidden()
    stage.force_n = OVER_N
    stage.frame(2 * SAMPLE_S)
    assert stage.window.desk.isVisible()


def test_without_a_signal_no_old_crossing_is_told_as_if_it_were_now(
    stage: Stage,
) -> None:
    stage.force_n = OVER_N
    stage.frame(2 * SAMPLE_S)
    assert stage.cue() is Cue.TOO_MUCH
    stage.session.silent = True
    stage.frame(0.6)
    assert stage.cue() is Cue.NO_SIGNAL


class HandedOver(StagedSession):
    """What it gives goes through the handoff of the acquisition thread."""

    handoff: Handoff | None = None
    taken: Update | None = None

    def pass_on(self) -> None:
        """Puts what there is, as a turn of the thread does."""
        new = super().take()
        self.handoff = self.handoff or Handoff(new.health, new.profile)
        self.handoff.put(
            blocks=new.blocks,
            events=new.events,
            state=new.state,
            health=new.health,
            profile=new.profile,
        )

    def take(self) -> Update:
        self.pass_on()
        assert self.handoff is not None
        self.taken = self.handoff.take()
        return self.taken


def test_a_crossing_in_a_block_that_the_screen_dropped_is_told(qtbot: QtBot) -> None:
    session = HandedOver(lambda _: INSIDE_N)
    stage = Stage(qtbot, session)
    stage.force_n = OVER_N
    session.advance(SAMPLE_S)
    session.pass_on()
    stage.force_n = INSIDE_N
    for _ in range(BLOCKS_MAX + 10):  # nobody pulls for some fifty seconds
        session.advance(SAMPLE_S)
        session.pass_on()
    stage.window.frame()
    taken = session.taken
    assert taken is not None
    assert taken.dropped_blocks > 0
    (crossing,) = [e for e in taken.events if isinstance(e, CeilingCrossed)]
    # The block of the crossing, which the next sample follows, is gone.
    assert crossing.time_s + 2 * SAMPLE_S < taken.blocks[0].time_s[0]
    assert stage.cue() is Cue.TOO_MUCH
    assert "ceiling of 190 N" in stage.message
    assert np.abs(stage.speaker.play(256)).max() > 0
    stage.window.close_at_once()
