"""The offer to record to another folder, where the disk does not take the recording.

It stands at the desk only while it is needed. The dialog holds nothing up: the window
goes on drawing, and in a set the stop key stops it, in the dialog too. What was
recorded still needs its folder then, so the dialog stays.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QFileDialog

from biofeedback.gui.file_place import PLACE
from biofeedback.gui.keymap import OTHER_FOLDER, STOP
from biofeedback.gui.keys import bind, native

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QWidget

    from biofeedback.gui.desk import Desk
    from biofeedback.gui.live_session import LiveSession


class OtherFolder(QObject):
    """Shows the button while a folder is needed, and asks for one.

    Args:
        desk: has the button, and knows of a set.
        over: what the dialog stands over.
        key: the key in use, of a usual one.
    """

    def __init__(
        self,
        session: LiveSession,
        desk: Desk,
        over: QWidget,
        *,
        key: Callable[[str], str],
    ) -> None:
        super().__init__(over)
        self._session = session
        self._desk = desk
        self._key = key
        self._button = button = desk.foot.elsewhere
        self._over = over
        self._dialog: QFileDialog | None = None
        self._told = ""  # in the set under way, or the last one
        button.clicked.connect(self.ask)

    def follow(self) -> None:
        """Shows or hides the offer; in a set it is told too, once."""
        needed = self._session.needs_folder
        if needed and self._desk.in_set and not self._told:
            self._warn()
        elif not needed:
            self._desk.messages.withdraw(self._told)
        if needed is self._button.isHidden():
            self._button.setVisible(needed)

    def begin(self, words: str) -> None:
        """A set begins: that is said, or that it is not on disk yet."""
        self._told = ""
        if self._session.needs_folder:
            self._warn()
        else:
            self._desk.messages.turn_over(words)

    def _warn(self) -> None:
        """The words stay in sight until something is done, or the disk takes it."""
        words = self.tr(
            "This set is not on disk yet: it waits in memory and is gone if the "
            "computer goes off. {key} records to another folder."
        )
        self._told = words.format(key=native(self._key(OTHER_FOLDER)))
        self._desk.advise(self._told)

    @property
    def dialog(self) -> QFileDialog | None:
        """The dialog while it is open."""
        return self._dialog

    def ask(self) -> None:
        """Opens the dialog; the window stays in use behind it.

        In a set that is on disk it would stand over the athlete's screen for nothing.
        """
        if self._desk.in_set and not self._session.needs_folder:
            words = self.tr("This set is on disk: it needs no other folder.")
            self._desk.say(words)
            return
        if self._dialog is not None:
            self._dialog.activateWindow()
            return
        title = self.tr("Record to another folder")
        dialog = QFileDialog(self._over, title, str(PLACE.folder))
        dialog.setFileMode(QFileDialog.FileMode.Directory)
        dialog.setOption(QFileDialog.Option.ShowDirsOnly)
        # The system's own would keep the stop key to itself.
        dialog.setOption(QFileDialog.Option.DontUseNativeDialog)
        bind(dialog, self._key(STOP), self._stop)
        dialog.setWindowModality(Qt.WindowModality.NonModal)
        dialog.fileSelected.connect(self._take)
        dialog.finished.connect(self._close)
        self._dialog = dialog
        dialog.show()

    def _stop(self) -> None:
        """The stop key while the dialog has the focus."""
        if self._desk.in_set:
            self._desk.stop.click()
        elif self._dialog is not None:
            self._dialog.reject()

    def _take(self, name: str) -> None:
        if name:
            self._session.record_in(Path(name))

    def _close(self) -> None:
        if self._dialog is not None:
            self._dialog.deleteLater()
            self._dialog = None
