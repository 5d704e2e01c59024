"""Which force may be the 100 % of a set: the one the rule asks for, and all others.

* A best is the highest of the tests in the weeks the rule names, by the definition
  the rule names: a peak never stands in for a mean, which is lower. A test from
  another position, and then a first test, counts only where there is no other.
* For a lowering the best of another task is its floor: the best of today where there
  is one, else the latest, for it is held against the strength of the day.
* Tests of one side and of both sides together are never exchanged: together each
  side gives less (the bilateral deficit, about 10 %).
* Where the band is for each of two sides that work together, the weaker side of a
  test with both is the 100 %: with the total it would be twice what is meant.
* Where the rule finds nothing, it says what is missing and offers what else there
  is. It picks nothing else by itself.

Pure: the facts and the date are passed in.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace

from biofeedback.phrase import Phrase, joined, marked, phrase
from biofeedback.training.counting import counted
from biofeedback.training.reference import (
    REFERENCE_LEAST_N,
    STALE_AFTER_DAYS,
    Definition,
    Origin,
    Reference,
    cautions,
)
from biofeedback.training.reference_facts import (
    Candidate,
    Facts,
    Measured,
)
from biofeedback.training.reference_rule import ReferenceRule
from biofeedback.training.task import Sides, Task, TaskKind, moved, same_task

UNDATED = phrase("no date")
WEAKER = phrase("the weaker side of a test with both")


@dataclass(frozen=True, slots=True)
class Choice:
    """What the rule found.

    Attributes:
        picked: as the rule asks, or None.
        missing: where it found nothing, what is missing; else empty.
        others: everything else that may be chosen, in the order of `Origin`.
    """

    picked: Candidate | None
    missing: str = ""
    others: tuple[Candidate, ...] = ()

    @property
    def all(self) -> tuple[Candidate, ...]:
        """The one that was picked first, then the others."""
        return (self.picked, *self.others) if self.picked else self.others


def choose(
    rule: ReferenceRule,
    task: Task,
    facts: Facts,
    *,
    today: dt.date,
    each_side: bool = False,
    stale_after_days: int = STALE_AFTER_DAYS,
) -> Choice:
    """Finds the reference of one set.

    Args:
        task: with the sides that work in this set.
        each_side: whether two sides work together and the band is for each.
    """
    search = _Search(rule, task, facts, today, each_side, stale_after_days)
    picked = search.by_rule()
    others = search.offered()
    if picked is None:
        return Choice(None, search.missing(), others)
    return Choice(picked, others=tuple(one for one in others if not _same(one, picked)))


def newest_own(
    task: Task, facts: Facts, *, today: dt.date, each_side: bool = False
) -> Reference | None:
    """The newest test of this very task and side, by its own definition; or None.

    Args:
        task: with the sides that work in the set.
        each_side: as for `choose`.
    """
    search = _Search(ReferenceRule(), task, facts, today, each_side, STALE_AFTER_DAYS)
    found = search.latest(search.own(), Origin.OWN_SIDE)
    return found.reference if found else None


def _same(one: Candidate, other: Candidate) -> bool:
    """The same number from the same place; also where it was found twice."""
    mine, theirs = one.reference, other.reference
    return (mine.origin, mine.definition, mine.force_n, mine.date, mine.source) == (
        theirs.origin, theirs.definition, theirs.force_n, theirs.date, theirs.source
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Search:
    """One search; each way to a reference is a method."""

    rule: ReferenceRule
    task: Task
    facts: Facts
    today: dt.date
    each_side: bool
    stale_after_days: int

    def by_rule(self) -> Candidate | None:
        match self.rule.origin:
            case Origin.OWN_SIDE:
                return self.best(self.own(), Origin.OWN_SIDE)
            case Origin.OTHER_SIDE:
                return self.best(self.other_side(), Origin.OTHER_SIDE)
            case Origin.OTHER_TASK:
                tests = self.other_task(self.rule.other_task)
                lowering = self.task.kind is TaskKind.LOWERING
                return self.floor(tests) if lowering else self.best(tests)
            case Origin.BEFORE_INJURY:
                return self.newest_stated(Origin.BEFORE_INJURY)
            case Origin.BODY_MASS:
                return self.of_body_mass()
            case Origin.TYPED:
                return self.typed() or self.newest_stated(Origin.TYPED)

    def offered(self) -> tuple[Candidate, ...]:
        """Everything that there is, each once."""
        found: list[Candidate | None] = []
        for tests, origin in (
            (self.own(), Origin.OWN_SIDE),
            (self.other_side(), Origin.OTHER_SIDE),
        ):
            found += [self.best(tests, origin), self.latest(tests, origin)]
        found.append(self.newest_stated(Origin.BEFORE_INJURY))
        for name in self.names_of_others():
            tests = self.other_task(name)
            found.append(self.best(tests) or self.latest(tests))
        found += [self.of_body_mass(), self.typed(), self.newest_stated(Origin.TYPED)]
        offered: list[Candidate] = []
        for one in found:
            if one is not None and not any(_same(one, known) for known in offered):
                offered.append(one)
        return tuple(offered)

    # Tests.

    def own(self) -> list[Measured]:
        return self.tests_of(self.task.sides)

    def other_side(self) -> list[Measured]:
        if self.task.sides is Sides.BOTH:
            return []
        return self.tests_of(self.task.sides.other)

    def tests_of(self, sides: Sides) -> list[Measured]:
        return [
            test
            for test in self.facts.measured
            if same_task(test.task, self.task) and test.task.sides is sides
        ]

    def other_task(self, name: str) -> list[Measured]:
        wanted = Task(name)
        return [
            test
            for test in self.facts.measured
            if test.task.sides is self.task.sides
            and not same_task(test.task, self.task)
            and same_task(Task(test.task.name), wanted)
        ]

    def names_of_others(self) -> list[str]:
        names = {
            test.task.name.strip().casefold(): test.task.name
            for test in self.facts.measured
            if not same_task(test.task, self.task)
        }
        return [names[key] for key in sorted(names)]

    def best(
        self, tests: list[Measured], origin: Origin = Origin.OTHER_TASK
    ) -> Candidate | None:
        """The highest by the rule's definition in the rule's weeks."""
        definition = self.rule.definition
        found = [
            (force_n, test)
            for test in tests
            if self.recent(test)
            and (force_n := self.force_n(test, definition)) is not None
        ]
        if not found:
            return None
        force_n, test = max(
            found,
            key=lambda one: (
                origin is Origin.OTHER_TASK or not self.moved(one[1]),
                not one[1].practice,
                one[0],
                one[1].date,
                one[1].key,
            ),
        )
        return self.of_test(test, force_n, definition, origin)

    def floor(self, tests: list[Measured]) -> Candidate | None:
        """The best of today's; without one that of the newest day."""
        known = [
            test
            for test in tests
            if self.force_n(test, self.rule.definition) is not None
        ]
        newest = max((test.date[:10] for test in known), default="")
        return self.best([test for test in known if test.date[:10] == newest])

    def latest(
        self, tests: list[Measured], origin: Origin = Origin.OTHER_TASK
    ) -> Candidate | None:
        """The newest test, whatever its age, by the definition that was chosen."""
        for test in sorted(tests, key=lambda one: (one.date, one.key), reverse=True):
            force_n = self.force_n(test, test.chosen)
            if force_n is not None:
                return self.of_test(test, force_n, test.chosen, origin)
        return None

    def moved(self, test: Measured) -> bool:
        """Whether the test is known to be from another position."""
        return moved(test.task.setup, self.task.setup)

    def recent(self, test: Measured) -> bool:
        try:
            age = (self.today - dt.date.fromisoformat(test.date[:10])).days
        except ValueError:
            return False
        return age <= 7 * self.rule.within_weeks

    def force_n(self, test: Measured, definition: Definition) -> float | None:
        """The 100 % that a test gives for this set; None where it gives none."""
        if not (self.each_side and test.task.sides is Sides.BOTH):
            return _force(test.forces_n.get(definition))
        if definition is not test.chosen:
            return None  # the sides are known at the chosen number only
        if test.left_n is None or test.right_n is None:
            return None
        return _force(min(test.left_n, test.right_n))

    def of_test(
        self, test: Measured, force_n: float, definition: Definition, origin: Origin
    ) -> Candidate:
        notes = []
        if origin is Origin.OTHER_TASK:
            notes.append(test.task.name)
        if self.each_side and test.task.sides is Sides.BOTH:
            notes.append(WEAKER)
        reference = Reference(
            force_n,
            origin,
            definition,
            test.date,
            practice=test.practice,
            pain=test.pain,
            setup=test.task.setup,
            source=test.key,
        )
        return self.candidate(reference, joined(", ", notes))

    # Numbers that were not measured here.

    def newest_stated(self, origin: Origin) -> Candidate | None:
        found = [
            one
            for one in self.facts.stated
            if one.origin is origin
            and same_task(one.task, self.task)
            and one.task.sides is self.task.sides
        ]
        if not found:
            return None
        one = max(found, key=lambda each: (each.date, each.key))
        return self.candidate(
            Reference(one.force_n, origin, one.definition, one.date, source=one.key)
        )

    def typed(self) -> Candidate | None:
        rule = self.rule
        if rule.typed_n is None:
            return None
        return self.candidate(
            Reference(
                rule.typed_n, Origin.TYPED, rule.definition, rule.typed_on or UNDATED
            )
        )

    def of_body_mass(self) -> Candidate | None:
        mass, factor = self.facts.body_mass, self.rule.body_mass_factor
        if mass is None or factor is None:
            return None
        return self.candidate(
            Reference(
                factor * mass.weight_n, Origin.BODY_MASS, Definition.STATED, mass.date
            ),
            phrase(
                "{factor:g} × the weight of {mass_kg:g} kg",
                factor=factor,
                mass_kg=mass.mass_kg,
            ),
        )

    def candidate(self, reference: Reference, note: str = "") -> Candidate:
        reference = replace(reference, task=self.task)
        return Candidate(
            reference,
            reference.age_days(self.today),
            cautions(
                reference,
                self.task,
                today=self.today,
                stale_after_days=self.stale_after_days,
            ),
            note,
        )

    # What is missing.

    def missing(self) -> str:
        sides, named = self.task.sides, self.rule.other_task
        side = (
            phrase("both sides")
            if sides is Sides.BOTH
            else phrase("the {sides} side", sides=sides.value)
        )
        match self.rule.origin:
            case Origin.OWN_SIDE:
                return self.no_test(side, self.own())
            case Origin.OTHER_SIDE if sides is not Sides.BOTH:
                other = phrase("the other side ({other})", other=sides.other.value)
                return self.no_test(other, self.other_side())
            case Origin.OTHER_TASK:
                return self.no_test(
                    phrase("“{named}”, {side}", named=named, side=side),
                    self.other_task(named),
                )
            case _:
                return Phrase(_MISSING[self.rule.origin], {"side": side})

    def no_test(self, of: str, tests: list[Measured]) -> str:
        weeks, definition = self.rule.within_weeks, self.rule.definition.value
        span = counted(weeks, "week")
        if any(self.recent(test) for test in tests):
            sides = phrase(" of each side") if self.each_side else ""
            return phrase(
                "No {definition}{sides} was kept for {of} in the last {span}.",
                definition=definition,
                sides=sides,
                of=of,
                span=span,
            )
        if tests:
            newest = max(test.date for test in tests)[:10]
            return phrase(
                "No test of {of} in the last {span}; the latest is of {newest}.",
                of=of,
                span=span,
                newest=newest,
            )
        return phrase("No test of {of} is known.", of=of)


_MISSING = {
    Origin.OTHER_SIDE: marked(
        "Both sides work together: there is no other side to go by."
    ),
    Origin.BEFORE_INJURY: marked(
        "No value from before the injury is stated for {side}."
    ),
    Origin.BODY_MASS: marked("No body mass is known."),
    Origin.TYPED: marked("No number is typed for {side}."),
}


def _force(force_n: float | None) -> float | None:
    """A force that can be 100 %, or None."""
    return force_n if force_n is not None and force_n >= REFERENCE_LEAST_N else None
