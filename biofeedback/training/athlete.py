"""The athlete: what a practitioner writes down about a person, and the checks on it.

Only the code may go into files, logs and exports; the name stands in one table of
the logbook and nowhere else. Everything but the code may be left empty.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from biofeedback.training.task import Sides

BIRTH_YEAR_LEAST = 1900
BIRTH_YEAR_MOST = 2100
"""No clock here: whether a year before it is over, the logbook looks."""
MASS_LEAST_KG = 10.0
MASS_MOST_KG = 350.0
NOTES_MAX = 2000
STANDARD_GRAVITY = 9.80665
"""m/s², ISO 80000-3: what makes a body mass a weight in newtons, near enough here."""


@dataclass(frozen=True, slots=True)
class BodyMass:
    """A body mass and the ISO date on which it was taken.

    Raises:
        FieldError: nobody has this mass.
    """

    mass_kg: float
    date: str

    def __post_init__(self) -> None:
        if not MASS_LEAST_KG <= self.mass_kg <= MASS_MOST_KG:
            raise FieldError(
                "athlete.mass_kg",
                phrase(
                    "is {mass_kg:g} kg; it must be {mass_least_kg:g} to "
                    "{mass_most_kg:g} kg.",
                    mass_kg=self.mass_kg,
                    mass_least_kg=MASS_LEAST_KG,
                    mass_most_kg=MASS_MOST_KG,
                ),
            )

    @property
    def weight_n(self) -> float:
        """The weight at standard gravity, N."""
        return self.mass_kg * STANDARD_GRAVITY


@dataclass(frozen=True, slots=True)
class AthleteDetails:
    """All that is written about a person, apart from masses and results.

    Attributes:
        code: stands for the person in files, logs and exports.
        consent: a note on consent: what was agreed, when, to whom.

    Raises:
        FieldError: a year in which nobody was born, or a text that is too long.
    """

    code: str
    name: str = ""
    birth_year: int | None = None
    dominant: Sides | None = None
    injured: Sides | None = None
    notes: str = ""
    consent: str = ""

    def __post_init__(self) -> None:
        year = self.birth_year
        if year is not None and year < BIRTH_YEAR_LEAST:
            raise FieldError(
                "athlete.birth_year",
                phrase(
                    "is {year}; it must be {birth_year_least} or later.",
                    year=year,
                    birth_year_least=BIRTH_YEAR_LEAST,
                ),
                phrase("Type four digits."),
            )
        if year is not None and year > BIRTH_YEAR_MOST:
            raise FieldError(
                "athlete.birth_year",
                phrase("{year} is still to come.", year=year),
                phrase("Type the year of birth."),
            )
        for field, text in (("notes", self.notes), ("consent", self.consent)):
            if len(text) > NOTES_MAX:
                raise FieldError(
                    f"athlete.{field}",
                    phrase(
                        "is longer than {notes_max} characters.", notes_max=NOTES_MAX
                    ),
                )
