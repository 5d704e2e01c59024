"""Keys do not outlive a test, and scrypt is as weak as a key file may be."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from biofeedback.logbook.sealed import key_file, keyring

if TYPE_CHECKING:
    from collections.abc import Iterator


@pytest.fixture(autouse=True)
def fresh_keyring(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.setattr(key_file, "SCRYPT_N", 2**14)
    keyring.forget()
    yield
    keyring.forget()
