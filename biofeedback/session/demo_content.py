"""What the demo's logbook holds before anyone has pulled: invented from end to end.

So that no page is empty: athletes with masses, tasks, tests over some weeks, plans and
reports of days. Nobody was measured, and no person is meant.

* Only an empty logbook is filled, or one that an earlier version of this filled.
* An athlete who is there already keeps what is there; so filling twice is filling once.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.logbook import folders, recordings
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.logbook.recording_format import REP_END
from biofeedback.session import demo
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.day import DayReport
from biofeedback.training.example_plans import SHOULDER as SHOULDER_PLAN
from biofeedback.training.example_plans import TENDON
from biofeedback.training.reference import Definition, Origin
from biofeedback.training.starter_tasks import STARTER_TASKS
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind
from biofeedback.training.task_names import KNEE_EXTENSION
from biofeedback.wire.frames import Event

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.logbook.database import Logbook
    from biofeedback.training.plan import Plan
    from biofeedback.training.prescription import Prescription

VERSION = 2
"""Raised when there is more to fill in."""
SETTING = "demo content"
RECORDINGS = Path(__file__).resolve().parents[2] / "recordings"
"""The demo recordings; they are in a clone, and not in an installed package."""

SHOULDER, _, _, _, CALF = STARTER_TASKS
KNEE = Task(
    KNEE_EXTENSION,
    TaskKind.HOLD,
    Sides.LEFT,
    Setup(
        joint=Joint.KNEE,
        movement="extension",
        angle_deg=60.0,
        site="pad on the shin, 5 cm above the outer ankle",
        lever_arm_m=0.34,
        posture="sitting, pelvis and thigh strapped",
    ),
)
"""Beside the starter list: the plan of a tendon asks for it."""


@dataclass(frozen=True, slots=True)
class Tested:
    """One invented test: best 1 s mean; the peak lies a little above it.

    Attributes:
        left_pct: the left side's share, where both work together.
    """

    days_ago: int
    task: Task
    sides: Sides
    force_n: float
    practice: bool = False
    pain: int = 0
    left_pct: float | None = None


@dataclass(frozen=True, slots=True)
class Story:
    """One invented athlete.

    Attributes:
        masses: (days ago, kg).
        before_injury_n: a stated force: its task, sides and newtons.
        plan: one of the examples, and the stage under way.
        reports: (days ago, what was reported).
    """

    details: AthleteDetails
    masses: Sequence[tuple[int, float]] = ()
    tests: Sequence[Tested] = ()
    before_injury_n: tuple[Task, Sides, float] | None = None
    reports: Sequence[tuple[int, DayReport]] = ()
    plan: tuple[Plan, int] | None = None


PLAN_DAYS = 24
"""For so long the invented athletes have followed their plans."""
MONTHS = (
    (238, 271.0, 412.0, 4),
    (217, 283.0, 405.0, 3),
    (196, 279.0, 418.0, 3),
    (178, 298.0, 411.0, 3),
    (154, 306.0, 423.0, 2),
    (133, 321.0, 414.0, 2),
    (63, 337.0, 419.0, 2),
    (42, 352.0, 428.0, 1),
    (23, 349.0, 421.0, 1),
    (3, 371.0, 430.0, 0),
)
"""A knee over eight months, with two of no test: days ago, left and right in newtons,
pain of the left."""
INVENTED = "Invented for the demo; nobody was measured."
STORIES = (
    Story(
        AthleteDetails(
            code=demo.ATHLETE_CODE,
            name=demo.ATHLETE_NAME,
            birth_year=1999,
            dominant=Sides.RIGHT,
            notes=INVENTED,
            consent="None is needed: there is no such person.",
        ),
        masses=((63, 71.0), (6, 71.6)),
        tests=(
            Tested(63, CALF, Sides.BOTH, 198.0, practice=True, left_pct=48.0),
            Tested(49, CALF, Sides.BOTH, 214.0, left_pct=48.5),
            Tested(35, CALF, Sides.BOTH, 221.0, pain=1, left_pct=47.5),
            Tested(20, CALF, Sides.BOTH, 233.0, left_pct=49.0),
            Tested(6, CALF, Sides.BOTH, demo.REFERENCE.force_n, left_pct=49.5),
        ),
        reports=(
            (27, DayReport(8, 6, 7, 5.5, 5)),  # too much: the plan began after it
            (20, DayReport(2, 1, 2, 7.5, 3)),
            (13, DayReport(1, 1, 2, 8.0, 2)),
            (6, DayReport(1, 0, 1, 7.0, 2)),
            (0, DayReport(1, 0, 1, 7.5, 1)),  # so the first set may begin
        ),
        plan=(demo.PLAN, 0),
    ),
    Story(
        AthleteDetails(
            code="DEMO-3",
            name="Second invented athlete",
            birth_year=1988,
            dominant=Sides.RIGHT,
            injured=Sides.LEFT,
            notes=f"{INVENTED} Left shoulder, nine weeks.",
        ),
        masses=((40, 83.4), (5, 82.9)),
        tests=(
            Tested(40, SHOULDER, Sides.RIGHT, 128.0, practice=True),
            Tested(40, SHOULDER, Sides.LEFT, 71.0, practice=True, pain=4),
            Tested(26, SHOULDER, Sides.LEFT, 84.0, pain=3),
            Tested(5, SHOULDER, Sides.RIGHT, 134.0),
            Tested(5, SHOULDER, Sides.LEFT, 97.0, pain=2),
        ),
        before_injury_n=(SHOULDER, Sides.LEFT, 125.0),
        reports=((26, DayReport(3, 2, 4)), (5, DayReport(2, 2, 2, 7.0))),
        plan=(SHOULDER_PLAN, 0),
    ),
    Story(
        AthleteDetails(
            code="DEMO-6",
            name="Third invented athlete",
            birth_year=2004,
            dominant=Sides.LEFT,
            injured=Sides.RIGHT,
            notes=f"{INVENTED} Right knee, tendon, fourth week.",
        ),
        masses=((19, 64.2),),
        tests=(
            Tested(19, KNEE, Sides.LEFT, 396.0, practice=True),
            Tested(19, KNEE, Sides.RIGHT, 288.0, practice=True, pain=3),
            Tested(4, KNEE, Sides.LEFT, 408.0),
            Tested(4, KNEE, Sides.RIGHT, 331.0, pain=1),
        ),
        before_injury_n=(KNEE, Sides.RIGHT, 415.0),
        reports=((4, DayReport(4, 3, 4, 6.5, 4)),),
        plan=(TENDON, 1),
    ),
    Story(
        AthleteDetails(
            code="DEMO-9",
            name="Fifth invented athlete",
            birth_year=1995,
            dominant=Sides.RIGHT,
            injured=Sides.LEFT,
            notes=f"{INVENTED} Left knee, tendon, eight months.",
        ),
        masses=((238, 77.8), (42, 76.9)),
        tests=tuple(
            Tested(
                days_ago,
                KNEE,
                sides,
                force_n,
                practice=days_ago == MONTHS[0][0],
                pain=pain if sides is Sides.LEFT else 0,
            )
            for days_ago, left_n, right_n, pain in MONTHS
            for sides, force_n in ((Sides.LEFT, left_n), (Sides.RIGHT, right_n))
        ),
        before_injury_n=(KNEE, Sides.LEFT, 424.0),
        reports=tuple(
            (days_ago - after, DayReport(max(0, pain - after // 7), None, pain))
            for days_ago, _, _, pain in MONTHS
            for after in (0, 3)
        ),
        plan=(TENDON, 2),
    ),
    Story(
        AthleteDetails(code="DEMO-7", name="Fourth invented athlete", notes=INVENTED),
    ),
)
"""Codes are those of the demo recordings, where there is one of an athlete."""


def fill(logbook: Logbook, folder: Path, *, now: datetime) -> bool:
    """Fills the demo's logbook once.

    Args:
        folder: of the demo's recordings; the shipped ones are copied to it.
        now: what all days are counted back from.

    Returns:
        Whether anything was filled in. A logbook that holds something else is left
        alone.

    Raises:
        FileError: the logbook cannot be written.
    """
    filled = logbook.settings.get(SETTING)
    if filled is None and logbook.athletes():
        return False
    if isinstance(filled, int) and filled >= VERSION:
        return False
    logbook.settings.put(SETTING, 0)  # cut off here, it is gone on with next time
    tasks = _tasks(logbook)
    for story in STORIES:
        if logbook.people.by_code(story.details.code) is None:
            _tell(logbook, story, tasks, now)
    _take_recordings(logbook, folder)
    logbook.settings.put(SETTING, VERSION)
    return True


def prescription(logbook: Logbook) -> Prescription:
    """The demo's prescription, by the latest test in its logbook.

    Raises:
        FileError: the logbook cannot be read.
    """
    asked = demo.PRESCRIPTION
    task = logbook.tasks.by_name(CALF.name)
    athlete = logbook.athlete_by_code(demo.ATHLETE_CODE)
    if task is None or athlete is None:
        return asked
    asked = replace(asked, task=task.on_side(asked.task.sides))
    tests = logbook.maxima.tests(athlete.id, task, asked.task.sides)
    if not tests or tests[0].force_n != demo.REFERENCE.force_n:
        return asked
    return replace(asked, reference=tests[0].reference())


def _tasks(logbook: Logbook) -> dict[str, Task]:
    """Each task by its name, as it stands in the logbook's list."""
    logbook.tasks.start()
    if logbook.tasks.by_name(KNEE.name) is None:
        logbook.tasks.add(KNEE)
    return {stored.task.name: stored.task for stored in logbook.tasks.search()}


