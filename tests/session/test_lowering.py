"""Lowering reps on the simulated rig, saved, replayed and held against a test.

The athlete is invented. The session is stepped by hand.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from functools import cache
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FieldError
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.logbook.rows import NewSet
from biofeedback.measures.eccentric_check import CheckSettings, MassLine, Part, Reading
from biofeedback.rig.effort import Traits
from biofeedback.rig.simulated_athlete import SimulatedAthlete
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.rig.simulated_source import SimulatedSource
from biofeedback.session import Measured, Session, SetEnded
from biofeedback.session.lowering import (
    EccentricChecks,
    Floor,
    PairMissing,
    default_floor,
    line_after,
)
from biofeedback.session.replay import replay
from biofeedback.training.athlete import BodyMass
from biofeedback.training.lowering import Told, lowering_prescription
from biofeedback.training.prescription import BandOn
from biofeedback.training.reference import Definition, Origin
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

STEP_US = 50_000
PAIR = Task("Hamstring hold at 60 degrees (invented)", key="task-hold")
TASK = Task("Slow hamstring lowering (invented)", TaskKind.LOWERING, pair=PAIR.key)
ASKED = lowering_prescription(TASK, floor_n=120.0, tempo_s=4.0, reps=4, rest_s=2.0)
EAST = timezone(timedelta(hours=10))
NOW = datetime(2026, 3, 9, 8, 0, tzinfo=EAST)  # still the 8th in UTC


@pytest.fixture
def logbook(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


def done(
    folder: Path, logbook: Logbook | None, *, traits: Traits, rate_hz: float = 80.0
) -> list[Mapping[str, object]]:
    """The numbers of a whole lowering set."""
    athlete = SimulatedAthlete(11, traits)
    rig = SimulatedRig(RigSettings(rate_hz=rate_hz), seed=11, force=athlete)
    session = Session(
        SimulatedSource(rig, athlete=athlete, step_us=STEP_US),
        logbook=logbook,
        recordings=folder,
        athlete_code="INV-5",
    )
    found: list[Mapping[str, object]] = []
    try:
        for step in range(4000):
            if step == 20:
                session.begin_set(ASKED)
            session.step()
            events = session.take().events
            found += [event.rep for event in events if isinstance(event, Measured)]
            if any(isinstance(event, SetEnded) for event in events):
                return found
    finally:
        session.close()
    pytest.fail("the set did not end")


BRAKED = Traits()
HALF_DROPPED = Traits(drops_every=2)


@pytest.mark.parametrize("rate_hz", [80.0, 1000.0])
def test_slow_lowerings_are_told_from_falls(tmp_path: Path, rate_hz: float) -> None:
    reps = done(tmp_path, None, traits=HALF_DROPPED, rate_hz=rate_hz)
    lines = [line_after(rep, ASKED) for rep in reps]
    told = [line.told for line in lines if line is not None]
    assert told == [Told.KEPT, Told.DROPPED, Told.KEPT, Told.DROPPED]
    first = lines[0]
    assert first is not None
    assert first.rep.tempo_s == 4.0
    assert first.rep.floor_n == 120.0
    assert first.rep.peak_after_s is not None
    assert first.rep.peak_after_s > 2.5
    assert first.rep.left_share_pct == pytest.approx(52.0, abs=5.0)


def test_the_numbers_are_saved_and_replayed_alike(
    tmp_path: Path, logbook: Logbook
) -> None:
    folder = tmp_path / "recordings"
    reps = done(folder, logbook, traits=BRAKED)
    athlete = logbook.athlete_by_code("INV-5")
    assert athlete is not None
    rows = logbook.lowerings.reps(athlete.id)
    assert [row.number for row in rows] == [4, 3, 2, 1]
    assert [row.measures for row in reversed(rows)] == reps
    assert rows[0].task.pair in {PAIR.key, PAIR.name}
    assert rows[0].asked == ASKED
    (path,) = folder.iterdir()
    replayed = replay(path)
    assert replayed.agrees is True
    assert [rep["break_after_s"] for rep in replayed.reps] == [
        rep["break_after_s"] for rep in reps
    ]
    assert all(rep["break_after_s"] is not None for rep in reps)


def test_of_a_hold_no_line_is_told() -> None:
    assert line_after({"number": 1, "outcome": "complete"}, ASKED) is None


@cache
def measures(peak_n: float, *, left_pct: float | None = 50.0) -> dict[str, object]:
    share = None if left_pct is None else left_pct / 100
    return {
        "number": 1,
        "outcome": "complete",
        "feedback": "full",
        "start_s": 1.0,
        "end_s": 6.0,
        "gaps": 0,
        "band_lower_n": 120.0,
        "asked_hold_s": 4.0,
        "time_to_enter_s": 0.4,
        "lowering_peak_n": peak_n,
        "lowering_peak_after_s": 3.0,
        "above_floor_s": 4.2,
        "above_floor_ns": 90.0,
        "break_after_s": 4.4,
        "break_force_n": 0.9 * peak_n,
        "fall_n_per_s": 500.0,
        "left_at_peak_n": None if share is None else share * peak_n,
        "right_at_peak_n": None if share is None else (1 - share) * peak_n,
    }


class Book:
    """A logbook with an athlete, filled by hand."""

    def __init__(self, logbook: Logbook) -> None:
        self.logbook = logbook
        self.athlete_id = logbook.add_athlete("INV-6")
        self.checks = EccentricChecks(logbook)

    def lowered(
        self,
        peak_n: float,
        when: datetime,
        *,
        task: Task = TASK,
        left_pct: float | None = 50.0,
        session_id: str = "",
    ) -> str:
        session_id = session_id or self.logbook.begin_session(self.athlete_id)
        asked = replace(ASKED, task=task)
        set_id = self.logbook.begin_set(
            NewSet(session_id, asked.to_json(), {}, "x.force", when.astimezone(UTC))
        )
        return self.logbook.add_rep(set_id, measures(peak_n, left_pct=left_pct))

    def tested(self, peak_n: float, when: datetime, **changes: object) -> str:
        new = NewMaximalTest(
            athlete_id=self.athlete_id,
            task=PAIR,
            tested_utc=when.astimezone(UTC),
            definition=Definition.PEAK,
            force_n=peak_n,
            trials=3,
            peak_n=peak_n,
            left_n=0.5 * peak_n,
            right_n=0.5 * peak_n,
        )
        return self.logbook.maxima.add(replace(new, **changes))  # type: ignore[arg-type]


@pytest.fixture
def book(logbook: Logbook) -> Book:
    return Book(logbook)


DAY = timedelta(days=1)


# The floor -------------------------------------------------------------------


def floor(book: Book, task: Task = TASK, **changes: float) -> Floor:
    found = default_floor(book.logbook, book.athlete_id, task, now=NOW, **changes)
    assert isinstance(found, Floor)
    return found


def test_the_floor_is_the_best_isometric_peak_of_the_day(book: Book) -> None:
    book.tested(300.0, NOW - 3 * DAY)
    best = book.tested(260.0, NOW - timedelta(hours=3))
    book.tested(240.0, NOW - timedelta(hours=1))
    found = floor(book)
    assert found.same_day
    assert found.age_days == 0
    assert found.reference.force_n == 260.0
    assert found.reference.source == best
    assert found.reference.origin is Origin.OTHER_TASK
    assert found.reference.definition is Definition.PEAK
    assert found.reference.date == "2026-03-09"
    assert found.force_n(BandOn.TOTAL) == 260.0
    assert found.force_n(BandOn.EACH_SIDE) == 130.0
    assert floor(book, pct=80.0).force_n(BandOn.TOTAL) == 208.0


def test_without_one_of_today_it_is_the_latest_and_says_how_old(book: Book) -> None:
    book.tested(300.0, NOW - 9 * DAY)
    # Late in the evening before, which in UTC is the same day as now.
    book.tested(280.0, datetime(2026, 3, 8, 22, 0, tzinfo=EAST), pain=4, practice=True)
    found = floor(book)
    assert not found.same_day
    assert found.age_days == 1
    assert found.reference.force_n == 280.0
    assert found.reference.date == "2026-03-08"
    assert found.reference.pain == 4
    assert found.reference.practice


def test_the_floor_is_of_the_peak_whatever_the_hundred_percent_was(book: Book) -> None:
    book.tested(
        300.0, NOW, definition=Definition.BEST_1_S_MEAN, force_n=270.0, one_s_n=270.0
    )
    assert floor(book).reference.force_n == 300.0


def test_what_is_missing_for_a_floor_is_said(book: Book) -> None:
    def found(task: Task) -> Floor | PairMissing:
        return default_floor(book.logbook, book.athlete_id, task, now=NOW)

    assert found(replace(TASK, pair="")) is PairMissing.NO_PAIR
    assert found(TASK) is PairMissing.NOT_TESTED
    book.tested(300.0, NOW, task=replace(PAIR, sides=Sides.LEFT))
    assert found(TASK) is PairMissing.NOT_TESTED  # one side is not both
    assert isinstance(found(TASK.on_side(Sides.LEFT)), Floor)
    voided = book.tested(300.0, NOW)
    book.logbook.maxima.void(voided, "the strap slipped")
    assert found(TASK) is PairMissing.NOT_TESTED
    with pytest.raises(FieldError, match="floor_pct"):
        default_floor(book.logbook, book.athlete_id, TASK, now=NOW, pct=0.5)


def test_the_partner_may_be_named(book: Book) -> None:
    book.tested(300.0, NOW, task=replace(PAIR, key=""))
    assert floor(book, replace(TASK, pair=PAIR.name)).reference.force_n == 300.0


# The check -------------------------------------------------------------------


def test_the_best_lowering_of_the_day_is_held_against_the_same_days_test(
    book: Book,
) -> None:
    book.tested(900.0, NOW - DAY)
    book.tested(300.0, NOW)
    book.lowered(250.0, NOW)
    best = book.lowered(270.0, NOW + timedelta(hours=1), left_pct=60.0)
    book.lowered(265.0, NOW + timedelta(hours=2))
    void = book.lowered(400.0, NOW + timedelta(hours=3))
    book.logbook.void_rep(void, "pushed with the hands")
    book.lowered(500.0, NOW - timedelta(hours=9))  # the evening before
    people = book.logbook.people
    people.add_mass(book.athlete_id, BodyMass(75.0, "2026-03-02"))
    people.add_mass(book.athlete_id, BodyMass(70.0, "2026-03-10"))  # later
    (found,) = book.checks.of_day(book.athlete_id, NOW.date(), now=NOW)
    assert found.missing is None
    assert found.eccentric.id == best
    assert found.line is not None
    assert found.line.told is Told.KEPT
    assert found.check is not None
    assert found.check.days_apart == 0
    total, left, right = found.check.parts
    assert total.part is Part.TOTAL
    assert (total.isometric_n, total.eccentric_n) == (300.0, 270.0)
    assert left.isometric_n == 150.0
    assert left.eccentric_n == pytest.approx(162.0)
    assert right.eccentric_n == pytest.approx(108.0)
    assert total.isometric_n_per_kg == pytest.approx(4.0)
    assert found.check.readings == tuple(Reading)
    assert total.noise_n is None  # too few visits


def test_the_nearest_day_goes_first_and_too_far_is_said(book: Book) -> None:
    book.lowered(310.0, NOW)
    book.tested(290.0, NOW - 2 * DAY)
    book.tested(295.0, NOW + 2 * DAY)  # as near, but after
    book.tested(200.0, NOW - 5 * DAY)

    def check() -> tuple[float, int, bool]:
        (found,) = book.checks.of_day(book.athlete_id, NOW.date(), now=NOW)
        assert found.check is not None
        one = found.check
        return one.parts[0].isometric_n, one.days_apart, one.too_far_apart

    assert check() == (290.0, 2, True)
    book.checks.set(CheckSettings(within_days=2))
    assert check() == (290.0, 2, False)
    book.tested(270.0, NOW + DAY)
    assert check() == (270.0, 1, False)


def test_each_task_and_side_of_the_day_has_a_check_of_its_own(book: Book) -> None:
    left = TASK.on_side(Sides.LEFT)
    alone = replace(TASK, name="Another lowering (invented)", pair="")
    book.lowered(150.0, NOW, task=left, left_pct=None)
    book.lowered(300.0, NOW + timedelta(hours=1))
    book.lowered(200.0, NOW + timedelta(hours=2), task=alone)
    book.tested(140.0, NOW, task=PAIR.on_side(Sides.LEFT), left_n=None, right_n=None)
    found = book.checks.of_day(book.athlete_id, NOW.date(), now=NOW)
    assert [one.missing for one in found] == [
        PairMissing.NO_PAIR,
        PairMissing.NOT_TESTED,
        None,
    ]
    check = found[2].check
    assert check is not None
    assert [part.part for part in check.parts] == [Part.TOTAL]
    assert check.readings == ()
    other = book.checks.of_day(book.athlete_id, NOW.date() - DAY, now=NOW)
    assert other == ()


def test_sides_of_a_test_by_another_definition_are_those_of_its_peak(
    book: Book,
) -> None:
    book.lowered(310.0, NOW)
    peak = {"total_n": 300.0, "left_n": 130.0, "right_n": 170.0}
    book.tested(
        300.0,
        NOW,
        definition=Definition.BEST_1_S_MEAN,
        force_n=270.0,
        one_s_n=270.0,
        left_n=135.0,
        right_n=135.0,
        content={"trials": [{"peak": None}, {"peak": peak}]},
    )
    (found,) = book.checks.of_day(book.athlete_id, NOW.date(), now=NOW)
    assert found.check is not None
    assert [part.isometric_n for part in found.check.parts] == [300.0, 130.0, 170.0]


def test_the_noise_of_both_tests_is_told_once_it_is_known(book: Book) -> None:
    session = book.logbook.begin_session
    for days, isometric_n, eccentric_n in ((9, 300.0, 330.0), (5, 310.0, 320.0)):
        when = NOW - days * DAY
        book.tested(isometric_n, when, session_id=session(book.athlete_id))
        book.lowered(eccentric_n, when)
    book.tested(305.0, NOW, session_id=session(book.athlete_id))
    visit = session(book.athlete_id)
    book.lowered(310.0, NOW, session_id=visit)
    book.lowered(250.0, NOW + timedelta(minutes=5), session_id=visit)
    (found,) = book.checks.of_day(book.athlete_id, NOW.date(), now=NOW)
    assert found.check is not None
    # Standard deviations of (300, 310, 305) and (330, 320, 310): 5 and 10. The
    # lesser rep of this visit is no result of its own.
    noise_n = found.check.parts[0].noise_n
    assert noise_n == pytest.approx(1.96 * (5**2 + 10**2) ** 0.5)
    assert found.check.parts[0].within_noise is True
    assert found.check.parts[1].noise_n is None


def test_a_test_in_another_position_is_no_part_of_the_noise(book: Book) -> None:
    session = book.logbook.begin_session
    elsewhere = replace(PAIR, setup=Setup(Joint.KNEE, angle_deg=30.0))
    here = replace(PAIR, setup=Setup(Joint.KNEE, angle_deg=60.0))
    for days in (9, 5):
        book.tested(
            200.0 + 20 * days,
            NOW - days * DAY,
            task=elsewhere,
            session_id=session(book.athlete_id),
        )
        book.lowered(300.0 + days, NOW - days * DAY)
    book.tested(305.0, NOW, task=here, session_id=session(book.athlete_id))
    book.lowered(310.0, NOW)
    (found,) = book.checks.of_day(book.athlete_id, NOW.date(), now=NOW)
    assert found.check is not None
    assert found.check.parts[0].noise_n is None


def test_what_was_set_is_kept_and_what_cannot_be_read_is_the_start(book: Book) -> None:
    assert book.checks.settings() == CheckSettings()
    ours = CheckSettings(within_days=3, lines=(MassLine("ours", 500.0, "our own"),))
    book.checks.set(ours)
    assert EccentricChecks(book.logbook).settings() == ours
    book.logbook.settings.put("eccentric check", {"within_days": "many"})
    assert book.checks.settings() == CheckSettings()
