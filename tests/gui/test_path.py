"""The path: the fast picture equals the slow one, and nothing stale is shown."""

from __future__ import annotations

import gc
import itertools
import math
import weakref
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
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
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication

from biofeedback.conditioning.profile import RigProfile, Side
from biofeedback.gui.column_ring import ColumnRing
from biofeedback.gui.path import Path
from biofeedback.gui.theme import DAY, NIGHT
from biofeedback.session import TermsChanged
from biofeedback.training.band import Band
from biofeedback.training.changes import Terms
from biofeedback.training.feedback import Cue, cue
from biofeedback.training.prescription import BandOn, FeedbackMode, Prescription
from biofeedback.training.task import TaskKind

if TYPE_CHECKING:
    from collections.abc import Callable

    import numpy.typing as npt
    from pytestqt.qtbot import QtBot

    Force = Callable[[float], float | tuple[float, ...]]


RGB = QImage.Format.Format_RGB32


class Stage:
    """A path on a staged session, painted frame by frame."""

    def __init__(
        self,
        qtbot: QtBot,
        force_n: Force = steady_pull,
        *,
        asked: Prescription = ASKED,
        profile: RigProfile = BOTH,
    ) -> None:
        self.session = StagedSession(force_n, profile=profile)
        self.path = Path(asked)
        qtbot.addWidget(self.path)
        self.path.resize(700, 300)
        self.path.set_up(profile, asked)
        self.path.show()
        self.session.begin_set(asked)

    def frame(self, seconds: float = FRAME_S, *, live: bool = True) -> None:
        self.session.advance(seconds)
        update = self.session.take()
        told = cue(update.state, live=live)
        self.path.take(update.blocks, update.events, update.state, live=live, cue=told)
        self.path._refresh_ring()  # as each paint event begins

    def run(self, seconds: float) -> None:
        for _ in range(round(seconds / FRAME_S)):
            self.frame()
        self.path.grab()

    def fast(self) -> npt.NDArray[np.int16]:
        return image_of(self.path.ring)

    def slow(self) -> npt.NDArray[np.int16]:
        ring = ColumnRing()
        ring.resize(self.path.ring.width, self.path.height())
        newest_s = self.path.content.store.newest_s or 0.0
        end = math.floor(newest_s * self.path._columns_per_s) + 1
        ring.refresh(self.path.picture, end)
        return image_of(ring)

    def assert_same(self) -> None:
        fast, slow = self.fast(), self.slow()
        assert fast.std() > 5, "an empty picture proves nothing"
        # Qt clips a wide line a little differently for another clip, which shows
        # in the half tones of its rim. A line that is missing, doubled or shifted
        # by one column differs by its whole contrast and in many more pixels.
        off = np.abs(fast - slow).max(axis=2)
        assert off.max() <= 60, np.argwhere(off > 60)[:5]
        assert (off > 0).mean() < 0.003


def image_of(ring: ColumnRing) -> npt.NDArray[np.int16]:
    height = ring.height
    image = QImage(ring.width, height, QImage.Format.Format_RGB32)
    image.fill(QColor("magenta"))
    painter = QPainter(image)
    ring.blit(painter, 0, 0)
    painter.end()
    pixels = np.frombuffer(image.constBits(), dtype=np.uint8)
    return pixels.reshape(height, ring.width, 4)[:, :, :3].astype(np.int16)


# The ring of columns.


@pytest.mark.parametrize("rate_hz", [7.0, 80.0, 1000.0])
def test_the_ring_equals_the_slow_picture(qtbot: QtBot, rate_hz: float) -> None:
    profile = profile_of(Side.LEFT, Side.RIGHT, rate_hz=rate_hz)
    stage = Stage(qtbot, profile=profile)
    for seconds in (0.4, 3.0, 8.0, 4.0):  # before, within and after a whole lap
        stage.run(seconds)
        stage.assert_same()


def test_the_ring_equals_the_slow_picture_with_two_lines(qtbot: QtBot) -> None:
    asked = replace(ASKED, band_on=BandOn.EACH_SIDE, band=Band(50, 65), ceiling_n=None)
    stage = Stage(qtbot, asked=asked)
    stage.run(12.7)
    stage.assert_same()


