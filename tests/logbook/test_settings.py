"""Settings of a logbook on a real SQLite file."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FieldError
from biofeedback.logbook.database import Logbook

if TYPE_CHECKING:
    from pathlib import Path


@pytest.mark.parametrize(
    "content",
    [
        {"low": 2, "high": 5, "step": 0.25},
        [1, 2.5, "three", None],
        "text",
        14,
        0,
        False,
    ],
)
def test_a_setting_survives_closing(tmp_path: Path, content: object) -> None:
    place = tmp_path / "logbook.db"
    with Logbook.open(place) as book:
        assert book.settings.get("pain rule") is None
        book.settings.put("pain rule", content)
    with Logbook.open(place) as book:
        assert book.settings.get("pain rule") == content
        assert book.settings.get("something else") is None


def test_a_new_value_takes_the_place_of_the_old_one(tmp_path: Path) -> None:
    with Logbook.open(tmp_path / "logbook.db") as book:
        book.settings.put("stale days", 14)
        book.settings.put("other", 1)
        book.settings.put("stale days", 21)
        assert book.settings.get("stale days") == 21
        assert book.settings.get("other") == 1
        book.settings.put("stale days", None)
        assert book.settings.get("stale days") is None
        book.settings.put("stale days", float("nan"))  # no number in JSON
        assert book.settings.get("stale days") is None


@pytest.mark.parametrize("name", ["", "x" * 101])
def test_a_setting_needs_a_name(tmp_path: Path, name: str) -> None:
    with (
        Logbook.open(tmp_path / "logbook.db") as book,
        pytest.raises(FieldError, match="1 to 100"),
    ):
        book.settings.put(name, 1)
