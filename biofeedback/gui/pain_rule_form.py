"""The cuts of the pain rule and the age at which a reference is old, as fields."""

from __future__ import annotations

import math

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from biofeedback.errors import FieldError
from biofeedback.gui.field import Field
from biofeedback.gui.language import shown
from biofeedback.training.day import SOURCES, PainRule


class PainRuleForm(QWidget):
    """Four numbers, and where they come from.

    Signals:
        rule_changed: another good `PainRule` stands in the fields.
        days_changed: another whole number of days.
    """

    rule_changed = Signal(object)
    days_changed = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.setAccessibleName(tr("Pain rule"))
        self.low = Field(
            tr("Little pain up to"), tip=tr("Above it the low end is proposed")
        )
        self.high = Field(tr("Advise to stop above"), tip=tr("0 to 10"))
        self.step = Field(
            tr("One step"), unit=tr("% of the range"), tip=tr("5 to 100 %")
        )
        self.days = Field(
            tr("Reference is old after"),
            unit=tr("days"),
            tip=tr("It is said then; it keeps nobody from starting"),
        )
        self.sources = QLabel(shown(SOURCES))
        self.sources.setObjectName("summary")
        self.sources.setWordWrap(True)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(14)
        grid.setVerticalSpacing(3)
        for place, field in enumerate((self.low, self.high, self.step, self.days)):
            grid.addWidget(field, place // 2, place % 2)
        grid.addWidget(self.sources, 2, 0, 1, 2)
        for field in (self.low, self.high, self.step):
            field.committed.connect(self._read_rule)
        self.days.committed.connect(self._read_days)

    def show_rule(self, rule: PainRule, stale_after_days: int) -> None:
        """What is in use."""
        self.low.set_number(rule.low)
        self.high.set_number(rule.high)
        self.step.set_number(100 * rule.step)
        self.days.set_number(stale_after_days)

    def complain_of_days(self, problem: str) -> None:
        """What is wrong with the days."""
        self.days.complain(problem)

    def _read_rule(self) -> None:
        low, high, step = self._whole(self.low), self._whole(self.high), self._step()
        if low is None or high is None or step is None:
            return
        try:
            rule = PainRule(low, high, step)
        except FieldError as error:
            by_name = {"pain_rule.low": self.low, "pain_rule.high": self.high}
            by_name.get(error.field, self.step).complain(error.problem)
            return
        self.rule_changed.emit(rule)

    def _read_days(self) -> None:
        days = self._whole(self.days)
        if days is not None:
            self.days_changed.emit(days)

    def _step(self) -> float | None:
        value = self.step.number()
        return None if value is None or math.isnan(value) else value / 100

    def _whole(self, field: Field) -> int | None:
        """A whole number; None after a complaint."""
        value = field.number()
        if value is None or math.isnan(value):
            return None
        if value % 1 or abs(value) > 1e6:
            field.complain(self.tr("Must be a whole number."))
            return None
        return int(value)
