"""Erasing an athlete after real sessions: the test searches the bytes a second time."""

from __future__ import annotations

import gzip
import json
import logging
import re
import shutil
import sqlite3
import stat
import sys
import threading
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest
from session.visit_on_rig import CODE, OnRig

from biofeedback.cli import log_file, main
from biofeedback.logbook import folders, recordings, schema
from biofeedback.logbook.audit import Action, system_user
from biofeedback.logbook.backup import back_up
from biofeedback.logbook.copy_manifest import checksum
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.erasable import erasable
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.logbook.restore import restore
from biofeedback.logbook.traces import Traces
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.day import DayReport
from biofeedback.training.example_plans import SHOULDER
from biofeedback.training.reference import Definition
from biofeedback.training.starter_tasks import STARTER_TASKS

KEPT = Path(__file__).parents[2] / "recordings"
NAME = "Ylva Erfundsdóttir"
STAYS = "INV-10"
"""Its code holds the other as a part. Both are invented."""
NAME_OF_STAYS = "Olek Musterström"
# By bytes alone, and in whatever form: not what the program's own search does.
WORDS = re.compile(rb"INV-1(?!0)|Ylva|Erfundsd|Erfundsd\\u00f3")


@pytest.fixture
def place(qapp: object, monkeypatch: pytest.MonkeyPatch) -> KeptPlace:  # noqa: ARG001  reports paint with it
    """A data folder in which two athletes are known and one has trained."""
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)  # the log takes both
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    base = folders.make_private(folders.data_folder())
    place = KeptPlace(folders.default_logbook(), folders.default_recordings())
    root = logging.getLogger()
    before, level = list(root.handlers), root.level
    log_file.start(base)
    with Logbook.open(place.logbook) as book:
        for code, name in ((CODE, NAME), (STAYS, NAME_OF_STAYS)):
            _fill(book, code, name)
        _train(book, place)
    _leave_scraps(place.logbook)
    logging.getLogger("biofeedback").info("%s was here", CODE)
    for handler in [each for each in root.handlers if each not in before]:
        root.removeHandler(handler)
        handler.close()
    root.setLevel(level)
    return place


def _fill(book: Logbook, code: str, name: str) -> None:
    details = AthleteDetails(code, name, 1999, notes=f"{name} likes mornings")
    key = book.people.add(details, BodyMass(70.0, "2026-01-12"))
    book.plans.add(key, SHOULDER)
    book.days.report(key, DayReport(pain_now=1))
    book.maxima.add(
        NewMaximalTest(
            athlete_id=key,
            task=STARTER_TASKS[0],
            tested_utc=datetime(2026, 1, 12, tzinfo=UTC),
            definition=Definition.PEAK,
            force_n=200.0,
            trials=3,
        )
    )


def _train(book: Logbook, place: KeptPlace) -> None:
    rig = OnRig(book, place.recordings)
    rig.begin()
    rig.rep_done()
    rig.session.tell("pain", {"level": 2, "when": "during"})
    rig.session.note(f"{NAME} holds well")
    rig.step()
    rig.close()
    (rep, *_) = book.reps(athlete_code=CODE)
    book.rep_changes.move(
        rep.id, "onset", automatic_s=1.0, before_s=1.0, to_s=1.5, by="PT"
    )
    book.void_rep(rep.id, f"{NAME} said so")
    book.rep_changes.withdraw_void(rep.id, "it counts", by="PT")


def _leave_scraps(logbook: Path) -> None:
    """What somebody typed once and changed stays in a page that is free now."""
    raw = sqlite3.connect(logbook)
    raw.execute("PRAGMA secure_delete = OFF")
    raw.execute("CREATE TABLE scrap (text TEXT)")
    raw.execute("INSERT INTO scrap VALUES (?)", [f"{'x' * 9000}{NAME}{'y' * 9000}"])
    raw.execute("DROP TABLE scrap")
    raw.commit()
    raw.close()


