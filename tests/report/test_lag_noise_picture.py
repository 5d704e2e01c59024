"""Numbers in the picture of a filter search are to be read, however near the dots."""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np
import pytest

from biofeedback.report.lag_noise_picture import CLEAR, DISC, PLOT, number_places


@pytest.mark.parametrize("spread", [0.0, 30.0, 200.0])
@pytest.mark.parametrize("seed", range(5))
def test_discs_never_overlap_and_stay_in_the_plot(spread: float, seed: int) -> None:
    draw = np.random.default_rng(seed)
    x = 300 + np.sort(draw.uniform(0, spread, 30))
    y = 300 + np.sort(draw.uniform(0, spread, 30))
    dots = list(zip(x.tolist(), y.tolist(), strict=True))
    found = number_places(dots, dots)
    assert len(found) == 30
    assert all(
        math.dist(one, other) > 2 * DISC for one, other in combinations(found, 2)
    )
    assert all(PLOT.contains(*place) for place in found)


def test_where_there_is_room_no_dot_and_no_ring_is_covered() -> None:
    dots = [(300.0, 200.0), (304.0, 206.0), (330.0, 260.0)]
    rings = [*dots, (316.0, 184.0), (350.0, 200.0)]
    found = number_places(dots, rings)
    assert all(math.dist(disc, ring) >= CLEAR for disc in found for ring in rings)
    near = [math.dist(disc, dot) for disc, dot in zip(found, dots, strict=True)]
    assert max(near) < 50
