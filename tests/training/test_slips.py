"""A taking back is of the newest mark that stands."""

from __future__ import annotations

import pytest

from biofeedback.training.slips import slips


@pytest.mark.parametrize(
    ("steps", "expected"),
    [
        ("", ""),
        ("m", "."),
        ("mb", "x"),
        ("bm", "."),  # nothing stood yet
        ("mmb", ".x"),
        ("mmbb", "xx"),
        ("mbmb", "xx"),
        ("mmbm", ".x."),
        ("mmbmb", ".xx"),
        ("mbbm", "x."),
    ],
)
def test_the_newest_that_stands_is_taken_back(steps: str, expected: str) -> None:
    told = slips(step == "m" for step in steps)
    assert "".join("x" if back else "." for back in told) == expected
