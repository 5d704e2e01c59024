"""A disk that is full, read-only, slow, gone or unmounted in mid-set: what goes on?

    python tests/trials/disk.py [full|read-only|slow|gone|unmounted ...]

Each fault is a real one. Full, read-only and unmounted: a small tmpfs in a mount
namespace of its own (root is needed for it); unmounted as a desktop does it with a
stick that is still in use, while another name of the same disk shows what is on it.
Slow and gone: a library, compiled here and loaded before the C library, that holds up
each write and fsync below a folder by 2 s, or answers EIO. The real window draws a set
of a rig on a pseudo-terminal. It is asked:

* was each frame drawn in time, and how old was the newest sample at most,
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

from typing import TYPE_CHECKING

from bench import live_rig
from PySide6.QtCore import QEvent

from biofeedback.gui.app import application
from biofeedback.gui.frame_timer import FRAME_NS
from biofeedback.gui.window import Window
from biofeedback.logbook import away, recordings
from biofeedback.logbook.database import Logbook
from biofeedback.rig.handoff import Warned
from biofeedback.session import demo

if TYPE_CHECKING:
    from biofeedback.session import Update

KINDS = ("full", "read-only", "slow", "gone", "unmounted")
MOUNTED = ("full", "read-only", "unmounted")
LATE_NS = FRAME_NS * 3 // 2
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
        frames: drawn while the set was under way.
        late: of these, how many came over half a period after they were due.
        wait_most_s: longest time between two frames.
        age_most_s: of the newest sample, when its frame had been drawn.
        close_s: how long it took to close the session.
        lost: samples of the set that stand in no recording.
    """

    kind: str
    frames: int = 0
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
    env = os.environ | {
        "XDG_DATA_HOME": str(folder / "data"),  # for its notes
        "QT_QPA_PLATFORM": "offscreen",
    }
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


class Watched(Window):
    """The window of the program, which notes when it has painted."""

    found: Found | None = None
    _before_ns: int | None = None

    def _show(self, update: Update, *, now_ns: int) -> None:
        super()._show(update, now_ns=now_ns)
        if self.found is not None:
            self.found.dropped += update.dropped_blocks
            for event in update.events:
                if isinstance(event, Warned):
                    self.found.told.append(str(event.message))

    def event(self, event: QEvent) -> bool:
        done = super().event(event)
        if event.type() is QEvent.Type.UpdateRequest and self.found is not None:
            self._note(self.found)
        return done

    def _note(self, found: Found) -> None:
        now_ns, before_ns = time.monotonic_ns(), self._before_ns
        self._before_ns = now_ns
        if before_ns is None or self.drawn_age_s is None:
            return
        found.frames += 1
        found.late += now_ns - before_ns > LATE_NS
        found.wait_most_s = max(found.wait_most_s, (now_ns - before_ns) / 1e9)
        found.age_most_s = max(found.age_most_s, self.drawn_age_s)


class Inside:
    """One session with a fault in it."""

    def __init__(self, kind: str, folder: Path) -> None:
        self.found = Found(kind)
        self.folder, self.disk = folder, folder / "disk"
        self.home, self.second = self.disk / "recordings", folder / "second"
        self.again = folder / "again"  # another name of the disk
        self.filler = self.disk / "filler"
        for one in (self.disk, self.second, self.again):
            one.mkdir()
        if kind in MOUNTED:
            _mount("-t", "tmpfs", "-o", f"size={SIZE_BYTES}", "none", str(self.disk))
        if kind == "unmounted":
            _mount("--bind", str(self.disk), str(self.again))

    def run(self) -> Found:
        """Before the fault, in it, after it; and what is kept then."""
        application()
        found, asked = self.found, demo.PRESCRIPTION
        with (
            live_rig.served(live_rig.ATHLETE, 80.0) as (port, _),
            Logbook.open(self.folder / "logbook.db") as logbook,
        ):
            session, window = live_rig.opened(
                Watched, port, asked, logbook=logbook, records=self.home
            )
            live_rig.show(session, window)
            while window.drawn_age_s is None:
                live_rig.run(0.05)
            # No disk is made read-only under a file that is open for writing: that
            # set cannot be begun there.
            if found.kind == "read-only":
                self._break()
            session.begin_set(asked)
            window.found = found
            live_rig.run(BEFORE_S)
            if found.kind != "read-only":
                self._break()
            live_rig.run(FAULT_S)
            if found.kind in ("read-only", "gone"):
                session.record_in(self.second)
            elif found.kind == "full":
                self.filler.unlink()  # space is back
            live_rig.run(AFTER_S)
            session.end_set()
            live_rig.run(0.5)
            window.found = None
            began_s = time.monotonic()
            window.close_at_once()
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
        elif kind == "unmounted":
            subprocess.run(["umount", "-l", str(self.disk)], check=True)  # noqa: S607
        else:
            (self.folder / "fault").touch()

    def _judge(self) -> None:
        found = self.found
        found.noted = len(away.listed(self.home))
        folders = (self.home, self.second, self.again / "recordings")
        places = [path for folder in folders for path in folder.glob("*.force")]
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
