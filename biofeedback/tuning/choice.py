"""From figures to a recommendation: scores, the front, and a rule stated in words."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.phrase import phrase, sentences
from biofeedback.tuning.candidates import name_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from biofeedback.conditioning.profile import FilterChoice
    from biofeedback.phrase import Phrase
    from biofeedback.tuning.trial_run import Figures

FRAME_S = 1.0 / 60.0
"""Of a screen at 60 Hz; half of it is how old a drawn sample is on average."""


@dataclass(frozen=True, slots=True)
class Rule:
    """What is asked of a filter; among those that comply the least noise is best.

    Attributes:
        age_most_s: of the shown value.
        overshoot_most_n: mean overshoot at entry; None where it does not matter.
    """

    age_most_s: float = 0.060
    overshoot_most_n: float | None = None

    @property
    def words(self) -> Phrase:
        """The rule in words."""
        if self.overshoot_most_n is None:
            return phrase(
                "least noise with age of the shown value under {age_ms:g} ms",
                age_ms=1000 * self.age_most_s,
            )
        return phrase(
            "least noise with age of the shown value under {age_ms:g} ms and "
            "overshoot at entry up to {overshoot_n:g} N",
            age_ms=1000 * self.age_most_s,
            overshoot_n=self.overshoot_most_n,
        )

    def met_by(self, score: Score) -> bool:
        """Whether a candidate complies."""
        if not score.age_s < self.age_most_s:
            return False
        limit_n = self.overshoot_most_n
        return limit_n is None or score.overshoot_n <= limit_n


@dataclass(frozen=True, slots=True)
class Score:
    """One candidate over several recordings.

    Attributes:
        age_s: of the shown value: the longer of delay at DC and lag in ramps, a
            sample period and half a frame of the screen. The line is not in it.
        noise_n: rms over all holds, what noise adds to what is shown; `noise_pct` in
            % of the band's width.
        error_n: rms in holds beside the reference moved by the delay at DC.
        overshoot_n: mean over the entries.
    """

    choice: FilterChoice
    delay_s: float
    lag_ramp_s: float | None
    lag_hold_s: float | None
    age_s: float
    noise_n: float
    noise_pct: float | None
    error_n: float
    overshoot_n: float
    spikes_passed: int
    spikes: int
    false_exits_per_min: float
    missed_exits_per_min: float
    inside_change_s: float
    completed_change: int
    recordings: int

    @property
    def name(self) -> Phrase:
        """In a few words."""
        return name_of(self.choice)


def score(
    choice: FilterChoice, figures: Sequence[Figures], rates_hz: Sequence[float]
) -> Score:
    """Adds up a candidate's figures, one of each recording, at least one."""
    samples = sum(each.noise_samples for each in figures)
    minutes = sum(each.hold_s for each in figures) / 60.0
    shares = [each.noise_share2 for each in figures]
    told = [share for share in shares if share is not None]
    overshoots = [n for each in figures for n in each.overshoots_n]
    delay_s = max(each.delay_s for each in figures)
    ramp_s = _mean([each.lag_ramp_s for each in figures])
    return Score(
        choice=choice,
        delay_s=delay_s,
        lag_ramp_s=ramp_s,
        lag_hold_s=_mean([each.lag_hold_s for each in figures]),
        age_s=max(delay_s, ramp_s or 0.0) + 1.0 / min(rates_hz) + FRAME_S / 2,
        noise_n=math.sqrt(sum(each.noise_n2 for each in figures) / samples),
        noise_pct=(
            100.0 * math.sqrt(sum(told) / samples) if len(told) == len(shares) else None
        ),
        error_n=math.sqrt(sum(each.error_n2 for each in figures) / samples),
        overshoot_n=sum(overshoots) / len(overshoots) if overshoots else 0.0,
        spikes_passed=sum(each.spikes_passed for each in figures),
        spikes=sum(each.spikes for each in figures),
        false_exits_per_min=sum(each.false_exits for each in figures) / minutes,
        missed_exits_per_min=sum(each.missed_exits for each in figures) / minutes,
        inside_change_s=sum(each.inside_s for each in figures),
        completed_change=sum(each.completed for each in figures),
        recordings=len(figures),
    )


