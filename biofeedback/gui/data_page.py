"""The page of data: backups, erasing an athlete, and who did what.

For whoever keeps a practice's data and opens no terminal. It decides nothing: what is
done is the door's (`session.keeping`).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.audit_box import AuditBox
from biofeedback.gui.awaited import Awaited
from biofeedback.gui.backup_box import BackupBox
from biofeedback.gui.erase_box import EraseBox
from biofeedback.gui.language import shown, tr
from biofeedback.gui.plain_label import plain_label
from biofeedback.gui.tall_area import TallArea
from biofeedback.gui.wrapped_row import WrappedRow

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.session.keeping import Keeping

SIDE_PX = 520
AUDIT_PX = 400
"""At least; in large type it stands below."""


class DataPage(QWidget):
    """Backups and erasing at the left, what was done at the right.

    Args:
        folder: for backups, as it was picked last; empty for none.
        ordered: whether a running order is at the desk.

    Signals:
        live_wanted: back to the live page.
        folder_picked: another folder for backups, as text.
    """

    live_wanted = Signal()
    folder_picked = Signal(str)

    def __init__(
        self,
        keeping: Keeping,
        *,
        folder: str,
        ordered: Callable[[], bool],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Data"))
        self._keeping = keeping
        self.live = QPushButton(tr("Back to live"))
        self.live.clicked.connect(self.live_wanted)
        self.heading = QLabel(tr("Data: backup, erasing, who did what"))
        self.heading.setObjectName("who")
        self.awaited = Awaited(self)
        self.backup = BackupBox(keeping, self.awaited, folder)
        self.backup.picked.connect(self.folder_picked)
        self.erase = EraseBox(keeping, self.awaited, ordered)
        self.audit = AuditBox(keeping)
        self.sealed = plain_label(look="summary", text=
            tr("Names and recordings are sealed by a passphrase. README tells what "
               "that protects: “Sealing names and recordings”.")
            if keeping.sealed
            else tr("Names and recordings are not sealed: whoever has the files can "
                    "read them. README tells how to change that: “Sealing names and "
                    "recordings”.")
        )  # fmt: skip
        self.server = plain_label(look="summary", text=shown(keeping.on_server))
        self._lay_out()
        self.set_size(1.0)
        self.backup.made.connect(self._follow_backup)
        self.erase.erased.connect(self._follow_erasure)
        self.awaited.moved.connect(self._hold)

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self.live)
        head.addWidget(self.heading, 1)
        inner = QWidget()
        side = QVBoxLayout(inner)
        side.setContentsMargins(0, 0, 8, 0)
        side.setSpacing(8)
        for widget in (self.server, self.backup, _rule(), self.sealed, _rule(),
                       self.erase):  # fmt: skip
            side.addWidget(widget)
        on_server = bool(self.server.text())
        self.server.setVisible(on_server)  # before, it would be a window of its own
        for part in (self.backup, self.erase):
            part.setVisible(not on_server)
        side.addStretch(1)
        self._side = TallArea(inner)
        self._side.setAccessibleName(tr("Backup and erasing"))
        row = WrappedRow(spacing_px=18, fills=True)
        row.add(self._side)
        row.add(self.audit, 1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(12, 10, 12, 12)
        whole.addLayout(head)
        whole.addLayout(row, 1)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self._side.setMinimumWidth(round(SIDE_PX * size))
        self.audit.setMinimumWidth(round(AUDIT_PX * size))

    # The page.

    def enter(self) -> None:
        """The page is shown."""
        self.backup.renew()
        self.audit.renew()
        self.backup.run.setFocus()

    def _follow_backup(self) -> None:
        """The audit has it too; who is not here finds it there later."""
        if self.isVisible():
            self.audit.renew()

    def _follow_erasure(self) -> None:
        self.backup.renew()
        self.audit.renew()
        self.erase.code.line.setFocus()

    def escape(self) -> bool:
        """The stop key takes back what is asked before it leaves the page."""
        if self.erase.asking:
            self.erase.give_up()
            return True
        return self.erasing

    @property
    def erasing(self) -> bool:
        """Whether an athlete is being erased: the window waits on this page."""
        return self.erase.erasing

    def _hold(self) -> None:
        self.live.setEnabled(not self.erasing)

    def close_down(self) -> None:
        """Ends the threads of the page, and waits for them."""
        self.backup.close_down()
        self.awaited.close_down()


def _rule() -> QFrame:
    rule = QFrame()
    rule.setObjectName("rule")
    rule.setFixedHeight(1)
    return rule
