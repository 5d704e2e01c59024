"""The page of the plan: what is asked for over weeks, and when to move on.

Rules that hold here:

* A plan is edited as a draft and saved whole. What was typed stays where a field does
  not fit, and where another page is opened.
* Whatever is taken away comes back by undo, until the plan is saved or left.
* The program tells which criteria are met; moving the stage is another key.
"""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFileDialog, QWidget

from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui import plan_print
from biofeedback.gui.plan_view import PlanView
from biofeedback.session.planning import fresh_key
from biofeedback.training.intensity import Intensity, ToleranceOf
from biofeedback.training.plan import CAUTION, Plan, Stage
from biofeedback.training.planned import PlannedPrescription
from biofeedback.training.task import Task

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.gui.theme import Theme
    from biofeedback.session.planning import Planning, SideForces, StoredPlan
    from biofeedback.training.criteria import Criterion

UNDO_MOST = 50
JSON_FILES = "Plans (*.json)"
PDF_FILES = "PDF (*.pdf)"


class PlanPage(PlanView):
    """Plans of the athlete who is here.

    Signals:
        live_wanted: back to the live page.
    """

    live_wanted = Signal()

    def __init__(self, planning: Planning, parent: QWidget | None = None) -> None:
        super().__init__(self._known, parent)
        self._planning = planning
        self._code = ""
        self._athlete_id = ""
        self._stored: StoredPlan | None = None
        self._draft: Plan | None = None
        self._stage = 0
        self._chosen = 0  # prescription in the form
        self._dirty = False
        self._undo: list[tuple[Plan, int, int]] = []
        self._connect()

    def _connect(self) -> None:
        self.live.clicked.connect(self.live_wanted)
        self.plans.currentRowChanged.connect(self._choose_plan)
        self.stages.currentRowChanged.connect(self._choose_stage)
        self.prescriptions.currentRowChanged.connect(self._choose_prescription)
        self.form.edited.connect(self._touched)
        for line in (self.name.line, self.stage_name.line, self.from_week.line,
                     self.to_week.line):  # fmt: skip
            line.textEdited.connect(self._touched)
        for box in (self.note.box, self.stage_note.box):
            box.textChanged.connect(self._touched)
        self.criteria.added.connect(self._add_criterion)
        self.criteria.removed.connect(self._remove_criterion)
        self.criteria.said.connect(self._say)
        for button, act in (
            (self.begin, self._begin),
            (self.add_stage, self._add_stage),
            (self.remove_stage, self._remove_stage),
            (self.add_prescription, self._add_prescription),
            (self.remove_prescription, self._remove_prescription),
            (self.undo, self._take_back_one),
            (self.save, self._save),
            (self.revert, self._revert),
            (self.archive, self._archive),
            (self.copy, self._copy),
            (self.to_file, self._save_file),
            (self.from_file, self._open_file),
            (self.print, self._print),
        ):
            button.clicked.connect(partial(self._tried, act))
        self.onward.clicked.connect(lambda: self._tried(partial(self._move, 1)))
        self.back.clicked.connect(lambda: self._tried(partial(self._move, -1)))

    # What the window wants.

    def enter(self, athlete_code: str) -> None:
        """The page is shown; a draft that is not saved stays."""
        if athlete_code == self._code and self._dirty:
            return
        self._code = athlete_code
        self._tried(self._reload)
        self.plans.setFocus()

    def set_theme(self, theme: Theme) -> None:
        """Day or night; all of it is in the style sheet."""

    @property
    def dirty(self) -> bool:
        """Whether there is a draft that is not saved."""
        return self._dirty

    # Reading and showing.

    def _known(self, task: Task) -> SideForces:
        return self._planning.forces(self._athlete_id, task)

    def _reload(self, choose: str = "") -> None:
        person = self._planning.athlete(self._code)
        self._athlete_id = person.id if person else ""
        tasks = self._planning.tasks()
        self.form.offer(tasks)
        self.criteria.offer([task.name for task in tasks])
        self.offer_beginnings([plan.name for plan in self._planning.examples])
        others = [
            one for one in self._planning.athletes() if one.id != self._athlete_id
        ]
        self.offer_athletes([(one.details.code, one.id) for one in others])
        stored = self._planning.plans(self._athlete_id) if person else ()
        self.list_plans([(one.id, self._plan_line(one)) for one in stored], choose)
        chosen = [one for one in stored if one.id == choose] or [*stored[:1]]
        self._show_stored(chosen[0] if chosen else None)

    def _plan_line(self, stored: StoredPlan) -> str:
        stage = stored.plan.stages[stored.stage]
        return self.tr("{name}\n   now: {stage}").format(
            name=stored.plan.name, stage=stage.name
        )

    def _show_stored(self, stored: StoredPlan | None) -> None:
        self._stored = stored
        self._draft = stored.plan if stored else None
        self._stage = stored.stage if stored else 0
        self._chosen = 0
        self._dirty = False
        self._undo = []
        self._show_draft()

    def _show_draft(self) -> None:
        plan = self._draft
        self.set_open(plan is not None)
        if plan is None:
            self._show_keys()
            return
        self._stage = min(self._stage, len(plan.stages) - 1)
        stage = plan.stages[self._stage]
        now = self._stored.stage if self._stored else 0
        self.show_plan(plan, now=now, chosen=self._stage)
        self.show_stage(stage)
        self._chosen = min(self._chosen, max(0, len(stage.prescriptions) - 1))
        self.list_prescriptions(stage, self._chosen)
        if stage.prescriptions:
            self.form.show_planned(stage.prescriptions[self._chosen])
        self.form.setVisible(bool(stage.prescriptions))
        self._show_criteria(stage)
        self._show_keys()

    def _show_criteria(self, stage: Stage) -> None:
        stored = self._stored
        saved = stored is not None and not self._dirty
        if saved and stored is not None:
            judged = self._planning.judged(stored, self._stage)
        else:
            judged = self.unjudged(stage)
        under_way = stored is not None and stored.stage == self._stage
        self.criteria.show_judged(judged, editable=saved and under_way)

    def _show_keys(self) -> None:
        stored, plan = self._stored, self._draft
        last = len(plan.stages) - 1 if plan else 0
        saved = stored is not None and not self._dirty
        self.onward.setEnabled(saved and stored is not None and stored.stage < last)
        self.back.setEnabled(saved and stored is not None and stored.stage > 0)
        self.undo.setEnabled(bool(self._undo))
        self.save.setEnabled(plan is not None and (self._dirty or stored is None))
        self.revert.setEnabled(self._dirty)
        for button in (self.archive, self.copy):
            button.setEnabled(saved)

    # Choosing. The draft takes in what stands in the fields first.

    def _choose_plan(self, row: int) -> None:
        key = self.plan_key(row)
        if self.filling or not key or (self._stored and key == self._stored.id):
            return
        if self._dirty:
            self.say(self.tr("Save the plan, or take the change back, first."))
            self._choose_again()
            return
        self._tried(lambda: self._show_stored(self._planning.plan(key)))

    def _choose_again(self) -> None:
        self.choose_plan(self._stored.id if self._stored else "")

    def _choose_stage(self, row: int) -> None:
        if self.filling or row < 0 or row == self._stage:
            return
        if not self._take_in():  # all stays as it was typed
            self.mark(self.stages, self._stage)
            return
        self._stage, self._chosen = row, 0
        self._tried(self._show_draft)

    def _choose_prescription(self, row: int) -> None:
        if self.filling or row < 0 or row == self._chosen:
            return
        if not self._take_in():
            self.mark(self.prescriptions, self._chosen)
            return
        self._chosen = row
        self._tried(self._show_draft)

    def _touched(self) -> None:
        if not self.filling and self._draft is not None and not self._dirty:
            self._dirty = True
            self._show_keys()

    def _take_in(self) -> bool:
        """The fields into the draft; False after a complaint, and all stays typed."""
        plan = self._draft
        if plan is None or not self._dirty:
            return plan is not None
        stage = plan.stages[self._stage]
        prescriptions = [*stage.prescriptions]
        if prescriptions:
            typed = self.form.read()
            if typed is None:
                self.say(self.tr("Not taken over: a field needs another value."))
                return False
            prescriptions[self._chosen] = typed
        try:
            changed = self.read_stage(
                replace(stage, prescriptions=tuple(prescriptions))
            )
            self._draft = self.read_plan(plan.with_stage(self._stage, changed))
        except FieldError as error:
            if not self.complain(error):
                self.say(str(error))
            else:
                self.say(self.tr("Not taken over: a field needs another value."))
            return False
        return True

    # Changes of the draft, each with undo.

    def _change(self, change: Callable[[Plan], Plan]) -> bool:
        if self._draft is None or not self._take_in():
            return False
        before = (self._draft, self._stage, self._chosen)
        self._draft = change(self._draft)
        self._undo = [*self._undo, before][-UNDO_MOST:]
        self._dirty = True
        return True

    def _on_stage(self, change: Callable[[Stage], Stage]) -> Callable[[Plan], Plan]:
        return lambda plan: plan.with_stage(
            self._stage, change(plan.stages[self._stage])
        )

    def _begin(self) -> None:
        if self._dirty:
            self.say(self.tr("Save the plan, or take the change back, first."))
            return
        if not self._athlete_id:
            self.say(self.tr("Choose an athlete first."))
            return
        examples = {plan.name: plan for plan in self._planning.examples}
        plan = examples.get(self.beginning.currentText()) or _empty(self.tr("New plan"))
        self._start(plan)

    def _start(self, plan: Plan) -> None:
        self._stored, self._draft, self._stage, self._chosen = None, plan, 0, 0
        self._undo, self._dirty = [], True
        self._show_draft()
        self.say(self.tr("A new plan; it is kept when you save it."))

    def _add_stage(self) -> None:
        def added(plan: Plan) -> Plan:
            last = plan.stages[-1]
            new = Stage(self.tr("New stage"), last.to_week, last.to_week + 4)
            return replace(plan, stages=(*plan.stages, new))

        if self._change(added) and self._draft is not None:
            self._stage, self._chosen = len(self._draft.stages) - 1, 0
            self._show_draft()

    def _remove_stage(self) -> None:
        if self._draft is not None and len(self._draft.stages) == 1:
            self.say(self.tr("A plan has at least one stage."))
            return
        at = self._stage

        def without(plan: Plan) -> Plan:
            return replace(plan, stages=plan.stages[:at] + plan.stages[at + 1 :])

        if self._change(without):
            self._stage, self._chosen = max(0, at - 1), 0
            self._show_draft()
            self.say(self.tr("The stage is taken out. Undo brings it back."))

    def _add_prescription(self) -> None:
        def added(stage: Stage) -> Stage:
            return replace(stage, prescriptions=(*stage.prescriptions, _usual()))

        if self._change(self._on_stage(added)) and self._draft is not None:
            self._chosen = len(self._draft.stages[self._stage].prescriptions) - 1
            self._show_draft()

    def _remove_prescription(self) -> None:
        at = self._chosen

        def without(stage: Stage) -> Stage:
            kept = stage.prescriptions[:at] + stage.prescriptions[at + 1 :]
            return replace(stage, prescriptions=kept)

        if self._change(self._on_stage(without)):
            self._chosen = max(0, at - 1)
            self._show_draft()
            self.say(self.tr("Taken out. Undo brings it back."))

    def _add_criterion(self, criterion: Criterion) -> None:
        new = replace(criterion, key=fresh_key())
        if self._change(
            self._on_stage(
                lambda stage: replace(stage, criteria=(*stage.criteria, new))
            )
        ):
            self._tried(self._show_draft)

    def _remove_criterion(self, key: str) -> None:
        def without(stage: Stage) -> Stage:
            kept = tuple(one for one in stage.criteria if one.key != key)
            return replace(stage, criteria=kept)

        if self._change(self._on_stage(without)):
            self._tried(self._show_draft)
            self.say(self.tr("Taken out. Undo brings it back."))

    def _take_back_one(self) -> None:
        if self._undo:
            self._draft, self._stage, self._chosen = self._undo.pop()
            self._show_draft()
            self.say(self.tr("Taken back."))

    # Keeping.

    def _save(self) -> None:
        if not self._take_in() or self._draft is None:
            return
        key = self._stored.id if self._stored else ""
        key = self._planning.save(key, self._athlete_id, self._draft)
        self._reload(key)
        self.say(self.tr("Saved."))

    def _revert(self) -> None:
        self._reload(self._stored.id if self._stored else "")
        self.say(self.tr("As it was saved."))

    def _archive(self) -> None:
        if self._stored is None:
            return
        stored = self._stored
        self._planning.archive(stored.id)
        self._reload()
        self.offer_back(
            self.tr("Archived: {name}.").format(name=stored.plan.name),
            lambda: self._tried(partial(self._restore, stored.id)),
        )

    def _restore(self, key: str) -> None:
        self._planning.restore(key)
        self._reload(key)
        self.say(self.tr("The plan is back."))

    def _copy(self) -> None:
        to = self.copy_to.currentData()
        if self._stored is None or not to:
            self.say(self.tr("Choose an athlete to copy to."))
            return
        self._planning.copy(self._stored.id, to)
        code = self.copy_to.currentText()
        self.say(self.tr("Copied to {code}, at the first stage.").format(code=code))

    def _move(self, by: int) -> None:
        if self._stored is None:
            return
        stored = self._stored
        to = stored.stage + by
        self._planning.move(stored.id, to, self.reason.text)
        self.reason.set_text("")
        self._reload(stored.id)
        name = stored.plan.stages[to].name
        self.say(self.tr("Now at the stage: {name}.").format(name=name))

    def _say(self, key: str, met: bool) -> None:
        if self._stored is not None:
            stored = self._stored
            self._tried(
                lambda: self._planning.say(stored.id, self._stage, key, met=met)
            )
            self._tried(self._show_draft)

    # Files and paper.

    def _save_file(self) -> None:
        if self._take_in() and self._draft is not None:
            path = self._ask_path(self.tr("Save the plan"), JSON_FILES, ".json")
            if path is not None:
                self._planning.save_file(self._draft, path)
                self.say(self.tr("The plan is in {path}.").format(path=path))

    def _open_file(self) -> None:
        if self._dirty:
            self.say(self.tr("Save the plan, or take the change back, first."))
            return
        name, _ = QFileDialog.getOpenFileName(
            self, self.tr("Open a plan"), "", self.tr(JSON_FILES)
        )
        if name:
            self.open_file(Path(name))

    def open_file(self, path: Path) -> None:
        """A plan from a file, as a draft."""
        self._tried(lambda: self._start(self._planning.load_file(path)))

    def _print(self) -> None:
        if self._take_in() and self._draft is not None:
            path = self._ask_path(self.tr("Print the plan"), PDF_FILES, ".pdf")
            if path is not None:
                plan_print.write_pdf(self._draft, path, who=self._code)
                self.say(self.tr("The plan is in {path}.").format(path=path))

    def _ask_path(self, title: str, kinds: str, suffix: str) -> Path | None:
        name, _ = QFileDialog.getSaveFileName(self, title, "", self.tr(kinds))
        return Path(name).with_suffix(suffix) if name else None

    def _tried(self, act: Callable[[], object], *_: object) -> None:
        """Does it; what cannot be done is said."""
        try:
            act()
        except BiofeedbackError as error:
            self.say(str(error))


def _usual() -> PlannedPrescription:
    """What a new prescription begins with."""
    return PlannedPrescription(
        Task("Hold"),
        Intensity.around(50, 5, ToleranceOf.CENTRE),
        hold_s=10.0,
        reps=5,
        key=fresh_key(),
    )


def _empty(name: str) -> Plan:
    return Plan(name, (Stage(name, 0, 4, (_usual(),)),), note=CAUTION)
