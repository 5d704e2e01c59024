"""A logbook of an invented athlete over months: visits, tests, pain, changes, a plan.

All figures follow from the arguments alone, so that a test can work them out again.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

from biofeedback.conditioning.profile import (
    Calibration,
    Channel,
    RigProfile,
    Side,
    Zero,
    ZeroKind,
)
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.logbook.session_notes import CHANGE, PAIN
from biofeedback.training.athlete import AthleteDetails
from biofeedback.training.band import Band
from biofeedback.training.day import DayReport
from biofeedback.training.example_plans import TENDON
from biofeedback.training.prescription import Prescription
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind

if TYPE_CHECKING:
    from biofeedback.logbook.database import Logbook

CODE = "INV-1"
NAME = "Ödil Invented"
FIRST = datetime(2026, 3, 2, 10, tzinfo=UTC)
"""A Monday."""
NOW = datetime(2026, 9, 14, 12, tzinfo=UTC)
KNEE = Task(
    "Seated knee extension",
    TaskKind.HOLD,
    Sides.LEFT,
    Setup(Joint.KNEE, "extension", 60.0, "pad on the shin", 0.34, "sitting"),
    key="01900000-0000-7000-8000-000000000001",
)
CALF = Task(
    "Seated calf",
    TaskKind.HOLD,
    Sides.BOTH,
    key="01900000-0000-7000-8000-000000000002",
)
PROFILE = RigProfile(
    "Bench rig",
    (
        Channel(
            "left cell",
            Side.LEFT,
            Calibration(
                (0.0, 0.001), "May", "2026-02-20", uncertainty=((50.0, 0.4), (900, 2.1))
            ),
            1000.0,
        ),
        Channel("right cell", Side.RIGHT, Calibration((0.0, 0.001)), 1000.0),
    ),
    80.0,
    replace(Zero.none(2), kind=ZeroKind.LIMB_RESTING),
    serial_number="SN-17",
)
REFERENCE_N = 300.0
REPS = 5
HOLD_S = 45.0
DOSE_PCT_S = 3240.0


def asked(task: Task = KNEE) -> Prescription:
    """5 × 45 s at 70 % of 300 N."""
    return Prescription(
        task=task,
        band=Band(200.0, 220.0),
        hold_s=HOLD_S,
        reps=REPS,
        reference=Reference(
            REFERENCE_N, Origin.OWN_SIDE, Definition.BEST_1_S_MEAN, "2026-03-02"
        ),
    )


def fill(
    logbook: Logbook, *, visits: int = 40, every_days: int = 4, tests_every: int = 4
) -> str:
    """Enters the athlete and returns the key.

    Of each visit there is one set of five reps, the last of which is short in each
    third visit; pain is told before it in all but each fifth; the band is nudged in
    each tenth.
    """
    athlete_id = logbook.people.add(
        AthleteDetails(CODE, NAME, injured=Sides.LEFT, notes="Invented.")
    )
    plan = logbook.plans.add(athlete_id, TENDON, at_utc=FIRST)
    logbook.plans.move(plan, 1, "Pain stayed low.", at_utc=FIRST + timedelta(days=40))
    logbook.maxima.add_stated(
        athlete_id,
        KNEE,
        415.0,
        origin=Origin.BEFORE_INJURY,
        on_date="2025-11-03",
        definition=Definition.BEST_1_S_MEAN,
    )
    for number in range(visits):
        at = FIRST + timedelta(days=every_days * number)
        if number % tests_every == 0:
            _tests(logbook, athlete_id, at, number // tests_every)
        _visit(logbook, athlete_id, at + timedelta(hours=1), number)
    return athlete_id


def left_n(number: int) -> float:
    return 280.0 + 9.0 * number + (6.0 if number % 2 else -4.0)


def right_n(number: int) -> float:
    return 410.0 + 2.0 * number + (-7.0 if number % 2 else 5.0)


def calf_shares_n(number: int) -> tuple[float, float]:
    return 100.0 + 2.0 * number + (2.0 if number % 2 else 0.0), 112.0 + 1.5 * number


def _tests(logbook: Logbook, athlete_id: str, at: datetime, number: int) -> None:
    for sides, force_n in (
        (Sides.LEFT, left_n(number)),
        (Sides.RIGHT, right_n(number)),
    ):
        logbook.maxima.add(
            NewMaximalTest(
                athlete_id,
                KNEE.on_side(sides),
                at,
                Definition.BEST_1_S_MEAN,
                force_n,
                3,
                one_s_n=force_n,
                peak_n=force_n * 1.05,
                practice=number == 0,
            )
        )
    left, right = calf_shares_n(number)
    logbook.maxima.add(
        NewMaximalTest(
            athlete_id,
            CALF,
            at,
            Definition.PEAK,
            left + right,
            3,
            peak_n=left + right,
            left_n=left,
            right_n=right,
        )
    )


def _visit(logbook: Logbook, athlete_id: str, at: datetime, number: int) -> None:
    session_id = f"01900000-0000-7000-9000-{number:012d}"
    set_id = f"01900000-0000-7000-a000-{number:012d}"
    header = {
        "set_id": set_id,
        "session_id": session_id,
        "athlete_code": CODE,
        "started_utc": at.isoformat(),
        "prescription": asked().to_json(),
        "profile": PROFILE.to_json(),
    }
    logbook.enter_recording(header, f"{CODE}_{number}.force")
    for rep in range(1, REPS + 1):
        short = number % 3 == 0 and rep == REPS
        logbook.add_rep(
            set_id,
            {
                "number": rep,
                "outcome": "short" if short else "complete",
                "start_s": 60.0 * rep,
                "end_s": 60.0 * rep + HOLD_S + 2,
                "inside_s": 20.0 if short else HOLD_S,
                "dose_pct_s": DOSE_PCT_S,
                "peak_n": 230.0,
            },
        )
    logbook.close_set(set_id, {"reps": REPS})
    if number % 5:
        report = DayReport(number % 4, None, number % 3)
        logbook.days.report(athlete_id, report, session_id=session_id, at_utc=at)
        for level, when, minutes in (
            (number % 7, "during", 4),
            (max(0, number % 7 - 2), "after", 9),
        ):
            logbook.session_notes.add(
                session_id,
                PAIN,
                {"level": level, "when": when},
                at_utc=at + timedelta(minutes=minutes),
            )
    if number % 10 == 9:
        logbook.session_notes.add(
            session_id,
            CHANGE,
            {
                "id": str(number),
                "what": "band",
                "old": {"lower_n": 200.0, "upper_n": 220.0},
                "new": {"lower_n": 190.0, "upper_n": 210.0},
                "reason": "pain",
                "set_id": set_id,
                "time_s": 30.0,
            },
            set_id=set_id,
            at_utc=at + timedelta(minutes=3),
        )
