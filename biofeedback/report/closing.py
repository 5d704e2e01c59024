"""The closing parts of a report: how far its numbers can be trusted, and cautions.

Rig and calibration, what is not known, how each number is defined, and when to stop.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.measures.share import SHARE_NOISE_FORMULA
from biofeedback.measures.symmetry import ONE_SIDE_FORMULA, SIMULTANEOUS_FORMULA
from biofeedback.phrase import Phrase, joined, numbered, phrase, sentences
from biofeedback.report.sheet import Bullets, Heading, Paragraph
from biofeedback.training.cautions import CAUTIONS, LEAD
from biofeedback.training.reference import PAIN_MOST

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from biofeedback.measures.change import Noise
    from biofeedback.report.sheet import Part
    from biofeedback.session.report_facts import Cell, ReportFacts


def closing(facts: ReportFacts, *, all_cautions: bool) -> Iterator[Part]:
    """The closing parts, in their order.

    Args:
        all_cautions: whether more than the reasons to stop is printed.
    """
    yield from _rig(facts)
    yield from _unknown(facts)
    yield from _definitions(facts)
    yield from _cautions(all_cautions=all_cautions)


def _rig(facts: ReportFacts) -> Iterator[Part]:
    yield Heading(phrase("Rig and calibration"))
    rig = facts.rig
    if rig is None:
        yield Paragraph(phrase("Not known: no set of this period names its rig."))
        return
    board = phrase("board {number}", number=rig.serial_number)
    yield Paragraph(
        phrase(
            "“{rig}”, {board}, {rate:.0f} samples a second; zero: {zero}.",
            rig=rig.name,
            board=board if rig.serial_number else phrase("board not named"),
            rate=rig.rate_hz,
            zero=rig.zero,
        )
    )
    yield Bullets(tuple(_cell(cell) for cell in rig.cells))


def _cell(cell: Cell) -> Phrase:
    if not cell.date:
        return phrase(
            "{cell}: not calibrated (“{label}”); its newtons are a guess.",
            cell=cell.name,
            label=cell.label,
        )
    known = phrase("{cell}: calibration “{label}” of {day}",
                   cell=cell.name, label=cell.label, day=cell.date)  # fmt: skip
    if cell.expanded_n is None:
        return phrase("{known}; its uncertainty is not known.", known=known)
    return phrase(
        "{known}; uncertainty ± {expanded_n:.2g} N at {at_n:.0f} N (k = 2).",
        known=known,
        expanded_n=cell.expanded_n,
        at_n=cell.at_n,
    )


def _unknown(facts: ReportFacts) -> Iterator[Part]:
    yield Heading(phrase("What is not known"))
    practice = sum(one.practice for one in facts.trends)
    moved = sum(one.moved for one in facts.trends)
    lines: list[str] = [
        phrase("What was done on days without a visit; such a day is no zero."),
    ]
    for number, words in (
        (
            facts.visits - facts.pain_asked,
            phrase(
                "Pain on {number} of {visits} days with a set: it was not told.",
                number=facts.visits - facts.pain_asked,
                visits=facts.visits,
            ),
        ),
        (
            practice,
            numbered(
                practice,
                "How much of a first test was learning: 1 practice test is left out of "
                "charts and noise.",
                "How much of a first test was learning: {count} practice tests are "
                "left out of charts and noise.",
            ),
        ),
        (
            moved,
            numbered(
                moved,
                "How other positions or definitions compare: 1 such test is left out.",
                "How other positions or definitions compare: {count} such tests are "
                "left out.",
            ),
        ),
        (
            facts.not_closed,
            numbered(
                facts.not_closed,
                "How 1 set ended: its recording was cut off.",
                "How {count} sets ended: their recordings were cut off.",
            ),
        ),
    ):
        if number > 0:
            lines.append(words)
    if any(one.done.dose_pct_s is None for one in facts.lines):
        lines.append(
            phrase("The dose in % of sets without a reference, which shows as –.")
        )
    yield Bullets(tuple(lines))


def _definitions(facts: ReportFacts) -> Iterator[Part]:
    yield Heading(phrase("How each number is defined"))
    noises = [one.noise for one in facts.trends if one.noise is not None]
    yield Paragraph(joined(" ", _definition_lines(facts, noises)), quiet=True)


def _definition_lines(facts: ReportFacts, noises: Sequence[Noise]) -> Iterator[Phrase]:
    if facts.lines:
        yield phrase(
            "Complete rep: the clock of the hold reached the time asked for; void reps "
            "count nowhere. In the band: seconds between its edges. Planned: reps × "
            "hold; of a set outside a running order as it was begun, once where it was "
            "broken off and begun anew. Dose: force in % of the reference × seconds, "
            "the way into the band included."
        )
    if facts.trends:
        yield phrase(
            "Maximal test: the best of each visit, by the definition in the chart's "
            "title, from calibrated, zeroed, unfiltered force."
        )
    if noises:
        yield phrase(
            "Typical error: √(mean square difference of neighbouring visits / 2) from "
            "five visits on; of fewer, or of the club, the SD of a person's results, "
            "which training makes larger. Noise of a change between two tests: 1.96 × "
            "√2 × typical error (95 %). It is an estimate."
        )
    formulas = {one.formula for one in facts.symmetry}
    if SIMULTANEOUS_FORMULA in formulas:
        yield phrase(
            "Symmetry of both sides at once: {formula}, R and L in newtons, + is right "
            "heavier; its noise is 1.96 × its scatter from visit to visit.",
            formula=SIMULTANEOUS_FORMULA,
        )
    if ONE_SIDE_FORMULA in formulas:
        yield phrase(
            "Symmetry of one side at a time: {formula}, of tests of one day; its noise "
            "is 1.96 × √(e² + e²) of both sides' typical errors in %.",
            formula=ONE_SIDE_FORMULA,
        )
    if facts.shares:
        yield phrase(
            "Share: 100 × force / force of the other side of that visit, or of before "
            "the injury; noise of its change: {formula} by logarithms, e the typical "
            "errors in % (JCGM 100:2008, 5.1.2).",
            formula=SHARE_NOISE_FORMULA,
        )
    yield phrase("Pain: 0 none to {most} the worst, as told.", most=PAIN_MOST)


def _cautions(*, all_cautions: bool) -> Iterator[Part]:
    yield Heading(phrase("Cautions"))
    yield Paragraph(_known(LEAD))
    stop, breathe, *_ = CAUTIONS
    lines = (_known(line) for line in stop.lines)
    yield Paragraph(sentences(phrase("{title}:", title=_known(stop.title)), *lines))
    if all_cautions:
        yield Paragraph(_known(breathe.lines[0]))


def _known(text: str) -> Phrase:
    """A text that the catalogue has as it is."""
    return text if isinstance(text, Phrase) else Phrase(text, {})
