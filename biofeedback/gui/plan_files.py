"""What leaves the plan page: a copy to another athlete, a file, paper.

A plan that goes to somebody else should name nobody, and its newtons were typed for one
person. Both are said, and keep nobody from it.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QFileDialog, QWidget

from biofeedback.gui import plan_print
from biofeedback.gui.file_place import PLACE
from biofeedback.gui.language import said
from biofeedback.phrase import marked

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from biofeedback.session.planning import Planning, SideReference
    from biofeedback.training.plan import Plan
    from biofeedback.training.planned import PlannedPrescription

JSON_FILES = marked("Plans (*.json)")
PDF_FILES = marked("PDF (*.pdf)")
TEXT_MOST = 60


class PlanFiles(QObject):
    """Ways out of the page, and in.

    Args:
        page: above which dialogs stand.
    """

    def __init__(self, page: QWidget, planning: Planning) -> None:
        super().__init__(page)
        self._page = page
        self._planning = planning
        self._said: object = None

    def against(self, plan: Plan, code: str, where: str) -> str:
        """What is to be said before a plan goes elsewhere; said once.

        Args:
            code: of the athlete whose plan it is.
            where: it goes.
        """
        text = self._planning.names_athlete(plan, code)
        asked = (where, text)
        if not text or asked == self._said:
            self._said = None
            return ""
        self._said = asked
        words = self.tr(
            "The plan names the athlete: “{text}”. Take the name out, or press again."
        )
        return words.format(text=text[:TEXT_MOST])

    def newtons_of(self, plan: Plan) -> str:
        """What newtons a plan brings along that were typed for somebody."""
        words = self.tr("Its newtons may be another person's, look at them: {places}.")
        return _of_places(words, plan.in_newtons)

    def left_behind(self, plan: Plan) -> str:
        """Which typed 100 % does not go with a plan to somebody else."""
        words = self.tr("The typed 100 % is left out, as it is a person's: {places}.")
        return _of_places(words, plan.typed_references)

    def save(self, plan: Plan) -> str:
        """Writes a plan where the practitioner says, and tells where it is."""
        path = self._ask_where(self.tr("Save the plan"), JSON_FILES, ".json")
        if path is None:
            return ""
        self._planning.save_file(plan, path)
        words = self.tr("The plan is in {path}.").format(path=path)
        return f"{words} {self.left_behind(plan)}".strip()

    def which(self) -> Path | None:
        """Which file the practitioner wants to open, if any."""
        title, kinds = self.tr("Open a plan"), said(JSON_FILES)
        name, _ = QFileDialog.getOpenFileName(
            self._page, title, str(PLACE.folder), kinds
        )
        return Path(name) if name else None

    def print(
        self,
        plan: Plan,
        *,
        who: str,
        now: int | None,
        today: Callable[[PlannedPrescription], Sequence[SideReference]],
    ) -> str:
        """Prints a plan where the practitioner says, and tells where it is.

        Args:
            who: code of the athlete.
            now: index of the stage under way, if one is.
            today: what is 100 % for each side.
        """
        path = self._ask_where(self.tr("Print the plan"), PDF_FILES, ".pdf")
        if path is None:
            return ""
        plan_print.write_pdf(plan, path, who=who, now=now, today=today)
        return self.tr("The plan is in {path}.").format(path=path)

    def _ask_where(self, title: str, kinds: str, suffix: str) -> Path | None:
        kind = said(kinds)
        return PLACE.ask_to_save(self._page, title, kind=kind, suffix=suffix)


def _of_places(words: str, places: Sequence[str]) -> str:
    """Words that name places; nothing where there are none."""
    if not places:
        return ""
    return words.format(places="; ".join(dict.fromkeys(places)))
