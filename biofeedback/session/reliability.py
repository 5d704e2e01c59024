"""Reliability: how far the repeated scores of people may be trusted.

* Scores come from a table somebody has, or from the tests in this logbook: a row a
  person, by the code, and a column a visit.
* People were tested unlike often. As many visits are taken as give most scores of
  people who have all of them; later visits are left out, which is said.
* The noise that the program holds changes against now stands beside the figures. It
  is worked out from all visits by `measures.change`, which counts a change that is
  common to all as noise; the error of measurement takes it out.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from statistics import median
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.errors import FileError, UserError
from biofeedback.logbook.club_tests import TestKind
from biofeedback.logbook.people_tables import left_out, read_scores
from biofeedback.measures.change import Noise, Whose, typical_error
from biofeedback.measures.retest import Retest, retest
from biofeedback.phrase import Phrase, listed, numbered, phrase

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from datetime import datetime
    from pathlib import Path

    import numpy.typing as npt

    from biofeedback.logbook.club_tests import ClubTests
    from biofeedback.logbook.database import Logbook

__all__ = ["Reliability", "Repeated", "TestKind"]

CODES_TOLD = 10
ONE_DAY_S = 86_400.0


@dataclass(frozen=True, slots=True)
class Repeated:
    """A table of repeated scores, and what it says.

    Attributes:
        title: what the scores are of.
        unit: of the scores.
        trials: names of the columns.
        values: shape (people, trials), NaN where a score is missing.
        notes: what was understood, and what was left out and why.
        found: all figures.
        club: whether the scores are the club's own; `noise` is then what the program
            uses now, or None where it cannot tell yet.
    """

    title: str
    unit: str
    trials: tuple[str, ...]
    values: npt.NDArray[np.float64]
    notes: tuple[Phrase | str, ...]
    found: Retest
    club: bool = False
    noise: Noise | None = None


class Reliability:
    """The door of the page of reliability.

    Args:
        logbook: without one there are no tests of the club.

    Raises (every method): `FileError` where file or logbook cannot be read.
    """

    def __init__(self, logbook: Logbook | None = None) -> None:
        self._logbook = logbook

    def kinds(self) -> tuple[TestKind, ...]:
        """The tests in this logbook that two people or more have done."""
        return () if self._logbook is None else self._logbook.club_tests.kinds()

    def of_file(self, path: Path, *, unit: str) -> Repeated:
        """The scores of a table.

        Args:
            unit: of the scores.
        """
        scores = read_scores(path)
        if not np.isfinite(scores.values).any():
            raise FileError(path, phrase("there is no score in the table."))
        return Repeated(
            title=path.name,
            unit=unit,
            trials=scores.trials,
            values=scores.values,
            notes=(*scores.notes, *left_out(scores)),
            found=retest(scores.values),
        )

    def of_club(self, kind: TestKind) -> Repeated:
        """The club's own scores of one kind of test.

        Raises:
            UserError: fewer than two people were tested twice.
        """
        if self._logbook is None:
            raise UserError(phrase("Without a logbook no test is known."))
        tests = self._logbook.club_tests.of(kind)
        by_code = {
            code: [force_n for _, force_n in visits]
            for code, visits in tests.visits.items()
        }
        columns = visits_taken([len(forces) for forces in by_code.values()])
        if columns < 2:
            raise UserError(
                phrase("Fewer than two people have done this test in two visits."),
                phrase("Reliability can be told once they have."),
            )
        repeated = {code: one for code, one in by_code.items() if len(one) > 1}
        values = np.full((len(repeated), columns), np.nan)
        for row, forces in enumerate(repeated.values()):
            taken = forces[:columns]
            values[row, : len(taken)] = taken
        return Repeated(
            title=phrase(
                "{task}, {sides}, {definition}",
                task=kind.task.name,
                sides=kind.task.sides.value,
                definition=kind.definition.value,
            ),
            unit="N",
            trials=tuple(
                phrase("visit {number}", number=number)
                for number in range(1, columns + 1)
            ),
            values=values,
            notes=tuple(_notes(tests, columns)),
            found=retest(values),
            club=True,
            noise=typical_error(list(by_code.values()), whose=Whose.CLUB),
        )


def visits_taken(visits: Sequence[int]) -> int:
    """How many visits are taken: most scores of people who have all; 0 for none.

    Of two that give as many scores, the one with more people.

    Args:
        visits: of each person.
    """
    best = (0, 0)
    for columns in range(2, max(visits, default=0) + 1):
        whole = sum(count >= columns for count in visits)
        if whole > 1:
            best = max(best, (whole * columns, -columns))
    return -best[1]


def _notes(tests: ClubTests, columns: int) -> Iterator[Phrase]:
    visits = tests.visits
    yield phrase(
        "One row a person, by code; one column a visit, with the best of that visit."
    )
    if once := sorted(code for code, each in visits.items() if len(each) < 2):
        yield phrase("One visit only, left out: {codes}.", codes=_codes(once))
    if fewer := sorted(
        code for code, each in visits.items() if 1 < len(each) < columns
    ):
        yield phrase(
            "Fewer than {columns} visits, left out of the correlations: {codes}.",
            columns=columns,
            codes=_codes(fewer),
        )
    if later := sum(max(0, len(each) - columns) for each in visits.values()):
        yield numbered(
            later,
            "{count} result of a later visit is left out: few people have so many.",
            "{count} results of later visits are left out: few people have so many.",
        )
    for count, why in (
        (tests.practice, phrase("the first ever of somebody, which is practice")),
        (tests.voided, phrase("voided")),
        (tests.moved, phrase("done in another position than the newest")),
        (tests.unlike, phrase("without a result by this definition")),
    ):
        if count:
            yield numbered(
                count,
                "{count} test is left out: {why}.",
                "{count} tests are left out: {why}.",
                why=why,
            )
    yield from _days_apart(visits, columns)


def _days_apart(
    visits: Mapping[str, Sequence[tuple[datetime, float]]], columns: int
) -> Iterator[Phrase]:
    """What truly changes in a person meanwhile counts as error."""
    apart = [
        (there[0] - here[0]).total_seconds() / ONE_DAY_S
        for each in visits.values()
        for here, there in pairwise(each[:columns])
    ]
    if apart:
        yield phrase(
            "Between two visits of a person lie {least:.0f} to {most:.0f} days, in the "
            "middle {middle:.0f}. What training or injury changed meanwhile, otherwise "
            "in one than in another, counts as error.",
            least=min(apart),
            most=max(apart),
            middle=median(apart),
        )


def _codes(codes: Sequence[str]) -> Phrase:
    if len(codes) <= CODES_TOLD:
        return listed(codes)
    return phrase(
        "{codes} and {more} more",
        codes=", ".join(codes[:CODES_TOLD]),
        more=len(codes) - CODES_TOLD,
    )
