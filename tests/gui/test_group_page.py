"""The page of a group: pairs from a real logbook and from a table."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from session.test_lowering import Book

from biofeedback.cli import main
from biofeedback.gui.group_page import GroupPage
from biofeedback.gui.style import style_sheet
from biofeedback.gui.theme import DAY
from biofeedback.logbook.database import Logbook
from biofeedback.measures.eccentric_check import CheckSettings, Part
from biofeedback.session.group_pairs import GroupPairs

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

NOON = datetime(2026, 3, 4, 12, tzinfo=UTC)
LEVELS_N = (300.0, 350.0, 400.0, 450.0, 500.0)
ECCENTRIC_N = (330.0, 360.0, 420.0, 430.0, 490.0)


@pytest.fixture
def logbook(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        book = Book(opened)
        for number, (isometric_n, eccentric_n) in enumerate(
            zip(LEVELS_N, ECCENTRIC_N, strict=True)
        ):
            if number:
                book.athlete_id = opened.add_athlete(f"INV-6{number}", "Secret Name")
            book.tested(isometric_n, NOON)
            book.lowered(eccentric_n - 40, NOON)  # not the best of its day
            book.lowered(eccentric_n, NOON + timedelta(minutes=5))
        # One more day, three days after its test: no pair unless days are allowed.
        book.lowered(510.0, NOON + timedelta(days=3))
        yield opened


@pytest.fixture
def group(logbook: Logbook) -> GroupPairs:
    return GroupPairs(logbook, clock=lambda: NOON + timedelta(days=4))


def shown_page(qtbot: QtBot, group: GroupPairs | None) -> GroupPage:
    page = GroupPage(group)
    qtbot.addWidget(page)
    page.setStyleSheet(style_sheet(DAY, size=1.0))
    page.resize(1280, 720)
    page.show()
    page.enter()
    return page


@pytest.fixture
def page(qtbot: QtBot, group: GroupPairs) -> GroupPage:
    return shown_page(qtbot, group)


def spoken(page: GroupPage) -> str:
    return page.charts.accessibleDescription()


def test_each_days_best_is_paired_with_the_test_near_it(group: GroupPairs) -> None:
    (task,) = group.tasks()
    found = group.forces(task, Part.TOTAL)
    pairs = sorted(found.results_n.values())
    expected = zip(LEVELS_N, ECCENTRIC_N, strict=True)
    assert pairs == [([isometric], [eccentric]) for isometric, eccentric in expected]
    assert found.too_far == 1
    group.set(CheckSettings(within_days=3))
    again = group.forces(task, Part.TOTAL)
    assert again.too_far == 0
    assert max(again.results_n.values()) == ([500.0, 500.0], [510.0, 490.0])
    left = group.forces(task, Part.LEFT).results_n
    assert min(left.values()) == ([150.0], [165.0])


def test_figures_are_those_of_a_line_worked_out_elsewhere(page: GroupPage) -> None:
    x = np.array(LEVELS_N)
    d = np.array(ECCENTRIC_N) - x
    slope, intercept = np.polyfit(x, d, 1)
    told = spoken(page)
    assert f"{slope:.2f} N per N" in told
    assert f"crosses zero at {-intercept / slope:.0f} N" in told
    r = np.corrcoef(x, ECCENTRIC_N)[0, 1]
    assert f"r = {r:.2f}" in told
    assert "95 %, Fisher" in told
    assert "Secret" not in told + page.words.text()


def test_repeated_days_are_flagged(page: GroupPage, group: GroupPairs) -> None:
    assert "averaged" not in page.words.text()
    assert "Left out: 1 day" in page.words.text()
    page.settings.days.set_text("3")
    page.settings.days.committed.emit()
    assert group.settings().within_days == 3
    assert "1 of 5" in page.words.text()
    assert "Left out" not in page.words.text()
    page.charts.setFocus()
    heard = set()
    for _ in range(10):
        QTest.keyClick(page.charts, Qt.Key.Key_Right)
        heard.add(spoken(page))
    assert sum("average of several rows" in words for words in heard) == 2


def test_lines_stand_only_where_they_are_for_that_force(page: GroupPage) -> None:
    assert not page._charts()[0].uprights  # both sides together
    page.part.box.setCurrentIndex(1)
    page.part.box.activated.emit(1)
    lines = page._charts()[0].uprights
    assert [line.value for line in lines] == [530.0, 420.0]
    assert all("no published source" in line.words for line in lines)


def test_a_table_a_picture_and_the_figures_of_the_command(
    qtbot: QtBot,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    page = shown_page(qtbot, None)
    assert "No paired tasks" in page.problem.text()
    assert not page.save_picture.isEnabled()
    table = tmp_path / "pairs.csv"
    rows = zip("abcde", LEVELS_N, ECCENTRIC_N, strict=True)
    lines = [f"{code},{isometric},{eccentric}" for code, isometric, eccentric in rows]
    table.write_text("\n".join(["athlete,iso,ecc", *lines, "a,310,320"]) + "\n")
    asked: list[Path] = [table, tmp_path / "group.png", tmp_path / "group.json"]
    monkeypatch.setattr(
        "biofeedback.gui.group_page.PLACE.ask", lambda _dialog: asked.pop(0)
    )
    for button in (page.open_table, page.save_picture, page.save_figures):
        assert button.isEnabled()
        QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    assert "1 of 5" in page.words.text()
    assert QImage(str(tmp_path / "group.png")).width() > 1000
    picture = tmp_path / "command.png"
    assert main(["compare", str(table), "--json", "--plot", str(picture)]) == 0
    told = json.loads(capsys.readouterr().out)
    kept = json.loads((tmp_path / "group.json").read_text())
    assert kept == told
    assert QImage(str(picture)).width() > 1000


def test_no_interval_is_drawn_where_it_has_no_ends(
    qtbot: QtBot, tmp_path: Path
) -> None:
    table = tmp_path / "pairs.csv"
    table.write_text("athlete,iso,ecc\na,300,340\nb,350,300\nc,400,450\nd,450,430\n")
    page = shown_page(qtbot, None)
    page.open(table)
    assert "no finite interval" in spoken(page)
    assert page._charts()[1].span is None


def test_a_table_that_is_none_is_told(qtbot: QtBot, tmp_path: Path) -> None:
    table = tmp_path / "pairs.csv"
    table.write_text("athlete,iso,ecc\na,300,-5\n")
    page = shown_page(qtbot, None)
    page.open(table)
    assert "line 2, column 3" in page.problem.text()
    assert not page.save_figures.isEnabled()
