"""Another board on the port: what the desk says, asks and does about it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from gui.cut_text import cut_texts
from gui.staged_session import ASKED
from gui.stepped_window import Stage

from biofeedback.gui import language
from biofeedback.gui.health_line import Mark
from biofeedback.phrase import phrase
from biofeedback.session import Link, OtherBoard
from biofeedback.training.feedback import Cue

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

OTHER = OtherBoard(
    known=phrase("board {number}", number="A-1"),
    here=phrase("board {number}", number="B-2"),
)


def swap(stage: Stage, other: OtherBoard | None) -> None:
    """Another board is on the port, or the board in use is back."""
    session = stage.session
    session.other, session.silent = other, other is not None
    session.link = Link.LIVE if other is None else Link.OTHER
    stage.run(0.6)


def test_between_sets_key_and_button_use_it(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    stage.run(0.5)
    with qtbot.waitActive(stage.window):
        stage.window.activateWindow()
    question = stage.window.desk.foot.board
    assert not question.isVisible()
    stage.press("Ctrl+F12")  # nothing is there to be used
    assert stage.session.done == []
    swap(stage, OTHER)
    assert question.isVisible()
    assert question.words.text() == (
        "Here: board B-2. Put board A-1 back, or use this one."
    )
    assert "Ctrl+F12" in question.use.toolTip()
    state = stage.window.desk.foot.health.state
    assert (state.mark, state.words) == (Mark.NONE, "Signal: another board")
    assert stage.window.drawn_age_s is None
    assert list(cut_texts(stage.window.desk.foot)) == []
    stage.press("Ctrl+F12")
    assert stage.session.done == [("use_board", OTHER)]
    question.use.click()
    assert stage.session.done == [("use_board", OTHER)] * 2
    swap(stage, None)
    assert not question.isVisible()
    assert stage.told == "The signal is there."


LONG = OtherBoard(
    known=phrase("board A-1 (2 channels, 80 Hz, an invented ADC, gain {n})", n=128),
    here=phrase("board A-1 (1 channel, 320 Hz, another ADC, gain {n})", n=64),
)


def test_which_board_it_is_stands_there_once(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    stage.run(0.5)
    swap(stage, LONG)
    desk = stage.window.desk
    assert str(LONG.here) in desk.foot.board.words.text()
    assert stage.told == "Another board is on the port: no force is read."
    assert not desk.messages.shortened
    told = [*desk.messages.all, desk.messages.earlier.text()]
    assert not any("A-1" in one for one in told)


@pytest.mark.parametrize(
    ("other", "link", "why"),
    [
        (OTHER, Link.OTHER, "another board is on the port, and no force is read."),
        (None, Link.LOST, "no force comes. The cable is out."),
        (None, Link.SILENT, "no force comes. The cable is out."),
        (None, Link.OPENING, "no force comes. The cable is out."),
    ],
)
def test_without_force_the_first_start_tells_why_and_promises_none(
    qtbot: QtBot, other: OtherBoard | None, link: Link, why: str
) -> None:
    stage = Stage(qtbot)
    stage.run(0.5)
    stage.press("Ctrl+7")  # above the cut, which is asked about before a start
    swap(stage, other)
    stage.session.link, stage.session.silent = link, True
    stage.run(0.1)
    stage.press("F5")
    assert stage.told == f"Not started: {why}"
    assert not stage.window.visit.asks_again
    stage.press_again()
    assert stage.told == f"Not started: {why}"
    assert stage.session.done == []
    swap(stage, None)
    stage.press("F5")
    assert "F5 again starts." in stage.told
    stage.press_again()
    stage.run(0.1)
    assert stage.in_set()


def test_in_a_set_it_stands_as_without_a_signal(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    stage.run(0.5)
    stage.session.begin_set(ASKED)
    stage.run(4.0)
    assert stage.window.screen_part.path.marker == "disc"
    swap(stage, OTHER)
    assert stage.cue() is Cue.NO_SIGNAL
    assert stage.window.screen_part.path.marker == "nothing"
    assert stage.window.desk.foot.board.isVisible()
    assert stage.window.desk.foot.board.words.text() == (
        "Here: board B-2. Put board A-1 back, or stop the set first."
    )
    assert stage.in_set()


def test_a_folded_desk_unfolds_to_ask(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    stage.run(0.5)
    stage.window.comfort.fold()
    assert not stage.window.desk.isVisible()
    swap(stage, OTHER)
    assert stage.window.desk.foot.board.isVisible()


@pytest.mark.usefixtures("spanish")
def test_it_speaks_spanish(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    stage.run(0.5)
    swap(stage, OTHER)
    question = stage.window.desk.foot.board
    assert question.words.text() == (
        "Conectada: placa B-2. Volver a poner placa A-1, o usar esta."
    )
    assert question.use.text() == "Usar esta placa"
    for in_set in (False, True):
        told = language.shown(OTHER.words(in_set=in_set))
        assert told.startswith("Hay otra placa en el puerto: placa B-2.")
        assert "placa A-1" in told
    assert list(cut_texts(stage.window.desk.foot)) == []
