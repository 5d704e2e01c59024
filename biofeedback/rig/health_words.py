"""What is wrong with a signal, in words, and what to do.

A cell at a stop is told apart by which stop it is. Past the one that its force
grows towards it is overloaded or wired wrongly. The other one no pull can reach;
a board whose inputs are biased that way (`hardware/README.md`) goes there when
the cell is disconnected.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.phrase import Phrase, listed, phrase, sentences

if TYPE_CHECKING:
    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.wire.frames import Status

UPPER, LOWER = 1, -1
"""The two stops of a converter."""
OPENING_WORDS = phrase("Waiting for the board to answer.")


def stale_words(standing: tuple[int, ...], profile: RigProfile) -> str:
    """Why what comes is not shown as the force of now.

    Args:
        standing: channels whose count stands still; none where time does.
    """
    if not standing:
        return phrase(
            "What comes is old, or the board's clock stands still: no force is shown. "
            "Pull the cable and plug it in again."
        )
    channels = profile.channels
    names = [channels[one].words for one in standing if one < len(channels)]
    if not names or len(names) == len(channels):
        return phrase(
            "The board sends one and the same number all the time: no force is "
            "shown. Press on a cell. If the number stays, look at the wiring and the "
            "converter."
        )
    return phrase(
        "The {cells} cell gives one and the same number all the time: no force is "
        "shown. Press on it. If the number stays, look at its wiring and its "
        "converter.",
        cells=listed(names),
    )


def stop_words(stops: tuple[int, ...], profile: RigProfile) -> str:
    """Which cells are at a stop, and what that means; empty where none is.

    Args:
        stops: for each channel `UPPER`, `LOWER`, or 0 where it is at none.
        profile: whose calibrations say which way force grows.
    """
    if not any(stops):
        return ""
    overloaded: list[str] = []
    disconnected: list[str] = []
    for channel, stop in zip(profile.channels, stops, strict=False):
        grows = UPPER if channel.calibration.coefficients[1] >= 0 else LOWER
        if stop:
            (overloaded if stop == grows else disconnected).append(channel.words)
    one = len(profile.channels) == 1
    words: list[str] = []
    if overloaded:
        words.append(
            phrase(
                "{listed} at the end of the range. Take the load off and look "
                "at the wiring.",
                listed=_listed(overloaded, one=one),
            )
        )
    if disconnected:
        words.append(
            phrase(
                "{listed} at the end of the range that no pull reaches: "
                "disconnected, or wired the wrong way round. Look at plug and "
                "cable.",
                listed=_listed(disconnected, one=one),
            )
        )
    return sentences(*words)


def _listed(names: list[str], *, one: bool) -> Phrase:
    """The beginning of a sentence about cells, which are named where there are more."""
    if one:
        return phrase("The cell is")
    first = phrase("The {name} cell", name=names[0])
    others = [phrase("the {name} cell", name=name) for name in names[1:]]
    if not others:
        return phrase("{cell} is", cell=first)
    cells = first
    for other in others:
        cells = phrase("{cells} and {cell}", cells=cells, cell=other)
    return phrase("{cells} are", cells=cells)


def silence_words(status: Status | None) -> str:
    """Why a board that answers sends no samples, as far as it says."""
    if status is None:
        return phrase("The board answers but sends no samples yet.")
    silent = [number + 1 for number, chip in enumerate(status.silent) if chip]
    if silent:
        which = (
            phrase("its converter gives")
            if len(status.silent) == 1
            else phrase("converter {numbers} gives", numbers=listed(map(str, silent)))
        )
        return phrase(
            "The board answers but {which} no data. Look at the wiring "
            "between the board and the load-cell amplifier.",
            which=which,
        )
    if not status.streaming:
        return phrase(
            "The board answers but has stopped sending. It is asked to start again."
        )
    return phrase(
        "The board says it is sending, but no samples arrive. Look at the "
        "cable, and at the baud rate."
    )
