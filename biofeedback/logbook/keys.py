"""Keys of rows: UUIDv7 (RFC 9562), so that several stations can be joined.

They sort by the time they were made, which keeps an index compact, and they
carry no name, code or machine.
"""

import uuid_utils


def new_key() -> str:
    """A new UUIDv7 in its usual text form, 36 characters."""
    return str(uuid_utils.uuid7())


def short_key(key: str) -> str:
    """The last eight characters, from the random part: for file names."""
    return key[-8:]
