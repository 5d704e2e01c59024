"""An intensity in words: in % with both spellings of its tolerance, and in newtons."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from biofeedback.training.intensity import Intensity, ToleranceOf, Unit

if TYPE_CHECKING:
    from biofeedback.training.band import Band


def number(value: float) -> str:
    """A number to one decimal, without a needless zero."""
    text = f"{value:.1f}"
    return text.removesuffix(".0")


def rounded_down(value: float) -> str:
    """To one decimal and never up: what is not reached does not look reached."""
    return f"{math.floor(10 * value) / 10:.1f}".removesuffix(".0")


def in_words(intensity: Intensity, place: float = 0.0) -> str:
    """What is asked for, such as 70 % ± 5 % of the centre (± 3.5 points).

    Args:
        place: where in a range with a tolerance, from 0 to 1.
    """
    unit = "%" if intensity.unit is Unit.PERCENT else "N"
    if intensity.upper is None:
        return f"at least {number(intensity.lower)} {unit}"
    if intensity.tolerance is None:
        return f"{number(intensity.lower)} to {number(intensity.upper)} {unit}"
    centre = intensity.centre(place)
    return f"{number(centre)} {unit} {_tolerance(intensity, centre, unit)}"


def range_in_words(intensity: Intensity) -> str:
    """The whole range where the day decides on the place; else empty."""
    if not intensity.leaves_room or intensity.upper is None:
        return ""
    unit = "%" if intensity.unit is Unit.PERCENT else "N"
    return f"{number(intensity.lower)} to {number(intensity.upper)} {unit}"


def newtons(band: Band) -> str:
    """The edges of a band, such as 159.6 to 176.4 N."""
    if band.open_above:
        return f"at least {number(band.lower_n)} N"
    return f"{number(band.lower_n)} to {number(band.upper_n)} N"


def newtons_in_range(intensity: Intensity, reference_n: float | None) -> str:
    """The edges in newtons; at both ends of a range where the day decides.

    Raises:
        FieldError: a percentage without a reference.
    """
    low = newtons(intensity.band(reference_n, 0.0))
    if not intensity.leaves_room:
        return low
    high = newtons(intensity.band(reference_n, 1.0))
    return f"{low} at the low end, {high} at the high end"


def _tolerance(intensity: Intensity, centre: float, unit: str) -> str:
    tolerance = intensity.tolerance or 0.0
    match intensity.tolerance_of:
        case ToleranceOf.CENTRE:
            half = centre * tolerance / 100
            also = "points of the reference" if unit == "%" else "N"
            return f"± {number(tolerance)} % of the centre (± {number(half)} {also})"
        case ToleranceOf.REFERENCE:
            share = 100 * tolerance / centre
            return (
                f"± {number(tolerance)} points of the reference "
                f"(± {number(share)} % of the centre)"
            )
        case ToleranceOf.NEWTONS:
            share = 100 * tolerance / centre
            return f"± {number(tolerance)} N (± {number(share)} % of the centre)"
