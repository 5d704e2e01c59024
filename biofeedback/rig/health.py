"""How good the signal is: bookkeeping over what came and when.

Pure: the time comes in as monotonic nanoseconds. Three states that must not look
alike are kept apart by what still comes:

* live: samples come.
* silent: no samples for 0.5 s, but the board goes on answering; `status` says
  which chip gives no data.
* lost: no samples for 0.5 s and nothing else since, or the port is gone.
"""

from __future__ import annotations

from collections import deque
from typing import TYPE_CHECKING

from biofeedback.rig.handoff import Health, Link
from biofeedback.wire.frames import Samples, Status

if TYPE_CHECKING:
    from biofeedback.conditioning.block import Block
    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.wire.frames import Damage, Frame

NS = 1_000_000_000
PATIENCE_S = 0.5
"""A signal that is gone this long is plainly gone, on every screen."""
PERIODS = 4
"""A slow board is given this many of its periods, where that is longer."""
ANSWERS_S = 1.5
"""`status` comes once a second; a board that missed one does not answer."""
RATE_OVER_S = 3.0
"""Device time over which the rate is measured."""
OPENING_WORDS = "Waiting for the board to answer."


class Watch:
    """Keeps account of one source.

    Args:
        source: its name, for people.
        now_ns: when it was told to open.
    """

    def __init__(self, source: str, *, now_ns: int) -> None:
        self._source = source
        self._lost = self._damaged = 0
        self._failure = ""
        self._ended = ""
        self._samples_ns: int | None = None  # when the newest sample was read
        self._other_ns: int | None = None  # when anything else was
        self._opened_ns = now_ns
        self._status: Status | None = None
        self._saturated: tuple[bool, ...] = ()
        self._stamps: deque[tuple[float, int]] = deque()  # time in s, next index
        self._rate_hz = 0.0

    @property
    def failure(self) -> str:
        """Why the port is gone; empty while it is not."""
        return self._failure

    @property
    def lost(self) -> int:
        """Samples lost since the source was opened first."""
        return self._lost

    @property
    def damaged(self) -> int:
        """Damaged frames since the source was opened first."""
        return self._damaged

    def opened(self, *, now_ns: int) -> None:
        """The port is open; nothing has come yet."""
        self._failure = ""
        self._opened_ns = now_ns
        self._samples_ns = self._other_ns = None
        self._status = None
        self.begin_stream()

    def failed(self, message: str) -> None:
        """The port is gone, or could not be opened."""
        self._failure = message

    def ended(self, message: str) -> None:
        """There will be no more; the first reason told is kept."""
        self._ended = self._ended or message

    def begin_stream(self) -> None:
        """Indices start again at 0 with the next block."""
        self._stamps.clear()

    def damage(self, damage: Damage, *, now_ns: int) -> None:
        """Bytes came that held no good frame."""
        del damage
        self._damaged += 1
        self._other_ns = now_ns

    def frame(self, frame: Frame, *, now_ns: int) -> None:
        """A good frame came."""
        if isinstance(frame, Samples):
            self._samples_ns = now_ns
            return
        self._other_ns = now_ns
        if isinstance(frame, Status):
            self._status = frame

    def block(self, block: Block) -> None:
        """Samples have been conditioned."""
        self._lost += block.lost
        self._saturated = tuple(block.saturated[-1].tolist())
        now_s = float(block.time_s[-1])
        if self._stamps and block.time_s[0] - self._stamps[-1][0] > PATIENCE_S:
            self._stamps.clear()  # the length of a long gap may not be known
        self._stamps.append((now_s, block.first_index + len(block)))
        while now_s - self._stamps[0][0] > RATE_OVER_S:
            self._stamps.popleft()
        (first_s, first), (last_s, last) = self._stamps[0], self._stamps[-1]
        if last_s - first_s >= PATIENCE_S:
            self._rate_hz = (last - first) / (last_s - first_s)

    def report(
        self,
        *,
        now_ns: int,
        found: str,
        profile: RigProfile,
        filter_delay_s: float,
        recording: bool,
    ) -> Health:
        """How things stand now."""
        link = self._link(now_ns, profile.rate_hz)
        live = link is Link.LIVE
        return Health(
            link=link,
            source=self._source,
            found=found,
            rate_hz=self._rate_hz if live else 0.0,
            lost=self._lost,
            damaged=self._damaged,
            arrived_ns=self._samples_ns,
            filter_delay_s=filter_delay_s,
            saturated=live and any(self._saturated),
            recording=recording,
            message=self._words(link, profile),
        )

    def _link(self, now_ns: int, rate_hz: float) -> Link:
        if self._ended:
            return Link.ENDED
        if self._failure:
            return Link.LOST
        patience_ns = max(PATIENCE_S, PERIODS / rate_hz) * NS
        if self._samples_ns is not None and now_ns - self._samples_ns <= patience_ns:
            return Link.LIVE
        if self._answers(now_ns):
            return Link.SILENT
        if self._samples_ns is None and self._other_ns is None:
            return Link.OPENING
        return Link.LOST

    def _answers(self, now_ns: int) -> bool:
        """Whether anything but samples has come after the last of them."""
        other_ns, samples_ns = self._other_ns, self._samples_ns
        if other_ns is None or now_ns - other_ns > ANSWERS_S * NS:
            return False
        return samples_ns is None or other_ns > samples_ns

    def _words(self, link: Link, profile: RigProfile) -> str:
        match link:
            case Link.LIVE:
                return saturation_words(self._saturated, profile)
            case Link.SILENT:
                return silence_words(self._status)
            case Link.LOST:
                return self._failure or (
                    f"Nothing comes from {self._source} any more. "
                    "Look at the cable and at the board's power."
                )
            case Link.OPENING:
                return OPENING_WORDS
            case Link.ENDED:
                return self._ended


def saturation_words(saturated: tuple[bool, ...], profile: RigProfile) -> str:
    """Which cells are at their stop; empty where none is."""
    names = [
        f"the {channel.name} cell" if len(profile.channels) > 1 else "the cell"
        for channel, stuck in zip(profile.channels, saturated, strict=False)
        if stuck
    ]
    if not names:
        return ""
    listed = " and ".join(names)
    verb = "are" if len(names) > 1 else "is"
    return (
        f"{listed[0].upper()}{listed[1:]} {verb} at the end of the range. "
        "Take the load off and look at the wiring."
    )


def silence_words(status: Status | None) -> str:
    """Why a board that answers sends no samples, as far as it says."""
    if status is None:
        return "The board answers but sends no samples yet."
    silent = [number + 1 for number, chip in enumerate(status.silent) if chip]
    if silent:
        which = (
            "its converter gives"
            if len(status.silent) == 1
            else f"converter {' and '.join(map(str, silent))} gives"
        )
        return (
            f"The board answers but {which} no data. "
            "Look at the wiring between the board and the load-cell amplifier."
        )
    if not status.streaming:
        return "The board answers but has stopped sending. It is asked to start again."
    return (
        "The board says it is sending, but no samples arrive. "
        "Look at the cable, and at the baud rate."
    )
