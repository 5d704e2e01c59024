"""The timer repaints only what changed: it must look as if all had been painted."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from gui.staged_session import ASKED
from PySide6.QtWidgets import QApplication

from biofeedback.gui.hold_timer import HoldTimer
from biofeedback.training.events import Phase, Position, SetState

if TYPE_CHECKING:
    from PySide6.QtGui import QImage


def held(clock_s: float, *, lapses: tuple[float, ...] = ()) -> SetState:
    return SetState(
        time_s=20.0 + clock_s,
        phase=Phase.REP,
        position=Position.INSIDE,
        clock_s=clock_s,
        running=True,
        hold_s=10.0,
        rep_start_s=19.0,
        lapse_clock_s=lapses,
        rep_number=1,
        reps=3,
        outcomes=(),
        rest_left_s=0.0,
        over_ceiling=False,
        band=ASKED.band,
    )


def on_screen(timer: HoldTimer) -> QImage:
    """What stands on the screen, which was painted piece by piece."""
    QApplication.processEvents()
    return timer.screen().grabWindow(timer.winId()).toImage()


@pytest.mark.parametrize(
    ("lapses", "step_s"), [((), 0.017), ((2.0, 4.5, 9.0), 0.017), ((2.0,), 0.4)]
)
def test_what_is_painted_by_strips_looks_like_what_is_painted_whole(
    lapses: tuple[float, ...], step_s: float, qapp: QApplication
) -> None:
    del qapp
    timer = HoldTimer()
    timer.setGeometry(0, 0, 740, 72)
    timer.show()
    clock_s, frames = 0.0, 0
    while clock_s < 10.0:
        timer.show_state(held(clock_s, lapses=lapses), hold_s=10.0, live=True)
        frames += 1
        if frames % 20 == 0 or step_s > 0.1:
            by_strips = on_screen(timer)
            timer.update()
            assert on_screen(timer) == by_strips, f"at {clock_s:.2f} s"
        else:
            QApplication.processEvents()
        clock_s += step_s
    assert frames > 20
    timer.close()


def test_a_clock_that_starts_again_leaves_nothing_behind(qapp: QApplication) -> None:
    del qapp
    timer = HoldTimer()
    timer.setGeometry(0, 0, 740, 72)
    timer.show()
    for clock_s in (7.3, 7.35, 0.0, 0.1):
        timer.show_state(held(clock_s), hold_s=10.0, live=True)
        by_strips = on_screen(timer)
        timer.update()
        assert on_screen(timer) == by_strips
    timer.close()
