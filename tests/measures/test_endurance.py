"""Endurance times, against the table worked out from Frey Law & Avin 2010.

The expected times are of the sheet `endurance_freylaw_avin_2010`: b0 and b1 of the
paper's Table 2 with times in seconds, worked out by another program.
"""

from __future__ import annotations

import pytest

from biofeedback.errors import FieldError
from biofeedback.measures.endurance import (
    Effort,
    Endurance,
    JointGroup,
    endurance,
    endurance_of,
    group_of,
    in_words,
    mean_endurance_s,
)
from biofeedback.training.band import Band
from biofeedback.training.prescription import Prescription
from biofeedback.training.reference import Definition, Origin, Reference
from biofeedback.training.task import Joint, Setup, Sides, Task, TaskKind

PCT = (10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 100)
TIMES_S = {
    JointGroup.GENERAL: (2093.344, 937.95, 530.641, 341.13, 237.761, 134.512,
                         86.473, 60.27, 44.417, 34.097, 27.005, 21.92),
    JointGroup.ANKLE: (3985.241, 1728.648, 955.725, 603.529, 414.558, 229.198,
                       144.736, 99.418, 72.369, 54.965, 43.124, 34.71),
    JointGroup.TRUNK: (4225.076, 1683.09, 875.984, 527.85, 348.955, 181.618,
                       109.439, 72.349, 50.987, 37.655, 28.821, 22.69),
    JointGroup.ELBOW: (2916.015, 1190.222, 630.251, 384.895, 257.248, 136.219,
                       83.189, 55.6, 39.548, 29.442, 22.694, 17.98),
    JointGroup.HAND: (1366.761, 711.518, 447.749, 312.614, 233.092, 146.682,
                      102.412, 76.361, 59.578, 48.053, 39.752, 33.55),
    JointGroup.KNEE: (1470.123, 685.965, 399.409, 262.559, 186.366, 108.513,
                      71.333, 50.633, 37.894, 29.481, 23.625, 19.38),
    JointGroup.SHOULDER: (1004.659, 478.379, 282.575, 187.84, 134.551, 79.478,
                          52.833, 37.844, 28.542, 22.354, 18.02, 14.86),
}  # fmt: skip


def found(joint: Joint, pct: float, hold_s: float) -> Endurance:
    one = endurance(joint, intensity_pct=pct, hold_s=hold_s)
    assert one is not None
    return one


@pytest.mark.parametrize("group", JointGroup)
def test_the_whole_table(group: JointGroup) -> None:
    for pct, time_s in zip(PCT, TIMES_S[group], strict=True):
        assert mean_endurance_s(group, pct) == pytest.approx(time_s, abs=0.0006)


@pytest.mark.parametrize(
    ("hold_s", "pct", "joint", "share_pct"),
    [
        (45, 80, Joint.KNEE, 152.6),
        (45, 80, Joint.SHOULDER, 201.3),
        (45, 80, Joint.ANKLE, 81.9),
        (45, 80, Joint.HAND, 93.6),
        (45, 80, Joint.OTHER, 132.0),
        (45, 70, Joint.SHOULDER, 157.7),
        (45, 70, Joint.KNEE, 118.8),
        (45, 70, Joint.ELBOW, 113.8),
        (45, 70, Joint.HIP, 101.3),
        (45, 70, Joint.TRUNK, 88.3),
        (45, 70, Joint.ANKLE, 62.2),
        (120, 30, Joint.KNEE, 64.4),
        (120, 30, Joint.SHOULDER, 89.2),
        (30, 50, Joint.SHOULDER, 56.8),
        (10, 90, Joint.SHOULDER, 55.5),
    ],
)
def test_prescriptions_beside_the_mean(
    hold_s: float, pct: float, joint: Joint, share_pct: float
) -> None:
    assert found(joint, pct, hold_s).share_pct == pytest.approx(share_pct, abs=0.051)


@pytest.mark.parametrize("pct", [9.99, 100.01, 0, -5])
def test_nothing_is_told_where_nobody_measured(pct: float) -> None:
    assert endurance(Joint.KNEE, intensity_pct=pct, hold_s=30) is None
    with pytest.raises(FieldError):
        mean_endurance_s(JointGroup.KNEE, pct)


def test_joints_without_times_are_compared_with_all_and_it_is_said() -> None:
    for joint in Joint:
        own = joint not in {Joint.HIP, Joint.OTHER}
        assert found(joint, 50, 10).own_group is own
        assert (group_of(joint) is JointGroup.GENERAL) is not own
    words = in_words(found(Joint.HIP, 70, 45))
    assert "all joints together" in words
    assert "at the hip" not in words


def test_where_the_words_change() -> None:
    mean_s = mean_endurance_s(JointGroup.KNEE, 70)
    for share, effort in (
        (0.599, Effort.FINE),
        (0.6001, Effort.HARD),
        (1.0, Effort.HARD),
        (1.001, Effort.LONGER),
    ):
        assert found(Joint.KNEE, 70, share * mean_s).effort is effort


def test_the_words_are_calm_and_state_the_spread() -> None:
    assert in_words(found(Joint.SHOULDER, 70, 45)) == (
        "45 s is longer than most people hold 70 % at the shoulder; expect the force "
        "to fall. It is 158 % of the published mean, 28.5 s; people differ by ± 29 to "
        "47 %."
    )
    assert in_words(found(Joint.KNEE, 30, 120)).startswith(
        "120 s at 30 % is hard: 64 %"
    )
    assert in_words(found(Joint.KNEE, 20, 10)) == ""


def asked(
    band: Band,
    *,
    joint: Joint | None = Joint.KNEE,
    kind: TaskKind = TaskKind.HOLD,
    origin: Origin = Origin.OWN_SIDE,
) -> Prescription:
    return Prescription(
        Task("hold", kind, Sides.LEFT, Setup(joint=joint) if joint else None),
        band,
        45.0,
        reference=Reference(240.0, origin, Definition.BEST_1_S_MEAN, "2026-03-01"),
    )


def test_of_a_band_the_centre_counts_and_of_a_minimum_its_edge() -> None:
    band = endurance_of(asked(Band.from_percent(70, 90, reference_n=240)))
    least = endurance_of(asked(Band.at_least(0.8 * 240)))
    assert band is not None
    assert least is not None
    assert band.intensity_pct == least.intensity_pct == 80
    assert least.share_pct == pytest.approx(152.6, abs=0.051)


def test_a_task_without_a_position_is_compared_with_all_joints() -> None:
    one = endurance_of(asked(Band(160, 176), joint=None))
    assert one is not None
    assert one.group is JointGroup.GENERAL


def test_nothing_is_told_where_the_times_say_nothing() -> None:
    band = Band(160, 176)
    assert endurance_of(asked(band, kind=TaskKind.LOWERING)) is None
    assert endurance_of(asked(band, kind=TaskKind.MAXIMAL)) is None
    assert endurance_of(asked(band, origin=Origin.BODY_MASS)) is None
    assert endurance_of(Prescription(Task("hold"), band, 45.0)) is None
