"""The manifest of a backup: which files are in it, how long, and their checksums.

A file in a backup is named relative to its folder, with forward slashes. Only names
that the program itself gives are read: no name can lead out of the folder.
"""

from __future__ import annotations

import hashlib
import json
import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from biofeedback import __version__
from biofeedback.errors import FieldError, FileError
from biofeedback.logbook import folders
from biofeedback.phrase import phrase
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

FILE = "manifest.json"
FORMAT = "biofeedback backup"
VERSION = 1
LOGBOOK = "logbook.db"
PREFERENCES = "preferences.json"
KEYS = "logbook.keys.json"
"""Of a sealed logbook; nothing in the backup opens without it."""
RECORDINGS = "recordings"
BYTES_MAX = 64 * 2**20
"""A quarter of a million recordings; more is no manifest of ours."""
CHUNK_BYTES = 1 << 20

_NAME = re.compile(
    r"logbook\.db|logbook\.keys\.json|preferences\.json|recordings/[^/\\\x00]{1,255}"
)
_SHA256 = re.compile(r"[0-9a-f]{64}")


@dataclass(frozen=True, slots=True)
class CopiedFile:
    """One file of a backup.

    Attributes:
        source_bytes, source_ns: length and time of change of what it was copied from,
            by which the next backup tells whether to copy it again.
    """

    size_bytes: int
    sha256: str
    source_bytes: int
    source_ns: int

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "size_bytes": self.size_bytes,
            "sha256": self.sha256,
            "source_bytes": self.source_bytes,
            "source_ns": self.source_ns,
        }


@dataclass(frozen=True, slots=True)
class CopyManifest:
    """What is in a backup.

    Attributes:
        made_utc: ISO time at which it was last brought up to date.
        files: by name.
    """

    made_utc: str
    files: Mapping[str, CopiedFile] = field(default_factory=dict)

    def write(self, folder: Path) -> None:
        """Writes it, in the place of the one that is there.

        Raises:
            OSError: it cannot be written.
        """
        content = {
            "format": FORMAT,
            "version": VERSION,
            "software": f"biofeedback {__version__}",
            "made_utc": self.made_utc,
            "files": {name: one.to_json() for name, one in sorted(self.files.items())},
        }
        text = json.dumps(content, ensure_ascii=False, indent=1, allow_nan=False)
        folders.write_whole(folder / FILE, f"{text}\n".encode())


def read(folder: Path) -> CopyManifest:
    """The manifest of a backup.

    Raises:
        FileError: there is none, or it is not one of ours.
    """
    path = folder / FILE
    try:
        with path.open("rb") as file:
            raw = file.read(BYTES_MAX + 1)
    except FileNotFoundError as error:
        raise FileError(
            folder, phrase("this is not a backup: it has no manifest.")
        ) from error
    except OSError as error:
        raise FileError(
            path,
            phrase(
                "the manifest cannot be read ({reason}).", reason=folders.reason(error)
            ),
        ) from error
    try:
        fields = Fields.of_json(raw, "manifest", most_bytes=BYTES_MAX)
        return _from_json(path, fields)
    except FieldError as error:
        raise FileError(
            path, phrase("this is not the manifest of a backup: {error}", error=error)
        ) from error


def _from_json(path: Path, fields: Fields) -> CopyManifest:
    if fields.text("format", longest=100) != FORMAT:
        raise FieldError("format", phrase("must be “{format}”.", format=FORMAT))
    if fields.whole("version", least=1, most=1_000_000) > VERSION:
        raise FileError(
            path,
            phrase("this backup was made by a newer version of the program."),
            next_step=phrase("Install the newer version."),
        )
    files = {}
    inner = fields.inner("files")
    for name in inner.values:
        if not _NAME.fullmatch(name) or name.endswith(("/.", "/..")):
            raise FieldError(
                "files", phrase("“{name}” is no file of a backup.", name=name)
            )
        one = inner.inner(name)
        sha256 = one.text("sha256", longest=64)
        if not _SHA256.fullmatch(sha256):
            raise FieldError(
                f"files.{name}.sha256", phrase("must be 64 hexadecimal digits.")
            )
        most = 2**62
        files[name] = CopiedFile(
            one.whole("size_bytes", least=0, most=most),
            sha256,
            one.whole("source_bytes", least=0, most=most),
            one.whole("source_ns", least=-most, most=most),
        )
    return CopyManifest(fields.text("made_utc", longest=40), files)


def checksum(path: Path) -> tuple[int, str]:
    """Length in bytes and SHA-256 of a file.

    Raises:
        OSError: it cannot be read.
    """
    digest = hashlib.sha256()
    size = 0
    with path.open("rb") as file:
        while chunk := file.read(CHUNK_BYTES):
            digest.update(chunk)
            size += len(chunk)
    return size, digest.hexdigest()
