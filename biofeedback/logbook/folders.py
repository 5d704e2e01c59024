"""Where things are kept, and who may read them.

A folder that is made here is for its owner alone (0700), and so is a file (0600).
Folders that were there before are left as they are: a practice may share one on
purpose. Windows ignores these bits; there the user's own profile folder protects.
"""

from __future__ import annotations

import contextlib
import errno
import os
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

import platformdirs

from biofeedback.errors import FileError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import BinaryIO

OWNER_ONLY_FOLDER = 0o700
OWNER_ONLY_FILE = 0o600


def data_folder() -> Path:
    """The user's data folder for this program, as each system has it."""
    return platformdirs.user_data_path("biofeedback", appauthor=False)


def default_logbook(base: Path | None = None) -> Path:
    """Where the logbook is, unless another place is asked for.

    Args:
        base: None for the data folder.
    """
    return (base or data_folder()) / "logbook.db"


def default_recordings(base: Path | None = None) -> Path:
    """Where recordings are, unless another place is asked for; `base` likewise."""
    return (base or data_folder()) / "recordings"


def absolute(path: str | Path) -> Path:
    """The whole path, where links lead.

    Raises:
        FileError: a link leads nowhere.
    """
    try:
        return Path(path).expanduser().resolve()
    except (OSError, RuntimeError) as error:
        raise FileError(path, phrase("this path leads nowhere.")) from error


def make_private(folder: Path) -> Path:
    """Makes the folder, and those above it, for their owner alone.

    Raises:
        FileError: it cannot be made, or a file stands in its way.
    """
    missing = []
    place = folder
    try:
        while not place.exists() and place != place.parent:
            missing.append(place)
            place = place.parent
        for part in reversed(missing):
            # Not by mkdir(parents=True): that gives the mode to the last one only.
            part.mkdir(mode=OWNER_ONLY_FOLDER, exist_ok=True)
        if not folder.is_dir():
            raise NotADirectoryError(20, "Not a directory")
    except OSError as error:
        raise FileError(
            folder,
            phrase("this folder cannot be made ({reason}).", reason=reason(error)),
            next_step=phrase("Choose another place."),
        ) from error
    return folder


def create_file(path: Path, *, readable: bool = False) -> int:
    """Creates a file for its owner alone, never over one that is there.

    Args:
        readable: it is also to be read through the descriptor.

    Returns:
        The open descriptor, for writing at the end of the file.

    Raises:
        FileExistsError: there is one already.
        OSError: it cannot be made.
    """
    flags = os.O_CREAT | os.O_EXCL | os.O_APPEND
    flags |= os.O_RDWR if readable else os.O_WRONLY
    flags |= getattr(os, "O_BINARY", 0)  # Windows would change line ends
    return os.open(path, flags, OWNER_ONLY_FILE)


def sync(folder: Path) -> None:
    """Has the names in a folder put on the disk; Windows does so by itself.

    Raises:
        OSError: the disk does not take it.
    """
    if os.name != "posix":
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


@contextlib.contextmanager
def whole_file(path: Path) -> Iterator[BinaryIO]:
    """A new file for its owner alone, written whole or not left at all.

    Raises:
        FileError: there is one already, or it cannot be made or written.
    """
    try:
        descriptor = create_file(path)
    except FileExistsError as error:
        raise FileError(
            path,
            phrase("this file is there already."),
            next_step=phrase("Choose another name."),
        ) from error
    except OSError as error:
        raise FileError(
            path, phrase("the file cannot be made ({reason}).", reason=reason(error))
        ) from error
    try:
        with os.fdopen(descriptor, "wb") as file:
            yield file
    except OSError as error:
        path.unlink(missing_ok=True)
        raise not_written(path, error) from error
    except BaseException:
        path.unlink(missing_ok=True)
        raise


def write_whole(path: Path, content: bytes) -> None:
    """Writes a file for its owner alone, whole or not at all.

    A file that is there is replaced; where the new one cannot be written it stays.

    Raises:
        OSError: it cannot be written.
    """
    descriptor, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    new = Path(name)
    try:
        with os.fdopen(descriptor, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        new.replace(path)
    finally:
        new.unlink(missing_ok=True)


_REASONS = {
    errno.EACCES: phrase("permission denied"),
    errno.EPERM: phrase("operation not permitted"),
    errno.ENOENT: phrase("no such file or directory"),
    errno.ENOTDIR: phrase("not a directory"),
    errno.EISDIR: phrase("is a directory"),
    errno.EEXIST: phrase("file exists"),
    errno.ENOSPC: phrase("no space left on device"),
    errno.EROFS: phrase("read-only file system"),
    errno.EIO: phrase("input/output error"),
    errno.ENODEV: phrase("no such device"),
    errno.ENAMETOOLONG: phrase("file name too long"),
    errno.EFBIG: phrase("file too large"),
    errno.EDQUOT: phrase("disk quota exceeded"),
}
"""What the system often says, so that it can be said in another language."""


def not_written(path: Path, error: OSError) -> FileError:
    """The fault that a file cannot be written, in words."""
    return FileError(
        path, phrase("the file cannot be written ({reason}).", reason=reason(error))
    )


def reason(error: OSError) -> str:
    """The system's words for a fault, without number and path."""
    known = _REASONS.get(error.errno or 0)
    if known is not None:
        return known
    words = error.strerror or str(error)
    return words[:1].lower() + words[1:]
