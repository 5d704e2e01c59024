"""The page of the filter in the real window, on the recordings of the project."""

from __future__ import annotations

import json
import shutil
from dataclasses import dataclass
from pathlib import Path
from random import Random
from typing import TYPE_CHECKING

import pytest
from pyqtgraph import PlotWidget
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtTest import QTest

from biofeedback.conditioning.filter_facts import facts
from biofeedback.conditioning.profile import FilterChoice
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.filter_log import FilterLog
from biofeedback.session import Session, demo
from biofeedback.session.office import Office
from biofeedback.session.opening import PLAIN
from biofeedback.session.replay import replay
from biofeedback.tuning.blind import Judgement
from biofeedback.tuning.choice import Rule
from biofeedback.tuning.search import Found, Wanted, search

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pytestqt.qtbot import QtBot

    from biofeedback.gui.filter_page import FilterPage

RECORDINGS = Path(__file__).parents[2] / "recordings"
SERIAL = "SIM-0001"
WITHIN_MS = 90_000

pytestmark = pytest.mark.timeout(180)


@dataclass
class Stage:
    """The window on a simulated rig, stepped."""

    session: Session
    window: Window
    log: FilterLog
    recordings: Path
    qtbot: QtBot

    @property
    def page(self) -> FilterPage:
        return self.window.mounted.filter

    def frames(self, count: int = 40) -> None:
        for _ in range(count):
            self.session.step()
            self.window.frame()
            QCoreApplication.processEvents()

    def search(self) -> None:
        self.page.setup.run.click()
        self.wait(lambda: not self.page.setup.searching)

    def show(self, found: Found) -> None:
        """As when a search is done."""
        self.page.setup.found.emit(found)
        self.wait(lambda: not self.page.look.loading)

    def wait(self, done: Callable[[], bool]) -> None:
        self.qtbot.waitUntil(done, timeout=WITHIN_MS)

    def apply(self, by: str = "N. Engineer") -> None:
        self.page.give.by.set_text(by)
        self.page.give.apply.click()
        self.page.give.yes.click()
        self.frames()

    @property
    def told_delay(self) -> str:
        return self.window.desk.health.age.text()


@pytest.fixture(scope="module")
def found() -> Found:
    """What a search finds in the recordings of the project, searched once."""
    paths = tuple(sorted(RECORDINGS.glob("*.force")))
    wanted = Wanted(paths=paths, rule=Rule(), present=FilterChoice())
    return search(wanted, processes=1)


@pytest.fixture
def stage(qtbot: QtBot, tmp_path: Path) -> Iterator[Stage]:
    folder = tmp_path / "recordings"
    folder.mkdir()
    for path in RECORDINGS.glob("*.force"):
        shutil.copy(path, folder)
    log = FilterLog(tmp_path / "filters.jsonl")
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        session = Session(
            demo.source(seed=5, step_us=50_000),
            logbook=logbook,
            recordings=folder,
            athlete_code=demo.ATHLETE_CODE,
            filters=log,
        )
        window = Window(
            session,
            Office.of(logbook, folder, session),
            prescription=demo.PRESCRIPTION,
        )
        qtbot.addWidget(window)
        window.resize(1280, 720)
        window.show()
        made = Stage(session, window, log, folder, qtbot)
        made.frames(20)
        window.pages.press(window.desk.health.filter)
        yield made
        window.close()


def test_before_a_search_words_stand_in_place_of_made_up_axes(stage: Stage) -> None:
    chart = stage.page.chart
    assert chart.isVisible()
    axes = chart.findChildren(PlotWidget)
    assert axes
    assert not any(one.isVisible() for one in axes)
    assert chart.empty.isVisible()
    assert chart.empty.text().startswith("Nothing is measured yet")


