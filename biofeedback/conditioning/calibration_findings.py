"""Findings: what speaks against a calibration, as values with plain words.

A refusal means that the calibration must not be used; a warning, that the person
at the desk should know and may go on.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from biofeedback.errors import UserError
from biofeedback.phrase import Phrase, phrase, sentences


class Severity(Enum):
    """Whether a calibration may be used in spite of a finding."""

    WARNING = phrase("warning")
    REFUSED = phrase("refused")


class FindingKind(Enum):
    """What was found; the value is stable and may be stored."""

    TOO_FEW_LOADS = phrase("too few loads")
    FEW_LOADS = phrase("few loads")
    EMPTY_RIG_MISSING = phrase("empty rig missing")
    LOADS_TOO_CLOSE = phrase("loads too close")
    RANGE_NOT_COVERED = phrase("range not covered")
    EXTRAPOLATION = phrase("extrapolation")
    POOR_FIT = phrase("poor fit")
    LACK_OF_FIT = phrase("lack of fit")
    CURVE_TURNS_BACK = phrase("curve turns back")
    NO_ANSWER = phrase("no answer to load")
    REVERSED_POLARITY = phrase("reversed polarity")
    SWAPPED_CHANNELS = phrase("swapped channels")
    LOAD_SHARED = phrase("load shared")
    INVERSE_APPROXIMATE = phrase("inverse approximate")


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that speaks against a calibration.

    Attributes:
        words: what was found, with its figures.
        next_step: what to do about it.
    """

    kind: FindingKind
    severity: Severity
    words: Phrase
    next_step: Phrase

    @property
    def refused(self) -> bool:
        """Whether the calibration must not be used."""
        return self.severity is Severity.REFUSED

    def __str__(self) -> str:
        return sentences(self.words, self.next_step)


class RefusedCalibrationError(UserError):
    """The points cannot give a calibration at all.

    Attributes:
        finding: why.
    """

    def __init__(self, kind: FindingKind, words: Phrase, next_step: Phrase) -> None:
        super().__init__(words, next_step)
        self.finding = Finding(kind, Severity.REFUSED, words, next_step)
