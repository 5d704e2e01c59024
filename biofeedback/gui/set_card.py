"""One set of today: reference, proposal, place in the range, and the key to use it.

It is given a `SetOfDay` and shows it; another place or reference gives another one.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSlider,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.calm_wheel import CalmWheel
from biofeedback.gui.language import filled, localised, shown
from biofeedback.gui.spoken_names import speak_names
from biofeedback.gui.stated_form import StatedForm
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.training.intensity_words import newtons, number
from biofeedback.training.reference_words import candidate_words, described

if TYPE_CHECKING:
    from biofeedback.session.set_of_day import SetOfDay
    from biofeedback.training.day import PainRule

PLACES = 100
"""Steps of the slider from the low to the high end of a range."""


class SetCard(QFrame):
    """One set.

    Signals:
        wanted: a `SetOfDay` is to be used, and whether against the advice to stop.
        typed: a reference that was typed is to be kept, with the `SetOfDay`.
    """

    wanted = Signal(object, bool)
    typed = Signal(object, object)

    def __init__(self, one: SetOfDay, rule: PainRule, parent: QWidget | None = None):
        super().__init__(parent)
        self.setObjectName("card")
        self._shown = one
        self._rule = rule
        self._warned = False
        self._filling = False
        tr = self.tr
        self.title, self.dose = _label("who"), _label("summary")
        self.choice = QComboBox()
        self.choice.setAccessibleName(tr("Reference"))
        self.choice.setSizeAdjustPolicy(
            QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
        )
        self.choice.setMinimumContentsLength(24)
        self.type_one = QPushButton(tr("Type one"))
        self.reference, self.cautions = _label(""), _label("error")
        self.stated = StatedForm()
        self.stated.hide()
        self.force, self.band = _label("who"), _label("summary")
        self.place = QSlider(Qt.Orientation.Horizontal)
        self.place.setRange(0, PLACES)
        self.place.setSingleStep(5)
        self.place.setAccessibleName(tr("Place in the range"))
        self.low, self.high = QLabel(), QLabel()
        self.why, self.endurance = _label("look"), _label("summary")
        self.use = QPushButton(tr("Use this"))
        self.use.setObjectName("take")
        self.use.setToolTip(tr("Take this set to the desk (Ctrl+Return)"))
        # A button of its own: a double click must not be two decisions.
        self.go_on = QPushButton(tr("Go on against advice"))
        self.go_on.setToolTip(tr("It is kept that you did (Ctrl+Shift+Return)"))
        self.go_on.hide()
        self.told = _label("summary")
        self._lay_out()
        self._connect()
        self._wheel = CalmWheel(self)
        self._wheel.calm(self)
        speak_names(self)
        self.show_set(one, rule)

    def _lay_out(self) -> None:
        reference = QHBoxLayout()
        reference.addWidget(QLabel(self.tr("Reference")))
        reference.addWidget(self.choice, 1)
        reference.addWidget(self.type_one)
        left = QVBoxLayout()
        left.setSpacing(4)
        left.addWidget(self.title)
        left.addWidget(self.dose)
        left.addLayout(reference)
        for widget in (self.reference, self.stated, self.cautions):
            left.addWidget(widget)
        left.addStretch(1)
        range_row = QHBoxLayout()
        range_row.addWidget(self.low)
        range_row.addWidget(self.place, 1)
        range_row.addWidget(self.high)
        use = QHBoxLayout()
        use.addWidget(self.use)
        use.addWidget(self.told, 1)
        use.addWidget(self.go_on)
        right = QVBoxLayout()
        right.setSpacing(4)
        for widget in (self.force, self.band):
            right.addWidget(widget)
        right.addLayout(range_row)
        for widget in (self.why, self.endurance):
            right.addWidget(widget)
        right.addStretch(1)
        right.addLayout(use)
        halves = WrappedRow(self, spacing_px=18)
        halves.setContentsMargins(10, 6, 10, 6)
        halves.add(left, 1)
        halves.add(right, 1)
        self.set_size(1.0)

    def _connect(self) -> None:
        self.choice.currentIndexChanged.connect(self._choose)
        self.place.valueChanged.connect(self._move)
        self.type_one.clicked.connect(lambda: self._type(wanted=True))
        self.stated.left.connect(lambda: self._type(wanted=False))
        self.stated.typed.connect(lambda typed: self.typed.emit(typed, self._shown))
        self.use.clicked.connect(self._use)
        self.go_on.clicked.connect(self._go_on)

    @property
    def shown(self) -> SetOfDay:
        """The set as it stands, with what was changed."""
        return self._shown

    def show_set(self, one: SetOfDay, rule: PainRule) -> None:
        """Another day's report, rule or facts: everything is shown anew."""
        self._shown, self._rule, self._warned = one, rule, False
        self.setAccessibleName(shown(one.title))
        self.title.setText(shown(one.title))
        self._name_all(shown(one.title))
        self.dose.setText(shown(one.dose_words))
        self.told.setText("")
        self._filling = True
        self._fill_choice()
        self.place.setValue(round(PLACES * one.place))
        self._filling = False
        self._show()

    def _name_all(self, title: str) -> None:
        """There are several cards, and each control says of which set it is."""
        words = self.tr("{what}: {title}")
        for control, what in (
            (self.choice, self.tr("Reference")),
            (self.place, self.tr("Place in the range")),
            (self.type_one, self.type_one.text()),
            (self.use, self.tr("Use this")),
            (self.go_on, self.go_on.text()),
        ):
            control.setAccessibleName(words.format(what=what, title=title))
        self.choice.setAccessibleDescription(self.choice.accessibleName())

    def set_size(self, size: float) -> None:
        """Room for larger type."""
        self.use.setMinimumWidth(round(150 * size))

    def say(self, message: str) -> None:
        """What became of it, beside the button."""
        self.told.setText(shown(message))

    # What is changed.

    def _choose(self) -> None:
        candidate = self.choice.currentData()
        if not self._filling and candidate is not None:
            self._warned = False
            self._shown = self._shown.with_reference(candidate)
            self._show()

    def _move(self, value: int) -> None:
        if not self._filling:
            self._warned = False
            self._shown = self._shown.at(value / PLACES)
            self._show()

    def _type(self, *, wanted: bool) -> None:
        self.stated.setVisible(wanted)
        (self.stated.force.line if wanted else self.choice).setFocus()

    def _use(self) -> None:
        """Where stopping is advised it takes another press, of another button."""
        if not self._shown.advise_stop:
            self.wanted.emit(self._shown, False)
            return
        self._warned = True
        self._show_use()
        self.say(
            self.tr("Stopping is advised. Ask the treating clinician before going on.")
        )

    def _go_on(self) -> None:
        self._warned = False
        self.wanted.emit(self._shown, True)
        self._show_use()

    # What is shown.

    def _fill_choice(self) -> None:
        self.choice.clear()
        candidates = self._shown.choice.all
        for candidate in candidates:
            reference, today = candidate.reference, self._shown.today
            words = described(reference, today=today, note=candidate.note)
            mark = " ▲" if candidate.cautions else ""
            self.choice.addItem(shown(words) + mark, userData=candidate)
            self.choice.setItemData(
                self.choice.count() - 1,
                shown(candidate_words(candidate, today=today)),
                Qt.ItemDataRole.ToolTipRole,
            )
        chosen = self._shown.reference
        if chosen is None and candidates:
            self.choice.insertItem(0, self.tr("please choose"), userData=None)
            self.choice.setCurrentIndex(0)
        elif chosen in candidates:
            self.choice.setCurrentIndex(candidates.index(chosen))
        self.choice.setEnabled(bool(candidates))
        # Open, it is as wide as its longest line; closed, the line below has all.
        view = self.choice.view()
        view.setMinimumWidth(view.sizeHintForColumn(0) + 16)
        asked = self._shown.planned.intensity.wants_reference
        self.choice.setVisible(asked)
        self.type_one.setVisible(asked)

    def _show(self) -> None:
        one = self._shown
        problem = one.problem
        self.reference.setText(shown(one.reference_words or problem))
        cautions = (
            [problem, *one.cautions]
            if problem and one.reference_words
            else [*one.cautions]
        )
        _say(self.cautions, "\n".join(f"▲ {shown(words)}" for words in cautions))
        self.force.setText(
            self.tr("no newtons yet") if problem else shown(newtons(one.asked().band))
        )
        percent = shown(one.band_words).partition(" = ")[0]
        told = percent, self._torque(), self._ceiling()
        _say(self.band, "\n".join(part for part in told if part))
        self._show_range()
        _say(self.why, self._why())
        _say(self.endurance, one.endurance_words)
        self._show_use()

    def _ceiling(self) -> str:
        """The force that must not be passed; empty where there is none."""
        ceiling_n = None if self._shown.problem else self._shown.asked().ceiling_n
        if ceiling_n is None:
            return ""
        words = self.tr("Ceiling {n} N: not to be passed")
        return filled(words, n=number(ceiling_n))

    def _torque(self) -> str:
        """The band about the joint, where the lever arm of the task is known."""
        one = self._shown
        setup = one.planned.task.setup
        if setup is None or setup.lever_arm_m is None or one.problem:
            return ""
        band, arm_m = one.asked().band, setup.lever_arm_m
        if band.open_above:
            words = self.tr("at least {low} N·m")
            return filled(words, low=number(band.lower_n * arm_m))
        words = self.tr("{low} to {high} N·m at a lever arm of {arm} m")
        return filled(
            words,
            low=number(band.lower_n * arm_m),
            high=number(band.upper_n * arm_m),
            arm=localised(f"{arm_m:g}"),
        )

    def _show_range(self) -> None:
        one = self._shown
        room = one.planned.intensity.leaves_room
        for widget in (self.low, self.place, self.high):
            widget.setVisible(room)
        if not room:
            return
        low, high = (one.planned.intensity.centre(end) for end in (0.0, 1.0))
        unit = "%" if one.planned.intensity.wants_reference else "N"
        self.low.setText(filled("{n} {unit}", n=number(low), unit=unit))
        self.high.setText(filled("{n} {unit}", n=number(high), unit=unit))
        self.place.setToolTip(self.tr("The arrow keys move the band in the range."))
        self.place.setAccessibleDescription(shown(one.band_words))

    def _why(self) -> str:
        one = self._shown
        reason = one.reason_words(self._rule)
        if not reason:
            return self.tr("Answer “pain now” for a proposal.")
        if one.advise_stop:  # why stands once, above all sets
            return self.tr("Nothing is proposed: stopping is advised.")
        proposed = one.proposal.place if one.proposal else None
        if proposed is None or not one.planned.intensity.leaves_room:
            return reason
        if abs(proposed - one.place) < 0.5 / PLACES:
            return filled(self.tr("Proposed. {reason}"), reason=reason)
        centre = number(one.planned.intensity.centre(proposed))
        unit = "%" if one.planned.intensity.wants_reference else "N"
        return filled(
            self.tr("Changed; proposed is {n} {unit}. {reason}"),
            n=centre,
            unit=unit,
            reason=reason,
        )

    def _show_use(self) -> None:
        self.use.setEnabled(
            not self._shown.problem and self._shown.proposal is not None
        )
        self.go_on.setVisible(self._warned and self.use.isEnabled())


def _label(name: str) -> QLabel:
    label = QLabel()
    label.setObjectName(name)
    label.setWordWrap(True)
    return label


def _say(label: QLabel, words: str) -> None:
    """Words, and no room for none."""
    label.setText(shown(words))
    label.setVisible(bool(words))
