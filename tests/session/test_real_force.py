"""Forces of real people, through import and replay, against plain numpy.

The pushes come from the folder that `REAL_FORCE_DATA` names. The computation here
is written separately: it knows nothing of the rules' code.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import numpy as np
import pytest

from biofeedback import cli

if TYPE_CHECKING:
    from pathlib import Path

RATE_HZ = 50
PUSHES = [
    f"S{person}_CN_{task}_T2" for person in range(1, 6) for task in ("LCK", "FEX")
]


@pytest.mark.parametrize("name", PUSHES)
def test_a_push_comes_out_as_numpy_says(
    real_force_data: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], name: str
) -> None:
    table = real_force_data / "gimbal_push_mvf" / f"{name}.csv"
    force_n = np.loadtxt(table, delimiter=",", skiprows=1, usecols=1)
    lower_n = round(0.6 * force_n.max(), 2)
    upper_n = round(0.9 * force_n.max(), 2)
    out = tmp_path / "push.force"
    words = ["import", str(table), "--rate", str(RATE_HZ), "--columns", "force_N"]
    assert cli.main([*words, "-o", str(out)]) == 0
    capsys.readouterr()
    # A hold that nobody reaches, so that the whole effort is its hold part.
    rules = ["--band", f"{lower_n}:{upper_n}", "--hold", "3600", "--clock", "banked"]
    assert cli.main(["replay", str(out), *rules, "--raw", "--json"]) == 0
    rep = json.loads(capsys.readouterr().out)["reps"][0]

    onset_n = max(5.0, 0.1 * lower_n)
    time_s = np.arange(len(force_n)) / RATE_HZ
    start_s = crossing_up(time_s, force_n, onset_n)
    fine_s = np.arange(start_s, rep["hold_end_s"], 1e-4)
    fine_n = np.interp(fine_s, time_s, force_n)
    inside_s = np.count_nonzero((fine_n >= lower_n) & (fine_n <= upper_n)) * 1e-4
    above_s = np.count_nonzero(fine_n > upper_n) * 1e-4
    held = (time_s >= start_s) & (time_s <= rep["hold_end_s"])

    assert rep["start_s"] == pytest.approx(start_s, abs=1e-4)
    assert rep["inside_s"] == pytest.approx(inside_s, abs=0.005)
    assert rep["above_s"] == pytest.approx(above_s, abs=0.005)
    assert rep["peak_n"] == pytest.approx(force_n[held].max(), abs=1e-4)
    assert rep["impulse_ns"] == pytest.approx(np.trapezoid(fine_n, fine_s), rel=1e-4)
    total_s = rep["below_s"] + rep["inside_s"] + rep["above_s"]
    assert total_s == pytest.approx(rep["hold_end_s"] - rep["start_s"], abs=1e-9)


def crossing_up(
    time_s: np.ndarray[tuple[int], np.dtype[np.float64]],
    force_n: np.ndarray[tuple[int], np.dtype[np.float64]],
    level_n: float,
) -> float:
    """When the force first passes a level; 0 where it starts above."""
    if force_n[0] > level_n:
        return 0.0
    after = int(np.argmax(force_n > level_n))
    share = (level_n - force_n[after - 1]) / (force_n[after] - force_n[after - 1])
    return float(time_s[after - 1] + share * (time_s[after] - time_s[after - 1]))
