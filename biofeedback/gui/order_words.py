"""The words of a running order on screen, and the mark of each stand."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QLineF,
    QPointF,
    QRectF,
    Qt,
)
from PySide6.QtGui import QColor, QIcon, QPainter, QPen, QPixmap

from biofeedback.gui.cue import clock
from biofeedback.gui.language import localised, said, shown, tr
from biofeedback.phrase import marked
from biofeedback.training.changes import Reason
from biofeedback.training.running_order import Doing, Stand
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from PySide6.QtGui import QFontMetrics

    from biofeedback.gui.theme import Theme
    from biofeedback.training.running_order import Leg

_STANDS: dict[Stand, str] = {
    Stand.TO_COME: marked("to come"),
    Stand.UNDER_WAY: marked("under way"),
    Stand.DONE: marked("done"),
    Stand.STOPPED: marked("stopped"),
    Stand.SKIPPED: marked("skipped"),
}
_SIDES: dict[Sides, str] = {
    Sides.LEFT: marked("Left"),
    Sides.RIGHT: marked("Right"),
    Sides.BOTH: marked("Both"),
}
_DOING: dict[Doing, str] = {
    Doing.READY: marked("Ready"),
    Doing.SET: marked("Set under way"),
    Doing.REST: marked("Rest {time}"),
    Doing.STOPPED: marked("Stopped"),
    Doing.DONE: marked("All sets done"),
    Doing.ENDED: marked("Visit ended"),
}
_REASONS: dict[Reason, str] = {
    Reason.STRONGER: marked("Stronger"),
    Reason.WEAKER: marked("Weaker"),
    Reason.PAIN: marked("Pain"),
    Reason.SETUP: marked("Set-up"),
    Reason.OTHER: marked("Other"),
}


def doing_words(doing: Doing, *, rest_left_s: float = 0.0) -> str:
    """What the visit is at."""
    if doing is Doing.REST and rest_left_s <= 0:
        return tr("Rested")
    return said(_DOING[doing]).format(time=clock(rest_left_s))


def stand_words(stand: Stand) -> str:
    """How a leg stands."""
    return said(_STANDS[stand])


def sides_words(sides: Sides) -> str:
    """Which sides work."""
    return said(_SIDES[sides])


def reason_button(reason: Reason) -> str:
    """A reason as short as a button wants it."""
    return said(_REASONS[reason])


def leg_line(
    leg: Leg,
    metrics: QFontMetrics | None = None,
    room_px: int = 0,
    *,
    second_line: bool = False,
) -> str:
    """A leg in one line; what tells it from its neighbours comes first.

    Args:
        metrics: of the type it is written in; the name of its task then loses its
            middle where there is no room for all of it.
        room_px: for the line.
        second_line: whether a name without room goes on in a line of its own.
    """
    asked = leg.done_as or leg.asked
    words = (
        tr("{sides}, warm-up · {reps} × {hold} s · {task}")
        if leg.warm_up
        else tr("{sides} {number} of {of} · {reps} × {hold} s · {task}")
    )

    def line(task: str) -> str:
        return words.format(
            sides=sides_words(leg.sides),
            number=leg.number,
            of=leg.of,
            reps=asked.reps,
            hold=localised(f"{asked.hold_s:g}"),
            task=task,
        )

    name = shown(asked.task.name)
    if metrics is not None:
        left_px = room_px - metrics.horizontalAdvance(line(""))
        if second_line and metrics.horizontalAdvance(name) > left_px:
            elided = metrics.elidedText(name, Qt.TextElideMode.ElideMiddle, room_px)
            return line("").rstrip(" ·") + "\n" + elided
        name = metrics.elidedText(name, Qt.TextElideMode.ElideMiddle, left_px)
    return line(name)


class Pointer(Enum):
    """Whether a leg is the one that is next or under way."""

    NONE = 0
    HERE = 1


def stand_icon(
    stand: Stand, theme: Theme, size_px: int, *, pointer: Pointer = Pointer.NONE
) -> QIcon:
    """The mark of a stand; with a triangle before it where the order is.

    Small ring: to come. Ring with a dot: under way. Full disc: done. Square with a bar:
    stopped. Ring struck through: skipped.
    """
    icon = QIcon(_picture(stand, theme.colour("ink"), size_px, pointer))
    # On the ground of a chosen row; Qt would tint the other one.
    chosen = _picture(stand, theme.colour("paper"), size_px, pointer)
    icon.addPixmap(chosen, QIcon.Mode.Selected)
    return icon


def _picture(stand: Stand, ink: QColor, size_px: int, pointer: Pointer) -> QPixmap:
    ratio = 2.0  # for sharp marks on fine screens
    picture = QPixmap(round(2 * size_px * ratio), round(size_px * ratio))
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    if pointer is Pointer.HERE:
        left, middle = size_px * 0.15, size_px / 2
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ink)
        painter.drawPolygon(
            [
                QPointF(left, middle - size_px * 0.32),
                QPointF(left + size_px * 0.6, middle),
                QPointF(left, middle + size_px * 0.32),
            ]
        )
    pen = QPen(ink, max(1.5, size_px / 10))
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    _draw(painter, stand, QPointF(1.5 * size_px, size_px / 2), 0.36 * size_px)
    painter.end()
    return picture


def _draw(painter: QPainter, stand: Stand, centre: QPointF, radius: float) -> None:
    ink = painter.pen().color()
    if stand is Stand.TO_COME:
        painter.drawEllipse(centre, radius * 0.5, radius * 0.5)
    elif stand is Stand.STOPPED:
        side = 1.7 * radius
        painter.drawRect(
            QRectF(centre.x() - side / 2, centre.y() - side / 2, side, side)
        )
        reach = QPointF(radius * 0.45, 0)
        painter.drawLine(QLineF(centre - reach, centre + reach))
    else:
        if stand is Stand.DONE:
            painter.setBrush(ink)
        painter.drawEllipse(centre, radius, radius)
        if stand is Stand.UNDER_WAY:
            painter.setBrush(ink)
            painter.drawEllipse(centre, radius * 0.3, radius * 0.3)
        elif stand is Stand.SKIPPED:
            reach = QPointF(1.25 * radius, -1.25 * radius)
            painter.drawLine(QLineF(centre - reach, centre + reach))
