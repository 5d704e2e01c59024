"""The rig profile: channels, calibrations, zero, sample rate and filter choice.

A recording carries the profile it was made with, so that its newtons can be
worked out again at any time. `to_json` and `from_json` turn a profile into plain
JSON values and back.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from enum import Enum
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from collections.abc import Mapping

CHANNELS_MAX = 4
STREAMS_MAX = 2
"""As many as one stream can carry; see `hardware/PROTOCOL.md`."""
NEAR_RATED_PCT = 90.0
"""From this share of a cell's rated load on it is told; common practice, no source."""
GAIN_MAX = 255
"""A byte on the wire."""
UNCERTAINTIES_MAX = 20
"""More than a calibration report ever holds."""
RATE_MAX_HZ = 50_000.0
"""Far above any bridge ADC that answers to a person's force."""

SIMULATED_ADC = "simulated"
"""Name of the ADC of the simulated rig."""
SIMULATED = phrase("simulated rig")
"""Label of its own calibration; older recordings tell it by this alone."""


def adc_words(adc: str) -> str:
    """The name of an ADC, for people; that of the simulated rig is no make."""
    return phrase("a simulated rig") if adc == SIMULATED_ADC else adc


def told_simulated(profile: Mapping[str, object]) -> bool:
    """Whether a profile, as JSON of any version, is of the simulated rig.

    The ADC's name tells it, whatever its calibration is called.
    """
    channels = profile.get("channels")
    for channel in channels if isinstance(channels, list) else ():
        calibration = channel.get("calibration") if isinstance(channel, dict) else None
        if isinstance(calibration, dict) and calibration.get("label") == SIMULATED:
            return True
    return profile.get("adc") == SIMULATED_ADC


class Side(Enum):
    """Which side of the athlete a channel belongs to."""

    LEFT = phrase("left")
    RIGHT = phrase("right")
    SINGLE = phrase("single")


_NUMBERED = re.compile(r"cell (\d{1,3})")


class ZeroKind(Enum):
    """What was on the cell while zero was taken; two different things."""

    NONE = phrase("none")
    EMPTY_RIG = phrase("empty rig")
    LIMB_RESTING = phrase("limb resting")


class FilterKind(Enum):
    """The families of live filters."""

    NONE = phrase("none")
    BUTTERWORTH = phrase("butterworth")
    CRITICALLY_DAMPED = phrase("critically damped")
    MOVING_AVERAGE = phrase("moving average")
    EXPONENTIAL = phrase("exponential")
    ONE_EURO = phrase("one-euro")


@dataclass(frozen=True, slots=True)
class FilterChoice:
    """A live filter and its settings; those a family does not use are ignored.

    Attributes:
        order: 1 to 8, Butterworth.
        passes: number of second-order sections, critically damped.
        cutoff_hz: −3 dB point; Butterworth and critically damped.
        samples: length of the moving average.
        time_constant_s: exponential.
        cutoff_min_hz: one-euro's cut-off at rest.
        beta_per_n: one-euro's growth of the cut-off with speed, in 1/N.
        cutoff_derivative_hz: one-euro's cut-off for the speed itself.
        despike: median of three before all else; costs one sample of delay.
        notch_hz: mains frequency to take out, or None.
    """

    kind: FilterKind = FilterKind.BUTTERWORTH
    order: int = 2
    passes: int = 1
    cutoff_hz: float = 10.0
    samples: int = 4
    time_constant_s: float = 0.05
    cutoff_min_hz: float = 1.0
    beta_per_n: float = 0.02
    cutoff_derivative_hz: float = 1.0
    despike: bool = False
    notch_hz: float | None = None

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "kind": self.kind.value,
            "order": self.order,
            "passes": self.passes,
            "cutoff_hz": self.cutoff_hz,
            "samples": self.samples,
            "time_constant_s": self.time_constant_s,
            "cutoff_min_hz": self.cutoff_min_hz,
            "beta_per_n": self.beta_per_n,
            "cutoff_derivative_hz": self.cutoff_derivative_hz,
            "despike": self.despike,
            "notch_hz": self.notch_hz,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> FilterChoice:
        """Checks and reads what `to_json` wrote."""
        positive = {"least": 1e-6, "most": RATE_MAX_HZ}
        return cls(
            kind=fields.choice("kind", FilterKind),
            order=fields.whole("order", least=1, most=8),
            passes=fields.whole("passes", least=1, most=4),
            cutoff_hz=fields.number("cutoff_hz", **positive),
            samples=fields.whole("samples", least=1, most=10_000),
            time_constant_s=fields.number("time_constant_s", least=1e-6, most=60),
            cutoff_min_hz=fields.number("cutoff_min_hz", **positive),
            beta_per_n=fields.number("beta_per_n", least=0, most=1e6),
            cutoff_derivative_hz=fields.number("cutoff_derivative_hz", **positive),
            despike=fields.flag("despike"),
            notch_hz=(
                fields.number("notch_hz", **positive)
                if fields.has("notch_hz")
                else None
            ),
        )


