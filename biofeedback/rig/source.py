"""The source: where a rig's bytes come from.

A source gives frames as bytes, whatever stands behind it: a serial port, a
simulated rig, a recording, or a plain board whose text lines it turns into
frames. It belongs to the acquisition thread; only `cancel` may be called from
another.
"""

from __future__ import annotations

from typing import Protocol


class SourceEnded(Exception):  # noqa: N818  an end, not an error
    """A replay has come to its end."""


class Source(Protocol):
    """Bytes of frames in, bytes of host frames out."""

    @property
    def name(self) -> str:
        """For people: the port, the file, or what is simulated."""

    @property
    def found(self) -> str:
        """What the source found out about the board; empty until it knows."""

    @property
    def paced(self) -> bool:
        """Whether its time is that of the world, so that what it gives can be late."""

    def open(self) -> None:
        """Opens the port or file.

        Raises:
            RigError: the port cannot be opened.
            FileError: the file cannot be read.
        """

    def read(self) -> bytes:
        """Waits up to about 20 ms and returns what has come, possibly nothing.

        Raises:
            RigError: the port is gone.
            SourceEnded: there will be no more.
        """

    def write(self, data: bytes) -> None:
        """Sends host frames. A source that cannot be told anything ignores them.

        Raises:
            RigError: the port is gone.
        """

    def cancel(self) -> None:
        """Ends a `read` that could wait for long; safe from another thread."""

    def close(self) -> None:
        """Closes the port or file; safe to call twice."""


class Recorder(Protocol):
    """What the acquisition thread tells of a set, so that it can be kept.

    None of these wait and none of them raise: a recording that fails says so
    through `failing`, in words through `take_failure`, and the live display goes on.
    """

    def begin(self, header: dict[str, object]) -> None:
        """A set begins; `header` becomes the recording's header frame."""

    def put(self, data: bytes) -> None:
        """Whole frames, as they came from the board or went to it."""

    def event(self, content: dict[str, object], *, sequence: int) -> None:
        """Something happened after sample `sequence` − 1."""

    def finish(self, totals: dict[str, object], *, sequence: int) -> None:
        """The set is over; `totals` becomes the close frame."""

    @property
    def failing(self) -> bool:
        """Whether the signal does not reach the disk at present."""

    def take_failure(self) -> str:
        """Plain words about what went wrong, or right again, since the last call."""
