"""Sealed recordings: whole, cut anywhere, damaged anywhere, moved and doubled."""

from __future__ import annotations

import contextlib
import random
import signal
import subprocess
import sys
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from logbook.sealed import by_hand
from logbook.test_recordings import PIECES, WHOLE

from biofeedback.errors import FileError
from biofeedback.logbook import recordings
from biofeedback.logbook.recording_file import RecordingFile
from biofeedback.logbook.sealed import container, keyring, reading
from biofeedback.logbook.sealed.container import CHUNK_EXTRA_BYTES, HEADS_BYTES, Sealer
from biofeedback.logbook.sealed.master_key import MasterKey
from biofeedback.rig.replay_source import ReplaySource
from biofeedback.rig.source import SourceEnded
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Damage

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

KEY = MasterKey(bytes(range(8)), bytes(range(32)))
SALT = bytes(range(100, 132))


@pytest.fixture(autouse=True)
def key_is_held() -> Iterator[None]:
    keyring.hold([KEY])
    yield
    keyring.forget()


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("recordings") / "a.force"


def sealed(pieces: list[bytes]) -> list[bytes]:
    """The heads, and a chunk for each piece."""
    sealer = Sealer(KEY, salt=SALT)
    return [sealer.beginning, *(sealer.sealed(piece) for piece in pieces)]


CHUNKS = sealed(PIECES)
SEALED = b"".join(CHUNKS)


def frames(place: Path, data: bytes) -> list[bytes | Damage]:
    place.write_bytes(data)
    found = recordings.read(place).frames()
    return [one if isinstance(one, Damage) else encode(one) for one in found]


# ---------------------------------------------------------------- when all is well


def test_a_second_reader_finds_the_recording_byte_for_byte() -> None:
    assert by_hand.recording(SEALED, KEY.secret) == WHOLE


def test_the_one_door_gives_the_recording_byte_for_byte(place: Path) -> None:
    place.write_bytes(SEALED)
    for size in (1, 7, 4096, 65_536):
        with place.open("rb") as file:
            assert b"".join(reading.pieces(file, place, size)) == WHOLE


def test_a_sealed_recording_is_surveyed_as_a_plain_one_is(place: Path) -> None:
    place.write_bytes(WHOLE)
    plain = recordings.read(place).survey()
    place.write_bytes(SEALED)
    assert recordings.read(place).survey() == plain


def test_no_piece_of_the_recording_stands_in_the_file() -> None:
    found = [at for at in range(len(WHOLE) - 8) if WHOLE[at : at + 8] in SEALED]
    # Runs of zeros stand in the heads of both; nothing else does.
    assert [at for at in found if len(set(WHOLE[at : at + 8])) > 2] == []


def test_two_files_of_one_recording_have_nothing_in_common() -> None:
    one, other = (Sealer(KEY) for _ in range(2))
    assert one.sealed(WHOLE)[20:] != other.sealed(WHOLE)[20:]
    assert one.beginning != other.beginning


def test_a_replay_as_a_source_gives_the_same_bytes(place: Path) -> None:
    place.write_bytes(SEALED)
    source = ReplaySource(place, speed=None, pieces=reading.pieces)
    source.open()
    got = b""
    with contextlib.suppress(SourceEnded):
        while True:
            got += source.read()
    source.close()
    assert got == b"".join(PIECES[i] for i in (1, 2, 3, 5, 6))


# ---------------------------------------------------------------- cut and damaged


def test_cut_at_each_byte_all_whole_chunks_before_are_good(place: Path) -> None:
    ends = np.cumsum([len(chunk) for chunk in CHUNKS])
    refused = 0
    for cut in range(1, len(SEALED)):
        whole = int(np.searchsorted(ends, cut, side="right")) - 1
        if whole < 1:
            place.write_bytes(SEALED[:cut])
            with pytest.raises(FileError):
                recordings.read(place)
            refused += 1
            continue
        assert frames(place, SEALED[:cut]) == PIECES[:whole]
        survey = recordings.read(place).survey()
        assert survey.recovered
        assert survey.damaged == 0
    assert refused == ends[1] - 1


