"""Sets drawn by Hypothesis, on a grid so coarse that edges are hit exactly."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from hypothesis import strategies as st
from training.oracle import Rules, Sample
from training.scripted import TWO_CELLS, Script

from biofeedback.conditioning.profile import Side
from biofeedback.training.band import Band
from biofeedback.training.prescription import BandOn, ClockRule, Prescription
from biofeedback.training.task import Task

if TYPE_CHECKING:
    from collections.abc import Sequence

EdgesN = tuple[Fraction, Fraction | None]


@dataclass(frozen=True)
class Drawn:
    """One set, in floats for the program and in fractions for the oracle."""

    script: Script
    prescription: Prescription
    sides: Sequence[Side]
    samples: list[Sample]
    rules: Rules


def _band(edges: EdgesN) -> Band:
    lower, upper = edges
    if upper is None:
        return Band.at_least(float(lower))
    return Band(float(lower), float(upper))


# Half the onset level is 2.5 N or, for a lower edge of 60 N, 3 N. What makes holds
# and ends of reps is drawn more often.
LEVELS_N = [-2, 1, 2.5, 3, 4, 5, 6, 8, 10, 15, 20, 35, 40, 45, 50, 60, 80, 90]
FORCES = st.sampled_from(LEVELS_N + 4 * [0, 25, 30, 70]).map(Fraction)
EDGES: st.SearchStrategy[EdgesN] = st.sampled_from(
    [
        (Fraction(20), Fraction(40)),
        (Fraction(10), Fraction(30)),
        (Fraction(60), Fraction(80)),
        (Fraction(30), Fraction(35)),
        (Fraction(0), Fraction(50)),
        (Fraction(40), None),
        (Fraction(60), None),
    ]
)
STEPS_MS = st.sampled_from([10, 20, 50, 100, 150, 250, 300])


@st.composite
def rules(draw: st.DrawFn, *, cells: int, band: EdgesN) -> Rules:
    """Whatever a prescription can ask for with this band."""
    lower, upper = band
    top = lower if upper is None else upper
    ceilings = [None, *(Fraction(n) for n in (45, 70, 85) if n > top)]
    on = ["total"] if cells == 1 else ["total", "each side", "left", "right"]
    balance = st.none() if cells == 1 else st.sampled_from([None, None, 5, 10, 25])
    points = draw(balance)
    return Rules(
        hold=Fraction(draw(st.sampled_from([50, 200, 500, 1000, 1500, 3000])), 1000),
        grace=Fraction(draw(st.sampled_from([0, 50, 100, 300, 1000])), 1000),
        clock=draw(st.sampled_from(["unbroken", "banked", "running"])),
        band_on=draw(st.sampled_from(on)),
        reps=draw(st.sampled_from([1, 2, 20])),
        balance=None if points is None else Fraction(points),
        balance_required=points is not None and draw(st.booleans()),
        ceiling=draw(st.sampled_from(ceilings)),
    )


@st.composite
def sets(draw: st.DrawFn) -> Drawn:
    """A set with gaps, unusable samples and nudges."""
    cells = draw(st.sampled_from([1, 2]))
    band = draw(EDGES)
    asked = draw(rules(cells=cells, band=band))
    force = st.tuples(*([FORCES] * cells))
    flaw = st.sampled_from([""] * 10 + ["lost", "bad"])
    row = st.tuples(force, STEPS_MS, flaw, st.integers(1, 4))
    rows = draw(st.lists(row, min_size=2, max_size=30))
    first_band = band
    samples: list[Sample] = []
    nudges: list[tuple[int, Band]] = []
    time = Fraction(draw(st.sampled_from([0, 7, 3600])))
    for forces, step_ms, flaw_here, repeat in rows:
        if samples and draw(st.integers(0, 14)) == 14:
            moved = draw(EDGES)
            top = moved[0] if moved[1] is None else moved[1]
            if moved != band and (asked.ceiling is None or top < asked.ceiling):
                band = moved
                nudges.append((len(samples), _band(band)))
        for nth in range(repeat):
            lost = flaw_here == "lost" and nth == 0 and bool(samples)
            samples.append(Sample(time, forces, flaw_here != "bad", lost, band))
            time += Fraction(step_ms, 1000)
    if not any(sample.good for sample in samples):
        samples = [
            Sample(s.time, s.force, True, s.lost_before, s.band) for s in samples
        ]
    return Drawn(
        script=Script.of(
            [float(sample.time) for sample in samples],
            [[float(one) for one in sample.force] for sample in samples],
            good=[sample.good for sample in samples],
            lost=[int(sample.lost_before) for sample in samples],
            bands=tuple(nudges),
        ),
        prescription=Prescription(
            task=Task("drawn"),
            band=_band(first_band),
            hold_s=float(asked.hold),
            clock=ClockRule(asked.clock),
            reps=asked.reps,
            grace_s=float(asked.grace),
            band_on=BandOn(asked.band_on),
            balance_tolerance_points=(
                None if asked.balance is None else float(asked.balance)
            ),
            balance_required=asked.balance_required,
            ceiling_n=None if asked.ceiling is None else float(asked.ceiling),
        ),
        sides=(Side.SINGLE,) if cells == 1 else TWO_CELLS,
        samples=samples,
        rules=asked,
    )
