"""The reason of a proposal, in one line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.phrase import Phrase, phrase
from biofeedback.training.day import RISE_POINTS, Why
from biofeedback.training.reference import PAIN_MOST

if TYPE_CHECKING:
    from biofeedback.training.day import PainRule, Proposal


def in_words(proposal: Proposal, rule: PainRule, *, room: bool = True) -> Phrase:
    """The reason in one line.

    Args:
        room: whether the day decides where in the range the band lies.
    """
    pain = phrase(
        "pain {pain} of {pain_most} ({when})",
        pain=proposal.pain,
        pain_most=PAIN_MOST,
        when=proposal.when.value,
    )
    between = phrase(
        "{pain} is above {low} and not above {high}",
        pain=pain,
        low=rule.low,
        high=rule.high,
    )
    if proposal.why is Why.STOP:
        return phrase(
            "Pain {pain} of {most} ({when}) is above the cut of {high}: better "
            "stop, and ask the treating clinician before going on.",
            pain=proposal.pain,
            most=PAIN_MOST,
            when=proposal.when.value,
            high=rule.high,
        )
    if not room:
        return _with_fixed_band(proposal, between)
    if proposal.why is Why.SOME_PAIN:
        return phrase("Low end: {between}.", between=between)
    if proposal.why is Why.FIRST_TIME:
        return phrase(
            "Low end: the first time, so nothing is known of how it is borne."
        )
    return _beside_last(proposal)


def _with_fixed_band(proposal: Proposal, between: str) -> Phrase:
    """The reason where it can change nothing; it is to be known all the same."""
    if proposal.why is Why.SOME_PAIN:
        return phrase("The band is fixed; {between}.", between=between)
    if proposal.why is Why.RISEN:
        return phrase("The band is fixed; {risen}", risen=_risen(proposal))
    return phrase("The band is fixed: nothing is left to the day.")


def _beside_last(proposal: Proposal) -> Phrase:
    """The reason where it is that of last time."""
    place, last = proposal.place, proposal.last
    moved = last is not None and place != last.place
    if proposal.why is Why.RISEN:
        where = phrase("One step down") if moved else phrase("Still the low end")
        return phrase("{where}: {risen}", where=where, risen=_risen(proposal))
    if proposal.why is Why.NO_MORNING:
        return phrase(
            "As last time: the morning after it was not asked, so no step up."
        )
    where = phrase("One step up") if moved else phrase("Still the high end")
    return phrase(
        "{where}: pain stayed low, and no rise of {rise_points} points or more.",
        where=where,
        rise_points=RISE_POINTS,
    )


def _risen(proposal: Proposal) -> str:
    before = proposal.last.pain_now if proposal.last else 0
    return phrase(
        "pain {pain} ({when}) after {before} before the last session is a rise.",
        pain=proposal.pain,
        when=proposal.when.value,
        before=before,
    )
