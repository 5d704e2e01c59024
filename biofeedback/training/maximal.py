"""The maximal test: practice ramps, trials with rest, and when there are enough.

A test is one set of the ordinary machinery, asked for by a prescription whose task is
maximal; each effort is a rep. Here is what makes a test of it:

* The first efforts are practice ramps. Then come the trials: at least `trials`,
  another while the two best differ by more than `agree_within_pct`, up to `most`.
* A touch, shorter than `trial.TOUCH_S`, is no effort at all. An effort that is void,
  or that has no number by the chosen definition (a gap in its signal), does not count
  and is done again.
* A trial that was let go early counts: it has its peak and its best mean. One in which
  the set was stopped does not, unless the practitioner lets it.

That there are three to five ramps of half to nine tenths, three trials of 3 to 5 s,
60 to 120 s of rest and another trial while the best two differ by more than 5 % is
common method text, from memory and no single source. Sustained targets come from a
sustained reference: with a peak as the 100 % a group settled below targets above about
65 % (Novak et al., J. Funct. Morphol. Kinesiol. 6 (2021) 94). So the best 1 s mean is
what a test begins with.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.band import Band
from biofeedback.training.prescription import BandOn, ClockRule, Prescription
from biofeedback.training.reference import Definition
from biofeedback.training.task import Sides, Task, TaskKind
from biofeedback.training.trial import DEFINITIONS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.training.trial import Force, Trial
    from biofeedback.wire.fields import Fields

SPARE_REPS = 30
"""Room for touches and void trials in the set of a test."""
CLOCK_FROM_N = 10.0
"""The clock of a trial starts early in its build-up, also of a weak one."""
FIRST_MOST = 8
"""Trials allowed in a first test: of 40 men without practice the best of three was
below the best of eight (isometric squat; seen in an abstract, journal not known)."""
PRACTICE_MOST = 5
TRIALS_LEAST, TRIALS_MOST = 2, 10
REST_MOST_S = 600.0

_PRACTICE_PCT: dict[int, tuple[int, ...]] = {
    0: (),
    1: (75,),
    2: (50, 75),
    3: (50, 75, 90),
    4: (50, 50, 75, 90),
    5: (50, 50, 75, 75, 90),
}


@dataclass(frozen=True, slots=True)
class MaximalPlan:
    """How a test is to go.

    Attributes:
        practice: number of practice ramps.
        trials: at least so many that count.
        most: at most so many that count.
        agree_within_pct: the two best may differ by so much of the best.
        trial_s: how long a trial is to last, from the build-up on.
        rest_s: after a trial; a countdown, not a lock.
        practice_rest_s: the same after a practice ramp.
        definition: which number is the 100 %.
        ceiling_n: a force that must not be passed; None where there is none.

    Raises:
        FieldError: names the field that does not fit.
    """

    practice: int = 3
    trials: int = 3
    most: int = 6
    agree_within_pct: float = 5.0
    trial_s: float = 4.0
    rest_s: float = 90.0
    practice_rest_s: float = 30.0
    definition: Definition = Definition.BEST_1_S_MEAN
    ceiling_n: float | None = None

    def __post_init__(self) -> None:
        for name, value, least, most, unit in (
            ("practice", self.practice, 0, PRACTICE_MOST, ""),
            ("trials", self.trials, TRIALS_LEAST, TRIALS_MOST, ""),
            ("most", self.most, self.trials, TRIALS_MOST, ""),
            ("agree_within_pct", self.agree_within_pct, 0.5, 50.0, " %"),
            ("trial_s", self.trial_s, 3.0, 5.0, " s"),
            ("rest_s", self.rest_s, 10.0, REST_MOST_S, " s"),
            ("practice_rest_s", self.practice_rest_s, 0.0, REST_MOST_S, " s"),
        ):
            if not least <= value <= most:
                raise FieldError(
                    f"maximal.{name}",
                    phrase(
                        "must be {least:g}{unit} to {most:g}{unit}.",
                        least=least,
                        unit=unit,
                        most=most,
                    ),
                )
        if self.practice_rest_s > self.rest_s:
            raise FieldError(
                "maximal.practice_rest_s",
                phrase(
                    "must not be longer than the rest after a trial, {rest_s:g} s.",
                    rest_s=self.rest_s,
                ),
            )
        if self.definition not in DEFINITIONS:
            raise FieldError(
                "maximal.definition", phrase("must be one that a trial is measured by.")
            )

    def for_first_test(self) -> MaximalPlan:
        """The same with more trials allowed: who is new to it goes on improving."""
        return replace(self, most=max(self.most, FIRST_MOST))

    def prescription(
        self,
        task: Task,
        *,
        single_cell: bool = False,
    ) -> Prescription:
        """The set in which the test is done, as it begins.

        Its rest is that after a practice ramp, where there are any; whoever drives the
        test changes it before the first trial.

        Args:
            task: with the sides that work; its kind becomes maximal.
            single_cell: whether the rig has one cell, which then serves any side.

        Raises:
            FieldError: the ceiling lies too low.
        """
        one_side = {Sides.LEFT: BandOn.LEFT, Sides.RIGHT: BandOn.RIGHT}
        return Prescription(
            task=replace(task, kind=TaskKind.MAXIMAL),
            band=Band.at_least(CLOCK_FROM_N),
            hold_s=self.trial_s,
            clock=ClockRule.RUNNING,
            reps=self.practice + self.most + SPARE_REPS,
            rest_s=self.practice_rest_s if self.practice else self.rest_s,
            band_on=BandOn.TOTAL
            if single_cell
            else one_side.get(task.sides, BandOn.TOTAL),
            ceiling_n=self.ceiling_n,
        )

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "practice": self.practice,
            "trials": self.trials,
            "most": self.most,
            "agree_within_pct": self.agree_within_pct,
            "trial_s": self.trial_s,
            "rest_s": self.rest_s,
            "practice_rest_s": self.practice_rest_s,
            "definition": self.definition.value,
            "ceiling_n": self.ceiling_n,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> MaximalPlan:
        """Checks and reads what `to_json` wrote."""
        return cls(
            practice=fields.whole("practice", least=0, most=PRACTICE_MOST),
            trials=fields.whole("trials", least=TRIALS_LEAST, most=TRIALS_MOST),
            most=fields.whole("most", least=TRIALS_LEAST, most=TRIALS_MOST),
            agree_within_pct=fields.number("agree_within_pct"),
            trial_s=fields.number("trial_s"),
            rest_s=fields.number("rest_s"),
            practice_rest_s=fields.number("practice_rest_s"),
            definition=fields.choice("definition", Definition),
            ceiling_n=fields.number_or_none("ceiling_n"),
        )


class StepKind(Enum):
    """What comes next."""

    PRACTICE = phrase("practice ramp")
    TRIAL = phrase("trial")
    ENOUGH = phrase("enough")


class Why(Enum):
    """Why it comes next."""

    PRACTICE_FIRST = "practice comes first"
    TRIALS_LEFT = "trials are left"
    BEST_TWO_DIFFER = "the two best differ"
    BEST_TWO_AGREE = "the two best agree"
    LIMIT_REACHED = "the limit is reached"


@dataclass(frozen=True, slots=True)
class Step:
    """What comes next in a test.

    Attributes:
        number: of the ramp or the trial, from 1; how many there were when enough.
        of: how many there are to be, as far as is known.
        share_pct: about how much of one's best a practice ramp should be; else None.
        differ_pct: the two best from each other; None before there are two.
    """

    kind: StepKind
    number: int
    of: int
    why: Why
    share_pct: int | None = None
    differ_pct: float | None = None


@dataclass(frozen=True, slots=True)
class Guide:
    """What the displays need of a test beside the state of its set.

    Attributes:
        step: the effort that is under way or comes next.
        to_come: efforts of its kind still to come, that one among them.
        expected_n: what it may reach; None where there is not even a guess.
        void: numbers of the reps that were taken out by hand.
        practice: numbers of the reps that were practice, and no trials.
    """

    step: Step
    to_come: int
    expected_n: float | None = None
    void: frozenset[int] = frozenset()
    practice: frozenset[int] = frozenset()


ANY_TRIAL = Guide(Step(StepKind.TRIAL, 1, 1, Why.TRIALS_LEFT), to_come=1)
"""For a maximal set that nobody guides, such as one that is replayed."""


def efforts_to_come(step: Step) -> int:
    """How many efforts of its kind are left as far as is known, itself among them."""
    return 0 if step.kind is StepKind.ENOUGH else step.of - step.number + 1


def next_step(plan: MaximalPlan, trials: Sequence[Trial]) -> Step:
    """What comes next, after the efforts so far."""
    ramps = sum(
        trial.practice and not trial.touch and not trial.void for trial in trials
    )
    begun = any(not trial.practice and not trial.touch for trial in trials)
    if ramps < plan.practice and not begun:
        share_pct = _PRACTICE_PCT[plan.practice][ramps]
        return Step(
            StepKind.PRACTICE, ramps + 1, plan.practice, Why.PRACTICE_FIRST, share_pct
        )
    counted = sum(trial.counts(plan.definition) for trial in trials)
    differ_pct = differ_of_two_best_pct(trials, plan.definition)
    agree = differ_pct is not None and differ_pct <= plan.agree_within_pct
    if counted < plan.trials:
        kind, why = StepKind.TRIAL, Why.TRIALS_LEFT
    elif agree:
        kind, why = StepKind.ENOUGH, Why.BEST_TWO_AGREE
    elif counted >= plan.most:
        kind, why = StepKind.ENOUGH, Why.LIMIT_REACHED
    else:
        kind, why = StepKind.TRIAL, Why.BEST_TWO_DIFFER
    number = counted + (kind is StepKind.TRIAL)
    return Step(kind, number, max(plan.trials, number), why, differ_pct=differ_pct)


def differ_of_two_best_pct(
    trials: Sequence[Trial], definition: Definition
) -> float | None:
    """How far the second best lies under the best, in % of the best."""
    forces_n = sorted(_forces_n(trials, definition), reverse=True)
    if len(forces_n) < 2 or forces_n[0] <= 0:
        return None
    return 100 * (forces_n[0] - forces_n[1]) / forces_n[0]


def _forces_n(trials: Sequence[Trial], definition: Definition) -> list[float]:
    found = []
    for trial in trials:
        force = trial.force(definition)
        if trial.counts(definition) and force is not None:
            found.append(force.total_n)
    return found


@dataclass(frozen=True, slots=True)
class MaximalResult:
    """What a test gave.

    Attributes:
        definition: which number is the 100 %.
        force: the best by it.
        best: number of the trial that gave it.
        trials: how many count.
        differ_pct: the two best from each other; None of a single one.
        range_pct: the worst from the best, in % of the best; None likewise.
        pain: the highest that was told; None where it was never asked.
        agreed: whether the two best agree as the plan asks.
    """

    definition: Definition
    force: Force
    best: int
    trials: int
    differ_pct: float | None
    range_pct: float | None
    pain: int | None
    agreed: bool


def result(
    plan: MaximalPlan, trials: Sequence[Trial], definition: Definition | None = None
) -> MaximalResult | None:
    """The result so far; None where no trial counts.

    Args:
        definition: in place of the plan's.
    """
    definition = definition or plan.definition
    best: Trial | None = None
    best_force: Force | None = None
    for trial in trials:
        force = trial.force(definition)
        if force is None or not trial.counts(definition):
            continue
        if best_force is None or force.total_n > best_force.total_n:
            best, best_force = trial, force
    if best is None or best_force is None:
        return None
    forces_n = _forces_n(trials, definition)
    differ_pct = differ_of_two_best_pct(trials, definition)
    pains = [trial.pain for trial in trials if trial.pain is not None]
    top_n = best_force.total_n
    several = len(forces_n) > 1 and top_n > 0
    return MaximalResult(
        definition=definition,
        force=best_force,
        best=best.number,
        trials=len(forces_n),
        differ_pct=differ_pct,
        range_pct=100 * (top_n - min(forces_n)) / top_n if several else None,
        pain=max(pains, default=None),
        agreed=differ_pct is not None and differ_pct <= plan.agree_within_pct,
    )


EXPECTED_OF_RATED = 0.3
"""Of the working cells' rated load, where nothing is known of the athlete: a guess."""


def expected_n(
    trials: Sequence[Trial],
    *,
    earlier_n: float | None = None,
    rated_n: float | None = None,
) -> float | None:
    """What the next trial may reach: what has been reached, or else a guess.

    Where nothing else is known the last practice ramp tells: one of three quarters is
    three quarters of what is expected.

    Args:
        earlier_n: the best of an earlier test.
        rated_n: rated load of the working cells together.
    """
    real = [trial for trial in trials if trial.peak is not None and not trial.touch]
    peaks_n = [trial.peak.total_n for trial in real if trial.peak is not None]
    if earlier_n is not None or any(not trial.practice for trial in real):
        return max((earlier_n or 0.0, *peaks_n))
    if real:
        last = real[-1]
        return 100 * peaks_n[-1] / (last.asked_pct or 100)
    return None if rated_n is None else EXPECTED_OF_RATED * rated_n
