"""What is tried: families of live filters, and a grid of settings for each."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, assert_never

from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from collections.abc import Iterator

    from biofeedback.phrase import Phrase

CUTOFFS_HZ = (3.0, 4.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0)
ORDERS = (1, 2, 4)
PASSES = (1, 2)
AVERAGES_S = (0.025, 0.05, 0.075, 0.1, 0.15, 0.2)
TIME_CONSTANTS_S = (0.01, 0.02, 0.04, 0.06, 0.1)
CUTOFFS_AT_REST_HZ = (0.5, 1.0, 2.0)
BETAS_PER_N = (0.01, 0.05)


def candidates(*, rate_hz: float, mains_hz: float) -> tuple[FilterChoice, ...]:
    """The grid; despiking and the notch are tried on two families only.

    Args:
        rate_hz: turns the lengths of averages into samples.
        mains_hz: what a notch takes out, 50 or 60 Hz.
    """
    kept = tuple(_families(rate_hz))
    second = [
        choice
        for choice in kept
        if (choice.kind is FilterKind.BUTTERWORTH and choice.order == 2)
        or (choice.kind is FilterKind.CRITICALLY_DAMPED and choice.passes == 1)
    ]
    despiked = [replace(choice, despike=True) for choice in second]
    notched = [replace(choice, notch_hz=mains_hz) for choice in second]
    return tuple(dict.fromkeys((*kept, *despiked, *notched)))


def _families(rate_hz: float) -> Iterator[FilterChoice]:
    yield FilterChoice(FilterKind.NONE)
    for cutoff_hz in CUTOFFS_HZ:
        for order in ORDERS:
            yield FilterChoice(order=order, cutoff_hz=cutoff_hz)
        for passes in PASSES:
            yield FilterChoice(
                FilterKind.CRITICALLY_DAMPED, passes=passes, cutoff_hz=cutoff_hz
            )
    for length_s in AVERAGES_S:
        yield FilterChoice(
            FilterKind.MOVING_AVERAGE, samples=max(2, round(length_s * rate_hz))
        )
    for time_constant_s in TIME_CONSTANTS_S:
        yield FilterChoice(FilterKind.EXPONENTIAL, time_constant_s=time_constant_s)
    for cutoff_hz in CUTOFFS_AT_REST_HZ:
        for beta_per_n in BETAS_PER_N:
            yield FilterChoice(
                FilterKind.ONE_EURO, cutoff_min_hz=cutoff_hz, beta_per_n=beta_per_n
            )


def name_of(choice: FilterChoice) -> Phrase:
    """A candidate in a few words, with its units."""
    name = _family(choice)
    if choice.despike:
        name = phrase("{filter}, despiked", filter=name)
    if choice.notch_hz is not None:
        name = phrase("{filter}, notch {hz:g} Hz", filter=name, hz=choice.notch_hz)
    return name


def _family(choice: FilterChoice) -> Phrase:  # noqa: PLR0911  one for each family
    hz = choice.cutoff_hz
    match choice.kind:
        case FilterKind.NONE:
            return phrase("no filter")
        case FilterKind.BUTTERWORTH:
            return phrase(
                "Butterworth order {order}, {hz:g} Hz", order=choice.order, hz=hz
            )
        case FilterKind.CRITICALLY_DAMPED if choice.passes == 1:
            return phrase("critically damped, 1 pass, {hz:g} Hz", hz=hz)
        case FilterKind.CRITICALLY_DAMPED:
            return phrase(
                "critically damped, {n} passes, {hz:g} Hz", n=choice.passes, hz=hz
            )
        case FilterKind.MOVING_AVERAGE:
            return phrase("moving average of {n}", n=choice.samples)
        case FilterKind.EXPONENTIAL:
            return phrase("exponential, {ms:g} ms", ms=1000 * choice.time_constant_s)
        case FilterKind.ONE_EURO:
            return phrase(
                "one-euro, {hz:g} Hz, {beta:g} per N",
                hz=choice.cutoff_min_hz,
                beta=choice.beta_per_n,
            )
        case _:
            assert_never(choice.kind)
