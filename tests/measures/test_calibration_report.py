"""The report holds together whatever the readings are."""

from __future__ import annotations

import json
import math

import numpy as np
import pytest
from conditioning.calibration_examples import cell
from hypothesis import given, settings
from hypothesis import strategies as st

from biofeedback.conditioning.calibration_points import CalibrationPoint, Direction
from biofeedback.conditioning.gravity import Gravity, local_gravity
from biofeedback.conditioning.known_load import KnownLoad, Reading, stack
from biofeedback.measures.calibration_json import to_json
from biofeedback.measures.calibration_report import Asked, CalibrationReport, report
from biofeedback.measures.calibration_words import in_words


def read(*points: CalibrationPoint, spread: float | None = None) -> list[Reading]:
    return [
        Reading(
            KnownLoad(point.force_n),
            point.counts,
            point.direction,
            point.run,
            spread_counts=spread,
        )
        for point in points
    ]


readings = st.builds(
    Reading,
    load=st.builds(
        KnownLoad,
        force_n=st.sampled_from([0.0, 0.0, 1e-3, 49.0, 98.0, 147.0, 196.0, 9e6]),
        tolerance_n=st.sampled_from([0.0, 0.5]),
    ),
    counts=st.one_of(
        st.integers(-(2**23), 2**23 - 1).map(float),
        st.sampled_from([0.0, 1.0, 84_213.0]),
        # Means of whole numbers: none lies within 1e-300 of another.
        st.floats(-1e12, 1e12).map(lambda counts: round(counts, 6)),
    ),
    direction=st.sampled_from(Direction),
    run=st.integers(1, 4),
    time_s=st.none() | st.floats(0, 1000),
    spread_counts=st.none() | st.floats(0, 1e3),
    others_counts=st.sampled_from([(), (5.0,), (-3e4,)]),
)


@given(
    taken=st.lists(readings, min_size=1, max_size=20),
    degree=st.sampled_from([None, 1, 2]),
    through_zero=st.booleans(),
)
@settings(max_examples=60)
def test_any_readings_give_a_report_in_words_and_json(
    *, taken: list[Reading], degree: int | None, through_zero: bool
) -> None:
    found = report(taken, Asked(degree=degree, through_zero=through_zero))
    text = "\n".join(in_words(found))
    assert "nan" not in text
    values = json.loads(json.dumps(to_json(found), allow_nan=False))
    assert values["refused"] == (found.outcome.conversion is None)
    assert len(values["readings"]) == len(taken)


def test_gravity_is_part_of_the_budget() -> None:
    def expanded_n(gravity: Gravity) -> float:
        loads = [
            KnownLoad.of_mass(stack(f"{kg}", tolerance_pct=0.0), gravity)
            for kg in (0, 5, 10, 15, 20, 25)
        ]
        taken = [Reading(load, 100 * load.force_n) for load in loads]
        return report(taken, Asked(degree=1)).uncertainties[-1].expanded_n

    here = expanded_n(local_gravity(latitude_deg=50, altitude_m=100))
    anywhere = expanded_n(Gravity.standard())
    # ±0.0264 of 9.80665 m/s², rectangular, k = 2, at 25 kg.
    share_n = 2 * 25 * 0.0264 * 0.99985 / math.sqrt(3)
    assert anywhere == pytest.approx(share_n, rel=0.02)
    assert here < anywhere / 20


def test_air_carries_part_of_what_hangs_and_nothing_of_a_read_force() -> None:
    def parts(loads: list[KnownLoad]) -> dict[str, float]:
        taken = [Reading(load, 100 * load.force_n + 7) for load in loads]
        budget = report(taken, Asked(degree=1)).uncertainties[-1].budget
        return {part.name: part.u for part in budget.components}

    place = local_gravity(latitude_deg=50, altitude_m=100)
    hung = parts([KnownLoad.of_mass(stack(f"{kg}"), place) for kg in (0, 5, 10, 20)])
    # Air of 1.2 ± 0.12 kg/m³ about steel of 8000 kg/m³, rectangular.
    air_n = 20 * place.m_s2 * 0.12 / 8000 / math.sqrt(3)
    assert hung["buoyancy of air"] == pytest.approx(air_n, rel=1e-3)
    forces_n = (0.0, 50.0, 100.0, 200.0)
    pulled = parts([KnownLoad(force_n, force_n / 100) for force_n in forces_n])
    assert not {"buoyancy of air", "gravity", "masses"} & set(pulled)
    assert pulled["reference cell"] == pytest.approx(2 / math.sqrt(3), rel=1e-6)


def test_noise_and_hysteresis_make_the_interval_wider() -> None:
    def at_top(found: CalibrationReport) -> float:
        return found.uncertainties[-1].expanded_n

    quiet = report(read(*cell(noise=2.0), spread=2.0))
    noisy = report(read(*cell(noise=200.0), spread=200.0))
    loop = report(read(*cell(noise=2.0, loop=3000.0), spread=2.0))
    assert at_top(noisy) > 5 * at_top(quiet)
    parts = {part.name: part.u for part in loop.uncertainties[-1].budget.components}
    # Half of a loop of 3000 counts at 4295 counts a newton, rectangular; the loads
    # nearest to the middle are at 0.4 and 0.6 of the span: 0.96 of its width.
    assert parts["hysteresis"] == pytest.approx(
        0.96 * 3000 / 4295 / 2 / math.sqrt(3), rel=0.02
    )


def test_the_interval_holds_what_it_says() -> None:
    """Of many calibrations, the true force lies within ± U (k = 2) in about 95 %."""
    inside, trials = 0, 60
    noises = np.random.default_rng(7)
    for seed in range(trials):
        points = cell(noise=400.0, seed=seed, runs=2)
        found = report(read(*points, spread=400.0), Asked(degree=1, resolution_n=0.0))
        row = found.uncertainties[2]
        fit = found.fit
        assert fit is not None
        shown_counts = 84_213 + 4295 * row.force_n + noises.normal(0, 400)
        zero_counts = 84_213 + noises.normal(0, 400)
        shown_n = float(fit.force_n(shown_counts) - fit.force_n(zero_counts))
        inside += abs(shown_n - row.force_n) <= row.expanded_n
    # Misfit and drift, which are noise here, count twice: on the safe side.
    assert inside >= 0.94 * trials


def test_creep_needs_times_well_apart() -> None:
    points = cell(noise=0.0, runs=1)
    taken = read(*points)
    top = next(i for i, p in enumerate(points) if p.force_n == 200)
    late = Reading(KnownLoad(200.0), points[top].counts + 859, time_s=305.0)
    taken[top] = Reading(KnownLoad(200.0), points[top].counts, time_s=5.0)
    creep = report([*taken, late]).creep
    assert creep is not None
    # 859 counts are a thousandth of the span; the mean of both is the output.
    assert creep.pct == pytest.approx(0.1, rel=1e-3)
    near = Reading(KnownLoad(200.0), points[top].counts + 859, time_s=14.0)
    assert report([*taken, near]).creep is None
