"""Words and numbers of the interface in another language."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QLocale

from biofeedback.gui import language
from biofeedback.gui.field import Field
from biofeedback.gui.language import filled, plain_number, shown, typed_number
from biofeedback.phrase import phrase
from biofeedback.session.preferences import Language

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot

GERMANY = QLocale(QLocale.Language.German, QLocale.Country.Germany)
MEXICO = QLocale(QLocale.Language.Spanish, QLocale.Country.Mexico)
SPAIN = QLocale(QLocale.Language.Spanish, QLocale.Country.Spain)


@pytest.fixture
def english() -> Iterator[None]:
    before = QLocale()
    QLocale.setDefault(language.locale_of(Language.ENGLISH, SPAIN))
    yield
    QLocale.setDefault(before)


@pytest.mark.parametrize(
    ("preferred", "system", "point"),
    [
        (Language.SYSTEM, SPAIN, ","),
        (Language.SYSTEM, MEXICO, "."),  # Mexico writes points
        (Language.SYSTEM, GERMANY, ","),
        (Language.SPANISH, GERMANY, ","),
        (Language.SPANISH, MEXICO, "."),
        (Language.ENGLISH, SPAIN, "."),
    ],
)
def test_the_decimal_sign_follows_the_locale(
    preferred: Language, system: QLocale, point: str
) -> None:
    assert language.locale_of(preferred, system).decimalPoint() == point


@pytest.mark.usefixtures("english")
def test_english_numbers_have_a_point() -> None:
    assert plain_number(12.5) == "12.5"
    assert shown(phrase("{n:.2f} N", n=1.5)) == "1.50 N"


@pytest.mark.usefixtures("spanish")
def test_spanish_numbers_have_a_comma() -> None:
    assert plain_number(12.5) == "12,5"
    assert plain_number(168.0) == "168"
    assert shown(phrase("{n:.2f} N", n=1.5)) == "1,50 N"
    assert filled("{n:.1f} / {code}", n=-2.25, code="A.B") == "-2,2 / A.B"
    assert f"{phrase('{n:.1f} N', n=1.5)}" == "1.5 N"  # what is kept


@pytest.mark.usefixtures("spanish")
def test_phrases_within_phrases_are_translated_too() -> None:
    outer = phrase(
        "{side}: 1.5 {n}", side=phrase("Back to live"), n=phrase("{n} N", n=2)
    )

    assert outer == "Back to live: 1.5 2 N"
    assert shown(outer) == f"{shown(phrase('Back to live'))}: 1.5 2 N"
    assert shown("Back to live") == "Back to live"  # a name may be any word


@pytest.mark.usefixtures("english")
@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("12.5", 12.5),
        ("12,5", 12.5),
        ("1.250", 1.25),
        ("0,125", 0.125),
        ("1250", 1250.0),
        ("1234,500", 1234.5),
        ("−3", -3.0),
        (".5", 0.5),
        ("5.", 5.0),
    ],
)
def test_numbers_are_read_with_either_sign(typed: str, value: float) -> None:
    assert typed_number(typed) == value


@pytest.mark.usefixtures("english")
@pytest.mark.parametrize("typed", ["", ".", "x", "1e3", "1,250.5", "nan", "--1", "1 2"])
def test_what_is_no_number_is_refused(typed: str) -> None:
    with pytest.raises(ValueError, match=r"Please type a number, for example 12\.5\."):
        typed_number(typed)


@pytest.mark.usefixtures("english")
@pytest.mark.parametrize("typed", ["1,250", "12,500", "-1,050"])
def test_in_english_a_comma_before_three_digits_is_not_clear(typed: str) -> None:
    with pytest.raises(ValueError, match="is not clear"):
        typed_number(typed)


@pytest.mark.usefixtures("spanish")
def test_in_spanish_a_point_before_three_digits_is_not_clear() -> None:
    assert typed_number("1,250") == 1.25
    assert typed_number("1.25") == 1.25
    with pytest.raises(ValueError, match=r"1250.*1,25"):
        typed_number("1.250")


@pytest.mark.usefixtures("english")
def test_a_field_asks_what_is_meant(qtbot: QtBot) -> None:
    field = Field("Force", unit="N")
    qtbot.addWidget(field)
    field.line.setText("1,250")

    assert math.isnan(field.number() or 0.0)
    assert field.error.text() == "“1,250” is not clear: please type 1250 or 1.25."


@pytest.mark.usefixtures("spanish")
@pytest.mark.parametrize("value", [0.25, 1.125, 12.5, 168.0, 1250.5])
def test_a_field_reads_what_it_shows(qtbot: QtBot, value: float) -> None:
    field = Field("Force", unit="N")
    qtbot.addWidget(field)
    field.set_number(value, digits=3)

    assert "." not in field.text
    assert field.number() == value
