"""A page that is built when it is first wanted; until then a shell stands in its place.

The pages of review and of the filter load libraries that take longer than all the rest
of the start. Nobody who holds a force has to wait for them: an errand loads them when
the page is first wanted, and the window draws on. Whoever opened the page is told at
once that it is being opened.
"""

from __future__ import annotations

import gc
import importlib
import sys
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from biofeedback.gui.awaited import Awaited
from biofeedback.gui.language import tr

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.gui.theme import Theme


P = TypeVar("P", bound=QWidget)


class LatePage(QWidget, Generic[P]):
    """Stands in the place of a page.

    Args:
        make: builds the page.
        module: the page's, where it takes long to load; else empty.

    Attributes:
        live: stands for the page's own button, which gets its tip.

    Signals:
        live_wanted: as the page's own.
        built: the page, once it is there.
    """

    live_wanted = Signal()
    built = Signal(QWidget)

    def __init__(self, make: Callable[[], P], module: str = "") -> None:
        super().__init__()
        self.live = QPushButton()
        self._make = make
        self._module = module
        self._loading = Awaited(self)
        self._opening: QLabel | None = None
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
            if self.isVisible():
                self._show_opening()
            self._page = self._make()
            page: Any = self._page  # with a button and a signal, as all pages
            page.live.setToolTip(self.live.toolTip())
            page.live_wanted.connect(self.live_wanted)
            if self._opening is not None:
                self._layout.removeWidget(self._opening)
                self._opening.hide()  # it is deleted in another turn
                self._opening.deleteLater()
                self._opening = None
            self._layout.addWidget(page)
            page.show()  # with the shell; the layout would do it one turn later
            self._tell("set_theme", self._theme)
            self._tell("set_size", self._size)
            self.built.emit(page)
        return self._page

    def open(self, enter: Callable[[], None]) -> None:
        """The page is wanted: what it needs is loaded first, and then it is entered.

        Args:
            enter: builds and enters it; not called where it is not wanted any more.
        """
        if self._loading.busy:
            return
        if self._page is not None or self._module in {"", *sys.modules}:
            enter()
            return
        self._show_opening()
        self._loading.start(
            "load a page",
            lambda _tell: _load(self._module),
            done=lambda _module: enter() if self.isVisible() else None,
            # Here it raises what it did there, and the window tells of it.
            failed=lambda _words: enter(),
        )

    def close_down(self) -> None:
        """Nothing is loaded any more for a window that closes."""
        self._loading.close_down()

    def _show_opening(self) -> None:
        """Says so at once: the page is built before any other event is seen to."""
        if self._opening is not None:
            return
        words = self._opening = QLabel(tr("Opening…"))
        words.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._layout.addWidget(words)
        words.show()
        self._layout.activate()
        self.repaint()

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


def _load(module: str) -> object:
    """Loads a module; the collector would take Qt's objects apart in a wrong thread."""
    collects = gc.isenabled()
    gc.disable()
    try:
        return importlib.import_module(module)
    finally:
        if collects:
            gc.enable()
