"""Reads recordings: the header first, then frame by frame in bounded memory.

Cut the file anywhere and all frames before the cut are given. A frame that does
not check is given as a `Damage` and nothing of it is used. Nothing is mended,
guessed or filled in; `Recording.survey` tells what is missing.

After `BARREN_MOST_BYTES` in a row without one good frame a file is read no further,
and what was left is told as one `Damage`: see there.
"""

from __future__ import annotations

import stat
from dataclasses import dataclass
from typing import TYPE_CHECKING, NoReturn, TypeAlias

import numpy as np

from biofeedback.errors import FieldError, FileError
from biofeedback.logbook import folders, recording_format
from biofeedback.logbook.sealed import reading
from biofeedback.phrase import joined, numbered, phrase
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.fields import Fields
from biofeedback.wire.frames import Close, Damage, Frame, Header, Samples
from biofeedback.wire.limits import ENCODED_MAX
from biofeedback.wire.run import Run
from biofeedback.wire.timeline import Timeline

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping
    from pathlib import Path

    import numpy.typing as npt

CHUNK_BYTES = 2**19
"""Read at once: some thousand frames, as it pays to decode them together, and small
beside any memory."""
HEADER_CHUNK_BYTES = 4096
"""Most headers are shorter; to read on would decode samples that nobody asked for."""
HEADER_WITHIN_BYTES = 2 * ENCODED_MAX
"""The header is the first frame. What has none by then has none, however long it is."""
BARREN_MOST_BYTES = 64 * 2**20
"""So much without one good frame, and nothing of the set can follow.

A power cut leaves zeros where blocks of the disk were not written yet: what is flushed
each 0.25 s is some kB, and no file system holds back more than some MB of a file.
A line that gives nothing but noise fills this in 22 minutes at 500 kbaud. It is read in
0.2 s where it is zeros, and in some seconds where it is not. Our own choice."""
UNREAD = "left unread"
"""Reason of the `Damage` that stands for all that was not read any more."""

Found: TypeAlias = Frame | Damage


@dataclass(frozen=True, slots=True)
class Survey:
    """What a recording holds and what it lacks.

    Attributes:
        samples: usable for counting, in all streams; repeated ones left out.
        lost: samples that are missing between others.
        restarts: gaps of unknown length; each counts as one lost sample.
        damaged: frames that could not be read, and `damaged_bytes` in them.
        unknown: sound frames of a kind this version does not know.
        cut_bytes: the beginning of a frame that the file ends in.
        totals: content of the close frame, or None where there is none.
        unread_from: the byte after the last good frame, where so much without any
            followed that the rest, `unread_bytes`, was not looked at.
    """

    frames: int
    samples: int
    lost: int
    restarts: int
    damaged: int
    damaged_bytes: int
    unknown: int
    cut_bytes: int
    totals: Mapping[str, object] | None
    unread_from: int = 0
    unread_bytes: int = 0

    @property
    def recovered(self) -> bool:
        """Whether the recording was cut off: it has no close frame."""
        return self.totals is None

    def losses(self) -> str:
        """What is missing, in plain words; empty where nothing is."""
        words = []
        if self.damaged:
            words.append(
                numbered(
                    self.damaged,
                    "1 damaged frame ({size} bytes) could not be read",
                    "{count} damaged frames ({size} bytes) could not be read",
                    size=self.damaged_bytes,
                )
            )
        if self.unread_bytes:
            words.append(
                phrase(
                    "from about byte {at} on there is no good frame, and the last "
                    "{size} bytes were not read",
                    at=self.unread_from,
                    size=self.unread_bytes,
                )
            )
        if self.lost:
            words.append(
                numbered(
                    self.lost,
                    "at least 1 sample missing in between",
                    "at least {count} samples missing in between",
                )
                if self.restarts
                else numbered(
                    self.lost,
                    "1 sample missing in between",
                    "{count} samples missing in between",
                )
            )
        if self.recovered:
            words.append(
                phrase(
                    "the recording was cut off before its end, {count} bytes into a "
                    "frame",
                    count=self.cut_bytes,
                )
                if self.cut_bytes
                else phrase("the recording was cut off before its end")
            )
        return joined("; ", words)


