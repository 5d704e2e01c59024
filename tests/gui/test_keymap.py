"""Keys that were changed: never two actions on one key, never none to stop."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.errors import FieldError
from biofeedback.gui.keymap import (
    OTHER_BOARD,
    OTHER_FOLDER,
    PRESENTER,
    START,
    STOP,
    Keymap,
    plain,
)

README = Path(__file__).parents[2] / "README.md"
USUAL = ("F5", "Esc", "PgUp", "PgDown", "Ctrl+PgUp", "F7", "F8")


def test_the_usual_keys_are_in_use_where_nothing_was_changed() -> None:
    keymap = Keymap(USUAL)
    assert [keymap.key(key) for key in USUAL] == [plain(key) for key in USUAL]
    assert keymap.changed == {}


def test_a_key_in_use_changes_places() -> None:
    keymap = Keymap(USUAL).with_key("F5", "F7")
    assert (keymap.key("F5"), keymap.key("F7")) == ("F7", "F5")
    assert keymap.with_key("F5", "F5").changed == {}


def test_a_free_key_is_taken() -> None:
    keymap = Keymap(USUAL).with_key("F5", "B")
    assert keymap.changed == {"F5": "B"}
    assert Keymap(USUAL, keymap.changed).key("F5") == "B"


def test_a_presenter_with_two_buttons_starts_and_stops() -> None:
    keymap = Keymap(USUAL).with_all(PRESENTER)
    assert (keymap.key(START), keymap.key(STOP)) == ("PgDown", "PgUp")
    assert {keymap.key("PgUp"), keymap.key("PgDown")} == {"F5", "Esc"}


@pytest.mark.parametrize("bad", ["", "Nonsense", "Ctrl+"])
def test_what_is_no_key_is_refused(bad: str) -> None:
    with pytest.raises(FieldError, match="is no key"):
        Keymap(USUAL).with_key("F5", bad)


def test_an_action_that_is_not_there_is_refused() -> None:
    with pytest.raises(FieldError, match="nothing is done by"):
        Keymap(USUAL).with_key("F12", "B")


KEYS = st.sampled_from([*USUAL, "B", "Ctrl+K", "Space", "nonsense", ""])


@given(
    kept=st.dictionaries(KEYS, KEYS, max_size=6),
    changes=st.lists(st.tuples(KEYS, KEYS), max_size=10),
)
def test_whatever_is_kept_or_changed_each_action_has_a_key_of_its_own(
    kept: dict[str, str], changes: list[tuple[str, str]]
) -> None:
    keymap = Keymap(USUAL, kept)
    for usual, new in changes:
        try:
            keymap = keymap.with_key(usual, new)
        except FieldError:
            continue
    keys = [keymap.key(usual) for usual in USUAL]
    assert len(set(keys)) == len(USUAL)
    again = Keymap(USUAL, keymap.changed)
    assert [again.key(usual) for usual in USUAL] == keys


@pytest.mark.parametrize("key", [START, STOP, OTHER_FOLDER, OTHER_BOARD])
def test_readme_tells_the_keys_for_when_something_goes_wrong(key: str) -> None:
    text = README.read_text("utf-8")
    assert f"| {key} | " in text
    assert key in {START, STOP} or f"({key})" in text
