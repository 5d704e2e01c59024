"""The whole day in the window: taken, begun, changed, stopped, left and found again."""

from __future__ import annotations

import contextlib
import sqlite3
import time
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from session.visit_on_rig import CODE, LEFT_N, PLANNED, RIGHT_N, STEP_US

from biofeedback.gui.keymap import PAIN_BACK, PRESENTER, Keymap
from biofeedback.gui.order_box import Act
from biofeedback.gui.window import Window
from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.session import Session, demo
from biofeedback.session.day_facts import Background
from biofeedback.session.office import Office
from biofeedback.session.preferences import Preferences
from biofeedback.session.set_of_day import PlanPlace
from biofeedback.session.today import Today
from biofeedback.training.day import PainRule
from biofeedback.training.prescription import StartBy
from biofeedback.training.reference import Definition
from biofeedback.training.running_order import Doing, Stand
from biofeedback.training.task import Sides
from biofeedback.wire.frames import Event

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from PySide6.QtWidgets import QWidget
    from pytestqt.qtbot import QtBot

    from biofeedback.session.visit import Visit

WAIT_MOST_S = 120.0
PLACE = PlanPlace(new_key(), 0, "Invented plan, stage 1")
PRESENTED = Preferences(
    keys=Keymap([*PRESENTER, *PRESENTER.values()]).with_all(PRESENTER).changed
)


class Day:
    """A window with the plan of an invented athlete, its rig stepped by hand."""

    def __init__(
        self,
        qtbot: QtBot,
        book: Logbook,
        folder: Path,
        *,
        start: StartBy = StartBy.FORCE,
        ceiling_pct: float | None = None,
        preferences: Preferences | None = None,
    ) -> None:
        self.book, self.file = book, folder / "logbook.db"
        self.session = Session(
            demo.source(seed=3, step_us=STEP_US),
            logbook=book,
            recordings=folder,
            athlete_code=CODE,
        )
        athlete = book.athlete_by_code(CODE)
        assert athlete is not None
        self.athlete_id = athlete.id
        self.now_ns = time.monotonic_ns()
        planned = replace(PLANNED, sets=1, start=start, ceiling_pct=ceiling_pct)
        here = Background(plan=PLACE, planned=(planned,))
        nobody = Background()
        today = Today(
            book,
            visit_id=self.session.visit_id,
            background=lambda one: here if one.code == CODE else nobody,
        )
        office = replace(Office.of(book, folder, self.session), today=today)
        self.window = Window(
            self.session,
            office,
            prescription=office.last_prescription(CODE),
            preferences=preferences,
            clock=lambda: self.now_ns,
        )
        qtbot.addWidget(self.window)
        self.window.show()
        self.window.activateWindow()
        qtbot.waitUntil(self.window.isActiveWindow)
        self.run(0.5)

    def test(self, force_n: float, sides: Sides) -> None:
        """A maximal test of a day ago."""
        self.book.maxima.add(
            NewMaximalTest(
                self.athlete_id,
                PLANNED.task.on_side(sides),
                datetime.now(tz=UTC) - timedelta(days=1),
                Definition.BEST_1_S_MEAN,
                force_n,
                3,
                peak_n=1.05 * force_n,
                one_s_n=force_n,
            )
        )

    def run(self, seconds: float) -> None:
        for _ in range(max(1, round(seconds * 1e6 / STEP_US))):
            self.session.step()
            self.now_ns += STEP_US * 1000
            self.window.frame()

    def until(self, reached: Callable[[], bool]) -> None:
        for _ in range(round(WAIT_MOST_S * 1e6 / STEP_US)):
            self.run(STEP_US / 1e6)
            if reached():
                return
        pytest.fail(f"what was waited for did not come; told: {self.told}")

    def press(self, key: str) -> None:
        focus: QWidget | None = self.window.focusWidget()
        QTest.keySequence(focus or self.window, QKeySequence(key))

    @property
    def told(self) -> str:
        return self.window.desk.messages.message.text()

    @property
    def order(self) -> Visit:
        visit = self.window.order.control.visit
        assert visit is not None
        return visit

    @property
    def shown(self) -> tuple[Sides, float]:
        """Side and reference in the fields of the desk."""
        asked = self.window.desk.prescription()
        assert asked is not None
        assert asked.reference is not None
        return asked.task.sides, asked.reference.force_n

    def take(self, pain: int = 1) -> None:
        """The whole day, as it is taken by keys."""
        self.press("Alt+D")
        self.window.mounted.today.now.buttons[pain].click()
        self.press("Ctrl+T")

    def begin(self) -> None:
        self.press("F5")
        self.until(lambda: self.window.desk.in_set)


