"""Licences and versions of what the program is built on, from what is installed."""

from __future__ import annotations

import json
import re
import tomllib
from importlib import metadata
from pathlib import Path

import pytest
from packaging.requirements import Requirement

from biofeedback.cli import main
from biofeedback.cli.licences import EXTRAS, PROGRAM, packages

PROJECT = tomllib.loads(
    (Path(__file__).parents[2] / "pyproject.toml").read_text(encoding="utf-8")
)["project"]
# Permissive, or the LGPL for a library that stays replaceable. A package with another
# licence is to be looked at by a person, and then added here.
KNOWN = re.compile(
    r"MIT(-0)?|BSD( License)?|BSD-3-Clause|Apache-2\.0|PSF-2\.0"
    r"|LGPL-3\.0-only OR GPL-2\.0-only OR GPL-3\.0-only"
    r"|Apache-2\.0 OR BSD-3-Clause"
    r"|BSD-3-Clause AND 0BSD AND MIT AND Zlib AND CC0-1\.0"
)


def asked_for() -> list[Requirement]:
    optional = PROJECT["optional-dependencies"]
    needs = [*PROJECT["dependencies"], *(n for e in EXTRAS for n in optional[e])]
    return [Requirement(need) for need in needs]


def test_each_package_has_a_licence_that_was_looked_at() -> None:
    found = packages()
    assert {each.name for each in found} >= {
        "biofeedback",
        "numpy",
        "Mako",
        "shiboken6",
    }
    unknown = {e.name: e.licence for e in found if not KNOWN.fullmatch(e.licence)}
    assert unknown == {}


@pytest.mark.skipif(
    not all(
        any(
            Requirement(told).name == need.name
            for told in metadata.requires(PROGRAM) or ()
        )
        for need in asked_for()
    ),
    reason="installed before its needs changed: pip install -e .",
)
def test_nothing_that_is_asked_for_is_left_out() -> None:
    listed = {each.name.lower().replace("_", "-") for each in packages()}
    wanted = {need.name.lower().replace("_", "-") for need in asked_for()}
    assert wanted <= listed


@pytest.mark.parametrize("need", asked_for(), ids=str)
def test_what_is_installed_is_in_the_range_that_is_asked_for(need: Requirement) -> None:
    assert need.specifier, "each dependency says which versions it was made for"
    assert metadata.version(need.name) in need.specifier


def test_the_command_lists_them(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["licences"]) == 0
    lines = capsys.readouterr().out.splitlines()
    (numpy,) = (line for line in lines if line.startswith("numpy "))
    assert metadata.version("numpy") in numpy
    assert "BSD-3-Clause" in numpy
    assert main(["licences", "--json"]) == 0
    assert len(json.loads(capsys.readouterr().out)) == len(lines)
