"""The page at the end of a visit: planned and done, what was changed, and next time.

All of it comes from what is kept, so it can be looked at again. What is added here, the
next date and a note, is kept by one press; keeping again replaces nothing, the newest
one counts.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QLabel,
    QPushButton,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import BiofeedbackError, FieldError
from biofeedback.gui.field import Field
from biofeedback.gui.keys import bind, show_key
from biofeedback.gui.language import shown, tr
from biofeedback.gui.plain_table import plain_table
from biofeedback.gui.report_button import KEY as REPORT_KEY
from biofeedback.gui.report_button import ReportButton
from biofeedback.gui.review_rows import Table
from biofeedback.gui.tall_area import TallArea
from biofeedback.gui.text_box import TextBox
from biofeedback.gui.visit_words import (
    change_row,
    effort_words,
    line_rows,
    lines_title,
    next_words,
    pain_words,
    sense_words,
    signal_words,
    tip,
)
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.session.next_time import REST_DAYS

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.session.reports import Reports
    from biofeedback.session.visit_facts import VisitSummary
    from biofeedback.session.visit_summary import VisitSummaries

SIDE_PX = 400
DONE_PX = 560
"""At least; in large type what is next time stands below."""
DAYS = (1, REST_DAYS, 3, 7)
ROWS_LEAST = 3


class VisitPage(QWidget):
    """One visit on one page.

    Args:
        summaries: the door to visits; None where there is no logbook.
        reports: gathers reports; None where there is no logbook.

    Signals:
        live_wanted: back to the live page.
        kept: the page was kept.
    """

    live_wanted = Signal()
    kept = Signal()

    def __init__(
        self,
        summaries: VisitSummaries | None,
        parent: QWidget | None = None,
        *,
        reports: Reports | None = None,
    ) -> None:
        super().__init__(parent)
        tr = self.tr
        self.setAccessibleName(tr("End of the visit"))
        self._summaries = summaries
        self._summary: VisitSummary | None = None
        self._held = False  # by what was typed; opening the page again leaves it
        self.live = QPushButton(tr("Back to live"))
        self.heading = QLabel(tr("End of the visit"))
        self.heading.setObjectName("who")
        self.report = ReportButton(
            reports, lambda: self._summary.athlete_code if self._summary else ""
        )
        self.problem = QLabel()
        self.problem.setObjectName("message")
        self.problem.setWordWrap(True)
        self.problem.hide()
        self.lines = Table(
            (
                tr("task"),
                tr("sets"),
                tr("reps"),
                tr("inside, s"),
                tr("dose, %·s"),
                tr("remark"),
            ),
            tips=tip,
        )
        self.line_table = plain_table(self.lines, tr("Done of planned"), stretch=0)
        self.changes = Table(
            (tr("time"), tr("where"), tr("what"), tr("change"), tr("reason"))
        )
        self.change_table = plain_table(self.changes, tr("What was changed"), stretch=3)
        self.pain, self.effort = QLabel(), QLabel()
        self.signal, self.tests, self.notes = QLabel(), QLabel(), QLabel()
        self.sense = QLabel()
        for label in self._told():
            label.setWordWrap(True)
        self.proposal = QLabel()
        self.proposal.setWordWrap(True)
        self.proposal.setAccessibleName(tr("Next time, by the pain rule"))
        self.date = Field(
            tr("Next date"), tip=tr("Year, month, day, such as 2026-03-31; or none")
        )
        self.days = [QPushButton(_days(count)) for count in DAYS]
        self.note = TextBox(tr("Note for next time"), lines=3)
        self.keep = QPushButton(tr("Keep this page"))
        self.keep.setObjectName("start")
        self.was_kept = QLabel()
        self.was_kept.setObjectName("summary")
        self.was_kept.setWordWrap(True)
        self.advice = QLabel(
            tr("The program proposes; you and the treating clinician decide.")
        )
        self.advice.setObjectName("summary")
        self.advice.setWordWrap(True)
        self._loaded = self._typed()
        self._lay_out()
        self._connect()
        self.set_size(1.0)
        self._show()

    def _lay_out(self) -> None:
        tr = self.tr
        head = WrappedRow()
        head.add(self.live)
        head.add(self.heading, 1)
        head.add(self.report)
        self._done = QWidget()
        left = QVBoxLayout(self._done)
        left.setContentsMargins(0, 0, 0, 0)
        left.setSpacing(6)
        self.lines_title = _title(lines_title(by_order=True))
        left.addWidget(self.lines_title)
        left.addWidget(self.line_table, 3)
        left.addWidget(_title(tr("What was changed, and why")))
        left.addWidget(self.change_table, 2)
        for label in self._told():
            left.addWidget(label)
        inner = QWidget()
        words = QVBoxLayout(inner)
        words.setContentsMargins(0, 0, 6, 0)
        words.addWidget(self.proposal)
        words.addStretch(1)
        self._scroll = TallArea(inner)
        self._scroll.setAccessibleName(tr("Next time, by the pain rule"))
        side = QVBoxLayout()
        side.setSpacing(6)
        side.addWidget(_title(tr("Next time, by the pain rule")))
        side.addWidget(self._scroll, 1)
        side.addWidget(self.date)
        days = WrappedRow(spacing_px=3)
        for button, count in zip(self.days, DAYS, strict=True):
            button.setAccessibleName(tr("Next date: {days}").format(days=_days(count)))
            days.add(button, 1)
        side.addLayout(days)
        side.addWidget(self.note)
        side.addWidget(self.keep)
        side.addWidget(self.was_kept)
        side.addWidget(self.advice)
        self._side = QWidget()
        self._side.setLayout(side)
        row = WrappedRow(spacing_px=18, fills=True)
        row.add(self._done, 1)
        row.add(self._side, scrolls=True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 10, 12, 12)
        layout.addLayout(head)
        layout.addWidget(self.problem)
        layout.addLayout(row, 1)

    def _told(self) -> tuple[QLabel, ...]:
        """What stands under the tables, in its order."""
        return (
            self.pain, self.effort, self.sense, self.signal, self.tests, self.notes,
        )  # fmt: skip

    def _connect(self) -> None:
        self.live.clicked.connect(self.live_wanted)
        self.keep.clicked.connect(self._keep)
        self.report.said.connect(self._say)
        bind(self, REPORT_KEY, self.report.open)
        for button, days in zip(self.days, DAYS, strict=True):
            button.clicked.connect(lambda _=False, count=days: self._in_days(count))
        show_key(self.keep, "Ctrl+S", self.tr("Keep date, proposal and note"))
        bind(self, "Ctrl+S", self.keep.click)  # dead while the page is hidden

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self._side.setMinimumWidth(round(SIDE_PX * size))
        self._done.setMinimumWidth(round(DONE_PX * size))

    # What is shown.

    def enter(self, athlete_code: str, session_id: str = "") -> None:
        """The page is shown.

        Args:
            session_id: of the visit; the newest one of the athlete where it is empty.
        """
        self._say("")
        summaries = self._summaries
        if summaries is None:
            self._say(self.tr("There is no logbook, so nothing was kept."))
            return
        before = self._summary.session_id if self._summary else ""
        found: list[VisitSummary | None] = []
        self._try(
            lambda: found.append(
                summaries.of(session_id)
                if session_id
                else summaries.latest(athlete_code)
            )
        )
        if not found or self._stays(found[0]):
            return
        self._summary = found[0]
        if self._summary is None:
            self._say(
                self.tr("Nothing of {who} was kept yet.").format(who=athlete_code)
            )
        if self._summary is None or self._summary.session_id != before:
            self._fill(self._summary, summaries.today)
        self._show()

    def _stays(self, new: VisitSummary | None) -> bool:
        """What was typed for a visit keeps it on the page; opening again leaves it."""
        here = self._summary
        other = here is not None and (new is None or new.session_id != here.session_id)
        self._held = other and self.dirty and not self._held
        if here is not None and self._held:
            started = here.started_utc.astimezone()
            words = self.tr(
                "Still the visit of {who}, {day}: what is typed here is not kept. Keep "
                "it, or open this page again to leave it."
            )
            day = started.strftime("%Y-%m-%d, %H:%M %Z")
            self._say(words.format(who=here.athlete_code, day=day))
        return self._held

    def _fill(self, summary: VisitSummary | None, today: date) -> None:
        """What can be typed, as it was kept, or as it is offered."""
        kept = summary.kept if summary else None
        if summary is None:
            self.date.set_text("")
            self.note.set_text("")
        elif kept is None:
            self.date.set_text(
                ""
                if summary.talk_first
                else (today + timedelta(days=REST_DAYS)).isoformat()
            )
            self.note.set_text("")
        else:
            self.date.set_text(str(kept.get("next_date") or ""))
            self.note.set_text(str(kept.get("note") or ""))
        self._loaded = self._typed()

    @property
    def dirty(self) -> bool:
        """Whether a date or a note was typed that is not kept."""
        return self._typed() != self._loaded

    def _typed(self) -> tuple[str, str]:
        return self.date.text, self.note.text

    def _show(self) -> None:
        summary = self._summary
        self.keep.setEnabled(summary is not None)
        if summary is None:
            self.lines.set_rows(())
            self.changes.set_rows(())
            for label in (self.pain, self.effort, self.signal, self.proposal):
                label.setText("")
            for label in (self.tests, self.notes, self.sense):
                label.hide()
            return
        started = summary.started_utc.astimezone()
        self.heading.setText(
            self.tr("Visit of {who}, {day}").format(
                who=summary.athlete_code, day=started.strftime("%Y-%m-%d, %H:%M %Z")
            )
        )
        in_order = sorted(summary.lines, key=lambda line: line.warm_up)
        title = lines_title(by_order=summary.by_order)
        self.lines_title.setText(title)
        self.line_table.setAccessibleName(title)
        self.lines.set_rows(line_rows(in_order, by_order=summary.by_order))
        self.changes.set_rows(
            [change_row(line, started.tzinfo) for line in summary.changes]
        )
        self.pain.setText(pain_words(summary))
        self.effort.setText(effort_words(summary))
        self.sense.setText(sense_words(in_order))
        self.sense.setVisible(bool(self.sense.text()))
        self.signal.setText(signal_words(summary.signal))
        self.tests.setText(
            self.tr("Maximal tests: {names}.").format(
                names="; ".join(map(shown, summary.tests))
            )
        )
        self.tests.setVisible(bool(summary.tests))
        self.notes.setText(
            self.tr("Notes: {notes}").format(
                notes=" · ".join(map(shown, summary.notes))
            )
        )
        self.notes.setVisible(bool(summary.notes))
        self.proposal.setText(next_words(summary))
        self.was_kept.setText(
            self.tr("Not kept yet.")
            if summary.kept is None
            else self.tr("Kept; what is changed now counts once it is kept again.")
        )
        for table in (self.line_table, self.change_table):
            _least_rows(table)

    # What is done.

    def _in_days(self, count: int) -> None:
        if self._summaries is not None:
            day = self._summaries.today + timedelta(days=count)
            self.date.set_text(day.isoformat())

    def _keep(self) -> None:
        summary, summaries = self._summary, self._summaries
        if summary is None or summaries is None:
            return
        day: date | None = None
        if self.date.text:
            try:
                day = date.fromisoformat(self.date.text)
            except ValueError:
                self.date.complain(self.tr("Please type a day, such as 2026-03-31."))
                return
        self._say("")
        try:
            summaries.keep(summary, next_date=day, note=self.note.text)
        except FieldError as error:
            field = self.note if error.field == "note" else self.date
            field.complain(error.problem)
            return
        except BiofeedbackError as error:
            self._say(str(error))
            return
        self._loaded = self._typed()
        self._try(lambda: self._reload(summaries, summary.session_id))
        self.kept.emit()

    def _reload(self, summaries: VisitSummaries, session_id: str) -> None:
        self._summary = summaries.of(session_id)
        self._show()

    def _try(self, what: Callable[[], object]) -> None:
        try:
            what()
        except BiofeedbackError as error:
            self._say(str(error))

    def _say(self, words: str) -> None:
        self.problem.setText(shown(words))
        self.problem.setVisible(bool(words))


def _days(count: int) -> str:
    words = tr("+{n} day") if count == 1 else tr("+{n} days")
    return words.format(n=count)


def _title(text: str) -> QLabel:
    label = QLabel(text)
    label.setObjectName("look")
    return label


def _least_rows(table: QTableView) -> None:
    """Room for a few whole rows; more scroll."""
    table.ensurePolished()
    row_px = table.verticalHeader().minimumSectionSize()
    head_px = table.horizontalHeader().sizeHint().height()
    table.setMinimumHeight(head_px + ROWS_LEAST * row_px + 2 * table.frameWidth())
