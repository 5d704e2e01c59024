"""A simulated board in lockstep: time passes when the test says so.

The processor, the ADC chips and the serial line are simulated to the cycle, and
the program's own serial source reads the pseudo-terminal. Nothing depends on how
fast this machine is: the source's clock is the board's.
"""

from __future__ import annotations

import csv
import json
import subprocess
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, TypeVar

import numpy as np

from biofeedback.errors import RigError
from biofeedback.phrase import phrase
from biofeedback.rig.serial_source import BAUD, SerialSource
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import Damage, Identity, Reply, Samples, Status

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from pathlib import Path

    from biofeedback.wire.frames import Frame, HostFrame

Kind = TypeVar("Kind")

STEP_S = 0.1
"""A pseudo-terminal holds 16.9 kB, and the line brings 5 kB meanwhile."""
ASKING_STEP_S = 0.02


class CountedSource(SerialSource):
    """The program's serial source, which also says how much it has moved."""

    def __init__(self, board: Board, baud: int) -> None:
        super().__init__(board.port, baud=baud, clock=lambda: board.now_ns)
        self._board = board
        self.read_bytes = 0
        self.written_bytes = 0

    def open(self) -> None:
        super().open()
        self.read_bytes = self._board.sent_bytes  # opening throws away what waited

    def write(self, data: bytes) -> None:
        super().write(data)
        self.written_bytes += len(data)

    def _take(self) -> bytes:
        data = super()._take()
        self.read_bytes += len(data)
        return data


@dataclass
class Heard:
    """All frames that came, by kind."""

    frames: list[Frame | Damage] = field(default_factory=list)

    def of(self, kind: type[Kind]) -> list[Kind]:
        return [frame for frame in self.frames if isinstance(frame, kind)]

    def samples(self, stream: int = 0) -> list[Samples]:
        return [frame for frame in self.of(Samples) if frame.stream == stream]

    @property
    def identity(self) -> Identity:
        return self.of(Identity)[-1]

    @property
    def statuses(self) -> list[Status]:
        return self.of(Status)

    @property
    def replies(self) -> list[Reply]:
        return self.of(Reply)

    @property
    def damages(self) -> list[Damage]:
        return self.of(Damage)


@dataclass(frozen=True)
class Column:
    """The samples of one stream, one row each."""

    number: np.ndarray
    time_us: np.ndarray
    counts: np.ndarray
    saturated: np.ndarray
    settling: np.ndarray

    @classmethod
    def of(cls, frames: Sequence[Samples]) -> Column:
        steps = [np.arange(len(frame.counts)) for frame in frames]
        return cls(
            number=np.concatenate(
                [
                    frame.sequence + step
                    for frame, step in zip(frames, steps, strict=True)
                ]
            ),
            time_us=np.concatenate(
                [
                    frame.time_us + frame.step_us * step
                    for frame, step in zip(frames, steps, strict=True)
                ]
            ),
            counts=np.concatenate([frame.counts for frame in frames]),
            saturated=np.concatenate([frame.saturated for frame in frames]),
            settling=np.concatenate([frame.settling for frame in frames]),
        )


@dataclass(frozen=True)
class Truth:
    """What a chip really converted."""

    index: np.ndarray
    time_us: np.ndarray
    counts: np.ndarray
    settled: np.ndarray


