"""Reports: read back by another program, and held against the logbook's own rows."""

from __future__ import annotations

import json
import math
import sqlite3
import statistics
import struct
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from io import BytesIO
from typing import TYPE_CHECKING

import numpy as np
import pypdf
import pytest
from report import invented
from report.invented import CODE, NAME, NOW

from biofeedback.cli import main
from biofeedback.errors import FileError, UserError
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.maxima import NewMaximalTest
from biofeedback.measures.change import Change
from biofeedback.phrase import Phrase
from biofeedback.report import writing
from biofeedback.report.document import DETAILS, sheet
from biofeedback.report.paper import FOOT, HEIGHT, MARGIN, PNG_DPI, WIDTH, Paper
from biofeedback.report.sheet import Bullets, Charts, Grid, Heading, Paragraph
from biofeedback.session.reports import Reports
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Setup, Sides, Task, TaskKind

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from biofeedback.session.report_facts import ReportFacts

pytestmark = pytest.mark.usefixtures("qapp")  # letters need it
VISITS = 40


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("report") / "logbook.db"
    with Logbook.open(path) as logbook:
        invented.fill(logbook, visits=VISITS)
        logbook.add_athlete("NEW-1", "Nobody Yet")
    return path


@pytest.fixture
def logbook(place: Path) -> Iterator[Logbook]:
    with Logbook.open(place) as opened:
        yield opened


def facts_of(logbook: Logbook, code: str = CODE, **asked: object) -> ReportFacts:
    return Reports(logbook, clock=lambda: NOW).of(code, **asked)  # type: ignore[arg-type]  # as they are


def words_of(facts: ReportFacts) -> str:
    """All text of the PDF, as another program reads it, with single blanks."""
    reader = pypdf.PdfReader(BytesIO(writing.paper(facts).pdf()))
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())


# Whom it is of.


def test_two_pages_of_the_code_and_no_name(logbook: Logbook) -> None:
    facts = facts_of(logbook)
    reader = pypdf.PdfReader(BytesIO(writing.paper(facts).pdf()))
    assert len(reader.pages) == 2
    for page in reader.pages:
        assert [round(float(side)) for side in page.mediabox[2:]] == [595, 842]
        assert CODE in page.extract_text()
    assert reader.metadata is not None
    assert reader.metadata.title == f"Report on {CODE}"
    told = words_of(facts)
    assert not any(part in told for part in NAME.split())
    assert NAME not in str(reader.metadata)


def test_the_name_is_there_where_it_was_asked_for_but_not_in_the_file_name(
    logbook: Logbook,
) -> None:
    facts = facts_of(logbook, name=True)
    assert f"Report on {NAME} ({CODE})" in words_of(facts)
    assert writing.file_name(facts) == f"{CODE}_report_2026-03-02_2026-09-14.pdf"


# Figures, worked out from the rows of the database.


def raw(place: Path, query: str) -> list[tuple[object, ...]]:
    connection = sqlite3.connect(place)
    try:
        return connection.execute(query).fetchall()
    finally:
        connection.close()


def test_planned_and_done_are_those_of_the_logbook(
    logbook: Logbook, place: Path
) -> None:
    told = words_of(facts_of(logbook))
    reps = raw(place, "SELECT outcome, measures FROM reps")
    complete = sum(outcome == "complete" for outcome, _ in reps)
    measures = [json.loads(str(content)) for _, content in reps]
    inside_s = sum(one["inside_s"] for one in measures)
    dose = sum(one["dose_pct_s"] for one in measures)
    planned = [
        json.loads(str(content))
        for (content,) in raw(place, "SELECT prescription FROM sets")
    ]
    wanted = sum(one["reps"] for one in planned)
    wanted_s = sum(one["reps"] * one["hold_s"] for one in planned)
    # 210 N of 300 N are 70 %.
    assert f"Days with a set in this period: {VISITS}." in told
    assert (
        f"Seated knee extension, left {VISITS} of {VISITS} {complete} of {wanted} "
        f"{inside_s:.0f} of {wanted_s:.0f} {dose:.0f} of {70 * wanted_s:.0f}"
    ) in told


def test_each_percentage_says_of_which_100_it_is(logbook: Logbook) -> None:
    told = words_of(facts_of(logbook))
    assert (
        "100 % of Seated knee extension, left: 300.0 N (best 1 s mean, own side's "
        "best, 2026-03-02)"
    ) in told
    changes = [line for line in told.split("band ") if "% →" in line]
    assert changes
    assert all("% of 300.0 N;" in line for line in changes)


