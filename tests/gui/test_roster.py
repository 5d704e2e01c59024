"""The page of the athletes on a real logbook. All people are invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest
from gui.hands import FIRST, Entries, cut_off, kept, nameless
from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtTest import QTest

from biofeedback.gui.roster import RosterPage
from biofeedback.gui.style import style_sheet
from biofeedback.gui.theme import DAY, NIGHT
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.rows import NewSet
from biofeedback.session.roster import Roster
from biofeedback.training.athlete import AthleteDetails, BodyMass
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot


ARVID = AthleteDetails("INV-1", "Arvid Invented", 1998, injured=Sides.LEFT)
BJORK = AthleteDetails("INV-2", "Björk Invented")
WEIGHED = BodyMass(70.5, "2026-01-31")


def today() -> str:
    return datetime.now(tz=UTC).astimezone().date().isoformat()


class Bench(Entries):
    """The page on a logbook with two athletes."""

    def __init__(self, qtbot: QtBot, book: Logbook, place: Path) -> None:
        self.book = book
        self.roster = Roster(book)
        self.arvid = self.roster.save_athlete("", ARVID, WEIGHED).id
        self.bjork = self.roster.save_athlete("", BJORK, None).id
        self.athletes = RosterPage(self.roster)
        self.chosen: list[str] = []
        self.athletes.chosen.connect(self.chosen.append)
        super().__init__(qtbot, self.athletes, place)

    def show(self, key: str) -> None:
        self.page.reload(choose=key)

    def codes(self, *, archived: bool = False) -> list[str]:
        return [p.details.code for p in self.roster.athletes(archived=archived)]


@pytest.fixture
def bench(qtbot: QtBot, tmp_path: Path) -> Iterator[Bench]:
    place = tmp_path / "logbook.db"
    with Logbook.open(place) as book:
        yield Bench(qtbot, book, place)


# ---------------------------------------------------------------- add and edit


def test_an_athlete_is_entered_by_keys_alone(bench: Bench) -> None:
    page = bench.athletes
    bench.press("Ctrl+N")
    assert page.code.line.hasFocus()
    bench.write("INV-3")
    for widget, text in (
        (page.birth_year.line, "2001"),
        (page.name.line, "Cleo Invented"),
        (page.mass.line, "64,2"),
        (page.mass_date.line, "2026-02-01"),
    ):
        bench.tab_to(widget)
        bench.write(text)
    bench.tab_to(page.dominant)
    bench.press("Down", "Down")
    bench.tab_to(page.injured)
    bench.press("Down")
    bench.tab_to(page.notes.box)
    bench.add("Trains in the morning.")
    bench.tab_to(page.consent.box)
    bench.add("Signed, invented.")
    bench.press("Ctrl+S")
    assert bench.told == "Saved."
    person = bench.roster.by_code("INV-3")
    assert person is not None
    assert person.details == AthleteDetails(
        "INV-3",
        "Cleo Invented",
        2001,
        Sides.RIGHT,
        Sides.LEFT,
        "Trains in the morning.",
        "Signed, invented.",
    )
    assert person.mass == BodyMass(64.2, "2026-02-01")
    assert page.list.currentRow() == 2
    assert bench.entries()[2] == "INV-3 · Cleo Invented · injured: left"
    assert not page.dirty


def test_an_athlete_is_changed_and_nothing_else_of_them(bench: Bench) -> None:
    bench.show(bench.arvid)
    assert bench.athletes.mass.text == "70.5"
    bench.fill(name="Arvid of the Invented")
    bench.press("Ctrl+S")
    person = bench.roster.athlete(bench.arvid)
    assert person is not None
    assert person.details == replace(ARVID, name="Arvid of the Invented")
    assert bench.book.people.masses(bench.arvid) == (WEIGHED,)  # not once more


def test_what_is_shown_rounded_is_not_saved_rounded(bench: Bench) -> None:
    bench.book.people.add_mass(bench.arvid, BodyMass(71.46, "2026-02-01"))
    bench.show(bench.arvid)
    assert bench.athletes.mass.text == "71.5"
    bench.fill(name="Another")
    bench.press("Ctrl+S")
    assert bench.book.people.mass(bench.arvid) == BodyMass(71.46, "2026-02-01")


def test_a_newly_typed_mass_is_of_today(bench: Bench) -> None:
    page = bench.athletes
    bench.show(bench.arvid)
    assert page.mass_date.text == "2026-01-31"
    bench.fill(mass="72")
    assert page.mass_date.text == today()
    bench.fill(mass="70.5")
    assert page.mass_date.text == "2026-01-31"
    bench.fill(mass="72")
    bench.press("Ctrl+S")
    assert bench.book.people.masses(bench.arvid) == (BodyMass(72, today()), WEIGHED)


def test_a_date_of_weighing_that_was_typed_stays(bench: Bench) -> None:
    bench.show(bench.arvid)
    bench.fill(mass_date="2026-02-03", mass="72")
    assert bench.athletes.mass_date.text == "2026-02-03"
    bench.press("Ctrl+S")
    assert bench.book.people.mass(bench.arvid) == BodyMass(72, "2026-02-03")


def test_a_mass_that_was_wiped_out_stays_and_that_is_said(bench: Bench) -> None:
    bench.show(bench.arvid)
    bench.fill(mass="")
    bench.press("Ctrl+S")
    assert bench.told == "Saved. The body mass stays; a newer one can be typed."
    assert bench.athletes.mass.text == "70.5"
    bench.show(bench.bjork)
    bench.fill(name="Another")
    bench.press("Ctrl+S")
    assert bench.told == "Saved."


# --------------------------------------------------------- what does not fit


@pytest.mark.parametrize(
    ("name", "text", "words"),
    [
        ("code", "", "Must be 1 to 32"),
        ("code", "a b", "letters"),
        ("code", "INV-2", "INV-2 is in use already. Choose another code."),
        ("birth_year", "98", "Is 98; it must be 1900 or later. Type four digits."),
        ("birth_year", "nineteen", "four digits"),
        ("birth_year", "2099", "2099 is still to come"),
        ("mass", "abc", "Please type a number, for example 12.5."),
        ("mass", "700", "10 to 350 kg"),
        ("mass_date", "31.1.2026", "“31.1.2026” is no date. Type it as year-month-day"),
        ("mass_date", "2026-02-30", "is no date"),
        ("mass_date", "2226-02-01", "2226-02-01 is still to come"),
        ("mass_date", "", "A date is missing. Type it as year-month-day"),
        ("name", "x" * 201, "longer than 200"),
    ],
)
@pytest.mark.parametrize("new", [True, False])
def test_what_does_not_fit_is_said_beside_its_field_and_nothing_is_saved(
    bench: Bench, name: str, text: str, words: str, *, new: bool
) -> None:
    if new:
        bench.press("Ctrl+N")
        bench.fill(code="INV-9", mass="72", mass_date="2026-02-01")
    else:
        bench.show(bench.arvid)
        bench.fill(mass="72", mass_date="2026-02-01")
    bench.fill(**{name: text})
    bench.refused(getattr(bench.athletes, name), words)


def test_all_that_is_wrong_is_said_at_once(bench: Bench) -> None:
    page = bench.athletes
    bench.show(bench.arvid)
    bench.fill(birth_year="98", mass="abc")
    bench.press("Ctrl+S")
    assert page.birth_year.error.isVisible()
    assert page.mass.error.isVisible()
    assert page.birth_year.line.hasFocus()
    bench.fill(birth_year="1998")
    assert not page.birth_year.error.isVisible()
    bench.fill(mass="72")
    bench.press("Ctrl+S")
    assert bench.told == "Saved."


def test_what_has_come_to_fit_meanwhile_is_not_complained_of(bench: Bench) -> None:
    bench.press("Ctrl+N")
    bench.fill(code="INV-2")
    bench.refused(bench.athletes.code, "in use")
    bench.roster.save_athlete(bench.bjork, replace(BJORK, code="INV-20"), None)
    bench.fill(mass="abc")
    bench.press("Ctrl+S")
    assert bench.athletes.mass.error.isVisible()
    assert not bench.athletes.code.error.isVisible()


def test_notes_that_are_too_long_are_said_beside_them(bench: Bench) -> None:
    bench.show(bench.arvid)
    bench.athletes.notes.box.setPlainText("x" * 2001)
    before = kept(bench.place)
    bench.press("Ctrl+S")
    assert "2000 characters" in bench.athletes.notes.error.text()
    assert bench.athletes.notes.text == "x" * 2001
    assert kept(bench.place) == before


def test_the_code_of_an_archived_athlete_is_in_use(bench: Bench) -> None:
    bench.show(bench.bjork)
    bench.press("Ctrl+D", "Ctrl+N")
    bench.fill(code="INV-2")
    bench.refused(bench.athletes.code, "by an athlete who is archived")


def test_a_code_that_recordings_stand_under_stays(bench: Bench) -> None:
    session = bench.book.begin_session(bench.arvid)
    bench.book.begin_set(
        NewSet(
            session,
            {"task": {"name": "Calf"}},
            {"name": "rig"},
            "a.force",
            datetime.now(tz=UTC),
        )
    )
    bench.show(bench.arvid)
    bench.fill(code="INV-7")
    bench.refused(bench.athletes.code, "Must stay INV-1")


def test_another_of_the_same_name_is_asked_about_once(bench: Bench) -> None:
    bench.press("Ctrl+N")
    bench.fill(code="INV-3", name="arvid INVENTED")
    before = kept(bench.place)
    bench.press("Ctrl+S")
    assert kept(bench.place) == before
    assert bench.athletes.name.error.text() == (
        "INV-1 has this name too. Save again if it is another person."
    )
    assert bench.told == "Not saved yet: look at the name."
    bench.press("Ctrl+S")
    assert bench.told == "Saved."
    assert bench.codes() == ["INV-1", "INV-2", "INV-3"]
    assert not bench.athletes.name.error.isVisible()
    bench.fill(mass="80")
    bench.press("Ctrl+S")  # of one who is known already
    assert bench.athletes.name.error.isVisible()


def test_a_question_about_one_name_does_not_answer_for_another(bench: Bench) -> None:
    bench.press("Ctrl+N")
    bench.fill(code="INV-3", name=ARVID.name)
    bench.press("Ctrl+S")
    bench.fill(name=BJORK.name)
    bench.press("Ctrl+S")
    assert "INV-2 has this name" in bench.athletes.name.error.text()
    assert bench.codes() == ["INV-1", "INV-2"]


def test_a_logbook_that_is_busy_loses_nothing_that_was_typed(
    qtbot: QtBot, tmp_path: Path
) -> None:
    place = tmp_path / "logbook.db"
    with Logbook.open(place) as book, Logbook.open(place) as other:
        bench = Bench(qtbot, book.hurried(0.01), place)
        bench.show(bench.arvid)
        bench.fill(name="Another", mass="72")
        typed = bench.page.typed()
        with other._write():
            bench.press("Ctrl+S")
            assert "busy" in bench.told
            assert bench.page.typed() == typed
            assert bench.page.dirty
        bench.press("Ctrl+S")
        assert bench.told == "Saved."


# ------------------------------------------------- typed things are not lost


def test_what_is_typed_stays_until_it_is_saved_or_taken_back(bench: Bench) -> None:
    page = bench.athletes
    bench.show(bench.arvid)
    bench.fill(name="Half typ")
    typed = page.typed()
    bench.lead_nowhere(
        lambda: page.list.setCurrentRow(1),
        lambda: bench.press("Ctrl+N"),
        lambda: bench.press("Ctrl+D"),
        page.archived.click,
        lambda: bench.press("Ctrl+Return"),
    )
    page.list.setFocus()
    bench.lead_nowhere(lambda: bench.press("Return"))
    assert page.key == bench.arvid
    assert page.list.currentRow() == 0
    assert bench.chosen == []
    page.enter()  # another page was looked at meanwhile
    page.words.set_text("nobody of this name")
    assert page.typed() == typed
    page.words.set_text("")
    bench.press("Ctrl+R")
    assert page.name.text == ARVID.name
    assert bench.told == ""
    page.list.setCurrentRow(1)
    assert page.code.text == "INV-2"


@pytest.mark.parametrize(
    "change", ["code", "birth_year", "name", "mass", "mass_date", "sides", "notes"]
)
def test_each_field_counts_as_typed(bench: Bench, change: str) -> None:
    page = bench.athletes
    bench.show(bench.arvid)
    if change == "sides":
        page.dominant.setFocus()
        bench.press("Down")
    elif change == "notes":
        page.consent.box.setFocus()
        bench.write("x")
    else:
        bench.fill(**{change: "1"})
    page.list.setCurrentRow(1)
    assert bench.told == FIRST
    assert page.key == bench.arvid


def test_passing_the_list_by_tab_chooses_nobody(bench: Bench) -> None:
    page = bench.athletes
    bench.press("Ctrl+N")
    page.words.line.setFocus()
    bench.tab_to(page.list)
    bench.tab_to(page.code.line)
    assert (page.key, page.code.text) == ("", "")
    bench.fill(code="INV-4")
    page.words.line.setFocus()
    bench.tab_to(page.list)
    assert bench.told == ""
    bench.tab_to(page.new)
    assert page.code.text == "INV-4"


# ------------------------------------------------------- search and choose


@pytest.mark.parametrize(
    ("words", "codes"),
    [
        ("bjork", ["INV-2"]),
        ("INVENTED arv", ["INV-1"]),
        ("inv", ["INV-1", "INV-2"]),
        ("nobody", []),
    ],
)
def test_search_by_code_and_name(bench: Bench, words: str, codes: list[str]) -> None:
    bench.add(words)
    assert [line.split(" ")[0] for line in bench.entries()] == codes


def test_an_athlete_is_found_and_chosen_by_keys_alone(bench: Bench) -> None:
    assert bench.athletes.words.line.hasFocus()
    bench.add("bjö")
    bench.press("Return")
    assert bench.athletes.code.text == "INV-2"
    assert bench.chosen == []
    bench.press("Return")
    assert bench.chosen == ["INV-2"]
    bench.athletes.words.line.setFocus()
    bench.press("Ctrl+Return")
    assert bench.chosen == ["INV-2"] * 2


def test_arrows_walk_the_list_and_a_double_click_chooses(bench: Bench) -> None:
    page = bench.athletes
    page.words.line.setFocus()
    bench.tab_to(page.list)
    bench.press("Down")
    assert page.code.text == "INV-1"
    bench.press("Down")
    assert page.code.text == "INV-2"
    at = page.list.visualItemRect(page.list.item(0)).center()
    left = Qt.MouseButton.LeftButton
    QTest.mouseClick(page.list.viewport(), left, pos=at)
    assert page.code.text == "INV-1"
    assert bench.chosen == []
    QTest.mouseDClick(page.list.viewport(), left, pos=at)
    assert bench.chosen == ["INV-1"]


def test_nobody_is_chosen_where_nobody_is_shown(bench: Bench) -> None:
    bench.press("Ctrl+N", "Ctrl+Return")
    bench.athletes.list.setFocus()
    bench.press("Return")
    assert bench.chosen == []


def test_the_form_follows_a_search_unless_something_is_typed(bench: Bench) -> None:
    page = bench.athletes
    page.list.setCurrentRow(0)
    assert page.key
    page.words.line.setFocus()
    bench.write("no such athlete")
    assert page.key == ""
    assert page.code.text == ""
    bench.write("")
    page.list.setCurrentRow(0)
    chosen = page.key
    assert chosen
    page.code.set_text("typed")
    page.words.line.setFocus()
    bench.write("no such athlete")
    assert page.key == chosen, "what is typed is not lost"


def test_one_who_was_searched_for_is_shown_after_saving(bench: Bench) -> None:
    bench.add("arvid")
    bench.press("Return")
    bench.fill(name="Dace Invented")
    bench.press("Ctrl+S")
    assert bench.told == "Saved."
    assert bench.athletes.words.text == ""
    assert bench.athletes.list.currentRow() == 0


def test_the_last_visit_stands_in_the_list(bench: Bench) -> None:
    bench.book.begin_session(bench.bjork)
    bench.page.enter()
    assert bench.entries()[1] == f"INV-2 · Björk Invented · last here {today()}"


# --------------------------------------------------------- archive and back


def test_archive_and_undo(bench: Bench) -> None:
    page = bench.athletes
    assert not page.undo.isEnabled()
    assert not page.archive.isEnabled()
    bench.show(bench.arvid)
    before = bench.roster.athlete(bench.arvid)
    bench.press("Ctrl+D")
    assert bench.told == "Archived; nothing is lost. Undo puts it back."
    assert bench.codes() == ["INV-2"]
    assert bench.codes(archived=True) == ["INV-1"]
    assert page.code.text == ""  # nobody is typed over
    assert "Put INV-1 back" in page.undo.toolTip()
    page.words.line.setFocus()  # a field has its own use for other undo keys
    bench.press("Ctrl+Shift+D")
    assert bench.told == "INV-1 is on the list again."
    assert len(bench.entries()) == 2
    assert bench.roster.athlete(bench.arvid) == before
    assert not page.undo.isEnabled()
    assert "Nothing to put back" in page.undo.toolTip()


def test_put_back_from_the_archived_list(bench: Bench) -> None:
    page = bench.athletes
    bench.show(bench.arvid)
    bench.press("Ctrl+D")
    bench.tab_to(page.archived)
    bench.press("Space")
    assert bench.entries() == ["INV-1 · Arvid Invented · injured: left"]
    assert page.archive.text() == "Put back"
    assert not page.archive.isEnabled()
    page.words.line.setFocus()
    bench.press("Return", "Return")
    assert bench.chosen == []
    assert bench.told == "Archived. Put the athlete back on the list first."
    bench.press("Ctrl+D")
    assert bench.told == "It is on the list again."
    assert bench.entries() == []
    assert bench.codes() == ["INV-1", "INV-2"]


def test_undo_on_the_archived_list_leaves_nobody_behind(bench: Bench) -> None:
    page = bench.athletes
    bench.show(bench.arvid)
    bench.press("Ctrl+D")
    page.archived.click()
    page.list.setCurrentRow(0)
    bench.press("Ctrl+Shift+D")
    assert bench.entries() == []
    assert page.key == ""
    assert bench.told == "INV-1 is on the list again."


def test_undo_leaves_what_is_typed_alone(bench: Bench) -> None:
    bench.show(bench.arvid)
    bench.press("Ctrl+D", "Ctrl+N")
    bench.fill(code="INV-5")
    bench.press("Ctrl+Shift+D")
    assert bench.athletes.code.text == "INV-5"
    assert bench.codes() == ["INV-1", "INV-2"]


def test_a_new_athlete_is_not_entered_among_the_archived(bench: Bench) -> None:
    page = bench.athletes
    bench.show(bench.arvid)
    bench.press("Ctrl+D")
    page.archived.click()
    bench.press("Ctrl+N")
    assert not page.archived.isChecked()
    bench.fill(code="INV-6")
    bench.press("Ctrl+S")
    assert page.archive.text() == "Archive"
    assert page.choose.isEnabled()
    assert len(bench.entries()) == 2


def test_one_who_is_gone_is_said_and_the_form_stays(bench: Bench) -> None:
    page = bench.athletes
    bench.show(bench.arvid)
    with bench.book._write() as connection:
        connection.exec_driver_sql("DELETE FROM athletes WHERE code = 'INV-2'")
    page.list.setCurrentRow(1)
    assert bench.told == "This athlete is not in the logbook any more."
    assert (page.key, page.code.text) == (bench.arvid, "INV-1")
    assert page.list.currentRow() == 0


# ------------------------------------------------------------ looks and words


def test_each_control_has_a_name_and_tab_comes_to_all(bench: Bench) -> None:
    page = bench.athletes
    assert nameless(page) == []
    bench.show(bench.arvid)
    page.words.line.setFocus()
    assert bench.ring() == [
        page.words.line,
        page.archived,
        page.list,
        page.new,
        page.archive,
        page.code.line,
        page.birth_year.line,
        page.name.line,
        page.mass.line,
        page.mass_date.line,
        page.dominant,
        page.injured,
        page.notes.box,
        page.consent.box,
        page.save,
        page.revert,
        page.choose,
        page.live,
    ]


@pytest.mark.parametrize(("width", "size"), [(1280, 1.0), (1920, 1.5)])
@pytest.mark.parametrize("theme", [DAY, NIGHT])
def test_nothing_is_cut_off_with_long_names_and_errors(
    bench: Bench, width: int, size: float, theme: object
) -> None:
    page = bench.athletes
    person = bench.roster.save_athlete(
        "",
        AthleteDetails("LONG-CODE-OF-32-CHARACTERS-12345", "Long Invented " * 14),
        None,
    )
    look = DAY if theme is DAY else NIGHT
    page.setStyleSheet(style_sheet(look, size=size))
    page.set_size(size)
    page.set_theme(look)
    page.resize(width, round(720 * size))
    bench.show(person.id)
    bench.fill(birth_year="98", mass="abc", mass_date="2226-01-01")
    bench.press("Ctrl+S")
    QCoreApplication.processEvents()
    assert cut_off(page) == []
    assert page.width() == width
    for labels in page.columns:
        assert len({label.width() for label in labels}) == 1
    lines = page.notes.box.height() / page.notes.box.fontMetrics().lineSpacing()
    assert 3 <= lines < 4.2


def test_back_to_live(qtbot: QtBot, bench: Bench) -> None:
    with qtbot.waitSignal(bench.athletes.live_wanted):
        bench.athletes.live.click()


def test_the_years_that_are_not_over_are_taken(bench: Bench) -> None:
    now = datetime.now(tz=UTC).astimezone()
    bench.show(bench.arvid)
    tomorrow = (now + timedelta(days=1)).date().isoformat()
    bench.fill(birth_year=str(now.year), mass="72", mass_date=tomorrow)
    bench.refused(bench.athletes.mass_date, "still to come")
    bench.fill(mass_date=now.date().isoformat())
    bench.press("Ctrl+S")
    assert bench.told == "Saved."
