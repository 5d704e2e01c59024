"""Stop rules and cautions can be read in the program, word by word."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtWidgets import QLabel

from biofeedback.gui.cautions_page import CautionsPage
from biofeedback.gui.style import style_sheet
from biofeedback.gui.theme import DAY
from biofeedback.training.cautions import CAUTIONS, LEAD, as_text
from biofeedback.training.feedback import PAIN_CUT

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot


def test_every_line_stands_on_the_page_and_in_the_text(qtbot: QtBot) -> None:
    page = CautionsPage()
    qtbot.addWidget(page)
    shown = {label.text().removeprefix("•  ") for label in page.findChildren(QLabel)}
    text = as_text()
    for part in CAUTIONS:
        assert {part.title, *part.lines} <= shown
        assert all(f"- {line}" in text for line in part.lines)
    assert LEAD in shown
    assert text.startswith(LEAD)
    assert text.count("no source that was read") == sum(
        part.from_memory for part in CAUTIONS
    )


def test_it_defers_and_names_the_cut() -> None:
    assert "treating clinician" in LEAD
    assert "local rules" in LEAD
    assert f"({PAIN_CUT} of 10 unless you set another)" in as_text()


@pytest.mark.parametrize(
    ("width", "height", "size"), [(1280, 720, 1.0), (1920, 1080, 1.5)]
)
def test_nothing_is_cut(qtbot: QtBot, width: int, height: int, size: float) -> None:
    page = CautionsPage()
    qtbot.addWidget(page)
    page.setStyleSheet(style_sheet(DAY, size=size))
    page.set_size(size)
    page.resize(width, height)
    page.show()
    page.enter()
    assert page.body.horizontalScrollBar().maximum() == 0
    assert page.body.verticalScrollBar().maximum() == 0
    with qtbot.waitSignal(page.live_wanted):
        page.live.click()
