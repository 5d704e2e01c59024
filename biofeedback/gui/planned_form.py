"""One prescription of a plan, as fields. What was typed stays where it does not fit.

Everything that does not fit is said at once, each beside its field. The newtons of each
side, and of the ceiling, follow while one types.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import Signal

from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui.enum_box import choose
from biofeedback.gui.field import as_sentence
from biofeedback.gui.kept_fields import KeptFields
from biofeedback.gui.language import shown
from biofeedback.gui.lowering_words import against_words, missing_words, peak_words
from biofeedback.gui.planned_fields import BALANCE, PlannedFields
from biofeedback.gui.reference_rule_form import DIGITS, number, whole
from biofeedback.gui.task_titles import task_name, task_titles
from biofeedback.phrase import phrase, sentences
from biofeedback.session.lowering import FLOOR_PCT, PairMissing
from biofeedback.training.intensity import LEAST_PCT, Intensity
from biofeedback.training.intensity_words import number as plain
from biofeedback.training.planned import PlannedPrescription, ReferenceRule
from biofeedback.training.prescription import ClockRule
from biofeedback.training.reference import Definition, Origin
from biofeedback.training.task import Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtWidgets import QWidget

    from biofeedback.session.planning import SideReference

NUMBERS = ("hold_s", "rest_s", "grace_s")
COUNTS = ("reps", "sets")


class PlannedForm(PlannedFields):
    """Fields for a planned prescription.

    Args:
        references: what is 100 % for each side of a prescription, if it were today.

    Signals:
        edited: something was typed or chosen.
    """

    edited = Signal()

    def __init__(
        self,
        references: Callable[[PlannedPrescription], Sequence[SideReference]],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._references = references
        self._sides: Sequence[SideReference] = ()
        self._asked_of: object = None
        self._before: PlannedPrescription | None = None
        self._tasks: dict[str, Task] = {}
        self._no_rest_told = False
        self._filling = False
        # Those that a lowering fills by itself.
        self._kept = KeptFields(
            (self.clock, *self.intensity.in_order, *self.rule.in_order)
        )
        self._connect()

    def _connect(self) -> None:
        self.intensity.edited.connect(self._edited)
        self.rule.edited.connect(self._edited)
        for field in self.fields.values():
            field.line.textEdited.connect(self._edited)
        for box in (self.clock, self.order, self.feedback, self.start):
            box.currentIndexChanged.connect(self._edited)
        self.ceiling_unit.currentIndexChanged.connect(self._edited)
        self.task.currentTextChanged.connect(self._edited)
        self.floor.wanted.connect(self.take_floor)
        self.each_side.toggled.connect(self._edited)
        self.required.toggled.connect(self._edited)

    # What it is given.

    def offer(self, tasks: Sequence[Task]) -> None:
        """Tasks to choose from."""
        self._tasks = {task.name: task for task in tasks}
        self._filling, self._asked_of = True, None
        typed = self.task.currentText()
        self.task.clear()
        self.task.addItems(task_titles(self._tasks))
        self.task.setCurrentText(typed)
        self.rule.offer(list(self._tasks))
        self._filling = False

    def show_planned(self, planned: PlannedPrescription) -> None:
        """Puts a prescription into the fields."""
        self._filling, self._before, self._asked_of = True, planned, None
        self._no_rest_told = planned.rest_s == 0
        self._kept.forget()
        self.calm()
        self.task.setCurrentText(shown(planned.task.name))
        self.intensity.show_intensity(planned.intensity)
        self.rule.show_rule(planned.reference)
        for name in (*NUMBERS, *COUNTS, BALANCE):
            self.fields[name].set_number(getattr(planned, name), digits=DIGITS)
        in_newtons = planned.ceiling_n is not None
        self.ceiling_unit.setCurrentIndex(1 if in_newtons else 0)
        ceiling = planned.ceiling_n if in_newtons else planned.ceiling_pct
        self.fields["ceiling"].set_number(ceiling, digits=DIGITS)
        self.fields["note"].set_text(planned.note)
        for box, value in (
            (self.clock, planned.clock),
            (self.order, planned.side_order),
            (self.feedback, planned.feedback),
            (self.start, planned.start),
        ):
            choose(box, value)
        self.each_side.setChecked(planned.each_side)
        self.required.setChecked(planned.balance_required)
        self._filling = False
        self._follow()

    def take_floor(self) -> None:
        """The floor from the isometric peak of the task that the lowering names."""
        if self._fill_floor():
            self._follow()
            self.edited.emit()

    def _fill_floor(self) -> bool:
        """Puts it into the fields; False where it cannot be had, which is said."""
        named = self._tasks.get(self._name)
        pair = named.pair if named else ""
        found = [
            task.name for task in self._tasks.values() if pair in {task.key, task.name}
        ]
        if not pair or not found:
            self.floor.say((missing_words(PairMissing.NO_PAIR),))
            return False
        self.rule.show_rule(
            ReferenceRule(Origin.OTHER_TASK, Definition.PEAK, other_task=found[0])
        )
        self.intensity.show_intensity(Intensity.at_least(FLOOR_PCT))
        return True

    # What it gives.

    def read(self) -> PlannedPrescription | None:
        """The prescription as it was typed; None after complaints in the fields."""
        self.calm()
        before, wrong = self._before, list[FieldError]()
        intensity, values = self.intensity.read(), self._values(wrong)
        name = self._name
        if not name:
            wrong.append(FieldError("task.name", phrase("must not be empty.")))
        for error in wrong:
            self.complain(error)
        if wrong or before is None or intensity is None:
            return None
        if values["rest_s"] == 0 and not self._no_rest_told:
            self._no_rest_told = True
            self.fields["rest_s"].complain(
                self.tr("No rest between the reps? Save again if it is meant.")
            )
            return None
        try:
            made = replace(
                before, task=self._task(name, before), intensity=intensity, **values
            )
            made.check_kind()
        except FieldError as error:
            self.complain(error)
            return None
        return made

    def calm(self) -> None:
        """Nothing is complained of any more."""
        for field in self.fields.values():
            field.complain("")
        self.intensity.calm()
        self.rule.calm()
        self._complain_of_task("")

    def complain(self, error: FieldError) -> None:
        """Says what is wrong beside its field."""
        words = sentences(error.problem, error.next_step)
        if error.field.startswith("intensity."):
            self.intensity.complain(error)
            return
        if self.rule.complain(error):
            return
        own = {"ceiling_pct": "ceiling", "ceiling_n": "ceiling"}
        own |= {"balance_required": BALANCE}
        field = self.fields.get(own.get(error.field, error.field))
        if field is not None:
            field.complain(words)
        else:
            self._complain_of_task(words)

    def _task(self, name: str, before: PlannedPrescription) -> Task:
        """The known one of this name, with its position; else another by name."""
        known, same = self._tasks.get(name), name == before.task.name
        if known is not None and same and before.task.key not in {"", known.key}:
            return before.task  # another one has its name by now
        if known is not None:
            return known
        if same:
            return before.task
        return Task(name, before.task.kind, before.task.sides)

    def _values(self, wrong: list[FieldError]) -> dict[str, Any]:
        """All but task and intensity; what does not fit is added to `wrong`."""
        fields, chosen = self.fields, self.ceiling_unit.currentData()

        def read(what: Callable[[], object]) -> Any:
            try:
                return what()
            except FieldError as error:
                wrong.append(error)
                return None

        values: dict[str, Any] = {}
        for name in NUMBERS:
            values[name] = read(partial(number, fields[name], name))
        for name in COUNTS:
            values[name] = read(partial(whole, fields[name], name))
        ceiling = read(lambda: number(fields["ceiling"], chosen, empty=True))
        return {
            **values,
            BALANCE: read(lambda: number(fields[BALANCE], BALANCE, empty=True)),
            "reference": read(self.rule.read),
            "ceiling_pct": ceiling if chosen == "ceiling_pct" else None,
            "ceiling_n": ceiling if chosen == "ceiling_n" else None,
            "clock": self.clock.currentData(),
            "side_order": self.order.currentData(),
            "feedback": self.feedback.currentData(),
            "start": self.start.currentData(),
            "each_side": self.each_side.isChecked(),
            "balance_required": self.required.isChecked(),
            "note": fields["note"].text,
        }

    def _complain_of_task(self, words: str) -> None:
        self.task_error.setText(as_sentence(words))
        self.task_error.setVisible(bool(words))

    # What is seen while one types.

    def _edited(self) -> None:
        if not self._filling:
            if self.sender() is self.task:
                self._other_task()
            else:
                self._follow()
            self.edited.emit()

    def _other_task(self) -> None:
        """A task that is only passed over leaves nothing of its own behind."""
        self._complain_of_task("")
        filling, self._filling = self._filling, True
        self._kept.put_back()
        self._filling = filling
        lowering = self._kind() is TaskKind.LOWERING
        if lowering:
            self._kept.keep()
        if self._floor_is_due():
            self._fill_floor()
        self._follow()
        if lowering:
            self._kept.filled()

    def _floor_is_due(self) -> bool:
        """Whether a lowering with a partner was chosen, and no 100 % was yet."""
        name = self._name
        named = self._tasks.get(name)
        if self._before is not None and name == self._before.task.name:
            return False  # chosen back: it has the 100 % that it had
        if named is None or named.kind is not TaskKind.LOWERING or not named.pair:
            return False
        try:
            return self.rule.read() == ReferenceRule()
        except FieldError:
            return False
        finally:
            self.rule.calm()

    def _follow(self) -> None:
        """What a task's kind asks for, and the newtons of each side."""
        lowering = self._kind() is TaskKind.LOWERING
        words = self.tr("Tempo") if lowering else self.tr("Hold")
        self.fields["hold_s"].label.setText(words)
        self.fields["hold_s"].line.setAccessibleName(words)
        self.intensity.set_lowering(lowering=lowering)
        self.clock.setEnabled(not lowering)
        if lowering:
            filling, self._filling = self._filling, True
            choose(self.clock, ClockRule.RUNNING)
            self._filling = filling
        self._ask_references()
        self.floor.setVisible(lowering)
        self.floor.say(self._floor_words() if lowering else ())
        sides = [
            (
                shown(one.side.value) if one.side else "",
                one.reference.force_n if one.reference else None,
                shown(one.missing),
            )
            for one in self._sides
        ]
        self.intensity.show_references(sides)
        self.ceiling_newtons.setText(self._ceiling_words(sides))

    def _ask_references(self) -> None:
        """Asked for again only where something that they depend on is another."""
        name = self._name or "-"
        try:
            rule = self.rule.read()
        except FieldError:
            self._sides, self._asked_of = (), None
            return
        finally:
            self.rule.calm()
        task = self._tasks.get(name) or Task(name)
        order, each = self.order.currentData(), self.each_side.isChecked()
        asked_of = (task, rule, order, each)
        if asked_of == self._asked_of:
            return
        asked = PlannedPrescription(
            task,
            Intensity.at_least(LEAST_PCT),
            hold_s=1.0,
            reference=rule,
            side_order=order,
            each_side=each,
        )
        try:
            self._sides = self._references(asked)
        except BiofeedbackError:  # said by what is done next; typing goes on
            self._sides = ()
        self._asked_of = asked_of

    def _floor_words(self) -> tuple[str, ...]:
        """Of each side the peak it goes by, where it is of another task."""
        if self.rule.origin.currentData() is not Origin.OTHER_TASK:
            return ()
        today = datetime.now(tz=UTC).astimezone().date()
        name = self._name
        task = self._tasks.get(name) or Task(name or "-")
        told: list[str] = []
        for one in self._sides:
            if one.reference is None or one.side is None:
                told.append(shown(one.missing))
                continue
            of, tested = task.on_side(one.side), self.rule.other.currentText()
            told.append(peak_words(one.reference, of, today=today, tested=tested))
            told += against_words(one.reference, of, today=today)
        return tuple(part for part in told if part)

    def _ceiling_words(self, sides: Sequence[tuple[str, float | None, str]]) -> str:
        field = self.fields["ceiling"]
        told = field.error.text()
        value = field.number(empty=0.0)
        field.complain(told)
        if not value or not value > 0:  # nothing, or no number
            return ""
        if self.ceiling_unit.currentData() != "ceiling_pct":
            return ""
        parts = [
            self.tr("{side} {force} N").format(
                side=name, force=plain(force_n * value / 100)
            )
            for name, force_n, _ in sides
            if force_n is not None
        ]
        return self.tr("Ceiling: {forces}").format(
            forces=", ".join(part.strip() for part in parts)
        ) if parts else ""  # fmt: skip

    @property
    def _name(self) -> str:
        """Of the task that was typed or chosen."""
        return task_name(self.task.currentText())

    def _kind(self) -> TaskKind:
        known = self._tasks.get(self._name)
        if known is not None:
            return known.kind
        return self._before.task.kind if self._before else TaskKind.HOLD
