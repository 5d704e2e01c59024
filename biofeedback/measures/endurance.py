"""Endurance: how long people hold a force, and how a prescribed hold compares.

The power law of Frey Law & Avin (Ergonomics 53 (2010) 109–129, Table 2), one for each
group of joints: mean endurance time in seconds = b0 · f^b1, where f is the force as a
share of the maximum. Its numbers were read at second hand, in two transcriptions of
that table that agree, and not in the paper itself.

* They come from 194 papers on healthy adults of 18 to 50 years who held until they
  could not, mostly above 25 % of the maximum. There are none for the hip: hip and
  other joints are compared with all joints together, and that is said.
* The times are of holds that are not interrupted, and of the athlete's own maximum
  of the day. Nothing is told of lowering or maximal trials, nor where 100 % is a
  multiple of body mass.
* Nothing is told below 10 % nor above 100 %, where nobody measured.
* 95 % of predicted times lie within ± 29 to 47 % of the mean (at second hand too), so
  it is told and never keeps anybody from starting.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.reference import Origin
from biofeedback.training.task import Joint, TaskKind

if TYPE_CHECKING:
    from biofeedback.training.prescription import Prescription

LEAST_PCT = 10.0
MOST_PCT = 100.0
SPREAD_PCT = (29.0, 47.0)
"""Half-width of the 95 % prediction spread, from the narrowest to the widest."""

HARD_FROM_PCT = 60.0
LONGER_FROM_PCT = 100.0
"""Shares of the mean time at which the words change: our opinion, no source."""


class JointGroup(Enum):
    """The groups of joints that have a power law of their own."""

    GENERAL = phrase("all joints together")
    ANKLE = phrase("ankle")
    TRUNK = phrase("trunk")
    ELBOW = phrase("elbow")
    HAND = phrase("hand or grip")
    KNEE = phrase("knee")
    SHOULDER = phrase("shoulder")


_POWER_LAWS = {
    JointGroup.GENERAL: (21.92, -1.98),
    JointGroup.ANKLE: (34.71, -2.06),
    JointGroup.TRUNK: (22.69, -2.27),
    JointGroup.ELBOW: (17.98, -2.21),
    JointGroup.HAND: (33.55, -1.61),
    JointGroup.KNEE: (19.38, -1.88),
    JointGroup.SHOULDER: (14.86, -1.83),
}
_GROUPS = {
    Joint.ANKLE: JointGroup.ANKLE,
    Joint.TRUNK: JointGroup.TRUNK,
    Joint.ELBOW: JointGroup.ELBOW,
    Joint.HAND: JointGroup.HAND,
    Joint.KNEE: JointGroup.KNEE,
    Joint.SHOULDER: JointGroup.SHOULDER,
}


class Effort(Enum):
    """How a hold compares with the mean of published times."""

    FINE = phrase("well within")
    HARD = phrase("hard")
    LONGER = phrase("longer")


@dataclass(frozen=True, slots=True)
class Endurance:
    """A hold beside the times that people hold.

    Attributes:
        joint: as the task says; `group` is what it was compared with.
        intensity_pct: of the reference: the centre of a band, the lower edge of a
            minimum.
        mean_s: mean of the published times at this intensity.
        share_pct: the hold in % of it.
        spread_pct: see `SPREAD_PCT`.
    """

    joint: Joint
    group: JointGroup
    intensity_pct: float
    hold_s: float
    mean_s: float
    share_pct: float
    spread_pct: tuple[float, float] = SPREAD_PCT

    @property
    def effort(self) -> Effort:
        """Well within, hard, or longer than the mean."""
        if self.share_pct > LONGER_FROM_PCT:
            return Effort.LONGER
        return Effort.HARD if self.share_pct >= HARD_FROM_PCT else Effort.FINE

    @property
    def own_group(self) -> bool:
        """Whether there are times of this very joint."""
        return self.joint in _GROUPS


def group_of(joint: Joint) -> JointGroup:
    """The group a joint is compared with; that of all joints where it has none."""
    return _GROUPS.get(joint, JointGroup.GENERAL)


def mean_endurance_s(group: JointGroup, intensity_pct: float) -> float:
    """Mean time until people cannot hold any more, seconds.

    Raises:
        FieldError: below 10 % or above 100 %, where nobody measured.
    """
    if not LEAST_PCT <= intensity_pct <= MOST_PCT:
        raise FieldError(
            "intensity_pct",
            phrase(
                "is {intensity_pct:g} %; there are times for {least_pct:g} % "
                "to {most_pct:g} %.",
                intensity_pct=intensity_pct,
                least_pct=LEAST_PCT,
                most_pct=MOST_PCT,
            ),
        )
    b0_s, b1 = _POWER_LAWS[group]
    return float(b0_s * (intensity_pct / 100) ** b1)


def endurance(joint: Joint, *, intensity_pct: float, hold_s: float) -> Endurance | None:
    """A hold beside the published times; None where nobody measured."""
    group = group_of(joint)
    try:
        mean_s = mean_endurance_s(group, intensity_pct)
    except FieldError:
        return None
    share_pct = 100 * hold_s / mean_s
    return Endurance(joint, group, intensity_pct, hold_s, mean_s, share_pct)


def endurance_of(asked: Prescription) -> Endurance | None:
    """The same of a prescription; None where the times say nothing about it."""
    task, reference = asked.task, asked.reference
    if task.kind is not TaskKind.HOLD or reference is None:
        return None
    if reference.origin is Origin.BODY_MASS:
        return None  # its 100 % is nobody's maximum
    return endurance(
        task.setup.joint if task.setup else Joint.OTHER,
        # Rounded: 70 % of a reference in newtons is 70 % and not 69.99999.
        intensity_pct=round(100 * asked.band.centre_n / reference.force_n, 6),
        hold_s=asked.hold_s,
    )


def in_words(found: Endurance) -> str:
    """One calm sentence or two; empty where the hold is well within."""
    if found.effort is Effort.FINE:
        return ""
    where = (
        phrase("at the {joint}", joint=found.joint.value)
        if found.own_group
        else phrase("on average")
    )
    hold, pct = (
        phrase("{hold_s:.3g} s", hold_s=found.hold_s),
        phrase("{intensity_pct:.3g} %", intensity_pct=found.intensity_pct),
    )
    compared = "" if found.own_group else phrase(" of {group}", group=found.group.value)
    narrow, wide = found.spread_pct
    mean = phrase(
        "{share_pct:.0f} % of the published mean{compared}, {mean_s:.3g} "
        "s; people differ by ± {narrow:.0f} to {wide:.0f} %",
        share_pct=found.share_pct,
        compared=compared,
        mean_s=found.mean_s,
        narrow=narrow,
        wide=wide,
    )
    if found.effort is Effort.HARD:
        return phrase("{hold} at {pct} is hard: {mean}.", hold=hold, pct=pct, mean=mean)
    return phrase(
        "{hold} is longer than most people hold {pct} {where}; expect the "
        "force to fall. It is {mean}.",
        hold=hold,
        pct=pct,
        where=where,
        mean=mean,
    )
