"""A plan on paper: everything that is asked for, stage by stage.

Black on white whatever the theme. Written through Qt's own documents as PDF, with the
same words as on the screen, and with the newtons of the day it was printed on.
"""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QBuffer,
    QByteArray,
    QDate,
    QIODevice,
    QMarginsF,
    Qt,
)
from PySide6.QtGui import QFont, QPageLayout, QPageSize, QPdfWriter, QTextDocument

from biofeedback.gui.language import filled, shown, tr
from biofeedback.gui.plan_titles import plan_title
from biofeedback.session.planning import write_whole
from biofeedback.training.intensity_words import newtons_in_range, number
from biofeedback.training.plan import CAUTION
from biofeedback.training.planned_words import lines

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from biofeedback.session.planning import SideReference
    from biofeedback.training.plan import Plan, Stage
    from biofeedback.training.planned import PlannedPrescription

    Today = Callable[[PlannedPrescription], Sequence[SideReference]]

MARGIN_MM = 0
"""Beside the 2 cm that a document leaves by itself."""
DOTS_PER_INCH = 300
POINTS = 10.0


def write_pdf(
    plan: Plan,
    path: Path,
    *,
    who: str,
    now: int | None = None,
    today: Today | None = None,
) -> None:
    """Writes the plan as a PDF, whole or not at all.

    Args:
        who: code of the athlete.
        now: index of the stage under way, if one is.
        today: what is 100 % for each side of a prescription, for newtons.

    Raises:
        FileError: the file cannot be written.
    """
    content = QByteArray()
    buffer = QBuffer(content)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setResolution(DOTS_PER_INCH)
    writer.setTitle(plan_title(plan.name))
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
    document.setHtml(html(plan, who=who, now=now, today=today))
    document.print_(writer)
    del writer  # which ends the document
    buffer.close()
    write_whole(path, bytes(content.data()))


def html(
    plan: Plan, *, who: str, now: int | None = None, today: Today | None = None
) -> str:
    """The document."""
    head = [f"<h2>{escape(plan_title(plan.name))}</h2>"]
    if plan.example:
        head.append(f"<p><b>{escape(tr('An invented example.'))}</b></p>")
    day = QDate.currentDate().toString(Qt.DateFormat.ISODate)
    for_whom = tr("For {who}, printed {day}.").format(who=who, day=day)
    head.append(f"<p>{escape(for_whom)}</p>")
    head.append(f"<p><b>{escape(shown(CAUTION))}</b></p>")
    if plan.note and plan.note != CAUTION:
        head.append(f"<p>{_text(plan.note)}</p>")
    stages = [
        _stage(index, stage, now=now, today=today)
        for index, stage in enumerate(plan.stages)
    ]
    body = "".join((*head, *stages))
    return f"<html><body style='color:#000'>{body}</body></html>"


def _stage(index: int, stage: Stage, *, now: int | None, today: Today | None) -> str:
    head = tr("{number}. {name}, weeks {first} to {last}").format(
        number=index + 1,
        name=plan_title(stage.name),
        first=stage.from_week,
        last=stage.to_week,
    )
    if index == now:
        head = tr("{stage} (now)").format(stage=head)
    parts = [f"<h3>{escape(head)}</h3>"]
    if stage.note:
        parts.append(f"<p>{_text(stage.note)}</p>")
    asked = "".join(_prescription(one, today) for one in stage.prescriptions)
    if asked:
        parts.append(f"<ul>{asked}</ul>")
    criteria = "".join(f"<li>{escape(shown(one.words))}</li>" for one in stage.criteria)
    if criteria:
        parts.append(f"<p>{escape(tr('To move on:'))}</p><ul>{criteria}</ul>")
    return "".join(parts)


def _prescription(planned: PlannedPrescription, today: Today | None) -> str:
    told = [*map(shown, lines(planned)), *_newtons(planned, today)]
    if planned.note:
        told.append(planned.note)
    words = "<br>".join(escape(one) for one in told)
    return f"<li><b>{escape(shown(planned.task.name))}</b><br>{words}</li>"


def _newtons(planned: PlannedPrescription, today: Today | None) -> list[str]:
    """Of each side, if the set were today."""
    if today is None or not planned.intensity.wants_reference:
        return []
    told = []
    for one in today(planned):
        if one.side is None or one.reference is None:
            side = shown(one.side.value) if one.side else ""
            words = tr("Today {side}: needs a reference. {missing}")
            told.append(filled(words, side=side, missing=one.missing))
            continue
        reference_n = one.reference.force_n
        told.append(
            filled(
                tr("Today {side}: {newtons}; 100 % is {force} N of {date}"),
                side=shown(one.side.value),
                newtons=newtons_in_range(planned.intensity, reference_n),
                force=number(reference_n),
                date=one.reference.date[:10],
            )
        )
    return told


def _text(text: str) -> str:
    return escape(text).replace("\n", "<br>")
