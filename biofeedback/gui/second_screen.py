"""The second monitor: the athlete's screen alone on it, the desk on the first.

The athlete's screen is one widget that lives in one of two places: at home beside the
desk, or in a window of its own that fills another monitor. It is the same widget, fed
by the same frames, so both can never tell two different things. A monitor that is
unplugged loses nothing: the screen is back at home before the next frame.

The window on the other monitor never takes the keyboard: every key goes to the desk.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QLabel, QSizePolicy, QVBoxLayout, QWidget

if TYPE_CHECKING:
    from PySide6.QtGui import QCloseEvent, QPixmap, QScreen

MIRROR_EVERY_FRAMES = 6
"""Ten pictures a second beside the desk: enough to see what the athlete sees."""


class SecondScreen(QObject):
    """Moves the athlete's screen out and back.

    Args:
        screen_part: the athlete's screen.
        home: where it lives beside the desk; its layout holds it alone.

    Attributes:
        mirror: stands in its place while it is out.

    Signals:
        moved: whether it is out now, and words for the desk.
    """

    moved = Signal(bool, str)

    def __init__(self, screen_part: QWidget, home: QWidget) -> None:
        super().__init__(home)
        self._part = screen_part
        self._home = home
        self._away: _AwayWindow | None = None
        self._wanted = False
        self._frames = 0
        self.mirror = Mirror()
        self._layout = QVBoxLayout(home)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.addWidget(screen_part, 1)
        self._layout.addWidget(self.mirror, 1)
        self.mirror.hide()
        app = QGuiApplication.instance()
        if isinstance(app, QGuiApplication):
            app.screenRemoved.connect(self._removed)
            app.screenAdded.connect(self._added)

    @property
    def out(self) -> bool:
        """Whether the athlete's screen is on another monitor."""
        return self._away is not None

    def switch(self) -> None:
        """Out where there is another monitor, and back."""
        if self.out:
            self._wanted = False
            self._come_back(self.tr("The athlete's screen is beside the desk again."))
        else:
            self.want()

    def want(self) -> None:
        """Out as soon as there is another monitor."""
        self._wanted = True
        screen = self._other()
        if screen is None:
            self.moved.emit(False, self.tr("There is no second monitor."))
        elif not self.out:
            self._go_out(screen)

    def frame(self) -> None:
        """Once a frame: the mirror follows a few times a second."""
        self._frames += 1
        if self.out and self._frames % MIRROR_EVERY_FRAMES == 0:
            self.mirror.show_picture(self._part.grab())

    def set_look(self, style_sheet: str) -> None:
        """Day or night, and the size of type, for the window on the other monitor."""
        self._style_sheet = style_sheet
        if self._away is not None:
            self._away.setStyleSheet(style_sheet)
            self._away.setPalette(self._home.palette())

    _style_sheet = ""

    def close(self) -> None:
        """The program ends."""
        self._wanted = False
        if self.out:
            self._come_back("")

    def _other(self) -> QScreen | None:
        here = self._home.window().screen()
        others = [one for one in QGuiApplication.screens() if one is not here]
        return others[0] if others else None

    def _go_out(self, screen: QScreen) -> None:
        away = _AwayWindow(screen)
        self._away = away
        away.closed.connect(self._closed)
        self._layout.removeWidget(self._part)
        away.fill(self._part)
        self.set_look(self._style_sheet)
        self.mirror.show()
        # Not showFullScreen, which would also ask for the keyboard.
        away.setWindowState(Qt.WindowState.WindowFullScreen)
        away.show()
        words = self.tr("The athlete's screen is on {monitor}.")
        self.moved.emit(True, words.format(monitor=screen.name() or screen.model()))

    def _come_back(self, words: str) -> None:
        away, self._away = self._away, None
        self.mirror.hide()
        self._layout.insertWidget(0, self._part, 1)
        self._part.show()
        if away is not None:
            away.closed.disconnect(self._closed)
            away.close()
            away.deleteLater()
        self.moved.emit(False, words)

    def _closed(self) -> None:
        """Somebody closed the window on the other monitor."""
        self._wanted = False
        if self.out:
            self._come_back(self.tr("The athlete's screen is beside the desk again."))

    def _removed(self, screen: QScreen) -> None:
        if self._away is not None and self._away.on is screen:
            self._come_back(
                self.tr("The second monitor is gone: the athlete's screen is here.")
            )

    def _added(self, screen: QScreen) -> None:
        if self._wanted and not self.out and screen is not self._home.window().screen():
            self._go_out(screen)


class _AwayWindow(QWidget):
    """A window that fills another monitor and never takes the keyboard."""

    closed = Signal()

    def __init__(self, screen: QScreen) -> None:
        super().__init__(
            None,
            Qt.WindowType.Window
            | Qt.WindowType.FramelessWindowHint
            | Qt.WindowType.WindowDoesNotAcceptFocus,
        )
        self.on = screen
        self.setWindowTitle(self.tr("Athlete's screen"))
        self.setAttribute(Qt.WidgetAttribute.WA_ShowWithoutActivating)
        self.setScreen(screen)
        self.setGeometry(screen.geometry())
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)

    def fill(self, part: QWidget) -> None:
        """Takes the athlete's screen in."""
        self._layout.addWidget(part)
        part.show()

    def closeEvent(self, event: QCloseEvent) -> None:
        """The athlete's screen must not go with the window."""
        self.closed.emit()
        event.accept()


class Mirror(QLabel):
    """A small picture of what the athlete sees, in the place of the screen itself."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(self.tr("What the athlete sees"))
        self.setAlignment(Qt.AlignmentFlag.AlignCenter)
        # A picture must not hold the window open at its own size.
        policy = QSizePolicy.Policy.Ignored
        self.setSizePolicy(policy, policy)
        self.setText(self.tr("The athlete's screen is on the other monitor."))

    def show_picture(self, picture: QPixmap) -> None:
        """A newer picture, made to fit."""
        self.setPixmap(
            picture.scaled(
                self.size(),
                Qt.AspectRatioMode.KeepAspectRatio,
                Qt.TransformationMode.SmoothTransformation,
            )
        )
