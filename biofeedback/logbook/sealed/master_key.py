"""The master key: the one secret of a sealed logbook, and the keys made of it.

It is random, never stored but wrapped, and seals nothing itself: each purpose and
each recording has a key of its own.
"""

from __future__ import annotations

import os
from dataclasses import dataclass, field

from biofeedback.logbook.sealed import library

KEY_ID_BYTES = 8
"""Enough to tell the keys of a practice apart; it is no secret."""


@dataclass(frozen=True, slots=True)
class MasterKey:
    """One master key.

    Attributes:
        key_id: which key this is, as it stands in all that it has sealed.
        secret: never shown, not even in a fault's words.
    """

    key_id: bytes
    secret: bytes = field(repr=False)

    @classmethod
    def new(cls) -> MasterKey:
        """A new one, from the system's source of chance."""
        return cls(os.urandom(KEY_ID_BYTES), os.urandom(library.KEY_BYTES))

    def derived(
        self, purpose: bytes, *, salt: bytes = b"", size: int = library.KEY_BYTES
    ) -> bytes:
        """A key for one purpose; `salt` makes another for each thing."""
        return library.derived(
            self.secret, salt=salt, purpose=purpose + self.key_id, size=size
        )
