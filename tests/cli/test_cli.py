"""The command line as a person or a script uses it."""

from __future__ import annotations

import csv
import json
import os
import signal
import subprocess
import sys
from ctypes.util import find_library
from typing import TYPE_CHECKING

import numpy as np
import pytest

from biofeedback import __version__, cli
from biofeedback.cli import health, window
from biofeedback.errors import UserError
from biofeedback.logbook import recordings

if TYPE_CHECKING:
    from pathlib import Path

    Captured = pytest.CaptureFixture[str]

RATE_HZ = 100


@pytest.fixture
def table(tmp_path: Path) -> Path:
    """Two efforts over a band of 60 to 96 N: up, 3 s at 80 N, down; counted in cN."""
    ramp = np.linspace(0, 80, RATE_HZ)
    effort = np.concatenate(
        (np.zeros(RATE_HZ), ramp, np.full(3 * RATE_HZ, 80.0), ramp[::-1])
    )
    force_n = np.concatenate((effort, effort, np.zeros(RATE_HZ)))
    path = tmp_path / "old.csv"
    lines = [f"{0.6 * value:.2f};{0.4 * value:.2f}" for value in force_n]
    path.write_text("left;right\n" + "\n".join(lines) + "\n")
    return path


@pytest.fixture
def recording(table: Path, tmp_path: Path, capsys: Captured) -> Path:
    out = tmp_path / "old.force"
    words = ["import", str(table), "--rate", str(RATE_HZ), "--columns", "left,right"]
    assert cli.main([*words, "-o", str(out)]) == 0
    assert "1300 samples at 100 Hz" in capsys.readouterr().out
    return out


