"""The slope of the tempo: how high it is where, and that it stays off the floor."""

from __future__ import annotations

import pytest
from PySide6.QtGui import QColor, QImage, QPainter

from biofeedback.gui.scale import Scale
from biofeedback.gui.tempo_marks import ROOM_SHARE, STRIP_SHARE, TempoMarks
from biofeedback.gui.theme import DAY, NIGHT, Theme
from biofeedback.training.feedback import Stretch
from biofeedback.training.tempo import tempo_guide

HEIGHT, WIDTH, COLUMNS_PER_S = 400, 400, 50.0
SCALE = Scale(top_n=400.0, bottom_n=-20.0)


def painted(stretch: Stretch, *, theme: Theme = DAY, floor_n: float = 200.0) -> QImage:
    image = QImage(WIDTH, HEIGHT, QImage.Format.Format_RGB32)
    image.fill(QColor(theme.paper))
    painter = QPainter(image)
    marks = TempoMarks(theme=theme, height=HEIGHT, columns_per_s=COLUMNS_PER_S)
    guide = tempo_guide(stretch, floor_n=floor_n, tempo_s=4.0, ramp_s=0.7)
    marks.paint(painter, guide, scale=SCALE, base_s=1.0)
    painter.end()
    return image


def washed(image: QImage, column: int, theme: Theme = DAY) -> int:
    """How many pixels of a column are of the slope."""
    wash = QColor(theme.wash).rgb()
    return sum(image.pixel(column, row) == wash for row in range(HEIGHT))


def inked_rows(image: QImage, theme: Theme = DAY) -> list[int]:
    paper = QColor(theme.paper).rgb()
    return [
        row
        for row in range(HEIGHT)
        if any(image.pixel(column, row) != paper for column in range(WIDTH))
    ]


@pytest.mark.parametrize("theme", [DAY, NIGHT])
def test_the_slope_falls_evenly_from_the_entry_to_the_end(
    theme: Theme,
) -> None:
    # From 2 s after the base to 6 s: columns 150 to 350.
    image = painted(Stretch(2.0, 6.0, entry=True), theme=theme)
    rise = STRIP_SHARE * HEIGHT
    assert washed(image, 148, theme) == 0
    for share in (0.1, 0.3, 0.6):  # away from ticks and numbers
        high = washed(image, round(150 + 200 * share), theme)
        assert high == pytest.approx(rise * (1 - share), abs=5)
    assert washed(image, 352, theme) == 0


def test_under_way_the_slope_begins_as_low_as_the_tempo_is_far() -> None:
    fresh = painted(Stretch(0.0, 3.6, entry=False))
    late = painted(Stretch(0.0, 1.2, entry=False))
    rise = STRIP_SHARE * HEIGHT
    assert washed(fresh, 53) == pytest.approx(rise * 0.9, abs=5)
    assert washed(late, 53) == pytest.approx(rise * 0.3, abs=5)


def test_a_ring_rides_on_the_slope_only_under_way() -> None:
    ink = QColor(DAY.ink).rgb()

    def rings(image: QImage) -> int:
        return sum(
            image.pixel(x, y) == ink for x in range(WIDTH) for y in range(HEIGHT)
        )

    assert rings(painted(Stretch(0.0, 3.0, entry=False))) > 10
    assert rings(painted(Stretch(2.0, 6.0, entry=True))) == 0


@pytest.mark.parametrize("floor_n", [10.0, 25.0, 60.0, 300.0])
def test_the_slope_never_reaches_the_floor(floor_n: float) -> None:
    marks = TempoMarks(theme=DAY, height=HEIGHT, columns_per_s=COLUMNS_PER_S)
    room = SCALE.y(0.0, HEIGHT) - SCALE.y(floor_n, HEIGHT)
    assert 0 < marks.rise(SCALE, floor_n) <= ROOM_SHARE * room + 1e-9
    if floor_n == 300.0:
        image = painted(Stretch(0.0, 4.0, entry=False), floor_n=floor_n)
        assert min(inked_rows(image)) > SCALE.y(floor_n, HEIGHT)


def test_a_tempo_that_is_over_draws_no_slope() -> None:
    image = painted(Stretch(0.0, 0.0, entry=False))
    assert all(washed(image, column) == 0 for column in range(WIDTH))
