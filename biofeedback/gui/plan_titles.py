"""Names of plans and stages as they stand in fields and lists, and back again.

As `task_titles`: a text that the program brings along is shown in the language of the
interface and kept in English.
"""

from __future__ import annotations

from biofeedback.gui.language import as_kept, shown
from biofeedback.training.plan_names import PLAN_TEXTS, plan_words


def plan_title(name: str) -> str:
    """A name as it is shown."""
    return shown(plan_words(name))


def plan_name(title: str) -> str:
    """What is kept for a text that stands in a field, without blanks around it."""
    return as_kept(title, PLAN_TEXTS)
