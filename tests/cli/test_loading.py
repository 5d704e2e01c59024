"""Ctrl-C while modules are loaded."""

from __future__ import annotations

import os
import signal
import sys

import pytest

from biofeedback.cli.loading import loading


@pytest.mark.skipif(sys.platform == "win32", reason="no signal to oneself there")
def test_ctrl_c_waits_until_all_is_loaded() -> None:
    before = signal.getsignal(signal.SIGINT)
    loaded: list[bool] = []

    def load() -> None:
        with loading():
            os.kill(os.getpid(), signal.SIGINT)
            loaded.append(True)

    with pytest.raises(KeyboardInterrupt):
        load()
    assert loaded
    assert signal.getsignal(signal.SIGINT) is before


@pytest.mark.skipif(sys.platform == "win32", reason="no signal to oneself there")
def test_where_ctrl_c_is_not_heeded_it_ends_nothing() -> None:
    """As in the background of a script, whose terminal sends it to all."""
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        with loading():
            os.kill(os.getpid(), signal.SIGINT)
        assert signal.getsignal(signal.SIGINT) is signal.SIG_IGN
    finally:
        signal.signal(signal.SIGINT, before)
