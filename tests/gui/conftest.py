"""One look for all window tests, whatever the system would choose.

The pages that are loaded by an errand are loaded before: here they open at once.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from gui.demo_window import speaking
from PySide6.QtCore import QCoreApplication, QEvent, QTimer
from PySide6.QtWidgets import QDialog, QMessageBox

from biofeedback.gui import filter_page, review  # noqa: F401  see above
from biofeedback.gui.theme import font
from biofeedback.session.preferences import Language

if TYPE_CHECKING:
    from collections.abc import Iterator

    from PySide6.QtWidgets import QApplication

BOX_MS = 10_000


@pytest.fixture(autouse=True, scope="session")
def same_look(qapp: QApplication) -> None:
    # Once: each new style is applied to all widgets that are left in memory.
    qapp.setStyle("Fusion")
    qapp.setFont(font(13))


@pytest.fixture(autouse=True)
def nothing_waits_for_deletion() -> None:
    """What a test before has closed is gone before the next one begins.

    Qt deletes a widget later only from within an event loop, and between tests none
    runs. While such deletions wait in its queue, Qt may leave events that are posted
    after them undelivered until something new is posted: seen as a layout that was
    asked to follow a long message and did not.
    """
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture(autouse=True)
def no_box_waits(qapp: QApplication) -> Iterator[None]:
    """A box that nobody answers fails its test, and is left after some seconds.

    It waits in a loop of Qt's own, where the alarm of a time limit is raised within a
    slot, and is lost there.
    """
    left: list[str] = []
    seen: list[object] = [None]

    def look() -> None:
        box = qapp.activeModalWidget()
        if isinstance(box, QDialog) and box is seen[0]:
            words = box.text() if isinstance(box, QMessageBox) else box.windowTitle()
            left.append(words)
            box.reject()
        seen[0] = box

    timer = QTimer()
    timer.timeout.connect(look)
    timer.start(BOX_MS)
    yield
    timer.stop()
    if left:
        pytest.fail(f"boxes waited for an answer: {left}", pytrace=False)


@pytest.fixture
def spanish(qapp: QApplication) -> Iterator[None]:
    """The interface in the Spanish of Spain, for one test."""
    with speaking(qapp, Language.SPANISH):
        yield
