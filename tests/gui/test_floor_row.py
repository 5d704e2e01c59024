"""The floor of a lowering from its paired task: at the desk, and in a plan."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from gui.staged_session import ASKED, StagedSession, steady_pull

from biofeedback.gui.planned_form import PlannedForm
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.session import Session, demo
from biofeedback.session.lowering import Floor, default_floor
from biofeedback.session.office import Office
from biofeedback.session.order_record import new_record
from biofeedback.session.planning import Planning
from biofeedback.training.band import Band
from biofeedback.training.intensity import Intensity
from biofeedback.training.lowering import lowering_prescription
from biofeedback.training.planned import PlannedPrescription, ReferenceRule, SideOrder
from biofeedback.training.prescription import BandOn, ClockRule
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.running_order import Leg, RunningOrder
from biofeedback.training.task import Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

HOLD = "Invented hamstring hold"
DAY = timedelta(days=1)


class Book:
    """A logbook with a hold, a lowering that is paired with it, and an athlete."""

    def __init__(self, logbook: Logbook) -> None:
        self.logbook = logbook
        self.athlete_id = logbook.add_athlete("A7")
        tasks = logbook.tasks
        self.hold = tasks.add(Task(HOLD))
        self.lowering = tasks.add(
            Task("Invented slow lowering", TaskKind.LOWERING, pair=self.hold.key)
        )
        self.alone = tasks.add(Task("Invented lowering alone", TaskKind.LOWERING))

    def tested(
        self, peak_n: float, ago: timedelta, sides: Sides, **changes: object
    ) -> None:
        new = NewMaximalTest(
            athlete_id=self.athlete_id,
            task=self.hold.on_side(sides),
            tested_utc=datetime.now(tz=UTC) - ago,
            definition=Definition.PEAK,
            force_n=peak_n,
            trials=3,
            peak_n=peak_n,
        )
        self.logbook.maxima.add(replace(new, **changes))  # type: ignore[arg-type]


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        yield Book(logbook)


# At the desk.


def window(qtbot: QtBot, book: Book, task: Task, **changes: object) -> Window:
    asked = lowering_prescription(task, floor_n=100.0, **changes)  # type: ignore[arg-type]
    session = StagedSession(steady_pull)
    made = Window(
        session,
        Office(logbook=book.logbook),
        prescription=asked,
        clock=lambda: session.now_ns,
    )
    qtbot.addWidget(made)
    return made


def test_a_hold_has_no_such_row(qtbot: QtBot, book: Book) -> None:
    made = window(qtbot, book, book.lowering)
    assert not made.desk.form.floor.isHidden()
    made.desk.form.fill(ASKED)
    assert made.desk.form.floor.isHidden()


def test_the_floor_is_the_peak_of_today_with_date_origin_and_side(
    qtbot: QtBot, book: Book
) -> None:
    book.tested(340.0, 3 * DAY, Sides.LEFT)
    book.tested(300.0, timedelta(0), Sides.LEFT)
    book.tested(290.0, timedelta(0), Sides.LEFT)
    made = window(qtbot, book, book.lowering.on_side(Sides.LEFT), band_on=BandOn.LEFT)
    made.desk.form.floor.button.click()
    asked = made.desk.prescription()
    assert asked is not None
    assert asked.band.lower_n == 300.0
    assert asked.band.open_above
    assert asked.reference is not None
    assert asked.reference.origin is Origin.OTHER_TASK
    assert made.visit.asked == asked, "it is what the next set asks for"
    told = made.desk.form.floor.told.text()
    for part in ("Floor 300 N", "100 %", HOLD, "isometric peak", "of today", "left"):
        assert part in told, part
    beside = made.desk.form.origin.text()
    today = datetime.now(tz=UTC).astimezone().date().isoformat()
    for part in ("another task", "peak", today):
        assert part in beside, part


@pytest.mark.parametrize(("ceiling_n", "kept_n"), [(400.0, 400.0), (250.0, None)])
def test_a_ceiling_that_was_typed_stays_above_the_floor(
    qtbot: QtBot, book: Book, ceiling_n: float, kept_n: float | None
) -> None:
    book.tested(300.0, timedelta(0), Sides.LEFT)
    task = book.lowering.on_side(Sides.LEFT)
    made = window(qtbot, book, task, band_on=BandOn.LEFT, ceiling_n=ceiling_n)
    made.desk.form.floor.button.click()
    asked = made.desk.prescription()
    assert asked is not None
    assert (asked.band.lower_n, asked.ceiling_n) == (300.0, kept_n)
    told = made.desk.messages.message.text()
    assert ("taken out" in told) is (kept_n is None)


def kept(made: Window, book: Book, force_n: float, sides: Sides) -> None:
    """A test of the paired task is kept, as the page of the test tells it."""
    book.tested(force_n, timedelta(0), sides)
    test = book.logbook.maxima.tests(book.athlete_id, book.lowering.pair, sides)[0]
    today = datetime.now(tz=UTC).astimezone().date().isoformat()
    new = Reference(force_n, Origin.OWN_SIDE, Definition.PEAK, today, source=test.id)
    made.visit.reference.take(new, Task(test.task, sides=sides, key=test.task_id or ""))


def test_the_floor_follows_a_new_peak_of_the_day_by_itself(
    qtbot: QtBot, book: Book
) -> None:
    book.tested(300.0, timedelta(0), Sides.LEFT)
    made = window(qtbot, book, book.lowering.on_side(Sides.LEFT), band_on=BandOn.LEFT)
    made.desk.form.floor.button.click()
    kept(made, book, 330.0, Sides.RIGHT)
    assert made.visit.asked.band.lower_n == 300.0, "of the other side"
    kept(made, book, 330.0, Sides.LEFT)
    asked = made.visit.asked
    assert asked.band.lower_n == pytest.approx(330.0)
    assert asked.reference is not None
    assert asked.reference.force_n == 330.0
    assert "Floor 330 N" in made.desk.form.floor.told.text()
    assert "follows the new peak" in made.desk.messages.message.text()
    # Lowered by hand to 80 %: it stays 80 %, of the best of the day.
    made.desk.form.fill(replace(asked, band=Band.at_least(264.0), ceiling_n=400.0))
    kept(made, book, 363.0, Sides.LEFT)
    assert made.visit.asked.band.lower_n == pytest.approx(0.8 * 363.0)
    assert made.visit.asked.ceiling_n == 400.0  # newtons that were typed stay
    assert "80 %" in made.desk.form.floor.told.text()


def test_a_typed_floor_stays(qtbot: QtBot, book: Book) -> None:
    made = window(qtbot, book, book.lowering.on_side(Sides.LEFT), band_on=BandOn.LEFT)
    before = made.visit.asked
    kept(made, book, 330.0, Sides.LEFT)
    assert made.visit.asked == before
    assert made.desk.messages.message.text() == (
        "A new peak is kept; the typed floor stays."
    )


def test_what_speaks_against_the_peak_is_said(qtbot: QtBot, book: Book) -> None:
    book.tested(300.0, 40 * DAY, Sides.BOTH, pain=5, practice=True)
    made = window(qtbot, book, book.lowering, band_on=BandOn.EACH_SIDE)
    made.desk.form.floor.button.click()
    asked = made.desk.prescription()
    assert asked is not None
    assert asked.band.lower_n == 150.0
    told = made.desk.form.floor.told.text()
    for part in (
        "40 days old",
        "very first test",
        "pain 5 of 10",
        "half",
        "both sides",
    ):
        assert part in told, part


@pytest.mark.parametrize(
    ("alone", "words"),
    [(True, "names no isometric partner"), (False, "was not tested")],
)
def test_what_is_missing_is_said_and_nothing_changes(
    qtbot: QtBot, book: Book, words: str, *, alone: bool
) -> None:
    made = window(qtbot, book, book.alone if alone else book.lowering)
    before = made.desk.prescription()
    made.desk.form.floor.button.click()
    assert words in made.desk.form.floor.told.text()
    assert made.desk.prescription() == before


# In a plan.


@pytest.fixture
def form(qtbot: QtBot, book: Book) -> PlannedForm:
    planning = Planning(book.logbook)
    made = PlannedForm(lambda asked: planning.references(book.athlete_id, asked))
    qtbot.addWidget(made)
    made.offer(planning.tasks())
    made.show_planned(
        PlannedPrescription(
            Task("Something else"),
            Intensity.in_range(25, 40),
            hold_s=4.0,
            side_order=SideOrder.LEFT_FIRST,
        )
    )
    made.show()
    return made


def test_a_lowering_with_a_partner_starts_with_that_floor(
    form: PlannedForm, book: Book
) -> None:
    book.tested(340.0, 9 * DAY, Sides.LEFT)
    book.tested(300.0, 2 * DAY, Sides.LEFT)
    book.tested(310.0, 2 * DAY, Sides.RIGHT)
    assert not form.floor.isVisible()
    form.task.setCurrentText(book.lowering.name)
    planned = form.read()
    assert planned is not None
    assert planned.reference == ReferenceRule(
        Origin.OTHER_TASK, Definition.PEAK, other_task=HOLD
    )
    assert planned.intensity == Intensity.at_least(100)
    assert planned.clock is ClockRule.RUNNING
    assert form.floor.isVisible()
    told = form.floor.told.text().splitlines()
    assert len(told) == 2
    for line, force, side in zip(
        told, ("300 N", "310 N"), ("left", "right"), strict=True
    ):
        assert force in line, "the latest, and not the highest of the last weeks"
        assert f"{side} side" in line
        assert HOLD in line


def test_a_rule_that_was_chosen_is_not_taken_away(
    form: PlannedForm, book: Book
) -> None:
    form.rule.show_rule(ReferenceRule(Origin.TYPED, typed_n=210.0))
    form.task.setCurrentText(book.lowering.name)
    assert form.rule.read().origin is Origin.TYPED
    form.floor.button.click()
    assert form.rule.read().origin is Origin.OTHER_TASK
    assert "is known" in form.floor.told.text(), "no test yet, and that is said"


def test_without_a_partner_it_says_so(form: PlannedForm, book: Book) -> None:
    form.task.setCurrentText(book.alone.name)
    assert form.rule.read() == ReferenceRule()
    form.floor.button.click()
    assert "names no isometric partner" in form.floor.told.text()
    assert form.rule.read() == ReferenceRule()


@pytest.mark.parametrize("days", [(0, 0, 3), (2, 9), (1,), (0, 20)])
def test_plan_and_desk_take_the_same_peak(book: Book, days: tuple[int, ...]) -> None:
    for at, ago in enumerate(days):
        book.tested(300.0 + 7 * ago - 11 * at, ago * DAY, Sides.LEFT)
    task = book.lowering.on_side(Sides.LEFT)
    now = datetime.now(tz=UTC).astimezone()
    at_desk = default_floor(book.logbook, book.athlete_id, task, now=now)
    assert isinstance(at_desk, Floor)
    (in_plan,) = Planning(book.logbook).references(
        book.athlete_id,
        PlannedPrescription(
            book.lowering,
            Intensity.at_least(100),
            hold_s=4.0,
            clock=ClockRule.RUNNING,
            side_order=SideOrder.LEFT,
            reference=ReferenceRule(
                Origin.OTHER_TASK, Definition.PEAK, other_task=HOLD
            ),
        ),
    )
    assert in_plan.reference is not None
    assert in_plan.reference.force_n == at_desk.reference.force_n
    assert in_plan.reference.date == at_desk.reference.date


# In a running order.


@pytest.mark.parametrize("ceiling_pct", [None, 110.0])
def test_lowerings_of_an_order_follow_a_new_peak_of_the_day(
    qtbot: QtBot, book: Book, tmp_path: Path, ceiling_pct: float | None
) -> None:
    book.tested(300.0, timedelta(0), Sides.LEFT)
    task = book.lowering.on_side(Sides.LEFT)
    floor = default_floor(
        book.logbook, book.athlete_id, task, now=datetime.now(tz=UTC).astimezone()
    )
    assert isinstance(floor, Floor)
    asked = lowering_prescription(
        task,
        floor_n=240.0,
        band_on=BandOn.LEFT,
        reference=floor.reference,
        ceiling_n=None if ceiling_pct is None else 3.0 * ceiling_pct,
    )
    session = demo_session(book, tmp_path)
    made = Window(
        session, Office.of(book.logbook, tmp_path, session), prescription=ASKED
    )
    qtbot.addWidget(made)
    leg = Leg(asked, in_percent=True, ceiling_in_percent=ceiling_pct is not None)
    order = RunningOrder((leg, replace(leg, number=2)))
    made.order._take_up(new_record(order, {}))
    kept(made, book, 330.0, Sides.LEFT)
    for one in made.order.control.visit.order.legs:  # type: ignore[union-attr]
        assert one.asked.band.lower_n == pytest.approx(0.8 * 330.0)
        assert one.asked.reference is not None
        assert one.asked.reference.force_n == 330.0
        assert one.asked.reference.origin is Origin.OTHER_TASK
        if ceiling_pct is not None:
            assert one.asked.ceiling_n == pytest.approx(1.1 * 330.0)
    assert made.desk.messages.message.text() == (
        "The lowerings to come follow the new peak."
    )
    made.visit.reference.give_back(book.hold.on_side(Sides.LEFT))
    for one in made.order.control.visit.order.legs:  # type: ignore[union-attr]
        assert one.asked.band.lower_n == pytest.approx(240.0)
    made.close()


def demo_session(book: Book, folder: Path) -> Session:
    return Session(
        demo.source(seed=3, channels=2, step_us=50_000),
        logbook=book.logbook,
        recordings=folder,
        athlete_code="A7",
    )
