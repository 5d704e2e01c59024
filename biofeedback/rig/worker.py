"""The acquisition thread: owns the source and all that its bytes become.

Rules:

* What it owns is touched by its own thread only. In come commands, by a queue;
  out go blocks and events, by the handoff; bytes go to the recorder.
* Commands are carried out between two reads.
* A source that fails is opened again every 0.5 s and a set under way goes on: the
  gap is data. A fault of the program is logged, told, and ends the thread; it
  never dies silently.
* `step` is one turn and does all the same without a thread: so it is tested.
"""

from __future__ import annotations

import contextlib
import logging
import queue
import threading
import time
from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from biofeedback.errors import RigError, UserError
from biofeedback.phrase import phrase
from biofeedback.rig.acquisition import Acquisition
from biofeedback.rig.conversation import Conversation
from biofeedback.rig.handoff import Handoff, Link
from biofeedback.rig.health import NS, Watch
from biofeedback.rig.health_words import OPENING_WORDS
from biofeedback.rig.nominal import NO_BOARD
from biofeedback.rig.pace import Pace
from biofeedback.rig.profile_choice import NOTHING_KNOWN, KnownBoards
from biofeedback.rig.source import SourceEnded
from biofeedback.wire.commands import HANDSHAKE_S
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Close, Damage, Event, Header
from biofeedback.wire.run import together as read_together
from biofeedback.wire.samples_payload import Packed
from biofeedback.wire.splitter import Splitter

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.rig.commands import Command
    from biofeedback.rig.handoff import Health
    from biofeedback.rig.source import Recorder, Source
    from biofeedback.wire.frames import Frame

log = logging.getLogger(__name__)

REOPEN_NS = NS // 2
IDLE_S = 0.02
"""How long a turn waits when there is nothing to read from."""
FIRST_SAMPLES_NS = round((HANDSHAKE_S + 1) * NS)
"""Commands wait this long for the first samples after the start, no longer."""
STOP_S = 10.0
"""A thread that has not ended by then hangs: a fault of the program. Longer than
a socket takes to give up connecting."""
FAULT_WORDS = phrase(
    "The program has met a fault of its own and no "
    "longer reads the rig. What was recorded is kept. "
    "Open the rig again; the log tells more."
)


