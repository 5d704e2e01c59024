"""The keyring: which master keys this process holds, and who is asked for others.

What is sealed names its key. Whoever opens it asks here, and knows neither passphrase
nor where a key file is. Rules that hold here:

* A key is held until the process ends, and goes nowhere but to child processes that
  open recordings for it.
* At most one question for a key file: who could not answer is not asked again.
"""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

from biofeedback.errors import FileError, UserError
from biofeedback.logbook import folders
from biofeedback.logbook.sealed import key_file, library, texts
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator
    from pathlib import Path
    from typing import TypeAlias

    from biofeedback.logbook.sealed.key_file import KeyFile
    from biofeedback.logbook.sealed.master_key import MasterKey

    Ask: TypeAlias = Callable[[KeyFile], MasterKey]

_lock = threading.RLock()
_held: dict[bytes, MasterKey] = {}
_places: list[Path] = []
_ask: list[Ask] = []
_refused: dict[bytes, FileError] = {}


def hold(keys: Iterable[MasterKey]) -> None:
    """Keeps keys from now on."""
    with _lock:
        _held.update({key.key_id: key for key in keys})


def held() -> tuple[MasterKey, ...]:
    """All that are held, for a child process."""
    with _lock:
        return tuple(_held.values())


def forget() -> None:
    """Lets go of all keys, and asks nobody any more."""
    with _lock:
        _held.clear()
        _places.clear()
        _ask.clear()
        _refused.clear()
    texts.forget()
    library.cipher.cache_clear()


def ask_by(ask: Ask | None) -> None:
    """Who is asked for a key that is not held; nobody, at the beginning.

    Args:
        ask: gives the key of a key file, or raises a `UserError`.
    """
    with _lock:
        _ask[:] = [ask] if ask is not None else []
        _refused.clear()


def look_in(folder: Path) -> None:
    """Looks for key files in this folder too."""
    with _lock:
        _places.append(folder)


def key_of(found: KeyFile) -> MasterKey:
    """The key of a key file.

    Raises:
        FileError: nobody can be asked, or the answer was not right.
    """
    with _lock:
        known = _held.get(found.key_id)
        if known is None:
            known = _asked(found)
            _held[known.key_id] = known
        return known


def key_for(key_id: bytes, sealed: Path) -> MasterKey:
    """The key that something was sealed by.

    Args:
        sealed: the file it stands in; key files are looked for beside it, a folder
            above, and in the data folder.

    Raises:
        FileError: the key file is not found, nobody can be asked, or the answer was
            not right.
    """
    with _lock:
        if key_id in _held:
            return _held[key_id]
        for found in _near(sealed):
            if found.key_id == key_id:
                return key_of(found)
    raise FileError(
        sealed,
        phrase(
            "this is sealed, and the file with its key ({key_id}) is not here.",
            key_id=key_id.hex(),
        ),
        next_step=phrase("Name its logbook, or put the key file back from a backup."),
    )


def _near(sealed: Path) -> Iterator[KeyFile]:
    folder = folders.absolute(sealed).parent
    for place in dict.fromkeys(
        (folder, folder.parent, *_places, folders.data_folder())
    ):
        for path in sorted(place.glob(f"*{key_file.SUFFIX}")):
            try:
                yield key_file.read(path)
            except FileError:
                continue  # the one that is needed is told as missing


def _asked(found: KeyFile) -> MasterKey:
    if not _ask:
        raise FileError(
            found.path,
            phrase("the passphrase of this key file was not given yet."),
            next_step=phrase(
                "Start again and type it, or name a file that holds it: "
                "--passphrase-file FILE"
            ),
        )
    if found.key_id in _refused:
        raise _refused[found.key_id]
    try:
        return _ask[0](found)
    except FileError as error:
        fault = error
    except UserError as error:
        # Whoever reads many files goes on after a fault of one.
        fault = FileError(found.path, error.message, next_step=error.next_step)
    _refused[found.key_id] = fault
    raise fault
