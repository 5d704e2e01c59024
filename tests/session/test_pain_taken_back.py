"""A mark of pain that was a slip: kept with what took it back, counted nowhere."""

from __future__ import annotations

import csv
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from session.visit_on_rig import CODE, NOW, OnRig

from biofeedback.cli import main
from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.session_notes import PAIN, PAIN_BACK, SessionNote, pain_marks
from biofeedback.report.document import sheet
from biofeedback.report.sheet import Paragraph
from biofeedback.session.pain_told import PainTold
from biofeedback.session.replay import replay
from biofeedback.session.reports import Reports
from biofeedback.session.review import Library
from biofeedback.session.visit_summary import VisitSummaries
from biofeedback.wire.frames import Event

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@pytest.fixture
def logbook(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


def test_each_takes_back_the_last_one_that_stands() -> None:
    told: list[tuple[str, int]] = [
        (PAIN_BACK, 9), (PAIN, 1), (PAIN, 6), (PAIN, 6), (PAIN_BACK, 6),
        (PAIN_BACK, 6), (PAIN, 2), (PAIN_BACK, 2),
    ]  # fmt: skip
    notes = [
        SessionNote(kind, {"level": level}, datetime.now(tz=UTC), None)
        for kind, level in told
    ]
    assert [(mark.level, mark.taken_back) for mark in pain_marks(notes)] == [
        (1, False), (6, True), (6, True), (2, True),
    ]  # fmt: skip


@pytest.fixture(params=[True, False], ids=["in the set", "after the set"])
def rig(
    request: pytest.FixtureRequest, logbook: Logbook, tmp_path: Path
) -> Iterator[OnRig]:
    """Pain 3 stands and 8 was a slip, both told in a set."""
    made = OnRig(logbook, tmp_path / "recordings")
    made.begin()
    made.until(lambda: any(logbook.sets(one.id) for one in logbook.sessions()))
    made.visit.mark_pain(3)
    advice = made.visit.mark_pain(8)
    assert advice == made.visit.words.partition(" Next in")[0]
    if request.param:
        made.run(0.3)
        made.visit.take_back_pain(8, in_recording=True)
        made.visit.let_rep_start()
    else:
        made.visit.let_rep_start()
        made.set_over()
        made.visit.take_back_pain(8, in_recording=False)
    assert advice not in made.visit.words
    if request.param:
        made.set_over()
    made.visit.end()
    made.close()
    yield made
    made.session.close()


def test_nothing_is_rewritten_and_each_reader_knows(rig: OnRig) -> None:
    logbook, folder = rig.logbook, rig.folder
    assert [note.content["level"] for note in rig.notes(PAIN)] == [3, 8]
    assert [note.content["level"] for note in rig.notes(PAIN_BACK)] == [8]
    (visit,) = logbook.sessions()
    (row,) = logbook.sets(visit.id)
    path = folder / row.recording
    events = [
        (frame.content["kind"], frame.content["level"])
        for frame in recordings.read(path).frames()
        if isinstance(frame, Event) and "level" in frame.content
    ]
    assert events[:2] == [("pain", 3), ("pain", 8)]
    in_set = events[2:] == [("pain taken back", 8)]
    assert in_set or not events[2:]
    assert [mark.taken_back for mark in replay(path).marks] == [False, in_set]

    found = VisitSummaries(logbook, clock=lambda: NOW).of(visit.id)
    assert [(one.level, one.taken_back) for one in found.pain] == [
        (3, False), (8, True),
    ]  # fmt: skip
    assert (found.highest_pain, found.talk_first) == (3, False)

    library = Library(logbook, folder)
    reps = library.reps()
    assert {rep.pain for rep in reps} == {3}
    assert [mark.text for mark in library.trace(reps[0]).marks] == [
        "pain 3 of 10", "pain 8 of 10, taken back",
    ]  # fmt: skip

    pain = PainTold()
    pain.recall(logbook, CODE, NOW + timedelta(hours=1), whole_day=True)
    assert pain.against() == ()

    facts = Reports(logbook).of(CODE, since=NOW.date() - timedelta(days=1))
    assert [day.most for day in facts.pain] == [3]
    told = [one.text for one in sheet(facts).parts if isinstance(one, Paragraph)]
    assert any(
        text.startswith("Taken back as a slip, and counted nowhere: 8 of 10 on ")
        for text in told
    )


def test_the_export_tells_it(rig: OnRig, tmp_path: Path) -> None:
    out = tmp_path / "out"
    words = ["--logbook", str(tmp_path / "logbook.db"), "--recordings", str(rig.folder)]
    assert main(["export", str(out), "--format", "csv", *words]) == 0
    with (out / "csv" / "events.csv").open(newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["kind"] == "pain"]
    assert [(row["pain"], row["pain_taken_back"]) for row in rows] == [
        ("3", "0"), ("8", "1"),
    ]  # fmt: skip
