"""The offer to record to another folder, where the disk does not take the recording.

It stands at the desk only while it is needed. The dialog holds nothing up: the window
goes on drawing, and the set can be stopped meanwhile.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QFileDialog

from biofeedback.gui.file_place import PLACE

if TYPE_CHECKING:
    from PySide6.QtWidgets import QPushButton, QWidget

    from biofeedback.gui.live_session import LiveSession


class OtherFolder(QObject):
    """Shows the button while a folder is needed, and asks for one.

    Args:
        button: of the desk.
        over: what the dialog stands over.
    """

    def __init__(
        self, session: LiveSession, button: QPushButton, over: QWidget
    ) -> None:
        super().__init__(over)
        self._session = session
        self._button = button
        self._over = over
        self._dialog: QFileDialog | None = None
        button.clicked.connect(self.ask)

    def follow(self) -> None:
        """Shows or hides the offer."""
        needed = self._session.needs_folder
        if needed is self._button.isHidden():
            self._button.setVisible(needed)

    @property
    def dialog(self) -> QFileDialog | None:
        """The dialog while it is open."""
        return self._dialog

    def ask(self) -> None:
        """Opens the dialog; the window stays in use behind it."""
        if self._dialog is not None:
            self._dialog.activateWindow()
            return
        title = self.tr("Record to another folder")
        dialog = QFileDialog(self._over, title, str(PLACE.folder))
        dialog.setFileMode(QFileDialog.FileMode.Directory)
        dialog.setOption(QFileDialog.Option.ShowDirsOnly)
        dialog.setWindowModality(Qt.WindowModality.NonModal)
        dialog.fileSelected.connect(self._take)
        dialog.finished.connect(self._close)
        self._dialog = dialog
        dialog.show()

    def _take(self, name: str) -> None:
        if name:
            self._session.record_in(Path(name))

    def _close(self) -> None:
        if self._dialog is not None:
            self._dialog.deleteLater()
            self._dialog = None
