"""The parts of an export by themselves: labels, names, grid, EDF+ and its texts."""

from __future__ import annotations

import io
from datetime import UTC, datetime
from decimal import Decimal
from typing import TYPE_CHECKING

import edfio
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from biofeedback.errors import FieldError
from biofeedback.logbook.exports import edf
from biofeedback.logbook.exports.bids_labels import Labels
from biofeedback.logbook.exports.csv_table import safe_text
from biofeedback.logbook.exports.discretion import LEFT_OUT, Discretion
from biofeedback.logbook.exports.edf_annotations import Annotation, packed
from biofeedback.logbook.exports.even_grid import EvenGrid, Overview, Stretch, overview
from biofeedback.logbook.exports.sample_batch import InForce, SampleBatch
from biofeedback.logbook.exports.table import Kind, fitted, measure_cells, unit_of
from biofeedback.training.band import Band

if TYPE_CHECKING:
    from collections.abc import Sequence


# ------------------------------------------------------------------ labels, words


def test_two_codes_never_share_a_label() -> None:
    labels = Labels("athlete")
    codes = ["A-17", "A17", "a17", "A-1-7", "é", "e", "膝", "股", "", "athlete"]
    given_labels = [labels.label(code) for code in codes]
    assert len({label.casefold() for label in given_labels}) == len(codes)
    assert all(label.isalnum() and label.isascii() for label in given_labels)
    assert given_labels[:3] == ["A17", "A17x2", "a17x3"]
    assert [labels.label(code) for code in codes] == given_labels


@given(st.lists(st.text(max_size=60), unique=True, max_size=30))
def test_labels_are_letters_and_digits_and_different(texts: list[str]) -> None:
    labels = Labels("task")
    found = [labels.label(text) for text in texts]
    assert all(label.isalnum() and label.isascii() for label in found)
    assert len({label.casefold() for label in found}) == len(texts)


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("Knee of Änne", f"Knee of {LEFT_OUT}"),
        ("ÄNNE BEISPIELFRAU's knee", f"{LEFT_OUT} knee"),
        ("A\u0308nne", LEFT_OUT),  # in two parts: A + ¨
        ("Beispielfrau, Änne", f"{LEFT_OUT}, {LEFT_OUT}"),
        ("maximal pull with Max", f"maximal pull with {LEFT_OUT}"),
        ("Annex", "Annex"),
        ("li", "li"),  # too short to be told from a word
        ("", ""),
    ],
)
def test_names_are_taken_out_of_texts(text: str, left: str) -> None:
    assert Discretion(["Änne Beispielfrau", "Max Li"]).text(text) == left
    assert Discretion().text(text) == text


def test_how_often_is_counted() -> None:
    discretion = Discretion(["Änne"])
    for text in ("Änne and Änne", "nobody", "Änne"):
        discretion.text(text)
    assert discretion.taken_out == 3


@given(st.text())
def test_no_text_begins_a_formula(text: str) -> None:
    safe = safe_text(text)
    assert not safe.startswith(("=", "+", "-", "@", "\t", "\r", " "))
    assert "\n" not in safe
    assert "\r" not in safe


@pytest.mark.parametrize(
    ("name", "unit"),
    [
        ("peak_n", "N"),
        ("slope_n_per_s", "N/s"),
        ("impulse_ns", "N·s"),
        ("dose_pct_s", "%·s"),
        ("cv_pct", "%"),
        ("hold_s", "s"),
        ("rate_hz", "Hz"),
        ("lapses", ""),
    ],
)
def test_units_are_those_at_the_end_of_names(name: str, unit: str) -> None:
    assert unit_of(name) == unit


def test_what_does_not_fit_its_column_is_empty() -> None:
    assert fitted(3, Kind.REAL) == 3.0
    assert fitted(3.0, Kind.WHOLE) == 3
    for value, kind in (
        (float("nan"), Kind.REAL),
        (float("inf"), Kind.WHOLE),
        (2.5, Kind.WHOLE),
        ("3", Kind.REAL),
        (True, Kind.WHOLE),
        (1, Kind.FLAG),
        (1, Kind.TEXT),
    ):
        assert fitted(value, kind) is None


