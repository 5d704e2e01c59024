"""What holds for each test.

No test sees the user's own data, leaves a thread running, or logs a warning that
it did not announce. Qt draws off screen unless the environment says otherwise.
Under `CI` the examples that Hypothesis draws are the same at each run.
A test that hangs ends the run, and tells where it hung.
"""

from __future__ import annotations

import faulthandler
import logging
import os
import re
import sys
import threading
import time
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, settings

if TYPE_CHECKING:
    from collections.abc import Generator, Iterator

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")  # before Qt is imported

# How long an example takes says more of the machine than of the code.
UNTIMED = settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("repeatable", UNTIMED, derandomize=True)
settings.register_profile("searching", UNTIMED)
settings.load_profile("repeatable" if os.environ.get("CI") else "searching")

# A step of a test that is longer than its time limit by this much hangs: it took no
# notice of the limit, or it was over and what it left behind waits without an end.
HUNG_S = 60.0
STDERR = pytest.StashKey[int]()


def pytest_configure(config: pytest.Config) -> None:
    # A copy from before the tests: what they print is taken away from the real one.
    config.stash[STDERR] = os.dup(2)
    config.addinivalue_line(
        "markers",
        "expects_log(pattern): a warning or error whose text matches this regular "
        "expression must be logged; any other fails the test",
    )


def watched(item: pytest.Item) -> Generator[None, object, object]:
    """Ends the process where a step of a test hangs, with the stack of each thread.

    The limit of pytest-timeout is an alarm that the main thread has to hear, and it
    rings once. This watch is a thread of C, and each step has its own.
    """
    mark = item.get_closest_marker("timeout")
    limit_s = mark.args[0] if mark else float(item.config.getini("timeout"))
    err = item.config.stash[STDERR]
    faulthandler.dump_traceback_later(limit_s + HUNG_S, exit=True, file=err)
    try:
        return (yield)
    finally:
        faulthandler.cancel_dump_traceback_later()


@pytest.hookimpl(wrapper=True, tryfirst=True)
def pytest_runtest_setup(item: pytest.Item) -> Generator[None, object, object]:
    return (yield from watched(item))


@pytest.hookimpl(wrapper=True, tryfirst=True)
def pytest_runtest_call(item: pytest.Item) -> Generator[None, object, object]:
    return (yield from watched(item))


@pytest.hookimpl(wrapper=True, tryfirst=True)
def pytest_runtest_teardown(item: pytest.Item) -> Generator[None, object, object]:
    return (yield from watched(item))


@pytest.fixture(autouse=True)
def no_thread_left() -> Iterator[None]:
    """A thread that outlives its test would disturb a later one unseen."""
    before = set(threading.enumerate())
    yield
    left = [
        thread.name
        for thread in threading.enumerate()
        if thread not in before and not thread.name.startswith("pytest_timeout")
    ]
    if left:
        names = ", ".join(left)
        pytest.fail(f"threads still running after the test: {names}", pytrace=False)


@pytest.fixture(autouse=True)
def fresh_user_folders(
    tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> Path:
    """A home with nothing in it; returned so that a test may look at it."""
    home = tmp_path_factory.mktemp("home")
    for name in ("HOME", "USERPROFILE"):
        monkeypatch.setenv(name, str(home))
    for kind in ("DATA", "CONFIG", "STATE", "CACHE"):
        monkeypatch.setenv(f"XDG_{kind}_HOME", str(home / kind.lower()))
    for name in ("APPDATA", "LOCALAPPDATA"):
        monkeypatch.setenv(name, str(home / name.lower()))
    if "PySide6.QtCore" in sys.modules:  # Qt reads the environment only once
        from PySide6.QtCore import QSettings  # noqa: PLC0415  only where in use

        for form in (QSettings.Format.NativeFormat, QSettings.Format.IniFormat):
            QSettings.setPath(form, QSettings.Scope.UserScope, str(home / "config"))
    return home


@pytest.fixture(autouse=True)
def no_unexpected_log(
    request: pytest.FixtureRequest, caplog: pytest.LogCaptureFixture
) -> Iterator[None]:
    """A warning that nobody announced is a finding, not noise."""
    yield
    logged = [
        record.getMessage()
        for phase in ("setup", "call")
        for record in caplog.get_records(phase)
        if record.levelno >= logging.WARNING
    ]
    patterns = [mark.args[0] for mark in request.node.iter_markers("expects_log")]
    unexpected = [
        text for text in logged if not any(re.search(p, text) for p in patterns)
    ]
    unseen = [p for p in patterns if not any(re.search(p, text) for text in logged)]
    if unexpected:
        pytest.fail(f"logged unannounced: {unexpected}", pytrace=False)
    if unseen:
        pytest.fail(f"announced but never logged: {unseen}", pytrace=False)


@pytest.fixture(scope="session")
def real_force_data() -> Path:
    """The folder with recordings of people, which are not part of the project."""
    folder = os.environ.get("REAL_FORCE_DATA", "")
    if not folder:
        pytest.skip("REAL_FORCE_DATA is not set: no folder with real force recordings")
    path = Path(folder)
    assert path.is_dir(), f"REAL_FORCE_DATA names no folder: {path}"
    return path


@pytest.fixture
def utc_day(monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    """Today by UTC, in a zone in which it is another day now."""
    if not hasattr(time, "tzset"):
        pytest.skip("no zone can be set here")
    now = datetime.now(tz=UTC)
    east = now.hour >= 10  # hours from Greenwich: 14 east, or 12 west
    with monkeypatch.context() as elsewhere:
        elsewhere.setenv("TZ", "Pacific/Kiritimati" if east else "Etc/GMT+12")
        time.tzset()
        assert now.astimezone().date() != now.date()
        yield now.date().isoformat()
    time.tzset()
