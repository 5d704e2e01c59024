"""The key file: the master key, wrapped twice, beside the logbook.

Once by the passphrase and once by the recovery code. Rules that hold here:

* It is written whole, and what it says is bounded when it is read: a file from
  elsewhere cannot ask for all memory or for an hour.
* A wrong passphrase, a damaged file and one of a newer program are three faults.
* Changing the passphrase wraps the same key anew: nothing that was sealed changes.
"""

from __future__ import annotations

import base64
import json
import os
import unicodedata
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError, FileError, UserError
from biofeedback.logbook import folders
from biofeedback.logbook.sealed import library, recovery_code
from biofeedback.logbook.sealed.master_key import KEY_ID_BYTES, MasterKey
from biofeedback.phrase import Phrase, phrase
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from pathlib import Path

SUFFIX = ".keys.json"
FORMAT = "biofeedback keys"
VERSION = 1
BYTES_MAX = 65_536
"""It takes some 900."""
PASSPHRASE_LEAST = 12
"""Characters. Common practice, no source: four words are longer, a name is shorter."""
PASSPHRASE_MOST = 1000

# Strength of scrypt as the OWASP Password Storage Cheat Sheet has it: 128 MB and, here,
# 0.4 s a guess. What a file may ask for is bounded to 1 GB and some seconds.
SCRYPT_N, SCRYPT_R, SCRYPT_P = 2**17, 8, 1
_N_LEAST, _N_MOST = 2**14, 2**20
_SALT_BYTES = 32


class WrongPassphraseError(UserError):
    """The passphrase, or the recovery code, is not that of this key file."""


@dataclass(frozen=True, slots=True)
class Wrapped:
    """A master key wrapped by a key that was made of a secret.

    Attributes:
        n, r, p: of scrypt; 0 where the secret is a recovery code.
    """

    salt: bytes
    nonce: bytes
    sealed: bytes
    n: int = 0
    r: int = 0
    p: int = 0


@dataclass(frozen=True, slots=True)
class KeyFile:
    """One key file.

    Attributes:
        key_id: of the master key in it.
        sealing: whether new things are sealed; what was sealed opens in any case.
    """

    path: Path
    key_id: bytes
    made_utc: str
    sealing: bool
    by_passphrase: Wrapped
    by_code: Wrapped

    def opened(self, passphrase: str) -> MasterKey:
        """The master key.

        Raises:
            WrongPassphraseError: it is not the passphrase of this file.
        """
        wrapped = self.by_passphrase
        key = _stretched(passphrase, wrapped)
        return self._unwrapped(
            wrapped, key, b"passphrase", phrase("This is not the passphrase.")
        )

    def recovered(self, code: str) -> MasterKey:
        """The master key, by the recovery code.

        Raises:
            WrongPassphraseError: it is another code.
            UserError: it is no recovery code at all.
        """
        key = _from_code(code, self.by_code)
        words = phrase("This is not the recovery code of this logbook.")
        return self._unwrapped(self.by_code, key, b"recovery", words)

    def _unwrapped(
        self, wrapped: Wrapped, key: bytes, way: bytes, words: Phrase
    ) -> MasterKey:
        told = _told(way, self.key_id)
        try:
            secret = library.opened(key, wrapped.nonce, wrapped.sealed, told)
        except library.NotAuthenticError as error:
            raise WrongPassphraseError(words) from error
        return MasterKey(self.key_id, secret)

    def with_passphrase(self, key: MasterKey, passphrase: str) -> KeyFile:
        """The same key under another passphrase.

        Raises:
            UserError: it is too short.
        """
        return replace(self, by_passphrase=_wrapped_by_passphrase(key, passphrase))

    def with_code(self, key: MasterKey, code: str) -> KeyFile:
        """The same key under another recovery code."""
        return replace(self, by_code=_wrapped_by_code(key, code))

    def write(self) -> None:
        """Writes it, in the place of the one that is there.

        Raises:
            FileError: it cannot be written.
        """
        text = json.dumps(self._to_json(), indent=1)
        try:
            folders.write_whole(self.path, f"{text}\n".encode("ascii"))
            folders.sync(self.path.parent)  # before anything is sealed by it
        except OSError as error:
            raise FileError(
                self.path,
                phrase(
                    "the key file cannot be written ({reason}).",
                    reason=folders.reason(error),
                ),
            ) from error

    def _to_json(self) -> dict[str, object]:
        scrypt = self.by_passphrase
        return {
            "format": FORMAT,
            "version": VERSION,
            "key_id": self.key_id.hex(),
            "made_utc": self.made_utc,
            "sealing": self.sealing,
            "passphrase": {
                "made_by": "scrypt",
                "n": scrypt.n,
                "r": scrypt.r,
                "p": scrypt.p,
                **_texts(scrypt),
            },
            "recovery": {"made_by": "hkdf-sha256", **_texts(self.by_code)},
        }


def path_of(logbook: Path) -> Path:
    """Where the key file of a logbook is, be it there or not."""
    return logbook.with_name(logbook.stem + SUFFIX)


def made(path: Path, key: MasterKey, *, passphrase: str, code: str) -> KeyFile:
    """A key file for a new key, not yet written.

    Raises:
        UserError: the passphrase is too short.
    """
    return KeyFile(
        path,
        key.key_id,
        datetime.now(tz=UTC).isoformat(timespec="seconds"),
        sealing=True,
        by_passphrase=_wrapped_by_passphrase(key, passphrase),
        by_code=_wrapped_by_code(key, code),
    )


