"""Play it as live: the athlete's own screen with one filter or the other, by eye.

Openly as A and B, or blind as X and Y in an order of chance: then nothing on the page
tells which is which before the count is asked for, and a judgement needs both to have
been played. Reading on to where playing begins is done by a thread; from there on the
frame timer pulls, as the window does from the live rig.
"""

from __future__ import annotations

import random
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import BiofeedbackError
from biofeedback.gui.athlete_screen import AthleteScreen
from biofeedback.gui.frame_timer import FrameTimer
from biofeedback.gui.keys import bind, show_key
from biofeedback.gui.language import error_words, filled, said, shown, tr
from biofeedback.session.opening import PLAIN
from biofeedback.session.play import Play
from biofeedback.tuning.blind import BlindTrial, Judgement
from biofeedback.tuning.candidates import name_of
from biofeedback.tuning.errand import FAULT_WORDS, Errand

if TYPE_CHECKING:
    from pathlib import Path

    from biofeedback.conditioning.profile import FilterChoice
    from biofeedback.gui.theme import Theme

BLIND_S = 12.0
"""What X and Y are judged by: the same stretch, short enough to be remembered."""


class FilterPlay(QWidget):
    """Plays candidates on the athlete's screen.

    Args:
        chance: gives the order of X and Y.

    Signals:
        said: words; empty takes them away.
    """

    said = Signal(str)

    def __init__(
        self, parent: QWidget | None = None, *, chance: random.Random | None = None
    ) -> None:
        super().__init__(parent)
        self._chance = chance or random.SystemRandom()
        self._place: tuple[Path, float] | None = None
        self._a: FilterChoice | None = None
        self._b: FilterChoice | None = None
        self._errand: Errand[Play] | None = None
        self._play: Play | None = None
        self._trial = BlindTrial(self._chance)
        self._heard: set[str] = set()
        self._letter = self._told = ""
        self.screen_part = AthleteScreen(PLAIN)
        self.frames = FrameTimer(self.frame, self)
        self.first = QPushButton()
        self.second = QPushButton()
        self.stop = QPushButton(tr("Stop playing"))
        self.blind = QCheckBox(tr("Blind"))
        self.judgements = {each: QPushButton(shown(each.value)) for each in Judgement}
        self.reveal = QPushButton(tr("Tell which was which"))
        self.state = QLabel()
        self.state.setWordWrap(True)
        self._lay_out()
        self._connect()
        self._show_state()

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        for widget in (self.first, self.second, self.stop, self.blind):
            row.addWidget(widget)
        row.addSpacing(12)
        for button in (*self.judgements.values(), self.reveal):
            row.addWidget(button)
        row.addStretch(1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addLayout(row)
        whole.addWidget(self.state)
        whole.addWidget(self.screen_part, 1)

    def _connect(self) -> None:
        self.first.clicked.connect(lambda: self.play(first=True))
        self.second.clicked.connect(lambda: self.play(first=False))
        self.stop.clicked.connect(self.end)
        self.blind.toggled.connect(self._start_anew)
        self.reveal.clicked.connect(self._tell)
        for judgement, button in self.judgements.items():
            button.clicked.connect(lambda _=False, one=judgement: self.judge(one))
        for key, pressed in (
            ("A", lambda: self._key(self.first, blind=False)),
            ("B", lambda: self._key(self.second, blind=False)),
            ("X", lambda: self._key(self.first, blind=True)),
            ("Y", lambda: self._key(self.second, blind=True)),
        ):
            bind(self, key, pressed)
        for key, (judgement, button) in zip(
            "123", self.judgements.items(), strict=True
        ):
            show_key(button, key, shown(judgement.value))
            bind(self, key, button.click)

    def _key(self, button: QPushButton, *, blind: bool) -> None:
        if self.blind.isChecked() is blind:
            button.click()

    def set_theme(self, theme: Theme) -> None:
        """Day or night."""
        self.screen_part.set_theme(theme)

    # What is played.

    def show_choices(self, a: FilterChoice | None, b: FilterChoice | None) -> None:
        """Other candidates: what was judged was of others."""
        if (a, b) != (self._a, self._b):
            self._a, self._b = a, b
            self._start_anew()

    def show_place(self, path: Path | None, from_s: float) -> None:
        """What is played, and from when."""
        self._place = None if path is None else (path, max(0.0, from_s))
        self._show_state()

    @property
    def playing(self) -> bool:
        """Whether something moves, or is about to."""
        return self._play is not None or self._errand is not None

    @property
    def plays_a(self) -> bool:
        """Whether the first button plays A now."""
        return not self.blind.isChecked() or self._trial.x_is_a

    def play(self, *, first: bool) -> None:
        """Plays A or X, else B or Y."""
        choice = self._a if first is self.plays_a else self._b
        if choice is None or self._place is None:
            return
        self.end()
        self._told = ""
        path, from_s = self._place
        blind = self.blind.isChecked()
        to_s = from_s + BLIND_S if blind else None
        self._letter = ("X" if first else "Y") if blind else ("A" if first else "B")
        self._errand = Errand(
            lambda _tell: Play(path, choice, from_s=from_s, to_s=to_s)
        )
        self._errand.start()
        self.frames.start()
        self._show_state()

    def frame(self) -> None:
        """Pulls once from what is played, or looks whether it has been read."""
        if self._play is None and not self._ready():
            return
        if self._play is None:
            return
        try:
            update = self._play.take()
        except BiofeedbackError as error:
            self.end()
            self.said.emit(error_words(error))
            return
        self.screen_part.take(update, live=True)
        if self._play.done:
            self._heard.add(self._letter)
            self.end()

    def _ready(self) -> bool:
        errand = self._errand
        if errand is None or not errand.done:
            return False
        self._errand = None
        play = errand.result
        if play is None:
            self.end()
            if errand.failure is not None:
                self.said.emit(error_words(errand.failure))
            elif errand.faulty:
                self.said.emit(said(FAULT_WORDS))
            return False
        self._play = play
        self.screen_part.plan(play.profile, play.prescription)
        return True

    def end(self) -> None:
        """Nothing moves any more."""
        self.frames.stop()
        if self._play is not None and self._letter:
            self._heard.add(self._letter)  # seen in part is seen
        self._play = None
        if self._errand is not None:
            self._errand.stop()
            self._errand = None
        self._show_state()

    # Blind.

    def judge(self, judgement: Judgement) -> None:
        """What the eye says of this play."""
        self.end()
        self._trial.judge(judgement)
        self._heard.clear()
        self._show_state()

    def _tell(self) -> None:
        """The count, and which was which; from here on it begins anew."""
        self.end()
        count = self._trial.reveal()
        words = ""
        if self._a is not None and self._b is not None:
            words = shown(count.words(name_of(self._a), name_of(self._b)))
        self._start_anew()
        self._told = words
        self._show_state()

    def _start_anew(self) -> None:
        self.end()
        self._trial = BlindTrial(self._chance)
        self._heard.clear()
        self._told = ""
        self._show_state()

    def _show_state(self) -> None:
        blind = self.blind.isChecked()
        ready = None not in (self._a, self._b, self._place)
        for button, letters in ((self.first, "AX"), (self.second, "BY")):
            letter = letters[1] if blind else letters[0]
            button.setText(filled(tr("Play {letter}"), letter=letter))
            show_key(button, letter, filled(tr("Play {letter} as live"), letter=letter))
            button.setEnabled(ready)
        self.stop.setEnabled(self.playing)
        both = self._heard >= {"X", "Y"}
        for button in self.judgements.values():
            button.setVisible(blind)
            button.setEnabled(blind and both)
        self.reveal.setVisible(blind)
        self.reveal.setEnabled(blind and self._trial.plays > 0)
        self.state.setText(self._words(blind=blind, both=both))

    def _words(self, *, blind: bool, both: bool) -> str:
        if self._a is None or self._b is None or self._place is None:
            return tr("Search first, then choose A and B among the candidates.")
        if self._told:
            return self._told
        path, from_s = self._place
        where = filled(tr("{name}, from {from_s:.1f} s"), name=path.name, from_s=from_s)
        if self.playing:
            return filled(
                tr("Plays {letter}: {where}."), letter=self._letter, where=where
            )
        if not blind:
            words = tr("{where}. A: {a}. B: {b}.")
            return filled(words, where=where, a=name_of(self._a), b=name_of(self._b))
        done = filled(tr("{n} judged so far."), n=self._trial.plays)
        if both:
            return filled(tr("{done} Which was better?"), done=done)
        return filled(tr("{where}. {done} Play X and Y."), where=where, done=done)
