"""The cable, pulled and put back at random moments of a running set: what is left?

    python tests/trials/cable.py [--pulls 100] [--seed 1]

The acquisition thread reads a simulated board on a pseudo-terminal by a link, as it
reads any port. The line is pulled (the terminal closed, the link gone) and put back:
in a hold, between reps, within a frame, and while the board is still being met. Half of
the boards go on counting meanwhile (power of their own), half are started anew. The
line notes each byte that it sent. Of all of it together it is asked:

* how long after the port came back was the first sample judged (wanted: 1 s),
* is there a gap in the replay for each time that it was away, and no other,
* was each frame of samples in the recording sent, once and in that order,
* are the reps, and the time in the band, those that `gui/known_force.py` works out a
  second time from what was sent, with the clock standing while nothing came,
* does a replay of the recording agree with what was stored?
"""

from __future__ import annotations

import argparse
import random
import statistics
import sys
import tempfile
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

import numpy as np
import numpy.typing as npt
from gui.known_force import reps_of
from rig.test_worker import MemoryRecorder

from biofeedback.rig import simulated_adc
from biofeedback.rig.commands import BeginSet, EndSet
from biofeedback.rig.handoff import Measured, SetEnded
from biofeedback.rig.serial_source import SerialSource
from biofeedback.rig.serve import RigServer, TerminalLine
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.rig.worker import Worker
from biofeedback.session.replay import replay
from biofeedback.training.band import Band
from biofeedback.training.prescription import Prescription
from biofeedback.training.task import Task
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Samples

ASKED = Prescription(
    task=Task("push"), band=Band(50, 70), hold_s=1.5, reps=1000, rest_s=0.0
)
CYCLE_S = (0.0, 0.5, 0.8, 3.4, 3.6, 4.2)
PULL_N = (0.0, 0.0, 30.0, 30.0, 0.0, 0.0)
"""On each cell; the hold is over a good second before the force is let go."""
FOUND_MOST_S = 1.0
WAIT_S = 20.0
LOOK_S = 0.002
RESTART_S = 1.0
"""Stands for a gap of unknown length (`hardware/PROTOCOL.md`, section 3)."""
CLOCK_OFF_S = 0.02


class Cycle:
    """Pulls again and again, wherever the board's clock begins."""

    def __init__(self, ahead_s: float) -> None:
        self._ahead_s = ahead_s

    def forces_n(self, times_us: npt.NDArray[np.int64]) -> npt.NDArray[np.float64]:
        """As `ForceInput` has it."""
        at_s = (times_us / 1e6 + self._ahead_s) % CYCLE_S[-1]
        pull_n = np.interp(at_s, CYCLE_S, PULL_N)
        return np.column_stack((pull_n, pull_n))


