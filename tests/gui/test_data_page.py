"""The page of data in the real window: backups put back, and an athlete erased.

Athletes are invented; the one who is erased has trained on the simulated rig. After an
erasure the test searches all folders by their bytes, not by the program's own search.
"""

from __future__ import annotations

import logging
import re
import shutil
import subprocess
import sys
import threading
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from logbook.sealed.place import sealed
from PySide6.QtCore import QTimer
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel, QWidget
from session.visit_on_rig import CODE, OnRig

from biofeedback.cli import log_file, main
from biofeedback.errors import RigError
from biofeedback.gui.window import Window
from biofeedback.logbook import folders, recordings
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.logbook.restore import restore
from biofeedback.logbook.sealed import key_file, keyring
from biofeedback.session import Session, demo
from biofeedback.session.keeping import FOLDER
from biofeedback.session.office import Office
from biofeedback.session.preferences import Preferences
from biofeedback.training.athlete import AthleteDetails
from biofeedback.tuning import errand

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pytestqt.qtbot import QtBot

    from biofeedback.gui.data_page import DataPage

NAME = "Ylva Erfundsdóttir"
STAYS, NAME_OF_STAYS = "INV-10", "Olek Musterström"
"""Its code holds the other as a part."""
HERE = "INV-20"
ASKED = replace(demo.PRESCRIPTION, reference=None)  # nothing speaks against it
WORDS = re.compile(rb"INV-1(?![0-9])|Ylva|Erfundsd")
WAIT_MS = 60_000
STEPS_MOST = 2000


class Desk:
    """The window as a command opens it: in the data folder, with its log."""

    def __init__(
        self,
        qtbot: QtBot,
        preferences: Preferences | None = None,
        *,
        fresh: bool = True,
    ) -> None:
        self.qtbot = qtbot
        self.base = folders.make_private(folders.data_folder())
        self.place = KeptPlace(folders.default_logbook(), folders.default_recordings())
        log_file.start(self.base)
        if fresh:
            with Logbook.open(self.place.logbook) as book:
                for code, name in ((CODE, NAME), (STAYS, NAME_OF_STAYS), (HERE, "")):
                    notes = f"{name} likes tea"
                    book.people.add(AthleteDetails(code, name, notes=notes))
                _train(book, self.place)
        logging.getLogger("biofeedback").info("%s was here", CODE)
        self.book = Logbook.open(self.place.logbook)
        self.session = Session(
            demo.source(seed=5, step_us=50_000),
            logbook=self.book,
            recordings=self.place.recordings,
            athlete_code=HERE,
        )
        self.kept: list[Preferences] = []
        self.window = Window(
            self.session,
            Office.of(self.book, self.place.recordings, self.session),
            prescription=ASKED,
            preferences=preferences,
            keep=self.kept.append,
        )
        qtbot.addWidget(self.window)
        self.window.resize(1280, 720)
        with qtbot.waitActive(self.window):
            self.window.show()
            self.window.activateWindow()
        for _ in range(5):
            self.frame()

    def frame(self) -> None:
        self.session.step()
        self.window.frame()

    def until(self, reached: Callable[[], bool]) -> None:
        for _ in range(STEPS_MOST):
            self.frame()
            if reached():
                return
        pytest.fail("what was waited for did not come")

    def press(self, key: str) -> None:
        focus: QWidget | None = self.window.focusWidget()
        QTest.keySequence(focus or self.window, QKeySequence(key))

    @property
    def page(self) -> DataPage:
        page = self.window.mounted.data
        assert page is not None
        return page

    def open(self) -> DataPage:
        """The page, once all disks were looked at."""
        self.press("Ctrl+Shift+B")
        assert self.window.pages.shown is self.page
        self.qtbot.waitUntil(lambda: not self.page.backup.looking, timeout=WAIT_MS)
        return self.page

    def done(self) -> None:
        """What is under way has ended, while the window draws on."""

        def over() -> bool:
            self.frame()
            return not self.page.awaited.busy

        self.qtbot.waitUntil(over, timeout=WAIT_MS)

    def back_up(self, disk: Path) -> None:
        self.page.backup.take_folder(disk)
        self.qtbot.waitUntil(lambda: not self.page.backup.looking, timeout=WAIT_MS)
        self.press("F9")
        self.done()

    def look_for(self, code: str) -> str:
        box = self.page.erase
        box.code.line.setFocus()
        box.code.line.clear()
        QTest.keyClicks(box.code.line, code)
        self.press("Return")
        self.done()
        return box.words.text()

    def erase(self, code: str) -> None:
        """Asks for it; the erasure is under way, or refused, after this."""
        self.look_for(code)
        box = self.page.erase
        assert box.asking
        assert box.again.line.hasFocus()
        QTest.keyClicks(box.again.line, code)
        self.press("Return")

    def codes(self) -> list[str]:
        return [each.code for each in self.book.athletes()]

    def close(self) -> None:
        self.window.close()
        self.book.close()


