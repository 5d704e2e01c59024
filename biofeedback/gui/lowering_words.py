"""Words of lowering reps, of the check against isometric peaks, and of their numbers.

Calm and short. What went otherwise than meant is told as what was, and what to try; a
person is never called weak. Which reading is right is never said here.
"""

from __future__ import annotations

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
from biofeedback.measures.eccentric_check import Part, Reading
from biofeedback.phrase import marked
from biofeedback.session.lowering import PairMissing
from biofeedback.training.counting import counted
from biofeedback.training.lowering import Told
from biofeedback.training.prescription import BandOn
from biofeedback.training.reference import cautions
from biofeedback.training.reference_words import age_words, described, in_words
from biofeedback.training.task import Sides

if TYPE_CHECKING:
    from datetime import date

    from biofeedback.measures.eccentric_check import (
        EccentricCheck,
        LineFound,
        MassLine,
        PartCheck,
    )
    from biofeedback.session.lowering import Floor
    from biofeedback.training.athlete import BodyMass
    from biofeedback.training.lowering import RepLine
    from biofeedback.training.reference import Reference
    from biofeedback.training.task import Task

_TOLD: dict[Told, str] = {
    Told.KEPT: marked("Above the floor all the way down"),
    Told.BROKE: marked(
        "Above the floor for {above} of {tempo} s; the force broke at {broke} s",
    ),
    Told.PARTLY: marked("Above the floor for {above} of {tempo} s"),
    Told.UNDER: marked("Under the floor this time; {floor} N is the floor"),
    Told.DROPPED: marked(
        "That went down fast; next time brake softly right from the top"
    ),
    Told.STOPPED: marked("Stopped; above the floor for {above} s"),
    Told.MISSING: marked(
        "Part of the signal is missing; above the floor for {above} s at least",
    ),
}
_READINGS: dict[Reading, str] = {
    Reading.NOT_AS_MEANT: marked(
        "The rep was not done as meant, or the effort was small."
    ),
    Reading.STRENGTH: marked("Eccentric strength is lacking."),
    Reading.BODY_MASS: marked(
        "Body mass limits the exercise; outside load may be due.",
    ),
}
_PARTS: dict[Part, str] = {
    Part.TOTAL: marked("total"),
    Part.LEFT: marked("left"),
    Part.RIGHT: marked("right"),
}
_SIDES: dict[Sides, str] = {
    Sides.LEFT: marked("left side"),
    Sides.RIGHT: marked("right side"),
    Sides.BOTH: marked("both sides"),
}
_MISSING: dict[PairMissing, str] = {
    PairMissing.NO_PAIR: marked(
        "The task names no isometric partner. Choose one in the task."
    ),
    PairMissing.NOT_TESTED: marked(
        "The isometric partner was not tested with these sides yet. Test it, or type "
        "a floor.",
    ),
}


# A rep ----------------------------------------------------------------------------


def told_words(line: RepLine) -> str:
    """The one thing that is said of a rep."""
    rep = line.rep
    floor = plain_number(rep.floor_n)
    words = said(
        _TOLD[line.told],
        above=_seconds(rep.above_s),
        tempo=plain_number(rep.tempo_s),
        broke="–" if rep.break_after_s is None else _seconds(rep.break_after_s),
        floor=floor,
    )
    if line.told is Told.UNDER and rep.floor_each:
        words += " " + tr("on each side")
    return words


def number_words(line: RepLine) -> str:
    """Peak, time and impulse above the floor, the break and the shares, in a row."""
    rep = line.rep
    parts = []
    if rep.peak_n is not None and rep.peak_after_s is not None:
        parts.append(
            tr("peak {n} N at {s} s").format(
                n=f"{rep.peak_n:.0f}", s=_seconds(rep.peak_after_s)
            )
        )
    parts.append(
        tr("{s} s and {ns} N·s above the floor").format(
            s=_seconds(rep.above_s), ns=f"{rep.above_ns:.0f}"
        )
    )
    if rep.break_after_s is not None:
        parts.append(tr("broke at {s} s").format(s=_seconds(rep.break_after_s)))
    if rep.left_share_pct is not None:
        left = round(rep.left_share_pct)
        parts.append(
            tr("left {left} %, right {right} %").format(left=left, right=100 - left)
        )
    # A figure and its unit stay together where the line is broken.
    return ", ".join(parts).replace(" %", "\u00a0%")


