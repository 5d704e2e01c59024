"""`biofeedback licences`: what the program is built on, its versions and licences.

All of it is told by the packages themselves, as they are installed here; no network is
asked. Packages that are asked for and not installed are listed as such.
"""

from __future__ import annotations

import json
import re
from dataclasses import asdict, dataclass
from importlib import metadata
from typing import TYPE_CHECKING

from biofeedback.errors import UserError
from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace

PROGRAM = "biofeedback"
EXTRAS = ("sound", "export", "seal")
"""Those for users; what only developers need is not shipped and not listed."""
UNKNOWN = "not told by the package"
SHORT = 80
"""Characters; a longer field is the licence's whole text."""

_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]*")
_EXTRA = re.compile(r"""extra\s*==\s*['"]([^'"]+)['"]""")


@dataclass(frozen=True, slots=True)
class Package:
    """One package.

    Attributes:
        version: as it is installed; empty where it is not.
        asked_by: which package asks for it.
    """

    name: str
    version: str
    licence: str
    asked_by: str


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument("--json", action="store_true")


def run(options: Namespace) -> int:
    """Lists the packages."""
    found = packages()
    if options.json:
        print(json.dumps([asdict(each) for each in found]))
        return 0
    for each in found:
        version = each.version or "not installed"
        print(f"{each.name:<20} {version:<14} {each.licence}")
    return 0


def packages() -> list[Package]:
    """The program and all it needs, directly or not, by name.

    Raises:
        UserError: the program is not installed, so nobody knows what it needs.
    """
    try:
        own = metadata.distribution(PROGRAM)
    except metadata.PackageNotFoundError as error:
        raise UserError(
            phrase("The program is not installed as a package."),
            phrase("Install it: pip install ."),
        ) from error
    found: dict[str, Package] = {}
    waiting = [(PROGRAM, own.name)]
    while waiting:
        name, asked_by = waiting.pop()
        key = name.lower().replace("_", "-")
        if key in found:
            continue
        try:
            one = metadata.distribution(name)
        except metadata.PackageNotFoundError:
            found[key] = Package(name, "", "", asked_by)
            continue
        found[key] = Package(one.name, one.version, _licence(one), asked_by)
        extras = EXTRAS if key == PROGRAM else ()
        waiting += [(each, one.name) for each in _needs(one, extras)]
    return [found[key] for key in sorted(found)]


def _needs(one: metadata.Distribution, extras: tuple[str, ...]) -> list[str]:
    """Names of what it needs, in any case or for these extras.

    Needs of another system or another Python are told apart only by whether they are
    installed.
    """
    names = []
    for need in one.requires or ():
        extra = _EXTRA.search(need)
        name = _NAME.match(need)
        if name is None or (extra is not None and extra[1] not in extras):
            continue
        if ";" in need and extra is None and not _installed(name[0]):
            continue
        names.append(name[0])
    return names


def _installed(name: str) -> bool:
    try:
        metadata.distribution(name)
    except metadata.PackageNotFoundError:
        return False
    return True


def _licence(one: metadata.Distribution) -> str:
    told = one.metadata
    for field in ("License-Expression", "License"):
        text = "".join(told.get_all(field) or ()).strip()
        if text and len(text) <= SHORT and "\n" not in text:
            return text
    classes = [
        each.rsplit(" :: ", 1)[1]
        for each in told.get_all("Classifier") or ()
        if each.startswith("License :: ")
    ]
    return "; ".join(classes) or UNKNOWN