def _mean(values: Sequence[float | None]) -> float | None:
    known = [value for value in values if value is not None]
    return sum(known) / len(known) if known else None


def front(scores: Sequence[Score]) -> list[Score]:
    """Those that no other beats in both age and noise, from the youngest on.

    Of two that are equal in both, the first stays.
    """
    kept: list[Score] = []
    for each in sorted(scores, key=lambda score: (score.age_s, score.noise_n)):
        if not kept or each.noise_n < kept[-1].noise_n:
            kept.append(each)
    return kept


def best(scores: Sequence[Score], rule: Rule) -> Score | None:
    """The least noise among those that comply; the younger of two that are equal."""
    complying = [each for each in scores if rule.met_by(each)]
    return min(complying, key=lambda each: (each.noise_n, each.age_s), default=None)


@dataclass(frozen=True, slots=True)
class Recommendation:
    """What the rule recommends.

    Attributes:
        chosen: its score on the recordings it was chosen on; None where none complies.
        checked: its score on recordings that were not used for choosing, or None.
        reason: in words.
    """

    chosen: Score | None
    checked: Score | None
    reason: str


def recommend(
    chosen_on: Sequence[Score],
    checked_on: Mapping[FilterChoice, Score],
    rule: Rule,
) -> Recommendation:
    """Chooses on some recordings and holds the choice against others."""
    chosen = best(chosen_on, rule)
    if chosen is None:
        youngest = min(chosen_on, key=lambda each: each.age_s, default=None)
        if youngest is None:
            words = phrase("No candidate could be measured.")
            return Recommendation(None, None, words)
        reason = phrase(
            "No candidate gives {rule}. The youngest is {name}, {age_ms:.0f} ms.",
            rule=rule.words,
            name=youngest.name,
            age_ms=1000 * youngest.age_s,
        )
        return Recommendation(None, None, reason)
    complying = sum(rule.met_by(each) for each in chosen_on)
    reason = phrase(
        "Rule: {rule}. Of {candidates} candidates {complying} comply; {name} leaves "
        "the least noise, {noise_n:.3g} N rms, at an age of {age_ms:.0f} ms.",
        rule=rule.words,
        candidates=len(chosen_on),
        complying=complying,
        name=chosen.name,
        noise_n=chosen.noise_n,
        age_ms=1000 * chosen.age_s,
    )
    return Recommendation(
        chosen,
        checked_on.get(chosen.choice),
        sentences(reason, _of_check(chosen, checked_on, rule)),
    )


def _of_check(
    chosen: Score, checked_on: Mapping[FilterChoice, Score], rule: Rule
) -> Phrase:
    checked = checked_on.get(chosen.choice)
    if checked is None:
        return phrase(
            "Not cross-checked: it takes a recording that was not used for choosing."
        )
    there = best(tuple(checked_on.values()), rule)
    if not rule.met_by(checked):
        return phrase(
            "On {recordings} not used for choosing, it does not comply: "
            "{age_ms:.0f} ms, overshoot {overshoot_n:.3g} N. Do not rely on it.",
            recordings=checked.recordings,
            age_ms=1000 * checked.age_s,
            overshoot_n=checked.overshoot_n,
        )
    if there is None or there.choice == chosen.choice:
        return phrase(
            "On {recordings} not used for choosing, it is the best again, with "
            "{noise_n:.3g} N rms.",
            recordings=checked.recordings,
            noise_n=checked.noise_n,
        )
    return phrase(
        "On {recordings} not used for choosing, it complies with {noise_n:.3g} N rms; "
        "the best there is {name} with {best_n:.3g} N.",
        recordings=checked.recordings,
        noise_n=checked.noise_n,
        name=there.name,
        best_n=there.noise_n,
    )
