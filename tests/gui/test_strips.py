"""What is painted by strips in a frame, after the part has got another size."""

from __future__ import annotations

from typing import TYPE_CHECKING

from gui.test_hold_timer import held
from PySide6.QtWidgets import QApplication

from biofeedback.gui.balance_bar import BalanceBar
from biofeedback.gui.hold_timer import HoldTimer

if TYPE_CHECKING:
    from PySide6.QtGui import QImage

    from biofeedback.gui.panel import Panel


def on_screen(panel: Panel) -> QImage:
    """What stands on the screen, which was painted piece by piece."""
    QApplication.processEvents()
    return panel.screen().grabWindow(panel.winId()).toImage()


def test_a_bubble_leaves_nothing_behind_where_the_bar_got_another_size(
    qapp: QApplication,
) -> None:
    del qapp
    bar = BalanceBar()
    bar.setGeometry(0, 0, 1000, 60)
    bar.show()
    bar.show_forces(1.0, 40.0, 60.0)
    on_screen(bar)
    bar.resize(640, 60)
    on_screen(bar)
    bar.show_forces(1.02, 30.0, 70.0)  # the figures are not due
    by_strips = on_screen(bar)
    bar.update()
    assert on_screen(bar) == by_strips
    bar.close()


def test_a_timer_is_filled_without_a_hole_where_it_got_another_size(
    qapp: QApplication,
) -> None:
    del qapp
    timer = HoldTimer()
    timer.setGeometry(0, 0, 1000, 60)
    timer.show()
    timer.show_state(held(5.1), hold_s=10.0, live=True)
    on_screen(timer)
    timer.resize(500, 60)
    on_screen(timer)
    timer.show_state(held(5.9), hold_s=10.0, live=True)  # within the same second
    by_strips = on_screen(timer)
    timer.update()
    assert on_screen(timer) == by_strips
    timer.close()
