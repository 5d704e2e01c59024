"""A report for athlete and clinician: what stands on its one or two pages.

Rules: the code says who it is of, the name only where it was asked for; each number
has its unit and, once, its definition; what is not known is said; no text judges.
`Detail` says how much of long lists is told; what is left out is counted.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from biofeedback.measures.change import Change
from biofeedback.measures.symmetry import ONE_SIDE_FORMULA
from biofeedback.phrase import Phrase, joined, numbered, phrase, sentences
from biofeedback.report.change_words import change_words
from biofeedback.report.closing import closing
from biofeedback.report.report_charts import (
    SIDES,
    pain_chart,
    pain_range,
    practice_words,
    symmetry_chart,
    test_charts,
)
from biofeedback.report.share_charts import share_chart, share_words
from biofeedback.report.sheet import Bullets, Charts, Grid, Heading, Paragraph, Sheet
from biofeedback.report.week_charts import weeks_chart
from biofeedback.session.same_names import told_apart
from biofeedback.training.counting import counted
from biofeedback.training.reference import PAIN_MOST
from biofeedback.training.task_names import task_words

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from biofeedback.report.chart import Chart
    from biofeedback.report.sheet import Part
    from biofeedback.session.report_facts import (
        ReportFacts,
        SideTrend,
        StageMove,
        SymmetryPoint,
        SymmetryTrend,
        Whole,
    )
    from biofeedback.session.visit_facts import TaskLine

DASH = "–"


@dataclass(frozen=True, slots=True)
class Detail:
    """How much of what may be long is told.

    Attributes:
        tasks: with charts of their own.
        rows: of a table.
        changes: of the list of what was changed.
        all_cautions: whether more than the reasons to stop is printed.
        shares: charts of shares.
    """

    tasks: int
    rows: int
    changes: int
    all_cautions: bool = True
    shares: int = 0


DETAILS = (
    Detail(4, 12, 12, shares=4),
    Detail(4, 12, 12, shares=2),
    Detail(4, 12, 12),
    Detail(3, 8, 8),
    Detail(2, 6, 5),
    Detail(2, 5, 3, all_cautions=False),
    Detail(1, 4, 2, all_cautions=False),
)
"""From the fullest down; the first that fits two pages is taken."""


def sheet(facts: ReportFacts, detail: Detail = DETAILS[0]) -> Sheet:
    """The report."""
    who = facts.name and phrase("{name} ({code})", name=facts.name, code=facts.code)
    title = phrase("Report on {who}", who=who or facts.code)
    parts: list[Part] = [
        Heading(title, large=True),
        Paragraph(
            phrase(
                "Period {first} to {last}. Made on {made}.",
                first=facts.first.isoformat(),
                last=facts.last.isoformat(),
                made=facts.made.isoformat(),
            )
        ),
        *(
            [Paragraph(phrase("Only the task “{task}”.", task=task_words(facts.task)))]
            if facts.task
            else []
        ),
        *_simulated(facts),
        *_plan(facts),
        *_done(facts, detail),
        *_tests(facts, detail),
        *_symmetry(facts, detail),
        *_pain(facts),
        *_changed(facts, detail),
        *closing(facts, all_cautions=detail.all_cautions),
    ]
    foot = phrase(
        "Report on {code}, {first} to {last}",
        code=facts.code,
        first=facts.first.isoformat(),
        last=facts.last.isoformat(),
    )
    return Sheet(title, foot, tuple(parts))


def _plan(facts: ReportFacts) -> Iterator[Part]:
    yield Heading(phrase("Plan"))
    plan = facts.plan
    if plan is None:
        yield Paragraph(phrase("No plan is followed."))
        return
    if plan.problem:
        yield Paragraph(plan.problem)
        return
    words = phrase(
        "“{plan}”: stage {stage} of {stages}, “{name}”, since {day}.",
        plan=plan.name,
        stage=plan.stage,
        stages=plan.stages,
        name=plan.stage_name,
        day=plan.since.isoformat() if plan.since else DASH,
    )
    invented = phrase("The plan is an invented example.") if plan.example else ""
    then = phrase("So it stood at the end of the period.")
    past = then if facts.last < facts.made else ""
    yield Paragraph(sentences(words, past, invented))


def _simulated(facts: ReportFacts) -> Iterator[Part]:
    """First of all: newtons that nobody pulled are not to be taken for others."""
    if facts.simulated:
        yield Paragraph(
            phrase(
                "Simulated rig: sets of this period {sets}, of them simulated "
                "{simulated}. Newtons of a simulated set are made up; nothing was "
                "measured.",
                sets=facts.sets,
                simulated=facts.simulated,
            )
        )


def _done(facts: ReportFacts, detail: Detail) -> Iterator[Part]:
    planned = facts.by_order
    yield Heading(phrase("Planned and done") if planned else phrase("Asked and done"))
    if not facts.lines:
        yield Paragraph(phrase("No set was recorded in this period."))
        return
    days = phrase("Days with a set in this period: {visits}.", visits=facts.visits)
    beside = phrase(
        "Nothing was planned: beside what was done stands what the sets that were "
        "begun asked for."
    )
    yield Paragraph(days if planned else sentences(days, beside))
    lines = sorted(facts.lines, key=lambda line: line.warm_up)
    names = told_apart(map(_name, lines))
    rows = zip(names[: detail.rows], lines, strict=False)
    yield Grid(
        head=(
            phrase("task"),
            phrase("sets"),
            phrase("complete reps"),
            phrase("in the band, s"),
            phrase("dose, %·s"),
        ),
        rows=tuple(_line(name, line) for name, line in rows),
        widths=(0.34, 0.12, 0.16, 0.18, 0.2),
    )
    yield from _left_out(len(lines) - detail.rows)
    yield from _wholes(facts, detail)
    if len(facts.weeks) > 1:
        yield Charts((weeks_chart(facts), pain_chart(facts)))


def _wholes(facts: ReportFacts, detail: Detail) -> Iterator[Part]:
    """What is 100 %: without it no percentage and no dose can be read."""
    told = facts.wholes[: detail.rows]
    if told:
        yield Bullets(tuple(map(_whole_words, told)))
        yield from _left_out(len(facts.wholes) - len(told))


def _whole_words(whole: Whole) -> Phrase:
    first, newest = whole.references[0], whole.references[-1]
    words = phrase(
        "100 % of {task}, {side}: {force:.1f} N ({definition}, {origin}, {day})",
        task=whole.task,
        side=SIDES[whole.sides],
        force=newest.force_n,
        definition=newest.definition.value,
        origin=whole.origin_words(newest),
        day=newest.date[:10],
    )
    if first is newest:
        return words
    return phrase(
        "{words}; first {force:.1f} N ({definition}, {origin}, {day}), "
        "{count} different ones in this period",
        words=words,
        force=first.force_n,
        definition=first.definition.value,
        origin=whole.origin_words(first),
        day=first.date[:10],
        count=len(whole.references),
    )


def _name(line: TaskLine) -> str:
    name = phrase("{task}, {side}", task=line.task, side=SIDES[line.sides])
    return phrase("Warm-up: {name}", name=name) if line.warm_up else name


def _line(name: str, line: TaskLine) -> tuple[str, ...]:
    done, planned = line.done, line.planned
    return (
        name,
        _of(done.sets, planned.sets),
        _of(done.reps, planned.reps),
        _of(done.inside_s, planned.inside_s),
        _of(done.dose_pct_s, planned.dose_pct_s),
    )


def _of(done: float | None, planned: float | None) -> Phrase:
    return phrase("{done} of {planned}", done=_whole(done), planned=_whole(planned))


def _whole(value: float | None) -> str:
    return DASH if value is None else phrase("{value:.0f}", value=value)


def _left_out(number: int) -> Iterator[Part]:
    if number > 0:
        words = phrase("{number} more are in the logbook.", number=number)
        yield Paragraph(words, quiet=True)


# Tests and symmetry.


def _tests(facts: ReportFacts, detail: Detail) -> Iterator[Part]:
    yield Heading(phrase("Maximal tests"))
    trends = [one for one in facts.trends if one.results]
    if not trends:
        yield Paragraph(
            phrase("No maximal test that can be compared is in this period.")
        )
        yield from _practised(facts, detail)
        return
    tasks = list(dict.fromkeys(one.key for one in trends))[: detail.tasks]
    charts = [
        chart
        for key in tasks
        for chart in test_charts([one for one in trends if one.key == key], facts.moves)
    ]
    yield from _pairs(charts)
    shown = [one for one in trends if one.key in tasks]
    yield Grid(
        head=(
            phrase("task"),
            phrase("first"),
            phrase("newest"),
            phrase("change"),
            phrase("the change is"),
        ),
        rows=tuple(_test(one) for one in shown[: detail.rows]),
        widths=(0.34, 0.18, 0.18, 0.12, 0.18),
    )
    yield from _left_out(len(trends) - len(shown[: detail.rows]))
    yield from _practised(facts, detail)
    yield from _shares(facts, detail)


def _practised(facts: ReportFacts, detail: Detail) -> Iterator[Part]:
    """Tests of a side that has practice alone: they were done, and are no result."""
    trends = [one for one in facts.trends if one.practised and not one.results]
    told = trends[: detail.rows]
    if told:
        yield Bullets(
            tuple(
                phrase("{task}, {words}", task=one.task, words=practice_words(one))
                for one in told
            )
        )
        yield from _left_out(len(trends) - len(told))


def _shares(facts: ReportFacts, detail: Detail) -> Iterator[Part]:
    """Shares of the other side and of before the injury: charts, else lines."""
    shares = facts.shares[: detail.tasks]
    charted = [one for one in shares if len(one.points) > 1][: detail.shares]
    yield from _pairs([share_chart(one) for one in charted])
    for share in shares:
        if share not in charted:
            yield Paragraph(share_words(share))
    yield from _left_out(len(facts.shares) - len(shares))


def _test(trend: SideTrend) -> tuple[str, ...]:
    first, newest = trend.results[0], trend.results[-1]
    single = len(trend.results) == 1
    change = newest.force_n - first.force_n
    return (
        phrase("{task}, {side}", task=trend.task, side=SIDES[trend.sides]),
        _dated(first.force_n, first.day.isoformat()),
        DASH if single else _dated(newest.force_n, newest.day.isoformat()),
        DASH if single else phrase("{change:+.0f} N", change=change),
        (Change.UNKNOWN if single else trend.change).value,
    )


def _dated(force_n: float, day: str) -> Phrase:
    return phrase("{force_n:.0f} N, {day}", force_n=force_n, day=day)


def _pairs(charts: Sequence[Chart]) -> Iterator[Part]:
    for at in range(0, len(charts), 2):
        yield Charts(tuple(charts[at : at + 2]))


def _symmetry(facts: ReportFacts, detail: Detail) -> Iterator[Part]:
    yield Heading(phrase("Symmetry"))
    if not facts.symmetry:
        yield Paragraph(
            phrase("Not known: no test in which both sides can be compared.")
        )
        return
    shown = facts.symmetry[: detail.tasks]
    yield from _pairs([symmetry_chart(one) for one in shown if len(one.points) > 1])
    for trend in shown:
        newest = trend.points[-1]
        yield Paragraph(
            phrase(
                "{task}: {value:.1f} % on {day}, by {formula}; {sides}.",
                task=trend.task,
                value=newest.value_pct,
                day=newest.day.isoformat(),
                formula=trend.formula,
                sides=_which(trend, newest),
            )
        )
    yield from _left_out(len(facts.symmetry) - len(shown))


def _which(trend: SymmetryTrend, point: SymmetryPoint) -> Phrase:
    if point.weaker is None:
        return phrase("both sides the same")
    if trend.formula == ONE_SIDE_FORMULA:
        return phrase("{side} is weaker", side=SIDES[point.weaker])
    return phrase("{side} is heavier", side=SIDES[point.weaker.other])


# Pain, changes, rig.


def _pain(facts: ReportFacts) -> Iterator[Part]:
    yield Heading(phrase("Pain"))
    yield from _pain_told(facts)
    if facts.pain_back:
        listed = (
            phrase("{level} of {of} on {day}", level=level, of=PAIN_MOST, day=f"{day}")
            for day, level in facts.pain_back
        )
        yield Paragraph(
            phrase(
                "Taken back as a slip, and counted nowhere: {marks}.",
                marks=joined("; ", listed),
            )
        )


def _pain_told(facts: ReportFacts) -> Iterator[Part]:
    told = pain_range(facts.pain)
    if told is None:
        yield Paragraph(phrase("Pain was not told in this period."))
        return
    above = sum(
        max(one.before or 0, one.night or 0, one.morning or 0, one.most or 0)
        > facts.rule.high
        for one in facts.pain
    )
    if len(facts.weeks) <= 1:  # else the chart stands beside that of the weeks
        yield Charts((pain_chart(facts),))
    yield Paragraph(
        phrase(
            "From {least} to {most} of {of}, told on {days}; above the agreed cut "
            "of {cut} on {above} of them.",
            least=told[0],
            most=told[1],
            of=PAIN_MOST,
            days=counted(len(facts.pain), "day"),
            cut=facts.rule.high,
            above=above,
        )
    )


def _changed(facts: ReportFacts, detail: Detail) -> Iterator[Part]:
    yield Heading(phrase("What was changed"))
    lines = [
        *((one.day.isoformat(), _move(one)) for one in facts.moves),
        *(
            (line.at_utc.astimezone().date().isoformat(), change_words(line))
            for line in facts.changes
        ),
    ]
    if not lines:
        yield Paragraph(phrase("Nothing was changed within sets or between stages."))
        return
    newest = sorted(lines, key=lambda line: line[0])[-detail.changes :]
    yield Bullets(tuple(words for _, words in newest))
    earlier = len(lines) - len(newest)
    if earlier > 0:
        yield Paragraph(
            numbered(
                earlier,
                "1 earlier change is in the logbook.",
                "{count} earlier changes are in the logbook.",
            ),
            quiet=True,
        )


def _move(move: StageMove) -> Phrase:
    day = move.day.isoformat()
    if not move.old:
        return phrase("{day}: plan begun, stage “{stage}”", day=day, stage=move.new)
    return phrase(
        "{day}: stage “{stage}”; {reason}",
        day=day,
        stage=move.new,
        reason=move.reason or phrase("no reason given"),
    )
