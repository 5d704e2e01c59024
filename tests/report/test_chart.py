"""Charts: gaps, ticks, what stands where, and what is really drawn."""

from __future__ import annotations

import math
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from biofeedback.errors import FieldError
from biofeedback.gui.theme import DAY, NIGHT, contrast
from biofeedback.phrase import Phrase
from biofeedback.report.chart import (
    Chart,
    Join,
    Level,
    Mark,
    Moment,
    NoiseBand,
    Point,
    Series,
    description,
)
from biofeedback.report.chart_layout import ChartLayout, lay_out, least_height
from biofeedback.report.chart_painter import paint
from biofeedback.report.chart_scale import day_scale, value_scale
from biofeedback.report.ink import PRINT, Ink

MONDAY = date(2026, 1, 5)

pytestmark = pytest.mark.usefixtures("qapp")  # letters need it


def points(*values: float, every_days: int = 14) -> tuple[Point, ...]:
    return tuple(
        Point(MONDAY + timedelta(every_days * index), value)
        for index, value in enumerate(values)
    )


FULL = Chart(
    title="Reference",
    unit="N",
    series=(
        Series("left", Mark.LEFT, points(300.0, 310.0, 325.0)),
        Series("right", Mark.RIGHT, points(430.0, 428.0, 441.0)),
    ),
    levels=(Level(445.0, "right before the injury: 445 N"),),
    noise=(NoiseBand(285.0, 325.0, "left: noise (n = 8 tests)", Mark.LEFT),),
    moments=(Moment(MONDAY + timedelta(9), "moved to stage 2"),),
    remarks=("Cannot tell yet: the right side has two tests only.",),
)


# Gaps.


def test_points_over_a_gap_are_two_runs_and_the_limit_itself_is_none() -> None:
    days = (0, 42, 85, 86)
    found = tuple(Point(MONDAY + timedelta(day), 1.0) for day in days)
    runs = Series("left", Mark.LEFT, found, join_within_days=42).runs
    assert [[found.index(point) for point in run] for run in runs] == [[0, 1], [2, 3]]
    assert Series("left", Mark.LEFT, ()).runs == ()


def test_a_chart_takes_no_nonsense() -> None:
    with pytest.raises(FieldError, match="finite"):
        Point(MONDAY, math.nan)
    with pytest.raises(FieldError, match="order"):
        Series("left", Mark.LEFT, points(1.0, 2.0)[::-1])
    for lower, upper in ((2.0, 1.0), (math.nan, 1.0), (0.0, math.inf)):
        with pytest.raises(FieldError, match="below"):
            NoiseBand(lower, upper, "noise")


# Scales.


@settings(max_examples=200)
@given(
    st.lists(
        st.floats(-1e6, 1e6).map(lambda value: round(value, 3)),
        min_size=1,
        max_size=6,
    ),
    st.integers(2, 12),
)
@example([0.0, 0.001], 5)
def test_a_scale_holds_all_values_between_evenly_spaced_round_ticks(
    values: list[float], ticks: int
) -> None:
    chart = Chart("x", "N", (Series("left", Mark.LEFT, points(*values)),))
    scale = value_scale(chart, ticks=ticks)
    hair = 1e-6 * (scale.top - scale.bottom)
    assert scale.bottom <= min(values) + hair
    assert scale.top >= max(values) - hair
    assert 2 <= len(scale.ticks) <= max(ticks, 5)
    assert scale.bottom - hair <= scale.ticks[0] < scale.ticks[-1] <= scale.top + hair
    for tick in scale.ticks:  # the words tell the very tick
        words = scale.words(tick)
        step = scale.ticks[1] - scale.ticks[0]
        assert abs(float(words) - tick) < 0.01 * step


@given(
    st.lists(st.floats(0, 100), min_size=1, max_size=4),
    st.sampled_from([(None, None), (None, 100.0), (0.0, None)]),
)
def test_a_scale_is_as_long_as_is_asked_for_and_keeps_its_ends(
    values: list[float], ends: tuple[float | None, float | None]
) -> None:
    low, high = ends
    series = (Series("held", Mark.LEFT, points(*values)),)
    scale = value_scale(Chart("x", "%", series, span=10.0, low=low, high=high), ticks=6)
    assert scale.top - scale.bottom >= 10.0 - 1e-9
    assert scale.bottom <= min(values)
    assert scale.top >= max(values)
    assert low is None or scale.bottom == low
    assert high is None or scale.top == high


