"""A whole visit as it is used, from the day's pain to the next date, and its logbook.

Three tasks, both sides, eleven reps; nudges with reasons, an undo, a rep repeated and
one skipped, a stop for pain, a lapse, a cable pulled and put back, and the program
killed in the middle of a rep and started again. The real window is driven by keys and
clicks on the simulated rig at the end of a pseudo-terminal; see `whole_day`. What must
come of it is worked out a second time in `known_force`, and read with plain SQL and
with `biofeedback replay`.
"""

from __future__ import annotations

import json
import os
import signal
import sqlite3
import subprocess
import sys
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest
from gui import known_force, whole_day
from gui.whole_day import CALF, HOLD_S, LOWERING, OUTWARD, REFERENCES_N, Hand

from biofeedback.logbook import recordings
from biofeedback.rig.simulated_adc import calibration
from biofeedback.wire.frames import Samples

if TYPE_CHECKING:
    from collections.abc import Sequence

    from gui.known_force import Expected


pytestmark = [
    pytest.mark.slow,
    pytest.mark.timeout(300),
    pytest.mark.skipif(
        not hasattr(os, "openpty"), reason="this system has no pseudo-terminals"
    ),
]

ROOT = Path(__file__).resolve().parents[2]
START_MOST_S = 240
FINE_S = 0.002
"""Times may differ by this much: steps of the second computation, noise of the rig."""
NOISE_N = 0.2
"""Six standard deviations of the simulated noise."""
SETS = (
    (OUTWARD.name, "left"),
    (OUTWARD.name, "right"),
    (CALF.name, "both"),
    (LOWERING.name, "left"),  # killed
    (LOWERING.name, "left"),
    (LOWERING.name, "right"),
)
KILLED = 3
BANDS: tuple[tuple[tuple[float, float], ...], ...] = (
    ((40, 60), (41.5, 61.5), (40.5, 62.5), (41.5, 61.5)),
    ((48, 72),),
    ((76.8, 115.2), (73.8, 112.2)),
    ((80, np.inf),),
    ((80, np.inf),),
    ((90, np.inf),),
)
"""In force one after the other: from 50, 40 and 50 % of the references, and the step
that stands on the nudge keys."""
CHANGES = (
    (0, "band", "PgUp", "stronger today"),
    (0, "band", "Ctrl+PgUp", "set-up changed"),
    (0, "band", "Alt+Z", "undone"),
    (0, "reps", "Alt+O", "rep repeated"),
    (2, "band", "PgDown", "weaker today"),
    (2, "reps", "Alt+J", "rep skipped"),
    (KILLED, "reps", "Alt+Shift+X", ""),
)
REPS = {"Alt+O": [2, 3], "Alt+J": [3, 2], "Alt+Shift+X": [2, 1]}
OUTCOMES = (3 * ["complete"], ["stopped"], 2 * ["complete"], ["complete", "stopped"],
            ["complete"], 2 * ["complete"])  # fmt: skip


@dataclass(frozen=True, slots=True)
class Told:
    """What the one who did the day wrote down."""

    hand: Hand
    pressed: list[tuple[float, str]]
    begun_s: list[float]

    @classmethod
    def read(cls, place: Path) -> Told:
        content = json.loads(place.read_text())
        hand = Hand()
        hand.points = [tuple(point) for point in content["points"]]
        return cls(hand, content["pressed"], content["begun_s"])

    def when(self, key: str) -> float:
        (found,) = [at_s for at_s, pressed in self.pressed if pressed == key]
        return found


@dataclass(frozen=True, slots=True)
class Day:
    """All that was left behind by the visit."""

    folder: Path
    before: Told  # the crash
    after: Told
    page: tuple[tuple[str, ...], ...]

    def rows(self, query: str, *values: object) -> list[tuple[Any, ...]]:
        reader = sqlite3.connect(self.folder / "logbook.db")
        try:
            return reader.execute(query, values).fetchall()
        finally:
            reader.close()

    @property
    def files(self) -> list[Path]:
        found = self.rows("SELECT recording FROM sets ORDER BY started_utc, id")
        return [self.folder / "recordings" / name for (name,) in found]

    def notes(self, kind: str) -> list[dict[str, Any]]:
        found = self.rows("SELECT kind, content FROM notes ORDER BY at_utc, id")
        return [json.loads(content) for told, content in found if told == kind]

    def told(self, number: int) -> tuple[Told, float]:
        """Who did a set, and when the board said it began."""
        first = number <= KILLED
        told = self.before if first else self.after
        return told, told.begun_s[number if first else number - KILLED - 1]


