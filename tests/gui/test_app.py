"""The same window off screen, with the real session behind it."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QSize, QTimer
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QApplication

from biofeedback.errors import FileError
from biofeedback.gui.app import Opening, has_room, run, snapshot
from biofeedback.gui.theme import NIGHT
from biofeedback.gui.window import Window
from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.session import Session, demo, demo_content
from biofeedback.session.office import Office

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

pytestmark = pytest.mark.usefixtures("qtbot")

OPENING = Opening(
    prescription=replace(demo.PRESCRIPTION, hold_s=2.0),
    theme=NIGHT,
    size=(1000, 640),
)


@pytest.fixture
def logbook(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def session(tmp_path: Path, logbook: Logbook) -> Session:
    return started(logbook, tmp_path)


def started(logbook: Logbook, tmp_path: Path) -> Session:
    made = Session(
        demo.source(rate_hz=320.0),
        logbook=logbook,
        recordings=tmp_path / "recordings",
        athlete_code=demo.ATHLETE_CODE,
    )
    made.start()
    return made


def test_a_snapshot_is_a_picture_of_a_set(session: Session, tmp_path: Path) -> None:
    path = tmp_path / "window.png"
    assert snapshot(session, None, OPENING, path=path, seconds=1.0), "force was drawn"
    picture = QImage(str(path))
    assert (picture.width(), picture.height()) == OPENING.size
    colours = {picture.pixel(x, y) for x in range(0, 640, 5) for y in range(0, 600, 5)}
    assert NIGHT.colour("paper").rgb() in colours
    assert NIGHT.colour("ink").rgb() in colours
    assert len(list((tmp_path / "recordings").iterdir())) == 1, "a set was recorded"


def test_on_a_simulated_rig_the_whole_desk_is_seen_too(
    session: Session, logbook: Logbook, tmp_path: Path, qtbot: QtBot
) -> None:
    """Where a line more says that the newtons are made up, and a name stands there."""
    session.athlete_name = "Invented athlete"
    office = Office.of(logbook, tmp_path / "recordings", session)
    window = Window(session, office, prescription=demo.PRESCRIPTION)
    window.show()
    window.frames.start()
    desk = window.desk
    qtbot.waitUntil(desk.health.simulated.isVisible, timeout=10_000)
    qtbot.waitUntil(lambda: window.height() == 720 and desk.foot.isVisible())
    qtbot.waitUntil(lambda: window._frames > 30)  # all is laid out by then
    below = desk.note.mapTo(desk, desk.note.rect().bottomLeft()).y()
    hidden = desk.above.area.verticalScrollBar().maximum()
    window.close_at_once()
    assert hidden == 0
    assert below < desk.foot.y()


def test_a_snapshot_that_cannot_be_written_is_told(
    session: Session, tmp_path: Path
) -> None:
    path = tmp_path / "no such folder" / "window.png"
    with pytest.raises(FileError, match=r"window\.png"):
        snapshot(session, None, OPENING, path=path, seconds=0.1)


def test_the_window_runs_until_it_is_closed(
    session: Session, logbook: Logbook, tmp_path: Path
) -> None:
    office = Office.of(logbook, tmp_path / "recordings", session)

    drawn: list[bool] = []

    def close(more: int = 200) -> None:
        (window,) = (
            widget
            for widget in QApplication.topLevelWidgets()
            if isinstance(widget, Window) and widget.isVisible()
        )
        if window.drawn_age_s is None and more:
            QTimer.singleShot(100, lambda: close(more - 1))
            return
        drawn.append(window.drawn_age_s is not None)
        window.close()

    QTimer.singleShot(100, close)
    assert run(session, office, OPENING) == 0
    assert drawn == [True], "frames have come"


@pytest.mark.parametrize(("days_ago", "begins"), [(0, True), (1, False)])
def test_the_demo_begins_a_set_unless_something_speaks_against_it(
    logbook: Logbook, tmp_path: Path, *, days_ago: int, begins: bool
) -> None:
    """A day later the questions about pain are not answered; it waits for somebody."""
    now = datetime.now(tz=UTC) - timedelta(days=days_ago)
    demo_content.fill(logbook, tmp_path / "recordings", now=now)
    session = started(logbook, tmp_path)
    office = Office.of(logbook, tmp_path / "recordings", session)
    opening = replace(OPENING, begins=True)
    seen: list[tuple[bool, str]] = []

    def look(more: int = 200) -> None:
        (window,) = (
            widget
            for widget in QApplication.topLevelWidgets()
            if isinstance(widget, Window) and widget.isVisible()
        )
        desk = window.desk
        if not (desk.in_set or window.visit.asks_again) and more:
            QTimer.singleShot(100, lambda: look(more - 1))
            return
        seen.append((desk.in_set, desk.messages.message.text()))
        window.close()

    QTimer.singleShot(100, look)
    assert run(session, office, opening) == 0
    ((begun, words),) = seen
    assert begun is begins, words
    recorded = list((tmp_path / "recordings").glob("*_DEMO-1_*.force"))
    if begins:
        head = recordings.read(recorded[0]).header
        assert head["plan"], "it says of which plan it is"
        assert "went_on" not in head, "nothing was passed over"
    else:
        assert recorded == []
        assert "questions about pain are not answered" in words


@pytest.mark.parametrize(
    ("screen", "whole"),
    [
        ((1920, 1040), True),  # 1080 rows and a task bar of 40
        ((1366, 768), True),  # no task bar: the frame has 48 rows
        ((1366, 728), False),  # the same with a task bar of 40
        ((1280, 720), False),  # the title bar takes rows that Stop stands in
        ((1093, 768), False),  # 1366 columns at a scale of 125 %
    ],
)
def test_a_window_that_would_hide_stop_is_fitted_to_the_screen(
    screen: tuple[int, int], whole: bool
) -> None:
    assert has_room(QSize(1280, 720), QSize(*screen)) == whole
