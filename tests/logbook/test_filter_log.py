"""The history of filters: a file of lines that is only ever added to."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.errors import FieldError, FileError
from biofeedback.logbook.filter_log import FilterEntry, FilterLog

if TYPE_CHECKING:
    from pathlib import Path

USUAL = FilterChoice()
SLOW = FilterChoice(FilterKind.CRITICALLY_DAMPED, passes=2, cutoff_hz=6.0)
FAST = FilterChoice(FilterKind.MOVING_AVERAGE, samples=3, despike=True)


def entry(old: FilterChoice, new: FilterChoice, **values: object) -> FilterEntry:
    usual = FilterEntry(
        at_utc="2026-11-26T10:00:00+00:00",
        by="N. Engineer",
        serial_number="RIG-7",
        rate_hz=80.0,
        old=old,
        new=new,
        old_delay_s=0.023,
        new_delay_s=0.031,
        recordings=("a.force", "b.force"),
        rule="least noise with age of the shown value under 60 ms",
        figures={"noise_rms_n": 0.5, "lag_hold_s": None},
    )
    return replace(usual, **values)  # type: ignore[arg-type]


@pytest.fixture
def log(tmp_path: Path) -> FilterLog:
    return FilterLog(tmp_path / "data" / "filters.jsonl")


def test_what_is_written_is_read_again(log: FilterLog) -> None:
    first, second = entry(USUAL, SLOW), entry(SLOW, FAST, by="Åsa")
    log.add(first)
    log.add(second)
    assert log.read() == ([first, second], [])
    assert log.filter_for("RIG-7", 80.0) == FAST
    assert log.path.stat().st_mode & 0o777 == 0o600
    lines = log.path.read_text(encoding="utf-8").splitlines()
    assert [json.loads(line)["by"] for line in lines] == ["N. Engineer", "Åsa"]


def test_a_board_and_a_rate_have_their_own_filter(log: FilterLog) -> None:
    log.add(entry(USUAL, SLOW))
    assert log.filter_for("RIG-7", 82.0) == SLOW  # a clock that is off by some %
    assert log.filter_for("RIG-7", 1000.0) is None
    assert log.filter_for("RIG-8", 80.0) is None
    assert log.filter_for("", 80.0) is None


def test_undo_goes_back_choice_by_choice(log: FilterLog) -> None:
    log.add(entry(USUAL, SLOW))
    log.add(entry(SLOW, FAST))
    last = log.before("RIG-7", 80.0)
    assert last is not None
    assert last.old == SLOW
    log.add(entry(FAST, SLOW, put_back=True))
    last = log.before("RIG-7", 80.0)
    assert last is not None
    assert last.old == USUAL
    log.add(entry(SLOW, USUAL, put_back=True))
    assert log.before("RIG-7", 80.0) is None
    assert log.filter_for("RIG-7", 80.0) == USUAL


def test_a_line_cut_off_by_a_fault_costs_that_line_alone(log: FilterLog) -> None:
    log.add(entry(USUAL, SLOW))
    whole = log.path.read_bytes()
    log.path.write_bytes(whole + whole[: len(whole) // 2])
    log.add(entry(SLOW, FAST))
    found, told = log.read()
    assert [one.new for one in found] == [SLOW, FAST]
    assert len(told) == 1
    assert "line 2" in told[0]


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ('{"version": 2}', "this program knows 1"),
        ("[1]", "must be an object"),
        ("[" * 100_000, "line 1"),
        ('{"version": 1}', "at_utc"),
        ("\xff", "line 1"),
    ],
)
def test_a_line_of_no_use_is_told(log: FilterLog, line: str, words: str) -> None:
    log.path.parent.mkdir()
    log.path.write_bytes(line.encode("latin-1") + b"\n")
    found, told = log.read()
    assert found == []
    assert words in told[0]


def test_who_chooses_is_to_be_said() -> None:
    with pytest.raises(FieldError, match="who"):
        entry(USUAL, SLOW, by=" ")
    with pytest.raises(FieldError, match="board"):
        entry(USUAL, SLOW, serial_number="")


def test_a_place_that_cannot_be_written_is_named(tmp_path: Path) -> None:
    (tmp_path / "filters.jsonl").mkdir()
    log = FilterLog(tmp_path / "filters.jsonl")
    with pytest.raises(FileError, match=r"filters\.jsonl"):
        log.add(entry(USUAL, SLOW))
    with pytest.raises(FileError, match=r"filters\.jsonl"):
        log.filter_for("RIG-7", 80.0)
