"""Puts what is kept aside, whole, so that something else can take its place.

Nothing is deleted and nothing is copied: files are renamed into a folder beside them,
and go back if what comes after fails.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from biofeedback.errors import FileError
from biofeedback.logbook import folders
from biofeedback.logbook.kept_place import ASIDE
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path
    from typing import Self


@dataclass(slots=True)
class PutAside:
    """Moves that are undone unless the block ends well; a context manager.

    Args:
        what: of the name of the folder, such as "restore".

    Attributes:
        folders: into which something was put.
    """

    what: str
    folders: list[Path] = field(default_factory=list)
    _moved: list[tuple[Path, Path]] = field(default_factory=list)
    _placed: list[tuple[Path, Path]] = field(default_factory=list)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, *_rest: object) -> None:
        if kind is None:
            return
        for new, place in reversed(self._placed):
            place.rename(new)
        for old, aside in reversed(self._moved):
            aside.rename(old)
        for folder in self.folders:
            folder.rmdir()

    def take(self, paths: Iterable[Path]) -> None:
        """Puts files and folders aside.

        Raises:
            FileError: one cannot be moved.
        """
        for path in paths:
            if not path.exists():
                continue
            aside = self._folder(path.parent) / path.name
            try:
                path.rename(aside)
            except OSError as error:
                raise _stuck(path, error) from error
            self._moved.append((path, aside))

    def place(self, new: Path, place: Path) -> None:
        """Gives a new file or folder the place of the one that was put aside.

        Raises:
            FileError: it cannot be moved.
        """
        try:
            new.rename(place)
        except OSError as error:
            raise _stuck(place, error) from error
        self._placed.append((new, place))

    def _folder(self, beside: Path) -> Path:
        for known in self.folders:
            if known.parent == beside:
                return known
        stamp = datetime.now(tz=UTC).strftime("%Y%m%dT%H%M%S.%fZ")
        made = folders.make_private(beside / f"{ASIDE}{self.what}-{stamp}")
        self.folders.append(made)
        return made


def _stuck(path: Path, error: OSError) -> FileError:
    return FileError(
        path,
        phrase("this cannot be moved ({reason}).", reason=folders.reason(error)),
        next_step=phrase("Nothing was changed."),
    )
