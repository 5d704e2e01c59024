"""The recording's own format: its name, its version and what its file is called.

The first frame of a recording is a header whose JSON object holds

* ``format``: name, major and minor version,
* ``software`` and ``started_utc`` (ISO 8601, UTC),
* ``set_id``; ``session_id`` and ``athlete_code`` where there are any,
* ``profile`` (the rig's, with calibrations and zero) and ``prescription``.

``MINOR`` grows when something is added that an older reader can pass over;
``MAJOR`` grows when an older reader would misread, and it then refuses.
"""

from __future__ import annotations

import re
from datetime import UTC, datetime

from biofeedback import __version__
from biofeedback.logbook.keys import short_key

NAME = "biofeedback recording"
MAJOR = 1
MINOR = 0
SUFFIX = ".force"

REP_END = "rep end"
"""Kind of the event that carries the numbers of a rep under ``rep``."""

_NOT_IN_NAMES = re.compile(r"[^A-Za-z0-9-]+")
_CODE_MAX = 32


def completed(
    header: dict[str, object], *, set_id: str, started_utc: datetime
) -> dict[str, object]:
    """The header with what every recording has; what is given already stays."""
    return {
        "format": {"name": NAME, "major": MAJOR, "minor": MINOR},
        "software": f"biofeedback {__version__}",
        "started_utc": started_utc.astimezone(UTC).isoformat(timespec="milliseconds"),
        **header,
        "set_id": set_id,
    }


def file_name(*, started_utc: datetime, athlete_code: str, set_id: str) -> str:
    """Time, code and a piece of the set's key; never a person's name."""
    stamp = started_utc.astimezone(UTC).strftime("%Y%m%dT%H%M%SZ")
    code = _NOT_IN_NAMES.sub("-", athlete_code)[:_CODE_MAX] or "guest"
    key = _NOT_IN_NAMES.sub("-", short_key(set_id))
    return f"{stamp}_{code}_{key}{SUFFIX}"