@pytest.mark.parametrize("zeros", [1, 40, 70_000])
def test_a_zeroed_end_is_a_cut(place: Path, zeros: int) -> None:
    for cut in range(len(SEALED) - 130, len(SEALED)):
        found = frames(place, SEALED[:cut] + bytes(zeros))
        whole = [one for one in found if not isinstance(one, Damage)]
        assert whole == PIECES[: len(whole)]
        assert len(whole) >= len(PIECES) - 3


@settings(max_examples=300, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(bit=st.integers(8 * HEADS_BYTES, 8 * len(SEALED) - 1))
def test_a_flipped_bit_costs_one_chunk_and_is_told(place: Path, bit: int) -> None:
    data = bytearray(SEALED)
    data[bit // 8] ^= 1 << bit % 8
    ends = np.cumsum([len(chunk) for chunk in CHUNKS])
    hit = int(np.searchsorted(ends, bit // 8, side="right")) - 1
    if hit == 0:  # the chunk with the recording's header
        place.write_bytes(data)
        with pytest.raises(FileError, match="header is damaged"):
            recordings.read(place)
        return
    found = frames(place, bytes(data))
    good = [one for one in found if not isinstance(one, Damage)]
    assert good == PIECES[:hit] + PIECES[hit + 1 :]
    if hit < len(PIECES) - 1 or bit // 8 >= ends[-2] + 20:
        assert [type(one) for one in found].count(Damage) == 1
    else:  # in the head of the last chunk: a cut, or bytes that are no chunk
        assert recordings.read(place).survey().recovered


@pytest.mark.parametrize("byte", range(HEADS_BYTES))
def test_a_flipped_bit_in_a_head_costs_nothing(place: Path, byte: int) -> None:
    data = bytearray(SEALED)
    data[byte] ^= 0x10
    assert frames(place, bytes(data)) == PIECES


def test_without_either_head_it_is_refused_in_words(place: Path) -> None:
    data = bytearray(SEALED)
    data[30] ^= 1
    data[86] ^= 1
    place.write_bytes(data)
    with pytest.raises(FileError, match="beginning is cut off or damaged"):
        recordings.read(place)


@pytest.mark.parametrize(
    "order",
    [
        [0, 1, 2, 4, 3, 5, 6, 7],  # two changed places
        [0, 1, 2, 4, 5, 6, 7],  # one was taken out
        [0, 1, 2, 3, 3, 4, 5, 6, 7],  # one stands twice
        [0, 1, 2, 3, 4, 5, 6, 2, 7],  # an early one again, late
    ],
)
def test_chunks_that_were_moved_taken_out_or_doubled_are_told(
    place: Path, order: list[int]
) -> None:
    found = frames(place, b"".join(CHUNKS[i] for i in order))
    good = [PIECES.index(one) for one in found if not isinstance(one, Damage)]
    assert good == sorted(set(good))  # none twice, none out of its turn
    assert any(isinstance(one, Damage) for one in found)


def test_a_chunk_of_another_recording_is_told(place: Path) -> None:
    other = Sealer(KEY)
    strangers = [other.sealed(piece) for piece in PIECES]
    data = [*CHUNKS[:3], strangers[2], *CHUNKS[4:]]
    found = frames(place, b"".join(data))
    assert [one for one in found if not isinstance(one, Damage)] == [
        *PIECES[:2],
        *PIECES[3:],
    ]
    assert any(isinstance(one, Damage) for one in found)


@pytest.mark.parametrize("kept_bytes", [25, 100, 2000])
def test_bytes_that_were_lost_near_the_end_hide_no_whole_chunk(
    place: Path, kept_bytes: int
) -> None:
    long = 40 * PIECES[1]  # its head promises more than there is behind it
    chunks = sealed([PIECES[0], long, *PIECES[2:]])
    assert len(chunks[2]) > kept_bytes + sum(map(len, chunks[3:]))
    found = frames(place, b"".join([*chunks[:2], chunks[2][:kept_bytes], *chunks[3:]]))
    good = [one for one in found if not isinstance(one, Damage)]
    assert good == [PIECES[0], *PIECES[2:]]
    assert any(isinstance(one, Damage) for one in found)


def test_random_bytes_behind_a_head_are_told_and_end(place: Path) -> None:
    noise = random.Random(1).randbytes(200_000)  # noqa: S311  the same each time
    data = CHUNKS[0] + CHUNKS[1] + noise + container.MARKER * 5000 + CHUNKS[2]
    found = frames(place, data)
    assert [one for one in found if not isinstance(one, Damage)] == PIECES[:2]
    (damage,) = (one for one in found if isinstance(one, Damage))
    assert damage.size_bytes == container.DAMAGE_MAX


def test_a_barren_end_is_read_no_further_and_told(place: Path) -> None:
    place.write_bytes(SEALED)
    with place.open("r+b") as file:
        file.truncate(2**34)  # 16 GiB, none of them on the disk
    found = list(recordings.read(place).frames())
    assert [encode(f) for f in found if not isinstance(f, Damage)] == PIECES
    assert isinstance(found[-1], Damage)


@pytest.mark.parametrize("size", [*range(1, 300), 4096, container.DAMAGE_MAX])
def test_a_stand_in_is_damage_of_its_size_and_never_a_frame(size: int) -> None:
    opener = container.Opener(KEY, SALT)
    list(opener.push(size * b"\x07"))
    assert Decoder().push(opener.end()) == [Damage(size, "framing")]


def test_a_large_chunk_is_parted() -> None:
    plain = bytes(n % 251 for n in range(3 * container.PLAIN_MAX + 5))
    sealer = Sealer(KEY, salt=SALT)
    data = sealer.sealed(plain)
    assert len(data) == len(plain) + 4 * CHUNK_EXTRA_BYTES
    assert by_hand.recording(sealer.beginning + data, KEY.secret) == plain


# ---------------------------------------------------------------- keys and versions


def test_another_key_is_told(place: Path) -> None:
    keyring.forget()
    place.write_bytes(SEALED)
    with pytest.raises(FileError, match="0001020304050607"):
        recordings.read(place)


def test_a_key_of_the_same_name_opens_nothing(place: Path) -> None:
    keyring.hold([MasterKey(KEY.key_id, bytes(32))])
    place.write_bytes(SEALED)
    with pytest.raises(FileError, match="damaged"):
        recordings.read(place)


def test_a_newer_version_is_refused_in_words(place: Path) -> None:
    head = container.Head(2, KEY.key_id, SALT).packed()
    place.write_bytes(2 * head + SEALED[HEADS_BYTES:])
    with pytest.raises(FileError, match="newer version"):
        recordings.read(place)


# ---------------------------------------------------------------- while it is written


def test_each_flush_is_one_chunk_and_whole_on_disk(tmp_path: Path) -> None:
    path = tmp_path / "a.force"
    file = RecordingFile(path, Sealer(KEY))
    for number, piece in enumerate(PIECES, start=1):
        file.add(piece, own=number in (1, 5, 8))
        file.flush()
        assert by_hand.recording(path.read_bytes(), KEY.secret) == b"".join(
            PIECES[:number]
        )
    file.close()


_FULL_DISK = """
import resource, signal, sys
from pathlib import Path
from biofeedback.logbook.recording_file import RecordingFile
from biofeedback.logbook.sealed.container import Sealer
from biofeedback.logbook.sealed.master_key import MasterKey
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
file = RecordingFile(Path(sys.argv[1]), Sealer(MasterKey(bytes(8), bytes(32))))
failed = 0
for number in range(40):
    limit = 1000 if number % 3 else -1
    resource.setrlimit(resource.RLIMIT_FSIZE, (limit, -1))
    file.add(bytes([number]) * 100, own=False)
    try:
        file.flush()
    except OSError:
        failed += 1
resource.setrlimit(resource.RLIMIT_FSIZE, (-1, -1))
file.add(b"end", own=False)
file.flush()
print(failed)
"""


@pytest.mark.skipif(not hasattr(signal, "SIGXFSZ"), reason="no limit of this kind here")
def test_a_disk_that_refuses_costs_no_byte_and_seals_nothing_twice(
    tmp_path: Path,
) -> None:
    path = tmp_path / "a.force"
    done = subprocess.run(  # noqa: S603  our own program
        [sys.executable, "-c", _FULL_DISK, str(path)],
        capture_output=True,
        check=True,
        encoding="ascii",
    )
    assert int(done.stdout) > 10
    plain = by_hand.recording(path.read_bytes(), bytes(32))
    assert plain == b"".join(bytes([n]) * 100 for n in range(40)) + b"end"
