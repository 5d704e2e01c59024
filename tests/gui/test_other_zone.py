"""Far from Greenwich, where it is another day now: no page tells a day of UTC.

The zone is chosen by the hour, so that the day there is not that of UTC. Athletes,
tasks and forces are those of the demo.
"""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest
from gui.demo_window import opened_demo
from gui.hands import bring_up
from gui.stepped import STEP_US, Stepped
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QLabel,
    QLineEdit,
    QListWidget,
    QTableView,
    QWidget,
)

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot


pytestmark = pytest.mark.slow


def texts(page: QWidget) -> Iterator[str]:
    for one in page.findChildren(QWidget):
        if isinstance(one, QLabel | QAbstractButton | QLineEdit):
            yield one.text()
        elif isinstance(one, QComboBox):
            yield from (one.itemText(at) for at in range(one.count()))
        elif isinstance(one, QListWidget):
            yield from (one.item(at).text() for at in range(one.count()))
        elif isinstance(one, QTableView) and one.model() is not None:
            model = one.model()
            cells = (
                model.index(row, column).data()
                for row in range(model.rowCount())
                for column in range(model.columnCount())
            )
            yield from map(str, cells)
        yield from (one.toolTip(), one.accessibleName(), one.accessibleDescription())


class Far(Stepped):
    """The window of the demo, stepped."""

    def train_and_test(self) -> None:
        """A zero, a set with pain and a nudge, and a test that is kept."""
        desk, page = self.window.desk, self.window.mounted.test
        desk.health.zero_empty.click()
        self.run(1.5)
        self.session.begin_set(self.window.visit.asked)
        self.until(lambda: desk.in_set)
        self.run(2.0)
        desk.pain.buttons[2].click()
        desk.form.band.up.click()
        self.run()
        desk.stop.click()
        self.until(lambda: not desk.in_set)
        desk.pages.test.click()
        page.setup.choose(self.window.visit.asked.task)
        page.begin.click()
        self.until(lambda: page.test is not None and page.test.result is not None)
        page.box.pain[1].click()
        desk.stop.click()
        self.until(lambda: not desk.in_set)
        desk.pages.test.click()

        def kept() -> bool:
            page.control.keep()  # as soon as the thread that writes has its rows there
            return page.kept_task is not None

        self.until(kept)
        desk.pages.test.click()


def test_no_page_tells_a_day_of_utc(qtbot: QtBot, tmp_path: Path, utc_day: str) -> None:
    with opened_demo(tmp_path, step_us=STEP_US) as (session, window):
        bring_up(qtbot, window)
        far = Far(session, window)
        far.run(1.0)
        far.train_and_test()
        here, wrong = datetime.now(tz=UTC).astimezone().date().isoformat(), set[str]()
        told_here = 0
        for button in window.pages.buttons:
            window.pages.press(button)
            far.run(0.2)
            found = set(texts(window))
            told_here += any(here in text for text in found)
            wrong |= {text for text in found if utc_day in text or " UTC" in text}
            window.pages.press(button)
        assert told_here > 5, "today is told on many of them"
        assert not wrong
