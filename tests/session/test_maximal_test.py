"""A maximal test on the simulated rig, from the first ramp to the force that is kept.

The athlete is invented. The session is stepped by hand.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import numpy as np
import pytest

from biofeedback.conditioning.profile import ZeroKind
from biofeedback.errors import FieldError, UserError
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.measures.change import Change, Whose
from biofeedback.measures.trace import Trace
from biofeedback.rig.force_input import ForceProfile
from biofeedback.rig.simulated_rig import SimulatedRig
from biofeedback.rig.simulated_source import SimulatedSource
from biofeedback.session import Session, demo
from biofeedback.session.maximal_test import ASK_S, MaximalTest, Stage
from biofeedback.session.maximal_tests import MaximalTests
from biofeedback.session.office import Office
from biofeedback.session.pain_told import PainTold
from biofeedback.session.recovery import recover
from biofeedback.session.replay import replay
from biofeedback.session.review import Library
from biofeedback.training.day import PainRule
from biofeedback.training.maximal import MaximalPlan, StepKind
from biofeedback.training.reference import Definition, Origin
from biofeedback.training.starter_tasks import STARTER_TASKS
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from biofeedback.rig.handoff import Update
    from biofeedback.rig.source import Source

STEP_US = 50_000
WAIT_MOST_S = 600.0
PLAN = MaximalPlan(rest_s=12.0, practice_rest_s=3.0, trial_s=3.0)
TASK = Task(
    "Hip abduction (invented)", TaskKind.HOLD, Sides.BOTH, Setup(Joint.HIP), "task-hip"
)


class Visit:
    """One visit of the invented athlete, stepped by hand."""

    def __init__(
        self, logbook: Logbook, folder: Path, *, source: Source | None = None
    ) -> None:
        self.logbook, self.folder = logbook, folder
        self.session = Session(
            source or demo.source(seed=3, step_us=STEP_US),
            logbook=logbook,
            recordings=folder,
            athlete_code="INV-1",
        )
        self.tests = MaximalTests(self.session, logbook, folder)
        self.test: MaximalTest | None = None
        self.update: Update | None = None

    def step(self) -> Update:
        self.session.step()
        self.update = self.session.take()
        if self.test is not None:
            self.test.follow(self.update)
        return self.update

    def run(self, seconds: float) -> None:
        for _ in range(round(seconds * 1e6 / STEP_US)):
            self.step()

    def until(self, reached: Callable[[], bool]) -> None:
        for _ in range(round(WAIT_MOST_S * 1e6 / STEP_US)):
            self.step()
            if reached():
                return
        pytest.fail("what was waited for did not come")

    def begin(self, plan: MaximalPlan = PLAN, task: Task = TASK) -> MaximalTest:
        self.run(1.0)
        assert self.update is not None
        self.test = self.tests.begin(task, plan, self.update.profile)
        self.until(lambda: the_test(self).stage is not Stage.ASKED)
        return self.test

    def close(self) -> None:
        """All rows are in the logbook after this."""
        self.session.close()
        if self.test is not None:
            self.test.follow(self.session.take())

    @property
    def recording(self) -> Path:
        (path,) = self.folder.iterdir()
        return path


def the_test(visit: Visit) -> MaximalTest:
    assert visit.test is not None
    return visit.test


@pytest.fixture
def logbook(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def visit(logbook: Logbook, tmp_path: Path) -> Iterator[Visit]:
    made = Visit(logbook, tmp_path / "recordings")
    yield made
    made.session.close()


def enough(visit: Visit) -> Callable[[], bool]:
    return lambda: the_test(visit).step.kind is StepKind.ENOUGH


def over(visit: Visit) -> Callable[[], bool]:
    return lambda: the_test(visit).stage is Stage.OVER


def test_from_the_first_ramp_to_the_force_that_is_kept(visit: Visit) -> None:
    test = visit.begin()
    assert test.guide.step.share_pct == 50
    visit.until(enough(visit))
    assert [trial.asked_pct for trial in test.trials[:4]] == [50, 75, 90, None]
    assert test.stage is Stage.UNDER_WAY  # the pain of the last trial is asked for
    test.mark_pain(1)
    visit.until(over(visit))
    assert test.reason == "enough trials"
    found = test.result
    assert found is not None
    assert found.agreed
    assert found.trials >= 3
    # The invented athlete has 240 N, and more or less of it each time.
    assert found.force.total_n == pytest.approx(240.0, rel=0.12)
    assert found.force.left_n is not None
    assert found.force.right_n is not None
    assert found.force.left_n + found.force.right_n == pytest.approx(
        found.force.total_n
    )
    visit.close()
    reference = test.keep()
    assert test.keep() is reference
    assert (reference.origin, reference.definition) == (
        Origin.OWN_SIDE,
        Definition.BEST_1_S_MEAN,
    )
    assert reference.force_n == found.force.total_n
    assert (reference.practice, reference.pain) == (True, 1)
    assert reference.setup == TASK.setup
    (row,) = visit.logbook.maxima.tests(athlete(visit), TASK, Sides.BOTH)
    assert row.reference() == reference
    assert row.peak_n is not None
    assert row.half_s_n is not None
    assert row.one_s_n is not None
    assert row.peak_n > row.half_s_n > row.one_s_n == row.force_n
    assert (row.trials, row.pain, row.zero_kind) == (found.trials, 1, "none")
    assert row.session_id == visit.logbook.sessions()[0].id
    kept = row.content["trials"]
    assert isinstance(kept, list)
    assert [one["number"] for one in kept] == [one.number for one in test.trials]


def athlete(visit: Visit) -> str:
    found = visit.logbook.athlete_by_code("INV-1")
    assert found is not None
    return found.id


def test_a_replay_gives_the_same_numbers(visit: Visit) -> None:
    test = visit.begin()
    visit.until(enough(visit))
    test.end()
    visit.until(over(visit))
    visit.close()
    replayed = replay(visit.recording, keep_blocks=True)
    assert replayed.agrees
    assert len(replayed.reps) == len(test.trials)
    trace = Trace.of(replayed.blocks)
    total_n = trace.force_n.sum(axis=1)
    for rep, trial in zip(replayed.reps, test.trials, strict=True):
        assert trial.one_s is not None
        assert trial.peak is not None
        assert rep["best_1_s_n"] == trial.one_s.total_n
        assert rep["trial_peak_n"] == trial.peak.total_n
        # By the samples themselves: 80 in a second, the mean over each second that
        # begins with one. The best second begins between two, and is hardly better.
        start_s, end_s = rep["start_s"], rep["end_s"]
        assert isinstance(start_s, float)
        assert isinstance(end_s, float)
        inside = (trace.time_s >= start_s) & (trace.time_s <= end_s)
        force_n = total_n[inside]
        weights = np.array([0.5, *[1.0] * 79, 0.5]) / 80
        best_n = float(np.convolve(force_n, weights, mode="valid").max())
        assert trial.one_s.total_n == pytest.approx(best_n, rel=2e-3)
        assert trial.one_s.total_n >= best_n - 1e-6
        assert trial.peak.total_n == force_n.max()
    # Rests are longer from the first trial on, and that is written down.
    (change,) = (one for one in replayed.events if one.get("kind") == "terms")
    assert change["new"] == {"rest_s": 12.0}


def test_one_side_pulls_alone(visit: Visit) -> None:
    test = visit.begin(
        replace(PLAN, practice=0, trials=2, most=2), TASK.on_side(Sides.RIGHT)
    )
    visit.until(enough(visit))
    test.end()
    visit.close()
    found = test.result
    assert found is not None
    assert found.force.left_n is found.force.right_n is None
    assert found.force.total_n > 50
    test.keep()
    maxima = visit.logbook.maxima
    assert maxima.tests(athlete(visit), TASK, Sides.LEFT) == ()
    assert len(maxima.tests(athlete(visit), TASK, Sides.RIGHT)) == 1


def test_a_trial_that_is_taken_out_is_done_again(visit: Visit) -> None:
    test = visit.begin(replace(PLAN, practice=1))
    visit.until(enough(visit))
    last = test.trials[-1]
    before = test.step.number
    with pytest.raises(FieldError, match="must say why"):
        test.void(last.number, "  ")
    with pytest.raises(FieldError, match="no trial 99"):
        test.void(99, "because")
    test.void(last.number, "the strap slipped")
    assert test.step.kind is StepKind.TRIAL
    assert test.guide.void == {last.number}
    visit.run(ASK_S / 2)
    assert test.stage is Stage.UNDER_WAY
    visit.until(enough(visit))
    assert test.step.number >= before
    test.end()
    visit.until(over(visit))
    visit.close()
    test.keep()
    (row,) = visit.logbook.sets(visit.logbook.sessions()[0].id)
    reasons = {rep.number: rep.void_reason for rep in visit.logbook.reps(set_id=row.id)}
    assert reasons.pop(last.number) == "the strap slipped"
    assert set(reasons.values()) == {None}
    with pytest.raises(UserError, match="kept already"):
        test.void(1, "too late")


def test_enough_trials_end_the_set_by_themselves(visit: Visit) -> None:
    test = visit.begin(replace(PLAN, practice=0, rest_s=25.0))
    visit.until(enough(visit))
    visit.run(ASK_S - 2.0)
    assert not over(visit)()
    visit.run(3.0)
    assert over(visit)()
    assert test.reason == "enough trials"


def test_practice_may_be_over_sooner(visit: Visit) -> None:
    test = visit.begin(replace(PLAN, practice=3))
    visit.until(lambda: len(test.trials) == 1)
    test.end_practice()
    assert test.step.kind is StepKind.TRIAL
    visit.until(lambda: len(test.trials) == 2)
    assert test.trials[1].asked_pct is None
    test.end("stop")
    visit.until(over(visit))
    assert test.reason == "stop"
    assert test.result is not None
    assert test.result.differ_pct is None


def test_nothing_is_kept_before_the_end_or_without_a_trial(visit: Visit) -> None:
    test = visit.begin()
    with pytest.raises(UserError, match="no effort yet"):
        test.mark_pain(2)
    with pytest.raises(UserError, match="not over"):
        test.keep()
    with pytest.raises(UserError, match="begun already"):
        test.begin()
    visit.until(lambda: len(test.trials) == 1)
    with pytest.raises(FieldError, match="pain"):
        test.mark_pain(11)
    test.end("stop")
    visit.close()
    with pytest.raises(UserError, match="No trial counts"):
        test.keep()
    assert test.meaning() is None


def scripted(*levels: tuple[float, float, float]) -> SimulatedSource:
    """Pulls of (from, to, newtons) seconds after power-up, all on both sides."""
    points = [(0.0, 0.0, 0.0)]
    for start_s, end_s, force_n in levels:
        half = force_n / 2
        points += [
            (start_s, 0.0, 0.0),
            (start_s + 0.2, half, half),
            (end_s - 0.2, half, half),
            (end_s, 0.0, 0.0),
        ]
    rig = SimulatedRig(force=ForceProfile(tuple(points)))
    return SimulatedSource(rig, step_us=STEP_US)


def test_a_touch_is_no_trial(logbook: Logbook, tmp_path: Path) -> None:
    source = scripted((5.0, 5.8, 80.0), (10.0, 14.0, 200.0), (16.0, 20.0, 198.0))
    visit = Visit(logbook, tmp_path / "recordings", source=source)
    test = visit.begin(replace(PLAN, practice=0, trials=2))
    visit.until(lambda: len(test.trials) == 1)
    assert test.trials[0].touch
    assert test.step.number == 1
    with pytest.raises(UserError, match="no effort yet"):
        test.mark_pain(0)
    visit.until(enough(visit))
    test.mark_pain(3)
    visit.until(over(visit))
    found = test.result
    assert found is not None
    assert (found.trials, found.best, found.pain) == (2, 2, 3)
    assert found.force.total_n == pytest.approx(200.0, abs=0.5)
    assert found.differ_pct == pytest.approx(1.0, abs=0.3)
    visit.close()


def test_a_test_that_cannot_begin_says_why(logbook: Logbook, tmp_path: Path) -> None:
    visit = Visit(logbook, tmp_path / "recordings")
    visit.run(1.0)
    visit.session.begin_set(demo.PRESCRIPTION)
    visit.step()
    assert visit.update is not None
    visit.test = test = visit.tests.begin(TASK, PLAN, visit.update.profile)
    visit.run(0.5)
    assert test.stage is Stage.REFUSED
    assert "A set is under way" in test.refused
    visit.close()


def test_what_is_known_before_a_test(visit: Visit) -> None:
    assert "No board" in visit.tests.outlook(TASK, None).problem
    visit.run(1.0)
    assert visit.update is not None
    profile = visit.update.profile
    outlook = visit.tests.outlook(TASK, profile)
    assert outlook.first_ever
    assert outlook.earlier is None
    assert not outlook.problem
    lowering = replace(TASK, kind=TaskKind.LOWERING)
    assert "isometric" in visit.tests.outlook(lowering, profile).problem
    with pytest.raises(UserError, match="isometric"):
        visit.tests.begin(lowering, PLAN, profile)
    sideless = replace(
        profile,
        channels=tuple(
            replace(one, side=type(one.side)("left")) for one in profile.channels
        ),
    )
    outlook = visit.tests.outlook(TASK.on_side(Sides.RIGHT), sideless)
    assert outlook.problem == "The rig has no right cell."


def test_zero_with_the_limb_is_told(visit: Visit) -> None:
    visit.run(1.0)
    visit.session.take_zero(ZeroKind.LIMB_RESTING)
    visit.run(2.0)
    test = visit.begin(replace(PLAN, practice=0, trials=2, most=2))
    visit.until(enough(visit))
    test.end()
    visit.close()
    test.keep()
    (row,) = visit.logbook.maxima.tests(athlete(visit), TASK)
    assert row.zero_kind == "limb resting"


# What was cut off.


def test_a_test_that_was_cut_off_is_taken_up_again(
    visit: Visit, tmp_path: Path
) -> None:
    test = visit.begin(replace(PLAN, practice=3))
    visit.until(lambda: len(test.trials) == 2)
    test.end_practice()
    visit.until(lambda: len(test.trials) == 4)
    test.mark_pain(4)
    test.void(3, "the strap: slipped")
    visit.until(enough(visit))
    trials = test.trials
    test.end()
    visit.close()
    # What another computer would find after the power went: no end, no rows.
    folder = tmp_path / "after"
    folder.mkdir()
    data = visit.recording.read_bytes()
    (folder / visit.recording.name).write_bytes(data[:-200])
    with Logbook.open(tmp_path / "after.db") as logbook:
        (recovered,) = recover(folder, logbook)
        assert not recovered.problem
        again = MaximalTests(visit.session, logbook, folder)
        (found,) = again.not_kept()
        assert (found.task, found.sides) == (TASK.name, Sides.BOTH)
        # Its pain speaks against the next start, until a set has begun.
        office = Office(
            logbook=logbook,
            tests=again,
            pain=PainTold(lambda: PainRule(low=2, high=3)),
        )
        office.recall_pain("INV-1", found.started_utc)
        (words,) = office.pain.against()
        assert words.startswith("Pain 4 of 10 is above the agreed cut of 3")
        # A set leaves it behind; a test asks for all there is, and hears of it.
        office.pain.begin()
        assert office.pain.against() == ()
        assert office.against_test("INV-1", found.started_utc) == (words,)
        assert again.pain_not_kept(found.started_utc + timedelta(seconds=1)) == ()
        taken_up = again.take_up(found.set_id)
        assert taken_up.stage is Stage.OVER
        assert taken_up.trials == trials
        assert taken_up.plan == test.plan
        reference = taken_up.keep()
        assert test.result is not None
        assert reference.force_n == test.result.force.total_n
        assert reference.pain == 4
        assert again.not_kept() == ()
        library = Library(logbook, folder)
        rep = library.reps()[0]
        assert library.of_kept_test(rep).startswith(
            f"The kept maximal test “{TASK.name}” (both) of "
        )
        assert library.of_kept_test(replace(rep, set_id="another")) == ""
        athlete_row = logbook.athlete_by_code("INV-1")
        assert athlete_row is not None
        (row,) = logbook.maxima.tests(athlete_row.id, TASK, Sides.BOTH)
        assert (row.zero_kind, row.task_id) == ("none", "task-hip")


def test_no_set_no_test(visit: Visit) -> None:
    with pytest.raises(UserError, match="no set"):
        visit.tests.take_up("nothing")


# What it means.


def with_result(visit: Visit) -> MaximalTest:
    test = visit.begin(replace(PLAN, practice=0))
    visit.until(enough(visit))
    test.end()
    visit.close()
    return test


def earlier(athlete_id: str, force_n: float, *, weeks_ago: int) -> NewMaximalTest:
    return NewMaximalTest(
        athlete_id=athlete_id,
        task=TASK,
        tested_utc=datetime.now(tz=UTC) - timedelta(weeks=weeks_ago),
        definition=Definition.BEST_1_S_MEAN,
        force_n=force_n,
        trials=3,
    )


def test_without_earlier_tests_no_number_is_given(visit: Visit) -> None:
    test = with_result(visit)
    meaning = test.meaning()
    assert meaning is not None
    assert meaning.noise is None
    assert meaning.last_n is None
    assert meaning.change is Change.UNKNOWN


def test_three_of_ones_own_are_enough(visit: Visit) -> None:
    maxima = visit.logbook.maxima
    for force_n, weeks_ago in ((150.0, 3), (154.0, 2), (152.0, 1)):
        maxima.add(earlier(athlete(visit), force_n, weeks_ago=weeks_ago))
    test = with_result(visit)
    meaning = test.meaning()
    assert meaning is not None
    assert meaning.noise is not None
    assert meaning.noise.whose is Whose.OWN
    assert (meaning.noise.people, meaning.noise.tests) == (1, 3)
    assert meaning.noise.typical_error_n == pytest.approx(2.0)  # SD of 150, 154, 152
    assert meaning.last_n == 152.0
    assert meaning.change is Change.MORE  # 240 N and more
    test.keep()
    kept_too = test.meaning()
    assert kept_too == meaning  # this visit is not held against itself
    assert not maxima.tests(athlete(visit), TASK)[0].practice


def test_with_too_few_of_ones_own_the_club_is_asked(visit: Visit) -> None:
    maxima = visit.logbook.maxima
    for force_n, weeks_ago in ((240.0, 2), (246.0, 1)):
        maxima.add(earlier(athlete(visit), force_n, weeks_ago=weeks_ago))
    other = visit.logbook.add_athlete("INV-2")
    for force_n, weeks_ago in ((300.0, 2), (308.0, 1)):
        maxima.add(earlier(other, force_n, weeks_ago=weeks_ago))
    meaning = with_result(visit).meaning()
    assert meaning is not None
    assert meaning.noise is not None
    assert meaning.noise.whose is Whose.CLUB
    assert (meaning.noise.people, meaning.noise.tests) == (2, 4)
    # Two pairs: √((6²/2 + 8²/2)/2).
    assert meaning.noise.typical_error_n == pytest.approx(5.0)
    assert meaning.last_n == 246.0


def test_tasks_of_earlier_sets_are_offered_and_then_the_list(visit: Visit) -> None:
    # Of a new logbook the starter list, whether or not its page was ever opened.
    starters = visit.tests.tasks()
    assert [one.name for one in starters] == sorted(
        (one.name for one in STARTER_TASKS if one.kind is not TaskKind.LOWERING),
        key=str.casefold,
    )
    listed = visit.logbook.tasks.add(Task("Another task (invented)"))
    visit.logbook.tasks.add(
        Task("Slow let-down (invented)", TaskKind.LOWERING, Sides.BOTH)
    )
    with_result(visit)
    first, *others = visit.tests.tasks()
    assert (first.name, first.key) == (TASK.name, TASK.key)
    assert set(others) == {listed, *starters}


def test_a_task_with_another_name_by_now_is_offered_once(visit: Visit) -> None:
    task = visit.logbook.tasks.add(replace(TASK, key=""))
    test = visit.begin(task=task.on_side(TASK.sides))
    visit.until(enough(visit))
    test.mark_pain(0)
    visit.until(over(visit))
    visit.close()
    renamed = replace(task, name="Invented name of today")
    visit.logbook.tasks.change(renamed)
    first, *others = visit.tests.tasks()
    assert first == renamed
    assert not {one.name for one in others} & {TASK.name, renamed.name}


def test_a_test_that_is_left_aside_is_not_offered_again(visit: Visit) -> None:
    test = with_result(visit)
    (offered,) = visit.tests.not_kept()
    assert offered.set_id == test.set_id
    with pytest.raises(FieldError, match="must say why"):
        test.leave(" ")
    test.leave("was not well")
    assert visit.tests.not_kept() == ()
    assert visit.logbook.maxima.tests(athlete(visit), TASK) == ()
    (row,) = visit.logbook.maxima.tests(athlete(visit), TASK, with_void=True)
    assert row.void_reason == "was not well"


def test_a_test_without_its_recording_is_not_offered(visit: Visit) -> None:
    with_result(visit)
    visit.recording.unlink()
    assert visit.tests.not_kept() == ()
