"""Stop rules and cautions, in words.

The same text stands in the program and in the README. It is no medical advice: what the
treating clinician says and what holds where one works goes before it.

Sources: breath and pressure, Phys. Ther. 69 (1989) 757; pressure in wall squats of men
with high blood pressure, and the two values at which exercise is stopped, as they are
used in PMC5882444. Pain: Thomeé, Phys. Ther. 77 (1997) 1690; Silbernagel et al., Am. J.
Sports Med. 35 (2007) 897, the rule at second hand. Parts marked “from memory” have no
source that was read.
"""

from __future__ import annotations

from dataclasses import dataclass

from biofeedback.phrase import phrase
from biofeedback.training.feedback import PAIN_CUT


@dataclass(frozen=True, slots=True)
class Cautions:
    """One part of the text.

    Attributes:
        from_memory: whether the lines have no source that was read.
    """

    title: str
    lines: tuple[str, ...]
    from_memory: bool = False


LEAD = phrase(
    "The program measures and advises. The practitioner decides; what the treating "
    "clinician says and local rules go first. When in doubt: stop."
)

CAUTIONS = (
    Cautions(  # from memory
        phrase("Stop at once"),
        (
            phrase(
                "Chest pain, or pain in jaw or arm; short breath that does not settle."
            ),
            phrase("Dizziness, feeling faint, blurred vision, sudden headache."),
            phrase("Sudden, sharp or popping pain."),
            phrase("New numbness, tingling or weakness."),
            phrase(
                "Pain above the agreed cut ({cut} of 10 unless you set another).",
                cut=PAIN_CUT,
            ),
            phrase("The position is lost, or a strap or pad slips."),
            phrase("Marked shaking with the breath held."),
        ),
        from_memory=True,
    ),
    Cautions(
        phrase("Breathe"),
        (
            phrase(
                "Breathe freely through every hold. Breath that is held raises blood "
                "pressure: people taught not to hold it in isometric knee work had "
                "148/112 in place of 163/120 mmHg (Phys Ther 1989;69:757)."
            ),
            phrase(
                "Hard holds raise it all the same: in wall squats of men with high "
                "blood pressure the upper value was 173 ± 21 mmHg, and the lower one "
                "above 115 in 12 of 26 (PMC5882444). Values named for stopping "
                "exercise there are 250 and 115 mmHg."
            ),
        ),
    ),
    Cautions(  # from memory
        phrase("Ask a doctor before starting"),
        (
            phrase(
                "High blood pressure that is not under control (180/110 mmHg or more)."
            ),
            phrase("Recent heart attack, unstable angina, heart failure, an aneurysm."),
            phrase("Eye disease with new vessels, recent eye or hernia surgery."),
            phrase(
                "A fresh fracture, tendon rupture or repair: within the surgeon's "
                "limits."
            ),
            phrase(
                "A muscle strain in its first two or three days; an infection or fever."
            ),
            phrase("Pregnancy with complications."),
        ),
        from_memory=True,
    ),
    Cautions(
        phrase("Pain"),
        (
            phrase(
                "Pain is asked for before, during and after, from 0 to 10. Up to "
                "{cut} is often taken as acceptable where it has gone by the next "
                "morning (Thomeé 1997; Silbernagel 2007). Sources differ, so the "
                "cut can be changed; it is advice and no permission.",
                cut=PAIN_CUT,
            ),
            phrase("A change of one point on one day is not a finding."),
        ),
    ),
    Cautions(  # common practice, no source
        phrase("At the rig"),
        (
            phrase("Straps must come off fast. The stop key always works."),
            phrase(
                "Never load a cell beyond its rating; the ceiling warns, it does not "
                "hold."
            ),
            phrase("Newtons of a rig that was not calibrated are a guess."),
        ),
    ),
)
FROM_MEMORY = phrase("These lines have no source that was read; they are common lists.")


def as_text() -> str:
    """The whole text as a README has it."""
    parts: list[str] = [LEAD]
    for part in CAUTIONS:
        note = (
            f" ({FROM_MEMORY[0].lower()}{FROM_MEMORY[1:-1]})"
            if part.from_memory
            else ""
        )
        parts.append(f"**{part.title}**{note}")
        parts.append("\n".join(f"- {line}" for line in part.lines))
    return "\n\n".join(parts)
