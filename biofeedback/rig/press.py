"""A press by hand: which channel answers, and which way.

A guided step of the health check. Somebody is asked to load one cell by hand, in
the direction in which the athlete will; that channel must rise, and it alone. No
hand knows a force to better than a third, so of the scale only what is plainly
wrong is told: a known mass and a calibration are for that.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.phrase import joined, phrase
from biofeedback.rig.verdict import State, Verdict, signed, verdict

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile

    Floats = npt.NDArray[np.float64]

PRESS_N = 10.0
"""A hand that presses gives 20 N to 200 N; common practice, no source."""
NOISES = 20.0
"""In any case so many standard deviations of the noise."""
LASTS_S = 0.7
"""From the moment the press is seen: long enough to reach its top."""
SHARED = 0.5
"""From this share of the pressed one on, another cell is told to answer as well."""
FAINT_NOISES = 8.0


class Answer(Enum):
    """How the channels answered a press."""

    RIGHT = phrase("right")
    REVERSED = phrase("reversed")
    SWAPPED = phrase("swapped")
    SHARED = phrase("shared")
    OVERLOAD = phrase("overload")
    FAINT = phrase("faint")
    NONE = phrase("none")
    SKIPPED = phrase("skipped")


@dataclass(frozen=True, slots=True)
class Pressed:
    """What came of asking for a press.

    Attributes:
        channel: the one that was to be pressed.
        answered: the one that moved most; None where none did.
        force_n: by how much each moved most, signed.
    """

    channel: int
    answer: Answer
    answered: int | None
    force_n: tuple[float, ...]


class Press:
    """Waits for the press of one channel.

    Args:
        channel: which is to be pressed.
        profile: of the rig.
        rest_n: shown force of each channel at rest.
        noise_n: standard deviation of each.
    """

    def __init__(
        self, channel: int, profile: RigProfile, *, rest_n: Floats, noise_n: Floats
    ) -> None:
        self.channel = channel
        self._rated_n = np.array([cell.rated_n for cell in profile.channels])
        self._rest_n = rest_n
        self._noise_n = noise_n
        self._seen_n = np.maximum(PRESS_N, NOISES * noise_n)
        self._most_n = np.zeros(len(rest_n))
        self._overload = False
        self._until_s: float | None = None

    def push(self, block: Block) -> Pressed | None:
        """The next samples; the answer once it is known."""
        self._overload |= bool(block.saturated[:, self.channel].any())
        moved_n = block.shown_n[block.good] - self._rest_n
        for row in (moved_n.max(axis=0), moved_n.min(axis=0)) if len(moved_n) else ():
            self._most_n = np.where(
                np.abs(row) > np.abs(self._most_n), row, self._most_n
            )
        seen = self._overload or bool((np.abs(self._most_n) > self._seen_n).any())
        if seen and self._until_s is None:
            self._until_s = float(block.time_s[-1]) + LASTS_S
        if self._until_s is not None and block.time_s[-1] >= self._until_s:
            return self._result(self._answer())
        return None

    def give_up(self) -> Pressed:
        """Nobody pressed, or nothing answered."""
        faint = np.abs(self._most_n) > FAINT_NOISES * np.maximum(self._noise_n, 1e-6)
        answer = Answer.FAINT if faint[self.channel] else Answer.NONE
        return self._result(answer)

    def skip(self) -> Pressed:
        """It was not wanted."""
        return self._result(Answer.SKIPPED)

    def _answer(self) -> Answer:
        sizes_n = np.abs(self._most_n)
        if self._overload or sizes_n[self.channel] > self._rated_n[self.channel]:
            return Answer.OVERLOAD
        # Of two on one cell either may be the larger, by its noise.
        if sizes_n[self.channel] < SHARED * sizes_n.max():
            return Answer.SWAPPED
        others_n = np.delete(sizes_n, self.channel)
        if others_n.size and others_n.max() >= SHARED * sizes_n[self.channel]:
            return Answer.SHARED
        if self._most_n[self.channel] < 0:
            return Answer.REVERSED
        return Answer.RIGHT

    def _result(self, answer: Answer) -> Pressed:
        quiet = answer in {Answer.NONE, Answer.FAINT, Answer.SKIPPED}
        answered = None if quiet else int(np.argmax(np.abs(self._most_n)))
        forces_n: tuple[float, ...] = tuple(self._most_n.tolist())
        return Pressed(self.channel, answer, answered, forces_n)


class Release:
    """Waits until nothing is pressed any more.

    Args:
        rest_n: shown force of each channel at rest.
        noise_n: standard deviation of each.
        near_n: how near to rest each has to come; None for half of a least press.
    """

    def __init__(
        self, *, rest_n: Floats, noise_n: Floats, near_n: Floats | None = None
    ) -> None:
        self._rest_n = rest_n
        usual_n = np.maximum(PRESS_N, NOISES * noise_n) / 2
        self._near_n = usual_n if near_n is None else near_n
        self._since_s: float | None = None

    def push(self, block: Block) -> bool:
        """The next samples; whether all is let go, for a third of a second."""
        moved_n = np.abs(block.shown_n - self._rest_n)
        if not bool((moved_n < self._near_n).all()):  # NaN is no release either
            self._since_s = None
            return False
        if self._since_s is None:
            self._since_s = float(block.time_s[0])
        return float(block.time_s[-1]) - self._since_s >= LASTS_S / 2


def pressed(profile: RigProfile, one: Pressed) -> Verdict:
    """What came of pressing one cell."""
    names = [channel.words for channel in profile.channels]
    name, force_n = names[one.channel], one.force_n[one.channel]
    answered = "" if one.answered is None else names[one.answered]
    numbers = {
        "pressed": name,
        "answer": one.answer.value,
        "force_n": list(one.force_n),
    }
    title = phrase("press: {name}", name=name)
    if one.answer is Answer.SKIPPED:
        return Verdict(title, State.NOT_JUDGED, phrase("Left out."), "", numbers)
    moved = 0.0 if one.answered is None else one.force_n[one.answered]
    found, advice = {
        Answer.RIGHT: (
            phrase("It rose by {force_n:.0f} N, and it alone.", force_n=force_n),
            "",
        ),
        Answer.REVERSED: (
            phrase(
                "It fell by {force_n:.0f} N: its polarity is reversed.",
                force_n=-force_n,
            ),
            phrase("Swap its two signal wires, or calibrate it again."),
        ),
        Answer.SWAPPED: (
            phrase(
                "The {answered} cell answered instead, by {signed} N: the two "
                "are swapped, and its polarity is reversed.",
                answered=answered,
                signed=signed(moved, 0),
            )
            if moved < 0
            else phrase(
                "The {answered} cell answered instead, by {signed} N: the two "
                "are swapped.",
                answered=answered,
                signed=signed(moved, 0),
            ),
            phrase("Swap the two plugs, or the two sides in the rig profile."),
        ),
        Answer.SHARED: (
            phrase("Another cell answered with it: ")
            + joined(
                ", ",
                (
                    phrase("{n} {signed} N", n=n, signed=signed(f, 0))
                    for n, f in zip(names, one.force_n, strict=True)
                ),
            )
            + ".",
            phrase(
                "Press this cell alone. If the other still answers, the two "
                "touch, or both channels are wired to one cell: look at the frame "
                "and the plugs."
            ),
        ),
        Answer.OVERLOAD: (
            phrase(
                "It went to {force_n:.0f} N, beyond what the cell or its "
                "converter takes.",
                force_n=force_n,
            ),
            phrase(
                "Press more gently; if the force was plainly less, calibrate the cell."
            ),
        ),
        Answer.FAINT: (
            phrase("It answered with {signed} N only.", signed=signed(force_n, 2)),
            phrase(
                "Press harder. If that was a firm press, the scale is wrong: calibrate."
            ),
        ),
        Answer.NONE: (
            phrase("It did not answer."),
            phrase(
                "See that this cell is plugged in and that you press this very cell."
            ),
        ),
    }[one.answer]
    good = one.answer is Answer.RIGHT
    return verdict(title, good=good, found=found, advice=advice, numbers=numbers)
