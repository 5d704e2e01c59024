"""What an export is asked for, and what came of it."""

from __future__ import annotations

from dataclasses import dataclass, field

from biofeedback.errors import FieldError
from biofeedback.logbook.exports import manifest as manifests
from biofeedback.logbook.exports import parquet_table
from biofeedback.logbook.exports.export_tables import PARQUET
from biofeedback.phrase import phrase
from biofeedback.session.export_samples import BIDS, EDF

FORMATS = tuple(manifests.FORMATS)
REPS, SAMPLES = "reps", "samples"
_EVEN = {EDF, BIDS}


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to be written, and how discreetly.

    Attributes:
        formats: of `FORMATS`.
        names, notes: whether names of athletes, and free text, may be written.

    Raises:
        FieldError: nothing is wanted, or a format does not hold what is.
        UserError: a format is not to be had here.
    """

    formats: tuple[str, ...] = ("csv",)
    reps: bool = True
    samples: bool = True
    names: bool = False
    notes: bool = False

    def __post_init__(self) -> None:
        if not self.formats or not (self.reps or self.samples):
            raise FieldError("export", phrase("nothing is asked for."))
        if not self.samples and _EVEN & set(self.formats):
            raise FieldError(
                "what",
                phrase("EDF+ and BIDS hold samples."),
                phrase("Ask for samples too."),
            )
        if PARQUET in self.formats:
            parquet_table.load()


@dataclass(frozen=True, slots=True)
class LeftOut:
    """What could not be exported.

    Attributes:
        stem: of the set's files; says which recording without naming a person.
        what: formats or tables that lack it.
        why: in words; for people, it may name files of this machine.
        reason: the same for the manifest.
    """

    stem: str
    set_id: str
    what: tuple[str, ...]
    why: str
    reason: str

    def to_json(self) -> dict[str, object]:
        """As the manifest tells it."""
        return {
            "recording": self.stem,
            "set_id": self.set_id,
            "what": list(self.what),
            "why": self.reason,
        }


@dataclass(slots=True)
class Exported:
    """What came of an export.

    Attributes:
        manifest: as it stands in the folder.
        losses: what recordings lack that were exported: (stem, words).
    """

    manifest: dict[str, object]
    left_out: list[LeftOut]
    losses: list[tuple[str, str]]


@dataclass(slots=True)
class Counts:
    """What was exported."""

    athletes: set[str] = field(default_factory=set)
    sessions: set[str] = field(default_factory=set)
    sets: int = 0
    reps: int = 0
    samples: int = 0

    def to_json(self) -> dict[str, int]:
        """As the manifest tells it."""
        return {
            "athletes": len(self.athletes),
            "sessions": len(self.sessions),
            "sets": self.sets,
            "reps": self.reps,
            "samples": self.samples,
        }
