"""Round trips: what independent readers find in an export, sample by sample.

Forces are worked out here from the counts in the recording and the line in its header,
by numpy alone. Readers: pyarrow for CSV, pyedflib and edfio for EDF+, and the BIDS
validator for BIDS. (Parquet is written by pyarrow too; its content is compared.)
"""

from __future__ import annotations

import csv
import gzip
import json
import shutil
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import edfio
import numpy as np
import pyarrow as pa
import pyarrow.csv
import pyarrow.parquet as pq
import pytest
from logbook.numbered import LINE, header, numbers, sample_bytes
from session.kept_logbook import KEPT, manifest, rows

from biofeedback.conditioning.profile import RigProfile, Side, Zero, ZeroKind
from biofeedback.logbook import recording_format, recordings
from biofeedback.logbook.exports.table import reps_columns, samples_columns
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.tables import Choice, import_table
from biofeedback.session.export import export_files
from biofeedback.session.export_asked import FORMATS, Exported, Wanted
from biofeedback.session.replay import Replayed, replay
from biofeedback.wire.codec import encode
from biofeedback.wire.fields import Fields
from biofeedback.wire.frames import Close, Event, Header, Samples

if TYPE_CHECKING:
    import numpy.typing as npt

UNITS = {"n", "s", "pct", "ns", "hz", "m", "nm", "kg", "n2"}
ALL = sorted(KEPT.glob("*.force"))
NUDGED = KEPT / "nudge-and-lapse-v1.0.force"


