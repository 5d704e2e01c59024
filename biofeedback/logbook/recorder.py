"""The recorder: keeps a set while it happens, on a thread of its own.

Rules that hold here:

* What the acquisition thread calls only queues; it never waits for a disk and is
  never given an exception. What goes wrong is told by `take_failure`.
* Nothing is dropped. What cannot be written is kept in memory and tried again;
  only when that is full is the signal refused, and said so. Events never are.
* On disk, not only with the system: at least every 0.25 s, at each rep end and at
  the end.
* The thread lives as long as there is something to keep, and no longer.
"""

from __future__ import annotations

import logging
import threading
from collections import deque
from typing import TYPE_CHECKING

from biofeedback.errors import NOTHING, FieldError
from biofeedback.logbook import recording_format
from biofeedback.logbook.keeper import Begin, End, Enter, Item, Keeper, Put
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.moments import now_utc
from biofeedback.phrase import Phrase, phrase, sentences
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import SEQUENCE_MODULUS, Close, Event, Header

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from biofeedback.logbook.database import Logbook

FLUSH_S = 0.1
"""From one flush to the next: a kill may cost 0.25 s, and a busy machine holds a thread
up by a tenth of a second (200 kills at 0.15 s, the last of them with all cores at work:
0.26 s at most)."""
RETRY_S = 0.5
"""From one attempt to the next while disk or logbook do not take it."""
STOP_S = 10.0
"""How long `stop` waits: longer than a disk that has to spin up."""
KEPT_MAX_BYTES = 64 * 2**20
"""Kept in memory while the disk does not take it: over 110 min of two channels at
1 kHz (9.9 kB/s, see `hardware/PROTOCOL.md`), and little beside a window's needs. Then
the signal is refused, in words, until the disk or a second folder takes what is kept.
Events come on top; people make them, so there are few."""

_log = logging.getLogger(__name__)


