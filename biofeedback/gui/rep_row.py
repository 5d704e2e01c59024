"""The rep row: a mark for each rep of the set, each outcome its own shape."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen

from biofeedback.gui.language import shown
from biofeedback.gui.panel import Panel
from biofeedback.gui.theme import font
from biofeedback.phrase import numbered, phrase
from biofeedback.training.events import Outcome, Phase
from biofeedback.training.maximal import StepKind

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from biofeedback.training.events import SetState
    from biofeedback.training.maximal import Guide, Step


TYPE_SHARE = 0.68
"""Of the height of the row."""


class Mark(Enum):
    """What a rep's mark tells."""

    TO_COME = phrase("to come")  # a small open ring
    UNDER_WAY = phrase("under way")  # a ring with a dot in it
    COMPLETE = phrase("complete")  # a full disc
    SHORT = phrase("short")  # a ring, half full
    STOPPED = phrase("stopped")  # a ring with a bar through it
    VOID = phrase("void")  # a cross


_BY_OUTCOME = {
    Outcome.COMPLETE: Mark.COMPLETE,
    Outcome.SHORT: Mark.SHORT,
    Outcome.STOPPED: Mark.STOPPED,
    Outcome.VOID: Mark.VOID,
}


def marks_of(state: SetState | None, *, reps: int) -> tuple[Mark, ...]:
    """The marks of a set, in the order of the reps."""
    if state is None:
        return (Mark.TO_COME,) * reps
    marks = [_BY_OUTCOME[outcome] for outcome in state.outcomes]
    if state.phase in {Phase.REP, Phase.RELEASE}:
        marks.append(Mark.UNDER_WAY)
    to_come = 0 if state.phase is Phase.DONE else max(0, state.reps - len(marks))
    return (*marks, *(Mark.TO_COME,) * to_come)


def marks_of_test(state: SetState | None, guide: Guide) -> tuple[Mark, ...]:
    """The marks of the efforts that the words count: practice ramps, or else trials.

    The set of a test has room for more than will be done.
    """
    if state is None:
        return (Mark.TO_COME,) * guide.to_come
    practising = guide.step.kind is StepKind.PRACTICE and state.phase is not Phase.DONE
    marks = [
        Mark.VOID if number in guide.void else _BY_OUTCOME[outcome]
        for number, outcome in enumerate(state.outcomes, start=1)
        if practising or number not in guide.practice
    ]
    to_come = 0 if state.phase is Phase.DONE else guide.to_come
    if state.phase in {Phase.REP, Phase.RELEASE}:
        marks.append(Mark.UNDER_WAY)
        to_come -= 1
    return (*marks, *(Mark.TO_COME,) * max(0, to_come))


