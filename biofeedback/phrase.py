"""Words for people that can still be put into another language.

A `Phrase` is the English text, and remembers the template and the values it was made
of. Recordings, logs, exports and the command line take it as the string it is; the
window translates the template and fills the values in anew. Rules:

* the template is a literal in the call, or no tool can find it for the catalogue;
* placeholders have names, and each value has one, numbers with their format;
* a sentence is one template. Words that are glued together by ``join`` or an f-string
  are plain text again and stay English; ``+``, `joined` and `sentences` keep them
  phrases.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping


class Phrase(str):
    """A text in English that knows what it was made of.

    Equal to, and hashed as, the text.

    Attributes:
        template: as it was written, with placeholders in braces.
        values: what stands in for the placeholders: phrases, texts and numbers.
    """

    __slots__ = ("template", "values")
    template: str
    values: Mapping[str, object]

    def __new__(cls, template: str, values: Mapping[str, object]) -> Phrase:
        """Fills the values in."""
        made = super().__new__(cls, template.format(**values))
        made.template = template
        made.values = values
        return made

    def __str__(self) -> Phrase:
        return self  # and no plain copy, as `str` would make

    def __add__(self, other: str) -> Phrase:
        return joined("", (self, other))

    def __radd__(self, other: str) -> Phrase:
        return joined("", (other, self))

    def __getnewargs__(self) -> tuple[str, Mapping[str, object]]:  # type: ignore[override]  # as __new__ wants them
        return self.template, self.values


def phrase(template: str, /, **values: object) -> Phrase:
    """A phrase; the template must be a literal.

    Args:
        values: by the names in the template. What has a format there, such as
            ``{force_n:.0f}``, is a number.
    """
    return Phrase(template, values)


def numbered(count: int, one: str, many: str, /, **values: object) -> Phrase:
    """One of two literals: for one, and for any other number.

    English and Spanish do with these two forms.

    Args:
        count: ``{count}`` in the templates.
    """
    return Phrase(one if count == 1 else many, {"count": count, **values})


def marked(template: str, /) -> str:
    """A literal for the catalogue whose values come later, or that a table holds."""
    return template


def joined(separator: str, parts: Iterable[str]) -> Phrase:
    """Parts one after the other, each of which may be a phrase; none is left out."""
    values = {f"part_{index}": part for index, part in enumerate(parts)}
    between = separator.replace("{", "{{").replace("}", "}}")
    return Phrase(between.join(f"{{{name}}}" for name in values), values)


def listed(parts: Iterable[str]) -> Phrase:
    """``left``, ``left and right``, ``left, right and cell 3``."""
    *first, last = parts
    if not first:
        return joined("", (last,))
    return phrase("{parts} and {last}", parts=joined(", ", first), last=last)


def sentences(*parts: str) -> Phrase:
    """Sentences with a blank between them; empty ones are left out."""
    return joined(" ", filter(None, parts))
