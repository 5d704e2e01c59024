"""The page of the athletes: who there is, and who is here today."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QDate, Qt, Signal
from PySide6.QtWidgets import QComboBox, QLabel, QPushButton, QWidget

from biofeedback.errors import FieldError, UserError
from biofeedback.gui.choice_row import ChoiceRow
from biofeedback.gui.field import Field
from biofeedback.gui.folded_grid import FoldedGrid
from biofeedback.gui.keys import bind, native, show_key
from biofeedback.gui.language import as_said, plain_number, shown
from biofeedback.gui.list_page import ListPage
from biofeedback.gui.text_box import TextBox
from biofeedback.phrase import Phrase, phrase
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from biofeedback.session.roster import Person, Roster


CHOOSE_KEY = "Ctrl+Return"


class RosterPage(ListPage):
    """Athletes: search, add, edit, archive, and choose for this visit.

    Args:
        here: gives the code of who is here.

    Signals:
        chosen: the code of the athlete who is here.
        recoded: the code that an athlete had, and the one saved instead.
    """

    chosen = Signal(str)
    recoded = Signal(str, str)

    def __init__(
        self,
        roster: Roster,
        parent: QWidget | None = None,
        *,
        here: Callable[[], str] = lambda: "",
    ) -> None:
        self._roster = roster
        self._here = here
        self._person: Person | None = None
        self._confirmed_name = ""
        self._filled_mass = ("", "")  # text and date, as `fill` put them there
        self._mass_stays = False
        super().__init__(
            QCoreApplication.translate("RosterPage", "Athletes"),
            new=QCoreApplication.translate("RosterPage", "New athlete"),
            put_away=roster.athletes_put_away,
            parent=parent,
        )
        tr = self.tr
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
        self._dominant_row = ChoiceRow(tr("Dominant side"))
        self._injured_row = ChoiceRow(tr("Injured side"))
        self.dominant, self.injured = self._dominant_row.box, self._injured_row.box
        _offer_sides(self.dominant, tr("not said"), both=False)
        _offer_sides(self.injured, tr("none"), both=True)
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
        self.choose.clicked.connect(self._choose)
        show_key(self.choose, CHOOSE_KEY, tr("This athlete is here now"))
        bind(self, CHOOSE_KEY, self.choose.click)
        self.list.taken.connect(self._choose)
        self.mass.line.textEdited.connect(self._date_mass)
        self.show_entry("")

    def forget(self, code: str) -> None:
        """Somebody was erased: nothing of that athlete stays in the form."""
        if self._person is not None and self._person.details.code == code:
            self.show_entry("")

    def say_who_is_here(self) -> None:
        """The start key was pressed, and it is not sure for whom it was meant."""
        here, shown_code = self._here(), self._person and self._person.details.code
        if not self.choose.isEnabled() or shown_code == here:
            words = self.tr("{here} is here now. Go back to live to start.")
        else:
            words = self.tr("{here} is here now. {key} chooses {code} for this visit.")
        self.say(words.format(here=here, key=native(CHOOSE_KEY), code=shown_code))

    def lend(self, button: QPushButton) -> None:
        """A way on from here, at the head: to backups, and to erasing an athlete."""
        self.head.addWidget(button)

    @property
    def fields(self) -> dict[str, Field | TextBox]:
        """Those that may hold something wrong, by their dotted names."""
        return {
            "athlete.code": self.code,
            "athlete.birth_year": self.birth_year,
            "athlete.name": self.name,
            "athlete.mass_kg": self.mass,
            "athlete.mass_date": self.mass_date,
            "athlete.notes": self.notes,
            "athlete.consent": self.consent,
        }

    @property
    def columns(self) -> Sequence[Sequence[QLabel]]:
        """Labels that stand above one another."""
        left, right = self._dominant_row.label, self._injured_row.label
        return (
            (self.code.label, self.name.label, self.mass.label, left),
            (self.birth_year.label, self.mass_date.label, right),
        )

    def _fill_form(self) -> None:
        grid = FoldedGrid(stretches=(1, 1), across_px=16)
        grid.add(self.code, 0, 0)
        grid.add(self.birth_year, 0, 1)
        grid.add(self.name, 1, 0, span=2)
        grid.add(self.mass, 2, 0)
        grid.add(self.mass_date, 2, 1)
        grid.add(self._dominant_row, 3, 0)
        grid.add(self._injured_row, 3, 1)
        self.form.addLayout(grid)
        for widget in (self.notes, self.consent, self.caution):
            self.form.addWidget(widget)
        lines = (self.code, self.birth_year, self.name, self.mass, self.mass_date)
        self.order(
            (
                *(field.line for field in lines),
                *(self.dominant, self.injured, self.notes.box, self.consent.box),
            ),
            (self.save, self.revert, self.choose),
        )

    # The list.

    def entries(self, words: str, *, archived: bool) -> Sequence[tuple[str, str]]:
        """Code, whether here now, name, injured side and last visit of each."""
        return [
            (person.id, self._line(person))
            for person in self._roster.athletes(words, archived=archived)
        ]

    def _line(self, person: Person) -> str:
        details = person.details
        parts = [details.code]
        if details.code == self._here():  # near the front, where nothing is cut
            parts.append(self.tr("here now"))
        if details.name:
            parts.append(details.name)
        if details.injured is not None:
            side = shown(details.injured.value)
            parts.append(self.tr("injured: {side}").format(side=side))
        visit = person.last_visit_utc
        if visit is not None:
            day = visit.astimezone().date().isoformat()
            parts.append(self.tr("last here {date}").format(date=day))
        return " · ".join(parts)

    # The form.

    def fill(self, key: str) -> None:
        """Puts an athlete into the form."""
        person = self._roster.athlete(key) if key else None
        if key and person is None:
            raise UserError(self._gone())
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
        self._filled_mass = (self.mass.text, self.mass_date.text)
        for box, side in ((self.dominant, details.dominant),
                          (self.injured, details.injured)):  # fmt: skip
            box.setCurrentIndex(max(0, box.findData(side)))
        self.notes.set_text(details.notes)
        self.consent.set_text(details.consent)
        self.choose.setEnabled(bool(key) and not self.archived.isChecked())
        words = self.tr("Choose {code} for this visit").format(code=details.code)
        self.choose.setText(words if key else self.tr("Choose for this visit"))

    def typed(self) -> tuple[object, ...]:
        """What stands in the form."""
        return (
            *(field.text for field in self.fields.values()),
            self.dominant.currentData(),
            self.injured.currentData(),
        )

    def store(self, key: str) -> str:
        """Saves the athlete, with a new body mass where one was typed."""
        year = self.read(self._year)
        mass = self.read(self._typed_mass)
        details = AthleteDetails(
            code=self.code.text,
            name=self.name.text,
            dominant=self.dominant.currentData(),
            injured=self.injured.currentData(),
        )
        # Each by itself, so that all that is wrong is said.
        details = self.read(lambda: replace(details, birth_year=year)) or details
        details = self.read(lambda: replace(details, notes=self.notes.text)) or details
        consent = self.consent.text
        details = self.read(lambda: replace(details, consent=consent)) or details
        date = self.mass_date.text if self.mass.text else None
        self.note(self._roster.wrong_with_athlete(key, details, mass_date=date))
        if self.wrong or self._another_of_that_name(details, key):
            return ""
        known = self._person is not None and self._person.mass is not None
        self._mass_stays = known and not self.mass.text
        before = self._person.details.code if key and self._person else ""
        saved = self._roster.save_athlete(key, details, mass)
        if before and details.code != before:
            self.recoded.emit(before, details.code)
        return saved.id

    def saved_words(self) -> str:
        """Said after saving."""
        if not self._mass_stays:
            return super().saved_words()
        return self.tr("Saved. The body mass stays; a newer one can be typed.")

    def _date_mass(self) -> None:
        """A newly typed mass is of today, unless its date was typed."""
        text, date = self._filled_mass
        if self.mass_date.text in (date, _today()):
            self.mass_date.set_text(date if self.mass.text == text else _today())

    def _year(self) -> int | None:
        text = self.birth_year.text
        if not text:
            return None
        if not text.isdecimal():
            raise FieldError(
                "athlete.birth_year", phrase("must be a year, four digits.")
            )
        return int(text)

    def _typed_mass(self) -> BodyMass | None:
        kg = self.mass.number(empty=math.nan)
        if kg is None:
            return None
        if math.isnan(kg):
            raise FieldError("athlete.mass_kg", as_said(self.mass.error.text()))
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

    def put_away(self, key: str, *, archived: bool) -> None:
        """Archives an athlete, or puts one back."""
        person = self._roster.athlete(key)
        if person is None:
            raise UserError(self._gone())
        roster = self._roster
        act = roster.restore_athlete if archived else roster.archive_athlete
        act(person)

    def _gone(self) -> Phrase:
        return phrase("This athlete is not in the logbook any more.")

    def _choose(self) -> None:
        if self._keeps() or self._person is None:
            return
        if self.archived.isChecked():
            self.say(self.tr("Archived. Put the athlete back on the list first."))
        else:
            self.chosen.emit(self._person.details.code)


def _offer_sides(box: QComboBox, nothing: str, *, both: bool) -> None:
    box.addItem(nothing, userData=None)
    for side in (Sides.LEFT, Sides.RIGHT, *((Sides.BOTH,) if both else ())):
        box.addItem(shown(side.value), userData=side)


def _today() -> str:
    return QDate.currentDate().toString(Qt.DateFormat.ISODate)