def _train(book: Logbook, place: KeptPlace) -> None:
    rig = OnRig(book, place.recordings)
    rig.begin()
    rig.rep_done()
    rig.session.note(f"{NAME} holds well")
    rig.step()
    rig.close()


@pytest.fixture(autouse=True)
def own_log(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """The log takes both hooks, and is let go of."""
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    root = logging.getLogger()
    before, level = list(root.handlers), root.level
    yield
    for handler in [each for each in root.handlers if each not in before]:
        root.removeHandler(handler)
        handler.close()
    root.setLevel(level)


@pytest.fixture
def desk(qtbot: QtBot) -> Iterator[Desk]:
    made = Desk(qtbot)
    yield made
    made.close()


@pytest.fixture
def disk(tmp_path: Path) -> Path:
    (tmp_path / "disk").mkdir()
    return tmp_path / "disk"


def spoken(*trees: Path) -> list[str]:
    """Where bytes of code or name stand."""
    return [
        f"{path}: {hit[0]!r}"
        for tree in trees
        for path in sorted(tree.rglob("*"))
        for hit in WORDS.finditer(
            path.name.encode() + b"\n" + (path.read_bytes() if path.is_file() else b"")
        )
    ]


# ------------------------------------------------------------------ the page


def test_the_way_there_is_by_key_and_from_the_athletes(desk: Desk) -> None:
    page = desk.open()
    desk.press("Esc")
    assert desk.window.pages.live_shown
    desk.press("Alt+A")
    button = desk.window.desk.pages.data
    desk.qtbot.waitUntil(button.isVisible, timeout=WAIT_MS)  # once it is laid out
    button.click()
    assert desk.window.pages.shown is page
    told = desk.window.mounted.sheet.findChildren(QLabel)
    assert any("erase an athlete" in label.text() for label in told)


def test_who_did_what_is_newest_first_and_by_athlete(desk: Desk) -> None:
    assert main(["audit", "--practitioner", "Dr Nobody"]) == 0
    desk.window.visit.change_athlete(STAYS)
    box = desk.open().audit
    told = [(row[2], row[3]) for row in box.rows]
    assert told[:2] == [("opened", STAYS), ("opened", HERE)]
    assert "(Dr Nobody)" in box.rows[0][1]
    QTest.keyClicks(box.code.line, CODE.lower())
    assert {row[3] for row in box.rows} == {CODE}
    QTest.keyClicks(box.code.line, "x")
    assert box.rows == ()
    assert "Nothing was done about inv-1x" in box.told.text()


def test_it_is_told_that_nothing_is_sealed_and_where_to_read(desk: Desk) -> None:
    assert "are not sealed" in desk.open().sealed.text()
    assert "“Sealing names and recordings”" in desk.page.sealed.text()


# ------------------------------------------------------------------ backups


def test_a_backup_from_the_window_can_be_put_back(
    desk: Desk, disk: Path, tmp_path: Path
) -> None:
    page = desk.open()
    assert page.backup.last.text().startswith("No backup is known yet.")
    desk.back_up(disk)
    told = page.backup.state.text()
    assert "made and was read back whole: the logbook and 1 recording, " in told
    assert "is not encrypted" in told
    assert f"in {disk / FOLDER}." in page.backup.last.text()
    assert page.audit.rows[0][2] == "backed up"
    assert desk.kept[-1].backup_folder == str(disk)
    there = KeptPlace(tmp_path / "new" / "logbook.db", tmp_path / "new" / "recordings")
    restore(disk / FOLDER, there)
    with Logbook.open(there.logbook) as book:
        assert [each.code for each in book.athletes()] == desk.codes()
        assert book.reps() == desk.book.reps() != []
    (one,) = there.recordings.iterdir()
    assert one.read_bytes() == (desk.place.recordings / one.name).read_bytes()


def test_back_up_now_asks_for_a_folder_and_then_backs_up(
    desk: Desk, disk: Path
) -> None:
    """As a first user does it: the key, the dialog, and nothing more."""
    page = desk.open()
    assert page.backup.where.text() == "No folder is picked yet."

    def pick() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, QFileDialog)
        dialog.selectFile(str(disk))
        dialog.accept()

    QTimer.singleShot(0, pick)
    desk.press("F9")
    desk.done()
    assert "made and was read back whole" in page.backup.state.text()
    assert (disk / FOLDER / "logbook.db").is_file()
    desk.qtbot.waitUntil(lambda: not page.backup.looking, timeout=WAIT_MS)
    assert f"in {disk / FOLDER}." in page.backup.last.text()


