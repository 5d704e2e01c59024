"""The plan: stages with their weeks, what is asked for in each, and how to move on.

Pure data with its checks, and its place in a file: see `PLAN_FORMAT.md`. A plan names
no person, so that it can be copied and passed on.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, TypeVar

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training import criteria
from biofeedback.training.planned import PlannedPrescription
from biofeedback.training.task import KEY_MAX, NAME_MAX

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.training.criteria import Criterion, Judged, StageFacts
    from biofeedback.wire.fields import Fields

Read = TypeVar("Read")
Keyed = TypeVar("Keyed", bound="PlannedPrescription | Criterion | Stage")

PLAN_FORMAT = "biofeedback plan"
PLAN_VERSION = 1
STAGES_MAX = 50
PRESCRIPTIONS_MAX = 50
CRITERIA_MAX = 20
WEEKS_MAX = 520
NOTE_MAX = 2000
CAUTION = phrase(
    "The treating clinician's limits and local rules come first. A plan advises; the "
    "practitioner decides each day."
)


@dataclass(frozen=True, slots=True)
class Stage:
    """One stage.

    Attributes:
        from_week, to_week: counted from the start of the plan, 0 and up; advice, the
            stage is moved by the practitioner.
        key: names it within its plan, whatever is put in or taken out before it.
            Where none is given it is made of the content, always the same.

    Raises:
        FieldError: names the field that does not fit.
    """

    name: str
    from_week: int = 0
    to_week: int = 4
    prescriptions: tuple[PlannedPrescription, ...] = ()
    criteria: tuple[Criterion, ...] = ()
    note: str = ""
    key: str = ""

    def __post_init__(self) -> None:
        self._see_to_key()
        if not 1 <= len(self.name.strip()) <= NAME_MAX:
            raise FieldError(
                "stage.name",
                phrase("must have 1 to {name_max} characters.", name_max=NAME_MAX),
            )
        if not 0 <= self.from_week <= WEEKS_MAX:
            raise FieldError(
                "stage.from_week",
                phrase("must be 0 to {weeks_max}.", weeks_max=WEEKS_MAX),
            )
        if not self.from_week < self.to_week <= WEEKS_MAX:
            raise FieldError(
                "stage.to_week",
                phrase(
                    "is {to_week}; it must be after week {from_week} and at "
                    "most {weeks_max}.",
                    to_week=self.to_week,
                    from_week=self.from_week,
                    weeks_max=WEEKS_MAX,
                ),
            )
        for name, found, most in (
            ("prescriptions", self.prescriptions, PRESCRIPTIONS_MAX),
            ("criteria", self.criteria, CRITERIA_MAX),
        ):
            if len(found) > most:
                raise FieldError(
                    f"stage.{name}", phrase("must not be more than {most}.", most=most)
                )
            keys = [one.key for one in found]
            if "" in keys or len(set(keys)) < len(keys):
                raise FieldError(
                    f"stage.{name}", phrase("each needs a key of its own.")
                )
        for index, one in enumerate(self.prescriptions):
            try:
                one.check_kind()
            except FieldError as error:
                name = f"stage.prescriptions[{index}].{error.field}"
                raise FieldError(name, error.problem, error.next_step) from error
        if len(self.note) > NOTE_MAX:
            raise FieldError(
                "stage.note",
                phrase("is longer than {note_max} characters.", note_max=NOTE_MAX),
            )

    def _see_to_key(self) -> None:
        """Makes one where there is none; it stays when the content is changed."""
        if len(self.key) > KEY_MAX:
            raise FieldError(
                "stage.key",
                phrase("is longer than {key_max} characters.", key_max=KEY_MAX),
            )
        if self.key:
            return
        parts = [self.name, str(self.from_week), str(self.to_week)]
        parts += [one.key for one in (*self.prescriptions, *self.criteria)]
        content = "\n".join(parts).encode(errors="surrogatepass")
        made = f"stage-{hashlib.sha256(content).hexdigest()[:16]}"
        object.__setattr__(self, "key", made)

    def judged(self, facts: StageFacts) -> tuple[Judged, ...]:
        """How each criterion stands."""
        return tuple(criteria.judge(one, facts) for one in self.criteria)

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "key": self.key,
            "name": self.name,
            "from_week": self.from_week,
            "to_week": self.to_week,
            "prescriptions": [one.to_json() for one in self.prescriptions],
            "criteria": [criteria.to_json(one) for one in self.criteria],
            "note": self.note,
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Stage:
        """Checks and reads what `to_json` wrote."""
        return cls(
            fields.text("name", longest=NAME_MAX),
            fields.whole("from_week", least=0, most=WEEKS_MAX),
            fields.whole("to_week", least=1, most=WEEKS_MAX),
            tuple(
                _placed(one, PlannedPrescription.from_json)
                for one in fields.items("prescriptions", most=PRESCRIPTIONS_MAX)
            ),
            tuple(
                _placed(one, criteria.from_json)
                for one in fields.items("criteria", most=CRITERIA_MAX)
            ),
            fields.text("note", longest=NOTE_MAX),
            fields.text("key", longest=KEY_MAX) if fields.has("key") else "",
        )


@dataclass(frozen=True, slots=True)
class Plan:
    """Stages in their order.

    Attributes:
        example: an invented example, and said to be one wherever it is shown.
    """

    name: str
    stages: tuple[Stage, ...]
    note: str = ""
    example: bool = False

    def __post_init__(self) -> None:
        if not 1 <= len(self.name.strip()) <= NAME_MAX:
            raise FieldError(
                "plan.name",
                phrase("must have 1 to {name_max} characters.", name_max=NAME_MAX),
            )
        if not 1 <= len(self.stages) <= STAGES_MAX:
            raise FieldError(
                "plan.stages",
                phrase("must be 1 to {stages_max} stages.", stages_max=STAGES_MAX),
            )
        if len(self.note) > NOTE_MAX:
            raise FieldError(
                "plan.note",
                phrase("is longer than {note_max} characters.", note_max=NOTE_MAX),
            )

    def with_stage(self, index: int, stage: Stage) -> Plan:
        """The plan with another stage in the place of one."""
        stages = [*self.stages]
        stages[index] = stage
        return replace(self, stages=tuple(stages))

    def place_of(self, stage_key: str) -> int | None:
        """Index of the stage with this key, or None."""
        for index, stage in enumerate(self.stages):
            if stage.key == stage_key:
                return index
        return None

    def with_own_keys(self) -> Plan:
        """The plan with each key there once, so that what is done tells its stage."""
        taken: set[str] = set()
        stages: set[str] = set()
        return replace(
            self,
            stages=tuple(
                replace(
                    _own(stage, stages),
                    prescriptions=tuple(
                        _own(one, taken) for one in stage.prescriptions
                    ),
                    criteria=tuple(_own(one, taken) for one in stage.criteria),
                )
                for stage in self.stages
            ),
        )

    def with_each(
        self, change: Callable[[PlannedPrescription], PlannedPrescription]
    ) -> Plan:
        """The plan with each prescription of each stage changed."""
        return replace(
            self,
            stages=tuple(
                replace(stage, prescriptions=tuple(map(change, stage.prescriptions)))
                for stage in self.stages
            ),
        )

    def without_typed_references(self) -> Plan:
        """The plan as it may go to somebody else: no typed 100 %, which is of a body.

        The rule stays, and says on the day that a number is missing.
        """
        return self.with_each(
            lambda one: replace(
                one, reference=replace(one.reference, typed_n=None, typed_on="")
            )
        )

    @property
    def typed_references(self) -> tuple[str, ...]:
        """Where a 100 % stands that was typed for one person, in words."""
        return tuple(
            f"{stage.name}, {one.task.name}"
            for stage in self.stages
            for one in stage.prescriptions
            if one.reference.typed_n is not None
        )

    @property
    def in_newtons(self) -> tuple[str, ...]:
        """Where forces stand that were typed for one person, in words."""
        return tuple(
            f"{stage.name}, {one.task.name}"
            for stage in self.stages
            for one in stage.prescriptions
            if not one.intensity.wants_reference
            or one.ceiling_n is not None
            or one.reference.typed_n is not None
        )

    @property
    def texts(self) -> tuple[str, ...]:
        """Everything in it that was typed freely."""
        texts = [self.name, self.note]
        for stage in self.stages:
            texts += [stage.name, stage.note]
            for one in stage.prescriptions:
                texts += [one.note, one.task.name]
            texts += [one.words for one in stage.criteria]
        return tuple(text for text in texts if text)

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "name": self.name,
            "example": self.example,
            "note": self.note,
            "stages": [stage.to_json() for stage in self.stages],
        }

    @classmethod
    def from_json(cls, fields: Fields) -> Plan:
        """Checks and reads what `to_json` wrote.

        Raises:
            FieldError: names the field that does not fit, with its place.
        """
        return cls(
            fields.text("name", longest=NAME_MAX),
            tuple(
                _placed(one, Stage.from_json)
                for one in fields.items("stages", most=STAGES_MAX)
            ),
            fields.text("note", longest=NOTE_MAX),
            fields.flag("example"),
        )


def _own(one: Keyed, taken: set[str]) -> Keyed:
    """With a key that is not taken yet; the first to have one keeps it."""
    key, number = one.key, 2
    while key in taken:
        ending = f"-{number}"
        key, number = f"{one.key[: KEY_MAX - len(ending)]}{ending}", number + 1
    taken.add(key)
    return one if key == one.key else replace(one, key=key)


def _placed(fields: Fields, read: Callable[[Fields], Read]) -> Read:
    """Reads a part; what the part itself refuses gets the place of the part.

    Parts check themselves and know only their own names, such as `hold_s`.
    """
    try:
        return read(fields)
    except FieldError as error:
        if error.field.startswith(fields.name):
            raise
        own = error.field.removeprefix("stage.").removeprefix("criterion.")
        name = f"{fields.name}.{own}"
        raise FieldError(name, error.problem, error.next_step) from error
