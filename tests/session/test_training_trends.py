"""Training over the sessions: sums and shares worked out by hand, like beside like."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from types import MappingProxyType
from typing import TYPE_CHECKING

import pytest

from biofeedback.logbook.done_reps import DoneRep
from biofeedback.logbook.history import Source
from biofeedback.logbook.rows import SetRow
from biofeedback.report.training_charts import (
    failure_words,
    kind_words,
    training_charts,
)
from biofeedback.session.task_keys import TaskKeys
from biofeedback.session.training_trends import TrainingTrend, training_trends
from biofeedback.training.band import Band
from biofeedback.training.prescription import BandOn, Prescription
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Setup, Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Mapping

BEGAN = datetime(2026, 3, 2, 9, tzinfo=UTC)
REFERENCE = Reference(200.0, Origin.OWN_SIDE, Definition.PEAK, "2026-03-01")
ASKED = Prescription(
    task=Task("Invented press", sides=Sides.LEFT),
    band=Band(90.0, 110.0),
    hold_s=10.0,
    reps=2,
    reference=REFERENCE,
)
REP = DoneRep(
    set_id="s0", number=1, outcome="complete", feedback="full", start_s=0.0,
    end_s=12.0, below_s=1.0, inside_s=8.0, above_s=1.0, mean_n=100.0,
    impulse_ns=1000.0, dose_pct_s=500.0, median_n=100.0, cv_detrended_pct=2.0,
    slope_n_per_s=-0.2, band_lower_n=90.0, band_upper_n=110.0,
)  # fmt: skip


def row(key: str, asked: Prescription = ASKED, *, day: int = 0) -> SetRow:
    began = BEGAN + timedelta(days=day)
    return SetRow(
        id=key, session_id=f"visit {day}", athlete_code="INV-1", task=asked.task.name,
        prescription=asked.to_json(), profile={}, recording=f"{key}.force",
        started_utc=began, closed_utc=began, recovered=False, task_id=None,
        sides=asked.task.sides.value, plan_id=None, stage=None, planned_key=None,
    )  # fmt: skip


def trends(
    sets: list[SetRow],
    reps: list[DoneRep],
    nudged: dict[str, list[float | None]] | None = None,
    warm_ups: frozenset[str] = frozenset(),
    painful: frozenset[str] = frozenset(),
    sources: Mapping[str, Source] = MappingProxyType({}),
) -> tuple[TrainingTrend, ...]:
    return training_trends(
        sets,
        reps,
        nudged=nudged or {},
        warm_ups=warm_ups,
        painful=painful,
        tasks=TaskKeys((one.task_id, one.task) for one in sets),
        sources=sources,
        day_of=lambda at: at.date(),
    )


def test_one_visit_by_hand() -> None:
    """200 N are 100 %: 100 and 90 N held are 50 and 45 %, the band's middle is 50 %."""
    weak = replace(
        REP, number=2, outcome="short", mean_n=90.0, inside_s=4.0, below_s=6.0,
        above_s=0.0, impulse_ns=900.0, dose_pct_s=450.0, cv_detrended_pct=4.0,
        slope_n_per_s=-0.4,
    )  # fmt: skip
    (trend,) = trends([row("s0")], [REP, weak], {"s0": [1.0, 5.0, None]})
    (point,) = trend.points
    assert point.day == date(2026, 3, 2)
    assert (point.reps, point.complete, point.nudges) == (2, 1, 3)
    assert point.reference_n == 200.0
    assert point.asked_pct == pytest.approx(50.0)
    assert point.width_pct == pytest.approx(10.0)
    assert point.held_pct == pytest.approx(47.5)
    assert point.in_band_pct == pytest.approx(100 * 12 / 20)
    assert point.cv_pct == pytest.approx(3.0)
    assert point.slope_pct_s == pytest.approx(-0.15)
    assert point.fall_pct == pytest.approx(5.0)
    assert (point.dose_pct_s, point.dose_ns) == (950.0, 1900.0)


def test_time_out_of_balance_is_not_time_in_the_band() -> None:
    """8 s inside in balance, 2 s out of the band, 10 s inside out of balance: 40 %."""
    (trend,) = trends([row("s0")], [replace(REP, unbalanced_s=10.0)])
    assert trend.points[0].in_band_pct == pytest.approx(40.0)


