"""A plan file is written whole or not at all, and half letters are refused."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FileError
from biofeedback.logbook import plan_file
from biofeedback.training.example_plans import DAILY

if TYPE_CHECKING:
    from pathlib import Path


@pytest.mark.parametrize("code", [0xD800, 0xDFFF, 0])
@pytest.mark.parametrize(
    ("way", "place"),
    [
        (("name",), "plan.name"),
        (("note",), "plan.note"),
        (("stages", 0, "name"), "plan.stages[0].name"),
        (("stages", 0, "key"), "plan.stages[0].key"),
        (("stages", 0, "prescriptions", 0, "note"),
         "plan.stages[0].prescriptions[0].note"),
    ],
)  # fmt: skip
def test_what_is_no_letter_is_refused_by_its_field(
    tmp_path: Path, code: int, way: tuple[str | int, ...], place: str
) -> None:
    path = tmp_path / "plan.json"
    plan_file.save(DAILY, path)
    content = json.loads(path.read_text(encoding="utf-8"))
    inner = content["plan"]
    for step in way[:-1]:
        inner = inner[step]
    inner[way[-1]] = f"a{chr(code)}b"
    path.write_text(json.dumps(content), encoding="utf-8")  # escaped, as it may stand
    with pytest.raises(FileError) as caught:
        plan_file.load(path)
    assert caught.value.place == place


def test_letters_beyond_the_first_plane_are_letters(tmp_path: Path) -> None:
    """JSON spells them as two halves, and they are whole again when read."""
    path = tmp_path / "plan.json"
    plan_file.save(DAILY, path)
    content = json.loads(path.read_text(encoding="utf-8"))
    content["plan"]["note"] = "\U0001f642"
    path.write_text(json.dumps(content, ensure_ascii=True), encoding="utf-8")
    assert plan_file.load(path).note == "\U0001f642"


def test_nothing_is_left_where_it_cannot_be_written(tmp_path: Path) -> None:
    path = tmp_path / "plan.json"
    path.mkdir()  # nothing can take the place of a folder
    with pytest.raises(FileError, match="cannot be written"):
        plan_file.save(DAILY, path)
    assert [one.name for one in tmp_path.iterdir()] == ["plan.json"]
