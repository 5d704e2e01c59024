"""Which saved reps are listed: task, kind, dates; over the whole logbook."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QWidget

from biofeedback.gui.enum_box import enum_box, labelled, narrow
from biofeedback.gui.field import Field
from biofeedback.gui.task_titles import task_title
from biofeedback.session.review import RepKind, RepsWanted

if TYPE_CHECKING:
    from collections.abc import Sequence


class ReviewFilters(QWidget):
    """The row of filters.

    Signals:
        changed: other reps are wanted.
    """

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.task = QComboBox()
        self.task.setAccessibleName(tr("Task"))
        narrow(self.task)
        self.task.addItem(tr("all"), userData="")
        self.kind = enum_box(RepKind, tr("Kind"))
        self.kind.insertItem(0, tr("all"), userData=None)
        self.kind.setCurrentIndex(0)
        tip = tr("A date such as 2026-01-31; empty for no limit.")
        self.since = Field(tr("From"), tip=tip, error_below=False)
        self.until = Field(tr("To"), tip=tip, error_below=False)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(12)
        row.addLayout(labelled(tr("Task"), self.task), 3)
        row.addLayout(labelled(tr("Kind"), self.kind), 2)
        for field in (self.since, self.until):
            field.committed.connect(self.changed)
            row.addWidget(field, 1)
        self.task.currentIndexChanged.connect(self.changed)
        self.kind.currentIndexChanged.connect(self.changed)

    def offer(self, tasks: Sequence[str]) -> None:
        """The tasks to choose from; the choice stays where it can."""
        chosen = self.task.currentData()
        self.task.blockSignals(True)
        while self.task.count() > 1:
            self.task.removeItem(1)
        for name in tasks:
            self.task.addItem(task_title(name), userData=name)
        at = self.task.findData(chosen) if chosen else 0
        self.task.setCurrentIndex(max(0, at))
        self.task.blockSignals(False)

    @property
    def wanted(self) -> RepsWanted:
        """What is chosen; a date that is none is complained of and left out."""
        kind = self.kind.currentData()
        until = self._day(self.until)
        return RepsWanted(
            task=self.task.currentData(),
            since_utc=_midnight(self._day(self.since)),
            before_utc=_midnight(None if until is None else until + timedelta(days=1)),
            kind=kind if isinstance(kind, RepKind) else None,
        )

    @property
    def narrowed(self) -> bool:
        """Whether less than all is wanted."""
        return self.wanted != RepsWanted()

    def _day(self, field: Field) -> date | None:
        field.complain("")
        if not field.text:
            return None
        try:
            return date.fromisoformat(field.text)
        except ValueError:
            field.complain(self.tr("Type it as year-month-day, such as 2026-01-31."))
            return None


def _midnight(day: date | None) -> datetime | None:
    """When a day begins by the clock here."""
    if day is None:
        return None
    return datetime.combine(day, time()).astimezone().astimezone(UTC)
