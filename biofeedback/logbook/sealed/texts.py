"""Sealed texts: what stands in the logbook in the place of a name or a note.

A sealed text is text, so it stands in the column that the plain one stood in and no
table changes. It knows of which column it is and opens in no other. Its length tells
that of the plain one to some 64 bytes and no closer.
"""

from __future__ import annotations

import base64
import binascii
import os
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from biofeedback.logbook.sealed import library
from biofeedback.logbook.sealed.master_key import KEY_ID_BYTES

if TYPE_CHECKING:
    from biofeedback.logbook.sealed.master_key import MasterKey

PREFIX = "sealed:1:"
STEP_BYTES = 64
KEPT_OPEN = 8192
"""Texts that stay open in memory: those of a large club, searched while one types."""
_END = b"\x80"
_LEAST = KEY_ID_BYTES + library.NONCE_BYTES + library.TAG_BYTES
_PURPOSE = b"biofeedback sealed text 1"


@dataclass(frozen=True, slots=True)
class SealedText:
    """A sealed text, taken apart."""

    key_id: bytes
    nonce: bytes
    body: bytes

    def opened(self, key: MasterKey, column: str) -> str:
        """The plain text.

        Raises:
            library.NotAuthenticError: it is damaged, or of another column.
        """
        return _opened(key, column, self.nonce, self.body)


def sealed(key: MasterKey, column: str, text: str) -> str:
    """Seals a text.

    Args:
        column: table and column, with a point between.
    """
    plain = text.encode() + _END
    padded = plain + bytes(-len(plain) % STEP_BYTES)
    nonce = os.urandom(library.NONCE_BYTES)
    told = column.encode("ascii")
    body = library.cipher(_text_key(key)).encrypt(nonce, padded, told)
    return PREFIX + base64.b64encode(key.key_id + nonce + body).decode("ascii")


def read(text: object) -> SealedText | None:
    """A sealed text taken apart; None where it is none."""
    if not isinstance(text, str) or not text.startswith(PREFIX):
        return None
    try:
        raw = base64.b64decode(text[len(PREFIX) :], validate=True)
    except (binascii.Error, ValueError):
        return None
    if len(raw) < _LEAST:
        return None
    nonce_end = KEY_ID_BYTES + library.NONCE_BYTES
    return SealedText(raw[:KEY_ID_BYTES], raw[KEY_ID_BYTES:nonce_end], raw[nonce_end:])


@lru_cache(maxsize=KEPT_OPEN)
def _opened(key: MasterKey, column: str, nonce: bytes, body: bytes) -> str:
    told = column.encode("ascii")
    padded = library.opened(_text_key(key), nonce, body, told)
    return padded[: padded.rindex(_END)].decode()


def forget() -> None:
    """Lets go of texts that are kept open, and of the keys to them."""
    _opened.cache_clear()
    _text_key.cache_clear()


@lru_cache(maxsize=16)
def _text_key(key: MasterKey) -> bytes:
    return key.derived(_PURPOSE)
