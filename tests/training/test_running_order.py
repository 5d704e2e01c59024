"""The running order of a visit: which set is next, whatever the practitioner does."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from biofeedback.errors import FieldError, UserError
from biofeedback.training.band import Band
from biofeedback.training.events import RestCut
from biofeedback.training.intensity import Intensity, ToleranceOf
from biofeedback.training.planned import PlannedPrescription, SideOrder
from biofeedback.training.prescription import BandOn, Prescription
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.running_order import (
    Doing,
    Leg,
    RunningOrder,
    Stand,
    legs_of,
)
from biofeedback.training.task import Sides, Task
from biofeedback.wire.fields import Fields

LEFT_N, RIGHT_N = 180.0, 240.0
PLANNED = PlannedPrescription(
    task=Task("Invented shoulder hold"),
    intensity=Intensity.around(70, 5, ToleranceOf.CENTRE),
    hold_s=10,
    reps=3,
    sets=2,
    rest_s=60,
    side_order=SideOrder.LEFT_FIRST,
    key="a",
)


def reference(force_n: float) -> Reference:
    return Reference(force_n, Origin.OWN_SIDE, Definition.BEST_1_S_MEAN, "2026-01-12")


def both_sides() -> list[Prescription]:
    return [
        PLANNED.on(Sides.LEFT, reference(LEFT_N)),
        PLANNED.on(Sides.RIGHT, reference(RIGHT_N)),
    ]


def order(*, warm_up: bool = False) -> RunningOrder:
    return RunningOrder(legs_of(PLANNED, both_sides(), warm_up=warm_up))


def work_through(visit: RunningOrder, sets: int, *, now_s: float = 0.0) -> None:
    for _ in range(sets):
        visit.set_ended(now_s, visit.begin(), complete=True)


def sides_and_sets(visit: RunningOrder) -> list[tuple[str, int]]:
    return [(leg.sides.value, leg.number) for leg in visit.legs]


def test_sides_take_turns_set_by_set_each_at_its_own_newtons() -> None:
    visit = order()
    assert sides_and_sets(visit) == [
        ("left", 1), ("right", 1), ("left", 2), ("right", 2),
    ]  # fmt: skip
    left, right, *_ = visit.legs
    # 70 % of 180 N is 126 N, of 240 N 168 N; 5 % of those centres either way.
    assert (left.asked.band.lower_n, left.asked.band.upper_n) == pytest.approx(
        (119.7, 132.3)
    )
    assert (right.asked.band.lower_n, right.asked.band.upper_n) == pytest.approx(
        (159.6, 176.4)
    )
    assert left.asked.band_on is BandOn.LEFT


def test_a_warm_up_is_one_rep_at_half_the_band_of_each_side() -> None:
    visit = order(warm_up=True)
    warm, *_ = visit.legs
    assert [leg.warm_up for leg in visit.legs] == [True, True] + 4 * [False]
    assert warm.asked.reps == 1
    assert warm.asked.band.centre_n == pytest.approx(63.0)


def test_rest_get_ready_and_due() -> None:
    visit = order()
    assert visit.due(0.0)
    visit.set_ended(100.0, visit.begin(), complete=True)
    assert visit.doing is Doing.REST
    assert (visit.rest_left_s(130.0), visit.get_ready(130.0)) == (30.0, False)
    assert visit.get_ready(155.0)
    assert not visit.due(159.9)
    assert visit.due(160.0)
    assert visit.rest_cut(130.0) == RestCut(taken_s=30.0, asked_s=60.0)
    assert visit.rest_cut(159.5) is None
    visit.stretch_rest(30.0)
    assert visit.rest_cut(130.0) == RestCut(taken_s=30.0, asked_s=90.0)
    visit.begin()
    assert visit.rest_cut(130.0) is None, "nobody rests in a set"


def test_all_sets_done_is_the_end() -> None:
    visit = order()
    work_through(visit, 4)
    assert visit.doing is Doing.DONE
    assert visit.leg is None
    assert {leg.stand for leg in visit.legs} == {Stand.DONE}
    with pytest.raises(FieldError, match="no set is to begin"):
        visit.begin()


def test_a_stopped_set_waits_for_the_practitioner() -> None:
    visit = order()
    visit.set_ended(0.0, visit.begin(), complete=False)
    assert visit.doing is Doing.STOPPED
    assert not visit.due(1e9)
    with pytest.raises(FieldError, match="Repeat or skip"):
        visit.begin()
    visit.repeat()
    assert sides_and_sets(visit)[:2] == [("left", 1), ("left", 1)]
    assert [leg.stand for leg in visit.legs[:2]] == [Stand.STOPPED, Stand.TO_COME]
    assert visit.place == 1
    visit.begin()


def test_a_stopped_set_can_be_left_at_that() -> None:
    visit = order()
    visit.set_ended(0.0, visit.begin(), complete=False)
    visit.skip()
    assert visit.legs[0].stand is Stand.STOPPED
    assert (visit.place, visit.doing) == (1, Doing.REST)


def test_skip_then_go_back_to_it() -> None:
    visit = order()
    visit.skip()
    assert visit.legs[0].stand is Stand.SKIPPED
    visit.go_to(0)
    assert visit.leg is not None
    assert (visit.leg.sides, visit.leg.stand) == (Sides.LEFT, Stand.TO_COME)
    assert visit.place == 0
    assert sides_and_sets(visit)[:2] == [("left", 1), ("right", 1)]


def test_a_later_set_can_be_done_first() -> None:
    visit = order()
    visit.go_to(2)
    assert sides_and_sets(visit)[:3] == [("left", 2), ("left", 1), ("right", 1)]
    work_through(visit, 4)
    assert visit.doing is Doing.DONE


def test_going_on_elsewhere_leaves_a_stopped_set_behind() -> None:
    visit = order()
    visit.set_ended(0.0, visit.begin(), complete=False)
    visit.go_to(2)
    assert [leg.stand for leg in visit.legs[:2]] == [Stand.STOPPED, Stand.TO_COME]
    work_through(visit, 3)
    assert visit.doing is Doing.DONE


def test_a_change_within_a_set_holds_for_later_sets_of_that_side_alone() -> None:
    visit = order()
    asked = visit.begin()
    moved = replace(asked, band=asked.band.moved(9.0), hold_s=8.0)
    visit.set_ended(0.0, moved, complete=True)
    left_1, right_1, left_2, right_2 = visit.legs
    assert (left_1.asked, left_1.done_as) == (asked, moved)
    assert (left_2.asked.band, left_2.asked.hold_s) == (moved.band, 8.0)
    assert right_1.asked.hold_s == right_2.asked.hold_s == 10


def test_a_repeated_set_is_asked_for_as_it_ended() -> None:
    visit = order()
    asked = visit.begin()
    visit.set_ended(0.0, asked.with_band(Band(100, 110)), complete=True)
    visit.repeat()
    assert visit.leg is not None
    assert visit.leg.asked.band == Band(100, 110)
    assert visit.leg.done_as is None


def test_another_reference_moves_what_is_in_percent_and_still_to_come() -> None:
    visit = order()
    work_through(visit, 1)
    task = PLANNED.task.on_side(Sides.LEFT)
    other = replace(task, name="another", key="")
    assert visit.change_reference(reference(200.0), task) == 1
    assert visit.change_reference(reference(200.0), other) == 0
    first, _, second, _ = visit.legs
    assert first.asked.band.centre_n == pytest.approx(126.0)
    assert second.asked.band.centre_n == pytest.approx(140.0)
    assert second.asked.reference == reference(200.0)


def test_a_ceiling_in_newtons_stays_and_no_band_passes_it() -> None:
    asked = replace(both_sides()[0], ceiling_n=200.0)
    for in_percent, ceiling_n in ((False, 200.0), (True, 200.0 * 200 / 180)):
        visit = RunningOrder(
            [Leg(asked, in_percent=True, ceiling_in_percent=in_percent)]
        )
        assert asked.reference is not None
        assert asked.reference.force_n == 180.0
        visit.change_reference(reference(200.0), PLANNED.task.on_side(Sides.LEFT))
        assert visit.legs[0].asked.ceiling_n == pytest.approx(ceiling_n)
    visit = RunningOrder([Leg(asked, in_percent=True), Leg(asked, in_percent=True)])
    with pytest.raises(UserError, match="pass the ceiling of 200 N"):
        visit.change_reference(reference(400.0), PLANNED.task.on_side(Sides.LEFT))
    assert [leg.asked for leg in visit.legs] == [asked, asked]


def test_the_plan_says_which_ceiling_moves() -> None:
    for planned, moves in (
        (replace(PLANNED, ceiling_pct=95.0, ceiling_n=None), True),
        (replace(PLANNED, ceiling_pct=None, ceiling_n=300.0), False),
    ):
        legs = legs_of(planned, both_sides())
        assert {leg.ceiling_in_percent for leg in legs} == {moves}
        again = Leg.from_json(Fields(legs[0].to_json(), "leg"))
        assert again == legs[0]


def test_newtons_do_not_move_with_a_reference() -> None:
    asked = replace(both_sides()[0], band=Band(50, 60))
    visit = RunningOrder([Leg(asked, in_percent=False)])
    assert (
        visit.change_reference(reference(999.0), PLANNED.task.on_side(Sides.LEFT)) == 0
    )
    assert visit.legs[0].asked == asked


def test_a_set_under_way_when_the_program_died_counts_as_stopped() -> None:
    visit = order()
    work_through(visit, 1)
    visit.begin()
    again = RunningOrder.from_json(Fields(json.loads(json.dumps(visit.to_json()))))
    assert [leg.stand for leg in again.legs[:3]] == [
        Stand.DONE, Stand.STOPPED, Stand.TO_COME,
    ]  # fmt: skip
    assert (again.place, again.doing) == (1, Doing.STOPPED)


def test_ended_early_stays_ended() -> None:
    visit = order()
    work_through(visit, 1)
    visit.end()
    assert (visit.doing, visit.leg) == (Doing.ENDED, None)
    again = RunningOrder.from_json(Fields(visit.to_json()))
    assert again.doing is Doing.ENDED
    assert [leg.stand for leg in again.legs].count(Stand.TO_COME) == 3


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"legs": []}, "visit.legs: is empty"),
        ({"current": 5}, "visit.current: is 5; it must be 0 to 4"),
        ({"current": "x"}, "visit.current: must be a whole number"),
        ({"ended": None}, "visit.ended: must be true or false"),
    ],
)
def test_bad_json_names_its_field(change: dict[str, object], words: str) -> None:
    with pytest.raises(FieldError, match=words):
        RunningOrder.from_json(Fields({**order().to_json(), **change}, "visit"))


def test_no_legs_is_no_visit() -> None:
    with pytest.raises(FieldError, match="1 to 500"):
        RunningOrder([])


DEEDS = st.sampled_from(
    # What makes sets is drawn more often.
    [
        *3 * ["begin"],
        *2 * ["complete"],
        "stop",
        "skip",
        "repeat",
        "restart",
        "end",
        "go 0",
        "go 3",
    ]
)


def do(visit: RunningOrder, deed: str, now_s: float) -> RunningOrder:
    leg = visit.leg
    if deed == "begin":
        if leg is not None and visit.doing in {Doing.READY, Doing.REST}:
            visit.begin()
    elif deed in {"complete", "stop"}:
        asked = visit.legs[visit.place].asked
        visit.set_ended(now_s, asked, complete=deed == "complete")
    elif deed == "restart":
        return RunningOrder.from_json(Fields(json.loads(json.dumps(visit.to_json()))))
    elif deed.startswith("go"):
        visit.go_to(int(deed[-1]))
    else:
        getattr(visit, deed)()
    return visit


@settings(max_examples=400)
@given(st.lists(DEEDS, min_size=3, max_size=40))
def test_whatever_is_done_nothing_is_lost(deeds: list[str]) -> None:
    visit = order()
    done = 0
    for now_s, deed in enumerate(deeds):
        before = visit.doing
        visit = do(visit, deed, float(now_s))
        done += deed == "complete" and before is Doing.SET
        stands = [leg.stand for leg in visit.legs]
        assert stands.count(Stand.DONE) == done
        assert stands.count(Stand.UNDER_WAY) == (visit.doing is Doing.SET)
        assert len(visit.legs) >= 4
        assert 0 <= visit.place < len(visit.legs)
        if visit.doing is Doing.DONE:
            assert Stand.TO_COME not in stands
        if visit.doing is not Doing.ENDED:
            assert Stand.TO_COME not in stands[: visit.place]
        if visit.doing is Doing.SET:
            assert stands[visit.place] is Stand.UNDER_WAY
        if visit.doing is Doing.STOPPED:
            assert stands[visit.place] is Stand.STOPPED
        if visit.doing in {Doing.READY, Doing.REST}:
            assert stands[visit.place] is Stand.TO_COME


def test_the_next_leg_can_be_changed_and_those_of_its_kind_with_it() -> None:
    visit = order()
    left = visit.legs[0].asked
    visit.change_next(replace(left, hold_s=8.0))
    assert [leg.asked.hold_s for leg in visit.legs] == [8.0, 10.0, 8.0, 10.0]
    visit.change_next(replace(left, hold_s=6.0), later_too=False)
    assert [leg.asked.hold_s for leg in visit.legs] == [6.0, 10.0, 8.0, 10.0]


def test_no_leg_is_changed_while_one_is_under_way_or_stopped() -> None:
    visit = order()
    asked = visit.begin()
    with pytest.raises(FieldError, match="no set to come"):
        visit.change_next(asked)
    visit.set_ended(0.0, asked, complete=False)
    with pytest.raises(FieldError, match="Repeat or skip"):
        visit.change_next(asked)


def test_a_rest_under_way_can_be_stretched_and_cut() -> None:
    visit = order()
    visit.set_ended(100.0, visit.begin(), complete=True)
    visit.stretch_rest(15.0)
    assert visit.rest_left_s(130.0) == 45.0
    visit.stretch_rest(-50.0)
    assert visit.due(130.0)
