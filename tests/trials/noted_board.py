"""A simulated rig on a pseudo-terminal that notes what went out, and when."""

from __future__ import annotations

import threading
import time
from typing import TYPE_CHECKING

from biofeedback.rig.effort import Effort
from biofeedback.rig.serve import RigServer, TerminalLine
from biofeedback.rig.simulated_athlete import SimulatedAthlete
from biofeedback.rig.simulated_rig import RigSettings, SimulatedRig
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Samples

if TYPE_CHECKING:
    from pathlib import Path


class NotedLine(TerminalLine):
    """A pseudo-terminal that notes what went out, and when."""

    def __init__(self, *, link: Path) -> None:
        super().__init__(link=link)
        self.noted: list[tuple[float, bytes]] = []

    def send(self, data: bytes) -> int:
        """As the line does it; what it did not take is not noted."""
        sent = super().send(data)
        if sent:
            self.noted.append((time.monotonic(), data[:sent]))
        return sent


class NotedBoard:
    """Serves until it is closed: an invented athlete does short reps.

    Args:
        link: where the port is to be found.
        seed: of the rig and the athlete.
    """

    def __init__(
        self, link: Path, seed: int = 1, *, serial_number: str = "SIM-0001"
    ) -> None:
        self.link = link
        self._line = NotedLine(link=link)
        athlete = SimulatedAthlete(seed)
        settings = RigSettings(serial_number=serial_number)
        rig = SimulatedRig(settings, seed=seed, force=athlete)
        effort = Effort(50.0, 10.0, hold_s=1.2, rest_s=0.8, reps=1000)
        server = RigServer(
            rig, self._line, athlete=athlete, effort=effort, lead_in_s=0.5
        )
        self._stop = threading.Event()
        self._thread = threading.Thread(target=server.run, args=(self._stop,))
        self._thread.start()

    def close(self) -> None:
        """Ends it."""
        self._stop.set()
        self._thread.join()

    def sent(self) -> dict[tuple[int, bytes], tuple[float, Samples]]:
        """Each frame of samples that was sent whole, by its key, and when."""
        decoder = Decoder()
        return {
            key_of(frame): (at_s, frame)
            for at_s, data in list(self._line.noted)
            for frame in decoder.push(data)
            if isinstance(frame, Samples)
        }


def key_of(frame: Samples) -> tuple[int, bytes]:
    """By which a frame is found again in a recording."""
    return frame.sequence, frame.counts.tobytes()
