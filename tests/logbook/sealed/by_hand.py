"""A second reader of sealed files, written from FORMAT.md alone.

It uses the primitives and nothing of the program, so that both would have to be wrong
in the same way.
"""

from __future__ import annotations

import base64
import hashlib
import hmac
import json
import unicodedata
import zlib
from typing import TYPE_CHECKING

from cryptography.hazmat.primitives.ciphers.aead import AESGCM
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.kdf.hkdf import HKDF

if TYPE_CHECKING:
    from pathlib import Path


def master_key(keys: Path, passphrase: str) -> tuple[bytes, bytes]:
    """Key id and master key, by the standard library's scrypt."""
    told = json.loads(keys.read_text())
    way = told["passphrase"]
    plain = unicodedata.normalize("NFC", passphrase).encode()
    outer = hashlib.scrypt(
        plain,
        salt=base64.b64decode(way["salt"]),
        n=way["n"],
        r=way["r"],
        p=way["p"],
        maxmem=2**30,
        dklen=32,
    )
    return _unwrapped(told, way, outer, b"biofeedback keys 1 passphrase ")


def master_key_by_code(keys: Path, code: str) -> tuple[bytes, bytes]:
    told = json.loads(keys.read_text())
    way = told["recovery"]
    salt = base64.b64decode(way["salt"])
    secret = code.replace("-", "")[:26].encode()
    outer = HKDF(SHA256(), 32, salt, b"biofeedback recovery code 1").derive(secret)
    return _unwrapped(told, way, outer, b"biofeedback keys 1 recovery ")


def _unwrapped(
    told: dict[str, str], way: dict[str, str], outer: bytes, words: bytes
) -> tuple[bytes, bytes]:
    key_id = bytes.fromhex(told["key_id"])
    nonce, wrapped = base64.b64decode(way["nonce"]), base64.b64decode(way["wrapped"])
    return key_id, AESGCM(outer).decrypt(nonce, wrapped, words + key_id)


def recording(raw: bytes, secret: bytes) -> bytes:
    """The plain recording of a container without a fault."""
    assert raw[:56] == raw[56:112]
    assert raw[:8] == b"\0sealed\x1a"
    assert raw[8:12] == b"\1\0\0\0"
    assert int.from_bytes(raw[52:56], "little") == zlib.crc32(raw[:52])
    key_id, salt = raw[12:20], raw[20:52]
    info = b"biofeedback sealed recording 1" + key_id
    both = HKDF(SHA256(), 64, salt, info).derive(secret)
    at, index, plain = 112, 0, b""
    while at < len(raw):
        head = raw[at : at + 12]
        assert head[:4] == b"\xf5\x5e\xa1\xed"
        assert int.from_bytes(head[4:8], "little") == index
        check = hmac.new(both[32:], head, "sha256").digest()[:8]
        assert raw[at + 12 : at + 20] == check
        end = at + 20 + int.from_bytes(head[8:12], "little") + 16
        nonce = bytes(8) + index.to_bytes(4, "little")
        plain += AESGCM(both[:32]).decrypt(nonce, raw[at + 20 : end], head)
        at, index = end, index + 1
    return plain


def text(sealed: str, column: str, key_id: bytes, secret: bytes) -> str:
    raw = base64.b64decode(sealed.removeprefix("sealed:1:"))
    assert raw[:8] == key_id
    info = b"biofeedback sealed text 1" + key_id
    key = HKDF(SHA256(), 32, b"", info).derive(secret)
    padded = AESGCM(key).decrypt(raw[8:20], raw[20:], column.encode())
    assert len(padded) % 64 == 0
    return padded.rstrip(b"\0")[:-1].decode()
