"""The manifest: what an export holds, how it was made, and what it lacks.

It names no person unless names were asked for, and no folder of this machine.
"""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

from biofeedback import __version__
from biofeedback.logbook.exports import bids, csv_table, edf, parquet_table

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.logbook.exports.chosen_sets import Filters
    from biofeedback.logbook.exports.export_folder import Written
    from biofeedback.logbook.exports.table import Column

FILE = "manifest.json"
NAME = "biofeedback export"
MAJOR = 1
MINOR = 2
"""As in `recording_format`: minor for what an older reader can pass over."""
FORMATS = {
    "csv": csv_table.FORMAT,
    "parquet": parquet_table.FORMAT,
    "edf": edf.FORMAT,
    "bids": bids.FORMAT,
}
ABOUT = {
    "force": "Calibrated and zeroed with what the recording was made with, not "
    "filtered. No number where a channel was at its stop or settling.",
    "time": "Seconds from the first sample of a set, by the clock of the board. "
    "Starts are UTC, except in EDF+.",
    "reps": "Measures are those of the times that the rules found. Times that were "
    "moved by hand stand beside them; rate of force and spectrum are of the times that "
    "stand, and are told where the samples are exported too.",
    "csv": "A text that a spreadsheet would take for a formula has an apostrophe "
    "before it. Flags are 1 and 0. An empty cell is no value.",
    "edf": "Start is local time of the machine that made this export, as the format "
    "has no zone; each recording tells its UTC here. Forces are in 16 bits, see "
    "step_n: EDF+ is not the record. The lowest number and Usable 0 mark an empty "
    "slot, of a lost sample or after the end.",
    "bids": "Evenly spaced rows; n/a for a lost sample. time_s is by the board's "
    "clock.",
}


def filters_json(
    filters: Filters | None, clean: Callable[[str], str]
) -> dict[str, object] | None:
    """What was asked for; None where files were named one by one."""
    if filters is None:
        return None

    def day(value: object) -> str | None:
        return None if value is None else str(value)

    return {
        "athletes": list(filters.codes),
        "tasks": [clean(task) for task in filters.tasks],
        "from_day": day(filters.first_day),
        "to_day": day(filters.last_day),
        "from_utc": filters.from_utc and filters.from_utc.isoformat(),
        "before_utc": filters.before_utc and filters.before_utc.isoformat(),
    }


def channels_json(
    profile: RigProfile,
    names: Sequence[str],
    *,
    key_of: Callable[[int], str | None],
    clean: Callable[[str], str],
) -> list[dict[str, object]]:
    """Rated load and calibration of each channel of a recording.

    Args:
        key_of: the key of the record in the logbook of channel n; None for none.
    """
    told: list[dict[str, object]] = []
    for index, (channel, name) in enumerate(zip(profile.channels, names, strict=True)):
        calibration = channel.calibration
        told.append(
            {
                "channel": name,
                "rated_n": channel.rated_n,
                "calibration": {
                    "id": key_of(index),
                    "label": clean(calibration.label),
                    "date": calibration.date or None,
                    "adc": clean(calibration.adc) or None,
                    "gain": calibration.gain,
                    "coefficients": list(calibration.coefficients),
                    # Pairs of a force and one standard uncertainty, newtons.
                    "uncertainty_n": [list(pair) for pair in calibration.uncertainty],
                },
            }
        )
    return told


def manifest(
    *,
    asked: Mapping[str, object],
    formats: Sequence[str],
    counts: Mapping[str, int],
    tables: Mapping[str, Sequence[Column]],
    recordings: Sequence[Mapping[str, object]],
    left_out: Sequence[Mapping[str, object]],
    files: Sequence[Written],
) -> dict[str, object]:
    """The whole of it, as JSON values."""
    return {
        "format": {"name": NAME, "major": MAJOR, "minor": MINOR},
        "software": f"biofeedback {__version__}",
        "made_utc": datetime.now(tz=UTC).isoformat(timespec="seconds"),
        "asked": dict(asked),
        "formats": {name: FORMATS[name] for name in formats},
        "complete": not left_out,
        "counts": dict(counts),
        "left_out": list(left_out),
        "about": {
            key: text
            for key, text in ABOUT.items()
            if key in formats or key not in FORMATS
        },
        "tables": {
            name: [column.to_json() for column in columns]
            for name, columns in tables.items()
        },
        "recordings": list(recordings),
        "files": [file.to_json() for file in files],
    }
