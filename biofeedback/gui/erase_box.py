"""Erasing an athlete, on the page of data: first what would go, then by the code.

Nothing is erased by one press: the code is typed once to look, and once more to erase.
While it is being done nothing else is: see `Keeping.erase`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from biofeedback.gui.field import Field
from biofeedback.gui.language import filled, shown, tr
from biofeedback.gui.plain_label import plain_label
from biofeedback.session.keeping_words import erased_words, would_go_words

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from biofeedback.gui.awaited import Awaited
    from biofeedback.session.keeping import Erasable, Keeping


class EraseBox(QWidget):
    """One athlete, for good.

    Args:
        awaited: runs what takes its time.
        ordered: whether a running order is at the desk, which may begin a set.

    Signals:
        erased: the code of somebody who was erased, or where that was tried.
    """

    erased = Signal(str)

    def __init__(
        self,
        keeping: Keeping,
        awaited: Awaited,
        ordered: Callable[[], bool],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._keeping = keeping
        self._awaited = awaited
        self._ordered = ordered
        self._found: Erasable | None = None
        self.erasing = False
        self.title = QLabel(tr("Erase an athlete"))
        self.title.setObjectName("look")
        self.code = Field(tr("Code of the athlete"))
        self.look = QPushButton(tr("Show what would go"))
        self.words = plain_label(
            tr("Where somebody asks to have their data deleted: recordings, rows, "
               "reports and the backups that are here, for good. First it is shown "
               "what would go.")
        )  # fmt: skip
        self.again = Field(tr("The code once more, to erase"))
        self.erase = QPushButton(tr("Erase for good"))
        self.leave = QPushButton(tr("Leave it"))
        self._lay_out()
        self.code.line.returnPressed.connect(self.look_for)
        self.look.clicked.connect(self.look_for)
        self.again.line.textEdited.connect(self.show_state)
        self.again.line.returnPressed.connect(self._erase)
        self.erase.clicked.connect(self._erase)
        self.leave.clicked.connect(lambda _checked: self.give_up())
        awaited.moved.connect(self.show_state)
        self.show_state()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(5)
        column.addWidget(self.title)
        row = QHBoxLayout()
        row.addWidget(self.code, 1)
        row.addWidget(self.look)
        column.addLayout(row)
        column.addWidget(self.words)
        column.addWidget(self.again)
        keys = QHBoxLayout()
        keys.addWidget(self.leave, 1)
        keys.addWidget(self.erase, 1)
        column.addLayout(keys)

    # What would go.

    @property
    def asking(self) -> bool:
        """Whether it is shown what would go, and the code asked for."""
        return self._found is not None

    def look_for(self) -> None:
        """Shows what would go; nothing is changed."""
        code = self.code.text
        if not code or self._awaited.busy:
            return
        self.give_up(tr("Looking through logbook, recordings and backups."))
        self._awaited.start(
            "look for an athlete",
            lambda _tell: self._keeping.look_for(code),
            done=self._ask,
            failed=self._say,
        )

    def _ask(self, found: Erasable) -> None:
        if self.code.text.lower() != found.found.code.lower():  # another one by now
            self.give_up("")
            return
        hindered = self._in_the_way(found)
        self._found = None if hindered else found
        told = [*map(shown, would_go_words(found)), hindered]
        self._say("\n".join(filter(None, told)))
        if not hindered:
            self.again.line.setFocus()

    def _in_the_way(self, found: Erasable) -> str:
        if self._ordered():
            return tr("A day is under way at the desk. End that visit first.")
        return shown(self._keeping.in_the_way(found.found.code))

    def give_up(self, words: str = "") -> None:
        """Nothing is asked any more, and nothing was erased."""
        self._found = None
        self.again.set_text("")
        self._say(words)

    def _say(self, words: str) -> None:
        self.words.setText(words)
        self.show_state()

    # Erasing.

    @property
    def typed(self) -> bool:
        """Whether the code was typed as the logbook writes it."""
        return self._found is not None and self.again.text == self._found.found.code

    def _erase(self) -> None:
        found = self._found
        if found is None or self._awaited.busy:
            return
        if not self.typed:
            self.again.complain(tr("That is not the code; nothing was erased."))
            return
        if hindered := self._in_the_way(found):
            self.give_up(hindered)
            return
        self.erasing = True
        code = found.found.code
        self.give_up()
        self._awaited.start(
            "erasure",
            lambda tell: self._keeping.erase(found, tell),
            done=lambda done: self._end(code, map(shown, erased_words(code, done))),
            failed=lambda words: self._end(code, [words]),
        )

    def _end(self, code: str, told: Iterable[str]) -> None:
        self.erasing = False
        self.code.set_text("")
        self._say("\n".join(told))
        self.erased.emit(code)

    def show_state(self) -> None:
        """Buttons and progress as they are now."""
        busy, asking = self._awaited.busy, self.asking
        self.look.setEnabled(not busy)
        self.code.line.setEnabled(not self.erasing)
        for widget in (self.again, self.erase, self.leave):
            widget.setVisible(asking)
        self.erase.setEnabled(self.typed and not busy)
        if self.erasing:
            done, total = self._awaited.progress
            self.words.setText(
                filled(
                    tr("Erasing: {done} of {total} steps. Please wait; other pages "
                       "come back when it is done."),
                    done=done, total=max(1, total),
                )
            )  # fmt: skip