class Board:
    """One simulated board.

    Args:
        built: folder with the firmware and the simulator.
        folder: for what the run leaves behind; made here.
        adc: `hx711` or `spi`.
        profile: rows of counts, or a whole profile file as text.
        baud: that the host opens the port with.
        options: of the simulator, `_` for `-`; True for those without a value.
    """

    def __init__(
        self,
        built: Path,
        folder: Path,
        *,
        adc: str = "hx711",
        profile: str | Iterable[Sequence[int]] | None = None,
        baud: int = BAUD,
        **options: object,
    ) -> None:
        folder.mkdir()
        self._folder = folder
        call = [str(built / "simulator"), "--lockstep", "--adc", adc]
        call += ["--firmware", str(built / f"firmware-{adc}.elf")]
        call += ["--truth", str(folder / "truth.csv")]
        call += ["--stats", str(folder / "stats.json")]
        if profile is not None:
            call += ["--profile", str(self._write_profile(profile))]
        for name, value in options.items():
            call.append("--" + name.replace("_", "-"))
            if value is not True:
                call.append(str(value))
        self._process = subprocess.Popen(  # noqa: S603  our own simulator
            call, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )
        self.port = self._answer("port")[0]
        self._now_us = 0
        self.sent_bytes = 0
        self.source = CountedSource(self, baud)
        self.decoder = Decoder()
        self.heard = Heard()

    def _write_profile(self, profile: str | Iterable[Sequence[int]]) -> Path:
        path = self._folder / "profile.txt"
        if not isinstance(profile, str):
            rows = "".join(f"{left} {right}\n" for left, right in profile)
            profile = "mode index\n" + rows
        path.write_text(profile)
        return path

    def _answer(self, word: str) -> list[str]:
        assert self._process.stdout is not None
        line = self._process.stdout.readline()
        first, *rest = line.split() or [""]
        assert first == word, f"the simulator says {line!r}"
        return rest

    def _tell(self, line: str) -> None:
        assert self._process.stdin is not None
        self._process.stdin.write(line + "\n")
        self._process.stdin.flush()

    @property
    def now_ns(self) -> int:
        """Simulated time since power-up."""
        return self._now_us * 1000

    @property
    def now_s(self) -> float:
        return self._now_us / 1e6

    @property
    def unread(self) -> bool:
        """Whether the host has not read all that the board has sent."""
        return self.source.read_bytes < self.sent_bytes

    def step(self, step_s: float = STEP_S) -> None:
        """Lets the board run, and nobody read."""
        self._tell(f"run {round(step_s * 1e6)} {self.source.written_bytes}")
        now_us, sent = self._answer("ok")
        self._now_us, self.sent_bytes = int(now_us), int(sent)

    def open(self) -> None:
        """Opens the port and waits until the board is known."""
        self.source.open()
        while not self.source.found:
            self.step(ASKING_STEP_S)
            self.listen()

    def listen(self) -> None:
        """Reads all that was sent, with the program's source and decoder."""
        asked = False
        while self.unread or not asked:
            asked = True
            if not self.unread and self.source.found:
                break
            self.heard.frames += self.decoder.push(self.source.read())

    def run(self, duration_s: float) -> Heard:
        """Lets the board run and reads along."""
        end_us = self._now_us + round(duration_s * 1e6)
        while self._now_us < end_us:
            self.step(min(STEP_S, (end_us - self._now_us) / 1e6))
            self.listen()
        return self.heard

    def ask(self, command: HostFrame) -> Reply:
        """Sends a command and waits for its answer."""
        before = len(self.heard.replies)
        self.source.write(encode(command))
        for _ in range(50):
            self.run(0.002)
            answers = [
                reply
                for reply in self.heard.replies[before:]
                if reply.token == command.token
            ]
            if answers:
                return answers[0]
        raise RigError(phrase("no answer"))

    def finish(self) -> dict[str, float]:
        """Ends the simulation; what the simulator saw of the firmware."""
        self.source.close()
        if self._process.poll() is None:
            self._tell("quit")
            self._process.wait(10)
        stats: dict[str, float] = json.loads((self._folder / "stats.json").read_text())
        return stats

    def truth(self, cell: int = 0) -> Truth:
        """What the chip of a cell converted; after `finish`."""
        with (self._folder / "truth.csv").open() as file:
            rows = [row for row in csv.reader(file) if int(row[0]) == cell]
        table = np.array(rows, dtype=float)
        return Truth(
            table[:, 1].astype(int),
            table[:, 2],
            table[:, 3].astype(int),
            table[:, 4].astype(bool),
        )

    def close(self) -> None:
        """Ends whatever is left."""
        self.source.close()
        if self._process.poll() is None:
            self._process.kill()
        self._process.wait(10)
        for stream in (self._process.stdin, self._process.stdout):
            if stream is not None:
                stream.close()
