"""The button that saves a report. All is invented."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pypdf
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QWidget
from report import invented
from report.invented import CODE, NAME, NOW

from biofeedback.gui.progress_page import ProgressPage
from biofeedback.gui.report_button import KEY, ReportButton
from biofeedback.gui.visit_page import VisitPage
from biofeedback.logbook.database import Logbook
from biofeedback.session.reports import Reports
from biofeedback.session.visit_summary import VisitSummaries

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot


@pytest.fixture
def logbook(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        invented.fill(opened, visits=12)
        yield opened


@pytest.fixture
def out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where the dialog's answer lies: the name it offered, in this folder."""
    folder = tmp_path / "out"
    folder.mkdir()

    def chosen(dialog: QFileDialog) -> int:
        (offered,) = dialog.selectedFiles()
        name = offered.rpartition("/")[2]
        dialog.setDirectory(str(folder))
        dialog.selectFile(str(folder / name))
        return 1

    monkeypatch.setattr(QFileDialog, "exec", chosen)
    return folder


@pytest.fixture
def page(qtbot: QtBot, logbook: Logbook) -> VisitPage:
    page = VisitPage(
        VisitSummaries(logbook, clock=lambda: NOW),
        reports=Reports(logbook, clock=lambda: NOW),
    )
    qtbot.addWidget(page)
    page.enter(CODE)
    return page


def text_of(path: Path) -> str:
    pages = pypdf.PdfReader(path).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def press(button: ReportButton, action: str) -> None:
    (found,) = [one for one in button.periods.actions() if one.text() == action]
    found.trigger()


def test_the_page_of_a_visit_saves_a_report_on_its_athlete(
    page: VisitPage, out: Path
) -> None:
    press(page.report, "All there is")
    (path,) = out.iterdir()
    assert path.name == f"{CODE}_report_2026-03-02_2026-09-14.pdf"
    assert f"Report on {CODE}" in text_of(path)
    assert NAME not in text_of(path)
    assert page.problem.text() == f"The report is in {path}."


def test_a_period_and_the_name_can_be_chosen(page: VisitPage, out: Path) -> None:
    press(page.report, "The name beside the code")
    press(page.report, "Last 4 weeks")
    (path,) = out.iterdir()
    assert path.name == f"{CODE}_report_2026-08-18_2026-09-14.pdf"
    told = text_of(path)
    assert f"Report on {NAME} ({CODE})" in told
    assert "No set was recorded in this period." in told


def test_a_picture_where_that_is_chosen(
    page: VisitPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def chosen(dialog: QFileDialog) -> int:
        dialog.selectNameFilter("PNG (*.png)")
        dialog.filterSelected.emit("PNG (*.png)")
        dialog.setDirectory(str(tmp_path))
        dialog.selectFile(str(tmp_path / "message"))
        return 1

    monkeypatch.setattr(QFileDialog, "exec", chosen)
    press(page.report, "All there is")
    assert (tmp_path / "message.png").read_bytes().startswith(b"\x89PNG")


def test_the_page_of_progress_saves_one_too(
    qtbot: QtBot, logbook: Logbook, out: Path
) -> None:
    page = ProgressPage(Reports(logbook, clock=lambda: NOW))
    qtbot.addWidget(page)
    page.enter(CODE)
    press(page.report, "All there is")
    assert [path.name for path in out.iterdir()] == [
        f"{CODE}_report_2026-03-02_2026-09-14.pdf"
    ]
    assert "The report is in" in page.problem.text()


def test_its_key_opens_the_choice_of_periods(
    page: VisitPage, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[bool] = []
    monkeypatch.setattr(page.report, "showMenu", lambda: opened.append(True))
    with qtbot.waitActive(page):
        page.show()
        page.activateWindow()
    QTest.keyClick(page, Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    assert opened == [True]


def test_a_dialog_that_is_left_writes_nothing(
    page: VisitPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = sorted(tmp_path.iterdir())
    monkeypatch.setattr(QFileDialog, "exec", lambda _: 0)
    press(page.report, "All there is")
    assert sorted(tmp_path.iterdir()) == before
    assert page.problem.text() == ""


def test_what_cannot_be_written_is_said(
    page: VisitPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "taken.pdf"
    folder.mkdir()

    def chosen(dialog: QFileDialog) -> int:
        monkeypatch.setattr(dialog, "selectedFiles", lambda: [str(folder)])
        return 1

    monkeypatch.setattr(QFileDialog, "exec", chosen)
    press(page.report, "All there is")
    assert "cannot be written" in page.problem.text()


def test_nobody_and_no_logbook(qtbot: QtBot, logbook: Logbook) -> None:
    host = QWidget()
    qtbot.addWidget(host)
    said: list[str] = []
    button = ReportButton(Reports(logbook), lambda: "", host)
    button.said.connect(said.append)
    press(button, "All there is")
    assert said == ["There is nobody to report on yet."]
    assert not button.isHidden()
    assert ReportButton(None, lambda: CODE, host).isHidden()
    assert KEY in button.toolTip()
