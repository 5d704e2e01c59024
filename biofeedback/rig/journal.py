"""The journal: events as the JSON objects that a recording keeps, and back.

Two sorts. What was *done* from outside (band, terms, gate, zero, stop, pain, note)
cannot be worked out again and is applied by a replay where it stands. What *followed*
(rep start, lapse, complete, rep end, ceiling) is worked out again from the samples,
and kept so that a reader without this program can see it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, assert_never

from biofeedback.rig.handoff import (
    BandChanged,
    GateMoved,
    Measured,
    Refused,
    SessionEvent,
    SetBegun,
    SetEnded,
    TermsChanged,
    Warned,
    ZeroTaken,
)
from biofeedback.training.events import (
    CeilingCrossed,
    Lapsed,
    RepCompleted,
    RepEnded,
    RepStarted,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from biofeedback.rig.commands import Mark

BAND = "band"
TERMS = "terms"
GATE = "gate"
ZERO = "zero"
STOP = "stop"
REP_END = "rep end"
PAIN = "pain"
PAIN_BACK = "pain taken back"
"""The last pain mark of this set that stood was a slip; `level` is that of the mark."""
NOTE = "note"
BOARD = "board"
"""Another board was met and not used, or the board in use is back; changes nothing."""


def to_json(event: SessionEvent) -> dict[str, object] | None:
    """The JSON object to keep, or None for what a recording does not keep."""
    match event:
        case BandChanged() | TermsChanged() | GateMoved() | ZeroTaken() | SetEnded():
            return _done_to_json(event)
        case RepStarted() | Lapsed() | RepCompleted() | CeilingCrossed() | Measured():
            return _followed_to_json(event)
        case RepEnded() | SetBegun() | Refused() | Warned():
            return None  # Measured tells the rep; the others are for the desk
        case _:
            assert_never(event)


def _done_to_json(
    event: BandChanged | TermsChanged | GateMoved | ZeroTaken | SetEnded,
) -> dict[str, object]:
    match event:
        case BandChanged(time_s, old, new, reason):
            return {
                "kind": BAND,
                "time_s": time_s,
                "old": old.to_json(),
                "new": new.to_json(),
                "reason": reason,
            }
        case TermsChanged(time_s, old_terms, terms, reason):
            return {
                "kind": TERMS,
                "time_s": time_s,
                "old": old_terms.to_json(),
                "new": terms.to_json(),
                "reason": reason,
            }
        case GateMoved(time_s, opened, reason):
            return {"kind": GATE, "time_s": time_s, "open": opened, "reason": reason}
        case ZeroTaken(zero):
            return {"kind": ZERO, "zero": zero.to_json()}
        case SetEnded(reason):
            return {"kind": STOP, "reason": reason}
        case _:
            assert_never(event)


def _followed_to_json(
    event: RepStarted | Lapsed | RepCompleted | CeilingCrossed | Measured,
) -> dict[str, object]:
    match event:
        case RepStarted(time_s, number):
            return {"kind": "rep start", "time_s": time_s, "number": number}
        case Lapsed(time_s, left_s, to):
            return {
                "kind": "lapse",
                "time_s": time_s,
                "left_s": left_s,
                "to": to.value,
            }
        case RepCompleted(time_s, number):
            return {"kind": "complete", "time_s": time_s, "number": number}
        case CeilingCrossed(time_s, ceiling_n):
            return {"kind": "ceiling", "time_s": time_s, "ceiling_n": ceiling_n}
        case Measured(rep):
            return {"kind": REP_END, "rep": dict(rep)}
        case _:
            assert_never(event)


def mark_to_json(mark: Mark, *, time_s: float) -> dict[str, object]:
    """A pain mark or a note."""
    content: Mapping[str, object] = mark.content
    return {**content, "kind": mark.kind, "time_s": time_s}
