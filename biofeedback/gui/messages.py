"""The one place for messages: the newest, and above it the one before or advice.

* The place is as high as the desk can spare, whatever stands in it, so that nothing
  moves when a message comes; only what is longer makes it grow.
* A long message grows as far as nothing of the desk goes out of sight by it; what then
  has no room is shortened, and a key shows it whole.
* What speaks against a start has the room of the one before too, where it needs that.
* Good news never takes the place of a warning: it goes under it.
* What is offered by a key (“F5 again starts.”) is never what is left out.
* What was said of one athlete does not stand beside another; it can still be read.
"""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from biofeedback.gui.keys import native
from biofeedback.gui.language import shown
from biofeedback.gui.short_label import ShortLabel

MESSAGE_PX = 45
"""At least: two lines."""
EARLIER_PX = 17
"""At least: one line."""
SPACING_PX = 4
KEPT_PX = 93
"""High enough for four lines and one above them, or for advice of three above a short
message; kept for them where it can be."""
KEPT = 20


class Messages(QWidget):
    """Says one message after the other; all earlier ones stay in the tip.

    Attributes:
        key: by which all of them are read.

    Signals:
        told: another message, which may want another height.
    """

    told = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._messages: list[str] = []
        self._past: list[str] = []  # said while others were here, and marked so
        self._ends: dict[str, str] = {}
        self._advice = self._warning = ""
        self._lasting = False
        self._advised: tuple[str, str] = (
            "",
            "",
        )  # advice before the last, and the last
        self._least_px = (EARLIER_PX, MESSAGE_PX)
        self._kept_px = KEPT_PX
        self.message = ShortLabel()
        self.message.setObjectName("message")
        self.message.setAccessibleName(self.tr("Messages"))
        self.message.setAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
        )
        self.earlier = ShortLabel()
        self.earlier.setObjectName("earlier")
        self.earlier.setAccessibleName(self.tr("The message before, or advice"))
        self.earlier.setAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom
        )
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(SPACING_PX)
        layout.addStretch(1)
        for label in (self.earlier, self.message):
            layout.addWidget(label)
        self.show_key("Alt+Y")
        self.set_size(1.0)

    def show_key(self, key: str) -> None:
        """Another key shows all messages."""
        self.key = native(key)
        self.message.key = self.earlier.key = self.key
        self.told.emit()

    @property
    def all(self) -> tuple[str, ...]:
        """What was said, the newest first."""
        return (*self._messages, *self._past)[:KEPT]

    @property
    def height_px(self) -> int:
        """How high it is, also before it was laid out."""
        return self.maximumHeight()

    @property
    def least_px(self) -> int:
        """How high it is at the least."""
        return sum(self._least_px) + SPACING_PX

    @property
    def kept_px(self) -> int:
        """How high it is where there is room, whatever is said."""
        return self._kept_px

    @property
    def newest_px(self) -> int:
        """How high it is with all of the newest message, and nothing above it."""
        return max(self.message.needed_px() + SPACING_PX, self.least_px)

    @property
    def shortened(self) -> bool:
        """Whether not all of the newest message stands there."""
        return self.message.shortened

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self._least_px = round(EARLIER_PX * size), round(MESSAGE_PX * size)
        self._kept_px = round(KEPT_PX * size)
        self.take_room(0)

    def take_room(self, room_px: int, *, newest: bool = False) -> None:
        """As high as the messages want to be, and no higher than there is room.

        Advice grows first, then the message, and the one before last.

        Args:
            room_px: what both may have at most; the least they have in any case.
            newest: all of the newest is to be seen, if need be without the one above.
        """
        least_earlier, least = self._least_px
        room_px = max(room_px, self.least_px)
        if newest and self.message.needed_px() > room_px - least_earlier - SPACING_PX:
            least_earlier = 0
        spare = room_px - least_earlier - least - SPACING_PX
        wants = [
            (self.earlier, least_earlier),
            (self.message, least),
        ]
        if newest or not self.earlier.property("advice"):
            wants.reverse()
        high_px = SPACING_PX
        for label, least_px in wants:
            label.setVisible(least_px > 0)
            height = min(max(label.needed_px(), least_px), least_px + spare)
            height = height if least_px else 0
            spare -= height - least_px
            high_px += height
            if height != label.maximumHeight():
                label.setFixedHeight(height)
            label.fit()
        high_px = max(high_px, min(room_px, self._kept_px))
        if high_px != self.maximumHeight():
            self.setFixedHeight(high_px)
            self.updateGeometry()  # how high all is together is asked at once

    def say(self, message: str, *, end: str = "") -> None:
        """A message; the one before stays in sight above it.

        Args:
            end: its last words, which stay in sight where it must be shortened.
        """
        words = shown(message)
        self._ends[words] = shown(end)
        if not self._messages or words != self._messages[0]:
            self._messages = [words, *self._messages][:KEPT]
        self._ends = {one: self._ends.get(one, "") for one in self._messages}
        self.message.setToolTip("\n".join(self.all))
        self.message.tell(words, end=self._ends[words])
        self._show_earlier()

    def advise(self, message: str, *, end: str = "", lasting: bool = False) -> None:
        """A message that stays in sight until `act`; it replaces advice before it.

        Args:
            end: as of `say`.
            lasting: it holds after a stop too.
        """
        self._advice, self._lasting = shown(message), lasting
        self._advised = self._advised[1], self._advice
        self.say(message, end=end)

    def warn(self, message: str) -> None:
        """A message that good news does not cover."""
        self._warning = shown(message)
        self.say(message)

    def ease(self, message: str) -> None:
        """Good news."""
        if not self._warning or self._messages[0] != self._warning:
            self.say(message)
            return
        self._messages = [self._warning, shown(message), *self._messages[1:]][:KEPT]
        self.message.setToolTip("\n".join(self.all))
        self._show_earlier()

    def withdraw(self, advice: str) -> None:
        """This advice does not hold any more."""
        if advice and self._advice == shown(advice):
            self.act()
            self._show_earlier()

    def act(self, *, stopped: bool = False) -> None:
        """Something was done: advice has been seen.

        Args:
            stopped: it was a stop, after which lasting advice holds all the same.
        """
        if not (stopped and self._lasting):
            self._advice = ""

    def change_athlete(self, code: str) -> None:
        """Somebody else is here; what was said so far is marked as of before.

        A warning that stands is of the rig, and stays.

        Args:
            code: of the athlete who was here.
        """
        standing = [one for one in self._messages[:1] if one == self._warning]
        marked = self.tr("While {code} was here: {message}")
        before = self._messages[len(standing) :]
        past = [marked.format(code=code, message=one) for one in before]
        self._past = [*past, *self._past][:KEPT]
        self._messages = standing
        self._warning = standing[0] if standing else ""
        self._advice, self._advised = "", ("", "")
        self.message.setToolTip("\n".join(self.all))
        self.message.tell(self._warning)
        self._show_earlier()

    def turn_over(self, message: str) -> None:
        """A message after which what was said before offers nothing any more."""
        self.say(message)
        if not self._advice:
            self._tell_earlier("")

    def _show_earlier(self) -> None:
        before = self._messages[1] if len(self._messages) > 1 else ""
        if before and (before, self._messages[0]) == self._advised:
            before = ""  # the same would stand there twice
        advice = bool(self._advice) and self._advice != self._messages[0]
        if advice is not self.earlier.property("advice"):
            self.earlier.setProperty("advice", advice)
            self.earlier.style().unpolish(self.earlier)  # the style sheet looks again
            self.earlier.style().polish(self.earlier)
        self._tell_earlier(self._advice if advice else before)

    def _tell_earlier(self, words: str) -> None:
        self.earlier.setToolTip(words)
        self.earlier.tell(words, end=self._ends.get(words, ""))
        self.told.emit()
