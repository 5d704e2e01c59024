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
from PySide6.QtCore import QCoreApplication, QLocale, Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from biofeedback.errors import FieldError, FileError
from biofeedback.gui import language
from biofeedback.gui.language import shown
from biofeedback.gui.rep_labels import Label, in_rows
from biofeedback.gui.rep_plot import LABEL_PX
from biofeedback.gui.review import PAGE, ReviewPage
from biofeedback.gui.review_rows import (
    mark_rows,
    measure_rows,
    reference_rows,
    rep_row,
    with_unit,
)
from biofeedback.gui.style import style_sheet
from biofeedback.gui.theme import DAY, NIGHT
from biofeedback.gui.words import tip_of
from biofeedback.measures.by_hand import Markers
from biofeedback.measures.eccentric_check import CheckSettings
from biofeedback.phrase import phrase
from biofeedback.session.preferences import Language
from biofeedback.session.replay import SavedMark
from biofeedback.session.review import RepKind, RepsWanted
from biofeedback.training.band import Band
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

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


FOUND = Markers(1.0, 1.4, 11.4)


@dataclass(frozen=True)
class Rep:
    number: int
    athlete_code: str = "A7"
    started_utc: datetime = datetime(2026, 11, 25, 10, 30, tzinfo=UTC)
    task: str = "Isometric hip hold"
    outcome: str = "complete"
    measures: Mapping[str, object] = field(default_factory=lambda: MEASURES)
    kind: str | None = "hold"
    feedback: str = "full"
    void_reason: str | None = None
    pain: int | None = None


@dataclass(frozen=True)
class Move:
    marker: str
    to_s: float | None
    moved_by: str
    moved_utc: datetime = datetime(2026, 11, 26, 9, 0, tzinfo=UTC)


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
    by_hand: tuple[str, ...] = ()
    automatic: Markers = FOUND


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
        self.kept: list[Move] = []
        self.asked: list[RepsWanted | None] = []

    def reps(
        self,
        *,
        athlete_code: str | None = None,
        wanted: RepsWanted | None = None,
        limit: int = PAGE,
        older_than: Any = None,
    ) -> list[Rep]:
        self.asked.append(wanted)
        first = 0 if older_than is None else self.saved.index(older_than) + 1
        found = self.saved[first:]
        if wanted is not None and wanted.kind is RepKind.VOID:
            found = [rep for rep in found if rep.void_reason is not None]
        found = [rep for rep in found if athlete_code in (None, rep.athlete_code)]
        return found[:limit]

    def tasks(self, *, athlete_code: str | None = None) -> list[str]:  # noqa: ARG002
        return sorted({rep.task for rep in self.saved})

    def trace(self, row: Any) -> Trace:
        if row.number == 1:
            raise FileError("A7_set.bfr", phrase("the recording is gone."))
        trace = trace_at(self.rate_hz)
        for move in self.kept:
            trace = replace(trace, entry_s=move.to_s, by_hand=("entry",))
        return trace

    def numbers(self, row: Any, trace: Any) -> Mapping[str, object]:  # noqa: ARG002
        return {"rate_of_force": "needs 500 Hz or more; this was 80 Hz"}

    def moves(self, row: Any) -> list[Move]:  # noqa: ARG002
        return self.kept

    def move(
        self, row: Any, trace: Any, marker: str, to_s: float | None, *, by: str = ""
    ) -> Trace:
        assert marker == "entry"
        if to_s is not None:
            replace(trace.automatic, entry_s=to_s)  # checks the order
        self.kept = [] if to_s is None else [*self.kept, Move(marker, to_s, by)]
        return self.trace(row)

    def undo(self, row: Any, *, by: str = "") -> bool:  # noqa: ARG002
        return bool(self.kept) and bool(self.kept.pop())

    def void(self, row: Any, reason: str, *, by: str = "") -> None:  # noqa: ARG002
        if not reason:
            raise FieldError(
                "void.reason", phrase("must say why the rep does not count.")
            )
        self._say(row, reason)

    def withdraw_void(self, row: Any, reason: str, *, by: str = "") -> None:
        assert reason
        assert by
        self._say(row, None)

    def of_kept_test(self, row: Any) -> str:
        return "The kept test stays." if row.kind == "maximal" else ""

    def _say(self, row: Rep, reason: str | None) -> None:
        at = self.saved.index(row)
        self.saved[at] = replace(row, void_reason=reason)


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
        "training",
        "3",
        "complete",
        "–",
        "119.8",
        "–",
        "10.00",
        "2.13",
    )
    assert page.plot.accessibleDescription() == "1.00 s to 11.90 s, 1 lapse"
    assert page.plot.lines_drawn == 3  # left, right and what was judged
    assert not page.grab().isNull()


