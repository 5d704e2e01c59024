"""Where a dialog for files opens: where one was last, and at first the documents."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QStandardPaths
from PySide6.QtWidgets import QFileDialog

from biofeedback.session import last_folder

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget


class FilePlace:
    """Remembers a folder, also for the next start.

    Args:
        kept: whether the next start of the program knows it too.

    Attributes:
        folder: where the next dialog opens.
    """

    def __init__(self, *, kept: bool = False) -> None:
        self._kept = kept
        self._last: Path | None = None
        self._read = not kept

    @property
    def folder(self) -> Path:
        """The last one, while it is there; else that of documents, or home."""
        if not self._read:
            self._read, self._last = True, last_folder.read()
        if self._last is not None and self._last.is_dir():
            return self._last
        place = QStandardPaths.StandardLocation.DocumentsLocation
        documents = Path(QStandardPaths.writableLocation(place))
        return documents if documents.is_dir() else Path.home()

    def ask(self, dialog: QFileDialog) -> Path | None:
        """What is chosen in a dialog that opens here; None where nothing is."""
        name = dialog.selectedFiles()
        dialog.setDirectory(str(self.folder))
        for one in name:
            dialog.selectFile(Path(one).name)  # as it was offered, in this folder
        chosen = dialog.selectedFiles() if dialog.exec() else []
        dialog.deleteLater()
        if not chosen:
            return None
        self._last, self._read = Path(chosen[0]).parent, True
        if self._kept:
            last_folder.keep(self._last)
        return Path(chosen[0])

    def ask_to_save(
        self, over: QWidget, title: str, *, kind: str, suffix: str, name: str = ""
    ) -> Path | None:
        """Where to save a file of one kind; None where that is given up.

        Args:
            over: what the dialog stands over.
            kind: as the dialog names it, such as ``PNG (*.png)``.
            suffix: put on by the dialog, which asks before a file is written over.
            name: that is offered.
        """
        dialog = QFileDialog(over, title)
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setNameFilter(kind)
        dialog.setDefaultSuffix(suffix)
        if name:
            dialog.selectFile(name)
        return self.ask(dialog)


PLACE = FilePlace(kept=True)
"""One for all pages: who saves a report saves the plan beside it."""
