"""A label that shortens what has no room, held against what it paints."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage

from biofeedback.gui.short_label import ShortLabel

if TYPE_CHECKING:
    import numpy.typing as npt
    from pytestqt.qtbot import QtBot

WIDE_PX = 300
PLENTY_PX = 400
"""More than any of the words needs."""
BELOW_PX = 4
"""Frame and padding below the words of a message."""
STYLE = f"""
QLabel {{ background: white; color: black; font-size: 14px; }}
QLabel#message {{ border: 1px solid white; border-left: 5px solid white;
    padding: {BELOW_PX - 1}px 6px; }}
"""
WORDS = ("An invented message of many words " * 8).split()


@pytest.fixture(params=["message", "earlier"])
def label(request: pytest.FixtureRequest, qtbot: QtBot) -> ShortLabel:
    made = ShortLabel()
    made.setObjectName(request.param)
    made.setStyleSheet(STYLE)
    made.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
    made.key = "Alt+Y"
    qtbot.addWidget(made)
    made.resize(WIDE_PX, PLENTY_PX)
    made.show()
    return made


def ink(label: ShortLabel) -> npt.NDArray[np.bool_]:
    """Where it is dark."""
    image = label.grab().toImage().convertToFormat(QImage.Format.Format_Grayscale8)
    rows = np.frombuffer(image.constBits(), np.uint8)
    return rows.reshape(image.height(), -1)[:, : image.width()] < 128


@pytest.mark.parametrize("count", [1, 9, 40])
def test_the_height_that_is_needed_is_that_of_what_is_painted(
    label: ShortLabel, count: int
) -> None:
    label.tell(" ".join((*WORDS[:count], "pg")))
    in_plenty = ink(label)
    needed_px = label.needed_px()
    below_px = needed_px - 1 - int(np.nonzero(in_plenty)[0].max())
    frame_px = BELOW_PX if label.objectName() == "message" else 0
    assert frame_px <= below_px <= frame_px + 3
    label.resize(WIDE_PX, needed_px)
    assert not label.shortened
    np.testing.assert_array_equal(ink(label), in_plenty[:needed_px])
    label.resize(WIDE_PX, needed_px - 1)
    assert label.shortened


def test_what_is_left_out_comes_back_with_the_room(label: ShortLabel) -> None:
    words = " ".join(WORDS)
    label.tell(words, end=WORDS[-1])
    label.resize(WIDE_PX, label.needed_px() // 2)
    assert label.drawn.endswith(f"… (Alt+Y) {WORDS[-1]}")
    assert label.text() == words
    label.resize(WIDE_PX, PLENTY_PX)
    assert label.drawn == words


def test_words_are_no_markup(label: ShortLabel) -> None:
    label.tell("a <br> b")
    lines_px = label.needed_px()
    label.tell("a b")
    assert label.needed_px() == lines_px
    label.tell("<b></b>")
    assert ink(label).any()
