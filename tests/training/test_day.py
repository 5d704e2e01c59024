"""What a day's report proposes: cuts, steps, and that more pain is never more load."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from biofeedback.errors import FieldError
from biofeedback.training.day import (
    SOURCES,
    DayReport,
    LastTime,
    PainRule,
    When,
    Why,
    propose,
)
from biofeedback.training.day_words import in_words
from biofeedback.training.feedback import PAIN_CUT
from biofeedback.wire.fields import Fields

RULE = PainRule()
MIDDLE = LastTime(0.5, 1)
PAIN = st.integers(0, 10)
MAYBE = st.none() | PAIN
REPORTS = st.builds(DayReport, PAIN, MAYBE, MAYBE)
LASTS = st.none() | st.builds(LastTime, st.floats(0, 1), PAIN)
RULES = st.tuples(st.integers(0, 8), st.integers(1, 9), st.floats(0.05, 1)).flatmap(
    lambda cuts: st.just(PainRule(*cuts)) if cuts[0] < cuts[1] else st.nothing()
)


# ---------------------------------------------------------------------- report


@pytest.mark.parametrize(
    "field", ["pain_now", "pain_night", "pain_morning", "soreness"]
)
@pytest.mark.parametrize("value", [-1, 11, 2.5, True])
def test_pain_is_a_whole_number_from_0_to_10(field: str, value: Any) -> None:
    answers: dict[str, Any] = {"pain_now": 0, field: value}
    with pytest.raises(FieldError) as refused:
        DayReport(**answers)
    assert refused.value.field == f"day.{field}"


@pytest.mark.parametrize("hours", [-0.5, 24.5, float("nan")])
def test_nobody_sleeps_longer_than_a_day(hours: float) -> None:
    with pytest.raises(FieldError) as refused:
        DayReport(0, sleep_h=hours)
    assert refused.value.field == "day.sleep_h"


def test_pain_now_must_be_known() -> None:
    with pytest.raises(FieldError):
        DayReport(None)  # type: ignore[arg-type]  # what a form could hand over


def test_the_worst_answer_decides_the_first_of_equals() -> None:
    assert DayReport(1, 4, 4).worst == (When.NIGHT, 4)
    assert DayReport(3, None, 1).worst == (When.NOW, 3)
    assert DayReport(0).pains == ((When.NOW, 0),)


# ------------------------------------------------------------------------ rule


def test_the_cuts_as_they_are_without_a_change() -> None:
    """The pain-monitoring model: 5 is still acceptable, and so it is in a set."""
    assert (RULE.low, RULE.high, RULE.step) == (2, 5, 0.25)
    assert RULE.high == PAIN_CUT
    for name in ("Thomeé 1997", "Silbernagel", "2007"):
        assert name in SOURCES


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"low": -1}, "pain_rule.low"),
        ({"low": 10}, "pain_rule.low"),
        ({"low": 5}, "pain_rule.high"),
        ({"high": 2}, "pain_rule.high"),
        ({"high": 10}, "pain_rule.high"),
        ({"step": 0.0}, "pain_rule.step"),
        ({"step": 1.5}, "pain_rule.step"),
    ],
)
def test_cuts_that_mean_nothing_are_refused(change: Any, field: str) -> None:
    with pytest.raises(FieldError) as refused:
        replace(RULE, **change)
    assert refused.value.field == field


@given(RULES)
def test_a_rule_comes_back_from_json(rule: PainRule) -> None:
    assert PainRule.from_json(Fields(rule.to_json())) == rule


# -------------------------------------------------------------------- proposal


@pytest.mark.parametrize(
    ("report", "last", "why", "place"),
    [
        # Above the high cut, whenever it was.
        (DayReport(6), MIDDLE, Why.STOP, None),
        (DayReport(0, 6, 0), MIDDLE, Why.STOP, None),
        (DayReport(0, 0, 10), None, Why.STOP, None),
        # On the cut is not above it.
        (DayReport(5, 0, 0), MIDDLE, Why.SOME_PAIN, 0.0),
        (DayReport(0, 3, 0), MIDDLE, Why.SOME_PAIN, 0.0),
        (DayReport(2, 2, 2), None, Why.FIRST_TIME, 0.0),
        (DayReport(0, 0, 0), None, Why.FIRST_TIME, 0.0),
        # Little pain: from last time on.
        (DayReport(1, 1, 1), MIDDLE, Why.TOLERATED, 0.75),
        (DayReport(2, 0, 0), MIDDLE, Why.TOLERATED, 0.75),  # one point more
        (DayReport(0, 0, 0), MIDDLE, Why.TOLERATED, 0.75),  # one point less
        (DayReport(0, 0, 2), LastTime(0.5, 0), Why.RISEN, 0.25),
        (DayReport(0, 2, None), LastTime(0.5, 0), Why.RISEN, 0.25),
        (DayReport(1, 1, None), MIDDLE, Why.NO_MORNING, 0.5),
        # The range ends somewhere.
        (DayReport(0, 0, 0), LastTime(0.9, 0), Why.TOLERATED, 1.0),
        (DayReport(2, 0, 0), LastTime(0.1, 0), Why.RISEN, 0.0),
        # After a day of some pain the way up begins again at the low end.
        (DayReport(1, 1, 1), LastTime(0.0, 4), Why.TOLERATED, 0.25),
    ],
)
def test_what_is_proposed(
    report: DayReport, last: LastTime | None, why: Why, place: float | None
) -> None:
    found = propose(report, RULE, last=last)
    assert (found.why, found.place) == (why, place)
    assert found.advise_stop is (why is Why.STOP)


def test_sleep_and_soreness_are_not_judged() -> None:
    plain = propose(DayReport(1, 1, 1), RULE, last=MIDDLE)
    assert propose(DayReport(1, 1, 1, 2.0, 10), RULE, last=MIDDLE) == plain


def height(report: DayReport, rule: PainRule, last: LastTime | None) -> float:
    place = propose(report, rule, last=last).place
    return -1.0 if place is None else place  # to stop is less than any place


@given(REPORTS, REPORTS, RULES, LASTS)
def test_more_pain_never_proposes_a_higher_place(
    one: DayReport, other: DayReport, rule: PainRule, last: LastTime | None
) -> None:
    same_questions = [when for when, _ in one.pains] == [
        when for when, _ in other.pains
    ]
    assume(same_questions)
    more = DayReport(
        *(
            None if mine is None or theirs is None else max(mine, theirs)
            for mine, theirs in (
                (one.pain_now, other.pain_now),
                (one.pain_night, other.pain_night),
                (one.pain_morning, other.pain_morning),
            )
        )  # type: ignore[arg-type]  # pain now is always there
    )
    assert height(more, rule, last) <= height(one, rule, last)


@given(REPORTS, RULES, LASTS)
def test_an_answer_left_out_never_proposes_more_than_no_pain(
    report: DayReport, rule: PainRule, last: LastTime | None
) -> None:
    quiet = replace(report, pain_morning=0)
    unknown = replace(report, pain_morning=None)
    assert height(unknown, rule, last) <= height(quiet, rule, last)


@given(REPORTS, RULES, LASTS)
def test_the_place_lies_in_the_range_and_a_step_is_one_step(
    report: DayReport, rule: PainRule, last: LastTime | None
) -> None:
    found = propose(report, rule, last=last)
    assert (found.place is None) is found.advise_stop
    if found.place is not None:
        assert 0 <= found.place <= 1
        if last is not None:
            assert found.place <= last.place + rule.step


@given(REPORTS, LASTS)
def test_lower_cuts_never_propose_a_higher_place(
    report: DayReport, last: LastTime | None
) -> None:
    assert height(report, PainRule(1, 3), last) <= height(report, RULE, last)


# ----------------------------------------------------------------------- words


@given(REPORTS, RULES, LASTS)
def test_every_proposal_says_why_in_one_line(
    report: DayReport, rule: PainRule, last: LastTime | None
) -> None:
    words = in_words(propose(report, rule, last=last), rule)
    assert words.endswith(".")
    assert "\n" not in words


def test_the_words_name_the_answer_and_the_cut() -> None:
    stop = in_words(propose(DayReport(2, 7, 1), RULE), RULE)
    assert "7 of 10 (last night)" in stop
    assert "above the cut of 5" in stop
    assert "treating clinician" in stop
    risen = in_words(propose(DayReport(2, 0, 0), RULE, last=LastTime(0.5, 0)), RULE)
    assert (
        risen
        == "One step down: pain 2 (now) after 0 before the last session is a rise."
    )
    top = in_words(propose(DayReport(0, 0, 0), RULE, last=LastTime(1.0, 0)), RULE)
    assert top.startswith("Still the high end")
    bottom = in_words(propose(DayReport(2, 0, 0), RULE, last=LastTime(0.0, 0)), RULE)
    assert bottom.startswith("Still the low end")


@given(REPORTS, RULES, LASTS)
def test_where_the_band_is_fixed_no_step_is_spoken_of(
    report: DayReport, rule: PainRule, last: LastTime | None
) -> None:
    proposal = propose(report, rule, last=last)
    words = in_words(proposal, rule, room=False)
    assert "step" not in words
    assert "end" not in words.split()
    assert ("treating clinician" in words) is proposal.advise_stop
