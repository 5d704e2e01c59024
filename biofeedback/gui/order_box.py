"""The order box: the sets of the visit at the desk, and what can be done with them.

Which set is next, the rest that is left, next set, repeat, skip, pause, cut short and
end; reps skipped and put in; hold, reps and rest by one press; undo; and the reason of
the last change. It shows what it is given and tells what is wanted.

Height is scarce. What can be done between sets only and what in one only share a row,
which takes no press of the mouse for a second after it was changed; so do the reasons,
while one can be given, and whether sets begin by themselves. Once the order is over,
nothing that changes a set is there, and the last one is repeated from the first line.
Of the sets as many are seen as there is room for; once all is over, maybe none.
"""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import (
    QCheckBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.gui.cue import clock
from biofeedback.gui.keys import bind, show_key
from biofeedback.gui.language import localised, shown
from biofeedback.gui.moved_row import MovedRow
from biofeedback.gui.order_words import (
    Pointer,
    doing_words,
    leg_line,
    reason_button,
    stand_icon,
    stand_words,
)
from biofeedback.gui.theme import DAY
from biofeedback.training.changes import CHOICES
from biofeedback.training.running_order import Doing, Stand

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from PySide6.QtGui import QResizeEvent, QShortcut

    from biofeedback.gui.theme import Theme
    from biofeedback.session.visit import Visit
    from biofeedback.training.running_order import Leg

MOST_PX = 354
ROWS_SEEN, ROWS_LEAST = 5, 1
"""Of more sets those around the next one are seen; of fewer the list has the room that
there is."""
MARK_PX = 14
ROW_EDGES_PX = 30
"""Around mark and words, as the style sheet and Qt have them."""
SPACING_PX = 2
EDGE_PX = 3
"""Of the list where it has the focus."""


class Act(Enum):
    """What can be wanted, by one button or one key each."""

    NEXT_SET = "next set"
    REPEAT = "repeat set"
    SKIP = "skip set"
    PAUSE = "pause"
    CUT_SHORT = "cut short"
    END = "end visit"
    NEXT_REP = "next rep"
    SKIP_REP = "skip rep"
    REPEAT_REP = "repeat rep"
    SHORTER_HOLD = "shorter hold"
    LONGER_HOLD = "longer hold"
    FEWER_REPS = "fewer reps"
    MORE_REPS = "more reps"
    SHORTER_REST = "shorter rest"
    LONGER_REST = "longer rest"
    UNDO = "undo"
    SIDE = "other side"
    PRESCRIBED = "prescribed band"


KEYS = {
    Act.NEXT_SET: "Alt+N",
    Act.REPEAT: "Alt+R",
    Act.SKIP: "Alt+K",
    Act.PAUSE: "Alt+U",
    Act.CUT_SHORT: "Alt+C",
    Act.END: "Alt+E",
    Act.NEXT_REP: "Alt+G",
    Act.SKIP_REP: "Alt+J",
    Act.REPEAT_REP: "Alt+O",
    Act.SHORTER_HOLD: "Alt+Shift+H",
    Act.LONGER_HOLD: "Alt+H",
    Act.FEWER_REPS: "Alt+Shift+X",
    Act.MORE_REPS: "Alt+X",
    Act.SHORTER_REST: "Alt+Shift+S",
    Act.LONGER_REST: "Alt+S",
    Act.UNDO: "Alt+Z",
    Act.SIDE: "Alt+L",
    Act.PRESCRIBED: "Alt+B",
}
REASON_KEYS = tuple(f"Shift+F{number}" for number in range(1, len(CHOICES) + 1))


class OrderBox(QWidget):
    """One visit, in a narrow column.

    Signals:
        wanted: an `Act`.
        reason_given: a `Reason`, of the last change.
        leg_wanted: the place of a leg that is to be next.
        auto_changed: whether the next set is to begin by itself.
        said: a message for the desk.

    Attributes:
        changed_row: keeps presses from the row that has just been changed.
    """

    wanted = Signal(object)
    reason_given = Signal(object)
    leg_wanted = Signal(int)
    auto_changed = Signal(bool)
    said = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        tr = self.tr
        self.setAccessibleName(tr("Running order"))
        self._theme, self._size = DAY, 1.0
        self._shortcuts: dict[str, QShortcut] = {}
        self._legs: tuple[Leg, ...] = ()
        self._place = -1
        self._over = False
        self._list_px: int | None = None  # the room of the list, where it was told
        self.heading = QLabel()
        self.heading.setObjectName("who")
        self.doing = QLabel()
        self.doing.setObjectName("look")
        self.doing.setAccessibleName(tr("What the visit is at"))
        self.words = QLabel()
        self.words.setObjectName("told")
        self.words.setAccessibleName(tr("What is to be known now"))
        self.words.setWordWrap(True)
        self.words.hide()
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Sets of this visit"))
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.list.setObjectName("legs")
        self.list.setToolTip(tr("Enter or a double click: this set comes next"))
        self.buttons = {act: QPushButton(words) for act, words in self._words().items()}
        self.values = {
            "hold": QLabel(),
            "reps": QLabel(),
            "rest": QLabel(),
        }
        self.reason_words = QLabel(tr("Why?"))
        self.reasons = [QPushButton(reason_button(reason)) for reason in CHOICES]
        self.auto = QCheckBox(tr("Next set begins by itself"))
        self.auto.setToolTip(tr("Exactly when the rest is over; never the first set"))
        self._lay_out()
        self._connect()
        self.set_size(1.0)

    def _words(self) -> dict[Act, str]:
        tr = self.tr
        return {
            Act.NEXT_SET: tr("Next set"),
            Act.REPEAT: tr("Repeat"),
            Act.SKIP: tr("Skip"),
            Act.PAUSE: tr("Pause"),
            Act.CUT_SHORT: tr("Cut short"),
            Act.END: tr("End visit"),
            Act.NEXT_REP: tr("Let rep start"),
            Act.SKIP_REP: tr("Skip rep"),
            Act.REPEAT_REP: tr("Repeat rep"),
            Act.SHORTER_HOLD: "−",
            Act.LONGER_HOLD: "+",
            Act.FEWER_REPS: "−",
            Act.MORE_REPS: "+",
            Act.SHORTER_REST: "−",
            Act.LONGER_REST: "+",
            Act.UNDO: tr("Undo change"),
            Act.SIDE: tr("Other side"),
            Act.PRESCRIBED: tr("Prescribed band"),
        }

    def _tips(self) -> dict[Act, str]:
        tr = self.tr
        return {
            Act.NEXT_SET: tr("Begin the next set now"),
            Act.REPEAT: tr("The last set once more"),
            Act.SKIP: tr("Leave out the next set, or the one that was stopped"),
            Act.PAUSE: tr("Let no rep and no set start, and go on"),
            Act.CUT_SHORT: tr("End this set, leave it at that, and go on after a rest"),
            Act.END: tr("End the visit here"),
            Act.NEXT_REP: tr("Let the next rep start, where reps start by key"),
            Act.SKIP_REP: tr("Leave out the next rep of this set"),
            Act.REPEAT_REP: tr("One rep more in this set"),
            Act.SHORTER_HOLD: tr("Shorter hold"),
            Act.LONGER_HOLD: tr("Longer hold"),
            Act.FEWER_REPS: tr("Fewer reps"),
            Act.MORE_REPS: tr("More reps"),
            Act.SHORTER_REST: tr("Shorter rest"),
            Act.LONGER_REST: tr("Longer rest"),
            Act.UNDO: tr("Take the last change back, and then the one before it"),
            Act.SIDE: tr("Do the next set with the other side"),
            Act.PRESCRIBED: tr("Back to the band that is prescribed"),
        }

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(SPACING_PX)
        self._column = layout
        head = self._head = QHBoxLayout()
        head.addWidget(self.heading, 1)
        head.addWidget(self.doing)
        layout.addLayout(head)
        layout.addWidget(self.words)
        layout.addWidget(self.list)
        self._between = self._row((Act.NEXT_SET, Act.REPEAT, Act.SKIP))
        # In the places of their likes of the other row.
        self._within = self._row((Act.NEXT_REP, Act.REPEAT_REP, Act.SKIP_REP))
        self._always = self._row((Act.PAUSE, Act.CUT_SHORT, Act.END))
        self._within.hide()
        self._changing = self._steps(), self._row((Act.UNDO, Act.PRESCRIBED, Act.SIDE))
        for row in (self._between, self._within, self._always, *self._changing):
            layout.addWidget(row)
        self._why = QWidget()
        why = QHBoxLayout(self._why)
        why.setContentsMargins(0, 0, 0, 0)
        why.setSpacing(2)
        why.addWidget(self.reason_words)
        for button in self.reasons:
            button.setObjectName("page")
            why.addWidget(button, 1)
        self._why.hide()
        layout.addWidget(self._why)
        layout.addWidget(self.auto)

    def _row(self, acts: Sequence[Act]) -> QWidget:
        part = QWidget()
        row = QHBoxLayout(part)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(3)
        for act in acts:
            row.addWidget(self.buttons[act], 1)
        return part

    def _steps(self) -> QWidget:
        """Hold, reps and rest: each with a press for less and one for more."""
        part = QWidget()
        grid = QGridLayout(part)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(2)
        rows = (
            ("hold", Act.SHORTER_HOLD, Act.LONGER_HOLD),
            ("reps", Act.FEWER_REPS, Act.MORE_REPS),
            ("rest", Act.SHORTER_REST, Act.LONGER_REST),
        )
        for at, (name, less, more) in enumerate(rows):
            value = self.values[name]
            value.setAlignment(Qt.AlignmentFlag.AlignCenter)
            grid.addWidget(value, 0, 2 * at, 1, 2)
            for offset, act in enumerate((less, more)):
                grid.addWidget(self.buttons[act], 1, 2 * at + offset)
                grid.setColumnStretch(2 * at + offset, 1)
        return part

    def _connect(self) -> None:
        tips = self._tips()
        for act, button in self.buttons.items():
            button.clicked.connect(lambda _=False, what=act: self.wanted.emit(what))
            button.setAccessibleName(tips[act])
        for reason, button in zip(CHOICES, self.reasons, strict=True):
            button.clicked.connect(
                lambda _=False, why=reason: self.reason_given.emit(why)
            )
            words = self.tr("Reason of the last change: {reason}")
            button.setAccessibleName(words.format(reason=shown(reason.value)))
        self.list.setFocusPolicy(Qt.FocusPolicy.TabFocus | Qt.FocusPolicy.ClickFocus)
        self.list.itemActivated.connect(
            lambda item: self.leg_wanted.emit(self.list.row(item))
        )
        self.auto.clicked.connect(self.auto_changed)
        acts = (
            *(Act.NEXT_SET, Act.REPEAT, Act.SKIP),
            *(Act.NEXT_REP, Act.REPEAT_REP, Act.SKIP_REP),
        )
        self.changed_row = MovedRow(self, [self.buttons[act] for act in acts])
        self.changed_row.unsettled.connect(
            lambda: self.said.emit(
                self.tr("Not done: the row had just changed. Please press again.")
            )
        )

    def actions_and_keys(self) -> tuple[tuple[QPushButton, str, str], ...]:
        """Each button, its usual key and what it does."""
        tips = self._tips()
        acts = tuple((self.buttons[act], KEYS[act], tips[act]) for act in Act)
        reasons = tuple(
            (button, key, button.accessibleName())
            for button, key in zip(self.reasons, REASON_KEYS, strict=True)
        )
        return acts + reasons

    def bind_keys(self, key_of: Callable[[str], str] = lambda usual: usual) -> None:
        """Makes the keys work, as long as the box is not hidden.

        Args:
            key_of: the key in use in place of a usual one.
        """
        for button, usual, _ in self.actions_and_keys():
            self._shortcuts[usual] = bind(self, key_of(usual), button.click)
        self.change_keys(key_of)

    def change_keys(self, key_of: Callable[[str], str]) -> None:
        """Other keys from now on."""
        for button, usual, tip in self.actions_and_keys():
            self._shortcuts[usual].setKey(key_of(usual))
            show_key(button, key_of(usual), tip)

    # What is shown.

    def set_theme(self, theme: Theme) -> None:
        """Another set of colours for the marks."""
        self._theme = theme
        self._show_legs(self._legs, self._place)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self._size = size
        self.setMaximumWidth(round(MOST_PX * size))
        mark = round(MARK_PX * size)
        self.list.setIconSize(QSize(2 * mark, mark))
        self._show_legs(self._legs, self._place)

    def show_visit(self, visit: Visit) -> None:
        """How the visit stands in this frame."""
        order = visit.order
        if order.legs != self._legs or order.place != self._place:
            self._show_legs(order.legs, order.place)
        tr = self.tr
        sets = tr("Set {number} of {of}").format(
            number=order.place + 1, of=len(order.legs)
        )
        _set_text(self.heading, sets)
        _set_text(self.doing, self._doing_of(visit))
        told = visit.words, visit.band_words, visit.not_kept
        said = "\n".join(shown(part) for part in told if part)
        _set_text(self.words, said)
        self.words.setVisible(bool(said))
        _set_text(self.buttons[Act.PAUSE], tr("Go on") if visit.paused else tr("Pause"))
        self.auto.setChecked(visit.auto)
        self._show_values(visit)
        self._enable(visit)

    def _doing_of(self, visit: Visit) -> str:
        tr, order = self.tr, visit.order
        if visit.paused:
            return tr("Paused")
        left_s = visit.rest_left_s
        if visit.get_ready and left_s > 0:
            return tr("Get ready {time}").format(time=clock(left_s))
        return doing_words(order.doing, rest_left_s=left_s)

    def _show_values(self, visit: Visit) -> None:
        asked, tr = visit.asked, self.tr
        texts = {
            "hold": tr("Hold {value} s"),
            "reps": tr("Reps {value}"),
            "rest": tr("Rest {value} s"),
        }
        for name, text in texts.items():
            value = "–"
            if asked is not None:
                number = {
                    "hold": asked.hold_s,
                    "reps": asked.reps,
                    "rest": asked.rest_s,
                }[name]
                value = localised(f"{number:g}")
            _set_text(self.values[name], text.format(value=value))

    def _enable(self, visit: Visit) -> None:
        order, act = visit.order, visit.changes
        in_set, own = visit.in_set, act.asked is not None
        over = order.over
        leg = order.leg
        to_come = leg is not None and leg.stand is Stand.TO_COME
        stopped = order.doing is Doing.STOPPED
        can = {
            Act.NEXT_SET: to_come and not in_set,
            Act.REPEAT: not in_set and (stopped or order.place > 0 or over),
            Act.SKIP: not in_set and leg is not None,
            Act.PAUSE: not over,
            Act.CUT_SHORT: own,
            Act.END: not over,
            Act.NEXT_REP: visit.waits_for_key,
            Act.SKIP_REP: own,
            Act.REPEAT_REP: own,
            Act.UNDO: act.can_undo,
            Act.SIDE: to_come and not in_set,
            Act.PRESCRIBED: act.nudged,
        }
        changeable = own or (to_come and not in_set)
        for what, button in self.buttons.items():
            _enable(button, can.get(what, changeable))
        why = act.reason_open and not over
        for widget in (self.reason_words, *self.reasons):
            _enable(widget, why)
        self._show_rows(in_set=in_set, over=over, why=why)

    def _show_rows(self, *, in_set: bool, over: bool, why: bool) -> None:
        """The rows that can be of use now.

        Where something is to be known first, no set begins by itself anyway.
        """
        told = bool(self.words.text())
        self._close_down(over=over)
        if in_set is self._within.isHidden():
            self.changed_row.replace()
        for row, there in (
            (self._between, not in_set),
            (self._within, in_set),
            *((one, not over) for one in (self._always, *self._changing)),
            (self._why, why),
            (self.auto, not (over or why or told)),
        ):
            if there is row.isHidden():
                row.setVisible(there)

    def _close_down(self, *, over: bool) -> None:
        """Once the order is over there is one thing left to do, in the first line."""
        if over is self._over:
            return
        self._over = over
        for act in (Act.NEXT_SET, Act.SKIP):
            self.buttons[act].setHidden(over)
        if over:
            self._head.addWidget(self._between)
        else:
            below = self._column.indexOf(self._within)
            self._column.insertWidget(below, self._between)
        self._see(self._place)

    def _show_legs(self, legs: tuple[Leg, ...], place: int) -> None:
        self._legs, self._place = legs, place
        rows = self.list
        kept = rows.currentRow()
        rows.clear()
        rows.ensurePolished()
        mark = round(MARK_PX * self._size)
        for at, leg in enumerate(legs):
            here = at == place and leg.stand in {
                Stand.TO_COME,
                Stand.UNDER_WAY,
                Stand.STOPPED,
            }
            item = QListWidgetItem()
            pointer = Pointer.HERE if here else Pointer.NONE
            item.setIcon(stand_icon(leg.stand, self._theme, mark, pointer=pointer))
            told = f"{leg_line(leg)}, {stand_words(leg.stand)}"
            if here and leg.stand is Stand.TO_COME:
                told = self.tr("{leg}, next").format(leg=told)
            item.setData(Qt.ItemDataRole.AccessibleTextRole, told)
            item.setToolTip(told)
            face = rows.font()  # not the item's own, which knows no style sheet
            face.setBold(here)
            item.setFont(face)
            letters = QFontMetrics(face)
            item.setText(leg_line(leg, letters, self._room_px, second_line=here))
            rows.addItem(item)
        if rows.hasFocus() and 0 <= kept < len(legs):
            rows.setCurrentRow(kept)
        self._see(place)

    @property
    def _room_px(self) -> int:
        """For the words of a row, beside its mark."""
        rows = self.list
        return rows.viewport().width() - rows.iconSize().width() - ROW_EDGES_PX

    def resizeEvent(self, event: QResizeEvent) -> None:
        """More room, more of the names of tasks."""
        super().resizeEvent(event)
        if event.oldSize().width() != event.size().width():
            self._show_legs(self._legs, self._place)

    def _see(self, place: int) -> None:
        """Whole rows, with the next set among them and one before it.

        As many as there is room for, but some in any case.
        """
        rows = self.list
        rows.ensurePolished()
        seen, high_px = self._around(place, ROWS_SEEN)
        for most in range(ROWS_SEEN - 1, ROWS_LEAST - 1, -1):
            if self._list_px is None or high_px <= self._list_px:
                break
            seen, high_px = self._around(place, most)
        if high_px != rows.height() or high_px != rows.maximumHeight():
            rows.setFixedHeight(high_px)
        no_room = self._list_px is not None and high_px > self._list_px
        rows.setHidden(self._over and no_room)
        if 0 <= place < rows.count():
            first = rows.item(seen.start)
            rows.scrollToItem(first, QListWidget.ScrollHint.PositionAtTop)

    def _around(self, place: int, most: int) -> tuple[range, int]:
        """Places of so many sets, the next one among them, and their height.

        Where there are several, so is the one before it.

        The height is that of the list, in pixels.
        """
        rows, count = self.list, self.list.count()
        first = min(max(0, place - (most > 1)), max(0, count - most))
        seen = range(first, min(count, first + most))
        high_px = sum(map(rows.sizeHintForRow, seen)) or 22
        return seen, high_px + 2 * max(rows.frameWidth(), EDGE_PX)

    @property
    def over(self) -> bool:
        """Whether it shows an order that is over."""
        return self._over

    @property
    def list_px(self) -> int:
        """How high the list of sets is; where it is not there, what its place adds."""
        return -SPACING_PX if self.list.isHidden() else self.list.maximumHeight()

    def take_room(self, list_px: int) -> None:
        """The list of sets as high as its sets ask for, and no higher than this."""
        if list_px != self._list_px:
            self._list_px = list_px
            self._see(self._place)


def _set_text(widget: QLabel | QPushButton, text: str) -> None:
    if text != widget.text():
        widget.setText(text)


def _enable(widget: QWidget, enabled: bool) -> None:
    if enabled is not widget.isEnabled():
        widget.setEnabled(enabled)
