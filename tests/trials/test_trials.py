"""Each trial in a small number; the large ones are run by hand and tell figures.

The same code: what is asked of two hundred kills is asked of one.
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest
from trials import bad_files, garbage, killed, power_cut

from biofeedback.wire.limits import ENCODED_MAX

if TYPE_CHECKING:
    from pathlib import Path


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "openpty"), reason="no pseudo-terminals here")
def test_a_killed_program_has_kept_what_was_sent_and_done(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(killed, "LEAST_S", 5.0)  # a rep is under way, or over
    monkeypatch.setattr(killed, "MOST_S", 7.0)
    tally = killed.Trial(tmp_path, seed=1).run(1)
    assert tally.faults == []
    assert tally.kills == 1
    assert tally.frames > 100  # so there was something to lose


def test_a_recording_cut_or_zeroed_gives_what_stood_before(tmp_path: Path) -> None:
    found = power_cut.run(tmp_path, step=509)
    assert found.faults == []
    assert found.places == 2 * 129


def test_no_garbage_becomes_a_sample() -> None:
    tally = garbage.run(2.0, seed=1)
    assert tally.false == 0
    assert min(tally.sound, tally.damaged) > 1000
    assert tally.held_most <= ENCODED_MAX


@pytest.mark.slow
def test_bad_files_are_refused_in_words(tmp_path: Path) -> None:
    tally = bad_files.run(tmp_path, 15, seed=1, huge_bytes=2**27)
    assert tally.faults == []
    assert sum(tally.refused.values()) > 50
    assert tally.grown_mb < 64
