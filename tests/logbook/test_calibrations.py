"""Calibration records on real SQLite files."""

from __future__ import annotations

import gzip
import sqlite3
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import sqlalchemy as sa
from conditioning.calibration_examples import cell

from biofeedback.conditioning.known_load import KnownLoad, Reading
from biofeedback.errors import FieldError
from biofeedback.logbook.calibrations import LATEST
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.schema import SCHEMA_REVISION, calibrations
from biofeedback.measures.calibration_report import Asked, CalibrationReport, report

if TYPE_CHECKING:
    from collections.abc import Iterator

OLD = Path(__file__).parents[2] / "recordings" / "logbook-0001.db.gz"
"""A logbook as the program with the first tables wrote it; the person is invented."""


def calibrated(*, seed: int = 1, asked: Asked | None = None) -> CalibrationReport:
    readings = [
        Reading(
            KnownLoad(point.force_n, words="±0.1 %", mass_kg=point.force_n / 10),
            point.counts,
            point.direction,
            point.run,
            spread_counts=20.0,
            others_counts=(5.0,),
        )
        for point in cell(seed=seed)
    ]
    return report(readings, asked)


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Logbook]:
    with Logbook.open(tmp_path / "logbook.db") as opened:
        yield opened


def test_a_record_at_the_gain_goes_before_a_newer_one_at_another(
    book: Logbook,
) -> None:
    for label, gain in (("a", 128), ("b", 128), ("c", 64)):
        book.calibrations.add(
            calibrated(),
            serial_number="SN-1",
            channel=0,
            label=label,
            adc="HX711",
            gain=gain,
        )

    def label_at(gain: int | None, label: str = LATEST) -> str:
        found = book.calibrations.fitting("SN-1", 0, gain, label)
        assert found is not None
        return found.label

    assert label_at(128) == "b"
    assert label_at(64) == "c"
    assert label_at(128, "a") == "a"
    # Nothing fits: the newest is told, and does not fit.
    assert label_at(32) == label_at(None) == "c"
    newest = book.calibrations.latest("SN-1", 0)
    assert newest is not None
    assert (newest.adc, newest.gain) == ("HX711", 64)
    assert newest.calibration.fits("HX711", 64)
    assert not newest.calibration.fits("HX711", 128)
    assert not newest.calibration.fits("ADS131M02", 64)
    assert book.calibrations.fitting("SN-2", 0, 64) is None


def test_a_record_carries_the_uncertainty_that_was_found(book: Logbook) -> None:
    found = calibrated()
    row = book.calibrations.add(found, serial_number="SN-1", channel=0)
    assert row.calibration.uncertainty == tuple(
        (each.force_n, each.budget.u) for each in found.uncertainties
    )
    assert len(row.calibration.uncertainty) > 2


def test_a_record_comes_back_with_its_points(book: Logbook) -> None:
    found = calibrated()
    row = book.calibrations.add(found, serial_number="SN-1", channel=1, label="May")
    assert (row.number, row.label, row.channel) == (1, "May", 1)
    assert found.outcome.conversion is not None
    kept = book.calibrations.latest("SN-1", 1)
    assert kept == row
    assert kept.calibration.coefficients == pytest.approx(
        found.outcome.conversion.calibration.coefficients, rel=0, abs=0
    )
    assert kept.calibration.label == "May"
    assert kept.calibration.date == kept.date
    assert kept.to_n == 200
    assert book.calibrations.readings(row.id) == found.readings
    assert kept.report["degree"] == 1


def test_numbers_run_for_each_rig_and_channel(book: Logbook) -> None:
    add = book.calibrations.add
    places = [("SN-1", 0), ("SN-1", 0), ("SN-1", 1), ("SN-2", 0), ("SN-1", 0)]
    numbers = [
        add(calibrated(seed=i), serial_number=rig, channel=channel).number
        for i, (rig, channel) in enumerate(places)
    ]
    assert numbers == [1, 2, 1, 1, 3]
    latest = book.calibrations.latest("SN-1", 0)
    assert latest is not None
    assert (latest.number, latest.label) == (3, "no. 3")
    assert len(book.calibrations.list("SN-1")) == 4
    assert len(book.calibrations.list()) == 5