@dataclass(frozen=True, slots=True)
class Calibration:
    """Counts to newtons: force = c0 + c1·counts + c2·counts².

    Attributes:
        coefficients: (c0, c1) or (c0, c1, c2) in N, N/count, N/count².
        label: number or name of the calibration record.
        date: ISO date of the calibration; empty where it is nominal only.
        adc: name of the ADC whose counts these are; empty where not known.
        gain: of the ADC meanwhile; None where it has none, or it is not known.
            Counts at another gain are other counts: see `fits`.
        uncertainty: pairs (force, one standard uncertainty of a shown force), in
            newtons and rising in force; empty where nobody worked it out.
    """

    coefficients: tuple[float, ...]
    label: str = "nominal"
    date: str = ""
    adc: str = ""
    gain: int | None = None
    uncertainty: tuple[tuple[float, float], ...] = ()

    def fits(self, adc: str, gain: int | None) -> bool:
        """Whether it was made with the counts that this ADC gives at this gain.

        A name that is not known speaks against nothing; a gain must be the same.
        """
        return self.gain == gain and (not (self.adc and adc) or self.adc == adc)

    def u_n(self, force_n: float) -> float | None:
        """One standard uncertainty of a shown force; None where not worked out.

        Between the forces of `uncertainty` it lies on a straight line. Below the
        smallest it is that one's, above the largest it grows with the force.
        """
        if not self.uncertainty:
            return None
        last_n, last_u_n = self.uncertainty[-1]
        if force_n > last_n > 0:
            return last_u_n * force_n / last_n
        forces_n, u_n = zip(*self.uncertainty, strict=True)
        return float(np.interp(force_n, forces_n, u_n))

    @classmethod
    def from_rating(
        cls,
        *,
        rated_n: float,
        sensitivity_mv_per_v: float,
        gain: float,
        zero_counts: float = 0.0,
    ) -> Calibration:
        """The nominal line of a ratiometric bridge ADC with ±0.5·reference/gain.

        code = 2^24 · gain · sensitivity · force / rated + zero; the excitation
        cancels (AVIA Semiconductor, HX711 data sheet, full scale ±0.5·AVDD/gain).
        A plausible start, not a calibration: calibrate with known masses.

        Args:
            rated_n: rated load of the cell in newtons.
            sensitivity_mv_per_v: output at rated load in mV/V.
            gain: amplifier gain of the ADC.
            zero_counts: counts of the empty rig.
        """
        n_per_count = rated_n / (2**24 * gain * sensitivity_mv_per_v / 1000.0)
        return cls((-zero_counts * n_per_count, n_per_count))

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "coefficients": list(self.coefficients),
            "label": self.label,
            "date": self.date,
            "adc": self.adc,
            "gain": self.gain,
            "uncertainty": [list(pair) for pair in self.uncertainty],
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Calibration:
        """Checks and reads what `to_json` wrote."""
        coefficients = fields.numbers("coefficients", most=3)
        if len(coefficients) < 2 or not any(coefficients[1:]):
            raise FieldError(
                fields.path("coefficients"),
                phrase("needs a slope that is not zero."),
            )
        return cls(
            coefficients,
            fields.text("label", longest=200),
            fields.text("date", longest=40),
            # Not in the first recordings.
            fields.text("adc", longest=100) if fields.has("adc") else "",
            _gain(fields),
            _uncertainty(fields) if fields.has("uncertainty") else (),
        )


