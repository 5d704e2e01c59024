"""A table as every format writes it: columns with unit and meaning, and rows.

The tables are `sets`, `reps`, `events` and, one for each set, `samples`. They have the
same columns in CSV and in Parquet. Units stand at the end of column names as
everywhere in this program, and in full in `Column.unit`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, TypeAlias

from biofeedback.conditioning.profile import CHANNELS_MAX
from biofeedback.measures.rep import kept_measures

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

Cell: TypeAlias = "str | float | int | bool | None"


class Kind(Enum):
    """What a column holds; each cell may also be empty."""

    TEXT = "text"
    REAL = "real number"
    WHOLE = "whole number"
    FLAG = "flag"


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table."""

    name: str
    kind: Kind
    unit: str = ""
    meaning: str = ""

    def to_json(self) -> dict[str, object]:
        """As the manifest tells it."""
        return {
            "name": self.name,
            "kind": self.kind.value,
            "unit": self.unit,
            "meaning": self.meaning,
        }


# The longest ending first: `slope_n_per_s` is no time.
_UNITS = (
    ("_n_per_s", "N/s"),
    ("_n_per_kg", "N/kg"),
    ("_n2", "N²"),
    ("_nm", "N·m"),
    ("_kg", "kg"),
    ("_m", "m"),
    ("_pct_s", "%·s"),
    ("_ns", "N·s"),
    ("_points", "percentage points"),
    ("_pct", "%"),
    ("_hz", "Hz"),
    ("_n", "N"),
    ("_s", "s"),
)


def unit_of(name: str) -> str:
    """The unit at the end of a name; empty where there is none."""
    return next((unit for ending, unit in _UNITS if name.endswith(ending)), "")


def _column(name: str, kind: Kind, meaning: str) -> Column:
    return Column(name, kind, unit_of(name), meaning)


def _columns(kind: Kind, /, **meanings: str) -> tuple[Column, ...]:
    return tuple(_column(name, kind, meaning) for name, meaning in meanings.items())


