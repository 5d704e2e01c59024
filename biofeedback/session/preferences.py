"""Preferences: how the program looks, sounds and is operated on this computer.

They belong to the computer and not to the logbook: another practitioner at another
desk has others. One small JSON file in the data folder. A file that cannot be read is
set aside under another name and said, and the program starts with what it ships.
"""

from __future__ import annotations

import json
from dataclasses import dataclass, field, replace
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError, FileError
from biofeedback.logbook import folders
from biofeedback.phrase import phrase
from biofeedback.session.last_folder import PATH_MAX
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

FORMAT = "biofeedback preferences"
VERSION = 1
FILE_NAME = "preferences.json"
BYTES_MAX = 64 * 1024
"""A hundred times what is written; more is no file of ours."""
KEYS_MAX = 200
TEXT_LEAST_PCT = 100
TEXT_MOST_PCT = 200


class Language(Enum):
    """Of the interface."""

    SYSTEM = "system"
    ENGLISH = "en"
    SPANISH = "es"


@dataclass(frozen=True, slots=True)
class Preferences:
    """What is preferred.

    Attributes:
        text_pct: size of all type on the desk and the pages, in % of the usual.
        reduced_motion: the path stands still and turns a page at its end, and
            nothing blinks or slides.
        sound, volume_pct: error tones for who cannot see the screen.
        second_screen: the athlete's screen goes to the second monitor where there
            is one.
        auto_next: the next set begins by itself after its rest.
        backup_folder: the last one that was picked for a backup; empty for none.
        keys: keys that were changed, by name of the action.

    Raises:
        FieldError: names the field that does not fit.
    """

    language: Language = Language.SYSTEM
    text_pct: int = 100
    reduced_motion: bool = False
    night: bool = False
    sound: bool = False
    volume_pct: int = 50
    second_screen: bool = False
    auto_next: bool = False
    backup_folder: str = ""
    keys: Mapping[str, str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if not TEXT_LEAST_PCT <= self.text_pct <= TEXT_MOST_PCT:
            raise FieldError(
                "text_pct",
                phrase(
                    "is {text_pct} %; it must be {text_least_pct} % to "
                    "{text_most_pct} %.",
                    text_pct=self.text_pct,
                    text_least_pct=TEXT_LEAST_PCT,
                    text_most_pct=TEXT_MOST_PCT,
                ),
            )
        if not 0 <= self.volume_pct <= 100:
            raise FieldError("volume_pct", phrase("must be 0 % to 100 %."))
        if len(self.keys) > KEYS_MAX:
            raise FieldError(
                "keys", phrase("has more than {keys_max} entries.", keys_max=KEYS_MAX)
            )

    def with_key(self, action: str, key: str) -> Preferences:
        """Another key for an action; an empty one stands for the usual."""
        keys = {name: old for name, old in self.keys.items() if name != action}
        if key:
            keys[action] = key
        return replace(self, keys=keys)

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "format": FORMAT,
            "version": VERSION,
            "language": self.language.value,
            "text_pct": self.text_pct,
            "reduced_motion": self.reduced_motion,
            "night": self.night,
            "sound": self.sound,
            "volume_pct": self.volume_pct,
            "second_screen": self.second_screen,
            "auto_next": self.auto_next,
            "backup_folder": self.backup_folder,
            "keys": dict(self.keys),
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Preferences:
        """Checks and reads what `to_json` wrote; what is missing is as shipped."""
        if fields.text("format", longest=100) != FORMAT:
            raise FieldError("format", phrase("must be “{format}”.", format=FORMAT))
        version = fields.whole("version", least=1, most=1_000_000)
        if version > VERSION:
            raise FieldError(
                "version",
                phrase(
                    "is {version}, and this program knows {version_2}.",
                    version=version,
                    version_2=VERSION,
                ),
            )
        usual = cls()
        keys = fields.inner("keys") if fields.has("keys") else Fields({})
        if len(keys.values) > KEYS_MAX:
            raise FieldError(
                "keys", phrase("has more than {keys_max} entries.", keys_max=KEYS_MAX)
            )
        return cls(
            language=(
                fields.choice("language", Language)
                if fields.has("language")
                else usual.language
            ),
            text_pct=_whole(fields, "text_pct", usual.text_pct),
            volume_pct=_whole(fields, "volume_pct", usual.volume_pct),
            backup_folder=(
                fields.text("backup_folder", longest=PATH_MAX)
                if fields.has("backup_folder")
                else usual.backup_folder
            ),
            keys={name: keys.text(name, longest=60) for name in keys.values},
            **{
                name: fields.flag(name)
                for name in (
                    "reduced_motion",
                    "night",
                    "sound",
                    "second_screen",
                    "auto_next",
                )
                if fields.has(name)
            },
        )


def _whole(fields: Fields, name: str, usual: int) -> int:
    return fields.whole(name, least=0, most=1000) if fields.has(name) else usual


class PreferenceFile:
    """Reads and writes them.

    Args:
        base: the data folder; made where need be.
    """

    def __init__(self, base: Path) -> None:
        self.path = base / FILE_NAME

    def read(self) -> tuple[Preferences, str]:
        """The preferences, and words where the file had to be set aside."""
        if not self.path.exists():
            return Preferences(), ""
        try:
            return Preferences.from_json(self._fields()), ""
        except (OSError, ValueError, RecursionError, FieldError) as error:
            return Preferences(), self._set_aside(error)

    def _fields(self) -> Fields:
        if self.path.stat().st_size > BYTES_MAX:
            raise FieldError("file", phrase("is far too long."))
        values = json.loads(self.path.read_text(encoding="utf-8"))
        if not isinstance(values, dict):
            raise FieldError("file", phrase("must hold an object."))
        return Fields(values)

    def _set_aside(self, problem: Exception) -> str:
        aside = self.path.with_suffix(".not-read.json")
        try:
            self.path.replace(aside)
        except OSError:
            return phrase(
                "{path}: {problem} The preferences are as shipped.",
                path=self.path,
                problem=problem,
            )
        return phrase(
            "{path}: {problem} The preferences are as shipped; "
            "the file is now {aside_name}.",
            path=self.path,
            problem=problem,
            aside_name=aside.name,
        )

    def write(self, preferences: Preferences) -> None:
        """Puts them on disk, whole or not at all.

        Raises:
            FileError: the folder cannot be written.
        """
        text = json.dumps(preferences.to_json(), indent=2, ensure_ascii=False)
        try:
            folders.make_private(self.path.parent)
            folders.write_whole(self.path, f"{text}\n".encode())
        except OSError as error:
            raise FileError(
                self.path,
                phrase(
                    "the preferences cannot be kept: {reason}.",
                    reason=folders.reason(error),
                ),
            ) from error
