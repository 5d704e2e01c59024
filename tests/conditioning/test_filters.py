"""The live filters against published tables, closed forms and scipy."""

from __future__ import annotations

import math

import numpy as np
import pytest
from conditioning.examples import EACH_KIND, RATE_HZ, name_of, table
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import signal

from biofeedback.conditioning.filters import design, linear_sections
from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.conditioning.sections import NOTCH_QUALITY
from biofeedback.errors import FieldError

each_kind = pytest.mark.parametrize("choice", EACH_KIND, ids=name_of)


def noise(n: int, channels: int = 2, seed: int = 1) -> np.ndarray:
    return 200.0 + 5.0 * np.random.default_rng(seed).standard_normal((n, channels))


# Against tables and scipy.


@pytest.mark.parametrize("row", table("butterworth_order_2.csv"), ids=str)
def test_butterworth_of_order_2_has_the_tabled_coefficients(row: np.void) -> None:
    choice = FilterChoice(order=2, cutoff_hz=float(row["fc_Hz"]))
    [section] = linear_sections(choice, rate_hz=float(row["fs_Hz"]))
    expected = [row["b0"], row["b1"], row["b2"], 1.0, row["a1"], row["a2"]]
    np.testing.assert_allclose(section, expected, atol=1e-13)


@pytest.mark.parametrize("order", range(1, 9))
def test_butterworth_runs_as_scipys_sosfilt_does(order: int) -> None:
    force_n = noise(300)
    choice = FilterChoice(order=order, cutoff_hz=5.0)
    shown_n = design(choice, rate_hz=RATE_HZ, channels=2).push(force_n)
    sos = signal.butter(order, 5.0, fs=RATE_HZ, output="sos")
    state = signal.sosfilt_zi(sos)[:, :, np.newaxis] * force_n[0]
    expected_n, _ = signal.sosfilt(sos, force_n, axis=0, zi=state)
    np.testing.assert_allclose(shown_n, expected_n, rtol=0, atol=1e-11)


def test_notch_is_scipys_iirnotch_ahead_of_the_low_pass() -> None:
    force_n = noise(300)
    choice = FilterChoice(cutoff_hz=5.0, notch_hz=30.0)
    shown_n = design(choice, rate_hz=RATE_HZ, channels=2).push(force_n)
    from_start_n = force_n - force_n[0]
    b, a = signal.iirnotch(30.0, NOTCH_QUALITY, fs=RATE_HZ)
    b2, a2 = signal.butter(2, 5.0, fs=RATE_HZ)
    expected_n = signal.lfilter(
        b2, a2, signal.lfilter(b, a, from_start_n, axis=0), axis=0
    )
    np.testing.assert_allclose(shown_n, expected_n + force_n[0], rtol=0, atol=1e-10)


def test_notch_takes_the_mains_out_and_leaves_the_force() -> None:
    time_s = np.arange(2000) / 320.0
    mains_n = 3.0 * np.sin(2 * math.pi * 50.0 * time_s)
    choice = FilterChoice(kind=FilterKind.NONE, notch_hz=50.0)
    shown_n = design(choice, rate_hz=320.0, channels=1).push(120.0 + mains_n[:, None])
    np.testing.assert_allclose(shown_n[1000:], 120.0, atol=1e-6)


def test_critically_damped_has_the_published_coefficients() -> None:
    """Robertson & Dowling 2003 at 80 Hz, 6 Hz, one pass, on the warped frequency."""
    choice = FilterChoice(kind=FilterKind.CRITICALLY_DAMPED, cutoff_hz=6.0)
    [[b0, b1, b2, _, a1, a2]] = linear_sections(choice, rate_hz=80.0)
    assert b0 == pytest.approx(0.0738115444, abs=1e-10)
    assert (b1, b2) == (pytest.approx(2 * b0), pytest.approx(b0))
    assert -a1 == pytest.approx(0.9132687959, abs=1e-10)
    assert -a2 == pytest.approx(-0.2085149734, abs=1e-10)


