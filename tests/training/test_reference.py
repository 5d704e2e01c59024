"""References: what speaks against one, which one a rule finds, and what is said."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.errors import FieldError
from biofeedback.training.athlete import BodyMass
from biofeedback.training.band import Band
from biofeedback.training.planned import ReferenceRule
from biofeedback.training.prescription import Prescription
from biofeedback.training.reference import (
    Caution,
    Definition,
    Origin,
    Reference,
    cautions,
)
from biofeedback.training.reference_choice import (
    WEAKER,
    Choice,
    choose,
    newest_own,
)
from biofeedback.training.reference_facts import Facts, Measured, Stated
from biofeedback.training.reference_words import (
    WORDS,
    age_words,
    before_start,
    candidate_words,
    described,
)
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind
from biofeedback.wire.fields import Fields

TODAY = dt.date(2026, 3, 30)
SETUP = Setup(Joint.KNEE, "extension", 60.0, "5 cm above the ankle", 0.35)
LEFT = Task("Knee extension", sides=Sides.LEFT, setup=SETUP, key="task-1")
RIGHT, BOTH = LEFT.on_side(Sides.RIGHT), LEFT.on_side(Sides.BOTH)
SQUEEZE = Task("Squeeze", sides=Sides.LEFT, key="task-2")
PEAK, MEAN = Definition.PEAK, Definition.BEST_1_S_MEAN


def day(ago: int) -> str:
    return (TODAY - dt.timedelta(days=ago)).isoformat()


def a_test(
    force_n: float, ago: int, task: Task = LEFT, key: str = "", **more: Any
) -> Measured:
    """With a peak 5 % above the mean, as is usual."""
    return Measured(
        task, day(ago), MEAN, {MEAN: force_n, PEAK: 1.05 * force_n}, key=key, **more
    )


def chosen(
    rule: ReferenceRule,
    *tests: Measured,
    task: Task = LEFT,
    stated: tuple[Stated, ...] = (),
    mass: BodyMass | None = None,
    each_side: bool = False,
) -> Choice:
    return choose(
        rule, task, Facts(tests, stated, mass), today=TODAY, each_side=each_side
    )


def picked(choice: Choice) -> tuple[float, Origin, str]:
    assert choice.picked is not None
    assert choice.missing == ""
    reference = choice.picked.reference
    return reference.force_n, reference.origin, reference.source


# -------------------------------------------------------------------- cautions


def a_reference(ago: int = 0, **more: Any) -> Reference:
    values: dict[str, Any] = {
        "force_n": 240.0,
        "origin": Origin.OWN_SIDE,
        "definition": MEAN,
        "date": day(ago),
        "setup": SETUP,
        **more,
    }
    return Reference(**values)


@pytest.mark.parametrize(
    ("reference", "found"),
    [
        (a_reference(0), ()),
        (a_reference(14), ()),
        (a_reference(15), (Caution.STALE,)),
        (a_reference(date="no date"), (Caution.STALE,)),
        (a_reference(practice=True), (Caution.PRACTICE,)),
        (a_reference(pain=2), ()),
        (a_reference(pain=3), (Caution.PAINFUL,)),
        (a_reference(setup=None), ()),
        (a_reference(setup=replace(SETUP, angle_deg=90)), (Caution.OTHER_POSITION,)),
        # It is meant to be old.
        (a_reference(900, origin=Origin.BEFORE_INJURY), ()),
        # These have no position of their own, but they have an age.
        (
            a_reference(20, origin=Origin.OTHER_TASK, setup=Setup()),
            (Caution.STALE,),
        ),
        (a_reference(20, origin=Origin.BODY_MASS, setup=None), (Caution.STALE,)),
        (
            a_reference(30, practice=True, pain=9, setup=Setup(), task=SQUEEZE),
            tuple(Caution),
        ),
    ],
)
def test_what_speaks_against_a_reference(
    reference: Reference, found: tuple[Caution, ...]
) -> None:
    assert cautions(reference, LEFT, today=TODAY) == found


@pytest.mark.parametrize(
    ("whose", "origin", "its_own"),
    [
        (None, Origin.OWN_SIDE, True),
        (LEFT, Origin.OWN_SIDE, True),
        # Renamed meanwhile, and the name that it had is another task's now.
        (replace(LEFT, name="Leg extension"), Origin.OWN_SIDE, True),
        (replace(LEFT, key="task-9"), Origin.OWN_SIDE, False),
        # Where one has no key, the name tells.
        (replace(LEFT, key="", name=" knee EXTENSION"), Origin.OWN_SIDE, True),
        (replace(LEFT, key="", name="Leg extension"), Origin.OWN_SIDE, False),
        (SQUEEZE, Origin.OWN_SIDE, False),
        (SQUEEZE, Origin.TYPED, False),
        (SQUEEZE, Origin.BODY_MASS, False),
        (SQUEEZE, Origin.OTHER_TASK, False),
        # What was measured is of its side; what was typed is of any.
        (RIGHT, Origin.OWN_SIDE, False),
        (BOTH, Origin.OTHER_SIDE, False),
        (BOTH, Origin.TYPED, True),
        (RIGHT, Origin.BODY_MASS, True),
    ],
)
def test_whose_100_percent_it_is(
    whose: Task | None, origin: Origin, its_own: bool
) -> None:
    reference = a_reference(origin=origin, task=whose)
    found = () if its_own else (Caution.NOT_ITS_TASK,)
    assert cautions(reference, LEFT, today=TODAY) == found


@pytest.mark.parametrize("rule_origin", list(Origin))
def test_what_is_chosen_for_a_set_is_the_100_percent_of_that_set(
    rule_origin: Origin,
) -> None:
    rule = ReferenceRule(
        rule_origin,
        other_task=SQUEEZE.name,
        body_mass_factor=1.0,
        typed_n=200.0,
        typed_on=day(0),
    )
    stated = Stated(LEFT, day(400), Origin.BEFORE_INJURY, MEAN, 250.0)
    choice = chosen(
        rule,
        *(a_test(240, 1, task) for task in (LEFT, RIGHT, SQUEEZE)),
        stated=(stated,),
        mass=BodyMass(70.0, day(1)),
    )
    assert choice.picked is not None
    assert [one.reference.task for one in choice.all] == [
        Task(LEFT.name, sides=Sides.LEFT, key=LEFT.key)
    ] * len(choice.all)
    assert Caution.NOT_ITS_TASK not in choice.picked.cautions


def test_the_newest_of_a_task_itself_is_by_its_own_definition() -> None:
    tests = (
        a_test(250, 40, key="old"),
        a_test(230, 9, key="newest"),
        a_test(500, 1, SQUEEZE, key="another task"),
        a_test(500, 1, RIGHT, key="another side"),
    )
    own = newest_own(LEFT, Facts(tests), today=TODAY)
    assert own is not None
    assert (own.force_n, own.definition, own.source) == (230, MEAN, "newest")
    assert newest_own(BOTH, Facts(tests), today=TODAY) is None
    both = a_test(600, 2, BOTH, left_n=280.0, right_n=320.0)
    each = newest_own(BOTH, Facts((both,)), today=TODAY, each_side=True)
    assert each is not None
    assert each.force_n == 280, "of each side the weaker one"


def test_the_days_can_be_changed() -> None:
    assert cautions(a_reference(10), LEFT, today=TODAY, stale_after_days=7) == (
        Caution.STALE,
    )
    assert cautions(a_reference(20), LEFT, today=TODAY, stale_after_days=28) == ()


@given(
    st.builds(
        Reference,
        st.floats(0.1, 50_000),
        st.sampled_from(Origin),
        st.sampled_from(Definition),
        st.dates().map(dt.date.isoformat),
        practice=st.booleans(),
        pain=st.none() | st.integers(0, 10),
        setup=st.sampled_from([None, SETUP]),
        source=st.text(max_size=36),
        task=st.sampled_from([None, LEFT, SQUEEZE, Task("Without a key")]),
    )
)
def test_a_reference_comes_back_from_json(reference: Reference) -> None:
    assert Reference.from_json(Fields(reference.to_json())) == reference


# ---------------------------------------------------------------- own and other


def test_own_best_is_the_highest_of_the_weeks() -> None:
    tests = (
        a_test(230, 3, key="a"),
        a_test(250, 20, key="b"),
        a_test(300, 29, key="c"),
    )
    assert picked(chosen(ReferenceRule(), *tests)) == (250, Origin.OWN_SIDE, "b")
    longer = ReferenceRule(within_weeks=5)
    assert picked(chosen(longer, *tests)) == (300, Origin.OWN_SIDE, "c")
    # The last day of the weeks belongs to them.
    assert picked(chosen(ReferenceRule(), a_test(240, 28, key="d")))[2] == "d"


def test_the_definition_of_the_rule_counts() -> None:
    peak = ReferenceRule(definition=PEAK)
    choice = chosen(peak, a_test(240, 3))
    assert picked(choice)[0] == pytest.approx(252)
    assert choice.picked is not None
    assert choice.picked.reference.definition is PEAK


def test_a_peak_never_stands_in_for_a_mean() -> None:
    only_peak = Measured(LEFT, day(2), PEAK, {PEAK: 260.0})
    choice = chosen(ReferenceRule(), only_peak)
    assert choice.picked is None
    assert choice.missing == (
        "No best 1 s mean was kept for the left side in the last 4 weeks."
    )
    (other,) = choice.others  # it is offered all the same
    assert (other.reference.force_n, other.reference.definition) == (260, PEAK)


def test_a_first_test_counts_only_where_there_is_no_other() -> None:
    first = a_test(260, 10, key="first", practice=True)
    choice = chosen(ReferenceRule(), first)
    assert choice.picked is not None
    assert choice.picked.cautions == (Caution.PRACTICE,)
    assert picked(chosen(ReferenceRule(), first, a_test(240, 3, key="later")))[2] == (
        "later"
    )


def test_a_test_from_another_position_counts_only_where_there_is_no_other() -> None:
    moved = replace(LEFT, setup=replace(SETUP, angle_deg=90.0))
    higher = a_test(400, 2, moved, key="at 90")
    assert picked(chosen(ReferenceRule(), higher, a_test(240, 3, key="at 60")))[2] == (
        "at 60"
    )
    choice = chosen(ReferenceRule(), higher)
    assert choice.picked is not None
    assert choice.picked.cautions == (Caution.OTHER_POSITION,)


def test_sides_and_both_sides_together_are_never_exchanged() -> None:
    tests = (a_test(250, 3, RIGHT, key="right"), a_test(430, 3, BOTH, key="both"))
    none = chosen(ReferenceRule(), *tests)
    assert none.picked is None
    assert none.missing == "No test of the left side is known."
    assert [one.reference.source for one in none.others] == ["right"]
    other = chosen(ReferenceRule(Origin.OTHER_SIDE), *tests)
    assert picked(other) == (250, Origin.OTHER_SIDE, "right")
    assert picked(chosen(ReferenceRule(), *tests, task=BOTH)) == (
        430,
        Origin.OWN_SIDE,
        "both",
    )
    nothing = chosen(ReferenceRule(Origin.OTHER_SIDE), *tests, task=BOTH)
    assert nothing.picked is None
    assert "no other side" in nothing.missing


def test_an_old_test_is_named_and_offered_but_not_picked() -> None:
    choice = chosen(ReferenceRule(), a_test(240, 62))
    assert choice.picked is None
    assert choice.missing == (
        f"No test of the left side in the last 4 weeks; the latest is of {day(62)}."
    )
    (old,) = choice.others
    assert (old.age_days, old.cautions) == (62, (Caution.STALE,))


def test_where_the_band_is_for_each_side_the_weaker_one_counts() -> None:
    """With the total, 70 % for each side would be 140 % of what it can do."""
    both = a_test(400, 3, BOTH, left_n=170.0, right_n=230.0)
    choice = chosen(ReferenceRule(), both, task=BOTH, each_side=True)
    assert picked(choice)[0] == 170
    assert choice.picked is not None
    assert choice.picked.note == WEAKER
    without = chosen(ReferenceRule(), a_test(400, 3, BOTH), task=BOTH, each_side=True)
    assert without.picked is None
    assert "of each side" in without.missing
    peak = chosen(ReferenceRule(definition=PEAK), both, task=BOTH, each_side=True)
    assert peak.picked is None  # the sides are those of the mean


def test_tasks_are_known_by_key_and_without_one_by_name() -> None:
    renamed = replace(LEFT, name="Leg extension")
    assert picked(chosen(ReferenceRule(), a_test(240, 3, renamed, key="a")))[2] == "a"
    from_elsewhere = replace(LEFT, key="", name=" knee EXTENSION ")
    found = chosen(ReferenceRule(), a_test(240, 3, from_elsewhere, key="b"))
    assert picked(found)[2] == "b"
    namesake = replace(LEFT, key="task-9")
    assert chosen(ReferenceRule(), a_test(240, 3, namesake)).picked is None


# ------------------------------------------------------------- all other origins


def test_the_isometric_peak_may_be_the_least_of_a_lowering() -> None:
    lowering = Task("Slow lowering", TaskKind.LOWERING, Sides.LEFT)
    rule = ReferenceRule(Origin.OTHER_TASK, PEAK, other_task="knee extension")
    choice = chosen(rule, a_test(240, 3, key="a"), a_test(90, 3, RIGHT), task=lowering)
    assert picked(choice)[1:] == (Origin.OTHER_TASK, "a")
    assert choice.picked is not None
    assert choice.picked.reference.force_n == pytest.approx(252)
    assert choice.picked.note == "Knee extension"
    assert choice.picked.cautions == ()
    missing = chosen(rule, a_test(240, 3, SQUEEZE), task=lowering)
    assert missing.missing == "No test of “knee extension”, the left side is known."
    assert [one.note for one in missing.others] == ["Squeeze"]


def test_a_value_from_before_the_injury_is_dated_and_not_old() -> None:
    older = Stated(LEFT, "2024-05-01", Origin.BEFORE_INJURY, PEAK, 320, "older")
    newer = replace(older, date="2025-05-01", force_n=310, key="newer")
    typed = replace(newer, date=day(1), origin=Origin.TYPED, force_n=200, key="typed")
    rule = ReferenceRule(Origin.BEFORE_INJURY)
    choice = chosen(rule, stated=(older, newer, typed))
    assert picked(choice) == (310, Origin.BEFORE_INJURY, "newer")
    assert choice.picked is not None
    assert choice.picked.cautions == ()
    assert choice.picked.age_days == (TODAY - dt.date(2025, 5, 1)).days
    right = chosen(rule, stated=(older, newer), task=RIGHT)
    assert right.missing == (
        "No value from before the injury is stated for the right side."
    )


def test_a_multiple_of_body_mass_is_of_its_weight() -> None:
    rule = ReferenceRule(Origin.BODY_MASS, body_mass_factor=0.5)
    choice = chosen(rule, mass=BodyMass(80.0, day(3)))
    assert picked(choice)[0] == pytest.approx(0.5 * 80 * 9.80665)
    assert choice.picked is not None
    assert choice.picked.note == "0.5 × the weight of 80 kg"
    assert chosen(rule).missing == "No body mass is known."


def test_a_typed_number_of_the_plan_goes_before_one_that_was_stated() -> None:
    rule = ReferenceRule(Origin.TYPED, typed_n=210.0, typed_on=day(5))
    stated = Stated(LEFT, day(1), Origin.TYPED, Definition.STATED, 200, "typed")
    choice = chosen(rule, stated=(stated,))
    assert picked(choice) == (210, Origin.TYPED, "")
    assert [one.reference.force_n for one in choice.others] == [200]
    assert picked(chosen(ReferenceRule(Origin.TYPED), stated=(stated,)))[2] == "typed"
    undated = chosen(replace(rule, typed_on=""))
    assert undated.picked is not None
    assert undated.picked.age_days is None
    assert undated.picked.cautions == (Caution.STALE,)
    assert chosen(ReferenceRule(Origin.TYPED)).missing == (
        "No number is typed for the left side."
    )


def test_everything_else_is_offered_once_in_a_fixed_order() -> None:
    choice = chosen(
        ReferenceRule(body_mass_factor=1.0),
        a_test(240, 3, key="own"),
        a_test(260, 3, RIGHT, key="other"),
        a_test(90, 3, SQUEEZE, key="squeeze"),
        stated=(Stated(LEFT, "2025-05-01", Origin.BEFORE_INJURY, PEAK, 310),),
        mass=BodyMass(80.0, day(3)),
    )
    assert [one.reference.origin for one in choice.all] == [
        Origin.OWN_SIDE,
        Origin.OTHER_SIDE,
        Origin.BEFORE_INJURY,
        Origin.OTHER_TASK,
        Origin.BODY_MASS,
    ]


def test_a_force_that_cannot_be_100_pct_is_no_candidate() -> None:
    assert chosen(ReferenceRule(), a_test(0.01, 3)).all == ()


@given(
    st.lists(
        st.tuples(
            st.floats(1, 900), st.integers(0, 60), st.sampled_from(Sides), st.booleans()
        ),
        max_size=6,
    ),
    st.sampled_from([Origin.OWN_SIDE, Origin.OTHER_SIDE]),
    st.sampled_from(Sides),
)
def test_a_rule_finds_one_or_says_what_is_missing(
    drawn: list[tuple[float, int, Sides, bool]], origin: Origin, sides: Sides
) -> None:
    tests = [
        a_test(force_n, ago, LEFT.on_side(side), key=str(index), practice=practice)
        for index, (force_n, ago, side, practice) in enumerate(drawn)
    ]
    choice = chosen(ReferenceRule(origin), *tests, task=LEFT.on_side(sides))
    assert (choice.picked is None) is bool(choice.missing)
    assert choice.picked not in choice.others
    wanted = sides if origin is Origin.OWN_SIDE else sides.other
    if origin is Origin.OTHER_SIDE and sides is Sides.BOTH:
        assert choice.picked is None
        return
    recent = [one for one in drawn if one[2] is wanted and one[1] <= 28]
    assert (choice.picked is not None) is bool(recent)
    if choice.picked is not None:
        practised = [one for one in recent if not one[3]] or recent
        assert choice.picked.reference.force_n == max(one[0] for one in practised)


# ----------------------------------------------------------------------- words


def asked(reference: Reference | None) -> Prescription:
    return Prescription(LEFT, Band(160, 176), 45.0, reference=reference)


def test_before_a_set_every_caution_is_one_sentence() -> None:
    moved = replace(SETUP, angle_deg=90.0, posture="seated")
    spoken = before_start(
        asked(a_reference(30, practice=True, pain=4, setup=moved)), today=TODAY
    )
    assert spoken == (
        "The reference is 30 days old; after 14 days a new test is better.",
        "The reference is of the very first test: practice alone will raise it.",
        "The reference was measured with pain 4 of 10: it may be too low.",
        "The reference was measured in another position: angle 90°, now 60°; posture "
        "“seated”, now not written down.",
    )
    assert set(WORDS) == set(Caution)


def test_before_a_set_nothing_is_said_where_nothing_speaks_against_it() -> None:
    assert before_start(asked(a_reference(3)), today=TODAY) == ()
    assert before_start(asked(None), today=TODAY) == ()
    assert before_start(asked(a_reference(3)), today=TODAY, stale_after_days=2) != ()


@pytest.mark.parametrize(
    ("age_days", "words"),
    [
        (None, "without a date"),
        (-1, "dated 1 day ahead"),
        (0, "of today"),
        (1, "1 day old"),
        (400, "400 days old"),
    ],
)
def test_the_age_in_words(age_days: int | None, words: str) -> None:
    assert age_words(age_days) == words


def test_a_reference_says_force_origin_definition_date_and_age() -> None:
    assert described(a_reference(12), today=TODAY) == (
        "240 N, own side's best, best 1 s mean, 2026-03-18, 12 days old"
    )
    stated = a_reference(
        origin=Origin.TYPED, definition=Definition.STATED, date="no date"
    )
    assert described(stated, today=TODAY) == (
        "240 N, typed number, definition not stated, without a date"
    )


def test_a_candidate_carries_its_cautions_as_marks() -> None:
    choice = chosen(ReferenceRule(within_weeks=9), a_test(240, 20, practice=True))
    assert choice.picked is not None
    words = candidate_words(choice.picked, today=TODAY)
    assert words.endswith("20 days old ▲ old, from a first test")


def test_a_rule_that_names_no_task_or_factor_is_refused() -> None:
    with pytest.raises(FieldError, match="other_task"):
        ReferenceRule(Origin.OTHER_TASK)
    with pytest.raises(FieldError, match="body_mass_factor"):
        ReferenceRule(Origin.BODY_MASS)
