"""A logbook of 500 athletes and 200,000 reps: how long lists and searches take.

Builds it once in a temporary folder, then asks each question many times.

    python tests/bench/large_logbook.py [--athletes 500] [--reps 200000] [--json]
"""

from __future__ import annotations

import argparse
import json
import statistics
import tempfile
import time
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import sqlalchemy as sa

from biofeedback.logbook import schema
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.keys import new_key
from biofeedback.session.review import Library
from biofeedback.session.roster import Roster
from biofeedback.session.today import Today
from biofeedback.training.example_plans import SHOULDER
from biofeedback.training.reference import Definition
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Callable

YEARS = 5
REPS_A_SET = 10
SETS_A_SESSION = 4
NAMES = ("Arvid", "Björk", "Cleo", "Dace", "Émile", "Frida", "Goran", "Hedda")
LIMIT_MS = 100.0


def build(book: Logbook, athletes: int, reps: int) -> None:
    """Fills an empty logbook with invented people and what they did."""
    chance = np.random.default_rng(1)
    sessions_each = max(1, round(reps / (athletes * REPS_A_SET * SETS_A_SESSION)))
    first = datetime(2021, 1, 4, 9, tzinfo=UTC)
    task = {"name": "Seated calf", "kind": "hold", "sides": "both"}
    rows: dict[str, list[dict[str, object]]] = {
        name: []
        for name in (
            "athletes", "body_masses", "sessions", "sets", "reps", "maximal_tests",
            "notes",
        )
    }  # fmt: skip
    for number in range(athletes):
        athlete = new_key()
        name = f"{NAMES[number % len(NAMES)]} Invented {number}"
        rows["athletes"].append(
            {"id": athlete, "code": f"A-{number:04d}", "name": name, "added_utc": first}
        )
        rows["body_masses"].append(
            {
                "id": new_key(),
                "athlete_id": athlete,
                "mass_kg": 60.0 + number % 40,
                "date": "2021-01-04",
                "stored_utc": first,
            }
        )
        for visit in range(sessions_each):
            started = first + timedelta(
                days=visit * YEARS * 365 / sessions_each, minutes=number
            )
            _visit(rows, athlete, started, task, chance)
    with book._write() as connection:
        for name, values in rows.items():
            for start in range(0, len(values), 5000):
                connection.execute(
                    sa.insert(schema.metadata.tables[name]),
                    values[start : start + 5000],
                )
    book.tasks.start()
    for person in book.people.search()[:50]:
        book.plans.add(person.id, SHOULDER)


def _visit(
    rows: dict[str, list[dict[str, object]]],
    athlete: str,
    started: datetime,
    task: dict[str, str],
    chance: np.random.Generator,
) -> None:
    session = new_key()
    rows["sessions"].append(
        {"id": session, "athlete_id": athlete, "started_utc": started}
    )
    rows["notes"].append(
        {
            "id": new_key(),
            "session_id": session,
            "kind": "pain",
            "content": {"level": int(chance.integers(0, 4))},
            "at_utc": started,
        }
    )
    rows["maximal_tests"].append(
        {
            "id": new_key(),
            "athlete_id": athlete,
            "session_id": session,
            "task": task["name"],
            "sides": "both",
            "tested_utc": started,
            "definition": "peak",
            "force_n": float(chance.normal(400, 20)),
            "peak_n": 400.0,
            "trials": 3,
            "practice": False,
            "content": {},
            "stored_utc": started,
        }
    )
    for _ in range(SETS_A_SESSION):
        set_id = new_key()
        rows["sets"].append(
            {
                "id": set_id,
                "session_id": session,
                "task": task["name"],
                "prescription": {"task": task, "feedback": "full"},
                "profile": {"name": "bench"},
                "recording": f"{set_id}.force",
                "started_utc": started,
                "closed_utc": started,
                "recovered": False,
                "sides": "both",
            }
        )
        rows["reps"] += [
            _rep(set_id, n + 1, started, chance) for n in range(REPS_A_SET)
        ]


