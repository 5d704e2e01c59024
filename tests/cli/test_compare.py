"""`biofeedback compare`, as a person or a script uses it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from measures.published import table

from biofeedback import cli

if TYPE_CHECKING:
    from pathlib import Path

    Captured = pytest.CaptureFixture[str]


def told(capsys: Captured, *words: object) -> dict[str, Any]:
    assert cli.main(["compare", *map(str, words), "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert isinstance(found, dict)
    return found


def text_of(capsys: Captured, *words: object) -> str:
    assert cli.main(["compare", *map(str, words)]) == 0
    return capsys.readouterr().out


def written(folder: Path, rows: list[tuple[str, float, float]]) -> Path:
    path = folder / "pairs.csv"
    path.write_text(
        "athlete;isometric;eccentric\n"
        + "".join(f"{c};{i!r};{e!r}\n".replace(".", ",") for c, i, e in rows)
    )
    return path


@pytest.fixture
def example() -> list[tuple[str, float, float]]:
    return [
        (f"P{number}", level, level + difference)
        for number, (level, difference) in enumerate(
            table("fieller_zero_crossing.csv").tolist()
        )
    ]


def test_the_example_with_fiellers_interval(
    tmp_path: Path, capsys: Captured, example: list[tuple[str, float, float]]
) -> None:
    found = told(capsys, written(tmp_path, example), "--seed", "2024")
    line = found["along"]["isometric force"]
    assert line["slope"] == pytest.approx(0.329394, abs=6e-7)
    assert line["crossing_n"] == pytest.approx(349.847007, abs=6e-7)
    assert line["crossing_ci95_fieller_n"] == pytest.approx(
        [317.282355, 380.870747], abs=6e-7
    )
    # 10 000 draws with this seed, worked out with other code.
    assert line["crossing_ci95_bootstrap_n"] == pytest.approx(
        [319.63, 376.62], abs=0.006
    )
    assert (found["athletes"], found["averaged"], found["seed"]) == (20, 0, 2024)


def test_what_a_person_reads(
    tmp_path: Path, capsys: Captured, example: list[tuple[str, float, float]]
) -> None:
    text = text_of(capsys, written(tmp_path, example))
    for words in (
        "20 athletes, 95 % intervals",
        "zero crossing  349.8 N; Fieller 317.3 to 380.9 N; bootstrap 3",
        "That difference along the mean of both",
        "regression to the mean",
        "need not be true of one athlete",
    ):
        assert words in text
    assert all(len(line) <= 80 for line in text.splitlines())


def test_rows_of_one_athlete_are_averaged_and_that_is_said(
    tmp_path: Path, capsys: Captured, example: list[tuple[str, float, float]]
) -> None:
    plain = told(capsys, written(tmp_path, example))
    split = [
        (code, force + off, other - off)
        for code, force, other in example
        for off in (-4.0, 4.0)
    ]
    found = told(capsys, written(tmp_path, split))
    assert found["averaged"] == found["athletes"] == 20
    for name in ("slope_p", "crossing_n", "crossing_ci95_fieller_n"):
        assert found["along"]["mean of both"][name] == pytest.approx(
            plain["along"]["mean of both"][name]
        )
    assert any("averaged" in caution for caution in found["cautions"])
    assert not any("averaged" in caution for caution in plain["cautions"])


def test_no_finite_interval_is_said(tmp_path: Path, capsys: Captured) -> None:
    rows = [
        (f"P{n}", 200.0 + 50 * n, 200.0 + 50 * n + off)
        for n, off in enumerate((-10.0, 25, -30, 20, -15, 12))
    ]
    pairs = written(tmp_path, rows)
    assert "Fieller no finite interval; bootstrap no finite interval" in " ".join(
        text_of(capsys, pairs).split()
    )
    line = told(capsys, pairs)["along"]["isometric force"]
    assert line["crossing_n"] is not None
    assert line["crossing_ci95_fieller_n"] is None


def test_a_slope_that_may_be_regression_to_the_mean_alone(
    tmp_path: Path, capsys: Captured
) -> None:
    rng = np.random.default_rng(8)
    true = rng.normal(350, 20, 60)
    forces = true[:, None] + rng.normal(0, 20, (60, 2))
    rows = [(f"P{n}", *pair) for n, pair in enumerate(forces.round(1).tolist())]
    found = told(capsys, written(tmp_path, rows))
    assert found["along"]["isometric force"]["slope_p"] < 0.001
    assert any("so it may be that alone" in caution for caution in found["cautions"])


def test_the_same_seed_the_same_answer(
    tmp_path: Path, capsys: Captured, example: list[tuple[str, float, float]]
) -> None:
    pairs = written(tmp_path, example)
    assert told(capsys, pairs) == told(capsys, pairs)
    first, other = told(capsys, pairs, "--seed", 5), told(capsys, pairs, "--seed", 6)
    name = "crossing_ci95_bootstrap_n"
    along = "isometric force"
    assert first["along"][along][name] != other["along"][along][name]


def test_forces_that_do_not_vary(tmp_path: Path, capsys: Captured) -> None:
    pairs = written(tmp_path, [(f"P{n}", 300.0, 310.0) for n in range(5)])
    text = text_of(capsys, pairs)
    assert "none: one of them does not vary" in text
    assert told(capsys, pairs)["along"] == {}
    equal = written(tmp_path, [(f"P{n}", 300.0 + n, 310.0 + n) for n in range(5)])
    assert "none: the line has no slope" in text_of(capsys, equal)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "the table is empty"),
        ("code,iso\nA,1\n", "there are 2 columns; 3 are needed"),
        ("code,iso,ecc\nA,300,x\n", "line 2, column 3: “x” is not a number"),
        ("code,iso,ecc\nA,300,310\n", "athletes with both forces: 1; at least 3"),
        ("code,iso,ecc\nA,300,310\nB,290,\nC,280,270\n", "both forces: 2;"),
        ("code,iso,ecc\nA,3,4\nA,4,5\nA,4,6\n", "athletes with both forces: 1;"),
        ("code,iso,ecc\n" + "1" * 20_000, "line 2: is longer than"),
    ],
)
def test_bad_files_are_told_in_words(
    tmp_path: Path, capsys: Captured, text: str, words: str
) -> None:
    pairs = tmp_path / "bad.csv"
    pairs.write_text(text)
    assert cli.main(["compare", str(pairs)]) == 1
    error = capsys.readouterr().err
    assert error.startswith(f"biofeedback compare: {pairs}")
    assert words in error