@pytest.fixture(scope="module")
def out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The three demo recordings in every format."""
    folder = tmp_path_factory.mktemp("formats") / "out"
    export_files(ALL, folder, Wanted(FORMATS, notes=True))
    return folder


def file_of(out: Path, recording: Path, kind: str) -> Path:
    set_id = recordings.read(recording).header["set_id"]
    (told,) = [r for r in manifest(out)["recordings"] if r["set_id"] == set_id]
    return out / str(told["files"][kind])


class Truth:
    """What the recording holds, by the standard library and numpy."""

    def __init__(self, path: Path) -> None:
        profile = RigProfile.from_json(
            Fields(recordings.read(path).header).inner("profile")
        )
        self.names = [channel.side.value for channel in profile.channels]
        found = recordings.counts(path)[0]
        self.index, self.time_s, self.counts = found.index, found.time_s, found.counts
        line = np.array([c.calibration.coefficients for c in profile.channels])
        taken_n = np.array(profile.zero.offsets_n)
        self.force_n = line[:, 0] + line[:, 1] * found.counts - taken_n
        self.usable = ~(found.settling | found.saturated.any(axis=1))


def columns(table: pa.Table, *names: str) -> npt.NDArray[np.float64]:
    """Columns side by side; NaN for what is empty."""
    return np.column_stack(
        [table[name].to_numpy(zero_copy_only=False) for name in names]
    ).astype(float)


def check_samples(table: pa.Table, path: Path) -> None:
    truth, replayed = Truth(path), replay(path)
    assert table.column_names == [c.name for c in samples_columns(truth.names)]
    np.testing.assert_array_equal(columns(table, "index")[:, 0], truth.index)
    np.testing.assert_allclose(columns(table, "time_s")[:, 0], truth.time_s, atol=1e-9)
    counts = columns(table, *(f"counts_{name}" for name in truth.names))
    np.testing.assert_array_equal(counts, truth.counts)
    force_n = columns(table, *(f"force_{name}_n" for name in truth.names))
    np.testing.assert_array_equal(np.isnan(force_n).all(axis=1), ~truth.usable)
    np.testing.assert_allclose(
        force_n[truth.usable], truth.force_n[truth.usable], rtol=0, atol=1e-9
    )
    np.testing.assert_array_equal(columns(table, "usable")[:, 0], truth.usable)
    check_bands_and_reps(table, truth, replayed)


def check_bands_and_reps(table: pa.Table, truth: Truth, replayed: Replayed) -> None:
    edges_n = columns(table, "band_lower_n", "band_upper_n")
    reps = columns(table, "rep")[:, 0]
    for at, time_s in enumerate(truth.time_s):
        band = [b for from_s, b in replayed.bands if from_s < time_s or not from_s][-1]
        assert tuple(edges_n[at]) == (band.lower_n, band.upper_n)
        held = [
            rep["number"]
            for rep in replayed.reps
            if float(str(rep["start_s"])) <= time_s <= float(str(rep["end_s"]))
        ]
        assert reps[at] == held[0] if held else np.isnan(reps[at])


# ---------------------------------------------------------------------------- CSV


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_samples_come_back_from_csv(out: Path, path: Path) -> None:
    check_samples(pyarrow.csv.read_csv(file_of(out, path, "csv")), path)


def test_csv_is_as_rfc_4180_has_it(out: Path) -> None:
    for path in (out / "csv").rglob("*.csv"):
        text = path.read_bytes().decode("utf-8")
        assert text.endswith("\r\n")
        assert "\n" not in text.replace("\r\n", "")
        with path.open(encoding="utf-8", newline="") as file:
            widths = {len(row) for row in csv.reader(file, strict=True)}
        assert len(widths) == 1


def test_all_measures_of_all_reps_come_back(out: Path) -> None:
    found = rows(out / "csv" / "reps.csv")
    assert list(found[0]) == [column.name for column in reps_columns(notes=True)]
    parquet = pq.read_table(out / "parquet" / "reps.parquet").to_pylist()
    expected = [(replay(path), rep) for path in ALL for rep in replay(path).reps]
    assert len(found) == len(parquet) == len(expected) == 6
    for cells, stored, (replayed, rep) in zip(found, parquet, expected, strict=True):
        assert cells["set_id"] == stored["set_id"] == replayed.header["set_id"]
        for name, value in rep.items():
            check_measure(cells, stored, name, value)
        assert stored["voided"] is False


def check_measure(
    cells: dict[str, str], stored: dict[str, Any], name: str, value: object
) -> None:
    if name in {"rest_before_n", "rest_after_n"}:
        for number, each in enumerate(value if isinstance(value, list) else [], 1):
            one = f"{name[:-2]}_{number}_n"
            assert float(cells[one]) == stored[one] == each
    elif name == "lapse_times_s":
        pairs = [pair.split("/") for pair in cells[name].split("; ") if pair]
        assert [[float(t) for t in pair] for pair in pairs] == value
    elif isinstance(value, list):
        assert cells[name] == "; ".join(value)
    elif value is None:
        assert cells[name] == ""
        assert stored[name] is None
    elif isinstance(value, str):
        assert cells[name] == stored[name] == value
    else:
        assert float(cells[name]) == stored[name] == value


def test_what_a_spreadsheet_would_run_is_a_text(tmp_path: Path) -> None:
    path = tmp_path / "evil.force"
    frames = list(recordings.read(NUDGED).frames())
    texts = ["=1+1", "@SUM(A1)", "+a", "-b", "\t=c", '"=d",\r\n=e', "\uff1d1"]
    events = [Event({"kind": "note", "time_s": 0.5, "text": text}) for text in texts]
    path.write_bytes(b"".join(encode(f) for f in (*frames[:5], *events, *frames[5:])))  # type: ignore[arg-type]  # no damage in it
    export_files([path], tmp_path / "out", Wanted(notes=True))
    found = rows(tmp_path / "out" / "csv" / "events.csv")
    notes = [row["text"] for row in found if row["kind"] == "note"][1:]
    assert notes == ["'=1+1", "'@SUM(A1)", "'+a", "'-b", "'=c", '"=d", =e', "'\uff1d1"]
    for row in found:
        for cell in row.values():
            assert not cell.startswith(("=", "@", "+", "\t"))


# ------------------------------------------------------------------------ Parquet


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_samples_come_back_from_parquet(out: Path, path: Path) -> None:
    table = pq.read_table(file_of(out, path, "parquet"))
    check_samples(table, path)
    units = {field.name: field.metadata[b"unit"].decode() for field in table.schema}
    for name, unit in units.items():
        assert unit == ("N" if name.endswith("_n") else "s" if name == "time_s" else "")
    facts = json.loads(table.schema.metadata[b"biofeedback"])
    assert facts["set_id"] == recordings.read(path).header["set_id"]
    assert facts["rate_hz"] == 80.0


def test_parquet_holds_the_tables_of_csv(out: Path) -> None:
    for name in ("sets", "reps", "events"):
        listed = pq.read_table(out / "parquet" / f"{name}.parquet").to_pylist()
        table = rows(out / "csv" / f"{name}.csv")
        assert len(listed) == len(table) > 0
        for values, cells in zip(listed, table, strict=True):
            assert list(values) == list(cells)
            for key, value in values.items():
                if value is None:
                    assert cells[key] == ""
                elif isinstance(value, str):
                    assert cells[key] == value
                else:
                    assert float(cells[key]) == value


def test_every_column_with_a_unit_says_so_in_the_manifest(out: Path) -> None:
    assert manifest(out)["tables"].keys() == {"sets", "reps", "events", "samples"}
    for name, listed in manifest(out)["tables"].items():
        for column in listed:
            named = column["name"].rsplit("_", 1)[-1] in UNITS
            assert bool(column["unit"]) is (
                named or column["name"].endswith("_points")
            ), (
                name,
                column,
            )


# ---------------------------------------------------------------------------- EDF+


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_forces_come_back_from_edf_to_half_a_step(out: Path, path: Path) -> None:
    truth = Truth(path)
    edf = edfio.read_edf(file_of(out, path, "edf"))
    assert edf.reserved == "EDF+C"
    (told,) = [
        r["edf"]
        for r in manifest(out)["recordings"]
        if out / r["files"]["edf"] == file_of(out, path, "edf")
    ]
    usable = edf.signals[-1].data[: len(truth.index)].astype(bool)
    np.testing.assert_array_equal(usable, truth.usable)
    assert not edf.signals[-1].data[len(truth.index) :].any()
    for at, name in enumerate(truth.names):
        signal = edf.signals[at]
        assert (signal.label, signal.physical_dimension) == (f"Force {name}", "N")
        assert signal.sampling_frequency == 80.0
        off_n = signal.data[: len(usable)][usable] - truth.force_n[usable, at]
        assert np.abs(off_n).max() <= told["step_n"][at] / 2 * 1.000001
        assert (signal.digital[: len(usable)][~usable] == -32767).all()
        assert (signal.digital[len(usable) :] == -32767).all()


def test_the_strict_reader_agrees(out: Path) -> None:
    pyedflib = pytest.importorskip("pyedflib", reason="no wheel for this Python")
    for path in ALL:
        truth = Truth(path)
        reader = pyedflib.EdfReader(str(file_of(out, path, "edf")))
        try:
            assert reader.getSignalLabels()[-1] == "Usable"
            for at in range(len(truth.names)):
                back_n = reader.readSignal(at)[: len(truth.index)][truth.usable]
                np.testing.assert_allclose(
                    back_n, truth.force_n[truth.usable, at], atol=1000 / 32767 / 2
                )
            onsets_s, durations_s, texts = reader.readAnnotations()
        finally:
            reader.close()
        other = edfio.read_edf(file_of(out, path, "edf")).annotations
        assert sorted(zip(onsets_s, texts, strict=True)) == sorted(
            (one.onset, one.text) for one in other
        )
        assert max(durations_s) > 4


def test_annotations_tell_reps_lapses_bands_and_notes(out: Path) -> None:
    replayed = replay(NUDGED)
    edf = edfio.read_edf(file_of(out, NUDGED, "edf"))
    told = {one.text: one for one in edf.annotations}
    first = replayed.reps[0]
    assert told["Rep 1: complete"].onset == pytest.approx(first["start_s"], abs=1e-6)
    assert told["Rep 1: complete"].duration == pytest.approx(
        float(str(first["end_s"])) - float(str(first["start_s"])), abs=1e-6
    )
    left_s, back_s = np.array(first["lapse_times_s"]).ravel().tolist()  # one pair
    assert told["Lapse of rep 1"].onset == pytest.approx(left_s, abs=1e-6)
    assert told["Lapse of rep 1"].duration == pytest.approx(back_s - left_s, abs=2e-6)
    assert told["Band 60 to 96 N"].onset == 0
    assert told["Band 68 to 104 N: stronger today"].onset == pytest.approx(5.0)
    assert any(text.startswith("Note: Invented") for text in told)


def test_the_start_is_local_time_to_the_millisecond(out: Path) -> None:
    for path in ALL:
        edf = edfio.read_edf(file_of(out, path, "edf"))
        start = datetime.fromisoformat(str(recordings.read(path).header["started_utc"]))
        local = start.astimezone().replace(tzinfo=None)
        assert datetime.combine(edf.startdate, edf.starttime) == local
        code = recordings.read(path).header["athlete_code"]
        assert (edf.patient.code, edf.patient.name) == (code, "X")
        assert edf.recording.equipment_code == "SIM-0001"


# -------------------------------------------------------------- gaps and odd clocks


def numbered(
    path: Path, frames: list[tuple[int, int]], *more: Event, **head: object
) -> Path:
    """A recording of two cells whose counts are the numbers of the samples.

    Args:
        frames: (first sample, how many) of each frame.
    """
    whole = recording_format.completed(
        header(**head), set_id=new_key(), started_utc=datetime(2026, 3, 1, tzinfo=UTC)
    )
    parts = [encode(Header(whole)), *(sample_bytes(*frame) for frame in frames)]
    parts += [encode(event) for event in more]
    path.write_bytes(b"".join([*parts, encode(Close({}, 0))]))
    return path


def exported(path: Path, out: Path) -> tuple[Exported, dict[str, Any]]:
    done = export_files([path], out, Wanted(FORMATS))
    (told,) = manifest(out)["recordings"]
    return done, told


def test_a_gap_stays_a_gap(tmp_path: Path) -> None:
    kept = [(8 * n, 8) for n in range(60) if n not in (7, 8, 30)]
    path = numbered(tmp_path / "gap.force", kept)
    out = tmp_path / "out"
    done, told = exported(path, out)
    assert done.losses[0][1].startswith("24 samples missing")
    index = np.concatenate([np.arange(first, first + n) for first, n in kept])
    table = pyarrow.csv.read_csv(out / told["files"]["csv"])
    np.testing.assert_array_equal(columns(table, "index")[:, 0], index)
    np.testing.assert_array_equal(
        columns(table, "counts_left", "counts_right"), numbers(0, 480)[index]
    )
    expected_n = LINE[0] + LINE[1] * numbers(0, 480)
    edf = edfio.read_edf(out / told["files"]["edf"])
    usable = edf.signals[-1].data[:480].astype(bool)
    np.testing.assert_array_equal(np.flatnonzero(usable), index)
    for side in (0, 1):
        back_n = edf.signals[side].data[:480]
        np.testing.assert_allclose(
            back_n[usable], expected_n[usable, side], atol=1000 / 32767 / 2
        )
        assert (edf.signals[side].digital[:480][~usable] == -32767).all()
    lost = [one for one in edf.annotations if one.text == "Samples lost"]
    assert [one.onset for one in lost] == pytest.approx([55 / 80, 239 / 80])
    assert [one.duration for one in lost] == pytest.approx([17 / 80, 9 / 80])
    lines = physio(out, told)
    assert len(lines) == 480
    for at, cells in enumerate(lines):
        if at in index:
            assert [int(cells[2]), int(cells[3])] == numbers(0, 480)[at].tolist()
        else:
            assert set(cells) == {"n/a"}
    (row,) = rows(out / "csv" / "sets.csv")
    assert row["lost"] == "24"


def physio(out: Path, told: dict[str, Any]) -> list[list[str]]:
    content = gzip.decompress((out / told["files"]["bids"]).read_bytes()).decode()
    return [line.split("\t") for line in content.splitlines()]


def test_what_was_done_is_told_in_the_table_and_in_edf(tmp_path: Path) -> None:
    events = (
        Event({"kind": "pain", "time_s": 2.0, "level": 3}),
        Event({"kind": "pain taken back", "time_s": 2.2, "level": 3}),
        Event({"kind": "ceiling", "time_s": 2.5, "ceiling_n": 120.0}),
        Event({"kind": "gate", "time_s": 3.0, "open": False, "reason": "slow down"}),
        Event({"kind": "stop", "reason": "enough"}),
        Event({"kind": "of a later version", "time_s": 4.0}),
    )
    path = numbered(tmp_path / "d.force", [(8 * n, 8) for n in range(60)], *events)
    out = tmp_path / "out"
    _, told = exported(path, out)
    found = {row["kind"]: row for row in rows(out / "csv" / "events.csv")}
    assert found.keys() >= {"band", "pain", "ceiling", "gate", "stop"}
    assert "of a later version" not in found
    assert (found["pain"]["pain"], found["pain"]["pain_taken_back"]) == ("3", "1")
    assert found["ceiling"]["ceiling_n"] == "120.0"
    assert float(found["stop"]["onset_s"]) == 479 / 80  # the last sample
    texts = {
        one.text: one.onset
        for one in edfio.read_edf(out / told["files"]["edf"]).annotations
    }
    assert texts["Pain 3 of 10, taken back"] == 2.0
    assert texts["Ceiling of 120 N passed"] == 2.5
    assert texts["Stop"] == pytest.approx(479 / 80)
    assert "slow down" not in str(texts)
    assert manifest(out)["asked"]["texts_left_out"] == 2


def test_another_board_on_the_port_is_told(tmp_path: Path) -> None:
    events = (
        Event({"kind": "board", "time_s": 1.0, "serial_number": "B-2", "used": False}),
        Event({"kind": "board", "time_s": 2.0, "serial_number": "A-1", "used": True}),
        Event({"kind": "board", "time_s": 3.0, "serial_number": "", "used": False}),
    )
    path = numbered(tmp_path / "b.force", [(8 * n, 8) for n in range(60)], *events)
    out = tmp_path / "out"
    _, told = exported(path, out)
    names = ("onset_s", "board", "board_used")
    listed = [row for row in rows(out / "csv" / "events.csv") if row["kind"] == "board"]
    assert [tuple(row[name] for name in names) for row in listed] == [
        ("1.0", "B-2", "0"), ("2.0", "A-1", "1"), ("3.0", "", "0"),
    ]  # fmt: skip
    texts = {
        one.onset: one.text
        for one in edfio.read_edf(out / told["files"]["edf"]).annotations
    }
    assert texts[1.0] == "Another board B-2 on the port, not used"
    assert texts[2.0] == "The board A-1 of this set is back"
    assert texts[3.0] == "Another board on the port, not used"
    (sidecar,) = (out / "bids").rglob("*_events.json")
    assert "Description" in json.loads(sidecar.read_text())["board_used"]
    lines = sidecar.with_suffix(".tsv").read_text().splitlines()
    head, *_ = (line.split("\t") for line in lines)
    kind, used = head.index("trial_type"), head.index("board_used")
    cells = [line.split("\t") for line in lines[1:]]
    assert [c[used] for c in cells if c[kind] == "board"] == ["0", "1", "0"]


def test_a_zero_taken_meanwhile_counts_from_there_on(tmp_path: Path) -> None:
    zero = Zero(ZeroKind.EMPTY_RIG, (2.0, -1.0), (0.1, 0.1))
    path = numbered(tmp_path / "z.force", [(8 * n, 8) for n in range(50)])
    data = path.read_bytes()
    event = encode(Event({"kind": "zero", "zero": zero.to_json()}, 400))
    ends = encode(Close({}, 0))
    after = b"".join(sample_bytes(8 * n, 8) for n in range(50, 60))
    path.write_bytes(data.removesuffix(ends) + event + after + ends)
    _, told = exported(path, tmp_path / "out")
    table = pyarrow.csv.read_csv(tmp_path / "out" / told["files"]["csv"])
    taken_n = np.where(np.arange(480)[:, None] >= 400, [[2.0, -1.0]], 0.0)
    np.testing.assert_allclose(
        columns(table, "force_left_n", "force_right_n"),
        LINE[0] + LINE[1] * numbers(0, 480) - taken_n,
        atol=1e-9,
    )
    events = rows(tmp_path / "out" / "csv" / "events.csv")
    assert [float(row["onset_s"]) for row in events if row["kind"] == "zero"] == [
        399 / 80
    ]


def test_what_saturates_has_counts_and_no_force(tmp_path: Path) -> None:
    stop = 2**23 - 1
    counts = np.array([[5, 5], [stop, 5], [6, 6], [7, 7]], np.int32)
    flags = np.zeros((4, 2), np.bool_)
    whole = recording_format.completed(
        header(), set_id=new_key(), started_utc=datetime(2026, 3, 1, tzinfo=UTC)
    )
    path = tmp_path / "s.force"
    settling = np.array([False, False, False, True])
    path.write_bytes(
        encode(Header(whole)) + encode(Samples(0, 0, 0, 12500, counts, flags, settling))
    )
    out = tmp_path / "out"
    _, told = exported(path, out)
    found = rows(out / told["files"]["csv"])
    assert [row["counts_left"] for row in found] == ["5", str(stop), "6", "7"]
    assert [row["saturated_left"] for row in found] == ["0", "1", "0", "0"]
    assert [row["usable"] for row in found] == ["1", "0", "1", "0"]
    assert [bool(row["force_right_n"]) for row in found] == [True, False, True, False]
    assert [line[4:6] for line in physio(out, told)][1] == ["n/a", "n/a"]
    events = rows(out / "csv" / "events.csv")
    assert [row["onset_s"] for row in events if row["kind"] == "not usable"] == [
        "0.0125",
        "0.0375",
    ]


def test_a_load_above_the_rated_one_is_kept(tmp_path: Path) -> None:
    path = tmp_path / "over.force"
    whole = recording_format.completed(
        header(), set_id=new_key(), started_utc=datetime(2026, 3, 1, tzinfo=UTC)
    )
    counts = np.array([[0, 0], [123_456, -150_000], [0, 0]], np.int32)  # 0.01 N each
    flags = np.zeros((3, 2), np.bool_)
    path.write_bytes(
        encode(Header(whole))
        + encode(Samples(0, 0, 0, 12500, counts, flags, np.zeros(3, np.bool_)))
    )
    _, told = exported(path, tmp_path / "out")
    assert told["edf"]["range_n"] == [1235.0, 1501.0]
    edf = edfio.read_edf(tmp_path / "out" / told["files"]["edf"])
    assert edf.signals[0].data[1] == pytest.approx(1234.561, abs=1235 / 32767 / 2)
    assert edf.signals[1].data[1] == pytest.approx(-1499.999, abs=1501 / 32767 / 2)


def test_a_table_without_prescription_and_with_an_odd_rate(tmp_path: Path) -> None:
    table = tmp_path / "Somebody by name.csv"
    force_n = np.round(40 + 30 * np.sin(np.arange(5000) / 50), 2)
    times_s = np.arange(5000) / 81.37
    lines = [f"{t:.6f},{f}" for t, f in zip(times_s, force_n, strict=True)]
    table.write_text("time_s,force\n" + "\n".join(lines) + "\n")
    path = tmp_path / "somebody.force"
    import_table(table, path, Choice(("force",)))
    out = tmp_path / "out"
    _, told = exported(path, out)
    assert told["rate_hz"] == pytest.approx(81.37, abs=1e-3)
    assert told["even_grid_farthest_s"] < 1e-3
    assert "omebody" not in json.dumps(manifest(out)).replace("Somebody_", "")
    edf = edfio.read_edf(out / told["files"]["edf"])
    (signal, _) = edf.signals
    assert signal.label == f"Force {Side.SINGLE.value}"
    assert signal.sampling_frequency == pytest.approx(told["rate_hz"], rel=1e-6)
    # The range is what was measured: a table knows no rated load.
    assert told["edf"]["step_n"][0] < 70.1 / 32766
    np.testing.assert_allclose(signal.data[:5000], force_n, atol=0.0012)
    (sidecar,) = out.rglob("*_physio.json")
    assert json.loads(sidecar.read_text())["SamplingFrequency"] == told["rate_hz"]
    assert rows(out / "csv" / "reps.csv") == []
    # And back in again.
    again = import_table(
        out / told["files"]["csv"],
        tmp_path / "again.force",
        Choice(("force_single_n",)),
    )
    back = Truth(again.path)
    np.testing.assert_allclose(back.force_n[:, 0], force_n, atol=1e-5)


def test_an_outage_of_hours_has_no_even_grid(tmp_path: Path) -> None:
    table = tmp_path / "long.csv"
    times_s = np.r_[np.arange(100) / 80, 7200 + np.arange(100) / 80]
    table.write_text("time_s,force\n" + "".join(f"{t:.6f},{t}\n" for t in times_s))
    path = tmp_path / "long.force"
    import_table(table, path, Choice(("force",)))
    done, told = exported(path, tmp_path / "out")
    (left,) = done.left_out
    assert left.what == ("edf", "bids")
    assert "more than an hour" in left.why
    assert told["files"].keys() == {"csv", "parquet"}
    assert not list((tmp_path / "out").glob("bids"))


def test_the_same_set_twice_is_left_out(tmp_path: Path) -> None:
    copy = Path(shutil.copy(NUDGED, tmp_path / "copy.force"))
    done = export_files([NUDGED, copy], tmp_path / "out", Wanted())
    (left,) = done.left_out
    assert "twice" in left.why
    assert manifest(tmp_path / "out")["counts"]["sets"] == 1


# ---------------------------------------------------------------------------- BIDS


@pytest.fixture(scope="module")
def validator() -> str:
    found = shutil.which("bids-validator-deno", path=str(Path(sys.executable).parent))
    if found is None:
        pytest.skip("bids-validator-deno, of the extra dev, is not installed")
    return found


def errors(validator: str, data_set: Path) -> list[str]:
    """Codes of what is wrong with a data set."""
    told = subprocess.run(  # noqa: S603  the validator, on a folder of this test
        [validator, str(data_set), "--format", "json"],
        capture_output=True,
        check=False,
        timeout=50,
    )
    issues = json.loads(told.stdout)["issues"]["issues"]
    return [str(one["code"]) for one in issues if one["severity"] == "error"]


def test_the_data_set_passes_the_validator(out: Path, validator: str) -> None:
    assert errors(validator, out / "bids") == []


@pytest.mark.parametrize("missing", ["*_physio.json", "dataset_description.json"])
def test_the_validator_does_look(
    out: Path, tmp_path: Path, validator: str, missing: str
) -> None:
    shutil.copytree(out / "bids", tmp_path / "bids")
    for path in (tmp_path / "bids").rglob(missing):
        path.unlink()
    assert errors(validator, tmp_path / "bids")


@pytest.mark.parametrize("path", ALL, ids=lambda path: path.stem)
def test_samples_come_back_from_bids(out: Path, path: Path) -> None:
    truth = Truth(path)
    archive = file_of(out, path, "bids")
    sidecar = json.loads(Path(str(archive).replace(".tsv.gz", ".json")).read_text())
    assert sidecar["SamplingFrequency"] == 80.0
    assert sidecar["StartTime"] == 0.0
    names = sidecar["Columns"]
    assert names == [column.name for column in samples_columns(truth.names)]
    cells = [
        line.split("\t")
        for line in gzip.decompress(archive.read_bytes()).decode().splitlines()
    ]
    assert len(cells) == len(truth.index)
    for at, name in enumerate(truth.names):
        column = [row[names.index(f"force_{name}_n")] for row in cells]
        back_n = np.array([float("nan") if c == "n/a" else float(c) for c in column])
        np.testing.assert_array_equal(np.isnan(back_n), ~truth.usable)
        np.testing.assert_allclose(
            back_n[truth.usable], truth.force_n[truth.usable, at], atol=1e-9
        )


def test_the_archive_tells_no_name_and_no_time(out: Path) -> None:
    for path in out.rglob("*.tsv.gz"):
        head = path.read_bytes()[:10]
        assert head[3] & 0x08 == 0  # RFC 1952: no original file name
        assert head[4:8] == bytes(4)  # nor the time it was made


def test_scans_say_when_and_people_are_codes(out: Path) -> None:
    people = (out / "bids" / "participants.tsv").read_text().splitlines()
    assert people == [
        "participant_id\tathlete_code",
        *(f"sub-DEMO{n}\tDEMO-{n}" for n in (3, 6, 7)),
    ]
    for path in ALL:
        archive = file_of(out, path, "bids")
        (scans,) = archive.parents[1].glob("*_scans.tsv")
        (line,) = scans.read_text().splitlines()[1:]
        name, began = line.split("\t")
        assert archive.parents[1] / name == archive
        assert datetime.fromisoformat(began) == datetime.fromisoformat(
            str(recordings.read(path).header["started_utc"])
        )
