"""A logbook of 500 athletes and 200,000 reps: how long lists and searches take.

    python tests/bench/large_logbook.py [--athletes 500] [--reps 200000] [--json]

Builds it in a temporary folder, then asks each question many times, as the program
asks it; no screen is needed. All people are invented; sets and reps are those of a
simulated session over and over, with other figures. One athlete has done far more
than the others, and the questions about one athlete are about that one.

`--plans` tells how SQLite looks for the rows of each question.
"""

from __future__ import annotations

import argparse
import gzip
import itertools
import json
import os
import sqlite3
import statistics
import sys
import tempfile
import time
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")  # before Qt is imported

import numpy as np
import sqlalchemy as sa
from PySide6.QtCore import QCoreApplication, QRectF
from PySide6.QtGui import QImage, QPainter

from biofeedback.gui.app import application
from biofeedback.gui.roster import RosterPage
from biofeedback.gui.style import style_sheet
from biofeedback.gui.theme import DAY
from biofeedback.logbook import recordings, schema
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.rows import MEASURE_COLUMNS
from biofeedback.report import writing
from biofeedback.report.chart_painter import paint
from biofeedback.report.report_charts import test_chart as chart_of_tests
from biofeedback.session.planning import Planning
from biofeedback.session.replay import replay
from biofeedback.session.reports import Reports
from biofeedback.session.review import Library
from biofeedback.session.roster import Roster
from biofeedback.session.today import Today
from biofeedback.training.example_plans import SHOULDER
from biofeedback.training.reference import Definition
from biofeedback.training.task import Sides
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import Header, Samples

if TYPE_CHECKING:
    from collections.abc import Callable

    Questions = dict[str, Callable[[], object]]
    Rows = dict[str, list[dict[str, object]]]

MODEL = Path(__file__).parents[2] / "recordings" / "logbook-0002.db.gz"
RECORDED = Path(__file__).parents[2] / "recordings" / "one-side-v1.0.force"
SET_S = 600
YEARS = 5
REPS_A_SET = 10
SETS_A_SESSION = 4
BUSIEST = 10
"""How many times as much as others the busiest athlete has done."""
NAMES = ("Arvid", "Björk", "Cleo", "Dace", "Émile", "Frida", "Goran", "Hedda")
TASK = "Seated calf"
LIMIT_MS = 100.0
TELL, REDRAW, REPORT = (
    "five years of an athlete, gathered",
    "redraw a trend of 500 tests",
    "a report on five years, as PDF",
)
OPEN_REP = "first rep of a set of ten minutes"
LIMITS_MS = {TELL: 200.0, REDRAW: 50.0, REPORT: 3000.0, OPEN_REP: 3000.0}
"""Of those that are not answered while somebody types."""
TREND_TESTS = 500
AT_A_TIME = 5000
"""Rows that are written at once."""


