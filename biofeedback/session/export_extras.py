"""What an export tells of a rep beyond the stored measures: by hand, per body, in time.

* Times that were moved by hand stand beside those that the rules found, which are the
  stored `start_s`, `entry_s` and `hold_end_s`. The stored measures are those of the
  rules; rate of force and spectrum are of the times that stand.
* Torque and force per body mass are of the stored forces. They are told where the
  lever arm, or a body mass of that day or before, was entered.
* Rate of force and spectrum need the samples, so only an export of samples has them.
  The force of one set is in memory while they are worked out.
"""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.logbook.exports.table import MOVED
from biofeedback.logbook.rows import number_or_none
from biofeedback.measures.normalised import normalised
from biofeedback.session.export_source import inner
from biofeedback.session.rep_extras import extras
from biofeedback.session.review import rep_trace, with_markers

if TYPE_CHECKING:
    from collections.abc import Mapping

    from biofeedback.logbook.exports.table import Cell
    from biofeedback.session.export_source import SavedRep, SetSource
    from biofeedback.session.replay import Replayed


def plain_extras(source: SetSource, rep: SavedRep) -> dict[str, Cell]:
    """Times by hand, torque and force per body mass: known without the samples."""
    setup = inner(inner(source.prescription, "task"), "setup")
    arm_m = number_or_none(setup.get("lever_arm_m"))
    cells: dict[str, Cell] = {
        name: rep.moved.get(marker) for marker, name in MOVED.items()
    }
    cells["lever_arm_m"], cells["mass_kg"] = arm_m, source.mass_kg
    for name in ("mean", "peak"):
        force_n = number_or_none(rep.measures.get(f"{name}_n"))
        if force_n is None:
            continue
        whole = normalised(force_n, lever_arm_m=arm_m, mass_kg=source.mass_kg)
        cells[f"{name}_nm"] = whole.torque_nm
        cells[f"{name}_n_per_kg"] = whole.per_kg_n
    return cells


def sample_extras(replayed: Replayed | None, rep: SavedRep) -> Mapping[str, object]:
    """Rate of force and spectrum of a rep, or why there is none; empty without both.

    Args:
        replayed: with its blocks; None where the recording holds no prescription.
    """
    found = next(
        (
            again
            for again in (replayed.reps if replayed else ())
            if again["number"] == rep.measures.get("number")
        ),
        None,
    )
    if replayed is None or found is None:
        return {}
    trace = rep_trace(replayed, found)
    with suppress(FieldError):  # the rules of today may find other times than then
        trace = with_markers(trace, rep.moved)
    told = dict(extras(trace))
    told["rate_of_force_why"] = told.pop("rate_of_force", None)
    told["spectrum_why"] = told.pop("spectrum", None)
    return told