def check_passphrase(passphrase: str) -> str:
    """The passphrase in the one form in which it is used (NFC, as RFC 8265 has it).

    Raises:
        UserError: it is too short or too long.
    """
    plain = unicodedata.normalize("NFC", passphrase)
    if len(plain.strip()) < PASSPHRASE_LEAST:
        raise UserError(
            phrase(
                "The passphrase is shorter than {least} characters.",
                least=PASSPHRASE_LEAST,
            ),
            phrase("Take four words or more that do not belong together."),
        )
    if len(plain) > PASSPHRASE_MOST:
        raise UserError(
            phrase(
                "The passphrase is longer than {most} characters.", most=PASSPHRASE_MOST
            )
        )
    return plain


def read(path: Path) -> KeyFile:
    """Reads a key file.

    Raises:
        FileError: it cannot be read, is none, or is of a newer program.
    """
    try:
        with path.open("rb") as file:
            raw = file.read(BYTES_MAX + 1)
    except OSError as error:
        raise FileError(
            path,
            phrase(
                "the key file cannot be read ({reason}).", reason=folders.reason(error)
            ),
            next_step=phrase("Put it back from a backup: nothing opens without it."),
        ) from error
    try:
        fields = Fields.of_json(raw, "keys", most_bytes=BYTES_MAX)
        return _from_json(path, fields)
    except (ValueError, FieldError) as error:
        raise FileError(
            path,
            phrase("this is not a key file, or it is damaged: {error}", error=error),
            next_step=phrase("Put it back from a backup: nothing opens without it."),
        ) from error


def _from_json(path: Path, fields: Fields) -> KeyFile:
    if fields.text("format", longest=100) != FORMAT:
        raise FieldError("keys.format", phrase("must be “{format}”.", format=FORMAT))
    if fields.whole("version", least=1, most=1_000_000) > VERSION:
        raise FileError(
            path,
            phrase("this key file was written by a newer version of the program."),
            next_step=phrase("Install the newer version."),
        )
    key_id = bytes.fromhex(fields.text("key_id", longest=2 * KEY_ID_BYTES))
    if len(key_id) != KEY_ID_BYTES:
        raise FieldError("keys.key_id", phrase("must be 16 hexadecimal digits."))
    scrypt = fields.inner("passphrase")
    n = scrypt.whole("n", least=_N_LEAST, most=_N_MOST)
    if n & (n - 1):
        raise FieldError("keys.passphrase.n", phrase("must be a power of two."))
    wrapped = replace(
        _wrapped(scrypt),
        n=n,
        r=scrypt.whole("r", least=8, most=8),
        p=scrypt.whole("p", least=1, most=4),
    )
    return KeyFile(
        path,
        key_id,
        fields.text("made_utc", longest=40),
        sealing=fields.flag("sealing"),
        by_passphrase=wrapped,
        by_code=_wrapped(fields.inner("recovery")),
    )


def _wrapped(fields: Fields) -> Wrapped:
    return Wrapped(
        _bytes(fields, "salt", _SALT_BYTES),
        _bytes(fields, "nonce", library.NONCE_BYTES),
        _bytes(fields, "wrapped", library.KEY_BYTES + library.TAG_BYTES),
    )


def _bytes(fields: Fields, name: str, size: int) -> bytes:
    told = base64.b64decode(fields.text(name, longest=200), validate=True)
    if len(told) != size:
        raise FieldError(fields.path(name), phrase("must be {size} bytes.", size=size))
    return told


def _texts(wrapped: Wrapped) -> dict[str, str]:
    return {
        "salt": base64.b64encode(wrapped.salt).decode("ascii"),
        "nonce": base64.b64encode(wrapped.nonce).decode("ascii"),
        "wrapped": base64.b64encode(wrapped.sealed).decode("ascii"),
    }


def _told(way: bytes, key_id: bytes) -> bytes:
    return b"biofeedback keys 1 " + way + b" " + key_id


def _new() -> Wrapped:
    return Wrapped(os.urandom(_SALT_BYTES), os.urandom(library.NONCE_BYTES), b"")


def _wrapped_by_passphrase(key: MasterKey, passphrase: str) -> Wrapped:
    new = replace(_new(), n=SCRYPT_N, r=SCRYPT_R, p=SCRYPT_P)
    outer = _stretched(check_passphrase(passphrase), new)
    return _sealed(key, outer, b"passphrase", new)


def _wrapped_by_code(key: MasterKey, code: str) -> Wrapped:
    new = _new()
    return _sealed(key, _from_code(code, new), b"recovery", new)


def _sealed(key: MasterKey, outer: bytes, way: bytes, new: Wrapped) -> Wrapped:
    told = _told(way, key.key_id)
    sealed = library.cipher(outer).encrypt(new.nonce, key.secret, told)
    return replace(new, sealed=sealed)


def _stretched(passphrase: str, wrapped: Wrapped) -> bytes:
    plain = unicodedata.normalize("NFC", passphrase).encode()
    return library.stretched(
        plain, salt=wrapped.salt, n=wrapped.n, r=wrapped.r, p=wrapped.p
    )


def _from_code(code: str, wrapped: Wrapped) -> bytes:
    return library.derived(
        recovery_code.read(code),
        salt=wrapped.salt,
        purpose=b"biofeedback recovery code 1",
        size=library.KEY_BYTES,
    )
