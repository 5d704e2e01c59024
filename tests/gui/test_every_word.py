"""Every word in the window has come through the translation.

The real window is driven in a made-up language (`marked_words`), and whatever it shows,
paints or tells a screen reader in letters must carry the language's marks.
"""

from __future__ import annotations

import json
import re
import shutil
import sqlite3
import sys
import time
from typing import TYPE_CHECKING

import pytest
from gui import whole_day
from gui.demo_window import SPAIN, opened_demo
from gui.marked_words import (
    BEGIN,
    END,
    MarkedWords,
    in_sight,
    outside,
    painted,
    texts_of,
)
from gui.test_calibration import Gym
from gui.test_health import Bench
from gui.test_spanish import Stage
from gui.whole_day import WholeDay
from PySide6.QtCore import QCoreApplication, QLocale, Qt
from PySide6.QtWidgets import QApplication, QFileDialog, QPushButton

from biofeedback.conditioning.profile import SIMULATED_ADC
from biofeedback.gui.progress_page import ProgressPage
from biofeedback.gui.sound_box import SoundBox
from biofeedback.gui.visit_page import VisitPage
from biofeedback.logbook.database import Logbook
from biofeedback.session.second_start import SEEN_S

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

pytestmark = [pytest.mark.slow, pytest.mark.timeout(240)]

SIGNS = frozenset(
    re.findall(
        r"\S+",
        """
        Nm Nms ms min max kg kHz Hz mV dB rms CV SD SEM ISO ASTM OIML WGS GRS UTC
        Ctrl Alt Shift Esc Tab Home End Ins Del PgUp PgDown Space Return Enter Backspace
        pdf png csv edf json English Español biofeedback
        """,
    )
)
"""Units, standards, keys, kinds of files, and languages in their own words."""
CODES = re.compile(
    r"\S*/\S*|\S+\.(?:pdf|png|csv|json|force|db)\b|[A-Z]+-?\d\S*|F\d{1,2}\b|(?:(?:Ctrl|Alt|Shift)\+)+\S+|[0-9a-f-]{36}|'\w+\[\w+\]'"
)
"""Paths, files, codes of athletes and boards, function keys, a package to install."""
LOOK_EVERY_FRAMES = 30
STAGED = frozenset({"November", "Invented athlete", "invented rig", "simulated rig"})
"""Names that the tests below give, and the stage."""
POINT = re.compile(r"(?<![\d.:/-])\d+\.\d+(?![\d.])")
"""A number with a point, where the language writes a comma."""
ELIDED = re.compile(r"([^·⟦⟧\n…]*)…([^·⟦⟧\n…]*)")
"""A text that was cut in its middle."""
WORD = re.compile(r"[^\W\d_]{2,}")


class Listener:
    """Collects what is shown and came past the translation."""

    def __init__(self, painted_texts: list[str], data: frozenset[str]) -> None:
        self.painted = painted_texts
        self.data = sorted(data, key=len, reverse=True)
        self.found: dict[str, str] = {}

    def look(self, where: str) -> None:
        """At all windows there are."""
        for widget in in_sight(QApplication.topLevelWidgets()):
            for text in filter(None, texts_of(widget)):
                self._judge(where, type(widget).__name__, text)
        for text in self.painted:
            self._judge(where, "painted", text)
        self.painted.clear()

    def _judge(self, where: str, kind: str, text: str) -> None:
        left = outside(text)
        for name in self.data:
            left = left.replace(name, " ")
        left = CODES.sub(" ", ELIDED.sub(self._unless_data, left))
        words = [word for word in WORD.findall(left) if word not in SIGNS]
        words += POINT.findall(left)
        if words:
            told = f"{where}, {kind}: {' '.join(words)} in {text[:200]}"
            self.found.setdefault(" ".join(words), told)

    def _unless_data(self, found: re.Match[str]) -> str:
        """A name that was cut in its middle is data as the whole one is."""
        begin, end = found[1].strip(), found[2].strip()
        names = (n for n in self.data if n.startswith(begin) and n.endswith(end))
        return " " if any(names) else found[0]

    @property
    def told(self) -> str:
        return "\n".join(self.found.values())


@pytest.fixture(autouse=True)
def made_up(qapp: QApplication) -> Iterator[None]:
    before = QLocale()
    QLocale.setDefault(SPAIN)
    language = MarkedWords(qapp)
    QCoreApplication.installTranslator(language)
    yield
    QCoreApplication.removeTranslator(language)
    QLocale.setDefault(before)