def test_measures_that_are_not_there_or_no_measures_stay_empty() -> None:
    found = measure_cells({"peak_n": None, "rest_before_n": None, "mean_n": [1, 2]})
    assert found["peak_n"] is None
    assert "rest_before_1_n" not in found
    assert measure_cells({})["lapse_times_s"] == ""


# -------------------------------------------------------------------------- bands


def test_a_band_that_was_moved_counts_from_the_next_sample() -> None:
    in_force = InForce([(0.0, Band(60, 96)), (5.0, Band.at_least(70))], [(1.0, 2.0, 7)])
    time_s = np.array([0.0, 4.9, 5.0, 5.1])
    lower_n, upper_n = in_force.edges_n(time_s)
    np.testing.assert_array_equal(lower_n, [60, 60, 60, 70])
    np.testing.assert_array_equal(upper_n, [96, 96, 96, np.nan])
    reps = in_force.rep_at(np.array([0.99, 1.0, 2.0, 2.01]))
    np.testing.assert_array_equal(reps, [0, 7, 7, 0])


# --------------------------------------------------------------------------- grid


def batch(
    index: Sequence[int], time_s: Sequence[float], gap: Sequence[int]
) -> SampleBatch:
    n = len(index)
    none = np.full(n, np.nan)
    return SampleBatch(
        index=np.array(index),
        time_s=np.array(time_s),
        gap=np.isin(np.arange(n), gap),
        counts=np.zeros((n, 1), np.int32),
        force_n=np.arange(n, dtype=float)[:, None] - 2,
        saturated=np.zeros((n, 1), np.bool_),
        usable=~np.isin(np.arange(n), [1, 2]),
        band_lower_n=none,
        band_upper_n=none,
        rep=np.zeros(n, np.int64),
    )


def test_an_overview_does_not_depend_on_how_samples_are_cut() -> None:
    index = [0, 1, 2, 5, 6, 7, 8]
    time_s = [0.0, 0.1, 0.2, 0.5, 0.6, 5.0, 5.1]  # a loss, then a pause
    whole = batch(index, time_s, [3, 5])
    found = overview([whole], channels=1)
    assert [s.samples for s in found.stretches] == [3, 2, 2]
    assert found.gaps == ((0.2, 0.5), (0.6, 5.0))
    assert (found.samples, found.lost) == (7, 2)
    assert found.unusable == ((0.1, 0.2),)
    assert found.largest_n == (4.0,)
    assert found.rate_hz(99.0) == pytest.approx(10)
    parts = [
        SampleBatch(*(getattr(whole, name)[i : i + 1] for name in whole.__slots__))
        for i in range(7)
    ]
    assert overview(parts, channels=1) == found


@given(
    st.lists(
        st.tuples(st.integers(1, 50), st.floats(0.02, 3.0)), min_size=1, max_size=8
    ),
    st.floats(5, 4000),
)
def test_slots_are_near_in_time_and_never_shared(
    runs: list[tuple[int, float]], rate_hz: float
) -> None:
    stretches: list[Stretch] = []
    index, time_s = 0, 0.0
    for samples, pause_s in runs:
        last_s = time_s + (samples - 1) / rate_hz
        stretches.append(Stretch(index, time_s, last_s, samples))
        index += samples + 3
        time_s = last_s + max(pause_s, 1.5 / rate_hz)
    grid = EvenGrid.of(Overview(tuple(stretches), (), (0.0,)), nominal_hz=rate_hz)
    at = np.concatenate([s.first_index + np.arange(s.samples) for s in stretches])
    slots = grid.slot(at)
    assert slots[0] == 0
    assert slots[-1] == grid.slots - 1
    assert (np.diff(slots) >= 1).all()
    assert grid.farthest_s <= 0.51 / rate_hz + 1e-6 * time_s
    if len(at) > len(stretches):
        assert grid.rate_hz == pytest.approx(rate_hz, rel=1e-6)