def test_the_newest_is_the_last_one_kept_whatever_its_date(book: Logbook) -> None:
    for label, day in (("new", "2026-05-01"), ("old", "2020-01-01")):
        book.calibrations.add(
            calibrated(), serial_number="SN-1", channel=0, label=label, on_date=day
        )
    latest = book.calibrations.latest("SN-1", 0)
    assert latest is not None
    assert latest.label == "old"
    by_name = book.calibrations.find("SN-1", 0, "new")
    assert by_name is not None
    assert by_name.date == "2026-05-01"
    assert book.calibrations.find("SN-1", 0, "other") is None


def test_without_a_date_it_is_of_the_day_that_it_is_here(
    book: Logbook, utc_day: str
) -> None:
    kept = book.calibrations.add(calibrated(), serial_number="SN-1", channel=0)
    assert kept.date == datetime.now(tz=UTC).astimezone().date().isoformat()
    assert kept.date != utc_day


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"serial_number": "  "}, "serial_number: must name the board"),
        ({"channel": 4}, "channel"),
        ({"label": "latest"}, "label"),
        ({"label": "x" * 101}, "label"),
        ({"on_date": "1 May"}, "date: “1 May” must be a date"),
        ({"on_date": "20260501"}, "date"),
        ({"label": "taken"}, "“taken” is in use"),
    ],
)
def test_what_does_not_fit_is_refused_and_nothing_is_written(
    book: Logbook, change: dict[str, object], words: str
) -> None:
    book.calibrations.add(calibrated(), serial_number="SN-1", channel=0, label="taken")
    values: dict[str, object] = {"serial_number": "SN-1", "channel": 0, **change}
    with pytest.raises(FieldError, match=words):
        book.calibrations.add(calibrated(), **values)  # type: ignore[arg-type]  # by name
    assert len(book.calibrations.list()) == 1


def test_a_refused_calibration_is_not_kept(book: Logbook) -> None:
    refused = calibrated(asked=Asked(intended_n=100_000.0))
    assert refused.outcome.refused
    with pytest.raises(FieldError, match="was refused and is not kept"):
        book.calibrations.add(refused, serial_number="SN-1", channel=0)
    assert book.calibrations.list() == []


def test_the_tables_do_not_take_a_number_twice(book: Logbook) -> None:
    book.calibrations.add(calibrated(), serial_number="SN-1", channel=0)
    with book._read() as connection:
        row = dict(connection.execute(sa.select(calibrations)).mappings().one())
    again = sa.insert(calibrations).values(row | {"id": "another"})
    with pytest.raises(sa.exc.IntegrityError), book._write() as connection:
        connection.execute(again)


def test_a_logbook_of_the_first_tables_keeps_all_it_has(tmp_path: Path) -> None:
    place = tmp_path / "old.db"
    place.write_bytes(gzip.decompress(OLD.read_bytes()))
    before = everything(place)
    assert "calibrations" not in before
    with Logbook.open(place) as book:
        (second, first) = book.reps()
        assert (first.number, first.peak_n, first.void_reason) == (1, 101.0, None)
        assert second.void_reason == "cable touched"
        row = book.calibrations.add(calibrated(), serial_number="SN-1", channel=0)
        assert book.calibrations.latest("SN-1", 0) == row
    after = everything(place)
    assert after.pop("alembic_version") == [(SCHEMA_REVISION,)]
    before.pop("alembic_version")
    assert {name: as_wide(after[name], before[name]) for name in before} == before
    assert {"calibrations", "calibration_points"} <= set(after) - set(before)
    raw = sqlite3.connect(place)
    assert raw.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    raw.close()


def as_wide(
    rows: list[tuple[object, ...]], before: list[tuple[object, ...]]
) -> list[tuple[object, ...]]:
    """Rows without the columns that were added at their end, which are empty."""
    wide = len(before[0]) if before else 0
    assert all(value is None for row in rows for value in row[wide:])
    return [row[:wide] for row in rows]


def everything(place: Path) -> dict[str, list[tuple[object, ...]]]:
    """All rows of all tables."""
    raw = sqlite3.connect(place)
    names = raw.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
    rows = {
        name: raw.execute(f"SELECT * FROM {name} ORDER BY 1").fetchall()  # noqa: S608  names of our own tables
        for (name,) in names.fetchall()
    }
    raw.close()
    return rows
