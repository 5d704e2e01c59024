"""A plan that goes to somebody else takes no typed 100 % along."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TYPE_CHECKING

from biofeedback.logbook import plan_file
from biofeedback.logbook.database import Logbook
from biofeedback.training.example_plans import SHOULDER
from biofeedback.training.planned import ReferenceRule
from biofeedback.training.reference import Origin

if TYPE_CHECKING:
    from pathlib import Path

    from biofeedback.training.plan import Plan

TYPED = ReferenceRule(Origin.TYPED, typed_n=217.5, typed_on="2026-01-12")
EMPTY = ReferenceRule(Origin.TYPED)


def with_rule(rule: ReferenceRule) -> Plan:
    stage = SHOULDER.stages[0]
    (asked,) = stage.prescriptions
    changed = (replace(asked, reference=rule),)
    return SHOULDER.with_stage(0, replace(stage, prescriptions=changed))


def test_a_copy_has_the_rule_without_the_number(tmp_path: Path) -> None:
    with Logbook.open(tmp_path / "logbook.db") as book:
        one, other = book.add_athlete("INV-1"), book.add_athlete("INV-2")
        key = book.plans.add(one, with_rule(TYPED))
        copy = book.plans.get(book.plans.copy(key, other))
        own = book.plans.get(key)
        assert copy is not None
        assert own is not None
        assert copy.plan == with_rule(EMPTY)
        assert own.plan == with_rule(TYPED)


def test_a_file_has_neither_number_nor_date(tmp_path: Path) -> None:
    path = tmp_path / "plan.json"
    plan_file.save(with_rule(TYPED), path)
    text = path.read_text(encoding="utf-8")
    assert "217.5" not in text
    assert "2026-01-12" not in text
    assert plan_file.load(path) == with_rule(EMPTY)


def test_nor_is_one_taken_from_a_file(tmp_path: Path) -> None:
    path = tmp_path / "plan.json"
    plan_file.save(with_rule(TYPED), path)
    content = json.loads(path.read_text(encoding="utf-8"))
    content["plan"] = with_rule(TYPED).to_json()
    path.write_text(json.dumps(content), encoding="utf-8")
    assert plan_file.load(path) == with_rule(EMPTY)
