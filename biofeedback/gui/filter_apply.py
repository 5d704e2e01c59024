"""The choice becomes the rig's filter: who says so, what changes, and the way back.

Nothing changes before a second press. What changed is kept in the history of filters
first, and only then is the rig asked to use it; recordings that are there keep theirs.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from biofeedback.conditioning.filter_facts import facts
from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui.field import Field
from biofeedback.gui.language import error_words, filled, shown, tr
from biofeedback.logbook.filter_log import SAME_RATE, FilterEntry
from biofeedback.tuning.candidates import name_of
from biofeedback.tuning.record import figures_of

if TYPE_CHECKING:
    from biofeedback.conditioning.profile import FilterChoice, RigProfile
    from biofeedback.logbook.filter_log import FilterLog
    from biofeedback.tuning.search import Found


@dataclass(frozen=True, slots=True)
class _Asked:
    """What waits for the second press."""

    entry: FilterEntry
    profile: RigProfile


class FilterApply(QWidget):
    """The foot of the form: apply A, put back what was.

    Args:
        log: where it is kept; None where nothing is.

    Signals:
        profile_wanted: the rig's profile with its new filter.
        said: words; empty takes them away.
    """

    profile_wanted = Signal(object)
    said = Signal(str)

    def __init__(self, log: FilterLog | None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._log = log
        self._profile: RigProfile | None = None
        self._found: Found | None = None
        self._a: FilterChoice | None = None
        self._asked: _Asked | None = None
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
        self.apply.setEnabled(known and self._log is not None and self._a is not None)
        self.undo.setEnabled(known and self._before() is not None)
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

    def _before(self) -> FilterEntry | None:
        profile = self._profile
        if self._log is None or profile is None:
            return None
        try:
            return self._log.before(profile.serial_number, profile.rate_hz)
        except BiofeedbackError as error:
            self.said.emit(error_words(error))
            return None

    # Asking.

    def _ask_apply(self) -> None:
        found, choice, profile = self._found, self._a, self._profile
        if found is None or choice is None or profile is None:
            return
        if abs(found.rate_hz / profile.rate_hz - 1.0) > SAME_RATE:
            words = tr(
                "The recordings have {there:g} samples a second and the rig {here:g}: "
                "settings belong to one rate."
            )
            self.said.emit(filled(words, there=found.rate_hz, here=profile.rate_hz))
            return
        score = found.score_of(choice)
        entry = self._entry(choice)
        if entry is None or score is None:
            return
        self._ask(
            replace(
                entry,
                recordings=found.keys,
                rule=found.wanted.rule.words,
                figures=figures_of(score),
            )
        )

    def _ask_undo(self) -> None:
        before = self._before()
        if before is None:
            return
        entry = self._entry(before.old)
        if entry is not None:
            self._ask(replace(entry, put_back=True))

    def _entry(self, new: FilterChoice) -> FilterEntry | None:
        """What would be kept; None where something has to be put right first."""
        profile = self._profile
        if profile is None:
            return None
        try:
            return FilterEntry(
                at_utc=datetime.now(tz=UTC).isoformat(timespec="seconds"),
                by=self.by.text,
                serial_number=profile.serial_number,
                rate_hz=profile.rate_hz,
                old=profile.filter,
                new=new,
                old_delay_s=facts(profile.filter, profile.rate_hz).delay_s,
                new_delay_s=facts(new, profile.rate_hz).delay_s,
            )
        except FieldError as error:
            if error.field == "by":
                self.by.complain(error.problem)
                self.by.line.setFocus()
            else:
                self.said.emit(error_words(error))
            return None

    def _ask(self, entry: FilterEntry) -> None:
        profile = self._profile
        if profile is None:
            return
        if entry.new == entry.old:
            self.said.emit(tr("The rig has this filter already."))
            return
        self._asked = _Asked(entry, replace(profile, filter=entry.new))
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
        asked, log = self._asked, self._log
        if asked is None or log is None:
            return
        try:
            log.add(asked.entry)
        except BiofeedbackError as error:
            self.said.emit(error_words(error))
            self.leave()
            return
        self.profile_wanted.emit(asked.profile)
        self.leave()
        self.said.emit(
            filled(
                tr("Rig {rig} now has {filter}. Kept by {by} in {file}."),
                rig=asked.entry.serial_number,
                filter=name_of(asked.entry.new),
                by=asked.entry.by,
                file=log.path.name,
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
