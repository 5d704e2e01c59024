"""Tables in, against plain numpy and real recordings of force."""

from __future__ import annotations

import math
import stat
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from biofeedback.conditioning.profile import RigProfile
from biofeedback.errors import FieldError, FileError
from biofeedback.logbook import recordings
from biofeedback.logbook.keys import new_key
from biofeedback.logbook.table_cells import LINE_MAX
from biofeedback.logbook.tables import Choice, Imported, import_table
from biofeedback.wire.fields import Fields
from biofeedback.wire.frames import Close, Identity

if TYPE_CHECKING:
    from pathlib import Path

    import numpy.typing as npt

RATE = Choice(("force",), rate_hz=80)


def bring_in(folder: Path, text: str | bytes, choice: Choice = RATE) -> Imported:
    table = folder / "table.csv"
    table.write_bytes(text.encode() if isinstance(text, str) else text)
    out = folder / f"{new_key()}.force"
    return import_table(table, out, choice)


def force_n(done: Imported) -> npt.NDArray[np.float64]:
    """Newtons worked out here, from the counts and the line in the header."""
    profile = RigProfile.from_json(
        Fields(recordings.read(done.path).header).inner("profile")
    )
    offset_n, n_per_count = profile.channels[0].calibration.coefficients
    counts = recordings.counts(done.path)[0].counts.astype(np.float64)
    return offset_n + n_per_count * counts


# --------------------------------------------------------------- what is read


@pytest.mark.parametrize(
    "text",
    [
        "force,other\n1.5,7\n-2.25,8\n3,9\n",
        "other;force\r\n7;1,5\r\n8;-2,25\r\n9;3\r\n",
        "other\tforce\n7\t1.5\n8\t-2,25\n9\t3,0\n",
        "\ufeffForce ; other\n1.5;7\n\n-2.25;8\n3.;9",
        '# a remark\n# another\n"force","other"\n"1.5","7"\n-225e-2,8\n+3,9\n',
        "force\n1.5\n-2.25\n3\n",
    ],
)
def test_layouts_are_found(tmp_path: Path, text: str) -> None:
    done = bring_in(tmp_path, text)
    np.testing.assert_allclose(force_n(done)[:, 0], [1.5, -2.25, 3.0], atol=1e-12)
    assert done.samples == 3
    assert done.notes[0].startswith("Found ")


def test_columns_by_number_with_and_without_names(tmp_path: Path) -> None:
    choice = Choice(("3", "1"), rate_hz=80)
    for text in ("1,2,3\n4,5,6\n", "a,b,c\n1,2,3\n4,5,6\n"):
        done = bring_in(tmp_path, text, choice)
        np.testing.assert_allclose(force_n(done), [[3, 1], [6, 4]])
        profile = recordings.read(done.path).header["profile"]
        assert isinstance(profile, dict)
        assert [c["side"] for c in profile["channels"]] == ["left", "right"]


def test_the_recording_says_what_it_is(tmp_path: Path) -> None:
    done = bring_in(tmp_path, "force\n1\n2\n")
    recording = recordings.read(done.path)
    frames = list(recording.frames())
    (identity,) = [frame for frame in frames if isinstance(frame, Identity)]
    assert (identity.adc, identity.rate_hz) == ("imported table", 80.0)
    assert isinstance(frames[-1], Close)
    assert recording.survey().losses() == ""
    assert "athlete_code" not in recording.header
    assert "table.csv" not in str(recording.header)  # could be somebody's name
    assert stat.S_IMODE(done.path.stat().st_mode) == 0o600