@pytest.fixture
def day(qtbot: QtBot, tmp_path: Path) -> Iterator[Day]:
    with Logbook.open(tmp_path / "logbook.db") as book:
        made = Day(qtbot, book, tmp_path)
        made.test(LEFT_N, Sides.LEFT)
        made.test(RIGHT_N, Sides.RIGHT)
        yield made
        made.window.close()


def test_the_day_is_taken_and_done_side_by_side(day: Day) -> None:
    day.take()
    assert day.window.pages.live_shown
    assert day.window.order.box.isVisible()
    assert day.shown == (Sides.LEFT, LEFT_N)
    day.begin()
    assert day.order.order.leg is not None
    day.until(lambda: not day.window.desk.in_set)
    assert day.shown == (Sides.RIGHT, RIGHT_N)
    day.begin()
    day.until(lambda: not day.window.order.on)
    assert [leg.stand for leg in day.order.order.legs] == [Stand.DONE, Stand.DONE]
    assert "order is over" in day.told
    desk = day.window.desk
    assert desk.effort.isVisible()
    assert desk.foot.isAncestorOf(desk.effort)
    with contextlib.closing(sqlite3.connect(day.file)) as reader:
        rows = reader.execute(
            "SELECT sides, plan_id, planned_key FROM sets ORDER BY started_utc"
        ).fetchall()
    key = PLANNED.key
    assert rows == [("left", PLACE.id, key), ("right", PLACE.id, key)]


def test_between_sets_a_nudge_is_of_the_next_set_and_its_task_stays(day: Day) -> None:
    day.take()
    form = day.window.desk.form
    assert not form.hold.line.isEnabled()
    before = form.band.band
    day.press("PgUp")
    asked = day.order.asked
    assert asked is not None
    assert asked.band.centre_n > before.centre_n
    day.run(0.1)
    assert form.band.band == asked.band
    assert day.order.order.legs[0].asked.band == asked.band


def test_a_nudge_out_of_the_prescribed_range_is_said_once_and_noted(day: Day) -> None:
    day.take()
    day.begin()
    before = day.window.desk.form.band.band
    day.press("PgUp")
    assert day.told == (
        f"Outside the prescribed {before.lower_n:.1f} to {before.upper_n:.1f} N: "
        "allowed, and noted so."
    )
    said = len(day.window.desk.messages._messages)
    day.press("PgUp")
    day.run(0.2)
    assert len(day.window.desk.messages._messages) == said
    (row,) = day.book.sessions()
    day.until(lambda: not day.window.desk.in_set)
    changes = day.book.session_notes.list(row.id, kind="change")
    assert [one.content["outside_prescribed"] for one in changes] == [True, True]


def test_the_next_set_tells_of_a_nudge_and_a_key_leads_back(day: Day) -> None:
    day.take()
    box, form = day.window.order.box, day.window.desk.form
    before = form.band.band
    back = box.buttons[Act.PRESCRIBED]
    day.run(0.1)
    assert not back.isEnabled()
    day.press("PgUp")
    day.run(0.1)
    nudged = form.band.band
    assert box.words.text() == (
        f"The next set has the nudged band, {nudged.lower_n:.1f} to "
        f"{nudged.upper_n:.1f} N; prescribed: {before.lower_n:.1f} to "
        f"{before.upper_n:.1f} N."
    )
    day.press("Alt+B")
    day.run(0.1)
    assert form.band.band == before
    assert not box.words.isVisible()
    assert not back.isEnabled()
    changes = day.book.session_notes.list(day.session.visit_id(), kind="change")
    assert [one.content["outside_prescribed"] for one in changes] == [True, False]


def test_a_nudge_into_the_ceiling_is_refused_in_few_words(
    qtbot: QtBot, tmp_path: Path
) -> None:
    with Logbook.open(tmp_path / "logbook.db") as book:
        day = Day(qtbot, book, tmp_path, ceiling_pct=66)
        day.test(LEFT_N, Sides.LEFT)
        day.test(RIGHT_N, Sides.RIGHT)
        day.take()
        before = day.window.desk.form.band.band
        day.press("PgUp")
        form = day.window.desk.form.band
        assert form.centre.error.text() == "Would reach the ceiling of 66 N."
        assert form.band == before
        day.window.close()


def test_a_set_that_was_stopped_waits_to_be_repeated(day: Day) -> None:
    day.take()
    day.begin()
    day.press("Esc")
    day.until(lambda: not day.window.desk.in_set)
    assert day.order.order.doing is Doing.STOPPED
    day.press("F5")
    assert "was stopped" in day.told
    day.press("Alt+R")
    day.begin()
    assert day.order.order.leg is not None
    assert day.order.order.leg.sides is Sides.LEFT


