"""`biofeedback calibrate`: from a table of points to a calibration and its figures."""

from __future__ import annotations

import json
import sys
from argparse import ArgumentTypeError
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.conditioning.calibration_checks import RESIDUAL_LIMIT_PCT
from biofeedback.conditioning.gravity import Gravity, local_gravity
from biofeedback.conditioning.profile import GAIN_MAX
from biofeedback.errors import UserError
from biofeedback.logbook.calibration_table import read_points
from biofeedback.logbook.database import Logbook
from biofeedback.measures.calibration_json import to_json
from biofeedback.measures.calibration_report import (
    Asked,
    CalibrationReport,
    report,
)
from biofeedback.measures.calibration_words import in_words
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

    from biofeedback.logbook.calibrations import CalibrationRow

UNSAID = 0
"""Stands for a gain that was not given; None is that of an ADC without one."""
CHANNELS = {"": 0, "left": 0, "single": 0, "right": 1}
"""The channels that names stand for; any may be given by its number from 1."""


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument(
        "points",
        type=Path,
        metavar="POINTS.csv",
        help="columns: mass_kg (with class or tolerance_pct) or force_n; indication; "
        "and, where they apply, direction (up, down), run, channel, time_s, spread, "
        "others",
    )
    parser.add_argument(
        "--degree",
        choices=("auto", "1", "2"),
        default="auto",
        help="line, curve, or let the points choose (default: auto)",
    )
    parser.add_argument(
        "--through-zero",
        action="store_true",
        help="make the fit pass through the empty rig's reading",
    )
    parser.add_argument(
        "--latitude", type=float, metavar="DEG", help="of the place, for gravity"
    )
    parser.add_argument(
        "--altitude", type=float, metavar="M", help="of the place, above the sea"
    )
    parser.add_argument(
        "--intended",
        type=newtons,
        metavar="N",
        help="largest force that the rig is to show",
    )
    parser.add_argument(
        "--residual-limit",
        type=newtons,
        default=RESIDUAL_LIMIT_PCT,
        metavar="PCT",
        help="refuse a fit that is off by more, in %% of the span "
        f"(default: {RESIDUAL_LIMIT_PCT:g})",
    )
    parser.add_argument(
        "--resolution",
        type=newtons,
        metavar="N",
        help="smallest change that can be told apart (default: from the readings)",
    )
    parser.add_argument(
        "--json", action="store_true", help="one JSON object with all figures"
    )
    _add_saving(parser)


def _add_saving(parser: ArgumentParser) -> None:
    keep = parser.add_argument_group("keeping it in the logbook")
    keep.add_argument(
        "--save", metavar="LABEL", help="keep it under this name; needs --rig"
    )
    keep.add_argument(
        "--rig", metavar="SERIAL", help="serial number of the board, as it tells it"
    )
    keep.add_argument(
        "--channel",
        type=int,
        choices=(1, 2, 3, 4),
        help="cell of the board, where the table does not name it (default: 1)",
    )
    keep.add_argument(
        "--gain",
        type=gain,
        default=UNSAID,
        metavar="GAIN",
        help="of the ADC while the readings were taken, or none for a board that "
        "has none; --save needs it",
    )
    keep.add_argument(
        "--date", metavar="YYYY-MM-DD", default="", help="of the readings"
    )
    keep.add_argument(
        "--logbook",
        metavar="PLACE",
        help="file or database URL (default: in your data folder)",
    )


def newtons(text: str) -> float:
    """A positive number."""
    try:
        value = float(text)
    except ValueError:
        value = 0.0
    if not 0 < value < 1e9:
        raise ArgumentTypeError(f"“{text}” must be a number above 0")
    return value


def gain(text: str) -> int | None:
    """A gain, or None for an ADC that has none."""
    if text == "none":
        return None
    if not (text.isascii() and text.isdecimal() and 1 <= int(text) <= GAIN_MAX):
        raise ArgumentTypeError(f"“{text}” must be 1 to {GAIN_MAX}, or none")
    return int(text)


@dataclass(frozen=True, slots=True)
class _Done:
    """One channel of the table."""

    name: str
    channel: int
    report: CalibrationReport
    saved: CalibrationRow | None = None


