"""Exports of the logbook: filters, discretion, whole or not at all, the manifest."""

from __future__ import annotations

import hashlib
import json
import shutil
import stat
import sys
import time
from datetime import date
from typing import TYPE_CHECKING

import pytest
from logbook.test_calibrations import calibrated
from session.kept_logbook import KEPT, NAMES, enter, fill, manifest, rows, told

from biofeedback import cli
from biofeedback.errors import FieldError, FileError, UserError
from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.exports.chosen_sets import Filters
from biofeedback.session.export import export_logbook
from biofeedback.session.export_asked import FORMATS, Wanted
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import Event, Header

if TYPE_CHECKING:
    from pathlib import Path

    from biofeedback.session.export_asked import Exported
    from biofeedback.wire.frames import Frame

    Captured = pytest.CaptureFixture[str]
    Kept = tuple[Path, Path]

ALL = Wanted(FORMATS)
NUDGED = "nudge-and-lapse-v1.0.force"


@pytest.fixture(scope="module")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("filled")
    fill(folder)
    return folder


@pytest.fixture
def kept(filled: Path, tmp_path: Path) -> Kept:
    """A logbook with three sets, and the folder of their recordings."""
    shutil.copytree(filled, tmp_path, dirs_exist_ok=True)
    return tmp_path / "logbook.db", tmp_path / "recordings"


def export(
    kept: Kept,
    out: Path,
    filters: Filters | None = None,
    wanted: Wanted = ALL,
) -> Exported:
    place, held = kept
    with Logbook.open(place) as logbook:
        return export_logbook(logbook, held, out, filters or Filters(), wanted)


def command(kept: Kept, out: Path, *words: str) -> int:
    place, held = kept
    where = ["--logbook", str(place), "--recordings", str(held)]
    return cli.main(["export", str(out), *words, *where])


def remade(path: Path, **header: object) -> None:
    """The same recording with other things in its header."""
    frames: list[Frame] = []
    for frame in recordings.read(path).frames():
        assert not hasattr(frame, "reason")
        if isinstance(frame, Header):
            frame = Header({**frame.content, **header})  # noqa: PLW2901  its new form
        frames.append(frame)
    path.write_bytes(b"".join(map(encode, frames)))


# --------------------------------------------------------------------- the folder


def test_the_folder_is_whole_and_for_its_owner_alone(
    kept: Kept, tmp_path: Path
) -> None:
    out = tmp_path / "new" / "out"
    done = export(kept, out)
    found = manifest(out)
    assert found == done.manifest
    assert found["complete"] is True
    assert found["counts"] == {
        "athletes": 3,
        "sessions": 3,
        "sets": 3,
        "reps": 6,
        "samples": 1469 + 2072 + 1507,
    }
    listed = {file["name"]: file for file in found["files"]}
    there = {
        path.relative_to(out).as_posix(): path
        for path in out.rglob("*")
        if path.is_file() and path.name != "manifest.json"
    }
    assert listed.keys() == there.keys()
    for name, path in there.items():
        content = path.read_bytes()
        assert listed[name]["size_bytes"] == len(content)
        assert listed[name]["sha256"] == hashlib.sha256(content).hexdigest()
    for path in (out, *out.rglob("*")):
        wanted = 0o700 if path.is_dir() else 0o600
        assert stat.S_IMODE(path.stat().st_mode) == wanted
    assert [path.name for path in out.parent.iterdir()] == ["out"]


def test_each_recording_tells_its_calibration_and_how_fine_edf_is(
    kept: Kept, tmp_path: Path
) -> None:
    export(kept, tmp_path / "out")
    for recording in manifest(tmp_path / "out")["recordings"]:
        for channel in recording["channels"]:
            assert channel["calibration"]["label"] == "simulated rig"
            assert len(channel["calibration"]["coefficients"]) == 2
        steps_n = recording["edf"]["step_n"]
        assert steps_n == pytest.approx([1000 / 32767] * len(recording["channels"]))
        assert recording["edf"]["range_n"] == [1000.0] * len(steps_n)


