"""Plans as files: what is written is read, and what does not fit is named."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from biofeedback.errors import FileError
from biofeedback.logbook import plan_file
from biofeedback.training.example_plans import EXAMPLE_PLANS, SHOULDER

KEPT = Path(__file__).resolve().parents[2] / "recordings" / "plan-v1.json"


@pytest.mark.parametrize("plan", EXAMPLE_PLANS, ids=lambda plan: plan.name)
def test_what_is_written_is_read(plan: Any, tmp_path: Path) -> None:
    path = tmp_path / "plan.json"
    plan_file.save(plan, path)
    plan_file.save(plan, path)  # over the old one
    assert plan_file.load(path) == plan
    assert [found.name for found in tmp_path.iterdir()] == ["plan.json"]


def test_the_kept_file_of_version_1_still_opens() -> None:
    assert plan_file.load(KEPT).name == SHOULDER.name
    assert json.loads(KEPT.read_text(encoding="utf-8"))["version"] == 1


def changed(tmp_path: Path, **values: object) -> Path:
    content = json.loads(KEPT.read_text(encoding="utf-8"))
    for place, value in values.items():
        inner: Any = content
        *way, last = place.split("__")
        for key in way:
            inner = inner[int(key)] if key.isdecimal() else inner[key]
        inner[last] = value
    path = tmp_path / "plan.json"
    path.write_text(json.dumps(content), encoding="utf-8")
    return path


FIRST = "plan__stages__0__prescriptions__0"


@pytest.mark.parametrize(
    ("place", "value", "words"),
    [
        ("format", "x", "format: must be “biofeedback plan”"),
        ("version", 2, "is version 2, and this program knows 1. Update"),
        ("version", "1", "version: must be a whole number"),
        ("plan__name", "", "plan.name"),
        ("plan__stages", [], "plan.stages"),
        ("plan__stages__0__to_week", 0, r"plan.stages\[0\].to_week: is 0"),
        (f"{FIRST}__hold_s", 0, r"plan.stages\[0\].prescriptions\[0\].hold_s"),
        (f"{FIRST}__hold_s", "10", "hold_s: must be a number"),
        (f"{FIRST}__intensity__lower", 0.25, "intensity.lower.*Type 25 for 25 %"),
        (f"{FIRST}__intensity__upper", 10, "intensity.upper: is 10; it must not"),
        (
            f"{FIRST}__ceiling_pct",
            30,
            r"prescriptions\[0\].ceiling_pct: is 30 %; it must lie",
        ),
        (f"{FIRST}__side_order", "hind legs", "side_order: must be one of"),
        (f"{FIRST}__key", "", r"stages\[0\].prescriptions: each needs a key"),
        ("plan__note", "half \ud83d of a letter", "plan.note: holds what is no letter"),
        (f"{FIRST}__note", "\0", r"prescriptions\[0\].note: holds what is no letter"),
        (f"{FIRST}__task__name", " ", r"prescriptions\[0\].task.name: must not be"),
        ("plan__stages__0__criteria__0__most", 11, r"criteria\[0\].most: is 11"),
        ("plan__stages__0__criteria__0__kind", "luck", "kind: must be one of: pain"),
    ],
)
def test_what_does_not_fit_is_named(
    tmp_path: Path, place: str, value: object, words: str
) -> None:
    path = changed(tmp_path, **{place: value})
    with pytest.raises(FileError, match=words) as caught:
        plan_file.load(path)
    assert str(path) in str(caught.value)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "line 1: is no JSON"),
        (b"[]", "is no plan"),
        (b"\xff\xfe", "byte 0: is no text"),
        (b"[" * 100_000, "nested too deeply|no JSON"),
        (b" " * (plan_file.BYTES_MAX + 1), "far too long"),
        (b'{"version": ' + b"1" * 5000 + b"}", "number that is far too long"),
    ],
)
def test_what_is_no_plan_is_refused(tmp_path: Path, data: bytes, words: str) -> None:
    path = tmp_path / "plan.json"
    path.write_bytes(data)
    with pytest.raises(FileError, match=words):
        plan_file.load(path)


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="cannot be read"):
        plan_file.load(tmp_path / "none.json")
    with pytest.raises(FileError, match="cannot be written"):
        plan_file.save(SHOULDER, tmp_path / "no folder" / "plan.json")


VALUES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-5, 10**12),
    st.floats(),
    st.text(max_size=4),
    st.just([]),
    st.just({}),
    st.just([{}]),
    st.just("x" * 3000),
)


def _mutated(content: Any, steps: list[int], value: object) -> None:
    """Follows `steps` into the content and puts `value` there, or takes a field out."""
    for step in steps[:-1]:
        keys = list(content) if isinstance(content, dict) else list(range(len(content)))
        if not keys:
            return
        inner = content[keys[step % len(keys)]]
        if not isinstance(inner, dict | list):
            break
        content = inner
    keys = list(content) if isinstance(content, dict) else list(range(len(content)))
    if not keys:
        return
    key = keys[steps[-1] % len(keys)]
    if value == "take out":
        del content[key]
    else:
        content[key] = value


@settings(max_examples=300, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    steps=st.lists(st.integers(0, 30), min_size=1, max_size=7),
    value=VALUES | st.just("take out"),
)
def test_a_mutated_plan_opens_or_is_refused_by_place(
    tmp_path: Path, steps: list[int], value: object
) -> None:
    content = copy.deepcopy(json.loads(KEPT.read_text(encoding="utf-8")))
    _mutated(content, steps, value)
    path = tmp_path / "plan.json"
    path.write_text(json.dumps(content), encoding="utf-8")
    refused = ""
    try:
        plan = plan_file.load(path)
    except FileError as error:
        refused = error.place or str(error)
    else:
        again = tmp_path / "again.json"
        plan_file.save(plan, again)
        assert plan_file.load(again) == plan
    assert not refused or refused.startswith(("format", "version", "plan", str(path)))
