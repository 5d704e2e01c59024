"""The recovery code: a second way to the key, for who has lost the passphrase.

130 bits of chance in an alphabet without I, L, O and U, so that it can be written down
and read again, and two characters that tell a slip of the pen. It is chance alone, so
it needs no slow stretching as a passphrase does.
"""

from __future__ import annotations

import hashlib
import secrets

from biofeedback.errors import UserError
from biofeedback.phrase import phrase

_ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_READ_AS = str.maketrans({"O": "0", "I": "1", "L": "1"})
DRAWN = 26
CHECK = 2
GROUP = 4


def new() -> str:
    """A new code, in groups of four."""
    drawn = "".join(secrets.choice(_ALPHABET) for _ in range(DRAWN))
    return in_groups(drawn + _check(drawn))


def in_groups(code: str) -> str:
    """As it is written down."""
    return "-".join(code[at : at + GROUP] for at in range(0, len(code), GROUP))


def read(typed: str) -> bytes:
    """The secret of a code as somebody typed it.

    Raises:
        UserError: it is no recovery code.
    """
    bare = "".join(mark for mark in typed.upper() if mark.isalnum())
    code = bare.translate(_READ_AS)
    if len(code) != DRAWN + CHECK or not set(code) <= set(_ALPHABET):
        raise UserError(
            phrase("This is not a recovery code: it has 28 letters and figures."),
            phrase("Type it as it was written down."),
        )
    if _check(code[:DRAWN]) != code[DRAWN:]:
        raise UserError(
            phrase("There is a slip in the recovery code."),
            phrase("Compare it with what was written down, group by group."),
        )
    return code[:DRAWN].encode("ascii")


def _check(drawn: str) -> str:
    digest = hashlib.sha256(drawn.encode("ascii")).digest()
    return "".join(_ALPHABET[byte % len(_ALPHABET)] for byte in digest[:CHECK])
