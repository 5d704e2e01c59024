"""A broken logbook is made again from the recordings, and held against the old one."""

from __future__ import annotations

import shutil
import sqlite3
from typing import TYPE_CHECKING, Any

import pytest
from session.visit_on_rig import CODE, OnRig

from biofeedback.cli import main
from biofeedback.errors import UserError
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.session.rebuild import rebuild

if TYPE_CHECKING:
    from pathlib import Path

NAME = "Ylva Erfundsdóttir"
"""Invented."""


@pytest.fixture
def place(tmp_path: Path) -> KeptPlace:
    """Two sets done with a pain mark and a note, and a third that was cut off."""
    place = KeptPlace(tmp_path / "logbook.db", tmp_path / "recordings")
    with Logbook.open(place.logbook) as book:
        book.add_athlete(CODE, NAME)
        rig = OnRig(book, place.recordings)
        rig.begin()
        rig.rep_done()
        rig.session.mark_pain(2)
        rig.session.tell("pain", {"level": 2, "when": "during"})
        rig.session.mark_pain(9)
        rig.session.tell("pain", {"level": 9, "when": "during"})
        rig.session.take_back_pain(9)
        rig.session.tell("pain taken back", {"level": 9, "when": "during"})
        rig.session.note("strap was loose")
        rig.session.tell("note", {"text": "strap was loose"})
        rig.set_over()
        rig.close()
    return place


def facts(place: KeptPlace) -> dict[str, Any]:
    """What the logbook says of sets, reps and marks; keys and times of storing out."""
    with Logbook.open(place.logbook) as book:
        (visit,) = book.sessions()
        sets = book.sets(visit.id)
        return {
            "code": visit.athlete_code,
            "visit": visit.id,
            "sets": [
                (
                    row.id, row.task, row.prescription, row.profile, row.recording,
                    row.started_utc, row.sides, row.plan_id, row.stage,
                    row.planned_key, row.recovered, row.closed_utc is not None,
                )
                for row in sets
            ],
            "reps": [
                (rep.set_id, rep.number, rep.outcome, rep.start_s, rep.end_s,
                 rep.peak_n, rep.lapses, rep.measures)
                for rep in book.all_reps(session_id=visit.id)
            ],
            "told": [
                (note.kind, note.set_id, note.content)
                for kind in ("pain", "pain taken back", "note")
                for note in book.session_notes.list(visit.id, kind=kind)
            ],
        }  # fmt: skip


def name_of(place: KeptPlace) -> str:
    with Logbook.open(place.logbook) as book:
        (athlete,) = book.athletes()
        return athlete.name


def totals(place: KeptPlace) -> list[tuple[Any, ...]]:
    raw = sqlite3.connect(place.logbook)
    try:
        return raw.execute("SELECT totals FROM sets ORDER BY id").fetchall()
    finally:
        raw.close()


def test_without_any_logbook_nothing_is_lost_but_names(place: KeptPlace) -> None:
    before, ended = facts(place), totals(place)
    assert len(before["reps"]) == 2
    assert before["sets"][0][2]["reference"]["force_n"] == 100.0
    assert name_of(place) == NAME
    place.logbook.write_bytes(b"not a logbook any more " * 1000)
    done = rebuild(place)
    assert facts(place) == before
    assert totals(place) == ended
    assert name_of(place) == ""
    assert (done.sets, done.reps, done.problems) == (1, 2, ())
    assert done.aside is not None
    assert (done.aside / "logbook.db").read_bytes().startswith(b"not a logbook")


def test_a_recording_that_was_cut_off_is_judged_again(place: KeptPlace) -> None:
    before = facts(place)
    (path,) = place.recording_files()
    path.write_bytes(path.read_bytes()[:-40])  # the close frame is gone
    place.logbook.unlink()
    done = rebuild(place)
    after = facts(place)
    assert (done.sets, done.reps) == (1, 2)
    assert after["reps"] == before["reps"]
    assert after["sets"][0][-2] is True  # recovered


