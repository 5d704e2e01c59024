"""`biofeedback tune --apply`: the recommended filter is kept for a board."""

from __future__ import annotations

from pathlib import Path

import pytest

from biofeedback import cli
from biofeedback.conditioning.profile import FilterChoice
from biofeedback.logbook import folders
from biofeedback.logbook.filter_log import FILE_NAME, FilterLog
from biofeedback.rig.profile_choice import KnownBoards
from biofeedback.rig.worker import Worker
from biofeedback.session import demo

RECORDINGS = [str(path) for path in sorted(Path("recordings").glob("*.force"))]


def kept() -> FilterLog:
    return FilterLog(folders.data_folder() / FILE_NAME)


def test_what_is_recommended_is_in_use_when_the_board_is_met(
    capsys: pytest.CaptureFixture[str],
) -> None:
    words = ["tune", *RECORDINGS, "--apply", "SIM-0001", "--by", "N. Engineer"]
    assert cli.main(words) == 0
    (entry,), _ = kept().read()
    assert entry.by == "N. Engineer"
    assert entry.old == FilterChoice()
    assert len(entry.recordings) == 3
    told = capsys.readouterr()
    assert "becomes moving average of 6" in told.err
    assert "Delay 21 ms → 31 ms" in told.err
    assert "moving average of 6 leaves the least noise" in told.out
    worker = Worker(
        demo.source(seed=3, step_us=20_000),
        known=KnownBoards(filter_for=kept().filter_for),
    )
    for _ in range(30):
        worker.step()
    worker.stop()
    assert worker.handoff.take().profile.filter == entry.new
    # Once more would change nothing, which is told.
    assert cli.main(words) == 1
    assert "has this filter already" in capsys.readouterr().err
    assert len(kept().read()[0]) == 1


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--apply", "SIM-0001"], "Say who chooses"),
        (["--apply", "RIG-9", "--by", "N."], "with the board RIG-9"),
    ],
)
def test_what_is_missing_is_told_and_nothing_is_kept(
    words: list[str], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["tune", *RECORDINGS, *words]) == 1
    assert told in capsys.readouterr().err
    assert kept().read() == ([], [])
