"""Dialogs for files open where one was last."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QStandardPaths
from PySide6.QtWidgets import QFileDialog

from biofeedback.gui.file_place import FilePlace
from biofeedback.logbook import folders
from biofeedback.session import last_folder

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

DOCUMENTS = QStandardPaths.StandardLocation.DocumentsLocation


@pytest.mark.usefixtures("qapp")
def test_it_opens_with_the_documents_and_then_where_one_was(
    qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place, seen = FilePlace(), list[Path]()
    answers = [tmp_path / "reports", tmp_path / "reports", None]
    (tmp_path / "reports").mkdir()
    monkeypatch.chdir(tmp_path)

    def answer(dialog: QFileDialog) -> int:
        (offered,) = dialog.selectedFiles()
        seen.append(Path(offered))
        folder = answers[len(seen) - 1]
        if folder is not None:
            dialog.setDirectory(str(folder))
            dialog.selectFile(str(folder / "chosen.pdf"))
        return int(folder is not None)

    monkeypatch.setattr(QFileDialog, "exec", answer)
    got = []
    for _ in answers:
        dialog = QFileDialog()
        qtbot.addWidget(dialog)
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.selectFile("offered")
        got.append(place.ask(dialog))
    documents = Path(QStandardPaths.writableLocation(DOCUMENTS))
    first = documents if documents.is_dir() else Path.home()
    assert [path.name for path in seen] == ["offered"] * 3
    assert [path.parent for path in seen] == [first, *[tmp_path / "reports"] * 2]
    assert got == [*[tmp_path / "reports" / "chosen.pdf"] * 2, None]
    (tmp_path / "reports").rmdir()
    assert place.folder == first, "a folder that is gone is none to open"


@pytest.mark.usefixtures("qapp")
def test_the_next_start_opens_where_one_was(
    qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    there = tmp_path / "informes ñ"
    there.mkdir()

    def answer(dialog: QFileDialog) -> int:
        dialog.setDirectory(str(there))
        dialog.selectFile(str(there / "chosen.pdf"))
        return 1

    monkeypatch.setattr(QFileDialog, "exec", answer)
    dialog = QFileDialog()
    qtbot.addWidget(dialog)
    dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    FilePlace(kept=True).ask(dialog)
    assert FilePlace(kept=True).folder == there
    assert FilePlace().folder != there
    kept = folders.data_folder() / last_folder.FILE_NAME
    for rubbish in (b"", b"\xff\xfe\x00", b"no/absolute/path", b"/x" * 9000):
        kept.write_bytes(rubbish)
        assert FilePlace(kept=True).folder != there
