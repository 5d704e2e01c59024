"""Criteria against what the logbook knows; what is missing is never met."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.errors import FieldError
from biofeedback.training import criteria
from biofeedback.training.criteria import (
    Against,
    Criterion,
    HoldsComplete,
    Met,
    PainAtMost,
    Regained,
    SessionFacts,
    StageFacts,
    Word,
    judge,
)
from biofeedback.training.regaining import Regaining
from biofeedback.wire.fields import Fields


def of_pain(*worst: int | None) -> StageFacts:
    """Sessions whose mornings after were told."""
    return StageFacts(
        tuple(SessionFacts(pain, 1, 1, morning_known=True) for pain in worst)
    )


@pytest.mark.parametrize(
    ("worst", "met", "why"),
    [
        ((), Met.UNKNOWN, "told in 0 of 3"),
        ((2, 1), Met.UNKNOWN, "told in 2 of 3"),
        ((2, None, 1), Met.UNKNOWN, "told in 2 of 3"),
        ((2, 1, 0), Met.MET, "worst was 2"),
        ((2, 1, 0, 9), Met.MET, "worst was 2"),  # longer ago than three sessions
        ((1, 3, 0), Met.NOT_MET, "worst was 3"),
        ((3,), Met.NOT_MET, "worst was 3"),  # one is enough to know
    ],
)
def test_pain(worst: tuple[int | None, ...], met: Met, why: str) -> None:
    found = judge(PainAtMost(2, 3), of_pain(*worst))
    assert found.met is met
    assert why in found.why


def test_pain_before_the_morning_after_is_known_in_part() -> None:
    early = StageFacts((SessionFacts(1, 1, 1), *of_pain(1, 0).sessions))
    found = judge(PainAtMost(2, 3), early)
    assert found.met is Met.UNKNOWN
    assert "told in 2 of 3 sessions so far, the morning after included" in found.why
    assert judge(PainAtMost(0, 3), early).met is Met.NOT_MET


@pytest.mark.parametrize(
    ("reps", "met", "why"),
    [
        ((), Met.UNKNOWN, "0 sessions"),
        (((10, 10),), Met.UNKNOWN, "1 session with"),
        (((10, 9), (10, 9)), Met.MET, "18 of 20, 90 %"),
        (((10, 9), (10, 8)), Met.NOT_MET, "17 of 20, 85 %"),
        (((10, 10), (0, 0), (10, 10)), Met.MET, "20 of 20"),  # a visit without reps
        (((10, 10), (10, 10), (10, 0)), Met.MET, "20 of 20"),
    ],
)
def test_holds(reps: tuple[tuple[int, int], ...], met: Met, why: str) -> None:
    facts = StageFacts(tuple(SessionFacts(None, done, whole) for done, whole in reps))
    found = judge(HoldsComplete(90, 2), facts)
    assert found.met is met
    assert why in found.why


@pytest.mark.parametrize(
    ("reached", "met"), [(89.9, Met.NOT_MET), (90.0, Met.MET), (None, Met.UNKNOWN)]
)
def test_regained(reached: float | None, met: Met) -> None:
    others = (
        Regaining("Calf", Against.BEFORE_INJURY, 99.0, 100.0),
        Regaining("Knee", Against.OTHER_SIDE, 99.0, 100.0),
    )
    known = (
        ()
        if reached is None
        else (Regaining("Calf", Against.OTHER_SIDE, reached, 100.0),)
    )
    wanted = Regained(90, Against.OTHER_SIDE, "Calf")
    assert judge(wanted, StageFacts(regained=(*others, *known))).met is met


def test_what_is_not_reached_does_not_look_so() -> None:
    """215.99 N of 240 N are 89.996 %, which any rounding would call 90."""
    wanted = Regained(90, Against.OTHER_SIDE, "Calf")
    near = Regaining(
        "Calf", Against.OTHER_SIDE, 215.99, 240, "2026-02-03", "2026-01-12"
    )
    found = judge(wanted, StageFacts(regained=(near,)))
    assert found.met is Met.NOT_MET
    assert found.why == "216 N (2026-02-03) of 240 N (2026-01-12), 89.9 %."
    reps = StageFacts((SessionFacts(None, 1000, 899),))
    assert judge(HoldsComplete(90, 1), reps).why == "899 of 1000, 89.9 %."


def test_without_one_injured_side_nothing_is_regained() -> None:
    found = Regaining("Calf", Against.OTHER_SIDE, 99.0, 100.0)
    wanted = Regained(90, Against.OTHER_SIDE, "Calf")
    judged = judge(wanted, StageFacts(regained=(found,), one_sided=False))
    assert judged.met is Met.UNKNOWN
    assert "which one side" in judged.why


@pytest.mark.parametrize(
    ("said", "met"),
    [((), Met.UNKNOWN), ((("a", True),), Met.MET), ((("a", False),), Met.NOT_MET),
     ((("b", True),), Met.UNKNOWN)],
)  # fmt: skip
def test_word(said: tuple[tuple[str, bool], ...], met: Met) -> None:
    assert judge(Word("The surgeon agrees.", key="a"), StageFacts(said=said)).met is met


ALL: tuple[Criterion, ...] = (
    PainAtMost(2, 3, "p"),
    HoldsComplete(80, 4, "h"),
    Regained(90, Against.BEFORE_INJURY, "Calf", "r"),
    Word("Jumps well.", "w"),
)


@pytest.mark.parametrize("criterion", ALL, ids=lambda one: one.kind)
def test_each_is_kept_and_said(criterion: Criterion) -> None:
    kept = json.loads(json.dumps(criteria.to_json(criterion)))
    assert criteria.from_json(Fields(kept)) == criterion
    assert criterion.words.endswith(".")


@pytest.mark.parametrize("criterion", ALL, ids=lambda one: one.kind)
def test_nothing_known_is_never_met(criterion: Criterion) -> None:
    assert judge(criterion, StageFacts()).met is Met.UNKNOWN


@given(st.lists(st.integers(0, 10), min_size=3, max_size=6), st.integers(0, 2))
def test_more_pain_never_meets_more(worst: list[int], which: int) -> None:
    more = [*worst]
    more[which] = min(10, more[which] + 1)
    wanted = PainAtMost(4, 3)
    before, after = (judge(wanted, of_pain(*levels)).met for levels in (worst, more))
    assert not (before is Met.NOT_MET and after is Met.MET)


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: PainAtMost(11, 3), "criterion.most"),
        (lambda: PainAtMost(2, 0), "criterion.sessions"),
        (lambda: HoldsComplete(0.8, 3), "criterion.least_pct"),
        (lambda: HoldsComplete(101, 3), "criterion.least_pct"),
        (lambda: Regained(90, Against.OTHER_SIDE, " "), "criterion.task"),
        (lambda: Word(" "), "criterion.text"),
    ],
)
def test_what_does_not_fit(make: object, field: str) -> None:
    with pytest.raises(FieldError) as caught:
        make()  # type: ignore[operator]  # a lambda
    assert caught.value.field == field
