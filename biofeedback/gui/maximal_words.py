"""A maximal test in words: its steps, its trials, its spread and what it means."""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.gui.language import (
    filled,
    plain_number,
    said,
    shown,
    signed_number,
    tr,
)
from biofeedback.measures.change import Change, Whose
from biofeedback.measures.normalised import normalised
from biofeedback.phrase import numbered, phrase
from biofeedback.training.maximal import StepKind, Why

if TYPE_CHECKING:
    from biofeedback.measures.change import Noise
    from biofeedback.session.maximal_test import MaximalTest
    from biofeedback.session.test_meaning import Meaning
    from biofeedback.training.athlete import BodyMass
    from biofeedback.training.maximal import MaximalPlan, MaximalResult, Step
    from biofeedback.training.task import Task
    from biofeedback.training.trial import Force, Trial


def newtons(force_n: float | None) -> str:
    """A force with its unit, or a dash."""
    return "–" if force_n is None else f"{plain_number(force_n)} N"


def step_title(step: Step) -> str:
    """Which effort it is, of how many."""
    if step.kind is StepKind.PRACTICE:
        return tr("Practice ramp {n} of {of}").format(n=step.number, of=step.of)
    if step.kind is StepKind.TRIAL:
        return tr("Trial {n} of {of}").format(n=step.number, of=step.of)
    return shown(
        numbered(step.number, "Enough after 1 trial", "Enough after {count} trials")
    )


def step_words(step: Step, plan: MaximalPlan) -> str:
    """What comes next, and why."""
    agree = plain_number(plan.agree_within_pct)
    differ = plain_number(step.differ_pct or 0.0)
    if step.kind is StepKind.PRACTICE:
        words = tr("About {share} % of full effort, built up over 1 to 2 s.")
        return words.format(share=step.share_pct)
    if step.why is Why.TRIALS_LEFT:
        words = tr("Full effort: built up over 1 to 2 s, {s} s in all.")
        return words.format(s=plain_number(plan.trial_s))
    if step.why is Why.BEST_TWO_DIFFER:
        words = tr("One more: the two best differ by {d} %, more than {a} %.")
        return words.format(d=differ, a=agree)
    if step.why is Why.LIMIT_REACHED:
        words = tr("The limit is reached; the two best differ by {d} %.")
        return words.format(d=differ)
    words = tr("The two best differ by {d} %, within {a} %.")
    return words.format(d=differ, a=agree)


def trial_name(trial: Trial, number: int) -> str:
    """Its name in a list: a practice ramp by its share, a trial by its number."""
    if trial.touch:
        return tr("touch")
    if trial.asked_pct is not None:
        return tr("practice {share} %").format(share=trial.asked_pct)
    return tr("trial {n}").format(n=number)


def trial_remark(trial: Trial, *, best: int | None) -> str:
    """What is to be known of it: void, best, let go early, pain."""
    words = []
    if trial.void:
        words.append(tr("void: {reason}").format(reason=trial.void_reason))
    elif trial.number == best:
        words.append(tr("best"))
    if trial.stopped and not trial.touch:
        words.append(
            tr("stopped, counts") if trial.let_count else tr("stopped, not counted")
        )
    elif trial.short and not (trial.touch or trial.practice):
        words.append(tr("short"))
    if trial.pain is not None:
        words.append(tr("pain {level}").format(level=trial.pain))
    return ", ".join(words)


def trial_rows(test: MaximalTest) -> tuple[tuple[str, str, str, str], ...]:
    """Name, peak, best 1 s mean and remark of each effort; touches among them."""
    found = test.result
    best = found.best if found else None
    rows, number = [], 0
    for trial in test.trials:
        number += not trial.practice and not trial.touch and not trial.void
        shown = number + (trial.void and not trial.practice)
        rows.append(
            (
                trial_name(trial, shown),
                _figure(trial.peak),
                _figure(trial.one_s),
                trial_remark(trial, best=best),
            )
        )
    return tuple(rows)


def _figure(force: Force | None) -> str:
    return "–" if force is None else plain_number(force.total_n)


