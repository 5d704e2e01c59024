"""What a start of the window must not load: each costs the athlete's first picture.

Seconds, each alone, on the machine this was written on: scipy.signal 0.65, scipy.stats
0.55, scipy.special 0.16, alembic 0.3. Who needs one loads it when it is asked for.
Reports, review, reliability and the check of the rig are 0.03 together.
"""

from __future__ import annotations

import subprocess
import sys

import pytest

START = "import sys, biofeedback.cli.window, biofeedback.gui.app; print(*sys.modules)"


@pytest.fixture(scope="module")
def loaded() -> set[str]:
    done = subprocess.run(  # noqa: S603  our own words, no one else's
        [sys.executable, "-c", START], capture_output=True, encoding="utf-8", check=True
    )
    return set(done.stdout.split())


@pytest.mark.parametrize(
    "module",
    [
        "scipy",
        "alembic",
        "pandas",
        "pyarrow",
        "biofeedback.gui.maximal_page",
        "biofeedback.gui.preferences_page",
        "biofeedback.measures.retest",
        "biofeedback.rig.check",
        "biofeedback.session.reports",
        "biofeedback.session.review",
    ],
)
def test_the_window_starts_without(module: str, loaded: set[str]) -> None:
    assert "biofeedback.gui.window" in loaded
    assert module not in loaded


def test_the_page_of_the_filter_opens_without_scipy() -> None:
    """It takes longer than all the rest of the page, and a search loads it."""
    words = "import sys, biofeedback.gui.filter_page; print(*sys.modules)"
    done = subprocess.run(  # noqa: S603  as above
        [sys.executable, "-c", words], capture_output=True, encoding="utf-8", check=True
    )
    assert "scipy" not in done.stdout.split()
