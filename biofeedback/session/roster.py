"""The roster: athletes and tasks for the pages that show and edit them.

What is archived can be put back by `undo`, one thing after the other, as long as the
program runs; later it is found among what is archived.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import BiofeedbackError
from biofeedback.logbook.people import Person, folded  # Person for the window
from biofeedback.logbook.task_list import StoredTask  # for the window

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.logbook.database import Logbook
    from biofeedback.training.athlete import AthleteDetails, BodyMass
    from biofeedback.training.task import Task

UNDO_MOST = 20
__all__ = ["Person", "Roster", "StoredTask", "Undo"]


@dataclass(frozen=True, slots=True)
class Undo:
    """What can be put back: words for it, and how."""

    what: str
    act: Callable[[], None]


class Roster:
    """Athletes and tasks of one logbook.

    Raises (every method): `FileError` where the logbook cannot be read or written.
    """

    def __init__(self, logbook: Logbook) -> None:
        self._logbook = logbook
        self._undo: list[Undo] = []

    # Athletes.

    def athletes(
        self, words: str = "", *, archived: bool = False
    ) -> tuple[Person, ...]:
        """Those whose code or name holds every word, by code."""
        return self._logbook.people.search(words, archived=archived)

    def athlete(self, key: str) -> Person | None:
        """One athlete, or None."""
        return self._logbook.people.get(key)

    def by_code(self, code: str) -> Person | None:
        """One athlete, or None."""
        return self._logbook.people.by_code(code)

    def same_name(self, details: AthleteDetails, *, but: str) -> tuple[Person, ...]:
        """Others of the same name: to be asked about before saving."""
        found = self._logbook.people.of_name(details.name)
        return tuple(person for person in found if person.id != but)

    def save_athlete(
        self, key: str, details: AthleteDetails, mass: BodyMass | None
    ) -> Person:
        """Enters or changes an athlete; all of it or nothing.

        Args:
            key: of the athlete; empty for a new one.
            mass: a newly typed body mass; None keeps what there is.

        Raises:
            FieldError: names the field that does not fit.
        """
        people = self._logbook.people
        if mass is not None:
            people.check_mass(mass)  # before anything is written
        if key:
            people.change(key, details)
        else:
            key = people.add(details)
        known = people.mass(key)
        if mass is not None and mass != known:
            people.add_mass(key, mass)
        person = people.get(key)
        if person is None:
            raise BiofeedbackError("The athlete could not be read back.")
        return person

    def archive_athlete(self, person: Person) -> None:
        """Takes an athlete off the list, with undo."""
        people = self._logbook.people
        people.archive(person.id)
        self._can_undo(person.details.code, lambda: people.restore(person.id))

    def restore_athlete(self, person: Person) -> None:
        """Puts an archived athlete back."""
        self._logbook.people.restore(person.id)

    # Tasks.

    def tasks(
        self, words: str = "", *, archived: bool = False
    ) -> tuple[StoredTask, ...]:
        """Those that hold every word, by name; the starter list on the first call."""
        self._logbook.tasks.start()
        return self._logbook.tasks.search(words, archived=archived)

    def save_task(self, task: Task) -> Task:
        """Enters a task without a key, or changes the one with its key.

        Raises:
            FieldError: names the field that does not fit.
        """
        if not task.key:
            return self._logbook.tasks.add(task)
        self._logbook.tasks.change(task)
        return task

    def archive_task(self, task: Task) -> None:
        """Takes a task off the list, with undo."""
        tasks = self._logbook.tasks
        tasks.archive(task.key)
        self._can_undo(task.name, lambda: tasks.restore(task.key))

    def restore_task(self, task: Task) -> None:
        """Puts an archived task back.

        Raises:
            FieldError: another task has its name now.
        """
        self._logbook.tasks.restore(task.key)

    def pair_names(self, *, but: str) -> tuple[str, ...]:
        """Names of the tasks a lowering can be held against."""
        names = (stored.task.name for stored in self.tasks())
        return tuple(name for name in names if folded(name) != folded(but))

    # Undo.

    @property
    def undoable(self) -> str:
        """What `undo` would put back; empty where there is nothing."""
        return self._undo[-1].what if self._undo else ""

    def undo(self) -> str:
        """Puts back what was archived last and says what it was.

        Raises:
            FieldError: its name is taken now; it stays archived.
        """
        if not self._undo:
            return ""
        last = self._undo.pop()
        last.act()
        return last.what

    def _can_undo(self, what: str, act: Callable[[], None]) -> None:
        self._undo = [*self._undo, Undo(what, act)][-UNDO_MOST:]