def test_a_100_that_was_another_before_is_told_with_its_first(tmp_path: Path) -> None:
    with Logbook.open(tmp_path / "logbook.db") as book:
        invented.fill(book, visits=1)
        later = replace(
            invented.asked(),
            reference=Reference(
                330.0, Origin.OTHER_SIDE, Definition.PEAK, "2026-04-01"
            ),
        )
        header = {
            "set_id": "01900000-0000-7000-a000-000000000999",
            "session_id": "01900000-0000-7000-9000-000000000999",
            "athlete_code": CODE,
            "started_utc": (NOW - timedelta(days=1)).isoformat(),
            "prescription": later.to_json(),
            "profile": invented.PROFILE.to_json(),
        }
        book.enter_recording(header, f"{CODE}_later.force")
        (whole,) = facts_of(book).wholes
        assert [one.force_n for one in whole.references] == [300.0, 330.0]
        told = words_of(facts_of(book))
    assert "left: 330.0 N (peak, other side's best, 2026-04-01); first 300.0 N" in told
    assert "2 different ones in this period" in told


def test_a_100_of_another_task_says_of_which(tmp_path: Path) -> None:
    with Logbook.open(tmp_path / "logbook.db") as book:
        invented.fill(book, visits=1)
        asked = invented.asked()
        other = Task("Invented calf press", sides=Sides.BOTH)
        borrowed = Reference(
            330.0, Origin.OWN_SIDE, Definition.PEAK, "2026-04-01", task=other
        )
        header = {
            "set_id": "01900000-0000-7000-a000-000000000999",
            "session_id": "01900000-0000-7000-9000-000000000999",
            "athlete_code": CODE,
            "started_utc": (NOW - timedelta(days=1)).isoformat(),
            "prescription": replace(asked, reference=borrowed).to_json(),
            "profile": invented.PROFILE.to_json(),
        }
        book.enter_recording(header, f"{CODE}_later.force")
        told = words_of(facts_of(book))
    assert (
        "left: 330.0 N (peak, own side's best, for “Invented calf press”, both sides, "
        "2026-04-01); first 300.0 N (best 1 s mean, own side's best, 2026-03-02)"
    ) in told


@pytest.mark.parametrize("side", ["left", "right"])
def test_noise_and_change_of_tests_are_worked_out_a_second_time(
    logbook: Logbook, place: Path, side: str
) -> None:
    told = words_of(facts_of(logbook))
    rows = raw(
        place,
        "SELECT force_n, sides FROM maximal_tests WHERE practice = 0 "
        "AND task LIKE '%knee%' ORDER BY tested_utc",
    )
    forces = [float(str(force)) for force, of in rows if of == side]
    error = float(np.sqrt(np.mean(np.diff(forces) ** 2) / 2))
    mdc = 1.96 * math.sqrt(2) * error
    assert (
        f"{side}: of changes that are noise (athlete's own typical error {error:.1f} "
        f"N, n = {len(forces)} tests), 95 % lie within ± {mdc:.1f} N of the first test"
    ) in told
    change = forces[-1] - forces[0]
    said = "more than the noise" if change > mdc else "within the noise"
    assert f"{change:+.0f} N {said}" in told


def test_symmetry_names_its_formula_and_the_side(logbook: Logbook) -> None:
    told = words_of(facts_of(logbook))
    last = VISITS // 4 - 1
    left, right = invented.left_n(last), invented.right_n(last)
    day = (invented.FIRST + timedelta(days=16 * last)).date()
    assert (
        f"Seated knee extension: {100 * (right - left) / right:.1f} % on {day}, by "
        "100 (max − min)/max; left is weaker."
    ) in told
    left, right = invented.calf_shares_n(last)
    index = 100 * (right - left) / (right + left)
    assert (
        f"Seated calf: {index:.1f} % on {day}, by 100 (R − L)/(R + L); right is "
        "heavier."
    ) in told
    indices = [
        100 * (right - left) / (right + left)
        for left, right in map(invented.calf_shares_n, range(last + 1))
    ]
    noise = 1.96 * float(np.sqrt(np.mean(np.diff(indices) ** 2) / 2))
    assert f"within {noise:.1f} % one visit may be noise alone (95 %)" in told


