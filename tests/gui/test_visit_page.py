"""The page at the end of a visit, on a visit of the simulated rig. All is invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from session.visit_on_rig import CODE, NOW, OnRig, record

from biofeedback.gui.style import style_sheet
from biofeedback.gui.theme import DAY, NIGHT, Theme
from biofeedback.gui.visit_page import VisitPage
from biofeedback.gui.visit_words import (
    change_row,
    line_rows,
    lines_title,
    next_words,
    pain_words,
    sense_words,
    signal_words,
    tip,
)
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.session_notes import NOTE, SUMMARY
from biofeedback.measures.force_sense import Matched, force_sense
from biofeedback.session.next_time import NextTime
from biofeedback.session.visit_facts import (
    Amount,
    ChangeLine,
    Level,
    SignalHealth,
    TaskLine,
    VisitSummary,
)
from biofeedback.session.visit_summary import VisitSummaries
from biofeedback.training.changes import Reason
from biofeedback.training.day import PainRule
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot


@pytest.fixture
def rig(tmp_path: Path) -> Iterator[OnRig]:
    """A visit of two sets with a nudge, pain and a note."""
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        made = OnRig(logbook, tmp_path / "recordings", record(sets=2))
        made.begin()
        asked = made.visit.asked
        assert asked is not None
        made.visit.changes.change_band(asked.band.moved(-3.0))
        made.run(0.3)
        made.visit.changes.give_reason(Reason.PAIN)
        made.set_over()
        made.visit.mark_pain(4)
        made.visit.mark_effort(6)
        made.session.tell(NOTE, {"text": "Pad 1 cm lower."})
        made.visit.end()
        made.close()
        yield made


@pytest.fixture
def page(rig: OnRig, qtbot: QtBot) -> VisitPage:
    made = VisitPage(VisitSummaries(rig.logbook, clock=lambda: NOW))
    qtbot.addWidget(made)
    made.show()
    made.enter(CODE)
    return made


def test_planned_and_done_stand_side_by_side(page: VisitPage) -> None:
    left, right = page.lines.rows
    assert left[:3] == ("Invented calf push, left", "1 of 1", "2 of 2")
    assert left[3].endswith(" of 4")
    assert left[4].endswith(" of 200")
    assert right[1:] == ("0 of 1", "0 of 2", "0 of 4", "0 of 200", "sets not done: 1")
    (change,) = page.changes.rows
    assert change[1].startswith("set 1, ")
    # The band of 35 to 65 N of 100 N, 3 N lower.
    assert change[2:] == ("band", "35–65 % → 32–62 %", "pain")
    assert page.pain.text() == "Pain of 10: 4 (after set 1)."
    assert page.effort.text() == "Effort of 10: 6 (set 1)."
    assert page.signal.text().startswith(
        "Signal of 2 reps: 0 gaps, 0 lost samples, 0 saturated samples; largest zero"
    )
    assert page.notes.text() == "Notes: Pad 1 cm lower."
    assert page.tests.isHidden()
    assert "no place is proposed" in page.proposal.text()
    assert "treating clinician decide" in page.advice.text()


def test_it_is_kept_with_date_and_note(
    page: VisitPage, rig: OnRig, qtbot: QtBot
) -> None:
    assert page.date.text == (NOW.date() + timedelta(days=2)).isoformat()
    page.days[3].click()
    day = (NOW.date() + timedelta(days=7)).isoformat()
    assert page.date.text == day
    page.note.set_text("Start with the left side.")
    assert page.was_kept.text() == "Not kept yet."
    with qtbot.waitSignal(page.kept):
        page.keep.click()
    assert page.was_kept.text().startswith("Kept;")
    (note,) = rig.notes(SUMMARY)
    assert note.content["next_date"] == day
    # Whoever comes back finds what was kept.
    again = VisitPage(VisitSummaries(rig.logbook, clock=lambda: NOW))
    qtbot.addWidget(again)
    again.enter(CODE)
    assert (again.date.text, again.note.text) == (day, "Start with the left side.")


@pytest.mark.parametrize("typed", ["soon", "2026-02-31", "2020-01-01"])
def test_a_date_that_does_not_fit_is_said_and_stays(
    page: VisitPage, rig: OnRig, typed: str
) -> None:
    page.date.set_text(typed)
    page.keep.click()
    assert page.date.error.text()
    assert page.date.text == typed
    assert rig.notes(SUMMARY) == ()


def test_without_a_next_date_it_is_kept_all_the_same(
    page: VisitPage, rig: OnRig
) -> None:
    page.date.set_text("")
    page.keep.click()
    (note,) = rig.notes(SUMMARY)
    assert note.content["next_date"] is None


def test_what_is_typed_stays_when_the_page_is_left_and_shown_again(
    page: VisitPage,
) -> None:
    page.note.set_text("Half a sentence")
    page.date.set_text("")
    page.enter(CODE)
    assert page.note.text == "Half a sentence"
    assert page.date.text == ""


def test_only_what_was_typed_and_not_kept_is_unsaved(page: VisitPage) -> None:
    dirty = [page.dirty]  # a date that is offered was not typed
    page.note.set_text("Slower.")
    dirty.append(page.dirty)
    page.keep.click()
    dirty.append(page.dirty)
    page.date.set_text("next week")
    page.keep.click()  # refused
    dirty.append(page.dirty)
    assert dirty == [False, True, False, True]


def test_what_is_typed_for_one_visit_is_not_lost_to_another(
    page: VisitPage, rig: OnRig
) -> None:
    other = rig.logbook.add_athlete("INV-2", "Invented")
    session_id = rig.logbook.begin_session(other)
    rig.logbook.session_notes.add(session_id, NOTE, {"text": "Invented note."})
    page.note.set_text("Start with the left side.")
    page.enter("INV-2")
    assert "INV-1" in page.heading.text()
    assert page.problem.text().startswith("Still the visit of INV-1,")
    assert page.note.text == "Start with the left side."
    page.keep.click()
    kept = {
        row.athlete_code: rig.logbook.session_notes.list(row.id, kind=SUMMARY)
        for row in rig.logbook.sessions()
    }
    assert kept["INV-2"] == ()
    assert kept[CODE][0].content["note"] == "Start with the left side."
    page.enter("INV-2")
    assert "INV-2" in page.heading.text()
    assert page.note.text == ""
    assert not page.dirty


def test_opening_the_page_again_leaves_what_was_typed(
    page: VisitPage, rig: OnRig
) -> None:
    rig.logbook.add_athlete("INV-3", "Invented")
    page.note.set_text("Start with the left side.")
    page.enter("INV-3")
    assert page.keep.isEnabled()
    page.enter("INV-3")
    assert not page.keep.isEnabled()
    assert (page.date.text, page.note.text, page.dirty) == ("", "", False)
    page.enter(CODE)
    assert page.note.text == ""


def test_nobody_and_no_logbook_are_said(page: VisitPage, qtbot: QtBot) -> None:
    page.enter("NOBODY")
    assert page.problem.text() == "Nothing of NOBODY was kept yet."
    assert page.lines.rows == ()
    assert not page.keep.isEnabled()
    none = VisitPage(None)
    qtbot.addWidget(none)
    none.enter(CODE)
    assert "no logbook" in none.problem.text()
    with qtbot.waitSignal(none.live_wanted):
        none.live.click()


def test_a_visit_that_is_gone_is_said(page: VisitPage) -> None:
    page.enter(CODE, "gone")
    assert "there is no visit gone" in page.problem.text()
    assert page.lines.rows  # what was shown stays


def test_titles_are_explained(page: VisitPage) -> None:
    role = Qt.ItemDataRole.ToolTipRole
    across = Qt.Orientation.Horizontal
    assert "way into the band" in str(page.lines.headerData(4, across, role))
    assert tip("remark") == ""


@pytest.mark.parametrize(
    ("width", "height", "size", "theme"),
    [(1280, 720, 1.0, DAY), (1920, 1080, 1.5, NIGHT)],
)
def test_nothing_is_cut(
    page: VisitPage, width: int, height: int, size: float, theme: Theme
) -> None:
    page.setStyleSheet(style_sheet(theme, size=size))
    page.set_size(size)
    page.resize(width, height)
    assert page.width() == width
    assert page.height() == height
    for table in (page.line_table, page.change_table):
        assert table.horizontalScrollBar().maximum() == 0
    for button in (*page.days, page.keep):
        wide = button.fontMetrics().horizontalAdvance(button.text())
        assert wide <= button.width()


# ------------------------------------------------------------------------- words


def summary(**more: object) -> VisitSummary:
    return VisitSummary("s", CODE, NOW, PainRule(), **more)  # type: ignore[arg-type]  # fields


def test_a_line_without_a_reference_and_with_reps_that_do_not_count() -> None:
    line = TaskLine(
        "Hold",
        Sides.BOTH,
        warm_up=True,
        planned=Amount(1, 3, 30.0, None),
        done=Amount(1, 1, 14.26, None),
        not_complete=1,
        void=1,
    )
    assert line_rows([line])[0] == (
        "Warm-up: Hold, both sides", "1 of 1", "1 of 3", "14.3 of 30", "– of –",
        "reps not complete: 1, void: 1",
    )  # fmt: skip


def test_a_repeated_set_is_no_part_of_those_planned() -> None:
    line = TaskLine(
        "Hold",
        Sides.LEFT,
        warm_up=False,
        planned=Amount(2, 10, 100.0, 500.0),
        done=Amount(3, 11, 120.0, 650.0),
        not_complete=4,
        part_sets=1,
    )
    assert line_rows([line])[0] == (
        "Hold, left", "3; planned 2", "11; planned 10", "120 of 100",
        "650 of 500", "reps not complete: 4, sets not whole: 1, sets put in: 1",
    )  # fmt: skip


def test_without_an_order_nothing_is_called_planned() -> None:
    line = TaskLine(
        "Hold",
        Sides.RIGHT,
        warm_up=False,
        planned=Amount(1, 4, 32.0, 1040.0),
        done=Amount(1, 6, 62.0, 2083.0),
        not_complete=2,
        begun_anew=3,
    )
    assert line_rows([line], by_order=False)[0] == (
        "Hold, right", "1 of 1", "6; asked 4", "62 of 32", "2083 of 1040",
        "reps not complete: 2, broken off and begun anew: 3",
    )  # fmt: skip
    assert "nothing was planned" in lines_title(by_order=False)


def test_rows_of_one_name_are_told_apart_by_a_number() -> None:
    left = TaskLine("Hold", Sides.LEFT, warm_up=False, task_key="one")
    lines = [
        left,
        replace(left, sides=Sides.RIGHT),
        replace(left, task_key="two"),
        replace(left, warm_up=True),
    ]
    assert [row[0] for row in line_rows(lines)] == [
        "Hold, left (1)", "Hold, right", "Hold, left (2)", "Warm-up: Hold, left",
    ]  # fmt: skip
    sense = force_sense([Matched(123.0, 120.0)])
    told = sense_words([replace(line, sense=sense) for line in lines])
    assert len({told.splitlines()[at].partition(":")[0] for at in (0, 1, 2)}) == 3
    assert "Unseen, Hold, left (2): one rep" in told
    words = ("Pain 0 to 2: one step up.",)
    one = NextTime("Hold", Sides.LEFT, words)
    assert next_words(summary(next_time=(one, one))).split("\n\n") == [
        "Hold, left (1)\n•  Pain 0 to 2: one step up.",
        "Hold, left (2)\n•  Pain 0 to 2: one step up.",
    ]


@pytest.mark.parametrize(
    ("what", "old", "new", "words"),
    [
        ("hold_s", 10, 12.5, "10 s → 12.5 s"),
        ("reps", 5, 4, "5 → 4"),
        ("side", "left", "right", "left → right"),
        ("reference", {"force_n": 200.0}, {"force_n": 210.5}, "200 N → 210.5 N"),
        (
            "band",
            {"lower_n": 80.0, "upper_n": None},
            {"lower_n": 90.0, "upper_n": 100.0},
            "at least 80 N → 90–100 N",
        ),
        ("band", None, {}, "– → –"),
    ],
)
def test_changes_in_words(what: str, old: object, new: object, words: str) -> None:
    line = ChangeLine(
        datetime(2026, 3, 1, 9, 5, tzinfo=UTC), "set 2: Hold", what, old, new, "", None
    )
    row = change_row(line, UTC)
    assert row == ("09:05 UTC", "between sets", row[2], words, "–")


def test_force_sense_in_words() -> None:
    def line(*matched_n: float) -> TaskLine:
        sense = force_sense([Matched(one_n, 120.0) for one_n in matched_n])
        return TaskLine("Hold", Sides.LEFT, warm_up=False, sense=sense)

    # Errors of −12, −6 and 0 N of 120 N; their SD with n is √24.
    assert sense_words([line(108.0, 114.0, 120.0)]) == (
        "Unseen, Hold, left: from the centre of the band −6 N (−5 %) on the whole "
        "(constant error), 4.9 N (4.1 %) of scatter (variable error), 6 N (5 %) "
        "without sign (absolute error); 3 reps."
    )
    assert sense_words([line(123.0)]) == (
        "Unseen, Hold, left: one rep, +3 N (+2.5 %) from the centre of the band."
    )
    assert sense_words([line()]) == ""


def test_much_pain_sends_to_the_clinician_first() -> None:
    words = ("Pain 0 to 2: one step up.",)
    found = summary(
        pain=(Level(NOW, 2, "before"), Level(NOW, 6, "during", "set 1: Hold")),
        next_time=(NextTime("Hold", Sides.LEFT, words),),
    )
    told = next_words(found)
    assert told == (
        "Pain went to 6 of 10, above the cut of 5: better stop, and ask the treating "
        "clinician before going on. No place is proposed before that."
    )
    assert pain_words(found) == "Pain of 10: 2 (before), 6 (during set 1: Hold)."
    assert pain_words(summary()) == "Pain was not asked."
    slip = summary(pain=(Level(NOW, 9, "after", "set 2: Hold", taken_back=True),))
    assert pain_words(slip) == "Pain of 10: 9 (after set 2: Hold, taken back)."
    assert not slip.talk_first


@pytest.mark.parametrize(
    ("drift_n", "words"),
    [(None, "not known"), (-0.04, "under 0.1 N"), (-1.23, "−1.2 N"), (0.4, "+0.4 N")],
)
def test_signal_in_words(drift_n: float | None, words: str) -> None:
    signal = SignalHealth(4, 1, 12, 3, zero_drift_n=drift_n, recovered=1, not_closed=1)
    assert signal_words(signal) == (
        "Signal of 4 reps: 1 gap, at least 12 lost samples, 3 saturated samples; "
        f"largest zero drift {words}. Sets whose recording was cut off: 1. Sets "
        "whose end is not in the logbook yet: 1."
    )
    assert signal_words(SignalHealth()) == "No rep was recorded."