_WHOSE = _columns(
    Kind.TEXT,
    athlete_code="stands for the athlete",
    session_id="key of the visit",
    set_id="key of the set",
)
NAME = Column("athlete_name", Kind.TEXT, "", "name of the athlete, as asked for")
_TASK = (
    *_columns(
        Kind.TEXT,
        task="name of the task",
        task_kind="hold, lowering or maximal",
        sides="which sides worked",
        started_utc="start of the set, ISO 8601, UTC",
    ),
    *_columns(
        Kind.FLAG,
        simulated="whether it was the simulated rig: its newtons are made up",
    ),
)
SETS = (
    *_WHOSE,
    *_TASK,
    *_columns(
        Kind.TEXT,
        clock="how time in the band adds up to the hold",
        band_on="which force the band applies to",
        feedback="what was to be seen of the live force",
    ),
    *_columns(
        Kind.REAL,
        hold_s="hold that was asked for",
        rest_s="rest after each rep",
        grace_s="excursions up to this are no lapses",
        band_lower_n="lower edge at the start",
        band_upper_n="upper edge at the start; empty where there is none",
        ceiling_n="force not to be passed",
        balance_tolerance_points="allowed distance of the left share from 50 %",
        reference_n="the force that is 100 %",
    ),
    *_columns(
        Kind.TEXT,
        reference_definition="which number of a maximal trial it is",
        reference_origin="where it is from",
        reference_date="of the day it was measured or typed, ISO",
        reference_task="whose 100 % it is; empty where that was not kept",
    ),
    *_columns(Kind.WHOLE, reps="reps in this export"),
    *_columns(
        Kind.FLAG,
        recovered="whether the recording was cut off",
        numbers_agree="whether the stored numbers came out again in a replay",
    ),
    *_columns(Kind.WHOLE, samples="exported", lost="lost in between, as far as known"),
    *_columns(
        Kind.REAL,
        rate_hz="sample rate by the board's clock",
    ),
    *_columns(
        Kind.TEXT,
        rig="serial number of the board",
        samples_file="its samples, less the ending",
    ),
)
EVENTS = (
    *_columns(Kind.TEXT, athlete_code="stands for the athlete", set_id="of the set"),
    *_columns(
        Kind.REAL,
        onset_s="from the first sample of the set",
        duration_s="empty for what has none",
    ),
    *_columns(Kind.TEXT, kind="what happened"),
    *_columns(Kind.WHOLE, rep="number of the rep"),
    *_columns(Kind.TEXT, outcome="how the rep ended"),
    *_columns(
        Kind.REAL,
        band_lower_n="lower edge from then on",
        band_upper_n="upper edge from then on",
        ceiling_n="ceiling that was crossed",
    ),
    *_columns(Kind.WHOLE, pain="0 to 10"),
    *_columns(
        Kind.FLAG,
        pain_taken_back="whether it was said later, in the set or after it, that the "
        "mark of pain was a slip: it then counts nowhere",
    ),
    *_columns(
        Kind.TEXT,
        board="serial number of the board that was met on the port; empty where "
        "it told none",
    ),
    *_columns(
        Kind.FLAG,
        board_used="whether it is the board of this set, which is back; else another "
        "one, of which no force was read",
    ),
    *_columns(Kind.TEXT, text="note or reason; only where asked for"),
)
MOVED = {
    "onset": "moved_start_s",
    "entry": "moved_entry_s",
    "hold end": "moved_hold_end_s",
}
"""Column of each marker that can be moved by hand."""
_BY_HAND = "as put by hand; empty where the time of the rules stands, which is"
_RATE = "from the onset, as (F(t) − F(0))/t, unfiltered; samples at 500 Hz or more"
_HELD = "share of the power of the held force without its line"
_TIMES = _columns(
    Kind.REAL,
    moved_start_s=f"{_BY_HAND} start_s",
    moved_entry_s=f"{_BY_HAND} entry_s",
    moved_hold_end_s=f"{_BY_HAND} hold_end_s",
)
_PER_BODY = _columns(
    Kind.REAL,
    lever_arm_m="from the joint to the middle of pad or strap, as entered",
    mass_kg="body mass as weighed last up to that day",
    mean_nm="mean_n × lever_arm_m, for a pull at right angles to the lever arm",
    peak_nm="peak_n × lever_arm_m, for a pull at right angles to the lever arm",
    mean_n_per_kg="mean_n / mass_kg",
    peak_n_per_kg="peak_n / mass_kg",
)
_SAMPLED = (
    *_columns(
        Kind.REAL,
        rise_onset_s="where the unfiltered force began to rise, see onset_method",
        rfd_0_50_n_per_s=f"rate of force development, 0 to 50 ms {_RATE}",
        rfd_0_100_n_per_s=f"rate of force development, 0 to 100 ms {_RATE}",
        rfd_0_200_n_per_s=f"rate of force development, 0 to 200 ms {_RATE}",
        rfd_steepest_n_per_s="steepest 20 ms within 250 ms from the onset, unfiltered",
        impulse_0_100_ns="over the force at the onset, 0 to 100 ms from it",
        impulse_0_200_ns="over the force at the onset, 0 to 200 ms from it",
    ),
    *_columns(
        Kind.TEXT,
        onset_method="how the onset of the rise was found",
        rate_of_force_why="why there is no rate of force; empty where there is",
    ),
    *_columns(
        Kind.REAL,
        power_n2="variance of the held force without its line, unfiltered",
        share_0_4_pct=f"{_HELD}, 0 to under 4 Hz",
        share_4_8_pct=f"{_HELD}, 4 to under 8 Hz",
        share_8_12_pct=f"{_HELD}, 8 to under 12 Hz",
    ),
    *_columns(Kind.TEXT, spectrum_why="why there is no spectrum; empty where there is"),
)
EXTRAS = (*_TIMES, *_PER_BODY, *_SAMPLED)
"""Columns of a rep beyond its stored measures; the last group needs the samples."""
_OF_SAMPLES = frozenset(column.name for column in _SAMPLED)
_REASON = Column("void_reason", Kind.TEXT, "", "why the rep does not count")
_WORKED_OUT = {"str": Kind.TEXT, "int": Kind.WHOLE, "float": Kind.REAL}
_PAIRS = "lapse_times_s"
_EACH_CHANNEL = "tuple[float, ...]"


