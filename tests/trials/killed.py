"""The real program, killed at random moments of running sets: what is left?

    python tests/trials/killed.py [--kills 200] [--seed 1]

A simulated rig on a pseudo-terminal keeps a note of each byte that it sent, and when.
`biofeedback window` runs on it and is killed (SIGKILL); then it is started again on the
same logbook. Of each kill it is asked:

* can each recording be read, with no frame damaged and no sample that was not sent,
* are all samples there that were sent earlier than 0.25 s before the kill,
* is each rep in the logbook that was over by then: the samples that were sent are
  judged a second time here for that, and not those of the recording,
* does the logbook pass SQLite's integrity check?
"""

from __future__ import annotations

import argparse
import os
import random
import sqlite3
import subprocess
import sys
import tempfile
import time
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from trials.noted_board import NotedBoard, key_of

from biofeedback.conditioning.profile import RigProfile
from biofeedback.errors import BiofeedbackError
from biofeedback.logbook import recordings
from biofeedback.rig.chain import Chain
from biofeedback.training.events import RepEnded
from biofeedback.training.prescription import Prescription
from biofeedback.wire.fields import Fields
from biofeedback.wire.frames import Samples

LOST_MOST_S = 0.25
START_S = 60.0
LEAST_S, MOST_S = 0.3, 12.0
"""From the first sample in a recording to the kill."""
DRIVER = Path(__file__).with_name("driven_window.py")


@dataclass(slots=True)
class Tally:
    """What was found over all kills; all lists are empty where all is well."""

    kills: int = 0
    in_set: int = 0
    in_rep: int = 0
    frames: int = 0
    reps_sure: int = 0
    lost_most_s: float = 0.0
    faults: list[str] = field(default_factory=list)


class Trial:
    """One logbook, killed again and again."""

    def __init__(self, folder: Path, *, seed: int) -> None:
        self.folder = folder
        self.chance = random.Random(seed)  # noqa: S311  no secret
        self.tally = Tally()
        self._due: list[tuple[str, int]] = []  # recording, reps that must be there

    def run(self, kills: int) -> Tally:
        """Kills so often, then starts once more."""
        for number in range(kills + 1):
            self._once(number, last=number == kills)
        return self.tally

    def _once(self, number: int, *, last: bool) -> None:
        before = self._files()
        board = NotedBoard(self.folder / "rig", number)
        program = subprocess.Popen(
            [sys.executable, DRIVER, board.link, self.folder],
            env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        try:
            new = self._wait_for_a_set(program, before)
            self._after_the_start(number)
            if not last and new:
                time.sleep(self.chance.uniform(LEAST_S, MOST_S))
        finally:
            killed_s = time.monotonic()
            program.kill()
            program.wait()
            board.close()
        if not last:
            self._judge(number, sorted(self._files() - before), board, killed_s)

    def _files(self) -> set[Path]:
        return set((self.folder / "recordings").glob("*.force"))

    def _wait_for_a_set(
        self, program: subprocess.Popen[bytes], before: set[Path]
    ) -> bool:
        until_s = time.monotonic() + START_S
        while self._files() == before:
            if program.poll() is not None or time.monotonic() > until_s:
                self.tally.faults.append("the program did not begin a set")
                return False
            time.sleep(0.02)
        return True

    def _after_the_start(self, number: int) -> None:
        """What the start made of the kill before."""
        if not self._due:
            return
        path = self.folder / "logbook.db"
        with closing(sqlite3.connect(path, timeout=30)) as book:
            (sound,) = book.execute("PRAGMA integrity_check").fetchone()
            if sound != "ok":
                self.tally.faults.append(f"kill {number}: integrity_check: {sound}")
            for name, due in self._due:
                rows = book.execute(
                    "SELECT s.closed_utc, count(r.id) FROM sets s "
                    "LEFT JOIN reps r ON r.set_id = s.id WHERE s.recording = ?",
                    (name,),
                ).fetchone()
                if rows[0] is None or rows[1] < due:
                    self.tally.faults.append(
                        f"kill {number}: {name}: {rows[1]} reps, {due} due, "
                        f"closed {rows[0]}"
                    )
        self._due = []

    def _judge(
        self, number: int, files: list[Path], board: NotedBoard, killed_s: float
    ) -> None:
        self.tally.kills += 1
        sent = board.sent()
        sure = {
            key for key, (at_s, _) in sent.items() if at_s <= killed_s - LOST_MOST_S
        }
        for path in files:
            try:
                recording = recordings.read(path)
                survey = recording.survey()
                frames = [f for f in recording.frames() if isinstance(f, Samples)]
            except BiofeedbackError as error:
                self.tally.faults.append(f"kill {number}: {error.words}")
                continue
            self.tally.frames += len(frames)
            if survey.damaged:
                self.tally.faults.append(f"kill {number}: damaged frames")
            if any(key_of(f) not in sent for f in frames):
                self.tally.faults.append(f"kill {number}: a sample that was not sent")
            due = _after(
                [f for _, f in sent.values()], frames, closed=not survey.recovered
            )
            due_sure = [f for f in due if key_of(f) in sure]
            have = set(map(key_of, frames))
            missing = [f for f in due_sure if key_of(f) not in have]
            if missing:
                self.tally.faults.append(f"kill {number}: {len(missing)} frames gone")
            lost = next((key_of(f) for f in due if key_of(f) not in have), None)
            if lost is not None:
                lost_s = killed_s - sent[lost][0]
                self.tally.lost_most_s = max(self.tally.lost_most_s, lost_s)
            ended, open_rep = _reps(recording.header, due_sure or frames)
            self.tally.reps_sure += ended
            self.tally.in_set += survey.recovered
            self.tally.in_rep += survey.recovered and open_rep
            self._due.append((path.name, ended))


def _after(sent: list[Samples], kept: list[Samples], *, closed: bool) -> list[Samples]:
    """What belongs in a recording: since its first frame; to its last if closed."""
    if not kept:
        return []
    first, last = kept[0].sequence, kept[-1].sequence
    return [
        f for f in sent if f.sequence >= first and (f.sequence <= last or not closed)
    ]


def _reps(header: object, frames: list[Samples]) -> tuple[int, bool]:
    """Reps that are over, and whether one is open, by the rules, from what was sent."""
    fields = Fields(header, "header")  # type: ignore[arg-type]  # it was checked
    chain = Chain(RigProfile.from_json(fields.inner("profile")))
    chain.begin(Prescription.from_json(fields.inner("prescription")))
    ended = 0
    for frame in frames:
        for event in chain.push_all([frame]).events:
            ended += isinstance(event, RepEnded)
    state = chain.state
    return ended, state is not None and state.phase.value == "rep"


def main() -> int:
    """Runs it and prints the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--kills", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        tally = Trial(Path(folder), seed=options.seed).run(options.kills)
    print(
        f"{tally.kills} kills, {tally.in_set} in a set, {tally.in_rep} of them in a "
        f"rep; {tally.reps_sure} reps were over; most lost {tally.lost_most_s:.3f} s; "
        f"faults: {len(tally.faults)}"
    )
    for fault in tally.faults:
        print(fault)
    return 1 if tally.faults else 0


if __name__ == "__main__":
    sys.exit(main())
