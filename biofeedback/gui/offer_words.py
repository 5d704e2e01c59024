"""What is said of the set that a plan puts at the desk, in one line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.gui.keys import native
from biofeedback.gui.language import filled, tr
from biofeedback.training.intensity_words import newtons

if TYPE_CHECKING:
    from biofeedback.session.plan_at_desk import Offer

TODAY_KEY = "Alt+D"


def offer_words(offer: Offer) -> str:
    """What stands at the desk, and with which key the plan's day is asked about."""
    key = native(TODAY_KEY)
    if offer.chosen is None:
        words = tr("The plan's set waits on Today ({key}): {why}")
        return filled(words, key=key, why=offer.waits)
    if offer.pain_asked:
        words = tr("Of the plan: {title}, {band}. Today ({key}) has its other sets.")
    else:
        words = tr("Of the plan, low end: {title}, {band}. Today ({key}) asks of pain.")
    title, band = offer.chosen.title, newtons(offer.asked.band)
    return filled(words, key=key, title=title, band=band)
