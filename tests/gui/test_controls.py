"""Every page of the real window, without a mouse and without eyes.

A screen reader asks Qt's accessibility for the role and the name of what has the focus.
So each control has a name, no two of a page share role and name, and Tab leads to all
that are enabled, and out of each.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import pytest
from gui.demo_window import opened_demo
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QPushButton, QScrollBar, QWidget

from biofeedback.gui.enum_box import choose
from biofeedback.session import demo
from biofeedback.training.planned import SideOrder

if TYPE_CHECKING:
    from collections.abc import Iterator

    from biofeedback.gui.window import Window

TABS_MOST = 400
WITH_PLAN, NO_PLAN = demo.ATHLETE_CODE, "DEMO-7"
PAGES = ("Athletes", "Today", "Test", "Plan", "Tasks", "Visit", "Review", "Reliability",
         "Data", "Calibrate",
         "Check", "Filter", "Care", "Keys", "Set up")  # fmt: skip


@pytest.fixture(scope="module")
def window(
    qapp: QApplication, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Window]:
    """On the logbook of the demo, which has something on every page."""
    folder = tmp_path_factory.mktemp("controls")
    with opened_demo(folder, step_us=50_000) as (session, made):
        made.resize(1280, 720)
        made.show()
        made.activateWindow()
        for _ in range(20):
            session.step()
            made.frame()
        yield made
    made.deleteLater()
    qapp.processEvents()


@pytest.fixture(params=["Live", "Order", *PAGES])
def page(window: Window, request: pytest.FixtureRequest) -> Iterator[QWidget]:
    """Each page, as its button shows it; the live one also with the running order."""
    window.pages.show_live()
    window.visit.change_athlete(NO_PLAN if request.param == "Today" else WITH_PLAN)
    window.order.box.setVisible(request.param == "Order")
    if request.param in PAGES:
        (button,) = [
            button
            for button in window.findChildren(QPushButton)
            if button in window.pages.buttons and button.text() == request.param
        ]
        window.pages.press(button)
    if request.param == "Today":  # its sets are shown once pain was answered
        today = window.mounted.today
        today.now.buttons[1].click()
        choose(today.free.order, SideOrder.LEFT_FIRST)
        today.free.order.activated.emit(today.free.order.currentIndex())
        assert len(today.cards) == 2
    QCoreApplication.processEvents()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    shown = window.pages.shown
    assert shown is not None
    yield shown
    window.order.box.hide()


def controls(page: QWidget) -> list[QWidget]:
    """All that takes the focus by Tab, also where it is disabled now."""
    return [
        widget
        for widget in page.findChildren(QWidget)
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        and widget.isVisible()
        and widget.window() is page.window()  # no list of a box that is shut
        and widget.focusProxy() is None  # the line inside a box is named by the box
        and not isinstance(widget, QScrollBar)
    ]


def role_and_name(widget: QWidget) -> tuple[str, str]:
    """As a screen reader is told them.

    On Linux Qt tells the choice in the place of a box's name; the name comes with the
    label beside it, or as the description.
    """
    told = QAccessible.queryAccessibleInterface(widget)
    name = told.text(QAccessible.Text.Name)
    if isinstance(widget, QComboBox):
        labels = [
            other.text(QAccessible.Text.Name)
            for other, relation in told.relations()
            if relation & QAccessible.RelationFlag.Label
        ]
        name = told.text(QAccessible.Text.Description) or " ".join(labels)
    return told.role().name, name


def test_each_control_has_a_name(page: QWidget) -> None:
    found = controls(page)
    assert len(found) > 1
    nameless = [
        (type(widget).__name__, widget.objectName(), type(widget.parent()).__name__)
        for widget in found
        if not any(letter.isalnum() for letter in role_and_name(widget)[1])
    ]
    assert nameless == []


def test_no_two_controls_have_the_same_name(page: QWidget) -> None:
    named = Counter(role_and_name(widget) for widget in controls(page))
    assert [told for told, times in named.items() if times > 1] == []


def test_tab_leads_to_each_control_and_on(page: QWidget) -> None:
    window = page.window()
    window.activateWindow()
    QTest.qWaitForWindowActive(window)
    wanted = {widget for widget in controls(page) if widget.isEnabled()}
    start = QApplication.focusWidget()
    if start is None or start not in wanted:
        start = next(widget for widget in controls(page) if widget.isEnabled())
        start.setFocus()
    seen, at = {start}, start
    for _ in range(TABS_MOST):
        QTest.keyClick(at, Qt.Key.Key_Tab)
        after = QApplication.focusWidget()
        assert after is not None
        assert after is not at, f"no way out of {role_and_name(at)}"
        at = after
        if at is start:
            break
        seen.add(at)
    assert at is start, "Tab does not come round"
    missed = [role_and_name(widget) for widget in wanted - seen]
    assert missed == []
