"""The language of the interface: what is shown of words and numbers.

English is the language of the code and of everything that is kept. The catalogue is
one flat list of texts, without Qt's contexts: the same English has the same
translation everywhere, and what must differ is told apart by Qt's comment
(``tr("Left", "is over")``). The decimal sign follows the language in what is shown and
typed, and never in files, exports and the command line.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QLocale

from biofeedback.phrase import Phrase, sentences

if TYPE_CHECKING:
    from biofeedback.errors import BiofeedbackError

CONTEXT = "biofeedback"
"""The only context of the catalogue."""


def tr(text: str, comment: str | None = None) -> str:
    """A literal text in the language of the interface."""
    return QCoreApplication.translate(CONTEXT, text, comment)


def shown(text: str) -> str:
    """A phrase in the language of the interface; any other text as it is."""
    if not isinstance(text, Phrase):
        return text
    return filled(tr(text.template), **text.values)


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
        if isinstance(value, str):
            return format(shown(value), form)
        text = format(value, form)
        return localised(text) if isinstance(value, float) else text


def localised(number: str) -> str:
    """A number written with a point, with the decimal sign of the language."""
    return number.replace(".", QLocale().decimalPoint())


def error_words(error: BiofeedbackError) -> str:
    """What an error says, in the language of the interface."""
    return shown(sentences(error.message, error.next_step))
