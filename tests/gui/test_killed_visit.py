"""The program is killed within a set and begun again: nothing done is lost."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from gui.test_day_order import Day
from logbook.sealed.place import PASSPHRASE, sealed

from biofeedback.logbook import recordings
from biofeedback.logbook.database import Logbook
from biofeedback.logbook.kept_place import KeptPlace
from biofeedback.logbook.sealed import key_file, keyring, reading
from biofeedback.session.recovery import recover
from biofeedback.training.running_order import Doing, Stand
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot

HERE = Path(__file__).parent


@pytest.fixture(params=["plain", "sealed"])
def passphrase(
    request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Iterator[list[str]]:
    """Of the logbook; none where it is not sealed."""
    if request.param == "plain":
        yield []
        return
    monkeypatch.setattr(key_file, "SCRYPT_N", 2**14)
    Logbook.open(tmp_path / "logbook.db").close()
    sealed(KeptPlace(tmp_path / "logbook.db", tmp_path))
    yield [PASSPHRASE]
    keyring.forget()


def test_a_killed_visit_is_picked_up_with_nothing_lost(
    qtbot: QtBot, tmp_path: Path, passphrase: list[str]
) -> None:
    child = subprocess.Popen(  # noqa: S603  our own file
        [sys.executable, HERE / "killed_visit.py", tmp_path, *passphrase],
        env={**os.environ, "PYTHONPATH": os.pathsep.join(map(str, HERE.parents[:2]))},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
    )
    try:
        assert child.stdout is not None
        assert child.stdout.readline() == b"in the second set\n"
    finally:
        child.kill()  # SIGKILL: nothing of it has a last word
        child.communicate()
    with Logbook.open(tmp_path / "logbook.db") as book:
        (cut_off,) = recover(tmp_path, book)
        assert not cut_off.problem
        day = Day(qtbot, book, tmp_path)
        assert "taken up again" in "\n".join(day.window.desk.messages._messages)
        order = day.order.order
        assert [leg.stand for leg in order.legs] == [Stand.DONE, Stand.STOPPED]
        assert order.doing is Doing.STOPPED
        (row,) = book.sessions()
        first, second = book.sets(row.id)
        assert (first.recovered, second.recovered) == (False, True)
        assert len(book.reps(set_id=first.id)) == 2
        (pain,) = book.session_notes.list(row.id, kind="pain")
        assert pain.content["level"] == 3
        day.press("Alt+R")
        day.begin()  # the set that was cut off, once more
        assert day.shown[0] is Sides.RIGHT
        assert day.session.visit_id() == row.id
        day.window.close()
    files = list(tmp_path.glob("*.force"))
    assert len(files) == 3
    assert {reading.is_sealed(path) for path in files} == {bool(passphrase)}
    (told,) = {recordings.read(path).header["athlete_code"] for path in files}
    shut = all(str(told).encode() not in path.read_bytes() for path in files)
    assert shut == bool(passphrase)
