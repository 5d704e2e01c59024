"""All texts of the interface, collected from the code.

The code is read and not run. A text is a literal in a call of one of these names; what
is no literal cannot be found, so each such call is told as a fault.
"""

from __future__ import annotations

import ast
import re
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

PACKAGE = Path(__file__).parents[2]
PLACES = {"tr": 0, "phrase": 0, "marked": 0, "translate": 1, "QT_TRANSLATE_NOOP": 1}
"""Where the text stands among the arguments of each call."""
COUNTED = frozenset({"numbered"})
"""Calls with a number, a text for one and a text for any other number."""
FREE = frozenset({"gui/language.py", "phrase.py", "errors.py"})
"""Modules that take any text: the others hand theirs over to them."""
ENGLISH = "cli/"
"""The command line speaks English: what only it says needs no translation."""


class Text(NamedTuple):
    """What is to be translated; the comment tells equal texts apart."""

    source: str
    comment: str = ""


@dataclass(frozen=True, slots=True)
class Collected:
    """What was found in the code.

    Attributes:
        places: for each text the first place it stands at.
        faults: places where a text is no literal, in words.
    """

    places: dict[Text, str]
    faults: tuple[str, ...]


def collect(package: Path = PACKAGE) -> Collected:
    """Reads all modules of a package."""
    places: dict[Text, str] = {}
    faults = []
    for path in sorted(package.rglob("*.py")):
        module = path.relative_to(package).as_posix()
        if module in FREE or module.startswith(ENGLISH):
            continue
        for call in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            name = _name(call)
            if not isinstance(call, ast.Call) or name not in PLACES.keys() | COUNTED:
                continue
            place = f"{module}:{call.lineno}"
            found = _texts(call, name)
            if not found:
                faults.append(f"{place}: {ast.unparse(call)} holds no literal")
            for text in filter(lambda text: _has_words(text.source), found):
                places.setdefault(text, place)
    return Collected(places, tuple(faults))


def _has_words(text: str) -> bool:
    """Whether anything but placeholders and signs is in it."""
    return any(letter.isalpha() for letter in re.sub(r"\{[^{}]*\}", "", text))


def _name(call: ast.AST) -> str:
    if not isinstance(call, ast.Call):
        return ""
    of = call.func
    if isinstance(of, ast.Attribute):
        of_qt = getattr(of.value, "id", "") == "QCoreApplication"
        # Painters and letters are translated as well.
        return of.attr if of.attr != "translate" or of_qt else ""
    return getattr(of, "id", "")


def _texts(call: ast.Call, name: str) -> list[Text]:
    """What a call asks to be translated; nothing where it is no literal."""
    if name in COUNTED:
        texts = [one.value for one in call.args[1:] if isinstance(one, ast.Constant)]
        return [Text(str(one)) for one in texts] if len(texts) == 2 else []
    found = _text(call, PLACES[name], comments=name == "tr")
    return [] if found is None else [found]


def _text(call: ast.Call, place: int, *, comments: bool) -> Text | None:
    texts = [
        one.value
        for one in call.args
        if isinstance(one, ast.Constant) and isinstance(one.value, str)
    ]
    wanted = place + 2 if comments and len(call.args) > place + 1 else place + 1
    if len(call.args) < wanted or len(texts) != len(call.args):
        return None
    return Text(*texts[place:wanted])
