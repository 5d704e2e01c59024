"""What a filter says of itself, against closed forms, tables and measured noise."""

from __future__ import annotations

import math

import numpy as np
import pytest
from conditioning.examples import EACH_KIND, RATE_HZ, name_of, table
from scipy import integrate, signal, stats

from biofeedback.conditioning.despike import Despike
from biofeedback.conditioning.filter_facts import MEDIAN_COVARIANCE, facts
from biofeedback.conditioning.filters import design
from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.errors import FieldError

ALL = [
    *EACH_KIND,
    FilterChoice(despike=True),
    FilterChoice(FilterKind.NONE, despike=True),
]
all_choices = pytest.mark.parametrize("choice", ALL, ids=name_of)
# One-euro is told at rest; on a ramp or after a step it is quicker than that.
all_but_one_euro = pytest.mark.parametrize(
    "choice",
    [choice for choice in ALL if choice.kind is not FilterKind.ONE_EURO],
    ids=name_of,
)


# Delay.


@pytest.mark.parametrize("row", table("butterworth_order_2.csv"), ids=str)
def test_delay_of_butterworth_order_2_is_the_tabled_one(row: np.void) -> None:
    told = facts(FilterChoice(cutoff_hz=float(row["fc_Hz"])), float(row["fs_Hz"]))
    assert told.delay_s * 1000 == pytest.approx(row["dc_group_delay_ms"], rel=1e-7)


def test_delay_of_order_2_at_5_hz_and_80_samples_a_second() -> None:
    assert facts(FilterChoice(cutoff_hz=5.0), 80.0).delay_s == pytest.approx(
        0.0444358, abs=5e-8
    )


@pytest.mark.parametrize("order", range(1, 9))
def test_delay_of_butterworth_is_the_closed_form(order: int) -> None:
    """1/(2 sin(π/2n) tan(π fc/fs)) samples."""
    told = facts(FilterChoice(order=order, cutoff_hz=7.0), RATE_HZ)
    samples = 0.5 / math.sin(math.pi / (2 * order)) / math.tan(math.pi * 7.0 / RATE_HZ)
    assert told.delay_s * RATE_HZ == pytest.approx(samples, rel=1e-10)


def test_delay_of_critically_damped_is_below_butterworths() -> None:
    """Double pole: τ·ωc = 1.2871885 with the warped ωc; √2 for Butterworth."""
    choice = FilterChoice(kind=FilterKind.CRITICALLY_DAMPED, cutoff_hz=6.0)
    omega = 2 * RATE_HZ * math.tan(math.pi * 6.0 / RATE_HZ)
    assert facts(choice, RATE_HZ).delay_s * omega == pytest.approx(1.2871885, abs=1e-7)


def test_delays_of_the_simple_smoothers() -> None:
    average = facts(FilterChoice(FilterKind.MOVING_AVERAGE, samples=8), 80.0)
    assert average.delay_s == pytest.approx(3.5 / 80.0)
    exponential = facts(FilterChoice(FilterKind.EXPONENTIAL, time_constant_s=0.1), 80.0)
    alpha = 0.1175030974
    assert exponential.delay_s * 80.0 == pytest.approx((1 - alpha) / alpha, rel=1e-8)
    at_rest = facts(FilterChoice(FilterKind.ONE_EURO, cutoff_min_hz=1.0), 80.0)
    alpha = 0.0728205071
    assert at_rest.delay_s * 80.0 == pytest.approx((1 - alpha) / alpha, rel=1e-8)
    assert facts(FilterChoice(FilterKind.NONE), 80.0).delay_s == 0.0


def test_despiking_costs_one_sample() -> None:
    plain = facts(FilterChoice(), 80.0)
    despiked = facts(FilterChoice(despike=True), 80.0)
    assert despiked.delay_s - plain.delay_s == pytest.approx(1 / 80.0)
    assert despiked.overshoot_pct == plain.overshoot_pct
    assert despiked.cutoff_3db_hz == plain.cutoff_3db_hz


def test_notch_adds_its_own_delay() -> None:
    b, a = signal.iirnotch(50.0, 10.0, fs=320.0)
    _, samples = signal.group_delay((b, a), w=[1e-3], fs=320.0)
    plain = facts(FilterChoice(), 320.0)
    notched = facts(FilterChoice(notch_hz=50.0), 320.0)
    added = (notched.delay_s - plain.delay_s) * 320.0
    assert added == pytest.approx(samples[0], rel=1e-6)


