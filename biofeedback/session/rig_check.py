"""The check of the rig, for its page: not loaded before it is wanted."""

from biofeedback.rig.check import Check, HealthReport
from biofeedback.rig.check import Step as CheckStep
from biofeedback.rig.verdict import State as CheckState
from biofeedback.rig.verdict import Verdict

__all__ = ["Check", "CheckState", "CheckStep", "HealthReport", "Verdict"]