def _gain(fields: Fields) -> int | None:
    """A gain where there is one; not in the first recordings."""
    if not fields.has("gain"):
        return None
    return fields.whole("gain", least=1, most=GAIN_MAX)


def _uncertainty(fields: Fields) -> tuple[tuple[float, float], ...]:
    table = fields.values["uncertainty"]
    where = fields.path("uncertainty")
    if not isinstance(table, list) or len(table) > UNCERTAINTIES_MAX:
        raise FieldError(
            where,
            phrase(
                "must be a list of at most {uncertainties_max} pairs.",
                uncertainties_max=UNCERTAINTIES_MAX,
            ),
        )
    pairs = []
    for row in table:
        pair = Fields({"pair": row}, where).numbers("pair", most=2)
        if len(pair) != 2 or pair[0] < 0 or not 0 <= pair[1] <= 1e6:
            raise FieldError(
                where, phrase("must hold pairs of a force and an uncertainty.")
            )
        pairs.append((pair[0], pair[1]))
    if any(after[0] <= before[0] for before, after in pairwise(pairs)):
        raise FieldError(where, phrase("must rise in force."))
    return tuple(pairs)


@dataclass(frozen=True, slots=True)
class Channel:
    """One load cell.

    Attributes:
        rated_n: rated load of the cell, newtons.
    """

    name: str
    side: Side
    calibration: Calibration
    rated_n: float

    @property
    def words(self) -> str:
        """The name; one that the program gave is a phrase."""
        numbered = _NUMBERED.fullmatch(self.name)
        if numbered:
            return phrase("cell {number}", number=int(numbered[1]))
        given = (side.value for side in Side if side.value == self.name)
        return next(given, self.name)

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "name": self.name,
            "side": self.side.value,
            "calibration": self.calibration.to_json(),
            "rated_n": self.rated_n,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Channel:
        """Checks and reads what `to_json` wrote."""
        return cls(
            fields.text("name", longest=100),
            fields.choice("side", Side),
            Calibration.from_json(fields.inner("calibration")),
            fields.number("rated_n", least=0.001, most=1e7),
        )


@dataclass(frozen=True, slots=True)
class Zero:
    """What each channel showed with nothing pulling; taken away from all after.

    Attributes:
        kind: what was on the cell meanwhile.
        offsets_n: calibrated force to take away, for each channel.
        spreads_n: standard deviation while it was taken, for each channel.
        taken_utc: ISO time, or empty.
    """

    kind: ZeroKind
    offsets_n: tuple[float, ...]
    spreads_n: tuple[float, ...]
    taken_utc: str = ""

    @classmethod
    def none(cls, channels: int) -> Zero:
        """No zero taken yet: nothing is taken away."""
        return cls(ZeroKind.NONE, (0.0,) * channels, (0.0,) * channels)

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "kind": self.kind.value,
            "offsets_n": list(self.offsets_n),
            "spreads_n": list(self.spreads_n),
            "taken_utc": self.taken_utc,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Zero:
        """Checks and reads what `to_json` wrote."""
        return cls(
            fields.choice("kind", ZeroKind),
            fields.numbers("offsets_n", most=CHANNELS_MAX),
            fields.numbers("spreads_n", most=CHANNELS_MAX),
            fields.text("taken_utc", longest=40),
        )


