"""What a computer prefers, at work in the window: type, sound, monitors, keys.

The window has one of these and tells it of each frame. What is changed is used at once
and handed to whoever keeps it.
"""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

from biofeedback.errors import BiofeedbackError
from biofeedback.gui.keymap import Keymap
from biofeedback.gui.keys import bind, native, not_given, show_key
from biofeedback.gui.late_page import LatePage
from biofeedback.gui.second_screen import SecondScreen
from biofeedback.gui.sound_box import (
    LOUDER_KEY,
    MUTE_KEY,
    SOFTER_KEY,
    STEP_PCT,
    SoundBox,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from PySide6.QtGui import QShortcut
    from PySide6.QtWidgets import QPushButton

    from biofeedback.gui.athlete_screen import AthleteScreen
    from biofeedback.gui.desk import Desk
    from biofeedback.gui.order_box import OrderBox
    from biofeedback.gui.preferences_page import PreferencesPage
    from biofeedback.session.preferences import Preferences
    from biofeedback.training.events import SetState


class Comfort(QObject):
    """Carries out the preferences.

    Args:
        keep: puts changed preferences away.
        order_box: whose keys can be changed too.

    Attributes:
        keymap: which key does what.
        sound: the row of sound; it works before its page is there.
        late_page: the page of preferences, built when it is first wanted.
        home: holds the athlete's screen beside the desk.

    Signals:
        type_changed: the size of the type is another one.
    """

    type_changed = Signal()

    def __init__(
        self,
        preferences: Preferences,
        desk: Desk,
        screen_part: AthleteScreen,
        keep: Callable[[Preferences], None],
        order_box: OrderBox,
    ) -> None:
        super().__init__()
        self.preferences = preferences
        self._desk = desk
        self._screen_part = screen_part
        self._keep = keep
        self._order_box = order_box
        self._shortcuts: list[tuple[QShortcut, str]] = []
        all_actions = (*desk.actions_and_keys(), *order_box.actions_and_keys())
        self._actions = [(key, tip) for _, key, tip in all_actions]
        self.keymap = Keymap(
            [key for key, _ in self._actions], preferences.keys, fixed=not_given(desk)
        )
        self.sound = SoundBox()
        self.late_page = LatePage(self._make_page)
        self._flash_ms = QGuiApplication.styleHints().cursorFlashTime()
        self.home = QWidget()
        self.second = SecondScreen(screen_part, self.home)
        self.sound.changed.connect(
            lambda on, volume_pct: self._change(
                replace(self.preferences, sound=on, volume_pct=volume_pct)
            )
        )
        self.sound.said.connect(desk.say)
        self.second.moved.connect(lambda _, words: desk.say(words) if words else None)

    @property
    def page(self) -> PreferencesPage:
        """The page of preferences; built where it was not yet."""
        return self.late_page.page

    def _make_page(self) -> PreferencesPage:
        from biofeedback.gui.preferences_page import (  # noqa: PLC0415  as `LatePage`
            PreferencesPage,
        )

        page = PreferencesPage(
            lambda: self.preferences, self._actions, self.keymap, self.sound
        )
        page.changed.connect(self._change)
        page.keys_changed.connect(self._use_keys)
        page.second_wanted.connect(self.second.switch)
        page.fold_wanted.connect(self.fold)
        return page

    def begin(self, window: QWidget, press: Callable[[QPushButton], None]) -> None:
        """Binds all keys of the desk, and those that have no button there."""
        for button, usual, tip in self._desk.actions_and_keys():
            key = self.keymap.key(usual)
            show_key(button, key, tip)
            self._tell_start(button, key)
            shortcut = bind(window, key, partial(press, button))
            self._shortcuts.append((shortcut, usual))
        for key, act in (
            (MUTE_KEY, self.mute),
            (LOUDER_KEY, self.sound.louder),
            (SOFTER_KEY, partial(self.sound.louder, by_pct=-STEP_PCT)),
            ("Ctrl+F11", self.second.switch),
            ("Ctrl+F", self.fold),
        ):
            bind(window, key, act)
        self._order_box.bind_keys(self.keymap.key)
        wanted = self.preferences
        self._reduce_motion(reduced=wanted.reduced_motion)
        self.sound.set_up(on=wanted.sound, volume_pct=wanted.volume_pct)
        if wanted.second_screen:
            self.second.want()

    def at_live(self, *, shown: bool) -> None:
        """What is not seen is not nudged: those keys belong to the live page."""
        band = self._desk.form.band
        nudges = {band.up, band.down, band.wider, band.narrower}
        actions = self._desk.actions_and_keys()
        for (button, _, _), (shortcut, _) in zip(actions, self._shortcuts, strict=True):
            if button in nudges:
                shortcut.setEnabled(shown)

    def _tell_start(self, button: QPushButton, key: str) -> None:
        """The desk names the start key where it asks for it again, and so on."""
        if button is self._desk.start:
            self._desk.start_key = native(key)
        if button is self._desk.foot.more:
            self._desk.messages.show_key(key)

    def frame(self, state: SetState | None, events: Iterable[object]) -> None:
        """Once a frame."""
        self.sound.hear(self._screen_part.meaning, state, events)
        self.second.frame()

    def mute(self) -> None:
        """Sound on and off by one key, and said."""
        was = self.sound.on.isChecked()
        self.sound.mute()
        on = self.sound.on.isChecked()
        if on == was:
            return  # there is no device, and why is said already
        self._desk.say(self.tr("Sound is on.") if on else self.tr("Sound is off."))

    def keep_backup_folder(self, folder: str) -> None:
        """Another folder was picked for backups, on the page of data."""
        self._change(replace(self.preferences, backup_folder=folder))

    def fold(self) -> None:
        """The desk away, so that the athlete's screen has all the room, and back."""
        self._desk.setVisible(self._desk.isHidden())

    def unfold(self) -> None:
        """Something is said at the desk that must be read."""
        self._desk.show()

    def close(self) -> None:
        """The program ends."""
        self.sound.close_device()
        self.second.close()

    def _reduce_motion(self, *, reduced: bool) -> None:
        """What flows or grows goes on in steps, and no cursor blinks."""
        self._screen_part.set_still(still=reduced)
        app = QGuiApplication.instance()
        if isinstance(app, QGuiApplication):
            app.styleHints().setCursorFlashTime(0 if reduced else self._flash_ms)

    def _use_keys(self, keymap: Keymap) -> None:
        self.keymap = keymap
        for (button, usual, tip), (shortcut, _) in zip(
            self._desk.actions_and_keys(), self._shortcuts, strict=True
        ):
            key = keymap.key(usual)
            self._tell_start(button, key)
            shortcut.setKey(key)
            show_key(button, key, tip)
        self._order_box.change_keys(keymap.key)

    def _change(self, preferences: Preferences) -> None:
        before, self.preferences = self.preferences, preferences
        if preferences.reduced_motion != before.reduced_motion:
            self._reduce_motion(reduced=preferences.reduced_motion)
        if preferences.text_pct != before.text_pct:
            self.type_changed.emit()
        if preferences.second_screen and not before.second_screen:
            self.second.want()
        try:
            self._keep(preferences)
        except BiofeedbackError as error:
            self._desk.say(str(error))
