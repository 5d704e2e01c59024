"""Second-order sections of the linear live filters, and what rates they allow.

Each function gives rows (b0, b1, b2, 1, a1, a2) of shape (sections, 6), in the
order in which they are run. All have gain 1 at DC. They are designed here and not by
scipy, whose `signal` costs half a second of every start; a test compares the two.
Limits are checked here, so that a filter which cannot work at a sample rate is
refused in words.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.conditioning.profile import FilterChoice

HIGHEST_SHARE = 0.45
"""Highest cut-off or notch, as a share of the sample rate. Nearer to one half the
bilinear transform squeezes what is left of the response into a few hertz, and a
board's clock may be off by some per cent."""
LOWEST_SHARE = 1e-4
"""Lowest cut-off, as a share of the sample rate: 0.008 Hz at 80 samples a second,
slower than any feedback, and still far from where double precision suffers."""
ORDER_MAX = 8
PASSES_MAX = 4
SAMPLES_MAX = 10_000
NOTCH_QUALITY = 10.0
"""Centre over −3 dB width: 5 Hz wide at 50 Hz. A plain board's sample clock is off
by some per cent, and the mains with it; a narrower notch would miss it and would
also ring longer. Common practice, no source."""


def check_cutoff(cutoff_hz: float, *, rate_hz: float, name: str) -> None:
    """Sees that a cut-off can work at this sample rate.

    Raises:
        FieldError: names ``filter.<name>`` and says what is allowed.
    """
    highest_hz = HIGHEST_SHARE * rate_hz
    lowest_hz = LOWEST_SHARE * rate_hz
    if not cutoff_hz <= highest_hz:
        raise FieldError(
            f"filter.{name}",
            phrase(
                "{cutoff_hz:g} Hz is too high for {rate_hz:g} samples a second.",
                cutoff_hz=cutoff_hz,
                rate_hz=rate_hz,
            ),
            phrase(
                "Choose at most {highest_hz:g} Hz, or a higher sample rate.",
                highest_hz=highest_hz,
            ),
        )
    if cutoff_hz < lowest_hz:
        raise FieldError(
            f"filter.{name}",
            phrase(
                "{cutoff_hz:g} Hz is too low for {rate_hz:g} samples a second.",
                cutoff_hz=cutoff_hz,
                rate_hz=rate_hz,
            ),
            phrase("Choose at least {lowest_hz:g} Hz.", lowest_hz=lowest_hz),
        )


def check_whole(number: int, *, most: int, name: str) -> None:
    """Sees that a number of things is 1 to `most`.

    Raises:
        FieldError: names ``filter.<name>``.
    """
    if not 1 <= number <= most:
        raise FieldError(
            f"filter.{name}",
            phrase("is {number}; it must be 1 to {most}.", number=number, most=most),
        )