class Worker:
    """Reads the rig.

    Args:
        source: where the bytes come from.
        profile: of the rig; None for the nominal one of the board that is found.
        handoff: where blocks, events and health go; a new one where it is None.
        recorder: keeps the sets, or None.
        clock: monotonic nanoseconds.
        known: what is kept of boards.

    Attributes:
        handoff: where the main thread takes them from.
    """

    def __init__(
        self,
        source: Source,
        profile: RigProfile | None = None,
        handoff: Handoff | None = None,
        recorder: Recorder | None = None,
        *,
        clock: Callable[[], int] = time.monotonic_ns,
        known: KnownBoards = NOTHING_KNOWN,
    ) -> None:
        self._source = source
        self._clock = clock
        self._watch = Watch(source.name, now_ns=clock(), paced=source.paced)
        self._acquisition = Acquisition(
            profile or NO_BOARD,
            recorder=recorder,
            watch=self._watch,
            audience=source,
            utc=lambda: datetime.now(tz=UTC).isoformat(timespec="milliseconds"),
            known=known,
        )
        self._commands: queue.SimpleQueue[Command] = queue.SimpleQueue()
        self._commands_from_ns = clock() + FIRST_SAMPLES_NS
        self._open = False
        self._over = False  # the source has ended, or cannot be opened at all
        self._closed = False
        self._reopen_at_ns = clock()
        self._conversation = Conversation()
        self._splitter = Splitter(from_board=True)
        self._decoder = Decoder()
        self._thread: threading.Thread | None = None
        self._stopping = threading.Event()
        self._pace = Pace()
        self.handoff = handoff or Handoff(
            self._health(), profile or NO_BOARD, clock=clock
        )

    def send(self, command: Command) -> None:
        """Asks for something; safe from any thread. The answer is an event.

        Raises:
            RigError: the rig is no longer read, so nobody would answer.
        """
        if self._closed:
            raise RigError(
                phrase("The rig is no longer read, so nothing can be asked of it."),
                phrase("Open it again."),
            )
        self._commands.put(command)

    # The thread.

    def start(self) -> None:
        """Begins to read, in a thread of its own."""
        if self._thread is not None:
            raise RuntimeError("this worker was started before")
        self._thread = threading.Thread(target=self._run, name="acquisition")
        self._thread.start()

    def stop(self) -> None:
        """Asks the thread to end and waits until it has.

        Without a thread it closes the source all the same. A set under way is
        ended and its recording closed.

        Raises:
            RuntimeError: the thread hangs, which is a fault of the program.
        """
        self._stopping.set()
        self._source.cancel()
        if self._thread is None:
            self._finish()
            return
        self._thread.join(STOP_S)
        if self._thread.is_alive():
            raise RuntimeError("the acquisition thread does not end")

    def _run(self) -> None:
        try:
            while not self._stopping.is_set():
                self._rest()
                self.step()
        except Exception:
            log.exception("The acquisition thread met a fault of the program")
            self._watch.failed(FAULT_WORDS)
        finally:
            self._finish()

    def _finish(self) -> None:
        """Ends the set, closes the source, tells the last."""
        if self._closed:
            return
        self._closed = True
        try:
            self._take_commands()
            self._acquisition.end_set("closed")
            if self._open:
                with contextlib.suppress(RigError):
                    self._source.write(self._conversation.close())
        except Exception:
            log.exception("The set could not be ended properly")
            self._watch.failed(FAULT_WORDS)
        finally:
            self._source.close()
            if not self._watch.failure:
                self._watch.ended(
                    phrase("{source_name} is closed.", source_name=self._source.name)
                )
            self._publish()

    def _rest(self) -> None:
        """In a set lets a quick board's frames wait while nobody looks; see `Pace`."""
        rest_ns = self._pace.rest_ns(
            in_set=self._acquisition.set_open,
            look_ns=self.handoff.looked_at_ns,
            now_ns=self._clock(),
        )
        if rest_ns:
            # An event to be waited for wakes no sooner and costs ten times as much.
            time.sleep(rest_ns / NS)

    # One turn.

    def step(self) -> None:
        """One turn: take commands, read, judge, hand over."""
        now_ns = self._clock()
        if self._acquisition.sending or now_ns >= self._commands_from_ns:
            self._commands_from_ns = 0
            self._take_commands()
        try:
            if self._open:
                self._read()
            elif self._over or now_ns < self._reopen_at_ns:
                self._stopping.wait(IDLE_S)
            else:
                self._try_to_open()
        except RigError as error:
            self._lose(error.words)
        except SourceEnded:
            self._acquisition.end_set("end of recording")
            self._give_up(None)
        except UserError as error:
            self._acquisition.end_set("source failed")
            self._give_up(error.words)
        self._publish()

    def _take_commands(self) -> None:
        while True:
            try:
                command = self._commands.get_nowait()
            except queue.Empty:
                return
            self._acquisition.carry_out(command)

    def _try_to_open(self) -> None:
        self._source.open()
        self._open = True
        self._watch.opened(now_ns=self._clock())
        self._conversation = Conversation()
        self._splitter = Splitter(from_board=True)
        self._decoder = Decoder()
        self._send(self._conversation.open(now_s=self._now_s()))

    def _read(self) -> None:
        """What has come; after a rest together with the frame that follows it."""
        together: list[Packed] = []
        data: list[bytes] = []
        failure: Exception | None = None
        came = self._source.read()
        self._pace.read_ns = self._clock()
        if came and self._pace.rests:
            self._sort(came, together, data)
            came, failure = self._read_on()
        self._sort(came, together, data)
        self._judge(together, data)
        if failure is not None:  # what had come is judged whatever happens
            raise failure
        if self._acquisition.nameless:
            self._send(self._conversation.ask_who(now_s=self._now_s()))
        self._send(self._conversation.due(now_s=self._now_s()))

    def _read_on(self) -> tuple[bytes, Exception | None]:
        """What follows what was read just now, or else what went wrong."""
        came, failure = b"", None
        try:
            came = self._source.read()
        except (RigError, UserError, SourceEnded) as error:
            failure = error
        self._pace.read_on(now_ns=self._clock(), came=bool(came))
        return came, failure

    def _sort(self, came: bytes, together: list[Packed], data: list[bytes]) -> None:
        """Frames of samples are put together; what is between them ends that."""
        for piece in self._splitter.push(came).split(b"\0")[:-1]:
            found = self._decoder.end_piece(piece)
            if isinstance(found, Packed):
                together.append(found)
                data.append(piece)
            elif found is not None:
                self._judge(together, data)
                self._hear(found, piece + b"\0")

    def _judge(self, together: list[Packed], data: list[bytes]) -> None:
        """Frames of samples that came at once are judged at once, and forgotten.

        What is written of an event stands after the last of them. No number depends
        on it, and several cost little more than one.
        """
        if together:
            self._pace.judged(len(together))
            now_ns = self._pace.read_ns
            frames = read_together(together)
            self._watch.samples(frames, now_ns=now_ns)
            self._acquisition.samples(frames, b"\0".join(data) + b"\0")
            together.clear()
            data.clear()

    def _hear(self, frame: Frame | Damage, data: bytes) -> None:
        now_ns = self._clock()
        if isinstance(frame, Damage):
            self._watch.damage(frame, now_ns=now_ns)
            self._acquisition.damage(data)
        elif not isinstance(frame, Header | Event | Close):
            answer = self._conversation.hear(frame, now_s=self._now_s())
            self._watch.frame(frame, now_ns=now_ns)
            self._acquisition.frame(frame, data)
            self._send(answer)

    def _send(self, data: bytes) -> None:
        if data:
            self._source.write(data)

    def _lose(self, message: str) -> None:
        """The port is gone: close it and try again in a while."""
        log.info("%s: %s", self._source.name, message)
        self._close_source()
        self._watch.failed(message)
        self._acquisition.link_lost()
        self._reopen_at_ns = self._clock() + REOPEN_NS

    def _give_up(self, message: str | None) -> None:
        """There will be no more from this source."""
        self._close_source()
        self._acquisition.link_lost()
        self._over = True
        if message is None:
            self._watch.ended(
                phrase(
                    "{source_name} has come to its end.", source_name=self._source.name
                )
            )
        else:
            log.info("%s: %s", self._source.name, message)
            self._watch.failed(message)

    def _close_source(self) -> None:
        self._open = False
        self._source.close()

    def _publish(self) -> None:
        health = self._health()
        still = health.link is Link.STALE and self._watch.comes_fresh
        if health.link is not Link.LIVE and not still:
            self._acquisition.signal_lost()
        blocks, events = self._acquisition.take()
        chain = self._acquisition.chain
        live = health.link is Link.LIVE
        self.handoff.put(
            blocks=blocks,
            events=events,
            state=chain.state,
            health=health,
            profile=chain.profile,
            due_ns=self._pace.due_ns if live else None,
            for_looks=live and self._pace.rests,
        )

    def _health(self) -> Health:
        chain, other = self._acquisition.chain, self._acquisition.other
        health = self._watch.report(
            now_ns=self._clock(),
            found=self._source.found,
            profile=chain.profile,
            filter_delay_s=chain.filter_delay_s,
            recording=self._acquisition.recording,
        )
        if other is None or health.link is Link.ENDED:
            if self._acquisition.nameless and health.link is Link.LIVE:
                # What comes is held until it is known whose it is: not shown either.
                link, words = Link.OPENING, OPENING_WORDS
                return replace(health, link=link, rate_hz=0.0, message=words)
            return health
        return replace(
            health,
            link=Link.OTHER,
            rate_hz=0.0,
            saturated=False,
            message=other.words(in_set=self._acquisition.set_open),
            other=other,
        )

    def _now_s(self) -> float:
        return self._clock() / NS
