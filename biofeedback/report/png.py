"""An image as the bytes of a PNG file, so that it can be written whole."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QBuffer, QIODevice

if TYPE_CHECKING:
    from PySide6.QtGui import QImage


def png_of(image: QImage) -> bytes:
    """The file's content."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG")  # type: ignore[call-overload]  # a format as text is taken
    return bytes(buffer.data().data())
