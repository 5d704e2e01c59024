"""The rig profile as JSON values, and the names of fields that do not fit."""

from __future__ import annotations

import copy
import dataclasses
import json
from typing import Any

import pytest
from conditioning.examples import rig
from hypothesis import given, settings
from hypothesis import strategies as st

from biofeedback.conditioning.profile import (
    Calibration,
    Channel,
    FilterChoice,
    FilterKind,
    RigProfile,
    Side,
    Zero,
    ZeroKind,
)
from biofeedback.errors import FieldError
from biofeedback.wire.fields import Fields

finite = st.floats(-1e6, 1e6)
positive = st.floats(1e-6, 50_000.0)
words = st.text(max_size=30)
choices = st.builds(
    FilterChoice,
    kind=st.sampled_from(FilterKind),
    order=st.integers(1, 8),
    passes=st.integers(1, 4),
    cutoff_hz=positive,
    samples=st.integers(1, 10_000),
    time_constant_s=st.floats(1e-6, 60.0),
    cutoff_min_hz=positive,
    beta_per_n=st.floats(0.0, 1e6),
    cutoff_derivative_hz=positive,
    despike=st.booleans(),
    notch_hz=st.none() | positive,
)
slopes = finite.filter(bool)
calibrations = st.builds(
    Calibration,
    st.tuples(finite, slopes) | st.tuples(finite, finite, slopes),
    words,
    words,
    adc=words,
    gain=st.none() | st.integers(1, 255),
    uncertainty=st.dictionaries(st.floats(0, 1e6), st.floats(0, 1e6), max_size=20).map(
        lambda table: tuple(sorted(table.items()))
    ),
)
channels = st.builds(
    Channel, words, st.sampled_from(Side), calibrations, st.floats(0.001, 1e7)
)


@st.composite
def profiles(draw: st.DrawFn) -> RigProfile:
    cells = draw(st.lists(channels, min_size=1, max_size=4))
    forces = st.lists(finite, min_size=len(cells), max_size=len(cells)).map(tuple)
    zero = Zero(
        draw(st.sampled_from(ZeroKind)), draw(forces), draw(forces), draw(words)
    )
    return RigProfile(
        draw(words),
        tuple(cells),
        draw(st.floats(0.1, 50_000.0)),
        zero,
        draw(choices),
        draw(words),
        near_rated_pct=draw(st.floats(1, 200)),
        uncertainty_n=draw(st.none() | st.floats(1e-6, 1e6)),
        adc=draw(words),
        gain=draw(st.none() | st.integers(1, 255)),
    )


@settings(max_examples=30)  # each of them is large
@given(profile=profiles())
def test_profile_comes_back_from_json_as_it_was(profile: RigProfile) -> None:
    text = json.dumps(profile.to_json())
    assert RigProfile.from_json(Fields(json.loads(text))) == profile