class Club:
    """Invented people and what they did, as rows."""

    def __init__(self, athletes: int, reps: int) -> None:
        self.athletes = athletes
        self.chance = np.random.default_rng(1)
        a_session = REPS_A_SET * SETS_A_SESSION
        each = round(reps / ((athletes + BUSIEST - 1) * a_session))
        self.sessions_each = max(1, each)
        self.first = datetime.now(tz=UTC) - timedelta(days=365 * YEARS)
        self.rows: Rows = {}
        self.model_set, self.model_rep = _model()

    def fill(self, book: Logbook) -> None:
        """Fills an empty logbook."""
        book.tasks.start()
        for number in range(self.athletes):
            self._athlete(number, book)
            if sum(map(len, self.rows.values())) > AT_A_TIME:
                self._write(book)
        self._write(book)

    def _write(self, book: Logbook) -> None:
        with book._write() as connection:
            for table in schema.metadata.sorted_tables:
                if table.name in self.rows:
                    connection.execute(sa.insert(table), self.rows.pop(table.name))

    def _add(self, table: str, **values: object) -> str:
        key = new_key()
        self.rows.setdefault(table, []).append({"id": key, **values})
        return key

    def _athlete(self, number: int, book: Logbook) -> None:
        athlete = self._add(
            "athletes",
            code=f"A-{number:04d}",
            name=f"{NAMES[number % len(NAMES)]} Invented {number}",
            injured="left" if number % 3 else None,
            notes="Invented notes of some length. " * 5,
            added_utc=self.first,
        )
        for month in range(12 * YEARS):
            self._add(
                "body_masses",
                athlete_id=athlete,
                mass_kg=60.0 + number % 40 + month % 3,
                date=(self.first + timedelta(days=30 * month)).date().isoformat(),
                stored_utc=self.first,
            )
        plan, planned = "", ""
        if number % 10 == 0:
            self._write(book)
            plan = book.plans.add(athlete, SHOULDER, at_utc=self.first)
            planned = SHOULDER.stages[0].prescriptions[0].key
        sessions = self.sessions_each * (BUSIEST if number == 0 else 1)
        for visit in range(sessions):
            away = timedelta(days=visit * YEARS * 365 / sessions, minutes=number)
            self._visit(athlete, self.first + away, plan, planned)

    def _visit(self, athlete: str, started: datetime, plan: str, planned: str) -> None:
        session = self._add("sessions", athlete_id=athlete, started_utc=started)
        self._add(
            "notes",
            session_id=session,
            set_id=None,
            kind="pain",
            content={"level": int(self.chance.integers(0, 4)), "when": "before"},
            at_utc=started,
        )
        report = self._add(
            "day_reports",
            athlete_id=athlete,
            session_id=session,
            pain_now=int(self.chance.integers(0, 4)),
            reported_utc=started,
        )
        if plan:
            self._add(
                "day_choices",
                day_report_id=report,
                plan_id=plan,
                planned_key=planned,
                sides="left",
                proposed={"place": 0.0},
                accepted={"place": 0.5},
                at_utc=started,
            )
        self._test(athlete, session, started)
        for number in range(SETS_A_SESSION):
            set_id = self._add(
                "sets",
                **self.model_set,
                session_id=session,
                recording=f"{session}-{number}.force",
                started_utc=started + timedelta(minutes=5 * number),
                closed_utc=started + timedelta(minutes=5 * number + 4),
                recovered=False,
                # The other side's: no decision was carried out, the worst case.
                sides="right",
                plan_id=plan or None,
                planned_key=planned or None,
                stage=0 if plan else None,
            )
            for rep in range(REPS_A_SET):
                self._rep(set_id, rep + 1, started)

    def _rep(self, set_id: str, number: int, started: datetime) -> None:
        change = float(self.chance.normal(1.0, 0.03))
        measures = {
            name: value * change if isinstance(value, float) else value
            for name, value in self.model_rep.items()
        } | {"number": number, "start_s": 20.0 * number, "end_s": 20.0 * number + 11}
        self._add(
            "reps",
            set_id=set_id,
            outcome="complete",
            feedback="full",
            lapses=0,
            measures=measures,
            stored_utc=started,
            number=number,
            start_s=20.0 * number,
            end_s=20.0 * number + 11,
            **{name: measures[name] for name in MEASURE_COLUMNS},
        )

    def _test(self, athlete: str, session: str, started: datetime) -> None:
        force_n = float(self.chance.normal(400, 20))
        trial = {"total_n": force_n, "left_n": 0.5 * force_n, "right_n": 0.5 * force_n}
        self._add(
            "maximal_tests",
            athlete_id=athlete,
            session_id=session,
            task=TASK,
            sides="both",
            tested_utc=started,
            definition=Definition.PEAK.value,
            force_n=force_n,
            peak_n=force_n,
            one_s_n=0.95 * force_n,
            trials=3,
            practice=False,
            setup={
                "joint": "ankle",
                "movement": "plantar flexion",
                "angle_deg": 0.0,
                "site": "pad on the thigh, just above the knee",
                "lever_arm_m": None,
                "posture": "sitting",
            },
            content={"trials": [{"peak": trial, "one_s": trial}] * 3},
            stored_utc=started,
        )


def _model() -> tuple[dict[str, object], dict[str, object]]:
    """A set and the measures of a rep, as a simulated session left them."""
    with tempfile.TemporaryDirectory() as name:
        place = Path(name) / "model.db"
        place.write_bytes(gzip.decompress(MODEL.read_bytes()))
        raw = sqlite3.connect(place)
        prescription, profile, totals = raw.execute(
            "SELECT prescription, profile, totals FROM sets"
        ).fetchone()
        (measures,) = raw.execute("SELECT measures FROM reps").fetchone()
        raw.close()
    one = {
        "task": TASK,
        "prescription": json.loads(prescription),
        "profile": json.loads(profile),
        "totals": json.loads(totals),
    }
    return one, json.loads(measures)


