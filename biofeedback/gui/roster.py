"""The page of the athletes: who there is, and who is here today."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QDate, Qt, Signal
from PySide6.QtWidgets import QComboBox, QGridLayout, QLabel, QPushButton, QWidget

from biofeedback.errors import FieldError
from biofeedback.gui.field import Field, plain_number
from biofeedback.gui.keys import bind, show_key
from biofeedback.gui.list_page import ListPage
from biofeedback.gui.text_box import TextBox
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Sequence

    from biofeedback.session.roster import Person, Roster


class RosterPage(ListPage):
    """Athletes: search, add, edit, archive, and choose for this visit.

    Signals:
        chosen: the code of the athlete who is here.
    """

    chosen = Signal(str)

    def __init__(self, roster: Roster, parent: QWidget | None = None) -> None:
        self._roster = roster
        self._person: Person | None = None
        self._confirmed_name = ""
        super().__init__("", new="", parent=parent)
        tr = self.tr
        self.title.setText(tr("Athletes"))
        self.setAccessibleName(tr("Athletes"))
        self.list.setAccessibleName(tr("Athletes"))
        self.new.setText(tr("New athlete"))
        self.choose = QPushButton(tr("Choose for this visit"))
        self.choose.setObjectName("take")
        self.code = Field(
            tr("Code"),
            tip=tr("Stands for the athlete in files, logs and exports: no name."),
        )
        self.name = Field(tr("Name"), tip=tr("Kept in one table, and nowhere else."))
        self.birth_year = Field(tr("Born in"), tip=tr("The year, four digits."))
        self.mass = Field(tr("Body mass"), unit="kg")
        self.mass_date = Field(tr("weighed on"), tip=tr("Year-month-day."))
        self.dominant = _sides(tr("Dominant side"), tr("not said"), both=False)
        self.injured = _sides(tr("Injured side"), tr("none"), both=True)
        self.notes = TextBox(tr("Notes"))
        self.consent = TextBox(
            tr("Consent"), tip=tr("What was agreed, when, and with whom."), lines=2
        )
        self.caution = QLabel(
            tr(
                "Notes may tell who somebody is: they leave this computer only where "
                "they are asked for."
            )
        )
        self.caution.setObjectName("summary")
        self.caution.setWordWrap(True)
        self.keys.addWidget(self.choose, 3)
        self._fill_form()
        self._by_name: dict[str, Field | TextBox] = {
            "athlete.code": self.code,
            "athlete.name": self.name,
            "athlete.birth_year": self.birth_year,
            "athlete.mass_kg": self.mass,
            "athlete.mass_date": self.mass_date,
            "athlete.notes": self.notes,
            "athlete.consent": self.consent,
        }
        self.choose.clicked.connect(self._choose)
        show_key(self.choose, "Ctrl+Return", tr("This athlete is here now"))
        bind(self, "Ctrl+Return", self.choose.click)
        self.list.itemActivated.connect(self._choose)
        self.show_entry("")

    def _fill_form(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(16)
        grid.setVerticalSpacing(6)
        top = Qt.AlignmentFlag.AlignTop
        grid.addWidget(self.code, 0, 0, top)
        grid.addWidget(self.birth_year, 0, 1, top)
        grid.addWidget(self.name, 1, 0, 1, 2)
        grid.addWidget(self.mass, 2, 0, top)
        grid.addWidget(self.mass_date, 2, 1, top)
        for column, (label, box) in enumerate(
            ((self.tr("Dominant side"), self.dominant),
             (self.tr("Injured side"), self.injured))
        ):  # fmt: skip
            row = QGridLayout()
            row.setHorizontalSpacing(5)
            words = QLabel(label)
            words.setBuddy(box)
            row.addWidget(words, 0, 0)
            row.addWidget(box, 0, 1)
            row.setColumnStretch(1, 1)
            grid.addLayout(row, 3, column)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)
        self.form.addLayout(grid)
        for widget in (self.notes, self.consent, self.caution):
            self.form.addWidget(widget)

    # The list.

    def entries(self, words: str, *, archived: bool) -> Sequence[tuple[str, str]]:
        """Code, name, injured side and last visit of each."""
        return [
            (person.id, self._line(person))
            for person in self._roster.athletes(words, archived=archived)
        ]

    def _line(self, person: Person) -> str:
        details = person.details
        parts = [details.code]
        if details.name:
            parts.append(details.name)
        if details.injured is not None:
            side = self.tr(details.injured.value)
            parts.append(self.tr("injured: {side}").format(side=side))
        visit = person.last_visit_utc
        if visit is not None:
            day = visit.astimezone().date().isoformat()
            parts.append(self.tr("last here {date}").format(date=day))
        return " · ".join(parts)

    # The form.

    def fill(self, key: str) -> None:
        """Puts an athlete into the form."""
        person = self._tried(lambda: self._roster.athlete(key)) if key else None
        self._person = person
        self._confirmed_name = ""
        details = person.details if person else AthleteDetails("")
        self.code.set_text(details.code)
        self.name.set_text(details.name)
        year = details.birth_year
        self.birth_year.set_text("" if year is None else str(year))
        mass = person.mass if person else None
        self.mass.set_number(mass.mass_kg if mass else None)
        self.mass_date.set_text(mass.date if mass else _today())
        for box, side in ((self.dominant, details.dominant),
                          (self.injured, details.injured)):  # fmt: skip
            box.setCurrentIndex(max(0, box.findData(side)))
        self.notes.set_text(details.notes)
        self.consent.set_text(details.consent)
        self.choose.setEnabled(bool(key) and not self.archived.isChecked())

    def typed(self) -> tuple[object, ...]:
        """What stands in the form."""
        return (
            *(field.text for field in self._by_name.values()),
            self.dominant.currentData(),
            self.injured.currentData(),
        )

    def store(self, key: str) -> str:
        """Saves the athlete, with a new body mass where one was typed."""
        for field in self._by_name.values():
            field.complain("")
        details = AthleteDetails(
            code=self.code.text,
            name=self.name.text,
            birth_year=self._year(),
            dominant=self.dominant.currentData(),
            injured=self.injured.currentData(),
            notes=self.notes.text,
            consent=self.consent.text,
        )
        mass = self._typed_mass()
        if self._another_of_that_name(details, key):
            return ""
        return self._roster.save_athlete(key, details, mass).id

    def _year(self) -> int | None:
        text = self.birth_year.text
        if not text:
            return None
        if not text.isdecimal():
            raise FieldError("athlete.birth_year", "must be a year, four digits.")
        return int(text)

    def _typed_mass(self) -> BodyMass | None:
        kg = self.mass.number(empty=math.nan)
        if kg is None:
            return None
        if math.isnan(kg):
            raise FieldError("athlete.mass_kg", "must be a number, such as 72.5.")
        known = self._person.mass if self._person else None
        same = known is not None and plain_number(known.mass_kg) == plain_number(kg)
        if same and known is not None and known.date == self.mass_date.text:
            return None  # what is shown is rounded and is not saved again
        return BodyMass(kg, self.mass_date.text)

    def _another_of_that_name(self, details: AthleteDetails, key: str) -> bool:
        """Asks once, beside the field; saving again confirms."""
        others = self._roster.same_name(details, but=key)
        if not others or self._confirmed_name == details.name:
            return False
        self._confirmed_name = details.name
        codes = ", ".join(person.details.code for person in others)
        self.name.complain(
            self.tr("{codes} has this name too. Save again if it is another person.")
            .format(codes=codes)
        )  # fmt: skip
        self.say(self.tr("Not saved yet: look at the name."))
        return True

    def complain(self, error: FieldError) -> bool:
        """Says what is wrong beside its field."""
        field = self._by_name.get(error.field)
        if field is None:
            return False
        field.complain(f"{error.problem} {error.next_step}".strip())
        return True

    def put_away(self, key: str, *, archived: bool) -> None:
        """Archives an athlete, or puts one back."""
        person = self._roster.athlete(key)
        if person is not None:
            roster = self._roster
            act = roster.restore_athlete if archived else roster.archive_athlete
            act(person)

    def undo_last(self) -> str:
        """Puts back what was archived last."""
        return self._roster.undo()

    @property
    def undoable(self) -> str:
        """What undo would put back."""
        return self._roster.undoable

    def _choose(self) -> None:
        if self.dirty:
            self.say(self.tr("Save the change, or take it back, first."))
        elif self._person is not None and self.choose.isEnabled():
            self.chosen.emit(self._person.details.code)


def _sides(name: str, nothing: str, *, both: bool) -> QComboBox:
    box = QComboBox()
    box.setAccessibleName(name)
    box.addItem(nothing, userData=None)
    for side in (Sides.LEFT, Sides.RIGHT, *((Sides.BOTH,) if both else ())):
        box.addItem(box.tr(side.value), userData=side)
    return box


def _today() -> str:
    return QDate.currentDate().toString(Qt.DateFormat.ISODate)
