"""Each trial in a small number; the large ones are run by hand and tell figures.

Kills are by hand alone: how much of the last moment is lost depends on the disk and on
what else the machine does. A killed recorder is tested in `logbook/test_recorder.py`, a
killed window in `gui/test_killed_visit.py`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from trials import bad_files, garbage, power_cut

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


@pytest.mark.slow
def test_bad_files_are_refused_in_words(tmp_path: Path) -> None:
    tally = bad_files.run(tmp_path, 15, seed=1, huge_bytes=2**27)
    assert tally.faults == []
    assert sum(tally.refused.values()) > 50
    assert tally.grown_mb < 64
