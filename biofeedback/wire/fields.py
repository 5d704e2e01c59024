"""Reads named, typed and bounded values out of a JSON object.

Nothing from outside is trusted: each read says what it wants, and a value that
does not fit raises `FieldError` with the dotted name of the field. Used for
headers, profiles, prescriptions and plans alike.
"""

from __future__ import annotations

import json
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from enum import Enum

TEXT_MAX = 2000
"""Longest text accepted, in characters: a long note, not a document."""
LIST_MAX = 10_000
"""Longest list accepted: well above any list this program writes."""

EnumT = TypeVar("EnumT", bound="Enum")


@dataclass(frozen=True, slots=True)
class Fields:
    """One JSON object and the dotted name under which it stands.

    Raises (every method): `FieldError` where the value is missing, of another
    type or out of bounds.
    """

    values: Mapping[str, object]
    name: str = ""

    @classmethod
    def of_json(cls, raw: bytes, name: str, *, most_bytes: int) -> Fields:
        """The object that a file holds.

        Args:
            raw: its bytes; one more than `most_bytes` is enough of a longer one.
        """
        if len(raw) > most_bytes:
            raise FieldError(name, phrase("is too long."))
        try:
            content = json.loads(raw)
        except (ValueError, RecursionError) as error:
            raise FieldError(name, phrase("is no JSON.")) from error
        if not isinstance(content, dict):
            raise FieldError(name, phrase("must be a JSON object."))
        return cls(content, name)

    def path(self, key: str) -> str:
        """The dotted name of `key`."""
        return f"{self.name}.{key}" if self.name else key

    def has(self, key: str) -> bool:
        """Whether `key` is there and not null."""
        return self.values.get(key) is not None

    def _value(self, key: str) -> object:
        if key not in self.values:
            raise FieldError(self.path(key), phrase("is missing."))
        return self.values[key]

    def text(self, key: str, *, longest: int = TEXT_MAX) -> str:
        """A text of at most `longest` characters."""
        value = self._value(key)
        if not isinstance(value, str):
            raise FieldError(self.path(key), phrase("must be a text."))
        if len(value) > longest:
            raise FieldError(
                self.path(key),
                phrase("is longer than {longest} characters.", longest=longest),
            )
        return value

    def number(
        self, key: str, *, least: float = -math.inf, most: float = math.inf
    ) -> float:
        """A finite number from `least` to `most`, both included."""
        value = self._value(key)
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise FieldError(self.path(key), phrase("must be a number."))
        try:
            number = float(value)
        except OverflowError:  # a whole number of more than 308 digits
            number = math.inf
        if not math.isfinite(number):
            raise FieldError(self.path(key), phrase("must be a finite number."))
        if not least <= number <= most:
            raise FieldError(
                self.path(key),
                phrase(
                    "is {number:g}; it must be {least:g} to {most:g}.",
                    number=number,
                    least=least,
                    most=most,
                ),
            )
        return number

    def number_or_none(
        self, key: str, *, least: float = -math.inf, most: float = math.inf
    ) -> float | None:
        """The same, or None where `key` is missing or null."""
        return self.number(key, least=least, most=most) if self.has(key) else None

    def whole(self, key: str, *, least: int, most: int) -> int:
        """A whole number from `least` to `most`, both included."""
        value = self._value(key)
        if isinstance(value, bool) or not isinstance(value, int):
            raise FieldError(self.path(key), phrase("must be a whole number."))
        if not least <= value <= most:
            raise FieldError(
                self.path(key),
                phrase(
                    "is {value}; it must be {least} to {most}.",
                    value=value,
                    least=least,
                    most=most,
                ),
            )
        return value

    def flag(self, key: str) -> bool:
        """True or false."""
        value = self._value(key)
        if not isinstance(value, bool):
            raise FieldError(self.path(key), phrase("must be true or false."))
        return value

    def choice(self, key: str, kind: type[EnumT]) -> EnumT:
        """One of the values of an enum."""
        value = self._value(key)
        for member in kind:
            if member.value == value:
                return member
        known = ", ".join(str(member.value) for member in kind)
        raise FieldError(
            self.path(key), phrase("must be one of: {known}.", known=known)
        )

    def inner(self, key: str) -> Fields:
        """A JSON object inside this one."""
        value = self._value(key)
        if not isinstance(value, Mapping):
            raise FieldError(self.path(key), phrase("must be an object."))
        return Fields(value, self.path(key))

    def items(self, key: str, *, most: int = LIST_MAX) -> list[Fields]:
        """A list of JSON objects."""
        objects = []
        for index, value in enumerate(self.sequence(key, most=most)):
            name = f"{self.path(key)}[{index}]"
            if not isinstance(value, Mapping):
                raise FieldError(name, phrase("must be an object."))
            objects.append(Fields(value, name))
        return objects

    def numbers(self, key: str, *, most: int = LIST_MAX) -> tuple[float, ...]:
        """A list of finite numbers."""
        listed = Fields(
            {str(i): v for i, v in enumerate(self.sequence(key, most=most))},
            self.path(key),
        )
        return tuple(listed.number(index) for index in listed.values)

    def sequence(self, key: str, *, most: int = LIST_MAX) -> Sequence[object]:
        """A list of at most `most` values of any kind."""
        value = self._value(key)
        if isinstance(value, str) or not isinstance(value, Sequence):
            raise FieldError(self.path(key), phrase("must be a list."))
        if len(value) > most:
            raise FieldError(
                self.path(key), phrase("has more than {most} entries.", most=most)
            )
        return value