def test_only_new_columns_are_drawn(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    stage.run(5.0)
    before = stage.path.ring.drawn_columns
    stage.run(1.0)
    drawn = stage.path.ring.drawn_columns - before
    columns_per_s = stage.path.ring.width / 10.0
    # Each of 60 frames draws its own columns and the margin before them again.
    assert drawn <= columns_per_s + 61 * stage.path.picture.margin
    assert drawn < 60 * stage.path.ring.width / 10


def test_nudges_stay_in_the_past(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    stage.run(4.0)
    stage.session.change_band(Band(100, 124))
    stage.run(1.5)
    stage.session.change_band(Band(112, 136))
    stage.run(1.0)
    stage.assert_same()
    history = stage.path.content.history
    bands = [history[i].band for i in history.at(np.array([3.0, 5.0, 6.3]))]
    assert bands == [ASKED.band, Band(100, 124), Band(112, 136)]


def test_gaps_pauses_and_bad_samples_are_breaks(qtbot: QtBot) -> None:
    def force(time_s: float) -> tuple[float, float]:
        return (math.nan, 1.0) if 5.0 < time_s < 5.3 else steady_pull(time_s)

    stage = Stage(qtbot, force)
    stage.run(3.0)
    stage.session.silent = True
    stage.run(0.3)
    stage.session.silent = False
    stage.run(4.0)
    stage.session.pause(0.6)
    stage.run(1.0)
    stage.assert_same()
    ink = np.all(stage.fast() == rgb(DAY.ink), axis=2)
    columns_per_s = stage.path.ring.width / 10.0
    newest_s = stage.path.content.store.newest_s
    assert newest_s is not None
    for middle_s in (3.15, 5.15, 7.6):
        column = round(stage.path.ring.width - (newest_s - middle_s) * columns_per_s)
        assert not ink[:, column - 3 : column + 3].any(), middle_s
        assert ink[:, column - 30 : column + 30].any()


def test_a_long_stall_is_caught_up(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    stage.run(2.0)
    stage.frame(7.3)
    stage.assert_same()
    stage.frame(25.0)  # more than the path shows
    stage.assert_same()
    stage.run(0.5)
    stage.assert_same()


def test_resize_and_theme_draw_all_anew(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    stage.run(6.0)
    stage.path.resize(1100, 470)
    stage.frame()
    stage.assert_same()
    stage.path.set_theme(NIGHT)
    stage.frame()
    stage.assert_same()
    assert stage.fast()[0, 0].tolist() == rgb(NIGHT.paper)
    stage.run(3.0)
    stage.assert_same()


def test_what_was_laid_out_before_is_let_go_at_once(qtbot: QtBot) -> None:
    """Left to the collector, its pixmaps would end in whatever thread that runs in."""
    stage = Stage(qtbot)
    stage.run(0.2)
    path = stage.path
    collects = gc.isenabled()
    gc.disable()
    before = [
        weakref.ref(one)
        for one in (path._overlay, path._picture, path._ahead, path._margins)
    ]
    path.lay_out()
    left = [one() for one in before]
    if collects:
        gc.enable()
    assert left == [None] * 4


def test_a_new_set_turns_the_page(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    stage.run(5.0)
    stage.session.begin_set(ASKED)
    stage.run(1.0)
    newest_s = stage.path.content.store.newest_s
    assert newest_s is not None
    assert newest_s < 1.1
    stage.assert_same()


def test_a_board_that_starts_again_turns_the_page(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    stage.run(5.0)
    stage.session._start = stage.session._index  # sample time is 0 again
    stage.run(1.0)
    newest_s = stage.path.content.store.newest_s
    assert newest_s is not None
    assert newest_s < 1.1
    stage.assert_same()


def rgb(colour: str) -> list[int]:
    made = QColor(colour)
    return [made.blue(), made.green(), made.red()]


# A frame paints what is new; all else is left as it was painted before.


@pytest.mark.parametrize("paged", [False, True])
@pytest.mark.parametrize("kind", [TaskKind.HOLD, TaskKind.LOWERING, TaskKind.MAXIMAL])
def test_what_is_left_as_it_was_is_what_would_be_drawn(
    qtbot: QtBot, kind: TaskKind, *, paged: bool
) -> None:
    asked = replace(ASKED, task=replace(ASKED.task, kind=kind), hold_s=3.0, rest_s=2.0)
    if kind is TaskKind.LOWERING:
        asked = replace(asked, band=Band.at_least(40))

    def force(time_s: float) -> float:
        """In and out of the band, with rests."""
        pull_n = 120.0 + 25.0 * math.sin(3.0 * time_s)
        return pull_n if time_s % 8 < 6 else 0.0

    stage = Stage(qtbot, force, asked=asked)
    stage.path.set_paged(paged=paged)
    looks = set()
    for number in range(1200):
        stage.frame(live=not 500 < number < 520)
        if number == 700:
            stage.session.change_band(Band(100, 124))
        QApplication.processEvents()
        if number % 7 == 0:
            seen = stage.path.screen().grabWindow(stage.path.winId()).toImage()
            whole = stage.path.grab().toImage()
            same = seen.convertToFormat(RGB) == whole.convertToFormat(RGB)
            assert same, number
            looks.add(stage.path.accessibleDescription())
    assert len(looks) > 2


@pytest.mark.parametrize("band_on", [BandOn.TOTAL, BandOn.EACH_SIDE])
@pytest.mark.parametrize("feedback", [FeedbackMode.UNSEEN, FeedbackMode.OUTSIDE])
def test_another_size_or_theme_in_a_set_leaves_nothing_of_the_one_before(
    qtbot: QtBot, feedback: FeedbackMode, band_on: BandOn
) -> None:
    """Against a picture for which all that is kept is made anew."""
    asked = replace(ASKED, feedback=feedback, band_on=band_on, hold_s=3.0, rest_s=2.0)
    asked = replace(asked, ceiling_n=None)

    def force(time_s: float) -> tuple[float, float]:
        pull_n = 120.0 + 25.0 * math.sin(3.0 * time_s)
        return (pull_n, 1.02 * pull_n) if time_s % 8 < 6 else (0.0, 0.0)

    stage = Stage(qtbot, force, asked=asked)
    path = stage.path
    changes: dict[int, Callable[[], None]] = {
        60: lambda: path.resize(620, 299),
        110: lambda: path.set_theme(NIGHT),
        160: lambda: stage.session.change_band(Band(100, 320)),  # beyond the scale
        210: lambda: path.set_paged(paged=True),
        260: lambda: path.resize(701, 260),
        310: lambda: path.set_paged(paged=False),
        360: lambda: stage.session.change_band(Band(100, 130)),
    }
    for number in range(420):
        stage.frame()
        changes.get(number, lambda: None)()
        QApplication.processEvents()
        if number % 10 == 5:
            seen = path.screen().grabWindow(path.winId()).toImage()
            path.lay_out()
            anew = path.grab().toImage()
            assert_same_but_for_a_pixel_aside(pixels_of(seen), pixels_of(anew), number)
            QApplication.processEvents()


def pixels_of(image: QImage) -> npt.NDArray[np.int16]:
    whole = image.convertToFormat(RGB)
    pixels = np.frombuffer(whole.constBits(), np.uint8)
    return pixels.reshape(whole.height(), whole.width(), 4)[..., :3].astype(np.int16)


def assert_same_but_for_a_pixel_aside(
    seen: npt.NDArray[np.int16], anew: npt.NDArray[np.int16], number: int
) -> None:
    """The band to come may stand a pixel aside: it does not go to and fro by one."""
    apart = [
        np.abs(seen - np.roll(anew, columns, axis=1)).max(axis=2)
        for columns in (-1, 0, 1)
    ]
    assert np.min(apart, axis=0).max() <= 24, number  # half tones of its way in


# The band.


def share_of(stage: Stage, colour: str, since_s: float) -> float:
    """How much of the newest `since_s` of the band's rows has a colour."""
    top, foot = stage.path.picture.rows(ASKED.band)
    columns = round(since_s * stage.path.ring.width / 10.0)
    rows = stage.fast()[top + 1 : foot - 1, -columns - 8 : -8]
    return float(np.all(rows == rgb(colour), axis=2).mean())


def test_inside_is_dense_and_outside_is_hatched(qtbot: QtBot) -> None:
    inside = Stage(qtbot, lambda _: 120.0)
    inside.run(4.0)
    assert share_of(inside, DAY.dense, 2.0) > 0.8
    assert share_of(inside, DAY.wash, 2.0) == 0
    outside = Stage(qtbot, lambda _: 160.0)
    outside.run(4.0)
    assert share_of(outside, DAY.dense, 2.0) == 0
    assert 0.3 < share_of(outside, DAY.wash, 2.0) < 0.95
    assert share_of(outside, DAY.hatch, 2.0) > 0.02


def test_the_edges_thicken_inside(qtbot: QtBot) -> None:
    def edge_rows(force_n: float) -> int:
        stage = Stage(qtbot, lambda _: force_n)
        stage.run(4.0)
        _, foot = stage.path.picture.rows(ASKED.band)
        column = stage.fast()[foot : foot + 12, -40]
        return int(np.all(column == rgb(DAY.edge), axis=1).sum())

    assert edge_rows(120.0) > edge_rows(160.0) >= 2


# The marker, and what is not live.


@pytest.mark.parametrize(
    ("force_n", "marker"), [(80.0, "up"), (120.0, "disc"), (160.0, "down")]
)
def test_the_marker_points_to_the_band(
    qtbot: QtBot, force_n: float, marker: str
) -> None:
    stage = Stage(qtbot, lambda _: force_n)
    stage.run(1.0)
    assert stage.path.marker == marker
    assert marker in stage.path.accessibleDescription()


@pytest.mark.parametrize(("force_n", "marker"), [(215.0, "disc"), (235.0, "down")])
def test_above_a_ceiling_in_an_open_band_the_marker_points_down(
    qtbot: QtBot, force_n: float, marker: str
) -> None:
    asked = replace(ASKED, band=Band.at_least(192.0), ceiling_n=230.0)
    stage = Stage(qtbot, lambda _: force_n, asked=asked)
    stage.run(1.0)
    assert stage.path.marker == marker


def test_each_side_has_its_marker(qtbot: QtBot) -> None:
    asked = replace(ASKED, band_on=BandOn.EACH_SIDE, band=Band(50, 70), ceiling_n=None)
    stage = Stage(qtbot, lambda _: (40.0, 60.0), asked=asked)
    stage.run(1.0)
    assert stage.path.marker == "up disc"


def test_in_a_rest_nothing_points(qtbot: QtBot) -> None:
    stage = Stage(qtbot, lambda t: 120.0 if t < 12 else 0.0)
    stage.run(13.0)
    assert stage.path.marker == "ring"


def test_without_signal_there_is_no_marker_and_no_longer_trace(qtbot: QtBot) -> None:
    stage = Stage(qtbot, lambda _: 120.0)
    stage.run(4.0)
    before = stage.fast()
    stage.session.silent = True
    for _ in range(60):
        stage.frame(live=False)
    assert stage.path.marker == "nothing"
    assert stage.path.accessibleDescription() == "no signal"
    assert np.array_equal(stage.fast(), before)


def test_a_saturated_sample_has_no_marker(qtbot: QtBot) -> None:
    def force(time_s: float) -> tuple[float, float]:
        return (math.nan, 60.0) if time_s > 2.0 else (60.0, 60.0)

    stage = Stage(qtbot, force)
    stage.run(1.9)
    assert stage.path.marker == "disc"
    stage.run(0.3)
    assert stage.path.marker == "nothing"


# Unseen reps.


def test_an_unseen_rep_is_shown_only_afterwards(qtbot: QtBot) -> None:
    asked = replace(ASKED, feedback=FeedbackMode.UNSEEN, hold_s=3.0)

    def force(time_s: float) -> float:
        return 120.0 if 1.0 <= time_s < 5.0 else 0.0

    stage = Stage(qtbot, force, asked=asked)
    stage.run(3.5)
    assert stage.path.marker == "nothing"
    stage.assert_same()
    row = stage.path.picture.rows(Band(119.9, 120.1))[0]
    rows = slice(row - 4, row + 4)
    ink = rgb(DAY.ink)
    assert not np.all(stage.fast()[rows] == ink, axis=2).any()
    assert share_of(stage, DAY.dense, 1.0) == 0
    assert share_of(stage, DAY.hatch, 1.0) == 0
    stage.run(2.5)
    stage.assert_same()
    assert np.all(stage.fast()[rows] == ink, axis=2).any(axis=0).sum() > 100


# The scale.


def test_the_scale_stays_for_the_set_until_the_band_leaves_it(qtbot: QtBot) -> None:
    # Far above: the scale does not follow.
    stage = Stage(qtbot, lambda _: 500.0, asked=replace(ASKED, ceiling_n=None))
    scale = stage.path.content.scale
    stage.run(1.0)
    assert stage.path.content.scale == scale
    stage.session.change_band(Band(300, 330))
    stage.run(0.2)
    assert stage.path.content.scale.holds(Band(300, 330))
    stage.assert_same()


def test_a_rig_without_the_side_draws_nothing(qtbot: QtBot) -> None:
    path = Path(ASKED)
    qtbot.addWidget(path)
    path.set_up(ONE, replace(ASKED, band_on=BandOn.LEFT))
    session = StagedSession(lambda _: 50.0, profile=ONE)
    session.advance(0.1)
    update = session.take()
    path.take(update.blocks, update.events, None, live=True, cue=Cue.NO_SET)
    path.grab()
    assert path.marker == "nothing"


def test_inside_the_band_the_line_is_hidden_where_only_errors_are_shown(
    qtbot: QtBot,
) -> None:
    asked = replace(ASKED, feedback=FeedbackMode.OUTSIDE)
    inside_n, below_n = asked.band.centre_n, asked.band.lower_n / 2
    stage = Stage(
        qtbot, lambda at_s: inside_n if 1 < at_s < 2 else below_n, asked=asked
    )
    stage.run(0.9)
    assert stage.path.content.markers()
    stage.run(0.9)
    assert stage.path.content.markers() == []
    stage.assert_same()
    stage.run(0.7)  # out again: what was hidden is told
    assert stage.path.content.markers()
    stage.assert_same()


def test_every_second_rep_is_withheld(qtbot: QtBot) -> None:
    asked = replace(
        ASKED, feedback=FeedbackMode.ALTERNATE, hold_s=0.5, reps=2, rest_s=0
    )
    force_n = asked.band.centre_n
    stage = Stage(
        qtbot, lambda at_s: force_n if int(at_s) % 2 == 1 else 0.0, asked=asked
    )
    seen = []
    for _ in range(2):
        stage.run(1.4)
        seen.append(bool(stage.path.content.markers()))
        stage.run(0.6)
    assert seen == [True, False]


def test_another_number_of_reps_is_followed(qtbot: QtBot) -> None:
    stage = Stage(qtbot, asked=ASKED)
    stage.path.content.take_event(
        TermsChanged(0.0, Terms(reps=ASKED.reps), Terms(reps=7), "")
    )
    assert stage.path.content.asked == replace(ASKED, reps=7)


def test_above_its_ceiling_an_open_band_is_not_filled(qtbot: QtBot) -> None:
    """Dense up to the ceiling, hatched above it; the clock counts both."""
    asked = replace(ASKED, band=Band.at_least(40), ceiling_n=100.0)

    def filled(force_n: float) -> float:
        stage = Stage(qtbot, lambda _: force_n, asked=asked)
        stage.run(3.0)
        stage.assert_same()
        return share_of(stage, DAY.dense, 1.0)

    assert filled(70.0) > 0.1
    assert filled(130.0) == 0


def test_a_lowering_is_told_its_tempo(qtbot: QtBot) -> None:
    """The slope stands right of now, and only where something is to be lowered."""
    hold = replace(ASKED, band=Band.at_least(40), ceiling_n=None, hold_s=4.0)
    lowering = replace(hold, task=replace(ASKED.task, kind=TaskKind.LOWERING))

    def picture(asked: Prescription) -> tuple[npt.NDArray[np.uint8], int]:
        stage = Stage(qtbot, lambda _: 0.0, asked=asked)
        stage.run(1.0)
        image = stage.path.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
        pixels = np.frombuffer(image.constBits(), dtype=np.uint8)
        return (
            pixels.reshape(image.height(), image.width(), 4).copy(),
            stage.path._place.past,
        )

    (plain, now), (told, _) = picture(hold), picture(lowering)
    differ = (plain != told).any(axis=2).any(axis=0)
    assert not differ[: now - 8].any()
    assert differ[now:].sum() > 50


# With reduced motion it turns page by page.


def grabbed(stage: Stage) -> npt.NDArray[np.int16]:
    """The plot alone, as it is on the screen."""
    picture = stage.path.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
    pixels = np.frombuffer(picture.constBits(), dtype=np.uint8)
    whole = pixels.reshape(picture.height(), picture.width(), 4)[:, :, :3]
    box = stage.path.plot_box()
    plot = whole[:, round(box.x()) : round(box.x() + box.width())]
    return plot.astype(np.int16)


@pytest.mark.parametrize("paged", [True, False])
def test_on_a_page_what_was_stands_still(qtbot: QtBot, *, paged: bool) -> None:
    stage = Stage(qtbot)
    stage.path.set_paged(paged=paged)
    stage.run(4.0)
    now = stage.path._place.now_x(stage.path._refresh_ring())
    before = grabbed(stage)
    stage.run(1.0)
    after = grabbed(stage)
    past = slice(0, now - 20)  # left of the marker
    assert before[:, past].std() > 5, "an empty picture proves nothing"
    assert np.array_equal(before[:, past], after[:, past]) is paged


def test_a_page_turns_and_keeps_some_of_what_was(qtbot: QtBot) -> None:
    stage = Stage(qtbot)
    stage.path.set_paged(paged=True)
    places, width = [], stage.path._place.width
    for _ in range(round(21.0 / FRAME_S)):
        stage.frame()
        places.append(stage.path._place.now_x(stage.path._refresh_ring()))
    turns = sum(after < before for before, after in itertools.pairwise(places))
    assert turns == 2  # ten seconds to a page
    assert min(places) >= round(width / 6)  # of what was
    assert max(places) <= width - round(width / 6) + 1  # of what is to come
    stage.path.grab()
    stage.assert_same()
