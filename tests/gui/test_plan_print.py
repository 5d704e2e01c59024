"""A plan on paper: all that is asked, newtons of the day, and a whole file."""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from biofeedback.errors import FileError
from biofeedback.gui import plan_print
from biofeedback.session.planning import SideReference
from biofeedback.training.example_plans import EXAMPLE_PLANS, SHOULDER, TENDON
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from biofeedback.training.plan import Plan
    from biofeedback.training.planned import PlannedPrescription

RIGHT = Reference(240.0, Origin.OTHER_SIDE, Definition.BEST_1_S_MEAN, "2026-01-12")


def today(planned: PlannedPrescription) -> Sequence[SideReference]:
    """Left is injured, and the right side's best is known of rotation outwards."""
    if "external" in planned.task.name:
        return (SideReference(Sides.LEFT, RIGHT),)
    return (SideReference(Sides.LEFT, None, "No test of the other side is known."),)


def test_it_says_all_that_is_asked() -> None:
    words = plan_print.html(SHOULDER, who="INV-1", now=1, today=today)
    for part in (
        "For INV-1, printed ",
        "An invented example.",
        "limits and local rules come first",
        "1. Early: low holds by pain, weeks 0 to 4<",
        "2. Later: 70 % for 10 s, weeks 4 to 6 (now)",
        "within 25 to 40 %, a band of ± 10 % of the centre; never above 50 %",
        "70 % ± 5 % of the centre (± 3.5 points of the reference)",
        "2 sets of 5 × 10 s (clock: banked), 30 s rest; injured side",
        "100 % is other side&#x27;s best (best 1 s mean, within the last 4 weeks)",
        "Today left: 159.6 to 176.4 N; 100 % is 240 N of 2026-01-12",
        "Today left: 60 to 73.3 N at the low end, 78.5 to 96 N at the high end",
        "Today left: needs a reference. No test of the other side is known.",
        "Pain at most 2 of 10 in the last 3 sessions.",
    ):
        assert part in words, part


def test_a_plan_of_ones_own_is_no_example_and_notes_are_on_it() -> None:
    planned = replace(SHOULDER.stages[0].prescriptions[0], note="Slowly & calmly")
    stage = replace(SHOULDER.stages[0], note="line one\nline two", criteria=(),
                    prescriptions=(planned,))  # fmt: skip
    plan = replace(
        SHOULDER, name="<b>Mine", example=False, note="A note", stages=(stage,)
    )
    words = plan_print.html(plan, who="INV-1")
    assert "&lt;b&gt;Mine" in words
    assert "invented" not in words
    assert "To move on" not in words
    assert "Today" not in words
    for part in ("A note", "line one<br>line two", "Slowly &amp; calmly"):
        assert part in words


@pytest.mark.parametrize("plan", EXAMPLE_PLANS, ids=lambda plan: plan.name)
def test_the_paper_can_be_read_by_another_program(
    plan: Plan, qapp: object, tmp_path: Path
) -> None:
    """Through pdftotext of poppler, where it is installed."""
    assert qapp  # letters need it
    path = tmp_path / "plan.pdf"
    plan_print.write_pdf(plan, path, who="INV-1", now=0, today=today)
    reader = shutil.which("pdftotext")
    if reader is None:
        pytest.skip("pdftotext is not installed")
    done = subprocess.run(  # noqa: S603  a program of the system, our own file
        [reader, "-layout", str(path), "-"], capture_output=True, text=True, check=True
    )
    assert plan.name in done.stdout
    assert "For INV-1" in done.stdout
    for stage in plan.stages:
        assert stage.name in done.stdout
        for one in stage.prescriptions:
            assert one.task.name in done.stdout


def test_a_paper_that_cannot_be_written_is_said_and_the_old_one_stays(
    qapp: object, tmp_path: Path
) -> None:
    assert qapp
    folder = tmp_path / "plan.pdf"
    folder.mkdir()
    (folder / "kept").touch()
    with pytest.raises(FileError, match="cannot be written"):
        plan_print.write_pdf(TENDON, folder, who="INV-1")
    with pytest.raises(FileError, match="cannot be written"):
        plan_print.write_pdf(TENDON, tmp_path / "none" / "plan.pdf", who="INV-1")
    assert [found.name for found in tmp_path.iterdir()] == ["plan.pdf"]
    path = tmp_path / "other.pdf"
    path.write_bytes(b"old")
    plan_print.write_pdf(TENDON, path, who="INV-1")
    assert path.read_bytes().startswith(b"%PDF")
