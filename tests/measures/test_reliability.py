"""Reliability, against published tables and plain least squares.

The expected values of the intraclass correlations and their intervals were found with
R's psych package (2.2.9, lmer=FALSE) and agree with what the papers print.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from hypothesis.extra import numpy as drawn
from measures.published import scores
from scipy import stats

from biofeedback.errors import FieldError
from biofeedback.measures.reliability import IccForm, icc, variation
from biofeedback.measures.trial_error import typical_error_of_trials

if TYPE_CHECKING:
    import numpy.typing as npt

    Floats = npt.NDArray[np.float64]

SHROUT, WEIR, HOPKINS = "shrout_fleiss_1979.csv", "weir_2005_a.csv", "hopkins_2000.csv"
SINGLE = (IccForm.ONE_WAY, IccForm.AGREEMENT, IccForm.CONSISTENCY)

tables = drawn.arrays(
    np.float64,
    st.tuples(st.integers(2, 7), st.integers(2, 4)),
    elements=st.integers(50, 500).map(float),
)

EXPECTED = {
    SHROUT: {
        "ICC(1,1)": (0.165742, -0.132932, 0.722560),
        "ICC(2,1)": (0.289764, 0.018787, 0.761084),
        "ICC(3,1)": (0.714841, 0.342465, 0.945858),
        "ICC(1,k)": (0.442797, -0.884442, 0.912415),
        "ICC(2,k)": (0.620051, 0.071137, 0.927232),
        "ICC(3,k)": (0.909316, 0.675675, 0.985892),
    },
    WEIR: {
        "ICC(1,1)": (0.950053, 0.792130, 0.989599),
        "ICC(2,1)": (0.949975, 0.786959, 0.989637),
        "ICC(3,1)": (0.947016, 0.760678, 0.989163),
        "ICC(1,k)": (0.974387, 0.884009, 0.994772),
        "ICC(2,k)": (0.974346, 0.880780, 0.994791),
        "ICC(3,k)": (0.972787, 0.864074, 0.994552),
    },
    HOPKINS: {
        "ICC(1,1)": (0.945216, 0.655533, 0.994003),
        "ICC(2,1)": (0.945022, 0.625516, 0.994044),
        "ICC(3,1)": (0.938399, 0.532303, 0.993404),
        "ICC(1,k)": (0.971836, 0.791930, 0.996992),
        "ICC(2,k)": (0.971734, 0.769621, 0.997013),
        "ICC(3,k)": (0.968221, 0.694775, 0.996691),
    },
}


# ------------------------------------------------------------------ the analysis


def test_mean_squares_of_shrout_and_fleiss_1979() -> None:
    """Table 3: between targets 11.24, judges 32.49, error 1.02, within 6.26."""
    found = variation(scores(SHROUT))
    assert found.ms_people == pytest.approx(11.241667, abs=1e-6)
    assert found.ms_trials == pytest.approx(32.486111, abs=1e-6)
    assert found.ms_error == pytest.approx(1.019444, abs=1e-6)
    assert found.ms_within == pytest.approx(6.263889, abs=1e-6)
    assert (found.people, found.trials, found.error_df) == (6, 4, 15)


@pytest.mark.parametrize(
    ("name", "t", "p"), [(WEIR, -0.727809, 0.490353), (HOPKINS, 0.656611, 0.547287)]
)
def test_a_change_of_two_trials_is_the_paired_t_test(
    name: str, t: float, p: float
) -> None:
    table = scores(name)
    found = variation(table)
    assert found.trials_f == pytest.approx(t**2, abs=1e-5)
    assert found.trials_p == pytest.approx(p, abs=1e-6)
    independent = stats.ttest_rel(table[:, 1], table[:, 0])
    assert found.trials_p == pytest.approx(independent.pvalue)


@given(tables)
def test_one_way_part_agrees_with_scipy(table: Floats) -> None:
    found = variation(table)
    assume(found.ms_within > 0)
    f = stats.f_oneway(*table).statistic
    assert found.ms_people / found.ms_within == pytest.approx(f)


@pytest.mark.parametrize(
    "bad", [[], [1.0, 2.0], [[1.0, 2.0]], [[1.0], [2.0]], [[1.0, math.nan], [2.0, 3.0]]]
)
def test_what_is_no_table_is_refused(bad: object) -> None:
    with pytest.raises(FieldError, match="scores"):
        variation(bad)  # type: ignore[arg-type]  # wrong on purpose


# ------------------------------------------------------ intraclass correlations


@pytest.mark.parametrize("name", EXPECTED)
@pytest.mark.parametrize("form", IccForm)
def test_the_six_forms_on_published_tables(name: str, form: IccForm) -> None:
    found = icc(variation(scores(name)), form)
    assert (found.value, found.lower, found.upper) == pytest.approx(
        EXPECTED[name][form.value], abs=6e-7
    )


@pytest.mark.parametrize(
    ("form", "printed"),
    [
        (IccForm.ONE_WAY, ".17"),
        (IccForm.AGREEMENT, ".29"),
        (IccForm.CONSISTENCY, ".71"),
        (IccForm.ONE_WAY_MEAN, ".44"),
        (IccForm.AGREEMENT_MEAN, ".62"),
        (IccForm.CONSISTENCY_MEAN, ".91"),
    ],
)
def test_as_shrout_and_fleiss_print_them(form: IccForm, printed: str) -> None:
    """Table 4 of the paper, printed values from memory."""
    found = icc(variation(scores(SHROUT)), form)
    assert f"{found.value:.2f}".lstrip("0") == printed


def test_a_lower_limit_below_zero_is_not_cut_off() -> None:
    found = icc(variation(scores(SHROUT)), IccForm.ONE_WAY)
    assert found.lower is not None
    assert found.lower == pytest.approx(-0.132932, abs=6e-7)
    # People who swap places from trial to trial: the least that is possible.
    swapped = variation([[1.0, 3.0], [3.0, 1.0], [2.0, 2.1]])
    value = icc(swapped, IccForm.CONSISTENCY).value
    assert value is not None
    assert -1 <= value < -0.9


@given(tables, st.integers(-40, 40), st.integers(0, 3))
def test_a_constant_added_to_a_trial_leaves_consistency(
    table: Floats, constant: int, column: int
) -> None:
    moved = table.copy()
    moved[:, column % table.shape[1]] += constant
    before, after = variation(table), variation(moved)
    for form in (IccForm.CONSISTENCY, IccForm.CONSISTENCY_MEAN):
        one, two = icc(before, form), icc(after, form)
        for name in ("value", "lower", "upper"):
            assert getattr(one, name) == pytest.approx(getattr(two, name), abs=1e-9)


def test_a_constant_added_to_a_trial_lowers_agreement() -> None:
    table = scores(WEIR)
    before = icc(variation(table), IccForm.AGREEMENT).value
    after = icc(variation(table + np.array([0, 40])), IccForm.AGREEMENT).value
    assert before is not None
    assert after is not None
    assert after < before - 0.1


@given(tables, st.floats(0.01, 100), st.floats(-1000, 1000), st.randoms())
def test_unit_origin_and_order_of_people_make_no_difference(
    table: Floats, factor: float, constant: float, random: object
) -> None:
    rows = table.tolist()
    random.shuffle(rows)  # type: ignore[attr-defined]  # hypothesis has no type for it
    before, after = variation(table), variation(factor * np.array(rows) + constant)
    assume(before.ms_error > 0)
    for form in SINGLE:
        assert icc(after, form).value == pytest.approx(icc(before, form).value)
    assert math.sqrt(after.ms_error) == pytest.approx(
        factor * math.sqrt(before.ms_error)
    )


@pytest.mark.parametrize("form", [IccForm.ONE_WAY, IccForm.CONSISTENCY])
def test_the_interval_holds_the_truth_as_often_as_it_says(form: IccForm) -> None:
    rng = np.random.default_rng(4)
    held = 0
    for _ in range(1500):
        people = rng.normal(0, 2, (12, 1)) + rng.normal(0, 1, (12, 3))
        found = icc(variation(people), form)
        assert found.lower is not None
        assert found.upper is not None
        held += found.lower <= 0.8 <= found.upper  # 2²/(2² + 1²)
    # 1500 draws with a chance of 0.95 each: 1393 to 1456 in all but 1 of 5000.
    assert 1393 <= held <= 1456


def test_a_wider_interval_at_a_higher_level() -> None:
    found = variation(scores(WEIR))
    for form in IccForm:
        narrow, wide = icc(found, form, level=0.90), icc(found, form, level=0.99)
        assert narrow.lower is not None
        assert wide.lower is not None
        assert wide.lower < narrow.lower


@given(tables)
def test_the_value_lies_within_its_interval(table: Floats) -> None:
    found = variation(table)
    for form in IccForm:
        one = icc(found, form)
        if one.value is None:
            continue
        assert one.value <= 1 + 1e-12
        if one.lower is not None:
            assert one.lower <= one.value + 1e-9
        if one.upper is not None:
            assert one.value <= one.upper + 1e-9


def test_limits_that_would_miss_the_value_are_not_given() -> None:
    # By the formula they would be -0.00 and -0.03, the wrong way round.
    found = icc(variation([[50.0, 70.0], [52.0, 66.0]]), IccForm.AGREEMENT)
    assert found.value == pytest.approx(-4 / 145)
    assert found.lower is found.upper is None


@pytest.mark.parametrize(
    ("table", "value"),
    [
        ([[1.0, 1.0], [1.0, 1.0]], None),  # nobody differs and nothing varies
        ([[0.1, 0.1], [0.3, 0.3]], 1.0),  # all repeat exactly
        ([[0.1, 0.2], [0.3, 0.4], [1.1, 1.2]], 1.0),  # but for a constant
        ([[1.0, 2.0], [1.0, 2.0]], None),  # people are alike, trials differ
    ],
)
def test_scores_without_error(table: list[list[float]], value: float | None) -> None:
    found = icc(variation(table), IccForm.CONSISTENCY)
    assert found.value == value
    assert found.lower == found.upper == value


# --------------------------------------------------------- error of measurement


@pytest.mark.parametrize(
    ("name", "sem", "interval", "cv_pct", "mdc95", "mdc90"),
    [
        # Weir prints a standard error of measurement of 7.6.
        (WEIR, 7.556927, (4.996445, 15.380402), 5.161627, 20.946732, 17.580293),
        # Hopkins prints a typical error of 2.9 kg.
        (HOPKINS, 2.889637, (1.731277, 8.303532), 4.079351, 8.009664, 6.722397),
    ],
)
def test_error_of_published_tables(
    name: str,
    sem: float,
    interval: tuple[float, float],
    cv_pct: float,
    mdc95: float,
    mdc90: float,
) -> None:
    found = typical_error_of_trials(scores(name))
    assert found is not None
    assert found.sem == pytest.approx(sem, abs=6e-7)
    assert found.interval == pytest.approx(interval, abs=6e-7)
    assert found.cv_pct == pytest.approx(cv_pct, abs=6e-7)
    assert found.mdc95 == pytest.approx(mdc95, abs=6e-7)
    assert found.mdc90 == pytest.approx(mdc90, abs=6e-7)


def test_two_trials_are_the_sd_of_their_differences() -> None:
    """SD of differences / √2, of scores and of logarithms (Hopkins 2000)."""
    table = scores(HOPKINS)
    found = typical_error_of_trials(table)
    assert found is not None
    apart = np.std(np.diff(table), ddof=1)
    assert apart == pytest.approx(4.1, abs=0.05)
    assert found.sem == pytest.approx(apart / math.sqrt(2))
    logs = np.std(np.diff(np.log(table)), ddof=1) / math.sqrt(2)
    assert found.cv_pct == pytest.approx(100 * np.expm1(logs))
    assert found.cv_pct is not None
    assert found.cv_interval_pct is not None
    assert found.cv_interval_pct[0] < found.cv_pct < found.cv_interval_pct[1]


@given(tables)
def test_it_is_sd_times_root_of_one_less_icc(table: Floats) -> None:
    """Exactly so, with the SD pooled over trials and ICC(3,1) (Weir 2005)."""
    found = variation(table)
    error = typical_error_of_trials(table)
    assert error is not None
    assert error.sem == pytest.approx(math.sqrt(found.ms_error), abs=1e-9)
    value = icc(found, IccForm.CONSISTENCY).value
    assume(value is not None)
    pooled = math.sqrt(np.mean(np.var(table, axis=0, ddof=1)))
    assert value is not None
    assert error.sem == pytest.approx(pooled * math.sqrt(1 - value), abs=1e-4)


def test_with_the_sd_of_all_scores_it_is_another_number() -> None:
    table = scores(WEIR)
    value = icc(variation(table), IccForm.CONSISTENCY).value
    assert value is not None
    other = np.std(table, ddof=1) * math.sqrt(1 - value)
    assert other == pytest.approx(7.307999, abs=6e-7)


def test_a_more_alike_group_has_the_same_error_and_a_lower_correlation() -> None:
    """The point of Weir 2005: the correlation depends on the spread of the group."""
    wide = scores(WEIR)
    alike = wide - 0.9 * (wide.mean(axis=1, keepdims=True) - wide.mean())
    for name in ("sem", "mdc95", "interval"):
        assert getattr(typical_error_of_trials(alike), name) == pytest.approx(
            getattr(typical_error_of_trials(wide), name)
        )
    before = icc(variation(wide), IccForm.CONSISTENCY).value
    after = icc(variation(alike), IccForm.CONSISTENCY).value
    assert before is not None
    assert after is not None
    assert after < 0.2
    assert before > 0.9


def dummies(table: Floats) -> tuple[float, int]:
    """Root of the error mean square and its df, by least squares on dummies."""
    table = table[np.isfinite(table).sum(axis=1) > 1]
    person, trial = np.nonzero(np.isfinite(table))
    design = np.zeros((len(person), sum(table.shape)))
    design[np.arange(len(person)), person] = 1
    design[np.arange(len(person)), len(table) + trial] = 1
    values = table[person, trial]
    fitted, _, rank, _ = np.linalg.lstsq(design, values)
    left = values - design @ fitted
    df = len(values) - int(rank)
    return (math.sqrt(left @ left / df) if df else math.nan), df


@given(tables, st.data())
def test_missing_scores_against_least_squares_on_dummies(
    table: Floats, data: st.DataObject
) -> None:
    missing = data.draw(
        drawn.arrays(np.bool_, table.shape, elements=st.sampled_from([0, 0, 0, 1]))
    )
    holed = np.where(missing, np.nan, table)
    assume((np.isfinite(holed).sum(axis=1) > 1).any())
    sem, df = dummies(holed)
    found = typical_error_of_trials(holed)
    if df < 1:
        assert found is None
        return
    assert found is not None
    assert found.degrees_of_freedom == df
    assert found.sem == pytest.approx(sem, abs=1e-7)
    kept = holed[np.isfinite(holed).sum(axis=1) > 1]
    assert (found.people, found.scores) == (len(kept), np.isfinite(kept).sum())


def test_people_who_share_no_trial_with_the_others() -> None:
    no = math.nan
    found = typical_error_of_trials(
        [[1.0, 2.0, no, no], [3.0, 5.0, no, no], [no, no, 4.0, 6.0], [no, no, 7.0, 7.0]]
    )
    assert found is not None
    # Two tables of two people and two trials, one degree of freedom each.
    assert found.degrees_of_freedom == 2
    parts = [variation([[1, 2], [3, 5]]), variation([[4, 6], [7, 7]])]
    assert found.sem**2 == pytest.approx(sum(part.ms_error for part in parts) / 2)


def test_scores_that_differ_beyond_all_per_cents() -> None:
    found = typical_error_of_trials([[1.0, 1.0], [1.0, 1e-300]])
    assert found is not None
    assert found.cv_pct is None


def test_a_score_of_zero_has_no_logarithm_and_no_percentage() -> None:
    found = typical_error_of_trials([[0.0, 1.0], [2.0, 4.0], [5.0, 5.5]])
    assert found is not None
    assert found.sem > 0
    assert found.cv_pct is None
    assert found.cv_interval_pct is None


@pytest.mark.parametrize(
    "table",
    [
        [[1.0, 2.0]],
        [[1.0, math.nan], [2.0, math.nan], [math.nan, 3.0]],
        [[1.0, math.nan, 2.0, math.nan], [math.nan, 1.0, math.nan, 2.0]],
    ],
)
def test_where_nothing_is_left_for_the_error(table: list[list[float]]) -> None:
    assert typical_error_of_trials(table) is None
