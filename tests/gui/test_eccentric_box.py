"""The check on screen: numbers, all readings, lines that say what they are."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import pytest
from gui.staged_session import ASKED, StagedSession, steady_pull
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from biofeedback.gui.eccentric_box import EccentricBox
from biofeedback.gui.eccentric_settings import OWN, EccentricSettings
from biofeedback.gui.lowering_line import LoweringLine
from biofeedback.gui.lowering_words import missing_words, rep_line_words, told_words
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.lowerings import LoweringRow
from biofeedback.logbook.maxima import MaximalTestRow
from biofeedback.measures.eccentric_check import (
    COMMON_PRACTICE,
    CheckSettings,
    LineOn,
    MassLine,
    Part,
    Peaks,
    eccentric_check,
)
from biofeedback.session import demo, demo_content
from biofeedback.session.lowering import EccentricChecks, Paired, PairMissing
from biofeedback.session.office import Office
from biofeedback.session.review import DayChecks, Library
from biofeedback.training.athlete import BodyMass
from biofeedback.training.lowering import (
    LoweringRep,
    RepLine,
    Told,
    lowering_prescription,
    rep_line,
)
from biofeedback.training.reference import Definition
from biofeedback.training.task import Sides, Task, TaskKind

if TYPE_CHECKING:
    from pathlib import Path

    from pytestqt.qtbot import QtBot

TASK = Task("Slow lowering (invented)", TaskKind.LOWERING, pair="hold")
DAY = date(2026, 3, 9)
WHEN = datetime(2026, 3, 9, 12, tzinfo=UTC)
REP = LoweringRep(
    floor_n=200.0,
    tempo_s=4.0,
    peak_n=412.4,
    peak_after_s=3.04,
    above_s=4.12,
    above_ns=510.0,
    entry_after_s=0.4,
    break_after_s=4.4,
    break_force_n=390.0,
    fall_n_per_s=900.0,
    left_share_pct=47.6,
)
DROPPED = replace(
    REP, peak_after_s=0.4, above_s=0.5, break_after_s=0.4, break_force_n=395.0
)


def lowered(task: Task = TASK) -> LoweringRow:
    asked = lowering_prescription(task, floor_n=200.0).to_json()
    return LoweringRow(
        "rep", "a", "s", "set", 1, asked, WHEN, "complete", 900.0, 480.0, 420.0, {}
    )


ISOMETRIC = MaximalTestRow(
    id="test",
    athlete_id="a",
    session_id=None,
    task_id="hold",
    task="Hold (invented)",
    sides=Sides.BOTH,
    tested_utc=WHEN,
    definition=Definition.PEAK,
    force_n=950.0,
    peak_n=950.0,
    half_s_n=None,
    one_s_n=None,
    left_n=475.0,
    right_n=475.0,
    trials=3,
    differ_pct=2.0,
    practice=False,
    pain=None,
    zero_kind=None,
    setup=None,
    content={},
    stored_utc=WHEN,
    voided_utc=None,
    void_reason=None,
)


def paired(
    eccentric_n: float = 900.0,
    *,
    days_apart: int = 0,
    settings: CheckSettings | None = None,
    line: RepLine | None = None,
    practice: bool = False,
) -> Paired:
    check = eccentric_check(
        Peaks(950.0, 475.0, 475.0),
        Peaks(eccentric_n, 480.0, eccentric_n - 480.0),
        days_apart=days_apart,
        settings=settings,
        noise_n={Part.TOTAL: 92.0},
        mass=BodyMass(80.0, "2026-03-01"),
    )
    return Paired(
        lowered(),
        DAY,
        line,
        replace(ISOMETRIC, practice=practice),
        check,
        isometric_day=DAY,
    )


@pytest.fixture
def box(qtbot: QtBot) -> EccentricBox:
    made = EccentricBox()
    qtbot.addWidget(made)
    made.show()
    return made


def cells(box: EccentricBox) -> list[list[str]]:
    grid = box._grid
    rows: dict[int, list[str]] = {}
    for index in range(grid.count()):
        place = grid.getItemPosition(index)
        assert isinstance(place, tuple)
        row = int(place[0])
        item = grid.itemAt(index)
        label = item.widget() if item is not None else None
        assert isinstance(label, QLabel)
        rows.setdefault(row, []).append(label.text())
    return [rows[row] for row in sorted(rows)]


def test_numbers_and_all_three_readings_are_shown_and_none_is_marked(
    box: EccentricBox,
) -> None:
    box.show_paired([paired()], CheckSettings())
    head, total, left, right = cells(box)
    assert head[1:4] == ["Isometric", "Eccentric", "Difference"]
    assert total == [
        "total",
        "950 N, 11.9 N/kg",
        "900 N, 11.2 N/kg",
        "−50 N, −5 %,\nwithin noise of ± 92 N",
        "▽ not above",
    ]
    assert left[3:] == ["+5 N, +1 %", "▲ above"]
    assert right[3:] == ["−55 N, −12 %", "▽ not above"]
    assert box.finding.text() == (
        "The eccentric peak is not above the isometric peak: total, right."
    )
    title, *readings = box.readings.text().split("\n")
    assert "do not say which" in title
    assert readings == [
        "•  The rep was not done as meant, or the effort was small.",
        "•  Eccentric strength is lacking.",
        "•  Body mass limits the exercise; outside load may be due.",
    ]
    assert "2026-03-09" in box.what.text()
    assert "Hold (invented)" in box.what.text()
    assert "body mass 80 kg (2026-03-01)" in box.what.text()
    assert "practitioner decides" in box.advice.text()


def test_an_eccentric_peak_above_needs_no_reading(box: EccentricBox) -> None:
    box.show_paired([paired(1000.0)], CheckSettings())
    assert box.finding.text() == "The eccentric peak is above the isometric peak."
    assert box.readings.isHidden()
    assert cells(box)[1][3] == "+50 N, +5 %,\nwithin noise of ± 92 N"


def test_the_lines_say_that_they_are_common_practice(box: EccentricBox) -> None:
    box.show_paired([paired()], CheckSettings())
    title, men, women = box.lines.text().split("\n")
    assert "peaks of each side" in title
    assert "does not say" in title
    assert men == (
        f"•  530 N, men ({COMMON_PRACTICE}): left 475 N is under it, "
        "right 475 N is under it"
    )
    assert "420 N, women" in women
    assert "left 475 N reaches it" in women
    total = CheckSettings(
        lines=(MassLine("ours", 900.0, "our own"),), line_on=LineOn.TOTAL
    )
    box.show_paired([paired(settings=total)], total)
    assert "900 N, ours (our own): total 950 N reaches it" in box.lines.text()
    assert "peaks of both sides together" in box.lines.text()


def test_results_too_far_apart_are_shown_without_a_reading(box: EccentricBox) -> None:
    box.show_paired([paired(days_apart=3)], CheckSettings())
    assert box.finding.text() == (
        "The two results are 3 days apart, more than is set (0 days). Nothing is read "
        "into them."
    )
    assert box.readings.isHidden()
    assert cells(box)[1][0] == "total"


def test_what_is_missing_is_said_and_what_to_do(box: EccentricBox) -> None:
    for missing in PairMissing:
        one = Paired(lowered(), DAY, None, None, None, missing)
        box.show_paired([one], CheckSettings())
        assert box.finding.text() == missing_words(missing)
        assert box.numbers.isHidden()
        assert box.readings.isHidden()
        assert box.lines.isHidden()
    box.show_paired([], CheckSettings())
    assert box.what.text() == "No lowering rep on this day."
    assert box.finding.isHidden()


def test_a_first_test_and_a_rep_that_went_otherwise_are_told(box: EccentricBox) -> None:
    box.show_paired([paired(practice=True, line=rep_line(DROPPED))], CheckSettings())
    assert "a first test" in box.what.text()
    assert "That went down fast" in box.rep.text()
    box.show_paired([paired(line=rep_line(REP))], CheckSettings())
    assert "a first test" not in box.what.text()
    assert box.rep.isHidden()


def test_with_several_tasks_one_is_chosen_and_stays_chosen(box: EccentricBox) -> None:
    other = Task("Another (invented)", TaskKind.LOWERING, Sides.LEFT)
    both = [
        paired(),
        Paired(lowered(other), DAY, None, None, None, PairMissing.NO_PAIR),
    ]
    box.show_paired([paired()], CheckSettings())
    assert box.which.isHidden()
    box.show_paired(both, CheckSettings())
    assert not box.which.isHidden()
    assert box.which.itemText(1) == "Another (invented), left"
    box.which.setCurrentIndex(1)
    assert box.finding.text() == missing_words(PairMissing.NO_PAIR)
    box.show_paired(both, CheckSettings())
    assert box.which.currentIndex() == 1


# Settings ----------------------------------------------------------------------


def typed(field: object, text: str) -> None:
    field.line.setText(text)  # type: ignore[attr-defined]
    field.line.editingFinished.emit()  # type: ignore[attr-defined]


def test_what_is_set_is_told_and_a_moved_line_loses_its_source(qtbot: QtBot) -> None:
    box = EccentricBox()
    qtbot.addWidget(box)
    told: list[CheckSettings] = []
    box.settings_wanted.connect(told.append)
    typed(box.settings.days, "7")
    assert told[-1] == CheckSettings(within_days=7)
    typed(box.settings.lines[1], "400,5")
    assert told[-1].lines[1] == MassLine("women", 400.5, OWN)
    assert told[-1].lines[0].source == COMMON_PRACTICE
    typed(box.settings.lines[1], "420")
    assert told[-1] == CheckSettings(within_days=7)
    box.settings.line_on.setCurrentIndex(1)
    box.settings.line_on.activated.emit(1)
    assert told[-1].line_on is LineOn.TOTAL


@pytest.mark.parametrize(
    ("text", "words"),
    [("many", "number"), ("1.5", "whole"), ("-1", "0 to 60"), ("61", "0 to 60")],
)
def test_days_that_are_none_are_complained_of(
    qtbot: QtBot, text: str, words: str
) -> None:
    form = EccentricSettings()
    qtbot.addWidget(form)
    told: list[CheckSettings] = []
    form.changed.connect(told.append)
    typed(form.days, text)
    assert words in form.days.error.text()
    assert form.days.text == text
    assert told == []


def test_a_line_that_is_no_force_is_complained_of(qtbot: QtBot) -> None:
    form = EccentricSettings()
    qtbot.addWidget(form)
    told: list[CheckSettings] = []
    form.changed.connect(told.append)
    typed(form.lines[0], "0")
    assert "1 N" in form.lines[0].error.text()
    assert told == []
    form.show_settings(CheckSettings(lines=(MassLine("ours", 500.0),)))
    assert len(form.lines) == 1
    assert form.lines[0].label.text() == "Line, ours"


# The line after a rep ---------------------------------------------------------------


def test_the_line_after_a_rep_has_all_numbers(qtbot: QtBot) -> None:
    line = LoweringLine()
    qtbot.addWidget(line)
    assert line.isHidden()
    line.show_line(rep_line(REP))
    assert not line.isHidden()
    assert line.told.text() == "Above the floor all the way down."
    assert line.numbers.text() == (
        "Peak 412 N at 3.0 s, 4.1 s and 510 N·s above the floor, broke at 4.4 s, "
        "left 48\u00a0%, right 52\u00a0%"
    )
    assert "\n" not in rep_line_words(rep_line(REP))
    line.show_line(None)
    assert line.isHidden()


def test_what_is_not_known_is_left_out(qtbot: QtBot) -> None:
    line = LoweringLine()
    qtbot.addWidget(line)
    bare = replace(
        REP, peak_n=None, peak_after_s=None, break_after_s=None, left_share_pct=None
    )
    line.show_line(RepLine(Told.MISSING, bare))
    assert line.numbers.text() == "4.1 s and 510 N·s above the floor"
    assert "at least" in line.told.text()


@pytest.mark.parametrize("told", list(Told))
def test_no_word_scolds(told: Told) -> None:
    words = told_words(RepLine(told, DROPPED))
    assert "{" not in words
    assert not re.search(
        r"\b(fail|failed|bad|wrong|weak|poor|must|only|never|too|cheat)\b",
        words.lower(),
    )


def test_a_floor_for_each_side_is_said_to_be_one() -> None:
    under = replace(REP, above_s=0.0, floor_each=True)
    assert told_words(rep_line(under)) == (
        "Under the floor this time; 200 N is the floor on each side"
    )


def test_what_is_set_by_keys_in_the_real_window_is_kept(
    qtbot: QtBot, tmp_path: Path
) -> None:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        demo_content.fill(logbook, tmp_path, now=datetime.now(tz=UTC))
        session = StagedSession(steady_pull)
        session.athlete_code = demo.ATHLETE_CODE
        window = Window(
            session,
            Office(
                logbook=logbook,
                saved_reps=lambda: Library(logbook, tmp_path),
                checks=lambda: DayChecks(logbook),
            ),
            prescription=ASKED,
        )
        qtbot.addWidget(window)
        with qtbot.waitActive(window):
            window.show()
            window.activateWindow()
        for key in ("F2", "F9"):
            QTest.keySequence(window, QKeySequence(key))
        settings = window.review.eccentric.settings
        assert settings.days.line.isVisible()
        for field, text in ((settings.days, "14"), (settings.lines[0], "500")):
            field.line.setFocus()
            field.line.selectAll()
            QTest.keyClicks(field.line, text)
            QTest.keyClick(field.line, Qt.Key.Key_Return)
        settings.line_on.setFocus()
        QTest.keyClick(settings.line_on, Qt.Key.Key_Down)
        window.close()
        wanted = CheckSettings(
            14, (MassLine("men", 500.0, OWN), MassLine("women", 420.0)), LineOn.TOTAL
        )
    with Logbook.open(tmp_path / "logbook.db") as again:
        assert EccentricChecks(again).settings() == wanted
