"""The task: a set-up in which forces may be compared."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from typing import TYPE_CHECKING

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.task_names import task_words

if TYPE_CHECKING:
    from biofeedback.wire.fields import Fields

NAME_MAX = 200
TEXT_MAX = 200
KEY_MAX = 36

LEVER_ARM_LEAST_M = 0.02
LEVER_ARM_MOST_M = 1.5
"""Longer than any limb; a length that was typed in centimetres is above it."""
ANGLE_MOST_DEG = 360.0


class TaskKind(Enum):
    """What the athlete does."""

    HOLD = phrase("hold")
    LOWERING = phrase("lowering")
    MAXIMAL = phrase("maximal")


class Sides(Enum):
    """Which sides work in a task."""

    LEFT = phrase("left")
    RIGHT = phrase("right")
    BOTH = phrase("both")

    @property
    def other(self) -> Sides:
        """The other side; both stay both."""
        return _OTHER[self]


_OTHER = {
    Sides.LEFT: Sides.RIGHT,
    Sides.RIGHT: Sides.LEFT,
    Sides.BOTH: Sides.BOTH,
}


class Joint(Enum):
    """The joint that is loaded, as plainly as anatomy allows."""

    SHOULDER = phrase("shoulder")
    ELBOW = phrase("elbow")
    HAND = phrase("hand or wrist")
    TRUNK = phrase("trunk")
    HIP = phrase("hip")
    KNEE = phrase("knee")
    ANKLE = phrase("ankle")
    OTHER = phrase("other")


@dataclass(frozen=True, slots=True)
class Setup:
    """How the athlete is placed on the rig: what must be the same next time.

    Attributes:
        movement: in anatomical words, such as external rotation.
        angle_deg: angle of the joint, degrees; None where it was not measured.
        site: where the pad or strap lies, such as 5 cm above the outer ankle.
        lever_arm_m: from the centre of the joint to the middle of pad or strap,
            metres; None where it was not measured.
        posture: such as lying on the back with bent knees. A text that the program
            gave is a phrase.

    Raises:
        FieldError: a length or an angle that no joint has.
    """

    joint: Joint = Joint.OTHER
    movement: str = ""
    angle_deg: float | None = None
    site: str = ""
    lever_arm_m: float | None = None
    posture: str = ""

    def __post_init__(self) -> None:
        for name in ("movement", "site", "posture"):
            object.__setattr__(self, name, task_words(getattr(self, name)))
        angle, arm = self.angle_deg, self.lever_arm_m
        if angle is not None and not -ANGLE_MOST_DEG <= angle <= ANGLE_MOST_DEG:
            raise FieldError(
                "setup.angle_deg",
                phrase(
                    "must be −{angle_most_deg:g} to {angle_most_deg:g} degrees.",
                    angle_most_deg=ANGLE_MOST_DEG,
                ),
            )
        if arm is not None and not LEVER_ARM_LEAST_M <= arm <= LEVER_ARM_MOST_M:
            raise FieldError(
                "setup.lever_arm_m",
                phrase(
                    "is {arm:g} m; it must be {lever_arm_least_m:g} to "
                    "{lever_arm_most_m:g} m.",
                    arm=arm,
                    lever_arm_least_m=LEVER_ARM_LEAST_M,
                    lever_arm_most_m=LEVER_ARM_MOST_M,
                ),
                phrase("Type metres: 0.35 for 35 cm."),
            )

    def torque_nm(self, force_n: float) -> float | None:
        """Torque about the joint for a pull at right angles to the lever arm, N·m."""
        return None if self.lever_arm_m is None else force_n * self.lever_arm_m

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "joint": self.joint.value,
            "movement": self.movement,
            "angle_deg": self.angle_deg,
            "site": self.site,
            "lever_arm_m": self.lever_arm_m,
            "posture": self.posture,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Setup:
        """Checks and reads what `to_json` wrote."""
        return cls(
            joint=fields.choice("joint", Joint),
            movement=fields.text("movement", longest=TEXT_MAX),
            angle_deg=fields.number_or_none("angle_deg"),
            site=fields.text("site", longest=TEXT_MAX),
            lever_arm_m=fields.number_or_none("lever_arm_m"),
            posture=fields.text("posture", longest=TEXT_MAX),
        )


def moved(then: Setup | None, now: Setup | None) -> bool:
    """Whether two positions are known, and known to differ."""
    return then is not None and now is not None and then != now


@dataclass(frozen=True, slots=True)
class Task:
    """A set-up in which forces may be compared.

    Attributes:
        name: one that the program gave is a phrase.
        sides: which sides work; of a task that is done one side at a time, the
            side of this set. In a list of tasks left then stands for either side.
        setup: the position, or None where it was not written down.
        key: under which the logbook knows the task; empty where it does not.
        pair: of a lowering, the isometric task it is held against, by its key or,
            where it has none, its name; empty where there is none.
    """

    name: str
    kind: TaskKind = TaskKind.HOLD
    sides: Sides = Sides.BOTH
    setup: Setup | None = None
    key: str = ""
    pair: str = ""

    def __post_init__(self) -> None:
        object.__setattr__(self, "name", task_words(self.name))

    def on_side(self, sides: Sides) -> Task:
        """The same task, done with these sides."""
        return replace(self, sides=sides)

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "name": self.name,
            "kind": self.kind.value,
            "sides": self.sides.value,
            "setup": self.setup.to_json() if self.setup else None,
            "key": self.key,
            "pair": self.pair,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Task:
        """Checks and reads what `to_json` wrote; the later fields may be missing."""
        return cls(
            fields.text("name", longest=NAME_MAX),
            fields.choice("kind", TaskKind),
            fields.choice("sides", Sides),
            Setup.from_json(fields.inner("setup")) if fields.has("setup") else None,
            fields.text("key", longest=KEY_MAX) if fields.has("key") else "",
            fields.text("pair", longest=NAME_MAX) if fields.has("pair") else "",
        )


def same_task(one: Task, other: Task) -> bool:
    """Whether forces of the two may be compared: by key, or by name without one."""
    if one.key and other.key:
        return one.key == other.key
    return one.name.strip().casefold() == other.name.strip().casefold()


def same_work(one: Task, other: Task) -> bool:
    """The same task with the same sides, whatever it is called."""
    return same_task(one, other) and one.sides is other.sides


def is_pair(task: Task, lowering: Task) -> bool:
    """Whether it is the isometric task, with the same sides, of a lowering."""
    pair = lowering.pair
    if lowering.kind is not TaskKind.LOWERING or not pair:
        return False
    paired = Task(pair, key=pair if pair == task.key else "")
    return same_task(paired, task) and task.sides is lowering.sides
