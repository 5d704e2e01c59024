"""The page of the maximal test and the trial box, on the simulated rig.

The athlete is invented; the session is the real one, stepped by hand.
"""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from gui.hands import bring_up
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QHBoxLayout, QWidget

from biofeedback.conditioning.profile import ZeroKind
from biofeedback.gui.athlete_screen import AthleteScreen
from biofeedback.gui.maximal_page import MaximalPage
from biofeedback.gui.maximal_words import shares_words
from biofeedback.gui.style import style_sheet
from biofeedback.gui.theme import DAY
from biofeedback.gui.trial_box import MOST_PX
from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.session import Session, Update, demo
from biofeedback.session.maximal_test import MaximalTest, Stage
from biofeedback.session.maximal_tests import MaximalTests
from biofeedback.session.pain_told import PainTold
from biofeedback.session.second_start import SEEN_S
from biofeedback.training.athlete import BodyMass
from biofeedback.training.day import PainRule
from biofeedback.training.events import Phase
from biofeedback.training.feedback import Cue
from biofeedback.training.maximal import StepKind
from biofeedback.training.reference import Definition, Reference
from biofeedback.training.task import Joint, Setup, Sides, Task
from biofeedback.wire.frames import Event

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

STEP_US = 50_000
TASK = "Seated calf push (invented)"


class Bench:
    """Page, box and athlete's screen on one session, as the window has them."""

    def __init__(self, qtbot: QtBot, logbook: Logbook, folder: Path) -> None:
        self.logbook, self.folder = logbook, folder
        self.session = Session(
            demo.source(seed=5, step_us=STEP_US),
            logbook=logbook,
            recordings=folder,
            athlete_code="INV-1",
        )
        self.now_ns = 0
        self.page = MaximalPage(
            MaximalTests(self.session, logbook, folder), clock=lambda: self.now_ns
        )
        self.screen = AthleteScreen(demo.PRESCRIPTION)
        self.said: list[str] = []
        self.advised: list[str] = []
        self.kept: list[Reference] = []
        self.wanted = 0
        self.page.guided.connect(self.screen.guide)
        self.page.said.connect(self.said.append)
        self.page.advised.connect(lambda words, _end: self.advised.append(words))
        for told in (self.said, self.advised):
            self.page.pain_advised.connect(lambda words, _, to=told: to.append(words))
        self.page.reference_kept.connect(self.kept.append)
        self.page.test_wanted.connect(self._wanted)
        self.window = QWidget()
        row = QHBoxLayout(self.window)
        for part in (self.screen, self.page.box, self.page):
            row.addWidget(part)
        self.window.setStyleSheet(style_sheet(DAY))
        self.window.resize(2000, 720)
        bring_up(qtbot, self.window)
        self.update: Update = self.frame()
        self.run(0.5)

    def _wanted(self) -> None:
        self.wanted += 1
        self.page.hide()  # the live page is shown in its place

    def frame(self) -> Update:
        self.session.step()
        self.update = self.session.take()
        self.page.take(self.update)
        self.screen.take(self.update, live=True)
        return self.update

    def run(self, seconds: float) -> None:
        for _ in range(round(seconds * 1e6 / STEP_US)):
            self.frame()

    def until(self, reached: Callable[[], bool], *, most_s: float = 300) -> None:
        for _ in range(round(most_s * 1e6 / STEP_US)):
            self.frame()
            if reached():
                return
        pytest.fail("what was waited for did not come")

    def phase(self, phase: Phase) -> None:
        self.until(
            lambda: self.update.state is not None and self.update.state.phase is phase
        )

    @property
    def test(self) -> MaximalTest:
        assert self.page.test is not None
        return self.page.test

    def cue(self) -> Cue:
        return self.screen.shown_cue

    def enter(self) -> None:
        self.page.enter("INV-1")

    def set_up(self, **fields: str) -> None:
        setup = self.page.setup
        setup.task.setCurrentText(TASK)
        setup.sides.setCurrentIndex(setup.sides.findData(Sides.BOTH))
        quick = {"rest_s": "10", "practice_rest_s": "1", "practice": "1"}
        for name, text in {**quick, **fields}.items():
            setup.fields[name].set_text(text)

    def begin(self, **fields: str) -> None:
        self.enter()
        self.set_up(**fields)
        self.page.begin.click()
        self.until(lambda: self.test.stage is Stage.UNDER_WAY)
        assert not self.page.isVisible()

    def to_the_end(self) -> None:
        self.until(lambda: self.test.step.kind is StepKind.ENOUGH)
        self.page.box.pain[1].click()
        self.until(lambda: self.test.stage is Stage.OVER)
        self.page.show()
        QCoreApplication.processEvents()

    def key(self, key: Qt.Key, *modifiers: Qt.KeyboardModifier) -> None:
        held = modifiers[0] if modifiers else Qt.KeyboardModifier.NoModifier
        QTest.keyClick(self.window, key, held)


