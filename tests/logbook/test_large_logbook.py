"""The bench of the large logbook runs; how fast it is, is not asked here."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

BENCH = Path(__file__).parents[1] / "bench" / "large_logbook.py"


def test_the_bench_runs_with_a_small_club(tmp_path: Path) -> None:
    asked = ["--athletes", "3", "--reps", "500", "--seconds", "0", "--json", "--plans"]
    done = subprocess.run(  # noqa: S603  our own script
        [sys.executable, str(BENCH), *asked],
        capture_output=True,
        text=True,
        timeout=60,
        cwd=tmp_path,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    found = json.loads(done.stdout)
    assert found["reps"] == 480
    rows = {row["what"]: row for row in found["rows"]}
    assert len(rows) > 20
    assert all(row["times"] >= 10 for row in rows.values())
    # The indices that keep long lists fast are in use. Only athletes and tasks, of
    # which there are few, are gone through from end to end.
    ways = {what: " ".join(row["ways"]) for what, row in rows.items()}
    assert "ix_body_masses_athlete_id_date" in ways["list all athletes"]
    assert "ix_sessions_athlete_id_started_utc" in ways["list all athletes"]
    assert "ix_sets_started_utc_id" in ways["latest 200 reps of all"]
    assert "ix_sets_closed_utc_recording" in ways["recordings that are known"]
    for way in ways.values():
        assert "SCAN reps" not in way
