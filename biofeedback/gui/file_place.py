"""Where a dialog for files opens: where one was last, and at first the documents."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QStandardPaths

if TYPE_CHECKING:
    from PySide6.QtWidgets import QFileDialog


class FilePlace:
    """Remembers a folder for as long as the program runs.

    Attributes:
        folder: where the next dialog opens.
    """

    def __init__(self) -> None:
        self._last: Path | None = None

    @property
    def folder(self) -> Path:
        """The last one, while it is there; else that of documents, or home."""
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
        self._last = Path(chosen[0]).parent
        return Path(chosen[0])


PLACE = FilePlace()
"""One for all pages: who saves a report saves the plan beside it."""