def _rep(
    set_id: str, number: int, started: datetime, chance: np.random.Generator
) -> dict[str, object]:
    measures = {
        "peak_n": float(chance.normal(120, 5)),
        "mean_n": float(chance.normal(110, 5)),
        "cv_pct": 2.1,
        "rmse_n": 3.3,
        "impulse_ns": 1100.0,
        "left_share_pct": 50.4,
        "below_s": 0.4,
        "inside_s": 9.1,
        "above_s": 0.5,
    }
    return {
        "id": new_key(),
        "set_id": set_id,
        "number": number,
        "outcome": "complete",
        "feedback": "full",
        "start_s": 20.0 * number,
        "end_s": 20.0 * number + 11,
        "lapses": 0,
        "measures": {**measures, **{f"more_{n}": n * 1.1 for n in range(30)}},
        "stored_utc": started,
        **measures,
    }


def questions(book: Logbook, folder: Path) -> dict[str, Callable[[], object]]:
    """What the program asks, by what it is for."""
    roster, library, today = Roster(book), Library(book, folder), Today(book)
    (middle,) = book.people.search("A-0250")[:1] or book.people.search()[:1]
    code, key = middle.details.code, middle.id
    plan = book.plans.add(key, SHOULDER)
    since = datetime.now(tz=UTC) - timedelta(weeks=4)
    return {
        "list all athletes": roster.athletes,
        "search athletes by a word": lambda: roster.athletes("frida 2"),
        "list all tasks": roster.tasks,
        "search tasks by a word": lambda: roster.tasks("knee"),
        "latest 200 reps of an athlete": lambda: library.reps(athlete_code=code),
        "best test of the last weeks": lambda: book.maxima.best(
            key, "Seated calf", Sides.BOTH, since=since
        ),
        "all tests of an athlete": lambda: book.maxima.tests(key, "Seated calf"),
        "the club's tests": lambda: book.maxima.club(
            "Seated calf", Sides.BOTH, Definition.PEAK
        ),
        "what was done in a stage": lambda: book.plans.sessions(plan, 0),
        "the day of an athlete": lambda: today.for_athlete(code),
    }


def measure(
    ask: Callable[[], object], seconds: float = 2.0
) -> tuple[float, float, int]:
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


def main() -> None:
    """Prints the table, or JSON."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--athletes", type=int, default=500)
    parser.add_argument("--reps", type=int, default=200_000)
    parser.add_argument("--json", action="store_true")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as name:
        place = Path(name) / "logbook.db"
        begun = time.perf_counter()
        with Logbook.open(place) as book:
            build(book, options.athletes, options.reps)
        built_s = time.perf_counter() - begun
        size_mb = place.stat().st_size / 1e6
        rows: list[dict[str, Any]] = []
        begun = time.perf_counter()
        with Logbook.open(place) as book:
            opened_ms = 1000 * (time.perf_counter() - begun)
            for what, ask in questions(book, Path(name)).items():
                median_ms, p99_ms, times = measure(ask)
                rows.append(
                    {"what": what, "median_ms": round(median_ms, 2),
                     "p99_ms": round(p99_ms, 2), "times": times}
                )  # fmt: skip
    found = {
        "on": date.today().isoformat(),  # noqa: DTZ011  for the reader
        "built_s": round(built_s, 1),
        "size_mb": round(size_mb, 1),
        "opened_ms": round(opened_ms, 1),
        "limit_ms": LIMIT_MS,
        "rows": rows,
    }
    if options.json:
        print(json.dumps(found))
        return
    print(f"built in {built_s:.0f} s, {size_mb:.0f} MB, opened in {opened_ms:.0f} ms")
    print(f"{'':34s}{'median ms':>10s}{'p99 ms':>10s}")
    for row in rows:
        over = "  above the limit" if row["p99_ms"] > LIMIT_MS else ""
        print(f"{row['what']:34s}{row['median_ms']:10.1f}{row['p99_ms']:10.1f}{over}")


if __name__ == "__main__":
    main()
