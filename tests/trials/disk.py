"""A disk that is full, read-only, slow or gone in the middle of a set: what goes on?

    python tests/trials/disk.py [full|read-only|slow|gone ...]

Each fault is a real one. Full and read-only: a small tmpfs in a mount namespace of its
own (root is needed for it). Slow and gone: a library, compiled here and loaded before
the C library, that holds up each write and fsync below a folder by 2 s, or answers EIO.
A simulated rig runs in real time, a set is under way, and a loop pulls from the session
60 times a second, as the window does. It is asked:

* were all blocks taken in time, and how old was the newest sample at most,
* was the fault told in plain words,
* is each sample in a recording afterwards: at home, or in a second folder?
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from biofeedback.logbook import away, recordings
from biofeedback.logbook.database import Logbook
from biofeedback.rig.handoff import Warned
from biofeedback.session import Session, demo

KINDS = ("full", "read-only", "slow", "gone")
FRAME_S = 1 / 60
BEFORE_S, FAULT_S, AFTER_S = 1.5, 5.0, 1.5
SIZE_BYTES = 128 * 1024
SHIM = r"""
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
static int fault(int fd) {
    char link[64], path[4096];
    const char *below = getenv("TRIAL_BELOW"), *flag = getenv("TRIAL_FLAG");
    if (!below || !flag || access(flag, F_OK)) return 0;
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t n = readlink(link, path, sizeof path - 1);
    if (n < 0) return 0;
    path[n] = 0;
    if (strncmp(path, below, strlen(below))) return 0;
    if (strcmp(getenv("TRIAL_KIND"), "gone") == 0) { errno = EIO; return -1; }
    sleep(2);
    return 0;
}
ssize_t write(int fd, const void *data, size_t n) {
    ssize_t (*real)(int, const void *, size_t) = dlsym(RTLD_NEXT, "write");
    return fault(fd) ? -1 : real(fd, data, n);
}
int fsync(int fd) {
    int (*real)(int) = dlsym(RTLD_NEXT, "fsync");
    return fault(fd) ? -1 : real(fd);
}
"""


@dataclass(slots=True)
class Found:
    """What one fault has led to.

    Attributes:
        late: turns that began more than a frame after they were due.
        age_most_s: of the newest sample, in any turn after the first second.
        close_s: how long it took to close the session.
        lost: samples of the set that stand in no recording.
    """

    kind: str
    turns: int = 0
    late: int = 0
    wait_most_s: float = 0.0
    age_most_s: float = 0.0
    dropped: int = 0
    close_s: float = 0.0
    samples: int = 0
    lost: int = -1
    told: list[str] = field(default_factory=list)
    noted: int = 0


def skipped(kind: str) -> str:
    """Why this fault cannot be made here; empty where it can."""
    if kind in ("slow", "gone"):
        return "" if shutil.which("gcc") else "no gcc for the library that fails"
    tried = shutil.which("unshare") and subprocess.run(
        ["unshare", "-m", "sh", "-c", "mount -t tmpfs none /mnt"],  # noqa: S607
        check=False,
        capture_output=True,
    )
    return "" if tried and tried.returncode == 0 else "nothing can be mounted here"


def run(kind: str, folder: Path) -> Found:
    """One fault, in a process of its own."""
    command = [sys.executable, __file__, "--inside", kind, str(folder)]
    env = os.environ | {"XDG_DATA_HOME": str(folder / "data")}  # for its notes
    if kind in ("slow", "gone"):
        source, library = folder / "shim.c", folder / "shim.so"
        source.write_text(SHIM)
        gcc = ["gcc", "-shared", "-fPIC", "-o", str(library), str(source), "-ldl"]
        subprocess.run(gcc, check=True)
        env |= {
            "LD_PRELOAD": str(library),
            "TRIAL_KIND": kind,
            "TRIAL_BELOW": str(folder / "disk"),
            "TRIAL_FLAG": str(folder / "fault"),
        }
    else:
        command = ["unshare", "-m", *command]
    done = subprocess.run(command, env=env, check=True, stdout=subprocess.PIPE)
    return Found(**json.loads(done.stdout.splitlines()[-1]))


def _mount(*words: str) -> None:
    subprocess.run(["mount", *words], check=True)  # noqa: S607


class Inside:
    """One session with a fault in it."""

    def __init__(self, kind: str, folder: Path) -> None:
        self.found = Found(kind)
        self.folder, self.disk = folder, folder / "disk"
        self.home, self.second = self.disk / "recordings", folder / "second"
        self.filler = self.disk / "filler"
        for one in (self.disk, self.second):
            one.mkdir()
        if kind in ("full", "read-only"):
            _mount("-t", "tmpfs", "-o", f"size={SIZE_BYTES}", "none", str(self.disk))

    def run(self) -> Found:
        """Before the fault, in it, after it; and what is kept then."""
        found = self.found
        with Logbook.open(self.folder / "logbook.db") as logbook:
            session = Session(
                demo.source(),
                logbook=logbook,
                recordings=self.home,
                athlete_code="INV-1",
            )
            session.start()
            self._pull(session, 1.0, judged=False)
            # No disk is made read-only under a file that is open for writing: that
            # set cannot be begun there.
            if found.kind == "read-only":
                self._break()
            session.begin_set(demo.PRESCRIPTION)
            self._pull(session, BEFORE_S)
            if found.kind != "read-only":
                self._break()
            self._pull(session, FAULT_S)
            if found.kind in ("read-only", "gone"):
                session.record_in(self.second)
            elif found.kind == "full":
                self.filler.unlink()  # space is back
            self._pull(session, AFTER_S)
            session.end_set()
            self._pull(session, 0.5)
            began_s = time.monotonic()
            session.close()
            found.close_s = time.monotonic() - began_s
            if session.not_kept:
                found.told.append(str(session.not_kept))
        (self.folder / "fault").unlink(missing_ok=True)
        self._judge()
        return found

    def _break(self) -> None:
        kind = self.found.kind
        if kind == "full":
            try:
                with self.filler.open("wb", buffering=0) as file:
                    while True:
                        file.write(bytes(4096))
            except OSError:
                pass
        elif kind == "read-only":
            _mount("-o", "remount,ro", str(self.disk))
        else:
            (self.folder / "fault").touch()

    def _pull(self, session: Session, seconds: float, *, judged: bool = True) -> None:
        found, due_s = self.found, time.monotonic()
        until_s = due_s + seconds
        while due_s < until_s:
            late_s = time.monotonic() - due_s
            update = session.take()
            took_s = time.monotonic() - due_s
            arrived_ns = update.health.arrived_ns
            if judged and arrived_ns is not None:
                found.turns += 1
                found.late += took_s > FRAME_S
                found.wait_most_s = max(found.wait_most_s, took_s - late_s)
                age_s = (time.monotonic_ns() - arrived_ns) / 1e9
                found.age_most_s = max(found.age_most_s, age_s)
                found.dropped += update.dropped_blocks
            for event in update.events:
                if isinstance(event, Warned):
                    found.told.append(str(event.message))
            due_s += FRAME_S
            time.sleep(max(0.0, due_s - time.monotonic()))

    def _judge(self) -> None:
        found = self.found
        found.noted = len(away.listed(self.home))
        places = [*self.home.glob("*.force"), *self.second.glob("*.force")]
        if not places:
            return
        best = max(places, key=lambda path: path.stat().st_size)
        survey = recordings.read(best).survey()
        found.samples = survey.samples
        found.lost = survey.lost + survey.damaged + int(survey.recovered)


def main() -> int:
    """Runs what is asked for, and tells the figures."""
    if sys.argv[1:2] == ["--inside"]:
        found = Inside(sys.argv[2], Path(sys.argv[3])).run()
        names = Found.__dataclass_fields__
        print(json.dumps({name: getattr(found, name) for name in names}))
        return 0
    good = True
    for kind in sys.argv[1:] or KINDS:
        reason = skipped(kind)
        if reason:
            print(f"{kind}: not tried, {reason}")
            continue
        with tempfile.TemporaryDirectory() as folder:
            found = run(kind, Path(folder))
        good = good and found.lost == 0
        print(found)
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
