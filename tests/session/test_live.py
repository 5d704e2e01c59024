"""The session: who it is for, and what it says of itself when it is closed."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FieldError, UserError
from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.keys import new_key
from biofeedback.rig.check import HealthReport
from biofeedback.rig.verdict import State, Verdict
from biofeedback.session import Session, demo

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

STEP_US = 50_000


@pytest.fixture
def logbook(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        yield logbook


def session_with_a_set(
    logbook: Logbook, folder: Path, *, athlete_code: str = "INV-1"
) -> Session:
    """Stepped by hand, with a set under way."""
    session = Session(
        demo.source(step_us=STEP_US),
        logbook=logbook,
        recordings=folder,
        athlete_code=athlete_code,
    )
    session.begin_set(demo.PRESCRIPTION)
    for _ in range(60):
        session.step()
    return session


def test_all_is_kept_and_nothing_is_said(logbook: Logbook, tmp_path: Path) -> None:
    session = session_with_a_set(logbook, tmp_path / "recordings")
    session.close()
    session.close()
    assert session.not_kept == ""
    assert len(list((tmp_path / "recordings").iterdir())) == 1


def test_a_set_carries_the_start_check_of_its_own_board(
    logbook: Logbook, tmp_path: Path
) -> None:
    folder = tmp_path / "recordings"
    before = session_with_a_set(logbook, tmp_path / "before")
    found = before.take().health.found
    before.close()
    kept = []
    for board in (found, "another board"):
        session = Session(
            demo.source(step_us=STEP_US),
            logbook=logbook,
            recordings=folder / board[:7],
            athlete_code="INV-1",
        )
        for _ in range(60):
            session.step()
        session.take()
        verdict = Verdict("press: left", State.LOOK, "It did not answer.")
        session.keep_check(HealthReport("a port", board, 10.0, (verdict,)))
        session.begin_set(demo.PRESCRIPTION)
        for _ in range(60):
            session.step()
        session.close()
        (path,) = (folder / board[:7]).glob("*.force")
        kept.append(recordings.read(path).header.get("rig_check"))
    own, other = kept
    assert isinstance(own, dict)
    assert (own["good"], own["states"]) == (False, {"press: left": "look at it"})
    assert str(own["at_utc"]).endswith("+00:00")
    assert other is None


def test_what_could_not_be_kept_is_said_at_the_end(
    logbook: Logbook, tmp_path: Path
) -> None:
    (tmp_path / "recordings").write_text("a file where the folder is to be")
    session = session_with_a_set(logbook, tmp_path / "recordings")
    session.close()
    session.close()  # a window closes it, and whoever opened the window again
    assert "The end of the recording is lost" in session.not_kept
    assert str(tmp_path / "recordings") in session.not_kept


def test_blanks_around_a_code_make_no_other_athlete(
    logbook: Logbook, tmp_path: Path
) -> None:
    for code in ("A-7", " A-7 "):
        session = session_with_a_set(
            logbook, tmp_path / "recordings", athlete_code=code
        )
        assert session.athlete_code == "A-7"
        session.close()
    assert [athlete.code for athlete in logbook.athletes()] == ["A-7"]


def test_a_name_in_place_of_a_code_is_refused(logbook: Logbook, tmp_path: Path) -> None:
    with pytest.raises(FieldError, match=r"athlete\.code"):
        session_with_a_set(logbook, tmp_path, athlete_code="Some Body")
    assert logbook.athletes() == []


def test_looking_at_an_athlete_leaves_no_visit_behind(
    logbook: Logbook, tmp_path: Path
) -> None:
    session = Session(
        demo.source(step_us=STEP_US),
        logbook=logbook,
        recordings=tmp_path,
        athlete_code="INV-1",
    )
    logbook.add_athlete("INV-2", "Second Invented")
    session.change_athlete(" INV-2 ")
    assert (session.athlete_code, session.athlete_name) == ("INV-2", "Second Invented")
    session.close()
    assert logbook.sessions() == []


def test_each_athlete_has_a_visit_of_their_own(
    logbook: Logbook, tmp_path: Path
) -> None:
    session = session_with_a_set(logbook, tmp_path / "recordings")
    logbook.add_athlete("INV-2")
    session.take()
    with pytest.raises(UserError, match="A set is under way"):
        session.change_athlete("INV-2")
    session.end_set()
    session.step()
    session.take()  # as the window does in each frame
    session.change_athlete("INV-2")
    session.begin_set(demo.PRESCRIPTION)
    for _ in range(60):
        session.step()
    session.close()
    visits = logbook.sessions()
    assert sorted(visit.athlete_code for visit in visits) == ["INV-1", "INV-2"]
    assert all(len(logbook.sets(visit.id)) == 1 for visit in visits)


def test_a_set_that_was_asked_for_keeps_the_athlete(
    logbook: Logbook, tmp_path: Path
) -> None:
    session = session_with_a_set(logbook, tmp_path / "recordings")
    session.end_set()
    session.step()
    session.take()
    logbook.add_athlete("INV-2")
    session.begin_set(demo.PRESCRIPTION)  # carried out with the next samples
    with pytest.raises(UserError, match="A set is under way"):
        session.change_athlete("INV-2")
    session.close()


def test_an_athlete_who_is_not_there_cannot_be_chosen(
    logbook: Logbook, tmp_path: Path
) -> None:
    session = session_with_a_set(logbook, tmp_path / "recordings")
    session.end_set()
    session.step()
    session.take()
    with pytest.raises(FieldError, match="there is no athlete INV-9"):
        session.change_athlete("INV-9")
    assert session.athlete_code == "INV-1"
    session.close()


def test_what_is_told_before_within_and_after_a_set_is_of_one_visit(
    logbook: Logbook, tmp_path: Path
) -> None:
    session = Session(
        demo.source(step_us=STEP_US),
        logbook=logbook,
        recordings=tmp_path / "recordings",
        athlete_code="INV-1",
    )
    session.tell("pain", {"level": 2, "when": "before"})
    session.begin_set(demo.PRESCRIPTION)
    for _ in range(60):
        session.step()
    session.end_set()
    for _ in range(5):
        session.step()
    session.close()  # the recorder has entered the set by then
    session.tell("effort", {"level": 6})
    (visit,) = logbook.sessions()
    before, after = logbook.session_notes.list(visit.id)
    (done,) = logbook.sets(visit.id)
    assert (before.kind, before.content, before.set_id) == (
        "pain",
        {"level": 2, "when": "before"},
        None,
    )
    assert (after.kind, after.set_id) == ("effort", done.id)
    assert before.at_utc <= after.at_utc
    assert logbook.session_notes.list(visit.id, kind="effort") == (after,)


def test_a_note_needs_a_session(logbook: Logbook) -> None:
    with pytest.raises(FieldError, match="there is no session"):
        logbook.session_notes.add("none", "note", {"text": "x"})


def test_what_is_told_before_its_set_is_in_the_logbook_comes_to_that_set(
    logbook: Logbook,
) -> None:
    visit = logbook.begin_session(logbook.add_athlete("INV-1", ""))
    notes, first, second = logbook.session_notes, new_key(), new_key()
    for level, set_id in ((1, first), (2, second), (3, first), (4, None)):
        notes.add(visit, "pain", {"level": level}, set_id=set_id)
    for set_id in (second, first):
        assert not any(note.set_id == set_id for note in notes.list(visit))
        header = {
            "set_id": set_id,
            "session_id": visit,
            "started_utc": "2026-03-01T12:00:00Z",
        }
        logbook.enter_recording(header, f"{set_id}.force")
    assert [note.set_id for note in notes.list(visit)] == [first, second, first, None]