def test_tenths_of_a_point_do_not_fill_a_chart_of_shares() -> None:
    """Asked 32.5 %, held 31.8 %: no more than a tenth of the height lies between."""
    series = (Series("x", Mark.LEFT, points(32.5, 31.8)),)
    scale = value_scale(Chart("x", "%", series, span=10.0), ticks=6)
    assert 0.7 / (scale.top - scale.bottom) < 0.1
    near_none = value_scale(
        Chart("x", "%", (Series("x", Mark.LEFT, points(0.4)),), span=10.0), ticks=6
    )
    assert near_none.ticks[0] == 0
    assert near_none.ticks[-1] >= 8


def test_values_without_decimals_have_whole_ticks() -> None:
    chart = Chart("Pain", "of 10", (), low=0.0, high=10.0)
    for most in range(2, 15):
        ticks = value_scale(chart, ticks=most).ticks
        assert ticks[0] == 0
        assert all(tick == round(tick) for tick in ticks)
    assert value_scale(chart, ticks=6).ticks == (0, 2, 4, 6, 8, 10)


@given(
    st.dates(date(1990, 1, 1), date(2090, 1, 1)),
    st.integers(0, 40000),
    st.integers(1, 12),
)
def test_ticks_of_days_lie_within_and_their_words_are_true(
    first: date, length: int, ticks: int
) -> None:
    last = first + timedelta(length)
    scale = day_scale(first, last, ticks=ticks)
    assert 0 <= scale.share(first) <= scale.share(last) <= 1
    assert 1 <= len(scale.ticks) <= ticks
    for day, words in scale.ticks:
        assert 0 <= scale.share(day) <= 1
        assert day.isoformat().startswith(words)
        assert words == day.isoformat() or day.day == 1
    stands = [scale.share(day) for day, _ in scale.ticks]
    assert stands == sorted(set(stands))


# What stands where.


def texts(layout: ChartLayout) -> list[QRectF]:
    ticks = (*layout.value_ticks, *layout.day_ticks, *layout.letters)
    return [*(b.rect for b in layout.blocks), *(rect for *_, rect in ticks)]


def assert_nothing_is_cut_or_covered(layout: ChartLayout, within: QRectF) -> None:
    found = texts(layout)
    for index, rect in enumerate(found):
        assert within.adjusted(-1, -1, 1, 1).contains(rect), (index, rect)
        for other in found[index + 1 :]:
            shared = rect.intersected(other)
            assert shared.isEmpty() or min(shared.width(), shared.height()) < 1
        if rect not in [r for *_, r in layout.value_ticks]:
            inner = rect.intersected(layout.plot.adjusted(1, 1, -1, -1))
            assert inner.isEmpty(), rect


def bare_height(chart: Chart, width: float, type_px: float) -> float:
    """What the title and the plot alone need."""
    bare = replace(chart, series=(), levels=(), noise=(), remarks=())
    return least_height(bare, width=width, type_px=type_px) + 8 * type_px


WORDS = st.text("abc xyz 0123456789.,", min_size=1, max_size=120)


