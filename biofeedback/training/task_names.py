"""Names of the tasks that the program brings along, and their positions, as phrases.

They are kept in English, as everything is. Where a task is shown, such a text can be
put into another language; what somebody typed is as it was typed.
"""

from __future__ import annotations

from biofeedback.phrase import phrase

SHOULDER_OUTWARDS = phrase("Shoulder external rotation at the side")
SHOULDER_INWARDS = phrase("Shoulder internal rotation at the side")
HIP_ADDUCTION = phrase("Hip adduction in crook lying")
KNEE_FLEXION = phrase("Prone knee flexion")
KNEE_EXTENSION = phrase("Seated knee extension")
HAMSTRING_LOWERING = phrase("Slow kneeling lowering for the hamstrings")
SEATED_CALF = phrase("Seated calf")
CALF_PUSH = phrase("Seated calf push (invented)")
HOLD = phrase("Hold")

TASK_TEXTS = (
    SHOULDER_OUTWARDS,
    SHOULDER_INWARDS,
    HIP_ADDUCTION,
    KNEE_FLEXION,
    KNEE_EXTENSION,
    HAMSTRING_LOWERING,
    SEATED_CALF,
    CALF_PUSH,
    HOLD,
    # Movements.
    phrase("external rotation"),
    phrase("internal rotation"),
    phrase("adduction"),
    phrase("flexion"),
    phrase("extension"),
    phrase("extension against the hamstrings"),
    phrase("plantar flexion"),
    # Pads and straps.
    phrase("pad on the back of the forearm, above the wrist"),
    phrase("pads on the inner side of both knees"),
    phrase("strap above the heel"),
    phrase("straps above both ankles"),
    phrase("pad on the thigh, just above the knee"),
    phrase("pad on the shin, 5 cm above the outer ankle"),
    # Postures.
    phrase("sitting, elbow at the side and bent to 90°"),
    phrase("lying on the back, knees bent, feet flat"),
    phrase("lying face down, pelvis held"),
    phrase("kneeling, trunk and thighs in line"),
    phrase("sitting, knee bent to 90°, ball of the foot on the plate"),
    phrase("sitting, pelvis and thigh strapped"),
)
_KNOWN: dict[str, str] = {text: text for text in TASK_TEXTS}


def task_words(text: str) -> str:
    """The name or position of a task; one that the program gave is a phrase."""
    return _KNOWN.get(text, text)
