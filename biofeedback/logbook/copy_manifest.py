"""The manifest of a backup: which files are in it, how long, and their checksums.

A file in a backup is named relative to its folder, with forward slashes. Only names
that the program itself gives are read: no name can lead out of the folder.

Where a file takes the place of an earlier one, it lies beside it first. The manifest
says so: to write it is the one step by which a backup becomes the next. `settle` gives
such files their names then; cut off, it is gone on with, and until then they are read
where they lie.
"""

from __future__ import annotations

import hashlib
import json
import re
from dataclasses import dataclass, field, replace
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

COMING = ".{name}.coming"
"""How a file is called that is to take the place of an earlier one."""
_STRAYS = (".*.coming", ".copy-*", ".logbook-*", f".{FILE}.*")
"""What a backup that was killed leaves, as no file of a backup is called."""

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
        coming: whether it may lie beside its place still; see `COMING`.
    """

    size_bytes: int
    sha256: str
    source_bytes: int
    source_ns: int
    coming: bool = False

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "size_bytes": self.size_bytes,
            "sha256": self.sha256,
            "source_bytes": self.source_bytes,
            "source_ns": self.source_ns,
            **({"coming": True} if self.coming else {}),
        }


@dataclass(frozen=True, slots=True)
class CopyManifest:
    """What is in a backup.

    Attributes:
        made_utc: ISO time at which it was last brought up to date.
        files: by name.
        leaving: files of the one before that are still to be taken away.
    """

    made_utc: str
    files: Mapping[str, CopiedFile] = field(default_factory=dict)
    leaving: tuple[str, ...] = ()

    def path(self, folder: Path, name: str) -> Path:
        """Where a file of this backup lies now."""
        place = folder / name
        beside = coming(place)
        return beside if self.files[name].coming and beside.exists() else place

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
            **({"leaving": list(self.leaving)} if self.leaving else {}),
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
        _check_name("files", name)
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
            coming=one.has("coming") and one.flag("coming"),
        )
    names = fields.sequence("leaving", most=BYTES_MAX) if fields.has("leaving") else ()
    leaving = tuple(_check_name("leaving", str(one)) for one in names)
    return CopyManifest(fields.text("made_utc", longest=40), files, leaving)


def _check_name(key: str, name: str) -> str:
    if not _NAME.fullmatch(name) or name.endswith(("/.", "/..")):
        raise FieldError(key, phrase("“{name}” is no file of a backup.", name=name))
    return name


def coming(place: Path) -> Path:
    """Where a file lies that is to take the place of an earlier one."""
    return place.with_name(COMING.format(name=place.name))


def settle(folder: Path) -> CopyManifest:
    """Ends what a backup that was cut off has left: each file has its own name then.

    Raises:
        FileError: it is no backup of ours, or cannot be written.
    """
    found = read(folder)
    try:
        for name, one in found.files.items():
            beside = coming(folder / name)
            if one.coming and beside.exists():
                beside.replace(folder / name)
        for name in found.leaving:
            (folder / name).unlink(missing_ok=True)
        files = {name: replace(one, coming=False) for name, one in found.files.items()}
        settled = CopyManifest(found.made_utc, files)
        if settled != found:
            settled.write(folder)
        for place in (folder, folder / RECORDINGS):
            for pattern in _STRAYS:
                for stray in place.glob(pattern):
                    stray.unlink()
    except OSError as error:
        raise folders.not_written(folder, error) from error
    return settled


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
