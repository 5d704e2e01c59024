"""A line of a pyqtgraph figure, thinned to what a screen can show.

pyqtgraph has no types; hence `Any`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
import pyqtgraph as pg

from biofeedback.gui.trace_store import line_points

if TYPE_CHECKING:
    import numpy.typing as npt

COLUMNS = 1500
"""Points a line is reduced to, lowest and highest of each column: as many as a
wide screen can show; more would only cost time."""


def thinned_line(
    time_s: npt.NDArray[np.float64],
    force_n: npt.NDArray[np.float64],
    *,
    seen_s: tuple[float, float],
    pen: Any,
    name: str = "",
) -> Any:
    """The part of a line that is seen; NaN breaks it.

    Args:
        time_s: shape (n,), rising.
        force_n: shape (n,).
        seen_s: from when to when.
        name: for the legend; empty for none.
    """
    first_s, last_s = seen_s
    begin = max(0, int(np.searchsorted(time_s, first_s)) - 1)
    piece = slice(begin, int(np.searchsorted(time_s, last_s, side="right")) + 1)
    time_s, force_n = time_s[piece], force_n[piece]
    if len(time_s) == 0:
        return pg.PlotDataItem([], [], pen=pen)
    span_s = max(1e-3, float(time_s[-1] - time_s[0]))
    columns_per_s = COLUMNS / span_s
    dense = len(time_s) > 2 * COLUMNS
    x, y = line_points(
        time_s - time_s[0], force_n, columns_per_s=columns_per_s, dense=dense
    )
    return pg.PlotDataItem(
        x / columns_per_s + time_s[0],
        y,
        pen=pen,
        name=name or None,
        connect="finite",
        antialias=True,
    )
