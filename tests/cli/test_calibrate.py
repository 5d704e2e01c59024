"""`biofeedback calibrate`, as a person or a script uses it."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, Any

import pytest
from conditioning.calibration_examples import PONTIUS, WORKED, cell

from biofeedback import cli
from biofeedback.logbook.database import Logbook

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from biofeedback.conditioning.calibration_points import CalibrationPoint

    Captured = pytest.CaptureFixture[str]


def write(path: Path, points: Iterable[CalibrationPoint]) -> Path:
    rows = [
        f"{point.force_n!r},{point.counts!r},{point.direction.value},{point.run}"
        for point in points
    ]
    path.write_text("force_n,indication,direction,run\n" + "\n".join(rows) + "\n")
    return path


def told(capsys: Captured, *words: object, code: int = 0) -> dict[str, Any]:
    assert cli.main(["calibrate", *map(str, words), "--json"]) == code
    (channel,) = json.loads(capsys.readouterr().out)["channels"]
    assert isinstance(channel, dict)
    return channel


@pytest.fixture
def pontius(tmp_path: Path) -> Path:
    # NIST/ITL Statistical Reference Datasets, Linear Least Squares, "Pontius".
    path = tmp_path / "pontius.csv"
    rows = [f"{point.force_n:.0f},{point.counts!r}" for point in PONTIUS]
    path.write_text("force_n,indication\n" + "\n".join(rows) + "\n")
    return path


def test_certified_values_of_nist_pontius(pontius: Path, capsys: Captured) -> None:
    channel = told(capsys, pontius)
    assert channel["degree"] == 2
    curve, line = channel["curve"], channel["line"]
    assert channel["fit"] == curve
    assert curve["coefficients"] == pytest.approx(
        [0.673565789473684e-03, 0.732059160401003e-06, -0.316081871345029e-14],
        rel=1e-9,
        abs=0,
    )
    assert curve["standard_deviations"] == pytest.approx(
        [0.107938612033077e-03, 0.157817399981659e-09, 0.486652849992036e-16],
        rel=1e-9,
        abs=0,
    )
    assert curve["residual_sd"] == pytest.approx(0.205177424076185e-03, rel=1e-9, abs=0)
    assert curve["r2"] == pytest.approx(0.999999900178537, rel=1e-9, abs=0)
    assert curve["regression_ss"] == pytest.approx(15.6040343244198, rel=1e-9, abs=0)
    assert curve["residual_ss"] == pytest.approx(0.155761768796992e-05, rel=1e-9, abs=0)
    assert curve["f"] == pytest.approx(185330865.995752, rel=1e-9, abs=0)
    # The line: worked out in 60 digits from the same data.
    assert line["coefficients"] == pytest.approx(
        [0.00614968421, 7.22102581e-7], rel=1e-9
    )
    assert line["residual_sd"] == pytest.approx(0.0021712726, rel=1e-8)
    assert line["lack_of_fit"]["f"] == pytest.approx(214.746924, rel=1e-8)
    assert curve["lack_of_fit"]["f"] == pytest.approx(0.8107239, rel=1e-7)
    assert "214.7" in channel["degree_words"]


def test_the_same_values_are_printed(pontius: Path, capsys: Captured) -> None:
    assert cli.main(["calibrate", str(pontius)]) == 0
    text = capsys.readouterr().out
    for figure in ("0.000673565789474", "7.32059160401e-07", "-3.16081871345e-15"):
        assert figure in text
    assert "so degree 2" in text
    assert "no gravity was used" in text
    assert "certified" not in text
    assert cli.main(["calibrate", str(pontius), "--degree", "1"]) == 0
    text = capsys.readouterr().out
    assert "0.00614968421" in text
    assert "F = 214.75" in text
    assert "Fit degree 2." in text


def test_worked_example_of_data_sheet_terms(tmp_path: Path, capsys: Captured) -> None:
    channel = told(capsys, write(tmp_path / "w.csv", WORKED))
    lines = {
        each["reference_line"]: each["pct"]
        for each in channel["cycles"]["1"]["nonlinearity"]
    }
    assert lines["terminal line, no load to largest load"] == pytest.approx(0.040)
    assert abs(lines["line with the smallest largest deviation"]) == pytest.approx(
        0.020
    )
    assert channel["repeatability"]["runs"] == 3
    assert channel["cycles"]["1"]["hysteresis"]["pct"] > 0.04
    names = {part["name"] for part in channel["uncertainty"][-1]["components"]}
    assert {"calibration curve", "hysteresis", "zero drift", "misfit"} <= names
    row = channel["uncertainty"][-1]
    assert row["expanded_k2_n"] == 2 * row["u_n"]
    assert row["degrees_of_freedom"] > 1


def test_masses_with_class_and_local_gravity(tmp_path: Path, capsys: Captured) -> None:
    table = tmp_path / "m.csv"
    rows = [
        (kg, 1000 + 100 * total, way, run)
        for run in (1, 2, 3)
        for way, order in (("up", (0, 1, 2, 3, 4)), ("down", (4, 3, 2, 1, 0)))
        for kg, total in (
            (("0", 0), ("5", 5), ("10", 10), ("10+5", 15), ("20", 20))[i] for i in order
        )
    ]
    table.write_text(
        "mass_kg;class;indication;direction;run;time_s\n"
        + "\n".join(f"{kg};M1;{c},5;{way};{run};" for kg, c, way, run in rows)
    )
    channel = told(capsys, table, "--latitude", "45", "--altitude", "0")
    # WGS 84 at 45°, sea level: 9.806199 m/s²; steel in air ×0.99985.
    per_kg = 9.8061977 * 0.99985
    assert channel["readings"][4]["force_n"] == pytest.approx(20 * per_kg, rel=1e-6)
    assert channel["readings"][3]["tolerance_n"] == pytest.approx(
        (500e-6 + 250e-6) * per_kg, rel=1e-6
    )
    assert "latitude 45" in channel["gravity"]
    (c0, c1) = channel["calibration"]["coefficients"]
    assert c1 == pytest.approx(per_kg / 100, rel=1e-6)
    assert c0 == pytest.approx(-1000.5 * per_kg / 100, rel=1e-6)
    classes = {(c["standard"], c["class"]): c["from_n"] for c in channel["classes"]}
    assert classes["ISO 7500-1", "0.5"] == pytest.approx(5 * per_kg, rel=1e-6)
    # Without a place gravity may be off by 0.27 %, and the finer class goes.
    channel = told(capsys, table)
    assert "standard gravity 9.80665" in channel["gravity"]
    classes = {(c["standard"], c["class"]): c["from_n"] for c in channel["classes"]}
    assert classes["ISO 7500-1", "0.5"] is None
    assert channel["applied_force_pct"] == pytest.approx(
        200 * 0.0264 / 9.80665 / 3**0.5, rel=1e-2
    )


def test_a_tolerance_that_was_not_given_is_assumed_and_said(
    tmp_path: Path, capsys: Captured
) -> None:
    table = tmp_path / "m.csv"
    table.write_text(
        "mass_kg\tcounts\n" + "\n".join(f"{k}\t{100 * k + 7}" for k in range(6))
    )
    assert cli.main(["calibrate", str(table)]) == 0
    text = capsys.readouterr().out
    assert "a tolerance was assumed for the masses" in text
    assert "all readings are taken as rising" in text


def test_creep_where_times_are_given(tmp_path: Path, capsys: Captured) -> None:
    table = tmp_path / "c.csv"
    rows = [(0, 0, 0), (50, 5000, 10), (100, 10000, 30), (100, 10010, 330)]
    table.write_text(
        "force_n,counts,time_s\n" + "\n".join(",".join(map(str, row)) for row in rows)
    )
    channel = told(capsys, table, "--degree", "1")
    creep = channel["creep"]
    # 10 counts of 10005, the mean at 100 N.
    assert creep["pct"] == pytest.approx(100 * 10 / 10005)
    assert (creep["from_s"], creep["to_s"]) == (30, 330)


def test_a_mass_typed_wrong_is_refused_and_not_kept(
    tmp_path: Path, capsys: Captured
) -> None:
    points = list(cell())
    points[3] = type(points[3])(points[3].force_n + 20, points[3].counts)
    table, book = write(tmp_path / "p.csv", points), tmp_path / "book.db"
    keep = ("--save", "May", "--rig", "SN-1", "--gain", 128, "--logbook", book)
    channel = told(capsys, table, *keep, code=1)
    assert channel["refused"]
    assert channel["calibration"] is None
    assert channel["saved"] is None
    assert any(each["kind"] == "poor fit" for each in channel["findings"])
    assert not book.exists()


def test_the_load_on_the_other_cell_is_refused(
    tmp_path: Path, capsys: Captured
) -> None:
    table = tmp_path / "swapped.csv"
    rows = [f"{n},{84000 + n % 3},{4000 * n}" for n in (0, 50, 100, 150, 200, 250)]
    table.write_text("force_n,counts,others\n" + "\n".join(rows))
    channel = told(capsys, table, code=1)
    assert "swapped channels" in {each["kind"] for each in channel["findings"]}
    assert channel["calibration"] is None
    # The frame leaks a little to the wrong cell: a perfect line, and still wrong.
    rows = [f"{n},{84000 + 40 * n},{4000 * n}" for n in (0, 50, 100, 150, 200, 250)]
    table.write_text("force_n,counts,others\n" + "\n".join(rows))
    channel = told(capsys, table, code=1)
    assert channel["fit"]["r2"] == pytest.approx(1.0)
    assert channel["calibration"] is None


def test_saving_numbers_the_records(tmp_path: Path, capsys: Captured) -> None:
    table, book = write(tmp_path / "p.csv", cell()), tmp_path / "book.db"
    for label, number in (("May", 1), ("June", 2)):
        channel = told(
            capsys, table, "--save", label, "--rig", "SN-1", "--logbook", book,
            "--date", "2026-05-04", "--channel", "2", "--gain", "64",
        )  # fmt: skip
        assert channel["saved"] == {
            "rig": "SN-1",
            "number": number,
            "label": label,
            "date": "2026-05-04",
            "gain": 64,
        }
    with Logbook.open(book) as logbook:
        found = logbook.calibrations.latest("SN-1", 1)
        assert found is not None
        assert (found.calibration.label, found.calibration.gain) == ("June", 64)
        assert logbook.calibrations.latest("SN-1", 0) is None
    words = ["calibrate", str(table), "--save", "May", "--rig", "SN-1", "--channel"]
    assert cli.main([*words, "2", "--gain", "64", "--logbook", str(book)]) == 1
    assert "“May” is in use for this cell already" in capsys.readouterr().err


def test_both_cells_of_a_rig_in_one_table(tmp_path: Path, capsys: Captured) -> None:
    table = tmp_path / "both.csv"
    rows = [
        f"{side},{n},{zero + n * slope}"
        for side, zero, slope in (("left", 10, 40), ("right", -5, 50))
        for n in (0, 50, 100, 150, 200, 250)
    ]
    table.write_text("channel,force_n,counts\n" + "\n".join(rows))
    assert cli.main(["calibrate", str(table), "--json"]) == 0
    left, right = json.loads(capsys.readouterr().out)["channels"]
    assert (left["channel"], right["channel"]) == (1, 2)
    assert right["calibration"]["coefficients"] == pytest.approx([0.1, 0.02])


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("force_n\n1\n", r"line 1: no column is named indication"),
        ("counts\n1\n", r"line 1: there must be one of the columns force_n and mass"),
        ("force_n,counts\n1,x\n", r"line 2, column 2 \(counts\): “x” is not a number"),
        ("force_n,counts\n1,1_000\n", r"line 2, column 2 \(counts\): “1_000”"),
        ("force_n,counts\n-1,2\n", r"line 2, column 1 \(force_n\): is -1 N"),
        ("force_n;counts\n1;1.234,5\n", r"line 2, column 2 \(counts\)"),
        ("force_n,counts\n1,nan\n", r"line 2, column 2 \(counts\)"),
        ("force_n,counts\n1\n", r"line 2, column 2 \(counts\): is empty"),
        ("force_n,counts,counts\n", r"line 1, column 3: there are two columns"),
        ("mass_kg,class,counts\n15,M1,2\n", r"line 2, column 1 .*15 kg is not a nom"),
        ("mass_kg,class,counts\n5,F9,2\n", r"line 2, column 2 \(class\): “F9”"),
        ("mass_kg,counts\n5+x,2\n", r"line 2, column 1 \(mass_kg\): “x” is no mass"),
        ("force_n,counts,run\n5,2,0\n", r"line 2, column 3 \(run\)"),
        ("force_n,counts,run\n5,2,1.5\n", r"line 2, column 3 \(run\)"),
        ("force_n,counts,direction\n5,2,left\n", r"\(direction\): must be up or down"),
        ("force_n,counts,spread\n5,2,-1\n", r"\(spread\): must be 0 or more"),
        ("force_n,counts,tolerance\n5,2,101\n", r"\(tolerance_pct\): must be 0 to 1"),
        ('force_n,counts\n"1,2\n', r"line 2: a quotation mark"),
        ("", "the table is empty"),
        ("force_n,counts\n", "no points"),
        ("force_n,counts\n" + "1,2\n" * 10_001, "line 10002: has more than 10000"),
        ("force_n,counts\n" + "1" * 3000, "line 2: this is no table of points"),
        ("force_n,counts\n1\0,2", "line 2: this is no table of points"),
    ],
)
def test_faults_name_line_and_column(
    tmp_path: Path, capsys: Captured, text: str, words: str
) -> None:
    table = tmp_path / "bad.csv"
    table.write_text(text)
    assert cli.main(["calibrate", str(table)]) == 1
    error = capsys.readouterr().err
    assert str(table) in error
    assert re.search(words, error), error


@pytest.mark.parametrize(
    ("words", "error"),
    [
        (["--latitude", "45"], "needs both --latitude and --altitude"),
        (["--latitude", "95", "--altitude", "0"], "latitude: is 95°"),
        (["--save", "May"], "Give its serial number with --rig"),
        (["--save", "May", "--rig", "A1"], "Give it with --gain, or --gain none"),
    ],
)
def test_what_does_not_go_together_is_told(
    tmp_path: Path, capsys: Captured, words: list[str], error: str
) -> None:
    table = write(tmp_path / "p.csv", cell())
    assert cli.main(["calibrate", str(table), *words]) == 1
    assert error in capsys.readouterr().err


def test_points_that_do_not_reach_the_intended_force(
    tmp_path: Path, capsys: Captured
) -> None:
    table = write(tmp_path / "p.csv", cell())
    channel = told(capsys, table, "--intended", "400")
    kinds = {each["kind"] for each in channel["findings"]}
    assert kinds >= {"range not covered", "extrapolation"}
    assert told(capsys, table, "--intended", "2000", code=1)["refused"]
