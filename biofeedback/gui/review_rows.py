"""Saved reps as rows of a table, and the measures of one with their units."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
)

from biofeedback.gui.language import filled, localised, shown, tr
from biofeedback.gui.task_titles import task_title
from biofeedback.gui.words import WORDS
from biofeedback.phrase import joined, phrase
from biofeedback.session.local_time import day_and_time
from biofeedback.session.review import RepKind
from biofeedback.training.events import Outcome
from biofeedback.training.showing import Showing

if TYPE_CHECKING:
    from datetime import datetime, tzinfo

    import numpy as np
    import numpy.typing as npt

    from biofeedback.conditioning.profile import RigProfile
    from biofeedback.measures.by_hand import Markers
    from biofeedback.training.band import Band
    from biofeedback.training.prescription import Prescription

    Index = QModelIndex | QPersistentModelIndex


class SavedRep(Protocol):
    """A rep as the library lists it."""

    @property
    def athlete_code(self) -> str:
        """Whose rep it is."""

    @property
    def started_utc(self) -> datetime:
        """When its set began."""

    @property
    def task(self) -> str:
        """Name of the task."""

    @property
    def number(self) -> int:
        """Counted from 1 in its set."""

    @property
    def outcome(self) -> str:
        """How the rep ended."""

    @property
    def kind(self) -> str | None:
        """Of the task: hold, lowering or maximal."""

    @property
    def feedback(self) -> str:
        """What was seen of the live force."""

    @property
    def void_reason(self) -> str | None:
        """Why it does not count, or None where it does."""

    @property
    def pain(self) -> int | None:
        """The most pain told in the set, or None."""

    @property
    def measures(self) -> Mapping[str, object]:
        """All numbers of the rep."""


class SavedMark(Protocol):
    """A pain mark or a note of the set."""

    @property
    def time_s(self) -> float:
        """Since the start of the set."""

    @property
    def kind(self) -> str:
        """``pain`` or ``note``."""

    @property
    def text(self) -> str:
        """In words, such as "pain 3 of 10"."""


class SavedTrace(Protocol):
    """The force of one rep and some seconds around it."""

    @property
    def time_s(self) -> npt.NDArray[np.float64]:
        """Shape (n,), since the start of the set."""

    @property
    def force_n(self) -> npt.NDArray[np.float64]:
        """Shape (n, channels); NaN where there is none."""

    @property
    def profile(self) -> RigProfile:
        """The rig's channels and their sides."""

    @property
    def effort_n(self) -> npt.NDArray[np.float64]:
        """Shape (n,), the force that was judged."""

    @property
    def bands(self) -> tuple[tuple[float, Band], ...]:
        """From when, and which band."""

    @property
    def start_s(self) -> float:
        """Onset."""

    @property
    def entry_s(self) -> float | None:
        """First entry into the band, or None."""

    @property
    def hold_end_s(self) -> float:
        """Completion, or the end of the hold part."""

    @property
    def end_s(self) -> float:
        """When the force was let go."""

    @property
    def lapses(self) -> tuple[tuple[float, float], ...]:
        """When the band was left, and when entered again."""

    @property
    def marks(self) -> Sequence[SavedMark]:
        """Pain marks and notes of the whole set."""

    @property
    def prescription(self) -> Prescription:
        """What was asked for."""

    @property
    def measures(self) -> Mapping[str, object]:
        """All numbers of the rep."""

    @property
    def by_hand(self) -> Sequence[str]:
        """Names of the markers that were moved."""

    @property
    def automatic(self) -> Markers:
        """The times that the rules found."""


_UNITS = (
    ("_pct_s", "%·s"),
    ("_n_per_s", "N/s"),
    ("_n_per_kg", "N/kg"),
    ("_nm", "N·m"),
    ("_ns", "N·s"),
    ("_pct", "%"),
    ("_points", "points"),
    ("_n2", "N²"),
    ("_hz", "Hz"),
    ("_s", "s"),
    ("_n", "N"),
)
"""The unit stands in the name of each measure; longer endings first."""


_NAMES = {
    "share_0_4": "power 0–4 Hz",
    "share_4_8": "power 4–8 Hz",
    "share_8_12": "power 8–12 Hz",
    "rfd_0_50": "RFD 0–50 ms",
    "rfd_0_100": "RFD 0–100 ms",
    "rfd_0_200": "RFD 0–200 ms",
    "impulse_0_100": "impulse 0–100 ms",
    "impulse_0_200": "impulse 0–200 ms",
}
_WORDS = {str(word): word for word, _ in WORDS} | {
    str(word): word
    for word in (
        phrase("asked hold"),
        phrase("band lower"),
        phrase("band upper"),
        phrase("end"),
        phrase("entry"),
        phrase("feedback"),
        phrase("hold end"),
        phrase("number"),
        phrase("outcome"),
        phrase("start"),
    )
}
"""Names that can be said in another language."""
_OUTCOMES = {str(one.value): one.value for one in Outcome}
"""The logbook has the plain word; here is the one that can be said."""
_LETTERS = frozenset(("ae", "ce", "cv", "rfd", "rmse", "ve"))


def with_unit(name: str) -> tuple[str, str]:
    """A measure's name in words, and its unit: ``mean_n`` is (``mean``, ``N``)."""
    for ending, unit in _UNITS:
        if name.endswith(ending):
            return _in_words(name[: -len(ending)]), unit
    return _in_words(name), ""


def _in_words(name: str) -> str:
    known = _NAMES.get(name)
    if known is not None:
        return _WORDS.get(known, known)
    parts = name.split("_")
    words = " ".join(part.upper() if part in _LETTERS else part for part in parts)
    return _WORDS.get(words, words)


FIRST = (
    *("mean_n", "peak_n", "median_n", "inside_s", "below_s", "above_s"),
    *("lapses", "time_to_enter_s", "overshoot_n", "cv_pct", "cv_detrended_pct"),
    *("rmse_n", "ce_n", "ve_n", "ae_n", "slope_n_per_s", "impulse_ns", "dose_pct_s"),
    *("left_share_pct", "right_share_pct", "symmetry_index_pct", "symmetry_formula"),
)
"""What is looked for first stands first; all else follows as it is kept."""

_SHOWN = frozenset(
    (
        *("start_s", "entry_s", "hold_end_s", "end_s", "below_s", "inside_s"),
        *("surely_inside_s", "above_s", "unbalanced_s", "paused_s", "lapses"),
        *("time_to_enter_s",),
    )
)
_SAMPLES = frozenset(("gaps", "samples", "lost", "saturated", "near_rated", "stuck"))
_ASKED = frozenset(
    (
        *("number", "outcome", "feedback", "band_lower_n", "band_upper_n"),
        *("asked_hold_s", "symmetry_formula", "onset_method", "spectrum"),
        *("rate_of_force",),
    )
)


def signal_of(key: str) -> str:
    """The signal that a measure is taken from, in words; empty where it is of none."""
    if key in _ASKED:
        return ""
    if key in _SHOWN:
        return phrase("shown force")
    return phrase("samples") if key in _SAMPLES else phrase("not filtered")


def measure_rows(
    measures: Mapping[str, object], *, within: str = ""
) -> tuple[tuple[str, str, str, str], ...]:
    """Name, value, unit and signal of each measure that is one number or word."""
    rows: list[tuple[str, str, str, str]] = []
    first = [key for key in FIRST if key in measures]
    for key in (*first, *(key for key in measures if key not in first)):
        value = measures[key]
        name, unit = with_unit(str(key))
        name, signal = f"{within}{name}" if within else name, signal_of(key)
        if isinstance(value, Mapping):
            rows += measure_rows(value, within=f"{name}: ")
        elif isinstance(value, bool | str):
            rows.append((name, _said_value(key, value), "", signal))
        elif value is None:
            rows.append((name, "–", unit, signal))
        elif isinstance(value, int):
            rows.append((name, str(value), unit, signal))
        elif isinstance(value, float):
            digits = 2 if abs(value) < 100 else 1
            rows.append((name, localised(f"{value:.{digits}f}"), unit, signal))
        # Lists, such as the times of lapses, are drawn in the figure instead.
    return tuple(rows)


def _said_value(key: str, value: bool | str) -> str:
    if isinstance(value, bool):
        return str(value)
    if key == "outcome":
        return _OUTCOMES.get(value, value)
    return value or "–"


def error_rows(measures: Mapping[str, object]) -> tuple[tuple[str, ...], ...]:
    """E² = CE² + VE² with its numbers; nothing where there is no target."""
    parts = [measures.get(name) for name in ("rmse_n", "ce_n", "ve_n")]
    known = [part for part in parts if isinstance(part, int | float)]
    if len(known) < 3:
        return ()
    total, constant, variable = (part**2 for part in known)
    text = localised(f"{total:.2f} = {constant:.2f} + {variable:.2f}")
    return (("E² = CE² + VE²", text, "N²", signal_of("rmse_n")),)


def mark_rows(trace: SavedTrace) -> tuple[tuple[str, ...], ...]:
    """Text and time of each pain mark and note around the rep, as in the figure."""
    return tuple(
        (mark.text, localised(f"{mark.time_s:.2f}"), "s", "")
        for mark in marks_around(trace)
    )


def marks_around(trace: SavedTrace) -> tuple[SavedMark, ...]:
    """The marks that fall into the time that is drawn."""
    if len(trace.time_s) == 0:
        return ()
    first_s, last_s = float(trace.time_s[0]), float(trace.time_s[-1])
    return tuple(mark for mark in trace.marks if first_s <= mark.time_s <= last_s)


def reference_rows(trace: SavedTrace) -> tuple[tuple[str, ...], ...]:
    """Mean and peak in % of the reference; nothing where there is none."""
    reference = trace.prescription.reference
    if reference is None:
        return ()
    rows = []
    for name in ("mean", "peak"):
        force_n = trace.measures.get(f"{name}_n")
        if isinstance(force_n, int | float):
            share = localised(f"{100 * force_n / reference.force_n:.1f}")
            unit = filled(tr("% of {force:.4g} N"), force=reference.force_n)
            rows.append((_in_words(name), share, unit, signal_of(f"{name}_n")))
    return tuple(rows)


TITLE_LETTERS = 18
"""Of a column, in one line."""


class Table(QAbstractTableModel):
    """A plain table of text.

    Args:
        tips: what a title or the name in a row's first cell means; see `tip_of`.
    """

    def __init__(
        self,
        header: Sequence[str],
        parent: QObject | None = None,
        *,
        tips: Callable[[str], str] | None = None,
    ) -> None:
        super().__init__(parent)
        self._header = tuple(header)
        self._tips = tips or (lambda _: "")
        self._rows: tuple[tuple[str, ...], ...] = ()

    def set_rows(self, rows: Sequence[tuple[str, ...]]) -> None:
        """Other content."""
        self.beginResetModel()
        self._rows = tuple(rows)
        self.endResetModel()

    def add_rows(self, rows: Sequence[tuple[str, ...]]) -> None:
        """More of it, at the end."""
        first = len(self._rows)
        self.beginInsertRows(QModelIndex(), first, first + len(rows) - 1)
        self._rows += tuple(rows)
        self.endInsertRows()

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """What is shown."""
        return self._rows

    def rowCount(self, parent: Index | None = None) -> int:  # noqa: N802  Qt's name
        """Number of rows."""
        return 0 if parent is not None and parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index | None = None) -> int:  # noqa: N802  Qt's name
        """Number of columns."""
        return len(self._header)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """Text of a cell."""
        if role == Qt.ItemDataRole.DisplayRole:
            return shown(self._rows[index.row()][index.column()])
        if role == Qt.ItemDataRole.ToolTipRole:
            return self._tips(self._rows[index.row()][0]) or None
        return None

    def headerData(  # noqa: N802  Qt's name
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> object:
        """Title of a column."""
        across = orientation is Qt.Orientation.Horizontal
        if across and role == Qt.ItemDataRole.DisplayRole:
            return _in_lines(self._header[section])
        if across and role == Qt.ItemDataRole.ToolTipRole:
            return self._tips(self._header[section]) or None
        return None


def _in_lines(title: str) -> str:
    """A long title in two lines, or its column would be wider than what is in it."""
    if len(title) <= TITLE_LETTERS:
        return title
    middle = len(title) / 2
    breaks = [at for at, letter in enumerate(title) if letter == " "]
    if not breaks:
        return title
    at = min(breaks, key=lambda at: abs(at - middle))
    return f"{title[:at]}\n{title[at + 1 :]}"


def kind_of(rep: SavedRep) -> str:
    """What a rep is, in words: what it is of, and whether it was unseen."""
    kinds = {"maximal": RepKind.TRIAL, "lowering": RepKind.LOWERING}
    kind = kinds.get(rep.kind or "", RepKind.TRAINING)
    name = shown(kind.value)
    if rep.feedback == Showing.UNSEEN.value:
        return joined(", ", (name, shown(RepKind.UNSEEN.value)))
    return name


def outcome_of(rep: SavedRep) -> str:
    """How a rep ended; what does not count is void, and nothing else."""
    if rep.void_reason is not None:
        return phrase("void: {reason}", reason=rep.void_reason)
    if rep.kind == "maximal" and rep.outcome == "complete":
        return phrase("done")
    return _OUTCOMES.get(rep.outcome, rep.outcome)


def rep_row(rep: SavedRep, *, zone: tzinfo | None = None) -> tuple[str, ...]:
    """A rep as a row of `REP_COLUMNS`.

    Args:
        zone: of the time, whose name is written; None for that of this computer.
    """

    def number(key: str, digits: int) -> str:
        value = rep.measures.get(key)
        if not isinstance(value, int | float):
            return "–"
        return localised(f"{value:.{digits}f}")

    return (
        rep.athlete_code,
        day_and_time(rep.started_utc, zone),
        task_title(rep.task),
        kind_of(rep),
        str(rep.number),
        shown(outcome_of(rep)),
        "–" if rep.pain is None else str(rep.pain),
        number("mean_n", 1),
        number("peak_n", 1),
        number("inside_s", 2),
        number("cv_pct", 2),
    )
