"""The firmware's tests: what they need, and a simulated board to run.

`make -C hardware test` runs them all. Elsewhere they skip where the tools are not
installed; `HARDWARE_REQUIRED` makes that a failure.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hardware.board import Board

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

HARDWARE = Path(__file__).parents[2] / "hardware"
BUILD = HARDWARE / "build"
REQUIRED = bool(os.environ.get("HARDWARE_REQUIRED"))


def _missing() -> list[str]:
    tools = [tool for tool in ("make", "gcc", "avr-gcc") if shutil.which(tool) is None]
    if not Path("/usr/include/simavr/sim_avr.h").is_file():
        tools.append("libsimavr")
    return tools


@pytest.fixture(scope="session")
def built() -> Path:
    """The folder with firmware, simulator and host library, built anew."""
    missing = _missing()
    if missing:
        message = (
            f"the firmware's tools are not installed ({', '.join(missing)}); "
            "`make -C hardware deps` installs them"
        )
        if REQUIRED:
            pytest.fail(message)
        pytest.skip(message)
    made = subprocess.run(  # noqa: S603  our own Makefile
        ["make", "-s", "-C", str(HARDWARE), "all"],  # noqa: S607  found by the path
        capture_output=True,
        text=True,
        check=False,
    )
    assert made.returncode == 0, made.stderr
    return BUILD


@pytest.fixture
def start(built: Path, tmp_path: Path) -> Iterator[Callable[..., Board]]:
    """Starts a simulated board; it is ended with the test."""
    boards: list[Board] = []

    def begin(adc: str = "hx711", **options: Any) -> Board:
        board = Board(built, tmp_path / f"board{len(boards)}", adc=adc, **options)
        boards.append(board)
        return board

    yield begin
    for board in boards:
        board.close()


@pytest.fixture
def note(built: Path) -> Callable[[str], None]:
    """Keeps a figure, for `make` to print at its end."""

    def keep(line: str) -> None:
        with (built / "figures.txt").open("a") as file:
            file.write(line + "\n")

    return keep
