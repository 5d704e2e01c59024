"""The starter list: five tasks to begin with, in plain anatomical words.

Positions are examples of ours, to be changed to what is on the rig. Where the arm of
a lever was not measured there is none, and no torque.
"""

from __future__ import annotations

from biofeedback.training import task_names
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind

STARTER_TASKS = (
    Task(
        task_names.SHOULDER_OUTWARDS,
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
        task_names.HIP_ADDUCTION,
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
        task_names.KNEE_FLEXION,
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
        task_names.HAMSTRING_LOWERING,
        TaskKind.LOWERING,
        Sides.BOTH,
        Setup(
            joint=Joint.KNEE,
            movement="extension against the hamstrings",
            site="straps above both ankles",
            posture="kneeling, trunk and thighs in line",
        ),
        pair=task_names.KNEE_FLEXION,
    ),
    Task(
        task_names.SEATED_CALF,
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