def test_who_gives_no_folder_gets_no_backup(desk: Desk) -> None:
    page = desk.open()
    asked = []

    def give_up() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, QFileDialog)
        asked.append(dialog)
        dialog.reject()

    QTimer.singleShot(0, give_up)
    desk.press("F9")
    assert asked
    assert not page.awaited.busy
    assert page.backup.where.text() == "No folder is picked yet."


def test_a_backup_from_before_sealing_is_told_until_it_is_made_anew(
    qtbot: QtBot, disk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """All is sealed between two starts of the window."""
    desk = Desk(qtbot)
    desk.open()
    desk.back_up(disk)
    assert not desk.page.backup.clear.isVisible()  # nothing is sealed, as told below
    desk.close()
    monkeypatch.setattr(key_file, "SCRYPT_N", 2**14)
    sealed(desk.place)
    desk = Desk(qtbot, Preferences(backup_folder=str(disk)), fresh=False)
    page = desk.open()
    assert "are sealed by a passphrase" in page.sealed.text()
    assert page.backup.clear.isVisible()
    assert "1 earlier copy is not sealed" in page.backup.clear.text()
    assert str(disk / FOLDER) in page.backup.clear.text()
    desk.press("F9")
    desk.done()
    assert "are sealed; codes" in page.backup.state.text()
    assert not page.backup.clear.isVisible()
    desk.press("Esc")
    assert not desk.open().backup.clear.isVisible()
    desk.close()
    keyring.forget()


def test_a_set_goes_on_while_a_backup_is_made(desk: Desk, disk: Path) -> None:
    """The window is on the live page, and no frame waits for the disk."""
    page = desk.open()
    page.backup.take_folder(disk)
    desk.qtbot.waitUntil(lambda: not page.backup.looking, timeout=WAIT_MS)
    page.backup.run.click()
    assert page.awaited.busy  # its end is told by the event loop, which has not run
    desk.press("Esc")
    desk.press("F5")
    desk.until(lambda: desk.window.desk.in_set)
    desk.until(lambda: bool(desk.window.desk.in_set and desk.window.drawn_age_s))
    desk.done()
    assert desk.window.desk.in_set
    assert "read back whole" in page.backup.state.text()
    desk.press("Esc")
    desk.until(lambda: not desk.window.desk.in_set)


def test_the_folder_is_there_again_after_a_start(qtbot: QtBot, disk: Path) -> None:
    desk = Desk(qtbot, Preferences(backup_folder=str(disk)))
    assert desk.open().backup.where.text() == f"Goes to: {disk / FOLDER}"
    shutil.rmtree(disk)
    desk.press("Esc")
    assert "is not here now. Plug its disk in" in desk.open().backup.where.text()
    desk.press("F9")
    desk.done()
    assert desk.page.backup.state.text().startswith("No backup was made.")
    assert not disk.exists()
    desk.close()


def test_a_folder_picked_while_disks_are_looked_at_is_the_one_that_is_told(
    desk: Desk, disk: Path
) -> None:
    box = desk.open().backup
    box.renew()
    assert box.looking
    box.take_folder(disk)
    desk.qtbot.waitUntil(lambda: not box.looking, timeout=WAIT_MS)
    assert box.where.text() == f"Goes to: {disk / FOLDER}"


def test_a_folder_that_takes_nothing_is_told_in_words(desk: Desk, disk: Path) -> None:
    desk.open()
    (disk / FOLDER).write_text("a file of this name")
    desk.back_up(disk)
    told = desk.page.backup.state.text()
    assert told.startswith("No backup was made.")
    assert FOLDER in told
    assert desk.page.backup.last.text().startswith("No backup is known yet.")


def test_closing_ends_a_backup_and_the_next_one_takes_it_up(
    desk: Desk, disk: Path
) -> None:
    """No thread is left, which each test is looked at for."""
    page = desk.open()
    page.backup.take_folder(disk)
    desk.qtbot.waitUntil(lambda: not page.backup.looking, timeout=WAIT_MS)
    page.backup.run.click()
    desk.window.close()
    assert not desk.window.isVisible()
    assert not page.awaited.busy
    assert main(["backup", str(disk / FOLDER)]) == 0
    assert (disk / FOLDER / "logbook.db").is_file()


@pytest.mark.expects_log("does not end")
def test_a_disk_that_never_answers_holds_up_no_set_when_the_window_closes(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(errand, "STOP_S", 0.2)
    before = set(desk.place.recording_files())
    page = desk.open()
    answer = threading.Event()
    page.awaited.start(
        "backup", lambda _tell: answer.wait(), done=print, failed=pytest.fail
    )
    try:
        desk.press("Esc")
        desk.press("F5")
        desk.until(lambda: desk.window.desk.in_set)
        desk.window.close()
        (path,) = set(desk.place.recording_files()) - before
        assert not recordings.read(path).survey().recovered
        with pytest.raises(RigError):
            desk.session.begin_set(ASKED)
    finally:
        answer.set()


def test_after_a_month_it_is_reminded_of(desk: Desk, disk: Path) -> None:
    """The logbook and the disk were kept for 40 days."""
    page = desk.open()
    desk.back_up(disk)
    assert "days ago" not in page.backup.last.text()
    manifest = disk / FOLDER / "manifest.json"
    old = (datetime.now(tz=UTC) - timedelta(days=40, hours=1)).isoformat()
    text = re.sub(r'"made_utc": "[^"]*"', f'"made_utc": "{old}"', manifest.read_text())
    manifest.write_text(text)
    desk.press("Esc")
    assert "That is 40 days ago" in desk.open().backup.last.text()


# ------------------------------------------------------------------ erasing


def test_an_athlete_is_erased_while_the_window_stays_open(
    desk: Desk, disk: Path
) -> None:
    desk.press("Alt+A")
    roster = desk.window.mounted.roster
    assert roster is not None
    (key,) = [each.id for each in desk.book.athletes() if each.code == CODE]
    roster.show_entry(key)
    assert roster.name.text == NAME
    page = desk.open()
    desk.back_up(disk)
    suffixes = {Path(each.split(": ")[0]).suffix for each in spoken(desk.base)}
    assert {".force", ".log"} < suffixes  # and the logbook, or the log beside it
    told = desk.look_for(CODE)
    (rows,) = re.findall(r"recordings 1, rows of the logbook (\d+), reports 0", told)
    assert f"Cleared as well: 1 copy, {disk / FOLDER}." in told
    assert f"Of {CODE}, {NAME} there would go" in told
    assert "snapshots of the disk" in told
    assert spoken(disk)  # nothing was done yet

    desk.erase(CODE)
    assert page.erasing
    # Until it is done nothing else may be asked of the window.
    for key in ("F5", "Esc", "Alt+A", "F2"):
        desk.press(key)
        assert desk.window.pages.shown is page
    assert not page.live.isEnabled()
    desk.window.close()
    assert desk.window.isVisible()
    desk.done()

    done = page.erase.words.text()
    assert f"{CODE} is erased" in done
    assert "Neither code nor name is found" in done
    again = desk.book.audit.list(limit=1)
    assert again[0].action == "erased"
    assert again[0].count > int(rows)  # and the recording, and what was in the copy
    logging.getLogger("biofeedback").info("the log goes on")
    assert spoken(desk.base, disk) == []
    assert "the log goes on" in (desk.base / "biofeedback.log").read_text()

    # The window works on: those who stay are there, and a set is kept.
    assert page.live.isEnabled()
    assert page.audit.rows[0][2:4] == ("erased", "–")
    assert roster.name.text == ""
    assert desk.codes() == [STAYS, HERE]
    desk.press("Alt+A")
    assert roster.list.count() == 2
    desk.press("Alt+A")
    desk.press("F5")
    desk.until(lambda: desk.window.desk.in_set)
    desk.until(lambda: desk.book.reps(athlete_code=HERE) != [])
    desk.press("Esc")
    desk.until(lambda: not desk.window.desk.in_set)


def test_the_erased_are_gone_from_a_backup_that_is_put_back(
    desk: Desk, disk: Path, tmp_path: Path
) -> None:
    desk.open()
    desk.back_up(disk)
    desk.erase(CODE)
    desk.done()
    there = KeptPlace(tmp_path / "new" / "logbook.db", tmp_path / "new" / "recordings")
    restore(disk / FOLDER, there)
    with Logbook.open(there.logbook) as book:
        assert [each.code for each in book.athletes()] == [STAYS, HERE]
    assert spoken(tmp_path / "new") == []


def test_who_is_at_the_desk_is_not_erased(desk: Desk) -> None:
    desk.open()
    told = desk.look_for(HERE)
    assert f"{HERE} is at the desk. Choose somebody else" in told
    assert not desk.page.erase.asking
    assert not desk.page.erase.erase.isVisible()


def test_nothing_is_erased_by_another_code(desk: Desk) -> None:
    desk.open()
    desk.look_for(CODE)
    box = desk.page.erase
    QTest.keyClicks(box.again.line, STAYS)
    assert not box.erase.isEnabled()
    desk.press("Return")
    assert box.again.error.text() == "That is not the code; nothing was erased."
    assert not desk.page.awaited.busy
    desk.press("Esc")
    assert desk.window.pages.shown is desk.page  # what was asked is taken back first
    assert not box.asking
    assert "Nothing of INV-7 is here." in desk.look_for("INV-7")
    assert "must be 1 to" in desk.look_for("no code!")
    assert desk.codes() == [CODE, STAYS, HERE]


def test_beside_another_program_nothing_is_erased(desk: Desk) -> None:
    code = (
        "import sys\n"
        "from biofeedback.logbook.database import Logbook\n"
        "book = Logbook.open(sys.argv[1])\n"
        "book.athletes()\n"
        "print('open', flush=True)\n"
        "sys.stdin.read()\n"
    )
    other = subprocess.Popen(  # noqa: S603  our own words
        [sys.executable, "-c", code, str(desk.place.logbook)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    )
    assert other.stdout is not None
    assert other.stdout.readline() == b"open\n"
    try:
        desk.open()
        desk.erase(CODE)
        desk.done()
    finally:
        other.communicate()
    told = desk.page.erase.words.text()
    assert told.startswith("Another program has this logbook open.")
    assert desk.codes() == [CODE, STAYS, HERE]
    assert desk.book.reps(athlete_code=CODE)
    desk.erase(CODE)
    desk.done()
    assert desk.codes() == [STAYS, HERE]


def test_what_is_still_being_written_is_waited_for(desk: Desk) -> None:
    """A set of another athlete was begun; the page itself cannot be reached in it."""
    desk.open()
    desk.look_for(CODE)
    desk.session.begin_set(ASKED)
    box = desk.page.erase
    QTest.keyClicks(box.again.line, CODE)
    box.erase.click()
    assert "A set is under way" in box.words.text()
    assert not desk.page.erasing
    assert CODE in desk.codes()
    desk.session.end_set()


def test_beside_a_running_order_nobody_is_erased(desk: Desk) -> None:
    """Its next set may begin by itself."""
    desk.window.visit.change_athlete(CODE)
    assert desk.window.order.on  # left over from the training
    desk.open()
    assert "A day is under way at the desk." in desk.look_for(STAYS)
    assert not desk.page.erase.asking
    assert STAYS in desk.codes()
