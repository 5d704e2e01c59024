"""Rows of the tables of sets and reps, from what logbook or header hold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.logbook.rows import number_or_none
from biofeedback.session.export_source import inner

if TYPE_CHECKING:
    from collections.abc import Mapping

    from biofeedback.logbook.exports.table import Cell
    from biofeedback.session.export_source import SetSource


def whose(source: SetSource) -> dict[str, Cell]:
    """Whose set it is, and of what."""
    task = inner(source.prescription, "task")
    return {
        "athlete_code": source.code,
        "athlete_name": source.name or None,
        "session_id": source.session_id,
        "set_id": source.set_id,
        "task": source.task,
        "task_kind": _text(task, "kind"),
        "sides": _text(task, "sides"),
        "started_utc": source.started_utc.isoformat(),
        "simulated": source.simulated,
    }


def set_row(source: SetSource) -> dict[str, Cell]:
    """What was asked for in a set."""
    asked = source.prescription
    band, reference = inner(asked, "band"), inner(asked, "reference")
    return {
        **whose(source),
        **{key: _text(asked, key) for key in ("clock", "band_on", "feedback")},
        **{
            key: number_or_none(asked.get(key))
            for key in (
                *("hold_s", "rest_s", "grace_s", "ceiling_n"),
                "balance_tolerance_points",
            )
        },
        "band_lower_n": number_or_none(band.get("lower_n")),
        "band_upper_n": number_or_none(band.get("upper_n")),
        "reference_n": number_or_none(reference.get("force_n")),
        "reference_definition": _text(reference, "definition"),
        "reference_origin": _text(reference, "origin"),
        "reference_date": _text(reference, "date"),
        "reference_task": _text(inner(reference, "task"), "name"),
        "reps": len(source.reps),
        "recovered": source.recovered,
        "rig": _text(source.profile, "serial_number"),
        "rate_hz": number_or_none(source.profile.get("rate_hz")),
    }


def _text(values: Mapping[str, object], key: str) -> str | None:
    value = values.get(key)
    return value if isinstance(value, str) else None
