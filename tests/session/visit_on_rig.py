"""A visit on the simulated rig, stepped by hand. Athlete and tasks are invented."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pytest

from biofeedback.session import Session, demo
from biofeedback.session.order_record import OrderRecord, new_record
from biofeedback.session.visit import Visit
from biofeedback.training.intensity import Intensity, ToleranceOf
from biofeedback.training.planned import PlannedPrescription, SideOrder
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.running_order import RunningOrder, legs_of
from biofeedback.training.task import Sides, Task

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path
    from typing import Any

    from biofeedback.logbook.database import Logbook
    from biofeedback.logbook.session_notes import SessionNote
    from biofeedback.rig.handoff import Update
    from biofeedback.training.prescription import Prescription

CODE = "INV-1"
STEP_US = 50_000
WAIT_MOST_S = 120.0
LEFT_N, RIGHT_N = 100.0, 120.0
NOW = datetime.now(tz=UTC).astimezone()
PLAN = {"plan": {"id": "plan-1", "stage": 0, "key": "a"}}
PLANNED = PlannedPrescription(
    task=Task("Invented calf push"),
    intensity=Intensity.around(50, 30, ToleranceOf.CENTRE),
    hold_s=2.0,
    reps=2,
    sets=2,
    rest_s=3.0,
    side_order=SideOrder.LEFT_FIRST,
    key="a",
)


def reference(force_n: float) -> Reference:
    return Reference(force_n, Origin.OWN_SIDE, Definition.BEST_1_S_MEAN, "2026-01-12")


def both_sides(planned: PlannedPrescription = PLANNED) -> list[Prescription]:
    return [
        planned.on(Sides.LEFT, reference(LEFT_N)),
        planned.on(Sides.RIGHT, reference(RIGHT_N)),
    ]


def record(
    planned: PlannedPrescription = PLANNED, *, warm_up: bool = False, sets: int = 3
) -> OrderRecord:
    legs = legs_of(planned, both_sides(planned), warm_up=warm_up)[:sets]
    return new_record(RunningOrder(legs), {"a": PLAN})


class OnRig:
    """A visit, its session and a clock that goes with the samples."""

    def __init__(
        self,
        logbook: Logbook,
        folder: Path,
        order: OrderRecord | None = None,
        *,
        channels: int = 2,
        **more: Any,
    ) -> None:
        self.logbook, self.folder = logbook, folder
        self.now_s = 1000.0
        self.session = Session(
            demo.source(seed=3, channels=channels, step_us=STEP_US),
            logbook=logbook,
            recordings=folder,
            athlete_code=CODE,
        )
        if order is not None and order.session_id:
            self.session.take_up_visit(order.session_id)
        self.visit = Visit(
            self.session,
            order or record(),
            logbook=logbook,
            clock=lambda: NOW + timedelta(seconds=self.now_s - 1000.0),
            **more,
        )
        self.update: Update | None = None
        self.ends: list[str] = []

    def step(self) -> Update:
        self.session.step()
        self.update = self.session.take()
        self.now_s += STEP_US / 1e6
        self.visit.follow(self.update, self.now_s)
        return self.update

    def run(self, seconds: float) -> None:
        for _ in range(round(seconds * 1e6 / STEP_US)):
            self.step()

    def until(self, reached: Callable[[], bool]) -> None:
        for _ in range(round(WAIT_MOST_S * 1e6 / STEP_US)):
            self.step()
            if reached():
                return
        pytest.fail("what was waited for did not come")

    def begin(self) -> None:
        """The first set is under way, with its first rep begun."""
        self.run(1.0)
        assert self.visit.begin_next()
        self.until(lambda: self.visit.changes.asked is not None)

    def rep_done(self, count: int = 1) -> None:
        self.until(
            lambda: (
                self.update is not None
                and self.update.state is not None
                and len(self.update.state.outcomes) >= count
            )
        )

    def set_over(self) -> None:
        self.until(lambda: not self.visit.in_set)

    def close(self) -> None:
        """All rows are in the logbook after this."""
        self.session.close()
        self.visit.follow(self.session.take(), self.now_s)
        assert self.visit.close() == ""

    def notes(self, kind: str) -> tuple[SessionNote, ...]:
        (row,) = self.logbook.sessions()
        return self.logbook.session_notes.list(row.id, kind=kind)