@settings(max_examples=60, deadline=None)
@given(
    width=st.floats(240, 1800),
    type_px=st.sampled_from([9.0, 13.0, 22.0, 90.0]),
    title=WORDS,
    remarks=st.lists(WORDS, max_size=3),
    moments=st.lists(st.integers(0, 60), max_size=30),
    values=st.lists(st.floats(-500, 50000), max_size=8),
)
def test_no_text_is_cut_or_covered_whatever_the_size(
    width: float,
    type_px: float,
    title: str,
    remarks: list[str],
    moments: list[int],
    values: list[float],
) -> None:
    width *= type_px / 13
    chart = Chart(
        title,
        "N",
        (
            Series("left", Mark.LEFT, points(*values)),
            Series(title, Mark.RIGHT, points(*values[::2])),
        ),
        levels=(Level(400.0, title),),
        moments=tuple(
            Moment(MONDAY + timedelta(day), "moved") for day in sorted(moments)
        ),
        remarks=tuple(remarks),
    )
    height = least_height(chart, width=width, type_px=type_px)
    rect = QRectF(7, 11, width, height + 1)
    layout = lay_out(chart, rect, type_px=type_px)
    assert layout.left_out == ()
    assert_nothing_is_cut_or_covered(layout, rect)
    # With less room something is left out, and what stays is still in order.
    less = QRectF(7, 11, width, max(0.7 * height, bare_height(chart, width, type_px)))
    assert_nothing_is_cut_or_covered(lay_out(chart, less, type_px=type_px), less)


def test_what_there_is_no_room_for_is_left_out_whole_from_the_last_remark() -> None:
    height = least_height(FULL, width=600, type_px=13)
    assert lay_out(FULL, QRectF(0, 0, 600, height), type_px=13).left_out == ()
    tight = lay_out(FULL, QRectF(0, 0, 600, height - 4), type_px=13)
    assert tight.left_out == FULL.remarks


def test_a_value_is_where_its_tick_is_and_days_run_to_the_right() -> None:
    layout = lay_out(FULL, QRectF(0, 0, 600, 400), type_px=13)
    for y, words, _ in layout.value_ticks:
        assert layout.y(float(words)) == pytest.approx(y)
    assert layout.y(300.0) > layout.y(430.0)
    left = FULL.series[0]
    at = [layout.x(point.day) for point in left.points]
    assert at[2] - at[1] == pytest.approx(at[1] - at[0])
    place = QPointF(at[1] + 2, layout.y(310.0) - 2)
    assert layout.nearest(place, within_px=5) == (left, 1)
    assert layout.nearest(place + QPointF(9, 9), within_px=5) is None


# What is drawn.


def drawn(
    chart: Chart, ink: Ink = DAY, *, width: int = 600, height: int = 400
) -> tuple[QImage, ChartLayout]:
    image = QImage(width, height, QImage.Format.Format_RGB32)
    image.fill(QColor(ink.paper))
    painter = QPainter(image)
    layout = paint(painter, QRectF(0, 0, width, height), chart, ink)
    painter.end()
    return image, layout


def colour(image: QImage, x: float, y: float) -> str:
    return image.pixelColor(round(x), round(y)).name().upper()


@pytest.mark.parametrize("ink", [DAY, NIGHT, PRINT], ids=["day", "night", "print"])
@pytest.mark.parametrize("mark", list(Mark))
def test_hollow_marks_show_the_paper_and_filled_ones_the_ink(
    ink: Ink, mark: Mark
) -> None:
    chart = Chart("x", "N", (Series("left", mark, points(300.0)),))
    image, layout = drawn(chart, ink)
    x, y = layout.x(MONDAY), layout.y(300.0)
    assert colour(image, x, y) == (ink.paper if mark.hollow else ink.ink)
    assert (mark is Mark.LEFT) <= mark.hollow <= (mark is not Mark.RIGHT)


@pytest.mark.parametrize("join", list(Join))
def test_a_gap_is_left_empty_and_neighbours_are_joined(join: Join) -> None:
    days = (0, 28, 84)
    found = tuple(Point(MONDAY + timedelta(day), 300.0) for day in days)
    image, layout = drawn(Chart("x", "N", (Series("r", Mark.RIGHT, found, join),)))
    y = round(layout.y(300.0))
    for day, joined in ((14, join is not Join.NONE), (56, False)):
        x = round(layout.x(MONDAY + timedelta(day)))
        column = [colour(image, x, row) for row in range(y - 2, y + 3)]
        assert any(one != DAY.paper for one in column) == joined, day


