"""The container of a sealed recording: what is written, and what is read back.

Inside is the ordinary recording, byte for byte; `FORMAT.md` is the norm. Rules that
hold here, so that the promises of the plain format do:

* What is on disk is whole chunks and at most the beginning of one: cut anywhere, and
  all whole chunks before the cut are good.
* A chunk that was changed, left out, doubled or moved is noticed. In its place stands
  a run of bytes that no decoder takes for a frame, so that the loss is told by the
  same words as any other damage.
* After damage it goes on at the next chunk that is sound.
* Memory is bounded by one chunk, whatever a file says.
"""

from __future__ import annotations

import os
import struct
import zlib
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.logbook.sealed import library
from biofeedback.logbook.sealed.master_key import KEY_ID_BYTES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from biofeedback.logbook.sealed.master_key import MasterKey

MAGIC = b"\0sealed\x1a"
"""No recording begins with a 00, and no text does."""
VERSION = 1
SALT_BYTES = 32
MARKER = b"\xf5\x5e\xa1\xed"
PLAIN_MAX = 65_536
"""Most bytes in a chunk: a quarter of a second of any board is less."""
CHECK_BYTES = 8
DAMAGE_MAX = 65_536
"""Longest stand-in for what was lost; a frame is no longer either."""

_BARE_HEAD = struct.Struct(f"<8sHH{KEY_ID_BYTES}s{SALT_BYTES}s")
_CRC = struct.Struct("<I")
_HEAD_BYTES = _BARE_HEAD.size + _CRC.size
HEADS_BYTES = 2 * _HEAD_BYTES
"""The head stands twice, so that a flipped bit in it costs nothing."""
_CHUNK = struct.Struct("<4sII")
_CHUNK_HEAD_BYTES = _CHUNK.size + CHECK_BYTES
CHUNK_EXTRA_BYTES = _CHUNK_HEAD_BYTES + library.TAG_BYTES
CHUNK_MAX_BYTES = PLAIN_MAX + CHUNK_EXTRA_BYTES
_PURPOSE = b"biofeedback sealed recording 1"


@dataclass(frozen=True, slots=True)
class Head:
    """Head of a container: which key opens it, and its salt."""

    version: int
    key_id: bytes
    salt: bytes

    def packed(self) -> bytes:
        """As it stands in the file, once."""
        bare = _BARE_HEAD.pack(MAGIC, self.version, 0, self.key_id, self.salt)
        return bare + _CRC.pack(zlib.crc32(bare))


def is_sealed(beginning: bytes) -> bool:
    """Whether a file that begins so is a container, be it cut or damaged."""
    return beginning[: len(MAGIC)] == MAGIC or head_of(beginning) is not None


def head_of(beginning: bytes) -> Head | None:
    """The first head that is sound; None where neither is."""
    for start in (0, _HEAD_BYTES):
        packed = beginning[start : start + _HEAD_BYTES]
        if len(packed) < _HEAD_BYTES:
            continue
        bare = packed[: _BARE_HEAD.size]
        magic, version, _none, key_id, salt = _BARE_HEAD.unpack(bare)
        if magic == MAGIC and packed[_BARE_HEAD.size :] == _CRC.pack(zlib.crc32(bare)):
            return Head(version, key_id, salt)
    return None


class _FileKeys:
    """The two keys of one recording."""

    def __init__(self, key: MasterKey, salt: bytes) -> None:
        both = key.derived(_PURPOSE, salt=salt, size=2 * library.KEY_BYTES)
        self.sealing = both[: library.KEY_BYTES]
        self._checking = both[library.KEY_BYTES :]

    def check(self, told: bytes) -> bytes:
        """By which the head of a chunk is known before the chunk is there."""
        return library.checked(self._checking, told, CHECK_BYTES)


def _nonce(index: int) -> bytes:
    """Never used twice: a recording has a key of its own and counts its chunks."""
    return bytes(library.NONCE_BYTES - 4) + struct.pack("<I", index)


class Sealer:
    """Seals one recording, from its first byte on.

    Args:
        key: of the logbook.
        salt: of this recording; None makes one, as it must be anywhere but in a test.
    """

    def __init__(self, key: MasterKey, *, salt: bytes | None = None) -> None:
        head = Head(VERSION, key.key_id, salt or os.urandom(SALT_BYTES))
        self._keys = _FileKeys(key, head.salt)
        self._index = 0
        self.beginning = 2 * head.packed()

    def sealed(self, plain: bytes) -> bytes:
        """The chunks for the next bytes of the recording; one, where they fit."""
        out = bytearray()
        for start in range(0, len(plain), PLAIN_MAX):
            out += self._chunk(plain[start : start + PLAIN_MAX])
        return bytes(out)

    def _chunk(self, plain: bytes) -> bytes:
        told = _CHUNK.pack(MARKER, self._index, len(plain))
        nonce = _nonce(self._index)
        self._index += 1
        body = library.cipher(self._keys.sealing).encrypt(nonce, plain, told)
        return told + self._keys.check(told) + body