@pytest.mark.parametrize("passes", [1, 2, 3, 4])
def test_critically_damped_correction_is_the_published_one(passes: int) -> None:
    """Robertson & Dowling 2003: the formulas with K1 and K2, as printed."""
    correction = {1: 1.5537739740, 2: 2.2989592228, 3: 2.8575855453}.get(
        passes, 1 / math.sqrt(2 ** (1 / 8) - 1)
    )
    w = correction * math.tan(math.pi * 6.0 / 80.0)
    k1, k2 = 2 * w, w * w
    a0 = k2 / (1 + k1 + k2)
    b1 = 2 * a0 * (1 / k2 - 1)
    choice = FilterChoice(
        kind=FilterKind.CRITICALLY_DAMPED, cutoff_hz=6.0, passes=passes
    )
    sections = linear_sections(choice, rate_hz=80.0)
    expected = [a0, 2 * a0, a0, 1.0, -b1, -(1 - (4 * a0 + b1))]
    np.testing.assert_allclose(sections, [expected] * passes, atol=1e-10)


@pytest.mark.parametrize("samples", [1, 2, 4, 7, 80])
def test_moving_average_is_the_mean_of_the_newest_samples(samples: int) -> None:
    force_n = noise(400)
    choice = FilterChoice(kind=FilterKind.MOVING_AVERAGE, samples=samples)
    shown_n = design(choice, rate_hz=RATE_HZ, channels=2).push(force_n)
    stood_before = np.concatenate((np.repeat(force_n[:1], samples - 1, 0), force_n))
    windows = np.lib.stride_tricks.sliding_window_view(stood_before, samples, axis=0)
    np.testing.assert_allclose(shown_n, windows.mean(axis=-1), rtol=0, atol=1e-10)


def test_exponential_is_at_1_minus_1_over_e_after_its_time_constant() -> None:
    choice = FilterChoice(kind=FilterKind.EXPONENTIAL, time_constant_s=0.1)
    smooth = design(choice, rate_hz=80.0, channels=1)
    smooth.push(np.zeros((1, 1)))
    shown_n = smooth.push(np.full((8, 1), 100.0))  # 8 samples are 0.1 s
    assert shown_n[0, 0] == pytest.approx(11.75030974, abs=1e-8)
    assert shown_n[-1, 0] == pytest.approx(100 * (1 - math.exp(-1)), abs=1e-9)


def test_ramp_lags_as_the_closed_form_says() -> None:
    """100 N/s through order 2, 5 Hz at 80 SPS: 100·√2/(2 tan(π 5/80))/80."""
    ramp_n = np.arange(800.0)[:, np.newaxis] * 100.0 / 80.0
    shown_n = design(FilterChoice(cutoff_hz=5.0), rate_hz=80.0, channels=1).push(ramp_n)
    assert ramp_n[-1, 0] - shown_n[-1, 0] == pytest.approx(4.443582, abs=1e-6)


# What holds for each kind.


@each_kind
@settings(max_examples=20)  # for each of twenty-odd filters
@given(cuts=st.lists(st.integers(0, 60), max_size=12))
def test_answer_does_not_depend_on_the_cuts(
    choice: FilterChoice, cuts: list[int]
) -> None:
    force_n = noise(60)
    whole = design(choice, rate_hz=RATE_HZ, channels=2).push(force_n)
    cut = design(choice, rate_hz=RATE_HZ, channels=2)
    parts = [cut.push(part) for part in np.split(force_n, sorted(cuts))]
    assert np.concatenate(parts).tobytes() == whole.tobytes()


@each_kind
def test_first_sample_stands_as_if_for_ever(choice: FilterChoice) -> None:
    steady_n = np.tile([[137.25, -12.5]], (200, 1))
    shown_n = design(choice, rate_hz=RATE_HZ, channels=2).push(steady_n)
    np.testing.assert_allclose(shown_n, steady_n, rtol=0, atol=1e-10)


