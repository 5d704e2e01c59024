"""The choice becomes the rig's filter: who says so, what changes, and the way back.

Nothing changes before a second press. What changed is kept in the history of filters
first, and only then is the rig asked to use it; recordings that are there keep theirs.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from biofeedback.conditioning.filter_facts import facts
from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui.field import Field
from biofeedback.gui.language import error_words, filled, shown, tr
from biofeedback.session.rig_filter import Grounds
from biofeedback.tuning.candidates import name_of
from biofeedback.tuning.record import figures_of

if TYPE_CHECKING:
    from biofeedback.conditioning.profile import FilterChoice, RigProfile
    from biofeedback.session.rig_filter import FilterChange, RigFilters
    from biofeedback.tuning.search import Found


class FilterApply(QWidget):
    """The foot of the form: apply A, put back what was.

    Args:
        filters: the door to what is kept; None where nothing is.

    Signals:
        profile_wanted: the rig's profile with its new filter.
        said: words; empty takes them away.
    """

    profile_wanted = Signal(object)
    said = Signal(str)

    def __init__(
        self, filters: RigFilters | None, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._filters = filters
        self._profile: RigProfile | None = None
        self._found: Found | None = None
        self._a: FilterChoice | None = None
        self._asked: FilterChange | None = None
        self.present = QLabel()
        self.present.setWordWrap(True)
        self.by = Field(tr("By"), tip=tr("Who chooses; kept with the choice"))
        self.apply = QPushButton(tr("Use A for this rig…"))
        self.undo = QPushButton(tr("Put back the one before…"))
        self.confirm = QLabel()
        self.confirm.setObjectName("message")
        self.confirm.setWordWrap(True)
        self.yes = QPushButton(tr("Yes, use it"))
        self.no = QPushButton(tr("Leave it"))
        self.apply.clicked.connect(self._ask_apply)
        self.undo.clicked.connect(self._ask_undo)
        self.yes.clicked.connect(self._do)
        self.no.clicked.connect(self.leave)
        self._lay_out()
        self.leave()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.present)
        column.addWidget(self.by)
        column.addWidget(self.apply)
        column.addWidget(self.undo)
        column.addWidget(self.confirm)
        row = QHBoxLayout()
        row.addWidget(self.yes, 1)
        row.addWidget(self.no, 1)
        column.addLayout(row)

    def show_profile(self, profile: RigProfile | None) -> None:
        """The profile of the rig that is on."""
        if profile is not None and profile != self._profile:
            self._profile = profile
            self.leave()

    def show_choice(self, found: Found | None, a: FilterChoice | None) -> None:
        """What A is now, and where it was measured."""
        self._found, self._a = found, a
        self.leave()

    def leave(self) -> None:
        """Nothing waits for a second press."""
        self._asked = None
        self._show_asking(asking=False)
        self._show_present()

    def _show_asking(self, *, asking: bool) -> None:
        for widget in (self.confirm, self.yes, self.no):
            widget.setVisible(asking)
        for button in (self.apply, self.undo):
            button.setVisible(not asking)

    def _show_present(self) -> None:
        profile = self._profile
        known = profile is not None and bool(profile.serial_number)
        self.apply.setEnabled(
            known and self._filters is not None and self._a is not None
        )
        self.undo.setEnabled(known and self._can_undo())
        if profile is None or not known:
            self.present.setText(
                tr("No rig is connected, so none can be given a filter.")
            )
            return
        words = tr("Rig {rig} now: {filter}, delay {ms:.0f} ms.")
        self.present.setText(
            filled(
                words,
                rig=profile.serial_number,
                filter=name_of(profile.filter),
                ms=1000 * facts(profile.filter, profile.rate_hz).delay_s,
            )
        )

    def _can_undo(self) -> bool:
        profile = self._profile
        if self._filters is None or profile is None:
            return False
        try:
            return self._filters.can_undo(profile)
        except BiofeedbackError as error:
            self.said.emit(error_words(error))
            return False

    # Asking.

    def _ask_apply(self) -> None:
        found, choice, profile = self._found, self._a, self._profile
        score = found.score_of(choice) if found else None
        if self._filters is None or profile is None or found is None or score is None:
            return
        grounds = Grounds(
            rate_hz=found.rate_hz,
            recordings=found.keys,
            rule=found.wanted.rule.words,
            figures=figures_of(score),
        )
        try:
            change = self._filters.change(
                profile, score.choice, by=self.by.text, grounds=grounds
            )
        except BiofeedbackError as error:
            self._complain(error)
            return
        self._ask(change)

    def _ask_undo(self) -> None:
        if self._filters is None or self._profile is None:
            return
        try:
            change = self._filters.undo(self._profile, by=self.by.text)
        except BiofeedbackError as error:
            self._complain(error)
            return
        self._ask(change)

    def _complain(self, error: BiofeedbackError) -> None:
        """What is wrong in a field is said beside it."""
        if isinstance(error, FieldError) and error.field == "by":
            self.by.complain(error.problem)
            self.by.line.setFocus()
        else:
            self.said.emit(error_words(error))

    def _ask(self, change: FilterChange) -> None:
        self._asked = change
        entry = change.entry
        words = tr(
            "Rig {rig}: {old} becomes {new}. Delay {before:.0f} ms → {after:.0f} ms. "
            "From the next set on; recordings keep the filter they were made with."
        )
        self.confirm.setText(
            filled(
                words,
                rig=entry.serial_number,
                old=name_of(entry.old),
                new=name_of(entry.new),
                before=1000 * entry.old_delay_s,
                after=1000 * entry.new_delay_s,
            )
        )
        self._show_asking(asking=True)
        self.yes.setFocus()

    def _do(self) -> None:
        asked, filters = self._asked, self._filters
        if asked is None or filters is None:
            return
        try:
            profile = filters.keep(asked)
        except BiofeedbackError as error:
            self.said.emit(error_words(error))
            self.leave()
            return
        self.profile_wanted.emit(profile)
        self.leave()
        self.said.emit(
            filled(
                tr("Rig {rig} now has {filter}. Kept by {by} in {file}."),
                rig=asked.entry.serial_number,
                filter=name_of(asked.entry.new),
                by=asked.entry.by,
                file=filters.place,
            )
        )

    @property
    def asking(self) -> bool:
        """Whether a second press is waited for."""
        return self._asked is not None

    @property
    def words(self) -> str:
        """What is asked."""
        return shown(self.confirm.text())
