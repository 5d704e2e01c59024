"""Something on each page of the window that the logbook of the demo has nothing for."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication

from biofeedback.session.maximal_test import Stage

if TYPE_CHECKING:
    from collections.abc import Callable

    from biofeedback.gui.window import Window
    from biofeedback.session import Session

REPEATED = Path(__file__).parents[1] / "vectors" / "weir_2005_a.csv"
FRAMES_MOST = 20_000
ATHLETES = 21


def fill_pages(session: Session, window: Window, folder: Path) -> None:
    """A visit, a maximal test that is over, pairs of a group, and repeated scores."""
    desk, mounted = window.desk, window.mounted

    def until(reached: Callable[[], object]) -> None:
        for _ in range(FRAMES_MOST):
            if reached():
                return
            session.step()
            window.frame()
        message = "what was waited for did not come"
        raise TimeoutError(message)

    _do_test(window, until)
    _do_set(window, until)
    window.pages.press(desk.pages.group)
    mounted.group.open(_pairs(folder))
    window.pages.press(desk.pages.reliability)
    mounted.reliability.take_file(REPEATED)
    window.pages.show_live()
    QCoreApplication.processEvents()


def _do_test(window: Window, until: Callable[[Callable[[], object]], None]) -> None:
    page, desk = window.mounted.test, window.desk
    window.pages.press(desk.pages.test)
    page.setup.choose(window.visit.asked.task)
    for name, text in {"rest_s": "10", "practice_rest_s": "1", "practice": "1"}.items():
        page.setup.fields[name].set_text(text)
    page.begin.click()
    until(lambda: page.test is not None and len(page.test.trials) == 3)
    desk.stop.click()
    until(lambda: page.test is not None and page.test.stage is Stage.OVER)


def _do_set(window: Window, until: Callable[[Callable[[], object]], None]) -> None:
    desk, today = window.desk, window.mounted.today
    window.pages.press(desk.pages.today)
    today.now.buttons[2].click()
    today.morning.buttons[1].click()
    desk.start.click()
    until(lambda: desk.in_set)
    desk.form.band.wider.click()
    desk.stop.click()
    until(lambda: not desk.in_set)


def _pairs(folder: Path) -> Path:
    rows = [(360 + 9 * at, 375 + 7 * at + at * 37 % 41 - 20) for at in range(ATHLETES)]
    lines = [f"INV-{at % 19},{iso},{ecc}" for at, (iso, ecc) in enumerate(rows)]
    table = folder / "invented_pairs.csv"
    table.write_text("\n".join(["athlete,isometric_n,eccentric_n", *lines]))
    return table
