"""Runs commands of the program with something taken away: the network, or modules.

    python tests/shut_in.py network COMMAND…      no socket may be made, bound or named
    python tests/shut_in.py MODULE,MODULE COMMAND…  these modules cannot be imported

Each command is one argument. Exit code 0 only where each has given 0; 77 where a
socket was asked for. Python's audit hook cannot be taken away again, which is why this
is a program of its own.
"""

from __future__ import annotations

import os
import shlex
import sys
from importlib.abc import MetaPathFinder
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence
    from importlib.machinery import ModuleSpec
    from types import ModuleType

NETWORK = "network"
ASKED_FOR_A_SOCKET = 77


def no_network(event: str, _arguments: tuple[object, ...]) -> None:
    """Whatever Python does with a socket ends the program, so no one can catch it."""
    if event.startswith("socket."):
        sys.stderr.write(f"asked for the network: {event}\n")
        sys.stderr.flush()
        os._exit(ASKED_FOR_A_SOCKET)


class Missing(MetaPathFinder):
    """Modules that are not installed."""

    def __init__(self, names: Sequence[str]) -> None:
        self._names = names

    def find_spec(
        self,
        fullname: str,
        _path: Sequence[str] | None,
        _target: ModuleType | None = None,
    ) -> ModuleSpec | None:
        if fullname.partition(".")[0] in self._names:
            raise ModuleNotFoundError(f"No module named '{fullname}'", name=fullname)
        return None


def inet_sockets() -> set[str]:
    """Network sockets this process holds, however they were made; Linux only."""
    mine = set()
    for descriptor in Path("/proc/self/fd").iterdir():
        try:
            mine.add(descriptor.readlink().name)
        except OSError:  # the one the folder was read by
            continue
    known = set()
    for table in ("tcp", "tcp6", "udp", "udp6", "raw"):
        path = Path("/proc/self/net") / table
        for line in path.read_text().splitlines()[1:] if path.exists() else ():
            known.add(f"socket:[{line.split()[9]}]")
    return mine & known


def run(without: str, commands: Sequence[str]) -> int:
    if without == NETWORK:
        sys.addaudithook(no_network)
    else:
        sys.meta_path.insert(0, Missing(without.split(",")))
    from biofeedback.cli import main  # noqa: PLC0415  only now

    for command in commands:
        code = main(shlex.split(command))
        if code != 0:
            return code
        if without == NETWORK and sys.platform == "linux" and inet_sockets():
            sys.stderr.write("a network socket is open\n")
            return ASKED_FOR_A_SOCKET
    return 0


if __name__ == "__main__":
    sys.exit(run(sys.argv[1], sys.argv[2:]))
