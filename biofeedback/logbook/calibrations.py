"""Calibrations of rigs: dated and numbered records with their points.

Rules that hold here:

* A record belongs to one channel of one board, known by its serial number, at one
  gain of its ADC: at another gain the same force gives other counts.
* It is never changed; a newer calibration is another record with the next number.
* A calibration that was refused, or that names no board, is not kept.
* The newest is the one with the highest number, not the one with the latest date:
  a date is typed by people.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from biofeedback.conditioning.known_load import Reading
from biofeedback.conditioning.profile import CHANNELS_MAX, GAIN_MAX, Calibration
from biofeedback.errors import FieldError
from biofeedback.logbook import schema
from biofeedback.logbook.door import Door
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.moments import now_utc
from biofeedback.logbook.rows import plain
from biofeedback.measures.calibration_json import to_json
from biofeedback.phrase import phrase
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from biofeedback.measures.calibration_report import CalibrationReport

LABEL_MAX = 100
LATEST = "latest"
"""Stands for the newest record wherever a label is asked for."""
LIST_MAX = 1000


@dataclass(frozen=True, slots=True)
class CalibrationRow:
    """One record.

    Attributes:
        channel: from 0.
        number: of the record, for its board and channel, from 1.
        date: ISO date of the readings.
        adc: name of the ADC; empty where it was not told.
        gain: of the ADC; None where it has none.
        calibration: ready for a profile; carries label, date, ADC, gain and the
            uncertainty that was found.
        from_n: smallest force that was calibrated.
        report: all figures that were found.
    """

    id: str
    serial_number: str
    channel: int
    number: int
    label: str
    date: str
    adc: str
    gain: int | None
    calibration: Calibration
    from_n: float
    to_n: float
    report: Mapping[str, object]
    stored_utc: datetime


class Calibrations(Door):
    """What is kept of calibrations; got from `Logbook.calibrations`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.
    """

    def add(
        self,
        report: CalibrationReport,
        *,
        serial_number: str,
        channel: int,
        label: str = "",
        on_date: str = "",
        adc: str = "",
        gain: int | None = None,
    ) -> CalibrationRow:
        """Keeps a calibration and its points.

        Args:
            channel: from 0.
            label: name of the record; without one it is called by its number.
            on_date: ISO date of the readings; without one the day that it is here.
            adc: name of the ADC, as the board tells it.
            gain: of the ADC while the readings were taken; None where it has none.

        Raises:
            FieldError: it was refused, names no board, or the label is taken.
        """
        serial_number, label = serial_number.strip(), label.strip()
        _check(report, serial_number, channel, label)
        made_on = on_date or datetime.now(tz=UTC).astimezone().date().isoformat()
        _check_date(made_on)
        _check_adc(adc, gain)
        with self._write() as connection:
            number = _next_number(connection, serial_number, channel)
            label = label or f"no. {number}"
            if self._found(connection, serial_number, channel, label):
                raise FieldError(
                    "label",
                    phrase("“{label}” is in use for this cell already.", label=label),
                    phrase("Choose another label."),
                )
            key = _insert(
                connection,
                report,
                {
                    "serial_number": serial_number,
                    "channel": channel,
                    "number": number,
                    "label": label,
                    "date": made_on,
                    "adc": adc,
                    "gain": gain,
                },
            )
            (row,) = _rows(connection, schema.calibrations.c.id == key)
        return row

    def latest(self, serial_number: str, channel: int) -> CalibrationRow | None:
        """The newest record of a channel, or None."""
        return self.find(serial_number, channel, LATEST)

    def find(
        self, serial_number: str, channel: int, label: str
    ) -> CalibrationRow | None:
        """The record of this label, or the newest for `LATEST`; None for none."""
        with self._read() as connection:
            return self._found(connection, serial_number, channel, label)

    def fitting(
        self, serial_number: str, channel: int, gain: int | None, label: str = LATEST
    ) -> CalibrationRow | None:
        """The record to be used at a gain: the newest that was made at it.

        Where there is none it is the newest of all, so that the caller can say
        why it is not used; None where there is no record.
        """
        with self._read() as connection:
            at_gain = schema.calibrations.c.gain.is_not_distinct_from(gain)
            return self._found(
                connection, serial_number, channel, label, at_gain
            ) or self._found(connection, serial_number, channel, label)

    def list(self, serial_number: str | None = None) -> list[CalibrationRow]:
        """Records, newest first: of one board or of all."""
        wanted = (
            sa.true()
            if serial_number is None
            else schema.calibrations.c.serial_number == serial_number
        )
        with self._read() as connection:
            return _rows(connection, wanted)

    def readings(self, calibration_id: str) -> tuple[Reading, ...]:
        """The points of a record, in the order in which they were taken."""
        table = schema.calibration_points
        query = (
            sa.select(table.c.content)
            .where(table.c.calibration_id == calibration_id)
            .order_by(table.c.number)
        )
        with self._read() as connection:
            contents = connection.scalars(query).all()
        return tuple(Reading.from_json(Fields(content)) for content in contents)

    def _found(
        self,
        connection: sa.Connection,
        serial_number: str,
        channel: int,
        label: str,
        also: sa.ColumnElement[bool] | None = None,
    ) -> CalibrationRow | None:
        table = schema.calibrations
        wanted = sa.and_(
            table.c.serial_number == serial_number,
            table.c.channel == channel,
            sa.true() if also is None else also,
        )
        if label != LATEST:
            wanted = sa.and_(wanted, table.c.label == label)
        return next(iter(_rows(connection, wanted, limit=1)), None)


def _check(
    report: CalibrationReport, serial_number: str, channel: int, label: str
) -> None:
    if report.outcome.conversion is None:
        raise FieldError("calibration", phrase("was refused and is not kept."))
    if not serial_number or len(serial_number) > 100:
        raise FieldError(
            "serial_number",
            phrase("must name the board, with at most 100 characters."),
            phrase("A board without a serial number cannot be told from another."),
        )
    if not 0 <= channel < CHANNELS_MAX:
        raise FieldError(
            "channel", phrase("must be 1 to {channels_max}.", channels_max=CHANNELS_MAX)
        )
    if len(label) > LABEL_MAX or label == LATEST:
        raise FieldError(
            "label",
            phrase(
                "must have at most {label_max} characters and not be “{latest}”.",
                label_max=LABEL_MAX,
                latest=LATEST,
            ),
        )


def _check_date(text: str) -> None:
    try:
        good = date.fromisoformat(text).isoformat() == text
    except ValueError:
        good = False
    if not good:
        raise FieldError(
            "date",
            phrase("“{text}” must be a date such as 2026-11-30.", text=text[:20]),
        )


def _check_adc(adc: str, gain: int | None) -> None:
    if len(adc) > 100:
        raise FieldError("adc", phrase("must have at most 100 characters."))
    if gain is not None and not 1 <= gain <= GAIN_MAX:
        raise FieldError("gain", phrase("must be 1 to {gain_max}.", gain_max=GAIN_MAX))


def _next_number(connection: sa.Connection, serial_number: str, channel: int) -> int:
    table = schema.calibrations
    query = sa.select(sa.func.max(table.c.number)).where(
        table.c.serial_number == serial_number, table.c.channel == channel
    )
    return int(connection.scalar(query) or 0) + 1


def _insert(
    connection: sa.Connection, report: CalibrationReport, values: dict[str, object]
) -> str:
    conversion = report.outcome.conversion
    assert conversion is not None  # noqa: S101  checked before the transaction
    key = new_key()
    connection.execute(
        sa.insert(schema.calibrations).values(
            id=key,
            coefficients=list(conversion.calibration.coefficients),
            from_n=conversion.from_n,
            to_n=conversion.to_n,
            report=plain(to_json(report)),
            stored_utc=now_utc(),
            **values,
        )
    )
    points: Sequence[dict[str, object]] = [
        {
            "id": new_key(),
            "calibration_id": key,
            "number": number,
            "force_n": reading.load.force_n,
            "counts": reading.counts,
            "direction": reading.direction.value,
            "run": reading.run,
            "content": reading.to_json(),
        }
        for number, reading in enumerate(report.readings, start=1)
    ]
    connection.execute(sa.insert(schema.calibration_points), points)
    return key


def _rows(
    connection: sa.Connection,
    wanted: sa.ColumnElement[bool],
    *,
    limit: int = LIST_MAX,
) -> list[CalibrationRow]:
    """Newest first."""
    table = schema.calibrations
    query = (
        sa.select(table)
        .where(wanted)
        .order_by(table.c.number.desc(), table.c.id.desc())
        .limit(limit)
    )
    rows = []
    for values in connection.execute(query).mappings():
        columns = dict(values)
        calibration = Calibration(
            tuple(float(value) for value in columns.pop("coefficients")),
            columns["label"],
            columns["date"],
            columns["adc"],
            columns["gain"],
            _uncertainty(columns["report"]),
        )
        rows.append(CalibrationRow(calibration=calibration, **columns))
    return rows


def _uncertainty(report: Mapping[str, Any]) -> tuple[tuple[float, float], ...]:
    """What a record's report says of a shown force, as a profile carries it."""
    rows = report.get("uncertainty") or []
    return tuple((float(row["force_n"]), float(row["u_n"])) for row in rows)
