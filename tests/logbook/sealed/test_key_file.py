"""Key files: what opens them, what does not, and what they refuse."""

from __future__ import annotations

import base64
import json
import os
import re
import stat
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st
from logbook.sealed import by_hand
from logbook.sealed.place import CODE, PASSPHRASE

from biofeedback.errors import FileError, UserError
from biofeedback.logbook.sealed import key_file, keyring, library, recovery_code
from biofeedback.logbook.sealed.key_file import WrongPassphraseError
from biofeedback.logbook.sealed.master_key import MasterKey

if TYPE_CHECKING:
    from pathlib import Path

KEY = MasterKey(bytes(range(8)), bytes(range(32)))


@pytest.fixture
def keys(tmp_path: Path) -> Path:
    path = tmp_path / "logbook.keys.json"
    key_file.made(path, KEY, passphrase=PASSPHRASE, code=CODE).write()
    return path


def test_hkdf_and_scrypt_give_what_the_standards_print() -> None:
    # RFC 5869, appendix A.1; RFC 7914, section 12 (64 bytes there, 32 here).
    found = library.derived(
        bytes([11] * 22),
        salt=bytes(range(13)),
        purpose=bytes(range(0xF0, 0xFA)),
        size=42,
    )
    assert found.hex() == (
        "3cb25f25faacd57a90434f64d0362f2a2d2d0a90cf1a5a4c5db02d56ecc4c5bf"
        "34007208d5b887185865"
    )
    found = library.stretched(
        b"pleaseletmein", salt=b"SodiumChloride", n=2**14, r=8, p=1
    )
    assert found.hex() == (
        "7023bdcb3afd7348461c06cd81fd38ebfda8fbba904f8e3ea9b543f6545da1f2"
    )


def test_a_second_reader_finds_the_key_both_ways(keys: Path) -> None:
    assert by_hand.master_key(keys, PASSPHRASE) == (KEY.key_id, KEY.secret)
    assert by_hand.master_key_by_code(keys, CODE) == (KEY.key_id, KEY.secret)


@pytest.mark.skipif(os.name != "posix", reason="Windows syncs names by itself")
def test_the_name_of_a_key_file_is_put_on_the_disk_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    synced = []
    real = os.fsync

    def watched(descriptor: int) -> None:
        synced.append(stat.S_ISDIR(os.fstat(descriptor).st_mode))
        real(descriptor)

    monkeypatch.setattr(os, "fsync", watched)
    path = tmp_path / "logbook.keys.json"
    key_file.made(path, KEY, passphrase=PASSPHRASE, code=CODE).write()
    assert synced == [False, True]  # what it holds, then the folder it stands in


def test_passphrase_and_code_open_it_and_no_others_do(keys: Path) -> None:
    found = key_file.read(keys)
    assert found.opened(PASSPHRASE) == KEY
    assert found.recovered(CODE) == KEY
    assert found.recovered(CODE.lower().replace("-", " ").replace("0", "o")) == KEY
    for wrong in ("", PASSPHRASE + " ", PASSPHRASE.upper(), CODE):
        with pytest.raises(WrongPassphraseError, match="not the passphrase"):
            found.opened(wrong)
    with pytest.raises(WrongPassphraseError, match="not the recovery code"):
        found.recovered(recovery_code.new())


def test_an_accent_typed_in_two_ways_is_one_passphrase(keys: Path) -> None:
    assert key_file.read(keys).opened("tree lamp orbite\u0301 stone") == KEY


def test_it_is_for_its_owner_alone_and_holds_no_secret(keys: Path) -> None:
    assert stat.S_IMODE(keys.stat().st_mode) == 0o600
    raw = keys.read_bytes()
    for secret in (KEY.secret, base64.b64encode(KEY.secret), KEY.secret.hex().encode()):
        assert secret not in raw
    assert b"tree" not in raw
    assert CODE.encode() not in raw
    assert KEY.secret.hex() not in repr(KEY)
    assert str(KEY.secret) not in repr(KEY)


def test_another_passphrase_wraps_the_same_key(keys: Path) -> None:
    found = key_file.read(keys)
    found.with_passphrase(KEY, "another four words here").write()
    changed = key_file.read(keys)
    assert changed.opened("another four words here") == KEY
    assert changed.recovered(CODE) == KEY
    with pytest.raises(WrongPassphraseError):
        changed.opened(PASSPHRASE)


def test_another_code_leaves_the_passphrase(keys: Path) -> None:
    new = recovery_code.new()
    key_file.read(keys).with_code(KEY, new).write()
    changed = key_file.read(keys)
    assert changed.recovered(new) == KEY
    assert changed.opened(PASSPHRASE) == KEY
    with pytest.raises(WrongPassphraseError):
        changed.recovered(CODE)


@pytest.mark.parametrize("short", ["", "eleven char", " " * 20])
def test_a_short_passphrase_is_refused(short: str) -> None:
    with pytest.raises(UserError, match="shorter than 12"):
        key_file.check_passphrase(short)


