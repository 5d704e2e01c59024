"""The desk with an order of the day, and during a maximal test: all of it is seen.

On the simulated rig, in both languages, on the small screen and the large. Athletes,
tasks and forces are invented; session and window are stepped by hand.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from gui.cut_text import cut_texts
from gui.demo_window import opened_demo, speaking
from gui.hands import bring_up
from gui.stepped import STEP_US, Stepped
from gui.whole_day import CODE, prepare
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest

from biofeedback.gui.moved_row import SETTLED_S
from biofeedback.gui.order_box import Act
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.session import Session, demo
from biofeedback.session.office import Office
from biofeedback.session.preferences import Language
from biofeedback.training.running_order import Doing

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from PySide6.QtWidgets import QApplication, QWidget
    from pytestqt.qtbot import QtBot

SCREENS = [(1920, 1080), (1280, 720)]

pytestmark = pytest.mark.slow


class Crowded(Stepped):
    """A stepped window of which all is to be seen."""

    def press(self, key: str) -> None:
        focus: QWidget | None = self.window.focusWidget()
        QTest.keySequence(focus or self.window, QKeySequence(key))
        self.run(0.2)

    def is_whole(self) -> None:
        """Nothing of the desk scrolls, and nothing is cut, on each screen."""
        desk = self.desk
        for screen in SCREENS:
            self.window.resize(*screen)
            for _ in range(10):  # layouts follow, and what they change in turn
                self.run(0.1)
                QCoreApplication.processEvents()
            assert (self.window.width(), self.window.height()) == screen
            assert desk.health.recording.isVisible()
            assert desk.above.area.verticalScrollBar().maximum() == 0, screen
            assert desk.above.area.horizontalScrollBar().maximum() == 0, screen
            below = desk.note.mapTo(desk, desk.note.rect().bottomLeft()).y()
            assert below < desk.foot.y(), screen
            assert not list(cut_texts(self.window)), screen


class Day(Crowded):
    """With an order of five sets at the desk."""

    def __init__(self, qtbot: QtBot, folder: Path, logbook: Logbook) -> None:
        session = Session(
            demo.source(seed=11, step_us=STEP_US),
            logbook=logbook,
            recordings=folder / "recordings",
            athlete_code=CODE,
            athlete_name="Invented athlete",
        )
        office = Office.of(logbook, folder / "recordings", session)
        asked = office.last_prescription(CODE)
        super().__init__(
            session,
            Window(session, office, prescription=asked, clock=lambda: self.now_ns),
        )
        bring_up(qtbot, self.window)
        self.run(1.0)
        self.press("Alt+D")
        self.window.mounted.today.now.buttons[2].click()
        self.press("Ctrl+T")

    @property
    def doing(self) -> Doing:
        visit = self.window.order.control.visit
        assert visit is not None
        return visit.order.doing

    def is_whole(self) -> None:
        """What can be done can be seen, and so can which set it is."""
        super().is_whole()
        box = self.window.order.box
        can = {act for act, button in box.buttons.items() if button.isEnabled()}
        assert can == {act for act in can if box.buttons[act].isVisible()}
        visit = self.window.order.control.visit
        assert visit is not None
        row = box.list.visualItemRect(box.list.item(visit.order.place))
        assert box.list.viewport().rect().contains(row)


@pytest.fixture(params=[Language.ENGLISH, Language.SPANISH], ids=lambda one: one.value)
def tongue(request: pytest.FixtureRequest, qapp: QApplication) -> Iterator[None]:
    with speaking(qapp, request.param):
        yield


@pytest.fixture
def day(qtbot: QtBot, tmp_path: Path) -> Iterator[Day]:
    prepare(tmp_path)
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        made = Day(qtbot, tmp_path, logbook)
        yield made
        made.window.close_at_once()


@pytest.mark.usefixtures("tongue")
def test_with_an_order_the_whole_desk_is_seen(day: Day) -> None:
    assert day.window.order.on
    assert day.desk.foot.health.state.words.count("simul"), "the rig is simulated"
    day.is_whole()
    day.press("F5")
    if not day.desk.in_set:
        day.run(2.0)
        day.press("F5")
    day.until(lambda: day.desk.in_set)
    day.run(2.0)
    day.is_whole()
    day.press("PgUp")  # a reason can be given now
    assert day.window.order.box.reasons[0].isVisible()
    day.is_whole()
    day.press("Ctrl+7")
    assert day.window.order.box.words.isVisible()
    day.is_whole()
    day.press("Esc")
    day.until(lambda: day.doing is Doing.STOPPED)
    day.is_whole()


@pytest.mark.usefixtures("tongue")
@pytest.mark.parametrize("pain", [False, True], ids=["well", "pain"])
def test_after_an_order_the_whole_desk_is_seen(day: Day, *, pain: bool) -> None:
    day.press("F5")
    day.until(lambda: day.desk.in_set)
    day.run(1.0)
    if pain:
        day.press("Ctrl+7")
    day.press("Esc")
    day.until(lambda: day.doing is Doing.STOPPED)
    day.press("Alt+E")  # with sets to come it asks once more
    day.run(2.0)
    day.press("Alt+E")
    assert day.doing is Doing.ENDED
    assert day.desk.form.hold.isVisible(), "all fields are back"
    Crowded.is_whole(day)
    assert day.window.order.box.buttons[Act.REPEAT].isVisible()
    advice = day.desk.messages.earlier
    assert bool(advice.property("advice")) is pain
    assert not advice.shortened
    day.press("Alt+R")
    day.until(lambda: day.doing is not Doing.ENDED)
    day.is_whole()
    assert day.window.order.box.buttons[Act.NEXT_SET].isVisible()


@pytest.mark.usefixtures("tongue")
def test_in_a_rest_of_an_order_the_whole_desk_is_seen(day: Day) -> None:
    day.press("F5")
    day.until(lambda: day.desk.in_set)
    day.run(1.0)
    day.press("Alt+C")
    day.until(lambda: day.doing is Doing.REST)
    assert day.desk.effort.isVisible()
    day.is_whole()


@pytest.mark.usefixtures("tongue")
def test_during_a_test_the_whole_desk_is_seen(qtbot: QtBot, tmp_path: Path) -> None:
    with opened_demo(tmp_path, step_us=STEP_US) as (session, window):
        bring_up(qtbot, window)
        test = Crowded(session, window)
        test.run(1.0)
        desk, page = window.desk, window.mounted.test
        desk.pages.test.click()
        page.setup.choose(window.visit.asked.task)
        page.begin.click()
        test.until(lambda: desk.in_set)
        test.is_whole()
        test.until(lambda: page.test is not None and len(page.test.trials) == 4)
        test.run(1.0)
        test.is_whole()
        page.box.pain[7].click()
        test.is_whole()
        advice = desk.messages.earlier
        assert advice.property("advice")
        assert advice.drawn == advice.text()


def test_all_of_the_signal_is_shown_by_its_key_and_folded_again(day: Day) -> None:
    health = day.desk.health
    assert not health.source.isVisible()
    assert not health.simulated.isVisible()
    for part in (health.rate, health.recording, health.age, health.zero):
        assert part.isVisible()
    day.press("Alt+I")
    assert health.source.isVisible()
    assert health.simulated.isVisible()
    day.press("Alt+I")
    assert not health.source.isVisible()
    day.press("Alt+E")  # with sets to come it asks once more
    day.run(2.0)
    day.press("Alt+E")
    day.window.order.let_go()
    for _ in range(4):
        day.run(0.1)
        QCoreApplication.processEvents()
    assert not day.window.order.box.isVisible()
    assert health.simulated.isVisible()
    assert not health.source.isVisible(), "the line at the foot names it"
    day.press("Alt+I")
    assert health.source.isVisible()


def test_a_row_of_the_order_that_has_just_changed_takes_no_press(day: Day) -> None:
    """What was to be one rep less would leave out the next set."""
    box, left = day.window.order.box, Qt.MouseButton.LeftButton
    day.press("F5")
    day.until(lambda: day.desk.in_set)
    day.run(SETTLED_S)
    assert not box.buttons[Act.SKIP].isVisible()
    day.press("Alt+C")
    day.until(lambda: day.doing is Doing.REST)
    day.run(0.1)
    skip = box.buttons[Act.SKIP]
    assert skip.isVisible()
    visit = day.window.order.control.visit
    assert visit is not None
    place = visit.order.place
    QTest.mouseClick(skip, left)
    assert visit.order.place == place
    assert "had just changed" in day.desk.messages.message.text()
    day.run(SETTLED_S)
    QTest.mouseClick(skip, left)
    assert visit.order.place == place + 1


def test_what_is_wrong_with_a_band_stands_in_the_place_of_its_summary(day: Day) -> None:
    form, up = day.desk.form, day.desk.form.band.up
    day.is_whole()  # and at rest
    before, summary = up.mapTo(day.desk, up.rect().topLeft()), form.band.summary.text()
    form.band.centre.line.setText("x")
    form.band.centre.committed.emit()
    day.run()
    assert form.band.summary.text().startswith("Centre: Please type a number")
    assert form.band.summary.toolTip() == f"Centre: {form.band.centre.error.text()}"
    assert up.mapTo(day.desk, up.rect().topLeft()) == before
    form.band.centre.line.textEdited.emit("40")
    assert form.band.summary.text() == summary
