"""What a machine does to the real program, and what is left of a set then.

    python tests/trials/machine.py [PART ...]

`biofeedback window` runs on a simulated rig at a pseudo-terminal; each byte that was
sent is noted, and each picture that was drawn (`watched_window.py`). Parts:

* `stalled`: the main thread stands still for 5 s within a set.
* `stopped`: the program is stopped for 5 s (SIGSTOP, SIGCONT); the line fills up.
* `board`: the rig is stopped for 5 s instead.
* `port`: a second window on the same port, until the first is gone.
* `logbook`: two windows that start at once on one logbook, each with a rig.
* `clock`: the clock is set an hour and a year back and forward in and between sets.
  It needs libfaketime (Debian: `libfaketime`); the clock of the machine is left alone.

Asked each time: is all that came in the recording and nothing else, is what the desk
tells of the newest sample's age true, does the program go on?
"""

from __future__ import annotations

import argparse
import json
import os
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time
from contextlib import closing
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import partial
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from trials.noted_board import NotedBoard, key_of

from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.session.recovery import recover
from biofeedback.session.replay import replay
from biofeedback.wire.frames import Damage, Samples

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

AWAY_S = 5.0
DEADLINE_S = 60.0
NEAR_S = 0.25
"""The age told and the true one may differ by so much on a busy machine."""
FRESH_S = 0.15
WINDOW = Path(__file__).with_name("watched_window.py")
FAKETIME = (
    Path("/usr/lib/x86_64-linux-gnu/faketime/libfaketime.so.1"),
    Path("/usr/lib/aarch64-linux-gnu/faketime/libfaketime.so.1"),
)


@dataclass(slots=True)
class Found:
    """Figures, and what is wrong; no fault where all is well."""

    figures: dict[str, float] = field(default_factory=dict)
    faults: list[str] = field(default_factory=list)
    skipped: str = ""

    def check(self, words: str, *, holds: bool) -> None:
        """A fault where it does not hold."""
        if not holds:
            self.faults.append(words)


class Program:
    """The window, in a process of its own."""

    def __init__(
        self,
        port: Path,
        folder: Path,
        *,
        name: str = "one",
        stall_s: float = 0.0,
        env: Mapping[str, str] | None = None,
    ) -> None:
        self.log = folder / f"{name}.log"
        self.folder = folder
        words = [sys.executable, *map(str, (WINDOW, port, folder, self.log, stall_s))]
        own = {"XDG_DATA_HOME": str(folder / "home"), "QT_QPA_PLATFORM": "offscreen"}
        self.process = subprocess.Popen(
            words,
            env={**os.environ, **own, **(env or {})},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )

    def pictures(self) -> list[dict[str, Any]]:
        """All so far, oldest first."""
        if not self.log.exists():
            return []
        lines = self.log.read_text("utf-8").splitlines(keepends=True)
        return [json.loads(one) for one in lines if one.endswith("\n")]

    def until(self, reached: Callable[[dict[str, Any]], bool]) -> bool:
        """Waits for a picture of a kind; False where the program ends before."""
        until_s = time.monotonic() + DEADLINE_S
        while time.monotonic() < until_s and self.process.poll() is None:
            told = self.pictures()
            if told and reached(told[-1]):
                return True
            time.sleep(0.05)
        return False

    def end(self) -> bool:
        """As the system ends a session; whether it went by itself."""
        went = self.process.poll() is None
        self.process.send_signal(signal.SIGTERM)
        try:
            self.process.wait(20)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
            return False
        return went


def _files(folder: Path) -> list[Path]:
    return sorted((folder / "recordings").glob("*.force"))


def _frames(path: Path) -> list[Samples]:
    return [one for one in recordings.read(path).frames() if isinstance(one, Samples)]


def _keys(path: Path) -> list[tuple[int, bytes]]:
    return [key_of(one) for one in _frames(path)]


def _judge_files(found: Found, folder: Path, boards: list[NotedBoard]) -> None:
    """All that came between the first and last frame of each is in it, and no more."""
    sent = [board.sent() for board in boards]
    for path in _files(folder):
        have = _keys(path)
        if not have:
            continue
        own = [one for one in sent if have[0] in one]
        found.check(f"{path.name}: of no board or of both", holds=len(own) == 1)
        if len(own) != 1:
            continue
        between = [key for key in own[0] if have[0][0] <= key[0] <= have[-1][0]]
        found.check(
            f"{path.name}: {len(between)} frames came, {len(have)} are kept",
            holds=between == have,
        )
        damaged = sum(isinstance(f, Damage) for f in recordings.read(path).frames())
        found.check(f"{path.name}: damaged", holds=not damaged)
        again = replay(path)
        found.check(f"{path.name}: a replay differs", holds=again.agrees is not False)
        found.figures["sets"] = found.figures.get("sets", 0) + 1
        found.figures["reps"] = found.figures.get("reps", 0) + len(again.reps)
        found.figures["lost"] = found.figures.get("lost", 0) + again.lost


