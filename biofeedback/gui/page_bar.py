"""The bar of pages at the head of the desk, in the order of a visit.

Who is here, how the day is, the test, the plan, and what was done: in this visit, rep
by rep, and over months. Tasks are set up seldom; they stand beside what else is. What
concerns the rig stands with the signal's health, looks and keys beside the athlete.
"""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget


class PageBar(QWidget):
    """A row of small buttons, one for each page."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.setAccessibleName(tr("Pages"))
        self.athletes = QPushButton(tr("Athletes"))
        self.today = QPushButton(tr("Today"))
        self.test = QPushButton(tr("Test"))
        self.plan = QPushButton(tr("Plan"))
        self.tasks = QPushButton(tr("Tasks"))  # shown beside the set-up
        self.group = QPushButton(tr("Group"))  # shown on the page of progress
        self.visit = QPushButton(tr("Visit"))
        self.review = QPushButton(tr("Review"))
        self.progress = QPushButton(tr("Progress"))
        self.reliability = QPushButton(tr("Reliability"))  # shown at the progress
        self.data = QPushButton(tr("Data"))  # shown on the page of the athletes
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(2)
        for button in (
            self.athletes,
            self.today,
            self.test,
            self.plan,
            self.visit,
            self.review,
            self.progress,
        ):
            button.setObjectName("page")
            row.addWidget(button, 1)
