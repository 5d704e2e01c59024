"""Axes of plots whose numbers are written as the language does."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pyqtgraph as pg

from biofeedback.gui.language import localised

if TYPE_CHECKING:
    from collections.abc import Sequence


class NumberAxis(pg.AxisItem):  # type: ignore[misc]  # the library has no types
    """One axis."""

    def tickStrings(  # noqa: N802  the library's name
        self, values: Sequence[float], scale: float, spacing: float
    ) -> list[str]:
        """What stands at each tick."""
        return [localised(text) for text in super().tickStrings(values, scale, spacing)]


def number_axes() -> dict[str, NumberAxis]:
    """For `axisItems` of a plot, which takes them for its own."""
    return {side: NumberAxis(side) for side in ("bottom", "left")}