def test_measures_stand_with_their_units(page: ReviewPage) -> None:
    rows = {name: (value, unit) for name, value, unit, _ in page.measures.rows}
    assert rows["mean"] == ("119.8", "N")
    assert rows["CV"] == ("2.13", "%")
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
        ("cv_detrended_pct", ("CV detrended", "%")),
        ("rfd_0_50_n_per_s", ("RFD 0–50 ms", "N/s")),
        ("share_8_12_pct", ("power 8–12 Hz", "%")),
        ("mean_n_per_kg", ("mean", "N/kg")),
        ("peak_nm", ("peak", "N·m")),
    ],
)
def test_the_unit_is_in_the_name(name: str, words: tuple[str, str]) -> None:
    assert with_unit(name) == words


def test_groups_of_measures_keep_their_name() -> None:
    rows = measure_rows({"error": {"rmse_n": 2.0}})
    assert rows == (("error: RMSE", "2.00", "N", "not filtered"),)


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
        ("pain 3 of 10", "3.20", "s", ""),
        ("the strap behind the knee was loosened", "6.00", "s", ""),
    )


def test_force_in_percent_stands_where_there_is_a_reference(page: ReviewPage) -> None:
    assert ("mean", "49.9", "% of 240 N", "not filtered") in page.measures.rows
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
    assert page.heading.text() == "1 saved rep of B2"
    assert [row[0] for row in page.reps.rows] == ["B2"]
    page.all_athletes.click()
    assert len(page.reps.rows) == 4


def test_every_abbreviation_has_a_tip(page: ReviewPage) -> None:
    tip = Qt.ItemDataRole.ToolTipRole
    across = Qt.Orientation.Horizontal
    titles = [page.reps.headerData(i, across, tip) for i in range(11)]
    assert str(titles[-1]).startswith("CV, coefficient of variation")
    for name in ("cv", "error: rmse", "steadiness: cv detrended", "surely inside"):
        assert tip_of(name)
    row = [name for name, *_ in page.measures.rows].index("CV")
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


# What is changed by hand.


def test_a_marker_moves_by_key_and_by_mouse_and_comes_back(page: ReviewPage) -> None:
    bar, library = page.bar, page._library
    assert isinstance(library, Reps)
    bar.by.line.setText("KL")
    bar.marker.setCurrentIndex(1)
    assert bar.told.text() == "All times as the rules found them."
    bar.later.click()
    assert [(move.to_s, move.moved_by) for move in library.kept] == [(1.41, "KL")]
    assert "moved by hand (KL, 2026-11-26" in bar.told.text()
    assert "rules: 1.400 s" in bar.told.text()
    assert page.measures.rows[0][:2] == ("times", "moved by hand")
    assert "entry, by hand" in [name for name, _ in page.plot.labels]
    line = page.plot.markers["entry"]
    line.setValue(2.5)
    line.sigPositionChangeFinished.emit(line)
    assert library.kept[-1].to_s == 2.5
    assert page.plot.markers["entry"].value() == 2.5
    bar.undo.click()
    assert page.plot.markers["entry"].value() == 1.41
    bar.automatic.click()
    assert page.plot.markers["entry"].value() == 1.4
    assert page.measures.rows[0][0] != "times"


def test_a_marker_that_may_not_go_there_goes_back(page: ReviewPage) -> None:
    page.plot.marker_dropped.emit("entry", 0.2)
    assert "in order" in page.problem.text()
    assert page.plot.markers["entry"].value() == 1.4


def test_the_keys_move_the_chosen_marker(page: ReviewPage) -> None:
    library = page._library
    assert isinstance(library, Reps)
    page.activateWindow()
    control, shift = (
        Qt.KeyboardModifier.ControlModifier,
        Qt.KeyboardModifier.ShiftModifier,
    )
    QTest.keyClick(page, Qt.Key.Key_Space, control)
    assert page.bar.chosen == "entry"
    QTest.keyClick(page, Qt.Key.Key_Left, control)
    assert library.kept[-1].to_s == pytest.approx(1.39)
    QTest.keyClick(page, Qt.Key.Key_Right, control | shift)
    assert library.kept[-1].to_s == pytest.approx(1.49)
    QTest.keyClick(page, Qt.Key.Key_Z, control)
    assert library.kept[-1].to_s == pytest.approx(1.39)


def test_a_rep_is_void_with_a_reason_and_counts_again(page: ReviewPage) -> None:
    bar = page.bar
    bar.by.line.setText("KL")
    bar.void.click()
    words = "Reason: must say why the rep does not count."
    assert page.problem.text() == words
    assert bar.reason.error.text() == "Must say why the rep does not count."
    bar.reason.line.setText("strap slipped")
    bar.void.click()
    assert page.problem.isHidden()
    assert page.reps.rows[0][5] == "void: strap slipped"
    assert bar.void.text() == "Counts after all"
    bar.reason.line.setText("it was another one")
    bar.void.click()
    assert page.reps.rows[0][5] == "complete"


