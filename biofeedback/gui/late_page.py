"""A page that is built when it is first wanted; until then a shell stands in its place.

The pages of review and of the filter load libraries that take longer than all the rest
of the start. Nobody who holds a force has to wait for them; whoever opens the page is
told at once that it is being opened.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Generic, TypeVar

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from biofeedback.gui.language import tr

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.gui.theme import Theme


P = TypeVar("P", bound=QWidget)


class LatePage(QWidget, Generic[P]):
    """Stands in the place of a page.

    Args:
        make: builds the page.

    Attributes:
        live: stands for the page's own button, which gets its tip.

    Signals:
        live_wanted: as the page's own.
        built: the page, once it is there.
    """

    live_wanted = Signal()
    built = Signal(QWidget)

    def __init__(self, make: Callable[[], P]) -> None:
        super().__init__()
        self.live = QPushButton()
        self._make = make
        self._page: P | None = None
        self._theme: Theme | None = None
        self._size: float | None = None
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)

    @property
    def there(self) -> P | None:
        """The page, where it has been built."""
        return self._page

    @property
    def page(self) -> P:
        """The page; built where it was not yet."""
        if self._page is None:
            opening = self._show_opening() if self.isVisible() else None
            self._page = self._make()
            page: Any = self._page  # with a button and a signal, as all pages
            page.live.setToolTip(self.live.toolTip())
            page.live_wanted.connect(self.live_wanted)
            if opening is not None:
                self._layout.removeWidget(opening)
                opening.deleteLater()
            self._layout.addWidget(page)
            page.show()  # with the shell; the layout would do it one turn later
            self._tell("set_theme", self._theme)
            self._tell("set_size", self._size)
            self.built.emit(page)
        return self._page

    def _show_opening(self) -> QWidget:
        """Says so at once: the page is built before any other event is seen to."""
        words = QLabel(tr("Opening…"))
        words.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._layout.addWidget(words)
        words.show()
        self._layout.activate()
        self.repaint()
        return words

    def set_theme(self, theme: Theme) -> None:
        """As the window's; a page that is built later has it too."""
        self._theme = theme
        self._tell("set_theme", theme)

    def set_size(self, size: float) -> None:
        """As `set_theme`."""
        self._size = size
        self._tell("set_size", size)

    def escape(self) -> bool:
        """Whether the page itself has use for the stop key, and used it."""
        used = getattr(self._page, "escape", None)
        return bool(used is not None and used())

    def _tell(self, what: str, value: object) -> None:
        heard = getattr(self._page, what, None)
        if heard is not None and value is not None:
            heard(value)
