"""An export: sets in, one folder of files out, with a manifest.

Reps come from the logbook and samples from the recordings. A recording that is damaged
beyond reading, or not there, is named and left out, and the export goes on; the answer
says that it is not complete. Nothing is left behind by an export that fails.
"""

from __future__ import annotations

import json
from collections import Counter
from itertools import zip_longest
from typing import TYPE_CHECKING

from biofeedback.errors import BiofeedbackError, FieldError, FileError, UserError
from biofeedback.logbook.audit import Action
from biofeedback.logbook.exports import manifest as manifests
from biofeedback.logbook.exports.bids import BidsFolder
from biofeedback.logbook.exports.discretion import Discretion
from biofeedback.logbook.exports.export_folder import ExportFolder, TargetError
from biofeedback.logbook.exports.export_tables import (
    FREE,
    SUFFIXES,
    ExportTables,
)
from biofeedback.logbook.exports.table import (
    EVENTS,
    NAME,
    SETS,
    extra_cells,
    measure_cells,
    reps_columns,
    samples_columns,
)
from biofeedback.phrase import phrase
from biofeedback.session.export_asked import (
    REPS,
    SAMPLES,
    Counts,
    Exported,
    LeftOut,
    Wanted,
)
from biofeedback.session.export_extras import plain_extras, sample_extras
from biofeedback.session.export_rows import set_row, whose
from biofeedback.session.export_samples import (
    BIDS,
    SamplesWanted,
    study,
    write_samples,
)
from biofeedback.session.export_source import (
    SetSource,
    Unreadable,
    from_files,
    from_logbook,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence
    from pathlib import Path

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.exports.chosen_sets import Filters
    from biofeedback.logbook.exports.table import Cell, Column
    from biofeedback.session.export_samples import SamplesWritten, Studied
    from biofeedback.session.export_source import Source


def export_logbook(
    logbook: Logbook,
    recordings: Path,
    target: Path,
    filters: Filters,
    wanted: Wanted,
    *,
    progress: Callable[[int, int], None] | None = None,
) -> Exported:
    """Exports sets of the logbook.

    Args:
        recordings: the folder they are in.
        target: the folder to be made.
        progress: is told (sets done, sets in all) after each.

    Raises:
        FieldError: a code or task is not in the logbook.
        UserError: nothing matches the filters.
        FileError: logbook or target cannot be used; nothing was left behind.
    """
    chosen = logbook.chosen_sets(filters)
    if not chosen:
        raise UserError(
            phrase("No set of the logbook matches."),
            phrase("Look at athlete, task and dates."),
        )
    known = () if wanted.names else (each.name for each in logbook.athletes())
    with ExportFolder(target) as folder:
        run = _Export(folder, wanted, Discretion(filter(None, known)), logbook)
        sources = from_logbook(logbook, chosen, folder=recordings)
        done = run.run(sources, len(chosen), filters, progress)
    _note_exported(logbook, run.sets_of, target)
    return done


def _note_exported(logbook: Logbook, sets_of: Mapping[str, int], target: Path) -> None:
    """The audit has a row for each athlete, with how many sets."""
    for code, count in sorted(sets_of.items()):
        logbook.audit.add(
            Action.EXPORTED, code=code, count=count, place=target.absolute()
        )


def export_files(
    paths: Sequence[Path],
    target: Path,
    wanted: Wanted,
    *,
    progress: Callable[[int, int], None] | None = None,
) -> Exported:
    """Exports recordings that are named one by one, without a logbook.

    Raises:
        FieldError: names are asked for, which only a logbook has.
        FileError: the target cannot be used; nothing was left behind.
    """
    if wanted.names:
        raise FieldError("names", phrase("are in a logbook and not in recordings."))
    with ExportFolder(target) as folder:
        run = _Export(folder, wanted, Discretion(), None)
        return run.run(from_files(paths), len(paths), None, progress)


class _Export:
    """One export under way.

    Attributes:
        sets_of: how many sets of each athlete are in it, by code.
    """

    def __init__(
        self,
        folder: ExportFolder,
        wanted: Wanted,
        discretion: Discretion,
        logbook: Logbook | None,
    ) -> None:
        self._folder = folder
        self._wanted = wanted
        self._discretion = discretion
        self._logbook = logbook
        self._counts = Counts()
        self.sets_of: Counter[str] = Counter()
        self._left_out: list[LeftOut] = []
        self._losses: list[tuple[str, str]] = []
        self._recordings: list[dict[str, object]] = []
        self._stems: set[str] = set()
        self._sides: dict[str, None] = {}  # in the order in which they were met
        self._texts_left_out = 0
        self._extras: list[Mapping[str, object]] = []  # of the reps of the set
        self._columns = self._tables_wanted()
        kinds = [kind for kind in wanted.formats if kind in SUFFIXES]
        self._tables = ExportTables(folder, kinds, self._columns if kinds else {})
        self._bids = (
            BidsFolder(folder, names=wanted.names, notes=wanted.notes)
            if BIDS in wanted.formats
            else None
        )

    def run(
        self,
        sources: Iterable[Source],
        total: int,
        filters: Filters | None,
        progress: Callable[[int, int], None] | None,
    ) -> Exported:
        """Takes one set after the other and writes the manifest."""
        try:
            for done, source in enumerate(sources, start=1):
                self._take(source)
                if progress is not None:
                    progress(done, total)
        finally:
            with self._folder.faults():
                self._tables.close()
        if self._bids is not None and self._bids.used:
            self._bids.close()
        told = self._manifest(filters)
        text = json.dumps(told, ensure_ascii=False, indent=1, allow_nan=False)
        self._folder.write(manifests.FILE, f"{text}\n".encode())
        self._folder.finish()
        return Exported(told, self._left_out, self._losses)

    def _tables_wanted(self) -> dict[str, tuple[Column, ...]]:
        wanted = self._wanted
        named = (NAME,) if wanted.names else ()
        tables = {"sets": (SETS[0], *named, *SETS[1:])}
        if wanted.reps:
            columns = reps_columns(notes=wanted.notes)
            tables["reps"] = (columns[0], *named, *columns[1:])
        if wanted.samples:
            kept = (each for each in EVENTS if wanted.notes or each.name != "text")
            tables["events"] = tuple(kept)
        return tables

    def _take(self, source: Source) -> None:
        """One set: its samples first, so that its row can say where they are."""
        if isinstance(source, Unreadable):
            self._leave_out(f"file {source.number}", "", self._all(), source.error)
            return
        if source.stem in self._stems:
            twice = FileError(source.path, phrase("this set is here twice."))
            self._leave_out(source.stem, source.set_id, self._all(), twice)
            return
        self._stems.add(source.stem)
        row = set_row(source)
        self._extras = []
        if self._wanted.samples:
            try:
                row |= self._samples(source)
            except TargetError:
                raise
            except BiofeedbackError as error:
                what = tuple(each for each in self._all() if each != REPS)
                self._leave_out(source.stem, source.set_id, what, error)
        self._add("sets", row)
        self._counts.sets += 1
        self.sets_of[source.code] += 1
        self._counts.athletes.add(source.code)
        self._counts.sessions.add(source.session_id)
        if self._wanted.reps:
            self._reps(source)

    def _all(self) -> tuple[str, ...]:
        wanted = self._wanted
        reps = (REPS,) if wanted.reps else ()
        return (*reps, *(wanted.formats if wanted.samples else ()))

    def _leave_out(
        self, stem: str, set_id: str, what: tuple[str, ...], error: BiofeedbackError
    ) -> None:
        reason = error.problem if isinstance(error, FileError) else str(error)
        reason = self._discretion.text(reason)
        self._left_out.append(LeftOut(stem, set_id, what, str(error), reason))

    def _samples(self, source: SetSource) -> dict[str, Cell]:
        """Writes the samples; what the row of the set says of them."""
        studied = study(source, blocks=self._wanted.reps)
        self._extras = [sample_extras(studied.replayed, rep) for rep in source.reps]
        if studied.replayed is not None:
            studied.replayed.let_go()
        wanted = SamplesWanted(
            self._wanted.formats,
            self._wanted.names,
            self._wanted.notes,
            self._discretion.text,
        )
        told, events = write_samples(source, studied, wanted, self._folder, self._bids)
        if told.missing:
            error = FileError(source.path, told.problem)
            self._leave_out(source.stem, source.set_id, told.missing, error)
        if studied.losses:
            self._losses.append((source.stem, studied.losses))
        if not self._wanted.notes:
            self._texts_left_out += sum(bool(row.get("text")) for row in studied.events)
        whose: dict[str, Cell] = {"athlete_code": source.code, "set_id": source.set_id}
        for row in events:
            self._add("events", {**whose, **row})
        self._counts.samples += studied.found.samples
        self._sides |= dict.fromkeys(studied.stream.names)
        self._recordings.append(self._told(source, studied, told))
        replayed = studied.replayed
        return {
            "numbers_agree": replayed.agrees if replayed else None,
            "samples": studied.found.samples,
            "lost": studied.found.lost,
            "rate_hz": studied.rate_hz,
            "rig": studied.stream.profile.serial_number or None,
            "samples_file": f"samples/{source.stem}",
        }

    def _told(
        self, source: SetSource, studied: Studied, told: SamplesWritten
    ) -> dict[str, object]:
        """What the manifest says of a recording."""
        profile = studied.stream.profile
        clean = self._discretion.text

        def key_of(channel: int) -> str | None:
            label = profile.channels[channel].calibration.label
            if self._logbook is None or not profile.serial_number:
                return None
            found = self._logbook.calibrations.find(
                profile.serial_number, channel, label
            )
            same = found and found.calibration == profile.channels[channel].calibration
            return found.id if found and same else None

        return {
            "recording": source.stem,
            "set_id": source.set_id,
            "athlete_code": source.code,
            "started_utc": source.started_utc.isoformat(),
            "recorded_with": studied.software or None,
            "rig": clean(profile.serial_number) or None,
            "simulated": profile.simulated,
            "nominal_rate_hz": profile.rate_hz,
            "rate_hz": studied.rate_hz,
            "channels": manifests.channels_json(
                profile, studied.stream.names, key_of=key_of, clean=clean
            ),
            "zero": {
                "kind": profile.zero.kind.value,
                "taken_utc": profile.zero.taken_utc,
            },
            "losses": studied.losses or None,
            "even_grid_farthest_s": told.farthest_s,
            "edf": told.edf or None,
            "files": told.files,
        }

    def _reps(self, source: SetSource) -> None:
        for rep, extra in zip_longest(source.reps, self._extras, fillvalue=None):
            if rep is None:
                break
            row = {
                **whose(source),
                **measure_cells(rep.measures),
                **plain_extras(source, rep),
                **extra_cells(extra or {}),
            }
            row["voided"] = rep.void_reason is not None
            row["void_reason"] = rep.void_reason
            if rep.void_reason and not self._wanted.notes:
                self._texts_left_out += 1
            self._add("reps", row)
            self._counts.reps += 1

    def _add(self, table: str, row: Mapping[str, Cell]) -> None:
        clean = self._discretion.text
        self._tables.add(
            table,
            {
                key: clean(value) if key in FREE and isinstance(value, str) else value
                for key, value in row.items()
            },
        )

    def _manifest(self, filters: Filters | None) -> dict[str, object]:
        wanted = self._wanted
        asked = {
            "filters": manifests.filters_json(filters, self._discretion.text),
            "what": [*([REPS] if wanted.reps else []), *([SAMPLES] * wanted.samples)],
            "names": wanted.names,
            "notes": wanted.notes,
            "texts_left_out": self._texts_left_out,
            "names_taken_out_of_texts": self._discretion.taken_out,
        }
        return manifests.manifest(
            asked=asked,
            formats=wanted.formats,
            counts=self._counts.to_json(),
            tables=self._columns
            | ({SAMPLES: samples_columns(tuple(self._sides))} if self._sides else {}),
            recordings=self._recordings,
            left_out=[each.to_json() for each in self._left_out],
            files=self._folder.written(),
        )
