"""The candidates as a table: the front first, then the others, each figure with unit.

Keys A and B make the row under the cursor the candidate A or B. The table is never
wider than its place: the last columns are left out where there is no room for them, and
what they tell of the row under the cursor is told in words.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QItemSelectionModel, QRect, Qt, Signal
from PySide6.QtGui import QFont, QFontMetrics
from PySide6.QtWidgets import QHeaderView, QTableView

from biofeedback.gui.language import filled, localised, shown, signed_number, tr
from biofeedback.gui.plain_table import plain_table
from biofeedback.gui.review_rows import Table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from PySide6.QtCore import QModelIndex, QPersistentModelIndex
    from PySide6.QtGui import QKeyEvent, QResizeEvent
    from PySide6.QtWidgets import QWidget

    from biofeedback.conditioning.profile import FilterChoice
    from biofeedback.tuning.choice import Score
    from biofeedback.tuning.search import Found

    AnyIndex = QModelIndex | QPersistentModelIndex

RECOMMENDED = "■"
"""Beside the number of the recommended one; the chart has a square around it."""


NARROW_PX = 40
PAD_PX = 14
"""Around the words of a cell."""
NAME_COLUMN = 1
"""Names of filters may take some lines."""
KEPT_COLUMNS = 3
"""Number, name and age are never left out."""


class FilterTable(QTableView):
    """What a search measured.

    Signals:
        a_wanted, b_wanted: the row under the cursor is to be A or B.
        left_out: what has no room of the row under the cursor, in words.
    """

    a_wanted = Signal()
    b_wanted = Signal()
    left_out = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        self._order: tuple[Score, ...] = ()
        super().__init__(parent)
        tips = dict(_columns())
        self._table = Table(tuple(tips), tips=lambda name: tips.get(name, ""))
        plain_table(self._table, tr("Candidates"), stretch=NAME_COLUMN, view=self)
        self.horizontalHeader().setMinimumSectionSize(NARROW_PX)
        # Qt would measure each cell each time: a fifth of a second in a piece.
        rows, columns = self.verticalHeader(), self.horizontalHeader()
        rows.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        for column in range(self._table.columnCount()):
            if column != NAME_COLUMN:
                columns.setSectionResizeMode(column, QHeaderView.ResizeMode.Fixed)
        columns.sectionResized.connect(self._resized)
        self._found: Found | None = None
        self._a: FilterChoice | None = None
        self._b: FilterChoice | None = None

    def show_found(
        self,
        found: Found | None,
        *,
        a: FilterChoice | None = None,
        b: FilterChoice | None = None,
    ) -> None:
        """Another search, or other choices; the cursor stays on its candidate."""
        at = self.chosen
        self._a, self._b = a, b
        self._found = found
        if found is None:
            self._order = ()
            self._table.set_rows(())
            self._fit_columns()
            return
        on_front = {each.choice for each in found.front}
        others = (each for each in found.scores if each.choice not in on_front)
        self._order = (*found.front, *others)
        self._table.set_rows(list(self._rows(found)))
        self._fit_columns()
        self._fit_rows(self.columnWidth(NAME_COLUMN))
        choices = [each.choice for each in self._order]
        self._go_to(choices.index(at) if at in choices else 0)

    @property
    def chosen(self) -> FilterChoice | None:
        """The candidate under the cursor."""
        row = self.currentIndex().row()
        return self._order[row].choice if 0 <= row < len(self._order) else None

    def choose(self, choice: FilterChoice) -> None:
        """Puts the cursor on a candidate."""
        for row, each in enumerate(self._order):
            if each.choice == choice:
                self._go_to(row)

    def changeEvent(self, event: QEvent) -> None:
        """Another type has other widths."""
        super().changeEvent(event)
        changed = (QEvent.Type.FontChange, QEvent.Type.StyleChange)
        if event.type() in changed:
            self._fit_columns()
            self._fit_rows(self.columnWidth(NAME_COLUMN))
            self.scrollTo(self.currentIndex())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another width."""
        super().resizeEvent(event)
        self._fit_columns()

    def currentChanged(  # noqa: N802  Qt's name
        self, current: AnyIndex, previous: AnyIndex
    ) -> None:
        """Another row is under the cursor."""
        super().currentChanged(current, previous)
        self._tell_left_out()

    def _tell_left_out(self) -> None:
        row, across = self.currentIndex().row(), Qt.Orientation.Horizontal
        told = [
            f"{self._table.headerData(column, across)}".replace("\n", " ")
            + f": {self._table.rows[row][column]}"
            for column in range(self._table.columnCount())
            if self.isColumnHidden(column) and 0 <= row < len(self._order)
        ]
        name = shown(self._order[row].name) if told else ""
        self.left_out.emit(" · ".join((name, *told)) if told else "")

    def _fit_columns(self) -> None:
        """As wide as title and longest figure; the last are left out where need is."""
        letters = self.fontMetrics()
        bold = QFont(self.font())
        bold.setBold(True)
        titles = QFontMetrics(bold)
        across = Qt.Orientation.Horizontal
        left_px = self.viewport().width()
        for column in range(self._table.columnCount()):
            named = column == NAME_COLUMN
            lines = str(self._table.headerData(column, across)).split("\n")
            texts = [row[column] for row in self._table.rows]
            if named:
                texts = [word for text in texts for word in text.split()]
            wide = max(titles.horizontalAdvance(line) for line in lines)
            wide = max((wide, *map(letters.horizontalAdvance, texts))) + PAD_PX
            left_px -= max(NARROW_PX, wide)
            self.setColumnHidden(column, column >= KEPT_COLUMNS and left_px < 0)
            if not named:
                self.setColumnWidth(column, max(NARROW_PX, wide))
        self._tell_left_out()

    def _resized(self, column: int, _old_px: int, new_px: int) -> None:
        if column == NAME_COLUMN:
            self._fit_rows(new_px)  # the column itself does not tell it yet

    def _fit_rows(self, wide_px: int) -> None:
        """As many lines as a name needs in its column."""
        letters, room = self.fontMetrics(), wide_px - PAD_PX
        for number, row in enumerate(self._table.rows):
            box = letters.boundingRect(
                QRect(0, 0, room, self.height()),
                Qt.TextFlag.TextWordWrap,
                row[NAME_COLUMN],
            )
            self.setRowHeight(number, box.height() + PAD_PX)

    def _go_to(self, row: int) -> None:
        index = self._table.index(row, 0)
        flag = QItemSelectionModel.SelectionFlag
        self.selectionModel().setCurrentIndex(index, flag.ClearAndSelect | flag.Rows)
        self.scrollTo(index)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """A and B choose; all else as in any table."""
        if event.key() == Qt.Key.Key_A and not event.modifiers():
            self.a_wanted.emit()
        elif event.key() == Qt.Key.Key_B and not event.modifiers():
            self.b_wanted.emit()
        else:
            super().keyPressEvent(event)

    def _rows(self, found: Found) -> Iterator[tuple[str, ...]]:
        chosen = found.recommendation.chosen
        for number, each in enumerate(self._order, start=1):
            marks = [str(number)] if number <= len(found.front) else []
            if chosen is not None and each.choice == chosen.choice:
                marks.append(RECOMMENDED)
            marks += ["A"] if each.choice == self._a else []
            marks += ["B"] if each.choice == self._b else []
            yield (" ".join(marks), shown(each.name), *_figures(each, found))


