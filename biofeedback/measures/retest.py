"""Retest: all figures of one table of repeated scores, worked out once.

* Intraclass correlations need each trial of each person: they are of the complete
  rows. The error of measurement uses all rows with two scores. Both say how many.
* Bias and limits of agreement stand where there are two trials, second less first.
* Cautions are plain sentences, for whoever shows the figures.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.measures.agreement import (
    Agreement,
    Repeatability,
    agreement,
    repeatability,
)
from biofeedback.measures.correlation import varies
from biofeedback.measures.reliability import Icc, IccForm, Variation, icc, variation
from biofeedback.measures.trial_error import TypicalError, typical_error_of_trials
from biofeedback.phrase import Phrase, phrase

if TYPE_CHECKING:
    from collections.abc import Iterator

    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

ENOUGH_PEOPLE = 50
ENOUGH_TRIALS = 3
"""Hopkins, Sports Med 30 (2000) 1-15: three trials of some fifty people."""
SIGNIFICANCE = 0.05


@dataclass(frozen=True, slots=True)
class Retest:
    """What a table of scores says.

    Attributes:
        people: rows of the table.
        complete: rows without a missing score, which the correlations are of.
        mean: of all scores that are there.
        variation: None where fewer than two rows are complete.
        iccs: the six forms; empty without `variation`.
        error: None where no degree of freedom is left.
        repeatability: None where nobody has two scores.
        agreement: of two trials, second less first; None for more trials, or where
            fewer than three people have both.
        cautions: what is to be read with the figures.
    """

    people: int
    complete: int
    mean: float
    variation: Variation | None
    iccs: tuple[Icc, ...]
    error: TypicalError | None
    repeatability: Repeatability | None
    agreement: Agreement | None
    cautions: tuple[Phrase, ...]


def retest(scores: npt.ArrayLike) -> Retest:
    """Works it all out.

    Args:
        scores: shape (people, trials), two trials or more, NaN where one is missing;
            at least one score is there.
    """
    table = np.asarray(scores, dtype=np.float64)
    whole = table[np.isfinite(table).all(axis=1)]
    found = variation(whole) if len(whole) > 1 else None
    error = typical_error_of_trials(table)
    return Retest(
        people=len(table),
        complete=len(whole),
        mean=float(np.nanmean(table)),
        variation=found,
        iccs=tuple(icc(found, form) for form in IccForm) if found else (),
        error=error,
        repeatability=repeatability(table),
        agreement=_of_two(whole),
        cautions=tuple(_cautions(table, found, error)),
    )


def differences(scores: npt.ArrayLike, first: int, second: int) -> Floats:
    """Mean and difference of two trials of each person who has both.

    Against the mean of both, not against one of them: the difference hangs on each by
    itself (Bland and Altman 1986).

    Args:
        scores: as of `retest`.
        first, second: columns; the difference is second less first.

    Returns:
        Shape (people, 2): means and differences.
    """
    table = np.asarray(scores, dtype=np.float64)[:, [first, second]]
    both = table[np.isfinite(table).all(axis=1)]
    return np.column_stack((both.mean(axis=1), both[:, 1] - both[:, 0]))


def _of_two(whole: Floats) -> Agreement | None:
    if whole.shape[1] != 2 or len(whole) < 3:
        return None
    return agreement(whole[:, 1] - whole[:, 0])


def _cautions(
    table: Floats, found: Variation | None, error: TypicalError | None
) -> Iterator[Phrase]:
    people, trials = table.shape
    there = table[np.isfinite(table)]
    if not varies(there):
        yield phrase("All scores are equal: they say nothing of people or of noise.")
        return
    if found is None:
        yield phrase("Fewer than two people have all scores: there is no correlation.")
    if error is not None and error.sem == 0:
        yield phrase(
            "The scores repeat exactly, but for a change common to all. Typed or "
            "rounded figures do; a force does not."
        )
    if error is not None and error.cv_pct is None:
        yield phrase(
            "A score is not above zero, or nearly so: there is no error in per cent."
        )
    p_value = found.trials_p if found is not None else None
    if p_value is not None and p_value < SIGNIFICANCE:
        yield phrase(
            "Scores changed from trial to trial by more than chance, in all people "
            "alike: learning, warming up or fatigue. One more trial before the first "
            "that counts may help."
        )
    if people < ENOUGH_PEOPLE or trials < ENOUGH_TRIALS:
        yield phrase(
            "Hopkins (2000) asks for {enough_trials} trials of some {enough_people} "
            "people; here are {trials} trials of {people}. Read the intervals.",
            enough_trials=ENOUGH_TRIALS,
            enough_people=ENOUGH_PEOPLE,
            trials=trials,
            people=people,
        )
    yield phrase(
        "A correlation is high where people differ much, and is not that of another "
        "group. The error of measurement is what to hold a change against."
    )