@all_but_one_euro
def test_delay_is_the_lag_behind_a_steady_ramp(choice: FilterChoice) -> None:
    ramp_n = np.arange(3000.0)[:, np.newaxis]
    shown_n = ramp_n
    if choice.despike:
        shown_n = Despike().push(shown_n)
    shown_n = design(choice, rate_hz=RATE_HZ, channels=1).push(shown_n)
    lag_samples = ramp_n[-1, 0] - shown_n[-1, 0]
    assert facts(choice, RATE_HZ).delay_s * RATE_HZ == pytest.approx(
        lag_samples, abs=1e-6
    )


# The −3 dB point.


@pytest.mark.parametrize(
    "choice",
    [
        *(FilterChoice(order=order, cutoff_hz=6.0) for order in range(1, 9)),
        *(
            FilterChoice(FilterKind.CRITICALLY_DAMPED, passes=passes, cutoff_hz=6.0)
            for passes in range(1, 5)
        ),
    ],
    ids=name_of,
)
def test_cutoff_is_the_minus_3_db_point(choice: FilterChoice) -> None:
    assert facts(choice, RATE_HZ).cutoff_3db_hz == pytest.approx(6.0, rel=1e-9)


@pytest.mark.parametrize(
    ("samples", "share"),
    [
        (2, 0.25),
        (4, 0.113848),
        (5, 0.090159),
        (8, 0.055745),
        (10, 0.044487),
        (16, 0.027731),
        (20, 0.022171),
        (32, 0.013848),
    ],
)
def test_cutoff_of_the_moving_average(samples: int, share: float) -> None:
    """|sin(πfN/fs)/(N sin(πf/fs))|² = 1/2, solved numerically."""
    told = facts(FilterChoice(FilterKind.MOVING_AVERAGE, samples=samples), RATE_HZ)
    assert told.cutoff_3db_hz == pytest.approx(share * RATE_HZ, abs=1e-6 * RATE_HZ)


@pytest.mark.parametrize(
    ("alpha", "share"), [(0.1, 0.016784), (0.2, 0.035663), (0.5, 0.115027)]
)
def test_cutoff_of_exponential_smoothing(alpha: float, share: float) -> None:
    """cos(2πf/fs) = 1 − α²/(2(1 − α))."""
    tau_s = -1.0 / (RATE_HZ * math.log(1 - alpha))
    told = facts(FilterChoice(FilterKind.EXPONENTIAL, time_constant_s=tau_s), RATE_HZ)
    assert told.cutoff_3db_hz == pytest.approx(share * RATE_HZ, abs=1e-6 * RATE_HZ)


def test_no_low_pass_has_no_cutoff() -> None:
    assert facts(FilterChoice(FilterKind.NONE), RATE_HZ).cutoff_3db_hz is None
    one = FilterChoice(FilterKind.MOVING_AVERAGE, samples=1)
    assert facts(one, RATE_HZ).cutoff_3db_hz is None


# Overshoot.


@pytest.mark.parametrize(
    ("cutoff_hz", "percent"), [(5.0, 4.555419), (6.0, 4.690055), (10.0, 5.542605)]
)
def test_overshoot_of_digital_butterworth_order_2(
    cutoff_hz: float, percent: float
) -> None:
    told = facts(FilterChoice(cutoff_hz=cutoff_hz), 80.0)
    assert told.overshoot_pct == pytest.approx(percent, abs=1e-6)


@pytest.mark.parametrize(
    ("order", "percent"), [(2, 4.3213918), (3, 8.14654), (4, 10.83015)]
)
def test_overshoot_comes_near_the_analogue_filters(order: int, percent: float) -> None:
    """Order 2: e^(−π). Sampled 1000 times a cut-off period the two agree."""
    told = facts(FilterChoice(order=order, cutoff_hz=0.08), 80.0)
    assert told.overshoot_pct == pytest.approx(percent, abs=1e-3)


@pytest.mark.parametrize(
    "choice",
    [
        *(
            FilterChoice(FilterKind.CRITICALLY_DAMPED, passes=passes, cutoff_hz=6.0)
            for passes in range(1, 5)
        ),
        FilterChoice(FilterKind.MOVING_AVERAGE, samples=8),
        FilterChoice(FilterKind.EXPONENTIAL),
        FilterChoice(FilterKind.ONE_EURO),
        FilterChoice(FilterKind.NONE),
    ],
    ids=name_of,
)
def test_some_never_overshoot(choice: FilterChoice) -> None:
    assert facts(choice, RATE_HZ).overshoot_pct == 0.0


@all_but_one_euro
def test_overshoot_is_that_of_a_step(choice: FilterChoice) -> None:
    step = np.concatenate((np.zeros((3, 1)), np.ones((2000, 1))))
    if choice.despike:
        step = Despike().push(step)
    shown = design(choice, rate_hz=RATE_HZ, channels=1).push(step)
    expected = max(0.0, 100 * (float(shown.max()) - 1.0))
    assert facts(choice, RATE_HZ).overshoot_pct == pytest.approx(expected, abs=1e-6)


