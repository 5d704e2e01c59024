"""The files that a C test reads too, against slow and plain code of its own."""

from __future__ import annotations

import csv
import re
import zlib

import pytest
from wire.frame_examples import (
    EXAMPLES,
    REFUSED,
    VECTORS,
    frame_rows,
    refused_rows,
)

from biofeedback.wire import cobs
from biofeedback.wire.codec import decode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Damage

PROTOCOL = VECTORS.parents[1] / "hardware" / "PROTOCOL.md"


def rows(name: str) -> list[list[str]]:
    text = (VECTORS / name).read_text(encoding="ascii")
    lines = [line for line in text.splitlines() if not line.startswith("#")]
    return list(csv.reader(lines))[1:]


def slow_cobs(data: bytes) -> bytes:
    """Byte by byte, as the paper tells it, without the optional last 01."""
    out = bytearray()
    block = bytearray()
    pending = True  # a block is open, possibly empty
    for byte in data:
        pending = True
        if byte:
            block.append(byte)
            if len(block) == 254:
                out += b"\xff" + block
                block.clear()
                pending = False
        else:
            out += bytes((len(block) + 1,)) + block
            block.clear()
    if pending:
        out += bytes((len(block) + 1,)) + block
    return bytes(out)


def slow_crc(data: bytes) -> int:
    """Bit by bit, from the parameters in the protocol."""
    crc = 0xFFFFFFFF
    for byte in data:
        crc ^= byte
        for _ in range(8):
            crc = (crc >> 1) ^ (0xEDB88320 if crc & 1 else 0)
    return crc ^ 0xFFFFFFFF


def test_the_frame_file_is_what_the_codec_writes() -> None:
    assert rows("frames.csv") == [list(row) for row in frame_rows()]


def test_the_refused_file_is_what_the_examples_say() -> None:
    assert rows("refused.csv") == [list(row) for row in refused_rows()]


@pytest.mark.parametrize("name", EXAMPLES)
def test_each_frame_is_right_by_slow_code(name: str) -> None:
    inner_hex, wire_hex = next(row[1:] for row in rows("frames.csv") if row[0] == name)
    inner, wire = bytes.fromhex(inner_hex), bytes.fromhex(wire_hex)
    assert slow_cobs(inner) + b"\0" == wire
    assert slow_crc(inner[:-4]).to_bytes(4, "little") == inner[-4:]
    assert not isinstance(decode(inner), Damage)


@pytest.mark.parametrize("name", REFUSED)
def test_each_bad_frame_is_refused_for_its_reason(name: str) -> None:
    wire_hex, reason = next(row[1:] for row in rows("refused.csv") if row[0] == name)
    wire = bytes.fromhex(wire_hex)
    assert Decoder().push(wire) == [Damage(len(wire) - 1, reason)]


@pytest.mark.parametrize("row", rows("crc32.csv"), ids=lambda row: row[0])
def test_the_crc_is_the_catalogued_one(row: list[str]) -> None:
    data, crc = bytes.fromhex(row[1]), int(row[2], 16)
    assert zlib.crc32(data) == crc
    assert slow_crc(data) == crc


@pytest.mark.parametrize("row", rows("cobs.csv"), ids=lambda row: row[0])
def test_cobs_follows_the_table(row: list[str]) -> None:
    decoded, encoded = bytes.fromhex(row[1]), bytes.fromhex(row[2])
    assert cobs.encode(decoded) == encoded
    assert cobs.decode(encoded) == decoded
    assert slow_cobs(decoded) == encoded


def test_each_example_in_the_protocol_is_one_of_the_vectors() -> None:
    text = PROTOCOL.read_text(encoding="utf-8")
    shown = {
        bytes.fromhex(found)
        for found in re.findall(r"wire +((?:[0-9A-F]{2}\s+)+00)\n", text)
    }
    known = {bytes.fromhex(row[2]): row[0] for row in rows("frames.csv")}
    assert {known.get(wire) for wire in shown} == {
        "identify",
        "identity",
        "one sample of two channels",
        "two samples saturated and settling",
        "status",
        "reply bad value",
        "start",
        "stop",
        "rate",
        "gain",
        "event",
    }
    for wire in shown:
        inner = cobs.decode(wire[:-1])
        assert inner is not None
        spaced = re.sub(r"\s+", "", text)
        assert inner[:-4].hex().upper() in spaced
