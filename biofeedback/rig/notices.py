"""Notices: what the practitioner should know of the cells in a set, each told once.

Fed by the chain with blocks and with the numbers of each rep. Four things:

* A cell near its rated load, at once: whoever pulls on it should ease off.
* A channel that gives one and the same number; blocks are looked at for it together,
  since it takes half a second anyway, but always before the numbers of a rep.
* A force that stays a little above zero after a rep, so that the rep cannot end.
* A cell that does not come back to zero between reps. Where its rest force has
  walked the same way over five reps, which chance does in 2 of 5! = 1.7 % of
  cases (the extreme of Mann's test for trend, Econometrica 13 (1945) 245-259), it
  is told as what warming cells and boards do. No temperature is measured.
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.block import any_set
from biofeedback.conditioning.profile import ZeroKind
from biofeedback.measures.stillness import Stillness
from biofeedback.phrase import Phrase, phrase
from biofeedback.rig.handoff import Warned
from biofeedback.training.levels import ONSET_DIVISOR, ONSET_LEAST_N

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile, Zero
    from biofeedback.measures.cells import Cells
    from biofeedback.measures.stillness import Stuck
    from biofeedback.training.band import Band

WALK_LEAST_N = 1.0
WALK_PCT = 2.5
"""A rest force is told from 1 N or 2.5 % of the band's lower edge on: half of the
way to the edge of a band of ±5 %. Our choice, no source."""
TREND_REPS = 5
ABOUT_ZERO = {"walk", "warm", "release"}
"""What may be told again once another zero is in force."""
LOOKED_AT_EVERY_S = 0.04
SLOW_RELEASE_S = 2.0
"""Whoever has let go has let go well before."""


class Notices:
    """What is to be told of one stream.

    Args:
        profile: of the rig.

    Attributes:
        trials: whether what is done are the trials of a maximal test, and no reps.
    """

    def __init__(self, profile: RigProfile) -> None:
        self.trials = False
        self._profile = profile
        self._near_n = np.array(
            [c.rated_n * profile.near_rated_pct / 100 for c in profile.channels]
        )
        self._stillness = Stillness(len(profile.channels))
        self._waiting: list[Block] = []  # not looked at yet, without a gap in between
        self._rests_n: list[tuple[float, ...]] = []
        self._told: set[tuple[str, int]] = set()
        self._low_since_s = math.inf

    def block(self, block: Block) -> list[Warned]:
        """What the next samples give to tell."""
        told: list[Warned] = []
        if block.gap:
            told += self._look_at_waiting()
        self._waiting.append(block)
        if block.time_s[-1] - self._waiting[0].time_s[0] >= LOOKED_AT_EVERY_S:
            told += self._look_at_waiting()
        near = np.abs(block.force_n) >= self._near_n  # never for NaN
        if any_set(near):
            for channel in np.flatnonzero(near.any(axis=0)).tolist():
                told += self._once("near", channel, self._near_words(channel))
        return told

    def _look_at_waiting(self) -> list[Warned]:
        """Whether a channel is stuck, up to the newest block."""
        blocks, self._waiting = self._waiting, []
        if not blocks:
            return []
        time_s, counts = blocks[0].time_s, blocks[0].counts
        if len(blocks) > 1:
            time_s = np.concatenate([block.time_s for block in blocks])
            counts = np.concatenate([block.counts for block in blocks])
        told: list[Warned] = []
        for one in self._stillness.push(time_s, counts, after_gap=blocks[0].gap):
            told += self._once("stuck", one.channel, self._stuck_words(one.channel))
        return told

    def stuck(self) -> tuple[tuple[Stuck, ...], list[Warned]]:
        """When which channel was stuck, up to now, and what that gives to tell."""
        told = self._look_at_waiting()
        return tuple(self._stillness.found), told

    def set_zero(self, zero: Zero) -> None:
        """Another zero: what rests on the cells is looked at anew."""
        self._profile = self._profile.with_zero(zero)
        self._rests_n.clear()
        self._told -= {key for key in self._told if key[0] in ABOUT_ZERO}

    def release(
        self, block: Block, effort_n: npt.NDArray[np.float64], band: Band
    ) -> list[Warned]:
        """What is to be told while a rep is done and its force not let go yet.

        Args:
            block: the newest samples.
            effort_n: shape (n,), the shown force that ends a rep.
            band: in force.
        """
        onset_n = max(ONSET_LEAST_N, band.lower_n / ONSET_DIVISOR)
        if not (effort_n < onset_n).all():
            self._low_since_s = math.inf
            return []
        self._low_since_s = min(self._low_since_s, float(block.time_s[0]))
        if block.time_s[-1] - self._low_since_s < SLOW_RELEASE_S:
            return []
        rest_n = block.shown_n[-1]
        channel = int(np.argmax(np.abs(rest_n)))
        return self._once(
            "release", channel, self._release_words(channel, rest_n[channel])
        )

    def rep(self, cells: Cells, band: Band) -> list[Warned]:
        """What the numbers of a rep give to tell."""
        self._low_since_s = math.inf
        rest_n = cells.rest_before_n
        if rest_n is None:
            return []
        self._rests_n.append(rest_n)
        limit_n = max(WALK_LEAST_N, band.lower_n * WALK_PCT / 100)
        told: list[Warned] = []
        for channel, force_n in enumerate(rest_n):
            if self._warming(channel, limit_n):
                told += self._once("warm", channel, self._warm_words(channel))
            elif abs(force_n) > limit_n and self._zeroed:
                told += self._once("walk", channel, self._walk_words(channel, force_n))
        return told

    @property
    def _zeroed(self) -> bool:
        """Whether a zero was ever taken, so that a rest force means something."""
        return self._profile.zero.kind is not ZeroKind.NONE

    def _warming(self, channel: int, limit_n: float) -> bool:
        """Whether the rest force has gone one way, and far enough."""
        if len(self._rests_n) < TREND_REPS:
            return False
        last_n = [rest_n[channel] for rest_n in self._rests_n[-TREND_REPS:]]
        steps_n = [after - before for before, after in pairwise(last_n)]
        one_way = all(step > 0 for step in steps_n) or all(step < 0 for step in steps_n)
        return one_way and abs(last_n[-1] - last_n[0]) > limit_n

    def _once(self, what: str, channel: int, words: str) -> list[Warned]:
        if (what, channel) in self._told:
            return []
        self._told.add((what, channel))
        return [Warned(words)]

    def _cell(self, channel: int, *, first: bool = True) -> Phrase:
        """A cell in words, at the beginning of a sentence or within it."""
        channels = self._profile.channels
        if len(channels) == 1:
            return phrase("The cell") if first else phrase("the cell")
        name = channels[channel].name
        if first:
            return phrase("The {name} cell", name=name)
        return phrase("the {name} cell", name=name)

    def _near_words(self, channel: int) -> str:
        rated_n = self._profile.channels[channel].rated_n
        return phrase(
            "{cell} is at {near_rated_pct:g} % of its rated load of "
            "{rated_n:g} N or more. Ease off, and use a stronger cell for "
            "such forces.",
            cell=self._cell(channel),
            near_rated_pct=self._profile.near_rated_pct,
            rated_n=rated_n,
        )

    def _stuck_words(self, channel: int) -> str:
        return phrase(
            "{cell} gives one and the same number, which chance does not "
            "do. Stop, and look at its wiring and its converter.",
            cell=self._cell(channel),
        )

    def _walk_words(self, channel: int, force_n: float) -> str:
        if self.trials:
            return phrase(
                "{cell} showed {force_n:+.1f} N at rest before this trial. If "
                "nothing rested on it, its zero has walked: take zero before "
                "the next test.",
                cell=self._cell(channel),
                force_n=force_n,
            )
        return phrase(
            "{cell} showed {force_n:+.1f} N at rest before this rep. If "
            "nothing rested on it, its zero has walked: take zero before "
            "the next set.",
            cell=self._cell(channel),
            force_n=force_n,
        )

    def _release_words(self, channel: int, force_n: float) -> str:
        if self.trials:
            return phrase(
                "The force has not come back to zero, so the trial cannot end: "
                "{cell} shows {force_n:+.1f} N. If nothing rests on it, stop "
                "the test and take zero.",
                cell=self._cell(channel, first=False),
                force_n=force_n,
            )
        return phrase(
            "The force has not come back to zero, so the rep cannot end: "
            "{cell} shows {force_n:+.1f} N. If nothing rests on it, stop "
            "the set and take zero.",
            cell=self._cell(channel, first=False),
            force_n=force_n,
        )

    def _warm_words(self, channel: int) -> str:
        return phrase(
            "{cell} drifts: its rest force has walked the same way over "
            "{trend_reps} reps, as cells and boards do while they warm up. "
            "Give the rig some minutes, then take zero before the next set.",
            cell=self._cell(channel),
            trend_reps=TREND_REPS,
        )
