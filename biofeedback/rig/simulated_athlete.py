"""The invented athlete who pulls on the simulated rig.

For demonstrations and tests only: nobody's data, and no model to draw
conclusions about people from. It sees the band as a person does, late and now
and then: a new band is answered after a reaction time, errors are put right
about once a second, and in between the force wanders, trembles and sags.

Where the numbers come from:

* Corrections near 1 Hz, and nothing usable under about 150 ms of visual delay:
  Slifkin, Vaillancourt and Newell, J. Neurophysiol. 84 (2000) 1708-1718.
* A visual reaction of about 0.18 to 0.20 s: common knowledge, no source.
* Force that varies more, in share of itself, from about 60 % of the maximum on:
  Christou (2002) found a sigmoid with its rise at 55 to 65 %.
* A coefficient of variation of 1 to 3 % at 20 to 60 % of the maximum: common
  knowledge, no source; 4.1 to 4.5 % was measured for a finger (Baweja et al.,
  Exp. Brain Res. 197 (2009) 35-47).
* Tremor at 8 to 12 Hz, wandering and corrections below 4 Hz: the bands used in
  PMC2842579.
* All other numbers (fatigue, imbalance, lapses) are invented.

Rules: time is device time in whole microseconds. The athlete moves in steps of
5 ms and the force is a straight line between them, so it depends on the seed and
on what was told when, never on how the time was cut.
"""

from __future__ import annotations

import math
from collections import deque
from dataclasses import replace
from enum import Enum
from typing import TYPE_CHECKING

import numpy as np

from biofeedback.rig.athlete_motion import (
    STEP_S,
    STEP_US,
    Move,
    Resonance,
    Wander,
    steps_of,
)
from biofeedback.rig.effort import Effort, Traits

if TYPE_CHECKING:
    import numpy.typing as npt

DRAWN_STEPS = 200
"""Noise is drawn for one second at a time."""
LOOK_STEPS = 30
"""150 ms: the shortest view of a force that can be used (Slifkin 2000)."""
REACTION_LEAST_S = 0.15
REACTION_MOST_S = 0.21
"""Bounds of a single reaction; the force needs a little longer to show it."""
GRACE_STEPS = 60
"""0.3 s out of the band, and the athlete thinks the hold starts again."""
RAMPS = (0.5, 0.75, 0.9)
"""How the first maximal efforts are, in shares of all there is; a warm-up."""
ONE_SIDE = 0.55
"""What one side alone reaches of both together: a little more than half."""
RESTING_N = 0.4
"""What a slack strap leaves on each cell."""


class Doing(Enum):
    """What the athlete is at."""

    IDLE = "idle"
    READY = "ready"
    PULLING = "pulling"
    RESTING = "resting"
    DONE = "done"


class _Noise:
    """All chance in the force, drawn a second at a time, always in one order."""

    def __init__(self, random: np.random.Generator, traits: Traits) -> None:
        self._random = random
        self._drawn: deque[tuple[float, float, float, float]] = deque()
        self._wander = Wander(time_constant_s=0.15)
        self._drift = Wander(time_constant_s=20.0)
        self._left = Resonance(centre_hz=traits.tremor_hz, bandwidth_hz=1.5)
        self._right = Resonance(centre_hz=traits.tremor_hz, bandwidth_hz=1.5)

    def push(self) -> tuple[float, float, float, float]:
        """Wander, drift, tremor left and tremor right; unit variance each."""
        if not self._drawn:
            rows = self._random.standard_normal((DRAWN_STEPS, 4)).tolist()
            self._drawn.extend((a, b, c, d) for a, b, c, d in rows)
        wander, drift, left, right = self._drawn.popleft()
        return (
            self._wander.push(wander),
            self._drift.push(drift),
            self._left.push(left),
            self._right.push(right),
        )


