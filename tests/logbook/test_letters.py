"""Words are found however they are typed."""

from __future__ import annotations

import pytest

from biofeedback.logbook.letters import folded


@pytest.mark.parametrize(
    ("written", "typed"),
    [
        ("Łukasz", "lukasz"),
        ("Søren Ægir", "SOREN aegir"),
        ("Þóra Guðný", "thora gudny"),
        ("Bergström", "bergstrom"),
        ("Straße", "strasse"),
        ("İpek Işık", "ipek isik"),
        ("O’Invented", "o'invented"),
        ("Anna\u2011Lena  Berg ", "anna-lena berg"),
        ("\ufb01ctional", "fictional"),
    ],
)
def test_letters_are_compared_as_they_are_typed(written: str, typed: str) -> None:
    assert folded(written) == folded(typed)


def test_other_letters_stay_apart() -> None:
    assert folded("Лев") != folded("Лея")
    assert folded("岡田") == "岡田"
