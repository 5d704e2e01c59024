"""What to do where an optional package is missing."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from biofeedback.phrase import phrase

if TYPE_CHECKING:
    from biofeedback.phrase import Phrase


def install_with(package: str) -> Phrase:
    """The next step: a bare `pip` may be that of another Python."""
    return phrase(
        "Install it with: {python} -m pip install {package}",
        python=sys.executable,
        package=package,
    )
