"""`biofeedback ports`: the serial ports of this machine."""

from __future__ import annotations

import json
from dataclasses import asdict
from typing import TYPE_CHECKING

from biofeedback.rig.serial_source import ports

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    parser.add_argument("--json", action="store_true", help="a JSON array")


def run(options: Namespace) -> int:
    """Lists them."""
    found = ports()
    if options.json:
        print(json.dumps([asdict(port) for port in found]))
    elif not found:
        print("No serial port was found. Plug the rig in and ask again.")
    for port in () if options.json else found:
        print(f"{port.device}  {port.description}  ({port.hint})")
    return 0
