"""The log is written beside the logbook, for its owner alone."""

from __future__ import annotations

import logging
import stat
import subprocess
import sys
import threading
from typing import TYPE_CHECKING

import pytest

from biofeedback.cli import log_file

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@pytest.fixture
def logging_as_before(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    root = logging.getLogger()
    before, level = list(root.handlers), root.level
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    yield
    for handler in set(root.handlers) - set(before):
        root.removeHandler(handler)
        handler.close()
    root.setLevel(level)


@pytest.mark.usefixtures("logging_as_before")
@pytest.mark.expects_log("A fault of the program")
def test_an_uncaught_fault_is_in_the_log_and_on_the_terminal(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = log_file.start(tmp_path)
    fault = ZeroDivisionError("nothing to share")
    sys.excepthook(ZeroDivisionError, fault, None)
    assert "nothing to share" in path.read_text()
    assert "nothing to share" in capsys.readouterr().err
    if sys.platform != "win32":
        assert stat.S_IMODE(path.stat().st_mode) == 0o600


@pytest.mark.usefixtures("logging_as_before")
def test_it_never_grows_beyond_two_small_files(tmp_path: Path) -> None:
    path = log_file.start(tmp_path)
    for number in range(2 * log_file.SIZE_MAX_BYTES // 1000):
        logging.getLogger("biofeedback").info("%06d%s", number, "x" * 1000)
    files = list(tmp_path.iterdir())
    assert len(files) == 2
    assert sum(file.stat().st_size for file in files) <= 2 * log_file.SIZE_MAX_BYTES
    if sys.platform != "win32":
        assert stat.S_IMODE(path.stat().st_mode) == 0o600


@pytest.mark.usefixtures("logging_as_before")
@pytest.mark.expects_log("cannot be written")
def test_a_place_that_cannot_be_written_keeps_nobody_from_a_session(
    tmp_path: Path,
) -> None:
    (tmp_path / "biofeedback.log").mkdir()
    log_file.start(tmp_path)


CRASH = """
import sys
from datetime import UTC, datetime
from pathlib import Path
import sqlalchemy as sa
from biofeedback.cli import log_file
from biofeedback.logbook import schema
from biofeedback.logbook.database import Logbook
folder = Path(sys.argv[1])
log_file.start(folder)
with Logbook.open(folder / "logbook.db") as book:
    book.add_athlete("INV-1", "Ylva Erfunden")
    with book._write() as connection:  # a fault of the program: the code is there
        connection.execute(sa.insert(schema.athletes).values(
            id="x", code="INV-1", name="Ylva Erfunden", added_utc=datetime.now(tz=UTC)
        ))
"""


def test_what_a_crash_leaves_in_the_log_names_nobody(tmp_path: Path) -> None:
    done = subprocess.run(  # noqa: S603  our own words
        [sys.executable, "-c", CRASH, str(tmp_path)],
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    told = (tmp_path / "biofeedback.log").read_text(encoding="utf-8")
    for text in (told, done.stderr):
        assert "IntegrityError" in text
        assert "Traceback" in text
        assert "Ylva" not in text
