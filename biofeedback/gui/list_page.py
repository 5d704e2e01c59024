"""A page with a list to search on the left and a form on the right.

Rules that hold here:

* What was typed is never lost by choosing another entry: the page says so and stays.
* Nothing is deleted. What is archived can be put back, at once by undo.
* What is wrong is said beside its field, of all fields at once; the rest stays as it
  was typed, and nothing is saved.
"""

from __future__ import annotations

from abc import abstractmethod
from itertools import pairwise
from typing import TYPE_CHECKING, TypeVar

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui.choice_row import same_width
from biofeedback.gui.entry_list import EntryList, plain_tip
from biofeedback.gui.field import Field, as_sentence
from biofeedback.gui.keys import bind, show_key
from biofeedback.gui.language import shown
from biofeedback.gui.plain_label import plain_label
from biofeedback.phrase import sentences

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from biofeedback.gui.text_box import TextBox
    from biofeedback.gui.theme import Theme
    from biofeedback.session.roster import PutAway

LIST_PX = 520
UNDO_KEY = "Ctrl+Shift+D"  # of Archive with Shift; fields keep Ctrl+Shift+Z
Given = TypeVar("Given")


class ListPage(QWidget):
    """The frame of such a page; a page of its own fills in entries and form.

    Args:
        title: of page and list.
        new: on the button for an empty form.
        put_away: what was archived on this page.

    Signals:
        live_wanted: back to the live page.
    """

    live_wanted = Signal()

    def __init__(
        self,
        title: str,
        *,
        new: str,
        put_away: PutAway,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        tr = self.tr
        self._put_away = put_away
        self._key = ""  # of the entry in the form; empty for a new one
        self._loaded: tuple[object, ...] = ()
        self._wrong: list[FieldError] = []
        self.setAccessibleName(title)
        self.title = QLabel(title)
        self.title.setObjectName("who")
        self.live = QPushButton(tr("Back to live"))
        self.words = Field(tr("Search"))
        self.archived = QCheckBox(tr("Archived"))
        self.archived.setToolTip(tr("Show what was archived, to put it back."))
        self.list = EntryList()
        self.list.setAccessibleName(title)
        self.new = QPushButton(new)
        self.save = QPushButton(tr("Save"))
        self.revert = QPushButton(tr("Take back"))
        self.archive = QPushButton(tr("Archive"))
        self.undo = QPushButton(tr("Undo"))
        self.message = plain_label(
            look="message", name=tr("Messages")
        )  # names are as typed
        self.message.hide()
        self.form = QVBoxLayout()
        self.form.setSpacing(5)
        self._lay_out()
        self._connect()

    def _connect(self) -> None:
        tr = self.tr
        self.live.clicked.connect(self.live_wanted)
        self.words.line.textChanged.connect(self._search)
        self.words.line.returnPressed.connect(self._first_found)
        self.archived.clicked.connect(self._show_archived)
        self.list.picked.connect(self._chosen)
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
            (self.undo, UNDO_KEY, tr("Put back what was archived last")),
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
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # its fields have it
        self._scroll = scroll
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
        self.head = head
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
        """Puts an entry into the form; an empty form for an empty key.

        Raises:
            BiofeedbackError: it cannot be read, and the form is as it was.
        """

    @property
    @abstractmethod
    def fields(self) -> dict[str, Field | TextBox]:
        """Those of the form that may hold something wrong, by their dotted names."""

    @property
    @abstractmethod
    def columns(self) -> Sequence[Sequence[QLabel]]:
        """Labels that stand above one another."""

    @abstractmethod
    def typed(self) -> tuple[object, ...]:
        """What stands in the form, to be compared."""

    @abstractmethod
    def store(self, key: str) -> str:
        """Saves the form and returns the key; none where it is not to be saved yet.

        Raises:
            FieldError: a field does not fit, and nothing was saved.
        """

    @abstractmethod
    def put_away(self, key: str, *, archived: bool) -> None:
        """Archives an entry, or puts it back where it is archived."""

    def saved_words(self) -> str:
        """Said after saving."""
        return self.tr("Saved.")

    # What a page of its own asks of this one.

    def read(self, what: Callable[[], Given]) -> Given | None:
        """Reads a part of the form; what is wrong with it is said with the rest."""
        try:
            return what()
        except FieldError as error:
            self._wrong.append(error)
            return None

    def note(self, wrong: Iterable[FieldError]) -> None:
        """What does not fit, found elsewhere; it is said with the rest."""
        self._wrong.extend(wrong)

    def order(self, form: Sequence[QWidget], keys: Sequence[QWidget]) -> None:
        """Tab goes in the order one reads: list, form, and what is done with it."""
        side = (self.live, self.words.line, self.archived, self.list)
        below = (self.new, self.archive, self.undo)
        for before, after in pairwise((*side, *below, *form, *keys)):
            self.setTabOrder(before, after)

    @property
    def wrong(self) -> bool:
        """Whether something that was read does not fit."""
        return bool(self._wrong)

    @property
    def first_field(self) -> QWidget:
        """Where typing begins in an empty form."""
        return _line(next(iter(self.fields.values())))

    # What the window wants.

    def enter(self) -> None:
        """The page is shown: the list is read again, what is typed stays."""
        self.reload()
        self.words.line.setFocus()

    def set_theme(self, theme: Theme) -> None:
        """Day or night; all of it is in the style sheet."""
        for labels in self.columns:
            same_width(labels)

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
        self.message.setText(shown(words))
        self.message.setVisible(bool(words))

    def reload(self, choose: str | None = None) -> None:
        """Reads the list again; the entry in the form stays chosen."""
        wanted = self._key if choose is None else choose
        found = self._tried(
            lambda: self.entries(self.words.text, archived=self.archived.isChecked())
        )
        if found is not None:  # else the list stays as it was
            self.list.show_entries(found, wanted)
        if choose is not None:
            self.show_entry(choose)
        self._show_buttons()

    def show_entry(self, key: str) -> bool:
        """Another entry in the form; False where it cannot be read, which is said."""
        try:
            self.fill(key)
        except BiofeedbackError as error:
            self._say_error(error)
            return False
        self._key = key
        self._loaded = self.typed()
        self.list.mark(key)
        self._show_buttons()
        return True

    def begin_new(self) -> None:
        """An empty form, unless something typed would be lost."""
        if self._keeps():
            return
        self.say("")
        if self.archived.isChecked():  # what is new is not archived
            self.archived.setChecked(False)
            self.reload(choose="")
        else:
            self.show_entry("")
        self.first_field.setFocus()

    def _show_buttons(self) -> None:
        shown, last = self.archived.isChecked(), self._put_away.last
        self.archive.setText(self.tr("Put back") if shown else self.tr("Archive"))
        self.archive.setEnabled(bool(self._key))
        self.undo.setEnabled(bool(last))
        tip = self.tr("Put {what} back").format(what=plain_tip(last))
        show_key(self.undo, UNDO_KEY, tip if last else self.tr("Nothing to put back"))

    # What is pressed.

    def _keeps(self) -> bool:
        """Whether what is typed keeps the form; that is said."""
        if self.dirty:
            self.say(self.tr("Save the change, or take it back, first."))
        return self.dirty

    def _search(self) -> None:
        """What is not among the found leaves the form, unless something is typed."""
        self.reload()
        keys = tuple(self.list.shown_keys())
        if self._key and self._key not in keys and not self.dirty:
            self.show_entry(keys[0] if keys else "")

    def _first_found(self) -> None:
        """Enter after a search leads to what was found."""
        if self.list.count():
            self.list.setFocus()
            if self.list.currentItem() is None:
                self.list.setCurrentRow(0)

    def _show_archived(self) -> None:
        """The other list, unless something typed would be lost."""
        if self._keeps():
            self.archived.setChecked(not self.archived.isChecked())
        else:
            self.say("")
            self.reload(choose="")

    def _chosen(self, key: str) -> None:
        if key == self._key:
            return
        if self._keeps() or not self.show_entry(key):
            self.list.mark(self._key)
        else:
            self.say("")

    def _save(self) -> None:
        self._wrong.clear()
        for field in self.fields.values():
            field.complain("")
        key = ""
        try:
            key = self.store(self._key)
        except FieldError as error:
            self._wrong.append(error)
        except BiofeedbackError as error:
            self._say_error(error)
        if self._wrong:
            self._complain()
        elif key:
            self._show_saved(key)

    def _complain(self) -> None:
        """Says what is wrong beside each field, and goes to the first of them."""
        words = self.tr("Not saved: a field needs another value.")
        wrong: list[Field | TextBox] = []
        for error in self._wrong:
            field = self.fields.get(error.field)
            problem = sentences(error.problem, error.next_step)
            if field is None:
                words = as_sentence(problem)
                continue
            field.complain(problem)
            wrong.append(field)
        first = next((field for field in self.fields.values() if field in wrong), None)
        if first is not None:
            _line(first).setFocus()
            self._scroll.ensureWidgetVisible(first)
        self.say(words)

    def _show_saved(self, key: str) -> None:
        words = self.saved_words()
        self._key = key
        self.reload(choose=key)
        if key not in self.list.shown_keys() and self.words.text:
            self.words.set_text("")  # it would not be seen among what was searched for
        self.say(words)

    def _revert(self) -> None:
        if self.show_entry(self._key):
            self.say("")

    def _archive(self) -> None:
        if self._keeps():
            return
        back = self.archived.isChecked()
        try:
            self.put_away(self._key, archived=back)
        except BiofeedbackError as error:
            self._say_error(error)
            return
        if back:
            self.say(self.tr("It is on the list again."))
        else:
            self.say(self.tr("Archived; nothing is lost. Undo puts it back."))
        self.reload(choose="")

    def _undo(self) -> None:
        what = self._tried(self._put_away.undo)
        if what:
            self.say(self.tr("{what} is on the list again.").format(what=what))
        # Of an entry that left the list of archived ones nothing is to be put back.
        left = what and self.archived.isChecked() and not self.dirty
        self.reload(choose="" if left else None)

    def _tried(self, what: Callable[[], Given]) -> Given | None:
        """Does it; what cannot be done is said."""
        try:
            return what()
        except BiofeedbackError as error:
            self._say_error(error)
            return None

    def _say_error(self, error: BiofeedbackError) -> None:
        if isinstance(error, FieldError):
            self.say(as_sentence(sentences(error.problem, error.next_step)))
        else:
            self.say(str(error))


def _line(field: Field | TextBox) -> QWidget:
    """Where one types."""
    return field.line if isinstance(field, Field) else field.box