def rep_line_words(line: RepLine) -> str:
    """Both in one line."""
    return f"{told_words(line)} ({number_words(line)})"


def _seconds(seconds: float) -> str:
    return localised(f"{max(0.0, seconds):.1f}")


# A floor ----------------------------------------------------------------------------


def floor_words(
    floor: Floor, task: Task, band_on: BandOn, *, today: date
) -> tuple[str, ...]:
    """The floor, the peak it is of, and what speaks against that peak.

    Origin, definition and date of the peak stand beside the reference.
    """
    age = shown(age_words(floor.age_days))
    words = tr(
        "Floor {n} N: {pct} % of the isometric peak of {tested}, {age}, {sides}."
    ).format(
        n=plain_number(floor.force_n(band_on)),
        pct=plain_number(floor.pct),
        tested=task_title(floor.task),
        age=age,
        sides=said(_SIDES[task.sides]),
    )
    if band_on is BandOn.EACH_SIDE:
        words += " " + tr("Each side has half of it.")
    return (words, *against_words(floor.reference, task, today=today))


def peak_words(
    reference: Reference, task: Task, *, today: date, tested: str = ""
) -> str:
    """A peak with its origin, date, age and sides."""
    words = shown(described(reference, today=today, note=tested))
    return f"{words}, {said(_SIDES[task.sides])}"


def against_words(reference: Reference, task: Task, *, today: date) -> tuple[str, ...]:
    """What speaks against a reference, a sentence each."""
    return tuple(
        shown(in_words(caution, reference, task, today=today))
        for caution in cautions(reference, task, today=today)
    )


# The check --------------------------------------------------------------------------


def missing_words(missing: PairMissing) -> str:
    """Why there is no isometric peak, and what to do."""
    return said(_MISSING[missing])


def reading_words(reading: Reading) -> str:
    """One thing that the numbers may mean."""
    return said(_READINGS[reading])


def part_words(part: Part) -> str:
    """Total, left or right."""
    return said(_PARTS[part])


def finding_words(check: EccentricCheck) -> str:
    """What the numbers are, in a sentence."""
    if check.too_far_apart:
        return filled(
            tr(
                "The two results are {days} apart, more than is set ({most}). Nothing "
                "is read into them."
            ),
            days=counted(check.days_apart, "day"),
            most=counted(check.settings.within_days, "day"),
        )
    if not check.not_above:
        return tr("The eccentric peak is above the isometric peak.")
    parts = ", ".join(part_words(part) for part in check.not_above)
    return tr("The eccentric peak is not above the isometric peak: {parts}.").format(
        parts=parts
    )


def readings_title() -> str:
    """What stands above the three readings."""
    return tr("What this may mean; the numbers do not say which:")


def difference_words(check: PartCheck) -> str:
    """The difference in N and %, and whether noise alone may explain it."""
    by_n = signed_number(check.difference_n, digits=0)
    by_pct = signed_number(check.difference_pct, digits=0)
    words = f"{by_n} N, {by_pct} %"
    if check.noise_n is None:
        return words
    within = (
        tr("within noise of ± {n} N")
        if check.within_noise
        else tr("more than noise of ± {n} N")
    )
    return f"{words},\n" + within.format(n=f"{check.noise_n:.0f}")


def force_words(force_n: float, per_kg: float | None) -> str:
    """A force, and by body mass where that is known."""
    words = f"{force_n:.0f} N"
    return words if per_kg is None else localised(f"{words}, {per_kg:.1f} N/kg")


def mass_words(mass: BodyMass | None) -> str:
    """By which body mass forces are divided, to follow other words."""
    if mass is None:
        return ""
    return tr("; body mass {kg} kg ({date})").format(
        kg=plain_number(mass.mass_kg), date=mass.date
    )


def line_words(line: MassLine, found: tuple[LineFound, ...]) -> str:
    """One line, where it comes from, and how the isometric peaks stand to it."""
    words = tr("{force} N, {name} ({source})").format(
        force=plain_number(line.force_n), name=said(line.name), source=said(line.source)
    )
    stands = [
        f"{part_words(one.part)} {one.isometric_n:.0f} N "
        + (tr("reaches it") if one.reached else tr("is under it"))
        for one in found
        if one.line == line
    ]
    return f"{words}: " + (", ".join(stands) or tr("no such peak is known"))
