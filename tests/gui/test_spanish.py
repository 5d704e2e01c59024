"""The real window in Spanish: nothing stays in English, nothing is cut off."""

from __future__ import annotations

import re
import time
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest
from gui.cut_text import cut_texts, in_sight
from gui.demo_window import opened_demo, speaking
from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import (
    QAbstractButton,
    QComboBox,
    QGroupBox,
    QLabel,
    QLineEdit,
    QMessageBox,
    QWidget,
)

from biofeedback.gui import language
from biofeedback.gui.translations import catalogue
from biofeedback.gui.translations.collected import Text, collect
from biofeedback.session.preferences import Language
from biofeedback.session.second_start import SEEN_S
from biofeedback.training.feedback import Cue

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from PySide6.QtWidgets import QApplication
    from pytestqt.qtbot import QtBot

    from biofeedback.gui.window import Window
    from biofeedback.session import Session

SIZES = [(1280, 720), (1920, 1080)]
FRAMES_MOST = 4000
KNOWN = catalogue.read(language.CATALOGUES / "biofeedback_es.ts")

pytestmark = [pytest.mark.slow, pytest.mark.timeout(240)]


@dataclass
class Stage:
    """The window on the demo's logbook, stepped."""

    session: Session
    window: Window

    def frames(self, count: int) -> None:
        for _ in range(count):
            self.session.step()
            self.window.frame()
            QCoreApplication.processEvents()

    def cue(self, cue: Cue) -> None:
        for _ in range(FRAMES_MOST):
            self.frames(1)
            if self.window.screen_part.shown_cue is cue:
                return
        pytest.fail(f"the cue {cue} did not come")

    def pages(self) -> Iterator[tuple[str, QWidget]]:
        """Each page as it is shown, the live one first."""
        self.frames(30)
        yield "live", self.window
        for button in self.window.pages.buttons:
            if not button.isEnabled():
                continue
            button.click()
            self.frames(20)
            yield button.text(), self.window
            button.click()


