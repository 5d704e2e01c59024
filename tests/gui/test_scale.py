from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.gui.path_scale import ROOM, Figure, figure_words, figures_of
from biofeedback.gui.scale import Scale, nice_above
from biofeedback.training.band import Band

forces = st.floats(0.5, 5000)


@given(st.floats(1e-3, 1e5))
def test_nice_is_above_and_not_far(value: float) -> None:
    nice = nice_above(value)
    assert value <= nice * (1 + 1e-9)
    assert nice <= 1.5 * value


@given(forces, forces, st.one_of(st.none(), forces))
def test_all_that_matters_is_on_the_scale(
    lower_n: float, width_n: float, over_n: float | None
) -> None:
    band = Band(lower_n, lower_n + width_n)
    ceiling_n = None if over_n is None else band.lower_n + over_n
    scale = Scale.for_band(band, ceiling_n=ceiling_n, reference_n=None)
    assert scale.bottom_n < 0 < scale.top_n
    assert scale.holds(band)
    assert band.upper_n < scale.top_n
    assert ceiling_n is None or ceiling_n < scale.top_n


def test_pixels_run_from_the_head_and_stop_at_the_ends() -> None:
    scale = Scale(top_n=100.0, bottom_n=0.0)
    assert scale.y(100.0, 400) == 0
    assert scale.y(25.0, 400) == 300
    assert scale.y(-50.0, 400) == 400
    assert scale.y(math.inf, 400) == 0


def test_percent_is_of_the_reference() -> None:
    # Common practice, no source: 70 % of 240 N are 168 N.
    assert Scale(300, 0, reference_n=240.0).percent(168.0) == pytest.approx(70.0)
    assert Scale(300, 0).percent(168.0) is None


def test_a_nudged_band_can_leave_its_room() -> None:
    scale = Scale.for_band(Band(100, 120), ceiling_n=None, reference_n=None)
    assert scale.holds(Band(130, 150))
    assert not scale.holds(Band(160, 180))


@pytest.mark.parametrize(
    ("force_n", "percent", "bold", "words"),
    [
        (90.0, 37.5, True, ("90 N", "37.5 %")),
        (62.5, 26.04, True, ("62.5 N", "26 %")),
        (30.0, 12.5, False, ("30 N", "12 %")),
        (1848.0, 77.0, True, ("1848 N", "77 %")),
        (30.0, None, False, ("30 N", "")),
    ],
)
def test_an_edge_is_written_as_the_desk_writes_it(
    force_n: float, percent: float | None, bold: bool, words: tuple[str, str]
) -> None:
    figure = Figure(force_n, 0.0, 0.0, bold)
    assert figure_words(figure, percent) == words


@given(forces, st.floats(0.1, 300), st.one_of(st.none(), st.floats(0.1, 200)))
def test_no_figure_covers_another(
    lower_n: float, width_n: float, over_n: float | None
) -> None:
    band = Band(lower_n, lower_n + width_n)
    ceiling_n = None if over_n is None else band.upper_n + over_n
    scale = Scale.for_band(band, ceiling_n=ceiling_n, reference_n=240.0)
    figures = figures_of(scale, band=band, ceiling_n=ceiling_n, height=330, size=22)
    written = sorted(figure.written_y for figure in figures)
    for above, below in itertools.pairwise(written):
        assert below - above >= 22 * ROOM - 1e-6
    bold = {figure.force_n for figure in figures if figure.bold}
    assert {band.lower_n, band.upper_n} <= bold
    assert ceiling_n is None or ceiling_n in bold
