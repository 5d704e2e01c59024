"""The simulated rig: a board that speaks the real protocol, without a board.

Host frames go in, device frames come out, and time is whatever `advance` says.
It has no clock of its own, so the same seed and the same orders at the same
device times give the same bytes, however the time is cut. What it says and when
is set down in `hardware/PROTOCOL.md`; it is stricter in one thing: no sample
waits longer than 3 ms for others.

A sample is numbered when it is converted. One that is lost keeps its number; a
chip that has gone silent converts nothing and numbers nothing.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.conditioning.profile import SIMULATED_ADC
from biofeedback.rig.faults import Fault, FaultKind, Faults
from biofeedback.rig.force_input import ForceProfile
from biofeedback.rig.simulated_adc import GAINS, SimulatedAdc
from biofeedback.wire.codec import encode
from biofeedback.wire.decoder import Decoder
from biofeedback.wire.frames import (
    COUNTS_MAX,
    COUNTS_MIN,
    PROTOCOL_MAJOR,
    PROTOCOL_MINOR,
    SEQUENCE_MODULUS,
    Damage,
    DeviceFrame,
    FrameType,
    Gain,
    Identify,
    Identity,
    Rate,
    Reply,
    Result,
    Samples,
    Start,
    Status,
    Stop,
)

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.rig.force_input import ForceInput

FRAME_SAMPLES_MAX = 8
FRAME_WAIT_S = 0.003
STATUS_US = 1_000_000
SILENT_US = 500_000
SILENT_PERIODS = 4
"""No conversion for the longer of these two, and the chip is called silent."""
SETTLING_SAMPLES = 4
"""As many conversions as the HX711 needs after a start or a change (data sheet)."""

TELLS_WHO = {FrameType.IDENTIFY, FrameType.RATE, FrameType.GAIN}
"""An identity follows these, once done: it says what is now in force."""


@dataclass(frozen=True, slots=True)
class RigSettings:
    """What sort of board is simulated.

    Attributes:
        channels: 1 (both sides pull on one cell) or 2 (left, right).
        rate_hz: in force at power-up; one of `rates_hz`.
        noise_n: standard deviation of the ADC's noise.
        numbered: the counts are the samples' own numbers and no force: n in the
            first channel, −n − 1 in the second. So a test can prove that none
            was lost, doubled, moved or put into the other channel.
        clock_us: device clock at power-up; near 2**32 to see it wrap.
        first_sequence: number of the first sample; likewise.
    """

    channels: int = 2
    rate_hz: float = 80.0
    rates_hz: tuple[float, ...] = (10.0, 80.0, 320.0, 1000.0, 2000.0)
    noise_n: float = 0.03
    numbered: bool = False
    clock_us: int = 0
    first_sequence: int = 0
    serial_number: str = "SIM-0001"


class SimulatedRig:
    """A board on a bench.

    Args:
        settings: what sort of board.
        seed: of the ADC's noise and of the bits that flip.
        force: what pulls on it; nothing does where it is None.
        faults: what goes wrong and when; more can be asked for later.
    """

    def __init__(
        self,
        settings: RigSettings | None = None,
        *,
        seed: int = 0,
        force: ForceInput | None = None,
        faults: tuple[Fault, ...] = (),
    ) -> None:
        self._settings = settings or RigSettings()
        self._adc = SimulatedAdc(
            force or ForceProfile(((0.0, 0.0, 0.0),)),
            channels=self._settings.channels,
            noise_n=self._settings.noise_n,
            seed=seed,
        )
        self._faults = Faults(faults)
        self._flips = np.random.default_rng([seed, 1])
        self._decoder = Decoder()
        # A delimiter first, so that half a frame before it costs none after it.
        self._out = bytearray(b"\0")
        self._now_us = 0
        self._status_us = STATUS_US
        self._rate_index = self._settings.rates_hz.index(self._settings.rate_hz)
        self._gain_index = 0
        self._streaming = False
        self._start_us = 0  # of the stream at its present rate
        self._converted = 0  # conversions since then, lost or not
        self._sequence = self._settings.first_sequence  # of the next sample
        self._held: list[tuple[int, int, list[int], list[bool], bool]] = []
        self._transmit_drops = 0
        self._crc_errors = 0
        self._converted_us = 0  # when the newest conversion ended
        self._send(self._identity())

    # Seen from outside.

    @property
    def now_us(self) -> int:
        """Microseconds since power-up."""
        return self._now_us

    @property
    def streaming(self) -> bool:
        """Whether samples are being sent."""
        return self._streaming

    @property
    def rate_hz(self) -> float:
        """The sample rate in force."""
        return self._settings.rates_hz[self._rate_index]

    @property
    def due_us(self) -> int:
        """Device time at which something will next be sent, at the latest."""
        if not self._streaming:
            return self._status_us
        to_come = self._frame_samples - len(self._held)
        return min(self._status_us, self._sample_us(self._converted + to_come))

    def ask(self, fault: Fault) -> None:
        """Makes something go wrong, now or later."""
        self._faults.add(fault)

    def receive(self, data: bytes) -> None:
        """Takes what the host sends; the answer comes with the next `advance`."""
        if self._faults.covers(FaultKind.VANISH, self._now_us):
            return
        for frame in self._decoder.push(data):
            match frame:
                case Damage():
                    self._crc_errors += 1
                case Identify():
                    self._answer(frame.token, FrameType.IDENTIFY, Result.DONE)
                case Start():
                    self._start()
                    self._answer(frame.token, FrameType.START, Result.DONE)
                case Stop():
                    self._flush()
                    self._streaming = False
                    self._answer(frame.token, FrameType.STOP, Result.DONE)
                case Rate():
                    result = self._change_rate(frame.rate_hz)
                    self._answer(frame.token, FrameType.RATE, result)
                case Gain():
                    result = self._change_gain(frame.gain)
                    self._answer(frame.token, FrameType.GAIN, result)
                case _:
                    pass  # frames of a board are ignored by a board

    def advance(self, duration_us: int) -> bytes:
        """Lets time pass and gives what the board sent meanwhile."""
        end_us = self._now_us + duration_us
        while self._status_us <= end_us:
            self._convert_until(self._status_us)
            self._now_us = self._status_us
            self._status_us += STATUS_US
            self._flush()
            self._send(self._status())
        self._convert_until(end_us)
        self._now_us = end_us
        sent = bytes(self._out)
        self._out.clear()
        return sent

    # Commands.

    def _start(self) -> None:
        if not self._streaming:
            self._streaming = True
            self._begin_stream()

    def _begin_stream(self) -> None:
        self._start_us = self._converted_us = self._now_us
        self._converted = 0

    def _change_rate(self, rate_hz: float) -> Result:
        for index, offered_hz in enumerate(self._settings.rates_hz):
            if abs(offered_hz - rate_hz) < 0.0005:  # rates travel to the millihertz
                self._flush()
                self._rate_index = index
                self._begin_stream()
                return Result.DONE
        return Result.BAD_VALUE

    def _change_gain(self, gain: int) -> Result:
        if gain not in GAINS:
            return Result.BAD_VALUE
        self._flush()
        self._gain_index = GAINS.index(gain)
        self._begin_stream()
        return Result.DONE

    # Samples.

    @property
    def _frame_samples(self) -> int:
        return max(1, min(FRAME_SAMPLES_MAX, math.floor(FRAME_WAIT_S * self.rate_hz)))

    def _sample_us(self, number: int) -> int:
        """When conversion `number` since the start of the stream ends."""
        return self._start_us + round(number * 1e6 / self.rate_hz)

    def _convert_until(self, end_us: int) -> None:
        """Converts and sends all samples up to a moment, itself included."""
        if not self._streaming:
            return
        last = math.floor((end_us - self._start_us) * self.rate_hz / 1e6 + 1e-6)
        if last <= self._converted:
            return
        numbers = range(self._converted + 1, last + 1)
        times_us = np.array([self._sample_us(n) for n in numbers], dtype=np.int64)
        silent = self._faults.covered(FaultKind.SILENT, times_us)
        lost = self._faults.covered(FaultKind.DROP, times_us)
        settling = np.arange(self._converted, last) < SETTLING_SAMPLES
        sequences = self._sequence + np.cumsum(~silent) - 1
        counts, saturated = self._counts(times_us, sequences)
        self._converted = last
        for index, time_us in enumerate(times_us.tolist()):
            if silent[index] or lost[index]:
                self._flush()
            if silent[index]:
                continue
            self._converted_us = time_us
            if lost[index]:
                self._transmit_drops += 1
            else:
                self._hold(
                    time_us,
                    counts[index].tolist(),
                    saturated[index].tolist(),
                    settling=bool(settling[index]),
                )
            self._sequence += 1

    def _counts(
        self, times_us: npt.NDArray[np.int64], sequences: npt.NDArray[np.int64]
    ) -> tuple[npt.NDArray[np.int64], npt.NDArray[np.bool_]]:
        """What the ADC makes of the force: counts, and whether at its stop."""
        if self._settings.numbered:
            counts = self._adc.numbers(sequences)
        else:
            counts = self._adc.counts(times_us, gain=GAINS[self._gain_index])
        for channel in range(self._settings.channels):
            stuck = self._faults.covered(FaultKind.SATURATE, times_us, channel=channel)
            counts[stuck, channel] = COUNTS_MAX
        return counts, (counts == COUNTS_MAX) | (counts == COUNTS_MIN)

    def _hold(
        self, time_us: int, counts: list[int], saturated: list[bool], *, settling: bool
    ) -> None:
        self._held.append((time_us, self._sequence, counts, saturated, settling))
        if len(self._held) >= self._frame_samples:
            self._flush()

    def _flush(self) -> None:
        """Sends the samples that are waiting for others."""
        if not self._held:
            return
        times_us, sequences, counts, saturated, settling = zip(*self._held, strict=True)
        self._held.clear()
        frame = Samples(
            sequence=sequences[0] % SEQUENCE_MODULUS,
            stream=0,
            time_us=self._clock(times_us[0]),
            step_us=round(1e6 / self.rate_hz) if len(times_us) > 1 else 0,
            counts=np.array(counts, dtype=np.int32),
            saturated=np.array(saturated, dtype=np.bool_),
            settling=np.array(settling, dtype=np.bool_),
        )
        self._send(frame, at_us=times_us[-1])

    # Frames.

    def _clock(self, time_us: int) -> int:
        return (self._settings.clock_us + time_us) % SEQUENCE_MODULUS

    @property
    def _next_sequence(self) -> int:
        return self._sequence % SEQUENCE_MODULUS

    def _answer(self, token: int, command: FrameType, result: Result) -> None:
        self._flush()  # what is numbered below the answer goes before it
        self._send(Reply(self._next_sequence, token, command, result))
        if result is Result.DONE and command in TELLS_WHO:
            self._send(self._identity())

    def _identity(self) -> Identity:
        settings = self._settings
        return Identity(
            sequence=self._next_sequence,
            protocol=(PROTOCOL_MAJOR, PROTOCOL_MINOR),
            firmware=(1, 0, 0),
            stream_channels=(settings.channels,),
            rates_hz=settings.rates_hz,
            rate_index=self._rate_index,
            gains=GAINS,
            gain_index=self._gain_index,
            adc_bits=24,
            adc=SIMULATED_ADC,
            serial_number=settings.serial_number,
        )

    def _status(self) -> Status:
        allowed_us = max(SILENT_US, SILENT_PERIODS * 1e6 / self.rate_hz)
        silent = self._now_us - self._converted_us >= allowed_us
        return Status(
            sequence=self._next_sequence,
            uptime_ms=self._now_us // 1000 % SEQUENCE_MODULUS,
            adc_lost=0,
            transmit_drops=self._transmit_drops,
            crc_errors=self._crc_errors,
            streaming=self._streaming,
            silent=(self._streaming and silent,),
            next_sequences=(self._next_sequence,),
        )

    def _send(self, frame: DeviceFrame, *, at_us: int | None = None) -> None:
        at_us = self._now_us if at_us is None else at_us
        if self._faults.covers(FaultKind.VANISH, at_us):
            return
        data = bytearray(encode(frame))
        if self._faults.covers(FaultKind.FLIP, at_us):
            bit = int(self._flips.integers(8 * len(data)))
            data[bit // 8] ^= 1 << bit % 8
        self._out += data
