"""The firmware's core as a library on this machine, driven step by step."""

from __future__ import annotations

import ctypes
import os
from typing import TYPE_CHECKING

from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Damage, Reply, Samples, Start, Status

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from biofeedback.wire.frames import Frame

ROOM = 4096
"""More than a turn can send."""
SENT_MAX = 4096


def load(built: Path) -> ctypes.CDLL:
    """The library, with sanitizers where the process was started with them."""
    sanitized = "-sanitized" if os.environ.get("HARDWARE_SANITIZED") else ""
    library = ctypes.CDLL(str(built / f"libcore{sanitized}.so"))
    library.bench_new.restype = ctypes.c_void_p
    library.bench_poll.restype = ctypes.c_size_t
    return library


class Core:
    """One device of the core, on a bench.

    Args:
        library: see `load`.
        streams: ADC chips on clocks of their own.
        channels: in each stream.
        rates_hz: on offer.
        rate_index: in force.
        settling: conversions that are flagged after power-up.
    """

    def __init__(
        self,
        library: ctypes.CDLL,
        *,
        streams: int = 1,
        channels: int = 2,
        rates_hz: Sequence[float] = (10.0, 80.0, 1000.0),
        rate_index: int = 2,
        settling: int = 0,
    ) -> None:
        self._library = library
        rates = (ctypes.c_uint32 * len(rates_hz))(*[round(1000 * r) for r in rates_hz])
        self._bench = ctypes.c_void_p(
            library.bench_new(
                ctypes.c_uint8(streams),
                ctypes.c_uint8(channels),
                rates,
                ctypes.c_uint8(len(rates_hz)),
                ctypes.c_uint8(rate_index),
                ctypes.c_uint8(settling),
            )
        )
        self._token = 100
        self.channels = channels
        self.now_us = 0
        self.decoder = Decoder()
        self.bytes = b""
        self.frames: list[Frame | Damage] = []
        library.bench_begin(self._bench)
        self.poll()

    def close(self) -> None:
        """Gives the memory back; the sanitizer looks at it."""
        self._library.bench_free(self._bench)

    def hear(self, data: bytes) -> None:
        """Bytes reach the board."""
        self._library.bench_hear(self._bench, data, ctypes.c_size_t(len(data)))

    def convert(
        self,
        counts: Sequence[int],
        *,
        time_us: int | None = None,
        stream: int = 0,
        lost: int = 0,
    ) -> None:
        """A conversion has become ready."""
        when_us = self.now_us if time_us is None else time_us
        values = (ctypes.c_int32 * len(counts))(*counts)
        self._library.bench_convert(
            self._bench,
            ctypes.c_uint8(stream),
            ctypes.c_uint32(when_us % 2**32),
            values,
            ctypes.c_uint8(lost),
        )

    def poll(self, *, room: int = ROOM) -> list[Frame | Damage]:
        """One turn of the main loop; what it sent, read by the program."""
        buffer = ctypes.create_string_buffer(SENT_MAX)
        size = self._library.bench_poll(
            self._bench,
            ctypes.c_uint32(self.now_us % 2**32),
            ctypes.c_uint16(room),
            buffer,
            ctypes.c_size_t(SENT_MAX),
        )
        sent = buffer.raw[:size]
        self.bytes += sent
        frames = self.decoder.push(sent)
        self.frames += frames
        assert self._library.bench_overdrawn(self._bench) == 0, "more than had room"
        return frames

    def wait(self, duration_s: float, *, room: int = ROOM) -> list[Frame | Damage]:
        """Turns every millisecond."""
        frames: list[Frame | Damage] = []
        for _ in range(round(duration_s * 1000)):
            self.now_us += 1000
            frames += self.poll(room=room)
        return frames

    def start(self) -> None:
        """Streams from now on."""
        self.hear(encode(Start(token=1)))
        self.poll()

    @property
    def unheard(self) -> int:
        """Bytes that the device has not taken from the line yet."""
        unheard: int = self._library.bench_unheard(self._bench)
        return unheard

    @property
    def rate_set(self) -> int:
        """Index of the rate that the ADC was last told; -1 before."""
        index: int = self._library.bench_rate_set(self._bench)
        return index

    @property
    def gain_set(self) -> int:
        """Index of the gain that the ADC was last told; -1 before."""
        index: int = self._library.bench_gain_set(self._bench)
        return index

    @property
    def room_min(self) -> int:
        """What the core wants a send buffer to hold."""
        room: int = self._library.bench_room_min()
        return room

    @property
    def samples(self) -> list[Samples]:
        """All frames of samples so far."""
        return [frame for frame in self.frames if isinstance(frame, Samples)]

    @property
    def replies(self) -> list[Reply]:
        """All replies so far."""
        return [frame for frame in self.frames if isinstance(frame, Reply)]

    def status(self) -> Status:
        """The next status; waits for it."""
        statuses = [frame for frame in self.wait(1.1) if isinstance(frame, Status)]
        return statuses[-1]
