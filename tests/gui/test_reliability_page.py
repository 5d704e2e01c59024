"""The page of reliability in the real window, on real logbooks and published tables.

Tables: Weir, J Strength Cond Res 19 (2005) 231-240, and Shrout and Fleiss, Psychol
Bull 86 (1979) 420-428. The club's figures are worked out here a second time.
"""

from __future__ import annotations

import json
import math
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import numpy as np
import pytest
from measures.published import VECTORS
from PySide6.QtGui import QImage

from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.session import Session, demo
from biofeedback.session.office import Office
from biofeedback.session.reliability import visits_taken
from biofeedback.training.athlete import AthleteDetails
from biofeedback.training.reference import Definition
from biofeedback.training.task import Joint, Setup, Sides, Task

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from biofeedback.gui.reliability_page import ReliabilityPage

KEY = "01900000-0000-7000-8000-00000000000a"
AT_60 = Setup(Joint.KNEE, "extension", 60.0, "pad on the shin", 0.34, "sitting")
KNEE = Task("Seated knee", sides=Sides.LEFT, setup=AT_60, key=KEY)
AT_90 = replace(KNEE, setup=replace(AT_60, angle_deg=90.0))
FIRST = datetime(2026, 3, 2, 10, tzinfo=UTC)
CLUB = {
    "INV-1": (300.0, 312.0, 305.0),
    "INV-2": (410.0, 402.0),
    "INV-3": (250.0, 262.0),
    "INV-4": (350.0, 361.0),
    "INV-5": (280.0,),
}


def fill(logbook: Logbook) -> None:
    """Visits a week apart; somebody's very first test, and a voided one, beside."""
    for code, forces in CLUB.items():
        athlete = logbook.people.add(AthleteDetails(code, ""))
        tests = [
            NewMaximalTest(
                athlete, KNEE, FIRST + timedelta(days=7 * week),
                Definition.BEST_1_S_MEAN, force_n, 3, practice=week == -1,
            )
            for week, force_n in enumerate((99.0, *forces), start=-1)
            if week >= 0 or code == "INV-1"
        ]  # fmt: skip
        for new in tests:
            logbook.maxima.add(new)
        if code == "INV-3":  # once more that day, and once in another position
            for task, hours in ((KNEE, 1), (AT_90, 30)):
                logbook.maxima.add(NewMaximalTest(
                    athlete, task, FIRST + timedelta(hours=hours),
                    Definition.BEST_1_S_MEAN, 240.0, 3,
                ))  # fmt: skip
        if code == "INV-2":
            wrong = logbook.maxima.add(NewMaximalTest(
                athlete, KNEE, FIRST + timedelta(days=70), Definition.BEST_1_S_MEAN,
                999.0, 3,
            ))  # fmt: skip
            logbook.maxima.void(wrong, "slipped")


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path) -> Iterator[Window]:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        fill(logbook)
        session = Session(
            demo.source(seed=5, step_us=50_000),
            logbook=logbook,
            recordings=tmp_path,
            athlete_code="INV-1",
        )
        made = Window(
            session,
            Office.of(logbook, tmp_path, session),
            prescription=demo.PRESCRIPTION,
        )
        qtbot.addWidget(made)
        made.resize(1280, 720)
        made.show()
        made.pages.press(made.desk.pages.reliability)
        yield made
        made.close()


@pytest.fixture
def page(window: Window) -> ReliabilityPage:
    found = window.mounted.reliability
    assert window.pages.shown is found
    return found


