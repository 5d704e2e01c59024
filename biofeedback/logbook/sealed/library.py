"""The way to the library that encrypts; an optional package.

Only what is in use all over the world is used: AES-256-GCM, HKDF and HMAC with
SHA-256, scrypt. Nothing here invents a cipher or a mode.
"""

from __future__ import annotations

import hashlib
import hmac
from functools import lru_cache
from typing import TYPE_CHECKING

from biofeedback.errors import UserError
from biofeedback.missing_package import install_with
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from cryptography.hazmat.primitives.ciphers.aead import AESGCM

KEY_BYTES = 32
NONCE_BYTES = 12
TAG_BYTES = 16


class NotAuthenticError(Exception):
    """What was to be opened is damaged, or the key is another; stays in here."""


@lru_cache(maxsize=64)
def cipher(key: bytes) -> AESGCM:
    """AES-256-GCM under a key.

    Raises:
        UserError: the library is not installed.
    """
    try:
        from cryptography.hazmat.primitives.ciphers.aead import AESGCM  # noqa: PLC0415
    except ImportError as error:
        raise UserError(
            phrase("Sealing and opening need a package that is not installed."),
            install_with("cryptography"),
        ) from error
    return AESGCM(key)


def require() -> None:
    """Goes on only where the library is installed.

    Raises:
        UserError: it is not.
    """
    cipher(bytes(KEY_BYTES))


def opened(key: bytes, nonce: bytes, sealed: bytes, told: bytes) -> bytes:
    """What was sealed, once it has been found whole.

    Raises:
        NotAuthenticError: it is damaged, or sealed by another key.
        UserError: the library is not installed.
    """
    aead = cipher(key)
    from cryptography.exceptions import InvalidTag  # noqa: PLC0415  it is there by now

    try:
        return aead.decrypt(nonce, sealed, told)
    except InvalidTag as error:
        raise NotAuthenticError from error


def derived(secret: bytes, *, salt: bytes, purpose: bytes, size: int) -> bytes:
    """A key for one purpose alone, by HKDF with SHA-256 (RFC 5869)."""
    require()
    from cryptography.hazmat.primitives.hashes import SHA256  # noqa: PLC0415
    from cryptography.hazmat.primitives.kdf.hkdf import HKDF  # noqa: PLC0415

    return HKDF(SHA256(), size, salt, purpose).derive(secret)


def stretched(passphrase: bytes, *, salt: bytes, n: int, r: int, p: int) -> bytes:
    """A key from a passphrase, by scrypt (RFC 7914), which makes guessing slow."""
    require()
    from cryptography.hazmat.primitives.kdf.scrypt import Scrypt  # noqa: PLC0415

    return Scrypt(salt, KEY_BYTES, n, r, p).derive(passphrase)


def checked(key: bytes, told: bytes, size: int) -> bytes:
    """The first bytes of HMAC-SHA256 over what is told."""
    return hmac.digest(key, told, hashlib.sha256)[:size]
