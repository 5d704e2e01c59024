"""BIDS: a data set of physiological recordings, by BIDS 1.11.

Brain Imaging Data Structure, specification 1.11: physiological recordings. Each set is
one run under ``beh``: force over time (``_physio.tsv.gz`` with its JSON), and what
happened (``_events.tsv``). Samples stand on the even grid, with n/a in empty slots;
the time of each by the board's clock is a column of its own. ``_scans.tsv`` tells when
a run began, in UTC.
"""

from __future__ import annotations

import gzip
import io
import json
from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback import __version__
from biofeedback.logbook.exports.bids_labels import Labels
from biofeedback.logbook.exports.csv_table import safe_text, sample_rows
from biofeedback.logbook.exports.table import EVENTS, samples_columns

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import datetime

    from biofeedback.logbook.exports.even_grid import EvenGrid
    from biofeedback.logbook.exports.export_folder import ExportFolder
    from biofeedback.logbook.exports.sample_batch import SampleBatch
    from biofeedback.logbook.exports.table import Cell

VERSION = "1.11.1"
FORMAT = f"BIDS {VERSION}, physiological recordings"
FOLDER = "bids"
NONE = "n/a"

_EVENT_COLUMNS = {
    "onset": "onset_s",
    "duration": "duration_s",
    "trial_type": "kind",
    **{
        column.name: column.name
        for column in EVENTS
        if column.name
        in {
            "rep",
            "outcome",
            "band_lower_n",
            "band_upper_n",
            "ceiling_n",
            "pain",
            "pain_taken_back",
            "board",
            "board_used",
        }
    },
}
_TEXT = "text"
_README = """Force recordings of athletes on a load-cell rig, exported by biofeedback.

Each run is one set: the force of each cell in newtons over time, calibrated and zeroed
and not filtered, with the counts it was worked out from and the band that was asked
for. Reps, lapses, moves of the band, pain marks and boards that were met on the port
are in the events. Times are seconds from the first sample of the run.

Where the sidecar of a run says that it is simulated, its newtons are made up: nothing
was measured.

An empty slot (n/a) is a sample that was lost or that cannot be used. time_s is the time
by the clock of the board; SamplingFrequency is the mean rate of that clock.

Participants stand under codes. The manifest of the export, one folder up, holds the
calibrations, what was left out and a checksum of each file.
"""


@dataclass(frozen=True, slots=True)
class Run:
    """One set on its way into the data set.

    Attributes:
        athlete_name: empty unless asked for.
        session_utc: when the visit began.
        task: its name, without names of people.
        task_key: tells tasks apart; is not shown.
        names: of the channels: their sides.
        rig: serial number of the board, without names of people.
        simulated: whether it was the simulated rig, whose newtons are made up.
        software: that recorded it, with its version.
    """

    athlete_code: str
    athlete_name: str
    session_id: str
    session_utc: datetime
    started_utc: datetime
    task: str
    task_key: str
    rig: str
    simulated: bool
    names: Sequence[str]
    software: str