@pytest.mark.parametrize(
    ("unit", "newtons"),
    [
        ("N", 1.0),
        ("kN", 1000.0),
        ("kgf", 9.80665),
        ("kg", 9.80665),
        ("g", 0.00980665),
        ("lbf", 4.4482216152605),  # 0.45359237 kg × 9.80665 m/s², both exact
        ("Nm", 1.0),
    ],
)
def test_units_become_newtons(tmp_path: Path, unit: str, newtons: float) -> None:
    done = bring_in(tmp_path, "force\n20\n-1\n", Choice(("force",), unit, 80))
    np.testing.assert_allclose(
        force_n(done)[:, 0], [20 * newtons, -newtons], rtol=1e-12
    )
    if unit in ("Nm", "kg", "g"):
        assert any("newton" in note for note in done.notes)


def test_196_133_newtons_are_20_kgf_are_44_0924524_lbf(tmp_path: Path) -> None:
    kgf = force_n(bring_in(tmp_path, "force\n20\n0\n", Choice(("1",), "kgf", 80)))
    lbf = force_n(
        bring_in(tmp_path, "force\n44.0924524\n0\n", Choice(("1",), "lbf", 80))
    )
    assert kgf[0, 0] == pytest.approx(196.133, abs=1e-9)
    assert lbf[0, 0] == pytest.approx(196.133, abs=3e-5)  # half a count


@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.floats(-1e6, 1e6, allow_subnormal=False), min_size=2, max_size=60))
def test_each_force_is_kept_to_half_of_a_count(
    tmp_path: Path, values: list[float]
) -> None:
    done = bring_in(tmp_path, "force\n" + "\n".join(map(repr, values)))
    assert np.abs(force_n(done)[:, 0] - values).max() <= done.resolution_n * 0.5000001
    found = recordings.counts(done.path)[0]
    assert not found.saturated.any()
    largest = max(map(abs, values))
    if largest > 1:
        assert done.resolution_n <= 2.6 * largest / 2**23  # as fine as 24 bits allow


def test_the_last_codes_of_the_scale_are_never_used(tmp_path: Path) -> None:
    # 7FFFFF and 800001 hex; a board gives the first one for an overload.
    assert bring_in(tmp_path, "force\n8388606\n-8388606\n").resolution_n == 1
    done = bring_in(tmp_path, "force\n8388607\n-8388607\n")
    assert done.resolution_n == 2
    assert not recordings.counts(done.path)[0].saturated.any()


def test_decimals_are_kept_exactly(tmp_path: Path) -> None:
    text = ["10.1805", "700.0001", "-0.0003", "250"]
    done = bring_in(tmp_path, "force\n" + "\n".join(text))
    assert done.resolution_n == pytest.approx(1e-4)
    assert [
        f"{force:.4f}".rstrip("0").rstrip(".") for force in force_n(done)[:, 0]
    ] == text


# ------------------------------------------------------------------------ time


def test_a_rate_places_the_rows_evenly(tmp_path: Path) -> None:
    done = bring_in(
        tmp_path,
        "force\n" + "\n".join(str(n) for n in range(5000)),
        Choice(("1",), rate_hz=60),
    )
    found = recordings.counts(done.path)[0]
    np.testing.assert_array_equal(found.index, np.arange(5000))
    np.testing.assert_allclose(found.time_s, np.arange(5000) / 60, atol=2e-5)


@pytest.mark.parametrize(
    ("name", "unit", "per_s"),
    [
        ("time_s", None, 1),
        ("t", None, 1),
        ("Time [ms]", None, 1000),
        ("time_us", None, 1e6),
        ("t (µs)", None, 1e6),
        ("timestamps", None, 1),
        ("time", "ms", 1000),
    ],
)
def test_a_time_column_gives_the_rate(
    tmp_path: Path, name: str, unit: str | None, per_s: float
) -> None:
    rows = "".join(f"{n * 0.0125 * per_s:.4f},{n}\n" for n in range(100))
    done = bring_in(
        tmp_path, f"{name},force\n{rows}", Choice(("force",), time_unit=unit)
    )
    assert done.rate_hz == pytest.approx(80)
    found = recordings.counts(done.path)[0]
    np.testing.assert_allclose(found.time_s, np.arange(100) * 0.0125, atol=1e-6)


