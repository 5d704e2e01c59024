"""A known mass by hand: whether the newtons are newtons.

A guided step of the health check. A press tells which cell answers and which way; of
the scale it tells little, for no hand knows a force. A mass that hangs on one cell
does: its weight is m·g, and the ratio of what is shown to that names the likely fault
of the unit. It is no calibration: one mass, standard gravity (off by up to 0.27 % at a
place, `conditioning/gravity.py`), no correction for air.

The limits are our choice; common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.gravity import STANDARD_M_S2
from biofeedback.errors import FieldError
from biofeedback.phrase import Phrase, phrase, sentences
from biofeedback.rig.verdict import State, Verdict, signed, verdict

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile

    Floats = npt.NDArray[np.float64]

MASS_LEAST_KG, MASS_MOST_KG = 0.2, 500.0
NOISES = 20.0
"""A change of so many standard deviations is the mass, whatever its unit says."""
STEADY_S = 1.0
STEADY_PCT = 2.0
"""Of the change: the mass hangs still when the force stays within this for so long."""
OFF_PCT = 3.0
"""Still good: gravity, a sling that was not weighed, a cell that hangs a little
askew. A calibration that is off by more should be made anew."""
NAMED_PCT = 12.0
"""A fault of the unit is named where the ratio is this near to it; the nearest two,
2 and 2.2, would else both be meant."""
LEFT_OVER = 0.05
"""A change of less than this share of the mass's weight, steady before anything was
hung up, is what the presses have left, but where a unit explains just this share."""
ASIDE = 0.2
"""From this share of the loaded cell's change on, the other is told to answer too."""
KGF, LBF = STANDARD_M_S2, 4.4482216
"""Newtons in a kilogram-force and a pound-force (NIST SP 811, appendix B)."""
FAULTS: tuple[tuple[float, Phrase], ...] = (
    (1 / KGF, phrase("The numbers are kilograms that are taken for newtons.")),
    (KGF, phrase("The numbers were multiplied by gravity once too often.")),
    (1 / LBF, phrase("The numbers are pounds that are taken for newtons.")),
    (LBF, phrase("Newtons are taken for pounds and turned into newtons again.")),
    (1e-3, phrase("The numbers are kilonewtons that are taken for newtons.")),
    (1e3, phrase("Newtons are taken for kilonewtons.")),
    (1e3 / KGF, phrase("The numbers are grams that are taken for newtons.")),
    (KGF / 1e3, phrase("Newtons are taken for grams.")),
    (
        2.0,
        phrase(
            "It counts twice: both channels may be wired to this cell, or the mass "
            "pulls over a pulley."
        ),
    ),
    (0.5, phrase("Half of it is missing: the mass may hang on two cells.")),
)
"""What is shown, divided by m·g, and what such a ratio means."""
RAW_FROM = 2000.0
"""More than any unit explains: counts without a calibration."""


class Hung(Enum):
    """How the channels answered to a mass."""

    RIGHT = "right"
    OFF = "off"
    REVERSED = "reversed"
    SWAPPED = "swapped"
    SHARED = "shared"
    NONE = "none"
    SKIPPED = "skipped"


@dataclass(frozen=True, slots=True)
class Weighed:
    """What came of hanging a mass on one cell.

    Attributes:
        channel: the one it was to hang on.
        force_n: by how much each rose, signed.
    """

    channel: int
    mass_kg: float
    answer: Hung
    force_n: tuple[float, ...]

    @property
    def weight_n(self) -> float:
        """What is to be shown."""
        return self.mass_kg * STANDARD_M_S2

    @property
    def ratio(self) -> float:
        """What is shown, of the cell that moved most, divided by what is to be."""
        return max(self.force_n, key=abs) / self.weight_n


def known_mass_kg(mass_kg: float) -> float:
    """A mass that can be used.

    Raises:
        FieldError: it is too small or too large.
    """
    if not MASS_LEAST_KG <= mass_kg <= MASS_MOST_KG:  # never for NaN
        raise FieldError(
            "known mass",
            phrase(
                "is {kg:g} kg; it must be {least:g} to {most:g} kg.",
                kg=mass_kg,
                least=MASS_LEAST_KG,
                most=MASS_MOST_KG,
            ),
        )
    return mass_kg


