"""Commands that read a table of forces, on tables that nobody would write."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from biofeedback import cli

if TYPE_CHECKING:
    from pathlib import Path

    Captured = pytest.CaptureFixture[str]

NUMBERS = ["0", "1", "1", "2", "3.5", "300", "310", "1e18", "1e-300"]
CELLS = st.sampled_from([*NUMBERS * 4, "", "n/a", "x", "3,5", "-4", '"', "A", "7;"])


@pytest.mark.parametrize("command", ["agree", "compare"])
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    rows=st.lists(st.lists(CELLS, min_size=2, max_size=3), max_size=6),
    separator=st.sampled_from([",", ";", "\t"]),
    named=st.booleans(),
)
def test_whatever_the_table_there_is_an_answer_or_a_fault_in_words(
    tmp_path: Path,
    capsys: Captured,
    command: str,
    rows: list[list[str]],
    separator: str,
    named: bool,
) -> None:
    names = ["code,iso,ecc,more".replace(",", separator)] if named else []
    path = tmp_path / "drawn.csv"
    coded = [
        [f"P{place % 5}", *row] if named else row for place, row in enumerate(rows)
    ]
    path.write_text("\n".join(names + [separator.join(row) for row in coded]))
    codes = {cli.main([command, str(path), *more]) for more in ([], ["--json"])}
    told = capsys.readouterr()
    assert codes in ({0}, {1})
    assert (codes == {1}) == bool(told.err)
    assert not told.err or told.err.startswith(f"biofeedback {command}: {path}")