def test_gaps_repeated_and_backward_times_are_told(tmp_path: Path) -> None:
    text = (
        "time_s,force\n0.00,0\n0.02,1\n0.02,99\n0.04,2\n0.03,98\n0.06,3\n"
        "0.08,n/a\n0.10,5\n0.12,6\n0.22,11\n0.24,12\n"
    )
    done = bring_in(tmp_path, text, Choice(("force",)))
    found = recordings.counts(done.path)[0]
    expected = [0, 1, 2, 3, 5, 6, 11, 12]
    np.testing.assert_array_equal(found.index, expected)
    np.testing.assert_allclose(found.time_s, np.array(expected) * 0.02, atol=1e-9)
    np.testing.assert_allclose(force_n(done)[:, 0], expected, atol=1e-9)
    assert done.lost == 5
    told = " ".join(done.notes)
    assert "2 rows were left out" in told
    assert "line 4" in told
    assert "1 rows without a number" in told


def test_rows_without_a_number_are_missing_samples(tmp_path: Path) -> None:
    done = bring_in(tmp_path, "force,b\n,1\n1,1\n2,1\nNaN,1\n4,1\n", RATE)
    found = recordings.counts(done.path)[0]
    np.testing.assert_array_equal(found.index, [0, 1, 3])
    assert done.lost == 1


def test_an_outage_longer_than_the_boards_clock_is_placed(tmp_path: Path) -> None:
    start, far = 0.0, 6000.0  # 100 min; the counter of microseconds turns at 71.6
    times = [start + 0.01 * n for n in range(50)] + [far + 0.01 * n for n in range(50)]
    rows = "".join(f"{t:.2f},{n}\n" for n, t in enumerate(times))
    done = bring_in(tmp_path, "time,force\n" + rows, Choice(("force",)))
    np.testing.assert_allclose(recordings.counts(done.path)[0].time_s, times, atol=1e-6)


# -------------------------------------------------------------------- refusals


@pytest.mark.parametrize(
    ("text", "words", "place"),
    [
        ("", "empty", ""),
        ("\n\n# only\n", "empty", ""),
        ("force\n", "fewer than two", ""),
        ("a,b\n1,2\n", "no column “force”; there are 2: a, b", "line 1"),
        ("force,b\n1,2\nx1,2\n", "“x1” is not a number", "line 3, column 1"),
        ("b,force\n1,2\n\n1,inf\n", "not a number", "line 4, column 2"),
        ("b,force\n1,1e19\n", "not a number that fits", "line 2, column 2"),
        ("b,force\n1,2\n3\n", "too short", "line 3, column 2"),
        ("b;force\n1;1.234,5\n", "not a number", "line 2, column 2"),
        ('b,force\n1,"2\n3,4\n', "quotation mark", "line 2"),
        ("force\n1\n" + "1" * (LINE_MAX + 1), "longer than", "line 3"),
        ("force\n1\n\0\0\0\n", "not a text file", "line 3"),
        ("f\0o\0r\0c\0e\0\n\0", "not a text file", "line 1"),
    ],
)
def test_faults_name_file_line_and_column(
    tmp_path: Path, text: str, words: str, place: str
) -> None:
    with pytest.raises(FileError, match=words) as caught:
        bring_in(tmp_path, text)
    assert caught.value.path == str(tmp_path / "table.csv")
    assert caught.value.place == place
    assert [path.name for path in tmp_path.iterdir()] == ["table.csv"]


def test_a_jump_of_more_than_a_day_is_refused_and_leaves_no_file(
    tmp_path: Path,
) -> None:
    with pytest.raises(FileError, match="line 4: time jumps"):
        bring_in(
            tmp_path, "time,force\n0,1\n1,1\n90000,1\n90001,1\n", Choice(("force",))
        )
    assert [path.name for path in tmp_path.iterdir()] == ["table.csv"]


