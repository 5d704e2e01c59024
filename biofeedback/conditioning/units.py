"""Other units of force, in newtons. Inside the program force is always newtons."""

from __future__ import annotations

NEWTONS_PER_KGF = 9.80665
"""Standard gravity, exact by definition (3rd CGPM, 1901)."""
NEWTONS_PER_LBF = 0.45359237 * NEWTONS_PER_KGF
"""The international pound, exact by definition (1959), under standard gravity."""