def test_shares_are_told_with_their_noise(logbook: Logbook) -> None:
    """The injured left side in % of the right one, and of 415 N before the injury."""
    told = words_of(facts_of(logbook))
    begun, last = 1, VISITS // 4 - 1  # the first test is practice
    days = [(invented.FIRST + timedelta(days=16 * at)).date() for at in (begun, last)]
    for whole, of in (
        ([invented.right_n(at) for at in (begun, last)], "right"),
        ([415.0, 415.0], "before the injury"),
    ):
        shares = [
            100 * invented.left_n(at) / n
            for at, n in zip((begun, last), whole, strict=True)
        ]
        assert (
            f"Seated knee extension: left in % of {of}, best 1 s mean: "
            f"{shares[0]:.0f} % on {days[0]}, {shares[1]:.0f} % on {days[1]}. Since"
        ) in told


def test_pain_changes_plan_and_rig_are_told(logbook: Logbook, place: Path) -> None:
    told = words_of(facts_of(logbook))
    ((days,),) = raw(
        place, "SELECT count(DISTINCT date(reported_utc)) FROM day_reports"
    )
    levels = [
        json.loads(str(content))["level"]
        for (content,) in raw(place, "SELECT content FROM notes WHERE kind = 'pain'")
    ]
    above = sum(level > 5 for level in levels)
    for words in (
        f"From 0 to {max(levels)} of 10, told on {days} days; above the agreed cut of "
        f"5 on {above} of them.",
        f"Pain on {VISITS - int(str(days))} of {VISITS} days with a set: it was not",
        "2026-04-07, Seated knee extension, left: band 67 to 73 % → "
        "63 to 70 % of 300.0 N; pain",
        "2026-03-02: plan begun, stage “Calm it: 10–20 %”",
        "2026-04-11: stage “Hold it: 30 s”; Pain stayed low.",
        "stage 2 of 3, “Hold it: 30 s”, since 2026-04-11. The plan is an invented",
        "“Bench rig”, board SN-17, 80 samples a second; zero: limb resting.",
        # 0.4 N at 50 N to 2.1 N at 900 N, at 500 N on the line between; times two.
        f"calibration “May” of 2026-02-20; uncertainty ± "
        f"{2 * (0.4 + 450 / 850 * 1.7):.2g} N at 500 N (k = 2).",
        "right cell: not calibrated (“nominal”); its newtons are a guess.",
        "left: 415 N before the injury (2025-11-03)",
        "2 practice tests are left out",
        "The practitioner decides",
        "Chest pain",
        "Breathe freely",
        "Dose: force in % of the reference × seconds",
    ):
        assert words in told, words


# Periods and tasks.


def test_a_period_is_days_and_both_ends_are_in_it(logbook: Logbook) -> None:
    first = invented.FIRST.date() + timedelta(days=8)
    facts = facts_of(logbook, since=first, until=first + timedelta(days=8))
    assert facts.visits == 3  # each fourth day
    assert facts_of(logbook, since=first, until=first).visits == 1
    assert facts_of(logbook, until=first - timedelta(days=1)).visits == 2
    with pytest.raises(UserError, match="ends on 2026-03-01"):
        facts_of(logbook, since=first, until=date(2026, 3, 1))


def test_one_task_alone(logbook: Logbook) -> None:
    facts = facts_of(logbook, task="Seated calf")
    assert {one.task for one in facts.trends} == {"Seated calf"}
    assert facts.lines == ()
    assert "Only the task “Seated calf”." in words_of(facts)
    with pytest.raises(UserError, match="no task “Seated cal”"):
        facts_of(logbook, task="Seated cal")


def test_weeks_without_a_visit_are_not_zero(logbook: Logbook) -> None:
    facts = facts_of(logbook)
    assert all(week.done.inside_s > 0 for week in facts.weeks)
    assert all(week.monday.weekday() == 0 for week in facts.weeks)
    assert sum(week.done.inside_s for week in facts.weeks) == pytest.approx(
        sum(line.done.inside_s for line in facts.lines)
    )


