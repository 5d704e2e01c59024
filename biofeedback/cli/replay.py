"""`biofeedback replay`: judge recordings again."""

from __future__ import annotations

import json
import math
import sys
from argparse import ArgumentParser, ArgumentTypeError, Namespace
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.cli.values import seconds
from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.logbook.database import Logbook
from biofeedback.session.replay import OtherRules, Replayed, replay
from biofeedback.training.band import Band
from biofeedback.training.prescription import BandOn, ClockRule

if TYPE_CHECKING:
    from collections.abc import Mapping

    from biofeedback.conditioning.profile import Calibration
    from biofeedback.rig.calibration_watch import CalibrationsFor


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument("recordings", nargs="+", type=Path, metavar="RECORDING")
    parser.add_argument(
        "--band",
        type=band,
        metavar="LO:HI",
        help="judge by this band in newtons; LO: alone means at least LO",
    )
    parser.add_argument("--hold", type=seconds, metavar="S", help="hold in seconds")
    parser.add_argument(
        "--clock",
        choices=[rule.value for rule in ClockRule],
        help="how time in the band adds up",
    )
    parser.add_argument("--grace", type=seconds, metavar="S", help="grace time")
    parser.add_argument(
        "--on", choices=[on.value for on in BandOn], help="what the band applies to"
    )
    parser.add_argument(
        "--raw", action="store_true", help="judge without the live filter"
    )
    parser.add_argument(
        "--calibration",
        metavar="LABEL",
        help="read it with this calibration of its board in place of the one it was "
        "recorded with; “latest” stands for the newest",
    )
    parser.add_argument(
        "--logbook",
        metavar="PLACE",
        help="where the calibrations are (default: in your data folder)",
    )
    parser.add_argument(
        "--json", action="store_true", help="one JSON object a line, one a recording"
    )


def run(options: Namespace) -> int:
    """Replays each recording; one that cannot be read does not stop the others."""
    if options.calibration is None:
        return _replay_all(options, None)
    with Logbook.open(options.logbook, shut=True) as logbook:
        return _replay_all(options, _labelled(logbook, options.calibration))


def _labelled(logbook: Logbook, label: str) -> CalibrationsFor:
    """The calibration of this label, for whichever board a recording is of."""

    def calibrations_for(
        serial_number: str, channel: int, gain: int | None, /
    ) -> Calibration | None:
        found = logbook.calibrations.fitting(serial_number, channel, gain, label)
        return found.calibration if found else None

    return calibrations_for


def _replay_all(options: Namespace, calibrations_for: CalibrationsFor | None) -> int:
    rules = OtherRules(
        band=options.band,
        hold_s=options.hold,
        clock=ClockRule(options.clock) if options.clock else None,
        grace_s=options.grace,
        band_on=BandOn(options.on) if options.on else None,
        raw=options.raw,
        calibrations_for=calibrations_for,
    )
    failed = 0
    for path in options.recordings:
        try:
            replayed = replay(path, rules)
        except BiofeedbackError as error:
            print(f"biofeedback replay: {error}", file=sys.stderr)
            failed += 1
            continue
        if options.json:
            print(json.dumps(as_json(replayed, rules), allow_nan=False))
        else:
            print(as_text(replayed, rules))
    return 1 if failed else 0


_EDGES = {"band.lower_n": "lower", "band.upper_n": "upper"}


def band(text: str) -> Band:
    """A band as LO:HI in newtons."""
    lower, colon, upper = text.partition(":")
    try:
        lower_n = float(lower if colon else "")
        upper_n = float(upper) if upper else math.inf
    except ValueError:
        lower_n = upper_n = math.nan
    if math.isnan(lower_n + upper_n):
        raise ArgumentTypeError(
            f"“{text}” is no band; write LO:HI in newtons, for example 60:96"
        )
    try:
        return Band(lower_n, upper_n)
    except FieldError as error:
        next_step = "write LO:HI in newtons, for example 60:96"
        if 0 <= upper_n < lower_n:
            next_step = f"write {upper}:{lower}, the lower edge first"
        edge = _EDGES[error.field]
        problem = error.problem.rstrip(".")
        raise ArgumentTypeError(
            f"“{text}”: the {edge} edge {problem}; {next_step}"
        ) from None