def test_a_void_trial_of_a_kept_test_says_that_the_test_stays(qtbot: QtBot) -> None:
    library = Reps()
    library.saved[0] = replace(library.saved[0], kind="maximal")
    page = ReviewPage(library)
    qtbot.addWidget(page)
    page.reload()
    page.bar.by.line.setText("KL")
    for words in ("The kept test stays.", ""):
        page.bar.reason.line.setText("strap slipped")
        page.bar.void.click()
        assert page.problem.text() * (not page.problem.isHidden()) == words


def test_kinds_are_told_apart_and_a_void_trial_is_not_complete() -> None:
    kinds = [
        rep_row(replace(Rep(1), **more))[3]
        for more in (
            {},
            {"kind": "maximal"},
            {"kind": "lowering"},
            {"feedback": "unseen"},
            {"kind": None},
        )
    ]
    assert kinds == [
        "training",
        "trial of a test",
        "lowering",
        "training, unseen",
        "training",
    ]
    trial = Rep(1, kind="maximal")
    assert rep_row(trial)[5] == "done"
    assert rep_row(replace(trial, void_reason="slipped"))[5] == "void: slipped"
    assert rep_row(replace(trial, pain=3))[6] == "3"


def test_the_list_is_narrowed_and_goes_on_when_scrolled(page: ReviewPage) -> None:
    library = page._library
    assert isinstance(library, Reps)
    library.saved = [Rep(n) for n in range(450, 1, -1)]
    page.reload()
    assert page.heading.text() == "The latest 200 saved reps; scroll for more"
    for count in (400, 449, 449):
        bar = page.table.verticalScrollBar()
        bar.setValue(bar.minimum())
        bar.setValue(bar.maximum())
        assert len(page.reps.rows) == count
    assert page.heading.text() == "449 saved reps"
    page.filters.kind.setCurrentText("void")
    assert page.heading.text() == "No reps are as chosen"
    page.filters.since.line.setText("2026-01-31")
    page.filters.since.committed.emit()
    wanted = library.asked[-1]
    assert wanted is not None
    assert wanted.since_utc is not None
    assert wanted.since_utc.astimezone().isoformat()[:19] == "2026-01-31T00:00:00"
    page.filters.since.line.setText("31.1.")
    page.filters.since.committed.emit()
    assert "year-month-day" in page.filters.since.error.text()


def test_what_a_measure_means_is_read_by_keyboard(page: ReviewPage) -> None:
    row = [name for name, *_ in page.measures.rows].index("CV")
    page.measure_table.selectRow(row - 1)
    QTest.keyClick(page.measure_table, Qt.Key.Key_Down)
    assert page.meaning.text().startswith("CV, coefficient of variation")
    assert page.meaning.text().endswith("Signal: not filtered.")
    row = [name for name, *_ in page.measures.rows].index("inside")
    page.measure_table.selectRow(row)
    assert page.meaning.text().endswith("Signal: shown force.")


def test_zoom_shows_less_and_more_of_it(page: ReviewPage) -> None:
    whole = page.plot.seen_s
    page.bar.closer.click()
    near = page.plot.seen_s
    assert near[1] - near[0] < whole[1] - whole[0]
    page.bar.on.click()
    assert page.plot.seen_s[0] > near[0]
    for _ in range(9):
        page.bar.on.click()
    assert page.plot.seen_s[1] == pytest.approx(whole[1])
    page.bar.whole.click()
    assert page.plot.seen_s == whole


def test_balance_over_time_stands_under_the_force(page: ReviewPage) -> None:
    assert page.plot._balance.isVisible()
    (line,) = page.plot._balance.listDataItems()
    shares = line.yData[np.isfinite(line.yData)]
    assert shares == pytest.approx(55.0)
    assert np.nanmin(line.xData[np.isfinite(line.yData)]) >= 1.0
    trace = trace_at(80.0)
    page.plot.show_trace(replace(trace, force_n=trace.effort_n[:, None], profile=ONE))
    assert not page.plot._balance.isVisible()


def test_one_side_alone_has_no_balance_though_the_rig_has_two_cells(
    page: ReviewPage,
) -> None:
    trace = trace_at(80.0)
    task = replace(trace.prescription.task, sides=Sides.LEFT)
    alone = replace(trace.prescription, task=task)
    page.plot.show_trace(replace(trace, prescription=alone))
    assert not page.plot._balance.isVisible()
    page.plot.show_trace(trace)
    assert page.plot._balance.isVisible()


