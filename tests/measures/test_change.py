"""Typical error and its band, against published figures and plain simulation."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from measures.published import scores
from scipy import stats

from biofeedback.errors import FieldError
from biofeedback.measures.change import (
    Change,
    Noise,
    Whose,
    band_around,
    judge,
    sd_interval,
    typical_error,
)

FORCES = st.floats(1, 5000)
FIVE = Noise(Whose.OWN, 5.0, 5.0, 13.9, 13.9, 1, 10, 9, (3.4, 9.1))


def noise_of(scores_n: list[list[float]]) -> Noise:
    found = typical_error(scores_n, whose=Whose.CLUB)
    assert found is not None
    return found


# --------------------------------------------------------------- typical error


def test_within_person_sd_of_weir_2005() -> None:
    """Set A: mean square within 53.75 with 8 degrees of freedom."""
    found = noise_of(scores("weir_2005_a.csv").tolist())
    assert found.typical_error_n == pytest.approx(math.sqrt(53.75))
    assert (found.people, found.tests, found.degrees_of_freedom) == (8, 16, 8)
    assert found.mdc95_n == pytest.approx(1.96 * math.sqrt(2 * 53.75))


def test_both_meters_of_bland_and_altman_1986() -> None:
    """Within-subject SD s_w 15.3067 and 19.9108 l/min."""
    readings = scores("bland_altman_1986_pefr.csv")
    for columns, expected in ((slice(0, 2), 15.306669), (slice(2, 4), 19.910831)):
        found = noise_of(readings[:, columns].tolist())
        assert found.typical_error_n == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize(
    ("typical_error_n", "mdc95_n"), [(21.7, "60.1"), (27.5, "76.2")]
)
def test_opar_2013_own_detectable_change(typical_error_n: float, mdc95_n: str) -> None:
    """Opar et al., J Orthop Sports Phys Ther 43 (2013): TE 21.7 to 27.5 N."""
    # Two results this far apart have just this within-person SD.
    apart = typical_error_n * math.sqrt(2)
    found = noise_of([[300, 300 + apart], [350, 350 - apart]])
    assert found.typical_error_n == pytest.approx(typical_error_n)
    assert f"{found.mdc95_n:.1f}" == mdc95_n


def test_one_athletes_own_tests_are_their_sd() -> None:
    own = [412.0, 405.0, 420.0, 398.0, 415.0]
    found = typical_error([own], whose=Whose.OWN)
    assert found is not None
    assert found.whose is Whose.OWN
    assert found.typical_error_n == pytest.approx(np.std(own, ddof=1))
    log_sd = float(np.std(np.log(own), ddof=1))
    assert found.typical_error_pct == pytest.approx(100 * (math.exp(log_sd) - 1))
    assert (found.people, found.tests, found.degrees_of_freedom) == (1, 5, 4)


@given(st.lists(st.lists(FORCES, max_size=5), min_size=1, max_size=6))
def test_pooling_is_the_within_mean_square_of_an_analysis_of_variance(
    people: list[list[float]],
) -> None:
    found = typical_error(people, whose=Whose.CLUB)
    groups = [np.array(person) for person in people if len(person) > 1]
    df = sum(len(group) - 1 for group in groups)
    if found is None:
        assert df < 2 or not any(np.ptp(group) for group in groups)
        return
    pooled = sum(np.var(group, ddof=1) * (len(group) - 1) for group in groups) / df
    assert found.typical_error_n == pytest.approx(math.sqrt(pooled), abs=1e-9)
    assert (found.people, found.degrees_of_freedom) == (len(groups), df)


@given(st.lists(st.lists(FORCES, max_size=4), max_size=5), st.randoms())
def test_order_and_people_tested_once_make_no_difference(
    people: list[list[float]],
    random: object,
) -> None:
    before = typical_error(people, whose=Whose.CLUB)
    mixed = [sorted(person) for person in people] + [[123.0], []]
    random.shuffle(mixed)  # type: ignore[attr-defined]  # hypothesis has no type for it
    after = typical_error(mixed, whose=Whose.CLUB)
    if before is None or after is None:
        assert before is after
        return
    assert after.typical_error_n == pytest.approx(before.typical_error_n, abs=1e-9)
    assert (after.people, after.tests) == (before.people, before.tests)


@given(st.floats(0.01, 100))
def test_the_unit_changes_newtons_and_no_percentage(factor: float) -> None:
    own = [[400.0, 420.0, 390.0], [250.0, 240.0]]
    before = noise_of(own)
    after = noise_of([[factor * score for score in person] for person in own])
    assert after.typical_error_n == pytest.approx(factor * before.typical_error_n)
    assert after.typical_error_pct == pytest.approx(before.typical_error_pct)


@pytest.mark.parametrize(
    "people",
    [
        [],
        [[]],
        [[400.0]],
        [[400.0], [300.0], [350.0]],
        [[400.0, 410.0]],  # one degree of freedom
        [[400.0, 400.0, 400.0], [300.0, 300.0]],
    ],
)
def test_where_the_noise_cannot_be_told(people: list[list[float]]) -> None:
    assert typical_error(people, whose=Whose.CLUB) is None


@pytest.mark.parametrize("bad", [0.0, -1.0, 1e-300, 1e18, math.nan, math.inf])
def test_a_result_that_is_no_force_is_refused(bad: float) -> None:
    with pytest.raises(FieldError, match="N is no result"):
        typical_error([[400.0, 410.0, bad]], whose=Whose.OWN)
    with pytest.raises(FieldError, match="N is no result"):
        judge(bad, [400.0], FIVE)
    with pytest.raises(FieldError, match="N is no result"):
        judge(400.0, [bad], FIVE)


# --------------------------------------------------------------------- interval


@pytest.mark.parametrize(
    ("df", "lower", "upper"),
    [
        (4, 0.599, 2.874),
        (7, 0.661, 2.035),
        (9, 0.688, 1.826),
        (14, 0.732, 1.577),
        (19, 0.760, 1.461),
        (29, 0.796, 1.344),
    ],
)
def test_the_multipliers_of_an_sd(df: int, lower: float, upper: float) -> None:
    """Chi-square tables; n = 5 and n = 10 are printed in Hopkins 2000."""
    assert sd_interval(1.0, df=df) == pytest.approx((lower, upper), abs=6e-4)


def test_the_interval_holds_the_true_sd_as_often_as_it_says() -> None:
    rng = np.random.default_rng(2)
    held = 0
    for _ in range(2000):
        people = rng.normal(400, 12, (4, 3))
        found = noise_of(people.tolist())
        lower, upper = found.typical_error_interval_n
        held += lower <= 12 <= upper
    # 2000 draws with a chance of 0.95 each: 1862 to 1936 in all but 1 of 5000.
    assert 1862 <= held <= 1936


# ------------------------------------------------------------------------- band


@pytest.mark.parametrize(
    ("tests", "half"), [(1, 13.9), (2, 12.0), (3, 11.3), (5, 10.7), (8, 10.4)]
)
def test_half_width_of_the_band_for_a_typical_error_of_5(
    tests: int, half: float
) -> None:
    lower_n, upper_n = band_around([100.0] * tests, FIVE)
    assert upper_n - 100 == pytest.approx(half, abs=0.05)
    assert 100 - lower_n == pytest.approx(upper_n - 100)


def test_with_one_earlier_result_it_is_the_detectable_change() -> None:
    noise = noise_of([[400.0, 420.0, 390.0], [250.0, 240.0]])
    lower_n, upper_n = band_around([380.0], noise)
    assert upper_n - 380 == pytest.approx(noise.mdc95_n)
    assert 380 - lower_n == pytest.approx(noise.mdc95_n)


@pytest.mark.parametrize("earlier", [1, 2, 5])
def test_nineteen_of_twenty_unchanged_results_lie_within(earlier: int) -> None:
    rng = np.random.default_rng(3)
    true = dataclasses.replace(FIVE, typical_error_n=12.0)
    results = rng.normal(400, 12, (4000, earlier + 1))
    within = sum(
        judge(float(row[0]), row[1:].tolist(), true) is Change.WITHIN for row in results
    )
    # 4000 draws with a chance of 0.95 each: 3748 to 3850 in all but 1 of 5000.
    assert 3748 <= within <= 3850


def test_what_is_said_of_a_change() -> None:
    lower_n, upper_n = band_around([100.0, 104.0], FIVE)
    said = [
        judge(new_n, [100.0, 104.0], FIVE)
        for new_n in (math.nextafter(lower_n, 0), lower_n, 102, upper_n, upper_n + 0.01)
    ]
    within = Change.WITHIN
    assert said == [Change.LESS, within, within, within, Change.MORE]


def test_nothing_is_said_without_noise_or_baseline() -> None:
    assert judge(500.0, [400.0], None) is Change.UNKNOWN
    assert judge(500.0, [], FIVE) is Change.UNKNOWN
    with pytest.raises(FieldError, match="no earlier result"):
        band_around([], FIVE)


# -------------------------------------------------------------------- per cents


@pytest.mark.parametrize(
    ("cv_pct", "mdc_pct"),
    [(3, 8.3), (4, 11.1), (5, 13.9), (6, 16.6), (8, 22.2), (10, 27.7)],
)
def test_detectable_change_of_a_variation(cv_pct: float, mdc_pct: float) -> None:
    # Two results a ratio apart have a within-person SD of ln(ratio)/√2 in logarithms.
    ratio = (1 + cv_pct / 100) ** math.sqrt(2)
    found = noise_of([[300, 300 * ratio], [400 * ratio, 400]])
    assert found.typical_error_pct == pytest.approx(cv_pct)
    assert found.mdc95_pct == pytest.approx(mdc_pct, abs=0.05)


def test_sds_of_logarithms_agree_with_scipy() -> None:
    """The geometric SD of one person's tests, less one, is the percentage."""
    own = [412.0, 405.0, 420.0, 398.0, 415.0]
    found = typical_error([own], whose=Whose.OWN)
    assert found is not None
    assert found.typical_error_pct == pytest.approx(100 * (stats.gstd(own) - 1))
