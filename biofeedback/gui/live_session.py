"""What the window needs of a session, and when its signal counts as live."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from biofeedback.gui.frame_timer import Pieces
from biofeedback.session import Health, Link

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from biofeedback.conditioning.profile import RigProfile, ZeroKind
    from biofeedback.session import OtherBoard, Update
    from biofeedback.session.rig_check import HealthReport
    from biofeedback.training.band import Band
    from biofeedback.training.changes import Terms
    from biofeedback.training.prescription import Prescription

STALE_AFTER_S = 0.5
"""With no sample for this long the force is not shown any more."""

NOMINAL = "nominal"
"""Label of a calibration that nobody made; the simulated rig's is another."""


class LiveSession(Pieces, Protocol):
    """The part of `biofeedback.session.Session` that the window uses."""

    @property
    def athlete_code(self) -> str:
        """Who is here."""

    @property
    def athlete_name(self) -> str:
        """The name; for the desk only."""

    @property
    def not_kept(self) -> str:
        """After `close`, what of the recording could not be kept; else empty."""

    def take(self) -> Update:
        """All that is new since the last time, and how things stand now."""

    def change_athlete(self, code: str) -> None:
        """Another athlete; refused while a set is under way."""

    def tell(self, kind: str, content: Mapping[str, object]) -> None:
        """Keeps something told, in a set or between sets."""

    def keep_check(self, report: HealthReport) -> None:
        """The recordings that follow on this board carry what its check has found."""

    def begin_set(
        self, prescription: Prescription, context: Mapping[str, object] | None = None
    ) -> None:
        """Begins a set with the next sample; `context` goes into the recording."""

    def end_set(self, reason: str = "stop") -> None:
        """Ends the set; a rep under way becomes stopped, never lost."""

    def change_band(self, band: Band, reason: str = "") -> None:
        """A nudge, from the next sample on."""

    def change_terms(self, terms: Terms, reason: str = "") -> None:
        """Another hold, rest or number of reps, from the next sample on."""

    def move_gate(self, *, opened: bool, reason: str = "") -> None:
        """Lets reps start from the next sample on, or holds them back."""

    def change_profile(self, profile: RigProfile) -> None:
        """Another profile; refused while a set is under way."""

    def use_board(self, other: OtherBoard) -> None:
        """The other board that is on the port; refused while a set is under way."""

    def take_zero(self, kind: ZeroKind) -> None:
        """Measures zero over the next second."""

    def note(self, text: str) -> None:
        """Writes a note into the recording at this moment."""

    def mark_pain(self, level: int) -> None:
        """Writes a pain mark from 0 to 10 into the recording at this moment."""

    def take_back_pain(self, level: int) -> None:
        """Writes that the last pain mark of this set was a slip; the mark stays."""

    @property
    def needs_folder(self) -> bool:
        """Whether the recording cannot be written, and another folder may be picked."""

    def record_in(self, folder: Path) -> None:
        """The recording goes on in another folder; what comes of it is told."""

    def close(self) -> None:
        """Ends the set, stops the threads and waits until all is on disk."""


def sample_age_s(health: Health, *, now_ns: int) -> float | None:
    """How long ago the newest sample came; None before the first.

    Args:
        now_ns: monotonic time.
    """
    if health.arrived_ns is None:
        return None
    return (now_ns - health.arrived_ns) / 1e9


def newtons_are_nominal(health: Health, profile: RigProfile | None) -> bool:
    """Whether a cell of the board that is on was never calibrated."""
    if profile is None or health.arrived_ns is None:  # no board has been heard yet
        return False
    return any(one.calibration.label == NOMINAL for one in profile.channels)


def newtons_are_simulated(health: Health, profile: RigProfile | None) -> bool:
    """Whether the board that is on is the simulated one: nobody pulls there."""
    return profile is not None and health.arrived_ns is not None and profile.simulated


def is_live(health: Health, *, now_ns: int) -> bool:
    """Whether the newest sample may be shown as the force of this moment."""
    age_s = sample_age_s(health, now_ns=now_ns)
    return health.link is Link.LIVE and age_s is not None and age_s <= STALE_AFTER_S
