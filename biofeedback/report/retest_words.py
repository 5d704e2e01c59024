"""What a table of repeated scores says, in sentences, under headings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.measures.reliability import Icc, IccForm
from biofeedback.phrase import Phrase, phrase

if TYPE_CHECKING:
    from collections.abc import Iterator

    from biofeedback.measures.trial_error import TypicalError
    from biofeedback.session.reliability import Repeated

Section = tuple[Phrase, tuple[Phrase | str, ...]]

_MEANING = {
    IccForm.ONE_WAY: phrase("one score; trials in no order"),
    IccForm.AGREEMENT: phrase("one score; agreement"),
    IccForm.CONSISTENCY: phrase("one score; consistency"),
    IccForm.ONE_WAY_MEAN: phrase("mean of all trials; in no order"),
    IccForm.AGREEMENT_MEAN: phrase("mean of all trials; agreement"),
    IccForm.CONSISTENCY_MEAN: phrase("mean of all trials; consistency"),
}


def sections(told: Repeated) -> tuple[Section, ...]:
    """Headings, each with its sentences; what to do with the figures comes first."""
    found = told.found
    return (
        (phrase("What one test is off by"), tuple(_error(told))),
        (
            phrase("Correlations of people (ICC), 95 % intervals"),
            tuple(map(_icc, found.iccs))
            or (phrase("None: fewer than two people have all scores."),),
        ),
        (phrase("The scores"), tuple(_scores(told))),
        (phrase("To be read with it"), (*found.cautions, *told.notes)),
    )


def _error(told: Repeated) -> Iterator[Phrase]:
    found, unit = told.found, told.unit
    if found.error is None:
        yield phrase("Cannot tell yet: too few people have two scores.")
    else:
        yield from _typical(found.error, unit, found.mean)
    if not told.club:
        return
    noise = told.noise
    if noise is None:
        yield phrase("The program cannot tell the club's noise of this test yet.")
        return
    low, high = noise.typical_error_interval_n
    yield phrase(
        "The program uses for the club now: typical error {error:.1f} N, 95 % interval "
        "{low:.1f} to {high:.1f} N, smallest change {mdc:.1f} N, from {tests} tests of "
        "{people} people. It takes all their visits, and a change common to all counts "
        "as noise in it; above that is taken out. Who has enough visits is judged by "
        "his or her own.",
        error=noise.typical_error_n,
        low=low,
        high=high,
        mdc=noise.mdc95_n,
        tests=noise.tests,
        people=noise.people,
    )


def _typical(error: TypicalError, unit: str, mean: float) -> Iterator[Phrase]:
    low, high = error.interval
    yield phrase(
        "Typical error (SEM): {sem:.2f} {unit}, 95 % interval {low:.2f} to {high:.2f} "
        "{unit}; from {scores} scores of {people} people, {df} degrees of freedom.",
        sem=error.sem,
        unit=unit,
        low=low,
        high=high,
        scores=error.scores,
        people=error.people,
        df=error.degrees_of_freedom,
    )
    if error.cv_pct is not None and error.cv_interval_pct is not None:
        low, high = error.cv_interval_pct
        yield phrase(
            "As a share of each person's level (CV, by logarithms): {cv:.1f} %, 95 % "
            "interval {low:.1f} to {high:.1f} %.",
            cv=error.cv_pct,
            low=low,
            high=high,
        )
    yield phrase(
        "Smallest change from one test to the next that is more than noise: {mdc:.1f} "
        "{unit} (MDC, 95 %); {less:.1f} {unit} (90 %).",
        mdc=error.mdc95,
        less=error.mdc90,
        unit=unit,
    )
    if mean > 0:
        yield phrase(
            "That is {share:.1f} % of the mean of {mean:.1f} {unit}. A smaller change "
            "may be noise.",
            share=100 * error.mdc95 / mean,
            mean=mean,
            unit=unit,
        )


def _icc(one: Icc) -> Phrase:
    values = {"form": one.form.value, "meaning": _MEANING[one.form]}
    if one.value is None:
        return phrase("{form} none: people do not differ ({meaning})", **values)
    if one.lower is None or one.upper is None:
        return phrase(
            "{form} {value:.3f}, no interval ({meaning})", value=one.value, **values
        )
    return phrase(
        "{form} {value:.3f}, {low:.3f} to {high:.3f} ({meaning})",
        value=one.value,
        low=one.lower,
        high=one.upper,
        **values,
    )


def _scores(told: Repeated) -> Iterator[Phrase]:
    found = told.found
    yield phrase(
        "{people} people, {trials} trials; {complete} people have all scores. Mean "
        "{mean:.1f} {unit}.",
        people=found.people,
        trials=len(told.trials),
        complete=found.complete,
        mean=found.mean,
        unit=told.unit,
    )
    if found.variation is not None:
        for name, mean in zip(told.trials, found.variation.trial_means, strict=True):
            yield phrase(
                "{trial}: mean {mean:.1f} {unit}",
                trial=name,
                mean=mean,
                unit=told.unit,
            )
        if found.variation.trials_p is not None:
            yield phrase(
                "Chance alone gives as large a change common to all in {share:.1f} % "
                "of such tables.",
                share=100 * found.variation.trials_p,
            )
    if found.repeatability is not None:
        yield phrase(
            "Two scores of a person are nearer than {nearer:.1f} {unit} in 95 % "
            "(repeatability; a change common to all is in it).",
            nearer=found.repeatability.coefficient,
            unit=told.unit,
        )
