"""The line after a lowering rep: what is said of it, and its numbers beside that."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from biofeedback.gui.lowering_words import number_words, rep_line_words, told_words

if TYPE_CHECKING:
    from biofeedback.training.lowering import RepLine


class LoweringLine(QWidget):
    """One line for the desk; hidden until there is a rep to tell of."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("Last lowering rep"))
        self.told = QLabel()
        self.told.setObjectName("look")
        self.numbers = QLabel()
        self.numbers.setObjectName("summary")
        for label in (self.told, self.numbers):
            label.setWordWrap(True)  # where the desk is narrow
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        layout.addWidget(self.told)
        layout.addWidget(self.numbers)
        self.show_line(None)

    def show_line(self, line: RepLine | None) -> None:
        """What is said of the newest rep; None where there is none."""
        self.setVisible(line is not None)
        if line is None:
            self.setAccessibleDescription("")
            return
        self.told.setText(f"{told_words(line)}.")
        numbers = number_words(line)
        self.numbers.setText(numbers[0].upper() + numbers[1:])
        self.setAccessibleDescription(rep_line_words(line))