def test_what_is_written_has_the_strength_that_is_promised(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.undo()
    path = tmp_path / "a.keys.json"
    key_file.made(path, KEY, passphrase=PASSPHRASE, code=CODE).write()
    told = json.loads(path.read_text())["passphrase"]
    assert (told["n"], told["r"], told["p"]) == (2**17, 8, 1)
    assert by_hand.master_key(path, PASSPHRASE) == (KEY.key_id, KEY.secret)


# ---------------------------------------------------------------- what is refused


@pytest.mark.parametrize(
    ("where", "value", "words"),
    [
        (("format",), "other", "must be “biofeedback keys”"),
        (("version",), 2, "newer version"),
        (("version",), "1", "whole number"),
        (("key_id",), "zz" * 8, "damaged"),
        (("key_id",), "00" * 7, "16 hexadecimal digits"),
        (("sealing",), 1, "true or false"),
        (("passphrase",), None, "an object"),
        (("passphrase", "n"), 2**21, "is 2097152; it must be 16384"),
        (("passphrase", "n"), 2**13, "it must be 16384"),
        (("passphrase", "n"), 2**14 + 1, "power of two"),
        (("passphrase", "r"), 2**20, "it must be 8"),
        (("passphrase", "p"), 1000, "it must be 1"),
        (("passphrase", "salt"), "AAAA", "must be 32 bytes"),
        (("passphrase", "wrapped"), "****", "damaged"),
        (("recovery", "nonce"), 7, "must be a text"),
    ],
)
def test_a_value_that_does_not_fit_is_named(
    keys: Path, where: tuple[str, ...], value: object, words: str
) -> None:
    told = json.loads(keys.read_text())
    inner = told
    for name in where[:-1]:
        inner = inner[name]
    inner[where[-1]] = value
    keys.write_text(json.dumps(told))
    with pytest.raises(FileError, match=re.escape(words)) as error:
        key_file.read(keys)
    assert str(keys) in str(error.value)


@pytest.mark.parametrize("raw", [b"", b"[]", b"{", b"[" * 60_000, b" " * 70_000])
def test_what_is_no_key_file_is_told(keys: Path, raw: bytes) -> None:
    keys.write_bytes(raw)
    with pytest.raises(FileError, match="not a key file"):
        key_file.read(keys)


def test_one_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="no such file"):
        key_file.read(tmp_path / "x.keys.json")


@pytest.mark.parametrize("name", ["salt", "nonce", "wrapped"])
def test_a_flipped_bit_opens_nothing(keys: Path, name: str) -> None:
    told = json.loads(keys.read_text())
    raw = bytearray(base64.b64decode(told["passphrase"][name]))
    raw[3] ^= 8
    told["passphrase"][name] = base64.b64encode(raw).decode()
    keys.write_text(json.dumps(told))
    with pytest.raises(WrongPassphraseError):
        key_file.read(keys).opened(PASSPHRASE)


# ---------------------------------------------------------------- recovery codes


def test_codes_are_different_and_can_be_read_back() -> None:
    codes = {recovery_code.new() for _ in range(100)}
    assert len(codes) == 100
    for code in codes:
        assert re.fullmatch(r"([0-9A-HJKMNP-TV-Z]{4}-){6}[0-9A-HJKMNP-TV-Z]{4}", code)
        assert recovery_code.read(code) == code.replace("-", "")[:26].encode()


@given(at=st.integers(0, 27), other=st.sampled_from("0123456789ABCDEFGHJKMNPQRSTVWXYZ"))
def test_most_slips_are_told(at: int, other: str) -> None:
    bare = CODE.replace("-", "")
    slipped = bare[:at] + other + bare[at + 1 :]
    if slipped == bare:
        return
    try:
        read = recovery_code.read(slipped)
    except UserError as error:
        read = str(error).encode()
    # One slip in a thousand passes, and it is the wrong code then.
    assert b"slip" in read or (at < 26 and read == slipped[:26].encode())


@pytest.mark.parametrize("typed", ["", "ABCD", CODE + "A", CODE.replace("A", "Ä")])
def test_what_is_no_code_is_told(typed: str) -> None:
    with pytest.raises(UserError, match="28 letters"):
        recovery_code.read(typed)


# ---------------------------------------------------------------- the keyring


def test_a_key_is_asked_for_once(keys: Path) -> None:
    asked = []

    def ask(found: key_file.KeyFile) -> MasterKey:
        asked.append(found.path)
        return found.opened(PASSPHRASE)

    keyring.ask_by(ask)
    sealed = keys.parent / "recordings" / "a.force"
    assert keyring.key_for(KEY.key_id, sealed) == KEY
    assert keyring.key_for(KEY.key_id, sealed) == KEY
    assert asked == [keys]


def test_without_anybody_to_ask_it_is_told(keys: Path) -> None:
    with pytest.raises(FileError, match="passphrase of this key file was not given"):
        keyring.key_for(KEY.key_id, keys)


def test_other_key_files_nearby_are_passed_over(keys: Path) -> None:
    (keys.parent / "a.keys.json").write_text("{")
    other = MasterKey.new()
    path = keys.parent / "b.keys.json"
    key_file.made(path, other, passphrase=PASSPHRASE, code=CODE).write()
    keyring.ask_by(lambda found: found.opened(PASSPHRASE))
    assert keyring.key_for(KEY.key_id, keys) == KEY
    with pytest.raises(FileError, match=bytes(8).hex()):
        keyring.key_for(bytes(8), keys)
