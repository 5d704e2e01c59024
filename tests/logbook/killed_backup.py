"""A backup in a process of its own, which is killed before a change of files.

Each such process is a copy of one that has loaded the program already, and has a single
thread: a copy of the process of the tests, which has more, might wait for a lock that
nobody holds any more.
"""

from __future__ import annotations

import multiprocessing
import os
import sys
from typing import TYPE_CHECKING

from biofeedback.logbook.backup import back_up

if TYPE_CHECKING:
    from pathlib import Path

    from biofeedback.logbook.kept_place import KeptPlace

KILLED = 9


def killed_at(step: int, place: KeptPlace, target: Path) -> bool:
    """Makes a backup in a process that ends before its change of files of this number.

    Returns:
        Whether it was killed; else it was done before.
    """
    copies = multiprocessing.get_context("forkserver")
    copies.set_forkserver_preload(["biofeedback.logbook.backup"])
    process = copies.Process(target=_back_up_until, args=(step, place, target))
    process.start()
    process.join()
    assert process.exitcode in (0, KILLED)
    return process.exitcode == KILLED


def _back_up_until(step: int, place: KeptPlace, target: Path) -> None:
    left = step

    def look(event: str, given: tuple[object, ...]) -> None:
        nonlocal left
        writes = event == "open" and isinstance(given[2], int) and given[2] & os.O_RDWR
        if event in ("os.rename", "os.remove") or writes:
            left -= str(given[0]).startswith(str(target))
            if left <= 0:
                os._exit(KILLED)

    sys.addaudithook(look)
    back_up(place, target)
