from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.wire import cobs

RUN = bytes(range(1, 255))


def test_a_run_of_254_may_or_may_not_be_closed() -> None:
    """The common table ends after the long block, the paper's encoder adds 01."""
    assert cobs.encode(RUN) == b"\xff" + RUN
    assert cobs.decode(b"\xff" + RUN) == RUN
    assert cobs.decode(b"\xff" + RUN + b"\x01") == RUN


def test_zeros_after_a_run_of_254_are_kept() -> None:
    for zeros in range(1, 4):
        data = RUN + bytes(zeros)
        encoded = cobs.encode(data)
        assert encoded == b"\xff" + RUN + b"\x01" * (zeros + 1)
        assert cobs.decode(encoded) == data


@pytest.mark.parametrize(
    "encoded",
    [
        b"",
        b"\x00",
        b"\x02",
        b"\x03\x11",
        b"\x02\x11\x03\x22",
        b"\x03\x11\x00",
        b"\xff" + RUN[:-1],
        b"\xff" + RUN + b"\x02",
        b"\x01\xff\x01",
    ],
)
def test_what_is_no_cobs_is_refused(encoded: bytes) -> None:
    assert cobs.decode(encoded) is None


def runs() -> st.SearchStrategy[bytes]:
    """Data with zeros, and with runs around the length of a long block."""
    piece = st.one_of(
        st.binary(max_size=20),
        st.integers(0, 3).map(bytes),
        st.integers(250, 260).map(lambda size: b"\x07" * size),
        st.integers(505, 512).map(lambda size: b"\xff" * size),
    )
    return st.lists(piece, max_size=6).map(b"".join)


@given(runs())
def test_encoding_can_be_undone_and_has_no_zero(data: bytes) -> None:
    encoded = cobs.encode(data)
    assert 0 not in encoded
    assert len(encoded) <= cobs.encoded_max(len(data))
    assert cobs.decode(encoded) == data


@given(st.binary(max_size=600))
def test_any_bytes_are_decoded_or_refused(encoded: bytes) -> None:
    decoded = cobs.decode(encoded)
    assert decoded is None or cobs.decode(cobs.encode(decoded)) == decoded
