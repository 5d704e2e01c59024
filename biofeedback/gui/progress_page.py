"""The page of progress: tests, training, pain and weeks of one athlete, as charts.

Each chart says what may be noise, or that it cannot be told yet. Only like stands in
one trend; what cannot be compared is a subject of its own. The page decides nothing.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from biofeedback.errors import BiofeedbackError
from biofeedback.gui.chart_sheet import ChartSheet
from biofeedback.gui.choice_row import ChoiceRow
from biofeedback.gui.entry_list import EntryList
from biofeedback.gui.keys import bind
from biofeedback.gui.language import shown, tr
from biofeedback.gui.report_button import KEY as REPORT_KEY
from biofeedback.gui.report_button import ReportButton
from biofeedback.gui.tall_area import TallArea
from biofeedback.gui.wrapped_row import WrappedRow
from biofeedback.report.report_charts import (
    pain_chart,
    symmetry_chart,
    test_charts,
)
from biofeedback.report.share_charts import share_chart
from biofeedback.report.training_charts import (
    failure_words,
    kind_words,
    training_charts,
)
from biofeedback.report.week_charts import adherence_charts

if TYPE_CHECKING:
    from biofeedback.gui.theme import Theme
    from biofeedback.report.chart import Chart
    from biofeedback.session.report_facts import ReportFacts
    from biofeedback.session.reports import Reports

LIST_PX = 300
PERIODS = (92, 365, None)
"""Days back from today; None is all that there is."""


class ProgressPage(QWidget):
    """A list of subjects, and the charts of the one that is chosen.

    Args:
        reports: the door to months; None where there is no logbook.

    Signals:
        live_wanted: back to the live page.
    """

    live_wanted = Signal()

    def __init__(self, reports: Reports | None, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Progress"))
        self._reports = reports
        self._facts: ReportFacts | None = None
        self._code = ""
        self.live = QPushButton(tr("Back to live"))
        self.live.clicked.connect(self.live_wanted)
        self.heading = QLabel(tr("Progress"))
        self.heading.setObjectName("who")
        self.period = ChoiceRow(tr("Period"))
        self.period.box.addItems(
            [tr("the last three months"), tr("the last year"), tr("all there is")]
        )
        self.period.box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        self.period.box.currentIndexChanged.connect(self._reload)
        self.problem = QLabel()
        self.problem.setObjectName("message")
        self.problem.setWordWrap(True)
        self.problem.hide()
        self.report = ReportButton(reports, lambda: self._code)
        self.report.said.connect(self._say)
        bind(self, REPORT_KEY, self.report.open)  # dead while the page is hidden
        self.subjects = EntryList()
        self.subjects.setAccessibleName(tr("Subjects"))
        self.subjects.picked.connect(self._show)
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.charts = ChartSheet()
        self.advice = QLabel(
            tr("Charts show what was done. What it means, you and the treating "
               "clinician decide.")
        )  # fmt: skip
        self.advice.setObjectName("summary")
        self.advice.setWordWrap(True)
        self._lay_out()
        self.set_size(1.0)

    def _lay_out(self) -> None:
        head = WrappedRow()
        head.add(self.live)
        head.add(self.heading, 1)
        head.add(self.period)
        head.add(self.report)
        self.head = head
        side = QVBoxLayout()
        side.addWidget(self.subjects, 1)
        side.addWidget(self.advice)
        self._lent = side
        self._side = QWidget()
        self._side.setLayout(side)
        side.setContentsMargins(0, 0, 0, 0)
        self._scroll = TallArea(self.charts)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # the sheet itself has it
        right = QVBoxLayout()
        right.addWidget(self.words)
        right.addWidget(self._scroll, 1)
        row = WrappedRow(spacing_px=18, fills=True)
        row.add(self._side)
        row.add(right, 1, scrolls=True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 10, 12, 12)
        layout.addLayout(head)
        layout.addWidget(self.problem)
        layout.addLayout(row, 1)

    def lend(self, button: QPushButton) -> None:
        """A way on from here, below the subjects: to the page of a group."""
        self._lent.addWidget(button)

    def set_size(self, size: float) -> None:
        """Room for larger type, 1 for a window 720 pixels high."""
        self._side.setMinimumWidth(round(LIST_PX * size))
        self.charts.set_size(size)

    def set_theme(self, theme: Theme) -> None:
        """Day or night."""
        self.charts.set_theme(theme)

    # What is shown.

    def enter(self, athlete_code: str) -> None:
        """The page is shown.

        Args:
            athlete_code: who is here.
        """
        self._code = athlete_code
        self._reload()
        self.subjects.setFocus()

    def _reload(self) -> None:
        self._facts = None
        self._say("")
        self.heading.setText(tr("Progress of {who}").format(who=self._code))
        reports = self._reports
        if reports is None:
            self._say(tr("There is no logbook, so nothing was kept."))
        elif self._code:
            days = PERIODS[self.period.box.currentIndex()]
            since = None if days is None else reports.today - timedelta(days=days)
            try:
                self._facts = reports.of(self._code, since=since)
            except BiofeedbackError as error:
                self._say(shown(str(error)))
        entries = self._entries()
        self.subjects.show_entries(entries, entries[0][0] if entries else "")
        self._show(entries[0][0] if entries else "")

    def _entries(self) -> list[tuple[str, str]]:
        """Key and words of each subject."""
        facts = self._facts
        if facts is None:
            return []
        tested = {one.key: one.task for one in facts.trends}
        kinds = [trend.kind for trend in facts.training]
        return [
            *(
                (f"test {key}", tr("Test: {task}").format(task=shown(task)))
                for key, task in tested.items()
            ),
            *(
                (f"training {index}", shown(kind_words(trend.kind, kinds)))
                for index, trend in enumerate(facts.training)
            ),
            ("weeks", tr("Weeks and pain")),
        ]

    def _show(self, key: str) -> None:
        facts = self._facts
        if facts is None or not key:
            self.words.setText("")
            self.charts.show_charts(())
            return
        what, _, which = key.partition(" ")
        words = ""
        charts: list[Chart]
        if what == "test":
            charts = _test_charts(facts, which)
        elif what == "training":
            trend = facts.training[int(which)]
            # The list may be too narrow for what tells two kinds apart.
            title = kind_words(trend.kind, [one.kind for one in facts.training])
            words = f"{shown(title)}. {shown(failure_words(trend))}"
            charts = list(training_charts(trend))
        else:
            charts = [*adherence_charts(facts), pain_chart(facts)]
        self.words.setText(words)
        self.words.setVisible(bool(words))
        self.charts.show_charts(charts)
        self._scroll.verticalScrollBar().setValue(0)

    def _say(self, words: str) -> None:
        self.problem.setText(words)
        self.problem.setVisible(bool(words))


def _test_charts(facts: ReportFacts, key: str) -> list[Chart]:
    """Results of a task, its symmetry and its shares."""
    trends = [one for one in facts.trends if one.key == key]
    return [
        *test_charts(trends, facts.moves),
        *(symmetry_chart(one) for one in facts.symmetry if one.key == key),
        *(share_chart(one) for one in facts.shares if one.key == key),
    ]