def test_a_calibration_of_the_logbook_is_named_by_its_key(
    kept: Kept, tmp_path: Path
) -> None:
    place, held = kept
    path = held / "both-sides-v1.0.force"
    header = recordings.read(path).header
    profile = header["profile"]
    assert isinstance(profile, dict)
    with Logbook.open(place) as logbook:
        row = logbook.calibrations.add(
            calibrated(),
            serial_number="SIM-0001",
            channel=0,
            label="May",
            on_date="2026-05-02",
        )
        made_with = row.calibration.to_json()
        left, right = profile["channels"]
        # The right one has the label of a record that is another cell's.
        other = {**right["calibration"], "label": "May"}
        remade(
            path,
            set_id="01a2131b-0000-7000-8000-00000000feed",
            profile={
                **profile,
                "channels": [
                    {**left, "calibration": made_with},
                    {**right, "calibration": other},
                ],
            },
        )
        enter(logbook, path)
    export(kept, tmp_path / "out", wanted=Wanted())
    (told,) = [
        each["channels"]
        for each in manifest(tmp_path / "out")["recordings"]
        if each["set_id"].endswith("feed")
    ]
    first, second = (channel["calibration"] for channel in told)
    assert (first["id"], first["label"]) == (row.id, "May")
    assert first["date"] == "2026-05-02"
    assert first["uncertainty_n"] == made_with["uncertainty"] != []
    assert second["id"] is None


def test_a_rep_that_does_not_count_is_there_and_says_so(
    kept: Kept, tmp_path: Path
) -> None:
    place, _ = kept
    with Logbook.open(place) as logbook:
        rep = logbook.reps(athlete_code="DEMO-6")[0]
        logbook.void_rep(rep.id, "slipped")
    for notes in (False, True):
        out = tmp_path / f"out{notes}"
        export(kept, out, wanted=Wanted(samples=False, notes=notes))
        found = {
            (row["athlete_code"], row["number"]): row
            for row in rows(out / "csv" / "reps.csv")
        }
        assert found["DEMO-6", "2"]["voided"] == "1"
        assert found["DEMO-6", "2"].get("void_reason") == ("slipped" if notes else None)
        assert sum(int(row["voided"]) for row in found.values()) == 1


def test_nothing_is_written_over(kept: Kept, tmp_path: Path) -> None:
    out = tmp_path / "out"
    out.mkdir()
    export(kept, out)  # an empty folder is as good as none
    before = told(out)
    place, held = kept
    asked: list[int] = []
    with (
        Logbook.open(place) as logbook,
        pytest.raises(FileError, match="not empty") as caught,
    ):
        export_logbook(
            logbook,
            held,
            out,
            Filters(),
            ALL,
            progress=lambda done, _total: asked.append(done),
        )
    assert not asked  # told before the work, not after it
    assert caught.value.path == str(out)
    assert told(out) == before
    file = tmp_path / "file"
    file.write_text("mine")
    with pytest.raises(FileError, match="is a file"):
        export(kept, file)
    link = tmp_path / "link"
    link.symlink_to(tmp_path / "elsewhere")
    with pytest.raises(FileError, match="is a link"):
        export(kept, link)
    assert not (tmp_path / "elsewhere").exists()


@pytest.mark.parametrize("fault", [KeyboardInterrupt, RuntimeError])
def test_what_is_stopped_leaves_nothing(
    kept: Kept, tmp_path: Path, fault: type[BaseException]
) -> None:
    place, held = kept
    place_of = tmp_path / "there"
    place_of.mkdir()

    def stop(done: int, total: int) -> None:
        assert (done, total) == (1, 3)
        assert len(list(place_of.iterdir())) == 1
        raise fault

    with Logbook.open(place) as logbook, pytest.raises(fault):
        export_logbook(logbook, held, place_of / "out", Filters(), ALL, progress=stop)
    assert not list(place_of.iterdir())


