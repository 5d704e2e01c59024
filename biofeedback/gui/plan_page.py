"""The page of the plan: what is asked for over weeks, and when to move on.

Rules that hold here:

* A plan is edited as a draft and saved whole. What was typed stays where a field does
  not fit, and where another page is opened.
* Whatever is taken away comes back by undo, until the plan is saved or left; a plan
  that was archived comes back whenever it is wanted.
* The program tells which criteria are met; moving the stage is another key.
* What must not go to another person with a plan is said once: names, and newtons.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal

from biofeedback.errors import FieldError
from biofeedback.gui.keys import bind, show_key
from biofeedback.gui.list_page import UNDO_KEY
from biofeedback.gui.plan_editor import PlanEditor, usual_prescription
from biofeedback.gui.plan_files import PlanFiles
from biofeedback.gui.plan_titles import plan_title
from biofeedback.gui.plan_words import plan_line
from biofeedback.session.plan_draft import PlanDraft
from biofeedback.training.plan import CAUTION, Plan, Stage

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from PySide6.QtWidgets import QWidget

    from biofeedback.session.planning import Planning, SideReference, StoredPlan
    from biofeedback.training.planned import PlannedPrescription


class PlanPage(PlanEditor):
    """Plans of the athlete who is here.

    Signals:
        live_wanted: back to the live page.
    """

    live_wanted = Signal()

    def __init__(self, planning: Planning, parent: QWidget | None = None) -> None:
        super().__init__(planning, self._today, parent)
        self._files = PlanFiles(self, planning)
        self._code = ""
        self._athlete_id = ""
        self._connect()
        self._show_keys()

    def _connect(self) -> None:
        lists, tr = self.lists, self.tr
        self.live.clicked.connect(self.live_wanted)
        lists.plans.currentRowChanged.connect(self._choose_plan)
        lists.archived.clicked.connect(partial(self._tried, self._list_plans))
        self.criteria.said.connect(self._say)
        for button, act in (
            (lists.begin, self._begin),
            (self.save, self._save),
            (self.revert, self._revert),
            (lists.archive, self._archive_or_back),
            (lists.copy, self._copy),
            (lists.to_file, self._save_file),
            (lists.from_file, self._open_file),
            (lists.print, self._print),
            (lists.onward, partial(self._move, 1)),
            (lists.back, partial(self._move, -1)),
        ):
            button.clicked.connect(partial(self._tried, act))
        for button, key, tip in (
            (lists.begin, "Ctrl+N", tr("A new plan, from what stands beside")),
            (self.save, "Ctrl+S", tr("Save the plan as it stands here")),
            (self.revert, "Ctrl+R", tr("The plan as it was saved")),
            (lists.archive, "Ctrl+D", tr("Off the list, or back on it")),
            (self.undo, UNDO_KEY, tr("Take the last step back")),
        ):
            show_key(button, key, tip)
            bind(self, key, button.click)  # dead while the page is hidden

    # What the window wants.

    def enter(self, athlete_code: str) -> None:
        """The page is shown; a draft that is not saved stays."""
        if self._dirty:  # of whom it is stands in the title
            return
        there = self._stored if athlete_code == self._code else None
        self._code = athlete_code
        self.title.setText(self.tr("Plan of {who}").format(who=athlete_code))
        self.say("")
        self._tried(lambda: self._reload(there.id if there else ""))
        self.lists.plans.setFocus()

    # Reading and showing.

    def _today(self, planned: PlannedPrescription) -> Sequence[SideReference]:
        return self._planning.references(self._athlete_id, planned)

    def _reload(self, choose: str = "") -> None:
        person = self._planning.athlete(self._code)
        self._athlete_id = person.id if person else ""
        tasks = self._planning.tasks()
        self.form.offer(tasks)
        self.criteria.offer([task.name for task in tasks])
        self.lists.offer_beginnings(
            [plan_title(plan.name) for plan in self._planning.examples]
        )
        others = [
            one for one in self._planning.athletes() if one.id != self._athlete_id
        ]
        self.lists.offer_athletes([(one.details.code, one.id) for one in others])
        listed = self._list_plans()
        chosen = [one for one in listed if one.id == choose] or [*listed[:1]]
        self._show_stored(chosen[0] if chosen else None)
        unread = self._planning.unread(self._athlete_id)
        if unread:
            self.say("\n".join(unread))

    def _list_plans(self) -> Sequence[StoredPlan]:
        """Reads the list again; what is open stays open."""
        stored = self._of_athlete()
        with_gone = self.lists.archived.isChecked()
        gone = self._of_athlete(archived=True) if with_gone else ()
        followed = self._planning.followed(self._athlete_id)
        self.lists.list_plans(
            [
                (one.id, plan_line(one, followed=one.id == followed))
                for one in (*stored, *gone)
            ],
            self._stored.id if self._stored else "",
        )
        return (*stored, *gone)

    def _of_athlete(self, *, archived: bool = False) -> Sequence[StoredPlan]:
        if not self._athlete_id:
            return ()
        return self._planning.plans(self._athlete_id, archived=archived)

    def _show_stored(self, stored: StoredPlan | None) -> None:
        self._stored, self._dirty = stored, False
        self._draft = PlanDraft(stored.plan, now=stored.stage) if stored else None
        self.lists.mark_plan(stored.id if stored else "")
        self._show_draft()

    def _show_keys(self) -> None:
        super()._show_keys()
        stored, lists = self._stored, self.lists
        saved = stored is not None and not self._dirty
        gone = stored is not None and stored.archived_utc is not None
        moves = saved and not gone
        now, last = (stored.stage, len(stored.plan.stages) - 1) if stored else (0, 0)
        lists.onward.setEnabled(moves and now < last)
        lists.back.setEnabled(moves and now > 0)
        lists.copy.setEnabled(saved)
        lists.archive.setEnabled(saved)
        lists.archive.setText(self.tr("Put back") if gone else self.tr("Archive"))

    # Choosing.

    def _choose_plan(self, row: int) -> None:
        key = self.lists.plan_key(row)
        if self.lists.filling or not key or (self._stored and key == self._stored.id):
            return
        if self._keeps():
            self.lists.mark_plan(self._stored.id if self._stored else "")
            return
        self.say("")
        self._tried(lambda: self._show_stored(self._planning.plan(key)))

    # Beginning.

    def _begin(self) -> None:
        if self._keeps():
            return
        examples = {plan_title(plan.name): plan for plan in self._planning.examples}
        chosen = self.lists.beginning.currentText()
        self._start(examples.get(chosen) or _empty(self.tr("New plan")))

    def _start(self, plan: Plan) -> None:
        if not self._athlete_id:
            self.say(self.tr("Choose an athlete first."))
            return
        self._stored, self._dirty = None, True
        self._draft = PlanDraft(plan.with_own_keys(), kept=False)
        self.lists.mark_plan("")
        self._show_draft()
        words = self.tr("A new plan; it is kept, and followed, when you save it.")
        self.say(f"{words} {self._files.newtons_of(plan)}".strip())

    # Keeping.

    def _save(self) -> None:
        draft, stored = self._draft, self._stored
        if draft is None or not self._take_in():
            return
        if stored is None:
            key = self._planning.save("", self._athlete_id, draft.plan)
        else:
            key = self._planning.save(
                stored.id, self._athlete_id, draft.plan, stage=draft.now, read=stored
            )
        at = draft.stage
        self._reload(key)
        if self._draft is not None and at < len(self._draft.plan.stages):
            self._draft.look_at(at)
            self._show_draft()
        self.say(self.tr("Saved."))

    def _revert(self) -> None:
        self._reload(self._stored.id if self._stored else "")
        self.say(self.tr("As it was saved."))

    def _archive_or_back(self) -> None:
        stored = self._stored
        if stored is None:
            return
        if stored.archived_utc is not None:
            self._restore(stored.id)
            return
        self._planning.archive(stored.id)
        self._reload()
        self.offer_back(
            self.tr("Archived: {name}.").format(name=plan_title(stored.plan.name)),
            lambda: self._tried(partial(self._restore, stored.id)),
        )

    def _restore(self, key: str) -> None:
        self._planning.restore(key)
        self._reload(key)
        self.say(self.tr("The plan is back."))

    def _copy(self) -> None:
        stored, lists = self._stored, self.lists
        to, code = lists.copy_to.currentData(), lists.copy_to.currentText()
        if stored is None or not to:
            self.say(self.tr("Choose an athlete to copy to."))
            return
        against = self._files.against(stored.plan, self._code, f"to {to}")
        if against:
            self.say(against)
            return
        self._planning.copy(stored.id, to)
        words = self.tr("Copied to {code}, who follows it from now on.")
        left = self._files.left_behind(stored.plan)
        went = stored.plan.without_typed_references()
        newtons = self._files.newtons_of(went)
        self.say(" ".join(filter(None, (words.format(code=code), left, newtons))))

    def _move(self, by: int) -> None:
        stored, reason = self._stored, self.lists.reason
        if stored is None:
            return
        to = stored.stage + by
        try:
            self._planning.move(stored.id, to, reason.text)
        except FieldError as error:
            if error.field != "move.reason":
                raise
            reason.complain(error.problem)
            return
        reason.set_text("")
        self._reload(stored.id)
        words = self.tr("Now at the stage: {name}. The other key moves back.")
        self.say(words.format(name=plan_title(stored.plan.stages[to].name)))

    def _say(self, key: str, met: bool) -> None:
        stored, draft = self._stored, self._draft
        if stored is None or draft is None:
            return
        self._tried(lambda: self._planning.say(stored.id, draft.stage, key, met=met))
        self._tried(partial(self._show_criteria, draft))

    # Files and paper.

    def _save_file(self) -> None:
        if self._draft is not None and self._take_in():
            plan = self._draft.plan
            against = self._files.against(plan, self._code, "a file")
            self.say(against or self._files.save(plan))

    def _open_file(self) -> None:
        if not self._keeps():
            path = self._files.which()
            if path is not None:
                self.open_file(path)

    def open_file(self, path: Path) -> None:
        """A plan from a file, as a draft."""
        self._tried(lambda: self._start(self._planning.load_file(path)))

    def _print(self) -> None:
        if self._draft is not None and self._take_in():
            now = self._draft.now if self._stored is not None else None
            plan = self._draft.plan
            words = self._files.print(plan, who=self._code, now=now, today=self._today)
            self.say(words)


def _empty(name: str) -> Plan:
    return Plan(name, (Stage(name, 0, 4, (usual_prescription(),)),), note=CAUTION)
