"""Preferences in the real window: what is changed works at once and is kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from gui.hands import bring_up
from gui.staged_session import ASKED, FRAME_S, StagedSession, steady_pull
from gui.stepped_window import Stepped
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QCheckBox, QComboBox, QLabel, QLineEdit

from biofeedback.errors import FileError
from biofeedback.gui.order_box import Act
from biofeedback.gui.preferences_page import TEXT_SIZES_PCT
from biofeedback.gui.window import Window
from biofeedback.phrase import phrase
from biofeedback.session import Warned
from biofeedback.session.preferences import Language, Preferences

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from biofeedback.gui.preferences_page import PreferencesPage


class Stage(Stepped):
    def __init__(self, qtbot: QtBot, preferences: Preferences | None = None) -> None:
        self.kept: list[Preferences] = []
        self.session = StagedSession(steady_pull)
        self.window = Window(
            self.session,
            prescription=ASKED,
            preferences=preferences,
            keep=self.kept.append,
            clock=lambda: self.session.now_ns,
        )
        bring_up(qtbot, self.window)

    @property
    def page(self) -> PreferencesPage:
        return self.window.comfort.page

    def press(self, key: str) -> None:
        super().press(key)
        self.run(FRAME_S)

    def in_set(self) -> bool:
        return self.window.desk.in_set


@pytest.fixture
def stage(qtbot: QtBot) -> Stage:
    return Stage(qtbot)


def test_the_page_opens_by_its_key_and_goes_back(stage: Stage) -> None:
    stage.press("Ctrl+P")
    assert stage.window.pages.shown is stage.page
    stage.press("Esc")
    assert stage.window.pages.live_shown


def test_what_a_key_changes_before_the_page_was_seen_is_kept_and_shown(
    qtbot: QtBot,
) -> None:
    stage = Stage(qtbot, Preferences(keys={"F5": "B"}, volume_pct=30))
    stage.press("Ctrl+Up")
    assert stage.window.comfort.late_page.there is None
    assert stage.kept == [Preferences(keys={"F5": "B"}, volume_pct=40)]
    stage.page.night.setChecked(True)
    assert stage.kept[-1] == Preferences(keys={"F5": "B"}, volume_pct=40, night=True)
    assert stage.page.sound.volume.value() == 40
    assert stage.page.sound.window() is stage.window
    assert stage.page.keys["F5"].text() == "B"


def test_larger_type_is_larger_at_once_and_kept(stage: Stage) -> None:
    label = stage.window.desk.who
    before = label.fontInfo().pixelSize()
    stage.page.text.setCurrentIndex(stage.page.text.findData(200))
    label.ensurePolished()
    assert label.fontInfo().pixelSize() == pytest.approx(2 * before, abs=1)
    assert stage.kept[-1] == Preferences(text_pct=200)


@pytest.mark.parametrize("text_pct", TEXT_SIZES_PCT)
def test_no_key_is_cut_by_larger_type(stage: Stage, text_pct: int) -> None:
    stage.press("Ctrl+P")
    stage.page.text.setCurrentIndex(stage.page.text.findData(text_pct))
    stage.run(FRAME_S)
    for line in stage.page.keys.values():
        line.ensurePolished()
        needs_px = line.fontMetrics().horizontalAdvance(line.text())
        assert line.width() - 20 > needs_px, line.text()  # frame and margins


def test_a_presenter_begins_and_stops_a_set(stage: Stage) -> None:
    stage.page.presenter.click()
    assert stage.kept[-1].keys == {
        "F5": "PgDown", "Esc": "PgUp", "PgUp": "Esc", "PgDown": "F5",
    }  # fmt: skip
    stage.press("PgDown")
    stage.press("PgDown")
    assert stage.in_set()
    stage.press("PgUp")
    assert not stage.in_set()
    stage.page.usual.click()
    assert stage.kept[-1].keys == {}


def test_the_sheet_of_keys_tells_the_keys_in_use(stage: Stage) -> None:
    def shown() -> dict[str, str]:
        stage.press("F1")
        labels = [label.text() for label in stage.window.sheet.findChildren(QLabel)]
        stage.window.pages.show_live()
        return dict(zip(labels[1:], labels, strict=False))  # what it does: its key

    assert shown()["Start the set"] == "F5"
    stage.page.presenter.click()
    assert shown()["Start the set"] == "PgDown"
    assert shown()["On another page: back to live"] == "PgUp"
    stage.page.usual.click()
    assert shown()["Start the set"] == "F5"


def test_a_kept_key_is_in_use_from_the_start(qtbot: QtBot) -> None:
    stage = Stage(qtbot, Preferences(keys={"F5": "B"}))
    assert stage.page.keys["F5"].text() == "B"
    assert "(B)" in stage.window.desk.start.toolTip()
    stage.window.screen_part.setFocus()
    stage.press("B")
    stage.press("B")
    assert stage.window.desk.in_set


def type_key(stage: Stage, usual: str, key: str) -> None:
    """As a person types it, and leaves the field."""
    line = stage.page.keys[usual]
    line.setText(key)
    line.editingFinished.emit()


@pytest.mark.parametrize(
    ("key", "told"),
    [
        ("Ctrl+M", "taken: Sound on and off"),
        ("Ctrl+Down", "taken: Sound louder"),
        ("F9", "is taken"),
        ("Tab", "moving among the controls"),
        ("Space", "moving among the controls"),
    ],
)
def test_a_key_that_always_does_the_same_is_not_given(
    stage: Stage, key: str, told: str
) -> None:
    type_key(stage, "F5", key)
    assert told in stage.page.problem.text()
    assert stage.page.keymap.changed == {}


def test_the_keys_of_the_running_order_can_be_changed_too(stage: Stage) -> None:
    box = stage.window.order.box
    type_key(stage, "Alt+N", "Ctrl+Y")
    assert stage.kept[-1].keys == {"Alt+N": "Ctrl+Y"}
    assert "(Ctrl+Y)" in box.buttons[Act.NEXT_SET].toolTip()
    wanted: list[Act] = []
    box.wanted.connect(wanted.append)
    box.show()
    for button in box.buttons.values():
        button.setEnabled(True)
    stage.press("Alt+N")
    assert wanted == []
    stage.press("Ctrl+Y")
    assert wanted == [Act.NEXT_SET]


def test_a_key_that_changes_places_is_told(stage: Stage) -> None:
    type_key(stage, "Alt+N", "F5")
    assert stage.kept[-1].keys == {"Alt+N": "F5", "F5": "Alt+N"}
    assert stage.page.problem.text() == (
        "That was the key of “Start the set”, which now has Alt+N."
    )
    assert stage.window.desk.start_key == "Alt+N"


def test_less_motion_works_at_once_and_is_kept(stage: Stage) -> None:
    part, hints = stage.window.screen_part, QGuiApplication.styleHints()
    flash_ms = hints.cursorFlashTime()
    assert flash_ms > 0
    paged = [part.path._place.paged]
    stage.page.still.click()
    assert stage.kept[-1] == Preferences(reduced_motion=True)
    paged.append(part.path._place.paged)
    assert hints.cursorFlashTime() == 0
    stage.page.still.click()
    paged.append(part.path._place.paged)
    assert paged == [False, True, False]
    assert hints.cursorFlashTime() == flash_ms


def test_with_less_motion_the_timer_moves_with_its_figure_only(qtbot: QtBot) -> None:
    stage = Stage(qtbot, Preferences(reduced_motion=True))
    stage.press("F5")
    stage.press("F5")
    seen: dict[str, set[float]] = {}
    timer = stage.window.screen_part.timer
    for _ in range(round(8.0 / FRAME_S)):
        stage.session.advance(FRAME_S)
        stage.window.frame()
        seen.setdefault(timer._figure, set()).add(timer._share)
    assert len(seen) > 3
    assert all(len(shares) == 1 for shares in seen.values()), seen
    stage.page.still.click()


def test_sets_that_begin_by_themselves_are_a_preference(stage: Stage) -> None:
    stage.page.auto_next.click()
    assert stage.kept[-1] == Preferences(auto_next=True)
    assert stage.window.order._auto()


def test_what_is_no_key_is_said_and_nothing_changes(stage: Stage) -> None:
    line = stage.page.keys["F7"]
    line.setText("nonsense")
    line.editingFinished.emit()
    assert "is no key" in stage.page.problem.text()
    assert stage.page.keymap.changed == {}
    assert stage.kept == []


def test_the_desk_folds_and_comes_back_for_a_warning(stage: Stage) -> None:
    stage.press("Ctrl+F")
    assert stage.window.desk.isHidden()
    stage.session.happen(Warned("Something to be read."))
    stage.session.advance(FRAME_S)
    stage.window.frame()
    assert not stage.window.desk.isHidden()
    assert stage.told == "Something to be read."


def test_with_one_monitor_the_second_is_said_to_be_missing(stage: Stage) -> None:
    stage.press("Ctrl+F11")
    assert stage.told == "There is no second monitor."


def test_what_cannot_be_kept_is_said_and_works_all_the_same(qtbot: QtBot) -> None:
    stage = Stage(qtbot)

    def fail(_: Preferences) -> None:
        raise FileError("preferences.json", phrase("the disk is full."))

    stage.window.comfort._keep = fail
    stage.page.second_always.setChecked(True)
    assert "the disk is full" in stage.told
    assert stage.window.comfort.preferences.second_screen


def test_every_control_has_a_name(stage: Stage) -> None:
    for kind in (QLineEdit, QComboBox):
        for control in stage.page.findChildren(kind):
            assert control.accessibleName() or isinstance(control.parent(), QComboBox)
    for box in stage.page.findChildren(QCheckBox):
        assert box.text()


def test_another_language_is_kept_for_the_next_start(stage: Stage) -> None:
    language = stage.page.language
    before = stage.page.title.text()
    language.setCurrentIndex(language.findText("Español"))

    assert stage.kept[-1] == Preferences(language=Language.SPANISH)
    assert stage.page.title.text() == before
    assert "next start" in stage.page.next_start.text()