@pytest.fixture(params=SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
def stage(
    request: pytest.FixtureRequest, qapp: QApplication, qtbot: QtBot, tmp_path: Path
) -> Iterator[Stage]:
    with (
        speaking(qapp, Language.SPANISH),
        opened_demo(tmp_path, step_us=12_500, hold_s=6.5, reps=2) as (session, window),
    ):
        asked = window.visit.asked
        qtbot.addWidget(window)
        window.resize(*request.param)
        window.show()
        made = Stage(session, window)
        made.frames(1)
        window.desk.form.fill(asked)  # shorter than the plan's, which stands there
        yield made


def texts(widget: QWidget) -> Iterator[str]:
    """All that a widget tells, on the screen, as a tip and to a screen reader."""
    if isinstance(widget, QLabel | QAbstractButton):
        yield widget.text()
    if isinstance(widget, QGroupBox):
        yield widget.title()
    if isinstance(widget, QComboBox):
        yield from (widget.itemText(index) for index in range(widget.count()))
    if isinstance(widget, QLineEdit):
        yield widget.placeholderText()
    yield from (widget.toolTip(), widget.accessibleName())
    yield widget.accessibleDescription()


def _pattern(source: str) -> str:
    """What the English text would look like with its values."""
    parts = re.split(r"\{[^{}]*\}", source)
    return ".*".join(re.escape(part) for part in parts)


def left_english() -> list[tuple[re.Pattern[str], str]]:
    """Patterns for the English texts that Spanish says otherwise.

    A long text is found anywhere, a short one only where it stands alone: short words
    are also parts of names, and some are words in both languages.
    """
    said_alike = set(KNOWN.values())
    found = []
    for text, spanish in KNOWN.items():
        source = text.source.strip()
        letters = re.sub(r"\{[^{}]*\}|[^A-Za-z]", "", source)
        if spanish.strip() == source or source in said_alike or len(letters) < 4:
            continue
        words = [one for one in re.split(r"\{[^{}]*\}", source) if one.strip()]
        anywhere = any(len(one) > 14 and " " in one.strip() for one in words)
        pattern = _pattern(source)
        found.append((re.compile(pattern if anywhere else f"^{pattern}$"), source))
    return found


ENGLISH = left_english()


def test_each_page_speaks_spanish(stage: Stage) -> None:
    own_data = {"Invented athlete", "English"}
    wrong = set()
    for name, page in stage.pages():
        for widget in in_sight(page):
            for text in filter(None, (t.strip() for t in texts(widget))):
                if text in own_data:
                    continue
                wrong |= {
                    (name, text, source)
                    for pattern, source in ENGLISH
                    if pattern.search(text)
                }
    assert not wrong, "\n".join(map(str, sorted(wrong)))


def test_a_set_under_way_speaks_spanish(stage: Stage) -> None:
    desk = stage.window.desk
    desk.start.click()
    stage.frames(5)
    if not desk.in_set:
        seen_s = time.monotonic() + SEEN_S
        while time.monotonic() <= seen_s:  # the window goes by the real clock
            stage.frames(1)
        desk.start.click()
    stage.cue(Cue.STAY)
    stage.frames(30)
    seen = [text for one in in_sight(stage.window) for text in texts(one) if text]

    assert "Así, mantener" in seen
    left = {t for t in seen for pattern, _ in ENGLISH if pattern.search(t.strip())}
    assert not left, "\n".join(sorted(left))


def test_numbers_have_a_comma(stage: Stage) -> None:
    point = re.compile(r"(?<![\d.:-])\d+\.\d+(?![\d.])")
    wrong = set()
    for name, page in stage.pages():
        for widget in in_sight(page):
            told = widget.text() if isinstance(widget, QLabel | QLineEdit) else ""
            if point.search(told):
                wrong.add((name, told))
    assert not wrong, "\n".join(map(str, sorted(wrong)))


def test_nothing_is_cut(stage: Stage) -> None:
    wrong = {
        (name, *found) for name, page in stage.pages() for found in cut_texts(page)
    }
    assert not wrong, "\n".join(map(str, sorted(wrong)))


COMMAND = "python -m biofeedback.gui.translations"


def test_each_text_of_the_code_has_its_spanish() -> None:
    """Run the command above, then write the Spanish of what it lists into the .ts."""
    collected = collect()

    assert not collected.faults, (
        "tr, phrase and marked take literals; see DEVELOPERS.md"
    )
    new = {t.source: place for t, place in collected.places.items() if t not in KNOWN}
    assert not new, f"new texts: run `{COMMAND}` and write their Spanish into the .ts"
    empty = [text.source for text, spanish in KNOWN.items() if not spanish.strip()]
    assert not empty, f"write the Spanish into the .ts, then run `{COMMAND}`"
    gone = [text.source for text in KNOWN if text not in collected.places]
    assert not gone, f"texts that nobody uses: run `{COMMAND}`"


def test_both_sides_have_the_same_placeholders() -> None:
    wrong = {
        text.source: spanish
        for text, spanish in KNOWN.items()
        if catalogue.placeholders(text.source) != catalogue.placeholders(spanish)
    }
    assert not wrong, "\n".join(map(str, sorted(wrong)))


def test_what_ships_is_what_the_catalogue_says() -> None:
    shipped = language.Catalogue()
    assert shipped.load(str(language.CATALOGUES / "biofeedback_es.qm"))

    wrong = {
        text: spanish
        for text, spanish in KNOWN.items()
        if shipped.translate("any", text.source, text.comment) != spanish
    }
    assert not wrong, f"run `{COMMAND}`"


def test_the_collector_finds_each_kind_of_text(tmp_path: Path) -> None:
    module = tmp_path / "page.py"
    module.write_text(
        'self.tr("One")\ntr("Two", "of a kind")\nphrase("Three {n}", n=3)\n'
        'marked("Four")\nQT_TRANSLATE_NOOP("Page", "Five")\nphrase("{n} · {m}")\n'
        "tr(name)\ntr(f'Six {n}')\npainter.translate(3, 4)\n"
        'numbered(n, "1 of seven", "{count} of seven", of=7)\nnumbered(n, one, many)\n',
        encoding="utf-8",
    )
    found = collect(tmp_path)

    assert set(found.places) == {
        Text("One"),
        Text("Two", "of a kind"),
        Text("Three {n}"),
        Text("Four"),
        Text("Five"),
        Text("1 of seven"),
        Text("{count} of seven"),
    }
    assert [fault.partition(": ")[0] for fault in found.faults] == [
        "page.py:7",
        "page.py:8",
        "page.py:11",
    ]


def test_dialogs_of_qt_speak_spanish(stage: Stage) -> None:
    """Their texts come with Qt; who builds on another Qt has to bring them along."""
    box = QMessageBox(
        QMessageBox.Icon.Question,
        "",
        "",
        QMessageBox.StandardButton.Save | QMessageBox.StandardButton.Cancel,
        stage.window,
    )
    told = {one.text().replace("&", "") for one in box.buttons()}

    assert told == {"Guardar", "Cancelar"}
