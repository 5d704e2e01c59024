"""The folder of an export: whole at its end, or not there at all.

Everything is written into a folder beside the target, for its owner alone, and takes
the target's name at the end. Whatever stops the export, Ctrl+C too, takes that folder
away again. Nothing is ever written over: a target with something in it is refused.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import shutil
import tempfile
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import TYPE_CHECKING, Self

from biofeedback.errors import NOTHING, FileError
from biofeedback.logbook import folders
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path
    from types import TracebackType
    from typing import BinaryIO

_CHUNK_BYTES = 1 << 20


@dataclass(frozen=True, slots=True)
class Written:
    """One file of an export.

    Attributes:
        name: relative to the folder, with forward slashes.
    """

    name: str
    size_bytes: int
    sha256: str

    def to_json(self) -> dict[str, object]:
        """As the manifest tells it."""
        return {
            "name": self.name,
            "size_bytes": self.size_bytes,
            "sha256": self.sha256,
        }


class TargetError(FileError):
    """The export itself cannot be written: no use in going on."""


class ExportFolder:
    """A folder in the making; a context manager.

    Args:
        target: is made; may be there when it is empty.

    Raises:
        TargetError: the target is in use, or its place cannot be written to.
    """

    def __init__(self, target: Path) -> None:
        self.target = target
        _refuse_used(target)
        folders.make_private(target.absolute().parent)
        try:
            made = tempfile.mkdtemp(
                prefix=f".{target.name[:40]}-", dir=target.absolute().parent
            )
        except OSError as error:
            raise self._fault("made", error) from error
        self._folder = target.absolute().parent / PurePosixPath(made).name
        self._names: list[str] = []

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        shutil.rmtree(self._folder, ignore_errors=True)

    def path(self, name: str) -> Path:
        """Where a file of this name is while the export is under way."""
        return self._folder.joinpath(*PurePosixPath(name).parts)

    def create(self, name: str) -> BinaryIO:
        """A new file for its owner alone, open for writing.

        Args:
            name: relative to the folder, with forward slashes.

        Raises:
            TargetError: it cannot be made.
        """
        path = self.path(name)
        folders.make_private(path.parent)
        try:
            file = os.fdopen(folders.create_file(path), "wb")
        except OSError as error:
            raise self._fault("made", error) from error
        self._names.append(name)
        return file

    def write(self, name: str, content: bytes) -> None:
        """A small file in one go.

        Raises:
            TargetError: it cannot be made or written.
        """
        with self.create(name) as file, self.faults():
            file.write(content)

    @contextlib.contextmanager
    def trial(self) -> Iterator[None]:
        """Files that are made within are taken away again where it fails."""
        before = len(self._names)
        try:
            yield
        except BaseException:
            for name in self._names[before:]:
                self.path(name).unlink(missing_ok=True)
            del self._names[before:]
            raise

    @contextlib.contextmanager
    def faults(self) -> Iterator[None]:
        """Turns faults of the disk into words that name the target."""
        try:
            yield
        except OSError as error:
            raise self._fault("written", error) from error

    def written(self) -> list[Written]:
        """All files so far, by name, with size and checksum."""
        with self.faults():
            return [self._told(name) for name in sorted(self._names)]

    def finish(self) -> None:
        """Gives the folder its name.

        Raises:
            TargetError: something has come into the target meanwhile.
        """
        _refuse_used(self.target)
        with self.faults():
            if self.target.exists():
                self.target.rmdir()
            self._folder.rename(self.target)

    def _told(self, name: str) -> Written:
        digest = hashlib.sha256()
        size = 0
        with self.path(name).open("rb") as file:
            while chunk := file.read(_CHUNK_BYTES):
                digest.update(chunk)
                size += len(chunk)
        return Written(name, size, digest.hexdigest())

    def _fault(self, what: str, error: OSError) -> TargetError:
        return TargetError(
            self.target,
            phrase(
                "the export cannot be {what} ({reason}).",
                what=what,
                reason=folders.reason(error),
            ),
            next_step=phrase(
                "Make room or choose another folder; nothing was left behind."
            ),
        )


def _refuse_used(target: Path) -> None:
    problem = NOTHING
    try:
        if target.is_symlink():
            problem = phrase("this is a link.")
        elif target.is_dir():
            if any(target.iterdir()):
                problem = phrase("this folder is not empty.")
        elif target.exists():
            problem = phrase("this is a file, and an export is a folder.")
    except OSError as error:
        problem = phrase(
            "this folder cannot be looked into ({reason}).",
            reason=folders.reason(error),
        )
    if problem:
        raise TargetError(target, problem, next_step=phrase("Name a new folder."))
