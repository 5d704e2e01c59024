"""The words and marks of the screen, each explained in plain words.

The sheet of keys and words lists them all; tables show them as tips.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from biofeedback.gui.language import filled, plain_number, tr
from biofeedback.phrase import phrase
from biofeedback.training.events import Outcome

if TYPE_CHECKING:
    from biofeedback.training.events import RestCut, SetState

_ENDS: dict[str, str] = {
    "another board": phrase("another board"),
    "closed": phrase("closed"),
    "complete": phrase("complete"),
    "cut short": phrase("cut short"),
    "end of recording": phrase("end of recording"),
    "enough trials": phrase("enough trials"),
    "pain": phrase("stopped for pain"),
    "source failed": phrase("source failed"),
    "stop": phrase("stopped at the desk"),
    "the force was never let go": phrase("the force was never let go"),
    "visit ended": phrase("the visit was ended"),
    "window closed": phrase("the window was closed"),
}
"""What a recording says of the end of a set, as it is told of a set that is over."""


def rest_words(template: str, cut: RestCut, **more: object) -> str:
    """A template that tells how much was taken of a rest that was cut short."""
    taken, asked = plain_number(cut.taken_s, digits=0), plain_number(cut.asked_s)
    return template.format(taken=taken, asked=asked, **more)


def end_words(reason: str) -> str:
    """Why a set ended; what somebody typed is as it was typed."""
    return _ENDS.get(reason, reason)


def over_words(reason: str, state: SetState | None, *, test: bool = False) -> str:
    """That a set is over, and why; how many reps were complete where all were done.

    Args:
        state: of the set that is over, or None.
        test: whether it was that of a maximal test, whose reps nobody asked for.
    """
    if test or reason == "enough trials":
        return filled(tr("The test is over: {reason}."), reason=end_words(reason))
    if reason != "complete" or state is None or len(state.outcomes) < state.reps:
        return filled(tr("The set is over: {reason}."), reason=end_words(reason))
    words = tr("The set is over: all reps were done, {complete} of {reps} complete.")
    complete = state.outcomes.count(Outcome.COMPLETE)
    return words.format(complete=complete, reps=state.reps)


MARKS = (
    (phrase("Hollow, dashed"), phrase("The left side, everywhere.")),
    (phrase("Filled, solid"), phrase("The right side, everywhere.")),
    (phrase("Disc on the path"), phrase("The force now, inside the band.")),
    (
        phrase("Triangle on the path"),
        phrase("The force now, outside; it points to the band."),
    ),
    (phrase("Ring on the path"), phrase("The force now, while nothing is asked for.")),
    (phrase("Dense band"), phrase("The force was inside; hatched: it was outside.")),
    (
        phrase("Line with teeth"),
        phrase("The ceiling: a force that must not be passed."),
    ),
    (
        phrase("Notch in the timer"),
        phrase("A lapse: where the clock stood when the band was left."),
    ),
    (
        phrase("Rep marks"),
        phrase(
            "Small ring: to come. Ring with a dot: under way. Full disc: complete. "
            "Half disc: short. Square with a bar: stopped. Cross: void."
        ),
    ),
)
"""Each mark and what it tells."""

WORDS = (
    (phrase("band"), phrase("From the lower to the upper edge, both belong to it.")),
    (
        phrase("reference"),
        phrase("The force that is 100 %, with where it comes from and its date."),
    ),
    (
        phrase("points of the reference"),
        phrase("± 10 points around 70 % reach from 60 to 80 % of the reference."),
    ),
    (
        phrase("% of the centre"),
        phrase("± 10 % of a centre of 168 N is ± 16.8 N, whatever the reference is."),
    ),
    (phrase("hold"), phrase("Time in the band that is asked for.")),
    (phrase("unbroken"), phrase("The clock starts again after a lapse.")),
    (phrase("banked"), phrase("The clock adds up all time in the band.")),
    (
        phrase("running"),
        phrase("The clock counts on from the first entry, whatever happens."),
    ),
    (phrase("lapse"), phrase("Leaving the band for longer than the grace time.")),
    (phrase("nudge"), phrase("Moving the band during a set; each one is kept.")),
    (
        phrase("unseen"),
        phrase("The force is withheld during the rep and shown after it."),
    ),
    (
        phrase("only outside the band"),
        phrase("The force is hidden while it is inside."),
    ),
    (
        phrase("fading"),
        phrase("In each session fewer reps are seen: all, ¾, half, a quarter."),
    ),
    (
        phrase("balance"),
        phrase("How far a side may be from 50 % of the total, in points."),
    ),
    (phrase("complete"), phrase("The clock reached the hold.")),
    (
        phrase("short"),
        phrase("The force was let go before the clock reached the hold."),
    ),
    (phrase("stopped"), phrase("Ended by the stop key, or with the set.")),
    (phrase("void"), phrase("Does not count.")),
    (
        phrase("judged"),
        phrase("The force that the band applies to: total, or the working side."),
    ),
    (
        phrase("inside"),
        phrase("Time in the band, from the start to the end of the hold."),
    ),
    (
        phrase("surely inside"),
        phrase("Time so far in the band that the rig's uncertainty does not matter."),
    ),
    (phrase("below"), phrase("Time under the lower edge.")),
    (phrase("above"), phrase("Time over the upper edge.")),
    (
        phrase("unbalanced"),
        phrase("Time in the band, out of balance, where balance is asked for."),
    ),
    (phrase("paused"), phrase("Time without a usable signal; the clock stood.")),
    (
        phrase("time to enter"),
        phrase("From the start of the rep to its first entry into the band."),
    ),
    (
        phrase("overshoot"),
        phrase("How far the force went past the upper edge on its way in."),
    ),
    (phrase("peak"), phrase("The highest force of the hold.")),
    (phrase("impulse"), phrase("Force times time, added up over the hold, in N·s.")),
    (phrase("dose"), phrase("The same in % of the reference times seconds, in %·s.")),
    (
        phrase("floor"),
        phrase("Of a lowering: the force to stay above all the way down."),
    ),
    (
        phrase("above floor"),
        phrase("Time above the floor, or the impulse of the force over it."),
    ),
    (
        phrase("lowering peak"),
        phrase("The highest force of a lowering, from start to letting go."),
    ),
    (phrase("lowering mean"), phrase("Mean force from the first entry to the break.")),
    (
        phrase("break after"),
        phrase("From the start to where the force begins to fall for good."),
    ),
    (phrase("fall"), phrase("How fast the force fell from there to half, in N per s.")),
    (phrase("trial"), phrase("From the start to the end of a maximal trial.")),
    (phrase("trial peak"), phrase("The highest force of a maximal trial.")),
    (phrase("best half s"), phrase("The highest mean over 0.5 s of a maximal trial.")),
    (phrase("best 1 s"), phrase("The highest mean over 1 s of a maximal trial.")),
    (
        phrase("practice score"),
        phrase("The result of a first session with a task, not yet learnt."),
    ),
    (
        phrase("typical error"),
        phrase(
            "How far one person's results scatter from visit to visit without a change."
        ),
    ),
    (phrase("mean"), phrase("Mean force from the first entry to the end of the hold.")),
    (
        phrase("median"),
        phrase("Half of the time the force was higher, half of it lower."),
    ),
    (
        phrase("CV"),
        phrase("CV, coefficient of variation: SD of the force in % of its mean."),
    ),
    (
        phrase("CV detrended"),
        phrase("The CV after a straight line was taken out: unsteadiness alone."),
    ),
    (phrase("slope"), phrase("How the force drifted during the hold, in N per s.")),
    (
        phrase("CE"),
        phrase("CE, constant error: the mean distance from the centre, with its sign."),
    ),
    (
        phrase("VE"),
        phrase("VE, variable error: the SD of the distance from the centre."),
    ),
    (
        phrase("AE"),
        phrase("AE, absolute error: the mean distance from the centre, without sign."),
    ),
    (
        phrase("RMSE"),
        phrase(
            "RMSE, root mean square error: distance from the centre, squared, mean, "
            "root. RMSE² = CE² + VE²."
        ),
    ),
    (phrase("left share"), phrase("The left side's part of the total force.")),
    (phrase("right share"), phrase("The right side's part of the total force.")),
    (
        phrase("symmetry index"),
        phrase("How unlike the sides were, by the formula beside it."),
    ),
    (
        phrase("E² = CE² + VE²"),
        phrase("Total error squared: its constant and its variable part add up to it."),
    ),
    (
        phrase("symmetry formula"),
        phrase("Both sides at once. One side at a time uses 100 (max − min)/max."),
    ),
    (
        phrase("power"),
        phrase("Variance of the force without its line, over all frequencies."),
    ),
    (phrase("power 0–4 Hz"), phrase("Of the power, from 0 to under 4 Hz: slow drift.")),
    (phrase("power 4–8 Hz"), phrase("Of the power, from 4 to under 8 Hz.")),
    (
        phrase("power 8–12 Hz"),
        phrase("Of the power, from 8 to under 12 Hz. No diagnosis of tremor."),
    ),
    (
        phrase("spectrum"),
        phrase("How the power of the wavering is shared between slow and quick."),
    ),
    (
        phrase("rate of force"),
        phrase("How fast the force rises from its onset, in N per s."),
    ),
    (
        phrase("RFD 0–50 ms"),
        phrase("Rise of the force in the first 50 ms from its onset, over the time."),
    ),
    (phrase("RFD 0–100 ms"), phrase("The same in the first 100 ms.")),
    (phrase("RFD 0–200 ms"), phrase("The same in the first 200 ms.")),
    (
        phrase("RFD steepest"),
        phrase("The steepest 20 ms of the first 250 ms. Scatters much more than peak."),
    ),
    (
        phrase("impulse 0–100 ms"),
        phrase("Impulse over the force at rest, first 100 ms from the onset."),
    ),
    (
        phrase("impulse 0–200 ms"),
        phrase("Impulse over the force at rest, first 200 ms from the onset."),
    ),
    (phrase("rise onset"), phrase("Where the force began to rise: for rates only.")),
    (phrase("onset method"), phrase("How the onset of the rise was found.")),
    (phrase("lapses"), phrase("How often the band was left for longer than grace.")),
    (phrase("lost"), phrase("Samples that never came.")),
    (phrase("samples"), phrase("Good samples of the hold: the n of all errors.")),
    (
        phrase("not filtered"),
        phrase("Calibrated and zeroed force, without the live filter."),
    ),
    (phrase("shown force"), phrase("After the live filter: what the rules judge.")),
    (phrase("gaps"), phrase("Breaks in the signal.")),
    (
        phrase("pain in or after the set"),
        phrase("The most that was told in or right after the set of this rep."),
    ),
    (
        phrase("saturated"),
        phrase("Samples at the end of the converter's range: no force is known."),
    ),
    (
        phrase("zero drift"),
        phrase("How far the force at rest moved from before to after the rep."),
    ),
    (phrase("rated peak"), phrase("The highest force in % of the cell's rated load.")),
    (phrase("nominal"), phrase("Worked out from the cell's rating, never calibrated.")),
)
"""Each word and what it means; the names of measures as the tables write them."""

_BY_NAME = {word.lower(): meaning for word, meaning in WORDS}


def tip_of(name: str) -> str:
    """What a title or a measure means; empty where it needs no words.

    Args:
        name: as a table writes it, also with its unit ("CV, %") or group
            ("steadiness: cv").
    """
    plain = name.partition(",")[0].rpartition(": ")[2].strip().lower()
    return _BY_NAME.get(plain, "")