def test_the_pain_of_a_row_is_said_to_be_of_the_set(page: ReviewPage) -> None:
    heads = [
        page.reps.headerData(column, Qt.Orientation.Horizontal)
        for column in range(page.reps.columnCount())
    ]
    assert "pain in or after\nthe set, of 10" in heads
    assert "set" in tip_of("pain in or after the set, of 10")


def test_zero_phase_changes_the_picture_and_no_number(page: ReviewPage) -> None:
    rows = page.measures.rows
    page.bar.smooth.click()
    assert page.plot.smooth
    assert page.measures.rows == rows


SUMS: dict[str, object] = {
    **MEASURES,
    "rmse_n": 84.38,
    "ce_n": -0.65,
    "ve_n": 84.38,
    "slope_n_per_s": -11843.25,
    "symmetry_index_pct": -2.95,
    "outcome": "stopped",
    "onset_method": "threshold",
}


@dataclass(frozen=True)
class _Summed(Trace):
    measures: Mapping[str, object] = field(default_factory=lambda: SUMS)


class _SummedReps(Reps):
    def trace(self, row: Any) -> Trace:  # noqa: ARG002
        whole = trace_at(80.0)
        asked = ASKED
        if asked.reference is not None:
            reference = replace(asked.reference, force_n=1062.4073)
            asked = replace(asked, reference=reference)
        return _Summed(whole.time_s, whole.force_n, whole.effort_n, prescription=asked)


@pytest.fixture(params=[Language.ENGLISH, Language.SPANISH], ids=lambda one: one.value)
def said_in(request: pytest.FixtureRequest, qapp: QApplication) -> Iterator[Language]:
    before = QLocale()
    installed = language.speak(qapp, request.param, system=QLocale("es_ES"))
    yield request.param
    for one in installed:
        QCoreApplication.removeTranslator(one)
    QLocale.setDefault(before)


@pytest.mark.usefixtures("said_in")
def test_each_value_of_a_rep_has_the_room_it_needs(qtbot: QtBot) -> None:
    made = ReviewPage(_SummedReps())
    qtbot.addWidget(made)
    made.setStyleSheet(style_sheet(DAY, size=1.0))
    made.resize(1260, 700)
    made.show()
    made.reload()
    QApplication.processEvents()
    table = made.measure_table
    letters = QFontMetrics(table.font())
    header = table.horizontalHeader()
    assert header.length() <= table.viewport().width(), "all columns are in sight"
    cut = []
    for row in range(made.measures.rowCount()):
        for column in range(made.measures.columnCount()):
            text = str(made.measures.index(row, column).data())
            room_px = table.columnWidth(column) - 6  # Qt's margins: 3 on each side
            # What may not be broken: a number, a unit, a signal; words may.
            whole = column > 1 or (len(text) <= 12 and column == 1)
            parts = [text] if whole else text.split()
            cut += [one for one in parts if letters.horizontalAdvance(one) > room_px]
            lines = letters.boundingRect(
                0, 0, room_px, 10_000, Qt.TextFlag.TextWordWrap, text
            )
            assert table.rowHeight(row) >= lines.height(), text
    assert cut == []
    titles = QFontMetrics(header.font())
    for column in range(made.measures.columnCount()):
        name = str(made.measures.headerData(column, Qt.Orientation.Horizontal))
        assert titles.horizontalAdvance(name) <= table.columnWidth(column), name


def test_how_a_rep_ended_is_said_in_the_language(
    said_in: Language, qtbot: QtBot
) -> None:
    library = Reps()
    library.saved = [Rep(3, outcome="stopped")]
    made = ReviewPage(library)
    qtbot.addWidget(made)
    made.reload()
    wanted = {Language.ENGLISH: "stopped", Language.SPANISH: "detenida"}[said_in]
    assert made.reps.index(0, 5).data() == wanted
    (row,) = measure_rows({"outcome": "stopped"})
    assert shown(row[1]) == wanted


def test_the_type_of_the_figure_grows_with_that_of_the_window(page: ReviewPage) -> None:
    def heights() -> list[float]:
        figure = page.plot._plot
        words = [one for one in figure.items() if isinstance(one, pg.TextItem)]
        axis = figure.getAxis("bottom")
        return [
            *(one.textItem.boundingRect().height() for one in words),
            axis.label.boundingRect().height(),
            QFontMetrics(axis.style["tickFont"] or figure.font()).height(),
        ]

    page.set_size(1.0)
    before = heights()
    page.set_size(2.0)
    after = heights()
    assert len(after) == len(before) > 3
    for small, large in zip(before, after, strict=True):
        assert large > 1.6 * small
