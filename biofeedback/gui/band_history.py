"""Which band was asked for at which time: the steps that the path keeps."""

from __future__ import annotations

import bisect
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.training.band import Band


@dataclass(frozen=True, slots=True)
class Step:
    """From `time_s` on.

    Attributes:
        band: the band to draw, or None where none was asked for.
        judged: whether the force was judged by it: part of a hold.
    """

    time_s: float
    band: Band | None
    judged: bool


class BandHistory:
    """Steps in order of time; bounded, because old ones are forgotten."""

    def __init__(self) -> None:
        self._steps: list[Step] = [Step(-math.inf, None, judged=False)]

    def clear(self) -> None:
        """Forgets everything."""
        self._steps = [Step(-math.inf, None, judged=False)]

    @property
    def newest(self) -> Step:
        """The step in force now."""
        return self._steps[-1]

    def change(self, step: Step) -> bool:
        """From its time on `step` is in force, whatever was said before.

        Returns:
            Whether that changes the picture.
        """
        at = bisect.bisect_left(self._steps, step.time_s, key=lambda s: s.time_s)
        before = self._steps[max(0, at - 1)]
        if at == len(self._steps) and (before.band, before.judged) == (
            step.band,
            step.judged,
        ):
            return False
        self._steps[max(1, at) :] = [step]
        return True

    def forget_before(self, time_s: float) -> None:
        """Drops the steps that were over by then."""
        last = bisect.bisect_right(self._steps, time_s, key=lambda s: s.time_s) - 1
        del self._steps[1:last]

    def at(self, times_s: Iterable[float]) -> list[int]:
        """Index of the step in force at each time."""
        starts = [step.time_s for step in self._steps]
        return [bisect.bisect_right(starts, time_s) - 1 for time_s in times_s]

    def after(self, index: int) -> Step | None:
        """The step that follows, or None."""
        return self._steps[index + 1] if index + 1 < len(self._steps) else None

    def __getitem__(self, index: int) -> Step:
        return self._steps[index]
