"""The words and marks of the screen, each explained in plain words.

The sheet of keys and words lists them all; tables show them as tips.
"""

from __future__ import annotations

MARKS = (
    ("Hollow, dashed", "The left side, everywhere."),
    ("Filled, solid", "The right side, everywhere."),
    ("Disc on the path", "The force now, inside the band."),
    ("Triangle on the path", "The force now, outside; it points to the band."),
    ("Ring on the path", "The force now, while nothing is asked for."),
    ("Dense band", "The force was inside; hatched: it was outside."),
    ("Line with teeth", "The ceiling: a force that must not be passed."),
    ("Notch in the timer", "A lapse: where the clock stood when the band was left."),
    (
        "Rep marks",
        "Small ring: to come. Ring with a dot: under way. Full disc: complete. Half "
        "disc: short. Square with a bar: stopped. Cross: void.",
    ),
)
"""Each mark and what it tells."""

WORDS = (
    ("band", "From the lower to the upper edge, both belong to it."),
    ("reference", "The force that is 100 %, with where it comes from and its date."),
    (
        "points of the reference",
        "± 10 points around 70 % reach from 60 to 80 % of the reference.",
    ),
    (
        "% of the centre",
        "± 10 % of a centre of 168 N is ± 16.8 N, whatever the reference is.",
    ),
    ("hold", "Time in the band that is asked for."),
    ("unbroken", "The clock starts again after a lapse."),
    ("banked", "The clock adds up all time in the band."),
    ("running", "The clock counts on from the first entry, whatever happens."),
    ("lapse", "Leaving the band for longer than the grace time."),
    ("nudge", "Moving the band during a set; each one is kept."),
    ("unseen", "The force is withheld during the rep and shown after it."),
    ("only outside the band", "The force is hidden while it is inside."),
    ("fading", "In each session fewer reps are seen: all, ¾, half, a quarter."),
    ("balance", "How far a side may be from 50 % of the total, in points."),
    ("complete", "The clock reached the hold."),
    ("short", "The force was let go before the clock reached the hold."),
    ("stopped", "Ended by the stop key, or with the set."),
    ("void", "Does not count."),
    ("judged", "The force that the band applies to: total, or the working side."),
    ("inside", "Time in the band, from the start to the end of the hold."),
    (
        "surely inside",
        "Time so far in the band that the rig's uncertainty does not matter.",
    ),
    ("below", "Time under the lower edge."),
    ("above", "Time over the upper edge."),
    ("unbalanced", "Time in the band, out of balance, where balance is asked for."),
    ("paused", "Time without a usable signal; the clock stood."),
    ("time to enter", "From the start of the rep to its first entry into the band."),
    ("overshoot", "How far the force went past the upper edge on its way in."),
    ("peak", "The highest force of the hold."),
    ("impulse", "Force times time, added up over the hold, in N·s."),
    ("dose", "The same in % of the reference times seconds, in %·s."),
    ("floor", "Of a lowering: the force to stay above all the way down."),
    ("above floor", "Time above the floor, or the impulse of the force over it."),
    ("lowering peak", "The highest force of a lowering, from start to letting go."),
    ("lowering mean", "Mean force from the first entry to the break."),
    ("break after", "From the start to where the force begins to fall for good."),
    ("fall", "How fast the force fell from there to half, in N per s."),
    ("trial", "From the start to the end of a maximal trial."),
    ("trial peak", "The highest force of a maximal trial."),
    ("best half s", "The highest mean over 0.5 s of a maximal trial."),
    ("best 1 s", "The highest mean over 1 s of a maximal trial."),
    ("practice score", "The result of a first session with a task, not yet learnt."),
    (
        "typical error",
        "How far one person's results scatter from visit to visit without a change.",
    ),
    ("mean", "Mean force from the first entry to the end of the hold."),
    ("median", "Half of the time the force was higher, half of it lower."),
    ("CV", "CV, coefficient of variation: SD of the force in % of its mean."),
    ("CV detrended", "The CV after a straight line was taken out: unsteadiness alone."),
    ("slope", "How the force drifted during the hold, in N per s."),
    ("CE", "CE, constant error: the mean distance from the centre, with its sign."),
    ("VE", "VE, variable error: the SD of the distance from the centre."),
    ("AE", "AE, absolute error: the mean distance from the centre, without sign."),
    (
        "RMSE",
        "RMSE, root mean square error: distance from the centre, squared, mean, "
        "root. RMSE² = CE² + VE².",
    ),
    ("left share", "The left side's part of the total force."),
    ("right share", "The right side's part of the total force."),
    ("symmetry index", "How unlike the sides were, by the formula beside it."),
    ("gaps", "Breaks in the signal."),
    ("saturated", "Samples at the end of the converter's range: no force is known."),
    ("zero drift", "How far the force at rest moved from before to after the rep."),
    ("rated peak", "The highest force in % of the cell's rated load."),
    ("nominal", "Worked out from the cell's rating, never calibrated."),
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
