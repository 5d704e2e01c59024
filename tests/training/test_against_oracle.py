"""The rules against a second, exact and slow statement of them."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import event, given, settings
from hypothesis import strategies as st
from training.drawn import Drawn, sets
from training.oracle import Answer, judge
from training.scripted import conduct, reps

from biofeedback.training.events import (
    CeilingCrossed,
    Lapsed,
    RepCompleted,
    RepEnded,
    RepRecord,
    RepStarted,
)

WITHIN_S = 1e-6


def close(value: object) -> Any:
    return pytest.approx(value, abs=WITHIN_S, rel=0)


def _compare(record: RepRecord, answer: Answer) -> None:
    assert record.outcome.value == answer.outcome
    assert record.start_s == close(float(answer.start))
    entry = None if answer.entry is None else close(float(answer.entry))
    assert record.entry_s == entry
    assert record.hold_end_s == close(float(answer.hold_end))
    assert record.end_s == close(float(answer.end))
    times = {
        "below": record.below_s,
        "inside": record.inside_s,
        "above": record.above_s,
        "unbalanced": record.unbalanced_s,
        "paused": record.paused_s,
    }
    assert times == close({name: float(time) for name, time in answer.times.items()})
    lapses = [time for lapse in record.lapses for time in (lapse.start_s, lapse.end_s)]
    assert lapses == close([float(time) for pair in answer.lapses for time in pair])
    assert record.gaps == answer.gaps
    bands = [
        (close(float(time)), float(lower), None if upper is None else float(upper))
        for time, (lower, upper) in answer.bands
    ]
    assert [
        (time, band.lower_n, None if band.open_above else band.upper_n)
        for time, band in record.bands
    ] == bands


@given(drawn=sets())
@settings(max_examples=150)
def test_rules_agree_with_the_oracle(drawn: Drawn) -> None:
    events = conduct(drawn.script, drawn.prescription, sides=drawn.sides)
    verdict = judge(drawn.samples, drawn.rules)
    records = reps(events)
    for answer in verdict.reps:
        event(f"{answer.outcome}, {len(answer.lapses)} lapses")
    assert len(records) == len(verdict.reps)
    for number, (record, answer) in enumerate(
        zip(records, verdict.reps, strict=True), start=1
    ):
        assert record.number == number
        _compare(record, answer)
    ceilings = [one.time_s for one in events if isinstance(one, CeilingCrossed)]
    assert ceilings == close([float(time) for time in verdict.ceilings])


@given(drawn=sets())
@settings(max_examples=40)
def test_events_tell_what_the_records_hold(drawn: Drawn) -> None:
    events = conduct(drawn.script, drawn.prescription, sides=drawn.sides)
    verdict = judge(drawn.samples, drawn.rules)
    started = [one.time_s for one in events if isinstance(one, RepStarted)]
    assert started == [record.start_s for record in reps(events)]
    completed = [one.time_s for one in events if isinstance(one, RepCompleted)]
    assert completed == [
        record.hold_end_s
        for record in reps(events)
        if record.outcome.value == "complete"
    ]
    told = [one.time_s for one in events if isinstance(one, RepEnded)]
    assert told == close([float(answer.told) for answer in verdict.reps])
    left = [one.left_s for one in events if isinstance(one, Lapsed)]
    assert left == [lapse.start_s for record in reps(events) for lapse in record.lapses]
    grace_s = drawn.prescription.grace_s
    for one in events:
        if isinstance(one, Lapsed):
            assert one.time_s >= one.left_s + grace_s - 1e-9


@given(drawn=sets())
@settings(max_examples=40)
def test_the_five_times_fill_the_hold_part(drawn: Drawn) -> None:
    for rep in reps(conduct(drawn.script, drawn.prescription, sides=drawn.sides)):
        spent_s = (
            rep.below_s + rep.inside_s + rep.above_s + rep.unbalanced_s + rep.paused_s
        )
        assert spent_s == pytest.approx(rep.hold_end_s - rep.start_s, abs=1e-9, rel=0)
        assert rep.start_s <= rep.hold_end_s <= rep.end_s


@given(drawn=sets(), data=st.data())
@settings(max_examples=80)
def test_however_the_samples_are_cut_the_events_are_the_same(
    drawn: Drawn, data: st.DataObject
) -> None:
    """Equal to the last bit, with gaps, unusable samples and nudges."""
    count = len(drawn.samples)
    cuts = data.draw(st.sets(st.integers(1, count)), label="cuts")
    whole = conduct(drawn.script, drawn.prescription, sides=drawn.sides)
    one_by_one = conduct(
        drawn.script, drawn.prescription, sides=drawn.sides, cuts=range(count)
    )
    anyhow = conduct(drawn.script, drawn.prescription, sides=drawn.sides, cuts=cuts)
    assert one_by_one == whole
    assert anyhow == whole