@dataclass(frozen=True, slots=True, eq=False)
class StreamCounts:
    """All counts of one stream.

    Attributes:
        index: shape (n,), number of each sample from 0; lost ones leave a gap.
        time_s: shape (n,), device time from the first sample of the recording.
        counts: shape (n, channels), int32.
        saturated: shape (n, channels), bool.
        settling: shape (n,), bool.
    """

    index: npt.NDArray[np.int64]
    time_s: npt.NDArray[np.float64]
    counts: npt.NDArray[np.int32]
    saturated: npt.NDArray[np.bool_]
    settling: npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Recording:
    """One recording on disk.

    Attributes:
        header: content of its header frame, whose format has been checked.
    """

    path: Path
    header: Mapping[str, object]

    def frames(self) -> Iterator[Found]:
        """All frames in order, from the header on; damage where it stands.

        Raises:
            FileError: the file can no longer be read.
        """
        for found in self.pieces():
            if isinstance(found, Run):
                yield from found.frames()
            else:
                yield found

    def pieces(self) -> Iterator[Found | Run]:
        """The same, with frames of samples that look alike together, and quicker.

        Raises:
            FileError: the file can no longer be read.
        """
        yield from _found(self.path, Decoder())

    def told(self) -> Iterator[Found]:
        """All frames but those of samples, which are passed over unread.

        Raises:
            FileError: the file can no longer be read.
        """
        for found in _found(self.path, Decoder(samples=False)):
            if not isinstance(found, Run):  # which samples alone are
                yield found

    def survey(self) -> Survey:
        """Goes through the file once and counts.

        Raises:
            FileError: the file can no longer be read.
        """
        decoder, timeline = Decoder(), Timeline()
        frames = samples = damaged = damaged_bytes = unread_bytes = 0
        totals: Mapping[str, object] | None = None
        for found in _found(self.path, decoder):
            if isinstance(found, Damage) and found.reason == UNREAD:
                unread_bytes = found.size_bytes
            elif isinstance(found, Damage):
                damaged += 1
                damaged_bytes += found.size_bytes
            else:
                frames += len(found) if isinstance(found, Run) else 1
                if isinstance(found, Samples | Run):
                    for placed, _ in timeline.place_all(found):
                        samples += len(placed.time_s)
                elif isinstance(found, Close):
                    totals = found.content
        return Survey(
            frames=frames,
            samples=samples,
            lost=timeline.lost,
            restarts=timeline.restarts,
            damaged=damaged,
            damaged_bytes=damaged_bytes,
            unknown=decoder.unknown,
            cut_bytes=decoder.held_bytes,
            totals=totals,
            unread_from=_unread_from(self.path, unread_bytes),
            unread_bytes=unread_bytes,
        )


def read(path: Path) -> Recording:
    """Opens a recording and checks its header.

    Raises:
        FileError: it cannot be read, is no recording, has a damaged header, or
            is of a newer major version.
    """
    _refuse_stream(path)
    decoder = Decoder()
    looked_at_bytes = 0
    for chunk in _chunks(path, size=HEADER_CHUNK_BYTES):
        looked_at_bytes += len(chunk)
        if looked_at_bytes > HEADER_WITHIN_BYTES:
            break
        for found in decoder.push(chunk):
            if isinstance(found, Header):
                _check_format(path, found.content)
                return Recording(path, found.content)
            _refuse_beginning(path, found)
    raise FileError(
        path, phrase("this is not a recording: there is not one whole frame in it.")
    )


def _refuse_stream(path: Path) -> None:
    """A recording is read more than once, which a pipe does not allow."""
    try:
        mode = path.stat().st_mode
    except OSError as error:
        raise _unreadable(path, error) from error
    if not (stat.S_ISREG(mode) or stat.S_ISDIR(mode)):
        raise FileError(
            path,
            phrase("this is no file on a disk."),
            next_step=phrase("Save it in a file first."),
        )


