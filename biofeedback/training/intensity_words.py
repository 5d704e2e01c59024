"""An intensity in words: in % with both spellings of its tolerance, and in newtons."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from biofeedback.phrase import Phrase, phrase
from biofeedback.training.intensity import Intensity, ToleranceOf, Unit

if TYPE_CHECKING:
    from biofeedback.training.band import Band


def number(value: float) -> str:
    """A number to one decimal, without a needless zero."""
    whole = f"{value:.1f}".endswith(".0")
    return Phrase("{value:.0f}" if whole else "{value:.1f}", {"value": value})


def rounded_down(value: float) -> str:
    """To one decimal and never up: what is not reached does not look reached."""
    return number(math.floor(10 * value) / 10)


def in_words(intensity: Intensity, place: float = 0.0) -> str:
    """What is asked for, such as 70 % ± 5 % of the centre (± 3.5 points).

    Args:
        place: where in a range with a tolerance, from 0 to 1.
    """
    unit = "%" if intensity.unit is Unit.PERCENT else "N"
    if intensity.upper is None:
        return phrase(
            "at least {lower} {unit}", lower=number(intensity.lower), unit=unit
        )
    if intensity.tolerance is None:
        return phrase(
            "{lower} to {upper} {unit}",
            lower=number(intensity.lower),
            upper=number(intensity.upper),
            unit=unit,
        )
    centre = intensity.centre(place)
    return phrase(
        "{centre} {unit} {tolerance}",
        centre=number(centre),
        unit=unit,
        tolerance=_tolerance(intensity, centre, unit),
    )


def range_in_words(intensity: Intensity) -> str:
    """The whole range where the day decides on the place; else empty."""
    if not intensity.leaves_room or intensity.upper is None:
        return ""
    unit = "%" if intensity.unit is Unit.PERCENT else "N"
    return phrase(
        "{lower} to {upper} {unit}",
        lower=number(intensity.lower),
        upper=number(intensity.upper),
        unit=unit,
    )


def newtons(band: Band) -> str:
    """The edges of a band, such as 159.6 to 176.4 N."""
    if band.open_above:
        return phrase("at least {lower_n} N", lower_n=number(band.lower_n))
    return phrase(
        "{lower_n} to {upper_n} N",
        lower_n=number(band.lower_n),
        upper_n=number(band.upper_n),
    )


def newtons_in_range(intensity: Intensity, reference_n: float | None) -> str:
    """The edges in newtons; at both ends of a range where the day decides.

    Raises:
        FieldError: a percentage without a reference.
    """
    low = newtons(intensity.band(reference_n, 0.0))
    if not intensity.leaves_room:
        return low
    high = newtons(intensity.band(reference_n, 1.0))
    return phrase("{low} at the low end, {high} at the high end", low=low, high=high)


def tolerance_in_words(intensity: Intensity) -> str:
    """How far an edge is from the centre, as it was written; empty without one."""
    if intensity.tolerance is None:
        return ""
    half = number(intensity.tolerance)
    match intensity.tolerance_of:
        case ToleranceOf.CENTRE:
            return phrase("{half} % of the centre", half=half)
        case ToleranceOf.REFERENCE:
            return phrase("{half} points of the reference", half=half)
        case ToleranceOf.NEWTONS:
            return phrase("{half} N", half=half)


def _tolerance(intensity: Intensity, centre: float, unit: str) -> str:
    tolerance = intensity.tolerance or 0.0
    match intensity.tolerance_of:
        case ToleranceOf.CENTRE:
            half = centre * tolerance / 100
            also = phrase("points of the reference") if unit == "%" else "N"
            return phrase(
                "± {tolerance} % of the centre (± {half} {also})",
                tolerance=number(tolerance),
                half=number(half),
                also=also,
            )
        case ToleranceOf.REFERENCE:
            share = 100 * tolerance / centre
            return phrase(
                "± {tolerance} points of the reference (± {share} % of the centre)",
                tolerance=number(tolerance),
                share=number(share),
            )
        case ToleranceOf.NEWTONS:
            share = 100 * tolerance / centre
            return phrase(
                "± {tolerance} N (± {share} % of the centre)",
                tolerance=number(tolerance),
                share=number(share),
            )
