"""What is searched: recordings, rule and mains; run and stop, and how far it is.

The work is done by a thread that nobody waits for; this form looks at it on a timer.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.field import Field
from biofeedback.gui.language import error_words, filled, said, shown, tr
from biofeedback.tuning.choice import Rule
from biofeedback.tuning.errand import FAULT_WORDS, Errand
from biofeedback.tuning.search import PATTERN, Found, Wanted, files_in, search

if TYPE_CHECKING:
    from collections.abc import Iterable

    from biofeedback.conditioning.profile import FilterChoice

LOOK_MS = 100
AGE_MS = (5.0, 1000.0)
OVERSHOOT_N = (0.0, 10_000.0)
MAINS_HZ = (50.0, 60.0)


@dataclass(frozen=True, slots=True)
class _Chosen:
    """Recordings, and where they were chosen."""

    paths: tuple[Path, ...]
    words: str


class FilterSetup(QWidget):
    """The form at the side of the page.

    Args:
        recordings: folder that is offered first; None where there is none.

    Signals:
        found: what a search found.
        said: words; empty takes them away.
        begun: a search is under way.
    """

    found = Signal(object)
    said = Signal(str)
    begun = Signal()

    def __init__(self, recordings: Path | None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._folder = recordings
        self._chosen = _Chosen((), "")
        self._errand: Errand[Found] | None = None
        self._present: FilterChoice | None = None
        self.files = QPushButton(tr("Recordings…"))
        self.folder = QPushButton(tr("Folder…"))
        self.these = QLabel()
        self.these.setWordWrap(True)
        self.age = Field(
            tr("Age under"), unit="ms", tip=tr("Of the shown value; 60 ms is usual")
        )
        self.age.set_number(1000 * Rule().age_most_s, digits=0)
        self.overshoot = Field(
            tr("Overshoot up to"), unit="N", tip=tr("At entry; empty: any")
        )
        self.mains = QComboBox()
        self.mains.setAccessibleName(tr("Mains"))
        for hz in MAINS_HZ:
            self.mains.addItem(f"{hz:g} Hz", userData=hz)
        self.run = QPushButton()
        self.run.setMinimumHeight(32)
        self.bar = QProgressBar()
        self.bar.setTextVisible(False)
        self.bar.setFixedHeight(12)
        self.bar.setAccessibleName(tr("Progress of the search"))
        self.state = QLabel()
        self.state.setObjectName("summary")
        self.state.setWordWrap(True)
        self._timer = QTimer(self)
        self._timer.setInterval(LOOK_MS)
        self._timer.timeout.connect(self.look)
        self._lay_out()
        self.files.clicked.connect(self._ask_files)
        self.folder.clicked.connect(self._ask_folder)
        self.run.clicked.connect(self.run_or_stop)
        self._show_chosen()
        self._show_state()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        choose = QHBoxLayout()
        choose.addWidget(self.files, 1)
        choose.addWidget(self.folder, 1)
        column.addLayout(choose)
        column.addWidget(self.these)
        column.addWidget(self.age)
        column.addWidget(self.overshoot)
        mains = QHBoxLayout()
        words = QLabel(tr("Mains"))
        words.setBuddy(self.mains)
        mains.addWidget(words)
        mains.addWidget(self.mains, 1)
        column.addLayout(mains)
        column.addWidget(self.run)
        column.addWidget(self.bar)
        column.addWidget(self.state)

    # What is chosen.

    def offer_folder(self) -> None:
        """The folder of this computer, where nothing was chosen yet."""
        if not self._chosen.paths and self._folder is not None:
            self.choose([self._folder])

    def choose(self, given: Iterable[Path]) -> None:
        """Recordings, or folders of them."""
        places = list(given)
        paths = tuple(files_in(places))
        where = str(places[0]) if len(places) == 1 and places[0].is_dir() else ""
        self._chosen = _Chosen(paths, where)
        self._show_chosen()

    @property
    def paths(self) -> tuple[Path, ...]:
        """The recordings that are chosen."""
        return self._chosen.paths

    @property
    def mains_hz(self) -> float:
        """50 or 60 Hz."""
        return MAINS_HZ[self.mains.currentIndex()]

    def show_present(self, choice: FilterChoice | None) -> None:
        """The filter in use; its notch tells the mains."""
        if choice is not None and choice != self._present and choice.notch_hz:
            self.mains.setCurrentIndex(int(choice.notch_hz == MAINS_HZ[1]))
        self._present = choice

    def _ask_files(self) -> None:
        dialog = QFileDialog(self.window(), tr("Choose recordings"))
        dialog.setFileMode(QFileDialog.FileMode.ExistingFiles)
        dialog.setNameFilter(PATTERN)
        self._ask(dialog)

    def _ask_folder(self) -> None:
        dialog = QFileDialog(self.window(), tr("Choose a folder of recordings"))
        dialog.setFileMode(QFileDialog.FileMode.Directory)
        self._ask(dialog)

    def _ask(self, dialog: QFileDialog) -> None:
        if self._folder is not None:
            dialog.setDirectory(str(self._folder))
        chosen = dialog.selectedFiles() if dialog.exec() else []
        dialog.deleteLater()
        if chosen:
            self.choose([Path(name) for name in chosen])

    def _show_chosen(self) -> None:
        paths, where = self._chosen.paths, self._chosen.words
        if not paths:
            self.these.setText(tr("No recordings chosen yet."))
        elif len(paths) == 1:
            self.these.setText(paths[0].name)
        elif where:
            self.these.setText(
                filled(tr("{n} recordings in {folder}"), n=len(paths), folder=where)
            )
        else:
            self.these.setText(filled(tr("{n} recordings"), n=len(paths)))
        self.these.setToolTip("\n".join(path.name for path in paths[:40]))
        self._show_state()

    # Run and stop.

    @property
    def searching(self) -> bool:
        """Whether a search is under way."""
        return self._errand is not None

    def run_or_stop(self) -> None:
        """Begins, or gives up."""
        if self._errand is not None:
            self._errand.ask_to_stop()
            self._show_state()
            return
        wanted = self._wanted()
        if wanted is None:
            return
        self.said.emit("")
        self._errand = Errand(lambda tell: search(wanted, tell))
        self._errand.start()
        self._timer.start()
        self._show_state()
        self.begun.emit()

    def let_go(self) -> None:
        """Gives up at once, as a set needs the whole machine."""
        if self._errand is not None:
            self._errand.ask_to_stop()
            self._show_state()

    def close_down(self) -> None:
        """Ends the thread, and waits for it."""
        self._timer.stop()
        if self._errand is not None:
            self._errand.stop()
            self._errand = None

    def look(self) -> None:
        """How far it is; what it found, once it is done."""
        errand = self._errand
        if errand is None:
            return
        if not errand.done:
            self._show_state()
            return
        self._timer.stop()
        self._errand = None
        self._show_state()
        if errand.failure is not None:
            self.said.emit(error_words(errand.failure))
        elif errand.faulty:
            self.said.emit(said(FAULT_WORDS))
        elif (result := errand.result) is not None:
            self._tell_left_out(result)
            self.found.emit(result)
        else:
            self.said.emit(tr("The search was stopped; nothing was kept of it."))

    def _tell_left_out(self, found: Found) -> None:
        out = found.left_out
        words = filled(tr("{n} used, {out} left out."), n=len(found.used), out=len(out))
        self.state.setText(words)
        self.state.setToolTip(
            "\n".join(f"{each.path.name}: {shown(each.why)}" for each in out[:20])
        )
        if out:
            first = filled(
                tr("Left out: {name}: {why}"), name=out[0].path.name, why=out[0].why
            )
            more = len(out) - 1
            self.said.emit(
                filled(tr("{first} And {n} more."), first=first, n=more)
                if more
                else first
            )

    def _wanted(self) -> Wanted | None:
        """What is asked for; None where a field has to be put right first."""
        age_ms = self.age.number()
        overshoot_n = self.overshoot.number(empty=math.nan)
        good = self._in_bounds(self.age, age_ms, AGE_MS)
        if overshoot_n is not None:
            good &= self._in_bounds(self.overshoot, overshoot_n, OVERSHOOT_N)
        if not good or age_ms is None:
            return None
        return Wanted(
            paths=self.paths,
            rule=Rule(age_ms / 1000, overshoot_n),
            mains_hz=self.mains_hz,
            present=self._present,
        )

    def _in_bounds(
        self, field: Field, value: float | None, bounds: tuple[float, float]
    ) -> bool:
        least, most = bounds
        if value is None or math.isnan(value):
            return False  # that is told already
        if least <= value <= most:
            return True
        field.complain(
            filled(tr("It must be {least:g} to {most:g}."), least=least, most=most)
        )
        return False

    def _show_state(self) -> None:
        errand = self._errand
        self.run.setText(tr("Stop the search") if errand else tr("Search"))
        self.run.setEnabled(bool(self.paths) and not (errand and errand.stopping))
        for widget in (self.files, self.folder, self.age, self.overshoot, self.mains):
            widget.setEnabled(errand is None)
        if errand is None:
            self.bar.setRange(0, 1)
            self.bar.setValue(0)
            self.state.setText("")
            return
        done, total = errand.progress
        self.bar.setRange(0, max(1, total or len(self.paths)))
        self.bar.setValue(done)
        if errand.stopping:
            self.state.setText(tr("Stopping after the recording under way."))
        else:
            words = tr("{done} of {total} recordings measured")
            self.state.setText(filled(words, done=done, total=total or len(self.paths)))