def test_equal_values_of_a_day_can_stand_beside_each_other() -> None:
    """None covers another, and each is found where it is drawn."""
    series = tuple(
        Series(str(aside), Mark.AFTER, points(3.0), Join.NONE, aside=aside)
        for aside in (-1.0, 0.0, 1.0)
    )
    image, layout = drawn(Chart("Pain", "of 10", series, low=0.0, high=10.0))
    places = [layout.place(one, one.points[0]) for one in series]
    for one, place in zip(series, places, strict=True):
        assert colour(image, place.x(), place.y()) == DAY.ink
        assert layout.nearest(place, within_px=2) == (one, 0)
    width = places[1].x() - places[0].x()
    assert width >= 2 * 0.85 * 4.5  # of a square of this radius


def test_steps_stand_until_the_next_value() -> None:
    series = Series("r", Mark.RIGHT, points(300.0, 400.0), Join.STEPS)
    image, layout = drawn(Chart("x", "N", (series,)))
    x = layout.x(MONDAY + timedelta(7))
    low, middle = layout.y(300.0), layout.y(350.0)
    around = range(-2, 3)
    assert any(colour(image, x, low + row) != DAY.paper for row in around)
    assert all(colour(image, x, middle + row) == DAY.paper for row in around)


def test_a_band_has_edges_and_a_hatch_and_begins_on_its_day() -> None:
    begin = MONDAY + timedelta(14)
    noise = (NoiseBand(310.0, 390.0, "noise", Mark.RIGHT, begin),)
    series = (Series("r", Mark.RIGHT, points(250.0, 250.0, 250.0)),)
    image, layout = drawn(Chart("x", "N", series, noise=noise))
    x = round(layout.x(begin))
    rows = range(round(layout.y(390.0)) + 4, round(layout.y(310.0)) - 3)
    inside = [colour(image, x + 12, row) for row in rows]
    assert {DAY.wash} < set(inside)  # the wash, and strokes on it
    assert {colour(image, x - 12, row) for row in rows} == {DAY.paper}
    for edge in (310.0, 390.0):
        near = range(round(layout.y(edge)) - 1, round(layout.y(edge)) + 2)
        at = [colour(image, x + 20, row) for row in near]
        assert max(contrast(one, DAY.paper) for one in at) >= 3


@pytest.mark.parametrize("ink", [DAY, NIGHT, PRINT], ids=["day", "night", "print"])
def test_text_and_lines_can_be_read_on_their_ground(ink: Ink) -> None:
    for ground in (ink.paper, ink.wash):
        assert contrast(ink.ink, ground) >= 4.5
        assert contrast(ink.edge, ground) >= 3
    assert contrast(ink.quiet, ink.paper) >= 4.5


def test_an_empty_chart_says_so_and_keeps_its_remark() -> None:
    chart = Chart("Pain", "of 10", (), remarks=("Cannot tell yet.",))
    image, layout = drawn(chart, width=300, height=120)
    assert layout.value_ticks == layout.day_ticks == ()
    assert [block.text for block in layout.blocks] == [
        "Pain (of 10)",
        "Cannot tell yet.",
    ]
    inside = layout.plot.toRect().adjusted(2, 2, -2, -2)
    assert any(
        image.pixelColor(x, y) != QColor(DAY.paper)
        for x in range(inside.left(), inside.right())
        for y in range(inside.top(), inside.bottom())
    )
    assert description(chart) == "Pain (of 10). Nothing to show yet. Cannot tell yet."


def test_the_description_tells_all_that_is_drawn() -> None:
    told = description(FULL)
    assert told == (
        "Reference (N). left: 325 N on 2026-02-02, 3 values. "
        "right: 441 N on 2026-02-02, 3 values. right before the injury: 445 N. "
        "left: noise (n = 8 tests). 2026-01-14: moved to stage 2. "
        "Cannot tell yet: the right side has two tests only."
    )


def test_texts_go_through_the_language_of_the_reader() -> None:
    def shouted(text: str) -> str:
        told = text.template if isinstance(text, Phrase) else text
        return told.upper()

    layout = lay_out(FULL, QRectF(0, 0, 600, 400), type_px=13, shown=shouted)
    assert [b.text for b in layout.blocks][:2] == [
        "{TITLE} ({UNIT})",
        "{NAME}: {VALUE} ON {DAY}",
    ]
