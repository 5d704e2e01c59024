"""The band as the desk spells it: a centre, a tolerance, and what it comes to.

A tolerance is a share *of the centre* or points *of the reference*; the two are
never the same, so the spelling is always written out, and so are the edges in
newtons and in % of the reference.
"""

from __future__ import annotations

import math
from enum import Enum

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QWidget,
)

from biofeedback.errors import FieldError
from biofeedback.gui.choice_row import own_width, same_width
from biofeedback.gui.field import Field
from biofeedback.gui.language import plain_number, shown, tr
from biofeedback.gui.scale import nice_above
from biofeedback.phrase import phrase
from biofeedback.training.band import Band


class Tolerance(Enum):
    """How far from the centre, and of what."""

    OF_CENTRE = phrase("% of the centre")
    OF_REFERENCE = phrase("points of the reference")
    NEWTONS = phrase("N either way")
    AT_LEAST = phrase("no upper edge")


class BandForm(QWidget):
    """Centre, tolerance and nudge keys.

    Attributes:
        unprescribed: no band was prescribed for the task at the desk; `band` is that
            of the one before.

    Signals:
        changed: the band is another one now, and a good one.
    """

    changed = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._band = Band(80.0, 120.0)
        self._reference_n: float | None = None
        self._spelled = ("", "")
        self.unprescribed = False
        self.centre = Field(
            self.tr("Centre"),
            unit=" ",
            tip=self.tr("Middle of the band."),
            error_below=False,
        )
        self.in_percent = QComboBox()
        self.in_percent.addItem(self.tr("N"), userData=False)
        self.in_percent.addItem(self.tr("% of the reference"), userData=True)
        self.in_percent.setAccessibleName(self.tr("Unit of the centre"))
        self.tolerance = Field(
            "±",
            unit=" ",
            tip=self.tr("Tolerance: from the centre to an edge."),
            error_below=False,
        )
        self.tolerance.line.setAccessibleName(self.tr("Tolerance"))
        self.spelling = QComboBox()
        self.spelling.setAccessibleName(self.tr("Spelling of the tolerance"))
        for tolerance in Tolerance:
            self.spelling.addItem(shown(tolerance.value), userData=tolerance)
        self.summary = QLabel()
        self.summary.setObjectName("summary")
        self.summary.setAccessibleName(self.tr("Band"))
        self.summary.setWordWrap(True)
        self._problem = ""  # told in the place of the summary
        self.up = QPushButton("▲")
        self.down = QPushButton("▼")
        self.wider = QPushButton("◀ ▶")
        self.narrower = QPushButton("▶ ◀")
        for button, name in (
            (self.up, self.tr("Band up")),
            (self.down, self.tr("Band down")),
            (self.wider, self.tr("Band wider")),
            (self.narrower, self.tr("Band narrower")),
        ):
            button.setAccessibleName(name)
        self._lay_out()
        for field in (self.centre, self.tolerance):
            field.committed.connect(self._typed)
        self.in_percent.currentIndexChanged.connect(self._spell)
        self.spelling.currentIndexChanged.connect(self._respell)
        self.up.clicked.connect(lambda: self._nudge(self._band.moved(self.step_n)))
        self.down.clicked.connect(lambda: self._nudge(self._band.moved(-self.step_n)))
        self.wider.clicked.connect(lambda: self._nudge(self._widened(self.step_n)))
        self.narrower.clicked.connect(lambda: self._nudge(self._widened(-self.step_n)))

    def _lay_out(self) -> None:
        layout = self._grid = QGridLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setHorizontalSpacing(5)
        layout.setVerticalSpacing(3)
        layout.addWidget(self.in_percent, 0, 1)
        layout.addWidget(self.spelling, 1, 1)
        self.set_close(close=False)
        layout.addWidget(self.summary, 2, 0, 1, 2)
        nudges = QHBoxLayout()
        nudges.setSpacing(5)
        for button in (self.down, self.up, self.narrower, self.wider):
            nudges.addWidget(button)
        layout.addLayout(nudges, 3, 0, 1, 2)

    def set_close(self, *, close: bool) -> None:
        """Centre and tolerance in one row, their units written and not to be chosen.

        For where the spelling is given anyway and height is scarce.
        """
        self._close = close
        self._grid.addWidget(self.centre, 0, 0)
        self._grid.addWidget(self.tolerance, *((0, 1) if close else (1, 0)))
        for box in (self.in_percent, self.spelling):
            box.setHidden(close)
        for field in (self.centre, self.tolerance):
            field.unit.setVisible(close)
        # The longer unit is beside the tolerance.
        self._grid.setColumnStretch(0, 1)
        self._grid.setColumnStretch(1, 2 if close else 1)
        self._write_units()
        self.say_problem("")
        self.align()

    def align(self) -> None:
        """The same width for the labels where they stand above one another."""
        labels = self.centre.label, self.tolerance.label
        if self._close:
            for label in labels:
                own_width(label)
        else:
            same_width(labels)

    def _write_units(self) -> None:
        self.centre.unit.setText("%" if self.in_percent.currentData() else "N")
        self.tolerance.unit.setText(self.spelling.currentText())

    def say_problem(self, words: str) -> None:
        """What is wrong, in the place of the summary; nothing where all is well."""
        if words == self._problem:
            return
        self._problem = words
        self.summary.setToolTip(words)
        self.summary.setProperty("wrong", bool(words))
        self.summary.style().unpolish(self.summary)  # the style sheet looks again
        self.summary.style().polish(self.summary)
        self._summarise()

    @property
    def band(self) -> Band:
        """The last good band."""
        return self._band

    @property
    def step_n(self) -> float:
        """How far a nudge moves the band: about 3 % of its centre, a round number."""
        return nice_above(max(1.0, 0.03 * self._band.centre_n))

    def set_band(self, band: Band, *, reference_n: float | None) -> None:
        """Shows a band in the spelling that is chosen."""
        self._band, self.unprescribed = band, False
        self._reference_n = reference_n
        if reference_n is None:
            self.choose(in_percent=False)
        if band.open_above:
            self.choose(tolerance=Tolerance.AT_LEAST)
        self._spell()

    def leave_unprescribed(self) -> None:
        """The band before counts for nothing here; unit and tolerance stay."""
        self.unprescribed = True
        self.centre.set_text("")
        self._spelled = "", ""
        self._spell()

    def set_reference(self, reference_n: float | None) -> None:
        """Another reference: a band in % moves with it, one in newtons stays."""
        before_n, self._reference_n = self._reference_n, reference_n
        if reference_n is None:
            self.choose(in_percent=False)
        elif self.unprescribed:
            pass
        elif before_n is None and self._typed_share():
            return
        elif before_n is not None and self.in_percent.currentData():
            share = reference_n / before_n
            upper_n = self._band.upper_n * share
            self._nudge(Band(self._band.lower_n * share, upper_n))
        self._spell()

    def _typed_share(self) -> bool:
        """Takes a share that was typed before there was anything it is a share of."""
        if self._texts() == self._spelled or not self.in_percent.currentData():
            return False
        self.centre.complain("")
        before, band = self._band, self.checked()
        if band is not None and band != before:
            self.changed.emit()
        return band is not None

    def choose(
        self, *, in_percent: bool | None = None, tolerance: Tolerance | None = None
    ) -> None:
        """Chooses how the band is spelt."""
        if in_percent is not None:
            self.in_percent.setCurrentIndex(int(in_percent))
        if tolerance is not None:
            self.spelling.setCurrentIndex(self.spelling.findData(tolerance))

    def lock_spelling(self, *, locked: bool) -> None:
        """In a set the band may change, but not what it is a share of.

        Then it acts at once, so only Enter commits what is typed.
        """
        self.centre.enter_only = self.tolerance.enter_only = locked
        self.in_percent.setEnabled(not locked)
        self.spelling.setEnabled(not locked)

    def read(self) -> Band | None:
        """The band as it was typed; None after a complaint."""
        centre = self._centre()
        spelling = self.spelling.currentData()
        width = 0.0 if spelling is Tolerance.AT_LEAST else self.tolerance.number()
        if centre is None or width is None or math.isnan(centre + width):
            return None
        reference_n = self._reference_n
        wants_reference = (
            self.in_percent.currentData() or spelling is Tolerance.OF_REFERENCE
        )
        if wants_reference and reference_n is None:
            named = self.centre
            if not self.in_percent.currentData():
                named = self.tolerance  # the centre is in newtons
            named.complain(self.tr("Needs a reference; type one above, or N."))
            return None
        if self.in_percent.currentData() and reference_n is not None:
            centre = centre * reference_n / 100.0
        if width < 0:
            self.tolerance.complain(self.tr("Must be more than 0."))
            return None
        half_n = {
            Tolerance.OF_CENTRE: centre * width / 100.0,
            Tolerance.OF_REFERENCE: (reference_n or 0.0) * width / 100.0,
        }.get(spelling, width)
        try:
            if spelling is Tolerance.AT_LEAST:
                return Band.at_least(centre)
            return Band(centre - half_n, centre + half_n)
        except FieldError as error:
            low = error.field == "band.lower_n"
            (self.centre if low and centre < 0 else self.tolerance).complain(
                error.problem
            )
            return None

    def reject(self, problem: str, *, in_force: Band) -> None:
        """The band was not taken: what was typed stays, with the reason beside it."""
        self._band = in_force
        self._summarise()
        self.centre.complain(problem)

    def _centre(self) -> float | None:
        """The number that was typed; none, or NaN, after a complaint."""
        if self.unprescribed and not self.centre.text:
            self.ask()
            return None
        return self.centre.number()

    def ask(self) -> None:
        """Says that the band is still to be prescribed."""
        self.centre.complain(self.tr("Not prescribed yet; type it."))

    def checked(self) -> Band | None:
        """The band to use now, also where Enter was not pressed yet."""
        band = self.read()
        if band is None:
            return None
        if self._texts() != self._spelled:
            # Typed by hand. What was written here is rounded and is not read back.
            self._spelled = self._texts()
            self._band, self.unprescribed = band, False
            self._summarise()
        return self._band

    def _texts(self) -> tuple[str, str]:
        return self.centre.text, self.tolerance.text

    def _typed(self) -> None:
        before, none = self._band, self.unprescribed
        if self.checked() is not None and (none or self._band != before):
            self.changed.emit()

    def _respell(self) -> None:
        """Another spelling; only with and without an upper edge differ in force."""
        open_above = self.spelling.currentData() is Tolerance.AT_LEAST
        if self.unprescribed or open_above is self._band.open_above:
            self._spell()
        elif open_above:
            self._nudge(Band.at_least(self._band.lower_n))
        else:
            lower_n = self._band.lower_n
            self._nudge(Band(lower_n, max(1.0, lower_n * 1.2)))

    def _widened(self, by_n: float) -> Band:
        """Wider or narrower, but never narrower than one step."""
        if self._band.width_n + by_n < self.step_n:
            return self._band
        return self._band.widened(by_n)

    def _nudge(self, band: Band) -> None:
        if self.unprescribed:
            self.ask()
        elif band != self._band:
            self._band = band
            self._spell()
            self.changed.emit()

    def _spell(self) -> None:
        """Writes the band in force into the fields, in the spelling chosen."""
        if self.unprescribed:
            self._write_words()
            return
        band, reference_n = self._band, self._reference_n
        percent = self.in_percent.currentData() and reference_n
        centre_n = band.centre_n
        self.centre.set_number(
            100.0 * centre_n / reference_n if percent and reference_n else centre_n
        )
        spelling = self.spelling.currentData()
        half_n = band.width_n / 2
        if band.open_above:
            self.tolerance.set_text("")
        elif spelling is Tolerance.OF_CENTRE and centre_n > 0:
            self.tolerance.set_number(100.0 * half_n / centre_n)
        elif spelling is Tolerance.OF_REFERENCE and reference_n:
            self.tolerance.set_number(100.0 * half_n / reference_n)
        else:
            self.tolerance.set_number(half_n)
        self._spelled = self._texts()
        self._write_words()

    def _write_words(self) -> None:
        """All that stands beside the numbers."""
        open_above = self.spelling.currentData() is Tolerance.AT_LEAST
        self.tolerance.setEnabled(not open_above)
        self._name_number(open_above=open_above)
        self._write_units()
        self._summarise()

    def _name_number(self, *, open_above: bool) -> None:
        """A centre is typed, or the least force where there is no upper edge."""
        tr, field = self.tr, self.centre
        name = tr("At least") if open_above else tr("Centre")
        if name == field.label.text():
            return
        tip = tr("Lower edge of the band.") if open_above else tr("Middle of the band.")
        unit = tr("Unit of the least force") if open_above else tr("Unit of the centre")
        field.label.setText(name)
        field.line.setAccessibleName(name)
        for part in (field.label, field.line):
            part.setToolTip(tip)
        self.in_percent.setAccessibleName(unit)
        self.in_percent.setAccessibleDescription(unit)
        self.align()

    def _summarise(self) -> None:
        words = self.tr("The band is not prescribed yet.")
        if not self.unprescribed:
            words = band_in_words(self._band, reference_n=self._reference_n)
        if self._problem:  # in one line, so that nothing below it moves
            letters, room_px = self.summary.fontMetrics(), self.summary.width()
            right = Qt.TextElideMode.ElideRight
            words = letters.elidedText(self._problem, right, room_px)
        self.summary.setText(words)
        step = plain_number(self.step_n)
        self.up.setText(f"▲ {step} N")
        self.down.setText(f"▼ {step} N")


def band_in_words(band: Band, *, reference_n: float | None) -> str:
    """The edges of a band in newtons and, with a reference, in % of it."""
    low = plain_number(band.lower_n)
    if band.open_above:
        words = tr("{low} N or more").format(low=low)
    else:
        words = f"{low}–{plain_number(band.upper_n)} N"
    if not reference_n:
        return words
    low_pct = plain_number(100.0 * band.lower_n / reference_n)
    of = plain_number(reference_n)
    if band.open_above:
        share = tr("{low} % of {reference} N or more").format(low=low_pct, reference=of)
    else:
        high_pct = plain_number(100.0 * band.upper_n / reference_n)
        share = tr("{low}–{high} % of {reference} N").format(
            low=low_pct, high=high_pct, reference=of
        )
    return f"{words}  =  {share}"