class FileRecorder:
    """Writes each set into a file of its own and enters it into the logbook.

    `begin`, `put`, `event`, `finish`, `failing` and `take_failure` are for the
    acquisition thread; `record_in` and `needs_folder` are for the main thread, and so
    is `stop`, after the acquisition has stopped.

    Args:
        folder: of the recordings; made when it is needed.
        logbook: where sets and reps are entered.
        kept_max_bytes: how much is kept while the disk does not take it.
    """

    def __init__(
        self, folder: Path, logbook: Logbook, *, kept_max_bytes: int = KEPT_MAX_BYTES
    ) -> None:
        self._folder = folder
        self._kept_max_bytes = kept_max_bytes
        self._keeper = Keeper(logbook, self._tell)  # the recorder's thread owns it
        self._set_id: str | None = None  # the acquisition thread owns it
        self._full = False  # and this
        # All below is shared, under the lock of `_changed`.
        self._changed = threading.Condition()
        self._queue: deque[Item] = deque()
        self._queued_bytes = 0
        self._kept_bytes = 0
        self._failures: list[Phrase] = []
        self._on_disk = True  # at the last attempt
        self._given_up = False  # the set under way is not kept any more
        self._elsewhere: Path | None = None  # a second folder was picked
        self._thread: threading.Thread | None = None
        self._urgent = False
        self._stopping = False
        self._all_kept = True

    # What the acquisition thread calls ----------------------------------------

    def begin(self, header: dict[str, object]) -> None:
        """A set begins; `header` becomes the recording's header frame."""
        set_id = str(header.get("set_id") or new_key())
        started_utc = now_utc()
        content = recording_format.completed(
            header, set_id=set_id, started_utc=started_utc
        )
        name = recording_format.file_name(
            started_utc=started_utc,
            athlete_code=str(header.get("athlete_code") or ""),
            set_id=set_id,
        )
        self._set_id = None
        self._full = False
        data = self._encoded(Header(content))
        with self._changed:
            self._given_up = data is None
        if data is None:
            return
        self._set_id = set_id
        self._add(
            Begin(self._folder / name, data),
            Enter(lambda book, file: book.enter_recording(content, file)),
            urgent=True,
        )

    def put(self, data: bytes) -> None:
        """Whole frames, as they came from the board or went to it."""
        if self._set_id is None or not data:
            return
        with self._changed:
            kept_bytes = self._queued_bytes + self._kept_bytes + len(data)
        was_full, self._full = self._full, kept_bytes > self._kept_max_bytes
        if not self._full:
            self._add(Put(data, own=False))
        elif not was_full:
            self._tell(
                phrase(
                    "The recording cannot be written and there is no memory left to "
                    "keep it in: the signal is being lost from here on."
                )
            )

    def event(self, content: dict[str, object], *, sequence: int) -> None:
        """Something happened after sample `sequence` − 1."""
        if self._set_id is None:
            return
        data = self._encoded(Event(content, sequence % SEQUENCE_MODULUS))
        if data is None:
            return
        rep = content.get("rep")
        if content.get("kind") == recording_format.REP_END and isinstance(rep, dict):
            row = _rep_row(self._set_id, dict(rep))
            self._add(Put(data, own=True), row, urgent=True)
        else:
            self._add(Put(data, own=True))

    def finish(self, totals: dict[str, object], *, sequence: int) -> None:
        """The set is over; `totals` becomes the close frame."""
        if self._set_id is None:
            return
        data = self._encoded(Close(totals, sequence % SEQUENCE_MODULUS))
        if data is None:  # without a close frame it is as if cut off here
            self._add(End(), urgent=True)
        else:
            row = _close_row(self._set_id, dict(totals))
            self._add(Put(data, own=True), row, End(), urgent=True)
        self._set_id = None

    @property
    def failing(self) -> bool:
        """Whether the signal does not reach the disk at present.

        A logbook that is busy is no failure of the recording.
        """
        with self._changed:
            return self._full or self._given_up or not self._on_disk

    def take_failure(self) -> Phrase:
        """Plain words about what went wrong, or right again, since the last call."""
        with self._changed:
            if not self._failures:  # as nearly always, and asked for at each turn
                return NOTHING
            words = sentences(*self._failures)
            self._failures.clear()
        return words

    def _encoded(self, frame: Header | Event | Close) -> bytes | None:
        """Encoded at once, so that nobody can change the content meanwhile."""
        try:
            return encode(frame)
        except (FieldError, ValueError) as error:
            kind = type(frame).__name__.lower()
            self._tell(
                phrase(
                    "The recording's {kind} could not be kept: {error}",
                    kind=kind,
                    error=error.words if isinstance(error, FieldError) else error,
                )
            )
            return None

    def _add(self, *items: Item, urgent: bool = False) -> None:
        with self._changed:
            self._queue.extend(items)
            self._queued_bytes += sum(
                len(item.data) for item in items if isinstance(item, Begin | Put)
            )
            if self._thread is None:
                self._thread = threading.Thread(target=self._run, name="recorder")
                self._thread.start()
            if urgent:
                self._urgent = True
                self._changed.notify()

    def _tell(self, words: Phrase) -> None:
        with self._changed:
            if words not in self._failures:
                self._failures.append(words)

    # What the main thread calls -----------------------------------------------

    @property
    def needs_folder(self) -> bool:
        """Whether the disk does not take the recording, and another folder may."""
        with self._changed:
            return not self._on_disk and not self._given_up

    @property
    def settled(self) -> bool:
        """Whether nothing waits to be kept: no recording, no row, nothing elsewhere."""
        with self._changed:
            return self._thread is None and not self._queue

    def record_in(self, folder: Path) -> None:
        """The recording under way goes on in another folder; nothing is waited for.

        What follows is told by `take_failure`, also where that folder fails too.
        """
        with self._changed:
            self._elsewhere = folder
            self._urgent = True
            self._changed.notify()

    def stop(self, timeout_s: float = STOP_S) -> bool:
        """Asks the thread to put everything on disk and end, and waits for it.

        Returns:
            Whether all is kept; if not, `take_failure` tells why.
        """
        with self._changed:
            thread = self._thread
            self._stopping = self._urgent = True
            self._changed.notify()
        if thread is not None:
            thread.join(timeout_s)
            if thread.is_alive():
                self._tell(
                    phrase(
                        "The disk has not answered for {timeout_s:g} s; the end of the "
                        "recording may be missing.",
                        timeout_s=timeout_s,
                    )
                )
                return False
        with self._changed:
            self._stopping = False
            return self._all_kept

    # What the recorder's thread does ------------------------------------------

    def _run(self) -> None:
        try:
            while self._turn():
                pass
        except Exception:  # noqa: BLE001  no thread may end without a word
            _log.exception("the recorder has stopped")
            self._tell(
                phrase(
                    "The recorder has stopped because of a fault in this program; what "
                    "was written so far can be recovered."
                )
            )
            self._keeper.let_go()
            with self._changed:
                self._all_kept = False
                self._given_up = True
                self._queue.clear()
                self._thread = None

    def _turn(self) -> bool:
        """One wait and the work after it; False when there is no more to do."""
        with self._changed:
            wait_s = RETRY_S if self._keeper.trouble else FLUSH_S
            self._changed.wait_for(lambda: self._urgent, timeout=wait_s)
            self._urgent = False
            # A program whose main thread has ended without `stop` is to end too.
            last = self._stopping or not threading.main_thread().is_alive()
            items = list(self._queue)
            self._queue.clear()
            self._kept_bytes += self._queued_bytes
            self._queued_bytes = 0
            elsewhere, self._elsewhere = self._elsewhere, None
        if elsewhere is not None:
            self._keeper.use_folder(elsewhere)
        on_disk = self._keeper.work(items)
        all_kept = self._keeper.give_up() if last else True
        with self._changed:
            if on_disk or last:
                self._kept_bytes = 0
            self._on_disk = on_disk
            self._all_kept = all_kept
            ends = not self._queue and (last or self._keeper.idle)
            if ends:
                self._thread = None
        return not ends


def _rep_row(set_id: str, rep: Mapping[str, object]) -> Enter:
    return Enter(lambda book, _file: book.add_rep(set_id, rep))


def _close_row(set_id: str, totals: Mapping[str, object]) -> Enter:
    return Enter(lambda book, _file: book.close_set(set_id, totals))