def _figures(score: Score, found: Found) -> tuple[str, ...]:
    pct = score.noise_pct
    return (
        _ms(score.age_s),
        _ms(score.delay_s),
        _ms(score.lag_ramp_s),
        _ms(score.lag_hold_s),
        localised(f"{score.noise_n:.3f}"),
        "–" if pct is None else localised(f"{pct:.2f}"),
        localised(f"{score.overshoot_n:.2f}"),
        f"{score.spikes_passed}/{score.spikes}",
        localised(f"{score.false_exits_per_min:.1f}"),
        localised(f"{score.missed_exits_per_min:.1f}"),
        signed_number(score.inside_change_s, digits=2),
        localised(f"{found.costs_us[score.choice]:.2f}"),
    )


def _ms(seconds: float | None) -> str:
    # Minus nought is nought.
    return "–" if seconds is None else f"{round(1000 * seconds) + 0:d}"


def _columns() -> tuple[tuple[str, str], ...]:
    """Title and meaning of each column."""
    number = tr("Number on the front; {mark} recommended. Keys A and B choose.")
    return (
        (tr("No."), filled(number, mark=RECOMMENDED)),
        (tr("Filter"), ""),
        (
            tr("Age\nms"),
            tr("The longer of delay and lag in ramps, a sample and half a frame"),
        ),
        (tr("Delay\nms"), tr("At DC, from the coefficients")),
        (tr("Ramp\nms"), tr("Lag measured while force rose or was let go")),
        (tr("Hold\nms"), tr("Lag measured in holds")),
        (tr("Noise\nN rms"), tr("What noise adds to what is shown in holds, rms")),
        (tr("Noise\n% band"), tr("The same in % of the width of the band")),
        (tr("Over\nN"), tr("Overshoot at entry, mean")),
        (tr("Spikes"), tr("Seen of all there are")),
        (tr("False\n/min"), tr("Exits from the band that the reference does not have")),
        (tr("Missed\n/min"), tr("Exits of the reference that are not shown")),
        (tr("Inside\ns"), tr("Change of the time in the band, by the rules")),
        (tr("Cost\nµs"), tr("Time of the processor for a sample")),
    )