@each_kind
def test_reset_leaves_nothing_of_what_was_before(choice: FilterChoice) -> None:
    after_n = noise(50, seed=2)
    used = design(choice, rate_hz=RATE_HZ, channels=2)
    used.push(noise(50, seed=3) * 7.0)
    used.reset()
    fresh = design(choice, rate_hz=RATE_HZ, channels=2)
    assert used.push(after_n).tobytes() == fresh.push(after_n).tobytes()


@each_kind
def test_constant_shifts_the_answer_by_itself(choice: FilterChoice) -> None:
    """So that zero may be taken away after the filter."""
    force_n, shift_n = noise(200), np.array([35.0, -80.0])
    plain = design(choice, rate_hz=RATE_HZ, channels=2).push(force_n)
    shifted = design(choice, rate_hz=RATE_HZ, channels=2).push(force_n + shift_n)
    np.testing.assert_allclose(shifted, plain + shift_n, rtol=0, atol=1e-9)


@each_kind
def test_channels_do_not_mix(choice: FilterChoice) -> None:
    both_n = noise(100)
    together = design(choice, rate_hz=RATE_HZ, channels=2).push(both_n)
    alone = design(choice, rate_hz=RATE_HZ, channels=1).push(both_n[:, 1:])
    np.testing.assert_array_equal(together[:, 1:], alone)


@each_kind
def test_input_is_left_as_it_was(choice: FilterChoice) -> None:
    force_n = noise(20)
    force_n.setflags(write=False)
    shown_n = design(choice, rate_hz=RATE_HZ, channels=2).push(force_n)
    assert shown_n is not force_n
    assert shown_n.flags.writeable


# What is refused.


@pytest.mark.parametrize(
    ("choice", "field", "words"),
    [
        (FilterChoice(cutoff_hz=10.0), "filter.cutoff_hz", "too high for 20 samples"),
        (FilterChoice(cutoff_hz=1e-4), "filter.cutoff_hz", "too low for 20 samples"),
        (FilterChoice(cutoff_hz=math.nan), "filter.cutoff_hz", "too high"),
        (FilterChoice(cutoff_hz=2.0, order=9), "filter.order", "1 to 8"),
        (
            FilterChoice(kind=FilterKind.CRITICALLY_DAMPED, cutoff_hz=9.1),
            "filter.cutoff_hz",
            "at most 9 Hz",
        ),
        (
            FilterChoice(kind=FilterKind.CRITICALLY_DAMPED, cutoff_hz=2.0, passes=0),
            "filter.passes",
            "1 to 4",
        ),
        (
            FilterChoice(kind=FilterKind.MOVING_AVERAGE, samples=0),
            "filter.samples",
            "1 to 10000",
        ),
        (
            FilterChoice(kind=FilterKind.EXPONENTIAL, time_constant_s=0.0),
            "filter.time_constant_s",
            "more than 0 s",
        ),
        (
            FilterChoice(kind=FilterKind.ONE_EURO, cutoff_min_hz=15.0),
            "filter.cutoff_min_hz",
            "too high",
        ),
        (
            FilterChoice(kind=FilterKind.ONE_EURO, cutoff_derivative_hz=15.0),
            "filter.cutoff_derivative_hz",
            "too high",
        ),
        (
            FilterChoice(kind=FilterKind.ONE_EURO, beta_per_n=-1.0),
            "filter.beta_per_n",
            "0 or more",
        ),
        (
            FilterChoice(cutoff_hz=2.0, notch_hz=50.0),
            "filter.notch_hz",
            "50 Hz cannot be taken out at 20 samples a second",
        ),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_setting_that_the_rate_does_not_allow_is_refused_in_words(
    choice: FilterChoice, field: str, words: str
) -> None:
    with pytest.raises(FieldError) as caught:
        design(choice, rate_hz=20.0, channels=1)
    assert caught.value.field == field
    assert words in str(caught.value)


@pytest.mark.parametrize("cutoff_hz", [9.0, 0.002])
def test_edges_of_what_is_allowed_are_inside(cutoff_hz: float) -> None:
    choice = FilterChoice(order=8, cutoff_hz=cutoff_hz)
    shown_n = design(choice, rate_hz=20.0, channels=1).push(noise(5000, 1))
    assert np.isfinite(shown_n).all()