def test_only_like_is_compared_with_like(tmp_path: Path) -> None:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        athlete_id = logbook.add_athlete("INV-2")

        def test(day: int, force_n: float, angle_deg: float, **more: object) -> None:
            logbook.maxima.add(
                NewMaximalTest(
                    athlete_id,
                    Task("Pull", TaskKind.HOLD, Sides.LEFT, Setup(angle_deg=angle_deg)),
                    datetime(2026, 5, day, 10, tzinfo=UTC),
                    more.pop("definition", Definition.PEAK),  # type: ignore[arg-type]
                    force_n,
                    3,
                    peak_n=force_n,
                    **more,  # type: ignore[arg-type]
                )
            )

        test(1, 100.0, 60.0, practice=True)
        test(2, 101.0, 90.0)  # another position
        test(3, 90.0, 60.0, definition=Definition.STATED, pain=1)  # its peak is known
        test(4, 110.0, 60.0)
        test(4, 112.0, 60.0)  # of the same visit
        test(5, 120.0, 60.0)
        facts = facts_of(logbook, "INV-2")
    (trend,) = facts.trends
    assert [one.most for one in facts.pain] == [1]  # of a test, which enters no note
    assert [(one.force_n, one.tests) for one in trend.results] == [
        (90.0, 1),
        (112.0, 2),
        (120.0, 1),
    ]
    assert (trend.practice, trend.moved) == (1, 1)
    assert trend.noise is not None
    assert trend.noise.typical_error_n == pytest.approx(
        statistics.stdev([90, 112, 120])
    )


def test_a_slow_gain_is_no_noise(logbook: Logbook) -> None:
    """A spread about the mean would call 72 N in five months noise."""
    left, _ = (one for one in facts_of(logbook).trends if one.sides is not Sides.BOTH)
    forces = [one.force_n for one in left.results]
    assert left.noise is not None
    assert forces[-1] - forces[0] > 1.2 * left.noise.mdc95_n
    assert left.noise.typical_error_n < 0.7 * statistics.stdev(forces)
    assert left.change is Change.MORE
    lower_n, upper_n = left.noise.typical_error_interval_n
    assert lower_n < left.noise.typical_error_n < upper_n


def test_a_test_that_does_not_count_is_in_no_report(tmp_path: Path) -> None:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        athlete_id = invented.fill(logbook, visits=9)
        (newest, *_) = logbook.maxima.tests(athlete_id, invented.CALF)
        before = facts_of(logbook, task=invented.CALF.name).trends
        logbook.maxima.void(newest.id, "The strap slipped.")
        after = facts_of(logbook, task=invented.CALF.name).trends
    assert after[0].results == before[0].results[:-1]


def test_the_highest_pain_of_a_day_is_kept_whatever_is_told_after(
    logbook: Logbook,
) -> None:
    most = {one.day: one.most for one in facts_of(logbook).pain}
    for number in range(VISITS):
        day = (invented.FIRST + timedelta(days=4 * number)).date()
        assert most.get(day) == (number % 7 if number % 5 else None)


# Nothing to tell.


def test_a_report_without_data_says_so(logbook: Logbook) -> None:
    told = words_of(facts_of(logbook, "NEW-1"))
    for words in (
        "Report on NEW-1",
        "No plan is followed.",
        "No set was recorded in this period.",
        "No maximal test that can be compared is in this period.",
        "Not known: no test in which both sides can be compared.",
        "Pain was not told in this period.",
        "Nothing was changed within sets or between stages.",
        "Not known: no set of this period names its rig.",
    ):
        assert words in told, words
    assert " nan" not in told.lower()
    assert "None" not in told


def test_nobody_has_no_report(logbook: Logbook) -> None:
    with pytest.raises(UserError, match="no athlete NOBODY-9"):
        facts_of(logbook, "NOBODY-9")


def test_two_tests_cannot_tell_yet(tmp_path: Path) -> None:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        invented.fill(logbook, visits=9)  # a practice test, and two
        told = words_of(facts_of(logbook, task="Seated knee extension"))
    assert "left: cannot tell yet what is noise; it takes three visits" in told
    assert "cannot tell yet" in told.split("the change is")[1]
    assert "Cannot tell yet how much of it is noise" in told


# Pages and files.


