"""The review page on invented reps."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta, timezone
from itertools import pairwise
from typing import TYPE_CHECKING, Any

import numpy as np
import pyqtgraph as pg
import pytest
from gui.staged_session import ASKED, BOTH, ONE
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import Qt

from biofeedback.errors import FileError
from biofeedback.gui.rep_plot import LABEL_PX, Label, in_rows
from biofeedback.gui.review import ReviewPage
from biofeedback.gui.review_rows import (
    mark_rows,
    measure_rows,
    reference_rows,
    rep_row,
    with_unit,
)
from biofeedback.gui.theme import DAY, NIGHT
from biofeedback.gui.words import tip_of
from biofeedback.measures.eccentric_check import CheckSettings
from biofeedback.session.replay import SavedMark
from biofeedback.training.band import Band

if TYPE_CHECKING:
    from collections.abc import Mapping

    import numpy.typing as npt
    from pytestqt.qtbot import QtBot

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.session.lowering import Paired
    from biofeedback.training.prescription import Prescription

MEASURES: dict[str, object] = {
    "mean_n": 119.84,
    "inside_s": 10.0,
    "cv_pct": 2.134,
    "left_share_pct": None,
    "impulse_ns": 1312.5,
    "dose_pct_s": 546.9,
    "lapses": 1,
    "lapse_times_s": [[3.0, 3.6]],
    "symmetry_formula": "(R − L)/(R + L)",
}


@dataclass(frozen=True)
class Rep:
    number: int
    athlete_code: str = "A7"
    started_utc: datetime = datetime(2026, 11, 25, 10, 30, tzinfo=UTC)
    task: str = "Isometric hip hold"
    outcome: str = "complete"
    measures: Mapping[str, object] = field(default_factory=lambda: MEASURES)


@dataclass(frozen=True)
class Trace:
    time_s: npt.NDArray[np.float64]
    force_n: npt.NDArray[np.float64]
    effort_n: npt.NDArray[np.float64]
    profile: RigProfile = BOTH
    bands: tuple[tuple[float, Band], ...] = (
        (1.0, Band(108, 132)),
        (5.0, Band(112, 136)),
    )
    start_s: float = 1.0
    entry_s: float | None = 1.4
    hold_end_s: float = 11.4
    end_s: float = 11.9
    lapses: tuple[tuple[float, float], ...] = ((3.0, 3.6),)
    measures: Mapping[str, object] = field(default_factory=lambda: MEASURES)
    marks: tuple[SavedMark, ...] = ()
    prescription: Prescription = ASKED


def trace_at(rate_hz: float) -> Trace:
    time_s = np.arange(0.0, 13.0, 1 / rate_hz)
    effort_n = 120 + 3 * np.sin(time_s * 5)
    effort_n[100:103] = np.nan
    force_n = np.column_stack((effort_n * 0.45, effort_n * 0.55))
    return Trace(time_s, force_n, effort_n)


class Reps:
    """A library with three reps, one of which has lost its recording."""

    def __init__(self, rate_hz: float = 80.0) -> None:
        self.saved = [Rep(3), Rep(2, outcome="short"), Rep(1)]
        self.rate_hz = rate_hz

    def reps(self, *, athlete_code: str | None = None) -> list[Rep]:
        return [rep for rep in self.saved if athlete_code in (None, rep.athlete_code)]

    def trace(self, row: Any) -> Trace:
        if row.number == 1:
            raise FileError("A7_set.bfr", "the recording is gone.")
        return trace_at(self.rate_hz)


@pytest.fixture
def page(qtbot: QtBot) -> ReviewPage:
    made = ReviewPage(Reps())
    qtbot.addWidget(made)
    made.resize(1280, 720)
    made.show()
    made.reload()
    return made


def test_saved_reps_are_listed_and_the_newest_is_drawn(page: ReviewPage) -> None:
    assert page.heading.text() == "3 saved reps"
    assert page.reps.rows[0] == (
        "A7",
        datetime(2026, 11, 25, 10, 30, tzinfo=UTC)
        .astimezone()
        .strftime("%Y-%m-%d %H:%M %Z"),
        "Isometric hip hold",
        "3",
        "complete",
        "119.8",
        "10.00",
        "2.13",
    )
    assert page.plot.accessibleDescription() == "1.00 s to 11.90 s, 1 lapses"
    assert page.plot.lines_drawn == 3  # left, right and what was judged
    assert not page.grab().isNull()


def test_measures_stand_with_their_units(page: ReviewPage) -> None:
    rows = {name: (value, unit) for name, value, unit in page.measures.rows}
    assert rows["mean"] == ("119.8", "N")
    assert rows["cv"] == ("2.13", "%")
    assert rows["impulse"] == ("1312.5", "N·s")
    assert rows["dose"] == ("546.9", "%·s")
    assert rows["left share"] == ("–", "%")
    assert rows["lapses"] == ("1", "")
    assert "lapse times" not in rows


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("peak_n", ("peak", "N")),
        ("slope_n_per_s", ("slope", "N/s")),
        ("time_to_enter_s", ("time to enter", "s")),
        ("gaps", ("gaps", "")),
    ],
)
def test_the_unit_is_in_the_name(name: str, words: tuple[str, str]) -> None:
    assert with_unit(name) == words


def test_groups_of_measures_keep_their_name() -> None:
    rows = measure_rows({"error": {"rmse_n": 2.0}})
    assert rows == (("error: rmse", "2.00", "N"),)


def test_a_recording_that_is_gone_is_told_and_draws_nothing(page: ReviewPage) -> None:
    page.table.selectRow(2)
    assert "the recording is gone" in page.problem.text()
    assert page.problem.isVisible()
    assert page.plot.lines_drawn == 0
    assert page.measures.rows, "its numbers are in the logbook all the same"
    page.table.selectRow(1)
    assert not page.problem.isVisible()
    assert page.plot.lines_drawn == 3


def test_marks_stand_in_the_figure_and_in_the_table(page: ReviewPage) -> None:
    pain = SavedMark(3.2, "pain", "pain 3 of 10")
    note = SavedMark(6.0, "note", "the strap behind the knee was loosened")
    late = SavedMark(400.0, "pain", "pain 9 of 10")
    trace = replace(trace_at(80.0), marks=(pain, note, late))
    page.plot.show_trace(trace)
    names = [name for name, _ in page.plot.labels]
    assert names[-2:] == ["pain 3 of 10", "the strap behind the kne…"]
    assert mark_rows(trace) == (
        ("pain 3 of 10", "3.20", "s"),
        ("the strap behind the knee was loosened", "6.00", "s"),
    )


def test_force_in_percent_stands_where_there_is_a_reference(page: ReviewPage) -> None:
    assert ("mean", "49.9", "% of 240 N") in page.measures.rows
    bare = replace(trace_at(80.0), prescription=replace(ASKED, reference=None))
    assert reference_rows(bare) == ()


@given(
    st.lists(st.tuples(st.floats(0, 13), st.floats(0.1, 6)), min_size=1, max_size=12)
)
def test_no_name_in_the_figure_covers_another(spans: list[tuple[float, float]]) -> None:
    labels = [Label(time_s, "name", wide_s) for time_s, wide_s in spans]
    placed = in_rows(labels, last_s=13.0)
    assert [label for label, _, _ in placed] == labels
    for label, from_s, _ in placed:
        assert from_s in {label.time_s, label.time_s - label.wide_s}
    for row in {row for *_, row in placed}:
        inside = sorted(
            (from_s, from_s + one.wide_s) for one, from_s, at in placed if at == row
        )
        assert all(end <= start for (_, end), (start, _) in pairwise(inside))


def test_the_figure_begins_at_zero_and_names_lie_above_all_forces(
    page: ReviewPage,
) -> None:
    page.plot.show_trace(trace_at(80.0))
    (_, _), (low_n, top_n) = page.plot._plot.viewRange()
    assert low_n <= 0
    rows = 1 + max(row for _, row in page.plot.labels)
    n_per_px = (top_n - low_n) / page.plot._plot.plotItem.vb.height()
    assert top_n - rows * LABEL_PX * n_per_px >= 136  # the upper edge


def test_left_is_dashed_and_hollow_and_right_solid_and_filled(page: ReviewPage) -> None:
    page.plot.show_trace(trace_at(80.0))
    items = page.plot._plot.listDataItems()
    lines = [item for item in items if isinstance(item, pg.PlotDataItem)]
    dots = [item for item in items if isinstance(item, pg.ScatterPlotItem)]
    left, right = (line.opts["pen"] for line in lines[:2])
    assert left.dashPattern()
    assert not right.dashPattern()
    hollow, filled = (one.opts["brush"].color().name() for one in dots)
    assert hollow == DAY.paper.lower()
    assert filled == DAY.edge.lower()


def test_times_are_local_and_name_their_zone() -> None:
    zone = timezone(timedelta(hours=1), "CET")
    assert rep_row(Rep(1), zone=zone)[1] == "2026-11-25 11:30 CET"


def test_only_the_athlete_who_is_here_is_listed_at_first(qtbot: QtBot) -> None:
    library = Reps()
    library.saved.append(Rep(7, athlete_code="B2"))
    page = ReviewPage(library, athlete_code="B2")
    qtbot.addWidget(page)
    page.reload()
    assert page.heading.text() == "1 saved reps of B2"
    assert [row[0] for row in page.reps.rows] == ["B2"]
    page.all_athletes.click()
    assert len(page.reps.rows) == 4


def test_every_abbreviation_has_a_tip(page: ReviewPage) -> None:
    tip = Qt.ItemDataRole.ToolTipRole
    across = Qt.Orientation.Horizontal
    titles = [page.reps.headerData(i, across, tip) for i in range(8)]
    assert str(titles[-1]).startswith("CV, coefficient of variation")
    for name in ("cv", "error: rmse", "steadiness: cv detrended", "surely inside"):
        assert tip_of(name)
    row = [name for name, *_ in page.measures.rows].index("cv")
    shown = page.measures.data(page.measures.index(row, 0), tip)
    assert str(shown).startswith("CV, coefficient of variation")


def test_no_reps_yet(qtbot: QtBot) -> None:
    page = ReviewPage(None)
    qtbot.addWidget(page)
    page.reload()
    assert page.heading.text() == "No reps are saved yet"
    assert page.plot.lines_drawn == 0


def test_a_fast_recording_is_thinned_before_it_is_drawn(qtbot: QtBot) -> None:
    page = ReviewPage(Reps(rate_hz=10_000.0))
    qtbot.addWidget(page)
    page.reload()
    items = page.plot._plot.listDataItems()
    curves = [item for item in items if isinstance(item, pg.PlotDataItem)]
    assert max(len(curve.xData) for curve in curves if curve.xData is not None) < 5000
    highest = np.nanmax(trace_at(10_000.0).effort_n)
    assert max(np.nanmax(curve.yData) for curve in curves) >= highest - 1e-9


def test_one_channel_is_one_line(page: ReviewPage) -> None:
    trace = trace_at(80.0)
    page.plot.show_trace(replace(trace, force_n=trace.effort_n[:, None], profile=ONE))
    assert page.plot.lines_drawn == 1


def test_an_open_band_and_a_rep_that_never_entered(page: ReviewPage) -> None:
    trace = replace(
        trace_at(80.0), bands=((1.0, Band.at_least(192.0)),), entry_s=None, lapses=()
    )
    page.plot.show_trace(trace)
    page.plot.set_theme(NIGHT)
    assert page.plot.accessibleDescription() == "1.00 s to 11.90 s, 0 lapses"


class Checks:
    """Keeps what it was asked, and gives no results."""

    def __init__(self) -> None:
        self.asked: list[tuple[str, datetime]] = []
        self.kept = CheckSettings()

    def of(self, athlete_code: str, at_utc: datetime) -> tuple[Paired, ...]:
        self.asked.append((athlete_code, at_utc))
        return ()

    def settings(self) -> CheckSettings:
        return self.kept

    def set(self, settings: CheckSettings) -> None:
        self.kept = settings


def test_the_day_of_the_chosen_rep_is_checked(qtbot: QtBot) -> None:
    library, checks = Reps(), Checks()
    library.saved[1] = Rep(2, athlete_code="B2")
    page = ReviewPage(library, checks=checks)
    qtbot.addWidget(page)
    page.show()
    page.reload()
    assert checks.asked == [], "nothing is asked before it is wanted"
    page.check_day.click()
    assert page.eccentric.isVisible()
    assert not page.plot.isVisible()
    page.table.selectRow(1)
    assert [code for code, _ in checks.asked][-1] == "B2"
    days = page.eccentric.settings.days
    days.line.setText("3")
    days.committed.emit()
    assert checks.kept.within_days == 3
    page.check_day.click()
    assert page.plot.isVisible()
