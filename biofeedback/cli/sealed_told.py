"""What `seal` and `unseal` tell of what was done."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from biofeedback.logbook.sealing import Sealed


def tell(
    done: Sealed, words: str, *, command: str, as_json: bool, **more: object
) -> int:
    """Tells it to people or as JSON, and what could not be done.

    Args:
        words: of what was done, for people.
        more: what the JSON holds besides.

    Returns:
        The exit code, which is 0 only where nothing was left.
    """
    if as_json:
        told = {
            "values": done.values,
            "recordings": done.recordings,
            "before": done.before,
            "in_use": done.in_use,
            "problems": done.problems,
            **more,
        }
        print(json.dumps(told, ensure_ascii=False))
    else:
        print(words)
    for problem in done.problems:
        print(f"biofeedback {command}: {problem}", file=sys.stderr)
    return 1 if done.problems or done.in_use else 0


def in_use(done: Sealed) -> list[str]:
    """The line on recordings that a program was writing; none where none was."""
    if not done.in_use:
        return []
    return [f"Being written, and left: {done.in_use} recordings. Do it again later."]
