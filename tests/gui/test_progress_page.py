"""The page of progress, on an invented logbook of months, in the real window."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QCoreApplication, QPointF, Qt
from PySide6.QtTest import QTest
from report import invented

from biofeedback.gui.progress_page import ProgressPage
from biofeedback.gui.style import style_sheet
from biofeedback.gui.theme import DAY, NIGHT
from biofeedback.logbook.database import Logbook
from biofeedback.session.reports import Reports

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot


@pytest.fixture
def logbook(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        invented.fill(opened)
        yield opened


@pytest.fixture
def progress(logbook: Logbook) -> Reports:
    return Reports(logbook, clock=lambda: invented.NOW)


@pytest.fixture
def page(qtbot: QtBot, progress: Reports) -> ProgressPage:
    made = ProgressPage(progress)
    qtbot.addWidget(made)
    made.setStyleSheet(style_sheet(DAY, size=1.0))
    made.resize(1280, 720)
    made.show()
    made.period.box.setCurrentIndex(2)
    made.enter(invented.CODE)
    return made


def entries(page: ProgressPage) -> list[str]:
    box = page.subjects
    return [box.item(row).text() for row in range(box.count())]


def choose(page: ProgressPage, text: str) -> str:
    """Chooses a subject as a person does, and gives what a screen reader hears."""
    page.subjects.setCurrentRow(entries(page).index(text))
    return page.charts.accessibleDescription()


def test_each_kind_of_work_is_a_subject_of_its_own(page: ProgressPage) -> None:
    assert entries(page) == [
        "Test: Seated knee extension",
        "Test: Seated calf",
        "Seated knee extension, left, force seen",
        "Weeks and pain",
    ]
    assert page.heading.text() == "Progress of INV-1"


def test_charts_say_their_numbers_and_their_noise_in_words(page: ProgressPage) -> None:
    told = choose(page, "Test: Seated knee extension")
    newest = invented.left_n(9)
    assert f"left: {newest:.0f} N on " in told
    assert "415 N before the injury" in told
    assert "are noise (athlete's own typical error" in told
    assert "100 (max − min)/max" in told
    # Of the invented reps neither mean nor CV was kept, so nothing is told of them.
    told = choose(page, "Seated knee extension, left, force seen")
    assert "Unsteadiness" in told
    assert "Nothing to show yet." in told
    assert "Dose of each week (%·s). left: 16200 %·s on " in told
    assert page.words.text().startswith("Seated knee extension, left, force seen.")
    assert "Critical force: cannot be told." in page.words.text()
    assert "there are 0" in page.words.text()


def test_a_shorter_period_has_fewer_visits_and_none_is_no_zero(
    page: ProgressPage, progress: Reports
) -> None:
    """Visits are every four days from 2 March on; 40 of them end on 5 August."""
    whole = progress.of(invented.CODE).training[0].points
    assert len(whole) == 40
    assert whole[0].day == date(2026, 3, 2)
    page.period.box.setCurrentIndex(0)
    since = date(2026, 6, 14)  # 92 days before 14 September
    shown = progress.of(invented.CODE, since=since).training[0].points
    assert len(shown) == sum(point.day >= since for point in whole)
    assert 0 < len(shown) < 20
    told = choose(page, "Seated knee extension, left, force seen")
    weeks = {one.day - timedelta(days=one.day.weekday()) for one in shown}
    assert f"{len(weeks)} values" in told
    assert "A week without a visit is no zero" in told


def test_a_nudge_is_counted_in_its_visit(progress: Reports) -> None:
    points = progress.of(invented.CODE).training[0].points
    nudged = [index for index, point in enumerate(points) if point.nudges]
    assert nudged == [9, 19, 29, 39]


def test_a_void_rep_is_in_no_trend(logbook: Logbook, progress: Reports) -> None:
    before = progress.of(invented.CODE).training[0].points[0]
    rep = logbook.reps(limit=1000)[-1]
    logbook.void_rep(rep.id, "slipped")
    after = progress.of(invented.CODE).training[0].points[0]
    assert (before.reps, after.reps) == (5, 4)
    assert after.dose_pct_s == pytest.approx(4 * invented.DOSE_PCT_S)


def test_a_point_is_told_to_mouse_and_keys(page: ProgressPage) -> None:
    choose(page, "Test: Seated knee extension")
    sheet = page.charts
    layout = sheet._layouts[0]
    series = layout.chart.series[0]
    first = series.points[0]
    place = QPointF(layout.x(first.day), layout.y(first.value))
    words = f"left: {first.value:.0f} N on {first.day}, n = 1"
    assert sheet.told_at(place) == words
    assert sheet.told_at(QPointF(1.0, 1.0)) == ""
    QTest.keyClick(sheet, Qt.Key.Key_Right)
    assert sheet.accessibleDescription() == words


def test_an_athlete_of_whom_nothing_is_kept(page: ProgressPage) -> None:
    page.enter("INV-9")
    assert page.problem.isVisible()
    assert "no athlete INV-9" in page.problem.text()
    assert entries(page) == []


@pytest.mark.parametrize("width", [1280, 1920])
def test_no_word_of_a_chart_is_left_out(page: ProgressPage, width: int) -> None:
    page.set_theme(NIGHT)
    page.set_size(width / 1280)
    page.resize(width, width * 9 // 16)
    for text in entries(page):
        choose(page, text)
        QCoreApplication.processEvents()  # the sheet takes its height
        assert page._scroll.horizontalScrollBar().maximum() == 0
        assert not any(layout.left_out for layout in page.charts._layouts)
        bottom = max(one.plot.bottom() for one in page.charts._layouts)
        assert page.charts.height() >= bottom
