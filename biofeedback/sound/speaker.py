"""The speaker: what takes the samples, with a device or without.

A speaker asks for samples when it needs them; nobody pushes. One with a device asks
from a thread of its own.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol, TypeAlias

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable

    import numpy.typing as npt

    Samples: TypeAlias = npt.NDArray[np.float32]
    Fill: TypeAlias = Callable[[int], Samples | None]
    """The next so many samples; None when nothing more is to come."""


TAIL = 256
"""Samples at a time in which what is left is played out."""


class Speaker(Protocol):
    """What plays."""

    @property
    def lost(self) -> bool:
        """Whether it stopped by itself while it was open."""

    def open(self, fill: Callable[[float], Fill]) -> None:
        """Begins to ask for samples.

        Args:
            fill: tells whom to ask, given the samples a second.

        Raises:
            UserError: it cannot; says what to do.
        """

    def close(self) -> None:
        """Waits until nothing more is to come, then asks no longer."""


class BufferSpeaker:
    """Plays into buffers, when it is told to: for tests, measurements and by hand.

    Attributes:
        tail: what was still to come when it was closed.
    """

    def __init__(self, rate_hz: float = 48_000.0) -> None:
        self.rate_hz = rate_hz
        self.lost = False
        self.tail: Samples = np.zeros(0, np.float32)
        self._fill: Fill | None = None

    def open(self, fill: Callable[[float], Fill]) -> None:
        """See `Speaker`."""
        self._fill = fill(self.rate_hz)

    def play(self, samples: int) -> Samples:
        """What a device would get now; silence while it is shut."""
        taken = self._fill(samples) if self._fill else None
        return np.zeros(samples, np.float32) if taken is None else taken

    def close(self) -> None:
        """See `Speaker`."""
        fill, self._fill = self._fill, None
        tail = []
        while fill is not None and (taken := fill(TAIL)) is not None:
            tail.append(taken)
        self.tail = np.concatenate(tail) if tail else self.tail
