"""The program with the network or optional packages taken away."""

from __future__ import annotations

import shlex
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from session.kept_logbook import fill

from biofeedback.cli import main

ROOT = Path(__file__).resolve().parent.parent
CHILD = ROOT / "tests" / "shut_in.py"
PROVIDES = {"sounddevice": "sound", "pyarrow": "export", "cryptography": "seal"}
"""Module of each optional package, and the extra it is of."""

pytestmark = [pytest.mark.slow, pytest.mark.timeout(120)]


def shut_in(without: str, *commands: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(  # noqa: S603  our own program
        [sys.executable, str(CHILD), without, *commands],
        capture_output=True,
        encoding="utf-8",
        check=False,
    )


def test_a_whole_demo_and_what_comes_after_it_ask_for_no_network(
    tmp_path: Path, fresh_user_folders: Path
) -> None:
    demo = fresh_user_folders / "data" / "biofeedback" / "demo"
    places = f"--logbook {demo / 'logbook.db'} --recordings {demo / 'recordings'}"
    book = f"--logbook {demo / 'logbook.db'}"
    done = shut_in(
        "network",
        f"demo --snapshot {tmp_path / 'window.png'} --seconds 12",
        f"replay {ROOT / 'recordings' / 'one-side-v1.0.force'}",
        f"export {tmp_path / 'out'} --format csv,edf,bids {places}",
        f"report DEMO-1 --output {tmp_path / 'report.pdf'} {book}",
        f"backup {tmp_path / 'backup'} {places}",
        f"rebuild {places}",
        f"restore {tmp_path / 'backup'} {places}",
        f"audit {book}",
        f"erase DEMO-1 --yes {places}",
        "ports",
        "licences",
    )
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "window.png").stat().st_size > 10_000
    assert (tmp_path / "out" / "manifest.json").exists()


@pytest.mark.parametrize(
    "command",
    ["health socket://127.0.0.1:9 --seconds 2", "simulate --socket 0"],
)
def test_the_guard_sees_a_network_that_was_switched_on(command: str) -> None:
    done = shut_in("network", command)
    assert done.returncode == 77, (done.returncode, done.stderr)
    assert "asked for the network" in done.stderr


@pytest.mark.parametrize("missing", [*PROVIDES, ",".join(PROVIDES)])
def test_program_and_demo_run_without_optional_packages(
    missing: str, tmp_path: Path
) -> None:
    picture = tmp_path / "window.png"
    done = shut_in(missing, f"demo --snapshot {picture} --seconds 6", "ports")
    assert done.returncode == 0, done.stderr
    assert "Traceback" not in done.stderr
    assert picture.stat().st_size > 10_000


def test_parquet_without_its_package_is_told_in_words(tmp_path: Path) -> None:
    recording = ROOT / "recordings" / "one-side-v1.0.force"
    out = tmp_path / "out"
    done = shut_in("pyarrow", f"export {out} --format parquet --files {recording}")
    assert done.returncode == 1
    assert "pyarrow" in done.stderr
    assert "Traceback" not in done.stderr
    assert not out.exists()


def test_what_is_sealed_is_told_in_words_without_its_package(tmp_path: Path) -> None:
    logbook, held = fill(tmp_path)
    (passphrase := tmp_path / "passphrase").write_text("four words of no sense")
    places = f"--logbook {logbook} --recordings {held}"
    opens = f"--passphrase-file {passphrase}"
    commands = (
        f"replay {held / 'one-side-v1.0.force'} {opens}",
        f"report DEMO-3 --output {tmp_path / 'a.pdf'} --logbook {logbook} {opens}",
        f"unseal {places} {opens}",
        f"seal --yes {places} {opens}",
    )
    for sealed in (False, True):
        for command in commands[-1:] if not sealed else commands:
            done = shut_in("cryptography", command)
            assert done.returncode == 1, (command, done.stderr)
            assert "-m pip install cryptography" in done.stderr
            assert "Traceback" not in done.stderr
        assert main(shlex.split(commands[-1])) == 0
    # What opens no name goes on without it.
    done = shut_in("cryptography", f"backup {tmp_path / 'backup'} {places}")
    assert done.returncode == 0, done.stderr


def test_each_extra_for_users_is_among_those_taken_away() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    extras = set(project["project"]["optional-dependencies"]) - {"dev"}
    assert extras == set(PROVIDES.values())
