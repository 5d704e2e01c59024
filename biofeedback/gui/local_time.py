"""Moments as pages tell them: by the clock of this place, with day and zone.

Files and the logbook keep UTC; nothing on a page does.
"""

from __future__ import annotations

from datetime import UTC, datetime, tzinfo


def day_and_time(moment: datetime | str, zone: tzinfo | None = None) -> str:
    """Day, time and zone, such as “2026-11-25 11:32 CET”.

    Args:
        moment: aware, or in ISO form; without a zone it is in UTC, as files have it.
        zone: another place than that of this computer.

    Returns:
        Empty where the text is no moment.
    """
    if isinstance(moment, str):
        try:
            moment = datetime.fromisoformat(moment)
        except ValueError:
            return ""
    if moment.tzinfo is None:
        moment = moment.replace(tzinfo=UTC)
    return moment.astimezone(zone).strftime("%Y-%m-%d %H:%M %Z")