class CutLine(TerminalLine):
    """A pseudo-terminal that notes what went out, and can be cut within a frame."""

    def __init__(self, *, link: Path) -> None:
        super().__init__(link=link)
        self.sent = bytearray()
        self.cut = threading.Event()
        self._dead = False

    def send(self, data: bytes) -> int:
        """As the line does it; once it is cut, half of it and then nothing."""
        if self._dead:
            return len(data)
        if self.cut.is_set():
            data, self._dead = data[: max(1, len(data) // 2)], True
        gone = super().send(data)
        self.sent += data[:gone]
        return gone


@dataclass(slots=True)
class Tally:
    """What was found; `faults` is empty where all is well."""

    pulls: int = 0
    while_met: int = 0
    in_frame: int = 0
    in_rep: int = 0
    found_s: list[float] = field(default_factory=list)
    samples: int = 0
    gaps: int = 0
    reps: int = 0
    clock_off_s: float = 0.0
    faults: list[str] = field(default_factory=list)


class Trial:
    """One set, pulled from the port again and again."""

    def __init__(self, folder: Path, *, seed: int) -> None:
        self.tally = Tally()
        self._chance = random.Random(seed)  # noqa: S311  no secret
        self._folder = folder
        self._link = folder / "rig"
        self._recorder = MemoryRecorder()
        self._worker = Worker(SerialSource(str(self._link)), recorder=self._recorder)
        self._rig = self._new_rig()
        self._lines: list[tuple[bytes, bool]] = []  # what was sent; a board anew
        self._anew = True
        self._measured: list[dict[str, object]] = []
        self._ended = False

    def _new_rig(self) -> SimulatedRig:
        ahead_s = self._chance.uniform(0.0, CYCLE_S[-1])
        return SimulatedRig(
            RigSettings(), seed=self._chance.randrange(2**31), force=Cycle(ahead_s)
        )

    def run(self, pulls: int) -> Tally:
        """Pulls so often, then ends the set and judges all of it."""
        self._worker.start()
        try:
            for number in range(pulls + 1):
                self._once(first=number == 0, last=number == pulls)
        finally:
            self._worker.stop()
            self._look()
        self._judge()
        return self.tally

    def _once(self, *, first: bool, last: bool) -> None:
        """Puts the cable in, waits, and pulls it."""
        line, stop = CutLine(link=self._link), threading.Event()
        back_s = time.monotonic()
        server = RigServer(self._rig, line)
        serving = threading.Thread(target=server.run, args=(stop,))
        serving.start()
        try:
            if not first and not last and self._chance.random() < 0.15:
                self.tally.while_met += 1
                time.sleep(self._chance.uniform(0.0, 0.4))
            else:
                self._find(back_s, first=first)
                time.sleep(self._chance.uniform(0.2, 2.2))
            if last:
                self._worker.send(EndSet())
                self._wait(lambda: self._ended, "the end of the set")
            elif self._chance.random() < 0.5:
                self.tally.in_frame += 1
                line.cut.set()
                time.sleep(0.02)
        finally:
            stop.set()
            serving.join()
        self._lines.append((bytes(line.sent), self._anew))
        self._look()
        if last:
            return
        self.tally.pulls += 1
        self._stay_away()

    def _stay_away(self) -> None:
        """The cable is out for a while; half of the boards have lost their power."""
        away_s = self._chance.uniform(0.02, 0.8)
        time.sleep(away_s)
        self._anew = self._chance.random() < 0.5
        if self._anew:
            self._rig = self._new_rig()
        else:
            self._rig.advance(round(1e6 * away_s))  # into the air

    def _find(self, back_s: float, *, first: bool) -> None:
        """Waits for the first sample after the port is back."""
        self._gap = False
        if not self._wait(lambda: self._gap or first, "the board"):
            return
        if first:
            self._samples = 0
            self._wait(lambda: self._samples > 20, "samples")
            self._worker.send(BeginSet(ASKED, {"athlete_code": "INV-9"}))
        else:
            self.tally.found_s.append(time.monotonic() - back_s)

    _gap = _ended = False
    _samples = 0

    def _look(self) -> None:
        update = self._worker.handoff.take()
        self._gap |= any(block.gap for block in update.blocks)
        self._samples += sum(len(block) for block in update.blocks)
        for event in update.events:
            if isinstance(event, Measured):
                self._measured.append(dict(event.rep))
            self._ended |= isinstance(event, SetEnded)

    def _wait(self, reached: object, what: str) -> bool:
        until_s = time.monotonic() + WAIT_S
        while not reached():  # type: ignore[operator]  # a question
            if time.monotonic() > until_s:
                self.tally.faults.append(f"not seen within {WAIT_S:g} s: {what}")
                return False
            time.sleep(LOOK_S)
            self._look()
        return True

    # Afterwards.

    def _judge(self) -> None:
        tally = self.tally
        path = self._folder / "set.force"
        path.write_bytes(bytes(self._recorder.files[-1]))
        found = replay(path, keep_blocks=True)
        if found.agrees is not True:
            tally.faults.append("the replay does not agree")
        tally.gaps = sum(block.gap for block in found.blocks)
        kept = [f for f in self._recorder.frames() if isinstance(f, Samples)]
        tally.samples = sum(len(one.counts) for one in kept)
        parts = self._parts(kept)
        if tally.gaps != len(parts) - 1:
            firsts = [one[0][0].time_us for one in parts]
            at_s = [float(b.time_s[0]) for b in found.blocks if b.gap]
            tally.faults.append(
                f"{tally.gaps} gaps, {len(parts) - 1} due: {at_s}, boards' {firsts}"
            )
        if max(tally.found_s, default=0.0) > FOUND_MOST_S:
            tally.faults.append(f"found after {max(tally.found_s):.2f} s")
        self._compare(parts)

    def _parts(self, kept: list[Samples]) -> list[tuple[list[Samples], bool]]:
        """The kept frames by the line that sent them; each must have been sent."""
        parts: list[tuple[list[Samples], bool]] = []
        left = iter([*kept, None])
        next_one = next(left)
        anew = False
        for sent, is_anew in self._lines:
            anew |= is_anew
            own: list[Samples] = []
            for frame in Decoder().push(sent):
                if (
                    isinstance(frame, Samples)
                    and next_one is not None
                    and _key(frame) == _key(next_one)
                ):
                    own.append(frame)
                    next_one = next(left)
            if own:
                parts.append((own, anew))
                anew = False
        if next_one is not None:
            self.tally.faults.append("a sample that was not sent, or out of order")
        return parts

    def _compare(self, parts: list[tuple[list[Samples], bool]]) -> None:
        """Reps and time in the band against those of the second computation."""
        times, forces = _forces(parts)
        due = reps_of(
            times,
            forces,
            lambda _: (50.0, 70.0),
            hold_s=ASKED.hold_s,
            running=False,
        )
        self.tally.reps = len(self._measured)
        self.tally.in_rep = sum(rep.gaps for rep in due)
        if len(due) != len(self._measured):
            self.tally.faults.append(f"{len(self._measured)} reps, {len(due)} due")
        for other in due[:-1]:  # only the last one can have been stopped
            other.outcome = other.outcome.replace("stopped", "short")
        for rep, other in zip(self._measured, due, strict=False):
            inside_s = float(str(rep["inside_s"]))
            off_s = abs(inside_s - other.seconds["inside"])
            self.tally.clock_off_s = max(self.tally.clock_off_s, off_s)
            told = (rep["outcome"], rep["gaps"])
            if told != (other.outcome, other.gaps) or off_s > CLOCK_OFF_S:
                self.tally.faults.append(
                    f"rep {rep['number']}: {told}, {inside_s:.3f} s inside; due "
                    f"{other.outcome}, {other.gaps} gaps, {other.seconds['inside']:.3f}"
                )


def _key(frame: Samples) -> tuple[int, int, bytes]:
    return frame.sequence, frame.time_us, frame.counts.tobytes()


def _forces(
    parts: list[tuple[list[Samples], bool]],
) -> tuple[npt.NDArray[np.float64], npt.NDArray[np.float64]]:
    """Time in the set and total force of all samples that have settled."""
    lines = [simulated_adc.calibration(one, gain=128).coefficients for one in (0, 1)]
    times: list[float] = []
    forces: list[float] = []
    at_s, offset_s = 0.0, -parts[0][0][0].time_us / 1e6
    for number, (frames, anew) in enumerate(parts):
        if number and anew:
            offset_s = at_s + RESTART_S - frames[0].time_us / 1e6
        for frame in frames:
            for row, (counts, settling) in enumerate(
                zip(frame.counts.tolist(), frame.settling.tolist(), strict=True)
            ):
                at_s = (frame.time_us + row * frame.step_us) / 1e6 + offset_s
                if not settling:
                    times.append(at_s)
                    pairs = zip(lines, counts, strict=True)
                    forces.append(sum(c[0] + c[1] * n for c, n in pairs))
    return np.array(times), np.array(forces)


def main() -> int:
    """Runs it and prints the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--pulls", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        tally = Trial(Path(folder), seed=options.seed).run(options.pulls)
    found_s = tally.found_s or [0.0]
    print(
        f"{tally.pulls} pulls, {tally.in_rep} in a rep, {tally.in_frame} within a "
        f"frame, {tally.while_met} while the board was met; found again after "
        f"{statistics.median(found_s):.3f} s (median), {max(found_s):.3f} s (most); "
        f"{tally.samples} samples, {tally.gaps} gaps, {tally.reps} reps, time inside "
        f"off by {tally.clock_off_s:.4f} s at most; faults: {len(tally.faults)}"
    )
    for fault in tally.faults:
        print(fault)
    return 1 if tally.faults else 0


if __name__ == "__main__":
    sys.exit(main())
