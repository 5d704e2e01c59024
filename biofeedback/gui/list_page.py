"""A page with a list to search on the left and a form on the right.

Rules that hold here:

* What was typed is never lost by choosing another entry: the page says so and stays.
* Nothing is deleted. What is archived can be put back, at once by undo.
* What is wrong is said beside its field; the rest stays as it was typed.
"""

from __future__ import annotations

from abc import abstractmethod
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui.field import Field
from biofeedback.gui.keys import bind, show_key

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from biofeedback.gui.theme import Theme

LIST_PX = 520
Given = TypeVar("Given")


class ListPage(QWidget):
    """The frame of such a page; a page of its own fills in entries and form.

    Signals:
        live_wanted: back to the live page.
    """

    live_wanted = Signal()

    def __init__(self, title: str, *, new: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self._key = ""  # of the entry in the form; empty for a new one
        self._loaded: tuple[object, ...] = ()
        self._filling = False
        self.title = QLabel(title)
        self.title.setObjectName("who")
        self.live = QPushButton(tr("Back to live"))
        self.words = Field(tr("Search"))
        self.archived = QCheckBox(tr("Archived"))
        self.archived.setToolTip(tr("Show what was archived, to put it back."))
        self.list = QListWidget()
        self.list.setAccessibleName(title)
        # A long line is cut with dots; its tip tells all of it.
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.new = QPushButton(new)
        self.save = QPushButton(tr("Save"))
        self.revert = QPushButton(tr("Take back"))
        self.archive = QPushButton(tr("Archive"))
        self.undo = QPushButton(tr("Undo"))
        self.message = QLabel()
        self.message.setObjectName("message")
        self.message.setAccessibleName(tr("Messages"))
        self.message.setWordWrap(True)
        self.form = QVBoxLayout()
        self.form.setSpacing(5)
        self._lay_out()
        self.live.clicked.connect(self.live_wanted)
        self.words.line.textChanged.connect(self._search)
        self.archived.clicked.connect(self._show_archived)
        self.list.currentItemChanged.connect(self._chosen)
        self.new.clicked.connect(self.begin_new)
        self.save.clicked.connect(self._save)
        self.revert.clicked.connect(self._revert)
        self.archive.clicked.connect(self._archive)
        self.undo.clicked.connect(self._undo)
        for button, key, tip in (
            (self.new, "Ctrl+N", tr("An empty form")),
            (self.save, "Ctrl+S", tr("Save what stands in the form")),
            (self.revert, "Ctrl+R", tr("The form as it was saved")),
            (self.archive, "Ctrl+D", tr("Off this list, or back on it")),
            (self.undo, "Ctrl+Shift+Z", tr("Put back what was archived last")),
        ):
            show_key(button, key, tip)
            bind(self, key, button.click)  # dead while the page is hidden

    def _lay_out(self) -> None:
        left = QVBoxLayout()
        left.setContentsMargins(0, 0, 0, 0)
        left.setSpacing(6)
        search = QHBoxLayout()
        search.addWidget(self.words, 1)
        search.addWidget(self.archived)
        left.addLayout(search)
        left.addWidget(self.list, 1)
        below = QHBoxLayout()
        for button in (self.new, self.archive, self.undo):
            below.addWidget(button)
        left.addLayout(below)
        side = QWidget()
        side.setLayout(left)
        side.setMaximumWidth(LIST_PX)
        self._side = side
        inner = QWidget()
        column = QVBoxLayout(inner)
        column.setContentsMargins(0, 0, 8, 0)
        column.addLayout(self.form)
        column.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidget(inner)
        scroll.setWidgetResizable(True)
        scroll.setAccessibleName(self.tr("Form"))
        right = QVBoxLayout()
        right.setSpacing(6)
        right.addWidget(scroll, 1)
        right.addWidget(self.message)
        self.keys = QHBoxLayout()
        self.keys.addWidget(self.save, 2)
        self.keys.addWidget(self.revert, 1)
        right.addLayout(self.keys)
        head = QHBoxLayout()
        head.addWidget(self.live)
        head.addWidget(self.title, 1)
        body = QHBoxLayout()
        body.setSpacing(18)
        body.addWidget(side, 2)
        body.addLayout(right, 3)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(12, 10, 12, 12)
        whole.addLayout(head)
        whole.addLayout(body, 1)

    # What a page of its own gives.

    @abstractmethod
    def entries(self, words: str, *, archived: bool) -> Sequence[tuple[str, str]]:
        """Key and text of each entry."""

    @abstractmethod
    def fill(self, key: str) -> None:
        """Puts an entry into the form; an empty form for an empty key."""

    @abstractmethod
    def typed(self) -> tuple[object, ...]:
        """What stands in the form, to be compared."""

    @abstractmethod
    def store(self, key: str) -> str:
        """Saves the form and returns the key.

        Raises:
            FieldError: a field does not fit, and nothing was saved.
        """

    @abstractmethod
    def complain(self, error: FieldError) -> bool:
        """Says what is wrong beside its field; False where it belongs to none."""

    @abstractmethod
    def put_away(self, key: str, *, archived: bool) -> None:
        """Archives an entry, or puts it back where it is archived."""

    @abstractmethod
    def undo_last(self) -> str:
        """Puts back what was archived last and says what it was."""

    @property
    @abstractmethod
    def undoable(self) -> str:
        """What undo would put back."""

    # What the window wants.

    def enter(self) -> None:
        """The page is shown: the list is read again, what is typed stays."""
        self.reload()
        self.words.line.setFocus()

    def set_theme(self, theme: Theme) -> None:
        """Day or night; all of it is in the style sheet."""

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self._side.setMaximumWidth(round(LIST_PX * size))

    @property
    def dirty(self) -> bool:
        """Whether something was typed that is not saved."""
        return self.typed() != self._loaded

    @property
    def key(self) -> str:
        """Of the entry in the form; empty for a new one."""
        return self._key

    def say(self, words: str) -> None:
        """A message at its one place."""
        self.message.setText(words)

    def reload(self, choose: str | None = None) -> None:
        """Reads the list again; the entry in the form stays chosen."""
        wanted = self._key if choose is None else choose
        found = self._tried(
            lambda: self.entries(self.words.text, archived=self.archived.isChecked())
        )
        self._filling = True
        self.list.clear()
        for key, text in found or ():
            item = QListWidgetItem(text)
            item.setData(Qt.ItemDataRole.UserRole, key)
            item.setToolTip(text)
            self.list.addItem(item)
            if key and key == wanted:
                self.list.setCurrentItem(item)
        self._filling = False
        if choose is not None:
            self.show_entry(choose)
        self._show_buttons()

    def show_entry(self, key: str) -> None:
        """Another entry in the form."""
        self._key = key
        self.fill(key)
        self._loaded = self.typed()
        self._show_buttons()

    def begin_new(self) -> None:
        """An empty form, unless something typed would be lost."""
        if self.dirty:
            self.say(self.tr("Save the change, or take it back, first."))
            return
        self._filling = True
        self.list.setCurrentRow(-1)
        self._filling = False
        self.show_entry("")
        self.say("")

    def _show_buttons(self) -> None:
        shown = self.archived.isChecked()
        self.archive.setText(self.tr("Put back") if shown else self.tr("Archive"))
        self.archive.setEnabled(bool(self._key))
        self.undo.setEnabled(bool(self.undoable))
        if self.undoable:
            words = self.tr("Put {what} back").format(what=self.undoable)
            show_key(self.undo, "Ctrl+Shift+Z", words)

    # What is pressed.

    def _search(self) -> None:
        self.reload()

    def _show_archived(self) -> None:
        """The other list, unless something typed would be lost."""
        if self.dirty:
            self.archived.setChecked(not self.archived.isChecked())
            self.say(self.tr("Save the change, or take it back, first."))
        else:
            self.reload(choose="")

    def _chosen(self, item: QListWidgetItem | None) -> None:
        if self._filling or item is None:
            return
        key = str(item.data(Qt.ItemDataRole.UserRole))
        if key == self._key:
            return
        if self.dirty:
            self.say(self.tr("Save the change, or take it back, first."))
            self._choose_again()
            return
        self.show_entry(key)
        self.say("")

    def _choose_again(self) -> None:
        self._filling = True
        self.list.setCurrentRow(-1)
        for row in range(self.list.count()):
            item = self.list.item(row)
            if item.data(Qt.ItemDataRole.UserRole) == self._key:
                self.list.setCurrentItem(item)
        self._filling = False

    def _save(self) -> None:
        try:
            key = self.store(self._key)
        except FieldError as error:
            if self.complain(error):
                self.say(self.tr("Not saved: a field needs another value."))
            else:
                self.say(str(error))
            return
        except BiofeedbackError as error:
            self.say(str(error))
            return
        if key:
            self._key = key
            self.reload(choose=key)
            self.say(self.tr("Saved."))

    def _revert(self) -> None:
        self.show_entry(self._key)
        self.say("")

    def _archive(self) -> None:
        if self.dirty:
            self.say(self.tr("Save the change, or take it back, first."))
            return
        back = self.archived.isChecked()
        key = self._key
        try:
            self.put_away(key, archived=back)
        except BiofeedbackError as error:
            self.say(str(error))
            return
        self.reload(choose="")
        if back:
            self.say(self.tr("It is on the list again."))
        else:
            self.say(self.tr("Archived; nothing is lost. Undo puts it back."))

    def _undo(self) -> None:
        what = self._tried(self.undo_last)
        if what:
            self.reload()
            self.say(self.tr("{what} is on the list again.").format(what=what))

    def _tried(self, what: Callable[[], Given]) -> Given | None:
        """Does it; what cannot be done is said."""
        try:
            return what()
        except BiofeedbackError as error:
            self.say(str(error))
            return None