def _tell(
    logbook: Logbook, story: Story, tasks: dict[str, Task], now: datetime
) -> None:
    def day(days_ago: int) -> datetime:
        return now - timedelta(days=days_ago)

    athlete_id = logbook.people.add(story.details)
    for days_ago, mass_kg in story.masses:
        mass = BodyMass(mass_kg, day(days_ago).date().isoformat())
        logbook.people.add_mass(athlete_id, mass)
    for test in story.tests:
        task = tasks[test.task.name]
        logbook.maxima.add(_row(test, task, athlete_id, day(test.days_ago)))
    if story.before_injury_n is not None:
        task, sides, force_n = story.before_injury_n
        logbook.maxima.add_stated(
            athlete_id,
            tasks[task.name].on_side(sides),
            force_n,
            origin=Origin.BEFORE_INJURY,
            on_date=day(400).date().isoformat(),
            definition=Definition.BEST_1_S_MEAN,
            note=INVENTED,
        )
    if story.plan is not None:
        plan, stage = story.plan
        key = logbook.plans.add(
            athlete_id, _with_tasks(plan, tasks), at_utc=day(PLAN_DAYS)
        )
        for step in range(stage):
            since = day(PLAN_DAYS * (stage - step) // (stage + 1))
            logbook.plans.move(
                key, step + 1, "Invented: pain stayed low.", at_utc=since
            )
    for days_ago, report in story.reports:
        logbook.days.report(athlete_id, report, at_utc=day(days_ago))


def _with_tasks(plan: Plan, tasks: dict[str, Task]) -> Plan:
    """The plan with the tasks of the list: their keys, and the positions tested in."""
    return plan.with_each(
        lambda one: replace(one, task=tasks.get(one.task.name, one.task))
    )


def _row(
    test: Tested, task: Task, athlete_id: str, tested_utc: datetime
) -> NewMaximalTest:
    left_n = None if test.left_pct is None else test.force_n * test.left_pct / 100
    return NewMaximalTest(
        athlete_id=athlete_id,
        task=task.on_side(test.sides),
        tested_utc=tested_utc.astimezone(UTC),
        definition=Definition.BEST_1_S_MEAN,
        force_n=test.force_n,
        trials=3,
        peak_n=round(1.06 * test.force_n, 1),
        half_s_n=round(1.02 * test.force_n, 1),
        one_s_n=test.force_n,
        left_n=left_n,
        right_n=None if left_n is None else test.force_n - left_n,
        differ_pct=2.5,
        practice=test.practice,
        pain=test.pain,
        zero_kind="limb resting",
        content={"invented": True},
    )


def _take_recordings(logbook: Logbook, folder: Path) -> None:
    """Copies the shipped demo recordings and enters their sets."""
    for source in sorted(RECORDINGS.glob("*.force")):
        path = folder / source.name
        if path.exists():
            continue
        folders.make_private(folder)
        with folders.whole_file(path) as copy:
            copy.write(source.read_bytes())
        recording = recordings.read(path)
        set_id = logbook.enter_recording(recording.header, path.name)
        reps = 0
        for found in recording.frames():
            content = found.content if isinstance(found, Event) else {}
            rep = content.get("rep")
            if content.get("kind") == REP_END and isinstance(rep, dict):
                logbook.add_rep(set_id, rep)
                reps += 1
        logbook.close_set(set_id, {"reps": reps})