def done_in_the_morning(folder: Path) -> None:
    """Another process does it and is killed in the middle of a rep."""
    paths = os.pathsep.join([str(ROOT), os.environ.get("PYTHONPATH", "")])
    home = {"HOME": str(folder), "XDG_DATA_HOME": str(folder / "data")}
    child = subprocess.Popen(  # noqa: S603  our own words, no one else's
        [sys.executable, whole_day.__file__, str(folder)],
        env={**os.environ, **home, "PYTHONPATH": paths},
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        assert child.stdout is not None
        assert child.stdout.readline().strip() == whole_day.MID_REP
    finally:
        child.kill()
        child.communicate(timeout=START_MOST_S)
    assert child.returncode == -signal.SIGKILL


@pytest.fixture(scope="module")
def day(tmp_path_factory: pytest.TempPathFactory, qapp: object) -> Day:
    """The visit, once for all tests."""
    assert qapp
    folder = tmp_path_factory.mktemp("whole-day")
    done_in_the_morning(folder)
    again = whole_day.WholeDay(folder)
    whole_day.afternoon(again)
    again.tell(folder / "after.json")
    page = again.window.mounted.end.lines.rows
    again.close()
    before = Told.read(folder / whole_day.FACTS)
    return Day(folder, before, Told.read(folder / "after.json"), page)


@pytest.fixture(scope="module")
def replayed(day: Day) -> list[dict[str, Any]]:
    """What `biofeedback replay --json` says of the recordings."""
    run = subprocess.run(  # noqa: S603  our own words, no one else's
        [sys.executable, "-m", "biofeedback", "replay", "--json", *map(str, day.files)],
        capture_output=True,
        text=True,
        check=True,
    )
    return [json.loads(line) for line in run.stdout.splitlines()]


# ------------------------------------------------------------------ what must be


@dataclass(frozen=True, slots=True)
class Set:
    """A recording beside the force that is known."""

    time_s: known_force.Numbers
    force_n: known_force.Numbers
    recorded_n: known_force.Numbers
    starts_s: float


def side_of(sides: str, force_n: known_force.Numbers) -> known_force.Numbers:
    both = {"left": [1.0, 0.0], "right": [0.0, 1.0], "both": [1.0, 1.0]}
    found: known_force.Numbers = force_n @ np.array(both[sides])
    return found


def the_set(day: Day, number: int) -> Set:
    told, _ = day.told(number)
    times, counts = [], []
    for frame in recordings.read(day.files[number]).frames():
        if isinstance(frame, Samples):
            steps = np.arange(len(frame.counts)) * frame.step_us
            times.append(frame.time_us + steps)
            counts.append(frame.counts)
    time_s = np.concatenate(times) / 1e6
    lines = [calibration(channel, gain=128).coefficients for channel in (0, 1)]
    offsets_n, slopes = np.array(lines).T
    recorded_n = offsets_n + slopes * np.concatenate(counts)
    sides = SETS[number][1]
    return Set(
        time_s - time_s[0],
        side_of(sides, told.hand.at(time_s)),
        side_of(sides, recorded_n),
        float(time_s[0]),
    )


def band_changes(day: Day, number: int) -> list[float]:
    """When the bands of a set came into force, in seconds of the set."""
    told, _ = day.told(number)
    starts_s = the_set(day, number).starts_s
    keys = [key for at, what, key, _ in CHANGES if (at, what) == (number, "band")]
    return [told.when(key) - starts_s for key in keys]


def expected(day: Day, number: int) -> list[Expected]:
    found = the_set(day, number)
    changes = [0.0, *band_changes(day, number)]

    def band_at(time_s: float) -> tuple[float, float]:
        at = max(i for i, since_s in enumerate(changes) if since_s <= max(0.0, time_s))
        return BANDS[number][at]

    running = SETS[number][0] == LOWERING.name
    return known_force.reps_of(
        found.time_s, found.force_n, band_at, hold_s=HOLD_S, running=running
    )


def dose(reps: Sequence[Expected], number: int) -> float:
    name, sides = SETS[number]
    (reference_n,) = [
        force_n
        for (task, side), force_n in REFERENCES_N.items()
        if (task, side.value) == (name, sides)
    ]
    return sum(rep.impulse_ns for rep in reps) / reference_n * 100


# ------------------------------------------------------------------ what there is


def test_one_visit_of_six_sets_and_eleven_reps(day: Day) -> None:
    assert day.rows("SELECT count(*) FROM sessions") == [(1,)]
    assert day.rows("SELECT code FROM athletes") == [(whole_day.CODE,)]
    rows = day.rows(
        "SELECT task, sides, recovered, closed_utc IS NOT NULL FROM sets "
        "ORDER BY started_utc, id"
    )
    assert [row[:2] for row in rows] == list(SETS)
    assert [row[2] for row in rows] == [number == KILLED for number in range(6)]
    assert all(row[3] for row in rows)
    reps = day.rows(
        "SELECT reps.number, outcome FROM reps JOIN sets ON sets.id = set_id "
        "ORDER BY started_utc, sets.id, reps.number"
    )
    numbered = [pair for outcomes in OUTCOMES for pair in enumerate(outcomes, start=1)]
    assert reps == numbered
    assert len(reps) == 11


@pytest.mark.parametrize("number", range(6))
def test_what_is_recorded_is_the_force_that_pulled(day: Day, number: int) -> None:
    found = the_set(day, number)
    assert np.abs(found.recorded_n - found.force_n).max() < NOISE_N
    _, begun_s = day.told(number)
    frame_s = whole_day.STEP_US / 1e6
    assert begun_s - frame_s <= found.starts_s <= begun_s
    gaps = np.count_nonzero(np.diff(found.time_s) > 1.5 / known_force.RATE_HZ)
    assert gaps == (number == 2)


@pytest.mark.parametrize("number", range(6))
def test_each_rep_is_as_worked_out_from_the_force(
    day: Day, replayed: list[dict[str, Any]], number: int
) -> None:
    wanted = expected(day, number)
    stored = day.rows(
        "SELECT outcome, start_s, end_s, below_s, inside_s, above_s, lapses, peak_n, "
        "impulse_ns, measures FROM reps WHERE set_id = (SELECT id FROM sets "
        "ORDER BY started_utc, id LIMIT 1 OFFSET ?) ORDER BY number",
        number,
    )
    assert [rep.outcome for rep in wanted] == OUTCOMES[number]
    for want, row in zip(wanted, stored, strict=True):
        measures = json.loads(row[-1])
        seconds = (want.seconds["below"], want.seconds["inside"], want.seconds["above"])
        assert row[0] == want.outcome
        assert row[1:6] == pytest.approx(
            (want.start_s, want.end_s, *seconds), abs=FINE_S
        )
        assert row[6] == want.lapses
        assert row[7] == pytest.approx(want.peak_n, abs=NOISE_N)
        assert row[8] == pytest.approx(want.impulse_ns, rel=0.002)
        assert measures["hold_end_s"] == pytest.approx(want.hold_end_s, abs=FINE_S)
        assert measures["gaps"] == want.gaps
    again = replayed[number]
    assert again["same_as_stored"]
    assert again["recovered"] is (number == KILLED)
    assert again["damaged"] == again["misfits"] == 0
    for rep, row in zip(again["reps"], stored, strict=True):
        assert rep == json.loads(row[-1])


def test_the_lapse_and_the_gap_are_where_they_were_made(day: Day) -> None:
    first, second = expected(day, 2)
    assert (first.lapses, first.gaps) == (1, 0)
    assert (second.lapses, second.gaps) == (0, 1)
    lost = sum(len(found.time_s) for found in [the_set(day, 2)])
    through_s = the_set(day, 2).time_s[-1]
    missing = round(through_s * known_force.RATE_HZ) + 1 - lost
    (totals,) = day.rows(
        "SELECT totals FROM sets ORDER BY started_utc, id LIMIT 1 OFFSET 2"
    )
    assert json.loads(totals[0])["lost"] == missing > 0


@pytest.mark.parametrize("number", range(6))
def test_each_band_is_in_force_when_its_key_was_pressed(
    day: Day, replayed: list[dict[str, Any]], number: int
) -> None:
    bands = replayed[number]["bands"]
    edges = [(one["lower_n"], one["upper_n"] or np.inf) for one in bands]
    assert edges == [pytest.approx(band) for band in BANDS[number]]
    since = [one["time_s"] for one in bands]
    sample_s = 1 / known_force.RATE_HZ
    for pressed_s, in_force_s in zip(band_changes(day, number), since[1:], strict=True):
        assert -1e-6 <= in_force_s - pressed_s <= sample_s + 1e-6


def test_each_change_is_kept_with_old_new_and_reason(day: Day) -> None:
    told = day.notes("change")
    given = {
        key: note["reason"]
        for note in told
        if note["what"] == "reason"
        for key in note["of"]
    }
    changes = [note for note in told if note["what"] != "reason"]
    sets = [row[0] for row in day.rows("SELECT id FROM sets ORDER BY started_utc, id")]
    found = [
        (
            sets.index(note["set_id"]),
            note["what"],
            note["reason"] or given.get(note["id"], ""),
        )
        for note in changes
    ]
    assert found == [(at, what, reason) for at, what, _, reason in CHANGES]
    bands = {at: iter(zip(BANDS[at], BANDS[at][1:], strict=False)) for at in (0, 2)}
    for note, (at, what, key, _) in zip(changes, CHANGES, strict=True):
        if what == "reps":
            assert [note["old"], note["new"]] == REPS[key]
            continue
        old, new = next(bands[at])
        assert tuple(note["old"].values()) == pytest.approx(old)
        assert tuple(note["new"].values()) == pytest.approx(new)


def test_pain_and_effort_are_kept_with_their_sets(
    day: Day, replayed: list[dict[str, Any]]
) -> None:
    sets = [row[0] for row in day.rows("SELECT id FROM sets ORDER BY started_utc, id")]
    assert day.rows("SELECT pain_now FROM day_reports") == [(1,)]
    (pain,) = day.notes("pain")
    assert pain == {"level": 7, "when": "during", "set_id": sets[1]}
    at_s = day.before.when("Ctrl+7") - the_set(day, 1).starts_s
    (mark,) = [mark for one in replayed for mark in one["marks"]]
    assert (mark["kind"], mark["level"]) == ("pain", 7)
    assert mark["time_s"] == pytest.approx(at_s, abs=2 / known_force.RATE_HZ)
    efforts = day.rows(
        "SELECT set_id, content FROM notes WHERE kind = 'effort' ORDER BY at_utc, id"
    )
    assert [(one, json.loads(content)["level"]) for one, content in efforts] == [
        (sets[number], level)
        for number, level in ((0, 6), (1, 8), (2, 5), (4, 4), (5, 5))
    ]


def test_the_end_page_sets_what_was_done_beside_what_was_planned(day: Day) -> None:
    (summary,) = day.notes("summary")
    local = datetime.now(tz=UTC).astimezone().date()
    assert summary["next_date"] == (local + timedelta(days=2)).isoformat()
    assert summary["highest_pain"] == 7
    assert summary["signal"]["reps"] == 11
    assert summary["signal"]["gaps"] == summary["signal"]["recovered"] == 1
    lines = ((0,), (1,), (2,), (3, 4), (5,))
    planned = {OUTWARD.name: (2, 50), CALF.name: (3, 40), LOWERING.name: (2, 50)}
    for line, row, numbers in zip(summary["lines"], day.page, lines, strict=True):
        name, _ = SETS[numbers[0]]
        reps, centre_pct = planned[name]
        asked_s = reps * HOLD_S
        assert line["planned"] == {
            "sets": 1,
            "reps": reps,
            "inside_s": asked_s,
            "dose_pct_s": pytest.approx(asked_s * centre_pct),
        }
        judged = [rep for number in numbers for rep in expected(day, number)]
        complete = sum(rep.outcome == "complete" for rep in judged)
        inside_s = sum(rep.seconds["inside"] for rep in judged)
        dose_pct_s = sum(dose(expected(day, number), number) for number in numbers)
        assert line["done"] == {
            "sets": len(numbers),
            "reps": complete,
            "inside_s": pytest.approx(inside_s, abs=len(judged) * FINE_S),
            "dose_pct_s": pytest.approx(dose_pct_s, rel=0.002),
        }
        assert line["not_complete"] == len(judged) - complete
        assert row[1:5] == (
            f"{len(numbers)} of 1"
            if len(numbers) <= 1
            else f"{len(numbers)}; planned 1",
            f"{complete} of {reps}"
            if complete <= reps
            else f"{complete}; planned {reps}",
            f"{round(line['done']['inside_s'], 1):g} of {asked_s:g}",
            f"{line['done']['dose_pct_s']:.0f} of {asked_s * centre_pct:.0f}",
        )
