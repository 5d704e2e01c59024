"""Memory over an hour of a session: the window with all its pages, in quick time.

Samples of a staged session at 80 Hz from two cells go through the real hold rules
and the real window, a quarter of a second at a time; set follows set.
"""

from __future__ import annotations

import gc
import os
import sys
from dataclasses import replace
from pathlib import Path

from PySide6.QtWidgets import QApplication

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from bench.ratios import Row
from gui.staged_session import ASKED, StagedSession, steady_pull

from biofeedback.gui.app import application
from biofeedback.gui.window import Window

PART = "memory"
STEP_S = 0.25


def resident_mb() -> float:
    """Of this process, as Linux tells it."""
    gc.collect()
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE") / 1e6


def rows(*, minutes: int = 60) -> list[Row]:
    """The whole part."""
    application()
    session = StagedSession(steady_pull)
    asked = replace(ASKED, reps=12)
    window = Window(session, prescription=asked, clock=lambda: session.now_ns)
    window.show()
    held = {}
    for turn in range(round(60 * minutes / STEP_S)):
        if turn % round(240 / STEP_S) == 0:
            session.end_set()
            session.begin_set(asked)
        session.advance(STEP_S)
        window.frame()
        QApplication.processEvents()
        if (turn + 1) % round(60 / STEP_S) == 0:
            held[round((turn + 1) * STEP_S / 60)] = resident_mb()
    window.close_at_once()
    grown = held[minutes] - held[5]
    return [
        Row(PART, f"window, minute 5 to {minutes}", grown, "MB", most=5.0),
        Row(PART, f"window, minute {minutes}", held[minutes], "MB"),
    ]
