"""Phrases: English wherever they go, and whole again for the window."""

from __future__ import annotations

import copy
import json
import pickle
import sqlite3
from enum import Enum
from typing import TYPE_CHECKING, cast

import pytest

from biofeedback.errors import FieldError, UserError
from biofeedback.phrase import Phrase, joined, listed, numbered, phrase, sentences

if TYPE_CHECKING:
    from collections.abc import Callable


class Side(Enum):
    LEFT = phrase("left")


def test_a_phrase_is_its_english_text() -> None:
    made = phrase("{force_n:.1f} N, {side}", force_n=12.34, side=phrase("left"))

    assert made == "12.3 N, left"
    assert hash(made) == hash("12.3 N, left")
    assert json.dumps(made) == '"12.3 N, left"'
    assert Side("left") is Side.LEFT


def test_it_remembers_template_and_values() -> None:
    made = phrase("{force_n:.1f} N, {side}", force_n=12.34, side=Side.LEFT.value)

    assert made.template == "{force_n:.1f} N, {side}"
    assert made.values == {"force_n": 12.34, "side": "left"}
    assert isinstance(made.values["side"], Phrase)


def by_pickle(it: Phrase) -> Phrase:
    return cast("Phrase", pickle.loads(pickle.dumps(it)))  # noqa: S301  our own bytes


@pytest.mark.parametrize("again", [copy.copy, copy.deepcopy, by_pickle])
def test_copies_are_phrases_too(again: Callable[[Phrase], Phrase]) -> None:
    made = again(phrase("{n} of {m}", n=1, m=2))

    assert made == "1 of 2"
    assert made.template == "{n} of {m}"


def test_a_database_takes_it_as_text() -> None:
    base = sqlite3.connect(":memory:")
    found = base.execute("select ?, typeof(?)", (phrase("left"), phrase("left")))

    assert found.fetchone() == ("left", "text")
    base.close()


def test_joined_phrases_stay_phrases() -> None:
    made = joined(" {·} ", (phrase("{n} N", n=1), "AB12"))

    assert made == "1 N {·} AB12"
    assert made.values["part_0"] == "1 N"
    assert sentences("", phrase("One."), "", "Two.") == "One. Two."
    assert sentences() == ""


def test_errors_keep_their_phrases() -> None:
    problem = phrase("must be under {most:g} N.", most=2.5)
    error = FieldError("band.lower_n", problem, phrase("Lower it."))

    assert str(error) == "band.lower_n: must be under 2.5 N. Lower it."
    assert isinstance(error.message, Phrase)
    assert error.problem is problem
    assert str(UserError(phrase("Nothing is plugged in."))) == "Nothing is plugged in."


def test_one_is_no_plural() -> None:
    said = [str(numbered(n, "1 gap", "{count} gaps")) for n in (0, 1, 2)]

    assert said == ["0 gaps", "1 gap", "2 gaps"]


def test_parts_are_listed_as_people_do() -> None:
    assert listed(["left"]) == "left"
    assert listed(["left", "right", "cell 3"]) == "left, right and cell 3"