@pytest.mark.parametrize(
    ("more", "field"),
    [
        ({"columns": ()}, "columns"),
        ({"columns": ("1", "2", "3")}, "columns"),
        ({"columns": (" ",)}, "columns"),
        ({"unit": "stone"}, "unit"),
        ({"rate_hz": 0.0}, "rate"),
        ({"rate_hz": math.nan}, "rate"),
        ({"rate_hz": None, "time_column": "b", "time_unit": "h"}, "time unit"),
    ],
)
def test_choices_that_do_not_fit_are_refused(
    tmp_path: Path, more: dict[str, object], field: str
) -> None:
    with pytest.raises(FieldError) as caught:
        bring_in(
            tmp_path,
            "force,b,big\n1,1,3e7\n2,2,1\n3,3,1\n",
            Choice(**{"columns": ("force",), "rate_hz": 80, **more}),  # type: ignore[arg-type]  # wrong on purpose
        )
    assert caught.value.field == field


@pytest.mark.parametrize(
    ("more", "words", "place"),
    [
        ({"columns": ("big",)}, "the unit makes the largest force 3e.07 N", "line 2"),
        ({"rate_hz": None}, "no rate is given and no column is named", "line 1"),
        (
            {"rate_hz": None, "time_column": "b", "time_unit": "us"},
            "the time unit gives a sample rate of",
            "column “b”",
        ),
    ],
)
def test_what_does_not_fit_the_choices_names_file_and_place(
    tmp_path: Path, more: dict[str, object], words: str, place: str
) -> None:
    with pytest.raises(FileError, match=words) as caught:
        bring_in(
            tmp_path,
            "force,b,big\n1,1,3e7\n2,2,1\n3,3,1\n",
            Choice(**{"columns": ("force",), "rate_hz": 80, **more}),  # type: ignore[arg-type]  # as above
        )
    assert caught.value.path == str(tmp_path / "table.csv")
    assert caught.value.place == place


def test_nothing_is_written_over(tmp_path: Path) -> None:
    table = tmp_path / "table.csv"
    table.write_text("force\n1\n2\n")
    out = tmp_path / "out.force"
    out.write_text("mine")
    with pytest.raises(FileError, match="there already"):
        import_table(table, out, RATE)
    assert out.read_text() == "mine"
    with pytest.raises(FileError, match="cannot be made"):
        import_table(table, tmp_path / "none" / "out.force", RATE)


# ------------------------------------------------------------------- real data


def test_real_pushes_come_through_unchanged(
    real_force_data: Path, tmp_path: Path
) -> None:
    tables = sorted((real_force_data / "gimbal_push_mvf").glob("*.csv"))[:10]
    assert tables
    for table in tables:
        out = tmp_path / f"{table.stem}.force"
        done = import_table(table, out, Choice(("force_N",)))
        expected = np.loadtxt(table, delimiter=",", skiprows=1)
        assert done.rate_hz == pytest.approx(50)
        np.testing.assert_allclose(force_n(done)[:, 0], expected[:, 1], atol=1e-9)
        np.testing.assert_allclose(
            recordings.counts(out)[0].time_s,
            expected[:, 0] - expected[0, 0],
            atol=1e-6,
        )


def test_real_stamps_that_repeat_and_skip_are_told(
    real_force_data: Path, tmp_path: Path
) -> None:
    (table,) = (real_force_data / "loadcell_noise_daq_150Hz").glob("*.csv")
    done = import_table(table, tmp_path / "n.force", Choice(("force_V",)))
    stamps = np.loadtxt(table, delimiter=",", skiprows=1)[:, 0]
    later = np.r_[True, stamps[1:] > np.maximum.accumulate(stamps)[:-1]]
    assert done.samples == later.sum()
    assert f"{(~later).sum()} rows were left out" in " ".join(done.notes)
    found = recordings.counts(done.path)[0]
    np.testing.assert_allclose(
        found.time_s, stamps[later] - stamps[0], atol=0.02 * 1.5 / done.rate_hz + 2e-6
    )