def test_only_like_stands_in_one_trend() -> None:
    """Another side, position, feedback or 100 % is another trend; lowering is none."""
    right = replace(ASKED, task=replace(ASKED.task, sides=Sides.RIGHT))
    bent = replace(ASKED, task=replace(ASKED.task, setup=Setup(angle_deg=90.0)))
    lowering = replace(ASKED, task=replace(ASKED.task, kind=TaskKind.LOWERING))
    mean = replace(REFERENCE, definition=Definition.BEST_1_S_MEAN)
    sets = [row("s0"), row("s1", right), row("s2", bent), row("s3", lowering)]
    sets.append(row("s4", replace(ASKED, reference=mean)))
    reps = [
        REP,
        replace(REP, number=2, feedback="unseen"),
        *(replace(REP, set_id=key) for key in ("s1", "s2", "s3", "s4")),
    ]
    found = trends(sets, reps)
    kinds = {
        (one.kind.sides, one.kind.setup, one.kind.feedback, one.kind.definition)
        for one in found
    }
    assert kinds == {
        (Sides.LEFT, None, "full", Definition.PEAK),
        (Sides.LEFT, None, "unseen", Definition.PEAK),
        (Sides.RIGHT, None, "full", Definition.PEAK),
        (Sides.LEFT, Setup(angle_deg=90.0), "full", Definition.PEAK),
        (Sides.LEFT, None, "full", Definition.BEST_1_S_MEAN),
    }
    assert all(len(one.points) == 1 and one.points[0].reps == 1 for one in found)


def test_kinds_that_differ_have_titles_that_differ() -> None:
    bent = replace(ASKED, task=replace(ASKED.task, setup=Setup(angle_deg=90.0)))
    mean = replace(REFERENCE, definition=Definition.BEST_1_S_MEAN)
    sets = [
        row("s0"), row("s1", bent), row("s2", replace(ASKED, reference=mean)),
        row("s3", replace(ASKED, reference=None)),
    ]  # fmt: skip
    found = trends(sets, [replace(REP, set_id=one.id) for one in sets])
    kinds = [one.kind for one in found]
    titles = {str(kind_words(one, kinds)) for one in kinds}
    assert len(titles) == len(kinds) == 4
    assert any("90°" in one for one in titles)
    assert str(kind_words(kinds[0], kinds[:1])) == "Invented press, left, force seen"


PRESS = ASKED.task
CURL = Task("Invented curl", sides=Sides.LEFT)
RIGHT = replace(PRESS, sides=Sides.RIGHT)
TESTED = replace(REFERENCE, source="t1", task=PRESS)
FOREIGN = [
    # The reference, what the logbook has of its test, and what is to be said of it.
    (replace(REFERENCE, task=CURL), None, "by the 100 % of “Invented curl”, left"),
    (replace(REFERENCE, task=RIGHT), None, "by the 100 % of another side: right"),
    (
        replace(REFERENCE, origin=Origin.OTHER_SIDE, task=PRESS),
        None,
        "by the 100 % of another side: right",
    ),
    (
        replace(REFERENCE, origin=Origin.OTHER_TASK, task=PRESS),
        None,
        "by the 100 % of another task",
    ),
    (
        replace(TESTED, origin=Origin.OTHER_TASK),
        Source(own=True, task_id=None, task=CURL.name, sides=Sides.LEFT),
        "by the 100 % of “Invented curl”, left",
    ),
    (
        replace(REFERENCE, origin=Origin.TYPED, task=CURL),
        None,
        "by the 100 % of “Invented curl”",
    ),
    (
        TESTED,
        Source(own=False, task_id=None, task=PRESS.name, sides=Sides.LEFT),
        "by the 100 % of another athlete",
    ),
]


@pytest.mark.parametrize(("reference", "source", "words"), FOREIGN)
def test_shares_of_a_foreign_100_pct_are_a_trend_of_their_own_and_said(
    reference: Reference, source: Source | None, words: str
) -> None:
    """An own set before it and one after it: the line goes on without it."""
    foreign = replace(ASKED, reference=reference)
    sets = [row("s0"), row("s1", foreign, day=1), row("s2", day=2)]
    known = {reference.source: source} if source else {}
    found = trends(sets, [replace(REP, set_id=one.id) for one in sets], sources=known)
    assert [len(one.points) for one in found] == [2, 1]
    kinds = [one.kind for one in found]
    assert "by the 100 %" not in str(kind_words(kinds[0], kinds))
    assert str(kind_words(kinds[1], kinds)).endswith(words)
    # Where there is nothing else to be told apart from, it is said all the same.
    assert str(kind_words(kinds[1], kinds[1:])).endswith(words)


