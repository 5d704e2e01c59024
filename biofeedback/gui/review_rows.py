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

from biofeedback.gui.language import filled, localised, tr

if TYPE_CHECKING:
    from datetime import datetime, tzinfo

    import numpy as np
    import numpy.typing as npt

    from biofeedback.conditioning.profile import RigProfile
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


_UNITS = (
    ("_pct_s", "%·s"),
    ("_n_per_s", "N/s"),
    ("_ns", "N·s"),
    ("_pct", "%"),
    ("_points", "points"),
    ("_n2", "N²"),
    ("_hz", "Hz"),
    ("_s", "s"),
    ("_n", "N"),
)
"""The unit stands in the name of each measure; longer endings first."""


def with_unit(name: str) -> tuple[str, str]:
    """A measure's name in words, and its unit: ``mean_n`` is (``mean``, ``N``)."""
    for ending, unit in _UNITS:
        if name.endswith(ending):
            return name[: -len(ending)].replace("_", " "), unit
    return name.replace("_", " "), ""


def measure_rows(
    measures: Mapping[str, object], *, within: str = ""
) -> tuple[tuple[str, str, str], ...]:
    """Name, value and unit of each measure that is one number or word."""
    rows: list[tuple[str, str, str]] = []
    for key, value in measures.items():
        name, unit = with_unit(str(key))
        name = f"{within}{name}"
        if isinstance(value, Mapping):
            rows += measure_rows(value, within=f"{name}: ")
        elif isinstance(value, bool | str):
            rows.append((name, str(value), ""))
        elif value is None:
            rows.append((name, "–", unit))
        elif isinstance(value, int):
            rows.append((name, str(value), unit))
        elif isinstance(value, float):
            digits = 2 if abs(value) < 100 else 1
            rows.append((name, f"{value:.{digits}f}", unit))
        # Lists, such as the times of lapses, are drawn in the figure instead.
    return tuple(rows)


def mark_rows(trace: SavedTrace) -> tuple[tuple[str, str, str], ...]:
    """Text and time of each pain mark and note around the rep, as in the figure."""
    return tuple(
        (mark.text, localised(f"{mark.time_s:.2f}"), "s")
        for mark in marks_around(trace)
    )


def marks_around(trace: SavedTrace) -> tuple[SavedMark, ...]:
    """The marks that fall into the time that is drawn."""
    if len(trace.time_s) == 0:
        return ()
    first_s, last_s = float(trace.time_s[0]), float(trace.time_s[-1])
    return tuple(mark for mark in trace.marks if first_s <= mark.time_s <= last_s)


def reference_rows(trace: SavedTrace) -> tuple[tuple[str, str, str], ...]:
    """Mean and peak in % of the reference; nothing where there is none."""
    reference = trace.prescription.reference
    if reference is None:
        return ()
    rows = []
    for name in ("mean", "peak"):
        force_n = trace.measures.get(f"{name}_n")
        if isinstance(force_n, int | float):
            share = localised(f"{100 * force_n / reference.force_n:.1f}")
            rows.append(
                (name, share, filled(tr("% of {force:g} N"), force=reference.force_n))
            )
    return tuple(rows)


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
            return self._rows[index.row()][index.column()]
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
            return self._header[section]
        if across and role == Qt.ItemDataRole.ToolTipRole:
            return self._tips(self._header[section]) or None
        return None


def rep_row(rep: SavedRep, *, zone: tzinfo | None = None) -> tuple[str, ...]:
    """A rep as a row: who, when, task, rep, outcome, mean, time inside, CV.

    Args:
        zone: of the time, whose name is written; None for that of this computer.
    """

    def number(key: str, digits: int) -> str:
        value = rep.measures.get(key)
        return f"{value:.{digits}f}" if isinstance(value, int | float) else "–"

    return (
        rep.athlete_code,
        rep.started_utc.astimezone(zone).strftime("%Y-%m-%d %H:%M %Z"),
        rep.task,
        str(rep.number),
        rep.outcome,
        number("mean_n", 1),
        number("inside_s", 2),
        number("cv_pct", 2),
    )