def spoken(*trees: Path) -> list[str]:
    """Where bytes of code or name stand, without the program's own search."""
    return [
        f"{path}: {hit[0]!r}"
        for tree in trees
        for path in sorted(tree.rglob("*"))
        for hit in WORDS.finditer(
            path.name.encode() + b"\n" + (path.read_bytes() if path.is_file() else b"")
        )
    ]


def athlete_tables() -> set[str]:
    """Tables that hang on an athlete, found by hand through the schema's text."""
    return {
        "athletes", "body_masses", "sessions", "sets", "reps", "voids",
        "void_withdrawals", "marker_moves", "notes", "maximal_tests", "stated_forces",
        "plans", "plan_moves", "plan_words", "day_reports", "day_choices",
    }  # fmt: skip


def count(place: KeptPlace, table: str) -> int:
    raw = sqlite3.connect(place.logbook)
    try:
        (found,) = raw.execute(f"SELECT count(*) FROM {table}").fetchone()  # noqa: S608  from the schema
        return int(found)
    finally:
        raw.close()


# ------------------------------------------------------------------ erasing


def test_after_an_erasure_no_byte_of_code_or_name_is_left(
    place: KeptPlace, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    disk, report = tmp_path / "disk", tmp_path / f"{CODE}_report.pdf"
    assert main(["report", CODE, "--name", "--output", str(report)]) == 0
    assert main(["export", str(tmp_path / "out"), "--athlete", CODE]) == 0
    back_up(place, disk)
    restore(disk, place)  # now there is a folder put aside as well
    assert place.aside_folders()
    where = (place.base, disk)
    before = spoken(*where)
    assert {Path(each.rsplit(": ", 1)[0]).suffix for each in before} >= {
        ".db", ".force", ".log",
    }  # fmt: skip
    capsys.readouterr()

    assert main(["erase", CODE, "--yes"]) == 0
    told = capsys.readouterr().out
    assert spoken(*where) == []
    assert not report.exists()
    assert "1 backups cleared" in told
    assert f"the export {tmp_path / 'out'}" in told
    assert "snapshots of the disk" in told
    # Who stays, stays whole, in the backup too, which still can be put back.
    with Logbook.open(place.logbook) as book:
        (stays,) = book.people.search()
        assert stays.details.name == NAME_OF_STAYS
        (last, *rest) = book.audit.list()
        assert (last.action, last.code, last.by_user) == ("erased", "", system_user())
        assert last.count > 10
        assert all(CODE not in (row.code, row.place) for row in rest)
        (exported,) = (row for row in rest if row.action == "exported")
        assert (exported.code, exported.place, exported.count) == ("", "", 1)
    for table in ("plans", "body_masses", "day_reports", "maximal_tests"):
        assert count(place, table) == 1, table
    for table in ("reps", "voids", "void_withdrawals", "marker_moves", "notes", "sets"):
        assert count(place, table) == 0, table
    restore(disk, place)
    with Logbook.open(place.logbook) as book:
        assert [each.code for each in book.athletes()] == [STAYS]


def test_every_table_that_hangs_on_an_athlete_is_reached() -> None:
    mine = {"athletes"}
    for table in schema.metadata.sorted_tables:
        if any(key.column.table.name in mine for key in table.foreign_keys):
            mine.add(table.name)
    assert mine == athlete_tables()
    # What is left holds nobody: if a table is new, it is decided here.
    assert {table.name for table in schema.metadata.sorted_tables} - mine == {
        "audit", "calibration_points", "calibrations", "settings", "tasks",
    }  # fmt: skip


def test_a_name_that_somebody_typed_elsewhere_is_told_and_not_called_done(
    place: KeptPlace, capsys: pytest.CaptureFixture[str]
) -> None:
    with Logbook.open(place.logbook) as book:
        book.settings.put("anything", {"deep": [f"chair of {NAME.upper()}"]})
    assert main(["erase", CODE, "--yes"]) == 1
    told = capsys.readouterr().out
    assert "1 of settings.content" in told
    assert "Neither" not in told


def test_a_namesake_who_stays_is_told_and_keeps_the_name(
    place: KeptPlace, capsys: pytest.CaptureFixture[str]
) -> None:
    with Logbook.open(place.logbook) as book:
        book.people.add(AthleteDetails("INV-30", f"{NAME} junior"))
    assert main(["erase", CODE, "--yes"]) == 0
    assert "somebody who stays has too" in capsys.readouterr().out
    with Logbook.open(place.logbook) as book:
        assert {each.code: each.name for each in book.athletes()} == {
            "INV-30": f"{NAME} junior",
            STAYS: NAME_OF_STAYS,
        }


def test_bytes_in_free_pages_are_found_by_the_search(place: KeptPlace) -> None:
    raw = sqlite3.connect(place.logbook)
    raw.execute("PRAGMA secure_delete = OFF")
    raw.execute("CREATE TABLE scrap (text TEXT)")
    raw.execute("INSERT INTO scrap VALUES (?)", ["x" * 9000 + "QUITE-9" + "y" * 9000])
    raw.commit()
    raw.execute("DROP TABLE scrap")
    raw.commit()
    raw.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    raw.close()
    (hit,) = Traces("QUITE-9", ()).in_file(place.logbook)
    assert "bytes outside its rows" in hit


def test_a_code_is_no_part_of_another_nor_of_keys_and_times() -> None:
    traces = Traces("A017", ["Max Invented"])
    assert traces.in_text("20261126T192851Z_A017_c711257b.force")
    assert traces.in_text("for a017.")
    assert traces.in_text("max  INVENTED's knee")
    for other in ("A0171", "XA017", "A017-2", "0199-a017", "Maximal Invented"):
        assert not traces.in_text(other), other
    assert not traces.in_text("019ac0de-7abc-7def-a017-0123456789ab")
    assert not Traces("2026", ()).in_text("2026-11-26 19:28:51.000")


def test_who_types_another_code_erases_nothing(
    place: KeptPlace, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = spoken(place.base)
    monkeypatch.setattr("builtins.input", lambda _asked: "INV-2")
    assert main(["erase", CODE]) == 1
    assert spoken(place.base) == before
    monkeypatch.setattr("builtins.input", lambda _asked: CODE)
    assert main(["erase", CODE]) == 0
    assert spoken(place.base) == []


def test_a_code_that_nobody_has_is_told(
    place: KeptPlace, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["erase", "NOBODY-1"]) == 1  # before the code is asked for
    assert "Nothing of NOBODY-1 is here" in capsys.readouterr().err
    with Logbook.open(place.logbook) as book:
        assert len(book.athletes()) == 2
        assert book.audit.list(actions=(Action.ERASED,)) == ()


def test_places_of_other_names_are_reached_too(
    place: KeptPlace, tmp_path: Path
) -> None:
    mine = KeptPlace(tmp_path / "a" / "mine.sqlite", tmp_path / "b" / "sets")
    back_up(place, tmp_path / "disk")
    restore(tmp_path / "disk", mine)
    restore(tmp_path / "disk", mine)  # puts both aside, in two folders
    assert len(mine.aside_folders()) == 2
    words = ["--logbook", str(mine.logbook), "--recordings", str(mine.recordings)]
    assert main(["erase", CODE, "--yes", *words]) == 0
    assert spoken(tmp_path / "a", tmp_path / "b", tmp_path / "disk") == []
    assert spoken(place.base)  # another logbook's


def test_the_next_backup_forgets_who_was_erased_while_its_disk_was_away(
    place: KeptPlace, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    disk, away = tmp_path / "disk", tmp_path / "away"
    back_up(place, disk)
    shutil.move(disk, away)
    assert main(["erase", CODE, "--yes"]) == 0
    assert f"the backup {disk}" in capsys.readouterr().out
    shutil.move(away, disk)
    assert spoken(disk)
    done = back_up(place, disk)
    assert done.removed == 1
    assert spoken(disk) == []


@pytest.mark.parametrize("knows", ["logbook", "put aside"])
def test_what_went_out_after_a_backup_is_reached_after_its_restore(
    place: KeptPlace, tmp_path: Path, capsys: pytest.CaptureFixture[str], knows: str
) -> None:
    back_up(place, tmp_path / "first")
    report, out = tmp_path / "report.pdf", tmp_path / "out"
    assert main(["report", CODE, "--output", str(report)]) == 0
    assert main(["export", str(out), "--athlete", CODE, "--what", "reps"]) == 0
    back_up(place, tmp_path / "second")
    restore(tmp_path / "first", place)
    if knows == "logbook":  # what was put aside is thrown away
        for folder in place.aside_folders():
            shutil.rmtree(folder)
    else:  # it was restored by a program that carried nothing over
        with closing(sqlite3.connect(place.logbook)) as raw, raw:
            raw.execute("DELETE FROM audit WHERE place IS NOT NULL")
    capsys.readouterr()
    assert main(["erase", CODE, "--yes"]) == 0
    told = capsys.readouterr().out
    assert not report.exists()
    assert "1 reports" in told
    assert f"the export {out}" in told
    assert spoken(place.base, tmp_path / "second") == []


def test_a_newer_backup_that_is_away_after_a_restore_is_told_and_cleared_later(
    place: KeptPlace,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    newer, away, today = (
        tmp_path / "newer",
        tmp_path / "away",
        datetime.now().astimezone().date(),
    )
    back_up(place, tmp_path / "older")
    with Logbook.open(place.logbook) as book:
        book.people.add(AthleteDetails("LATER-1", "Later Invented"))
    back_up(place, newer)
    shutil.move(newer, away)
    restore(tmp_path / "older", place)
    for folder in place.aside_folders():
        shutil.rmtree(folder)
    known = f"the backup {newer}, last known on {today}: it is not here now"
    capsys.readouterr()
    # Before the code is typed, and after it was erased.
    monkeypatch.setattr("builtins.input", lambda _asked: "")
    assert main(["erase", CODE]) == 1
    assert known in capsys.readouterr().out
    assert main(["erase", CODE, "--yes"]) == 0
    told = capsys.readouterr().out
    assert known in told
    assert f"newer than the one that was put back here on {today}" in told
    # Who is only in the one that is away.
    assert main(["erase", "LATER-1", "--yes"]) == 1
    assert f"{newer} (last known on {today})" in capsys.readouterr().err
    # Back again, each is reached, also by the window's door.
    shutil.move(away, newer)
    assert not erasable(place, "LATER-1").nothing
    assert main(["erase", "LATER-1", "--yes"]) == 0
    assert main(["erase", CODE, "--yes"]) == 0
    assert spoken(newer) == []
    assert erasable(place, CODE).nothing


def test_a_report_that_was_moved_is_told(
    place: KeptPlace, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    report = tmp_path / "report.pdf"
    assert main(["report", CODE, "--output", str(report)]) == 0
    report.rename(tmp_path / "moved.pdf")
    assert main(["erase", CODE, "--yes"]) == 0
    told = capsys.readouterr().out
    assert f"the report {report}: it is not there now" in told
    assert place.logbook.is_file()


# ------------------------------------------------------------------ codes only, modes


def test_files_carry_codes_and_no_names_and_are_for_their_owner_alone(
    place: KeptPlace, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    assert main(["export", str(out), "--athlete", CODE, "--format", "csv,edf"]) == 0
    assert main(["report", CODE, "--output", str(tmp_path / "report.pdf")]) == 0
    name = re.compile(rb"Ylva|Erfundsd", re.IGNORECASE)
    for path in [*place.base.rglob("*"), *out.rglob("*")]:
        mode = stat.S_IMODE(path.stat().st_mode)
        assert mode == (0o700 if path.is_dir() else 0o600), path
        if path.is_file() and path.suffix not in (".db", ".force"):
            assert not name.search(path.name.encode() + path.read_bytes()), path
    assert stat.S_IMODE((tmp_path / "report.pdf").stat().st_mode) == 0o600
    for path in place.recording_files():
        assert CODE in path.name
        assert "Ylva" not in str(recordings.read(path).header)


# ------------------------------------------------------------------ the audit


def test_the_audit_tells_who_did_what(
    place: KeptPlace, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["audit", "--practitioner", "Invented Therapist"]) == 0
    assert main(["report", CODE, "--output", str(tmp_path / "r.pdf")]) == 0
    assert main(["export", str(tmp_path / "out"), "--what", "reps"]) == 0
    capsys.readouterr()
    assert main(["audit", "--code", CODE.lower()]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line.split("  ")[2] for line in lines] == ["exported", "reported", "opened"]
    assert f"{system_user()} (Invented Therapist)" in lines[0]
    assert str(tmp_path / "out") in lines[0]
    assert NAME not in "".join(lines)
    with Logbook.open(place.logbook) as book:
        assert book.audit.list(code=STAYS) == ()
        assert len(book.audit.list(actions=(Action.EXPORTED,))) == 1


def test_the_audit_is_read_by_the_clock_of_this_place(
    place: KeptPlace, utc_day: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with Logbook.open(place.logbook) as book:
        book.audit.add(Action.OPENED, code=STAYS)
    assert main(["audit", "--code", STAYS]) == 0
    told = capsys.readouterr().out
    here = datetime.now(tz=UTC).astimezone()
    assert told.startswith(f"{here:%Y-%m-%d %H:}")
    assert utc_day not in told
    assert main(["audit", "--code", STAYS, "--json"]) == 0  # other programs have UTC
    (row,) = json.loads(capsys.readouterr().out)
    assert row["at_utc"].startswith(utc_day)


def test_the_audit_of_a_code_that_nobody_has_says_so(
    place: KeptPlace, capsys: pytest.CaptureFixture[str]
) -> None:
    for how in ([], ["--json"]):
        assert main(["audit", "--code", "NOBODY-1", *how]) == 1
        told = capsys.readouterr()
        assert told.out == ""
        assert told.err == (
            "biofeedback audit: There is no athlete NOBODY-1 in the logbook. Check the "
            "code; of whoever was erased the audit keeps a count and no code.\n"
        )
    # Of somebody who is there and of whom nothing was given out it is no fault.
    assert main(["audit", "--code", STAYS.lower()]) == 0
    assert capsys.readouterr().out == (
        f"Nothing is in the audit about {STAYS.lower()}.\n"
    )
    with Logbook.open(place.logbook) as book:
        assert not book.audit.list(code="NOBODY-1")


# ------------------------------------------------------------------ older copies


def test_the_copy_of_an_older_logbook_is_cleared_too(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    old = gzip.decompress((KEPT / "logbook-0004.db.gz").read_bytes())
    place = KeptPlace(tmp_path / "here" / "logbook.db", tmp_path / "here" / "r")
    folders.make_private(place.recordings)
    place.logbook.write_bytes(old)
    with Logbook.open(place.logbook) as book:  # keeps the old one beside it
        codes = {each.code: each.name for each in book.athletes()}
        code = next(code for code in codes if book.reps(athlete_code=code))
    disk = tmp_path / "disk"
    back_up(place, disk)
    (disk / "logbook.db").write_bytes(old)  # as a backup of that time has it
    told = json.loads((disk / "manifest.json").read_text())
    size, sha256 = checksum(disk / "logbook.db")
    told["files"]["logbook.db"] |= {"size_bytes": size, "sha256": sha256}
    (disk / "manifest.json").write_text(json.dumps(told))

    def rows_of(path: Path) -> int:
        raw = sqlite3.connect(path)
        query = "SELECT count(*) FROM athletes WHERE code = ?"
        (found,) = raw.execute(query, [code]).fetchone()
        raw.close()
        return int(found)

    books = [
        path for path in tmp_path.rglob("*.db") if path.read_bytes()[:6] == b"SQLite"
    ]
    assert len(books) == 3
    assert all(rows_of(path) == 1 for path in books)
    words = ["--logbook", str(place.logbook), "--recordings", str(place.recordings)]
    assert main(["erase", code, "--yes", *words]) == 0, capsys.readouterr().out
    after = list(tmp_path.rglob("*.db"))
    assert sorted(after) == sorted(books)
    assert all(rows_of(path) == 0 for path in after)
