"""The calibration page's parts and their places; decides nothing.

Left what is set beforehand, in the middle what to do now and the points, right what
comes of them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.calibration_form import CalibrationForm
from biofeedback.gui.field import Field
from biofeedback.gui.language import shown
from biofeedback.gui.plain_table import plain_table
from biofeedback.gui.residual_plot import ResidualPlot
from biofeedback.gui.review_rows import Table
from biofeedback.gui.still_bar import StillBar
from biofeedback.gui.wrapped_row import WrappedRow

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.conditioning.known_load import Reading
    from biofeedback.gui.theme import Theme

FORM_PX, POINTS_PX = 270, 316
"""At least, for what is set and for the points."""
NEXT_PX = 48
MESSAGE_PX = 44
STILL_PX = 44


class CalibrationView(QWidget):
    """All parts of the page, laid out."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("Calibration"))
        self._make_parts()
        self._lay_out()

    def _make_parts(self) -> None:
        tr = self.tr
        self.live = QPushButton(tr("Back to live"))
        self.heading = QLabel()
        self.heading.setObjectName("who")
        self.form = CalibrationForm()
        self.begin = QPushButton(tr("Begin"))
        self.next = QLabel()
        self.next.setObjectName("who")
        self.next.setWordWrap(True)
        self.care = QLabel(
            tr(
                "Masses can fall: secure each one, keep feet and hands from under it, "
                "and let nobody sit in the rig. Stay below the cell's rated load."
            )
        )
        self.care.setObjectName("summary")
        self.care.setWordWrap(True)
        self.still = StillBar()
        self.reference = Field(tr("Reference shows"), unit="N")
        self.take_point = QPushButton(tr("Take this point"))
        self.take_point.setObjectName("take")
        self.take_back = QPushButton(tr("Take back"))
        self.message = QLabel()
        self.message.setObjectName("message")
        self.message.setWordWrap(True)
        self.plot = ResidualPlot()
        self.points = Table(
            (tr("run"), tr("way"), tr("load"), tr("counts"), tr("spread")), self
        )
        self.table = plain_table(self.points, tr("Points"), stretch=2)
        self.words = QPlainTextEdit()
        self.words.setReadOnly(True)
        self.words.setTabChangesFocus(True)
        self.words.setAccessibleName(tr("Findings and figures"))
        self.label = Field(tr("Name"), tip=tr("Of the record; empty: its number"))
        self.save = QPushButton(tr("Keep and use"))
        self._side = QWidget()
        self.set_size(1.0)

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.addWidget(self.live)
        head.addWidget(self.heading, 1)
        left = QVBoxLayout()
        left.setContentsMargins(0, 0, 0, 0)
        left.addWidget(self.form)
        left.addWidget(self.begin)
        left.addStretch(1)
        left.addWidget(self.care)
        self._side.setLayout(left)
        keys = QHBoxLayout()
        keys.addWidget(self.reference, 2)
        keys.addWidget(self.take_point, 2)
        keys.addWidget(self.take_back, 1)
        middle = QVBoxLayout()
        middle.addWidget(self.next)
        middle.addWidget(self.still)
        middle.addLayout(keys)
        middle.addWidget(self.message)
        middle.addWidget(self.table, 3)
        keep = QHBoxLayout()
        keep.addWidget(self.label, 1)
        keep.addWidget(self.save)
        right = QVBoxLayout()
        right.addWidget(self.plot, 2)
        right.addWidget(self.words, 3)
        right.addLayout(keep)
        body = WrappedRow(spacing_px=14, fills=True)
        body.add(self._side, 24)
        body.add(middle, 33)
        body.add(right, 41)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 10, 12, 12)
        layout.addLayout(head)
        layout.addLayout(body, 1)

    def set_theme(self, theme: Theme) -> None:
        """Another set of colours."""
        self.still.set_theme(theme)
        self.plot.set_theme(theme)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self._side.setMinimumWidth(round(FORM_PX * size))
        self.table.setMinimumWidth(round(POINTS_PX * size))
        self.reference.line.setMinimumWidth(round(70 * size))
        self.next.setMinimumHeight(round(NEXT_PX * size))
        self.message.setMinimumHeight(round(MESSAGE_PX * size))
        self.still.setMinimumHeight(round(STILL_PX * size))
        self.plot.set_size(size)

    def say(self, message: str) -> None:
        """A message at its one place."""
        self.message.setText(shown(message))

    def show_points(self, readings: Sequence[Reading]) -> None:
        """The points so far, the newest in sight."""
        self.points.set_rows(
            [
                (
                    str(reading.run),
                    shown(reading.direction.value),
                    shown(reading.load.shown),
                    f"{reading.counts:.0f}",
                    f"{reading.spread_counts or 0:.0f}",
                )
                for reading in readings
            ]
        )
        self.table.scrollToBottom()
