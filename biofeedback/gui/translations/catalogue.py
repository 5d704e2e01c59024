"""A catalogue in Qt's own format of translations (``.ts``), read and written.

One context, texts in alphabetical order, so that two people who add texts at the same
time seldom touch the same lines.
"""

from __future__ import annotations

import string
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET  # our own file, read by developers alone

from biofeedback.gui.translations.collected import Text

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path

CONTEXT = "biofeedback"


def read(path: Path) -> dict[Text, str]:
    """Each text with its translation; empty where there is none yet."""
    if not path.exists():
        return {}
    found = {}
    for message in ET.parse(path).getroot().iter("message"):  # noqa: S314  as above
        text = Text(message.findtext("source", ""), message.findtext("comment", ""))
        found[text] = message.findtext("translation", "")
    return found


def write(path: Path, language: str, translations: Mapping[Text, str]) -> None:
    """Writes them all; what has no translation is marked as unfinished."""
    root = ET.Element("TS", version="2.1", language=language, sourcelanguage="en")
    context = ET.SubElement(root, "context")
    ET.SubElement(context, "name").text = CONTEXT
    for text, translation in sorted(translations.items()):
        message = ET.SubElement(context, "message")
        ET.SubElement(message, "source").text = text.source
        if text.comment:
            ET.SubElement(message, "comment").text = text.comment
        words = ET.SubElement(message, "translation")
        words.text = translation
        if not translation:
            words.set("type", "unfinished")
    ET.indent(root, space="  ")
    body = ET.tostring(root, encoding="unicode")
    head = '<?xml version="1.0" encoding="utf-8"?>\n<!DOCTYPE TS>\n'
    path.write_text(f"{head}{body}\n", encoding="utf-8")


def merged(texts: Iterable[Text], known: Mapping[Text, str]) -> dict[Text, str]:
    """The texts of the code with what was translated; what is gone is left out."""
    return {text: known.get(text, "") for text in texts}


def placeholders(text: str) -> set[str]:
    """Names, with formats, of what is to be filled in."""
    return {
        f"{name}:{form}"
        for _, name, form, _ in string.Formatter().parse(text)
        if name is not None
    }