def _judge_ages(
    found: Found, program: Program, board: NotedBoard, *, since_s: float = 0.0
) -> None:
    """What the desk told of the newest sample, against when that was sent."""
    sent = {frame.sequence: at_s for at_s, frame in board.sent().values()}
    firsts = [_frames(path)[0].sequence for path in _files(program.folder)]
    worst = 0.0
    for one in program.pictures():
        number, age_s, at_s = int(one["set"]), one["age_s"], float(one["at_s"])
        newest = int(one["newest"])
        if age_s is None or newest < 0 or at_s < since_s or number > len(firsts):
            continue
        came_s = sent.get(firsts[number - 1] + newest) if number else None
        if came_s is not None:
            worst = max(worst, abs(float(age_s) - (at_s - came_s)))
    found.figures["age told wrong by at most, s"] = round(worst, 3)
    found.check(f"an age was told wrong by {worst:.2f} s", holds=worst <= NEAR_S)


def _fresh_after(found: Found, program: Program, at_s: float) -> None:
    """How soon after a moment the newest sample was drawn again, and is drawn."""
    after = [one for one in program.pictures() if float(one["at_s"]) > at_s]
    fresh = [
        one for one in after if one["age_s"] is not None and one["age_s"] <= FRESH_S
    ]
    found.check("nothing fresh was drawn afterwards", holds=bool(fresh))
    if fresh:
        found.figures["fresh after, s"] = round(float(fresh[0]["at_s"]) - at_s, 3)
        found.figures["in picture"] = after.index(fresh[0]) + 1
        found.check("it was drawn late", holds=float(fresh[0]["at_s"]) - at_s < 2.0)


def stalled(folder: Path) -> Found:
    """The main thread stands still; reading, judging and recording go on."""
    found, board = Found(), NotedBoard(folder / "rig")
    program = Program(board.link, folder, stall_s=AWAY_S)
    went = program.until(lambda one: int(one["set"]) >= 3)
    found.check("the program did not go on", holds=went)
    found.check("it did not end by itself", holds=program.end())
    board.close()
    told = program.pictures()
    steps = [float(b["at_s"]) - float(a["at_s"]) for a, b in pairwise(told)]
    longest = max(range(len(steps)), key=steps.__getitem__)
    found.figures["stall, s"] = round(steps[longest], 2)
    found.check("there was no stall", holds=steps[longest] >= AWAY_S)
    _judge_files(found, folder, [board])
    found.check("samples are lost", holds=not found.figures.get("lost"))
    _fresh_after(found, program, float(told[longest + 1]["at_s"]) - 0.001)
    found.check("not in the first two", holds=found.figures.get("in picture", 9) <= 2)
    _judge_ages(found, program, board, since_s=float(told[longest + 1]["at_s"]))
    _judge_reps(found, folder, int(told[-1]["reps"]))
    return found


def _judge_reps(found: Found, folder: Path, told: int) -> None:
    """The window heard of each rep that is in the logbook."""
    with closing(sqlite3.connect(folder / "logbook.db")) as book:
        (kept,) = book.execute("SELECT count(*) FROM reps").fetchone()
        (sound,) = book.execute("PRAGMA integrity_check").fetchone()
    found.figures["reps told"], found.figures["reps kept"] = told, kept
    # The last one may be ended by the end of the program.
    found.check("reps told and kept differ", holds=told <= kept <= told + 1)
    found.check("the logbook is damaged", holds=sound == "ok")


def stopped(folder: Path) -> Found:
    """The whole program is stopped; the board goes on and the line fills up."""
    found, board = Found(), NotedBoard(folder / "rig")
    program = Program(board.link, folder)
    found.check("no set", holds=program.until(lambda one: int(one["set"]) >= 2))
    time.sleep(1.0)
    program.process.send_signal(signal.SIGSTOP)
    time.sleep(AWAY_S)
    program.process.send_signal(signal.SIGCONT)
    on_s = time.monotonic()
    sets = int(program.pictures()[-1]["set"])
    went = program.until(lambda one: int(one["set"]) >= sets + 2)
    found.check("the program did not go on", holds=went)
    found.check("it did not end by itself", holds=program.end())
    board.close()
    _judge_files(found, folder, [board])
    _fresh_after(found, program, on_s)
    _judge_ages(found, program, board)
    _judge_reps(found, folder, int(program.pictures()[-1]["reps"]))
    return found