def test_a_search_fills_table_and_chart_while_the_window_goes_on(stage: Stage) -> None:
    page = stage.page
    assert page.setup.these.text().startswith("3 recordings")
    page.setup.run.click()
    assert page.setup.run.text() == "Stop the search"
    frames = 0
    while page.setup.searching:  # the window draws frame after frame meanwhile
        stage.frames(1)
        frames += 1
    assert frames > 10
    assert stage.window.drawn_age_s is not None
    found = page._found
    assert found is not None
    rows = page.table._table.rows
    assert len(rows) == len(found.scores) == 74
    # The front stands first, numbered, from the youngest on; the chart has each.
    assert [row[0].split()[0] for row in rows[: len(found.front)]] == [
        str(number) for number in range(1, len(found.front) + 1)
    ]
    ages = [int(row[2]) for row in rows[: len(found.front)]]
    assert ages == sorted(ages)
    assert page.chart.numbered == len(found.front)
    assert not page.chart.empty.isVisible()
    assert all(one.isVisible() for one in page.chart.findChildren(PlotWidget))
    assert found.recommendation.chosen is not None
    (marked,) = [row for row in rows if "■" in row[0]]
    assert marked[1] == found.recommendation.chosen.name
    assert "A" in marked[0]
    assert page.reason.text() == found.recommendation.reason
    (in_use,) = [row for row in rows if "B" in row[0].split()]
    assert in_use[1] == "Butterworth order 2, 10 Hz"


def test_a_search_that_is_stopped_keeps_nothing(stage: Stage) -> None:
    page = stage.page
    page.setup.choose([*RECORDINGS.glob("*.force")] * 40)
    page.setup.run.click()
    stage.wait(lambda: page.setup.bar.value() > 0)
    page.setup.run.click()
    assert "Stopping" in page.setup.state.text()
    stage.wait(lambda: not page.setup.searching)
    assert "stopped" in page.message.text()
    assert page._found is None
    assert page.setup.run.text() == "Search"


def test_a_set_that_begins_stops_the_search(stage: Stage) -> None:
    page = stage.page
    page.setup.choose([*RECORDINGS.glob("*.force")] * 40)
    stage.window.desk.form.fill(PLAIN)  # an old reference would ask first
    page.setup.run.click()
    stage.window.pages.show_live()
    stage.window.desk.start.click()
    stage.frames(20)
    assert stage.window.desk.in_set
    assert page.setup._errand is None or page.setup._errand.stopping
    stage.wait(lambda: not page.setup.searching)
    assert page._found is None


def test_what_cannot_be_used_is_named_and_the_rest_goes_on(
    stage: Stage, tmp_path: Path
) -> None:
    bad = tmp_path / "torn.force"
    bad.write_bytes(b"no recording")
    stage.page.setup.choose([bad, *sorted(RECORDINGS.glob("*.force"))])
    stage.search()
    assert stage.page._found is not None
    assert "torn.force" in stage.page.message.text()
    assert "3 used, 1 left out" in stage.page.setup.state.text()
    stage.page.setup.choose([bad])
    stage.search()
    assert "None of these recordings can be used" in stage.page.message.text()


@pytest.mark.parametrize("text", ["", "soon", "0", "2000"])
def test_an_age_that_is_none_begins_nothing(stage: Stage, text: str) -> None:
    stage.page.setup.age.set_text(text)
    stage.page.setup.run.click()
    assert not stage.page.setup.searching
    assert stage.page.setup.age.error.text()


def test_figures_without_room_are_told_of_the_row_under_the_cursor(
    stage: Stage, found: Found
) -> None:
    page = stage.page
    stage.show(found)
    table = page.table
    model = table.model()
    assert not page.left_out.isVisible()
    table.setFixedWidth(500)
    stage.frames(2)
    hidden = [at for at in range(model.columnCount()) if table.isColumnHidden(at)]
    assert hidden == list(range(hidden[0], model.columnCount())), "the last ones"
    assert table.horizontalScrollBar().maximum() == 0
    for row in (0, 3):
        table.setCurrentIndex(model.index(row, 1))
        told = page.left_out.text()
        assert told.startswith(str(model.index(row, 1).data()))
        for at in hidden:
            title = str(model.headerData(at, Qt.Orientation.Horizontal))
            figure = str(model.index(row, at).data())
            assert title.replace("\n", " ") + ": " + figure in told
    table.setMinimumWidth(0)
    table.setMaximumWidth(2000)
    stage.frames(2)
    assert not page.left_out.isVisible()


