"""Traces: where a code or a name of an athlete still stands in files.

Rules that hold here:

* A file is read as what it is: a recording frame by frame, since its framing may split
  a word; a logbook row by row and then byte by byte, free pages and all; anything else
  as bytes. Its name counts too. What is sealed is opened first; where that cannot be,
  it is told and not taken for clean.
* A code is looked for as a word of its own: A-1 is not found in A-10, nor a code in a
  key or a time. Where a code is short or a number, bytes of a logbook say nothing by
  chance alone, and only its rows are searched for it.
* A name is looked for whole, whatever its capitals and spaces. A part of it, such as a
  first name in a note, is found by nobody but a reader.
"""

from __future__ import annotations

import json
import re
import sqlite3
import unicodedata
from collections.abc import Mapping
from contextlib import closing
from typing import TYPE_CHECKING

from biofeedback.errors import FileError
from biofeedback.logbook import folders, recordings
from biofeedback.logbook.recording_format import SUFFIX
from biofeedback.logbook.sealed import columns, reading
from biofeedback.phrase import Phrase, joined, phrase
from biofeedback.wire.frames import Close, Event, Header

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

RAW_LEAST = 4
"""Characters of a code that is looked for in the bytes of a logbook."""
NAME_LEAST = 2
CHUNK_BYTES = 1 << 20
OVERLAP_BYTES = 1 << 12
"""Chunks of a file overlap by more than the longest name takes."""
SQLITE = b"SQLite format 3\0"

# Keys and times hold letters and figures that mean nobody.
_NEUTRAL = re.compile(
    r"[0-9a-f]{8}-(?:[0-9a-f]{4}-){3}[0-9a-f]{12}"
    r"|\d{4}-\d\d-\d\d[T ]\d\d:\d\d:\d\d(?:\.\d+)?"
)


