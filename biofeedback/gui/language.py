"""The language of the interface: what is shown of words and numbers.

English is the language of the code and of everything that is kept. The catalogue is
one flat list of texts, without Qt's contexts: the same English has the same
translation everywhere, and what must differ is told apart by Qt's comment
(``tr("Left", "is over")``). The decimal sign follows the language in what is shown and
typed, and never in files, exports and the command line.
"""

from __future__ import annotations

import logging
import re
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QCoreApplication,
    QLibraryInfo,
    QLocale,
    QObject,
    QTranslator,
)

from biofeedback.errors import BiofeedbackError
from biofeedback.phrase import Phrase, phrase
from biofeedback.session.preferences import Language

if TYPE_CHECKING:
    from collections.abc import Iterable

CONTEXT = "biofeedback"
"""The only context of the catalogue."""
CATALOGUES = Path(__file__).parent / "translations"


_LOG = logging.getLogger(__name__)
_QT_LANGUAGES = {
    Language.ENGLISH: QLocale.Language.English,
    Language.SPANISH: QLocale.Language.Spanish,
}


class Catalogue(QTranslator):
    """Our catalogue, asked without regard of the context."""

    def translate(
        self,
        context: str,
        source: str,
        disambiguation: str | None = None,
        n: int = -1,
    ) -> str | None:
        """The translation; None where there is none, and Qt goes on asking."""
        found = super().translate(CONTEXT, source, disambiguation or "", n)
        return found or None


def locale_of(language: Language, system: QLocale) -> QLocale:
    """The locale for a preference.

    The system's own wherever it speaks that language, because one language has
    decimal points here and commas there.
    """
    wanted = _QT_LANGUAGES.get(language, system.language())
    locale = system if wanted == system.language() else QLocale(wanted)
    locale.setNumberOptions(
        QLocale.NumberOption.OmitGroupSeparator
        | QLocale.NumberOption.RejectGroupSeparator
    )
    return locale


def speak(
    app: QObject, language: Language, *, system: QLocale | None = None
) -> tuple[QTranslator, ...]:
    """Puts all that is made from now on into a language.

    Once, before the window is made: what stands on the screen is not said anew.

    Returns:
        What was installed, to be taken away again by tests.
    """
    locale = locale_of(language, QLocale.system() if system is None else system)
    QLocale.setDefault(locale)
    if locale.language() != QLocale.Language.Spanish:
        return ()
    own, dialogs = Catalogue(app), QTranslator(app)
    if not own.load(str(CATALOGUES / "biofeedback_es.qm")):
        _LOG.warning("the Spanish catalogue cannot be read; all is said in English")
    folder = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
    if dialogs.load("qtbase_es", folder):
        QCoreApplication.installTranslator(dialogs)
    QCoreApplication.installTranslator(own)
    return own, dialogs


def tr(text: str, comment: str | None = None) -> str:
    """A literal text in the language of the interface."""
    return QCoreApplication.translate(CONTEXT, text, comment)


def shown(text: str) -> str:
    """A phrase in the language of the interface; any other text as it is."""
    if not isinstance(text, Phrase):
        return text
    return said(text.template, **text.values)


def as_kept(title: str, own: Iterable[str]) -> str:
    """What is kept for a text that stands in a field, without blanks around it.

    Args:
        own: texts that the program brings along; kept in English, however they are
            shown. Any other is kept as it was typed.
    """
    title = title.strip()
    return next((text for text in own if shown(text) == title), title)


def as_said(text: str) -> Phrase:
    """A text that is in the language of the interface already, as an error takes it."""
    return phrase("{text}", text=text)


def said(template: str, /, **values: object) -> str:
    """A template that was `marked` where it stands, with its values."""
    return filled(tr(template), **values) if values else tr(template)


def filled(template: str, /, **values: object) -> str:
    """A translated template with its values: phrases and numbers as they are shown."""
    return template.format(**{name: _Shown(value) for name, value in values.items()})


class _Shown:
    """A value that writes itself in the language of the interface."""

    __slots__ = ("_value",)

    def __init__(self, value: object) -> None:
        self._value = value

    def __format__(self, form: str) -> str:
        value = self._value
        if isinstance(value, BiofeedbackError):
            value = value.words
        if isinstance(value, str):
            return format(shown(value), form)
        text = format(value, form)
        return localised(text) if isinstance(value, float) else text


def localised(number: str) -> str:
    """A number written with a point, with the decimal sign of the language."""
    return number.replace(".", _decimal_sign())


def _decimal_sign() -> str:
    """Comma or point; other signs are not read again by `typed_number`."""
    return "," if QLocale().decimalPoint() == "," else "."


def plain_number(value: float, *, digits: int = 1) -> str:
    """A number as people write it: 12.5, 168, never 168.0."""
    text = f"{value:.{digits}f}"
    return localised(text.rstrip("0").rstrip(".") if "." in text else text)


_DECIMAL = re.compile(r"([+-]?)(\d*)(?:([.,])(\d*))?")


def signed_number(value: float, *, digits: int = 1) -> str:
    """The same with its sign, as people write it: +3.5, −12; nought has none."""
    number = plain_number(abs(value), digits=digits)
    if number == "0":
        return number
    return f"{'−' if value < 0 else '+'}{number}"


def typed_number(text: str) -> float:
    """A number that somebody typed.

    Point and comma are both read as the decimal sign, whatever the language. Only a
    foreign sign before exactly three digits is not: “1,250” is 1250 to one
    person and 1.25 to another, and a force must not be wrong by a thousand.

    Raises:
        ValueError: in words, where it is no number or not clear.
    """
    found = _DECIMAL.fullmatch(text.strip().replace("−", "-"))
    minus, whole, sign, part = found.groups() if found else ("", "", None, None)
    if not found or not (whole or part):
        raise ValueError(
            filled(tr("Please type a number, for example {example:.1f}."), example=12.5)
        )
    thousands = len(part or "") == 3 and 1 <= len(whole) <= 3 and whole.strip("0")
    if sign and thousands and sign != _decimal_sign():
        raise ValueError(
            filled(
                tr("“{typed}” is not clear: please type {large} or {small:.4g}."),
                typed=text.strip(),
                large=f"{minus}{whole}{part}",
                small=float(f"{minus}{whole}.{part}"),
            )
        )
    return float(found.group().replace(",", "."))


def error_words(error: BiofeedbackError) -> str:
    """What an error says, in the language of the interface."""
    return shown(error.words)
