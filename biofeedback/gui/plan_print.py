"""A plan on paper: everything that is asked for, stage by stage.

Black on white whatever the theme. Written through Qt's own documents, as PDF or to a
printer, with the same words as on the screen.
"""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QMarginsF
from PySide6.QtGui import QFont, QPageLayout, QPageSize, QPdfWriter, QTextDocument

from biofeedback.errors import FileError
from biofeedback.training.intensity_words import in_words, range_in_words
from biofeedback.training.plan import CAUTION

if TYPE_CHECKING:
    from pathlib import Path

    from biofeedback.training.plan import Plan, Stage
    from biofeedback.training.planned import PlannedPrescription

MARGIN_MM = 18
DOTS_PER_INCH = 300
POINTS = 10.0


def tr(text: str) -> str:
    """In the language of the interface."""
    return QCoreApplication.translate("PlanPrint", text)


def write_pdf(plan: Plan, path: Path, *, who: str) -> None:
    """Writes the plan as a PDF.

    Args:
        who: code of the athlete.

    Raises:
        FileError: the file cannot be written.
    """
    writer = QPdfWriter(str(path))
    writer.setResolution(DOTS_PER_INCH)
    writer.setTitle(plan.name)
    writer.setPageLayout(
        QPageLayout(
            QPageSize(QPageSize.PageSizeId.A4),
            QPageLayout.Orientation.Portrait,
            QMarginsF(*4 * [MARGIN_MM]),
            QPageLayout.Unit.Millimeter,
        )
    )
    document = QTextDocument()
    # Sizes in the document itself would not follow the resolution of the paper.
    letters = QFont()
    letters.setPointSizeF(POINTS)
    document.setDefaultFont(letters)
    document.setHtml(html(plan, who=who))
    document.print_(writer)
    del writer  # which ends the file
    if not path.is_file() or not path.stat().st_size:
        raise FileError(path, "the plan cannot be printed there.")


def html(plan: Plan, *, who: str) -> str:
    """The document."""
    example = f"<p><b>{escape(tr('An invented example.'))}</b></p>"
    note = escape(plan.note).replace("\n", "<br>")
    stages = "".join(
        _stage(number, stage) for number, stage in enumerate(plan.stages, 1)
    )
    return (
        "<html><body style='color:#000'>"
        f"<h2>{escape(plan.name)}</h2>"
        f"<p>{escape(tr('For'))} {escape(who)}</p>"
        f"{example if plan.example else ''}"
        f"{f'<p>{note}</p>' if note and plan.note != CAUTION else ''}"
        f"{stages}<p><b>{escape(tr(CAUTION))}</b></p></body></html>"
    )


def _stage(number: int, stage: Stage) -> str:
    weeks = tr("weeks {first} to {last}").format(
        first=stage.from_week, last=stage.to_week
    )
    asked = "".join(_prescription(one) for one in stage.prescriptions)
    criteria = "".join(f"<li>{escape(one.words)}</li>" for one in stage.criteria)
    head = f"{number}. {stage.name} ({weeks})"
    parts = [f"<h3>{escape(head)}</h3>"]
    if stage.note:
        parts.append(f"<p>{escape(stage.note)}</p>")
    parts.append(f"<ul>{asked}</ul>")
    if criteria:
        parts.append(f"<p>{escape(tr('To move on:'))}</p><ul>{criteria}</ul>")
    return "".join(parts)


def _prescription(planned: PlannedPrescription) -> str:
    within = range_in_words(planned.intensity)
    hard = in_words(planned.intensity)
    if within:
        hard = tr("within {range}, beginning at {band}").format(range=within, band=hard)
    ceiling = ""
    if planned.ceiling_pct is not None:
        ceiling = tr("; never above {pct} %").format(pct=f"{planned.ceiling_pct:g}")
    elif planned.ceiling_n is not None:
        ceiling = tr("; never above {n} N").format(n=f"{planned.ceiling_n:g}")
    dose = tr(
        "{sets} × {reps} reps of {hold} s ({clock}), rest {rest} s; {sides}; 100 % is "
        "{origin}"
    ).format(
        sets=planned.sets,
        reps=planned.reps,
        hold=f"{planned.hold_s:g}",
        clock=tr(planned.clock.value),
        rest=f"{planned.rest_s:g}",
        sides=tr(planned.side_order.value),
        origin=tr(planned.reference.origin.value),
    )
    words = f"<b>{escape(planned.task.name)}</b>: {escape(hard)}{escape(ceiling)}"
    note = f"<br>{escape(planned.note)}" if planned.note else ""
    return f"<li>{words}<br>{escape(dose)}{note}</li>"
