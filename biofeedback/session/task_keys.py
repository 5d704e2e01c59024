"""Which entries are of one task: by its key, whatever it was called at the time.

A task may be given another name, and two tasks may have the same. So the key tells;
the name stands in for it where an entry has none, and joins the one task of that name.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.training.task_names import task_words

if TYPE_CHECKING:
    from collections.abc import Iterable


class TaskKeys:
    """Keys and names of tasks.

    Args:
        entries: key and name of each entry, oldest first; an empty key is none.
    """

    def __init__(self, entries: Iterable[tuple[str | None, str]] = ()) -> None:
        self._names: dict[str, str] = {}
        self._by_name: dict[str, set[str]] = {}
        for key, name in entries:
            if key:
                self._names[key] = name
                self._by_name.setdefault(name, set()).add(key)

    def key(self, key: str | None, name: str) -> str:
        """What tells the task of an entry from others."""
        if key:
            return key
        keys = self._by_name.get(name, set())
        return next(iter(keys)) if len(keys) == 1 else name

    def name(self, key: str) -> str:
        """What the task was called last."""
        return task_words(self._names.get(key, key))

    def known(self, key: str) -> str:
        """The key, where it is one and no name; else empty."""
        return key if key in self._names else ""

    def named(self, name: str) -> frozenset[str]:
        """All keys of tasks that bear or bore a name, and the name itself."""
        return frozenset({*self._by_name.get(name, ()), name})
