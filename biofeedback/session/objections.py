"""What speaks against the next start in a visit, and what of it was passed over.

* What is said of a prescription (an old reference) is said once in a visit.
* Pain that was told since the last set began is said each time.
* A second start goes on, once the words were seen (see `second_start`); what it passed
  over is for the head of the recording.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.errors import BiofeedbackError
from biofeedback.session.second_start import SecondStart

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.session.pain_told import PainTold
    from biofeedback.training.prescription import Prescription


class Objections:
    """Asked before each start.

    Args:
        pain: what was told of pain.
        against: what is to be said of a prescription, or nothing.
    """

    def __init__(
        self, pain: PainTold, against: Callable[[Prescription], tuple[str, ...]]
    ) -> None:
        self._pain = pain
        self._against = against
        self._second = SecondStart()
        self._passed: set[tuple[str, ...]] = set()

    def to_say(
        self, asked: Prescription, *, now_s: float
    ) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """What is to be said before a set, and else what its start passes over.

        Args:
            now_s: of a clock that never goes back.

        Returns:
            Where the first is not empty the set does not start; where it is empty, the
            second is what speaks against the start all the same.
        """
        pain = self._pain.against()
        try:
            other = self._against(asked)
        except BiofeedbackError as error:
            other = (error.words,)
        objections, of = (*pain, *other), self._pain.count
        passed = not pain and other in self._passed
        seen = self._second.goes_on(of, objections, pressed_s=now_s)
        if objections and not passed and not seen:
            self._second.say(of, objections, now_s=now_s)
            return objections, ()
        if other:
            self._passed.add(other)
        return (), objections

    def forget_said(self) -> None:
        """The next start is another one: what was said last is said again."""
        self._second.forget()