def _refuse_beginning(path: Path, found: Found) -> NoReturn:
    if isinstance(found, Damage):
        raise FileError(
            path,
            phrase(
                "this is not a recording, or its header is damaged; "
                "without it counts cannot be turned into newtons."
            ),
            place=phrase("byte 0"),
        )
    kind = type(found).__name__.lower()
    raise FileError(
        path,
        phrase(
            "this is not a recording: it begins with a frame of kind {kind}.", kind=kind
        ),
    )


def _check_format(path: Path, header: Mapping[str, object]) -> None:
    try:
        found = Fields(header, "header").inner("format")
        name = found.text("name")
        major = found.whole("major", least=0, most=10_000)
        minor = found.whole("minor", least=0, most=10_000)
    except FieldError as error:
        raise FileError(
            path, phrase("this is not a recording: {error}", error=error)
        ) from error
    if name != recording_format.NAME:
        raise FileError(
            path, phrase("this is not a recording but a “{name}”.", name=name)
        )
    if major > recording_format.MAJOR:
        raise FileError(
            path,
            phrase(
                "this recording is of format {major}.{minor}, made "
                "by a newer version of the program; known here is "
                "{major_2}.{minor_2}.",
                major=major,
                minor=minor,
                major_2=recording_format.MAJOR,
                minor_2=recording_format.MINOR,
            ),
            next_step=phrase("Install the newer version."),
        )


def counts(path: Path) -> dict[int, StreamCounts]:
    """The counts of each stream, as the board sent them.

    Raises:
        FileError: it cannot be read, or a stream changes its number of channels.
    """
    timeline = Timeline()
    parts: dict[int, list[StreamCounts]] = {}
    for found in read(path).pieces():
        if not isinstance(found, Samples | Run):
            continue
        for placed, samples in timeline.place_all(found):
            kept = slice(placed.skip, None)
            part = StreamCounts(
                placed.first_index + np.arange(len(placed.time_s)),
                placed.time_s,
                samples.counts[kept],
                samples.saturated[kept],
                samples.settling[kept],
            )
            earlier = parts.setdefault(samples.stream, [])
            if earlier and earlier[0].counts.shape[1] != part.counts.shape[1]:
                raise FileError(
                    path,
                    phrase(
                        "stream {stream} changes its number of channels.",
                        stream=samples.stream,
                    ),
                )
            earlier.append(part)
    return {stream: _joined(found) for stream, found in sorted(parts.items())}


def _joined(parts: list[StreamCounts]) -> StreamCounts:
    return StreamCounts(
        np.concatenate([part.index for part in parts]),
        np.concatenate([part.time_s for part in parts]),
        np.concatenate([part.counts for part in parts]),
        np.concatenate([part.saturated for part in parts]),
        np.concatenate([part.settling for part in parts]),
    )


def _found(path: Path, decoder: Decoder) -> Iterator[Found | Run]:
    """Frames and damage, as far as there is anything to be found."""
    at = good_until = 0
    for chunk in _chunks(path):
        at += len(chunk)
        before = decoder.unknown + decoder.passed_over
        found = decoder.push_runs(chunk)
        good = any(not isinstance(one, Damage) for one in found)
        if good or decoder.unknown + decoder.passed_over > before:
            good_until = at
        yield from found
        if at - good_until >= BARREN_MOST_BYTES:
            left = path.stat().st_size - at
            if left > 0:
                yield Damage(left, UNREAD)
            return


def _unread_from(path: Path, unread_bytes: int) -> int:
    """Where what is barren begins, to a chunk; 0 where all was read."""
    if not unread_bytes:
        return 0
    return max(0, path.stat().st_size - unread_bytes - BARREN_MOST_BYTES)


def _chunks(path: Path, *, size: int = CHUNK_BYTES) -> Iterator[bytes]:
    try:
        with path.open("rb") as file:
            yield from reading.pieces(file, path, size)
    except OSError as error:
        raise _unreadable(path, error) from error


def _unreadable(path: Path, error: OSError) -> FileError:
    return FileError(
        path,
        phrase("the file cannot be read ({reason}).", reason=folders.reason(error)),
    )