def test_however_much_there_is_to_tell_it_is_two_pages_and_says_what_is_missing(
    tmp_path: Path,
) -> None:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        athlete_id = invented.fill(logbook, visits=80, every_days=2, tests_every=2)
        for number in range(12):
            for visit in range(4):
                logbook.maxima.add(
                    NewMaximalTest(
                        athlete_id,
                        Task(f"Task {number} " + "with a long name " * 5,
                             TaskKind.HOLD, Sides.LEFT),
                        invented.FIRST + timedelta(days=9 * visit),
                        Definition.PEAK,
                        200.0 + number + visit,
                        3,
                    )
                )  # fmt: skip
        facts = facts_of(logbook)
    made = writing.paper(facts)
    assert len(made.pages) == 2
    told = words_of(facts)
    assert "more are in the logbook." in told
    assert "earlier changes are in the logbook." in told
    assert "The practitioner decides" in told


def test_parts_neither_overlap_nor_leave_the_page(logbook: Logbook) -> None:
    for detail in DETAILS:
        made = Paper(sheet(facts_of(logbook), detail))
        for page in made.pages:
            tops = [top for top, _ in page.drawn]
            assert tops == sorted(tops)
            assert MARGIN <= tops[0] <= tops[-1] < page.bottom
            assert page.bottom <= HEIGHT - MARGIN - FOOT
        parts = [part for part in made._sheet.parts if isinstance(part, Heading)]
        assert len({part.text for part in parts}) == len(parts)


def test_the_picture_has_the_pages_one_below_the_other(
    logbook: Logbook, tmp_path: Path
) -> None:
    path = tmp_path / "report.png"
    facts = facts_of(logbook)
    writing.write(facts, path)
    content = path.read_bytes()
    assert content.startswith(b"\x89PNG\r\n\x1a\n")
    width, height = struct.unpack(">II", content[16:24])
    page = round(HEIGHT / 720 * PNG_DPI)
    assert (width, height) == (round(WIDTH / 720 * PNG_DPI), 2 * page)
    image = writing.paper(facts).picture()
    for top in (0, page):  # text on both, and the margin empty
        rows = range(top + 90, top + page - 90, 3)
        dark = sum(
            image.pixelColor(x, y).lightness() < 100
            for y in rows
            for x in range(90, width - 90, 7)
        )
        assert dark > 300
        for y in range(top, top + page, 11):
            assert image.pixelColor(20, y).lightness() == 255
            assert image.pixelColor(width - 20, y).lightness() == 255


def test_a_file_that_cannot_be_written_is_said_and_nothing_is_left(
    logbook: Logbook, tmp_path: Path
) -> None:
    facts = facts_of(logbook, "NEW-1")
    with pytest.raises(FileError, match="cannot be written"):
        writing.write(facts, tmp_path / "none" / "report.pdf")
    with pytest.raises(UserError, match=r"\.pdf or \.png"):
        writing.write(facts, tmp_path / "report.doc")
    assert list(tmp_path.iterdir()) == []


def test_every_text_goes_through_the_language_of_the_reader(logbook: Logbook) -> None:
    """Texts of the program are phrases; what people typed stays as it is."""
    plain: list[str] = []

    def told(text: str) -> str:
        if not isinstance(text, Phrase):
            plain.append(text)
        return text

    writing.paper(facts_of(logbook), shown=told)
    assert [one for one in plain if " " in one] == []
    kinds = {type(part) for part in sheet(facts_of(logbook)).parts}
    assert kinds == {Heading, Paragraph, Bullets, Grid, Charts}


# The command.


def run(place: Path, *words: str) -> int:
    return main(["report", *words, "--logbook", str(place)])


def test_the_command_writes_a_pdf_under_the_code(
    place: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(place, CODE, "--name", "--until", "2026-05-01") == 0
    (path,) = tmp_path.iterdir()
    assert path.name == f"{CODE}_report_2026-03-02_2026-05-01.pdf"
    assert capsys.readouterr().out == f"The report is in {path.name}.\n"
    text = pypdf.PdfReader(path).pages[0].extract_text()
    assert NAME in " ".join(text.split())


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("NOBODY-9",), "There is no athlete NOBODY-9"),
        ((CODE, "--output", "report.doc"), "End it in .pdf or .png."),
        ((CODE, "--since", "2026-05-02", "--until", "2026-05-01"), "before 2026-05-02"),
        ((CODE, "--task", "No such"), "There is no task “No such”."),
    ],
)
def test_what_the_command_cannot_do_is_said(
    place: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    words: tuple[str, ...],
    said: str,
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(place, *words) == 1
    assert said in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_no_logbook_is_made_where_there_is_none(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(tmp_path / "none.db", CODE) == 1
    assert "there is no logbook" in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []
