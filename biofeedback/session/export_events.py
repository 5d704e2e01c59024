"""What happened in a set, as the rows of the table of events and as texts.

Reps, holds and lapses are those of a replay; moves of the band, zeros, marks, boards on
the port and the stop are what was done; gaps and stretches that cannot be used are the
signal's. Notes and reasons are free text and stay out unless they are asked for.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from biofeedback.logbook.exports.edf_annotations import Annotation
from biofeedback.logbook.rows import number_or_none
from biofeedback.rig import journal
from biofeedback.training.slips import slips

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from biofeedback.logbook.exports.even_grid import Overview
    from biofeedback.logbook.exports.table import Cell
    from biofeedback.session.replay import Replayed
    from biofeedback.training.band import Band

    Row: TypeAlias = dict[str, Cell]

REP, HOLD, LAPSE, CEILING = "rep", "hold", "lapse", "ceiling"
LOST, NOT_USABLE = "samples lost", "not usable"
SIMULATED_TEXT = "Simulated rig: the newtons are made up"
_TEXTS = {
    HOLD: "Hold",
    LAPSE: "Lapse",
    LOST: "Samples lost",
    NOT_USABLE: "Signal not usable",
    journal.ZERO: "New zero",
    journal.STOP: "Stop",
    journal.PAIN_BACK: "The last mark of pain is taken back",
    journal.TERMS: "Hold, rest or number of reps changed",
    journal.GATE: "Reps held back or let go on",
    journal.NOTE: "Note",
}


def set_events(
    done: Iterable[Mapping[str, object]],
    found: Overview,
    replayed: Replayed | None,
    *,
    zeros_s: Sequence[float],
    pain_taken_back: Sequence[bool] = (),
) -> list[Row]:
    """The events of a set, in order of time; free text under ``text``.

    Args:
        done: the events that the recording holds.
        replayed: None for a recording without a prescription.
        zeros_s: when a zero was taken.
        pain_taken_back: of each mark of pain, as the logbook tells; it knows of those
            that were taken back after the set.
    """
    rows: list[Row] = []
    ends_s = found.stretches[-1].last_s if found.stretches else 0.0
    if replayed is not None:
        for rep in replayed.reps:
            rows += _rep_rows(rep)
        rows.append(_band_row(*replayed.bands[0]))
    done_rows = [_done_row(event, ends_s=ends_s) for event in done]
    told = [row for row in done_rows if row is not None]
    _take_back(told, pain_taken_back)
    rows += told
    rows += [{"kind": journal.ZERO, "onset_s": time_s} for time_s in zeros_s]
    rows += [_span(LOST, *gap) for gap in found.gaps]
    rows += [_span(NOT_USABLE, *span) for span in found.unusable]
    return sorted(rows, key=_onset_s)


def _take_back(rows: Iterable[Row], told: Sequence[bool]) -> None:
    """Each mark of pain says whether it was taken back."""
    steps = [row for row in rows if row["kind"] in {journal.PAIN, journal.PAIN_BACK}]
    marks = [row for row in steps if row["kind"] == journal.PAIN]
    known = told if len(told) == len(marks) else [False] * len(marks)
    here = slips(row["kind"] == journal.PAIN for row in steps)
    for row, back, back_later in zip(marks, here, known, strict=True):
        row["pain_taken_back"] = back or back_later


def _onset_s(row: Row) -> float:
    onset_s = row.get("onset_s")
    return onset_s if isinstance(onset_s, float) else 0.0


def _span(kind: str, start_s: float, end_s: float, **more: Cell) -> Row:
    return {"kind": kind, "onset_s": start_s, "duration_s": end_s - start_s, **more}


def _rep_rows(rep: Mapping[str, object]) -> list[Row]:
    number, outcome = rep.get("number"), rep.get("outcome")
    which: Row = {"rep": number if isinstance(number, int) else None}
    start_s, entry_s, hold_end_s, end_s = (
        number_or_none(rep.get(name))
        for name in ("start_s", "entry_s", "hold_end_s", "end_s")
    )
    rows: list[Row] = []
    if start_s is not None and end_s is not None:
        rows.append(_span(REP, start_s, end_s, **which, outcome=str(outcome)))
    if entry_s is not None and hold_end_s is not None:
        rows.append(_span(HOLD, entry_s, hold_end_s, **which))
    lapses = rep.get("lapse_times_s")
    for left_s, back_s in lapses if isinstance(lapses, list) else ():
        rows.append(_span(LAPSE, float(left_s), float(back_s), **which))
    return rows


def _band_row(time_s: float, band: Band) -> Row:
    return {
        "kind": journal.BAND,
        "onset_s": time_s,
        "band_lower_n": band.lower_n,
        "band_upper_n": None if band.open_above else band.upper_n,
    }


def _done_row(event: Mapping[str, object], *, ends_s: float) -> Row | None:
    """What was done from outside; None for what a replay works out again."""
    kind = event.get("kind")
    row: Row = {
        "kind": str(kind),
        "onset_s": number_or_none(event.get("time_s")) or 0.0,
    }
    reason = event.get("reason")
    if isinstance(reason, str) and reason:
        row["text"] = reason
    if kind == journal.BAND:
        new = event.get("new")
        if isinstance(new, dict):
            row["band_lower_n"] = number_or_none(new.get("lower_n"))
            row["band_upper_n"] = number_or_none(new.get("upper_n"))
    elif kind == CEILING:
        row["ceiling_n"] = number_or_none(event.get("ceiling_n"))
    elif kind == journal.PAIN:
        level = event.get("level")
        row["pain"] = level if isinstance(level, int) else None
    elif kind == journal.NOTE:
        text = event.get("text")
        row["text"] = text if isinstance(text, str) else None
    elif kind == journal.BOARD:
        serial, used = event.get("serial_number"), event.get("used")
        row["board"] = serial if isinstance(serial, str) else None
        row["board_used"] = used if isinstance(used, bool) else None
    elif kind == journal.STOP:
        row["onset_s"] = ends_s
    elif kind not in {journal.TERMS, journal.GATE, journal.PAIN_BACK}:
        return None
    return row


def event_texts(
    rows: Iterable[Row], task: str, *, start_s: float, simulated: bool = False
) -> list[Annotation]:
    """The events as texts with a time from the first sample.

    Args:
        rows: as `set_events` gives them, without what is not to be told.
        start_s: time of the first sample.
        simulated: whether it was the simulated rig, which is said.
    """
    told = [Annotation(0.0, None, f"Task: {task}")] if task else []
    if simulated:
        told.insert(0, Annotation(0.0, None, SIMULATED_TEXT))
    for row in rows:
        duration_s = row.get("duration_s")
        onset_s = max(0.0, _onset_s(row) - start_s)
        told.append(
            Annotation(
                onset_s,
                duration_s if isinstance(duration_s, float) else None,
                _words(row),
            )
        )
    return told


def _words(row: Row) -> str:
    kind, rep, text = row["kind"], row.get("rep"), row.get("text")
    if kind == REP:
        words = f"Rep {rep}: {row.get('outcome')}"
    elif kind == journal.BAND:
        words = _band_words(row)
    elif kind == CEILING:
        words = f"Ceiling of {row.get('ceiling_n'):g} N passed"
    elif kind == journal.PAIN:
        words = f"Pain {row.get('pain')} of 10"
        words += ", taken back" if row.get("pain_taken_back") else ""
    elif kind == journal.BOARD:
        words = _board_words(row)
    else:
        words = _TEXTS.get(str(kind), str(kind))
        words += f" of rep {rep}" if rep else ""
    return f"{words}: {text}" if text else words


def _board_words(row: Row) -> str:
    which = f" {row['board']}" if row.get("board") else ""
    if row.get("board_used"):
        return f"The board{which} of this set is back"
    return f"Another board{which} on the port, not used"


def _band_words(row: Row) -> str:
    lower_n, upper_n = row.get("band_lower_n"), row.get("band_upper_n")
    if upper_n is None:
        return f"Band at least {lower_n:g} N"
    return f"Band {lower_n:g} to {upper_n:g} N"