def test_what_can_still_be_read_of_a_damaged_logbook_is_taken_over(
    place: KeptPlace,
) -> None:
    before = facts(place)
    raw = sqlite3.connect(place.logbook)
    (root,) = raw.execute(
        "SELECT rootpage FROM sqlite_master WHERE name = 'reps'"
    ).fetchone()
    raw.close()
    content = bytearray(place.logbook.read_bytes())
    content[(root - 1) * 4096 : root * 4096] = b"\xff" * 4096
    place.logbook.write_bytes(content)
    done = rebuild(place)
    assert "reps" in done.salvaged.broken
    assert facts(place) == before
    assert name_of(place) == NAME
    raw = sqlite3.connect(place.logbook)
    assert raw.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert raw.execute("PRAGMA foreign_key_check").fetchall() == []
    raw.close()


def test_every_page_may_be_the_broken_one(place: KeptPlace, tmp_path: Path) -> None:
    before = facts(place)
    content = place.logbook.read_bytes()
    pages = len(content) // 4096
    assert pages > 30
    for page in range(0, pages, max(1, pages // 12)):
        one = KeptPlace(
            tmp_path / f"p{page}" / "logbook.db", tmp_path / f"p{page}" / "r"
        )
        one.base.mkdir()
        shutil.copytree(place.recordings, one.recordings)
        bad = bytearray(content)
        bad[page * 4096 : (page + 1) * 4096] = bytes(4096)
        one.logbook.write_bytes(bad)
        rebuild(one)
        assert facts(one) == before, page


def test_a_whole_logbook_is_not_made_poorer(place: KeptPlace) -> None:
    before = facts(place)
    done = rebuild(place)
    assert facts(place) == before
    assert name_of(place) == NAME
    assert done.salvaged.broken == ()


def test_numbers_of_reps_are_put_right_from_the_recording(place: KeptPlace) -> None:
    before = facts(place)
    raw = sqlite3.connect(place.logbook)
    raw.execute("UPDATE reps SET peak_n = 1.0, measures = '{\"peak_n\": 1.0}'")
    raw.commit()
    raw.close()
    assert facts(place) != before
    rebuild(place)
    assert facts(place) == before


def test_nothing_is_rebuilt_under_a_program_that_is_running(place: KeptPlace) -> None:
    with Logbook.open(place.logbook) as book:
        book.athletes()
        with pytest.raises(UserError, match="in use"):
            rebuild(place)


def test_a_recording_that_cannot_be_used_is_named(
    place: KeptPlace, capsys: pytest.CaptureFixture[str]
) -> None:
    (place.recordings / "broken.force").write_bytes(b"no frame")
    words = ["--logbook", str(place.logbook), "--recordings", str(place.recordings)]
    assert main(["rebuild", *words]) == 1
    told = capsys.readouterr()
    assert "broken.force" in told.err
    assert "1 sets with 2 reps" in told.out


def test_a_broken_page_within_a_table_costs_its_own_rows_and_no_others(
    tmp_path: Path,
) -> None:
    place = KeptPlace(tmp_path / "logbook.db", tmp_path / "recordings")
    with Logbook.open(place.logbook) as book:
        for number in range(300):
            book.add_athlete(f"A-{number:03}", f"Invented person {number:03}")
    content = bytearray(place.logbook.read_bytes())
    pages = [content[at : at + 4096] for at in range(0, len(content), 4096)]
    # Names stand in the table alone, codes in its index too.
    hit = next(n for n, page in enumerate(pages) if b"Invented person 150" in page)
    lost = pages[hit].count(b"Invented person")
    assert 10 < lost < 100
    content[hit * 4096 : (hit + 1) * 4096] = bytes(4096)
    place.logbook.write_bytes(content)
    done = rebuild(place)
    assert done.salvaged.broken == ("athletes",)
    with Logbook.open(place.logbook) as book:
        names = {athlete.name for athlete in book.athletes()}
    assert {"Invented person 000", "Invented person 299"} <= names
    assert len(names) == 300 - lost