class Weigh:
    """Waits until a mass hangs still.

    Args:
        channel: the cell it is to hang on.
        mass_kg: how much it is.
        rest_n: shown force of each channel at rest.
        noise_n: standard deviation of each.
    """

    def __init__(
        self, channel: int, mass_kg: float, *, rest_n: Floats, noise_n: Floats
    ) -> None:
        self.channel = channel
        self._mass_kg = mass_kg
        self._rest_n = rest_n
        self._seen_n = NOISES * np.maximum(noise_n, 1e-9)
        self._span_n = self._seen_n / 2
        self._rows: list[tuple[float, Floats]] = []
        self._at_rest = False  # whether rest was measured anew

    @property
    def seen_n(self) -> Floats:
        """From what change on a channel has answered."""
        return self._seen_n

    def push(self, block: Block) -> Weighed | None:
        """The next samples; the answer once the mass hangs still."""
        for time_s, row, good in zip(
            block.time_s.tolist(), block.shown_n - self._rest_n, block.good, strict=True
        ):
            if not good:
                self._rows.clear()
                continue
            self._rows.append((time_s, row))
        if not self._rows:
            return None
        from_s = self._rows[-1][0] - STEADY_S
        whole = self._rows[0][0] <= from_s
        self._rows = [one for one in self._rows if one[0] >= from_s]
        moved_n = np.array([row for _, row in self._rows])
        mean_n = moved_n.mean(axis=0)
        steady_n = np.maximum(self._span_n, np.abs(mean_n).max() * STEADY_PCT / 100)
        still = bool((np.ptp(moved_n, axis=0) <= steady_n).all())
        if not (whole and still):
            return None
        if not self._at_rest:
            # What the presses before have left on the cells is no part of the mass.
            self._at_rest = True
            if self._left_over(float(np.abs(mean_n).max())):
                self._rest_n = self._rest_n + mean_n
                self._rows.clear()
                return None
        if bool((np.abs(mean_n) > self._seen_n).any()):
            return self._result(mean_n)
        return None

    def _left_over(self, force_n: float) -> bool:
        share = force_n / (self._mass_kg * STANDARD_M_S2)
        explained = any(abs(share / ratio - 1) <= OFF_PCT / 100 for ratio, _ in FAULTS)
        return share < LEFT_OVER and not explained

    def give_up(self) -> Weighed:
        """Nothing hung still in time."""
        return self._told(Hung.NONE, np.zeros(len(self._rest_n)))

    def skip(self) -> Weighed:
        """It was not wanted."""
        return self._told(Hung.SKIPPED, np.zeros(len(self._rest_n)))

    def _result(self, mean_n: Floats) -> Weighed:
        sizes_n, own = np.abs(mean_n), self.channel
        others_n = np.delete(sizes_n, own)
        weight_n = self._mass_kg * STANDARD_M_S2
        if sizes_n[own] < ASIDE * sizes_n.max():
            answer = Hung.SWAPPED
        elif others_n.size and others_n.max() >= ASIDE * sizes_n[own]:
            answer = Hung.SHARED
        elif mean_n[own] < 0:
            answer = Hung.REVERSED
        elif abs(mean_n[own] / weight_n - 1) > OFF_PCT / 100:
            answer = Hung.OFF
        else:
            answer = Hung.RIGHT
        return self._told(answer, mean_n)

    def _told(self, answer: Hung, mean_n: Floats) -> Weighed:
        return Weighed(self.channel, self._mass_kg, answer, tuple(mean_n.tolist()))


def unit_words(ratio: float) -> str:
    """What a ratio of shown to known weight means; the sign is not looked at."""
    size = abs(ratio)
    if size >= RAW_FROM:
        return phrase("The numbers may be counts without a calibration.")
    near, words = min(FAULTS, key=lambda fault: abs(math.log(size / fault[0])))
    if abs(math.log(size / near)) <= math.log(1 + NAMED_PCT / 100):
        return words
    return phrase("No usual fault of a unit has this ratio: the scale is wrong.")


def weighed(profile: RigProfile, one: Weighed) -> Verdict:
    """What came of hanging the mass on one cell."""
    names = [channel.words for channel in profile.channels]
    title = phrase("mass: {name}", name=names[one.channel])
    if one.answer is Hung.SKIPPED:
        return Verdict(title, State.NOT_JUDGED, phrase("Left out."))
    moved = int(np.argmax(np.abs(one.force_n)))
    found: str = phrase(
        "{mass_kg:g} kg weigh {weight_n:.1f} N; shown are {shown} N ({ratio:.3g} times "
        "as much).",
        mass_kg=one.mass_kg,
        weight_n=one.weight_n,
        shown=signed(one.force_n[moved], 1),
        ratio=one.ratio,
    )
    calibrate = phrase("Calibrate before anybody trains on this rig.")
    wrong = abs(abs(one.ratio) - 1) > OFF_PCT / 100
    unit = unit_words(one.ratio) if one.answer is not Hung.NONE and wrong else ""
    advice: str = calibrate
    match one.answer:
        case Hung.NONE:
            found = phrase("Nothing hung still on it.")
            advice = phrase("See that the mass hangs free, and that this cell answers.")
        case Hung.SWAPPED:
            found = sentences(
                phrase("The {name} cell answered instead.", name=names[moved]), found
            )
            advice = phrase("Swap the two plugs, or the two sides in the rig profile.")
        case Hung.SHARED:
            found = sentences(phrase("Another cell answered with it."), found)
            advice = phrase(
                "Let the mass hang on this cell alone. If the other still answers, "
                "both channels may be wired to one cell."
            )
        case Hung.REVERSED:
            found = sentences(phrase("It fell: its polarity is reversed."), found)
            advice = phrase("Swap its two signal wires, or calibrate it again.")
        case _:
            pass
    if unit and advice is not calibrate:
        advice = sentences(advice, calibrate)
    return verdict(
        title,
        good=one.answer is Hung.RIGHT,
        found=sentences(found, unit),
        advice=advice,
        numbers={
            "mass_kg": one.mass_kg,
            "weight_n": one.weight_n,
            "answer": one.answer.value,
            "force_n": list(one.force_n),
            "ratio": one.ratio,
        },
    )
