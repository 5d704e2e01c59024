"""`biofeedback simulate`: a simulated rig on a line, as if it were plugged in."""

from __future__ import annotations

import os
import signal
import sys
import threading
from pathlib import Path
from typing import TYPE_CHECKING

from biofeedback.cli.values import newtons, reps, seconds, seed, socket_port
from biofeedback.rig.effort import Effort
from biofeedback.rig.serve import RigServer, SocketLine, TerminalLine
from biofeedback.rig.simulated_athlete import SimulatedAthlete
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.session.opening import PLAIN

if TYPE_CHECKING:
    from argparse import ArgumentParser, Namespace


def add_arguments(parser: ArgumentParser) -> None:
    """Says what the command takes."""
    fits = "(default: %(default)g, as the window opens)"
    parser.add_argument("--channels", type=int, choices=(1, 2), default=2)
    parser.add_argument(
        "--rate",
        type=float,
        choices=RigSettings().rates_hz,
        default=80.0,
        help="samples per second (default: %(default)g)",
    )
    parser.add_argument(
        "--seed",
        type=seed,
        default=7,
        help="another athlete for each (default: %(default)s)",
    )
    parser.add_argument(
        "--centre",
        type=newtons,
        default=PLAIN.band.centre_n,
        metavar="N",
        help=f"force aimed at {fits}",
    )
    parser.add_argument(
        "--width",
        type=newtons,
        default=PLAIN.band.width_n,
        metavar="N",
        help=f"width of the band {fits}",
    )
    parser.add_argument(
        "--hold",
        type=seconds,
        default=PLAIN.hold_s,
        metavar="S",
        help=f"seconds to hold {fits}",
    )
    parser.add_argument(
        "--rest",
        type=seconds,
        default=10.0,
        metavar="S",
        help="seconds between efforts (default: %(default)g)",
    )
    parser.add_argument(
        "--reps",
        type=reps,
        default=100,
        help="efforts from the start on; after the last one the athlete only rests "
        "(default: %(default)s)",
    )
    parser.add_argument(
        "--numbered",
        action="store_true",
        help="no force: counts are the numbers of the samples",
    )
    where = parser.add_mutually_exclusive_group()
    where.add_argument(
        "--link",
        type=Path,
        metavar="PATH",
        help="make this symbolic link to the pseudo-terminal",
    )
    where.add_argument(
        "--socket",
        type=socket_port,
        metavar="PORT",
        help="serve on socket://127.0.0.1:PORT instead; 0 for any free one",
    )


def run(options: Namespace) -> int:
    """Serves until Ctrl-C."""
    athlete = SimulatedAthlete(options.seed)
    settings = RigSettings(
        channels=options.channels, rate_hz=options.rate, numbered=options.numbered
    )
    rig = SimulatedRig(settings, seed=options.seed, force=athlete)
    effort = Effort(
        centre_n=options.centre,
        half_width_n=options.width / 2,
        hold_s=options.hold,
        rest_s=options.rest,
        reps=options.reps,
    )
    use_socket = options.socket is not None or os.name != "posix"
    line = (
        SocketLine(port=options.socket or 0)
        if use_socket
        else TerminalLine(link=options.link)
    )
    server = RigServer(rig, line, athlete=athlete, effort=effort)
    stop = threading.Event()
    signal.signal(signal.SIGTERM, lambda *_: stop.set())
    if isinstance(line, TerminalLine) and line.taken_from is not None:
        print(
            f"{options.link} led to {line.taken_from}, which is still there: another "
            "simulated rig may have lost its link.",
            file=sys.stderr,
        )
    print(f"{options.link or line.name}", flush=True)
    print(
        f"Serving a simulated rig. Open it with: biofeedback window --port "
        f"{options.link or line.name}   (Ctrl-C ends it)\n"
        "An invented athlete pulls on it; with --reps 0 nobody does, as a health check "
        "wants it.",
        flush=True,
    )
    server.run(stop)
    return 0
