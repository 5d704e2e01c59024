"""An intensity in words: in % with both spellings of its tolerance, and in newtons."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.training.intensity import Intensity, ToleranceOf, Unit

if TYPE_CHECKING:
    from biofeedback.training.band import Band


def number(value: float) -> str:
    """A number to one decimal, without a needless zero."""
    text = f"{value:.1f}"
    return text.removesuffix(".0")


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
