"""`biofeedback tune --apply`: what is recommended becomes the filter of a rig.

As on the page of the window: kept with who, why and the figures; the window uses it
when it meets that board next.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from biofeedback.conditioning.profile import FilterChoice, RigProfile
from biofeedback.errors import BiofeedbackError, UserError
from biofeedback.logbook import folders, recordings
from biofeedback.logbook.filter_log import FILE_NAME, FilterLog
from biofeedback.phrase import phrase
from biofeedback.session.rig_filter import Grounds, RigFilters
from biofeedback.tuning.candidates import name_of
from biofeedback.tuning.record import figures_of, keys_of
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace
    from collections.abc import Sequence
    from pathlib import Path

    from biofeedback.tuning.choice import Rule, Score


def add_arguments(parser: ArgumentParser) -> None:
    """`--apply` and `--by`."""
    parser.add_argument(
        "--apply",
        metavar="BOARD",
        help="give the rig with this serial number what is recommended; the "
        "recordings must hold one of that board",
    )
    parser.add_argument("--by", metavar="NAME", default="", help="who chooses")


def check(options: Namespace) -> None:
    """Before the work begins.

    Raises:
        UserError: nobody is named.
    """
    if options.apply and not options.by.strip():
        raise UserError(phrase("Say who chooses the filter."), phrase("Add --by NAME."))


def apply(
    options: Namespace,
    paths: Sequence[Path],
    chosen: Score,
    *,
    rule: Rule,
    rate_hz: float,
) -> str:
    """Keeps the choice; what changed, in words.

    Args:
        paths: the recordings used.

    Raises:
        UserError: it cannot be applied; says why.
    """
    log = FilterLog(folders.data_folder() / FILE_NAME)
    profile = _profile(options.apply, paths)
    present = log.filter_for(profile.serial_number, profile.rate_hz)
    filters = RigFilters(log)
    change = filters.change(
        replace(profile, filter=present or FilterChoice()),
        chosen.choice,
        by=options.by,
        grounds=Grounds(
            rate_hz=rate_hz,
            recordings=keys_of(paths),
            rule=rule.words,
            figures=figures_of(chosen),
        ),
    )
    filters.keep(change)
    entry = change.entry
    return phrase(
        "Rig {rig}: {old} becomes {new}. Delay {before:.0f} ms → {after:.0f} ms. "
        "Kept by {by} in {file}.",
        rig=entry.serial_number,
        old=name_of(entry.old),
        new=name_of(entry.new),
        before=1000 * entry.old_delay_s,
        after=1000 * entry.new_delay_s,
        by=entry.by,
        file=str(log.path),
    )


def _profile(serial_number: str, paths: Sequence[Path]) -> RigProfile:
    """The profile of the board, from one of its recordings."""
    for path in paths:
        try:
            header = Fields(recordings.read(path).header, "header")
            profile = RigProfile.from_json(header.inner("profile"))
        except BiofeedbackError:
            continue
        if profile.serial_number == serial_number:
            return profile
    raise UserError(
        phrase(
            "None of these recordings was made with the board {serial_number}.",
            serial_number=serial_number,
        )
    )
