"""A table to read from, the same on every page."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView

if TYPE_CHECKING:
    from PySide6.QtCore import QAbstractItemModel


def plain_table(
    model: QAbstractItemModel,
    name: str,
    *,
    stretch: int,
    view: QTableView | None = None,
) -> QTableView:
    """A table to read from.

    Args:
        stretch: the column that takes up the room that is left.
        view: made into one; None for a new one.
    """
    view = view or QTableView()
    view.setAccessibleName(name)
    view.setModel(model)
    view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    view.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
    view.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    view.setAlternatingRowColors(True)
    view.setShowGrid(False)
    view.verticalHeader().hide()
    rows = view.verticalHeader()
    rows.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    header = view.horizontalHeader()
    header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    header.setSectionResizeMode(stretch, QHeaderView.ResizeMode.Stretch)
    return view
