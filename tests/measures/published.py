"""The small published tables of `tests/vectors`, as numbers."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    import numpy.typing as npt

VECTORS = Path(__file__).parents[1] / "vectors"


def table(name: str) -> npt.NDArray[np.float64]:
    """All columns of a table; the first lines are a source and the names."""
    return np.loadtxt(VECTORS / name, delimiter=",", skiprows=2)


def scores(name: str) -> npt.NDArray[np.float64]:
    """The table without its first column, which numbers the people."""
    return table(name)[:, 1:]