@dataclass(frozen=True, slots=True)
class RigProfile:
    """All that turns this rig's counts into newtons.

    Attributes:
        rate_hz: sample rate.
        filter: what the live force is smoothed with.
        serial_number: of the board this profile belongs to; may be empty.
        near_rated_pct: share of a cell's rated load from which on it is told.
        uncertainty_n: one standard uncertainty (k = 1) of a force that a band
            applies to, as a person gave it; None for what the calibrations say.
        streams: 1 where one converter takes all channels at the same instant; 2
            where each of two channels has a converter with a clock of its own.
        adc: name of the board's ADC; empty where not known.
        gain: in force at the board; None where the ADC has none, or not known.
    """

    name: str
    channels: tuple[Channel, ...]
    rate_hz: float
    zero: Zero
    filter: FilterChoice = FilterChoice()
    serial_number: str = ""
    near_rated_pct: float = NEAR_RATED_PCT
    uncertainty_n: float | None = None
    streams: int = 1
    adc: str = ""
    gain: int | None = None

    def __post_init__(self) -> None:
        if not 1 <= len(self.channels) <= CHANNELS_MAX:
            raise FieldError(
                "channels",
                phrase(
                    "must be 1 to {channels_max} channels.", channels_max=CHANNELS_MAX
                ),
            )
        if len(self.zero.offsets_n) != len(self.channels):
            raise FieldError("zero.offsets_n", phrase("must have one value a channel."))
        if not 1 <= self.near_rated_pct <= 200:
            raise FieldError("near_rated_pct", phrase("must be 1 % to 200 %."))
        if self.uncertainty_n is not None and not 1e-6 <= self.uncertainty_n <= 1e6:
            raise FieldError(
                "uncertainty_n", phrase("must be 0.000001 N to 1000000 N.")
            )
        if self.streams != 1 and not self.streams == len(self.channels) == STREAMS_MAX:
            raise FieldError("streams", phrase("must be 1, or 2 with a channel each."))

    def index_of(self, side: Side) -> int | None:
        """The channel of a side, or None where the rig has none."""
        for index, channel in enumerate(self.channels):
            if channel.side is side:
                return index
        return None

    @property
    def simulated(self) -> bool:
        """Whether the counts were made up: no newton of it was ever pulled."""
        own = (channel.calibration.label for channel in self.channels)
        return self.adc == SIMULATED_ADC or SIMULATED in own  # asked once a frame

    def with_zero(self, zero: Zero) -> RigProfile:
        """The same profile with another zero."""
        return replace(self, zero=zero)

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "name": self.name,
            "channels": [channel.to_json() for channel in self.channels],
            "rate_hz": self.rate_hz,
            "zero": self.zero.to_json(),
            "filter": self.filter.to_json(),
            "serial_number": self.serial_number,
            "near_rated_pct": self.near_rated_pct,
            "uncertainty_n": self.uncertainty_n,
            "streams": self.streams,
            "adc": self.adc,
            "gain": self.gain,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> RigProfile:
        """Checks and reads what `to_json` wrote.

        Raises:
            FieldError: names the field that does not fit.
        """
        return cls(
            name=fields.text("name", longest=200),
            channels=tuple(
                Channel.from_json(item)
                for item in fields.items("channels", most=CHANNELS_MAX)
            ),
            rate_hz=fields.number("rate_hz", least=0.1, most=RATE_MAX_HZ),
            zero=Zero.from_json(fields.inner("zero")),
            filter=FilterChoice.from_json(fields.inner("filter")),
            serial_number=fields.text("serial_number", longest=100),
            # Not in the first recordings.
            near_rated_pct=(
                fields.number("near_rated_pct", least=1, most=200)
                if fields.has("near_rated_pct")
                else NEAR_RATED_PCT
            ),
            uncertainty_n=(
                fields.number("uncertainty_n", least=1e-6, most=1e6)
                if fields.has("uncertainty_n")
                else None
            ),
            streams=(
                fields.whole("streams", least=1, most=STREAMS_MAX)
                if fields.has("streams")
                else 1
            ),
            adc=fields.text("adc", longest=100) if fields.has("adc") else "",
            gain=_gain(fields),
        )