@pytest.fixture
def logbook(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


@pytest.fixture
def bench(qtbot: QtBot, logbook: Logbook, tmp_path: Path) -> Iterator[Bench]:
    made = Bench(qtbot, logbook, tmp_path / "recordings")
    yield made
    made.session.close()


# Before a test.


def test_what_is_known_is_told_before_a_test(bench: Bench) -> None:
    page = bench.page
    bench.enter()
    assert page.setup.task.count() > 1  # the starter list, whatever was opened before
    page.setup.task.setCurrentText("")
    assert not page.begin.isEnabled()
    assert "Choose a task" in page.known.text()
    bench.set_up()
    assert page.begin.isEnabled()
    assert "First test" in page.known.text()
    assert page.setup.fields["most"].text == "8"
    assert "none taken" in page.zero.text()
    assert "Breathe freely" in page.advice.text()
    assert "clinician" in page.advice.text()
    bench.session.take_zero(ZeroKind.LIMB_RESTING)
    bench.run(2.0)
    assert page.zero.text().startswith("Zero: limb resting, taken at ")


def test_an_earlier_test_is_told_and_fewer_trials_are_allowed(bench: Bench) -> None:
    athlete = bench.logbook.athlete_by_code("INV-1")
    assert athlete is not None
    bench.logbook.maxima.add(
        NewMaximalTest(
            athlete.id,
            Task(TASK, sides=Sides.BOTH),
            datetime(2026, 1, 12, 12, tzinfo=UTC),
            Definition.PEAK,
            231.0,
            3,
        )
    )
    bench.enter()
    bench.set_up()
    assert bench.page.known.text() == "Last test: 231 N, peak, 2026-01-12."
    assert bench.page.setup.fields["most"].text == "6"
    sides = bench.page.setup.sides
    sides.setCurrentIndex(sides.findData(Sides.LEFT))
    assert "First test" in bench.page.known.text()


@pytest.mark.parametrize(
    ("field", "text", "told", "good"),
    [
        ("trials", "1", "Trials, at least: must be 2 to 10.", "4"),
        ("trials", "2.5", "Trials, at least: must be a whole number.", "3"),
        ("trial_s", "six", "A trial lasts: is not a number.", "5"),
        ("most", "2", "Trials, at most: must be 3 to 10.", "3"),
        ("rest_s", "", "Rest after a trial: is not a number.", "10"),
    ],
)
def test_what_does_not_fit_is_told_and_stays(
    bench: Bench, field: str, text: str, told: str, good: str
) -> None:
    bench.enter()
    bench.set_up(**{field: text})
    bench.page.begin.click()
    assert bench.page.setup.problem.text() == told
    assert bench.page.setup.fields[field].text == text
    assert bench.page.test is None
    assert bench.wanted == 0
    bench.page.setup.fields[field].set_text(good)
    bench.page.begin.click()
    assert bench.page.under_way
    assert not bench.page.setup.problem.isVisible()


def test_a_ceiling_under_the_clock_is_told(bench: Bench) -> None:
    bench.enter()
    bench.set_up(ceiling_n="5")
    bench.page.begin.click()
    assert "ceiling_n" in bench.page.problem.text()
    assert bench.page.test is None


def test_without_a_logbook_there_are_no_tests(qtbot: QtBot) -> None:
    page = MaximalPage(None)
    qtbot.addWidget(page)
    page.enter("INV-1")
    page.setup.task.setCurrentText(TASK)
    assert not page.begin.isEnabled()
    assert "No logbook" in page.known.text()


def test_a_test_that_is_refused_says_why(bench: Bench) -> None:
    bench.enter()
    bench.set_up()
    bench.session.begin_set(demo.PRESCRIPTION)
    bench.page.begin.click()
    bench.run(0.5)
    assert not bench.page.under_way
    assert "A set is under way" in bench.page.problem.text()
    assert "A set is under way" in bench.said[-1]
    assert not bench.page.box.isVisible()


# Under way.


def test_the_athlete_is_led_through(bench: Bench) -> None:
    bench.begin()
    assert bench.wanted == 1
    screen, box = bench.screen, bench.page.box
    assert box.isVisible()
    assert not bench.page.setup.isEnabled()
    assert not bench.page.begin.isEnabled()
    assert box.heading.text() == "Practice ramp 1 of 1"
    assert not box.pain[0].isEnabled()
    bench.run(0.2)
    assert bench.cue() is Cue.THREE_QUARTERS
    bench.phase(Phase.REP)
    assert bench.cue() is Cue.THREE_QUARTERS
    assert screen.path.marker == "disc"
    assert screen.reps.accessibleDescription().startswith("Practice 1 of 1: under way")
    bench.phase(Phase.RELEASE)
    assert bench.cue() is Cue.LET_GO
    bench.until(lambda: len(bench.test.trials) == 1)
    assert box.heading.text() == "Trial 1 of 3"
    assert not box.practice_end.isEnabled()
    bench.phase(Phase.REP)
    assert bench.cue() is Cue.ALL_OUT
    assert screen.reps.accessibleDescription() == (
        "Trial 1 of 3: under way, to come, to come"
    )
    bench.phase(Phase.REST)
    bench.run(0.1)
    assert bench.cue() is Cue.REST
    assert box.rest.text().startswith("Rest 0:")
    assert [row[0] for row in box.rows.rows] == ["practice 75 %", "trial 1"]
    bench.until(lambda: bench.test.step.kind is StepKind.ENOUGH)
    bench.run(0.1)
    assert bench.cue() is Cue.ENOUGH
    assert box.heading.text().startswith("Enough after")
    assert "The answer ends the test." in box.pain_words.text()
    box.pain[6].click()
    assert bench.said[-1] == (
        "Pain 6 of 10 is noted. That is above 5 of 10. Stopping is advised; you decide."
    )
    bench.until(lambda: bench.test.stage is Stage.OVER)
    assert not box.isVisible()
    assert bench.advised[-1].startswith(
        "Pain 6 of 10: stopping is advised; you decide. "
    )


def test_no_band_is_drawn_and_no_line_is_cut(bench: Bench) -> None:
    bench.begin(practice="2")
    path = bench.screen.path
    tops: list[float] = []
    phases: list[Phase] = []
    while bench.test.step.kind is not StepKind.ENOUGH:
        update = bench.frame()
        QCoreApplication.processEvents()
        assert update.state is not None
        tops.append(path.content.scale.top_n)
        phases.append(update.state.phase)
        assert path.content.history.newest.band is None
        shown_n = path.content.newest_n[0]
        assert shown_n < tops[-1]
    within = {Phase.REP, Phase.RELEASE}
    for before, after, was, now in zip(
        tops, tops[1:], phases, phases[1:], strict=False
    ):
        # Within an effort the scale stands still: 30 % of the rated load is plenty.
        assert before == after or not (was in within and now in within)
    # It has come down from the guess to what the athlete reaches, and has room.
    assert tops[0] == 800.0  # 1.25 · 0.3 · 2000 N, rounded up
    assert tops[-1] == 400.0  # the best was some 240 to 260 N
    percent = path.content.scale.reference_n
    assert percent is None


def test_a_force_that_leaves_the_picture_takes_the_scale_along(bench: Bench) -> None:
    bench.begin()
    content = bench.screen.path.content
    bench.phase(Phase.REP)
    for expected_n, top_n in ((40.0, 50.0), (900.0, 50.0)):
        content.expected_n = expected_n
        content.scale = type(content.scale).for_maximal(40.0, ceiling_n=None)
        assert not content.follow_band()  # a new expectation waits for the rest
        assert content.scale.top_n == top_n
    bench.until(lambda: content.newest_n[0] > 60.0)
    assert content.scale.top_n >= content.newest_n[0] / 0.97


def test_an_effort_is_taken_out_with_a_reason(bench: Bench) -> None:
    bench.begin(practice="0")
    box = bench.page.box
    bench.until(lambda: len(bench.test.trials) == 2)
    box.void.click()
    assert box.reason.error.text() == "Say why it does not count."
    bench.key(Qt.Key.Key_F10)
    assert box.reason.line.hasFocus()
    QTest.keyClicks(box.reason.line, "strap slipped")
    box.table.selectRow(0)
    QTest.keyClick(box.reason.line, Qt.Key.Key_Return)
    assert bench.test.trials[0].void_reason == "strap slipped"
    assert not bench.test.trials[1].void
    assert box.reason.text == ""
    assert box.rows.rows[0][3].startswith("void: strap slipped")
    assert box.heading.text() == "Trial 2 of 3"
    bench.run(0.1)
    assert (
        "Next: trial 2 of 3: void, complete"
        in bench.screen.reps.accessibleDescription()
    )
    # Once is enough.
    box.table.selectRow(0)
    box.reason.set_text("again")
    box.void.click()
    assert "no trial 1 to take out" in bench.said[-1]
    assert box.reason.text == "again"


def test_practice_and_test_may_be_ended_by_hand(bench: Bench) -> None:
    bench.begin(practice="3")
    bench.page.box.practice_end.click()
    assert bench.page.box.heading.text() == "Trial 1 of 3"
    bench.until(lambda: len(bench.test.trials) == 1)
    bench.key(Qt.Key.Key_F9)
    bench.until(lambda: bench.test.stage is Stage.OVER)
    assert "single trial" in bench.page.result.spread.text()


def test_pain_in_a_test_goes_by_the_agreed_cut_and_speaks_before_the_next(
    bench: Bench,
) -> None:
    control = bench.page.control
    control.pain = told = PainTold(lambda: PainRule(low=1, high=2))
    control._against = told.against
    bench.begin(practice="0", trials="2", most="2")
    bench.until(lambda: len(bench.test.trials) == 1)
    bench.page.takes_pain(3)
    assert bench.said[-1] == (
        "Pain 3 of 10 is noted. That is above 2 of 10. Stopping is advised; you decide."
    )
    bench.to_the_end()
    first = bench.test
    bench.page.begin.click()
    assert bench.test is first
    assert "Pain 3 of 10 is above the agreed cut of 2" in bench.page.problem.text()
    bench.page.begin.click()
    assert bench.test is first, "a double click is no second start"
    bench.now_ns += round(1e9 * SEEN_S)
    bench.page.begin.click()
    bench.until(lambda: bench.test.stage is Stage.UNDER_WAY)
    bench.to_the_end()
    row = bench.logbook.set_by_id(bench.test.set_id)
    assert row is not None
    header = recordings.read(bench.folder / row.recording).header
    assert "agreed cut of 2" in str(header["went_on"])


def test_the_desks_own_keys_tell_pain_too(bench: Bench) -> None:
    bench.begin()
    bench.page.control.mark_pain(3)
    assert "no effort yet" in bench.said[-1]
    bench.until(lambda: len(bench.test.trials) == 1)
    bench.page.control.mark_pain(3)
    assert bench.said[-1] == "Pain 3 of 10 is noted."
    assert bench.page.box.rows.rows[0][3] == "pain 3"


def test_the_box_fits_into_the_desk(bench: Bench) -> None:
    bench.begin()
    bench.until(lambda: len(bench.test.trials) == 2)
    QCoreApplication.processEvents()
    box = bench.page.box
    assert box.width() <= MOST_PX
    assert box.minimumSizeHint().width() <= MOST_PX
    bench.page.set_size(1.5)
    assert box.maximumWidth() == 510


def test_pain_of_an_earlier_effort_is_corrected_and_taken_back(bench: Bench) -> None:
    bench.begin(practice="0")
    box, told = bench.page.box, bench.page.control.pain
    bench.until(lambda: len(bench.test.trials) == 1)
    box.pain[8].click()
    assert told.against()
    bench.until(lambda: len(bench.test.trials) == 2)
    assert box.pain_words.text() == "Pain in the last one"
    box.table.selectRow(0)
    assert box.pain_words.text() == "Correct the pain in trial 1"
    box.pain[3].click()
    assert bench.said[-1] == "Corrected: pain 3 of 10 in that effort."
    assert [trial.pain for trial in bench.test.trials] == [3, None]
    assert not told.against()
    assert box.table.currentIndex().row() == 0
    assert box.not_asked.text() == "not asked", "a word, not a dash"
    box.not_asked.click()
    assert [trial.pain for trial in bench.test.trials] == [None, None]
    bench.to_the_end()
    row = bench.logbook.set_by_id(bench.test.set_id)
    assert row is not None
    events = [
        frame.content
        for frame in recordings.read(bench.folder / row.recording).frames()
        if isinstance(frame, Event)
    ]
    told_now = [one["level"] for one in events if one.get("kind") == "pain"]
    assert told_now == [8, 1]  # what was told stays
    result = bench.page.result
    result.table.selectRow(0)
    assert result.pain.currentText() == "not asked"
    result.pain.setCurrentIndex(5)
    result.pain.activated.emit(5)
    assert bench.test.trials[0].pain == 4
    again = MaximalTests(bench.session, bench.logbook, bench.folder)
    assert again.take_up(row.id).trials == bench.test.trials


def test_a_kept_result_is_taken_back_until_the_page_is_left(bench: Bench) -> None:
    bench.begin(practice="0", trials="2", most="2")
    bench.to_the_end()
    result = bench.page.result
    back: list[Task] = []
    bench.page.reference_taken_back.connect(back.append)
    assert not result.undo.isVisible()
    result.keep.click()
    result.undo.click()
    assert len(back) == 1
    assert bench.test.kept is None
    athlete = bench.logbook.athlete_by_code("INV-1")
    assert athlete is not None

    def tests(*, with_void: bool) -> int:
        return len(
            bench.logbook.maxima.tests(athlete.id, bench.test.task, with_void=with_void)
        )

    assert (tests(with_void=False), tests(with_void=True)) == (0, 1)
    result.keep.click()  # by another number, or the same
    assert (tests(with_void=False), tests(with_void=True)) == (1, 2)
    assert result.undo.isVisible()
    bench.enter()
    assert not result.undo.isVisible()


def test_a_trial_that_was_stopped_counts_only_where_it_is_let(bench: Bench) -> None:
    bench.begin(practice="0")
    bench.until(lambda: len(bench.test.trials) == 1)
    bench.phase(Phase.REST)
    bench.run(0.1)
    reps = bench.screen.reps
    assert reps.accessibleDescription().startswith("Next: trial 2 of 3: ")
    bench.phase(Phase.REP)
    bench.run(2.0)
    bench.session.end_set("stop")
    bench.until(lambda: bench.test.stage is Stage.OVER)
    bench.run(0.1)
    assert reps.accessibleDescription().startswith("1 trial: ")
    bench.page.show()
    first, second = bench.test.trials
    assert second.stopped
    assert second.one_s is not None
    assert bench.test.result is not None
    assert (bench.test.result.best, bench.test.result.trials) == (first.number, 1)
    result = bench.page.result
    assert result.rows.rows[1][-1] == "stopped, not counted"
    result.stopped.click()
    assert bench.test.result.trials == 2
    assert "stopped, counts" in result.rows.rows[1][-1]
    result.stopped.click()
    assert bench.test.result.trials == 1


def test_pain_told_at_the_desk_is_of_the_last_effort(bench: Bench) -> None:
    assert not bench.page.takes_pain(4), "no test is on"
    bench.begin()
    bench.until(lambda: len(bench.test.trials) == 1)
    assert bench.page.takes_pain(4)
    assert bench.test.trials[0].pain == 4


# The result.


def test_the_result_is_shown_and_kept(bench: Bench) -> None:
    bench.begin()
    bench.to_the_end()
    page, result = bench.page, bench.page.result
    assert page._right.currentWidget() is result
    found = bench.test.result
    assert found is not None
    assert result.title.text() == f"{found.force.total_n:.1f} N, best 1 s mean".replace(
        ".0 N", " N"
    )
    assert "the two best differ by" in result.spread.text()
    assert "Left" in result.sides.text()
    assert "cannot be told yet" in result.meaning.text()
    assert not any(letter.isdigit() for letter in result.meaning.text())
    assert "Practice score" in result.cautions.text()
    assert sum(row[-1].startswith("best") for row in result.rows.rows) == 1
    bench.session.close()  # now all rows are in the logbook
    bench.key(Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    (reference,) = bench.kept
    assert reference.force_n == found.force.total_n
    assert reference.practice
    assert page.kept_task is not None
    assert page.kept_task.name == TASK
    assert result.keep.text() == "Kept"
    assert not result.keep.isEnabled()
    assert bench.advised[-1] == "", "it was kept: nothing is advised any more"
    assert "Last test" in page.known.text()


@pytest.mark.parametrize(
    ("arm_m", "mass", "words"),
    [
        (0.35, None, "105 N·m"),  # 300 × 0.35
        (None, BodyMass(75, "2026-03-20"), "4 N/kg, at 75 kg of 2026-03-20"),
        (
            0.35,
            BodyMass(75, "2026-03-20"),
            "105 N·m, 4 N/kg, 1.4 N·m/kg, at 75 kg of 2026-03-20",
        ),
        (None, None, ""),
    ],
)
def test_a_force_is_told_as_a_torque_and_per_body_mass(
    arm_m: float | None, mass: BodyMass | None, words: str
) -> None:
    task = Task(TASK, setup=Setup(Joint.ANKLE, lever_arm_m=arm_m))
    assert shares_words(300.0, task, mass) == words


def test_the_result_is_told_per_body_mass(bench: Bench) -> None:
    athlete = bench.logbook.athlete_by_code("INV-1")
    assert athlete is not None
    bench.logbook.people.add_mass(athlete.id, BodyMass(80.0, "2026-03-20"))
    bench.begin()
    bench.to_the_end()
    found, shares = bench.test.result, bench.page.result.shares
    assert found is not None
    told_n_kg = float(shares.text().split(" N/kg")[0])
    assert told_n_kg == pytest.approx(found.force.total_n / 80.0, rel=0.005)
    assert shares.isVisible()


def test_another_number_may_be_the_100_percent(bench: Bench) -> None:
    bench.begin()
    bench.to_the_end()
    result = bench.page.result
    before = bench.test.result
    peak = result.definition.findData(Definition.PEAK)
    result.definition.setCurrentIndex(peak)
    result.definition.activated.emit(peak)
    after = bench.test.result
    assert before is not None
    assert after is not None
    assert after.force.total_n > before.force.total_n
    assert result.title.text().endswith("N, peak")
    bench.session.close()
    result.keep.click()
    assert bench.kept[0].definition is Definition.PEAK


def test_what_it_means_is_told_with_its_n(bench: Bench) -> None:
    athlete = bench.logbook.athlete_by_code("INV-1")
    assert athlete is not None
    for weeks, force_n in ((3, 150.0), (2, 154.0), (1, 152.0)):
        bench.logbook.maxima.add(
            NewMaximalTest(
                athlete.id,
                Task(TASK, sides=Sides.BOTH),
                datetime.now(tz=UTC) - timedelta(weeks=weeks),
                Definition.BEST_1_S_MEAN,
                force_n,
                3,
            )
        )
    bench.begin()
    bench.to_the_end()
    words = bench.page.result.meaning.text()
    # SD of 150, 154 and 152 is 2; 1.96 √2 · 2 = 5.5.
    assert words.startswith("Typical error 2 N (1.3 %; 95 % interval 1 to 12.6 N)")
    assert "from this athlete's 3 visits" in words
    assert "less than 5.5 N (3.7 %) may be noise" in words
    assert "Against 152 N last time: +" in words
    assert words.endswith("more than the noise of the test.")
    assert "Practice score" not in bench.page.result.cautions.text()


def test_a_test_is_left_aside_or_taken_up(bench: Bench) -> None:
    bench.begin()
    bench.to_the_end()
    trials = bench.test.trials
    bench.session.close()
    page = bench.page
    page.enter("INV-9")  # somebody else: nothing of the last test is shown
    assert page.test is None
    bench.enter()
    assert page.take_up.isVisible()
    assert TASK in page.left_over.text()
    page.take_up.click()
    assert bench.test.trials == trials
    assert page.setup.chosen_task() == Task(TASK, bench.test.task.kind, Sides.BOTH)
    page.result.leave.click()
    assert page.result.reason.error.text() == "Say why the test does not count."
    page.result.reason.set_text("was ill")
    page.result.leave.click()
    assert page.test is None
    bench.enter()
    assert not page.take_up.isVisible()
    assert bench.kept == []


def test_a_result_is_not_kept_before_its_set_is_in_the_logbook(
    bench: Bench,
) -> None:
    bench.begin()
    bench.to_the_end()
    bench.session.close()
    bench.test.set_id = "not there yet"
    bench.page.result.keep.click()
    assert "not in the logbook yet" in bench.page.problem.text()
    assert bench.page.result.keep.isEnabled()
    assert bench.kept == []
