"""The desk: the practitioner's controls, a narrow column in reading order.

Who and what, band and nudge, zero and signal health, pain and note, start and
stop. It tells what is wanted by Qt signals and never acts itself. Every action
has a key, shown in its tip; the stop key always works.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from biofeedback.conditioning.profile import ZeroKind
from biofeedback.gui.field import Field
from biofeedback.gui.health_box import HealthBox
from biofeedback.gui.prescription_form import PrescriptionForm
from biofeedback.training.feedback import PAIN_CUT, stopping_advised

if TYPE_CHECKING:
    from biofeedback.training.band import Band
    from biofeedback.training.prescription import Prescription

WIDTH_PX = 340
MESSAGE_PX = 42
"""At least; it grows upwards with a long message, and the keys stay in place."""
EARLIER_PX = 32
KEY_PX = 48
PAIN_MOST = 10
MESSAGES_KEPT = 20


class Desk(QWidget):
    """All controls beside the athlete's screen.

    Signals:
        start_wanted: a set is to begin, with a `Prescription`.
        stop_wanted: the set is to end now.
        planned: another good `Prescription` stands in the fields, no set is on.
        band_wanted: another `Band` in the set under way.
        zero_wanted: zero is to be taken, with its `ZeroKind`.
        pain_marked: a level from 0 to 10.
        note_written: a text.
    """

    start_wanted = Signal(object)
    stop_wanted = Signal()
    planned = Signal(object)
    band_wanted = Signal(object)
    zero_wanted = Signal(object)
    pain_marked = Signal(int)
    note_written = Signal(str)

    def __init__(
        self, start: Prescription, *, athlete: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setFixedWidth(WIDTH_PX)
        self.setAccessibleName(self.tr("Desk"))
        self._in_set = False
        self._messages: list[str] = []
        self._advice = ""
        self.who = QLabel(athlete)
        self.who.setObjectName("who")
        self.who.setWordWrap(True)  # a long name must not widen the column
        self.form = PrescriptionForm(start)
        self.health = HealthBox()
        self.pain = [QPushButton(str(level)) for level in range(PAIN_MOST + 1)]
        self.note = Field(self.tr("Note"))
        self.caution = QLabel(
            self.tr(
                "The program advises; the treating clinician decides. "
                "At pain or doubt: stop."
            )
        )
        self.caution.setObjectName("summary")
        self.caution.setWordWrap(True)
        self.message = QLabel()
        self.message.setObjectName("message")
        self.message.setAccessibleName(self.tr("Messages"))
        self.message.setWordWrap(True)
        self.message.setMinimumHeight(MESSAGE_PX)
        self.message.setAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
        )
        self.earlier = QLabel()
        self.earlier.setObjectName("earlier")
        self.earlier.setAccessibleName(self.tr("The message before, or advice"))
        self.earlier.setWordWrap(True)
        self.earlier.setMinimumHeight(EARLIER_PX)
        self.earlier.setAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom
        )
        self.start = QPushButton(self.tr("Start"))
        self.stop = QPushButton(self.tr("Stop"))
        self.review = QPushButton(self.tr("Review"))
        self.calibrate = QPushButton(self.tr("Calibrate"))
        self.sheet = QPushButton(self.tr("Keys and words"))
        self.theme = QPushButton(self.tr("Night"))
        self.screen_full = QPushButton(self.tr("Full screen"))
        self._lay_out()
        self._connect()
        self.show_set(under_way=False)

    def _lay_out(self) -> None:
        column = QVBoxLayout()
        column.setContentsMargins(10, 6, 10, 0)
        column.setSpacing(3)
        pages = QHBoxLayout()
        pages.setSpacing(5)
        for button in (self.review, self.calibrate, self.theme, self.screen_full):
            pages.addWidget(button)
        column.addLayout(pages)
        who = QHBoxLayout()
        who.addWidget(self.who, 1)
        who.addWidget(self.sheet)
        column.addLayout(who)
        column.addWidget(self.form)
        column.addWidget(_rule())
        column.addWidget(self.health)
        column.addWidget(_rule())
        column.addLayout(self._pain_row())
        column.addWidget(self.note)
        column.addWidget(self.caution)
        column.addStretch(1)
        inner = QWidget()
        inner.setLayout(column)
        scroll = QScrollArea()
        scroll.setWidget(inner)
        scroll.setWidgetResizable(True)
        scroll.setAccessibleName(self.tr("What is asked for, and the signal"))
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        foot = QVBoxLayout()
        foot.setContentsMargins(10, 0, 10, 6)
        foot.setSpacing(4)
        foot.addWidget(self.earlier)
        foot.addWidget(self.message)
        keys = QHBoxLayout()
        keys.setSpacing(6)
        for button, name in ((self.start, "start"), (self.stop, "stop")):
            button.setObjectName(name)
            button.setMinimumHeight(KEY_PX)
            keys.addWidget(button, 2 if name == "start" else 3)
        foot.addLayout(keys)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(0)
        whole.addWidget(scroll, 1)
        whole.addLayout(foot)

    def _pain_row(self) -> QGridLayout:
        row = QGridLayout()
        row.setSpacing(2)
        row.addWidget(QLabel(self.tr("Pain")), 0, 0)
        for level, button in enumerate(self.pain):
            button.setObjectName("pain")
            button.setAccessibleName(self.tr("Pain {level}").format(level=level))
            row.addWidget(button, 0, level + 1)
        return row

    def _connect(self) -> None:
        self.start.clicked.connect(self._start)
        self.stop.clicked.connect(self._act)
        self.stop.clicked.connect(self.stop_wanted)
        self.form.changed.connect(self._plan)
        self.form.band_changed.connect(self._band_changed)
        self.health.zero_empty.clicked.connect(
            lambda: self.zero_wanted.emit(ZeroKind.EMPTY_RIG)
        )
        self.health.zero_limb.clicked.connect(
            lambda: self.zero_wanted.emit(ZeroKind.LIMB_RESTING)
        )
        for level, button in enumerate(self.pain):
            button.clicked.connect(lambda _=False, at=level: self._mark_pain(at))
        self.note.line.returnPressed.connect(self._write_note)

    def actions_and_keys(self) -> tuple[tuple[QPushButton, str, str], ...]:
        """Each action's button, its key and what it does."""
        tr, band, zero = self.tr, self.form.band, self.health
        pain = tuple(
            (button, f"Ctrl+{level}" if level < PAIN_MOST else "Ctrl+Shift+0",
             tr("Mark pain {level} of 10").format(level=level))
            for level, button in enumerate(self.pain)
        )  # fmt: skip
        return (
            (self.start, "F5", tr("Start the set")),
            (self.stop, "Esc", tr("Stop: ends the set at once; nothing is lost")),
            (band.up, "PgUp", tr("Move the band up")),
            (band.down, "PgDown", tr("Move the band down")),
            (band.wider, "Ctrl+PgUp", tr("Make the band wider")),
            (band.narrower, "Ctrl+PgDown", tr("Make the band narrower")),
            (zero.zero_empty, "F7", tr("Take zero of the empty rig")),
            (zero.zero_limb, "F8", tr("Take zero with the limb resting")),
            (zero.check, "F12", tr("Check the rig: rate, noise, drift, each cell")),
            *pain,
            (self.review, "F2", tr("Look at saved reps")),
            (self.sheet, "F1", tr("All keys, marks and words")),
            (self.calibrate, "F6", tr("Calibrate with known masses or forces")),
            (self.theme, "F3", tr("Change between day and night")),
            (self.screen_full, "F11", tr("Full screen, and back")),
        )

    @property
    def page_buttons(self) -> tuple[QPushButton, ...]:
        """Those that would put another page in the place of the athlete's screen."""
        return (self.review, self.calibrate, self.health.check, self.sheet)

    @property
    def in_set(self) -> bool:
        """Whether a set is under way."""
        return self._in_set

    def show_set(self, *, under_way: bool) -> None:
        """Locks what must not change in a set, or frees it again."""
        self._in_set = under_way
        self.form.lock(locked=under_way)
        self.start.setEnabled(not under_way)
        box = self.health
        for button in (box.zero_empty, box.zero_limb, *self.page_buttons):
            button.setEnabled(not under_way)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self.setFixedWidth(round(WIDTH_PX * size))
        self.message.setMinimumHeight(round(MESSAGE_PX * size))
        for button in (self.start, self.stop):
            button.setMinimumHeight(round(KEY_PX * size))
        self.earlier.setMinimumHeight(round(EARLIER_PX * size))

    def say(self, message: str) -> None:
        """A message at its one place; the one before stays in sight above it.

        All earlier ones stay in the tip.
        """
        self._messages = [message, *self._messages][:MESSAGES_KEPT]
        self.message.setText(message)
        self.message.setToolTip("\n".join(self._messages))
        self._show_earlier()

    def advise(self, message: str) -> None:
        """A message that stays in sight until the practitioner acts."""
        self._advice = message
        self.say(message)

    def _show_earlier(self) -> None:
        before = self._messages[1] if len(self._messages) > 1 else ""
        advice = bool(self._advice) and self._advice != self._messages[0]
        self.earlier.setText(self._advice if advice else before)
        if advice is not self.earlier.property("advice"):
            self.earlier.setProperty("advice", advice)
            self.earlier.style().unpolish(self.earlier)  # the style sheet looks again
            self.earlier.style().polish(self.earlier)

    def _act(self) -> None:
        """Something was done: advice has been seen."""
        self._advice = ""

    def prescription(self) -> Prescription | None:
        """What stands in the fields; None after a complaint in a field."""
        return self.form.read()

    def _start(self) -> None:
        self._act()
        asked = self.form.read()
        if asked is None:
            self.say(self.tr("Not started: a field needs another value."))
        else:
            self.start_wanted.emit(asked)

    def _plan(self) -> None:
        if self._in_set:
            return
        asked = self.form.read()
        if asked is not None:
            self.planned.emit(asked)

    def _band_changed(self) -> None:
        band: Band = self.form.band.band
        if self._in_set:
            self.band_wanted.emit(band)
        else:
            self._plan()

    def _mark_pain(self, level: int) -> None:
        if not self._in_set:
            self.say(self.tr("Not noted: pain is marked while a set is under way."))
            return
        self.pain_marked.emit(level)
        self._act()
        noted = self.tr("Pain {level} of 10 is noted.").format(level=level)
        if not stopping_advised(level):
            self.say(noted)
            return
        advice = self.tr("Above {cut} of 10 stopping is advised; you decide.")
        self.advise(f"{noted} {advice.format(cut=PAIN_CUT)}")

    def _write_note(self) -> None:
        if self.note.text and not self._in_set:
            # It stays in its line, to be kept once a set has begun.
            self.say(self.tr("Not kept yet: a note belongs to a set under way."))
        elif self.note.text:
            self.note_written.emit(self.note.text)
            self.say(self.tr("Noted: {text}").format(text=self.note.text))
            self.note.set_text("")


def _rule() -> QFrame:
    line = QFrame()
    line.setObjectName("rule")
    line.setFixedHeight(1)
    return line