def questions(book: Logbook, place: Path) -> Questions:
    """What the program asks, by what it is for."""
    roster, today = Roster(book), Today(book)
    library, planning = Library(book, place.parent), Planning(book)
    code = "A-0000"
    busiest = book.people.by_code(code)
    assert busiest is not None
    key, now = busiest.id, datetime.now(tz=UTC)
    (plan, *_) = book.plans.of_athlete(key)
    planned = SHOULDER.stages[0].prescriptions[0].key
    shown = roster.tasks()[0].task

    def opening() -> None:
        Logbook.open(place).close()

    recording = _long_recording(place.parent)
    last = book.reps(athlete_code=code, limit=200)[-1]

    return {
        "open the logbook": opening,
        "list all athletes": roster.athletes,
        "search athletes by a word": lambda: roster.athletes("frida 2"),
        "one athlete": lambda: roster.athlete(key),
        "athletes of a name": lambda: book.people.of_name("Frida Invented 205"),
        "list all tasks": roster.tasks,
        "search tasks by a word": lambda: roster.tasks("knee"),
        "one task": lambda: roster.task(shown.key),
        "latest 200 reps of an athlete": lambda: book.reps(
            athlete_code=code, limit=200
        ),
        "latest 200 reps of all": lambda: book.reps(limit=200),
        "the review's list": lambda: library.reps(athlete_code=code),
        "the 200 reps before those": lambda: book.reps(
            athlete_code=code, limit=200, older_than=last
        ),
        "latest sessions": book.sessions,
        "recordings that are known": book.recordings,
        "sets that were cut off": book.sets_not_closed,
        "all tests of an athlete": lambda: book.maxima.tests(key, TASK),
        "tests before another one": lambda: book.maxima.tests(key, TASK, Sides.BOTH),
        "the club's tests": lambda: book.maxima.club(TASK, Sides.BOTH, Definition.PEAK),
        "the last time of a set": lambda: book.days.last_time(
            key, Sides.LEFT, before=now, plan_id=plan.id, planned_key=planned
        ),
        "the last visit": lambda: book.days.last_visit(key, before=now),
        "how the criteria of a stage stand": lambda: planning.judged(plan, 0),
        "the day of an athlete": lambda: today.for_athlete(code),
        OPEN_REP: lambda: replay(recording, keep_blocks=True),
        **_page(roster),
        **_report(Reports(book), code),
    }


def _long_recording(folder: Path) -> Path:
    """Ten minutes of a set of one side, a frame for each sample as boards send them."""
    frames = list(recordings.read(RECORDED).frames())
    head = next(frame for frame in frames if isinstance(frame, Header))
    asked = dict(head.content["prescription"], reps=100)  # type: ignore[call-overload]  # JSON
    samples = [frame for frame in frames if isinstance(frame, Samples)]
    step_us = (samples[1].time_us - samples[0].time_us) % 2**32
    place = folder / "long.force"
    with place.open("wb") as file:
        file.write(encode(Header({**head.content, "prescription": asked})))
        for number in range(SET_S * 80):
            frame = samples[number % len(samples)]
            file.write(
                encode(
                    replace(
                        frame,
                        sequence=samples[0].sequence + number,
                        time_us=(samples[0].time_us + number * step_us) % 2**32,
                    )
                )
            )
    return place


def _report(reports: Reports, code: str) -> Questions:
    """A report on the busiest athlete, and one of its charts drawn again."""
    facts = reports.of(code)
    (trend, *_) = facts.trends
    # The same tests over again, day by day, until there are enough.
    copies = [
        replace(one, day=facts.first + timedelta(days=index))
        for index, one in enumerate(
            itertools.islice(itertools.cycle(trend.results), TREND_TESTS)
        )
    ]
    chart = chart_of_tests([replace(trend, results=tuple(copies))], facts.moves)
    image = QImage(1200, 400, QImage.Format.Format_RGB32)

    def redraw() -> None:
        painter = QPainter(image)
        paint(painter, QRectF(0, 0, 1200, 400), chart, DAY)
        painter.end()

    return {
        TELL: lambda: reports.of(code),
        REDRAW: redraw,
        REPORT: lambda: writing.paper(reports.of(code)).pdf(),
    }


