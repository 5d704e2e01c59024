"""The chart of Bland and Altman: differences of two trials over their mean.

Bias and limits of agreement are lines; the bands around the limits are their exact
95 % intervals, those of few people wide. A point is a person, and is not named.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QImage, QPainter

from biofeedback.measures.agreement import Agreement, agreement
from biofeedback.measures.retest import differences
from biofeedback.phrase import phrase
from biofeedback.report.chart import Chart, Level, Mark, NoiseBand, Scatter
from biofeedback.report.chart_painter import paint
from biofeedback.report.ink import PRINT
from biofeedback.report.png import png_of
from biofeedback.report.writing import painting

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy as np
    import numpy.typing as npt

    from biofeedback.phrase import Phrase
    from biofeedback.report.chart_layout import Shown

LEAST_PEOPLE = 3
WIDTH, HEIGHT = 1280, 800
TYPE_PX = 18.0
MARGIN = 28


def agreement_chart(
    scores: npt.NDArray[np.float64],
    trials: Sequence[str],
    unit: str,
    *,
    pair: tuple[int, int] = (0, 1),
) -> Chart:
    """The chart of two trials.

    Args:
        scores: shape (people, trials), NaN where one is missing.
        trials: names of the columns.
        unit: of the scores.
        pair: which two; the difference is the second less the first.
    """
    first, second = (trials[place] for place in pair)
    points = differences(scores, *pair)
    what = phrase("{second} less {first}", first=first, second=second)
    title = phrase("Differences, {what}", what=what)
    across = phrase("mean of {first} and {second} ({unit})", first=first, second=second,
                    unit=unit)  # fmt: skip
    if len(points) < LEAST_PEOPLE:
        why = phrase(
            "Cannot tell yet: three people need both scores, here are {people}.",
            people=len(points),
        )
        return Chart(title, unit, (), remarks=(why,))
    found = agreement(points[:, 1])
    return Chart(
        title=title,
        unit=unit,
        series=(),
        levels=tuple(_levels(found, unit)),
        noise=tuple(_bands(found, unit)),
        remarks=(
            phrase(
                "A circle is a person (n = {people}). Nineteen of twenty differences "
                "are expected between the limits, where differences do not grow with "
                "the level.",
                people=found.people,
            ),
        ),
        decimals=1,
        scatter=Scatter(
            what, across, tuple((float(level), float(apart)) for level, apart in points)
        ),
    )


def _levels(found: Agreement, unit: str) -> list[Level]:
    lower, upper = found.limits
    low, high = found.bias_interval
    return [
        Level(
            found.bias,
            phrase(
                "bias {bias:.2f} {unit}, 95 % interval {low:.2f} to {high:.2f}",
                bias=found.bias,
                unit=unit,
                low=low,
                high=high,
            ),
        ),
        Level(lower, _limit_words(phrase("lower limit"), lower, unit)),
        Level(upper, _limit_words(phrase("upper limit"), upper, unit)),
    ]


def _limit_words(which: Phrase, value: float, unit: str) -> Phrase:
    return phrase("{which} {value:.2f} {unit}", which=which, value=value, unit=unit)


def _bands(found: Agreement, unit: str) -> list[NoiseBand]:
    lower, upper = found.exact_intervals
    return [
        NoiseBand(
            *interval,
            phrase(
                "95 % interval of the {which}: {low:.2f} to {high:.2f} {unit}",
                which=which,
                low=interval[0],
                high=interval[1],
                unit=unit,
            ),
            mark,
        )
        for interval, which, mark in (
            (lower, phrase("lower limit"), Mark.LEFT),
            (upper, phrase("upper limit"), Mark.RIGHT),
        )
    ]


def picture(chart: Chart, *, shown: Shown = str) -> bytes:
    """A chart as a PNG, on white."""
    _app = painting()
    image = QImage(WIDTH, HEIGHT, QImage.Format.Format_RGB32)
    image.fill(QColor(PRINT.paper))
    painter = QPainter(image)
    frame = QRectF(MARGIN, MARGIN, WIDTH - 2 * MARGIN, HEIGHT - 2 * MARGIN)
    paint(painter, frame, chart, PRINT, type_px=TYPE_PX, shown=shown)
    painter.end()
    return png_of(image)