TYPED = {
    "athletes": ("code", "name", "notes", "consent"),
    "tasks": ("name", "content"),
    "plans": ("name", "content"),
    "plan_moves": ("reason",),
    "notes": ("content",),
    "stated_forces": ("note",),
    "voids": ("reason",),
    "calibrations": ("label", "serial_number"),
    "audit": ("by_user", "practitioner"),
}
"""Where the logbook keeps what people have typed; `content` is JSON."""
TYPED_KEYS = frozenset({"name", "pair", "note", "text", "reason", "pad", "machine"})


def names_in(logbook: Path) -> frozenset[str]:
    """What people have typed: names of athletes, tasks and plans, and free text."""
    found: set[str] = set()
    with sqlite3.connect(logbook) as reader:
        for table, names in TYPED.items():
            for name in names:
                cells = reader.execute(f"SELECT {name} FROM {table}")  # noqa: S608
                for (cell,) in cells:
                    found |= set(_typed(name, cell))
    return frozenset(filter(None, found))


def _typed(name: str, cell: object) -> Iterator[str]:
    if name == "content":
        for key, value in _leaves(json.loads(str(cell))):
            if key in TYPED_KEYS:
                yield value
    elif isinstance(cell, str):
        yield cell


def _leaves(content: object, key: str = "") -> Iterator[tuple[str, str]]:
    if isinstance(content, dict):
        for inner, value in content.items():
            yield from _leaves(value, inner)
    elif isinstance(content, list):
        for value in content:
            yield from _leaves(value, key)
    elif isinstance(content, str):
        yield key, content