def reps_columns(*, notes: bool) -> tuple[Column, ...]:
    """Columns of the table of reps: whose, which, and all measures there are."""
    return (
        *_WHOSE,
        *_TASK,
        *_columns(Kind.FLAG, voided="whether it was said that the rep does not count"),
        *((_REASON,) if notes else ()),
        *(
            column
            for name, type_, group in kept_measures()
            for column in _measure(name, type_, group)
        ),
        *EXTRAS,
    )


def extra_cells(told: Mapping[str, object]) -> dict[str, Cell]:
    """What was worked out of the samples of a rep, of the columns that there are."""
    return {name: _plain(told.get(name)) for name in _OF_SAMPLES if name in told}


def _measure(name: str, type_: str, group: str) -> tuple[Column, ...]:
    """One column, or one a channel where a measure has a number for each."""
    meaning = f"measure of a rep, {group}" if group else "of the rep"
    type_ = type_.removesuffix(" | None")
    if type_ == _EACH_CHANNEL:
        unit = unit_of(name)
        return tuple(
            Column(
                channel_name(name, number),
                Kind.REAL,
                unit,
                f"{meaning}, channel {number}",
            )
            for number in range(1, CHANNELS_MAX + 1)
        )
    return (_column(name, _WORKED_OUT.get(type_, Kind.TEXT), meaning),)


def channel_name(name: str, number: int) -> str:
    """`rest_before_n` of channel 2 is `rest_before_2_n`."""
    stem, unit = name.rsplit("_", 1)
    return f"{stem}_{number}_{unit}"


def measure_cells(measures: Mapping[str, object]) -> dict[str, Cell]:
    """The measures of a rep, flat: lists become texts or a cell for each channel.

    Args:
        measures: the JSON object of a rep; what it does not have stays empty.
    """
    cells: dict[str, Cell] = {}
    for name, type_, _ in kept_measures():
        value = measures.get(name)
        if type_.removesuffix(" | None") == _EACH_CHANNEL:
            listed = value if isinstance(value, list | tuple) else ()
            for number, each in enumerate(listed[:CHANNELS_MAX], start=1):
                cells[channel_name(name, number)] = _plain(each)
        elif name == _PAIRS:
            cells[name] = _pairs(value)
        elif isinstance(value, list | tuple):
            cells[name] = "; ".join(map(str, value))
        else:
            cells[name] = _plain(value)
    return cells


def fitted(value: Cell, kind: Kind) -> Cell:
    """The value as its column holds it; empty where it does not fit."""
    if kind is Kind.TEXT:
        return value if isinstance(value, str) else None
    if not isinstance(value, int | float) or not math.isfinite(value):
        return None
    if kind is Kind.FLAG:
        return value if isinstance(value, bool) else None
    if isinstance(value, bool):
        return None
    if kind is Kind.REAL:
        return float(value)
    return int(value) if value == int(value) else None


def _plain(value: object) -> Cell:
    return value if isinstance(value, str | float | int | bool) else None


def _pairs(value: object) -> str:
    """(left, back) of each lapse as `7.0208/8.0526; …`."""
    if not isinstance(value, list | tuple):
        return ""
    return "; ".join("/".join(map(str, pair)) for pair in value)


def samples_columns(names: Sequence[str]) -> tuple[Column, ...]:
    """Columns of samples.

    Args:
        names: of the channels: their sides.
    """
    return (
        _column("time_s", Kind.REAL, "by the board's clock, from the first sample"),
        Column("index", Kind.WHOLE, "", "number of the sample; lost ones are counted"),
        *(
            Column(f"counts_{name}", Kind.WHOLE, "", "as the ADC gave them")
            for name in names
        ),
        *(
            _column(
                f"force_{name}_n",
                Kind.REAL,
                "calibrated and zeroed, not filtered; empty where not usable",
            )
            for name in names
        ),
        *(
            Column(f"saturated_{name}", Kind.FLAG, "", "the ADC was at its stop")
            for name in names
        ),
        Column("usable", Kind.FLAG, "", "neither at a stop nor settling"),
        *_columns(
            Kind.REAL,
            band_lower_n="lower edge in force",
            band_upper_n="upper edge in force; empty where there is none",
        ),
        Column("rep", Kind.WHOLE, "", "number of the rep; empty between reps"),
    )
