"""Which filter a rig was given, when, by whom and why: a history beside the logbook.

One JSON object a line (JSON Lines, UTF-8), in the order in which it was done; nothing
is ever changed or taken out. The newest line of a board and a sample rate is the
filter in force; a board without a line has the one it always had. To put a filter
back is a line too. A line that cannot be read is passed over and told.

Recordings carry their own filter in their header and do not look here.
"""

from __future__ import annotations

import json
import os
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from biofeedback.conditioning.profile import RATE_MAX_HZ, FilterChoice
from biofeedback.errors import FieldError, FileError
from biofeedback.logbook import folders
from biofeedback.phrase import phrase
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

FILE_NAME = "filters.jsonl"
VERSION = 1
BYTES_MAX = 20_000_000
"""Many thousand choices; a longer file was not written by this program."""
RECORDINGS_MAX = 10_000
NAME_MOST = 200
SAME_RATE = 0.05
"""Settings belong to a sample rate; clocks of boards differ by some per cent."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FilterEntry:
    """One choice.

    Attributes:
        at_utc: ISO time.
        by: who chose.
        serial_number: of the board.
        rate_hz: sample rate that the filter is for.
        old, new: the filter before and after.
        old_delay_s, new_delay_s: their delays at DC.
        recordings: names of the files that the choice rests on.
        rule: what was asked of the filter, in words.
        figures: what the bench measured of `new`, as plain JSON values.
        put_back: whether it takes back the choice before.
    """

    at_utc: str
    by: str
    serial_number: str
    rate_hz: float
    old: FilterChoice
    new: FilterChoice
    old_delay_s: float
    new_delay_s: float
    recordings: tuple[str, ...] = ()
    rule: str = ""
    figures: Mapping[str, object] = field(default_factory=dict)
    put_back: bool = False

    def __post_init__(self) -> None:
        if not self.by.strip():
            raise FieldError("by", phrase("say who chooses the filter."))
        if not self.serial_number:
            raise FieldError(
                "serial_number",
                phrase("this board has none, so no filter can be kept for it."),
            )

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "version": VERSION,
            "at_utc": self.at_utc,
            "by": self.by,
            "serial_number": self.serial_number,
            "rate_hz": self.rate_hz,
            "old": self.old.to_json(),
            "new": self.new.to_json(),
            "old_delay_s": self.old_delay_s,
            "new_delay_s": self.new_delay_s,
            "recordings": list(self.recordings),
            "rule": self.rule,
            "figures": dict(self.figures),
            "put_back": self.put_back,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> FilterEntry:
        """Checks and reads what `to_json` wrote.

        Raises:
            FieldError: names the field that does not fit.
        """
        version = fields.whole("version", least=1, most=10_000)
        if version > VERSION:
            raise FieldError(
                fields.path("version"),
                phrase(
                    "is {version}, and this program knows {version_2}.",
                    version=version,
                    version_2=VERSION,
                ),
            )
        return cls(
            at_utc=fields.text("at_utc", longest=40),
            by=fields.text("by", longest=NAME_MOST),
            serial_number=fields.text("serial_number", longest=100),
            rate_hz=fields.number("rate_hz", least=0.1, most=RATE_MAX_HZ),
            old=FilterChoice.from_json(fields.inner("old")),
            new=FilterChoice.from_json(fields.inner("new")),
            old_delay_s=fields.number("old_delay_s", least=-1, most=60),
            new_delay_s=fields.number("new_delay_s", least=-1, most=60),
            recordings=tuple(
                str(name) for name in fields.sequence("recordings", most=RECORDINGS_MAX)
            ),
            rule=fields.text("rule"),
            figures=fields.inner("figures").values,
            put_back=fields.flag("put_back"),
        )


def _entry(values: object) -> FilterEntry:
    if not isinstance(values, dict):
        raise FieldError("line", phrase("must be an object."))
    return FilterEntry.from_json(Fields(values))


class FilterLog:
    """The history; a small file, read whole each time.

    Args:
        path: the file; made with the first choice.
    """

    def __init__(self, path: Path) -> None:
        self.path = path

    def entries(self, serial_number: str, rate_hz: float) -> list[FilterEntry]:
        """All choices for a board at a sample rate, oldest first.

        Raises:
            FileError: the file cannot be read.
        """
        found, _ = self.read()
        return [
            one
            for one in found
            if one.serial_number == serial_number
            and abs(one.rate_hz / rate_hz - 1.0) <= SAME_RATE
        ]

    def filter_for(self, serial_number: str, rate_hz: float) -> FilterChoice | None:
        """The filter in force, or None where none was chosen.

        Raises:
            FileError: the file cannot be read.
        """
        if not serial_number or rate_hz <= 0:
            return None
        found = self.entries(serial_number, rate_hz)
        return found[-1].new if found else None

    def before(self, serial_number: str, rate_hz: float) -> FilterEntry | None:
        """The choice that would be taken back next; None where there is none.

        A choice that was put back is passed over with what put it back.

        Raises:
            FileError: the file cannot be read.
        """
        standing: list[FilterEntry] = []
        for one in self.entries(serial_number, rate_hz):
            if not one.put_back:
                standing.append(one)
            elif standing:
                standing.pop()
        return standing[-1] if standing else None

    def read(self) -> tuple[list[FilterEntry], list[str]]:
        """All choices, and words about each line that cannot be read.

        Raises:
            FileError: the file cannot be read.
        """
        try:
            if not self.path.exists():
                return [], []
            if self.path.stat().st_size > BYTES_MAX:
                raise FileError(self.path, phrase("is far too long."))
            lines = self.path.read_bytes().split(b"\n")
        except OSError as error:
            raise self._fault(error) from error
        found, told = [], []
        for number, line in enumerate(lines, start=1):
            if not line.strip():
                continue
            try:
                found.append(_entry(json.loads(line)))
            except (ValueError, RecursionError, FieldError) as error:
                told.append(f"{self.path}, line {number}: {error}")
        return found, told

    def add(self, entry: FilterEntry) -> None:
        """Writes a choice to the end, and waits until it is on disk.

        Raises:
            FileError: it cannot be written; nothing has changed then.
        """
        line = json.dumps(entry.to_json(), ensure_ascii=False, allow_nan=False)
        try:
            folders.make_private(self.path.parent)
            torn = self.path.exists() and not self._ends_whole()
            descriptor = os.open(
                self.path,
                os.O_WRONLY | os.O_APPEND | os.O_CREAT,
                folders.OWNER_ONLY_FILE,
            )
            with os.fdopen(descriptor, "ab") as file:
                # A line that was cut off by a fault must not swallow this one.
                file.write(("\n" if torn else "").encode() + f"{line}\n".encode())
                file.flush()
                os.fsync(file.fileno())
        except OSError as error:
            raise self._fault(error) from error

    def _ends_whole(self) -> bool:
        with self.path.open("rb") as file:
            file.seek(0, os.SEEK_END)
            if not file.tell():
                return True
            file.seek(-1, os.SEEK_END)
            return file.read(1) == b"\n"

    def _fault(self, error: OSError) -> FileError:
        return FileError(
            self.path,
            phrase(
                "the history of filters cannot be used: {reason}.",
                reason=folders.reason(error),
            ),
        )
