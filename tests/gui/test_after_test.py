"""After a maximal test, in the real window on the simulated rig.

What the desk trains next, what becomes of a result that was not kept, and what the
athlete sees. Athletes and tasks are invented; session and window are stepped by hand.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from gui.cut_text import cut_texts
from gui.hands import bring_up
from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt
from PySide6.QtGui import QFontMetricsF, QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel

from biofeedback.errors import UserError
from biofeedback.gui.breathing_line import TYPE_SHARE
from biofeedback.gui.language import plain_number
from biofeedback.gui.rep_row import Mark
from biofeedback.gui.theme import DAY, NIGHT, font
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima_rows import NewMaximalTest
from biofeedback.phrase import phrase
from biofeedback.session import Session, demo
from biofeedback.session.office import Office
from biofeedback.session.opening import PLAIN
from biofeedback.session.second_start import SEEN_S
from biofeedback.training.athlete import AthleteDetails
from biofeedback.training.feedback import Cue
from biofeedback.training.prescription import BandOn
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.starter_tasks import STARTER_TASKS
from biofeedback.training.task import Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from PySide6.QtWidgets import QWidget
    from pytestqt.qtbot import QtBot

    from biofeedback.gui.maximal_page import MaximalPage
    from biofeedback.gui.theme import Theme
    from biofeedback.session.maximal_test import MaximalTest
    from biofeedback.training.prescription import Prescription

STEP_US = 50_000
WAIT_MOST_S = 200.0
HERE, OTHER = "INV-1", "INV-2"
TASK = "Seated calf push (invented)"
CALF = STARTER_TASKS[-1]
LOWERING = next(one for one in STARTER_TASKS if one.kind is TaskKind.LOWERING)
PAIRED = next(one for one in STARTER_TASKS if one.name == LOWERING.pair)
QUICK = {
    "practice": "1",
    "practice_rest_s": "1",
    "trials": "2",
    "most": "2",
    "rest_s": "10",
}


class Room:
    """The window of one program, with two athletes in its logbook."""

    def __init__(self, qtbot: QtBot, logbook: Logbook, folder: Path) -> None:
        self.logbook = logbook
        self.now_ns = 1_000_000_000
        self.session = Session(
            demo.source(seed=5, step_us=STEP_US),
            logbook=logbook,
            recordings=folder,
            athlete_code=HERE,
            clock=lambda: self.now_ns,
        )
        self.office = office = Office.of(logbook, folder, self.session)
        self.window = Window(
            self.session,
            office,
            prescription=office.last_prescription(HERE),
            clock=lambda: self.now_ns,
        )
        bring_up(qtbot, self.window)
        self.run(1.0)

    def run(self, seconds: float) -> None:
        for _ in range(max(1, round(seconds * 1e6 / STEP_US))):
            self.now_ns += STEP_US * 1000
            self.session.step()
            self.window.frame()

    def until(self, reached: Callable[[], bool]) -> None:
        for _ in range(round(WAIT_MOST_S * 1e6 / STEP_US)):
            if reached():
                return
            self.run(STEP_US / 1e6)
        pytest.fail(f"what was waited for did not come; told: {self.told}")

    def press(self, key: str) -> None:
        focus: QWidget | None = self.window.focusWidget()
        QTest.keySequence(focus or self.window, QKeySequence(key))

    def choose(self, code: str) -> None:
        roster = self.window.mounted.roster
        assert roster is not None
        self.press("Alt+A")
        roster.chosen.emit(code)

    @property
    def told(self) -> str:
        return self.window.desk.messages.message.text()

    @property
    def page(self) -> MaximalPage:
        return self.window.mounted.test

    @property
    def asked(self) -> Prescription:
        asked = self.window.desk.prescription()
        assert asked is not None
        return asked

    def test(self) -> MaximalTest | None:
        """The one that is shown."""
        return self.page.test

    # What is done.

    def train(self, asked: Prescription) -> None:
        """One set as it is asked for, by a patient athlete."""
        self.window.desk.form.fill(asked)
        self.press("F5")
        self.until(lambda: self.window.desk.in_set)
        self.until(lambda: not self.window.desk.in_set)
        self.until(lambda: len(self.saved) == asked.reps)

    def set_up(self, sides: Sides = Sides.BOTH) -> None:
        self.press("Alt+M")
        setup = self.page.setup
        setup.task.setCurrentText(TASK)
        setup.sides.setCurrentIndex(setup.sides.findData(sides))
        for name, text in QUICK.items():
            setup.fields[name].set_text(text)

    def begin_test(self, sides: Sides = Sides.BOTH) -> None:
        self.set_up(sides)
        self.press("F5")
        self.until(lambda: self.window.desk.in_set)

    def end_test(self) -> None:
        """The last trial is done, and its pain told."""
        test = self.page.test
        assert test is not None
        self.until(lambda: len(test.trials) == 3)
        self.page.box.pain[1].click()
        self.until(lambda: not self.window.desk.in_set)
        self.until(lambda: len(self.saved) == 3)  # by the thread that writes

    @property
    def saved(self) -> list[str]:
        """Reps of the newest set in the logbook, by their keys."""
        rows = self.logbook.reps(athlete_code=HERE)
        return [row.id for row in rows if row.set_id == rows[0].set_id]


@pytest.fixture
def logbook(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        for code in (HERE, OTHER):
            opened.people.add(AthleteDetails(code=code, name=f"Invented {code}"))
        yield opened


@pytest.fixture
def room(qtbot: QtBot, logbook: Logbook, tmp_path: Path) -> Iterator[Room]:
    made = Room(qtbot, logbook, tmp_path / "recordings")
    yield made
    made.window.close()


# What is trained next.


def test_nobody_trains_by_what_a_test_asked_for(
    room: Room, qtbot: QtBot, tmp_path: Path
) -> None:
    assert room.asked == PLAIN
    room.begin_test()
    room.end_test()
    room.choose(OTHER)
    room.choose(HERE)
    assert room.asked == PLAIN
    room.press("Alt+D")
    texts = [one.text() for one in room.window.mounted.today.findChildren(QLabel)]
    assert any("3 × 10 s" in text for text in texts), texts
    assert not any("× 4 s" in text for text in texts), texts
    room.window.close()
    again = Room(qtbot, room.logbook, tmp_path / "recordings")
    assert again.asked == PLAIN
    again.window.close()


def test_what_was_trained_before_a_test_is_trained_after_it(room: Room) -> None:
    trained = replace(PLAIN, hold_s=2.0, reps=1)
    room.train(trained)
    room.begin_test()
    room.end_test()
    room.choose(OTHER)
    room.choose(HERE)
    assert room.asked == trained


def test_a_warm_up_is_not_what_is_trained_next(room: Room) -> None:
    trained = replace(PLAIN, hold_s=2.0, reps=2)
    room.train(trained)
    room.press("Alt+D")
    today = room.window.mounted.today
    today.now.buttons[0].click()
    today.warm_up.setChecked(True)
    room.press("Ctrl+T")
    room.press("F5")
    room.until(lambda: room.window.desk.in_set)
    room.until(lambda: not room.window.desk.in_set)
    room.until(lambda: len(room.saved) == 1)
    assert room.office.last_prescription(HERE) == trained


# With which task and side the page of the test begins.


def begins_with(room: Room) -> tuple[str, Sides]:
    room.press("Alt+M")
    chosen = room.page.setup.chosen_task()
    assert chosen is not None
    room.press("Esc")
    return chosen.name, chosen.sides


def test_a_test_begins_with_the_task_and_side_of_the_desk(room: Room) -> None:
    plain = begins_with(room)
    assert plain[1] is Sides.LEFT
    assert plain[0] != CALF.name
    form = room.window.desk.form
    form.fill(replace(PLAIN, task=CALF.on_side(Sides.RIGHT), band_on=BandOn.RIGHT))
    assert begins_with(room) == (CALF.name, Sides.RIGHT)
    setup = room.page.setup
    setup.choose(Task(plain[0], sides=Sides.BOTH))  # by hand, which stays
    assert begins_with(room) == (plain[0], Sides.BOTH)
    form.fill(replace(PLAIN, task=CALF.on_side(Sides.BOTH)))
    assert begins_with(room) == (CALF.name, Sides.BOTH)
    form.fill(replace(PLAIN, task=LOWERING.on_side(Sides.RIGHT), band_on=BandOn.RIGHT))
    assert begins_with(room) == (PAIRED.name, Sides.RIGHT)


def test_where_the_desks_is_not_known_it_begins_with_what_was_tested_last(
    room: Room,
) -> None:
    plain = begins_with(room)
    athlete = room.logbook.athlete_by_code(OTHER)
    assert athlete is not None
    calf = room.logbook.tasks.by_name(CALF.name)
    assert calf is not None
    for weeks, task in ((1, calf.on_side(Sides.RIGHT)), (2, Task("Invented press"))):
        room.logbook.maxima.add(
            NewMaximalTest(
                athlete.id,
                task,
                datetime.now(tz=UTC) - timedelta(weeks=weeks),
                Definition.PEAK,
                200.0,
                3,
            )
        )
    room.choose(OTHER)
    assert begins_with(room) == (CALF.name, Sides.RIGHT)
    room.choose(HERE)  # nothing of the athlete before is left
    assert begins_with(room) == plain


# A result that is not kept.


def test_a_result_is_kept_or_left_on_purpose(room: Room) -> None:
    room.begin_test()
    room.end_test()
    first, page = room.page.test, room.page
    assert first is not None
    room.press("Alt+M")
    room.press("F5")
    room.run(0.2)
    assert room.test() is first, "a result that was not kept is still there"
    assert not room.window.desk.in_set
    words = page.problem.text()
    assert page.problem.isVisible()
    assert words.startswith(f"Not kept yet: {page.result.title.text()}.")
    assert "Ctrl+S keeps it." in words
    assert words.endswith("Once more begins another test.")
    room.press("F5")
    room.run(0.2)
    assert room.test() is first, "a double press passes nothing that was just said"

    room.run(SEEN_S)
    room.press("Alt+M")  # away from the page and back: the words are not there
    room.press("Alt+M")
    assert not page.problem.isVisible()
    room.press("F5")
    assert room.test() is first
    room.press("Ctrl+S")
    assert first.kept is not None
    room.press("F5")
    room.until(lambda: room.window.desk.in_set)
    assert room.test() is not first


def test_a_test_that_was_left_is_offered_again(room: Room) -> None:
    room.begin_test()
    room.end_test()
    first, page = room.page.test, room.page
    assert first is not None
    room.press("Alt+M")
    room.press("F5")
    room.run(SEEN_S)
    room.press("F5")
    room.until(lambda: room.window.desk.in_set)
    assert room.test() is not first
    room.run(0.5)
    room.press("Esc")
    room.until(lambda: not room.window.desk.in_set)
    room.press("Alt+M")
    assert room.test() is not first
    assert page.take_up.isVisible()
    assert TASK in page.left_over.text()

    room.choose(OTHER)
    room.press("Alt+M")
    assert not page.take_up.isVisible()
    room.choose(HERE)
    room.press("Alt+M")
    assert page.take_up.isVisible()
    page.take_up.click()
    again = room.test()
    assert again is not None
    assert again.set_id == first.set_id
    assert again.result == first.result
    assert not page.take_up.isVisible()
    page.result.reason.set_text("was ill")
    page.result.leave.click()
    assert room.test() is None
    assert not page.take_up.isVisible(), "nobody is asked again"


def test_of_two_results_the_one_that_is_not_shown_is_offered(room: Room) -> None:
    keys = []
    for _ in range(2):
        room.set_up()
        room.press("F5")
        room.run(SEEN_S)
        room.press("F5")
        room.until(lambda: room.window.desk.in_set)
        assert room.page.test is not None
        keys.append(room.page.test.set_id)
        room.end_test()
    room.press("Alt+M")
    for key in keys:
        assert room.page.take_up.isVisible()
        room.page.take_up.click()
        assert room.page.test is not None
        assert room.page.test.set_id == key
    room.press("Ctrl+S")
    assert room.page.take_up.isVisible()
    room.page.take_up.click()
    room.press("Ctrl+S")
    assert not room.page.take_up.isVisible()


# Where the desk has no 100 % of its own, the task that was tested comes to it.


def keep(room: Room, sides: Sides) -> float:
    """A test of this side, kept; and its newtons."""
    room.begin_test(sides)
    room.end_test()
    room.press("Alt+M")
    room.press("Ctrl+S")
    room.press("Esc")
    test = room.page.test
    assert test is not None
    assert test.kept is not None
    return test.kept.force_n


def test_a_kept_test_brings_its_task_side_and_100_percent_to_the_desk(
    room: Room,
) -> None:
    desk = room.window.desk
    force_n = keep(room, Sides.RIGHT)
    form = desk.form
    assert form.task.text == TASK
    assert form.band_on.currentData() is BandOn.RIGHT
    assert form.reference.text == plain_number(force_n)
    assert "own side's best" in form.origin.text()
    assert not form.whose.isVisible(), "it is of this task and side"
    assert room.told == (
        f"{plain_number(force_n)} N is the 100 % of {TASK}, right, from now on. "
        "Type the centre of its band."
    )
    # The newtons of the band before are nothing of this 100 %.
    assert form.band.centre.text == ""
    assert form.band.summary.text() == "The band is not prescribed yet."

    desk.form.band.up.click()
    assert form.band.centre.text == ""
    room.press("F5")
    room.run(0.5)
    assert not desk.in_set
    assert room.told == "Not started: the band is not prescribed yet."
    assert "Centre: Not prescribed yet; type it." in form.problems.text()
    assert form.band.centre.line.hasFocus()

    form.band.choose(in_percent=True)
    QTest.keyClicks(form.band.centre.line, "50")
    room.press("Return")
    asked = room.window.visit.asked
    assert asked.task == Task(TASK, sides=Sides.RIGHT)
    assert asked.reference is not None
    assert asked.reference.force_n == force_n
    assert asked.band.lower_n == pytest.approx(0.5 * force_n * 0.8)
    assert asked.band.upper_n == pytest.approx(0.5 * force_n * 1.2)
    room.press("F5")
    room.run(SEEN_S)
    room.press("F5")  # of a first test, which is said before
    room.until(lambda: desk.in_set)


def test_before_its_band_is_prescribed_the_athlete_sees_none(room: Room) -> None:
    """Also once the rig is another one to the program, as after a zero."""
    keep(room, Sides.LEFT)
    room.window.desk.health.zero_limb.click()
    room.run(2.5)
    assert room.told == "Zero taken: limb resting."
    seen = room.window.screen_part.asked
    assert seen.band != PLAIN.band
    assert seen.task.kind is TaskKind.MAXIMAL


def test_the_band_that_stood_there_may_be_typed_again(room: Room) -> None:
    """It is then prescribed, though it is the very same."""
    keep(room, Sides.LEFT)
    form = room.window.desk.form
    form.band.centre.line.setFocus()
    QTest.keyClicks(form.band.centre.line, "50")
    room.press("Return")
    assert room.window.visit.asked.band == PLAIN.band
    assert room.window.screen_part.asked.task == Task(TASK, sides=Sides.LEFT)
    assert form.band.summary.text().startswith("40–60 N")


def test_before_its_band_is_prescribed_today_offers_none(room: Room) -> None:
    keep(room, Sides.LEFT)
    room.press("Alt+D")
    today = room.window.mounted.today
    assert not list(today.cards)
    assert today.message.text() == (
        "The band at the desk is not prescribed yet: type its centre there."
    )


def test_enter_after_keeping_takes_nothing_back(room: Room) -> None:
    room.begin_test()
    room.end_test()
    room.press("Alt+M")
    room.page.result.keep.setFocus()
    room.press("Space")
    assert room.page.result.undo.isVisible()
    room.press("Space")
    test = room.page.test
    assert test is not None
    assert test.kept is not None
    assert room.window.pages.live_shown


def test_what_is_taken_back_leaves_the_desk_as_it_was(room: Room) -> None:
    before = room.asked
    room.begin_test(Sides.RIGHT)
    room.end_test()
    room.press("Alt+M")
    result = room.page.result
    result.keep.click()
    assert room.window.desk.form.task.text == TASK
    result.undo.click()
    assert room.asked == before
    assert room.window.visit.asked == before
    result.keep.click()
    form = room.window.desk.form
    assert (form.task.text, form.band.centre.text) == (TASK, "")


def test_a_second_test_of_it_leaves_the_band_to_be_prescribed_too(room: Room) -> None:
    keep(room, Sides.RIGHT)
    force_n = keep(room, Sides.RIGHT)
    band = room.window.desk.form.band
    assert room.window.desk.form.reference.text == plain_number(force_n)
    assert (band.centre.text, band.unprescribed) == ("", True)


def test_a_desk_with_a_100_percent_of_its_own_stays(room: Room) -> None:
    task = Task("Invented hip hold", sides=Sides.BOTH)
    today = datetime.now(tz=UTC).date().isoformat()
    own = Reference(200.0, Origin.TYPED, Definition.PEAK, today, task=task)
    room.window.desk.form.fill(replace(PLAIN, task=task, reference=own))
    before = room.asked
    force_n = keep(room, Sides.LEFT)
    assert room.asked == before
    assert room.told == (
        f"{plain_number(force_n)} N is the 100 % of {TASK}, left, from now on. "
        "At the desk: Invented hip hold."
    )


def test_after_one_side_the_other_is_told_apart_from_it(room: Room) -> None:
    keep(room, Sides.LEFT)
    keep(room, Sides.RIGHT)
    assert room.told.endswith(f"right, from now on. At the desk: {TASK}, left.")
    box = room.window.desk.form.band_on
    assert box.currentData() is BandOn.LEFT
    box.setCurrentIndex(box.findData(BandOn.RIGHT))
    whose = room.window.desk.form.whose
    assert whose.isVisible()
    whose.button.click()
    test = room.page.test
    assert test is not None
    assert test.kept is not None
    assert room.window.desk.form.reference.text == plain_number(test.kept.force_n)


def test_so_does_a_set_that_today_put_there(room: Room) -> None:
    asked = replace(PLAIN, task=Task("Invented hip hold", sides=Sides.BOTH))
    room.window.visit.prescribe(asked, {})
    keep(room, Sides.LEFT)
    assert room.asked == asked
    assert room.told.endswith("At the desk: Invented hip hold.")


# What is told and seen.


def test_what_to_do_with_the_result_is_not_left_out(room: Room) -> None:
    room.begin_test()
    room.end_test()
    QApplication.processEvents()
    advice = room.window.desk.messages.earlier
    test = room.test()
    assert test is not None
    assert test.result is not None
    force = plain_number(test.result.force.total_n)
    assert advice.drawn == f"{force} N. Alt+M: keep it as 100 %, or not."
    assert room.told == "The test is over: enough trials."


def test_words_and_discs_of_the_athlete_tell_as_many_efforts(room: Room) -> None:
    reps, seen = room.window.screen_part.reps, set[tuple[str, int]]()
    room.begin_test()
    test = room.test()
    assert test is not None
    while len(test.trials) < 3:
        room.run(STEP_US / 1e6)
        seen.add((reps.accessibleDescription().rsplit(": ", 1)[0], len(reps.marks)))
    room.end_test()
    room.run(0.2)
    seen.add((reps.accessibleDescription().rsplit(": ", 1)[0], len(reps.marks)))
    assert seen == {
        ("Practice 1 of 1", 1),
        ("Next: trial 1 of 2", 2),
        ("Trial 1 of 2", 2),
        ("Next: trial 2 of 2", 2),
        ("Trial 2 of 2", 2),
        ("2 trials", 2),
    }


@pytest.mark.parametrize(("width", "height"), [(1280, 720), (1920, 1080)])
@pytest.mark.parametrize("theme", [DAY, NIGHT])
def test_the_side_of_a_set_stays_on_the_athletes_screen_and_moves_nothing(
    room: Room, width: int, height: int, theme: Theme
) -> None:
    """Before, in and after a one-sided set; it is painted only where it changes."""
    window = room.window
    window.set_theme(theme)
    window.resize(width, height)
    QCoreApplication.processEvents()  # the desk takes its width
    screen = window.screen_part
    asked = replace(PLAIN, reps=2)
    window.desk.form.fill(replace(asked, task=replace(asked.task, sides=Sides.RIGHT)))
    room.run(0.2)
    assert screen.breath.isVisible()
    assert screen.breath.accessibleDescription() == "Right"
    room.press("F5")
    room.until(lambda: window.desk.in_set)
    row, path = screen.reps.geometry(), screen.path.geometry()
    QCoreApplication.processEvents()
    painted = Painted(screen.breath)
    for _ in range(8):
        room.run(0.5)
        QCoreApplication.processEvents()
        assert screen.breath.accessibleDescription() == "Right"
        assert (screen.reps.geometry(), screen.path.geometry()) == (row, path)
    assert painted.times == 0
    assert not screen.breath.geometry().intersects(row)
    # Capitals of 13.5 mm on a screen 30 cm high, and no smaller for want of room.
    capitals = screen.breath.height() * TYPE_SHARE * 0.7
    assert capitals >= screen.height() * 0.045
    wide = font(screen.breath.height() * TYPE_SHARE)
    assert QFontMetricsF(wide).horizontalAdvance("Right") <= screen.breath.width()
    room.press("Esc")
    room.until(lambda: not window.desk.in_set)
    window.desk.form.fill(asked)
    room.run(0.2)
    assert not screen.breath.isVisible()


class Painted(QObject):
    """Counts how often a part is painted."""

    def __init__(self, part: QWidget) -> None:
        super().__init__(part)
        self.times = 0
        part.installEventFilter(self)

    def eventFilter(self, _of: QObject, event: QEvent) -> bool:
        self.times += event.type() is QEvent.Type.Paint
        return False


@pytest.mark.parametrize("sides", [Sides.LEFT, Sides.BOTH])
def test_what_is_tested_is_told_at_the_desk_and_to_the_athlete(
    room: Room, sides: Sides
) -> None:
    screen, box = room.window.screen_part, room.page.box
    room.begin_test(sides)
    test, side = room.test(), sides.value.capitalize()
    assert test is not None
    assert room.told == "The test has begun."
    row = screen.reps.geometry()
    while len(test.trials) < 3:
        room.run(1.0)
        assert box.of.isVisible()
        assert box.of.text() == f"{side} · {TASK}"
        assert screen.breath.isVisible()
        assert screen.breath.accessibleDescription() == side
        assert screen.uncalibrated.isVisible()
        assert TASK in screen.uncalibrated.text()
        assert screen.reps.geometry() == row, "in a set nothing moves"
    room.end_test()
    room.run(0.2)
    assert screen.breath.accessibleDescription() == side
    said = room.window.desk.messages.all
    assert any(words.startswith("The test is over") for words in said)
    assert not any("The set " in words for words in said)
    room.window.desk.form.fill(replace(PLAIN, reps=2))
    room.press("F5")
    room.until(lambda: room.window.desk.in_set)
    room.run(0.2)
    assert not screen.breath.isVisible()
    assert TASK not in screen.uncalibrated.text()


# Pain in a test.


def test_after_pain_above_the_cut_no_trial_begins_by_itself(room: Room) -> None:
    """As in a set: the advice to stop is not followed by a call for all there is."""
    room.begin_test()
    test = room.page.test
    assert test is not None
    room.until(lambda: len(test.trials) == 1)
    cue = room.window.screen_part
    room.press("Ctrl+8")
    assert room.told == "No next trial starts; F5 lets it start."
    assert "Stopping is advised" in room.window.desk.messages.earlier.text()
    room.run(30.0)
    assert len(test.trials) == 1
    assert cue.shown_cue is Cue.WAIT
    room.press("F5")
    assert room.told == "The next trial may start."
    room.until(lambda: len(test.trials) == 2)


def test_pain_that_a_key_notes_is_told_on_the_page_that_is_shown(room: Room) -> None:
    """Else nobody sees whether it was taken: the desk is behind the page."""
    told, desk = room.window.pages.told, room.window.desk
    room.press("Alt+M")
    assert not told.isVisible()
    room.press("Ctrl+3")
    assert told.isVisible()
    assert told.text() == "Pain 3 of 10 is noted."
    room.press("Ctrl+8")
    advice = (
        "Pain 8 of 10 is noted. That is above 5 of 10. Stopping is advised; you decide."
    )
    assert told.text() == advice
    QApplication.processEvents()
    room.run(0.1)
    assert room.page.isVisible()
    assert told.mapTo(room.window, told.rect().bottomLeft()).y() < room.window.height()
    assert not list(cut_texts(room.window))
    room.press("Ctrl+Shift+Backspace")
    assert told.text() == "Pain 8 of 10 is taken back; it counts nowhere."
    room.press("Ctrl+8")
    room.press("Alt+M")
    assert not told.isVisible()
    assert advice in (desk.messages.message.text(), desk.messages.earlier.text())
    room.press("Alt+D")
    assert not told.isVisible(), "it was told"
    room.press("Ctrl+2")
    assert told.isVisible(), "on any page"


def test_what_the_logbook_refuses_is_told_on_the_page_too(
    room: Room, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise UserError(phrase("The disk is full."), phrase("Free some of it."))

    monkeypatch.setattr(room.session, "tell", refuse)
    room.press("Alt+M")
    room.press("Ctrl+8")
    assert room.window.pages.told.text().startswith("The disk is full.")


def test_the_advice_at_pain_of_a_test_stays_like_that_of_a_set(room: Room) -> None:
    room.begin_test()
    test, advice = room.page.test, room.window.desk.messages.earlier
    assert test is not None
    room.until(lambda: len(test.trials) == 2)
    room.press("Ctrl+8")
    QApplication.processEvents()
    assert advice.property("advice")
    assert advice.text().startswith("Pain 8 of 10 is noted. That is above 5 of 10.")
    assert advice.drawn == advice.text()
    room.press("Ctrl+2")  # corrected
    assert not advice.property("advice")
    room.press("Ctrl+8")
    room.press("Esc")
    room.until(lambda: not room.window.desk.in_set)
    for _ in range(3):
        QApplication.processEvents()
    room.run(0.2)
    assert advice.property("advice")
    assert advice.drawn == advice.text()
    assert advice.text().startswith("Pain 8 of 10: stopping is advised; you decide. ")
    assert advice.text().endswith(" N. Alt+M: keep it as 100 %, or not.")
    room.press("Alt+M")
    room.press("Ctrl+S")
    assert advice.text() == "Pain 8 of 10: stopping is advised; you decide."


def test_the_advice_at_pain_of_a_test_stands_after_the_stop_that_it_advised(
    room: Room,
) -> None:
    room.begin_test()
    test, advice = room.page.test, room.window.desk.messages.earlier
    assert test is not None
    room.until(lambda: len(test.trials) == 1)
    room.press("Ctrl+8")
    QTest.mouseClick(room.window.desk.stop, Qt.MouseButton.LeftButton)
    room.until(lambda: not room.window.desk.in_set)
    room.run(0.2)
    assert test.result is None, "else the end of the test is told too"
    assert advice.property("advice")
    assert advice.text().endswith("Stopping is advised; you decide.")


def test_a_practice_ramp_that_is_held_back_is_called_as_its_page_calls_it(
    room: Room,
) -> None:
    room.set_up()
    room.page.setup.fields["practice"].set_text("2")
    room.press("F5")
    room.until(lambda: room.window.desk.in_set)
    test = room.page.test
    assert test is not None
    room.until(lambda: len(test.trials) == 1)
    room.press("Ctrl+8")
    assert room.told == "No next practice ramp starts; F5 lets it start."
    room.press("F5")
    assert room.told == "The next practice ramp may start."


def test_pain_above_the_cut_in_a_trial_asks_for_no_force_any_more(room: Room) -> None:
    room.begin_test()
    test = room.page.test
    assert test is not None
    room.until(lambda: len(test.trials) == 1)
    cue = room.window.screen_part
    room.until(lambda: Mark.UNDER_WAY in cue.reps.marks)
    room.until(lambda: cue.shown_cue is Cue.ALL_OUT)
    room.press("Ctrl+8")
    room.run(0.5)
    assert cue.shown_cue is Cue.EASE_OUT
    room.until(lambda: len(test.trials) == 2)
    room.run(20.0)
    assert len(test.trials) == 2
    room.press("Esc")
    room.until(lambda: not room.window.desk.in_set)
