"""What is worked out of a rep when it is looked at: spectrum, rate of force, torque.

These are not stored with the rep: they need a rate or a length that not every rig
and rep has, or depend on what may be entered later, such as the body mass. Where one
cannot be had, the reason is told in its place.
"""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.measures.normalised import normalised
from biofeedback.measures.rate_of_force import (
    ONSET_BY_HAND,
    ONSET_METHOD,
    RATE_LEAST_HZ,
    baseline_problem,
    onset,
    rate_of_force,
)
from biofeedback.measures.spectrum import LENGTH_LEAST_S, spectrum
from biofeedback.measures.spectrum import RATE_LEAST_HZ as SPECTRUM_HZ
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from biofeedback.session.review import RepTrace


def extras(rep: RepTrace) -> dict[str, object]:
    """Spectrum and rate of force of a rep, or why there is none."""
    return {**_spectrum(rep), **_rate_of_force(rep)}


def rise_onset_s(rep: RepTrace) -> float | None:
    """Where the force began to rise, by `ONSET_METHOD` or where a hand put it."""
    if "onset" in rep.by_hand:
        return rep.start_s
    force_n = rep.judged.effort(rep.trace.force_n)
    return onset(rep.trace.time_s, force_n, near_s=rep.start_s)


def per_body(rep: RepTrace, mass_kg: float | None) -> dict[str, object]:
    """Mean and peak as torque and per body mass; only those that are known."""
    setup = rep.prescription.task.setup
    arm_m = None if setup is None else setup.lever_arm_m
    found: dict[str, object] = {}
    for name in ("mean", "peak"):
        force_n = rep.measures.get(f"{name}_n")
        if not isinstance(force_n, int | float):
            continue
        whole = normalised(float(force_n), lever_arm_m=arm_m, mass_kg=mass_kg)
        if whole.torque_nm is not None:
            found[f"{name}_nm"] = whole.torque_nm
        if whole.per_kg_n is not None:
            found[f"{name}_n_per_kg"] = whole.per_kg_n
    return found


def _spectrum(rep: RepTrace) -> dict[str, object]:
    trace = rep.trace
    from_s = rep.start_s if rep.entry_s is None else rep.entry_s
    held = trace.good & (trace.time_s >= from_s) & (trace.time_s <= rep.hold_end_s)
    found = spectrum(trace.time_s[held], rep.judged.effort(trace.force_n[held]))
    if found is not None:
        return asdict(found)
    why = phrase(
        "needs {length_s:.0f} s without a gap at {rate_hz:.0f} Hz or more",
        length_s=LENGTH_LEAST_S,
        rate_hz=SPECTRUM_HZ,
    )
    return {"spectrum": why}


def _rate_of_force(rep: RepTrace) -> dict[str, object]:
    trace = rep.trace
    rate_hz = 0.0
    if len(trace.time_s) > 1:
        rate_hz = 1 / float(np.median(np.diff(trace.time_s)))
    if rate_hz < RATE_LEAST_HZ * (1 - 1e-3):
        why = phrase(
            "needs {least_hz:.0f} Hz or more; this was {rate_hz:.0f} Hz",
            least_hz=RATE_LEAST_HZ,
            rate_hz=rate_hz,
        )
        return {"rate_of_force": why}
    onset_s = rise_onset_s(rep)
    if onset_s is None:
        force_n = rep.judged.effort(trace.force_n)
        why_not = baseline_problem(trace.time_s, force_n, near_s=rep.start_s)
        return {
            "rate_of_force": phrase(
                "{why}; the onset can be set by hand",
                why=why_not or phrase("no onset: no rise from the baseline"),
            )
        }
    found = rate_of_force(
        trace.time_s,
        rep.judged.effort(trace.force_n),
        onset_s=onset_s,
        end_s=rep.end_s,
        method=ONSET_BY_HAND if "onset" in rep.by_hand else ONSET_METHOD,
    )
    return {} if found is None else asdict(found)