class BidsFolder:
    """The data set; runs come one after the other, in order of time.

    Args:
        names: whether names of athletes were asked for.
        notes: whether notes and reasons were asked for.
    """

    def __init__(self, folder: ExportFolder, *, names: bool, notes: bool) -> None:
        self.subjects = Labels("athlete")
        self._folder = folder
        self._names = names
        self._notes = notes
        self._tasks = Labels("task")
        self._visits: dict[str, Labels] = {}
        self._runs: dict[str, int] = {}
        self._people: dict[str, tuple[str, str]] = {}
        self._scans: dict[str, list[list[str]]] = {}

    @property
    def used(self) -> bool:
        """Whether a run was entered; a data set without one is none."""
        return bool(self._scans)

    def begin(
        self, run: Run, grid: EvenGrid, events: Sequence[Mapping[str, Cell]]
    ) -> RunFile:
        """Writes all of a run but its samples.

        Raises:
            FileError: it cannot be written.
        """
        place, name = self._place(run)
        stem = f"{FOLDER}/{place}/beh/{name}"
        columns = [*_EVENT_COLUMNS, *([_TEXT] if self._notes else [])]
        lines = [
            [_cell(event.get(_EVENT_COLUMNS.get(column, column))) for column in columns]
            for event in events
        ]
        self._write_lines(f"{stem}_events.tsv", [columns, *lines])
        self._write_json(f"{stem}_events.json", _events_sidecar(run, columns))
        physio = f"{stem}_recording-force_physio"
        self._write_json(f"{physio}.json", _physio_sidecar(run, grid))
        return RunFile(self._folder, f"{physio}.tsv.gz", grid, len(run.names))

    def enter(self, run: Run) -> str:
        """Enters a run whose samples are all written, and returns its name."""
        place, name = self._place(run)
        self._runs[name[: -len("_run-01")]] = int(name[-2:])
        self._people[place.split("/")[0]] = (run.athlete_code, run.athlete_name)
        began = run.started_utc.isoformat(timespec="milliseconds")
        physio = f"beh/{name}_recording-force_physio.tsv.gz"
        scan = [physio, began.replace("+00:00", "Z")]
        self._scans.setdefault(place, []).append(scan)
        return f"{FOLDER}/{place}/{physio}"

    def close(self) -> None:
        """Writes what describes the data set as a whole.

        Raises:
            FileError: it cannot be written.
        """
        for place, scans in self._scans.items():
            name = place.replace("/", "_")
            lines = [["filename", "acq_time"], *scans]
            self._write_lines(f"{FOLDER}/{place}/{name}_scans.tsv", lines)
        people = [
            [subject, safe_text(code), *([_cell(name)] if self._names else [])]
            for subject, (code, name) in sorted(self._people.items())
        ]
        columns = ["participant_id", "athlete_code"]
        columns += ["athlete_name"] if self._names else []
        self._write_lines(f"{FOLDER}/participants.tsv", [columns, *people])
        self._write_json(f"{FOLDER}/participants.json", _PARTICIPANTS)
        self._write_json(f"{FOLDER}/dataset_description.json", _DATA_SET)
        self._folder.write(f"{FOLDER}/README", _README.encode())

    def _place(self, run: Run) -> tuple[str, str]:
        """Folder of the visit, and beginning of the names of the run."""
        subject = self.subjects.label(run.athlete_code)
        visits = self._visits.setdefault(subject, Labels("visit"))
        visit = visits.label(run.session_id, f"{run.session_utc:%Y%m%dT%H%M}")
        task = self._tasks.label(run.task_key, run.task)
        name = f"sub-{subject}_ses-{visit}_task-{task}"
        number = self._runs.get(name, 0) + 1
        return f"sub-{subject}/ses-{visit}", f"{name}_run-{number:02}"

    def _write_json(self, name: str, content: Mapping[str, object]) -> None:
        text = json.dumps(content, ensure_ascii=False, indent=1, allow_nan=False)
        self._folder.write(name, f"{text}\n".encode())

    def _write_lines(self, name: str, lines: Sequence[Sequence[str]]) -> None:
        text = "".join("\t".join(line) + "\n" for line in lines)
        self._folder.write(name, text.encode())


class RunFile:
    """The samples of one run, compressed, without a header line."""

    def __init__(
        self, folder: ExportFolder, name: str, grid: EvenGrid, channels: int
    ) -> None:
        self._grid = grid
        self._plain = folder.create(name)
        # Without name and time in the archive, so that it tells nothing else.
        self._archive = gzip.GzipFile("", "wb", 6, self._plain, mtime=0)
        self._text = io.TextIOWrapper(self._archive, encoding="utf-8", newline="\n")
        self._next = 0
        columns = len(samples_columns([""] * channels))
        self._empty = "\t".join([NONE] * columns) + "\n"

    def add_samples(self, batch: SampleBatch) -> None:
        """The rows of a batch, and empty ones for what is missing."""
        slots = self._grid.slot(batch.index).tolist()
        rows = sample_rows(batch, empty=NONE)
        for slot, row in zip(slots, rows, strict=True):
            for _ in range(slot - self._next):
                self._text.write(self._empty)
            self._text.write("\t".join(row) + "\n")
            self._next = slot + 1

    def close(self) -> None:
        """Writes what is held and closes the file."""
        self._text.close()  # and the archive with it, but not what is below it
        self._plain.close()


_PARTICIPANTS = {
    "athlete_code": {"Description": "Code of the athlete in the logbook"},
    "athlete_name": {"Description": "Name of the athlete; only where asked for"},
}
_DATA_SET = {
    "Name": "Force recordings on a load-cell rig",
    "BIDSVersion": VERSION,
    "DatasetType": "raw",
    "GeneratedBy": [{"Name": "biofeedback", "Version": __version__}],
}


def _cell(value: Cell) -> str:
    if value is None or value == "":
        return NONE
    if isinstance(value, str):
        return safe_text(value)
    return str(int(value)) if isinstance(value, bool) else repr(value)


def _events_sidecar(run: Run, columns: Sequence[str]) -> dict[str, object]:
    meanings = {column.name: column for column in EVENTS}
    told: dict[str, object] = {"TaskName": run.task}
    for name in columns:
        column = meanings[_EVENT_COLUMNS.get(name, name)]
        told[name] = _described(column.meaning, column.unit)
    return told


def _physio_sidecar(run: Run, grid: EvenGrid) -> dict[str, object]:
    columns = samples_columns(run.names)
    told: dict[str, object] = {
        "SamplingFrequency": grid.rate_hz,
        "StartTime": grid.start_s,
        "Columns": [column.name for column in columns],
        "PhysioType": "generic",
        "TaskName": run.task,
        "SoftwareVersions": run.software or NONE,
        "DeviceSerialNumber": run.rig or NONE,
        "Simulated": run.simulated,
    }
    for column in columns:
        told[column.name] = _described(column.meaning, column.unit)
    return told


def _described(meaning: str, unit: str) -> dict[str, str]:
    return {"Description": meaning, **({"Units": unit} if unit else {})}
