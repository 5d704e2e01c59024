"""The pages of the window: which there are, and which one is shown.

The live page is the first. While a set is under way no other page takes its place;
who asks for one is told why, or finds it beside the live picture. A page that needs
more room than the window has, because its type is large, scrolls. What a key noted is
told at the foot of the page, as long as it is shown: the desk is not seen there.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QLabel,
    QPushButton,
    QScrollArea,
    QStackedLayout,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.keys import show_key
from biofeedback.gui.language import said
from biofeedback.gui.late_page import LatePage
from biofeedback.phrase import marked

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtCore import SignalInstance

    from biofeedback.gui.theme import Theme

IN_A_SET = marked("A set is under way. Stop it first.")


def _nothing(*_args: object) -> None:
    """What a page does of which nothing is asked."""


def _unused() -> bool:
    """A page has no use for the stop key."""
    return False


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page beside the live one.

    Attributes:
        widget: the page.
        back: its signal that the live page is wanted.
        live: its button that leads there.
        button: at the desk, leads to it and back.
        key: of that button.
        enter: called when it is shown.
        leave: called when it is not shown any more, and when it never was.
        escape: whether the page itself has use for the stop key, and used it.
        beside: puts what the page tells beside the live picture, or away again, where
            that is to be done in place of showing the page; and whether it did.
        set_theme, set_size: as the window's.
    """

    widget: QWidget
    back: SignalInstance
    live: QPushButton
    button: QPushButton
    key: str
    enter: Callable[[], None]
    leave: Callable[[], None] = _nothing
    escape: Callable[[], bool] = _unused
    beside: Callable[[], bool] | None = None
    set_theme: Callable[[Theme], None] = _nothing
    set_size: Callable[[float], None] = _nothing


def page_of(
    widget: Any,
    button: QPushButton,
    key: str,
    enter: Callable[[], None],
    *,
    leave: Callable[[], None] = _nothing,
    beside: Callable[[], bool] | None = None,
) -> Page:
    """A page from a widget as all pages here are.

    Args:
        widget: with a signal `live_wanted` and a button `live`; `set_theme`,
            `set_size` and `escape` where it has use for them.
    """
    return Page(
        widget=widget,
        back=widget.live_wanted,
        live=widget.live,
        button=button,
        key=key,
        enter=enter,
        leave=leave,
        beside=beside,
        escape=getattr(widget, "escape", _unused),
        set_theme=getattr(widget, "set_theme", _nothing),
        set_size=getattr(widget, "set_size", _nothing),
    )


class Pages(QObject):
    """Shows one page at a time.

    Args:
        window: is filled by the pages.
        live: the live page.
        under_way: whether a set is under way.

    Attributes:
        told: what a key noted while the page was shown.

    Signals:
        refused: words; the page that was asked for is not shown.
        turned: another page is shown.
    """

    refused = Signal(str)
    turned = Signal()

    def __init__(
        self, window: QWidget, live: QWidget, *, under_way: Callable[[], bool]
    ) -> None:
        super().__init__(window)
        self._stack = QStackedLayout()
        self._stack.addWidget(live)
        self.told = QLabel()
        self.told.setObjectName("message")
        self.told.setAccessibleName(self.tr("What was noted"))
        self.told.setTextFormat(Qt.TextFormat.PlainText)
        self.told.setWordWrap(True)
        self.told.hide()
        whole = QVBoxLayout(window)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(0)
        whole.addLayout(self._stack, 1)
        whole.addWidget(self.told)
        self._stack.currentChanged.connect(self.told.hide)
        self._stack.currentChanged.connect(self.turned)
        self._under_way = under_way
        self._pages: list[Page] = []

    def add(self, page: Page) -> None:
        """Another page."""
        self._pages.append(page)
        frame = QScrollArea()  # or its least width would be that of the window
        frame.setFrameShape(QFrame.Shape.NoFrame)
        frame.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # it follows what has the focus
        frame.setWidgetResizable(True)
        frame.setWidget(page.widget)
        self._stack.addWidget(frame)
        page.button.clicked.connect(lambda: self._wanted(page))
        page.back.connect(self.show_live)
        show_key(page.live, page.key, self.tr("Back to live"))

    @property
    def buttons(self) -> tuple[QPushButton, ...]:
        """Those that put a page in the place of the live one."""
        return tuple(page.button for page in self._pages)

    def press(self, button: QPushButton) -> None:
        """The key of a page's button; a button that is locked tells why."""
        if button.isEnabled() or not self._under_way():
            button.click()
        else:
            self.refused.emit(said(IN_A_SET))

    def lock(self, *, locked: bool) -> None:
        """The buttons look as they act."""
        for page in self._pages:
            page.button.setEnabled(not locked or page.beside is not None)

    @property
    def shown(self) -> QWidget | None:
        """What is shown now."""
        found = self._standing
        return found.page if isinstance(found, LatePage) else found

    @property
    def _standing(self) -> QWidget | None:
        """The same, or the shell around it."""
        current = self._stack.currentWidget()
        return current.widget() if isinstance(current, QScrollArea) else current

    @property
    def live_shown(self) -> bool:
        """Whether the live page is shown."""
        return self._stack.currentIndex() == 0

    def _wanted(self, page: Page) -> None:
        if page.beside is None or not page.beside():
            self.switch(page.widget)

    def switch(self, widget: QWidget) -> None:
        """From the live page to this one and back."""
        if self._standing is widget:
            self.show_live()
        elif self._under_way():
            self.refused.emit(said(IN_A_SET))
        else:
            self._leave()
            for number, page in enumerate(self._pages, start=1):
                if page.widget is widget:
                    self._stack.setCurrentIndex(number)
                    page.enter()

    def tell(self, words: str) -> None:
        """What a key noted, where the desk that says it is not seen."""
        self.told.setText(words)
        self.told.setHidden(self.live_shown)

    def show_live(self) -> None:
        """What must be seen now is on the live page."""
        self._leave()
        self._stack.setCurrentIndex(0)

    def escape(self) -> None:
        """The stop key on another page: the page uses it, or is left."""
        used = [page.escape() for page in self._pages if page.widget is self._standing]
        if not any(used):
            self.show_live()

    def _leave(self) -> None:
        for page in self._pages:
            page.leave()

    def set_theme(self, theme: Theme) -> None:
        """Day or night."""
        for page in self._pages:
            page.set_theme(theme)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        for page in self._pages:
            page.set_size(size)
