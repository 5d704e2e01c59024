"""The page before a sealed logbook, by its keys, and the window behind it."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest
from gui.cut_text import cut_texts
from logbook.sealed.place import PASSPHRASE, sealed
from PySide6.QtCore import QLocale, Qt, QTimer
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QCheckBox, QLabel, QLineEdit, QPushButton

from biofeedback.cli import main
from biofeedback.cli.passphrase import VARIABLE
from biofeedback.gui.language import speak
from biofeedback.gui.theme import DAY, NIGHT
from biofeedback.gui.unlock_page import UnlockPage
from biofeedback.gui.window import Window
from biofeedback.logbook import folders
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.logbook.sealed import key_file, keyring, reading
from biofeedback.session import demo_content
from biofeedback.session.preferences import Language
from biofeedback.session.unlocking import Unlocking, unlocking

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pytestqt.qtbot import QtBot


@pytest.fixture(autouse=True)
def fresh_keyring(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.setattr(key_file, "SCRYPT_N", 2**14)
    monkeypatch.delenv(VARIABLE, raising=False)
    keyring.forget()
    yield
    keyring.forget()


@pytest.fixture
def place() -> KeptPlace:
    """The demo's logbook, sealed, where the demo looks for it."""
    base = folders.make_private(folders.data_folder() / "demo")
    found = KeptPlace(folders.default_logbook(base), folders.default_recordings(base))
    folders.make_private(found.recordings)
    with Logbook.open(found.logbook) as logbook:
        demo_content.fill(logbook, found.recordings, now=datetime.now(tz=UTC))
    sealed(found)
    keyring.forget()
    return found


def waits(place: KeptPlace) -> Unlocking:
    found = unlocking(place.logbook)
    assert found is not None
    return found


@pytest.fixture
def page(qtbot: QtBot, place: KeptPlace) -> UnlockPage:
    made = UnlockPage(waits(place), DAY)
    qtbot.addWidget(made)
    made.show()
    made.activateWindow()
    qtbot.waitUntil(made.isActiveWindow)
    return made


def typed(page: UnlockPage, words: str, qtbot: QtBot) -> None:
    page.field.insert(words)
    QTest.keyClick(page.field, Qt.Key.Key_Return)
    qtbot.waitUntil(page.field.isEnabled)


def test_a_wrong_passphrase_is_told_and_the_right_one_opens(
    page: UnlockPage, place: KeptPlace, qtbot: QtBot
) -> None:
    assert page.focusWidget() is page.field
    assert page.field.echoMode() is QLineEdit.EchoMode.Password
    typed(page, "something quite else", qtbot)
    assert "This is not the passphrase." in page.message.text()
    assert page.field.text() == ""
    assert page.focusWidget() is page.field
    assert page.isVisible()
    with qtbot.waitSignal(page.ended):
        typed(page, PASSPHRASE, qtbot)
    assert page.opened
    assert unlocking(place.logbook) is None
    with Logbook.open(place.logbook) as book:
        assert any(each.name for each in book.athletes())


def test_nothing_typed_is_nothing_tried(page: UnlockPage) -> None:
    before = page.message.text()
    QTest.keyClick(page.field, Qt.Key.Key_Return)
    assert page.message.text() == before
    assert page.field.isEnabled()


def test_esc_leaves_and_opens_nothing(page: UnlockPage, qtbot: QtBot) -> None:
    page.field.insert(PASSPHRASE)
    with qtbot.waitSignal(page.ended):
        QTest.keyClick(page.field, Qt.Key.Key_Escape)
    assert not page.opened
    assert keyring.held() == ()
    assert page.field.text() == ""


def test_what_is_typed_can_be_seen(page: UnlockPage) -> None:
    page.seen.click()
    assert page.field.echoMode() is QLineEdit.EchoMode.Normal
    page.seen.click()
    assert page.field.echoMode() is QLineEdit.EchoMode.Password


def test_a_key_file_that_is_gone_is_told(place: KeptPlace, qtbot: QtBot) -> None:
    place.keys.unlink()
    page = UnlockPage(waits(place), DAY)
    qtbot.addWidget(page)
    page.show()
    assert not page.field.isVisible()
    assert "logbook.keys.json" in page.message.text()
    assert "from a backup" in page.message.text()
    with qtbot.waitSignal(page.ended):
        QTest.keyClick(page, Qt.Key.Key_Escape)
    assert not page.opened


def test_a_damaged_key_file_is_told(place: KeptPlace) -> None:
    place.keys.write_text("{")
    assert "damaged" in waits(place).problem


def test_a_plain_logbook_opens_by_itself(place: KeptPlace) -> None:
    assert unlocking(place.base / "no such.db") is None
    assert unlocking("postgresql://localhost/x") is None
    place.keys.unlink()
    with closing(sqlite3.connect(place.logbook)) as raw:
        raw.execute("DELETE FROM settings")
        raw.commit()
    assert unlocking(place.logbook) is None