def test_keys_choose_a_and_b(stage: Stage, found: Found) -> None:
    page = stage.page
    stage.show(found)
    a, b = page._a, page._b
    page.table.setFocus()
    page.table._go_to(3)
    third = page.table.chosen
    QTest.keyClick(page.table, Qt.Key.Key_B)
    assert (page._a, page._b) == (a, third)
    QTest.keyClick(page.table, Qt.Key.Key_A)  # B becomes A, so A becomes B
    assert (page._a, page._b) == (third, a)
    assert page.table.chosen == third
    assert b not in (page._a, page._b)


def test_one_recording_is_drawn_and_moved_by_keys(stage: Stage, found: Found) -> None:
    page = stage.page
    stage.show(found)
    page.show_view(1)
    look = page.look
    assert look.recording.count() == 3
    assert look._look is not None
    assert set(look._look.seen) == {page._a, page._b}
    # At 80 samples a second 50 Hz are folded to 30 Hz: that is where they are marked.
    assert "50 Hz, seen at 30 Hz" in look.mains.text()
    before = look.seen_s
    look.slider.setFocus()
    QTest.keyClick(look.slider, Qt.Key.Key_Right)
    assert look.seen_s[0] == pytest.approx(before[0] + 1.0)  # a tenth of 10 s
    look.widen(-1)
    assert look.seen_s[1] - look.seen_s[0] == pytest.approx(5.0)
    assert page.play._place == (look.path, look.seen_s[0])
    look.recording.setCurrentIndex(1)
    stage.wait(lambda: not look.loading)
    assert look._look.path == look.path


def test_played_as_live_on_the_athletes_screen(stage: Stage, found: Found) -> None:
    page = stage.page
    stage.show(found)
    page.show_view(2)
    page.play.first.click()
    stage.wait(lambda: page.play._play is not None)
    play = page.play._play
    assert play is not None
    assert play.profile.filter == page._a
    path = page.play.screen_part.path
    stage.wait(lambda: path.accessibleDescription() != "" and page.play.playing)
    assert page.escape()  # the stop key ends what is played, and not the page
    assert not page.play.playing
    page.play.second.click()
    stage.wait(lambda: page.play._play is not None)
    assert page.play._play is not None
    assert page.play._play.profile.filter == page._b
    page.leave()
    assert not page.play.playing


def test_blind_tells_nothing_before_it_is_asked(stage: Stage, found: Found) -> None:
    page = stage.page
    stage.show(found)
    page.show_view(2)
    play = page.play
    play._chance = Random(3)  # noqa: S311  no secret
    play.blind.setChecked(True)
    better = play.judgements[Judgement.X]
    truth = Random(3)  # noqa: S311  the same again
    wins_a = 0
    for number in range(1, 4):
        x_is_a = truth.random() < 0.5
        for button, is_a in ((play.first, x_is_a), (play.second, not x_is_a)):
            assert not better.isEnabled()
            button.click()
            stage.wait(lambda: play._play is not None)
            assert play._play is not None
            assert play._play.profile.filter == (page._a if is_a else page._b)
            # Neither name nor delay of a filter is told while it is judged.
            for words in (play.state.text(), play.accessibleDescription()):
                assert "Butterworth" not in words
                assert "average" not in words
            play.end()
        better.click()
        wins_a += x_is_a
        assert f"{number} judged" in play.state.text()
    play.reveal.click()
    told = play.state.text()
    assert f"better in {wins_a}, B" in told
    assert "sign test" in told


# Apply.


