"""The roster: athletes and tasks for the pages that show and edit them.

What is archived can be put back, one thing after the other, as long as the program
runs; later it is found among what is archived. Athletes and tasks each have a page,
and what is put back on one is of that page.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.logbook.letters import folded
from biofeedback.logbook.people import Person  # for the window
from biofeedback.logbook.task_list import StoredTask  # for the window
from biofeedback.phrase import phrase
from biofeedback.training.task import TaskKind

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.logbook.database import Logbook
    from biofeedback.training.athlete import AthleteDetails, BodyMass
    from biofeedback.training.task import Task

UNDO_MOST = 20
__all__ = ["Person", "PutAway", "Roster", "StoredTask"]


@dataclass(frozen=True, slots=True)
class _Archived:
    """One thing that can be put back: words for it, and how."""

    what: str
    restore: Callable[[], None]


class PutAway:
    """What was archived on one page, to be put back, the last first."""

    def __init__(self) -> None:
        self._things: list[_Archived] = []

    def add(self, what: str, restore: Callable[[], None]) -> None:
        """One thing more; of very many the oldest is not known any more."""
        self._things = [*self._things, _Archived(what, restore)][-UNDO_MOST:]

    @property
    def last(self) -> str:
        """What `undo` would put back; empty where there is nothing."""
        return self._things[-1].what if self._things else ""

    def undo(self) -> str:
        """Puts back what was archived last and says what it was.

        Raises:
            FieldError: its name is taken now; it stays archived, and the next time
                it is the turn of what was archived before it.
            FileError: the logbook cannot be written; one may try again.
        """
        if not self._things:
            return ""
        last = self._things[-1]
        try:
            last.restore()
        except FieldError:
            self._things.pop()
            raise
        return self._things.pop().what


class Roster:
    """Athletes and tasks of one logbook.

    Raises (every method): `FileError` where the logbook cannot be read or written.

    Attributes:
        athletes_put_away, tasks_put_away: what was archived since the start.
    """

    def __init__(self, logbook: Logbook) -> None:
        self._logbook = logbook
        self.athletes_put_away = PutAway()
        self.tasks_put_away = PutAway()

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

    def wrong_with_athlete(
        self, key: str, details: AthleteDetails, *, mass_date: str | None
    ) -> tuple[FieldError, ...]:
        """All that would keep an athlete from being saved.

        Args:
            key: of the athlete; empty for a new one.
            mass_date: of a newly typed body mass; None where none was typed.
        """
        return self._logbook.people.wrong_with(key, details, mass_date=mass_date)

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
        if key and mass == people.mass(key):
            mass = None  # known, and a fact is entered once
        if key:
            people.change(key, details, mass)
        else:
            key = people.add(details, mass)
        person = people.get(key)
        if person is None:
            raise BiofeedbackError(phrase("The athlete could not be read back."))
        return person

    def archive_athlete(self, person: Person) -> None:
        """Takes an athlete off the list, with undo."""
        people = self._logbook.people
        people.archive(person.id)
        self.athletes_put_away.add(
            person.details.code, lambda: people.restore(person.id)
        )

    def restore_athlete(self, person: Person) -> None:
        """Puts an archived athlete back."""
        self._logbook.people.restore(person.id)

    # Tasks.

    def tasks(
        self,
        words: str = "",
        *,
        archived: bool = False,
        shown_as: Callable[[Task], str] | None = None,
    ) -> tuple[StoredTask, ...]:
        """Those that hold every word, by name; the starter list on the first call.

        Args:
            shown_as: a task as it is written where it is looked for, perhaps in
                another language; words of that find it too.
        """
        tasks = self._logbook.tasks
        tasks.start()
        found = tasks.search(words, archived=archived)
        if shown_as is None or not words.strip():
            return found
        keys = {stored.task.key for stored in found}
        wanted = folded(words).split()
        return tuple(
            stored
            for stored in tasks.search(archived=archived)
            if stored.task.key in keys
            or all(word in folded(shown_as(stored.task)) for word in wanted)
        )

    def wrong_with_task(self, task: Task) -> tuple[FieldError, ...]:
        """All that would keep a task from being saved; without a key it is new."""
        return self._logbook.tasks.wrong_with(task)

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
        self.tasks_put_away.add(task.name, lambda: tasks.restore(task.key))

    def restore_task(self, task: Task) -> None:
        """Puts an archived task back.

        Raises:
            FieldError: another task has its name now.
        """
        self._logbook.tasks.restore(task.key)

    def task(self, key: str) -> Task | None:
        """One task, archived or not; or None."""
        return self._logbook.tasks.get(key)

    def pair_names(self, *, but: str) -> tuple[str, ...]:
        """Names of the isometric tasks a lowering can be held against."""
        tasks = (stored.task for stored in self.tasks())
        return tuple(
            task.name
            for task in tasks
            if task.kind is not TaskKind.LOWERING and folded(task.name) != folded(but)
        )

    def pair_name(self, pair: str) -> str:
        """The name of the task that a lowering is held against, by name or key."""
        named = self._logbook.tasks.get(pair) if pair else None
        return named.name if named else pair
