"""The board in use, and whether what comes is its own.

No clock, no port: it is told what was heard, in order.

Rules:

* The first board that says who it is, is the board in use. Another one on the same
  port is noticed and not used until somebody says so, each time: two boards that
  change places between sets are asked for at each change. Nothing is kept beyond
  the run of the program.
* A board is known by its serial number, and by what its counts are: converter, bits,
  channels, gain and rate. A board without a serial number is known by those alone:
  two of one make cannot be told apart.
* A board of plain lines has no serial number and its rate is measured, so it is
  known by its number of channels and of decimals.
* After the port was opened again, samples are held until the board has said who it
  is. They are then used, or thrown away. One that goes on for `HELD_S` without saying
  it is another board.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.conditioning.profile import adc_words
from biofeedback.phrase import Phrase, joined, numbered, phrase
from biofeedback.rig.handoff import OtherBoard
from biofeedback.rig.nominal import is_plain

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.wire.frames import Identity, Samples
    from biofeedback.wire.run import Run

HELD_S = 0.5
"""Twice as long as a question waits until it is asked again."""
HELD_MAX = 2000
"""Pieces; far more than come in that time, whatever rate a board claims."""
NAMELESS = phrase("a board that does not say who it is")


class BoardInUse:
    """Follows which board is on the port.

    Attributes:
        identity: of the board in use; None before one has said who it is.
    """

    def __init__(self) -> None:
        self.identity: Identity | None = None
        self._other: Identity | None = None
        self._here: Phrase | None = None  # the other board in words, while it is there
        self._proven = True
        self._held: list[tuple[tuple[Samples | Run, ...], bytes]] = []
        self._held_samples = 0

    @property
    def trusted(self) -> bool:
        """Whether what comes now is of the board in use."""
        return self._proven and self._here is None

    @property
    def nameless(self) -> bool:
        """Whether the board that is on the port has still to say who it is."""
        return not self.trusted and self._other is None

    @property
    def other(self) -> OtherBoard | None:
        """The other board that is on the port; None where there is none."""
        if self._here is None:
            return None
        known = NAMELESS
        if self.identity is not None:
            known = board_words(self.identity, self._other)
        return OtherBoard(known, self._here)

    def gone(self) -> None:
        """The port is gone, and with it whatever was on it."""
        self._other = self._here = None
        self._let_go()
        self._proven = self.identity is None

    def hold(self, frames: Iterable[Samples | Run], data: bytes) -> bool:
        """Keeps what came of a board that has not said who it is yet.

        Returns:
            Whether another board was noticed by it just now.
        """
        if self._here is not None or self.identity is None:
            return False
        piece = tuple(frames)
        self._held.append((piece, data))
        self._held_samples += sum(len(one.counts) for one in piece)
        most = max(1.0, HELD_S * self.identity.rate_hz)
        if self._held_samples <= most and len(self._held) <= HELD_MAX:
            return False
        self._let_go()
        self._here = NAMELESS
        return True

    def meets(self, identity: Identity, *, in_set: bool) -> bool:
        """A board says who it is.

        Returns:
            Whether it is the board in use, which the first one becomes; else it is
            `other` from now on. Before the first, nobody knows whose samples a set
            under way was judged by.
        """
        if self.identity is None and in_set:
            same = False
        else:
            same = self.identity is None or same_board(self.identity, identity)
        if same:
            self.identity = identity
            self._other = self._here = None
            self._proven = True
            return True
        self._let_go()
        self._other = identity
        self._here = board_words(identity, self.identity)
        return False

    def held(self) -> list[tuple[tuple[Samples | Run, ...], bytes]]:
        """What was held until now, to be used."""
        held = self._held
        self._let_go()
        return held

    def change(self) -> Identity | None:
        """The other board is the board in use from now on.

        Returns:
            Who it is; None for one that does not say.
        """
        self.identity = self._other
        self._other = self._here = None
        self._proven = True
        self._let_go()
        return self.identity

    def _let_go(self) -> None:
        self._held, self._held_samples = [], 0


def same_board(one: Identity, other: Identity) -> bool:
    """Whether two identities are of one board whose counts mean the same."""
    rates = (0.0, 0.0)
    if not is_plain(one):
        rates = (one.rate_hz, other.rate_hz)
    return rates[0] == rates[1] and (
        (one.serial_number, one.adc, one.adc_bits, one.stream_channels, one.gain)
        == (
            other.serial_number,
            other.adc,
            other.adc_bits,
            other.stream_channels,
            other.gain,
        )
    )


def board_words(identity: Identity, beside: Identity | None) -> Phrase:
    """A board by its serial number, and by what differs where that is not enough."""
    number = identity.serial_number
    if number and (beside is None or beside.serial_number != number):
        return phrase("board {number}", number=number)
    told = _counts_words(identity, beside)
    if number:
        return phrase("board {number} ({counts})", number=number, counts=told)
    if not told:
        return phrase("a board without a serial number")
    return phrase("a board without a serial number ({counts})", counts=told)


def _counts_words(identity: Identity, beside: Identity | None) -> str:
    """What its counts are, as far as the other's are not the same."""
    told: list[str] = []
    if beside is None or identity.stream_channels != beside.stream_channels:
        told.append(numbered(identity.channels, "1 channel", "{count} channels"))
    # That of a plain board is measured: it differs from itself.
    if beside is None or (
        not is_plain(identity) and identity.rate_hz != beside.rate_hz
    ):
        told.append(phrase("{rate_hz:g} Hz", rate_hz=identity.rate_hz))
    if identity.adc and (beside is None or identity.adc != beside.adc):
        told.append(adc_words(identity.adc))
    if beside is not None and identity.adc_bits != beside.adc_bits:
        told.append(phrase("{bits} bits", bits=identity.adc_bits))
    if identity.gain is not None and (beside is None or identity.gain != beside.gain):
        told.append(phrase("gain {gain}", gain=identity.gain))
    return joined(", ", told)
