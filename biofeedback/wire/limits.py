"""What the wire allows. `hardware/PROTOCOL.md`, section 10, says why."""

from __future__ import annotations

from biofeedback.wire import cobs

LINE_RAW_MAX = 254
"""Most raw bytes in a device or host frame: one COBS block, one small buffer."""
RECORDING_RAW_MAX = 65_536
"""Most raw bytes in a recording frame: a header with a long plan is some 10 kB."""
ENCODED_MAX = cobs.encoded_max(RECORDING_RAW_MAX)
"""Most bytes between two delimiters that can be a frame."""
HEAD_BYTES = 6
"""Type, flags and sequence."""
CRC_BYTES = 4
RECORDING_TYPES_FROM = 0x80
"""Types from here on are found in recordings only."""
STREAMS_MAX = 4
CHANNELS_MAX = 4
OPTIONS_MAX = 16
"""Most rates, and most gains, that a board can offer: an identity must fit."""
NAME_MAX = 32
"""Longest ADC name or serial number in an identity, in bytes."""
SPAN_MAX_US = 2**31 - 1
"""Longest time from first to last sample of a frame, so that it can be unwrapped."""


class MisfitError(Exception):
    """A sound frame whose payload says something impossible; stays in `wire`."""