def run(options: Namespace) -> int:
    """Calibrates each channel of the table."""
    if options.save is not None and not options.rig:
        raise UserError(
            phrase("A record belongs to a rig."),
            phrase("Give its serial number with --rig."),
        )
    if options.save is not None and options.gain == UNSAID:
        raise UserError(
            phrase(
                "A record holds only for the gain at which its readings were taken."
            ),
            phrase("Give it with --gain, or --gain none for a board that has none."),
        )
    gravity = _gravity(options)
    table = read_points(options.points, gravity=gravity)
    done = [
        _Done(
            name,
            _channel(name, options),
            report(readings, _asked(options, gravity, name)),
        )
        for name, readings in table.channels.items()
    ]
    if len({each.channel for each in done}) < len(done):
        raise UserError(
            phrase("Two names in the column channel stand for the same cell."),
            phrase("Use left and right, or numbers from 1."),
        )
    refused = any(each.report.outcome.refused for each in done)
    if options.save is not None and not refused:
        done = _save(done, options)
    if options.json:
        told = [_as_json(each) for each in done]
        print(
            json.dumps(
                {"points": str(options.points), "notes": table.notes, "channels": told},
                allow_nan=False,
            )
        )
    else:
        print("\n".join([*table.notes, *(_as_text(each) for each in done)]))
    if refused and options.save is not None:
        print("Nothing was kept.", file=sys.stderr)
    return 1 if refused else 0


def _gravity(options: Namespace) -> Gravity:
    place = (options.latitude, options.altitude)
    if place == (None, None):
        return Gravity.standard()
    if None in place:
        raise UserError(phrase("Local gravity needs both --latitude and --altitude."))
    return local_gravity(latitude_deg=options.latitude, altitude_m=options.altitude)


def _asked(options: Namespace, gravity: Gravity, name: str) -> Asked:
    return Asked(
        degree=None if options.degree == "auto" else int(options.degree),
        through_zero=options.through_zero,
        intended_n=options.intended,
        residual_limit_pct=options.residual_limit,
        resolution_n=options.resolution,
        gravity_words=gravity.words,
        names=(name or "loaded", "other"),
        label=options.save or "",
        date=options.date,
    )


def _channel(name: str, options: Namespace) -> int:
    """The channel, from 0, that a name in the table stands for."""
    if not name and options.channel is not None:
        return int(options.channel) - 1
    if name.casefold() in CHANNELS:
        return CHANNELS[name.casefold()]
    if name.isascii() and name.isdecimal() and 1 <= int(name) <= 4:
        return int(name) - 1
    raise UserError(
        phrase("The column channel names “{name}”.", name=name[:40]),
        phrase("Use left and right, or numbers from 1 to 4."),
    )


def _save(done: list[_Done], options: Namespace) -> list[_Done]:
    with Logbook.open(options.logbook, shut=True) as logbook:
        return [
            _Done(
                each.name,
                each.channel,
                each.report,
                logbook.calibrations.add(
                    each.report,
                    serial_number=options.rig,
                    channel=each.channel,
                    label=options.save,
                    on_date=options.date,
                    gain=options.gain,
                ),
            )
            for each in done
        ]


def _as_json(done: _Done) -> dict[str, object]:
    saved = done.saved
    return {
        "channel": done.channel + 1,
        "name": done.name,
        **to_json(done.report),
        "saved": None
        if saved is None
        else {
            "rig": saved.serial_number,
            "number": saved.number,
            "label": saved.label,
            "date": saved.date,
            "gain": saved.gain,
        },
    }


def _as_text(done: _Done) -> str:
    lines = [f"Channel {done.name or done.channel + 1}"]
    lines += in_words(done.report)
    if done.saved is not None:
        lines += [
            "",
            f"Kept as calibration no. {done.saved.number} of channel "
            f"{done.channel + 1} of {done.saved.serial_number}: {done.saved.label}, "
            f"{done.saved.date}.",
            "It is used with a board that has no gain to choose."
            if done.saved.gain is None
            else f"It is used at gain {done.saved.gain} only.",
        ]
    return "\n".join(lines) + "\n"
