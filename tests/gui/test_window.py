"""The window on a staged session: keys, messages, lost signal, closing."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest
from gui.staged_session import ASKED, BOTH, FRAME_S, StagedSession, steady_pull
from gui.stepped_window import Stage
from PySide6.QtCore import QCoreApplication, QPoint, QTimer
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QMessageBox

from biofeedback.conditioning.profile import Zero, ZeroKind
from biofeedback.errors import RigError
from biofeedback.gui.frame_timer import FRAME_NS
from biofeedback.gui.keymap import PAIN_BACK
from biofeedback.gui.link_words import UNREAD_AFTER_S
from biofeedback.gui.live_session import STALE_AFTER_S
from biofeedback.gui.theme import DAY, NIGHT
from biofeedback.gui.window import Window
from biofeedback.phrase import phrase
from biofeedback.rig.health_words import LOWER, UPPER, stop_words
from biofeedback.session import Link, Refused, SetEnded, Warned, ZeroTaken
from biofeedback.training.band import Band
from biofeedback.training.events import CeilingCrossed
from biofeedback.training.feedback import Cue
from biofeedback.training.maximal import StepKind
from biofeedback.wire.text_lines import TextLines

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from biofeedback.session import Update


@pytest.fixture
def stage(qtbot: QtBot) -> Stage:
    return Stage(qtbot)


# Keys.


def test_start_and_stop_by_key(stage: Stage) -> None:
    stage.run(0.2)
    stage.press("F5")
    assert stage.session.done == [("begin_set", ASKED)]
    stage.run(0.2)
    assert stage.in_set()
    stage.press("F5")  # a second start does nothing
    stage.press("Esc")
    stage.run(0.1)
    assert [what for what, *_ in stage.session.done] == ["begin_set", "end_set"]
    assert not stage.in_set()
    assert stage.told == "The set is over: stopped at the desk."


@pytest.mark.parametrize("where", ["note", "band"])
def test_the_stop_key_works_wherever_the_focus_is(stage: Stage, where: str) -> None:
    stage.run(0.2)
    stage.press("F5")
    stage.run(0.2)
    desk = stage.window.desk
    line = desk.note.line if where == "note" else desk.form.band.centre.line
    line.setFocus()
    QTest.keyClicks(line, "12")
    stage.press("Esc")
    assert stage.session.done[-1][0] == "end_set"
    changes = [entry for entry in stage.session.done if entry[0] == "change_band"]
    assert changes == [], "a number that is half typed must not act"


def test_the_sheet_names_every_key_and_every_word_of_the_screen(stage: Stage) -> None:
    stage.run(0.2)
    stage.press("F1")
    sheet = stage.window.sheet
    assert sheet.isVisible()
    shown = [label.text() for label in sheet.findChildren(QLabel)]
    desk = stage.window.desk
    levels = (*desk.pain.buttons, *desk.effort.buttons)
    for button, key, tip in desk.actions_and_keys():
        assert button in levels or {key, tip} <= set(shown), key
    for word in ("points of the reference", "% of the centre", "unbroken", "judged"):
        assert word in shown
    stage.press("F1")
    assert stage.live()
    stage.press("F1")
    stage.press("Esc")
    assert stage.live()


@pytest.mark.parametrize("key", ["F1", "F2", "F6", "F12"])
def test_no_page_takes_the_athletes_screen_away_in_a_set(
    stage: Stage, key: str
) -> None:
    stage.run(0.2)
    stage.press("F5")
    stage.run(0.2)
    stage.press(key)
    assert stage.live()
    assert stage.told == "A set is under way. Stop it first."
    free = [button for button in stage.window.pages.buttons if button.isEnabled()]
    assert free == [stage.window.desk.cautions]  # they are read beside the picture
    stage.press("Esc")
    stage.run(0.1)
    stage.press(key)
    assert not stage.live()


def test_a_calibration_does_not_begin_in_a_set(stage: Stage) -> None:
    stage.run(0.2)
    stage.press("F5")
    stage.run(0.2)
    stage.window.calibration.begin.click()
    assert stage.window.calibration.guide is None
    stage.window.pages.switch(stage.window.calibration)
    assert stage.live()


@pytest.mark.parametrize("key", ["F2", "F6", "F12"])
def test_a_set_never_starts_unseen(stage: Stage, key: str) -> None:
    stage.run(0.2)
    stage.press(key)
    stage.press("F5")
    assert stage.live()
    assert stage.session.done == [("begin_set", ASKED)]


def test_why_a_set_does_not_start_is_seen(stage: Stage) -> None:
    stage.window.desk.form.hold.line.setText("x")
    stage.press("F2")
    stage.press("F5")
    assert stage.live()
    assert stage.session.done == []
    assert stage.told == "Not started: a field needs another value."


def test_a_set_that_begins_by_itself_is_seen(stage: Stage) -> None:
    stage.run(0.2)
    stage.press("F6")
    stage.session.begin_set(ASKED)
    stage.run(0.1)
    assert stage.live()


@pytest.mark.parametrize("focused", ["reps", "pain", "start", "up"])
def test_after_the_start_no_field_has_the_keyboard(stage: Stage, focused: str) -> None:
    desk = stage.window.desk
    {
        "reps": desk.form.reps.line,
        "pain": desk.pain.buttons[7],
        "start": desk.start,
        "up": desk.form.band.up,
    }[focused].setFocus()
    stage.run(0.2)
    stage.press("F5")
    stage.run(0.2)
    assert stage.window.focusWidget() is stage.window.screen_part
    before = len(stage.session.done)
    for key in ("Space", "7", "Return"):
        stage.press(key)
    assert len(stage.session.done) == before
    assert desk.form.reps.text == "6"


@pytest.mark.parametrize("key", ["F2", "F6", "F12"])
def test_escape_leaves_a_page_and_stops_nothing(stage: Stage, key: str) -> None:
    stage.run(0.2)
    stage.press(key)
    stage.press("Esc")
    assert stage.live()
    assert stage.session.done == []


def test_a_band_above_the_ceiling_is_refused_beside_the_field(stage: Stage) -> None:
    stage.press("F5")
    stage.run(0.2)
    centre = stage.window.desk.form.band.centre
    centre.line.setFocus()
    centre.line.selectAll()
    QTest.keyClicks(centre.line, "90")  # 216 N, and the ceiling is at 190 N
    stage.press("Return")
    assert centre.error.text() == "Would reach the ceiling of 190 N."
    assert centre.text == "90"
    assert [what for what, *_ in stage.session.done] == ["begin_set"]
    assert stage.window.desk.form.band.band == ASKED.band


def test_nudges_by_key_in_a_set(stage: Stage) -> None:
    stage.press("F5")
    stage.run(0.2)
    for key in ("PgUp", "Ctrl+PgUp", "PgDown", "Ctrl+PgDown"):
        stage.press(key)
    bands = [entry[1] for entry in stage.session.done if entry[0] == "change_band"]
    assert bands == [
        Band(112, 136),
        Band(110, 138),
        Band(106, 134),
        Band(108, 132),
    ]
    stage.run(0.1)
    assert stage.window.desk.form.band.band == Band(108, 132)


def test_zero_pain_and_note_by_key(stage: Stage) -> None:
    for key in ("F7", "F8", "F5"):
        stage.press(key)
    stage.run(0.1)
    for key in ("Ctrl+0", "Ctrl+7", "Ctrl+Shift+0"):
        stage.press(key)
    stage.press("F4")
    assert stage.window.focusWidget() is stage.window.desk.note.line
    QTest.keyClicks(stage.window.desk.note.line, "calm")
    stage.press("Return")
    assert stage.session.done == [
        ("take_zero", ZeroKind.EMPTY_RIG),
        ("take_zero", ZeroKind.LIMB_RESTING),
        ("begin_set", ASKED),
        ("mark_pain", 0),
        ("mark_pain", 7),
        ("move_gate", False, "paused"),  # no next rep by itself
        ("mark_pain", 10),
        ("note", "calm"),
    ]


def test_pages_and_looks_by_key(stage: Stage) -> None:
    stage.press("F2")
    assert stage.window.pages.shown is stage.window.review
    stage.press("F2")
    assert stage.live()
    stage.press("F3")
    looks = [stage.window.theme, stage.window.screen_part.path.theme]
    stage.press("F3")
    assert [*looks, stage.window.theme] == [NIGHT, NIGHT, DAY]
    stage.press("F11")
    assert stage.window.isFullScreen()
    stage.press("F11")
    assert not stage.window.isFullScreen()


def test_every_action_shows_its_key_in_its_tip(stage: Stage) -> None:
    for button, key, tip in stage.window.desk.actions_and_keys():
        shown = QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText)
        assert button.toolTip() == f"{tip} ({shown})"
    assert "F4" in stage.window.desk.note.line.toolTip()


# Signal.


def test_lost_signal_is_plain_within_half_a_second(stage: Stage) -> None:
    stage.run(0.2)
    stage.press("F5")
    stage.run(5.0)
    screen = stage.window.screen_part
    assert stage.cue() is Cue.STAY
    stage.session.silent = True
    waited_s = 0.0
    while stage.cue() is not Cue.NO_SIGNAL:
        stage.run(FRAME_S)
        waited_s += FRAME_S
        assert waited_s < 1.0
    # One sample period and one frame may pass on top.
    assert waited_s <= STALE_AFTER_S + 1 / 80 + FRAME_S
    assert screen.path.marker == "nothing"
    assert screen.balance.bubble_points is None
    assert stage.window.drawn_age_s is None
    stage.session.silent = False
    stage.run(0.1)
    assert stage.cue() is not Cue.NO_SIGNAL
    assert screen.path.marker != "nothing"


@pytest.mark.parametrize("link", [Link.OPENING, Link.SILENT, Link.LOST, Link.ENDED])
def test_a_link_that_is_not_live_is_no_signal_at_once(stage: Stage, link: Link) -> None:
    stage.run(0.2)
    stage.session.link = link
    stage.run(FRAME_S)
    assert stage.cue() is Cue.NO_SIGNAL
    assert stage.told == "The cable is out."


def test_a_rest_that_is_cut_short_is_told_and_kept(stage: Stage) -> None:
    """The hand lets go for about 5 s after each hold."""
    stage.run(0.2)
    stage.window.desk.form.fill(replace(ASKED, rest_s=30.0))
    stage.press("F5")
    stage.run(16.0)
    assert "of rest" not in stage.told
    stage.run(3.0)
    assert stage.told == "Rep 2 began after 5 of 30 s of rest."
    ((kind, content),) = stage.session.told
    assert kind == "change"
    assert content["what"] == "rest_taken_s"
    assert content["old"] == 30.0
    assert content["new"] == pytest.approx(5.0, abs=0.5)
    stage.window.visit.effort = lambda: StepKind.TRIAL
    stage.run(16.0)
    assert stage.told == "The trial began after 5 of 30 s of rest."


def test_what_was_offered_before_goes_with_the_set(stage: Stage) -> None:
    messages = stage.window.desk.messages
    stage.run(0.2)
    stage.window.desk.advise("Pain was told. F5 again starts.")
    stage.press("F5")
    stage.run(0.2)
    assert stage.told == "The set has begun."
    assert messages.earlier.text() == ""
    stage.window.desk.say("No next rep starts; F5 lets it start.")
    stage.press("Esc")
    stage.run(0.2)
    assert stage.told.startswith("The set is over")
    assert messages.earlier.text() == ""


@pytest.mark.parametrize(
    ("force_n", "before"), [(60.0, Cue.MORE), (120.0, Cue.STAY), (135.0, Cue.LESS)]
)
def test_after_pain_above_the_cut_nothing_is_asked_of_the_force(
    stage: Stage, force_n: float, before: Cue
) -> None:
    stage.session.force_n = lambda at_s: 0.0 if at_s < 1.0 else force_n
    screen = stage.window.screen_part
    stage.run(0.2)
    stage.press("F5")
    stage.run(4.0)
    assert stage.cue() is before
    stage.press("Ctrl+4")
    stage.run(0.1)
    assert stage.cue() is before
    stage.press("Ctrl+8")
    stage.run(0.1)
    assert stage.cue() is Cue.EASE_OUT
    assert screen.meaning is Cue.EASE_OUT, "what is heard is the same"
    assert screen.cue.accessibleDescription() == "Let go when ready"
    stage.press(PAIN_BACK)
    stage.run(0.3)
    assert stage.cue() is before, "it was a slip"


def test_after_pain_above_the_cut_the_practitioner_lets_the_rep_go_on(
    stage: Stage,
) -> None:
    stage.session.force_n = lambda at_s: 0.0 if at_s < 1.0 else 120.0
    stage.run(0.2)
    stage.press("F5")
    stage.run(3.0)
    stage.press("Ctrl+8")
    stage.run(0.1)
    assert stage.cue() is Cue.EASE_OUT
    stage.press("F5")
    stage.run(0.1)
    assert stage.cue() is Cue.STAY


def test_pain_that_is_told_as_a_rep_begins_is_of_that_rep(stage: Stage) -> None:
    """The gate is shut a moment later; the rep that slipped through is eased too."""
    pulled_n = [0.0]
    stage.session.force_n = lambda _: pulled_n[0]
    stage.run(0.2)
    stage.press("F5")
    stage.run(0.5)
    pulled_n[0] = 120.0
    stage.session.advance(0.2)  # the rep begins, and the window has not looked yet
    stage.press("Ctrl+8")
    stage.run(0.2)
    assert stage.cue() is Cue.EASE_OUT


def test_the_age_of_the_drawn_sample_counts_half_a_frame(stage: Stage) -> None:
    stage.run(0.2)
    stage.session.silent = True
    stage.session.advance(0.1)
    stage.window.frame()
    arrived_ns = stage.session.take().health.arrived_ns
    assert arrived_ns is not None
    age_s = (stage.session.now_ns - arrived_ns) / 1e9
    assert stage.window.drawn_age_s == pytest.approx(age_s + FRAME_NS / 2e9)


def test_the_age_of_the_drawn_sample_counts_the_painting(stage: Stage) -> None:
    stage.run(0.2)
    for _ in range(100):
        stage.session.advance(FRAME_S)
        stage.window.frame()
        stage.session.now_ns += 4_000_000
        QCoreApplication.processEvents()
    stage.session.advance(FRAME_S)
    stage.window.frame()
    arrived_ns = stage.session.take().health.arrived_ns
    assert arrived_ns is not None
    age_s = (stage.session.now_ns - arrived_ns) / 1e9
    seen_s = age_s + 0.004 + FRAME_NS / 2e9
    assert stage.window.drawn_age_s == pytest.approx(seen_s, abs=2e-4)


def test_health_is_on_the_desk(stage: Stage) -> None:
    stage.run(1.0)
    health = stage.window.desk.health
    assert health.source.text() == "simulated rig: live"
    assert health.rate.text() == "80.0 Hz, 0 lost"
    assert "filter 22 ms" in health.age.text()
    assert health.recording.text() == "Recording: no"
    assert health.zero.text() == "Zero: not taken yet"
    stage.press("F5")
    stage.session.profile = BOTH.with_zero(
        Zero(ZeroKind.LIMB_RESTING, (1.24, -0.5), (0.1, 0.1), "2026-11-25T10:32:00")
    )
    stage.run(1.0)
    assert health.recording.text() == "Recording: yes"
    taken = datetime(2026, 11, 25, 10, 32, tzinfo=UTC).astimezone()
    here = f"{taken:%Y-%m-%d %H:%M %Z}"
    assert health.zero.text() == f"Zero: limb resting, {here} (1.2, -0.5 N)"


def test_after_a_fault_nothing_passes_for_live(stage: Stage) -> None:
    stage.press("F5")
    stage.run(4.0)
    screen = stage.window.screen_part
    assert screen.path.marker != "nothing"

    def break_off() -> Update:
        raise ZeroDivisionError("a fault of the program")

    stage.session.take = break_off  # type: ignore[method-assign]  # the fault
    with pytest.raises(ZeroDivisionError):
        stage.window.frame()
    assert stage.cue() is Cue.NO_SIGNAL
    assert screen.cue.accessibleDescription() == "No signal"
    assert screen.path.marker == "nothing"
    assert screen.balance.bubble_points is None
    assert stage.window.drawn_age_s is None
    assert "fault of its own" in stage.told
    stage.press("Esc")  # stop works all the same
    assert stage.session.done[-1] == ("end_set", "stop")


@pytest.mark.parametrize("key", ["F2", "F6"])
def test_a_set_and_a_ceiling_bring_the_live_page(stage: Stage, key: str) -> None:
    stage.run(0.1)
    stage.press(key)
    stage.press("F5")
    stage.run(0.1)
    assert stage.live()
    stage.press("Esc")
    stage.run(0.1)
    stage.press(key)
    assert not stage.live()
    stage.session.happen(CeilingCrossed(1.0, 190.0))
    stage.run(FRAME_S)
    assert stage.live()
    assert stage.told == "Above the ceiling of 190 N."


# Messages.


def test_a_set_whose_reps_are_all_done_tells_how_many_were_complete(
    stage: Stage,
) -> None:
    stage.session.force_n = lambda time_s: 120.0 if time_s % 5 < 2 else 0.0
    stage.run(0.2)
    stage.press("F5")
    for _ in range(60):
        if "over" in stage.told:
            break
        stage.run(1.0)
    assert stage.told == "The set is over: all reps were done, 0 of 6 complete."


def test_good_news_does_not_cover_a_warning(stage: Stage) -> None:
    stage.run(0.2)
    stage.session.silent, stage.session.link = True, Link.LOST
    stage.run(0.2)
    assert stage.told == "The cable is out."
    stage.session.silent, stage.session.link = False, Link.LIVE
    stage.session.happen(Warned("In use now: board B. Take zero anew."))
    stage.run(FRAME_S)
    assert stage.told == "In use now: board B. Take zero anew."
    messages = stage.window.desk.messages
    assert messages.earlier.text() == "The signal is there."
    stage.session.link = Link.LOST
    stage.run(0.2)
    stage.session.link = Link.LIVE
    stage.run(0.2)
    assert stage.told == "The signal is there.", "it ends only its own bad news"


def test_a_set_that_is_not_on_disk_says_so_as_it_begins(stage: Stage) -> None:
    messages = stage.window.desk.messages
    stage.session.needs_folder = True
    stage.run(0.2)
    stage.press("F5")
    stage.run(0.2)
    assert stage.told.startswith("This set is not on disk yet")
    assert "Ctrl+Shift+F" in stage.told
    stage.window.desk.say("Another.")
    assert messages.earlier.text().startswith("This set is not on disk yet")
    stage.session.needs_folder = False
    stage.run(0.5)
    assert not messages.earlier.property("advice")


def test_the_end_of_a_test_stays_when_its_set_is_over(stage: Stage) -> None:
    window = stage.window
    stage.run(0.2)
    stage.press("F5")
    stage.run(0.2)
    window.mounted.test.advised.emit("The test is over. Keep it.", "Keep it.")
    stage.session.happen(SetEnded("enough trials"))
    stage.run(0.2)
    assert stage.told == "The test is over: enough trials."
    assert window.desk.messages.earlier.text().startswith("The test is over.")


def test_a_warning_with_the_last_rep_stays_in_sight(stage: Stage) -> None:
    stage.session.happen(Warned("The left cell drifts."), SetEnded("complete"))
    stage.run(FRAME_S)
    assert stage.told == "The left cell drifts."
    assert "The set is over: complete." in stage.window.desk.messages.message.toolTip()


def test_a_long_message_grows_or_is_shortened_and_moves_no_key(
    qtbot: QtBot, stage: Stage
) -> None:
    """The longest that there is: both cells at a stop."""
    desk = stage.window.desk
    words = stop_words((UPPER, LOWER), BOTH)
    message = desk.messages.message

    def places() -> list[QPoint]:
        keys = (desk.stop, *desk.pain.buttons, desk.cautions, desk.health.zero_empty)
        return [key.mapTo(desk, QPoint()) for key in keys]

    stage.window.resize(1280, 720)
    stage.window.grab()  # lays out
    before = places()
    desk.say(words)
    stage.window.grab()
    assert places()[0] == before[0]
    assert desk.above.area.verticalScrollBar().maximum() == 0
    assert message.text() == words
    assert message.drawn.endswith(f"… ({desk.messages.key})")
    assert words.startswith(message.drawn.split(" …")[0])
    stage.press(desk.messages.key)
    stage.window.grab()
    said = [one for one in desk.above.said.findChildren(QLabel) if one.text() == words]
    assert [one.isVisible() for one in said] == [True]
    stage.window.resize(1920, 1080)
    qtbot.waitUntil(lambda: message.drawn == words)
    assert not message.shortened


def test_a_signal_that_comes_back_is_told(stage: Stage) -> None:
    stage.run(0.1)
    stage.session.link = Link.LOST
    stage.run(0.1)
    stage.session.link = Link.LIVE
    stage.run(0.1)
    assert stage.told == "The signal is there."


def test_messages_come_to_one_place(stage: Stage) -> None:
    stage.run(0.1)
    stage.session.happen(Warned("The recording cannot be written."))
    stage.run(FRAME_S)
    assert stage.told == "The recording cannot be written."
    zero = Zero(ZeroKind.EMPTY_RIG, (0.0, 0.0), (0.1, 0.1))
    stage.session.happen(ZeroTaken(zero))
    stage.run(FRAME_S)
    assert stage.told == "Zero taken: empty rig."


def test_a_refused_band_goes_back_to_the_one_in_force(stage: Stage) -> None:
    stage.press("F5")
    stage.run(0.2)
    desk = stage.window.desk
    desk.form.band.set_band(Band(1, 2), reference_n=240.0)
    stage.session.happen(Refused("change band", "That band cannot be used."))
    stage.run(FRAME_S)
    assert stage.told == "That band cannot be used."
    assert desk.form.band.band == ASKED.band


def test_a_rig_error_is_told_and_nothing_breaks(stage: Stage) -> None:
    def refuse(*_asked: object) -> None:
        raise RigError(phrase("The port is gone."), phrase("Plug the rig in."))

    stage.session.begin_set = refuse  # type: ignore[method-assign,assignment]  # a broken rig
    stage.press("F5")
    stage.run(0.1)
    assert stage.told == "The port is gone. Plug the rig in."
    assert not stage.in_set()


def test_a_notice_stays_in_sight_until_something_is_done(qtbot: QtBot) -> None:
    session = StagedSession(steady_pull)
    window = Window(
        session,
        prescription=ASKED,
        notice="2 sets were recovered.",
        clock=lambda: session.now_ns,
    )
    qtbot.addWidget(window)
    assert window.desk.messages.message.text() == "2 sets were recovered."
    for link in (Link.LOST, Link.LIVE):
        session.link = link
        window.frame()
    assert window.desk.messages.message.text() == "The signal is there."
    assert window.desk.messages.earlier.text() == "2 sets were recovered."


def test_a_board_that_cannot_be_read_says_what_to_do(stage: Stage) -> None:
    stage.session.silent = True
    stage.session.link = Link.OPENING
    lines = TextLines()
    stage.session.found = lines.found
    stage.run(UNREAD_AFTER_S + 1.0)
    assert "cannot be read" not in stage.told, "nothing has come yet"
    for number in range(20):
        lines.push(b"hello $$ world\r\n", 0.01 * number)
        stage.session.found = lines.found
        stage.run(0.2)
    assert "The board sends something that cannot be read." in stage.told
    assert "one or two numbers a line" in stage.told
    assert stage.window.desk.messages.message.toolTip().count("cannot be read") == 1


# The plan, and the end.


def test_the_plan_is_shown_before_the_set(stage: Stage) -> None:
    stage.run(0.1)
    stage.window.desk.form.hold.line.setText("20")
    stage.window.desk.form.hold.committed.emit()
    stage.run(0.1)
    screen = stage.window.screen_part
    assert "20 s left" in screen.timer.accessibleDescription()
    stage.press("F5")
    stage.run(0.1)
    assert stage.session.done[-1] == ("begin_set", replace(ASKED, hold_s=20.0))


def test_closing_ends_the_set_and_closes_the_session_once(stage: Stage) -> None:
    stage.press("F5")
    stage.run(1.0)
    stage.window.close()
    assert stage.session.done[-1] == ("end_set", "window closed")
    assert stage.session.closed
    count = len(stage.session.done)
    stage.window.close()
    assert len(stage.session.done) == count


def test_what_could_not_be_kept_is_told_before_the_window_goes(stage: Stage) -> None:
    stage.session.not_kept = "The end of the recording is lost: the disk is full."
    told: list[str] = []

    def read_and_accept() -> None:
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        told.append(box.text())
        box.accept()

    QTimer.singleShot(0, read_and_accept)
    stage.window.close()
    assert told == [stage.session.not_kept]
    assert not stage.window.isVisible()


@pytest.mark.expects_log("the disk is full")
def test_where_nobody_is_there_no_box_keeps_the_window_open(stage: Stage) -> None:
    stage.session.not_kept = "The end of the recording is lost: the disk is full."
    boxes: list[object] = []

    def look() -> None:
        box = QApplication.activeModalWidget()
        boxes.append(box)
        if isinstance(box, QMessageBox):
            box.accept()

    QTimer.singleShot(0, look)
    stage.window.close_at_once()
    QApplication.processEvents()
    assert boxes == [None]
    assert not stage.window.isVisible()


@pytest.mark.parametrize("size", [(1280, 720), (1920, 1080)])
def test_the_whole_desk_is_seen(
    qtbot: QtBot, stage: Stage, size: tuple[int, int]
) -> None:
    """Nothing of the desk needs scrolling, and nothing is cut."""
    stage.window.resize(*size)
    stage.run(0.5)
    desk = stage.window.desk
    qtbot.waitUntil(lambda: desk.foot.geometry().bottom() < desk.height())
    last = desk.note
    foot = last.mapTo(desk, last.rect().bottomLeft()).y()
    assert foot < desk.foot.y()
    assert desk.above.area.verticalScrollBar().maximum() == 0
    for label in (desk.form.band.summary, desk.form.origin, desk.health.rate):
        assert label.fontMetrics().horizontalAdvance(label.text().split("\n")[-1]) <= (
            label.width() + 1
        )
    assert stage.window.height() == size[1]


def test_an_error_in_a_field_moves_no_button(stage: Stage) -> None:
    desk = stage.window.desk
    stage.run(0.5)
    stage.window.grab()  # lays out
    buttons = [
        desk.start,
        desk.health.zero_empty,
        desk.form.band.up,
        *desk.pain.buttons,
    ]
    before = [button.mapTo(desk, button.rect().topLeft()) for button in buttons]
    for field in (desk.form.reps, desk.form.hold, desk.form.band.centre):
        field.line.setText("x")
    desk.start.click()
    assert desk.form.problems.isVisible()
    stage.window.grab()
    after = [button.mapTo(desk, button.rect().topLeft()) for button in buttons]
    assert before == after


def test_a_stop_key_is_large(stage: Stage) -> None:
    desk = stage.window.desk
    assert desk.stop.height() >= 36
    assert desk.stop.width() > desk.start.width()


def test_frames_are_few_where_nothing_comes_and_never_in_a_set(stage: Stage) -> None:
    def resting() -> bool:
        return stage.window.frames.resting

    stage.run(0.2)
    assert not resting()
    stage.session.link = Link.LOST
    stage.session.silent = True
    stage.run(0.2)
    assert resting()
    stage.session.link = Link.LIVE
    stage.session.silent = False
    stage.run(0.2)
    assert not resting()
    stage.press("F5")
    stage.run(0.2)
    stage.session.link = Link.LOST
    stage.session.silent = True
    stage.run(0.2)
    assert not resting()
