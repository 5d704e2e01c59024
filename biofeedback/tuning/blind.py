"""Two filters judged by eye without knowing which is which.

For each play the two are called X and Y in an order of chance. What is judged is
counted for the filters; which was which is told at the end only.

How likely such a count is where nobody can tell the two apart: the two-sided sign
test (Dixon and Mood 1946, *The statistical sign test*, Journal of the American
Statistical Association 41: 557-566). Judgements of no difference are left out of it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from math import comb
from typing import TYPE_CHECKING

from biofeedback.phrase import phrase, sentences

if TYPE_CHECKING:
    from random import Random

    from biofeedback.phrase import Phrase


class Judgement(Enum):
    """What an eye says of one play."""

    X = phrase("X is better")
    Y = phrase("Y is better")
    SAME = phrase("No difference")


@dataclass(frozen=True, slots=True)
class Count:
    """Judgements so far, for the filters."""

    a: int = 0
    b: int = 0
    same: int = 0

    @property
    def plays(self) -> int:
        """How many were judged."""
        return self.a + self.b + self.same

    @property
    def chance(self) -> float:
        """Chance of a count at least as uneven where the eye cannot tell; 0 to 1."""
        n, least = self.a + self.b, min(self.a, self.b)
        if n == 0:
            return 1.0
        tail = sum(comb(n, k) for k in range(least + 1))
        return min(1.0, 2.0 * tail / float(2**n))

    def words(self, name_a: str, name_b: str) -> Phrase:
        """The count and its chance in plain words."""
        counted = phrase(
            "{plays} judged: A ({a}) better in {n_a}, B ({b}) better in {n_b}, "
            "no difference in {same}.",
            plays=self.plays,
            a=name_a,
            b=name_b,
            n_a=self.a,
            n_b=self.b,
            same=self.same,
        )
        if self.a + self.b == 0:
            return sentences(counted, phrase("The eye told no difference."))
        chance = phrase(
            "If the eye could not tell them apart, a count at least this uneven would "
            "come in {chance_pct:.1f} % of such series (two-sided sign test).",
            chance_pct=100 * self.chance,
        )
        return sentences(counted, chance)


class BlindTrial:
    """A series of plays.

    Args:
        chance: gives the order; handed in, so that a test knows it.
    """

    def __init__(self, chance: Random) -> None:
        self._chance = chance
        self._x_is_a = chance.random() < 0.5
        self._count = Count()

    @property
    def plays(self) -> int:
        """How many were judged."""
        return self._count.plays

    @property
    def x_is_a(self) -> bool:
        """Which is which in this play: for the player, never for the eye."""
        return self._x_is_a

    def judge(self, judgement: Judgement) -> None:
        """Counts it; the next play has an order of its own."""
        count = self._count
        if judgement is Judgement.SAME:
            self._count = replace(count, same=count.same + 1)
        elif (judgement is Judgement.X) == self._x_is_a:
            self._count = replace(count, a=count.a + 1)
        else:
            self._count = replace(count, b=count.b + 1)
        self._x_is_a = self._chance.random() < 0.5

    def reveal(self) -> Count:
        """The count, at the end."""
        return self._count