def test_pain_above_the_agreed_cut_holds_the_order(day: Day) -> None:
    today = day.window.mounted.today
    day.press("Alt+D")
    today.rule.rule_changed.emit(PainRule(low=1, high=3))
    today.now.buttons[1].click()
    day.press("Ctrl+T")
    day.press("Ctrl+4")
    assert day.told == "Pain 4 of 10 is noted."
    day.run(0.1)
    assert "agreed cut of 3" in day.window.order.box.words.text()
    assert "agreed cut" not in day.window.desk.messages.earlier.text()
    (row,) = day.book.sessions()
    notes = day.book.session_notes.list(row.id, kind="pain")
    assert [note.content["level"] for note in notes] == [4]


def test_pain_that_was_a_slip_does_not_hold_the_order_any_more(day: Day) -> None:
    day.take()
    day.begin()
    day.press("Ctrl+8")
    day.run(0.1)
    box = day.window.order.box.words
    assert "above the agreed cut" in box.text()
    day.press(PAIN_BACK)
    day.run(0.1)
    assert day.told == "Pain 8 of 10 is taken back; it counts nowhere."
    assert "above the agreed cut" not in box.text()
    day.press("Esc")
    day.until(lambda: not day.window.desk.in_set)
    day.press("Alt+R")
    day.begin()
    (row,) = day.book.sessions()
    day.until(lambda: len(day.book.sets(row.id)) == 2)
    assert [mark.taken_back for mark in day.book.session_notes.pain(row.id)] == [True]
    first, second = (
        recordings.read(day.file.parent / one.recording)
        for one in day.book.sets(row.id)
    )
    assert "went_on" not in second.header
    kinds = [one.content["kind"] for one in first.frames() if isinstance(one, Event)]
    assert "pain taken back" in kinds


@pytest.mark.parametrize("by", ["F5", "button"])
def test_a_start_that_is_objected_to_leaves_no_other_promise(day: Day, by: str) -> None:
    """The box and the desk say the same of the next start."""
    day.take(pain=8)
    day.press("Ctrl+T")
    assert day.told == "The day is at the desk: F5 begins."
    if by == "F5":
        day.press("F5")
    else:
        day.window.order.box.buttons[Act.NEXT_SET].click()
    day.run(0.1)
    assert day.window.order.box.words.text().endswith("A second start goes on.")
    assert day.told == "Not started: see above. F5 again starts."
    assert "F5 begins" not in day.window.desk.messages.earlier.text()
    day.run(1.0)
    day.begin()
    assert day.told == "The set has begun."


def test_a_rest_between_sets_that_is_cut_short_is_told(day: Day) -> None:
    day.take()
    day.begin()
    day.press("Alt+C")
    day.until(lambda: not day.window.desk.in_set)
    day.run(1.0)
    day.begin()
    day.run(0.1)
    assert day.told == f"The set began after 1 of {PLANNED.rest_s:g} s of rest."
    day.press("Esc")
    day.until(lambda: not day.window.desk.in_set)
    day.press("Alt+V")
    (row,) = day.window.mounted.end.changes.rows
    assert row[1:3] == ("between sets", "rest taken")
    assert row[3].startswith("1")
    assert row[3].endswith(f" s of {PLANNED.rest_s:g} s")


def test_pain_in_a_set_speaks_against_the_next_start_key(day: Day) -> None:
    day.take()
    day.begin()
    day.press("Ctrl+8")
    assert day.told == "Pain 8 of 10 is noted."
    day.run(0.1)
    box = day.window.order.box.words
    assert box.isVisible()
    assert "Next in the order: Invented calf push, right, set 1" in box.text()
    day.press("Esc")
    day.until(lambda: not day.window.desk.in_set)
    day.press("Alt+K")
    assert "Next in the order: Invented calf push, right, set 1" in box.text()
    day.press("Alt+K")
    assert "Next in the order: Invented calf push, right" not in box.text()
    day.run(0.1)
    assert not box.isVisible(), "the order is over"
    advice = day.window.desk.messages.earlier
    assert advice.property("advice")
    assert "above the agreed cut" in advice.text()
    assert "Next in the order" not in day.told, "what stays in sight would grow stale"
    day.press("Alt+R")
    day.press("F5")
    day.run(1.0)
    assert not day.window.desk.in_set
    assert "Pain 8 of 10 is above the agreed cut" in day.window.order.box.words.text()
    day.begin()
    (row,) = day.book.sessions()
    day.until(lambda: len(day.book.sets(row.id)) == 2)
    second = day.book.sets(row.id)[-1]
    header = recordings.read(day.file.parent / second.recording).header
    assert "Pain 8 of 10" in str(header["went_on"])
    # A set was begun all the same; a day that is planned anew hears of it again.
    day.press("Esc")
    day.until(lambda: not day.window.desk.in_set)
    day.press("Alt+E")
    day.press("Alt+D")
    day.press("Ctrl+T")
    assert "Once more takes the day" in day.window.mounted.today.message.text()
    day.press("Ctrl+T")
    day.press("F5")
    day.run(1.0)
    assert not day.window.desk.in_set
    assert "Pain 8 of 10 is above the agreed cut" in day.window.order.box.words.text()


