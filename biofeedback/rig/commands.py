"""What the acquisition thread can be asked to do, between two blocks."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Mapping

    from biofeedback.conditioning.profile import RigProfile, ZeroKind
    from biofeedback.rig.handoff import OtherBoard
    from biofeedback.training.band import Band
    from biofeedback.training.changes import Terms
    from biofeedback.training.prescription import Prescription


@dataclass(frozen=True, slots=True)
class BeginSet:
    """Start a set with the next sample, and its recording with it.

    Attributes:
        context: what the recording's header holds beside profile and
            prescription: athlete code, set and session id, software version.
    """

    prescription: Prescription
    context: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class EndSet:
    """End the set; a rep under way becomes ``stopped``, never lost."""

    reason: str = "stop"


@dataclass(frozen=True, slots=True)
class ChangeBand:
    """A nudge: another band from the next sample on."""

    band: Band
    reason: str = ""


@dataclass(frozen=True, slots=True)
class ChangeTerms:
    """Another hold, rest or number of reps from the next sample on."""

    terms: Terms
    reason: str = ""


@dataclass(frozen=True, slots=True)
class MoveGate:
    """Let reps start from the next sample on, or hold them back."""

    open: bool
    reason: str = ""


@dataclass(frozen=True, slots=True)
class TakeZero:
    """Measure zero over the next second, or refuse with the reason."""

    kind: ZeroKind


@dataclass(frozen=True, slots=True)
class EndLimbZero:
    """Another athlete is here: a zero with the limb resting holds no more.

    Refused while a set is under way.
    """


@dataclass(frozen=True, slots=True)
class ChangeProfile:
    """Another rig profile (calibration, filter) from the next sample on.

    Refused while a set is under way.
    """

    profile: RigProfile


@dataclass(frozen=True, slots=True)
class Mark:
    """Something to write down at this moment: pain, pain taken back, or a note."""

    kind: str
    content: Mapping[str, object]


@dataclass(frozen=True, slots=True)
class UseBoard:
    """Use the other board that is on the port, from the next sample on.

    Refused while a set is under way, and where another one is there by then.
    """

    board: OtherBoard


Command: TypeAlias = (
    BeginSet
    | EndSet
    | ChangeBand
    | ChangeTerms
    | MoveGate
    | TakeZero
    | EndLimbZero
    | ChangeProfile
    | Mark
    | UseBoard
)

WORDS: dict[type[Command], str] = {
    BeginSet: "begin set",
    EndSet: "end set",
    ChangeBand: "change band",
    ChangeTerms: "change hold, rest or reps",
    MoveGate: "let reps start, or hold them back",
    TakeZero: "take zero",
    EndLimbZero: "end the zero with the limb resting",
    ChangeProfile: "change profile",
    Mark: "mark",
    UseBoard: "use the other board",
}
"""By which a refused command is named."""