def test_a_target_that_was_filled_meanwhile_is_left_alone(
    kept: Kept, tmp_path: Path
) -> None:
    place, held = kept
    out = tmp_path / "out"

    def fill_it(_done: int, _total: int) -> None:
        out.mkdir(exist_ok=True)
        (out / "mine").write_text("mine")

    with Logbook.open(place) as logbook, pytest.raises(FileError, match="not empty"):
        export_logbook(logbook, held, out, Filters(), Wanted(), progress=fill_it)
    assert [path.name for path in out.iterdir()] == ["mine"]
    assert not list(tmp_path.glob(".out-*"))


# ------------------------------------------------------------------------ filters


@pytest.mark.parametrize(
    ("words", "codes"),
    [
        ([], {"DEMO-3", "DEMO-6", "DEMO-7"}),
        (["--athlete", "DEMO-6"], {"DEMO-6"}),
        (["--athlete", "DEMO-6", "DEMO-3"], {"DEMO-3", "DEMO-6"}),
        (["--task", "seated CALF push (invented)"], {"DEMO-6", "DEMO-7"}),
        (
            ["--from", "2026-11-25", "--to", "2026-11-25"],
            {"DEMO-3", "DEMO-6", "DEMO-7"},
        ),
    ],
)
def test_filters(kept: Kept, tmp_path: Path, words: list[str], codes: set[str]) -> None:
    out = tmp_path / "out"
    assert command(kept, out, *words) == 0
    for table in ("sets", "reps", "events"):
        found = {row["athlete_code"] for row in rows(out / "csv" / f"{table}.csv")}
        assert found == codes
    assert len(list((out / "csv" / "samples").iterdir())) == len(codes)


@pytest.mark.parametrize(
    ("words", "told_words"),
    [
        (["--athlete", "DEMO-4"], "no athlete “DEMO-4”"),
        (["--task", "Seated calf"], "There are: “Seated calf push (invented)”, “Stand"),
        (["--from", "2026-11-26"], "No set of the logbook matches"),
        (["--to", "2026-11-24"], "No set of the logbook matches"),
        (["--from", "2026-11-26", "--to", "2026-11-25"], "is before 2026-11-26"),
        (["--to", "9999-12-31"], "too far away"),
        (["--format", "edf", "--what", "reps"], "EDF+ and BIDS hold samples"),
        (["--files", "a.force", "--athlete", "DEMO-3"], "choose from the logbook"),
        (["--files", "a.force", "--names"], "in a logbook and not in recordings"),
    ],
)
def test_what_cannot_be_is_told_and_nothing_is_made(
    kept: Kept, tmp_path: Path, capsys: Captured, words: list[str], told_words: str
) -> None:
    before = sorted(tmp_path.iterdir())
    assert command(kept, tmp_path / "out", *words) == 1
    assert told_words in capsys.readouterr().err
    assert sorted(tmp_path.iterdir()) == before


@pytest.mark.parametrize(
    "words",
    [
        ["--from", "25.11.2026"],
        ["--from", "20261125"],
        ["--to", "2026-02-30"],
        ["--to", "today"],
        ["--format", "csv,xml"],
        ["--what", ""],
    ],
)
def test_words_that_are_no_day_or_format_are_wrong_calls(
    kept: Kept, tmp_path: Path, capsys: Captured, words: list[str]
) -> None:
    with pytest.raises(SystemExit) as caught:
        command(kept, tmp_path / "out", *words)
    assert caught.value.code == 2
    assert "must be" in capsys.readouterr().err


@pytest.mark.parametrize(("zone", "is_of"), [("XXX-10", 26), ("XXX+3", 25)])
def test_days_are_local_ones(
    kept: Kept, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, zone: str, is_of: int
) -> None:
    # All sets began at 14:28 UTC on the 25th: past midnight ten hours further east.
    monkeypatch.setenv("TZ", zone)
    time.tzset()
    try:
        day = date(2026, 11, is_of)
        export(kept, tmp_path / "out", Filters(first_day=day, last_day=day), Wanted())
        other = date(2026, 11, 51 - is_of)
        with pytest.raises(UserError, match="No set"):
            export(kept, tmp_path / "no", Filters(first_day=other, last_day=other))
    finally:
        monkeypatch.undo()
        time.tzset()
    asked = manifest(tmp_path / "out")["asked"]["filters"]
    assert (
        asked["from_utc"] == f"2026-11-25T{'14' if is_of == 26 else '03'}:00:00+00:00"
    )


