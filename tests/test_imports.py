"""Each import contract is proven by breaking it.

A contract that names the wrong module passes for ever. So each is broken once, in a
copy, by one offending import, and must then be the one that is reported.
"""

from __future__ import annotations

import ast
import os
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PROJECT = ROOT / "pyproject.toml"

DOWN = "Imports point down"
QT = "Only gui and report know Qt"
REPORT = "The report needs no window"
PURE = "The pure packages know no clock, file, thread, log or chance"
PORTS = "Only the serial source opens ports"
SOUND = "Only the player knows the sound device"
DATABASE = "Only the logbook knows the database"
DOOR = "The window reaches the rig and the files through the session alone"

OFFENCES = [
    (DOWN, "conditioning/intruder.py", "import biofeedback.training.band"),
    (DOWN, "rig/intruder.py", "import biofeedback.logbook"),
    (DOWN, "without_a_layer.py", ""),
    (QT, "session/intruder.py", "import PySide6.QtCore"),
    (QT, "measures/intruder.py", "import pyqtgraph"),
    (DOWN, "session/intruder.py", "import biofeedback.report"),
    (DOWN, "report/intruder.py", "import biofeedback.gui"),
    (REPORT, "report/intruder.py", "from biofeedback.logbook import database"),
    (REPORT, "report/intruder.py", "import pyqtgraph"),
    (PURE, "training/intruder.py", "import time"),
    (PURE, "wire/intruder.py", "from pathlib import Path"),
    (PURE, "measures/intruder.py", "import datetime"),
    (PORTS, "session/intruder.py", "import serial"),
    (SOUND, "gui/intruder.py", "import sounddevice"),
    (DOWN, "sound/intruder.py", "from biofeedback.session import live"),
    (DOWN, "session/intruder.py", "from biofeedback.tuning import bench"),
    (QT, "tuning/intruder.py", "import PySide6.QtCore"),
    (DATABASE, "tuning/intruder.py", "import sqlalchemy"),
    (DATABASE, "cli/intruder.py", "from sqlalchemy import select"),
    (DOOR, "gui/intruder.py", "from biofeedback.rig import handoff"),
]


@pytest.fixture
def package_copy(tmp_path: Path) -> Path:
    shutil.copy(PROJECT, tmp_path)
    shutil.copytree(
        ROOT / "biofeedback",
        tmp_path / "biofeedback",
        ignore=lambda folder, names: {
            name
            for name in names
            if not name.endswith(".py") and not (Path(folder) / name).is_dir()
        },
    )
    return tmp_path


def broken_contracts(folder: Path) -> set[str]:
    """The contracts that the checker reports for the package in `folder`."""
    run = "from importlinter.cli import lint_imports_command; lint_imports_command()"
    done = subprocess.run(  # noqa: S603  our own words, no one else's
        [sys.executable, "-c", run],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(folder), "COLUMNS": "200"},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    said = r"^(.+) (KEPT|BROKEN)(?: \(.*\))?$"  # how many imports were let pass
    verdicts = re.findall(said, done.stdout, flags=re.MULTILINE)
    assert len(verdicts) == len(contract_names()), done.stdout + done.stderr
    broken = {name for name, verdict in verdicts if verdict == "BROKEN"}
    assert (done.returncode == 0) == (not broken)
    return broken


def contract_names() -> set[str]:
    project = tomllib.loads(PROJECT.read_text(encoding="utf-8"))
    return {c["name"] for c in project["tool"]["importlinter"]["contracts"]}


def test_package_as_it_is_keeps_all_contracts(package_copy: Path) -> None:
    assert broken_contracts(package_copy) == set()


@pytest.mark.parametrize(("contract", "module", "line"), OFFENCES)
def test_offending_module_breaks_its_contract_alone(
    package_copy: Path, contract: str, module: str, line: str
) -> None:
    (package_copy / "biofeedback" / module).write_text(line + "\n", encoding="ascii")
    assert broken_contracts(package_copy) == {contract}


def test_each_contract_is_broken_once() -> None:
    assert {contract for contract, _, _ in OFFENCES} == contract_names()


CLOCKS = {"now", "today", "utcnow"}


def asks_the_clock(source: str) -> list[str]:
    """Calls that would tell the time of day."""
    calls = [node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Call)]
    return [
        call.func.attr
        for call in calls
        if isinstance(call.func, ast.Attribute) and call.func.attr in CLOCKS
    ]


@pytest.mark.parametrize("package", ["wire", "conditioning", "training", "measures"])
def test_no_pure_package_asks_what_day_it_is(package: str) -> None:
    assert asks_the_clock("import datetime\ndatetime.date.today()") == ["today"]
    for path in (ROOT / "biofeedback" / package).rglob("*.py"):
        assert asks_the_clock(path.read_text(encoding="utf-8")) == [], path


def qt_modules(source: str) -> set[str]:
    """The parts of Qt that a module imports."""
    found = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.ImportFrom) and node.module:
            whole = node.module == "PySide6"
            names = [f"PySide6.{one.name}" for one in node.names] if whole else []
            found |= {node.module, *names} - {"PySide6"}
        elif isinstance(node, ast.Import):
            found |= {one.name for one in node.names}
    return {name for name in found if name.startswith("PySide6")}


def test_the_report_paints_without_widgets() -> None:
    """The checker of imports cannot tell the parts of another package apart."""
    assert qt_modules("from PySide6.QtWidgets import QLabel") == {"PySide6.QtWidgets"}
    assert qt_modules("from PySide6 import QtWidgets") == {"PySide6.QtWidgets"}
    assert qt_modules("import PySide6.QtWidgets as w") == {"PySide6.QtWidgets"}
    for path in (ROOT / "biofeedback" / "report").rglob("*.py"):
        used = qt_modules(path.read_text(encoding="utf-8"))
        assert used <= {"PySide6.QtCore", "PySide6.QtGui"}, path
