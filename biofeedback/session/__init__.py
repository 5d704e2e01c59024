"""One visit put together: the only door from the window to rig and recorder."""

from biofeedback.rig.handoff import (
    BandChanged,
    Health,
    Link,
    Measured,
    Refused,
    SessionEvent,
    SetBegun,
    SetEnded,
    Update,
    Warned,
    ZeroTaken,
)
from biofeedback.session.live import Session

__all__ = [
    "BandChanged",
    "Health",
    "Link",
    "Measured",
    "Refused",
    "Session",
    "SessionEvent",
    "SetBegun",
    "SetEnded",
    "Update",
    "Warned",
    "ZeroTaken",
]