def test_the_choice_becomes_the_rigs_filter(stage: Stage, found: Found) -> None:
    page = stage.page
    assert "filter 21 ms" in stage.told_delay
    stage.show(found)
    page.give.apply.click()
    assert not page.give.asking  # nobody said who chooses
    assert "who" in page.give.by.error.text()
    page.give.by.set_text("N. Engineer")
    page.give.apply.click()
    new, old = page._a, FilterChoice()
    assert new is not None
    ms = 1000 * facts(new, 80.0).delay_s
    assert f"Delay 21 ms → {ms:.0f} ms" in page.give.words
    assert stage.log.read() == ([], [])  # nothing before the second press
    page.give.yes.click()
    stage.frames()
    assert f"filter {ms:.0f} ms" in stage.told_delay
    (entry,), _ = stage.log.read()
    assert (entry.by, entry.serial_number) == ("N. Engineer", SERIAL)
    assert (entry.old, entry.new) == (old, new)
    assert entry.rule.startswith("least noise with age of the shown value under 60 ms")
    keys = {
        replay(path).header["set_id"] for path in sorted(RECORDINGS.glob("*.force"))
    }
    assert set(entry.recordings) == keys
    score = found.score_of(new)
    assert score is not None
    assert entry.figures["noise_rms_n"] == pytest.approx(score.noise_n)
    told = json.loads(stage.log.path.read_text(encoding="utf-8"))
    assert "DEMO" not in json.dumps(told)  # no code of an athlete outlives an erasure


def test_undo_puts_back_the_filter_before(stage: Stage, found: Found) -> None:
    stage.show(found)
    assert not stage.page.give.undo.isEnabled()
    stage.apply()
    assert "filter 21 ms" not in stage.told_delay
    stage.page.give.undo.click()
    assert "becomes Butterworth order 2, 10 Hz" in stage.page.give.words
    stage.page.give.yes.click()
    stage.frames()
    assert "filter 21 ms" in stage.told_delay
    entries, _ = stage.log.read()
    assert [one.put_back for one in entries] == [False, True]
    assert not stage.page.give.undo.isEnabled()


def test_the_next_connection_has_it_and_its_recordings_too(
    stage: Stage, found: Found, tmp_path: Path
) -> None:
    stage.show(found)
    before = {path: replay(path) for path in stage.recordings.glob("*.force")}
    stage.apply()
    chosen = stage.page._a
    with Logbook.open(tmp_path / "second.db") as logbook:
        session = Session(
            demo.source(seed=9, step_us=50_000),
            logbook=logbook,
            recordings=tmp_path / "second",
            athlete_code="DEMO-2",
            filters=FilterLog(stage.log.path),
        )
        for _ in range(30):
            session.step()
        assert session.take().profile.filter == chosen
        session.begin_set(demo.PRESCRIPTION)
        for _ in range(200):
            session.step()
        session.close()
    (path,) = (tmp_path / "second").glob("*.force")
    assert replay(path).profile.filter == chosen
    # What was recorded before keeps its filter and its numbers.
    for path, known in before.items():
        again = replay(path)
        assert again.agrees
        assert again.reps == known.reps
        assert again.profile.filter == FilterChoice()


def test_a_history_that_cannot_be_written_changes_nothing(
    stage: Stage, found: Found
) -> None:
    stage.show(found)
    stage.log.path.mkdir()
    stage.apply()
    assert "filters.jsonl" in stage.page.message.text()
    assert "filter 21 ms" in stage.told_delay


def test_pages_are_read_without_colour_and_by_name(stage: Stage, found: Found) -> None:
    """What each figure shows is told in words too."""
    stage.show(found)
    page = stage.page
    assert "74 candidates" in page.chart.accessibleDescription()
    assert "Butterworth order 2, 10 Hz" in page.look.accessibleDescription()
    assert "Dashed: mains" in page.look._noise.accessibleDescription()


@pytest.mark.parametrize("size", [(1280, 720), (1920, 1080)])
def test_all_of_the_page_is_seen_at_once(
    stage: Stage, found: Found, size: tuple[int, int]
) -> None:
    stage.window.resize(*size)
    stage.show(found)
    page = stage.page
    for view in range(3):
        page.show_view(view)
        stage.frames()
        assert (page.width(), page.height()) == size  # nothing has to be scrolled
    page.show_view(0)
    letters = page.table.fontMetrics()
    room = page.table.columnWidth(1) - 8
    for row, name in enumerate(row[1] for row in page.table._table.rows):
        lines = -(-letters.horizontalAdvance(name) // room)
        assert page.table.rowHeight(row) >= lines * letters.height()
