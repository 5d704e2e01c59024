from __future__ import annotations

import math
from enum import Enum
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.errors import FieldError
from biofeedback.wire.fields import LIST_MAX, TEXT_MAX, Fields

if TYPE_CHECKING:
    from collections.abc import Callable


class Colour(Enum):
    INK = "ink"
    SLATE = "slate"


READ: dict[str, Callable[[Fields], object]] = {
    "text": lambda fields: fields.text("a"),
    "number": lambda fields: fields.number("a", least=0, most=10),
    "whole": lambda fields: fields.whole("a", least=0, most=10),
    "flag": lambda fields: fields.flag("a"),
    "choice": lambda fields: fields.choice("a", Colour),
    "inner": lambda fields: fields.inner("a").values,
    "items": lambda fields: [item.values for item in fields.items("a")],
    "numbers": lambda fields: fields.numbers("a"),
    "sequence": lambda fields: list(fields.sequence("a")),
}


def test_a_number_too_large_for_any_float_is_refused_in_words() -> None:
    with pytest.raises(FieldError, match="finite"):
        Fields({"a": 10**400}).number("a")


def test_a_number_may_be_left_out_but_not_be_wrong() -> None:
    for left_out in (Fields({}), Fields({"a": None})):
        assert left_out.number_or_none("a") is None
    assert Fields({"a": 0}).number_or_none("a", least=0, most=10) == 0.0
    for wrong in ("1", True, math.nan, 10.5):
        with pytest.raises(FieldError) as raised:
            Fields({"a": wrong}, "b").number_or_none("a", least=0, most=10)
        assert raised.value.field == "b.a"


@pytest.mark.parametrize(
    ("kind", "value", "read"),
    [
        ("text", "", ""),
        ("text", "x" * TEXT_MAX, "x" * TEXT_MAX),
        ("number", 0, 0.0),
        ("number", 10.0, 10.0),
        ("whole", 0, 0),
        ("whole", 10, 10),
        ("flag", True, True),
        ("flag", False, False),
        ("choice", "slate", Colour.SLATE),
        ("inner", {"b": 1}, {"b": 1}),
        ("items", [{"b": 1}, {}], [{"b": 1}, {}]),
        ("items", [], []),
        ("numbers", [1, 2.5], (1.0, 2.5)),
        ("sequence", [1, "x", None], [1, "x", None]),
    ],
)
def test_what_fits_is_read(kind: str, value: object, read: object) -> None:
    assert READ[kind](Fields({"a": value})) == read


@pytest.mark.parametrize(
    ("kind", "value"),
    [
        ("text", None),
        ("text", 1),
        ("text", "x" * (TEXT_MAX + 1)),
        ("number", "1"),
        ("number", True),
        ("number", None),
        ("number", -0.001),
        ("number", 10.001),
        ("number", math.nan),
        ("number", math.inf),
        ("whole", 1.0),
        ("whole", True),
        ("whole", 11),
        ("whole", -1),
        ("flag", 1),
        ("flag", "true"),
        ("choice", "red"),
        ("choice", None),
        ("choice", []),
        ("inner", [1]),
        ("inner", "x"),
        ("items", [{}, 1]),
        ("items", {}),
        ("numbers", [1, "2"]),
        ("numbers", [math.inf]),
        ("sequence", "abc"),
        ("sequence", [0] * (LIST_MAX + 1)),
        ("sequence", None),
    ],
)
def test_what_does_not_fit_is_named(kind: str, value: object) -> None:
    with pytest.raises(FieldError) as caught:
        READ[kind](Fields({"a": value}, "plan.stage"))
    assert caught.value.field.startswith("plan.stage.a")
    assert str(caught.value).startswith("plan.stage.a")


@pytest.mark.parametrize("kind", READ)
def test_what_is_missing_is_named(kind: str) -> None:
    with pytest.raises(FieldError) as caught:
        READ[kind](Fields({"b": 1}))
    assert caught.value.field == "a"
    assert caught.value.problem == "is missing."


def test_names_are_dotted_through_objects_and_lists() -> None:
    fields = Fields({"plan": {"stages": [{}, {"hold": {"s": "ten"}}]}})
    stage = fields.inner("plan").items("stages")[1]
    with pytest.raises(FieldError) as caught:
        stage.inner("hold").number("s")
    assert caught.value.field == "plan.stages[1].hold.s"


def test_has_is_false_for_null() -> None:
    fields = Fields({"a": None, "b": 0})
    assert [fields.has(key) for key in "abc"] == [False, True, False]


@given(
    st.sampled_from(sorted(READ)),
    st.recursive(
        st.none()
        | st.booleans()
        | st.integers(-(2**63), 2**63)
        | st.floats()
        | st.text(max_size=5),
        lambda inner: (
            st.lists(inner, max_size=3)
            | st.dictionaries(st.text(max_size=3), inner, max_size=3)
        ),
        max_leaves=5,
    ),
)
def test_any_value_is_read_or_refused(kind: str, value: object) -> None:
    try:
        READ[kind](Fields({"a": value}))
    except FieldError as error:
        named = error.field
    else:
        named = "a"
    assert named.startswith("a")


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        (b"", "is no JSON"),
        (b'{"a": ', "is no JSON"),
        (b"\xff{}", "is no JSON"),
        (b"[" * 99_000, "is no JSON"),
        (b"1" * 99_000, "is no JSON"),
        (b"[1]", "must be a JSON object"),
        (b"{}" + b" " * 99_999, "is too long"),
    ],
    ids=["empty", "cut", "no text", "deep", "digits", "list", "long"],
)
def test_a_file_that_holds_no_object_is_told_by_name(raw: bytes, words: str) -> None:
    with pytest.raises(FieldError, match=f"^rule: {words}"):
        Fields.of_json(raw, "rule", most_bytes=100_000)


def test_a_file_as_long_as_is_allowed_is_read() -> None:
    raw = b'{"a": 1}' + b" " * 92
    assert Fields.of_json(raw, "rule", most_bytes=100).values == {"a": 1}
