"""Where the path stands: it flows under a *now* that rests, or it turns page by page.

Who is made ill or distracted by a picture that flows has a page that stands still: the
line is written on it from left to right, and it turns when *now* comes near its end. As
much time is seen, at the same scale, and at each moment some of what was and some of
what is to come.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

KEPT_SHARE = 1 / 6
"""Of the width: on a fresh page so much of the past stays in sight, and as much of what
is to come is seen just before the page turns."""


@dataclass(frozen=True, slots=True)
class PathPlace:
    """Columns of the plot and where *now* stands among them.

    Attributes:
        width: of the plot, in columns.
        paged: whether the path turns page by page.
    """

    width: int
    paged: bool = False

    @property
    def past(self) -> int:
        """Columns of the past where the path flows; also those of one page's step."""
        return self.width * 2 // 3

    @property
    def kept(self) -> int:
        """Columns of the past that have to be drawn."""
        return self.width if self.paged else self.past

    def now_x(self, end: int) -> int:
        """Where *now* stands.

        Args:
            end: the column after that of the newest sample.
        """
        if not self.paged:
            return self.past
        return round(self.width * KEPT_SHARE) + end % self.past

    def base_s(self, time_s: float) -> float:
        """From when on a hold is drawn that is waited for and has no time yet.

        It would go along with *now*; on a page it moves by whole seconds instead.
        """
        return float(math.ceil(time_s)) if self.paged else time_s
