"""Backups on the page of data: where to, one now, and when the last one was.

A backup is made by a thread that nobody waits for: one may leave the page, and begin a
set, while it goes on. What came of it stands here until the next one.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.awaited import Awaited
from biofeedback.gui.keys import bind, show_key
from biofeedback.gui.language import filled, shown, tr
from biofeedback.gui.plain_label import plain_label
from biofeedback.phrase import numbered
from biofeedback.session.keeping import OLD_DAYS, LastBackup, Outlook
from biofeedback.session.keeping_words import made_words
from biofeedback.session.local_time import day_and_time

if TYPE_CHECKING:
    from biofeedback.session.keeping import Keeping, Made

KEY = "F9"


class BackupBox(QWidget):
    """The last backup, the folder, the button, and how far it is.

    Args:
        awaited: runs what takes its time.
        folder: that was picked last; empty for none.

    Signals:
        picked: another folder, as text.
        made: a backup was made, or failed.
    """

    picked = Signal(str)
    made = Signal()

    def __init__(
        self,
        keeping: Keeping,
        awaited: Awaited,
        folder: str,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._keeping = keeping
        self._awaited = awaited
        self._folder = folder
        self._looking = Awaited(self)
        self._outlook = Outlook(None, None, None)
        self._mine = False  # what is under way is a backup
        self._made_since = False  # since disks were last begun to be looked at
        self.title = QLabel(tr("Backup"))
        self.title.setObjectName("look")
        self.last = plain_label()
        self.clear = plain_label(look="look")
        self.clear.hide()
        self.where = plain_label(look="summary")
        self.choose = QPushButton(tr("Folder…"))
        self.choose.setToolTip(
            tr("On another disk, best one that is put away afterwards")
        )
        self.run = QPushButton()
        self.run.setMinimumHeight(32)
        self.bar = QProgressBar()
        self.bar.setTextVisible(False)
        self.bar.setFixedHeight(12)
        self.bar.setAccessibleName(tr("Progress of the backup"))
        self.state = plain_label(name=tr("What came of the backup"))
        self._lay_out()
        self.choose.clicked.connect(self._ask)
        self.run.clicked.connect(self.run_or_stop)
        awaited.moved.connect(self.show_state)
        show_key(self.run, KEY, tr("Back up now, or stop"))
        bind(self, KEY, self.run.click)  # dead while the page is hidden
        self.show_state()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(5)
        column.addWidget(self.title)
        column.addWidget(self.last)
        column.addWidget(self.clear)
        row = QHBoxLayout()
        row.addWidget(self.run, 2)
        row.addWidget(self.choose, 1)
        column.addLayout(row)
        for widget in (self.where, self.bar, self.state):
            column.addWidget(widget)

    # Where to, and the last one.

    def renew(self) -> None:
        """The page is shown: disks are looked at anew, by a thread."""
        folder = self._folder
        self._made_since = False
        self._looking.start(
            "look for backups",
            lambda _tell: self._keeping.outlook(folder),
            done=lambda outlook: self._seen(folder, outlook),
            failed=self.last.setText,
        )

    def _seen(self, folder: str, outlook: Outlook) -> None:
        if folder == self._folder and not self._made_since:
            self._show_outlook(outlook)
        else:  # one was picked, or made, while a slow disk was looked at
            self.renew()

    def _show_outlook(self, outlook: Outlook) -> None:
        self._outlook = outlook
        last = outlook.last
        self.last.setText(
            self._last_words(last)
            if last is not None
            else tr(
                "No backup is known yet. If this disk fails, all is lost that is on it "
                "alone: make one now."
            )
        )
        self.clear.setText(_clear_words(outlook.clear))
        self.clear.setVisible(bool(outlook.clear))
        if outlook.target is not None:
            self.where.setText(
                filled(tr("Goes to: {folder}"), folder=str(outlook.target))
            )
        elif outlook.picked is not None:
            self.where.setText(
                filled(
                    tr("{folder} is not here now. Plug its disk in, or pick another "
                       "folder."),
                    folder=str(outlook.picked),
                )
            )  # fmt: skip
        else:
            self.where.setText(tr("No folder is picked yet."))
        self.show_state()

    def _last_words(self, last: LastBackup) -> str:
        days = self._keeping.days_since(last)
        told = filled(
            tr("Last backup: {when}, in {place}."),
            when=day_and_time(last.made_utc),
            place=str(last.place),
        )
        if not last.here:
            told += " " + tr("That folder is not here now.")
        if days > OLD_DAYS:
            told += " " + shown(
                numbered(
                    days,
                    "That is {count} day ago: time for the next one.",
                    "That is {count} days ago: time for the next one.",
                )
            )
        return told

    @property
    def looking(self) -> bool:
        """Whether it is not known yet how things stand."""
        return self._looking.busy

    def take_folder(self, folder: Path) -> None:
        """Another folder, which is remembered."""
        self._folder = str(folder)
        self.state.setText("")
        self.picked.emit(self._folder)
        self.renew()

    def _ask(self) -> None:
        begin = self._outlook.picked
        title = tr("Folder for backups")
        dialog = QFileDialog(self.window(), title, str(begin) if begin else "")
        dialog.setFileMode(QFileDialog.FileMode.Directory)
        dialog.setOption(QFileDialog.Option.ShowDirsOnly)
        chosen = dialog.selectedFiles() if dialog.exec() else []
        dialog.deleteLater()
        if chosen:
            self.take_folder(Path(chosen[0]))

    # One now.

    @property
    def _picked(self) -> Path | None:
        return Path(self._folder) if self._folder else self._outlook.picked

    def run_or_stop(self) -> None:
        """Begins, or gives up; where no folder was picked yet, one is asked for."""
        if self._mine:
            self._awaited.ask_to_stop()
            return
        picked = self._picked
        if picked is None and not self.looking:
            self._ask()
            picked = self._picked
        if picked is None or self._awaited.busy:
            return
        self._mine = True
        self.state.setText("")
        self._awaited.start(
            "backup",
            lambda tell: self._keeping.back_up(picked, tell),
            done=self._made,
            failed=self._failed,
        )

    def _made(self, made: Made) -> None:
        self._mine = False
        self._made_since = True
        # Not by another look: a set may be under way, and nothing waits for a disk.
        last = LastBackup(made.made_utc, made.folder, here=True)
        clear = {*self._outlook.clear} - {made.folder}
        if self._keeping.sealed and made.clear:
            clear.add(made.folder)
        outlook = Outlook(last, self._picked, made.folder, tuple(sorted(clear)))
        self._show_outlook(outlook)
        told = (*made_words(made), *made.done.problems)
        self._end("\n".join(map(shown, told)))

    def _failed(self, words: str) -> None:
        self._end(filled(tr("No backup was made. {why}"), why=words))

    def _end(self, words: str) -> None:
        self._mine = False
        self.state.setText(words)
        self.show_state()
        self.made.emit()

    def close_down(self) -> None:
        """Ends the look at disks, and waits for it."""
        self._looking.close_down()

    def show_state(self) -> None:
        """Buttons and progress as they are now."""
        awaited = self._awaited
        self.run.setText(tr("Stop the backup") if self._mine else tr("Back up now"))
        free = self._mine or not awaited.busy
        self.run.setEnabled(free and not awaited.stopping)
        self.choose.setEnabled(not awaited.busy)
        done, total = awaited.progress if self._mine else (0, 0)
        self.bar.setRange(0, max(1, total))
        self.bar.setValue(done)
        self.bar.setVisible(self._mine)
        if self._mine:
            self.state.setText(self._progress_words(done, total))

    def _progress_words(self, done: int, total: int) -> str:
        if self._awaited.stopping:
            return tr("Stopping after the file under way.")
        if not total:
            return tr("Copying the logbook.")
        pct = 100 * done // total
        if 2 * done <= total:
            return filled(tr("Copying recordings: {pct} % done."), pct=pct)
        return filled(tr("Reading the backup back: {pct} % done."), pct=pct)


def _clear_words(clear: tuple[Path, ...]) -> str:
    """Which copies are readable though all is sealed by now; empty for none."""
    if not clear:
        return ""
    told = numbered(
        len(clear),
        "{count} earlier copy is not sealed, and whoever has it can read it: {places}.",
        "{count} earlier copies are not sealed, and whoever has them can read them: "
        "{places}.",
        places=", ".join(map(str, clear)),
    )
    return (
        shown(told)
        + " "
        + tr("A new backup in the same folder is sealed; delete what is not needed.")
    )
