"""The page of preferences: type, language, day or night, sound, monitors and keys.

What is changed here works at once, but for the language, and is remembered on this
computer.
"""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import FieldError
from biofeedback.gui.enum_box import choose, labelled
from biofeedback.gui.keymap import PRESENTER
from biofeedback.gui.keys import native
from biofeedback.gui.language import shown
from biofeedback.gui.tall_area import TallArea
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.session.preferences import Language

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from biofeedback.gui.keymap import Keymap
    from biofeedback.gui.sound_box import SoundBox
    from biofeedback.session.preferences import Preferences

TEXT_SIZES_PCT = (100, 115, 130, 150, 175, 200)
KEY_PX = 172
"""The width of a key's field, for type of the usual size."""


class PreferencesPage(QWidget):
    """Preferences of this computer.

    Args:
        kept: gives what is preferred now; sound is switched elsewhere too.
        actions: usual key and what it does, of each key that can be changed.
        keymap: which key does what.
        sound: the row of sound, which stands here.

    Signals:
        live_wanted: back to the live page.
        changed: other `Preferences`, to be used at once and kept.
        keys_changed: another `Keymap`, to be used at once.
        second_wanted: the athlete's screen is to change its place.
        fold_wanted: the desk is to be folded away, or to come back.
    """

    live_wanted = Signal()
    changed = Signal(object)
    keys_changed = Signal(object)
    second_wanted = Signal()
    fold_wanted = Signal()

    def __init__(
        self,
        kept: Callable[[], Preferences],
        actions: Sequence[tuple[str, str]],
        keymap: Keymap,
        sound: SoundBox,
    ) -> None:
        super().__init__()
        tr = self.tr
        self.setAccessibleName(tr("Preferences"))
        self._kept = kept
        self._actions = tuple(actions)
        self.keymap = keymap
        self.sound = sound
        self.live = QPushButton(tr("Back to live"))
        self.title = QLabel(tr("Preferences of this computer"))
        self.title.setObjectName("who")
        self.text = QComboBox()
        self.text.setAccessibleName(tr("Size of the type"))
        for size in TEXT_SIZES_PCT:
            self.text.addItem(tr("{size} %").format(size=size), userData=size)
        self.language = QComboBox()
        self.language.setAccessibleName(tr("Language"))
        for name, language in (
            (tr("As the system"), Language.SYSTEM),
            ("English", Language.ENGLISH),  # each in its own words
            ("Español", Language.SPANISH),
        ):
            self.language.addItem(name, userData=language)
        self.next_start = QLabel(tr("Another language is used from the next start."))
        self.next_start.setObjectName("summary")
        self.next_start.setWordWrap(True)
        self.night = QCheckBox(tr("Begin with light ink on dark"))
        self.still = QCheckBox(tr("Less motion"))
        self.still.setToolTip(
            tr(
                "The path stands still and turns page by page, the timer fills by\n"
                "whole seconds, the balance moves four times a second, nothing blinks."
            )
        )
        self.auto_next = QCheckBox(tr("Sets of a day begin by themselves"))
        self.auto_next.setToolTip(
            tr(
                "Exactly when the rest is over; never the first set. It can be\n"
                "changed for one visit in its running order."
            )
        )
        self.second = QPushButton(tr("Athlete's screen on the other monitor, or back"))
        self.second_always = QCheckBox(tr("There whenever there is a second monitor"))
        self.fold = QPushButton(tr("Fold the desk away, or back"))
        self.presenter = QPushButton(tr("Keys of a presenter or foot switch"))
        self.presenter.setToolTip(
            tr("Two buttons: page down begins the next set, page up stops.")
        )
        self.usual = QPushButton(tr("All keys as usual"))
        self.problem = QLabel()
        self.problem.setObjectName("error")
        self.problem.setAccessibleName(tr("What is to be known of a key"))
        self.problem.setWordWrap(True)
        self.problem.hide()
        self.keys: dict[str, QLineEdit] = {}
        self._lay_out()
        self._fill()
        self._connect()

    def _lay_out(self) -> None:
        tr = self.tr
        head = QHBoxLayout()
        head.addWidget(self.live)
        head.addWidget(self.title, 1)
        left = QVBoxLayout()
        left.setSpacing(10)
        left.addLayout(labelled(tr("Size of the type"), self.text))
        left.addLayout(labelled(tr("Language"), self.language))
        sound = QLabel(
            tr(
                "Sound is for athletes who cannot see a screen: silent inside the "
                "band, low pulses below it, high ones above, a chime at the end. Two "
                "short pulses every two seconds: the signal is lost."
            )
        )
        sound.setObjectName("summary")
        sound.setWordWrap(True)
        for widget in (self.next_start, self.night, self.still, self.auto_next,
                       self.sound, sound, self.second, self.second_always,
                       self.fold):  # fmt: skip
            left.addWidget(widget)
        left.addStretch(1)
        right = QVBoxLayout()
        row = WrappedRow(spacing_px=24)
        row.add(self.presenter, 1)
        row.add(self.usual, 1)
        right.addLayout(row)
        right.addWidget(self.problem)
        right.addWidget(self._key_table(), 1)
        body = WrappedRow(spacing_px=24, fills=True)
        body.add(left, 2)
        body.add(right, 3, scrolls=True)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(12, 10, 12, 10)
        whole.addLayout(head)
        whole.addLayout(body, 1)

    def _key_table(self) -> TallArea:
        grid = QGridLayout()
        grid.setColumnStretch(1, 1)
        for row, (usual, what) in enumerate(self._actions):
            line = QLineEdit()
            line.setAccessibleName(self.tr("Key: {what}").format(what=what))
            line.setMaximumWidth(KEY_PX)
            line.editingFinished.connect(partial(self._typed, usual))
            self.keys[usual] = line
            label = QLabel(what)
            label.setWordWrap(True)
            label.setBuddy(line)
            grid.addWidget(line, row, 0)
            grid.addWidget(label, row, 1)
        inner = QWidget()
        inner.setLayout(grid)
        scroll = TallArea(inner)
        scroll.setAccessibleName(self.tr("Keys"))
        return scroll

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        for line in self.keys.values():
            line.setFixedWidth(round(KEY_PX * size))

    def _fill(self) -> None:
        preferences = self._kept()
        self.text.setCurrentIndex(max(0, self.text.findData(preferences.text_pct)))
        choose(self.language, preferences.language)
        self.night.setChecked(preferences.night)
        self.still.setChecked(preferences.reduced_motion)
        self.auto_next.setChecked(preferences.auto_next)
        self.second_always.setChecked(preferences.second_screen)
        self._show_keys()

    def _connect(self) -> None:
        self.live.clicked.connect(self.live_wanted)
        self.text.currentIndexChanged.connect(
            lambda: self._change(text_pct=self.text.currentData())
        )
        self.language.currentIndexChanged.connect(
            lambda: self._change(language=self.language.currentData())
        )
        self.night.toggled.connect(lambda on: self._change(night=on))
        self.still.toggled.connect(lambda on: self._change(reduced_motion=on))
        self.auto_next.toggled.connect(lambda on: self._change(auto_next=on))
        self.second_always.toggled.connect(lambda on: self._change(second_screen=on))
        self.second.clicked.connect(self.second_wanted)
        self.fold.clicked.connect(self.fold_wanted)
        self.presenter.clicked.connect(
            lambda: self._use(self.keymap.with_all(PRESENTER))
        )
        self.usual.clicked.connect(lambda: self._use(self.keymap.as_usual))

    def enter(self) -> None:
        """The page is shown."""
        self.text.setFocus()

    def _typed(self, usual: str) -> None:
        text = self.keys[usual].text().strip()
        if text == native(self.keymap.key(usual)):
            return
        try:
            keymap = self.keymap.with_key(usual, text)
            other = self.keymap.holder(text)
        except FieldError as error:
            self._say(shown(error.problem))
            return
        self._use(keymap)
        if other is not None:
            words = self.tr("That was the key of “{what}”, which now has {key}.")
            what = dict(self._actions)[other]
            self._say(words.format(what=what, key=native(keymap.key(other))))

    def _say(self, words: str) -> None:
        self.problem.setText(words)
        self.problem.show()

    def _use(self, keymap: Keymap) -> None:
        self.keymap = keymap
        self.problem.hide()
        self._show_keys()
        self.keys_changed.emit(keymap)
        self._change(keys=keymap.changed)

    def _show_keys(self) -> None:
        for usual, line in self.keys.items():
            key = self.keymap.key(usual)
            line.setText(native(key))
            line.setToolTip(self.tr("Usually {key}").format(key=native(usual)))

    def _change(self, **values: object) -> None:
        self.changed.emit(replace(self._kept(), **values))  # type: ignore[arg-type]  # fields by name