def board(folder: Path) -> Found:
    """The rig is stopped: no signal is told, and nothing invented."""
    found, link = Found(), folder / "rig"
    words = ["-m", "biofeedback", "simulate", "--link", str(link)]
    rig = subprocess.Popen(
        [sys.executable, *words], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    program = None
    try:
        until_s = time.monotonic() + DEADLINE_S
        while not link.is_symlink() and time.monotonic() < until_s:
            time.sleep(0.05)
        program = Program(link, folder)
        found.check("no set", holds=program.until(lambda one: int(one["set"]) >= 1))
        time.sleep(2.0)
        rig.send_signal(signal.SIGSTOP)
        off_s = time.monotonic()
        time.sleep(AWAY_S)
        on_s = time.monotonic()
        rig.send_signal(signal.SIGCONT)
        found.check(
            "it did not become live again",
            holds=program.until(
                lambda one: float(one["at_s"]) > on_s + 1 and one["age_s"] is not None
            ),
        )
        time.sleep(3.0)
        found.check("it did not end by itself", holds=program.end())
    finally:
        rig.send_signal(signal.SIGCONT)
        rig.terminate()
        rig.wait()
    told = [one for one in program.pictures() if off_s < float(one["at_s"]) < on_s]
    live = [float(one["at_s"]) for one in told if one["age_s"] is not None]
    found.figures["told as live for, s"] = round(max(live, default=off_s) - off_s, 3)
    found.check("told as live for too long", holds=max(live, default=0) < off_s + 0.8)
    found.check("no words", holds="NO_SIGNAL" in {one["cue"] for one in told})
    _fresh_after(found, program, on_s)
    for path in _files(folder):
        again = replay(path)
        found.check(f"{path.name}: a replay differs", holds=again.agrees is not False)
        found.figures["lost"] = found.figures.get("lost", 0) + again.lost
    return found


def port(folder: Path) -> Found:
    """The second on a port is told, takes no byte, and comes on when it is free."""
    found, rig = Found(), NotedBoard(folder / "rig")
    (folder / "second").mkdir()
    first = Program(rig.link, folder)
    found.check("no set", holds=first.until(lambda one: int(one["set"]) >= 1))
    second = Program(rig.link, folder / "second", name="two")
    told = second.until(lambda one: "in use by another program" in str(one["said"]))
    found.check("the second is not told in words", holds=told)
    time.sleep(2.0)
    live = [one for one in second.pictures() if one["age_s"] is not None]
    found.check("the second shows a force", holds=not live)
    _judge_ages(found, first, rig)
    found.check("the first did not end by itself", holds=first.end())
    _judge_files(found, folder, [rig])
    found.check("the first has lost samples", holds=not found.figures.get("lost"))
    came = second.until(lambda one: int(one["set"]) >= 1)
    found.check("the second did not come on", holds=came)
    found.check("the second did not end by itself", holds=second.end())
    rig.close()
    return found


def logbook(folder: Path) -> Found:
    """Two windows on one logbook that start at the same instant."""
    found = Found()
    rigs = [
        NotedBoard(folder / f"rig-{seed}", seed, serial_number=f"SIM-{seed:04}")
        for seed in (1, 2)
    ]
    names = ("one", "two")
    both = [
        Program(rig.link, folder, name=name)
        for rig, name in zip(rigs, names, strict=True)
    ]
    for program in both:
        went = program.until(lambda one: int(one["set"]) >= 2)
        found.check(f"{program.log.stem} began no second set", holds=went)
    with Logbook.open(folder / "logbook.db") as book:
        # As a third program does at its start; both recordings are claimed.
        taken = recover(folder / "recordings", book)
        found.check("a set under way was taken for a cut one", holds=not list(taken))
    time.sleep(3.0)
    told = 0
    for program in both:
        found.check(f"{program.log.stem} did not end by itself", holds=program.end())
        told += int(program.pictures()[-1]["reps"])
    for rig in rigs:
        rig.close()
    _judge_files(found, folder, rigs)
    with closing(sqlite3.connect(folder / "logbook.db")) as book:
        (kept,) = book.execute("SELECT count(*) FROM reps").fetchone()
        (athletes,) = book.execute("SELECT count(*) FROM athletes").fetchone()
        (visits,) = book.execute("SELECT count(*) FROM sessions").fetchone()
    found.figures["reps told"], found.figures["reps kept"] = told, kept
    found.check("reps told and kept differ", holds=told <= kept <= told + 2)
    found.check("one athlete became two", holds=athletes == 1)
    found.check("two visits became another number", holds=visits == 2)
    return found


def clock(folder: Path) -> Found:
    """The clock is set while the program runs, and between two programs."""
    library = next((path for path in FAKETIME if path.exists()), None)
    if library is None:
        return Found(skipped="libfaketime is not installed (Debian: libfaketime)")
    found, rig, stamp = Found(), NotedBoard(folder / "rig"), folder / "stamp"
    env = {
        "LD_PRELOAD": str(library),
        "FAKETIME_TIMESTAMP_FILE": str(stamp),
        "FAKETIME_NO_CACHE": "1",
        "DONT_FAKE_MONOTONIC": "1",
        "FAKETIME_DONT_FAKE_MONOTONIC": "1",
        "FAKETIME_FORCE_MONOTONIC_FIX": "0",  # with it waiting threads wake never
    }
    stamp.write_text("+0\n", "utf-8")
    program = Program(rig.link, folder, env=env)
    found.check("no set", holds=program.until(lambda one: int(one["set"]) >= 1))
    said: set[str] = set()
    for moved in ("-3600", "+3600", "-31536000", "+31536000", "-3600"):
        sets = int(program.pictures()[-1]["set"])
        time.sleep(0.7)  # within a set
        stamp.write_text(f"{moved}\n", "utf-8")
        went = program.until(partial(_in_set, sets + 1))
        found.check(f"it did not go on after {moved} s", holds=went)
        said |= {str(one["said"]) for one in program.pictures()}
    found.check("it did not end by itself", holds=program.end())
    utc = [float(one["utc_s"]) for one in program.pictures()]
    least = max(a - b for a, b in pairwise(utc))
    found.check("the clock was not set back", holds=least > 31e6)
    found.check("it was not told", holds=any("was set back" in one for one in said))
    _judge_files(found, folder, [rig])
    found.check("samples are lost", holds=not found.figures.get("lost"))
    _judge_ages(found, program, rig)
    _judge_reps(found, folder, int(program.pictures()[-1]["reps"]))
    _judge_order(found, folder)
    again = Program(rig.link, folder, name="two", env={})
    told = again.until(lambda one: int(one["set"]) >= 1)
    found.check("the next program began no set", holds=told)
    told = any("later than the clock" in str(one["said"]) for one in again.pictures())
    found.check("it is not told that the clock is behind", holds=told)
    found.check("the next one did not end by itself", holds=again.end())
    rig.close()
    return found


def _in_set(number: int, one: dict[str, Any]) -> bool:
    return int(one["set"]) >= number


def _judge_order(found: Found, folder: Path) -> None:
    """Sets by their time are in the order in which the board sent them."""
    with Logbook.open(folder / "logbook.db") as book:
        (visit,) = book.sessions()
        names = [book.recording_of(one.id) for one in book.sets(visit.id)]
        times = [one.started_utc for one in book.sets(visit.id)]
    firsts = [_frames(folder / "recordings" / str(name))[0].sequence for name in names]
    found.figures["sets in order"] = len(firsts)
    found.check("the order of sets is another one", holds=firsts == sorted(firsts))
    ahead = max(times) - datetime.now(tz=UTC)
    found.check("no set was a year ahead", holds=ahead > timedelta(days=300))


PARTS: dict[str, Callable[[Path], Found]] = {
    "stalled": stalled,
    "stopped": stopped,
    "board": board,
    "port": port,
    "logbook": logbook,
    "clock": clock,
}


def main() -> int:
    """Runs the parts and prints what was found."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("part", nargs="*", choices=[*PARTS, []], default=[])
    options = parser.parse_args()
    faults = 0
    for name in options.part or PARTS:
        with tempfile.TemporaryDirectory() as folder:
            found = PARTS[name](Path(folder))
        faults += len(found.faults)
        figures = "; ".join(
            f"{what} {value:g}" for what, value in found.figures.items()
        )
        skipped = f"left out: {found.skipped}" if found.skipped else ""
        print(f"{name}: {figures}{skipped}; faults: {len(found.faults)}", flush=True)
        for fault in found.faults:
            print(f"  {fault}", flush=True)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
