"""The starter list: five tasks to begin with, in plain anatomical words.

Positions are examples of ours, to be changed to what is on the rig. Where the arm of
a lever was not measured there is none, and no torque.
"""

from __future__ import annotations

from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind

STARTER_TASKS = (
    Task(
        "Shoulder external rotation at the side",
        TaskKind.HOLD,
        Sides.LEFT,
        Setup(
            joint=Joint.SHOULDER,
            movement="external rotation",
            angle_deg=0.0,
            site="pad on the back of the forearm, above the wrist",
            posture="sitting, elbow at the side and bent to 90°",
        ),
    ),
    Task(
        "Hip adduction in crook lying",
        TaskKind.HOLD,
        Sides.BOTH,
        Setup(
            joint=Joint.HIP,
            movement="adduction",
            angle_deg=45.0,
            site="pads on the inner side of both knees",
            posture="lying on the back, knees bent, feet flat",
        ),
    ),
    Task(
        "Prone knee flexion",
        TaskKind.HOLD,
        Sides.LEFT,
        Setup(
            joint=Joint.KNEE,
            movement="flexion",
            angle_deg=30.0,
            site="strap above the heel",
            posture="lying face down, pelvis held",
        ),
    ),
    Task(
        "Slow kneeling lowering for the hamstrings",
        TaskKind.LOWERING,
        Sides.BOTH,
        Setup(
            joint=Joint.KNEE,
            movement="extension against the hamstrings",
            site="straps above both ankles",
            posture="kneeling, trunk and thighs in line",
        ),
        pair="Prone knee flexion",
    ),
    Task(
        "Seated calf",
        TaskKind.HOLD,
        Sides.BOTH,
        Setup(
            joint=Joint.ANKLE,
            movement="plantar flexion",
            angle_deg=0.0,
            site="pad on the thigh, just above the knee",
            posture="sitting, knee bent to 90°, ball of the foot on the plate",
        ),
    ),
)