def as_json(replayed: Replayed, rules: OtherRules) -> dict[str, object]:
    """All that a script would want of one recording."""
    header = replayed.header
    return {
        "recording": str(replayed.path),
        "athlete_code": header.get("athlete_code"),
        "started_utc": header.get("started_utc"),
        "task": replayed.prescription.task.name,
        "hold_s": replayed.prescription.hold_s,
        "clock": replayed.prescription.clock.value,
        "bands": [
            {"time_s": time_s, **band.to_json()} for time_s, band in replayed.bands
        ],
        "calibrations": _calibrations(replayed),
        "filtered": not rules.raw,
        "duration_s": replayed.duration_s,
        "samples": replayed.samples,
        "lost": replayed.lost,
        "damaged": replayed.damaged,
        "misfits": replayed.misfits,
        "recovered": replayed.recovered,
        "same_as_stored": None if rules.changed else replayed.agrees,
        "marks": [asdict(mark) for mark in replayed.marks],
        "reps": [dict(rep) for rep in replayed.reps],
    }


def _calibrations(replayed: Replayed) -> list[dict[str, object]]:
    """Which calibration each channel was judged by, and made with."""
    return [
        {
            "channel": used.name,
            "used": used.calibration.to_json(),
            "recorded": made.calibration.to_json(),
            "replaced": used.calibration != made.calibration,
        }
        for used, made in zip(
            replayed.profile.channels, replayed.recorded_profile.channels, strict=True
        )
    ]


def _calibration_lines(replayed: Replayed) -> list[str]:
    return [
        f"  {used.name}: read with calibration {used.calibration.label}"
        f"{_dated(used.calibration)}, recorded with {made.calibration.label}"
        f"{_dated(made.calibration)}"
        for used, made in zip(
            replayed.profile.channels, replayed.recorded_profile.channels, strict=True
        )
    ]


def _dated(calibration: Calibration) -> str:
    return f" of {calibration.date}" if calibration.date else ""


def as_text(replayed: Replayed, rules: OtherRules) -> str:
    """A few lines and a table, for people."""
    asked = replayed.prescription
    lines = [
        f"{replayed.path}: {replayed.duration_s:.1f} s, {replayed.samples} samples, "
        f"{replayed.lost} lost, {replayed.damaged} damaged frames"
        + (f", {replayed.misfits} that do not fit the rig" if replayed.misfits else "")
        + (", cut off (recovered)" if replayed.recovered else ""),
        f"  {asked.task.name}: hold {asked.hold_s:g} s, clock {asked.clock.value}, "
        f"band {band_text(asked.band)}",
    ]
    if rules.calibrations_for is not None:
        lines += _calibration_lines(replayed)
    if not rules.changed and replayed.agrees is not None:
        lines.append(
            "  The numbers are the stored ones."
            if replayed.agrees
            else "  The numbers differ from the stored ones."
        )
    lines.append(
        "  rep  outcome    start s    end s  inside s  lapses  peak N  mean N   CV %"
    )
    lines += [_row(rep) for rep in replayed.reps]
    lines += [f"  at {mark.time_s:.1f} s: {mark.text}" for mark in replayed.marks]
    return "\n".join(lines)


def band_text(shown: Band) -> str:
    """A band in words."""
    if shown.open_above:
        return f"at least {shown.lower_n:g} N"
    return f"{shown.lower_n:g}–{shown.upper_n:g} N"


def _row(rep: Mapping[str, object]) -> str:
    def number(key: str, width: int, digits: int) -> str:
        value = rep[key]
        text = f"{value:.{digits}f}" if isinstance(value, float) else "–"
        return f"{text:>{width}}"

    return (
        f"  {rep['number']:>3}  {rep['outcome']:<9} {number('start_s', 8, 2)} "
        f"{number('end_s', 8, 2)} {number('inside_s', 9, 2)} {rep['lapses']:>7} "
        f"{number('peak_n', 7, 1)} {number('mean_n', 7, 1)} {number('cv_pct', 6, 2)}"
    )