def test_replay_finds_the_efforts_of_an_imported_table(
    recording: Path, capsys: Captured
) -> None:
    words = ["replay", str(recording), "--band", "60:96", "--hold", "2", "--raw"]
    assert cli.main([*words, "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert [rep["outcome"] for rep in told["reps"]] == ["complete", "complete"]
    first, second = told["reps"]
    # The ramp of 80 N in 99 steps of 10 ms crosses 6 N and 60 N here:
    assert first["start_s"] == pytest.approx(1.0 + 6 / 80 * 0.99, abs=1e-3)
    assert first["entry_s"] == pytest.approx(1.0 + 60 / 80 * 0.99, abs=1e-3)
    assert first["hold_end_s"] == pytest.approx(first["entry_s"] + 2.0, abs=1e-9)
    assert first["left_share_pct"] == pytest.approx(60.0, abs=0.05)
    assert first["near_rated"] == []  # a table knows no rated load
    assert second["start_s"] == pytest.approx(first["start_s"] + 6.0, abs=1e-9)
    assert told["same_as_stored"] is None


def test_replay_in_words_names_band_and_outcome(
    recording: Path, capsys: Captured
) -> None:
    assert cli.main(["replay", str(recording), "--band", "60:", "--hold", "9"]) == 0
    told = capsys.readouterr().out
    assert "band at least 60 N" in told
    assert told.count("short") == 2


def test_a_recording_without_prescription_asks_for_a_band(
    recording: Path, capsys: Captured
) -> None:
    assert cli.main(["replay", str(recording)]) == 1
    told = capsys.readouterr().err
    assert "--band 60:96" in told
    assert str(recording) in told


def test_one_bad_file_does_not_stop_the_others(
    recording: Path, tmp_path: Path, capsys: Captured
) -> None:
    bad = tmp_path / "bad.force"
    bad.write_bytes(b"no recording at all")
    words = ["replay", str(bad), str(recording), "--band", "60:96", "--json"]
    assert cli.main(words) == 1
    told = capsys.readouterr()
    assert str(bad) in told.err
    assert len(json.loads(told.out)["reps"]) == 2


def test_one_bad_file_does_not_stop_the_export_of_others(
    recording: Path, tmp_path: Path, capsys: Captured
) -> None:
    bad = tmp_path / "bad.force"
    bad.write_bytes(b"no recording at all")
    out = tmp_path / "out"
    assert cli.main(["export", str(out), "--files", str(bad), str(recording)]) == 1
    assert str(bad) in capsys.readouterr().err
    assert len(list((out / "csv" / "samples").iterdir())) == 1


def test_a_file_gives_no_orders_to_the_terminal(
    tmp_path: Path, capsys: Captured
) -> None:
    table = tmp_path / "table.csv"
    table.write_text("\x1b[2Jtime,\x9bforce\n0,1\n1,2\n")
    words = ["import", str(table), "-o", str(tmp_path / "out"), "--columns", "left"]
    assert cli.main(words) == 1
    told = capsys.readouterr().err
    assert "there is no column" in told
    assert str(table) in told
    assert all(one.isprintable() or one == "\n" for one in told)


def test_export_gives_back_the_counts_that_went_in(
    table: Path, recording: Path, tmp_path: Path
) -> None:
    folder = tmp_path / "again"
    assert cli.main(["export", str(folder), "--files", str(recording)]) == 0
    (out,) = (folder / "csv" / "samples").iterdir()
    with table.open() as file:
        went_in = [
            (float(row["left"]), float(row["right"]))
            for row in csv.DictReader(file, delimiter=";")
        ]
    rows = list(csv.DictReader(out.read_text().splitlines()))
    names = [name for name in rows[0] if "force" in name]
    came_out = [tuple(float(row[name]) for name in names) for row in rows]
    np.testing.assert_allclose(came_out, went_in, atol=0.005)
    assert np.allclose(np.rint(np.array(came_out) * 100), np.array(went_in) * 100)


def test_a_time_column_in_another_unit_is_asked_about(
    tmp_path: Path, capsys: Captured
) -> None:
    table = tmp_path / "ms.csv"
    table.write_text("time,force\n" + "".join(f"{10 * i},{i}\n" for i in range(50)))
    words = ["import", str(table), "--columns", "force", "-o"]
    assert cli.main([*words, str(tmp_path / "slow.force")]) == 0
    assert "say which with --time-unit" in capsys.readouterr().out
    assert cli.main([*words, str(tmp_path / "ok.force"), "--time-unit", "ms"]) == 0
    told = capsys.readouterr().out
    assert "50 samples at 100 Hz" in told
    assert "--time-unit" not in told
    assert "Forces are taken as N." in told


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (
            ["replay", "x.force", "--band", "96:60"],
            "argument --band: “96:60”: the upper edge is 60 N; it must lie above the "
            "lower edge, 96 N; write 60:96, the lower edge first\n",
        ),
        (
            ["health", "--band", "50:50"],
            "argument --band: “50:50”: the upper edge is 50 N; it must lie above the "
            "lower edge, 50 N; write LO:HI in newtons, for example 60:96\n",
        ),
        (["tune", "x.force", "--band", "60:9e9"], "the upper edge is 9e+09 N; it must"),
        (["tune", "x.force", "--band", "nan:60"], "write LO:HI in newtons"),
        (["replay", "x.force", "--band", "sixty"], "write LO:HI in newtons"),
        (["replay", "x.force", "--hold", "long"], "must be seconds"),
        (["demo", "--size", "huge"], "write pixels as WxH"),
        (["demo", "--seconds", "nan"], "must be seconds"),
        (["demo", "--seed", "-1"], "must be a whole number"),
        (["simulate", "--seed", "-1"], "must be a whole number"),
        (["simulate", "--reps", "some"], "must be a whole number"),
        (["simulate", "--socket", "65536"], "must be a whole number, 0 to 65535"),
        (["simulate", "--centre", "nan"], "must be newtons"),
        (["simulate", "--hold", "inf"], "must be seconds"),
    ],
)
def test_a_wrong_call_is_told_in_words(
    words: list[str], said: str, capsys: Captured
) -> None:
    with pytest.raises(SystemExit) as left:
        cli.main(words)
    assert left.value.code == 2
    assert said in capsys.readouterr().err


@pytest.mark.parametrize("name", list(cli.COMMANDS))
def test_every_command_has_help_with_an_example(name: str, capsys: Captured) -> None:
    with pytest.raises(SystemExit) as left:
        cli.main([name, "--help"])
    assert left.value.code == 0
    told = capsys.readouterr().out
    assert "example: biofeedback" in told


def test_an_unknown_command_names_the_known_ones(capsys: Captured) -> None:
    assert cli.main(["dance"]) == 2
    told = capsys.readouterr().err
    assert "dance" in told
    assert "replay" in told


def test_version_and_overview(capsys: Captured) -> None:
    assert cli.main(["--version"]) == 0
    assert capsys.readouterr().out == f"biofeedback {__version__}\n"
    assert cli.main(["--help"]) == 0
    assert "simulate" in capsys.readouterr().out


