"""Many candidates over many recordings, on all cores.

Each recording is read once, by one process, which measures every candidate on it and
gives back figures only: memory does not grow with the number of recordings. A
recording that cannot be used is left out with the reason.
"""

from __future__ import annotations

import multiprocessing
import os
import signal
import sys
from concurrent.futures import FIRST_COMPLETED, ProcessPoolExecutor, wait
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING

from biofeedback.conditioning.profile import RigProfile
from biofeedback.errors import BiofeedbackError, FieldError, FileError
from biofeedback.logbook import recordings
from biofeedback.logbook.sealed import keyring
from biofeedback.phrase import phrase, sentences
from biofeedback.tuning import material
from biofeedback.tuning.choice import score
from biofeedback.tuning.shown import REFERENCE_HZ
from biofeedback.tuning.trial_run import TrialRun
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence
    from concurrent.futures import Future
    from multiprocessing.synchronize import Event
    from pathlib import Path

    from biofeedback.conditioning.profile import FilterChoice
    from biofeedback.logbook.sealed.master_key import MasterKey
    from biofeedback.training.band import Band
    from biofeedback.tuning.choice import Score
    from biofeedback.tuning.trial_run import Figures

SAME_RATE = 0.05
"""Settings belong to a sample rate; clocks of boards differ by some per cent."""
WAITING = 2
"""Recordings asked for beside those under way: no list of results grows."""

TOLD_EACH_S = 0.1
"""So often progress is told at least; a person who stops something wants it stopped."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is to be done with each recording.

    Attributes:
        rate_hz: of the recordings; those of another rate are left out.
        band: in place of the recordings' own, or None.
    """

    choices: tuple[FilterChoice, ...]
    rate_hz: float
    band: Band | None = None
    reference_hz: float = REFERENCE_HZ


@dataclass(frozen=True, slots=True)
class Done:
    """What came of one recording.

    Attributes:
        figures: of each candidate; empty where the recording was left out.
        refused: candidates that its sample rate does not allow, with the reason.
        why: it was left out, in words; else empty.
    """

    path: Path
    rate_hz: float = 0.0
    figures: tuple[tuple[FilterChoice, Figures], ...] = ()
    refused: tuple[tuple[FilterChoice, str], ...] = ()
    why: str = ""


def measured(
    path: Path, asked: Asked, between: Callable[[], None] | None = None
) -> Done:
    """All candidates on one recording.

    Args:
        path: the recording.
        asked: what is tried, and how.
        between: called before each candidate; what it raises stops.
    """
    try:
        found = material.read(path, asked.band)
        if abs(found.rate_hz / asked.rate_hz - 1.0) > SAME_RATE:
            return Done(
                path,
                why=phrase(
                    "it has {rate_hz:g} samples a second, and the first recording "
                    "has {asked_hz:g}: settings belong to one rate",
                    rate_hz=found.rate_hz,
                    asked_hz=asked.rate_hz,
                ),
            )
        run = TrialRun(found, reference_hz=asked.reference_hz, expected=asked.choices)
    except FileError as error:
        return Done(path, why=sentences(error.problem, error.next_step))
    except BiofeedbackError as error:
        return Done(path, why=str(error))
    figures, refused = [], []
    for choice in asked.choices:
        if between is not None:
            between()
        try:
            figures.append((choice, run.measure(choice)))
        except FieldError as error:
            refused.append((choice, str(error)))
    return Done(path, found.rate_hz, tuple(figures), tuple(refused))


def first_rate_hz(paths: Sequence[Path]) -> float | None:
    """Sample rate of the first recording that tells one and is fast enough."""
    for path in paths:
        try:
            header = Fields(recordings.read(path).header, "header")
            rate_hz = RigProfile.from_json(header.inner("profile")).rate_hz
        except BiofeedbackError:
            continue
        if rate_hz >= material.RATE_LEAST_HZ:
            return rate_hz
    return None


def sweep(
    paths: Sequence[Path],
    asked: Asked,
    *,
    progress: Callable[[int, int], None] | None = None,
    processes: int | None = None,
) -> list[Done]:
    """Measures all recordings; the answer is in the order of `paths`.

    Args:
        paths: recordings.
        asked: what is tried, and how.
        progress: told how many of how many are done, some times a second, whether
            there are more or not. What it raises stops the sweep, within the time of
            one candidate.
        processes: as many as there are cores where None; 1 stays in this process.
    """
    tell = progress or _tell_nobody
    processes = min(processes or os.cpu_count() or 1, len(paths))
    if processes <= 1:
        done: list[Done] = []
        for path in paths:
            done.append(measured(path, asked, lambda: tell(len(done), len(paths))))
            tell(len(done), len(paths))
        return done
    found: dict[int, Done] = {}
    # Not forked: a window has threads, and a copy of them would be broken.
    context = multiprocessing.get_context("spawn")
    stopping = context.Event()
    with ProcessPoolExecutor(
        processes, context, initializer=_begin, initargs=(stopping, keyring.held())
    ) as pool:
        try:
            for ready in _in_turn(pool, paths, asked, processes + WAITING):
                found.update(ready)
                tell(len(found), len(paths))
        except BaseException:
            stopping.set()
            pool.shutdown(cancel_futures=True)
            raise
    return [found[at] for at in range(len(paths))]


def _tell_nobody(_done: int, _total: int) -> None:
    pass


class _Stopped(Exception):  # noqa: N818  nothing is wrong
    """The sweep was stopped; nobody waits for the answer."""


class _Process:
    """What a process of the pool was given when it began."""

    stopping: Event | None = None


def _begin(stopping: Event, keys: tuple[MasterKey, ...]) -> None:
    """Ctrl-C is for the process that was started; it tells the others.

    `_out_of_reach` has kept it away until here; not on Windows.
    """
    keyring.hold(keys)  # of sealed recordings; nobody can be asked here
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _Process.stopping = stopping


def _measured(path: Path, asked: Asked) -> Done:
    """In a process of the pool."""
    return measured(path, asked, _go_on)


def _go_on() -> None:
    if _Process.stopping is not None and _Process.stopping.is_set():
        raise _Stopped


def _in_turn(
    pool: ProcessPoolExecutor, paths: Sequence[Path], asked: Asked, at_once: int
) -> Iterator[dict[int, Done]]:
    """Results as they come, by place; none for a while is told as well.

    Only so many recordings are asked for at a time.
    """
    left = iter(enumerate(paths))
    under_way: dict[Future[Done], int] = {}
    while True:
        with _out_of_reach():
            for at, path in islice(left, at_once - len(under_way)):
                under_way[pool.submit(_measured, path, asked)] = at
        if not under_way:
            return
        ready, _ = wait(under_way, TOLD_EACH_S, return_when=FIRST_COMPLETED)
        yield {under_way.pop(future): future.result() for future in ready}


@contextmanager
def _out_of_reach() -> Iterator[None]:
    """Processes that begin in here are not reached by Ctrl-C.

    They need a second before they can say so themselves, and until then each would
    print where it was. What a thread keeps from itself is kept from what it begins.
    """
    if sys.platform == "win32":
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def scores(done: Sequence[Done]) -> Mapping[FilterChoice, Score]:
    """A score for each candidate that all of these recordings allow."""
    used = [each for each in done if each.figures]
    figures: dict[FilterChoice, list[Figures]] = {}
    for each in used:
        for choice, found in each.figures:
            figures.setdefault(choice, []).append(found)
    rates_hz = [each.rate_hz for each in used]
    return {
        choice: score(choice, found, rates_hz)
        for choice, found in figures.items()
        if len(found) == len(used)
    }