@pytest.fixture
def demo_window(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[tuple[Stage, Listener]]:
    seen = painted(monkeypatch)
    with opened_demo(tmp_path, step_us=12_500, hold_s=6.5, reps=2) as (session, window):
        window.resize(1920, 1080)
        window.show()
        told_by_board = {SIMULATED_ADC}
        data = names_in(tmp_path / "logbook.db") | told_by_board
        listener = Listener(seen, frozenset(data))
        yield Stage(session, window), listener


def test_each_page(demo_window: tuple[Stage, Listener]) -> None:
    stage, listener = demo_window
    for name, _ in stage.pages():
        listener.look(name)

    assert not listener.found, listener.told


def test_a_set(demo_window: tuple[Stage, Listener]) -> None:
    stage, listener = demo_window
    desk = stage.window.desk
    desk.start.click()
    stage.frames(5)
    listener.look("start")
    if not desk.in_set:
        seen_s = time.monotonic() + SEEN_S
        while time.monotonic() <= seen_s:  # the window goes by the real clock
            stage.frames(1)
        desk.start.click()
    for _ in range(12):
        stage.frames(50)
        listener.look("on the way")

    assert not listener.found, listener.told


@pytest.fixture
def words(monkeypatch: pytest.MonkeyPatch) -> Listener:
    return Listener(painted(monkeypatch), STAGED)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


def test_a_calibration(words: Listener, qtbot: QtBot, book: Logbook) -> None:
    gym = Gym(qtbot, book)
    page = gym.page
    words.look("before")
    gym.begin(loads="1..5")
    words.look("no loads")
    gym.begin(runs="0")
    words.look("no runs")
    page.form.latitude.set_text("95")
    page.form.altitude.set_text("20")
    gym.begin()
    words.look("no place")
    page.form.latitude.set_text("53")
    gym.begin()
    gym.swing = 3.0
    gym.run(1.1)
    page.take_point.click()
    words.look("not still")
    gym.swing = 0.02
    gym.run(1.3)
    page.take_point.click()
    page.take_point.click()
    words.look("not moved")
    page.take_back.click()
    words.look("taken back")
    while page.guide is not None and page.guide.step is not None:
        gym.force_n = page.guide.step.load.force_n
        gym.run(1.1)
        page.take_point.click()
    words.look("all points")
    page.label.line.setText("November")
    page.save.click()
    words.look("kept")
    gym.force_n = 0.0
    page.form.kind.setCurrentIndex(1)
    page.form.cell.setCurrentIndex(1)
    gym.begin(loads="50 100")
    for force_n in (0.0, 50.0, 100.0):
        gym.force_n = force_n
        gym.run(1.3)
        page.take_point.click()
        words.look("the wrong cell")
    gym.window.desk.calibrate.click()
    words.look("live again")

    assert not words.found, words.told


def test_a_check(words: Listener, qtbot: QtBot) -> None:
    bench = Bench(qtbot)
    bench.key(Qt.Key.Key_F12)
    words.look("before")
    bench.key(Qt.Key.Key_F9)
    bench.run(1.0)
    words.look("at rest")
    bench.run(3.0)
    for pressed in ((20.0, 15.0), (0.0, -40.0)):
        bench.pressed = pressed
        bench.run(1.5)
        words.look("pressed")
        bench.pressed = (0.0, 0.0)
        bench.run(1.0)
        words.look("let go")
    bench.run(1.0)
    words.look("verdicts")

    assert not words.found, words.told


def test_a_report(
    demo_window: tuple[Stage, Listener],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    stage, listener = demo_window
    monkeypatch.setattr(QFileDialog, "exec", lambda _dialog: 1)
    monkeypatch.chdir(tmp_path)
    bar = stage.window.desk.pages
    pages: tuple[tuple[type[VisitPage | ProgressPage], QPushButton], ...] = (
        (VisitPage, bar.visit),
        (ProgressPage, bar.progress),
    )
    for kind, button in pages:
        button.click()
        page = stage.window.findChild(kind)
        assert page is not None
        stage.frames(5)
        for action in page.report.periods.actions():
            if not action.isSeparator():
                action.trigger()
                listener.look(f"report {action.text()}")
        button.click()

    assert not listener.found, listener.told


def test_a_void_and_a_marker_that_is_moved(
    demo_window: tuple[Stage, Listener],
) -> None:
    stage, listener = demo_window
    page = stage.window.review
    stage.window.desk.pages.review.click()
    stage.frames(5)
    listener.look("review")
    page._void("")
    listener.look("no reason")
    page._void("1")
    listener.look("void")
    page._void("2")
    listener.look("taken back")
    page._move_by("start", 0.1)
    listener.look("moved")
    page._undo()
    listener.look("undone")

    assert not listener.found, listener.told


class Abroad(WholeDay):
    """A whole day in the made-up language, looked at as it goes."""

    def __init__(self, folder: Path, painted_texts: list[str]) -> None:
        whole_day.prepare(folder)
        data = names_in(folder / "logbook.db") | {SIMULATED_ADC}
        self.listener = Listener(painted_texts, frozenset(data))
        self.frames = 0
        super().__init__(folder)

    def frame(self) -> None:
        super().frame()
        self.frames += 1
        if self.frames % LOOK_EVERY_FRAMES == 0:
            self.look()

    def look(self) -> None:
        self.listener.look(f"frame {self.frames}")

    def press(self, key: str) -> None:
        super().press(key)
        self.look()

    @property
    def told(self) -> str:
        return super().told.replace(BEGIN, "").replace(END, "")


def test_a_whole_day(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    day = Abroad(tmp_path, painted(monkeypatch))
    whole_day.morning(day)
    day.let_go()
    day.press("Esc")
    day.run(1.0)
    day.press("Alt+R")
    day.press("Alt+V")
    day.click(day.window.mounted.end.days[1])
    day.press("Ctrl+S")
    day.close()

    assert not day.listener.found, day.listener.told


def test_faults_of_cable_and_disk(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    day = Abroad(tmp_path, painted(monkeypatch))
    listener = day.listener
    day.run(1.0)
    listener.look("live")
    shutil.rmtree(day.folder / "recordings", ignore_errors=True)
    (day.folder / "recordings").write_text("no folder")
    for _ in range(2):
        day.window.desk.start.click()
        day.run(1.5)
    listener.look("no disk")
    day.pull_cable()
    day.run(3.0)
    listener.look("no cable")
    day.plug_in()
    day.run(3.0)
    listener.look("plugged in")
    (day.folder / "recordings").unlink()
    day.window.desk.stop.click()
    day.run(1.0)
    listener.look("room again")
    day.close()
    day.window.deleteLater()

    assert not listener.found, listener.told


def test_sound_without_a_device(
    words: Listener, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "sounddevice", None)  # as if not installed
    box = SoundBox()
    qtbot.addWidget(box)
    box.show()
    box.on.setChecked(True)
    words.look("not installed")

    assert box.problem.text()
    assert not words.found, words.told
