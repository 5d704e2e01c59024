"""Who did what, on the page of data: the audit, newest first, to be read only."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from biofeedback.errors import BiofeedbackError
from biofeedback.gui.field import Field
from biofeedback.gui.language import error_words, filled, said, tr
from biofeedback.gui.plain_table import plain_table
from biofeedback.gui.review_rows import Table
from biofeedback.phrase import marked
from biofeedback.session.keeping import AUDIT_MOST
from biofeedback.session.local_time import day_and_time

if TYPE_CHECKING:
    from biofeedback.session.keeping import AuditRow, Keeping

ACTIONS = {
    "opened": marked("opened"),
    "exported": marked("exported"),
    "reported": marked("reported"),
    "backed up": marked("backed up"),
    "restored": marked("restored"),
    "rebuilt": marked("rebuilt"),
    "erased": marked("erased"),
    "sealed": marked("sealed"),
    "unsealed": marked("unsealed"),
}
"""As the logbook writes them; another word of an older program is shown as it is."""


class AuditBox(QWidget):
    """A table, and the code by which it is narrowed."""

    def __init__(self, keeping: Keeping, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._keeping = keeping
        self.title = QLabel(tr("Who did what"))
        self.title.setObjectName("look")
        self.code = Field(tr("Only this athlete (code)"), tip=tr("Empty: all"))
        self.code.line.textChanged.connect(self.renew)
        self._table = Table(
            (tr("When"), tr("Who"), tr("What"), tr("Athlete"), tr("How many"),
             tr("Where to"))
        )  # fmt: skip
        self.table = plain_table(self._table, tr("Who did what"), stretch=5)
        self.table.setTabKeyNavigation(False)  # Tab leads on
        self.told = QLabel()
        self.told.setObjectName("summary")
        self.told.setTextFormat(Qt.TextFormat.PlainText)
        self.told.setWordWrap(True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(5)
        for widget in (self.title, self.code, self.table, self.told):
            column.addWidget(widget)

    def renew(self) -> None:
        """What was done by now."""
        code = self.code.text
        try:
            rows = self._keeping.audit(code)
        except BiofeedbackError as error:
            self._table.set_rows(())
            self.told.setText(error_words(error))
            return
        self._table.set_rows([_cells(row) for row in rows])
        self.told.setText(_words(rows, code))

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """What is shown."""
        return self._table.rows


def _words(rows: tuple[AuditRow, ...], code: str) -> str:
    if not rows:
        return (
            filled(tr("Nothing was done about {code}, or it was erased."), code=code)
            if code
            else tr("Nothing was done yet.")
        )
    if len(rows) == AUDIT_MOST:
        return filled(tr("The newest {count}."), count=AUDIT_MOST)
    return tr(
        "Codes only, no names. Of somebody who was erased it is told that it was done, "
        "and not of whom."
    )


def _cells(row: AuditRow) -> tuple[str, ...]:
    who = f"{row.by_user} ({row.practitioner})" if row.practitioner else row.by_user
    what = ACTIONS.get(row.action)
    return (
        day_and_time(row.at_utc),
        who or "–",
        said(what) if what else row.action,
        row.code or "–",
        str(row.count) if row.count != 1 else "–",
        row.place or "–",
    )
