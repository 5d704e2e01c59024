"""The F test: how likely a ratio of variances this large is by chance alone.

scipy is loaded when it is first asked for, which no live set does: a sixth of a
second that every start would pay.
"""

from __future__ import annotations


def f_tail(f: float, *, df: int, residual_df: int) -> float:
    """Probability of a ratio of `f` or more where the two variances are the same.

    Args:
        df: degrees of freedom of the variance above the line.
        residual_df: of the one below it.
    """
    from scipy import special  # noqa: PLC0415  see above

    return float(special.fdtrc(df, residual_df, f))
