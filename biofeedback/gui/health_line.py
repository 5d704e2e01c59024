"""How the signal is, in one line that stays in sight: a mark, and words.

The mark is a disc while the shown force can be trusted, a triangle where something is
to be looked at, and a ring while no force is shown. What is most in the way is told
first; figures follow as far as there is room, and the name has all of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QPushButton, QWidget

from biofeedback.conditioning.profile import SIMULATED
from biofeedback.gui.language import localised, said, shown, tr
from biofeedback.gui.live_session import newtons_are_nominal, newtons_are_simulated
from biofeedback.phrase import marked
from biofeedback.session import Link
from biofeedback.training.counting import counted

if TYPE_CHECKING:
    from PySide6.QtGui import QResizeEvent

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.session import Health

LEAST_PX = 80
FRAME_PX = 14
"""What the frame of a button takes from the words."""
_NO_SIGNAL = {
    Link.OPENING: marked("Signal: opening"),
    Link.LIVE: marked("Signal: no fresh sample"),
    Link.STALE: marked("Signal: stale"),
    Link.SILENT: marked("Signal: silent"),
    Link.OTHER: marked("Signal: another board"),
    Link.LOST: marked("Signal: lost"),
    Link.ENDED: marked("Signal: ended"),
}


class Mark(Enum):
    """What a signal is worth, as a shape."""

    GOOD = "●"
    LOOK = "▲"
    NONE = "○"


@dataclass(frozen=True, slots=True)
class SignalState:
    """One line about the signal."""

    mark: Mark
    words: str


def signal_state(
    health: Health,
    profile: RigProfile | None,
    *,
    drawn_age_s: float | None,
    in_set: bool,
    checked: bool = True,
) -> SignalState:
    """How the signal is now.

    Args:
        drawn_age_s: age of the newest sample when it is seen; None while no fresh
            sample is drawn.
        in_set: whether it ought to be recorded.
        checked: whether this board went through the start check; told between sets.
    """
    if health.link is not Link.LIVE or drawn_age_s is None:
        return SignalState(Mark.NONE, said(_NO_SIGNAL[health.link]))
    look = []
    if newtons_are_simulated(health, profile):
        look.append(shown(SIMULATED))
    if health.saturated:
        look.append(tr("at the end of its range"))
    if in_set and not health.recording:
        look.append(tr("not recorded"))
    if newtons_are_nominal(health, profile):
        look.append(tr("not calibrated"))
    parts = [*look, tr("recorded")] if in_set and health.recording else [*look]
    if not checked and not in_set:
        parts.append(tr("rig not checked"))
    if health.damaged:
        parts.append(shown(counted(health.damaged, "damaged frame")))
    parts.extend(lost_words(health))
    if health.rate_hz > 0:
        parts.append(localised(f"{health.rate_hz:.1f} Hz"))
    words = tr("Signal live: {parts}").format(parts=", ".join(parts))
    return SignalState(Mark.LOOK if look else Mark.GOOD, words)


def lost_words(health: Health) -> tuple[str, ...]:
    """How many samples are known to be lost, and gaps of which that is not known."""
    gaps = health.unknown_gaps
    lost = tr("{n} lost").format(n=health.lost - gaps)
    return (lost, shown(counted(gaps, "gap of unknown length"))) if gaps else (lost,)


class HealthLine(QPushButton):
    """The line, and the way to all that is known of the signal."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("line")
        self.state = SignalState(Mark.NONE, said(_NO_SIGNAL[Link.OPENING]))
        self._write()

    def show_state(self, state: SignalState) -> None:
        """What is known now."""
        if state != self.state:
            self.state = state
            self._write()

    def _write(self) -> None:
        self.setAccessibleName(self.state.words)
        text = f"{self.state.mark.value}  {self.state.words}"
        room = max(LEAST_PX, self.width()) - FRAME_PX
        elide = Qt.TextElideMode.ElideRight
        self.setText(self.fontMetrics().elidedText(text, elide, room))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """More room, more of the words."""
        super().resizeEvent(event)
        self._write()

    def sizeHint(self) -> QSize:
        """The words ask for no room: they take what there is."""
        return QSize(LEAST_PX, super().sizeHint().height())

    def minimumSizeHint(self) -> QSize:
        """As `sizeHint`."""
        return self.sizeHint()
