"""Bands, tolerances, and everything a prescription says, there and back."""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.errors import FieldError
from biofeedback.training.band import FORCE_MAX_N, Band
from biofeedback.training.prescription import (
    HOLD_LEAST_S,
    BandOn,
    ClockRule,
    FeedbackMode,
    Prescription,
)
from biofeedback.training.reference import (
    REFERENCE_LEAST_N,
    Definition,
    Origin,
    Reference,
)
from biofeedback.training.task import Sides, Task, TaskKind
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Callable


def there_and_back(values: dict[str, object]) -> Fields:
    """Through JSON text as the standard has it: no NaN, no infinity."""
    return Fields(json.loads(json.dumps(values, allow_nan=False)))


# Ranges of the trade: common practice, no published source.
@pytest.mark.parametrize(
    ("lower_pct", "upper_pct", "lower_n", "upper_n"),
    [
        (25, 40, 60, 96),  # early after a repair, by the day's pain
        (10, 20, 24, 48),  # early protected work
        (15, 20, 36, 48),  # daily long low holds
    ],
)
def test_a_range_in_percent_of_a_reference_of_240_n(
    lower_pct: float, upper_pct: float, lower_n: float, upper_n: float
) -> None:
    band = Band.from_percent(lower_pct, upper_pct, reference_n=240)
    assert (band.lower_n, band.upper_n) == pytest.approx((lower_n, upper_n))


# Common practice, no published source: 70 % for 10 s reps later on, 50 % for a
# newly introduced direction.
@pytest.mark.parametrize(("centre_pct", "centre_n"), [(70, 168), (50, 120)])
def test_a_centre_in_percent_of_a_reference_of_240_n(
    centre_pct: float, centre_n: float
) -> None:
    of_centre = Band.from_percent_of_centre(centre_pct, 10, reference_n=240)
    of_reference = Band.from_points_of_reference(centre_pct, 10, reference_n=240)
    assert of_centre.centre_n == pytest.approx(centre_n)
    assert of_reference.centre_n == pytest.approx(centre_n)


def test_at_least_80_percent_of_240_n() -> None:
    """Common practice late on, no published source: no upper edge."""
    band = Band.at_least(240 * 80 / 100)
    assert band.lower_n == 192
    assert band.open_above
    assert band.centre_n == 192
    assert math.isinf(band.width_n)


def test_percent_of_the_centre_are_not_points_of_the_reference() -> None:
    """20 % of 200 N is 40 N: 5 % of that is 2 N, 5 points of 200 N are 10 N."""
    of_centre = Band.from_percent_of_centre(20, 5, reference_n=200)
    of_reference = Band.from_points_of_reference(20, 5, reference_n=200)
    assert (of_centre.lower_n, of_centre.upper_n) == pytest.approx((38, 42))
    assert (of_reference.lower_n, of_reference.upper_n) == pytest.approx((30, 50))


def test_centre_and_width() -> None:
    assert Band.from_centre(100, 20) == Band(90, 110)
    assert Band(90, 110).centre_n == 100
    assert Band(90, 110).width_n == 20
    assert Band.from_centre(5, 20) == Band(0, 15)


def test_a_band_is_moved_and_widened() -> None:
    assert Band(90, 110).moved(5) == Band(95, 115)
    assert Band(10, 30).moved(-25) == Band(0, 20)
    assert Band.at_least(90).moved(5) == Band.at_least(95)
    assert Band(90, 110).widened(10) == Band(85, 115)
    assert Band(90, 110).widened(-10) == Band(95, 105)
    assert Band(2, 10).widened(10) == Band(0, 15)
    assert Band.at_least(90).widened(10) == Band.at_least(90)


@pytest.mark.parametrize(
    ("make", "field"),
    [
        (lambda: Band(-1, 10), "band.lower_n"),
        (lambda: Band(math.nan, 10), "band.lower_n"),
        (lambda: Band(math.inf, math.inf), "band.lower_n"),
        (lambda: Band(FORCE_MAX_N + 1, math.inf), "band.lower_n"),
        (lambda: Band(10, 10), "band.upper_n"),
        (lambda: Band(10, 5), "band.upper_n"),
        (lambda: Band(10, math.nan), "band.upper_n"),
        (lambda: Band(10, FORCE_MAX_N + 1), "band.upper_n"),
        (lambda: Band(90, 110).widened(-20), "band.upper_n"),
        (lambda: Band.from_percent(40, 25, reference_n=240), "band.upper_n"),
        (lambda: Band.from_percent(10, 20, reference_n=0), "band.upper_n"),
        (
            lambda: Band.from_points_of_reference(5, 10, reference_n=240),
            "band.lower_n",
        ),
        (
            lambda: Reference(0, Origin.TYPED, Definition.PEAK, "2026-01-31"),
            "reference.force_n",
        ),
        (
            lambda: Reference(math.nan, Origin.TYPED, Definition.PEAK, "2026-01-31"),
            "reference.force_n",
        ),
        (
            lambda: Reference(240, Origin.TYPED, Definition.PEAK, " "),
            "reference.date",
        ),
    ],
)
def test_what_cannot_be_is_refused_by_name(
    make: Callable[[], object], field: str
) -> None:
    with pytest.raises(FieldError) as caught:
        make()
    assert caught.value.field == field


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"hold_s": 0.0}, "hold_s"),
        ({"hold_s": 3601.0}, "hold_s"),
        ({"hold_s": math.nan}, "hold_s"),
        ({"reps": 0}, "reps"),
        ({"reps": 1001}, "reps"),
        ({"sets": 0}, "sets"),
        ({"rest_s": -1.0}, "rest_s"),
        ({"grace_s": -0.1}, "grace_s"),
        ({"grace_s": 61.0}, "grace_s"),
        ({"ceiling_n": 80.0}, "ceiling_n"),
        ({"ceiling_n": math.nan}, "ceiling_n"),
        ({"ceiling_n": math.inf}, "ceiling_n"),
        ({"balance_tolerance_points": -1.0}, "balance_tolerance_points"),
        ({"balance_tolerance_points": 51.0}, "balance_tolerance_points"),
        ({"balance_required": True}, "balance_required"),
    ],
)
def test_a_prescription_names_the_field_that_does_not_fit(
    changes: dict[str, object], field: str
) -> None:
    fits: dict[str, object] = {
        "task": Task("knee, 60°"),
        "band": Band(80, 120),
        "hold_s": 10.0,
    }
    with pytest.raises(FieldError) as caught:
        Prescription(**(fits | changes))  # type: ignore[arg-type]
    assert caught.value.field == field


