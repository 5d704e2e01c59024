"""A plan as a file: JSON that people can read, with a format and a version.

The file names no athlete. What it may hold is written down in `PLAN_FORMAT.md`.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError, FileError
from biofeedback.logbook import folders
from biofeedback.training.plan import PLAN_FORMAT, PLAN_VERSION, Plan
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from pathlib import Path

BYTES_MAX = 4 * 1024 * 1024
"""Many times the longest plan that the rules allow to be useful."""


def save(plan: Plan, path: Path) -> None:
    """Writes a plan, whole or not at all; a file that is there is replaced.

    Raises:
        FileError: the file cannot be written.
    """
    content = {
        "format": PLAN_FORMAT,
        "version": PLAN_VERSION,
        "plan": plan.to_json(),
    }
    text = json.dumps(content, indent=2, ensure_ascii=False)
    new = path.with_name(f".{path.name}.new")
    try:
        new.write_text(f"{text}\n", encoding="utf-8")
        new.replace(path)
    except OSError as error:
        new.unlink(missing_ok=True)
        problem = f"the plan cannot be written ({folders.reason(error)})."
        raise FileError(path, problem) from error


def load(path: Path) -> Plan:
    """Reads a plan.

    Raises:
        FileError: it cannot be read, is no plan, or is of a newer version; names the
            field that does not fit.
    """
    try:
        if path.stat().st_size > BYTES_MAX:
            raise FileError(path, "is far too long for a plan.")
        text = path.read_text(encoding="utf-8")
    except OSError as error:
        problem = f"cannot be read ({folders.reason(error)})."
        raise FileError(path, problem) from error
    except UnicodeDecodeError as error:
        raise FileError(path, "is no text.", place=f"byte {error.start}") from error
    try:
        content = json.loads(text)
    except json.JSONDecodeError as error:
        place = f"line {error.lineno}"
        raise FileError(path, "is no JSON.", place=place) from error
    except RecursionError as error:
        raise FileError(path, "is nested too deeply for a plan.") from error
    if not isinstance(content, dict):
        raise FileError(path, "is no plan: it must hold an object.")
    return _plan(path, Fields(content))


def _plan(path: Path, fields: Fields) -> Plan:
    try:
        _check_format(fields)
        version = fields.whole("version", least=1, most=1_000_000)
        if version <= PLAN_VERSION:
            return Plan.from_json(fields.inner("plan"))
    except FieldError as error:
        raise FileError(
            path, error.problem, place=error.field, next_step=error.next_step
        ) from error
    raise FileError(
        path,
        f"is version {version}, and this program knows {PLAN_VERSION}.",
        next_step="Update the program.",
    )


def _check_format(fields: Fields) -> None:
    if fields.text("format", longest=100) != PLAN_FORMAT:
        raise FieldError("format", f"must be “{PLAN_FORMAT}”.")