def butterworth(choice: FilterChoice, *, rate_hz: float) -> npt.NDArray[np.float64]:
    """Butterworth low pass by the bilinear transform, −3 dB exactly at the cut-off.

    The poles of the analogue filter lie evenly on a half circle (Butterworth, 1930);
    each pair of them makes a section of quality 1/(2 cos θ), and one pole that is
    left over in odd orders a section of the first order.
    """
    check_whole(choice.order, most=ORDER_MAX, name="order")
    check_cutoff(choice.cutoff_hz, rate_hz=rate_hz, name="cutoff_hz")
    order = choice.order
    w = math.tan(math.pi * choice.cutoff_hz / rate_hz)
    rows = []
    if order % 2:
        b0 = w / (1.0 + w)
        rows.append([b0, b0, 0.0, 1.0, (w - 1.0) / (w + 1.0), 0.0])
    # From the dullest pair to the sharpest, so that no section overloads the next.
    for pair in reversed(range(order // 2)):
        angle = math.pi * (2 * pair + 1) / (2 * order)
        damped = 2.0 * math.sin(angle) * w  # w/Q
        scale = 1.0 / (1.0 + damped + w * w)
        b0 = w * w * scale
        a1, a2 = 2.0 * (w * w - 1.0) * scale, (1.0 - damped + w * w) * scale
        rows.append([b0, 2.0 * b0, b0, 1.0, a1, a2])
    return np.array(rows)


def critically_damped(
    choice: FilterChoice, *, rate_hz: float
) -> npt.NDArray[np.float64]:
    """Critically damped low pass: no overshoot, −3 dB exactly at the cut-off.

    Robertson & Dowling, J. Electromyogr. Kinesiol. 13 (2003) 569–573. Each pass is
    one section with a double pole. Their correction for the number of passes,
    1/√(2^(1/2n) − 1), is applied to the warped frequency: applied before the
    tangent, as is often seen, the gain at the cut-off is not −3 dB.
    """
    check_whole(choice.passes, most=PASSES_MAX, name="passes")
    check_cutoff(choice.cutoff_hz, rate_hz=rate_hz, name="cutoff_hz")
    correction = 1.0 / math.sqrt(2.0 ** (1.0 / (2 * choice.passes)) - 1.0)
    w = correction * math.tan(math.pi * choice.cutoff_hz / rate_hz)
    pole = (1.0 - w) / (1.0 + w)
    b0 = (w / (1.0 + w)) ** 2
    section = [b0, 2 * b0, b0, 1.0, -2 * pole, pole * pole]
    return np.array([section] * choice.passes)


def exponential(choice: FilterChoice, *, rate_hz: float) -> npt.NDArray[np.float64]:
    """Exponential smoothing y += α (x − y) with the exact α = 1 − exp(−T/τ).

    So a step is passed to 1 − 1/e after exactly τ, at any sample rate. The form
    1/(1 + τ/T), also in use, is not the same: 0.1111 for 0.1175 at 80 SPS, 0.1 s.
    """
    tau_s = choice.time_constant_s
    slowest_s = 1.0 / (LOWEST_SHARE * rate_hz)
    if not 0.0 < tau_s <= slowest_s:
        raise FieldError(
            "filter.time_constant_s",
            phrase(
                "{tau_s:g} s does not fit {rate_hz:g} samples a second.",
                tau_s=tau_s,
                rate_hz=rate_hz,
            ),
            phrase(
                "Choose more than 0 s and at most {slowest_s:g} s.", slowest_s=slowest_s
            ),
        )
    # expm1 keeps the digits where τ is long against the sample period.
    return smoothing(-math.expm1(-1.0 / (rate_hz * tau_s)))


def smoothing(alpha: float) -> npt.NDArray[np.float64]:
    """The section of y += α (x − y)."""
    return np.array([[alpha, 0.0, 0.0, 1.0, alpha - 1.0, 0.0]])


def notch(notch_hz: float, *, rate_hz: float) -> npt.NDArray[np.float64]:
    """Takes out the mains frequency.

    Raises:
        FieldError: the sample rate leaves no room for it. The mains then shows up
            at another, lower frequency, which no filter can tell from force.
    """
    highest_hz = HIGHEST_SHARE * rate_hz
    if not 0.0 < notch_hz <= highest_hz:
        raise FieldError(
            "filter.notch_hz",
            phrase(
                "{notch_hz:g} Hz cannot be taken out at {rate_hz:g} samples a second.",
                notch_hz=notch_hz,
                rate_hz=rate_hz,
            ),
            phrase(
                "It must lie above 0 Hz and at or below "
                "{highest_hz:g} Hz: choose a higher sample rate, or "
                "no notch.",
                highest_hz=highest_hz,
            ),
        )
    turn = 2.0 * math.pi * notch_hz / rate_hz
    # −3 dB at the edges: Orfanidis, Introduction to Signal Processing, 11.3 (from
    # memory; checked against scipy's own design).
    gain = 1.0 / (1.0 + math.tan(turn / NOTCH_QUALITY / 2.0))
    b1 = -2.0 * math.cos(turn) * gain
    return np.array([[gain, b1, gain, 1.0, b1, 2.0 * gain - 1.0]])