class SimulatedAthlete:
    """Pulls as told, like a person. A `ForceInput`.

    Args:
        seed: the same seed and the same orders give the same force.
        traits: what sort of athlete.
    """

    def __init__(self, seed: int, traits: Traits | None = None) -> None:
        self._traits = traits or Traits()
        # Decisions have a stream of their own, so that the noise of the force
        # does not depend on how many were made.
        self._noise = _Noise(np.random.default_rng([seed, 0]), self._traits)
        self._decisions = np.random.default_rng([seed, 1])
        self._step = 0  # number of the newest step in _forces
        self._forces: deque[tuple[float, float]] = deque([(RESTING_N, RESTING_N)])
        self._effort: Effort | None = None
        self._doing = Doing.IDLE
        self._until = 0  # step at which getting ready or resting is over
        self._reps_left = self._reps_done = 0
        self._move = Move()
        self._looked: deque[float] = deque([0.0], maxlen=LOOK_STEPS)
        self._pending: tuple[int, float, int] | None = None
        self._look_at = 0
        self._lapse_at = 0
        self._give_up_at = 0
        self._inside = self._outside = 0
        self._hold_steps = 0
        self._fatigue = 0.0

    @property
    def doing(self) -> Doing:
        """What the athlete is at."""
        return self._doing

    # What it is told.

    def begin(self, effort: Effort, *, now_us: int) -> None:
        """Told what to do: gets ready and does the reps."""
        self._effort = effort
        self._reps_left, self._reps_done = effort.reps, 0
        self._doing = Doing.READY if effort.reps > 0 else Doing.DONE
        self._until = self._reacts(now_us) + steps_of(self._between(0.6, 1.4))

    def shift(self, effort: Effort, *, now_us: int) -> None:
        """Shown another band in the middle of it: follows after a reaction."""
        old = self._effort
        if old is None:
            return
        self._effort = replace(
            old, centre_n=effort.centre_n, half_width_n=effort.half_width_n
        )
        if self._doing is Doing.PULLING:
            by_n = effort.centre_n - old.centre_n
            if self._pending is not None:
                by_n += self._pending[1]
            at = self._reacts(now_us)
            self._pending = (at, by_n, steps_of(self._between(0.3, 0.45)))
            self._look_at = at + steps_of(0.6)

    def retime(self, effort: Effort) -> None:
        """Told of another hold, rest or number of reps; goes on with the set."""
        old = self._effort
        if old is None:
            return
        self._effort = replace(
            old, hold_s=effort.hold_s, rest_s=effort.rest_s, reps=effort.reps
        )
        self._reps_left = max(0, self._reps_left + effort.reps - old.reps)
        if self._doing is Doing.DONE and self._reps_left > 0:
            self._doing = Doing.READY

    def stop(self, *, now_us: int) -> None:
        """Told to stop: lets go after a reaction, and waits."""
        letting_go = self._doing is Doing.PULLING
        self._doing, self._effort = Doing.IDLE, None
        if letting_go:
            self._pending = (self._reacts(now_us), -math.inf, steps_of(0.35))

    # What it gives.

    def forces_n(self, times_us: npt.NDArray[np.int64]) -> npt.NDArray[np.float64]:
        """See `ForceInput`."""
        last = -(-int(times_us[-1]) // STEP_US)
        while self._step < last:
            self._step += 1
            self._forces.append(self._next())
        first = self._step - len(self._forces) + 1
        steps = np.arange(first, self._step + 1) * float(STEP_US)
        left_n, right_n = np.asarray(self._forces).T
        forces_n = np.column_stack(
            (
                np.interp(times_us, steps, left_n),
                np.interp(times_us, steps, right_n),
            )
        )
        for _ in range(int(times_us[-1]) // STEP_US - first):
            self._forces.popleft()
        return forces_n

    # How it does it.

    def _next(self) -> tuple[float, float]:
        """One step further in time."""
        if self._pending is not None and self._step >= self._pending[0]:
            _, by_n, steps = self._pending
            steps = max(steps, self._move.steps_left)
            self._move.start(self._move.goal_n + by_n, steps=steps)
            self._pending = None
        self._decide()
        self._move.step()
        share = self._move.level_n / self._traits.maximum_n
        self._tire(share)
        sag = self._traits.sag_pct_per_s * (1 + 3 * self._fatigue) * STEP_S / 100
        self._move.sink(sag)
        return self._force(share)

    def _force(self, share: float) -> tuple[float, float]:
        """Level, noise and imbalance together: left and right in newtons."""
        traits = self._traits
        wander, drift, tremor_left, tremor_right = self._noise.push()
        # Noise grows with the force, and faster from 60 % of the maximum on.
        louder = 1 + 0.8 / (1 + math.exp(-(share - 0.6) / 0.04)) + self._fatigue
        total_n = self._move.level_n * (1 + traits.wander_pct / 100 * louder * wander)
        left = self._effort.left_share if self._effort is not None else 0.5
        if 0 < left < 1:
            left += (traits.imbalance_points + traits.drift_points * drift) / 100
        tremor = traits.tremor_pct / 100 * louder
        left_n = total_n * left * (1 + tremor * tremor_left)
        right_n = total_n * (1 - left) * (1 + tremor * tremor_right)
        self._looked.append(left_n + right_n)
        return max(0.0, left_n) + RESTING_N, max(0.0, right_n) + RESTING_N

    def _tire(self, share: float) -> None:
        """Fatigue, 0 to 1: comes with the force, goes in about a minute."""
        gain = share**1.5 / self._traits.fatigue_s
        loss = self._fatigue / 60 if share < 0.05 else 0.0
        self._fatigue = min(1.0, self._fatigue + (gain - loss) * STEP_S)

    def _decide(self) -> None:
        effort, step = self._effort, self._step
        if effort is None:
            return
        if self._doing in {Doing.READY, Doing.RESTING} and step >= self._until:
            self._pull(effort)
        elif self._doing is Doing.PULLING:
            self._watch_clock(effort)
            if self._inside >= self._hold_steps or step >= self._give_up_at:
                self._let_go(effort)
            elif effort.maximal or effort.lowering:
                pass  # nothing to keep to: it pulls, or brakes
            elif step >= self._lapse_at:
                self._slip(effort)
            elif effort.seen and step >= self._look_at:
                self._correct(effort)

    def _pull(self, effort: Effort) -> None:
        """Begins a rep: a ramp of one to two seconds, seldom exactly to the centre."""
        self._doing = Doing.PULLING
        if effort.lowering:
            self._lower(effort)
            return
        ramp = steps_of(self._between(1.0, 2.0))
        miss = self._decisions.normal(1.0, 0.03 if effort.seen else 0.08)
        aim_n = self._all_there_is(effort) if effort.maximal else effort.centre_n
        self._move.start(aim_n * float(miss), steps=ramp)
        self._inside = self._outside = 0
        # It sees the hold done, and only then lets go.
        self._hold_steps = steps_of(effort.hold_s + self._between(0.3, 0.6))
        self._look_at = self._step + ramp + steps_of(0.2)
        self._give_up_at = self._step + ramp + steps_of(3 * effort.hold_s + 5)
        self._lapse_at = self._step + ramp + self._until_lapse()

    def _lower(self, effort: Effort) -> None:
        """Braked, the pull grows until the end of the way; else it is caught once."""
        every = self._traits.drops_every
        dropped = every > 0 and (self._reps_done + 1) % every == 0
        caught, lowest = (1.4, 1.4) if dropped else (1.15, 1.4)
        most_n = self._traits.maximum_n * (1 - 0.3 * self._fatigue)
        caught_n, lowest_n = (
            min(most_n, part * effort.floor_n * self._between(0.96, 1.04))
            for part in (caught, lowest)
        )
        ramp = steps_of(self._between(0.2, 0.3) if dropped else self._between(0.5, 0.8))
        way = 1 if dropped else steps_of(effort.hold_s + self._between(0.1, 0.4))
        self._move.start(caught_n, steps=ramp)
        if not dropped:
            self._pending = (self._step + ramp, lowest_n - caught_n, way)
        self._inside, self._hold_steps = 0, way + ramp  # counted from its start on
        self._give_up_at = self._step + ramp + way

    def _all_there_is(self, effort: Effort) -> float:
        """The force of a maximal effort; less in a warm-up, and when tired."""
        share = RAMPS[self._reps_done] if self._reps_done < len(RAMPS) else 1.0
        one_side = effort.left_share in {0.0, 1.0}
        most_n = self._traits.maximum_n * (ONE_SIDE if one_side else 1.0)
        return most_n * share * (1 - 0.3 * self._fatigue)

    def _watch_clock(self, effort: Effort) -> None:
        """The athlete's own idea of the hold; the rules judge, not this."""
        near = abs(self._looked[-1] - effort.centre_n) <= effort.half_width_n
        if near or effort.maximal:
            self._inside += 1
            self._outside = 0
            return
        self._outside += 1
        if self._outside > GRACE_STEPS and effort.restarts:
            self._inside = 0

    def _correct(self, effort: Effort) -> None:
        """Looks, and answers what it saw after a reaction time."""
        if self._pending is not None:
            return
        error_n = effort.centre_n - sum(self._looked) / len(self._looked)
        if abs(error_n) > 0.12 * effort.half_width_n:
            at = self._reacts(self._step * STEP_US)
            by_n = error_n * self._between(0.7, 1.0)
            self._pending = (at, by_n, steps_of(self._between(0.25, 0.4)))
        traits = self._traits
        wait_s = self._decisions.normal(traits.correction_s, traits.correction_spread_s)
        self._look_at = self._step + steps_of(max(0.6, wait_s))

    def _slip(self, effort: Effort) -> None:
        """Attention slips: the force sinks out of the band before it is noticed."""
        depth_n = max(
            effort.centre_n * self._between(0.1, 0.2),
            effort.half_width_n * self._between(1.4, 2.0),
        )
        slide = steps_of(self._between(0.5, 0.9))
        self._pending = None
        self._move.start(self._move.level_n - depth_n, steps=slide)
        self._look_at = self._step + slide + steps_of(self._between(0.1, 0.6))
        self._lapse_at = self._look_at + self._until_lapse()

    def _let_go(self, effort: Effort) -> None:
        self._pending = None
        release = steps_of(self._between(0.3, 0.5))
        self._move.start(0.0, steps=release)
        self._reps_left -= 1
        self._reps_done += 1
        self._doing = Doing.RESTING if self._reps_left > 0 else Doing.DONE
        rest = steps_of(effort.rest_s + self._between(0.3, 1.5))
        self._until = self._step + release + rest

    # Chance.

    def _reacts(self, now_us: int) -> int:
        """The step at which something seen at `now_us` is answered."""
        traits = self._traits
        delay_s = self._decisions.normal(traits.reaction_s, traits.reaction_spread_s)
        delay_s = min(max(delay_s, REACTION_LEAST_S), REACTION_MOST_S)
        return math.ceil((now_us + delay_s * 1e6) / STEP_US)

    def _until_lapse(self) -> int:
        if self._traits.lapses_per_min <= 0:
            return 10**12  # longer than any session
        return steps_of(self._decisions.exponential(60 / self._traits.lapses_per_min))

    def _between(self, least: float, most: float) -> float:
        return float(self._decisions.uniform(least, most))