class RepRow(Panel):
    """The marks, and the count in figures beside them."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Reps", parent)
        self.setAccessibleName(self.tr("Reps"))
        self._marks: tuple[Mark, ...] = ()
        self._count = ""
        self._told: object = None

    def show_state(self, state: SetState | None, *, reps: int) -> None:
        """Shows the reps of a set; before one, the reps that are planned."""
        told = None
        if state is not None:
            told = state.phase, state.outcomes, state.reps, state.rep_number
        if (told, reps) == self._told:
            return  # as in nearly each frame
        self._told = told, reps
        self._show(marks_of(state, reps=reps), self._count_of(state, reps=reps))

    def show_test(self, state: SetState | None, guide: Guide) -> None:
        """Shows the efforts of a maximal test."""
        self._told = None
        self._show(marks_of_test(state, guide), self._count_of_test(state, guide.step))

    def _show(self, marks: tuple[Mark, ...], count: str) -> None:
        if (marks, count) == (self._marks, self._count):
            return  # as in nearly each frame; words for many marks take their time
        self._marks, self._count = marks, count
        told = ", ".join(shown(mark.value) for mark in marks)
        self.describe(f"{count}: {told}")

    def _count_of_test(self, state: SetState | None, step: Step) -> str:
        """Which effort of how many; in a rest, and at the end, those that were done."""
        phase = state.phase if state else None
        if step.kind is StepKind.ENOUGH:
            return shown(numbered(step.number, "1 trial", "{count} trials"))
        if phase is Phase.DONE:  # the one that was next never ran
            done = step.number - 1 if step.kind is StepKind.TRIAL else 0
            return shown(numbered(done, "1 trial", "{count} trials"))
        words = {
            (StepKind.PRACTICE, False): self.tr("Practice {number} of {of}"),
            (StepKind.PRACTICE, True): self.tr("Next: practice {number} of {of}"),
            (StepKind.TRIAL, False): self.tr("Trial {number} of {of}"),
            (StepKind.TRIAL, True): self.tr("Next: trial {number} of {of}"),
        }[step.kind, phase is Phase.REST]
        return words.format(number=step.number, of=step.of)

    def _count_of(self, state: SetState | None, *, reps: int) -> str:
        """Which rep of how many; of a set that is over, what became of its reps."""
        of = state.reps if state else reps
        if state is None or state.phase is not Phase.DONE:
            number = min(state.rep_number if state else 1, of)
            return self.tr("Rep {number} of {reps}").format(number=number, reps=of)
        counts = [
            f"{state.outcomes.count(outcome)} {shown(outcome.value)}"
            for outcome in Outcome
            if outcome in state.outcomes
        ]
        done = ", ".join(counts) or self.tr("0 complete")
        return self.tr("{done} of {reps}").format(done=done, reps=of)

    @property
    def marks(self) -> tuple[Mark, ...]:
        """The marks as shown, in the order of the reps."""
        return self._marks

    def paintEvent(self, event: QPaintEvent) -> None:
        """Writes the count and draws the marks beside it."""
        painter = self.begin()
        height = self.height()
        painter.setFont(font(height * TYPE_SHARE))
        wide = painter.fontMetrics().horizontalAdvance(self._count) + height * 0.6
        words = QRectF(0, 0, max(height * 4.2, min(wide, self.width() * 0.62)), height)
        left = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        # Else the last figure of a long count would run into the first mark.
        clear = words.adjusted(0, 0, -height * 0.3, 0)
        self.write(painter, clear, self._count, size_px=height * TYPE_SHARE, align=left)
        radius = height * 0.27
        room = self.width() - words.right() - height * 0.2
        shown, step = self._marks, radius * 3.1
        if len(shown) * step > room:
            # Too many for large marks: closer, and of very long sets the part
            # around the rep that is under way or next.
            step = max(room / len(shown), radius * 1.6)
            radius = min(radius, step * 0.36)
            shown = self._window(int(room / step))
        for i, mark in enumerate(shown):
            centre = QPointF(words.right() + step * (i + 0.5), height / 2)
            self._draw(painter, mark, centre, radius)
        painter.end()

    def _window(self, most: int) -> tuple[Mark, ...]:
        done = sum(mark is not Mark.TO_COME for mark in self._marks)
        last = min(len(self._marks), max(most, done + most // 4))
        return self._marks[max(0, last - most) : last]

    def _draw(
        self, painter: QPainter, mark: Mark, centre: QPointF, radius: float
    ) -> None:
        ink = self.theme.colour("ink")
        pen = QPen(ink, max(2.0, radius / 4.5))
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        box = QRectF(centre.x() - radius, centre.y() - radius, 2 * radius, 2 * radius)
        if mark is Mark.TO_COME:
            painter.setPen(QPen(self.theme.colour("edge"), max(2.0, radius / 5)))
            painter.drawEllipse(centre, radius * 0.5, radius * 0.5)
        elif mark is Mark.UNDER_WAY:
            painter.drawEllipse(centre, radius, radius)
            painter.setBrush(ink)
            painter.drawEllipse(centre, radius * 0.3, radius * 0.3)
        elif mark is Mark.COMPLETE:
            painter.setBrush(ink)
            painter.drawEllipse(centre, radius, radius)
        elif mark is Mark.SHORT:
            painter.drawEllipse(centre, radius, radius)
            painter.setBrush(ink)
            painter.drawChord(box, 180 * 16, 180 * 16)
        elif mark is Mark.STOPPED:
            painter.drawRect(
                box.adjusted(radius / 6, radius / 6, -radius / 6, -radius / 6)
            )
            reach = QPointF(radius * 0.5, 0)
            painter.drawLine(QLineF(centre - reach, centre + reach))
        else:
            for sign in (1, -1):
                reach = QPointF(radius * 0.75, sign * radius * 0.75)
                painter.drawLine(QLineF(centre - reach, centre + reach))