TEXTS = st.text(max_size=40)
TASKS = st.builds(Task, TEXTS, st.sampled_from(TaskKind), st.sampled_from(Sides))
REFERENCES = st.builds(
    Reference,
    st.floats(REFERENCE_LEAST_N, FORCE_MAX_N),
    st.sampled_from(Origin),
    st.sampled_from(Definition),
    TEXTS.filter(str.strip),
)


@st.composite
def bands(draw: st.DrawFn) -> Band:
    lower_n = draw(st.floats(0, FORCE_MAX_N, exclude_max=True))
    if draw(st.booleans()):
        return Band.at_least(lower_n)
    return Band(lower_n, draw(st.floats(lower_n, FORCE_MAX_N, exclude_min=True)))


@st.composite
def prescriptions(draw: st.DrawFn) -> Prescription:
    band = draw(bands())
    points = draw(st.none() | st.floats(0, 50))
    top_n = band.lower_n if band.open_above else band.upper_n
    above: st.SearchStrategy[float] = st.nothing()
    if top_n < FORCE_MAX_N:
        above = st.floats(top_n, FORCE_MAX_N, exclude_min=True)
    return Prescription(
        task=draw(TASKS),
        band=band,
        hold_s=draw(st.floats(HOLD_LEAST_S, 3600)),
        clock=draw(st.sampled_from(ClockRule)),
        reps=draw(st.integers(1, 1000)),
        sets=draw(st.integers(1, 100)),
        rest_s=draw(st.floats(0, 3600)),
        grace_s=draw(st.floats(0, 60)),
        band_on=draw(st.sampled_from(BandOn)),
        reference=draw(st.none() | REFERENCES),
        balance_tolerance_points=points,
        balance_required=points is not None and draw(st.booleans()),
        ceiling_n=draw(st.none() | above),
        feedback=draw(st.sampled_from(FeedbackMode)),
    )


@given(bands())
def test_a_band_is_the_same_after_json(band: Band) -> None:
    assert Band.from_json(there_and_back(band.to_json())) == band


@given(TASKS, REFERENCES)
def test_task_and_reference_are_the_same_after_json(
    task: Task, reference: Reference
) -> None:
    assert Task.from_json(there_and_back(task.to_json())) == task
    assert Reference.from_json(there_and_back(reference.to_json())) == reference


@given(prescriptions())
def test_a_prescription_is_the_same_after_json(prescription: Prescription) -> None:
    read = Prescription.from_json(there_and_back(prescription.to_json()))
    assert read == prescription


def test_an_open_band_is_written_as_null() -> None:
    assert Band.at_least(192).to_json() == {"lower_n": 192, "upper_n": None}


@pytest.mark.parametrize(
    ("path", "value", "field"),
    [
        (("band", "lower_n"), "80", "band.lower_n"),
        (("band", "upper_n"), -1, "band.upper_n"),
        (("task", "kind"), "dance", "task.kind"),
        (("reference", "date"), 7, "reference.date"),
        (("clock",), "sundial", "clock"),
        (("hold_s",), None, "hold_s"),
        (("reps",), 2.5, "reps"),
        (("balance_required",), "no", "balance_required"),
    ],
)
def test_a_value_read_that_does_not_fit_is_named(
    path: tuple[str, ...], value: object, field: str
) -> None:
    reference = Reference(240, Origin.OTHER_SIDE, Definition.PEAK, "2026-01-31")
    whole = Prescription(Task("knee"), Band(80, 120), 10.0, reference=reference)
    values: dict[str, object] = json.loads(json.dumps(whole.to_json()))
    inner = values
    for key in path[:-1]:
        found = inner[key]
        assert isinstance(found, dict)
        inner = found
    inner[path[-1]] = value
    with pytest.raises(FieldError) as caught:
        Prescription.from_json(Fields(values))
    assert caught.value.field == field


def test_another_band_leaves_the_rest_as_it_is() -> None:
    before = Prescription(Task("knee"), Band(80, 120), 10.0, reps=3)
    after = before.with_band(Band(90, 130))
    assert after.band == Band(90, 130)
    assert after.with_band(before.band) == before
