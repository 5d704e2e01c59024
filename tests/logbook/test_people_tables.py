"""Tables of people: what is understood, and what is refused with its place."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from biofeedback.errors import FileError
from biofeedback.logbook.people_tables import (
    PEOPLE_MAX,
    Pairs,
    Scores,
    lines_told,
    read_pairs,
    read_scores,
)

ENDLESS = Path("/dev/zero")
"""A line of two gigabytes, and more."""


def scores_of(folder: Path, text: str) -> Scores:
    path = folder / "scores.csv"
    path.write_text(text, encoding="utf-8")
    return read_scores(path)


def pairs_of(folder: Path, text: str) -> Pairs:
    path = folder / "pairs.csv"
    path.write_text(text, encoding="utf-8")
    return read_pairs(path)


# ----------------------------------------------------------------------- scores


@pytest.mark.parametrize(
    "text",
    [
        "code,one,two\nA1,300.5,310\nA2,280,290\n",
        "code;one;two\r\nA1;300,5;310\r\nA2;280;290,0\r\n",
        "Code\tone\ttwo\nA1\t300.5\t310\nA2\t280\t290",
        "\ufeff# source\ncode, one, two\n\nA1, 300.5, 310\n,,\nA2, 280, 290\n",
        "one,two\n300.5,310\n280,290\n",
        "one;two;\n300,5;310;\n280;290;\n",
        "Spieler,one,two\nA1,300.5,310\nA2,280,290\n",
        "athlete_code,one,two\n17,300.5,310\n4,280,290\n",
        ",one,two\n17,300.5,310\n4,280,290\n",
    ],
)
def test_layouts_are_found(tmp_path: Path, text: str) -> None:
    found = scores_of(tmp_path, text)
    assert found.trials == ("one", "two")
    np.testing.assert_array_equal(found.values, [[300.5, 310], [280, 290]])
    coded = any("taken as a code" in note for note in found.notes)
    assert coded == (not text.startswith("one"))


def test_a_first_column_that_counts_the_rows_is_no_trial(tmp_path: Path) -> None:
    found = scores_of(tmp_path, "row,a,b\n1,5,6\n2,7,8\n3,9,9\n")
    assert found.trials == ("a", "b")
    # Two rows could be scores.
    assert scores_of(tmp_path, "row,a,b\n1,5,6\n2,7,8\n").trials == ("row", "a", "b")


@pytest.mark.parametrize(
    ("text", "trials", "rows"),
    [
        ("300,310\n280,290\n270,260\n", ("column 1", "column 2"), 3),
        ("A1,300,310\nA2,280,290\n", ("column 2", "column 3"), 2),
        ("athlete,1,2\nA1,300,310\nA2,280,290\n", ("1", "2"), 2),
        ("Spieler,1,2\nA1,300,310\nA2,280,290\n", ("1", "2"), 2),
    ],
)
def test_a_table_without_names_does_not_lose_its_first_person(
    tmp_path: Path, text: str, trials: tuple[str, ...], rows: int
) -> None:
    found = scores_of(tmp_path, text)
    assert found.trials == trials
    assert len(found.values) == rows
    unnamed = any("not as names" in note for note in found.notes)
    assert unnamed == trials[0].startswith("column")


def test_missing_scores_and_the_lines_of_rows(tmp_path: Path) -> None:
    found = scores_of(tmp_path, "code,a,b\nA,1,\nB,n/a,2\n\nC,3,-\nD,4,5\n")
    np.testing.assert_array_equal(
        found.values, [[1, np.nan], [np.nan, 2], [3, np.nan], [4, 5]]
    )
    assert found.lines == (2, 3, 5, 6)


@pytest.mark.parametrize(
    ("text", "words", "place"),
    [
        ("", "the table is empty", ""),
        ("\n\n# only\n", "the table is empty", ""),
        ("code,a,b\n", "names of columns and no rows", ""),
        ("score\n1\n2\n", "there is 1 column; 2 are needed", "line 1"),
        ("code,a\nA,1\nB,2\n", "one column of scores; two trials", "line 1"),
        ("code,a,b\nA,1,2\n", "one row; two people are needed", ""),
        ("code,a,b\nA,1,2\nB,x1,2\n", "“x1” is not a number", "line 3, column 2"),
        ("code;a;b\nA;1;2\nB;1.234,5;2\n", "not a number", "line 3, column 2"),
        ("code,a,b\nA,1,2\nB,1\n", "too short", "line 3, column 3"),
        ("code,a,b\nA,1,2\nB,1,2,3\n", "more cells than the 3", "line 3"),
        ("code,a,b\nA,1,2\nB,1,2\na,3,4\n", "in line 2 already", "line 4, column 1"),
        ("a,b\n1,2\nx,3\n4,5\n", "If the first column holds codes", "line 3, column 1"),
        ('code,a,b\nA,"1,2\nB,1,2\n', "quotation mark", "line 2"),
        ("code,a,b\nA,1,1e19\nB,1,2\n", "not a number that fits", "line 2, column 3"),
        ("code,a,b\nA,inf,1\nB,1,2\n", "not a number that fits", "line 2, column 2"),
        ("a,b\n1,2\n" + "1" * 10_001, "longer than", "line 3"),
        ("a,b\n\0\0\n", "not a text file", "line 2"),
        ("a,b\n" + "1,2\n" * (PEOPLE_MAX + 1), "more than 10000 rows", "line 10002"),
        (
            ",".join(f"t{n}" for n in range(101)) + "\n" + "1," * 100 + "1",
            "at most",
            "",
        ),
    ],
)
def test_faults_of_scores_name_file_line_and_column(
    tmp_path: Path, text: str, words: str, place: str
) -> None:
    with pytest.raises(FileError) as caught:
        scores_of(tmp_path, text)
    assert words in str(caught.value)
    assert caught.value.path == str(tmp_path / "scores.csv")
    assert caught.value.place == place


def test_a_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    for path in (tmp_path / "none.csv", tmp_path):
        with pytest.raises(FileError, match="cannot be read"):
            read_scores(path)


@pytest.mark.skipif(not ENDLESS.exists(), reason="this system has no /dev/zero")
def test_a_line_without_an_end_is_not_read_to_its_end() -> None:
    with pytest.raises(FileError, match="longer than"):
        read_scores(ENDLESS)


# ------------------------------------------------------------------------ pairs


@pytest.mark.parametrize(
    "text",
    [
        "code,isometric,eccentric\nA1,300,310\nA2,280.5,270\na1,320,330\n",
        "code;ecc (N);iso (N)\nA1;310;300\nA2;270;280,5\nA1;330;320\n",
        "code,first,second\nA1,300,310\nA2,280.5,270\nA1,320,330\n",
        "A1,300,310\nA2,280.5,270\nA1,320,330\n",
        "age,iso,ecc,code\nA1,300,310,x\nA2,280.5,270,y\nA1,320,330,x\n",
    ],
)
def test_pairs_are_found_by_name_or_by_place(tmp_path: Path, text: str) -> None:
    found = pairs_of(tmp_path, text)
    assert list(found.results_n.values()) == [
        ([300.0, 320.0], [310.0, 330.0]),
        ([280.5], [270.0]),
    ]
    by_place = any("is taken as isometric" in note for note in found.notes)
    assert by_place == ("iso" not in text)
    assert any("Columns not used: 1" in note for note in found.notes) == ("age" in text)


def test_a_missing_force_leaves_the_other(tmp_path: Path) -> None:
    found = pairs_of(tmp_path, "code,iso,ecc\nA,300,\nA,,310\nB,200,na\n")
    assert found.results_n == {"a": ([300.0], [310.0]), "b": ([200.0], [])}


@pytest.mark.parametrize(
    ("text", "words", "place"),
    [
        ("", "the table is empty", ""),
        ("code,iso\nA,300\n", "there are 2 columns; 3 are needed", "line 1"),
        ("code,iso,ecc\nA,300,x\n", "“x” is not a number", "line 2, column 3"),
        ("code,iso,ecc\nA,0,300\n", "0 N is not a force", "line 2, column 2"),
        ("code,iso,ecc\nA,300,-5\n", "-5 N is not a force", "line 2, column 3"),
        ("code,iso,ecc\n,300,310\n", "code is empty", "line 2, column 1"),
        ("code,iso,ecc\nA,300\n", "too short", "line 2, column 3"),
    ],
)
def test_faults_of_pairs_name_file_line_and_column(
    tmp_path: Path, text: str, words: str, place: str
) -> None:
    with pytest.raises(FileError) as caught:
        pairs_of(tmp_path, text)
    assert words in str(caught.value)
    assert caught.value.place == place


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ([4], "line 4"),
        ([4, 9], "lines 4 and 9"),
        ([4, 9, 12], "lines 4, 9 and 12"),
        (list(range(2, 15)), "lines 2, 3, 4, 5, 6, 7, 8, 9, 10, 11 and 3 more"),
    ],
)
def test_lines_in_words(lines: list[int], told: str) -> None:
    assert lines_told(lines) == told