def test_a_task_is_found_however_its_letters_are_put_together(
    kept: Kept, tmp_path: Path
) -> None:
    place, held = kept
    path = held / "both-sides-v1.0.force"
    header = recordings.read(path).header
    asked = header["prescription"]
    assert isinstance(asked, dict)
    task = {**asked["task"], "name": "Kniestre\u0308ckung 膝"}  # ö in two parts: o + ¨
    remade(
        path,
        set_id="01a2131b-0000-7000-8000-00000000abcd",
        prescription={**asked, "task": task},
    )
    with Logbook.open(place) as logbook:
        enter(logbook, path)
    out = tmp_path / "out"
    assert (
        command(
            kept, out, "--task", "kniestr\u00ebckung 膝", "--format", "csv,bids,edf"
        )
        == 0
    )
    (row,) = rows(out / "csv" / "sets.csv")
    assert row["task"] == "Kniestre\u0308ckung 膝"
    (events,) = out.rglob("*_events.tsv")
    assert "_task-Kniestreckung_run-01_" in events.name


# --------------------------------------------------------------------- discretion


def note(path: Path, text: str) -> None:
    """Adds a note to a recording, as somebody typed it."""
    event = Event({"kind": "note", "time_s": 1.0, "text": text})
    frames = list(recordings.read(path).frames())
    ends = frames.pop()
    path.write_bytes(b"".join(encode(f) for f in (*frames, event, ends)))  # type: ignore[arg-type]  # no damage in it


def with_leaks(kept: Kept) -> None:
    """Names where they do not belong: in a task, in a note, in a file's name."""
    place, held = kept
    path = held / NUDGED
    note(path, "Olek Musterström says his knee hurts; zymurgy")
    header = recordings.read(path).header
    asked = header["prescription"]
    assert isinstance(asked, dict)
    profile = header["profile"]
    assert isinstance(profile, dict)
    task = {**asked["task"], "name": "Knee of OLEK  musterström"}
    whose = {"name": "Hip of Olek Musterström", "sides": "both", "key": ""}
    reference = {**(asked["reference"] or {}), "task": whose}
    remade(
        path,
        set_id="01a2131b-0000-7000-8000-00000000cafe",
        prescription={**asked, "task": task, "reference": reference},
        profile={**profile, "serial_number": "Beispielfrau 2"},
    )
    named = path.rename(held / "musterström.force")
    with Logbook.open(place) as logbook:
        enter(logbook, named)
        (rep, *_) = logbook.reps(athlete_code="DEMO-6")
        logbook.void_rep(rep.id, "Änne was on the rig; quixotry")
    (held / "both-sides-v1.0.force").unlink()  # left out, and named


def parts_of_names() -> list[str]:
    return [part for name in NAMES.values() for part in name.split()]


def test_no_name_is_anywhere_unless_it_is_asked_for(kept: Kept, tmp_path: Path) -> None:
    with_leaks(kept)
    out = tmp_path / "out"
    assert command(kept, out, "--format", ",".join(FORMATS)) == 1
    said = told(out).casefold()
    for part in (*parts_of_names(), "musterstrom", "zymurgy", "quixotry", "knee hurts"):
        assert part.casefold() not in said, part
    assert str(tmp_path).casefold() not in said
    assert "text" not in rows(out / "csv" / "events.csv")[0]
    asked = manifest(out)["asked"]
    assert asked["names"] is False
    assert asked["names_taken_out_of_texts"] > 0
    assert asked["texts_left_out"] >= 3
    tasks = {row["task"] for row in rows(out / "csv" / "sets.csv")}
    assert "Knee of (name left out)" in tasks
    whose = {row["reference_task"] for row in rows(out / "csv" / "sets.csv")}
    assert "Hip of (name left out)" in whose


