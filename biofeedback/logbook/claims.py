"""Claims: which recordings a running program is writing just now.

A claim is a lock of the operating system on the open file. It goes with the
program, however that ends, so a recording that was cut off is free at once and
one that is under way at the next desk is left alone. Where a file system has no
locks, nothing is claimed and nothing is refused.
"""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

if sys.platform == "win32":
    import msvcrt

    # Locks bind every reader there; a byte that no file reaches disturbs none.
    _FAR_OUT = 2**40

    def claim(descriptor: int) -> bool:
        """Claims an open file; False where another has it."""
        try:
            os.lseek(descriptor, _FAR_OUT, os.SEEK_SET)
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        finally:
            os.lseek(descriptor, 0, os.SEEK_END)
        return True

else:
    import errno
    import fcntl

    def claim(descriptor: int) -> bool:
        """Claims an open file; False where another has it."""
        try:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as error:
            return error.errno not in (errno.EWOULDBLOCK, errno.EACCES)
        return True


def is_claimed(path: Path) -> bool:
    """Whether a running program is writing this file.

    Raises:
        OSError: the file cannot be opened.
    """
    descriptor = os.open(path, os.O_RDONLY)
    try:
        return not claim(descriptor)
    finally:
        os.close(descriptor)
