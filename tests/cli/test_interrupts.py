"""Ctrl-C that is held back."""

from __future__ import annotations

import os
import signal
import sys
import weakref

import pytest

from biofeedback.cli import interrupts


class Thing:
    """Goes, and that is told."""


@pytest.mark.skipif(sys.platform == "win32", reason="no signal to oneself there")
def test_it_is_not_lost_in_a_callback_that_can_raise_nothing() -> None:
    thing = Thing()
    told = weakref.ref(thing, lambda _: os.kill(os.getpid(), signal.SIGINT))
    steps: list[str] = []

    def work() -> None:
        nonlocal thing
        with interrupts.held() as interrupt:
            interrupt.let_go()
            del thing
            steps.append("went on")
            interrupt.let_go()
            steps.append("never")

    with pytest.raises(KeyboardInterrupt):
        work()
    assert told() is None
    assert steps == ["went on"]
