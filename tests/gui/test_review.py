"""The review page on invented reps."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from gui.staged_session import BOTH, ONE

from biofeedback.errors import FileError
from biofeedback.gui.review import ReviewPage
from biofeedback.gui.review_rows import measure_rows, with_unit
from biofeedback.gui.theme import NIGHT
from biofeedback.training.band import Band

if TYPE_CHECKING:
    from collections.abc import Mapping

    import numpy.typing as npt
    from pytestqt.qtbot import QtBot

    from biofeedback.conditioning.profile import RigProfile

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

    def reps(self) -> list[Rep]:
        return self.saved

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
        "2026-11-25 10:30",
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
    curves = page.plot._plot.listDataItems()
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
