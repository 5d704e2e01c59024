"""Preferences on a real disk."""

from __future__ import annotations

import json
import stat
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.errors import FieldError, FileError
from biofeedback.session.preferences import (
    FILE_NAME,
    Language,
    PreferenceFile,
    Preferences,
)
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from pathlib import Path

OWN = Preferences(
    language=Language.SPANISH,
    text_pct=150,
    reduced_motion=True,
    night=True,
    sound=True,
    volume_pct=70,
    second_screen=True,
    auto_next=True,
    backup_folder="/media/an invented disk",
    keys={"start": "B", "stop": "F6"},
)


def test_what_is_written_is_read_by_its_owner_alone(tmp_path: Path) -> None:
    file = PreferenceFile(tmp_path / "data")
    assert file.read() == (Preferences(), "")
    file.write(OWN)
    assert file.read() == (OWN, "")
    assert stat.S_IMODE(file.path.stat().st_mode) == 0o600
    assert [path.name for path in (tmp_path / "data").iterdir()] == [FILE_NAME]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "Expecting value"),
        ("[]", "must hold an object"),
        ("[" * 100_000, ""),
        ('{"format": "x", "version": 1}', "format"),
        ('{"format": "biofeedback preferences", "version": 2}', "knows 1"),
        ('{"format": "biofeedback preferences", "version": 1, "text_pct": 7}', "100 %"),
        ('{"format": "biofeedback preferences", "version": 1, "keys": 3}', "keys"),
        (" " * 70_000, "far too long"),
    ],
)
def test_a_file_that_cannot_be_read_is_set_aside_and_said(
    tmp_path: Path, text: str, words: str
) -> None:
    file = PreferenceFile(tmp_path)
    file.path.write_text(text)
    read, told = file.read()
    assert read == Preferences()
    assert words in told
    assert FILE_NAME in told
    assert (tmp_path / "preferences.not-read.json").read_text() == text
    assert file.read() == (Preferences(), "")


def test_a_folder_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    (tmp_path / "data").write_text("a file where the folder is to be")
    with pytest.raises(FileError, match="data"):
        PreferenceFile(tmp_path / "data").write(OWN)


def test_what_an_older_file_lacks_is_as_shipped() -> None:
    old = Fields({"format": "biofeedback preferences", "version": 1, "night": True})
    assert Preferences.from_json(old) == Preferences(night=True)


def test_a_key_is_changed_and_put_back() -> None:
    changed = Preferences().with_key("start", "B")
    assert changed.keys == {"start": "B"}
    assert changed.with_key("start", "") == Preferences()


@pytest.mark.parametrize(
    "change", [{"text_pct": 99}, {"text_pct": 201}, {"volume_pct": 101}]
)
def test_values_that_do_not_fit(change: dict[str, int]) -> None:
    with pytest.raises(FieldError, match=next(iter(change))):
        replace(Preferences(), **change)  # type: ignore[arg-type]  # by name


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=5),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from([*OWN.to_json()]), inner, max_size=5)
    ),
    max_leaves=10,
)


@given(st.dictionaries(st.sampled_from([*OWN.to_json()]), JSON))
def test_mutated_preferences_are_read_or_refused_by_field(
    change: dict[str, object],
) -> None:
    values = {**OWN.to_json(), **change}
    refused = ""
    read = Preferences()
    try:
        read = Preferences.from_json(Fields(values))
    except FieldError as error:
        refused = error.field.split(".")[0]
    assert not refused or refused in values
    again = Fields(json.loads(json.dumps(read.to_json())))
    assert Preferences.from_json(again) == read
