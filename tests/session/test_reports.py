"""What a report gathers: days, periods, like beside like, each worked out by hand."""

from __future__ import annotations

import itertools
import math
import os
import time
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

import pytest
from report import invented

from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.logbook.session_notes import PAIN
from biofeedback.report.chart import description
from biofeedback.report.document import sheet
from biofeedback.report.report_charts import test_charts as charts_of_tests
from biofeedback.report.share_charts import share_chart
from biofeedback.report.sheet import Bullets
from biofeedback.report.training_charts import kind_words
from biofeedback.report.week_charts import adherence_charts
from biofeedback.session.local_time import LocalTime
from biofeedback.session.reports import Reports
from biofeedback.session.test_meaning import meaning_of
from biofeedback.training.athlete import AthleteDetails
from biofeedback.training.example_plans import SHOULDER, TENDON
from biofeedback.training.maximal import MaximalResult
from biofeedback.training.reference import Definition, Origin
from biofeedback.training.task import Setup, Sides, Task
from biofeedback.training.trial import Force

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from biofeedback.session.report_facts import ReportFacts

PULL = Task(
    "Invented pull", sides=Sides.LEFT, key="01900000-0000-7000-8000-00000000aaaa"
)
CODE = "INV-3"


@pytest.fixture
def logbook(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def athlete(logbook: Logbook) -> str:
    return logbook.people.add(AthleteDetails(CODE, injured=Sides.RIGHT))


def told(logbook: Logbook, **asked: object) -> ReportFacts:
    now = datetime(2026, 9, 14, 12, tzinfo=UTC)
    return Reports(logbook, clock=lambda: now).of(CODE, **asked)  # type: ignore[arg-type]  # as they are


def keep_test(
    logbook: Logbook,
    athlete: str,
    sides: Sides,
    force_n: float,
    at: datetime,
    *,
    visit: str = "",
    task: Task = PULL,
    definition: Definition = Definition.PEAK,
    **known_n: Any,
) -> None:
    known = known_n or {"peak_n": force_n}
    if visit:
        header = {
            "set_id": f"{visit}-{sides.value}-set",
            "session_id": visit,
            "athlete_code": CODE,
            "started_utc": at.isoformat(),
            "prescription": invented.asked().to_json(),
            "profile": invented.PROFILE.to_json(),
        }
        logbook.enter_recording(header, f"{visit}-{sides.value}.force")
    logbook.maxima.add(
        NewMaximalTest(
            athlete, task.on_side(sides), at, definition, force_n, 3,
            session_id=visit, **known,
        )
    )  # fmt: skip


def on(day: int, hour: int = 10, month: int = 5) -> datetime:
    return datetime(2026, month, day, hour, tzinfo=UTC)


# Days.


@pytest.fixture
def in_madrid() -> Iterator[None]:
    """The machine's zone: UTC+1 in winter, UTC+2 in summer."""
    before = os.environ.get("TZ")
    os.environ["TZ"] = "Europe/Madrid"
    time.tzset()
    yield
    os.environ.pop("TZ")
    if before is not None:
        os.environ["TZ"] = before
    time.tzset()


@pytest.mark.usefixtures("in_madrid")
@pytest.mark.skipif(not hasattr(time, "tzset"), reason="the zone cannot be set here")
def test_a_day_is_told_with_the_offset_of_that_day() -> None:
    """Half past ten in the evening, UTC: in summer after midnight, in winter before.

    Held against the zone's table, whatever the season in which the test is run.
    """
    local, zone = LocalTime(), ZoneInfo("Europe/Madrid")
    for month, day in ((7, date(2026, 7, 2)), (1, date(2026, 1, 1))):
        at = datetime(2026, month, 1, 22, 30, tzinfo=UTC)
        assert local.day(at) == at.astimezone(zone).date() == day
        begun = local.midnight(day)
        assert begun == datetime(2026, month, day.day, tzinfo=zone)
    # The night in which the clock goes forward is an hour shorter.
    short = local.period(date(2026, 3, 29), date(2026, 3, 29))
    assert short.until_utc - short.since_utc == timedelta(hours=23)


def test_another_clock_has_the_zone_that_it_carries() -> None:
    zone = ZoneInfo("America/St_Johns")
    local = LocalTime(lambda: datetime(2026, 12, 1, tzinfo=zone))
    at = datetime(2026, 7, 1, 2, 31, tzinfo=UTC)  # UTC−2:30 in summer
    assert local.day(at) == date(2026, 7, 1)
    assert local.day(at - timedelta(minutes=2)) == date(2026, 6, 30)


# Plans.


def test_a_report_on_a_past_period_tells_the_stage_of_its_end(
    logbook: Logbook, athlete: str
) -> None:
    plan = logbook.plans.add(athlete, TENDON, at_utc=on(1, month=3))
    logbook.plans.move(plan, 1, "Calm.", at_utc=on(1, month=5))
    logbook.plans.move(plan, 2, "Strong.", at_utc=on(1, month=7))
    other = logbook.plans.add(athlete, SHOULDER, at_utc=on(1, month=8))

    def stage(until: date) -> tuple[str, int, date | None]:
        place = told(logbook, since=date(2026, 1, 1), until=until).plan
        assert place is not None
        return place.name, place.stage, place.since

    assert stage(date(2026, 4, 30)) == (TENDON.name, 1, date(2026, 3, 1))
    assert stage(date(2026, 6, 30)) == (TENDON.name, 2, date(2026, 5, 1))
    assert stage(date(2026, 7, 1)) == (TENDON.name, 3, date(2026, 7, 1))
    assert stage(date(2026, 9, 13)) == (SHOULDER.name, 1, date(2026, 8, 1))
    assert stage(date(2026, 9, 14)) == (SHOULDER.name, 1, date(2026, 8, 1))
    logbook.plans.archive(other)
    facts = told(logbook, since=date(2026, 1, 1), until=date(2026, 4, 30))
    assert [move.new for move in facts.moves] == [TENDON.stages[0].name]
    before = told(logbook, since=date(2026, 1, 1), until=date(2026, 2, 1))
    assert (before.plan, before.moves) == (None, ())


# Like beside like.


def test_one_chart_has_one_definition(logbook: Logbook, athlete: str) -> None:
    """The left side has peaks only, the right its newest by a mean: two charts.

    Once the left has a mean as well, both stand by that in one chart.
    """
    keep_test(logbook, athlete, Sides.LEFT, 300.0, on(1))
    mean = Definition.BEST_1_S_MEAN
    keep_test(
        logbook, athlete, Sides.RIGHT, 380.0, on(2), definition=mean, one_s_n=380.0
    )  # fmt: skip
    facts = told(logbook)
    charts = charts_of_tests(facts.trends, ())
    assert [chart.title.rpartition(", ")[2] for chart in charts] == [
        "peak", "best 1 s mean",
    ]  # fmt: skip
    assert [len(chart.series) for chart in charts] == [1, 1]
    assert facts.symmetry == ()
    keep_test(logbook, athlete, Sides.LEFT, 310.0, on(3), peak_n=310.0, one_s_n=290.0)
    (chart,) = charts_of_tests(told(logbook).trends, ())
    assert chart.title.endswith(", best 1 s mean")
    values = [[point.value for point in one.points] for one in chart.series]
    assert values == [[290.0], [380.0]]


def test_two_positions_are_two_charts_and_no_symmetry(
    logbook: Logbook, athlete: str
) -> None:
    for sides, angle_deg in ((Sides.LEFT, 60.0), (Sides.RIGHT, 90.0)):
        bent = Task("Invented pull", setup=Setup(angle_deg=angle_deg), key=PULL.key)
        keep_test(logbook, athlete, sides, 300.0, on(1), task=bent)
    facts = told(logbook)
    assert len(charts_of_tests(facts.trends, ())) == 2
    assert (facts.symmetry, facts.shares) == ((), ())


def test_two_visits_of_one_day_are_paired_each_with_its_own(
    logbook: Logbook, athlete: str
) -> None:
    """Morning 300/400, evening 380/400: 25 % and 5 %, and not twice the evening's."""
    for visit, hour, left_n in (("am", 8, 300.0), ("pm", 18, 380.0)):
        keep_test(logbook, athlete, Sides.LEFT, left_n, on(1, hour), visit=visit)
        keep_test(logbook, athlete, Sides.RIGHT, 400.0, on(1, hour), visit=visit)
    (symmetry,) = told(logbook).symmetry
    assert [one.value_pct for one in symmetry.points] == pytest.approx([25.0, 5.0])
    (share,) = told(logbook).shares
    assert [one.value_pct for one in share.points] == pytest.approx(
        [100 * 400 / 300, 100 * 400 / 380]
    )


def test_sides_in_visits_of_their_own_are_paired_only_where_it_is_clear(
    logbook: Logbook, athlete: str
) -> None:
    for visit, sides, day, force_n in (
        ("a", Sides.LEFT, 1, 300.0),
        ("b", Sides.RIGHT, 1, 400.0),  # the only two of that day
        ("c", Sides.LEFT, 2, 310.0),
        ("d", Sides.LEFT, 2, 330.0),
        ("e", Sides.RIGHT, 2, 400.0),  # to which of them?
    ):
        keep_test(logbook, athlete, sides, force_n, on(day), visit=visit)
    (symmetry,) = told(logbook).symmetry
    assert [one.value_pct for one in symmetry.points] == pytest.approx([25.0])


def test_two_tasks_of_one_name_are_two_and_a_new_name_is_the_same_task(
    logbook: Logbook, athlete: str
) -> None:
    other = Task("Invented pull", key="01900000-0000-7000-8000-00000000bbbb")
    named = Task("Invented pull, seated", key=PULL.key)
    for task, day, left_n in ((PULL, 1, 300.0), (other, 2, 200.0), (named, 3, 360.0)):
        keep_test(logbook, athlete, Sides.LEFT, left_n, on(day), task=task)
        keep_test(logbook, athlete, Sides.RIGHT, 400.0, on(day), task=task)
    facts = told(logbook)
    values = {
        one.key: (one.task, [round(at.value_pct, 6) for at in one.points])
        for one in facts.symmetry
    }
    assert values == {
        PULL.key: ("Invented pull, seated", [25.0, 10.0]),
        other.key: ("Invented pull", [50.0]),
    }
    alone = told(logbook, task="Invented pull, seated")
    assert {one.key for one in alone.trends} == {PULL.key}
    assert [len(one.results) for one in alone.trends] == [2, 2]


# Shares and weeks.


def test_shares_of_the_other_side_and_of_before_have_their_noise(
    logbook: Logbook, athlete: str
) -> None:
    """The injured right side; each side's error by neighbours, by logarithms."""
    left = [400.0, 412.0, 396.0, 408.0, 402.0, 398.0]
    right = [300.0, 330.0, 325.0, 350.0, 345.0, 370.0]
    logbook.maxima.add_stated(
        athlete, PULL.on_side(Sides.RIGHT), 420.0, origin=Origin.BEFORE_INJURY,
        on_date="2025-11-03", definition=Definition.PEAK,
    )  # fmt: skip
    for day, pair in enumerate(zip(left, right, strict=True), start=1):
        for sides, force_n in zip((Sides.LEFT, Sides.RIGHT), pair, strict=True):
            keep_test(logbook, athlete, sides, force_n, on(day))
    of_other, of_before = told(logbook).shares

    def error(forces_n: list[float]) -> float:
        logs = [math.log(one) for one in forces_n]
        steps = [(b - a) ** 2 for a, b in itertools.pairwise(logs)]
        return math.sqrt(sum(steps) / (2 * len(steps)))

    chart = share_chart(of_other)
    assert [point.value for point in chart.series[0].points] == pytest.approx(
        [100 * b / a for a, b in zip(left, right, strict=True)]
    )
    factor = math.exp(1.96 * math.sqrt(2) * math.hypot(error(left), error(right)))
    (band,) = chart.noise
    assert (band.lower, band.upper) == pytest.approx((75 / factor, 75 * factor))
    assert "1.96 √2 √(e₁² + e₂²)" in band.words
    assert chart.title == "Invented pull: right in % of left, peak"
    chart = share_chart(of_before)
    assert chart.series[0].points[-1].value == pytest.approx(100 * 370 / 420)
    (band,) = chart.noise
    assert band.upper / (100 * 300 / 420) == pytest.approx(
        math.exp(1.96 * math.sqrt(2) * error(right))
    )


def test_a_share_says_where_it_cannot_tell(logbook: Logbook, athlete: str) -> None:
    for day in (1, 2):
        keep_test(logbook, athlete, Sides.LEFT, 300.0 + day, on(day))
        keep_test(logbook, athlete, Sides.RIGHT, 400.0, on(day))
    (share,) = told(logbook).shares
    chart = share_chart(share)
    assert chart.noise == ()
    assert any("Cannot tell yet" in one for one in chart.remarks)


def test_a_force_before_the_injury_by_another_definition_is_not_compared(
    logbook: Logbook, athlete: str
) -> None:
    logbook.maxima.add_stated(
        athlete, PULL, 420.0, origin=Origin.BEFORE_INJURY,
        on_date="2025-11-03", definition=Definition.BEST_1_S_MEAN,
    )  # fmt: skip
    keep_test(logbook, athlete, Sides.LEFT, 300.0, on(1))
    facts = told(logbook)
    assert facts.shares == ()
    (chart,) = charts_of_tests(facts.trends, ())
    assert chart.levels == ()
    assert any("another definition" in one for one in chart.remarks)


def test_adherence_is_told_in_four_amounts_week_by_week(tmp_path: Path) -> None:
    """Each fourth day a set of 5 × 45 s at 70 %: one or two visits a week."""
    with Logbook.open(tmp_path / "months.db") as months:
        invented.fill(months, visits=9, every_days=11)
        facts = Reports(months, clock=lambda: invented.NOW).of(invented.CODE)
    visits: dict[date, list[int]] = {}
    for number in range(9):
        day = (invented.FIRST + timedelta(days=11 * number)).date()
        visits.setdefault(day - timedelta(days=day.weekday()), []).append(number)
    charts = {chart.unit: chart for chart in adherence_charts(facts)}
    assert list(charts) == ["sets", "reps", "s", "%·s"]
    complete = {
        monday: float(sum(5 - (number % 3 == 0) for number in numbers))
        for monday, numbers in visits.items()
    }
    for unit, planned, done in (
        ("sets", 1.0, None),
        ("reps", 5.0, complete),
        ("s", 5 * 45.0, None),
        ("%·s", 70 * 5 * 45.0, None),
    ):
        asked, had = charts[unit].series
        assert {point.day: point.value for point in asked.points} == pytest.approx(
            {monday: planned * len(numbers) for monday, numbers in visits.items()}
        )
        assert [point.day for point in had.points] == list(visits)
        if done is not None:
            assert {point.day: point.value for point in had.points} == done
    whole = (max(visits) - min(visits)).days // 7 + 1
    assert len(visits) < whole  # weeks without a visit, which have no point


# The same noise everywhere, and pain.


def test_the_page_of_a_test_and_the_report_have_the_same_noise(
    logbook: Logbook, athlete: str
) -> None:
    """A gain of 10 N a visit: about the mean its spread would be over 20 N."""
    forces_n = [300.0 + 10 * day + (-1) ** day * 2 for day in range(1, 9)]
    for day, force_n in enumerate(forces_n, start=1):
        keep_test(logbook, athlete, Sides.LEFT, force_n, on(day))
    force = Force(400.0)
    result = MaximalResult(Definition.PEAK, force, 1, 3, None, None, None, agreed=True)
    meaning = meaning_of(logbook.maxima, result, athlete_id=athlete, task=PULL)
    (trend,) = told(logbook).trends
    assert meaning.noise == trend.noise
    assert meaning.noise is not None
    steps = [(b - a) ** 2 for a, b in itertools.pairwise(forces_n)]
    assert meaning.noise.typical_error_n == pytest.approx(
        math.sqrt(sum(steps) / (2 * len(steps)))
    )
    assert meaning.last_n == forces_n[-1]


@pytest.mark.usefixtures("athlete")
def test_a_hold_that_was_let_go_in_pain_is_no_hold_to_failure(
    logbook: Logbook,
) -> None:
    asked = replace(invented.asked(), hold_s=600.0, reps=1)
    for day, time_s in enumerate((60.0, 90.0, 150.0, 300.0), start=1):
        set_id = f"set-{day}"
        header = {
            "set_id": set_id,
            "session_id": f"visit-{day}",
            "athlete_code": CODE,
            "started_utc": on(day).isoformat(),
            "prescription": asked.to_json(),
            "profile": invented.PROFILE.to_json(),
        }
        logbook.enter_recording(header, f"{set_id}.force")
        rep = {
            "number": 1, "outcome": "short", "feedback": "full", "start_s": 1.0,
            "end_s": 1.0 + time_s, "inside_s": time_s, "peak_n": 230.0,
            "impulse_ns": 100 * time_s + 4000,
        }  # fmt: skip
        logbook.add_rep(set_id, rep)
        if day in {1, 2}:  # above the agreed cut of 5, and at it
            logbook.session_notes.add(
                f"visit-{day}", PAIN, {"level": 7 - day, "when": "after"},
                set_id=set_id, at_utc=on(day),
            )  # fmt: skip
    (trend,) = told(logbook).training
    assert [one.time_s for one in trend.failed] == [90.0, 150.0, 300.0]
    assert trend.failure is not None
    assert trend.failure.force_n == pytest.approx(100.0)


@pytest.mark.usefixtures("athlete")
def test_training_by_the_test_of_another_athlete_is_told_as_such(
    logbook: Logbook,
) -> None:
    """Two visits by the own test and one by that of somebody else, of the same task."""
    here = logbook.athlete_by_code(CODE)
    assert here is not None
    other = logbook.people.add(AthleteDetails("INV-4"))
    asked = invented.asked()
    references = []
    for whose, force_n in ((here.id, 240.0), (other, 300.0)):
        keep_test(logbook, whose, asked.task.sides, force_n, on(1), task=asked.task)
        (test,) = logbook.maxima.tests(whose, asked.task)
        references.append(test.reference())
    own, foreign = references
    for day, reference in ((2, own), (3, foreign), (4, own)):
        header = {
            "set_id": f"set-{day}",
            "session_id": f"visit-{day}",
            "athlete_code": CODE,
            "started_utc": on(day).isoformat(),
            "prescription": replace(asked, reference=reference).to_json(),
            "profile": invented.PROFILE.to_json(),
        }
        logbook.enter_recording(header, f"set-{day}.force")
        rep = {
            "number": 1, "outcome": "complete", "feedback": "full", "start_s": 1.0,
            "end_s": 12.0, "inside_s": 10.0, "mean_n": 120.0,
        }  # fmt: skip
        logbook.add_rep(f"set-{day}", rep)
    kept, lent = told(logbook).training
    assert [one.day.day for one in kept.points] == [2, 4]
    assert [one.held_pct for one in kept.points] == [pytest.approx(50.0)] * 2
    assert [one.day.day for one in lent.points] == [3]
    kinds = [kept.kind, lent.kind]
    assert "another athlete" in str(kind_words(lent.kind, kinds))
    assert "another athlete" not in str(kind_words(kept.kind, kinds))


def test_practice_alone_is_told_as_kept_and_as_no_result(
    logbook: Logbook, athlete: str
) -> None:
    """One test of the first visit; the page and the report tell the same of it."""
    mean = Definition.BEST_1_S_MEAN
    logbook.maxima.add(
        NewMaximalTest(
            athlete, PULL, on(1), mean, 132.7, 3, one_s_n=132.7, practice=True
        )
    )
    facts = told(logbook)
    (chart,) = charts_of_tests(facts.trends, ())
    told_words = (
        "left: 1 test is kept, 132.7 N on 2026-05-01. It is of the first visit with "
        "this task: practice, left out of charts and noise. A test of a later visit "
        "counts."
    )
    assert chart.empty
    assert [str(one) for one in chart.remarks] == [told_words]
    assert "Nothing to show yet" not in str(description(chart))
    words = [
        str(line)
        for part in sheet(facts).parts
        if isinstance(part, Bullets)
        for line in part.lines
    ]
    assert f"Invented pull, {told_words}" in words
    # Once one counts, what is left out is told among what is not known, as before.
    keep_test(
        logbook, athlete, Sides.LEFT, 140.0, on(8), definition=mean, one_s_n=140.0
    )
    (chart,) = charts_of_tests(told(logbook).trends, ())
    assert [str(one) for one in chart.remarks] == [
        "left: cannot tell yet what is noise; it takes three visits with a test that "
        "counts, so far 1."
    ]