# Noise.


def test_noise_gains_have_their_closed_forms() -> None:
    average = facts(FilterChoice(FilterKind.MOVING_AVERAGE, samples=8), 80.0)
    assert average.noise_gain == pytest.approx(1 / 8)
    tangent = math.tan(math.pi * 5.0 / 80.0)
    first_order = facts(FilterChoice(order=1, cutoff_hz=5.0), 80.0)
    assert first_order.noise_gain == pytest.approx(tangent / (1 + tangent))
    exponential = facts(FilterChoice(FilterKind.EXPONENTIAL, time_constant_s=0.1), 80.0)
    alpha = 0.1175030974
    assert exponential.noise_gain == pytest.approx(alpha / (2 - alpha), rel=1e-8)
    assert facts(FilterChoice(FilterKind.NONE), 80.0).noise_gain == 1.0


@pytest.mark.parametrize(
    ("order", "bandwidth"),
    [(2, 1.110721), (3, 1.047198), (4, 1.026172), (5, 1.016641), (6, 1.011515)],
)
def test_noise_gain_tends_to_the_analogue_bandwidth(
    order: int, bandwidth: float
) -> None:
    """Variance left = noise bandwidth over half the rate, (π/2n)/sin(π/2n)·fc."""
    told = facts(FilterChoice(order=order, cutoff_hz=0.08), 80.0)
    assert told.noise_gain == pytest.approx(bandwidth * 0.08 / 40.0, rel=2e-5)


@all_choices
def test_noise_gain_is_what_is_left_of_white_noise(choice: FilterChoice) -> None:
    if choice.kind is FilterKind.ONE_EURO:
        choice = FilterChoice(
            FilterKind.ONE_EURO, beta_per_n=0.0, notch_hz=choice.notch_hz
        )
    white = np.random.default_rng(20).standard_normal((100_000, 4))
    shown = Despike().push(white) if choice.despike else white
    shown = design(choice, rate_hz=RATE_HZ, channels=4).push(shown)[1000:]
    # Against the variance of the very noise, so that only the filter is judged.
    left = float(shown.var() / white.var())
    assert facts(choice, RATE_HZ).noise_gain == pytest.approx(left, rel=0.02)


def test_covariance_of_the_median_of_three() -> None:
    """By order statistics: the median expected, given the samples that two share."""
    pdf, cdf = stats.norm.pdf, stats.norm.cdf

    def given_two(low: float, high: float) -> float:
        inside = pdf(low) - pdf(high)  # ∫ t·pdf(t) from low to high
        return float(low * cdf(low) + high * (1 - cdf(high)) + inside)

    def given_one(c: float) -> float:
        lower = integrate.quad(lambda t: 2 * t * pdf(t) * cdf(t), -9, c)[0]
        upper = integrate.quad(lambda t: 2 * t * pdf(t) * (1 - cdf(t)), c, 9)[0]
        return float(2 * c * cdf(c) * (1 - cdf(c)) + lower + upper)

    def sharing_two(high: float) -> float:
        return float(
            2 * integrate.quad(lambda a: given_two(a, high) ** 2 * pdf(a), -9, high)[0]
        )

    # The trapezoidal rule is all but exact for a smooth bump.
    grid, width = np.linspace(-6, 6, 25, retstep=True)
    at_0, at_1, at_2 = MEDIAN_COVARIANCE
    assert at_0 == pytest.approx(1 - math.sqrt(3) / math.pi, abs=1e-7)
    two = sum(sharing_two(c) * pdf(c) for c in grid) * width
    assert at_1 == pytest.approx(two, abs=1e-6)
    one = sum(given_one(c) ** 2 * pdf(c) for c in grid) * width
    assert at_2 == pytest.approx(one, abs=1e-6)


def test_default_keeps_the_shown_value_younger_than_60_ms() -> None:
    """Half a sample period, the filter, and half a frame and one at 60 Hz."""
    age_s = 0.5 / 80.0 + facts(FilterChoice(), 80.0).delay_s + 1.5 / 60.0
    assert age_s < 0.060


def test_facts_refuse_what_the_filter_refuses() -> None:
    with pytest.raises(FieldError, match="too high for 10 samples"):
        facts(FilterChoice(cutoff_hz=10.0), 10.0)
    with pytest.raises(FieldError, match="too high for 2 samples"):
        facts(FilterChoice(FilterKind.ONE_EURO), 2.0)