def test_notes_may_be_had_without_names(kept: Kept, tmp_path: Path) -> None:
    with_leaks(kept)
    out = tmp_path / "out"
    assert command(kept, out, "--format", ",".join(FORMATS), "--notes") == 1
    said = told(out)
    for word in ("zymurgy", "quixotry"):
        assert word in said
    for part in parts_of_names():
        assert part.casefold() not in said.casefold(), part


def test_names_stand_where_they_are_asked_for(kept: Kept, tmp_path: Path) -> None:
    out = tmp_path / "out"
    assert command(kept, out, "--format", ",".join(FORMATS), "--names") == 0
    for table in ("sets", "reps"):
        for row in rows(out / "csv" / f"{table}.csv"):
            assert row["athlete_name"] == NAMES[row["athlete_code"]]
    people = (out / "bids" / "participants.tsv").read_text()
    assert "sub-DEMO3\tDEMO-3\tÄnne Beispielfrau\n" in people
    (edf,) = (out / "edf").glob("*DEMO-3*")
    assert edf.read_bytes()[8:88].decode("ascii").rstrip() == (
        "DEMO-3 X X Anne_Beispielfrau"
    )
    assert manifest(out)["asked"]["names"] is True


# ----------------------------------------------------------------- what is missing


def test_what_cannot_be_read_is_named_and_the_rest_is_there(
    kept: Kept, tmp_path: Path, capsys: Captured
) -> None:
    _, held = kept
    (held / NUDGED).unlink()
    (held / "one-side-v1.0.force").write_bytes(b"no recording at all")
    out = tmp_path / "out"
    assert command(kept, out, "--format", ",".join(FORMATS)) == 1
    err = capsys.readouterr().err
    assert str(held / NUDGED) in err
    assert str(held / "one-side-v1.0.force") in err
    found = manifest(out)
    assert found["complete"] is False
    assert found["counts"]["sets"] == 3
    assert found["counts"]["samples"] == 1469
    # The logbook knows the reps, whatever became of the recordings.
    assert found["counts"]["reps"] == 6
    left = {each["recording"].split("_")[1]: each for each in found["left_out"]}
    assert left.keys() == {"DEMO-6", "DEMO-3"}
    assert "no such file" in left["DEMO-6"]["why"]
    assert "not a recording" in left["DEMO-3"]["why"]
    assert left["DEMO-3"]["what"] == list(FORMATS)
    for row in rows(out / "csv" / "sets.csv"):
        there = row["athlete_code"] == "DEMO-7"
        assert bool(row["samples_file"]) is there
        assert bool(list((out / "edf").glob(f"*{row['athlete_code']}*"))) is there
    assert len(list((out / "bids").glob("sub-*"))) == 1


def test_the_recording_of_another_set_is_not_taken_for_this_one(
    kept: Kept, tmp_path: Path
) -> None:
    _, held = kept
    (held / NUDGED).write_bytes((held / "both-sides-v1.0.force").read_bytes())
    done = export(kept, tmp_path / "out")
    (left,) = done.left_out
    assert "DEMO-6" in left.stem
    assert "another set" in left.why


def test_of_a_recording_that_fails_half_way_nothing_is_left(
    kept: Kept, tmp_path: Path
) -> None:
    place, held = kept
    path = held / "both-sides-v1.0.force"
    profile = recordings.read(path).header["profile"]
    assert isinstance(profile, dict)
    first, second = profile["channels"]
    heavy = {**profile, "channels": [first, {**second, "rated_n": 1e7}]}
    remade(path, profile=heavy, set_id="01a2131b-0000-7000-8000-0000000000ff")
    with Logbook.open(place) as logbook:
        enter(logbook, path)
    out = tmp_path / "out"
    done = export(kept, out, Filters(codes=("DEMO-7",)))
    # EDF+ is begun after the tables: their files are there when it refuses.
    (left,) = [each for each in done.left_out if each.set_id.endswith("00ff")]
    assert "more than EDF+ can say" in left.why
    assert not list(out.rglob("*0000ff*"))


