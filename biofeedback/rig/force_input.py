"""Who or what pulls on the simulated rig: the seam, and a scripted force."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, Protocol

import numpy as np

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    import numpy.typing as npt


class ForceInput(Protocol):
    """Whoever or whatever pulls on the simulated rig."""

    def forces_n(self, times_us: npt.NDArray[np.int64]) -> npt.NDArray[np.float64]:
        """Force on the left and the right cell.

        Args:
            times_us: shape (n,), n ≥ 1, device time, never going back from one
                call to the next.

        Returns:
            Shape (n, 2), newtons.
        """


@dataclass(frozen=True, slots=True)
class ForceProfile:
    """A scripted force: straight lines between points, level outside them.

    Attributes:
        points: (time in s, left in N, right in N), times rising.

    Raises:
        FieldError: there is no point, or the times do not rise.
    """

    points: tuple[tuple[float, float, float], ...]

    def __post_init__(self) -> None:
        if not self.points:
            raise FieldError("points", phrase("needs at least one point."))
        if any(later[0] <= earlier[0] for earlier, later in pairwise(self.points)):
            raise FieldError("points", phrase("must have times that rise."))

    @classmethod
    def from_text(cls, text: str) -> ForceProfile:
        """Reads lines of ``time left right``; ``#`` begins a comment.

        Raises:
            FieldError: names the line that is not three numbers.
        """
        points = []
        for number, line in enumerate(text.splitlines(), start=1):
            words = line.partition("#")[0].replace(",", " ").split()
            if not words:
                continue
            try:
                time_s, left_n, right_n = (float(word) for word in words)
            except ValueError:
                raise FieldError(
                    f"line {number}",
                    phrase("must be three numbers: time, left, right."),
                ) from None
            points.append((time_s, left_n, right_n))
        return cls(tuple(points))

    def forces_n(self, times_us: npt.NDArray[np.int64]) -> npt.NDArray[np.float64]:
        """See `ForceInput`."""
        knots_s, left_n, right_n = np.asarray(self.points, dtype=np.float64).T
        times_s = times_us / 1e6
        return np.column_stack(
            (np.interp(times_s, knots_s, left_n), np.interp(times_s, knots_s, right_n))
        )
