"""`biofeedback agree`, as a person or a script uses it."""

from __future__ import annotations

import json
import math
import subprocess
import sys
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from measures.published import VECTORS

from biofeedback import cli

if TYPE_CHECKING:
    from pathlib import Path

    Captured = pytest.CaptureFixture[str]

WEIR = VECTORS / "weir_2005_a.csv"
SHROUT = VECTORS / "shrout_fleiss_1979.csv"


def told(capsys: Captured, *words: object) -> dict[str, Any]:
    assert cli.main(["agree", *map(str, words), "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert isinstance(found, dict)
    return found


def text_of(capsys: Captured, *words: object) -> str:
    assert cli.main(["agree", *map(str, words)]) == 0
    return capsys.readouterr().out


def written(folder: Path, text: str) -> Path:
    path = folder / "scores.csv"
    path.write_text(text)
    return path


def test_shrout_and_fleiss_1979(capsys: Captured) -> None:
    found = told(capsys, SHROUT)
    values = {name: round(each["value"], 2) for name, each in found["icc"].items()}
    assert values == {
        "ICC(1,1)": 0.17,
        "ICC(2,1)": 0.29,
        "ICC(3,1)": 0.71,
        "ICC(1,k)": 0.44,
        "ICC(2,k)": 0.62,
        "ICC(3,k)": 0.91,
    }
    assert found["icc"]["ICC(1,1)"]["ci95"] == pytest.approx(
        [-0.132932, 0.722560], abs=6e-7
    )
    assert (found["people"], found["complete"]) == (6, 6)
    assert found["agreement"] is None  # there are four trials, not two
    assert any(
        "from trial to trial by more than chance" in c for c in found["cautions"]
    )


def test_weir_2005(capsys: Captured) -> None:
    """Page 236: standard error of measurement 7.6."""
    found = told(capsys, WEIR, "--unit", "kg")
    assert found["unit"] == "kg"
    assert found["error"]["sem"] == pytest.approx(7.556927, abs=6e-7)
    assert found["error"]["sem_ci95"] == pytest.approx([4.996445, 15.380402], abs=6e-7)
    assert found["error"]["mdc95"] == pytest.approx(20.946732, abs=6e-7)
    assert found["error"]["mdc90"] == pytest.approx(17.580293, abs=6e-7)
    assert found["agreement"]["bias"] == -2.75
    assert found["variation"]["trials_p"] == pytest.approx(0.490353, abs=6e-7)


def test_what_a_person_reads(capsys: Captured) -> None:
    text = text_of(capsys, WEIR, "--unit", "kg")
    for line in (
        "8 people, 2 trials",
        "    ICC(2,1)   0.950  0.787 to 0.990",
        "    SEM    7.557 kg (4.996 to 15.38 kg)",
        "    CV     5.162 % (3.384 to 10.79 %), by logarithms",
        "    MDC95  20.95 kg (13.55 % of the mean)",
        "    bias         -2.75 kg (-11.68 to 6.185 kg)",
        "common change  F(1, 7) = 0.5297, p = 0.490",
    ):
        assert line in text
    assert "here are 2 trials of 8" in text
    assert all(len(line) <= 80 for line in text.splitlines())


def test_a_limit_below_zero_is_shown(capsys: Captured) -> None:
    assert "-0.133 to 0.723" in text_of(capsys, SHROUT)


def test_two_meters_of_bland_and_altman(tmp_path: Path, capsys: Captured) -> None:
    rows = np.loadtxt(
        VECTORS / "bland_altman_1986_pefr.csv", delimiter=",", skiprows=2, dtype=int
    )
    table = written(
        tmp_path, "mini;wright\n" + "\n".join(f"{r[3]};{r[1]}" for r in rows)
    )
    agreement = told(capsys, table, "--unit", "l/min")["agreement"]
    assert agreement["bias"] == pytest.approx(-2.117647, abs=6e-7)
    assert agreement["limits"] == pytest.approx([-78.097302, 73.862007], abs=6e-7)
    assert agreement["limits_ci95_exact"][1] == pytest.approx(
        [48.8596, 119.9255], abs=3e-3
    )
    assert "wright less mini" in text_of(capsys, table)


def test_missing_scores_are_said_and_used_where_they_can(
    tmp_path: Path, capsys: Captured
) -> None:
    table = written(
        tmp_path,
        "code;t1;t2;t3\nA;300;310,5;305\nB;280;;284\nC;;;250\nD;410;402;408\n"
        "E;350;349;361\n",
    )
    found = told(capsys, table)
    assert (found["people"], found["complete"]) == (5, 3)
    assert (found["error"]["people"], found["error"]["scores"]) == (4, 11)
    notes = " ".join(found["notes"])
    assert "A score is missing in lines 3 and 4: left out of the correlations." in notes
    assert "Fewer than two scores in line 4" in notes
    # The correlation is of the complete rows alone.
    whole = written(
        tmp_path, "code;1;2;3\nA;300;310,5;305\nD;410;402;408\nE;350;349;361"
    )
    assert told(capsys, whole)["icc"] == found["icc"]


def test_no_complete_row_leaves_the_error(tmp_path: Path, capsys: Captured) -> None:
    table = written(
        tmp_path, "code,a,b,c\nP,300,310,\nQ,280,290,\nR,,410,402\nS,,350,349\n"
    )
    found = told(capsys, table)
    assert found["variation"] is None
    assert found["icc"] == {}
    assert found["error"]["degrees_of_freedom"] == 2
    text = text_of(capsys, table)
    assert "there is no correlation" in text
    assert "Intraclass" not in text


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("code,a,b\nP,5,5\nQ,5,5\nR,5,5\n", "All scores are equal"),
        ("code,a,b\nP,5,6\nQ,7,8\nR,9,10\n", "The scores repeat exactly"),
        ("code,a,b\nP,5,6\nQ,-7,8\nR,9,11\n", "no error in per cent"),
        ("code,a,b\nP,5,5\nQ,5,6\nR,6,5\n", "ICC(1,1)"),
    ],
)
def test_odd_tables_are_told_and_never_break(
    tmp_path: Path, capsys: Captured, text: str, words: str
) -> None:
    table = written(tmp_path, text)
    assert words in text_of(capsys, table)
    for value in told(capsys, table)["icc"].values():
        assert value["value"] is None or math.isfinite(value["value"])


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "the table is empty"),
        ("score\n1\n2\n", "there is 1 column"),
        ("code,a,b\nP,1,2\nQ,x,3\n", "line 3, column 2: “x” is not a number"),
        ("code,a,b\nP,1,2\n", "there is one row"),
        ("code,a,b\nP,,\nQ,,\n", "there is no score"),
        ("a,b\n" + "1" * 20_000, "line 2: is longer than"),
    ],
)
def test_bad_files_are_told_in_words(
    tmp_path: Path, capsys: Captured, text: str, words: str
) -> None:
    table = written(tmp_path, text)
    assert cli.main(["agree", str(table)]) == 1
    error = capsys.readouterr().err
    assert error.startswith(f"biofeedback agree: {table}")
    assert words in error


def test_a_unit_is_a_short_word(capsys: Captured) -> None:
    with pytest.raises(SystemExit) as left:
        cli.main(["agree", str(WEIR), "--unit", "x" * 13])
    assert left.value.code == 2
    assert "1 to 12 letters" in capsys.readouterr().err


def test_no_window_is_loaded_for_it() -> None:
    code = (
        "import sys; from biofeedback import cli; "
        f"cli.main(['agree', {str(WEIR)!r}, '--json']); "
        "sys.exit('PySide6' in sys.modules)"
    )
    done = subprocess.run(  # noqa: S603  our own interpreter
        [sys.executable, "-c", code], check=False, capture_output=True
    )
    assert done.returncode == 0


@pytest.mark.usefixtures("qapp")  # letters need it
def test_the_picture_of_the_differences(tmp_path: Path, capsys: Captured) -> None:
    path = tmp_path / "plot.png"
    text_of(capsys, WEIR, "--plot", path)
    assert path.read_bytes().startswith(b"\x89PNG")
    assert cli.main(["agree", str(WEIR), "--plot", str(tmp_path / "plot.jpg")]) != 0
    assert not (tmp_path / "plot.jpg").exists()
