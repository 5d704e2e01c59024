"""A report into a file: the fullest form that fits two pages, as PDF or PNG."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

from PySide6.QtGui import QGuiApplication

from biofeedback.errors import UserError
from biofeedback.phrase import phrase
from biofeedback.report.document import DETAILS, sheet
from biofeedback.report.paper import TALL_CHARTS, Paper
from biofeedback.session.planning import write_whole

if TYPE_CHECKING:
    from pathlib import Path

    from biofeedback.report.chart_layout import Shown
    from biofeedback.session.report_facts import ReportFacts

PAGES_MOST = 2
SUFFIXES = (".pdf", ".png")


def file_name(facts: ReportFacts, suffix: str = ".pdf") -> str:
    """A name that tells code and days, and never a name."""
    return f"{facts.code}_report_{facts.first}_{facts.last}{suffix}"


def paper(facts: ReportFacts, *, shown: Shown = str) -> Paper:
    """The report on at most two pages, with as much detail as they hold."""
    made = Paper(sheet(facts), shown=shown, chart_height=TALL_CHARTS)
    for detail in DETAILS:
        if len(made.pages) <= PAGES_MOST:
            break
        made = Paper(sheet(facts, detail), shown=shown)
    return made


def write(facts: ReportFacts, path: Path, *, shown: Shown = str) -> None:
    """Writes a report, whole or not at all; the suffix says as what.

    Raises:
        UserError: the suffix is neither .pdf nor .png.
        FileError: the file cannot be written.
    """
    suffix = path.suffix.lower()
    if suffix not in SUFFIXES:
        raise UserError(
            phrase("“{path_name}” is no name of a report.", path_name=path.name),
            phrase("End it in .pdf or .png."),
        )
    made = paper(facts, shown=shown)
    write_whole(path, made.pdf() if suffix == ".pdf" else made.png())


def painting() -> QGuiApplication:
    """What Qt wants before letters can be drawn; no window and no screen are needed.

    Whoever asks holds it until the last letter is drawn.
    """
    running = QGuiApplication.instance()
    if isinstance(running, QGuiApplication):
        return running
    if sys.platform.startswith("linux"):
        os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    return QGuiApplication([sys.argv[0]])
