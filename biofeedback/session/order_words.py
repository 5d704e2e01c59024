"""What comes next in a running order, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.phrase import phrase
from biofeedback.session.order_record import leg_words
from biofeedback.training.running_order import Stand

if TYPE_CHECKING:
    from biofeedback.training.band import Band
    from biofeedback.training.running_order import RunningOrder


def words_of_next(order: RunningOrder, *, own_under_way: bool) -> str:
    """Which set comes next; empty where none does.

    Args:
        own_under_way: whether a set of the order is under way, or was asked for.
    """
    legs = () if order.over else order.legs[order.place :]
    to_come = (leg for leg in legs[own_under_way:] if leg.stand is Stand.TO_COME)
    leg = next(to_come, None)
    if leg is None:
        return ""
    return phrase("Next in the order: {leg}.", leg=leg_words(leg))


def words_of_band(order: RunningOrder) -> str:
    """That the next set has another band than is prescribed; else empty."""
    leg = order.leg
    if leg is None or leg.stand is not Stand.TO_COME:
        return ""
    if leg.prescribed is None or leg.asked.band == leg.prescribed:
        return ""
    return phrase(
        "The next set has the nudged band, {band}; prescribed: {prescribed}.",
        band=_edges(leg.asked.band),
        prescribed=_edges(leg.prescribed),
    )


def _edges(band: Band) -> str:
    """The edges of a band for people."""
    if band.open_above:
        return phrase("{low:.1f} N or more", low=band.lower_n)
    return phrase("{low:.1f} to {high:.1f} N", low=band.lower_n, high=band.upper_n)


def words_outside(most: Band) -> str:
    """That a band has left what is prescribed, which is allowed."""
    if most.open_above:
        return phrase(
            "Below the prescribed {low:.1f} N: allowed, and noted so.",
            low=most.lower_n,
        )
    return phrase(
        "Outside the prescribed {low:.1f} to {high:.1f} N: allowed, and noted so.",
        low=most.lower_n,
        high=most.upper_n,
    )
