"""The log: where a fault of the program leaves its traces.

A small rotating file in the data folder, for its owner alone. It holds codes, port
names and tracebacks, never a person's name.
"""

from __future__ import annotations

import logging
import os
import sys
import threading
from logging.handlers import RotatingFileHandler
from typing import TYPE_CHECKING

from biofeedback.logbook import folders

if TYPE_CHECKING:
    from io import TextIOWrapper
    from pathlib import Path
    from types import TracebackType

SIZE_MAX_BYTES = 500_000
"""Some thousand lines; with the file before it, 1 MB at most."""

log = logging.getLogger("biofeedback")


class _PrivateFile(RotatingFileHandler):
    """A rotating file that only its owner can read."""

    def _open(self) -> TextIOWrapper:
        return open(
            self.baseFilename,
            "a",
            encoding=self.encoding,
            opener=lambda path, flags: os.open(path, flags, folders.OWNER_ONLY_FILE),
        )


def start(folder: Path) -> Path:
    """Writes what is logged from now on into `folder`, uncaught faults too.

    A place that cannot be written leaves the log on the terminal: a fault of the
    log must not keep anybody from a session.

    Returns:
        The file.
    """
    path = folder / "biofeedback.log"
    try:
        handler = _PrivateFile(
            path, maxBytes=SIZE_MAX_BYTES, backupCount=1, encoding="utf-8"
        )
    except OSError as error:
        log.warning("%s cannot be written: %s", path, folders.reason(error))
        return path
    handler.setFormatter(
        logging.Formatter("%(asctime)s %(threadName)s %(levelname)s %(message)s")
    )
    root = logging.getLogger()
    root.addHandler(handler)
    root.setLevel(logging.INFO)
    # It tells of every look at the logbook's version.
    logging.getLogger("alembic").setLevel(logging.WARNING)
    sys.excepthook = _note
    threading.excepthook = lambda fault: _note(
        fault.exc_type, fault.exc_value, fault.exc_traceback
    )
    return path


def _note(
    kind: type[BaseException],
    fault: BaseException | None,
    trace: TracebackType | None,
) -> None:
    """Logs a fault nobody caught, and shows it on the terminal as well."""
    if fault is None or issubclass(kind, KeyboardInterrupt):
        return
    log.critical("A fault of the program", exc_info=(kind, fault, trace))
    sys.__excepthook__(kind, fault, trace)