def test_a_test_that_is_the_set_s_own_is_no_foreign_100_pct() -> None:
    mine = Source(own=True, task_id=None, task=PRESS.name, sides=Sides.LEFT)
    sets = [row("s0"), row("s1", replace(ASKED, reference=TESTED), day=1)]
    (trend,) = trends(
        sets, [replace(REP, set_id=one.id) for one in sets], sources={"t1": mine}
    )
    assert len(trend.points) == 2


def test_a_typed_number_and_a_test_are_two_trends_and_told_apart() -> None:
    typed = replace(REFERENCE, origin=Origin.TYPED, task=PRESS)
    sets = [row("s0"), row("s1", replace(ASKED, reference=typed), day=1)]
    found = trends(sets, [replace(REP, set_id=one.id) for one in sets])
    kinds = [one.kind for one in found]
    assert {str(kind_words(one, kinds)) for one in kinds} == {
        "Invented press, left, force seen, 100 %: own side's best",
        "Invented press, left, force seen, 100 %: typed number",
    }


def test_a_band_that_was_moved_tells_of_no_fall() -> None:
    """90 N after 100 N is no fatigue where 90 N were asked; the middle may differ."""
    asked_less = replace(REP, number=2, mean_n=90.0, band_lower_n=80.0,
                         band_upper_n=100.0)  # fmt: skip
    (moved,) = trends([row("s0")], [REP, asked_less])
    assert moved.points[0].fall_pct is None
    (back,) = trends([row("s0")], [REP, asked_less, replace(REP, mean_n=96.0)])
    assert back.points[0].fall_pct == pytest.approx(2.0)


@pytest.mark.parametrize(("upper_n", "told"), [(110.0, False), (120.0, True)])
def test_a_band_of_another_width_is_said(upper_n: float, told: bool) -> None:
    """20 N are 10 points of 200 N, 30 N are 15."""
    other = replace(REP, set_id="s1", band_upper_n=upper_n)
    (trend,) = trends([row("s0"), row("s1", day=1)], [REP, other])
    (chart,) = [c for c in training_charts(trend) if c.title.startswith("Time in the")]
    said = [one for one in chart.remarks if "10.0 to 15.0 points" in one]
    assert bool(said) is told


def test_doses_add_up_by_week_and_a_week_without_a_visit_is_no_zero() -> None:
    """Monday and Sunday are one week, the next one has no visit, then a Monday."""
    sets = [row(f"s{day}", day=day) for day in (0, 6, 14)]
    trend = trends(sets, [replace(REP, set_id=one.id) for one in sets])[0]
    found = {
        chart.unit: [(at.day, at.value, at.n) for at in chart.series[0].points]
        for chart in training_charts(trend)
        if chart.title.startswith("Dose")
    }
    monday, third = date(2026, 3, 2), date(2026, 3, 16)
    assert found == {
        "%·s": [(monday, 1000.0, 2), (third, 500.0, 1)],
        "N·s": [(monday, 2000.0, 2), (third, 1000.0, 1)],
    }


def test_a_week_with_an_unknown_dose_has_no_sum() -> None:
    sets = [row("s0"), row("s1", day=1)]
    unknown = replace(REP, set_id="s1", dose_pct_s=None)
    (trend,) = trends(sets, [REP, unknown])
    (chart,) = [one for one in training_charts(trend) if one.unit == "%·s"]
    assert chart.series[0].points == ()


def test_a_warm_up_and_a_set_without_a_rep_are_out() -> None:
    sets = [row("s0"), row("s1", day=1), row("s2", day=2)]
    reps = [REP, replace(REP, set_id="s2")]
    (trend,) = trends(sets, reps, warm_ups=frozenset({"s0"}))
    assert [one.session_id for one in trend.points] == ["visit 2"]


def test_without_a_reference_there_is_no_share_and_no_zero() -> None:
    free = replace(ASKED, reference=None)
    (trend,) = trends([row("s0", free)], [replace(REP, dose_pct_s=None)])
    (point,) = trend.points
    shares = (point.asked_pct, point.held_pct, point.slope_pct_s, point.dose_pct_s)
    assert shares == (None, None, None, None)
    assert point.dose_ns == 1000.0


def test_a_band_on_each_side_is_asked_of_both_together() -> None:
    each = replace(ASKED, band_on=BandOn.EACH_SIDE)
    (trend,) = trends([row("s0", each)], [replace(REP, mean_n=200.0)])
    assert trend.points[0].asked_pct == pytest.approx(100.0)
    assert trend.points[0].held_pct == pytest.approx(100.0)


