"""Large type: the window stays on the screen, and no words are cut."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from gui.cut_text import cut_texts, in_sight, moves_sideways
from gui.demo_window import opened_demo, speaking
from gui.filled_pages import fill_pages
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import (
    QAbstractScrollArea,
    QComboBox,
    QPushButton,
    QScrollArea,
    QWidget,
)

from biofeedback.gui.preferences_page import TEXT_SIZES_PCT
from biofeedback.gui.tall_area import TallArea
from biofeedback.session.preferences import Language

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from PySide6.QtWidgets import QApplication
    from pytestqt.qtbot import QtBot

    from biofeedback.gui.window import Window
    from biofeedback.session import Session

SCREENS = [(1920, 1080), (1280, 720)]
SMALL = (1000, 560)
"""A window that is not all of a screen; in type of 200 % its desk is not whole."""
SIZES_PCT = sorted({100, 125, 150, max(TEXT_SIZES_PCT)})

pytestmark = [pytest.mark.slow, pytest.mark.timeout(240)]


@pytest.fixture(params=[Language.ENGLISH, Language.SPANISH], ids=lambda one: one.value)
def stage(
    request: pytest.FixtureRequest, qapp: QApplication, qtbot: QtBot, tmp_path: Path
) -> Iterator[tuple[Session, Window]]:
    """On the logbook of the demo, with a running order at the desk."""
    with speaking(qapp, request.param), opened_demo(tmp_path, step_us=50_000) as made:
        session, window = made
        qtbot.addWidget(window)
        window.show()
        for _ in range(10):
            session.step()
            window.frame()
        yield made


@pytest.fixture
def session(stage: tuple[Session, Window]) -> Session:
    return stage[0]


@pytest.fixture
def window(stage: tuple[Session, Window]) -> Window:
    return stage[1]


def settle() -> None:
    """Layouts follow what was changed, and what they change in turn."""
    for _ in range(6):
        QCoreApplication.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def take_sizes(window: Window) -> Iterator[tuple[int, tuple[int, int]]]:
    """Each size of type on each screen; the window goes from large to small, too."""
    for text_pct in SIZES_PCT:
        for screen in SCREENS:
            take(window, text_pct, screen)
            yield text_pct, screen


def take(window: Window, text_pct: int, screen: tuple[int, int]) -> None:
    """One of them."""
    comfort = window.comfort
    if comfort.preferences.text_pct != text_pct:
        comfort.preferences = replace(comfort.preferences, text_pct=text_pct)
        comfort.type_changed.emit()
    window.resize(*screen)
    settle()


def test_no_page_is_wider_than_the_screen_and_nothing_of_it_is_cut(
    session: Session, window: Window, tmp_path: Path
) -> None:
    """A page that has to be moved sideways hides its results from who looks at it."""
    fill_pages(session, window, tmp_path)
    wrong: set[tuple[object, ...]] = set()
    for text_pct, screen in take_sizes(window):
        for button in window.pages.buttons:
            button.click()
            settle()
            at = (text_pct, screen[0], button.text())
            if (window.width(), window.height()) != screen:
                wrong.add((*at, "is too large", window.width(), window.height()))
            # A box that is too narrow for what is chosen has it whole when opened.
            chosen = {box.currentText() for box in window.findChildren(QComboBox)}
            wrong |= {
                (*at, *found)
                for found in cut_texts(window)
                if found[0] not in chosen or text_pct == 100
            }
            wrong |= {
                (*at, type(area).__name__, "moves sideways")
                for area in in_sight(window)
                if isinstance(area, QAbstractScrollArea) and moves_sideways(area)
            }
            button.click()
    assert not wrong, "\n".join(map(str, sorted(wrong, key=str)))


def test_the_live_page_fits_with_and_without_an_order(window: Window) -> None:
    wrong: set[tuple[object, ...]] = set()
    desk, screen_part = window.desk, window.screen_part
    desk.form.balance.set_number(12.5)
    for order in (False, True):
        window.order.box.setVisible(order)
        desk.show_order(on=order)
        desk.effort.show()
        for text_pct, screen in take_sizes(window):
            at = (text_pct, screen[0], order)
            assert (window.width(), window.height()) == screen
            wrong |= {(*at, *found) for found in cut_texts(window)}
            right = desk.mapTo(window, desk.rect().topRight()).x()
            assert right < screen[0], at
            assert screen_part.width() >= 599, at
            column = desk.above.area
            if column.horizontalScrollBar().maximum() > 0:
                wrong.add((*at, "moves sideways", column.viewport().width(), 0))
        for text_pct in (100, 150):
            take(window, text_pct, SMALL)
            wrong |= {(text_pct, SMALL, order, *found) for found in cut_texts(window)}
            assert desk.mapTo(window, desk.rect().topRight()).x() < SMALL[0]
    assert not wrong, "\n".join(map(str, sorted(wrong, key=str)))


def test_parts_that_stand_below_one_another_do_not_scroll_each_for_itself(
    session: Session, window: Window, tmp_path: Path
) -> None:
    """In the largest type on the small screen the page scrolls, and nothing in it."""
    fill_pages(session, window, tmp_path)
    take(window, SIZES_PCT[-1], SCREENS[-1])
    bar = window.desk.pages
    for button in (bar.test, bar.data, bar.group, bar.progress, bar.reliability):
        button.click()
        settle()
        areas = [one for one in in_sight(window) if isinstance(one, TallArea)]
        assert areas, button.text()
        for area in areas:
            assert area.verticalScrollBar().maximum() == 0, button.text()
        button.click()


def test_what_a_test_has_found_is_seen_before_its_set_up(
    session: Session, window: Window, tmp_path: Path
) -> None:
    """Also where the page was left further down."""
    fill_pages(session, window, tmp_path)
    take(window, SIZES_PCT[-1], SCREENS[-1])
    window.desk.pages.test.click()
    settle()
    page, around = window.mounted.test, window.mounted.late_test.parentWidget()
    while around is not None and not isinstance(around, QScrollArea):
        around = around.parentWidget()
    assert around is not None
    around.verticalScrollBar().setValue(around.verticalScrollBar().maximum())
    window.pages.show_live()
    window.desk.pages.test.click()
    settle()
    for seen in (page.result.title, page.result.keep):
        middle = seen.mapTo(window, seen.rect().center())
        assert window.childAt(middle) is seen
    take(window, 100, SCREENS[-1])  # both have room side by side
    assert page.begin.mapTo(window, page.begin.rect().topRight()).x() < (
        page.result.title.mapTo(window, page.result.title.rect().topLeft()).x()
    )


LONG = "Invented words about something that nobody could say in a few of them. " * 9


def test_the_longest_messages_push_nothing_out_of_sight(window: Window) -> None:
    """Start, stop, pain, effort, caution and signal, in every size of type."""
    wrong: set[tuple[object, ...]] = set()
    desk = window.desk
    desk.effort.show()
    foot = desk.foot
    kept = (
        desk.start,
        desk.stop,
        desk.caution,
        desk.cautions,
        foot.more,
        foot.health,
        *desk.pain.buttons,
        *desk.effort.buttons,
    )
    for order in (False, True):
        window.order.box.setVisible(order)
        desk.show_order(on=order)
        for text_pct, screen in take_sizes(window):
            at = (text_pct, screen[0], order)
            desk.say("short")
            settle()
            before = [one.mapTo(window, one.rect().topLeft()) for one in kept[:2]]
            scrolls = desk.above.area.verticalScrollBar().maximum()
            desk.messages.advise(LONG, end="F5 again starts.")
            desk.messages.say(LONG + "F5 again starts.", end="F5 again starts.")
            settle()
            settle()  # the column first shows a bar, and then none
            assert [
                one.mapTo(window, one.rect().topLeft()) for one in kept[:2]
            ] == before
            for one in kept:
                middle = one.mapTo(window, one.rect().center())
                found = window.childAt(middle)
                if found is not one and not (found and one.isAncestorOf(found)):
                    wrong.add((*at, one.accessibleName() or one.text(), "not seen"))  # type: ignore[attr-defined]  # all have words
            if desk.above.area.verticalScrollBar().maximum() > scrolls:
                wrong.add((*at, "the column", "scrolls by a message"))
            message = desk.messages.message
            if not message.drawn.endswith("F5 again starts."):
                wrong.add((*at, message.drawn, "its offer is gone"))
            if message.shortened and f"… ({desk.messages.key})" not in message.drawn:
                wrong.add((*at, message.drawn, "is cut unseen"))
            wrong |= {(*at, *found) for found in cut_texts(window)}
    assert not wrong, "\n".join(map(str, sorted(wrong, key=str)))


def test_save_and_back_of_the_plan_stay_in_sight(window: Window) -> None:
    wrong: set[tuple[object, ...]] = set()
    window.desk.pages.plan.click()
    settle()
    page = window.mounted.plan
    assert page is not None
    for text_pct, screen in take_sizes(window):
        for button in (page.live, page.save, page.undo, page.revert):
            middle = button.mapTo(window, button.rect().center())
            if window.childAt(middle) is not button:
                wrong.add((text_pct, screen, button.text()))
    assert not wrong, "\n".join(map(str, sorted(wrong, key=str)))


def test_the_review_never_moves_sideways(window: Window) -> None:
    """Neither the page nor, with rows as wide as they come, a table of it."""
    window.pages.press(window.desk.pages.review)
    settle()
    page = window.mounted.review
    whole: QWidget | None = page
    while whole is not None and not isinstance(whole, QScrollArea):
        whole = whole.parentWidget()
    assert whole is not None
    row = (
        *("INVENTED-12", "2026-03-01 09:05 UTC", "Slow kneeling lowering, invented"),
        *("training, unseen", "12", "complete", "10", "1234.5", "1234.5", "123.45"),
        "12.34",
    )
    wrong = []
    for text_pct, screen in take_sizes(window):
        page.reps.set_rows([row] * 3)
        page.measures.set_rows(
            [("rate of force development", "1234.56", "% of 240 N", "not filtered")]
        )
        settle()
        bars = (
            ("the page", whole),
            ("the reps", page.table),
            ("the measures", page.measure_table),
        )
        wrong += [
            (text_pct, screen, name, area.horizontalScrollBar().maximum())
            for name, area in bars
            if area.horizontalScrollBar().maximum() > 0
        ]
        hidden = [at for at in range(11) if page.table.isColumnHidden(at)]
        assert set(hidden) <= {7, 8, 9, 10}
        assert not hidden or text_pct > 100, "all of them have room in usual type"
        for button in page.bar.findChildren(QPushButton):
            assert button.width() >= button.minimumSizeHint().width()
            assert page.bar.rect().contains(button.geometry())
    assert not wrong, "\n".join(map(str, wrong))
