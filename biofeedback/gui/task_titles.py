"""Names and positions of tasks as they stand in fields and boxes, and back again.

A text that the program brings along stands there in the language of the interface and
is kept in English. Any other is shown and kept as it was typed.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.gui.language import as_kept, shown
from biofeedback.training.task_names import TASK_TEXTS, task_words

if TYPE_CHECKING:
    from collections.abc import Iterable


def task_title(name: str) -> str:
    """A name as it is shown."""
    return shown(task_words(name))


def task_titles(names: Iterable[str]) -> list[str]:
    """Several of them, to choose from."""
    return [task_title(name) for name in names]


def task_name(title: str) -> str:
    """What is kept for a text that stands in a field, without blanks around it."""
    return as_kept(title, TASK_TEXTS)