@pytest.mark.parametrize(
    ("place", "value", "field"),
    [
        (["name"], 5, "name"),
        (["rate_hz"], 0, "rate_hz"),
        (["rate_hz"], float("inf"), "rate_hz"),
        (["serial_number"], "x" * 101, "serial_number"),
        (["channels"], [], "channels"),
        (["channels"], "left", "channels"),
        (["channels", 1], 3, "channels[1]"),
        (["channels", 1, "side"], "middle", "channels[1].side"),
        (["channels", 0, "rated_n"], 0.0, "channels[0].rated_n"),
        (["channels", 0, "name"], None, "channels[0].name"),
        (
            ["channels", 1, "calibration", "coefficients"],
            [1.0, 0.0],
            "channels[1].calibration.coefficients",
        ),
        (
            ["channels", 1, "calibration", "coefficients"],
            [1.0],
            "channels[1].calibration.coefficients",
        ),
        (
            ["channels", 1, "calibration", "coefficients"],
            [1.0, 2.0, 3.0, 4.0],
            "channels[1].calibration.coefficients",
        ),
        (
            ["channels", 1, "calibration", "coefficients", 1],
            float("nan"),
            "channels[1].calibration.coefficients.1",
        ),
        (["channels", 1, "calibration", "date"], 2026, "channels[1].calibration.date"),
        (["channels", 1, "calibration", "gain"], 0, "channels[1].calibration.gain"),
        (["gain"], 256, "gain"),
        *(
            (
                ["channels", 0, "calibration", "uncertainty"],
                table,
                "channels[0].calibration.uncertainty",
            )
            for table in (
                [[50.0, -0.1]],
                [[50.0, 0.1], [50.0, 0.1]],
                [[float(force_n), 0.1] for force_n in range(21)],
            )
        ),
        (["zero", "kind"], "full rig", "zero.kind"),
        (["zero", "offsets_n"], [0.0], "zero.offsets_n"),
        (["zero", "spreads_n"], None, "zero.spreads_n"),
        (["filter", "kind"], "brick wall", "filter.kind"),
        (["filter", "order"], 9, "filter.order"),
        (["filter", "order"], 2.0, "filter.order"),
        (["filter", "passes"], 0, "filter.passes"),
        (["filter", "cutoff_hz"], "10", "filter.cutoff_hz"),
        (["filter", "cutoff_hz"], True, "filter.cutoff_hz"),
        (["filter", "samples"], 0, "filter.samples"),
        (["filter", "time_constant_s"], 61, "filter.time_constant_s"),
        (["filter", "beta_per_n"], -1, "filter.beta_per_n"),
        (["filter", "despike"], 1, "filter.despike"),
        (["filter", "notch_hz"], -50, "filter.notch_hz"),
        (["near_rated_pct"], 0, "near_rated_pct"),
        (["uncertainty_n"], -0.5, "uncertainty_n"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_field_that_does_not_fit_is_named(
    place: list[str | int], value: object, field: str
) -> None:
    content: Any = copy.deepcopy(rig(Side.LEFT, Side.RIGHT).to_json())
    inner = content
    for step in place[:-1]:
        inner = inner[step]
    inner[place[-1]] = value
    with pytest.raises(FieldError) as caught:
        RigProfile.from_json(Fields(content))
    assert caught.value.field == field


ADDED = {"near_rated_pct", "uncertainty_n", "streams", "adc", "gain"}


def test_first_recordings_know_neither_uncertainty_nor_share_of_rated_load() -> None:
    content = {key: value for key, value in rig().to_json().items() if key not in ADDED}
    old = RigProfile.from_json(Fields(content))
    assert (old.near_rated_pct, old.uncertainty_n) == (90.0, None)
    assert old.streams == 1


@pytest.mark.parametrize(("streams", "channels"), [(2, 1), (3, 3), (0, 1), (2, 3)])
def test_streams_that_no_board_has_are_refused(streams: int, channels: int) -> None:
    sides = [Side.LEFT, Side.RIGHT, Side.SINGLE][:channels]
    with pytest.raises(FieldError, match=r"^streams: must be 1, or 2"):
        dataclasses.replace(rig(*sides), streams=streams)


@pytest.mark.parametrize("key", sorted(set(rig().to_json()) - ADDED))
def test_field_that_is_missing_is_named(key: str) -> None:
    content = rig().to_json()
    del content[key]
    with pytest.raises(FieldError, match=f"^{key}: is missing"):
        RigProfile.from_json(Fields(content))


def test_names_stand_under_the_object_that_holds_the_profile() -> None:
    content = FilterChoice().to_json() | {"order": 0}
    with pytest.raises(FieldError, match=r"^profile\.filter\.order: is 0; it must be"):
        FilterChoice.from_json(Fields(content, "profile.filter"))


def test_nominal_line_of_a_bridge() -> None:
    """AVIA Semiconductor, HX711 data sheet: full scale ±0.5·AVDD/gain."""
    line = Calibration.from_rating(
        rated_n=1000.0, sensitivity_mv_per_v=2.0, gain=128.0, zero_counts=84213.0
    )
    constant_n, n_per_count = line.coefficients
    assert 1 / n_per_count == pytest.approx(4294.967296, rel=1e-12)
    assert constant_n + n_per_count * 1715004 == pytest.approx(379.6981182, abs=1e-7)


def test_channels_are_found_by_side() -> None:
    both = rig(Side.LEFT, Side.RIGHT)
    assert (both.index_of(Side.LEFT), both.index_of(Side.RIGHT)) == (0, 1)
    assert both.index_of(Side.SINGLE) is None


def test_five_channels_are_too_many() -> None:
    with pytest.raises(FieldError, match="1 to 4 channels"):
        rig(*[Side.LEFT] * 5)