class Opener:
    """Opens one container: bytes after the heads in, the recording's bytes out.

    Args:
        key: by which it was sealed.
        salt: from its head.

    Attributes:
        damaged: whether anything was passed over so far; a cut end is no damage.
    """

    def __init__(self, key: MasterKey, salt: bytes) -> None:
        self._keys = _FileKeys(key, salt)
        self._held = bytearray()
        self._next = 0  # index of the chunk that is to come
        self._lost = 0  # bytes passed over since the last sound chunk
        self.damaged = False

    def push(self, data: bytes) -> Iterator[bytes]:
        """Takes what was read and gives what it completes."""
        self._held += data
        while (found := self._one()) is not None:
            yield found

    def end(self) -> bytes:
        """What is still found at the end of the file, with its stand-ins.

        A chunk that the file ends in is cut and no damage, unless whole ones stand
        behind its beginning: then something was lost in between.
        """
        found = bytearray()
        cut: int | None = None  # what was lost before the beginning of such a chunk
        while self._held:
            if cut is None and self._begins():
                cut = self._lost
            self._pass_over(1)
            while (piece := self._one()) is not None:
                found += piece
                cut = None
        if cut is not None:
            self._lost = cut
        return bytes(found) + self._stand_in()

    def leave(self, left_bytes: int) -> bytes:
        """A stand-in where so much is not looked at any more."""
        self._held.clear()
        self._lost += left_bytes
        return self._stand_in()

    def _begins(self) -> bool:
        """Whether what is held may be the beginning of a chunk."""
        if len(self._held) < _CHUNK_HEAD_BYTES:
            start = self._held[: len(MARKER)]
            return MARKER.startswith(start)
        return self._told(self._held) is not None

    def _one(self) -> bytes | None:
        """The next piece of the recording; None where more must be read."""
        while self._find_marker():
            told = self._told(self._held)
            if told is None:
                if len(self._held) < _CHUNK_HEAD_BYTES:
                    return None
                self._pass_over(1)
                continue
            index, size = told
            end = _CHUNK_HEAD_BYTES + size + library.TAG_BYTES
            if len(self._held) < end:
                return None
            plain = self._opened(index, end)
            if plain is None or index < self._next:  # damaged, doubled or moved
                self._pass_over(_CHUNK_HEAD_BYTES if plain is None else end)
                continue
            del self._held[:end]
            missing = index > self._next and not self._lost
            self._lost += missing
            self._next = index + 1
            return self._stand_in() + plain
        return None

    def _find_marker(self) -> bool:
        """Passes over what is no chunk; whether a marker stands first now."""
        at = self._held.find(MARKER)
        if at < 0:  # a marker may have begun
            at = max(0, len(self._held) - len(MARKER) + 1)
            if at:
                self._pass_over(at)
            return False
        self._pass_over(at)
        return True

    def _pass_over(self, size: int) -> None:
        if any(self._held[:size]):  # zeros are no bytes that somebody wrote
            self._lost += size
        del self._held[:size]

    def _told(self, held: bytes | bytearray) -> tuple[int, int] | None:
        """Index and length of the chunk that begins here, if its head is sound."""
        if len(held) < _CHUNK_HEAD_BYTES:
            return None
        told = bytes(held[: _CHUNK.size])
        if self._keys.check(told) != bytes(held[_CHUNK.size : _CHUNK_HEAD_BYTES]):
            return None
        _marker, index, size = _CHUNK.unpack(told)
        return (index, size) if size <= PLAIN_MAX else None

    def _opened(self, index: int, end: int) -> bytes | None:
        held = self._held
        body = bytes(held[_CHUNK_HEAD_BYTES:end])
        told = bytes(held[: _CHUNK.size])
        try:
            return library.opened(self._keys.sealing, _nonce(index), body, told)
        except library.NotAuthenticError:
            return None

    def _stand_in(self) -> bytes:
        """What a decoder tells as damage of that many bytes, between delimiters."""
        size = min(self._lost, DAMAGE_MAX)
        self._lost = 0
        self.damaged |= size > 0
        # The last code asks for 254 bytes that are not there: never a frame.
        return b"\0" + (size - 1) * b"\x01" + b"\xff\0" if size else b""
