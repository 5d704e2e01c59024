"""Recordings that cannot be used are named with the reason, and the others go on."""

from __future__ import annotations

import json
import shutil
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from biofeedback import cli
from biofeedback.conditioning.profile import FilterChoice, FilterKind
from biofeedback.logbook import recordings
from biofeedback.tuning import bench
from biofeedback.wire.codec import encode
from biofeedback.wire.frames import COUNTS_MAX, Close, Damage, Header, Identity, Samples

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.wire.frames import Frame

FOLDER = Path(__file__).resolve().parents[2] / "recordings"
BOTH = FOLDER / "both-sides-v1.0.force"
ONE = FOLDER / "one-side-v1.0.force"


def changed(path: Path, out: Path, change: Callable[[Frame], list[Frame]]) -> Path:
    """A recording with other frames."""
    with out.open("wb") as file:
        for frame in recordings.read(path).frames():
            assert not isinstance(frame, Damage)
            for each in change(frame):
                file.write(encode(each))
    return out


def with_header(**changes: Any) -> Callable[[Frame], list[Frame]]:
    """The header with values put in, by the names of two levels: `profile__name`."""

    def change(frame: Frame) -> list[Frame]:
        if not isinstance(frame, Header):
            return [frame]
        content: dict[str, Any] = json.loads(json.dumps(frame.content))
        for name, value in changes.items():
            outer, _, inner = name.partition("__")
            content[outer][inner] = value
        return [Header(content)]

    return change


def saturated(frame: Frame) -> list[Frame]:
    if not isinstance(frame, Samples):
        return [frame]
    return [replace(frame, counts=np.full_like(frame.counts, COUNTS_MAX))]


def in_two_streams(frame: Frame) -> list[Frame]:
    """Each cell with a converter of its own."""
    if isinstance(frame, Identity):
        return [replace(frame, stream_channels=(1, 1))]
    if not isinstance(frame, Samples):
        return [frame]
    return [
        replace(
            frame,
            stream=side,
            counts=frame.counts[:, [side]],
            saturated=frame.saturated[:, [side]],
        )
        for side in (0, 1)
    ]


def without_close(frame: Frame) -> list[Frame]:
    return [] if isinstance(frame, Close) else [frame]


def at_rest(frame: Frame) -> list[Frame]:
    if not isinstance(frame, Samples):
        return [frame]
    return [replace(frame, counts=np.zeros_like(frame.counts))]


def made(folder: Path) -> dict[str, str]:
    """One file of each kind, and what must be said of it."""
    shutil.copy(BOTH, folder / "a-good.force")
    files: dict[str, tuple[Path, Callable[[Frame], list[Frame]], str]] = {
        "one-channel": (ONE, with_header(prescription__band_on="each side"), "band_on"),
        "ten-a-second": (BOTH, with_header(profile__rate_hz=10.0), "10 samples a sec"),
        "no-hold": (BOTH, at_rest, "never held in the band"),
        "all-saturated": (BOTH, saturated, "all are at the cell's stop"),
        "cut-off": (BOTH, without_close, "cut off before its end"),
        "newer": (BOTH, with_header(format__major=9), "newer version"),
        "second-stream": (BOTH, in_two_streams, "The board sends 1 channel"),
    }
    for name, (path, change, _) in files.items():
        changed(path, folder / f"{name}.force", change)
    (folder / "empty.force").write_bytes(b"")
    (folder / "words.csv").write_text("name,day\nAda,Monday\n", encoding="ascii")
    (folder / "notes.pdf").write_bytes(b"%PDF")
    return {name: words for name, (_, _, words) in files.items()} | {
        "empty": "not one whole frame",
        "words": "rate",
        "notes": "no recording and no table",
    }


def test_each_is_named_with_the_reason(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    expected = made(tmp_path)
    assert cli.main(["tune", str(tmp_path), "--json"]) == 1
    out, err = capsys.readouterr()
    told = json.loads(out)
    assert told["recordings"] == [str(tmp_path / "a-good.force")]
    assert told["chosen"] is not None
    why = {Path(each["recording"]).stem: each["why"] for each in told["left_out"]}
    assert sorted(why) == sorted(expected)
    for name, words in expected.items():
        assert words in why[name]
        assert f"{name}." in err


def test_where_none_is_left_each_is_still_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    expected = made(tmp_path)
    (tmp_path / "a-good.force").unlink()
    assert cli.main(["tune", str(tmp_path), str(tmp_path / "nothing.force")]) == 1
    out, err = capsys.readouterr()
    assert not out
    assert "None of these recordings can be used" in err
    assert all(f"{name}." in err for name in (*expected, "nothing"))


def test_other_files_in_a_folder_are_no_fault(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.copy(BOTH, tmp_path)
    (tmp_path / "notes.pdf").write_bytes(b"%PDF")
    assert cli.main(["tune", str(tmp_path)]) == 0
    assert "notes.pdf: left out" in capsys.readouterr().err


def test_two_streams_are_one_recording(tmp_path: Path) -> None:
    """The clocks here are the same, so all comes out as with one converter."""
    split = changed(BOTH, tmp_path / "split.force", in_two_streams)
    both = changed(split, tmp_path / "both.force", with_header(profile__streams=2))
    asked = bench.Asked(
        (FilterChoice(), FilterChoice(FilterKind.NONE, despike=True)), 80.0
    )
    found, whole = bench.measured(both, asked), bench.measured(BOTH, asked)
    assert not found.why
    for (_, ours), (_, theirs) in zip(found.figures, whole.figures, strict=True):
        assert ours.noise_n2 == pytest.approx(theirs.noise_n2, rel=0.02)
        assert ours.hold_s == pytest.approx(theirs.hold_s, abs=0.1)


def test_a_table_is_read_as_it_would_be_imported(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    at = np.arange(0, 14, 0.01)
    force_n = np.interp(at, [2, 3, 11, 12], [0, 100, 100, 0])
    force_n += np.random.default_rng(3).normal(0, 0.5, len(at))
    table, out = tmp_path / "table.csv", tmp_path / "imported.force"
    rows = np.stack((at, force_n), axis=1)
    np.savetxt(
        table, rows, header="time_s,force_N", comments="", fmt="%.4f", delimiter=","
    )
    words = ["import", str(table), "--columns", "force_N", "-o", str(out)]
    assert cli.main(words) == 0
    capsys.readouterr()
    told = []
    for path in (table, out):
        words = ["tune", str(path), "--band", "80:120", "--json"]
        assert cli.main(words) == 0
        told.append(json.loads(capsys.readouterr().out))
    assert [each.pop("recordings") for each in told] == [[str(table)], [str(out)]]
    for each in told:
        for candidate in each["candidates"]:
            del candidate["cost_us_per_sample"]
    assert told[0] == told[1]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("time,a,b,c\n0,1,2,3\n1,2,3,4\n", "--columns"),
        ("0,1\n1,2\n", "--columns"),
        ("force\n1\n2\n", "rate"),
        ("", "empty"),
    ],
)
def test_what_a_table_lacks_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], text: str, words: str
) -> None:
    table = tmp_path / "table.csv"
    table.write_text(text, encoding="ascii")
    assert cli.main(["tune", str(table), "--band", "1:2"]) == 1
    assert words in capsys.readouterr().err
