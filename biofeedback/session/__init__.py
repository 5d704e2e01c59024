"""One visit put together: the only door from the window to rig and recorder."""

from biofeedback.logbook.session_notes import CHANGE, EFFORT, NOTE, PAIN, PAIN_BACK
from biofeedback.rig.handoff import (
    BandChanged,
    GateMoved,
    Health,
    Link,
    Measured,
    OtherBoard,
    Refused,
    SessionEvent,
    SetBegun,
    SetEnded,
    TermsChanged,
    Update,
    Warned,
    ZeroTaken,
)
from biofeedback.session.live import Session

__all__ = [
    "CHANGE",
    "EFFORT",
    "NOTE",
    "PAIN",
    "PAIN_BACK",
    "BandChanged",
    "GateMoved",
    "Health",
    "Link",
    "Measured",
    "OtherBoard",
    "Refused",
    "Session",
    "SessionEvent",
    "SetBegun",
    "SetEnded",
    "TermsChanged",
    "Update",
    "Warned",
    "ZeroTaken",
]