def test_nothing_has_no_grid() -> None:
    with pytest.raises(FieldError, match="there is none"):
        EvenGrid.of(Overview((), (), ()), nominal_hz=80)


# --------------------------------------------------------------------------- EDF+


@given(st.floats(0, 1e6), st.floats(0.001, 1e6))
def test_the_range_holds_rated_and_largest_and_is_told_exactly(
    largest_n: float, rated_n: float
) -> None:
    range_n = edf.range_n(largest_n=largest_n, rated_n=rated_n)
    assert range_n >= rated_n * (1 - 1e-9)
    step_n = edf.ForceSignal("", range_n).step_n
    assert largest_n <= edf.STEPS * step_n * (1 + 1e-9)
    assert range_n <= 1.002 * max(rated_n, largest_n) + 1e-5
    text = f"-{range_n:.5f}".rstrip("0").rstrip(".")
    assert float(text) == -range_n
    assert len(text) <= 8
    assert edf.range_n(largest_n=0, rated_n=2000) == 2000
    assert edf.range_n(largest_n=0, rated_n=None) == 1
    with pytest.raises(FieldError, match="more than EDF"):
        edf.range_n(largest_n=0, rated_n=1e7)


WORDS = st.text(
    st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="\x14\x15\0"),
    min_size=1,
    max_size=60,
).filter(lambda text: text.strip())


@given(
    st.lists(
        st.tuples(st.integers(0, 60_000), st.none() | st.integers(0, 9000), WORDS),
        max_size=40,
    ),
    st.integers(1, 400),
    st.sampled_from([0, 123_000, 999_000]),
)
def test_any_texts_come_back_from_edf(
    told: list[tuple[int, int | None, str]], samples: int, part_us: int
) -> None:
    stretch = Stretch(0, 0.0, (samples - 1) / 80, samples)
    grid = EvenGrid.of(Overview((stretch,), (), (5.0,)), nominal_hz=80)
    texts = [
        Annotation(onset / 1000, None if lasts is None else lasts / 1000, text)
        for onset, lasts, text in told
    ]
    start = datetime(2026, 11, 25, 9, 5, 3, part_us, tzinfo=UTC)
    kept = io.BytesIO()
    kept.close = lambda: None  # type: ignore[method-assign]  # to be read afterwards
    file = edf.EdfFile(
        kept,
        edf.EdfHead("A-1", "Änne Beispielfrau", start, "rig ☃ 1"),
        [edf.ForceSignal("Force left", 2000.0)],
        grid,
        texts,
    )
    file.close()
    back = edfio.read_edf(kept.getvalue())
    assert back.startdate == start.date()
    assert back.starttime == start.time()
    assert back.patient.name == "Anne_Beispielfrau"
    assert back.recording.equipment_code == "rig_?_1"
    found = sorted(
        (round(a.onset, 4), a.text, -1.0 if a.duration is None else a.duration)
        for a in back.annotations
    )
    assert found == sorted(
        (a.onset_s, a.text.strip(), -1.0 if a.duration_s is None else a.duration_s)
        for a in texts
    )


def test_records_are_of_one_length_and_begin_with_their_time() -> None:
    many = [Annotation(0.1, None, "x" * 300)] * 30
    texts = packed(
        many, records=3, duration=Decimal("0.995"), part_of_second=Decimal("0.25")
    )
    assert len({len(text) for text in texts}) == 1
    assert len(texts[0]) % 2 == 0
    starts = [text.split(b"\x14\x14\0")[0] for text in texts]
    assert starts == [b"+0.25", b"+1.245", b"+2.24"]
    assert sum(text.count(b"x" * 300) for text in texts) == 30


def test_a_note_that_is_too_long_is_cut_and_marked() -> None:
    (text,) = packed(
        [Annotation(0, 1.5, "a" * 3000)],
        records=1,
        duration=Decimal(1),
        part_of_second=Decimal(0),
    )
    assert ("a" * 399 + "…").encode() in text
    assert b"\x151.5\x14" in text
