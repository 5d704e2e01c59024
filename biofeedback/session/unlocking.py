"""A sealed logbook before it is opened: who types the passphrase gets in.

Nothing of the logbook is read here. What is wrong with the key file is told before
anybody has typed anything.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.errors import NOTHING, UserError
from biofeedback.logbook.sealed import keyring, library, lock
from biofeedback.logbook.sealed.key_file import WrongPassphraseError

if TYPE_CHECKING:
    from biofeedback.errors import BiofeedbackError
    from biofeedback.logbook.sealed.key_file import KeyFile
    from biofeedback.phrase import Phrase


@dataclass(frozen=True, slots=True)
class Unlocking:
    """A sealed logbook that waits for its passphrase.

    Attributes:
        logbook: the file.
        fault: why no passphrase opens it; None where one does.
    """

    logbook: Path
    fault: BiofeedbackError | None
    _found: KeyFile | None

    @property
    def problem(self) -> Phrase:
        """The fault in words; empty where there is none."""
        return self.fault.words if self.fault is not None else NOTHING

    def tried(self, passphrase: str) -> Phrase:
        """Opens it; empty where that went well, else why not.

        It takes about half a second, so that nobody can try many.
        """
        if self._found is None:
            return self.problem
        try:
            keyring.hold([self._found.opened(passphrase)])
        except WrongPassphraseError as error:
            return error.message
        return NOTHING


def unlocking(logbook: str | Path) -> Unlocking | None:
    """What stands before a logbook; None where it opens by itself.

    Args:
        logbook: a path, or the URL of a database, which is never sealed.
    """
    if "://" in str(logbook):
        return None
    path = Path(logbook).expanduser().absolute()
    try:
        found = lock.sealing(path)
        if found is None:
            gone = path.exists() and lock.says_sealed(path) and not lock.has_keys(path)
            return Unlocking(path, lock.missing(path), None) if gone else None
        library.require()
        lock.refuse_another_key(path)
    except UserError as error:
        return Unlocking(path, error, None)
    held = {key.key_id for key in keyring.held()}
    return None if found.key_id in held else Unlocking(path, None, found)
