"""Plans of athletes, where in them they are, and what speaks for moving on.

Rules that hold here:

* A plan is changed as a whole or not at all, and archived but never deleted.
* The stage under way stands in the plan; each move is added to `plan_moves`, with the
  reason, and each word of the practitioner to `plan_words`.
* At most one plan of an athlete is followed: the newest that is not archived. Where
  that one cannot be read none is, lest an older one be followed without a word.
* What speaks for moving on is what was done since the stage was entered last.
* A stage is known by its key: one that is put in or taken out before the stage under
  way moves nobody. Where the stage under way itself is taken out, the one before it is
  entered, and that is a move with its reason.
* A plan that was changed elsewhere meanwhile is not written over.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from biofeedback.errors import FieldError, UserError
from biofeedback.logbook import entries, plan_facts, plan_moves, plan_rows, schema
from biofeedback.logbook.door import Door
from biofeedback.logbook.moments import now_utc
from biofeedback.logbook.plan_rows import Move, StoredPlan, UnreadPlan
from biofeedback.phrase import phrase
from biofeedback.training.criteria import StageFacts
from biofeedback.training.plan import Plan
from biofeedback.wire.fields import Fields

if TYPE_CHECKING:
    from datetime import datetime

__all__ = ["Move", "Plans", "StoredPlan", "UnreadPlan"]


class Plans(Door):
    """The plans; got from `Logbook.plans`.

    Raises (every method): `FileError` where disk, file or server does not do what
    is asked.
    """

    def add(
        self,
        athlete_id: str,
        plan: Plan,
        *,
        copied_from: str = "",
        at_utc: datetime | None = None,
    ) -> str:
        """Begins a plan at its first stage and returns the key.

        Args:
            at_utc: when it began; now, where nothing is said.

        Raises:
            FieldError: there is no such athlete.
        """
        plan = plan.with_own_keys()
        with self._write() as connection:
            if not entries.known(connection, schema.athletes, athlete_id):
                raise FieldError(
                    "plan.athlete_id",
                    phrase("there is no athlete {athlete_id}.", athlete_id=athlete_id),
                )
            key = entries.insert(
                connection,
                schema.plans,
                athlete_id=athlete_id,
                name=plan.name.strip(),
                content=plan.to_json(),
                stage=0,
                copied_from=copied_from or None,
                added_utc=_now(),
            )
            plan_moves.enter(connection, key, None, plan, 0, at_utc=at_utc)
        return key

    def change(
        self,
        key: str,
        plan: Plan,
        *,
        stage: int | None = None,
        read: StoredPlan | None = None,
    ) -> None:
        """Puts another plan in the place of one.

        Args:
            stage: where the stage under way stands now, by who changed the plan; asked
                only where the plan does not tell it by the key of the stage.
            read: the plan that was changed; it is refused where it is not the one
                that is there.

        Raises:
            FieldError: there is no such plan.
            UserError: it was changed elsewhere meanwhile.
        """
        plan = plan.with_own_keys()
        with self._write() as connection:
            there = _row(connection, key)
            if read is not None and not read.is_still(there):
                raise UserError(
                    phrase("The plan was changed elsewhere meanwhile."),
                    phrase(
                        "Note down what you typed, take back all, and change it again."
                    ),
                )
            now = plan_moves.under_way(connection, there, plan, stage)
            connection.execute(
                sa.update(schema.plans)
                .where(schema.plans.c.id == key)
                .values(
                    name=plan.name.strip(),
                    content=plan.to_json(),
                    stage=now,
                    changed_utc=_now(),
                )
            )

    def copy(self, key: str, athlete_id: str) -> str:
        """Begins the same plan for another athlete and returns the new key.

        A 100 % that was typed stays behind: it is of the body it was typed for.

        Raises:
            FieldError: there is no such plan or athlete.
        """
        stored = self.get(key)
        if stored is None:
            raise FieldError("plan", phrase("there is no plan {key}.", key=key))
        plan = stored.plan.without_typed_references()
        return self.add(athlete_id, plan, copied_from=key)

    def archive(self, key: str) -> None:
        """Takes a plan off the list; nothing is lost."""
        self._set_archived(key, _now())

    def restore(self, key: str) -> None:
        """Puts an archived plan back."""
        self._set_archived(key, None)

    def get(self, key: str) -> StoredPlan | None:
        """The plan with this key, archived or not; None where there is none.

        Raises:
            FieldError: it cannot be read.
        """
        found = self._stored(schema.plans.c.id == key)
        if found and isinstance(found[0], UnreadPlan):
            raise FieldError("plan", found[0].words)
        return next((one for one in found if isinstance(one, StoredPlan)), None)

    def of_athlete(
        self, athlete_id: str, *, archived: bool = False
    ) -> tuple[StoredPlan, ...]:
        """The plans of an athlete that can be read, newest first."""
        found = self._of_athlete(athlete_id, archived=archived)
        return tuple(one for one in found if isinstance(one, StoredPlan))

    def unread(self, athlete_id: str) -> tuple[UnreadPlan, ...]:
        """The plans of an athlete, none archived, that cannot be read."""
        found = self._of_athlete(athlete_id)
        return tuple(one for one in found if isinstance(one, UnreadPlan))

    def followed(self, athlete_id: str) -> StoredPlan | UnreadPlan | None:
        """The plan that an athlete follows, or None; it may be one nobody can read."""
        return next(iter(self._of_athlete(athlete_id)), None)

    def _of_athlete(
        self, athlete_id: str, *, archived: bool = False
    ) -> tuple[StoredPlan | UnreadPlan, ...]:
        gone = schema.plans.c.archived_utc
        return self._stored(
            sa.and_(
                schema.plans.c.athlete_id == athlete_id,
                gone.is_not(None) if archived else gone.is_(None),
            )
        )

    # Stages.

    def move(
        self,
        key: str,
        to_stage: int,
        reason: str = "",
        *,
        at_utc: datetime | None = None,
    ) -> None:
        """Moves to another stage, by the practitioner's decision.

        Args:
            at_utc: when it was decided; now, where nothing is said.

        Raises:
            FieldError: there is no such plan or stage.
        """
        if len(reason) > plan_moves.REASON_MAX:
            raise FieldError(
                "move.reason",
                phrase(
                    "is longer than {reason_max} characters.",
                    reason_max=plan_moves.REASON_MAX,
                ),
            )
        with self._write() as connection:
            there = _row(connection, key)
            plan = Plan.from_json(Fields(there.content, "plan"))
            if not 0 <= to_stage < len(plan.stages) or to_stage == there.stage:
                raise FieldError(
                    "move.to_stage", phrase("there is no such stage to move to.")
                )
            plan_moves.enter(
                connection, key, there.stage, plan, to_stage, reason.strip(), at_utc
            )
            connection.execute(
                sa.update(schema.plans)
                .where(schema.plans.c.id == key)
                .values(stage=to_stage)
            )

    def moves(self, key: str) -> tuple[Move, ...]:
        """All moves, oldest first."""
        with self._read() as connection:
            return plan_rows.moves(connection, key)

    def say(
        self, key: str, stage: int, criterion: str, *, met: bool, note: str = ""
    ) -> None:
        """The practitioner's word on a criterion; the newest counts.

        Raises:
            FieldError: there is no such plan.
        """
        with self._write() as connection:
            _row(connection, key)
            entries.insert(
                connection,
                schema.plan_words,
                plan_id=key,
                stage=stage,
                criterion=criterion,
                met=met,
                note=note.strip() or None,
                at_utc=_now(),
            )

    def facts(self, stored: StoredPlan, stage: int) -> StageFacts:
        """What was done and said since a stage was entered last.

        Forces that were regained are not in it.
        """
        asked = stored.plan.stages[stage]
        with self._read() as connection:
            stay = plan_facts.last_stay(connection, stored.id, asked.key)
            if stay is None:
                return StageFacts()
            keys = [one.key for one in asked.prescriptions]
            return StageFacts(
                plan_facts.sessions(connection, stored.id, keys, stay),
                said=plan_facts.said(connection, stored.id, stay),
            )

    # Inside.

    def _set_archived(self, key: str, at_utc: datetime | None) -> None:
        with self._write() as connection:
            connection.execute(
                sa.update(schema.plans)
                .where(schema.plans.c.id == key)
                .values(archived_utc=at_utc)
            )

    def _stored(
        self, wanted: sa.ColumnElement[bool]
    ) -> tuple[StoredPlan | UnreadPlan, ...]:
        with self._read() as connection:
            return plan_rows.stored(connection, wanted)


def _row(connection: sa.Connection, key: str) -> sa.Row[Any]:
    found = connection.execute(
        sa.select(schema.plans).where(schema.plans.c.id == key)
    ).first()
    if found is None:
        raise FieldError("plan", phrase("there is no plan {key}.", key=key))
    return found


def _now() -> datetime:
    return now_utc()