def test_against_advice_a_second_press_takes_the_day(day: Day) -> None:
    day.take(pain=8)
    assert not day.window.order.on
    assert "Once more" in day.window.mounted.today.message.text()
    day.press("Ctrl+T")
    assert day.window.order.on


def test_without_an_answer_nothing_is_taken(day: Day) -> None:
    day.press("Alt+D")
    day.press("Ctrl+T")
    assert not day.window.order.on
    assert "Pain now was not asked" in day.window.mounted.today.message.text()


@pytest.mark.parametrize("start", list(StartBy))
def test_two_buttons_run_the_whole_order(
    qtbot: QtBot, tmp_path: Path, start: StartBy
) -> None:
    """A presenter or a foot switch: nothing but page down and page up."""
    with Logbook.open(tmp_path / "logbook.db") as book:
        day = Day(qtbot, book, tmp_path, start=start, preferences=PRESENTED)
        day.test(LEFT_N, Sides.LEFT)
        day.test(RIGHT_N, Sides.RIGHT)
        day.take()
        day.press("PgDown")
        day.until(lambda: day.window.desk.in_set)
        waits: list[int] = []

        def went_on() -> bool:
            """Presses as soon as something waits for a key."""
            order = day.order
            if order.waits_for_key:
                waits.append(order.order.place)
                day.press("PgDown")
                day.run(0.2)
            elif not order.in_set and order.rest_left_s <= 0:
                day.press("PgDown")
            return not day.window.order.on

        day.until(went_on)
        stands = [leg.stand for leg in day.order.order.legs]
        assert stands == [Stand.DONE, Stand.DONE]
        asked = day.order.order.legs[0].asked
        if start is StartBy.KEY:  # each rep of each side
            assert len(waits) >= 2 * (asked.reps - 1)
        else:
            assert waits == []
        day.window.close()


def test_of_two_buttons_one_stops_at_once(qtbot: QtBot, tmp_path: Path) -> None:
    with Logbook.open(tmp_path / "logbook.db") as book:
        day = Day(qtbot, book, tmp_path, preferences=PRESENTED)
        day.test(LEFT_N, Sides.LEFT)
        day.test(RIGHT_N, Sides.RIGHT)
        day.take()
        day.press("PgDown")
        day.until(lambda: day.window.desk.in_set)
        day.press("PgUp")
        day.until(lambda: not day.window.desk.in_set)
        assert day.order.order.doing is Doing.STOPPED
        # The one that begins does not begin the next set unasked after a stop.
        day.press("PgDown")
        day.run(1.0)
        assert not day.window.desk.in_set
        assert "was stopped" in day.told
        day.window.close()


def test_an_order_that_was_left_is_found_again_and_waits(day: Day) -> None:
    day.book.add_athlete("INV-2")
    day.take()
    day.begin()
    day.until(lambda: not day.window.desk.in_set)
    (row,) = day.book.sessions()
    day.window.visit.change_athlete("INV-2")
    assert not day.window.order.on
    assert not day.window.order.box.isVisible()
    assert day.window.desk.form.isVisible()
    assert day.window.desk.form.hold.line.isEnabled()
    day.window.visit.change_athlete(CODE)
    assert "taken up again" in day.told
    assert day.session.visit_id() == row.id
    assert day.shown == (Sides.RIGHT, RIGHT_N)
    day.run(10.0)  # longer than its rest
    assert not day.window.desk.in_set
    day.begin()
    assert day.order.order.leg is not None
    assert day.order.order.leg.sides is Sides.RIGHT


def test_the_page_of_the_visit_tells_what_was_done(day: Day) -> None:
    day.take()
    day.begin()
    day.until(lambda: not day.window.desk.in_set)
    day.press("Alt+V")
    page = day.window.mounted.end
    assert page.isVisible()
    assert page.lines.rowCount() == 2