def result_title(found: MaximalResult) -> str:
    """The force, and by which definition."""
    return tr("{force}, {definition}").format(
        force=newtons(found.force.total_n), definition=shown(found.definition.value)
    )


def shares_words(force_n: float, task: Task, mass: BodyMass | None) -> str:
    """The force as a torque and per body mass, as far as arm and mass are known."""
    arm_m = task.setup.lever_arm_m if task.setup else None
    shares = normalised(
        force_n, lever_arm_m=arm_m, mass_kg=mass.mass_kg if mass else None
    )
    parts = [
        f"{value:.3g} {unit}"
        for value, unit in (
            (shares.torque_nm, "N·m"),
            (shares.per_kg_n, "N/kg"),
            (shares.torque_per_kg_nm, "N·m/kg"),
        )
        if value is not None
    ]
    words = ", ".join(parts)
    if mass is None:
        return words
    of = tr("{words}, at {kg} kg of {date}")
    return of.format(words=words, kg=plain_number(mass.mass_kg), date=mass.date)


def spread_words(found: MaximalResult, plan: MaximalPlan) -> str:
    """How far the trials lie apart."""
    if found.differ_pct is None or found.range_pct is None:
        return tr("From a single trial: there is no spread to be seen.")
    words = tr("{n} trials: the two best differ by {d} %, best and worst by {r} %.")
    told = words.format(
        n=found.trials,
        d=plain_number(found.differ_pct),
        r=plain_number(found.range_pct),
    )
    if found.agreed:
        return told
    doubt = tr("They do not agree within {a} %: the true best may be higher.")
    return f"{told} {doubt.format(a=plain_number(plan.agree_within_pct))}"


def sides_words(found: MaximalResult) -> str:
    """Left and right of both sides together; empty where one worked alone."""
    left_n, right_n = found.force.left_n, found.force.right_n
    total_n = found.force.total_n
    if left_n is None or right_n is None or total_n <= 0:
        return ""
    return tr("Left {l} ({lp} %), right {r} ({rp} %) of the total.").format(
        l=newtons(left_n),
        lp=plain_number(100 * left_n / total_n, digits=0),
        r=newtons(right_n),
        rp=plain_number(100 * right_n / total_n, digits=0),
    )


def meaning_words(meaning: Meaning | None, force_n: float) -> str:
    """What the result means against the noise of the test."""
    if meaning is None:
        return ""
    if meaning.noise is None:
        told = tr(
            "How much this test varies cannot be told yet: that takes three visits of "
            "this athlete, or two visits each of two people, in the same task."
        )
    else:
        told = _noise_words(meaning.noise)
    if meaning.last_n is None:
        return told
    change = tr("Against {last} last time: {by} N ({pct} %), {words}.").format(
        last=newtons(meaning.last_n),
        by=signed_number(force_n - meaning.last_n),
        pct=signed_number(100 * (force_n - meaning.last_n) / meaning.last_n),
        words=said(_CHANGES[meaning.change]),
    )
    return f"{told}\n{change}"


_CHANGES = {
    Change.MORE: "more than the noise of the test",
    Change.LESS: "a fall of more than the noise of the test",
    Change.WITHIN: "within the noise of the test",
    Change.UNKNOWN: "which may be noise or not",
}


def _noise_words(noise: Noise) -> str:
    whose = (
        numbered(noise.tests, "this athlete's 1 visit", "this athlete's {count} visits")
        if noise.whose is Whose.OWN
        else phrase(
            "{visits} of {people} here",
            visits=numbered(noise.tests, "1 visit", "{count} visits"),
            people=numbered(noise.people, "1 person", "{count} people"),
        )
    )
    lower_n, upper_n = noise.typical_error_interval_n
    return filled(
        tr(
            "Typical error {te} N ({te_pct} %; 95 % interval {low} to {high} N), from "
            "{whose}. Between two visits less than {mdc} N ({mdc_pct} %) may be noise."
        ),
        te=plain_number(noise.typical_error_n),
        te_pct=plain_number(noise.typical_error_pct),
        low=plain_number(lower_n),
        high=plain_number(upper_n),
        whose=whose,
        mdc=plain_number(noise.mdc95_n),
        mdc_pct=plain_number(noise.mdc95_pct),
    )
