"""Criteria to move on from a stage, and what the logbook says of them.

The program tells which are met, with the numbers; the practitioner moves the stage.
What is missing is never met: then it cannot be told yet. What counts is what was done
since the stage was entered last: the sessions from before a step back say nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, ClassVar, TypeAlias

from biofeedback.errors import FieldError
from biofeedback.phrase import phrase
from biofeedback.training.counting import counted
from biofeedback.training.intensity_words import rounded_down
from biofeedback.training.reference import PAIN_MOST
from biofeedback.training.task import KEY_MAX, NAME_MAX
from biofeedback.training.task_names import task_words

if TYPE_CHECKING:
    from biofeedback.training.regaining import Regaining
    from biofeedback.wire.fields import Fields

SESSIONS_MOST = 100
WORD_MAX = 200
HOLDS_MOST_PCT = 100.0
REGAINED_MOST_PCT = 200.0


class Met(Enum):
    """How a criterion stands."""

    MET = phrase("met")
    NOT_MET = phrase("not met")
    UNKNOWN = phrase("cannot tell yet")


class Against(Enum):
    """What a reference is to be regained against."""

    OTHER_SIDE = phrase("of the other side")
    BEFORE_INJURY = phrase("of the value from before the injury")


def _check_sessions(sessions: int) -> None:
    if not 1 <= sessions <= SESSIONS_MOST:
        raise FieldError(
            "criterion.sessions",
            phrase(
                "is {sessions}; it must be 1 to {sessions_most} sessions.",
                sessions=sessions,
                sessions_most=SESSIONS_MOST,
            ),
        )


def _check_share(least_pct: float, most_pct: float) -> None:
    if 0 < least_pct < 1:
        raise FieldError(
            "criterion.least_pct",
            phrase(
                "is {least_pct:g} %, which is next to nothing.", least_pct=least_pct
            ),
            phrase(
                "Type {least_pct:g} for {least_pct:g} %.", least_pct=100 * least_pct
            ),
        )
    if not 1 <= least_pct <= most_pct:
        raise FieldError(
            "criterion.least_pct",
            phrase(
                "is {least_pct:g} %; it must be 1 % to {most_pct:g} %.",
                least_pct=least_pct,
                most_pct=most_pct,
            ),
        )


@dataclass(frozen=True, slots=True)
class PainAtMost:
    """Pain in each of the last sessions, during, at night and on the next morning."""

    kind: ClassVar[str] = phrase("pain at most")
    most: int
    sessions: int
    key: str = ""

    def __post_init__(self) -> None:
        if not 0 <= self.most <= PAIN_MOST:
            raise FieldError(
                "criterion.most",
                phrase(
                    "is {most}; it must be 0 to {pain_most}.",
                    most=self.most,
                    pain_most=PAIN_MOST,
                ),
            )
        _check_sessions(self.sessions)

    @property
    def words(self) -> str:
        """The criterion as a sentence."""
        last = counted(self.sessions, "session")
        return phrase(
            "Pain at most {most} of 10 in the last {last}.", most=self.most, last=last
        )


@dataclass(frozen=True, slots=True)
class HoldsComplete:
    """Share of the reps of the last sessions that were complete."""

    kind: ClassVar[str] = phrase("holds complete")
    least_pct: float
    sessions: int
    key: str = ""

    def __post_init__(self) -> None:
        _check_share(self.least_pct, HOLDS_MOST_PCT)
        _check_sessions(self.sessions)

    @property
    def words(self) -> str:
        """The criterion as a sentence."""
        return phrase(
            "At least {least_pct:g} % of the holds complete in the last {sessions}.",
            least_pct=self.least_pct,
            sessions=counted(self.sessions, "session"),
        )


@dataclass(frozen=True, slots=True)
class Regained:
    """The latest best of the injured side against something, in one task."""

    kind: ClassVar[str] = phrase("regained")
    least_pct: float
    against: Against
    task: str
    key: str = ""

    def __post_init__(self) -> None:
        _check_share(self.least_pct, REGAINED_MOST_PCT)
        if not self.task.strip():
            raise FieldError("criterion.task", phrase("must name a task."))

    @property
    def words(self) -> str:
        """The criterion as a sentence."""
        return phrase(
            "{task}: {least_pct:g} % {against}.",
            task=task_words(self.task),
            least_pct=self.least_pct,
            against=self.against.value,
        )


@dataclass(frozen=True, slots=True)
class Word:
    """Something only a person can say."""

    kind: ClassVar[str] = phrase("practitioner's word")
    text: str
    key: str = ""

    def __post_init__(self) -> None:
        if not 1 <= len(self.text.strip()) <= WORD_MAX:
            raise FieldError(
                "criterion.text",
                phrase("must have 1 to {word_max} characters.", word_max=WORD_MAX),
            )

    @property
    def words(self) -> str:
        """The criterion as a sentence."""
        return self.text.strip()


Criterion: TypeAlias = PainAtMost | HoldsComplete | Regained | Word
KINDS = (PainAtMost, HoldsComplete, Regained, Word)


def to_json(criterion: Criterion) -> dict[str, object]:
    """Plain JSON values."""
    values: dict[str, object] = {"kind": criterion.kind, "key": criterion.key}
    match criterion:
        case PainAtMost(most, sessions):
            values |= {"most": most, "sessions": sessions}
        case HoldsComplete(least_pct, sessions):
            values |= {"least_pct": least_pct, "sessions": sessions}
        case Regained(least_pct, against, task):
            values |= {"least_pct": least_pct, "against": against.value, "task": task}
        case Word(text):
            values |= {"text": text}
    return values


def from_json(fields: Fields) -> Criterion:
    """Checks and reads what `to_json` wrote.

    Raises:
        FieldError: names the field that does not fit.
    """
    kind = fields.text("kind", longest=60)
    key = fields.text("key", longest=KEY_MAX)
    if kind == PainAtMost.kind:
        return PainAtMost(
            fields.whole("most", least=0, most=PAIN_MOST),
            fields.whole("sessions", least=1, most=SESSIONS_MOST),
            key,
        )
    if kind == HoldsComplete.kind:
        return HoldsComplete(
            fields.number("least_pct"),
            fields.whole("sessions", least=1, most=SESSIONS_MOST),
            key,
        )
    if kind == Regained.kind:
        return Regained(
            fields.number("least_pct"),
            fields.choice("against", Against),
            fields.text("task", longest=NAME_MAX),
            key,
        )
    if kind == Word.kind:
        return Word(fields.text("text", longest=WORD_MAX), key)
    known = ", ".join(each.kind for each in KINDS)
    raise FieldError(
        fields.path("kind"), phrase("must be one of: {known}.", known=known)
    )


# What the logbook knows.


@dataclass(frozen=True, slots=True)
class SessionFacts:
    """One session in the stage; newest first in `StageFacts`.

    Attributes:
        worst_pain: of all that was told in it and after it; None where nothing was.
        reps_done, reps_complete: of the stage's prescriptions, warm-up and void reps
            left out.
        morning_known: whether the pain of the morning after it was told.
    """

    worst_pain: int | None
    reps_done: int
    reps_complete: int
    morning_known: bool = False


@dataclass(frozen=True, slots=True)
class StageFacts:
    """What the logbook knows of a stage.

    Attributes:
        sessions: newest first.
        regained: one for each task and what it is held against; missing where one of
            the two values is not there.
        said: key of a practitioner's word to the newest answer.
        one_sided: whether it is known which one side is injured.
    """

    sessions: tuple[SessionFacts, ...] = ()
    regained: tuple[Regaining, ...] = ()
    said: tuple[tuple[str, bool], ...] = ()
    one_sided: bool = True


@dataclass(frozen=True, slots=True)
class Judged:
    """One criterion, how it stands, and the numbers in one line."""

    criterion: Criterion
    met: Met
    why: str


def judge(criterion: Criterion, facts: StageFacts) -> Judged:
    """How a criterion stands by what the logbook knows."""
    if isinstance(criterion, PainAtMost):
        return Judged(criterion, *_pain(criterion, facts))
    if isinstance(criterion, HoldsComplete):
        return Judged(criterion, *_holds(criterion, facts))
    if isinstance(criterion, Regained):
        return Judged(criterion, *_regained(criterion, facts))
    said = dict(facts.said).get(criterion.key)
    if said is None:
        return Judged(criterion, Met.UNKNOWN, phrase("Not said yet."))
    return Judged(
        criterion, Met.MET if said else Met.NOT_MET, phrase("As the practitioner said.")
    )


def _pain(criterion: PainAtMost, facts: StageFacts) -> tuple[Met, str]:
    last = facts.sessions[: criterion.sessions]
    told = [one.worst_pain for one in last if one.worst_pain is not None]
    if any(pain > criterion.most for pain in told):
        return Met.NOT_MET, phrase("The worst was {told} of 10.", told=max(told))
    # A load shows itself late: what was told before the morning after is half of it.
    whole = sum(one.worst_pain is not None and one.morning_known for one in last)
    if whole < criterion.sessions:
        wanted = counted(criterion.sessions, "session")
        why = phrase(
            "Pain was told in {whole} of {wanted} so far", whole=whole, wanted=wanted
        )
        waits = whole < len(told)
        return Met.UNKNOWN, (
            phrase("{why}, the morning after included.", why=why)
            if waits
            else phrase("{why}.", why=why)
        )
    return Met.MET, phrase("The worst was {told} of 10.", told=max(told))


def _holds(criterion: HoldsComplete, facts: StageFacts) -> tuple[Met, str]:
    last = [one for one in facts.sessions if one.reps_done][: criterion.sessions]
    done = sum(one.reps_done for one in last)
    complete = sum(one.reps_complete for one in last)
    if len(last) < criterion.sessions:
        return Met.UNKNOWN, phrase(
            "{last} with reps so far.", last=counted(len(last), "session")
        )
    share_pct = 100 * complete / done
    why = phrase(
        "{complete} of {done}, {share_pct} %.",
        complete=complete,
        done=done,
        share_pct=rounded_down(share_pct),
    )
    return (Met.MET if share_pct >= criterion.least_pct else Met.NOT_MET), why


def _regained(criterion: Regained, facts: StageFacts) -> tuple[Met, str]:
    if not facts.one_sided:
        return Met.UNKNOWN, phrase("It is not known which one side is injured.")
    for one in facts.regained:
        if (one.task, one.against) == (criterion.task, criterion.against):
            met = Met.MET if one.reached_pct >= criterion.least_pct else Met.NOT_MET
            return met, one.words
    return Met.UNKNOWN, (
        phrase(
            "Both values must be known, by the same definition and in the same "
            "position, and not from practice or a test that hurt."
        )
    )