def test_a_damaged_frame_is_a_gap_and_told(
    kept: Kept, tmp_path: Path, capsys: Captured
) -> None:
    _, held = kept
    path = held / NUDGED
    data = bytearray(path.read_bytes())
    data[len(data) // 2] ^= 0x10
    path.write_bytes(data)
    out = tmp_path / "out"
    assert command(kept, out, "--format", "csv,edf") == 0
    assert "1 damaged frame" in capsys.readouterr().out
    (loss,) = [each["losses"] for each in manifest(out)["recordings"] if each["losses"]]
    assert "could not be read" in loss
    kinds = [row["kind"] for row in rows(out / "csv" / "events.csv")]
    assert kinds.count("samples lost") == 1


def test_reps_alone_need_no_recording(kept: Kept, tmp_path: Path) -> None:
    _, held = kept
    for path in held.iterdir():
        path.unlink()
    out = tmp_path / "out"
    assert command(kept, out, "--what", "reps") == 0
    assert {path.name for path in (out / "csv").iterdir()} == {"reps.csv", "sets.csv"}
    assert len(rows(out / "csv" / "reps.csv")) == 6


def test_a_set_without_reps_is_a_set(kept: Kept, tmp_path: Path) -> None:
    place, held = kept
    path = held / "one-side-v1.0.force"
    frames = list(recordings.read(path).frames())
    path.write_bytes(b"".join(encode(frame) for frame in frames[:30]))  # type: ignore[arg-type]  # no damage in it
    remade(path, set_id="01a2131b-0000-7000-8000-00000000beef")
    with Logbook.open(place) as logbook:
        enter(logbook, path)
    out = tmp_path / "out"
    export(kept, out, Filters(codes=("DEMO-3",)))
    row = next(
        row for row in rows(out / "csv" / "sets.csv") if row["set_id"].endswith("beef")
    )
    assert row["reps"] == "0"
    assert row["numbers_agree"] == ""  # nothing is stored that could agree
    assert int(row["samples"]) > 0
    (samples,) = (out / "csv" / "samples").glob("*beef.csv")
    assert {row["rep"] for row in rows(samples)} == {""}


def test_without_a_logbook_none_is_made(tmp_path: Path, capsys: Captured) -> None:
    missing = (tmp_path / "none.db", tmp_path / "none")
    assert command(missing, tmp_path / "out") == 1
    assert "there is no logbook" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_without_pyarrow_parquet_is_refused_in_words(
    kept: Kept, tmp_path: Path, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "pyarrow", None)
    assert command(kept, tmp_path / "out", "--format", "csv,parquet") == 1
    assert "pip install pyarrow" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()
    assert command(kept, tmp_path / "out", "--format", "csv,edf,bids") == 0


# --------------------------------------------------------------------- the answer


def test_the_answer_in_words_and_as_json(
    kept: Kept, tmp_path: Path, capsys: Captured
) -> None:
    assert command(kept, tmp_path / "a", "--format", "csv,edf") == 0
    said = capsys.readouterr()
    assert "3 athletes, 3 sessions, 3 sets, 6 reps, 5048 samples" in said.out
    assert "one step is 0.0305 N" in said.out
    assert "left out; --notes writes them" in said.out
    assert said.err == ""  # no bar where there is no screen
    assert command(kept, tmp_path / "b", "--athlete", "DEMO-3", "--json") == 0
    assert json.loads(capsys.readouterr().out) == manifest(tmp_path / "b")


def test_a_file_in_place_of_a_folder_is_told(capsys: Captured) -> None:
    path = KEPT / NUDGED
    before = path.read_bytes()
    assert cli.main(["export", str(path), "--files", str(path)]) == 1
    assert "an export is a folder" in capsys.readouterr().err
    assert path.read_bytes() == before


def test_something_must_be_wanted() -> None:
    for wanted in ({"formats": ()}, {"reps": False, "samples": False}):
        with pytest.raises(FieldError, match="nothing is asked for"):
            Wanted(**wanted)
