"""When a second press of the start key passes what was just said against a start.

* The words must have been on the screen for a second. The longest time in which a
  desktop takes two clicks for one double click is 0.9 s, and nobody reads a caution
  faster; common practice, no source.
* A press that came too soon counts for nothing, and the second begins anew: who
  hammers at the key, or holds it down, never starts.
* Other words, another set or newly told pain are another question. Where less speaks
  against the start than was said, nothing is asked again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

SEEN_S = 1.0


class SecondStart:
    """What was said last before a start, of what, and since when it is seen."""

    def __init__(self) -> None:
        self._of: object = None
        self._said: frozenset[str] = frozenset()
        self._since_s = 0.0

    @property
    def asked(self) -> bool:
        """Whether something was said, and a second start goes on."""
        return bool(self._said)

    def goes_on(self, of: object, against: Sequence[str], *, pressed_s: float) -> bool:
        """Whether all that speaks against a start was said, and seen long enough.

        Args:
            of: what is to start, and all else that makes it another question.
            against: what speaks against it.
            pressed_s: when the key was pressed, by a clock that never goes back.
        """
        same = of == self._of and self._said >= set(against)
        return not against or (same and pressed_s - self._since_s >= SEEN_S)

    def say(self, of: object, against: Sequence[str], *, now_s: float) -> None:
        """It is said now, or stays in sight after a press that came too soon.

        Args:
            now_s: when it came to the screen, by the same clock.
        """
        self._of, self._said, self._since_s = of, frozenset(against), now_s

    def forget(self) -> None:
        """The next start is another one."""
        self._of, self._said = None, frozenset()
