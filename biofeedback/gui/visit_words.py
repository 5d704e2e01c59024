"""The end of a visit in words: amounts, changes, pain, and how the signal was."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from biofeedback.gui.language import (
    filled,
    localised,
    plain_number,
    said,
    shown,
    signed_number,
    tr,
)
from biofeedback.gui.task_titles import task_title
from biofeedback.phrase import Phrase, phrase
from biofeedback.session.same_names import told_apart
from biofeedback.session.set_changes import REST_TAKEN
from biofeedback.training.counting import counted
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import tzinfo

    from biofeedback.measures.force_sense import ForceSense
    from biofeedback.session.visit_facts import (
        ChangeLine,
        Level,
        SignalHealth,
        TaskLine,
        VisitSummary,
    )


def side(sides: Sides) -> str:
    """Which sides work."""
    return tr("both sides") if sides is Sides.BOTH else shown(sides.value)


def line_rows(
    lines: Iterable[TaskLine], *, by_order: bool = True
) -> list[tuple[str, ...]]:
    """Each task with its sides: done of planned, and a remark.

    Args:
        by_order: whether there was a running order; without one nothing was planned.
    """
    lines = tuple(lines)
    more = (
        tr("{done}; planned {planned}") if by_order else tr("{done}; asked {planned}")
    )
    return [
        _line_row(line, name, more)
        for line, name in zip(lines, _names(lines), strict=True)
    ]


def lines_title(*, by_order: bool) -> str:
    """What the table of the lines is of."""
    if by_order:
        return tr("Done of planned; the warm-up apart")
    return tr("Done of what was asked for in the sets that were begun; nothing was "
              "planned")  # fmt: skip


def _names(lines: Iterable[TaskLine]) -> list[str]:
    """Names of the rows: no two are the same."""
    return [shown(name) for name in told_apart(map(_name, lines))]


def _name(line: TaskLine) -> str:
    name = f"{task_title(line.task)}, {side(line.sides)}"
    return tr("Warm-up: {name}").format(name=name) if line.warm_up else name


def _line_row(line: TaskLine, name: str, more: str) -> tuple[str, ...]:
    done, planned = line.done, line.planned
    return (
        name,
        _of(done.sets, planned.sets, more),
        _of(done.reps, planned.reps, more),
        _of(done.inside_s, planned.inside_s),
        _of(done.dose_pct_s, planned.dose_pct_s, digits=0),
        _remark(line),
    )


def _of(
    done: float | None,
    planned: float | None,
    more: str = "",
    *,
    digits: int = 1,
) -> str:
    """Done of planned; more than was planned is not called a part of it.

    Args:
        more: words for that; none where more is well.
    """
    dash = "–"
    had = dash if done is None else plain_number(done, digits=digits)
    wanted = dash if planned is None else plain_number(planned, digits=digits)
    if more and done is not None and planned is not None and done > planned:
        return more.format(done=had, planned=wanted)
    return tr("{done} of {planned}").format(done=had, planned=wanted)


def _remark(line: TaskLine) -> str:
    words = []
    if line.not_complete:
        words.append(tr("reps not complete: {n}").format(n=line.not_complete))
    if line.void:
        words.append(tr("void: {n}").format(n=line.void))
    if line.begun_anew:
        words.append(tr("broken off and begun anew: {n}").format(n=line.begun_anew))
    if line.part_sets:
        words.append(tr("sets not whole: {n}").format(n=line.part_sets))
    if line.done.sets > line.planned.sets:
        more = line.done.sets - line.planned.sets
        words.append(tr("sets put in: {n}").format(n=more))
    if line.done.sets < line.planned.sets:
        left = line.planned.sets - line.done.sets
        words.append(tr("sets not done: {n}").format(n=left))
    return ", ".join(words)


def change_row(line: ChangeLine, zone: tzinfo | None) -> tuple[str, ...]:
    """When, where, what, from what, to what, and why."""
    clock = line.at_utc.astimezone(zone).strftime("%H:%M %Z")
    where = shown(line.set_name)
    if line.time_s is None:
        where = tr("between sets")
    elif where:
        seconds = plain_number(line.time_s)
        where = tr("{set}, {seconds} s").format(set=where, seconds=seconds)
    what = {
        "band": tr("band"),
        "hold_s": tr("hold"),
        "rest_s": tr("rest"),
        REST_TAKEN: tr("rest taken"),
        "reps": tr("reps"),
        "side": tr("side"),
        "reference": tr("reference"),
    }.get(line.what, line.what)
    old, new = (_value(line, value) for value in (line.old, line.new))
    change = f"{old} → {new}"
    if line.what == REST_TAKEN:  # nobody asked for less
        change = tr("{done} of {planned}").format(done=new, planned=old)
    return (
        clock,
        where,
        what,
        change,
        said(line.reason) if line.reason else "–",
    )


def _value(line: ChangeLine, value: object) -> str:
    if line.what == "band" and isinstance(value, Mapping):
        return _band(value, line.reference_n)
    if line.what == "reference" and isinstance(value, Mapping):
        force_n = _number(value.get("force_n"))
        return "–" if force_n is None else f"{plain_number(force_n)} N"
    number = _number(value)
    if number is None:
        return "–" if value is None else said(str(value))
    unit = " s" if line.what in {"hold_s", "rest_s", REST_TAKEN} else ""
    return f"{plain_number(number)}{unit}"


def _band(band: Mapping[str, object], reference_n: float | None) -> str:
    """In % where there is a reference: newtons alone tell little a week later."""
    lower_n, upper_n = _number(band.get("lower_n")), _number(band.get("upper_n"))
    unit, by = ("N", 1.0) if not reference_n else ("%", 100 / reference_n)
    if lower_n is None:
        return "–"
    low = plain_number(lower_n * by)
    if upper_n is None:
        return tr("at least {low} {unit}").format(low=low, unit=unit)
    return f"{low}–{plain_number(upper_n * by)} {unit}"


_WHEN: dict[str, str] = {
    "before": phrase("before"),
    "during": phrase("during"),
    "after": phrase("after"),
}


def level_words(levels: tuple[Level, ...]) -> str:
    """Pain or effort, in the order in which it was told."""
    parts = []
    for one in levels:
        where = shown(_WHEN.get(one.when, one.when))
        if one.set_name and one.when != "before":
            which = shown(one.set_name)
            where = f"{where} {which}".strip()
        if one.taken_back:
            where = ", ".join(filter(None, (where, tr("taken back"))))
        parts.append(f"{one.level} ({where})" if where else f"{one.level}")
    return ", ".join(parts)


def pain_words(summary: VisitSummary) -> str:
    """Pain before, during and after."""
    if not summary.pain:
        return tr("Pain was not asked.")
    return tr("Pain of 10: {levels}.").format(levels=level_words(summary.pain))


def effort_words(summary: VisitSummary) -> str:
    """How hard the sets were."""
    if not summary.effort:
        return tr("Effort was not asked.")
    return tr("Effort of 10: {levels}.").format(levels=level_words(summary.effort))


def signal_words(signal: SignalHealth) -> str:
    """How good the signal was in all reps of the visit."""
    if not signal.reps:
        return tr("No rep was recorded.")
    words = filled(
        tr(
            "Signal of {reps}: {gaps}, {lost}, {saturated}; largest zero drift {drift}."
        ),
        reps=counted(signal.reps, "rep"),
        gaps=counted(signal.gaps, "gap"),
        # A restart of the board counts as one: how many went by then nobody knows.
        lost=_at_least(counted(signal.lost, "lost sample"), gaps=signal.gaps),
        saturated=counted(signal.saturated, "saturated sample"),
        drift=_drift(signal.zero_drift_n),
    )
    for count, text in (
        (signal.recovered, tr("Sets whose recording was cut off: {n}.")),
        (signal.not_closed, tr("Sets whose end is not in the logbook yet: {n}.")),
    ):
        if count:
            words = f"{words} {text.format(n=count)}"
    return words


def _at_least(lost: Phrase, *, gaps: int) -> Phrase:
    """A count that is a least one where there was a gap."""
    return phrase("at least {lost}", lost=lost) if gaps else lost


def sense_words(lines: Iterable[TaskLine]) -> str:
    """How near the unseen reps came to their target; empty where there was none."""
    lines = tuple(lines)
    return "\n".join(
        _sense(line.sense, name)
        for line, name in zip(lines, _names(lines), strict=True)
        if line.sense is not None
    )


def _sense(sense: ForceSense, name: str) -> str:
    error = sense.error
    if sense.efforts == 1:
        return tr(
            "Unseen, {name}: one rep, {error} N ({pct} %) from the centre of the band."
        ).format(
            name=name, error=signed_number(error.ce_n), pct=signed_number(sense.ce_pct)
        )
    return tr(
        "Unseen, {name}: from the centre of the band {ce} N ({ce_pct} %) on the whole "
        "(constant error), {ve} N ({ve_pct} %) of scatter (variable error), {ae} N "
        "({ae_pct} %) without sign (absolute error); {n} reps."
    ).format(
        name=name,
        ce=signed_number(error.ce_n),
        ce_pct=signed_number(sense.ce_pct),
        ve=plain_number(error.ve_n),
        ve_pct=plain_number(sense.ve_pct),
        ae=plain_number(error.ae_n),
        ae_pct=plain_number(sense.ae_pct),
        n=sense.efforts,
    )


def _drift(drift_n: float | None) -> str:
    if drift_n is None:
        return tr("not known")
    if abs(drift_n) < 0.05:
        return tr("under 0.1 N")
    return localised(f"{drift_n:+.1f} N").replace("-", "−")


def tip(title: str) -> str:
    """What a title of the tables means; empty where it needs no words."""
    return {
        tr("task"): tr(
            "A number in brackets tells rows of one name apart: tasks of one name, in "
            "the order of the visit."
        ),
        tr("sets"): tr(
            "Sets with at least one rep that counts, of those planned, or asked for "
            "where nothing was planned. A set is whole when all its reps are complete; "
            "broken off and begun anew as it was, it is still one set."
        ),
        tr("reps"): tr(
            "Complete reps, of those planned, or asked for where nothing was planned. "
            "Void ones count nowhere."
        ),
        tr("inside, s"): tr("Time in the band, of reps × hold."),
        tr("dose, %·s"): tr(
            "Force in % of the reference times seconds. The way into the band is in "
            "it, so it may be more than reps × hold × centre of the band."
        ),
    }.get(title, "")


def next_words(summary: VisitSummary) -> str:
    """What the pain rule would propose next time."""
    parts = []
    if summary.talk_first:
        # And no place: a list of them would read as leave to go on.
        return tr(
            "Pain went to {level} of 10, above the cut of {cut}: better stop, and ask "
            "the treating clinician before going on. No place is proposed before that."
        ).format(level=summary.highest_pain, cut=summary.rule.high)
    if not summary.next_time:
        parts.append(tr("No set of today's page was done, so no place is proposed."))
    titles = told_apart(
        f"{task_title(one.task)}, {side(one.sides)}" for one in summary.next_time
    )
    for one, title in zip(summary.next_time, titles, strict=True):
        parts.append("\n".join((title, *(f"•  {shown(words)}" for words in one.words))))
    return "\n\n".join(parts)


def _number(value: object) -> float | None:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return None
    return float(value)
