"""Taking zero: one second of stillness, or a refusal that says what is wrong.

Rules:

* Nothing re-zeros itself. A zero is measured when somebody asks for it.
* Zero of the empty rig and zero with the limb resting are two different things
  and are kept as such.
* A zero that would hide a pull is refused, and the old one stays.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.profile import Side, Zero, ZeroKind
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile

DURATION_S = 1.0
"""Long enough to average the mains out and to see a limb move or a cell swing."""
SAMPLES_MIN = 8
"""With fewer, a spread says little; so a slow board takes longer than a second."""


@dataclass(frozen=True, slots=True)
class ZeroLimits:
    """How still and how near the last zero it must be, in % of the rated load.

    The numbers are common practice, no source.

    Attributes:
        spread_pct: standard deviation while zero is taken. A 24-bit board on a
            1000 N cell has about 0.001 %; a limb that rests breathes some tenths
            of a newton; 0.1 % lets that through and stops a muscle at work.
        return_pct: distance of an empty rig from the last zero of the empty rig.
            Warmth, creep and a changed strap stay well below 2 %; a limb does not.
        load_pct: distance where the two zeros are not alike: the first one ever,
            which takes up frame and bridge offset, and a limb that rests, which
            takes up its weight. A leg weighs 100 N to 200 N.
    """

    spread_pct: float = 0.1
    return_pct: float = 2.0
    load_pct: float = 30.0


@dataclass(frozen=True, slots=True)
class ZeroRefused:
    """No new zero; the old one stays in force.

    Attributes:
        message: why, and what to do about it.
    """

    message: str


class ZeroTaker:
    """Collects samples until zero is known, or refused.

    Args:
        kind: what is on the cells meanwhile, as the person who asked said.
        profile: of the rig, with the zero that is in force while this collects.
        rate_hz: sample rate.
        taken_utc: ISO time to write into the zero.
        last: zero to compare with; the profile's where it is not given.
        limits: how still and how near.

    Attributes:
        kind: as handed in.
    """

    def __init__(
        self,
        kind: ZeroKind,
        profile: RigProfile,
        *,
        rate_hz: float,
        taken_utc: str = "",
        last: Zero | None = None,
        limits: ZeroLimits | None = None,
    ) -> None:
        self.kind = kind
        self._profile = profile
        self._in_force_n = np.array(profile.zero.offsets_n)
        self._last = profile.zero if last is None else last
        self._limits = limits or ZeroLimits()
        self._taken_utc = taken_utc
        self._wanted = max(SAMPLES_MIN, math.ceil(rate_hz * DURATION_S))
        self._collected: list[npt.NDArray[np.float64]] = []
        self._count = 0

    @property
    def share_done(self) -> float:
        """How much of the time is over, 0 to 1."""
        return min(1.0, self._count / self._wanted)

    def push(self, block: Block) -> Zero | ZeroRefused | None:
        """Takes the next block, conditioned with the profile's zero in force.

        Returns:
            The new zero, a refusal, or None while more samples are wanted. After
            either of the first two this taker is done with.
        """
        if (block.lost or block.gap) and self._count:
            return ZeroRefused(
                phrase(
                    "Samples were lost or late while zero was taken. Take zero "
                    "again; if it happens again, look at the cable."
                )
            )
        part = slice(0, self._wanted - self._count)
        if not block.good[part].all():
            return ZeroRefused(self._why_not_good(block, part))
        self._collected.append(block.force_n[part] + self._in_force_n)
        self._count += len(self._collected[-1])
        return self._judge() if self._count >= self._wanted else None

    def finish(self) -> ZeroRefused:
        """Gives up, because no more samples come."""
        return ZeroRefused(
            phrase(
                "Only {count} of {wanted} samples came while zero was taken. "
                "See that the rig is sending, and take zero again.",
                count=self._count,
                wanted=self._wanted,
            )
        )

    def _why_not_good(self, block: Block, part: slice) -> str:
        at_stop = block.saturated[part].any(axis=0)
        if not at_stop.any():
            return phrase("The board is still settling. Take zero again in a moment.")
        cell = self._cell(int(np.argmax(at_stop)), first=True)
        return phrase(
            "{cell} is at its stop. Take the load off it and look "
            "at its wiring, then take zero again.",
            cell=cell,
        )

    def _judge(self) -> Zero | ZeroRefused:
        force_n = np.concatenate(self._collected)
        offsets_n = force_n.mean(axis=0)
        spreads_n = force_n.std(axis=0, ddof=1)
        for index, channel in enumerate(self._profile.channels):
            allowed_n = channel.rated_n * self._limits.spread_pct / 100
            if spreads_n[index] > allowed_n:
                return ZeroRefused(
                    phrase(
                        "Something is moving on {cell}: its force spreads by "
                        "{spreads_n:.2f} N, and {allowed_n:.2f} N is allowed. "
                        "Let it come to rest and take zero again.",
                        cell=self._cell(index),
                        spreads_n=spreads_n[index],
                        allowed_n=allowed_n,
                    )
                )
        for index, channel in enumerate(self._profile.channels):
            away_n = offsets_n[index] - self._last.offsets_n[index]
            allowed_n = channel.rated_n * self._distance_pct() / 100
            if abs(away_n) > allowed_n:
                return ZeroRefused(
                    phrase(
                        "Something is pulling on {cell}: it stands "
                        "{away_n:.1f} N {where} the last zero, and "
                        "{allowed_n:.1f} N is allowed. Take the load off it "
                        "and take zero again.",
                        cell=self._cell(index),
                        away_n=abs(away_n),
                        where=phrase("above") if away_n > 0 else phrase("below"),
                        allowed_n=allowed_n,
                    )
                )
        return Zero(
            self.kind,
            tuple(offsets_n.tolist()),
            tuple(spreads_n.tolist()),
            self._taken_utc,
        )

    def _distance_pct(self) -> float:
        alike = self.kind is self._last.kind is ZeroKind.EMPTY_RIG
        return self._limits.return_pct if alike else self._limits.load_pct

    def _cell(self, index: int, *, first: bool = False) -> str:
        """The cell in words, by its side; by its name too where that is not enough.

        Args:
            first: whether it begins the sentence.
        """
        channels = self._profile.channels
        side = channels[index].side
        if side is Side.SINGLE:
            words = phrase("The cell") if first else phrase("the cell")
        elif first:
            words = phrase("The {side} cell", side=side.value)
        else:
            words = phrase("the {side} cell", side=side.value)
        if sum(channel.side is side for channel in channels) > 1:
            words += f" “{channels[index].name}”"
        return words
