"""`biofeedback audit`: who opened, gave out, restored and erased what, and when."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import TYPE_CHECKING

from biofeedback.cli import places
from biofeedback.errors import UserError
from biofeedback.logbook.database import Logbook
from biofeedback.phrase import phrase
from biofeedback.session.local_time import day_and_time

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from biofeedback.logbook.audit import AuditRow


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument("--code", default="", help="only what was about this athlete")
    parser.add_argument(
        "--practitioner",
        metavar="NAME",
        help="name to stand beside your system user from now on; empty for none",
    )
    places.add_logbook(parser)
    parser.add_argument("--json", action="store_true")


def run(options: Namespace) -> int:
    """Lists the audit, newest first."""
    with Logbook.open(places.known_logbook(options.logbook), shut=True) as logbook:
        if options.practitioner is not None:
            logbook.audit.set_practitioner(options.practitioner)
        rows = logbook.audit.list(code=options.code)
        if options.code and not rows:
            _must_be_known(logbook, options.code)
    if options.json:
        told = [{**asdict(row), "at_utc": row.at_utc.isoformat()} for row in rows]
        print(json.dumps(told, ensure_ascii=False))
    else:
        about = f" about {options.code}" if options.code else ""
        print("\n".join(map(as_text, rows)) or f"Nothing is in the audit{about}.")
    return 0


def _must_be_known(logbook: Logbook, code: str) -> None:
    """Raises: UserError where nobody has the code, whatever its capitals."""
    wanted = code.casefold()
    if any(one.code.casefold() == wanted for one in logbook.athletes()):
        return
    raise UserError(
        phrase("There is no athlete {code} in the logbook.", code=code),
        phrase(
            "Check the code; of whoever was erased the audit keeps a count and no code."
        ),
    )


def as_text(row: AuditRow) -> str:
    """One line, for people."""
    by = f"{row.by_user} ({row.practitioner})" if row.practitioner else row.by_user
    parts = [
        day_and_time(row.at_utc, seconds=True),
        by or "unknown user",
        row.action,
        row.code,
        f"({row.count})" if row.count != 1 else "",
        f"to {row.place}" if row.place else "",
    ]
    return "  ".join(part for part in parts if part)