def test_the_club_is_told_beside_what_the_program_uses(page: ReliabilityPage) -> None:
    told = page.words.text()
    pairs = np.array([one[:2] for one in CLUB.values() if len(one) > 1])
    apart = pairs[:, 1] - pairs[:, 0]
    sem = np.std(apart, ddof=1) / math.sqrt(2)
    assert f"Typical error (SEM): {sem:.2f} N, " in told
    groups = [np.array(one) for one in CLUB.values() if len(one) > 1]
    df = sum(len(one) - 1 for one in groups)
    used = math.sqrt(sum(((one - one.mean()) ** 2).sum() for one in groups) / df)
    assert f"now: typical error {used:.1f} N" in told
    assert f"smallest change {1.96 * math.sqrt(2) * used:.1f} N" in told
    assert "from 9 tests of 4 people" in told
    chart = page.chart.accessibleDescription()
    assert f"bias {apart.mean():.2f} N" in chart
    assert "4 points over mean of visit 1 and visit 2 (N)" in chart


def test_what_was_left_out_is_said_with_its_reason(page: ReliabilityPage) -> None:
    told = page.words.text()
    assert "One visit only, left out: INV-5." in told
    assert "1 test is left out: the first ever of somebody, which is practice." in told
    assert "1 test is left out: voided." in told
    assert "1 test is left out: done in another position" in told
    assert "4 people, 2 trials; 4 people have all scores." in told
    assert "1 result of a later visit is left out" in told
    assert "lie 7 to 7 days, in the middle 7" in told


def test_weir_2005_by_the_page(page: ReliabilityPage) -> None:
    page.take_file(VECTORS / "weir_2005_a.csv")
    told = page.words.text()
    assert "Typical error (SEM): 7.56 N, 95 % interval 5.00 to 15.38 N" in told
    assert "20.9 N (MDC, 95 %); 17.6 N (90 %)" in told
    assert "ICC(3,1) 0.947, 0.761 to 0.989" in told
    assert "The program uses" not in told  # these are no tests of the club
    layout = page.chart._layouts[0]
    assert layout.left_out == ()
    assert len(layout.chart.scatter.points) == 8  # type: ignore[union-attr]
    assert layout.chart.scatter.points[0] == (143.0, -6.0)  # type: ignore[union-attr]
    places = [layout.x_across(mean) for mean in (94.5, 153.0, 211.5)]
    assert layout.plot.left() < places[0] < places[2] < layout.plot.right()
    assert places[1] - places[0] == pytest.approx(places[2] - places[1])


def test_four_trials_have_a_choice_of_differences(page: ReliabilityPage) -> None:
    page.take_file(VECTORS / "shrout_fleiss_1979.csv")
    assert page.pair.box.count() == 4  # neighbours, and the last less the first
    before = page.chart.accessibleDescription()
    page.pair.box.setCurrentIndex(3)
    assert page.chart.accessibleDescription() != before


def test_picture_and_figures_are_saved(
    page: ReliabilityPage, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page.take_file(VECTORS / "weir_2005_a.csv")
    places = iter([tmp_path / "plot.png", tmp_path / "figures.json"])
    monkeypatch.setattr(
        "biofeedback.gui.file_place.FilePlace.ask", lambda *_: next(places)
    )
    page.save_picture.click()
    page.save_figures.click()
    assert QImage(str(tmp_path / "plot.png")).width() == 1280
    figures = json.loads((tmp_path / "figures.json").read_text())
    assert figures["error"]["sem"] == pytest.approx(7.556927, abs=6e-7)
    assert "figures.json" in page.problem.text()


def test_a_table_that_cannot_be_read_is_said(
    page: ReliabilityPage, tmp_path: Path
) -> None:
    path = tmp_path / "wrong.csv"
    path.write_text("code,t1,t2\nA,1,x\nB,2,3\n")
    page.take_file(path)
    assert "line 2" in page.problem.text()
    assert not page.save_figures.isEnabled()


@pytest.mark.parametrize(
    ("visits", "taken"),
    [
        ([], 0),
        ([1, 1], 0),
        ([2, 1], 0),
        ([2, 2], 2),
        ([3, 2, 2], 2),
        ([3, 3, 2], 2),
        ([3, 3, 3, 2], 3),
    ],
)
def test_as_many_visits_as_give_most_scores(visits: list[int], taken: int) -> None:
    assert visits_taken(visits) == taken
