"""A plan as a file: JSON that people can read, with a format and a version.

The file names no athlete. What it may hold is written down in `PLAN_FORMAT.md`.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError, FileError
from biofeedback.logbook import folders
from biofeedback.phrase import joined, phrase
from biofeedback.training.plan import PLAN_FORMAT, PLAN_VERSION, Plan
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from pathlib import Path

BYTES_MAX = 4 * 1024 * 1024
"""Many times the longest plan that the rules allow to be useful."""


def save(plan: Plan, path: Path) -> None:
    """Writes a plan, whole or not at all; a file that is there is replaced.

    A 100 % that was typed stays behind: it is of the body it was typed for.

    Raises:
        FileError: the file cannot be written.
    """
    content = {
        "format": PLAN_FORMAT,
        "version": PLAN_VERSION,
        "plan": plan.without_typed_references().to_json(),
    }
    text = json.dumps(content, indent=2, ensure_ascii=False)
    write_whole(path, f"{text}\n".encode())


def write_whole(path: Path, content: bytes) -> None:
    """Writes a file whole or not at all; one that is there is replaced.

    Raises:
        FileError: the file cannot be written, and what was there is there still.
    """
    try:
        folders.write_whole(path, content)
    except OSError as error:
        raise folders.not_written(path, error) from error


def load(path: Path) -> Plan:
    """Reads a plan; a 100 % that somebody typed in the file is left out.

    Raises:
        FileError: it cannot be read, is no plan, or is of a newer version; names the
            field that does not fit.
    """
    try:
        if path.stat().st_size > BYTES_MAX:
            raise FileError(path, phrase("is far too long for a plan."))
        text = path.read_text(encoding="utf-8-sig")  # some editors put a mark before
    except OSError as error:
        problem = phrase("cannot be read ({reason}).", reason=folders.reason(error))
        raise FileError(path, problem) from error
    except UnicodeDecodeError as error:
        raise FileError(
            path, phrase("is no text."), place=phrase("byte {start}", start=error.start)
        ) from error
    try:
        content = json.loads(text)
    except json.JSONDecodeError as error:
        place = phrase("line {line}", line=error.lineno)
        raise FileError(path, phrase("is no JSON."), place=place) from error
    except ValueError as error:  # a number of thousands of digits
        raise FileError(path, phrase("has a number that is far too long.")) from error
    except RecursionError as error:
        raise FileError(path, phrase("is nested too deeply for a plan.")) from error
    if not isinstance(content, dict):
        raise FileError(path, phrase("is no plan: it must hold an object."))
    return _plan(path, Fields(content))


def _plan(path: Path, fields: Fields) -> Plan:
    try:
        _check_format(fields)
        version = fields.whole("version", least=1, most=1_000_000)
        if version <= PLAN_VERSION:
            plan = Plan.from_json(fields.inner("plan"))
            _check_texts(plan.to_json(), "plan")
            return plan.without_typed_references()
    except FieldError as error:
        raise FileError(
            path,
            error.problem,
            place=joined("", (error.field,)),
            next_step=error.next_step,
        ) from error
    raise FileError(
        path,
        phrase(
            "is version {version}, and this program knows {plan_version}.",
            version=version,
            plan_version=PLAN_VERSION,
        ),
        next_step=phrase("Update the program."),
    )


def _check_texts(value: object, place: str) -> None:
    """What no text has: halves of letters, and the sign that ends one."""
    if isinstance(value, dict):
        for key, inner in value.items():
            _check_texts(inner, f"{place}.{key}")
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            _check_texts(inner, f"{place}[{index}]")
    elif isinstance(value, str) and any(
        sign == "\0" or "\ud800" <= sign <= "\udfff" for sign in value
    ):
        raise FieldError(place, phrase("holds what is no letter."))


def _check_format(fields: Fields) -> None:
    if fields.text("format", longest=100) != PLAN_FORMAT:
        raise FieldError(
            "format", phrase("must be “{plan_format}”.", plan_format=PLAN_FORMAT)
        )