def test_noise_is_told_from_five_visits_on_and_follows_what_was_asked() -> None:
    """The band rises by 10 N a visit and is met each time but for ±1 N.

    Held minus asked is ±0.5 % in turn, so neighbours differ by 1 %: Σd² = 4 over 2·4.
    """
    sets, reps = [], []
    for day in range(5):
        lower_n = 90.0 + 10 * day
        asked = replace(ASKED, band=Band(lower_n, lower_n + 20))
        sets.append(row(f"s{day}", asked, day=day))
        reps.append(
            replace(
                REP,
                set_id=f"s{day}",
                band_lower_n=lower_n,
                band_upper_n=lower_n + 20,
                mean_n=lower_n + 10 + (-1) ** day,
            )
        )
    (trend,) = trends(sets, reps)
    noise = trend.noise["held_pct"]
    assert noise.typical_error == pytest.approx(0.5**0.5)
    assert noise.visits == 5
    assert "cv_pct" not in trend.noise  # all equal: not known
    (short,) = trends(sets[:4], reps[:4])
    assert not short.noise


OPEN = replace(ASKED, hold_s=600.0)
CONSTRUCTED = ((60.0, 184.0), (90.0, 162.0), (150.0, 139.0), (300.0, 126.0))
"""Time and mean force; those of `tests/measures/test_critical_force.py`."""


def to_failure(
    asked: Prescription = OPEN, *, apart_days: int = 1
) -> tuple[list[SetRow], list[DoneRep]]:
    sets, reps = [], []
    for index, (time_s, force_n) in enumerate(CONSTRUCTED):
        sets.append(row(f"s{index}", asked, day=apart_days * index))
        reps.append(
            replace(
                REP,
                set_id=f"s{index}",
                outcome="short",
                start_s=2.0,
                end_s=2.0 + time_s,
                impulse_ns=time_s * force_n,
            )
        )
    return sets, reps


def test_critical_force_of_open_ended_holds_that_were_let_go() -> None:
    sets, reps = to_failure()
    sets.append(row("s9", OPEN, day=9))
    reps.append(replace(REP, set_id="s9", outcome="short", end_s=59.0))
    reps.append(replace(REP, set_id="s9", number=2, end_s=400.0))  # complete
    reps.append(replace(REP, set_id="s9", number=3, outcome="stopped", end_s=400.0))
    (trend,) = trends(sets, reps)
    assert [(one.time_s, one.day.day) for one in trend.failed] == [
        (60.0, 2), (90.0, 3), (150.0, 4), (300.0, 5),
    ]  # fmt: skip
    assert trend.failure is not None
    assert trend.failure.force_n == pytest.approx(111.157895, abs=5e-7)
    assert "2026-03-02 60 s, 2026-03-03 90 s, 2026-03-04 150 s" in failure_words(trend)


def test_what_need_not_be_failure_gives_no_critical_force() -> None:
    """A hold of a set time that was let go, holds over months, and pain."""
    (asked,) = trends(*to_failure(replace(ASKED, hold_s=120.0)))
    assert (asked.failed, asked.failure) == ((), None)
    (months,) = trends(*to_failure(apart_days=30))
    assert [one.time_s for one in months.failed] == [300.0]
    assert months.failure is None
    (hurt,) = trends(*to_failure(), painful=frozenset({"s0", "s1"}))
    assert [one.time_s for one in hurt.failed] == [150.0, 300.0]
    assert "cannot be told" in failure_words(hurt)


def test_a_nudge_is_counted_once_in_a_set_of_two_kinds_of_feedback() -> None:
    """One within rep 1 (seen), one in the rest before rep 2 (unseen), one after all."""
    reps = [
        REP, replace(REP, number=2, start_s=20.0, end_s=32.0, feedback="unseen"),
    ]  # fmt: skip
    found = trends([row("s0")], reps, {"s0": [5.0, 15.0, 40.0]})
    counted = {one.kind.feedback: one.points[0].nudges for one in found}
    assert counted == {"full": 1, "unseen": 2}


def test_a_task_that_got_another_name_is_one_trend_and_two_of_a_name_are_two() -> None:
    def keyed(name: str, key: str) -> Prescription:
        return replace(ASKED, task=replace(ASKED.task, name=name, key=key))

    sets = [
        replace(row("s0", keyed("Press", "k1")), task_id="k1"),
        replace(row("s1", keyed("Press, seated", "k1"), day=1), task_id="k1"),
        replace(row("s2", keyed("Press, seated", "k2"), day=2), task_id="k2"),
    ]
    found = trends(sets, [replace(REP, set_id=one.id) for one in sets])
    assert [(one.kind.key, one.kind.task, len(one.points)) for one in found] == [
        ("k1", "Press, seated", 2),
        ("k2", "Press, seated", 1),
    ]
