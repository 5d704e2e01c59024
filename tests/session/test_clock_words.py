"""What is told of a computer's clock: once, in words, with how much."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

from logbook.test_moments import HOUR_S, Clocks

from biofeedback.logbook.database import Logbook
from biofeedback.rig.handoff import Warned
from biofeedback.session import Session, demo
from biofeedback.session.clock_words import SetBack, behind_words

if TYPE_CHECKING:
    from pathlib import Path

    import pytest


def test_each_time_it_is_set_back_is_told_once() -> None:
    clocks = Clocks()
    set_back = SetBack(clocks.moments)
    assert set_back.news() == ""
    clocks.set_by(-5)  # the network corrects a clock
    assert set_back.news() == ""
    clocks.set_by(-HOUR_S)
    assert "set back by 60 min" in set_back.news()
    clocks.pass_s(100)
    assert set_back.news() == ""
    clocks.set_by(-300 * 86400)
    assert "set back by 300 days" in set_back.news()
    clocks.set_by(301 * 86400)
    assert set_back.news() == ""
    clocks.set_by(-HOUR_S)
    assert "set back by" in set_back.news()


def test_the_desk_is_told_and_the_order_of_sets_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    clocks = Clocks()
    monkeypatch.setattr("biofeedback.logbook.moments.MOMENTS", clocks.moments)
    monkeypatch.setattr(
        "biofeedback.session.live.SetBack", lambda: SetBack(clocks.moments)
    )
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        session = Session(
            demo.source(step_us=50_000),
            logbook=logbook,
            recordings=tmp_path / "recordings",
            athlete_code="INV-1",
        )
        made, told = [], []
        for moved_s in (0.0, -HOUR_S, -365 * 86400.0):
            clocks.set_by(moved_s)
            session.begin_set(demo.PRESCRIPTION)
            for _ in range(100):
                clocks.pass_s(0.05)
                session.step()
                told += [one for one in session.take().events if type(one) is Warned]
            made.append(session.set_id)
            session.tell("remark", {"number": len(made)})
            session.end_set()
            session.step()
            session.take()
        visit = session.visit_id()
        session.close()
        sets = logbook.sets(visit)
        assert [one.id for one in sets] == made
        moments = [one.started_utc for one in sets]
        assert moments == sorted(moments)
        assert moments[-1] - moments[0] < timedelta(minutes=1)
        notes = logbook.session_notes.list(visit)
        assert [one.content["number"] for one in notes] == [1, 2, 3]
    words = [one.message for one in told if "clock" in one.message]
    assert len(words) == 2
    assert "60 min" in words[0]
    assert "365 days" in words[1]


def test_a_clock_behind_the_logbook_is_told_at_the_start(tmp_path: Path) -> None:
    with Logbook.open(tmp_path / "logbook.db") as logbook:
        assert behind_words(logbook) == ""
        logbook.begin_session(logbook.add_athlete("INV-1"))
        assert behind_words(logbook) == ""
        now = datetime.now(tz=UTC)
        assert behind_words(logbook, now=now - timedelta(minutes=2)) == ""
        words = behind_words(logbook, now=now - timedelta(days=365))
    assert now.astimezone().date().isoformat() in words
    assert "later than the clock of this computer" in words
