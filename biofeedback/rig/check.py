"""The health check: a run at rest, a press on each cell, a known mass, then verdicts.

Pure bookkeeping. It is fed with what the handoff gives and the time of that
moment, asks for one thing after the other (`prompt`), and is `done` at the end.
Command line and window run this very check; it has no port and no thread.

Noise, hum and drift are of the unfiltered force, as is all that is measured. What
noise means for a band is of the shown force, after the live filter, for that is
what the rules judge.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.phrase import joined, phrase
from biofeedback.rig import noise_verdicts, verdicts
from biofeedback.rig.calibration_watch import ABOUT
from biofeedback.rig.handoff import Warned
from biofeedback.rig.press import Press, Pressed, Release, pressed
from biofeedback.rig.rest_run import RestRun
from biofeedback.rig.verdict import State, Verdict
from biofeedback.rig.weigh import ASIDE, Weigh, Weighed, known_mass_kg, weighed

if TYPE_CHECKING:
    import numpy.typing as npt

    from biofeedback.conditioning.block import Block
    from biofeedback.rig.handoff import Health, Update
    from biofeedback.training.prescription import Prescription

    Floats = npt.NDArray[np.float64]

NS = 1_000_000_000
SECONDS = 10.0
SETTLE_S = 0.5
"""Of the first samples: an HX711 takes 0.4 s to settle at 10 SPS (data sheet)."""
NO_SIGNAL_S = 6.0
"""A board is asked who it is for 3 s, and then has to start."""
PRESS_S = 20.0
RELEASE_S = 10.0
MASS_S = 60.0
"""A mass has to be fetched, hung and let come to rest."""
MASS_OFF_S = 30.0
STALLED_S = 3.0
"""So long with no sample at all, and the run is over."""


class Step(Enum):
    """What the check is at."""

    SIGNAL = phrase("waiting for the signal")
    REST = phrase("at rest")
    PRESS = phrase("press")
    RELEASE = phrase("release")
    MASS = phrase("known mass")
    MASS_OFF = phrase("mass taken off")
    DONE = phrase("done")


_OFF = {Step.RELEASE: RELEASE_S, Step.MASS_OFF: MASS_OFF_S}
"""Steps in which something is to be taken off, and how long that is waited for."""


@dataclass(frozen=True, slots=True)
class HealthReport:
    """What the check has found.

    Attributes:
        source, found: which board, in its own words.
        seconds: length of the run at rest, in device time.
    """

    source: str
    found: str
    seconds: float
    verdicts: tuple[Verdict, ...]

    @property
    def good(self) -> bool:
        """Whether all verdicts are; what could not be judged is no verdict."""
        return all(one.state is not State.LOOK for one in self.verdicts)

    def summary(self) -> str:
        """All of it in one sentence."""
        bad = [one.name for one in self.verdicts if one.state is State.LOOK]
        if not bad:
            return phrase("The rig is well.")
        return phrase("Look at: {names}.", names=joined(", ", bad))

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "good": self.good,
            "source": self.source,
            "found": self.found,
            "seconds": self.seconds,
            "verdicts": [one.to_json() for one in self.verdicts],
        }


class Check:
    """One health check.

    Args:
        seconds: of the run at rest.
        presses: whether to ask for a press on each cell.
        prescription: whose band the noise is held against, beside ±5 % of 40 N.
        mass_kg: of a known mass that is to be hung on each cell; None for none.

    Raises:
        FieldError: no such mass can be used.
    """

    def __init__(
        self,
        *,
        seconds: float = SECONDS,
        presses: bool = True,
        prescription: Prescription | None = None,
        mass_kg: float | None = None,
    ) -> None:
        self._mass_kg = None if mass_kg is None else known_mass_kg(mass_kg)
        self.step = Step.SIGNAL
        self._seconds = seconds
        self._presses = presses
        self._prescription = prescription
        self._run: RestRun | None = None
        self._health: Health | None = None
        self._skip_until_s: float | None = None
        self._damaged_before = self._damaged = 0
        self._arrival_s = 0.0
        self._since_ns: int | None = None  # of this step
        self._heard_ns = 0
        self._press: Press | None = None
        self._release: Release | None = None
        self._pressed: list[Pressed] = []
        self._weigh: Weigh | None = None
        self._weighed: list[Weighed] = []
        self._ended = False  # by hand
        self._told: list[str] = []  # of the calibrations

    @property
    def done(self) -> bool:
        """Whether there is a report."""
        return self.step is Step.DONE

    @property
    def progress(self) -> float:
        """How far it is, from 0 to 1; a press or a mass counts as much as the run."""
        if self.step is Step.SIGNAL or self._run is None:
            return 0.0
        if self.done:
            return 1.0
        parts = int(self._presses) + int(self._mass_kg is not None)
        steps = 1 + parts * len(self._run.profile.channels)
        if self.step is Step.REST:
            return min(1.0, self._run.seconds / self._seconds) / steps
        return (1 + len(self._pressed) + len(self._weighed)) / steps

    @property
    def prompt(self) -> str:
        """What whoever stands at the rig should do now."""
        if self.step is Step.SIGNAL:
            return phrase("Waiting for the board.")
        if self.step is Step.REST:
            left_s = max(0.0, self._seconds - (self._run.seconds if self._run else 0))
            return phrase("Leave the rig alone: {left_s:.0f} s.", left_s=left_s)
        return self._act() or self.report().summary()

    def _act(self) -> str:
        """What to do with hand or mass; empty where nothing is asked for."""
        if self.step is Step.PRESS and self._press is not None:
            return phrase(
                "Press {cell} firmly with your hand, the way the athlete will load it.",
                cell=self._cell(self._press.channel),
            )
        if self.step is Step.MASS and self._weigh is not None:
            return phrase(
                "Hang {mass_kg:g} kg on {cell} alone, and let it come to rest.",
                mass_kg=self._mass_kg,
                cell=self._cell(self._weigh.channel),
            )
        if self.step is Step.RELEASE:
            return phrase("Let go.")
        return phrase("Take the mass off.") if self.step is Step.MASS_OFF else ""

    # What comes.

    def push(self, update: Update, *, now_ns: int) -> None:
        """What came since the last time."""
        self._health = update.health
        if self._since_ns is None:
            self._since_ns = self._heard_ns = now_ns
        if update.blocks:
            self._heard_ns = now_ns
        self._told += [
            event.message
            for event in update.events
            if isinstance(event, Warned) and event.message.startswith(ABOUT)
        ]
        if self.step is Step.REST:
            self._damaged = update.health.damaged - self._damaged_before
            self._arrival_s = max(self._arrival_s, update.longest_wait_s)
        for block in update.blocks:
            self._take(block, update, now_ns)
        self._watch_clock(now_ns)

    def skip(self, *, now_ns: int) -> None:
        """Leaves out the press or the mass that is asked for."""
        if self.step is Step.PRESS and self._press is not None:
            self._keep(self._press.skip(), now_ns)
        elif self.step is Step.MASS and self._weigh is not None:
            self._keep_mass(self._weigh.skip(), now_ns)
        elif self.step in _OFF:
            self._next_step(now_ns)

    def finish(self) -> None:
        """Ends it by hand; what was not looked at has no verdict."""
        self._ended = not self.done
        self.step = Step.DONE

    def _take(self, block: Block, update: Update, now_ns: int) -> None:
        if (
            self._run is not None
            and update.profile.channels != self._run.profile.channels
        ):
            self._begin_again()
        if self.step is Step.SIGNAL:
            self._settle(block, update, now_ns)
        elif self.step is Step.REST and self._run is not None:
            self._run.push(block)
            if self._run.seconds >= self._seconds:
                self._next_step(now_ns)
        elif self.step is Step.PRESS and self._press is not None:
            outcome = self._press.push(block)
            if outcome is not None:
                self._keep(outcome, now_ns)
        elif self.step is Step.MASS and self._weigh is not None:
            hung = self._weigh.push(block)
            if hung is not None:
                self._keep_mass(hung, now_ns)
        elif self._release is not None and self._release.push(block):
            self._next_step(now_ns)

    def _begin_again(self) -> None:
        """Another board, or another profile of it."""
        self.step, self._run, self._skip_until_s = Step.SIGNAL, None, None
        self._pressed.clear()
        self._weighed.clear()

    def _settle(self, block: Block, update: Update, now_ns: int) -> None:
        """Lets the first samples go by."""
        last_s = float(block.time_s[-1])
        if self._skip_until_s is None or block.gap:
            self._skip_until_s = float(block.time_s[0]) + SETTLE_S
        if last_s >= self._skip_until_s:
            self._run = RestRun(update.profile)
            self._damaged_before, self._damaged = update.health.damaged, 0
            self._arrival_s = 0.0
            self._go(Step.REST, now_ns)

    def _watch_clock(self, now_ns: int) -> None:
        """Nothing is waited for without an end."""
        passed_s = (now_ns - (self._since_ns or now_ns)) / NS
        silent_s = (now_ns - self._heard_ns) / NS
        if self.done:
            return
        if self.step is Step.SIGNAL:
            if passed_s > NO_SIGNAL_S + SETTLE_S:
                self._go(Step.DONE, now_ns)
        elif silent_s > STALLED_S:
            self._go(Step.DONE, now_ns)
        elif self.step is Step.PRESS and passed_s > PRESS_S and self._press is not None:
            self._keep(self._press.give_up(), now_ns)
        elif self.step is Step.MASS and passed_s > MASS_S and self._weigh is not None:
            self._keep_mass(self._weigh.give_up(), now_ns)
        elif self.step in _OFF and passed_s > _OFF[self.step]:
            self._next_step(now_ns)

    def _go(self, step: Step, now_ns: int) -> None:
        self.step, self._since_ns = step, now_ns

    def _keep(self, outcome: Pressed, now_ns: int) -> None:
        """An answer; then all is to be let go."""
        self._pressed.append(outcome)
        if self._run is not None:
            self._release = Release(**self._at_rest(self._run))
            self._go(Step.RELEASE, now_ns)

    def _keep_mass(self, hung: Weighed, now_ns: int) -> None:
        """An answer; then the mass is to be taken off, in whatever unit it shows."""
        self._weighed.append(hung)
        if self._run is not None and self._weigh is not None:
            near_n = np.maximum(
                self._weigh.seen_n, np.abs(hung.force_n).max() * ASIDE / 2
            )
            self._release = Release(**self._at_rest(self._run), near_n=near_n)
            self._go(Step.MASS_OFF, now_ns)

    def _next_step(self, now_ns: int) -> None:
        """The next cell to press, the next to hang the mass on, or the end."""
        run = self._run
        self._press = self._release = self._weigh = None
        cells = len(run.profile.channels) if run is not None and run.enough else 0
        if run is not None and self._presses and len(self._pressed) < cells:
            self._press = Press(len(self._pressed), run.profile, **self._at_rest(run))
            self._go(Step.PRESS, now_ns)
        elif run is not None and self._mass_kg and len(self._weighed) < cells:
            rest = self._at_rest(run)
            self._weigh = Weigh(len(self._weighed), self._mass_kg, **rest)
            self._go(Step.MASS, now_ns)
        else:
            self._go(Step.DONE, now_ns)

    def _at_rest(self, run: RestRun) -> dict[str, Floats]:
        return {"rest_n": run.shown_n.mean(axis=0), "noise_n": run.shown_n.std(axis=0)}

    def _cell(self, channel: int) -> str:
        channels = self._run.profile.channels if self._run else ()
        return (
            phrase("the {name} cell", name=channels[channel].name)
            if len(channels) > 1
            else phrase("the cell")
        )

    # What it says.

    def report(self) -> HealthReport:
        """All verdicts so far."""
        health, run = self._health, self._run
        return HealthReport(
            source=health.source if health else "",
            found=health.found if health else "",
            seconds=run.seconds if run else 0.0,
            verdicts=(self._signal(), *self._of_run(), *self._of_presses()),
        )

    def _signal(self) -> Verdict:
        """Whether there was any, and to its end."""
        run, health = self._run, self._health
        if run is not None and run.seconds >= 0.9 * self._seconds:
            return Verdict(
                phrase("signal"),
                State.GOOD,
                phrase(
                    "{samples} samples in {seconds:.1f} s at rest.",
                    samples=run.samples,
                    seconds=run.seconds,
                ),
            )
        words = health.message if health else ""
        if self._ended and run is not None:
            return Verdict(
                phrase("signal"),
                State.LOOK,
                phrase(
                    "Ended by hand after {seconds:.1f} s at rest.", seconds=run.seconds
                ),
                phrase("Check again, to the end."),
            )
        found = (
            phrase("No samples came.")
            if run is None
            else phrase("The signal broke off.")
        )
        return Verdict(
            phrase("signal"), State.LOOK, found,
            words or phrase("See that the board is plugged in and sends."),
        )  # fmt: skip

    def _of_run(self) -> list[Verdict]:
        run = self._run
        if run is None or not run.samples:
            return []
        found = [
            verdicts.rate(run),
            verdicts.losses(run, damaged=self._damaged),
            verdicts.waits(run, arrival_s=self._arrival_s),
            verdicts.reach(run),
            verdicts.calibration(run, self._told),
            verdicts.at_rest(run),
        ]
        if run.enough:
            found += [
                noise_verdicts.noise(run),
                noise_verdicts.band(run, self._prescription),
                noise_verdicts.hum(run),
                noise_verdicts.drift(run),
            ]
        return found

    def _of_presses(self) -> list[Verdict]:
        run = self._run
        if run is None:
            return []
        return [
            *(pressed(run.profile, one) for one in self._pressed),
            *(weighed(run.profile, one) for one in self._weighed),
        ]