@pytest.mark.skipif(sys.platform == "win32", reason="a pipe ends otherwise there")
@pytest.mark.parametrize("word", ["--help", "ports"])
def test_a_reader_that_has_seen_enough_is_no_fault(word: str) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run(  # noqa: S603  our own command
        [sys.executable, "-m", "biofeedback", word],
        stdout=writing,
        stderr=subprocess.PIPE,
        text=True,
        check=False,
        timeout=30,
    )
    os.close(writing)
    assert (done.returncode, done.stderr) == (0, "")


def test_ports_as_json_is_an_array(capsys: Captured) -> None:
    assert cli.main(["ports", "--json"]) == 0
    assert isinstance(json.loads(capsys.readouterr().out), list)


def test_without_a_screen_demo_offers_a_snapshot() -> None:
    bare = {"PATH": "/usr/bin:/bin", "PYTHONPATH": ":".join(sys.path)}
    done = subprocess.run(
        [sys.executable, "-m", "biofeedback", "demo"],
        env=bare,
        capture_output=True,
        text=True,
        check=False,
        timeout=30,
    )
    if sys.platform == "linux":
        assert done.returncode == 1
        assert "no screen" in done.stderr
        assert "--snapshot" in done.stderr


@pytest.mark.skipif(
    sys.platform != "linux" or find_library("xcb") is None,
    reason="of the X window system",
)
def test_a_display_that_does_not_answer_is_told_in_words(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: Captured
) -> None:
    monkeypatch.setenv("DISPLAY", ":64999")  # no server has so high a number
    for name in ("WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    places = ("--logbook", str(tmp_path / "l.db"), "--recordings", str(tmp_path))
    assert cli.main(["demo", *places]) == 1
    told = capsys.readouterr().err
    assert "The display :64999 does not answer" in told
    assert "--snapshot" in told


def test_no_rig_says_how_to_go_on_without_one(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(window, "ports", list)
    with pytest.raises(UserError, match="biofeedback demo"):
        window.only_port()
    with pytest.raises(UserError, match="name its port after the command"):
        window.only_port(health.BY_PLACE)


def taken(folder: Path, *words: str) -> str:
    """Runs a command that takes a picture; what it says of it."""
    done = subprocess.run(  # noqa: S603  our own command
        [
            *(sys.executable, "-m", "biofeedback", *words),
            *("--logbook", str(folder / "l.db"), "--recordings", str(folder)),
        ],
        capture_output=True,
        text=True,
        check=False,
        timeout=50,
    )
    assert done.returncode == 0, done.stderr
    return done.stderr


@pytest.mark.slow
def test_the_snapshot_is_a_picture_of_the_asked_size(tmp_path: Path) -> None:
    picture = tmp_path / "demo.png"
    large = ("--seconds", "1", "--size", "1024x640")
    taken(tmp_path, "demo", "--snapshot", str(picture), *large)
    data = picture.read_bytes()
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    size = tuple(int.from_bytes(data[at : at + 4], "big") for at in (16, 20))
    assert size == (1024, 640)
    assert list(tmp_path.glob("*_DEMO-1_*.force")), (
        "it shows a set, at the first time too"
    )


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="no Ctrl-C for one process there")
def test_ctrl_c_ends_a_snapshot_at_once(tmp_path: Path) -> None:
    picture = tmp_path / "demo.png"
    places = ("--logbook", str(tmp_path / "l.db"), "--recordings", str(tmp_path))
    asked = ("--snapshot", str(picture), "--seconds", "600")
    program = subprocess.Popen(  # noqa: S603  our own command
        [sys.executable, "-m", "biofeedback", "demo", *places, *asked],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
    )
    try:
        while not (under_way := list(tmp_path.glob("*_DEMO-1_*.force"))):
            assert program.poll() is None
        program.send_signal(signal.SIGINT)
        told, _ = program.communicate(timeout=20)
    finally:
        program.kill()
    assert (program.returncode, told) == (130, b"")
    assert not picture.exists()
    assert not recordings.read(under_way[0]).survey().recovered  # closed properly


@pytest.mark.slow
def test_a_picture_without_a_rig_says_so(tmp_path: Path) -> None:
    picture, port = tmp_path / "window.png", tmp_path / "no such port"
    seconds = ("--seconds", "0.2")
    words = taken(
        tmp_path, "window", "--port", str(port), "--snapshot", str(picture), *seconds
    )
    assert picture.exists()
    assert f"No force came from {port}" in words
