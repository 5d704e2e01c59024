"""The calibration page on a staged session with masses that hang as told."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pytest
from gui.hands import bring_up
from gui.staged_session import ASKED, BOTH, StagedSession
from gui.stepped_window import Stepped
from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QPushButton

from biofeedback.gui.theme import NIGHT
from biofeedback.gui.window import Window
from biofeedback.logbook.database import Logbook
from biofeedback.session import Link, Refused
from biofeedback.session.office import Office

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from biofeedback.gui.calibration import CalibrationPage

PER_N = 1050.0
"""Counts of a newton; the nominal profile of the stage takes 1000."""
RIG = replace(BOTH, serial_number="SN-7")


class Gym(Stepped):
    """A window with a left cell on which masses hang, and a logbook."""

    def __init__(self, qtbot: QtBot, logbook: Logbook | None) -> None:
        self.force_n = 0.0
        self.noise = np.random.default_rng(3)
        self.swing = 0.02
        self.session = StagedSession(self._pull, profile=RIG)
        self.window = Window(
            self.session,
            Office(calibrations=logbook.calibrations if logbook else None),
            prescription=ASKED,
            clock=lambda: self.session.now_ns,
        )
        bring_up(qtbot, self.window)
        self.run(0.1)
        self.window.desk.calibrate.click()

    def _pull(self, _time_s: float) -> tuple[float, float]:
        # The stage gives 1000 counts a newton.
        shaky = self.force_n + self.noise.normal(0, self.swing)
        return 12.0 + shaky * PER_N / 1000, 0.01 * self.noise.normal()

    @property
    def page(self) -> CalibrationPage:
        return self.window.calibration

    @property
    def told(self) -> str:
        return self.page.message.text()

    def taken(self) -> int:
        return len(self.page.points.rows)

    def begin(self, loads: str = "5 10 15 20", runs: str = "2") -> None:
        self.page.form.loads.set_text(loads)
        self.page.form.runs.set_text(runs)
        self.page.form.tolerance.set_text("0.1")
        self.page.begin.click()

    def all_points(self) -> None:
        while (guide := self.page.guide) is not None and guide.step is not None:
            self.force_n = guide.step.load.force_n
            self.run(1.1)
            self.press("F9")
            assert self.told.startswith("Taken"), self.told


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def gym(qtbot: QtBot, book: Logbook) -> Gym:
    return Gym(qtbot, book)


def test_from_the_empty_rig_to_a_record_in_use(gym: Gym, book: Logbook) -> None:
    gym.begin()
    assert gym.page.next.text() == "1/18  Run 1 of 2. Leave the left cell empty."
    gym.all_points()
    assert gym.page.next.text().startswith("All points are taken")
    assert len(gym.page.points.rows) == 18
    assert gym.page.plot.marks == 18
    words = gym.page.words.toPlainText()
    assert "Forces from masses by standard gravity 9.80665" in words
    assert "hysteresis" in words
    assert "Refused" not in words
    gym.page.label.line.setText("November")
    gym.page.save.click()
    assert gym.told.startswith("Kept as no. 1 of this cell, “November”")
    kept = book.calibrations.latest("SN-7", 0)
    assert kept is not None
    assert kept.calibration.coefficients[1] == pytest.approx(1 / PER_N, rel=1e-4)
    assert len(book.calibrations.readings(kept.id)) == 18
    (done,) = (entry for entry in gym.session.done if entry[0] == "change_profile")
    profile = done[1]
    assert profile == replace(  # the other cell keeps its own
        RIG,
        channels=(
            replace(RIG.channels[0], calibration=kept.calibration),
            RIG.channels[1],
        ),
    )
    assert not gym.page.save.isEnabled()
    assert gym.page.begin.text() == "Begin"


def test_a_point_is_not_taken_before_it_is_still(gym: Gym) -> None:
    gym.begin()
    gym.swing = 3.0
    gym.run(1.1)
    gym.press("F9")
    assert "Not still yet" in gym.told
    assert "Moving" in gym.page.still.words
    assert gym.taken() == 0
    gym.swing = 0.02
    gym.run(1.3)
    assert gym.page.still.words.startswith("Still: 12 ")
    gym.press("F9")
    assert gym.taken() == 1
    gym.press("F9")
    assert "have not moved" in gym.told


def test_the_first_points_are_no_reason_to_complain(gym: Gym) -> None:
    gym.begin()
    gym.run(1.1)
    gym.press("F9")
    assert gym.page.words.toPlainText().startswith("Figures come once three")
    assert not gym.page.save.isEnabled()


def test_a_point_is_taken_back_by_key(gym: Gym) -> None:
    gym.begin()
    gym.run(1.1)
    gym.press("F9")
    gym.press("F10")
    assert gym.told == "Taken back: empty rig."
    assert gym.taken() == 0
    assert gym.page.next.text().startswith("1/18")


def test_every_action_of_the_page_shows_its_key(gym: Gym) -> None:
    page = gym.page
    for button in (page.begin, page.take_point, page.take_back, page.save, page.live):
        assert re.search(r"\((F\d+|Ctrl\+[A-Z])\)$", button.toolTip())
    gym.press("Ctrl+B")
    assert page.guide is not None
    gym.press("Ctrl+B")
    assert page.guide is None


def test_the_keys_of_the_page_do_nothing_while_it_is_not_shown(gym: Gym) -> None:
    gym.begin()
    gym.run(1.1)
    gym.press("F6")
    assert gym.window.pages.live_shown
    gym.press("F9")
    assert gym.taken() == 0
    gym.press("F6")
    gym.run(0.1)
    gym.press("F9")
    assert gym.taken() == 1


def test_a_mass_on_the_other_cell_cannot_be_kept(gym: Gym) -> None:
    gym.page.form.cell.setCurrentIndex(1)
    gym.begin()
    guide = gym.page.guide
    assert guide is not None
    gym.run(1.1)
    gym.press("F9")
    gym.force_n = 50.0  # hangs on the left, the right is asked for
    gym.run(1.1)
    gym.press("F9")
    assert "hangs on this cell" in gym.told
    assert not gym.page.save.isEnabled()


def test_a_signal_that_is_lost_is_told_and_nothing_is_taken(gym: Gym) -> None:
    gym.begin()
    gym.run(1.1)
    gym.session.silent, gym.session.link = True, Link.LOST
    gym.run(0.3)
    gym.press("F9")
    assert gym.told == "The cable is out."
    gym.session.silent, gym.session.link = False, Link.LIVE
    gym.run(1.2)
    gym.press("F9")
    assert gym.told.startswith("Taken")


def test_another_board_ends_what_was_begun(gym: Gym) -> None:
    gym.begin()
    gym.run(1.1)
    gym.press("F9")
    gym.session.profile = replace(RIG, serial_number="SN-8")
    gym.run(0.1)
    assert gym.page.guide is None
    assert gym.told.startswith("Another board")


def test_a_profile_that_is_refused_is_told_here(gym: Gym) -> None:
    gym.session.happen(Refused("change profile", "A set is under way. End it first."))
    gym.run(0.1)
    assert gym.told == (
        "It is kept, and not in use yet: A set is under way. End it first."
    )


def test_gravity_says_which_one_it_is(gym: Gym) -> None:
    form = gym.page.form
    assert form.gravity_words.text().startswith("Standard gravity 9.80665")
    form.latitude.line.setText("52,5")
    form.altitude.line.setText("40")
    form.altitude.line.editingFinished.emit()
    assert "9.8127" in form.gravity_words.text()
    assert "latitude 52.5°" in form.gravity_words.text()
    form.kind.setCurrentIndex(1)
    assert form.gravity_words.text().startswith("A reference cell")
    assert not form.latitude.isVisible()


@pytest.mark.parametrize(
    ("field", "text", "words"),
    [
        ("loads", "5 x", "“x” is no mass"),
        ("loads", "", "Are missing"),
        ("runs", "0", "Must be 1 to 10"),
        ("runs", "1.5", "whole number"),
        ("tolerance", "-1", "0 to 100 %"),
        ("latitude", "95", "it must be −90 to 90"),
        ("latitude", "x", "type a number"),
    ],
)
def test_fields_that_do_not_fit_say_so(
    gym: Gym, field: str, text: str, words: str
) -> None:
    form = gym.page.form
    form.altitude.set_text("0")
    form.latitude.set_text("45")
    wrong = getattr(form, field)
    wrong.set_text(text)
    gym.page.begin.click()
    assert gym.page.guide is None
    assert words in wrong.error.text()
    assert gym.told.startswith("Not begun")


def test_a_reference_cell_tells_the_forces(gym: Gym, book: Logbook) -> None:
    gym.page.form.kind.setCurrentIndex(1)
    gym.begin(loads="50 100 150 200 250", runs="1")
    guide = gym.page.guide
    assert guide is not None
    while (step := guide.step) is not None:
        shown = step.load.force_n + (0.7 if step.load.force_n else 0.0)
        gym.force_n = shown
        if step.load.force_n:
            assert gym.page.reference.line.isEnabled()
            gym.page.reference.set_text(f"{shown}")
        gym.run(1.1)
        gym.page.take_point.click()
        assert gym.told.startswith("Taken"), gym.told
    assert "No gravity" not in gym.page.words.toPlainText()
    assert "no gravity was used" in gym.page.words.toPlainText()
    gym.page.save.click()
    kept = book.calibrations.latest("SN-7", 0)
    assert kept is not None
    assert kept.label == "no. 1"
    assert kept.to_n == pytest.approx(250.7)


def test_a_name_in_use_is_told_beside_the_field(gym: Gym, book: Logbook) -> None:
    for _ in range(2):
        gym.begin(loads="5 10 15 20 25", runs="1")
        gym.all_points()
        gym.page.label.line.setText("twice")
        gym.page.save.click()
    assert "in use for this cell already" in gym.page.label.error.text()
    assert gym.page.guide is not None  # nothing is lost: another name, and again
    gym.page.label.line.setText("another")
    gym.page.save.click()
    assert len(book.calibrations.list("SN-7")) == 2


def test_a_board_without_a_serial_number_cannot_be_kept(gym: Gym) -> None:
    gym.session.profile = BOTH
    gym.run(0.1)
    gym.begin(loads="5 10 15 20 25", runs="1")
    gym.all_points()
    gym.page.save.click()
    assert "serial_number: must name the board" in gym.told
    assert gym.page.guide is not None


def test_without_a_logbook_nothing_is_kept_and_it_is_said(qtbot: QtBot) -> None:
    gym = Gym(qtbot, None)
    gym.begin(loads="5 10 15 20 25", runs="1")
    gym.all_points()
    gym.page.save.click()
    assert gym.told == "There is no logbook to keep it in."


@pytest.mark.parametrize("size", [(1280, 720), (1920, 1080)])
def test_nothing_is_cut(gym: Gym, size: tuple[int, int]) -> None:
    gym.window.set_theme(NIGHT)
    gym.window.resize(*size)
    QCoreApplication.processEvents()
    gym.begin()
    gym.all_points()
    page = gym.page
    parts = [
        page.live, page.begin, page.next, page.care, page.still, page.take_point,
        page.take_back, page.message, page.table, page.plot, page.words, page.label,
        page.save, page.form.gravity_words,
    ]  # fmt: skip
    boxes = []
    for part in parts:
        assert part.isVisible()
        corner = part.mapTo(page, part.rect().topLeft())
        box = part.rect().translated(corner)
        assert page.rect().contains(box), part
        assert part.height() >= part.minimumSizeHint().height(), part
        if isinstance(part, QPushButton):
            assert part.width() >= part.sizeHint().width(), part
        boxes.append(box)
    for i, one in enumerate(boxes):
        for other in boxes[i + 1 :]:
            assert not one.intersects(other)
    assert (gym.window.width(), gym.window.height()) == size
