"""The reason of a proposal, in one line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.training.day import RISE_POINTS, Why
from biofeedback.training.reference import PAIN_MOST

if TYPE_CHECKING:
    from biofeedback.training.day import PainRule, Proposal


def in_words(proposal: Proposal, rule: PainRule, *, room: bool = True) -> str:
    """The reason in one line.

    Args:
        room: whether the day decides where in the range the band lies.
    """
    pain = f"pain {proposal.pain} of {PAIN_MOST} ({proposal.when.value})"
    between = f"{pain} is above {rule.low} and not above {rule.high}"
    if proposal.why is Why.STOP:
        return (
            f"P{pain[1:]} is above the cut of {rule.high}: better stop, and ask the "
            "treating clinician before going on."
        )
    if not room:
        return _with_fixed_band(proposal, between)
    if proposal.why is Why.SOME_PAIN:
        return f"Low end: {between}."
    if proposal.why is Why.FIRST_TIME:
        return "Low end: the first time, so nothing is known of how it is borne."
    return _beside_last(proposal)


def _with_fixed_band(proposal: Proposal, between: str) -> str:
    """The reason where it can change nothing; it is to be known all the same."""
    if proposal.why is Why.SOME_PAIN:
        return f"The band is fixed; {between}."
    if proposal.why is Why.RISEN:
        return f"The band is fixed; {_risen(proposal)}"
    return "The band is fixed: nothing is left to the day."


def _beside_last(proposal: Proposal) -> str:
    """The reason where it is that of last time."""
    place, last = proposal.place, proposal.last
    moved = last is not None and place != last.place
    if proposal.why is Why.RISEN:
        where = "One step down" if moved else "Still the low end"
        return f"{where}: {_risen(proposal)}"
    if proposal.why is Why.NO_MORNING:
        return "As last time: the morning after it was not asked, so no step up."
    where = "One step up" if moved else "Still the high end"
    return f"{where}: pain stayed low, and no rise of {RISE_POINTS} points or more."


def _risen(proposal: Proposal) -> str:
    before = proposal.last.pain_now if proposal.last else 0
    return (
        f"pain {proposal.pain} ({proposal.when.value}) after {before} before the last "
        "session is a rise."
    )