class Traces:
    """Looks for one athlete.

    Args:
        code: whatever its capitals.
        names: under which this athlete is or was known; empty ones are left out.
        other_codes: of athletes who stay; one may hold the code as a part.
    """

    def __init__(
        self, code: str, names: Iterable[str], *, other_codes: Iterable[str] = ()
    ) -> None:
        word = rf"(?<![A-Za-z0-9-]){re.escape(code)}(?![A-Za-z0-9-])"
        plain = {" ".join(_nfc(name).split()) for name in names}
        self._names = sorted(name for name in plain if len(name) >= NAME_LEAST)
        each = [word, *(rf"(?<!\w){_spaced(name)}(?!\w)" for name in self._names)]
        self._text = re.compile("|".join(each), re.IGNORECASE)
        told = code if len(code) >= RAW_LEAST and not code.isdecimal() else ""
        self._raw = _raw_pattern(told, self._names)
        longer = [other for other in other_codes if told and told in other]
        self._longer = _raw_pattern("", longer) if longer else None

    def cleaned(self, text: str) -> str:
        """The text with every trace taken out."""
        return self._text.sub("(erased)", _nfc(text))

    def in_text(self, text: str) -> bool:
        """Whether the code or a name stands in a text."""
        return self._text.search(_NEUTRAL.sub(" ", _nfc(text))) is not None

    def in_value(self, value: object) -> bool:
        """Whether it stands in a JSON value, at any depth."""
        if isinstance(value, str):
            return self.in_text(value)
        if isinstance(value, Mapping):
            return any(self.in_text(k) or self.in_value(v) for k, v in value.items())
        if isinstance(value, list | tuple):
            return any(map(self.in_value, value))
        return False

    def in_file(self, path: Path) -> list[Phrase]:
        """Where it stands in a file or its name, in words; empty where nowhere.

        Raises:
            FileError: the file cannot be read.
        """
        named = phrase("{path}: its name", path=path)
        found = [named] if self.in_text(path.name) else []
        try:
            with path.open("rb") as file:
                head = file.read(len(SQLITE))
        except OSError as error:
            raise FileError(
                path,
                phrase(
                    "the file cannot be read ({reason}).", reason=folders.reason(error)
                ),
            ) from error
        if head == SQLITE:
            return found + self._in_logbook(path)
        if path.suffix == SUFFIX and self._in_recording(path):
            return [*found, phrase("{path}: what was told in it", path=path)]
        if path.suffix != SUFFIX and self._in_bytes(path):
            return [*found, joined("", (f"{path}",))]
        return found

    def _in_recording(self, path: Path) -> bool:
        try:
            frames = recordings.read(path).frames()
            return any(
                self.in_value(frame.content)
                for frame in frames
                if isinstance(frame, Header | Event | Close)
            )
        except FileError:
            if reading.is_sealed(path):
                raise  # its bytes say nothing
            return self._in_bytes(path)  # no recording, whatever its name says

    def _in_bytes(self, path: Path) -> bool:
        return any(
            self.in_text(part.decode("utf-8", "replace"))
            or self.in_text(_unescaped(part))
            for part in _parts(path)
        )

    def _in_logbook(self, path: Path) -> list[Phrase]:
        found = []
        try:
            uri = f"{path.as_uri()}?mode=ro"
            with closing(sqlite3.connect(uri, uri=True)) as raw:
                tables = "SELECT name FROM sqlite_master WHERE type = 'table'"
                for (table,) in raw.execute(tables).fetchall():
                    found += self._in_table(path, raw, table)
        except sqlite3.Error as error:
            raise FileError(
                path,
                phrase("the logbook cannot be read ({reason}).", reason=str(error)),
            ) from error
        if not found and self._raw is not None:
            for part in _parts(path):
                bare = self._longer.sub(b" ", part) if self._longer else part
                if self._raw.search(bare):
                    found.append(phrase("{path}: bytes outside its rows", path=path))
                    break
        return found

    def _in_table(
        self, path: Path, raw: sqlite3.Connection, table: str
    ) -> list[Phrase]:
        hits: dict[str, int] = {}
        answer = raw.execute(f'SELECT * FROM "{table}"')  # noqa: S608  a name it gave
        names = [column[0] for column in answer.description]
        for row in answer:
            for column, cell in zip(names, row, strict=True):
                if not isinstance(cell, str):
                    continue
                plain = columns.told(cell, f"{table}.{column}", path)
                if self.in_value(_json_or_text(plain)):
                    hits[column] = hits.get(column, 0) + 1
        return [
            phrase(
                "{path}: {count} of {column}",
                path=path,
                count=count,
                column=f"{table}.{column}",
            )
            for column, count in hits.items()
        ]


def _json_or_text(cell: str) -> object:
    if cell[:1] in '{["':
        try:
            return json.loads(cell)
        except (ValueError, RecursionError):
            return cell
    return cell


def _raw_pattern(code: str, names: Iterable[str]) -> re.Pattern[bytes] | None:
    """The bytes of a code, and of names as text and within JSON."""
    words = {code.encode()} if code else set()
    for name in names:
        for form in ("NFC", "NFD"):
            text = unicodedata.normalize(form, name)
            words |= {text.encode(), json.dumps(text)[1:-1].encode()}
    if not words:
        return None
    return re.compile(b"|".join(map(re.escape, sorted(words))))


def _spaced(name: str) -> str:
    return r"\s+".join(map(re.escape, name.split()))


def _nfc(text: str) -> str:
    return unicodedata.normalize("NFC", text)


def _unescaped(part: bytes) -> str:
    r"""Text with JSON's \u00e9 turned into what they stand for."""
    text = part.decode("latin-1")
    return re.sub(r"\\u([0-9a-f]{4})", lambda found: chr(int(found[1], 16)), text)


def _parts(path: Path) -> Iterator[bytes]:
    """The file in chunks, each with the end of the one before it."""
    before = b""
    try:
        with path.open("rb") as file:
            while chunk := file.read(CHUNK_BYTES):
                yield before + chunk
                before = chunk[-OVERLAP_BYTES:]
    except OSError as error:
        raise FileError(
            path,
            phrase("the file cannot be read ({reason}).", reason=folders.reason(error)),
        ) from error