def test_each_control_has_a_name_and_is_reached_by_tab(page: UnlockPage) -> None:
    reached = []
    for _ in range(8):
        here = page.focusWidget()
        reached.append(here)
        interface = QAccessible.queryAccessibleInterface(here)
        assert interface.text(QAccessible.Text.Name)
        QTest.keyClick(here, Qt.Key.Key_Tab)
    assert {page.field, page.seen, page.enter, page.leave} == set(reached)


@pytest.mark.parametrize("size", [1.0, 2.0])
@pytest.mark.parametrize("language", [Language.ENGLISH, Language.SPANISH])
@pytest.mark.parametrize("gone", [False, True])
def test_in_each_language_and_size_nothing_is_cut_or_left_in_english(
    qapp: QApplication,
    qtbot: QtBot,
    place: KeptPlace,
    *,
    size: float,
    language: Language,
    gone: bool,
) -> None:
    if gone:
        place.keys.unlink()
    spoken = speak(qapp, language)
    try:
        page = UnlockPage(waits(place), NIGHT, size=size)
        qtbot.addWidget(page)
        page.show()
        qapp.processEvents()
        if not gone:
            typed(page, "something quite else", qtbot)
            qapp.processEvents()
        assert list(cut_texts(page)) == []
        texts = [each.text() for each in page.findChildren(QLabel)]
        texts += [each.text() for each in page.findChildren(QPushButton)]
        texts += [each.text() for each in page.findChildren(QCheckBox)]
        english = {"sealed", "passphrase", "Close", "Open", "typed"}
        said = " ".join(texts).replace("biofeedback seal --recover", "")
        assert any(word in said for word in english) == (language is Language.ENGLISH)
    finally:
        for translator in spoken:
            qapp.removeTranslator(translator)
        QLocale.setDefault(QLocale.system())


# ---------------------------------------------------------------- the program itself


def watched(hand: Callable[[], None]) -> QTimer:
    timer = QTimer()
    timer.timeout.connect(hand)
    timer.start(50)
    return timer


def top(kind: type[UnlockPage | Window]) -> UnlockPage | Window | None:
    shown = [
        w
        for w in QApplication.topLevelWidgets()
        if isinstance(w, kind) and w.isVisible()
    ]
    return shown[0] if shown else None


@pytest.mark.slow
@pytest.mark.timeout(120)
@pytest.mark.usefixtures("qapp")
def test_the_demo_on_a_sealed_logbook_asks_and_records_sealed(
    place: KeptPlace,
) -> None:
    before = {path.name for path in place.recording_files()}
    stages: list[str] = []

    def hand() -> None:
        page, window = top(UnlockPage), top(Window)
        if isinstance(page, UnlockPage) and page.field.isEnabled():
            words = PASSPHRASE if stages else "not the right one"
            stages.append(page.message.text())
            page.field.insert(words)
            QTest.keyClick(page.field, Qt.Key.Key_Return)
        if isinstance(window, Window) and window.desk.in_set:
            stages.append("in a set")
            if len(stages) > 20:
                window.close_at_once()

    timer = watched(hand)
    try:
        assert main(["demo"]) == 0
    finally:
        timer.stop()
    assert "not the passphrase" in stages[1]
    assert stages.count("in a set") > 15
    (new,) = (p for p in place.recording_files() if p.name not in before)
    assert reading.is_sealed(new)
    with closing(sqlite3.connect(place.logbook)) as raw:
        names = [name for (name,) in raw.execute("SELECT name FROM athletes")]
    assert all(name is None or name.startswith("sealed:1:") for name in names)


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("gone", [False, True])
def test_who_leaves_the_page_leaves_the_program(
    place: KeptPlace,
    capsys: pytest.CaptureFixture[str],
    *,
    gone: bool,
) -> None:
    if gone:
        place.keys.unlink()

    def hand() -> None:
        page = top(UnlockPage)
        if page is not None:
            QTest.keyClick(page, Qt.Key.Key_Escape)

    timer = watched(hand)
    try:
        code = main(["demo"])
    finally:
        timer.stop()
    told = capsys.readouterr().err
    assert code == int(gone)
    assert ("its key is not here" in told) == gone


@pytest.mark.usefixtures("qapp")
def test_a_snapshot_takes_the_passphrase_from_a_file(place: KeptPlace) -> None:
    file = place.base / "passphrase"
    file.write_text(PASSPHRASE, encoding="utf-8")
    picture = place.base / "window.png"
    demo = ["demo", "--snapshot", str(picture), "--seconds", "0.2"]
    assert main(demo) == 1
    assert main([*demo, "--passphrase-file", str(file)]) == 0
    assert picture.exists()
