"""Each trial in a small number; the large ones are run by hand and tell figures.

Kills are by hand alone: how much of the last moment is lost depends on the disk and on
what else the machine does. A killed recorder is tested in `logbook/test_recorder.py`, a
killed window in `gui/test_killed_visit.py`.
"""

from __future__ import annotations

import importlib.util
import os
from typing import TYPE_CHECKING

import pytest
from trials import bad_files, cable, disk, fuzz, garbage, power_cut

from biofeedback.wire.limits import ENCODED_MAX

if TYPE_CHECKING:
    from pathlib import Path


def test_a_recording_cut_or_zeroed_gives_what_stood_before(tmp_path: Path) -> None:
    found = power_cut.run(tmp_path, step=509)
    assert found.faults == []
    assert found.places == 2 * 129


def test_no_garbage_becomes_a_sample() -> None:
    tally = garbage.run(2.0, seed=1)
    assert tally.false == 0
    assert min(tally.sound, tally.damaged) > 1000
    assert tally.held_most <= ENCODED_MAX


@pytest.mark.parametrize("target", fuzz.TARGETS)
def test_the_fuzzers_targets_hold_for_sound_and_for_cut_content(target: str) -> None:
    one = getattr(fuzz, target)()
    for content in fuzz.seeds(target):
        for cut in (len(content), len(content) // 2, 1, 0):
            one(content[:cut])


@pytest.mark.skipif(
    importlib.util.find_spec("atheris") is not None, reason="atheris is here"
)
def test_without_its_library_the_fuzzer_says_so(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("sys.argv", ["fuzz.py"])
    assert fuzz.main() == 0
    assert "atheris is not installed" in capsys.readouterr().out


@pytest.mark.slow
def test_bad_files_are_refused_in_words(tmp_path: Path) -> None:
    tally = bad_files.run(tmp_path, 15, seed=1, huge_bytes=2**27)
    assert tally.faults == []
    assert sum(tally.refused.values()) > 50
    assert tally.grown_mb < 64


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "openpty"), reason="no pseudo-terminals here")
def test_a_pulled_cable_leaves_a_gap_and_invents_nothing(tmp_path: Path) -> None:
    tally = cable.Trial(tmp_path, seed=3).run(5)
    # How soon it is found depends on what else the machine does; told by hand.
    assert [one for one in tally.faults if not one.startswith("found after")] == []
    assert tally.gaps > 0
    assert tally.samples > 200


@pytest.mark.slow
@pytest.mark.parametrize("kind", disk.KINDS)
def test_a_failing_disk_costs_no_sample_and_holds_nothing_up(
    tmp_path: Path, kind: str
) -> None:
    if reason := disk.skipped(kind):
        pytest.skip(reason)
    found = disk.run(kind, tmp_path)
    assert (found.lost, found.dropped) == (0, 0)
    assert found.samples > 500
    assert found.wait_most_s < 1.0  # the disk alone would hold it up for 2 s
    assert bool(found.told) is (kind not in ("slow", "unmounted"))
