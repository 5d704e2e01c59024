"""A window on a session, both stepped: time passes as the test lets it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.gui.window import Window
    from biofeedback.session import Session

STEP_US = 50_000
STEPS_MOST = 4000


class Stepped:
    """A window on a session, both stepped."""

    def __init__(self, session: Session, window: Window) -> None:
        self.session, self.window = session, window
        self.desk = window.desk
        self.now_ns = 0

    def run(self, seconds: float = 0.5) -> None:
        for _ in range(max(1, round(seconds * 1e6 / STEP_US))):
            self.now_ns += STEP_US * 1000
            self.session.step()
            self.window.frame()

    def until(self, reached: Callable[[], bool]) -> None:
        for _ in range(STEPS_MOST):
            if reached():
                return
            self.run(STEP_US / 1e6)
        pytest.fail("what was waited for did not come")