def _page(roster: Roster) -> Questions:
    """The page of the athletes, drawn."""
    application()
    page = RosterPage(roster)
    page.setStyleSheet(style_sheet(DAY))
    page.resize(1280, 720)
    page.show()

    def fill() -> None:
        page.enter()
        page.grab()

    def letter() -> None:
        page.words.line.setText("fri" if page.words.text == "frid" else "frid")
        page.grab()

    def choose() -> None:
        rows = page.list.count()
        page.list.setCurrentRow((page.list.currentRow() + 1) % rows)
        page.grab()

    def clear() -> None:
        page.words.line.clear()
        QCoreApplication.processEvents()
        fill()

    return {
        "fill the page of the athletes": clear,
        "choose an athlete on it": choose,
        "a letter more in its search": letter,
    }


def measure(ask: Callable[[], object], seconds: float) -> tuple[float, float, int]:
    """Median and 99th percentile in ms, and how often it was asked."""
    ask()  # warm
    taken: list[float] = []
    until = time.perf_counter() + seconds
    while time.perf_counter() < until or len(taken) < 10:
        begun = time.perf_counter()
        ask()
        taken.append(1000 * (time.perf_counter() - begun))
    taken.sort()
    return statistics.median(taken), taken[int(0.99 * (len(taken) - 1))], len(taken)


def ways(book: Logbook, ask: Callable[[], object]) -> list[str]:
    """How SQLite looks for the rows of all that is asked, without repetitions."""
    found: dict[str, None] = {}
    raw = sqlite3.connect(book.place)

    def asked(*given: Any) -> None:
        _connection, _cursor, statement, parameters, *_ = given
        if statement.startswith("SELECT"):
            plan = raw.execute(f"EXPLAIN QUERY PLAN {statement}", parameters)
            found.update(dict.fromkeys(step[-1] for step in plan))

    sa.event.listen(book._engine, "before_cursor_execute", asked)
    try:
        ask()
    finally:
        sa.event.remove(book._engine, "before_cursor_execute", asked)
        raw.close()
    return list(found)


def run(options: argparse.Namespace, place: Path) -> dict[str, Any]:
    """Builds the logbook and asks all questions."""
    begun = time.perf_counter()
    with Logbook.open(place) as book:
        Club(options.athletes, options.reps).fill(book)
    built_s = time.perf_counter() - begun
    rows: list[dict[str, Any]] = []
    with Logbook.open(place) as book:
        with book._read() as connection:
            reps = connection.scalar(sa.select(sa.func.count(schema.reps.c.id)))
        for what, ask in questions(book, place).items():
            median_ms, p99_ms, times = measure(ask, options.seconds)
            row = {
                "what": what,
                "median_ms": round(median_ms, 2),
                "p99_ms": round(p99_ms, 2),
                "times": times,
                "limit_ms": LIMITS_MS.get(what, LIMIT_MS),
            }
            rows.append(row | ({"ways": ways(book, ask)} if options.plans else {}))
    return {
        "on": date.today().isoformat(),  # noqa: DTZ011  for the reader
        "athletes": options.athletes,
        "reps": reps,
        "built_s": round(built_s, 1),
        "size_mb": round(place.stat().st_size / 1e6, 1),
        "rows": rows,
    }


def main() -> None:
    """Prints the table, or JSON."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--athletes", type=int, default=500)
    parser.add_argument("--reps", type=int, default=200_000)
    parser.add_argument("--seconds", type=float, default=2.0, help="for each question")
    parser.add_argument("--plans", action="store_true", help="how rows are looked for")
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        found = run(options, Path(name) / "logbook.db")
    if options.json:
        sys.stdout.write(json.dumps(found) + "\n")
        return
    lines = [
        f"{found['athletes']} athletes, {found['reps']} reps, "
        f"{found['size_mb']:.0f} MB, built in {found['built_s']:.0f} s",
        f"{'':34s}{'median ms':>10s}{'p99 ms':>10s}{'times':>8s}",
    ]
    for row in found["rows"]:
        over = "  above the limit" if row["p99_ms"] > row["limit_ms"] else ""
        figures = f"{row['median_ms']:10.1f}{row['p99_ms']:10.1f}{row['times']:8d}"
        lines.append(f"{row['what']:34s}{figures}{over}")
        lines += [f"    {way}" for way in row.get("ways", ())]
    sys.stdout.write("\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
