"""`biofeedback window` with a hand at the start key, which tells what it draws.

    python tests/trials/watched_window.py PORT FOLDER LOG [STALL_S]

Run by `machine`. Each picture gives a line of JSON in LOG: the monotonic time, the
number of the newest sample drawn in this set, its age as told, what is said.
With STALL_S the main thread once stands still for so long, three seconds into a set.
"""

from __future__ import annotations

import json
import sys
import time
from datetime import UTC, datetime
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from trials.driven_window import drive

from biofeedback.gui.window import Window
from biofeedback.rig.handoff import SetBegun, Update
from biofeedback.session import Session
from biofeedback.training.events import RepEnded

STALL_AFTER_S = 3.0


class Watched:
    """Notes each picture of the window."""

    def __init__(self, log: Path, stall_s: float) -> None:
        self._log = log.open("w", encoding="utf-8", buffering=1)
        self._stall_s = stall_s
        self._newest = -1
        self._set_s: float | None = None
        self._sets = self._reps = self._dropped = 0

    def take(self, update: Update) -> Update:
        """What was handed over."""
        for event in update.events:
            if isinstance(event, SetBegun):
                self._sets, self._newest = self._sets + 1, -1
                self._set_s = self._set_s or time.monotonic()
            self._reps += isinstance(event, RepEnded)
        self._dropped += update.dropped_blocks
        if update.blocks:
            block = update.blocks[-1]
            self._newest = block.first_index + len(block) - 1
        return update

    def picture(self, window: Window) -> None:
        """It has been drawn."""
        told = {
            "at_s": time.monotonic(),
            "utc_s": datetime.now(tz=UTC).timestamp(),
            "set": self._sets,
            "newest": self._newest,
            "age_s": window.drawn_age_s,
            "reps": self._reps,
            "dropped": self._dropped,
            "cue": window.screen_part.shown_cue.name,
            "said": window.desk.messages.message.text(),
        }
        self._log.write(json.dumps(told) + "\n")

    def stall(self) -> None:
        """Once the main thread does nothing."""
        begun_s = self._set_s or time.monotonic()
        if self._stall_s and time.monotonic() - begun_s > STALL_AFTER_S:
            stall_s, self._stall_s = self._stall_s, 0.0
            time.sleep(stall_s)


def main() -> int:
    """Opens the window and keeps it at work."""
    port, folder, log = sys.argv[1], Path(sys.argv[2]), Path(sys.argv[3])
    watched = Watched(log, float(sys.argv[4]) if len(sys.argv) > 4 else 0.0)
    taken, framed = Session.take, Window.frame

    def frame(window: Window) -> None:
        framed(window)
        watched.picture(window)

    def take(session: Session) -> Update:
        return watched.take(taken(session))

    vars_of = {Session: ("take", take), Window: ("frame", frame)}
    for kind, (name, method) in vars_of.items():
        setattr(kind, name, method)

    return drive(port, folder, at_each_look=watched.stall)


if __name__ == "__main__":
    sys.exit(main())
