"""Names of the example plans and of their stages, as phrases.

Kept in English, as the names of tasks are (`task_names`); what somebody typed is as it
was typed.
"""

from __future__ import annotations

from biofeedback.phrase import phrase

SHOULDER = phrase("Example: shoulder after a repair, in stages")
SHOULDER_EARLY = phrase("Early: low holds by pain")
SHOULDER_LATER = phrase("Later: 70 % for 10 s")
TENDON = phrase("Example: tendon, conservative")
TENDON_CALM = phrase("Calm it: 10–20 %")
TENDON_HOLD = phrase("Hold it: 30 s")
TENDON_LOAD = phrase("Load it: at least 80 % for 10 to 20 s")
DAILY = phrase("Example: long daily holds at 15–20 %")
DAILY_EACH = phrase("Each day")
SHORT = phrase("Invented example: short calf holds, both sides")
SHORT_LOW = phrase("Start: 25–40 % for 10 s")
SHORT_LONGER = phrase("Go on: 40–55 % for 20 s")

PLAN_TEXTS = (
    SHOULDER,
    SHOULDER_EARLY,
    SHOULDER_LATER,
    TENDON,
    TENDON_CALM,
    TENDON_HOLD,
    TENDON_LOAD,
    DAILY,
    DAILY_EACH,
    SHORT,
    SHORT_LOW,
    SHORT_LONGER,
)
_KNOWN: dict[str, str] = {text: text for text in PLAN_TEXTS}


def plan_words(text: str) -> str:
    """The name of a plan or a stage; one that the program gave is a phrase."""
    return _KNOWN.get(text, text)
