"""What the athlete sees in each state, read back in words and shapes."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from gui.staged_session import (
    ASKED,
    BOTH,
    FRAME_S,
    ONE,
    StagedSession,
    profile_of,
    steady_pull,
)

from biofeedback.conditioning.profile import RigProfile, Side
from biofeedback.gui.athlete_screen import AthleteScreen
from biofeedback.gui.balance_bar import BalanceBar
from biofeedback.gui.cue import cue_words
from biofeedback.gui.hold_timer import HoldTimer
from biofeedback.gui.rep_row import Mark, RepRow, marks_of
from biofeedback.gui.theme import DAY, NIGHT, font
from biofeedback.training.events import Outcome, Phase, Position, SetState
from biofeedback.training.feedback import Cue
from biofeedback.training.prescription import ClockRule, FeedbackMode, Prescription
from biofeedback.training.task import Sides, Task

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from pytestqt.qtbot import QtBot

    from biofeedback.gui.panel import Panel

    Force = Callable[[float], float | tuple[float, ...]]

SIZES = [(940, 720), (1410, 1080)]


class Stage:
    """A screen on a staged session."""

    def __init__(
        self,
        qtbot: QtBot,
        force_n: Force = steady_pull,
        *,
        asked: Prescription = ASKED,
        profile: RigProfile = BOTH,
        begin: bool = True,
    ) -> None:
        self.session = StagedSession(force_n, profile=profile)
        self.screen = AthleteScreen(asked)
        qtbot.addWidget(self.screen)
        self.screen.resize(*SIZES[0])
        self.screen.plan(profile, asked)
        self.screen.show()
        if begin:
            self.session.begin_set(asked)

    def run(self, seconds: float, *, live: bool = True) -> AthleteScreen:
        for _ in range(round(seconds / FRAME_S)):
            self.session.advance(FRAME_S)
            self.screen.take(self.session.take(), live=live)
        return self.screen


def words(panel: Panel) -> str:
    return panel.accessibleDescription()


# The cue.


@pytest.mark.parametrize(
    ("cue", "rest_left_s", "text"),
    [
        (Cue.MORE, 0, "A little more"),
        (Cue.LESS, 0, "Ease off slightly"),
        (Cue.MUCH_LESS, 0, "Ease off"),
        (Cue.ENOUGH, 0, "Enough trials"),
        (Cue.STAY, 0, "Stay there"),
        (Cue.REST, 42.0, "Rest 0:42"),
        (Cue.REST, 41.2, "Rest 0:42"),
        (Cue.REST, 125.0, "Rest 2:05"),
        (Cue.LET_GO, 0, "Let go"),
        (Cue.READY, 0, "Ready"),
        (Cue.NO_SIGNAL, 0, "No signal"),
    ],
)
def test_the_words_of_the_cues(cue: Cue, rest_left_s: float, text: str) -> None:
    assert cue_words(cue, rest_left_s=rest_left_s) == text


def test_every_cue_has_words() -> None:
    assert all(cue_words(cue) for cue in Cue)


@pytest.mark.parametrize(("width", "height"), [(940, 720), (1410, 1080), (1920, 1080)])
def test_the_cue_is_read_from_three_metres(
    qtbot: QtBot, width: int, height: int
) -> None:
    """At least a twelfth of the height, and no cue is cut."""
    screen = Stage(qtbot).screen
    screen.resize(width, height)
    screen._lay_out()
    type_px = screen.cue.height() * 0.74
    assert type_px >= height / 12
    metrics = font(type_px, bold=True)
    from PySide6.QtGui import QFontMetricsF  # noqa: PLC0415  needs the application

    measure = QFontMetricsF(metrics)
    for cue in Cue:
        wide = measure.horizontalAdvance(cue_words(cue, rest_left_s=600))
        shrunk_px = type_px * min(1.0, screen.cue.width() / wide)
        assert shrunk_px >= height / 12, cue


# A whole hold.


def test_slightly_is_not_said_far_above_the_band(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    stage.session.force_n = lambda _: 140.0  # the band reaches to 132 N
    assert words(stage.run(3.0).cue) == "Ease off slightly"
    stage.session.force_n = lambda _: 175.0
    assert words(stage.run(1.0).cue) == "Ease off"


def test_a_hold_from_start_to_rest(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    screen = stage.run(0.3)
    assert words(screen.cue) == "Ready"
    assert words(screen.reps).startswith("Rep 1 of 6: to come")
    screen = stage.run(5.0)
    assert words(screen.cue) == "Stay there"
    assert screen.reps.marks == (Mark.UNDER_WAY, *(Mark.TO_COME,) * 5)
    assert "7 s left" in words(screen.timer) or "6 s left" in words(screen.timer)
    screen = stage.run(6.7)
    assert words(screen.cue) == "Let go"
    assert words(screen.timer).startswith("0 s left, 100 % done")
    screen = stage.run(1.5)
    assert words(screen.cue).startswith("Rest 0:0")
    assert screen.reps.marks == (Mark.COMPLETE, *(Mark.TO_COME,) * 5)
    assert words(screen.timer).startswith("10 s left, 0 % done")


def test_before_a_set(qtbot: QtBot) -> None:
    screen = Stage(qtbot, begin=False).run(0.3)
    assert words(screen.cue) == "No set yet"
    assert screen.reps.marks == (Mark.TO_COME,) * 6
    assert "10 s left" in words(screen.timer)


def test_a_stopped_set_says_what_became_of_its_reps(qtbot: QtBot) -> None:
    stage = Stage(qtbot, asked=replace(ASKED, hold_s=3.0))
    stage.run(19.0)
    stage.session.end_set()
    stage.run(0.1)
    assert words(stage.screen.cue) == "Set ended"
    assert words(stage.screen.reps).startswith("1 complete, 1 stopped of 6: ")
    assert list(stage.screen.reps.marks) == [Mark.COMPLETE, Mark.STOPPED]
    assert not stage.screen.grab().isNull()


def test_without_a_calibration_the_path_says_so_off_its_trace(qtbot: QtBot) -> None:
    screen = Stage(qtbot).run(2.0)
    assert screen.uncalibrated.isVisible()
    for size in SIZES:
        screen.resize(*size)
        box = screen.uncalibrated.geometry()
        assert not box.intersects(screen.path.geometry())
        assert not box.intersects(screen.cue.geometry())
    known = replace(
        BOTH,
        channels=tuple(
            replace(one, calibration=replace(one.calibration, label="7"))
            for one in BOTH.channels
        ),
    )
    assert not Stage(qtbot, profile=known).run(0.5).uncalibrated.isVisible()


def test_another_plan_takes_the_last_set_off_the_screen(qtbot: QtBot) -> None:
    stage = Stage(
        qtbot, lambda t: 120.0 if t < 2 else 0.0, asked=replace(ASKED, reps=1)
    )
    stage.run(3.0)
    assert words(stage.screen.cue) == "Set done"
    assert words(stage.screen.reps) == "1 short of 1: short"
    assert list(stage.screen.reps.marks) == [Mark.SHORT]
    stage.screen.plan(BOTH, replace(ASKED, reps=3, hold_s=20))
    stage.run(0.1)
    assert words(stage.screen.cue) == "No set yet"
    assert list(stage.screen.reps.marks) == [Mark.TO_COME] * 3
    assert "20 s left" in words(stage.screen.timer)


def test_without_signal_all_says_so(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    stage.run(5.0)
    assert stage.screen.balance.bubble_points is not None
    stage.session.silent = True
    screen = stage.run(0.1, live=False)
    assert words(screen.cue) == "No signal"
    assert words(screen.path) == "no signal"
    assert words(screen.balance) == "Left –, right –"
    assert words(screen.timer).startswith("– left")
    assert screen.balance.bubble_points is None


def test_an_unseen_rep_tells_nothing_of_the_force(qtbot: QtBot) -> None:
    asked = replace(ASKED, feedback=FeedbackMode.UNSEEN)
    screen = Stage(qtbot, asked=asked).run(5.0)
    assert words(screen.cue) == "Hold by feel"
    assert screen.path.marker == "nothing"
    assert screen.balance.bubble_points is None
    assert "0 % done" in words(screen.timer)


# The hold timer.


def test_a_lapse_leaves_a_notch_where_the_clock_stood(qtbot: QtBot) -> None:
    def force(time_s: float) -> float:
        if time_s < 1.0:
            return 0.0
        return 90.0 if 4.0 <= time_s < 4.8 else 120.0

    asked = replace(ASKED, clock=ClockRule.BANKED)
    screen = Stage(qtbot, force, asked=asked).run(7.0)
    assert screen.timer.notches == pytest.approx((0.3,), abs=0.01)
    assert "1 lapse" in words(screen.timer)


def test_the_bar_fills_to_its_end(qtbot: QtBot) -> None:
    timer = HoldTimer()
    qtbot.addWidget(timer)
    timer.resize(500, 60)
    for clock_s, filled in ((0.0, 0), (5.0, 250), (10.0, 500)):
        timer.show_state(set_state(clock_s=clock_s), hold_s=10.0, live=True)
        row = timer.grab().toImage()
        ink = DAY.colour("ink").rgb()
        count = sum(row.pixel(x, 8) == ink for x in range(500))
        assert count == pytest.approx(filled, abs=6), clock_s


# The balance bar.


@pytest.mark.parametrize(
    ("left_n", "right_n", "points", "text"),
    [
        (50.0, 50.0, 0.0, "Left 50 %, right 50 %"),
        (60.0, 40.0, -10.0, "Left 60 %, right 40 %"),
        (40.0, 60.0, 10.0, "Left 40 %, right 60 %"),
        (0.0, 80.0, 50.0, "Left 0 %, right 100 %"),
        (-3.0, 80.0, 50.0, "Left 0 %, right 100 %"),
    ],
)
def test_the_bubble_goes_to_the_heavier_side(
    qtbot: QtBot, left_n: float, right_n: float, points: float, text: str
) -> None:
    bar = BalanceBar()
    qtbot.addWidget(bar)
    bar.show_forces(1.0, left_n, right_n)
    assert bar.bubble_points == pytest.approx(points)
    assert words(bar) == text


def test_no_tolerance_at_all_is_not_drawn_as_one(qtbot: QtBot) -> None:
    """Of 51 % the bubble is half and half within 5 points, solid within none."""
    bar = BalanceBar()
    qtbot.addWidget(bar)
    bar.resize(600, 60)
    bar.show_forces(1.0, 49.0, 51.0)
    bar.set_tolerance(None)
    within = bar.grab().toImage()
    bar.set_tolerance(5.0)
    assert bar.grab().toImage() == within
    bar.set_tolerance(0.0)
    assert bar.grab().toImage() != within


@pytest.mark.parametrize(
    ("left_n", "right_n"), [(1.0, 2.0), (float("nan"), 50.0), (-40.0, 40.0)]
)
def test_too_little_or_no_force_has_no_bubble(
    qtbot: QtBot, left_n: float, right_n: float
) -> None:
    bar = BalanceBar()
    qtbot.addWidget(bar)
    bar.show_forces(1.0, 50.0, 50.0)
    bar.show_forces(1.1, left_n, right_n)
    assert bar.bubble_points is None
    assert words(bar) == "Left –, right –"


def test_the_figures_change_four_times_a_second_at_most(qtbot: QtBot) -> None:
    bar = BalanceBar()
    qtbot.addWidget(bar)
    changes = 0
    before = ""
    for i in range(60):
        bar.show_forces(i / 60, 50.0 - i % 7, 50.0)
        changes += words(bar) != before
        before = words(bar)
    assert changes <= 5


def test_left_is_hollow_and_right_is_filled(qtbot: QtBot) -> None:
    bar = BalanceBar()
    qtbot.addWidget(bar)
    bar.resize(800, 90)
    ink, paper = DAY.colour("ink").rgb(), DAY.colour("paper").rgb()
    for left_n, right_n, middle in ((65, 35, paper), (35, 65, ink)):
        bar.show_forces(0.0, float(left_n), float(right_n))
        points = bar.bubble_points
        assert points is not None
        x = round(bar._x(points))
        assert bar.grab().toImage().pixel(x, 45) == middle


def test_one_channel_hides_the_balance_bar(qtbot: QtBot) -> None:
    two = Stage(qtbot).run(0.1)
    one = Stage(qtbot, lambda _: 50.0, profile=ONE).run(0.1)
    assert two.balance.isVisible()
    assert not one.balance.isVisible()
    assert one.path.height() > two.path.height(), "the path takes the room"


def test_one_working_side_hides_the_balance_bar(qtbot: QtBot) -> None:
    asked = replace(ASKED, task=Task("left alone", sides=Sides.LEFT))
    assert not Stage(qtbot, asked=asked).run(0.1).balance.isVisible()
    profile = profile_of(Side.RIGHT, Side.LEFT)  # whichever comes first
    screen = Stage(qtbot, lambda _: (60.0, 20.0), profile=profile).run(0.5)
    assert screen.balance.bubble_points == pytest.approx(25.0)


# The rep row.


def set_state(phase: Phase = Phase.REP, **changed: object) -> SetState:
    state = SetState(
        time_s=1.0,
        phase=phase,
        position=Position.INSIDE,
        clock_s=0.0,
        running=True,
        hold_s=10.0,
        rep_start_s=0.0,
        lapse_clock_s=(),
        rep_number=1,
        reps=6,
        outcomes=(),
        rest_left_s=0.0,
        over_ceiling=False,
        band=ASKED.band,
    )
    return replace(state, **changed)  # type: ignore[arg-type]  # named as fields


def test_each_outcome_has_a_mark_of_its_own() -> None:
    outcomes = (Outcome.COMPLETE, Outcome.SHORT, Outcome.STOPPED, Outcome.VOID)
    assert marks_of(set_state(outcomes=outcomes), reps=6) == (
        Mark.COMPLETE,
        Mark.SHORT,
        Mark.STOPPED,
        Mark.VOID,
        Mark.UNDER_WAY,
        Mark.TO_COME,
    )
    stopped = set_state(Phase.DONE, outcomes=(Outcome.STOPPED,))
    assert marks_of(stopped, reps=6) == (Mark.STOPPED,)


def test_the_shapes_differ_without_colour(qtbot: QtBot) -> None:
    """Each two marks differ in many pixels of a picture in black and white."""
    row = RepRow()
    qtbot.addWidget(row)
    row.resize(900, 60)
    pictures: dict[Mark, list[bool]] = {}
    for mark in Mark:
        row._marks = (mark,)
        row.update()
        image = row.grab().toImage()
        pictures[mark] = [
            image.pixelColor(x, y).lightnessF() < 0.5
            for x in range(250, 306)
            for y in range(60)
        ]
    marks = list(Mark)
    for i, first in enumerate(marks):
        for second in marks[:i]:
            pairs = zip(pictures[first], pictures[second], strict=True)
            assert sum(a != b for a, b in pairs) > 60, (first, second)


def test_a_cell_at_its_stop_says_to_ease_off(qtbot: QtBot) -> None:
    stage = Stage(qtbot, lambda t: 110.0 if t < 2.0 else math.nan)
    assert words(stage.run(1.5).cue) == "Stay there"
    assert words(stage.run(1.0).cue) == "Off scale: ease off"


@pytest.mark.parametrize("size", SIZES)
def test_the_line_at_the_foot_takes_nothing_from_the_path(
    qtbot: QtBot, size: tuple[int, int]
) -> None:
    screen = Stage(qtbot).screen
    screen.resize(*size)
    before = screen.path.geometry()
    screen.want_line(wanted=True)
    assert screen.path.geometry() == before
    line, row = screen.breath.geometry(), screen.reps.geometry()
    assert not line.intersects(row)
    assert line.right() < size[0]
    assert line.height() * 0.76 * 0.7 >= size[1] * 0.045  # capitals of 13.5 mm of 300
    screen.want_line(wanted=False)
    assert screen.reps.width() == row.width() + line.width()


def test_between_two_sets_it_is_rest_or_wait(qtbot: QtBot) -> None:
    stage = Stage(qtbot, begin=False)
    for left_s, wanted in ((None, Cue.NO_SET), (42.0, Cue.REST), (0.0, Cue.WAIT)):
        stage.screen.between_sets_s = left_s
        stage.run(0.1)
        assert stage.screen.shown_cue is wanted
        if left_s:
            assert words(stage.screen.cue) == "Rest 0:42"


def test_very_many_reps_show_the_one_under_way(qtbot: QtBot) -> None:
    row = RepRow()
    qtbot.addWidget(row)
    row.resize(900, 60)
    state = set_state(reps=1000, outcomes=(Outcome.COMPLETE,) * 500, rep_number=501)
    row.show_state(state, reps=1000)
    row.grab()
    assert words(row).startswith("Rep 501 of 1000")
    assert Mark.UNDER_WAY in row._window(40)
    assert len(row._window(40)) == 40


def inked(row: RepRow) -> list[int]:
    """Columns of pixels with something in them, from the left."""
    image = row.grab().toImage()
    return [
        x
        for x in range(row.width())
        if any(image.pixelColor(x, y).lightnessF() < 0.5 for y in range(row.height()))
    ]


@pytest.mark.parametrize("width", [560, 700, 870])
def test_a_long_count_stays_clear_of_the_first_mark(qtbot: QtBot, width: int) -> None:
    row = RepRow()
    qtbot.addWidget(row)
    row.resize(width, 72)
    outcomes = (*[Outcome.COMPLETE] * 3, Outcome.STOPPED)
    row.show_state(set_state(Phase.DONE, outcomes=outcomes), reps=5)
    both = inked(row)
    row._marks = ()
    row.update()
    end = inked(row)[-1]
    assert min(x for x in both if x > end) - end >= 20, "as a space between words"


# Pictures of each state, for the eye.

STATES: dict[str, tuple[Prescription, RigProfile, Force, float]] = {
    "waiting": (ASKED, BOTH, steady_pull, 0.4),
    "inside": (ASKED, BOTH, steady_pull, 6.0),
    "above": (ASKED, BOTH, lambda t: 150.0 if t > 1 else 2.0, 6.0),
    "too much": (ASKED, BOTH, lambda t: 195.0 if t > 1 else 2.0, 6.0),
    "rest": (ASKED, BOTH, steady_pull, 14.0),
    "one channel": (ASKED, ONE, lambda t: 120.0 if t > 1 else 2.0, 6.0),
}


@pytest.mark.parametrize("name", list(STATES))
def test_a_picture_of_each_state(qtbot: QtBot, tmp_path: Path, name: str) -> None:
    asked, profile, force, seconds = STATES[name]
    stage = Stage(qtbot, force, asked=asked, profile=profile)
    screen = stage.run(seconds)
    for size in SIZES:
        for theme in (DAY, NIGHT):
            screen.resize(*size)
            screen.set_theme(theme)
            stage.run(FRAME_S)
            picture = screen.grab()
            assert picture.save(str(tmp_path / f"{name} {size[1]} {theme.name}.png"))
            assert_in_its_place(screen)


def assert_in_its_place(screen: AthleteScreen) -> None:
    """Nothing is cut, nothing overlaps, and the timer is as wide as the plot."""
    parts = [part for part in screen._parts if part.isVisible()]
    for part in parts:
        assert screen.rect().contains(part.geometry()), part.accessibleName()
    for above, below in itertools.pairwise(parts):
        assert above.geometry().bottom() < below.geometry().top()
    plot = screen.path.plot_box()
    assert screen.timer.x() == pytest.approx(screen.path.x() + plot.x(), abs=1)
    assert screen.timer.width() == pytest.approx(plot.width(), abs=1)
